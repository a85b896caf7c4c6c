"""Every kind of page held to WCAG 2.2 A and AA by axe, on a phone and on a desk, by day and by night."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from aswired.sheets.registry import SHEETS
from tests.browser.built import ROOT

pytestmark = pytest.mark.browser

AXE = ROOT / "tests" / "vendor" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PHONE_PX, DESK_PX = 360, 1400
# a long path, one with a relay, one through a join, one that was deleted
CIRCUITS = ("circuits/dip-left", "circuits/fuel-pump", "circuits/cab-lamp", "circuits/sunroof")
SAMPLE = (
    *(f"jobs/trail-truck/{file}" for file in (*(sheet.file for sheet in SHEETS), "flags.html")),
    *(f"jobs/trail-truck/{name}.html" for name in CIRCUITS),
    *(f"jobs/{job}/{name}.html" for job in ("flatbed", "taken-over") for name in ("index", "splices", "record")),
    *("index.html", "donors.html", "find.html", "codes.html"),
    *("manual/index.html", "manual/writing.html", "manual/circuits.html", "manual/codes.html"),
)


# Contrast is slow to judge, and hangs on tags, classes and what they stand in, not on the words. So a part that has
# nothing that was not seen before in the page is taken away first.
THIN_OUT = """() => {
  const seen = new Set();
  const own = e => [e.tagName, e.getAttribute('class'), e.getAttribute('style')].join('.');
  const chain = e => e ? own(e) + '>' + chain(e.parentElement) : '';
  for (const part of document.querySelectorAll('tr, li, details, section, dl > div, p')) {
    if (!part.isConnected) continue;
    const chains = [part, ...part.querySelectorAll('*')].map(chain);
    if (chains.every(c => seen.has(c))) part.remove(); else chains.forEach(c => seen.add(c));
  }
}"""


def opened(uri: str, site: Path, browser: Browser) -> Page:
    page = browser.new_page()
    page.goto((site / uri).as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(box => box.open = true)")
    page.evaluate(AXE.read_text(encoding="utf-8"))
    return page


@pytest.mark.parametrize("uri", SAMPLE)
def test_axe_finds_nothing(uri: str, site: Path, browser: Browser) -> None:
    """All rules at both widths; contrast, which alone hangs on the scheme, by day and by night."""
    page = opened(uri, site, browser)
    faults = []
    for width in (PHONE_PX, DESK_PX):
        page.set_viewport_size({"width": width, "height": 740})
        faults += [f"{uri} at {width} px: {told}" for told in rules_broken(page)]
    page.evaluate(THIN_OUT)
    for width in (PHONE_PX, DESK_PX):
        page.set_viewport_size({"width": width, "height": 740})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            faults += [f"{uri} at {width} px, {scheme}: {told}" for told in too_pale(page)]
    page.close()
    assert not faults, "\n".join(faults)


def rules_broken(page: Page) -> list[str]:
    """What breaks a rule, contrast apart."""
    return violations(page, {"runOnly": RULES, "rules": {"color-contrast": {"enabled": False}}})


def too_pale(page: Page) -> list[str]:
    return violations(page, {"runOnly": {"type": "rule", "values": ["color-contrast"]}})


def violations(page: Page, options: dict[str, object]) -> list[str]:
    result = page.evaluate(f"axe.run(document, {json.dumps({**options, 'resultTypes': ['violations']})})")
    assert result["passes"], "axe looked at nothing"
    return [
        f"{broken['id']} ({len(broken['nodes'])}): {broken['help']}: "
        + "; ".join(f"{node['target']} {node['html'][:110]}" for node in broken["nodes"][:3])
        for broken in result["violations"]
    ]


def test_every_kind_of_page_is_in_the_sample(site: Path) -> None:
    of_many = ("circuits", "manual")  # folders of pages alike, of which the sample has some
    kinds = {path.name for path in site.rglob("*.html") if path.parent.name not in of_many}
    assert {Path(uri).name for uri in SAMPLE if Path(uri).parent.name not in of_many} == kinds
    assert {Path(uri).parent.name for uri in SAMPLE} >= {*of_many}


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ("<img src=x.jpg>", "image-alt"),
        ("<p><a href=#a>a</a><a href=#b>b</a></p>", "target-size"),
        ("<ul><p>no item</p></ul>", "list"),
        ("<p style='color:#999;background:#fff'>pale</p>", "color-contrast"),
    ],
)
def test_axe_is_at_work(body: str, rule: str, browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "bad.html").write_text(f"<html lang=en><title>t</title><body><p>twice</p><p>twice</p>{body}")
    page = opened("bad.html", tmp_path, browser)
    found = rules_broken(page)
    page.evaluate(THIN_OUT)
    assert page.get_by_text("twice").count() == 1
    found += too_pale(page)
    page.close()
    assert rule in [told.split()[0] for told in found]
