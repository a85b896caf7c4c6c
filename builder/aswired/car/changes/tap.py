"""tap: an end of one wire, or a new lead, is joined to a wire that is not cut (F10)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes.add import lay_lead
from aswired.car.changes.kind import Kind, Said, at_end, done_and_tested, its_wire, no_name, wires_of
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    if row.onto not in loom.s.wires or not loom.runs_of(row.onto):
        loom.wire(row.onto, row, "onto")
    if row.wire == row.onto:
        raise Refused(
            f"wire '{row.wire}' cannot be tapped onto itself",
            "Name the wire that is not cut in onto:",
            "onto",
            about=(row.wire,),
        )
    number, before_mm = _through(row, loom)
    run = loom.s.runs[number]
    start = run.a if before_mm is None or row.from_ == "" else (loom.find(row.from_) or run.a)
    measured_from = start if before_mm is not None else ""
    loom.joint(row, row.id, (row.onto, row.wire), measured_from, before_mm, before_mm, tap=True, where=row.where)
    _split(loom, number, row.id, start, before_mm)
    loom.touched(row.onto, row.id)
    if row.wire in loom.s.wires:
        _move_onto(row, loom)
    else:
        lay_lead(row, loom, row.id, row.to)


def _through(row: Change, loom: WorkingHarness) -> tuple[int, float | None]:
    """The stretch that is tapped and the distance of the tap from its `from:` end. [mm]"""
    if row.from_:
        number, node = loom.end_of(row.onto, row.from_, "from")
        distance = row.tail.mm if row.tail else None
        reach = loom.s.runs[number].reach_mm
        if distance is not None and reach is not None and distance >= reach:
            raise Refused(
                f"{round(distance)} mm from '{node}' lies beyond the {round(reach)} mm of this stretch",
                "Measure again",
                "tail",
                about=(node,),
            )
        return number, distance
    runs = loom.runs_of(row.onto)
    if len(runs) > 1:
        ends = [f"from: {end}" for end in loom.loose_ends(row.onto)]
        raise Refused(
            f"wire '{row.onto}' has splices in it; the row does not say in which stretch the tap lies",
            f"Write the end it was measured from, and how far: {' or '.join(ends)}, and tail: 200 mm",
            "onto",
            about=(row.onto,),
        )
    return next(iter(runs)), None


def _split(loom: WorkingHarness, number: int, joint: str, start: str, before_mm: float | None) -> None:
    run = loom.s.runs.pop(number)
    other = run.other(start)
    after_mm = None if before_mm is None or run.reach_mm is None else run.reach_mm - before_mm
    loom.add(replace(run.part(start, joint, before_mm), via=""))
    loom.add(run.part(other, joint, after_mm))


def _move_onto(row: Change, loom: WorkingHarness) -> None:
    loom.wire(row.wire, row)
    ends = loom.loose_ends(row.wire)
    if not row.end:
        raise Refused(
            f"the row does not say which end of wire '{row.wire}' is joined on",
            f"Write end: {' or end: '.join(ends)}",
            "wire",
            about=(row.wire,),
        )
    number, node = loom.end_of(row.wire, row.end, "end")
    loom.s.runs[number] = loom.s.runs[number].moved(node, row.id)
    loom.detach(node, row.wire, row.id)
    loom.touched(row.wire, row.id)


def _facts(row: Change) -> Iterator[Said]:
    if row.from_:
        yield Said("from", "measured from", row.from_)


def _heading(row: Change) -> str:
    return f"Tap of {wires_of(row)}{at_end(row)}" + (f" onto {row.onto}" if row.onto else "")


KIND = Kind(
    name="tap",
    means="a wire joined onto one that is not cut",
    written=(
        "`wire:` is joined `onto:` a wire that is not cut: which `end:` of a wire that is there, or "
        "`piece:` and `to:` of a new lead; where `onto:` has splices, `from:` one of its ends and `tail:`, "
        "how far"
    ),
    keys=("wire", "was", "end", "onto", "from", "tail", "where", "piece", "to", "reach", "cut", "slack", "overlap",
        "joint", "cover", "terminal", "ring", "insulation", "conductor", "terminal fixed"),
    needs=(("wire",), ("onto",)), apply=apply, touches=lambda row, loom: (row.wire, row.onto),
    brings=its_wire, lead=lambda row: (f"tap {row.id}", row.to), moves_to=no_name, terminals=lambda row: (row.to,),
    alters="wire", does="tapped", cuts=False, joints=True, grounds=False,
    turn=8, visit="", concerns="ends",
    heading=_heading,
    lengths={"tail": "along the wire to the tap"}, facts=_facts, ticks=done_and_tested("joined"),
)  # fmt: skip
