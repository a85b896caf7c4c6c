"""The kinds of change, one module each, and which of them a row is of."""

from __future__ import annotations

from aswired.car.changes import (
    add,
    bridge,
    cap,
    cover,
    extend,
    ground,
    join,
    label,
    protect,
    remove,
    reroute,
    shorten,
    swap,
    tap,
    terminate,
    verify,
)
from aswired.car.changes.kind import Kind, Said
from aswired.record import Change

__all__ = ["BY_NAME", "KINDS", "Kind", "Said", "kind_of"]

KINDS: tuple[Kind, ...] = tuple(
    module.KIND
    for module in (
        remove, cap, extend, shorten, join, tap, ground, terminate, swap, reroute, protect, bridge, cover, add, verify,
        label,
    )
)  # fmt: skip
BY_NAME = {kind.name: kind for kind in KINDS}


def kind_of(row: Change) -> Kind:
    """The kind of a row of a job, which has passed the reading of the file."""
    return BY_NAME[row.kind]
