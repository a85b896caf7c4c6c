"""What each line may have to carry: through its fuses, with one load shorted, by what its loads take."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from aswired.car.circuits import Circuit
from aswired.car.harness import NodeKind, View
from aswired.ledger.copper import Consumer, Copper, Piece
from aswired.ledger.ends import Ends
from aswired.ledger.flow import greatest_flow
from aswired.ledger.ratings import Carries
from aswired.ledger.record import BODY, Amperes, Reason, Weight, Why
from aswired.network.transfer import UnitSolutions, most_together
from aswired.physics.carrying import short_time_a
from aswired.record import Job
from aswired.text.diagnostics import Location

HAIR = 1e-9  # amperes and millimetres that are equal but for rounding
STARTER_S = 30.0  # how long a starter is worked at the most; common practice, no source
LEAST_STARTER_A = 50.0  # a motor that takes less is fused like any other; common practice, no source
MOST_UNFUSED_MM = 1000.0  # no shop and no job allows more with nothing before it; 33 CFR 183.455: 40 in (read)
MAIN_FEED_MM2 = 6.0  # from this copper on an unfused main feed may be let stand


@dataclass(frozen=True)
class Side:
    """What is reached from one end of a line, the line itself left out."""

    nodes: Mapping[str, Piece | None]
    home: bool  # a ground point is among it


class Reached(NamedTuple):
    """How far unfused copper lies from its source, or from the bus bar that counts as one: what is recorded [mm], and
    the wires on that way whose length is not."""

    mm: float
    source: str
    unknown: tuple[str, ...]


class Lines:
    """The flows of one view."""

    def __init__(self, copper: Copper, circuits: Mapping[str, Circuit], transfer: UnitSolutions, ends: Ends) -> None:
        self.copper, self.circuits, self.transfer, self.ends = copper, circuits, transfer, ends
        self.job: Job = copper.job
        self.view: View = copper.view
        self._pushes: dict[str, Amperes] = {}

    @cached_property
    def consumers(self) -> Mapping[str, Consumer]:
        """The loads that are in the car, or may be: those whose fed end and return end the trace tells."""
        found = {}
        for name in self.job.kept_loads:
            circuit = self.circuits[name]
            ends = self.copper.net.ends_now(self.job.loads[name].between) or ("", "")
            other = {ends[0]: ends[1], ends[1]: ends[0]}
            back = circuit.return_end or other.get(circuit.feed_end, "") or self._always_home(ends)
            if back:
                found[name] = Consumer(name, circuit.feed_end or other.get(back, ""), back)
            elif all(self._at_times(end) for end in ends):
                found[name] = Consumer(name, *ends, reverses=True)
        return found

    def _always_home(self, ends: tuple[str, str]) -> str:
        """Of a load with a changeover at one end, as a wiper's, the end that leads home in every setting; '' where that
        is both or neither."""
        home = [end for end in ends if all(self._home_in_each_setting(end))]
        return home[0] if len(home) == 1 else ""

    def _home_in_each_setting(self, end: str) -> list[bool]:
        settings = self.copper.settings(self.copper.parts.get(end))
        return [bool(self.copper.home.intersection(self.copper.reach(end, None, True, open_))) for open_ in settings]

    def _at_times(self, end: str) -> bool:
        """Whether an end is fed in some setting and leads home in another."""
        home = self._home_in_each_setting(end)
        return any(home) and not all(home) and end in self.copper.fed

    @cached_property
    def stated(self) -> Mapping[str, float | None]:
        """Kept load -> its recorded current [A]; None where it is not recorded: nought is what no load takes."""
        return {name: amps or None for name, amps in self.transfer.stated.items()}

    def _is_starter(self, name: str) -> bool:
        """Whether a load may hang on a cable that no fuse stands before, as a starter does: on for moments, and of a
        current that only a starter takes."""
        load = self.job.loads[name]
        amps = self.stated.get(name)
        return load.class_ == "starter" and load.duty != "continuous" and (amps is None or amps >= LEAST_STARTER_A)

    # ---- through its fuses ------------------------------------------------------------------------------------------
    def push(self, piece: Piece) -> Amperes:
        """What the fuses before a line let through, from whichever end more comes. [A]"""
        found = [self.copper.push(end, piece.place) for end in (piece.a, piece.b)]
        return max(found, key=lambda amps: (amps.least, amps.most))

    def feed(self, piece: Piece, may: Carries, push: Amperes) -> Iterator[Reason]:
        """What speaks against a line that fuses stand before, or is missing."""
        if may.planned is None:
            return
        if push.least > may.planned + HAIR:
            of = push.by[0] if push.by else piece.name
            weight = weight_of(push.least, may)
            yield Reason(Why.FEED, weight, of, self._at_device(of), "rating", push.least, may.planned, by=push.by)
        elif push.most > may.planned + HAIR:
            nodes = [node for end in (piece.a, piece.b) for node in self.copper.reach(end, piece.place, devices=True)]
            loads = [c.name for c in self.consumers.values() if c.feed in nodes]
            yield from self.asked(loads, may, "", piece.name)[1]
            yield from self._unread(piece)

    def _unread(self, piece: Piece) -> Iterator[Reason]:
        for end in (piece.a, piece.b):
            for device in self.copper.unread(end):
                yield self.not_read(device)

    def not_read(self, device: Piece) -> Reason:
        """That what a fuse, a link or an output lets through is not recorded."""
        if device.kind == "output":
            module = self.job.modules[device.name.partition(".")[0]]
            return Reason(Why.OUTPUT, Weight.MISSING, device.name, module.line_of("guarded"), "guarded")
        if device.kind == "link":
            return Reason(Why.SIZE, Weight.MISSING, device.name, self._at_device(device.name), "size")
        return Reason(Why.RATING, Weight.MISSING, device.name, self._at_device(device.name), "rating")

    def _at_device(self, name: str) -> Location:
        fuse = self.view.fuses.get(name)
        if fuse is not None:
            return fuse.facts.line_of("rating") if fuse.declared else self.job.line_of_row((fuse.rows or ("",))[0])
        wire, module = self.job.wires.get(name), self.job.modules.get(name.partition(".")[0])
        if wire is not None:
            return wire.line_of("size") if wire.special == "fusible link" else wire.at
        if module is not None:
            return module.line_of("guarded")
        added = self.view.wires[name].added_by if name in self.view.wires else ""
        return self.job.line_of_row(added)

    def _at_conductor(self, name: str) -> Location:
        """Where the size of a wire, of a ground point's cable or of the body's strap is written."""
        if name in self.job.wires:
            return self.job.wires[name].line_of("size")
        if name in self.job.grounds:
            return self.job.grounds[name].line_of("cable")
        strap = self.job.body_strap
        return strap.line_of("cable") if name == BODY and strap is not None else self._at_device(name)

    def _at_fuse(self, name: str) -> Location:
        """Where a fuse is listed; a wire's own line else."""
        fuse = self.view.fuses.get(name)
        return fuse.facts.at if fuse is not None and fuse.declared else self._at_device(name)

    # ---- nothing before it ------------------------------------------------------------------------------------------
    def unfused(self, piece: Piece, may: Carries) -> Iterator[Reason]:
        """What speaks against a line that copper alone joins to a source, or is missing."""
        far = self.far(piece)
        loads = [c.name for c in self.consumers.values() if c.feed in far]
        starters = [name for name in loads if self._is_starter(name)]
        for name in (name for name in loads if name not in starters):
            if name in self.job.loads_for_certain:
                by = self.copper.feeders(self.consumers[name].feed)
                yield Reason(Why.UNFUSED_LOAD, Weight.NEVER, name, self.job.loads[name].at, "fuses", by=by)
        if starters:
            yield from self._of_starters(starters, may)
            return
        devices = [device for node in far for device in self.copper.at.get(node, ()) if device.limits]
        behind = {device.name: device for device in devices if not (device.a in far and device.b in far)}
        if not behind and not loads:
            if any(self.ends.is_open(node) for node in far):
                # whatever hangs on its open end: only a starter's cable may be so long, and it is thicker
                if may.area is not None and short_time_a(may.area, STARTER_S) < LEAST_STARTER_A:
                    yield from self._too_long(piece, may, ())
            else:
                kinds = {node: self.view.nodes[node].kind for node in far if node in self.view.nodes}
                stub = next((node for node, kind in kinds.items() if kind is NodeKind.STUB), "")
                at = self.ends.told_at(stub) if stub else self._at_device(piece.name)
                by = tuple(dict.fromkeys((*self.copper.feeders(piece.a), *self.copper.feeders(piece.b))))
                yield Reason(Why.UNFUSED_NOWHERE, Weight.NEVER, stub or piece.name, at, "fuses", by=by)
            return
        too_large = list(self._behind(piece, far, behind.values(), may))
        yield from too_large or self._taken(piece, far, may)
        yield from self._too_long(piece, may, tuple(behind))

    def taken_through(self, piece: Piece, may: Carries) -> list[Reason]:
        """What loads take through a line on their feed, against what it bears."""
        sides = [self.copper.reach(end, piece.place, devices=True) for end in (piece.a, piece.b)]
        away = [side for side in sides if not self.copper.hot.intersection(side)]
        loads = [c.name for c in self.consumers.values() if any(c.feed in side for side in away)]
        return self.asked(loads, may, "", piece.name)[1]

    def far(self, piece: Piece) -> dict[str, None]:
        """The nodes on the side of an unfused line that lies away from the source; of a ring all of it."""
        sides = [self.copper.reach(end, piece.place) for end in (piece.a, piece.b)]
        away = [side for side in sides if not self.copper.hot.intersection(side)]
        return dict.fromkeys(
            node
            for side in away or sides
            for node in side
            if node not in self.copper.hot and node not in self.copper.home
        )

    def _of_starters(self, starters: list[str], may: Carries) -> Iterator[Reason]:
        drawn = [self.stated.get(name) for name in starters]
        for name, amps in zip(starters, drawn, strict=True):
            if amps is None:
                load = self.job.loads[name]
                yield Reason(Why.CURRENT, Weight.MISSING, name, load.line_of("draws"), "draws")
        on = most_together(starters, {name: self.stated.get(name) or 0.0 for name in starters}, self.transfer.apart)
        taken = sum(self.stated.get(name) or 0.0 for name in on)
        seconds = max(self._seconds(name) or STARTER_S for name in starters)
        if may.area is not None and taken > short_time_a(may.area, seconds) + HAIR:
            at = self.job.loads[starters[0]].line_of("draws")
            most = short_time_a(may.area, seconds)
            yield Reason(Why.STARTER, Weight.NEVER, starters[0], at, "size", taken, most)

    def _behind(self, piece: Piece, far: Iterable[str], devices: Iterable[Piece], may: Carries) -> Iterator[Reason]:
        """The fuses behind an unfused line may let no more through together, to any one point, than the line bears."""
        if may.planned is None:
            return
        for device in devices:
            if device.least != device.most and device.kind != "output":
                yield self.not_read(device)
        beyond = {node for start in far for node in self.copper.reach(start, piece.place, devices=True)}
        pieces = [p for node in beyond for p in self.copper.at.get(node, ()) if p.a in beyond and p.b in beyond]
        links = tuple(dict.fromkeys(pieces))
        sources = sorted(node for node in far if node not in self.copper.home)
        ends = sorted({end for p in links if p.limits for end in (p.a, p.b)} - set(sources))
        for end in ends:
            flow = greatest_flow([(p.a, p.b, p.least) for p in links], sources, [end])
            if may.planned + HAIR < flow.amps < math.inf:
                by = tuple(links[index].name for index in flow.through)
                weight = weight_of(flow.amps, may)
                at = self._at_device(by[0])
                yield Reason(Why.BEHIND, weight, by[0], at, "rating", flow.amps, may.planned, by=by)
                return

    def _taken(self, piece: Piece, far: Iterable[str], may: Carries) -> Iterator[Reason]:
        """What all loads behind an unfused line take together may be no more than the line bears."""
        beyond = {node for start in far for node in self.copper.reach(start, piece.place, devices=True)}
        loads = [c.name for c in self.consumers.values() if c.feed in beyond]
        taken, reasons = self.asked(loads, may, "", piece.name)
        yield from reasons or self._beside(piece.name, [name for name in loads if self._is_fused(name)], may, "")
        if may.planned is None or reasons or taken.most <= may.planned + HAIR:
            return
        if self._through_fuses(beyond, far, loads) > may.planned + HAIR:
            yield from self._current_of(loads)

    def _through_fuses(self, beyond: Collection[str], far: Iterable[str], loads: list[str]) -> float:
        """What loads take at the most where a current is not recorded: no more than the fuses before it let through."""
        pieces = [p for node in beyond for p in self.copper.at.get(node, ()) if p.a in beyond and p.b in beyond]
        links = [(p.a, p.b, p.most) for p in dict.fromkeys(pieces)]
        for name in loads:
            amps = self.stated.get(name)
            links.append((self.consumers[name].feed, "all loads", math.inf if amps is None else amps))
        return greatest_flow(links, sorted(far), ["all loads"]).amps

    def _too_long(self, piece: Piece, may: Carries, behind: tuple[str, ...]) -> Iterator[Reason]:
        limit = min(self.job.limits_in_force["fuse from source"].value, MOST_UNFUSED_MM)
        least, most, unknown = self.distance(piece)
        if least > limit + HAIR:
            thin = may.area is not None and may.area < MAIN_FEED_MM2 - HAIR
            weight = Weight.NEVER if thin else Weight.BY_NAME  # a size that was not read is no ground for a stop
            of, by = behind[0] if len(behind) == 1 else piece.name, (self._nearer(piece).source,)
            yield Reason(Why.UNFUSED_LONG, weight, of, self._at_fuse(of), "length", mm=least, most_mm=limit, by=by)
        elif most > limit + HAIR:
            for name in unknown:
                yield Reason(Why.LENGTH, Weight.MISSING, name, self._at_device(name), "length")

    def distance(self, piece: Piece) -> tuple[float, float, tuple[str, ...]]:
        """How far the far end of an unfused line lies from its source: what is recorded of it, the same where every
        length is recorded and else without limit [mm], and the wires on that way whose length is not."""
        length = self.view.stretches[piece.place].length_mm if piece.place is not None else 0.0
        nearer = self._nearer(piece)
        unknown = tuple(dict.fromkeys((*nearer.unknown, *(() if length is not None else (piece.name,)))))
        least = nearer.mm + (length or 0.0)
        return least, math.inf if unknown else least, unknown

    def _nearer(self, piece: Piece) -> Reached:
        """From where a line leads on: of its two ends the one nearer the source."""
        return min(self._begins(piece.a, piece.b), self._begins(piece.b, piece.a), key=lambda r: (r.mm, len(r.unknown)))

    def _begins(self, end: str, other: str) -> Reached:
        """How far from the source a line is that leads on from one end to the other; without limit where none does."""
        first_bar = end in self._bars and (end, False) in self._from_source
        if first_bar:  # the line leads on from the bar, unless it is one by which the bar is reached
            leads_to_it = (other, False) in self._from_source and other not in self._bars
            return Reached(math.inf, "", ()) if leads_to_it else Reached(0.0, end, ())
        nowhere = Reached(math.inf, "", ())
        return self._from_source.get((end, False), self._from_source.get((end, True), nowhere))

    @cached_property
    def _bars(self) -> frozenset[str]:
        """Bus bars; a starter's post is one too."""
        posts = {c.feed for c in self.consumers.values() if self._is_starter(c.name)}
        return frozenset({name for name, splice in self.job.splices.items() if splice.bus} | posts)

    @cached_property
    def _from_source(self) -> Mapping[tuple[str, bool], Reached]:
        """Node of unfused copper, and whether a bus bar lies on the way -> how far it lies. From the first bus bar on
        it counts anew, and from no later one."""
        found: dict[tuple[str, bool], Reached] = {}
        todo = [(Reached(0.0, node, ()), node, False) for node in sorted(self.copper.hot)]
        while todo:
            todo.sort(key=lambda item: (item[0].mm, len(item[0].unknown), item[1]))
            reached, node, past = todo.pop(0)
            if (node, past) in found:
                continue
            found[node, past] = reached
            if node in self.copper.home:
                continue
            if node in self._bars and not past:
                reached, past = Reached(0.0, node, ()), True
                found.setdefault((node, past), reached)
            for piece in self.copper.at.get(node, ()):
                if piece.limits:
                    continue
                length = self.view.stretches[piece.place].length_mm if piece.place is not None else 0.0
                lacking = () if length is not None else (piece.name,)
                further = Reached(reached.mm + (length or 0.0), reached.source, (*reached.unknown, *lacking))
                todo.append((further, piece.other(node), past))
        return found

    def untold(self) -> Iterator[tuple[int, Reason]]:
        """Loads of this car of which it is not told by what their current comes or goes home: asked at the wires in
        their ends, by the index of each stretch."""
        for name in self.job.loads_for_certain:
            load, circuit = self.job.loads[name], self.circuits[name]
            ends = self.copper.net.ends_now(load.between) or ()
            consumer = self.consumers.get(name)
            if consumer is None:
                why, key, at, by = Why.FEED_OF, "feed", tuple(ends), self._stops_at(name)
            elif circuit.back.state != "open" and not self.side(consumer.back, None).home:
                why, key, at, by = Why.WAY_BACK, "return", (consumer.back,), ()
            else:
                continue
            reason = Reason(why, Weight.MISSING, name, load.line_of(key), key, by=by)
            for end in at:
                yield from ((p.place, reason) for p in self.copper.at.get(end, ()) if p.place is not None)

    def _stops_at(self, load: str) -> tuple[str, ...]:
        """The wires at which the record of what feeds a load stops."""
        consumer = self.consumers.get(load)
        ends = (consumer.feed,) if consumer is not None else self.copper.net.ends_now(self.job.loads[load].between)
        nodes = dict.fromkeys(node for end in ends or () for node in self.copper.reach(end, devices=True))
        stretches = dict.fromkeys(s for node in nodes for s in self.view.at_node.get(node, ()))
        return tuple(dict.fromkeys(s.wire for s in stretches if any(self.ends.is_open(end) for end in s.ends)))

    # ---- homeward ---------------------------------------------------------------------------------------------------
    def side(self, start: str, without: int | None) -> Side:
        """What hangs together with one end of a line, and whether current gets home from there, through other loads
        too."""
        nodes = self.copper.reach(start, without, devices=True)
        return Side(nodes, self._gets_home(nodes, without))

    def _gets_home(self, nodes: Collection[str], without: int | None) -> bool:
        seen = dict.fromkeys(nodes)
        todo = list(seen)
        for at in todo:
            if at in self.copper.home:
                return True
            for consumer in self._fed_at.get(at, ()):
                if consumer.back and consumer.back not in seen:
                    more = [
                        node for node in self.copper.reach(consumer.back, without, devices=True) if node not in seen
                    ]
                    seen.update(dict.fromkeys(more))
                    todo += more
        return False

    @cached_property
    def _fed_at(self) -> Mapping[str, tuple[Consumer, ...]]:
        found: dict[str, list[Consumer]] = {}
        for consumer in self.consumers.values():
            found.setdefault(consumer.feed, []).append(consumer)
        return {node: tuple(consumers) for node, consumers in found.items()}

    def through(self, a: str, b: str, index: int | None) -> tuple[tuple[str, ...], bool]:
        """The loads whose current may come home through a line, and whether another way home takes a part of it."""
        found: dict[str, None] = {}
        shared = False
        sides = [self.side(end, index) for end in (a, b)]
        for own, other in (sides, sides[::-1]):
            if not other.home:
                continue
            loads = [c.name for c in self.consumers.values() if self._comes_home_in(c, own.nodes)]
            found.update(dict.fromkeys(loads))
            shared = shared or (own.home and bool(loads))
        return tuple(found), shared

    def _comes_home_in(self, consumer: Consumer, nodes: Collection[str]) -> bool:
        return any(back in nodes and back not in self.copper.home for back in consumer.backs)

    def shorted(self, loads: Iterable[str]) -> Amperes:
        """The most that one of these loads sends home if it fails shorted: what its fuses let through. [A]"""
        found = [(self._push_of(name), name) for name in loads if not self._is_unfused_starter(name)]
        least = max(found, key=lambda pair: pair[0].least, default=None)
        if least is None:
            return Amperes()
        return Amperes(least[0].least, max(pair[0].most for pair in found), (least[1], *least[0].by))

    def _beside_others(self, loads: Iterable[str], branch: str) -> Amperes:
        """The most that comes home while one load is shorted and those behind other fuses are on; of currents that
        another way home takes a part of, the share of this one where it is known. [A]"""
        certain = [name for name in loads if name in self.job.loads_for_certain and name in self.stated]
        run = self.transfer.grid.run_of.get(branch, -1)
        shares = {load: abs(share) for load, share in self.transfer.takers.get(run, ())} if branch else {}
        worst = Amperes()
        for name in certain:
            push = self._push_of(name)
            others = [
                other
                for other in certain
                if other != name
                and other not in self.transfer.apart[name]
                and not set(self._push_of(other).by) & set(push.by)
            ]
            on = most_together(others, {o: self.stated[o] or 0.0 for o in others}, self.transfer.apart)
            total = push.least * shares.get(name, 1.0) if push.least < math.inf else 0.0
            total += sum(self._let_through([other]) * shares.get(other, 1.0) for other in on if self._stays_on(other))
            if total > worst.least:
                worst = Amperes(total, total, (name, *push.by))
        return worst

    def _stays_on(self, load: str) -> bool:
        """Whether a load of recorded current may stay on."""
        return self.stated[load] is not None and self._seconds(load) is None

    def _push_of(self, load: str) -> Amperes:
        if load not in self._pushes:
            circuit = self.circuits[load]
            push = self.copper.push(self.consumers[load].feed)
            if circuit.feed.state == "not examined" and push.most == 0.0:
                push = Amperes(0.0, self._through_another(load))
            self._pushes[load] = push if load in self.job.loads_for_certain else Amperes(0.0, push.most, push.by)
        return self._pushes[load]

    def _through_another(self, load: str) -> float:
        """What may come to a load whose feed is not traced [A]: of one in series what comes to those before it, else
        anything, from a source that nobody wrote down."""
        before = self.copper.reach(self.consumers[load].feed, devices=True)
        nodes = set(before) - self.copper.home
        others = [c for c in self.consumers.values() if c.name != load and c.back in nodes]
        closed = not any(self.ends.is_open(node) for node in nodes)
        pushes = [self.copper.push(other.feed).most for other in others]
        return max(pushes) if closed and pushes and min(pushes) > 0.0 else math.inf

    def _is_fused(self, load: str) -> bool:
        return self._push_of(load).least < math.inf

    def _is_unfused_starter(self, load: str) -> bool:
        return self._is_starter(load) and self._push_of(load).least == math.inf

    def home(self, piece: Piece, may: Carries) -> tuple[Amperes, Amperes, tuple[Reason, ...]]:
        """What comes home through a line: with one load shorted, by what its loads take, and what speaks against it."""
        if piece.a in self.copper.home and piece.b in self.copper.home:
            asked, reasons = self.asked(self._at_points(piece), may, f"stretch {piece.place}", piece.name)
            return Amperes(), asked, tuple(reasons)
        loads, shared = self.through(piece.a, piece.b, piece.place)
        return self._homeward(piece.name, loads, may, f"stretch {piece.place}" if shared else "")

    def _at_points(self, piece: Piece) -> tuple[str, ...]:
        """The loads that come home at either end of a wire between two ground points; the wire takes its share."""
        ends = {piece.a, piece.b} & self.job.grounds.keys()
        return tuple(
            c.name
            for c in self.consumers.values()
            if any(ends.intersection(self.side(back, None).nodes) for back in c.backs)
        )

    def home_by_body(self, loads: tuple[str, ...], may: Carries) -> tuple[Reason, ...]:
        """What speaks against the strap by which these loads come home through the body."""
        return self._homeward(BODY, loads, may, "")[2]

    def home_by_cable(
        self, ground: str, to: str, loads: tuple[str, ...], may: Carries, shared: bool
    ) -> tuple[Amperes, Amperes, tuple[Reason, ...]]:
        """The same for the cable of a ground point by which these loads come home."""
        return self._homeward(ground, loads, may, f"cable {ground} to {to}" if shared else "")

    def _homeward(
        self, name: str, loads: tuple[str, ...], may: Carries, branch: str
    ) -> tuple[Amperes, Amperes, tuple[Reason, ...]]:
        shorted = self.shorted(loads)
        asked, reasons = self.asked(loads, may, branch, name)
        if may.planned is None:
            return shorted, asked, ()
        if shorted.least > may.planned + HAIR:
            at, weight = self._at_conductor(name), weight_of(shorted.least, may)
            reasons.append(
                Reason(Why.SHORTED_LOAD, weight, name, at, "size", shorted.least, may.planned, by=shorted.by)
            )
        elif shorted.most > may.planned + HAIR:
            reasons += self._unread_of(loads, may.planned)
        elif asked.most > may.planned + HAIR and not reasons:
            reasons += self._current_of(loads)
        return shorted, asked, tuple(reasons or self._beside(name, loads, may, branch))

    def _beside(self, name: str, loads: Iterable[str], may: Carries, branch: str) -> Iterator[Reason]:
        """One load shorted while the others are on: that may come up to the bound."""
        found = self._beside_others(loads, branch)
        if may.bound is None or found.least <= may.bound + HAIR:
            return
        at = self._at_device(name)
        if may.bound_if_written is not None and found.least <= may.bound_if_written + HAIR:
            yield Reason(Why.INSULATION, Weight.MISSING, name, at, "insulation", found.least, may.bound)
            return
        yield Reason(Why.SHORTED_BESIDE, Weight.BY_NAME, name, at, "size", found.least, may.bound, by=found.by)

    def _current_of(self, loads: Iterable[str]) -> Iterator[Reason]:
        for name in loads:
            if self.stated.get(name) is None:
                load = self.job.loads[name]
                yield Reason(Why.CURRENT, Weight.MISSING, name, load.line_of("draws"), "draws")

    def _unread_of(self, loads: Iterable[str], planned: float) -> Iterator[Reason]:
        for name in loads:
            if self._is_unfused_starter(name) or self._push_of(name).most <= planned + HAIR:
                continue
            devices = self.copper.unread(self.consumers[name].feed)
            for device in devices:
                yield self.not_read(device)
            if not devices and self._push_of(name).least == 0.0:
                load = self.job.loads[name]
                undecided = name not in self.job.loads_for_certain
                why, key = (Why.OPTION, "for") if undecided else (Why.FEED_OF, "feed")
                by = () if undecided else self._stops_at(name)
                yield Reason(why, Weight.MISSING, name, load.line_of(key), key, by=by)

    # ---- what loads take --------------------------------------------------------------------------------------------
    def asked(
        self, loads: Iterable[str], may: Carries, branch: str = "", name: str = ""
    ) -> tuple[Amperes, list[Reason]]:
        """What loads take that can be on together, those on for a short time apart, against what a line bears.

        `branch` is the key of the line in the network where another way takes a part of their current.
        """
        names = [name for name in loads if name in self.stated]
        certain = [name for name in names if name in self.job.loads_for_certain]
        least, short, seconds = self._sum(certain)
        unread = [name for name in names if self.stated[name] is None]
        most = self._let_through(names) if unread else self._sum(names)[0]
        reasons: list[Reason] = []
        amps = Amperes(least + short, most + short, tuple(names))
        if may.planned is None or may.area is None:
            return amps, reasons
        if least > may.planned + HAIR and branch:
            share = self.transfer.through(branch, {name: self.stated[name] for name in certain}).volts
            if share is None:
                return amps, [Reason(Why.DIVIDES, Weight.MISSING, name, self._at_conductor(name), "length")]
            least = share
        bears = max(may.planned, short_time_a(may.area, seconds)) if short else may.planned
        if least > may.planned + HAIR or least + short > bears + HAIR:
            weight = weight_of(least + short, may) if not short else Weight.NEVER
            at = self._at_conductor(name)
            reasons.append(Reason(Why.ASKED, weight, name, at, "size", least + short, bears, by=tuple(certain)))
        return Amperes(least + short, amps.most, amps.by), reasons

    def _let_through(self, names: Iterable[str]) -> float:
        """What loads take together, no more than their fuses let through; one whose current is not recorded may take
        all of that."""
        groups: dict[tuple[str, ...], list[str]] = {}
        for name in names:
            groups.setdefault(self._push_of(name).by, []).append(name)
        found = 0.0
        for group in groups.values():
            amps = [self.stated[name] for name in group]
            taken = math.inf if None in amps else sum(value or 0.0 for value in amps)
            found += min(taken, max(self._push_of(name).most for name in group)) if taken else 0.0
        return found

    def _sum(self, names: list[str]) -> tuple[float, float, float]:
        """Of loads that can be on together what those take that stay on, and those that are on for a time [A], and the
        longest such time [s]."""
        stated = {name: self.stated[name] or 0.0 for name in names}
        names = [name for name in names if self.stated[name] is not None]
        on = most_together(names, stated, self.transfer.apart)
        times = {name: seconds for name in on if (seconds := self._seconds(name)) is not None}
        stay = [name for name in on if name not in times]
        return self._let_through(stay), sum(stated[name] for name in times), max(times.values(), default=0.0)

    def _seconds(self, name: str) -> float | None:
        load = self.job.loads[name]
        if load.on_at_most is not None and load.on_at_most.value is not None:
            return load.on_at_most.value
        return STARTER_S if self._is_starter(name) else None


def weight_of(amps: float, may: Carries) -> Weight:
    """Above what any public figure allows nobody lets it stand."""
    return Weight.BY_NAME if may.bound is not None and amps <= may.bound + HAIR else Weight.NEVER
