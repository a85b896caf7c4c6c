"""What is not known, what is not written and what is nought are three things: rows of lengths, worked by hand.

The house: slack 50, laps of 10, 6 mm into a barrel. Extension: e = gap + slack + 10 + 10. New terminal: e = gap + slack
+ 10 + 6. (Geometry of the joint, no outside source.)
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.harness import CutPiece, NodeKind
from aswired.figures.worked import JobResult
from aswired.sheets.changes import change_rows
from aswired.sheets.steps import bench_of, step_of
from findings.jobs import figure, work

HEAD = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 5 A, fed: always}}
    grounds: {L1: {back to: battery-}}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}
      W2: {colour: VT, size: 1 mm2, from: F1, to: lamp.2, length: 1200 mm}
      W5: {colour: BK, size: 2 mm2, from: zone.2, to: loose, length: 300 mm}
      W6: {colour: BK, size: 2 mm2, from: zone.3, to: loose}
      W7: {colour: BK, size: 2 mm2, from: zone.4, to: unknown, length: 300 mm}
    changes:
"""
TWO = """
      - {id: C1, kind: extend, plug: lamp, wires: {W1: BU 1 mm2, W2: RD 1 mm2}, SAID, made: 2031-05-03 AK}
"""
ONE = """
      - {id: C1, kind: extend, plug: lamp, wire: W1, piece: BU 1 mm2, SAID, made: 2031-05-03 AK}
"""


def row(folder: Path, text: str, said: str = "", head: str = HEAD) -> JobResult:
    return work(folder, head + text.replace("SAID", said))


def piece(worked: JobResult, id: str) -> CutPiece:
    (found,) = [piece for piece in worked.pieces if piece.id == id]
    return found


def lengths(worked: JobResult, wire: str) -> dict[str, float | None]:
    """Stretch, told by its two ends -> millimetres of conductor."""
    return {" to ".join(stretch.ends): stretch.length_mm for stretch in worked.plan.of_wire(wire)}


# ---- several wires, both lengths ------------------------------------------------------------------------------------
BOTH = "tail: 600 mm, pigtail: 200 mm, reach: 2830 mm"


def asked(worked: JobResult) -> list[tuple[str, str]]:
    return [(f.problem, f.mend.partition(",")[0]) for f in worked.findings if f.code == "LEN04"]


def test_several_wires_with_both_lengths_are_asked_for_their_stagger(tmp_path: Path) -> None:
    worked = row(tmp_path, TWO, BOTH)
    said = "C1 has no stagger: where W2 is cut is not said"
    assert asked(worked) == [(said, "Write stagger: 0 mm where all are cut alike")]
    # whatever the stagger: gap 2830 - 600 - 200 = 2030, piece 2030 + 50 + 10 + 10, and 1200 - 800 falls out
    assert piece(worked, "C1-W2").length_mm == pytest.approx(2100)
    assert piece(worked, "C1-W2").gain_mm == pytest.approx(2100 - 10 - 10 - 400)
    # where it is cut is not known: neither half, nor the place of a splice
    assert set(lengths(worked, "W2").values()) == {None, 2100}
    assert worked.plan.joints["C1-W2-plug"].centre_mm is None


def test_cut_alike_both_wires_keep_their_two_lengths(tmp_path: Path) -> None:
    worked = row(tmp_path, TWO, BOTH + ", stagger: 0 mm")
    # gap 2830 - 600 - 200 = 2030; piece 2030 + 50 + 10 + 10 = 2100 for both; 1200 - 600 - 200 = 400 falls out of each
    for wire in ("W1", "W2"):
        assert piece(worked, f"C1-{wire}").length_mm == pytest.approx(2100)
        assert piece(worked, f"C1-{wire}").gain_mm == pytest.approx(2100 - 10 - 10 - 400)
        assert sorted(filter(None, lengths(worked, wire).values())) == pytest.approx([200, 600, 2100])


def test_with_a_stagger_the_pieces_are_of_one_length(tmp_path: Path) -> None:
    worked = row(tmp_path, TWO, BOTH + ", stagger: 50 mm")
    # the second wire: pigtail 250, tail 550, so gap 2830 - 550 - 250 = 2030 again, and 1200 - 800 = 400 falls out
    assert piece(worked, "C1-W1").length_mm == piece(worked, "C1-W2").length_mm == pytest.approx(2100)
    assert sorted(filter(None, lengths(worked, "W2").values())) == pytest.approx([250, 550, 2100])
    assert worked.plan.joints["C1-W2-plug"].centre_mm == pytest.approx(245)  # 250 less half a lap
    assert worked.plan.joints["C1-W2-loom"].centre_mm == pytest.approx(545)


def test_a_stagger_that_nobody_knows_is_an_answer(tmp_path: Path) -> None:
    worked = row(tmp_path, TWO, BOTH + ", stagger: unknown")
    assert asked(worked) == []
    assert piece(worked, "C1-W2").length_mm == pytest.approx(2100)
    assert set(lengths(worked, "W2").values()) == {None, 2100}


def test_wires_cut_once_need_no_place_of_their_cut_for_the_piece(tmp_path: Path) -> None:
    worked = row(tmp_path, TWO, "pigtail: 200 mm, reach: 2830 mm")
    # cut once, so all 1200 stay: gap 2830 - 1200 = 1630, piece 1700 for both
    for wire in ("W1", "W2"):
        assert piece(worked, f"C1-{wire}").length_mm == pytest.approx(1700)
    assert len(asked(worked)) == 1
    assert worked.plan.joints["C1-W2-plug"].centre_mm is None


# ---- one wire -------------------------------------------------------------------------------------------------------
def test_a_pigtail_that_is_not_known_is_not_the_rest_of_the_wire(tmp_path: Path) -> None:
    unknown = row(tmp_path / "unknown", ONE, "pigtail: unknown, tail: 600 mm, gap: 400 mm")
    assert sorted(filter(None, lengths(unknown, "W1").values())) == pytest.approx([470, 600])
    assert piece(unknown, "C1-W1").gain_mm is None  # what fell out between the two cuts is not known
    silent = row(tmp_path / "silent", ONE, "tail: 600 mm, gap: 400 mm")
    # one cut: 1200 - 600 stays on the plug, nothing falls out, and the gain is 470 - 20
    assert sorted(filter(None, lengths(silent, "W1").values())) == pytest.approx([470, 600, 600])
    assert piece(silent, "C1-W1").gain_mm == pytest.approx(450)


def test_what_fell_out_of_a_wire_of_unknown_length_is_not_nought(tmp_path: Path) -> None:
    head = HEAD.replace("to: lamp.1, length: 1200 mm", "to: lamp.1")
    both = row(tmp_path / "both", ONE, "pigtail: 200 mm, tail: 600 mm, gap: 400 mm", head)
    assert piece(both, "C1-W1").gain_mm is None
    one = row(tmp_path / "one", ONE, "pigtail: 200 mm, gap: 400 mm", head)
    assert piece(one, "C1-W1").gain_mm == pytest.approx(450)


def test_a_gap_that_is_not_known_is_not_taken_from_the_route(tmp_path: Path) -> None:
    route = HEAD.replace(
        "    wires:\n",
        "    landmarks: {box: a, nose: b}\n    route: [{from: box, to: nose, length: 1500 mm}]\n"
        "    plugs: {lamp: {at: nose}}\n    wires:\n",
    ).replace("fed: always", "fed: always, in: box")
    silent = row(tmp_path / "silent", ONE, "pigtail: 200 mm", route)
    # one cut of 1200: tail 1000; the route wants 1500, so gap 300 and piece 370
    assert piece(silent, "C1-W1").length_mm == pytest.approx(370)
    for reach in ("", ", reach: 1500 mm"):  # no measured reach takes its place either
        unknown = row(tmp_path / "unknown", ONE, f"pigtail: 200 mm, gap: unknown{reach}", route)
        assert piece(unknown, "C1-W1").length_mm is None


def test_two_parts_at_one_landmark_are_not_nought_apart(tmp_path: Path) -> None:
    head = HEAD.replace(
        "    wires:\n",
        "    landmarks: {box: a, nose: b}\n    route: [{from: box, to: nose, length: 1500 mm}]\n"
        "    plugs: {lamp: {at: nose}, horn: {at: nose}}\n    wires:\n",
    )
    lead = "      - {id: C1, kind: add, wire: W9, piece: BK 1 mm2, from: horn.1, to: lamp.5SAID}\n"
    assert piece(row(tmp_path / "route", lead, "", head), "C1-W9").length_mm is None
    # 250 + 50 + 6 + 6
    reach = row(tmp_path / "reach", lead, ", reach: 250 mm", head)
    assert piece(reach, "C1-W9").length_mm == pytest.approx(312)


def test_a_cut_that_nobody_knows_is_not_the_computed_one(tmp_path: Path) -> None:
    silent = row(tmp_path / "silent", ONE, "pigtail: 200 mm, gap: 400 mm")
    assert 470 in lengths(silent, "W1").values()
    unknown = row(tmp_path / "unknown", ONE, "pigtail: 200 mm, gap: 400 mm, cut: unknown")
    assert figure(unknown, "C1-W1.cut").value == pytest.approx(470)  # what its lengths ask for
    assert piece(unknown, "C1-W1").length_mm is None
    assert sorted(filter(None, lengths(unknown, "W1").values())) == pytest.approx([200, 1000])


def test_the_far_joint_has_no_place_by_tape_where_the_slack_is_not_known(tmp_path: Path) -> None:
    head = HEAD.replace("to: lamp.1, length: 1200 mm", "to: lamp.1")
    known = row(tmp_path / "known", ONE, "pigtail: 200 mm, gap: 400 mm, cut: 500 mm", head).plan.joints["C1-W1-loom"]
    # along the wire: 200 - 5 + (500 - 10) = 685 from the plug; the piece asked for 470, so its slack is 80
    assert known.centre_mm == pytest.approx(685)
    assert known.beside_mm == pytest.approx(605)
    said = "pigtail: 200 mm, gap: 400 mm, cut: 500 mm, slack: unknown"
    unknown = row(tmp_path / "unknown", ONE, said, head).plan.joints["C1-W1-loom"]
    assert unknown.centre_mm == pytest.approx(685)
    assert unknown.beside_mm is None


SHORTER = """
      - {id: C1, kind: shorten, wire: W1, end: lamp.1, new reach: 900 mm, SAID, made: 2031-05-03 AK}
"""


def test_the_recorded_take_out_counts_and_one_that_is_not_known_is_not_the_computed_one(tmp_path: Path) -> None:
    # x = 1200 - 900 - 50 - 10 = 240
    computed = row(tmp_path / "computed", SHORTER, "pigtail: 200 mm")
    assert figure(computed, "C1-W1.out").value == pytest.approx(240)
    assert sorted(filter(None, lengths(computed, "W1").values())) == pytest.approx([200, 1200 - 240 - 200])
    recorded = row(tmp_path / "recorded", SHORTER, "pigtail: 200 mm, take out: 250 mm")
    assert sorted(filter(None, lengths(recorded, "W1").values())) == pytest.approx([200, 1200 - 250 - 200])
    unknown = row(tmp_path / "unknown", SHORTER, "pigtail: 200 mm, take out: unknown")
    assert sorted(filter(None, lengths(unknown, "W1").values())) == pytest.approx([200])


def test_halves_that_do_not_agree_with_what_comes_out_are_refused(tmp_path: Path) -> None:
    # 1200 - 240 = 960 is left: 200 + 760 agrees, 200 + 700 does not
    right = row(tmp_path / "right", SHORTER, "pigtail: 200 mm, tail: 760 mm")
    assert not [finding for finding in right.findings if finding.code == "ROW01"]
    wrong = row(tmp_path / "wrong", SHORTER, "pigtail: 200 mm, tail: 700 mm")
    (refused,) = [finding for finding in wrong.findings if finding.code == "ROW01"]
    assert refused.problem.startswith("tail and pigtail of W1 are 900 mm together")
    assert refused.problem.endswith("once 240 mm are out is 960 mm")


@pytest.mark.parametrize(("said", "told"), [("", "240 mm"), (", take out: 250 mm", "250 mm"),
                                             (", take out: unknown", "not recorded")])  # fmt: skip
def test_the_work_sheet_takes_out_what_the_row_says(tmp_path: Path, said: str, told: str) -> None:
    worked = row(tmp_path, SHORTER.replace(", made: 2031-05-03 AK", ""), "pigtail: 200 mm" + said)
    (change,) = worked.job.changes
    (wire,) = step_of(change, bench_of(worked)).wires
    assert [cut.length for cut in wire.cuts if cut.words == "comes out"] == [told]


# ---- one end moves --------------------------------------------------------------------------------------------------
GROUND = """
      - {id: C1, kind: ground, wire: WIRE, end: END, to: L1, gap: 400 mm, piece: BK 2 mm2, SAID, made: 2031-05-03 AK}
"""


def moved(folder: Path, wire: str, end: str, said: str = "ring: new") -> JobResult:
    return row(folder, GROUND.replace("WIRE", wire).replace("END", end), said)


def test_a_kept_part_that_is_not_known_is_not_the_whole_wire(tmp_path: Path) -> None:
    whole = moved(tmp_path / "whole", "W7", "unknown")
    assert sorted(filter(None, lengths(whole, "W7").values())) == pytest.approx([300, 400 + 50 + 10 + 6])
    unknown = moved(tmp_path / "unknown", "W7", "unknown", "pigtail: unknown")
    assert sorted(filter(None, lengths(unknown, "W7").values())) == pytest.approx([466])
    assert piece(unknown, "C1-W7").gain_mm is None


def test_a_ground_that_begins_at_a_loose_pigtail_is_computed_and_named(tmp_path: Path) -> None:
    loose = moved(tmp_path, "W5", "loose")
    # all 300 mm stay; e = 400 + 50 + 10 + 6
    assert lengths(loose, "W5") == pytest.approx({"C1 to zone.2": 300, "C1 to L1": 466})
    assert change_rows(loose)[0].what == "Ground of W5, cut off before, brought to L1"
    assert "W5-loose" not in loose.plan.nodes
    assert "W5-loose" in loose.donor.nodes
    untraced = moved(tmp_path / "untraced", "W7", "unknown")
    assert change_rows(untraced)[0].what == "Ground of W7 moved from where it was, which was not traced, to L1"


def test_a_loose_end_is_its_wire_s_own_and_leads_to_nothing(tmp_path: Path) -> None:
    worked = row(tmp_path, "      - {id: C1, kind: cap, wire: W6, end: loose, cover: none, made: 2031-05-03 AK}\n")
    donor = worked.donor
    assert donor.nodes["W5-loose"].kind is NodeKind.STUB
    assert [stretch.wire for stretch in donor.at_node["W5-loose"]] == ["W5"]
    assert [stretch.wire for stretch in donor.at_node["W6-loose"]] == ["W6"]
    open_ends = {item.entry: item.what for item in worked.not_examined if item.subject == "cut ends"}
    assert open_ends == {"W5-loose": "cut off before; whether it is covered is not recorded"}  # W6 was looked at
    assert [f.entry for f in worked.findings if f.code == "END02"] == ["W6-loose"]  # nothing feeds it


def test_the_name_of_a_loose_end_is_not_a_splice_that_wires_meet_in(tmp_path: Path) -> None:
    head = HEAD.replace("from: zone.3, to: loose", "from: zone.3, to: W6-loose")
    own = row(tmp_path / "own", "      - {id: C1, kind: verify, proves: [C1]}\n", "", head)
    assert own.donor.nodes["W6-loose"].kind is NodeKind.STUB
    other = row(tmp_path / "other", "      - {id: C1, kind: verify, proves: [C1]}\n", "", head.replace("W6-", "W5-"))
    assert [stretch.wire for stretch in other.donor.at_node["W5-loose"]] == ["W5"]
    (told,) = [finding for finding in other.findings if finding.code == "REF06"]
    assert told.problem == "W6 ends in 'W5-loose', the loose end of another wire, which nothing holds"


def test_two_cavities_that_nobody_noted_are_not_one(tmp_path: Path) -> None:
    head = HEAD.replace("to: lamp.1", 'to: "lamp.?"').replace("to: lamp.2", 'to: "lamp.?"')
    worked = row(tmp_path, "      - {id: C1, kind: verify, proves: [C1]}\n", "", head)
    assert not set(worked.donor.of_wire("W1")[0].ends) & set(worked.donor.of_wire("W2")[0].ends) - {"F1"}


def test_an_end_put_where_nobody_knows_joins_no_other(tmp_path: Path) -> None:
    rows = """
      - {id: C1, kind: terminate, wire: W1, end: lamp.1, into: unknown, made: 2031-05-03 AK}
      - {id: C2, kind: terminate, wire: W2, end: lamp.2, into: unknown, made: 2031-05-03 AK}
    """
    worked = row(tmp_path, rows)
    ends = {wire: [stretch.ends for stretch in worked.plan.of_wire(wire)] for wire in ("W1", "W2")}
    assert ends == {"W1": [("F1", "unknown W1")], "W2": [("F1", "unknown W2")]}
    refused = row(tmp_path / "loose", rows.replace("into: unknown", "into: loose"))
    assert {finding.code for finding in refused.findings if finding.entry in ("C1", "C2")} == {"ROW01"}


# ---- a lead cut and measured as one piece ---------------------------------------------------------------------------
LEAD = "      - {id: C1, kind: add, wire: W9, piece: BK 1 mm2, from: horn.1, to: lamp.5, SAID, made: 2031-05-03 AK}\n"


def test_a_lead_that_was_measured_as_it_was_cut_contradicts_nothing(tmp_path: Path) -> None:
    whole = row(tmp_path / "whole", LEAD, "cut: 500 mm, reach: 500 mm")
    assert "LEN01" not in {finding.code for finding in whole.findings}
    assert piece(whole, "C1-W9").length_mm == pytest.approx(500)
    assert figure(whole, "C1-W9.cut").value is None  # how far its ends are apart in the car is not recorded
    # measured in the car: 500 + 50 + 6 + 6 = 562 is wanted, 510 was cut
    apart = row(tmp_path / "apart", LEAD, "cut: 510 mm, reach: 500 mm")
    assert "LEN01" in {finding.code for finding in apart.findings}


@pytest.mark.parametrize(("cut_mm", "told"), [(2500, False), (1545, False), (1540, True)])
def test_a_lead_of_which_only_its_cut_is_written_may_take_a_longer_way(tmp_path: Path, cut_mm: int, told: bool) -> None:
    head = HEAD.replace(
        "    wires:\n",
        "    landmarks: {box: a, nose: b}\n    route: [{from: box, to: nose, length: 1500 mm}]\n"
        "    plugs: {lamp: {at: nose}, horn: {at: box}}\n    wires:\n",
    )
    # by the route 1500 + 50 + 6 + 6 = 1562; more than 20 mm short of that is told
    worked = row(tmp_path, LEAD, f"cut: {cut_mm} mm", head)
    assert ("LEN01" in {finding.code for finding in worked.findings}) is told


def test_a_loose_end_is_brought_to_its_place_not_extended(tmp_path: Path) -> None:
    extend = GROUND.replace("kind: ground", "kind: extend").replace("to: L1, ", "pigtail: 100 mm, ")
    worked = row(tmp_path, extend.replace("WIRE", "W5").replace("END", "loose"), "note: slip")
    (refused,) = [finding for finding in worked.findings if finding.code == "ROW01"]
    assert refused.problem == "nothing holds the loose end of W5: with a piece let in it would still be loose"
    assert refused.mend.endswith("kind ground, terminate or join")


def test_a_pigtail_is_what_stays_on_a_plug(tmp_path: Path) -> None:
    # W5 keeps 100 of its 300 mm on its plug; e = 400 + 50 + 10 + 6
    on_plug = moved(tmp_path / "plug", "W5", "loose", "pigtail: 100 mm")
    assert sorted(filter(None, lengths(on_plug, "W5").values())) == pytest.approx([100, 466])
    # of W1 the fuse keeps the wire
    on_fuse = row(tmp_path / "fuse", GROUND.replace("WIRE", "W1").replace("END", "lamp.1"), "pigtail: 100 mm")
    (refused,) = [finding for finding in on_fuse.findings if finding.code == "ROW01"]
    assert refused.problem == "a pigtail is what stays on a plug; the end that stays, 'F1', is none"
    assert refused.mend == "Write tail: with what stays on F1"
    tail = row(tmp_path / "tail", GROUND.replace("WIRE", "W1").replace("END", "lamp.1"), "tail: 900 mm")
    assert sorted(filter(None, lengths(tail, "W1").values())) == pytest.approx([466, 900])


def test_a_length_that_is_said_to_be_unknown_is_shown_as_that(tmp_path: Path) -> None:
    (changed,) = change_rows(row(tmp_path, ONE, "pigtail: unknown, gap: 400 mm"))
    told = {fact.name: fact.value for fact in changed.facts}
    assert told["pigtail, moved end to cut face"] == "not known"
    assert "tail, other end to cut face" not in told  # nobody wrote one


@pytest.mark.parametrize("said", ["end: F1", "end: F1, tail: 100 mm"])
@pytest.mark.parametrize("name", ["unknown", '"?"', "loose"])
def test_a_fuse_without_a_name_is_asked_for_it(tmp_path: Path, name: str, said: str) -> None:
    worked = row(tmp_path, f"      - {{id: C1, kind: protect, wire: W1, fuse: {name}, {said}}}\n")
    (refused,) = [finding for finding in worked.findings if finding.code == "ROW01"]
    assert refused.problem == "the row does not name its fuse"


def test_only_a_lead_is_measured_by_itself(tmp_path: Path) -> None:
    # of an extension cut and reach are two things: gap 1600 - 600 - 600 = 400, piece 470, though 1600 was really cut
    (extended,) = change_rows(row(tmp_path / "extend", ONE, "pigtail: 600 mm, reach: 1600 mm, cut: 1600 mm"))
    assert "reach between the two ends" in {fact.name for fact in extended.facts}
    (lead,) = change_rows(row(tmp_path / "lead", LEAD, "cut: 500 mm, reach: 500 mm"))
    assert "length of the lead, as measured" in {fact.name for fact in lead.facts}
    (unread,) = change_rows(row(tmp_path / "unread", LEAD, "cut: unknown, reach: unknown"))
    assert "length of the lead, as measured" not in {fact.name for fact in unread.facts}
