"""Node voltages and branch currents of a direct-current network of resistances.

Method: nodes are taken out one at a time, fewest neighbours first; each one's star of resistances is
replaced by the equal mesh between its neighbours, its current shared among them. A tree never makes
a mesh, so it costs little more than its number of nodes. Every conductance stays positive and nothing
is subtracted, so large and small resistances may stand side by side.
Source: star-mesh transformation (Rosen 1924; from memory), held against a dense solver in the tests.
"""

import heapq
import math
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from aswired.physics.joins import Join, join_currents, merge

Node = TypeVar("Node", bound=Hashable)

# [mΩ] below this two nodes are one: the current of such a branch could only be had as the difference
# of two equal voltages divided by next to nothing.
JOIN_BELOW_MOHM = 1e-6


@dataclass(frozen=True)
class Edge(Generic[Node]):
    """A resistance between two nodes: resistance_mohm [mΩ], >= 0. Current counts from a to b."""

    a: Node
    b: Node
    resistance_mohm: float


@dataclass(frozen=True)
class Solution(Generic[Node]):
    """A solved network.

    voltage_v: each node against the reference [V]; None = not connected to it.
    current_a: one entry an edge, in the order given, positive from a to b [A]; None = not connected
        to the reference, or without resistance in a ring without resistance, where the share of
        each way round is not determined.
    """

    voltage_v: Mapping[Node, float | None]
    current_a: tuple[float | None, ...]


def solve(
    edges: Sequence[Edge[Node]],
    currents_a: Mapping[Node, float],
    reference: Node,
    held_v: Mapping[Node, float] | None = None,
) -> Solution[Node]:
    """Solve a resistive network with known currents, and nodes that are held at a voltage.

    Args:
        edges: any order; several between the same two nodes are parallel; shape (n,).
        currents_a: node -> current drawn OUT of the network there [A]: a load draws from its feed
            node (above zero) and puts the same into its ground node (below zero). Nodes left out
            draw nothing.
        reference: the node at 0 V; it supplies whatever the others draw. A current drawn at the
            reference itself changes nothing.
        held_v: other nodes and the voltage at which each is held against the reference [V], as by a
            battery. An edge without resistance between two of them at different voltages is a short:
            it is left out, and its current is not told.

    Returns:
        Voltages and currents. A feed node lies below the reference by the drop to it, a ground
        node above it.

    Raises:
        ValueError: a resistance is below zero or not a number, or a current is not a number.

    >>> solve([Edge("battery", "lamp", 50.0)], {"lamp": 4.0}, "battery").voltage_v["lamp"]
    -0.2
    """
    held = {reference: 0.0, **(held_v or {})}
    _want_numbers(edges, currents_a.values(), held.values())
    number = _numbered(edges, (*currents_a, *held), reference)
    without = {
        place: Join(number[edge.a], number[edge.b])
        for place, edge in enumerate(edges)
        if edge.resistance_mohm < JOIN_BELOW_MOHM
    }
    joins = _no_shorts(without, {number[node]: volts for node, volts in held.items()})
    cluster = merge(len(number), joins.values())
    fixed_v = {cluster[number[node]]: volts for node, volts in held.items()}
    injected_a = [0.0] * len(number)
    for node, current in currents_a.items():
        injected_a[cluster[number[node]]] -= current
    resisting = [edge for place, edge in enumerate(edges) if place not in without]
    voltage = _eliminate(_conductances(resisting, number, cluster), injected_a, fixed_v)
    voltage_v = {node: voltage[cluster[index]] for node, index in number.items()}

    current_a = [None if place in without else _through_a(edge, voltage_v) for place, edge in enumerate(edges)]
    drawn_a = [0.0] * len(number)
    for node, current in currents_a.items():
        drawn_a[number[node]] += current
    for edge, through in zip(edges, current_a, strict=True):
        drawn_a[number[edge.a]] += through or 0.0
        drawn_a[number[edge.b]] -= through or 0.0
    fed = {place: join for place, join in joins.items() if voltage[cluster[join.a]] is not None}
    suppliers = [number[node] for node in held]
    for place, through_join in zip(fed, join_currents(list(fed.values()), drawn_a, suppliers), strict=True):
        current_a[place] = through_join
    return Solution(voltage_v, tuple(current_a))


def _through_a(edge: Edge[Node], voltage_v: Mapping[Node, float | None]) -> float | None:
    """The current from a to b through a resistance; None where nothing holds a voltage. [A]"""
    at_a, at_b = voltage_v[edge.a], voltage_v[edge.b]
    return None if at_a is None or at_b is None else (at_a - at_b) / (edge.resistance_mohm / 1000)


def _want_numbers(edges: Sequence[Edge[Node]], currents_a: Iterable[float], held_v: Iterable[float]) -> None:
    """Raise ValueError where a resistance is below zero, or anything is not a number."""
    for edge in edges:
        if not (math.isfinite(edge.resistance_mohm) and edge.resistance_mohm >= 0):
            raise ValueError(f"resistance_mohm must be a number not below zero, got {edge.resistance_mohm}")
    for name, values in (("currents_a", currents_a), ("held_v", held_v)):
        for value in values:
            if not math.isfinite(value):
                raise ValueError(f"{name} must be numbers, got {value}")


def _no_shorts(joins: Mapping[int, Join], held_v: Mapping[int, float]) -> dict[int, Join]:
    """The joins that do not tie together nodes held at different voltages."""
    found: dict[int, Join] = {}
    above: dict[int, int] = {}
    at_v = dict(held_v)

    def top(node: int) -> int:
        while node in above:
            node = above[node]
        return node

    for place, join in joins.items():
        a, b = top(join.a), top(join.b)
        if a in at_v and b in at_v and at_v[a] != at_v[b]:
            continue
        found[place] = join
        if a != b:
            above[b] = a
            if b in at_v:
                at_v[a] = at_v[b]
    return found


def _numbered(edges: Iterable[Edge[Node]], others: Iterable[Node], reference: Node) -> dict[Node, int]:
    """Every node once, numbered in the order met, so that one input has one result."""
    number: dict[Node, int] = {reference: 0}
    for edge in edges:
        for node in (edge.a, edge.b):
            number.setdefault(node, len(number))
    for node in others:
        number.setdefault(node, len(number))
    return number


def _conductances(
    edges: Iterable[Edge[Node]], number: Mapping[Node, int], cluster: Sequence[int]
) -> list[dict[int, float]]:
    """Neighbours of each node and the conductance to them [S]; parallel edges added up."""
    neighbours: list[dict[int, float]] = [{} for _ in number]
    for edge in edges:
        a, b = cluster[number[edge.a]], cluster[number[edge.b]]
        if a == b:
            continue
        siemens = 1000 / edge.resistance_mohm
        neighbours[a][b] = neighbours[a].get(b, 0.0) + siemens
        neighbours[b][a] = neighbours[b].get(a, 0.0) + siemens
    return neighbours


def _eliminate(
    neighbours: list[dict[int, float]], injected_a: list[float], fixed_v: Mapping[int, float]
) -> list[float | None]:
    """Voltages [V] by taking nodes out and putting them back in reverse. Uses up both lists."""
    taken: list[tuple[int, float]] = []
    waiting = [(len(near), node) for node, near in enumerate(neighbours) if near and node not in fixed_v]
    heapq.heapify(waiting)
    done = [False] * len(neighbours)
    while waiting:
        degree, node = heapq.heappop(waiting)
        near = neighbours[node]
        if done[node] or degree != len(near):
            continue  # an entry overtaken by a later one
        done[node] = True
        if not near:
            continue  # the last node of a part that the reference does not reach
        total = math.fsum(near.values())
        taken.append((node, total))
        around = list(near.items())
        for place, (i, to_i) in enumerate(around):
            part = to_i / total
            injected_a[i] += injected_a[node] * part
            del neighbours[i][node]
            for j, to_j in around[:place]:
                siemens = part * to_j
                neighbours[i][j] = neighbours[i].get(j, 0.0) + siemens
                neighbours[j][i] = neighbours[j].get(i, 0.0) + siemens
        for i, _ in around:
            if i not in fixed_v:
                heapq.heappush(waiting, (len(neighbours[i]), i))
    voltage: list[float | None] = [None] * len(neighbours)
    for node, volts in fixed_v.items():
        voltage[node] = volts
    for node, total in reversed(taken):
        lifted = injected_a[node]
        for near_node, siemens in neighbours[node].items():
            near_v = voltage[near_node]
            if near_v is None:
                break
            lifted += siemens * near_v
        else:
            voltage[node] = lifted / total
    return voltage
