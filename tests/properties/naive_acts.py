"""The naive reading of the kinds that cut, lengthen, move and join wires."""

from __future__ import annotations

from aswired.record import Change
from aswired.text.one_line import Fate
from properties.naive_car import (
    LEAVES_NOTHING,
    Car,
    Edge,
    Pieces,
    Refused,
    crimp,
    cut_off,
    edge_at,
    end_at_plug,
    end_of,
    far_end,
    gap_of,
    method_of,
    mm,
    move,
    must_be_free,
    new_splice,
    offcut_of,
    overlap_of,
    piece_length,
    resolved,
    take_up,
    total,
    wire_edges,
)


def remove(car: Car, row: Change, pieces: Pieces) -> None:
    for wire in row.wire_names:
        fates = row.fates_of(wire)
        ends = {end_of(car, wire, name): fate for name, fate in fates.items()}
        if set(ends) != set(car.loose_ends(wire)):
            raise Refused("the fate of an end is not said")
        stubs = []
        left: dict[int, list[float]] = {}
        for end, fate in ends.items():
            if fate.word not in LEAVES_NOTHING:
                old = edge_at(car, wire, end)
                name = f"{row.id}-{wire}-{end}".replace(" ", "-")
                stubs.append(Edge(wire, end, name, car.from_terminal(wire, end, mm(fate.stub)), old.origin, old.offcut))
                left.setdefault(id(old), []).append(stubs[-1].length or 0.0)
                car.stubs[name] = fate.word
        for edge in car.of(wire):
            if edge.length is not None and sum(left.get(id(edge), [])) > edge.length:
                raise Refused("the stubs are longer than the wire")
        car.edges = [edge for edge in car.edges if edge.wire != wire] + stubs


def cap(car: Car, row: Change, pieces: Pieces) -> None:
    wire = row.wire
    end = end_of(car, wire, row.end)
    far = far_end(car, wire, end)
    edge = edge_at(car, wire, end)
    stub = car.from_terminal(wire, end, mm(row.stub))
    if edge.length is not None and stub is not None and stub >= edge.length:
        raise Refused("the stub is longer than what lies there")
    near_name, far_name = f"{row.id}-{wire}-{end}".replace(" ", "-"), f"{row.id}-{wire}-{far}".replace(" ", "-")
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


def extend(car: Car, row: Change, pieces: Pieces) -> None:
    for number, wire in enumerate(row.wire_names):
        if row.plug:
            end = end_at_plug(car, wire, row.plug)
            moved, fixed = f"{row.id}-{wire}-plug", f"{row.id}-{wire}-loom"
        else:
            end = end_of(car, wire, row.end)
            moved, fixed = (
                f"{row.id}-{wire}-{end}".replace(" ", "-"),
                f"{row.id}-{wire}-{far_end(car, wire, end)}".replace(" ", "-"),
            )
        old = edge_at(car, wire, end)
        first, stagger = mm(row.pigtail), mm(row.stagger or car.job.usual.stagger)
        pigtail = first if number == 0 else total([first, None if stagger is None else number * stagger])
        tail = mm(row.tail)
        near, far = car.from_terminal(wire, end, pigtail), car.from_terminal(wire, old.other(end), tail)
        if old.length is not None and (near or pigtail or 0) + (far or tail or 0) > old.length:
            raise Refused("the cut lies beyond the stretch")
        rest = far if tail is not None else total([old.length, None if near is None else -near])
        o = take_up(method_of(car, row), overlap_of(car, row))
        piece = piece_length(car, row, wire, gap_of(row, tail, first), o, o)
        pieces.setdefault(wire, []).append(piece)
        new_splice(car, row, moved)
        new_splice(car, row, fixed)
        at_plug = bool(row.plug) and old.via.rpartition(".")[0] == row.plug
        car.edges = [e for e in car.edges if e is not old] + [
            Edge(wire, end, moved, near, old.origin, old.offcut, old.via if at_plug else ""),
            Edge(wire, moved, fixed, piece, row.id, offcut_of(row, wire)),
            Edge(wire, fixed, old.other(end), rest, old.origin, old.offcut, "" if at_plug else old.via),
        ]


def shorten(car: Car, row: Change, pieces: Pieces) -> None:
    for wire in row.wire_names:
        end = end_at_plug(car, wire, row.plug) if row.plug else end_of(car, wire, row.end)
        old = edge_at(car, wire, end)
        swallowed = mm(car.job.usual.ring_strip) if row.terminal else take_up(method_of(car, row), overlap_of(car, row))
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
            crimp(car, wire, end)
            continue
        rest = tail if tail is not None else total([old.length, less, None if pigtail is None else -pigtail])
        joint = new_splice(car, row, f"{row.id}-{wire}" if row.wires else row.id)
        car.edges = [e for e in car.edges if e is not old] + [
            Edge(wire, end, joint, pigtail, old.origin, old.offcut),
            Edge(wire, joint, old.other(end), rest, old.origin, old.offcut, old.via),
        ]


def is_on_a_part(car: Car, place: str) -> bool:
    """Whether a wire end sits in a cavity of a plug or module."""
    owner = place.rpartition(".")[0]
    return bool(owner) and owner not in car.fuses and place not in (*car.splices, *car.stubs)


def new_end(car: Car, row: Change, pieces: Pieces) -> None:
    """ground and terminate: one end gets a new terminal, with a piece in between when one is written."""
    for wire in row.wire_names:
        wire_edges(car, wire)
        end = end_of(car, wire, row.end or "unknown")
        to = row.into or row.to
        if to == end:
            raise Refused(f"{end} is there already")
        must_be_free(car, to)
        old = edge_at(car, wire, end)
        if row.piece_of(wire) is None and row.gap is None and row.cut is None:
            if to in car.loose_ends(wire):
                raise Refused("both ends would sit in one place")
            old.length = cut_off(car, old, end)
            move(car, old, end, to)
            crimp(car, wire, to)
            continue
        if row.pigtail and not is_on_a_part(car, old.other(end)):
            raise Refused("a pigtail stays on a plug")
        stated = mm(row.pigtail or row.tail)
        kept = cut_off(car, old, end)
        if row.pigtail or row.tail:
            kept = car.from_terminal(wire, old.other(end), stated)
        if old.length is not None and kept is not None and kept > old.length:
            raise Refused("the cut lies beyond the stretch")
        o = take_up(method_of(car, row), overlap_of(car, row))
        piece = piece_length(car, row, wire, gap_of(row, stated), o, mm(car.job.usual.ring_strip))
        pieces.setdefault(wire, []).append(piece)
        joint = new_splice(car, row, f"{row.id}-{wire}" if row.wires else row.id)
        move(car, old, end, joint)
        old.length = kept
        crimp(car, wire, to)
        car.edges.append(Edge(wire, joint, to, piece, row.id, offcut_of(row, wire)))


def join(car: Car, row: Change, pieces: Pieces) -> None:
    members: list[tuple[Edge, str]] = []
    for words in row.ends:
        wire, _, place = words.partition(" at ")
        if place:
            node = end_of(car, wire, place)
            members.append((edge_at(car, wire, node), node))
        elif (stub := resolved(car, words)) in car.stubs:
            members.append((car.at(stub)[0], stub))
        else:
            raise Refused(f"there is no end {words}")
    if len({(id(edge), node) for edge, node in members}) < 2:
        raise Refused("a splice has two ends at least")
    joint = new_splice(car, row, row.id)
    for edge, node in members:
        edge.length = cut_off(car, edge, node)
        move(car, edge, node, joint)


def tap(car: Car, row: Change, pieces: Pieces) -> None:
    there = row.wire in car.wires  # else a new lead
    end = end_of(car, row.wire, row.end or "unknown") if there else ""
    through = wire_edges(car, row.onto)
    if len(through) != 1 or row.onto == row.wire:
        raise Refused("it is not said which stretch is tapped")
    joint = new_splice(car, row, row.id, row.onto)
    if there:
        tapped = edge_at(car, row.wire, end)
        tapped.length = cut_off(car, tapped, end)
        move(car, tapped, end, joint)
    old = through[0]
    start = end_of(car, row.onto, row.from_) if row.from_ else old.a
    first = car.from_terminal(row.onto, start, mm(row.tail)) if row.from_ else None
    if old.length is not None and first is not None and first > old.length:
        raise Refused("the tap lies beyond the wire")
    rest = total([old.length, None if first is None else -first])
    car.edges = [edge for edge in car.edges if edge is not old] + [
        Edge(row.onto, start, joint, first, old.origin, old.offcut),
        Edge(row.onto, joint, old.other(start), rest, old.origin, old.offcut, old.via),
    ]
    if not there:  # it lies along the wire that is not cut with its own overlap, and ends in a new terminal
        must_be_free(car, row.to)
        crimp(car, row.wire, row.to)
        length = piece_length(car, row, row.wire, mm(row.reach), overlap_of(car, row), mm(car.job.usual.ring_strip))
        pieces[row.wire] = [length]
        car.wires.add(row.wire)
        car.edges.append(Edge(row.wire, joint, row.to, length, row.id, offcut_of(row, row.wire)))


def add(car: Car, row: Change, pieces: Pieces) -> None:
    if row.wire in car.wires:
        raise Refused(f"{row.wire} is not new")
    swallowed, ends = [], []
    ids = {change.id for change in car.job.changes}
    for name in (row.from_, row.to):
        end = resolved(car, name)
        if end in car.stubs:  # a cut end and the new lead make a splice
            joint = new_splice(car, row, row.id)
            move(car, car.at(end)[0], end, joint)
            end = joint
        if end in car.splices:
            swallowed.append(take_up(method_of(car, row), overlap_of(car, row)))
        elif end.partition("-")[0] in ids:
            raise Refused(f"there is no splice {end}")
        else:
            must_be_free(car, end)
            crimp(car, row.wire, end)
            swallowed.append(mm(car.job.usual.ring_strip))
        ends.append(end)
    length = piece_length(car, row, row.wire, mm(row.reach), *swallowed)
    pieces[row.wire] = [length]
    car.wires.add(row.wire)
    car.edges.append(Edge(row.wire, ends[0], ends[1], length, row.id, offcut_of(row, row.wire)))
