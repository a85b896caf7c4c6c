"""Findings on the pages: grouped, each code leading to what it means, the accepted ones told; and the page of codes."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.checks.codes import all_codes, subjects, unjudged
from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.record.limits import TABLE
from aswired.sheets import codes, extensions, overview, record
from aswired.sheets.findings import grouped
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.overview import Against, Reason, against
from aswired.sheets.registry import CODES
from aswired.sheets.search import code_entries, fragment, words_of
from aswired.sheets.templates import environment, render
from aswired.site.theme import theme_dir
from aswired.text.diagnostics import Finding, Location, Severity
from aswired.work import work_out
from tests.crawl.tree import Element, parse
from tests.findings.jobs import work

JOB = """
job: Van
fuses: {F1: {rating: 5 A, fed: always}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: GN, size: 1.0 mm2, from: F1, to: horn.1}
  W3: {colour: GN, size: 1.0 mm2, from: F1, to: bell.1}
changes:
  - {id: C1, kind: remove, wire: W1, ends: {F1: uncapped, lamp.1: gone}, made: 2031-05-03 AK}
  - {id: C2, kind: remove, wire: W2, ends: {F1: uncapped, horn.1: gone}, made: 2031-05-03 AK}
  - {id: C3, kind: remove, wire: W3, ends: {F1: taped, bell.1: gone}, made: 2031-05-03 AK,
     accepted: {finding: END07, by: JT, why: the car stands in the shop}}
"""


@pytest.fixture(scope="module")
def van(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("van"), JOB)


def finding(code: str, severity: Severity, entry: str, mend: str = "mend it", by: str = "") -> Finding:
    why = "a reason" if by else ""
    return Finding(code, severity, Location("job.yml", 3), entry, f"what is wrong at {entry}", mend, by, why)


def test_findings_of_one_code_with_one_remedy_make_one_group_heaviest_first() -> None:
    given = [
        finding("REF02", Severity.ERROR, "P1"),
        finding("ROW12", Severity.WARNING, "C1"),
        finding("REF02", Severity.ERROR, "P2"),
        finding("REF02", Severity.ERROR, "P3", mend="another way"),
        finding("REF02", Severity.ERROR, "P4", by="AK"),
        finding("END01", Severity.STOP, "C2"),
    ]
    groups = grouped(given)
    assert [(group.code, [found.entry for found in group.findings]) for group in groups] == [
        ("END01", ["C2"]),
        ("REF02", ["P1", "P2"]),
        ("REF02", ["P3"]),
        ("REF02", ["P4"]),
        ("ROW12", ["C1"]),
    ]
    assert [group.says for group in groups] == ["", "An id that points to nothing", "", "", ""]
    assert [group.accepted_by for group in groups] == ["", "", "", "AK", ""]
    assert grouped([]) == ()


def test_what_stands_against_a_car_is_told_by_code_stops_first(van: JobResult) -> None:
    stop = Reason(Severity.STOP, "END01", ("C1-W1-F1", "C2-W2-F1"), 0)
    assert against(van).reasons[0] == stop
    errors = tuple(finding("REF02", Severity.ERROR, f"P{number}") for number in range(1, 7))
    notes = (finding("REF01", Severity.NOTE, "X"), finding("ROW12", Severity.WARNING, "C1"))
    many = worked_with(van, (*errors, finding("END01", Severity.STOP, "C9"), *notes))
    assert against(many) == Against(
        (
            Reason(Severity.STOP, "END01", ("C9",), 0),
            Reason(Severity.ERROR, "REF02", ("P1", "P2", "P3", "P4"), 2),
        ),
        0,
        "1 warning and 1 note",
    )
    codes_met = tuple(finding(f"ROW0{number}", Severity.ERROR, f"C{number}") for number in range(1, 8))
    assert against(worked_with(van, codes_met)).more == 3  # seven codes, four are named
    assert against(worked_with(van, ())) == Against((), 0, "")


def worked_with(worked: JobResult, findings: tuple[Finding, ...]) -> JobResult:
    return replace(worked, findings=findings)


def page(worked: JobResult, edition: str, uri: str = "index.html") -> Element:
    module = overview if uri == "index.html" else record
    (out,) = module.pages(frame_of(worked, ShopFacts(edition)))
    return parse(render(environment(theme_dir()), out))


def text_of(element: Element) -> str:
    return " ".join("".join(part if isinstance(part, str) else text_of(part) + " " for part in element.inside).split())


def test_the_overview_links_each_code_to_its_help_and_keeps_the_accepted_ones(van: JobResult) -> None:
    shown = page(van, "shop")
    links = [a.attributes["href"] for a in shown.all("a") if "codes.html#" in a.attributes.get("href", "")]
    assert links.count("../../codes.html#END01") == 2  # in the one line and in the table
    assert links.count("../../codes.html#END07") == 1  # among the accepted
    told = text_of(shown.first("main"))
    assert "1 finding let stand by JT" in told
    assert "the car stands in the shop" in told
    line = next(element for element in shown.all("div", class_="why"))
    assert text_of(line).startswith("What stands against it? Stop END01 C1-W1-F1 C2-W2-F1")


def test_the_owners_overview_says_it_without_codes(van: JobResult) -> None:
    shown = page(van, "owner")
    assert not [a for a in shown.all("a") if "codes.html" in a.attributes.get("href", "")]
    assert "END01" not in text_of(shown)
    assert "the car stands in the shop" in text_of(shown)


def test_notes_fold_and_a_thing_is_named_once_in_what_is_wrong_with_it(van: JobResult) -> None:
    """Seven places of a warning run in and open to the words; stops are never folded."""
    warnings = [finding("PHO03", Severity.WARNING, f"C{number}") for number in range(11, 18)]
    stops = [finding("END01", Severity.STOP, f"C{number}") for number in range(21, 28)]
    shown = page(worked_with(van, (*stops, *warnings, finding("SPL07", Severity.NOTE, "C31"))), "shop")
    folded = [" ".join(text_of(element).split()) for element in shown.all("details")]
    words, notes = folded
    assert words.startswith("Each in words what is wrong at C11")
    assert words.count("what is wrong at C1") == 7
    assert notes.startswith("1 note ")
    assert "what is wrong at C31" in notes
    told = text_of(shown.first("main"))
    assert "Splices without a photograph C11 C12 C13 C14 C15 C16 C17 Each in words" in told
    assert told.count("C27") == 1
    assert "C27" not in " ".join(folded)


def test_the_record_has_open_and_accepted_findings_with_who_and_why(van: JobResult) -> None:
    told = text_of(page(van, "shop", "record.html"))
    accepted = told[told.index("12 Findings that a named person lets stand") : told.index("13 What stands against")]
    assert "C3-W3-F1" in accepted
    assert "JT" in accepted
    assert "the car stands in the shop" in accepted
    standing = told[told.index("13 What stands against") : told.index("14 Later work")]
    assert "C1-W1-F1, C2-W2-F1" in standing
    assert standing.count("Cap it, and write the cap and its seal") == 1


def test_the_code_page_has_every_code_limit_and_what_is_not_judged() -> None:
    (out,) = codes.pages(ShopFacts("shop"))
    shown = parse(render(environment(theme_dir()), out))
    told = text_of(shown)
    ids = {element.attributes["id"] for element in shown.all() if "id" in element.attributes}
    assert {entry.code for entry in all_codes()} <= ids
    for entry in all_codes():
        assert " ".join(entry.means.split()) in told
    for limit in TABLE:
        assert limit.what in told
    for item in unjudged():
        assert item.what in told
    for title, _ in subjects():
        assert title in told
    assert tuple(codes.pages(ShopFacts("owner"))) == ()


def test_search_finds_a_code_on_that_page() -> None:
    entries = code_entries()
    assert [entry.id for entry in entries] == [entry.code for entry in all_codes()]
    assert {entry.uri for entry in entries} == {"codes.html"}
    (out,) = codes.pages(ShopFacts("shop"))
    finished = {out.uri: render(environment(theme_dir()), out).encode()}
    part = fragment(CODES.title, entries, finished, {CODES.uri: "Help"})
    assert '["codes.html","Help"]' in part
    assert "end01" in words_of("END01")
    assert "row08" in part.split('"words":"')[1].split('"')[0].split()


def test_a_word_that_is_no_code_is_told_as_written(tmp_path: Path) -> None:
    worked = work(tmp_path, JOB.replace("finding: END07, by", "finding: XYZ99, by"))
    told = text_of(page(worked, "shop", "record.html"))
    assert "Accepted by JT: XYZ99; the car stands in the shop" in told


@pytest.mark.parametrize(("split", "file"), [(False, "job.yml"), (True, "changes.yml")])
def test_a_hint_names_a_file_that_the_job_has(split: bool, file: str, tmp_path: Path) -> None:
    rows = "changes: [{id: C1, kind: cap, wire: W1, end: lamp.1, made: 2031-05-03 AK}]\n"
    head = 'job: Van\nwires: {W1: "GN, F1 to lamp.1"}\n'
    folder = tmp_path / "van"
    folder.mkdir()
    (folder / "job.yml").write_text(head if split else head + rows, encoding="utf-8")
    if split:
        (folder / "changes.yml").write_text(rows, encoding="utf-8")
    job = read_job(folder).job
    assert job is not None
    made = work_out(job, datetime.date(2031, 6, 1))
    (page,) = extensions.pages(frame_of(made, ShopFacts("shop")))
    assert f"Write it in <code>{file}</code>" in render(environment(theme_dir()), page)
