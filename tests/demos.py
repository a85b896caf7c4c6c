"""The demo jobs, each worked out once for all tests of a run that only look at it."""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.work import work_out

JOBS = Path(__file__).resolve().parents[1] / "jobs"
DAY = datetime.date(2026, 1, 1)


@cache
def demo(slug: str) -> JobResult:
    """A demo job on `DAY`."""
    read = read_job(JOBS / slug)
    assert read.job is not None, read.faults
    return work_out(read.job, DAY)
