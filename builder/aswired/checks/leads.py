"""Readings whose leads were at points that the car of that day did not have."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.figures.leads import declared_points, points_of
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding, Rule, Severity, did_you_mean

RDG03 = Rule("RDG03", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    for reading, keys in facts.nowhere:
        points = (*declared_points(facts.job), *points_of(facts.shown))
        for key in keys:
            name = getattr(reading, key)
            day = f"of {reading.day} " if reading.day is not None else ""
            problem = f"the {key} lead was at '{name}', where the car {day}has no point; {reading.id} proves nothing"
            mend = did_you_mean(
                name, points, "Write the point as the record has it: a cavity, F7 or F7.feed, a ground point, battery-"
            )
            yield RDG03(reading.line_of(key), reading.id, problem, mend)
