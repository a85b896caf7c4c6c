"""In which order planned rows are worked: what rests on what, and where one stands for it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from aswired.car.asbuilt.order import order
from aswired.car.changes import kind_of
from aswired.car.harness import View, is_untraced
from aswired.car.route import PlaceError, Position, Route
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.sheets.places import Places, landmark_words, places_of_nodes
from aswired.text.units import is_unknown

NOWHERE = "Place not recorded"
CLOSING = ("", "Tests", "Wraps and conduit")  # tests come when all is joined, wraps when all is tested


@dataclass(frozen=True)
class RowsAtPlace:
    """Rows done from one place, in the order they are done."""

    place: str
    rows: tuple[Change, ...]


@dataclass(frozen=True)
class _Spot:
    """A place to stand: what tells it from others, and its name in words."""

    key: str
    words: str
    closing: int = 0


@dataclass(frozen=True)
class _Reach:
    """What a row has to do with: wires, nodes, offcuts that it frees or takes, rows it names, whole plugs."""

    wires: frozenset[str]
    nodes: frozenset[str]
    frees: frozenset[str]
    takes: frozenset[str]
    names: frozenset[str]
    parts: frozenset[str]
    whole: frozenset[str]


def planned_rows(worked: JobResult) -> tuple[Change, ...]:
    """Rows of this car that are planned and can be done as written, in the order they are folded."""
    return tuple(
        row for row in order(worked.job, "plan", None).rows if row.id in worked.plan.counted and row.made is None
    )


def rests_on(worked: JobResult) -> Mapping[str, frozenset[str]]:
    """Planned row -> the planned rows above it that must be done before it.

    A row rests on an earlier one when both have to do with one wire, or with one thing that wires end in, when it
    takes an offcut that the earlier one frees, or when it names it. Rows that share nothing may change places (F19).
    """
    rows = planned_rows(worked)
    reaches = [_reach(row, worked) for row in rows]
    found: dict[str, frozenset[str]] = {}
    for at, row in enumerate(rows):
        found[row.id] = frozenset(
            rows[above].id for above in range(at) if _rests(reaches[at], reaches[above], rows[above].id)
        )
    return found


def visits(worked: JobResult) -> tuple[RowsAtPlace, ...]:
    """The planned rows in working order: place by place, at each place what goes out first, never a row before one
    that it rests on. A place is named a second time when something elsewhere must be done in between."""
    rows = planned_rows(worked)
    below = rests_on(worked)
    route, where = worked.route, places_of_nodes(worked)
    spots = {row.id: _spot(row, worked, route, where) for row in rows}
    first = {spots[row.id].key: number for number, row in reversed(list(enumerate(rows)))}
    file_order = {row.id: number for number, row in enumerate(rows)}
    left, done, here = list(rows), set[str](), "nowhere yet"
    found: list[RowsAtPlace] = []
    while left:
        waiting = {
            spots[row.id].key
            for row in left
            if any(spots[other].key != spots[row.id].key for other in below[row.id] - done)
        }
        ready = [row for row in left if below[row.id] <= done]
        turns = {
            row.id: (
                spots[row.id].closing,
                spots[row.id].key != here,
                spots[row.id].key in waiting,  # else one would have to come back
                first[spots[row.id].key],
                kind_of(row).turn,
                file_order[row.id],
            )
            for row in ready
        }
        row = min(ready, key=lambda row: turns[row.id])
        spot = spots[row.id]
        if spot.key == here:
            found[-1] = RowsAtPlace(found[-1].place, (*found[-1].rows, row))
        else:
            found.append(RowsAtPlace(spot.words, (row,)))
        here = spot.key
        left.remove(row)
        done.add(row.id)
    return tuple(found)


# ---- what rests on what ---------------------------------------------------------------------------------------------
def _rests(later: _Reach, earlier: _Reach, earlier_id: str) -> bool:
    return bool(
        later.wires & earlier.wires
        or later.nodes & earlier.nodes
        or later.takes & earlier.frees
        or later.whole & earlier.parts
        or earlier.whole & later.parts
        or any(name == earlier_id or name.startswith(f"{earlier_id}-") for name in later.names)
    )


def _reach(row: Change, worked: JobResult) -> _Reach:
    result = worked.plan.row(row.id)
    wires = {*row.wire_names, row.onto, *(result.touched_wires if result else ())}
    written = _written_ends(row)
    for name in written:  # the wires of a row whose splice or cut end is named
        other = worked.job.change(name.partition("-")[0])
        wires |= set(other.wire_names) if other is not None and other is not row else set()
    concerns = kind_of(row).concerns
    nodes = set() if concerns == "wires" else {node for wire in wires for node in _nodes(wire, worked)}
    nodes |= set(written)
    pieces = [piece for wire in row.wire_names if (piece := row.piece_of(wire)) is not None]
    whole = {row.plug, row.new_plug, row.fuse, row.relay, *written} if concerns == "parts" else set()
    at = nodes | {row.plug, row.fuse, row.relay} | {node for wire in wires for node in _nodes(wire, worked)}
    ring = row.ring.shared_with if row.ring is not None else ""
    return _Reach(
        wires=_words(wires),
        nodes=_words(nodes),
        frees=_words(row.reclaimed),
        takes=_words(piece.offcut for piece in pieces),
        names=_words((*written, *row.over, *row.proves, row.corrects, row.redoes, ring)),
        parts=_words(name.partition(".")[0] for name in at),
        whole=_words(name.partition(".")[0] for name in whole),
    )


def _words(names: Iterable[str]) -> frozenset[str]:
    return frozenset(name for name in names if name)


def _written_ends(row: Change) -> tuple[str, ...]:
    """Ends, splices and points as the row names them; the places that a wrap runs between are none."""
    if not kind_of(row).alters_harness:
        return ()
    fates = [end for wire in row.wire_names for end in row.fates_of(wire)]
    ends = [] if isinstance(row.ends, Mapping) else [end.rpartition(" at ")[2] for end in row.ends]
    return tuple(name for name in (row.end, row.to, row.into, row.from_, *ends, *fates) if name)


def _nodes(wire: str, worked: JobResult) -> set[str]:
    """What a wire ends in, or passes, before the work and after it."""
    views: Sequence[View] = (worked.donor, worked.now, worked.plan)
    return {
        node
        for view in views
        for stretch in view.of_wire(wire)
        for node in (*stretch.ends, stretch.via)
        if node and not is_untraced(node)
    }


# ---- where one stands -----------------------------------------------------------------------------------------------
def _spot(row: Change, worked: JobResult, route: Route, where: Places) -> _Spot:
    if visit := kind_of(row).visit:
        return _Spot(visit, visit, CLOSING.index(visit))
    landmarks = worked.job.landmarks
    if row.where and not kind_of(row).alters_harness:
        return _written_spot(row.where, route, landmarks)
    names = _stands_at(row, worked)
    for name in names:
        position = route.of_end(name)
        if position is not None and (landmark := _nearest(position, route)):
            return _Spot(f"landmark {landmark}", landmark_words(landmark, landmarks))
    for placed in worked.joints:
        if placed.joint.row == row.id and placed.leg is not None:
            landmark = _nearest(Position("", placed.leg, placed.offset_mm), route)
            return _Spot(f"landmark {landmark}", landmark_words(landmark, landmarks))
    for name in names:
        part = name.partition(".")[0]
        if words := where(name):
            return _Spot(f"part {part}", f"{part}, {words}")
    if names:
        part = names[0].partition(".")[0]
        return _Spot(f"part {part}", f"{part}, place not recorded")
    return _Spot("", NOWHERE)


def _written_spot(where: str, route: Route, landmarks: Mapping[str, str]) -> _Spot:
    """The landmark next to a written place; of a place in words only, those words."""
    try:
        position = route.place(where)
    except PlaceError:
        position = None
    if position is not None and (landmark := _nearest(position, route)):
        return _Spot(f"landmark {landmark}", landmark_words(landmark, landmarks))
    return _Spot("", NOWHERE) if is_unknown(where) else _Spot(where, where)


def _stands_at(row: Change, worked: JobResult) -> tuple[str, ...]:
    """Parts that say where a row is done, the likeliest first."""
    wires = (*row.wire_names, row.onto)
    loose = [end for wire in wires if wire in worked.plan.wires for end in worked.plan.wires[wire].donor_ends]
    names = (row.plug, row.to, row.into, *_written_ends(row), *loose)
    known = [name for name in names if name and not (is_unknown(name) or is_untraced(name))]
    return tuple(dict.fromkeys(known))


def _nearest(position: Position, route: Route) -> str:
    """The landmark one stands at for a position; of two, the nearer, or the first where a distance is not known."""
    ends = route.ends_of(position)
    known = sorted((mm, number) for number, (_, mm) in enumerate(ends) if mm is not None)
    if len(known) == len(ends) and known:
        return ends[known[0][1]][0]
    return ends[0][0] if ends else ""


def next_free(letter: str, ids: Iterable[str]) -> str:
    """The next free number behind a letter, counting only ids of that form.

    >>> next_free("P", ["P2", "P10", "before-1"]), next_free("R", [])
    ('P11', 'R1')
    """
    taken = [int(id.removeprefix(letter)) for id in ids if re.fullmatch(rf"{letter}[0-9]{{1,6}}", id)]
    return f"{letter}{max(taken, default=0) + 1}"
