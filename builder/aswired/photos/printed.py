"""Draw marks into the pixels of a derived photograph, for paper."""

import hashlib
import io
from collections.abc import Callable, Sequence
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from aswired.photos.files import CachedFile, keep, kept
from aswired.photos.index import at_work
from aswired.photos.marks import (
    DISC,
    DOT,
    HALO,
    PEN,
    RIM,
    UNITS,
    DrawnMark,
    PlacedMark,
    Point,
    barbs,
    font_size,
    lay_out,
)

RECIPE = "1"  # part of the file's name: raise it when the same marks would come out differently
QUALITY = 85
FINE = 4  # mask pixels per picture pixel, for smooth edges
WHITE, BLACK = (255, 255, 255), (17, 17, 17)

Rect = tuple[float, float, float, float]  # left, top, right, bottom


def print_copy(derived_path: Path, marks: Sequence[DrawnMark], store: Path) -> CachedFile:
    """A copy in the cache of a derived JPEG with the marks drawn in; the same geometry as the overlay.

    Named by what went into it; one that is whole there already is left alone.

    Raises:
        PhotoError: it cannot be drawn.
        OSError: the cache cannot be written.
    """
    told = repr((RECIPE, derived_path.name, [(mark.number, mark.kind, mark.at) for mark in marks]))
    stem = f"{derived_path.stem}-marked-{hashlib.sha256(told.encode()).hexdigest()[:12]}"
    files = kept(store, f"{stem}.json", [f"{stem}.jpg"])
    if files is None:
        data = derived_path.read_bytes()
        with at_work():
            content = _marked(data, marks)
        files = keep(store, f"{stem}.json", {f"{stem}.jpg": content})
    return files[0]


def _marked(data: bytes, marks: Sequence[DrawnMark]) -> bytes:
    with Image.open(io.BytesIO(data)) as opened:
        picture = opened.convert("RGB")
    picture.info.clear()
    scale = max(picture.size) / UNITS
    for placed in lay_out(marks, picture.width, picture.height).placed:
        _draw(picture, placed, scale)
    stream = io.BytesIO()
    picture.save(stream, "JPEG", quality=QUALITY)
    return stream.getvalue()


def _draw(picture: Image.Image, placed: PlacedMark, scale: float) -> None:
    for colour, pen in ((WHITE, HALO), (BLACK, PEN)):
        _line(picture, colour, placed.line, pen, scale)
        _shape(picture, colour, placed, pen, scale)
    x, y = placed.disc
    _circle(picture, WHITE, (x, y), DISC + RIM / 2, None, scale)
    _circle(picture, BLACK, (x, y), DISC - RIM / 2, None, scale)
    number, size = str(placed.mark.number), font_size(placed.mark.number)
    if size * scale < 1:  # under a pixel: a picture of a few pixels has no room for a figure, and no font is so small
        return

    def figures(draw: ImageDraw.ImageDraw, at: Callable[[Point], Point], fine: float) -> None:
        # Pillow's own font has the ten figures; nothing else is ever written into a picture.
        font = ImageFont.load_default(size * fine)
        draw.text(at((x, y)), number, fill=255, font=font, anchor="mm", stroke_width=round(1.2 * fine))

    _stamp(picture, WHITE, (x - DISC, y - DISC, x + DISC, y + DISC), scale, figures)


def _shape(picture: Image.Image, colour: tuple[int, int, int], placed: PlacedMark, pen: float, scale: float) -> None:
    shape = placed.shape
    if placed.mark.kind in ("ring", "label"):
        x, y, radius = (*shape, DOT)[:3]
        _circle(picture, colour, (x, y), radius + pen / 2, pen, scale)
    elif placed.mark.kind == "box":
        x, y, width, height = shape
        corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
        for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
            _line(picture, colour, (start, end), pen, scale)
    else:
        tail, point = (shape[0], shape[1]), (shape[2], shape[3])
        for start in (tail, *barbs(shape)):
            _line(picture, colour, (start, point), pen, scale)


def _circle(
    picture: Image.Image, colour: tuple[int, int, int], centre: Point, radius: float, pen: float | None, scale: float
) -> None:
    """A ring whose outer edge is at `radius`, or a filled circle when `pen` is None."""
    x, y = centre

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[Point], Point], fine: float) -> None:
        area = (*at((x - radius, y - radius)), *at((x + radius, y + radius)))
        if pen is None:
            draw.ellipse(area, fill=255)
        else:
            draw.ellipse(area, outline=255, width=max(1, round(pen * fine)))

    _stamp(picture, colour, (x - radius, y - radius, x + radius, y + radius), scale, paint)


def _line(
    picture: Image.Image, colour: tuple[int, int, int], line: tuple[Point, Point], pen: float, scale: float
) -> None:
    """A line with round ends."""
    (x1, y1), (x2, y2) = line
    half = pen / 2

    def paint(draw: ImageDraw.ImageDraw, at: Callable[[Point], Point], fine: float) -> None:
        draw.line((*at((x1, y1)), *at((x2, y2))), fill=255, width=max(1, round(pen * fine)))
        for x, y in line:
            draw.ellipse((*at((x - half, y - half)), *at((x + half, y + half))), fill=255)

    area = (min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half)
    _stamp(picture, colour, area, scale, paint)


def _stamp(
    picture: Image.Image,
    colour: tuple[int, int, int],
    area: Rect,
    scale: float,
    paint: Callable[[ImageDraw.ImageDraw, Callable[[Point], Point], float], None],
) -> None:
    """Colour the picture through a mask of `area` only, painted four times as fine and averaged down.

    `paint` gets a function from drawing units to mask pixels, and the mask pixels in a unit.
    """
    left, top = max(0, int(area[0] * scale) - 1), max(0, int(area[1] * scale) - 1)
    right = min(picture.width, int(area[2] * scale) + 2)
    bottom = min(picture.height, int(area[3] * scale) + 2)
    if right <= left or bottom <= top:
        return
    mask = Image.new("L", ((right - left) * FINE, (bottom - top) * FINE))
    fine = scale * FINE

    def at(point: Point) -> Point:
        return (point[0] * fine - left * FINE, point[1] * fine - top * FINE)

    paint(ImageDraw.Draw(mask), at, fine)
    picture.paste(colour, (left, top), mask.reduce(FINE))
