"""Copper area, diameter and resistance per metre of a wire from its size, in a named size system.

The systems are never mixed in silence: "14 AWG" is 2.08 mm² as a solid gauge and 1.85 mm² as an
SAE vehicle cable, so every answer carries the system's source and mark.
Marks: "read" (seen in print), "from memory" (not seen in print), "computed" (from a stated rule).
"""

import math
from dataclasses import dataclass
from functools import lru_cache

ASTM_B258 = "ASTM B258"
SAE_J1128 = "SAE J1128"
ISO_6722_1 = "ISO 6722-1"
IEC_60228 = "IEC 60228"
AWG_SYSTEMS = (ASTM_B258, SAE_J1128)
MM2_SYSTEMS = (ISO_6722_1, IEC_60228)
SYSTEMS = AWG_SYSTEMS + MM2_SYSTEMS

COPPER_20C = 1000 / 58  # [mΩ·mm²/m] = 17.2414, annealed copper 100 % IACS, 20 °C, IEC 60028; value read
INFERRED_ZERO_C = 234.5  # [°C below zero] copper, AC 43.13-1B CHG 1 para 11-66, p. 11-22; read
REFERENCE_C = 20.0  # [°C] temperature of every table below

# ASTM B258: 36 AWG is 0.127 mm (5 mil) and 4/0 is 11.684 mm (460 mil) by definition, 39 equal steps apart.
THICKEST_AWG, THINNEST_AWG = -3, 36

# SAE J1128 conductor table: gauge -> minimum copper area [mm²]. From memory; cross-check: published
# strandings of 18 to 8 lie between this minimum and the solid gauge area.
J1128_MIN_AREA_MM2 = {
    24: 0.205, 22: 0.324, 20: 0.508, 18: 0.76, 16: 1.12, 14: 1.85,
    12: 2.91, 10: 4.65, 8: 7.23, 6: 12.1, 4: 18.3, 2: 31.1,
}  # fmt: skip

# ISO 6722-1 / ISO 19642: nominal area [mm²] -> maximum resistance at 20 °C [mΩ/m]. From memory;
# cross-check: resistance x area is 17.68 to 19.70 on every row, copper alone being 17.24.
ISO_6722_MAX_MOHM_PER_M = {
    0.13: 136.0, 0.22: 84.8, 0.35: 54.4, 0.5: 37.1, 0.75: 24.7, 1.0: 18.5, 1.25: 14.9, 1.5: 12.7,
    2.0: 9.42, 2.5: 7.6, 3.0: 6.15, 4.0: 4.71, 5.0: 3.94, 6.0: 3.14, 8.0: 2.38, 10.0: 1.82,
    12.0: 1.52, 16.0: 1.16, 20.0: 0.955, 25.0: 0.743, 30.0: 0.647, 35.0: 0.527, 40.0: 0.473,
    50.0: 0.368, 60.0: 0.315, 70.0: 0.259, 95.0: 0.196, 120.0: 0.153,
}  # fmt: skip
ISO_6722_LARGEST_PRODUCT = 19.7  # [mΩ·mm²/m] largest resistance x area of the table (row 5 mm²); computed

# IEC 60228 class 5 (flexible), plain copper: nominal area [mm²] -> maximum resistance at 20 °C
# [Ω/km = mΩ/m]. Read in three agreeing prints, one of them VDE 0295.
IEC_60228_CLASS_5_MOHM_PER_M = {
    0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.3, 10.0: 1.91,
    16.0: 1.21, 25.0: 0.78, 35.0: 0.554, 50.0: 0.386, 70.0: 0.272, 95.0: 0.206, 120.0: 0.161,
}  # fmt: skip

SOLID_EQUIVALENT = "diameter is that of a solid wire of this area; 7 strands measure 1.13, 19 strands 1.15 times it"


@dataclass(frozen=True)
class Conductor:
    """A bare conductor as its size system describes it.

    area_mm2: copper cross-section [mm²]: solid gauge, minimum (SAE J1128) or nominal (ISO, IEC).
    diameter_mm: bare conductor, without insulation [mm]; for stranded wire that of a solid wire of
        the same area, sqrt(4A/π) (computed).
    resistance_mohm_per_m: at the temperature asked for [mΩ/m]; for ISO and IEC the permitted maximum.
    source, mark: where the figure comes from and how it was had.
    note: what a reader has to know beside the figure.
    """

    area_mm2: float
    diameter_mm: float
    resistance_mohm_per_m: float
    source: str
    mark: str
    note: str


def conductor(system: str, size: float, *, temp_c: float = REFERENCE_C) -> Conductor:
    """Conductor of one size in one size system, its resistance at a conductor temperature.

    Args:
        system: one of SYSTEMS.
        size: AWG systems: whole gauge number, 1/0 = 0, 2/0 = -1, 3/0 = -2, 4/0 = -3.
            mm² systems: nominal area [mm²], > 0.
        temp_c: temperature of the copper, not of the air [°C], above -234.5.

    Raises:
        ValueError: the system is not known, it has no such size, or the temperature is too low.

    Sources: ASTM B258 diameter rule with IEC 60028 copper (computed); SAE J1128 minimum area with
    the same copper (area from memory); ISO 6722-1 maximum resistance (from memory), between two rows
    19.7/area (computed: the least favourable row; it may exceed a neighbouring row by up to 11 %);
    IEC 60228 class 5 plain maximum resistance (read), no size between rows.

    >>> round(conductor("ASTM B258", 18).resistance_mohm_per_m, 2)
    20.95
    >>> conductor("IEC 60228", 1.5).resistance_mohm_per_m
    13.3
    """
    return _conductor(system, size, temp_c)


@lru_cache(maxsize=None, typed=True)  # a car has few sizes, and each is asked for hundreds of times
def _conductor(system: str, size: float, temp_c: float) -> Conductor:
    if system == ASTM_B258:
        at_20c = _astm_b258(_gauge(system, size))
    elif system == SAE_J1128:
        at_20c = _sae_j1128(_gauge(system, size))
    elif system == ISO_6722_1:
        at_20c = _iso_6722_1(size)
    elif system == IEC_60228:
        at_20c = _iec_60228(size)
    else:
        raise ValueError(f"size system '{system}' is not known; known: {', '.join(SYSTEMS)}")
    if temp_c == REFERENCE_C:
        return at_20c
    warmer = f"at {temp_c:g} °C: R20 x (234.5 + T) / 254.5, AC 43.13-1B para 11-66"
    return Conductor(
        area_mm2=at_20c.area_mm2,
        diameter_mm=at_20c.diameter_mm,
        resistance_mohm_per_m=at_temperature(at_20c.resistance_mohm_per_m, temp_c),
        source=at_20c.source,
        mark=at_20c.mark,
        note="; ".join(part for part in (at_20c.note, warmer) if part),
    )


def at_temperature(resistance_20c: float, temp_c: float) -> float:
    """Resistance of copper at a conductor temperature, from that at 20 °C. [unit of the argument]

    Raises:
        ValueError: temp_c is at or below -234.5 °C, where the straight line ends.

    Source: AC 43.13-1B CHG 1 para 11-66 (read), printed there as L2 = 254.5 L1 / (234.5 + T2) for the
    length that keeps the drop; the same line turned round is R2 = R20 (234.5 + T2) / 254.5.

    >>> round(at_temperature(10.0, 85.0), 2)
    12.55
    """
    if not temp_c > -INFERRED_ZERO_C:
        raise ValueError(f"temp_c must be above -{INFERRED_ZERO_C}, got {temp_c:g}")
    return resistance_20c * (INFERRED_ZERO_C + temp_c) / (INFERRED_ZERO_C + REFERENCE_C)


def length_resistance(resistance_mohm_per_m: float, length_mm: float) -> float:
    """Resistance of a length of conductor. [mΩ]

    Args:
        resistance_mohm_per_m: [mΩ/m], >= 0
        length_mm: conductor length, overlaps of joints counted once [mm], >= 0

    Raises:
        ValueError: the length is below zero.

    >>> length_resistance(13.3, 10_000)
    133.0
    """
    if length_mm < 0:
        raise ValueError(f"length_mm must not be below zero, got {length_mm:g}")
    return resistance_mohm_per_m * length_mm / 1000


def gauge_name(gauge: int) -> str:
    """A gauge number as it is printed on the reel: 14 -> "14 AWG", 0 -> "1/0 AWG", -3 -> "4/0 AWG"."""
    return f"{gauge} AWG" if gauge > 0 else f"{1 - gauge}/0 AWG"


def _gauge(system: str, size: float) -> int:
    if not math.isfinite(size) or size != int(size):
        raise ValueError(f"{system} has no size {size:g} AWG: gauges are whole numbers")
    return int(size)


def _astm_b258(gauge: int) -> Conductor:
    if not THICKEST_AWG <= gauge <= THINNEST_AWG:
        raise ValueError(f"{ASTM_B258} has no size {gauge_name(gauge)} here: 4/0 AWG to 36 AWG")
    diameter_mm = 0.127 * 92 ** ((36 - gauge) / 39)
    area_mm2 = math.pi / 4 * diameter_mm**2
    return Conductor(
        area_mm2,
        diameter_mm,
        COPPER_20C / area_mm2,
        source="ASTM B258 diameter rule, copper of IEC 60028",
        mark="computed",
        note="solid wire",
    )


def _sae_j1128(gauge: int) -> Conductor:
    area_mm2 = J1128_MIN_AREA_MM2.get(gauge)
    if area_mm2 is None:
        sizes = ", ".join(str(size) for size in J1128_MIN_AREA_MM2)
        raise ValueError(f"{SAE_J1128} has no size {gauge_name(gauge)}; it has {sizes}")
    return Conductor(
        area_mm2,
        _solid_diameter_mm(area_mm2),
        COPPER_20C / area_mm2,
        source="SAE J1128 minimum conductor area, copper of IEC 60028",
        mark="from memory",
        note=f"least copper the standard allows; {SOLID_EQUIVALENT}",
    )


def _iso_6722_1(area_mm2: float) -> Conductor:
    row = _row(area_mm2, ISO_6722_MAX_MOHM_PER_M)
    mark, note = "from memory", "permitted maximum"
    if row == 0.35:
        note += " (older editions and DIN 72551-6: 52.0 mΩ/m)"
    if row is not None:
        resistance = ISO_6722_MAX_MOHM_PER_M[row]
    else:
        smallest, largest = min(ISO_6722_MAX_MOHM_PER_M), max(ISO_6722_MAX_MOHM_PER_M)
        if not smallest < area_mm2 < largest:
            raise ValueError(f"{ISO_6722_1} has no size {area_mm2:g} mm²: {smallest:g} mm² to {largest:g} mm²")
        resistance = ISO_6722_LARGEST_PRODUCT / area_mm2
        mark = "computed"
        note = "size between two rows of the table: 19.7 / area, the table's largest resistance x area"
    return Conductor(
        area_mm2,
        _solid_diameter_mm(area_mm2),
        resistance,
        source="ISO 6722-1 maximum conductor resistance",
        mark=mark,
        note=f"{note}; {SOLID_EQUIVALENT}",
    )


def _iec_60228(area_mm2: float) -> Conductor:
    row = _row(area_mm2, IEC_60228_CLASS_5_MOHM_PER_M)
    if row is None:
        sizes = ", ".join(f"{size:g}" for size in IEC_60228_CLASS_5_MOHM_PER_M)
        raise ValueError(f"{IEC_60228} has no size {area_mm2:g} mm²; it has {sizes}")
    return Conductor(
        area_mm2,
        _solid_diameter_mm(area_mm2),
        IEC_60228_CLASS_5_MOHM_PER_M[row],
        source="IEC 60228 class 5 plain copper, maximum resistance",
        mark="read",
        note=f"permitted maximum; {SOLID_EQUIVALENT}",
    )


def _row(area_mm2: float, table: dict[float, float]) -> float | None:
    """The table's own size that this is, or None; a float that went through arithmetic still finds its row."""
    return next((size for size in table if math.isclose(size, area_mm2, rel_tol=1e-9)), None)


def _solid_diameter_mm(area_mm2: float) -> float:
    return math.sqrt(4 * area_mm2 / math.pi)
