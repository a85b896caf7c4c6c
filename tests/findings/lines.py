"""Whether the line that a finding tells is one of its own: who opens the file there reads of the thing spoken of."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from aswired.figures.worked import JobResult


def lines_above(lines: Sequence[str], number: int) -> list[str]:
    """The line told and those it stands under, by their indentation: key, row or thing, section."""
    assert 1 <= number <= len(lines), number

    def depth(line: str) -> int:
        return len(line) - len(line.lstrip(" "))

    found = [lines[number - 1]]
    for line in reversed(lines[: number - 1]):
        if line.strip() and depth(line) < depth(found[-1]):
            found.append(line)
    return found


def names(entry: str, problem: str) -> Iterator[str]:
    """The entry, what it is a part of, and the ids that the sentence names: a stack of rings is told at its last."""
    yield from (entry, entry.partition("-")[0], entry.partition(".")[0])
    yield from re.findall(r"\b[A-Z]+\d+\w*", problem)


def told_elsewhere(files: Mapping[str, Sequence[str]], worked: JobResult) -> tuple[int, list[tuple[str, str, int]]]:
    """How many findings name a thing, and those of them whose line, and what it stands under, name nothing of it."""
    told = [finding for finding in worked.findings if finding.entry]
    wrong = [
        (finding.code, finding.entry, finding.at.line)
        for finding in told
        if not any(
            re.search(rf"(?<![\w.-]){re.escape(name)}(?![\w-])", line)
            for line in lines_above(files[finding.at.file], finding.at.line)
            for name in names(finding.entry, finding.problem)
        )
    ]
    return len(told), wrong
