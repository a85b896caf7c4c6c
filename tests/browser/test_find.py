"""The search of the built site, opened from disk: what it finds, what it says of a find, and where the find leads."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import Page

from tests.browser.built import ROOT
from tests.crawl.tree import read

pytestmark = pytest.mark.browser

SHEETS = {
    "Overview", "Changes", "Circuits", "Splices", "Extensions", "Grounds", "Fuses", "Connectors", "Photos", "Readings",
    "Not examined", "Service record", "Work sheet", "Wire flags",
}  # fmt: skip


class Hit(NamedTuple):
    id: str
    title: str
    says: str
    href: str


@pytest.fixture
def box(page: Page, site: Path) -> Page:
    page.goto((site / "find.html").as_uri())
    return page


def find(box: Page, text: str) -> list[Hit]:
    box.fill("#q", text)
    return [
        Hit(*parts)
        for parts in box.locator("#hits a").evaluate_all(
            "all => all.map(a => [a.querySelector('b').innerText, a.querySelector('span').firstChild.data.trim(),"
            " a.querySelector('small').innerText, a.href])"
        )
    ]


HELP = ("What the codes mean", "Help")


def trouble_with(hit: Hit, site: Path) -> str:
    """What is wrong with a find: it must say job, page and row, and lead to that row."""
    parts = urlsplit(hit.href)
    job, page, *row = hit.says.split(" · ")
    helps = (job, page) == HELP  # the codes are told once for all jobs
    manual = job == "Manual"
    if (
        not helps
        and not manual
        and (job not in titles() or not any(page == sheet or page.startswith(sheet) for sheet in SHEETS))
    ):
        return f"{hit.id} says {hit.says!r}"
    target = Path(unquote(parts.path))
    if parts.scheme != "file" or not target.is_relative_to(site) or not target.is_file():
        return f"{hit.id} leads to {hit.href}"
    content, anchor = read(target), unquote(parts.fragment)
    title = content.first("title").text
    if not (title.startswith(page if manual else job) if helps or manual else title.endswith(job)):
        return f"{hit.id} says {job!r} but leads to {title!r}"
    if anchor:
        if row != [anchor] or not any(content.all(id=anchor)):
            return f"{hit.id} names the row {row}, its link {anchor!r}"
    elif target.parent.name not in ("circuits", "manual") and target.name != "index.html":  # found as a whole
        return f"{hit.id} leads to no row"
    return ""


def titles() -> set[str]:
    """The names of the jobs as their headers write them."""
    headers = [path.read_text(encoding="utf-8") for path in (ROOT / "jobs").glob("*/job.yml")]
    return {
        line.removeprefix("job: ") for header in headers for line in header.splitlines() if line.startswith("job: ")
    }


@pytest.mark.parametrize(
    ("code", "job", "sheet"),
    [
        ("C14", "Trail truck", "Changes"),
        ("C14-W31-plug", "Trail truck", "Splices"),
        ("F7", "Trail truck", "Fuses"),
        ("L1", "Trail truck", "Grounds"),
        ("P3", "Trail truck", "Photos"),
        ("siren-plug", "Trail truck", "Connectors"),
    ],
)
@pytest.mark.parametrize("as_typed", [str, str.lower])
def test_a_code_finds_the_thing_itself_first(code: str, job: str, sheet: str, as_typed: type, box: Page) -> None:
    """Two jobs may have a C14; both stand before everything that only mentions one."""
    hits = find(box, as_typed(code))
    itself = [hit for hit in hits if hit.id == code]
    assert hits[: len(itself)] == itself
    assert [job, sheet] in [hit.says.split(" · ")[:2] for hit in itself]


@pytest.mark.parametrize("code", ["C14", "F7", "L1", "C1"])
def test_a_code_is_never_taken_for_another(code: str, box: Page) -> None:
    """C1 is not C14; what is only a part of it (C14-W31-plug) comes with it."""
    others = [
        hit.id for hit in find(box, code) if re.match(rf"{code}\d", hit.id) and code not in f"{hit.title} ".split()
    ]
    texts = {hit.id: row_text(hit) for hit in find(box, code) if hit.id in others}
    assert not [id for id, text in texts.items() if not re.search(rf"\b{code}\b", text)]


def row_text(hit: Hit) -> str:
    parts = urlsplit(hit.href)
    page = read(Path(unquote(parts.path)))
    return (page.first(id=unquote(parts.fragment)) if parts.fragment else page).text


@pytest.mark.parametrize("typed", ["GN/WH", "gn/wh", "green/white", "green white stripe"])
def test_a_colour_is_found_by_letters_and_by_words(typed: str, box: Page) -> None:
    """Where the demo's files write GN/WH: C56 and W56 of the trail truck, W3 of the taken-over car."""
    hits = find(box, typed)
    said = [f"{hit.says.split(' · ')[0]}: {hit.id} {hit.title}" for hit in hits]
    assert any(text.startswith("Trail truck: C56 ") for text in said), said
    assert any(re.match(r"Trail truck: .*\bW56\b", text) for text in said), said
    assert any(re.match(r"(?!Trail truck).*\bW3\b", text) for text in said), said


@pytest.mark.parametrize(("typed", "meant"), [("earth", "ground"), ("ground", "earth"), ("loom", "harness")])
def test_both_vocabularies_find_the_same(typed: str, meant: str, box: Page) -> None:
    """Loom finds more than harness, since joints are called so (C14-W31-loom)."""
    assert {hit.href for hit in find(box, typed)} >= {hit.href for hit in find(box, meant)} != set()


def test_earth_finds_the_ground_points(box: Page) -> None:
    found = {hit.id for hit in find(box, "earth") if hit.says.startswith("Trail truck · Grounds")}
    assert {"L1", "L2", "L3", "L4", "L5", "L6"} <= found


@pytest.mark.parametrize(
    "text", ["C14", "F7", "GN/WH", "earth", "siren", "lamp", "dip left", "splice", "14 AWG", "Hauptt"]
)
def test_each_find_says_job_page_and_row_and_leads_there(text: str, box: Page, site: Path) -> None:
    hits = find(box, text)
    if text == "Hauptt":
        assert not hits
        assert "Nothing found" in box.locator("#find-said").inner_text()
        return
    assert hits
    assert not [trouble for hit in hits if (trouble := trouble_with(hit, site))]
    assert re.match(r"\d+ finds? for", box.locator("#find-said").inner_text())


def test_a_find_opens_at_its_row(box: Page) -> None:
    find(box, "C14-W31-plug")
    box.locator("#hits a").first.click()
    box.wait_for_url("**/jobs/trail-truck/splices.html#C14-W31-plug")
    assert box.locator(":target").is_visible()
    assert box.locator(":target").inner_text().startswith("C14-W31-plug")


def test_the_search_box_of_every_page_leads_to_its_finds(page: Page, site: Path) -> None:
    page.set_viewport_size({"width": 1400, "height": 740})
    page.goto((site / "jobs" / "flatbed" / "circuits" / "stop-left.html").as_uri())
    page.fill("#find-here", "C14-W31-plug")
    page.keyboard.press("Enter")
    page.wait_for_url("**/find.html?q=C14-W31-plug")
    assert page.locator("#hits a b").first.inner_text() == "C14-W31-plug"
