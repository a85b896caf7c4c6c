"""Walking a circuit in one view: from a load's two ends to what feeds it and to battery negative (F1, F7, F11, F12).

Which end is fed and which is ground is a result here, never an input. A path is `open` only when everything it could
go on through is recorded as cut, removed or gone; where the record stops, it is `not examined`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from aswired.car.circuits import Circuit, Path, PathStep
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE, Node, NodeKind, Stretch, View
from aswired.record import Job, Load


@dataclass(frozen=True)
class Link:
    """One thing that joins two nodes: a stretch, a closed switch, a fuse with both sides recorded."""

    a: str
    b: str
    kind: str  # stretch, switch, fuse
    name: str
    stretch: Stretch | None = None

    def other(self, node: str) -> str:
        return self.b if self.a == node else self.a


@dataclass(frozen=True)
class Reach:
    """What can be reached from one end without passing a load or a ground point."""

    start: str
    nodes: Mapping[str, tuple[Link, str] | None]  # node -> (link by which it was reached, node it was reached from)
    sources: tuple[str, ...]  # fuses, battery+, declared module outputs; nearest first
    grounds: tuple[str, ...]  # ground points, battery-, declared module grounds; nearest first
    unexamined: tuple[str, ...]  # why the record stops, in words; empty when every way on is known


class Net:
    """The links of one view, ready to be walked."""

    def __init__(self, job: Job, view: View) -> None:
        self.job = job
        self.view = view
        self.links: dict[str, list[Link]] = {name: [] for name in view.nodes}
        own = [end for load in job.loads.values() for end in load.between or ()]
        own += [end for switch in job.switches.values() for end in switch.between or ()]
        self._own = {end.partition(".")[0] for end in own}
        for stretch in view.stretches:
            self._link(Link(stretch.ends[0], stretch.ends[1], "stretch", stretch.name, stretch))
        for name, switch in job.switches.items():
            ends = self.ends_now(switch.between)
            if ends is not None and any(end in view.nodes for end in ends):
                self._link(Link(*ends, "switch", name))
        for name in view.fuses:
            if self._feed_recorded(name):
                self.links.setdefault(name, [])
                self._link(Link(f"{name}.feed", name, "fuse", name))
        self.load_at: dict[str, list[str]] = {}
        for name, load in job.loads.items():
            for end in self.ends_now(load.between) or ():
                self.load_at.setdefault(end, []).append(name)

    def ends_now(self, between: tuple[str, str] | None) -> tuple[str, str] | None:
        """The two ends of a load or switch in this view: what sat behind a connector is behind the one that took its
        place, unless the job declares something behind the new one itself (F23)."""
        return None if between is None else (self._now(between[0]), self._now(between[1]))

    def _now(self, end: str) -> str:
        new = self.view.replaced.get(end, end)
        return end if new.partition(".")[0] in self._own else new

    def _link(self, link: Link) -> None:
        for node in dict.fromkeys((link.a, link.b)):
            self.links.setdefault(node, []).append(link)

    def node(self, name: str) -> Node:
        found = self.view.nodes.get(name)
        if found is not None:
            return found
        kind = NodeKind.FUSE if name in self.view.fuses else NodeKind.CAVITY
        return Node(name, kind)

    def is_source(self, name: str) -> bool:
        part, _, cavity = name.partition(".")
        if name == BATTERY_POSITIVE:
            return True
        if name in self.view.fuses:
            return not self._feed_recorded(name)
        return part in self.job.modules and cavity in self.job.modules[part].out and not self.is_data(name)

    def is_data(self, name: str) -> bool:
        """Whether a module cavity is declared to carry data: a trace ends there, but it feeds nothing (F12)."""
        part, _, cavity = name.partition(".")
        words = self.job.modules[part].out.get(cavity, "") if part in self.job.modules else ""
        return words.casefold().split()[:1] == ["data"]

    def is_ground(self, name: str) -> bool:
        part, _, cavity = name.partition(".")
        if name == BATTERY_NEGATIVE or self.node(name).kind is NodeKind.GROUND:
            return True
        return part in self.job.modules and cavity in self.job.modules[part].ground

    def reach(self, start: str) -> Reach:
        """Breadth first from one node; stops at sources and grounds, never passes through a load."""
        seen: dict[str, tuple[Link, str] | None] = {start: None}
        sources: list[str] = []
        grounds: list[str] = []
        stops: dict[str, None] = {}
        todo = [start]
        for at in todo:
            if self.is_source(at):
                sources.append(at)
                continue
            if self.is_ground(at) and not self._leads_on(at, start):
                grounds.append(at)
                continue
            why = self._record_stops(at, start)
            if why:
                stops.setdefault(why)
            for link in self.links.get(at, ()):
                other = link.other(at)
                if other not in seen:
                    seen[other] = (link, at)
                    todo.append(other)
        return Reach(start, seen, tuple(sources), tuple(grounds), tuple(stops))

    def _leads_on(self, name: str, start: str) -> bool:
        """Whether a wire leads on from a module's ground cavity: then its ground is where that wire ends."""
        return self.node(name).kind is NodeKind.MODULE and len(self.links.get(name, ())) > (name != start)

    def _record_stops(self, name: str, start: str) -> str:
        """Why nothing is known beyond a node, in words; '' when all there is to know is recorded."""
        node = self.node(name)
        part, _, cavity = name.partition(".")
        links = self.links.get(name, [])
        if node.kind is NodeKind.UNKNOWN:
            return f"where {self.view.at_node[name][0].wire} ends is not known"
        if node.kind is NodeKind.SPLICE:
            declared = self.job.splices.get(name)
            if declared is not None and not declared.all_members_known:
                return f"other members of {name} not examined"
            return "" if declared is not None else f"{name} is not declared; its other members are not recorded"
        if node.kind is NodeKind.STUB:
            return (
                "" if node.fate is not None and node.fate.word != "unknown" else f"how {name} was left is not recorded"
            )
        if node.kind is NodeKind.MODULE and self.is_data(name):
            return f"{name} carries data"
        if node.kind is NodeKind.MODULE:
            return f"inside of {part} not recorded" if cavity not in self.job.modules[part].out else ""
        if node.kind in (NodeKind.FUSE, NodeKind.FUSE_FEED):
            return "" if len(links) > 1 else f"what feeds {part} is not recorded"
        if node.kind is NodeKind.CAVITY:
            if name == start:
                return "" if links or self._emptied(name) else f"no wire of the record ends in {name}"
            if len(links) < 2 and name not in self.load_at and not self._emptied(name) and not self._unplugged(name):
                return f"what sits behind {name} is not recorded"
        return ""

    def _emptied(self, name: str) -> bool:
        """Whether rows in force took every recorded wire out of a cavity."""
        return name in self.view.had and not self.view.at_node.get(name)

    def _unplugged(self, name: str) -> bool:
        """Whether a row took out the wire on the other half of an in-line plug (F11)."""
        plug = self.job.plugs.get(name.partition(".")[0])
        return plug is not None and plug.in_line and bool(_removed_at(self, name))

    def _feed_recorded(self, fuse: str) -> bool:
        """Whether wires of the record lead, or led, to a fuse's feed side: then it is live only through them."""
        feed = f"{fuse}.feed"
        return feed in self.view.nodes or self._emptied(feed)

    def way(self, reach: Reach, to: str) -> tuple[tuple[str, Link | None], ...]:
        """Nodes from `to` back to the start of a reach, each with the link that leads on towards the start."""
        found: list[tuple[str, Link | None]] = []
        at = to
        while True:
            step = reach.nodes[at]
            found.append((at, step[0] if step else None))
            if step is None:
                return tuple(found)
            at = step[1]


def circuits(job: Job, view: View) -> dict[str, Circuit]:
    """Every load of the job traced in one view, sharing included."""
    net = Net(job, view)
    found = {name: _circuit(net, name, load) for name, load in job.loads.items()}
    feeds = {name: _things(found[name].feed.steps) for name in job.kept_loads}
    backs = {name: _things(found[name].back.steps) for name in job.kept_loads}
    return {
        name: replace(
            circuit,
            feed_with=_sharing(name, _things(circuit.feed.steps), feeds),
            return_with=_sharing(name, _things(circuit.back.steps), backs),
        )
        for name, circuit in found.items()
    }


def _things(steps: Iterable[PathStep]) -> frozenset[str]:
    """What of a path can be shared: stretches, fuses, switches, cables, grounds, cavities of modules."""
    kinds = ("stretch", "fuse", "switch", "cable", "ground", "module")
    return frozenset(f"{step.kind} {step.name}" for step in steps if step.kind in kinds)


def _sharing(name: str, own: frozenset[str], others: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    return tuple(other for other, things in others.items() if other != name and own & things)


def _circuit(net: Net, name: str, load: Load) -> Circuit:
    first, second = sorted(net.ends_now(load.between) or ("unknown", "unknown"))
    reaches = (net.reach(first), net.reach(second))
    fed, back = _tell_apart(*reaches)
    lost = "" if fed or back else _leads_nowhere(net, reaches)
    feed_path = _feed(net, fed, load) if fed else _untold(load.feed, lost, "which end is fed cannot be told")
    back_path = _back(net, back, load) if back else _untold(load.return_, lost, "which end is ground cannot be told")
    fuses = tuple(step.name for step in feed_path.steps if step.kind == "fuse")
    ground = next((step.name for step in back_path.steps if step.kind == "ground"), "")
    return Circuit(
        name, fed.start if fed else "", back.start if back else "", feed_path, back_path, fuses, ground, (), ()
    )


def _tell_apart(one: Reach, two: Reach) -> tuple[Reach | None, Reach | None]:
    """The fed end and the ground end of a load, from what each of them reaches."""
    for fed, back in ((one, two), (two, one)):
        if fed.sources and not back.sources:
            return fed, back
    for fed, back in ((one, two), (two, one)):
        if back.grounds and not fed.grounds:
            return fed, back
    return None, None


def _leads_nowhere(net: Net, reaches: Iterable[Reach]) -> str:
    """Why a load has neither feed nor return, where rows took what led on from both its ends; else ''."""
    if any(reach.unexamined or reach.sources or reach.grounds for reach in reaches):
        return ""
    why = [_cut_off(net, reach) for reach in reaches]
    return "; ".join(dict.fromkeys(why)) if all(why) else ""


def _untold(looked_at: str, lost: str, why: str) -> Path:
    """A side of a load of which no end is told to be the fed one: open where neither end leads anywhere."""
    return Path((), "open", lost) if lost and looked_at != "not examined" else Path((), "not examined", why)


def _steps(net: Net, way: Iterable[tuple[str, Link | None]]) -> list[PathStep]:
    """Nodes and links of a way as steps, in walking order, the node at the end left out."""
    steps: list[PathStep] = []
    for name, link in way:
        node = net.node(name)
        if link is None:
            break
        if node.kind not in (NodeKind.FUSE, NodeKind.FUSE_FEED):
            kind = "ground" if node.kind is NodeKind.GROUND else "node"
            steps.append(PathStep(kind, name, node))
        if link.kind == "stretch":
            steps.append(PathStep("stretch", link.name, None, link.stretch))
        else:
            steps.append(PathStep(link.kind, link.name))
    return steps


def _feed(net: Net, reach: Reach, load: Load) -> Path:
    end = PathStep("end", reach.start, net.node(reach.start))
    if load.feed == "not examined":
        return Path((end,), "not examined", "said to be not examined")
    if not reach.sources:
        return _unfinished(net, reach, "feed")
    source = reach.sources[0]
    way = net.way(reach, source)
    steps = _steps(net, way)
    if source in net.view.fuses:
        fed = net.view.fuses[source].facts.fed or "unknown"
        steps.insert(0, PathStep("fuse", source, net.node(source)))
        steps.insert(0, PathStep("source", f"feed of {source}: {fed}", fuse=source))
    elif source == BATTERY_POSITIVE:
        steps[:1] = [
            PathStep("source", BATTERY_POSITIVE, net.node(source))
        ]  # no step yet where the load sits on the post itself
    else:
        part, _, cavity = source.partition(".")
        steps[:1] = [PathStep("module", source, net.node(source))]
        steps.insert(0, PathStep("source", net.job.modules[part].out[cavity]))
    also = ", ".join(reach.sources[1:])
    return Path((*steps, end), "complete", f"also fed from {also}" if also else "")


def _back(net: Net, reach: Reach, load: Load) -> Path:
    end = PathStep("end", reach.start, net.node(reach.start))
    if load.return_ == "not examined":
        return Path((end,), "not examined", "said to be not examined")
    if not reach.grounds:
        return _unfinished(net, reach, "return")
    ground = _best_ground(net, reach.grounds)
    way = tuple(reversed(net.way(reach, ground)))
    # the way runs from the load outwards: each node is followed by the link of the node behind it
    steps: list[PathStep] = [end]
    for (name, _), (_, link) in pairwise(way):
        node = net.node(name)
        if name != reach.start:
            steps.append(PathStep("node", name, node))
        if link is not None:
            steps.append(
                PathStep("stretch", link.name, None, link.stretch)
                if link.kind == "stretch"
                else PathStep(link.kind, link.name)
            )
    return _to_battery(net, steps, ground)


def _best_ground(net: Net, grounds: tuple[str, ...]) -> str:
    """The nearest ground that is there, conducts and does not lead back to itself; else the nearest."""
    for name in grounds:
        point = net.job.grounds.get(name)
        if point is None or (not point.gone and point.conducts != "no" and not circle(net.job, name)):
            return name
    return grounds[0]


def _to_battery(net: Net, steps: list[PathStep], ground: str) -> Path:
    """From a ground point by its cable to battery negative."""
    seen: set[str] = set()
    at = ground
    while True:
        node = net.node(at)
        if at == BATTERY_NEGATIVE:
            return Path((*steps, PathStep("source", BATTERY_NEGATIVE, node)), "complete")
        if node.kind is NodeKind.MODULE:
            before = steps if steps[-1].name != at else steps[:-1]
            return Path((*before, PathStep("module", at, node)), "complete", f"ground inside {at.partition('.')[0]}")
        if at in seen:
            return Path(tuple(steps), "not examined", leads_round(circle(net.job, at)))
        if at != ground and leads_to_no_ground(net.job, net.view, at):
            return Path(tuple(steps), "not examined", f"it is said to lead back to {at}, which is no ground point")
        point = net.job.grounds.get(at)
        steps.append(PathStep("ground", at, node))
        if point is None:
            return Path(tuple(steps), "complete", f"the way back from {at} is not recorded")
        if point.gone:
            return Path(tuple(steps), "open", f"ground point {at} is not on this car")
        if point.conducts == "no":
            return Path(tuple(steps), "open", f"{point.bolted_to or at} does not conduct")
        if not point.back_to:
            why = f"the way back from {at} is not recorded"
            return Path(tuple(steps), "not examined" if net.job.body_returns == "no" else "complete", why)
        seen.add(at)
        steps.append(PathStep("cable", f"{at} to {point.back_to}"))
        at = point.back_to


def circle(job: Job, ground: str) -> tuple[str, ...]:
    """The ground points that the way back from a point goes round and round in, as it meets them; () for a way that
    ends: such current never reaches battery negative."""
    met: list[str] = []
    at = ground
    while at in job.grounds and job.grounds[at].back_to:
        if at in met:
            return tuple(met[met.index(at) :])
        met.append(at)
        at = job.grounds[at].back_to
    return ()


def leads_to_no_ground(job: Job, view: View, back_to: str) -> bool:
    """Whether a way back is said to lead to something of the car from which no current goes home as from a stud."""
    node = view.nodes.get(back_to)
    if node is None or back_to == BATTERY_NEGATIVE or back_to in job.grounds:
        return back_to == BATTERY_POSITIVE
    return node.kind not in (NodeKind.GROUND, NodeKind.MODULE)


def leads_round(points: tuple[str, ...]) -> str:
    """In words, what the record says of points whose ways back make a circle."""
    if len(points) == 1:
        return f"{points[0]} is said to lead back to itself"
    return f"{', '.join(points[:-1])} and {points[-1]} are said to lead back only to each other"


def _unfinished(net: Net, reach: Reach, side: str) -> Path:
    """A side that reaches neither source nor ground: open when everything is recorded, else not examined."""
    end = PathStep("end", reach.start, net.node(reach.start))
    if reach.unexamined:
        return Path((end,), "not examined", "; ".join(reach.unexamined[:2]))
    others = reach.grounds if side == "feed" else reach.sources
    if others:
        return Path((end,), "open", f"{reach.start} is joined to {others[0]}")
    return Path((end,), "open", _why_open(net, reach))


def _why_open(net: Net, reach: Reach) -> str:
    return _cut_off(net, reach) or f"nothing leads on from {reach.start}"


def _cut_off(net: Net, reach: Reach) -> str:
    """Which row took out what led on or left it cut, '' for none; the start comes first, then what is nearest."""
    if not net.links.get(reach.start) and (removed := _removed_at(net, reach.start)):
        return removed
    stubs = [name for name in reach.nodes if net.node(name).kind is NodeKind.STUB]
    if stubs:
        return f"it ends at the cut end {stubs[0]}"
    return next(filter(None, (_removed_at(net, name) for name in reach.nodes)), "")


def _removed_at(net: Net, name: str) -> str:
    """The wire that a row took out of a node, in words; '' when none."""
    return net.view.taken_out_of(name)
