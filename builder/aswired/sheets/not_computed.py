"""What keeps the drop of a circuit from being computed or judged, in the few words that a list has room for."""

from __future__ import annotations

from aswired.car.circuits import CircuitFigures
from aswired.network.transfer import POSITIVE_GROUND
from aswired.physics.figure import Missing, current_of
from aswired.text.unsaid import NOT_RECORDED

MOST_NAMED = 2  # things that are wanting and are named; more are counted


def wanting(figures: CircuitFigures) -> str:
    """Why there is no drop, or no limit to judge it by, in a few words; '' when it is judged."""
    if POSITIVE_GROUND in figures.together.whole.missing:
        return str(POSITIVE_GROUND)
    if figures.together.whole.value is None:
        what, missing = "not computed", figures.together.whole.missing
    elif figures.limit.value is None:
        what, missing = "no limit", figures.limit.missing
    else:
        return ""
    said = list(dict.fromkeys(_short_of(item, figures.load) for item in missing))
    more = [f"and {len(said) - MOST_NAMED} more"] if len(said) > MOST_NAMED else []
    return f"{what}: {', '.join([*said[:MOST_NAMED], *more])}" if said else what


def _short_of(missing: Missing, load: str) -> str:
    """What a figure lacks, as it is said in a list: of a stretch the wire, of a path its state.

    >>> _short_of(Missing("length", "W1", "W1 from F2 to horn.1"), "horn")
    'length of W1 not recorded'
    >>> _short_of(Missing("current", "horn"), "horn")
    'its current not recorded'
    """
    if missing.part and missing.what and missing.of:
        return Missing(missing.what, missing.of).told + (f", write {missing.write}" if missing.write else "")
    if missing == current_of(load):
        return f"its current {NOT_RECORDED}"
    return f"{missing.what} {missing.state}" if missing.state and missing.why else missing.told
