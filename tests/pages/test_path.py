"""A path is read downwards: what follows what, in which colour, where, and what the donor had beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets.circuits import circuit_rows, circuit_sheet
from aswired.sheets.drawings.path import Band, Line, PathRow, Point
from pages.small import small


@pytest.fixture
def made(tmp_path: Path) -> JobResult:
    return small(tmp_path / "siren")


def said(row: PathRow) -> str:
    if row.side:
        return row.side
    item = row.now
    if item is None:
        return "-"
    return item.name if isinstance(item, Point) else f"{item.wire} {item.line.colour.code if item.line.colour else ''}"


def point(rows: tuple[PathRow, ...], name: str) -> Point:
    return next(row.now for row in rows if isinstance(row.now, Point) and row.now.name == name)


SIREN = [
    "Feed",
    "feed of F7: ignition",
    "F7",
    "W31 VT/WH",
    "C14-W31-loom",
    "W31 BU",
    "C14-W31-plug",
    "W31 VT/WH",
    "siren-plug.1",
    "Load",
    "siren",
    "Return",
    "siren-plug.2",
    "W52 BN",
    "C21",
    "W52 BK",
    "L1",
    " unknown",  # the cable from the stud to the battery: its colour is in no file
    "battery-",
]


@pytest.mark.parametrize("ends", ["from: F7, to: siren-plug.1", "from: siren-plug.1, to: F7"])
def test_a_path_runs_from_the_feed_to_battery_negative_however_its_wires_were_written(
    ends: str, tmp_path: Path
) -> None:
    rows = circuit_sheet("siren", small(tmp_path, ends)).path
    assert [said(row) for row in rows] == SIREN


def test_a_colour_change_is_seen_at_its_bead(made: JobResult) -> None:
    bead = point(circuit_sheet("siren", made).path, "C14-W31-loom")
    assert bead.symbol == "bead"
    assert bead.above is not None
    assert bead.below is not None
    assert bead.above.colour is not None
    assert bead.below.colour is not None
    assert (bead.above.colour.code, bead.below.colour.code) == ("VT/WH", "BU")


def test_each_splice_says_its_place_by_tape_measure(made: JobResult) -> None:
    # the wire is 2 000 mm: 1 500 to the takeout and 500 of the 900 to the plug; pigtail 150, overlap 10 mm, so the loom
    # side's centre is 2 000 - 150 - 5 = 1 845 mm from the fuse, 345 behind the takeout; the plug side's 150 - 5 mm
    rows = circuit_sheet("siren", made).path
    assert point(rows, "C14-W31-loom").where == "345 mm from split towards siren-plug"
    assert point(rows, "C14-W31-plug").where == "145 mm from siren-plug towards split"


def test_a_stretch_is_as_long_as_the_tape_measures_it_between_centres(made: JobResult) -> None:
    # cut 400 + 50 + 10 + 10 = 470 mm, less half an overlap at either end: 460
    bands = [row.now for row in circuit_sheet("siren", made).path if isinstance(row.now, Band)]
    assert [band.length for band in bands[:3]] == ["1\u202f845 mm", "460 mm", "145 mm"]


def test_the_donors_wire_runs_on_beside_what_was_put_in(made: JobResult) -> None:
    rows = circuit_sheet("siren", made).path
    level = {row.now.name: row.was for row in rows if isinstance(row.now, Point)}
    assert isinstance(level["siren-plug.1"], Point)
    assert level["siren-plug.1"].name == "siren-plug.1"
    assert level["C14-W31-loom"] is None
    beside = next(row.was_line for row in rows if isinstance(row.now, Point) and row.now.name == "C14-W31-loom")
    assert isinstance(beside, Line)
    assert beside.colour is not None
    assert beside.colour.code == "VT/WH"


def test_a_side_that_was_not_examined_says_so_and_no_line_leads_out_of_it(made: JobResult) -> None:
    rows = circuit_sheet("bell", made).path
    state = next(row.state for row in rows if row.side == "Return")
    assert state.startswith("not examined")
    last = rows[-1].now
    assert isinstance(last, Point)
    assert last.name == "old-plug.2"
    assert last.below is None
    assert last.above == Line(None)  # from the load's inside


def test_what_is_not_recorded_of_a_circuit_is_words_and_never_zero(made: JobResult) -> None:
    row = next(row for row in circuit_rows(made) if row.load == "bell")
    assert (row.current, row.drop_alone, row.drop_together, row.verdict) == (*["not recorded"] * 3, "not judged")
    assert circuit_sheet("bell", made).length == "not recorded"


def test_the_short_account_names_fuse_splices_and_ground_in_their_order(made: JobResult) -> None:
    short = circuit_sheet("siren", made).short
    assert [line.id for line in short] == ["F7", "C14-W31-loom", "C14-W31-plug", "C21", "L1"]
    assert short[0].where == "fuse-box, lid of the fuse box"


def test_what_this_job_put_in_is_marked_and_the_rest_is_not(made: JobResult) -> None:
    bands = [row.now for row in circuit_sheet("siren", made).path if isinstance(row.now, Band)]
    assert [band.origin for band in bands] == ["", "C14", "", "", "C21", ""]
