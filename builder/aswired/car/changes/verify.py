"""verify: a test that proves other rows; changes no wire."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes.kind import Kind, Said, no_ends, no_name, touches_nothing, wires_of
from aswired.car.loom import WorkingHarness
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    """Nothing changes on the car; the row is read where readings are shown."""


def _facts(row: Change) -> Iterator[Said]:
    if row.expect:
        yield Said("expect", "should read", row.expect, in_step=False)  # the step says it with its test
    if row.dead_without:
        yield Said("dead without", "circuits dead with the fuse out", ", ".join(row.dead_without))


def _heading(row: Change) -> str:
    return f"Check: {row.test}" if row.test else f"Check of {', '.join(row.proves) or wires_of(row)}"


KIND = Kind(
    name="verify",
    means="a test that proves rows",
    written="a test that `proves:` rows; they count as tested. A reading `of:` the check is its figure",
    keys=("proves", "test", "expect", "wire", "dead without"),
    needs=(("proves",),), apply=apply, touches=touches_nothing,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="nothing", does="", cuts=False, joints=False, grounds=False,
    turn=12, visit="Tests", concerns="wires",
    heading=_heading,
    lengths={}, facts=_facts, ticks=lambda row, jointed: ("tested",),
)  # fmt: skip
