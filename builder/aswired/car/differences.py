"""What differs between two views of a job: wires along their way, splices, studs, fuses, cavities. Plain data.

Nothing here is judged: the same wire with another colour further on is a fact, whether it should be so is a finding.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from aswired.car.harness import FuseState, Joint, NodeKind, Stretch, StudRing, View
from aswired.text.colours import Colour
from aswired.text.units import Size, natural

SAME_MM = 0.05  # lengths nearer than this are one length reached by two sums

Side = TypeVar("Side")


@dataclass(frozen=True)
class WirePart:
    """A stretch of a wire as somebody sees it who follows it: one colour, one size, a length or None."""

    colour: Colour
    size: Size
    length_mm: float | None


@dataclass(frozen=True)
class WireRun:
    """One unbroken way of a wire from node to node. `joints` lie between the parts, in their order.

    `left` says how an end was left that sits in nothing ('capped 30 mm'); '' for an end that sits in something.
    """

    ends: tuple[str, str]
    left: tuple[str, str]
    parts: tuple[WirePart, ...]
    joints: tuple[str, ...]

    @property
    def length_mm(self) -> float | None:
        """Conductor that counts, overlaps once; None when a part is not recorded."""
        known = [part.length_mm for part in self.parts if part.length_mm is not None]
        return sum(known) if len(known) == len(self.parts) else None


_Runs = Mapping[str, tuple[WireRun, ...]]  # wire -> its unbroken ways in one view


@dataclass(frozen=True)
class WireDifference:
    """A wire that is not the same in both views. A side without a run has no such wire.

    `what` names what differs: put in, taken out; or any of: ends, colour, size, length, joints, how an end was left.
    """

    wire: str
    what: tuple[str, ...]
    before: tuple[WireRun, ...]
    after: tuple[WireRun, ...]


@dataclass(frozen=True)
class JointDifference:
    """A splice of one view only, or made otherwise (method, cover, place, wires). None: it is not there."""

    id: str
    before: Joint | None
    after: Joint | None


@dataclass(frozen=True)
class GroundDifference:
    """A ground point with other wires or rings."""

    point: str
    before: tuple[StudRing, ...]
    after: tuple[StudRing, ...]


@dataclass(frozen=True)
class FuseDifference:
    """A fuse of one view only, or with another rating, use, feed or place, or with other wires on its load side."""

    fuse: str
    before: FuseState | None
    after: FuseState | None
    wires_before: tuple[str, ...]
    wires_after: tuple[str, ...]
    unfed_before: str = ""  # what took its feed away, in words
    unfed_after: str = ""


@dataclass(frozen=True)
class CavityDifference:
    """A cavity of a connector or module with other wires in it. Wires by name, in alphabetical order."""

    cavity: str
    before: tuple[str, ...]
    after: tuple[str, ...]


@dataclass(frozen=True)
class Differences:
    """All that differs from the view `before` to the view `after`, by their names. Empty when nothing does."""

    before: str
    after: str
    wires: tuple[WireDifference, ...]
    joints: tuple[JointDifference, ...]
    grounds: tuple[GroundDifference, ...]
    fuses: tuple[FuseDifference, ...]
    cavities: tuple[CavityDifference, ...]

    def __bool__(self) -> bool:
        return bool(self.wires or self.joints or self.grounds or self.fuses or self.cavities)


@dataclass(frozen=True)
class Compared:
    """Views that say the same of the car, under one heading, and every two groups that differ.

    `alike` holds the names of the views, each group in the order given; `pairs` follow that order too.
    """

    alike: tuple[tuple[str, ...], ...]
    pairs: tuple[Differences, ...]


def differences(before: View, after: View) -> Differences:
    """What differs from one view to another of the same job."""
    return _compared(before, after, _all_runs(before), _all_runs(after))


def _compared(before: View, after: View, was: _Runs, now: _Runs) -> Differences:
    return Differences(
        before.name,
        after.name,
        tuple(_wires(was, now)),
        tuple(JointDifference(*found) for found in _unlike(before.joints, after.joints, _joint_facts)),
        tuple(
            GroundDifference(point, was or (), now or ())
            for point, was, now in _unlike(_rings(before), _rings(after), _ring_facts)
        ),
        tuple(_fuses(before, after)),
        tuple(
            CavityDifference(cavity, was or (), now or ())
            for cavity, was, now in _unlike(_cavities(before), _cavities(after), lambda wires: wires)
        ),
    )


def compare_all(views: Iterable[View]) -> Compared:
    """Every two views against each other; those between which nothing differs are put together first."""
    groups: list[list[tuple[View, _Runs]]] = []
    pairs: dict[tuple[int, int], Differences] = {}
    for view in views:
        runs, to_each = _all_runs(view), []
        for group in groups:
            first, its_runs = group[0]
            to_each.append(_compared(first, view, its_runs, runs))
            if not to_each[-1]:
                group.append((view, runs))
                break
        else:
            pairs |= {(index, len(groups)): found for index, found in enumerate(to_each)}
            groups.append([(view, runs)])
    alike = tuple(tuple(view.name for view, _ in group) for group in groups)
    return Compared(alike, tuple(pairs[two] for two in sorted(pairs)))


def _unlike(
    before: Mapping[str, Side], after: Mapping[str, Side], facts: Callable[[Side], object]
) -> Iterable[tuple[str, Side | None, Side | None]]:
    """Names whose facts differ, with both sides; None where a side has no such name. W2 before W10."""
    for name in sorted({*before, *after}, key=natural):
        first, second = before.get(name), after.get(name)
        if (None if first is None else facts(first)) != (None if second is None else facts(second)):
            yield name, first, second


# ---- wires ----------------------------------------------------------------------------------------------------------
def _all_runs(view: View) -> _Runs:
    return {wire: runs_of(view, wire) for wire in view.wires}


def _wires(before: _Runs, after: _Runs) -> Iterable[WireDifference]:
    for wire in sorted({*before, *after}, key=natural):
        was, now = before.get(wire, ()), after.get(wire, ())
        what = tuple(_what(was, now))
        if what:
            yield WireDifference(wire, what, was, now)


def _what(was: tuple[WireRun, ...], now: tuple[WireRun, ...]) -> Iterable[str]:
    if not was or not now:
        if was or now:
            yield "put in" if now else "taken out"
        return
    if [run.ends for run in was] != [run.ends for run in now]:
        yield "ends"
    if _differ(was, now, lambda run: _seen(run, "colour")):
        yield "colour"
    if _differ(was, now, lambda run: _seen(run, "size")):
        yield "size"
    if len(was) != len(now) or not all(_same_mm(a.length_mm, b.length_mm) for a, b in zip(was, now, strict=True)):
        yield "length"
    if _differ(was, now, lambda run: run.joints):
        yield "joints"
    if _differ(was, now, lambda run: tuple(filter(None, run.left)) if len(was) != len(now) else run.left):
        yield "how an end was left"


def _differ(was: tuple[WireRun, ...], now: tuple[WireRun, ...], facts: Callable[[WireRun], tuple[object, ...]]) -> bool:
    """Whether a fact of the runs differs. Of a wire in more parts than before only what a part brings is new."""
    if len(was) == len(now):
        return [facts(run) for run in was] != [facts(run) for run in now]
    return {fact for run in was for fact in facts(run)} != {fact for run in now for fact in facts(run)}


def _seen(run: WireRun, what: str) -> tuple[object, ...]:
    """What a person meets along the way, a repeat told once: a joint of like with like changes no colour."""
    met: list[object] = []
    for part in run.parts:
        now = part.colour.code if what == "colour" else (part.size.text.strip() if part.size.known else None)
        if not met or met[-1] != now:
            met.append(now)
    return tuple(met)


def _same_mm(first: float | None, second: float | None) -> bool:
    if first is None or second is None:
        return first is second
    return abs(first - second) < SAME_MM


def runs_of(view: View, wire: str) -> tuple[WireRun, ...]:
    """The unbroken ways of one wire in a view, each from its donor end where it has one; in order of their ends."""
    stretches = list(view.of_wire(wire))
    at: dict[str, list[Stretch]] = {}
    for stretch in stretches:
        for end in stretch.ends:
            at.setdefault(end, []).append(stretch)
    state = view.wires.get(wire)
    first_choice = state.donor_ends if state is not None else ()
    starts = sorted(at, key=lambda node: (len(at[node]) != 1, node not in first_choice, node))
    left = {id(stretch) for stretch in stretches}
    runs = []
    for start in starts:
        chain = _walk(start, at, left)
        if chain:
            runs.append(_run(view, start, chain))
    return tuple(sorted(runs, key=lambda run: run.ends))


def _walk(start: str, at: Mapping[str, list[Stretch]], left: set[int]) -> list[Stretch]:
    chain: list[Stretch] = []
    node = start
    while True:
        ahead = next((stretch for stretch in at[node] if id(stretch) in left), None)
        if ahead is None:
            return chain
        left.discard(id(ahead))
        chain.append(ahead)
        node = ahead.other(node)


def _run(view: View, start: str, chain: list[Stretch]) -> WireRun:
    nodes = [start]
    for stretch in chain:
        nodes.append(stretch.other(nodes[-1]))
    parts = tuple(WirePart(stretch.colour, stretch.size, stretch.effective_mm) for stretch in chain)
    return WireRun((nodes[0], nodes[-1]), (_left(view, nodes[0]), _left(view, nodes[-1])), parts, tuple(nodes[1:-1]))


def _left(view: View, node: str) -> str:
    found = view.nodes[node]
    if found.kind is not NodeKind.STUB:
        return ""
    return found.fate.text.strip() if found.fate is not None else "not said how"


# ---- what is not a wire ---------------------------------------------------------------------------------------------
def _joint_facts(joint: Joint) -> object:
    method = joint.method.text.strip() if joint.method else ""
    cover = joint.cover.text.strip() if joint.cover else ""
    beside = None if joint.beside_mm is None else round(joint.beside_mm, 1)
    return sorted(joint.wires), method, cover, joint.recorded_place, joint.from_end, beside


def _rings(view: View) -> Mapping[str, tuple[StudRing, ...]]:
    found: dict[str, list[StudRing]] = {}
    for ring in view.rings:
        found.setdefault(ring.ground, []).append(ring)
    return {point: tuple(rings) for point, rings in found.items()}


def _ring_facts(rings: tuple[StudRing, ...]) -> object:
    return sorted((tuple(sorted(ring.wires)), ring.hole, ring.position or 0) for ring in rings)


def _fuses(before: View, after: View) -> Iterable[FuseDifference]:
    for name in sorted({*before.fuses, *after.fuses}, key=natural):
        was, now = before.fuses.get(name), after.fuses.get(name)
        behind, behind_now = _wires_at(before, name), _wires_at(after, name)
        unfed, unfed_now = before.feed_gone(name), after.feed_gone(name)
        if _fuse_facts(was) != _fuse_facts(now) or (behind, unfed) != (behind_now, unfed_now):
            yield FuseDifference(name, was, now, behind, behind_now, unfed, unfed_now)


def _fuse_facts(fuse: FuseState | None) -> object:
    if fuse is None:
        return None
    facts = fuse.facts
    rating = facts.rating.text.strip() if facts.rating else ""
    return rating, facts.in_, facts.fed, facts.feeds, facts.use, fuse.in_wire


def _wires_at(view: View, node: str) -> tuple[str, ...]:
    return tuple(sorted({stretch.wire for stretch in view.at_node.get(node, ())}))


def _cavities(view: View) -> Mapping[str, tuple[str, ...]]:
    """Cavity -> the wires that end in it, or pass it uncut."""
    found: dict[str, set[str]] = {}
    for name, node in view.nodes.items():
        if node.kind in (NodeKind.CAVITY, NodeKind.MODULE) and view.at_node[name]:
            found.setdefault(name, set()).update(stretch.wire for stretch in view.at_node[name])
    for stretch in view.stretches:
        if stretch.via:
            found.setdefault(stretch.via, set()).add(stretch.wire)
    return {name: tuple(sorted(wires)) for name, wires in found.items()}
