"""One of several: the wire, ring, row or picture that is meant stands beside others of its kind and is the one told."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from aswired.sheets.fuses import fuse_sheet
from aswired.text.diagnostics import Finding
from tests.findings.cases_grounds import REFERENCE, SENSOR
from tests.findings.cases_process import EXPECTED
from tests.findings.cases_splices import ROUTE, USUAL, joined, three
from tests.findings.jobs import copper_alone, work
from tests.findings.whole import line_with

MADE = "made: 2031-05-03 AK"


def told(folder: Path, text: str, code: str) -> list[Finding]:
    """The findings of one code, in the order told."""
    return [finding for finding in work(folder, text).findings if finding.code == code]


# ---- joints ---------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("sizes", ["16 mm2 1.0 mm2", "1.0 mm2 16 mm2"])
def test_a_lap_is_held_to_the_thickest_conductor_in_it(sizes: str, tmp_path: Path) -> None:
    # 16 mm2 as a solid wire: d = sqrt(4 x 16 / pi) = 4.51 mm, three of them 13.5 mm; of 1 mm2 1.13 mm, three 3.4 mm
    one, _, other, _ = sizes.split()
    text = f"""{USUAL}
    wires:
      W1: {{size: {one} mm2, from: a.1, to: FS1}}
      W2: {{size: {other} mm2, from: b.1, to: FS1}}
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], overlap: 10 mm, {MADE}}}
    """
    found = [(f.severity.word, f.entry) for f in told(tmp_path, text, "SPL09")]
    assert ("warning", "C1") in found
    assert ("note", "C1") not in found


@pytest.mark.parametrize("sizes", [*permutations(("0.5", "1.0", "1.5"))])
def test_a_butt_is_filled_alike_whichever_wire_is_written_first(sizes: tuple[str, ...], tmp_path: Path) -> None:
    # 0.5 + 1.0 = 1.5 mm2 on one side, 1.5 mm2 on the other; every other sharing puts at least 2.0 mm2 on one side
    text = three("butt, crimped, barrel 1.5-1.5 mm2", " ".join(sizes))
    assert told(tmp_path, text, "SPL10") == []


# ---- pictures -------------------------------------------------------------------------------------------------------
def test_a_picture_of_one_joint_is_a_picture_of_its_row_and_of_no_other(tmp_path: Path) -> None:
    text = (
        USUAL
        + ROUTE
        + f"""
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, plug: horn, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
    photos: [{{id: P1, file: photos/p1.jpg, shows: [C1-W1-plug], stage: bare joint}}]
    """
    )
    assert [f.entry for f in told(tmp_path, text, "PHO03")] == ["C2"]


def test_pictures_of_nothing_are_told_at_the_first_of_them(tmp_path: Path) -> None:
    text = (
        joined("300 mm from bulkhead towards nose | 500 mm from bulkhead towards nose").replace(" # <", "")
        + """
    photos:
      - {id: P1, file: photos/p1.jpg, shows: [C1], stage: bare joint}
      - {id: P2, file: photos/p2.jpg, stage: sealed}
      - {id: P3, file: photos/p3.jpg, stage: sealed}
    """
    )
    (finding,) = told(tmp_path, text, "PHO05")
    assert (finding.entry, finding.at.line) == ("", line_with(text, "id: P2"))
    assert "P2, P3" in finding.problem


# ---- ends -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("between", ["button.1 button.2", "button.2 button.1"])
def test_a_switch_half_emptied_is_told_on_either_side(between: str, tmp_path: Path) -> None:
    text = f"""
    job: Button
    switches: {{button: {{between: {between}}}}}
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: button.1}}
      W2: {{size: 1.0 mm2, from: button.2, to: horn.1}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{F1: pulled, button.1: pulled}}, {MADE}}}
    """
    (finding,) = told(tmp_path / "half", text, "END08")
    assert finding.entry == "C1"
    assert "whose other side is wired" in finding.problem
    emptied = f"      - {{id: C2, kind: remove, wire: W2, ends: {{button.2: pulled, horn.1: pulled}}, {MADE}}}\n"
    both = f"{text.rstrip()}\n{emptied}"
    assert told(tmp_path / "both", both, "END08") == []


@pytest.mark.parametrize(("lamp", "horn", "entries"), [
    ("deleted", "deleted", []), ("deleted", "kept", ["C1"]), ("kept", "deleted", ["C1"]),
])  # fmt: skip
def test_an_output_is_let_go_only_with_every_load_on_it(
    lamp: str, horn: str, entries: list[str], tmp_path: Path
) -> None:
    text = f"""
    job: Unit
    modules: {{unit: {{out: {{7: lamp and horn}}}}}}
    splices: {{FS1: {{}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2, verdict: {lamp}}}
      horn: {{between: horn.1 horn.2, verdict: {horn}}}
    wires:
      W1: {{size: 1.0 mm2, from: unit.7, to: FS1}}
      W2: {{size: 1.0 mm2, from: FS1, to: lamp.1}}
      W3: {{size: 1.0 mm2, from: FS1, to: horn.1}}
      W4: {{size: 1.0 mm2, from: lamp.2, to: battery-}}
      W5: {{size: 1.0 mm2, from: horn.2, to: battery-}}
      W6: {{size: 1.0 mm2, from: F1, to: unit.1}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{unit.7: pulled, FS1: flush}}, {MADE}}}
    """
    found = [f.entry for f in told(tmp_path, text, "END08") if "(out)" in f.problem]
    assert found == entries


# ---- two of each ----------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("near", "far"), [("90 C", "120 C"), ("120 C", "90 C")])
def test_a_wire_is_held_to_the_hottest_of_the_legs_it_runs_through(near: str, far: str, tmp_path: Path) -> None:
    # the limit is the job's own: 90 C is below it, 120 C above
    text = f"""
    job: Two hot legs
    limits: {{heat of PVC: 105 C}}
    landmarks: {{bulkhead: sheet metal, head: takeout, nose: takeout}}
    route:
      - {{from: bulkhead, to: head, length: 1000 mm, hottest: {near}}}
      - {{from: head, to: nose, length: 1000 mm, hottest: {far}}}
    plugs: {{lamp: {{at: nose}}}}
    fuses: {{F1: {{rating: 5 A, in: bulkhead}}}}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, insulation: PVC}}}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    (finding,) = told(tmp_path, text, "INS01")
    leg = "bulkhead to head" if near == "120 C" else "head to nose"
    assert finding.entry == "W1"
    assert f"through the leg {leg}, which gets 120 °C hot" in finding.problem


RACK = f"""
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2 from O1, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, plug: horn, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2 from O1, {MADE}}}
    """


def test_an_offcut_that_is_not_on_the_rack_is_told_where_it_is_cut_first(tmp_path: Path) -> None:
    text = USUAL + RACK
    (finding,) = told(tmp_path, text, "OFF02")
    assert (finding.entry, finding.at.line) == ("C1-W1", line_with(text, "id: C1"))


def test_an_overdrawn_offcut_is_told_at_the_last_cut(tmp_path: Path) -> None:
    # a piece takes 400 + 2 x 10 mm of lap + 50 mm of slack = 470 mm, two 940 mm: 40 mm more than 900 mm
    text = USUAL + "    offcuts: {O1: BU 1.0 mm2 900 mm}" + RACK
    (finding,) = told(tmp_path, text, "OFF01")
    assert (finding.entry, finding.at.line) == ("C2-W2", line_with(text, "id: C2"))
    assert "by 40 mm" in finding.problem


def test_an_offcut_of_unknown_length_that_stands_on_the_rack_is_not_missed_there(tmp_path: Path) -> None:
    text = USUAL + "    offcuts: {O1: BU 1.0 mm2 unknown}" + RACK
    assert told(tmp_path, text, "OFF02") == []


def test_faces_that_are_not_written_are_told_at_the_first_new_point(tmp_path: Path) -> None:
    text = f"""
    job: Faces
    grounds:
      L0: {{back to: battery-, surface: bare metal}}
      L1: {{back to: battery-, what: rail}}
      L2: {{back to: battery-, what: bed}}
    wires: {{W1: {{from: lamp.2, to: G1}}, W2: {{from: horn.2, to: G1}}, W3: {{from: fan.2, to: G1}}}}
    changes:
      - {{id: C1, kind: ground, wire: W1, end: G1, to: L2, {MADE}}}
      - {{id: C2, kind: ground, wire: W2, end: G1, to: L1, {MADE}}}
      - {{id: C3, kind: ground, wire: W3, end: G1, to: L0, {MADE}}}
    """
    (finding,) = told(tmp_path, text, "GND11")
    assert finding.at.line in (line_with(text, "what: rail"), line_with(text, "what: bed"))
    first = finding.problem.index("L1") < finding.problem.index("L2")
    assert finding.at.line == line_with(text, "what: rail" if first else "what: bed")
    assert "L0" not in finding.problem


def test_wires_of_another_car_are_told_at_the_first_of_them(tmp_path: Path) -> None:
    text = """
    job: Shift lock
    options: {gearbox: {is: manual, could be: [automatic]}}
    fuses: {F3: {rating: 10 A, fed: ignition}}
    wires:
      W39: {size: 1.0 mm2, from: F3, to: horn.1}
      W40: {size: 1.0 mm2, from: F3, to: lock.1, for: gearbox is automatic}
      W41: {size: 1.0 mm2, from: F3, to: lamp.1, for: gearbox is automatic}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """
    (finding,) = told(tmp_path, text, "OPT02")
    assert (finding.entry, finding.at.line) == ("W40", line_with(text, "W40:"))
    assert "W40, W41 are" in finding.problem


def test_a_wire_of_another_car_that_a_row_still_planned_takes_out_is_not_left_behind(tmp_path: Path) -> None:
    text = f"""
    job: Shift lock
    options: {{gearbox: {{is: manual, could be: [automatic]}}}}
    fuses: {{F3: {{rating: 10 A, fed: ignition}}}}
    wires:
      W40: {{size: 1.0 mm2, from: F3, to: lock.1, for: gearbox is automatic}}
      W41: {{size: 1.0 mm2, from: F3, to: lamp.1, for: gearbox is automatic}}
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
      - {{id: C2, kind: remove, wire: W40, ends: {{F3: gone, lock.1: gone}}}}
    """
    assert [f.entry for f in told(tmp_path, text, "OPT02")] == ["W41"]


def test_a_colour_is_held_to_the_diagram_in_a_wire_that_was_made_longer_too(tmp_path: Path) -> None:
    text = f"""{USUAL}
    wires:
      W1: {{colour: GN, by diagram: BU, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{colour: GN, by diagram: GN, size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}}
      W3: {{colour: GN, by diagram: BU, size: 1.0 mm2, from: F3, to: fan.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, plug: horn, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C3, kind: remove, wire: W3, ends: {{F3: gone, fan.1: gone}}, {MADE}}}
    """
    assert [f.entry for f in told(tmp_path, text, "COL05")] == ["W1"]


def test_a_short_is_told_at_the_last_wire_of_its_way(tmp_path: Path) -> None:
    text = f"""
    job: A feed on the frame
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    grounds: {{L1: {{stud: M6}}}}
    splices: {{FS1: {{}}}}
    wires: {{W1: {{size: 1.5 mm2, from: F1, to: FS1}}}}
    changes:
      - {{id: C1, kind: add, wire: N1, from: FS1, to: L1, piece: BU 1.5 mm2, cut: 300 mm, {MADE}}}
      - {{id: C2, kind: add, wire: N2, from: FS1, to: lamp.1, piece: BU 1.5 mm2, cut: 300 mm, {MADE}}}
    """
    (finding,) = told(tmp_path, text, "FUS10")
    assert (finding.entry, finding.at.line) == ("F1", line_with(text, "id: C1"))
    assert finding.problem.endswith("by W1 and N1")


def test_a_short_behind_a_fuse_is_told_of_that_fuse_and_of_nothing_before_it(tmp_path: Path) -> None:
    text = f"""
    job: A feed on the frame
    fuses: {{F1: {{rating: 10 A}}, F2: {{rating: 10 A}}}}
    grounds: {{L1: {{stud: M6}}}}
    splices: {{FS1: {{}}}}
    wires:
      W0: {{size: 16 mm2, from: battery+, to: F1.feed}}
      W1: {{size: 1.5 mm2, from: F1, to: FS1}}
      W2: {{size: 1.5 mm2, from: FS1, to: L1}}
      W3: {{size: 1.5 mm2, from: F2, to: lamp.1}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    assert [f.entry for f in told(tmp_path, text, "FUS10")] == ["F1"]


# ---- days -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("days", "entries"), [
    (("2031-05-09", "2031-05-12"), []), (("2031-05-12", "2031-05-09"), []), (("2031-05-12", "2031-05-13"), ["C2"]),
])  # fmt: skip
def test_of_several_tests_the_first_counts_before_a_wrap(
    days: tuple[str, str], entries: list[str], tmp_path: Path
) -> None:
    text = f"""{USUAL}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE},
         sealed: 2031-05-03 AK}}
      - {{id: C2, kind: cover, over: [C1], cover: cloth tape, made: 2031-05-10 AK}}
      - {{id: C3, kind: verify, proves: [C1], made: {days[0]} AK}}
      - {{id: C4, kind: verify, proves: [C1], made: {days[1]} AK}}
    """
    assert [f.entry for f in told(tmp_path, text, "PRO01")] == entries


@pytest.mark.parametrize(("second", "entries"), [
    ("on: 2031-05-05, red: lamp.2, black: battery-, loads on: lamp, read: 0.02 V", []),
    ("on: 2031-05-05, red: battery-, black: lamp.2, loads on: lamp, read: 0.02 V", []),
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.02 V", []),  # the later in the file
    ("on: 2031-05-03, red: lamp.2, black: battery-, loads on: lamp, read: 0.02 V", ["R1"]),  # the day before
    ("on: 2031-05-05, red: F1, black: lamp.1, loads on: lamp, read: 0.02 V", ["R1"]),  # elsewhere
    ("on: 2031-05-05, red: lamp.2, black: battery-, loads on: lamp, read: 1.0 A", ["R1"]),  # another quantity
    ("on: 2031-05-05, red: lamp.2, black: battery-, loads on: lamp, read: unknown", ["R1"]),  # nothing was read
])  # fmt: skip
def test_a_reading_is_let_go_by_a_later_one_of_its_own_two_points(
    second: str, entries: list[str], tmp_path: Path
) -> None:
    # 0.9 m of 18.5 mohm/m (ISO 6722-1) at 0.99 A: 0.016 V, and 0.046 V at most: 0.06 V is too much, 0.02 V is not
    text = (
        copper_alone(EXPECTED)
        + f"""    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    readings:
      - {{id: R1, on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V}}
      - {{id: R2, {second}}}
    """
    )
    assert [f.entry for f in told(tmp_path, text, "RDG02") if f.entry == "R1"] == entries


# ---- what shares a return -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("verdict", "entries"), [("kept", ["coolant"]), ("deleted", [])])
def test_a_load_that_is_to_go_disturbs_no_sensor(verdict: str, entries: list[str], tmp_path: Path) -> None:
    text = SENSOR.replace("CLASS}", f"fuel pump, verdict: {verdict}}}").replace("SENSES", "FS1")
    assert [f.entry for f in told(tmp_path, text, "GND07")] == entries


def test_of_several_references_the_one_is_told_that_shares_its_point(tmp_path: Path) -> None:
    text = REFERENCE.replace("[4]", "[5, 4, 6]").replace(
        "    changes:", "      W5: {from: unit.5, to: L2}\n      W6: {from: unit.6, to: L2}\n    changes:"
    )
    (finding,) = told(tmp_path, text, "GND07")
    assert "unit.4" in finding.problem


# ---- rows -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("piece", "entries"), [("gap: 60 mm, piece: BU 1.0 mm2, ", ["C2"]), ("", [])])
def test_a_shield_is_asked_for_where_the_rows_own_piece_opens_it(
    piece: str, entries: list[str], tmp_path: Path
) -> None:
    text = f"""{USUAL}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: u.1, to: sensor.1, length: 900 mm, special: shielded}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C2, kind: terminate, wire: W2, end: sensor.1, into: new.1, {piece}tail: 700 mm, {MADE}}}
    """
    assert [f.entry for f in told(tmp_path, text, "SPC06")] == entries


def test_the_wire_that_mends_a_fuse_is_named_by_its_gauge_where_one_of_them_is(tmp_path: Path) -> None:
    text = f"""
    job: Two thin wires
    fuses: {{F1: {{rating: 30 A, fed: always}}}}
    splices: {{FS1: {{}}}}
    loads: {{fan: {{between: fan.1 fan.2, draws: 20 A, duty: continuous}}}}
    wires:
      W1: {{size: 18 AWG, from: F1, to: FS1}}
      W2: {{size: 0.75 mm2, from: FS1, to: fan.1}}
      W3: {{size: 6 mm2, from: fan.2, to: battery-}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    (finding,) = told(tmp_path, text, "FUS01")
    assert "W1" in finding.mend
    assert "W2" in finding.mend
    assert "AWG)" in finding.mend


# ---- this car and others --------------------------------------------------------------------------------------------
def test_a_load_of_another_car_whose_feed_a_row_still_planned_takes_is_not_left_behind(tmp_path: Path) -> None:
    text = f"""
    job: Shift lock
    options: {{gearbox: {{is: manual, could be: [automatic]}}}}
    fuses: {{F3: {{rating: 10 A, fed: ignition}}}}
    wires:
      W40: {{size: 1.0 mm2, from: F3, to: lock.1}}
      W41: {{size: 1.0 mm2, from: F3, to: lamp.1}}
    loads:
      lock: {{between: lock.1 lock.2, verdict: kept, for: gearbox is automatic}}
      lamp: {{between: lamp.1 lamp.2, verdict: kept, for: gearbox is automatic}}
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
      - {{id: C2, kind: remove, wire: W40, ends: {{F3: gone, lock.1: gone}}}}
    """
    assert [f.entry for f in told(tmp_path, text, "OPT02")] == ["lamp"]


@pytest.mark.parametrize(("gearbox", "entries"), [("automatic", ["lamp", "lock"]), ("unknown", ["lamp"])])
def test_no_load_that_may_not_be_in_the_car_is_told_to_be_without_a_fuse(
    gearbox: str, entries: list[str], tmp_path: Path
) -> None:
    text = f"""
    job: Without a fuse
    options: {{gearbox: {{is: {gearbox}, could be: [automatic, manual]}}}}
    splices: {{B1: {{}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2}}
      lock: {{between: lock.1 lock.2, for: gearbox is automatic}}
    wires:
      W1: {{size: 1.0 mm2, from: battery+, to: B1}}
      W2: {{size: 1.0 mm2, from: B1, to: lamp.1}}
      W3: {{size: 1.0 mm2, from: B1, to: lock.1}}
      W4: {{size: 1.0 mm2, from: lamp.2, to: battery-}}
      W5: {{size: 1.0 mm2, from: lock.2, to: battery-}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    assert [f.entry for f in told(tmp_path, text, "FUS03")] == entries


@pytest.mark.parametrize(("gearbox", "errors"), [("automatic", ["F1"]), ("unknown", [])])
def test_no_load_that_may_not_be_in_the_car_is_an_error_of_its_fuse(
    gearbox: str, errors: list[str], tmp_path: Path
) -> None:
    text = f"""
    job: More than the fuse
    options: {{gearbox: {{is: {gearbox}, could be: [automatic, manual]}}}}
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    splices: {{FS1: {{}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2, draws: 2 A}}
      lock: {{between: lock.1 lock.2, draws: 15 A, for: gearbox is automatic}}
    wires:
      W1: {{size: 2.5 mm2, from: F1, to: FS1}}
      W2: {{size: 2.5 mm2, from: FS1, to: lamp.1}}
      W3: {{size: 2.5 mm2, from: FS1, to: lock.1}}
      W4: {{size: 2.5 mm2, from: lamp.2, to: battery-}}
      W5: {{size: 2.5 mm2, from: lock.2, to: battery-}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    assert [f.entry for f in told(tmp_path, text, "FUS09") if f.severity.word == "error"] == errors


# ---- points ---------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("moved", "told_of"), [("yes", ["L1", "L3"]), ("no", [])])
def test_the_points_without_a_cable_are_told_once_the_battery_was_moved(
    moved: str, told_of: list[str], tmp_path: Path
) -> None:
    text = f"""
    job: Battery moved
    body returns: yes
    battery moved: {moved}
    grounds:
      L1: {{back to: battery-, cable: unknown}}
      L2: {{back to: battery-, cable: 16 mm2}}
      L3: {{back to: battery-}}
    loads:
      lamp: {{between: lamp.1 lamp.2}}
      horn: {{between: horn.1 horn.2}}
      fan: {{between: fan.1 fan.2}}
    wires:
      W1: {{from: F1, to: lamp.1}}
      W2: {{from: lamp.2, to: L1}}
      W3: {{from: F2, to: horn.1}}
      W4: {{from: horn.2, to: L2}}
      W5: {{from: F3, to: fan.1}}
      W6: {{from: fan.2, to: L3}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    found = told(tmp_path, text, "GND12")
    assert [name for f in found for name in ("L1", "L2", "L3") if name in f.problem] == told_of


@pytest.mark.parametrize(("heater", "rank"), [("diesel", "error"), ("unknown", "warning")])
def test_a_fault_on_other_cars_is_an_error_only_with_every_option_known(heater: str, rank: str, tmp_path: Path) -> None:
    # either wire alone feeds it: it is dark only where the heater is electric and the gearbox is automatic
    text = f"""
    job: Heater
    options:
      heater: {{is: {heater}, could be: [diesel, electric]}}
      gearbox: {{is: manual, could be: [automatic]}}
    fuses: {{F1: {{rating: 20 A, fed: always}}, F2: {{rating: 20 A, fed: always}}}}
    splices: {{FS1: {{}}}}
    wires:
      W1: {{size: 1.5 mm2, from: F1, to: FS1}}
      W2: {{size: 1.5 mm2, from: F2, to: FS1}}
      W3: {{size: 1.5 mm2, from: FS1, to: heater.1}}
      W4: {{size: 1.5 mm2, from: heater.2, to: battery-}}
    loads:
      heater: {{between: heater.1 heater.2}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{F1: pulled, FS1: flush}}, only if: heater is electric}}
      - {{id: C2, kind: remove, wire: W2, ends: {{F2: pulled, FS1: flush}}, only if: gearbox is automatic}}
    """
    assert [(f.severity.word, f.entry) for f in told(tmp_path, text, "OPT03")] == [(rank, "heater")]


def test_of_the_two_ends_of_a_shortened_wire_the_one_at_the_plug_got_the_terminal(tmp_path: Path) -> None:
    text = f"""{USUAL}
    plugs: {{lamp: {{solder: not allowed}}, unit: {{solder: not allowed}}}}
    wires:
      W1: {{size: 1.0 mm2, from: unit.1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: unit.2, to: lamp.2, length: 900 mm}}
    changes:
      - {{id: C1, kind: shorten, wire: W1, plug: lamp, take out: 100 mm, terminal: pin,
         terminal fixed: soldered, {MADE}}}
    """
    (finding,) = told(tmp_path, text, "TRM01")
    assert finding.entry == "C1"
    assert "the terminal at lamp.1 is" in finding.problem


def test_every_load_in_the_sum_of_a_fuse_is_named_with_it(tmp_path: Path) -> None:
    """2 A and 15 A make 17 A; whether the lock is in this car is not known, and it is in the sum."""
    text = """
    job: Shift lock
    options: {gearbox: unknown}
    fuses: {F1: {rating: 16 A, fed: always}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      lock: {between: lock.1 lock.2, draws: 15 A, for: gearbox is automatic}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 2.5 mm2, from: lamp.2, to: battery-, length: 1 m}
      W3: {size: 2.5 mm2, from: F1, to: lock.1, length: 1 m}
      W4: {size: 2.5 mm2, from: lock.2, to: battery-, length: 1 m}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """
    (told,) = [finding for finding in work(tmp_path, text).findings if finding.code == "FUS09"]
    assert told.problem == "'lamp', 'lock' together draw 17.0 A, and F1 is 16 A"
    assert told.severity.word == "warning"


STUD = """
    job: One stud
    fuses: {F1: {rating: 30 A, fed: always}}
    plugs: {a: {ways: 2}, b: {ways: 2}, c: {ways: 2}, d: {ways: 2}}
    grounds: {L1: {back to: battery-}, G9: {}}
    loads:
      a: {between: a.1 a.2, draws: 1 A}
      b: {between: b.1 b.2, draws: 2 A}
      c: {between: c.1 c.2, draws: 8 A}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: a.1}
      W2: {size: 2.5 mm2, from: F1, to: b.1}
      W3: {size: 2.5 mm2, from: F1, to: c.1}
      W4: {size: 2.5 mm2, from: a.2, to: DONOR}
      W5: {size: 2.5 mm2, from: b.2, to: G9}
      W6: {size: 2.5 mm2, from: c.2, to: G9}
      W7: {size: 2.5 mm2, from: d.1, to: G9}
      W8: {size: 2.5 mm2, from: d.2, to: G9}
    changes:
"""


NTH = {2: "2nd", 3: "3rd", 4: "4th", 5: "5th"}


def put_on(*wires: str) -> str:
    return "".join(
        f"      - {{id: C{number}, kind: ground, wire: {wire}, end: G9, to: L1, "
        f'ring: "new, M6, {NTH[number]} from base", made: 2031-05-03 AK}}\n'
        for number, wire in enumerate(wires, 2)
    )


def test_the_ring_that_the_donor_left_on_a_stud_counts_beside_those_that_were_put_on(tmp_path: Path) -> None:
    rows = put_on("W5", "W6", "W7", "W8")
    with_it = work(tmp_path / "with", STUD.replace("DONOR", "L1") + rows)
    (told,) = [finding for finding in with_it.findings if finding.code == "GND02"]
    assert told.problem.startswith("'L1' carries 5 rings; the limit is 4")
    without = work(tmp_path / "without", STUD.replace("DONOR", "battery-") + rows)
    assert [finding for finding in without.findings if finding.code == "GND02"] == []


def test_the_largest_of_the_rings_above_is_the_one_that_counts(tmp_path: Path) -> None:
    # from the base 1 A (C1), 2 A (C2), 8 A (C3): the next ring is within 1 A, the one above it is not
    rows = (
        '      - {id: C1, kind: ground, wire: W4, end: G9, to: L1, ring: "new, M6, 1st from base", '
        "made: 2031-05-03 AK}\n" + put_on("W5", "W6")
    )
    worked = work(tmp_path, STUD.replace("DONOR", "G9") + rows)
    (told,) = [finding for finding in worked.findings if finding.code == "GND04"]
    assert told.at.text.strip().startswith("- {id: C1,")


def test_a_link_as_thick_as_its_wire_is_not_thinner_by_nought(tmp_path: Path) -> None:
    text = """
    job: Link
    wires:
      W1: {size: 14 AWG, from: battery+, to: stud, special: fusible link, protects: [W2]}
      W2: {size: SIZE AWG, from: stud, to: F1.feed}
    fuses: {F1: {rating: 10 A}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """
    said = {
        size: fuse_sheet(work(tmp_path / size, text.replace("SIZE", size))).links[0].protects[0][2]
        for size in ("14", "12", "16")
    }
    assert said == {
        "14": "the link is not thinner", "16": "the link is not thinner", "12": "the link is 2 gauge numbers thinner"
    }  # fmt: skip
