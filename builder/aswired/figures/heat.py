"""Which legs a wire runs through, and how hot it gets there: as recorded, never guessed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from aswired.car.harness import Stretch, View
from aswired.car.route import Position, Route
from aswired.figures.places import PlacedJoint
from aswired.record import Job, Leg


def heat_of(job: Job, leg: Leg) -> float | None:
    """How hot a leg gets: as measured, else the shop's figure for a leg that is marked hot. [°C]"""
    if leg.hottest is not None and leg.hottest.value is not None:
        return leg.hottest.value
    return job.limits_in_force["hot zone"].value if "hot" in leg.zone else None


def positions_of(job: Job, joints: Iterable[PlacedJoint]) -> dict[str, Position]:
    """Joint -> its place on the route; those whose place is not on record are left out.

    A joint that lies at the end of a leg lies at the landmark there, on no leg: its wires may lead on by another one.
    """
    return {
        placed.joint.id: _position(job.route[placed.leg], placed.leg, placed.offset_mm)
        for placed in joints
        if placed.leg is not None
    }


def _position(leg: Leg, index: int, offset_mm: float | None) -> Position:
    if offset_mm == 0:
        return Position(leg.from_, None, None)
    if leg.length is not None and offset_mm is not None and offset_mm == leg.length.mm:
        return Position(leg.to, None, None)
    return Position("", index, offset_mm)


def legs_of(view: View, route: Route, places: Mapping[str, Position], stretch: Stretch) -> list[int]:
    """The legs that a stretch runs through, as indices of the route; none where its way is not recorded."""
    return _legs(view, route, places, stretch) or []


def _legs(view: View, route: Route, places: Mapping[str, Position], stretch: Stretch) -> list[int] | None:
    """The same; None where its way is not recorded, and an empty list where it stays at one landmark."""
    one, two = (places.get(end) or route.of_end(end) for end in stretch.ends)
    if one is None or two is None:
        return None
    own = [position.leg for position in (one, two) if position.leg is not None]
    if len(own) == 2 and own[0] == own[1]:
        return own[:1]
    hops = route.way(one, two, view.wires[stretch.wire].by)
    return list(dict.fromkeys([*own, *(hop.leg for hop in hops)])) if hops is not None else None


def unplaced(job: Job, view: View, route: Route, joints: Iterable[PlacedJoint]) -> frozenset[int]:
    """Indices of the stretches whose way is not recorded, in a car with a leg of which it is recorded how hot it gets.

    No heat counts for them, which says nothing of how hot they get.
    """
    if not any(heat_of(job, leg) is not None for leg in job.route):
        return frozenset()
    places = positions_of(job, joints)
    return frozenset(
        index for index, stretch in enumerate(view.stretches) if _legs(view, route, places, stretch) is None
    )


def hottest_of(job: Job, view: View, route: Route, joints: Iterable[PlacedJoint]) -> dict[int | str, float]:
    """Index of a stretch -> how hot the hottest leg it runs through gets, where that is on record. [°C]"""
    heat = {index: celsius for index, leg in enumerate(job.route) if (celsius := heat_of(job, leg)) is not None}
    if not heat:
        return {}
    places = positions_of(job, joints)
    found: dict[int | str, float] = {}
    for index, stretch in enumerate(view.stretches):
        passed = [heat[leg] for leg in legs_of(view, route, places, stretch) if leg in heat]
        if passed:
            found[index] = max(passed)
    return found
