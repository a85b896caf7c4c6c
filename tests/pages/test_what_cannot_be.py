"""What cannot be so, as the pages say it: a day that does not count, a check that proves nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from types import ModuleType

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import changes, grounds, overview, readings, record
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.search import entries_of
from aswired.sheets.templates import environment, render
from aswired.site.theme import theme_dir
from tests.pages.small import TEXT, work

JOB = (
    TEXT.replace("FROM_TO_31", "from: F7, to: siren-plug.1")
    .replace("made: 2031-05-05 AK}", "made: 2031-05-05 AK, tested: 2131-05-06 JT}")
    .replace("L1: {at: lug,", "L1: {at: lug, painted: 2131-05-07 JT,")
    + """\
  - {id: C40, kind: verify, proves: [C14, C40], test: tug, made: 2031-05-09 AK}
  - {id: C41, kind: verify, proves: [C14], test: not measured, made: 2031-05-09 AK}
handed over: 2131-05-30
readings:
  - {id: R1, red: L1, black: battery-, read: 0.1 V, limit: 0.2 V, on: 1031-05-09 AK}
service:
  - {id: S1, on: 2131-05-20 AK, complaint: siren dead}
"""
)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("job"), JOB)


def words(made: JobResult, page: ModuleType) -> str:
    """The words of a page, what is marked up left out."""
    first, *_ = page.pages(frame_of(made, ShopFacts("shop", {})))
    body = render(environment(theme_dir()), first).partition("<main")[2].partition("</main")[0]
    return " ".join(re.sub(r"<[^>]+>", " ", body).split())


def lines(made: JobResult) -> Iterator[tuple[ModuleType, str]]:
    """A page and what has to stand on it."""
    yield changes, "Tested 2131-05-06 JT, not counted"
    yield record, "tested 2131-05-06 JT, not counted"
    yield record, "not yet (2131-05-30, not counted)"
    yield overview, "not yet (2131-05-30, not counted)"
    for page in (readings, record):
        yield page, "does not prove C40: a check that proves itself"
        yield page, "does not prove C14: nothing was measured or read"
        yield page, "1031-05-09, not counted"
        yield page, "2131-05-20, not counted"
    yield grounds, "painted 2131-05-07, not counted"
    yield readings, "R1 was read 1031-05-09, a day before 1900; it proves nothing and counts in no figure"
    yield readings, "visit S1 was 2131-05-20, a day that is still to come; its day is not known"
    yield changes, "tested 2131-05-06, a day that is still to come; the row does not count as tested"
    yield changes, "C41 was made, but nothing was measured or read; it proves nothing of C14"


def test_each_page_says_what_does_not_count(made: JobResult) -> None:
    told = {page: words(made, page) for page in (changes, grounds, overview, readings, record)}
    assert [(page.__name__, line) for page, line in lines(made) if line not in told[page]] == []


def test_what_is_written_is_found_all_the_same(made: JobResult) -> None:
    assert any("2131-05-06 JT" in entry.text for entry in entries_of(made) if entry.id == "C21")
