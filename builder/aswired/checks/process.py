"""The order of the work: wraps over open or untested joints, circuits without a test, the battery, readings."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.circuits import Circuit
from aswired.checks.lists import listed
from aswired.figures.proofs import Void
from aswired.figures.worked import JobResult
from aswired.record import Change, MeterReading
from aswired.text.diagnostics import Finding, Rule, Severity
from aswired.text.one_line import Done

PRO01 = Rule("PRO01", Severity.WARNING)
PRO02 = Rule("PRO02", Severity.WARNING)
PRO03 = Rule("PRO03", Severity.WARNING)
PRO04 = Rule("PRO04", Severity.NOTE)
RDG01 = Rule("RDG01", Severity.ERROR, Severity.NOTE)


def judge(facts: JobResult) -> Iterator[Finding]:
    rows = {row.id: row for row in facts.rows_of(facts.plan)}
    for wrap in rows.values():
        if kind_of(wrap).wraps and wrap.made is not None:
            yield from _wrapped_untested(facts, rows, wrap)
            yield from _wrapped_open(facts, rows, wrap)
    yield from _not_proved(facts, rows)
    yield from _battery(facts, rows)
    for index, reading in enumerate(facts.job.readings):
        yield from _reading(facts, index, reading)


def _with_joints(facts: JobResult) -> set[str]:
    return {placed.joint.row for placed in facts.joints}


def _first_test(facts: JobResult, row: Change) -> datetime.date | None:
    """The earliest day on which a row was proved, by its own date or by a verify row."""
    tests = (row.tested, *(check.made for check in facts.proofs.get(row.id, ())))
    return min((day for done in tests if (day := _day(done)) is not None), default=None)


def _wrapped_untested(facts: JobResult, rows: dict[str, Change], wrap: Change) -> Iterator[Finding]:
    joined = _with_joints(facts)
    closed = _day(wrap.made)
    late = []
    for id in wrap.over:
        tested = _first_test(facts, rows[id]) if id in rows and id in joined else None
        if closed is not None and tested is not None and closed < tested:
            late.append(f"{id} (tested {tested})")
    if late:
        problem = f"{wrap.id} was wrapped on {closed}, before the joints in it were tested: {listed(late)}"
        mend = "Test before the wrap; if it was opened again, say so on a row that redoes it"
        yield PRO01(wrap.line_of("over"), wrap.id, problem, mend)


def _wrapped_open(facts: JobResult, rows: dict[str, Change], wrap: Change) -> Iterator[Finding]:
    joined = _with_joints(facts)
    still = []
    for id in wrap.over:
        if id not in rows:
            continue
        row, what = rows[id], ""
        if row.made is None:
            what = "planned"
        elif _after(row, wrap):
            what = f"made {_day(row.made)}"
        elif id in joined and row.sealed is None and row.tested is None:
            what = "not sealed"
        if what:
            still.append(f"{id} ({what})")
    if still:
        problem = f"{wrap.id} wraps in what was still open: {listed(still)}"
        mend = "Finish and seal them first, or write the day on which they were sealed"
        yield PRO02(wrap.line_of("over"), wrap.id, problem, mend)


def _after(row: Change, wrap: Change) -> bool:
    """Whether a row was made on a later day than its wrap."""
    made, wrapped = _day(row.made), _day(wrap.made)
    return made is not None and wrapped is not None and made > wrapped


def _day(done: Done | None) -> datetime.date | None:
    return done.date if done is not None else None


def _not_proved(facts: JobResult, rows: dict[str, Change]) -> Iterator[Finding]:
    """One finding for the job: what was changed and has neither test nor reading."""
    job = facts.job
    made = [row for row in rows.values() if row.made is not None and kind_of(row).alters not in ("nothing", "way")]
    verified = [row for row in rows.values() if kind_of(row).proves and row.made is not None]
    if not made or (job.handed_over is None and not verified):
        return
    nothing_read = {check for (check, _), void in facts.void_proofs.items() if void is Void.NOTHING_READ}
    proved = {*facts.proofs, *(row.id for row in made if row.tested is not None)}
    proved |= {row.wire for row in verified if row.wire and row.id not in nothing_read}
    proved |= {reading.of for reading in job.readings if facts.shows(reading)}
    open_: list[str] = []
    seen: set[str] = set()
    for name, circuit in facts.circuits.items():
        on_it = _changed_by(facts, circuit, made)
        seen |= on_it
        wires = {stretch.wire for stretch in (*circuit.feed.stretches, *circuit.back.stretches)}
        if name in facts.job.kept_loads and on_it and not proved & (on_it | wires | {name}):
            open_.append(name)
    alone = [
        row.id
        for row in made
        if row.id not in seen | proved and kind_of(row).to_test and not proved & {*row.wire_names}
    ]
    if open_ or alone:
        circuits = f"{len(open_)} changed circuit{'s' if len(open_) > 1 else ''} ({listed(open_)})"
        others = f"{len(alone)} row{'s' if len(alone) > 1 else ''} on no traced circuit ({listed(alone)})"
        problem = "neither test nor reading of " + " and ".join([circuits] * bool(open_) + [others] * bool(alone))
        mend = "Try each, and write a verify row that proves it, a tested date, or a reading of it"
        yield PRO03(job.line_of("handed over"), "", problem, mend)


def _changed_by(facts: JobResult, circuit: Circuit, made: list[Change]) -> set[str]:
    """The made rows that worked on a wire of a circuit, feed or return, as it is now."""
    wires = {stretch.wire for stretch in (*circuit.feed.stretches, *circuit.back.stretches)}
    worked_on = {row for wire in wires for row in facts.shown.wires[wire].rows}
    return {row.id for row in made if row.id in worked_on}


def _battery(facts: JobResult, rows: dict[str, Change]) -> Iterator[Finding]:
    """Days of cutting without the battery off; told only by shops that keep such a list, or once handed over."""
    job = facts.job
    if not job.battery_off and job.handed_over is None:
        return
    off = {done.date for done in job.battery_off}
    joined = _with_joints(facts)
    cut = [row for row in rows.values() if row.made is not None and (kind_of(row).cuts or row.id in joined)]
    days = sorted({day for row in cut if (day := _day(row.made)) is not None} - off)
    if days:
        problem = f"wires were cut or spliced with no word of the battery on {listed([str(day) for day in days])}"
        mend = "Write those days under battery off:, or let it stand when the harness was on the bench"
        yield PRO04(job.line_of("battery off" if job.battery_off else "handed over"), "", problem, mend)


def _reading(facts: JobResult, index: int, reading: MeterReading) -> Iterator[Finding]:
    outside = _outside(reading, reading)
    if not outside or reading.read is None:
        return
    where = f" between {reading.red} and {reading.black}" if reading.red and reading.black else ""
    later = _mended_by(facts, index, reading)
    of = facts.plan.row(reading.of)
    undone = of.by if of is not None and of.status == "redone" else ""
    problem = f"{reading.id} read {reading.read.text}{where}; {outside}"
    if later or undone:
        problem += f"; {later} read there later is inside" if later else f"; {undone} was done since in its place"
        mend = "Nothing to do: it stays as what was found" if later else "Measure there again and write it down"
        yield RDG01(reading.line_of("read"), reading.id, problem, mend, rank=Severity.NOTE)
    else:
        yield RDG01(
            reading.line_of("read"),
            reading.id,
            problem,
            "Find out why, mend it, and write the new reading of the same two points",
            rank=Severity.ERROR,
        )


def _outside(reading: MeterReading, held_to: MeterReading) -> str:
    """How a reading misses the limits of one (its own, or those of an earlier one), in words; '' when it does not."""
    read, most, least = reading.read, held_to.most, held_to.least
    if read is not None and most is not None and read.keeps(most) is False:
        return f"it should stay below {most.text}"
    if read is not None and least is not None and read.reaches(least) is False:
        return f"it should reach {least.text}"
    return ""


def _mended_by(facts: JobResult, index: int, failed: MeterReading) -> str:
    """The id of a later reading of the same two points that keeps both its own limits and those of the failed one."""
    points = {failed.red, failed.black} - {"", "unknown"}
    if len(points) < 2 or failed.read is None:
        return ""
    for number, other in enumerate(facts.job.readings):
        same = {other.red, other.black} == points and other.shows
        if not same or other.read is None or other.read.unit != failed.read.unit:
            continue
        before, then = _day(failed.on), _day(other.on)
        later = number > index if before is None or then is None or before == then else then > before
        if later and not _outside(other, other) and not _outside(other, failed):
            return other.id
    return ""
