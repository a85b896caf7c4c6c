"""Ways home as rows: each wire with its ends and its size, what it carries and what it may carry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from aswired.figures.ways_home import Carrying
from aswired.sheets.text import amount, size_named
from aswired.text.colours import UNKNOWN, Colour


@dataclass(frozen=True)
class WayRow:
    """A wire or a cable of a way home, in the direction of its current."""

    name: str
    colour: Colour
    cable: bool
    size: str
    length: str
    start: str
    end: str
    amps: str
    rise: str  # its beginning above battery negative
    planned: str
    in_table: bool  # False of a wire for which the planning table has no row
    overloaded: bool


def way_rows(found: Sequence[Carrying], units: str) -> tuple[WayRow, ...]:
    """The wires and cables in their order."""
    return tuple(
        WayRow(
            one.name if one.stretch is not None else "",
            one.stretch.colour if one.stretch is not None else UNKNOWN,
            one.stretch is None,
            size_named(one.size),
            amount(one.length_mm, "mm", units),
            one.start,
            one.end,
            amount(one.amps, "A"),
            amount(one.rise_v, "V"),
            *_planned(one),
            one.overloaded,
        )
        for one in found
    )


def _planned(one: Carrying) -> tuple[str, bool]:
    """What a wire may carry in words, and whether the table has a row for it as far as its size is known."""
    if one.planned_a is None and one.size is not None and one.size.known:
        return "not in the table", False
    return amount(one.planned_a, "A"), True


def overloads(found: Sequence[Carrying]) -> str:
    """The wires that would carry more than they may, in a sentence; '' for none."""
    over = [one for one in found if one.overloaded]
    return "; ".join(f"{one.name} ({size_named(one.size)}) carries {_amps(one)}" for one in over)


def _amps(one: Carrying) -> str:
    return f"{amount(one.amps, 'A')}, may carry {amount(one.planned_a, 'A')}"
