"""Branches without resistance: which nodes they make one, and what current each of them carries."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Join:
    """A branch without resistance between the nodes numbered a and b."""

    a: int
    b: int


def merge(node_count: int, joins: Iterable[Join]) -> list[int]:
    """For each node the number of the node that stands for its cluster; shape (node_count,).

    >>> merge(4, [Join(1, 3)])
    [0, 1, 2, 1]
    """
    stands_for = list(range(node_count))

    def top(node: int) -> int:
        while stands_for[node] != node:
            stands_for[node] = stands_for[stands_for[node]]
            node = stands_for[node]
        return node

    for join in joins:
        low, high = sorted((top(join.a), top(join.b)))
        stands_for[high] = low
    return [top(node) for node in range(node_count)]


def join_currents(joins: Sequence[Join], drawn_a: Sequence[float], suppliers: Sequence[int]) -> list[float | None]:
    """Current of each join from a to b [A]; None where it lies in a ring of joins.

    Args:
        joins: shape (n,).
        drawn_a: per node, what leaves it other than through joins [A]; the sum over a cluster is
            zero, but for a cluster with a supplier in it, which supplies the rest.
        suppliers: nodes that supply; the tree of a cluster hangs from the first one in it. Of two in
            one cluster the second counts as drawing nothing.

    A join that is no part of a ring carries all that is drawn beyond it; a share round a ring
    without resistance is not determined (source: current balance; bridges by lowest point reached).

    >>> join_currents([Join(0, 1), Join(1, 2)], [0.0, 1.0, 2.0], [0])
    [3.0, 2.0]
    """
    touching: dict[int, list[int]] = {}
    for place, join in enumerate(joins):
        for node in (join.a, join.b):
            touching.setdefault(node, []).append(place)
    current_a: list[float | None] = [None] * len(joins)
    order: dict[int, int] = {}
    roots = [*(node for node in suppliers if node in touching), *touching]
    for root in roots:
        if root not in order:
            _walk(root, joins, touching, drawn_a, order, current_a)
    return current_a


def _walk(
    root: int,
    joins: Sequence[Join],
    touching: dict[int, list[int]],
    drawn_a: Sequence[float],
    order: dict[int, int],
    current_a: list[float | None],
) -> None:
    """Depth first through one cluster without recursion; fills order and current_a."""
    order[root] = len(order)
    lowest = {root: order[root]}
    beyond_a = {root: drawn_a[root]}
    trail: list[tuple[int, int | None, int]] = [(root, None, 0)]  # node, join it was reached by, next to look at
    while trail:
        node, came_by, look_at = trail.pop()
        if look_at < len(touching[node]):
            trail.append((node, came_by, look_at + 1))
            place = touching[node][look_at]
            join = joins[place]
            other = join.b if join.a == node else join.a
            if place == came_by:
                continue
            if other in order:
                lowest[node] = min(lowest[node], order[other])
            else:
                order[other] = len(order)
                lowest[other] = order[other]
                beyond_a[other] = drawn_a[other]
                trail.append((other, place, 0))
        elif came_by is not None:
            parent = trail[-1][0]
            if lowest[node] > order[parent]:
                current_a[came_by] = beyond_a[node] if joins[came_by].b == node else -beyond_a[node]
            lowest[parent] = min(lowest[parent], lowest[node])
            beyond_a[parent] += beyond_a[node]
