"""The sheet of material against sums worked out by hand from the job's text."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.sleeves import bore_on_hand, least_bore_mm
from aswired.figures.worked import JobResult
from aswired.sheets import materials
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.materials import MaterialSheet, material_sheet
from aswired.sheets.search import entries_of
from aswired.sheets.templates import environment, render
from aswired.text.units import read_length
from pages.small import work

THEME = Path(__file__).parents[2] / "site_theme"
TEXT = """\
job: Van
units: mm
usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
landmarks: {box: lid, nose: takeout}
route: [{from: box, to: nose, length: 1800 mm}]
plugs: {lamp: {ways: 4}, horn: {ways: 2}}
grounds: {L1: {stud: M6, back to: battery-}, L2: {back to: battery-}}
offcuts:
  O1: BU 1.5 mm2 3 m
wires:
  W1: {colour: GN, size: 1.5 mm2, from: F1, to: lamp.1, length: 2 m, outside: 2.5 mm}
  W2: {colour: RD, size: 1.0 mm2, from: F2, to: lamp.2, length: 2 m, outside: 2.0 mm}
  W3: {colour: BK, size: 1.5 mm2, from: lamp.3, to: L2, length: 2 m}
  W4: {colour: VT, size: unknown, from: F3, to: horn.1}
changes:
  - {id: C1, kind: extend, plug: lamp, gap: 430 mm, pigtail: 100 mm, stagger: 50 mm,
     wires: {W1: BU 1.5 mm2, W2: BU 1.5 mm2}, batch: [sleeve 4471, reel 9], made: 2031-05-03 AK}
  - {id: C2, kind: extend, wire: W1, end: F1, gap: 330 mm, pigtail: 200 mm, piece: BU 1.5 mm2}
  - {id: C3, kind: extend, wire: W2, end: F2, gap: 130 mm, pigtail: 200 mm, piece: BU 1.5 mm2, cover: none}
  - {id: C4, kind: extend, wire: W4, plug: horn, pigtail: 100 mm, piece: BU 1.5 mm2, batch: sleeve 4471}
  - {id: C5, kind: ground, wire: W3, end: L2, to: L1, gap: 134 mm, pigtail: 100 mm, piece: BU 1.5 mm2 from O1,
     ring: new}
  - {id: C6, kind: add, wire: W9, from: L1, to: horn.2, piece: BK 1.0 mm2, reach: 938 mm, terminal: blade 6.3 mm,
     ring: with C5}
  - {id: C7, kind: cover, from: box, to: nose, cover: cloth tape}
"""


@pytest.fixture
def made(tmp_path: Path) -> JobResult:
    return work(tmp_path / "van", TEXT)


@pytest.fixture
def sheet(made: JobResult) -> MaterialSheet:
    return material_sheet(made)


def test_new_wire_is_added_up_by_colour_and_size_apart_from_what_is_made_and_from_offcuts(sheet):
    # C2: 330 + 50 + 10 + 10 = 400; C3: 130 + 70 = 200; C4 has no gap. C6: 938 + 50 + 6 + 6 = 1000
    planned = {(need.colour.code, need.size): (need.length, need.pieces, need.missing) for need in sheet.planned.wire}
    assert planned == {
        ("BU", "1.5 mm²"): ("600 mm", ("C2-W1", "C3-W2", "C4-W4"), "and 1 piece of unrecorded length"),
        ("BK", "1.0 mm²"): ("1\u202f000 mm", ("C6-W9",), ""),
    }
    # C1: two pieces of 430 + 50 + 10 + 10 = 500
    assert [(need.colour.code, need.length) for need in sheet.made.wire] == [("BU", "1\u202f000 mm")]
    # C5: 134 + 50 + 10 + 6 = 200, cut from O1
    assert [(cut.name, cut.planned, cut.made) for cut in sheet.offcuts] == [("O1", (("C5-W3", "200 mm"),), ())]


def test_a_sleeve_goes_over_the_thicker_of_the_wires_that_meet(sheet):
    # the piece is 1.5 mm2, 2.7 mm at most (2.4 + 0.3 of the thin-wall table); W1 is 2.5 mm, W2 2.0 mm as measured
    # 1.2 x 2.7 = 3.24, to the next half millimetre 3.5
    found = {need.bore: need for need in sheet.made.sleeves}
    assert set(found) == {"3.5 mm"}
    assert found["3.5 mm"].number == 4
    assert found["3.5 mm"].together == "160 mm"  # four of 40 mm


def test_a_bare_joint_takes_no_sleeve_and_a_wire_of_unread_size_leaves_the_bore_open(sheet):
    over = {name: need for need in sheet.planned.sleeves for name in need.over}
    assert not any(name.startswith("C3") for name in over)
    assert over["C4-W4-plug"].bore == "not recorded"
    assert over["C2-W1-F1"].bore == "3.5 mm"


def test_least_bore_by_hand(made):
    ends = {stretch.name: stretch for stretch in made.plan.stretches}
    donor = [stretch for stretch in ends.values() if stretch.wire == "W1" and not stretch.origin]
    assert least_bore_mm(made.job, donor[:1]) == pytest.approx(1.2 * 2.5)
    assert least_bore_mm(made.job, [*donor[:1]] * 3) == pytest.approx(1.2 * 2 * 2.5)  # two lie side by side
    assert least_bore_mm(made.job, []) is None
    bores = tuple(read_length(text) for text in ("3 mm", "4 mm", "unknown", "6 mm"))
    assert [bore_on_hand(bores, least) for least in (3.0, 3.1, 6.1)] == [3.0, 4.0, None]


def test_rings_by_the_hole_or_the_stud_and_by_every_wire_in_them(sheet):
    (ring,) = sheet.planned.rings  # C6 goes into the ring of C5; no hole is written, the stud is M6
    assert (ring.hole, ring.number, ring.rows) == ("M6", 1, ("C5",))
    assert sorted(ring.wire.split(" with ")) == ["1.0 mm²", "1.5 mm²"]
    assert sheet.made.rings == ()


def test_terminals_in_words_and_wraps_with_their_run(sheet):
    assert [(need.words, need.number, need.rows) for need in sheet.planned.terminals] == [("blade 6.3 mm", 1, ("C6",))]
    assert [(wrap.row, wrap.length, wrap.tape) for wrap in sheet.planned.wraps] == [
        ("C7", "1\u202f800 mm", "not recorded")  # width and overlap of the tape are not written
    ]


def test_a_batch_leads_to_its_rows_here_and_in_the_search(made, sheet):
    assert {batch.number: [row for row, _ in batch.rows] for batch in sheet.batches} == {
        "sleeve 4471": ["C1", "C4"],
        "reel 9": ["C1"],
    }
    found = [(entry.id, entry.anchor) for entry in entries_of(made) if entry.id == "sleeve 4471"]
    assert found == [("sleeve 4471", "C1"), ("sleeve 4471", "C4")]


def test_a_row_that_is_not_for_this_car_takes_no_material(tmp_path):
    other = TEXT.replace("units: mm", "options: {seats: {is: two, could be: [four]}}").replace(
        "cover: none}", "cover: none, only if: seats is four}"
    )
    sheet = material_sheet(work(tmp_path / "van", other))
    blue = next(need for need in sheet.planned.wire if need.colour.code == "BU")
    assert blue.pieces == ("C2-W1", "C4-W4")


def test_the_sheet_says_what_is_missing_where_nothing_is_planned(tmp_path):
    text = "job: Van\nwires: {W1: GN, F1 to lamp.1}\n".replace("GN, F1", '"GN, F1').replace("lamp.1}", 'lamp.1"}')
    found = work(tmp_path / "van", text + "changes:\n  - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}\n")
    (page,) = materials.pages(frame_of(found, ShopFacts("shop")))
    html = render(environment(THEME), page)
    for said in ("No planned row takes new material", "Nothing is cut from an offcut", "No batch number is recorded"):
        assert said in html
    assert "Used already" not in html
