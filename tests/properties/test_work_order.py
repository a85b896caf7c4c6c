"""The working order of planned rows over random jobs: the fold itself is the judge of what may change places."""

from __future__ import annotations

import dataclasses
import os
from functools import lru_cache

import pytest
from hypothesis import given

from aswired.car.asbuilt import fold
from aswired.car.harness import View
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.sheets.work_order import planned_rows, rests_on, visits
from aswired.sheets.worksheet import work_sheet
from aswired.work import work_out
from properties import generate
from properties.chance import FIRST_DAY
from properties.compare import parts

SAMPLE = 30 if os.environ.get("HYPOTHESIS_PROFILE") == "brief" else 60  # fewer in the quick loop


def unmade(job: Job) -> Job:
    """The job before any work, without rows that stand for others: those stand elsewhere than in the file."""
    again = {row.corrects or row.redoes for row in job.changes}
    rows = tuple(
        dataclasses.replace(row, made=None, sealed=None, tested=None, corrects="", redoes="")
        for row in job.changes
        if row.id not in again
    )
    return dataclasses.replace(job, changes=rows)


def worked(job: Job) -> JobResult:
    return work_out(job, FIRST_DAY)


@lru_cache(maxsize=1)
def sample() -> tuple[tuple[Job, JobResult], ...]:
    jobs = [unmade(job) for job in generate.sample(SAMPLE)]
    return tuple((job, worked(job)) for job in jobs)


def in_working_order(of: JobResult) -> list[Change]:
    return [row for visit in visits(of) for row in visit.rows]


def disagreement(job: Job, of: JobResult) -> str:
    """'' when the rows, done in the order of the sheet, give the car that the file's order gives."""
    order = in_working_order(of)
    if {row.id for row in order} != {row.id for row in of.plan.rows if row.counts}:
        return "not every planned row stands in the order"
    done = fold(dataclasses.replace(job, changes=tuple(order)), "plan")
    if wrong := [row.id for row in done.rows if not row.counts]:
        return f"cannot be done in this order: {wrong} of {[row.id for row in order]}"
    return "" if car(done) == car(of.plan) else f"another car: {[row.id for row in order]}"


def car(view: View) -> dict[str, object]:
    """What a view holds, an offcut's account apart from the order of its cuts: one that is listed nowhere takes its
    colour from the first."""
    offcuts = {name: (use.length_mm, sorted(use.cuts, key=str)) for name, use in view.offcuts.items()}
    return {**parts(view), "offcuts": offcuts}


def test_rows_done_in_the_order_of_the_sheet_give_the_same_car() -> None:
    wrong = {seed: told for seed, (job, of) in enumerate(sample()) if (told := disagreement(job, of))}
    assert wrong == {}


@pytest.mark.slow  # the sample above is held to the same
@given(generate.jobs())
def test_rows_done_in_the_order_of_the_sheet_give_the_same_car_on_any_job(job: Job) -> None:
    job = unmade(job)
    assert disagreement(job, worked(job)) == ""


def test_the_sheet_does_change_the_order_of_the_file() -> None:
    """Else the tests above would hold for an order that groups nothing."""
    moved = sum(in_working_order(of) != list(planned_rows(of)) for _, of in sample())
    assert moved > SAMPLE // 5


def test_no_row_stands_before_one_that_it_rests_on() -> None:
    rests = 0
    for _, of in sample():
        place = {row.id: number for number, row in enumerate(in_working_order(of))}
        for row, below in rests_on(of).items():
            assert all(place[other] < place[row] for other in below), row
            rests += len(below)
    assert rests > SAMPLE


@pytest.mark.parametrize("count", [SAMPLE // 2, pytest.param(SAMPLE, marks=pytest.mark.slow)])
def test_every_planned_row_stands_once_and_only_where_it_belongs(count: int) -> None:
    """Steps, questions, rows left out: together each planned row of the job, each once."""
    kinds = {"steps": 0, "asked": 0, "skipped": 0, "left out": 0}
    for job in generate.sample(count):
        of = worked(job)
        sheet = work_sheet(of)
        told = {
            "steps": [step.id for step in sheet.steps],
            "asked": [row for question in sheet.questions for row, _ in question.rows],
            "skipped": [row.id for row in sheet.skipped],
            "left out": [row.id for row in sheet.left_out],
        }
        planned = [row.id for row in job.changes if row.made is None or (row.made.date or FIRST_DAY) > FIRST_DAY]
        assert sorted(id for ids in told.values() for id in ids) == sorted(planned)
        status = {row.id: row.status for row in of.plan.rows}
        assert {status[id] for id in told["steps"]} <= {"in force"}
        assert {status[id] for id in told["asked"]} <= {"undecided"}
        assert {status[id] for id in told["left out"]} <= {"refused", "not judged"}
        kinds = {name: before + len(told[name]) for name, before in kinds.items()}
    assert kinds["steps"] > count
    assert kinds["left out"] > count // 6
    assert kinds["skipped"] > count // 6


def test_lengths_on_the_sheet_are_those_of_the_figures() -> None:
    compared = 0
    for _, of in sample():
        for step in work_sheet(of).steps:
            for wire in step.wires:
                if wire.piece is None:
                    continue
                (cut,) = [figure for figure in of.plan.figures if figure.key == f"{step.id}-{wire.name}.cut"]
                row = of.job.change(step.id)
                assert row is not None
                mm = row.cut.mm if row.cut is not None and row.cut.mm is not None else cut.value
                digits = wire.piece.length.replace("\u202f", "").removesuffix(" mm")
                assert digits == (str(round(mm)) if mm is not None else "not recorded"), (step.id, wire.name)
                compared += mm is not None
    assert compared > SAMPLE // 2
