"""Ground points as rows, and the return tree: what lands where, what it carries in each state, what if it opens."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from aswired.car.harness import BATTERY_NEGATIVE, StudRing
from aswired.checks.grounds import DISTURBS
from aswired.figures.ground_states import Carried, behind, landing, way_home
from aswired.figures.grounds import GroundSummary
from aswired.figures.rings import RingCurrent, ring_currents
from aswired.figures.worked import JobResult
from aswired.record import GroundPoint
from aswired.sheets.backfeed import IfOpened, if_opened
from aswired.sheets.drawings.tree import Tree, TreeLoad, TreePoint, draw_tree
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.places import places_of_nodes
from aswired.sheets.splices import WireEnd, wire_ends
from aswired.sheets.text import FigureText, Printed, amount, day, figure_text, length, printed, size
from aswired.text.diagnostics import Finding
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class RingRow:
    """A ring terminal on a stud."""

    position: str
    hole: str
    wires: tuple[str, ...]
    row: str  # '' = the donor's own
    amps: str  # with every load behind it on; '' where it is not recorded


@dataclass(frozen=True)
class StateRow:
    """A ground point in one state: the current of its cable and the rise of its stud. `bad`: above what is told."""

    state: str
    on: tuple[str, ...]
    amps: Printed
    rise: Printed
    bad: bool
    as_above: bool  # the same loads are on as in the row before
    figure: FigureText


@dataclass(frozen=True)
class SensorRow:
    """A point on which sensors return: what else lands there, and whether it disturbs them."""

    point: str
    sensors: tuple[str, ...]
    others: tuple[str, ...]
    verdict: str
    bad: bool


@dataclass(frozen=True)
class GroundRow:
    """A ground point, ready to print."""

    name: str
    what: str
    where: str
    stud: str
    bolted_to: str
    conducts: str
    face: str  # how it was made ready, when it was painted, what is near; '' when none of it is written
    state: str  # in use, unused, gone
    rings: tuple[RingRow, ...]
    order: str  # whether the largest current lies next to the base
    upside_down: bool
    ring_count: str  # '2 of 4'
    too_many: bool
    lands: tuple[WireEnd, ...]
    loads: tuple[str, ...]
    behind: tuple[str, ...]
    back_to: str
    cable: str
    total: FigureText
    amps: Printed  # its total in words; a point without a traced load has none
    rise: FigureText
    states: tuple[StateRow, ...]
    opened: IfOpened
    photos: tuple[str, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class GroundSheet:
    """Everything the page of grounds says.

    `outside`: kept loads whose return is not in the tree, with the reason; `off`: those that are never on with the rest
    of it.
    """

    rows: tuple[GroundRow, ...]
    unused: tuple[GroundRow, ...]
    tree: Tree | None
    outside: tuple[tuple[str, str], ...]
    off: tuple[str, ...]
    sensors: tuple[SensorRow, ...]
    body: str  # whether the body carries returns, in words


BODY = {
    "yes": "The body carries returns.",
    "no": "The body carries no return: every return is a wire.",
    "unknown": "Whether the body carries returns is not recorded.",
}


def ground_sheet(worked: JobResult) -> GroundSheet:
    """The page of grounds."""
    rows = tuple(_row(ground, worked) for ground in worked.grounds)
    together = worked.network.together()
    used = tuple(row for row in rows if row.state == "in use")
    return GroundSheet(
        rows=used,
        unused=tuple(row for row in rows if row.state != "in use"),
        tree=_tree(worked),
        outside=tuple(
            (load, circuit.back.why or circuit.back.state)
            for load, circuit in worked.circuits.items()
            if circuit.back.state != "complete" and load in worked.circuit_figures
        ),
        off=tuple(
            load
            for load in worked.circuit_figures
            if worked.circuits[load].back.state == "complete" and load not in together
        ),
        sensors=tuple(_sensors(worked)),
        body=BODY[worked.job.body_returns],
    )


def _row(ground: GroundSummary, worked: JobResult) -> GroundRow:
    units, point = worked.job.units, ground.point
    where = places_of_nodes(worked)
    ids = {ground.name, *(ring.row for ring in ground.rings if ring.row)}
    currents = ring_currents(worked.job, worked.shown, worked.circuits, ground.name, ground.rings)
    findings = tuple(finding for finding in worked.findings if finding.entry == ground.name)
    upside_down = any(finding.code == "GND04" for finding in findings)
    cable = [size(point.cable), length(point.cable_length, units)] if point and point.cable else []
    return GroundRow(
        name=ground.name,
        what=(point.what if point else "") or NOT_RECORDED,
        where=where(ground.name) or NOT_RECORDED,
        stud=(point.stud if point else "") or NOT_RECORDED,
        bolted_to=(point.bolted_to if point else "") or NOT_RECORDED,
        conducts=point.conducts if point else "unknown",
        face="; ".join(_face(point)) if point else "",
        state=ground.state,
        rings=tuple(
            RingRow(
                str(ring.position) if ring.position is not None else NOT_RECORDED,
                ring.hole or NOT_RECORDED,
                ring.wires,
                ring.row,
                _passes(current),
            )
            for ring, current in _from_the_base(ground.rings, currents)
        ),
        order=_order(currents, upside_down, worked.job.limits_in_force["stack apart"].value),
        upside_down=upside_down,
        ring_count=f"{len(ground.rings)} of {ground.ring_limit}",
        too_many=len(ground.rings) > ground.ring_limit,
        lands=wire_ends(worked.shown.at_node.get(ground.name, ()), ground.name),
        loads=behind(ground.name, ground.loads, worked.network),
        behind=ground.behind,
        back_to=ground.back_to or NOT_RECORDED,
        cable=", ".join(cable) or NOT_RECORDED,
        total=figure_text(ground.total, units),
        amps=printed(ground.total) if ground.loads or ground.total.known else Printed(NOT_RECORDED),
        rise=figure_text(ground.rise, units),
        states=tuple(_states(worked.ground_states.carried[ground.name], worked)),
        opened=if_opened(ground.name, worked),
        photos=tuple(photo.id for photo in worked.job.photos if ids & {*photo.shows, *(m.of for m in photo.marks)}),
        findings=findings,
    )


def _states(all_carried: tuple[Carried, ...], worked: JobResult) -> Iterator[StateRow]:
    units, told = worked.job.units, worked.job.limits_in_force["rise warning"].value
    before: tuple[str, ...] = ()
    for carried in all_carried:
        bad = carried.rise.value is not None and carried.rise.value > told
        same = bool(carried.on) and carried.on == before
        yield StateRow(
            carried.words,
            carried.on,
            printed(carried.amps),
            printed(carried.rise),
            bad,
            same,
            figure_text(carried.rise, units),
        )
        before = carried.on


def _from_the_base(
    rings: tuple[StudRing, ...], currents: tuple[RingCurrent, ...]
) -> Iterable[tuple[StudRing, RingCurrent]]:
    """Rings as they lie on the stud; those whose position is not recorded behind them, in the order of the file."""
    return sorted(zip(rings, currents, strict=True), key=lambda pair: (pair[0].position is None, pair[0].position or 0))


def _passes(ring: RingCurrent) -> str:
    """The current of a ring, all on together; '' where nothing of it is recorded."""
    if not ring.whole and not ring.least_a:
        return ""
    return amount(ring.least_a, "A") + ("" if ring.whole else " or more")


def _order(rings: tuple[RingCurrent, ...], upside_down: bool, apart_a: float) -> str:
    """What is to be said of the stack of rings; '' for a stud with fewer than two."""
    if len(rings) < 2:
        return ""
    if upside_down:
        return "a larger current lies over a smaller one"
    if any(ring.ring.position is None for ring in rings):
        return "not judged: the order is not recorded"
    if not all(ring.whole for ring in rings):
        return "not judged: what passes a ring is not all recorded"
    return f"the larger currents lie nearer the base, within {apart_a:g} A"


def _sensors(worked: JobResult) -> Iterator[SensorRow]:
    """The points on which kept sensors or references of modules return."""
    net = worked.network.grid.net
    references: dict[str, list[str]] = {}
    for name, module in worked.job.modules.items():
        for cavity in module.reference:
            end = f"{name}.{cavity}"
            reach = net.reach(end) if worked.shown.at_node.get(end) else None
            if reach is not None and reach.grounds:
                references.setdefault(reach.grounds[0], []).append(end)
    disturbed = {finding.entry for finding in worked.findings if finding.code == "GND07"}
    for ground in worked.grounds:
        direct = _direct(ground.name, worked)
        sensors = [load for load in direct if worked.job.loads[load].class_ == "sensor"]
        ends = references.get(ground.name, [])
        if not sensors and not ends:
            continue
        others = tuple(load for load in direct if load not in sensors)
        named = {*sensors, *(end.partition(".")[0] for end in ends)}
        bad = bool(named & disturbed)
        loud = [load for load in others if worked.job.loads[load].class_ in DISTURBS]
        words = "disturbed" if bad else "beside loads that do not disturb" if others and not loud else "apart"
        yield SensorRow(ground.name, (*sensors, *ends), others, words, bad)


def _face(point: GroundPoint) -> Iterator[str]:
    """What is written of the face under the rings and of what is close to it."""
    if point.surface == "unknown":
        yield "face not known"
    elif point.surface:
        yield f"face {point.surface}"
    if (step := point.painted) is not None:
        yield "painted" + (f" {day(step)}" if step.date is not None or step.doubt is not None else "")
    if near := [word for word in point.near if word != "none"]:
        yield "close to " + ", ".join(near)
    elif point.near:
        yield "nothing close to it"
    if not point.reachable:
        yield "no meter's tip comes to it"


def _direct(name: str, worked: JobResult) -> tuple[str, ...]:
    """Kept loads with a complete return whose first ground point is this one."""
    return tuple(
        load
        for load, circuit in worked.circuits.items()
        if circuit.ground == name and circuit.back.state == "complete" and load in worked.circuit_figures
    )


def _tree(worked: JobResult) -> Tree | None:
    points = []
    for ground in worked.grounds:
        if ground.state != "in use":
            continue
        lines: list[str] = [
            Printed(f"{printed(ground.rise)} rise" if ground.rise.known else "rise not recorded", ground.rise.key)
        ]
        if not ground.back_to:
            lines.append("way back not recorded")
        loads = _lands(ground.name, worked)
        total_a = ground.total.value if ground.loads else None  # nothing traced is not nothing flowing
        right = printed(ground.total) if ground.loads else NOT_RECORDED
        points.append(TreePoint(ground.name, ground.back_to, loads, total_a, tuple(lines), right))
    home = _lands(BATTERY_NEGATIVE, worked)
    return draw_tree(points, home) if points or home else None


def _lands(point: str, worked: JobResult) -> tuple[TreeLoad, ...]:
    """What lands on a point with all on that can be on together: the solved currents, also where a return divides."""
    transfer = worked.network
    on = transfer.together()
    if not transfer.refused and (point == BATTERY_NEGATIVE or way_home(point, transfer.grid) is not None):
        return tuple(TreeLoad(name, amps) for name, amps in landing(point, transfer, on).items())
    direct = _direct("" if point == BATTERY_NEGATIVE else point, worked)  # the post itself is no ground point
    return tuple(TreeLoad(name, on[name]) for name in direct if name in on)


def pages(frame: Frame) -> Iterable[PageOut]:
    """The grounds."""
    sheet = ground_sheet(frame.worked)
    yield frame.page(
        "grounds",
        "grounds.html",
        g=sheet,
        findings=tuple(finding for row in (*sheet.rows, *sheet.unused) for finding in row.findings),
        photo_ids=frozenset(photo.id for photo in frame.photos),
    )
