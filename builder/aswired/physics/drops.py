"""Voltage drop of a path, and the drop that a named rule allows."""

from dataclasses import dataclass

# AC 43.13-1B Table 11-6, bus to equipment ground: nominal [V] -> allowed drop [V] (continuous, intermittent).
# From memory; cross-checked: Tables 11-7 and 11-8 (read) use the continuous column.
TABLE_11_6_V = {
    14.0: {"continuous": 0.5, "intermittent": 1.0},
    28.0: {"continuous": 1.0, "intermittent": 2.0},
    115.0: {"continuous": 4.0, "intermittent": 8.0},
    200.0: {"continuous": 7.0, "intermittent": 14.0},
}
# Which supply belongs to which row: a 12 V vehicle lies at 14 V while charging, a 24 V one at 28 V.
# The bounds are an estimate of ours: flat battery to highest charging voltage.
SUPPLY_BANDS_V = {14.0: (10.0, 16.0), 28.0: (20.0, 32.0)}

# ABYC E-11, out and back: part of the nominal voltage. Read.
ABYC_PART = {"critical": 0.03, "non-critical": 0.10}

DROP_RULES = ("continuous", "intermittent", "critical", "non-critical")


@dataclass(frozen=True)
class DropLimit:
    """Largest drop a rule allows over feed and return together: limit_v [V], its source, mark and a note."""

    limit_v: float
    source: str
    mark: str
    note: str


def drop_v(resistance_mohm: float, current_a: float) -> float:
    """Voltage lost over a resistance. [V]

    Args:
        resistance_mohm: [mΩ], >= 0
        current_a: [A]; the sign of the current is the sign of the drop

    Source: Ohm's law.

    >>> drop_v(133.0, 8.0)
    1.064
    """
    return resistance_mohm * current_a / 1000


def drop_limit(supply_v: float | None, load_class: str) -> DropLimit | None:
    """Allowed drop for a supply and a class of load; None = supply not recorded, or no row for it.

    Args:
        supply_v: volts the figure is for [V], > 0; None = not recorded.
        load_class: "continuous" or "intermittent" (AC 43.13-1B Table 11-6), "critical" or
            "non-critical" (ABYC E-11: 3 % or 10 % of supply_v; give the nominal voltage for the
            rule as it is printed, a higher supply gives a wider limit).

    Raises:
        ValueError: the class is not known or the supply is not above zero.

    >>> drop_limit(13.5, "continuous").limit_v
    0.5
    """
    if load_class not in DROP_RULES:
        raise ValueError(f"load class '{load_class}' is not known; known: {', '.join(DROP_RULES)}")
    if supply_v is None:
        return None
    if not supply_v > 0:
        raise ValueError(f"supply_v must be above zero, got {supply_v:g}")
    if load_class in ABYC_PART:
        part = ABYC_PART[load_class]
        note = f"{part:.0%} of {supply_v:g} V, out and back; as printed it is a share of the nominal volts"
        return DropLimit(part * supply_v, "ABYC E-11", "read", note)
    row_v = _table_11_6_row(supply_v)
    if row_v is None:
        return None
    return DropLimit(
        TABLE_11_6_V[row_v][load_class],
        "AC 43.13-1B Table 11-6",
        "from memory, cross-checked",
        f"{row_v:g} V row, {load_class}",
    )


def _table_11_6_row(supply_v: float) -> float | None:
    if supply_v in TABLE_11_6_V:
        return supply_v
    return next((row for row, (low, high) in SUPPLY_BANDS_V.items() if low <= supply_v <= high), None)
