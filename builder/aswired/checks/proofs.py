"""Checks that prove nothing: themselves, one another, without a value, or before the work was done."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.checks.lists import listed
from aswired.figures.proofs import Void
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Rule, Severity

TST01 = Rule("TST01", Severity.WARNING)
TST02 = Rule("TST02", Severity.WARNING)
TST03 = Rule("TST03", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    """One finding a check and reason, with every row that it does not prove for that reason."""
    found: dict[tuple[str, Void], list[str]] = {}
    for (check, name), void in facts.void_proofs.items():
        if check in facts.plan.counted:
            found.setdefault((check, void), []).append(name)
    for (id, void), names in found.items():
        row = facts.job.change(id)
        if row is not None:
            yield _told(facts.job, row, void, names)


def _told(job: Job, check: Change, void: Void, names: list[str]) -> Finding:
    if void is Void.ITSELF:
        problem = f"{check.id} proves itself; a check says nothing about its own work"
        return _finding(TST01, check, "proves", problem, "Name the rows whose work was tried")
    if void is Void.EACH_OTHER:
        problem = f"{check.id} and {listed(names)} prove each other, so neither proves anything of the other"
        mend = "Name the rows whose work was tried, not the check of them"
        return _finding(TST01, check, "proves", problem, mend)
    if void is Void.NOTHING_READ:
        key = next((key for key in ("test", "expect") if key in check.lines), "proves")
        problem = f"{check.id} was made, but nothing was measured or read; it proves nothing of {listed(names)}"
        mend = "Measure, and write what was read; or take 'made:' out until it is done"
        return _finding(TST02, check, key, problem, mend)
    early = listed([_when(job.change(name), name) for name in names])
    problem = f"{check.id} was made before the work it proves: {early}"
    return _finding(TST03, check, "made", problem, "Try it again and date the check by that day, or mend the dates")


def _finding(rule: Rule, check: Change, key: str, problem: str, mend: str) -> Finding:
    return rule(check.line_of(key), check.id, problem, mend)


def _when(row: Change | None, name: str) -> str:
    """`C14 (made 2031-05-03)`, `C14 (planned)`."""
    day = row.made.date if row is not None and row.made is not None else None
    return f"{name} (made {day.isoformat()})" if day is not None else f"{name} (planned)"
