"""What a job says can be seen, not only found in the page's source: every key of the format, in a narrow window and a
wide one, with all that opens opened."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from aswired.site.theme import assets, theme_dir
from tests.browser.paper import squeezed
from tests.shown.seen import Wanted, each, pages, plain, read, text_of, wanted

pytestmark = pytest.mark.browser

SEEN = """anchors => {
  document.querySelectorAll("details").forEach(all => { all.open = true; });
  return anchors.map(anchor => {
    const place = anchor ? document.getElementById(anchor) : document.body;
    return place && place.checkVisibility() ? place.innerText : "";
  });
}"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pages of the job of every key, with the theme's files."""
    folder = tmp_path_factory.mktemp("keys")
    for uri, path in assets(theme_dir()):
        (folder / uri).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, folder / uri)
    for name, html in pages(read(folder / "jobs-of", 0)).items():
        file = folder / "jobs" / "many" / f"{name}.html"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(html, encoding="utf-8")
    return folder / "jobs" / "many"


@pytest.mark.parametrize("width", [360, 1400])
def test_every_key_can_be_seen(width: int, site: Path, browser: Browser) -> None:
    by_page: dict[str, list[Wanted]] = {}
    for file in ("job.yml", "shop.yml"):
        for _, item in each(wanted(text_of(file))):
            if item.words[0]:
                by_page.setdefault(item.page, []).append(item)
    assert sum(len(items) for items in by_page.values()) > 300
    page = browser.new_page(viewport={"width": width, "height": 800})
    unseen = []
    for name, items in by_page.items():
        page.goto((site / f"{name}.html").as_uri())
        texts = page.evaluate(SEEN, [item.anchor for item in items])
        for item, text in zip(items, texts, strict=True):
            if squeezed(plain(item.words[0])).casefold() not in squeezed(text).casefold():
                unseen.append((name, item.anchor, item.words[0]))
    page.close()
    assert not unseen
