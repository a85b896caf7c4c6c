"""Copper that joins what must not be joined: both sides of a fuse, a feed and ground, two key positions, data."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from aswired.car.harness import BATTERY_POSITIVE
from aswired.ledger.copper import Copper, Piece
from aswired.ledger.lines import Lines
from aswired.ledger.record import Reason, Weight, Why
from aswired.text.diagnostics import Location
from aswired.text.units import natural

ALWAYS = "always"
_NOT_SAID = ("", "unknown")


class Joined:
    """What is joined in one view: reasons by the index of the stretch that each is told of."""

    def __init__(self, copper: Copper, lines: Lines) -> None:
        self.copper, self.lines = copper, lines
        self.job, self.view = copper.job, copper.view

    def reasons(self) -> Iterator[tuple[int, Reason]]:
        """Each reason with the index of its stretch."""
        yield from self._bridged()
        yield from self._shorts()
        yield from self._two_keys()
        yield from self._through_loads()
        yield from self._contradicted()
        yield from self._data()

    def _stretches(self, way: tuple[Piece, ...]) -> list[int]:
        return [piece.place for piece in way if piece.place is not None]

    def _at_fuse(self, name: str) -> Location:
        fuse = self.view.fuses[name]
        return fuse.facts.at if fuse.declared else self.job.line_of_row((fuse.rows or ("",))[0])

    def _bridged(self) -> Iterator[tuple[int, Reason]]:
        """A fuse whose two sides copper joins counts for nothing."""
        for name in self.view.fuses:
            feed = f"{name}.feed"
            for open_ in self.copper.settings(self.copper.parts.get(name)):
                reached = self.copper.reach(name, open_=open_)
                if feed in reached:
                    reason = Reason(Why.BRIDGED, Weight.NEVER, name, self._at_fuse(name), "fuses")
                    way = self.copper.way(reached, feed)
                    told = self._stretches(way) or [p.place for p in self.copper.at[name] if p.place is not None]
                    yield from ((index, reason) for index in told)
                    break

    def _shorts(self) -> Iterator[tuple[int, Reason]]:
        """A feed that copper joins to a ground point, in any setting, with no load between."""
        own = self._of_loads
        for start in self._feeds:
            for open_ in self.copper.settings(self.copper.parts.get(start)):
                reached = self.copper.reach(start, open_=open_, from_source=True)
                ground = next((node for node in reached if node in self.copper.home and node != start), None)
                if ground is None:
                    continue
                way = self.copper.way(reached, ground)
                on_it = self._stretches(way)
                by = (ground, *dict.fromkeys(piece.name for piece in reversed(way) if piece.place is not None))
                reason = Reason(Why.SHORT, Weight.NEVER, start, self._at_end_of(way, start), "wires", by=by)
                told = [index for index in on_it if index not in own] or on_it[:1]
                yield from ((index, reason) for index in told)
                break

    @cached_property
    def _feeds(self) -> tuple[str, ...]:
        """Where feeds begin: sources, and the load side of each fuse that is fed. A module's output is none: that it is
        switched to ground is how many of them work."""
        sources = [node for node in sorted(self.copper.hot) if node in self.view.nodes]
        fuses = [name for name in self.view.fuses if f"{name}.feed" in self.copper.fed]
        return (*sources, *fuses)

    def _at_end_of(self, way: tuple[Piece, ...], start: str) -> Location:
        """The last wire before ground, or the last row on it; where it is a switch's doing, the feed."""
        last = next((piece.name for piece in way if piece.place is not None), "")
        if not last:
            return self._at_fuse(start) if start in self.view.fuses else self.job.at
        rows = self.view.wires[last].rows
        return self.job.wires[last].at if last in self.job.wires else self.job.line_of_row(rows[-1] if rows else "")

    @cached_property
    def _of_loads(self) -> frozenset[int]:
        """Stretches that the current of a kept load passes by itself."""
        names = {
            stretch
            for name in self.job.kept_loads
            for path in (self.lines.circuits[name].feed, self.lines.circuits[name].back)
            if path.state == "complete"
            for stretch in path.stretches
        }
        return frozenset(index for index, stretch in enumerate(self.view.stretches) if stretch in names)

    # ---- positions of the key ---------------------------------------------------------------------------------------
    def position(self, fuse: str) -> str:
        """When a fuse is live: as written, else as the one feed before it; '' where that is not said."""
        written = self.view.fuses[fuse].facts.fed
        if written not in _NOT_SAID:
            return written
        before = {self._of_source(node) for node in self._before(fuse)}
        return before.pop() if len(before) == 1 else ""

    def _before(self, fuse: str) -> list[str]:
        """The sources and fuses whose copper reaches the feed side of a fuse."""
        reached = self.copper.reach(f"{fuse}.feed")
        return [node for node in reached if node in self.copper.hot or (node in self.view.fuses and node != fuse)]

    def _of_source(self, node: str) -> str:
        if node in self.view.fuses:
            written = self.view.fuses[node].facts.fed
            return "" if written in _NOT_SAID else written
        return ALWAYS if node == BATTERY_POSITIVE or node in self.view.nodes else ""

    def _two_keys(self) -> Iterator[tuple[int, Reason]]:
        done: set[tuple[str, str]] = set()
        fed = set(self._feeds)
        for start in (name for name in self.view.fuses if name in fed):
            for open_ in self.copper.settings(self.copper.parts.get(start)):
                reached = self.copper.reach(start, open_=open_)
                others = [
                    node for node in reached if node != start and (node in self.view.fuses or node in self.copper.hot)
                ]
                for other in others:
                    pair = (start, other) if start < other else (other, start)
                    if pair not in done:
                        done.add(pair)
                        yield from self._pair(start, other, self._stretches(self.copper.way(reached, other)))

    def _contradicted(self) -> Iterator[tuple[int, Reason]]:
        """A fuse that is said to be of the key, and that copper alone joins to the battery; fuses that are said to be
        fed from each other: something of that is wrong."""
        switches = tuple(self.job.switches)
        for name, fuse in self.view.fuses.items():
            of_the_key = fuse.facts.fed in ("ignition", "accessory")
            on_the_battery = BATTERY_POSITIVE in self.copper.reach(f"{name}.feed", open_=switches)
            if (of_the_key and on_the_battery) or self._fed_in_a_circle(name):
                reason = Reason(Why.POSITION, Weight.MISSING, name, self._at_fuse(name), "fed")
                yield from ((p.place, reason) for p in self.copper.at.get(name, ()) if p.place is not None)

    def _fed_in_a_circle(self, fuse: str) -> bool:
        seen: list[str] = []
        at = fuse
        while at in self.view.fuses and at not in seen:
            seen.append(at)
            at = self.view.fuses[at].facts.fed_from.removesuffix(".feed")
        return at in seen

    def _pair(self, one: str, two: str, way: list[int]) -> Iterator[tuple[int, Reason]]:
        if two in self.view.fuses:  # told of the same one in whichever order, and by whichever names, they are listed
            one, two = sorted((one, two), key=lambda name: (self.position(name), natural(name)))
        first, second = self.position(one), self.position(two) if two in self.view.fuses else self._of_source(two)
        if first == second and first:
            return
        at = self._at_fuse(one)
        if first and second:
            reasons = [Reason(Why.TWO_KEYS, Weight.BY_NAME, one, at, "fed", by=(one, two))]
        else:  # both are asked for at once: one alone settles nothing
            silent = [name for name, told in ((one, first), (two, second)) if not told]
            if any(name not in self.view.fuses for name in silent):
                return
            reasons = [Reason(Why.POSITION, Weight.MISSING, name, self._at_fuse(name), "fed") for name in silent]
        yield from ((index, reason) for index in way for reason in reasons)

    def _through_loads(self) -> Iterator[tuple[int, Reason]]:
        """A load between feeds of two positions: with the one off, the other feeds its side backwards through it."""
        for name, load in self.job.loads.items():
            ends = self.copper.net.ends_now(load.between)
            if ends is None or load.verdict == "deleted":
                continue
            sides = [self.copper.reach(end) for end in ends]
            if any(self.copper.home.intersection(side) for side in sides):
                continue
            found = [{self._when(node) for node in side if self._feeds_here(node)} for side in sides]
            at_ends = [p.place for end in ends for p in self.copper.at.get(end, ()) if p.place is not None]
            if found[0] and found[1] and found[0] != found[1] and "" not in found[0] | found[1]:
                reason = Reason(Why.TWO_KEYS, Weight.BY_NAME, name, load.at, "between", by=(name,))
                yield from ((index, reason) for index in at_ends)

    def _feeds_here(self, node: str) -> bool:
        return node in self.copper.hot or (node in self.view.fuses and f"{node}.feed" in self.copper.fed)

    def _when(self, node: str) -> str:
        return self.position(node) if node in self.view.fuses else self._of_source(node)

    # ---- data -------------------------------------------------------------------------------------------------------
    def _data(self) -> Iterator[tuple[int, Reason]]:
        """A feed that reaches a cavity which carries data."""
        for index, stretch in enumerate(self.view.stretches):
            for end in stretch.ends:
                if self.copper.net.is_data(end) and self.copper.push(end).most > 0.0:
                    at = self.job.modules[end.partition(".")[0]].line_of("out")
                    yield index, Reason(Why.DATA, Weight.BY_NAME, end, at, "out")
