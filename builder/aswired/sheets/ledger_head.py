"""What the ledger says of a car in a few lines: what to leave off and why, how many wires, which fuses, what helps.

Pages, jobs page, printed record and `check` say it alike. Nothing here says that a car may be powered: at the best it
says what was shown, of what is on record.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from aswired.figures.worked import JobResult
from aswired.ledger.helps import steps
from aswired.ledger.record import Account, Fact, FuseLine, Ledger, MayGoIn, Reason, State, Weight, Why
from aswired.ledger.words import MOST_NAMED, fact_words, reason_clause, reason_words, step_words
from aswired.sheets.text import count, first_upper
from aswired.text.units import natural

MOST_HELPS = 3  # steps that are told; the sheet of wires has every fact that is not written
MOST_LISTED = 6  # fuses to leave out, and wires that a step may settle, that are named; more are counted
PROVED = "Proved: what is written shows that its fuse protects it and that it ends somewhere."
NOT_COUNTED = "Wires that nobody wrote down are not in the count."
MAY_GO_IN = (
    "May go in: what is written proves all that hangs on that fuse. It is no leave to skip a step of first power."
)


class Says(StrEnum):
    """What a sentence of the head is about, heaviest first."""

    NEVER = "leave the power off"
    BY_NAME = "against until a named person lets it stand"
    NOT_SHOWN = "not shown"
    PLANNED = "of the plan, not of a car"
    OTHERS = "other checks stand against it"
    CLEAN = "every wire on record is shown"


@dataclass(frozen=True)
class Sentence:
    """One sentence of the head, or two that belong together, with full stops."""

    says: Says
    text: str


@dataclass(frozen=True)
class FactGroup:
    """Facts of one kind that are not written: what to find out, the wires that wait for it, and those of them that wait
    for nothing else, nor will once it is written."""

    words: str
    facts: tuple[Fact, ...]
    wires: tuple[str, ...]
    frees: tuple[str, ...]


@dataclass(frozen=True)
class Head:
    """The head of the ledger, ready to print. `wires` is `69 of 82 proved, 2 against, 0 let stand, 11 not shown`, `of`
    what is counted, `means` what its words mean."""

    sentences: tuple[Sentence, ...]
    wires: str
    fuses: str
    helps: tuple[str, ...]  # what to find out first, a step each
    of: str
    means: str

    @property
    def leave_off(self) -> bool:
        """Whether something stands that nobody may let stand."""
        return self.sentences[0].says is Says.NEVER

    @property
    def wires_line(self) -> str:
        """The line that `check` prints."""
        return f"Wires: {self.wires}"

    @property
    def counted_line(self) -> str:
        """The same on a page: it says that ground cables are in the count."""
        return f"{first_upper(self.of)}: {self.wires}"

    @property
    def fuses_line(self) -> str:
        """The one beside it."""
        return f"Fuses: {self.fuses}"


def head(worked: JobResult) -> Head:
    """The head of the ledger of the shown view."""
    ledger = worked.ledger
    may = (MAY_GO_IN,) if _that_may(ledger, MayGoIn.YES) else ()
    return Head(
        sentences=tuple(_sentences(worked)),
        wires=wires_told(ledger),
        fuses=fuses_told(ledger),
        helps=helps_told(ledger),
        of=_counted(ledger),
        means=" ".join((PROVED, *may, NOT_COUNTED)),
    )


def helps_told(ledger: Ledger) -> tuple[str, ...]:
    """What to find out first, step by step, with the wires that each may settle."""
    return tuple(
        f"{step_words(step.asked)}. May settle {_few(step.wires, ledger)}." for step in steps(ledger, MOST_HELPS)
    )


def _few(wires: Sequence[str], ledger: Ledger) -> str:
    """A few wires by name, more by number."""
    if len(wires) <= MOST_LISTED:
        return ", ".join(sorted(wires, key=natural))
    return f"{len(wires)} {_counted(ledger)}"


def _counted(ledger: Ledger) -> str:
    """What the ledger counts."""
    return "wires and ground cables" if any(account.ground for account in ledger.accounts.values()) else "wires"


def wires_told(ledger: Ledger) -> str:
    """How many wires and ground cables have which state."""
    number = {state: ledger.count(state) for state in State}
    return (
        f"{number[State.PROVED]} of {len(ledger.accounts)} proved, {number[State.AGAINST]} against, "
        f"{number[State.LET_STAND]} let stand, {number[State.NOT_SHOWN]} not shown"
    )


def fact_groups(ledger: Ledger) -> tuple[FactGroup, ...]:
    """What is not written, by kind; that which settles most wires first."""
    kinds: dict[Why, list[Fact]] = {}
    for fact in ledger.facts:
        kinds.setdefault(fact.why, []).append(fact)
    kind = {name: {asked.why for asked in need} for name, need in ledger.needs.items()}
    found = []
    for why, facts in kinds.items():
        wires = tuple(dict.fromkeys(wire for fact in facts for wire in fact.wires))
        frees = tuple(wire for wire in wires if kind.get(wire) == {why})
        found.append(FactGroup(fact_words(facts), tuple(facts), wires, frees))
    return tuple(sorted(found, key=lambda group: (-len(group.frees), -len(group.wires))))


# ---- fuses ----------------------------------------------------------------------------------------------------------
def fuses_told(ledger: Ledger) -> str:
    """Which fuses may go in, stay out, go in on whose word, and not yet; those that feed nothing on record apart."""
    if not ledger.fuses:
        return "none on record"
    told = _told_of(ledger, MayGoIn.YES, MayGoIn.YES.value, MayGoIn.YES.value) or ["none may go in yet"]
    told += _told_of(ledger, MayGoIn.NO, "stays out", "stay out")
    told += _on_word(_that_may(ledger, MayGoIn.BY_NAME))
    told += _told_of(ledger, MayGoIn.OPEN, MayGoIn.OPEN.value, MayGoIn.OPEN.value)
    idle = sorted((fuse.name for fuse in ledger.fuses.values() if not fuse.feeds), key=natural)
    return "; ".join([*told, *_said(idle, "feeds nothing on record", "feed nothing on record")])


def _that_may(ledger: Ledger, may: MayGoIn) -> list[FuseLine]:
    found = (fuse for fuse in ledger.fuses.values() if fuse.may is may and fuse.feeds)
    return sorted(found, key=lambda fuse: natural(fuse.name))


def _told_of(ledger: Ledger, may: MayGoIn, one: str, many: str) -> list[str]:
    return _said([fuse.name for fuse in _that_may(ledger, may)], one, many)


def _on_word(fuses: Iterable[FuseLine]) -> Iterator[str]:
    people: dict[tuple[str, ...], list[str]] = {}
    for fuse in fuses:
        people.setdefault(fuse.by, []).append(fuse.name)
    for by, names in people.items():
        yield f"{', '.join(names)} on the word of {' and '.join(by)}"


def _said(names: list[str], one: str, many: str) -> list[str]:
    return [f"{', '.join(names)} {one if len(names) == 1 else many}"] if names else []


# ---- sentences ------------------------------------------------------------------------------------------------------
def _sentences(worked: JobResult) -> Iterator[Sentence]:
    ledger = worked.ledger
    if ledger.never or not worked.may_power:
        yield Sentence(Says.NEVER, f"Leave the power off. {_never(worked)}")
    if text := " ".join(_by_name(worked)):
        yield Sentence(Says.BY_NAME, text)
    if text := " ".join(_not_shown(worked)):
        yield Sentence(Says.NOT_SHOWN, text)
    if ledger.planned:
        yield Sentence(Says.PLANNED, f"Of the plan, not of a car: {count(len(ledger.planned), 'row')} not made so far.")
    if worked.cleared:
        yield Sentence(Says.CLEAN, _clean(ledger))
    elif ledger.clean and worked.may_power:
        stand = count(len(worked.standing), "error")
        yield Sentence(Says.OTHERS, f"The wires on record are settled, but other checks found what stands: {stand}.")


def _never(worked: JobResult) -> str:
    """The first thing that nobody may let stand, and how many more there are."""
    told = [_with_wires(reason, worked) for reason in worked.ledger.never]
    told = told or [first_upper(found.problem) for found in worked.standing if found.severity == 0]
    more = f" And {len(told) - 1} more." if len(told) > 1 else ""
    return f"{told[0]}.{more}"


def _with_wires(reason: Reason, worked: JobResult) -> str:
    """The words of a reason behind the wires that it speaks of: `W51, W52: F10 lets 15 A through ...`."""
    wires = [account.name for account in worked.ledger.accounts.values() if reason in account.reasons]
    more = f" and {len(wires) - MOST_NAMED} more" if len(wires) > MOST_NAMED else ""
    if wires and reason.of not in wires:
        return f"{', '.join(wires[:MOST_NAMED])}{more}: {reason_clause(reason, worked.job)}"
    return reason_words(reason, worked.job)[0]


def _by_name(worked: JobResult) -> Iterator[str]:
    ledger = worked.ledger
    against = ledger.having(State.AGAINST)
    wires = [account.name for account in against if not _is_never(account)]
    if wires:
        also = " also" if len(wires) < len(against) else ""
        yield f"What is written{also} speaks against {named(sorted(wires, key=natural))}."
        yield from _leave_out(ledger, [account for account in against if not _is_never(account)])
    for reason in ledger.car:
        if reason.state is State.AGAINST and reason.weight is Weight.BY_NAME:
            yield f"{reason_words(reason, worked.job)[0]}."


def _is_never(account: Account) -> bool:
    return any(reason.weight is Weight.NEVER for reason in account.reasons)


def _not_shown(worked: JobResult) -> Iterator[str]:
    ledger = worked.ledger
    if not ledger.accounts:
        yield "No wire is on record, so nothing is shown. Leave the battery off."
    many, waiting = len(ledger.accounts), ledger.count(State.NOT_SHOWN)
    if waiting:
        if waiting > ledger.count(State.PROVED) and not (ledger.never or ledger.by_name or worked.standing):
            yield "Nothing written speaks against this car, but too little is written to judge it."
        if waiting == many:
            yield f"None of its {_counted(ledger)} is proved by what is written."
        else:
            are = "is" if waiting == 1 else "are"
            yield f"{waiting} of {many} {_counted(ledger)} {are} not proved by what is written."
        yield from _leave_out(ledger, ledger.having(State.NOT_SHOWN))
    asked = [group.words for group in fact_groups(ledger) if not group.wires]
    if asked:
        yield f"Not written of the car as a whole: {'; '.join(asked)}."


def _clean(ledger: Ledger) -> str:
    """That all is shown, the wires that need no fuse by name, and what is let stand, by whom."""
    bare = [
        account.name
        for account in ledger.having(State.PROVED)
        if any(line.push.least == float("inf") for line in account.lines)
    ]
    unfused = f", or needs none ({', '.join(bare)})," if bare else ""
    let = [account.name for account in ledger.having(State.LET_STAND)]
    reasons = [reason for reason in ledger.reasons if reason.let_stand_by]
    let += [reason.of for reason in ledger.car if reason.let_stand_by]
    by = " and ".join(dict.fromkeys(reason.let_stand_by for reason in reasons))
    but = f", but for {len(let)} let stand by {by}: {', '.join(let)}" if let else ""
    untold = sorted((fuse.name for fuse in ledger.fuses.values() if fuse.feeds and not fuse.before), key=natural)
    before = f"What lies before {', '.join(untold)} is not on record, and not judged. " if untold else ""
    return (
        f"Every wire on record is fused within its rating{unfused} and closed at both ends{but}. {before}"
        "First power still through a low fuse, one circuit at a time."
    )


def _leave_out(ledger: Ledger, accounts: Sequence[Account]) -> Iterator[str]:
    """Which fuses have to stay out for the sake of these wires, and which of them no fuse cuts off."""
    held = _held(ledger, accounts)
    fuses = sorted((fuse.name for fuse in held), key=natural)
    if fuses:
        yield f"Leave out {', '.join(fuses) if len(fuses) <= MOST_LISTED else f'their {len(fuses)} fuses'}."
    if bare := _cut_off_by_none(ledger, accounts):
        yield f"The battery stays off: no fuse on record cuts off {named(bare)}."


def stays_off(ledger: Ledger) -> str:
    """That the battery stays off until what is open is settled, for the wires that no fuse cuts off; '' for none."""
    against = [account for account in ledger.having(State.AGAINST) if not _is_never(account)]
    bare = _cut_off_by_none(ledger, [*against, *ledger.having(State.NOT_SHOWN)])
    return f"The battery stays off until this is settled: no fuse on record cuts off {named(bare)}." if bare else ""


def _held(ledger: Ledger, accounts: Sequence[Account]) -> list[FuseLine]:
    """The fuses that these wires hang on."""
    wires = {account.name for account in accounts}
    return [fuse for fuse in ledger.fuses.values() if wires.intersection((*fuse.feeds, *fuse.returns))]


def _cut_off_by_none(ledger: Ledger, accounts: Sequence[Account]) -> list[str]:
    """Those of these wires that may be live with every fuse out; wires first, then cables of ground points."""
    cut_off = {wire for fuse in _held(ledger, accounts) for wire in (*fuse.feeds, *fuse.returns)}
    bare = [account.name for account in accounts if account.name not in cut_off or _may_be_fed_past_a_fuse(account)]
    return sorted(bare, key=lambda name: (ledger.accounts[name].ground, natural(name)))


def _may_be_fed_past_a_fuse(account: Account) -> bool:
    """Whether nothing stands between some of a wire and its source, or a load of it is fed by what is not on record."""
    unknown = any(reason.why in (Why.FEED_OF, Why.OUTPUT) for reason in account.reasons)
    return unknown or any(math.isinf(line.push.least) for line in account.lines)


def named(names: Sequence[str]) -> str:
    """`W1`, `W1, W2 and W3`, `W1, W2, W3, W4 and 5 more`."""
    if len(names) > MOST_NAMED:
        names = [*names[:MOST_NAMED], f"{len(names) - MOST_NAMED} more"]
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]]))
