"""What the car takes with everything off, and what a millivolt across a fuse says of it.

A module is counted for nothing here: its current is that of a module at work, and what it takes asleep is not recorded.
The millivolts are those of the fuse as the network counts it: as measured, else as the job states it, else a cold blade
fuse by one maker's data sheet. Makers and sizes differ by 10 to 20 %, so they are an indicator and no measurement.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.under_power import PoweredCar
from aswired.network.behaviour import SolvedState
from aswired.network.states import everything_off
from aswired.network.transfer import POSITIVE_GROUND, SHORTED, UnitSolutions
from aswired.physics.figure import Figure, Input, Missing, current_of

AT_A = (0.010, 0.050, 0.100)
ASLEEP = ("electronics", "sensor")  # classes that have a current of their own when asleep


@dataclass(frozen=True)
class KeyOff:
    """`total` is what all loads that are live for good take [A], `limit_a` what it is held to."""

    total: Figure
    limit_a: float
    live: tuple[str, ...]  # loads that take current
    asleep: tuple[str, ...]  # modules that are fed for good


@dataclass(frozen=True)
class FuseMillivolts:
    """A fuse that is not known to be dead with the key off. `mohm` as every figure of the job counts it, with its
    `source`; None = not recorded.

    `at_mv`: millivolts across it at each current of `AT_A`.
    """

    name: str
    rating_a: float | None
    mohm: float | None
    source: str
    at_mv: tuple[float, ...]
    loads: tuple[str, ...]


def key_off(car: PoweredCar) -> KeyOff:
    """The state with the key out and nothing worked."""
    live = car.behaviour.operate(everything_off(car.grid))
    loads = car.grid.job.loads
    # what is fed itself: a lamp that is off has millivolts over it where a stud it shares rises
    fed = [name for name in car.transfer.circuits if car.is_on(live, name) is not False]
    asleep = tuple(name for name in fed if loads[name].class_ in ASLEEP)
    counted = {name: live.load_amps[name] for name in fed if name not in asleep}
    missing = [Missing("current", f"{name} asleep") for name in asleep]
    missing += [current_of(name) for name, amps in counted.items() if amps is None]
    missing += _untold(live, car)
    known = sum(abs(amps) for amps in counted.values() if amps is not None)
    figure = Figure(
        "key-off.current",
        "current with the key out and everything off",
        None if missing else known,
        "A",
        "loads that are live for good, as they behave",
        "I = sum of I",
        tuple(Input(name, None if amps is None else abs(amps), "A", "live for good") for name, amps in counted.items()),
        tuple(dict.fromkeys(missing)),
    )
    return KeyOff(figure, car.grid.job.limits_in_force["key-off draw"].value, tuple(counted), asleep)


def _untold(live: SolvedState, car: PoweredCar) -> Iterable[Missing]:
    """Why more may be live than is known: a feed that is not traced, a fuse of which nobody said when it is live."""
    if car.transfer.refused:
        yield POSITIVE_GROUND
    if not live.settles:
        yield Missing("where the relays come to rest")
    for name, circuit in car.transfer.circuits.items():
        if circuit.feed.state == "complete" and car.transfer.shorted(circuit.feed_end):
            yield SHORTED
        if circuit.feed.state == "not examined":
            yield Missing("feed", name)
        elif circuit.feed.state == "complete" and circuit.fuses:
            fuse = circuit.fuses[0]
            if car.grid.sources.get(f"{fuse}.feed") == "unknown":
                yield Missing(f"when {fuse} is live")


def fuse_millivolts(transfer: UnitSolutions) -> tuple[FuseMillivolts, ...]:
    """Every fuse in use but those that the key switches, in the order of the record."""
    found: list[FuseMillivolts] = []
    for name, fuse in transfer.grid.view.fuses.items():
        if fuse.spare or fuse.facts.fed in ("ignition", "accessory") or transfer.grid.view.feed_gone(name):
            continue
        rating = fuse.facts.rating.value if fuse.facts.rating is not None else None
        branch = transfer.grid.by_key[f"fuse {name}"]
        mohm, (part, *_) = branch.mohm, branch.parts
        loads = tuple(load for load, circuit in transfer.circuits.items() if name in circuit.fuses)
        found.append(
            FuseMillivolts(
                name,
                rating,
                mohm,
                part.source,
                tuple(amps * mohm for amps in AT_A) if mohm is not None else (),
                loads,
            )
        )
    return tuple(found)
