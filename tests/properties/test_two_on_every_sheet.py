"""Two cars in one book: a row of a sheet about one thing of a car reads as it does in a book of that car alone.

The rows of every sheet are taken as their words, field by field. A row that takes the first of several, or another
wire's colour, reads otherwise as soon as a second car stands beside it.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest

import aswired.sheets
from aswired.figures.worked import JobResult
from tests.findings.jobs import Case, work
from tests.properties.copies import Doc, document, dumped, mixed, names, parsed, twice, unmarked
from tests.properties.test_two_in_one_book import DEMOS, JOBS

Row = tuple[str, str, tuple[tuple[str, str], ...]]  # sheet, kind of row, fields

# Of the whole book: a heading, a count, what is bought for all, what is said once for all that are alike.
WHOLE = {
    *("BundleSheet", "Caution", "FuseSheet", "SheetOfTests", "OpenWork", "Rulers", "WorkSheet", "VariantSheet"),
    *("RingNeed", "SleeveNeed", "WireNeed", "WordsNeed", "Before", "MaterialSheet", "KeyOffText", "DifferenceSheet"),
    *("GroundSheet", "SpliceSheet", "Group", "Reason", "StateCount", "Tree", "ExtensionSheet", "Answer", "Ruler"),
    *("RulerMark", "NotDrawn", "Question", "MaterialNeeds", "BeforeRow", "Head", "Sentence", "WireSheet", "MissingRow"),
    *("FirstPower", "BeforeTheFirst", "FusesOutside"),
}
NAMELESS = {"InputText", "RunText", "Fact"}  # what two figures or rows share has no name of its own to be told by
NOT_COMPARED = {
    "where": "the usual place is said once above the table where all have it",
    "rule": "the letter of a rule may be the name of a ground point",
    "limit": "what may flow with the key off counts the whole car",
    "how": "the usual joint is said once above the table where all have it",
    "more": "wires whose way is not recorded may lie in every leg of the book",
    "reasons": "a name that stands in no table is read by its letters: F1 as a fuse",
    "why": "a picture or a load that is shared is not told again",
}
# those of addresses, which hold the name of the job's folder
NOT_HERE = {
    "summarise",
    "places_of",
    "circuit_uris",
    "bench_of",
    "standing",
    "record",
    "against",
    "ranked",
    "pieces_told",
    "rows_told",
}


def sheets() -> Iterator[tuple[str, Callable[[JobResult], object]]]:
    """Every public function of the views that makes rows of a job that is worked out."""
    for module in pkgutil.iter_modules(aswired.sheets.__path__):
        found = importlib.import_module(f"aswired.sheets.{module.name}")
        for name, function in inspect.getmembers(found, inspect.isfunction):
            public = function.__module__ == found.__name__ and name not in NOT_HERE and not name.startswith("_")
            if public and list(inspect.signature(function).parameters) == ["worked"]:
                yield f"{module.name}.{name}", function


SHEETS = dict(sheets())


NO_TABLE = "an end that stands in no table"


def rows(worked: JobResult) -> Counter[Row]:
    """Every row of every sheet in which something is named, as text."""
    found: Counter[Row] = Counter()
    for sheet, make in SHEETS.items():
        for kind, told in below(make(worked)):
            # what is called F1 is taken for a fuse that stands in no table, what is called QF1 is not
            if kind not in WHOLE | NAMELESS and not (kind == "Unseen" and ("what", NO_TABLE) in told):
                found[(sheet, kind, told)] += 1
    return found


def below(value: object) -> Iterator[tuple[str, tuple[tuple[str, str], ...]]]:
    if is_dataclass(value) and not isinstance(value, type):
        if type(value).__module__.startswith("aswired.sheets"):
            told = ((part.name, text_of(getattr(value, part.name))) for part in fields(value))
            yield type(value).__name__, tuple((name, text) for name, text in told if text and name not in NOT_COMPARED)
        for part in fields(value):
            yield from below(getattr(value, part.name))
    elif isinstance(value, dict):
        yield from below(tuple(value.values()))
    elif isinstance(value, (list, tuple)):
        for one in value:
            yield from below(one)


def text_of(value: object) -> str:
    """A field of plain words; the line of a file and a place on a drawing follow the whole book and are left out."""
    if isinstance(value, tuple) and all(isinstance(one, str) for one in value):
        return " | ".join(value)
    return re.sub(r"\.yml:\d+", ".yml", value) if isinstance(value, str) else ""


def in_any_order(row: Row) -> Row:
    """Of several names in a field the order may follow the list."""
    sheet, kind, told = row
    return sheet, kind, tuple((name, " ".join(sorted(re.findall(r"[^\s,'():;|]+", text)))) for name, text in told)


def plain(row: Row) -> Row:
    sheet, kind, told = row
    return sheet, kind, tuple((name, unmarked(text)) for name, text in told)


def held_twice(alone: JobResult, both: JobResult, doc: Doc) -> int:
    """Each row about something of the car stands there once for each copy. How many were compared."""
    own = names(doc)
    lost: list[tuple[Row, int, int]] = []  # the row, how often it stands there alone, and beside the other car
    first: Counter[Row] = Counter()
    second: Counter[Row] = Counter()
    for row, count in rows(both).items():
        if mixed(words(row), own):
            lost.append((row, 0, count))
        if plain(row) == row:
            first[row] += count
        else:
            second[in_any_order(plain(row))] += count
    compared = 0
    expected: Counter[Row] = Counter()
    for row, times in rows(alone).items():
        if set(re.findall(r"[\w-]+", words(row))) & own:
            compared += 1
            expected[in_any_order(row)] += times
            if first[row] != times:
                lost.append((row, times, first[row]))
    lost += [(row, times, second[row]) for row, times in expected.items() if second[row] != times]
    assert lost == []
    return compared


def words(row: Row) -> str:
    return " ".join(text for _, text in row[2])


@pytest.mark.slow
# The plug "a" of some jobs is named like a word of the sentences, and ROW15 tells of names that no table has; the
# sheets of tests of the truck take too long here.
@pytest.mark.parametrize(
    "case", [case for case in JOBS if "a.1" not in case.text and case.code != "ROW15"][::3], ids=lambda case: case.name
)
def test_a_row_reads_the_same_beside_a_second_car(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    alone = work(tmp_path / "alone", dumped(doc), case.today, case.photo_problems)
    both = work(tmp_path / "both", dumped(twice(doc, turned=False)), case.today, case.photo_problems)
    assert held_twice(alone, both, doc) > 3


@pytest.mark.parametrize("name", ["taken-over", pytest.param("flatbed", marks=pytest.mark.slow)])
def test_a_row_of_a_demo_car_reads_the_same_beside_a_second_car(name: str, tmp_path: Path) -> None:
    (doc,) = [document(folder) for folder in DEMOS if folder.name == name]
    alone = work(tmp_path / "alone", dumped(doc))
    both = work(tmp_path / "both", dumped(twice(doc, turned=False)))
    assert held_twice(alone, both, doc) > 200
