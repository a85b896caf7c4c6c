"""The return tree: how current goes home, drawn so that the width of every line is its current.

Geometry only, in pixels. Wires come in from their load's name, fall to the stud, and leave it as one cable that falls
to the next stud or to the battery. Cables stand apart and are never merged. What has no recorded current has no width:
it is a dashed line.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from aswired.car.harness import BATTERY_NEGATIVE
from aswired.sheets.text import amount

PX_PER_A = 1.15
MOST_PX = 110.0  # all lanes together, so that names keep room on a phone; a bigger sum is drawn to a smaller scale
APART_PX = 2.0
WIDTH_PX = 360.0
NAME_LETTERS = 22
LINE_PX = 16.0
DASHED_PX = 2.0
MARGIN_PX = 14.0
TOP_PX = 40.0
NOWHERE = ""
OPEN_PX = 30.0  # length of a cable whose way back is not recorded


@dataclass(frozen=True)
class TreeLoad:
    """A load that returns through a point: its name and current in A (None = not recorded)."""

    name: str
    current_a: float | None


@dataclass(frozen=True)
class TreePoint:
    """A ground point: what lands on it, where it goes back to, its sum in A and words for the label."""

    name: str
    back_to: str
    loads: tuple[TreeLoad, ...]
    total_a: float | None
    lines: tuple[str, ...] = ()
    right: str = ""  # its sum in words


@dataclass(frozen=True)
class Bar:
    """A filled rectangle in pixels. `dashed`: a current that is not recorded. `of`: whose current it carries."""

    x_px: float
    y_px: float
    width_px: float
    height_px: float
    dashed: bool
    of: str


@dataclass(frozen=True)
class TreeName:
    """A load's name in lines, and its current in words."""

    y_px: float
    lines: tuple[str, ...]
    right: str


@dataclass(frozen=True)
class Stud:
    """A ground point's cross-bar and label. `right` is the sum in words."""

    name: str
    x_px: float
    y_px: float
    width_px: float
    lines: tuple[str, ...]
    right: str


@dataclass(frozen=True)
class Tree:
    """A return tree, drawn."""

    width_px: float
    height_px: float
    px_per_a: float
    text_px: float  # where names begin
    wires: tuple[Bar, ...]
    names: tuple[TreeName, ...]
    studs: tuple[Stud, ...]
    battery: Stud


def draw_tree(points: Sequence[TreePoint], battery_loads: Sequence[TreeLoad] = ()) -> Tree:
    """The return tree of ground points.

    A point whose `back_to` is neither the battery nor another point of the list has no recorded way back: its cable
    ends in the air. `battery_loads` are loads whose return reaches battery negative without a ground point.
    """
    onto = _onto(points)
    home = onto.get(BATTERY_NEGATIVE, []) + onto.get(NOWHERE, [])
    sums_a = [sum(load.current_a or 0.0 for load in loads) for loads in (*(p.loads for p in points), battery_loads)]
    lanes_a = sum(_lane_a(point, onto) for point in home)
    scale = min(PX_PER_A, MOST_PX / max(lanes_a + max(sums_a), 1e-9))
    lanes: list[_Lane] = []
    edge_px = MARGIN_PX
    for point in home:
        target = BATTERY_NEGATIVE if point in onto.get(BATTERY_NEGATIVE, ()) else NOWHERE
        edge_px = _lanes(point, edge_px, scale, onto, lanes, target) + APART_PX
    stud_px = edge_px + 10.0
    widest_px = max(_wires_px(loads, scale) for loads in (*(p.loads for p in points), battery_loads))
    text_px = stud_px + max(widest_px, 14.0) + 26.0
    wires: list[Bar] = []
    names: list[TreeName] = []
    studs: dict[str, Stud] = {}
    y_px = TOP_PX
    for lane in lanes:  # a point comes after those that land on it
        point = lane.point
        y_px = _load_wires(point.loads, y_px, stud_px, text_px, scale, wires, names)
        left_px = lane.x_px if point.name in onto else stud_px - 4.0
        right_px = stud_px + max(_wires_px(point.loads, scale), 12.0)
        studs[point.name] = Stud(point.name, left_px, y_px, right_px - left_px, point.lines, point.right)
        own_px = _px(point.total_a, scale)
        wires.append(Bar(lane.x_px, y_px, right_px - lane.x_px, own_px, point.total_a is None, point.name))
        y_px += max(30.0 + LINE_PX * len(point.lines), own_px + 14.0)
    y_px = _load_wires(battery_loads, y_px, stud_px, text_px, scale, wires, names)
    for lane in lanes:
        own_px = _px(lane.point.total_a, scale)
        top_px = studs[lane.point.name].y_px
        lands_px = studs[lane.target].y_px if lane.target in studs else y_px
        if lane.target == NOWHERE:
            lands_px = top_px + OPEN_PX
        wires.append(Bar(lane.x_px, top_px, own_px, lands_px - top_px, lane.point.total_a is None, lane.point.name))
    total_a = _total_a(
        [*(point.total_a for point in onto.get(BATTERY_NEGATIVE, ())), *(load.current_a for load in battery_loads)]
    )
    if NOWHERE in onto:
        total_a = None  # what flows there may come back to the battery too
    foot_px = stud_px + max(_wires_px(battery_loads, scale), 12.0) - 6.0
    foot = Stud(BATTERY_NEGATIVE, 6.0, y_px, foot_px, ("all volts are counted from here",), amount(total_a, "A"))
    return Tree(WIDTH_PX, y_px + 44.0, scale, text_px, tuple(wires), tuple(names), tuple(studs.values()), foot)


@dataclass(frozen=True)
class _Lane:
    """Where the cable of a point falls, and on what it lands."""

    point: TreePoint
    x_px: float
    target: str


def _onto(points: Sequence[TreePoint]) -> dict[str, list[TreePoint]]:
    """What lands on each point, on the battery, and nowhere: no way back recorded, or one that comes round again."""
    by_name = {point.name: point for point in points}
    onto: dict[str, list[TreePoint]] = {}
    for point in points:
        seen, at = {point.name}, point
        while at.back_to in by_name and at.back_to not in seen:
            seen.add(at.back_to)
            at = by_name[at.back_to]
        target = point.back_to if point.back_to in by_name or point.back_to == BATTERY_NEGATIVE else NOWHERE
        onto.setdefault(NOWHERE if at.back_to in seen else target, []).append(point)
    return onto


def _lane_a(point: TreePoint, onto: Mapping[str, list[TreePoint]]) -> float:
    """Current that stands side by side in a point's lane: its own cable or those that land on it."""
    return max(point.total_a or 0.0, sum(_lane_a(feeder, onto) for feeder in onto.get(point.name, ())))


def _lanes(
    point: TreePoint,
    left_px: float,
    scale: float,
    onto: Mapping[str, list[TreePoint]],
    lanes: list[_Lane],
    target: str,
) -> float:
    """Give lanes to a point and to those that land on it, which end where its own begins. Gives the right edge."""
    edge_px = left_px
    for feeder in onto.get(point.name, ()):
        edge_px = _lanes(feeder, edge_px, scale, onto, lanes, point.name) + APART_PX
    lanes.append(_Lane(point, left_px, target))
    return max(edge_px - APART_PX, left_px + _px(point.total_a, scale))


def _px(current_a: float | None, scale: float) -> float:
    return DASHED_PX if current_a is None else current_a * scale


def _wires_px(loads: Sequence[TreeLoad], scale: float) -> float:
    return sum(_px(load.current_a, scale) + APART_PX for load in loads)


def _total_a(currents: Sequence[float | None]) -> float | None:
    return None if None in currents else sum(value for value in currents if value is not None)


def _load_wires(
    loads: Sequence[TreeLoad],
    top_px: float,
    stud_px: float,
    text_px: float,
    scale: float,
    wires: list[Bar],
    names: list[TreeName],
) -> float:
    """A row for each load: its wire comes in from the right and falls side by side to the stud. Gives the stud's y."""
    rows = []
    y_px = top_px
    for load in loads:
        lines = tuple(textwrap.wrap(load.name, NAME_LETTERS)) or (load.name,)
        thick_px = _px(load.current_a, scale)
        height_px = max(LINE_PX * len(lines) + 8.0, thick_px + 8.0)
        rows.append((load, y_px + (height_px - thick_px) / 2, thick_px))
        names.append(
            TreeName(y_px + height_px / 2 - LINE_PX * (len(lines) - 1) / 2, lines, amount(load.current_a, "A"))
        )
        y_px += height_px
    lands_px = y_px + 8.0
    x_px = stud_px
    for load, wire_px, thick_px in rows:
        dashed = load.current_a is None
        wires.append(Bar(x_px, wire_px, text_px - 8.0 - x_px, thick_px, dashed, load.name))
        wires.append(Bar(x_px, wire_px, thick_px, lands_px - wire_px, dashed, load.name))
        x_px += thick_px + APART_PX
    return lands_px
