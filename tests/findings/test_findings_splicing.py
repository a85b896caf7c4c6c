"""Checks on how the work was done: what is told once, what is not judged, and which limit counts."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.text.diagnostics import Finding
from tests.findings.cases_pieces import pinned, terminated, through
from tests.findings.cases_process import again, lamp, readings, wrapped
from tests.findings.cases_splices import ENDS, USUAL, fanned_out, made, three
from tests.findings.jobs import work

LONG = "kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2"


def told(folder: Path, text: str, code: str) -> list[Finding]:
    return [finding for finding in work(folder, text).findings if finding.code == code]


HABIT = (
    USUAL
    + ENDS
    + """
    changes:
      - {id: C1, kind: join, ends: [W1 at FS1, W2 at FS1]}
      - {id: C2, kind: join, ends: [W3 at FS2, W4 at FS2]}
    """
)


def test_the_lap_of_the_house_is_no_slip_of_a_row(tmp_path: Path) -> None:
    # 10 mm on 1.0 mm2: six diameters are 6 x sqrt(4 / pi) = 6.77 mm; it is stated once, under usual:
    assert not told(tmp_path / "house", HABIT, "SPL09")
    own = HABIT.replace("W2 at FS1]", "W2 at FS1], overlap: 10 mm").replace("W4 at FS2]", "W4 at FS2], overlap: 10 mm")
    (note,) = told(tmp_path / "rows", own, "SPL09")
    assert note.severity.word == "note"
    assert note.at.text.strip().startswith("- {id: C1,")
    assert "2 joints" in note.problem
    assert "C1, C2" in note.problem
    assert "10 to 13 mm" in note.mend


def test_a_lap_that_is_too_short_is_told_of_the_house_too(tmp_path: Path) -> None:
    # 16 mm2: three diameters are 3 x sqrt(4 x 16 / pi) = 13.5 mm, the house laps 10 mm
    (warning,) = told(tmp_path, HABIT.replace("1.0 mm2", "16 mm2"), "SPL09")
    assert warning.severity.word == "warning"


def test_the_limit_of_the_job_counts(tmp_path: Path) -> None:
    lap = made("lap, soldered", "1.5 mm2", "8.4 mm")
    assert told(tmp_path / "table", lap, "SPL09")
    assert not told(tmp_path / "job", lap.replace("job: Splices", "job: Splices\n    limits: {lap most: 7}"), "SPL09")
    thick = made("lap, soldered", "2.5 mm2")
    assert told(tmp_path / "thick", thick, "SPL07")
    own = thick.replace("job: Splices", "job: Splices\n    limits: {solder largest: 2.5 mm2}")
    assert not told(tmp_path / "own", own, "SPL07")
    # a leg marked hot is 105 C; cross-linked bears 125 C, and a job may hold it to less, not to more
    hot = through("zone: hot", " | insulation: cross-linked")
    assert not told(tmp_path / "hot", hot, "INS01")
    limits = "    limits: {heat of cross-linked: 104 C}\n    landmarks:"
    assert told(tmp_path / "less", hot.replace("    landmarks:", limits), "INS01")
    pvc = hot.replace("cross-linked", "PVC").replace("    landmarks:", limits.replace("cross-linked: 104", "PVC: 106"))
    assert told(tmp_path / "pvc", pvc, "INS01")


def test_a_tighter_limit_of_lengths_reaches_two_statements_of_one_gap(tmp_path: Path) -> None:
    # reach 1110 - tail 500 - pigtail 200 = 410 mm against a gap of 400 mm
    text = (
        USUAL
        + f"""
    wires: {{W1: {{colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - {{id: C1, {LONG}, tail: 500 mm, reach: 1110 mm}}
    """
    )
    assert not told(tmp_path / "table", text, "LEN01")
    tight = text.replace("job: Splices", "job: Splices\n    limits: {length apart: 5 mm}")
    (finding,) = told(tmp_path / "tight", tight, "LEN01")
    assert "10 mm" in finding.problem


UNKNOWN = {
    "SPL07": made("lap, soldered", "unknown"),
    "SPL08": made("unknown, unknown, tinned first"),
    "SPL09": made("lap, soldered", "unknown", "1 mm"),
    "SPL10": three("closed-end, crimped, barrel 0.5-1.0 mm2", "1.0 1.0 1.0").replace(
        "size: 1.0 mm2", "size: unknown", 1
    ),
    "SPL12": made("twist"),  # what holds it is not said: not examined, no error
    "SIZ02": pinned("piece: BU unknown", "0.5-1.5 mm2"),
    "TRM01": terminated("both", ", solder: unknown"),
    "INS01": through("zone: hot", " | insulation: unknown"),
    "RDG01": readings("read: not measured").replace("on: 2031-05-03", "limit: 0.2 V"),
    "PRO01": wrapped(", made: yes, sealed: yes, tested: yes"),
    "PRO02": wrapped(", made: yes, sealed: yes"),
}


@pytest.mark.parametrize("code", UNKNOWN)
def test_what_is_not_recorded_is_not_judged(code: str, tmp_path: Path) -> None:
    assert told(tmp_path, UNKNOWN[code], code) == []


def test_a_twisted_joint_without_a_word_of_its_fixing_is_counted(tmp_path: Path) -> None:
    unseen = work(tmp_path, made("twist")).not_examined
    assert ("splices", "C1", "twisted, and what holds it is not recorded") in {
        (item.subject, item.entry, item.what) for item in unseen
    }


def test_a_wire_that_is_tapped_lies_in_the_barrel_once(tmp_path: Path) -> None:
    # 1.0 mm2 that goes on and 0.5 mm2: 1.5 mm2, not 2.5
    text = (
        USUAL
        + """
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: a.1, to: b.1}
      W2: {colour: GN, size: 0.5 mm2, from: c.1, to: FS1}
    changes:
      - {id: C1, kind: tap, wire: W2, end: FS1, onto: W1, joint: "clip, crimped, barrel 0.5-1.5 mm2"}
    """
    )
    assert told(tmp_path / "fits", text, "SPL10") == []
    assert told(tmp_path / "not", text.replace("0.5-1.5", "0.5-1.0"), "SPL10")


def test_a_fuse_behind_the_joint_ends_the_doubt_about_a_thin_feed(tmp_path: Path) -> None:
    text = fanned_out("1.0 mm2")
    assert told(tmp_path / "plain", text, "SPL10")
    fused = text.replace("from: left.1, to: FS1", "from: F2.feed, to: FS1").replace(
        "    changes:", "      W6: {colour: GN, size: 1.5 mm2, from: F2, to: left.1}\n    changes:"
    )
    fused = fused.replace("fuses: {", "fuses: {F2: {rating: 3 A}, ")
    assert told(tmp_path / "fused", fused, "SPL10") == []


def test_the_size_of_a_wire_is_asked_for_once_however_many_loads_it_feeds(tmp_path: Path) -> None:
    text = """
    job: Two fans
    fuses: {F1: {rating: 30 A, fed: always}}
    loads:
      left: {between: left.1 left.2, draws: 8 A}
      right: {between: right.1 right.2, draws: 9 A}
    wires:
      W1: {colour: GN, size: unknown, from: F1, to: FS1}
      W2: {colour: GN, size: 2.5 mm2, from: FS1, to: left.1}
      W3: {colour: GN, size: 2.5 mm2, from: FS1, to: right.1}
      W4: {colour: BK, size: 2.5 mm2, from: left.2, to: battery-}
      W5: {colour: BK, size: 2.5 mm2, from: right.2, to: battery-}
    splices: {FS1: {}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """
    (finding,) = told(tmp_path, text, "SIZ03")
    assert finding.entry == "W1"
    assert "left (8.0 A), right (9.0 A)" in finding.problem


def test_untried_circuits_are_told_in_one_line(tmp_path: Path) -> None:
    rows = (
        f"id: C1, {LONG}, made: 2031-05-03 AK | "
        f"id: C2, {LONG.replace('W1, plug: lamp', 'W3, plug: horn')}, made: 2031-05-03 AK"
    )
    (finding,) = told(tmp_path, lamp(rows, "handed over: 2031-05-30"), "PRO03")
    assert "1 changed circuit (lamp)" in finding.problem
    assert "1 row on no traced circuit (C2)" in finding.problem


def test_nothing_is_asked_of_tests_and_battery_while_no_one_keeps_them(tmp_path: Path) -> None:
    worked = work(tmp_path, lamp(f"id: C1, {LONG}, made: 2031-05-03 AK", "handed over: not yet"))
    assert {finding.code for finding in worked.findings} & {"PRO03", "PRO04"} == set()


@pytest.mark.parametrize(
    ("second", "word"),
    [
        ("read: 0.1 V", "note"),
        ("read: 0.1 V, limit: 0.05 V", "error"),  # outside its own limit
        ("read: 0.1 A", "error"),  # another quantity
        ("read: not measured", "error"),
    ],
)
def test_a_later_reading_clears_an_earlier_one_only_when_it_is_inside(second: str, word: str, tmp_path: Path) -> None:
    text = readings("read: 0.42 V", again(second)).replace(
        "on: 2031-05-03", "on: 2031-05-03\n        limit: 0.3 V"
    )  # fmt: skip
    assert {finding.entry: finding.severity.word for finding in told(tmp_path, text, "RDG01")}["R1"] == word


def test_a_reading_of_what_was_done_again_since_is_a_note(tmp_path: Path) -> None:
    text = lamp(
        f"id: C1, {LONG}, made: 2031-05-03 AK | id: C2, {LONG.replace('400', '500')}, redoes: C1, made: 2031-05-05 AK",
        "handed over: not yet",
        "    readings: [{id: R1, of: C1, read: 0.4 V, limit: 0.2 V}]\n",
    )
    (finding,) = told(tmp_path, text, "RDG01")
    assert finding.severity.word == "note"
    assert "C2 was done since" in finding.problem
