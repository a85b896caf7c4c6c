"""ground: one end of a wire moves to a ground point; everything behind that end moves with it (F9)."""

from __future__ import annotations

from aswired.car.changes.move import behind, move_end
from aswired.car.harness import NodeKind
from aswired.car.loom import Loom, Refused
from aswired.record import Change

NAME = "ground"
MEANS = "one end of a wire moved to a ground point, with a piece let in or as it is"
KEYS = (
    "wire", "wires", "was", "end", "to", "gap", "reach", "tail", "pigtail", "slack", "overlap", "joint",
    "cover", "piece", "cut", "ring", "where", "insulation", "conductor", "terminal fixed",
)  # fmt: skip
NEEDS = (("wire", "wires"), ("to",))


def apply(row: Change, loom: Loom) -> None:
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
