"""A second, deliberately simple reading of the fold rules: wires are edges of a graph, a row edits the list of edges.

It shares nothing with the builder's own fold but the records of the job file. No place, no figure, no text: only what
is joined to what, how long it is, and which rows count. Lengths in millimetres, None = not recorded.
"""

from __future__ import annotations

import copy
import datetime

from aswired.record import Change, Job
from properties.naive_acts import add, cap, extend, join, new_end, remove, shorten, tap
from properties.naive_car import (
    Account,
    Car,
    Edge,
    FuseNote,
    Line,
    OnStud,
    Pieces,
    Refused,
    edge_at,
    mm,
    resolved,
    total,
)
from properties.naive_others import bridge, label, protect, reroute, swap

__all__ = ["Car", "donor", "edge_at", "fold", "mm", "resolved", "total"]


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
    car.splices, car.stubs, car.conductor_account = (
        dict(before.splices),
        dict(before.stubs),
        list(before.conductor_account),
    )
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
        car.conductor_account.append(
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


def nothing(car: Car, row: Change, pieces: Pieces) -> None:
    """cover, verify: the wires stay as they are."""


ACTS = {
    "remove": remove,
    "cap": cap,
    "extend": extend,
    "shorten": shorten,
    "ground": new_end,
    "terminate": new_end,
    "join": join,
    "tap": tap,
    "add": add,
    "reroute": reroute,
    "protect": protect,
    "bridge": bridge,
    "swap": swap,
    "cover": nothing,
    "verify": nothing,
    "label": label,
}
