"""Odd files planted in a copy of the demo jobs never reach the site, neither by name nor by what is in them."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from PIL import Image

from aswired.site.publish import HOME
from tests.browser import built

pytestmark = pytest.mark.slow

MARK = b"planted-5c1e77"
ODD = (
    "list.xlsx", "todo.txt", "IMG_0815.heic", "photos/IMG_0816.heic", "photos/not-named.jpg", "photos/p02.txt",
    "look.css", "page.html", "spy.js", "extra.md", ".hidden", "old/changes.yml", "photos/.thumbs/a.jpg",
)  # fmt: skip


def test_odd_files_and_originals_never_reach_the_site(tmp_path: Path) -> None:
    shop = built.copy_of_the_shop(tmp_path / "shop")
    shutil.rmtree(shop / "jobs" / "trail-truck")  # two jobs are enough
    for job in ("flatbed", "taken-over"):
        for name in ODD:
            path = shop / "jobs" / job / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(MARK + b" of " + name.encode())
    (shop / "jobs" / "loose.html").write_bytes(MARK)
    original = shop / "jobs" / "flatbed" / "photos" / "f01-shorten.jpg"
    with Image.open(original) as picture:
        exif = Image.Exif()
        exif[0x010E] = MARK.decode()
        exif[0x8769] = {0xA431: MARK.decode()}
        picture.save(original, exif=exif, comment=MARK, quality=90)
    assert original.read_bytes().count(MARK) == 3

    site = built.build(shop)
    files = [path for path in site.rglob("*") if path.is_file() and path.parent.name != HOME]
    assert len(files) > 20
    assert not [path for path in files if MARK in path.read_bytes()]
    planted = {Path(name).name for name in ODD} | {"loose.html", "job.yml", "notes.md"}
    assert not {path.name for path in files} & planted
    originals = {path.read_bytes() for path in (shop / "jobs").rglob("*.jpg")}
    assert not [path for path in files if path.read_bytes() in originals]
    assert {path.suffix for path in files} <= {".html", ".css", ".js", ".jpg", ".svg"}
    # yet the pictures that the jobs name are there, made anew
    assert [path for path in files if path.parent.name == "photos" and path.suffix == ".jpg"]
