"""A job worked out: its views, its circuits, and every summary that pages, print and JSON start from.

Plain frozen facts. They are made by `work.work_out`; nothing here computes.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from aswired.compute.bundle import Outside
from aswired.diagnostics import Finding, NotExamined
from aswired.figure import Figure
from aswired.harness import CutPiece, Joint, Node, Stretch, StudRing, View
from aswired.model import Fuse, GroundPoint, Hole, Job, Load


@dataclass(frozen=True)
class Step:
    """One thing on a path, in the direction the current runs.

    `kind` is one of: source, fuse, switch, node, stretch, cable, load, ground, module, end. `stretch` is set for a
    stretch, `node` for what sits between stretches; `name` is what is written beside it.
    """

    kind: str
    name: str
    node: Node | None = None
    stretch: Stretch | None = None


@dataclass(frozen=True)
class Path:
    """One side of a circuit. `state` is complete, open, not examined; `why` says it in words."""

    steps: tuple[Step, ...]
    state: str
    why: str = ""

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        return tuple(step.stretch for step in self.steps if step.stretch is not None)


@dataclass(frozen=True)
class Circuit:
    """One load with its feed (source to load) and its return (load to battery negative)."""

    load: str
    feed_end: str  # end of the load that is fed; '' when it cannot be told
    return_end: str
    feed: Path
    back: Path
    fuses: tuple[str, ...]  # fuses on the feed, nearest the battery first
    ground: str  # first ground point on the return, '' when none
    feed_with: tuple[str, ...]  # other kept loads that share a part of the feed
    return_with: tuple[str, ...]  # other kept loads that share a part of the return


@dataclass(frozen=True)
class Drops:
    """Voltage lost in a stated state, figures in V."""

    feed: Figure
    back: Figure
    whole: Figure


@dataclass(frozen=True)
class Element:
    """One thing on a load's way, in the direction of its current, and what it costs; None = not recorded.

    `kind` is wire, fuse, switch, cable, body, or join for a splice, a cavity, a ring (`at` is its node). Volts are
    below nought where other loads push the current back.
    """

    name: str
    kind: str
    at: str
    stretch: Stretch | None  # of a wire
    mohm: float | None
    amps: float | None  # with every load on that can be on together
    alone_v: float | None
    together_v: float | None


@dataclass(frozen=True)
class Lamp:
    """A lamp with every load on: volts at its socket against the least it should have, and the light it has lost."""

    socket: Figure  # V
    least: Figure  # V
    ok: bool | None
    lost_alone: Figure | None  # %, of the light at the supply; None for what is no filament, `dark` says why
    lost_together: Figure | None
    dark: str = ""

    @property
    def figures(self) -> tuple[Figure, ...]:
        return (self.socket, self.least, *filter(None, (self.lost_alone, self.lost_together)))


@dataclass(frozen=True)
class CircuitFigures:
    """What is computed of one circuit in the shown view, and of the same load in the donor."""

    load: str
    current: Figure  # A
    feed_resistance: Figure  # mohm
    return_resistance: Figure  # mohm
    alone: Drops
    together: Drops  # with every load on that can be on together
    worst: Drops  # what costs it most on, wires as hot as they get, contacts at their worst
    limit: Figure  # V, of the rule that the job is held to
    ok: bool | None
    donor: Drops | None  # alone, in the donor; None when neither side of it is known there
    worse: Figure | None = None  # V, by how much the drop alone is above that in the donor
    worse_of: str = ""  # feed or return, where the donor's other side is not known; '' for the whole drop
    rules: tuple[Figure, ...] = ()  # V, what each rule allows, that of `limit` among them
    lamp: Lamp | None = None  # of a lamp or an indicator
    switched: Drops | None = None  # with what comes on with it; None where that costs it nothing
    feed_elements: tuple[Element, ...] = ()  # along a complete feed
    return_elements: tuple[Element, ...] = ()

    @property
    def figures(self) -> tuple[Figure, ...]:
        found = [self.current, self.feed_resistance, self.return_resistance, self.limit, *self.rules]
        for drops in (self.alone, self.switched, self.together, self.worst, self.donor):
            if drops is not None:
                found += [drops.feed, drops.back, drops.whole]
        return (*found, *filter(None, (self.worse,)), *(self.lamp.figures if self.lamp is not None else ()))


@dataclass(frozen=True)
class Placed:
    """A joint with its place by tape measure.

    `place` is the place in words for print ('85 mm from bulkhead towards nose-split') or 'not recorded'. `leg` and
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


@dataclass(frozen=True)
class GroundSummary:
    """One ground point in the shown view."""

    name: str
    point: GroundPoint | None  # as declared, None when created by its first use
    state: str  # in use, unused, gone
    rings: tuple[StudRing, ...]
    ring_limit: int
    lands: tuple[str, ...]  # wires that end on it
    loads: tuple[str, ...]  # kept loads whose return passes it
    behind: tuple[str, ...]  # other ground points whose current passes it
    back_to: str
    total: Figure  # A, all kept loads that return through it on together
    rise: Figure  # V of the stud above battery negative, all on together


@dataclass(frozen=True)
class Mend:
    """The smallest change that makes a fuse suit its wire: another blade fuse, else larger wires.

    `fuse_a` is None where no blade fuse suits the wire and bears the load; then `wires` are to be replaced by at least
    `area_mm2`, which is None where no row of the planning table suits the fuse. `load_a` are all loads behind it on
    together, None where a current is not recorded; `needed_a` is the least rating that bears what is recorded.
    """

    fuse_a: float | None
    needed_a: float
    load_a: float | None
    area_mm2: float | None
    gauge: int | None  # the thinnest gauge that has that area
    wires: tuple[Stretch, ...]


@dataclass(frozen=True)
class FuseSummary:
    """One fuse in the shown view, judged by the planning table."""

    name: str
    fuse: Fuse | None
    loads: tuple[str, ...]  # kept loads fed through it
    total: Figure  # A, all its kept loads on together
    thinnest: Stretch | None  # thinnest wire that it alone protects
    rating: Figure  # A, planning rating of that wire
    ok: bool | None  # fuse <= rating; None = not judged
    spare: bool
    rows: tuple[str, ...] = ()  # rows that assigned it or left it spare
    in_wire: str = ""  # the wire it was let into
    share: Figure | None = None  # %, of its rating that the loads which stay on take together
    unprotected: Figure | None = None  # mm to its source; None where no wire of the record leads to one
    opinions: tuple[Figure, ...] = ()  # A, of published tables for the thinnest wire; none is the verdict
    feeders: tuple[str, ...] = ()  # fuses that it is fed through
    mend: Mend | None = None  # when it is above its wire

    @property
    def figures(self) -> tuple[Figure, ...]:
        return (self.total, self.rating, *filter(None, (self.share, self.unprotected)), *self.opinions)


@dataclass(frozen=True)
class Behind:
    """A wire that a fusible link protects: its thinnest stretch in the car, and by how many gauge numbers the link is
    the thinner; None where a size was not read."""

    wire: str
    thinnest: Stretch | None
    steps: int | None


@dataclass(frozen=True)
class LinkSummary:
    """A fusible link in the shown view, with the wires that it is declared to protect."""

    name: str
    stretch: Stretch
    length_mm: float | None
    protects: tuple[Behind, ...]


@dataclass(frozen=True)
class InBundle:
    """A wire in a run of bundle: its stretches that may lie there, and the thickest of them; None = not recorded."""

    wire: str
    stretches: tuple[Stretch, ...]
    outside: Outside | None


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


@dataclass(frozen=True)
class Worked:
    """A job, worked out."""

    job: Job
    donor: View
    now: View
    plan: View
    handed_over: View | None
    shown: View  # now, or plan while nothing is made
    circuits: Mapping[str, Circuit]  # kept and deleted loads of the shown view
    donor_circuits: Mapping[str, Circuit]
    loads: Mapping[str, Load]
    circuit_figures: Mapping[str, CircuitFigures]  # kept loads only
    joints: tuple[Placed, ...]  # of the plan view, in row order; state says which are made
    pieces: tuple[CutPiece, ...]  # of the plan view, in row order
    grounds: tuple[GroundSummary, ...]
    fuses: tuple[FuseSummary, ...]
    findings: tuple[Finding, ...]  # heaviest first, then in file order
    not_examined: tuple[NotExamined, ...]
    bundles: Bundles = Bundles()
    links: tuple[LinkSummary, ...] = ()  # fusible links
    revisions: tuple[View, ...] = ()  # the car on each day on which a revision was given out, oldest first

    @property
    def views(self) -> tuple[View, ...]:
        """Every view, from the donor to the plan; revisions and hand-over by their day."""
        dated = sorted((*self.revisions, *([self.handed_over] if self.handed_over else [])), key=_day_of)
        return (self.donor, *dated, self.now, self.plan)

    @property
    def standing(self) -> tuple[Finding, ...]:
        """Stops and errors that nobody accepted."""
        return tuple(f for f in self.findings if f.severity <= 1 and not f.accepted_by)

    @property
    def may_power(self) -> bool:
        """Whether no stop stands against putting the battery on."""
        return not any(f.severity == 0 and not f.accepted_by for f in self.findings)

    @property
    def may_hand_over(self) -> bool:
        return not self.standing

    def all_figures(self) -> tuple[Figure, ...]:
        """Every computed figure of the job, in a stable order."""
        found: list[Figure] = list(self.plan.figures)
        found += [placed.centre for placed in self.joints]
        for circuit in self.circuit_figures.values():
            found += circuit.figures
        for ground in self.grounds:
            found += [ground.total, ground.rise]
        for fuse in self.fuses:
            found += fuse.figures
        found += self.bundles.figures
        return tuple(found)


def _day_of(view: View) -> datetime.date:
    return view.day or datetime.date.min
