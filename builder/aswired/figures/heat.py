"""Which legs a wire runs through, and how hot it gets there: as recorded, never guessed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations

from aswired.car.harness import Stretch, View
from aswired.car.route import Position, Route
from aswired.figures.places import PlacedJoint
from aswired.ledger.record import HotLeg, UnreadHeat
from aswired.record import Job, Leg
from aswired.record.limits import TABLE

_HOT_ZONE_C = next(limit.value for limit in TABLE if limit.key == "hot zone")


def heat_of(job: Job, leg: Leg) -> float | None:
    """How hot a leg gets: as measured, else the figure for a leg that is marked hot. [°C]

    A shop or a job may set that figure higher; lower only the leg itself may say it, by what was measured there.
    """
    if leg.hottest is not None and leg.hottest.value is not None:
        return leg.hottest.value
    return max(job.limits_in_force["hot zone"].value, _HOT_ZONE_C) if "hot" in leg.zone else None


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
    """The legs that a stretch runs through, as indices of the route; none where its way is not recorded.

    Where the place of an end is not on record, it still runs through the legs between the landmarks that it is known to
    pass: those that its wire goes by, and the one at which its other end lies. Of a wire with several such pieces that
    says it of none.
    """
    found = _legs(view, route, places, stretch)
    if found is not None:
        return found
    passed, _ = _passed(view, route, places, stretch)
    return passed if passed and _alone(view, route, places, stretch) else []


def _alone(view: View, route: Route, places: Mapping[str, Position], stretch: Stretch) -> bool:
    """Whether it is the one piece of its wire whose way is not recorded."""
    others = (other for other in view.of_wire(stretch.wire) if other != stretch)
    return all(_legs(view, route, places, other) is not None for other in others)


def _passed(view: View, route: Route, places: Mapping[str, Position], stretch: Stretch) -> tuple[list[int], list[int]]:
    """The legs between the landmarks that a stretch with an end of unknown place passes, if no other piece of its wire
    does; and those that it may pass, where the route leaves a choice."""
    ends = [places.get(end) or route.of_end(end) for end in stretch.ends]
    if None not in ends:
        return [], []
    named = {position.landmark for position in ends if position is not None and position.landmark}
    surely: dict[int, None] = {}
    perhaps: dict[int, None] = {}
    for one, two in combinations(sorted({*named, *view.wires[stretch.wire].by}), 2):
        hops = route.path(one, two)
        if hops is None:
            perhaps.update(dict.fromkeys(route.between({one, two})))
        else:
            surely.update(dict.fromkeys(hop.leg for hop in hops))
    return list(surely), list(perhaps)


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


def hottest_of(job: Job, view: View, route: Route, joints: Iterable[PlacedJoint]) -> dict[int | str, HotLeg]:
    """Index of a stretch, or ground point whose cable it is -> the hottest leg it runs through, where that is on
    record."""
    heat = {index: celsius for index, leg in enumerate(job.route) if (celsius := heat_of(job, leg)) is not None}
    if not heat:
        return {}
    found: dict[int | str, HotLeg] = {}
    for key, legs in _all_legs(job, view, route, joints):
        passed = [leg for leg in legs if leg in heat]
        if passed:
            hottest = max(passed, key=heat.__getitem__)
            leg = job.route[hottest]
            found[key] = HotLeg(heat[hottest], f"{leg.from_} to {leg.to}")
    return found


def celsius_of(hottest: Mapping[int | str, HotLeg]) -> dict[int | str, float]:
    """The same in degrees alone. [°C]"""
    return {key: hot.celsius for key, hot in hottest.items()}


def _all_legs(
    job: Job, view: View, route: Route, joints: Iterable[PlacedJoint]
) -> Iterator[tuple[int | str, list[int]]]:
    """The legs of every stretch, by its index, and of every ground point's cable, by the point's name."""
    places = positions_of(job, joints)
    for index, stretch in enumerate(view.stretches):
        yield index, legs_of(view, route, places, stretch)
    for name, point in job.grounds.items():
        one, two = route.of_end(name), route.of_end(point.back_to) if point.back_to else None
        hops = route.way(one, two, ()) if one is not None and two is not None else None
        yield name, [hop.leg for hop in hops or ()]


def unread_heat(job: Job, view: View, route: Route, joints: Iterable[PlacedJoint]) -> Mapping[int | str, UnreadHeat]:
    """Index of a stretch, or ground point -> a leg by which its heat is not known; those without one are left out."""
    if not any(leg.hottest is not None or heat_of(job, leg) is not None for leg in job.route):
        return {}
    joints = tuple(joints)
    places = positions_of(job, joints)
    found: dict[int | str, UnreadHeat] = {}
    for key, legs in _all_legs(job, view, route, joints):
        for leg in (job.route[index] for index in legs):
            if leg.hottest is not None and heat_of(job, leg) is None:
                found[key] = UnreadHeat(f"{leg.from_} to {leg.to}", leg.line_of("hottest"))
    for index, stretch in enumerate(view.stretches):
        if _legs(view, route, places, stretch) is not None:
            continue
        surely, perhaps = _passed(view, route, places, stretch)
        doubtful = perhaps if _alone(view, route, places, stretch) else [*surely, *perhaps]
        for leg in (job.route[index] for index in doubtful):
            celsius = heat_of(job, leg)
            if celsius is not None:
                found.setdefault(index, UnreadHeat(f"{leg.from_} to {leg.to}", leg.at, celsius))
    return found
