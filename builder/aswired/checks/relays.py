"""Relays in the state that works them: contacts that never come to rest, coils with too few volts to pull in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from aswired.car.circuits import Circuit
from aswired.figures.worked import JobResult
from aswired.network.behaviour import Behaviour
from aswired.network.states import follows, needs_of, state
from aswired.record.limits import value_text
from aswired.text.diagnostics import Finding, Rule, Severity

REL01 = Rule("REL01", Severity.ERROR, Severity.WARNING)
REL02 = Rule("REL02", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    coils = {name: switch.worked_by for name, switch in job.switches.items() if switch.worked_by in job.kept_loads}
    if job.ground_side == "positive" or job.supply is None or job.supply.value is None:
        return
    circuits = {name: facts.circuits[name] for name in job.kept_loads}
    leads_to = {contact: _contacts_on(circuits[coil], coils) for contact, coil in coils.items()}
    if all(not _in_a_ring(contact, leads_to) and _surely_pulls_in(facts, coil) for contact, coil in coils.items()):
        return
    grid = facts.network.grid
    coils = {contact: coil for contact, coil in grid.contacts.items() if follows(coil, grid, circuits)}
    leads_to = {contact: _contacts_on(circuits[coil], coils) for contact, coil in coils.items()}
    behaviour = Behaviour(grid, circuits)
    restless: set[str] = set()
    for contact in coils:
        if not _in_a_ring(contact, leads_to):
            continue
        if any(other in restless and contact in _behind(other, leads_to) for other in _behind(contact, leads_to)):
            restless.add(contact)  # of one ring one is told
            continue
        for load in _switched(contact, coils[contact], circuits):
            needs = needs_of(load, grid, circuits)
            if needs is not None and contact in behaviour.operate(state(needs, grid)).restless:
                restless.add(contact)
                hangs_on = (load, *(coils[other] for other in _behind(contact, leads_to)))
                known = all(facts.circuit_figures[name].alone.whole.known for name in hangs_on)
                yield _never_at_rest(facts, contact, load, known)
                break
    yield from _too_weak(facts, coils, leads_to, behaviour, restless)


def _surely_pulls_in(facts: JobResult, coil: str) -> bool:
    """Whether a coil has its volts even with every load on at its stated current, which is more than any state takes.

    A starter is left out of those loads, so with one in the car nothing is sure.
    """
    job = facts.job
    supply, drop = job.supply, facts.circuit_figures[coil].together.whole.value
    if supply is None or supply.value is None or drop is None:
        return False
    nominal = job.system.value if job.system is not None and job.system.value is not None else supply.value
    starter = any(job.loads[name].class_ == "starter" for name in job.kept_loads)
    return not starter and supply.value - drop >= job.limits_in_force["relay pulls in"].value / 100 * nominal


def _contacts_on(circuit: Circuit, coils: Mapping[str, str]) -> tuple[str, ...]:
    """The relay contacts that a coil's own current passes."""
    steps = (*circuit.feed.steps, *circuit.back.steps)
    return tuple(step.name for step in steps if step.kind == "switch" and step.name in coils)


def _behind(contact: str, leads_to: Mapping[str, tuple[str, ...]]) -> set[str]:
    """The contacts that a contact's coil hangs on, straight or by other relays."""
    seen: set[str] = set()
    todo = list(leads_to[contact])
    while todo:
        at = todo.pop()
        if at not in seen:
            seen.add(at)
            todo += leads_to[at]
    return seen


def _in_a_ring(contact: str, leads_to: Mapping[str, tuple[str, ...]]) -> bool:
    return contact in _behind(contact, leads_to)


def _switched(contact: str, coil: str, circuits: Mapping[str, Circuit]) -> Iterator[str]:
    """The coil, then the loads whose current passes the contact."""
    yield coil
    for name, circuit in circuits.items():
        steps = (*circuit.feed.steps, *circuit.back.steps)
        if name != coil and any(step.kind == "switch" and step.name == contact for step in steps):
            yield name


def _never_at_rest(facts: JobResult, contact: str, load: str, known: bool) -> Finding:
    switch = facts.job.switches[contact]
    return REL01(
        switch.at,
        contact,
        f"'{contact}' never comes to rest when '{load}' is switched on: its coil '{switch.worked_by}' hangs on the "
        "contact itself",
        "Feed the coil from before the contact, or write 'at rest:' as the contact is",
        rank=Severity.ERROR if known else Severity.WARNING,
    )


def _too_weak(
    facts: JobResult,
    coils: Mapping[str, str],
    leads_to: Mapping[str, tuple[str, ...]],
    behaviour: Behaviour,
    restless: set[str],
) -> Iterator[Finding]:
    """Coils that do not pull in when all they need is switched on; not those that hang on another such coil."""
    grid, limit = behaviour.grid, facts.job.limits_in_force["relay pulls in"]
    needed = limit.value / 100 * behaviour.nominal_v
    weak: set[str] = set()
    for contact, coil in sorted(coils.items(), key=lambda pair: len(leads_to[pair[0]])):
        if coil in weak or contact in restless or _in_a_ring(contact, leads_to):
            continue
        if any(coils[other] in weak or other in restless for other in leads_to[contact]):
            weak.add(coil)  # a consequence, which is not told again
            continue
        needs = needs_of(coil, grid, behaviour.circuits)
        live = behaviour.operate(state(needs, grid)) if needs is not None else None
        volts = live.load_volts.get(coil) if live is not None and live.settles else None
        if volts is not None and abs(volts) < needed:
            weak.add(coil)
            yield REL02(
                facts.job.switches[contact].at,
                contact,
                f"'{coil}' has {abs(volts):.1f} V when it is switched on; {needed:.1f} V ({value_text(limit)} of "
                f"{behaviour.nominal_v:g} V) pull '{contact}' over",
                "Find what takes its volts: a load in its way, a thin or long wire; feed the coil by a wire of its own",
            )
