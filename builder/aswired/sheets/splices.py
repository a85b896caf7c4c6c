"""Splices as rows: where each lies, what it joins, how it was made; and the route they lie on as rulers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.harness import Stretch
from aswired.figures.places import PlacedJoint
from aswired.figures.worked import JobResult
from aswired.record import Job, Leg
from aswired.sheets.changes import fates, what
from aswired.sheets.drawings.ruler import Rulers, draw_route
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.places import told
from aswired.sheets.text import FigureText, Printed, amount, count, figure_text, length, size
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class WireEnd:
    """A stretch of wire that ends in a splice."""

    wire: str
    colour: Colour
    size: str
    to: str  # the other end


@dataclass(frozen=True)
class SpliceRow:
    """A splice made by a row of the job. `how` is '' when it is the method most splices have."""

    id: str
    row: str
    place: str
    placed: bool
    written: str  # place as written in the row, when it differs from `place`
    zone: str
    wires: tuple[WireEnd, ...]
    circuits: tuple[str, ...]
    method: str
    cover: str
    how: str
    overlap: str
    state: str
    tap: bool
    along: str  # centre of the joint along the wire, in words
    cut_mark: str  # the cut face beside it
    centre: FigureText
    photos: tuple[str, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class Opening:
    """A row that took a wire out of a splice, and how it left the splice."""

    row: str
    how: str


@dataclass(frozen=True)
class FactoryRow:
    """A joint the maker made."""

    id: str
    place: str
    wires: tuple[WireEnd, ...]
    opened_by: tuple[Opening, ...]
    all_known: bool
    declared: bool
    note: str
    bus: bool  # wire to a fuse is measured from it


@dataclass(frozen=True)
class RouteLeg:
    """A leg of the route."""

    start: str
    end: str
    length: str
    zone: str
    name: str


@dataclass(frozen=True)
class SpliceSheet:
    """Everything the page of splices says. `usual` is the method and cover most of them have."""

    usual: str
    rows: tuple[SpliceRow, ...]
    factory: tuple[FactoryRow, ...]
    rulers: Rulers
    legs: tuple[RouteLeg, ...]
    landmarks: tuple[tuple[str, str], ...]


def splice_sheet(worked: JobResult) -> SpliceSheet:
    """The page of splices. Splices of the plan are all listed; their state says which are made."""
    job = worked.job
    ways = Counter(_how(placed) for placed in worked.joints)
    usual, many = ways.most_common(1)[0] if ways else ("", 0)
    usual = usual if many > 1 else ""
    through = _circuits_at(worked)
    return SpliceSheet(
        usual=usual,
        rows=tuple(_row(placed, usual, through, worked) for placed in worked.joints),
        factory=tuple(_factory_rows(worked)),
        rulers=draw_route(job.route, worked.joints, job.units),
        legs=tuple(
            RouteLeg(leg.from_, leg.to, length(leg.length, job.units), _runs_through(leg), leg.name)
            for leg in job.route
        ),
        landmarks=tuple(job.landmarks.items()),
    )


def _runs_through(leg: Leg) -> str:
    """`wet, hot, 95 °C at the hottest`: the zone of a leg, and how hot it was measured."""
    hottest = leg.hottest.value if leg.hottest is not None else None
    heat = f"{hottest:g} °C at the hottest, measured" if hottest is not None else ""
    return ", ".join(filter(None, [*leg.zone, heat])) or NOT_RECORDED


def wire_ends(stretches: tuple[Stretch, ...], node: str) -> tuple[WireEnd, ...]:
    """Stretches that end in a node, each with its other end."""
    return tuple(
        WireEnd(stretch.wire, stretch.colour, size(stretch.size), stretch.other(node)) for stretch in stretches
    )


def _how(placed: PlacedJoint) -> str:
    joint = placed.joint
    method = joint.method.text if joint.method and joint.method.text != "unknown" else f"method {NOT_RECORDED}"
    cover = joint.cover.text if joint.cover and joint.cover.text != "unknown" else f"cover {NOT_RECORDED}"
    return f"{method}; {cover}"


def _row(placed: PlacedJoint, usual: str, through: dict[str, tuple[str, ...]], worked: JobResult) -> SpliceRow:
    joint, units = placed.joint, worked.job.units
    photos = [
        photo.id
        for photo in worked.job.photos
        if {joint.id, joint.row} & {*photo.shows, *(mark.of for mark in photo.marks)}
    ]
    written = worked.job.change(joint.row)
    listed = written.photos if written else ()
    how = _how(placed)
    circuits = through.get(joint.id, ())
    return SpliceRow(
        id=joint.id,
        row=joint.row,
        place=placed.place or NOT_RECORDED,
        placed=placed.leg is not None,
        written=joint.recorded_place if joint.recorded_place not in ("", placed.place) else "",
        zone=", ".join(placed.zone),
        wires=wire_ends(placed.arrives, joint.id),
        circuits=circuits,
        method=joint.method.text if joint.method else NOT_RECORDED,
        cover=joint.cover.text if joint.cover else NOT_RECORDED,
        how="" if how == usual else how,
        overlap=amount(joint.overlap_mm, "mm", units),
        state=worked.state_at(placed),
        tap=joint.tap,
        along=Printed(_from(joint.centre_mm, joint.from_end, units), placed.centre.key),
        cut_mark=_from(joint.cut_face_mm, joint.cut_from, units),
        centre=figure_text(placed.centre, units),
        photos=tuple(dict.fromkeys((*photos, *listed))),
        findings=tuple(finding for finding in worked.findings if finding.entry == joint.id),
    )


def _from(distance_mm: float | None, end: str, units: str) -> str:
    if distance_mm is None or not end:
        return NOT_RECORDED
    return f"{amount(distance_mm, 'mm', units)} from {end}"


def _circuits_at(worked: JobResult) -> dict[str, tuple[str, ...]]:
    """Node -> loads whose path passes it."""
    found: dict[str, list[str]] = {}
    for circuit in worked.circuits.values():
        for name in _nodes(circuit):
            found.setdefault(name, []).append(circuit.load)
    return {name: tuple(loads) for name, loads in found.items()}


def _nodes(circuit: Circuit) -> dict[str, None]:
    """Nodes a circuit passes, each once."""
    return dict.fromkeys(step.node.name for path in (circuit.feed, circuit.back) for step in path.steps if step.node)


def _factory_rows(worked: JobResult) -> list[FactoryRow]:
    rows = []
    for name in dict.fromkeys((*worked.job.splices, *_factory_names(worked))):
        splice = worked.job.splices.get(name)
        node = worked.shown.nodes.get(name)
        members = worked.shown.at_node.get(name, ())
        rows.append(
            FactoryRow(
                id=name,
                place=told(splice.place if splice else ""),
                wires=wire_ends(members, name),
                opened_by=tuple(_opening(row, name, worked.job) for row in node.opened_by) if node else (),
                all_known=splice.all_members_known if splice else True,
                declared=splice is not None,
                note=splice.note if splice else "",
                bus=bool(splice and splice.bus),
            )
        )
    return rows


def _opening(row: str, splice: str, job: Job) -> Opening:
    """`W121 flush` for a removal, else what the row did."""
    change = job.change(row)
    if change is None:
        return Opening(row, NOT_RECORDED)
    left = [(wire, change.fates_of(wire)[splice]) for wire in change.wire_names if splice in change.fates_of(wire)]
    return Opening(row, fates(left, job.units) if left else what(change))


def _factory_names(worked: JobResult) -> list[str]:
    return [node.name for node in worked.shown.nodes.values() if node.kind == "factory splice"]


def pages(frame: Frame) -> Iterable[PageOut]:
    """The splices."""
    sheet = splice_sheet(frame.worked)
    yield frame.page(
        "splices",
        "splices.html",
        s=sheet,
        said=count(len(sheet.rows), "splice").capitalize(),
        centres=tuple(row.centre for row in sheet.rows),
        photo_ids=frozenset(photo.id for photo in frame.photos),
    )
