"""Where splices find room, as rows: for each leg a sentence, and where each splice lies and would lie."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.figures.stagger import Recut, Stagger
from aswired.figures.worked import JobResult
from aswired.sheets.text import amount, count
from aswired.text.units import show_both


@dataclass(frozen=True)
class ShiftRow:
    """A splice and where it would keep every limit."""

    joint: str
    state: str
    now: str
    to: str
    by: str  # how far that is from where it lies, '' when it stays


@dataclass(frozen=True)
class StaggerRow:
    """The splices of a leg, and places that keep the limits; `says` is the sentence above them."""

    name: str
    says: str
    shifts: tuple[ShiftRow, ...]
    recuts: tuple[str, ...]


def stagger_rows(worked: JobResult) -> tuple[StaggerRow, ...]:
    """Legs with planned splices or with splices that break a limit."""
    return tuple(_stagger(worked, item) for item in worked.bundles.staggers)


def _stagger(worked: JobResult, item: Stagger) -> StaggerRow:
    units, leg = worked.job.units, worked.job.route[item.leg]
    states = {placed.joint.id: worked.state_at(placed) for placed in worked.joints}
    held = show_both(item.apart_mm, units)
    fits = all(shift.to_mm is not None for shift in item.shifts)
    shifts = tuple(
        ShiftRow(
            joint=shift.joint,
            state=states.get(shift.joint, shift.state),
            now=f"{show_both(shift.at_mm, units)} from {leg.from_}",
            to="no room" if shift.to_mm is None else f"{show_both(shift.to_mm, units)} from {leg.from_}",
            by=_by(shift.at_mm, shift.to_mm, units),
        )
        for shift in item.shifts
    )
    if item.why:
        says = f"{item.why[:1].upper()}{item.why[1:]}: no splice belongs on it."
    elif all(shift.by == "stays" for shift in shifts):
        says = f"{count(len(shifts), 'planned splice').capitalize()}: the limits are kept as they lie."
        shifts = ()
    elif fits:
        says = f"There is room on this leg with {held} from one splice to the next."
    elif item.wants_mm is not None:
        has = amount(leg.length.mm if leg.length else None, "mm", units)
        says = (
            f"Too short for them: it is {has}, and {show_both(item.wants_mm, units)} would do with {held} from one to"
            " the next. Lead some of them onto another leg."
        )
    else:
        says = "No place on this leg keeps the limits, however long it were."
    return StaggerRow(
        name=f"{leg.from_} to {leg.to}",
        says=says,
        shifts=shifts,
        recuts=tuple(_recut(recut, units) for recut in item.recuts),
    )


def _by(at: float, to: float | None, units: str) -> str:
    if to is None:
        return ""
    return "stays" if abs(to - at) < 1 else f"moves {show_both(abs(to - at), units)}"


def _recut(recut: Recut, units: str) -> str:
    words = f"{recut.row} keeps the limits with pigtail: {show_both(recut.pigtail_mm, units)}"
    return words + (f", stagger: {show_both(recut.stagger_mm, units)}" if recut.stagger_mm is not None else "")
