"""Ids in one sentence, so that one finding tells what many rows share."""

from __future__ import annotations

from collections.abc import Sequence

MOST = 8  # more in one line are not read


def listed(names: Sequence[str]) -> str:
    """The names with commas; of a long list the first ones and how many more there are.

    >>> listed(["C1", "C2"]), listed([f"C{n}" for n in range(1, 11)])
    ('C1, C2', 'C1, C2, C3, C4, C5, C6, C7, C8 and 2 more')
    >>> listed([f"C{n}" for n in range(1, 9)])
    'C1, C2, C3, C4, C5, C6, C7, C8'
    """
    if len(names) <= MOST:
        return ", ".join(names)
    return f"{', '.join(names[:MOST])} and {len(names) - MOST} more"
