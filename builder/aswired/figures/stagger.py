"""Where the splices of a leg would keep every limit, and how planned rows would be cut for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.car.route import Position, Route
from aswired.figures.places import PlacedJoint, computed_position
from aswired.physics.stagger import Keep, broken, spread
from aswired.record import Change, Job


@dataclass(frozen=True)
class Shift:
    """A splice on a leg, where its centre lies and where it would keep every limit (None: nowhere on this leg)."""

    joint: str
    state: str
    at_mm: float
    to_mm: float | None


@dataclass(frozen=True)
class Recut:
    """A planned row with its cuts placed so that all its splices keep the limits. `stagger_mm` is None for one wire."""

    row: str
    pigtail_mm: float
    stagger_mm: float | None


@dataclass(frozen=True)
class Stagger:
    """The splices of one leg that are planned or break a limit, with places that keep it.

    `apart_mm` is what was held from one to the next; `wants_mm` how long the leg would have to be, when it is too
    short; `why` says what no length mends.
    """

    leg: int
    shifts: tuple[Shift, ...]
    apart_mm: float
    wants_mm: float | None
    why: str
    recuts: tuple[Recut, ...]


HOLDS = ("grommet", "clip", "hinge")  # words of a landmark that hold the bundle
_STEP_MM = 5.0  # pigtails are tried in steps of this
_FURTHEST_MM = 400.0  # and no further from the one written than this
_ALIKE_MM = 0.5  # bench measures are not held closer


def staggers(job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route) -> tuple[Stagger, ...]:
    """Legs with planned splices, or with splices that break a limit, each with places that keep it."""
    return tuple(
        found for index in range(len(job.route)) if (found := _leg(job, view, joints, route, index)) is not None
    )


def _leg(job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route, index: int) -> Stagger | None:
    length = job.route[index].length
    whole = length.mm if length else None
    here = sorted(
        (placed for placed in joints if placed.leg == index and placed.offset_mm is not None),
        key=lambda placed: (placed.offset_mm or 0.0, placed.joint.id),
    )
    if not here or whole is None:
        return None
    keeps = tuple(keeps_of(job, route, index, whole))
    places = [placed.offset_mm or 0.0 for placed in here]
    sleeves = [sleeve_of(placed) for placed in here]
    clear, apart = job.limits_in_force["joint clear"].value, job.limits_in_force["joint stagger"].value
    made = [number for number, placed in enumerate(here) if placed.state != "planned"]
    wrong = broken([places[n] for n in made], keeps, [sleeves[n] for n in made], clear - _ALIKE_MM)
    again = {made[number] for number in wrong}  # what is made moves only when it is wrong by itself
    movable = [number for number, placed in enumerate(here) if placed.state == "planned" or number in again]
    if not movable:
        return None
    for held in (apart, clear):
        fixed = [
            Keep(places[number], places[number], held, placed.joint.id, sleeves[number])
            for number, placed in enumerate(here)
            if number not in movable
        ]
        found = spread(
            whole,
            [*keeps, *fixed],
            [sleeves[number] for number in movable],
            held,
            [places[number] for number in movable],
        )
        if found.places_mm is not None:
            break
    to = found.places_mm or (None,) * len(movable)
    shifts = tuple(
        Shift(here[number].joint.id, here[number].state, places[number], at)
        for number, at in zip(movable, to, strict=True)
    )
    flexes = "flex" in job.route[index].zone
    why = f"the whole leg from {job.route[index].from_} to {job.route[index].to} flexes" if flexes else ""
    rows = {here[number].joint.row for number in movable if here[number].state == "planned"}
    own = (row for row in job.changes if row.id in rows and row is job.change(row.id))
    recuts = tuple(recut for row in own if (recut := _recut(job, view, joints, route, row)) is not None)
    return Stagger(index, shifts, held, found.wants_mm, why, recuts)


def sleeve_of(placed: PlacedJoint) -> float:
    """Length of a splice's sleeve; 0 when it is not recorded. [mm]"""
    cover = placed.joint.cover
    return cover.length_mm or 0.0 if cover is not None and cover.sleeve else 0.0


def keeps_of(job: Job, route: Route, index: int, whole_mm: float) -> Iterator[Keep]:
    """What a splice on this leg stays clear of: its ends where they branch or hold the bundle, connectors, flexing."""
    leg, clear = job.route[index], job.limits_in_force["joint clear"].value
    if "flex" in leg.zone:
        yield Keep(0.0, whole_mm, 0.0, "flexes")
    for landmark, at in ((leg.from_, 0.0), (leg.to, whole_mm)):
        words = job.landmarks.get(landmark, "").casefold()
        held = landmark in job.holes or any(what in words for what in HOLDS)
        if route.branches(landmark) or held or _parts_at(job, route, landmark):
            yield Keep(at, at, clear, landmark)
    for name in (*job.plugs, *job.modules):
        found = route.of_end(name)
        if found is not None and found.leg == index and found.offset_mm is not None:
            yield Keep(found.offset_mm, found.offset_mm, clear, name)


def _parts_at(job: Job, route: Route, landmark: str) -> bool:
    """Whether a connector is said to be at a landmark."""
    places = (route.of_end(name) for name in (*job.plugs, *job.modules))
    return any(found is not None and found.landmark == landmark for found in places)


def _recut(job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route, row: Change) -> Recut | None:
    """Pigtail and stagger, nearest to those written, with which all splices of a planned row keep the limits."""
    pigtail = row.pigtail.mm if row.pigtail else None
    step = row.stagger or job.usual.stagger
    stagger = step.mm if step else None
    wires = row.wire_names
    if not kind_of(row).staggers or pigtail is None or (len(wires) > 1 and stagger is None):
        return None
    if row.tail is not None:
        return None  # its two cuts are written: the one does not follow the other
    own = [placed for placed in joints if placed.joint.row == row.id]
    others = [placed for placed in joints if placed.joint.row != row.id]
    if any(placed.joint.recorded_place for placed in own) or not own:
        return None  # its places are written: they do not follow the pigtail
    apart = job.limits_in_force["joint stagger"].value
    steps = (0.0,) if stagger is None or len(wires) == 1 else tuple(dict.fromkeys((stagger, apart, apart + 10)))
    tries = [
        (new, gap)
        for gap in steps
        for number in range(int(_FURTHEST_MM // _STEP_MM) + 1)
        for new in {pigtail + number * _STEP_MM, pigtail - number * _STEP_MM}
        if new > 0
    ]
    tries.sort(key=lambda tried: (abs(tried[0] - pigtail) + len(wires) * abs(tried[1] - (stagger or 0.0)), tried))
    for new, gap in tries:
        moved = {wire: new - pigtail + number * (gap - (stagger or 0.0)) for number, wire in enumerate(wires)}
        places = [_moved(view, route, row, placed, moved[placed.joint.wires[0]]) for placed in own]
        if all(place is not None for place in places) and _keeps_limits(job, route, own, places, others):
            as_written = new == pigtail and (len(wires) == 1 or gap == stagger)
            return None if as_written else Recut(row.id, new, gap if len(wires) > 1 else None)
    return None


def _moved(view: View, route: Route, row: Change, placed: PlacedJoint, by_mm: float) -> Position | None:
    """Where a splice of the row comes to lie with a pigtail longer by so much."""
    joint = placed.joint
    if joint.beside_mm is None:
        return None
    from_plug = view.is_end(joint.from_end, row.end) or joint.from_end.partition(".")[0] == row.plug
    other = None if joint.other_mm is None else joint.other_mm + (-by_mm if from_plug else by_mm)
    moved = replace(joint, beside_mm=joint.beside_mm + (by_mm if from_plug else -by_mm), other_mm=other)
    return computed_position(view, route, moved)


def _keeps_limits(
    job: Job, route: Route, own: list[PlacedJoint], places: list[Position | None], others: list[PlacedJoint]
) -> bool:
    legs = {place.leg for place in places if place is not None}
    if None in legs:
        return False  # at a landmark
    for index in legs:
        if index is None:
            continue
        length = job.route[index].length
        whole = length.mm if length else None
        if whole is None:
            return False
        at = [
            (place.offset_mm, sleeve_of(placed))
            for placed, place in zip(own, places, strict=True)
            if place is not None and place.leg == index and place.offset_mm is not None
        ]
        fixed = [(placed.offset_mm, sleeve_of(placed)) for placed in others if placed.leg == index]
        keeps = [
            *keeps_of(job, route, index, whole),
            *(
                Keep(mm, mm, job.limits_in_force["joint stagger"].value, "", sleeve)
                for mm, sleeve in fixed
                if mm is not None
            ),
        ]
        if broken(
            [mm for mm, _ in at], keeps, [sleeve for _, sleeve in at], job.limits_in_force["joint stagger"].value
        ):
            return False
    return True
