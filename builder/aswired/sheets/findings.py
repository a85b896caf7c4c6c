"""Findings as people go through them: those of one code with one remedy stand under one heading."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from aswired.checks.codes import code
from aswired.sheets.text import first_upper
from aswired.text.diagnostics import Finding, Severity


@dataclass(frozen=True)
class Group:
    """Findings of one code and rank that are mended alike, and that the same person lets stand for the same reason.

    `says` is the code's own line, '' for a single finding: its problem tells more.
    """

    code: str
    severity: Severity
    says: str
    mend: str
    accepted_by: str
    accepted_why: str
    findings: tuple[Finding, ...]

    @property
    def single(self) -> bool:
        return len(self.findings) == 1


def grouped(findings: Iterable[Finding]) -> tuple[Group, ...]:
    """The findings in groups, heaviest rank first, else in the order in which each group is first met."""
    found: dict[tuple[Severity, str, str, str, str], list[Finding]] = {}
    for finding in findings:
        key = (finding.severity, finding.code, finding.mend, finding.accepted_by, finding.accepted_why)
        found.setdefault(key, []).append(finding)
    ordered = sorted(found.items(), key=lambda item: item[0][0])
    return tuple(
        Group(name, severity, _says(name) if len(members) > 1 else "", mend, by, why, tuple(members))
        for (severity, name, mend, by, why), members in ordered
    )


def standing_at(findings: Iterable[Finding], ids: Iterable[str]) -> tuple[Finding, ...]:
    """The findings whose entry is one of the ids, heaviest first."""
    wanted = frozenset(ids)
    return tuple(sorted((found for found in findings if found.entry in wanted), key=lambda found: found.severity))


def _says(name: str) -> str:
    help = code(name)
    return first_upper(help.says) if help else ""


def around(problem: str, entry: str) -> tuple[str, str] | None:
    """What a problem says before and after the name of its own entry, so that the name can lead to the entry where it
    stands; None where the problem does not name it.

    >>> around("'fuel pump' loses 0.53 V", "fuel pump")
    ('', ' loses 0.53 V')
    >>> around("the 8 joints of C15 have no photograph", "C15")
    ('the 8 joints of ', ' have no photograph')
    >>> around("joint C10-W16 has no photograph", "C10") is None
    True
    """
    name = re.escape(entry)
    found = re.search(rf"'{name}'|(?<![\w.-]){name}(?![\w-]|\.\w)", problem) if entry else None
    return (problem[: found.start()], problem[found.end() :]) if found else None
