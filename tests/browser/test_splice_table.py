"""The splice table on a phone: id, place, wires, method and state of each row are read without scrolling sideways."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
from playwright.sync_api import Page

pytestmark = pytest.mark.browser

WIDE_PX, HIGH_PX = 360, 740
KEY = ("id", "Place", "Wires joined", "How", "State")
STATES = {"planned", "made", "sealed", "tested"}
# Boxes of what is really inked in each key cell: text line by text line, and the swatches; what is hidden has none.
INKED = """table => [...table.tBodies[0].rows].map(row => {
  row.scrollIntoView({block: 'start'});
  const cells = {id: row.querySelector('th')};
  for (const td of row.querySelectorAll('td')) cells[td.dataset.h] = td;
  const out = {high: row.getBoundingClientRect().height, cells: {}};
  for (const [name, cell] of Object.entries(cells)) {
    const boxes = [], texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
    let covered = 0;
    const add = (r) => { if (r.width > 0.5 && r.height > 0.5) boxes.push([r.left, r.top, r.right, r.bottom]); };
    while (texts.nextNode()) if (texts.currentNode.data.trim()) {
      const range = document.createRange(); range.selectNodeContents(texts.currentNode);
      for (const r of range.getClientRects()) {
        add(r);
        if (r.width < 1 || r.top < 0 || r.bottom > innerHeight) continue;
        const on = document.elementFromPoint((r.left + r.right) / 2, (r.top + r.bottom) / 2);
        if (!on || !cell.contains(on)) covered++;
      }
    }
    for (const swatch of cell.querySelectorAll('.sw')) add(swatch.getBoundingClientRect());
    out.cells[name] = {text: cell.innerText.trim(), boxes, covered};
  }
  return out;
})"""
Box = tuple[float, float, float, float]


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share ink: line boxes are a little higher than their letters, so 3 px are given."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide > 1 and high > 3


def faults_of(page: Page) -> list[str]:
    rows = page.locator("table.splices").first.evaluate(INKED)
    assert rows
    faults = []
    for row in rows:
        cells = row["cells"]
        name = cells["id"]["text"]
        if missing := set(KEY) - set(cells):
            faults.append(f"{name}: no {missing}")
            continue
        for key in KEY:
            cell = cells[key]
            if not cell["text"] or not cell["boxes"]:
                faults.append(f"{name}: {key} is empty")
            faults += [f"{name}: {key} leaves the screen at {b}" for b in cell["boxes"] if b[0] < 0 or b[2] > WIDE_PX]
            if cell["covered"]:
                faults.append(f"{name}: something lies over {key}")
        for one, other in combinations(KEY, 2):
            if any(overlap(a, b) for a in cells[one]["boxes"] for b in cells[other]["boxes"]):
                faults.append(f"{name}: {one} and {other} overlap")
        if cells["State"]["text"] not in STATES:
            faults.append(f"{name}: state {cells['State']['text']!r}")
        if row["high"] > HIGH_PX:
            faults.append(f"{name}: higher than the screen")
    return faults


@pytest.fixture
def phone(page: Page) -> Page:
    page.set_viewport_size({"width": WIDE_PX, "height": HIGH_PX})
    return page


@pytest.mark.parametrize(("job", "fewest"), [("trail-truck", 40), ("flatbed", 1), ("taken-over", 1)])
def test_key_columns_of_every_row_are_on_the_screen(job: str, fewest: int, phone: Page, site: Path) -> None:
    phone.goto((site / "jobs" / job / "splices.html").as_uri())
    assert phone.locator("table.splices").first.locator("tbody tr").count() >= fewest
    faults = faults_of(phone)
    assert not faults, "\n".join(faults[:30])
    assert phone.evaluate("scrollX") == 0


@pytest.mark.parametrize(
    ("style", "told"),
    [
        (".stack.tight td[data-h=State] { position: relative; left: 330px; }", "State leaves the screen"),
        (".stack.tight td[data-h=How] { display: none !important; }", "How is empty"),
        (".stack.tight td[data-h=Place] { margin-bottom: -1.2em; }", "Place and Wires joined overlap"),
        (".title { position: fixed; inset: 0; background: #fff; z-index: 9; }", "something lies over"),
    ],
)
def test_a_bad_table_is_seen(style: str, told: str, phone: Page, site: Path) -> None:
    phone.goto((site / "jobs" / "trail-truck" / "splices.html").as_uri())
    phone.add_style_tag(content=style)
    assert any(told in fault for fault in faults_of(phone))
