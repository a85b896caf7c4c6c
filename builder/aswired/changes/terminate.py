"""terminate: an end of a wire gets a new terminal in a cavity, with a piece let in or as it is."""

from __future__ import annotations

from aswired.changes.move import move_end
from aswired.harness import NodeKind
from aswired.loom import Loom, Refused
from aswired.model import Change

NAME = "terminate"
MEANS = "an end of a wire put into a cavity with a new terminal"
KEYS = (
    "wire", "was", "end", "into", "terminal", "gap", "reach", "tail", "pigtail", "slack", "overlap", "joint",
    "cover", "piece", "cut", "where",
)  # fmt: skip
NEEDS = (("wire",), ("into",))


def apply(row: Change, loom: Loom) -> None:
    loom.wire(row.wire, row)
    to = loom.target(row.into, "into")
    if loom.s.nodes[to].kind is NodeKind.CAVITY and loom.members(to) and "double crimp" not in row.terminal:
        taken = loom.members(to)[0].wire
        raise Refused(
            f"cavity '{row.into}' already holds wire '{taken}'",
            "Name another cavity, or write terminal: double crimp",
            "into",
        )
    move_end(row, loom, row.wire, to, "terminal")
