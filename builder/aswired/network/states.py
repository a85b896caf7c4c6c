"""Operating states: what has to be switched on for a load, and which sources are then live.

Read off the traced circuits: the switches on a load's way, for a relay contact the way of its coil, the position of the
key that its fuses ask for, the module outputs it hangs on.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit, Path
from aswired.network.grid import Grid

KEYS = ("off", "accessory", "ignition")
_KEY_OF = {"always": "off", "module": "off", "unknown": "off", "accessory": "accessory", "ignition": "ignition"}


@dataclass(frozen=True)
class Needs:
    """What a load needs to be on. `assumed` are relay contacts taken as closed: the way of their coil is not recorded.

    `by_hand` leaves out switches that are closed at rest; `relays` are the contacts that have to be pulled by a
    recorded coil; `resting` those that are closed at rest and open when their coil is on.
    """

    by_hand: tuple[str, ...] = ()
    relays: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    resting: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    key: str = "off"

    def and_(self, other: Needs) -> Needs:
        """What both need."""

        def both(one: tuple[str, ...], two: tuple[str, ...]) -> tuple[str, ...]:
            return tuple(dict.fromkeys((*one, *two)))

        return Needs(
            both(self.by_hand, other.by_hand),
            both(self.relays, other.relays),
            both(self.assumed, other.assumed),
            both(self.resting, other.resting),
            both(self.sources, other.sources),
            max(self.key, other.key, key=KEYS.index),
        )


@dataclass(frozen=True)
class OperatingState:
    """An operating state: `closed` are the switches and relay contacts that conduct, `live` the nodes that are fed.

    Contacts that follow a coil are in `closed` as they rest; `behaviour.operate` lets them follow.
    """

    closed: frozenset[str]
    live: frozenset[str]


def needs_of(load: str, grid: Grid, circuits: Mapping[str, Circuit]) -> Needs | None:
    """What one load needs to be on; None where its feed or its return is not traced from end to end."""
    circuit = circuits.get(load)
    if circuit is None or circuit.feed.state != "complete" or circuit.back.state != "complete":
        return None
    return _needs(load, grid, circuits, frozenset())


def _needs(load: str, grid: Grid, circuits: Mapping[str, Circuit], above: frozenset[str]) -> Needs:
    circuit = circuits[load]
    found = _sources(circuit.feed, grid)
    for step in (*circuit.feed.steps, *circuit.back.steps):
        if step.kind != "switch":
            continue
        coil, at_rest = grid.contacts.get(step.name, ""), grid.job.switches[step.name].at_rest
        if not coil and at_rest == "open":
            found = found.and_(Needs(by_hand=(step.name,)))
        elif at_rest == "closed":
            found = found.and_(Needs(resting=(step.name,) if coil else ()))
        elif coil in above or coil == load:
            found = found.and_(Needs(relays=(step.name,)))
        elif follows(coil, grid, circuits):
            found = found.and_(Needs(relays=(step.name,))).and_(_needs(coil, grid, circuits, above | {load}))
        else:
            found = found.and_(Needs(assumed=(step.name,)))
    return found


def follows(coil: str, grid: Grid, circuits: Mapping[str, Circuit]) -> bool:
    """Whether a relay's contacts can be worked out: its coil is a kept load, of known current, on a traced way."""
    circuit = circuits.get(coil)
    if circuit is None or coil not in grid.loads:
        return False
    draws = grid.job.loads[coil].draws
    known = draws is not None and draws.current_a is not None and draws.current_a > 0
    return known and circuit.feed.state == circuit.back.state == "complete"


def needs_of_all(grid: Grid, circuits: Mapping[str, Circuit]) -> dict[str, Needs]:
    """What every load needs to be on; without those that are not traced from end to end."""
    found = {name: needs_of(name, grid, circuits) for name in circuits}
    return {name: needs for name, needs in found.items() if needs is not None}


def on_in(one: OperatingState, needs: Mapping[str, Needs], grid: Grid) -> tuple[str, ...]:
    """The loads that a state gives all they need, their relays' coils included; not behind a contact that opens."""
    given = [
        name
        for name, asked in needs.items()
        if set(asked.sources) <= one.live and {*asked.by_hand, *asked.assumed} <= one.closed
    ]
    return tuple(name for name in given if not {grid.contacts[contact] for contact in needs[name].resting} & {*given})


def never_together(grid: Grid, needs: Mapping[str, Needs], names: Collection[str]) -> dict[str, frozenset[str]]:
    """Load -> the loads it is never on with: those said so, and those whose relay opens the contact that feeds it.

    `needs` are those of `needs_of_all`; of a load without any, only what is said so counts.
    """
    every = {name: needs.get(name, Needs()) for name in names}
    pulled = {
        name: frozenset((name, *(grid.contacts[contact] for contact in found.relays))) for name, found in every.items()
    }
    let_go = {name: frozenset(grid.contacts[contact] for contact in found.resting) for name, found in every.items()}
    loads = grid.job.loads
    return {
        one: frozenset(
            two
            for two in names
            if two in loads[one].not_with
            or one in loads[two].not_with
            or (one != two and (pulled[one] & let_go[two] or pulled[two] & let_go[one]))
        )
        for one in names
    }


def unfollowed(grid: Grid, circuits: Mapping[str, Circuit]) -> tuple[str, ...]:
    """Relay contacts whose coil's way or current is not recorded: every state takes them as they rest, but for those
    that the load switched on needs."""
    return tuple(contact for contact, coil in grid.contacts.items() if not follows(coil, grid, circuits))


def _sources(feed: Path, grid: Grid) -> Needs:
    """The node a complete feed begins at, and the position of the key that makes it live."""
    for step in feed.steps:
        node = f"{step.name}.feed" if step.kind == "fuse" else step.name
        if node in grid.sources:
            return Needs(sources=(node,), key=_KEY_OF[grid.sources[node]])
    return Needs()


def state(needs: Needs, grid: Grid) -> OperatingState:
    """The state in which just this is switched on: what else hangs on the same key and switches is on with it."""
    reached = KEYS.index(needs.key)
    live = {
        node
        for node, when in grid.sources.items()
        if node in needs.sources or (when not in ("module", "unknown") and KEYS.index(_KEY_OF[when]) <= reached)
    }
    return OperatingState(frozenset((*at_rest(grid), *needs.by_hand, *needs.assumed)), frozenset(live))


def at_rest(grid: Grid) -> Iterable[str]:
    """Switches and contacts that conduct while nothing works them."""
    return (name for name, switch in grid.job.switches.items() if switch.at_rest == "closed")


def everything_off(grid: Grid) -> OperatingState:
    """The key out and nothing worked: what is live now is live for good."""
    return state(Needs(), grid)
