"""Options: interlocks that were bridged, conditions that cannot be read, what a car of another kind left behind."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.trace import Net
from aswired.checks.lists import listed
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding, Rule, Severity, did_you_mean

OPT01 = Rule("OPT01", Severity.ERROR)
OPT02 = Rule("OPT02", Severity.ERROR)
OPT04 = Rule("OPT04", Severity.ERROR)


def judge(facts: JobResult) -> Iterator[Finding]:
    yield from _bridged(facts)
    yield from _conditions(facts)
    yield from _left_behind(facts)


# ---- interlocks and conditions --------------------------------------------------------------------------------------
def _bridged(facts: JobResult) -> Iterator[Finding]:
    for row in facts.rows_of(facts.plan):
        if row.made is None or row.interlock != "park or neutral" or row.decided_by or row.instead:
            continue
        problem = "park or neutral is bridged, so the engine can start in gear, and the row names nothing in its place"
        mend = "Write instead: and what keeps people safe, such as a clutch switch; or decided by: and a name"
        yield OPT01(row.line_of("interlock"), row.id, problem, mend)


def _conditions(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    for table in (job.wires, job.loads):
        for name, part in table.items():
            if part.for_ is None or job.holds(part.for_) != "unreadable":
                continue
            option = job.options.get(part.for_.option)
            if option is None:
                problem = f"the option '{part.for_.option}' is not declared"
                example = f"Declare it: options: {{{part.for_.option}: {part.for_.value}}}"
                mend = did_you_mean(part.for_.option, job.options, example)
            else:
                problem = f"the option '{part.for_.option}' knows no value '{part.for_.value}'"
                mend = did_you_mean(part.for_.value, option.values, f"Add it: could be: [{part.for_.value}]")
            yield OPT04(part.line_of("for"), name, problem, mend)


def _left_behind(facts: JobResult) -> Iterator[Finding]:
    """What belongs to another kind of car and hangs on a feed with no row about it; one finding a condition."""
    job = facts.job
    nets = (facts.network.grid.net, Net(job, facts.plan))
    found: dict[str, list[tuple[str, Finding]]] = {}
    for table in (job.wires, job.loads):
        for name, part in table.items():
            if part.for_ is None or job.holds(part.for_) != "no":
                continue
            left = _wire_is_fed(facts, nets[0], name) if table is job.wires else _load_is_fed(facts, nets, name)
            if left:
                own = job.options[part.for_.option].is_
                problem = f"still fed; this car's {part.for_.option} is {own}"
                mend = "Take it out or cap it and write the row, or take 'for:' out where this car uses it"
                told = OPT02(part.line_of("for"), name, problem, mend)
                found.setdefault(part.for_.text, []).append((name, told))
    for condition, parts in found.items():
        names, first = [name for name, _ in parts], parts[0][1]
        verb = "is" if len(names) == 1 else "are"
        yield replace(first, problem=f"{listed(names)} {verb} for a car whose {condition}, and {verb} {first.problem}")


def _wire_is_fed(facts: JobResult, net: Net, wire: str) -> bool:
    states = [view.wires.get(wire) for view in (facts.shown, facts.plan)]
    untouched = all(state is not None and not state.rows for state in states)
    ends = [end for stretch in facts.shown.of_wire(wire) for end in stretch.ends]
    return untouched and any(net.reach(end).sources for end in ends)


def _load_is_fed(facts: JobResult, nets: tuple[Net, ...], load: str) -> bool:
    circuit = facts.circuits[load]
    fed = circuit.feed.state == "complete" and all(net.reach(circuit.feed_end).sources for net in nets)
    return facts.loads[load].verdict == "kept" and fed
