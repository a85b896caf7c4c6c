"""The views of a job: donor, now, handed over, plan; a view that shares its beginning is the view folded by itself."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.car.asbuilt import FoldCache, fold
from aswired.files import find_jobs, read_job
from aswired.work import work_out

JOBS = find_jobs(Path(__file__).resolve().parents[2] / "jobs")


def job_of(folder: Path):
    read = read_job(folder)
    assert read.faults == ()
    return read.job


@pytest.mark.parametrize("folder", JOBS, ids=lambda folder: folder.name)
@pytest.mark.parametrize("day", [datetime.date(2015, 4, 12), datetime.date(2025, 1, 1)])
def test_a_view_that_shares_its_beginning_is_the_view_folded_by_itself(folder, day):
    job, shared = job_of(folder), FoldCache(job_of(folder))
    for name, until in (("plan", None), ("now", day), ("plan", None), ("donor", None)):
        assert fold(job, name, until, shared=shared) == fold(job, name, until)


def test_now_counts_rows_made_by_that_day_and_no_other():
    job = job_of(next(folder for folder in JOBS if folder.name == "flatbed"))
    dated = [row for row in job.changes if row.made and row.made.date]
    middle = sorted(row.made.date for row in dated)[len(dated) // 2]
    counted = {row.id for row in fold(job, "now", middle).rows if row.counts}
    assert counted == {row.id for row in dated if row.made.date <= middle and not row.only_if}
    assert 0 < len(counted) < len(dated)


def test_nothing_made_shows_the_plan():
    job = job_of(next(folder for folder in JOBS if folder.name == "flatbed"))
    planned = replace(
        job, handed_over=None, changes=tuple(replace(r, made=None, sealed=None, tested=None) for r in job.changes)
    )
    work = work_out(planned, datetime.date(2025, 1, 1))
    assert work.shown is work.plan
    assert {row.id for row in work.plan.rows if row.counts} > {row.id for row in work.now.rows if row.counts} == set()
