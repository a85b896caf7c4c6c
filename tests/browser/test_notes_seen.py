"""The job's notes: read on the overview and beside the work sheet, on paper with the sheet that is the shop's own."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser import built, paper
from tests.browser.paper import squeezed

pytestmark = pytest.mark.browser

JOB = "trail-truck"
SHEETS = ("index.html", "worksheet.html")


def paragraphs() -> list[str]:
    """The notes as the demo job's file has them, heading and paragraphs, each on one line."""
    text = (built.ROOT / "jobs" / JOB / "notes.md").read_text(encoding="utf-8")
    found = [" ".join(part.lstrip("# ").split()) for part in text.split("\n\n")]
    assert len(found) > 3
    return found


@pytest.mark.parametrize("width", [360, 1400])
@pytest.mark.parametrize("sheet", SHEETS)
def test_every_paragraph_of_the_notes_can_be_seen(sheet: str, width: int, site: Path, page: Page) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto((site / "jobs" / JOB / sheet).as_uri())
    for words in paragraphs():
        place = page.get_by_text(words, exact=True)
        assert place.is_visible(), words
        box = place.bounding_box()
        assert box is not None
        assert 0 <= box["x"] < box["x"] + box["width"] <= width
        assert box["height"] > 10
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_notes_are_printed_with_the_work_sheet_and_not_with_the_overview(
    site: Path, page: Page, tmp_path: Path
) -> None:
    built.need("pdftotext")
    told = {}
    for sheet in SHEETS:
        page.goto((site / "jobs" / JOB / sheet).as_uri())
        page.pdf(path=tmp_path / f"{sheet}.pdf", format="A4")
        told[sheet] = squeezed("".join(paper.texts(tmp_path / f"{sheet}.pdf", "raw")))
    for words in paragraphs():
        assert squeezed(words) in told["worksheet.html"], words
        assert squeezed(words) not in told["index.html"], words


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_job_without_notes_has_no_heading_of_them(sheet: str, site: Path, page: Page) -> None:
    assert not (built.ROOT / "jobs" / "flatbed" / "notes.md").exists()
    page.goto((site / "jobs" / "flatbed" / sheet).as_uri())
    assert page.locator("#notes").count() == 0
