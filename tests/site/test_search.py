"""The index as Python makes it and the search as a browser does it, from disk."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from markupsafe import escape
from playwright.sync_api import Page, sync_playwright

from aswired.sheets.search import Entry, fragment, script, words_of

FIND_JS = Path(__file__).parents[2] / "site_theme" / "js" / "find.js"
PAGE = """<!doctype html><meta charset="utf-8"><form role="search"><input id="q" name="q"></form>
<p id="find-said" role="status"></p><ol id="hits"></ol>
<script src="find-index.js"></script><script src="find.js"></script>"""


def entry(id: str, title: str, file: str, text: str = "", slug: str = "truck") -> Entry:
    return Entry(id, title, f"jobs/{slug}/{file}", id.replace(" ", "-"), text)


TRUCK = [
    entry("C1", "remove W60", "changes.html", "roof wiper BU/WH made 16 Mar 2015, AK"),
    entry("C14", "extend W31 worklamp-left", "changes.html", "VT/WH 18 AWG O3"),
    entry("C14-W31-plug", "splice W31", "splices.html", "C14 85 mm from bulkhead"),
    entry("F7", "fuse 15 A", "fuses.html", "work lamp left fuse box"),
    entry("L1", "ground point, in use", "grounds.html", "M6 chassis rail"),
    entry("W8", "wire GN/WH 1.5 mm2", "changes.html", "GN/WH"),
    entry("C20", "join W4 W9", "changes.html", "GN WH"),
    entry("work lamp left", "circuit, kept", "circuits/work-lamp-left.html", "F7 L1"),
]
NO_PAGE_SAYS = ["green", "white", "blue", "violet", "stripe"]
FLATBED = [
    entry("C14", "ground W5 to L9", "changes.html", "harness tray", "flatbed"),
    entry("P2", "photograph, sealed", "photos.html", "the siren's plug <b>&amp;</b>", "flatbed"),
]


def pages_of(entries: list[Entry]) -> dict[str, bytes]:
    """Pages that show each row at its anchor: its id, what its title says beside the sort, and its text."""
    shown: dict[str, str] = {}
    for row in entries:
        said = escape(f"{row.id} {row.title.partition(' ')[2]} {row.text}")
        shown[row.uri] = shown.get(row.uri, "") + f'<p id="{row.anchor}">{said}</p>\n'
    return {uri: text.encode() for uri, text in shown.items()}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("18 AWG", ["18awg"]),
        ("1.5 mm², (GN/WH)", ["1.5mm2", "gn/wh"]),
        ("C14-W31-plug; siren-plug.1.", ["c14-w31-plug", "siren-plug.1"]),
        ("55 W at 12.8 V", ["55w", "at", "12.8v"]),
        ("C14 A", ["c14", "a"]),  # an id is not a number
    ],
)
def test_words_are_kept_whole_and_numbers_take_their_unit(text: str, words: list[str]) -> None:
    assert words_of(text) == words


def test_a_fragment_gives_back_each_row_by_each_of_its_words() -> None:
    part = json.loads(fragment("Truck", TRUCK, pages_of(TRUCK)))
    words = part["words"].split(" ")
    assert words == sorted(words)
    assert not set(NO_PAGE_SAYS) & set(words)
    for number, row in enumerate(TRUCK):
        for word in words_of(f"{row.id} {row.title.partition(' ')[2]} {row.text}"):
            at, rows = 0, []
            for step in part["hits"][words.index(word)]:
                at += step
                rows.append(at)
            assert number in rows, word
    assert ["jobs/truck/circuits/work-lamp-left.html", "Circuits"] in part["pages"]


@pytest.mark.parametrize(
    ("word", "stands"),
    [
        ("siren-plug", True),
        ("siren-plug.1", True),
        ("siren", False),  # a part of another word
        ("c14", True),  # in quotes
        ("o'hara", True),
        ("r&d", True),
        ("18awg", True),
        ("1.5mm2", True),
        ("20mohm", True),
        ("strasse", True),
        ("größe", True),
        ("hidden", False),  # an attribute
        ("w31", False),
        ("1", False),
        ("rattles", True),
        ("8awg", False),
        ("gn", False),
    ],
)
def test_a_word_is_indexed_only_where_its_page_shows_it(word: str, stands: bool) -> None:
    page = """<p class="hidden" id="W31" title="a hidden W31 of it">
    The siren-plug, <b>siren-plug.1</b>; &#34;C14&#34; O&#39;Hara R&amp;D.
    GN/WH <small>18 AWG</small> 1.5 mm² 20\u202fmΩ Straße <i>GRÖSSE</i> Größe</p><p id="row">*rattles*</p>"""
    page = page.replace("mΩ", "mohm")
    for anchor in ("", "row"):
        entry = Entry("", "", "jobs/truck/changes.html", anchor, word)
        found = json.loads(fragment("Truck", [entry], {entry.uri: page.encode()}))["words"]
        assert found == (" ".join(words_of(word)) if stands else "")


def test_the_script_cannot_end_its_own_element() -> None:
    assert "</script" not in script([fragment("</script><b>", [], {})]).casefold()


@pytest.fixture(scope="module")
def browser_page() -> Iterator[Page]:
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path="/usr/bin/chromium")
        yield browser.new_page()
        browser.close()


@pytest.fixture
def find(browser_page: Page, tmp_path: Path) -> Page:
    (tmp_path / "find.html").write_text(PAGE)
    (tmp_path / "find.js").write_bytes(FIND_JS.read_bytes())
    (tmp_path / "find-index.js").write_text(
        script([fragment("Truck", TRUCK, pages_of(TRUCK)), fragment("Flatbed", FLATBED, pages_of(FLATBED))])
    )
    browser_page.goto((tmp_path / "find.html").as_uri())
    return browser_page


def ids(page: Page, query: str) -> list[str]:
    """Ids of the hits, with their job, in order."""
    page.fill("#q", query)
    return [
        f"{item.locator('b').inner_text()} {item.locator('small').inner_text().split(' · ')[0]}"
        for item in page.locator("#hits li").all()
    ]


@pytest.mark.browser
@pytest.mark.parametrize(
    ("query", "hits"),
    [
        ("C1", ["C1 Truck"]),  # not C14: a code that is there is meant exactly
        ("C14", ["C14 Truck", "C14 Flatbed", "C14-W31-plug Truck"]),  # the rows themselves, then what is a part of one
        ("c14-w31-plug", ["C14-W31-plug Truck"]),
        ("F7", ["F7 Truck", "work lamp left Truck"]),
        ("18 AWG", ["C14 Truck"]),
        ("1.5 mm2", ["W8 Truck"]),
        ("GN/WH", ["W8 Truck"]),
        ("green/white", ["W8 Truck"]),
        ("green white", ["W8 Truck", "C20 Truck"]),  # one wire of both colours, then a green one beside a white one
        ("earth M6", ["L1 Truck"]),  # the record says ground
        ("loom", ["C14 Flatbed"]),  # the record says harness
        ("light left", ["work lamp left Truck", "F7 Truck"]),
        ("worklam", ["C14 Truck"]),  # begins so
        ("assis", ["L1 Truck"]),  # holds it
        ("chasis", ["L1 Truck"]),  # one letter short, nothing else found
        ("chassis", ["L1 Truck"]),
        ("wpier", ["C1 Truck"]),  # two letters changed places
        ("violet", ["C14 Truck"]),  # the index says VT/WH; names of colours are the script's
        ("purple", ["C14 Truck"]),
        ("viol", ["C14 Truck"]),
        ("blue tracer", ["C1 Truck"]),
        ("remove", ["C1 Truck"]),  # the sort of a row is the first word of its title
        ("photograph", ["P2 Flatbed"]),
        ("2015-03-16", ["C1 Truck"]),  # pages write 16 Mar 2015
        ("2015-13-16", []),
        ("F8", []),  # codes are never guessed at
        ("siren dead", ["P2 Flatbed"]),  # a plain word that is nowhere is left aside, and said
        ("siren F8", []),  # a code that is nowhere is not
        ("nothing whatever", []),
    ],
)
def test_search_from_disk_finds_in_this_order(find: Page, query: str, hits: list[str]) -> None:
    assert ids(find, query) == hits


@pytest.mark.browser
def test_a_hit_says_job_page_and_row_and_leads_to_it(find: Page) -> None:
    find.fill("#q", "C14-W31-plug")
    hit = find.locator("#hits li")
    assert hit.locator("small").inner_text() == "Truck · Splices · C14-W31-plug"
    assert hit.locator("a").get_attribute("href") == "jobs/truck/splices.html#C14-W31-plug"


@pytest.mark.browser
def test_the_count_is_told_aloud_and_text_is_never_markup(find: Page) -> None:
    find.fill("#q", "C14")
    assert find.locator("#find-said").inner_text() == "3 finds for “C14”."
    find.fill("#q", "siren dead")
    assert find.locator("#find-said").inner_text() == "1 find for “siren dead”. Nowhere: “dead”."
    find.fill("#q", "<b>zzz")
    assert find.locator("#find-said").inner_text() == "Nothing found for “<b>zzz”."
    assert find.locator("#find-said b").count() == 0


@pytest.mark.browser
def test_arrows_walk_the_hits_and_the_slash_comes_back(find: Page) -> None:
    find.fill("#q", "C14")
    find.press("#q", "ArrowDown")
    find.keyboard.press("ArrowDown")
    assert "flatbed" in find.evaluate("document.activeElement.href")
    find.keyboard.press("/")
    assert find.evaluate("document.activeElement.id") == "q"


@pytest.mark.browser
def test_the_box_on_other_pages_hands_its_words_over(find: Page) -> None:
    find.goto(find.url.split("?")[0] + "?q=C14-W31-plug")
    assert find.locator("#hits li").count() == 1
