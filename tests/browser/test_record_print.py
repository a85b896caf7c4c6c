"""The service record as it comes out of a printer, on A4 and US Letter, with background graphics off."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest
from numpy.typing import NDArray
from playwright.sync_api import Browser

from tests.browser import built, paper
from tests.browser.paper import MM_PT, squeezed
from tests.crawl.tree import Element, read

pytestmark = pytest.mark.browser

# print.css: @page margins; nothing may stand nearer to the edge
LEFT_MM, RIGHT_MM, TEXT_WIDE_MM = 16, 14, 180
FILLED = {"planned": 1, "made": 2, "sealed": 3, "tested": 4}
LEAST_CONTRAST = 3
SHARP_PPI = 150
DPI = 150  # of the grey pages


class Record(NamedTuple):
    job: str
    paper: str
    pdf: Path
    html: Path
    seen: dict[str, Any]

    @property
    def page(self) -> Element:
        return read(self.html)


# What a browser shows of the page on paper: texts of rows and of blocks, marks of colour with the words beside them.
ON_PAPER = """() => {
  const all = (q) => [...document.querySelectorAll(q)].filter(e => e.checkVisibility());
  return {
    rows: all('.record tbody tr').map(e => [...e.cells].map(c => c.innerText.trim()).filter(Boolean)),
    blocks: all('.record :is(p, dt, dd, figcaption, caption, h2, h3, ul.prose > li)').map(e => e.innerText),
    swatches: all('.record .sw').map(e => [e.className, e.closest('.wire').innerText]),
    bands: all('.record .path .band').filter(e => !e.classList.contains('in'))
      .map(e => [e.className, e.closest('li').querySelector('.what').innerText]),
    states: all('.record .state').map(e => e.innerText),
    ranks: all('.record .sev').map(e => e.innerText),
    bad: all('.record .bad').map(e => e.innerText),
    wide: Math.max(...all('.record *').map(e => e.getBoundingClientRect().right)),
    room: document.querySelector('main').getBoundingClientRect().right,
  };
}"""


@pytest.fixture(scope="module")
def seen(site: Path) -> dict[str, dict[str, Any]]:
    """Job -> what a browser shows of its record on paper."""
    found: dict[str, dict[str, Any]] = {}
    with built.chromium() as browser:
        page = browser.new_page(viewport={"width": round(TEXT_WIDE_MM / 25.4 * 96), "height": 900})
        page.emulate_media(media="print")
        for job in ("trail-truck", "taken-over"):
            page.goto((site / "jobs" / job / "record.html").as_uri())
            found[job] = page.evaluate(ON_PAPER)
    return found


@pytest.fixture(scope="module", params=[(job, size) for job in ("trail-truck", "taken-over") for size in built.PAPERS])
def record(
    request: pytest.FixtureRequest,
    site: Path,
    seen: dict[str, dict[str, Any]],
    tmp_path_factory: pytest.TempPathFactory,
) -> Record:
    job, size = request.param
    built.need("pdftotext", "pdftoppm", "pdfimages", "qpdf")
    folder = built.records(tmp_path_factory.getbasetemp(), job)
    return Record(job, size, folder / f"{size}.pdf", site / "jobs" / job / "record.html", seen[job])


def test_pages_have_the_paper_s_size_and_the_file_is_sound(record: Record) -> None:
    assert b"No syntax or stream encoding errors found" in paper.run("qpdf", "--check", record.pdf)
    wide, high = (side * MM_PT for side in paper.SIZES_MM[record.paper])
    for size in paper.page_sizes_pt(record.pdf):
        assert size == pytest.approx((wide, high), abs=1)


def test_every_photograph_is_printed_sharp_with_its_caption_on_the_page(record: Record) -> None:
    figures = list(record.page.first(class_="prints").all("figure"))
    named = re.findall(r"(?m)^\s*(?:-\s*)?\{?(?:-\s*)?(?:\{)?id: (P\d+)", sources(record.job))
    assert {figure.first("figcaption").first("b").text for figure in figures} == set(named)
    printed = paper.pictures(record.pdf)
    assert len(printed) == len(figures) == len(named) >= 1
    for page, text in enumerate(paper.texts(record.pdf, "raw"), start=1):
        captions = [f for f in figures if squeezed(f.first("figcaption").text) in squeezed(text)]
        here = [picture for picture in printed if picture[0] == page]
        assert len(here) == len(captions), f"page {page}"
    assert min(ppi for _, _, _, ppi in printed) >= SHARP_PPI


def sources(job: str) -> str:
    return "\n".join(path.read_text(encoding="utf-8") for path in (built.ROOT / "jobs" / job).glob("*.yml"))


def test_page_numbers_revision_and_moment_stand_on_every_page(record: Record) -> None:
    texts = paper.texts(record.pdf, "layout")
    title = re.search(r"(?m)^job: (.*)$", sources(record.job))
    revision = re.search(r"(?m)^revision: (\S+)", sources(record.job))
    assert title
    assert revision
    for number, text in enumerate(texts, start=1):
        assert re.search(rf"\bpage {number} of {len(texts)}\b", text.strip().splitlines()[-1]), text[-200:]
        head = text.strip().splitlines()[0]
        assert head.startswith(title[1]), head
        assert f"revision {revision[1]}" in head, head
        assert re.search(r"as of \d|as handed over|plan:", head), head
        assert "Computed figures are aids" in text.strip().splitlines()[-1]


class Stretch(NamedTuple):
    """The lines of one numbered section on one page."""

    section: str
    page: int
    goes_on: bool  # began on an earlier page
    lines: list[str]


def stretches(record: Record) -> Iterator[Stretch]:
    titles = [squeezed(head.text) for head in record.page.first(class_="record").all("h2")]
    section, goes_on = "", False
    for number, text in enumerate(paper.texts(record.pdf, "layout"), start=1):
        lines: list[str] = []
        for line in text.splitlines()[1:-1]:  # without the margin boxes
            if squeezed(line) in titles:
                yield Stretch(section, number, goes_on, lines)
                section, goes_on, lines = squeezed(line), False, []
            elif line.strip():
                lines.append(line)
        yield Stretch(section, number, goes_on, lines)
        goes_on = True


def test_the_head_of_a_table_is_repeated_where_the_table_goes_on(record: Record) -> None:
    """Where a section goes on on a new page with rows of its table, the head stands above them."""
    found, tables = 0, tables_by_section(record.page)
    for stretch in stretches(record):
        heads, keys = tables.get(stretch.section, ([], set()))
        first = next((n for n, line in enumerate(stretch.lines) if line.split()[0] in keys), None)
        if not stretch.goes_on or first is None:
            continue
        found += 1
        above = " ".join(stretch.lines[max(first - 4, 0) : first]).split()
        assert any(set(head) <= set(above) for head in heads), f"page {stretch.page}: {stretch.lines[: first + 1]}"
    if record.job == "trail-truck":
        assert found >= 3


def tables_by_section(page: Element) -> dict[str, tuple[list[list[str]], set[str]]]:
    """Section -> heads of its tables (words of the columns), and the first words of their rows."""
    found = {}
    for section in page.first(class_="record").all("section"):
        if tables := list(section.all("table")):
            title = squeezed(section.first("h2").text)
            heads = [
                [word for head in table.first("thead").all("th") for word in head.text.split()] for table in tables
            ]
            rows = [row for table in tables for row in table.first("tbody").all("tr")]
            found[title] = (heads, {row.text.split()[0] for row in rows if row.text})
    return found


def test_every_row_stands_whole_on_one_page(record: Record) -> None:
    """A row that is split splits a cell. A cell is painted in one go, but for ids in it, which come later."""
    pages = [squeezed(text) for text in paper.texts(record.pdf, "raw")]
    rows = [row for row in record.seen["rows"] if row]
    assert len(rows) >= (150 if record.job == "trail-truck" else 20)
    split = [row for row in rows if not any(all(stands_in(cell, page) for cell in row) for page in pages)]
    assert not split, "\n".join(map(str, split[:10]))


def stands_in(cell: str, page: str) -> bool:
    return squeezed(cell) in page or all(
        squeezed(line) in page or all(re.fullmatch(r"C\d+,?", word) and word in page for word in line.split())
        for line in cell.splitlines()
    )


def test_nothing_that_is_said_is_missing_on_paper(record: Record) -> None:
    """Paragraphs, captions, items of the plate, list items: every one can be read from first to last letter."""
    pages = [squeezed(text) for text in paper.texts(record.pdf, "raw")]
    whole = "".join(without_margins(page) for page in pages)
    assert len(record.seen["blocks"]) >= 60
    missing = [text for text in record.seen["blocks"] if squeezed(text) not in whole]
    assert not missing, "\n".join(missing[:10])


def without_margins(page: str) -> str:
    """A page's squeezed text without what stands in its margins, for a text that goes over the page."""
    page = re.sub(r"Computedfiguresareaids;.*?first\.|page\d+of\d+", "", page)
    return re.sub(r"^.*?(asof\d+[A-Z][a-z]{2}\d{4}|ashandedover,\d+[A-Z][a-z]{2}\d{4})", "", page, count=1)


def test_no_text_leaves_the_paper_or_its_column(record: Record) -> None:
    sizes = paper.page_sizes_pt(record.pdf)
    for word in paper.words(record.pdf):
        wide, high = sizes[word.page - 1]
        assert word.left >= LEFT_MM * MM_PT - 4, word  # the revision bar's column
        assert word.right <= wide - RIGHT_MM * MM_PT + 1, word
        assert word.top >= 0, word
        assert word.bottom <= high, word
    assert record.seen["wide"] <= record.seen["room"] + 1


def test_every_word_can_be_read_without_colour(record: Record) -> None:
    faint = []
    for word in paper.words(record.pdf):
        box = (word.left - 1, word.top, word.right + 1, word.bottom)
        if (
            word.text.strip(".·,:;−-–\u2009")
            and paper.contrast(paper.cut_out(record.pdf, word.page, box, DPI)) < LEAST_CONTRAST
        ):
            faint.append(word)
    assert not faint, faint[:10]


def test_state_cells_can_be_counted_without_colour(record: Record) -> None:
    """Left of the word four cells: the filled ones are wide runs of ink, an empty one is two edges."""
    counted = []
    for word in paper.words(record.pdf):
        if word.text in FILLED:
            cells = paper.cut_out(record.pdf, word.page, (word.left - 30, word.top, word.left - 1, word.bottom), DPI)
            runs = ink_runs(cells)
            wide = DPI / 72 * 2.5  # pixels: a filled cell is about 4.7 pt, an edge 1.1 pt
            filled, edges = sum(run >= wide for run in runs), sum(run < wide for run in runs)
            if (filled, edges) == (FILLED[word.text], 2 * (4 - FILLED[word.text])):
                assert paper.contrast(cells) >= LEAST_CONTRAST, word
                counted.append(word.text)
    assert record.seen["states"]
    assert sorted(counted) == sorted(record.seen["states"])


def ink_runs(cells: NDArray[np.uint8]) -> list[int]:
    """Lengths of the dark runs along the middle line, pixels."""
    line = "".join("#" if pixel < 128 else " " for pixel in cells[cells.shape[0] // 2])
    return [len(run) for run in re.findall("#+", line)]


def test_ranks_and_bad_verdicts_are_marked_with_ink_and_with_a_word(record: Record) -> None:
    """Stop and error, and a verdict that is not good, stand out by ink round the word: a frame, a bar or solid."""
    marked = record.seen["ranks"] + record.seen["bad"]
    assert marked or record.job != "trail-truck"
    inked = 0
    for first in {text.split()[0] for text in marked}:
        for word in (w for w in paper.words(record.pdf) if w.text == first):
            dark = paper.cut_out(
                record.pdf, word.page, (word.left - 8, word.top - 1.5, word.left, word.bottom + 1.5), 150
            )
            column_dark = (dark < 128).mean(axis=0).max()  # an upright edge, or solid ink, beside the word
            inked += column_dark > 0.6
    assert inked >= len(marked)


def test_words_stand_beside_every_colour(record: Record) -> None:
    known = r"\b[A-Z]{2}(/[A-Z]{2}){0,2}\b|colour not read|colour and size not read"
    assert record.seen["swatches"]
    assert not [mark for mark, said in record.seen["swatches"] if not re.search(known, said)]
    assert record.seen["bands"] or record.job != "trail-truck"
    assert not [
        mark for mark, said in record.seen["bands"] if not re.search(rf"\w+.*\((?:{known})\)|colour not read", said)
    ]


BRACKETS = str.maketrans("", "", "()")  # a source stands in brackets on paper


def printed_closed(path: Path, browser: Browser, folder: Path) -> str:
    """The page as it prints when nothing on it was opened."""
    built.need("pdftotext")
    page = browser.new_page()
    page.goto(path.as_uri())
    assert page.locator("details[open]").count() == 0
    page.pdf(path=folder / "sheet.pdf", format="A4")
    page.close()
    return squeezed("".join(paper.texts(folder / "sheet.pdf", "raw")))


def test_what_opens_is_printed_open(site: Path, browser: Browser, tmp_path: Path) -> None:
    path = site / "jobs" / "trail-truck" / "grounds.html"
    printed = printed_closed(path, browser, tmp_path).translate(BRACKETS)
    figures = list(read(path).all("details", class_="fig"))
    inside = [part.text for figure in figures for part in (*figure.all(class_="formula"), *figure.all("dd"))]
    assert len(inside) >= 10
    assert not [text for text in inside if squeezed(text).translate(BRACKETS) not in printed]


def test_what_opens_is_printed_as_notes_where_figures_share_their_parts(
    site: Path, browser: Browser, tmp_path: Path
) -> None:
    path = site / "jobs" / "trail-truck" / "circuits" / "dip-left.html"
    printed = printed_closed(path, browser, tmp_path)
    figures = list(read(path).all("details", class_="fig"))
    inside = [part.text for figure in figures for part in (*figure.all(class_="formula"), *figure.all("dt"))]
    values = [f"= {part.text}." for figure in figures for part in figure.all("b")]
    sources = [
        words
        for figure in figures
        for part in figure.all("small")
        for words in re.split(r"; carries | × (?=\d+ mm\b)", part.text)  # told apart on paper: source, length, amperes
        if not words.startswith("dip left.")  # the name of another figure: on paper the number of its note
    ]
    assert len(figures) > 20
    assert len(set(sources)) > 8
    assert not [text for text in (*inside, *values, *sources) if squeezed(text) not in printed]
