"""Current through a fuse or a ground point's way back: the loads behind it added up, or what the network gives it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from aswired.figures.electric import total_current
from aswired.network.transfer import NO_SHARE, SOLVED, UnitSolutions, is_whole
from aswired.physics.figure import Figure


@dataclass(frozen=True)
class Passing:
    """What passes a branch with every load on that can be on together.

    `drawing` are all the loads that are on then, with their currents [A]; `loads` those of them whose traced way passes
    it. `adds_up`: its current is theirs, each whole, and no other's.
    """

    drawing: Mapping[str, float | None]
    loads: tuple[str, ...]
    adds_up: bool


def passing(transfer: UnitSolutions, branch: str, loads: tuple[str, ...]) -> Passing:
    """`branch` is its key in the grid, `loads` those whose traced way passes it.

    Where none of them is ever on with the rest, as on a starter's own point, they are on and nothing else.
    """
    together = transfer.together()
    on = tuple(load for load in loads if load in together) or loads
    drawing = together if not loads or set(on) & set(together) else {load: transfer.stated[load] for load in on}
    shares = {
        load: share
        for load, share in transfer.takers.get(transfer.grid.run_of.get(branch, -1), ())
        if load in drawing and abs(share) > NO_SHARE
    }
    whole = shares.keys() == set(on) and all(is_whole(share) for share in shares.values())
    return Passing(drawing, on, whole)


def current_through(transfer: UnitSolutions, branch: str, name: str, loads: tuple[str, ...]) -> Figure:
    """Current of a fuse or cable with every load on that can be on together. [A]

    `branch` is its key in the grid, `loads` those whose traced way passes it. Where their currents divide, or others
    come this way too, the figure is the network's solution and not their sum.
    """
    found = passing(transfer, branch, loads)
    total = total_current(transfer.grid.job, name, found.loads)
    if found.adds_up:
        return total
    through = transfer.through(branch, found.drawing)
    return replace(
        total,
        value=through.volts,
        rule=SOLVED,
        formula="share of the currents that takes this way",
        missing=through.missing,
    )
