"""What is private in the shop's edition: on the screen, and on paper only when the record is asked for it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import Browser, Page

from tests.browser import built, paper
from tests.browser.paper import squeezed

pytestmark = pytest.mark.browser

JOB = "trail-truck"
SWITCH = "#with-private"


def private() -> dict[str, str]:
    """The labels and values as the demo job's file writes them."""
    found = yaml.safe_load((built.ROOT / "jobs" / JOB / "job.yml").read_text(encoding="utf-8"))["private"]
    assert len(found) >= 3
    return {str(label): str(value) for label, value in found.items()}


@pytest.fixture(params=[True, False], ids=["with scripts", "without scripts"])
def record(request: pytest.FixtureRequest, browser: Browser, site: Path) -> Iterator[Page]:
    context = browser.new_context(java_script_enabled=request.param, viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto((site / "jobs" / JOB / "record.html").as_uri())
    yield page
    context.close()


def printed(page: Page, pdf: Path) -> str:
    built.need("pdftotext")
    page.pdf(path=pdf, prefer_css_page_size=True, print_background=False)
    text = squeezed("".join(pdf_text for pdf_text in paper.texts(pdf, "raw")))
    assert squeezed("Service record") in text
    return text


def test_nothing_private_is_printed_unasked_and_all_of_it_when_asked(record: Page, tmp_path: Path) -> None:
    values = [squeezed(value) for value in private().values()]
    unasked = printed(record, tmp_path / "unasked.pdf")
    assert not [value for value in values if value in unasked]
    assert "shoponly" not in unasked
    assert squeezed(str(record.locator("label.ask").inner_text())) not in unasked
    record.locator(SWITCH).focus()
    record.keyboard.press("Space")
    asked = printed(record, tmp_path / "asked.pdf")
    assert not [value for value in values if value not in asked]
    assert not [label for label in private() if squeezed(label.capitalize()) + "shoponly" not in asked]
    record.keyboard.press("Space")
    assert printed(record, tmp_path / "again.pdf") == unasked


def test_the_switch_says_what_it_does_and_is_off_again_the_next_time(record: Page) -> None:
    switch, label = record.locator(SWITCH), record.locator("label.ask")
    assert not switch.is_checked()
    labels = ", ".join(private())
    assert label.inner_text().split("\n") == [
        "Print the private fields too", f"{labels}: now on this screen only, not on the paper.",
    ]  # fmt: skip
    tags = record.locator(".plate .only")
    assert {" ".join(text.split()) for text in tags.all_inner_texts()} == {"shop only, not printed"}
    label.click(position={"x": 100, "y": 12})  # the words are as good as the box
    assert switch.is_checked()
    assert label.inner_text().split("\n")[1] == f"{labels}: will stand on the paper."
    assert {" ".join(text.split()) for text in tags.all_inner_texts()} == {"shop only, printed"}
    for value in private().values():
        assert record.get_by_text(value, exact=True).first.is_visible()
    record.reload()
    assert not switch.is_checked()


@pytest.mark.parametrize("width", [360, 800, 1400])
def test_the_switch_is_large_enough_and_within_the_page(width: int, browser: Browser, site: Path) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto((site / "jobs" / JOB / "record.html").as_uri())
    box = page.locator("label.ask").bounding_box()
    page.close()
    assert box is not None
    assert box["height"] >= 48
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= width


def test_private_values_stand_on_no_other_sheet_of_the_shop(site: Path) -> None:
    values = private().values()
    outputs = [path for path in site.rglob("*") if path.suffix in (".html", ".js", ".css")]
    texts = {path.relative_to(site).as_posix(): path.read_text(encoding="utf-8") for path in outputs}
    holding = {name for name, text in texts.items() if any(value in text for value in values)}
    assert holding == {f"jobs/{JOB}/record.html"}


@pytest.mark.parametrize("file", ["changes.html", "readings.html"])
def test_shop_notes_and_times_are_on_the_screen_and_not_on_paper(file: str, page: Page, site: Path) -> None:
    page.goto((site / "jobs" / JOB / file).as_uri())
    on_screen = page.locator(".private").all_inner_texts()
    assert on_screen
    assert all(re.search(r"(?i)shop only", text) for text in on_screen)
    page.emulate_media(media="print")
    assert not [place for place in page.locator(".private").all() if place.is_visible()]
    assert "shop only" not in page.locator("body").inner_text().casefold()


def test_the_owners_record_has_no_switch(tmp_path: Path) -> None:
    shop = built.copy_of_the_shop(tmp_path / "shop")
    site = built.build(shop, "--edition", "owner", "--job", "flatbed")
    text = (site / "jobs" / "flatbed" / "record.html").read_text(encoding="utf-8")
    assert "Service record" in text
    for word in ("with-private", "shop only", "Print the private"):
        assert word not in text
