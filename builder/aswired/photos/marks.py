"""Marks on a photograph: where each shape and its numbered disc stand, and the overlay a browser draws of them."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Literal, get_args

Kind = Literal["ring", "arrow", "box", "label"]
Point = tuple[float, float]

UNITS = 1600.0  # the drawing's own unit: the long edge of the picture is 1600, so marks look alike in any size
HALO, PEN = 14.0, 6.0  # line widths, units
DISC, RIM = 46.0, 7.0  # radius of the numbered disc and width of its white rim, units
DOT = 10.0  # radius of the spot that a label points at, units
HEAD = 44.0  # length of an arrow's barbs, units
CLEAR = 18.0  # least distance from a disc to any shape or other disc, units
AIM = 60.0  # half-width of the area kept free around an arrow's point: what it shows lies there, units


@dataclass(frozen=True)
class DrawnMark:
    """One mark. `at` in fractions of the upright picture: x and radius of its width, y of its height.

    ring (x, y, radius); arrow (x, y of tail, x, y of point); box (x, y of top left corner, width, height);
    label (x, y).
    `says` is plain text, the accessible name behind the number.
    """

    number: int
    kind: Kind
    at: tuple[float, ...]
    says: str = ""

    def __post_init__(self) -> None:
        if self.kind not in get_args(Kind):
            raise ValueError(f"no such mark: {self.kind!r}")
        wanted = {"ring": 3, "arrow": 4, "box": 4, "label": 2}[self.kind]
        if len(self.at) != wanted or not all(map(math.isfinite, self.at)):
            raise ValueError(f"{self.kind} takes {wanted} numbers, got {self.at!r}")


@dataclass(frozen=True)
class PlacedMark:
    """A mark in drawing units. `line` runs from the disc's centre to the shape."""

    mark: DrawnMark
    shape: tuple[float, ...]  # ring cx cy r; arrow x1 y1 x2 y2; box x y w h; label x y
    disc: Point
    line: tuple[Point, Point]


@dataclass(frozen=True)
class MarkSheet:
    """Placed marks and the size of the drawing they stand on, units."""

    width: float
    height: float
    placed: tuple[PlacedMark, ...]


def lay_out(marks: Sequence[DrawnMark], width: int, height: int) -> MarkSheet:
    """Choose a place for each disc: inside the picture, off every marked thing, off the other discs.

    Width and height of the upright picture give its proportions only. Where no place meets all wishes, the one
    that offends least is taken; the disc stays inside the picture as long as the picture is larger than the disc.
    """
    if width <= 0 or height <= 0:
        raise ValueError(f"not a picture's size: {width} x {height}")
    unit = UNITS / max(width, height)
    sheet_width, sheet_height = width * unit, height * unit
    shapes = [_scaled(mark, sheet_width, sheet_height) for mark in marks]
    placed: list[PlacedMark] = []
    for index, (mark, shape) in enumerate(zip(marks, shapes, strict=True)):

        def offence(disc: Point, index: int = index) -> float:
            return _offence(disc, index, marks, shapes, placed)

        disc = min(_candidates(mark.kind, shape, sheet_width, sheet_height), key=offence)
        placed.append(PlacedMark(mark, shape, disc, (disc, _nearest(mark.kind, shape, disc))))
    return MarkSheet(sheet_width, sheet_height, tuple(placed))


def barbs(shape: tuple[float, ...]) -> tuple[Point, Point]:
    """The two free ends of an arrow's head."""
    x1, y1, x2, y2 = shape
    back = math.atan2(y1 - y2, x1 - x2)
    length = min(HEAD, math.hypot(x1 - x2, y1 - y2))
    left, right = ((x2 + length * math.cos(back + turn), y2 + length * math.sin(back + turn)) for turn in (-0.5, 0.5))
    return left, right


def font_size(number: int) -> float:
    """Height of a disc's number, units; three figures must fit as well."""
    return 58.0 if number < 100 else 42.0


def overlay_svg(marks: Sequence[DrawnMark], width: int, height: int, links: Mapping[int, str] | None = None) -> str:
    """The drawing to lay over the picture: a link for each mark, to its entry in `links` or else to `#m<number>`.

    Line widths stand in the drawing itself, so that it is legible without a style sheet. Empty without marks.
    """
    if not marks:
        return ""
    sheet = lay_out(marks, width, height)
    inside = "".join(_svg_mark(placed, links or {}) for placed in sheet.placed)
    wide, high = max(sheet.width, 0.1), max(sheet.height, 0.1)  # a drawing of no height would not be drawn
    return f'<svg viewBox="0 0 {_n(wide)} {_n(high)}" role="group" aria-label="Marks on the photograph">{inside}</svg>'


def _svg_mark(placed: PlacedMark, links: Mapping[int, str]) -> str:
    mark, (x, y) = placed.mark, placed.disc
    name = f"Mark {mark.number}: {mark.says}" if mark.says else f"Mark {mark.number}"
    (x1, y1), (x2, y2) = placed.line
    outline = f'<path d="M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}"/>' + _svg_shape(mark.kind, placed.shape)
    return (
        f'<a href="{escape(links.get(mark.number, f"#m{mark.number}"))}" aria-label="{escape(name)}">'
        f'<g class="halo" fill="none" stroke="#fff" stroke-width="{_n(HALO)}">{outline}</g>'
        f'<g class="pen" fill="none" stroke="#111" stroke-width="{_n(PEN)}">{outline}</g>'
        f'<circle class="disc" cx="{_n(x)}" cy="{_n(y)}" r="{_n(DISC)}" fill="#111" stroke="#fff" '
        f'stroke-width="{_n(RIM)}"/>'
        f'<text x="{_n(x)}" y="{_n(y)}" dy=".35em" fill="#fff" text-anchor="middle" font-weight="700" '
        f'style="font-size:{_n(font_size(mark.number))}px">{mark.number}</text></a>'
    )


def _svg_shape(kind: Kind, shape: tuple[float, ...]) -> str:
    if kind == "ring":
        x, y, radius = map(_n, shape)
        return f'<circle cx="{x}" cy="{y}" r="{radius}"/>'
    if kind == "box":
        x, y, width, height = map(_n, shape)
        return f'<rect x="{x}" y="{y}" width="{width}" height="{height}"/>'
    if kind == "label":
        x, y = map(_n, shape)
        return f'<circle cx="{x}" cy="{y}" r="{_n(DOT)}"/>'
    x1, y1, x2, y2 = map(_n, shape)
    (ax, ay), (bx, by) = barbs(shape)
    return f'<path d="M{x1} {y1}L{x2} {y2}M{_n(ax)} {_n(ay)}L{x2} {y2}L{_n(bx)} {_n(by)}"/>'


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _scaled(mark: DrawnMark, width: float, height: float) -> tuple[float, ...]:
    if mark.kind == "ring":
        x, y, radius = mark.at
        return (x * width, y * height, radius * width)
    return tuple(value * (height if place % 2 else width) for place, value in enumerate(mark.at))


def _nearest(kind: Kind, shape: tuple[float, ...], to: Point) -> Point:
    """The point of the drawn shape where the disc's line ends; an arrow is held by its tail."""
    if kind == "arrow":
        return (shape[0], shape[1])
    if kind == "box":
        x, y, width, height = shape
        return (min(max(to[0], x), x + width), min(max(to[1], y), y + height))
    x, y, radius = (*shape, DOT)[:3]
    away = math.atan2(to[1] - y, to[0] - x)
    return (x + radius * math.cos(away), y + radius * math.sin(away))


def _distance(kind: Kind, shape: tuple[float, ...], point: Point) -> float:
    """From a point to what a shape marks, its inside included; 0 or less within it."""
    px, py = point
    if kind == "box":
        x, y, width, height = shape
        return math.hypot(max(x - px, 0, px - x - width), max(y - py, 0, py - y - height))
    if kind == "arrow":
        x1, y1, x2, y2 = shape
        run = (x2 - x1) ** 2 + (y2 - y1) ** 2
        along = 0.0 if run == 0 else min(1.0, max(0.0, ((px - x1) * (x2 - x1) + (py - y1) * (y2 - y1)) / run))
        to_shaft = math.hypot(px - x1 - along * (x2 - x1), py - y1 - along * (y2 - y1))
        return min(to_shaft, math.hypot(px - x2, py - y2) - AIM)
    x, y, radius = (*shape, DOT)[:3]
    return math.hypot(px - x, py - y) - radius


def _candidates(kind: Kind, shape: tuple[float, ...], width: float, height: float) -> list[Point]:
    """Places worth trying, best liked first: near the shape before far, upper right before the rest."""
    if kind == "box":
        x, y, half_x, half_y = shape[0] + shape[2] / 2, shape[1] + shape[3] / 2, shape[2] / 2, shape[3] / 2
    else:
        x, y = shape[0], shape[1]
        half_x = half_y = {"ring": shape[-1], "label": DOT, "arrow": 0.0}[kind]
    found = []
    for gap in (1.0, 40.0, 90.0, 160.0, 260.0):
        for step in range(32):
            # 45 degrees up and to the right first, then by turns to both sides
            turn = math.radians(-45 + (step + 1) // 2 * 11.25 * (-1) ** step)
            reach = DISC + CLEAR + gap
            if kind == "box":
                on_edge = min(
                    half_x / abs(math.cos(turn)) if abs(math.cos(turn)) > 1e-9 else math.inf,
                    half_y / abs(math.sin(turn)) if abs(math.sin(turn)) > 1e-9 else math.inf,
                )
                reach += on_edge
            else:
                reach += half_x
            found.append((x + reach * math.cos(turn), y + reach * math.sin(turn)))
    room = DISC + RIM

    def held(value: float, size: float) -> float:
        return size / 2 if size < 2 * room else min(max(value, room), size - room)

    return [(held(px, width), held(py, height)) for px, py in found]


def _offence(
    disc: Point,
    index: int,
    marks: Sequence[DrawnMark],
    shapes: Sequence[tuple[float, ...]],
    placed: Sequence[PlacedMark],
) -> float:
    """How badly a disc at this place would do, units: overlaps weigh most, then a line over a shape, then length."""
    own_kind, own = marks[index].kind, shapes[index]
    end = _nearest(own_kind, own, disc)
    middle = ((disc[0] + end[0]) / 2, (disc[1] + end[1]) / 2)
    total = math.hypot(disc[0] - end[0], disc[1] - end[1])
    for other, (mark, shape) in enumerate(zip(marks, shapes, strict=True)):
        total += 50 * max(0.0, DISC + CLEAR - _distance(mark.kind, shape, disc))
        if other != index:
            total += 10 * max(0.0, CLEAR - _distance(mark.kind, shape, middle))
    for earlier in placed:
        apart = math.hypot(disc[0] - earlier.disc[0], disc[1] - earlier.disc[1])
        total += 50 * max(0.0, 2 * DISC + CLEAR - apart)
        total += 10 * max(0.0, DISC + CLEAR - math.hypot(middle[0] - earlier.disc[0], middle[1] - earlier.disc[1]))
        total += 10 * max(0.0, DISC + CLEAR - _to_line(disc, earlier.line))
    return total


def _to_line(point: Point, line: tuple[Point, Point]) -> float:
    (x1, y1), (x2, y2) = line
    run = (x2 - x1) ** 2 + (y2 - y1) ** 2
    along = 0.0 if run == 0 else min(1.0, max(0.0, ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / run))
    return math.hypot(point[0] - x1 - along * (x2 - x1), point[1] - y1 - along * (y2 - y1))
