"""The greatest current that can arrive somewhere, where each link lets only so much through.

A fuse is a link of its rating, copper and closed switches are links without limit. Fuses in series then give the
smallest of them, fuses side by side their sum, a bridged fuse nothing at all, and a ring is taken as a whole.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise

PARTS = 10**9  # of an ampere: what is smaller counts as nought
_Room = dict[str, dict[str, int]]  # from a node to its neighbour: what may still flow that way, in equal small parts


@dataclass(frozen=True)
class Flow:
    """The greatest flow and what limits it.

    amps: what arrives at most [A]; math.inf where nothing limits it, 0.0 where nothing arrives.
    through: the links of a smallest cut, as indices into the links that were given, rising; of several smallest cuts
        the one nearest the sources. () where nothing arrives or nothing limits it.
    """

    amps: float
    through: tuple[int, ...]


def greatest_flow(links: Sequence[tuple[str, str, float]], sources: Collection[str], goals: Collection[str]) -> Flow:
    """The greatest flow from all sources together to all goals together.

    Args:
        links: two nodes and what the link lets through either way [A], >= 0; math.inf = without limit.
        sources: the nodes that it comes from; none: nothing arrives.
        goals: the nodes that it is to reach; one that is a source too is reached without limit.

    Raises:
        ValueError: a capacity is below zero or not a number.

    Source: theorem of Ford and Fulkerson, greatest flow = smallest cut; shortest ways first (Edmonds and Karp).

    >>> greatest_flow([("bat", "a", 20.0), ("a", "b", 10.0), ("a", "b", 5.0)], ["bat"], ["b"])
    Flow(amps=15.0, through=(1, 2))
    """
    for one, other, amps in links:
        if not amps >= 0:
            raise ValueError(f"capacity of {one} to {other} must not be below zero, got {amps:g}")
    if not sources or not goals:
        return Flow(0.0, ())
    joined = ((one, other) for one, other, amps in links if amps == math.inf)
    piece = _pieces(chain(joined, pairwise(sources), pairwise(goals)))
    source, goal = (piece.get(ends[0], ends[0]) for ends in (tuple(sources), tuple(goals)))
    if source == goal:
        return Flow(math.inf, ())
    # In whole parts every sum is exact: as decimals that somebody wrote, 0.1 + 0.2 is 0.3.
    exact = [0 if amps == math.inf else round(amps * PARTS) for _, _, amps in links]
    ends = [(piece.get(one, one), piece.get(other, other)) for one, other, _ in links]
    room = _room(ends, exact)
    total = 0
    while goal in (before := _reached(room, source, goal)):
        total += _fill(room, before, goal)
    cut = [
        index for index, (one, other) in enumerate(ends) if exact[index] > 0 and (one in before) != (other in before)
    ]
    return Flow(total / PARTS, tuple(cut))


def _pieces(joined: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Node -> the node that stands for all it is joined with without limit; nodes joined with none are not in it."""
    above: dict[str, str] = {}

    def top(node: str) -> str:
        while (next_up := above.setdefault(node, node)) != node:
            above[node] = above[next_up]  # half the way at each look keeps the ways short
            node = next_up
        return node

    for one, other in joined:
        above[top(one)] = top(other)
    return {node: top(node) for node in list(above)}


def _room(ends: Iterable[tuple[str, str]], capacity: Iterable[int]) -> _Room:
    """What may flow from each piece to each neighbour, links side by side as one."""
    room: _Room = {}
    for (one, other), parts in zip(ends, capacity, strict=True):
        if one != other and parts:
            for start, end in ((one, other), (other, one)):
                ways = room.setdefault(start, {})
                ways[end] = ways.get(end, 0) + parts
    return room


def _reached(room: _Room, source: str, goal: str) -> dict[str, str]:
    """Each piece with room left to it from the source, with the piece before it; no further than to the goal."""
    before = {source: source}
    todo = [source]
    for at in todo:
        for end, parts in room.get(at, {}).items():
            if parts and end not in before:
                before[end] = at
                if end == goal:
                    return before
                todo.append(end)
    return before


def _fill(room: _Room, before: dict[str, str], goal: str) -> int:
    """Sends as much as one way to the goal bears along it, takes that off its room, and tells how much it was."""
    way = [goal]
    while before[way[-1]] != way[-1]:
        way.append(before[way[-1]])
    parts = min(room[start][end] for end, start in pairwise(way))
    for end, start in pairwise(way):
        room[start][end] -= parts
        room[end][start] += parts
    return parts
