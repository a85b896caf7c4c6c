"""Every page of the built demo shop, read as files: links, anchors, ids, and what lies in the site at all."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from PIL import Image

from aswired.site.publish import HOME
from tests.crawl.tree import Element, read

pytestmark = pytest.mark.slow

KINDS = {".html", ".css", ".js", ".jpg", ".svg"}
FEWEST_PAGES = 80
FEWEST_LINKS = 4000
REFERS = ("href", "src", "action", "poster", "data", "xlink:href", "formaction")
NAMES_IDS = ("for", "aria-labelledby", "aria-describedby", "aria-controls", "headers")


def pages_of(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def references(page: Element) -> Iterator[str]:
    """Every address a page names: links, pictures of every width, scripts, forms."""
    for element in page.all():
        for name in REFERS:
            if name in element.attributes:
                yield element.attributes[name]
        for one in element.attributes.get("srcset", "").split(","):
            if one.strip():
                yield one.split()[0]


@cache
def ids_of(page: Element) -> list[str]:
    return [element.attributes["id"] for element in page.all() if "id" in element.attributes]


def trouble_with(reference: str, page: Path, site: Path) -> str:
    """What is wrong with an address of the page; nothing when it leads to a thing in the site."""
    parts = urlsplit(reference)
    if parts.scheme or parts.netloc:
        return "names a scheme or a host"
    if not reference or reference.startswith("/"):
        return "is not relative"
    target = (page.parent / unquote(parts.path)).resolve() if parts.path else page
    if not target.is_relative_to(site):
        return "leaves the site"
    if not target.is_file():
        return "leads to no file"
    if parts.fragment and (target.suffix != ".html" or unquote(parts.fragment) not in ids_of(read(target))):
        return "leads to no such place in the page"
    return ""


def test_every_link_and_anchor_leads_somewhere(site: Path) -> None:
    site, seen, faults = site.resolve(), 0, []
    for page in pages_of(site):
        for reference in references(read(page)):
            seen += 1
            if trouble := trouble_with(reference, page, site):
                faults.append(f"{page.relative_to(site)}: {reference} {trouble}")
    assert not faults, "\n".join(faults[:40])
    assert seen >= FEWEST_LINKS, seen


@pytest.mark.parametrize(
    ("reference", "trouble"),
    [
        ("two.html#here", ""),
        ("#top", ""),
        ("two.html#there", "leads to no such place in the page"),
        ("three.html", "leads to no file"),
        ("../../x.html", "leaves the site"),
        ("/two.html", "is not relative"),
        ("https://example.org/", "names a scheme or a host"),
        ("//example.org/a.js", "names a scheme or a host"),
        ("", "is not relative"),
    ],
)
def test_the_crawl_sees_a_bad_address(reference: str, trouble: str, tmp_path: Path) -> None:
    (tmp_path / "one.html").write_text("<p id='top'>one</p>")
    (tmp_path / "two.html").write_text("<p id='here'>two</p>")
    assert trouble_with(reference, tmp_path / "one.html", tmp_path) == trouble


def test_every_page_is_reached_from_the_first(site: Path) -> None:
    site, reached, ahead = site.resolve(), set[Path](), [site.resolve() / "index.html"]
    while ahead:
        page = ahead.pop()
        if page.suffix == ".html" and page not in reached:
            reached.add(page)
            ahead += [(page.parent / unquote(urlsplit(r).path)).resolve() for r in references(read(page))]
    assert not [page for page in pages_of(site) if page not in reached]
    assert len(reached) >= FEWEST_PAGES


def test_ids_are_one_of_a_kind_and_what_names_them_finds_them(site: Path) -> None:
    faults = []
    for path in pages_of(site):
        page, name = read(path), str(path.relative_to(site))
        ids = Counter(ids_of(page))
        faults += [f"{name}: id {id} {n} times" for id, n in ids.items() if n > 1]
        faults += [f"{name}: id {id!r} has a blank" for id in ids if re.search(r"\s", id) or not id]
        for element in page.all():
            for key in NAMES_IDS:
                named = element.attributes.get(key, "").split()
                faults += [f"{name}: {key} names {id}, which is not there" for id in named if id not in ids]
    assert not faults, "\n".join(faults[:40])


def test_styles_and_scripts_name_no_other_place(site: Path) -> None:
    """Nothing but XML name spaces looks like an address, and no style fetches a thing."""
    texts = [path for path in site.rglob("*") if path.suffix in {".html", ".css", ".js"}]
    assert len(texts) > FEWEST_PAGES
    for path in texts:
        text = path.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
        assert not re.search(r"\b(?:https?|ftp|wss?)://|@import|\bsrc\s*=\s*[\"']//", text), path
        if path.suffix == ".css":
            assert "url(" not in text, path


def test_only_pages_styles_scripts_and_pictures_are_in_the_site(site: Path) -> None:
    of_the_build = set((site / HOME).iterdir())
    assert {path.name for path in of_the_build} == {"written.txt"}
    files = [path for path in site.rglob("*") if path.is_file() and path not in of_the_build]
    assert {path.suffix for path in files} <= KINDS
    assert not [path for path in files if any(part.startswith(".") for part in path.relative_to(site).parts)]
    assert not [path for path in site.rglob("*") if path.is_symlink()]


def test_pictures_carry_no_data_of_the_camera(site: Path) -> None:
    pictures = sorted(site.rglob("*.jpg"))
    assert len(pictures) >= 20
    for path in pictures:
        with Image.open(path) as picture:
            assert not picture.getexif(), path
            assert not set(picture.info) & {"exif", "xmp", "comment", "photoshop", "adobe"}, (path, picture.info.keys())
        raw = path.read_bytes()
        assert b"Exif\0" not in raw, path
        assert b"http://ns.adobe.com" not in raw, path
