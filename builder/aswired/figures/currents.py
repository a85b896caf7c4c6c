"""Current through a fuse or a ground point's way back: the loads behind it added up, or what the network gives it."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace

from aswired.electric.transfer import Transfer, is_whole
from aswired.figure import Figure
from aswired.figures.electric import total_current


def at_once(on: Container[str], loads: tuple[str, ...]) -> tuple[str, ...]:
    """Those of the loads that are on together; where none of them is, as on a starter's own point, all of them."""
    return tuple(load for load in loads if load in on) or loads


def current_through(transfer: Transfer, branch: str, name: str, loads: tuple[str, ...]) -> Figure:
    """Current of a fuse or cable with every load on that can be on together. [A]

    `branch` is its key in the grid, `loads` those whose traced way passes it. Where their currents divide, or others
    come this way too, the figure is the network's solution and not their sum.
    """
    together = transfer.together()
    on = at_once(together, loads)
    total = total_current(transfer.grid.job, name, on)
    takers = dict(transfer.takers.get(transfer.grid.run_of.get(branch, -1), ()))
    adds_up = takers.keys() == set(on) and all(is_whole(share) for share in takers.values())
    if adds_up or not takers:
        return total
    drawing = {load: transfer.stated[load] for load in transfer.circuits if load in together or load in on}
    through = transfer.through(branch, drawing)
    return replace(
        total,
        value=through.volts,
        rule="nodal solution of the resistive network",
        formula="share of the currents that takes this way",
        missing=through.missing,
    )
