"""The test sheet on paper: it fits A4 and Letter and holds room to write beside each step; on a phone it is read."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser import built, paper

pytestmark = pytest.mark.browser

MM_PX = 96 / 25.4
MOST_PAGES = 13  # some thirty loads, three or four to a page, and what is measured before power
READ = ".measures tr:not(.of-load) .blank-cell:not(.by)"


@pytest.mark.parametrize("size", built.PAPERS)
def test_the_test_sheet_prints_with_room_beside_each_step(size: str, site: Path, page: Page, tmp_path: Path) -> None:
    built.need("pdftotext")
    page.set_viewport_size({"width": 1000, "height": 1400})
    page.goto(f"{(site / 'jobs' / 'trail-truck' / 'tests.html').as_uri()}?paper-{size}")
    page.emulate_media(media="print")
    pdf = tmp_path / f"{size}.pdf"
    page.pdf(path=pdf, prefer_css_page_size=True, print_background=False)
    sizes = paper.page_sizes_pt(pdf)
    assert len(sizes) <= MOST_PAGES
    for width, height in sizes:
        assert (width, height) == pytest.approx([mm * paper.MM_PT for mm in paper.SIZES_MM[size]], abs=1)
    text = paper.squeezed("".join(paper.texts(pdf, "layout")))
    for words in ("1 Before power", "2 First power", "3 Circuit by circuit", "4 Key off", "F7 out: dead", "Sound"):
        assert paper.squeezed(words) in text, words
    wide, _ = paper.SIZES_MM[size]
    for word in paper.words(pdf):
        assert word.left >= 0
        assert word.right <= wide * paper.MM_PT
    room = page.locator(f"tbody :is({READ})").evaluate_all(
        "all => all.map(e => [e.getBoundingClientRect().width, e.getBoundingClientRect().height])"
    )
    assert len(room) > 150
    assert min(width for width, _ in room) > 15 * MM_PX
    assert min(height for _, height in room) > 5 * MM_PX


@pytest.mark.parametrize("size", built.PAPERS)
@pytest.mark.parametrize(("file", "most"), [("circuits/stop-left", 5), ("circuits/fuel-pump", 6), ("fuses", 6)])
def test_a_page_with_many_figures_prints_on_few_sheets(
    file: str, most: int, size: str, site: Path, page: Page, tmp_path: Path
) -> None:
    built.need("pdftotext")
    page.goto((site / "jobs" / "trail-truck" / f"{file}.html").as_uri())
    pdf = tmp_path / f"{size}.pdf"
    page.pdf(path=pdf, format="A4" if size == "a4" else "Letter", print_background=False)
    assert len(paper.page_sizes_pt(pdf)) <= most
    text = paper.squeezed("".join(paper.texts(pdf, "raw")))
    assert text.count(paper.squeezed("How each figure was computed")) == 1
    folded = page.locator("details.fold.screen .fig summary b").all_text_contents()
    values = page.locator(".figure-notes li").all_text_contents()
    assert len(values) == len(folded) > 20
    for value in folded:
        assert any(f"= {value}." in note for note in values), value
    wide, _ = paper.SIZES_MM[size]
    assert max(word.right for word in paper.words(pdf)) <= (wide - 10) * paper.MM_PT


def test_on_a_phone_each_step_is_a_card_and_nothing_stands_out(site: Path, page: Page) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    for file in ("tests.html", "circuits/dip-left.html"):
        page.goto((site / "jobs" / "trail-truck" / file).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        assert page.locator(".measures tbody tr").first.evaluate("e => getComputedStyle(e).display") == "block"
        assert page.locator(".blank-cell:visible").count() == 0
