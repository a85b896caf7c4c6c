"""The harness of the naive reading: wires are edges of a graph; what a row may look up in it and do to it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

from aswired.record import Change, Job
from aswired.text.one_line import JointMethod
from aswired.text.units import Length

Pieces = dict[str, list[float | None]]  # wire -> the pieces that a row lets into it
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
    conductor_account: list[Line] = field(default_factory=list)
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


def wire_edges(car: Car, wire: str) -> list[Edge]:
    found = car.of(wire)
    if not found:
        raise Refused(f"{wire} is not in the car")
    return found


def end_of(car: Car, wire: str, name: str) -> str:
    wire_edges(car, wire)
    node = f"unknown {wire}" if name == "unknown" else name
    if name == "unknown" and sum(end.startswith("unknown ") for end in car.loose_ends(wire)) > 1:
        raise Refused(f"which untraced end of {wire} is meant is not said")
    if node not in car.loose_ends(wire):
        raise Refused(f"{wire} has no end at {name}")
    return node


def end_at_plug(car: Car, wire: str, plug: str) -> str:
    wire_edges(car, wire)
    found = [end for end in car.loose_ends(wire) if end.rpartition(".")[0] == plug]
    if len(found) != 1:
        raise Refused(f"{wire} has {len(found)} ends in {plug}")
    return found[0]


def edge_at(car: Car, wire: str, end: str) -> Edge:
    return next(edge for edge in car.of(wire) if end in (edge.a, edge.b))


def far_end(car: Car, wire: str, end: str) -> str:
    """The end of the wire that hangs together with `end`."""
    part = car.beyond(wire, edge_at(car, wire, end))
    found = [node for node in car.loose_ends(wire) if node != end and any(node in (e.a, e.b) for e in part)]
    if len(found) != 1:
        raise Refused(f"{wire} has not one other end")
    return found[0]


def must_be_free(car: Car, place: str) -> None:
    """F11: one wire end in a cavity, two where a plug in line goes through."""
    owner = place.rpartition(".")[0]
    if not owner or owner in car.fuses:
        return
    taken = len(car.at(place)) + 2 * sum(edge.via == place for edge in car.edges)
    most = 2 if owner in car.job.plugs and car.job.plugs[owner].in_line else 1
    if taken >= most:
        raise Refused(f"{place} is not free")


def method_of(car: Car, row: Change) -> JointMethod | None:
    return row.joint or car.job.usual.joint


def overlap_of(car: Car, row: Change) -> float | None:
    return mm(row.overlap or car.job.usual.overlap)


def new_splice(car: Car, row: Change, name: str, through: str = "") -> str:
    car.splices[name] = Splice(row.id, method_of(car, row), overlap_of(car, row), through)
    return name


def piece_length(car: Car, row: Change, wire: str, gap: float | None, *swallowed: float | None) -> float | None:
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


def offcut_of(row: Change, wire: str) -> str:
    piece = row.piece_of(wire)
    return "" if piece is None else piece.offcut


def gap_of(row: Change, *kept: float | None) -> float | None:
    if row.gap is not None:
        return row.gap.mm
    return total([mm(row.reach), *(None if part is None else -part for part in kept)])


def move(car: Car, edge: Edge, old: str, new: str) -> None:
    """Move one end of an edge to another node."""
    if edge.a == old:
        edge.a = new
    else:
        edge.b = new


def crimp(car: Car, wire: str, end: str) -> None:
    """A new terminal: the strip in its barrel reaches nowhere."""
    car.barrels[wire, end] = mm(car.job.usual.ring_strip)


def cut_off(car: Car, edge: Edge, end: str) -> float | None:
    """Length of a stretch when the terminal at its end is cut off: a new terminal takes its strip along."""
    strip = car.barrels.pop((edge.wire, end), 0.0)
    return total([edge.length, None if strip is None else -strip])


def resolved(car: Car, name: str) -> str:
    """The splice or cut end that a full id, or a shorter form of one only, names (F3); else the name itself."""
    made = [*car.splices, *car.stubs]
    longer = [full for full in made if full.startswith(f"{name}-")]
    return longer[0] if name not in made and len(longer) == 1 else name
