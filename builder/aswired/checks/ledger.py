"""What the ledger of copper says against the car, as findings: one for each thing that it stands at."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from aswired.checks.accepted import Barred
from aswired.checks.ends import END01, END02, END05, END07, END08
from aswired.checks.fuses import FUS01, FUS03, FUS05, FUS10, mend_words
from aswired.checks.grounds import GND06
from aswired.checks.insulation import INS01
from aswired.checks.links import SPC05
from aswired.checks.loads import LOD02
from aswired.checks.special import SPC01, SPC02
from aswired.checks.splices import SPL04
from aswired.checks.systems import SPC08
from aswired.figures.worked import JobResult
from aswired.ledger.record import Account, Ledger, Line, Reason, Weight, Why
from aswired.ledger.words import reason_words
from aswired.network.copper import conductor_of
from aswired.physics.carrying import planned_a
from aswired.text.diagnostics import Finding, Rule, Severity

FUS11 = Rule("FUS11", Severity.STOP, Severity.ERROR)
FUS12 = Rule("FUS12", Severity.STOP, Severity.ERROR)
FUS13 = Rule("FUS13", Severity.STOP)
FUS14 = Rule("FUS14", Severity.ERROR)
FUS15 = Rule("FUS15", Severity.ERROR)
FUS16 = Rule("FUS16", Severity.STOP, Severity.ERROR)
LOD08 = Rule("LOD08", Severity.ERROR)

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
    Why.OTHER_VOLTS: LOD08,
}
_RANKS = {Weight.NEVER: Severity.STOP, Weight.BY_NAME: Severity.ERROR}


def judge(facts: JobResult, found: Collection[tuple[str, str]]) -> Iterator[Finding]:
    """Each reason against a line as a finding; `found` are codes and entries that another check tells already."""
    conductors = {reason: _conductor(facts, line) for line in _lines(facts.ledger) for reason in line.reasons}
    for reason in told(facts, facts.ledger):
        rule, entry = rule_of(facts, reason), entry_of(facts, reason)
        if (rule.code, entry) in found or reason.why is Why.SYSTEM:  # that is told of the header
            continue
        problem, mend = reason_words(reason, facts.job)
        if reason.carries is not None and reason in conductors:
            problem = f"{conductors[reason]}: {problem}{_by_table(facts, reason)}"
        if smaller := _smaller_fuse(facts, reason):
            mend = smaller
        yield rule(reason.at, entry, problem, mend, rank=_rank(rule, reason.weight))


def _smaller_fuse(facts: JobResult, reason: Reason) -> str:
    """What mends a fuse above its thinnest wire, told with the load on it; '' where heat, metal or a second fuse has a
    part in it."""
    fuse = next((fuse for fuse in facts.fuses if (fuse.name,) == reason.by), None)
    if reason.why is not Why.FEED or fuse is None or fuse.rating.value != reason.carries:
        return ""
    return mend_words(fuse)


def _lines(ledger: Ledger) -> Iterator[Line]:
    """Every line, the last first."""
    for account in reversed(tuple(ledger.accounts.values())):
        yield from reversed(account.lines)


def _conductor(facts: JobResult, line: Line) -> str:
    """A line with its size: `W2 from FS1 to lamp.1 (1.0 mm2)`."""
    if line.index is not None:
        return f"{line.name} ({facts.shown.stretches[line.index].size.text})"
    cable = facts.job.grounds[line.wire].cable
    return f"{line.name} ({cable.text})" if cable is not None else line.name


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


def told(facts: JobResult, ledger: Ledger) -> Iterator[Reason]:
    """Of the reasons against lines, those that stand at one thing for one cause and weigh the same once: the worst."""
    worst: dict[tuple[str, str, Weight], Reason] = {}
    for reason in ledger.reasons:
        if reason.weight is Weight.MISSING:
            continue
        key = (rule_of(facts, reason).code, entry_of(facts, reason), reason.weight)
        kept = worst.get(key)
        if kept is None or _slack(reason) < _slack(kept):
            worst[key] = reason
    yield from worst.values()


def _slack(reason: Reason) -> tuple[float, bool]:
    """The less of it, the worse: what a line may carry [A]; of one too far from its source how far it is, below
    nought [mm]. Of equals the one that names what brings it."""
    return (reason.carries if reason.carries is not None else -(reason.mm or 0.0)), not reason.by


def entry_of(facts: JobResult, reason: Reason) -> str:
    """What a finding of a reason stands at: of a fusible link that a row put in, the row."""
    link = facts.shown.wires.get(reason.of)
    put_in = link is not None and rule_of(facts, reason) is SPC05
    return link.added_by or reason.of if link is not None and put_in else reason.of


def barred(facts: JobResult) -> Barred:
    """What a line under `accepted:` cannot let stand, or only by naming the thing."""
    against = [reason for reason in facts.ledger.reasons if reason.weight is not Weight.MISSING]
    never, by_name = (
        frozenset(
            (rule_of(facts, reason).code, entry_of(facts, reason)) for reason in against if reason.weight is weight
        )
        for weight in (Weight.NEVER, Weight.BY_NAME)
    )
    return Barred(never, by_name)


def rule_of(facts: JobResult, reason: Reason) -> Rule:
    """The rule that tells a reason."""
    if reason.why is Why.BARE:
        return END01 if reason.weight is Weight.NEVER else END02
    if reason.why is Why.FEED and reason.of not in facts.shown.fuses:
        return FUS16 if reason.of.partition(".")[0] in facts.job.modules else SPC05
    if reason.why is Why.ASKED and reason.of in facts.job.grounds:
        return GND06
    return _RULES[reason.why]


def settled(facts: JobResult) -> Ledger:
    """The ledger with what a named person lets stand: nothing that may never be let stand."""
    by = {(f.code, f.entry): f for f in facts.findings if f.accepted_by}

    def of(reason: Reason) -> Reason:
        if reason.weight is not Weight.BY_NAME:
            return reason
        found = by.get((rule_of(facts, reason).code, entry_of(facts, reason)))
        return replace(reason, let_stand_by=found.accepted_by, let_stand_why=found.accepted_why) if found else reason

    def line(old: Line) -> Line:
        return replace(old, reasons=tuple(map(of, old.reasons)))

    accounts = {
        name: Account(account.name, tuple(map(line, account.lines)), account.ground)
        for name, account in facts.ledger.accounts.items()
    }
    car = tuple(map(of, facts.ledger.car))
    fuses = {name: fuse.judged(accounts, car) for name, fuse in facts.ledger.fuses.items()}
    return replace(facts.ledger, accounts=accounts, fuses=fuses, car=car)
