"""Which wires lie where in the bundle: the ways of the wires on the route, cut into runs with the same wires (P2)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from aswired.car.harness import NodeKind, Stretch, View
from aswired.car.route import Position, Route
from aswired.figures.places import PlacedJoint
from aswired.physics.bundle import Outside, measured, outside
from aswired.record import Job


@dataclass(frozen=True)
class InBundle:
    """A wire in a run of bundle: its stretches that may lie there, and the thickest of them; None = not recorded."""

    wire: str
    stretches: tuple[Stretch, ...]
    outside: Outside | None


Run = tuple[int, float, float | None]  # leg, from, to: millimetres from the leg's `from`; None on an unmeasured leg

STUB_MM = 100.0  # a shorter stub of a cut end is folded back and laid beside its end
_APART_MM = 1.0  # places nearer than this are one


@dataclass(frozen=True)
class Laid:
    """A part of a wire on one leg: the stretches of which it may be."""

    wire: str
    stretches: tuple[Stretch, ...]
    run: Run


@dataclass(frozen=True)
class Loose:
    """A part of a wire whose way is not recorded: where it begins, and how far it may reach. None = not recorded."""

    wire: str
    begins: Position | None
    reach_mm: float | None


@dataclass(frozen=True)
class WireWays:
    """Every wire of a view, where it lies and what is not known of it."""

    laid: tuple[Laid, ...]
    loose: tuple[Loose, ...]

    @property
    def off_route(self) -> tuple[str, ...]:
        """Wires of which no part has a way."""
        on_route = {part.wire for part in self.laid}
        return tuple(dict.fromkeys(part.wire for part in self.loose if part.wire not in on_route))


class Places:
    """Where the ends of wires are on the route."""

    def __init__(self, job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route) -> None:
        self._view, self._route = view, route
        self._joints = {
            placed.joint.id: Position("", placed.leg, placed.offset_mm)
            for placed in joints
            if placed.leg is not None and placed.offset_mm is not None
        }
        # the ends that a switch or a relay joins sit in one part, which lies where the switch is said to be
        self._parts: dict[str, str] = {}
        for switch in job.switches.values():
            for end in switch.between or ():
                if switch.place and "." in end:
                    self._parts.setdefault(end.partition(".")[0], switch.place)

    def of(self, node: str) -> Position | None:
        """Where a node lies; None when it is not recorded to the millimetre."""
        if node in self._joints:
            return self._joints[node]
        if self._view.nodes[node].kind in (NodeKind.JOINT, NodeKind.STUB, NodeKind.UNKNOWN):
            return None
        found = self._route.of_end(node)
        part = node.partition(".")[0]
        if found is None and part in self._parts and self._parts[part] != part:
            found = self._route.of_end(self._parts[part])
        if found is not None and not found.landmark and (found.leg is None or found.offset_mm is None):
            return None
        return found


def ways(job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route) -> WireWays:
    """The way of every wire of a view. A wire cut and joined lies between those of its splices whose place is known."""
    places = Places(job, view, joints, route)
    laid: list[Laid] = []
    loose: list[Loose] = []
    for wire, state in view.wires.items():
        for nodes, stretches in chains(view.of_wire(wire)):
            found = [(index, place) for index, node in enumerate(nodes) if (place := places.of(node)) is not None]
            for (here, start), (there, end) in pairwise(found):
                between = stretches[here:there]
                runs = spans(job, route, start, end, state.by)
                if runs is None:
                    loose.append(Loose(wire, start, _length(between)))
                else:
                    laid += [Laid(wire, between, run) for run in runs]
            if not found:
                loose.append(Loose(wire, None, None))
                continue
            for place, beyond, outer in (
                (found[0][1], stretches[: found[0][0]], nodes[0]),
                (found[-1][1], stretches[found[-1][0] :], nodes[-1]),
            ):
                reach = _length(beyond)
                folded = view.nodes[outer].kind is NodeKind.STUB and reach is not None and reach <= STUB_MM
                if beyond and not folded:
                    loose.append(Loose(wire, place, reach))
    return WireWays(tuple(laid), tuple(loose))


def _length(stretches: tuple[Stretch, ...]) -> float | None:
    lengths = [stretch.length_mm for stretch in stretches]
    known = [length for length in lengths if length is not None]
    return sum(known) if len(known) == len(lengths) else None


def chains(stretches: tuple[Stretch, ...]) -> Iterator[tuple[list[str], tuple[Stretch, ...]]]:
    """The stretches of one wire, end to end, with the nodes between; what branches comes stretch by stretch."""
    at: dict[str, list[Stretch]] = {}
    for stretch in stretches:
        for end in stretch.ends:
            at.setdefault(end, []).append(stretch)
    left = dict.fromkeys(stretches)
    starts = [node for node, ends in at.items() if len(ends) != 2]
    for start in (*starts, *at):
        while any(stretch in left for stretch in at[start]):
            nodes, chain = [start], []
            while True:
                onward = next((stretch for stretch in at[nodes[-1]] if stretch in left), None)
                if onward is None:
                    break
                del left[onward]
                chain.append(onward)
                nodes.append(onward.other(nodes[-1]))
                if len(at[nodes[-1]]) != 2:
                    break
            yield nodes, tuple(chain)


def spans(job: Job, route: Route, p: Position, q: Position, by: tuple[str, ...]) -> tuple[Run, ...] | None:
    """The runs of legs from one position to another; None where the route does not lead there in one way only."""
    if p.leg is not None and p.leg == q.leg:
        if p.offset_mm is None or q.offset_mm is None:
            return None
        return _known(((p.leg, min(p.offset_mm, q.offset_mm), max(p.offset_mm, q.offset_mm)),))
    hops = route.way(p, q, by)
    if hops is None:
        return None
    hops = tuple(hop for hop in hops if hop.leg not in (p.leg, q.leg))
    shared = [name for name, _ in route.ends_of(p) if name in dict(route.ends_of(q))]
    first = hops[0].start if hops else (shared or [""])[0]
    last = hops[-1].end if hops else first
    runs: list[Run] = [(hop.leg, 0.0, hop.length_mm) for hop in hops]
    for place, landmark in ((p, first), (q, last)):
        if place.leg is None:
            continue
        leg = job.route[place.leg]
        whole = leg.length.mm if leg.length else None
        if place.offset_mm is None or (landmark != leg.from_ and whole is None):
            return None
        at_from = landmark == leg.from_
        runs.append((place.leg, 0.0, place.offset_mm) if at_from else (place.leg, place.offset_mm, whole))
    return _known(tuple(runs))


def _known(runs: tuple[Run, ...]) -> tuple[Run, ...]:
    """Without runs of no length."""
    return tuple(run for run in runs if run[2] is None or run[2] - run[1] >= _APART_MM)


@dataclass(frozen=True)
class Section:
    """A run of a leg in which the same wires lie."""

    leg: int
    start_mm: float
    end_mm: float | None
    parts: tuple[Laid, ...]
    perhaps: tuple[str, ...]


def sections(job: Job, route: Route, found: WireWays) -> Iterator[Section]:
    """Every leg cut where a wire joins or leaves, in the order of the route; runs without a wire are left out."""
    for index, leg in enumerate(job.route):
        whole = leg.length.mm if leg.length else None
        parts = [part for part in found.laid if part.run[0] == index]
        if whole is None:
            through = tuple(part for part in parts if part.run[2] is None)
            partly = {part.wire for part in parts if part.run[2] is not None} - {part.wire for part in through}
            perhaps = dict.fromkeys((*sorted(partly), *_reaching(route, found, index, 0.0, None)))
            if through:
                yield Section(index, 0.0, None, through, _without(perhaps, through))
            continue
        for start, end in pairwise(_cuts(parts, whole)):
            here = tuple(part for part in parts if _overlap(part, start, end, whole) >= _APART_MM - 1e-6)
            if here:
                perhaps = _reaching(route, found, index, start, end)
                yield Section(index, start, end, here, _without(perhaps, here))


def _overlap(part: Laid, start: float, end: float, whole: float) -> float:
    """How much of a part of a wire lies between two places of its leg, its changes of colour among them. [mm]"""
    return min(end, whole if part.run[2] is None else part.run[2]) - max(start, part.run[1])


def _cuts(parts: list[Laid], whole: float) -> list[float]:
    """Where a wire begins or ends on the leg: a wire that only changes colour at its splice does neither."""
    edges: set[float] = set()
    for wire in dict.fromkeys(part.wire for part in parts):
        runs = sorted(
            (part.run[1], whole if part.run[2] is None else part.run[2]) for part in parts if part.wire == wire
        )
        start, end = runs[0]
        for a, b in runs[1:]:
            if a > end + _APART_MM:
                edges |= {start, end}
                start, end = a, b
            end = max(end, b)
        edges |= {start, end}
    cuts: list[float] = []
    for edge in sorted(edges):
        if not cuts or edge - cuts[-1] >= _APART_MM:
            cuts.append(edge)
    return cuts


def _without(perhaps: Mapping[str, None], here: tuple[Laid, ...]) -> tuple[str, ...]:
    sure = {part.wire for part in here}
    return tuple(wire for wire in perhaps if wire not in sure)


def _reaching(route: Route, found: WireWays, leg: int, start: float, end: float | None) -> dict[str, None]:
    """Wires whose way is not recorded and that are long enough to lie here too."""
    return dict.fromkeys(loose.wire for loose in found.loose if _reaches(route, loose, leg, start, end))


def _reaches(route: Route, loose: Loose, leg: int, start: float, end: float | None) -> bool:
    if loose.begins is None or loose.reach_mm is None:
        return True
    at = loose.begins
    if at.leg == leg and at.offset_mm is not None and start <= at.offset_mm and (end is None or at.offset_mm <= end):
        return True
    away = [route.distance(at, Position("", leg, place)) for place in (start, end) if place is not None]
    known = [distance for distance in away if distance is not None]
    return not known or min(known) < loose.reach_mm


def in_bundle(job: Job, parts: tuple[Laid, ...]) -> tuple[InBundle, ...]:
    """The wires of a section, each with the thickest of the stretches of which it may be."""
    wires: dict[str, dict[Stretch, None]] = {}
    for part in parts:
        wires.setdefault(part.wire, {}).update(dict.fromkeys(part.stretches))
    return tuple(InBundle(wire, tuple(found), _thickest(job, tuple(found))) for wire, found in wires.items())


def _thickest(job: Job, stretches: tuple[Stretch, ...]) -> Outside | None:
    each = [outside_of(job, stretch) for stretch in stretches]
    known = [found for found in each if found is not None]
    return max(known, key=lambda found: found.mm) if len(known) == len(each) else None


def outside_of(job: Job, stretch: Stretch) -> Outside | None:
    """Outer diameter of one stretch: measured, else by its size and insulation; None where no table has it."""
    wire = job.wires.get(stretch.wire)
    row = job.change(stretch.origin) if stretch.origin else None
    if row is None and wire is not None:
        if wire.outside is not None and wire.outside.mm is not None:
            return measured(wire.outside.mm)
        return outside(stretch.size.system, stretch.size.number, wire.insulation)
    cut_from = job.offcuts.get(stretch.offcut)
    for said in (row.insulation if row else "", cut_from.insulation if cut_from else "", job.usual.insulation):
        if said not in ("", "unknown"):
            return outside(stretch.size.system, stretch.size.number, said)
    return outside(stretch.size.system, stretch.size.number, "")
