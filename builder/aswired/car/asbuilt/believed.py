"""Dates held to the calendar, before anything is made of them: a step on a day that cannot be proves nothing.

What cannot be so is taken out of `made`, `sealed` and `tested` and kept under `set_aside`, so that whatever reads those
three (states, open work, verdicts, ticks) cannot count it, and pages and findings can still tell what was written.
"""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any, TypeVar

from aswired.record import Change, Job, MeterReading, Service
from aswired.text.one_line import Done, Doubt

Dated = TypeVar("Dated", MeterReading, Service)
FIRST_YEAR = 1900  # no car is older that has a harness to rewire


def believed(job: Job, today: datetime.date) -> Job:
    """The job with what its dates prove on one day; the same job where every date can be so.

    Work of before 1900 was done on a day that is not known; work of a day to come is not done yet. What is sealed or
    tested before it was made is neither.
    """
    changed: dict[str, Any] = {}
    for key, of_one in (("changes", _row), ("readings", _on), ("service", _on)):
        before: tuple[Any, ...] = getattr(job, key)
        after = tuple(of_one(record, today) for record in before)
        if any(new is not old for new, old in zip(after, before, strict=True)):
            changed[key] = after
    painted = {name: _undated(point.painted, today) for name, point in job.grounds.items() if point.painted is not None}
    if any(step.doubt is not None for step in painted.values()):
        points = job.grounds.items()
        changed["grounds"] = {name: replace(point, painted=painted.get(name)) for name, point in points}
    revisions = {name: _undated(step, today) for name, step in job.revisions.items()}
    if revisions != job.revisions:
        changed["revisions"] = revisions
    battery_off = tuple(_undated(step, today) for step in job.battery_off)
    if battery_off != job.battery_off:
        changed["battery_off"] = battery_off
    over = job.handed_over
    if over is not None and (doubt := _doubt(over, today)) is not None:
        changed |= {"handed_over": None, "set_aside": {"handed over": Done(over.isoformat(), over, "").doubted(doubt)}}
    return replace(job, **changed) if changed else job


def _doubt(day: datetime.date | None, today: datetime.date) -> Doubt | None:
    if day is None or (day.year >= FIRST_YEAR and day <= today):
        return None
    return Doubt.TO_COME if day > today else Doubt.BEFORE_1900


def _undated(step: Done, today: datetime.date) -> Done:
    """The step without its day where that cannot be; its text stays as written."""
    doubt = _doubt(step.date, today)
    return step if doubt is None else step.doubted(doubt)


def _on(record: Dated, today: datetime.date) -> Dated:
    """A reading or a visit, without its day where that cannot be."""
    if record.on is None or (told := _undated(record.on, today)) is record.on:
        return record
    return replace(record, on=told)


def _row(row: Change, today: datetime.date) -> Change:
    made, aside = row.made, dict[str, Done]()
    if made is not None and (doubt := _doubt(made.date, today)) is not None:
        if doubt is Doubt.TO_COME:
            aside["made"] = made.doubted(doubt)
            made = None
        else:
            made = _undated(made, today)
    for key, step in (("sealed", row.sealed), ("tested", row.tested)):
        if step is not None and (doubt := _doubt(step.date, today) or _against_made(step, made)) is not None:
            aside[key] = step.doubted(doubt)
    if made is row.made and not aside:
        return row
    sealed, tested = (None if key in aside else step for key, step in (("sealed", row.sealed), ("tested", row.tested)))
    return replace(row, made=made, sealed=sealed, tested=tested, set_aside=aside)


def _against_made(step: Done, made: Done | None) -> Doubt | None:
    if made is None:
        return Doubt.NOT_MADE
    if step.date is not None and made.date is not None and step.date < made.date:
        return Doubt.BEFORE_MADE
    return None
