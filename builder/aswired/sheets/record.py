"""The service record: what a stranger must know of this car years later, gathered from the same rows as the pages."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.sheets.cautions import Caution, cautions, standing
from aswired.sheets.changes import ChangeRow, Fact, change_rows, wire_left
from aswired.sheets.circuits import CircuitRow, circuit_rows, wired_at
from aswired.sheets.cut_ends import CutEnd, cut_ends
from aswired.sheets.drawings.path import PathRow, draw_path
from aswired.sheets.extensions import ExtensionSheet, extension_sheet
from aswired.sheets.findings import Group
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.fuses import FuseSheet, fuse_sheet
from aswired.sheets.grounds import GroundSheet, ground_sheet
from aswired.sheets.ledger_head import Head, head
from aswired.sheets.ledger_then import HandedOver, as_handed_over
from aswired.sheets.looms import LoomRow, loom_rows
from aswired.sheets.not_examined import Subject, subjects
from aswired.sheets.overview import Against, Verdict, against, hand_over, let_stand, ranked
from aswired.sheets.photos import photo_rows
from aswired.sheets.places import places_of_nodes
from aswired.sheets.readings import CheckRow, ReadingRow, check_rows, reading_rows
from aswired.sheets.recorded import battery_off
from aswired.sheets.service import Visit, visits
from aswired.sheets.splices import SpliceSheet, splice_sheet
from aswired.sheets.tests import circuit_tests
from aswired.sheets.text import handed_over, shown_of
from aswired.text.diagnostics import Severity
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class Deleted:
    """A function that was taken out on purpose, and why."""

    name: str
    why: str
    rows: tuple[str, ...]


@dataclass(frozen=True)
class PrintedCircuit:
    """One kept circuit in the record: its path as it is now."""

    row: CircuitRow
    path: tuple[PathRow, ...]
    wired: tuple[str, ...]  # what is on record at an end whose way is not complete
    misled: tuple[tuple[str, tuple[str, ...]], ...]  # steps of its test sheet that may mislead, and why


@dataclass(frozen=True)
class ServiceRecord:
    """Everything the service record holds."""

    plate: tuple[Fact, ...]
    private: tuple[Fact, ...]
    head: Head  # of the ledger
    then: HandedOver | None  # the ledger of the day of the hand-over
    hand_over: Verdict
    cautions: tuple[Caution, ...]
    standing_rules: tuple[Caution, ...]
    deleted: tuple[Deleted, ...]
    fuses: FuseSheet
    usual: str  # joint and cover of a row that does not name its own; '' when none is written
    battery_off: str  # days on which the battery was taken off; '' when none is written
    changes: tuple[ChangeRow, ...]
    cut_ends: tuple[CutEnd, ...]
    looms: tuple[LoomRow, ...]
    splices: SpliceSheet
    circuits: tuple[PrintedCircuit, ...]
    extensions: ExtensionSheet
    grounds: GroundSheet
    readings: tuple[ReadingRow, ...]
    checks: tuple[CheckRow, ...]
    visits: tuple[Visit, ...]
    subjects: tuple[Subject, ...]
    against: Against  # in one line
    standing: tuple[Group, ...]  # all of it but the notes
    notes: tuple[Group, ...]
    accepted: tuple[Group, ...]


def record(worked: JobResult) -> ServiceRecord:
    """The service record of a job in the shown view."""
    found = ranked(worked)
    return ServiceRecord(
        plate=tuple(_plate(worked)),
        private=tuple(Fact(label, value) for label, value in worked.job.private.items()),
        head=head(worked),
        then=as_handed_over(worked),
        hand_over=hand_over(worked),
        cautions=cautions(worked),
        standing_rules=standing(worked),
        deleted=tuple(_deleted(worked)),
        fuses=fuse_sheet(worked),
        usual=_usual(worked.job),
        battery_off=battery_off(worked.job),
        changes=change_rows(worked),
        cut_ends=cut_ends(worked),
        looms=loom_rows(worked),
        splices=splice_sheet(worked),
        circuits=tuple(_circuits(worked)),
        extensions=extension_sheet(worked),
        grounds=ground_sheet(worked),
        readings=reading_rows(worked),
        checks=check_rows(worked),
        visits=visits(worked),
        subjects=subjects(worked),
        against=against(worked),
        standing=tuple(group for group in found if group.severity is not Severity.NOTE),
        notes=tuple(group for group in found if group.severity is Severity.NOTE),
        accepted=let_stand(worked),
    )


def _plate(worked: JobResult) -> Iterable[Fact]:
    job = worked.job
    yield Fact("Job", job.job)
    yield Fact("Vehicle", job.vehicle or NOT_RECORDED)
    yield Fact("Harness from", job.donor or NOT_RECORDED)
    yield Fact("Revision of this record", job.revision or NOT_RECORDED)
    yield Fact("Shows the car", shown_of(worked).text)
    yield Fact("Handed over", handed_over(job))
    yield Fact("System", job.system.text if job.system else NOT_RECORDED)
    yield Fact("Pole on the body", NOT_RECORDED if job.ground_side == "unknown" else job.ground_side)
    yield Fact("Body carries returns", NOT_RECORDED if job.body_returns == "unknown" else job.body_returns)
    yield Fact("Left and right", job.left_and_right or NOT_RECORDED)
    yield Fact("Figures are for", _conditions(job))
    yield Fact("Options", ", ".join(f"{name} {option.is_}" for name, option in job.options.items()) or NOT_RECORDED)


def _usual(job: Job) -> str:
    return "; ".join(way.text for way in (job.usual.joint, job.usual.cover) if way is not None)


def _conditions(job: Job) -> str:
    supply = job.supply.text if job.supply else f"supply {NOT_RECORDED}"
    temperature = (
        f"{job.temperature.value:g} °C"
        if job.temperature and job.temperature.value is not None
        else f"temperature {NOT_RECORDED}"
    )
    return f"{supply}, {temperature}, AWG by {job.awg_means}"


def _deleted(worked: JobResult) -> Iterable[Deleted]:
    """Loads that were decided against, with the rows that took their wires out; then removals that served no load."""
    removals = [change for change in worked.rows_of(worked.shown) if _takes_out(change)]
    told: set[str] = set()
    for name, load in worked.loads.items():
        if load.verdict == "deleted":
            ends = set(load.between or ())
            rows = [change for change in removals if _touches(change, ends, worked)]
            told.update(change.id for change in rows)
            yield Deleted(name, _why(rows), tuple(change.id for change in rows))
    for change in removals:
        if change.id not in told:
            gone = [name for name in change.wire_names if wire_left(name, worked.shown)]
            if gone:
                yield Deleted(f"wire {', '.join(gone)}", _why([change]), (change.id,))


def _takes_out(change: Change) -> bool:
    """Whether a row takes wires out; a cap does whose rest went with its part."""
    return kind_of(change).alters == "gone" or (change.far is not None and change.far.word == "gone")


def _touches(change: Change, ends: set[str], worked: JobResult) -> bool:
    """Whether a row took out a wire that ended at one of these ends in the donor."""
    states = (worked.donor.wires.get(wire) for wire in change.wire_names)
    return any(ends & set(state.donor_ends) for state in states if state is not None)


def _why(rows: list[Change]) -> str:
    return "; ".join(dict.fromkeys(change.why for change in rows if change.why)) or NOT_RECORDED


def _circuits(worked: JobResult) -> Iterable[PrintedCircuit]:
    where = places_of_nodes(worked)
    for row in circuit_rows(worked):
        if not row.deleted:
            circuit = worked.circuits[row.load]
            path = draw_path(circuit, worked.shown, None, worked.donor, worked.job, where)
            tests = circuit_tests(row.load, worked)
            yield PrintedCircuit(row, path, wired_at(circuit, worked), tests.misled if tests is not None else ())


BLANK_LINES = 10  # for later work
BLANK_YEARS = 3  # columns beside each reading


def pages(frame: Frame) -> Iterable[PageOut]:
    """The service record."""
    yield frame.page(
        "record",
        "record.html",
        r=record(frame.worked),
        photos=photo_rows(frame.photos, frame.worked.job.changes),
        blank_lines=BLANK_LINES,
        blank_years=BLANK_YEARS,
    )
