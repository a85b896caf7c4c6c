"""cover: a stretch of the bundle wrapped or put into conduit; changes no wire."""

from __future__ import annotations

from aswired.car.loom import Loom
from aswired.record import Change

NAME = "cover"
MEANS = "a run of the bundle wrapped, taped or put into conduit"
KEYS = ("from", "to", "cover", "over")
NEEDS = (("cover",),)


def apply(row: Change, loom: Loom) -> None:
    """Nothing electrical changes; the row is read where wraps are shown and checked."""
