"""Which legs a wire runs through, and how hot it gets there: as recorded, never guessed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from aswired.harness import Stretch, View
from aswired.model import Job, Leg
from aswired.route import Position, Route
from aswired.worked import Placed


def heat_of(job: Job, leg: Leg) -> float | None:
    """How hot a leg gets: as measured, else the shop's figure for a leg that is marked hot. [°C]"""
    if leg.hottest is not None and leg.hottest.value is not None:
        return leg.hottest.value
    return job.held_to["hot zone"].value if "hot" in leg.zone else None


def positions_of(joints: Iterable[Placed]) -> dict[str, Position]:
    """Joint -> its place on the route; those whose place is not on record are left out."""
    return {placed.joint.id: Position("", placed.leg, placed.offset_mm) for placed in joints if placed.leg is not None}


def legs_of(view: View, route: Route, places: Mapping[str, Position], stretch: Stretch) -> list[int]:
    """The legs that a stretch runs through, as indices of the route; none where its way is not recorded."""
    one, two = (places.get(end) or route.of_end(end) for end in stretch.ends)
    if one is None or two is None:
        return []
    own = [position.leg for position in (one, two) if position.leg is not None]
    if len(own) == 2 and own[0] == own[1]:
        return own[:1]
    hops = route.way(one, two, view.wires[stretch.wire].by)
    return list(dict.fromkeys([*own, *(hop.leg for hop in hops)])) if hops is not None else []


def hottest_of(job: Job, view: View, route: Route, joints: Iterable[Placed]) -> dict[int | str, float]:
    """Index of a stretch -> how hot the hottest leg it runs through gets, where that is on record. [°C]"""
    heat = {index: celsius for index, leg in enumerate(job.route) if (celsius := heat_of(job, leg)) is not None}
    if not heat:
        return {}
    places = positions_of(joints)
    found: dict[int | str, float] = {}
    for index, stretch in enumerate(view.stretches):
        passed = [heat[leg] for leg in legs_of(view, route, places, stretch) if leg in heat]
        if passed:
            found[index] = max(passed)
    return found
