"""join: several cut or freed ends meet in one new splice."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes.kind import Kind, done_and_tested, no_ends, no_facts, no_name, wires_of
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness
from aswired.car.loom.working import ROW03
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    if len(row.ends) < 2:
        raise Refused("a splice needs two ends at least", "Write ends: [W70 at FS5, C30-W61-FS9]", "ends")
    taken: list[tuple[int, str, str]] = []
    for written in row.ends:
        taken.append(_end(row, loom, written))
    if len({(number, node) for number, node, _ in taken}) < len(taken):
        raise Refused("the same end is named twice", "Name each end once", "ends")
    wires = tuple(dict.fromkeys(wire for _, _, wire in taken))
    loom.joint(row, row.id, wires, where=row.where)
    for number, node, wire in taken:
        run = loom.s.runs[number]
        loom.s.runs[number] = run.moved(node, row.id)
        loom.detach(node, wire, row.id)
        loom.touched(wire, row.id)


def _end(row: Change, loom: WorkingHarness, written: str) -> tuple[int, str, str]:
    """`W70 at FS5` or the name of a cut end: the run, its node, its wire."""
    wire, at, where = written.partition(" at ")
    if at:
        loom.wire(wire, row)
        number, node = loom.end_of(wire, where, "ends")
        return number, node, wire
    found = loom.find(written)
    if found is None or loom.s.nodes[found].kind is not NodeKind.STUB:
        raise Refused(
            f"'{written}' is not a cut end",
            "Write W70 at FS5, or the id of a cut end such as C30-W61-FS9",
            "ends",
            ROW03,
            (written,),
        )
    number, run = next(iter(loom.s.runs.at(found).items()))
    return number, found, run.wire


def touches(row: Change, loom: WorkingHarness) -> Iterator[str]:
    """The wires whose ends are named."""
    for written in row.ends:
        wire, at, _ = written.partition(" at ")
        members = loom.members(written) if written in loom.s.nodes else []
        yield wire if at else members[0].wire if members else ""


KIND = Kind(
    name="join",
    means="ends of several wires brought together in one splice",
    written="`ends: [W70 at FS5, C30-W61-FS9]` meet in one new splice",
    keys=("ends", "joint", "overlap", "cover", "where", "shield"),
    needs=(("ends",),), apply=apply, touches=touches,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="wire", does="spliced", cuts=False, joints=True, grounds=False,
    turn=7, visit="", concerns="ends",
    heading=lambda row: f"Splice of {' with '.join(row.ends) or wires_of(row)}",
    lengths={}, facts=no_facts, ticks=done_and_tested("joined"),
)  # fmt: skip
