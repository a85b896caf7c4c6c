"""label: a tag is put on wires, so that they can be told in the car; changes no wire."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes.kind import Kind, Said, no_ends, no_name, touches_nothing, wires_of
from aswired.car.loom import WorkingHarness
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    """Nothing changes on the wires; they must be in the car to be tagged."""
    for wire in row.wire_names:
        loom.wire(wire, row)


def _facts(row: Change) -> Iterator[Said]:
    yield from (Said(key, key, words) for key, words in (("reads", row.reads), ("tag", row.tag)) if words)


KIND = Kind(
    name="label",
    means="a tag put on wires at a place: what stands on it",
    written=(
        "a tag put on a `wire:` or on several `wires:` at a place (`where:`): what it `reads:`, and what "
        "the `tag:` is: a printed sleeve, a wrap-around flag"
    ),
    keys=("wire", "wires", "was", "where", "reads", "tag"),
    needs=(("wire", "wires"), ("where",), ("reads",)), apply=apply, touches=touches_nothing,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="nothing", does="", cuts=False, joints=False, grounds=False,
    turn=13, visit="", concerns="wires",
    heading=lambda row: f"Tag on {wires_of(row)}",
    lengths={}, facts=_facts, ticks=lambda row, jointed: ("tagged",),
)  # fmt: skip
