"""Words for what nobody wrote, read or measured are told from others by their type: nothing compares the words."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from jinja2 import nodes

from aswired.files import read_job
from aswired.physics.figure import Figure
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.jobs import summarise, to_json
from aswired.sheets.pages import pages_of
from aswired.sheets.templates import environment, render
from aswired.sheets.text import Printed, done, is_unsaid, listing, printed, size_named
from aswired.site.theme import theme_dir
from aswired.text.one_line import Done
from aswired.text.unsaid import DATE_NOT_NOTED, NOT_READ, NOT_RECORDED
from aswired.work import work_out
from tests.findings.jobs import DAY, work

PACKAGE = Path(__file__).resolve().parents[2] / "builder" / "aswired"
JOBS = Path(__file__).resolve().parents[2] / "jobs"
ASKED = (ast.Call, ast.Assign, ast.Compare, ast.MatchValue)  # what is looked at here


def nodes_of(tree: ast.AST) -> list[ast.AST]:
    return [node for node in ast.walk(tree) if isinstance(node, ASKED)]


SOURCES = {
    path.relative_to(PACKAGE).as_posix(): nodes_of(ast.parse(path.read_text(encoding="utf-8")))
    for path in sorted(PACKAGE.rglob("*.py"))
}


def makes_unsaid(node: ast.AST) -> bool:
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Unsaid"


def all_words() -> frozenset[str]:
    """Every text that the program makes an `Unsaid` of."""
    calls = [node for found in SOURCES.values() for node in found if makes_unsaid(node)]
    given = [call.args[0] for call in calls if isinstance(call, ast.Call)]
    return frozenset(str(word.value) for word in given if isinstance(word, ast.Constant))


def all_names() -> frozenset[str]:
    """The names of those that have one: `NOT_RECORDED`."""
    assigned = [
        target
        for found in SOURCES.values()
        for node in found
        if isinstance(node, ast.Assign) and makes_unsaid(node.value)
        for target in node.targets
    ]
    return frozenset(target.id for target in assigned if isinstance(target, ast.Name))


WORDS, NAMES = all_words(), all_names()


def in_template(source: str) -> list[str]:
    """The lines on which an expression of a template holds such words: only the text around it may."""
    tree = environment(theme_dir()).parse(source)
    return [f"{found.lineno}: {found.value}" for found in tree.find_all(nodes.Const) if found.value in WORDS]


def in_python(found: Iterable[ast.AST]) -> Iterator[str]:
    """The lines on which a comparison or a `case` asks for such words. A row of the change list has a `status`, which
    is one word of a closed list and no text of a page."""
    for node in found:
        asked: list[ast.AST] = []
        if isinstance(node, ast.Compare) and not (isinstance(node.left, ast.Attribute) and node.left.attr == "status"):
            asked = [node]
        elif isinstance(node, ast.MatchValue):
            asked = [node.value]
        for part in (part for each in asked for part in ast.walk(each)):
            if (isinstance(part, ast.Constant) and part.value in WORDS) or (
                isinstance(part, ast.Name) and part.id in NAMES
            ):
                yield f"{part.lineno}: {ast.unparse(part)}"


def test_the_words_are_found() -> None:
    assert {"not recorded", "not read", "not measured", "not judged"} <= WORDS
    assert {"NOT_RECORDED", "NOT_READ", "NOT_MEASURED", "NOT_JUDGED"} <= NAMES


@pytest.mark.parametrize(
    "source",
    [
        "{% if r.rise == 'not recorded' %}x{% endif %}",
        "{% if text in ('not measured', 'not judged') %}x{% endif %}",
        "{{ p.value(w.left or 'not recorded') }}",
    ],
)
def test_a_template_that_asks_for_the_words_is_told(source: str) -> None:
    assert in_template(source)


@pytest.mark.parametrize(
    "source",
    [
        "usual == NOT_RECORDED",
        "place != 'not recorded'",
        "text in ('not read', 'open')",
        "match text:\n    case 'not read':\n        pass",
    ],
)
def test_code_that_asks_for_the_words_is_told(source: str) -> None:
    assert list(in_python(nodes_of(ast.parse(source))))


def test_no_template_and_no_module_asks_for_the_words() -> None:
    templates = {path.name: in_template(path.read_text(encoding="utf-8")) for path in theme_dir().glob("*.html")}
    assert len(templates) > 20
    told = {name: list(in_python(found)) for name, found in SOURCES.items()} | templates
    assert {name: lines for name, lines in told.items() if lines} == {}


def test_words_keep_their_type_where_they_stand_alone() -> None:
    unknown = Figure("F1.total", "total", None, "A", "", "")
    assert is_unsaid(printed(unknown))
    assert is_unsaid(listing([NOT_READ]))
    assert is_unsaid(listing([]))
    assert is_unsaid(done(Done("yes", None, "")))
    assert is_unsaid(size_named(None))


def test_a_summary_that_is_kept_between_builds_holds_no_such_words(tmp_path: Path) -> None:
    summary = summarise(work(tmp_path, "job: Van\nchanges: [{id: C1, kind: remove, wire: W1}]\n"))
    assert [key for key, value in to_json(summary).items() if is_unsaid(value)] == []
    assert (summary.donor, summary.last_day) == ("", "")


def test_what_is_more_than_the_words_is_said() -> None:
    assert not is_unsaid("not recorded")  # somebody wrote it
    assert not is_unsaid(Printed("0.39 V", "horn.drop"))
    assert not is_unsaid(listing([NOT_READ, "18 AWG"]))
    assert not is_unsaid(done(Done("yes MB", None, "MB")))
    assert done(Done("yes MB", None, "MB")) == f"{DATE_NOT_NOTED}, MB"


@pytest.mark.parametrize(
    "slug", ["taken-over", *(pytest.param(slug, marks=pytest.mark.slow) for slug in ("flatbed", "trail-truck"))]
)
def test_no_words_lose_their_type_on_the_way_to_a_page(slug: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever a template asks about and reads like such words, is of their type. In the demo jobs nobody wrote them
    himself."""
    asked: list[object] = []

    def noting(text: object) -> bool:
        asked.append(text)
        return is_unsaid(text)

    monkeypatch.setitem(environment(theme_dir()).tests, "unsaid", noting)
    read = read_job(JOBS / slug)
    assert read.job is not None
    for page in pages_of(frame_of(work_out(read.job, DAY, {}), ShopFacts("shop"))):
        render(environment(theme_dir()), page)
    assert sum(map(is_unsaid, asked)) > 20
    assert [text for text in asked if text in WORDS and not is_unsaid(text)] == []
    assert NOT_RECORDED in asked
