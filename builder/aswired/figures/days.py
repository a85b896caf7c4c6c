"""The car as it stood on the day of a reading, at the volts of that moment."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property

from aswired.car.asbuilt import FoldCache, fold
from aswired.car.asbuilt.order import order
from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.car.route import Route
from aswired.car.trace import circuits
from aswired.figures.electric import transfer_of
from aswired.figures.probes import reachable
from aswired.figures.under_power import Meter
from aswired.network.behaviour import Behaviour
from aswired.network.transfer import UnitSolutions
from aswired.record import Job
from aswired.text.units import Quantity


class CarsOfTheirDays:
    """The car as it stood on the day of a reading, at the volts of that moment. Each is worked out once.

    `views` are those that are folded already: one behind the same rows is taken in place of a fold of its own.
    """

    def __init__(self, job: Job, route: Route, views: Iterable[View] = ()) -> None:
        self.job = job
        self._route = route
        self._views = tuple(views)
        self._shared = FoldCache(job)
        self._transfers: dict[datetime.date, UnitSolutions] = {}
        self._meters: dict[tuple[datetime.date, float], Meter] = {}

    def transfer(self, day: datetime.date) -> UnitSolutions:
        """The network of one day, parts as they had been measured before it."""
        if day not in self._transfers:
            before = tuple(r for r in self.job.readings if r.day is not None and r.day < day)
            then = replace(self.job, readings=before)
            view = self.view(day)
            self._transfers[day] = transfer_of(then, view, circuits(then, view))
        return self._transfers[day]

    def view(self, day: datetime.date) -> View:
        """The harness as it stood on one day."""
        rows = self._rows(day)
        if rows not in self._folded:
            self._folded[rows] = fold(self.job, "now", day, self._route, self._shared)
        return self._folded[rows]

    @cached_property
    def _folded(self) -> dict[tuple[str, ...], View]:
        return {self._rows(view.day): view for view in self._views if view.day is not None}

    def _rows(self, day: datetime.date) -> tuple[str, ...]:
        """The rows behind which the harness stands on a day."""
        return tuple(row.id for row in order(self.job, "now", day).rows if kind_of(row).alters_harness)

    def meter(self, day: datetime.date, supply: Quantity) -> Meter:
        """The car of one day under power. `supply` in V; the job's own has to be recorded."""
        key = (day, supply.value or 0.0)
        if key not in self._meters:
            transfer = self.transfer(day)
            behaviour = Behaviour(transfer.grid, transfer.circuits, supply.value)
            self._meters[key] = Meter(transfer, behaviour, reachable(transfer.grid))
        return self._meters[key]
