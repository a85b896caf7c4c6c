"""What several pages of one job ask for one after the other is worked out once: the last answer is kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from aswired.car.route import Route
from aswired.figures.electric import transfer_of
from aswired.figures.heat import hottest_of, unplaced
from aswired.figures.worked import Worked
from aswired.network.transfer import Transfer

Answer = TypeVar("Answer")


def latest(make: Callable[[Worked], Answer]) -> Callable[[Worked], Answer]:
    """The function with its last answer kept, for as long as it is asked of the very same job."""
    kept: list[tuple[Worked, Answer]] = []

    def of(worked: Worked) -> Answer:
        if not kept or kept[0][0] is not worked:
            kept[:] = [(worked, make(worked))]
        return kept[0][1]

    return of


@latest
def network_of(worked: Worked) -> Transfer:
    """The network of the shown view."""
    job, shown, route = worked.job, worked.shown, Route(worked.job)
    heat, nowhere = hottest_of(job, shown, route, worked.joints), unplaced(job, shown, route, worked.joints)
    return transfer_of(job, shown, worked.circuits, heat, nowhere)
