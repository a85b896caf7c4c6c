"""What the ledger says of the car as it was handed over, beside what it says of the car as it is shown.

The ledger of that day is worked out when a page is made, never by `check`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.ledger.record import HEAVIEST, Account, Ledger, Reason, State
from aswired.ledger.words import reason_clause, reason_words
from aswired.sheets.ledger_head import named, wires_told
from aswired.sheets.text import date
from aswired.text.units import natural


@dataclass(frozen=True)
class ChangedRow:
    """Wires whose state is another one than on the day of the hand-over, ready to print: `then` and `now` are states,
    or that the wire is not in the car, the ground point not in use."""

    wires: tuple[str, ...]
    then: str
    now: str
    why: str


@dataclass(frozen=True)
class HandedOver:
    """The ledger of the day of the hand-over: its one line with a full stop, and what changed since."""

    line: str
    rows: tuple[ChangedRow, ...]


NOT_THERE = "not in the car"  # of a wire
NOT_IN_USE = "not in use"  # of a ground point, whose stud may be there all along


def as_handed_over(worked: JobResult) -> HandedOver | None:
    """What was shown on the day of the hand-over; None where the car was not handed over."""
    then = worked.handed_over_ledger
    if then is None or worked.handed_over is None:
        return None
    rows = tuple(_changed(then, worked))
    today = "in the plan" if worked.shown is worked.plan else "today"
    since = (
        f"{named(sorted((name for row in rows for name in row.wires), key=natural))} changed since"
        if rows
        else f"as {today}"
    )
    line = f"As handed over on {date(worked.handed_over.day)}: {wires_told(then)}; {since}."
    if State.LET_STAND in {account.state for ledger in (then, worked.ledger) for account in ledger.accounts.values()}:
        line += " What is let stand counts by what is written now."
    return HandedOver(line, rows)


def _changed(then: Ledger, worked: JobResult) -> Iterator[ChangedRow]:
    """Wires whose state changed, those with the same story in one row, what is heaviest now first."""
    found: dict[tuple[str, str, str], list[str]] = {}
    now = worked.ledger.accounts
    heaviest_first = sorted(now, key=lambda name: -HEAVIEST.index(now[name].state))
    for name in dict.fromkeys((*heaviest_first, *then.accounts)):
        before, after = then.accounts.get(name), now.get(name)
        if before is None or after is None or before.state is not after.state:
            story = (_state(before, after), _state(after, before), _why(before, after, worked))
            found.setdefault(story, []).append(name)
    for (was, is_, why), wires in found.items():
        yield ChangedRow(tuple(wires), was, is_, why)


def _state(account: Account | None, other: Account | None) -> str:
    """The state of an account, or that there is none; `other` is the one on the other day."""
    if account is not None:
        return account.state.value
    return NOT_IN_USE if other is not None and other.ground else NOT_THERE


def _why(before: Account | None, after: Account | None, worked: JobResult) -> str:
    """What made its state: what is so now, or what was so then and is not so now."""
    if after is None:
        return "No longer in use" if before is not None and before.ground else "Taken out since"
    if after.state is not State.PROVED:
        return reason_words(_heaviest(after), worked.job)[0]
    if before is not None:
        return f"No longer so: {reason_clause(_heaviest(before), worked.job)}"
    return "In use since" if after.ground else "Put in since"


def _heaviest(account: Account) -> Reason:
    """The first of the reasons that make its state."""
    return next(reason for reason in account.reasons if reason.state is account.state)
