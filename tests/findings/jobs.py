"""Jobs written as text inside a test: read from a folder like any other, worked out for one fixed day."""

from __future__ import annotations

import datetime
import re
import textwrap
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.physics.figure import Figure
from aswired.work import work_out

DAY = datetime.date(2031, 6, 1)  # "today" of every test; the rows are made in May 2031
ALLOWED = ("joint", "cavity", "ring", "fuse", "switch", "contact")  # what is counted until it is measured
MARK = "# <"  # stands behind the line of a job text where a finding has to point


def work(
    folder: Path, text: str, today: datetime.date = DAY, photo_problems: Mapping[str, str] | None = None
) -> JobResult:
    """The job in `text`, worked out. A text that cannot be read is a slip of the test."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "job.yml").write_text(textwrap.dedent(text).lstrip("\n"), encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return work_out(read.job, today, photo_problems)


def figures(worked: JobResult) -> dict[str, float | None]:
    """Key -> value of every figure."""
    return {figure.key: figure.value for figure in worked.all_figures()}


def figure(worked: JobResult, key: str) -> Figure:
    """The one figure with this key."""
    (found,) = [figure for figure in worked.all_figures() if figure.key == key]
    return found


def proved(text: str) -> str:
    """The job with one row that changes nothing, so that what is shown is the donor as it is."""
    return text.rstrip(" ") + "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"


def planned(text: str) -> str:
    """The job with its rows still to be made, in a car on which other work is done: its findings are of the plan."""
    rows = re.sub(r"(?:,\s+|\n +)made: \d{4}-\d\d-\d\d \w+", "", text).rstrip()
    assert rows != text.rstrip()
    return f"{rows}\n      - {{id: C9, kind: verify, proves: [C9], made: 2031-05-04 AK}}\n"


def copper_alone(text: str) -> str:
    """The job with every allowance at nought: its arithmetic by hand has lengths of wire and nothing else."""
    usual = ", ".join(f"{part} resistance: 0 mohm" for part in ALLOWED)
    found, count = re.subn(r"^( *)job: .*$", rf"\g<0>\n\g<1>usual: {{{usual}}}", text, count=1, flags=re.MULTILINE)
    assert count == 1
    return found


@dataclass(frozen=True)
class Case:
    """A job that raises one finding at the line marked `# <`, and the one fact whose change makes it go away."""

    code: str
    severity: str  # stop, error, warning, note
    entry: str
    fact: str  # text that stands once in `job` ...
    twin: str  # ... and what stands there in the job without the fault
    threshold: str  # where the limit comes from
    job: str
    what: str = ""  # tells cases of one code apart
    today: datetime.date = DAY
    photo_problems: Mapping[str, str] = field(default_factory=dict)
    twin_photo_problems: Mapping[str, str] | None = None  # None: the same

    @property
    def name(self) -> str:
        return f"{self.code} {self.what}".strip()

    @property
    def text(self) -> str:
        return textwrap.dedent(self.job).lstrip("\n")

    @property
    def twin_text(self) -> str:
        assert self.text.count(self.fact) == 1, f"{self.name}: '{self.fact}' stands {self.text.count(self.fact)} times"
        return self.text.replace(self.fact, self.twin)

    @property
    def line(self) -> int:
        """The line that is marked, counted from 1; 1 (the head of the file) when none is."""
        marked = [number for number, line in enumerate(self.text.splitlines(), 1) if line.rstrip().endswith(MARK)]
        assert len(marked) == 1, f"{self.name}: {len(marked)} lines are marked"
        return marked[0]
