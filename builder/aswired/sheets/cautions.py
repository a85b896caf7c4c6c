"""What anybody must know before touching the car: own cautions, what was declared of it, and bridged interlocks."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.car.changes import kind_of
from aswired.figures.worked import JobResult
from aswired.sheets.safety import FIRST, Caution, declared_wires, not_examined, refusals, standing, systems
from aswired.sheets.text import first_upper
from aswired.text.units import is_unknown

__all__ = ["Caution", "cautions", "standing"]


def cautions(worked: JobResult) -> tuple[Caution, ...]:
    """Refusals, the battery, the job's own words, then what was declared of this car, heaviest first."""
    declared = sorted(
        (*systems(worked), *declared_wires(worked), *_bridged(worked)), key=lambda caution: caution.rank != "stop"
    )
    own = (Caution("warning", "This car", "", (), worked.job.cautions),) if worked.job.cautions else ()
    return (*refusals(worked), FIRST, *own, *declared, *not_examined(worked))


def _bridged(worked: JobResult) -> Iterable[Caution]:
    """Interlocks that were bridged: the warning as written, who decided it, what keeps people safe in its place."""
    for change in worked.rows_of(worked.shown):
        if kind_of(change).bridges:
            said = (
                change.warning,
                _or_not(f"Decided by {change.decided_by}", change.decided_by, "Who decided it"),
                _or_not(f"In its place: {change.instead}", change.instead, "What stands in its place"),
                f"Why: {change.why}" if change.why else "",
                change.note,
            )
            text = " ".join(_sentence(words) for words in said if words)
            what = change.interlock if change.interlock not in ("", "other") else " with ".join(change.ends)
            yield Caution("warning", f"Interlock bridged: {what}", text, (change.id,))


def _or_not(said: str, written: str, what: str) -> str:
    return said if written and not is_unknown(written) else f"{what} is not recorded"


def _sentence(words: str) -> str:
    return first_upper(words.rstrip(".")) + "."
