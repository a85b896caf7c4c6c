"""terminate: an end of a wire gets a new terminal in a cavity, with a piece let in or as it is."""

from __future__ import annotations

from aswired.car.changes.kind import (
    MOVED_LENGTHS,
    Kind,
    at_end,
    moved_and_tested,
    named_wires,
    no_ends,
    no_facts,
    no_name,
    wires_of,
)
from aswired.car.changes.move import move_end
from aswired.car.loom import WorkingHarness
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    loom.wire(row.wire, row)
    to = loom.target(row.into, "into", row.wire)
    loom.free_cavity(to, row.into, row, "into")
    move_end(row, loom, row.wire, to, "terminal")


def _heading(row: Change) -> str:
    return f"New terminal on {wires_of(row)}{at_end(row)}" + (f", now in {row.into}" if row.into else "")


KIND = Kind(
    name="terminate",
    means="an end of a wire put into a cavity with a new terminal",
    written="one end `into:` a cavity with a new terminal",
    keys=("wire", "was", "end", "into", "terminal", "gap", "reach", "tail", "pigtail", "slack", "overlap", "joint",
        "cover", "piece", "cut", "where", "insulation", "conductor", "terminal fixed", "shield", "untwisted"),
    needs=(("wire",), ("into",)), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=lambda row: row.into, terminals=lambda row: (row.into,),
    alters="wire", does="", cuts=False, joints=False, grounds=False,
    turn=12, visit="", concerns="ends",
    heading=_heading,
    lengths=MOVED_LENGTHS, facts=no_facts, ticks=moved_and_tested,
)  # fmt: skip
