"""Without a mouse: the skip link, the way through the title block, figures that open, and where one is at each step."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

pytestmark = pytest.mark.browser

# What has the focus: what it is, whether it is on the screen, and how thick its outline is.
FOCUSED = """() => {
  const e = document.activeElement, r = e.getBoundingClientRect(), s = getComputedStyle(e);
  return {
    tag: e.tagName.toLowerCase(), text: (e.innerText || '').trim(), href: e.getAttribute('href'), type: e.type || '',
    class: e.className, inMain: !!e.closest('main'), inFoot: !!e.closest('footer'),
    seen: r.width > 1 && r.height > 1 && r.left >= 0 && r.right <= innerWidth && r.bottom > 0 && r.top < innerHeight,
    outline: s.outlineStyle === 'none' ? 0 : parseFloat(s.outlineWidth), colour: s.outlineColor,
    paper: getComputedStyle(document.documentElement).backgroundColor,
  };
}"""
MOST_STEPS = 60


def focused(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(FOCUSED)
    return found


def tab_through(page: Page) -> list[dict[str, Any]]:
    """What gets the focus from the top of the page to the first thing in its main part."""
    steps = []
    while len(steps) < MOST_STEPS:
        page.keyboard.press("Tab")
        steps.append(focused(page))
        if steps[-1]["inMain"]:
            return steps
    raise AssertionError(f"the main part is not reached in {MOST_STEPS} steps")


def is_visible(step: dict[str, Any]) -> bool:
    return bool(step["seen"] and step["outline"] >= 2 and step["colour"] != step["paper"])


def is_search(step: dict[str, Any]) -> bool:
    return step["type"] == "search" or str(step["href"]).endswith("find.html")


@pytest.fixture(params=[360, 1400], ids=["phone", "desk"])
def splices(request: pytest.FixtureRequest, page: Page, site: Path) -> Page:
    page.set_viewport_size({"width": request.param, "height": 740})
    page.goto((site / "jobs" / "trail-truck" / "splices.html").as_uri())
    return page


def test_skip_link_comes_first_and_leads_past_the_head(splices: Page) -> None:
    splices.keyboard.press("Tab")
    first = focused(splices)
    assert first["text"] == "Skip to content"
    assert is_visible(first), first
    splices.keyboard.press("Enter")
    assert splices.evaluate("location.hash") == "#main"
    splices.keyboard.press("Tab")
    assert focused(splices)["inMain"], focused(splices)


def test_tab_reaches_search_scheme_and_sheets_before_the_page_and_shows_where_it_is(splices: Page) -> None:
    steps = tab_through(splices)
    assert any(map(is_search, steps)), [step["text"] for step in steps]
    assert any("scheme" in step["class"] for step in steps)
    assert any(step["href"] in ("#sheets", "circuits.html") for step in steps)
    assert not [step for step in steps if not is_visible(step)]


def test_lost_focus_would_be_seen(splices: Page) -> None:
    splices.add_style_tag(
        content=":focus-visible { outline: none !important } .scheme { position: fixed; left: -9999px }"
    )
    hidden = [step for step in tab_through(splices) if not is_visible(step)]
    assert len(hidden) >= 4


def test_everything_on_a_page_can_be_reached_and_is_seen_when_it_is(page: Page, site: Path) -> None:
    page.goto((site / "jobs" / "flatbed" / "circuits" / "stop-left.html").as_uri())
    steps = tab_through(page)
    while not steps[-1]["inFoot"] and len(steps) < 200:
        page.keyboard.press("Tab")
        steps.append(focused(page))
    assert steps[-1]["inFoot"]
    reachable = page.locator("main :is(a[href], button, summary, input)").evaluate_all(
        "all => all.filter(e => e.checkVisibility()).length"
    )
    assert sum(step["inMain"] for step in steps) == reachable >= 10
    assert not [step for step in steps if not is_visible(step)]


@pytest.mark.parametrize("sheet", ["grounds.html", "circuits/dip-left.html", "splices.html"])
def test_a_figure_opens_and_closes_by_key(sheet: str, page: Page, site: Path) -> None:
    page.goto((site / "jobs" / "trail-truck" / sheet).as_uri())
    page.locator("details.fold").evaluate_all("all => all.forEach(fold => { fold.open = true; })")
    figure = page.locator("details.fig").first
    summary, formula = figure.locator("summary"), figure.locator(".formula")
    assert not formula.is_visible()
    before = page.locator("main :is(a[href], button, summary)").evaluate_all(
        "(all, box) => all.filter(e => e.checkVisibility()).indexOf(box)", summary.element_handle()
    )
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # past the head by the skip link
    for _ in range(before + 1):
        page.keyboard.press("Tab")
    assert summary.evaluate("e => e === document.activeElement")
    assert is_visible(focused(page))
    for key, is_open in (("Enter", True), ("Enter", False), ("Space", True), ("Space", False)):
        page.keyboard.press(key)
        assert formula.is_visible() == is_open, key


def test_day_and_night_by_key_are_kept_on_the_next_page(splices: Page, site: Path) -> None:
    def paper() -> int:
        colour: str = splices.evaluate("getComputedStyle(document.documentElement).backgroundColor")
        return sum(int(part) for part in colour.removeprefix("rgb(").removesuffix(")").split(","))

    assert paper() == 3 * 255
    while "scheme" not in focused(splices)["class"]:
        splices.keyboard.press("Tab")
        assert not focused(splices)["inMain"]
    splices.keyboard.press("Enter")
    assert paper() < 90
    splices.goto((site / "index.html").as_uri())
    assert paper() < 90
    splices.locator("button.scheme").focus()
    splices.keyboard.press("Space")
    assert paper() == 3 * 255


def test_search_to_the_row_by_keys_alone(page: Page, site: Path) -> None:
    page.goto((site / "jobs" / "trail-truck" / "grounds.html").as_uri())
    while not is_search(focused(page)):
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/find.html*")
    assert focused(page)["type"] == "search"  # one can type at once
    page.keyboard.type("C14-W31-plug")
    page.keyboard.press("ArrowDown")
    assert is_visible(focused(page))
    page.keyboard.press("Enter")
    page.wait_for_url("**/splices.html#C14-W31-plug")
    row = page.locator("[id='C14-W31-plug']")
    assert row.evaluate("e => e.matches(':target')")
    box = row.bounding_box()
    assert box is not None
    assert 0 <= box["y"] < 740
