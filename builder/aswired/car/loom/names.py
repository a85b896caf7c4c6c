"""Names that rows bring along: wires defined on their row, and names close to declared ones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from aswired.car.harness import NodeKind
from aswired.car.loom.working import WorkingHarness
from aswired.record import Change
from aswired.text.diagnostics import near
from aswired.text.one_line import Was


def was_of(rows: Iterable[Change]) -> dict[str, Was]:
    """Wires that are defined on their row by `was:`."""
    return {row.wire: row.was for row in rows if row.was is not None and row.wire}


def ends_named(row: Change) -> Iterator[str]:
    """Every end that a row may make by its first use."""
    yield from filter(None, (row.from_, row.to, row.into))
    if row.fuse:
        yield from (row.fuse, f"{row.fuse}.feed")
    yield from map(str, row.ends)
    yield from (f"{row.new_plug}.{new}" for new in row.cavities.values())


def close_names(loom: WorkingHarness) -> list[tuple[str, str]]:
    """Splices created by their first use whose name is close to a declared one; of a ground point its row tells."""
    declared = [*loom.job.splices, *loom.job.grounds]
    return [
        (node.name, near(node.name, declared)[0])
        for node in loom.s.nodes.values()
        if not node.declared and node.kind is NodeKind.SPLICE and near(node.name, declared)
    ]
