"""A splice is told from where it lies in the end: later rows that let wire in, take it out or move an end, by hand.

The house: slack 50, laps of 10, 6 mm into a barrel. A lap counts half to either side (geometry of the joint).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.harness import Joint
from aswired.figures.worked import JobResult
from aswired.sheets.extensions import extension_sheet
from findings.jobs import figure, work

CAR = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 5 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}
    changes:
      - {id: C1, kind: extend, plug: lamp, wire: W1, piece: BU 1 mm2, pigtail: 200 mm, gap: 400 mm, made: 2031-05-03 AK}
"""
# C1 by itself: piece 470, splices 195 from the plug and 995 from F1; by tape the far one is 195 + 5 + 400 + 5 = 605
AGAIN = "      - {id: C2, kind: extend, plug: lamp, wire: W1, piece: BU 1 mm2, SAID, made: 2031-05-04 AK}\n"
SHORTER = "      - {id: C2, kind: shorten, end: lamp.1, wire: W1, SAID, made: 2031-05-04 AK}\n"
MOVED = "      - {id: C2, kind: terminate, wire: W1, end: lamp.1, into: horn.1, SAID, made: 2031-05-04 AK}\n"


def later(folder: Path, row: str = "", said: str = "") -> JobResult:
    return work(folder, CAR + row.replace("SAID", said))


def joint(worked: JobResult, id: str) -> Joint:
    return worked.plan.joints[id]


def test_alone_a_row_s_own_distances_stand(tmp_path: Path) -> None:
    worked = later(tmp_path)
    near, far = joint(worked, "C1-W1-plug"), joint(worked, "C1-W1-loom")
    assert (near.from_end, near.centre_mm, near.beside_mm, near.over) == ("lamp.1", 195, 195, ())
    assert (far.from_end, far.centre_mm, far.other_end, far.other_mm) == ("F1", 995, "lamp.1", 605)


def test_a_piece_let_in_on_the_plug_side_moves_the_splice_away_from_the_plug(tmp_path: Path) -> None:
    worked = later(tmp_path, AGAIN, "pigtail: 80 mm, gap: 100 mm")
    near = joint(worked, "C1-W1-plug")
    # piece 100 + 50 + 20 = 170; along the wire 75 + 160 + (200 - 80 - 10) = 345; its slack of 50 moves nothing
    assert (near.from_end, near.centre_mm, near.beside_mm) == ("lamp.1", pytest.approx(345), pytest.approx(295))
    assert [mm for _, mm in near.over] == [110, 160, 75]
    # what the row itself says of its cut stays
    assert (near.cut_from, near.cut_face_mm) == ("lamp.1", 200)
    told = figure(worked, "C1-W1-plug.centre")
    assert sum(given.value for given in told.inputs if isinstance(given.value, float)) == pytest.approx(told.value)
    # the far splice of C1: 345 + 460 along the wire, less both slacks of 50
    assert joint(worked, "C1-W1-loom").other_mm == pytest.approx(705)
    assert joint(worked, "C1-W1-loom").centre_mm == 995  # from the fuse nothing changed


def test_a_piece_of_unknown_length_on_the_way_makes_the_distance_unknown(tmp_path: Path) -> None:
    near = joint(later(tmp_path, AGAIN, "pigtail: 80 mm"), "C1-W1-plug")
    assert (near.centre_mm, near.beside_mm) == (None, None)


def test_wire_taken_out_brings_the_splice_nearer(tmp_path: Path) -> None:
    near = joint(later(tmp_path, SHORTER, "pigtail: 80 mm, take out: 50 mm"), "C1-W1-plug")
    # 75 + (200 - 50 - 80 - 10) = 135; the row leaves no slack
    assert (near.centre_mm, near.beside_mm) == (pytest.approx(135), pytest.approx(135))


def test_a_new_terminal_takes_its_barrel_and_its_shortening_off_the_distance(tmp_path: Path) -> None:
    near = joint(later(tmp_path, SHORTER, "take out: 30 mm, terminal: new crimp"), "C1-W1-plug")
    # 200 - 30 - 6 in the new barrel, less half a lap
    assert near.centre_mm == pytest.approx(159)


def test_an_end_that_went_elsewhere_is_not_the_one_that_is_measured_from(tmp_path: Path) -> None:
    worked = later(tmp_path, MOVED, "terminal: new crimp")
    near = joint(worked, "C1-W1-plug")
    # the old terminal was cut off behind its barrel, 6 mm go into the new one: 200 - 6 - 5
    assert (near.from_end, near.centre_mm, near.beside_mm) == ("horn.1", pytest.approx(189), pytest.approx(189))
    assert joint(worked, "C1-W1-loom").other_end == ""  # measured from a plug that the wire has left


def test_a_tap_on_the_way_changes_no_distance(tmp_path: Path) -> None:
    for tail in ("tail: 60 mm", "tail: unknown"):
        row = (
            f"      - {{id: C2, kind: tap, wire: W9, piece: BU 1 mm2, onto: W1, from: lamp.1, {tail}, to: bell.1, "
            "cut: 300 mm, made: 2031-05-04 AK}\n"
        )
        near = joint(later(tmp_path / tail[-2:], row), "C1-W1-plug")
        assert (near.centre_mm, near.beside_mm) == (195, 195)


def test_a_lead_on_the_makers_splice_counts_to_the_middle_of_it_and_gains_nothing(tmp_path: Path) -> None:
    row = (
        "      - {id: C2, kind: add, wire: W9, piece: BU 1 mm2, from: FS1, to: bell.1, cut: 150 mm, "
        "made: 2031-05-04 AK}\n"
    )
    worked = work(tmp_path, CAR.replace("    wires:\n", "    splices: {FS1: {}}\n    wires:\n") + row)
    (lead,) = worked.plan.of_wire("W9")
    # 150 cut, 6 in the barrel of the new terminal, half a lap of 10 beyond the middle of the splice
    assert lead.effective_mm == pytest.approx(139)
    told = {piece.wire: piece.gain for piece in extension_sheet(worked).pieces}
    # the other piece made a wire longer: 470 - 10 - 10
    assert told == {"W1": "450 mm", "W9": "a new wire"}


def test_a_wire_brought_into_a_splice_is_one_of_its_wires(tmp_path: Path) -> None:
    rows = """
      - {id: C2, kind: terminate, wire: W2, end: horn.1, into: C1-W1-plug, made: 2031-05-04 AK}
      - {id: C3, kind: remove, wire: W1, ends: {F1: pulled, lamp.1: gone}, made: 2031-05-05 AK}
    """
    car = CAR.replace(
        "    changes:", "      W2: {colour: VT, size: 1 mm2, from: F1, to: horn.1, length: 900 mm}\n    changes:"
    )
    left = joint(work(tmp_path, car + rows), "C1-W1-plug")
    # all of W1 is out: W2 alone is left in the splice, and lamp.1 is no end to measure it from any more
    assert left.wires == ("W2",)
    assert "lamp.1" not in (left.from_end, left.other_end)
