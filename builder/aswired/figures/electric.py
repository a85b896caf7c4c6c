"""Volts lost on the way to a load and back: alone, with every load on that can be on together, and at worst.

The network is that of `network.grid`, solved once for each side of each load (`network.transfer`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from aswired.car.circuits import Circuit, CircuitFigures, Drops, Path
from aswired.car.harness import View
from aswired.figures.drops_allowed import judging, lamp_of, rules
from aswired.figures.drops_along import branches_of, elements
from aswired.network.grid import Grid
from aswired.network.transfer import FEED, RETURN, SOLVED, UnitSolutions, is_whole
from aswired.physics.figure import Figure, Input, Missing, current_of
from aswired.record import Job, Load

ALONE, SWITCHED, TOGETHER, WORST = "alone", "switched", "together", "worst"
STATES = {
    ALONE: "this load alone",
    SWITCHED: "as it is switched on, with what comes on with it",
    TOGETHER: "every load on that can be on together",
    WORST: "what costs it most on, wires as hot as they get, contacts at their worst",
}


def transfer_of(
    job: Job,
    view: View,
    circuits: Mapping[str, Circuit],
    heat: Mapping[int | str, float] | None = None,
    unplaced: Collection[int] = (),
) -> UnitSolutions:
    """The kept loads of one view on the view's own network."""
    return UnitSolutions(Grid(job, view, heat, unplaced), {name: circuits[name] for name in job.kept_loads})


def circuit_figures(job: Job, now: UnitSolutions, donor: UnitSolutions) -> dict[str, CircuitFigures]:
    """The figures of every kept load in one view, beside its drop alone in the donor."""
    found = {}
    every = now.together()
    for name in now.circuits:
        load = job.loads[name]
        both = rules(name, load, job)
        limit = judging(name, job, both)
        alone = {name: now.stated[name]}
        worst = now.worst(name)
        # a load that can never be on with all the others is judged with those it can be on with
        together = every if name in every else worst
        drops, all_on = drops_of(now, name, ALONE, alone), drops_of(now, name, TOGETHER, together)
        ok = None if all_on.whole.value is None or limit.value is None else all_on.whole.value <= limit.value
        was = _renamed(drops_of(donor, name, ALONE, {name: donor.stated[name]}))
        worse, worse_of = _worse(name, drops, was)
        known = any(figure.value is not None for figure in (was.feed, was.back))
        found[name] = CircuitFigures(
            load=name,
            current=current_figure(name, load),
            feed_resistance=_resistance(name, FEED, now),
            return_resistance=_resistance(name, RETURN, now),
            alone=drops,
            together=all_on,
            switched=_switched(now, name, drops),
            never_with=now.apart[name],
            worst=drops_of(now, name, WORST, worst),
            limit=limit,
            ok=ok,
            donor=was if known else None,
            worse=worse,
            worse_of=worse_of,
            rules=both,
            lamp=lamp_of(name, load, job, drops, all_on),
            feed_elements=elements(now, name, FEED, alone, together),
            return_elements=elements(now, name, RETURN, alone, together),
        )
    return found


def _switched(now: UnitSolutions, name: str, alone: Drops) -> Drops | None:
    """The drop with what comes on with the load; None where nothing of that costs it anything."""
    drops = drops_of(now, name, SWITCHED, now.switched(name))
    return None if drops.whole.value is None or drops.whole.value == alone.whole.value else drops


def current_figure(name: str, load: Load) -> Figure:
    """Amperes of a load, as stated or from its watts."""
    draws = load.draws
    if draws is None or draws.current_a is None:
        return Figure(f"{name}.current", f"current of {name}", None, "A", "as recorded", "I", (), (Missing("draws"),))
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
    """Current through a fuse or a ground point with these loads on. [A]"""
    inputs = []
    for load in loads:
        draws = job.loads[load].draws
        inputs.append(
            Input(load, draws.current_a if draws else None, "A", f"draws: {draws.text}" if draws else "not recorded")
        )
    missing = tuple(current_of(term.name) for term in inputs if term.value is None)
    if not loads:  # nothing traced is not nothing flowing
        missing = (Missing(f"a load of this list on {name}"),)
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


def drops_of(transfer: UnitSolutions, name: str, state: str, amps: Mapping[str, float | None]) -> Drops:
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


def _side(transfer: UnitSolutions, name: str, side: str, state: str, amps: Mapping[str, float | None]) -> Figure:
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
            inputs.append(part.as_input(amount, state == WORST))
    return Figure(
        f"{name}.{side}.{state}",
        f"drop of the {side} of {name}, {STATES[state]}",
        volts,
        "V",
        SOLVED,
        "U = sum of I x R along the path",
        tuple(inputs),
        lost.missing,
        "; ".join(_noted(path, state, amps, transfer.grid)),
    )


def _noted(path: Path, state: str, amps: Mapping[str, float | None], grid: Grid) -> Iterator[str]:
    """Which loads are on, and the wires of which it is not recorded whether they get hot."""
    if state in (SWITCHED, WORST):
        yield f"on: {', '.join(amps)}"
    if state == WORST:
        unplaced = (branch for branch in branches_of(path, grid) if branch.key in grid.unplaced)
        if wires := dict.fromkeys(branch.stretch.wire for branch in unplaced if branch.stretch is not None):
            yield f"no heat counted, since the way is not recorded: {', '.join(wires)}"


def _resistance(name: str, side: str, transfer: UnitSolutions) -> Figure:
    """What one ampere of a load loses on one side, in mohm: a sum of parts, but for what divides."""
    circuit = transfer.circuits[name]
    path = circuit.feed if side == FEED else circuit.back
    shares = transfer.shares(name, side)
    divided = any(not is_whole(share) for share in shares.values())
    along = branches_of(path, transfer.grid)
    branches = [branch for index in shares for branch in transfer.grid.runs[index].branches] if divided else along
    inputs: list[Input] = []
    for branch in branches:
        share = shares.get(transfer.grid.run_of[branch.key], 0.0)
        inputs += [part.as_input(f"{abs(share):.1%} of it" if divided else "") for part in branch.parts]
    missing = tuple(found for branch in branches for found in branch.unknown)
    value = transfer.lost(name, side, {name: 1.0})
    if path.state != "complete":
        missing = (*missing, Missing(path.state, why=path.why))
    elif path.steps[-1].kind == "ground":
        missing = (*missing, Missing("", state=path.why))
    missing = tuple(dict.fromkeys(transfer.refused or missing or value.missing))
    return Figure(
        f"{name}.{side}.resistance",
        f"resistance of the {side} of {name}",
        None if missing or value.volts is None else value.volts * 1000,
        "mohm",
        SOLVED if divided else "in series, along the traced way",
        "R = sum of R x the square of the share it carries" if divided else "R = sum of R",
        tuple(inputs),
        missing,
    )


def _worse(name: str, now: Drops, was: Drops) -> tuple[Figure | None, str]:
    """By how much a load loses more than it did in the donor, alone in both [V]; and the side, '' for the whole drop.

    One side where the other is not known; None where neither is.
    """
    for side, new, old in (("", now.whole, was.whole), (FEED, now.feed, was.feed), (RETURN, now.back, was.back)):
        if new.value is not None and old.value is not None:
            what = f"the {side} of {name}" if side else name
            inputs = (Input("drop now", new.value, "V", new.key), Input("drop in the donor", old.value, "V", old.key))
            return Figure(
                f"{name}.worse",
                f"drop of {what} alone above that in the donor",
                new.value - old.value,
                "V",
                "now less donor",
                "U = U now - U donor",
                inputs,
            ), side
    return None, ""


def _renamed(drops: Drops) -> Drops:
    """The donor's figures under keys of their own."""
    own = {drops.feed.key, drops.back.key}

    def donor(figure: Figure) -> Figure:
        inputs = (
            replace(term, origin=term.origin + ".donor") if term.origin in own else term for term in figure.inputs
        )
        return replace(figure, key=figure.key + ".donor", name=figure.name + ", in the donor", inputs=tuple(inputs))

    return Drops(donor(drops.feed), donor(drops.back), donor(drops.whole))
