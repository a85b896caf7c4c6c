"""Where the leads of a meter were: points that the car of that day did not have."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence

from aswired.car.harness import View
from aswired.car.route import Route
from aswired.figures.days import CarsOfTheirDays
from aswired.figures.probes import POSTS
from aswired.record import Job, MeterReading
from aswired.text.units import is_unknown


def at_no_point(job: Job, views: Sequence[View], route: Route) -> Iterator[tuple[MeterReading, tuple[str, ...]]]:
    """Readings with a lead at a point that the car of their day did not have, with the keys of those leads.

    Words with a blank between ('negative clamp') are no name and are not looked for. Where a day is not recorded, a
    point of any view counts.
    """
    declared = declared_points(job)
    points = [(view, points_of(view)) for view in views]
    cars = CarsOfTheirDays(job, route, views)
    for reading in job.readings:
        keys = tuple(
            key
            for key, name in (("red", reading.red), ("black", reading.black))
            if name and " " not in name and not is_unknown(name) and name not in declared
            if not _there(name, reading.day, points, cars)
        )
        if keys:
            yield reading, keys


def _there(
    name: str, day: datetime.date | None, points: list[tuple[View, frozenset[str]]], cars: CarsOfTheirDays
) -> bool:
    having = [name in known for _, known in points]
    if day is None or all(having):
        return any(having)
    return name in points_of(cars.view(day))


def points_of(view: View) -> frozenset[str]:
    """Every point of a view that has a name, its fuses with both their sides."""
    vias = (stretch.via for stretch in view.stretches if stretch.via)
    return frozenset((*view.nodes, *vias, *view.fuses, *(f"{fuse}.feed" for fuse in view.fuses)))


def declared_points(job: Job) -> Mapping[str, None]:
    """Points that are there whether a wire ends in them or not: what the job declares of parts."""
    found = dict.fromkeys((*POSTS, *job.grounds))
    for table in (job.loads, job.switches):
        for part in table.values():
            found.update(dict.fromkeys(part.between or ()))
    for name, module in job.modules.items():
        cavities = (*module.out, *module.ground, *module.reference)
        found.update(dict.fromkeys(f"{name}.{cavity}" for cavity in cavities))
    return found
