"""Keep labels apart on a line: each as near to its place as the others let it, none on top of another."""

from __future__ import annotations

import itertools
from collections.abc import Sequence


def spread(wanted: Sequence[float], apart: float, top: float = float("-inf")) -> tuple[float, ...]:
    """Places for labels, in the order given, at least `apart` from each other and none above `top`. Any one unit.

    Args:
        wanted: where each label would like to be, shape (n,), not falling.
        apart: least distance of two neighbours, >= 0.
        top: smallest place allowed.

    Raises:
        ValueError: `wanted` falls somewhere.

    Source: isotonic regression by pooling adjacent violators, which moves the labels least in the sum of squares.

    >>> spread([10, 12, 100], 24)
    (-1.0, 23.0, 100.0)
    """
    if any(later < earlier for earlier, later in itertools.pairwise(wanted)):
        raise ValueError("the wanted places do not run downwards")
    blocks: list[tuple[float, int]] = []  # mean of (wanted - index * apart) over a block, number of labels in it
    for index, place in enumerate(wanted):
        mean, count = float(place) - index * apart, 1
        while blocks and blocks[-1][0] > mean:
            before, many = blocks.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        blocks.append((mean, count))
    means = [max(mean, top) for mean, count in blocks for _ in range(count)]
    return tuple(mean + index * apart for index, mean in enumerate(means))
