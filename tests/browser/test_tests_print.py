"""The test sheet on paper: it fits A4 and Letter and holds room to write beside each step; on a phone it is read."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser import built, paper

pytestmark = pytest.mark.browser

MM_PX = 96 / 25.4
MOST_PAGES = 30  # some thirty loads, two thirds of a page each, and what is measured before power
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


def test_on_a_phone_each_step_is_a_card_and_nothing_stands_out(site: Path, page: Page) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    for file in ("tests.html", "circuits/dip-left.html"):
        page.goto((site / "jobs" / "trail-truck" / file).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        assert page.locator(".measures tbody tr").first.evaluate("e => getComputedStyle(e).display") == "block"
        assert page.locator(".blank-cell:visible").count() == 0
