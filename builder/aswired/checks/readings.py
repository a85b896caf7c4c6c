"""Readings against what the network of the car expects there."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.figures.days import CarsOfTheirDays
from aswired.figures.electric import transfer_of
from aswired.figures.expected import ABOVE, INSIDE, Expected, expected
from aswired.figures.worked import JobResult
from aswired.network.transfer import UnitSolutions
from aswired.physics.figure import Figure
from aswired.record import MeterReading
from aswired.text.diagnostics import Finding, Rule, Severity

RDG02 = Rule("RDG02", Severity.WARNING)
RDG11 = Rule("RDG11", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    """Limits that judge nothing; and readings without a limit of their own, the last of their two points, that lie
    outside what is expected there."""
    for reading in facts.job.readings:
        yield from _below_zero(reading)
    cars, shown = facts.cars_of_their_days, None
    for index, reading in enumerate(facts.job.readings):
        if not _stands_alone(reading) or _read_again(facts, index, reading):
            continue
        found = expected(reading, cars)
        if found.verdict in ("", INSIDE) or found.figure is None:
            continue
        shown = shown or transfer_of(facts.job, facts.shown, facts.circuits)
        if _as_it_was(facts, reading, cars, shown):
            yield _told(reading, found, found.figure)


def _below_zero(reading: MeterReading) -> Iterator[Finding]:
    for key, limit, able in (("limit", reading.limit, reading.most), ("at least", reading.at_least, reading.least)):
        if limit is not able and limit is not None:
            problem = f"{key}: {limit.text} is below zero; a reading is judged by its amount, so this judges nothing"
            mend = f"Write {key}: {limit.text.strip().removeprefix('-').strip()}, or take the line out"
            yield RDG11(reading.line_of(key), reading.id, problem, mend)


def _stands_alone(reading: MeterReading) -> bool:
    """A reading with a limit of its own is held to that."""
    read = reading.read
    if read is None or read.value is None or reading.day is None:
        return False
    return not any(given is not None and given.unit == read.unit for given in (reading.most, reading.least))


def _read_again(facts: JobResult, index: int, reading: MeterReading) -> bool:
    """Whether the same two points were read again later; of one day the later in the file counts."""
    points, day = {reading.red, reading.black}, _day(reading)
    return any(
        {other.red, other.black} == points
        and other.shows
        and other.read is not None
        and reading.read is not None
        and other.read.unit == reading.read.unit
        and (_day(other), number) > (day, index)
        for number, other in enumerate(facts.job.readings)
    )


def _day(reading: MeterReading) -> datetime.date:
    return reading.day or datetime.date.min


def _as_it_was(facts: JobResult, reading: MeterReading, cars: CarsOfTheirDays, shown: UnitSolutions) -> bool:
    """Whether nothing was changed between the leads since; for a current, nothing at all."""
    day = _day(reading)
    if reading.read is not None and reading.read.unit == "A":
        dates = (row.made.date for row in facts.job.changes if row.made is not None and kind_of(row).alters_harness)
        return not any(made > day for made in dates if made is not None)
    return _between(reading, cars.transfer(day)) == _between(reading, shown)


def _between(reading: MeterReading, transfer: UnitSolutions) -> frozenset[tuple[str, str]]:
    own = transfer.probe(reading.red, reading.black) or {}
    return frozenset((b.kind, b.name) for index in own for b in transfer.grid.runs[index].branches)


def _told(reading: MeterReading, found: Expected, figure: Figure) -> Finding:
    read = reading.read.text if reading.read is not None else ""
    if found.low is None or found.high is None:
        band = f"up to {_amount(found.high, figure.unit)} is expected there"
    else:
        low, high = _amount(found.low, figure.unit), _amount(found.high, figure.unit)
        band = f"{low} to {high} is expected there"
    more = (
        "Look for a joint, a terminal or a nut that has gone bad between the leads"
        if found.verdict == ABOVE and figure.unit != "A"
        else "Look at what was on, and whether the record says what is in the car"
    )
    problem = f"{reading.id} read {read} between {reading.red} and {reading.black}; {band}"
    mend = f"{more}; then write the new reading of the same two points"
    return RDG02(reading.line_of("read"), reading.id, problem, mend)


def _amount(value: float | None, unit: str) -> str:
    return f"{value or 0.0:.2f} {unit}" if unit != "A" else f"{value or 0.0:.3f} A"
