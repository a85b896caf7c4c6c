"""What the network of the car expects of a meter reading, and whether what was read lies inside the band.

A reading belongs to the car of its own day: the harness is folded for that day, and of the parts that were measured
only those count that were measured before. What was on are the loads that the reading names, or the load that it
belongs to; words are never matched.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.harness import BATTERY_NEGATIVE
from aswired.figures.days import CarsOfTheirDays
from aswired.figures.key_off import key_off
from aswired.figures.probes import POSTS
from aswired.figures.under_power import HOW, LEAST_STEP_V, SETTLES, PoweredCar
from aswired.network.behaviour import SolvedState
from aswired.network.grid import Grid, Run
from aswired.network.states import Needs, needs_of
from aswired.network.transfer import UnitSolutions, is_whole
from aswired.physics.figure import Figure, Input, Missing, current_of
from aswired.record import MeterReading
from aswired.text.units import Quantity, Reading, half_a_digit

NOTHING_ON = "none"
INSIDE, ABOVE, BELOW = "as expected", "above what is expected", "below what is expected"
_IN_THE_TRUNK = " At the battery: every load counts, those too whose fuse is only said to be live."
_NO_CURRENT_A = 1e-6  # rounding of the solution


@dataclass(frozen=True)
class Expected:
    """What is expected of one reading. `why` says in words why nothing is; then there is no figure.

    `low` and `high` in the unit of the figure (V, A, ohm), `low` None where there is no least. `verdict` is one of
    `INSIDE`, `ABOVE`, `BELOW`, '' where none is told.
    """

    figure: Figure | None = None
    low: float | None = None
    high: float | None = None
    verdict: str = ""
    why: str = ""


@dataclass(frozen=True)
class _Band:
    figure: Figure
    low: float | None
    high: float | None


class _Refused(Exception):
    """Nothing can be expected of a reading; says why."""


def expected(reading: MeterReading, cars: CarsOfTheirDays) -> Expected:
    """What is expected of one reading, and the verdict on what was read."""
    if reading.read is None or reading.read.value is None:
        return Expected(why="not measured")
    try:
        band = _band(reading, reading.read, cars)
    except _Refused as refused:
        return Expected(why=str(refused))
    if band.high is None:
        return Expected(band.figure)
    return Expected(band.figure, band.low, band.high, _verdict(reading.read, band.low, band.high))


def _verdict(read: Reading, low: float | None, high: float) -> str:
    """A reading as written stands for half its last digit either way; its sign only tells which lead was where."""
    amount, half = abs(read.value or 0.0), half_a_digit(read.text)
    if amount - half > high:
        return ABOVE
    return BELOW if low is not None and amount + half < low else INSIDE


def _band(reading: MeterReading, read: Reading, cars: CarsOfTheirDays) -> _Band:
    if not reading.red or not reading.black or "unknown" in (reading.red, reading.black):
        raise _Refused("where the leads were is not recorded")
    if reading.day is None:
        raise _Refused(_no_day(reading))
    transfer = cars.transfer(reading.day)
    if transfer.refused:
        raise _Refused(transfer.refused[0])
    at_the_post = read.unit == "A" and _in_series_at_a_post(reading, transfer.grid)
    for node in (reading.red, reading.black):
        if node not in transfer.grid.nodes and not at_the_post:
            raise _Refused(f"{node} is no point of the network of that day")
    if read.unit == "ohm":
        return _resistance(reading, transfer)
    if read.unit == "V" and reading.through is not None and reading.through.value:
        way = _one_way(reading, transfer)
        if way is not None and _one_current(way, transfer):
            return _drop_at(reading, way, reading.through)
    needs = _needs(reading, transfer)
    stated = cars.job.supply
    if stated is None or stated.value is None:  # then it is not known at what volts the loads take what they draw
        raise _Refused("the supply is not recorded")
    supply = reading.supply if reading.supply and reading.supply.value is not None else stated
    car = cars.powered(reading.day, supply)
    if read.unit == "A":
        return _current(reading, needs, car)
    return _volts(reading, needs, car, supply)


def _no_day(reading: MeterReading) -> str:
    cannot_be = reading.on is not None and reading.on.doubt is not None
    return "its day cannot be" if cannot_be else "its day is not recorded"


def _needs(reading: MeterReading, transfer: UnitSolutions) -> Needs:
    """The state of the car, from the loads that were on."""
    grid = transfer.grid
    names = reading.loads_on or ((reading.of,) if reading.of in grid.job.loads else ())
    if not names:
        raise _Refused("which loads were on is not recorded")
    found = Needs()
    for name in names if names != (NOTHING_ON,) else ():
        if name not in grid.job.kept_loads:
            raise _Refused(f"{name} is no load of this car")
        own = needs_of(name, grid, transfer.circuits)
        if own is None:
            raise _Refused(f"feed and return of {name} are not both traced")
        if grid.job.loads[name].class_ == "sensor" and any(grid.sources[node] == "module" for node in own.sources):
            raise _Refused(f"what {own.sources[0]} puts out is not recorded")
        found = found.and_(own)
    return found


# ---- volts ----------------------------------------------------------------------------------------------------------
def _volts(reading: MeterReading, needs: Needs, car: PoweredCar, supply: Quantity) -> _Band:
    live = car.live(needs)
    sides = [_side(node, car.transfer) for node in (reading.red, reading.black)]
    volts = live.between(reading.red, reading.black) if live.settles else None
    missing: tuple[Missing, ...] = ()
    if volts is None:
        missing = car.wanting(live, reading.red, reading.black) if live.settles else (SETTLES,)
    drop = sides[0] == sides[1]
    figure = Figure(
        f"{reading.id}.expected",
        f"volts from {reading.red} to {reading.black} with {_on(reading)}",
        None if volts is None else abs(volts),
        "V",
        HOW,
        "U = sum of I x R between the points" if drop else "U = supply less what is lost before and behind",
        (Input("supply", supply.value, "V", supply.text), *_carried(reading, live, car)),
        missing,
        car.band_note(),
    )
    if volts is None or None in sides:
        return _Band(figure, None, None)
    less, more = car.spread(reading.red, reading.black, car.drawn(live))
    if not drop:  # what is lost more is there less
        half = half_a_digit(supply.text)
        less, more = more + half, less + half
    return _Band(figure, max(0.0, abs(volts) - less), abs(volts) + more)


def _side(node: str, transfer: UnitSolutions) -> str | None:
    """Whether a point lies on the way from a source or on the way back; None where nothing leads to it."""
    if node in transfer.grid.sources:
        return "feed"
    if node == BATTERY_NEGATIVE:
        return "return"
    own = transfer.probe(node, BATTERY_NEGATIVE) or {}
    ends = {end for index in own for end in (transfer.grid.runs[index].a, transfer.grid.runs[index].b)}
    if BATTERY_NEGATIVE in ends:
        return "return"
    return "feed" if ends & transfer.grid.sources.keys() else None


def _carried(reading: MeterReading, live: SolvedState, car: PoweredCar) -> Iterable[Input]:
    """The runs between the points, with what each carries in that state."""
    grid = car.grid
    for index in car.transfer.probe(reading.red, reading.black) or ():
        run, amps = grid.runs[index], live.amps.get(index)
        if amps is not None and abs(amps) < _NO_CURRENT_A:
            continue
        carries = "a current that is not recorded" if amps is None else f"{abs(amps):.2f} A"
        source = "; ".join(part.as_input().source for branch in run.branches for part in branch.parts)
        yield Input(_name(run), None if run.unknown else run.mohm, "mohm", f"carries {carries}; {source}")


def _name(run: Run) -> str:
    return ", ".join(dict.fromkeys(f"{b.kind} {b.name}" if b.kind != "stretch" else b.name for b in run.branches))


def _on(reading: MeterReading) -> str:
    names = reading.loads_on or (reading.of,)
    return "everything off" if names == (NOTHING_ON,) else f"{', '.join(names)} on"


# ---- one way between the leads --------------------------------------------------------------------------------------
def _one_way(reading: MeterReading, transfer: UnitSolutions) -> tuple[Run, ...] | None:
    """The runs between the leads where they are in series; None where ways part, or none leads over."""
    own = transfer.probe(reading.red, reading.black)
    if own is None or not all(is_whole(share) for share in own.values()):
        return None
    runs = tuple(transfer.grid.runs[index] for index in own)
    ends = [end for run in runs for end in (run.a, run.b)]
    return runs if {end for end in ends if ends.count(end) == 1} == {reading.red, reading.black} else None


def _one_current(way: tuple[Run, ...], transfer: UnitSolutions) -> bool:
    """Whether all runs of a way carry the current of the same loads, so that a clamp round one tells that of all."""
    index = transfer.grid.run_of
    takers = (transfer.takers.get(index[run.branches[0].key], ()) for run in way)
    return len({frozenset(name for name, _ in taking) for taking in takers}) == 1


def _in_series(reading: MeterReading, way: tuple[Run, ...], times: float) -> tuple[float | None, float, float]:
    known = not any(run.unknown for run in way)
    total, low, high = (sum(getattr(run, band) for run in way) * times / 1000 for band in ("mohm", "low", "high"))
    return total if known else None, low, high


def _inputs(way: tuple[Run, ...]) -> tuple[Input, ...]:
    return tuple(part.as_input() for run in way for branch in run.branches for part in branch.parts)


def _drop_at(reading: MeterReading, way: tuple[Run, ...], through: Quantity) -> _Band:
    """A drop at a current that was measured: nothing has to be known of the loads."""
    total, low, high = _in_series(reading, way, through.value or 0.0)
    figure = Figure(
        f"{reading.id}.expected",
        f"volts from {reading.red} to {reading.black} at {through.text}",
        total,
        "V",
        "one way between the leads, at the current by clamp",
        "U = I x sum of R",
        (Input("I", through.value, "A", through.text), *_inputs(way)),
        tuple(missing for run in way for missing in run.unknown),
    )
    return (
        _Band(figure, max(0.0, low - LEAST_STEP_V), high + LEAST_STEP_V)
        if total is not None
        else _Band(figure, None, None)
    )


def _resistance(reading: MeterReading, transfer: UnitSolutions) -> _Band:
    way = _one_way(reading, transfer)
    if way is None:
        raise _Refused("more than one way, or none, leads from lead to lead")
    total, low, high = _in_series(reading, way, 1.0)
    figure = Figure(
        f"{reading.id}.expected",
        f"resistance from {reading.red} to {reading.black}",
        total,
        "ohm",
        "one way between the leads, nothing switched on",
        "R = sum of R",
        _inputs(way),
        tuple(missing for run in way for missing in run.unknown),
        "The meter's own leads are not counted.",
    )
    return _Band(figure, low, high) if total is not None else _Band(figure, None, None)


# ---- amperes --------------------------------------------------------------------------------------------------------
def _current(reading: MeterReading, needs: Needs, car: PoweredCar) -> _Band:
    """Through a fuse, a switch, a cable or a wire between two points."""
    grid, ends = car.grid, {reading.red, reading.black}
    between = [i for i, run in enumerate(grid.runs) if {run.a, run.b} == ends]
    if len(between) > 1:
        raise _Refused(
            f"{len(between)} ways join {reading.red} and {reading.black}; which of them was read is not recorded"
        )
    index = between[0] if between else -1
    whole = index in _trunk(grid) or _in_series_at_a_post(reading, grid)
    if index < 0 and not whole:
        raise _Refused(f"a current is read through one part; {reading.red} and {reading.black} are not its two ends")
    behind = {name for name, _ in car.transfer.takers.get(index, ())}
    if reading.loads_on == (NOTHING_ON,):
        return _asleep(reading, car, None if whole else behind)
    live = car.live(needs)
    drawn = {name: amps for name, amps in car.drawn(live).items() if whole or name in behind}
    unread = [current_of(name) for name, amps in drawn.items() if amps is None]
    own = None if whole else live.amps.get(index)
    if whole and not unread:
        own = sum(amps for amps in drawn.values() if amps is not None)
    missing: tuple[Missing, ...] = ()
    if own is None or not live.settles:
        own, missing = None, tuple(unread) or (car.behaviour.wanting(live.state) if live.settles else (SETTLES,))
    part = grid.job.limits_in_force["band of draws"].value / 100
    figure = Figure(
        f"{reading.id}.expected",
        f"current from {reading.red} to {reading.black} with {_on(reading)}",
        None if own is None else abs(own),
        "A",
        HOW,
        "I = sum of the loads behind it",
        tuple(Input(name, amps, "A", "as it behaves in this state") for name, amps in drawn.items()),
        missing,
        f"Band: currents {part * 100:g} % down and up.{_IN_THE_TRUNK if whole else ''}",
    )
    return _Band(figure, None, None) if own is None else _Band(figure, abs(own) * (1 - part), abs(own) * (1 + part))


def _in_series_at_a_post(reading: MeterReading, grid: Grid) -> bool:
    """One lead on a battery post, the other on a clamp that was taken off it and is no point of the network."""
    leads = (reading.red, reading.black)
    return any(lead in POSTS for lead in leads) and any(lead not in grid.nodes for lead in leads)


def _asleep(reading: MeterReading, car: PoweredCar, behind: set[str] | None) -> _Band:
    """With the key out and everything off: what is live for good, and what modules may take asleep."""
    off, limits = key_off(car), car.grid.job.limits_in_force
    live = [given for given in off.total.inputs if behind is None or given.name in behind]
    asleep = [name for name in off.asleep if behind is None or name in behind]
    unread = [current_of(given.name) for given in live if given.value is None]
    counted = [given.value for given in live if isinstance(given.value, float)]
    missing = tuple(dict.fromkeys((*unread, *(Missing("current", f"{name} asleep") for name in asleep))))
    if behind is None:
        missing = tuple(dict.fromkeys((*missing, *off.total.missing)))
    part, sleep = limits["band of draws"].value / 100, limits["key-off draw"].value
    read = abs(reading.read.value) if reading.read is not None and reading.read.value is not None else 0.0
    able = sum(amps for amps in counted if amps * (1 - part) <= read)  # what takes more is not on
    figure = Figure(
        f"{reading.id}.expected",
        f"current from {reading.red} to {reading.black} with the key out and everything off",
        None if missing else able,
        "A",
        "loads that are live for good, as they behave",
        "I = sum of I of those that may be on",
        tuple(live),
        missing,
        f"Held to a key-off draw of {sleep:g} A beside the loads that are live for good; one of them that takes more "
        f"than was read is not on and has a switch of its own.{_IN_THE_TRUNK if behind is None else ''}",
    )
    return _Band(figure, None, None if unread else able * (1 + part) + sleep)


def _trunk(grid: Grid) -> set[int]:
    """Runs at a battery post through which everything passes: no other run leads on before them.

    Fuses whose feed side is only told to be live hang on the battery too, by a way that is not recorded.
    """
    found: set[int] = set()
    for post in POSTS:
        at = post
        while True:
            onward = [i for i, run in enumerate(grid.runs) if at in (run.a, run.b) and i not in found]
            if len(onward) != 1 or any(at in (load.a, load.b) for load in grid.loads.values()):
                break
            found.add(onward[0])
            run = grid.runs[onward[0]]
            at = run.b if run.a == at else run.a
    return found
