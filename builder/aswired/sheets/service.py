"""Visits after the hand-over: the complaint, what was measured, what it was, what was done."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.sheets.text import day
from aswired.text.one_line import Done
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class Visit:
    """One visit."""

    id: str
    day: str
    by: str
    complaint: str
    measured: tuple[str, ...]
    found: str
    rows: tuple[str, ...]
    readings: tuple[str, ...]
    note: str
    minutes: str  # private; '' when not written


def visits(worked: JobResult) -> tuple[Visit, ...]:
    """Every visit, oldest first; those of an unnoted day last, as written."""
    written = sorted(worked.job.service, key=lambda visit: (visit.on is None or visit.on.date is None, _day(visit.on)))
    return tuple(
        Visit(
            id=visit.id,
            day=day(visit.on),
            by=visit.on.by if visit.on else "",
            complaint=visit.complaint,
            measured=visit.measured,
            found=visit.found or NOT_RECORDED,
            rows=visit.rows,
            readings=visit.readings,
            note=visit.note,
            minutes=f"{visit.minutes.value:g} min" if visit.minutes and visit.minutes.value is not None else "",
        )
        for visit in written
    )


def _day(on: Done | None) -> datetime.date:
    return on.date if on is not None and on.date is not None else datetime.date.max
