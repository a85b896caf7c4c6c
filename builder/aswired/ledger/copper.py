"""The copper of one view as the ledger sees it: what hangs together, what is a fuse, what feeds, what leads home.

Every switch and relay contact counts as closed, but for changeovers: there each throw is looked at by itself, and what
is worst counts. A ground point ends what hangs together; a load lets nothing through, but passes on that it is live.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE, NodeKind, Stretch, View
from aswired.car.trace import Net
from aswired.ledger.flow import greatest_flow
from aswired.ledger.record import Amperes
from aswired.record import Job
from aswired.text.units import is_named

MOST_CHANGEOVERS = 6  # of one part of the harness; further ones count as closed on both throws, which is the worse


class Piece(NamedTuple):
    """Something that two nodes are joined by. `name` is that of a switch or a device; of copper `place` is that in
    the view's stretches. `least` and `most` are what a device lets through for good [A]; copper has no limit."""

    a: str
    b: str
    kind: str  # stretch, switch, joined, fuse, link, output
    name: str
    place: int | None = None
    least: float = math.inf
    most: float = math.inf

    @property
    def limits(self) -> bool:
        return self.kind in ("fuse", "link", "output")

    def other(self, node: str) -> str:
        return self.b if self.a == node else self.a


@dataclass(frozen=True)
class Consumer:
    """A load between the end that is fed and the end that leads home. `reverses`: a motor that changeovers turn round,
    so that either end leads home."""

    name: str
    feed: str
    back: str
    reverses: bool = False

    @property
    def backs(self) -> tuple[str, ...]:
        """The ends by which its current may come home."""
        return (self.back, self.feed) if self.reverses else (self.back,)


class Copper:
    """The pieces of one view. `ratings`: fusible link, by index of its stretch -> what it lets through for good [A],
    None where its size is not known. `outputs`: module cavity -> what its module lets
    out of it, at least and at most [A]. `returns`: ends of loads that lead home."""

    def __init__(
        self,
        job: Job,
        view: View,
        net: Net,
        ratings: Mapping[int, float | None],
        outputs: Mapping[str, tuple[float, float]],
        returns: Collection[str],
    ) -> None:
        self.job, self.view, self.net = job, view, net
        self.hot: set[str] = {name for name in view.nodes if name == BATTERY_POSITIVE}
        self.hot |= {source.plus for source in job.sources.values() if is_named(source.plus)}
        pieces: list[Piece] = []
        for index, stretch in enumerate(view.stretches):
            pieces.append(_of_stretch(index, stretch, ratings))
        seen: set[str] = set()
        for link in itertools.chain.from_iterable(net.links.values()):
            if link.kind == "switch" and link.name not in seen:
                seen.add(link.name)
                pieces.append(Piece(link.a, link.b, "switch", link.name))
        for name in dict.fromkeys((*view.fuses, *(n.name for n in view.nodes.values() if n.kind is NodeKind.FUSE))):
            pieces += self._fuse(name)
        for cavity, amps in outputs.items():
            self.hot.add(_inside(cavity))
            pieces.append(Piece(_inside(cavity), cavity, "output", cavity, None, *amps))
        pieces += _grounds_of_modules(job, returns)
        self.pieces = tuple(pieces)
        self.home = {name for name in self._nodes() if self._leads_home(name)}
        self.at: dict[str, list[Piece]] = {}
        for piece in pieces:
            self._put(piece)
        live = self._said_to_be_live()
        if live:  # each hangs on what is not on record, and on nothing that is
            self.pieces = (*(p for p in self.pieces if p.kind != "fuse" or p.name not in live), *live.values())
            self.hot |= {piece.a for piece in live.values()}
            self.at = {}
            for piece in self.pieces:
                self._put(piece)
        self._reached: dict[tuple[object, ...], Mapping[str, Piece | None]] = {}

    def _put(self, piece: Piece) -> None:
        for node in dict.fromkeys((piece.a, piece.b)):
            self.at.setdefault(node, []).append(piece)

    def _said_to_be_live(self) -> dict[str, Piece]:
        """Fuses that are said to be live, and to which nothing on record brings it: they are live all the same."""
        fed = self._spread(sorted(self.hot))
        found = {}
        for name, fuse in self.view.fuses.items():
            if fuse.facts.fed in ("always", "ignition", "accessory") and f"{name}.feed" not in fed:
                rating = fuse.facts.rating.value if fuse.facts.rating is not None else None
                found[name] = Piece(f"{name}.feed, live", name, "fuse", name, None, *band(rating))
        return found

    def _fuse(self, name: str) -> Iterator[Piece]:
        facts = self.view.fuses[name].facts if name in self.view.fuses else None
        rating = facts.rating.value if facts is not None and facts.rating is not None else None
        yield Piece(f"{name}.feed", name, "fuse", name, None, *band(rating))
        if not self.net.is_source(name):
            return
        if facts is not None and facts.fed_from and is_named(facts.fed_from):
            yield Piece(f"{name}.feed", facts.fed_from, "joined", name)
            if not self._leads_on(facts.fed_from):
                self.hot.add(facts.fed_from)  # a point to which nothing of the record leads counts as the battery
        else:
            self.hot.add(f"{name}.feed")

    def _leads_on(self, name: str) -> bool:
        """Whether something of the record leads to a point: a wire, a switch, a fuse, the inside of a module."""
        known = (self.view.fuses, self.job.grounds)
        links = bool(self.view.at_node.get(name) or self.net.links.get(name))
        return links or any(name in named for named in known) or name.partition(".")[0] in self.job.modules

    def _nodes(self) -> Iterable[str]:
        return dict.fromkeys(itertools.chain.from_iterable((piece.a, piece.b) for piece in self.pieces))

    def _leads_home(self, name: str) -> bool:
        if name in self.job.grounds or name == BATTERY_NEGATIVE:
            return True
        return any(source.minus == name for source in self.job.sources.values())

    # ---- what hangs together ----------------------------------------------------------------------------------------
    def reach(
        self,
        start: str,
        without: int | None = None,
        devices: bool = False,
        open_: Collection[str] = (),
        from_source: bool = False,
    ) -> Mapping[str, Piece | None]:
        """Every node that hangs together with one, and the piece by which it was reached, nearest first.

        `without` leaves out a stretch; `devices` goes on through fuses; `open_` are switches that stand open. Nothing
        is reached past a ground point or a source, but for the source where `from_source` begins. Many lines ask the
        same of the same node, so each answer is kept.
        """
        asked = (start, without, devices, frozenset(open_), from_source)
        found = self._reached.get(asked)
        if found is None:
            found = self._reached[asked] = self._reach(start, without, devices, open_, from_source)
        return found

    def _reach(
        self, start: str, without: int | None, devices: bool, open_: Collection[str], from_source: bool
    ) -> Mapping[str, Piece | None]:
        seen: dict[str, Piece | None] = {start: None}
        todo = [start]
        for at in todo:
            if at in self.home or (at in self.hot and not (from_source and at == start)):
                continue
            for piece in self.at.get(at, ()):
                if piece.limits and not devices:
                    continue
                if (piece.place is not None and piece.place == without) or piece.name in open_:
                    continue
                other = piece.other(at)
                if other not in seen:
                    seen[other] = piece
                    todo.append(other)
        return seen

    def way(self, reached: Mapping[str, Piece | None], to: str) -> tuple[Piece, ...]:
        """The pieces from a node back to where a reach began."""
        found: list[Piece] = []
        at = to
        while (piece := reached[at]) is not None:
            found.append(piece)
            at = piece.other(at)
        return tuple(found)

    @cached_property
    def parts(self) -> Mapping[str, int]:
        """Node -> the part of the harness that it is in: what hangs together by copper and fuses, sources and ground
        points not passed. Those are in none."""
        found: dict[str, int] = {}
        for number, node in enumerate(self._nodes()):
            if node in found or node in self.home or node in self.hot:
                continue
            found.update(
                (name, number)
                for name in self.reach(node, devices=True)
                if name not in self.home and name not in self.hot
            )
        return found

    @cached_property
    def _of_part(self) -> Mapping[int | None, tuple[Piece, ...]]:
        found: dict[int | None, list[Piece]] = {}
        for piece in self.pieces:
            found.setdefault(self._part(piece), []).append(piece)
        return {part: tuple(pieces) for part, pieces in found.items()}

    def _part(self, piece: Piece) -> int | None:
        return self.parts.get(piece.a, self.parts.get(piece.b))

    def settings(self, part: int | None) -> tuple[frozenset[str], ...]:
        """For each setting of the changeovers of a part the switches that stand open in it."""
        own = {piece.name for piece in self._of_part.get(part, ()) if piece.kind == "switch"}
        throws = [pair for pair in self.changeovers if pair[0] & own and pair[1] & own][:MOST_CHANGEOVERS]
        return tuple(frozenset().union(*chosen) for chosen in itertools.product(*throws))

    @cached_property
    def changeovers(self) -> tuple[tuple[frozenset[str], frozenset[str]], ...]:
        """Switches of which one throw is closed and the other open, never both: those that rest closed, those that rest
        open. Contacts of one coil, or two switches on one pole of
        one part: two switches that meet somewhere else may both be closed."""
        switches = {name: self.job.switches[name] for piece in self.pieces if (name := piece.name) in self.job.switches}
        found = []
        for coil in dict.fromkeys(switch.worked_by for switch in switches.values() if switch.worked_by):
            own = {name: switch for name, switch in switches.items() if switch.worked_by == coil}
            rest = frozenset(name for name, switch in own.items() if switch.at_rest == "closed")
            if rest and rest != own.keys():
                found.append((rest, frozenset(own) - rest))
        ends = {piece.name: {piece.a, piece.b} for piece in self.pieces if piece.kind == "switch"}
        by_hand = [name for name, switch in switches.items() if not switch.worked_by]
        for one, two in itertools.combinations(by_hand, 2):
            in_one_part = len({end.partition(".")[0] for end in ends[one] | ends[two]}) == 1
            if in_one_part and ends[one] & ends[two] and switches[one].at_rest != switches[two].at_rest:
                rests = one if switches[one].at_rest == "closed" else two
                found.append((frozenset({rests}), frozenset({one, two} - {rests})))
        return tuple(found)

    # ---- what may come ----------------------------------------------------------------------------------------------
    def push(self, node: str, without: int | None = None) -> Amperes:
        """What fuses let through to a node for good, the worst setting of changeovers counting. [A]"""
        part = self.parts.get(node)
        if node in self.hot:
            return Amperes(math.inf, math.inf)
        if node in self.home or not self.hot.intersection(self.reach(node, without, devices=True)):
            return Amperes()
        pieces = [piece for piece in self._of_part.get(part, ()) if piece.place is None or piece.place != without]
        found = [self._flow(pieces, node, open_) for open_ in self.settings(part)]
        least = max(found, key=lambda flow: flow.least)
        return Amperes(least.least, max(flow.most for flow in found), least.by or max(found, key=_most).by)

    def _flow(self, pieces: Iterable[Piece], node: str, open_: frozenset[str]) -> Amperes:
        shut = [piece for piece in pieces if piece.name not in open_ or piece.kind != "switch"]
        least = greatest_flow([(*self._ends(piece), piece.least) for piece in shut], self._sources(shut), [node])
        by = tuple(shut[index].name for index in least.through)
        if all(piece.least == piece.most for piece in shut):
            return Amperes(least.amps, least.amps, by)
        most = greatest_flow([(*self._ends(piece), piece.most) for piece in shut], self._sources(shut), [node])
        return Amperes(least.amps, most.amps, by or tuple(shut[index].name for index in most.through))

    def _sources(self, pieces: Iterable[Piece]) -> list[str]:
        return sorted({end for piece in pieces for end in (piece.a, piece.b) if end in self.hot})

    def _ends(self, piece: Piece) -> tuple[str, str]:
        """The ends of a piece; a ground point is another one for each, so that nothing flows on through it."""
        a, b = (f"{end} {id(piece)}" if end in self.home else end for end in (piece.a, piece.b))
        return a, b

    def unread(self, node: str) -> tuple[Piece, ...]:
        """Fuses, links and outputs of the part of a node of which it is not recorded what they let through."""
        pieces = self._of_part.get(self.parts.get(node), ())
        return tuple(piece for piece in pieces if piece.limits and piece.least != piece.most)

    def feeders(self, node: str) -> tuple[str, ...]:
        """The fuses, links and outputs nearest to a node through which it is fed, and the sources that no fuse stands
        before; none where it is live through a load alone."""
        side = self.reach(node)
        found = {name: None for name in side if name in self.hot}
        for piece in dict.fromkeys(piece for name in side for piece in self.at.get(name, ()) if piece.limits):
            far = piece.a if piece.b in side else piece.b
            own = piece.kind != "fuse" or far != piece.name  # behind its load side a fuse feeds nothing back
            if far not in side and own and self.hot.intersection(self.reach(far, piece.place, devices=True)):
                found[piece.name] = None
        return tuple(found)

    # ---- what is live -----------------------------------------------------------------------------------------------
    @cached_property
    def fed(self) -> frozenset[str]:
        """Nodes that a source reaches through copper, fuses and closed switches."""
        return frozenset(self._spread(sorted(self.hot)))

    def _spread(self, starts: Iterable[str]) -> dict[str, None]:
        seen = dict.fromkeys(starts)
        todo = list(seen)
        for at in todo:
            if at in self.home:
                continue
            for piece in self.at.get(at, ()):
                other = piece.other(at)
                if other not in seen:
                    seen[other] = None
                    todo.append(other)
        return seen

    @cached_property
    def live(self) -> frozenset[str]:
        """Nodes that are fed, or live through a load whose other side leads to no ground point; deleted loads too."""
        live = set(self.fed)
        ends = [pair for load in self.job.loads.values() if (pair := self.net.ends_now(load.between)) is not None]
        changed = True
        while changed:
            changed = False
            for one, other in itertools.chain(ends, ((b, a) for a, b in ends)):
                if one in live and one not in self.home and other not in live:
                    side = self._spread([other])
                    if not self.home.intersection(side):
                        live.update(side)
                        changed = True
        return frozenset(live)


def _grounds_of_modules(job: Job, returns: Collection[str]) -> Iterator[Piece]:
    """What is joined inside modules: their ground cavities, those that sensors return to, and those into which a load
    comes home, so that its current goes on by the module's own ground wires."""
    for name, module in job.modules.items():
        own = {f"{name}.{cavity}" for cavity in (*module.ground, *module.reference)}
        own |= {end for end in returns if end.partition(".")[0] == name}
        for cavity in sorted(own):
            yield Piece(cavity, f"{name}, ground inside", "joined", name)


def _most(flow: Amperes) -> float:
    return flow.most


def band(amps: float | None) -> tuple[float, float]:
    """What a device lets through at least and at most: one that was not read may let through anything."""
    return (0.0, math.inf) if amps is None else (amps, amps)


def _of_stretch(index: int, stretch: Stretch, ratings: Mapping[int, float | None]) -> Piece:
    if index in ratings:
        return Piece(*stretch.ends, "link", stretch.wire, index, *band(ratings[index]))
    return Piece(*stretch.ends, "stretch", stretch.wire, index)


def _inside(cavity: str) -> str:
    """What stands behind an output, inside its module."""
    return f"{cavity}, inside"
