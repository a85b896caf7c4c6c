"""Places of parts that cannot be walked to, and wires that the route leaves a choice (P1, P2)."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.diagnostics import Finding, Location, Severity
from aswired.route import PlaceError, Route
from aswired.worked import Worked


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    job = facts.job
    for table in (job.plugs, job.grounds, job.splices, job.modules, job.switches):
        for name, part in table.items():
            yield from _walkable(route, name, part.place, part.line_of("at"))
    for name, fuse in job.fuses.items():
        yield from _walkable(route, name, fuse.in_, fuse.line_of("in"))
    for name, wire in job.wires.items():
        here, there = route.of_end(wire.from_), route.of_end(wire.to)
        if here is None or there is None or not here.landmark or not there.landmark:
            continue
        ways = route.paths(here.landmark, there.landmark)
        if len(ways) > 1 and route.path(here.landmark, there.landmark, facts.plan.wires[name].by) is None:
            forks = sorted({hop.end for way in ways for hop in way} - {here.landmark, there.landmark})
            yield Finding(
                "PLC04",
                Severity.WARNING,
                wire.line_of("by"),
                name,
                f"the route leads {name} from {here.landmark} to {there.landmark} in more than one way",
                f"Write by: and a landmark it passes, such as {forks[0]}" if forks else "Take one of the two legs out",
            )


def _walkable(route: Route, name: str, place: str, at: Location) -> Iterator[Finding]:
    if not place:
        return
    try:
        route.place(place)
    except PlaceError as error:
        problem = f"the place '{place}' of {name} cannot be found: {error.problem}"
        yield Finding("PLC02", Severity.ERROR, at, name, problem, error.mend)
