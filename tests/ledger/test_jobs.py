"""Small jobs that set out to burn the car, and their twins done right: what the ledger may and may not say of each.

The jobs are files of `jobs/`; their first lines say how the car may come out and why. They were written by somebody who
had not read the program.
"""

from __future__ import annotations

import datetime
import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.ledger.record import State, Weight, Why
from aswired.work import work_out

FOLDER = Path(__file__).parent / "jobs"
DAY = datetime.date(2031, 12, 1)
NOT_CLEAN, CLEAN, NOTHING_AGAINST = "not clean", "clean", "nothing against"


@dataclass(frozen=True)
class Written:
    """A file: how the car may come out, what single wires must be, the text of the job."""

    name: str
    expect: str
    states: tuple[tuple[str, str], ...]
    text: str


def _read(path: Path) -> Written:
    text = path.read_text(encoding="utf-8")
    (expect,) = re.findall(r"^# expect: (.+)$", text, re.MULTILINE)
    states = re.findall(r"^# state: (\S+) (.+)$", text, re.MULTILINE)
    return Written(path.stem, expect, tuple(states), text)


@cache
def jobs() -> tuple[Written, ...]:
    return tuple(map(_read, sorted(FOLDER.glob("*.yml"))))


def worked_out(job: Written, folder: Path) -> JobResult:
    (folder / "job.yml").write_text(job.text, encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return work_out(read.job, DAY)


@pytest.mark.parametrize("job", jobs(), ids=lambda job: job.name)
def test_a_car_comes_out_as_its_copper_is(job: Written, tmp_path: Path) -> None:
    worked = worked_out(job, tmp_path)
    assert worked.cleared is (job.expect == CLEAN) or (job.expect == NOTHING_AGAINST)
    if job.expect != NOT_CLEAN:
        assert worked.ledger.having(State.AGAINST) == ()
    found = {name: worked.ledger.accounts[name].state.value for name, _ in job.states if name in worked.ledger.accounts}
    assert found == dict(job.states)
    assert_measured_alike(worked)
    assert_not_examined(worked)


def assert_measured_alike(worked: JobResult) -> None:
    """The page of fuses and the ledger say the same of how far a fuse lies from its source."""
    for fuse in worked.fuses:
        if fuse.unprotected is None or fuse.unprotected.value is None:
            continue
        lines = (line for account in worked.ledger.accounts.values() for line in account.lines)
        leads = [
            n for n in lines if n.index is not None and f"{fuse.name}.feed" in worked.shown.stretches[n.index].ends
        ]
        assert fuse.unprotected.value == max(line.unfused_mm for line in leads if line.unfused_mm is not None)


def assert_not_examined(worked: JobResult) -> None:
    """What a wire is not shown for is counted as not examined, or told as an end of which a row says nothing."""
    counted = {unseen.entry for unseen in worked.not_examined}
    counted |= {finding.entry for finding in worked.findings if finding.code in ("END03", "END04")}
    for reason in worked.ledger.reasons:
        if reason.weight is Weight.MISSING and reason.why is not Why.OPTION:  # that is counted with the load
            assert reason.of in counted or (reason.why is Why.POLE and "ground side" in counted)


def test_there_are_jobs_of_each_kind(tell: Callable[[str], None]) -> None:
    counted = Counter(job.expect for job in jobs())
    tell(f"{dict(counted)}, {sum(len(job.states) for job in jobs())} wires by name")
    assert counted[NOT_CLEAN] >= 150
    assert counted[CLEAN] >= 50
    assert set(counted) == {NOT_CLEAN, CLEAN, NOTHING_AGAINST}
