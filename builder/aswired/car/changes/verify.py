"""verify: a test that proves other rows; changes no wire."""

from __future__ import annotations

from aswired.car.loom import Loom
from aswired.record import Change

NAME = "verify"
MEANS = "a test that proves rows"
KEYS = (
    "proves", "test", "expect", "wire", "dead without",
)  # fmt: skip
NEEDS = (("proves",),)


def apply(row: Change, loom: Loom) -> None:
    """Nothing changes on the car; the row is read where readings are shown."""
