"""Every page opened from disk in Chromium: quiet, alone, no wider than a phone, by day and by night."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

pytestmark = pytest.mark.browser

PHONE_PX = 360
WIDEST = """[...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > 360.5)
  .map(e => e.outerHTML.slice(0, 90)).pop()"""


class Watched:
    """A page and all that it complained of or asked for."""

    def __init__(self, page: Page, site: Path) -> None:
        self.page, self.site, self.trouble = page, site, list[str]()
        page.on("console", lambda said: self.trouble.append(f"console {said.type}: {said.text}"))
        page.on("pageerror", lambda error: self.trouble.append(f"error: {error}"))
        page.on("requestfailed", lambda request: self.trouble.append(f"failed: {request.url}"))
        page.on("request", lambda request: self.asked(request.url))

    def asked(self, url: str) -> None:
        if not url.startswith(self.site.as_uri() + "/"):
            self.trouble.append(f"asked for {url}")

    def open(self, uri: str) -> Page:
        self.page.goto((self.site / uri).as_uri(), wait_until="load")
        return self.page


@pytest.fixture
def watched(page: Page, site: Path) -> Watched:
    return Watched(page, site)


def too_wide(page: Page) -> Iterator[str]:
    """Where the page scrolls sideways: as it opens, then with all that opens open."""
    for state in ("as it opens", "open"):
        if state == "open":
            page.evaluate("document.querySelectorAll('details').forEach(box => box.open = true)")
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            if (wide := page.evaluate("document.scrollingElement.scrollWidth")) > PHONE_PX:
                yield f"{state}, {scheme}: {wide} px wide: {page.evaluate(WIDEST)}"


@pytest.mark.parametrize("part", ["jobs/trail-truck", "jobs/flatbed", "jobs/taken-over", "."])
def test_every_page_is_quiet_alone_and_as_narrow_as_a_phone(part: str, watched: Watched) -> None:
    site, page, faults = watched.site, watched.page, []
    uris = [path.relative_to(site).as_posix() for path in (site / part).glob("*.html" if part == "." else "**/*.html")]
    assert len(uris) >= 3
    for uri in uris:
        watched.open(uri)
        faults += [f"{uri}: {told}" for told in watched.trouble]
        watched.trouble.clear()
        if not page.title().strip():
            faults.append(f"{uri}: no title")
        if (heads := page.locator("h1").count()) != 1:
            faults.append(f"{uri}: {heads} h1")
        faults += [f"{uri}, {told}" for told in too_wide(page)]
    assert not faults, "\n".join(faults)


BAD = """<html lang=en><title>t</title><body><h1>a</h1><main style="width:500px"><img src="{img}">
<p style="color:#999;background:#fff">pale</p></main><script>console.log("hello"); fetch("https://example.invalid/")
.catch(() => 0)</script>"""


def test_the_tests_see_a_bad_page(watched: Watched, tmp_path: Path) -> None:
    watched.site = tmp_path
    (tmp_path / "bad.html").write_text(BAD.replace("{img}", "nowhere.jpg"))
    page = watched.open("bad.html")
    page.wait_for_timeout(100)
    told = "\n".join(watched.trouble)
    assert "console log: hello" in told
    assert "asked for https://example.invalid/" in told
    assert "nowhere.jpg" in told
    assert len(list(too_wide(page))) == 4
