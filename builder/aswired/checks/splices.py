"""Where joints lie: distance to connectors, branches and each other; zone, cover, sleeve, place."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from aswired.car.changes import kind_of
from aswired.car.harness import NodeKind
from aswired.car.route import PlaceError, Position, Route
from aswired.checks.places import misread
from aswired.figures.places import PlacedJoint, computed_position
from aswired.figures.stagger import HOLDS
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.text.diagnostics import Finding, Rule, Severity

PLC03 = Rule("PLC03", Severity.WARNING)
SPL01 = Rule("SPL01", Severity.ERROR)
SPL02 = Rule("SPL02", Severity.WARNING)
SPL03 = Rule("SPL03", Severity.ERROR)
SPL05 = Rule("SPL05", Severity.ERROR)
SPL06 = Rule("SPL06", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    for placed in facts.joints:
        row = facts.job.change(placed.joint.row)
        if row is None:
            continue
        yield from _near_connector(facts, placed, row)
        yield from _cover(facts, placed, row)
        yield from _zone(placed, row)
        yield from _fixed_at(facts, placed, row)
        yield from _place(facts, placed, row)
        yield from _conduit_end(facts, placed, row)
    yield from _neighbours(facts)


def _near_connector(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    joint, clear_mm = placed.joint, facts.job.limits_in_force["joint clear"].value
    kind = facts.plan.nodes[joint.from_end].kind if joint.from_end in facts.plan.nodes else None
    if kind in (NodeKind.CAVITY, NodeKind.MODULE) and joint.centre_mm is not None and joint.centre_mm < clear_mm:
        problem = f"{joint.id} lies {joint.centre_mm:.0f} mm from {joint.from_end}; {clear_mm:.0f} mm is wanted"
        mend = "Cut further from the connector"
        yield SPL01(row.at, joint.id, problem, mend)
    if placed.leg is None or placed.offset_mm is None:
        return
    leg = facts.job.route[placed.leg]
    whole = leg.length.mm if leg.length else None
    for landmark, distance in (
        (leg.from_, placed.offset_mm),
        (leg.to, None if whole is None else whole - placed.offset_mm),
    ):
        if facts.route.branches(landmark) and distance is not None and distance < clear_mm:
            yield SPL01(
                row.at,
                joint.id,
                f"{joint.id} lies {distance:.0f} mm from the branch at {landmark}; {clear_mm:.0f} mm is wanted",
                "Move the joint out of the branch",
            )


def _neighbours(facts: JobResult) -> Iterator[Finding]:
    """Splices too near to one another: on a leg of the route, or, without a place on it, measured from one plug."""
    legs: dict[int | str, list[tuple[float, PlacedJoint]]] = {}
    for placed in facts.joints:
        end = facts.plan.nodes.get(placed.joint.from_end)
        if placed.leg is not None and placed.offset_mm is not None:
            legs.setdefault(placed.leg, []).append((placed.offset_mm, placed))
        elif placed.joint.beside_mm is not None and end is not None and end.kind is NodeKind.CAVITY:
            legs.setdefault(end.name.partition(".")[0], []).append((placed.joint.beside_mm, placed))
    clear_mm, stagger_mm = (
        facts.job.limits_in_force["joint clear"].value,
        facts.job.limits_in_force["joint stagger"].value,
    )
    for joints in legs.values():
        joints.sort(key=lambda pair: (pair[0], pair[1].joint.id))
        for (before, first), (after, second) in pairwise(joints):
            apart = after - before
            row = facts.job.change(second.joint.row)
            near = apart < clear_mm - 0.5
            if row is None or not (near or apart < stagger_mm - 0.5):
                continue
            wanted = clear_mm if near else stagger_mm
            rule = SPL01 if near else SPL02
            problem = f"{first.joint.id} and {second.joint.id} lie {apart:.0f} mm apart; {wanted:.0f} mm is wanted"
            mend = "Stagger the cuts further"
            yield rule(row.at, second.joint.id, problem, mend)


def _cover(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    if joint.cover is None or joint.cover.bare:
        return
    if joint.cover.length_mm is not None and joint.overlap_mm is not None and joint.cover.sleeve:
        over_mm = facts.job.limits_in_force["sleeve over overlap"].value
        wanted = joint.overlap_mm + over_mm
        if joint.cover.length_mm < wanted - 0.5:
            yield SPL06(
                row.line_of("cover"),
                joint.id,
                f"the sleeve on {joint.id} is {joint.cover.length_mm:.0f} mm; "
                f"overlap and {over_mm:.0f} mm make {wanted:.0f} mm",
                "Take a longer sleeve",
            )


def _zone(placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    if "wet" in placed.zone and joint.cover is not None and not joint.cover.adhesive and not joint.cover.bare:
        problem = f"joint {joint.id} lies in a wet zone under '{joint.cover.text}'"
        mend = "Seal it with an adhesive-lined sleeve"
        yield SPL05(row.line_of("cover"), joint.id, problem, mend)
    if "flex" in placed.zone:
        yield SPL03(
            row.at,
            joint.id,
            f"joint {joint.id} lies in a stretch that flexes",
            "Move it to a stretch that does not move",
        )


def _fixed_at(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    """A place at a landmark that holds the bundle, in whichever of its wordings (P4)."""
    joint = placed.joint
    position = _position(facts.route, joint.recorded_place)
    words = facts.job.landmarks.get(position.landmark, "").casefold() if position is not None else ""
    for what in HOLDS:
        if what in words:
            yield SPL03(
                row.line_of("where"), joint.id, f"joint {joint.id} lies at a {what}", f"Move it clear of the {what}"
            )


def _conduit_end(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    """A joint whose sleeve reaches the mouth of a conduit; told only where the place of the joint was measured."""
    joint = placed.joint
    here = _position(facts.route, joint.recorded_place)
    if here is None or joint.cover is None or joint.cover.length_mm is None:
        return
    for wrap in facts.rows_of(facts.plan):
        if not kind_of(wrap).wraps or wrap.cover is None or not wrap.cover.conduit:
            continue
        for end in (wrap.from_, wrap.to):
            mouth = facts.route.of_end(end) if end else None
            apart = facts.route.distance(here, mouth) if mouth is not None else None
            if apart is not None and apart <= joint.cover.length_mm / 2:
                problem = f"joint {joint.id} lies {apart:.0f} mm from the end of the conduit of {wrap.id} at {end}"
                mend = "Let the conduit begin clear of the joint, or run it over the whole of it"
                yield SPL03(row.line_of("where"), joint.id, problem, mend)


def _position(route: Route, place: str) -> Position | None:
    """A recorded place on the route; None for words, and for what _place tells."""
    try:
        return route.place(place) if place else None
    except PlaceError:
        return None


def _place(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    if not joint.recorded_place:
        return
    if wrong := misread(facts.job, facts.route, joint.recorded_place):
        yield wrong.of("", joint.recorded_place, row.line_of("where"), joint.id)
    position = _position(facts.route, joint.recorded_place)
    if position is None:
        return
    computed = computed_position(facts.plan, facts.route, joint)
    if computed is None:
        return
    apart = facts.route.distance(position, computed)
    if apart is not None and apart > facts.job.limits_in_force["place apart"].value:
        problem = f"the recorded place of {joint.id} lies {apart:.0f} mm from where its lengths put it"
        mend = "Measure both again"
        yield PLC03(row.line_of("where"), joint.id, problem, mend)
