"""How the car behaves in an operating state: every load a resistance or a filament, relay contacts following coils.

The network is solved by nodal analysis, again and again with a straight line in place of each filament, laid through
the volts found before, until they stand still. What is not recorded gets a placeholder, three times over with very
different values: what moves by two millivolts or more depends on it, and is not told. Contacts settle anew each time,
so what hangs on a contact that may stand either way is not told either.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE
from aswired.network.grid import Grid
from aswired.network.states import OperatingState, follows
from aswired.physics.draw import LoadCurrent
from aswired.physics.figure import Missing, current_of
from aswired.physics.network import Edge, solve

_Key = TypeVar("_Key", str, int)

TOLD_WITHIN_V = 0.002  # a fifth of the last digit that is printed
TOLD_WITHIN_A = 0.005
_MOST_STEPS = 60
_TANGENTS = range(2, 15)  # Newton's steps: after plain ones have found what is lit, and plain again where they fail
_STILL_V = 1e-7
_NO_CURRENT_A = 1e-7
# Placeholders of what is not recorded: `grid.PLACEHOLDER_MOHM` and the least current; then currents from least to
# most; then far larger resistances, and those currents in reverse. All differ: of two things in one row the same value
# in both leaves the point between them where it was, and what one changes the other may make up for.
_OTHER_MOHM = 1000.0
_LEAST_A, _MOST_A = 1.0, 25.0
_OTHERS = (1, 2)
_GOLDEN = (5**0.5 - 1) / 2  # its multiples, whole numbers taken off, are all different and lie evenly spread


@dataclass(frozen=True)
class SolvedState:
    """A solved state. None = it depends on something that is not recorded.

    `volts` of nodes against battery negative; a node that nothing live leads to lies at 0. `amps` of runs from a to b,
    by index. Of loads volts from the declared first end to the second, and amperes the same way. `restless`: the
    contacts that never come to rest. `raced`: something hangs on which of two relays is the quicker.
    """

    state: OperatingState
    volts: Mapping[str, float | None]
    amps: Mapping[int, float | None]
    load_volts: Mapping[str, float | None]
    load_amps: Mapping[str, float | None]
    restless: frozenset[str] = frozenset()
    raced: bool = False

    @property
    def settles(self) -> bool:
        return not self.restless

    def between(self, red: str, black: str) -> float | None:
        """What a meter shows, with its sign [V]."""
        at_red, at_black = self.volts.get(red), self.volts.get(black)
        return None if at_red is None or at_black is None else at_red - at_black


@dataclass(frozen=True)
class _Solved:
    volts: Mapping[str, float]
    amps: Mapping[int, float]
    load_volts: Mapping[str, float]


@dataclass(frozen=True)
class _Settled:
    """A state solved with one set of placeholders; `unread` is what was not recorded and carried current on the way.

    `raced`: it hangs on which contact went over first.
    """

    state: OperatingState
    solved: _Solved
    unread: tuple[Missing, ...]
    restless: frozenset[str] = frozenset()
    raced: bool = False


class Behaviour:
    """The grid of one view with its loads as they behave at the job's `supply:`, or at `supply_v` [V] in its place.

    A load whose draw is written without volts takes it at the job's `supply:`.

    Raises:
        ValueError: the job's supply is not recorded.
    """

    def __init__(self, grid: Grid, circuits: Mapping[str, Circuit], supply_v: float | None = None) -> None:
        supply = grid.job.supply
        if supply is None or supply.value is None:
            raise ValueError("the supply is not recorded")
        self.grid = grid
        self.circuits = circuits
        self._stated_v = supply.value
        self.supply_v = supply.value if supply_v is None else supply_v
        self.draws = {name: self._draw(name) for name in grid.loads}
        nominal = grid.job.system
        self.nominal_v = nominal.value if nominal is not None and nominal.value is not None else self._stated_v
        self._sound: dict[OperatingState, SolvedState] = {}
        self._at: dict[str, list[tuple[str, str, int | str]]] = {}
        for index, run in enumerate(grid.runs):
            self._link(run.a, run.b, index)
        for name, ends in grid.loads.items():
            self._link(ends.a, ends.b, name)

    def _link(self, a: str, b: str, what: int | str) -> None:
        self._at.setdefault(a, []).append((a, b, what))
        self._at.setdefault(b, []).append((b, a, what))

    def _draw(self, name: str) -> LoadCurrent | None:
        """How a load takes current; None = its current is not recorded. A load of no current takes none."""
        load = self.grid.job.loads[name]
        draws = load.draws
        if draws is None or draws.current_a is None:
            return None
        filament = load.class_ in ("lamp", "indicator") and load.light == "filament"
        return LoadCurrent(draws.current_a, draws.at_v or self._stated_v, filament)

    # ---- one state --------------------------------------------------------------------------------------------------
    def operate(self, state: OperatingState, without: frozenset[str] = frozenset()) -> SolvedState:
        """The state with its relay contacts settled; `without` are branches, by key, that have opened.

        A state with nothing opened is solved once, however often it is asked for.

        All coils are looked at at once; where that comes round again, one at a time, the first by file first and then
        the last: what hangs on which relay is the quicker is not told. `settles` is False where a contact never comes
        to rest. The `state` of the answer is that of the first placeholders.
        """
        if without:
            return self._operated(state, without)
        if state not in self._sound:
            self._sound[state] = self._operated(state, without)
        return self._sound[state]

    def _operated(self, state: OperatingState, without: frozenset[str]) -> SolvedState:
        one = self._settled(state, without, 0)
        others = [self._settled(state, without, which) for which in _OTHERS if one.unread]
        if one.raced:
            others.append(self._settled(state, without, 0, from_the_last=True))
        return self._agreed(one, others)

    def _settled(
        self, state: OperatingState, without: frozenset[str], which: int, from_the_last: bool = False
    ) -> _Settled:
        following = [c for c, coil in self.grid.contacts.items() if follows(coil, self.grid, self.circuits)]
        unread: dict[Missing, None] = {}
        restless: frozenset[str] = frozenset()
        how = "at once"
        while True:
            seen: list[tuple[frozenset[str], int]] = []
            turn = 0
            while (state.closed, turn) not in seen:
                seen.append((state.closed, turn))
                stood = self._solved_as_it_stands(state, without, which)
                unread |= dict.fromkeys(stood.unread)
                waiting = [c for c in (*following[turn:], *following[:turn]) if c not in restless]
                moved = [contact for contact in waiting if self._moves(contact, stood)]
                if not moved:
                    raced = how != "at once" and not restless
                    return replace(stood, unread=tuple(unread), restless=restless, raced=raced)
                one = moved[-1:] if from_the_last and how != "in turn" else moved[:1]
                state = replace(state, closed=state.closed ^ frozenset(moved if how == "at once" else one))
                turn = following.index(one[0]) + 1 if how == "in turn" else 0
            if how == "in turn":
                again = [closed for closed, _ in seen[seen.index((state.closed, turn)) :]]
                restless |= frozenset.union(*again) - frozenset.intersection(*again)
            how = "one by one" if how == "at once" else "in turn"

    def _moves(self, contact: str, stood: _Settled) -> bool:
        """Whether a contact goes over, from the volts over its coil; between pull-in and let-go it stays."""
        volts = stood.solved.load_volts.get(self.grid.contacts[contact], 0.0)
        limits, closed_at_rest = self.grid.job.limits_in_force, self.grid.job.switches[contact].at_rest == "closed"
        pulled = (contact in stood.state.closed) != closed_at_rest
        part = limits["relay lets go" if pulled else "relay pulls in"].value / 100
        return abs(volts) < part * self.nominal_v if pulled else abs(volts) >= part * self.nominal_v

    def _solved_as_it_stands(self, state: OperatingState, without: frozenset[str], which: int) -> _Settled:
        runs, loads = self._reached(state, without)
        solved = self._solved(state, runs, loads, which)
        return _Settled(state, solved, self._unread(solved, runs, loads))

    def _agreed(self, first: _Settled, others: list[_Settled]) -> SolvedState:
        """What is the same whatever the placeholders."""
        one = first.solved
        volts = {n: one.volts.get(n, 0.0) for n in self.grid.nodes}
        load_volts = {n: one.load_volts.get(n, 0.0) for n in self.grid.loads}
        amps = {i: one.amps.get(i, 0.0) for i in range(len(self.grid.runs))}
        told = _same(load_volts, [other.solved.load_volts for other in others], TOLD_WITHIN_V)
        return SolvedState(
            first.state,
            _same(volts, [other.solved.volts for other in others], TOLD_WITHIN_V),
            _same(amps, [other.solved.amps for other in others], TOLD_WITHIN_A),
            told,
            {name: self._taken(name, told[name]) for name in self.grid.loads},
            frozenset.union(*(each.restless for each in (first, *others))),
            first.raced,
        )

    def _taken(self, name: str, volts: float | None) -> float | None:
        draw = self.draws[name]
        if volts == 0:
            return 0.0
        return None if draw is None or volts is None else draw.current_at(volts)

    def wanting(self, state: OperatingState, without: frozenset[str] = frozenset()) -> tuple[Missing, ...]:
        """What is not recorded of all that carries current in a state."""
        runs, loads = self._reached(state, without)
        return self._unread(self._solved(state, runs, loads, 0), runs, loads)

    def _unread(self, solved: _Solved, runs: list[int], loads: list[str]) -> tuple[Missing, ...]:
        """What is not recorded and carries current; what carries none, as a stub, changes nothing whatever it has."""
        carry = [index for index in runs if abs(solved.amps.get(index, 0.0)) > _NO_CURRENT_A]
        parts = [missing for index in carry for missing in self.grid.runs[index].unknown]
        draw = [name for name in loads if self.draws[name] is None and abs(solved.load_volts[name]) > _STILL_V]
        return tuple(dict.fromkeys((*parts, *(current_of(name) for name in draw))))

    def _reached(self, state: OperatingState, without: frozenset[str]) -> tuple[list[int], list[str]]:
        """Runs and loads that hang together with something live, battery negative not passed."""
        seen = set(state.live)
        todo = list(state.live)
        runs: set[int] = set()
        loads: set[str] = set()
        for at in todo:
            if at == BATTERY_NEGATIVE:
                continue
            for _, other, what in self._at.get(at, ()):
                if isinstance(what, int):
                    run = self.grid.runs[what]
                    opened = run.switch and run.switch not in state.closed
                    if opened or (without and any(branch.key in without for branch in run.branches)):
                        continue
                    runs.add(what)
                elif self.draws[what] is None or self.draws[what].current_a > 0:  # type: ignore[union-attr]
                    loads.add(what)
                else:
                    continue
                if other not in seen:
                    seen.add(other)
                    todo.append(other)
        return sorted(runs), [name for name in self.grid.loads if name in loads]

    def _solved(self, state: OperatingState, runs: list[int], loads: list[str], which: int) -> _Solved:
        held = {node: self.supply_v for node in state.live if node != BATTERY_NEGATIVE}
        edges = [Edge(run.a, run.b, self._mohm(index, which)) for index in runs for run in (self.grid.runs[index],)]
        draws = {name: self.draws[name] or self._unread_draw(name, which) for name in loads}
        over = dict.fromkeys(loads, self.supply_v)
        for step in range(_MOST_STEPS):
            loaded, taken = self._as_lines(draws, over, tangents=step in _TANGENTS)
            solution = solve([*edges, *loaded], taken, BATTERY_NEGATIVE, held)
            at_v = {node: volts for node, volts in solution.voltage_v.items() if volts is not None}
            found = {
                name: at_v.get(self.grid.loads[name].a, 0.0) - at_v.get(self.grid.loads[name].b, 0.0) for name in loads
            }
            still = all(abs(found[name] - over[name]) < _STILL_V for name in loads if draws[name].filament)
            over = found
            if still:
                break
        amps = {index: current or 0.0 for index, current in zip(runs, solution.current_a, strict=False)}
        return _Solved(at_v, amps, over)

    def _as_lines(
        self, draws: Mapping[str, LoadCurrent], over: Mapping[str, float], tangents: bool
    ) -> tuple[list[Edge[str]], dict[str, float]]:
        """Each load as a resistance and a current beside it, near the volts found before."""
        lines: list[Edge[str]] = []
        taken: dict[str, float] = {}
        for name, draw in draws.items():
            ends = self.grid.loads[name]
            amperes, siemens = draw.tangent_at(over[name]) if tangents else (0.0, draw.siemens_at(over[name]))
            lines.append(Edge(ends.a, ends.b, 1000 / siemens))
            if amperes:
                taken[ends.a] = taken.get(ends.a, 0.0) + amperes
                taken[ends.b] = taken.get(ends.b, 0.0) - amperes
        return lines, taken

    def _mohm(self, index: int, which: int) -> float:
        run = self.grid.runs[index]
        return run.mohm + _OTHER_MOHM * (1 + scattered(index)) if run.unknown and which == 2 else run.mohm

    def _unread_draw(self, name: str, which: int) -> LoadCurrent:
        spread = scattered(list(self.grid.loads).index(name))
        power = (0.0, spread, 1 - spread)[which]
        return LoadCurrent(_LEAST_A * (_MOST_A / _LEAST_A) ** power, self.supply_v, False)


def scattered(place: int) -> float:
    """A number from 0 to 1, another for every place."""
    return place * _GOLDEN % 1


def _same(first: Mapping[_Key, float], others: list[Mapping[_Key, float]], within: float) -> dict[_Key, float | None]:
    """Each value that lies as near in all the others; None in place of one that does not."""
    return {
        key: value if all(abs(value - other.get(key, 0.0)) < within for other in others) else None
        for key, value in first.items()
    }
