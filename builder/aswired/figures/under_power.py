"""What a voltmeter shows of one circuit that works, and what it shows when a neighbour is switched on.

The expected value is that of the operating state with every load as it behaves (`network.behaviour`). Its band comes
from what is stated of the parts: each at its low and its high (`electric.copper`), the currents of the loads that are
on up and down by `band of draws`, and at least `band least` either way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from aswired.figures.probes import LoadWays, Span, barred
from aswired.network.behaviour import Behaviour, SolvedState
from aswired.network.grid import BATTERY, Grid
from aswired.network.states import Needs, needs_of, state
from aswired.network.transfer import UnitSolutions
from aswired.physics.figure import Figure, Input, Missing, current_of

MOST_NEIGHBOURS = 3
NO_CURRENT_A = 1e-6  # rounding of the solution: a load that is off takes none
LEAST_STEP_V = 0.001  # the last digit of a bench meter; less cannot be seen
SETTLES = Missing("where its relay comes to rest")
QUICKER = Missing("which of its relays is the quicker")
HOW = "nodal solution at the supply, filaments by their law, all other loads as resistances"
HOW_STATED = "nodal solution, each load at its stated current, since something elsewhere is not recorded"


@dataclass(frozen=True)
class VoltTest:
    """Two points with the load on. `kind`: drop between two neighbours of one side; load across the load; fed from a
    point to battery negative. Band in V, None where nothing is expected."""

    kind: str
    span: Span
    volts: Figure
    low_v: float | None = None
    high_v: float | None = None


@dataclass(frozen=True)
class CurrentTest:
    """By clamp round what leads from a point. `others`: loads whose current is in it too."""

    at: str
    amps: Figure
    low_a: float | None
    high_a: float | None
    others: tuple[str, ...]


@dataclass(frozen=True)
class StepTest:
    """How the reading from a point to battery negative moves when other loads are switched on beside."""

    red: str
    by_hand: tuple[str, ...]  # switches that are closed for it, beside those of the load
    key: str  # position of the key that it needs
    sources: tuple[str, ...]  # outputs of modules that have to be live for it
    on: tuple[str, ...]  # loads that come on
    moved: Figure  # V
    most_v: float | None


@dataclass(frozen=True)
class Powered:
    """The steps of one load with power on; `why` in words where there is no state to measure in."""

    needs: Needs | None
    with_it: tuple[str, ...] = ()  # loads that come on with it
    settles: bool = True
    comes_on: bool | None = None
    volts: tuple[VoltTest, ...] = ()
    current: CurrentTest | None = None
    steps: tuple[StepTest, ...] = ()
    why: str = ""

    @property
    def figures(self) -> tuple[Figure, ...]:
        current = (self.current.amps,) if self.current is not None else ()
        return (*(test.volts for test in self.volts), *current, *(step.moved for step in self.steps))


class Meter:
    """One view of a car under power: its network, and the points a meter may come to."""

    def __init__(self, transfer: UnitSolutions, behaviour: Behaviour, points: frozenset[str]) -> None:
        self.transfer = transfer
        self.behaviour = behaviour
        self.grid = transfer.grid
        self.points = points

    def live(self, needs: Needs) -> SolvedState:
        """The car in the state that needs ask for."""
        return self.behaviour.operate(state(needs, self.grid))

    def drawn(self, live: SolvedState) -> dict[str, float | None]:
        """Current of every load that takes some, from its fed end to its other; None = not recorded. [A]"""
        found: dict[str, float | None] = {}
        for name, circuit in self.transfer.circuits.items():
            amps = live.load_amps.get(name, 0.0)
            if amps is None or abs(amps) > NO_CURRENT_A:
                turned = name in self.grid.loads and self.grid.loads[name].a != circuit.feed_end
                found[name] = None if amps is None else -amps if turned else amps
        return found

    def is_on(self, live: SolvedState, name: str) -> bool | None:
        """Whether a load has half the supply over it; None = that is not recorded."""
        volts = live.load_volts.get(name, 0.0)
        return None if volts is None else abs(volts) >= self.behaviour.supply_v / 2

    def wanting(self, live: SolvedState, red: str, black: str) -> tuple[Missing, ...]:
        """What keeps a reading between two points from being known."""
        if self.transfer.refused:
            return self.transfer.refused
        if live.raced:
            return (QUICKER,)
        found = self.unread(self.transfer.between(red, black, self.drawn(live)).missing, live)
        return found or (Missing(f"what leads to {red} and to {black}"),)

    def unread(self, missing: tuple[Missing, ...], live: SolvedState) -> tuple[Missing, ...]:
        """What is missing in a state; of a load whose own current is recorded, what that hangs on in its place."""
        draws = self.behaviour.draws
        told = {current_of(name) for name, draw in draws.items() if draw is not None}
        found = tuple(item for item in missing if item not in told) or self.behaviour.wanting(live.state)
        return found or ((QUICKER,) if live.raced else ())

    def spread(self, red: str, black: str, amps: Mapping[str, float | None]) -> tuple[float, float]:
        """By how much a drop may be below and above what is expected. [V]"""
        limits = self.grid.job.limits_in_force
        least, part = limits["band least"].value, limits["band of draws"].value / 100
        own = self.transfer.probe(red, black) or {}
        low, middle, high = (abs(self.transfer.banded_over(own, amps, band)) for band in ("low", "mohm", "high"))
        return max(least, middle - low * (1 - part)), max(least, high * (1 + part) - middle)

    def band_note(self) -> str:
        """How every band is made, in one sentence."""
        limits = self.grid.job.limits_in_force
        wire, allowed, draws = (limits[f"band of {what}"].value for what in ("wire", "allowances", "draws"))
        return (
            f"Band: each wire {wire:g} % down and up, each allowance over its own band (a stated one {allowed:g} %), "
            f"the currents {draws:g} %, and at least {limits['band least'].value:g} V either way."
        )


def powered(load: str, ways: LoadWays, all_spans: tuple[Span, ...], meter: Meter) -> Powered:
    """The steps of one load, in the order of its current."""
    needs = needs_of(load, meter.grid, meter.transfer.circuits)
    circuit = meter.transfer.circuits[load]
    if needs is None:
        open_ = ((side, path) for side, path in (("feed", circuit.feed), ("return", circuit.back)))
        said = (f"{side} {path.state}: {path.why}" for side, path in open_ if path.state != "complete")
        return Powered(None, why="; ".join(said))
    if sensed := [node for node in needs.sources if _is_signal(load, node, meter.grid)]:
        steps = _steps(load, ways, needs, meter.live(needs), meter)
        return Powered(needs, steps=steps, why=f"what {sensed[0]} puts out is not recorded")
    live = meter.live(needs)
    amps = meter.drawn(live)
    others = (name for name in meter.grid.loads if name != load and meter.is_on(live, name))
    volts = [_volts(load, "drop", span, live, amps, meter) for span in all_spans]
    across = _across(ways, meter.points)
    if across is not None:
        index = sum(span.side == "feed" for span in all_spans)
        volts.insert(index, _volts(load, "load", across, live, amps, meter))
    first = next((node for node, _ in ways.feed if node in meter.points), "")
    if first:
        volts.insert(0, _volts(load, "fed", Span("feed", first, BATTERY, (), ()), live, amps, meter))
    return Powered(
        needs=needs,
        with_it=tuple(others),
        settles=live.settles,
        comes_on=meter.is_on(live, load),
        volts=tuple(volts),
        current=_current(load, ways, live, amps, meter),
        steps=_steps(load, ways, needs, live, meter),
    )


def _is_signal(load: str, source: str, grid: Grid) -> bool:
    """Whether a module's output to a load is a signal of its own making, and no feed at the supply."""
    return grid.sources[source] == "module" and grid.job.loads[load].class_ == "sensor"


def _across(ways: LoadWays, points: frozenset[str]) -> Span | None:
    """The reachable points nearest to the load on either side."""
    red = next((node for node, _ in reversed(ways.feed) if node in points), "")
    black = next((node for node, _ in ways.back if node in points), "")
    return Span("load", red, black, (), ()) if red and black else None


def _volts(
    load: str, kind: str, span: Span, live: SolvedState, amps: Mapping[str, float | None], meter: Meter
) -> VoltTest:
    red, black = span.red, span.black
    volts = live.between(red, black) if live.settles and not meter.transfer.refused else None
    missing: tuple[Missing, ...] = ()
    if volts is None:
        missing = (SETTLES,) if not live.settles else meter.wanting(live, red, black)
    elif unread := meter.transfer.between(red, black, amps).missing:
        volts, missing = None, meter.unread(unread, live)
    carried = {branch.key: live.amps.get(meter.grid.run_of[branch.key]) for branch in span.branches}
    how = HOW
    if volts is None and kind == "drop" and live.settles:
        # what is not recorded lies elsewhere: at their stated currents the loads do not depend on it
        stated = meter.transfer.switched(load)
        volts = meter.transfer.between(red, black, stated).volts
        if volts is not None:
            amps, missing, how = stated, (), HOW_STATED
            carried = {branch.key: meter.transfer.through(branch, stated).volts for branch in span.branches}
    if span.branches:
        inputs = [part.as_input(_carried(carried[branch.key])) for branch in span.branches for part in branch.parts]
    else:
        taken = ((name, amount) for name, amount in amps.items())
        inputs = [Input(name, amount, "A", "as it behaves in this state") for name, amount in taken]
    what = {"drop": "drop", "load": "volts at the load", "fed": "volts of the feed"}[kind]
    formula = "U = sum of I x R between the points" if kind == "drop" else "U = supply less what is lost before it"
    figure = Figure(
        f"{load}.test.{red}.{black}",
        f"{what} from {red} to {black}, {load} on",
        volts,
        "V",
        how,
        formula,
        tuple(inputs),
        missing,
        meter.band_note(),
    )
    if volts is None:
        return VoltTest(kind, span, figure)
    less, more = meter.spread(red, black, amps)
    if kind != "drop":  # what is lost more is there less
        less, more = more, less
    low = max(0.0, volts - less) if volts >= 0 else volts - less
    return VoltTest(kind, span, figure, low, volts + more)


def _carried(amps: float | None) -> str:
    return "a current that is not recorded" if amps is None else f"{abs(amps):.2f} A"


def _current(
    load: str, ways: LoadWays, live: SolvedState, amps: Mapping[str, float | None], meter: Meter
) -> CurrentTest | None:
    """At the last fuse of the feed, else at the first point of it."""
    fuses = [(node, b) for node, b in ways.feed if b is not None and b.kind == "fuse"]
    others = [(node, b) for node, b in ways.feed if b is not None and node in meter.points]
    if not fuses and not others:
        return None
    node, branch = fuses[-1] if fuses else others[0]
    at = branch.name if fuses else node
    index = meter.grid.run_of[branch.key]
    found = live.amps.get(index) if live.settles and not meter.transfer.refused else None
    missing: tuple[Missing, ...] = ()
    if found is None:
        unread = meter.transfer.refused or meter.unread(meter.transfer.through(branch, amps).missing, live)
        missing = unread if live.settles else (SETTLES,)
    elif unread := meter.transfer.through(branch, amps).missing:
        found, missing = None, meter.unread(unread, live)
    beside = tuple(name for name, _ in meter.transfer.takers.get(index, ()) if name in amps and name != load)
    figure = Figure(
        f"{load}.test.current",
        f"current at {at}, {load} on",
        None if found is None else abs(found),
        "A",
        HOW,
        "I = sum of the loads behind it",
        tuple(Input(name, amps[name], "A", "as it behaves in this state") for name in (load, *beside) if name in amps),
        missing,
        f"Band: currents {meter.grid.job.limits_in_force['band of draws'].value:g} % down and up.",
    )
    if found is None:
        return CurrentTest(at, figure, None, None, beside)
    part = meter.grid.job.limits_in_force["band of draws"].value / 100
    return CurrentTest(at, figure, abs(found) * (1 - part), abs(found) * (1 + part), beside)


# ---- neighbours -----------------------------------------------------------------------------------------------------
def _steps(load: str, ways: LoadWays, needs: Needs, live: SolvedState, meter: Meter) -> tuple[StepTest, ...]:
    """The neighbours that move the ground side of a load most, largest first."""
    red = next((node for node, _ in ways.back if node in meter.points), "")
    own = meter.transfer.probe(red, BATTERY)
    if not own or meter.transfer.refused:
        return ()
    stated = meter.transfer.stated
    able = dict.fromkeys(name for index in own for name, _ in meter.transfer.takers.get(index, ()))
    sizes = {
        name: abs(meter.transfer.banded_over(own, {name: stated[name]}, "mohm"))
        for name in able
        if name != load and _may_be_asked(name, load, live, meter)
    }
    found: list[StepTest] = []
    for name in sorted(sizes, key=lambda name: -sizes[name]):
        if len(found) == MOST_NEIGHBOURS:
            break
        asked = needs_of(name, meter.grid, meter.transfer.circuits)
        if asked is None or any(name in step.on for step in found):
            continue
        step = _step(load, red, needs, asked, live, meter)
        if step is not None and name in step.on:
            found.append(step)
    known = [step for step in found if step.moved.value is not None]
    return tuple(sorted(found, key=lambda step: -abs(step.moved.value or 0.0)) if len(known) == len(found) else found)


def _may_be_asked(name: str, load: str, live: SolvedState, meter: Meter) -> bool:
    """Whether a person may be asked to switch a load on beside another, and it is not on already."""
    loads = meter.grid.job.loads
    if load in meter.transfer.apart[name] or loads[name].class_ == "starter" or meter.is_on(live, name) is not False:
        return False
    return not barred(name, meter.transfer.circuits[name], meter.grid)


def _step(load: str, red: str, needs: Needs, asked: Needs, before: SolvedState, meter: Meter) -> StepTest | None:
    """What switching another load on does to a reading; None for what no meter shows."""
    after = meter.live(needs.and_(asked))
    on = tuple(
        name
        for name in meter.grid.loads
        if meter.is_on(after, name) is not False and meter.is_on(before, name) is False
    )
    amps = {name: amount for name, amount in meter.drawn(after).items() if name in on}
    volts = (before.between(red, BATTERY), after.between(red, BATTERY))
    steady = before.settles and after.settles
    moved = volts[1] - volts[0] if steady and volts[0] is not None and volts[1] is not None else None
    missing = () if moved is not None else meter.wanting(after, red, BATTERY) if steady else (SETTLES,)
    if moved is not None and abs(moved) < LEAST_STEP_V:
        return None
    figure = Figure(
        f"{load}.test.step.{'.'.join(on)}",
        f"how far {red} to battery- moves when {', '.join(on)} comes on beside {load}",
        moved,
        "V",
        HOW,
        "U = U with it - U without",
        (Input("without", volts[0], "V", f"{load} on"), Input("with", volts[1], "V", f"{', '.join(on)} on too")),
        missing,
        meter.band_note(),
    )
    most = None if moved is None else moved + meter.spread(red, BATTERY, amps)[1]
    by_hand = tuple(name for name in asked.by_hand if name not in needs.by_hand)
    both = needs.and_(asked)
    modules = tuple(s for s in asked.sources if meter.grid.sources[s] == "module" and s not in needs.sources)
    return StepTest(red, by_hand, both.key if both.key != needs.key else "", modules, on, figure, most)
