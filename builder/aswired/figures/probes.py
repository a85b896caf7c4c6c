"""Where a meter may be put along a circuit without piercing a wire, and what lies between two such points.

Fuse legs, relay sockets, backs of connectors, switch terminals, ground points and battery posts; never a splice, a cut
end, an end that is not known, or a connector that holds a restraint or high-voltage wire.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE, NodeKind, View
from aswired.car.special import special_wires
from aswired.figures.drops_along import branches_of
from aswired.network.grid import INSIDE_THE_WRAP, Branch, Grid
from aswired.network.transfer import FEED
from aswired.record import Job

NEVER = ("restraint", "high voltage")  # no meter, no lamp, no step of these pages
POSTS = (BATTERY_POSITIVE, BATTERY_NEGATIVE)


@dataclass(frozen=True)
class Suspect:
    """One thing that can be poor or open between two points. `what` is wire, splice, factory splice, contact, ring,
    fuse, switch, relay contact, cable or body."""

    name: str
    what: str


@dataclass(frozen=True)
class Span:
    """Two neighbouring points on one side of a load, in the direction of its current, and what lies between them."""

    side: str
    red: str
    black: str
    branches: tuple[Branch, ...]
    suspects: tuple[Suspect, ...]


@dataclass(frozen=True)
class LoadWays:
    """A load's feed and return as nodes in the direction of the current, with the branch that leads on from each."""

    feed: tuple[tuple[str, Branch | None], ...]
    back: tuple[tuple[str, Branch | None], ...]


def ways_of(circuit: Circuit, grid: Grid) -> LoadWays:
    """The nodes of each complete side; () for a side that is not complete."""
    feed: list[tuple[str, Branch | None]] = []
    if circuit.feed.state == "complete":
        node = circuit.feed_end
        feed = [(node, None)]
        for branch in reversed(branches_of(circuit.feed, grid)):
            node = _other(branch, node)
            feed.insert(0, (node, branch))
    back: list[tuple[str, Branch | None]] = []
    if circuit.back.state == "complete":
        node = circuit.return_end
        for branch in branches_of(circuit.back, grid):
            back.append((node, branch))
            node = _other(branch, node)
        onward = grid.by_key.get(f"body {node}")  # the last cable of a way that the record does not finish
        back += [(node, onward), (BATTERY_NEGATIVE, None)] if onward is not None else [(node, None)]
    return LoadWays(tuple(feed), tuple(back))


def _other(branch: Branch, node: str) -> str:
    return branch.b if branch.a == node else branch.a


def reachable(grid: Grid) -> frozenset[str]:
    """The nodes of a network that a meter's tip may come to."""
    barred = _barred_plugs(grid)
    return frozenset(
        node
        for node in grid.nodes
        if node not in grid.inside and _reachable(node, grid) and node.partition(".")[0] not in barred
    )


def _barred_plugs(grid: Grid) -> frozenset[str]:
    special = special_wires(grid.job)
    ends = (end for s in grid.view.stretches if special.get(s.wire) in NEVER for end in (*s.ends, s.via))
    return frozenset(end.partition(".")[0] for end in ends if end)


def _reachable(name: str, grid: Grid) -> bool:
    job, node = grid.job, grid.view.nodes.get(name)
    if node is not None and node.kind in INSIDE_THE_WRAP:
        return False
    if name in job.grounds:
        return job.grounds[name].reachable and not job.grounds[name].gone
    plug = job.plugs.get(name.partition(".")[0])
    return plug is None or (plug.reachable and not plug.gone)


def kind_of_point(name: str, job: Job, view: View) -> str:
    """What a reachable node is, in words."""
    part = name.partition(".")[0]
    if name in POSTS:
        return "battery post"
    if part in view.fuses:
        return "feed leg of the fuse" if name.endswith(".feed") else "load leg of the fuse"
    node = view.nodes.get(name)
    if name in job.grounds or (node is not None and node.kind is NodeKind.GROUND):
        return "ground point"
    if part in job.modules:
        return "module, back of its connector"
    return _kind_of_plug(part, job)


def _kind_of_plug(plug: str, job: Job) -> str:
    for switch in job.switches.values():
        if any(end.partition(".")[0] == plug for end in switch.between or ()):
            return "relay socket" if switch.worked_by else "switch"
    return "back of the connector"


def barred(load: str, circuit: Circuit, grid: Grid) -> str:
    """'restraint' or 'high voltage' for a load on such a wire, else ''."""
    special = special_wires(grid.job)
    wires = [stretch.wire for path in (circuit.feed, circuit.back) for stretch in path.stretches]
    ends = grid.net.ends_now(grid.job.loads[load].between) or ()
    plugs = {end.partition(".")[0] for end in ends}
    wires += [s.wire for s in grid.view.stretches if any(end.partition(".")[0] in plugs for end in (*s.ends, s.via))]
    return next((special[wire] for wire in wires if special.get(wire) in NEVER), "")


def spans(
    way: tuple[tuple[str, Branch | None], ...], side: str, points: frozenset[str], grid: Grid
) -> tuple[Span, ...]:
    """The stretches of a way from each reachable point to the next."""
    found: list[Span] = []
    since: list[tuple[str, Branch]] = []
    start = ""
    for node, branch in way:
        if node in points:
            if start and since:
                found.append(_span(side, start, node, since, grid))
            start, since = node, []
        if branch is not None:
            since.append((node, branch))
    return tuple(found)


def span_between(way: tuple[tuple[str, Branch | None], ...], side: str, red: str, black: str, grid: Grid) -> Span:
    """The part of a way from one of its nodes to a later one."""
    nodes = [node for node, _ in way]
    part = [(n, b) for n, b in way[nodes.index(red) : nodes.index(black)] if b is not None]
    return _span(side, red, black, part, grid)


def _span(side: str, red: str, black: str, part: list[tuple[str, Branch]], grid: Grid) -> Span:
    suspects = dict.fromkeys(s for node, branch in part for s in _suspects(node, branch, grid))
    return Span(side, red, black, tuple(branch for _, branch in part), tuple(suspects))


def _suspects(entered: str, branch: Branch, grid: Grid) -> Iterable[Suspect]:
    """What can be poor in a branch, in the order in which the current meets it."""
    if branch.kind == "switch":
        yield Suspect(branch.name, "relay contact" if grid.job.switches[branch.name].worked_by else "switch")
    elif branch.kind == "stretch":
        at = [part.at for part in branch.parts if part.at]
        left = branch.b if branch.a == entered else branch.a
        yield from (_join(node, grid) for node in at if node == entered)
        yield Suspect(branch.name.partition(" from ")[0], "wire")
        yield from (_join(node, grid) for node in at if node not in (entered, left))  # plugs that it only passes
        yield from (_join(node, grid) for node in at if node == left)
    elif branch.kind == "pair":
        yield _join(branch.name, grid)
    else:
        yield Suspect(branch.name, branch.kind)


def _join(name: str, grid: Grid) -> Suspect:
    node = grid.view.nodes.get(name)
    kind = node.kind if node is not None else NodeKind.CAVITY  # of a connector that a wire only passes
    words = {NodeKind.JOINT: "splice", NodeKind.SPLICE: "factory splice", NodeKind.GROUND: "ring"}
    return Suspect(name, words.get(kind, "contact"))


def half_way(ways: LoadWays, points: frozenset[str], grid: Grid) -> str:
    """The reachable point that best halves what can be open between source and battery negative; '' for none."""
    suspects: list[Suspect] = []
    before: dict[str, int] = {}
    for node, branch in (*ways.feed, *ways.back):
        before[node] = len(dict.fromkeys(suspects))
        suspects += _suspects(node, branch, grid) if branch is not None else ()
    total = len(dict.fromkeys(suspects))
    able = [node for node in before if node in points and 0 < before[node] < total and node != BATTERY_NEGATIVE]
    return min(able, key=lambda node: abs(2 * before[node] - total), default="")


def side_of(node: str, ways: LoadWays) -> str:
    """feed or return, for a node of one of the two."""
    return FEED if any(node == other for other, _ in ways.feed) else "return"
