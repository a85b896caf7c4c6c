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

from aswired.compute.joins import Join, join_currents, merge

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


def solve(edges: Sequence[Edge[Node]], currents_a: Mapping[Node, float], reference: Node) -> Solution[Node]:
    """Solve a resistive network with known currents.

    Args:
        edges: any order; several between the same two nodes are parallel; shape (n,).
        currents_a: node -> current drawn OUT of the network there [A]: a load draws from its feed
            node (above zero) and puts the same into its ground node (below zero). Nodes left out
            draw nothing.
        reference: the node at 0 V; it supplies whatever the others draw. A current drawn at the
            reference itself changes nothing.

    Returns:
        Voltages and currents. A feed node lies below the reference by the drop to it, a ground
        node above it.

    Raises:
        ValueError: a resistance is below zero or not a number, or a current is not a number.

    >>> solve([Edge("battery", "lamp", 50.0)], {"lamp": 4.0}, "battery").voltage_v["lamp"]
    -0.2
    """
    for edge in edges:
        if not (math.isfinite(edge.resistance_mohm) and edge.resistance_mohm >= 0):
            raise ValueError(f"resistance_mohm must be a number not below zero, got {edge.resistance_mohm}")
    for current in currents_a.values():
        if not math.isfinite(current):
            raise ValueError(f"currents_a must be numbers, got {current}")
    number = _numbered(edges, currents_a, reference)
    joins = {
        place: Join(number[edge.a], number[edge.b])
        for place, edge in enumerate(edges)
        if edge.resistance_mohm < JOIN_BELOW_MOHM
    }
    cluster = merge(len(number), joins.values())
    injected_a = [0.0] * len(number)
    for node, current in currents_a.items():
        injected_a[cluster[number[node]]] -= current
    voltage = _eliminate(_conductances(edges, number, cluster), injected_a, cluster[number[reference]])
    voltage_v = {node: voltage[cluster[index]] for node, index in number.items()}

    current_a: list[float | None] = [None] * len(edges)
    drawn_a = [0.0] * len(number)
    for node, current in currents_a.items():
        drawn_a[number[node]] += current
    for place, edge in enumerate(edges):
        if place in joins:
            continue
        at_a, at_b = voltage_v[edge.a], voltage_v[edge.b]
        if at_a is None or at_b is None:
            continue
        through = (at_a - at_b) / (edge.resistance_mohm / 1000)
        current_a[place] = through
        drawn_a[number[edge.a]] += through
        drawn_a[number[edge.b]] -= through
    fed = {place: join for place, join in joins.items() if voltage[cluster[join.a]] is not None}
    for place, through_join in zip(fed, join_currents(list(fed.values()), drawn_a, number[reference]), strict=True):
        current_a[place] = through_join
    return Solution(voltage_v, tuple(current_a))


def _numbered(edges: Iterable[Edge[Node]], currents_a: Mapping[Node, float], reference: Node) -> dict[Node, int]:
    """Every node once, numbered in the order met, so that one input has one result."""
    number: dict[Node, int] = {reference: 0}
    for edge in edges:
        for node in (edge.a, edge.b):
            number.setdefault(node, len(number))
    for node in currents_a:
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


def _eliminate(neighbours: list[dict[int, float]], injected_a: list[float], reference: int) -> list[float | None]:
    """Voltages [V] by taking nodes out and putting them back in reverse. Uses up both lists."""
    taken: list[tuple[int, float]] = []
    waiting = [(len(near), node) for node, near in enumerate(neighbours) if near and node != reference]
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
            if i != reference:
                heapq.heappush(waiting, (len(neighbours[i]), i))
    voltage: list[float | None] = [None] * len(neighbours)
    voltage[reference] = 0.0
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
