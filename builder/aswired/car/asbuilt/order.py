"""Which rows count in a view, and in which order (F4, F5, F13, F14)."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import islice

from aswired.car.harness import RowResult
from aswired.physics.circles import circles
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Rule, Severity, did_you_mean

ROW05 = Rule("ROW05", Severity.ERROR)
ROW06 = Rule("ROW06", Severity.ERROR)
ROW07 = Rule("ROW07", Severity.ERROR)
ROW09 = Rule("ROW09", Severity.ERROR, Severity.NOTE)
ROW10 = Rule("ROW10", Severity.ERROR)
ROW13 = Rule("ROW13", Severity.WARNING)

MOST_NAMED = 8  # rows of a ring that are named in one line


@dataclass(frozen=True)
class RowOrder:
    """The rows to fold, in order, and what became of the others."""

    rows: tuple[Change, ...]
    results: Mapping[str, RowResult]
    findings: tuple[Finding, ...]
    redone: Mapping[str, str]  # row -> the row that redoes it
    counting: tuple[Change, ...]  # rows that count before any of them stands for another, in the order of the file


def order(job: Job, view: str, day: datetime.date | None) -> RowOrder:
    """Rows in force in one view. `day` is the date for now and handed over; donor and plan need none."""
    findings: list[Finding] = []
    rows = _unique(job, findings)
    results: dict[str, RowResult] = {}
    counting: list[Change] = []
    effective = effective_dates(rows)
    for row in rows:
        status, why = _status(job, row, view, day, effective, findings)
        results[row.id] = RowResult(row.id, status, why)
        if status == "in force":
            counting.append(row)
    in_force = tuple(counting)
    _dates_run_forward(rows, findings)
    by_id = {row.id: row for row in rows}
    wrong: dict[str, str] = {}  # row -> why what it would replace is not told, so that it cannot be done beside it
    rings = _rings(by_id, findings, wrong)
    apart = [row for row in counting if row.id not in rings]
    corrected = _superseded(apart, by_id, "corrects", findings, wrong)
    redone = _superseded([row for row in apart if row.id not in corrected], by_id, "redoes", findings, wrong)
    if view == "now":
        _corrected_on_paper_only([row for row in rows if row.id not in rings], by_id, findings)
    for row in counting:
        if row.id in wrong:
            results[row.id] = replace(results[row.id], status="refused", why=wrong[row.id])
    counting = [row for row in counting if row.id not in wrong]
    ordered = _in_their_place(rows, counting, corrected)
    for old, new in corrected.items():
        results[old] = replace(
            results[old], status="corrected", why=f"the record was wrong; {new} stands for it", by=new
        )
    kept = []
    for row in ordered:
        if row.id in redone:
            results[row.id] = replace(
                results[row.id], status="redone", why=f"done again as {redone[row.id]}", by=redone[row.id]
            )
        else:
            kept.append(row)
    return RowOrder(tuple(kept), results, tuple(findings), redone, in_force)


def _unique(job: Job, findings: list[Finding]) -> list[Change]:
    seen: dict[str, Change] = {}
    for row in job.changes:
        if row.id in seen:
            findings.append(
                ROW05(
                    row.line_of("id"),
                    row.id,
                    f"the id '{row.id}' is used twice; the first is in {seen[row.id].at}",
                    "Give this row the next free id; it is left out until then",
                )
            )
        else:
            seen[row.id] = row
    return list(seen.values())


def effective_dates(rows: list[Change]) -> dict[str, datetime.date | None]:
    """The day from which each made row counts; `made: yes` takes the nearest earlier dated row, else none (M6)."""
    latest: datetime.date | None = None
    found: dict[str, datetime.date | None] = {}
    for row in rows:
        if row.made is not None and row.made.date is not None:
            latest = row.made.date
        found[row.id] = row.made.date if row.made is not None and row.made.date is not None else latest
    return found


def _status(
    job: Job,
    row: Change,
    view: str,
    day: datetime.date | None,
    effective: Mapping[str, datetime.date | None],
    findings: list[Finding],
) -> tuple[str, str]:
    asked = _condition(job, row, findings)
    if asked == "no":
        if row.made is not None:
            _error(
                findings,
                ROW06,
                row,
                "only if",
                f"the row is made, but not for this car ({row.only_if.text if row.only_if else ''})",
                "Check the option, or take 'made:' out",
            )
        return "not for this car", f"only if {row.only_if.text}" if row.only_if else ""
    if asked == "undecided":
        return "undecided", f"only if {row.only_if.text}, and the option is not known" if row.only_if else ""
    if asked == "unreadable":
        return "refused", "its condition names an option or value that is not declared"
    if view == "donor":
        return "not yet", "donor"
    if view == "plan":
        return "in force", ""
    if row.made is None:
        return "not yet", "planned"
    since = effective[row.id]
    if since is not None and day is not None and since > day:
        return "not yet", f"made {since.isoformat()}"
    return "in force", "date not noted" if row.made.date is None else ""


def _condition(job: Job, row: Change, findings: list[Finding]) -> str:
    asked = row.only_if
    if asked is None:
        return "yes"
    option = job.options.get(asked.option)
    if option is None:
        mend = did_you_mean(asked.option, job.options, f"Declare it: options: {{{asked.option}: {asked.value}}}")
        _error(findings, ROW07, row, "only if", f"the option '{asked.option}' is not declared", mend)
        return "unreadable"
    held = job.holds(asked)
    if held == "unreadable":
        mend = did_you_mean(asked.value, option.values, f"Add it: could be: [{asked.value}]")
        _error(findings, ROW07, row, "only if", f"the option '{asked.option}' knows no value '{asked.value}'", mend)
    return held


def _dates_run_forward(rows: list[Change], findings: list[Finding]) -> None:
    """F4: `made` running backwards on one wire is an error, elsewhere a note."""
    last: Change | None = None
    on_wire: dict[str, Change] = {}
    for row in rows:
        if row.made is None or row.made.date is None:
            continue
        told = False
        for wire in row.wire_names:
            earlier = on_wire.get(wire)
            if (
                earlier is not None
                and earlier.made
                and earlier.made.date
                and earlier.made.date > row.made.date
                and not row.corrects
            ):
                _error(
                    findings,
                    ROW09,
                    row,
                    "made",
                    f"made {row.made.date.isoformat()} on {wire}, but {earlier.id} above it was made "
                    f"{earlier.made.date.isoformat()}",
                    "Put the rows in the order of the work, or check the date",
                )
                told = True
            on_wire[wire] = row
        if (
            last is not None
            and last.made
            and last.made.date
            and last.made.date > row.made.date
            and not told
            and not row.corrects
        ):
            findings.append(
                ROW09(
                    row.line_of("made"),
                    row.id,
                    f"made {row.made.date.isoformat()}, but {last.id} above it was made {last.made.date.isoformat()}",
                    "None needed if the order is right",
                    rank=Severity.NOTE,
                )
            )
        last = row


def _superseded(
    counting: list[Change], by_id: Mapping[str, Change], key: str, findings: list[Finding], wrong: dict[str, str]
) -> dict[str, str]:
    """Old row -> the counting row that corrects or redoes it. Wrong pointers are findings, and told in `wrong`."""
    found: dict[str, str] = {}
    word = "corrected" if key == "corrects" else "redone"
    pointing = [row for row in counting if getattr(row, key)]
    if not pointing:
        return found
    place = {id: number for number, id in enumerate(by_id)}
    for row in pointing:
        old = getattr(row, key)
        if old not in by_id:
            wrong[row.id] = f"'{old}' is not a row of this job"
            _error(findings, ROW10, row, key, wrong[row.id], did_you_mean(old, by_id, "Name the row it stands for"))
        elif old in found:
            wrong[row.id] = f"'{old}' is {word} by {found[old]} already"
            _error(findings, ROW10, row, key, wrong[row.id], f"Let this row point to {found[old]}")
        elif key == "redoes" and place[old] > place[row.id]:
            wrong[row.id] = f"'{old}' stands below this row, so it was not there to be done again"
            _error(findings, ROW10, row, key, wrong[row.id], f"Put this row behind {old}")
        else:
            found[old] = row.id
    return found


def _corrected_on_paper_only(rows: list[Change], by_id: Mapping[str, Change], findings: list[Finding]) -> None:
    """A correcting row that is only planned corrects nothing yet: the row it stands for still counts."""
    for row in rows:
        old = by_id.get(row.corrects)
        if old is not None and old.made is not None and row.made is None:
            problem = f"the row corrects {old.id}, but has no 'made:'; {old.id} still counts"
            at = row.line_of("corrects")
            findings.append(ROW13(at, row.id, problem, f"Write made: as on {old.id}"))


def _rings(by_id: Mapping[str, Change], findings: list[Finding], wrong: dict[str, str]) -> frozenset[str]:
    """Rows that `corrects` and `redoes`, also in turn, lead back to: which of a ring is true of the car cannot be told.

    Every row of a ring is told, whether it counts in the view or not, so that none of them drops out in silence.
    """
    leads = {id: [old for old in (row.corrects, row.redoes) if old in by_id] for id, row in by_id.items()}
    told: set[str] = set()
    for ring in circles(leads):
        told.update(ring)
        for id in ring:
            row = by_id[id]
            key = "corrects" if row.corrects in ring else "redoes"
            problem, mend = f"the row {key} itself", "Name the row it stands for"
            if len(ring) > 1:
                others = [f"'{other}'" for other in islice((other for other in ring if other != id), MOST_NAMED)]
                named = ", ".join(others) + (" and more" if len(ring) - 1 > MOST_NAMED else "")
                problem = f"'{id}' and {named} point to each other"
                if len(ring) > 2:
                    problem = f"'{id}' leads back to itself by way of {named}"
                mend = "Let the later row point to the earlier one only"
            wrong[id] = problem
            _error(findings, ROW10, row, key, problem, mend)
    return frozenset(told)


def _in_their_place(rows: list[Change], counting: list[Change], corrected: Mapping[str, str]) -> list[Change]:
    """A correcting row stands in the place of the row it corrects (F13); chains follow to the last."""
    wanted = {row.id for row in counting}
    by_id = {row.id: row for row in rows}
    correctors = set(corrected.values())
    ordered: list[Change] = []
    for row in rows:
        if row.id in correctors:
            continue  # it stands further up
        at = row.id
        while at in corrected:
            at = corrected[at]
        if at in wanted:
            ordered.append(by_id[at])
    return ordered


def _error(findings: list[Finding], rule: Rule, row: Change, key: str, problem: str, mend: str) -> None:
    findings.append(rule(row.line_of(key), row.id, problem, mend, rank=Severity.ERROR))
