"""Grounds, links and systems: silence where nothing is known, and one line where many things share a fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.checks.grounds import thread_mm
from aswired.figures.links import gauge_numbers
from aswired.record import Job
from aswired.text.units import read_size
from tests.findings.cases_special import LINK, OUT, one, system
from tests.findings.jobs import work

SYSTEMS = ("restraint", "anti-lock", "immobiliser", "data bus", "high voltage")
NOTHING_KNOWN = """
    job: Nothing is known
    engine strap: unknown
    battery moved: unknown
    body returns: unknown
    systems: {restraint: unknown, anti-lock: unknown, immobiliser: unknown, data bus: unknown, high voltage: unknown}
    grounds: {L1: {stud: unknown, cable: unknown, cable length: unknown, surface: unknown, conducts: unknown}}
    loads:
      starter: {between: starter.1 starter.2, class: starter, draws: unknown}
      coolant: {between: ntc.1 ntc.2, class: sensor, draws: unknown}
    wires:
      W1: {from: unknown, to: starter.1, size: unknown, special: fusible link, length: unknown, protects: [W2]}
      W2: {from: starter.2, to: unknown, size: unknown}
      W3: {from: ntc.1, to: unknown, special: shielded, shield at: [unknown]}
      W4: {from: ntc.2, to: G1, size: unknown}
      W5: {from: u.1, to: w.1, special: twisted pair, pair: W6, length: unknown}
      W6: {from: u.2, to: w.2, special: twisted pair, length: unknown}
      W7: {from: lambda.1, to: u.3, special: oxygen sensor}
    changes:
      - {id: C1, kind: ground, wire: W4, end: G1, to: L1, ring: unknown, made: yes}
      - {id: C2, kind: extend, wire: W3, plug: ntc, gap: unknown, pigtail: unknown, piece: unknown, shield: unknown,
         joint: unknown, cover: unknown, made: yes}
      - {id: C3, kind: extend, plug: w, gap: unknown, pigtail: unknown, wires: {W5: unknown, W6: unknown},
         untwisted: unknown, joint: unknown, cover: unknown, made: yes}
      - {id: C4, kind: extend, wire: W7, plug: lambda, gap: unknown, pigtail: unknown, piece: unknown, joint: unknown,
         cover: unknown, made: yes}
"""


def test_unknown_everywhere_is_neither_stop_nor_error(tmp_path: Path) -> None:
    worked = work(tmp_path, NOTHING_KNOWN)
    assert all(row.counts for row in worked.plan.rows), worked.plan.rows
    own = [f for f in worked.findings if f.code[:3] in ("GND", "SPC", "HDR")]
    assert [(f.code, f.entry) for f in own] == []
    assert worked.may_power
    unseen = {(item.subject, item.entry, item.what) for item in worked.not_examined}
    assert ("grounds", "L1", "face under its rings not known") in unseen
    assert ("grounds", "engine strap", "not recorded") in unseen


def test_what_nobody_declared_is_one_line_and_what_is_declared_is_none(tmp_path: Path) -> None:
    def lines(folder: str, declared: str) -> list[tuple[str, str]]:
        unseen = work(tmp_path / folder, system(declared)).not_examined
        return [(i.entry, i.what) for i in unseen if i.entry in ("systems", *SYSTEMS)]

    assert lines("some", "anti-lock: untouched") == [
        ("restraint", "what became of it not recorded"),
        ("high voltage", "what became of it not recorded"),
        ("systems", "not declared: immobiliser, data bus"),
    ]
    every = "\n      ".join(f"{key}: never fitted" for key in SYSTEMS)
    assert lines("all", every) == []


def test_new_points_without_a_surface_are_told_in_one_line(tmp_path: Path) -> None:
    rows = "\n".join(
        f"      - {{id: C{n}, kind: ground, wire: W{n}, end: G1, to: L{n}, made: 2031-05-03 AK}}" for n in (1, 2, 3)
    )
    text = f"""
    job: Three points
    grounds: {{L1: {{back to: battery-}}, L2: {{back to: battery-}}, L3: {{back to: battery-, surface: bare metal}}}}
    wires: {{W1: {{from: a.1, to: G1}}, W2: {{from: b.1, to: G1}}, W3: {{from: c.1, to: G1}}}}
    changes:
{rows}
    """
    (told,) = [f.problem for f in work(tmp_path, text).findings if f.code == "GND11"]
    assert told.endswith("is not written for L1, L2")


def test_a_plan_in_which_nothing_is_made_yet_is_not_asked_for_surfaces(tmp_path: Path) -> None:
    text = """
    job: Planned
    grounds: {L1: {back to: battery-}}
    wires: {W1: {from: a.1, to: G1}}
    changes: [{id: C1, kind: ground, wire: W1, end: G1, to: L1}]
    """
    assert [f.code for f in work(tmp_path, text).findings if f.code == "GND11"] == []


def test_a_row_on_many_wires_of_a_system_is_told_once_with_what_is_open(tmp_path: Path) -> None:
    text = one("anti-lock", header="vehicle: none")
    (told,) = [f for f in work(tmp_path / "open", text).findings if f.code == "SPC09"]
    assert told.mend.startswith("Write under systems: what became of the anti-lock; prove that the warning lamp")
    # taken out whole it is only to be declared
    out = system("restraint: never fitted", "anti-lock", OUT.replace("LEFT", "gone"))
    (told,) = [f for f in work(tmp_path / "out", out).findings if f.code == "SPC09"]
    assert told.mend == "Write under systems: what became of the anti-lock"


def test_a_positive_ground_silences_the_figures_but_not_the_studs(tmp_path: Path) -> None:
    text = """
    job: Positive
    ground side: positive
    grounds: {L1: {stud: M8, back to: battery-, cable: 2.5 mm2, cable length: 2 m}}
    loads: {pump: {between: pump.1 pump.2, draws: 30 A}}
    wires: {W1: {from: F1, to: pump.1}, W2: {from: pump.2, to: G1}}
    changes: [{id: C1, kind: ground, wire: W2, end: G1, to: L1, ring: "new, M6", made: 2031-05-03 AK}]
    """
    told = {f.code for f in work(tmp_path / "positive", text).findings}
    assert {"HDR01", "GND03"} <= told
    assert "GND05" not in told
    assert "GND06" in told  # 30 A are too much for 2.5 mm2 whichever way they flow
    negative = {f.code for f in work(tmp_path / "negative", text.replace("positive", "negative")).findings}
    assert {"GND05", "GND06"} <= negative


@pytest.mark.parametrize(
    ("words", "mm"), [("M6", 6.0), ("stud M10, welded", 10.0), ("3/8 in", 9.525), ("unknown", None), ("", None)]
)
def test_the_thread_is_found_among_words(words: str, mm: float | None) -> None:
    assert thread_mm(words) == (None if mm is None else pytest.approx(mm))


@pytest.mark.parametrize(
    ("link", "wire", "numbers"),
    [
        ("20 AWG", "16 AWG", 4),
        ("14 AWG", "10 AWG", 4),
        ("18 AWG", "16 AWG", 2),
        ("0.5 mm2", "1.5 mm2", 5),  # ln 3 / ln 1.261 = 4.74
        ("1.0 mm2", "2.5 mm2", 4),  # 3.95
        ("1.5 mm2", "2.5 mm2", 2),  # 2.20
        ("18 AWG", "2.5 mm2", 5),  # SAE J1128 0.76 mm2 (from memory): ln 3.29 / ln 1.261 = 5.13
        ("unknown", "2.5 mm2", None),
        ("18 AWG", "unknown", None),
    ],
)
def test_gauge_numbers_between_a_link_and_its_wire(link: str, wire: str, numbers: int | None) -> None:
    assert gauge_numbers(read_size(link), read_size(wire), Job(job="Link")) == numbers


def test_a_link_that_leaves_with_all_it_protects_is_no_fault(tmp_path: Path) -> None:
    rows = """{id: C1, kind: remove, wires: {K1: {B1: flush, FS1: flush}, W5: {FS1: flush, box.1: gone}},
         made: 2031-05-03 AK}"""
    text = LINK.replace("LIMITS", "vehicle: none").replace("SIZE", "18 AWG").replace("WIRE", "14 AWG")
    worked = work(tmp_path, text.replace("LONG", "200 mm").replace("ROW", rows))
    assert all(row.counts for row in worked.plan.rows), worked.findings
    assert [f.problem for f in worked.findings if f.code == "SPC05"] == []


def test_a_wire_that_a_link_protects_and_that_is_nowhere_is_told(tmp_path: Path) -> None:
    text = LINK.replace("LIMITS", "vehicle: none").replace("SIZE", "18 AWG").replace("WIRE", "14 AWG")
    text = (
        text.replace("LONG", "200 mm").replace("ROW", "{id: C1, kind: verify, proves: [C1]}").replace("[W5]", "[W55]")
    )
    (told,) = [f for f in work(tmp_path, text).findings if f.code == "REF02"]
    assert (told.entry, told.mend) == ("K1", "Did you mean W5?")


@pytest.mark.parametrize(("says", "codes"), [("fusible link", []), ("none", ["FUS03"])])
def test_a_new_link_protects_as_the_donors_own_did(says: str, codes: list[str], tmp_path: Path) -> None:
    text = f"""
    job: New link
    splices: {{B1: {{}}, FS1: {{}}}}
    loads: {{pump: {{between: pump.1 pump.2, draws: 7 A, feed: traced}}}}
    grounds: {{L1: {{back to: battery-}}}}
    wires:
      W1: {{from: battery+, to: B1, size: 16 mm2, length: 100 mm}}
      W2: {{from: FS1, to: pump.1, size: 14 AWG, length: 900 mm}}
      W3: {{from: pump.2, to: L1, size: 14 AWG, length: 900 mm}}
    changes:
      - {{id: C1, kind: add, wire: K2, from: B1, to: FS1, piece: BK 18 AWG, cut: 150 mm, special: {says},
         made: 2031-05-03 AK}}
    """
    assert [f.code for f in work(tmp_path, text).findings if f.code == "FUS03"] == codes
