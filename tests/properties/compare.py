"""Puts a view of the builder beside the naive fold and says in words where they part."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Hashable, Iterable

from aswired.car.harness import FuseState, NodeKind, View
from aswired.record import Change, Job
from properties import naive

LOOSE = 0.01  # mm; lengths are sums of a few decimal numbers


def near(a: float | None, b: float | None) -> bool:
    return a is b if a is None or b is None else abs(a - b) < LOOSE


def rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3) + 0.0


def stretches_of(view: View) -> Counter[Hashable]:
    return Counter(
        (
            s.wire,
            s.ends,
            s.origin,
            s.offcut,
            rounded(s.length_mm),
            rounded(s.effective_mm),
        )
        for s in view.stretches
    )


def edges_of(car: naive.Car) -> Counter[Hashable]:
    return Counter(
        (
            e.wire,
            e.ends(),
            e.origin,
            e.offcut,
            rounded(e.length),
            rounded(car.effective(e)),
        )
        for e in car.edges
    )


def _apart(what: str, view: Iterable[Hashable], simple: Iterable[Hashable]) -> list[str]:
    seen, meant = Counter(view), Counter(simple)
    lines = [f"{what}: only in the view: {one}" for one in (seen - meant)]
    return lines + [f"{what}: only in the naive fold: {one}" for one in (meant - seen)]


def _fuse(state: FuseState) -> tuple[Hashable, ...]:
    rating = state.facts.rating
    return state.name, rating.text if rating else "", state.spare, state.rows, state.in_wire


def _rows_of(told: dict[str, list[str]]) -> list[tuple[str, tuple[str, ...]]]:
    return [(name, tuple(rows)) for name, rows in told.items()]


def members(car: naive.Car, splice: str) -> tuple[str, ...]:
    return tuple(sorted({edge.wire for edge in car.at(splice)}))


def differences(job: Job, view: View, name: str, day: datetime.date | None) -> list[str]:
    """Every difference between the view and the naive fold; empty when they agree."""
    car, status = naive.fold(job, name, day)
    found = _apart("stretch", stretches_of(view).elements(), edges_of(car).elements())
    found += _apart(
        "joint",
        ((j.id, j.row, j.tap, tuple(sorted(j.wires))) for j in view.joints.values()),
        ((name, splice.row, bool(splice.through), members(car, name)) for name, splice in car.splices.items()),
    )
    found += _apart(
        "stub",
        (
            (node.name, node.fate.word if node.fate else "")
            for node in view.nodes.values()
            if node.kind is NodeKind.STUB
        ),
        car.stubs.items(),
    )
    found += _apart(
        "ring",
        ((ring.ground, ring.row, tuple(sorted(ring.wires))) for ring in view.rings),
        ((ring.ground, ring.row, tuple(sorted(ring.wires))) for ring in car.rings),
    )
    found += _apart("way", ((w.name, w.by) for w in view.wires.values() if w.by), car.by.items())
    found += _apart("relay", ((k.name, k.rows) for k in view.relays.values()), _rows_of(car.relays))
    found += _apart("replaced", view.replaced.items(), car.replaced().items())
    found += _apart(
        "fuse",
        (_fuse(state) for state in view.fuses.values()),
        ((name, f.rating, f.spare, tuple(f.rows), f.let_into) for name, f in car.fuses.items()),
    )
    found += _apart(
        "offcut",
        ((name, rounded(use.left_mm)) for name, use in view.offcuts.items()),
        (
            (name, rounded(naive.total([a.length, *(None if cut is None else -cut for cut in a.cuts)])))
            for name, a in car.rack.items()
        ),
    )
    if name != "donor":
        found += _apart(
            "status",
            ((row.id, "refused" if row.status == "not judged" else row.status) for row in view.rows),
            status.items(),
        )
    missing = {end for stretch in view.stretches for end in stretch.ends} - set(view.nodes)
    found += [f"node: {node} is no node of the view" for node in sorted(missing)]
    opened = {(name, row) for name, rows in car.opened.items() for row in rows if name in job.splices}
    splices = [node for node in view.nodes.values() if node.kind is NodeKind.SPLICE and view.at_node[node.name]]
    shown = {(node.name, row) for node in splices for row in node.opened_by}
    return found + _apart(
        "opened", {pair for pair in shown if pair in opened}, {p for p in opened if p[0] in car.nodes()}
    )


def parts(view: View) -> dict[str, object]:
    """What a view holds of the car itself, whatever the order it is told in."""
    return {
        "stretches": stretches_of(view),
        "joints": dict(view.joints),
        "nodes": {name: node for name, node in view.nodes.items() if view.at_node[name]},
        "rings": set(view.rings),
        "offcuts": dict(view.offcuts),
        "pieces": set(view.pieces),
        "conductor_account": set(view.conductor_account),
        "ways": {wire.name: wire.by for wire in view.wires.values()},
        "fuses": dict(view.fuses),
        "relays": dict(view.relays),
        "replaced": dict(view.replaced),
    }


def touches(car: naive.Car, row: Change) -> set[str]:
    """Every wire, wire end, splice, lug, offcut and row that a row has to do with."""
    wires = {*row.wire_names, row.onto}
    found = {row.id, row.to, row.into, row.from_, row.corrects, row.redoes, *row.over, *row.proves, *row.reclaimed}
    found |= {row.fuse, f"{row.fuse}.feed" if row.fuse else "", row.relay, row.plug, row.new_plug, *row.spare}
    found |= {end.rpartition(".")[0] for end in row.ends} if row.kind == "bridge" else set()
    for edge in car.edges if row.kind == "swap" else ():
        if row.plug in {place.rpartition(".")[0] for place in (edge.a, edge.b, edge.via)}:
            wires.add(edge.wire)
    for words in (*row.ends, row.from_) if row.kind in ("join", "add", "bridge") else ():
        place = naive.resolved(car, words)
        found.add(place)
        wires |= {words.partition(" at ")[0]} if " at " in words else {edge.wire for edge in car.at(place)}
    for wire in wires:
        found |= {node for edge in car.of(wire) for node in (edge.a, edge.b, edge.via)}
        piece = row.piece_of(wire)
        found.add(piece.offcut if piece is not None else "")
    if row.ring is not None:
        found.add(row.ring.shared_with)
    found |= {name.split("-")[0] for name in found if name.startswith("C")}  # C14-W31-plug belongs to row C14
    return (found | wires) - {""}
