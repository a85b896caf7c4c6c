"""Volts lost on the way to a load and back: alone, with every load on that can be on together, and at worst.

The network is that of `electric.grid`, solved once for each side of each load (`electric.transfer`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from aswired.compute.drops import drop_limit
from aswired.electric.copper import total_mohm
from aswired.electric.grid import Branch, Grid
from aswired.electric.transfer import FEED, RETURN, Transfer
from aswired.figure import Figure, Input
from aswired.harness import View
from aswired.model import Job, Load
from aswired.worked import Circuit, CircuitFigures, Drops, Path, Step

CRITICAL = ("lamp", "indicator", "pump", "fuel pump", "electronics", "sensor", "ignition")  # 3 % (ABYC E-11)
ALONE, TOGETHER, WORST = "alone", "together", "worst"
STATES = {
    ALONE: "this load alone",
    TOGETHER: "every load on that can be on together",
    WORST: "what costs it most on, wires as hot as they get, contacts at their worst",
}


def transfer_of(
    job: Job, view: View, circuits: Mapping[str, Circuit], heat: Mapping[int | str, float] | None = None
) -> Transfer:
    """The kept loads of one view on the view's own network."""
    return Transfer(Grid(job, view, heat), {name: circuits[name] for name in job.kept})


def circuit_figures(job: Job, now: Transfer, donor: Transfer) -> dict[str, CircuitFigures]:
    """The figures of every kept load in one view, beside its drop alone in the donor."""
    found = {}
    together = now.together()
    for name, circuit in now.circuits.items():
        load, was = job.loads[name], donor.circuits[name]
        feed, back = (branches_of(path, now.grid) for path in (circuit.feed, circuit.back))
        limit = _limit(name, load, job)
        # a load that can never be on with all the others is judged with those it can be on with
        all_on = drops_of(now, name, TOGETHER, together if name in together else now.worst(name))
        ok = None if all_on.whole.value is None or limit.value is None else all_on.whole.value <= limit.value
        old = drops_of(donor, name, ALONE, {name: donor.stated[name]}) if _whole(was) else None
        found[name] = CircuitFigures(
            load=name,
            current=current_figure(name, load),
            feed_resistance=_resistance(
                f"{name}.feed.resistance", f"resistance of the feed of {name}", feed, circuit.feed
            ),
            return_resistance=_resistance(
                f"{name}.return.resistance", f"resistance of the return of {name}", back, circuit.back
            ),
            alone=drops_of(now, name, ALONE, {name: now.stated[name]}),
            together=all_on,
            worst=drops_of(now, name, WORST, now.worst(name)),
            limit=limit,
            ok=ok,
            donor=None if old is None or old.whole.value is None else _renamed(old),
        )
    return found


def _whole(circuit: Circuit) -> bool:
    return circuit.feed.state == circuit.back.state == "complete"


def current_figure(name: str, load: Load) -> Figure:
    """Amperes of a load, as stated or from its watts."""
    draws = load.draws
    if draws is None or draws.current_a is None:
        return Figure(f"{name}.current", f"current of {name}", None, "A", "as recorded", "I", (), ("draws",))
    if draws.power_w is not None:
        inputs = (
            Input("P", draws.power_w, "W", f"draws: {draws.text}"),
            Input("U", draws.at_v, "V", f"draws: {draws.text}"),
        )
        return Figure(
            f"{name}.current", f"current of {name}", draws.current_a, "A", "watts at a voltage", "I = P / U", inputs
        )
    stated = (Input("I", draws.current_a, "A", f"draws: {draws.text}"),)
    return Figure(f"{name}.current", f"current of {name}", draws.current_a, "A", "as recorded", "I", stated)


def total_current(job: Job, name: str, loads: tuple[str, ...]) -> Figure:
    """Current through a fuse or a ground point with every load behind it on. [A]"""
    inputs = []
    for load in loads:
        draws = job.loads[load].draws
        inputs.append(
            Input(load, draws.current_a if draws else None, "A", f"draws: {draws.text}" if draws else "not recorded")
        )
    missing = tuple(f"current of {term.name}" for term in inputs if term.value is None)
    if not loads:  # nothing traced is not nothing flowing
        missing = (f"a load of this list on {name}",)
    value = None if missing else sum(float(term.value) for term in inputs if term.value is not None)
    return Figure(
        f"{name}.total",
        f"current through {name}, every load on it on together",
        value,
        "A",
        "sum of the loads",
        "I = sum of I",
        tuple(inputs),
        missing,
    )


def drops_of(transfer: Transfer, name: str, state: str, amps: Mapping[str, float | None]) -> Drops:
    """Feed, return and whole drop of one load in one state, with these loads drawing. [V]"""
    feed = _side(transfer, name, FEED, state, amps)
    back = _side(transfer, name, RETURN, state, amps)
    whole = None if feed.value is None or back.value is None else feed.value + back.value
    inputs = (Input("feed drop", feed.value, "V", feed.key), Input("return drop", back.value, "V", back.key))
    total = Figure(
        f"{name}.drop.{state}",
        f"drop of {name}, feed and return, {STATES[state]}",
        whole,
        "V",
        "feed plus return",
        "U = Uf + Ur",
        inputs,
        tuple(dict.fromkeys((*feed.missing, *back.missing))),
    )
    return Drops(feed, back, total)


def _side(transfer: Transfer, name: str, side: str, state: str, amps: Mapping[str, float | None]) -> Figure:
    circuit = transfer.circuits[name]
    path = circuit.feed if side == FEED else circuit.back
    lost = transfer.lost(name, side, amps)
    volts = lost.volts
    if volts is not None and state == WORST:
        volts = transfer.banded(name, side, amps, WORST)
    inputs: list[Input] = []
    for branch in branches_of(path, transfer.grid) if path.state == "complete" else ():
        through = transfer.through(branch, amps)
        amount = "current not determined" if through.volts is None else f"{through.volts:.2f} A"
        for part in branch.parts:
            mohm = part.worst if state == WORST and part.mohm is not None else part.mohm
            inputs.append(Input(part.name, mohm, "mohm", f"{part.source}; carries {amount}"))
    return Figure(
        f"{name}.{side}.{state}",
        f"drop of the {side} of {name}, {STATES[state]}",
        volts,
        "V",
        "nodal solution of the resistive network",
        "U = sum of I x R along the path",
        tuple(inputs),
        lost.missing,
        f"on: {', '.join(amps)}" if state == WORST else "",
    )


def branches_of(path: Path, grid: Grid) -> tuple[Branch, ...]:
    """The branches of the network that a path runs through, in its order."""
    by_name = {branch.name: branch for branch in grid.branches if branch.kind == "stretch"}
    found = (_branch_of(step, grid.by_key, by_name) for step in path.steps)
    return tuple(branch for branch in found if branch is not None)


def _branch_of(step: Step, by_key: Mapping[str, Branch], by_name: Mapping[str, Branch]) -> Branch | None:
    if step.stretch is not None:
        return by_name.get(step.stretch.name)
    if step.kind in ("fuse", "switch", "cable"):
        return by_key.get(f"{step.kind} {step.name}")
    return None


def _resistance(key: str, what: str, branches: tuple[Branch, ...], path: Path) -> Figure:
    parts = tuple(part for branch in branches for part in branch.parts)
    inputs = tuple(part.as_input() for part in parts)
    missing = tuple(f"{part.name}: {part.source}" for part in parts if part.mohm is None)
    if path.state != "complete":
        missing = (*missing, f"{path.state}: {path.why}")
    elif path.steps[-1].kind == "ground":
        missing = (*missing, path.why)
    value = None if missing else total_mohm(parts)
    return Figure(key, what, value, "mohm", "in series, along the traced way", "R = sum of R", inputs, missing)


def _limit(name: str, load: Load, job: Job) -> Figure:
    need = "critical" if load.class_ in CRITICAL else "non-critical"
    supply = job.supply.value if job.supply else None
    found = drop_limit(supply, need)
    share = "3 %" if need == "critical" else "10 %"
    inputs = (Input("supply", supply, "V", "supply:"), Input("share", share, "", f"class {load.class_} ({need})"))
    if found is None:
        return Figure(
            f"{name}.limit",
            f"most drop allowed for {name}",
            None,
            "V",
            "share of the supply",
            f"U = {share} of supply",
            inputs,
            ("supply",),
        )
    return Figure(
        f"{name}.limit",
        f"most drop allowed for {name}",
        found.limit_v,
        "V",
        "share of the supply",
        f"U = {share} of supply",
        inputs,
        (),
        f"{found.source}; {found.note}",
    )


def _renamed(drops: Drops) -> Drops:
    """The donor's figures under keys of their own."""

    def donor(figure: Figure) -> Figure:
        return replace(figure, key=figure.key + ".donor", name=figure.name + ", in the donor")

    return Drops(donor(drops.feed), donor(drops.back), donor(drops.whole))
