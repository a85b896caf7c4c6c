"""What the findings of a job say, whole: rank, entry, the mark of the line told, the sentence and how it is mended."""

from __future__ import annotations

from pathlib import Path

from tests.findings.jobs import work

Said = tuple[str, str, str, str, str]


def said(folder: Path, text: str, *codes: str) -> list[Said]:
    """The findings of some codes in the order told. A line is told by what stands behind its `#`; '' without one."""
    worked = work(folder, text)
    lines = (folder / "job.yml").read_text(encoding="utf-8").splitlines()
    return [
        (f.severity.word, f.entry, lines[f.at.line - 1].partition("#")[2].strip(), f.problem, f.mend)
        for f in worked.findings
        if f.code in codes
    ]


def entries(folder: Path, text: str, *codes: str) -> list[str]:
    """What the findings of some codes are told of, in the order told."""
    return [entry for _, entry, _, _, _ in said(folder, text, *codes)]
