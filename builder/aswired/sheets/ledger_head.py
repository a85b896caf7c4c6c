"""What the ledger says of a car in a few lines: what to leave off and why, how many wires, which fuses, what helps.

Pages, jobs page, printed record and `check` say it alike. Nothing here says that a car may be powered: at the best it
says what was shown, of what is on record.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from aswired.figures.worked import JobResult
from aswired.ledger.record import Account, Fact, FuseLine, Ledger, MayGoIn, Reason, State, Weight, Why
from aswired.ledger.words import MOST_NAMED, fact_words, reason_words
from aswired.sheets.text import count, first_upper
from aswired.text.units import natural

MOST_HELPS = 3  # facts that are asked for first; the sheet of wires has them all


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
    for nothing else."""

    words: str
    facts: tuple[Fact, ...]
    wires: tuple[str, ...]
    frees: tuple[str, ...]

    @property
    def told(self) -> str:
        """`rating of F4 (2 wires wait for it)`, `size of 14 wires (may settle 9 wires)`; of the car the words alone."""
        if not self.wires:
            return self.words
        if not self.frees:
            return f"{self.words} ({_wait(len(self.wires))})"
        return f"{self.words} (may settle {count(len(self.frees), 'wire')})"


@dataclass(frozen=True)
class Head:
    """The head of the ledger, ready to print. `wires` is `69 of 82 proved, 2 against, 0 let stand, 11 not shown`."""

    sentences: tuple[Sentence, ...]
    wires: str
    fuses: str
    helps: tuple[str, ...]  # what to find out first

    @property
    def leave_off(self) -> bool:
        """Whether something stands that nobody may let stand."""
        return self.sentences[0].says is Says.NEVER

    @property
    def wires_line(self) -> str:
        """The line that `check` prints."""
        return f"Wires: {self.wires}"

    @property
    def fuses_line(self) -> str:
        """The one beside it."""
        return f"Fuses: {self.fuses}"


def head(worked: JobResult) -> Head:
    """The head of the ledger of the shown view."""
    ledger = worked.ledger
    helps = tuple(group.told for group in fact_groups(ledger)[:MOST_HELPS])
    return Head(tuple(_sentences(worked)), wires_told(ledger), fuses_told(ledger), helps)


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
    alone = _waits_for_one_kind(ledger)
    found = []
    for why, facts in kinds.items():
        wires = tuple(dict.fromkeys(wire for fact in facts for wire in fact.wires))
        frees = tuple(wire for wire in wires if alone.get(wire) is why)
        found.append(FactGroup(fact_words(facts), tuple(facts), wires, frees))
    return tuple(sorted(found, key=lambda group: (-len(group.frees), -len(group.wires))))


def _waits_for_one_kind(ledger: Ledger) -> dict[str, Why]:
    """Wire that is not shown -> the one kind of fact that it waits for."""
    found = {}
    for account in ledger.having(State.NOT_SHOWN):
        kinds = {reason.why for reason in account.reasons if reason.weight is Weight.MISSING}
        if len(kinds) == 1:
            found[account.name] = kinds.pop()
    return found


# ---- fuses ----------------------------------------------------------------------------------------------------------
def fuses_told(ledger: Ledger) -> str:
    """Which fuses may go in, stay out, go in on whose word, are open; those that feed nothing on record apart."""
    if not ledger.fuses:
        return "none on record"
    told = _told_of(ledger, MayGoIn.YES, "may go in", "may go in") or ["none may go in yet"]
    told += _told_of(ledger, MayGoIn.NO, "stays out", "stay out")
    told += _on_word(_that_may(ledger, MayGoIn.BY_NAME))
    told += _told_of(ledger, MayGoIn.OPEN, "is open", "are open")
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
    if not ledger.clean:
        return
    if not worked.standing:
        yield Sentence(Says.CLEAN, _clean(ledger))
    elif worked.may_power:
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
    so = reason_words(reason, worked.job)[0]
    wires = [account.name for account in worked.ledger.accounts.values() if reason in account.reasons]
    more = f" and {len(wires) - MOST_NAMED} more" if len(wires) > MOST_NAMED else ""
    return f"{', '.join(wires[:MOST_NAMED])}{more}: {so}" if wires and reason.of not in wires else so


def _by_name(worked: JobResult) -> Iterator[str]:
    against = worked.ledger.having(State.AGAINST)
    wires = [account.name for account in against if not _is_never(account)]
    if wires:
        further = "further " if len(wires) < len(against) else ""
        if len(wires) == 1:
            yield f"One {further}wire is against ({wires[0]}). Leave its fuse out; battery off where none is before it."
        else:
            yield f"{len(wires)} {further}wires are against."
            yield "Leave their fuses out; battery off where none is before them."
    for reason in worked.ledger.car:
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
            yield "Nothing written speaks against this car; too little is written to show it."
        rest = "any of its wires" if waiting == many else f"{waiting} of {many} wires"
        yield (
            f"What is written does not show {rest}. Leave their fuses out, and the battery off where such a wire lies "
            "before the first fuse."
        )
    asked = [fact_words([fact]) for fact in ledger.facts if not fact.wires]
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


def _wait(number: int) -> str:
    return f"{count(number, 'wire')} {'waits' if number == 1 else 'wait'} for it"
