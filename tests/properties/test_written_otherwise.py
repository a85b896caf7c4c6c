"""The same car written in another way gives the same figures and the same findings.

Nothing is worked out by hand here: a wire may be written from either of its ends, a job may be read in millimetres or
in inches, may have been done a week later, and its parts may have names that sort the other way round.
"""

from __future__ import annotations

import datetime
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from aswired.figures.worked import JobResult
from tests.findings.jobs import Case, figures, work
from tests.properties.copies import (
    EACH_DEMO,
    Doc,
    document,
    dumped,
    in_the_other_order,
    in_this_order,
    of_each_code,
    parsed,
    sampled,
)
from tests.properties.test_two_in_one_book import OF_A_SLIP, OF_THE_BOOK, ONCE

WEEK = datetime.timedelta(days=7)


def turned(wire: Any) -> Any:
    """A wire written from its other end."""
    if isinstance(wire, dict):
        return {**wire, "from": wire["to"], "to": wire["from"]} if "from" in wire and "to" in wire else wire
    return re.sub(r", ([^,]+?) to ([^,]+?)(?=,|$)", r", \2 to \1", wire, count=1)


def from_the_other_end(doc: Doc) -> Doc:
    wires = {name: turned(wire) for name, wire in (doc.get("wires") or {}).items()}
    rows = [{**row, **({"was": turned(row["was"])} if "was" in row else {})} for row in doc.get("changes") or ()]
    return {**doc, "wires": wires, **({"changes": rows} if rows else {})}


def in_inches(doc: Doc) -> Doc:
    return {**doc, "units": "inch" if doc.get("units", "mm") == "mm" else "mm"}


def a_week_later(value: Any) -> Any:
    """Every day that is written, seven days on."""
    if isinstance(value, dict):
        return {key: a_week_later(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [a_week_later(inner) for inner in value]
    return re.sub(r"\b20\d\d-\d\d-\d\d\b", lambda day: _later(day[0]), value) if isinstance(value, str) else value


def _later(day: str) -> str:
    try:
        return (datetime.date.fromisoformat(day) + WEEK).isoformat()
    except ValueError:  # a day that cannot be stays one
        return day


def changed_by(other: Callable[[Doc], Doc]) -> list[Case]:
    """The first job of each finding that this way of writing changes."""
    return of_each_code(lambda case: other(doc := parsed(case.text)) != doc)


def found(worked: JobResult) -> Counter[tuple[str, str, str, tuple[str, ...]]]:
    """Code, rank, entry and words of each finding: which end is named first follows the record, as do the units."""
    return Counter(
        (told.code, told.severity.word, told.entry, tuple(sorted(re.findall(r"[A-Za-z][\w.-]*", told.problem))))
        for told in worked.findings
    )


def same(one: JobResult, other: JobResult) -> None:
    assert figures(one) == pytest.approx(figures(other), nan_ok=True)
    assert found(one) == found(other)


@pytest.mark.parametrize("case", sampled(changed_by(from_the_other_end)[::2]))
def test_a_wire_may_be_written_from_either_end(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    one = work(tmp_path / "one", dumped(doc), case.today, case.photo_problems)
    same(one, work(tmp_path / "other", dumped(from_the_other_end(doc)), case.today, case.photo_problems))


@pytest.mark.parametrize("case", sampled(changed_by(in_inches)[::3]))
def test_units_change_what_is_printed_and_nothing_else(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    one = work(tmp_path / "one", dumped(doc), case.today, case.photo_problems)
    other = work(tmp_path / "other", dumped(in_inches(doc)), case.today, case.photo_problems)
    assert figures(one) == pytest.approx(figures(other), nan_ok=True)
    assert [(told.code, told.severity, told.entry, told.at) for told in one.findings] == [
        (told.code, told.severity, told.entry, told.at) for told in other.findings
    ]


@pytest.mark.parametrize("case", sampled(changed_by(a_week_later)[::2]))
def test_a_car_of_a_week_later_is_the_same_car(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    one = work(tmp_path / "one", dumped(doc), case.today, case.photo_problems)
    later = work(tmp_path / "later", dumped(a_week_later(doc)), case.today + WEEK, case.photo_problems)
    same(one, later)


# what is told of a name that is like another, or of one of two
OF_NAMES = OF_A_SLIP | OF_THE_BOOK | {"SPC03", "OPT03"}
NAMED_OTHERWISE = [
    case for case in changed_by(in_the_other_order) if case.name not in ONCE and case.code not in OF_NAMES
]


@pytest.mark.parametrize("case", sampled(NAMED_OTHERWISE[::2]))
def test_a_car_is_the_same_whichever_of_its_names_comes_first(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    one = work(tmp_path / "one", dumped(doc), case.today, case.photo_problems)
    other = work(tmp_path / "other", dumped(in_the_other_order(doc)), case.today, case.photo_problems)
    assert {in_this_order(key): value for key, value in figures(other).items()} == pytest.approx(
        figures(one), nan_ok=True
    )
    assert Counter(
        (told.code, told.severity, in_this_order(told.entry)) for told in other.findings if told.code not in OF_NAMES
    ) == Counter((told.code, told.severity, told.entry) for told in one.findings if told.code not in OF_NAMES)


@pytest.mark.parametrize("folder", EACH_DEMO)
def test_a_demo_car_may_be_written_otherwise(folder: Path, tmp_path: Path) -> None:
    doc = document(folder)
    one = work(tmp_path / "one", dumped(doc))
    other = work(tmp_path / "other", dumped(in_inches(from_the_other_end(doc))))
    assert figures(one) == pytest.approx(figures(other), nan_ok=True)
    assert len(figures(one)) > 60
