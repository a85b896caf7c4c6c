"""What a conductor may carry: the planning table, the highest public figure, and what heat, metal and time make of it.

Areas are copper [mm²]. Marks: "read" (seen in the text of the source), "computed" (from a stated rule), and the
planning value. Terminals, holders, switches and contacts have no rating here.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from aswired.physics.ampacity import (
    CFR_183_425,
    CFR_183_425_A,
    FAA_11_3,
    FAA_11_3_A,
    READ,
    GaugeRow,
    cfr_allowed_a,
    cfr_column,
    row_of_area,
    row_of_gauge,
)
from aswired.physics.conductor import gauge_name
from aswired.physics.steps import AREA_OF_A_STEP

COMPUTED = "computed"
PLANNING_MARK = "planning value, estimate set conservatively between published shop figures"
_SHOP = "planning table"
_THIN = "10 A/mm² of 0.5 mm² carried on, down to a rating that is sold"
_THICK = f"{CFR_183_425}, column 60 °C, between its rows straight by logarithms, down to 5 A"


@dataclass(frozen=True)
class PlannedRow:
    """A row of the planning table: amps [A], the source that it rests on, and its mark."""

    amps: float
    source: str
    mark: str


# The planning table: copper area [mm²] -> what it may carry, smallest first. Beside the rows below 0.5 mm² stands
# AC 43.13-1B Table 11-9, 105 °C in a bundle of 33: 24 AWG 2.5 A, 22 AWG 3 A (read).
PLANNED_A: Mapping[float, PlannedRow] = {
    **{area: PlannedRow(amps, _THIN, COMPUTED) for area, amps in ((0.13, 1.0), (0.22, 2.0), (0.35, 3.0))},
    **{
        area: PlannedRow(amps, _SHOP, PLANNING_MARK)
        for area, amps in (
            (0.5, 5.0), (0.75, 7.5), (1.0, 10.0), (1.5, 15.0), (2.0, 15.0), (2.5, 20.0), (4.0, 30.0), (6.0, 40.0),
        )
    },
    **{
        area: PlannedRow(amps, _THICK, COMPUTED)
        for area, amps in (
            (8.0, 50.0), (10.0, 60.0), (16.0, 85.0), (25.0, 115.0), (35.0, 140.0), (50.0, 185.0), (70.0, 230.0),
            (95.0, 275.0), (120.0, 300.0),
        )
    },
}  # fmt: skip
# From this share of its copper on a wire counts as of a row: an SAE 22 AWG of 0.324 mm² is sold as 0.35.
# Planning value, estimate.
ROW_FROM = 0.92
_HAIR = 1e-9  # areas that are equal but for rounding

PLANNED_TO_C = 50.0  # what the planning table is meant for [°C] around the wire; planning value, estimate
CFR_AROUND_C = 30.0  # 33 CFR 183.425 Table 5, outside engine spaces [°C]; read
UNWRITTEN_C = 60.0  # insulation that nobody wrote counts by the lowest column of that table [°C]

# A conductor of other metal, as a share of copper of the same area: root of its conductivity, 61 % and 64 % of copper
# (from memory), because what heats it is I²R (computed).
SHARE_OF_COPPER: Mapping[str, float] = {"aluminium": 0.78, "copper-clad aluminium": 0.80}

# Copper at 65 °C, no heat given off: 20.3e-9 Ωm / 3.45e6 J/m³K, as K mm⁴/A² in each second (computed).
_K_PER_SECOND = 0.0059
_SHORT_RISE_K = 40.0  # planning value, estimate

# A fusible link stands four gauge numbers below what it protects (common practice): two steps of two numbers each,
# 2.53 in area; 2 % less, because sizes sold are rounded: 1.0 stands before 2.5 mm² (planning value, estimate).
_LINK_NUMBERS = 4.0
_SOLD_WITHIN = 0.02


@dataclass(frozen=True)
class Rating:
    """What a conductor may carry by one row of a table.

    value: [A].
    row: the copper of the row that counted [mm²]; of a table of gauges that of the solid gauge.
    source, mark: where the row comes from and how it was had.
    note: how the row was found; '' where the area is that of the row.
    """

    value: float
    row: float
    source: str
    mark: str
    note: str


@dataclass(frozen=True)
class HeatShare:
    """What is left in a hot leg of what a wire may carry by the planning table, and of its bound: shares from 0 to 1.

    0 where the leg is as hot as the insulation may become, or hotter. The bound loses the larger share, so that its
    product can come out below that of the planned rating: the greater of the two is then the bound.
    """

    planned: float
    bound: float


def planned_a(area_mm2: float) -> Rating | None:
    """What a copper conductor may carry by the planning table; None below 92 % of the smallest row, 0.13 mm².

    Args:
        area_mm2: copper cross-section [mm²], > 0. The next thinner row counts, a row from 92 % of its copper on.

    Raises:
        ValueError: the area is not above zero.

    Source: PLANNED_A, each row with its own.

    >>> planned_a(1.85).value, planned_a(0.324).value, planned_a(0.1)
    (15.0, 3.0, None)
    """
    if not area_mm2 > 0:
        raise ValueError(f"area_mm2 must be above zero, got {area_mm2:g}")
    row = _planned_row(area_mm2)
    if row is None:
        return None
    found = PLANNED_A[row]
    note = "" if row == area_mm2 else f"{area_mm2:.3g} mm² counts as the {row:g} mm² row"
    return Rating(found.amps, row, found.source, found.mark, note)


@cache
def _planned_row(area_mm2: float) -> float | None:
    return max((row for row in PLANNED_A if row * ROW_FROM <= area_mm2 * (1 + _HAIR)), default=None)


def bound_a(area_mm2: float, insulation_c: float | None, gauge: int | None = None) -> Rating | None:
    """The highest public figure for a copper conductor, never less than its planned rating; None where it has no row.

    Args:
        area_mm2: copper cross-section [mm²], > 0.
        insulation_c: what its insulation is good for [°C]; None = not written, 60 °C. Below 60 °C no table lets it
            carry anything, and the planned rating is all there is.
        gauge: of a wire that is sold by gauge; its row counts then, though SAE wire has less copper than a solid gauge.
            33 CFR 183.430 takes wire by SAE J1128 for the sizes of its table (from memory).

    Raises:
        ValueError: the area is not above zero.

    Sources: 33 CFR 183.425 Table 5 by the column of the insulation (read); below 18 AWG the breaker of AC 43.13-1B
    Table 11-3 (read).

    >>> bound_a(1.0, 85).value, bound_a(0.75, None).value, bound_a(4.0, None).value, bound_a(1.23, None, 16).value
    (15, 7.5, 30.0, 15)
    """
    planned = planned_a(area_mm2)
    published = _published(area_mm2, UNWRITTEN_C if insulation_c is None else insulation_c, gauge)
    if published is None or planned is None:
        return planned
    return published if published.value >= planned.value else planned


@cache  # the tables are walked through once for each size
def _published(area_mm2: float, insulation_c: float, gauge: int | None) -> Rating | None:
    column = cfr_column(insulation_c)
    if column is None:
        return None
    row = _row(area_mm2, gauge, CFR_183_425_A)
    if row is not None:
        note = f"row {gauge_name(row.gauge)}, column {column} °C"
        return Rating(cfr_allowed_a(row.gauge, column), row.area_mm2, CFR_183_425, READ, note)
    row = _row(area_mm2, gauge, FAA_11_3_A)
    breaker_a = FAA_11_3_A[row.gauge][0] if row is not None else None
    if row is None or breaker_a is None:
        return None
    return Rating(breaker_a, row.area_mm2, FAA_11_3, READ, f"row {gauge_name(row.gauge)}, breaker")


def _row(area_mm2: float, gauge: int | None, rows: Iterable[int]) -> GaugeRow | None:
    return row_of_area(area_mm2, rows) if gauge is None else row_of_gauge(gauge, rows)


def heat_factor(insulation_c: float | None, leg_c: float) -> HeatShare | None:
    """What a hot leg leaves of the planned rating and of the bound; None where the insulation is not written.

    Args:
        insulation_c: what the insulation is good for [°C]; None = not written.
        leg_c: the heat around the wire [°C]. Up to 50 °C nothing is taken off and nothing need be written.

    Source: warmth above the air rises with the square of the current (computed): sqrt((Ti - T) / (Ti - 50)) of what
    is planned, with 30 °C in place of 50 of what 33 CFR 183.425 allows.

    >>> round(20 * heat_factor(85, 70).planned, 1), heat_factor(85, 45), heat_factor(None, 70)
    (13.1, HeatShare(planned=1.0, bound=1.0), None)
    """
    if leg_c <= PLANNED_TO_C:
        return HeatShare(1.0, 1.0)
    if insulation_c is None:
        return None
    left = insulation_c - leg_c
    if left <= 0:
        return HeatShare(0.0, 0.0)
    return HeatShare(math.sqrt(left / (insulation_c - PLANNED_TO_C)), math.sqrt(left / (insulation_c - CFR_AROUND_C)))


def short_time_a(area_mm2: float, seconds: float) -> float:
    """What a copper conductor bears for a time, once, from 45 to 85 °C with no heat given off. [A]

    Args:
        area_mm2: copper cross-section [mm²], > 0
        seconds: how long it is on at most [s], > 0

    Raises:
        ValueError: the area or the time is not above zero.

    Source: rise of 40 K = 0.0059 K mm⁴/A²s x (I/A)² x t, copper at 65 °C (computed).

    >>> round(short_time_a(16, 30)), round(short_time_a(1, 60), 1)
    (241, 10.6)
    """
    if not area_mm2 > 0 or not seconds > 0:
        raise ValueError(f"area_mm2 and seconds must be above zero, got {area_mm2:g} and {seconds:g}")
    return area_mm2 * math.sqrt(_SHORT_RISE_K / (_K_PER_SECOND * seconds))


def link_lets_through_area_mm2(area_mm2: float, steps: float = _LINK_NUMBERS) -> float:
    """The wire whose planned rating a fusible link lets through for good: so many gauge numbers thicker. [mm²]

    Args:
        area_mm2: copper of the link [mm²], > 0
        steps: gauge numbers; fewer than four count as four

    Raises:
        ValueError: the area is not above zero.

    Source: gauge numbers by ASTM B258, 2.53 in area (computed), 2 % less for sizes that are sold.

    >>> planned_a(link_lets_through_area_mm2(1.0)).value
    20.0
    """
    if not area_mm2 > 0:
        raise ValueError(f"area_mm2 must be above zero, got {area_mm2:g}")
    thicker = math.pow(AREA_OF_A_STEP, max(_LINK_NUMBERS, steps) / 2)
    return area_mm2 * thicker * (1 - _SOLD_WITHIN)
