"""Puts a view of the builder beside the naive fold and says in words where they part."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Hashable, Iterable

from aswired.harness import NodeKind, View
from aswired.model import Change, Job
from properties import naive

LOOSE = 0.01  # mm; lengths are sums of a few decimal numbers


def near(a: float | None, b: float | None) -> bool:
    return a is b if a is None or b is None else abs(a - b) < LOOSE


def rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3) + 0.0


def stretches_of(view: View) -> Counter[Hashable]:
    return Counter(
        (s.wire, s.ends, rounded(s.length_mm), rounded(s.effective_mm), s.origin, s.offcut) for s in view.stretches
    )


def edges_of(car: naive.Car) -> Counter[Hashable]:
    return Counter(
        (e.wire, e.ends(), rounded(e.length), rounded(car.effective(e)), e.origin, e.offcut) for e in car.edges
    )


def _apart(what: str, view: Iterable[Hashable], simple: Iterable[Hashable]) -> list[str]:
    seen, meant = Counter(view), Counter(simple)
    lines = [f"{what}: only in the view: {one}" for one in (seen - meant)]
    return lines + [f"{what}: only in the naive fold: {one}" for one in (meant - seen)]


def differences(job: Job, view: View, name: str, day: datetime.date | None) -> list[str]:
    """Every difference between the view and the naive fold; empty when they agree."""
    car, status = naive.fold(job, name, day)
    found = _apart("stretch", stretches_of(view).elements(), edges_of(car).elements())
    found += _apart(
        "joint",
        ((joint.id, joint.row, joint.tap, tuple(sorted(joint.wires))) for joint in view.joints.values()),
        (
            (name, splice.row, bool(splice.through), tuple(sorted({edge.wire for edge in car.at(name)})))
            for name, splice in car.splices.items()
        ),
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
    opened = ((n, tuple(rows)) for n, rows in car.opened.items() if n in job.splices and n in car.nodes())
    shown = (
        (node.name, node.opened_by)
        for node in view.nodes.values()
        if node.kind is NodeKind.SPLICE and node.opened_by and view.at_node[node.name]
    )
    return found + _apart("opened", shown, opened)


def parts(view: View) -> dict[str, object]:
    """What a view holds of the car itself, whatever the order it is told in."""
    return {
        "stretches": stretches_of(view),
        "joints": dict(view.joints),
        "nodes": {name: node for name, node in view.nodes.items() if view.at_node[name]},
        "rings": set(view.rings),
        "offcuts": dict(view.offcuts),
        "pieces": set(view.pieces),
        "ledger": set(view.ledger),
    }


def touches(car: naive.Car, row: Change) -> set[str]:
    """Every wire, wire end, splice, lug, offcut and row that a row has to do with."""
    wires = {*row.wire_names, row.onto}
    found = {row.id, row.to, row.into, row.from_, row.corrects, row.redoes, *row.over, *row.proves, *row.reclaimed}
    for words in row.ends if row.kind == "join" else ():
        found.add(words)
        wires |= {words.partition(" at ")[0]} if " at " in words else {edge.wire for edge in car.at(words)}
    for wire in wires:
        found |= {node for edge in car.of(wire) for node in (edge.a, edge.b, edge.via)}
        piece = row.piece_of(wire)
        found.add(piece.offcut if piece is not None else "")
    if row.ring is not None:
        found.add(row.ring.shared_with)
    found |= {name.split("-")[0] for name in found if name.startswith("C")}  # C14-W31-plug belongs to row C14
    return (found | wires) - {""}
