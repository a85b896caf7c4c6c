"""A figure that stands on a page is named there by its key, and is the value that was computed.

On all pages of the demo jobs, in both editions. What is printed on paper is the same HTML.
"""

from __future__ import annotations

import datetime
import re
import shutil
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.physics.figure import Figure
from aswired.sheets import fuses
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.pages import PAGES, pages_of
from aswired.sheets.templates import environment, render
from aswired.sheets.text import Printed, amount
from aswired.site.theme import theme_dir
from aswired.work import work_out
from tests.crawl.tree import Element, parse

JOBS = Path(__file__).parents[2] / "jobs"
DAY = datetime.date(2031, 7, 1)
# May tell of more than the figures that they name: the share that a limit is of, pieces measured when they were cut.
SENTENCES = ("p", "small", "dd", "Cut from it", "Still to cut", "Cut already")
# What a unit measures, and how many of the figures' own unit one is.
UNITS = {
    "V": ("V", 1.0),
    "mV": ("V", 0.001),
    "A": ("A", 1.0),
    "mA": ("A", 0.001),
    "Ω": ("mohm", 1000.0),
    "mΩ": ("mohm", 1.0),
    "mm": ("mm", 1.0),
    "cm": ("mm", 10.0),
    "m": ("mm", 1000.0),
    "in": ("mm", 25.4),
    "%": ("%", 1.0),
}
QUANTITY = re.compile(rf"(−?)(\d+(?:\u202f\d\d\d)*)(\.\d+)?\s?({'|'.join(UNITS)})(?![\w²])")


@dataclass(frozen=True)
class Quantity:
    """An amount as printed: what it measures, its value and how far the value may lie from it, in the figures' unit."""

    text: str
    measures: str
    value: float
    within: float

    def is_of(self, measures: str, value: float) -> bool:
        return self.measures == measures and abs(self.value - value) <= self.within * 1.001


@dataclass(frozen=True)
class Named:
    """An element that names figures: where, the head of its cell or else its tag, the keys, the quantities in it."""

    where: str
    kind: str
    keys: tuple[str, ...]
    quantities: tuple[Quantity, ...]


def quantities_in(text: str) -> Iterator[Quantity]:
    """The amounts of a text; of `down by 3 mV` below nought. Metres of tape are rounded up, all else to the nearest."""
    for found in QUANTITY.finditer(text):
        minus, whole, part, unit = found.groups()
        below = minus or text[: found.start()].endswith("down by ")
        measures, factor = UNITS[unit]
        last = factor * 10.0 ** -(len(part) - 1 if part else 0)
        value = float(whole.replace("\u202f", "") + (part or "")) * factor
        yield Quantity(found[0], measures, -value if below else value, last if unit == "m" else last / 2)


def own_text(element: Element) -> str:
    """The text of an element without the small print in it, and without elements in it that name figures themselves."""
    inside = (
        child
        if isinstance(child, str)
        else ""
        if child.name == "small" or "data-figure" in child.attributes
        else own_text(child)
        for child in element.inside
    )
    return "".join(inside)


def rendered(worked: JobResult, theme: Path, *sheets: str) -> Iterator[tuple[str, Element]]:
    """All pages of a job in both editions, by edition and address; or only those of the sheets named."""
    env = environment(theme)
    for edition in ("shop", "owner"):
        frame = frame_of(worked, ShopFacts(edition))
        for page in (page for sheet in sheets for page in PAGES[sheet](frame)) if sheets else pages_of(frame):
            yield f"{edition} {page.uri}", parse(render(env, page), page.uri)


def named_on(pages: Iterable[tuple[str, Element]]) -> list[Named]:
    """Every element of the pages that names figures."""
    found = []
    for where, page in pages:
        heads = {id(child): cell.attributes.get("data-h", "") for cell in page.all("td") for child in cell.inside}
        for element in page.all():
            if keys := element.attributes.get("data-figure"):
                kind = heads.get(id(element)) or element.name
                found.append(Named(where, kind, tuple(keys.split("|")), tuple(quantities_in(own_text(element)))))
    return found


def contradictions(found: Iterable[Named], figures: Iterable[Figure]) -> list[str]:
    """Where a key stands beside a value that is not its figure's; or, where its figure is worked out for one sheet
    alone, beside two values."""
    computed = {figure.key: figure for figure in figures}
    first: dict[str, tuple[str, Quantity]] = {}
    wrong = []
    for here in found:
        free = list(here.quantities)
        for key in here.keys:
            figure = computed.get(key)
            if figure is not None and figure.value is not None:
                agreeing = [quantity for quantity in here.quantities if quantity.is_of(figure.unit, figure.value)]
                if not agreeing:
                    wrong.append(f"{here.where}: {key} is {figure.value} {figure.unit}, {here.quantities} is printed")
                free = [quantity for quantity in free if quantity not in agreeing]
            elif figure is None and free and len(here.keys) == 1:
                before, quantity = first.setdefault(key, (here.where, free[0]))
                if any(
                    one.measures != quantity.measures or abs(one.value - quantity.value) > one.within + quantity.within
                    for one in free
                ):
                    wrong.append(f"{key}: {quantity.text} on {before}, {[one.text for one in free]} on {here.where}")
                free = []
        if free and here.kind not in SENTENCES:
            wrong.append(f"{here.where}: {[one.text for one in free]} is printed as {here.keys}")
    return wrong


def bare(worked: JobResult, theme: Path, *sheets: str) -> list[str]:
    """Figures that stand on pages without their key. Each is given a value that nothing else has, then looked for.

    At the foot of the return tree stands a sum of figures; where one point alone leads there, it is that point's own.
    """
    keys = {}
    figures = {id(figure): figure for figure in worked.all_figures() if figure.value is not None}
    for number, figure in enumerate(figures.values()):
        value = 1_000_003 + 1009 * number
        object.__setattr__(figure, "value", float(value))
        keys[f"{value:,}".replace(",", "\u202f")] = figure.key
    found = []
    for where, page in rendered(worked, theme, *sheets):
        foot = [after for before, after in pairwise(page.all("text")) if before.text == "battery-"]
        for element, named in with_names(page, frozenset()):
            own = "".join(child for child in element.inside if isinstance(child, str))
            for text in re.findall(r"\d\u202f\d\d\d\u202f\d\d\d", own):
                if text in keys and keys[text] not in named and element not in foot:
                    found.append(f"{where}: {keys[text]} in {own.strip()!r}")
    return found


def with_names(element: Element, named: frozenset[str]) -> Iterator[tuple[Element, frozenset[str]]]:
    """An element and those in it, each with the keys that it or an element around it names."""
    named |= {*element.attributes.get("data-figure", "").split("|")}
    yield element, named
    for child in element.inside:
        if isinstance(child, Element):
            yield from with_names(child, named)


def worked_out(slug: str) -> JobResult:
    read = read_job(JOBS / slug)
    assert read.job is not None
    return work_out(read.job, DAY, {})


@pytest.mark.parametrize(
    "slug", ["taken-over", *(pytest.param(slug, marks=pytest.mark.slow) for slug in ("flatbed", "trail-truck"))]
)
def test_each_figure_is_printed_as_computed_wherever_its_key_stands(slug: str) -> None:
    worked = worked_out(slug)
    found = named_on(rendered(worked, theme_dir()))
    assert contradictions(found, worked.all_figures()) == []
    assert len({key for here in found for key in here.keys}) > 30


@pytest.mark.parametrize(
    "slug", ["taken-over", *(pytest.param(slug, marks=pytest.mark.slow) for slug in ("flatbed", "trail-truck"))]
)
def test_no_figure_stands_on_a_page_without_its_key(slug: str) -> None:
    assert bare(worked_out(slug), theme_dir()) == []


@pytest.mark.slow
def test_a_template_that_prints_another_figure_is_found(tmp_path: Path) -> None:
    theme = Path(shutil.copytree(theme_dir(), tmp_path / "theme"))
    circuits = theme / "circuits.html"
    whole = circuits.read_text(encoding="utf-8")
    assert whole.count("{{ p.value(r.drop_together) }}") == 1
    circuits.write_text(whole.replace("p.value(r.drop_together)", "p.value(r.drop_alone)"), encoding="utf-8")
    worked = worked_out("flatbed")
    wrong = contradictions(named_on(rendered(worked, theme, "circuits")), worked.all_figures())
    assert any("circuits.html: tail left.drop.together is" in words for words in wrong)


def test_a_row_that_says_another_value_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Once beside its key, once without it."""
    monkeypatch.setattr(fuses, "_all_on", lambda fuse: Printed("99.9 A", fuse.total.key))
    worked = worked_out("flatbed")
    wrong = contradictions(named_on(rendered(worked, theme_dir(), "fuses")), worked.all_figures())
    assert any("fuses.html: F1.total is" in words for words in wrong)
    monkeypatch.setattr(fuses, "_all_on", lambda fuse: Printed(amount(fuse.total.value, "A")))
    assert any("fuses.html: F1.total in" in words for words in bare(worked, theme_dir(), "fuses"))


def test_a_figure_that_is_another_on_one_sheet_is_found() -> None:
    """One that is among the figures of the job, and one that is worked out for its sheet alone."""
    worked = worked_out("flatbed")
    ground = next(point for point in worked.grounds if point.rise.value)
    other = replace(ground, rise=replace(ground.rise, value=1.23))
    changed = replace(worked, grounds=tuple(other if point is ground else point for point in worked.grounds))
    wrong = contradictions(named_on(rendered(changed, theme_dir(), "grounds")), worked.all_figures())
    assert any(f"grounds.html: {ground.rise.key} is" in words for words in wrong)
    once, again = (
        Named(page, "span", ("R1.expected",), tuple(quantities_in(text)))
        for page, text in (
            ("readings.html", "0.08 V"),
            ("record.html", "80 mA"),
        )
    )
    assert contradictions([once, again], ()) == ["R1.expected: 0.08 V on readings.html, ['80 mA'] on record.html"]
    assert contradictions([once, replace(again, quantities=tuple(quantities_in("81 mV")))], ()) == []
