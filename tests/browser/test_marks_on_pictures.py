"""Marks lie on what they mark, in the page as Chromium draws it and in the copy for print.

The pictures are made here: one red dot at a known place, the rest grey. The mark is a ring round that place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, Page

from tests.browser import built

pytestmark = pytest.mark.browser

DOT_X, DOT_Y, DOT_RADIUS, RING_RADIUS = 0.72, 0.24, 0.03, 0.07  # x and radii of the width, y of the height


class Case(NamedTuple):
    """A picture as it is seen upright, and how the camera stored it (Exif orientation)."""

    id: str
    wide: int
    high: int
    orientation: int


def name_of(case: Case) -> str:
    return f"{case.wide}x{case.high}-stored{case.orientation}"


CASES = (
    Case("P1", 1600, 1200, 1),
    Case("P2", 1200, 1600, 6),
    Case("P3", 1600, 700, 6),
    Case("P4", 900, 1600, 8),
    Case("P5", 1400, 1000, 3),
    Case("P6", 700, 300, 1),
)
# How the upright picture must be turned, counter-clockwise, to be stored so (Exif 2.32, tag 274): with 6 the camera's
# first row is what is seen at the right, so showing it upright turns it clockwise by a quarter.
STORED_BY = {1: None, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270, 3: Image.Transpose.ROTATE_180}


def write_picture(case: Case, path: Path) -> None:
    upright = Image.new("RGB", (case.wide, case.high), (150, 150, 150))
    x, y, r = DOT_X * case.wide, DOT_Y * case.high, DOT_RADIUS * case.wide
    ImageDraw.Draw(upright).ellipse((x - r, y - r, x + r, y + r), fill=(235, 15, 15))
    turn = STORED_BY[case.orientation]
    exif = Image.Exif()
    exif[0x0112] = case.orientation
    (upright.transpose(turn) if turn is not None else upright).save(path, quality=95, exif=exif)


@pytest.fixture(scope="module")
def dots(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a job that has the pictures and a ring in each."""
    shop = tmp_path_factory.mktemp("dots")
    folder = shop / "jobs" / "dots"
    (folder / "photos").mkdir(parents=True)
    change = '{id: C1, kind: cap, wire: W1, was: "GN 18 AWG, F1 to lamp.1", end: F1}'
    lines = ["job: Dots", "changes:", f"  - {change}", "photos:"]
    for case in CASES:
        write_picture(case, folder / "photos" / f"{case.id}.jpg")
        ring = f"ring: [{DOT_X}, {DOT_Y}, {RING_RADIUS}]"
        lines.append(f"  - {{id: {case.id}, file: photos/{case.id}.jpg, shows: [C1], marks: [{{{ring}, says: dot}}]}}")
    (folder / "job.yml").write_text("\n".join(lines) + "\n")
    return built.build(shop)


def reds_of(pixels: NDArray[np.int16]) -> NDArray[np.intp]:
    """Row and column of each pixel of the dot."""
    red, green, blue = pixels[..., 0], pixels[..., 1], pixels[..., 2]
    return np.argwhere((red > 170) & (green < 90) & (blue < 90))


def ring_distances(pixels: NDArray[np.int16], x: float, y: float, reach: float) -> list[float]:
    """From the middle of the dot outwards in 48 directions: how far it is to the first black with white behind it."""
    high, wide = pixels.shape[:2]
    found = []
    for angle in np.linspace(0, math.tau, 48, endpoint=False):
        away = np.arange(0, reach, 0.5)
        columns, rows = np.rint(x + away * math.cos(angle)).astype(int), np.rint(y + away * math.sin(angle)).astype(int)
        inside = (columns >= 0) & (columns < wide) & (rows >= 0) & (rows < high)
        away, light = away[inside], pixels[rows[inside], columns[inside]]
        black, white = away[light.max(axis=1) < 80], away[light.min(axis=1) > 215]
        if len(black) and any((black[0] < white) & (white < black[0] + 0.03 * wide)):
            found.append(float(black[0]))
    return found


def assert_ring_lies_round_the_dot(picture: Image.Image, case: Case) -> None:
    """The dot is where it was put in the upright picture, and the ring goes round it, with it in the middle."""
    pixels = np.asarray(picture.convert("RGB")).astype(np.int16)
    high, wide = pixels.shape[:2]
    assert wide / high == pytest.approx(case.wide / case.high, rel=0.02)
    reds = reds_of(pixels)
    assert len(reds) > 0.5 * math.pi * (DOT_RADIUS * wide) ** 2
    y, x = reds.mean(axis=0)
    assert (x / wide, y / high) == pytest.approx((DOT_X, DOT_Y), abs=0.01)
    distances = ring_distances(pixels, x, y, 2 * RING_RADIUS * wide)
    farthest_red = float(np.hypot(reds[:, 1] - x, reds[:, 0] - y).max())
    assert len(distances) >= 40, f"the ring is met in {len(distances)} of 48 directions"  # its number may stand on it
    assert min(distances) > farthest_red
    assert max(distances) - min(distances) < 0.02 * wide
    assert float(np.median(distances)) == pytest.approx(RING_RADIUS * wide, rel=0.15)


@pytest.fixture
def sharp(browser: Browser) -> Iterator[Page]:
    """A screen with two pixels to the px, as phones have them."""
    context = browser.new_context(viewport={"width": 1400, "height": 1000}, device_scale_factor=2)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("case", CASES, ids=name_of)
def test_the_ring_on_the_page_goes_round_the_dot(case: Case, dots: Path, sharp: Page) -> None:
    sharp.goto((dots / "jobs" / "dots" / "photos.html").as_uri())
    photo = sharp.locator(f"[id='{case.id}'] .photo")
    for wide in (1400, 360):
        sharp.set_viewport_size({"width": wide, "height": 1000})
        photo.scroll_into_view_if_needed()
        sharp.wait_for_function("id => document.querySelector(`#${id} .photo img`).complete", arg=case.id)
        assert_ring_lies_round_the_dot(Image.open(BytesIO(photo.screenshot())), case)


@pytest.mark.parametrize("case", CASES, ids=name_of)
def test_the_ring_in_the_print_copy_goes_round_the_dot(case: Case, dots: Path, sharp: Page) -> None:
    """The record has no overlay: the picture it prints has the marks in it."""
    sharp.emulate_media(media="print")
    sharp.goto((dots / "jobs" / "dots" / "record.html").as_uri())
    figure = sharp.locator(".prints figure", has_text=case.id)
    assert figure.locator("svg").count() == 0
    picture = figure.locator("img")
    assert_ring_lies_round_the_dot(Image.open(BytesIO(picture.screenshot())), case)
    with Image.open(dots / "jobs" / "dots" / str(picture.get_attribute("src"))) as copy:
        assert_ring_lies_round_the_dot(copy, case)


@pytest.mark.parametrize("fault", ["mirrored", "oval", "missing"])
def test_a_ring_in_the_wrong_place_is_seen(fault: str) -> None:
    case = Case("P1", 1600, 1200, 1)
    picture = Image.new("RGB", (case.wide, case.high), (150, 150, 150))
    pen, x, y = ImageDraw.Draw(picture), DOT_X * case.wide, DOT_Y * case.high
    pen.ellipse((x - 48, y - 48, x + 48, y + 48), fill=(235, 15, 15))
    at_x = case.wide - x if fault == "mirrored" else x
    r_x, r_y = RING_RADIUS * case.wide, RING_RADIUS * (case.wide if fault != "oval" else case.high)
    for grow, colour, width in ((6, (255, 255, 255), 18), (0, (17, 17, 17), 6)) if fault != "missing" else ():
        pen.ellipse((at_x - r_x - grow, y - r_y - grow, at_x + r_x + grow, y + r_y + grow), outline=colour, width=width)
    with pytest.raises(AssertionError):
        assert_ring_lies_round_the_dot(picture, case)
