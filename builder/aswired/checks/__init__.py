"""Findings about the car, from recorded facts only, and the count of what was not examined.

Each module of this package judges one subject and yields `Finding`s. Row findings are judged over the plan (a planned
fault is an error of the plan), completeness over the shown view only (F16); copper by the ledger, of the shown view and
of what the plan would bring to it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from aswired.checks import (
    accepted,
    bundles,
    colours,
    dates,
    ends,
    fuses,
    grounds,
    joints,
    leads,
    ledger,
    links,
    loads,
    measures,
    names,
    options,
    photos,
    places,
    process,
    proofs,
    readings,
    recipes,
    relays,
    sizes,
    special,
    splices,
    systems,
    terminals,
    unexamined,
    written_ends,
)
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding

SUBJECTS = (
    ends, loads, fuses, relays, options, recipes, splices, joints, places, colours, sizes, terminals, grounds,
    special, links, systems, bundles, measures, process, dates, proofs, readings, leads, photos, written_ends,
)  # fmt: skip


def find(facts: JobResult, photo_problems: Mapping[str, str]) -> JobResult:
    """The job with its findings, heaviest first, and what was not examined."""
    found: dict[Finding, None] = dict.fromkeys((*facts.plan.findings, *facts.shown.findings))
    for subject in SUBJECTS:
        found.update(dict.fromkeys(subject.judge(facts)))
    found.update(dict.fromkeys(ledger.judge(facts)))
    known = names.known_names(facts)
    found.update(dict.fromkeys(names.judge(facts, known, photo_problems)))
    barred = ledger.barred(facts)
    found.update(dict.fromkeys(accepted.judge(facts, tuple(found), known, barred)))
    told = sorted(
        accepted.let_stand(facts, found, barred),
        key=lambda finding: (finding.severity, finding.at, finding.code, finding.entry),
    )
    facts = replace(facts, findings=tuple(told))
    facts = ledger.settled(facts)
    return replace(facts, not_examined=unexamined.count(facts))
