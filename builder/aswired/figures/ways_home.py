"""Which wires a current goes home by: those of a load's return, and those that carry more once a ground has opened."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace

from aswired.car.harness import BATTERY_NEGATIVE, Stretch
from aswired.network.behaviour import TOLD_WITHIN_A, SolvedState, scattered
from aswired.network.copper import conductor_of, copper_of
from aswired.network.grid import Branch, Grid
from aswired.network.transfer import NO_SHARE, RETURN, UnitSolutions, is_whole
from aswired.physics.drops import drop_v
from aswired.physics.network import Edge, solve
from aswired.physics.protection import planning_rating
from aswired.text.units import Size

NO_CURRENT_A = TOLD_WITHIN_A


@dataclass(frozen=True)
class Carrying:
    """A wire, or the cable of a ground point, and what it carries, from `start` to `end` in the direction of its
    current. None = not recorded.

    `rise_v` is its beginning above battery negative, where that was asked for. `planned_a` is the planning rating of
    its size: None for a size that is not read or outside of the table. `by_copper`: it leads home without passing a
    load.
    """

    branch: Branch
    stretch: Stretch | None  # None for a cable
    size: Size | None
    length_mm: float | None
    start: str
    end: str
    amps: float | None
    rise_v: float | None = None
    planned_a: float | None = None
    by_copper: bool = True

    @property
    def name(self) -> str:
        return self.stretch.wire if self.stretch is not None else self.branch.name

    @property
    def overloaded(self) -> bool:
        return self.amps is not None and self.planned_a is not None and self.amps > self.planned_a


def returns_of(load: str, transfer: UnitSolutions, amps: float | None) -> tuple[Carrying, ...]:
    """The wires and cables that the return of a load takes with this load alone on; more than one way where it divides.

    A share that rests on something that is not recorded is None. [A]
    """
    found: list[Carrying] = []
    for index, share in transfer.shares(load, RETURN).items():
        told = None if amps is None else transfer.through(transfer.grid.runs[index].branches[0], {load: amps}).volts
        found += _of_run(index, share >= 0, told, None, transfer.grid)
    return tuple(found)


def divided(load: str, transfer: UnitSolutions) -> bool:
    """Whether a load has more than one way home."""
    return any(not is_whole(share) for share in transfer.shares(load, RETURN).values())


def grounds_of(load: str, first: str, transfer: UnitSolutions) -> tuple[str, ...]:
    """The ground points to which a wire brings a part of a load's current, the one of its traced way first."""
    runs = [transfer.grid.runs[index] for index in transfer.shares(load, RETURN)]
    branches = [branch for run in runs for branch in run.branches]
    home = {branch.a for branch in branches if branch.kind in ("cable", "body")}
    landed = (end for branch in branches if branch.kind == "stretch" for end in (branch.a, branch.b) if end in home)
    return tuple(dict.fromkeys((*([first] if first else []), *landed)))


def direct_ways(point: str, key: str, grid: Grid) -> frozenset[int]:
    """The runs by which a point is joined to battery negative by copper alone, its own way back, by key, left out."""
    at: dict[str, list[int]] = {}
    for index, run in enumerate(grid.runs):
        if not run.switch and run.a != run.b and all(branch.key != key for branch in run.branches):
            at.setdefault(run.a, []).append(index)
            at.setdefault(run.b, []).append(index)
    seen, todo, block = {point}, [point], set[int]()
    for node in todo:
        if node == BATTERY_NEGATIVE or node in grid.sources:
            continue
        for index in at.get(node, ()):
            run = grid.runs[index]
            block.add(index)
            other = run.b if run.a == node else run.a
            if other not in seen:
                seen.add(other)
                todo.append(other)
    order = sorted(block)
    # a resistance of its own for each run, so that no bridge between equal ones hides a way
    edges = [Edge(grid.runs[index].a, grid.runs[index].b, 1 + scattered(index)) for index in order]
    solution = solve(edges, {point: -1.0}, BATTERY_NEGATIVE, {})
    if solution.voltage_v.get(point) is None:
        return frozenset()
    taken = zip(order, solution.current_a, strict=True)
    return frozenset(index for index, amps in taken if abs(amps or 0.0) > NO_SHARE)


def other_ways(
    point: str, key: str, starts: Collection[str], sound: SolvedState | None, live: SolvedState | None, grid: Grid
) -> tuple[Carrying, ...]:
    """The wires and cables that carry more, or the other way, with the way back of a point opened (`key`), from the
    highest to the lowest.

    `starts` are the return ends of the loads that are on behind the point. What hangs on something that is not recorded
    has no current; it is named where copper alone joins it to the point.
    """
    direct = direct_ways(point, key, grid)
    reached = _downhill([point, *starts], live, direct, grid) if live is not None else direct
    found: list[Carrying] = []
    for index in sorted(reached):
        now = live.amps.get(index) if live is not None else None
        was = sound.amps.get(index) if sound is not None else None
        if now is not None and was is not None and now * was >= 0 and abs(now) <= abs(was) + NO_CURRENT_A:
            continue
        if (now is None or was is None) and index not in direct:
            continue
        of_run = _of_run(index, now is None or now >= 0, now, live, grid)
        found += (replace(one, by_copper=index in direct) for one in of_run)
    return tuple(sorted(found, key=lambda one: -(one.rise_v if one.rise_v is not None else -1.0)))


def _downhill(starts: Iterable[str], live: SolvedState, direct: Collection[int], grid: Grid) -> set[int]:
    """The runs that a current takes from some nodes down to battery negative, through loads too."""
    out: dict[str, list[tuple[int | None, str]]] = {}
    for index, run in enumerate(grid.runs):
        amps = live.amps.get(index)
        if amps is None and index in direct:
            out.setdefault(run.a, []).append((index, run.b))
            out.setdefault(run.b, []).append((index, run.a))
        elif amps is not None and abs(amps) > NO_CURRENT_A:
            a, b = (run.a, run.b) if amps > 0 else (run.b, run.a)
            out.setdefault(a, []).append((index, b))
    for name, ends in grid.loads.items():
        amps = live.load_amps.get(name)
        if amps is not None and abs(amps) > NO_CURRENT_A:
            a, b = (ends.a, ends.b) if amps > 0 else (ends.b, ends.a)
            out.setdefault(a, []).append((None, b))
    found: set[int] = set()
    seen, todo = {*starts}, [*starts]
    for at in todo:
        if at == BATTERY_NEGATIVE:
            continue
        for index_of, other in out.get(at, ()):
            found |= {index_of} if index_of is not None else set()
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return found


def _of_run(index: int, forward: bool, amps: float | None, live: SolvedState | None, grid: Grid) -> Iterator[Carrying]:
    """The wires and cables of a run in the direction of its current."""
    run = grid.runs[index]
    at = run.a if forward else run.b
    volts = live.volts.get(at) if live is not None else None
    for branch in run.branches if forward else reversed(run.branches):
        other = branch.b if branch.a == at else branch.a
        if branch.kind in ("stretch", "cable", "body"):
            yield _carrying(branch, at, other, amps, volts, grid)
        lost = None if amps is None or branch.mohm is None else drop_v(branch.mohm, abs(amps))
        volts = None if volts is None or lost is None else volts - lost
        at = other


def _carrying(branch: Branch, start: str, end: str, amps: float | None, volts: float | None, grid: Grid) -> Carrying:
    job, stretch = grid.job, branch.stretch
    point = job.grounds.get(branch.a) if branch.kind == "cable" else None
    size = stretch.size if stretch is not None else point.cable if point is not None else None
    length = point.cable_length.mm if point is not None and point.cable_length is not None else None
    copper = copper_of(stretch, job) if stretch is not None else conductor_of(size, job) if size is not None else None
    rating = planning_rating(copper.area_mm2) if copper is not None else None
    return Carrying(
        branch,
        stretch,
        size,
        stretch.effective_mm if stretch is not None else length,
        grid.inside.get(start, start),
        grid.inside.get(end, end),
        None if amps is None else abs(amps),
        None if amps is None else volts,
        rating.rating_a if rating is not None else None,
    )
