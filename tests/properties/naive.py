"""A second, deliberately simple reading of the fold rules: wires are edges of a graph, a row edits the list of edges.

It shares nothing with the builder's own fold but the records of the job file. No place, no figure, no text: only what
is joined to what, how long it is, and which rows count. Lengths in millimetres, None = not recorded.
"""

from __future__ import annotations

import copy
import datetime
import math
from collections.abc import Iterable
from dataclasses import dataclass, field

from aswired.model import Change, Job
from aswired.units import Length
from aswired.written import Fate, JointMethod

LEAVES_NOTHING = ("gone", "pulled", "flush")


class Refused(Exception):
    """The row cannot have been done on the harness as it is (F15)."""


@dataclass
class Edge:
    """A stretch of conductor between two nodes."""

    wire: str
    a: str
    b: str
    length: float | None
    origin: str = ""
    offcut: str = ""
    via: str = ""

    def other(self, node: str) -> str:
        return self.b if node == self.a else self.a

    def ends(self) -> tuple[str, str]:
        return (self.a, self.b) if self.a <= self.b else (self.b, self.a)


@dataclass
class Splice:
    """A joint made by a row. `through` is the uncut wire of a tap."""

    row: str
    method: JointMethod | None
    overlap: float | None
    through: str = ""


@dataclass
class OnStud:
    """A ring terminal."""

    ground: str
    row: str
    wires: set[str]


@dataclass
class Account:
    """A piece on the rack and what was cut from it."""

    length: float | None
    cuts: list[float | None]


@dataclass
class FuseNote:
    """What is known of a fuse."""

    rating: str
    spare: bool
    rows: list[str] = field(default_factory=list)
    let_into: str = ""


@dataclass
class Line:
    """Conservation of one row on one wire (F18)."""

    row: str
    wire: str
    before: float | None
    piece: float | None
    after: float | None


@dataclass
class Car:
    """The harness at one moment."""

    job: Job
    edges: list[Edge] = field(default_factory=list)
    splices: dict[str, Splice] = field(default_factory=dict)
    stubs: dict[str, str] = field(default_factory=dict)
    rings: list[OnStud] = field(default_factory=list)
    rack: dict[str, Account] = field(default_factory=dict)
    opened: dict[str, list[str]] = field(default_factory=dict)
    ledger: list[Line] = field(default_factory=list)
    wires: set[str] = field(default_factory=set)
    barrels: dict[tuple[str, str], float | None] = field(default_factory=dict)  # (wire, end): strip in its new terminal
    by: dict[str, tuple[str, ...]] = field(default_factory=dict)
    fuses: dict[str, FuseNote] = field(default_factory=dict)
    relays: dict[str, list[str]] = field(default_factory=dict)
    swaps: list[dict[str, str]] = field(default_factory=list)  # old cavity -> new cavity, one for each connector

    def of(self, wire: str) -> list[Edge]:
        return [edge for edge in self.edges if edge.wire == wire]

    def nodes(self) -> set[str]:
        return {node for edge in self.edges for node in (edge.a, edge.b)}

    def at(self, node: str) -> list[Edge]:
        return [edge for edge in self.edges if node in (edge.a, edge.b)]

    def loose_ends(self, wire: str) -> list[str]:
        """Nodes where the wire ends: one of its own edges arrives there, not two."""
        arrivals = [node for edge in self.of(wire) for node in (edge.a, edge.b)]
        return [node for node in arrivals if arrivals.count(node) == 1]

    def length(self, wire: str) -> float | None:
        return total(edge.length for edge in self.of(wire))

    def effective(self, edge: Edge) -> float | None:
        """Length less the share of every joint and new terminal at its ends (L2, L4, M5)."""
        shares = [self.share(edge.wire, node) for node in (edge.a, edge.b) if node in self.splices]
        shares += [self.barrels[edge.wire, node] for node in (edge.a, edge.b) if (edge.wire, node) in self.barrels]
        return total([edge.length, *(None if share is None else -share for share in shares)])

    def share(self, wire: str, node: str) -> float | None:
        splice = self.splices[node]
        if splice.through:
            return 0.0 if wire == splice.through else splice.overlap
        swallowed = take_up(splice.method, splice.overlap)
        return None if swallowed is None else swallowed / 2

    def replaced(self) -> dict[str, str]:
        """Every cavity of a connector that was replaced, and the cavity that holds its wire after all swaps."""
        found = {}
        for number, swap in enumerate(self.swaps):
            for first in swap:
                last = first
                for later in self.swaps[number:]:
                    last = later.get(last, last)
                found[first] = last
        return found

    def from_terminal(self, wire: str, end: str, distance: float | None) -> float | None:
        """Conductor up to a cut: distances are taken from the barrel mouth, the strip lies before it."""
        return total([distance, self.barrels.get((wire, end), 0.0)])

    def beyond(self, wire: str, start: Edge, but_not: str = "") -> list[Edge]:
        """Edges of the wire that hang together with `start`, without passing the node `but_not`."""
        found, todo = [start], [start]
        while todo:
            edge = todo.pop()
            for node in {edge.a, edge.b} - {but_not}:
                for neighbour in self.of(wire):
                    if node in (neighbour.a, neighbour.b) and all(neighbour is not known for known in found):
                        found.append(neighbour)
                        todo.append(neighbour)
        return found


def total(terms: Iterable[float | None]) -> float | None:
    """Sum; None as soon as one term is not recorded."""
    listed = list(terms)
    known = [term for term in listed if term is not None]
    return float(sum(known)) if len(known) == len(listed) else None


def mm(length: Length | None) -> float | None:
    return None if length is None else length.mm


def take_up(method: JointMethod | None, overlap: float | None) -> float | None:
    """L2, two members."""
    if method is None or method.form == "unknown":
        return None
    if method.form == "butt":
        return 0.0
    if method.form == "closed-end":
        return None if overlap is None else 2 * overlap
    return overlap


# ---- which rows count, and in what order (F4, F5, F13, F14) ----------------------------------------------------------
def day_of(job: Job, row: Change) -> datetime.date | None:
    """The day a made row counts from; None = from the first (`made: yes` with nothing dated before it, M6)."""
    if row.made is None:
        return None
    if row.made.date is not None:
        return row.made.date
    dated = [r.made.date for r in job.changes[: job.changes.index(row)] if r.made is not None and r.made.date]
    return dated[-1] if dated else None


def condition(job: Job, row: Change) -> bool | None:
    """Whether `only if` holds on this car; None = the option is not known."""
    if row.only_if is None:
        return True
    option = job.options[row.only_if.option]
    if option.is_ == "unknown":
        return None
    return (option.is_ == row.only_if.value) != row.only_if.negated


def standing(job: Job, name: str, day: datetime.date | None) -> tuple[list[Change], dict[str, str]]:
    """The rows that count in a view, in the order they act, and the status of every row that does not."""
    status: dict[str, str] = {}
    counting: list[Change] = []
    for row in job.changes:
        made_on = day_of(job, row)
        holds = condition(job, row)
        late = made_on is not None and (day is None or made_on > day)
        if holds is None:
            status[row.id] = "undecided"
        elif not holds:
            status[row.id] = "not for this car"
        elif name == "donor" or (name != "plan" and (row.made is None or late)):
            status[row.id] = "not yet"
        else:
            counting.append(row)
    by_id = {row.id: row for row in counting}
    for row in counting:
        if row.corrects in by_id:
            status[row.corrects] = "corrected"
    for row in counting:
        if row.redoes in by_id and status.get(row.id) != "corrected" and status.get(row.redoes) != "corrected":
            status[row.redoes] = "redone"
    order = {row.id: number for number, row in enumerate(job.changes)}

    def acts_at(row: Change) -> int:
        while row.corrects in order:
            row = job.changes[order[row.corrects]]
        return order[row.id]

    return sorted((row for row in counting if row.id not in status), key=acts_at), status


def donor(job: Job) -> Car:
    """The harness before any row."""
    car = Car(job)
    known = {name: (wire.from_, wire.to, wire.via, mm(wire.length)) for name, wire in job.wires.items()}
    in_line = {name for name, plug in job.plugs.items() if plug.in_line}
    seated = [place for a, b, via, _ in known.values() for place in (a, b, via) if place.split(".")[0] in in_line]
    for name, (a, b, via, length) in known.items():
        if a == b == "unknown":
            a, b = f"unknown {name} 1", f"unknown {name} 2"
        a, b = (f"unknown {name}" if end == "unknown" else end for end in (a, b))
        if via and seated.count(via) > 1:  # F11: another wire sits there, so this one is two ends there
            car.edges += [Edge(name, a, via, None), Edge(name, via, b, None)]
        else:
            car.edges.append(Edge(name, a, b, length, via=via))
        car.wires.add(name)
        car.rings += [OnStud(end, "", {name}) for end in (a, b) if end in job.grounds]
    car.rack = {name: Account(offcut.length.mm, []) for name, offcut in job.offcuts.items()}
    car.by = {name: wire.by for name, wire in job.wires.items() if wire.by}
    for name, fuse in job.fuses.items():
        car.fuses[name] = FuseNote(fuse.rating.text if fuse.rating else "", fuse.use == "spare")
    return car


def fold(job: Job, name: str = "plan", day: datetime.date | None = None) -> tuple[Car, dict[str, str]]:
    """The harness in a view and the status of every row ('refused' also where the rules say 'not judged')."""
    rows, status = standing(job, name, day)
    car = donor(job)
    for row in rows:
        try:
            if any(status.get(name) == "refused" for name in (*row.over, *row.proves)):
                raise Refused("it rests on a row that was refused")
            car = applied(car, row)
            status[row.id] = "in force"
        except Refused:
            status[row.id] = "refused"
    return car, status


# ---- one row ---------------------------------------------------------------------------------------------------------
def applied(before: Car, row: Change) -> Car:
    """The harness after one row. Raises Refused and leaves `before` as it was."""
    car = copy.copy(before)
    car.edges = [copy.copy(edge) for edge in before.edges]
    car.splices, car.stubs, car.ledger = dict(before.splices), dict(before.stubs), list(before.ledger)
    car.rings = [OnStud(ring.ground, ring.row, set(ring.wires)) for ring in before.rings]
    car.rack = {name: Account(account.length, list(account.cuts)) for name, account in before.rack.items()}
    car.opened = {name: list(rows) for name, rows in before.opened.items()}
    car.wires, car.barrels = set(before.wires), dict(before.barrels)
    car.by, car.swaps = dict(before.by), list(before.swaps)
    car.fuses, car.relays = copy.deepcopy(before.fuses), copy.deepcopy(before.relays)
    pieces: dict[str, list[float | None]] = {}
    ACTS[row.kind](car, row, pieces)
    for edge in car.edges:
        if edge.length is not None and edge.length <= 0:
            raise Refused(f"{edge.wire} would have no length")
    _tidy(before, car, row, pieces)
    return car


def _tidy(before: Car, car: Car, row: Change, pieces: dict[str, list[float | None]]) -> None:
    nodes = car.nodes()
    car.splices = {name: splice for name, splice in car.splices.items() if name in nodes}
    car.stubs = {name: word for name, word in car.stubs.items() if name in nodes}
    for node in before.nodes():
        if len(car.at(node)) < len(before.at(node)):
            car.opened.setdefault(node, []).append(row.id)
    for ring in car.rings:
        ring.wires = {wire for wire in ring.wires if any(edge.wire == wire for edge in car.at(ring.ground))}
    studs = set(car.job.grounds) | {ring.ground for ring in car.rings} | ({row.to} if row.kind == "ground" else set())
    for ground in sorted(studs):
        for wire in sorted({edge.wire for edge in car.at(ground)}):
            ends = sum(edge.wire == wire for edge in car.at(ground))  # two when both ends sit on one stud
            held = sum(wire in ring.wires for ring in car.rings if ring.ground == ground)
            for _ in range(ends - held):
                _new_ring(car, row, ground, wire)
    car.rings = [ring for ring in car.rings if ring.wires]
    wires = {edge.wire for edge in before.edges + car.edges}
    touched = {wire for wire in wires if _shape(before, wire) != _shape(car, wire)}
    for wire in sorted(touched):
        car.ledger.append(
            Line(
                row.id,
                wire,
                before.length(wire) if before.of(wire) else 0.0,
                total(pieces.get(wire, [])),
                car.length(wire) if car.of(wire) else 0.0,
            )
        )
    for name, offcut in row.reclaimed.items():
        car.rack[name] = Account(offcut.length.mm, [])
    for name in row.spare:
        if name in car.fuses:
            car.fuses[name].spare = True
            car.fuses[name].rows.append(row.id)
    for name, account in car.rack.items():
        drawn = name in before.rack and len(account.cuts) > len(before.rack[name].cuts)
        left = total([account.length, *(None if cut is None else -cut for cut in account.cuts)])
        if drawn and left is not None and left < -1e-6 and row.made is None:
            raise Refused("the offcut is not long enough (M3)")


def _shape(car: Car, wire: str) -> list[tuple[object, ...]]:
    return sorted((edge.ends(), repr(edge.length), edge.origin) for edge in car.of(wire))


def _new_ring(car: Car, row: Change, ground: str, wire: str) -> None:
    if row.ring is not None and row.ring.shared_with and ground == row.to:
        for ring in car.rings:
            if ring.ground == ground and ring.row == row.ring.shared_with:
                ring.wires.add(wire)
                return
        raise Refused(f"no ring of {row.ring.shared_with} on {ground}")
    car.rings.append(OnStud(ground, row.id, {wire}))


def _wire(car: Car, wire: str) -> list[Edge]:
    found = car.of(wire)
    if not found:
        raise Refused(f"{wire} is not in the car")
    return found


def _end(car: Car, wire: str, name: str) -> str:
    _wire(car, wire)
    node = f"unknown {wire}" if name == "unknown" else name
    if name == "unknown" and sum(end.startswith("unknown ") for end in car.loose_ends(wire)) > 1:
        raise Refused(f"which untraced end of {wire} is meant is not said")
    if node not in car.loose_ends(wire):
        raise Refused(f"{wire} has no end at {name}")
    return node


def _at_plug(car: Car, wire: str, plug: str) -> str:
    _wire(car, wire)
    found = [end for end in car.loose_ends(wire) if end.rpartition(".")[0] == plug]
    if len(found) != 1:
        raise Refused(f"{wire} has {len(found)} ends in {plug}")
    return found[0]


def edge_at(car: Car, wire: str, end: str) -> Edge:
    return next(edge for edge in car.of(wire) if end in (edge.a, edge.b))


def _far_end(car: Car, wire: str, end: str) -> str:
    """The end of the wire that hangs together with `end`."""
    part = car.beyond(wire, edge_at(car, wire, end))
    found = [node for node in car.loose_ends(wire) if node != end and any(node in (e.a, e.b) for e in part)]
    if len(found) != 1:
        raise Refused(f"{wire} has not one other end")
    return found[0]


def _free(car: Car, place: str) -> None:
    """F11: one wire end in a cavity, two where a plug in line goes through."""
    owner = place.rpartition(".")[0]
    if not owner or owner in car.fuses:
        return
    taken = len(car.at(place)) + 2 * sum(edge.via == place for edge in car.edges)
    most = 2 if owner in car.job.plugs and car.job.plugs[owner].in_line else 1
    if taken >= most:
        raise Refused(f"{place} is not free")


def _method(car: Car, row: Change) -> JointMethod | None:
    return row.joint or car.job.usual.joint


def _overlap(car: Car, row: Change) -> float | None:
    return mm(row.overlap or car.job.usual.overlap)


def _splice(car: Car, row: Change, name: str, through: str = "") -> str:
    car.splices[name] = Splice(row.id, _method(car, row), _overlap(car, row), through)
    return name


def _piece_length(car: Car, row: Change, wire: str, gap: float | None, *swallowed: float | None) -> float | None:
    """L3, L4: gap + slack + what joints and barrels swallow, up to the next step (L9); a recorded cut wins (M4)."""
    length = mm(row.cut)
    if length is None:
        length = total([gap, mm(row.slack or car.job.usual.slack), *swallowed])
        step = mm(car.job.usual.cut_to_next)
        if length is not None and step:
            length = math.ceil(length / step - 1e-9) * step
    if length is not None and length <= 0:
        raise Refused("no piece is needed")
    piece = row.piece_of(wire)
    if piece is not None and piece.offcut:
        car.rack.setdefault(piece.offcut, Account(None, [])).cuts.append(length)
    return length


def _offcut(row: Change, wire: str) -> str:
    piece = row.piece_of(wire)
    return "" if piece is None else piece.offcut


def _gap(row: Change, *kept: float | None) -> float | None:
    if row.gap is not None:
        return row.gap.mm
    return total([mm(row.reach), *(None if part is None else -part for part in kept)])


Pieces = dict[str, list[float | None]]


def _remove(car: Car, row: Change, pieces: Pieces) -> None:
    for wire in row.wire_names:
        fates = row.fates_of(wire)
        ends = {_end(car, wire, name): fate for name, fate in fates.items()}
        if set(ends) != set(car.loose_ends(wire)):
            raise Refused("the fate of an end is not said")
        stubs = []
        left: dict[int, list[float]] = {}
        for end, fate in ends.items():
            if fate.word not in LEAVES_NOTHING:
                old = edge_at(car, wire, end)
                name = f"{row.id}-{wire}-{end}"
                stubs.append(Edge(wire, end, name, car.from_terminal(wire, end, mm(fate.stub)), old.origin, old.offcut))
                left.setdefault(id(old), []).append(stubs[-1].length or 0.0)
                car.stubs[name] = fate.word
        for edge in car.of(wire):
            if edge.length is not None and sum(left.get(id(edge), [])) > edge.length:
                raise Refused("the stubs are longer than the wire")
        car.edges = [edge for edge in car.edges if edge.wire != wire] + stubs


def _cap(car: Car, row: Change, pieces: Pieces) -> None:
    wire = row.wire
    end = _end(car, wire, row.end)
    far = _far_end(car, wire, end)
    edge = edge_at(car, wire, end)
    stub = car.from_terminal(wire, end, mm(row.stub))
    if edge.length is not None and stub is not None and stub >= edge.length:
        raise Refused("the stub is longer than what lies there")
    near_name, far_name = f"{row.id}-{wire}-{end}", f"{row.id}-{wire}-{far}"
    fate = row.far or Fate("unknown", "unknown", None)
    rest = total([edge.length, None if stub is None else -stub])
    kept = Edge(wire, end, near_name, stub, edge.origin, edge.offcut)
    cut_off = Edge(wire, far_name, edge.other(end), rest, edge.origin, edge.offcut, edge.via)
    behind = [e for e in car.beyond(wire, edge, but_not=end) if e is not edge]
    car.stubs[near_name] = "capped"
    car.edges = [e for e in car.edges if e is not edge] + [kept]
    if fate.word in LEAVES_NOTHING:
        car.edges = [e for e in car.edges if all(e is not gone for gone in behind)]
    else:
        car.edges.append(cut_off)
        car.stubs[far_name] = fate.word


def _extend(car: Car, row: Change, pieces: Pieces) -> None:
    for number, wire in enumerate(row.wire_names):
        if row.plug:
            end = _at_plug(car, wire, row.plug)
            moved, fixed = f"{row.id}-{wire}-plug", f"{row.id}-{wire}-loom"
        else:
            end = _end(car, wire, row.end)
            moved, fixed = f"{row.id}-{wire}-{end}", f"{row.id}-{wire}-{_far_end(car, wire, end)}"
        old = edge_at(car, wire, end)
        first, stagger = mm(row.pigtail), mm(row.stagger or car.job.usual.stagger)
        pigtail = first if number == 0 else total([first, None if stagger is None else number * stagger])
        tail = mm(row.tail)
        near, far = car.from_terminal(wire, end, pigtail), car.from_terminal(wire, old.other(end), tail)
        if old.length is not None and (near or pigtail or 0) + (far or tail or 0) > old.length:
            raise Refused("the cut lies beyond the stretch")
        rest = far if tail is not None else total([old.length, None if near is None else -near])
        o = take_up(_method(car, row), _overlap(car, row))
        piece = _piece_length(car, row, wire, _gap(row, tail, first), o, o)
        pieces.setdefault(wire, []).append(piece)
        _splice(car, row, moved)
        _splice(car, row, fixed)
        at_plug = bool(row.plug) and old.via.rpartition(".")[0] == row.plug
        car.edges = [e for e in car.edges if e is not old] + [
            Edge(wire, end, moved, near, old.origin, old.offcut, old.via if at_plug else ""),
            Edge(wire, moved, fixed, piece, row.id, _offcut(row, wire)),
            Edge(wire, fixed, old.other(end), rest, old.origin, old.offcut, "" if at_plug else old.via),
        ]


def _shorten(car: Car, row: Change, pieces: Pieces) -> None:
    for wire in row.wire_names:
        end = _at_plug(car, wire, row.plug) if row.plug else _end(car, wire, row.end)
        old = edge_at(car, wire, end)
        swallowed = mm(car.job.usual.ring_strip) if row.terminal else take_up(_method(car, row), _overlap(car, row))
        out = mm(row.take_out)
        slack = mm(row.slack or car.job.usual.slack)
        minus = [None if term is None else -term for term in (slack, swallowed)]
        reach = mm(row.new_reach or row.reach)
        if out is None and reach is not None:
            whole = total(car.effective(e) for e in car.beyond(wire, old))
            out = total([whole, -reach, *minus])
        elif out is None and row.gap is not None and row.gap.mm is not None:
            out = total([-row.gap.mm, *minus])
        if out is not None and out <= 0:
            raise Refused("there is nothing to take out")
        pigtail = car.from_terminal(wire, end, mm(row.pigtail))
        tail = car.from_terminal(wire, old.other(end), mm(row.tail))
        if old.length is not None and (out or 0) + (pigtail or 0) + (tail or 0) > old.length:
            raise Refused("more is taken out than lies there")
        less = None if out is None else -out
        if row.terminal:
            old.length = total([old.length, less])
            _crimp(car, wire, end)
            continue
        rest = tail if tail is not None else total([old.length, less, None if pigtail is None else -pigtail])
        joint = _splice(car, row, f"{row.id}-{wire}" if row.wires else row.id)
        car.edges = [e for e in car.edges if e is not old] + [
            Edge(wire, end, joint, pigtail, old.origin, old.offcut),
            Edge(wire, joint, old.other(end), rest, old.origin, old.offcut, old.via),
        ]


def _move(car: Car, edge: Edge, old: str, new: str) -> None:
    """Move one end of an edge to another node."""
    if edge.a == old:
        edge.a = new
    else:
        edge.b = new


def _crimp(car: Car, wire: str, end: str) -> None:
    """A new terminal: the strip in its barrel reaches nowhere."""
    car.barrels[wire, end] = mm(car.job.usual.ring_strip)


def cut_off(car: Car, edge: Edge, end: str) -> float | None:
    """Length of a stretch when the terminal at its end is cut off: a new terminal takes its strip along."""
    strip = car.barrels.pop((edge.wire, end), 0.0)
    return total([edge.length, None if strip is None else -strip])


def _new_end(car: Car, row: Change, pieces: Pieces) -> None:
    """ground and terminate: one end gets a new terminal, with a piece in between when one is written."""
    for wire in row.wire_names:
        _wire(car, wire)
        end = _end(car, wire, row.end or "unknown")
        to = row.into or row.to
        if to == end:
            raise Refused(f"{end} is there already")
        _free(car, to)
        old = edge_at(car, wire, end)
        if row.piece_of(wire) is None and row.gap is None and row.cut is None:
            if to in car.loose_ends(wire):
                raise Refused("both ends would sit in one place")
            old.length = cut_off(car, old, end)
            _move(car, old, end, to)
            _crimp(car, wire, to)
            continue
        stated = mm(row.pigtail or row.tail)
        kept = cut_off(car, old, end)
        if row.pigtail or row.tail:
            kept = car.from_terminal(wire, old.other(end), stated)
        if old.length is not None and kept is not None and kept > old.length:
            raise Refused("the cut lies beyond the stretch")
        o = take_up(_method(car, row), _overlap(car, row))
        piece = _piece_length(car, row, wire, _gap(row, stated), o, mm(car.job.usual.ring_strip))
        pieces.setdefault(wire, []).append(piece)
        joint = _splice(car, row, f"{row.id}-{wire}" if row.wires else row.id)
        _move(car, old, end, joint)
        old.length = kept
        _crimp(car, wire, to)
        car.edges.append(Edge(wire, joint, to, piece, row.id, _offcut(row, wire)))


def _join(car: Car, row: Change, pieces: Pieces) -> None:
    members: list[tuple[Edge, str]] = []
    for words in row.ends:
        wire, _, place = words.partition(" at ")
        if place:
            node = _end(car, wire, place)
            members.append((edge_at(car, wire, node), node))
        elif (stub := resolved(car, words)) in car.stubs:
            members.append((car.at(stub)[0], stub))
        else:
            raise Refused(f"there is no end {words}")
    if len({(id(edge), node) for edge, node in members}) < 2:
        raise Refused("a splice has two ends at least")
    joint = _splice(car, row, row.id)
    for edge, node in members:
        edge.length = cut_off(car, edge, node)
        _move(car, edge, node, joint)


def _tap(car: Car, row: Change, pieces: Pieces) -> None:
    end = _end(car, row.wire, row.end or "unknown")
    through = _wire(car, row.onto)
    if len(through) != 1 or row.onto == row.wire:
        raise Refused("it is not said which stretch is tapped")
    joint = _splice(car, row, row.id, row.onto)
    tapped = edge_at(car, row.wire, end)
    tapped.length = cut_off(car, tapped, end)
    _move(car, tapped, end, joint)
    old = through[0]
    start = _end(car, row.onto, row.from_) if row.from_ else old.a
    first = car.from_terminal(row.onto, start, mm(row.tail)) if row.from_ else None
    if old.length is not None and first is not None and first > old.length:
        raise Refused("the tap lies beyond the wire")
    rest = total([old.length, None if first is None else -first])
    car.edges = [edge for edge in car.edges if edge is not old] + [
        Edge(row.onto, start, joint, first, old.origin, old.offcut),
        Edge(row.onto, joint, old.other(start), rest, old.origin, old.offcut, old.via),
    ]


def resolved(car: Car, name: str) -> str:
    """The splice or cut end that a full id, or a shorter form of one only, names (F3); else the name itself."""
    made = [*car.splices, *car.stubs]
    longer = [full for full in made if full.startswith(f"{name}-")]
    return longer[0] if name not in made and len(longer) == 1 else name


def _add(car: Car, row: Change, pieces: Pieces) -> None:
    if row.wire in car.wires:
        raise Refused(f"{row.wire} is not new")
    swallowed, ends = [], []
    ids = {change.id for change in car.job.changes}
    for name in (row.from_, row.to):
        end = resolved(car, name)
        if end in car.stubs:  # a cut end and the new lead make a splice
            joint = _splice(car, row, row.id)
            _move(car, car.at(end)[0], end, joint)
            end = joint
        if end in car.splices:
            swallowed.append(take_up(_method(car, row), _overlap(car, row)))
        elif end.partition("-")[0] in ids:
            raise Refused(f"there is no splice {end}")
        else:
            _free(car, end)
            _crimp(car, row.wire, end)
            swallowed.append(mm(car.job.usual.ring_strip))
        ends.append(end)
    length = _piece_length(car, row, row.wire, mm(row.reach), *swallowed)
    pieces[row.wire] = [length]
    car.wires.add(row.wire)
    car.edges.append(Edge(row.wire, ends[0], ends[1], length, row.id, _offcut(row, row.wire)))


def _reroute(car: Car, row: Change, pieces: Pieces) -> None:
    """F20: only the way is another one."""
    there = {end for leg in car.job.route for end in (leg.from_, leg.to)}
    if not set(row.by) <= there:
        raise Refused("a landmark is not on the route")
    for wire in row.wire_names:
        _wire(car, wire)
        car.by[wire] = row.by


def _live_end(car: Car, wire: str, end: str) -> str | None:
    """F21: which end of this part of the wire is fed, as far as the two places where it ends tell it."""

    def what(place: str) -> str:
        owner, _, cavity = place.rpartition(".")
        module = car.job.modules.get(owner)
        if place == "battery+" or place in car.fuses:
            return "source"
        if module is not None and cavity in module.out and not module.out[cavity].startswith("data"):
            return "source"
        if place == "battery-" or place in car.job.grounds or place in {ring.ground for ring in car.rings}:
            return "drain"
        fed_there = owner in car.fuses and cavity == "feed"
        return "drain" if fed_there or (module is not None and cavity in module.ground) else ""

    far = _far_end(car, wire, end)
    match what(end), what(far):
        case ("source", "") | ("source", "drain") | ("", "drain"):
            return end
        case ("", "source") | ("drain", "source") | ("drain", ""):
            return far
    return None


def _protect(car: Car, row: Change, pieces: Pieces) -> None:
    if row.relay:
        car.relays.setdefault(row.relay, []).append(row.id)
        return
    name = row.fuse
    note = car.fuses.setdefault(name, FuseNote("", False))
    note.rows.append(row.id)
    note.spare = row.use == "spare"
    if row.rating is not None:
        note.rating = row.rating.text
    if not row.wire:
        return
    wire, end = row.wire, _end(car, row.wire, row.end)
    feed, old = f"{name}.feed", edge_at(car, row.wire, end)
    live = _live_end(car, wire, end)
    if row.tail is None:  # the end itself moves
        on_feed_side = end.endswith(".feed") if end.removesuffix(".feed") in car.fuses else live not in (None, end)
        to = feed if on_feed_side else name
        if to in car.loose_ends(wire):
            raise Refused("an end sits there already")
        if row.terminal:
            old.length = cut_off(car, old, end)
            _crimp(car, wire, to)
        elif (wire, end) in car.barrels:
            car.barrels[wire, to] = car.barrels.pop((wire, end))
        _move(car, old, end, to)
        return
    if car.at(name) or car.at(feed):
        raise Refused("the fuse sits elsewhere")
    first = car.from_terminal(wire, end, row.tail.mm)
    if old.length is not None and first is not None and first >= old.length:
        raise Refused("the fuse would lie beyond the stretch")
    near, far = (feed, name) if live in (None, end) else (name, feed)
    rest = total([old.length, None if first is None else -first])
    car.edges = [edge for edge in car.edges if edge is not old] + [
        Edge(wire, end, near, first, old.origin, old.offcut),
        Edge(wire, far, old.other(end), rest, old.origin, old.offcut, old.via),
    ]
    for side in (near, far):
        _crimp(car, wire, side)
    note.let_into = wire


def _bridge(car: Car, row: Change, pieces: Pieces) -> None:
    """F22: two free ends meet in a splice, or a jumper is laid; the cavities it plugs into may hold wires."""
    one, two = row.ends
    cut = [resolved(car, words) in car.stubs for words in (one, two)]
    whole = [" at " in words for words in (one, two)]
    jumper = any((row.piece, row.cut, row.reach, row.wire))
    if not jumper and all(a or b for a, b in zip(cut, whole, strict=True)):
        _join(car, row, pieces)
        return
    if any(whole):
        raise Refused("a wire that is whole is no place for a jumper")
    name = row.wire or row.id
    if name in car.wires:
        raise Refused(f"{name} is not new")
    ends, swallowed = [], []
    ids = {change.id for change in car.job.changes}
    for words in (one, two):
        end = resolved(car, words)
        if end in car.stubs:
            joint = _splice(car, row, f"{row.id}-{words}" if row.id in car.splices else row.id)
            _move(car, car.at(end)[0], end, joint)
            end = joint
        if end in car.splices:
            swallowed.append(take_up(_method(car, row), _overlap(car, row)))
        elif end.partition("-")[0] in ids:
            raise Refused(f"there is no splice {end}")
        else:
            _crimp(car, name, end)
            swallowed.append(mm(car.job.usual.ring_strip))
        ends.append(end)
    if ends[0] == ends[1]:
        raise Refused("a bridge has two ends")
    length = _piece_length(car, row, name, mm(row.reach), *swallowed)
    pieces[name] = [length]
    car.wires.add(name)
    car.edges.append(Edge(name, ends[0], ends[1], length, row.id, _offcut(row, name)))


def _swap(car: Car, row: Change, pieces: Pieces) -> None:
    """F23: every wire end in the old connector goes where the map says, all at once."""
    if not row.seen_from:
        raise Refused("from which side the map is read is not said")
    seats = [(edge, which) for edge in car.edges for which in ("a", "b", "via")]
    seats = [(edge, which) for edge, which in seats if getattr(edge, which).rpartition(".")[0] == row.plug]
    seats.sort(key=lambda seat: (seat[0].ends(), getattr(*seat)))
    goals = [new for new in row.cavities.values() if new != "unknown"]
    if not seats or len(set(goals)) < len(goals) or row.plug == row.new_plug:
        raise Refused("there is nothing to move, or two go to one place")
    held = {place for edge in car.edges for place in (edge.a, edge.b, edge.via)}
    moved: dict[str, str] = {}
    untraced: dict[str, int] = {}
    for edge, which in seats:
        old = getattr(edge, which)
        cavity = old.rpartition(".")[2]
        if cavity not in row.cavities:
            raise Refused(f"{old} is not in the map")
        new = f"{row.new_plug}.{row.cavities[cavity]}"
        if row.cavities[cavity] == "unknown":
            if which == "via":
                edge.via = ""
                continue
            others = [place for place in held if place == f"unknown {edge.wire}"]
            untraced[edge.wire] = untraced.get(edge.wire, len(others)) + 1
            new = f"unknown {edge.wire}" + (f" {untraced[edge.wire]}" if untraced[edge.wire] > 1 else "")
        elif new in held:
            raise Refused(f"{new} is taken")
        else:
            moved[old] = new
        if which != "via":
            if row.terminal:
                edge.length = cut_off(car, edge, old)
                _crimp(car, edge.wire, new)
            elif (edge.wire, old) in car.barrels:
                car.barrels[edge.wire, new] = car.barrels.pop((edge.wire, old))
        setattr(edge, which, new)
    car.swaps.append(moved)


def _nothing(car: Car, row: Change, pieces: Pieces) -> None:
    """cover, verify: the wires stay as they are."""


ACTS = {
    "remove": _remove,
    "cap": _cap,
    "extend": _extend,
    "shorten": _shorten,
    "ground": _new_end,
    "terminate": _new_end,
    "join": _join,
    "tap": _tap,
    "add": _add,
    "reroute": _reroute,
    "protect": _protect,
    "bridge": _bridge,
    "swap": _swap,
    "cover": _nothing,
    "verify": _nothing,
}
