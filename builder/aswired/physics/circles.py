"""What leads back to itself: rows that stand for each other, checks that prove each other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence


def circles(leads: Mapping[str, Sequence[str]]) -> list[dict[str, None]]:
    """Groups of names each of which leads to every other of its group, and names that lead to themselves.

    Groups are told as they close, each in the order of `leads`; every name that is led to has to stand in `leads`.
    Tarjan's strongly connected components (SIAM J. Comput. 1972), without recursion: each pointer is followed once.

    >>> circles({"a": ["b"], "b": ["a", "c"], "c": [], "d": ["d"]})
    [{'a': None, 'b': None}, {'d': None}]
    """
    place = {id: count for count, id in enumerate(leads)}
    number: dict[str, int] = {}
    lowest: dict[str, int] = {}
    open_: dict[str, None] = {}  # names met, whose group is not closed yet
    found: list[dict[str, None]] = []
    for start in leads:
        ways = [] if start in number else [(start, iter(leads[start]))]
        while ways:
            at, ahead = ways[-1]
            if at not in number:
                number[at] = lowest[at] = len(number)
                open_[at] = None
            old = next(ahead, None)
            if old is None:
                ways.pop()
                if ways:
                    lowest[ways[-1][0]] = min(lowest[ways[-1][0]], lowest[at])
                if lowest[at] == number[at]:
                    group = set()
                    while at not in group:
                        group.add(open_.popitem()[0])
                    if len(group) > 1 or at in leads[at]:
                        found.append(dict.fromkeys(sorted(group, key=place.__getitem__)))
            elif old not in number:
                ways.append((old, iter(leads[old])))
            elif old in open_:
                lowest[at] = min(lowest[at], number[old])
    return found
