"""Meter readings as rows: what was read between which two points, whether it keeps its limits, and what the network of
the car expects there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.figures.expected import ABOVE, BELOW, NOTHING_ON, Expected
from aswired.figures.worked import JobResult
from aswired.record import Change, Job, MeterReading
from aswired.sheets.findings import standing_at
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.service import visits
from aswired.sheets.text import (
    FigureText,
    Printed,
    amount,
    day,
    figure_text,
    is_unsaid,
    printed,
    shown_reading,
    unit_text,
)
from aswired.sheets.years import HEIGHT, WIDTH, series
from aswired.text.units import Reading
from aswired.text.unsaid import NOT_JUDGED, NOT_MEASURED, NOT_RECORDED, Unsaid

WITHIN, OVER, TOO_LOW = "within", "over the limit", "too low"
NO_FIGURE = Unsaid("no figure recorded")  # of a check that was made
PROVES_NOTHING = "proves nothing"
_SMALL = {"A": ("mA", 1000.0, 0), "ohm": ("mohm", 1000.0, 1)}  # unit, factor and digits of a band below one


@dataclass(frozen=True)
class ReadingRow:
    """One reading. `verdict` is within, over the limit, too low, not judged, not measured, or `PROVES_NOTHING` where it
    would be within and a lead was at a point that the car did not have."""

    id: str
    of: str
    red: str
    black: str
    on: str  # what was switched on
    loads_on: str  # the loads among it, by name; '' when that is not written
    through: str  # the current at that moment, by clamp
    read: str
    limit: str
    supply: str
    day: str
    by: str
    verdict: str
    bad: bool
    expected: str  # value, or 'not recorded'
    band: str
    against: str  # verdict against it, '' where none is told
    against_bad: bool
    why: str  # why nothing is expected of what was read
    used: str  # part that the figures count as this reading has it
    figure: FigureText | None  # of what is expected


@dataclass(frozen=True)
class CheckRow:
    """A row of kind verify: what is to be proved, and how far it got. `readings` are those of the check itself;
    `beside` those of rows that it proves, taken on its day: of another point perhaps, so that they prove nothing here.
    """

    id: str
    proves: tuple[str, ...]
    test: str
    expect: str
    state: str
    readings: tuple[str, ...]
    nothing: str  # what to say where there is none
    beside: tuple[str, ...]
    void: tuple[str, ...]  # what of `proves` it does not prove, and why: 'C14: checked before it was made'


def reading_rows(worked: JobResult) -> tuple[ReadingRow, ...]:
    """Every reading, in the order of the file."""
    if not worked.job.readings:
        return ()
    measured = worked.network.grid.measured
    both = zip(worked.job.readings, worked.expected, strict=True)
    nowhere = [reading for reading, _ in worked.nowhere]
    return tuple(
        _row(reading, found, measured.get(reading.id, ""), worked.job, reading in nowhere) for reading, found in both
    )


def check_rows(worked: JobResult) -> tuple[CheckRow, ...]:
    """The checks of the job that are in force in the plan, in the order of the file."""
    return tuple(
        CheckRow(
            id=change.id,
            proves=change.proves,
            test=change.test or NOT_RECORDED,
            expect=change.expect or NOT_RECORDED,
            state=worked.state_of(change),
            readings=tuple(reading.id for reading in worked.job.readings if reading.of == change.id),
            nothing=NO_FIGURE if change.made is not None else NOT_MEASURED,
            beside=tuple(reading.id for reading in worked.job.readings if _on_its_day(reading, change)),
            void=_void(change, worked),
        )
        for change in worked.rows_of(worked.plan)
        if kind_of(change).proves
    )


def _on_its_day(reading: MeterReading, check: Change) -> bool:
    """Whether a reading of a row that a check proves was taken on the day of the check."""
    day = check.made.date if check.made is not None else None
    return reading.of in check.proves and reading.of != check.id and day is not None and reading.day == day


def _void(check: Change, worked: JobResult) -> tuple[str, ...]:
    void = worked.void_proofs
    return tuple(f"{name}: {void[check.id, name]}" for name in check.proves if (check.id, name) in void)


def judge(read: Reading | None, limit: Reading | None, at_least: Reading | None = None) -> str:
    """A reading against what it should stay below and what it should reach."""
    if read is None or read.value is None:
        return NOT_MEASURED
    kept, reached = read.keeps(limit), read.reaches(at_least)
    if kept is False:
        return OVER
    if reached is False:
        return TOO_LOW
    return NOT_JUDGED if kept is None and reached is None else WITHIN


def _limits(reading: MeterReading, job: Job) -> str:
    """`0.2 V`, `at least 11.5 V`, or both; of a current with everything off that has none of its own, the job's."""
    most, least = (given if given and given.value is not None else None for given in (reading.limit, reading.at_least))
    told = (shown_reading(most, "") if most else "", f"at least {shown_reading(least, '')}" if least else "")
    if not any(told) and reading.loads_on == (NOTHING_ON,) and reading.read is not None and reading.read.unit == "A":
        return f"{amount(job.limits_in_force['key-off draw'].value, 'A')} beside what is live for good"
    return "; ".join(filter(None, told)) or NOT_RECORDED


def _band(found: Expected, unit: str) -> str:
    """`0.03 to 0.09 V`, `up to 50 mA`: both ends with one unit and as many digits."""
    if found.high is None:
        return ""
    shown, times, digits = _SMALL[unit] if found.high < 1 and unit in _SMALL else (unit, 1.0, 2)
    low = f"{found.low * times:.{digits}f}" if found.low is not None else ""
    least = f"{low} to " if low and float(low) else "up to "
    return f"{least}{found.high * times:.{digits}f} {unit_text(shown)}"


def _row(reading: MeterReading, found: Expected, used: str, job: Job, nowhere: bool) -> ReadingRow:
    read = shown_reading(reading.read, NOT_MEASURED)
    verdict = judge(reading.read, reading.most, reading.least)
    if nowhere and verdict == WITHIN:
        verdict = PROVES_NOTHING
    if verdict == WITHIN and not reading.shows:
        verdict = NOT_JUDGED  # on a day that cannot be; one outside its limits is told all the same
    return ReadingRow(
        id=reading.id,
        of=reading.of,
        red=reading.red or NOT_RECORDED,
        black=reading.black or NOT_RECORDED,
        on=reading.with_ or NOT_RECORDED,
        loads_on=", ".join(reading.loads_on),
        through=reading.through.text if reading.through and reading.through.value is not None else "",
        read=read,
        limit=_limits(reading, job),
        supply=reading.supply.text if reading.supply and reading.supply.value is not None else NOT_RECORDED,
        day=day(reading.on),
        by=reading.by or (reading.on.by if reading.on else ""),
        verdict=verdict,
        bad=verdict in (OVER, TOO_LOW, PROVES_NOTHING),
        expected=printed(found.figure) if found.figure is not None else Printed(NOT_RECORDED),
        band=_band(found, found.figure.unit) if found.figure is not None else "",
        against=found.verdict,
        against_bad=found.verdict in (ABOVE, BELOW),
        why="" if is_unsaid(read) else found.why,
        used=used,
        figure=figure_text(found.figure, job.units) if found.figure is not None else None,
    )


def pages(frame: Frame) -> Iterable[PageOut]:
    """The readings. What a reading showed stands as its verdict, so only what is wrong with its entry is told above."""
    worked = frame.worked
    entries = (*(reading.id for reading in worked.job.readings), *(visit.id for visit in worked.job.service))
    findings = tuple(found for found in standing_at(worked.findings, entries) if found.code != "RDG01")
    yield frame.page(
        "readings",
        "readings.html",
        readings=reading_rows(worked),
        checks=check_rows(worked),
        series=series(worked),
        line=(WIDTH, HEIGHT),
        visits=visits(worked),
        findings=findings,
    )
