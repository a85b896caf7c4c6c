"""Every wire on record as rows: what is against, let stand, or not shown and where to look, and what is proved.

The rows are those of the ledger of the shown view; the ledger of the plan tells what planned rows would bring.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from aswired.checks.ledger import brought_by_plan
from aswired.figures.worked import JobResult
from aswired.ledger.record import Account, Amperes, FuseLine, Ledger, Line, MayGoIn, Reason, State, Weight, worst
from aswired.ledger.words import MOST_NAMED, amperes, reason_words
from aswired.sheets.cut_ends import CutEnd, cut_ends
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.fuses import live_when, rating
from aswired.sheets.ledger_head import FactGroup, Head, fact_groups, head
from aswired.sheets.ledger_then import HandedOver, as_handed_over
from aswired.sheets.text import amount, count, is_unsaid, size_named
from aswired.text.colours import Colour
from aswired.text.units import natural
from aswired.text.unsaid import NOT_KNOWN

NOT_JUDGED = (
    "wires that nobody wrote down; terminals; holders of fuses; switches and contacts; diodes; whether a lamp lights; "
    "ways through heat that no leg records; a way home that touches ground before its own point"
)


DECIDES = {State.AGAINST: MayGoIn.NO, State.NOT_SHOWN: MayGoIn.OPEN, State.LET_STAND: MayGoIn.BY_NAME}


@dataclass(frozen=True)
class AgainstRow:
    """What stands against wires, ready to print: what is so, what would mend it, the wires. `by`, `why`: who lets it
    stand, and for what reason; '' where nobody does. No wires: it is of the car as a whole."""

    so: str
    mend: str
    wires: tuple[str, ...]
    by: str = ""
    why: str = ""


@dataclass(frozen=True)
class MissingRow:
    """Facts of one kind that are not written: the things to look at, what to do there, the wires that wait for it, and
    how many of them it would settle."""

    what: str
    at: tuple[str, ...]
    do: str
    wires: tuple[str, ...]
    settles: str


@dataclass(frozen=True)
class LineRow:
    """One length of a wire, or the cable of a ground point, ready to print.

    `planned` is what it may carry by the planning table, `push` what its fuses let through, `home` what its loads send
    through it, `shorted` what comes if one of them fails shorted. `live`: `live`, `way home`, `no feed on record`.
    `reasons` say why it is not proved.
    """

    name: str
    colour: Colour | None
    size: str
    planned: str
    push: str
    home: str
    shorted: str
    live: str
    state: State
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class FedRow:
    """A fuse with the wires it feeds, or another group of wires, ready to print; it opens to its lines.

    `all_told` is how many are proved, '' where all are; `thinnest` the length that may carry least, with its
    amperes.
    """

    name: str
    rating: str
    live: str  # the position of the key
    wires: str
    thinnest: str
    state: State
    all_told: str
    may: str
    held_by: tuple[str, ...]  # what keeps it from going in though it hangs not on it: ways home, what is before it
    lines: tuple[LineRow, ...]


@dataclass(frozen=True)
class WireSheet:
    """The sheet of wires."""

    head: Head
    against: tuple[AgainstRow, ...]
    let_stand: tuple[AgainstRow, ...]
    missing: tuple[MissingRow, ...]
    fuses: tuple[FedRow, ...]
    unfused: tuple[LineRow, ...]
    grounds: tuple[LineRow, ...]
    others: FedRow | None
    planned: tuple[AgainstRow, ...]
    handed_over: HandedOver | None
    cut_ends: tuple[CutEnd, ...]
    not_judged: str = NOT_JUDGED


def wire_sheet(worked: JobResult) -> WireSheet:
    """The sheet of wires of a job."""
    ledger = worked.ledger
    bare = [account for account in ledger.accounts.values() if not account.ground and is_unfused(account)]
    return WireSheet(
        head=head(worked),
        against=_against(worked, ledger, [r for r in ledger.reasons if r.state is State.AGAINST]),
        let_stand=_against(worked, ledger, [r for r in ledger.reasons if r.state is State.LET_STAND]),
        missing=tuple(_missing(group, worked) for group in fact_groups(ledger)),
        fuses=tuple(_fuses(worked)),
        unfused=tuple(line_row(line, worked) for account in bare for line in account.lines),
        grounds=tuple(
            line_row(line, worked) for account in ledger.accounts.values() if account.ground for line in account.lines
        ),
        others=_others(worked, {account.name for account in bare}),
        planned=planned_against(worked),
        handed_over=as_handed_over(worked),
        cut_ends=cut_ends(worked),
    )


def planned_against(worked: JobResult) -> tuple[AgainstRow, ...]:
    """What planned rows would bring against the car, beyond what stands against it now."""
    return _against(worked, worked.planned_ledger, brought_by_plan(worked))


def is_unfused(account: Account) -> bool:
    """Whether nothing stands between some of a wire and its source."""
    return any(math.isinf(line.push.least) for line in account.lines)


# ---- what is against, what is missing -------------------------------------------------------------------------------
def _against(worked: JobResult, ledger: Ledger, reasons: Sequence[Reason]) -> tuple[AgainstRow, ...]:
    """Reasons that say the same under one row, what nobody may let stand first."""
    rows: dict[tuple[str, str, str, str], dict[str, None]] = {}
    for reason in sorted(reasons, key=lambda reason: reason.weight):
        key = (*reason_words(reason, worked.job), reason.let_stand_by, reason.let_stand_why)
        wires = [account.name for account in ledger.accounts.values() if reason in account.reasons]
        rows.setdefault(key, {}).update(dict.fromkeys(wires))
    return tuple(AgainstRow(so, mend, tuple(wires), by, why) for (so, mend, by, why), wires in rows.items())


def _missing(group: FactGroup, worked: JobResult) -> MissingRow:
    asked = {(fact.why, fact.of, fact.key) for fact in group.facts}
    reasons = (r for r in worked.ledger.reasons if r.weight is Weight.MISSING and (r.why, r.of, r.key) in asked)
    do = tuple(dict.fromkeys(reason_words(reason, worked.job)[1] for reason in reasons))
    at = tuple(sorted({fact.of for fact in group.facts}, key=natural))
    settles = count(len(group.frees), "wire") if group.frees else "none by itself" if group.wires else ""
    further = (step[:1].lower() + step[1:] for step in do[1:])
    return MissingRow(group.words, at, "; ".join((*do[:1], *further)), group.wires, settles)


# ---- lines ----------------------------------------------------------------------------------------------------------
def line_row(line: Line, worked: JobResult) -> LineRow:
    """A line of the ledger, ready to print."""
    stretch = worked.shown.stretches[line.index] if line.index is not None else None
    ground = worked.job.grounds.get(line.wire) if stretch is None else None
    return LineRow(
        name=line.name,
        colour=stretch.colour if stretch is not None else None,
        size=size_named(stretch.size if stretch is not None else ground.cable if ground is not None else None),
        planned=amperes(line.planned) if line.planned is not None else NOT_KNOWN,
        push=_push(line, worked.job.units),
        home=_taken(line.asked),
        shorted=_taken(line.shorted),
        live=_live_or_home(line),
        state=line.state,
        reasons=tuple(dict.fromkeys(_reason(reason, worked) for reason in line.reasons)),
    )


def _push(line: Line, units: str) -> str:
    """`15 A by F10`; of a line with no fuse before it how far its far end lies from the source."""
    if math.isinf(line.push.least):
        far = amount(line.unfused_mm, "mm", units) if line.unfused_mm is not None else "a length that is not recorded"
        return f"no fuse before it, {far} from its source"
    told = _taken(line.push)
    named = line.push.by and line.push.most > 0 and not is_unsaid(told)
    return f"{told} by {', '.join(line.push.by)}" if named else told


def _taken(amps: Amperes) -> str:
    """`5.2 A`, `5.2 A to 7 A`, `at least 5.2 A`; 'none' where nothing comes, 'not known' where that is not recorded."""
    if amps.least == amps.most:
        return amperes(amps.least) if amps.most > 0 else "none"
    if math.isinf(amps.most):
        return f"at least {amperes(amps.least)}" if amps.least > 0 else NOT_KNOWN
    return f"{amperes(amps.least)} to {amperes(amps.most)}"


def _reason(reason: Reason, worked: JobResult) -> str:
    so = reason_words(reason, worked.job)[0]
    return f"{so}: let stand by {reason.let_stand_by}, {reason.let_stand_why}" if reason.let_stand_by else so


# ---- by fuse --------------------------------------------------------------------------------------------------------
def _fuses(worked: JobResult) -> Iterator[FedRow]:
    for fuse in sorted(worked.ledger.fuses.values(), key=lambda fuse: natural(fuse.name)):
        state = worked.shown.fuses.get(fuse.name)
        accounts = [worked.ledger.accounts[name] for name in fuse.feeds if name in worked.ledger.accounts]
        if accounts:
            given = rating(state.facts if state is not None else None)
            of_fuse = _fed(fuse.name, accounts, worked)
            yield replace(
                of_fuse,
                rating=given,
                live=live_when(fuse.name, worked),
                may=fuse.may.value,
                held_by=_held(fuse, worked),
            )


def _held(fuse: FuseLine, worked: JobResult) -> tuple[str, ...]:
    """Ways home and wires before a fuse that are in the state which decides whether it may go in."""
    accounts = worked.ledger.accounts
    beside = [accounts[name] for name in (*fuse.returns, *fuse.before) if name in accounts and name not in fuse.feeds]
    found = tuple(account.name for account in beside if DECIDES.get(account.state) is fuse.may)
    return found[:MOST_NAMED] if len(found) <= MOST_NAMED else (*found[:MOST_NAMED], f"{len(found) - MOST_NAMED} more")


def _others(worked: JobResult, bare: set[str]) -> FedRow | None:
    """The wires that hang on no fuse: ways home, what outputs of modules feed, what nothing feeds."""
    fed = {wire for fuse in worked.ledger.fuses.values() for wire in fuse.feeds}
    accounts = [a for a in worked.ledger.accounts.values() if not a.ground and a.name not in fed | bare]
    return _fed("ways home and others", accounts, worked) if accounts else None


def _fed(name: str, accounts: Sequence[Account], worked: JobResult) -> FedRow:
    lines = [line for account in accounts for line in account.lines]
    known = [line for line in lines if line.planned is not None]
    thinnest = min(known, key=lambda line: line.planned or 0.0, default=None)
    row = line_row(thinnest, worked) if thinnest is not None else None
    proved = sum(account.state is State.PROVED for account in accounts)
    return FedRow(
        name=name,
        rating="",
        live="",
        wires=count(len(accounts), "wire"),
        thinnest=f"{row.size}, may carry {row.planned}" if row is not None else NOT_KNOWN,
        state=worst(account.state for account in accounts),
        all_told="" if proved == len(accounts) else f"{proved} of {len(accounts)} proved",
        may="",
        held_by=(),
        lines=tuple(line_row(line, worked) for line in lines),
    )


def pages(frame: Frame) -> Iterable[PageOut]:
    """The sheet of wires."""
    yield frame.page("wires", "wires.html", wires=wire_sheet(frame.worked))


def _live_or_home(line: Line) -> str:
    """Whether a line is live; never that it is dead: what nobody wrote may feed it."""
    if line.live:
        return "live"
    return "way home" if line.asked.most or line.shorted.most else "no feed on record"
