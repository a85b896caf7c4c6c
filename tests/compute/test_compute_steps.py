"""Steps of size: two gauges of ASTM B258 are one."""

from __future__ import annotations

import pytest

from aswired.physics.steps import steps_thicker

# areas [mm²] of solid gauges by the ASTM B258 rule of diameters (computed), rounded as wire tables print them
AREA = {10: 5.261, 12: 3.309, 14: 2.081, 16: 1.309, 18: 0.823, 20: 0.518}


@pytest.mark.parametrize("gauge", [12, 14, 16, 18, 20])
def test_two_gauge_numbers_are_one_step(gauge: int) -> None:
    assert steps_thicker(AREA[gauge - 2], AREA[gauge]) == pytest.approx(1.0, abs=0.003)


def test_steps_add_up_and_turn_round() -> None:
    assert steps_thicker(AREA[10], AREA[20]) == pytest.approx(5.0, abs=0.003)
    assert steps_thicker(1.5, 4.0) == pytest.approx(-steps_thicker(4.0, 1.5))
    assert steps_thicker(1.0, 1.0) == 0


@pytest.mark.parametrize(("area", "than"), [(0, 1), (1, 0), (-1, 1)])
def test_an_area_is_above_zero(area: float, than: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        steps_thicker(area, than)
