"""What stands on the pages of a PDF: texts, words with their places, pictures, grey pixels (by poppler's programs)."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray
from PIL import Image

MM_PT = 72 / 25.4
SIZES_MM = {"a4": (210, 297), "letter": (215.9, 279.4)}


class Word(NamedTuple):
    """A word on a page; points from the page's upper left corner."""

    page: int
    text: str
    left: float
    top: float
    right: float
    bottom: float


def run(*command: str | Path) -> bytes:
    return subprocess.run([str(part) for part in command], capture_output=True, check=True).stdout


def squeezed(text: str) -> str:
    """The text without blanks of any kind: where a line breaks is of no account."""
    return re.sub(r"\s+", "", text)


@cache
def texts(pdf: Path, order: str) -> tuple[str, ...]:
    """Each page's text, `layout` as it stands on the paper, or `raw` in the order it was painted, cell after cell."""
    return tuple(run("pdftotext", f"-{order}", pdf, "-").decode().split("\f")[:-1])


@cache
def words(pdf: Path) -> tuple[Word, ...]:
    root = ElementTree.fromstring(run("pdftotext", "-bbox", pdf, "-"))  # noqa: S314 - of our own PDF
    return tuple(_words(root))


def _words(root: ElementTree.Element) -> Iterator[Word]:
    for number, page in enumerate(root.iterfind(".//{*}page"), start=1):
        for word in page.iterfind("{*}word"):
            box = [float(word.attrib[key]) for key in ("xMin", "yMin", "xMax", "yMax")]
            yield Word(number, word.text or "", *box)


def page_sizes_pt(pdf: Path) -> list[tuple[float, float]]:
    root = ElementTree.fromstring(run("pdftotext", "-bbox", pdf, "-"))  # noqa: S314 - of our own PDF
    return [(float(page.attrib["width"]), float(page.attrib["height"])) for page in root.iterfind(".//{*}page")]


def pictures(pdf: Path) -> list[tuple[int, int, int, int]]:
    """Page, width and height in pixels, and pixels an inch, of each picture drawn."""
    rows = [line.split() for line in run("pdfimages", "-list", pdf).decode().splitlines()[2:]]
    return [(int(row[0]), int(row[3]), int(row[4]), int(row[12])) for row in rows if row[2] == "image"]


@cache
def grey(pdf: Path, page: int, dpi: int) -> NDArray[np.uint8]:
    """The page without colour, as a printer without colour ink puts it on paper."""
    raw = run("pdftoppm", "-gray", "-r", str(dpi), "-f", str(page), "-l", str(page), pdf)
    with Image.open(BytesIO(raw)) as picture:
        return np.asarray(picture.convert("L"))


def contrast(pixels: NDArray[np.uint8]) -> float:
    """Contrast of the darkest to the lightest pixel, 1 to 21 (WCAG 2.2, relative luminance of sRGB)."""

    def luminance(value: int) -> float:
        part = value / 255
        return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4

    return (luminance(int(pixels.max())) + 0.05) / (luminance(int(pixels.min())) + 0.05)


def cut_out(pdf: Path, page: int, box: tuple[float, float, float, float], dpi: int) -> NDArray[np.uint8]:
    """Grey pixels of a part of the page: left, top, right, bottom in points."""
    left, top, right, bottom = (round(part * dpi / 72) for part in box)
    return grey(pdf, page, dpi)[max(top, 0) : bottom, max(left, 0) : right]
