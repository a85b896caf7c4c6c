"""Places by tape measure on the finished car: a tree of measured legs between landmarks (P1 to P6).

A place is a landmark, or `24 in from bulkhead towards nose-split`: walk from the first landmark towards the second.
Positions are (leg, offset from the leg's `from`); lengths are millimetres, None through a leg of unknown length.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from functools import cached_property

from aswired.record import Job
from aswired.text.diagnostics import did_you_mean
from aswired.text.units import QuantityError, read_length

_PLACE = re.compile(r"(?P<length>.+?) from (?P<a>.+?) towards (?P<b>.+)")


class PlaceError(ValueError):
    """A place that is written as one but cannot be walked to; `mend` says what to write instead."""

    def __init__(self, problem: str, mend: str) -> None:
        super().__init__(problem)
        self.problem = problem
        self.mend = mend


@dataclass(frozen=True)
class Hop:
    """One leg walked in one direction: `leg` is its index in job.route, `forward` from its `from` to its `to`."""

    leg: int
    start: str
    end: str
    length_mm: float | None
    forward: bool


@dataclass(frozen=True)
class Position:
    """Where a place is. `landmark` is set for a place at a landmark; else leg and offset.

    `offset_mm` counts from the leg's `from`.
    """

    landmark: str
    leg: int | None
    offset_mm: float | None


class Route:
    """The route of one job, ready to be walked."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._paths: dict[tuple[str, str, tuple[str, ...]], tuple[Hop, ...] | None] = {}
        self._ends: dict[str, Position | None] = {}
        own = {end.partition(".")[0] for wire in job.wires.values() for end in (wire.from_, wire.to)}
        self._replaces = {row.new_plug: row.plug for row in job.changes if row.new_plug and row.new_plug not in own}

    @cached_property
    def _next(self) -> dict[str, list[Hop]]:
        found: dict[str, list[Hop]] = {}
        for index, leg in enumerate(self._job.route):
            mm = leg.length.mm if leg.length else None
            found.setdefault(leg.from_, []).append(Hop(index, leg.from_, leg.to, mm, True))
            found.setdefault(leg.to, []).append(Hop(index, leg.to, leg.from_, mm, False))
        return found

    @property
    def landmarks(self) -> tuple[str, ...]:
        """Every landmark that is declared or that a leg ends in."""
        return tuple(dict.fromkeys((*self._job.landmarks, *self._next)))

    def beside(self, landmark: str) -> tuple[str, ...]:
        """The landmarks at the other ends of the legs that meet at one."""
        return tuple(dict.fromkeys(hop.end for hop in self._next.get(landmark, ())))

    def between(self, landmarks: Collection[str]) -> list[int]:
        """The legs both of whose landmarks are among these, as indices of the route."""
        return [i for i, leg in enumerate(self._job.route) if leg.from_ in landmarks and leg.to in landmarks]

    @property
    def on_legs(self) -> tuple[str, ...]:
        """Every landmark that a leg ends in."""
        return tuple(self._next)

    def leads(self, p: Position, q: Position, by: tuple[str, ...]) -> bool:
        """Whether some way between the two positions goes by every landmark of `by`."""
        return any(
            set(by) <= {start, *(hop.end for hop in way)}
            for start, _ in self.ends_of(p)
            for end, _ in self.ends_of(q)
            for way in self.paths(start, end)
        )

    def paths(self, a: str, b: str) -> list[tuple[Hop, ...]]:
        """Every way from landmark a to landmark b that meets no landmark twice; two suffice to know of a choice."""
        found: list[tuple[Hop, ...]] = []

        def walk(at: str, seen: frozenset[str], hops: tuple[Hop, ...]) -> None:
            if at == b:
                found.append(hops)
                return
            for hop in self._next.get(at, ()):
                if hop.end not in seen and len(found) < 20:
                    walk(hop.end, seen | {hop.end}, (*hops, hop))

        walk(a, frozenset({a}), ())
        return found

    def path(self, a: str, b: str, by: tuple[str, ...] = ()) -> tuple[Hop, ...] | None:
        """The one way from a to b; where the route leaves a choice, the one that goes by every landmark of `by`."""
        if (a, b, by) not in self._paths:
            self._paths[a, b, by] = self._path(a, b, by)
        return self._paths[a, b, by]

    def _path(self, a: str, b: str, by: tuple[str, ...]) -> tuple[Hop, ...] | None:
        ways = self.paths(a, b)
        if len(ways) > 1:
            ways = [way for way in ways if set(by) and set(by) <= {a, *(hop.end for hop in way)}]
        return ways[0] if len(ways) == 1 else None

    def place(self, text: str, asked: tuple[str, ...] = ()) -> Position | None:
        """Where a written place is; None for words that are not a place. Raises PlaceError for one that is wrong.

        `asked` are the parts whose places led here.
        """
        words = " ".join(text.split())
        if words in self.landmarks:
            return Position(words, None, None)
        match = _PLACE.fullmatch(words)
        if not match:
            job = self._job
            tables = (job.plugs, job.grounds, job.modules, job.splices)
            place = next((table[words].place for table in tables if words in table and table[words].place), "")
            if place in ("", words):
                return None
            if words in asked:
                raise PlaceError(f"the places of {' and '.join(asked)} only point to each other", "Give one a landmark")
            return self.place(place, (*asked, words))
        try:
            length = read_length(match["length"])
        except QuantityError as error:
            raise PlaceError(error.problem, error.mend) from None
        if length.mm is None:
            return None
        return self._walk(match["a"], match["b"], length.mm)

    def _walk(self, a: str, b: str, distance_mm: float) -> Position:
        for name in (a, b):
            if name not in self._next and name not in self._job.landmarks:
                raise PlaceError(
                    f"'{name}' is not a landmark",
                    did_you_mean(name, self.landmarks, "Declare it under 'landmarks:' and 'route:'"),
                )
        hops = self.path(a, b)
        if hops is None:
            known = self.paths(a, b)
            if known:
                raise PlaceError(
                    f"the route leads from {a} to {b} in more than one way", "Name a landmark before the fork"
                )
            raise PlaceError(
                f"the route does not lead from {a} to {b}", "Add the leg to 'route:', or choose another landmark"
            )
        if distance_mm < 0:
            raise PlaceError("the distance is below zero", f"Measure from {a} towards the other side")
        if distance_mm == 0:
            return Position(a, None, None)
        left = distance_mm
        for hop in hops:
            if hop.length_mm is None:
                if hop is hops[-1]:  # it can lie nowhere else; on an earlier leg it may lie beyond (P3)
                    offset = left if hop.forward else None
                    return Position("", hop.leg, offset)
                return Position("", None, None)
            if left < hop.length_mm:
                return Position("", hop.leg, left if hop.forward else hop.length_mm - left)
            left -= hop.length_mm
            if left < 1e-6:
                return Position(hop.end, None, None)
        whole = sum(hop.length_mm or 0 for hop in hops)
        raise PlaceError(
            f"{round(distance_mm)} mm from {a} lies beyond {b}, which is {round(whole)} mm away",
            f"Measure again, or measure from {b} towards the next landmark",
        )

    def ends_of(self, position: Position) -> tuple[tuple[str, float | None], ...]:
        """The landmarks nearest to a position, each with the distance to it."""
        if position.landmark:
            return ((position.landmark, 0.0),)
        if position.leg is None:
            return ()
        leg = self._job.route[position.leg]
        length = leg.length.mm if leg.length else None
        back = position.offset_mm
        ahead = None if length is None or back is None else length - back
        return ((leg.from_, back), (leg.to, ahead))

    def way(self, p: Position, q: Position, by: tuple[str, ...] = ()) -> tuple[Hop, ...] | None:
        """The legs between the two positions, whole legs only, in walking order from p to q."""
        best: tuple[Hop, ...] | None = None
        for start, _ in self.ends_of(p):
            for end, _ in self.ends_of(q):
                hops = self.path(start, end, by)
                if hops is not None and (best is None or len(hops) < len(best)):
                    best = hops
        return best

    def distance(self, p: Position, q: Position, by: tuple[str, ...] = ()) -> float | None:
        """Length of route between two positions. [mm] None where it is not recorded or there is no one way."""
        if p.leg is not None and p.leg == q.leg:
            if p.offset_mm is None or q.offset_mm is None:
                return None
            return abs(p.offset_mm - q.offset_mm)
        best: float | None = None
        for start, before in self.ends_of(p):
            for end, after in self.ends_of(q):
                hops = self.path(start, end, by)
                if hops is None or before is None or after is None or any(hop.length_mm is None for hop in hops):
                    continue
                if any(hop.leg in (p.leg, q.leg) for hop in hops):
                    continue  # this would walk past the place and back
                whole = before + after + sum(hop.length_mm or 0 for hop in hops)
                best = whole if best is None else min(best, whole)
        return best

    def along(self, p: Position, q: Position, distance_mm: float, by: tuple[str, ...] = ()) -> Position | None:
        """The position reached by walking `distance_mm` from p towards q; None where it is not recorded."""
        if distance_mm < 0:
            return None
        if p.leg is not None and p.leg == q.leg and p.offset_mm is not None and q.offset_mm is not None:
            sign = 1 if q.offset_mm >= p.offset_mm else -1
            if distance_mm > abs(q.offset_mm - p.offset_mm):
                return None
            return Position("", p.leg, p.offset_mm + sign * distance_mm)
        hops = self.way(p, q, by)
        if hops is None:
            return None
        hops = tuple(hop for hop in hops if hop.leg not in (p.leg, q.leg))
        first = hops[0].start if hops else self._meeting(p, q)
        left = distance_mm
        if p.leg is not None:
            reach = dict(self.ends_of(p)).get(first)
            if reach is None or p.offset_mm is None:
                return None
            if left <= reach:
                sign = 1 if first == self._job.route[p.leg].to else -1
                return Position("", p.leg, p.offset_mm + sign * left)
            left -= reach
        for hop in hops:
            if hop.length_mm is None:
                return None
            if left <= hop.length_mm:
                return Position("", hop.leg, left if hop.forward else hop.length_mm - left)
            left -= hop.length_mm
        return self._past(hops[-1].end if hops else first, q, left)

    def _past(self, landmark: str, q: Position, left_mm: float) -> Position | None:
        """The position `left_mm` from a landmark on the leg of q, no further than q."""
        length = dict(self.ends_of(q)).get(landmark)
        if q.leg is None or length is None or left_mm > length:
            return None
        leg = self._job.route[q.leg]
        if landmark == leg.from_:
            return Position("", q.leg, left_mm)
        return Position("", q.leg, leg.length.mm - left_mm) if leg.length and leg.length.mm is not None else None

    def only_way(self, p: Position, distance_mm: float) -> Position | None:
        """The position `distance_mm` from a landmark that the route leaves in one direction only; else None."""
        hops = self._next.get(p.landmark, [])
        length = hops[0].length_mm if len(hops) == 1 else None
        if length is None or not 0 <= distance_mm <= length:
            return None
        offset = distance_mm if hops[0].forward else length - distance_mm
        return Position("", hops[0].leg, offset)

    def _meeting(self, p: Position, q: Position) -> str:
        shared = [name for name, _ in self.ends_of(p) if name in dict(self.ends_of(q))]
        return shared[0] if shared else ""

    def branches(self, landmark: str) -> bool:
        """Whether more than two legs meet at a landmark."""
        return sum(landmark in (leg.from_, leg.to) for leg in self._job.route) > 2

    def zone(self, position: Position) -> tuple[str, ...]:
        """What the bundle runs through there; empty at a landmark and where nothing is recorded."""
        return self._job.route[position.leg].zone if position.leg is not None else ()

    def of_end(self, end: str) -> Position | None:
        """Where the part is that a wire end sits in: by the part's own `at:` or `in:`, else by a landmark's name.

        A connector that took the place of another is where that one was, unless its own place is written.
        """
        if end not in self._ends:
            self._ends[end] = self._of_end(end)
        return self._ends[end]

    def _of_end(self, end: str) -> Position | None:
        part = end.partition(".")[0]
        job = self._job
        names = [end, part]
        while (old := self._replaces.get(names[-1], "")) and old not in names:
            names.append(old)
        for name in names:
            text = ""
            if name in job.fuses:
                text = job.fuses[name].in_
            for table in (job.plugs, job.grounds, job.splices, job.modules):
                if name in table:
                    text = text or table[name].place
            for written in (text, name):
                try:
                    found = self.place(written) if written else None
                except PlaceError:
                    found = None
                if found is not None:
                    return found
        return None
