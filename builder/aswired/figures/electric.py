"""Volts lost on the way to a load and back, alone and with every kept load on.

The feed side and the return side are two resistive networks, cut at the loads. Loads draw their stated current. Where
wires run in parallel the currents divide by the network's own solution (compute.network); a shared run carries the sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from aswired.compute.drops import drop_limit, drop_v
from aswired.compute.network import Edge, Solution, solve
from aswired.figure import Figure, Input
from aswired.figures.copper import Part, cable_part, fuse_part, stretch_parts, total_mohm
from aswired.harness import View
from aswired.model import Job, Load
from aswired.trace import Net
from aswired.worked import Circuit, CircuitFigures, Drops, Path, Step

SOURCE = "+"
BATTERY = "battery-"
_REFERENCES = (SOURCE, BATTERY)
CRITICAL = ("lamp", "indicator", "pump", "fuel pump", "electronics", "sensor", "ignition")  # 3 % (ABYC E-11)
_PLACEHOLDER_MOHM = 1.0  # stands in for a resistance that is not recorded; what depends on it is not told


@dataclass(frozen=True)
class Branch:
    """An edge of the network: its parts in series, None total = not recorded."""

    a: str
    b: str
    parts: tuple[Part, ...]
    key: str

    @property
    def mohm(self) -> float | None:
        return total_mohm(self.parts)


class Grid:
    """The resistive network of one view: branches, which of them are not recorded, the blocks they lie in."""

    def __init__(self, job: Job, view: View) -> None:
        self.job = job
        net = Net(job, view)
        branches: list[Branch] = []
        for index, stretch in enumerate(view.stretches):
            branches.append(Branch(*stretch.ends, stretch_parts(stretch, view, job), f"stretch {index}"))
        for name, switch in job.switches.items():
            ends = net.ends_now(switch.between)
            if ends is not None and all(end in view.nodes for end in ends):
                branches.append(Branch(*ends, (Part(f"switch {name}", 0.0, "not counted"),), f"switch {name}"))
        sources = [name for name in {*view.nodes, *view.fuses} if net.is_source(name)]
        for name in sorted({*view.fuses, *sources}):
            if name in view.fuses:
                feed = f"{name}.feed" if f"{name}.feed" in view.nodes else SOURCE
                branches.append(Branch(feed, name, fuse_part(name, job), f"fuse {name}"))
            else:
                branches.append(Branch(SOURCE, name, (), f"source {name}"))
        for name, point in job.grounds.items():
            if point.back_to:
                branches.append(
                    Branch(name, point.back_to, (cable_part(name, job),), f"cable {name} to {point.back_to}")
                )
        for name in view.nodes:
            part, _, cavity = name.partition(".")
            if part in job.modules and cavity in job.modules[part].ground:
                branches.append(Branch(name, BATTERY, (), f"module {name}"))
        self.branches = tuple(branches)
        self._edges = [Edge(b.a, b.b, _PLACEHOLDER_MOHM if b.mohm is None else b.mohm) for b in self.branches]
        self.number = {branch.key: index for index, branch in enumerate(self.branches)}
        blocks = _blocks(self.branches)
        self.block = {b.key: blocks[b.b if b.a in _REFERENCES else b.a] for b in self.branches}
        self._block_at = blocks
        self.looped = self._looped(blocks)
        self.dark = {self.block[b.key] for b in self.branches if b.mohm is None} & self.looped

    def _looped(self, blocks: Mapping[str, str]) -> set[str]:
        """Blocks with more than one way for a current: there one unknown branch spoils the currents of all."""
        nodes: dict[str, int] = {}
        for name, block in blocks.items():
            nodes[block] = nodes.get(block, 0) + (name not in _REFERENCES)
        edges: dict[str, int] = {}
        for block in self.block.values():
            edges[block] = edges.get(block, 0) + 1
        return {block for block, count in edges.items() if count > nodes[block]}

    def solve(self, drawn: Mapping[str, float], reference: str) -> Solution[str]:
        """Voltages with these currents drawn out of the network at these nodes; only their blocks. [A] -> [V]"""
        blocks = {self._block_at[node] for node in drawn if node in self._block_at}
        chosen = [index for index, branch in enumerate(self.branches) if self.block[branch.key] in blocks]
        part = solve(
            [self._edges[index] for index in chosen], {n: a for n, a in drawn.items() if n in self._block_at}, reference
        )
        currents: list[float | None] = [None] * len(self.branches)
        for index, current in zip(chosen, part.current_a, strict=True):
            currents[index] = current
        return Solution(part.voltage_v, tuple(currents))


def _blocks(branches: Iterable[Branch]) -> dict[str, str]:
    """Node -> a name for the connected block it lies in; what meets only at source or battery post is apart."""
    parent: dict[str, str] = {}

    def root(name: str) -> str:
        parent.setdefault(name, name)
        while parent[name] != name:
            parent[name] = parent[parent[name]]
            name = parent[name]
        return name

    for branch in branches:
        a, b = root(branch.a), root(branch.b)
        if branch.a not in _REFERENCES and branch.b not in _REFERENCES:
            parent[max(a, b)] = min(a, b)
    return {name: root(name) for name in list(parent)}


def states_of(job: Job, view: View, circuits: Mapping[str, Circuit]) -> States:
    """The kept loads of one view in their operating states, on the view's own network."""
    kept = {name: circuits[name] for name in job.kept}
    return States(Grid(job, view), job, kept)


def circuit_figures(job: Job, states: States, old_states: States) -> dict[str, CircuitFigures]:
    """The figures of every kept load in one view, beside its drop alone in the donor (`old_states`)."""
    found = {}
    for name, circuit in states.circuits.items():
        load, was = job.loads[name], old_states.circuits[name]
        current = current_figure(name, load)
        feed, back = states.sides[name]
        limit = _limit(name, load, job)
        together = states.drops(name, None)
        ok = None if together.whole.value is None or limit.value is None else together.whole.value <= limit.value
        old = old_states.drops(name, name) if was.feed.state == was.back.state == "complete" else None
        found[name] = CircuitFigures(
            load=name,
            current=current,
            feed_resistance=_resistance(
                f"{name}.feed.resistance", f"resistance of the feed of {name}", feed, circuit.feed
            ),
            return_resistance=_resistance(
                f"{name}.return.resistance", f"resistance of the return of {name}", back, circuit.back
            ),
            alone=states.drops(name, name),
            together=together,
            limit=limit,
            ok=ok,
            donor=None if old is None or old.whole.value is None else _renamed(old),
        )
    return found


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


class States:
    """One view's loads in their operating states: each alone, and all kept loads on together."""

    def __init__(self, grid: Grid, job: Job, circuits: Mapping[str, Circuit]) -> None:
        self.grid = grid
        self.job = job
        self.circuits = circuits
        by_key = {branch.key: branch for branch in grid.branches}
        by_name = {branch.parts[0].name: branch for branch in grid.branches if branch.parts}
        self.sides = {
            name: (_branches(circuit.feed, by_key, by_name), _branches(circuit.back, by_key, by_name))
            for name, circuit in circuits.items()
        }
        self.current = {name: job.loads[name].draws for name in circuits}
        self.all_on = self._solutions([name for name in circuits if self._amps(name) is not None])

    def _amps(self, name: str) -> float | None:
        draws = self.current[name]
        return draws.current_a if draws is not None else None

    def _solutions(self, names: list[str]) -> tuple[Solution[str], Solution[str]]:
        feeds: dict[str, float] = {}
        backs: dict[str, float] = {}
        for name in names:
            circuit, amps = self.circuits[name], self._amps(name)
            if amps is None:
                continue
            if circuit.feed.state == "complete":
                feeds[circuit.feed_end] = feeds.get(circuit.feed_end, 0.0) + amps
            if circuit.back.state == "complete":
                backs[circuit.return_end] = backs.get(circuit.return_end, 0.0) - amps
        return self.grid.solve(feeds, SOURCE), self.grid.solve(backs, BATTERY)

    def _alone(self, name: str) -> tuple[Solution[str] | None, Solution[str] | None]:
        """Solutions with one load on; None where no current can divide, and I x R of the path is all there is."""
        feed, back = self.sides[name]
        if any(self.grid.block[branch.key] in self.grid.looped for branch in (*feed, *back)):
            return self._solutions([name])
        return None, None

    def drops(self, name: str, alone: str | None) -> Drops:
        """Feed, return and whole drop of one load; `alone` names it for the state in which nothing else is on. [V]"""
        solutions = self._alone(alone) if alone else self.all_on
        circuit = self.circuits[name]
        word = "alone" if alone else "together"
        feed = self._side(name, circuit.feed, circuit.feed_end, self.sides[name][0], solutions[0], "feed", word)
        back = self._side(name, circuit.back, circuit.return_end, self.sides[name][1], solutions[1], "return", word)
        whole = None if feed.value is None or back.value is None else feed.value + back.value
        state = _state_words(word)
        inputs = (Input("feed drop", feed.value, "V", feed.key), Input("return drop", back.value, "V", back.key))
        missing = tuple(dict.fromkeys((*feed.missing, *back.missing)))
        total = Figure(
            f"{name}.drop.{word}",
            f"drop of {name}, feed and return, {state}",
            whole,
            "V",
            "feed plus return",
            "U = Uf + Ur",
            inputs,
            missing,
        )
        return Drops(feed, back, total)

    def _side(
        self,
        name: str,
        path: Path,
        end: str,
        branches: tuple[Branch, ...],
        solution: Solution[str] | None,
        side: str,
        word: str,
    ) -> Figure:
        key, what = f"{name}.{side}.{word}", f"drop of the {side} of {name}, {_state_words(word)}"
        rule, formula = "nodal solution of the resistive network", "U = sum of I x R along the path"
        missing = self._missing(name, path, branches, word)
        if path.state != "complete":
            return Figure(key, what, None, "V", rule, formula, (), (f"{side} {path.state}: {path.why}",))
        inputs: list[Input] = []
        for branch in branches:
            amps = self._amps(name) if solution is None else solution.current_a[self.grid.number[branch.key]]
            for part in branch.parts:
                amount = "current not determined" if amps is None else f"{abs(amps):.2f} A"
                inputs.append(Input(part.name, part.mohm, "mohm", f"{part.source}; carries {amount}"))
        value = None if missing else self._volts(name, end, branches, solution)
        return Figure(key, what, value, "V", rule, formula, tuple(inputs), missing)

    def _volts(self, name: str, end: str, branches: tuple[Branch, ...], solution: Solution[str] | None) -> float | None:
        if solution is not None:
            volts = solution.voltage_v.get(end)
            return None if volts is None else abs(volts)
        amps, mohm = self._amps(name), total_mohm(tuple(part for branch in branches for part in branch.parts))
        return None if amps is None or mohm is None else drop_v(mohm, amps)

    def _missing(self, name: str, path: Path, branches: tuple[Branch, ...], word: str) -> tuple[str, ...]:
        missing = [f"{part.name}: {part.source}" for branch in branches for part in branch.parts if part.mohm is None]
        if self._amps(name) is None:
            missing.append(f"current of {name}")
        if any(self.grid.block[branch.key] in self.grid.dark for branch in branches):
            missing.append("a parallel run of unknown resistance")
        if path.steps and path.state == "complete" and path.steps[-1].kind == "ground":
            missing.append(path.why)
        if word == "together":
            circuit = self.circuits[name]
            with_it = circuit.feed_with if path is circuit.feed else circuit.return_with
            missing += [
                f"current of {other}" for other in with_it if other in self.circuits and self._amps(other) is None
            ]
        return tuple(missing)


def _branches(path: Path, by_key: Mapping[str, Branch], by_name: Mapping[str, Branch]) -> tuple[Branch, ...]:
    """The branches of the network that a path runs through, in its order."""
    found: list[Branch] = []
    for step in path.steps:
        branch = _branch_of(step, by_key, by_name)
        if branch is not None:
            found.append(branch)
    return tuple(found)


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


def _state_words(word: str) -> str:
    return "this load alone" if word == "alone" else "every kept load on"


def _renamed(drops: Drops) -> Drops:
    """The donor's figures under keys of their own."""

    def donor(figure: Figure) -> Figure:
        return replace(figure, key=figure.key + ".donor", name=figure.name + ", in the donor")

    return Drops(donor(drops.feed), donor(drops.back), donor(drops.whole))
