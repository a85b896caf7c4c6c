"""What a job is told, whole: rank, entry, line, problem and mend of each finding, beside what is expected by hand."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from aswired.figures.worked import JobResult
from tests.findings.jobs import work

MADE = "made: 2031-05-03 AK"
PROVED = f"{{id: C1, kind: verify, proves: [C1], {MADE}}}"  # a row that changes nothing
Told = tuple[str, str, str, str, str, str]  # code, rank, entry, words of the line told, problem, mend


def line_with(text: str, words: str) -> int:
    """The line of a job text in which the words stand, counted from 1; 0 for no words."""
    if not words:
        return 0
    found = [number for number, line in enumerate(text.lstrip("\n").splitlines(), 1) if words in line]
    assert len(found) == 1, f"{words!r} stands in lines {found}"
    return found[0]


def assert_told(folder: Path, text: str, codes: str, expected: Sequence[Told]) -> JobResult:
    """That the findings of these codes (`FUS`: all that begin so) are those expected, word for word, in any order."""
    worked = work(folder, text)
    begin = tuple(codes.split())
    found = [
        (f.code, f.severity.word, f.entry, f.at.line, f.problem, f.mend)
        for f in worked.findings
        if f.code.startswith(begin)
    ]
    wanted = [
        (code, rank, entry, line_with(text, words), problem, mend)
        for code, rank, entry, words, problem, mend in expected
    ]
    unlike = [f"told: {one}" for one in found if one not in wanted] + [
        f"wanted: {one}" for one in wanted if one not in found
    ]
    assert sorted(found) == sorted(wanted), "\n".join(unlike)
    return worked
