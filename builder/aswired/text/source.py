"""The lines of one job file, as they are shown in messages."""

from __future__ import annotations

from dataclasses import dataclass

import yaml

from aswired.text.diagnostics import Location, visible

_SHOWN = 160  # characters of a line


@dataclass(frozen=True)
class Source:
    """The lines of one file. `name` is relative to the job folder."""

    name: str
    lines: tuple[str, ...]

    def at(self, line: int) -> Location:
        """The place of a line counted from 1."""
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Location(self.name, line, shown(text))

    def of(self, node: yaml.Node) -> Location:
        return self.at(node.start_mark.line + 1)


def shown(line: str) -> str:
    """A line as a message shows it: cut, and marked as cut, where it is too long."""
    line = line.rstrip()
    return visible(line[:_SHOWN]) + (" ..." if len(line) > _SHOWN else "")
