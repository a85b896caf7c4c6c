"""The same two points read again and again: what was read, and how far it moved since the hand-over."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.record import Job, MeterReading
from aswired.sheets.text import amount, date, shown_reading
from aswired.text.unsaid import NOT_RECORDED

WIDTH, HEIGHT, EDGE = 220, 40, 5  # pixels of the drawn line, and what it keeps clear of the edge


@dataclass(frozen=True)
class YearRow:
    """One reading of a series. `moved` is against the reading that the series is held to, '' for that one itself."""

    id: str
    day: str
    read: str
    supply: str
    moved: str
    x: float
    y: float


@dataclass(frozen=True)
class Series:
    """Readings of two points with the same switched on, oldest first. `since` names the one they are held to."""

    red: str
    black: str
    on: str
    since: str
    rows: tuple[YearRow, ...]
    path: str  # of the drawn line
    words: str  # the same for who does not see it


def series(worked: JobResult) -> tuple[Series, ...]:
    """Every two points that were read more than once with the same switched on, in the order of the file."""
    groups: dict[tuple[object, ...], list[MeterReading]] = {}
    for reading in worked.job.readings:
        if (key := _what(reading)) is not None:
            groups.setdefault(key, []).append(reading)
    return tuple(_series(sorted(group, key=_day), worked.job) for group in groups.values() if len(group) > 1)


def _what(reading: MeterReading) -> tuple[object, ...] | None:
    """What makes two readings comparable; None for one that is comparable to none."""
    read = reading.read
    on: tuple[str, ...] = tuple(sorted(reading.loads_on)) or ((" ".join(reading.with_.casefold().split()),))
    if read is None or read.value is None or reading.day is None:
        return None
    if not reading.red or not reading.black or on == ("",):
        return None
    return frozenset((reading.red, reading.black)), read.unit, on


def _day(reading: MeterReading) -> datetime.date:
    return reading.day or datetime.date.min


def _value(reading: MeterReading) -> float:
    return abs(reading.read.value) if reading.read is not None and reading.read.value is not None else 0.0


def _series(group: list[MeterReading], job: Job) -> Series:
    before = [reading for reading in group if job.handed_over is not None and _day(reading) <= job.handed_over]
    base = before[-1] if before else group[0]
    name = "hand-over" if before else "first reading"
    last = group[-1]
    at = list(_at(group))
    rows = tuple(
        YearRow(
            id=reading.id,
            day=date(_day(reading)),
            read=shown_reading(reading.read, NOT_RECORDED),
            supply=reading.supply.text if reading.supply and reading.supply.value is not None else NOT_RECORDED,
            moved=name if reading is base else _moved(reading, base),
            x=x,
            y=y,
        )
        for reading, (x, y) in zip(group, at, strict=True)
    )
    return Series(
        red=last.red,
        black=last.black,
        on=last.with_ or ", ".join(last.loads_on),
        since=f"since the {name}, {date(_day(base))}",
        rows=rows,
        path="M" + "L".join(f"{x:g} {y:g}" for x, y in at),
        words=", ".join(f"{row.read} on {row.day}" for row in rows),
    )


def _moved(reading: MeterReading, base: MeterReading) -> str:
    """`+0.04 V`: leads the wrong way round show the same drop, so amounts are compared."""
    change = _value(reading) - _value(base)
    unit = reading.read.unit if reading.read is not None else ""
    if abs(change) < 1e-9:
        return "the same"
    return f"{'+' if change > 0 else '−'}{amount(abs(change), unit)}"


def _at(group: list[MeterReading]) -> Iterable[tuple[float, float]]:
    """Where each reading lies on the line: days from left to right, amounts from nought at the foot."""
    first, days = _day(group[0]), (_day(group[-1]) - _day(group[0])).days
    most = max(map(_value, group)) or 1.0
    for number, reading in enumerate(group):
        along = (_day(reading) - first).days / days if days else number / (len(group) - 1)
        x = EDGE + along * (WIDTH - 2 * EDGE)
        yield round(x, 1), round(HEIGHT - EDGE - _value(reading) / most * (HEIGHT - 2 * EDGE), 1)
