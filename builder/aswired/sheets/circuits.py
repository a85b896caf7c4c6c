"""Circuits as rows: the list of loads, and all that is known of one load's feed and return."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from aswired.car.circuits import Circuit, CircuitFigures, Path
from aswired.car.harness import BATTERY_NEGATIVE
from aswired.car.trace import Net
from aswired.figures.ways_home import divided, grounds_of, returns_of
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure
from aswired.record import Job, MeterReading, Photo
from aswired.sheets.backfeed import grounds_of_load
from aswired.sheets.drawings.path import PathRow, draw_path, splice_words
from aswired.sheets.drops import JUDGED, DropSheet, beside, drop_sheet, in_short, resistances, rule_of
from aswired.sheets.frame import Frame, PageOut, circuit_uris, job_uri
from aswired.sheets.fuses import rating
from aswired.sheets.not_computed import wanting
from aswired.sheets.notes import notes_of
from aswired.sheets.places import Places, places_of_nodes
from aswired.sheets.recorded import found_dead, load_facts, switch_rows
from aswired.sheets.tests import circuit_tests
from aswired.sheets.text import FigureText, Printed, amount, day, figure_text, listing, printed, size
from aswired.sheets.variants import variant_sheets
from aswired.sheets.ways import WayRow, way_rows
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding
from aswired.text.unsaid import NOT_MEASURED, NOT_RECORDED


@dataclass(frozen=True)
class CircuitRow:
    """One load in the list of circuits."""

    load: str
    deleted: bool
    fuses: tuple[str, ...]
    fed_by: str  # where a complete feed without a fuse begins
    ground: str
    ends_at: str  # where a complete return without a ground point ends
    current: Printed
    feed: str  # complete, open, not examined
    back: str
    colours: tuple[Colour, ...]  # along the way from the feed to the load, each change once
    drop_alone: Printed
    drop_together: Printed
    limit: Printed
    rule: str  # that the limit is of: 3 %
    verdict: str
    bad: bool
    beside: tuple[Printed, ...]  # what else is wrong with its volts
    short: Printed  # drop against its limit in a line, '' while it is not known
    resistances: Printed  # of feed and return in a line
    wanting: str  # what keeps the drop from being computed or judged: 'not computed: length of W71 not recorded'
    splices: int


@dataclass(frozen=True)
class ColourRun:
    """A colour along a path in the direction of the current, and the point where it begins ('' for the first)."""

    at: str
    colour: Colour


@dataclass(frozen=True)
class ShortLine:
    """One line of the short account: fuse, splice or ground, and where it is."""

    id: str
    what: str
    where: str


@dataclass(frozen=True)
class CircuitReading:
    """A reading that was taken on this circuit."""

    id: str
    red: str
    black: str
    on: str
    read: str
    day: str


@dataclass(frozen=True)
class Coil:
    """A coil that switches a load: its own fuses and its own ground point, '' when not traced.

    `off`: the load works only while the coil has no current.
    """

    name: str
    off: bool
    fuses: tuple[str, ...]
    ground: str


@dataclass(frozen=True)
class CircuitSheet:
    """Everything the page of one load says."""

    row: CircuitRow
    kind: str  # lamp, horn, ...
    duty: str
    feed_why: str
    return_why: str
    feed_colours: tuple[ColourRun, ...]
    return_colours: tuple[ColourRun, ...]
    thinnest: str
    length: str
    fuse_words: tuple[tuple[str, str, str], ...]  # name, rating, where
    same_fuse: tuple[str, ...]
    feed_with: tuple[str, ...]
    return_with: tuple[str, ...]
    works_through: tuple[Coil, ...]
    works: tuple[str, ...]  # of a coil: the loads that its contacts switch
    short: tuple[ShortLine, ...]
    path: tuple[PathRow, ...]
    wired: tuple[str, ...]  # what is on record at an end whose way is not complete
    grounds: tuple[str, ...]  # by which it returns, that of the path first
    ways: tuple[WayRow, ...]  # all that carries a part of its current home, where that divides
    has_donor: bool
    drops: DropSheet | None  # of a kept load
    figures: tuple[FigureText, ...]
    readings: tuple[CircuitReading, ...]
    findings: tuple[Finding, ...]
    ids: tuple[str, ...]  # every id on the path, for photographs


def circuit_rows(worked: JobResult) -> tuple[CircuitRow, ...]:
    """Every load of the job in the order of the file, deleted ones last."""
    rows = [_row(circuit, worked) for circuit in worked.circuits.values()]
    return tuple(sorted(rows, key=lambda row: row.deleted))


def circuit_sheet(load: str, worked: JobResult) -> CircuitSheet:
    """The page of one load."""
    circuit = worked.circuits[load]
    donor = worked.donor_circuits.get(load)
    job, where = worked.job, places_of_nodes(worked)
    before = donor if donor and _has_path(donor) else None
    states = {line.name: line.state for account in worked.ledger.accounts.values() for line in account.lines}
    path = draw_path(circuit, worked.shown, before, worked.donor, job, where, states)
    figures = worked.circuit_figures.get(load)
    declared = job.loads.get(load)
    fuses = {fuse.name: fuse for fuse in worked.fuses}
    ids = _ids(circuit)
    return CircuitSheet(
        row=_row(circuit, worked),
        kind=declared.class_ if declared else "other",
        duty=declared.duty if declared else "unknown",
        feed_why=_why(circuit.feed),
        return_why=_why(circuit.back),
        feed_colours=tuple(_colours(circuit.feed)),
        return_colours=tuple(_colours(circuit.back)),
        thinnest=_thinnest(circuit, worked),
        length=_length(circuit, worked),
        fuse_words=tuple(_fuse_words(name, worked, where) for name in circuit.fuses),
        same_fuse=_others(load, [name for fuse in circuit.fuses if fuse in fuses for name in fuses[fuse].loads]),
        feed_with=circuit.feed_with,
        return_with=circuit.return_with,
        works_through=tuple(Coil(coil, off, *_coil_ways(coil, worked)) for coil, off in coils_of(circuit, job).items()),
        works=tuple(name for name, other in worked.circuits.items() if load in coils_of(other, job)),
        short=tuple(_short(circuit, worked, where)),
        path=path,
        wired=wired_at(circuit, worked),
        grounds=_grounds(circuit, worked),
        ways=_ways(circuit, worked),
        has_donor=any(row.was for row in path),
        drops=drop_sheet(figures, job) if figures else None,
        figures=tuple(figure_text(figure, job.units) for figure in _figures(figures)) if figures else (),
        readings=tuple(_reading(reading) for reading in job.readings if _on_circuit(reading, load, ids)),
        findings=tuple(finding for finding in worked.findings if finding.entry == load),
        ids=ids,
    )


def wired_at(circuit: Circuit, worked: JobResult) -> tuple[str, ...]:
    """Of a kept load whose feed or return is not complete, what leads from that end on: `K3.86: W144 to selector.6`.

    Where it cannot be told which end is fed, both are told.
    """
    load = worked.loads.get(circuit.load)
    if load is None or load.verdict != "kept":
        return ()
    net = worked.network.grid.net
    done = [
        end
        for end, path in ((circuit.feed_end, circuit.feed), (circuit.return_end, circuit.back))
        if path.state == "complete"
    ]
    ends = [end for end in net.ends_now(load.between) or () if end not in done]
    return tuple(f"{end}: {_leads_on(end, net)}" for end in ends) if len(done) < 2 else ()


def _leads_on(end: str, net: Net) -> str:
    """The wires from an end on, with where each leads, as the trace goes; switches and loads on the way end it."""
    reached = net.reach(end).nodes
    steps = [(step[0], name) for name, step in reached.items() if step is not None]
    wires = [f"{link.stretch.wire} to {name}" for link, name in steps if link.stretch is not None]
    return listing(wires, "no wire on record")


def _grounds(circuit: Circuit, worked: JobResult) -> tuple[str, ...]:
    transfer = worked.network
    if circuit.load in worked.circuit_figures and divided(circuit.load, transfer):
        return grounds_of(circuit.load, circuit.ground, transfer)
    return (circuit.ground,) if circuit.ground else ()


def _ways(circuit: Circuit, worked: JobResult) -> tuple[WayRow, ...]:
    transfer = worked.network
    if circuit.load not in worked.circuit_figures or not divided(circuit.load, transfer):
        return ()
    return way_rows(returns_of(circuit.load, transfer, transfer.stated[circuit.load]), worked.job.units)


def coils_of(circuit: Circuit, job: Job) -> dict[str, bool]:
    """The coils whose relay contacts lie on the way of a load -> whether that contact is closed at rest."""
    steps = (step for path in (circuit.feed, circuit.back) for step in path.steps if step.kind == "switch")
    contacts = (job.switches[step.name] for step in steps)
    return {contact.worked_by: contact.at_rest == "closed" for contact in contacts if contact.worked_by}


def _coil_ways(coil: str, worked: JobResult) -> tuple[tuple[str, ...], str]:
    circuit = worked.circuits.get(coil)
    return (circuit.fuses, circuit.ground) if circuit is not None else ((), "")


def _has_path(circuit: Circuit) -> bool:
    return bool(circuit.feed.stretches or circuit.back.stretches)


def _row(circuit: Circuit, worked: JobResult) -> CircuitRow:
    figures = worked.circuit_figures.get(circuit.load)
    load = worked.loads.get(circuit.load)
    return CircuitRow(
        load=circuit.load,
        deleted=bool(load and load.verdict == "deleted"),
        fuses=circuit.fuses,
        fed_by=_outermost(circuit.feed, 0),
        ground=circuit.ground,
        ends_at=_outermost(circuit.back, -1),
        current=_printed(figures.current if figures else None),
        feed=circuit.feed.state,
        back=circuit.back.state,
        colours=tuple(run.colour for run in _colours(circuit.feed)),
        drop_alone=_printed(figures.alone.whole if figures else None),
        drop_together=_printed(figures.together.whole if figures else None),
        limit=_printed(figures.limit if figures else None),
        rule=rule_of(circuit.load, worked.job) if figures else "",
        verdict=JUDGED[figures.ok if figures else None],
        bad=bool(figures and figures.ok is False),
        beside=beside(figures, worked.job) if figures else (),
        short=in_short(figures, worked.job) if figures else Printed(""),
        resistances=resistances(figures) if figures else Printed(""),
        wanting=wanting(figures) if figures else "",
        splices=len(_joints(circuit, worked)),
    )


def _outermost(path: Path, index: int) -> str:
    """What stands at the end of a complete path that is away from the load."""
    return path.steps[index].name if path.state == "complete" and path.steps else ""


def _printed(figure: Figure | None) -> Printed:
    return printed(figure) if figure else Printed(NOT_RECORDED)


def _colours(path: Path) -> Iterable[ColourRun]:
    """Colours of a path, each change of colour once, with the point where it changes."""
    before: Colour | None = None
    between = ""
    for step in path.steps:
        if step.stretch is None:
            between = step.node.name if step.node else step.name
        elif before is None or before.code != step.stretch.colour.code:
            yield ColourRun(between if before is not None else "", step.stretch.colour)
            before = step.stretch.colour


def _joints(circuit: Circuit, worked: JobResult) -> list[str]:
    names = [step.node.name for path in (circuit.feed, circuit.back) for step in path.steps if step.node]
    return [name for name in dict.fromkeys(names) if name in worked.shown.joints]


def _why(path: Path) -> str:
    return path.why if path.state != "complete" else ""


def _ids(circuit: Circuit) -> tuple[str, ...]:
    """Every id a path passes: nodes, their plugs, wires, rows."""
    found = [circuit.load]
    for path in (circuit.feed, circuit.back):
        for step in path.steps:
            found.append(step.name)
            if step.node:
                found += [step.node.name, step.node.name.rpartition(".")[0], step.node.made_by]
            if step.stretch:
                found += [step.stretch.wire, step.stretch.origin]
    return tuple(name for name in dict.fromkeys(found) if name)


def _thinnest(circuit: Circuit, worked: JobResult) -> str:
    """The thinnest wire the fuses of this circuit protect, as the fuse page judges it."""
    for fuse in reversed([fuse for fuse in worked.fuses if fuse.name in circuit.fuses]):
        if fuse.thinnest is not None:
            return f"{size(fuse.thinnest.size)} ({fuse.thinnest.wire})"
    return NOT_RECORDED


def _length(circuit: Circuit, worked: JobResult) -> str:
    """Conductor from the feed's source to the load and back, joints counted once."""
    lengths = [stretch.effective_mm for path in (circuit.feed, circuit.back) for stretch in path.stretches]
    complete = circuit.feed.state == circuit.back.state == "complete"
    if not lengths or not complete or None in lengths:
        return NOT_RECORDED
    return amount(sum(length for length in lengths if length is not None), "mm", worked.job.units)


def _fuse_words(name: str, worked: JobResult, where: Places) -> tuple[str, str, str]:
    return (
        name,
        rating(worked.shown.fuses[name].facts if name in worked.shown.fuses else None),
        where(name) or NOT_RECORDED,
    )


def _others(load: str, names: Iterable[str]) -> tuple[str, ...]:
    return tuple(name for name in dict.fromkeys(names) if name != load)


def _short(circuit: Circuit, worked: JobResult, where: Places) -> Iterable[ShortLine]:
    for name in circuit.fuses:
        yield ShortLine(name, f"fuse, {_fuse_words(name, worked, where)[1]}", where(name) or NOT_RECORDED)
    for name in _joints(circuit, worked):
        yield ShortLine(name, splice_words(name, worked.shown), where(name) or NOT_RECORDED)
    for name in _grounds(circuit, worked):
        words = "ground point" if name == circuit.ground else "ground point, another way home"
        yield ShortLine(name, words, where(name) or NOT_RECORDED)


def _figures(figures: CircuitFigures) -> Iterable[Figure]:
    """Every figure once: the rule that judges stands there as the limit."""
    return (figure for figure in figures.figures if figure not in figures.rules or figure.rule != figures.limit.rule)


def _on_circuit(reading: MeterReading, load: str, ids: tuple[str, ...]) -> bool:
    """Whether a reading is of this load, of a row that worked on it, or was taken at one of its points."""
    return reading.of == load or reading.of in ids or (reading.red in ids and reading.red != BATTERY_NEGATIVE)


def _reading(reading: MeterReading) -> CircuitReading:
    read = reading.read.text if reading.read and reading.read.value is not None else NOT_MEASURED
    return CircuitReading(
        reading.id,
        reading.red or NOT_RECORDED,
        reading.black or NOT_RECORDED,
        reading.with_ or NOT_RECORDED,
        read,
        day(reading.on),
    )


def pages(frame: Frame) -> Iterable[PageOut]:
    """The list, then a page for each load."""
    worked = frame.worked
    rows = circuit_rows(worked)
    deleted = sum(row.deleted for row in rows)
    uris = circuit_uris(worked)  # a plug may bear the name of its load: the list leads to the load
    yield frame.page(
        "circuits",
        "circuits.html",
        rows=rows,
        uris=uris,
        kept=len(rows) - deleted,
        deleted=deleted,
        variants=variant_sheets(worked),
        switches=switch_rows(worked),
    )
    dead = found_dead(worked)
    photos = frame.photos
    home = job_uri(worked.job.slug, "")
    for load, uri in uris.items():
        sheet, tests = circuit_sheet(load, worked), circuit_tests(load, worked)
        at = photos_at(photos, sheet.ids)
        shown = dict.fromkeys(id for ids in at.values() for id in ids)
        yield frame.page(
            "circuits",
            "circuit.html",
            title=load,
            at=uri.removeprefix(home),
            c=sheet,
            facts=load_facts(load, worked),
            dead_in=dead,
            t=tests,
            notes=notes_of((*sheet.figures, *(tests.figures if tests else ()))),
            opened=grounds_of_load(load, worked),
            photos_at=at,
            photos=tuple(photo for photo in photos if photo.id in shown),
        )


def photos_at(photos: Sequence[Photo], ids: Iterable[str]) -> Mapping[str, tuple[str, ...]]:
    """Id -> the photographs that show or mark it."""
    found: dict[str, list[str]] = {}
    wanted = set(ids)
    for photo in photos:
        for id in dict.fromkeys((*photo.shows, *(mark.of for mark in photo.marks))):
            if id in wanted:
                found.setdefault(id, []).append(photo.id)
    return {id: tuple(names) for id, names in found.items()}
