"""Joints: distance to connectors, branches and each other; zone, cover, sleeve, place, photo."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from aswired.diagnostics import Finding, Severity
from aswired.figures.places import computed_position
from aswired.harness import NodeKind
from aswired.model import Change
from aswired.route import PlaceError, Route
from aswired.units import read_length
from aswired.worked import Placed, Worked

CLEAR_MM = 40.0  # joint to connector, branch or next joint: vehicle makers' repair manuals (read, several)
STAGGER_MM = 50.0  # between neighbouring joints: the same manuals, 2 in (read)
SLEEVE_OVER_MM = 25.0  # sleeve longer than the overlap by so much, about 12 mm a side (read)
PLACE_APART_MM = 20.0  # recorded and computed place may differ by this (house value)


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    photographed = _photographed(facts)
    for placed in facts.joints:
        row = facts.job.change(placed.joint.row)
        if row is None:
            continue
        yield from _near_connector(facts, placed, row)
        yield from _cover(placed, row)
        yield from _zone(placed, row)
        yield from _fixed_at(facts, route, placed, row)
        yield from _place(facts, route, placed, row)
    for row in facts.job.changes:
        joints = [placed.joint.id for placed in facts.joints if placed.joint.row == row.id]
        if joints and row.made is not None and row.id not in photographed:
            what = f"joint {joints[0]} has" if len(joints) == 1 else f"the {len(joints)} joints of {row.id} have"
            yield Finding(
                "PHO03",
                Severity.WARNING,
                row.at,
                row.id,
                f"{what} no photograph",
                "Add one that shows it with a rule; once it is wrapped, let it stand with the reason",
            )
    yield from _neighbours(facts)


def _photographed(facts: Worked) -> set[str]:
    shown = {id for photo in facts.job.photos for id in photo.shows}
    shown |= {id.partition("-")[0] for id in shown}
    return shown | {row.id for row in facts.job.changes if row.photos}


def _near_connector(facts: Worked, placed: Placed, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    kind = facts.plan.nodes[joint.from_end].kind if joint.from_end in facts.plan.nodes else None
    if kind in (NodeKind.CAVITY, NodeKind.MODULE) and joint.centre_mm is not None and joint.centre_mm < CLEAR_MM:
        yield Finding(
            "SPL01",
            Severity.ERROR,
            row.at,
            joint.id,
            f"{joint.id} lies {joint.centre_mm:.0f} mm from {joint.from_end}; {CLEAR_MM:.0f} mm is wanted",
            "Cut further from the connector",
        )
    if placed.leg is None or placed.offset_mm is None:
        return
    leg = facts.job.route[placed.leg]
    whole = leg.length.mm if leg.length else None
    for landmark, distance in (
        (leg.from_, placed.offset_mm),
        (leg.to, None if whole is None else whole - placed.offset_mm),
    ):
        branches = sum(landmark in (other.from_, other.to) for other in facts.job.route) > 2
        if branches and distance is not None and distance < CLEAR_MM:
            yield Finding(
                "SPL01",
                Severity.ERROR,
                row.at,
                joint.id,
                f"{joint.id} lies {distance:.0f} mm from the branch at {landmark}; {CLEAR_MM:.0f} mm is wanted",
                "Move the joint out of the branch",
            )


def _neighbours(facts: Worked) -> Iterator[Finding]:
    legs: dict[int, list[tuple[float, Placed]]] = {}
    for placed in facts.joints:
        if placed.leg is not None and placed.offset_mm is not None:
            legs.setdefault(placed.leg, []).append((placed.offset_mm, placed))
    for joints in legs.values():
        joints.sort(key=lambda pair: (pair[0], pair[1].joint.id))
        for (before, first), (after, second) in pairwise(joints):
            apart = after - before
            row = facts.job.change(second.joint.row)
            if row is None or apart >= STAGGER_MM - 0.5:
                continue
            near, wanted = apart < CLEAR_MM - 0.5, CLEAR_MM if apart < CLEAR_MM - 0.5 else STAGGER_MM
            yield Finding(
                "SPL01" if near else "SPL02",
                Severity.ERROR if near else Severity.WARNING,
                row.at,
                second.joint.id,
                f"{first.joint.id} and {second.joint.id} lie {apart:.0f} mm apart; {wanted:.0f} mm is wanted",
                "Stagger the cuts further",
            )


def _cover(placed: Placed, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    if joint.cover is None:
        return
    if joint.cover.bare:
        made = row.made is not None
        yield Finding(
            "SPL04",
            Severity.STOP if made else Severity.ERROR,
            row.line_of("cover"),
            joint.id,
            f"joint {joint.id} is bare",
            "Seal it before the battery goes on",
        )
        return
    if joint.cover.length_mm is not None and joint.overlap_mm is not None and "sleeve" in joint.cover.text:
        wanted = joint.overlap_mm + SLEEVE_OVER_MM
        if joint.cover.length_mm < wanted - 0.5:
            yield Finding(
                "SPL06",
                Severity.WARNING,
                row.line_of("cover"),
                joint.id,
                f"the sleeve on {joint.id} is {joint.cover.length_mm:.0f} mm; overlap and 25 mm make {wanted:.0f} mm",
                "Take a longer sleeve",
            )


def _zone(placed: Placed, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    if "wet" in placed.zone and joint.cover is not None and not joint.cover.adhesive and not joint.cover.bare:
        yield Finding(
            "SPL05",
            Severity.ERROR,
            row.line_of("cover"),
            joint.id,
            f"joint {joint.id} lies in a wet zone under '{joint.cover.text}'",
            "Seal it with an adhesive-lined sleeve",
        )
    if "flex" in placed.zone:
        yield Finding(
            "SPL03",
            Severity.ERROR,
            row.at,
            joint.id,
            f"joint {joint.id} lies in a stretch that flexes",
            "Move it to a stretch that does not move",
        )


def _fixed_at(facts: Worked, route: Route, placed: Placed, row: Change) -> Iterator[Finding]:
    """A place at a landmark that holds the bundle, in whichever of its wordings (P4)."""
    joint = placed.joint
    try:
        position = route.place(joint.recorded_place) if joint.recorded_place else None
    except PlaceError:
        position = None  # told by _place
    words = facts.job.landmarks.get(position.landmark, "").casefold() if position is not None else ""
    for what in ("grommet", "clip", "hinge"):
        if what in words:
            yield Finding(
                "SPL03",
                Severity.ERROR,
                row.line_of("where"),
                joint.id,
                f"joint {joint.id} lies at a {what}",
                f"Move it clear of the {what}",
            )


def _place(facts: Worked, route: Route, placed: Placed, row: Change) -> Iterator[Finding]:
    joint = placed.joint
    if not joint.recorded_place:
        return
    try:
        position = route.place(joint.recorded_place)
    except PlaceError as error:
        yield Finding(
            "PLC02",
            Severity.ERROR,
            row.line_of("where"),
            joint.id,
            f"the place '{joint.recorded_place}' cannot be found: {error.problem}",
            error.mend,
        )
        return
    if position is None:
        if any(character.isdigit() for character in joint.recorded_place) and _begins_with_length(joint.recorded_place):
            yield Finding(
                "PLC01",
                Severity.ERROR,
                row.line_of("where"),
                joint.id,
                f"'{joint.recorded_place}' is a distance without a landmark",
                "Write it like: 24 in from bulkhead towards nose-split",
            )
        return
    computed = computed_position(facts.job, facts.plan, route, joint)
    if computed is None:
        return
    apart = route.distance(position, computed)
    if apart is not None and apart > PLACE_APART_MM:
        yield Finding(
            "PLC03",
            Severity.WARNING,
            row.line_of("where"),
            joint.id,
            f"the recorded place of {joint.id} lies {apart:.0f} mm from where its lengths put it",
            "Measure both again",
        )


def _begins_with_length(words: str) -> bool:
    parts = words.split()
    for count in (1, 2):
        try:
            read_length(" ".join(parts[:count]))
        except ValueError:
            continue
        return True
    return False
