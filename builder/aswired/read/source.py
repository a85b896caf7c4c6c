"""The lines of one job file, as they are shown in messages."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

import yaml

from aswired.diagnostics import Location

_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})  # categories of Unicode that print as nothing, or steer
_SHOWN = 160  # characters of a line


@dataclass(frozen=True)
class Source:
    """The lines of one file. `name` is relative to the job folder."""

    name: str
    lines: tuple[str, ...]

    def at(self, line: int) -> Location:
        """The place of a line counted from 1."""
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Location(self.name, line, visible(text))

    def of(self, node: yaml.Node) -> Location:
        return self.at(node.start_mark.line + 1)


def visible(line: str) -> str:
    """A line as it may stand on a screen: a tab as an arrow, and nothing that is unseen or steers the terminal.

    >>> visible("\\tslack:\\x1b[31m 50 mm")
    '→slack:�[31m 50 mm'
    """
    marked = line.rstrip().replace("\t", "\u2192")
    return "".join("\ufffd" if unicodedata.category(char) in _UNSEEN else char for char in marked[:_SHOWN])
