"""Loads: feed and return, what must work, the fuel cut-off, what a part carried for others, drop against its limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_POSITIVE, View
from aswired.car.trace import Net
from aswired.checks.ends import as_intended
from aswired.figures.drops_allowed import share_of
from aswired.figures.worked import JobResult
from aswired.ledger.declared import SUPPLY_OF_SYSTEM, supply_fits
from aswired.record import Job, Load, Module
from aswired.text.diagnostics import Finding, Location, Rule, Severity, did_you_mean

DRP01 = Rule("DRP01", Severity.WARNING)
DRP02 = Rule("DRP02", Severity.WARNING)
DRP03 = Rule("DRP03", Severity.WARNING)
GND01 = Rule("GND01", Severity.STOP)
HDR02 = Rule("HDR02", Severity.WARNING)
LOD01 = Rule("LOD01", Severity.STOP)
LOD02 = Rule("LOD02", Severity.ERROR)
LOD03 = Rule("LOD03", Severity.STOP)
LOD04 = Rule("LOD04", Severity.STOP)
LOD05 = Rule("LOD05", Severity.ERROR)
LOD06 = Rule("LOD06", Severity.ERROR)
LOD07 = Rule("LOD07", Severity.ERROR)

EXCITE = "alternator excite"


def judge(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    wanted = must_work(job)
    net = facts.network.grid.net
    for name, load in facts.loads.items():
        circuit = facts.circuits[name]
        if load.verdict == "kept":
            yield from (finding for _, finding in orphaned(job, circuit, name in wanted))
            if name in job.loads_for_certain and fuel_cut_off(facts, net, name) == "none":
                yield LOD04(
                    load.at,
                    name,
                    f"nothing on the way to '{name}' is declared to cut the fuel when the engine stops or at a crash",
                    "Put an inertia or oil-pressure switch, or the engine unit's relay, in its feed; then write "
                    "cuts fuel: yes on it",
                )
            continue
        if name in wanted:
            problem = f"'{name}' must work before the car leaves, and is deleted"
            mend = "Give it back its feed and return and write verdict: kept; or take it off 'must work:'"
            yield LOD03(load.line_of("verdict"), name, problem, mend)
    yield from _no_load(job)
    yield from _roles(facts)
    yield from _supply(facts)
    yield from _drops(facts)


def must_work(job: Job) -> frozenset[str]:
    """Loads that a job, or its shop, wants to see working; the list is theirs and empty by default."""
    return frozenset((*job.must_work, *job.shop.must_work))


def orphaned(job: Job, circuit: Circuit, wanted: bool) -> Iterator[tuple[Literal["feed", "return"], Finding]]:
    """What a kept load of this car lacks, feed or return, and how it is told. `wanted`: it stands under `must work`."""
    load = job.loads[circuit.load]
    if circuit.load not in job.loads_for_certain:
        return
    must = "must work before the car leaves" if wanted else "is kept"
    if circuit.feed.state == "open":
        rule = LOD03 if wanted else LOD01
        problem = f"'{circuit.load}' {must} and has no feed: {circuit.feed.why}"
        mend = "Give it a feed" if wanted else "Give it a feed, or write verdict: deleted"
        yield "feed", rule(load.at, circuit.load, problem, mend)
    if circuit.back.state == "open":
        on_a_ground = any(step.kind == "ground" for step in circuit.back.steps)
        rule = LOD03 if wanted else GND01 if on_a_ground else LOD01
        problem = f"'{circuit.load}' {must} and has no return: {circuit.back.why}"
        mend = "Bring its return to a ground point with a way to the battery"
        yield "return", rule(load.at, circuit.load, problem, mend)


def _no_load(job: Job) -> Iterator[Finding]:
    """Names that the job itself writes. A shop's list holds for cars of every kind, so there it is only counted."""
    for name in job.must_work:
        if name not in job.loads:
            problem = f"'{name}' must work, but no load has that name"
            mend = did_you_mean(name, job.loads, f"List it: loads: {{{name}: {{between: plug.1 plug.2}}}}")
            yield LOD07(job.line_of("must work"), name, problem, mend)


# ---- fuel cut-off ---------------------------------------------------------------------------------------------------
def fuel_cut_off(facts: JobResult, net: Net, name: str) -> str:
    """Whether something opens the way to a fuel pump: there, none, not examined; '' for any other load.

    `none` is told from recorded facts alone: a way from a feed that is live by the record, past switches that are
    said not to cut the fuel, and a return on which nothing could.
    """
    load, circuit = facts.loads[name], facts.circuits[name]
    if load.class_ != "fuel pump" or load.verdict != "kept":
        return ""
    back = [net.job.switches[step.name].cuts_fuel for step in circuit.back.steps if step.kind == "switch"]
    if "yes" in back:
        return "there"
    if circuit.feed.state != "complete":
        return "not examined"
    if not _sources(net, circuit.feed_end, ("yes",)):
        return "there"
    live = {fuse.name for fuse in facts.fuses if fuse.fuse is not None and fuse.fuse.fed not in ("", "unknown")}
    bare = _sources(net, circuit.feed_end, ("yes", "unknown")) & (live | {BATTERY_POSITIVE})
    in_return = circuit.back.state == "not examined" or any(step.kind == "module" for step in circuit.back.steps)
    return "none" if bare and not in_return and "unknown" not in back else "not examined"


def _sources(net: Net, start: str, opened: tuple[str, ...]) -> frozenset[str]:
    """The sources reached from one end while every switch whose `cuts fuel` is one of `opened` stands open."""
    seen, todo = {start}, [start]
    for at in todo:
        if net.is_source(at) or net.is_ground(at):
            continue
        for link in net.links.get(at, ()):
            shut = link.kind == "switch" and net.job.switches[link.name].cuts_fuel in opened
            if link.other(at) not in seen and not shut:
                seen.add(link.other(at))
                todo.append(link.other(at))
    return frozenset(at for at in todo if net.is_source(at))


# ---- what others rely on --------------------------------------------------------------------------------------------
def _roles(facts: JobResult) -> Iterator[Finding]:
    """What a part that left the car did for others, and nothing is recorded to do now."""
    job, view = facts.job, as_intended(facts)
    parts: dict[str, Load | Module] = {**job.modules, **job.loads}
    there = {role for part in parts.values() if not _left(part) and _may_be_here(job, part) for role in part.carries}
    there |= _taken_over(job, view)
    for name, part in parts.items():
        for role in part.carries:
            if not _left(part) or role in there:
                continue
            what = "the alternator may not charge" if role == EXCITE else "what relies on it may not work"
            rule = LOD05 if role == EXCITE else LOD06
            problem = f"'{name}' carried the {role} and left the car, and nothing is recorded that does it now: {what}"
            mend = f"Write takes over: [{role}] on the row that does it, or carries: on the part that does"
            yield rule(part.line_of("gone" if isinstance(part, Module) else "verdict"), name, problem, mend)


def _left(part: Load | Module) -> bool:
    return part.gone if isinstance(part, Module) else part.verdict == "deleted"


def _may_be_here(job: Job, part: Load | Module) -> bool:
    """Whether a part may belong to this car: what is not known is no fault."""
    return isinstance(part, Module) or job.holds(part.for_) != "no"


def _taken_over(job: Job, view: View) -> set[str]:
    """Roles of rows that count, or that may count when an option is known."""
    rows = (job.change(result.id) for result in view.rows if result.counts or result.status == "undecided")
    return {role for row in rows if row is not None for role in row.takes_over}


# ---- supply ---------------------------------------------------------------------------------------------------------
def _supply(facts: JobResult) -> Iterator[Finding]:
    system, supply = facts.job.system, facts.job.supply
    if supply_fits(facts.job) or system is None or supply is None or system.value is None:
        return
    least, most = (part * system.value for part in SUPPLY_OF_SYSTEM)
    problem = f"supply {supply.text} does not belong to a system of {system.text}: {least:.1f} to {most:.1f} V does"
    mend = "Write the volts of the battery while the engine runs, or the system as it is"
    yield HDR02(facts.job.line_of("supply"), "", problem, mend)


# ---- drop -----------------------------------------------------------------------------------------------------------
def _drops(facts: JobResult) -> Iterator[Finding]:
    for name, figures in facts.circuit_figures.items():
        at: Location = facts.loads[name].at
        drop, limit, lamp = figures.together.whole.value, figures.limit.value, figures.lamp
        if figures.ok is False and drop is not None and limit is not None:
            yield DRP01(
                at,
                name,
                f"'{name}' loses {drop:.2f} V with every load on; {limit:.2f} V is allowed ({_rule(facts.job, name)})",
                "Shorten the way, take a larger wire, or give its ground a cable of its own",
            )
        yield from _worse(facts, name, at)
        if lamp is not None and lamp.ok is False and lamp.socket.value is not None and lamp.least.value is not None:
            share = facts.job.limits_in_force["lamp volts"].value
            yield DRP03(
                at,
                name,
                f"'{name}' has {lamp.socket.value:.2f} V at its socket with every load on; "
                f"{lamp.least.value:.2f} V is the least, {share:g} % of what it is made for",
                "Take a larger wire, bring the feed to it by a relay close by, or fit a lamp for this voltage",
            )


def _rule(job: Job, name: str) -> str:
    load = job.loads[name]
    if job.drops_held_to == "AC 43.13-1B":
        return f"AC 43.13-1B, {load.duty}"
    return f"{share_of(load)} of the supply"


def _worse(facts: JobResult, name: str, at: Location) -> Iterator[Finding]:
    """A load that loses more by itself than it did in the donor: the job made its way worse."""
    figures = facts.circuit_figures[name]
    limit = facts.job.limits_in_force["worse by"].value
    if figures.worse is None or figures.worse.value is None or figures.worse.value <= limit:
        return
    now, was = (term.value for term in figures.worse.inputs)
    what = f"the {figures.worse_of} of '{name}'" if figures.worse_of else f"'{name}'"
    problem = f"{what} loses {now:.2f} V by itself and lost {was:.2f} V in the donor; {limit:.2f} V more is let pass"
    mend = "Its page shows what costs most on the way; take a larger wire there, or a shorter way"
    yield DRP02(at, name, problem, mend)
