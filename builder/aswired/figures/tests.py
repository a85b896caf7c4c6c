"""The test sheet of a job: for each kept load what is measured before power and with power, then the car as a whole."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.special import special_wires
from aswired.car.trace import Net
from aswired.figures.before_power import ClearTest, OhmTest, clear_tests, ohm_tests
from aswired.figures.key_off import FuseMillivolts, KeyOff, fuse_millivolts, key_off
from aswired.figures.probes import NEVER, LoadWays, barred, half_way, reachable, side_of, spans, ways_of
from aswired.figures.under_power import Powered, PoweredCar, powered
from aswired.network.behaviour import Behaviour
from aswired.network.grid import Grid
from aswired.network.states import unfollowed
from aswired.network.transfer import FEED, RETURN, UnitSolutions
from aswired.physics.figure import Figure
from aswired.text.units import is_named

NO_SUPPLY = "the supply is not recorded"


@dataclass(frozen=True)
class FuseOut:
    """Every fuse taken out that a load may be fed by, its switches and relay contacts closed; none that feeds what is
    never touched.

    `also_dead` are the other loads that go dead with it. What may still feed it: `also_fed` are battery plus and
    outputs of modules past any fuse, `further` sources beside the battery, `through` loads with a live other end,
    `unlisted` cavities of which it is not recorded what their module does there, `nowhere` further sources of which it
    is not recorded where they feed in.
    """

    fuses: tuple[str, ...]
    also_dead: tuple[str, ...]
    also_fed: tuple[str, ...]
    further: tuple[str, ...] = ()
    through: tuple[str, ...] = ()
    unlisted: tuple[str, ...] = ()
    nowhere: tuple[str, ...] = ()

    @property
    def dead(self) -> bool:
        """Whether nothing on record feeds it with these fuses out."""
        return not (self.also_fed or self.further or self.through or self.unlisted or self.nowhere)


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
        skipped=_skipped(ways, points, grid),
    )


def _out(load: str, circuit: Circuit, transfer: UnitSolutions) -> FuseOut | None:
    if circuit.feed.state != "complete" or not circuit.fuses:
        return None
    net = transfer.grid.net
    met = hanging_together(net, [circuit.feed_end])
    fuses = tuple(name for name in net.view.fuses if name in met)
    if circuit.feed_end in _live(net, fuses):  # one that it feeds may be fed from behind, and so feed it
        fuses += tuple(name for name in net.view.fuses if f"{name}.feed" in met and name not in fuses)
    before, after = _live(net, ()), _live(net, fuses)
    gone = [
        name for name, other in transfer.circuits.items() if other.feed_end in before and other.feed_end not in after
    ]
    also = tuple(name for name in gone if name != load)
    if any(barred(name, transfer.circuits[name], transfer.grid) for name in also) or _never_touched(net, before, after):
        return None
    further = net.job.sources.items()
    return FuseOut(
        fuses,
        also,
        also_fed=tuple(node for node in met if net.is_source(node) and node not in net.view.fuses),
        further=tuple(name for name, source in further if source.plus in met and not net.is_source(source.plus)),
        through=_through(net, met, after, fuses),
        unlisted=tuple(node for node in met if _is_unlisted(net, node)),
        nowhere=tuple(name for name, source in further if not _is_somewhere(net, source.plus)),
    )


def _never_touched(net: Net, before: Collection[str], after: Collection[str]) -> bool:
    """Whether a wire that nobody works on goes dead with what is live before and not after."""
    special = special_wires(net.job)
    dead = (node for node in before if node not in after)
    return any(special.get(stretch.wire) in NEVER for node in dead for stretch in net.view.at_node.get(node, ()))


def _through(net: Net, met: Collection[str], live: Collection[str], pulled: Collection[str]) -> tuple[str, ...]:
    """The loads by which some nodes that are dead themselves may be fed from a live end, further loads passed.

    What hangs together with a ground is held down by it, and feeds nothing.
    """
    if any(net.is_ground(node) for node in met):
        return ()
    ends = [(name, net.ends_now(net.job.loads[name].between)) for name in net.job.kept_loads]
    both = [(name, *way) for name, pair in ends if pair is not None for way in (pair, pair[::-1])]
    held, found = {*live}, dict[str, None]()
    todo = list(held)
    for at in todo:
        for name, one, other in both:
            if one != at or other in held:
                continue
            if other in met:
                found[name] = None
                continue
            side = hanging_together(net, [other], pulled)
            if not any(net.is_ground(node) for node in side):
                todo += [node for node in side if node not in held]
                held.update(side)
    return tuple(found)


def _is_unlisted(net: Net, node: str) -> bool:
    """Whether it is a cavity of a module of which the record does not say what the module does there."""
    part, _, cavity = node.partition(".")
    module = net.job.modules.get(part)
    if module is None or not cavity or node in net.load_at or net.is_data(node):
        return False
    return cavity not in (*module.out, *module.ground, *module.reference)


def _is_somewhere(net: Net, plus: str) -> bool:
    """Whether something on record hangs on the plus of a further source."""
    return is_named(plus) and bool(net.links.get(plus) or plus in net.load_at or net.is_source(plus))


def hanging_together(net: Net, starts: Iterable[str], pulled: Collection[str] | None = None) -> dict[str, None]:
    """What hangs together with some nodes by copper and closed switches, ground points, battery plus and outputs of
    modules not passed; through fuses too, but for those that are pulled, where any are named."""
    seen = dict.fromkeys(starts)
    todo = list(seen)
    for at in todo:
        if net.is_ground(at) or (net.is_source(at) and at not in starts and at not in net.view.fuses):
            continue  # the load leg of a fuse is copper, whatever feeds its other leg
        for link in net.links.get(at, ()):
            shut = link.kind == "fuse" and (pulled is None or link.name in pulled)
            if not shut and link.other(at) not in seen:
                seen[link.other(at)] = None
                todo.append(link.other(at))
    return seen


def _live(net: Net, pulled: Collection[str]) -> dict[str, None]:
    """The nodes that are live while some fuses are out, further sources counted."""
    nodes = dict.fromkeys((*net.view.nodes, *net.view.fuses))
    starts = [node for node in nodes if net.is_source(node) and node not in pulled]
    starts += [source.plus for source in net.job.sources.values() if is_named(source.plus)]
    return hanging_together(net, starts, pulled)


def _skipped(ways: LoadWays, points: frozenset[str], grid: Grid) -> tuple[str, ...]:
    """Declared connectors and ground points on the way that are said to be out of reach."""
    plugs, grounds = grid.job.plugs, grid.job.grounds
    met = (grid.inside.get(node, node) for node, _ in (*ways.feed, *ways.back))
    named = (node if node in grounds else node.partition(".")[0] for node in met if node not in points)
    return tuple(dict.fromkeys(name for name in named if name in plugs or name in grounds))
