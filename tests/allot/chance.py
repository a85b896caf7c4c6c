"""Allotment problems drawn by chance, and a second scoring of an answer that shares nothing with the program's own."""

from __future__ import annotations

import itertools
import random

from aswired.rack.allot import Choice, Demand, Fit, Problem, Stock

COLOURS = ("BU", "RD", "GN", "BK")


def drawn(seed: int, most_demands: int, most_stock: int, least_demands: int = 1) -> Problem:
    """A problem whose lengths lie so that some pieces find no offcut and some rests are of every sort."""
    random_ = random.Random(seed)
    n, m = random_.randint(least_demands, most_demands), random_.randint(max(1, least_demands // 2), most_stock)
    demands = tuple(Demand(f"D{i}", random_.choice((1000, 1500, 2000, 2750, 3000, 4300))) for i in range(n))
    stock = tuple(
        Stock(f"O{j}", random_.choice((1800, 2300, 3600, 4600, 5200, 6900)), random_.choice(COLOURS)) for j in range(m)
    )
    pairs = {}
    own = [random_.choice(COLOURS) for _ in range(n)]
    for i, j in itertools.product(range(n), range(m)):
        if random_.random() < 0.8:
            alike = own[i] == stock[j].colour
            pairs[i, j] = Fit(int(not alike) + random_.choice((0, 0, 0, 1)), not alike, alike)

    def groups(number: int) -> tuple[tuple[int, ...], ...]:
        sizes = [random_.randint(2, min(n, 5)) for _ in range(number)] if n > 1 else []
        return tuple(tuple(sorted(random_.sample(range(n), size))) for size in sizes)

    few = max(1, n // 5)
    repeatable = frozenset({"BK"}) if random_.random() < 0.5 else frozenset[str]()
    return Problem(demands, stock, pairs, groups(few), groups(few), repeatable, random_.choice((0, 300)), 1500)


def plain_score(problem: Problem, choice: Choice) -> tuple[int, ...] | None:
    """The six points counted from their words, None when a rule is broken. Slow on purpose: pair by pair."""
    new_wire = marks = other_base = unusable = length_unusable = order = 0
    rest = {j: stock.left for j, stock in enumerate(problem.stock)}
    cut_from = set()
    for i, j in enumerate(choice):
        if j is None:
            new_wire += problem.demands[i].length
            continue
        if (i, j) not in problem.pairs:
            return None
        rest[j] -= problem.demands[i].length + problem.trim
        cut_from.add(j)
        marks += problem.pairs[i, j].marks
        other_base += 1 if problem.pairs[i, j].other_base else 0
        order += (i + 1) * (j + 1)
    if min(rest.values()) < 0:
        return None
    for j in cut_from:
        if rest[j] != 0 and rest[j] < problem.keep:
            unusable += 1
            length_unusable += rest[j]
    for connector in problem.connectors:
        if _clashing(problem, choice, connector):
            return None
    for bundle in problem.bundles:
        marks += _clashing(problem, choice, bundle)
    return (new_wire, marks, other_base, unusable, length_unusable, order)


def _clashing(problem: Problem, choice: Choice, group: tuple[int, ...]) -> int:
    """Walk through a group, those that keep their colour first: each change to a colour met before counts one."""
    met: set[str] = set()
    clashes = 0
    for keeping in (True, False):
        for i in group:
            j = choice[i]
            if j is None or problem.pairs[i, j].keeps is not keeping:
                continue
            colour = problem.stock[j].colour
            if colour in problem.repeatable:
                continue
            if not keeping and colour in met:
                clashes += 1
            met.add(colour)
    return clashes


def best_by_trying_all(problem: Problem) -> tuple[int, ...]:
    """The least score over every way to choose."""
    ways = itertools.product((None, *range(len(problem.stock))), repeat=len(problem.demands))
    return min(found for way in ways if (found := plain_score(problem, way)) is not None)
