"""Values that a comma inside { } cut in two: what was meant as one value reads as a value and a key without one."""

from __future__ import annotations

from dataclasses import dataclass

import yaml

from aswired.text.source import Source
from aswired.text.units import DECIMAL_COMMA, with_point

Pair = tuple[Source, yaml.Node, yaml.Node]


@dataclass(frozen=True)
class Torn:
    """A value in pieces: the key it stands behind, and the whole as it was typed."""

    source: Source
    key: yaml.ScalarNode
    written: str

    @property
    def problem(self) -> str:
        return f"{self.key.value}: the comma in '{self.written}' ends the value, as any comma inside {{ }} does"

    def mend(self, is_list: bool) -> str:
        if DECIMAL_COMMA.search(self.written):
            return f"Write {self.key.value}: {with_point(self.written)}"
        if is_list:
            return f"Put the list in brackets: {self.key.value}: [{self.written}]"
        return f'Put the value in quotes: {self.key.value}: "{self.written}"'


def put_together(pairs: tuple[Pair, ...]) -> tuple[tuple[Pair, ...], tuple[Torn, ...]]:
    """The pairs without the torn values and their tails, and the torn values."""
    whole: list[Pair] = []
    torn: list[Torn] = []
    at = 0
    while at < len(pairs):
        source, key, value = pairs[at]
        end = at + 1
        if isinstance(value, yaml.ScalarNode) and value.value and not value.style:
            while end < len(pairs) and _stands_alone(source, pairs[end]):
                end += 1
        if end > at + 1 and isinstance(key, yaml.ScalarNode):
            torn.append(Torn(source, key, _written(source, value, [tail for _, tail, _ in pairs[at + 1 : end]])))
        else:
            whole.append(pairs[at])
        at = end
    return tuple(whole), tuple(torn)


def _stands_alone(source: Source, pair: Pair) -> bool:
    """Whether a key has neither a value nor a colon: only a comma or the closing bracket follows it."""
    here, key, value = pair
    if here is not source or not isinstance(key, yaml.ScalarNode) or not isinstance(value, yaml.ScalarNode):
        return False
    if value.value or value.style or key.style:
        return False
    mark = key.end_mark
    line = source.lines[mark.line] if mark.line < len(source.lines) else ""
    return line[mark.column :].lstrip()[:1] in (",", "}")


def _written(source: Source, value: yaml.Node, tails: list[yaml.Node]) -> str:
    first, last = value.start_mark, tails[-1].end_mark
    if first.line == last.line:
        return source.lines[first.line][first.column : last.column]
    return ", ".join(str(node.value) for node in (value, *tails))
