"""The work sheet and the wire flags on paper: they fit A4 and Letter, can be read, and hold room to write."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser import built, paper

pytestmark = pytest.mark.browser

LEAST_PT = 7  # smallest print on a label held in the hand
MM_PX = 96 / 25.4
UNMADE = ("C14", "C15", "C21")  # rows of the demo truck that are planned again for these tests

TEXTS = """() => [...document.querySelectorAll('.flags *')]
  .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
  .map(e => parseFloat(getComputedStyle(e).fontSize) * 0.75)"""
LABELS = """() => [...document.querySelectorAll('.flags > li')].map(e => {
  const box = e.getBoundingClientRect(), inner = e.querySelector('div');
  return [box.width, box.height, Math.max(inner.scrollWidth - inner.clientWidth, e.scrollHeight - e.clientHeight)];
})"""


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo truck with three rows planned again."""
    shop = tmp_path_factory.mktemp("planned") / "shop"
    built.copy_of_the_shop(shop)
    for other in (shop / "jobs").iterdir():
        if other.is_dir() and other.name != "trail-truck":
            shutil.rmtree(other)
    changes = shop / "jobs" / "trail-truck" / "changes.yml"
    kept, row = [], ""
    for line in changes.read_text(encoding="utf-8").splitlines():
        row = line.split("id:")[1].split(",")[0].strip() if line.strip().startswith(("- id:", "- {id:")) else row
        if row not in UNMADE or not line.strip().startswith(("made:", "sealed:", "tested:")):
            kept.append(line)
    changes.write_text("\n".join(kept) + "\n", encoding="utf-8")
    return built.build(shop) / "jobs" / "trail-truck"


def printed(page: Page, file: Path, size: str, folder: Path) -> Path:
    page.goto(f"{file.as_uri()}?paper-{size}")
    page.emulate_media(media="print")
    page.pdf(path=folder / f"{size}.pdf", prefer_css_page_size=True, print_background=False)
    return folder / f"{size}.pdf"


@pytest.mark.parametrize("size", built.PAPERS)
def test_flags_are_whole_labels_that_can_be_read(size: str, planned: Path, page: Page, tmp_path: Path) -> None:
    built.need("pdftotext")
    page.set_viewport_size({"width": 1000, "height": 1400})
    pdf = printed(page, planned / "flags.html", size, tmp_path)
    assert min(page.evaluate(TEXTS)) >= LEAST_PT
    labels = page.evaluate(LABELS)
    # C14, C15: four wires each, both sides of each cut; C21: the cut and the new ring; C56, C57: a lead each
    assert len(labels) == 2 * (4 + 4) + 2 + 2 * 2
    for width, height, over in labels:
        assert 55 < width / MM_PX < 65
        assert 19 < height / MM_PX < 26
        assert over <= 1
    text = paper.squeezed("".join(paper.texts(pdf, "raw")))
    for words in ("C14-W31-loom", "C14-W31-plug", "violet, white stripe", "winch-socket.1"):
        assert paper.squeezed(words) in text
    wide, _ = paper.SIZES_MM[size]
    for word in paper.words(pdf):
        assert word.left >= 0
        assert word.right <= wide * paper.MM_PT


@pytest.mark.parametrize("size", built.PAPERS)
def test_the_sheet_prints_every_step_with_room_to_write(size: str, planned: Path, page: Page, tmp_path: Path) -> None:
    built.need("pdftotext")
    page.set_viewport_size({"width": 1000, "height": 1400})
    pdf = printed(page, planned / "worksheet.html", size, tmp_path)
    for width, height in paper.page_sizes_pt(pdf):
        assert (width, height) == pytest.approx([mm * paper.MM_PT for mm in paper.SIZES_MM[size]], abs=1)
    text = paper.squeezed("".join(paper.texts(pdf, "layout")))
    for words in (*UNMADE, "Battery off", "off at", "Cut to", "Sealed", "Tested"):
        assert paper.squeezed(words).casefold() in text.casefold(), words
    steps = page.locator(".step")
    assert steps.count() == len(UNMADE) + 2
    ticks = page.locator(".step .ticks .line")
    assert ticks.count() >= 2 * steps.count()
    assert all(box["width"] > 25 * MM_PX for n in range(ticks.count()) if (box := ticks.nth(n).bounding_box()))
    assert page.locator(".step .ticks .line:visible").count() == ticks.count()


def test_a_tick_stays_on_the_device(planned: Path, page: Page) -> None:
    uri = (planned / "worksheet.html").as_uri()
    page.goto(uri)
    box = page.locator("#t-C14-cut")
    box.check()
    page.goto(uri)
    assert box.is_checked()
    assert not page.locator("#t-C14-sealed").is_checked()
