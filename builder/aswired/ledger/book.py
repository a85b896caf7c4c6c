"""The ledger of one view, put together: every line with its reasons, every wire, every fuse, the car as a whole."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import cached_property

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE, View
from aswired.car.special import special_wires
from aswired.car.trace import Net, circle
from aswired.ledger import declared
from aswired.ledger.copper import Copper, Piece, band
from aswired.ledger.ends import Ends
from aswired.ledger.joined import Joined
from aswired.ledger.lines import HAIR, Lines, weight_of
from aswired.ledger.ratings import THICK, Carries, carries, leg_heat, of_cable, of_size
from aswired.ledger.record import (
    BODY,
    Account,
    Amperes,
    FuseLine,
    HotLeg,
    Ledger,
    Line,
    MayGoIn,
    Reason,
    UnreadHeat,
    Weight,
    Why,
)
from aswired.network.copper import conductor_of
from aswired.network.transfer import UnitSolutions
from aswired.physics.carrying import link_lets_through_area_mm2, planned_a
from aswired.record import Job
from aswired.text.units import is_named

LONGEST_LINK_MM = 230.0  # no job allows a longer one; vehicle makers' repair manuals, 9 in (read)


def ledger_of(
    job: Job,
    view: View,
    donor: View,
    circuits: Mapping[str, Circuit],
    transfer: UnitSolutions,
    heat: Mapping[int | str, HotLeg],
    unread: Mapping[int | str, UnreadHeat],
) -> Ledger:
    """The ledger of a view.

    Args:
        donor: the harness before the work; restraint and high-voltage wires are looked for there too.
        circuits, transfer: traced loads of the view, and its network.
        heat: index of a stretch, or ground point -> the hottest leg it is recorded to run through.
        unread: the same -> a leg by which that is not known.
    """
    return _Book(job, view, donor, circuits, transfer, heat, unread).ledger()


class _Book:
    def __init__(
        self,
        job: Job,
        view: View,
        donor: View,
        circuits: Mapping[str, Circuit],
        transfer: UnitSolutions,
        heat: Mapping[int | str, HotLeg],
        unread: Mapping[int | str, UnreadHeat],
    ) -> None:
        self.unread = unread
        self.job, self.view, self.donor, self.heat = job, view, donor, heat
        net = transfer.grid.net
        self.links = _links(job, view)
        returns = {end for c in circuits.values() if (end := c.return_end) and c.load in job.kept_loads}
        outputs = {name: amps for name, amps in _outputs(job, net).items() if name not in returns}
        self.copper = Copper(job, view, net, self.links, outputs, returns)
        asks = {piece.name for piece in self.copper.pieces if piece.kind == "output" and piece.least != piece.most}
        if asks:
            let_in = {name: (0.0, _supply(self.copper, circuits, name)) for name in asks}
            self.copper = Copper(job, view, net, self.links, {**outputs, **let_in}, returns)
        self.ends = Ends(self.copper)
        self.lines = Lines(self.copper, circuits, transfer, self.ends)
        self.circuits = circuits

    def ledger(self) -> Ledger:
        own: dict[int, list[Reason]] = {}
        joined = Joined(self.copper, self.lines)
        for index, reason in joined.reasons():
            own.setdefault(index, []).append(reason)
        for index, reason in self.lines.untold():
            own.setdefault(index, []).append(reason)
        of_wire: dict[str, list[Reason]] = {}
        for wire, reason in declared.of_wires(self.job, (self.donor, self.view), self._behind_fuses()):
            of_wire.setdefault(wire, []).append(reason)
        found: dict[str, list[Line]] = {}
        for index, stretch in enumerate(self.view.stretches):
            line = self._line(index, (*own.get(index, ()), *of_wire.get(stretch.wire, ())))
            found.setdefault(stretch.wire, []).append(line)
        accounts = {wire: Account(wire, tuple(found[wire])) for wire in self.view.wires if wire in found}
        cables = {
            name: Account(name, (cable,), ground=True) for name in self.job.grounds if (cable := self._cable(name))
        }
        told = {reason for account in accounts.values() for reason in account.reasons}
        car = [*declared.of_car(self.job, self.view), *self._strap(cables), *self._sources()]
        car += [reason for _, reason in declared.of_readings(self.job, (self.donor, self.view))]
        car += [r for reasons in of_wire.values() for r in reasons if r.weight is not Weight.MISSING and r not in told]
        # a ground point may have the name of a wire
        both = {**accounts, **{f"{name}, ground point" if name in accounts else name: a for name, a in cables.items()}}
        rows = (self.job.change(id) for id in sorted(self.view.counted))
        planned = tuple(row.id for row in rows if row is not None and row.made is None)
        return Ledger(
            both,
            {name: self._fuse_line(name, both, car) for name in self.view.fuses},
            tuple(dict.fromkeys(car)),
            planned,
        )

    def _behind_fuses(self) -> Mapping[str, frozenset[str]]:
        """Fuse -> the wires that hang on its load side, those of the donor too."""
        found: dict[str, set[str]] = {}
        for name in self.view.fuses:
            nodes = self.copper.reach(name)
            found[name] = {s.wire for node in nodes for s in self.view.at_node.get(node, ())}
            found[name] |= {s.wire for s in self.donor.at_node.get(name, ())}
        return {name: frozenset(wires) for name, wires in found.items()}

    # ---- a line -----------------------------------------------------------------------------------------------------
    def _line(self, index: int, before: tuple[Reason, ...]) -> Line:
        stretch = self.view.stretches[index]
        kind = "link" if index in self.links else "stretch"
        piece = Piece(*stretch.ends, kind, stretch.wire, index)
        may = carries(self.job, stretch, self.heat.get(index))
        push = self.lines.push(piece)
        shorted, asked, home = self.lines.home(piece, may)
        reasons = [*before, *self._to_a_source(stretch.ends, may), *self.ends.reasons(stretch)]
        carrying = push.most > 0.0 or asked.most > 0.0 or shorted.most > 0.0
        of_itself = (*may.reasons, *leg_heat(stretch.wire, self.unread.get(index)))
        if carrying:
            reasons += of_itself
        else:  # a fault of the car even where nothing flows: what melts lays copper bare beside others
            reasons += tuple(reason for reason in may.reasons if reason.why is Why.HEAT)
        unfused_mm: float | None = None
        if kind != "link" and push.least == math.inf:
            least, most, _ = self.lines.distance(piece)
            unfused_mm = least if least == most else None
        reasons += (*self._fed(piece, may, push, carrying), *home)
        live = any(end in self.copper.live for end in stretch.ends)
        told = tuple(dict.fromkeys(reasons))
        later = self._later(piece, may, push, None if carrying else of_itself)
        flows = (push, shorted, asked, unfused_mm, live)
        return Line(stretch.wire, stretch.name, index, may.planned, may.bound, *flows, told, _missing(later, told))

    def _fed(self, piece: Piece, may: Carries, push: Amperes, carrying: bool) -> Iterator[Reason]:
        """What speaks against a line by what may come through its fuses, or without one, or is missing of that."""
        if piece.kind == "link" and piece.place is not None:
            yield from self._link(piece.place, carrying)
            # what glows at its own loads is told by the bound: a link is made to be warmer than a wire
            warm = may.bound_if_written or may.bound
            yield from self.lines.taken_through(piece, Carries(may.area, warm, warm))
        elif push.least == math.inf:
            yield from self.lines.unfused(piece, may)
        else:
            yield from self.lines.feed(piece, may, push)

    def _later(self, piece: Piece, may: Carries, push: Amperes, idle: tuple[Reason, ...] | None) -> Iterator[Reason]:
        """What will be missing as soon as what is missing now is written. Of a line whose size is not read that is what
        is asked of a wire of any size; of one that carries nothing on record, where the record of its copper stops and
        a feed may be found, `idle`: what is asked of its own size and heat."""
        yield from may.later
        if idle is not None and piece.place is not None:
            nodes = (node for end in (piece.a, piece.b) for node in self.copper.reach(end, devices=True))
            if any(self.ends.is_open(node) for node in nodes):
                yield from idle
                yield from self.ends.if_fed(self.view.stretches[piece.place])
        elif may.planned is None:
            yield from self._fed(piece, THICK, push, True)
            yield from self.lines.home(piece, THICK)[2]

    def _link(self, index: int, carrying: bool) -> Iterator[Reason]:
        """A fusible link's own line: it is short, with those that go on from it, so that what burns is short."""
        stretch = self.view.stretches[index]
        limit = min(self.job.limits_in_force["link longest"].value, LONGEST_LINK_MM)
        wire = self.job.wires.get(stretch.wire)
        at = wire.line_of("length") if wire is not None else self.job.line_of_row(stretch.origin)
        lengths = {other: self.view.stretches[other].length_mm for other in self._end_to_end(index)}
        known = sum(mm for mm in lengths.values() if mm is not None)
        if not carrying:
            return
        if known > limit + HAIR:
            yield Reason(Why.LINK_LONG, Weight.BY_NAME, stretch.wire, at, "length", mm=known, most_mm=limit)
        elif stretch.length_mm is None:
            yield Reason(Why.LENGTH_OF_LINK, Weight.MISSING, stretch.wire, at, "length")

    def _end_to_end(self, index: int) -> tuple[int, ...]:
        """The links that hang together with one, end to end, itself among them."""
        found, todo = {index: None}, [index]
        for at in todo:
            ends = set(self.view.stretches[at].ends) - self.copper.hot - self.copper.home
            for other in self.links:
                if other not in found and ends.intersection(self.view.stretches[other].ends):
                    found[other] = None
                    todo.append(other)
        return tuple(found)

    # ---- ground points ----------------------------------------------------------------------------------------------
    def _cable(self, name: str) -> Line | None:
        """The line of a ground point's way back; None for a point that is not in the car, or that nothing uses."""
        point = self.job.grounds[name]
        loads, shared = self._home_by(name)
        if point.gone or not (loads or self.view.at_node.get(name) or self._is_way_back(name)):
            return None
        may = of_cable(self.job, name, point.cable, self.heat.get(name))
        reasons: list[Reason] = []
        shorted = self.lines.shorted(loads)
        asked = self.lines.asked(loads, Carries(None, None, None))[0]
        through_body = self._is_body(name)
        if not point.back_to or circle(self.job, name):
            if not through_body:
                reasons.append(Reason(Why.WAY_BACK, Weight.MISSING, name, point.line_of("back to"), "back to"))
        else:
            reasons += (*may.reasons, *leg_heat(name, self.unread.get(name)))
            reasons += self._to_a_source((name, point.back_to), may)
            shorted, asked, home = self.lines.home_by_cable(name, point.back_to, loads, may, shared)
            reasons += home
        to = point.back_to or ("body" if through_body else "?")
        told = tuple(dict.fromkeys(reasons))
        later = list(may.reasons)
        if may.planned is None or not point.back_to:
            later += self.lines.home_by_cable(name, point.back_to, loads, may if may.planned else THICK, False)[2]
        return Line(
            name,
            f"{name} to {to}",
            None,
            may.planned,
            may.bound,
            Amperes(),
            shorted,
            asked,
            None,
            False,
            told,
            _missing(later, told) if told else (),
        )

    def _is_body(self, ground: str) -> bool:
        """Whether what returns by a point goes on through the body, which is said to carry returns."""
        point = self.job.grounds.get(ground)
        return point is not None and not point.back_to and point.conducts == "yes" and self.job.body_returns == "yes"

    def _home_by(self, ground: str) -> tuple[tuple[str, ...], bool]:
        """The loads whose current may come home by a ground point, and whether it may come by another one too."""
        found: dict[str, None] = {}
        shared = False
        for consumer in self.lines.consumers.values():
            nodes = {node for back in consumer.backs for node in self.lines.side(back, None).nodes}
            points = [node for node in nodes if node in self.copper.home]
            chains = {point: set(_chain(self.job, point)) for point in points}
            if any(ground in chain for chain in chains.values()):
                found[consumer.name] = None
                shared = shared or any(ground not in chain for chain in chains.values())
        return tuple(found), shared

    def _is_way_back(self, ground: str) -> bool:
        users = (name for name in self.job.grounds if name != ground and self.view.at_node.get(name))
        return any(ground in _chain(self.job, name) for name in users)

    def _strap(self, cables: Mapping[str, Account]) -> Iterator[Reason]:
        """The body's own way to the battery, where returns go through it."""
        through = [name for name in cables if self._is_body(name)]
        if not through:
            return
        strap = self.job.body_strap
        may = of_size(self.job, strap.cable) if strap is not None else None
        if may is None:
            at = strap.at if strap is not None else self.job.line_of("body returns")
            yield Reason(Why.BODY, Weight.MISSING, BODY, at, "body strap", by=tuple(through))
            return
        loads = tuple(dict.fromkeys(load for name in through for load in self._home_by(name)[0]))
        for name, source in self.job.sources.items():
            if self._ways_back[name].intersection(through):
                yield from self._held_to(name, source.plus, may)
        yield from self.lines.home_by_body(loads, may)

    # ---- further sources --------------------------------------------------------------------------------------------
    def _sources(self) -> Iterator[Reason]:
        """Further sources of which it is not recorded by what their current comes back."""
        for name, source in self.job.sources.items():
            reached = source.minus in self.job.grounds or source.minus == BATTERY_NEGATIVE
            if not source.minus or not is_named(source.minus) or not (reached or self.view.at_node.get(source.minus)):
                yield Reason(Why.WAY_BACK, Weight.MISSING, name, source.line_of("minus"), "minus")

    def _to_a_source(self, ends: tuple[str, str], may: Carries) -> Iterator[Reason]:
        """What speaks against a line by which a further source's current comes back: all may that its fuses let out."""
        for name, back in self._ways_back.items():
            if set(ends) <= back:
                yield from self._held_to(name, self.job.sources[name].plus, may)

    @cached_property
    def _ways_back(self) -> Mapping[str, set[str]]:
        """Further source -> the nodes by which its current comes back."""
        return {name: self._back_to(source.minus) for name, source in self.job.sources.items()}

    def _back_to(self, minus: str) -> set[str]:
        """The nodes by which current comes back to a source: what its minus hangs together with, and the ground points
        that it goes by to the battery's own."""
        if not minus or not is_named(minus):
            return set()
        found = {minus}
        for piece in self.copper.at.get(minus, ()):
            found.update(self.copper.reach(piece.other(minus)))
        for node in tuple(found):
            if node in self.job.grounds:
                found.update((*_chain(self.job, node), self.job.grounds[_chain(self.job, node)[-1]].back_to))
        return found

    def _held_to(self, name: str, plus: str, may: Carries) -> Iterator[Reason]:
        nodes = set(self.copper.reach(plus, from_source=True))
        if plus == BATTERY_POSITIVE:  # a fuse to whose feed side no wire of the record leads counts as hung on it
            nodes |= {node for node in self.copper.hot if node.endswith(".feed")}
        devices = dict.fromkeys(d for node in nodes for d in self.copper.at.get(node, ()) if d.limits)
        own = [device for device in devices if device.kind != "output"]
        if may.planned is None or not own:
            return
        largest = max(own, key=lambda device: device.least)
        if largest.least > may.planned + HAIR:
            at, weight = self.job.sources[name].at, weight_of(largest.least, may)
            yield Reason(Why.ASKED, weight, name, at, "size", largest.least, may.planned, by=(largest.name,))
        elif any(device.least != device.most for device in own):
            yield from (self.lines.not_read(device) for device in own if device.least != device.most)

    # ---- fuses ------------------------------------------------------------------------------------------------------
    def _fuse_line(self, name: str, accounts: Mapping[str, Account], car: Collection[Reason]) -> FuseLine:
        side = self.copper.reach(name)
        feeds = self._wires_of(side)
        before = self._wires_before(name)
        loads = {c.name for c in self.lines.consumers.values() if c.feed in side}
        returns = [
            account.name
            for account in accounts.values()
            if any(loads.intersection(line.asked.by) for line in account.lines)
        ]
        body = any(name in accounts and self._is_body(name) for name in returns)
        fuse = self.view.fuses[name].facts
        rated = fuse.rating is not None and fuse.rating.value is not None
        home = tuple(wire for wire in returns if wire not in feeds)
        return FuseLine(name, MayGoIn.OPEN, feeds, home, before, (), rated, body).judged(accounts, car)

    def _wires_of(self, nodes: Collection[str]) -> tuple[str, ...]:
        """The wires whose copper hangs together with these nodes."""
        found = {
            stretch.wire: None
            for node in nodes
            if node not in self.copper.home and node not in self.copper.hot
            for stretch in self.view.at_node.get(node, ())
        }
        return tuple(found)

    def _wires_before(self, name: str) -> tuple[str, ...]:
        """The wires between a fuse and its sources, further fuses on the way passed."""
        found: dict[str, None] = {}
        seen, todo = {name}, [f"{name}.feed"]
        while todo:
            side = self.copper.reach(todo.pop())
            seen.update(side)
            found.update(dict.fromkeys(self._wires_of(side)))
            for node in side:
                for piece in self.copper.at.get(node, ()):
                    other = piece.other(node)
                    if piece.limits and piece.kind != "output" and other not in seen and name not in (piece.name,):
                        if piece.kind == "link":
                            found.setdefault(piece.name)
                        if node == piece.name:  # the load side of a fuse: what is before that one
                            todo.append(other)
        return tuple(found)


def _missing(found: Iterable[Reason], told: Collection[Reason]) -> tuple[Reason, ...]:
    """Of these reasons those that are missing facts and are not told yet."""
    return tuple(dict.fromkeys(r for r in found if r.weight is Weight.MISSING and r not in told))


def _links(job: Job, view: View) -> dict[int, float | None]:
    """Stretches that are fusible link as they were put in, and what each lets through for good [A]. A piece let into a
    link is ordinary wire."""
    fusible = {name for name, kind in special_wires(job).items() if kind == "fusible link"}
    steps = job.limits_in_force["link steps"].value
    found: dict[int, float | None] = {}
    for index, stretch in enumerate(view.stretches):
        if stretch.wire not in fusible or stretch.origin not in ("", view.wires[stretch.wire].added_by):
            continue
        own = conductor_of(stretch.size, job)
        rating = planned_a(link_lets_through_area_mm2(own.area_mm2, steps)) if own is not None else None
        found[index] = rating.value if rating is not None else None
    return found


def _outputs(job: Job, net: Net) -> dict[str, tuple[float, float]]:
    """Cavity that feeds -> what its module lets out of it at least and at most [A]: what it is guarded to, as written;
    from nought to anything where that is not written."""
    found: dict[str, tuple[float, float]] = {}
    for name, module in job.modules.items():
        for cavity in module.out:
            node = f"{name}.{cavity}"
            if not module.gone and not net.is_data(node) and (node in net.links or node in net.load_at):
                written = module.guarded.get(cavity)
                found[node] = band(written.value if written is not None else None)
    return found


def _supply(copper: Copper, circuits: Mapping[str, Circuit], output: str) -> float:
    """What the fuses before a module's own supply let into it, so that no more can come out [A]; without limit where
    its supply is not on record."""
    module = output.partition(".")[0]
    record = copper.job.modules[module]
    fed = {c.feed_end for c in circuits.values() if c.feed_end.partition(".")[0] == module}
    own = (*record.out, *record.ground, *record.reference)
    others = {
        node
        for node in copper.at
        if node not in copper.hot and node.partition(".")[0] == module and node.partition(".")[2] not in own
    }
    parts = {copper.parts.get(node): node for node in sorted(fed | others)}
    most = sum(copper.push(node).most for node in parts.values())
    return most if fed and most > 0.0 else math.inf


def _chain(job: Job, ground: str) -> tuple[str, ...]:
    """A ground point and those that its way back goes on by."""
    found: dict[str, None] = {}
    at = ground
    while at in job.grounds and at not in found and at != BATTERY_NEGATIVE:
        found[at] = None
        at = job.grounds[at].back_to
    return tuple(found)
