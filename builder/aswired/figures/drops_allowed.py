"""What a load may lose by two rules side by side, what a lamp must have at its socket, and the light that is lost."""

from __future__ import annotations

from dataclasses import replace

from aswired.car.circuits import Drops, Lamp
from aswired.physics.draw import FILAMENT_LIGHT_POWER, light_part
from aswired.physics.drops import ABYC_PART, drop_limit
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import Job, Load

# classes held to the smaller share (ABYC E-11)
CRITICAL = ("lamp", "indicator", "pump", "fuel pump", "electronics", "sensor", "ignition")
LAMPS = ("lamp", "indicator")
LIGHT_SOURCE = "Standard Handbook for Electrical Engineers, 11th ed., p. 22-8, and a lamp maker; read"
DARK = {
    "LED": "an LED's own driver decides what it makes of the volts",
    "gas discharge": "its ballast decides what it makes of the volts",
    "unknown": "what gives the light is not recorded",
}


def rules(name: str, load: Load, job: Job) -> tuple[Figure, Figure]:
    """The most drop by share of the supply, and by AC 43.13-1B Table 11-6, in this order. [V]"""
    return _by_share(name, load, job), _by_table(name, load, job)


def judging(name: str, job: Job, found: tuple[Figure, Figure]) -> Figure:
    """The rule that the job is held to, as the limit of the load."""
    share, table = found
    return replace(
        table if job.drops_held_to == "AC 43.13-1B" else share,
        key=f"{name}.limit",
        name=f"most drop allowed for {name}",
    )


def share_of(load: Load) -> str:
    """The share of the supply that a load may lose, as it is printed: `3 %`."""
    return f"{ABYC_PART[_need(load)]:.0%}".replace("%", " %")


def _need(load: Load) -> str:
    return "critical" if load.class_ in CRITICAL else "non-critical"


def _by_share(name: str, load: Load, job: Job) -> Figure:
    need, share = _need(load), share_of(load)
    supply = job.supply.value if job.supply else None
    found = drop_limit(supply, need)
    return Figure(
        f"{name}.limit.share",
        f"most drop of {name} by its share of the supply",
        None if found is None else found.limit_v,
        "V",
        "share of the supply",
        f"U = {share} of supply",
        (Input("supply", supply, "V", "supply:"), Input("share", share, "", f"class {load.class_} ({need})")),
        (Missing("supply"),) if found is None else (),
        "" if found is None else f"{found.source} ({found.mark}); {found.note}",
    )


def _by_table(name: str, load: Load, job: Job) -> Figure:
    supply = job.supply.value if job.supply else None
    duty = None if load.duty == "unknown" else load.duty
    found = None if duty is None else drop_limit(supply, duty)
    missing: tuple[Missing, ...] = ()
    if found is None:
        missing = tuple(Missing(what) for what, value in (("supply", supply), ("duty", duty)) if value is None)
        missing = missing or (Missing("AC 43.13-1B Table 11-6", why=f"no row for {supply:g} V"),)
    return Figure(
        f"{name}.limit.table",
        f"most drop of {name} by AC 43.13-1B",
        None if found is None else found.limit_v,
        "V",
        "AC 43.13-1B Table 11-6, bus to equipment ground",
        "U = value of the table",
        (Input("supply", supply, "V", "supply:"), Input("duty", duty, "", f"duty: {load.duty}")),
        missing,
        "" if found is None else f"{found.source} ({found.mark}); {found.note}",
    )


# ---- lamps ----------------------------------------------------------------------------------------------------------
def lamp_of(name: str, load: Load, job: Job, alone: Drops, together: Drops) -> Lamp | None:
    """What the volts lost do to a lamp or an indicator; None for any other load.

    The socket is judged for filament lamps alone: the rule is one of bulbs.
    """
    if load.class_ not in LAMPS:
        return None
    socket, least = _socket(name, job, together.whole), _least(name, load, job)
    ok = None if socket.value is None or least.value is None else socket.value >= least.value
    if load.light != "filament":
        return Lamp(socket, least, None, None, None, DARK[load.light])
    lost = [_light(name, state, job, drops.whole) for state, drops in (("alone", alone), ("together", together))]
    return Lamp(socket, least, ok, lost[0], lost[1])


def _socket(name: str, job: Job, drop: Figure) -> Figure:
    supply = job.supply.value if job.supply else None
    value = None if supply is None or drop.value is None else max(0.0, supply - drop.value)
    return Figure(
        f"{name}.socket",
        f"volts at the socket of {name}, every load on that can be on together",
        value,
        "V",
        "supply less what is lost",
        "U = supply - drop",
        (Input("supply", supply, "V", "supply:"), Input("drop", drop.value, "V", drop.key)),
        (*((Missing("supply"),) if supply is None else ()), *drop.missing),
    )


def _least(name: str, load: Load, job: Job) -> Figure:
    limit = job.limits_in_force["lamp volts"]
    volts = load.draws.at_v if load.draws is not None else None
    words = f"draws: {load.draws.text}" if load.draws is not None else "not recorded"
    return Figure(
        f"{name}.socket.least",
        f"least volts at the socket of {name}",
        None if volts is None else limit.value / 100 * volts,
        "V",
        "share of the design voltage",
        f"U = {limit.value:g} % of the design voltage",
        (Input("design voltage", volts, "V", words),),
        (Missing("design voltage"),) if volts is None else (),
        f"{limit.source} ({limit.mark}), engine running",
    )


def _light(name: str, state: str, job: Job, drop: Figure) -> Figure:
    supply = job.supply.value if job.supply else None
    value = None
    if supply is not None and drop.value is not None:
        value = 100 * (1 - light_part(max(0.0, supply - drop.value), supply))
    on = "alone" if state == "alone" else "every load on that can be on together"
    return Figure(
        f"{name}.light.{state}",
        f"light that the wiring costs {name}, {on}",
        value,
        "%",
        "light of a filament lamp",
        "lost = 1 - ((U - drop) / U)^p",
        (
            Input("U", supply, "V", "supply:"),
            Input("drop", drop.value, "V", drop.key),
            Input("p", FILAMENT_LIGHT_POWER, "", LIGHT_SOURCE),
        ),
        (*((Missing("supply"),) if supply is None else ()), *drop.missing),
        "Against the light with the whole supply at its socket; halogen lamps lose a little less",
    )
