"""Fuse against wire: the planning rating of a copper area, and the share of a fuse a load uses for good."""

from dataclasses import dataclass

from aswired.physics.carrying import PLANNED_A, PLANNING_MARK, planned_a

# Copper area [mm²] -> planning rating [A], smallest first.
PLANNING_RATING_A = {area: row.amps for area, row in PLANNED_A.items()}
# Ratings in which blade fuses are sold [A], ISO 8820-3: read, but for 5 and 35 A, which are from memory.
BLADE_RATINGS_A = (1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0)


@dataclass(frozen=True)
class PlanningRating:
    """What a wire may carry: rating_a [A] of the row row_mm2 [mm²] of the planning table; note says how it was had."""

    rating_a: float
    row_mm2: float
    note: str


@dataclass(frozen=True)
class FuseVerdict:
    """Whether a fuse protects a wire.

    ok: True or False; None = not judged (a value not recorded, or an area below the table). A wire thinner than the
        smallest row bears less than that row: a fuse above that is False.
    rating_a: planning rating of the wire [A], None when there is none.
    row_mm2: the table row that was used [mm²], None when there is none.
    note: the reason in words.
    """

    ok: bool | None
    rating_a: float | None
    row_mm2: float | None
    note: str


def planning_rating(area_mm2: float) -> PlanningRating | None:
    """Planning rating of a copper area; None for one thinner than the smallest row (not judged).

    Args:
        area_mm2: copper cross-section [mm²], > 0. The row counts that carrying.planned_a finds.

    Raises:
        ValueError: the area is not above zero.

    Source: carrying.PLANNED_A; the note says what its row rests on.

    >>> planning_rating(1.85).rating_a
    15.0
    """
    found = planned_a(area_mm2)
    if found is None:
        return None
    rests_on = found.mark if found.mark == PLANNING_MARK else f"{found.source} ({found.mark})"
    note = "; ".join(part for part in (rests_on, found.note) if part)
    return PlanningRating(found.value, found.row, note)


def judge_fuse(fuse_a: float | None, area_mm2: float | None) -> FuseVerdict:
    """Verdict of a fuse against the thinnest wire it protects: fuse <= planning rating.

    Args:
        fuse_a: fuse rating [A], > 0; None = not recorded.
        area_mm2: copper area of the thinnest wire [mm²], > 0; None = not recorded.

    Raises:
        ValueError: a value is given and not above zero.

    >>> judge_fuse(15, 1.0).ok
    False
    """
    if fuse_a is not None and not fuse_a > 0:
        raise ValueError(f"fuse_a must be above zero, got {fuse_a:g}")
    if area_mm2 is None:
        return FuseVerdict(None, None, None, "not judged: wire size not recorded")
    rating = planning_rating(area_mm2)
    if rating is None:
        thin = f"{area_mm2:.3g} mm² is thinner than the smallest row, {smallest_row()}"
        if fuse_a is not None and fuse_a > PLANNING_RATING_A[min(PLANNING_RATING_A)]:
            return FuseVerdict(False, None, None, thin)
        return FuseVerdict(None, None, None, f"not judged: {thin}")
    if fuse_a is None:
        return FuseVerdict(None, rating.rating_a, rating.row_mm2, f"not judged: fuse not recorded; {rating.note}")
    return FuseVerdict(fuse_a <= rating.rating_a, rating.rating_a, rating.row_mm2, rating.note)


def smallest_row() -> str:
    """The smallest row of the planning table in words; a thinner wire bears less.

    >>> smallest_row()
    '0.13 mm², which may carry 1 A'
    """
    row_mm2 = min(PLANNING_RATING_A)
    return f"{row_mm2:g} mm², which may carry {PLANNING_RATING_A[row_mm2]:g} A"


def mending_fuse_a(rating_a: float, needed_a: float) -> float | None:
    """Largest blade fuse that suits a wire and still bears its load [A]; None where none does both.

    Args:
        rating_a: planning rating of the thinnest wire [A], > 0
        needed_a: least rating that bears the load [A], >= 0; 0 where no load is known

    Source: BLADE_RATINGS_A.

    >>> mending_fuse_a(12, 6.5), mending_fuse_a(10, 11.25)
    (10.0, None)
    """
    largest = max((rating for rating in BLADE_RATINGS_A if rating <= rating_a), default=None)
    return largest if largest is not None and largest >= needed_a else None


def least_area_mm2(fuse_a: float) -> float | None:
    """Thinnest row of the planning table that a fuse suits [mm²]; None above what the table holds.

    >>> least_area_mm2(20), least_area_mm2(12), least_area_mm2(80), least_area_mm2(400)
    (2.5, 1.5, 16.0, None)
    """
    return min((row for row, rating_a in PLANNING_RATING_A.items() if rating_a >= fuse_a), default=None)
