"""The work sheet: planned rows as steps in working order, what must be known before the first cut, and first power."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.files.folder import next_id
from aswired.record import Change
from aswired.sheets.changes import what
from aswired.sheets.first_power import CAUTION, FirstPower, first_power
from aswired.sheets.flags import wire_flags
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.open_work import OpenWork, open_work
from aswired.sheets.steps import WorkStep, bench_of, step_of, usual_joint
from aswired.sheets.text import count
from aswired.sheets.wires import AgainstRow, planned_against
from aswired.sheets.work_order import next_free, planned_rows, visits
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class StepGroup:
    """The steps done from one place. `again`: one has stood there before."""

    place: str
    again: bool
    steps: tuple[WorkStep, ...]


@dataclass(frozen=True)
class Question:
    """An option of the car that is not known, and the planned rows that wait for the answer."""

    option: str
    could_be: str
    rows: tuple[tuple[str, str], ...]  # id, the row's condition


@dataclass(frozen=True)
class Skipped:
    """A planned row that is not among the steps, and why."""

    id: str
    what: str
    why: str


@dataclass(frozen=True)
class Before:
    """One thing to do before the first cut; `write` names the blanks beside it."""

    title: str
    text: str
    write: tuple[str, ...] = ()


@dataclass(frozen=True)
class WorkSheet:
    """Everything the page says."""

    against: tuple[AgainstRow, ...]  # what the rows would bring against the car, made as they are planned
    questions: tuple[Question, ...]
    before: tuple[Before, ...]
    cautions: tuple[str, ...]
    usual: tuple[tuple[str, str], ...]  # name, value: said once, and left out of the steps that keep to it
    groups: tuple[StepGroup, ...]
    skipped: tuple[Skipped, ...]
    left_out: tuple[Skipped, ...]
    first: FirstPower
    open: OpenWork
    next_row: str
    next_photo: str
    next_reading: str

    @property
    def steps(self) -> tuple[WorkStep, ...]:
        return tuple(step for group in self.groups for step in group.steps)


def work_sheet(worked: JobResult) -> WorkSheet:
    """The work sheet of a job, for this car's options."""
    job = worked.job
    groups = tuple(_groups(worked))
    return WorkSheet(
        against=planned_against(worked) if groups else (),
        questions=tuple(_questions(worked)),
        before=tuple(_before(worked)),
        cautions=job.cautions,
        usual=tuple(usual_joint(job)),
        groups=groups,
        skipped=tuple(_skipped(worked, ("not for this car", "corrected", "redone"))),
        left_out=tuple(_skipped(worked, ("refused", "not judged"))),
        first=first_power(worked, planned=bool(groups)),
        open=open_work(worked),
        next_row=next_id(list(job.changes)),
        next_photo=next_free("P", (photo.id for photo in job.photos)),
        next_reading=next_free("R", (reading.id for reading in job.readings)),
    )


def _groups(worked: JobResult) -> Iterable[StepGroup]:
    order = visits(worked)
    if not order:
        return
    facts = bench_of(worked)
    seen: set[str] = set()
    for visit in order:
        yield StepGroup(visit.place, visit.place in seen, tuple(step_of(row, facts) for row in visit.rows))
        seen.add(visit.place)


# ---- what stands around the steps -----------------------------------------------------------------------------------
def _questions(worked: JobResult) -> Iterable[Question]:
    asked: dict[str, list[tuple[str, str]]] = {}
    for row in _planned(worked, ("undecided",)):
        if row.only_if is not None:
            asked.setdefault(row.only_if.option, []).append((row.id, row.only_if.text))
    for option, rows in asked.items():
        known = worked.job.options[option].could_be if option in worked.job.options else ()
        yield Question(option, ", ".join(known), tuple(rows))


def _skipped(worked: JobResult, statuses: tuple[str, ...]) -> Iterable[Skipped]:
    for row in _planned(worked, statuses):
        result = worked.plan.row(row.id)
        yield Skipped(row.id, what(row), result.why if result else "")


def _planned(worked: JobResult, statuses: tuple[str, ...]) -> Iterable[Change]:
    """Planned rows with one of these statuses in the plan, in the order of the file."""
    found = {result.id for result in worked.plan.rows if result.status in statuses}
    once = {row.id: row for row in reversed(worked.job.changes)}
    return [row for row in reversed(once.values()) if row.id in found and row.made is None]


_ABSENT = ("never fitted", "removed complete")
_ARMED = (
    "Wait as long as the vehicle maker's manual says before you work near it. Yellow plugs and sheathing: no test "
    "lamp, no ohmmeter, no cut."
)


def _before(worked: JobResult) -> Iterable[Before]:
    job = worked.job
    rows = planned_rows(worked)
    yield Before("Battery off", "Negative first, insulated, so that it cannot spring back.", ("off at", "by"))
    if job.systems.restraint == "unknown":
        yield Before("Restraint system", f"Not declared for this car. {_ARMED}", ("waited from", "to"))
    elif job.systems.restraint not in _ABSENT:
        yield Before("Restraint system", _ARMED, ("waited from", "to"))
    if job.systems.high_voltage not in ("unknown", *_ABSENT):
        text = "Orange cables: made dead by the maker's procedure and proved so by measurement, by who may do that."
        yield Before("High voltage", text, ("proved by",))
    shown = {id for photo in job.photos if photo.stage == "before" for id in photo.shows}
    missing = [plug for plug in dict.fromkeys(row.plug for row in rows if row.plug) if plug not in shown]
    none = f" None is recorded yet of {', '.join(missing)}." if missing else ""
    yield Before("Photographs", f"Each place below as it is, with a rule in the picture.{none}")
    yield Before("Wire flags", "On both sides of each cut, before it is cut.")
    yield Before("Prove each wire", "Colour, size and both ends as written, rung through from end to end.")


def pages(frame: Frame) -> Iterable[PageOut]:
    """The work sheet and its wire flags."""
    sheet, flags = work_sheet(frame.worked), wire_flags(frame.worked)
    supply = frame.worked.job.supply
    yield frame.page(
        "worksheet",
        "worksheet.html",
        w=sheet,
        steps=count(len(sheet.steps), "step"),
        stops=count(len(sheet.groups), "place"),
        flags=count(len(flags), "flag") if flags else "",
        caution=CAUTION,
        supply=supply.text if supply and supply.value is not None else NOT_RECORDED,
    )
    if flags:
        yield frame.page("worksheet", "flags.html", title="Wire flags", at="flags.html", flags=flags)
