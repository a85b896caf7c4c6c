"""terminate: an end of a wire gets a new terminal in a cavity, with a piece let in or as it is."""

from __future__ import annotations

from aswired.car.changes.move import move_end
from aswired.car.loom import Loom
from aswired.record import Change

NAME = "terminate"
MEANS = "an end of a wire put into a cavity with a new terminal"
KEYS = (
    "wire", "was", "end", "into", "terminal", "gap", "reach", "tail", "pigtail", "slack", "overlap", "joint",
    "cover", "piece", "cut", "where", "insulation", "conductor", "terminal fixed", "shield", "untwisted",
)  # fmt: skip
NEEDS = (("wire",), ("into",))


def apply(row: Change, loom: Loom) -> None:
    loom.wire(row.wire, row)
    to = loom.target(row.into, "into", row.wire)
    loom.free_cavity(to, row.into, row, "into")
    move_end(row, loom, row.wire, to, "terminal")
