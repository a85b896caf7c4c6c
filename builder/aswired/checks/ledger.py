"""What the ledger of copper says against the car and against the plan: one finding for each thing that it stands at."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from aswired.car.harness import View
from aswired.checks.accepted import Barred
from aswired.checks.ends import END01, END02, END05, END07, END08
from aswired.checks.fuses import FUS01, FUS03, FUS05, FUS10, mend_words
from aswired.checks.grounds import GND06
from aswired.checks.links import SPC05
from aswired.checks.loads import LOD02
from aswired.checks.systems import SPC10
from aswired.figures.worked import JobResult
from aswired.ledger.record import Ledger, Line, Reason, Weight, Why
from aswired.ledger.words import reason_clause, reason_words
from aswired.network.copper import conductor_of
from aswired.physics.carrying import planned_a
from aswired.record import Job
from aswired.text.diagnostics import Finding, Rule, Severity

FUS11 = Rule("FUS11", Severity.STOP, Severity.ERROR)
FUS12 = Rule("FUS12", Severity.STOP, Severity.ERROR)
FUS13 = Rule("FUS13", Severity.STOP, Severity.ERROR)
FUS14 = Rule("FUS14", Severity.ERROR)
FUS15 = Rule("FUS15", Severity.ERROR)
FUS16 = Rule("FUS16", Severity.STOP, Severity.ERROR)
INS01 = Rule("INS01", Severity.STOP, Severity.ERROR)
LOD08 = Rule("LOD08", Severity.ERROR)
SPC01 = Rule("SPC01", Severity.STOP)
SPC02 = Rule("SPC02", Severity.STOP)
SPC08 = Rule("SPC08", Severity.STOP)
SPL04 = Rule("SPL04", Severity.STOP, Severity.ERROR)

_RULES = {
    Why.FEED: FUS01,
    Why.BEHIND: FUS01,
    Why.SHORTED_LOAD: FUS11,
    Why.SHORTED_BESIDE: FUS11,
    Why.ASKED: FUS12,
    Why.STARTER: FUS12,
    Why.UNFUSED_LONG: FUS05,
    Why.UNFUSED_LOAD: FUS03,
    Why.UNFUSED_NOWHERE: END05,
    Why.LINK_LONG: SPC05,
    Why.BRIDGED: FUS13,
    Why.SHORT: FUS10,
    Why.TWO_KEYS: FUS14,
    Why.DATA: FUS15,
    Why.HEAT: INS01,
    Why.TAPED: END07,
    Why.BARE_JOINT: SPL04,
    Why.PART_GONE: END08,
    Why.DELETED_LOAD: LOD02,
    Why.RESTRAINT: SPC01,
    Why.HIGH_VOLTAGE: SPC02,
    Why.SIXTY_VOLTS: SPC08,
    Why.SYSTEM: SPC08,
    Why.CONTRADICTED: SPC10,
    Why.OTHER_VOLTS: LOD08,
}
_RANKS = {Weight.NEVER: Severity.STOP, Weight.BY_NAME: Severity.ERROR}


def judge(facts: JobResult) -> Iterator[Finding]:
    """What stands against the car as it is; then what rows that are not made so far would bring, as errors."""
    now, plan = _now(facts), _plan(facts)
    yield from _findings(facts, now, now.against)
    yield from _findings(facts, plan, _brought(facts), planned=True)


def brought_by_plan(facts: JobResult) -> tuple[Reason, ...]:
    """What rows that are not made so far would bring against the car, beyond what stands against it now."""
    return tuple(dict.fromkeys(reason for _, reason in _brought(facts)))


def _brought(facts: JobResult) -> tuple[tuple[str, Reason], ...]:
    """The same with the wire or ground point that each is against. What stands at a thing now, let stand or not, hides
    neither what the plan brings there against another wire, nor what is heavier."""
    if facts.planned_ledger is facts.ledger:
        return ()
    now, plan = _now(facts), _plan(facts)
    known: dict[tuple[str, str, str], Weight] = {}
    for name, reason in now.against:
        at = now.stands_at(reason)
        for key in ((name, *at), ("", *at)):  # of the car as a whole it is known by any wire: that may leave the car
            known[key] = min(reason.weight, known.get(key, reason.weight))
    return tuple(
        (name, reason)
        for name, reason in plan.against
        if reason.weight < known.get((name, *plan.stands_at(reason)), Weight.MISSING)
    )


@dataclass(frozen=True)
class _Told:
    """The ledger of one view, and what its reasons against lines are told as."""

    job: Job
    view: View
    ledger: Ledger

    @cached_property
    def against(self) -> tuple[tuple[str, Reason], ...]:
        """Each reason with the wire or ground point that it is against, '' of the car as a whole."""
        own = [("", reason) for reason in self.ledger.car]
        own += [(name, reason) for name, account in self.ledger.accounts.items() for reason in account.reasons]
        return tuple((name, reason) for name, reason in own if reason.weight is not Weight.MISSING)

    def worst(self, against: Iterable[tuple[str, Reason]]) -> tuple[Reason, ...]:
        """Of the reasons that stand at one thing for one cause and weigh the same, the worst; of wires that end in a
        part that left the car one reason that names them all."""
        worst: dict[tuple[str, str, Weight], Reason] = {}
        for reason in dict.fromkeys(reason for _, reason in against):
            key = (*self.stands_at(reason), reason.weight)
            kept = worst.get(key)
            if kept is None or _slack(reason) < _slack(kept):
                worst[key] = reason
            elif reason.why is kept.why is Why.PART_GONE:
                worst[key] = replace(kept, by=tuple(dict.fromkeys((*kept.by, *reason.by))))
        return tuple(worst.values())

    def stands_at(self, reason: Reason) -> tuple[str, str]:
        """Code and entry of a reason's finding; of a fusible link that a row put in the row is the entry."""
        rule, entry = self.rule(reason), reason.of
        if rule is SPC05 and entry in self.view.wires:
            entry = self.view.wires[entry].added_by or entry
        return rule.code, entry

    def rule(self, reason: Reason) -> Rule:
        """The rule that tells a reason."""
        if reason.why is Why.BARE:
            return END01 if reason.weight is Weight.NEVER else END02
        if reason.why is Why.FEED and reason.of not in self.view.fuses:
            return FUS16 if reason.of.partition(".")[0] in self.job.modules else SPC05
        if reason.why is Why.ASKED and reason.of in self.job.grounds:
            return GND06
        return _RULES[reason.why]

    def conductor(self, line: Line) -> str:
        """A line with its size: `W2 from FS1 to lamp.1 (1.0 mm2)`."""
        if line.index is not None:
            return f"{line.name} ({self.view.stretches[line.index].size.text})"
        cable = self.job.grounds[line.wire].cable
        return f"{line.name} ({cable.text})" if cable is not None else line.name


def _now(facts: JobResult) -> _Told:
    return _Told(facts.job, facts.shown, facts.ledger)


def _plan(facts: JobResult) -> _Told:
    return _Told(facts.job, facts.plan, facts.planned_ledger)


def _findings(
    facts: JobResult, of: _Told, against: Collection[tuple[str, Reason]], planned: bool = False
) -> Iterator[Finding]:
    wanted = frozenset(against)
    conductors = {
        reason: of.conductor(line)
        for name, line in _lines(of.ledger)
        for reason in line.reasons
        if (name, reason) in wanted
    }
    for reason in of.worst(against):
        rule, (_, entry) = of.rule(reason), of.stands_at(reason)
        problem, mend = reason_words(reason, facts.job)
        clause = reason_clause(reason, facts.job)
        if reason.carries is not None and reason in conductors:
            clause = f"{conductors[reason]}: {clause}{_by_table(facts, reason)}"
            problem = clause
        if planned:
            problem = f"once the planned rows are made: {clause}"
        elif smaller := _smaller_fuse(facts, reason):
            mend = smaller
        rank = _rank(rule, Weight.BY_NAME if planned else reason.weight)
        yield replace(rule(reason.at, entry, problem, mend, rank=rank), never=reason.weight is Weight.NEVER)


def _smaller_fuse(facts: JobResult, reason: Reason) -> str:
    """What mends a fuse above its thinnest wire, told with the load on it; '' where heat, metal or a second fuse has a
    part in it."""
    fuse = next((fuse for fuse in facts.fuses if (fuse.name,) == reason.by), None)
    if reason.why is not Why.FEED or fuse is None or fuse.rating.value != reason.carries:
        return ""
    return mend_words(fuse)


def _lines(ledger: Ledger) -> Iterator[tuple[str, Line]]:
    """Every line with the name of its account, the last first, so that of lines with one reason the
    first is written last, and counts."""
    for name, account in reversed(tuple(ledger.accounts.items())):
        yield from ((name, line) for line in reversed(account.lines))


def _by_table(facts: JobResult, reason: Reason) -> str:
    """Of a ground point's cable the row of the planning table that it counts by, with its source."""
    point = facts.job.grounds.get(reason.of)
    found = conductor_of(point.cable, facts.job) if point is not None and point.cable is not None else None
    row = planned_a(found.area_mm2) if found is not None else None
    if row is None or row.value != reason.carries:
        return ""
    return f" ({'; '.join(filter(None, (f'{row.source}, {row.mark}', row.note)))})"


def _rank(rule: Rule, weight: Weight) -> Severity:
    """The rank of a reason; a rule of one rank has that."""
    return _RANKS[weight] if _RANKS[weight] in rule.ranks else rule.ranks[0]


def _slack(reason: Reason) -> tuple[float, bool]:
    """The less of it, the worse: what a line may carry [A]; of one too far from its source how far it is, below
    nought [mm]. Of equals the one that names what brings it."""
    return (reason.carries if reason.carries is not None else -(reason.mm or 0.0)), not reason.by


# ---- what may be let stand ------------------------------------------------------------------------------------------
def barred(facts: JobResult) -> Barred:
    """What a line under `accepted:` cannot let stand, or only by naming the thing; of the plan too."""
    never, by_name = (
        frozenset(
            told.stands_at(reason)
            for told in (_now(facts), _plan(facts))
            for _, reason in told.against
            if reason.weight is weight
        )
        for weight in (Weight.NEVER, Weight.BY_NAME)
    )
    return Barred(never, by_name)


def settled(facts: JobResult) -> JobResult:
    """The job with what a named person lets stand in its ledgers: nothing that may never be let stand."""
    by = {(f.code, f.entry): (f.accepted_by, f.accepted_why) for f in facts.findings if f.accepted_by}

    def settle(told: _Told) -> Ledger:
        return told.ledger.let_stand(lambda reason: by.get(told.stands_at(reason)))

    now = settle(_now(facts))
    planned = now if facts.planned_ledger is facts.ledger else settle(_plan(facts))
    return replace(facts, ledger=now, planned_ledger=planned)
