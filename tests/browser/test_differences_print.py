"""The sheet "Differences" on paper: the pairs that are open on the screen, and nothing of the others."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser import built, paper
from tests.browser.paper import squeezed

pytestmark = pytest.mark.browser

NONE_OPEN = "None of the pairs below was open"


def printed(page: Page, pdf: Path) -> tuple[str, int]:
    """The text on paper without blanks, and how many pages it takes."""
    built.need("pdftotext")
    page.pdf(path=pdf, format="A4", print_background=False)
    return squeezed("".join(paper.texts(pdf, "raw"))), len(paper.page_sizes_pt(pdf))


def first_and_last(page: Page) -> tuple[str, str]:
    """The heading of the first pair and of the last."""
    headings = page.locator(".pair > summary h2")
    assert headings.count() > 3
    return headings.first.inner_text(), headings.last.inner_text()


def test_what_is_open_on_the_screen_is_on_paper_and_no_other_pair(site: Path, page: Page, tmp_path: Path) -> None:
    page.goto((site / "jobs" / "trail-truck" / "differences.html").as_uri())
    first, last = first_and_last(page)
    pair = page.locator(".pair").last
    pair.locator("summary").click()
    rows = [squeezed(text) for text in pair.locator("tbody th").all_inner_texts()]
    assert rows
    text, pages = printed(page, tmp_path / "last.pdf")
    assert squeezed(last) in text
    assert not [row for row in rows if row not in text]
    assert squeezed(first) not in text
    assert squeezed(NONE_OPEN) not in text
    page.locator(".pair summary").first.click()
    both, more = printed(page, tmp_path / "both.pdf")
    assert squeezed(first) in both
    assert squeezed(last) in both
    assert more > pages


def test_while_none_is_open_the_paper_names_the_pairs_and_says_that_nothing_is_on_it(
    site: Path, page: Page, tmp_path: Path
) -> None:
    page.goto((site / "jobs" / "trail-truck" / "differences.html").as_uri())
    first, last = first_and_last(page)
    text, pages = printed(page, tmp_path / "none.pdf")
    for words in (first, last, NONE_OPEN):
        assert squeezed(words) in text
    said = page.locator(".pair > summary small").first.inner_text()
    assert squeezed(said) in text
    head = page.locator(".pair thead").first.text_content() or ""
    assert "What differs" in head
    assert squeezed(head) not in text
    assert pages <= 2


def test_a_pair_that_was_closed_again_is_not_printed(site: Path, page: Page, tmp_path: Path) -> None:
    page.goto((site / "jobs" / "trail-truck" / "differences.html").as_uri())
    before, _ = printed(page, tmp_path / "before.pdf")
    summary = page.locator(".pair summary").first
    summary.click()
    opened, _ = printed(page, tmp_path / "opened.pdf")
    summary.click()
    assert printed(page, tmp_path / "again.pdf")[0] == before != opened
