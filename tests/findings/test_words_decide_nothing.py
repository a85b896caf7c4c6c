"""No word of a message decides anything: with every message scrambled the same things are found.

Every problem and mend is turned round, each letter changed, at the moment it is made, and so is the reason of a path
that is not whole. What is found, its rank, entry and line, what is not examined, every figure and both verdicts stay.

What a figure lacks, what its inputs rest on and what covers a joint are turned round too, between brackets: turned back
on the finished pages, these are the pages of plain words.
"""

from __future__ import annotations

import datetime
import html
import inspect
import re
from collections import Counter
from collections.abc import Callable, Mapping
from difflib import unified_diff
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from aswired.car.loom import Refused
from aswired.car.trace import Path as Way
from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.network.copper import Part
from aswired.physics.figure import Input, Missing
from aswired.sheets import notes
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.pages import pages_of
from aswired.sheets.templates import environment, render
from aswired.sheets.text import source_text
from aswired.site.theme import theme_dir
from aswired.text.diagnostics import Fault, Finding, NotExamined
from aswired.text.one_line import Cover
from aswired.work import work_out
from tests.faulty import flatbed, taken_over, trail_truck
from tests.faulty.edits import mistaken
from tests.findings.jobs import DAY, Case
from tests.findings.test_findings_each_code import CASES

JOBS = Path(__file__).parents[2] / "jobs"
WORDS = {Finding: ("problem", "mend"), Fault: ("problem", "mend"), NotExamined: ("what",), Way: ("why",)}
MESSAGES: dict[type, tuple[str, ...]] = {**WORDS, Refused: ("problem", "mend")}


def scrambled(text: str) -> str:
    """No word and no name of the text is left, and two texts that differ still differ.

    >>> scrambled("'W1' is cut")
    'uxvxdx!xtxjx!x(x2xXx(x'
    """
    return "".join(f"{chr(ord(letter) + 1)}x" for letter in reversed(text))


@pytest.fixture
def scramble(monkeypatch: pytest.MonkeyPatch) -> Callable[[], None]:
    """From the call on, every message is made of scrambled words."""

    def begin() -> None:
        for made, fields in MESSAGES.items():
            change(monkeypatch, made, fields, scrambled)

    return begin


def change(monkeypatch: pytest.MonkeyPatch, made: type, fields: tuple[str, ...], how: Callable[[str], str]) -> None:
    """From now on, these fields of what is made have other words."""
    plain: Any = made.__init__  # type: ignore[misc]
    signature = inspect.signature(plain)

    def init(self: object, *args: Any, **kwargs: Any) -> None:
        bound = signature.bind(self, *args, **kwargs)
        for name in fields:
            if isinstance(bound.arguments.get(name), str):
                bound.arguments[name] = how(bound.arguments[name])
        plain(*bound.args, **bound.kwargs)

    monkeypatch.setattr(made, "__init__", init)


def found(worked: JobResult) -> tuple[object, ...]:
    """All that is found in a job, without a word of how it is told."""
    return (
        Counter((f.code, f.severity, f.entry, f.at.line, bool(f.accepted_by)) for f in worked.findings),
        Counter((unseen.subject, unseen.entry) for unseen in worked.not_examined),
        {figure.key: (figure.value, len(figure.missing)) for figure in worked.all_figures()},
        [(row.id, row.status, row.by) for row in worked.shown.rows],
        (worked.may_power, worked.may_hand_over),
    )


def held_to(text: Path, scramble: Callable[[], None], today: datetime.date, problems: Mapping[str, str]) -> int:
    """The same is found in a job folder with the messages scrambled; how many findings and figures that was."""

    def once() -> JobResult:
        read = read_job(text)
        assert read.job is not None
        return work_out(read.job, today, problems)

    plain = found(once())
    scramble()
    again = once()
    assert found(again) == plain
    assert all(finding.problem == "" or finding.problem.endswith("x") for finding in again.findings)
    return len(again.findings) + len(again.all_figures())


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES[::3], ids=lambda case: case.name)
def test_the_same_is_found_whatever_the_words(case: Case, tmp_path: Path, scramble: Callable[[], None]) -> None:
    (tmp_path / "job.yml").write_text(case.text, encoding="utf-8")
    assert held_to(tmp_path, scramble, case.today, case.photo_problems)


@pytest.mark.parametrize(
    "twin",
    [pytest.param(trail_truck, marks=pytest.mark.slow), flatbed, taken_over],
    ids=["trail-truck", "flatbed", "taken-over"],
)
def test_every_mistake_in_the_demo_cars_is_found_whatever_the_words(
    twin: ModuleType, tmp_path: Path, scramble: Callable[[], None]
) -> None:
    assert held_to(mistaken(twin.SLUG, twin.EDITS, tmp_path), scramble, DAY, {}) > 100


PARTS: dict[type, tuple[str, ...]] = {
    Missing: ("what", "part", "state", "why", "write"),
    Input: ("line", "times", "carries"),
    Part: ("source", "times"),
    Cover: ("text",),
}


def turned(text: str) -> str:
    """
    >>> turned("length"), turned_back(f"the {turned('length')} of {turned(turned('W1'))}")
    ('⟦htgnel⟧', 'the length of W1')
    """
    back = text[::-1].translate(str.maketrans("⟦⟧", "⟧⟦"))
    return f"⟦{back}⟧" if text else ""


def turned_back(page: str) -> str:
    """A page with all that stands between brackets turned back, the innermost first."""
    while "⟦" in page:
        page = re.sub("⟦([^⟦⟧]*)⟧", lambda found: found[1][::-1], page)
    return page


@pytest.mark.slow
@pytest.mark.parametrize("slug", ["taken-over", "flatbed", pytest.param("trail-truck", marks=pytest.mark.slow)])
def test_every_page_has_the_same_rows_whatever_the_words(slug: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Large letters and signs of units are made at the end, of the words as they are then."""
    monkeypatch.setattr(notes, "SHORT", 0)  # how long a note is decides whether it is printed twice

    def once() -> dict[str, str]:
        read = read_job(JOBS / slug)
        assert read.job is not None
        frame = frame_of(work_out(read.job, DAY, {}), ShopFacts("shop"))
        pages = {page.uri: render(environment(theme_dir()), page) for page in pages_of(frame)}
        return {uri: source_text(turned_back(html.unescape(page))).casefold() for uri, page in pages.items()}

    plain = once()
    for made, fields in PARTS.items():
        change(monkeypatch, made, fields, turned)
    again = once()
    assert {uri: unlike(page, again[uri]) for uri, page in plain.items() if page != again[uri]} == {}


def unlike(one: str, other: str) -> list[str]:
    """The lines of two pages that are not the same, a few of them."""
    return list(unified_diff(one.splitlines(), other.splitlines(), n=0, lineterm=""))[:6]
