"""Faulty jobs, a folder each: what a person is told, word for word, and that doing what the mend line says is enough.

A case is `<name>/` with the job's files, `expected.txt` (the whole text), and `mended/`, the same job with nothing
changed but what the mend lines ask for. Adding a case needs no Python.
"""

import datetime
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import aswired
from aswired.cli import run as cli
from aswired.files import read_job
from aswired.photos.of_job import look_at, reasons
from aswired.record import Job
from aswired.site.telling import trouble_text
from aswired.text.diagnostics import Finding, Severity, finding_text
from aswired.work import work_out

HERE = Path(__file__).parent
CASES = sorted(path for path in HERE.iterdir() if path.is_dir() and path.name != "__pycache__")
TODAY = datetime.date(2024, 6, 1)  # later than every date in the cases
HEAD = re.compile(r"^(fault|stop|error|warning) ([A-Z]{3}\d\d) (\S+?)(?::(\d+))?(?: \((.+)\))?$")

each_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


def heavy(job: Job) -> list[Finding]:
    """Stops, errors and warnings, in the order in which they are told."""
    worked = work_out(job, TODAY, reasons(look_at(job)))
    return [finding for finding in worked.findings if finding.severity <= Severity.WARNING]


def told(folder: Path) -> str:
    """What a person reads about a job folder: its file faults and their count, else what stands against the car."""
    got = read_job(folder)
    if got.job is None:
        return trouble_text(got.faults, (), {}) + "\n"
    return "\n".join(map(finding_text, heavy(got.job))) + "\n"


def messages(case: Path) -> Iterator[tuple[str, ...]]:
    """The messages of expected.txt, each as its lines."""
    lines: list[str] = []
    for line in (case / "expected.txt").read_text(encoding="utf-8").splitlines():
        if not line.startswith("  "):
            if lines:
                yield tuple(lines)
            lines = []
        lines.append(line)
    yield tuple(lines)


def test_there_are_enough_cases_and_each_is_whole() -> None:
    assert len(CASES) >= 90
    for case in CASES:
        assert (case / "expected.txt").is_file(), case.name
        assert (case / "mended" / "job.yml").is_file(), case.name


@each_case
def test_the_whole_text_is_as_written(case: Path) -> None:
    assert told(case) == (case / "expected.txt").read_text(encoding="utf-8")


@each_case
def test_every_message_is_located_shows_its_line_and_says_how_to_mend(case: Path) -> None:
    """Code and place, what is wrong, the line as it stands in the file, how to mend it; checked on expected.txt."""
    found = list(messages(case))
    faults = [message for message in found if message[0].startswith("fault")]
    if faults:
        noun = "file fault" if len(faults) == 1 else "file faults"
        assert found.pop() == (f"{len(faults)} {noun}; nothing was written.",)
    assert found
    for head, problem, *shown, mend in found:
        match = HEAD.match(head)
        assert match, head
        assert problem.startswith("  ")
        assert problem.strip()
        assert re.fullmatch(r"  mend: \S.{5,}", mend), mend
        name, line = match[3], match[4]
        if line is None:
            assert shown == []  # the fault is of the whole file
            continue
        data = (case / name).read_bytes().removeprefix(b"\xef\xbb\xbf").decode("utf-8", "replace")
        text = (
            data.splitlines()[int(line) - 1]
            .replace("\t", "→")
            .replace("\x1b", "\ufffd")
            .replace("\u200b", "\ufffd")
            .rstrip()
        )
        assert shown == [f"  {line} | {text[:160]}" + (" ..." if len(text) > 160 else "")]


@each_case
def test_doing_what_the_mend_lines_say_mends_it(case: Path) -> None:
    got = read_job(case / "mended")
    assert got.faults == ()
    assert got.job is not None
    codes = {match[2] for message in messages(case) if (match := HEAD.match(message[0]))}
    assert codes
    assert [finding_text(finding) for finding in heavy(got.job) if finding.code in codes] == []


def check(folder: Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    environment = os.environ | {"PYTHONPATH": str(Path(aswired.__file__).parents[1]), "PYTHONIOENCODING": "utf-8"}
    return subprocess.run(
        [sys.executable, "-m", "aswired", "check", str(folder)],
        cwd=cwd, env=environment, capture_output=True, text=True, encoding="utf-8", timeout=60,
    )  # fmt: skip


FAULTY = [case for case in CASES if not case.name.startswith("row-") and (case / "job.yml").exists()]


@pytest.mark.parametrize("case", FAULTY, ids=lambda case: case.name)
def test_check_prints_that_text(case: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["check", str(case)]) == cli.FAULTY
    assert capsys.readouterr().out == (case / "expected.txt").read_text(encoding="utf-8")


def test_check_ends_with_1_at_a_file_fault(tmp_path: Path) -> None:
    done = check(HERE / "several-at-once", tmp_path)
    assert done.stdout == (HERE / "several-at-once" / "expected.txt").read_text(encoding="utf-8")
    assert (done.returncode, done.stderr) == (1, "")


def test_check_ends_with_3_at_a_finding_and_with_0_once_it_is_mended(capsys: pytest.CaptureFixture[str]) -> None:
    name = "row-left-open-and-live"
    assert cli.main(["check", str(HERE / name)]) == 3
    said = capsys.readouterr()
    assert said.err == ""
    for message in messages(HERE / name):
        assert "\n".join(message) in said.out
    assert cli.main(["check", str(HERE / name / "mended")]) == 0
    assert capsys.readouterr().err == ""
