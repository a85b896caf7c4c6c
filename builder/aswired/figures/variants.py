"""What differs in the cars of the same recipe that have another value of one option: loads, drops, fuses, grounds.

Both cars are those of the plan. Each option is varied by itself, the others as they are here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from aswired.car.asbuilt import FoldCache, fold
from aswired.car.harness import View
from aswired.car.route import Route
from aswired.car.trace import circuits
from aswired.figures.electric import TOGETHER, drops_of, transfer_of
from aswired.network.transfer import UnitSolutions
from aswired.physics.figure import Figure
from aswired.record import Job

LEAST_V = 0.005  # a smaller change is none in print
Car = tuple[tuple[str, str], ...]  # option, value; in the order of the header


@dataclass(frozen=True)
class InCar:
    """A load in one car: the volts it loses with every load on, its fuses, its first ground point ('' = none)."""

    current: float | None
    drop: Figure
    fuses: tuple[str, ...]
    ground: str


@dataclass(frozen=True)
class Differing:
    """A load that is not the same in both cars; None where it is no load of one of them."""

    load: str
    here: InCar | None
    there: InCar | None


@dataclass(frozen=True)
class Variant:
    """The car with another value of one option."""

    option: str
    value: str
    loads: tuple[Differing, ...]


def built_as(job: Job, car: Car) -> Job:
    """The job with these values of its options; which values there are stays."""
    options = {name: job.options[name] for name, _ in car}
    changed = {name: replace(options[name], is_=value, could_be=options[name].values) for name, value in car}
    return replace(job, options={**job.options, **changed})


def variants(job: Job, plan: View) -> tuple[Variant, ...]:
    """Every other value of every option that is known here, and in which something differs."""
    others = [
        (name, value)
        for name, option in job.options.items()
        for value in option.values
        if option.is_ != "unknown" and value != option.is_
    ]
    if not others:
        return ()
    route, shared = Route(job), FoldCache(job)
    own = _loads(transfer_of(job, plan, circuits(job, plan)))
    found = []
    for name, value in others:
        built = built_as(job, ((name, value),))
        view = fold(built, "plan", None, route, shared)
        loads = tuple(_differing(own, _loads(transfer_of(built, view, circuits(built, view)))))
        if loads:
            found.append(Variant(name, value, loads))
    return tuple(found)


def _loads(transfer: UnitSolutions) -> dict[str, InCar]:
    every, found = transfer.together(), {}
    for name, circuit in transfer.circuits.items():
        on = every if name in every else transfer.worst(name)
        drop = drops_of(transfer, name, TOGETHER, on).whole
        found[name] = InCar(transfer.stated[name], drop, circuit.fuses, circuit.ground)
    return found


def _differing(own: Mapping[str, InCar], other: Mapping[str, InCar]) -> Iterable[Differing]:
    for name in dict.fromkeys((*own, *other)):
        here, there = own.get(name), other.get(name)
        if here is None or there is None or not _same(here, there):
            yield Differing(name, here, there)


def _same(one: InCar, two: InCar) -> bool:
    if (one.fuses, one.ground, one.drop.known) != (two.fuses, two.ground, two.drop.known):
        return False
    return abs((one.drop.value or 0.0) - (two.drop.value or 0.0)) < LEAST_V
