"""Which options have to do with each other: rows of two that touch nothing in common cannot spoil one another (F19)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from aswired.car.changes import kind_of
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE
from aswired.record import Change, Job
from aswired.text.units import is_named

ENDS_OF_ALL = (BATTERY_POSITIVE, BATTERY_NEGATIVE)  # every circuit ends there, and no trace leads on


def parts_touched(job: Job) -> Mapping[str, frozenset[str]]:
    """Option -> the parts of the harness that its rows touch, a name for each connected part.

    What is joined by wires, splices, switches, fuses, loads, shared offcuts or rows that name each other is one part;
    ground points and battery posts join nothing. Options whose parts are apart change nothing for one another: no row
    is refused, no end opened and no load orphaned by both that is not by one of them.
    """
    if all(row.only_if is None for row in job.changes):
        return {}
    parts, ids = _Groups(), {row.id for row in job.changes}
    for names in (*_of_the_donor(job), *(_of_row(job, row, ids) for row in job.changes)):
        parts.join(name for name in names if name and name not in ENDS_OF_ALL and name not in job.grounds)
    found: dict[str, set[str]] = {}
    for row in job.changes:
        if row.only_if is not None and kind_of(row).alters_harness:
            found.setdefault(row.only_if.option, set()).add(parts.of(f"row {row.id}"))
    return {option: frozenset(parts.of(name) for name in names) for option, names in found.items()}


class _Groups:
    """Names that belong together, each part known by one of its names."""

    def __init__(self) -> None:
        self._up: dict[str, str] = {}

    def of(self, name: str) -> str:
        while (up := self._up.setdefault(name, name)) != name:
            self._up[name] = self._up[up]
            name = up
        return name

    def join(self, names: Iterable[str]) -> None:
        tops = [self.of(name) for name in names]
        for top in tops[1:]:
            self._up[self.of(top)] = self.of(tops[0])


def _of_the_donor(job: Job) -> Iterator[tuple[str, ...]]:
    for name, wire in job.wires.items():
        ends = (end for end in (wire.from_, wire.to, wire.via) if is_named(end))
        yield (f"wire {name}", *ends)
    for load in job.loads.values():
        yield load.between or ()
    for switch in job.switches.values():
        yield switch.between or ()
    for name in job.fuses:
        yield name, f"{name}.feed"


def _of_row(job: Job, row: Change, ids: set[str]) -> tuple[str, ...]:
    """Everything a row names that another row could find changed."""
    kind = kind_of(row)
    if not kind.alters_harness:
        return ()
    pieces = [row.piece, *(row.piece_of(wire) for wire in row.wire_names)]
    written = [
        row.end,
        "" if kind.grounds else row.to,
        row.from_,
        row.into,
        row.fuse,
        row.fuse and f"{row.fuse}.feed",
    ]
    written += [row.ring.shared_with if row.ring is not None else "", row.corrects, row.redoes, *row.spare]
    written += [end for wire in row.wire_names for end in row.fates_of(wire)]
    written += row.was.ends if row.was is not None else ()
    wires = [*row.wire_names, row.onto]
    for end in row.ends:
        wire, _, at = end.rpartition(" at ")
        wires.append(wire)
        written.append(at)
    names = [f"row {row.id}", *(f"wire {wire}" for wire in wires if wire)]
    names += [f"offcut {piece.offcut}" for piece in pieces if piece is not None and piece.offcut]
    names += [f"offcut {name}" for name in row.reclaimed]
    names += [f"row {id}" for end in written for id in _rows_named(end, ids)]
    if kind.concerns == "parts":
        names += [f"plug {name}" for name in (row.plug, row.new_plug, row.relay) if name]
    if row.new_plug:  # it is held to every cavity of both plugs
        names += [end for wire in job.wires.values() for end in (wire.from_, wire.to) if _at(row, end)]
        names += [f"{row.plug}.{old}" for old in row.cavities]
        names += [f"{row.new_plug}.{new}" for new in row.cavities.values()]
    return (*names, *(end for end in written if end and is_named(end)))


def _rows_named(end: str, ids: set[str]) -> Iterator[str]:
    """The rows that a written end may mean: it is the row, or a splice or cut end that the row makes."""
    parts = end.split("-")
    return (id for count in range(len(parts), 0, -1) if (id := "-".join(parts[:count])) in ids)


def _at(row: Change, end: str) -> bool:
    return bool(row.plug) and end.partition(".")[0] in (row.plug, row.new_plug)
