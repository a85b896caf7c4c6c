"""Insulation against the heat of the legs that a wire runs through. Only what is recorded is judged."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.insulation import BEARS, insulation_of
from aswired.figures.heat import heat_of, legs_of, positions_of
from aswired.figures.worked import JobResult
from aswired.ledger.ratings import HOTTEST
from aswired.text.diagnostics import Finding, Rule, Severity

INS01 = Rule("INS01", Severity.STOP, Severity.ERROR)


def judge(facts: JobResult) -> Iterator[Finding]:
    heats = {index: heat for index, leg in enumerate(facts.job.route) if (heat := heat_of(facts.job, leg)) is not None}
    if not heats:
        return
    places = positions_of(facts.job, facts.joints)
    told: set[tuple[str, str]] = set()
    for stretch in facts.plan.stretches:
        insulation, at = insulation_of(facts.job, stretch)
        key = BEARS.get(insulation)
        if key is None or (stretch.wire, stretch.origin) in told:
            continue
        bears = facts.job.limits_in_force[key].value
        through = [(heats[leg], leg) for leg in legs_of(facts.plan, facts.route, places, stretch) if leg in heats]
        if not through or max(through)[0] <= bears:
            continue
        told.add((stretch.wire, stretch.origin))
        heat, index = max(through)
        leg = facts.job.route[index]
        what = f"the piece in {stretch.wire}" if stretch.origin else stretch.wire
        yield INS01(
            at,
            f"{stretch.origin}-{stretch.wire}" if stretch.origin else stretch.wire,
            f"{what} has {insulation} insulation, good to {bears:g} C, and runs from {leg.from_} to {leg.to} "
            f"at {heat:g} C",
            "Take wire whose insulation bears that heat, or lead it another way",
            rank=Severity.STOP if heat > HOTTEST else Severity.ERROR,
        )
