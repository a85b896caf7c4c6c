"""The sheet of bundles: what its rows say of a job worked out the real way, and that the page holds them."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import bundles as bundles_page
from aswired.sheets.bundles import bundle_sheet
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.templates import environment, render
from tests.figures.test_figures_bundles import FOUR, ONE, PLANNED, SEVEN, covered
from tests.findings.jobs import proved, work

THEME = Path(__file__).parents[2] / "site_theme"


def page(worked: JobResult) -> str:
    (only,) = bundles_page.pages(frame_of(worked, ShopFacts("shop")))
    return render(environment(THEME), only)


def test_each_wire_of_a_leg_stands_once_with_its_part_of_the_leg(tmp_path: Path) -> None:
    sheet = bundle_sheet(work(tmp_path, proved(SEVEN)))
    assert [leg.name for leg in sheet.legs] == ["dash to bulkhead", "bulkhead to nose", "nose to left", "nose to right"]
    middle = sheet.legs[1]
    assert [(run.run, run.wires, run.diameter) for run in middle.runs] == [
        ("0 to 300 mm", "7 wires", "6.0 mm"),
        ("300 mm to 900 mm", "6 wires", "6.0 mm"),
    ]
    assert {wire.wire: wire.run for wire in middle.wires} == {
        **{f"W{number}": "0 to 300 mm" for number in range(1, 8)},
        **{f"W{number}": "300 mm to 900 mm" for number in range(8, 14)},
    }
    assert {wire.run for wire in sheet.legs[0].wires} == {"whole leg"}
    assert {wire.outside for leg in sheet.legs for wire in leg.wires} == {"2.0 mm measured"}
    assert sheet.said == "Every outer diameter was measured."
    assert not sheet.planned


def test_a_wire_lengthened_on_the_leg_shows_both_its_colours(tmp_path: Path) -> None:
    (wire,) = [wire for wire in bundle_sheet(work(tmp_path, FOUR + ONE)).legs[-1].wires if wire.wire == "W1"]
    assert [colour.code for colour in wire.colours] == ["GN", "BU"]
    assert (wire.run, wire.outside) == ("whole leg", "2.1 mm")  # the piece was not measured: an estimate


def test_what_is_not_known_is_said_and_nothing_is_made_of_it(tmp_path: Path) -> None:
    text = SEVEN.replace(
        "      W2:", "      W30: {from: F1, to: FS1}\n      W31: {from: unknown, to: unknown}\n      W2:"
    )
    sheet = bundle_sheet(work(tmp_path, proved(text)))
    run = sheet.legs[0].runs[0]
    assert (run.diameter, run.unread) == ("not recorded", "without W30 at least 6.0 mm")
    assert run.more == "perhaps W31 too: way not recorded"
    assert (run.bore, run.conduit, run.bend, run.over_splice, run.bar_px) == ("", "", "", "", 0.0)
    assert sheet.off_route == ("W31",)


def test_a_wire_whose_piece_was_not_read_has_no_diameter_on_that_leg_and_keeps_it_elsewhere(tmp_path: Path) -> None:
    # its splices lie in the second of the two runs of this leg: 900 and 1110 mm from the lamp, 700 of them on the last
    row = ONE.replace("pigtail: 105 mm", "pigtail: 900 mm").replace("gap: 300 mm", "gap: 200 mm").replace("W1", "W20")
    more = "      W20: {colour: GN, size: 1.0 mm2, from: F1, to: lamp-left.9, outside: 2 mm}\n"
    sheet = bundle_sheet(work(tmp_path, SEVEN + more + row.replace("piece: BU 1.0 mm2", "piece: BU unknown")))
    outside = {leg.name: wire.outside for leg in sheet.legs for wire in leg.wires if wire.wire == "W20"}
    assert outside == {
        "dash to bulkhead": "2.0 mm measured",
        "bulkhead to nose": "outside not recorded",
        "nose to left": "2.0 mm measured",
    }


@pytest.mark.parametrize(
    ("bore", "fits"), [("5.9 mm", "too narrow"), ("6 mm", "wide enough"), ("unknown", "not judged")]
)
def test_a_hole_is_judged_by_its_bore(bore: str, fits: str, tmp_path: Path) -> None:
    text = SEVEN.replace("    wires:", f"    holes: {{bulkhead: {{bore: {bore}}}}}\n    wires:")
    worked = work(tmp_path, proved(text))
    (hole,) = bundle_sheet(worked).holes
    assert (hole.fits, hole.through, hole.grommet) == (fits, "not recorded", "not recorded")
    assert bool(hole.findings) == (fits == "too narrow")
    assert ("too narrow" in page(worked)) == (fits == "too narrow")


def test_tape_is_bought_by_the_tenth_of_a_metre(tmp_path: Path) -> None:
    worked = work(tmp_path, covered("cloth tape half lapped", ", tape width: 19 mm"))
    (wrap,) = bundle_sheet(worked).wraps  # 4094 mm
    assert (wrap.length, wrap.thickest, wrap.tape, wrap.missing) == ("2\u202f200 mm", "6.0 mm", "4.1 m", "")
    bare = work(tmp_path / "bare", covered("cloth tape half lapped", ""))
    assert "without tape width" in page(bare)


def test_planned_splices_have_their_places_on_the_page(tmp_path: Path) -> None:
    worked = work(tmp_path, PLANNED)
    (row,) = bundle_sheet(worked).staggers
    assert row.says == "There is room on this leg with 50 mm from one splice to the next."
    assert {shift.joint: shift.now for shift in row.shifts}["C1-W1-plug"] == "645 mm from nose"
    assert row.recuts == ("C1 keeps the limits with pigtail: 60 mm, stagger: 50 mm",)
    text = page(worked)
    for words in (row.says, row.recuts[0], "645 mm from nose", "with every planned row made"):
        assert words in text, words
    kept = work(tmp_path / "kept", PLANNED.replace("stagger: 20 mm", "stagger: 50 mm"))
    assert "6 planned splices: the limits are kept as they lie." in page(kept)


def test_a_job_without_a_route_says_what_is_missing(tmp_path: Path) -> None:
    alone = "    job: No route\n    wires: {W1: {from: F1, to: lamp.1}}\n"
    worked = work(tmp_path, proved(alone))
    assert bundle_sheet(worked).legs == ()
    assert "No bundle can be worked out" in page(worked)
    assert "Write the legs, and where plugs, fuses and grounds are, in <code>job.yml</code>." in page(worked)


def test_text_of_the_job_stands_on_the_page_as_text(tmp_path: Path) -> None:
    text = SEVEN.replace("front wall", '"<b>front</b> & wall"').replace(
        "    wires:", "    holes: {bulkhead: {bore: 9 mm}}\n    wires:"
    )
    words = page(work(tmp_path, proved(text)))
    assert "&lt;b&gt;front&lt;/b&gt; &amp; wall" in words
    assert "<b>front</b>" not in words


def test_a_hole_that_more_wires_may_pass_is_wide_enough_for_these_only(tmp_path: Path) -> None:
    text = SEVEN.replace("    wires:", "    holes: {bulkhead: {bore: 9 mm}}\n    wires:")
    more = "      W31: {from: unknown, to: unknown}\n"
    fits = [
        hole.fits
        for name, each in (("sure", text), ("perhaps", text + more))
        for hole in bundle_sheet(work(tmp_path / name, proved(each))).holes
    ]
    assert fits == ["wide enough", "wide enough for these"]
