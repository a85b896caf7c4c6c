"""The kinds of change, one module each. A kind is a module with NAME, MEANS, KEYS, NEEDS and apply(row, loom)."""

from __future__ import annotations

from typing import Protocol

from aswired.car.changes import (
    add,
    bridge,
    cap,
    cover,
    extend,
    ground,
    join,
    protect,
    remove,
    reroute,
    shorten,
    swap,
    tap,
    terminate,
    verify,
)
from aswired.car.loom import Loom
from aswired.record import Change


class Kind(Protocol):
    """What a module must offer to be a kind of change."""

    @property
    def NAME(self) -> str: ...  # as written behind `kind:`

    @property
    def MEANS(self) -> str: ...  # one line for people

    @property
    def KEYS(self) -> tuple[str, ...]: ...  # keys that a row of this kind may have beside the common ones

    @property
    def NEEDS(self) -> tuple[tuple[str, ...], ...]: ...  # groups of keys; one of each group must be written

    def apply(self, row: Change, loom: Loom) -> None:
        """Do to the loom what the row says, or raise loom.Refused."""


KINDS: tuple[Kind, ...] = (
    remove, cap, extend, shorten, join, tap, ground, terminate, swap, reroute, protect, bridge, cover, add, verify,
)  # fmt: skip
