"""What an ohmmeter shows of one circuit with the battery off and the fuse out.

Each way is rung through in sections: nothing closes a relay's contact before power. That a whole way reads its own
resistance and 0.2 ohm more at most, and that a feed is above 100 kohm to ground, are common practice, no source. No
ohmmeter goes to a conductor that a restraint or high-voltage wire is a part of.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.special import special_wires
from aswired.figures.probes import NEVER, LoadWays, Span, span_between
from aswired.network.copper import total_mohm
from aswired.network.grid import Branch, Grid
from aswired.network.transfer import FEED, RETURN
from aswired.physics.figure import Figure

ABOVE_OWN_OHM = 0.2
LEAST_TO_GROUND_KOHM = 100
NO_OHMMETER = ("electronics", "sensor", "ignition")  # classes of loads that an ohmmeter may harm, or that mislead it


@dataclass(frozen=True)
class OhmTest:
    """A section of a way, rung through. `close` are the switches in it that are closed by hand, `unplug` what hangs on
    it anywhere and no ohmmeter goes into: modules, and loads that are electronics, sensors or ignition."""

    span: Span
    close: tuple[str, ...]
    unplug: tuple[str, ...]
    own: Figure  # mohm
    most_ohm: float | None  # what the meter may show, its leads taken off


@dataclass(frozen=True)
class ClearTest:
    """A section of a feed against battery negative, with all that hangs on it unplugged."""

    at: str
    close: tuple[str, ...]
    unplug: tuple[str, ...]  # loads


def ohm_tests(load: str, ways: LoadWays, points: frozenset[str], grid: Grid) -> tuple[OhmTest, ...]:
    """Feed from the fuse to the load, then return from the load to battery negative."""
    found: list[OhmTest] = []
    for side, way in ((FEED, _behind_the_fuse(ways.feed)), (RETURN, ways.back)):
        for section in _sections(way, grid):
            able = [node for node, _ in section if node in points]
            close = _closed([branch for _, branch in section if branch is not None], grid)
            if len(able) > 1 and not _meets_never(on := _conductor(able[0], close, grid), grid):
                found.append(_rung(load, span_between(section, side, able[0], able[-1], grid), on, grid))
    return tuple(found)


def clear_tests(
    ways: LoadWays, points: frozenset[str], grid: Grid, circuits: Mapping[str, Circuit]
) -> tuple[ClearTest, ...]:
    """Each section of the feed that has a point for the meter."""
    found: list[ClearTest] = []
    for section in _sections(_behind_the_fuse(ways.feed), grid):
        at = next((node for node, _ in section if node in points), "")
        if at and len(section) > 1:
            close = _closed([branch for _, branch in section if branch is not None], grid)
            on = _conductor(at, close, grid)
            if not _meets_never(on, grid):
                found.append(ClearTest(at, close, _hanging(on, grid, circuits)))
    return tuple(found)


def _behind_the_fuse(way: tuple[tuple[str, Branch | None], ...]) -> tuple[tuple[str, Branch | None], ...]:
    """A feed from the load leg of its last fuse, which is out; all of it where it has none."""
    fuses = [index for index, (_, branch) in enumerate(way) if branch is not None and branch.kind == "fuse"]
    return way[fuses[-1] + 1 :] if fuses else way


def _sections(
    way: tuple[tuple[str, Branch | None], ...], grid: Grid
) -> Iterable[tuple[tuple[str, Branch | None], ...]]:
    """A way between the relay contacts that are open at rest, and before a way back that is not recorded."""
    section: list[tuple[str, Branch | None]] = []
    for node, branch in way:
        if branch is not None and _opens(branch, grid):
            yield (*section, (node, None))
            section = []
        else:
            section.append((node, branch))
    if section:
        yield tuple(section)


def _at_rest_open(branch: Branch, grid: Grid) -> bool:
    return grid.job.switches[branch.name].at_rest == "open"


def _opens(branch: Branch, grid: Grid) -> bool:
    """Whether a branch is a relay's contact that conducts under power only."""
    return branch.kind == "switch" and bool(grid.job.switches[branch.name].worked_by) and _at_rest_open(branch, grid)


def _closed(branches: Iterable[Branch], grid: Grid) -> tuple[str, ...]:
    """Switches among some branches that a hand has to close."""
    return tuple(branch.name for branch in branches if branch.kind == "switch" and _at_rest_open(branch, grid))


def _rung(load: str, span: Span, on: frozenset[str], grid: Grid) -> OhmTest:
    parts = tuple(part for branch in span.branches for part in branch.parts)
    mohm = total_mohm(parts)
    figure = Figure(
        f"{load}.ohms.{span.red}.{span.black}",
        f"resistance from {span.red} to {span.black}, the meter's leads taken off",
        mohm,
        "mohm",
        "in series, along the traced way",
        "R = sum of R; the meter shows less than R + 0.2 ohm",
        tuple(part.as_input() for part in parts),
        tuple(missing for branch in span.branches for missing in branch.unknown),
        "0.2 ohm: common practice, no source. A good reading here proves no joint: one strand that is left reads well.",
    )
    most = None if mohm is None else mohm / 1000 + ABOVE_OWN_OHM
    return OhmTest(span, _closed(span.branches, grid), _delicate(on, grid), figure, most)


def _delicate(on: frozenset[str], grid: Grid) -> tuple[str, ...]:
    """Modules that have a cavity on a conductor, and loads of `NO_OHMMETER` that hang on it in a plug of their own."""
    job = grid.job
    plugs = {node.partition(".")[0] for node in on}
    modules = tuple(name for name in job.modules if name in plugs)
    loads = (
        name
        for name, ends in grid.loads.items()
        if job.loads[name].class_ in NO_OHMMETER
        and {ends.a, ends.b} & on
        and not {ends.a.partition(".")[0], ends.b.partition(".")[0]} & {*modules}
    )
    return (*modules, *loads)


def _conductor(at: str, closed: tuple[str, ...], grid: Grid) -> frozenset[str]:
    """The nodes that are one conductor with a node while every fuse is out; grounds are not passed."""
    seen, todo = {at}, [at]
    for node in todo:
        if grid.net.is_ground(node):
            continue
        for branch in grid.branches:
            if node not in (branch.a, branch.b) or branch.kind == "fuse":
                continue
            if branch.kind == "switch" and branch.name not in closed and _at_rest_open(branch, grid):
                continue
            other = branch.b if branch.a == node else branch.a
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return frozenset(seen)


def _hanging(on: frozenset[str], grid: Grid, circuits: Mapping[str, Circuit]) -> tuple[str, ...]:
    """Loads that hang on a conductor: through them the meter would see ground."""
    return tuple(name for name in circuits if name in grid.loads and {grid.loads[name].a, grid.loads[name].b} & on)


def _meets_never(on: frozenset[str], grid: Grid) -> bool:
    """Whether a restraint or high-voltage wire is a part of a conductor; what only ends on its ground is none."""
    special = special_wires(grid.job)
    at = (node for node in on if not grid.net.is_ground(node))
    return any(special.get(stretch.wire) in NEVER for node in at for stretch in grid.view.at_node.get(node, ()))
