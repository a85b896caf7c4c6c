"""cover: a stretch of the bundle wrapped or put into conduit; changes no wire."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes.kind import Kind, Said, no_ends, no_name, touches_nothing
from aswired.car.loom import WorkingHarness
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    """Nothing electrical changes; the row is read where wraps are shown and checked."""


def _facts(row: Change) -> Iterator[Said]:
    if row.cover is not None:
        yield Said("cover", "covered with", row.cover.text, in_step=False)
    if row.from_:
        yield Said("from", "wrap", f"from {row.from_}" + (f" to {row.to}" if row.to else ""))


def _heading(row: Change) -> str:
    if row.over:
        return f"Cover over {', '.join(row.over)}"
    ends = (f" from {row.from_}" if row.from_ else "", f" to {row.to}" if row.to else "")
    return f"Cover{''.join(ends)}"


KIND = Kind(
    name="cover",
    means="a run of the bundle wrapped, taped or put into conduit",
    written="wrap or conduit `from:` one place `to:` another, `over:` which rows",
    keys=("from", "to", "cover", "over"),
    needs=(("cover",),), apply=apply, touches=touches_nothing,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="nothing", does="", cuts=False, joints=False, grounds=False,
    turn=12, visit="Wraps and conduit", concerns="wires",
    heading=_heading,
    lengths={}, facts=_facts, ticks=lambda row, jointed: ("wrapped",),
)  # fmt: skip
