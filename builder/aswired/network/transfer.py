"""Constant currents: what each load's current does to every other load, from one solution of the network for each.

With loads that draw their stated current the network is linear: the drop of a load is the sum of what each load causes
alone. For each side of each load the network is solved once with one ampere drawn there; a drop is then
U = sum over the runs of c x I x R, where c is the share of the load's own ampere that takes a run, I the run's current
from all loads that draw, R its resistance. Source: superposition and Tellegen's theorem; held against a dense solver
and a circuit simulator in the tests.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE
from aswired.network.grid import Branch, Grid
from aswired.network.states import Needs, needs_of_all, never_together, on_in, state
from aswired.physics.figure import Missing, current_of
from aswired.physics.network import Edge, solve

FEED, RETURN = "feed", "return"
SIDES = (FEED, RETURN)
POSITIVE_GROUND = Missing("positive ground", why="not computed")  # feeds and returns are traced for a negative one
SHORTED = Missing("what flows where a feed is joined to ground with no load between")
SOLVED = "nodal solution of the resistive network"
NO_SHARE = 1e-9  # of an ampere: rounding of the solution, no current
_WHOLE_WITHIN = 1e-6  # of an ampere


@dataclass(frozen=True)
class Unit:
    """One ampere drawn at one side of a load: the share of it in each run, by index, from the run's a to its b.

    `missing` says why nothing is known of it; then it may take any run of `among`.
    """

    shares: Mapping[int, float]
    missing: tuple[Missing, ...] = ()
    among: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Lost:
    """Volts lost on one side of a load, and what keeps them from being known; None = not recorded."""

    volts: float | None
    missing: tuple[Missing, ...] = ()

    @property
    def missing_words(self) -> tuple[str, ...]:
        """What is missing, each thing in words."""
        return tuple(map(str, self.missing))


class UnitSolutions:
    """The loads of one view on its grid, every switch and contact closed.

    Where a feed is joined to ground then, as by a contact that grounds a motor at rest, those contacts are left open
    that no load's current passes. Where it still is, nothing is told: that current is no load's.

    A side of a load whose path is not complete draws nothing. `amps` in every call are the loads that draw and their
    currents [A]; None = a load that is on and whose current is not recorded.
    """

    def __init__(self, grid: Grid, circuits: Mapping[str, Circuit]) -> None:
        self.grid = grid
        self.circuits = circuits
        self.units: dict[tuple[str, str], Unit] = {}
        self._probes: dict[str, Unit | None] = {}
        self._undivided: set[int] = set()  # runs in a ring without resistance
        self._at: dict[str, list[int]] = {}
        for index, run in enumerate(grid.runs):
            self._at.setdefault(run.a, []).append(index)
            self._at.setdefault(run.b, []).append(index)
        paths = (path for circuit in circuits.values() for path in (circuit.feed, circuit.back))
        passed = {step.name for path in paths for step in path.steps if step.kind == "switch"}
        self._idle = frozenset(index for index, run in enumerate(grid.runs) if run.switch and run.switch not in passed)
        for name, circuit in circuits.items():
            if circuit.feed.state == "complete":
                self.units[name, FEED] = self._unit(circuit.feed_end, 1.0)
            if circuit.back.state == "complete":
                self.units[name, RETURN] = self._unit(circuit.return_end, -1.0)

    def _unit(self, node: str, ampere: float) -> Unit:
        held = dict.fromkeys(self.grid.sources, 0.0)
        indices = self._block(node, {BATTERY_NEGATIVE, *held})
        if self._shorted(indices):
            indices = self._block(node, {BATTERY_NEGATIVE, *held}, self._idle)
        if self._shorted(indices):
            return Unit({}, (SHORTED,), frozenset(indices))
        runs = [self.grid.runs[index] for index in indices]
        solution = solve([Edge(run.a, run.b, run.mohm) for run in runs], {node: ampere}, BATTERY_NEGATIVE, held)
        if solution.voltage_v[node] is None:
            return Unit({}, (Missing(f"a way from {node} to the battery"),), frozenset(indices))
        self._undivided.update(
            index
            for index, share in zip(indices, solution.current_a, strict=True)
            if share is None and solution.voltage_v[self.grid.runs[index].a] is not None
        )
        shares = {
            index: share
            for index, share in zip(indices, solution.current_a, strict=True)
            if share is not None and abs(share) > NO_SHARE
        }
        return Unit(shares)

    def _shorted(self, indices: Iterable[int]) -> bool:
        """Whether runs join a source and battery negative."""
        ends = {end for index in indices for end in (self.grid.runs[index].a, self.grid.runs[index].b)}
        return BATTERY_NEGATIVE in ends and any(end in self.grid.sources for end in ends)

    def _block(self, node: str, held: set[str], without: frozenset[int] = frozenset()) -> list[int]:
        """The runs that hang together with a node, sources and battery negative not passed, some left out."""
        seen, todo, found = {node}, [node], []
        for at in todo:
            if at in held:
                continue
            for index in self._at.get(at, ()):
                if index in without:
                    continue
                found.append(index)
                run = self.grid.runs[index]
                other = run.b if run.a == at else run.a
                if other not in seen:
                    seen.add(other)
                    todo.append(other)
        return sorted(set(found))

    @property
    def refused(self) -> tuple[Missing, ...]:
        """Why nothing of this car is computed, () for one that is."""
        return (POSITIVE_GROUND,) if self.grid.job.ground_side == "positive" else ()

    # ---- what is drawn ----------------------------------------------------------------------------------------------
    @cached_property
    def stated(self) -> dict[str, float | None]:
        """Current of every load of the grid as recorded. [A]"""
        draws = {name: self.grid.job.loads[name].draws for name in self.circuits}
        return {name: found.current_a if found is not None else None for name, found in draws.items()}

    @cached_property
    def takers(self) -> dict[int, list[tuple[str, float]]]:
        """Run, by index -> the loads whose current takes it, with their share, from its a to its b."""
        found: dict[int, list[tuple[str, float]]] = {}
        for name in self.circuits:
            both: dict[int, float] = {}
            for side in SIDES:
                for index, share in self.shares(name, side).items():
                    both[index] = both.get(index, 0.0) + share
            for index, share in both.items():
                if abs(share) > NO_SHARE:
                    found.setdefault(index, []).append((name, share))
        return found

    def currents(self, runs: Iterable[int], amps: Mapping[str, float | None]) -> dict[int, float]:
        """Current of these runs from a to b with these loads drawing; a load of unknown current counts nothing. [A]"""
        return {
            index: sum(share * (amps.get(name) or 0.0) for name, share in self.takers.get(index, ())) for index in runs
        }

    def through(self, branch: Branch | str, amps: Mapping[str, float | None]) -> Lost:
        """Current of a branch without its direction [A]."""
        if self.refused:
            return Lost(None, self.refused)
        key = branch if isinstance(branch, str) else branch.key
        index = self.grid.run_of.get(key)
        if index is None:
            return Lost(None, (Missing(key, state="is not in the network"),))
        if index in self._undivided:
            return Lost(None, (Missing("how a current divides round a ring without resistance"),))
        total, missing = 0.0, list(self._untold((index,), amps))
        for name, share in self.takers.get(index, ()):
            if name not in amps:
                continue
            current = amps[name]
            if current is None:
                missing.append(current_of(name))
            total += share * (current or 0.0)
            missing += self._divided(name, index)
        return Lost(None if missing else abs(total), tuple(dict.fromkeys(missing)))

    def _divided(self, name: str, index: int) -> list[Missing]:
        """What the share of a load's current in a run rests on and is not recorded: its current divides there."""
        found: list[Missing] = []
        for side in SIDES:
            shares = self.shares(name, side)
            if index in shares and abs(abs(shares[index]) - 1.0) > NO_SHARE:
                found += [missing for other in shares for missing in self.grid.runs[other].unknown]
        return found

    def _untold(self, indices: Iterable[int], amps: Iterable[str]) -> Iterable[Missing]:
        """Why the currents of some runs are not known, with these loads drawing."""
        runs = set(indices)
        units = (self.units.get((name, side)) for name in amps for side in SIDES)
        return (missing for unit in units if unit is not None and unit.among & runs for missing in unit.missing)

    def shares(self, name: str, side: str) -> Mapping[int, float]:
        """Of one ampere of a load what each run carries on one side of it, from its a to its b."""
        unit = self.units.get((name, side))
        return unit.shares if unit is not None else {}

    # ---- what is lost -----------------------------------------------------------------------------------------------
    def lost(self, name: str, side: str, amps: Mapping[str, float | None]) -> Lost:
        """Volts lost on one side of a load while these loads draw. [V]"""
        if self.refused:
            return Lost(None, self.refused)
        if (name, side) not in self.units:
            path = self.circuits[name].feed if side == FEED else self.circuits[name].back
            return Lost(None, (Missing(side, state=path.state, why=path.why),))
        if missing := self.units[name, side].missing:
            return Lost(None, missing)
        found = self._lost(self.shares(name, side), amps)
        if name in amps and amps[name] is None and current_of(name) not in found.missing:
            return Lost(None, (*found.missing, current_of(name)))  # a side without resistance carries it too
        return found

    def between(self, red: str, black: str, amps: Mapping[str, float | None]) -> Lost:
        """What a meter shows from one node to another while these loads draw, without its sign [V].

        Both on one side of the loads: from the feed to a load, or from a load to battery negative.
        """
        if self.refused:
            return Lost(None, self.refused)
        own = self.probe(red, black)
        if own is None:
            shorted = self.shorted(red) or self.shorted(black)
            return Lost(None, (SHORTED if shorted else Missing(f"a way from {red} to {black}"),))
        found = self._lost(own, amps)
        return found if found.volts is None else Lost(abs(found.volts))

    def probe(self, red: str, black: str) -> Mapping[int, float] | None:
        """The runs a meter's reading between two nodes is made of, with their shares; None where they do not meet."""
        shares: dict[int, float] = {}
        for node, sign in ((red, 1.0), (black, -1.0)):
            unit = self._probe(node)
            if unit is None or unit.missing:
                return None
            for index, share in unit.shares.items():
                shares[index] = shares.get(index, 0.0) + sign * share
        return {index: share for index, share in shares.items() if abs(share) > NO_SHARE}

    def shorted(self, node: str) -> bool:
        """Whether a node hangs on a feed that is joined to ground with no load between."""
        unit = self._probe(node)
        return unit is not None and SHORTED in unit.missing

    def _probe(self, node: str) -> Unit | None:
        """One ampere put in at a node; None for a node that nothing leads to."""
        if node not in self._probes:
            held = node == BATTERY_NEGATIVE or node in self.grid.sources
            known = held or node in self.grid.nodes
            self._probes[node] = self._unit(node, -1.0) if known else None
        return self._probes[node]

    def _lost(self, own: Mapping[int, float], amps: Mapping[str, float | None]) -> Lost:
        missing = dict.fromkeys(self._untold(own, amps))
        for index in own:
            drawing = [name for name, _ in self.takers.get(index, ()) if name in amps]
            missing.update(dict.fromkeys(current_of(name) for name in drawing if amps[name] is None))
            if drawing:
                missing.update(dict.fromkeys(self.grid.runs[index].unknown))
        return Lost(None if missing else self._sum(own, amps, "mohm"), tuple(missing))

    def banded(self, name: str, side: str, amps: Mapping[str, float | None], band: str) -> float:
        """The drop of one side with every part at its `low`, `high` or `worst`; exact where no current divides. [V]

        Only for a drop that is known.
        """
        return self.banded_over(self.shares(name, side), amps, band)

    def banded_over(self, own: Mapping[int, float], amps: Mapping[str, float | None], band: str) -> float:
        """The same over the runs of a `probe`. [V]"""
        return self._sum(own, amps, band)

    def _sum(self, own: Mapping[int, float], amps: Mapping[str, float | None], band: str) -> float:
        runs, carried = self.grid.runs, self.currents(own, amps)
        return float(sum(share * carried[index] * getattr(runs[index], band) for index, share in own.items())) / 1000

    # ---- which are on together --------------------------------------------------------------------------------------
    def together(self) -> dict[str, float | None]:
        """Every load that can be on together, but for starters; of those never on together the set that takes most."""
        able = [name for name in self.circuits if self.grid.job.loads[name].class_ != "starter"]
        weight = {name: self.stated[name] or 0.0 for name in able}
        return {name: self.stated[name] for name in most_together(able, weight, self.apart)}

    @cached_property
    def apart(self) -> dict[str, frozenset[str]]:
        """Load -> the loads it is never on with."""
        return never_together(self.grid, self._needs, self.circuits)

    def switched(self, name: str) -> dict[str, float | None]:
        """What is on when just this load is switched on: what hangs on its key and switches, and what always is."""
        needs = self._needs.get(name)
        on = {name, *(on_in(state(needs, self.grid), self._needs, self.grid) if needs is not None else ())}
        return {other: self.stated[other] for other in self.circuits if other in on}

    @cached_property
    def _needs(self) -> dict[str, Needs]:
        return needs_of_all(self.grid, self.circuits)

    def worst(self, name: str) -> dict[str, float | None]:
        """The loads that cost this one most volts while it is on; no starter, none that is never on with another."""
        able = [
            other
            for other in self.circuits
            if other != name and self.grid.job.loads[other].class_ != "starter" and other not in self.apart[name]
        ]
        weight = {other: self._caused(name, other) for other in able}
        on = {name, *most_together(able, weight, self.apart)}
        return {other: self.stated[other] for other in self.circuits if other in on}

    def _caused(self, name: str, by: str) -> float:
        amps = {by: self.stated[by]}
        return sum(self.banded(name, side, amps, "worst") for side in SIDES)


def is_whole(share: float) -> bool:
    """Whether a share, whichever way it runs, is all of its load's current: there it does not divide."""
    return abs(abs(share) - 1) < _WHOLE_WITHIN


def most_together(names: Iterable[str], weight: Mapping[str, float], apart: Mapping[str, frozenset[str]]) -> list[str]:
    """Of loads some of which are never on together, the set of greatest weight; of equal ones the first by file.

    A set is a number with a bit for each load, the first by file highest, so that of two sets the greater number is
    the first by file. Loads that bar each other, straight or by others, are looked at apart from the rest, and each
    remainder once: all sets of many such pairs would be two to the power of them.
    """
    able = tuple(names)
    bit = {name: 1 << place for place, name in enumerate(reversed(able))}
    barred = {one: sum(bit[two] for two in able if two != one and two in apart[one]) for one in able}
    whole = {name: round(weight[name] * 1e12) for name in able}  # whole numbers: sums in any order are the same
    found: dict[int, tuple[int, int]] = {}

    def best(left: int) -> tuple[int, int]:
        if left not in found:
            found[left] = looked_at([name for name in able if bit[name] & left], left)
        return found[left]

    def looked_at(there: list[str], left: int) -> tuple[int, int]:
        most = max(there, key=lambda name: (barred[name] & left).bit_count(), default="")
        if not most or not barred[most] & left:
            return sum(whole[name] for name in there), left
        held = _hanging_together(bit[most], left, {bit[name]: barred[name] for name in there})
        if held != left:
            return _sum_of(best(held), best(left & ~held))
        without = left & ~bit[most]
        return max(_sum_of((whole[most], bit[most]), best(without & ~barred[most])), best(without))

    chosen = best(sum(bit.values()))[1]
    return [name for name in able if bit[name] & chosen]


def _sum_of(one: tuple[int, int], two: tuple[int, int]) -> tuple[int, int]:
    return one[0] + two[0], one[1] + two[1]


def _hanging_together(first: int, among: int, barred: Mapping[int, int]) -> int:
    """The bits of all that bar each other with one, straight or by others."""
    seen, todo = first, [first]
    for at in todo:
        new = barred[at] & among & ~seen
        seen |= new
        todo += [one for one in barred if one & new]
    return seen
