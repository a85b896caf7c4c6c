"""What loads take at other volts than those they are stated at, against printed exponents and arithmetic by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.physics.draw import COLD_BELOW, LoadCurrent, light_part

DIP = LoadCurrent(4.3, 12.8, filament=True)  # a 55 W lamp
HEATER = LoadCurrent(8.0, 13.5, filament=False)
volts = st.floats(-30, 30, allow_nan=False)
amps = st.floats(0.01, 40)
stated_at = st.floats(1, 30)


def test_light_of_a_lamp_that_gets_12_volts_for_13_2() -> None:
    # exponent 3.4 (Standard Handbook for Electrical Engineers, 11th ed., p. 22-8, and a lamp maker; read):
    # (12 / 13.2)^3.4 = exp(-3.4 x 0.09531) = exp(-0.32406) = 0.723
    assert light_part(12.0, 13.2) == pytest.approx(0.723, abs=0.0005)
    assert light_part(13.2, 13.2) == 1
    assert light_part(0, 13.2) == 0


@pytest.mark.parametrize(("lumen_12_v", "lumen_13_2_v"), [(700, 900), (450, 600)])
def test_the_light_told_is_not_above_that_of_a_halogen_lamp_measured_at_both_volts(
    lumen_12_v: float, lumen_13_2_v: float
) -> None:
    # UN R37, sheet H17, both filaments (read): 0.778 and 0.75 of the light
    measured = lumen_12_v / lumen_13_2_v
    assert measured - 0.06 < light_part(12.0, 13.2) < measured


@pytest.mark.parametrize(("volts_v", "full_v"), [(-0.1, 12.0), (12.0, 0.0), (12.0, -12.0)])
def test_light_of_volts_that_cannot_be_is_refused(volts_v: float, full_v: float) -> None:
    with pytest.raises(ValueError, match="volts must not be below zero"):
        light_part(volts_v, full_v)


@pytest.mark.parametrize(
    ("volts_v", "by_hand_a"),
    [
        (12.8, 4.3),
        (6.4, 2.937),  # 4.3 x 0.5^0.55 = 4.3 x exp(-0.38123) = 4.3 x 0.68302
        (14.4, 4.588),  # 4.3 x 1.125^0.55 = 4.3 x exp(0.064781) = 4.3 x 1.06692
        (1.28, 1.212),  # 4.3 x 0.1^0.55 = 4.3 x 0.28184
    ],
)
def test_current_of_a_filament_falls_more_slowly_than_the_volts(volts_v: float, by_hand_a: float) -> None:
    assert DIP.current_at(volts_v) == pytest.approx(by_hand_a, abs=0.0005)


def test_power_of_a_filament_is_within_a_hundredth_of_the_exponent_printed_for_it() -> None:
    # 1.6 is printed for watts beside 0.55 for amperes (read), which makes 1.55: 1.1^1.6 = 1.1647, 1.1^1.55 = 1.1592
    watts = [volts_v * DIP.current_at(volts_v) for volts_v in (12.0, 13.2)]
    assert watts[1] / watts[0] == pytest.approx(1.1**1.6, rel=0.01)


def test_anything_else_is_a_resistance() -> None:
    assert HEATER.current_at(13.5) == pytest.approx(8)
    assert HEATER.current_at(6.75) == pytest.approx(4)
    assert HEATER.siemens_at(0.0) == HEATER.siemens_at(20.0) == pytest.approx(8 / 13.5)


@given(amps, stated_at, st.floats(0.05, 2))
def test_slope_of_a_filaments_current_is_the_exponent_of_what_a_resistance_would_have(
    current_a: float, volts_v: float, part: float
) -> None:
    # d/dV of V^0.55 is 0.55 V^0.55 / V, taken here as a quotient of small differences
    draw, at_v = LoadCurrent(current_a, volts_v, filament=True), part * volts_v
    step = 1e-5 * at_v
    slope = (draw.current_at(at_v + step) - draw.current_at(at_v - step)) / (2 * step)
    assert slope == pytest.approx(0.55 * draw.siemens_at(at_v), rel=1e-5)


@given(amps, stated_at, volts, st.booleans())
def test_current_turns_with_the_volts(current_a: float, stated_v: float, volts_v: float, filament: bool) -> None:
    draw = LoadCurrent(current_a, stated_v, filament)
    assert draw.current_at(-volts_v) == -draw.current_at(volts_v)
    assert draw.siemens_at(-volts_v) == draw.siemens_at(volts_v) > 0
    assert draw.current_at(0.0) == 0


@given(amps, stated_at, volts, volts, st.booleans())
def test_more_volts_never_take_less_current(
    current_a: float, stated_v: float, one_v: float, other_v: float, filament: bool
) -> None:
    draw = LoadCurrent(current_a, stated_v, filament)
    low, high = sorted((one_v, other_v))
    assert draw.current_at(low) <= draw.current_at(high)


def test_a_cold_filament_is_a_twelfth_of_its_hot_resistance_and_goes_over_into_the_law_without_a_step() -> None:
    # the law gives 12 times the hot A/V where (V / Vd)^-0.45 = 12: V = Vd x 12^(-1/0.45) = 0.003998 Vd, 51 mV of 12.8 V
    assert pytest.approx(math.exp(-math.log(12) / 0.45)) == COLD_BELOW == pytest.approx(0.003998, abs=5e-7)
    edge_v = COLD_BELOW * 12.8
    hot = 4.3 / 12.8
    for volts_v in (0.0, edge_v / 3, edge_v):
        assert DIP.siemens_at(volts_v) == pytest.approx(12 * hot)
    assert DIP.current_at(edge_v / 2) == pytest.approx(DIP.current_at(edge_v) / 2)
    below, above = DIP.current_at(edge_v * (1 - 1e-9)), DIP.current_at(edge_v * (1 + 1e-9))
    assert above == pytest.approx(below, rel=1e-8)
    assert DIP.siemens_at(2 * edge_v) < 12 * hot
