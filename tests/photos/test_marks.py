"""Marks stand on what they mark, on screen and on paper, and their numbers cover nothing that is marked."""

from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from aswired.photos.derive import derive
from aswired.photos.index import read_photo
from aswired.photos.marks import CLEAR, DISC, DrawnMark, Kind, MarkSheet, lay_out, overlay_svg
from aswired.photos.printed import print_copy

from .pictures import jpeg, spotted, stored_as

SIZES = [(1600, 1200), (1200, 1600), (900, 300)]
TURNED = [  # the quick loop has every size and every orientation, the whole run each size in each orientation
    pytest.param(size, orientation, marks=[] if size == SIZES[2] or orientation == 6 else [pytest.mark.slow])
    for size in SIZES
    for orientation in (1, 3, 6, 8)
]
SPOT = (0.3, 0.62, 0.04)


def derived_spot(tmp_path: Path, size: tuple[int, int], orientation: int) -> Path:
    """A picture with a red spot at SPOT, stored turned, through the whole pipeline."""
    source = tmp_path / "source.jpg"
    source.write_bytes(jpeg(stored_as(spotted(*size, *SPOT), orientation), orientation))
    derived = derive(source, read_photo(source), tmp_path / "out", hide=[], name="P1")
    assert derived.files[0][:2] == size
    return tmp_path / "out" / derived.files[0][2]


def is_red(pixel: tuple[int, ...]) -> bool:
    return pixel[0] > 180 and pixel[1] < 80 and pixel[2] < 80


def svg_root(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)  # noqa: S314 - our own drawing


@pytest.mark.parametrize(("size", "orientation"), TURNED)
def test_ring_on_screen_surrounds_the_feature(size: tuple[int, int], orientation: int, tmp_path: Path) -> None:
    with Image.open(derived_spot(tmp_path, size, orientation)) as opened:
        picture = opened.convert("RGB")
    root = svg_root(overlay_svg([DrawnMark(1, "ring", (SPOT[0], SPOT[1], 0.06))], *size))
    _, _, wide, high = map(float, root.attrib["viewBox"].split())
    assert wide / high == pytest.approx(size[0] / size[1], rel=1e-3)
    ring = root.find("./a/g[@class='pen']/circle")
    assert ring is not None
    scale = picture.width / wide  # the drawing is laid over the whole picture
    x, y, radius = (float(ring.attrib[key]) * scale for key in ("cx", "cy", "r"))
    assert is_red(picture.getpixel((round(x), round(y))))  # type: ignore[arg-type]
    reds = np.argwhere((np.asarray(picture)[:, :, 0] > 180) & (np.asarray(picture)[:, :, 1] < 80))
    assert len(reds) > 200
    assert np.hypot(reds[:, 1] - x, reds[:, 0] - y).max() < radius  # the whole spot lies within the ring


@pytest.mark.parametrize(("size", "orientation"), TURNED)
def test_ring_on_paper_surrounds_the_feature(size: tuple[int, int], orientation: int, tmp_path: Path) -> None:
    path = derived_spot(tmp_path, size, orientation)
    with Image.open(
        print_copy(path, [DrawnMark(1, "ring", (SPOT[0], SPOT[1], 0.1))], tmp_path / "print").path
    ) as opened:
        picture = opened.convert("RGB")
    assert picture.size == size
    x, y, radius = SPOT[0] * size[0], SPOT[1] * size[1], 0.1 * size[0]
    unit = max(size) / 1600
    assert is_red(picture.getpixel((round(x), round(y))))  # type: ignore[arg-type]
    sheet = lay_out([DrawnMark(1, "ring", (SPOT[0], SPOT[1], 0.1))], *size)
    (disc_x, disc_y), dark, light, seen = sheet.placed[0].disc, 0, 0, 0
    for turn in np.linspace(0, 2 * np.pi, 90, endpoint=False):
        on, beside = ((x + (radius + off) * np.cos(turn), y + (radius + off) * np.sin(turn)) for off in (0, 5.5 * unit))
        if not all(0 <= px < size[0] and 0 <= py < size[1] for px, py in (on, beside)):
            continue
        if np.hypot(on[0] - disc_x * unit, on[1] - disc_y * unit) < (DISC + CLEAR + 20) * unit:
            continue  # the line to the disc leaves the ring here
        seen += 1
        dark += sum(picture.getpixel((int(on[0]), int(on[1])))) < 3 * 90  # type: ignore[arg-type]
        light += sum(picture.getpixel((int(beside[0]), int(beside[1])))) > 3 * 165  # type: ignore[arg-type]
    assert seen > 40
    assert dark > 0.95 * seen
    assert light > 0.95 * seen


def test_every_kind_of_mark_is_drawn_where_it_says(tmp_path: Path) -> None:
    grey = tmp_path / "grey.jpg"
    Image.new("RGB", (1600, 1200), (128, 128, 128)).save(grey, quality=95)
    marks = [
        DrawnMark(1, "arrow", (0.1, 0.1, 0.3, 0.3)),
        DrawnMark(2, "box", (0.6, 0.2, 0.2, 0.25)),
        DrawnMark(3, "label", (0.2, 0.8)),
        DrawnMark(14, "ring", (0.7, 0.8, 0.05)),
    ]
    with Image.open(print_copy(grey, marks, tmp_path / "print").path) as opened:
        picture = opened.convert("L")
    on_pen = [(320, 240), (480, 358), (960, 400), (1280, 420), (1100, 240), (1100, 540), (1120 + 80, 960)]
    assert [picture.getpixel(spot) < 90 for spot in on_pen] == [True] * len(on_pen)  # type: ignore[operator]
    for spot in [(1100, 400), (1120, 960), (320, 960)]:  # the middles stay free
        assert abs(picture.getpixel(spot) - 128) < 12  # type: ignore[operator]
    for placed in lay_out(marks, 1600, 1200).placed:
        x, y = (round(value) for value in placed.disc)
        disc = np.asarray(picture)[y - 30 : y + 30, x - 30 : x + 30]
        assert (disc < 60).mean() > 0.5  # black
        assert (disc > 200).mean() > 0.03  # with a white number
        assert picture.getpixel((x, y - 46)) > 200  # type: ignore[operator]  # white rim


def test_number_in_the_disc_is_the_marks_own(tmp_path: Path) -> None:
    grey = tmp_path / "grey.jpg"
    Image.new("RGB", (800, 600), (128, 128, 128)).save(grey, quality=95)
    prints = []
    for number in (1, 7):
        with Image.open(print_copy(grey, [DrawnMark(number, "label", (0.5, 0.5))], tmp_path / "print").path) as opened:
            prints.append(np.asarray(opened.convert("L"), dtype=np.int16))
    assert np.abs(prints[0] - prints[1]).max() > 150


def test_unchanged_print_copy_is_not_rewritten(tmp_path: Path) -> None:
    grey = tmp_path / "grey.jpg"
    Image.new("RGB", (800, 600), (128, 128, 128)).save(grey)
    first = print_copy(grey, [DrawnMark(1, "label", (0.5, 0.5))], tmp_path)
    stamp = first.path.stat().st_mtime_ns
    assert print_copy(grey, [DrawnMark(1, "label", (0.5, 0.5))], tmp_path) == first
    assert first.path.stat().st_mtime_ns == stamp
    assert print_copy(grey, [DrawnMark(1, "label", (0.5, 0.6))], tmp_path) != first


def test_each_mark_is_a_link_with_a_name() -> None:
    marks = [DrawnMark(1, "ring", (0.2, 0.2, 0.05), "C14-W31-plug, first joint"), DrawnMark(2, "label", (0.7, 0.7))]
    links = svg_root(overlay_svg(marks, 1600, 1200, {1: "../splices/#C14-W31-plug"})).findall("a")
    assert [link.attrib["href"] for link in links] == ["../splices/#C14-W31-plug", "#m2"]
    assert [link.attrib["aria-label"] for link in links] == ["Mark 1: C14-W31-plug, first joint", "Mark 2"]
    assert ["".join(link.itertext()) for link in links] == ["1", "2"]


def test_no_marks_draw_nothing() -> None:
    assert overlay_svg([], 1600, 1200) == ""


@example("<b>x</b>&\"'")
@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"], exclude_characters="\ufffe\uffff")))
def test_text_from_the_job_file_cannot_become_markup(says: str) -> None:
    svg = overlay_svg([DrawnMark(1, "ring", (0.2, 0.2, 0.05), says)], 1600, 1200, {1: "#" + says})
    link = svg_root(svg).find("a")
    assert link is not None
    assert link.attrib["aria-label"] == (f"Mark 1: {says}" if says else "Mark 1")
    assert link.attrib["href"] == "#" + says
    # svg, link, two groups of line and ring, disc, number, and the ends of five: the same whatever the text holds
    assert svg.count("<") == 15


@pytest.mark.parametrize(("kind", "at"), [("ring", (0.1, 0.2)), ("label", (0.1, float("nan"))), ("star", (0.1, 0.2))])
def test_senseless_mark_is_refused(kind: str, at: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match=r"takes \d numbers|no such mark"):
        DrawnMark(1, kind, at)  # type: ignore[arg-type]


fraction = st.floats(0.03, 0.97)
one_mark = st.one_of(
    st.tuples(st.just("ring"), st.tuples(fraction, fraction, st.floats(0.005, 0.12))),
    st.tuples(st.just("arrow"), st.tuples(fraction, fraction, fraction, fraction)),
    st.tuples(st.just("box"), st.tuples(*[st.floats(0, 0.7)] * 2, *[st.floats(0.01, 0.3)] * 2)),
    st.tuples(st.just("label"), st.tuples(fraction, fraction)),
)


def painted(sheet: MarkSheet, index: int, discs: bool) -> NDArray[np.bool_]:
    """What a mark's area or disc covers, painted with Pillow: independent of the distances used to place discs."""
    mask = Image.new("L", (round(sheet.width), round(sheet.height)))
    draw, placed = ImageDraw.Draw(mask), sheet.placed[index]
    shape = placed.shape
    if discs:
        x, y = placed.disc
        draw.ellipse((x - DISC, y - DISC, x + DISC, y + DISC), fill=255)
    elif placed.mark.kind == "ring":
        draw.ellipse((shape[0] - shape[2], shape[1] - shape[2], shape[0] + shape[2], shape[1] + shape[2]), fill=255)
    elif placed.mark.kind == "box":
        draw.rectangle((shape[0], shape[1], shape[0] + shape[2], shape[1] + shape[3]), fill=255)
    elif placed.mark.kind == "arrow":
        draw.line(shape, fill=255, width=3)
    else:
        draw.point(shape, fill=255)
    return np.asarray(mask) > 0


@pytest.mark.slow
@given(st.sampled_from(SIZES[:2]), st.lists(one_mark, min_size=1, max_size=3))
@settings(max_examples=60, deadline=None)
def test_discs_stay_inside_and_cover_neither_marked_things_nor_each_other(
    size: tuple[int, int], drawn: list[tuple[Kind, tuple[float, ...]]]
) -> None:
    sheet = lay_out([DrawnMark(n, kind, at) for n, (kind, at) in enumerate(drawn, 1)], *size)
    assert len(sheet.placed) == len(drawn)
    for index, placed in enumerate(sheet.placed):
        x, y = placed.disc
        assert DISC <= x <= sheet.width - DISC
        assert DISC <= y <= sheet.height - DISC
        disc = painted(sheet, index, discs=True)
        for other in range(len(drawn)):
            assert not (disc & painted(sheet, other, discs=False)).any()
            if other != index:
                assert not (disc & painted(sheet, other, discs=True)).any()
