"""Splices, extensions, grounds, fuses and the record: what their rows say of a job worked out the real way."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import record as record_page
from aswired.sheets.extensions import extension_sheet
from aswired.sheets.frame import PhotoFiles, ShopFacts, frame_of
from aswired.sheets.fuses import fuse_sheet
from aswired.sheets.grounds import ground_sheet
from aswired.sheets.record import record
from aswired.sheets.splices import splice_sheet
from aswired.sheets.templates import environment, render
from pages.handmade import worked
from pages.small import small

THEME = Path(__file__).parents[2] / "site_theme"


@pytest.fixture
def made(tmp_path: Path) -> JobResult:
    return small(tmp_path / "siren")


def test_a_piece_says_what_is_cut_and_what_it_gains(made: JobResult) -> None:
    # cut 400 gap + 50 slack + 2 x 10 overlap; the overlaps are taken up again
    piece = next(piece for piece in extension_sheet(made).pieces if piece.id == "C14-W31")
    assert (piece.length, piece.gain) == ("470 mm", "450 mm")
    assert piece.recorded == "not recorded"
    assert piece.apart == ""  # nothing was measured, so nothing is compared


def test_totals_leave_an_unrecorded_length_out_and_say_so(made: JobResult) -> None:
    sheet = extension_sheet(made)
    by_colour = {row.colour.code: row for row in sheet.by_colour}
    assert by_colour["BU"].length == "470 mm"
    assert by_colour["GY"].length == "not recorded"
    by_circuit = {row.name: row for row in sheet.by_circuit}
    assert by_circuit["siren"].length == "840 mm"  # 470 in the feed, 300 + 50 + 10 + 6 rounded up to 370 in the return
    assert by_circuit["siren"].pieces == 2


def test_a_splice_off_the_route_is_listed_as_not_drawn(made: JobResult) -> None:
    sheet = splice_sheet(made)
    assert sheet.rulers.unplaced == ("C30-W60-loom", "C30-W60-plug")
    drawn = [mark.id for ruler in sheet.rulers.drawn for mark in ruler.marks if mark.kind == "splice"]
    assert drawn == ["C14-W31-loom", "C14-W31-plug", "C21"]


def test_the_method_most_splices_have_is_said_once(made: JobResult) -> None:
    sheet = splice_sheet(made)
    assert sheet.usual == "lap, soldered; adhesive sleeve 40 mm"
    assert {row.how for row in sheet.rows} == {""}


def test_a_splice_shows_both_wires_with_where_they_lead(made: JobResult) -> None:
    row = next(row for row in splice_sheet(made).rows if row.id == "C14-W31-loom")
    assert {(end.colour.code, end.to) for end in row.wires} == {("VT/WH", "F7"), ("BU", "C14-W31-plug")}
    assert row.circuits == ("siren",)
    assert row.cut_mark == "1\u202f850 mm from F7"  # 2 000 - 150


def test_a_ground_point_counts_its_rings_and_an_unused_one_carries_no_number(made: JobResult) -> None:
    sheet = ground_sheet(made)
    used, unused = {row.name: row for row in sheet.rows}, {row.name: row for row in sheet.unused}
    assert used["L1"].ring_count == "1 of 4"
    assert used["L1"].amps == "5.0 A"
    assert used["L1"].loads == ("siren",)
    assert set(unused) == {"G2", "L2"}
    assert unused["L2"].amps == "not recorded"
    assert unused["L2"].where == "not recorded"  # written: unknown
    assert [name for name, _ in sheet.outside] == ["bell"]


def test_fuses_say_a_shared_place_once_and_a_spare_carries_no_number(made: JobResult) -> None:
    sheet = fuse_sheet(made)
    rows = {row.name: row for row in sheet.rows}
    assert sheet.usual_where == "fuse-box, lid of the fuse box"
    assert rows["F7"].where == ""
    assert rows["F7"].rating == "15 A"
    assert (rows["F7"].verdict, rows["F7"].amps) == ("suits the wire", "5.0 A")
    assert (rows["F9"].verdict, rows["F9"].amps) == ("spare", "")


def test_the_record_names_what_was_deleted_with_row_and_reason() -> None:
    gone = {item.name: item for item in record(worked()).deleted}
    named = {name: load for name, load in worked().loads.items() if load.verdict == "deleted"}
    assert set(named) <= set(gone)
    assert any(item.rows == ("C30",) and item.why == "no roof wiper on this body" for item in gone.values())
    assert "wire W60" not in gone  # told with its load, not a second time


def printed(of: JobResult, edition: str = "shop") -> str:
    photos = {"P2": PhotoFiles(1200, 900, ((1200, 900, "jobs/trail-truck/photos/P2.jpg"),), "jobs/x/P2-marked.jpg")}
    (page,) = record_page.pages(frame_of(of, ShopFacts(edition, photos)))
    return render(environment(THEME), page)


def test_the_record_prints_the_copy_with_marks_and_waits_for_no_scrolling() -> None:
    html = printed(worked())
    assert "P2-marked.jpg" in html
    assert 'loading="lazy"' not in html


def test_the_record_says_job_revision_and_moment_in_its_body() -> None:
    # older browsers drop the page's margin boxes
    job = worked().job
    body = printed(worked()).partition("<main")[2]
    plate = body[body.index('<dl class="plate">') : body.index("</dl>")]
    assert job.job in plate
    assert f"<dd>{job.revision}" in plate.replace("\n", "")
    assert "as of 12 Jun 2031" in plate


def test_the_owners_record_has_no_private_line() -> None:
    of = worked()
    of = replace(of, job=replace(of.job, private={"customer": "Quill Harbour"}))
    assert "Quill Harbour" in printed(of)
    assert "Quill Harbour" not in printed(of, "owner")


def test_private_lines_are_off_the_paper_until_the_switch_is_ticked() -> None:
    """That print.css does it is seen by printing (tests/browser); here: what it goes by."""
    of = worked()
    of = replace(of, job=replace(of.job, private={"customer": "Quill Harbour", "price": "nine hundred"}))
    html = printed(of)
    (switch,) = re.findall(r"<input[^>]*type=\"checkbox\"[^>]*>", html)
    assert 'id="with-private"' in switch
    assert 'autocomplete="off"' in switch  # else some browsers remember it
    assert "checked" not in switch
    assert "customer, price: <span" in html
    for value in ("Quill Harbour", "nine hundred"):
        assert (
            len(re.findall(rf'<div class="private"><dt>.*</dt><dd>{value}</dd></div>', html)) == html.count(value) == 1
        )
    rules = (THEME / "css" / "print.css").read_text(encoding="utf-8")
    on_paper = rules[rules.index("@media print") :]
    assert ".private { display: none !important; }" in on_paper
    assert "with-private" not in printed(of, "owner")
    assert "with-private" not in printed(replace(of, job=replace(of.job, private={})))


def test_the_record_leaves_lines_for_later_work_and_columns_for_later_readings() -> None:
    html = printed(worked())
    blank = html[html.index("Later work") :]
    assert len(re.findall(r"<tr role=\"row\"><td", blank)) == record_page.BLANK_LINES
    assert html.count(">20__<") >= record_page.BLANK_YEARS
