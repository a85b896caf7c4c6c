"""Steps, readings and other days that cannot be so: what `car.asbuilt.believed` set aside, told where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Location, Rule, Severity
from aswired.text.one_line import Done, Doubt

RDG10 = Rule("RDG10", Severity.WARNING)
ROW08 = Rule("ROW08", Severity.ERROR)
ROW12 = Rule("ROW12", Severity.WARNING)
ROW14 = Rule("ROW14", Severity.WARNING)

_CLOCK = "Check the date, or the clock of this machine"
_YEAR = "Check the year; if the day is not known, write yes"
_EITHER = {Doubt.TO_COME: _CLOCK, Doubt.BEFORE_1900: "Check the year"}


def judge(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    for row in job.changes:
        if row is job.change(row.id):  # a second row with the same id is left out
            yield from _row(row)
    for reading in job.readings:
        if reading.on is not None and reading.on.doubt is not None:
            problem = f"{reading.id} was read {_told(reading.on)}; it proves nothing and counts in no figure"
            mend = _EITHER[reading.on.doubt]
            yield RDG10(reading.line_of("on"), reading.id, problem, mend)
    for step, at, entry, told, so in _others(job):
        if step is not None and step.doubt is not None:
            yield _cannot_be(at, entry, f"{told} {_told(step)}; {so}", _EITHER[step.doubt])


def _row(row: Change) -> Iterator[Finding]:
    if (made := row.set_aside.get("made")) is not None:
        problem = f"made {_told(made)}; the row does not count yet"
        yield ROW12(row.line_of("made"), row.id, problem, _CLOCK)
    if row.made is not None and row.made.doubt is not None:
        problem = f"made {_told(row.made)}; the row counts, its day is not known"
        yield _cannot_be(row.line_of("made"), row.id, problem, _YEAR)
    for word in ("sealed", "tested"):
        step = row.set_aside.get(word)
        if step is None or step.doubt is None:
            continue
        at = row.line_of(word)
        if step.doubt is Doubt.NOT_MADE:
            if "made" not in row.set_aside:  # else the date of the work is the one to mend
                mend = f"Write made: and the date, or take '{word}:' out"
                yield ROW08(at, row.id, f"the row is {word} but not made", mend)
        elif step.doubt is Doubt.BEFORE_MADE:
            made_on = row.made.date.isoformat() if row.made is not None and row.made.date is not None else ""
            problem = f"{word} {step.day_as_written} lies before made {made_on}"
            yield ROW08(at, row.id, problem, "Check the two dates")
        else:
            yield _cannot_be(at, row.id, f"{word} {_told(step)}; the row does not count as {word}", _EITHER[step.doubt])


def _others(job: Job) -> Iterator[tuple[Done | None, Location, str, str, str]]:
    """Every other day of a job: the step, where it stands, the entry, what it says, what follows."""
    at = job.line_of
    yield job.set_aside.get("handed over"), at("handed over"), "", "handed over", "the car counts as not handed over"
    for name, given_out in job.revisions.items():
        yield given_out, at("revisions"), "", f"revision {name} was given out", "the car of that day is not shown"
    for off in job.battery_off:
        yield off, at("battery off"), "", "battery taken off", "the day does not count"
    for name, point in job.grounds.items():
        yield point.painted, point.line_of("painted"), name, f"'{name}' was painted", "the day does not count"
    for visit in job.service:
        yield visit.on, visit.line_of("on"), visit.id, f"visit {visit.id} was", "its day is not known"


def _cannot_be(at: Location, entry: str, problem: str, mend: str) -> Finding:
    return ROW14(at, entry, problem, mend)


def _told(step: Done) -> str:
    return f"{step.day_as_written}, {step.doubt}"
