"""The first page of a job in words: what the ledger says, may it be handed over, how much there is, the last work."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from aswired.figures.worked import JobResult
from aswired.ledger.record import Ledger, State
from aswired.sheets.cautions import cautions, standing
from aswired.sheets.changes import IN_ORDER, Fact, rows_told, states_told, what, wire_left
from aswired.sheets.connectors import connector_views, module_views
from aswired.sheets.extensions import pieces_told
from aswired.sheets.findings import Group, grouped
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.ledger_head import head
from aswired.sheets.ledger_then import as_handed_over
from aswired.sheets.recorded import header_facts, option_words, own_limits, usual_facts
from aswired.sheets.text import amount, count, date, first_upper, handed_over
from aswired.text.diagnostics import Finding, Severity
from aswired.text.unsaid import NOT_RECORDED

MOST_A_DAY = 6  # rows of one day on the first page; the change list has them all
MOST_CODES, MOST_ENTRIES = 4, 4  # of what stands against a car, in its one line; the table below has them all


@dataclass(frozen=True)
class Verdict:
    """A question, whether nothing recorded stands against a yes, the answer in words, and what to know beside it.

    The program never clears a car: it can only say that no stop and no error that it found is open.
    """

    question: str
    yes: bool
    answer: str
    beside: str


@dataclass(frozen=True)
class Reason:
    """One code that stands against the car: the first of the things it stands at, and how many more there are."""

    severity: Severity
    code: str
    entries: tuple[str, ...]
    more: int


@dataclass(frozen=True)
class Against:
    """The heaviest reasons, how many findings there are beyond them, and what is lighter: '5 warnings and 1 note'."""

    reasons: tuple[Reason, ...]
    more: int
    lighter: str
    none: ClassVar[str] = "No stop and no error is open"

    @property
    def says(self) -> str:
        """Of a car with no stop and no error open: that, and what is lighter."""
        return f"{self.none}; {self.lighter}" if self.lighter else "Nothing recorded"


@dataclass(frozen=True)
class Answer:
    """A question that a sheet answers. `amount` is how much there is on it."""

    question: str
    tells: str
    amount: str
    sheet: str  # by its name


@dataclass(frozen=True)
class Number:
    """A number of the job with a small addition."""

    name: str
    value: str
    more: str = ""


@dataclass(frozen=True)
class Worksday:
    """What was made, sealed and tested on one day, by whom."""

    day: str
    done: tuple[WorkLine, ...]
    by: str
    more: int = 0  # rows of the day beyond `done`


@dataclass(frozen=True)
class WorkLine:
    """One step of one row."""

    row: str
    step: str
    what: str


def hand_over(worked: JobResult) -> Verdict:
    """May it be handed over."""
    unseen = f"{count(len(worked.not_examined), 'thing')} not examined" if worked.not_examined else ""
    heavy = [finding for finding in worked.findings if finding.severity <= Severity.ERROR]
    beside = "; ".join(
        filter(None, [
            _counted((finding for finding in heavy if not finding.accepted_by), "open"),
            _counted((finding for finding in heavy if finding.accepted_by), f"let stand by {_people(heavy)}"),
            _not_proved(worked.ledger),
            unseen,
        ])
    )  # fmt: skip
    over = worked.may_hand_over
    return Verdict("May it be handed over?", over, Against.none if over else "No", beside)


def _not_proved(ledger: Ledger) -> str:
    """How many wires what is written does not prove; '' where it proves all, or somebody lets them stand."""
    open_ = ledger.count(State.NOT_SHOWN) + ledger.count(State.AGAINST)
    return f"{open_} of {len(ledger.accounts)} wires and ground cables not proved" if open_ else ""


def _counted(findings: Iterable[Finding], how: str = "") -> str:
    """`1 stop and 2 errors open`; '' when there is none."""
    ranks = [finding.severity for finding in findings]
    parts = [count(ranks.count(rank), rank.word) for rank in Severity if rank in ranks]
    return f"{' and '.join(parts)} {how}".strip() if parts else ""


def _people(findings: Iterable[Finding]) -> str:
    """Who lets findings stand: `AK`, `AK and JT`."""
    return " and ".join(dict.fromkeys(finding.accepted_by for finding in findings if finding.accepted_by))


def against(worked: JobResult) -> Against:
    """What stands against the car in one line: stops and errors that nobody accepted, by code, stops first."""
    by_code: dict[tuple[Severity, str], list[Finding]] = {}
    for finding in worked.standing:
        by_code.setdefault((finding.severity, finding.code), []).append(finding)
    # among equals what can hurt whoever works on it comes first: restraint, high voltage
    ordered = sorted(by_code.items(), key=lambda told: (told[0][0], not told[0][1].startswith("SPC"), told[0][1]))
    shown = [Reason(rank, code, *_first_entries(found)) for (rank, code), found in ordered[:MOST_CODES]]
    told = sum(len(reason.entries) + reason.more for reason in shown)
    lighter = _counted(found for found in worked.findings if not found.accepted_by and found.severity > Severity.ERROR)
    return Against(tuple(shown), len(worked.standing) - told, lighter)


def _first_entries(findings: Sequence[Finding]) -> tuple[tuple[str, ...], int]:
    entries = tuple(finding.entry or str(finding.at) for finding in findings)
    return entries[:MOST_ENTRIES], len(entries[MOST_ENTRIES:])


def ranked(worked: JobResult) -> tuple[Group, ...]:
    """Findings that nobody accepted, heaviest first; those mended alike under one heading."""
    return grouped(finding for finding in worked.findings if not finding.accepted_by)


def let_stand(worked: JobResult) -> tuple[Group, ...]:
    """Findings that a named person accepted, the same way."""
    return grouped(finding for finding in worked.findings if finding.accepted_by)


def answers(worked: JobResult) -> tuple[Answer, ...]:
    """The questions people come with, and the sheet that answers each."""
    kept = len(worked.circuit_figures)
    return (
        Answer(
            "Something does not work",
            "fuse, colours along the way, splices, ground",
            count(kept, "circuit"),
            "circuits",
        ),
        Answer("Where is a splice?", "by tape measure from a landmark", count(len(worked.joints), "splice"), "splices"),
        Answer("Which fuse?", "where it is, its rating, what it feeds", count(len(worked.fuses), "fuse"), "fuses"),
        Answer("What shares this ground?", "and what fails together", count(_used(worked), "point"), "grounds"),
        Answer(
            "What is this wire?",
            "by connector and cavity, now and in the donor",
            _connectors(worked),
            "connectors",
        ),
        Answer(
            "What was changed?",
            f"every row, {IN_ORDER}",
            rows_told(worked),
            "changes",
        ),
        Answer(
            "What did nobody look at?",
            "look there first",
            count(len(worked.not_examined), "thing") if worked.not_examined else "nothing",
            "not_examined",
        ),
    )


def let_stand_told(worked: JobResult) -> str:
    """`18 findings in 3 rows let stand by AK and JT`: those of one code and one reason share a row; '' for none."""
    groups = let_stand(worked)
    if not groups:
        return ""
    findings = [finding for group in groups for finding in group.findings]
    rows = f" in {count(len(groups), 'row')}" if len(groups) != len(findings) else ""
    return f"{count(len(findings), 'finding')}{rows} let stand by {_people(findings)}"


def _connectors(worked: JobResult) -> str:
    """As many as the sheet of connectors has entries: `50 connectors, 4 modules`."""
    modules = len(module_views(worked))
    return count(len(connector_views(worked)), "connector") + (f", {count(modules, 'module')}" if modules else "")


def _used(worked: JobResult) -> int:
    return sum(ground.state == "in use" for ground in worked.grounds)


def numbers(worked: JobResult) -> tuple[Number, ...]:
    """The job in numbers; a sum with an unknown term says how many terms are missing."""
    placed = sum(joint.leg is not None for joint in worked.joints)
    spare = sum(fuse.spare for fuse in worked.fuses)
    kept = len(worked.circuit_figures)
    deleted = sum(load.verdict == "deleted" for load in worked.loads.values())
    removed = sum(wire_left(name, worked.shown) for name in worked.shown.wires)
    return (
        Number("Rows of the change list", rows_told(worked), states_told(worked)),
        Number("Circuits kept", str(kept), f"{deleted} deleted on purpose" if deleted else ""),
        Number("Splices", str(len(worked.joints)), f"{placed} found on the route" if worked.joints else ""),
        Number("Ground points in use", str(_used(worked))),
        Number("Fuses", str(len(worked.fuses) - spare), f"and {spare} spare" if spare else ""),
        Number("Pieces of wire", *_total(worked)),
        Number("Wires taken out", str(removed)),
    )


def conditions(worked: JobResult) -> tuple[Fact, ...]:
    """What the figures are for, and how the car is meant: said once, before any figure."""
    job = worked.job

    def given(name: str, text: str) -> Fact:
        return Fact(name, text or NOT_RECORDED)

    options = (given(first_upper(name), option_words(name, job)) for name in job.options)
    return (
        given("Donor", job.donor),
        given("Figures are for", ", ".join(_figures_for(worked))),
        given("AWG sizes by", f"{job.awg_means}"),
        given("System", job.system.text if job.system else ""),
        given("Drops held to", job.drops_held_to),
        given("Pole on the body", "" if job.ground_side == "unknown" else job.ground_side),
        given("Body carries returns", "" if job.body_returns == "unknown" else job.body_returns),
        given("Left and right", job.left_and_right),
        given("Handed over", handed_over(job)),
        *header_facts(job),
        *options,
    )


def last_day(worked: JobResult) -> datetime.date | None:
    """The last day on which something was made, sealed or tested; None while no such day is written."""
    return max(_days(worked), default=None)


def latest(worked: JobResult, most: int = 4) -> tuple[Worksday, ...]:
    """The last days on which something was made, sealed or tested, newest first; rows in file order."""
    days = _days(worked)
    found = []
    for day in sorted(days, reverse=True)[:most]:
        lines = _joined([line for _, line in days[day]])
        by = ", ".join(dict.fromkeys(by for by, _ in days[day] if by))
        found.append(Worksday(date(day), lines[:MOST_A_DAY], by, len(lines[MOST_A_DAY:])))
    return tuple(found)


def _days(worked: JobResult) -> dict[datetime.date, list[tuple[str, WorkLine]]]:
    """Day -> who did which step of which row on it, of the rows in force."""
    days: dict[datetime.date, list[tuple[str, WorkLine]]] = {}
    for change in worked.rows_of(worked.shown):
        for word, step in (("made", change.made), ("sealed", change.sealed), ("tested", change.tested)):
            if step is not None and step.date is not None:
                days.setdefault(step.date, []).append((step.by, WorkLine(change.id, word, what(change))))
    return days


def _joined(lines: Sequence[WorkLine]) -> tuple[WorkLine, ...]:
    """Steps of one row on one day drawn together: 'made, sealed'."""
    rows: dict[str, list[WorkLine]] = {}
    for line in lines:
        rows.setdefault(line.row, []).append(line)
    return tuple(WorkLine(row, ", ".join(item.step for item in items), items[0].what) for row, items in rows.items())


def _figures_for(worked: JobResult) -> Iterable[str]:
    if worked.job.supply is not None:
        yield worked.job.supply.text
    if worked.job.temperature is not None:
        yield f"conductors at {amount(worked.job.temperature.value, 'C')}"


def _total(worked: JobResult) -> tuple[str, str]:
    lengths_mm = [piece.length_mm for piece in worked.pieces]
    known = [length for length in lengths_mm if length is not None]
    missing = len(lengths_mm) - len(known)
    if not lengths_mm:
        return "none", ""
    if not known:
        return NOT_RECORDED, pieces_told(worked)
    metres = f"{sum(known) / 1000:.1f} m" if worked.job.units != "inch" else f"{sum(known) / 304.8:.1f} ft"
    return metres, pieces_told(worked) + (f"; length of {missing} not recorded" if missing else "")


def pages(frame: Frame) -> Iterable[PageOut]:
    """The overview."""
    worked = frame.worked
    yield frame.page(
        "overview",
        "overview.html",
        head=head(worked),
        then=as_handed_over(worked),
        hand_over=hand_over(worked),
        against=against(worked),
        findings=ranked(worked),
        let_stand=let_stand(worked),
        let_stand_told=let_stand_told(worked),
        answers=answers(worked),
        cautions=cautions(worked),
        standing=standing(worked),
        numbers=numbers(worked),
        conditions=conditions(worked),
        latest=latest(worked),
        usual=usual_facts(worked.job),
        limits=own_limits(worked.job),
    )
