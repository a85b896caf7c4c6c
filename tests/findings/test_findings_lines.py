"""The lines that findings tell, in the demo jobs with mistakes in them; those of each code stand with its own jobs."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType

import pytest

from aswired.files import read_job
from aswired.work import work_out
from tests.faulty import flatbed, taken_over, trail_truck
from tests.faulty.edits import mistaken
from tests.findings.jobs import DAY
from tests.findings.lines import lines_above, told_elsewhere


@pytest.mark.parametrize(
    ("twin", "least"), [pytest.param(trail_truck, 130, marks=pytest.mark.slow), (flatbed, 60), (taken_over, 8)]
)
def test_each_line_is_of_the_thing_spoken_of(twin: ModuleType, least: int, tmp_path: Path) -> None:
    job = mistaken(twin.SLUG, twin.EDITS, tmp_path / "jobs")
    read = read_job(job)
    assert read.job is not None, read.faults
    files = {path.name: path.read_text(encoding="utf-8").splitlines() for path in job.glob("*.yml")}
    count, wrong = told_elsewhere(files, work_out(read.job, DAY))
    assert wrong == []
    assert count >= least


def test_what_a_line_stands_under() -> None:
    lines = [
        "wires:",
        "  W1: {}",
        "changes:",
        "  - id: C1",
        "    wires:",
        "      W2: BU",
        "  - id: C2",
        "    cut: 3 mm",
    ]
    assert lines_above(lines, 6) == ["      W2: BU", "    wires:", "  - id: C1", "changes:"]
    assert lines_above(lines, 8) == ["    cut: 3 mm", "  - id: C2", "changes:"]
