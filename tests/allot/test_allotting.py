"""What of a job's record makes an offcut fit or unfit, the rack's account, and the words of the command."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from allot.shop import HEAD, TODAY, cuts, proposal, read, written
from aswired.car.insulation import BEARS
from aswired.cli import run as cli
from aswired.rack import proposal_text, record
from aswired.rack.shelf import Rack, pieces_left, read_rack
from aswired.work import work_out

ONE = "changes:\n  - {id: C1, kind: extend, wire: W1, plug: lamp, gap: 430 mm, pigtail: 100 mm, piece: GN 18 AWG}\n"


def one(shop: Path, offcuts: str, extra: str = "", row: str = ONE):
    return proposal(written(shop, "van", f"{HEAD}offcuts:\n  {offcuts}\n{extra}{row}"))


@pytest.mark.parametrize(
    ("offcut", "fits"),
    [
        ("O1: GN 18 AWG 530 mm", True),  # 500 + 30 trim
        ("O1: GN 18 AWG 529 mm", False),
        ("O1: GN 20 AWG 2 m", False),  # thinner
        ("O1: GN 14 AWG 2 m", True),  # two steps
        ("O1: GN 12 AWG 2 m", False),  # three
        ("O1: GN 1.0 mm2 2 m", True),  # 18 AWG is 0.76 mm2 at least
        ("O1: GN 0.5 mm2 2 m", False),
        ("O1: GN 18 AWG 2 m, browned", False),
        ("O1: GN 18 AWG 2 m, oily", False),
        ("O1: GN 18 AWG 2 m, nicked", False),
        ("O1: GN 18 AWG 2 m, good", True),
        ("O1: GN 18 AWG unknown", False),
        ("O1: GN unknown 2 m", False),
        ("O1: unknown 18 AWG 2 m", False),
        ("O1: OG 18 AWG 2 m", False),  # kept for high voltage
        ("O1: BU 18 AWG 2 m", True),
        ("O1: BK 18 AWG 2 m", False),  # means ground in this donor, the wire is green
        ("O1: RD/WH 18 AWG 2 m", False),  # W2 brings it into the same plug
        ("O1: VT 18 AWG 2 m", True),  # W4 is in another plug
    ],
)
def test_what_makes_an_offcut_fit(tmp_path, offcut, fits):
    assert cuts(one(tmp_path, offcut)) == ({"C1-W1": "O1"} if fits else {})


def test_red_is_not_put_into_a_ground(tmp_path):
    row = "changes:\n  - {id: C1, kind: extend, wire: W3, plug: lamp, gap: 430 mm, pigtail: 100 mm, piece: BK 16 AWG}\n"
    assert cuts(one(tmp_path / "red", "O1: RD 16 AWG 2 m", row=row)) == {}
    assert cuts(one(tmp_path / "blue", "O1: BU 16 AWG 2 m", row=row)) == {"C1-W3": "O1"}


ROUTE = """\
landmarks: {box: lid, nose: takeout}
route: [{from: box, to: nose, length: 2 m, HEAT}]
fuses: {F1: {in: box}}
"""


@pytest.mark.parametrize(
    ("heat", "insulation", "fits"),
    [
        ("hottest: 120 C", "", False),  # nothing recorded of it: not put into a hot leg
        ("hottest: 120 C", ", PVC", False),
        ("hottest: 120 C", ", cross-linked", True),
        ("hottest: 130 C", ", cross-linked", False),
        ("hottest: 130 C", ", silicone", True),
        ("zone: hot", ", PVC", False),
        ("zone: hot", ", cross-linked", True),
        ("zone: dry", "", True),
        ("zone: dry", ", PVC", True),
    ],
)
def test_insulation_has_to_bear_the_hottest_leg(tmp_path, heat, insulation, fits):
    text = HEAD.replace("lamp: {ways: 4}", "lamp: {ways: 4, at: nose}")
    text += ROUTE.replace("HEAT", heat) + f"offcuts:\n  O1: GN 18 AWG 2 m{insulation}\n" + ONE
    found = proposal(written(tmp_path, "van", text))
    assert cuts(found) == ({"C1-W1": "O1"} if fits else {})
    assert found.worked.job.limits_in_force[BEARS["cross-linked"]].value == 125


def test_pieces_of_two_wires_in_one_plug_get_two_colours_and_the_old_colour_where_there_is_one(tmp_path):
    rows = "changes:\n  - {id: C1, kind: extend, plug: lamp, gap: 430 mm, pigtail: 100 mm, stagger: 50 mm,\n"
    rows += "     wires: {W1: GN 18 AWG, W2: RD/WH 18 AWG}}\n"
    found = one(tmp_path, "O1: BU 18 AWG 1200 mm\n  O2: GN 18 AWG 600 mm\n  O3: YE 18 AWG 600 mm", row=rows)
    # green stays green from O2; W2 takes blue or yellow: yellow leaves 70 mm, too short to keep, blue leaves 670 mm
    assert cuts(found) == {"C1-W1": "O2", "C1-W2": "O1"}
    alone = one(tmp_path / "b", "O1: BU 18 AWG 1200 mm", row=rows)
    assert len(alone.cuts) == 1  # blue for both would stand twice in the plug
    assert alone.answer.score[0] == 5000


def test_an_offcut_comes_off_before_it_is_cut(tmp_path):
    gone = "  - {id: C0, kind: remove, wire: W4, ends: {F3: gone, horn.1: gone}, reclaimed: {O9: GN 18 AWG 900 mm}}\n"
    before = f"changes:\n{gone}" + ONE.removeprefix("changes:\n")
    assert cuts(proposal(written(tmp_path / "a", "van", HEAD + before))) == {"C1-W1": "O9"}
    after = ONE + gone.replace("C0", "C2")
    found = proposal(written(tmp_path / "b", "van", HEAD + after))
    assert cuts(found) == {}
    assert "comes off later" in found.buy[0].why


def test_what_is_made_is_left_alone_and_an_unrecorded_length_is_said(tmp_path):
    made = ONE.rstrip("}\n") + ", made: 2031-05-01 AK}\n"
    assert proposal_text(one(tmp_path / "a", "O1: GN 18 AWG 2 m", row=made)) == "No planned piece waits for wire."
    found = one(tmp_path / "b", "O1: GN 18 AWG 2 m", row=ONE.replace("gap: 430 mm, ", ""))
    assert (found.cuts, found.buy) == ((), ())
    assert "its length is not recorded: gap" in proposal_text(found)


def test_wire_whose_maker_says_what_goes_in_is_left_out(tmp_path):
    text = HEAD.replace(
        "W1: GN 18 AWG, F1 to lamp.1, 2 m", "W1: {colour: GN, size: 18 AWG, from: F1, to: lamp.1, KIND}"
    )
    text = text.replace("KIND", "special: resistance wire")
    found = proposal(written(tmp_path, "van", f"{text}offcuts:\n  O1: GN 18 AWG 2 m\n{ONE}"))
    assert cuts(found) == {}
    assert "declared 'resistance wire'" in found.pieces_aside[0].why


def test_what_is_written_raises_no_finding_about_colour_or_size(tmp_path):
    rows = "changes:\n  - {id: C1, kind: extend, plug: lamp, gap: 430 mm, pigtail: 100 mm, stagger: 50 mm,\n"
    rows += "     wires: {W1: GN 18 AWG, W2: RD/WH 18 AWG, W3: BK 16 AWG}}\n"
    stock = ["BU 18 AWG", "RD/WH 16 AWG", "BK 14 AWG", "GN 12 AWG", "OG 16 AWG", "YE 1.0 mm2", "BK 18 AWG"]
    offcuts = "\n  ".join(f"O{number}: {wire} 900 mm" for number, wire in enumerate(stock))
    found = one(tmp_path, offcuts, row=rows)
    assert len(found.cuts) == 3
    record(found, read(tmp_path / "van"))
    after = work_out(read(tmp_path / "van"), TODAY)
    assert [f for f in after.findings if f.code.startswith(("COL", "SIZ", "OFF"))] == []
    assert {piece.id: piece.offcut for piece in after.pieces} == cuts(found)
    assert all((use.left_mm or 0) >= 0 for use in after.plan.offcuts.values())


# ---- the rack -------------------------------------------------------------------------------------------------------
RACK = "rack:\n  R1: GN 18 AWG 2 m, cross-linked, good\n  R2: BU 16 AWG 3 ft 4 in\n"
CUTS = ONE.replace("C1", "C5").replace("GN 18 AWG", "GN 18 AWG from R1")


def left(shop: Path) -> dict[str, float | None]:
    rack, faults = read_rack(shop)
    assert faults == ()
    return {piece.name: piece.left_mm for piece in pieces_left(shop, rack)}


def test_what_any_job_cuts_is_taken_off(tmp_path):
    written(tmp_path, "van", HEAD + ONE, RACK)
    assert left(tmp_path) == {"R1": 2000, "R2": 1016}
    written(tmp_path, "truck", HEAD + CUTS)
    written(tmp_path, "bus", HEAD + CUTS + CUTS.removeprefix("changes:\n").replace("C5", "C6").replace("W1", "W2"))
    assert left(tmp_path) == {"R1": 2000 - 3 * 500, "R2": 1016}
    assert cuts(proposal(tmp_path / "van")) == {"C1-W1": "R2"}  # green is too short now: 500 of 530 mm


def test_a_job_that_reclaimed_or_lists_another_piece_of_the_same_name_does_not_cut_from_the_rack(tmp_path):
    written(tmp_path, "van", HEAD + ONE, RACK)
    written(
        tmp_path, "own", f"{HEAD}offcuts: {{R1: RD 18 AWG 5 m}}\n{CUTS.replace('GN 18 AWG from', 'RD 18 AWG from')}"
    )
    gone = "  - {id: C4, kind: remove, wire: W4, ends: {F3: gone, horn.1: gone}, reclaimed: {R1: VT 18 AWG 900 mm}}\n"
    written(tmp_path, "off", HEAD + CUTS.replace("changes:\n", f"changes:\n{gone}"))
    assert left(tmp_path)["R1"] == 2000
    written(tmp_path, "listed", f"{HEAD}offcuts: {{R1: GN 18 AWG 2 m}}\n{CUTS}")
    assert left(tmp_path)["R1"] == 1500


def test_what_is_left_is_not_known_when_a_cut_or_a_job_cannot_be_read(tmp_path):
    written(tmp_path, "van", HEAD + ONE, RACK)
    written(tmp_path, "truck", HEAD + CUTS.replace("gap: 430 mm, ", ""))
    assert left(tmp_path) == {"R1": None, "R2": 1016}
    assert cuts(proposal(tmp_path / "van")) == {"C1-W1": "R2"}
    written(tmp_path, "truck", HEAD + CUTS.replace("R1", "R2").replace("430 mm", "430"))
    assert left(tmp_path) == {"R1": 2000, "R2": None}
    assert "truck cuts from it and has file faults" in proposal_text(proposal(tmp_path / "van"))


def test_a_listed_rack_piece_counts_what_other_jobs_cut_since(tmp_path):
    written(tmp_path, "van", f"{HEAD}offcuts: {{R1: GN 18 AWG 2 m}}\n{ONE}", "rack:\n  R1: GN 18 AWG 2 m\n")
    assert cuts(proposal(tmp_path / "van")) == {"C1-W1": "R1"}
    written(tmp_path, "truck", HEAD + CUTS.replace("430 mm", "1500 mm"))  # 1570 of 2000 mm are gone
    assert cuts(proposal(tmp_path / "van")) == {}


def test_a_fault_of_the_rack_is_told_with_its_line(tmp_path):
    written(tmp_path, "van", HEAD + ONE, "rack:\n  R1: GN 18 AWG 2 m, crosslinked\n  R2: BU 16 2 m\nshelf: 3\n")
    rack, faults = read_rack(tmp_path)
    assert rack == Rack()
    assert [(fault.code, str(fault.at)) for fault in faults] == [
        ("VAL04", "rack.yml:2"),
        ("VAL04", "rack.yml:3"),
        ("KEY01", "rack.yml:4"),
    ]
    assert "cross-linked" in faults[0].mend


# ---- the command ----------------------------------------------------------------------------------------------------
@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_command_proposes_writes_and_has_nothing_to_do_the_next_time(here, capsys):
    listed = "fuses: {F1: {in: box}, F2: {in: box}, F3: {in: box}}\n"
    written(here / "jobs", "van", HEAD + listed + ONE, "rack:\n  R1: BU 18 AWG 600 mm\n")
    before = (here / "jobs" / "van" / "job.yml").read_text()
    assert cli.main(["allot", "van"]) == 0
    said = capsys.readouterr().out
    assert re.search(r"R1 +BU 18 AWG +rack +C1-W1 +500 mm", said)
    assert re.search(r"R1 +70 mm +too short to keep", said)
    assert "C1-W1: GN goes on as BU" in said
    assert "Proved best" in said
    assert (here / "jobs" / "van" / "job.yml").read_text() == before
    assert cli.main(["allot", "van", "--write"]) == 0
    assert "Wrote job.yml." in capsys.readouterr().out
    assert "piece: BU 18 AWG from R1}" in (here / "jobs" / "van" / "job.yml").read_text()
    assert cli.main(["allot", "van", "--write"]) == 0
    assert "No planned piece waits for wire." in capsys.readouterr().out
    assert cli.main(["check", "van"]) == 0


def test_the_command_says_what_has_to_be_bought_and_why(here, capsys):
    written(here / "jobs", "van", f"{HEAD}offcuts:\n  O1: GN 18 AWG 300 mm\n  O2: GN 22 AWG 3 m\n{ONE}")
    assert cli.main(["allot", "van"]) == 0
    assert re.search(
        r"New wire, 500 mm together\n  C1-W1  GN 18 AWG  500 mm  no offcut serves: 1 too short", capsys.readouterr().out
    )


def test_the_command_stops_at_a_fault_of_the_job_or_of_the_rack(here, capsys):
    written(here / "jobs", "van", HEAD + ONE.replace("430 mm", "430"), "rack:\n  R1: BU 18 2 m\n")
    assert cli.main(["allot", "van", "--write"]) == 1
    assert "job.yml:" in capsys.readouterr().out
    written(here / "jobs", "van", HEAD + ONE)
    assert cli.main(["allot", "van", "--write"]) == 1
    said = capsys.readouterr().out
    assert "fault VAL04 rack.yml:2" in said
    assert "from R1" not in (here / "jobs" / "van" / "job.yml").read_text()


def test_the_command_tells_the_bound_when_time_runs_out(here, capsys):
    rows = "".join(
        f"  - {{id: C{n}, kind: add, wire: X{n}, from: F{n}, to: P{n}.1, piece: GN 18 AWG, reach: {300 + 37 * n} mm}}\n"
        for n in range(30)
    )
    offcuts = "\n  ".join(f"O{n}: BU 18 AWG {500 + 61 * n} mm" for n in range(20))
    written(here / "jobs", "van", f"{HEAD}offcuts:\n  {offcuts}\nchanges:\n{rows}")
    assert cli.main(["allot", "van", "--seconds", "0.001"]) == 0
    assert re.search(
        r"Not proved best: time ran out. \w[\w ]+: [\d.]+( mm)?, at most [\d.]+( mm)? better", capsys.readouterr().out
    )


@pytest.mark.slow
def test_no_page_depends_on_the_rack(here, capsys):
    folder = written(here / "jobs", "van", HEAD + CUTS)
    assert cli.main(["build"]) == 0
    pages = {path: path.read_bytes() for path in (here / "site").rglob("*.html")}
    assert len(pages) > 10
    written(here / "jobs", folder.name, HEAD + CUTS, "rack:\n  R1: GN 18 AWG 2 m, good\n  R2: not an offcut\n")
    assert cli.main(["build"]) == 0
    assert {path: path.read_bytes() for path in (here / "site").rglob("*.html")} == pages
    assert not list((here / "site").rglob("rack*"))
