"""Every entry of the published tables, column by column as the sources print them: one typing against the other."""

from __future__ import annotations

from itertools import pairwise

import pytest

from aswired.physics.ampacity import (
    CFR_183_425_A,
    CFR_BUNDLE,
    CFR_BUNDLE_FROM_V,
    CFR_COLUMNS_C,
    CFR_ENGINE_SPACE,
    FAA_11_3_A,
    bundle_factor,
    cfr_allowed_a,
    derated_a,
    row_of_area,
    solid_area_mm2,
)
from aswired.physics.bundle import (
    BEND_BUNDLE,
    BEND_BUNDLE_CAR,
    BEND_WIRE,
    JOINT_BULGE,
    JOINT_BULGE_LEAST,
    JOINT_BULGE_MOST,
)
from aswired.physics.conductor import gauge_name
from aswired.physics.protection import BLADE_RATINGS_A, PLANNING_RATING_A, mending_fuse_a

# 33 CFR 183.425 Table 5 (read): the gauges down the page, one list for each temperature of the insulation [°C]
CFR_GAUGES = (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3)
CFR_PRINTED_A = {
    60: (10, 15, 20, 25, 40, 55, 80, 105, 120, 140, 165, 195, 225, 260, 300),
    75: (10, 15, 20, 25, 40, 65, 95, 125, 145, 170, 195, 230, 265, 310, 360),
    80: (15, 20, 25, 35, 50, 70, 100, 130, 150, 175, 210, 245, 285, 330, 385),
    90: (20, 25, 30, 40, 55, 70, 100, 135, 155, 180, 210, 245, 285, 330, 385),
    105: (20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445),
    125: (25, 30, 40, 50, 70, 90, 125, 170, 195, 225, 265, 305, 355, 410, 475),
    200: (25, 35, 45, 55, 70, 100, 135, 180, 210, 240, 280, 325, 370, 430, 510),
}


@pytest.mark.parametrize("column_c", CFR_PRINTED_A)
def test_a_column_of_the_boat_table_is_the_printed_one(column_c: int) -> None:
    assert [cfr_allowed_a(gauge, column_c) for gauge in CFR_GAUGES] == list(CFR_PRINTED_A[column_c])
    assert (tuple(CFR_PRINTED_A), CFR_GAUGES) == (CFR_COLUMNS_C, tuple(CFR_183_425_A))


def test_the_notes_of_the_boat_table() -> None:
    # notes 1 and 2 of Table 5, and 33 CFR 183.435(b): from 50 V on the bundle counts (read)
    assert CFR_ENGINE_SPACE == {60: 0.58, 75: 0.75, 80: 0.78, 90: 0.82, 105: 0.85, 125: 0.89, 200: 1.0}
    assert CFR_BUNDLE == {1: 1.0, 3: 0.7, 4: 0.6, 7: 0.5, 25: 0.4}
    assert [bundle_factor(n) for n in (1, 2, 3, 4, 6, 7, 24, 25, 300)] == [1, 1, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4, 0.4]
    assert CFR_BUNDLE_FROM_V == 50


def test_the_chart_of_breakers_and_fuses_is_the_printed_one() -> None:
    # AC 43.13-1B Table 11-3 (columns read): 1 and 1/0 have a fuse and no breaker
    assert tuple(FAA_11_3_A) == (22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0)
    breakers = [breaker for breaker, _ in FAA_11_3_A.values()]
    assert breakers == [5, 7.5, 10, 15, 20, 30, 40, 50, 80, 100, 125, None, None]
    assert [fuse for _, fuse in FAA_11_3_A.values()] == [5, 5, 10, 10, 15, 20, 30, 50, 70, 70, 100, 150, 150]


def test_what_no_formula_can_be_asked_is_refused() -> None:
    with pytest.raises(ValueError, match="amps must be above zero"):
        derated_a(0, 0.5)
    with pytest.raises(ValueError, match="each factor"):
        derated_a(10, 0.5, 0)  # the second of two
    with pytest.raises(ValueError, match="each factor"):
        derated_a(10, 1.5, 0.5)  # the first of two
    assert derated_a(10, 1, 0.5) == 5


@pytest.mark.parametrize(
    ("gauge", "printed_mm2"),
    # areas to three digits as reels print them (common practice, no source): half a per cent below the solid gauge
    # still finds it, a whole per cent does not
    [(18, 0.82), (14, 2.08), (12, 3.3), (10, 5.26), (8, 8.36), (4, 21.1)],
)
def test_an_area_rounded_down_in_print_finds_its_gauge(gauge: int, printed_mm2: float) -> None:
    found = row_of_area(printed_mm2, CFR_183_425_A)
    assert found is not None
    assert (found.gauge, found.area_mm2) == (gauge, solid_area_mm2(gauge))
    assert found.how == f"by area, row {gauge_name(gauge)}, {solid_area_mm2(gauge):.2f} mm²"
    less = row_of_area(0.99 * solid_area_mm2(gauge), CFR_183_425_A)
    assert less is None if gauge == 18 else less is not None and less.gauge == gauge + 2


# ---- fuses ----------------------------------------------------------------------------------------------------------
def test_the_blade_fuses_and_the_planning_ratings() -> None:
    # ISO 8820-3: 5 and 35 A from memory, the others read
    assert BLADE_RATINGS_A == (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40)
    # a planned wire is fused as its rating: up to the largest blade fuse each rating is one that is sold, and a
    # thicker wire never has less
    assert list(PLANNING_RATING_A) == sorted(PLANNING_RATING_A)
    ratings = list(PLANNING_RATING_A.values())
    assert ratings == sorted(ratings)
    assert ratings[:11] == [1, 2, 3, 5, 7.5, 10, 15, 15, 20, 30, 40]
    assert set(ratings[:11]) <= set(BLADE_RATINGS_A)
    for below, rating in pairwise(BLADE_RATINGS_A):
        assert mending_fuse_a(rating, 0) == rating
        assert mending_fuse_a(rating - 0.1, 0) == below
        assert mending_fuse_a(rating, rating) == rating


# ---- bends ----------------------------------------------------------------------------------------------------------
def test_the_bends_and_the_bulge_of_a_joint() -> None:
    # AC 43.13-1B para 11-117: ten diameters of the largest wire (read, second hand); ten of the bundle in aircraft,
    # five on cars; a joint in its sleeve is 2 to 2.5 wires thick, 2.25 in the middle (common practice, no source)
    assert (BEND_WIRE, BEND_BUNDLE, BEND_BUNDLE_CAR) == (10, 10, 5)
    assert (JOINT_BULGE_LEAST, JOINT_BULGE, JOINT_BULGE_MOST) == (2.0, (2.0 + 2.5) / 2, 2.5)
