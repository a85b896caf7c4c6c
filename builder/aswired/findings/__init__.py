"""Findings about the car, from recorded facts only, and the count of what was not examined.

Each module of this package judges one subject and yields `Finding`s. Row findings are judged over the plan (a planned
fault is an error of the plan), completeness over the shown view only (F16).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from aswired.diagnostics import Finding
from aswired.findings import (
    bundles,
    colours,
    dates,
    ends,
    fuses,
    grounds,
    insulation,
    joints,
    links,
    loads,
    measures,
    names,
    options,
    photos,
    places,
    process,
    readings,
    recipes,
    relays,
    sizes,
    special,
    splices,
    systems,
    terminals,
    unexamined,
)
from aswired.route import Route
from aswired.worked import Worked

SUBJECTS = (
    ends,
    loads,
    fuses,
    relays,
    options,
    recipes,
    splices,
    joints,
    places,
    colours,
    sizes,
    terminals,
    insulation,
    grounds,
    special,
    links,
    systems,
    bundles,
    measures,
    process,
    dates,
    readings,
    photos,
)


def find(facts: Worked, route: Route, photo_problems: Mapping[str, str]) -> Worked:
    """The job with its findings, heaviest first, and what was not examined."""
    found: dict[Finding, None] = dict.fromkeys((*facts.plan.findings, *facts.shown.findings))
    for subject in SUBJECTS:
        found.update(dict.fromkeys(subject.judge(facts, route)))
    found.update(dict.fromkeys(names.judge(facts, photo_problems)))
    accepted = [_accept(facts, finding) for finding in found]
    accepted.sort(key=lambda finding: (finding.severity, finding.at, finding.code, finding.entry))
    return replace(facts, findings=tuple(accepted), not_examined=tuple(unexamined.count(facts)))


def _accept(facts: Worked, finding: Finding) -> Finding:
    """A finding that a named person lets stand keeps its rank and says who and why."""
    for accepted in facts.job.accepted:
        if accepted.finding == finding.code and accepted.of in ("", finding.entry):
            return replace(finding, accepted_by=accepted.by, accepted_why=accepted.why)
    for row in facts.job.changes:
        if not row.accepted:
            continue
        # what a row brings about may stand under another name: five rings under that of their stud, on the fifth's line
        own = finding.entry == row.id or finding.entry.startswith(row.id + "-")
        if not own and finding.at not in (row.at, *row.lines.values()):
            continue
        for accepted in row.accepted:
            if accepted.finding == finding.code:
                return replace(finding, accepted_by=accepted.by, accepted_why=accepted.why)
    return finding
