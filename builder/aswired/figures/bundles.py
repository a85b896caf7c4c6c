"""How thick the bundle is along the route, what goes over it, and how far it may be bent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import NodeKind, View
from aswired.car.route import PlaceError, Position, Route
from aswired.figures.bundle_ways import InBundle, Run, Section, in_bundle, outside_of, sections, spans, ways
from aswired.figures.places import PlacedJoint
from aswired.figures.stagger import Stagger, staggers
from aswired.physics.bundle import (
    BEND_BUNDLE,
    BEND_BUNDLE_CAR,
    BEND_WIRE,
    JOINT_BULGE_LEAST,
    JOINT_BULGE_MOST,
    Outside,
    Thickness,
    lump,
    next_size,
    tape_length,
    thickness,
)
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import Change, Hole, Job, usual_line


@dataclass(frozen=True)
class Station:
    """A run of one leg in which the same wires lie.

    `start_mm` and `end_mm` count from the leg's `from`; `end_mm` is None for a leg of unknown length. `perhaps` are
    wires that may lie here too: their way is not recorded. `band` is between which diameters the bundle lies.
    """

    key: str
    leg: int
    start_mm: float
    end_mm: float | None
    wires: tuple[InBundle, ...]
    perhaps: tuple[str, ...]
    joints: tuple[str, ...]  # splices that lie in it, the maker's among them
    diameter: Figure  # mm, clear of splices
    at_joint: Figure | None  # mm, where it is thickest over a splice; None without one
    bore: Figure  # mm, that a conduit over it needs
    conduit: Figure  # mm, the next one on hand
    bend: Figure  # mm, least radius
    band: tuple[float, float] | None
    least_mm: float | None  # what the wires of known diameter make alone; None when none is known


@dataclass(frozen=True)
class HoleFit:
    """A hole and the bundle that passes it."""

    landmark: str
    hole: Hole
    wires: tuple[InBundle, ...]
    perhaps: tuple[str, ...]
    diameter: Figure
    band: tuple[float, float] | None
    least_mm: float | None


@dataclass(frozen=True)
class Wrap:
    """A cover row on the route. `runs` are (leg, from, to) with to = None on a leg of unknown length; empty when its
    way is not recorded. `stations` are the keys of what lies in it. `bore_mm` is that of a conduit, as written."""

    row: str
    cover: str
    runs: tuple[tuple[int, float, float | None], ...]
    stations: tuple[str, ...]
    bore_mm: float | None
    tape: Figure | None  # mm of tape; None for a cover that is not wound


@dataclass(frozen=True)
class Bundles:
    """The bundles of the plan: what the car is once every planned row is made."""

    stations: tuple[Station, ...] = ()
    holes: tuple[HoleFit, ...] = ()
    wraps: tuple[Wrap, ...] = ()
    staggers: tuple[Stagger, ...] = ()
    off_route: tuple[str, ...] = ()  # wires of which no part has a way on record

    @property
    def figures(self) -> tuple[Figure, ...]:
        found: list[Figure] = []
        for station in self.stations:
            found += [station.diameter, *([station.at_joint] if station.at_joint else [])]
            found += [station.bore, station.conduit, station.bend]
        found += [hole.diameter for hole in self.holes]
        found += [wrap.tape for wrap in self.wraps if wrap.tape]
        return tuple(found)


def bundles(job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route) -> Bundles:
    """The bundles of a view; `joints` are its splices with their places."""
    found = ways(job, view, joints, route)
    lumps = tuple(_lumps(job, view, joints, route))
    stations = tuple(_station(job, section, lumps) for section in sections(job, route, found))
    return Bundles(
        stations=stations,
        holes=tuple(_holes(job, stations)),
        wraps=tuple(_wraps(job, view, stations, route)),
        staggers=staggers(job, view, joints, route),
        off_route=found.off_route,
    )


def leg_key(job: Job, index: int) -> str:
    """How a leg stands in the key of a figure: `bulkhead.nose-split`, with a number when two join the same ends."""
    leg = job.route[index]
    twins = [other for other in job.route[:index] if {other.from_, other.to} == {leg.from_, leg.to}]
    return f"{leg.from_}.{leg.to}" + (f".{len(twins) + 1}" if twins else "")


@dataclass(frozen=True)
class _Lump:
    """A splice as the lump it makes in the bundle."""

    name: str
    leg: int
    at_mm: float
    wires: tuple[str, ...]
    outside: Outside | None


def _lumps(job: Job, view: View, joints: tuple[PlacedJoint, ...], route: Route) -> Iterator[_Lump]:
    places: list[tuple[str, Position | None]] = [
        (placed.joint.id, Position("", placed.leg, placed.offset_mm)) for placed in joints
    ]
    for name, node in view.nodes.items():
        if node.kind is NodeKind.SPLICE:
            places.append((name, route.of_end(name)))
    for name, place in places:
        arrives = view.at_node.get(name, ())
        if place is None or place.leg is None or place.offset_mm is None or not arrives:
            continue
        each = [outside_of(job, stretch) for stretch in arrives]
        known = [found for found in each if found is not None]
        wires = tuple(dict.fromkeys(stretch.wire for stretch in arrives))
        yield _Lump(name, place.leg, place.offset_mm, wires, lump(known) if len(known) == len(each) else None)


def _station(job: Job, section: Section, lumps: tuple[_Lump, ...]) -> Station:
    key = f"{leg_key(job, section.leg)}.{section.start_mm:.0f}"
    leg = job.route[section.leg]
    wires = in_bundle(job, section.parts)
    where = f"{leg.from_} to {leg.to}" + (f", from {section.start_mm:.0f} mm" if section.start_mm >= 1 else "")
    inside = [
        found
        for found in lumps
        if found.leg == section.leg
        and found.at_mm >= section.start_mm - 0.5
        and (section.end_mm is None or found.at_mm <= section.end_mm + 0.5)
    ]
    found, diameter = _diameter(f"{key}.diameter", f"bundle, {where}", wires, section.perhaps)
    at_joint = _at_joint(key, where, wires, inside, job.limits_in_force["joint clear"].value) if inside else None
    bore = _bore(job, key, where, diameter, at_joint)
    return Station(
        key=key,
        leg=section.leg,
        start_mm=section.start_mm,
        end_mm=section.end_mm,
        wires=wires,
        perhaps=section.perhaps,
        joints=tuple(found.name for found in inside),
        diameter=diameter,
        at_joint=at_joint,
        bore=bore,
        conduit=_conduit(job, key, where, bore),
        bend=_bend(key, where, wires, diameter),
        band=(found.least_mm, found.most_mm) if found else None,
        least_mm=_least(wires),
    )


def _unread(wires: tuple[InBundle, ...]) -> tuple[Missing, ...]:
    return tuple(Missing("outer diameter", wire.wire) for wire in wires if wire.outside is None)


def _least(wires: tuple[InBundle, ...]) -> float | None:
    known = [wire.outside for wire in wires if wire.outside is not None]
    return thickness(known).least_mm if known else None


def _diameter(
    key: str, name: str, wires: tuple[InBundle, ...], perhaps: tuple[str, ...]
) -> tuple[Thickness | None, Figure]:
    """The bundle's thickness and its figure; not recorded when the diameter of one of its wires is not."""
    inputs = tuple(_inputs(wires))
    missing = _unread(wires)
    if missing or not wires:
        return None, Figure(
            key,
            name,
            None,
            "mm",
            "bundle of wires",
            "D = k x sqrt(sum d²)",
            inputs,
            missing or (Missing("wires in it"),),
        )
    found = thickness([wire.outside for wire in wires if wire.outside is not None])
    note = f"Lies between {found.least_mm:.1f} and {found.most_mm:.1f} mm; counted are the wires on record."
    if perhaps:
        note += f" At least: {_more(perhaps)} may lie here too, their way is not recorded."
    return found, Figure(key, name, found.mm, "mm", found.rule, found.formula, inputs, (), note)


def _more(wires: tuple[str, ...]) -> str:
    return f"{len(wires)} more {'wire' if len(wires) == 1 else 'wires'} ({', '.join(wires)})"


def _inputs(wires: tuple[InBundle, ...]) -> Iterator[Input]:
    """The wires gathered by diameter."""
    alike: dict[Outside | None, list[str]] = {}
    for wire in wires:
        alike.setdefault(wire.outside, []).append(wire.wire)
    for outside, names in alike.items():
        many = f"{len(names)} wires" if len(names) > 1 else "1 wire"
        if outside is None:
            yield Input(f"{many}: {', '.join(names)}", None, "mm")
            continue
        band = "" if outside.least_mm == outside.most_mm else f" ({outside.least_mm:.2f} to {outside.most_mm:.2f})"
        yield Input(f"{many}: {', '.join(names)}", f"{outside.mm:.2f}{band}", "mm", f"{outside.source}; {outside.mark}")


def _at_joint(key: str, where: str, wires: tuple[InBundle, ...], lumps: list[_Lump], near_mm: float) -> Figure:
    """The bundle where a splice, or several side by side, make it thickest."""
    key, name = f"{key}.splice", f"bundle over its splices, {where}"
    rule = f"bundle with {JOINT_BULGE_LEAST:g} to {JOINT_BULGE_MOST:g} x the wire for a splice (common practice)"
    formula = "D = k x sqrt(sum d²), a splice counted as one thick wire in place of its own"
    missing = (
        *_unread(wires),
        *(Missing("outer diameter", f"the wires in {found.name}") for found in lumps if not found.outside),
    )
    if missing:
        return Figure(key, name, None, "mm", rule, formula, (), missing)
    found, lumped = thickness([wire.outside for wire in wires if wire.outside is not None]), list[_Lump]()
    for first in lumps:
        beside = [other for other in lumps if abs(other.at_mm - first.at_mm) < near_mm - 1e-6]
        gone = {wire for other in beside for wire in other.wires}
        rest = [wire.outside for wire in wires if wire.wire not in gone and wire.outside is not None]
        with_lumps = thickness([*rest, *(other.outside for other in beside if other.outside is not None)])
        if with_lumps.mm >= found.mm:
            found, lumped = with_lumps, beside
    inputs = tuple(
        Input(other.name, f"{other.outside.mm:.2f}", "mm", other.outside.source) for other in lumped if other.outside
    )
    note = f"Lies between {found.least_mm:.1f} and {found.most_mm:.1f} mm."
    return Figure(key, name, found.mm, "mm", rule, formula, inputs, (), note)


def _bore(job: Job, key: str, where: str, diameter: Figure, at_joint: Figure | None) -> Figure:
    limit = job.limits_in_force["conduit over bundle"]
    name, formula = f"bore that a conduit needs, {where}", "bore = D x (1 + share), D over the splices in it"
    rule = f"conduit {limit.value:g} % over the bundle ({limit.mark})"
    widest = at_joint or diameter
    inputs = (Input("D", widest.value, "mm", widest.key), Input("share", limit.value, "%", limit.source or limit.mark))
    if widest.value is None:
        return Figure(f"{key}.bore", name, None, "mm", rule, formula, inputs, widest.missing)
    value = widest.value * (1 + limit.value / 100)
    return Figure(f"{key}.bore", name, value, "mm", rule, formula, inputs)


def _conduit(job: Job, key: str, where: str, bore: Figure) -> Figure:
    name, rule = f"conduit on hand, {where}", "the next bore on hand"
    formula = "smallest bore of `conduits:` that is not below the one needed"
    on_hand = [size.mm for size in job.shop.conduits if size.mm is not None]
    inputs = (
        Input("bore needed", bore.value, "mm", bore.key),
        Input("on hand", ", ".join(f"{size:g}" for size in sorted(on_hand)) or None, "mm", "shop.yml"),
    )
    missing = bore.missing if bore.value is None else () if on_hand else (Missing("conduits in shop.yml"),)
    if bore.value is None or missing:
        return Figure(f"{key}.conduit", name, None, "mm", rule, formula, inputs, missing)
    found = next_size(on_hand, bore.value)
    if found is None:
        note = "None of the conduits on hand is wide enough."
        wider = (Missing("a conduit wide enough"),)
        return Figure(f"{key}.conduit", name, None, "mm", rule, formula, inputs, wider, note)
    return Figure(f"{key}.conduit", name, found, "mm", rule, formula, inputs)


def _bend(key: str, where: str, wires: tuple[InBundle, ...], diameter: Figure) -> Figure:
    name, formula = f"least bend radius, {where}", f"r = {BEND_WIRE:g} x the largest wire"
    rule = "AC 43.13-1B para 11-117 (read, second hand)"
    missing = _unread(wires)
    if missing or diameter.value is None:
        return Figure(f"{key}.bend", name, None, "mm", rule, formula, (), missing)
    largest = max((wire for wire in wires if wire.outside), key=lambda wire: wire.outside.mm if wire.outside else 0.0)
    thickest = largest.outside.mm if largest.outside else 0.0
    inputs = (Input("largest wire", f"{thickest:.2f}", "mm", largest.wire),)
    note = (
        f"Counted on the bundle: {BEND_BUNDLE * diameter.value:.0f} mm (10 x, aviation practice); on cars"
        f" {BEND_BUNDLE_CAR * diameter.value:.0f} mm (4 to 5 x, common practice, no source)."
    )
    return Figure(f"{key}.bend", name, BEND_WIRE * thickest, "mm", rule, formula, inputs, (), note)


def _holes(job: Job, stations: tuple[Station, ...]) -> Iterator[HoleFit]:
    """The bundle at each hole: of the legs that meet there the one with most wires. Which side of the hole a branch
    leaves on is not recorded, so the trunk is counted."""
    for landmark, hole in job.holes.items():
        beside = [found for found in stations if _touches(job, found, landmark)]
        trunk = max(beside, key=lambda found: (len(found.wires), -found.leg), default=None)
        wires = trunk.wires if trunk else ()
        perhaps = trunk.perhaps if trunk else ()
        found, diameter = _diameter(f"{landmark}.hole", f"bundle through the hole at {landmark}", wires, perhaps)
        band = (found.least_mm, found.most_mm) if found else None
        yield HoleFit(landmark, hole, wires, perhaps, diameter, band, _least(wires))


def _touches(job: Job, station: Station, landmark: str) -> bool:
    leg = job.route[station.leg]
    whole = leg.length.mm if leg.length else None
    at_end = station.end_mm is None or (whole is not None and station.end_mm >= whole - 0.5)
    return (leg.from_ == landmark and station.start_mm <= 0.5) or (leg.to == landmark and at_end)


def _wraps(job: Job, view: View, stations: tuple[Station, ...], route: Route) -> Iterator[Wrap]:
    for row in job.changes:
        if not kind_of(row).wraps or row.cover is None or row.id not in view.counted or row is not job.change(row.id):
            continue
        runs = covered(job, route, row)
        inside = tuple(station for station in stations if any(_shared(station, run) > 0 for run in runs))
        tape = _tape(job, row, runs, inside) if row.cover.tape and not row.cover.conduit else None
        bore = row.cover.length_mm if row.cover.conduit else None
        yield Wrap(row.id, row.cover.text, runs, tuple(station.key for station in inside), bore, tape)


def covered(job: Job, route: Route, row: Change) -> tuple[Run, ...]:
    """The runs of legs that a cover row wraps; empty where its way is not recorded."""
    ends: list[Position] = []
    for words in (row.from_, row.to):
        try:
            found = (route.place(words) if words else None) or (route.of_end(words) if words else None)
        except PlaceError:
            found = None
        if found is None:
            return ()
        ends.append(found)
    return spans(job, route, ends[0], ends[1], ()) or ()


def _shared(station: Station, run: Run) -> float:
    """How much of a run lies in a station; on a leg of unknown length 1 where they meet at all. [mm]"""
    if station.leg != run[0]:
        return 0.0
    if station.end_mm is None or run[2] is None:
        return 1.0
    return min(station.end_mm, run[2]) - max(station.start_mm, run[1])


def _unsaid(key: str, job: Job) -> Missing:
    """What is not recorded of the house method, with the line that would say it."""
    return Missing(key, write="" if key in job.usual.lines else usual_line(key))


def _tape(job: Job, row: Change, runs: tuple[Run, ...], inside: tuple[Station, ...]) -> Figure:
    width = job.usual.tape_width.mm if job.usual.tape_width else None
    half = row.cover is not None and row.cover.half_lapped
    share = 50.0 if half else job.usual.tape_overlap
    length = sum(run[2] - run[1] for run in runs if run[2] is not None) if runs else None
    bare = sum(max(0.0, _shared(station, run)) for station in inside for run in runs)
    inputs = (
        Input("run", length, "mm", f"row {row.id}"),
        Input("width w", width, "mm", "usual, tape width"),
        Input("overlap f", share, "%", f"row {row.id}" if half else "usual, tape overlap"),
        *(Input(f"D {station.key}", station.diameter.value, "mm", station.diameter.key) for station in inside),
    )
    missing = [
        what
        for what, gone in (
            (Missing("places from and to"), not runs),
            (Missing("length", "a leg"), any(run[2] is None for run in runs)),
            (_unsaid("tape width", job), width is None),
            (_unsaid("tape overlap", job), share is None),
            (Missing("wires in a part of it"), length is not None and bare < length - 1),
            (Missing("diameter", "a part of it"), any(station.diameter.value is None for station in inside)),
            (Missing("a width and overlap that make a turn"), width == 0 or (share is not None and share >= 100)),
        )
        if gone
    ]
    key, name = f"{row.id}.tape", f"tape for {row.id}"
    rule, formula = "tape wound on a bundle (geometry)", "sum of pi x D x L / (w x (1 - f))"
    if missing or width is None or share is None:
        return Figure(key, name, None, "mm", rule, formula, inputs, tuple(missing))
    wound = sum(
        tape_length(station.diameter.value or 0.0, max(0.0, _shared(station, run)), width, share / 100)
        for station in inside
        for run in runs
    )
    loose = any(station.perhaps for station in inside)
    note = "At least: more wires may lie in it, their way is not recorded." if loose else ""
    return Figure(key, name, wound, "mm", rule, formula, inputs, (), note)
