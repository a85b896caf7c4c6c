"""Figures of the trail truck worked on paper (hand_sheet.csv), against what the program says, shows and prints.

Every expected value is read from the sheet, whose arithmetic stands beside it in words.
"""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from aswired.cli.run import main
from tests.browser import built, paper
from tests.crawl.tree import Element, read

FEWEST = 25
PARTS = {"mV": ("V", 1000), "mA": ("A", 1000)}  # small amounts may be told in a thousandth of the unit
SHEETS = {"gain": "Gain", "left": "Left", "place": "Place", "total": "Length"}  # word on the sheet: column of the page


class Line(NamedTuple):
    """A line of the sheet: the key of a figure, or `page SHEET, ID, WHAT`."""

    key: str
    value: str
    unit: str

    @property
    def digits(self) -> int:
        return len(self.value.partition(".")[2])

    @property
    def on_page(self) -> tuple[str, str, str] | None:
        found = re.fullmatch(r"page (\S+), (.+), (\w+)", self.key)
        return (found[1], found[2], found[3]) if found else None

    def is_in(self, text: str) -> bool:
        """Whether the text tells this value: rounded as the sheet rounds it, in its unit or in thousandths of it."""
        return any(f"{value:.{self.digits}f}" == plain(self.value) for value in amounts(text, self.unit))


def plain(number: str) -> str:
    return re.sub(r"\s", "", number).replace("−", "-")


def amounts(text: str, unit: str) -> Iterator[float]:
    """Every quantity of the unit in a text, the thin space between thousands understood."""
    for number, written in re.findall(
        r"(?<![\w.])(−?\d{1,3}(?:\s\d{3})+(?:\.\d+)?|−?\d+(?:\.\d+)?)\s(mm|mΩ|mV|mA|V|A)\b", text
    ):
        whole, parts = PARTS.get(written, (written, 1))
        if whole == unit:
            yield float(plain(number)) / parts


@cache
def sheet() -> tuple[Line, ...]:
    with (Path(__file__).parent / "hand_sheet.csv").open(encoding="utf-8", newline="") as stream:
        return tuple(Line(row["key_or_page"], row["value"], row["unit"]) for row in csv.DictReader(stream))


def named(lines: list[Line]) -> list[str]:
    return [f"{line.key}: {line.value} {line.unit} on the sheet" for line in lines]


@pytest.mark.parametrize(
    ("value", "unit", "text", "is_in"),
    [
        ("2\u2009330", "mm", "91.73 in (2\u2009330 mm)", True),
        ("330", "mm", "91.73 in (2\u2009330 mm)", False),
        ("1.7", "A", "7.5 A 11.7 A", False),
        ("0.01", "V", "6.1 mV", True),
        ("0.01", "V", "16.1 mV", False),
        ("15.0", "A", "15 A", True),
        ("97", "mm", "3.8 in (98 mm)", False),
        ("24.9", "A", "24.9 V", False),
    ],
)
def test_an_amount_is_recognised_only_where_it_stands(value: str, unit: str, text: str, is_in: bool) -> None:
    assert Line("", value, unit).is_in(text) == is_in


def test_every_figure_of_the_sheet_is_the_program_s_figure(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(built.ROOT)
    assert main(["figures", "trail-truck", "--json"]) == 0
    figures = {figure["key"]: figure for figure in json.loads(capsys.readouterr().out)["figures"]}
    lines = [line for line in sheet() if not line.on_page]
    assert len(lines) >= 50
    assert not [line.key for line in lines if line.key not in figures]
    assert not named([line for line in lines if figures[line.key]["unit"].replace("mohm", "mΩ") != line.unit])
    wrong = [line for line in lines if f"{figures[line.key]['value']:.{line.digits}f}" != plain(line.value)]
    assert not named(wrong)


@pytest.mark.slow
def test_the_figures_stand_on_the_built_pages(site: Path) -> None:
    """The line that is always seen of a figure that opens, on every page that has it."""
    shown: dict[str, list[str]] = {}
    for path in (site / "jobs" / "trail-truck").rglob("*.html"):
        for figure in read(path).all("details", class_="fig"):
            value = figure.first("summary").first("b")
            shown.setdefault(value.attributes["data-figure"], []).append(value.text)
    lines = [line for line in sheet() if not line.on_page]
    assert len(lines) >= FEWEST
    assert not named([line for line in lines if not shown.get(line.key)])
    assert not named([line for line in lines if not all(line.is_in(text) for text in shown[line.key])])


@pytest.mark.slow
def test_what_has_no_key_stands_in_its_row_of_the_built_pages(site: Path) -> None:
    lines = [line for line in sheet() if line.on_page]
    assert len(lines) >= 10
    wrong = [line for line in lines if not line.is_in(cell_of(site, *(line.on_page or ("", "", ""))))]
    assert not named(wrong)


def cell_of(site: Path, sheet_name: str, id: str, what: str) -> str:
    page = read(site / "jobs" / "trail-truck" / f"{sheet_name}.html")
    rows = [row for row in page.all("tr", role="row") if is_row_of(row, id) and any(row.all("td"))]
    cells = [cell for row in rows for cell in row.all("td", **{"data-h": SHEETS[what]})]
    assert len(cells) == 1, f"{sheet_name}: {len(cells)} rows of {id} with {what}"
    return cells[0].text


def is_row_of(row: Element, id: str) -> bool:
    """By its own id, or by what its first cells say: `C14 W31`, `BK black` `14 AWG`."""
    if row.attributes.get("id") in (id, f"offcut-{id}"):
        return True
    words = [cell.text for cell in row.inside if isinstance(cell, Element)]
    colour, _, size = id.partition(" ")
    return bool(words) and (
        words[0].split() == id.split("-") or (words[0].split()[0] == colour and len(words) > 1 and words[1] == size)
    )


class Place(NamedTuple):
    """Where a line is printed: section of the record, how its row begins (a pattern), what stands before the value."""

    section: str
    row: str
    before: str = ""


def printed_at(key: str) -> Place | None:
    """The record's place of a key; None when the record does not print it."""
    if found := re.fullmatch(r"(?:page extensions, )?(C\d+)-(W\d+)(?:\.cut|, gain)", key):
        return Place("7 Wire put in", rf"{found[1]} {found[2]}\s")
    if found := re.fullmatch(r"page extensions, (\w+ \d+ AWG), total", key):
        return Place("7 Wire put in", r"In all:", f" {found[1]} ")
    if found := re.fullmatch(r"page splices, (\S+), place", key):
        return Place("5 Splices", rf"{found[1]}\s")
    if found := re.fullmatch(r"(C\S+)\.centre", key):
        return Place("5 Splices", rf"{found[1]}\s", "wire:")
    if found := re.fullmatch(r"(L\d)\.(?:total|rise)", key):
        return Place("8 Grounds", rf"{found[1]}\s")
    if found := re.fullmatch(r"(F\d+)\.total", key):
        return Place("3 Fuses", rf"{found[1]}\s")
    if found := re.fullmatch(r"(.+)\.(drop\.together|feed\.resistance|return\.resistance)", key):
        before = {"drop.together": "Drop ", "feed.resistance": ";", "return.resistance": " feed,"}[found[2]]
        return Place("6 Circuits", rf"{found[1]}\s+(?:Fuse|Ground|Drop)\b", before)
    return None


@pytest.mark.browser
@pytest.mark.parametrize("size", built.PAPERS)
def test_the_figures_stand_in_the_printed_record(size: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    """On the line of its row, or the lines that belong to it."""
    built.need("pdftotext")
    pdf = built.records(tmp_path_factory.getbasetemp()) / f"{size}.pdf"
    found, wrong = 0, []
    for line in sheet():
        place = printed_at(line.key)
        if place is None or line.key == "C46-W29.cut":  # a measured piece is printed as measured: its gain is checked
            continue
        found += 1
        if not line.is_in(row_in(pdf, place)):
            wrong.append(f"{line.key}: {line.value} {line.unit} on the sheet, printed: {row_in(pdf, place)}")
    assert not wrong, "\n".join(wrong)
    assert found >= FEWEST


def row_in(pdf: Path, place: Place) -> str:
    """The first line of the row, or what follows `before` in the lines from there on."""
    lines = section_of(pdf, place.section)
    starts = [n for n, line in enumerate(lines) if re.match(rf"\s*{place.row}", line)]
    assert len(starts) == 1, f"{place.row} begins {len(starts)} lines of {place.section}"
    if not place.before:
        return lines[starts[0]]
    _, there, rest = " ".join(lines[starts[0] : starts[0] + 8]).partition(place.before)
    assert there, f"no {place.before!r} at {place.row}"
    return re.split("[,;:]| from | of ", rest)[0]


@cache
def section_of(pdf: Path, title: str) -> tuple[str, ...]:
    """Lines of a numbered section of the record over all its pages."""
    inside: list[str] = []
    section = ""
    for page in paper.texts(pdf, "layout"):
        for line in page.splitlines()[1:-1]:  # without the margin boxes
            if re.fullmatch(r"\s*\d{1,2} [A-Z][\w ]+", line):
                section = " ".join(line.split())
            elif section == title:
                inside.append(line)
    assert inside, f"no section {title}"
    return tuple(inside)
