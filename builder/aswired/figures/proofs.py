"""Which row is proved by which verify row, and which of what is written under `proves:` shows nothing.

A check proves a row when it was made, is in force, and showed something. All that asks whether a row was tried, the
open work, the checks of the order of the work, of systems and grounds, asks here.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from enum import StrEnum

from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.physics.circles import circles
from aswired.record import Change, Job, MeterReading
from aswired.text.units import is_unknown


class Void(StrEnum):
    """Why a verify row does not prove a row that it names."""

    ITSELF = "a check that proves itself"
    EACH_OTHER = "checks that prove each other"
    NOTHING_READ = "nothing was measured or read"
    TOO_EARLY = "checked before it was made"


def void_proofs(job: Job, showing: Collection[MeterReading]) -> Mapping[tuple[str, str], Void]:
    """(verify row, row it names) -> why the one does not prove the other; pairs that may be so are left out.

    `showing`: the job's readings that prove something.
    """
    checks = {row.id: row for row in job.changes if kind_of(row).proves and row is job.change(row.id)}
    measured = {reading.of for reading in job.readings}
    showed = {reading.of for reading in showing}
    leads = {check.id: [name for name in check.proves if name in checks] for check in checks.values()}
    circle_of = {id: number for number, circle in enumerate(circles(leads)) for id in circle}
    found: dict[tuple[str, str], Void] = {}
    for check in checks.values():
        empty = check.made is not None and _nothing_read(check, check.id in measured, check.id in showed)
        for name in check.proves:
            if name == check.id:
                found[check.id, name] = Void.ITSELF
            elif name in circle_of and circle_of[name] == circle_of.get(check.id):
                found[check.id, name] = Void.EACH_OTHER
            elif empty:
                found[check.id, name] = Void.NOTHING_READ
            elif _too_early(check, job.change(name)):
                found[check.id, name] = Void.TOO_EARLY
    return found


def proofs_of(job: Job, view: View, void: Mapping[tuple[str, str], Void]) -> Mapping[str, tuple[Change, ...]]:
    """Row -> the checks that prove it in a view: made, in force, and not among those of `void_proofs`."""
    found: dict[str, list[Change]] = {}
    for check in job.changes:
        if check.made is not None and check.id in view.counted and check is job.change(check.id):
            for name in check.proves:
                if (check.id, name) not in void:
                    found.setdefault(name, []).append(check)
    return {name: tuple(checks) for name, checks in found.items()}


def _nothing_read(check: Change, measured: bool, showed: bool) -> bool:
    """Whether all that a check has to show is said to be unknown. One of which nothing more is written is taken at
    its date and initials."""
    if check.dead_without:
        return False
    if measured:
        return not showed
    written = [words for words in (check.test, check.expect) if words]
    return bool(written) and all(is_unknown(words) for words in written)


def _too_early(check: Change, row: Change | None) -> bool:
    """Whether a check was made on a day before the row that it names, or while that is still planned."""
    if check.made is None or row is None:
        return False
    if row.made is None:
        return True
    return check.made.date is not None and row.made.date is not None and check.made.date < row.made.date
