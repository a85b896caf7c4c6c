"""The naive reading of the kinds that lead wires elsewhere, assign fuses, bridge interlocks, replace connectors."""

from __future__ import annotations

from aswired.record import Change
from properties.naive_acts import join
from properties.naive_car import (
    Car,
    Edge,
    FuseNote,
    Pieces,
    Refused,
    crimp,
    cut_off,
    edge_at,
    end_of,
    far_end,
    method_of,
    mm,
    move,
    new_splice,
    offcut_of,
    overlap_of,
    piece_length,
    resolved,
    take_up,
    total,
    wire_edges,
)


def reroute(car: Car, row: Change, pieces: Pieces) -> None:
    """F20: only the way is another one."""
    there = {end for leg in car.job.route for end in (leg.from_, leg.to)}
    if not set(row.by) <= there:
        raise Refused("a landmark is not on the route")
    for wire in row.wire_names:
        wire_edges(car, wire)
        car.by[wire] = row.by


def label(car: Car, row: Change, pieces: Pieces) -> None:
    """The wires stay as they are, and each must be there."""
    for wire in row.wire_names:
        wire_edges(car, wire)


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

    far = far_end(car, wire, end)
    match what(end), what(far):
        case ("source", "") | ("source", "drain") | ("", "drain"):
            return end
        case ("", "source") | ("drain", "source") | ("drain", ""):
            return far
    return None


def protect(car: Car, row: Change, pieces: Pieces) -> None:
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
    wire, end = row.wire, end_of(car, row.wire, row.end)
    feed, old = f"{name}.feed", edge_at(car, row.wire, end)
    live = _live_end(car, wire, end)
    if row.tail is None:  # the end itself moves
        on_feed_side = end.endswith(".feed") if end.removesuffix(".feed") in car.fuses else live not in (None, end)
        to = feed if on_feed_side else name
        if to in car.loose_ends(wire):
            raise Refused("an end sits there already")
        if row.terminal:
            old.length = cut_off(car, old, end)
            crimp(car, wire, to)
        elif (wire, end) in car.barrels:
            car.barrels[wire, to] = car.barrels.pop((wire, end))
        move(car, old, end, to)
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
        crimp(car, wire, side)
    note.let_into = wire


def bridge(car: Car, row: Change, pieces: Pieces) -> None:
    """F22: two free ends meet in a splice, or a jumper is laid; the cavities it plugs into may hold wires."""
    one, two = row.ends
    cut = [resolved(car, words) in car.stubs for words in (one, two)]
    whole = [" at " in words for words in (one, two)]
    jumper = any((row.piece, row.cut, row.reach, row.wire))
    if not jumper and all(a or b for a, b in zip(cut, whole, strict=True)):
        join(car, row, pieces)
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
            joint = new_splice(car, row, f"{row.id}-{words}" if row.id in car.splices else row.id)
            move(car, car.at(end)[0], end, joint)
            end = joint
        if end in car.splices:
            swallowed.append(take_up(method_of(car, row), overlap_of(car, row)))
        elif end.partition("-")[0] in ids:
            raise Refused(f"there is no splice {end}")
        else:
            crimp(car, name, end)
            swallowed.append(mm(car.job.usual.ring_strip))
        ends.append(end)
    if ends[0] == ends[1]:
        raise Refused("a bridge has two ends")
    length = piece_length(car, row, name, mm(row.reach), *swallowed)
    pieces[name] = [length]
    car.wires.add(name)
    car.edges.append(Edge(name, ends[0], ends[1], length, row.id, offcut_of(row, name)))


def swap(car: Car, row: Change, pieces: Pieces) -> None:
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
                crimp(car, edge.wire, new)
            elif (edge.wire, old) in car.barrels:
                car.barrels[edge.wire, new] = car.barrels.pop((edge.wire, old))
        setattr(edge, which, new)
    car.swaps.append(moved)
