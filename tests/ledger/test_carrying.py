"""What a conductor may carry: each row against the printed tables, worked here by hand, and the sums beside them."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.physics.ampacity import CFR_ENGINE_SPACE
from aswired.physics.carrying import (
    PLANNED_A,
    SHARE_OF_COPPER,
    HeatShare,
    bound_a,
    heat_factor,
    link_lets_through_area_mm2,
    planned_a,
    short_time_a,
)
from aswired.physics.conductor import J1128_MIN_AREA_MM2

ROWS = [
    (0.13, 1), (0.22, 2), (0.35, 3), (0.5, 5), (0.75, 7.5), (1.0, 10), (1.5, 15), (2.0, 15), (2.5, 20), (4.0, 30),
    (6.0, 40), (8.0, 50), (10.0, 60), (16.0, 85), (25.0, 115), (35.0, 140), (50.0, 185), (70.0, 230), (95.0, 275),
    (120.0, 300),
]  # fmt: skip
# 33 CFR 183.425 Table 5, column 60 °C (read), 18 AWG to 4/0, beside the areas that gauge tables print [mm²]
CFR_60 = [
    (0.823, 10), (1.31, 15), (2.08, 20), (3.31, 25), (5.26, 40), (8.37, 55), (13.3, 80), (21.2, 105), (26.7, 120),
    (33.6, 140), (42.4, 165), (53.5, 195), (67.4, 225), (85.0, 260), (107.2, 300),
]  # fmt: skip
SOLD_A = (1, 2, 3, 5, 7.5, 10, 15, 20)  # blade fuses, ISO 8820-3 (read; 5 A from memory)


def planned(area_mm2: float) -> float:
    found = planned_a(area_mm2)
    assert found is not None
    return found.value


def bound(area_mm2: float, insulation_c: float | None) -> float:
    found = bound_a(area_mm2, insulation_c)
    assert found is not None
    return found.value


def heat(insulation_c: float, leg_c: float) -> HeatShare:
    found = heat_factor(insulation_c, leg_c)
    assert found is not None
    return found


# ---- the planning table ---------------------------------------------------------------------------------------------
def between_rows(area_mm2: float) -> float:
    """Column 60 °C at an area, straight between two rows on paper with logarithms both ways; the last row beyond it."""
    for (thin, low), (thick, high) in pairwise(CFR_60):
        if thin <= area_mm2 < thick:
            return math.exp(math.log(low) + math.log(high / low) * math.log(area_mm2 / thin) / math.log(thick / thin))
    assert area_mm2 >= CFR_60[-1][0]
    return CFR_60[-1][1]


def test_the_table_has_these_rows() -> None:
    assert [(area, row.amps) for area, row in PLANNED_A.items()] == ROWS


@pytest.mark.parametrize(("area_mm2", "amps"), [row for row in ROWS if row[0] > 6])
def test_rows_above_6_are_the_column_of_60_c_between_its_rows_down_to_5_a(area_mm2: float, amps: float) -> None:
    assert amps == 5 * math.floor(between_rows(area_mm2) / 5)
    found = planned_a(area_mm2)
    assert found is not None
    assert (found.value, found.row, found.mark, found.note) == (amps, area_mm2, "computed", "")
    assert found.source.startswith("33 CFR 183.425 Table 5, column 60 °C")


@pytest.mark.parametrize(("area_mm2", "amps"), [row for row in ROWS if 1 <= row[0] <= 6])
def test_rows_from_1_to_6_are_planning_values_that_the_column_of_60_c_bears_out(area_mm2: float, amps: float) -> None:
    # by the next thinner row of the column 4 mm² would have the 25 A of 12 AWG; between 12 and 10 AWG it has 30
    by_row = max(printed for thin, printed in CFR_60 if thin <= area_mm2)
    assert amps == 5 * math.floor(between_rows(area_mm2) / 5)
    assert by_row == (25 if area_mm2 == 4 else amps)
    found = planned_a(area_mm2)
    assert found is not None
    assert found.mark.startswith("planning value, estimate")


@pytest.mark.parametrize(("area_mm2", "amps"), [row for row in ROWS if row[0] < 1])
def test_rows_below_1_are_10_a_a_square_millimetre_down_to_a_rating_that_is_sold(area_mm2: float, amps: float) -> None:
    assert amps == max(sold for sold in SOLD_A if sold <= 10 * area_mm2 + 1e-9)
    found = planned_a(area_mm2)
    assert found is not None
    assert found.mark == "computed" if area_mm2 < 0.5 else found.mark.startswith("planning value, estimate")


def test_the_thin_rows_stand_beside_those_of_an_aircraft_bundle() -> None:
    # AC 43.13-1B Table 11-9, 105 °C, bundle of 33 (read): 24 AWG 2.5 A, 22 AWG 3 A
    assert planned(J1128_MIN_AREA_MM2[24]) == 2 <= 2.5
    assert planned(J1128_MIN_AREA_MM2[22]) == 3


@pytest.mark.parametrize(
    ("area_mm2", "row"),
    [
        # SAE J1128 least copper, 24 to 2 AWG (from memory)
        (0.205, 0.22), (0.324, 0.35), (0.508, 0.5), (0.76, 0.75), (1.12, 1.0), (1.85, 2.0), (2.91, 2.5), (4.65, 4.0),
        (7.23, 6.0), (12.1, 10.0), (18.3, 16.0), (31.1, 25.0),
        # 92 % of 0.13, 2.5 and 120 mm², and a hair below
        (0.1196, 0.13), (2.3, 2.5), (2.299, 2.0), (110.4, 120.0), (110.39, 95.0), (400.0, 120.0),
    ],
)  # fmt: skip
def test_a_row_counts_from_92_per_cent_of_its_copper_on(area_mm2: float, row: float) -> None:
    found = planned_a(area_mm2)
    assert found is not None
    assert (found.row, found.value) == (row, dict(ROWS)[row])
    assert found.note == f"{area_mm2:.3g} mm² counts as the {row:g} mm² row"


def test_below_the_smallest_row_nothing_is_planned() -> None:
    assert planned_a(0.1195) is None
    assert bound_a(0.1195, 200) is None


@pytest.mark.parametrize("area_mm2", [0, -1, math.nan])
def test_an_area_of_nothing_is_refused(area_mm2: float) -> None:
    for asked in (planned_a, link_lets_through_area_mm2):
        with pytest.raises(ValueError, match="area_mm2 must be above zero"):
            asked(area_mm2)
    with pytest.raises(ValueError, match="area_mm2 must be above zero"):
        bound_a(area_mm2, 85)
    with pytest.raises(ValueError, match="area_mm2 and seconds must be above zero"):
        short_time_a(area_mm2, 30)
    with pytest.raises(ValueError, match="area_mm2 and seconds must be above zero"):
        short_time_a(2.5, area_mm2)


# ---- the bound ------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("area_mm2", "insulation_c", "amps"),
    [
        # 33 CFR 183.425 Table 5 (read): 18 AWG 10, 10, 15, 20, 20, 25, 25; 16 AWG 15 ... 20 at 80, 30 at 125;
        # 14 AWG 25 at 80; 12 AWG 45 at 105; 10 AWG 40 at 60; 4/0 300 at 60, 510 at 200
        (1.0, None, 10), (1.0, 60, 10), (1.0, 79.9, 10), (1.0, 85, 15), (1.0, 90, 20), (1.0, 200, 25),
        (1.5, 85, 20), (1.5, 125, 30), (2.5, 85, 25), (4.0, 105, 45), (6.0, None, 40), (120.0, None, 300),
        (120.0, 250, 510), (0.82, 105, 20),
        # below 18 AWG (0.823 mm²) the breaker of AC 43.13-1B Table 11-3 (read): 20 AWG 7.5, 22 AWG 5
        (0.81, 105, 7.5), (0.76, 105, 7.5), (0.75, None, 7.5), (0.518, 85, 7.5), (0.5, 85, 5), (0.35, 85, 5),
        (0.324, 85, 5),
        # thinner than 22 AWG no table has a row, below 60 °C no column
        (0.22, 105, 2), (0.13, None, 1), (1.0, 59, 10), (0.35, 59, 3),
        # 12 AWG has 25 at 60 °C, less than planned
        (4.0, None, 30),
    ],
)  # fmt: skip
def test_the_highest_public_figure_by_its_insulation(area_mm2: float, insulation_c: float | None, amps: float) -> None:
    assert bound(area_mm2, insulation_c) == amps


def test_the_bound_says_which_row_of_which_table_it_is() -> None:
    boat, plane, own = bound_a(1.0, 85), bound_a(0.35, None), bound_a(4.0, None)
    assert boat is not None
    assert plane is not None
    assert own is not None
    assert (boat.source, boat.mark, boat.note) == ("33 CFR 183.425 Table 5", "read", "row 18 AWG, column 80 °C")
    assert boat.row == pytest.approx(0.823, abs=5e-4)
    assert (plane.source, plane.mark, plane.note) == ("AC 43.13-1B Table 11-3", "read", "row 22 AWG, breaker")
    assert own == planned_a(4.0)


@given(st.floats(0.12, 200), st.floats(0.12, 200), st.none() | st.floats(20, 250))
def test_a_thicker_wire_never_carries_less_and_the_bound_never_lies_below_what_is_planned(
    one_mm2: float, other_mm2: float, insulation_c: float | None
) -> None:
    thin, thick = sorted((one_mm2, other_mm2))
    assert planned(thin) <= planned(thick)
    assert bound(thin, insulation_c) <= bound(thick, insulation_c)
    assert planned(thin) <= bound(thin, insulation_c)


# ---- heat -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("column", [60, 75, 80, 90, 105, 125])
def test_the_bound_in_an_engine_space_is_that_of_note_1(column: int) -> None:
    # 33 CFR 183.425 Table 5 note 1 (read): 0.58, 0.75, 0.78, 0.82, 0.85, 0.89 at 50 °C in place of 30. At 50 °C
    # itself nothing is taken off here, so this is a hair above it.
    assert heat(column, 50 + 1e-9).bound == pytest.approx(CFR_ENGINE_SPACE[column], abs=0.01)


def test_the_planned_rating_of_a_hot_leg() -> None:
    # 2.5 mm² PVC good for 85 °C in a leg of 70: 20 x sqrt(15/35) = 13.09; of its bound of 25, x sqrt(15/55), 13.06
    share = heat(85, 70)
    assert planned(2.5) * share.planned == pytest.approx(13.1, abs=0.02)
    assert bound(2.5, 85) * share.bound == pytest.approx(13.06, abs=0.01)
    hot = heat(125, 80)
    assert (hot.planned, hot.bound) == pytest.approx((math.sqrt(45 / 75), math.sqrt(45 / 95)))


def test_up_to_50_c_nothing_is_asked() -> None:
    for insulation_c in (None, 40, 60, 105):
        assert heat_factor(insulation_c, 50) == heat_factor(insulation_c, -20) == HeatShare(1, 1)


def test_above_50_c_insulation_that_is_not_written_is_not_shown_and_too_cool_a_one_carries_nothing() -> None:
    assert heat_factor(None, 50.1) is None
    for insulation_c in (85, 84, 45, 20):
        assert heat_factor(insulation_c, 85) == HeatShare(0, 0)


@given(st.floats(55, 250), st.floats(50, 260), st.floats(50, 260))
def test_a_hotter_leg_never_leaves_more(insulation_c: float, one_c: float, other_c: float) -> None:
    cool, hot = (heat(insulation_c, leg_c) for leg_c in sorted((one_c, other_c)))
    assert 1 >= cool.planned >= hot.planned >= 0
    assert 1 >= cool.bound >= hot.bound >= 0


# ---- other metal, a short time, a link ------------------------------------------------------------------------------
def test_aluminium_and_copper_clad_as_roots_of_their_conductivity() -> None:
    # conductivity 61 % and 64 % of copper (from memory)
    assert SHARE_OF_COPPER["aluminium"] == round(math.sqrt(0.61), 2)
    assert SHARE_OF_COPPER["copper-clad aluminium"] == round(math.sqrt(0.64), 2)
    assert planned(4.0) * SHARE_OF_COPPER["aluminium"] == pytest.approx(23.4)


@pytest.mark.parametrize(("area_mm2", "seconds", "amps_per_mm2"), [(16, 30, 15), (1, 60, 10.6), (50, 30, 15)])
def test_what_copper_bears_for_a_time(area_mm2: float, seconds: float, amps_per_mm2: float) -> None:
    assert short_time_a(area_mm2, seconds) / area_mm2 == pytest.approx(amps_per_mm2, abs=0.05)


def test_copper_that_gives_off_no_heat_warms_by_40_k() -> None:
    # copper at 65 °C: 17.24e-9 Ωm x (234.5 + 65) / 254.5; 385 J/kgK x 8,960 kg/m³ (handbook values, from memory)
    per_metre = 17.24e-9 * (234.5 + 65) / 254.5 / 2.5e-6
    joules = short_time_a(2.5, 30) ** 2 * per_metre * 30
    assert joules / (2.5e-6 * 8960 * 385) == pytest.approx(40, rel=0.01)


@pytest.mark.parametrize(("link_mm2", "wire_mm2", "protected"), [(1.0, 2.5, True), (1.0, 1.5, False), (0.5, 1.0, True)])
def test_what_a_fusible_link_protects(link_mm2: float, wire_mm2: float, protected: bool) -> None:
    # 1.0 x 2.53 less 2 % is 2.48, planned for 20 A as 2.5 is; 1.5 for 15. 0.5 gives 1.24 mm², planned as 1.0 is
    assert (planned(link_lets_through_area_mm2(link_mm2)) <= planned(wire_mm2)) is protected


@pytest.mark.parametrize("gauge", [22, 20, 18, 16, 14, 12, 10, 8, 6])
def test_a_link_protects_wire_four_gauge_numbers_thicker_and_not_two(gauge: int) -> None:
    # SAE J1128 least copper (from memory)
    lets_through_a = planned(link_lets_through_area_mm2(J1128_MIN_AREA_MM2[gauge]))
    assert lets_through_a <= planned(J1128_MIN_AREA_MM2[gauge - 4])
    assert lets_through_a > planned(J1128_MIN_AREA_MM2[gauge - 2])
