"""Findings that a named person lets stand, and what of `accepted:` lets nothing stand."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace

from aswired.checks.codes import FAULT, code, near_codes
from aswired.checks.names import REF02
from aswired.figures.worked import JobResult
from aswired.record import Accepted, Change, Job
from aswired.text.diagnostics import RULES, Finding, Rule, Severity, did_you_mean

ACC01 = Rule("ACC01", Severity.WARNING)
ACC02 = Rule("ACC02", Severity.NOTE)
ACC03 = Rule("ACC03", Severity.WARNING)

_OWN = (ACC01.code, ACC02.code, ACC03.code)


@dataclass(frozen=True)
class Barred:
    """What the ledger says against the car, by code and entry: `never` nobody may let stand, `by_name` only a person
    who names the thing."""

    never: frozenset[tuple[str, str]] = frozenset()
    by_name: frozenset[tuple[str, str]] = frozenset()


def let_stand(facts: JobResult, found: Iterable[Finding], barred: Barred) -> Iterator[Finding]:
    """Findings; one that a named person lets stand keeps its rank and says who and why."""
    written = tuple(_all(facts.job))
    for finding in found:
        by = next((accepted for accepted, row in written if _lets_stand(accepted, row, finding, barred)), None)
        yield replace(finding, accepted_by=by.by, accepted_why=by.why) if by is not None else finding


def _lets_stand(accepted: Accepted, row: Change | None, finding: Finding, barred: Barred) -> bool:
    """Whether a line lets a finding stand: none does so of what nobody may let stand, and of what a person has to name
    only a line that names it."""
    if finding.never or not _is_of(accepted, row, finding):
        return False
    key = (finding.code, finding.entry)
    if key in barred.by_name and (row is not None or accepted.of):
        return key not in barred.never or finding.severity is not Severity.STOP
    return key not in barred.never and key not in barred.by_name


def judge(facts: JobResult, found: Collection[Finding], known: Collection[str], barred: Barred) -> Iterator[Finding]:
    """Accepted codes that no finding has, ids that stand nowhere, findings that do not occur (any more), and those that
    such a line cannot let stand."""
    by_code: dict[str, list[Finding]] = {}
    entries = {finding.entry for finding in found}
    for finding in found:
        by_code.setdefault(finding.code, []).append(finding)
    for accepted, row in _all(facts.job):
        entry = row.id if row is not None else accepted.of
        name = accepted.finding
        if name not in RULES:
            yield ACC01(accepted.line_of("finding"), entry, *_no_code(name))
        elif accepted.of and accepted.of not in known and accepted.of not in entries:
            problem = f"{name} is accepted at '{accepted.of}', which is nowhere in this job"
            mend = did_you_mean(accepted.of, known, "Write the id at which the finding stands, or take the line out")
            yield REF02(accepted.line_of("of"), entry, problem, mend)
        elif name not in _OWN and not any(_is_of(accepted, row, finding) for finding in by_code.get(name, ())):
            where = f"at '{accepted.of}'" if accepted.of else f"at {row.id}" if row is not None else "in this job"
            problem = f"{name} is accepted by {accepted.by}, but does not occur {where}"
            mend = "Take the line out, or write the id at which the finding stands"
            yield ACC02(accepted.line_of("finding"), entry, problem, mend)
        else:
            yield from _in_vain(accepted, row, entry, by_code.get(name, ()), barred)


def _in_vain(
    accepted: Accepted, row: Change | None, entry: str, found: Iterable[Finding], barred: Barred
) -> Iterator[Finding]:
    """A line that lets nothing stand, because nobody may, or because it does not say of which thing."""
    own = [finding for finding in found if _is_of(accepted, row, finding)]
    if not own or any(_lets_stand(accepted, row, finding, barred) for finding in own):
        return
    never = any((finding.code, finding.entry) in barred.never for finding in own)
    things = ", ".join(dict.fromkeys(finding.entry or "the car" for finding in own))
    if never:
        problem = f"{accepted.finding} at {things} is nothing that anybody may let stand"
        mend = "Mend the car, or the record where it is wrong, and take the line out"
    else:
        problem = f"{accepted.finding} is let stand without a thing that it stands at"
        mend = f"Write of: and the thing, a line for each: {things}"
    yield ACC03(accepted.line_of("finding"), entry, problem, mend)


def _no_code(name: str) -> tuple[str, str]:
    """What is wrong with a code that no finding has, and how to mend it."""
    right = code(name)
    if right is not None and right.ranks == (FAULT,):
        return f"{right.code} is a fault of the file, which nobody can let stand", "Take the line out"
    if right is not None:
        return f"'{name}' is no code of a finding", f"Write {right.code}"
    like = near_codes(name)
    mend = "Did you mean " + " or ".join(like) + "?" if like else "Write the code as it stands at the finding"
    return f"'{name}' is no code of a finding", mend


def _all(job: Job) -> Iterator[tuple[Accepted, Change | None]]:
    """Everything that is let stand, the job's own first, with the row on which it is written."""
    for accepted in job.accepted:
        yield accepted, None
    for row in job.changes:
        for accepted in row.accepted:
            yield accepted, row


def _is_of(accepted: Accepted, row: Change | None, finding: Finding) -> bool:
    if accepted.finding != finding.code:
        return False
    if row is None:
        return accepted.of in ("", finding.entry)
    # what a row brings about may stand under another name: five rings under that of their stud, on the fifth's line
    own = finding.entry == row.id or finding.entry.startswith(row.id + "-")
    return own or finding.at in (row.at, *row.lines.values())
