"""Ground points as rows, and the return tree: what lands where, what it carries, what fails together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from aswired.diagnostics import Finding
from aswired.model import GroundPoint
from aswired.views.drawing_tree import BATTERY, Tree, TreeLoad, TreePoint, draw_tree
from aswired.views.places import places_of_nodes
from aswired.views.splices import WireEnd, wire_ends
from aswired.views.text import NOT_RECORDED, FigureText, amount, date, figure_text, length, size
from aswired.worked import GroundSummary, Worked


@dataclass(frozen=True)
class RingRow:
    """A ring terminal on a stud."""

    position: str
    hole: str
    wires: tuple[str, ...]
    row: str  # '' = the donor's own


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
    ring_count: str  # '2 of 4'
    too_many: bool
    lands: tuple[WireEnd, ...]
    loads: tuple[str, ...]
    behind: tuple[str, ...]
    back_to: str
    cable: str
    total: FigureText
    amps: str  # its total in words; a point without a traced load has none
    rise: FigureText
    photos: tuple[str, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class GroundSheet:
    """Everything the page of grounds says. `outside`: kept loads whose return is not in the tree, with the reason."""

    rows: tuple[GroundRow, ...]
    unused: tuple[GroundRow, ...]
    tree: Tree | None
    outside: tuple[tuple[str, str], ...]
    body: str  # whether the body carries returns, in words


BODY = {
    "yes": "The body carries returns.",
    "no": "The body carries no return: every return is a wire.",
    "unknown": "Whether the body carries returns is not recorded.",
}


def ground_sheet(worked: Worked) -> GroundSheet:
    """The page of grounds."""
    rows = tuple(_row(ground, worked) for ground in worked.grounds)
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
        body=BODY[worked.job.body_returns],
    )


def _row(ground: GroundSummary, worked: Worked) -> GroundRow:
    units, point = worked.job.units, ground.point
    where = places_of_nodes(worked)
    ids = {ground.name, *(ring.row for ring in ground.rings if ring.row)}
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
            )
            for ring in ground.rings
        ),
        ring_count=f"{len(ground.rings)} of {ground.ring_limit}",
        too_many=len(ground.rings) > ground.ring_limit,
        lands=wire_ends(worked.shown.at_node.get(ground.name, ()), ground.name),
        loads=ground.loads,
        behind=ground.behind,
        back_to=ground.back_to or NOT_RECORDED,
        cable=", ".join(cable) or NOT_RECORDED,
        total=figure_text(ground.total, units),
        amps=figure_text(ground.total, units).value if ground.loads else NOT_RECORDED,
        rise=figure_text(ground.rise, units),
        photos=tuple(photo.id for photo in worked.job.photos if ids & {*photo.shows, *(m.of for m in photo.marks)}),
        findings=tuple(finding for finding in worked.findings if finding.entry == ground.name),
    )


def _face(point: GroundPoint) -> Iterator[str]:
    """What is written of the face under the rings and of what is close to it."""
    if point.surface == "unknown":
        yield "face not known"
    elif point.surface:
        yield f"face {point.surface}"
    if point.painted is not None:
        yield "painted" + (f" {date(point.painted.date)}" if point.painted.date else "")
    if near := [word for word in point.near if word != "none"]:
        yield "close to " + ", ".join(near)


def _direct(name: str, worked: Worked) -> tuple[str, ...]:
    """Kept loads with a complete return whose first ground point is this one."""
    return tuple(
        load
        for load, circuit in worked.circuits.items()
        if circuit.ground == name and circuit.back.state == "complete" and load in worked.circuit_figures
    )


def _tree(worked: Worked) -> Tree | None:
    points = []
    for ground in worked.grounds:
        if ground.state != "in use":
            continue
        lines = [f"{amount(ground.rise.value, 'V')} rise" if ground.rise.known else "rise not recorded"]
        if not ground.back_to:
            lines.append("way back not recorded")
        loads = tuple(_load(name, worked) for name in _direct(ground.name, worked))
        total_a = ground.total.value if ground.loads else None  # nothing traced is not nothing flowing
        points.append(TreePoint(ground.name, ground.back_to, loads, total_a, tuple(lines)))
    home = tuple(_load(name, worked) for name in _direct("", worked)) + tuple(
        _load(name, worked) for name in _direct(BATTERY, worked)
    )
    return draw_tree(points, home) if points or home else None


def _load(name: str, worked: Worked) -> TreeLoad:
    return TreeLoad(name, worked.circuit_figures[name].current.value)
