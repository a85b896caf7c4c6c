"""What happens when a ground point opens: which loads are lost, which get less, which are fed though they are off.

Each state that matters to the point is solved twice, with every load as it behaves (`network.behaviour`): with the
point's way back, and with it opened. What hangs on something that is not recorded has no volts; which loads feed each
other is then still told, from what is connected alone.

What a load does at too few volts is told by these steps (common practice, no source), beside the `fed backwards` limit:
a filament glows dimly below three tenths of its volts, and a load gets less below nine tenths of what it had.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from aswired.car.circuits import Circuit
from aswired.car.harness import NodeKind
from aswired.figures.ground_states import (
    Carried,
    Switched,
    behind,
    carried_in,
    perhaps_live,
    states_of,
    switched_states,
    way_home,
)
from aswired.figures.grounds import GroundSummary
from aswired.figures.ways_home import Carrying, other_ways
from aswired.network.behaviour import Behaviour, SolvedState, scattered
from aswired.network.grid import BATTERY, Grid
from aswired.network.states import OperatingState, needs_of_all, on_in
from aswired.network.transfer import UnitSolutions
from aswired.physics.draw import light_part
from aswired.physics.figure import Figure, Input, Missing
from aswired.physics.network import Edge, solve

FED, LESS, DEAD = "fed", "less", "dead"
DIMLY_BELOW = 0.30  # of a filament's own volts: under 2 % of its light
LESS_BELOW = 0.90  # of the volts it has with the point sound: a filament has lost 30 % of its light
RULE = (
    f"fed: more than the limit over a load that is off; a filament glows dimly below {DIMLY_BELOW:.0%} of its volts; "
    f"less: below {LESS_BELOW:.0%} of the volts with the ground sound; dead: no more than the limit "
    "(common practice, no source)"
)
HOW = "nodal solution with the way back opened, filaments by their law, all other loads as resistances"
SETTLES = Missing("where a relay comes to rest")
NO_SUPPLY = Missing("the supply")
_TELLING = (NodeKind.SPLICE, NodeKind.GROUND, NodeKind.BATTERY)
_NO_CURRENT_A = 0.001
_FEED = {  # why a load that is behind a point is in none of its states
    "open": "its feed is open",
    "not examined": "its feed was not examined",
    "complete": "its return is open",
}
# where only connections count: 10 to 100 ohm stand for any load, next to nothing for any wire, and more than this part
# of the supply over a load says that it is connected
_LOAD_MOHM, _WIRE_MOHM, _FED_PART = 10_000.0, 1e-3, 1e-4


@dataclass(frozen=True)
class Over:
    """A load in a state, the point sound and open. Volts from its fed end to its other end: below nought its current
    runs the wrong way round. None = not recorded.

    `effect`: fed (it is off), less, dead. `part` of its own volts, and `light` of a filament, as it is with the point
    open. `no_way`: nothing that is connected leads home from it any more.
    """

    load: str
    effect: str
    sound_v: float | None
    open_v: float | None
    part: float | None
    light: float | None
    no_way: bool = False

    @property
    def backwards(self) -> bool:
        return self.open_v is not None and self.open_v < 0


@dataclass(frozen=True)
class Opened:
    """A ground point without its way back, in one state.

    `way` names what the largest part of the current passes, from the load that is on to battery negative, as (name,
    kind): load, splice, ground; () where there is none, or it is not recorded. `carrying` are the wires that carry more
    than with the point sound, `rise_v` is its stud above battery negative. `on` are the loads that the state switches
    on, `here` those of them that are behind the point. `wanting` says what keeps volts from being known,
    `perhaps` what else may be on: a fuse of which nobody said when it is live.
    """

    point: str
    switched: Switched
    on: tuple[str, ...]
    here: tuple[str, ...]
    over: tuple[Over, ...]
    way: tuple[tuple[str, str], ...]
    carrying: tuple[Carrying, ...]
    rise_v: float | None
    wanting: tuple[Missing, ...]
    perhaps: tuple[str, ...]
    figure: Figure

    def having(self, effect: str) -> tuple[Over, ...]:
        return tuple(over for over in self.over if over.effect == effect)


@dataclass(frozen=True)
class PointOpened:
    """Every state of one point, key off and all on among them. `untold`: loads behind it whose feed is not traced from
    end to end, with the reason.

    `as_point` names a point behind it whose opening does the same: its way back is the only one of that point.
    """

    point: str
    opened: tuple[Opened, ...]
    untold: tuple[tuple[str, str], ...]
    as_point: str = ""
    why: str = ""


class OpenedGrounds:
    """The car of one view with its ground points opened one at a time.

    `behaviour` is None where the supply is not recorded: then only connections are told.
    """

    def __init__(self, transfer: UnitSolutions, behaviour: Behaviour | None) -> None:
        self.transfer = transfer
        self.grid: Grid = transfer.grid
        self.circuits: Mapping[str, Circuit] = transfer.circuits
        self.behaviour = behaviour
        self.needs = needs_of_all(self.grid, self.circuits)

    def points(self, grounds: Iterable[GroundSummary]) -> dict[str, PointOpened]:
        """Every ground point."""
        found: dict[str, PointOpened] = {}
        for ground in grounds:
            found[ground.name] = self.point(ground.name, ground.loads)
        for ground in grounds:
            for other in ground.behind:
                if found[other].opened and _alike(found[other]) == _alike(found[ground.name]):
                    found[ground.name] = replace(found[ground.name], as_point=other)
                    break
        return found

    def point(self, name: str, passing: tuple[str, ...]) -> PointOpened:
        """One ground point; `passing` are the loads whose return is traced through it."""
        loads = behind(name, passing, self.transfer)
        way = way_home(name, self.grid)
        if way is None or not loads:
            return PointOpened(name, (), ())
        if self.transfer.refused:
            return PointOpened(name, (), (), why=str(self.transfer.refused[0]))
        states = states_of(loads, self.transfer, self.needs)
        opened = tuple(self._opened(name, way.key, each, loads) for each in states)
        untold = tuple((load, _FEED[self.circuits[load].feed.state]) for load in loads if load not in self.needs)
        return PointOpened(name, opened, untold)

    def _opened(self, name: str, key: str, switched: Switched, loads: tuple[str, ...]) -> Opened:
        without = frozenset({key})
        on = on_in(switched.state, self.needs, self.transfer.grid)
        sound, live = self._lives(switched, without)
        linked = tuple(_linked(switched.state, on, opened, self.grid) for opened in (frozenset[str](), without))
        found = [
            over
            for load in self.grid.loads
            if (over := self._over(load, load in on, load in loads, sound, live, linked)) is not None
        ]
        unread = any(over.open_v is None for over in found)
        wanting = self._wanting(live, without) if unread else ()
        here = tuple(load for load in loads if load in on)
        way_back = self.grid.by_key[key]
        perhaps = perhaps_live(way_back, switched.state, self.transfer, self.needs)
        dead = {over.load for over in found if over.effect == DEAD}
        way = self._way(live, [load for load in switched.loads or here if load in on and load not in dead])
        starts = [self.circuits[load].return_end for load in here]
        carrying = other_ways(name, key, starts, sound, live, self.grid) if here else ()
        rise = live.volts.get(name) if live is not None else None
        figure = self._figure(name, key, switched, found, wanting)
        return Opened(name, switched, on, here, tuple(found), way, carrying, rise, wanting, perhaps, figure)

    def _lives(self, switched: Switched, without: frozenset[str]) -> tuple[SolvedState | None, SolvedState | None]:
        """The state sound and open; None where it is not worked out or does not come to rest."""
        if self.behaviour is None:
            return None, None
        sound, live = (self.behaviour.operate(switched.state, opened) for opened in (frozenset[str](), without))
        return (sound if sound.settles else None), (live if live.settles else None)

    def _wanting(self, live: SolvedState | None, without: frozenset[str]) -> tuple[Missing, ...]:
        """What keeps the volts of a state from being known."""
        if self.behaviour is None:
            return (NO_SUPPLY,)
        return (SETTLES,) if live is None else self.behaviour.wanting(live.state, without)

    def _over(
        self,
        load: str,
        on: bool,
        its_own: bool,
        sound: SolvedState | None,
        live: SolvedState | None,
        linked: tuple[frozenset[str], ...],
    ) -> Over | None:
        """What becomes of one load; None for one that is neither fed nor loses anything."""
        limit = self.grid.job.limits_in_force["fed backwards"].value
        was, now = (self._volts(load, each) for each in (sound, live))
        if not on and (was is None or abs(was) <= limit):
            if now is None:
                fed = load in linked[1] and load not in linked[0]
                return Over(load, FED, was, None, None, None) if fed else None
            return self._told(load, FED, was, now) if abs(now) > limit else None
        if load in linked[0] and load not in linked[1]:
            return Over(load, DEAD, was, 0.0, 0.0, None, no_way=True)
        if now is None:
            return Over(load, LESS, was, None, None, None) if its_own else None
        if abs(now) <= limit:
            return self._told(load, DEAD, was, now) if was is None or abs(was) > limit else None
        before = was if was is not None else self._own_v(load)
        if before is None or abs(now) >= LESS_BELOW * abs(before):
            return None
        return self._told(load, LESS, was, now)

    def _volts(self, load: str, live: SolvedState | None) -> float | None:
        """From its fed end to its other end."""
        volts = live.load_volts.get(load) if live is not None else None
        turned = self.circuits[load].feed_end == self.grid.loads[load].b if load in self.circuits else False
        return None if volts is None else -volts if turned else volts

    def _own_v(self, load: str) -> float | None:
        """The volts at which its current is recorded."""
        draw = self.behaviour.draws.get(load) if self.behaviour is not None else None
        return draw.volts_v if draw is not None else None

    def _told(self, load: str, effect: str, was: float | None, now: float) -> Over:
        draw = self.behaviour.draws.get(load) if self.behaviour is not None else None
        if draw is None:
            return Over(load, effect, was, now, None, None)
        light = light_part(abs(now), draw.volts_v) if draw.filament else None
        return Over(load, effect, was, now, abs(now) / draw.volts_v, light)

    # ---- where the current goes -------------------------------------------------------------------------------------
    def _way(self, live: SolvedState | None, on: list[str]) -> tuple[tuple[str, str], ...]:
        """Down from the load that is on and takes most, at each point by the largest current."""
        taken = {load: abs(live.load_amps.get(load) or 0.0) for load in on} if live is not None else {}
        first = max(taken, key=lambda load: taken[load], default="")
        if live is None or not first or taken[first] < _NO_CURRENT_A:
            return ()
        at = self.circuits[first].return_end
        found, seen = [(first, "load")], {first}
        while at != BATTERY:
            out = self._onward(at, live)
            if out is None:
                return ()
            _, at, load = max(out, default=(0.0, "", ""))
            if not at or at in seen:
                return ()
            seen.add(at)
            if load:
                found.append((load, "load"))
            node = self.grid.view.nodes.get(at)
            if at == BATTERY or (node is not None and node.kind in _TELLING):
                found.append((at, "splice" if node is not None and node.kind is NodeKind.SPLICE else "ground"))
        return tuple(found)

    def _onward(self, at: str, live: SolvedState) -> list[tuple[float, str, str]] | None:
        """Currents that leave a node: amperes, the node they reach, the load they pass; None = not recorded."""
        found: list[tuple[float, str, str]] = []
        for index, run in enumerate(self.grid.runs):
            if at not in (run.a, run.b) or run.a == run.b:
                continue
            amps = live.amps.get(index)
            if amps is None:
                return None
            found.append((amps, run.b, "") if run.a == at else (-amps, run.a, ""))
        for load, ends in self.grid.loads.items():
            if at not in (ends.a, ends.b) or ends.a == ends.b:
                continue
            amps = live.load_amps.get(load)
            if amps is None:
                return None
            found.append((amps, ends.b, load) if ends.a == at else (-amps, ends.a, load))
        return [each for each in found if each[0] > 0]

    # ---- the figure -------------------------------------------------------------------------------------------------
    def _figure(
        self, name: str, key: str, switched: Switched, found: list[Over], wanting: tuple[Missing, ...]
    ) -> Figure:
        """The most volts over a load that is off, with every load that the opening reaches among its inputs."""
        limit = self.grid.job.limits_in_force["fed backwards"]
        fed = [over for over in found if over.effect == FED]
        volts = [abs(over.open_v) for over in fed if over.open_v is not None]
        missing = wanting if any(over.open_v is None for over in fed) else ()
        inputs = [
            Input("limit", limit.value, "V", f"fed backwards: {limit.source or limit.mark}"),
            Input("opened", key, "", "taken out of the network"),
            *(Input(over.load, over.open_v, "V", self._source(over)) for over in found),
        ]
        return Figure(
            f"{name}.opened.{switched.short}",
            f"most volts over a load that is off, {name} open, {switched.words}",
            None if missing else max(volts, default=0.0),
            "V",
            HOW,
            "sum of the currents at every point = 0; filament I = Id (U / Ud)^0.55, light (U / Ud)^3.4",
            tuple(inputs),
            missing,
            f"{RULE[0].upper()}{RULE[1:]}.",
        )

    def _source(self, over: Over) -> str:
        draws = self.grid.job.loads[over.load].draws
        said = [f"draws: {draws.text}" if draws is not None else "its current is not recorded"]
        if over.sound_v is not None:
            said.append(f"{over.sound_v:.2f} V with the ground sound")
        if over.light is not None:
            said.append(f"{over.light:.1%} of its light")
        if over.backwards:
            said.append("the wrong way round")
        return "; ".join(said)


def _alike(point: PointOpened) -> list[tuple[str, str, str, float | None]]:
    """What two points have in common when opening either does the same, to the digits that are printed."""
    return [
        (opened.switched.words, over.load, over.effect, None if over.open_v is None else round(over.open_v, 2))
        for opened in point.opened
        for over in opened.over
    ]


def _linked(one: OperatingState, on: Collection[str], without: frozenset[str], grid: Grid) -> frozenset[str]:
    """Loads that have volts over them by what is connected alone; `on` are those that the state switches on.

    Every load stands as a resistance of its own, so that no bridge between equal ones hides a load. A contact whose
    coil has volts over it has left its rest; a coil that the opening took off lets it go.
    """
    found = _linked_with(_contacts(one, on, grid), one, without, grid)
    lost = {coil for coil in grid.contacts.values() if coil in on and coil not in found}
    return _linked_with(_contacts(one, {*on} - lost, grid), one, without, grid) if lost else found


def _contacts(one: OperatingState, on: Collection[str], grid: Grid) -> frozenset[str]:
    """What conducts in a state: of a coil that is on, the contacts that do not at rest in place of those that do."""
    return one.closed ^ {
        contact for contact, coil in grid.contacts.items() if coil in on and _moves(contact, one, grid)
    }


def _moves(contact: str, one: OperatingState, grid: Grid) -> bool:
    """Whether a state has a contact as it rests; one that it takes as pulled already stays."""
    return (contact in one.closed) == (grid.job.switches[contact].at_rest == "closed")


def _linked_with(closed: frozenset[str], one: OperatingState, without: frozenset[str], grid: Grid) -> frozenset[str]:
    edges = [
        Edge(run.a, run.b, _WIRE_MOHM)
        for run in grid.runs
        if not (run.switch and run.switch not in closed) and not any(branch.key in without for branch in run.branches)
    ]
    edges += [Edge(ends.a, ends.b, _LOAD_MOHM * (1 + 9 * scattered(n))) for n, ends in enumerate(grid.loads.values())]
    held = {node: 1.0 for node in one.live if node != BATTERY}
    volts = solve(edges, {}, BATTERY, held).voltage_v
    return frozenset(
        load
        for load, ends in grid.loads.items()
        if abs((volts.get(ends.a) or 0.0) - (volts.get(ends.b) or 0.0)) > _FED_PART
    )


@dataclass(frozen=True)
class GroundStates:
    """The ground points of a view: each in each state of its loads, and each opened."""

    transfer: UnitSolutions
    carried: Mapping[str, tuple[Carried, ...]]
    opened: Mapping[str, PointOpened]
    behaviour: Behaviour | None  # None where the supply is not recorded


def ground_states(transfer: UnitSolutions, grounds: Sequence[GroundSummary]) -> GroundStates:
    """The ground points of a view, solved."""
    supply = transfer.grid.job.supply
    known = supply is not None and supply.value is not None
    behaviour = Behaviour(transfer.grid, transfer.circuits) if known else None
    openings = OpenedGrounds(transfer, behaviour)
    carried = {}
    for ground in grounds:
        loads = behind(ground.name, ground.loads, transfer)
        states = switched_states(loads, transfer.grid, transfer.circuits)
        carried[ground.name] = carried_in(ground.name, states, transfer, openings.needs) if loads else ()
    return GroundStates(transfer, carried, openings.points(grounds), behaviour)
