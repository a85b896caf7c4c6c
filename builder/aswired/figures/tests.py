"""The test sheet of a job: for each kept load what is measured before power and with power, then the car as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.figures.before_power import ClearTest, OhmTest, clear_tests, ohm_tests
from aswired.figures.key_off import FuseMillivolts, KeyOff, fuse_millivolts, key_off
from aswired.figures.probes import LoadWays, barred, half_way, reachable, side_of, spans, ways_of
from aswired.figures.under_power import Powered, PoweredCar, powered
from aswired.network.behaviour import Behaviour
from aswired.network.states import unfollowed
from aswired.network.transfer import FEED, RETURN, UnitSolutions
from aswired.physics.figure import Figure

NO_SUPPLY = "the supply is not recorded"


@dataclass(frozen=True)
class FuseOut:
    """The last fuse of a feed taken out; none that feeds what is never touched.

    `also_dead` are the other loads behind it; `also_fed` says a second feed.
    """

    fuse: str
    also_dead: tuple[str, ...]
    also_fed: str


@dataclass(frozen=True)
class Start:
    """The point that halves what can be open on a circuit that is dead."""

    at: str
    side: str


@dataclass(frozen=True)
class CircuitSteps:
    """Every step for one load, in order. `barred` names the system for which there are no steps at all."""

    load: str
    barred: str = ""
    ohms: tuple[OhmTest, ...] = ()
    clear: tuple[ClearTest, ...] = ()
    powered: Powered | None = None
    out: FuseOut | None = None
    start: Start | None = None
    skipped: tuple[str, ...] = ()  # connectors and ground points on the way that no meter comes to

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every computed figure of the steps."""
        return (*(test.own for test in self.ohms), *(self.powered.figures if self.powered is not None else ()))


@dataclass(frozen=True)
class JobSteps:
    """The whole of a job. `off` is None where the supply is not recorded."""

    circuits: Mapping[str, CircuitSteps]
    off: KeyOff | None
    millivolts: tuple[FuseMillivolts, ...]
    how: str  # how the bands are made, and which contacts are taken as they rest


def steps_of_job(transfer: UnitSolutions) -> JobSteps:
    """Every kept load of one view."""
    grid, points = transfer.grid, reachable(transfer.grid)
    known = grid.job.supply is not None and grid.job.supply.value is not None
    car = PoweredCar(transfer, Behaviour(grid, transfer.circuits), points) if known else None
    found = {name: _circuit(name, circuit, transfer, car, points) for name, circuit in transfer.circuits.items()}
    if car is None:
        return JobSteps(found, None, fuse_millivolts(transfer), "")
    resting = unfollowed(grid, transfer.circuits)
    at_rest = f" As they rest, since their coil is not recorded: {', '.join(resting)}." if resting else ""
    return JobSteps(found, key_off(car), fuse_millivolts(transfer), car.band_note() + at_rest)


def _circuit(
    load: str, circuit: Circuit, transfer: UnitSolutions, car: PoweredCar | None, points: frozenset[str]
) -> CircuitSteps:
    grid = transfer.grid
    if system := barred(load, circuit, grid):
        return CircuitSteps(load, system)
    ways = ways_of(circuit, grid)
    all_spans = (*spans(ways.feed, FEED, points, grid), *spans(ways.back, RETURN, points, grid))
    half = half_way(ways, points, grid) if ways.feed and ways.back else ""
    return CircuitSteps(
        load,
        ohms=ohm_tests(load, ways, points, grid),
        clear=clear_tests(ways, points, grid, transfer.circuits),
        powered=powered(load, ways, all_spans, car) if car is not None else Powered(None, why=NO_SUPPLY),
        out=_out(load, circuit, transfer),
        start=Start(half, side_of(half, ways)) if half else None,
        skipped=_skipped(ways, points, grid.job.plugs, grid.job.grounds),
    )


def _out(load: str, circuit: Circuit, transfer: UnitSolutions) -> FuseOut | None:
    if circuit.feed.state != "complete" or not circuit.fuses:
        return None
    fuse = circuit.fuses[-1]
    also = tuple(name for name, other in transfer.circuits.items() if name != load and fuse in other.fuses)
    if any(barred(name, transfer.circuits[name], transfer.grid) for name in also):
        return None
    return FuseOut(fuse, also, circuit.feed.why)


def _skipped(ways: LoadWays, points: frozenset[str], *declared: Mapping[str, object]) -> tuple[str, ...]:
    """Declared connectors and ground points on the way that are said to be out of reach."""
    nodes = [node for node, _ in (*ways.feed, *ways.back) if node not in points]
    named = (node if node in declared[1] else node.partition(".")[0] for node in nodes)
    return tuple(dict.fromkeys(name for name in named if any(name in group for group in declared)))
