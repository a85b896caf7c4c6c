"""The manual in a shop's site: all of its words, found by its headings, made again only when it must."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from tests.crawl.tree import Element, parse
from tests.docs.write_reference import MANUAL as FOLDER

from aswired.checks.codes import all_codes
from aswired.sheets.frame import ShopFacts
from aswired.sheets.registry import MANUAL
from aswired.sheets.templates import environment, render
from aswired.site import manual, run, stage
from aswired.site.run import build
from aswired.site.theme import makers_mark, theme_dir

NAMES = sorted(path.stem for path in FOLDER.glob("*.md"))


@pytest.fixture(scope="module")
def pages() -> dict[str, Element]:
    env = environment(theme_dir())
    return {Path(page.uri).stem: parse(render(env, page)) for page in manual.pages(ShopFacts("shop"))}


def words(element: Element) -> str:
    return " ".join("".join(part if isinstance(part, str) else words(part) for part in element.inside).split())


def plain(text: str) -> str:
    """What is read of a page of Markdown: without its signs, links as their words."""
    text = re.sub(r"<!--.*?-->", "", text)
    text = re.sub(r"\[([^]]+)\]\([^)]+\)", r"\1", text)
    text = re.sub(r"^(#+|```(yaml)?|- |\|[-|]+\|$)", "", text, flags=re.MULTILINE)
    return re.sub(r"[\s|*`\\]+", "", text)


@pytest.mark.parametrize("name", NAMES)
def test_a_page_shows_every_word_that_is_written(name: str, pages: dict[str, Element]) -> None:
    title, _, text = (FOLDER / f"{name}.md").read_text(encoding="utf-8").partition("\n")
    assert words(pages[name].first("h1")) == title.removeprefix("# ")
    (body,) = pages[name].all("div", class_="manual")
    assert re.sub(r"[\s|*`\\]+", "", words(body)) == plain(text)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_wide_scrolls_by_itself_and_is_reached_by_the_keyboard(name: str, pages: dict[str, Element]) -> None:
    (body,) = pages[name].all("div", class_="manual")
    boxes = list(body.all("div", class_="scroll"))
    assert [len(list(box.all("table"))) for box in boxes] == [1 for _ in body.all("table")]
    assert {box.attributes["tabindex"] for box in (*boxes, *body.all("pre"))} <= {"0"}


def test_links_lead_to_pages_and_codes_to_their_help(pages: dict[str, Element]) -> None:
    links = {a.attributes["href"] for page in pages.values() for a in page.first("main").all("a")}
    assert not [to for to in links if ".md" in to or ":" in to]
    assert {"writing.html", "writing.html#a-change-of-mind", "../codes.html#FUS01"} <= links
    (told,) = pages["codes"].all("div", class_="manual")
    assert {f"../codes.html#{entry.code}" for entry in all_codes()} <= {a.attributes["href"] for a in told.all("a")}
    assert not [pre for page in pages.values() for pre in page.all("pre") if any(pre.all("a"))]


def test_every_heading_is_found_where_it_stands(pages: dict[str, Element]) -> None:
    found = {(entry.uri, entry.anchor): entry.title for entry in manual.entries()}
    standing = {
        (f"manual/{name}.html", heading.attributes["id"]): words(heading)
        for name, page in pages.items()
        for heading in (*page.first("main").all("h2"), *page.first("main").all("h3"))
        if "id" in heading.attributes
    }
    titles = {(f"manual/{name}.html", ""): words(page.first("h1")) for name, page in pages.items()}
    assert found == {**titles, **standing}
    assert found["manual/measuring.html", "if-a-ground-opens"] == "If a ground opens"


def test_every_page_of_the_site_leads_to_the_manual(tmp_path: Path) -> None:
    site = made(tmp_path)
    for path in site.rglob("*.html"):
        address = os.path.relpath(site / MANUAL.uri, path.parent)
        foot = parse(path.read_text(encoding="utf-8")).first("footer")
        assert address in {a.attributes["href"] for a in foot.all("a")}, path


# ---- in proportion to what changed ----------------------------------------------------------------------------------
def made(tmp_path: Path) -> Path:
    (tmp_path / "jobs").mkdir(exist_ok=True)
    assert build(run.order_for(tmp_path / "jobs", tmp_path / "site", "shop", "")).good
    return tmp_path / "site"


def test_the_manual_is_rendered_once_and_again_when_a_page_was_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rendered: list[str] = []
    monkeypatch.setattr(stage, "render", lambda env, page: rendered.append(page.uri) or render(env, page))

    def of_manual() -> list[str]:
        told = [uri for uri in rendered if uri.startswith("manual/")]
        rendered.clear()
        return told

    made(tmp_path)
    assert sorted(of_manual()) == [f"manual/{name}.html" for name in NAMES]
    site = made(tmp_path)
    assert of_manual() == []
    assert "the-smallest-job" in (site / stage.FIND_DATA).read_text()
    page = site / "manual" / "writing.html"
    whole = page.read_bytes()
    page.unlink()
    made(tmp_path)
    assert page.read_bytes() == whole
    assert len(of_manual()) == len(NAMES)


def test_another_word_in_the_manual_is_another_program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    theme = theme_dir()
    monkeypatch.setattr("aswired.site.theme._PACKAGE", tmp_path)
    text = tmp_path / "manual" / "rules.md"
    text.parent.mkdir()
    text.write_text("# Rules\n")
    before = makers_mark(theme)
    text.write_text("# The rules\n")
    assert makers_mark(theme) != before
