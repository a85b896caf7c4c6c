"""Meter readings as rows: what was read between which two points, and whether it keeps its limits."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.model import MeterReading
from aswired.units import Reading
from aswired.views.text import NOT_MEASURED, NOT_RECORDED, date
from aswired.worked import Worked


@dataclass(frozen=True)
class ReadingRow:
    """One reading. `verdict` is within, over the limit, too low, not judged or not measured."""

    id: str
    of: str
    red: str
    black: str
    on: str  # what was switched on
    read: str
    limit: str
    supply: str
    day: str
    by: str
    verdict: str
    bad: bool


@dataclass(frozen=True)
class CheckRow:
    """A row of kind verify: what is to be proved, and how far it got."""

    id: str
    proves: tuple[str, ...]
    test: str
    expect: str
    state: str
    readings: tuple[str, ...]


def reading_rows(worked: Worked) -> tuple[ReadingRow, ...]:
    """Every reading, in the order of the file."""
    return tuple(_row(reading) for reading in worked.job.readings)


def check_rows(worked: Worked) -> tuple[CheckRow, ...]:
    """The checks of the job that are in force in the plan, in the order of the file."""
    return tuple(
        CheckRow(
            id=change.id,
            proves=change.proves,
            test=change.test or NOT_RECORDED,
            expect=change.expect or NOT_RECORDED,
            state=change.state,
            readings=tuple(reading.id for reading in worked.job.readings if reading.of in (change.id, *change.proves)),
        )
        for change in worked.job.changes
        if change.kind == "verify" and change.id in worked.plan.counted
    )


def judge(read: Reading | None, limit: Reading | None, at_least: Reading | None = None) -> str:
    """A reading against what it should stay below and what it should reach. The sign of a drop only tells which lead
    was where, so it is left out of the judgement."""
    if read is None or read.value is None:
        return NOT_MEASURED
    most, least = (
        given.value if given is not None and given.unit == read.unit else None for given in (limit, at_least)
    )
    if most is not None and abs(read.value) > most:
        return "over the limit"
    if least is not None and read.value < least:
        return "too low"
    return "not judged" if most is None and least is None else "within"


def _shown(reading: Reading | None, nothing: str) -> str:
    if reading is None or reading.value is None:
        return nothing
    return reading.text.strip().replace("mohm", "mΩ").replace("ohm", "Ω")


def _limits(reading: MeterReading) -> str:
    """`0.2 V`, `at least 11.5 V`, or both."""
    most, least = (given if given and given.value is not None else None for given in (reading.limit, reading.at_least))
    told = (_shown(most, "") if most else "", f"at least {_shown(least, '')}" if least else "")
    return "; ".join(filter(None, told)) or NOT_RECORDED


def _row(reading: MeterReading) -> ReadingRow:
    verdict = judge(reading.read, reading.limit, reading.at_least)
    return ReadingRow(
        id=reading.id,
        of=reading.of,
        red=reading.red or NOT_RECORDED,
        black=reading.black or NOT_RECORDED,
        on=reading.with_ or NOT_RECORDED,
        read=_shown(reading.read, NOT_MEASURED),
        limit=_limits(reading),
        supply=reading.supply.text if reading.supply and reading.supply.value is not None else NOT_RECORDED,
        day=date(reading.on.date if reading.on else None),
        by=reading.by or (reading.on.by if reading.on else ""),
        verdict=verdict,
        bad=verdict in ("over the limit", "too low"),
    )
