"""Ground points: rings on a stud, and which pole is on the body."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.diagnostics import Finding, Severity
from aswired.route import Route
from aswired.worked import Worked


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    if facts.job.ground_side == "positive":
        yield Finding(
            "HDR01",
            Severity.ERROR,
            facts.job.line_of("ground side"),
            "",
            "positive ground: feeds and returns are told the other way round here",
            "Read no figure of this job; only the wires, splices and lengths hold",
        )
    for ground in facts.grounds:
        # the donor's wires may sit two in a ring, so all of them count as one ring
        rings = sum(1 for ring in ground.rings if ring.row) + any(not ring.row for ring in ground.rings)
        if rings > ground.ring_limit:
            last = [ring.row for ring in ground.rings if ring.row][-1]
            yield Finding(
                "GND02",
                Severity.ERROR,
                facts.job.line_of_row(last),
                ground.name,
                f"'{ground.name}' carries {rings} rings; the limit is {ground.ring_limit} (AC 43.13-1B para 11-174)",
                "Put a second stud or a bus beside it, or two wires into one ring",
            )
