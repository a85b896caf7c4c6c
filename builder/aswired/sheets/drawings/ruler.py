"""The route as rulers: every run of the finished car's harness drawn to scale, with each splice at its true distance.

Geometry only, in pixels; the marks on paper are made by the templates. A run is an unbranched way through the route's
tree. Where the tree forks, the longest way goes on and every other way is a ruler of its own with its own zero, so that
labels have room on a phone. Legs of unknown length are never drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from aswired.figures.places import PlacedJoint
from aswired.record import Leg
from aswired.sheets.drawings.spread import spread
from aswired.text.units import MM_PER_INCH, show_length, thousands

PX_PER_MM = 0.34  # one scale for the whole job and for every job
LABEL_APART_PX = 24.0  # a label is 20 px high
TOP_PX = 30.0
BOTTOM_PX = 30.0
LABEL_PX = 94.0  # where labels begin
LEAST_WIDTH_PX = 320.0
BOLD_PX = 7.7  # a usual letter of the 13 px label, bold; an estimate on the wide side, so that a tag holds its id
LIGHT_PX = 6.9
INCH_JOBS = "inch"
FRAME_PX = 15.0  # frame of a tag and the gap behind it
SHEET_PX = 860.0  # what a sheet of paper holds below a heading: 227 mm
CLEAR_PX = 11.0  # a cut this far from the middle of a label or number leaves it whole
KINDS = ("landmark", "fork", "splice")  # order of labels at one place


@dataclass(frozen=True)
class Tick:
    """A stroke of the scale: `y_px`, whether it is a long one, and its number ('' for most)."""

    y_px: float
    long: bool
    label: str


@dataclass(frozen=True)
class RulerMark:
    """A landmark or a splice: where it is (`y_px`), where its label stands, what the label says.

    `note` is a splice's distance from the landmark above it, standing at `note_x_px`. A fork names the landmark that a
    way leaving here leads to, which is drawn on a ruler of its own.
    """

    kind: str  # landmark, fork, splice
    id: str
    y_px: float
    label_y_px: float
    note: str
    note_x_px: float


@dataclass(frozen=True)
class RulerLeg:
    """One leg on the ruler: from where to where, and what it runs through."""

    top_px: float
    bottom_px: float
    zone: str


@dataclass(frozen=True)
class Ruler:
    """One run, drawn. Lengths in pixels; `length` in words."""

    name: str
    start: str
    end: str
    length: str
    unit: str  # of the numbers on the scale
    width_px: float
    height_px: float
    ticks: tuple[Tick, ...]
    marks: tuple[RulerMark, ...]
    spans: tuple[RulerLeg, ...]
    pieces: tuple[tuple[float, float], ...]  # from, to: the ruler in lengths that a sheet of paper holds


@dataclass(frozen=True)
class NotDrawn:
    """A leg that cannot be drawn because its length is not recorded, and the splices that lie on it."""

    name: str
    splices: tuple[str, ...]


@dataclass(frozen=True)
class Rulers:
    """The route of a job, drawn as far as it is measured."""

    drawn: tuple[Ruler, ...]
    not_drawn: tuple[NotDrawn, ...]
    unplaced: tuple[str, ...]  # splices without a place on the route


@dataclass(frozen=True)
class _Part:
    """A leg as a run walks over it."""

    leg: int
    upwards: bool  # walked from its `to` to its `from`
    start: str
    end: str
    length_mm: float


def draw_route(route: Sequence[Leg], joints: Iterable[PlacedJoint], units: str) -> Rulers:
    """Rulers of a route; `units` is the job's own unit of length.

    The order of the route in the file decides where a run begins; the order of `joints` decides nothing.
    """
    placed = sorted(joints, key=lambda item: item.joint.id)
    runs = _runs(route)
    drawn = tuple(_ruler(run, runs, route, placed, units) for run in runs)
    unmeasured = tuple(
        NotDrawn(f"{leg.from_} to {leg.to}", tuple(item.joint.id for item in placed if item.leg == index))
        for index, leg in enumerate(route)
        if _length_mm(leg) is None
    )
    lost = tuple(item.joint.id for item in placed if item.leg is None)
    return Rulers(drawn, unmeasured, lost)


def _length_mm(leg: Leg) -> float | None:
    return leg.length.mm if leg.length is not None else None


def _runs(route: Sequence[Leg]) -> tuple[tuple[_Part, ...], ...]:
    """The route's measured legs as unbranched ways, each leg once.

    A leg that closes a loop (legal with `by:`, P2) would lie on two ways; it is a run of its own.
    """
    tree: dict[str, list[int]] = {}
    closing: list[tuple[_Part, ...]] = []
    group: dict[str, str] = {}
    for index, leg in enumerate(route):
        length_mm = _length_mm(leg)
        if length_mm is None:
            continue
        one, other = _head(leg.from_, group), _head(leg.to, group)
        if one == other:
            closing.append((_Part(index, False, leg.from_, leg.to, length_mm),))
            continue
        group[other] = one
        tree.setdefault(leg.from_, []).append(index)
        tree.setdefault(leg.to, []).append(index)
    runs: list[tuple[_Part, ...]] = []
    done: set[str] = set()
    for landmark in tree:  # in file order, so a run begins where the route was written to begin
        head = _head(landmark, group)
        if head not in done:
            done.add(head)
            runs += _from(landmark, None, route, tree)
    return (*runs, *closing)


def _head(landmark: str, group: Mapping[str, str]) -> str:
    """The landmark that stands for all that are connected with this one."""
    while landmark in group:
        landmark = group[landmark]
    return landmark


def _from(start: str, by: int | None, route: Sequence[Leg], tree: Mapping[str, list[int]]) -> list[tuple[_Part, ...]]:
    """The ways that begin at `start` without leg `by`: the longest first, each followed by those that leave it."""
    ways = []
    for index in tree[start]:
        leg = route[index]
        length_mm = _length_mm(leg)
        if index != by and length_mm is not None:
            end = leg.to if leg.from_ == start else leg.from_
            part = _Part(index, leg.from_ != start, start, end, length_mm)
            onward = _from(end, index, route, tree)
            ways.append(((part, *onward[0]), *onward[1:]) if onward else ((part,),))
    ways.sort(key=lambda found: -_total_mm(found[0]))
    return [way for found in ways for way in found]


def _total_mm(way: Sequence[_Part]) -> float:
    return sum(part.length_mm for part in way)


def _ruler(
    run: tuple[_Part, ...],
    runs: Sequence[tuple[_Part, ...]],
    route: Sequence[Leg],
    placed: Sequence[PlacedJoint],
    units: str,
) -> Ruler:
    forks: dict[str, list[str]] = {}
    for other in runs:
        if other is not run:
            forks.setdefault(other[0].start, []).append(other[-1].end)
    found = _at(0.0, run[0].start, forks)
    spans = []
    begin_mm = 0.0
    for part in run:
        end_mm = begin_mm + part.length_mm
        spans.append(RulerLeg(_y(begin_mm), _y(end_mm), ", ".join(route[part.leg].zone)))
        found += _at(end_mm, part.end, forks)
        for item in placed:
            if item.leg == part.leg and item.offset_mm is not None:
                past_mm = part.length_mm - item.offset_mm if part.upwards else item.offset_mm
                found.append((begin_mm + past_mm, KINDS.index("splice"), item.joint.id, show_length(past_mm, units)))
        begin_mm = end_mm
    found.sort()
    labels = spread([_y(place_mm) for place_mm, *_ in found], LABEL_APART_PX, TOP_PX)
    marks = tuple(
        RulerMark(KINDS[kind], name, _y(place_mm), label_y, note, LABEL_PX + len(name) * BOLD_PX + FRAME_PX)
        for (place_mm, kind, name, note), label_y in zip(found, labels, strict=True)
    )
    height_px = max(_y(begin_mm), labels[-1]) + BOTTOM_PX
    ticks = _ticks(begin_mm, units)
    return Ruler(
        name=f"{run[0].start} to {run[-1].end}",
        start=run[0].start,
        end=run[-1].end,
        length=show_length(begin_mm, units),
        unit="in" if units == INCH_JOBS else units,
        width_px=max(LEAST_WIDTH_PX, *(mark.note_x_px + len(mark.note) * LIGHT_PX for mark in marks)),
        height_px=height_px,
        ticks=ticks,
        marks=marks,
        spans=tuple(spans),
        pieces=_pieces(height_px, [*labels, *(tick.y_px for tick in ticks if tick.label)]),
    )


def _pieces(height_px: float, written_px: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """The ruler's height in even pieces no higher than a sheet, cut where nothing is written if there is a place."""
    pieces = []
    top_px, count = 0.0, math.ceil(height_px / (0.9 * SHEET_PX))
    for left in range(count, 1, -1):
        even_px = round(top_px + (height_px - top_px) / left)
        near = sorted(range(even_px - 80, even_px + 81), key=lambda y_px: abs(y_px - even_px))
        cut_px = float(max(near, key=lambda y_px: min(CLEAR_PX, *(abs(y_px - at_px) for at_px in written_px))))
        pieces.append((top_px, cut_px))
        top_px = cut_px
    return (*pieces, (top_px, height_px))


def _at(place_mm: float, landmark: str, forks: Mapping[str, list[str]]) -> list[tuple[float, int, str, str]]:
    """A landmark and the ways that leave it: place, kind, name, note."""
    leads = [(place_mm, KINDS.index("fork"), f"to {end}", "") for end in forks.get(landmark, ())]
    return [(place_mm, KINDS.index("landmark"), landmark, ""), *leads]


def _y(place_mm: float) -> float:
    return TOP_PX + place_mm * PX_PER_MM


def _number(place_mm: float, units: str) -> str:
    if units == "m":
        return f"{place_mm / 1000:g}"
    return thousands(round(place_mm / (10 if units == "cm" else 1)))


def _ticks(length_mm: float, units: str) -> tuple[Tick, ...]:
    """Strokes each 20 mm, long each 100 mm, a number each 200 mm; in inches each 1, 6 and 6. Numbers in `units`."""
    inch = units == INCH_JOBS
    step_mm, long_each, number_each = (MM_PER_INCH, 6, 6) if inch else (20.0, 5, 10)
    ticks = []
    for count in range(int(length_mm / step_mm + 1e-9) + 1):
        label = ""
        if count % number_each == 0:
            label = str(count) if inch else _number(count * step_mm, units)
        ticks.append(Tick(_y(count * step_mm), count % long_each == 0, label))
    return tuple(ticks)
