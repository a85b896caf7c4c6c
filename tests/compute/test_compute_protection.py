"""Fuse verdicts against the planning table.

The table is a planning value (estimate set between published shop figures: 0.65 mm² 5.75 A, 1.0 mm² 8.75 A,
2.0 mm² 17.5 A, 2.5 mm² 21.75 A on one side, 1.85 mm² 22 A, 4.6 mm² 38 A and more on the other; read). No standard
prints it, so the tests hold its rows and its rule, not its truth.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.physics.protection import FuseVerdict, judge_fuse, least_area_mm2, mending_fuse_a, planning_rating

ROWS = [(0.5, 5), (0.75, 7.5), (1.0, 10), (1.5, 15), (2.0, 15), (2.5, 20), (4.0, 30), (6.0, 40)]
MARK = "planning value, estimate set conservatively between published shop figures"


@pytest.mark.parametrize(("area_mm2", "rating_a"), ROWS)
def test_a_fuse_of_the_rating_passes_and_a_larger_one_does_not(area_mm2: float, rating_a: float) -> None:
    assert judge_fuse(rating_a, area_mm2) == FuseVerdict(True, rating_a, area_mm2, MARK)
    assert judge_fuse(rating_a + 0.5, area_mm2) == FuseVerdict(False, rating_a, area_mm2, MARK)


@pytest.mark.parametrize(
    ("area_mm2", "row_mm2", "rating_a"),
    [
        (0.508, 0.5, 5),
        (0.76, 0.75, 7.5),
        (1.12, 1.0, 10),
        (1.85, 2.0, 15),
        (2.91, 2.5, 20),
        (5.5, 4.0, 30),
        (5.99, 6.0, 40),
    ],
)
def test_the_row_that_counts_is_named(area_mm2: float, row_mm2: float, rating_a: float) -> None:
    verdict = judge_fuse(5, area_mm2)
    assert (verdict.ok, verdict.rating_a, verdict.row_mm2) == (True, rating_a, row_mm2)
    assert verdict.note == f"{MARK}; {area_mm2:g} mm² counts as the {row_mm2:g} mm² row"


@pytest.mark.parametrize(
    ("area_mm2", "rating_a", "source"),
    [
        (0.35, 3, "10 A/mm² of 0.5 mm² carried on, down to a rating that is sold"),
        (16, 85, "33 CFR 183.425 Table 5, column 60 °C, between its rows straight by logarithms, down to 5 A"),
    ],
)
def test_the_thin_and_the_thick_rows_are_judged_and_say_what_they_rest_on(
    area_mm2: float, rating_a: float, source: str
) -> None:
    assert judge_fuse(rating_a, area_mm2) == FuseVerdict(True, rating_a, area_mm2, f"{source} (computed)")
    assert judge_fuse(rating_a + 0.5, area_mm2).ok is False


def test_below_the_smallest_row_only_a_fuse_above_that_row_is_judged() -> None:
    thin = "0.08 mm² is thinner than the smallest row, 0.13 mm², which may carry 1 A"
    assert planning_rating(0.08) is None
    assert judge_fuse(1, 0.08) == FuseVerdict(None, None, None, f"not judged: {thin}")
    assert judge_fuse(None, 0.08) == FuseVerdict(None, None, None, f"not judged: {thin}")
    assert judge_fuse(1.5, 0.08) == FuseVerdict(False, None, None, thin)


def test_what_is_not_recorded_is_not_judged() -> None:
    assert judge_fuse(15, None) == FuseVerdict(None, None, None, "not judged: wire size not recorded")
    assert judge_fuse(None, 1.5) == FuseVerdict(None, 15, 1.5, f"not judged: fuse not recorded; {MARK}")


@given(st.floats(0.12, 150), st.floats(0.12, 150))
def test_a_thicker_wire_is_never_rated_lower(one_mm2: float, other_mm2: float) -> None:
    thin, thick = (planning_rating(area) for area in sorted((one_mm2, other_mm2)))
    assert thin is not None
    assert thick is not None
    assert thin.rating_a <= thick.rating_a
    assert 0.92 * thin.row_mm2 <= min(one_mm2, other_mm2) * (1 + 1e-6)


@pytest.mark.parametrize(
    ("fuse_a", "area_mm2", "message"),
    [(0, 1.5, "fuse_a must be above zero, got 0"), (-5, None, "fuse_a"), (10, 0, "area_mm2 must be above zero, got 0")],
)
def test_a_rating_or_area_of_nothing_is_refused(fuse_a: float, area_mm2: float | None, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        judge_fuse(fuse_a, area_mm2)


# ---- what mends a fuse that is too big ------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("rating_a", "needed_a", "fuse_a"),
    [
        (10, 6.5, 10),  # 5.2 A that stay on want 6.5 A
        (12, 0, 10),  # nothing is sold between 10 and 15 A
        (10, 10, 10),
        (10, 10.1, None),
        (7.5, 7.4, 7.5),
        (0.5, 0, None),  # below the smallest blade fuse
    ],
)
def test_the_largest_blade_fuse_that_suits_wire_and_load(rating_a: float, needed_a: float, fuse_a: float) -> None:
    assert mending_fuse_a(rating_a, needed_a) == fuse_a


@pytest.mark.parametrize(
    ("fuse_a", "area_mm2"),
    [(5, 0.5), (7.5, 0.75), (15, 1.5), (16, 2.5), (40, 6.0), (40.5, 8.0), (300, 120), (301, None)],
)
def test_the_thinnest_row_that_a_fuse_suits(fuse_a: float, area_mm2: float | None) -> None:
    assert least_area_mm2(fuse_a) == area_mm2
    if area_mm2 is not None:
        assert judge_fuse(fuse_a, area_mm2).ok
        assert all(judge_fuse(fuse_a, thinner).ok is False for thinner, _ in ROWS if thinner < area_mm2)
