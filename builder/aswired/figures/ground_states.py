"""Which operating states matter to a ground point, and what its cable carries and its stud rises by in each.

The loads of a state draw their stated current, as in `figures.grounds`; each load behind the point is switched on by
what it needs and nothing else, and loads that come on with the same switches make one state.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE
from aswired.figures.key_off import ASLEEP
from aswired.network.grid import Branch, Grid
from aswired.network.states import Needs, OperatingState, everything_off, needs_of, on_in, state
from aswired.network.transfer import SOLVED, UnitSolutions, is_whole
from aswired.physics.figure import Figure, Input, Missing

NOTHING_ON = "key off, nothing switched on"
TOGETHER = "all on that can be on together"
WORST = "the same, cables as hot as they get and contacts at their worst"
_NO_SHARE = 1e-6  # of an ampere


@dataclass(frozen=True)
class Switched:
    """A state and the loads behind a ground point that it is for.

    `words` say what is switched, as written; `short` is the same without the remarks in brackets.
    """

    words: str
    short: str
    state: OperatingState
    needs: Needs
    loads: tuple[str, ...]


@dataclass(frozen=True)
class Carried:
    """A ground point in one state: current of its cable [A], its stud above battery negative [V], the loads on."""

    words: str
    on: tuple[str, ...]
    amps: Figure
    rise: Figure


def way_home(point: str, grid: Grid) -> Branch | None:
    """The branch by which a point's current goes on: its cable, or the body; None where none is recorded."""
    for branch in grid.branches:
        if branch.kind in ("cable", "body") and branch.a == point:
            return branch
    return None


def behind(point: str, passing: Iterable[str], transfer: UnitSolutions) -> tuple[str, ...]:
    """Loads whose return is traced through a point (`passing`), and those of which a part takes its cable."""
    way = way_home(point, transfer.grid)
    takers = transfer.takers.get(transfer.grid.run_of[way.key], []) if way is not None else []
    found = {*passing, *(name for name, share in takers if abs(share) > _NO_SHARE)}
    return tuple(name for name in transfer.circuits if name in found)


def switched_states(loads: Iterable[str], grid: Grid, circuits: Mapping[str, Circuit]) -> tuple[Switched, ...]:
    """The states that switch these loads on, in their order. A load that is not traced from end to end has none."""
    found: dict[OperatingState, Switched] = {}
    for load in loads:
        needs = needs_of(load, grid, circuits)
        if needs is None:
            continue
        one = state(needs, grid)
        held = found.get(one)
        if held is not None:
            found[one] = replace(held, loads=(*held.loads, load))
            continue
        acts = tuple(_acts(needs, grid))
        words = ", ".join(act + (f" ({what})" if what else "") for act, what in acts) or NOTHING_ON
        short = ", ".join(act for act, _ in acts) or NOTHING_ON
        found[one] = Switched(words, short, one, needs, (load,))
    return tuple(found.values())


def states_of(loads: Iterable[str], transfer: UnitSolutions, needs: Mapping[str, Needs]) -> tuple[Switched, ...]:
    """Key off, the states that switch these loads on, and all on that can be on together; each state once.

    A load that is on for good is switched on by nothing: its state is key off.
    """
    grid = transfer.grid
    off = Switched(NOTHING_ON, NOTHING_ON, everything_off(grid), Needs(), ())
    found = [off, *switched_states(loads, grid, transfer.circuits)]
    every = Needs()
    for load in transfer.together():
        every = every.and_(needs[load]) if load in needs else every
    found.append(Switched(TOGETHER, TOGETHER, state(every, grid), every, ()))
    once: dict[OperatingState, Switched] = {}
    for each in found:
        held = once.get(each.state)
        if held is None:
            once[each.state] = each
        elif each.words == TOGETHER:
            once[each.state] = replace(held, words=f"{held.words}, which is {TOGETHER}")
        else:
            once[each.state] = replace(held, loads=each.loads)
    return tuple(once.values())


def _acts(needs: Needs, grid: Grid) -> Iterator[tuple[str, str]]:
    """What a person does and the remark to it, as recorded: 'stop switch closed', 'on the brake pedal'."""
    job = grid.job
    if needs.key != "off":
        yield f"key on {needs.key}", ""
    for name in needs.by_hand:
        yield f"{name} closed", job.switches[name].what
    for node in needs.sources:
        if grid.sources[node] == "module":
            part, _, cavity = node.partition(".")
            yield f"{node} live", job.modules[part].out.get(cavity, "") if part in job.modules else ""
        elif grid.sources[node] == "unknown":
            yield f"{node.removesuffix('.feed')} live", ""
    for name in needs.assumed:
        yield f"{name} taken as closed", ""


def carried_in(
    point: str, states: Iterable[Switched], transfer: UnitSolutions, needs: Mapping[str, Needs]
) -> tuple[Carried, ...]:
    """Key off, then each state, then every load on that can be on together, then the same at its worst."""
    way, grid = way_home(point, transfer.grid), transfer.grid
    if way is None or transfer.refused:
        return ()
    found: list[Carried] = []
    off = everything_off(grid)
    for each in (Switched(NOTHING_ON, NOTHING_ON, off, Needs(), ()), *states):
        asleep = each.state == off
        if asleep and found:
            continue
        drawn = {name: _drawn(name, transfer, asleep) for name in on_in(each.state, needs, grid)}
        carried = _carried(point, way, (each.words, each.short), drawn, transfer, "mohm")
        found.append(_untold(carried, perhaps_live(way, each.state, transfer, needs)))
    together = transfer.together()
    found.append(_carried(point, way, (TOGETHER, "together"), together, transfer, "mohm"))
    found.append(_carried(point, way, (WORST, "worst"), together, transfer, "worst"))
    return tuple(found)


def perhaps_live(
    way: Branch, one: OperatingState, transfer: UnitSolutions, needs: Mapping[str, Needs]
) -> tuple[str, ...]:
    """Fuses of which nobody said when they are live, and that may feed a load behind a point though nothing is worked
    for it."""
    grid = transfer.grid
    behind_it = [name for name, _ in transfer.takers.get(grid.run_of[way.key], ()) if name in needs]
    sources = [
        node
        for name in behind_it
        if {*needs[name].by_hand, *needs[name].assumed} <= one.closed
        for node in needs[name].sources
        if grid.sources[node] == "unknown" and node not in one.live
    ]
    return tuple(dict.fromkeys(f"when {node.removesuffix('.feed')} is live" for node in sources))


def _untold(carried: Carried, why: tuple[str, ...]) -> Carried:
    """A state in which more may flow than is known."""
    if not why:
        return carried
    amps, rise = (
        replace(figure, value=None, missing=(*figure.missing, *map(Missing, why)))
        for figure in (carried.amps, carried.rise)
    )
    return replace(carried, amps=amps, rise=rise)


def _drawn(name: str, transfer: UnitSolutions, asleep: bool) -> float | None:
    """A module's current is that of a module at work; what it takes asleep is not recorded."""
    quiet = asleep and transfer.grid.job.loads[name].class_ in ASLEEP
    return None if quiet else transfer.stated[name]


def _carried(
    point: str, way: Branch, said: tuple[str, str], amps: Mapping[str, float | None], transfer: UnitSolutions, band: str
) -> Carried:
    words, short = said
    run = transfer.grid.run_of[way.key]
    shares = {name: share for name, share in transfer.takers.get(run, ()) if name in amps and abs(share) > _NO_SHARE}
    through = transfer.through(way, amps)
    rise = transfer.between(point, BATTERY_NEGATIVE, amps)
    volts = rise.volts
    own = transfer.probe(point, BATTERY_NEGATIVE)
    if volts is not None and band == "worst" and own is not None:
        volts = abs(transfer.banded_over(own, amps, band))
    inputs = tuple(
        Input(name, amps[name], "A", "its whole current" if is_whole(share) else f"{share:.0%} of it")
        for name, share in shares.items()
    )
    parts = tuple(
        part.as_input(worst=band == "worst")
        for index in own or ()
        for branch in transfer.grid.runs[index].branches
        for part in branch.parts
    )
    key = f"{point}.{short}"
    return Carried(
        words,
        tuple(shares),
        Figure(
            f"{key}.current", f"current of {way.name}, {words}", through.volts, "A",
            "sum of the shares that take this way", "I = sum of share x I", inputs, through.missing,
        ),
        Figure(
            f"{key}.rise", f"rise of {point} above battery negative, {words}", volts, "V",
            SOLVED, "U = sum of I x R along the way back",
            (*inputs, Input(way.name, through.volts, "A", "sum of the shares above"), *parts),
            rise.missing,
        ),
    )  # fmt: skip


def landing(point: str, transfer: UnitSolutions, on: Mapping[str, float | None]) -> dict[str, float | None]:
    """What the wires of a point bring to it, load by load; None = not recorded. [A]

    Where a return divides between two points each has its own part; what goes on by a wire to another point is not
    counted here.
    """
    grid = transfer.grid
    ends = {
        index: -1.0 if run.a == point else 1.0
        for index, run in enumerate(grid.runs)
        if point in (run.a, run.b) and run.a != run.b and run.branches[0].kind not in ("cable", "body")
    }
    found: dict[str, float | None] = {}
    for name in transfer.circuits:
        unit = transfer.units.get((name, "return"))
        if unit is None or name not in on:
            continue
        if unit.among.intersection(ends):
            found[name] = None
            continue
        share = sum(sign * unit.shares.get(index, 0.0) for index, sign in ends.items())
        if share < _NO_SHARE:
            continue
        current = on[name]
        unread = not is_whole(share) and any(grid.runs[index].unknown for index in unit.shares)
        found[name] = None if current is None or unread else share * current
    return found
