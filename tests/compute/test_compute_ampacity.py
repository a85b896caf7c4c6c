"""What published tables let a wire carry, held against published examples and against other sources than the tables."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.physics.ampacity import (
    CFR_183_425_A,
    CFR_COLUMNS_C,
    CFR_ENGINE_SPACE,
    FAA_11_3_A,
    bundle_factor,
    cfr_allowed_a,
    cfr_column,
    derated_a,
    row_of_area,
    row_of_gauge,
    solid_area_mm2,
)

GAUGES = (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3)


# ---- 33 CFR 183.425 Table 5 -----------------------------------------------------------------------------------------
def test_12_awg_of_105_c_insulation_in_an_engine_space() -> None:
    # 33 CFR 183.425 Table 5 and note 1 (read): 45 A x 0.85 = 38.25 A
    column = cfr_column(105)
    assert column == 105
    assert derated_a(cfr_allowed_a(12, column), CFR_ENGINE_SPACE[column]) == pytest.approx(38.25)


def test_12_awg_of_105_c_insulation_in_a_bundle_of_five() -> None:
    # 33 CFR 183.425 Table 5 and note 2 (read): 45 A x 0.6 = 27 A
    assert derated_a(cfr_allowed_a(12, 105), bundle_factor(5)) == pytest.approx(27)


def test_a_heavier_gauge_and_a_warmer_insulation_never_carry_less() -> None:
    assert tuple(CFR_183_425_A) == GAUGES
    for thin, thick in pairwise(GAUGES):
        assert all(a < b for a, b in zip(CFR_183_425_A[thin], CFR_183_425_A[thick], strict=True)), thick
    for gauge, row in CFR_183_425_A.items():
        assert len(row) == len(CFR_COLUMNS_C) == 7
        assert list(row) == sorted(row), gauge


@pytest.mark.parametrize("column", [60, 75, 80, 90, 105, 125])
def test_engine_space_factors_are_those_of_heat_by_the_square_of_the_current(column: int) -> None:
    # what a wire gives off rises with its warmth above the air: 50 °C there against 30 °C outside (computed).
    # The table's 1.0 for 200 °C insulation is the one factor that is not so: the square root is 0.94.
    assert CFR_ENGINE_SPACE[column] == pytest.approx(math.sqrt((column - 50) / (column - 30)), abs=0.0065)


@pytest.mark.parametrize(
    ("conductors", "ratio"),
    [(2, None), (3, 1.0), (4, 0.857), (6, 0.857), (7, 0.714), (24, 0.714), (25, 0.571), (80, 0.571)],
)
def test_bundle_factors_are_those_of_the_chart_set_for_three(conductors: int, ratio: float | None) -> None:
    # charts of ABYC style are set for a bundle of two or three; their ratios (read) are of a factor of 0.7
    factor = bundle_factor(conductors)
    assert factor == 1.0 if ratio is None else factor / 0.7 == pytest.approx(ratio, abs=0.0005)


@pytest.mark.parametrize(
    ("insulation_c", "column"), [(59.9, None), (60, 60), (85, 80), (104, 90), (125, 125), (150, 125), (180, 125)]
)
def test_insulation_is_held_to_the_next_lower_column(insulation_c: float, column: int | None) -> None:
    assert cfr_column(insulation_c) == column


# ---- AC 43.13-1B ----------------------------------------------------------------------------------------------------
def test_derating_of_example_2() -> None:
    # AC 43.13-1B p. 11-27 (read): 14 AWG of 200 °C at 50 °C 47 A; x 0.91 at 20 000 ft; x 0.6 for 8 wires at 60 % load
    # is 25.66 A, printed 26 A
    amps = derated_a(47, 0.91, 0.6)
    assert amps == pytest.approx(25.66, abs=0.005)
    assert round(amps) == 26


@pytest.mark.parametrize(("gauge", "fuse_a"), [(14, 15), (12, 20), (10, 30)])
def test_fuses_of_table_11_3_are_those_that_a_club_of_owners_goes_by(gauge: int, fuse_a: float) -> None:
    # another source than the table (read): 15 A with 14 AWG, 20 A with 12 AWG, 30 A with 10 AWG
    assert FAA_11_3_A[gauge][1] == fuse_a


def test_no_fuse_of_table_11_3_lies_above_the_breaker_beside_it() -> None:
    fuses = [fuse for _, fuse in FAA_11_3_A.values()]
    breakers = [breaker for breaker, _ in FAA_11_3_A.values() if breaker is not None]
    assert (len(fuses), len(breakers)) == (13, 11)  # as many as the columns print (read)
    assert fuses == sorted(fuses)
    assert breakers == sorted(breakers)
    assert all(breaker is None or fuse <= breaker for breaker, fuse in FAA_11_3_A.values())


# ---- rows by area ---------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("area_mm2", "table", "how"),
    [
        # solid gauge areas by ASTM B258: 22 AWG 0.326, 20 AWG 0.518, 18 AWG 0.823, 16 AWG 1.309, 14 AWG 2.081 mm²
        (0.5, FAA_11_3_A, "by area, row 22 AWG, 0.33 mm²"),
        (0.75, FAA_11_3_A, "by area, row 20 AWG, 0.52 mm²"),
        (1.0, CFR_183_425_A, "by area, row 18 AWG, 0.82 mm²"),
        (1.5, CFR_183_425_A, "by area, row 16 AWG, 1.31 mm²"),
        (2.08, CFR_183_425_A, "by area, row 14 AWG, 2.08 mm²"),  # as catalogues print it
        (2.0, CFR_183_425_A, "by area, row 16 AWG, 1.31 mm²"),
        (25, FAA_11_3_A, "by area, row 4 AWG, 21.15 mm²"),
        (150, CFR_183_425_A, "by area, row 4/0 AWG, 107.22 mm²"),
    ],
)
def test_square_millimetres_are_looked_up_by_area_and_say_so(area_mm2: float, table: Iterable[int], how: str) -> None:
    row = row_of_area(area_mm2, table)
    assert row is not None
    assert row.how == how


def test_a_gauge_is_looked_up_by_its_number_and_an_odd_one_by_area() -> None:
    named = row_of_gauge(0, FAA_11_3_A)
    assert named is not None
    assert named.how == "row 1/0 AWG"
    odd = row_of_gauge(3, FAA_11_3_A)  # 26.67 mm² solid; the table has 4 and 2
    assert odd is not None
    assert (odd.gauge, odd.how) == (4, "by area, row 4 AWG, 21.15 mm²")


def test_below_the_smallest_row_nothing_is_judged() -> None:
    assert row_of_area(0.75, CFR_183_425_A) is None  # 18 AWG is 0.823 mm²
    assert row_of_gauge(20, CFR_183_425_A) is None
    assert row_of_gauge(24, FAA_11_3_A) is None
    assert row_of_area(0.22, FAA_11_3_A) is None


@given(st.floats(0.82, 200))
def test_the_row_that_counts_is_the_thickest_that_is_not_thicker(area_mm2: float) -> None:
    row = row_of_area(area_mm2, CFR_183_425_A)
    assert row is not None
    assert row.area_mm2 <= area_mm2 * 1.005
    thicker = [gauge for gauge in CFR_183_425_A if gauge < row.gauge]
    assert all(solid_area_mm2(gauge) > area_mm2 for gauge in thicker)


# ---- what is refused ------------------------------------------------------------------------------------------------
def test_what_no_table_holds_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match=r"33 CFR 183\.425 Table 5 has no 20 AWG at 80 °C"):
        cfr_allowed_a(20, 80)
    with pytest.raises(ValueError, match="has no 14 AWG at 85 °C"):
        cfr_allowed_a(14, 85)
    with pytest.raises(ValueError, match="at least one conductor, got 0"):
        bundle_factor(0)
    with pytest.raises(ValueError, match=r"each factor above 0 and up to 1, got 45, \(1\.2,\)"):
        derated_a(45, 1.2)
    with pytest.raises(ValueError, match="area_mm2 must be above zero, got 0"):
        row_of_area(0, FAA_11_3_A)
