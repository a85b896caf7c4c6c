"""Where each joint lies by tape measure: its centre along the wire, and its place on the route (L5, M11, P1 to P4)."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.car.harness import Joint, NodeKind, Stretch, View
from aswired.car.route import PlaceError, Position, Route
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import Job, usual_line
from aswired.text.units import show_both


@dataclass(frozen=True)
class PlacedJoint:
    """A joint with its place by tape measure.

    `place` is the place in words for print ('85 mm from bulkhead towards nose-split'), '' when not recorded. `leg` and
    `offset_mm` are set when the place resolves on the route: index into job.route, distance from that leg's `from`.
    """

    joint: Joint
    state: str  # planned, made, sealed, tested
    place: str
    leg: int | None
    offset_mm: float | None
    zone: tuple[str, ...]
    centre: Figure  # mm from joint.from_end along the wire
    arrives: tuple[Stretch, ...]  # every stretch that ends in the joint


def placed_joints(job: Job, view: View, route: Route) -> tuple[PlacedJoint, ...]:
    """Every joint of a view with its place, in the order of the rows."""
    return tuple(
        _placed(job, view, route, joint, row.state if (row := job.change(joint.row)) is not None else "planned")
        for joint in view.joints.values()
        if joint.id in view.nodes
    )


def _placed(job: Job, view: View, route: Route, joint: Joint, state: str) -> PlacedJoint:
    position = _position(view, route, joint)
    place = joint.recorded_place or _words(job, route, joint, position)
    leg = position.leg if position is not None else None
    offset = position.offset_mm if position is not None else None
    if position is not None and position.landmark:
        leg, offset = _beside(job, position.landmark)
    zone = _zone(job, position) if position is not None else ()
    return PlacedJoint(joint, state, place, leg, offset, zone, _centre(joint, job), view.at_node[joint.id])


def _zone(job: Job, position: Position) -> tuple[str, ...]:
    return job.route[position.leg].zone if position.leg is not None else ()


def _beside(job: Job, landmark: str) -> tuple[int | None, float | None]:
    """A place at a landmark, as an offset on the first leg that begins or ends there."""
    for index, leg in enumerate(job.route):
        if leg.from_ == landmark:
            return index, 0.0
        if leg.to == landmark and leg.length is not None and leg.length.mm is not None:
            return index, leg.length.mm
    return None, None


def _centre(joint: Joint, job: Job) -> Figure:
    key, name = f"{joint.id}.centre", f"centre of joint {joint.id} from {joint.from_end or 'its end'}"
    if joint.centre_mm is None:
        missing = Missing("distance of the cut from an end") if joint.cut_face_mm is None else _no_take_up(joint, job)
        return Figure(key, name, None, "mm", "centre of joint (L5)", "centre = cut face - o/2", (), (missing,))
    if joint.over:
        between = tuple(Input(name, mm, "mm", "between middles of joints") for name, mm in joint.over)
        rule = "along the wire as later rows left it (L5)"
        return Figure(key, name, joint.centre_mm, "mm", rule, "centre = sum of what lies between", between)
    half = None if joint.cut_face_mm is None else joint.cut_face_mm - joint.centre_mm
    inputs = (
        Input("cut face", joint.cut_face_mm, "mm", f"from {joint.cut_from}, row {joint.row}"),
        Input("o/2, half the take-up", half, "mm", f"row {joint.row}"),
    )
    if half is not None and half < 0:  # the fixed side, reached from the plug: beyond gap and slack
        inputs = (inputs[0], Input("slack + o/2", -half, "mm", f"row {joint.row}"))
        return Figure(
            key, name, joint.centre_mm, "mm", "centre of joint (L5)", "centre = cut face + slack + o/2", inputs
        )
    formula = "centre = distance written" if joint.tap else "centre = cut face - o/2"
    return Figure(key, name, joint.centre_mm, "mm", "centre of joint (L5)", formula, inputs)


def _no_take_up(joint: Joint, job: Job) -> Missing:
    """What keeps half its take-up from being known, with the line of the house method that would say it."""
    what, key = ("form of the joint", "joint") if joint.method is None else ("overlap", "overlap")
    return Missing(what, write="" if key in job.usual.lines else usual_line(key))


def _position(view: View, route: Route, joint: Joint) -> Position | None:
    if joint.recorded_place:
        try:
            return route.place(joint.recorded_place)
        except PlaceError:
            return None
    return computed_position(view, route, joint)


def computed_position(view: View, route: Route, joint: Joint) -> Position | None:
    """The joint's place worked out from its distance along the bundle and the wire's way through the car."""
    for start_end, distance in ((joint.from_end, joint.beside_mm), (joint.other_end, joint.other_mm)):
        start = route.of_end(start_end) if start_end and distance is not None else None
        if start is None or distance is None:
            continue
        wire = joint.wires[0]
        by = view.wires[wire].by if wire in view.wires else ()
        for end in _own_ends(view, joint):
            goal = route.of_end(end)
            if goal is not None and goal != start:
                found = route.along(start, goal, distance, by)
                if found is not None:
                    return found
        found = route.only_way(start, distance)
        if found is not None:
            return found
    return None


def _own_ends(view: View, joint: Joint) -> list[str]:
    """Ends of the joint's wires that have a place of their own, those of the car as it stands before the donor's."""
    ends: list[str] = []
    for wire in joint.wires:
        for stretch in view.of_wire(wire):
            for end in stretch.ends:
                if view.nodes[end].kind not in (NodeKind.JOINT, NodeKind.STUB, NodeKind.UNKNOWN):
                    ends.append(end)
        donor = view.wires.get(wire)
        if donor is not None:
            ends += [end for end in donor.donor_ends if end]
    return list(dict.fromkeys(ends))


def _words(job: Job, route: Route, joint: Joint, position: Position | None) -> str:
    """The place in words for print, from the landmark that its leg begins at; where its lengths are counted from the
    plug at the leg's other end, from that one; '' where it is not recorded."""
    if position is None:
        if joint.beside_mm is not None and joint.from_end:
            return f"{show_both(joint.beside_mm, job.units)} from {joint.from_end} along the bundle"
        return ""
    if position.landmark:
        return f"at {position.landmark}"
    if position.leg is None or position.offset_mm is None:
        return ""
    leg = job.route[position.leg]
    whole = leg.length.mm if leg.length else None
    start = route.of_end(joint.from_end) or route.of_end(joint.other_end) if joint.from_end else None
    from_to = start is not None and start.landmark == leg.to
    if whole is not None and from_to:
        return f"{show_both(whole - position.offset_mm, job.units)} from {leg.to} towards {leg.from_}"
    return f"{show_both(position.offset_mm, job.units)} from {leg.from_} towards {leg.to}"
