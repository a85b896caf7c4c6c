"""Drops and drop limits held against AC 43.13-1B and ABYC E-11."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.physics.conductor import ASTM_B258, conductor, length_resistance
from aswired.physics.drops import DropLimit, drop_limit, drop_v

FT_MM = 304.8  # exact

# AC 43.13-1B CHG 1 (9/27/01) Table 11-9, tin-plated stranded copper: gauge -> maximum [ohm/1000 ft] at 20 °C, read
TABLE_11_9_OHM_PER_KFT = {
    24: 28.4, 22: 16.2, 20: 9.88, 18: 6.23, 16: 4.81, 14: 3.06, 12: 2.02, 10: 1.26, 8: 0.7, 6: 0.44, 4: 0.28, 2: 0.18,
}  # fmt: skip


def table_11_9_drop_v(gauge: int, length_ft: float, current_a: float) -> float:
    mohm_per_m = TABLE_11_9_OHM_PER_KFT[gauge] / FT_MM * 1000
    return drop_v(length_resistance(mohm_per_m, length_ft * FT_MM), current_a)


@pytest.mark.parametrize(
    ("gauge", "length_ft", "current_a", "printed_v", "rounding_v"),
    [
        (6, 107, 20, 0.942, 0.0005),  # Table 11-7, p. 11-22, read
        (4, 90, 20, 0.504, 0.0005),  # Table 11-7, read
        (14, 100, 20, 6.12, 0.005),  # Table 11-7, read
        # Table 11-7 prints 3.60 V; its own product 0.00202 x 88 x 20 is 3.555 V (product read, length from memory)
        (12, 88, 20, 3.555, 0.0005),
        # Table 11-8 prints .366 V; its own product 0.00126 x 19.5 x 20 is 0.491 V (read)
        (10, 19.5, 20, 0.491, 0.0005),
    ],
)
def test_drops_of_ac_43_13_1b_tables_11_7_and_11_8(
    gauge: int, length_ft: float, current_a: float, printed_v: float, rounding_v: float
) -> None:
    assert table_11_9_drop_v(gauge, length_ft, current_a) == pytest.approx(printed_v, abs=rounding_v)


def test_gauge_choice_of_ac_43_13_1b_example_1() -> None:
    # AC 43.13-1B para 11-67c, p. 11-26 (read): 28 V, 20 A continuous, 50 ft with the ground wire, at most 20 °C: No. 8.
    limit = drop_limit(28, "continuous")
    assert limit is not None
    within = [gauge for gauge in TABLE_11_9_OHM_PER_KFT if table_11_9_drop_v(gauge, 50, 20) <= limit.limit_v]
    assert max(within) == 8
    assert table_11_9_drop_v(8, 50, 20) == pytest.approx(0.70, abs=0.005)
    assert table_11_9_drop_v(10, 50, 20) == pytest.approx(1.26, abs=0.005)


@pytest.mark.parametrize(
    ("supply_v", "load_class", "current_a", "length_ft", "cmil", "gauge"),
    [
        (12, "critical", 10, 30, 8958, 10),  # ABYC E-11, 3 %, worked example (read)
        (12, "non-critical", 25, 25, 5599, 12),  # ABYC E-11, 10 %, worked example (read)
    ],
)
def test_abyc_e_11_examples(
    supply_v: float, load_class: str, current_a: float, length_ft: float, cmil: int, gauge: int
) -> None:
    limit = drop_limit(supply_v, load_class)
    assert limit is not None
    # cmil = K I L / drop with K = 10.75 ohm cmil/ft, L out and back (ABYC E-11, read)
    assert 10.75 * current_a * length_ft / limit.limit_v == pytest.approx(cmil, abs=0.5)
    # the even gauge that the example names is also the thinnest that our own copper allows
    allowed = [
        even
        for even in range(2, 31, 2)
        if drop_v(length_resistance(conductor(ASTM_B258, even).resistance_mohm_per_m, length_ft * FT_MM), current_a)
        <= limit.limit_v
    ]
    assert max(allowed) == gauge


@pytest.mark.parametrize(
    ("nominal_v", "continuous_v", "intermittent_v"), [(14, 0.5, 1), (28, 1, 2), (115, 4, 8), (200, 7, 14)]
)
def test_limits_of_ac_43_13_1b_table_11_6(nominal_v: float, continuous_v: float, intermittent_v: float) -> None:
    # AC 43.13-1B Table 11-6 (from memory; the continuous column is the one Tables 11-7 and 11-8 use, read)
    source, mark = "AC 43.13-1B Table 11-6", "from memory, cross-checked"
    for load_class, limit_v in (("continuous", continuous_v), ("intermittent", intermittent_v)):
        expected = DropLimit(limit_v, source, mark, f"{nominal_v} V row, {load_class}")
        assert drop_limit(nominal_v, load_class) == expected


@pytest.mark.parametrize(
    ("supply_v", "limit_v"),
    [
        (9.9, None),
        (10, 0.5),
        (12, 0.5),
        (13.5, 0.5),
        (16, 0.5),
        (17, None),
        (24, 1.0),
        (27.6, 1.0),
        (6, None),
        (48, None),
    ],
)
def test_a_vehicle_supply_finds_its_row_or_none(supply_v: float, limit_v: float | None) -> None:
    limit = drop_limit(supply_v, "continuous")
    assert (limit.limit_v if limit else None) == limit_v


def test_percent_limits_follow_the_supply_and_say_so() -> None:
    limit = drop_limit(13.5, "critical")
    assert limit is not None
    assert limit.limit_v == pytest.approx(0.405, abs=1e-9)
    assert (limit.source, limit.mark, limit.note) == (
        "ABYC E-11",
        "read",
        "3% of 13.5 V, out and back; as printed it is a share of the nominal volts",
    )


@pytest.mark.parametrize("load_class", ["continuous", "intermittent", "critical", "non-critical"])
def test_no_supply_recorded_gives_no_limit(load_class: str) -> None:
    assert drop_limit(None, load_class) is None


def test_an_unknown_class_or_a_supply_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="load class 'lamp' is not known"):
        drop_limit(None, "lamp")
    with pytest.raises(ValueError, match="supply_v must be above zero, got 0"):
        drop_limit(0, "critical")


@given(st.floats(0, 1e5), st.floats(-1e3, 1e3))
def test_drop_is_proportional(resistance_mohm: float, current_a: float) -> None:
    assert drop_v(resistance_mohm, 0) == 0
    assert drop_v(2 * resistance_mohm, current_a) == pytest.approx(2 * drop_v(resistance_mohm, current_a))
    assert drop_v(resistance_mohm, -current_a) == -drop_v(resistance_mohm, current_a)
