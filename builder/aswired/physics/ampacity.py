"""What published tables let a copper wire carry, and what fuse, breaker or switch they set beside it.

Second opinions beside the planning rating (compute.protection), which alone gives the verdict: the tables were written
for boats and aircraft. Marks: "read" (seen in the text of the source), "computed" (from a stated rule).
Gauges are whole numbers, 1/0 = 0, 2/0 = -1, 3/0 = -2, 4/0 = -3. Currents [A], temperatures [°C], areas [mm²].
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from aswired.physics.conductor import ASTM_B258, conductor, gauge_name

READ = "read"

# 33 CFR 183.425 Table 5: allowable amperage [A] outside engine spaces, 30 °C around the wire, by the temperature that
# the insulation is rated for [°C]. Read in two texts that agree.
CFR_183_425 = "33 CFR 183.425 Table 5"
CFR_COLUMNS_C = (60, 75, 80, 90, 105, 125, 200)
CFR_183_425_A: Mapping[int, tuple[float, ...]] = {
    18: (10, 10, 15, 20, 20, 25, 25), 16: (15, 15, 20, 25, 25, 30, 35), 14: (20, 20, 25, 30, 35, 40, 45),
    12: (25, 25, 35, 40, 45, 50, 55), 10: (40, 40, 50, 55, 60, 70, 70), 8: (55, 65, 70, 70, 80, 90, 100),
    6: (80, 95, 100, 100, 120, 125, 135), 4: (105, 125, 130, 135, 160, 170, 180),
    3: (120, 145, 150, 155, 180, 195, 210), 2: (140, 170, 175, 180, 210, 225, 240),
    1: (165, 195, 210, 210, 245, 265, 280), 0: (195, 230, 245, 245, 285, 305, 325),
    -1: (225, 265, 285, 285, 330, 355, 370), -2: (260, 310, 330, 330, 385, 410, 430),
    -3: (300, 360, 385, 385, 445, 475, 510),
}  # fmt: skip
# Note 1 of Table 5: factor in engine spaces, 50 °C around the wire, by column. Read.
CFR_ENGINE_SPACE: Mapping[int, float] = {60: 0.58, 75: 0.75, 80: 0.78, 90: 0.82, 105: 0.85, 125: 0.89, 200: 1.0}
# Note 2 of Table 5: factor by the least number of conductors that carry current in one bundle. Read.
CFR_BUNDLE: Mapping[int, float] = {1: 1.0, 3: 0.7, 4: 0.6, 7: 0.5, 25: 0.4}
CFR_BUNDLE_FROM_V = 50.0  # 33 CFR 183.435(b): from here on the bundle factor must be counted; read

# AC 43.13-1B (9/8/98) Table 11-3: copper gauge -> circuit breaker [A], fuse [A]; None = none printed. Columns read, the
# pairing of rows told by their counts; the notes on what the chart rests on were cut off in the text that was read.
FAA_11_3 = "AC 43.13-1B Table 11-3"
FAA_11_3_A: Mapping[int, tuple[float | None, float]] = {
    22: (5, 5), 20: (7.5, 5), 18: (10, 10), 16: (15, 10), 14: (20, 15), 12: (30, 20), 10: (40, 30), 8: (50, 50),
    6: (80, 70), 4: (100, 70), 2: (125, 100), 1: (None, 150), 0: (None, 150),
}  # fmt: skip

_AS_PRINTED = 0.005  # an area printed with three digits, 2.08 mm² for 2.081, still finds its row


@dataclass(frozen=True)
class GaugeRow:
    """The row of a gauge table that counts for a wire: gauge, copper of it as a solid gauge [mm²], how it was found."""

    gauge: int
    area_mm2: float
    how: str  # 'row 18 AWG', 'by area, row 20 AWG, 0.52 mm²'


# ---- rows of a table ------------------------------------------------------------------------------------------------
def row_of_gauge(gauge: int, rows: Iterable[int]) -> GaugeRow | None:
    """The row of a wire that is sold by gauge; between two rows the thinner counts. None below the smallest row.

    Raises:
        ValueError: ASTM B258 has no such gauge.

    Source: solid gauge areas by ASTM B258 (computed).

    >>> row_of_gauge(14, CFR_183_425_A).how, row_of_gauge(13, CFR_183_425_A).how, row_of_gauge(20, CFR_183_425_A)
    ('row 14 AWG', 'by area, row 14 AWG, 2.08 mm²', None)
    """
    gauges = set(rows)
    if gauge in gauges:
        return GaugeRow(gauge, solid_area_mm2(gauge), f"row {gauge_name(gauge)}")
    return row_of_area(solid_area_mm2(gauge), gauges)


def row_of_area(area_mm2: float, rows: Iterable[int]) -> GaugeRow | None:
    """The row of a wire that is sold by its area [mm²], > 0: the next thinner one. None below the smallest row.

    Raises:
        ValueError: the area is not above zero.

    Source: solid gauge areas by ASTM B258 (computed).

    >>> row_of_area(0.75, FAA_11_3_A).how, row_of_area(0.75, CFR_183_425_A)
    ('by area, row 20 AWG, 0.52 mm²', None)
    """
    if not area_mm2 > 0:
        raise ValueError(f"area_mm2 must be above zero, got {area_mm2:g}")
    fits = [gauge for gauge in rows if solid_area_mm2(gauge) <= area_mm2 * (1 + _AS_PRINTED)]
    if not fits:
        return None
    gauge = min(fits)
    area = solid_area_mm2(gauge)
    return GaugeRow(gauge, area, f"by area, row {gauge_name(gauge)}, {area:.2f} mm²")


def solid_area_mm2(gauge: int) -> float:
    """Copper of a solid gauge [mm²], ASTM B258 (computed)."""
    return conductor(ASTM_B258, gauge).area_mm2


# ---- 33 CFR 183 -----------------------------------------------------------------------------------------------------
def cfr_column(insulation_c: float) -> int | None:
    """Column of 33 CFR 183.425 Table 5 for insulation good to a temperature [°C]: the next lower. None below 60 °C.

    >>> cfr_column(85), cfr_column(150), cfr_column(50)
    (80, 125, None)
    """
    return max((column for column in CFR_COLUMNS_C if column <= insulation_c), default=None)


def cfr_allowed_a(gauge: int, column_c: int) -> float:
    """Allowable amperage of a row and column of 33 CFR 183.425 Table 5, before its notes [A]. Read.

    Raises:
        ValueError: the table has no such row or column.
    """
    if gauge not in CFR_183_425_A or column_c not in CFR_COLUMNS_C:
        raise ValueError(f"{CFR_183_425} has no {gauge_name(gauge)} at {column_c} °C")
    return CFR_183_425_A[gauge][CFR_COLUMNS_C.index(column_c)]


def bundle_factor(conductors: int) -> float:
    """Factor for a number of conductors that carry current in one bundle: note 2 of 33 CFR 183.425 Table 5. Read.

    Raises:
        ValueError: fewer than one conductor.

    >>> [bundle_factor(n) for n in (1, 2, 3, 6, 7, 24, 25)]
    [1.0, 1.0, 0.7, 0.6, 0.5, 0.5, 0.4]
    """
    if conductors < 1:
        raise ValueError(f"a bundle has at least one conductor, got {conductors}")
    return CFR_BUNDLE[max(least for least in CFR_BUNDLE if least <= conductors)]


def derated_a(amps: float, *factors: float) -> float:
    """Amperes times every factor that takes something off: heat, height, neighbours in the bundle. [A]

    Raises:
        ValueError: the amperes are not above zero, or a factor is not above 0 and up to 1.

    >>> derated_a(45, 0.85)
    38.25
    """
    if not amps > 0 or not all(0 < factor <= 1 for factor in factors):
        raise ValueError(f"amps must be above zero and each factor above 0 and up to 1, got {amps:g}, {factors}")
    return amps * math.prod(factors)
