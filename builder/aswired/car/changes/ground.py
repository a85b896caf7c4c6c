"""ground: one end of a wire moves to a ground point; everything behind that end moves with it (F9)."""

from __future__ import annotations

from aswired.car.changes.kind import (
    MOVED_LENGTHS,
    Kind,
    moved_and_tested,
    named_wires,
    no_ends,
    no_facts,
    no_name,
    wires_of,
)
from aswired.car.changes.move import behind, move_end
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change
from aswired.text.units import is_loose, is_unknown


def apply(row: Change, loom: WorkingHarness) -> None:
    moved: dict[str, None] = {}
    for wire in row.wire_names:
        loom.wire(wire, row)
        to = loom.target(row.to, "to", wire, ground=True)
        if loom.s.nodes[to].kind not in (NodeKind.GROUND, NodeKind.BATTERY):
            raise Refused(
                f"'{row.to}' is not a ground point",
                "Name a point of 'grounds:', or use kind terminate",
                "to",
                about=(row.to,),
            )
        move_end(row, loom, wire, to, "ring")
        loom.put_ring(row, to, wire)
        moved.update(dict.fromkeys(behind(loom, wire, to)))
    loom.moved_with = tuple(moved)


def _from(end: str) -> str:
    """How the end of a wire left where it was, which the row may not know."""
    if is_loose(end):
        return ", cut off before, brought"
    if is_unknown(end):
        return " moved from where it was, which was not traced,"
    return f" moved from {end}" if end else " moved"


KIND = Kind(
    name="ground",
    means="one end of a wire moved to a ground point, with a piece let in or as it is",
    written="one end to a ground point",
    keys=("wire", "wires", "was", "end", "to", "gap", "reach", "tail", "pigtail", "slack", "overlap", "joint",
        "cover", "piece", "cut", "ring", "where", "insulation", "conductor", "terminal fixed"),
    needs=(("wire", "wires"), ("to",)), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=lambda row: row.to, terminals=lambda row: (row.to,),
    alters="wire", does="", cuts=False, joints=False, grounds=True,
    turn=11, visit="", concerns="ends",
    heading=lambda row: f"Ground of {wires_of(row)}{_from(row.end)}" + (f" to {row.to}" if row.to else ""),
    lengths=MOVED_LENGTHS, facts=no_facts, ticks=moved_and_tested,
)  # fmt: skip
