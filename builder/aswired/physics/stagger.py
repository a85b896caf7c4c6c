"""Places for joints along a stretch of bundle: clear of what must stay clear, and of each other.

Distances are millimetres from the beginning of the stretch. Joints keep the order in which they are given.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

_EXACT = 1e-6  # a joint may lie exactly at a limit


@dataclass(frozen=True)
class Keep:
    """What a joint has to stay clear of: a point (start = end) or a run of the bundle.

    `clear_mm` is from the joint's centre to it; `sleeve_mm` is set when it is a joint with a sleeve of its own: the two
    sleeves must not overlap either.
    """

    start_mm: float
    end_mm: float
    clear_mm: float
    what: str = ""
    sleeve_mm: float = 0.0

    def off(self, sleeve_mm: float) -> float:
        """How far the centre of a joint with such a sleeve has to stay away. [mm]"""
        return max(self.clear_mm, (sleeve_mm + self.sleeve_mm) / 2)

    def bars(self, at_mm: float, sleeve_mm: float) -> bool:
        off = self.off(sleeve_mm)
        return self.start_mm - off + _EXACT < at_mm < self.end_mm + off - _EXACT


@dataclass(frozen=True)
class Spread:
    """Places of the joints' centres, or None when the stretch is too short; then `wants_mm` says how long it must be.

    `wants_mm` is None when no length helps. `apart_mm` is the distance from joint to joint that was held.
    """

    places_mm: tuple[float, ...] | None
    wants_mm: float | None
    apart_mm: float


def spread(
    length_mm: float, keeps: Sequence[Keep], sleeves_mm: Sequence[float], apart_mm: float, near_mm: Sequence[float] = ()
) -> Spread:
    """Places for joints on a stretch; found whenever there are any.

    Args:
        length_mm: of the stretch, >= 0. A keep at or beyond it moves out with the end when the stretch is lengthened.
        keeps: what to stay clear of.
        sleeves_mm: sleeve of each joint, 0 when it has none, in the order in which the joints lie.
        apart_mm: least distance between the centres of neighbours; sleeves are kept from overlapping besides.
        near_mm: where each joint would best lie; without it they lie as near the beginning as they may.

    Raises:
        ValueError: near_mm is given and does not name a place for each joint.

    >>> spread(300, [Keep(0, 0, 40), Keep(300, 300, 40)], [40, 40, 40], 50).places_mm
    (40, 90, 140)
    >>> spread(150, [Keep(0, 0, 40), Keep(150, 150, 40)], [40, 40, 40], 50).wants_mm
    180.0
    """
    if near_mm and len(near_mm) != len(sleeves_mm):
        raise ValueError(f"{len(sleeves_mm)} joints, but {len(near_mm)} places")
    mirrored = [Keep(length_mm - k.end_mm, length_mm - k.start_mm, k.clear_mm, k.what, k.sleeve_mm) for k in keeps]
    earliest = _earliest(keeps, sleeves_mm, apart_mm, length_mm)
    back = _earliest(mirrored, sleeves_mm[::-1], apart_mm, length_mm)
    if earliest is None or back is None:
        return Spread(None, _wanted(length_mm, keeps, sleeves_mm, apart_mm), apart_mm)
    if not near_mm:
        return Spread(tuple(earliest), None, apart_mm)
    latest = [length_mm - at for at in reversed(back)]
    places: list[float] = []
    for index, sleeve in enumerate(sleeves_mm):
        first = places[-1] + _between(sleeves_mm, index, apart_mm) if places else 0.0
        places.append(_nearest(near_mm[index], first, latest[index], keeps, sleeve))
    return Spread(tuple(places), None, apart_mm)


def broken(places_mm: Sequence[float], keeps: Sequence[Keep], sleeves_mm: Sequence[float], apart_mm: float) -> set[int]:
    """Which joints, by their number, lie too near to something or to a neighbour. Places in any order."""
    found = {
        index
        for index, (at, sleeve) in enumerate(zip(places_mm, sleeves_mm, strict=True))
        if any(keep.bars(at, sleeve) for keep in keeps)
    }
    order = sorted(range(len(places_mm)), key=lambda index: places_mm[index])
    for before, after in pairwise(order):
        wanted = max(apart_mm, (sleeves_mm[before] + sleeves_mm[after]) / 2)
        if places_mm[after] - places_mm[before] < wanted - _EXACT:
            found |= {before, after}
    return found


def _between(sleeves_mm: Sequence[float], index: int, apart_mm: float) -> float:
    """From the joint before this one to this one."""
    return max(apart_mm, (sleeves_mm[index - 1] + sleeves_mm[index]) / 2)


def _earliest(
    keeps: Sequence[Keep], sleeves_mm: Sequence[float], apart_mm: float, length_mm: float
) -> list[float] | None:
    """Each joint as early as it may lie: nothing placed so ever hinders a later one, so it fails only if all fail."""
    places: list[float] = []
    for index, sleeve in enumerate(sleeves_mm):
        at = places[-1] + _between(sleeves_mm, index, apart_mm) if places else 0.0
        at = _clear_from(at, keeps, sleeve)
        if at > length_mm + _EXACT:
            return None
        places.append(at)
    return places


def _clear_from(at_mm: float, keeps: Sequence[Keep], sleeve_mm: float) -> float:
    """The first place at or behind `at_mm` that nothing bars."""
    for keep in sorted(keeps, key=lambda keep: keep.start_mm - keep.off(sleeve_mm)):
        if keep.bars(at_mm, sleeve_mm):
            at_mm = keep.end_mm + keep.off(sleeve_mm)
    return at_mm


def _nearest(wanted_mm: float, first_mm: float, last_mm: float, keeps: Sequence[Keep], sleeve_mm: float) -> float:
    """The place from first to last that nothing bars and that lies nearest to the wanted one."""
    edges = [edge for k in keeps for edge in (k.start_mm - k.off(sleeve_mm), k.end_mm + k.off(sleeve_mm))]
    choices = [at for at in (wanted_mm, first_mm, last_mm, *edges) if first_mm - _EXACT <= at <= last_mm + _EXACT]
    free = [at for at in choices if not any(keep.bars(at, sleeve_mm) for keep in keeps)]
    return min(free, key=lambda at: (abs(at - wanted_mm), at))


def _wanted(length_mm: float, keeps: Sequence[Keep], sleeves_mm: Sequence[float], apart_mm: float) -> float | None:
    """The shortest stretch that would do, what lies at its end moved out with it."""
    fixed = [keep for keep in keeps if keep.end_mm < length_mm - _EXACT]
    ends = [keep for keep in keeps if keep.end_mm >= length_mm - _EXACT]
    if any(keep.start_mm <= _EXACT for keep in ends):  # it covers the whole stretch
        return None
    places = _earliest(fixed, sleeves_mm, apart_mm, float("inf"))
    if not places:
        return None
    last = sleeves_mm[-1]
    return max([places[-1], *(places[-1] + k.off(last) + max(0.0, length_mm - k.start_mm) for k in ends)])
