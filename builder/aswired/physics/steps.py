"""How many steps of size one conductor is thicker than another, across gauges and square millimetres."""

from __future__ import annotations

import math

# ASTM B258: two gauge numbers are a factor of 92^(4/39) in area (computed from the rule of diameters, 39 equal steps
# from 36 AWG to 4/0). Wire for cars is sold in even gauges, so two numbers are one step; the rows of square
# millimetres (0.5, 0.75, 1.0, 1.5, 2.5, 4, 6) lie 0.6 to 1.1 such steps apart.
AREA_OF_A_STEP = 92 ** (4 / 39)


def steps_thicker(area_mm2: float, than_mm2: float) -> float:
    """Steps of size by which one copper area is above another; below zero when it is thinner.

    Args:
        area_mm2, than_mm2: copper areas [mm²], > 0

    Raises:
        ValueError: an area is not above zero.

    >>> round(steps_thicker(2.5, 1.0), 2)
    1.98
    """
    if area_mm2 <= 0 or than_mm2 <= 0:
        raise ValueError(f"areas must be above zero, got {area_mm2:g} and {than_mm2:g}")
    return math.log(area_mm2 / than_mm2) / math.log(AREA_OF_A_STEP)
