"""The demo's bench pictures are sound, and the features named for them lie where the pictures show them."""

import csv
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageOps

from aswired.photos.index import read_photo

ROOT = Path(__file__).parents[2]
with (ROOT / "tests/bench_pictures/features.csv").open(encoding="utf-8", newline="") as stream:
    FEATURES = list(csv.DictReader(stream))
PICTURES = sorted({(row["job"], row["file"]) for row in FEATURES})


@pytest.mark.parametrize(("job", "file"), PICTURES)
def test_demo_picture_is_whole_and_of_the_usual_shape(job: str, file: str) -> None:
    info = read_photo(ROOT / "jobs" / job / "photos" / file)
    assert {info.width, info.height} == {1600, 1200}


def test_one_demo_picture_is_stored_sideways() -> None:
    path = ROOT / "jobs/trail-truck/photos/p08-taped.jpg"
    with Image.open(path) as stored:
        assert stored.size == (1600, 1200)
    assert (read_photo(path).width, read_photo(path).height) == (1200, 1600)


def looks_like(code: str, rgb: Sequence[float]) -> bool:
    """Whether a colour as seen is of the hue that the code names: BN brown, GN green, BU blue, VT violet, RD red."""
    red, green, blue = rgb
    return {
        "BN": red > 1.4 * green > green > blue and red < 160,
        "GN": green > 1.3 * red and green > 1.3 * blue,
        "BU": blue > 1.5 * red and blue > 1.3 * green,
        "VT": blue > 1.3 * green and red > 1.2 * green,
        "RD": red > 2 * green and red > 2 * blue,
    }[code]


NAMED = [
    row for row in FEATURES if row["file"] == "p01-before-nose.jpg" and row["feature"][:2] in ("BN", "GN", "BU", "VT")
]


@pytest.mark.parametrize("row", NAMED, ids=[row["feature"] for row in NAMED])
def test_named_wire_of_the_demo_has_its_colour_at_its_mark(row: dict[str, str]) -> None:
    with Image.open(ROOT / "jobs" / row["job"] / "photos" / row["file"]) as stored:
        picture = ImageOps.exif_transpose(stored).convert("RGB")
    x, y = float(row["x"]) * picture.width, float(row["y"]) * picture.height
    near = np.asarray(picture)[round(y) - 9 : round(y) + 10, round(x) - 9 : round(x) + 10].reshape(-1, 3)
    hits = sum(looks_like(row["feature"][:2], [float(value) for value in pixel]) for pixel in near)
    assert hits > 0.3 * len(near)
