"""Findings and their silent twins: what is told of a car, and of the car that differs in one fact; worked by hand.

The house: slack 50, laps of 10, 6 mm into a barrel. (Geometry of the joint, no outside source.)
"""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest

from aswired.text.diagnostics import Finding
from tests.findings.jobs import work

HEAD = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
"""
CAR = (
    HEAD
    + """
    fuses: {F1: {rating: 5 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}
      W2: {colour: VT, size: 1 mm2, from: F1, to: lamp.2, length: 1200 mm}
"""
)
MADE = "made: 2031-05-03 AK"


def told(folder: Path, text: str, *codes: str) -> list[Finding]:
    """The findings of these codes."""
    return [finding for finding in work(folder, text).findings if finding.code in codes]


def line_of(text: str, start: str) -> int:
    """The line of the job file, counted from 1, on which the first row that starts so is written."""
    lines = textwrap.dedent(text).lstrip("\n").splitlines()
    return next(number for number, line in enumerate(lines, 1) if line.strip().startswith(start))


# ---- splices --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("part", ["plugs: {ecu: {}}", "modules: {ecu: {}}"])
def test_a_splice_too_near_is_told_at_a_module_as_at_a_plug(tmp_path: Path, part: str) -> None:
    row = f"""
    {part}
    changes:
      - {{id: C1, kind: extend, plug: ecu, wire: W1, pigtail: 20 mm, gap: 400 mm, piece: BU 1 mm2, {MADE}}}
    """
    found = told(tmp_path, CAR.replace("lamp.1", "ecu.7") + row, "SPL01")
    # the lap of 10 counts half to either side of the cut: 20 - 10 / 2 = 15
    assert [(f.entry, f.problem.partition(";")[0]) for f in found] == [
        ("C1-W1-plug", "C1-W1-plug lies 15 mm from ecu.7")
    ]


def test_a_lap_too_short_for_several_wires_is_asked_for_by_the_thickest(tmp_path: Path) -> None:
    text = CAR.replace("overlap: 10 mm", "overlap: 4 mm").replace("GN, size: 1 mm2", "GN, size: 2.5 mm2")
    rows = f"""
    changes:
      - {{id: C1, kind: extend, plug: lamp, wire: W1, pigtail: 200 mm, gap: 400 mm, piece: BU 2.5 mm2, {MADE}}}
      - {{id: C2, kind: extend, plug: lamp, wire: W2, pigtail: 300 mm, gap: 400 mm, piece: RD 6 mm2, {MADE}}}
    """
    (found,) = told(tmp_path, text.replace("VT, size: 1 mm2", "VT, size: 6 mm2") + rows, "SPL09")
    # three diameters of solid round copper: 3 x sqrt(4 x 6 / pi) = 3 x 2.764 = 8.3; of 2.5 mm2 3 x 1.784 = 5.4
    assert found.problem.startswith("a lap of 4 mm is under 3 conductor diameters (8.3 mm): C1-W1-")


# ---- cut ends -------------------------------------------------------------------------------------------------------
def test_an_end_left_open_is_told_at_the_last_row_of_its_wire(tmp_path: Path) -> None:
    rows = f"""
    route: [{{from: dash, to: nose, length: 1000 mm}}]
    changes:
      - {{id: C1, kind: reroute, wire: W1, by: [dash], {MADE}}}
      - {{id: C2, kind: cap, wire: W1, end: loose, cover: none, made: 2031-05-04 AK}}
    """
    text = CAR.replace("to: lamp.1", "to: loose") + rows
    worked = work(tmp_path, text)
    assert [row.status for row in worked.plan.rows] == ["in force", "in force"]
    (found,) = [f for f in worked.findings if f.code == "END01"]
    assert found.at.line == line_of(text, "- {id: C2")


@pytest.mark.parametrize(("other_end", "codes"), [("horn.1", ["END06"]), ("loose", [])])
def test_a_lone_wire_in_a_splice_is_told_unless_its_other_end_is_cut_as_well(
    tmp_path: Path, other_end: str, codes: list[str]
) -> None:
    text = f"""{HEAD}
    splices: {{S1: {{all members known: yes}}}}
    wires:
      W1: {{colour: GN, size: 1 mm2, from: S1, to: {other_end}, length: 1200 mm}}
      W2: {{colour: VT, size: 1 mm2, from: S1, to: lamp.2, length: 1200 mm}}
    changes: [{{id: C1, kind: remove, wires: {{W2: {{S1: flush, lamp.2: pulled}}}}, {MADE}}}]
    """
    assert [f.code for f in told(tmp_path, text, "END06")] == codes


@pytest.mark.parametrize(("stub_mm", "status"), [(2000, "not judged"), (30, "in force")])
def test_a_wire_that_a_row_not_judged_moves_is_not_said_to_be_left_in_a_part_that_went(
    tmp_path: Path, stub_mm: int, status: str
) -> None:
    # W2 is 1200 mm long: a stub of 2000 cannot be, so nobody can tell yet where C2 puts the end of W1
    rows = f"""
    plugs: {{lamp: {{gone: yes}}}}
    changes:
      - {{id: C1, kind: cap, wire: W2, end: F1, stub: {stub_mm} mm, far: gone, cover: crimp cap, {MADE}}}
      - {{id: C2, kind: join, ends: [C1-W2-F1, W1 at lamp.1], {MADE}}}
    """
    worked = work(tmp_path, CAR + rows)
    assert worked.plan.rows[1].status == status
    assert [f.entry for f in worked.findings if f.code == "END08"] == []


def test_a_wire_left_in_a_part_that_went_is_told(tmp_path: Path) -> None:
    rows = f"""
    plugs: {{lamp: {{gone: yes}}}}
    changes: [{{id: C1, kind: cap, wire: W2, end: F1, stub: 30 mm, far: gone, cover: crimp cap, {MADE}}}]
    """
    (found,) = told(tmp_path, CAR + rows, "END08")
    assert found.problem == "W1 ends in lamp, which left the car, and is live"


# ---- colours --------------------------------------------------------------------------------------------------------
GROUNDED = """
    donor colours: BN
    fuses: {F1: {rating: 5 A, fed: always}}
    grounds: {G1: {back to: battery-}}
"""


@pytest.mark.parametrize(("from_", "entries"), [("F1", ["C1-W9"]), ("G1", [])])
def test_a_new_ground_wire_like_a_fed_neighbour_in_its_plug_is_told(
    tmp_path: Path, from_: str, entries: list[str]
) -> None:
    text = f"""{HEAD}{GROUNDED}
    wires: {{W1: {{colour: BN, size: 1 mm2, from: {from_}, to: lamp.1, length: 1200 mm}}}}
    changes: [{{id: C1, kind: add, wire: W9, piece: BN 1 mm2, from: G1, to: lamp.3, cut: 300 mm, {MADE}}}]
    """
    assert [f.entry for f in told(tmp_path, text, "COL02")] == entries


@pytest.mark.parametrize(("switched", "entries"), [("sw.1 sw.2", []), ("sw.1 sw.9", ["C1-W9"])])
def test_a_wire_joined_to_source_and_ground_is_neither_feed_nor_ground_by_its_colour(
    tmp_path: Path, switched: str, entries: list[str]
) -> None:
    # W9 hangs on FS1, fed by F1; between sw.1 and sw.2 the switch joins it to W2 and ground as well
    text = f"""{HEAD}{GROUNDED}
    splices: {{FS1: {{}}}}
    switches: {{sw: {{between: {switched}}}}}
    wires:
      W1: {{colour: GN, size: 1 mm2, from: F1, to: FS1, length: 1200 mm}}
      W3: {{colour: GN, size: 1 mm2, from: FS1, to: sw.1, length: 400 mm}}
      W2: {{colour: GN, size: 1 mm2, from: sw.2, to: G1, length: 300 mm}}
    changes: [{{id: C1, kind: add, wire: W9, piece: BN 1 mm2, from: FS1, to: horn.1, cut: 300 mm, {MADE}}}]
    """
    worked = work(tmp_path, text)
    assert [row.status for row in worked.plan.rows] == ["in force"]
    assert [f.entry for f in worked.findings if f.code == "COL03"] == entries


# ---- lengths --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("cut_mm", "told_so"), [(1300, True), (1070, False)])
def test_a_lead_cut_longer_than_its_measured_reach_asks_for_is_told(tmp_path: Path, cut_mm: int, told_so: bool) -> None:
    row = f"""
    changes:
      - {{id: C1, kind: add, wire: W9, piece: BU 1 mm2, from: F1, to: horn.1, reach: 1 m, cut: {cut_mm} mm, {MADE}}}
    """
    # reach 1000, slack 50, 6 into the barrel at either end: 1062; 20 mm apart are let pass (house value)
    said = ["the piece was cut 1300 mm, its lengths ask for 1062 mm"] if told_so else []
    assert [f.problem for f in told(tmp_path, CAR + row, "LEN01")] == said


@pytest.mark.parametrize(("stagger", "codes"), [("", ["LEN04"]), ("stagger: 0 mm, ", [])])
def test_wires_shortened_together_are_asked_for_their_stagger(tmp_path: Path, stagger: str, codes: list[str]) -> None:
    row = f"""
    changes:
      - {{id: C1, kind: shorten, plug: lamp, wires: [W1, W2], pigtail: 200 mm, take out: 300 mm, {stagger}{MADE}}}
    """
    worked = work(tmp_path, CAR + row)
    assert [row.status for row in worked.plan.rows] == ["in force"]
    assert [f.code for f in worked.findings if f.code == "LEN04"] == codes


# ---- places and names -----------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("at", "code"), [("mash", "PLC05"), ("dask", "REF01")])
def test_a_word_that_begins_otherwise_is_no_slip_for_a_landmark(tmp_path: Path, at: str, code: str) -> None:
    text = f"""{CAR}
    landmarks: {{dash: clip, nose: clip}}
    route: [{{from: dash, to: nose, length: 1000 mm}}]
    plugs: {{lamp: {{at: {at}}}}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    (found,) = told(tmp_path, text, "PLC05", "REF01")
    assert found.code == code


@pytest.mark.parametrize(("start", "end"), [("a", "d"), ("d", "a")])
def test_of_two_ways_the_mend_names_a_landmark_between_the_ends(tmp_path: Path, start: str, end: str) -> None:
    text = f"""{HEAD}
    route:
      - {{from: a, to: b, length: 500 mm}}
      - {{from: b, to: d, length: 500 mm}}
      - {{from: a, to: c, length: 600 mm}}
      - {{from: c, to: d, length: 600 mm}}
    fuses: {{F1: {{rating: 5 A, in: {start}}}}}
    plugs: {{lamp: {{at: {end}}}}}
    wires: {{W1: {{colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}}}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    # a and d, the ends, lie on either way: only b or c tells which it is
    (found,) = told(tmp_path, text, "PLC04")
    assert found.mend == "Write by: and a landmark it passes, such as b"


def test_a_reading_with_the_id_of_two_rows_is_told_against_the_first(tmp_path: Path) -> None:
    text = f"""{CAR}
    changes:
      - {{id: C1, kind: cap, wire: W1, end: F1, stub: 30 mm, far: gone, {MADE}}}
      - {{id: C1, kind: cap, wire: W2, end: F1, stub: 30 mm, far: gone, {MADE}}}
    readings: [{{id: C1, of: lamp.1, read: 0.2 V}}]
    """
    (found,) = [f for f in told(tmp_path, text, "REF03") if f.problem.startswith("the reading id")]
    first = line_of(text, "- {id: C1")
    assert found.problem == f"the reading id 'C1' is the id of a row too, which is in job.yml:{first}"


# ---- terminals ------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("zone", "codes"), [("dry", []), ("flex", ["TRM01"])])
def test_solder_is_told_only_where_every_leg_to_the_terminal_flexes(
    tmp_path: Path, zone: str, codes: list[str]
) -> None:
    text = f"""{HEAD}
    landmarks: {{a: clip, b: clip, c: clip}}
    route:
      - {{from: a, to: b, length: 500 mm, zone: flex}}
      - {{from: b, to: c, length: 500 mm, zone: {zone}}}
    plugs: {{lamp: {{at: b}}}}
    wires: {{W1: {{colour: GN, size: 1 mm2, from: F1, to: FS1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: terminate, wire: W1, end: FS1, into: lamp.1, terminal: new pin, terminal fixed: soldered,
         {MADE}}}
    """
    worked = work(tmp_path, text)
    assert [row.status for row in worked.plan.rows] == ["in force"]
    assert [f.code for f in worked.findings if f.code == "TRM01"] == codes


@pytest.mark.parametrize(("wire", "entries"), [("end: F1, tail: 200 mm", []), ("end: lamp.1, into: lamp.3", ["C1-W1"])])
def test_thick_wire_let_in_far_from_a_plug_is_not_held_to_its_terminals(
    tmp_path: Path, wire: str, entries: list[str]
) -> None:
    kind = "terminate" if "into" in wire else "extend"
    # 4 mm2 against 1 mm2 is three steps of size, of 1.59 in area each: ln 4 / ln 1.59 = 2.99; two are let pass
    row = f"""
    plugs: {{lamp: {{takes: 0.5-1 mm2}}}}
    changes: [{{id: C1, kind: {kind}, wire: W1, {wire}, gap: 400 mm, piece: BU 4 mm2, {MADE}}}]
    """
    worked = work(tmp_path, CAR + row)
    assert [row.status for row in worked.plan.rows] == ["in force"]
    assert [f.entry for f in worked.findings if f.code == "SIZ02"] == entries
