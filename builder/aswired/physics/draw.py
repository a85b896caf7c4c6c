"""What a load takes at a voltage: as a resistance, or as a filament, whose current falls more slowly than the volts.

A filament lamp takes I = Id (V / Vd)^0.55 and gives light as (V / Vd)^3.4 (Standard Handbook for Electrical Engineers,
11th ed., p. 22-8, and a lamp maker; read). A cold filament has about a twelfth of its hot resistance (from memory):
below the voltage at which the law gives that, it is a plain resistance.
"""

from dataclasses import dataclass

FILAMENT_CURRENT_POWER = 0.55
FILAMENT_LIGHT_POWER = 3.4  # 3.4 to 3.5 are printed; the lower tells the smaller loss
COLD_PART = 1 / 12  # of the hot resistance; from memory, a tenth to a fifteenth is usual
COLD_BELOW = COLD_PART ** (1 / (1 - FILAMENT_CURRENT_POWER))  # of the design voltage, 0.004

_BENDS_BELOW = 0.05  # of the design voltage: there a tangent overshoots


@dataclass(frozen=True)
class LoadCurrent:
    """A load's current at its stated voltage: current_a [A] > 0 at volts_v [V] > 0; `filament` for a filament lamp."""

    current_a: float
    volts_v: float
    filament: bool

    def current_at(self, volts_v: float) -> float:
        """Current at a voltage [A]; it turns with the sign of the voltage.

        >>> round(LoadCurrent(4.3, 12.8, True).current_at(6.4), 3)
        2.937
        """
        return volts_v * self.siemens_at(volts_v)

    def siemens_at(self, volts_v: float) -> float:
        """Current over voltage at a voltage [A/V]; that of the cold filament near nought."""
        hot = self.current_a / self.volts_v
        if not self.filament:
            return hot
        part = max(abs(volts_v) / self.volts_v, COLD_BELOW)
        return float(hot * part ** (FILAMENT_CURRENT_POWER - 1))

    def tangent_at(self, volts_v: float) -> tuple[float, float]:
        """The straight line I = a + g V that stands in for the load near a voltage: a [A], g [A/V].

        The tangent of a filament that is warm; near nought, where the law bends, the line through the point and 0 V.
        """
        siemens = self.siemens_at(volts_v)
        if not self.filament or abs(volts_v) < _BENDS_BELOW * self.volts_v:
            return 0.0, siemens
        slope = FILAMENT_CURRENT_POWER * siemens
        return (siemens - slope) * volts_v, slope


def light_part(volts_v: float, full_v: float) -> float:
    """Light of a filament lamp as a part of what it gives at `full_v`.

    Raises:
        ValueError: a voltage is below zero, or full_v is not above it.

    >>> round(light_part(12.0, 13.2), 3)
    0.723
    """
    if not full_v > 0 or volts_v < 0:
        raise ValueError(f"volts must not be below zero, got {volts_v:g} of {full_v:g}")
    return float((volts_v / full_v) ** FILAMENT_LIGHT_POWER)
