"""Lengths and places that a later row, a piece's slack or a missing length could turn, worked by hand.

The house: slack 50, laps of 10, 6 mm into a barrel. A lap counts half to either side (geometry of the joint, no outside
source).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.harness import CutPiece, Joint
from aswired.car.route import Position, Route
from aswired.figures.worked import JobResult
from findings.jobs import figure, work

HOUSE = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 5 A, fed: always}}
    wires:
"""
GREEN = "      W1: {colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}\n"
EXTENDED = "id: C1, kind: extend, plug: lamp, wire: W1, piece: BU 1 mm2, pigtail: 200 mm, gap: 400 mm"


def after(folder: Path, *rows: str, wires: str = GREEN, house: str = HOUSE) -> JobResult:
    told = "".join(f"      - {{{row}, made: 2031-05-03 AK}}\n" for row in rows)
    return work(folder, house + wires + "    changes:\n" + told)


def in_force(worked: JobResult, *rows: str) -> None:
    became = {row.id: row.status for row in worked.plan.rows}
    assert {row: became[row] for row in rows} == dict.fromkeys(rows, "in force")


def joint(worked: JobResult, id: str) -> Joint:
    return worked.plan.joints[id]


def piece(worked: JobResult, id: str) -> CutPiece:
    (found,) = [piece for piece in worked.pieces if piece.id == id]
    return found


def test_the_joint_is_measured_from_the_end_that_moved_after_the_other_one_did(tmp_path: Path) -> None:
    worked = after(
        tmp_path,
        "id: C1, kind: terminate, wire: W1, end: lamp.1, into: horn.1, piece: BU 1 mm2, tail: 600 mm, gap: 300 mm, "
        "terminal: new crimp",
        "id: C2, kind: terminate, wire: W1, end: F1, into: box.1, terminal: new crimp",
    )
    in_force(worked, "C1", "C2")
    # 600 stay on F1; there the terminal is cut off, 6 go into the new one; half a lap of 10 lies beyond the middle
    assert joint(worked, "C1").from_end == "box.1"
    assert joint(worked, "C1").centre_mm == pytest.approx(600 - 6 - 5)


def test_a_load_whose_tapped_lead_was_taken_out_again_has_an_open_feed(tmp_path: Path) -> None:
    house = HOUSE.replace("    wires:\n", "    loads: {horn: {between: horn.1 horn.2, draws: 1 A}}\n    wires:\n")
    worked = after(
        tmp_path,
        "id: C1, kind: tap, wire: W9, piece: BU 1 mm2, onto: W1, from: F1, tail: 300 mm, to: horn.1, reach: 500 mm",
        "id: C2, kind: remove, wire: W9, ends: {horn.1: pulled, C1: uncapped}",
        wires=GREEN + "      W2: {colour: BK, size: 1 mm2, from: horn.2, to: battery-, length: 900 mm}\n",
        house=house,
    )
    in_force(worked, "C1", "C2")
    feed = worked.circuits["horn"].feed
    assert (feed.state, feed.why) == ("open", "W9 was taken out by C2")


def test_a_lead_measured_by_itself_is_known_by_its_length_and_not_by_the_letters(tmp_path: Path) -> None:
    for number, reach in enumerate(("1 m", "1000 mm")):
        lead = f"id: C1, kind: add, wire: W9, piece: BU 1 mm2, from: F1, to: horn.1, reach: {reach}, cut: 1000 mm"
        worked = after(tmp_path / str(number), lead)
        # the lead was measured, not the way: for a way of 1000 it would be 1000 + 50 + 6 + 6 = 1062, and cut too short
        assert figure(worked, "C1-W9.cut").value is None
        assert piece(worked, "C1-W9").length_mm == 1000


def test_the_cut_of_the_far_splice_does_not_move_by_the_slack_of_the_piece(tmp_path: Path) -> None:
    worked = after(tmp_path, EXTENDED, wires=GREEN.replace(", length: 1200 mm", ""))
    # from the plug by tape: 200 pigtail + 400 gap; the 50 of slack lie in the piece and move no cut
    assert (joint(worked, "C1-W1-loom").cut_from, joint(worked, "C1-W1-loom").cut_face_mm) == ("lamp.1", 600)


def test_the_joint_of_a_lead_to_a_new_terminal_lies_half_a_lap_beyond_the_gap(tmp_path: Path) -> None:
    worked = after(
        tmp_path,
        "id: C1, kind: terminate, wire: W1, end: lamp.1, into: horn.1, piece: BU 1 mm2, tail: 600 mm, gap: 300 mm, "
        "terminal: new crimp",
        house=HOUSE.replace(", slack: 50 mm", ""),
    )
    # the cut face is 300 from the new terminal, the middle of the lap half of 10 on the far side of it
    assert joint(worked, "C1").other_end == "horn.1"
    assert joint(worked, "C1").other_mm == pytest.approx(300 + 5)


def test_what_is_missing_for_a_piece_names_no_length_that_the_route_gives(tmp_path: Path) -> None:
    house = HOUSE.replace(
        "    wires:\n",
        "    landmarks: {box: a, nose: b}\n    route: [{from: box, to: nose, length: 2000 mm}]\n"
        "    plugs: {lamp: {at: nose}}\n    wires:\n",
    ).replace("fed: always", "fed: always, in: box")
    row = "id: C1, kind: extend, plug: lamp, wire: W1, piece: BU 1 mm2, tail: 200 mm"
    worked = after(tmp_path, row, wires=GREEN.replace(", length: 1200 mm", ""), house=house)
    missing = [given.name for given in figure(worked, "C1-W1.cut").inputs if given.value is None]
    assert missing == ["gap", "pigtail"]  # 2000 of route and 200 of tail are recorded


def test_a_shortened_wire_is_not_taken_to_have_the_slack_that_was_planned(tmp_path: Path) -> None:
    worked = after(
        tmp_path,
        "id: C1, kind: extend, end: F1, wire: W1, piece: BU 1 mm2, pigtail: 200 mm, gap: 400 mm",
        "id: C2, kind: shorten, end: lamp.1, wire: W1, new reach: 900 mm, take out: 60 mm, pigtail: 200 mm",
    )
    in_force(worked, "C1", "C2")
    # C1 leaves 1200 - 200 on the lamp. C2 takes 60 out, its own lap takes 10, and half of C1's lap lies before the
    # middle of the splice: along the wire 1000 - 60 - 10 - 5. What came out was measured, so the plan (900 and a slack
    # of 50) does not hold: how much slack is in it nobody wrote, and the distance by tape is not known
    far = joint(worked, "C1-W1-lamp.1")
    assert far.centre_mm == pytest.approx(925)
    assert far.beside_mm is None


def test_a_far_splice_keeps_its_distance_from_the_connector_that_was_replaced(tmp_path: Path) -> None:
    worked = after(
        tmp_path, EXTENDED, "id: C2, kind: swap, plug: lamp, new plug: horn, cavities: {1: 2}, seen from: wire side"
    )
    in_force(worked, "C1", "C2")
    far = joint(worked, "C1-W1-loom")
    # pigtail 200 less half a lap, half a lap into the piece, the gap, half a lap beyond: 195 + 5 + 400 + 5
    assert (far.other_end, far.other_mm) == ("horn.2", pytest.approx(605))


def test_a_wire_passes_no_cavity_where_nobody_knows_into_which_it_went(tmp_path: Path) -> None:
    worked = after(
        tmp_path,
        "id: C1, kind: swap, plug: mid, new plug: mid-b, cavities: {3: unknown}, seen from: wire side",
        wires=GREEN.replace("length", "via: mid.3, length"),
    )
    in_force(worked, "C1")
    assert {stretch.via for stretch in worked.plan.of_wire("W1")} == {""}


def test_the_loose_end_of_a_wire_is_the_donors_own_and_not_one_that_a_row_cut(tmp_path: Path) -> None:
    worked = after(
        tmp_path,
        "id: C1, kind: cap, wire: W1, end: F1, stub: 50 mm, far: uncapped",
        "id: C2, kind: ground, wire: W1, end: loose, to: G1",
        wires="      W1: {colour: BK, size: 1 mm2, from: F1, to: loose, length: 1200 mm}\n",
        house=HOUSE.replace("    wires:\n", "    grounds: {G1: {back to: battery-}}\n    wires:\n"),
    )
    in_force(worked, "C1", "C2")
    assert "G1" in {end for stretch in worked.plan.of_wire("W1") for end in stretch.ends}


def test_the_slack_of_a_new_lead_is_not_counted_on_both_sides_of_a_later_cut(tmp_path: Path) -> None:
    worked = after(
        tmp_path,
        "id: C1, kind: add, wire: W9, piece: BU 1 mm2, from: F1, to: horn.1, reach: 1 m",
        "id: C2, kind: extend, end: horn.1, wire: W9, piece: BU 1 mm2, pigtail: 200 mm, gap: 400 mm",
    )
    in_force(worked, "C1", "C2")
    far = joint(worked, "C2-W9-F1")
    # by tape 195 + 5 + 400 + 5 from the horn; the slack of the piece alone moves nothing
    assert (far.other_end, far.other_mm) == ("horn.1", pytest.approx(605))


def test_a_place_told_from_the_far_end_of_an_unmeasured_leg_is_not_turned_round(tmp_path: Path) -> None:
    route = (
        "    landmarks: {a: one end, b: the other}\n    route: [{from: a, to: b, length: unknown}]\n"
        "    plugs: {lamp: {at: 300 mm from b towards a}, horn: {at: 300 mm from a towards b}}\n    wires:\n"
    )
    verify = "id: C1, kind: verify, proves: [C1]"
    route_of = Route(after(tmp_path, verify, house=HOUSE.replace("    wires:\n", route)).job)
    # 300 from b is the whole leg less 300 from a, and the whole is not known; from a it is as written
    assert route_of.of_end("lamp.1") == Position("", 0, None)
    assert route_of.of_end("horn.1") == Position("", 0, 300)


def test_a_splice_beyond_a_landmark_is_placed_on_a_leg_that_is_written_from_its_far_end(tmp_path: Path) -> None:
    route = (
        "    landmarks: {a: nose, b: bulkhead, c: tail}\n"
        "    route: [{from: a, to: b, length: 1000 mm}, {from: c, to: b, length: 2000 mm}]\n"
        "    plugs: {lamp: {at: a}}\n    wires:\n"
    )
    house = HOUSE.replace("    wires:\n", route).replace("fed: always", "fed: always, in: 500 mm from c towards b")
    worked = after(
        tmp_path,
        "id: C1, kind: shorten, end: lamp.1, wire: W1, take out: 100 mm, pigtail: 1405 mm",
        wires=GREEN.replace("1200", "3000"),
        house=house,
    )
    in_force(worked, "C1")
    made = joint(worked, "C1")
    assert (made.from_end, made.centre_mm) == ("lamp.1", 1400)  # 1405 less half a lap
    # 1000 from a to b, 400 past b towards c: 2000 - 400 from c
    (placed,) = worked.joints
    assert (placed.leg, placed.offset_mm) == (1, 1600)
