"""What keeps the drop of a circuit from being computed or judged, in the few words that a list has room for."""

from __future__ import annotations

import re

from aswired.car.circuits import CircuitFigures
from aswired.network.transfer import POSITIVE_GROUND

MOST_NAMED = 2  # things that are wanting and are named; more are counted


def wanting(figures: CircuitFigures) -> str:
    """Why there is no drop, or no limit to judge it by, in a few words; '' when it is judged."""
    if POSITIVE_GROUND in figures.together.whole.missing:
        return POSITIVE_GROUND
    if figures.together.whole.value is None:
        what, missing = "not computed", figures.together.whole.missing
    elif figures.limit.value is None:
        what, missing = "no limit", figures.limit.missing
    else:
        return ""
    said = list(dict.fromkeys(_short_of(item, figures.load) for item in missing))
    more = [f"and {len(said) - MOST_NAMED} more"] if len(said) > MOST_NAMED else []
    return f"{what}: {', '.join([*said[:MOST_NAMED], *more])}" if said else what


def _short_of(missing: str, load: str) -> str:
    """What a figure lacks, as it is said in a list: of a stretch the wire, of a path its state.

    >>> _short_of("W1 from F2 to horn.1: length not recorded", "horn"), _short_of("current of horn", "horn")
    ('length of W1 not recorded', 'its current not recorded')
    """
    stretch = re.fullmatch(r"(\S+) from .+: (length|size) (?:not recorded|unknown)(, write usual: .+)?", missing)
    if stretch:
        return f"{stretch[2]} of {stretch[1]} not recorded{stretch[3] or ''}"
    if missing.startswith("current of "):
        return f"{'its current' if missing == f'current of {load}' else missing} not recorded"
    if path := re.match(r"(feed|return) (not examined|open)\b", missing):
        return path[0]
    return f"{missing} not recorded" if re.fullmatch(r"[\w ]+", missing) and "recorded" not in missing else missing
