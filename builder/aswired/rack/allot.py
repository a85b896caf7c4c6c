"""Which offcut each piece is cut from: an exact allotment by mixed integer programming, numbers in, numbers out.

Lengths are whole tenths of a millimetre, so that sums are exact. What is best is judged in this order, each point only
among the answers that are equal in all before it: (1) least new wire, (2) fewest colour marks, (3) fewest changes that
leave the base colour, (4) fewest rests that are neither zero nor worth keeping, (5) least length in such rests, (6) the
pieces and offcuts listed first. Each point is one solve of HiGHS with gap 0, its result a constraint of the next.

numpy and scipy are loaded when a problem is solved, not when this module is imported: a build needs neither.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

AIMS = ("new wire", "colour marks", "changes of base colour", "unusable rests", "length in unusable rests", "order")
TENTH_MM = 10  # stored units in a millimetre


@dataclass(frozen=True)
class Demand:
    """A piece to be cut. length: [0.1 mm], > 0."""

    id: str
    length: int


@dataclass(frozen=True)
class Stock:
    """An offcut. left: what is left of it [0.1 mm], >= 0; colour: its code, equal for equal colours."""

    id: str
    left: int
    colour: str


@dataclass(frozen=True)
class Fit:
    """A piece that may be cut from an offcut. What makes an offcut unfit (size, heat, condition) is judged before.

    marks: colour marks that this choice costs by itself: 1 for a colour other than that of the wire, 1 when a wire
    beside it, which is no piece of this problem, has the colour already.
    other_base: the base colour is another one than that of the wire.
    keeps: the colour is that of the wire itself, so that nothing new is told apart by it.
    """

    marks: int = 0
    other_base: bool = False
    keeps: bool = False


@dataclass(frozen=True)
class Problem:
    """Pieces, offcuts, and which may be cut from which.

    pairs: (index of the piece, index of the offcut) -> Pair; a pair that is not there is unfit.
    connectors: indices of the pieces that land in one connector; there no two have one colour, unless both keep that of
    their own wire. bundles: the same for a bundle, where each repeat costs one colour mark instead.
    repeatable: colours that may repeat (those that mean ground in this donor).
    trim, keep: [0.1 mm] added to each piece that is cut from an offcut; shortest rest worth keeping.
    """

    demands: tuple[Demand, ...]
    stock: tuple[Stock, ...]
    pairs: Mapping[tuple[int, int], Fit]
    connectors: tuple[tuple[int, ...], ...] = ()
    bundles: tuple[tuple[int, ...], ...] = ()
    repeatable: frozenset[str] = frozenset()
    trim: int = 0
    keep: int = 0

    def takes(self, demand: int) -> int:
        """What a piece takes off an offcut, trim included. [0.1 mm]"""
        return self.demands[demand].length + self.trim


Choice = tuple[int | None, ...]  # for each piece the index of its offcut, None = new wire
Score = tuple[int, int, int, int, int, int]  # the six points of `AIMS`, smaller is better; lengths in 0.1 mm


@dataclass(frozen=True)
class Allotted:
    """The answer. `open_aim` is '' when it is proved best; else the point at which time ran out, and `bound` the least
    value that point can have (the later points were not looked at)."""

    choice: Choice
    score: Score
    open_aim: str = ""
    bound: int = 0

    @property
    def gap(self) -> int:
        """By how much the open point could be better at most, in its own unit; 0 when proved."""
        return self.score[AIMS.index(self.open_aim)] - self.bound if self.open_aim else 0


def score(problem: Problem, choice: Choice) -> Score:
    """The six points of an allotment. [0.1 mm for lengths]"""
    chosen = [(i, j) for i, j in enumerate(choice) if j is not None]
    pairs = [problem.pairs[pair] for pair in chosen]
    rests = [
        rest
        for j in sorted({j for _, j in chosen})
        if 0 < (rest := problem.stock[j].left - sum(problem.takes(i) for i, at in chosen if at == j)) < problem.keep
    ]
    return (
        sum(demand.length for demand, j in zip(problem.demands, choice, strict=True) if j is None),
        sum(pair.marks for pair in pairs) + sum(_repeats(problem, choice, bundle) for bundle in problem.bundles),
        sum(pair.other_base for pair in pairs),
        len(rests),
        sum(rests),
        sum((i + 1) * (j + 1) for i, j in chosen),
    )


def allowed(problem: Problem, choice: Choice) -> bool:
    """Whether every piece may be cut as chosen: fit, enough left of each offcut, no colour twice in a connector."""
    chosen = [(i, j) for i, j in enumerate(choice) if j is not None]
    enough = all(
        sum(problem.takes(i) for i, at in chosen if at == j) <= problem.stock[j].left for j in {j for _, j in chosen}
    )
    return (
        all(pair in problem.pairs for pair in chosen)
        and enough
        and not any(_repeats(problem, choice, connector) for connector in problem.connectors)
    )


def _repeats(problem: Problem, choice: Choice, group: Iterable[int]) -> int:
    """Pieces of a group whose colour another piece of it has; pieces that keep their wire's colour do not clash."""
    changed: dict[str, int] = {}
    keepers: set[str] = set()
    for i in group:
        j = choice[i]
        if j is None or problem.stock[j].colour in problem.repeatable:
            continue
        colour = problem.stock[j].colour
        if problem.pairs[i, j].keeps:
            keepers.add(colour)
        else:
            changed[colour] = changed.get(colour, 0) + 1
    return sum(number - 1 + (colour in keepers) for colour, number in changed.items())


def first_fit_decreasing(problem: Problem) -> Choice:
    """The longest piece first, each from the first offcut that can take it: quick, and seldom best."""
    choice: list[int | None] = [None] * len(problem.demands)
    order = sorted(range(len(choice)), key=lambda i: (-problem.demands[i].length, i))
    for i in order:
        for j in range(len(problem.stock)):
            if (i, j) in problem.pairs:
                choice[i] = j
                if allowed(problem, tuple(choice)):
                    break
                choice[i] = None
    return tuple(choice)


def allot(problem: Problem, seconds: float = math.inf) -> Allotted:
    """The best allotment, or the best found when `seconds` ran out, with the bound on what could still be gained.

    Raises:
        RuntimeError: the solver failed for another reason than time.
    """
    best = first_fit_decreasing(problem)
    if not problem.pairs:
        return Allotted(best, score(problem, best))
    until = time.monotonic() + seconds
    program = _Program(problem)
    for place, aim in enumerate(AIMS):
        now = score(problem, best)
        if now[place]:  # none can be below zero, so a zero is proved
            found, bound = program.solve(place, until - time.monotonic())
            if found is not None and score(problem, found) < now:
                best, now = found, score(problem, found)
            if now[place] > bound:
                return Allotted(best, now, aim, bound)
        program.hold(place, now[place])
    return Allotted(best, score(problem, best))


class _Program:
    """The mixed integer program of one problem.

    Unknowns: for each pair whether it is cut so; for each bundle and colour the repeats; for each offcut whether its
    rest is unusable, kept, or nothing, and the length of an unusable one.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.pairs = tuple(problem.pairs)
        self.used = tuple(sorted({j for _, j in self.pairs}))
        self.rows: list[tuple[dict[int, float], float]] = []  # sum of factor x unknown <= right side
        self.upper: list[float] = [1.0] * len(self.pairs)
        self.whole: list[int] = [1] * len(self.pairs)
        self.of_offcut = {j: [k for k, (_, at) in enumerate(self.pairs) if at == j] for j in self.used}
        for i in range(len(problem.demands)):
            self._at_most({k: 1.0 for k, (piece, _) in enumerate(self.pairs) if piece == i}, 1.0)
        for j in self.used:
            self._at_most(self._taken(j), problem.stock[j].left)
        for connector in problem.connectors:
            for clash in self._clashes(connector):
                self._at_most(dict.fromkeys(clash, 1.0), 1.0)
        self.repeats: list[int] = []
        for bundle in problem.bundles:
            self._count_repeats(bundle)

    def _unknown(self, upper: float, whole: bool) -> int:
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.upper) - 1

    def _at_most(self, factors: dict[int, float], right: float) -> None:
        if factors:
            self.rows.append((factors, right))

    def _taken(self, j: int) -> dict[int, float]:
        return {k: float(self.problem.takes(self.pairs[k][0])) for k in self.of_offcut[j]}

    def _clashes(self, group: Sequence[int]) -> list[list[int]]:
        """Sets of pairs of a group that want one colour: all that change to it, alone or with each keeper in turn."""
        found: list[list[int]] = []
        members = set(group)
        for colour in sorted({stock.colour for stock in self.problem.stock} - self.problem.repeatable):
            here = [k for k, (i, j) in enumerate(self.pairs) if i in members and self.problem.stock[j].colour == colour]
            changed = [k for k in here if not self.problem.pairs[self.pairs[k]].keeps]
            keepers = sorted({self.pairs[k][0] for k in here if k not in changed})
            sets = [[*changed, *(k for k in here if self.pairs[k][0] == i and k not in changed)] for i in keepers]
            found += [one for one in (sets or [changed]) if changed and len({self.pairs[k][0] for k in one}) > 1]
        return found

    def _count_repeats(self, bundle: Sequence[int]) -> None:
        by_changed: dict[tuple[int, ...], int] = {}
        for clash in self._clashes(bundle):
            changed = tuple(k for k in clash if not self.problem.pairs[self.pairs[k]].keeps)
            if changed not in by_changed:
                by_changed[changed] = self._unknown(len(bundle), whole=False)
                self.repeats.append(by_changed[changed])
            self._at_most({**dict.fromkeys(clash, 1.0), by_changed[changed]: -1.0}, 1.0)

    @cached_property
    def _rests(self) -> dict[int, tuple[int, int]]:
        """Offcut -> unknowns: its rest is unusable; length of that rest. Added when they are first asked for."""
        found: dict[int, tuple[int, int]] = {}
        keep = self.problem.keep
        for j in self.used:
            left = float(self.problem.stock[j].left)
            bad, kept, none = (self._unknown(1.0, whole=True) for _ in range(3))
            waste = self._unknown(max(0.0, keep - 1.0), whole=False)
            taken = self._taken(j)
            for k in self.of_offcut[j]:  # whoever cuts from it leaves one of the three
                self._at_most({k: 1.0, bad: -1.0, kept: -1.0, none: -1.0}, 0.0)
            self._at_most({bad: 1.0, kept: 1.0, none: 1.0}, 1.0)
            self._at_most({**taken, kept: float(min(keep, left))}, left)
            least = {k: -length for k, length in taken.items()}
            self._at_most({**least, none: left, bad: max(0.0, left - keep + 1)}, 0.0)
            self._at_most({**least, bad: left, waste: -1.0}, 0.0)
            found[j] = (bad, waste)
        return found

    def _aim(self, place: int) -> dict[int, float]:
        """What is made least at one point; for new wire the length cut from offcuts, below zero."""
        of = self.problem.pairs
        if place == 0:
            return {k: -float(self.problem.demands[i].length) for k, (i, _) in enumerate(self.pairs)}
        if place == 1:
            return {
                **{k: float(of[pair].marks) for k, pair in enumerate(self.pairs)},
                **dict.fromkeys(self.repeats, 1.0),
            }
        if place == 2:
            return {k: float(of[pair].other_base) for k, pair in enumerate(self.pairs)}
        if place == 3:
            return {bad: 1.0 for bad, _ in self._rests.values()}
        if place == 4:
            return {waste: 1.0 for _, waste in self._rests.values()}
        return {k: float((i + 1) * (j + 1)) for k, (i, j) in enumerate(self.pairs)}

    def _offset(self, place: int) -> int:
        return sum(demand.length for demand in self.problem.demands) if place == 0 else 0

    def hold(self, place: int, value: int) -> None:
        """From now on the point has this value at most."""
        if place + 1 == len(AIMS):
            return
        aim = self._aim(place)
        if place == 0 and value == 0:  # every piece is cut from some offcut; one row for each is quicker than their sum
            for i in range(len(self.problem.demands)):
                self._at_most({k: -1.0 for k, (piece, _) in enumerate(self.pairs) if piece == i}, -1.0)
        elif place > 0 and value == 0:
            for unknown, factor in aim.items():
                if factor:
                    self.upper[unknown] = 0.0
        else:
            self._at_most(aim, float(value - self._offset(place)))

    def solve(self, place: int, seconds: float) -> tuple[Choice | None, int]:
        """The allotment that is best at one point, None when none was found in time; and the least it could be."""
        if seconds <= 0:
            return None, 0
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        aim = self._aim(place)
        width = len(self.upper)
        cost = np.zeros(width)
        cost[list(aim)] = list(aim.values())
        data = [factor for factors, _ in self.rows for factor in factors.values()]
        at_row = [row for row, (factors, _) in enumerate(self.rows) for _ in factors]
        at_column = [column for factors, _ in self.rows for column in factors]
        matrix = csr_array((data, (at_row, at_column)), shape=(len(self.rows), width))
        options: dict[str, Any] = {"mip_rel_gap": 0.0}
        if math.isfinite(seconds):
            options["time_limit"] = seconds
        result = milp(
            cost,
            integrality=np.array(self.whole),
            bounds=Bounds(np.zeros(width), np.array(self.upper)),
            constraints=LinearConstraint(matrix, -np.inf, np.array([right for _, right in self.rows])),
            options=options,
        )
        if result.status not in (0, 1):
            raise RuntimeError(f"the solver gave up: {result.message}")
        found = None if result.x is None else self._choice(result.x)
        if result.status == 0 and found is not None:
            return found, score(self.problem, found)[place]
        least = result.mip_dual_bound
        known = least is not None and math.isfinite(least)
        return found, max(0, math.ceil(least + self._offset(place) - 1e-6)) if known else 0

    def _choice(self, values: Any) -> Choice | None:
        """The allotment in the solver's answer; None when rounding to whole pieces breaks a rule."""
        choice: list[int | None] = [None] * len(self.problem.demands)
        for k, (i, j) in enumerate(self.pairs):
            if values[k] > 0.5:
                choice[i] = j
        return tuple(choice) if allowed(self.problem, tuple(choice)) else None
