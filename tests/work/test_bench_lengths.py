"""Lengths as they were measured at the bench beside those that follow from others: which counts, and on which page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets.changes import change_rows
from aswired.sheets.extensions import extension_sheet
from aswired.sheets.worksheet import work_sheet
from findings.jobs import figure, work

HEAD = """job: Bench
units: mm
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cover: adhesive sleeve 40 mm}
fuses: {F1: {rating: 15 A}, F9: {rating: 5 A, use: spare}}
grounds: {G1: {back to: battery-}, L1: {back to: battery-}}
wires:
  W1: {colour: RD, size: 1.5 mm2, from: F1, to: lamp.1, length: 1000 mm}
  W2: {colour: BK, size: 1.5 mm2, from: lamp.2, to: G1, length: 900 mm}
  W4: {colour: YE, size: 1 mm2, from: neutral.1, to: FS5, length: 600 mm}
  W5: {colour: VT, size: 1 mm2, from: neutral.2, to: FS6, length: 700 mm}
changes:
"""
Bench = Callable[..., JobResult]


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    def made(*rows: str) -> JobResult:
        worked = work(tmp_path / "bench", HEAD + "".join(f"  - {{{row}}}\n" for row in rows))
        assert {result.id: result.why for result in worked.plan.rows if not result.counts} == {}
        return worked

    return made


def lengths(worked: JobResult, wire: str) -> dict[str, float | None]:
    """The end of the donor's wire, or the row that put the stretch in -> its conductor. [mm]"""
    return {
        stretch.origin or next(end for end in stretch.ends if "C1" not in end): stretch.length_mm
        for stretch in worked.plan.of_wire(wire)
    }


def booked(worked: JobResult) -> dict[tuple[str, str], tuple[float | None, ...]]:
    """Row and wire -> conductor before, put in, after, and what fell to the floor. [mm]"""
    return {
        (line.row, line.wire): (line.before_mm, line.piece_mm, line.after_mm, line.scrap_mm)
        for line in worked.plan.conductor_account
    }


# ---- shorten --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("asked", ["new reach: 700 mm", "gap: -300 mm"])
def test_what_was_really_taken_out_counts_and_not_what_the_lengths_ask_for(bench: Bench, asked: str) -> None:
    # by reach 1000 - 700 - 50 - 10 = 240 mm, by gap 300 - 50 - 10 = 240 mm; 250 mm were cut out: 1000 - 250 - 200 = 550
    row = f"id: C1, kind: shorten, wire: W1, end: lamp.1, {asked}, pigtail: 200 mm"
    computed, recorded = bench(row), bench(f"{row}, take out: 250 mm")
    assert lengths(computed, "W1") == {"F1": 560, "lamp.1": 200}
    assert lengths(recorded, "W1") == {"F1": 550, "lamp.1": 200}
    assert (booked(computed)["C1", "W1"], booked(recorded)["C1", "W1"]) == ((1000, 0, 760, 240), (1000, 0, 750, 250))
    # the sheet at the bench says what to cut out: as it was measured where somebody did
    for worked, out, kept in ((computed, "240 mm", "200 mm"), (recorded, "250 mm", "200 mm")):
        ((wire,),) = (step.wires for step in work_sheet(worked).steps)
        assert [(cut.length, cut.words) for cut in wire.cuts] == [(out, "comes out"), (kept, "stays on lamp.1")]
    assert figure(recorded, "C1-W1.out").value == 240  # told beside it, with its formula
    assert "250.0 mm counts" in figure(recorded, "C1-W1.out").note


def test_what_was_cut_off_before_a_new_terminal_counts_too(bench: Bench) -> None:
    # 1000 - 700 - 50 - 6 into the barrel = 244 mm; 260 mm were cut off: 740 mm are left
    row = "id: C1, kind: shorten, wire: W1, end: lamp.1, new reach: 700 mm, terminal: new"
    assert lengths(bench(row), "W1") == {"F1": 756}
    assert lengths(bench(f"{row}, take out: 260 mm"), "W1") == {"F1": 740}


# ---- extend, ground -------------------------------------------------------------------------------------------------
def test_what_falls_out_between_tail_and_pigtail_is_no_gain(bench: Bench) -> None:
    # 1000 - 500 - 300 = 200 mm fall out; the piece is 400 + 50 + 10 + 10 = 470 mm. The wire is 500 + 470 + 300 =
    # 1270 mm of conductor, 1250 mm from end to end once two laps of 10 mm lie double: 250 mm more than it was
    worked = bench(
        "id: C1, kind: extend, wire: W1, end: lamp.1, tail: 500 mm, pigtail: 300 mm, gap: 400 mm, piece: RD 1.5 mm2"
    )
    assert lengths(worked, "W1") == {"F1": 500, "C1": 470, "lamp.1": 300}
    assert booked(worked)["C1", "W1"] == (1000, 470, 1270, 200)
    assert sum(stretch.effective_mm or 0.0 for stretch in worked.plan.of_wire("W1")) == 1250
    assert [piece.gain_mm for piece in worked.pieces] == [250]
    (piece,) = extension_sheet(worked).pieces
    assert piece.gain == "250 mm"


def test_a_ground_lead_that_was_cut_back_gains_less_than_its_piece(bench: Bench) -> None:
    # 600 of 900 mm are kept; the piece is 300 + 50 + 10 + 6 = 366 mm, of which the lap and the ring take 16, and 300 mm
    # were cut off: 366 - 16 - 300 = 50 mm
    worked = bench("id: C1, kind: ground, wire: W2, end: G1, to: L1, tail: 600 mm, gap: 300 mm, piece: BK 1.5 mm2")
    assert lengths(worked, "W2") == {"lamp.2": 600, "C1": 366}
    assert booked(worked)["C1", "W2"] == (900, 366, 966, 300)
    assert [piece.gain_mm for piece in worked.pieces] == [50]


# ---- add ------------------------------------------------------------------------------------------------------------
def test_a_new_lead_of_which_nobody_wrote_the_wire_is_laid_and_told_as_not_recorded(bench: Bench) -> None:
    # its length is known all the same: 500 + 50 + 6 + 6 = 562 mm
    worked = bench("id: C1, kind: add, wire: W9, from: F9, to: L1, reach: 500 mm")
    (stretch,) = worked.plan.of_wire("W9")
    assert (stretch.length_mm, stretch.colour.known, stretch.size.number) == (562, False, None)
    assert [(f.code, f.entry) for f in worked.findings if f.code in ("COL01", "SIZ01")] == [("COL01", "C1-W9")]
    (line,) = extension_sheet(worked).pieces
    assert (line.size, line.length) == ("not read", "562 mm")
    (row,) = change_rows(worked)
    assert row.id == "C1"
    ((wire,),) = (step.wires for step in work_sheet(worked).steps)
    assert (wire.size, wire.piece and wire.piece.length) == ("not read", "562 mm")


# ---- join -----------------------------------------------------------------------------------------------------------
def test_the_copper_of_a_cut_end_in_a_splice_is_booked_to_its_own_wire(bench: Bench) -> None:
    # of W5 30 mm are left on FS6; W4 brings its 600 mm
    worked = bench(
        "id: C1, kind: remove, wire: W5, ends: {neutral.2: gone, FS6: capped 30 mm}",
        "id: C2, kind: join, ends: [C1-W5-FS6, W4 at neutral.1]",
    )
    assert booked(worked) == {
        ("C1", "W5"): (700, 0, 30, 670),
        ("C2", "W5"): (30, 0, 30, 0),
        ("C2", "W4"): (600, 0, 600, 0),
    }
    result = worked.plan.row("C2")
    assert result is not None
    assert set(result.touched_wires) == {"W4", "W5"}
    assert worked.plan.wires["W5"].rows == ("C1", "C2")


# ---- where a joint lies, what is refused, what lands where ----------------------------------------------------------
def test_the_joint_of_a_shortened_wire_lies_half_a_lap_inside_the_cut_that_was_measured(bench: Bench) -> None:
    row = "id: C1, kind: shorten, wire: W1, end: lamp.1, take out: 100 mm"
    from_plug, from_fuse = bench(f"{row}, pigtail: 200 mm"), bench(f"{row}, tail: 300 mm")
    joints = [worked.plan.joints["C1"] for worked in (from_plug, from_fuse)]
    assert [(joint.from_end, joint.cut_face_mm, joint.centre_mm) for joint in joints] == [
        ("lamp.1", 200, 195),
        ("F1", 300, 295),
    ]


def test_a_wire_that_is_a_little_too_short_for_a_lap_is_not_lapped(tmp_path: Path) -> None:
    # 1000 - 945 - 50 - 10 = -5 mm
    row = "  - {id: C1, kind: shorten, wire: W1, end: lamp.1, new reach: 945 mm, pigtail: 200 mm}\n"
    (result,) = work(tmp_path, HEAD + row).plan.rows
    assert (result.status, result.why) == ("refused", "the wire is 5 mm too short for this; it cannot be lapped")
    (fits,) = work(tmp_path / "fits", HEAD + row.replace("945", "940")).plan.rows
    assert fits.status == "in force"


def test_a_ring_that_moves_along_with_its_wire_costs_no_conductor(bench: Bench) -> None:
    moved = "id: C1, kind: ground, wire: W2, end: G1, to: L1"
    # the donor's ring stays on; a new one takes 6 mm into its barrel
    for ring, effective in (("", 900), (", ring: M6", 900), (', ring: "new, M6"', 894)):
        (stretch,) = bench(moved + ring).plan.of_wire("W2")
        assert (stretch.length_mm, stretch.effective_mm) == (900, effective), ring


def test_a_lead_between_two_ground_points_has_a_ring_on_each(bench: Bench) -> None:
    worked = bench("id: C1, kind: add, wire: W9, from: G1, to: L1, reach: 500 mm, piece: BK 2.5 mm2")
    assert [(ring.ground, ring.wires) for ring in worked.plan.rings if "W9" in ring.wires] == [
        ("G1", ("W9",)),
        ("L1", ("W9",)),
    ]


def test_of_a_row_of_two_wires_an_offcut_is_booked_to_the_wire_of_its_colour(bench: Bench) -> None:
    worked = bench(
        "id: C1, kind: remove, wires: {W4: {neutral.1: gone, FS5: flush}, W5: {neutral.2: gone, FS6: flush}}, "
        "reclaimed: {O7: VT 650 mm}"
    )
    # of the violet W5 650 of 700 mm are on the rack, of the yellow W4 nothing
    assert {line.wire: (line.reclaimed_mm, line.scrap_mm) for line in worked.plan.conductor_account} == {
        "W4": (0, 600),
        "W5": (650, 50),
    }


def test_what_a_row_used_of_an_offcut_stays_used_when_it_is_done_again(tmp_path: Path) -> None:
    head = HEAD.replace("wires:\n", "offcuts: {O1: RD 1.5 mm2 2000 mm}\nwires:\n", 1)
    row = "kind: extend, wire: W1, end: lamp.1, pigtail: 200 mm, piece: RD 1.5 mm2 from O1, made: 2031-05-03 AK"
    rows = f"  - {{id: C1, {row}, cut: 500 mm}}\n  - {{id: C2, {row}, cut: 600 mm, redoes: C1}}\n"
    worked = work(tmp_path, head + rows)
    assert worked.plan.offcuts["O1"].left_mm == 900  # 2000 - 500 - 600
    assert [piece.length_mm for piece in worked.pieces] == [600]


def test_a_splice_that_one_row_opens_for_two_wires_was_opened_once(tmp_path: Path) -> None:
    text = """
    job: Opened
    splices: {FS1: {}}
    wires:
      W1: {size: 1.0 mm2, from: FS1, to: a.1}
      W2: {size: 1.0 mm2, from: FS1, to: b.1}
      W3: {size: 1.0 mm2, from: FS1, to: c.1}
      W4: {size: 1.0 mm2, from: FS1, to: d.1}
    changes:
      - {id: C1, kind: remove, wires: {W1: {FS1: flush, a.1: gone}, W2: {FS1: flush, b.1: gone}}}
    """
    assert work(tmp_path, text).plan.nodes["FS1"].opened_by == ("C1",)


def test_an_offcut_that_two_rows_overdraw_is_told_at_the_row_that_took_too_much(tmp_path: Path) -> None:
    head = HEAD.replace("wires:\n", "offcuts: {O1: RD 1.5 mm2 900 mm}\nwires:\n", 1)
    rows = "".join(
        f"  - {{id: C{number}, kind: add, wire: W9{number}, from: FS{number}, to: G1, piece: RD 1.5 mm2 from O1, "
        "cut: 500 mm, made: 2031-05-03 AK}\n"
        for number in (1, 2)
    )
    worked = work(tmp_path, head + rows)
    (told,) = [finding for finding in worked.findings if finding.code == "OFF01"]
    assert (told.entry, told.problem) == ("C2-W92", "offcut O1 is overdrawn by 100 mm")  # 900 - 500 - 500
    assert told.at.line == worked.job.changes[1].at.line == worked.job.changes[0].at.line + 1


@pytest.mark.parametrize(("cut", "words"), [("500 mm", "longer"), ("440 mm", "shorter"), ("470 mm", "as computed")])
def test_a_piece_says_which_way_it_differs_from_its_computed_length(bench: Bench, cut: str, words: str) -> None:
    # 400 + 50 + 10 + 10 = 470 mm
    row = "id: C1, kind: extend, wire: W1, end: lamp.1, pigtail: 300 mm, gap: 400 mm, piece: RD 1.5 mm2"
    (piece,) = extension_sheet(bench(f"{row}, cut: {cut}")).pieces
    assert words in piece.apart
    assert ("30 mm" in piece.apart) == (words != "as computed")
