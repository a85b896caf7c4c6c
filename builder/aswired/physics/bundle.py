"""Thickness of a bundle of wires, and what is sized by it: conduit, tape, the bend it may be laid in.

Lengths and diameters are millimetres. Marks: "read" (seen in print), "from memory" (not seen in print), "computed"
(from a stated rule), "common practice, no source".
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

# Diameter of the smallest circle around n equal circles, in diameters of one of them. Table of equal-circle packings
# (read); 1 to 13, 14 and 19 are proved to be the smallest, 15 to 18 and 20 are the smallest known.
PACKING = {
    1: 1.0, 2: 2.0, 3: 2.1547, 4: 2.4142, 5: 2.7013, 6: 3.0, 7: 3.0, 8: 3.3048, 9: 3.6131, 10: 3.813,
    11: 3.9238, 12: 4.029, 13: 4.2361, 14: 4.328, 15: 4.521, 16: 4.615, 17: 4.792, 18: 4.8637, 19: 4.8637, 20: 5.122,
}  # fmt: skip

# D = k x sqrt(sum of d squared) for wires of unequal size: trade handbook, 24 wires of 2.0 mm make 11.8 mm (read)
LAY, LAY_TIGHT, LAY_LOOSE = 1.2, 1.15, 1.45

JOINT_BULGE, JOINT_BULGE_LEAST, JOINT_BULGE_MOST = 2.25, 2.0, 2.5  # joint in its sleeve over the wire: common practice

BEND_WIRE = 10.0  # least bend radius in diameters of the largest wire: AC 43.13-1B para 11-117 (read, second hand)
BEND_BUNDLE = 10.0  # the same in diameters of the bundle: aviation practice
BEND_BUNDLE_CAR = 5.0  # 4 to 5 diameters of the bundle are accepted on cars: common practice, no source

# SAE J1128 low-voltage cable, gauge -> outer diameter: conductor and twice the nominal wall (computed). The walls are
# from memory, but for GPT 20 to 14, 0.023 in (read). GPT is PVC; TXL, GXL, SXL are cross-linked, thin to thick wall.
J1128_OUTSIDE_MM = {
    "GPT": {20: 2.13, 18: 2.34, 16: 2.60, 14: 2.97, 12: 3.59, 10: 4.44},
    "TXL": {20: 1.78, 18: 1.99, 16: 2.24, 14: 2.62, 12: 3.19, 10: 3.88},
    "GXL": {20: 2.13, 18: 2.34, 16: 2.60, 14: 2.97, 12: 3.59, 10: 4.44},
    "SXL": {20: 2.44, 18: 2.70, 16: 3.06, 14: 3.58, 12: 4.15, 10: 4.95},
}
J1128_APART_MM = 0.15

# ISO 6722-1 / ISO 19642 thin-wall cable, nominal area [mm2] -> largest outer diameter. From memory.
ISO_6722_THIN_WALL_MM = {
    0.22: 1.2, 0.35: 1.3, 0.5: 1.6, 0.75: 1.9, 1.0: 2.1, 1.25: 2.3, 1.5: 2.4, 2.0: 2.8, 2.5: 3.0, 3.0: 3.4, 4.0: 3.7,
    5.0: 4.2, 6.0: 4.3, 8.0: 5.0, 10.0: 6.0, 12.0: 6.5, 16.0: 7.2, 20.0: 7.8, 25.0: 8.7,
}  # fmt: skip
ISO_6722_APART_MM = 0.3


@dataclass(frozen=True)
class Outside:
    """Outer diameter of a wire over its insulation [mm], between which values it lies, and how it was had."""

    mm: float
    least_mm: float
    most_mm: float
    source: str
    mark: str


@dataclass(frozen=True)
class Thickness:
    """Diameter of a bundle [mm], the band it lies in, and the rule that gave it."""

    mm: float
    least_mm: float
    most_mm: float
    rule: str
    formula: str


def measured(mm: float) -> Outside:
    """An outer diameter [mm] that somebody measured."""
    return Outside(mm, mm, mm, "measured", "recorded")


def outside(system: str | None, number: float | None, insulation: str) -> Outside | None:
    """Outer diameter of a wire by its size and insulation: an estimate. None where no table has it.

    Args:
        system, number: as in `units.Size`: 'AWG' and the gauge, or 'mm2' and the area.
        insulation: PVC, cross-linked, ...; '' or unknown when it is not recorded.

    >>> outside("AWG", 18, "PVC").mm, outside("mm2", 1.5, "").mm, outside("AWG", 18, "silicone")
    (2.34, 2.4, None)
    """
    if number is None or insulation not in ("PVC", "cross-linked", "", "unknown"):
        return None
    if system == "AWG" and number in J1128_OUTSIDE_MM["GPT"]:
        return _j1128(int(number), insulation)
    found = next((mm for area, mm in ISO_6722_THIN_WALL_MM.items() if math.isclose(area, number, rel_tol=1e-9)), None)
    if system != "mm2" or found is None:
        return None
    least, most = found - ISO_6722_APART_MM, found + ISO_6722_APART_MM
    source = "ISO 6722-1 thin wall, largest; a thick wall is 20 to 50 % more"
    return Outside(found, least, most, source, "estimate, from memory")


def _j1128(gauge: int, insulation: str) -> Outside:
    if insulation == "PVC":
        middle = J1128_OUTSIDE_MM["GPT"][gauge]
        least, most, source = middle, middle, "SAE J1128 GPT (PVC), nominal wall"
    else:
        middle = J1128_OUTSIDE_MM["GXL"][gauge]
        least, most = J1128_OUTSIDE_MM["TXL"][gauge], J1128_OUTSIDE_MM["SXL"][gauge]
        source = "SAE J1128 GXL, between TXL and SXL"
        if insulation != "cross-linked":
            source += "; insulation not recorded"
    return Outside(middle, least - J1128_APART_MM, most + J1128_APART_MM, source, "estimate, wall from memory")


def thickness(wires: Sequence[Outside]) -> Thickness:
    """Diameter of the bundle that these wires make.

    One wire, two wires, and 3 to 20 equal ones have an exact smallest circle; all others go by k x sqrt(sum of d
    squared), and never below the two thickest side by side. A bundle laid by hand is looser than the smallest circle,
    so the band reaches to k 1.45.

    Raises:
        ValueError: no wire is given.

    >>> round(thickness([measured(2.0)] * 24).mm, 1), round(thickness([measured(2.0)] * 7).mm, 1)
    (11.8, 6.0)
    """
    if not wires:
        raise ValueError("a bundle needs a wire")
    middle, least, most = ([getattr(wire, key) for wire in wires] for key in ("mm", "least_mm", "most_mm"))
    equal = math.isclose(min(middle), max(middle), rel_tol=1e-6)
    if len(wires) == 1:
        return Thickness(middle[0], least[0], most[0], "one wire", "D = d")
    if len(wires) == 2:
        return Thickness(sum(middle), sum(least), sum(most), "two wires side by side", "D = d1 + d2")
    loosest = _by_area(most, LAY_LOOSE)
    if equal and len(wires) in PACKING:
        ratio = PACKING[len(wires)]
        formula = f"D = {ratio:g} d"
        rule = f"smallest circle around {len(wires)} equal wires"
        return Thickness(ratio * max(middle), ratio * min(least), max(loosest, ratio * max(most)), rule, formula)
    formula = f"D = {LAY:g} x sqrt(sum d²), not below d1 + d2"
    rule = f"bundle of unequal wires, k {LAY_TIGHT:g} to {LAY_LOOSE:g}" if not equal else "bundle of more than 20 wires"
    return Thickness(_by_area(middle, LAY), _by_area(least, LAY_TIGHT), loosest, rule, formula)


def _by_area(diameters: Iterable[float], k: float) -> float:
    """k x sqrt(sum d2), not below the two thickest side by side: no circle around both is smaller."""
    thickest_first = sorted(diameters, reverse=True)
    return max(k * math.hypot(*thickest_first), sum(thickest_first[:2]))


def lump(wires: Sequence[Outside]) -> Outside:
    """A joint in its sleeve as if it were one thick wire: 2 to 2.5 times the thickest wire in it, never thinner than
    its wires lie side by side in a bundle (common practice, no source)."""
    thickest = max(wires, key=lambda wire: wire.mm)
    beside = thickness(wires)
    return Outside(
        max(JOINT_BULGE * thickest.mm, beside.mm),
        max(JOINT_BULGE_LEAST * thickest.least_mm, beside.least_mm),
        max(JOINT_BULGE_MOST * thickest.most_mm, beside.most_mm),
        "joint in its sleeve, 2 to 2.5 x the wire",
        "common practice, no source",
    )


def next_size(bores_mm: Iterable[float], least_mm: float) -> float | None:
    """The smallest of the bores on hand that is wide enough; None when none is.

    >>> next_size([8, 12, 16], 11.7), next_size([8, 12, 16], 17)
    (12, None)
    """
    return min((bore for bore in bores_mm if bore >= least_mm - 1e-9), default=None)


def tape_length(diameter_mm: float, run_mm: float, width_mm: float, overlap: float) -> float:
    """Tape wound over a run of bundle: pi D L / (w (1 - f)). [mm]

    The tape's own area over the share of it that is not covered again; exact for a helix (derived, no source).

    Args:
        overlap: share of its width that each turn covers again, 0 <= f < 1.

    Raises:
        ValueError: the overlap is not a share below 1, or the width is not above zero.

    >>> round(tape_length(12, 1000, 19, 0.5))
    3968
    """
    if not 0 <= overlap < 1:
        raise ValueError(f"overlap must be a share from 0 to below 1, got {overlap:g}")
    if not width_mm > 0:
        raise ValueError(f"width_mm must be above zero, got {width_mm:g}")
    return math.pi * diameter_mm * run_mm / (width_mm * (1 - overlap))
