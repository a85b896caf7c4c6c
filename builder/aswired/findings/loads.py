"""Kept loads: do they have feed and return; fuses against wires; drop against its limit."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.diagnostics import Finding, Location, Severity
from aswired.route import Route
from aswired.worked import Circuit, Worked


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    for name, load in facts.loads.items():
        circuit = facts.circuits[name]
        if load.verdict == "kept":
            yield from _kept(facts, circuit)
        elif circuit.feed.state == "complete":
            yield Finding(
                "LOD02",
                Severity.WARNING,
                load.at,
                name,
                f"'{name}' is deleted but is still fed by {_source(circuit)}",
                "Remove or cap its feed",
            )
    yield from _fuses(facts)
    yield from _drops(facts)


def _source(circuit: Circuit) -> str:
    return circuit.fuses[0] if circuit.fuses else next((step.name for step in circuit.feed.steps), "a feed")


def _kept(facts: Worked, circuit: Circuit) -> Iterator[Finding]:
    load = facts.loads[circuit.load]
    if circuit.feed.state == "open":
        yield Finding(
            "LOD01",
            Severity.STOP,
            load.at,
            circuit.load,
            f"'{circuit.load}' is kept and has no feed: {circuit.feed.why}",
            "Give it a feed, or write verdict: deleted",
        )
    if circuit.back.state == "open":
        grounds = [step.name for step in circuit.back.steps if step.kind == "ground"]
        code = "GND01" if grounds else "LOD01"
        yield Finding(
            code,
            Severity.STOP,
            load.at,
            circuit.load,
            f"'{circuit.load}' is kept and has no return: {circuit.back.why}",
            "Bring its return to a ground point with a way to the battery",
        )


def _fuses(facts: Worked) -> Iterator[Finding]:
    for fuse in facts.fuses:
        if fuse.ok is False and fuse.fuse is not None and fuse.fuse.rating is not None and fuse.thinnest is not None:
            yield Finding(
                "FUS01",
                Severity.ERROR,
                fuse.fuse.line_of("rating"),
                fuse.name,
                f"{fuse.name} is {fuse.fuse.rating.text}, but {fuse.thinnest.name} ({fuse.thinnest.size.text}) "
                f"is planned for {fuse.rating.value:g} A",
                f"Fit {fuse.rating.value:g} A, or a larger wire",
            )


def _drops(facts: Worked) -> Iterator[Finding]:
    for name, figures in facts.circuit_figures.items():
        if figures.ok is False and figures.together.whole.value is not None and figures.limit.value is not None:
            at: Location = facts.loads[name].at
            yield Finding(
                "DRP01",
                Severity.WARNING,
                at,
                name,
                f"'{name}' loses {figures.together.whole.value:.2f} V with every load on; "
                f"{figures.limit.value:.2f} V is allowed",
                "Shorten the way, take a larger wire, or give its ground a cable of its own",
            )
