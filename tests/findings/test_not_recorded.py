"""What the record does not say, counted by subject: of which of several things, in which words, at which line."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.jobs import work

MADE = "made: 2031-05-03 AK"
CHECK = "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"


def unsaid(folder: Path, text: str, *subjects: str) -> list[tuple[str, str, str, str]]:
    """Subject, entry, words and the mark of the line of everything that is not recorded, under these subjects."""
    worked = work(folder, text)
    lines = (folder / "job.yml").read_text(encoding="utf-8").splitlines()
    return [
        (n.subject, n.entry, n.what, lines[n.at.line - 1].partition("#")[2].strip())
        for n in worked.not_examined
        if n.subject in subjects
    ]


def test_of_a_joint_place_cover_and_form_are_counted_each(tmp_path: Path) -> None:
    text = f"""
    job: Joints
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: FS1}}
      W2: {{size: 1.0 mm2, from: b.1, to: FS1}}
      W3: {{size: 1.0 mm2, from: a.2, to: FS2}}
      W4: {{size: 1.0 mm2, from: b.2, to: FS2}}
      W5: {{size: 1.0 mm2, from: a.3, to: FS3}}
      W6: {{size: 1.0 mm2, from: b.3, to: FS3}}
      W7: {{size: 1.0 mm2, from: a.4, to: FS4}}
      W8: {{size: 1.0 mm2, from: b.4, to: FS4}}
      W9: {{size: 1.0 mm2, from: c.4, to: FS4}}
    splices:
      FS4: {{all members known: no}} # FS4
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], joint: "twist, unknown", {MADE}}} # C1
      - {{id: C2, kind: join, ends: [W3 at FS2, W4 at FS2], joint: "unknown, crimped", cover: cloth tape, {MADE}}} # C2
      - {{id: C3, kind: join, ends: [W5 at FS3, W6 at FS3], joint: "twist, soldered", where: a seat, {MADE}}} # C3
    """
    found = unsaid(tmp_path, text, "splices")
    assert sorted(found) == sorted([
        ("splices", "C1", "place not recorded", "C1"),
        ("splices", "C1", "cover not recorded", "C1"),
        ("splices", "C1", "twisted, and what holds it is not recorded", "C1"),
        ("splices", "C2", "place not recorded", "C2"),
        ("splices", "C2", "form of joint not recorded", "C2"),
        ("splices", "C3", "cover not recorded", "C3"),
        ("splices", "FS4", "other members not traced", "FS4"),
    ])  # fmt: skip


@pytest.mark.parametrize(("declared", "line"), [("    splices: {FS1: {}} # splices\n", "splices"), ("", "W2")])
def test_a_splice_with_one_wire_of_the_donor_tells_what_was_added_since(
    declared: str, line: str, tmp_path: Path
) -> None:
    text = f"""
    job: Splice
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: b.1}}
      W2: {{size: 1.0 mm2, from: a.2, to: FS1}} # W2
      W3: {{size: 1.0 mm2, from: a.3, to: FS2}}
      W4: {{size: 1.0 mm2, from: a.4, to: FS2}}
    changes:
      - {{id: C1, kind: add, wire: N1, from: FS1, to: q.1, piece: BU 1.0 mm2, cut: 1 m, {MADE}}}
      - {{id: C2, kind: add, wire: N2, from: FS1, to: q.2, piece: BU 1.0 mm2, cut: 1 m, {MADE}}}
    """
    text = f"{text.rstrip()}\n{declared}"
    found = [item for item in unsaid(tmp_path, text, "splices") if item[1] == "FS1"]
    what = "of the donor's wires only W2 is recorded in it; now also N1, N2"
    assert found == [("splices", "FS1", what, line)]


def test_each_cut_end_and_each_untraced_end_is_counted_of_its_own_wire(tmp_path: Path) -> None:
    text = f"""
    job: Ends
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: b.1}}
      W2: {{size: 1.0 mm2, from: a.2, to: loose}} # W2
      W3: {{size: 1.0 mm2, from: a.3, to: unknown}} # W3
      W4: {{size: 1.0 mm2, from: a.4, to: b.4}}
      W5: {{size: 1.0 mm2, from: a.5, to: b.5}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{a.1: unknown, b.1: gone}}, {MADE}}} # C1
      - {{id: C2, kind: remove, wire: W4, ends: {{a.4: capped 30 mm, b.4: gone}}, {MADE}}}
      - {{id: C3, kind: remove, wire: W5, ends: {{a.5: gone, b.5: pulled}}, {MADE}}}
    """
    found = unsaid(tmp_path, text, "cut ends")
    assert sorted(found) == [
        ("cut ends", "C1-W1-a.1", "how it was left is not known", "C1"),
        ("cut ends", "W2-loose", "cut off before; whether it is covered is not recorded", "W2"),
    ]
    assert ("wires", "W3", "one end not traced", "W3") in unsaid(tmp_path, text, "wires")


CIRCUITS = f"""
    job: Circuits
    supply: 12 V
    options: {{gearbox: unknown, roof: {{is: none, could be: [slide]}}, seat: {{is: heated, could be: [plain]}}}}
    fuses: {{F1: {{rating: 5 A, fed: always, in: bulkhead}}}}
    landmarks: {{bulkhead: grommet}}
    loads:
      whole: {{between: a.1 a.2, draws: 1 A}} # whole
      dark: {{between: b.1 b.2, draws: 1 A}} # dark
      still: {{between: c.1 c.2}} # still
      lock: {{between: d.1 d.2, for: gearbox is automatic}} # lock
      slide: {{between: e.1 e.2, for: roof is slide}} # slide
      seat: {{between: f.1 f.2, for: seat is heated}} # seat
      gone: {{between: g.1 g.2, verdict: deleted}} # gone
      pump: {{between: h.1 h.2, class: fuel pump, draws: 1 A}} # pump
      long: {{between: i.1 i.2, draws: 1 A}} # long
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: a.1, length: 1 m}}
      W2: {{size: 1.0 mm2, from: a.2, to: battery-, length: 1 m}}
      W3: {{size: 1.0 mm2, from: F1, to: c.1, length: 1 m}}
      W4: {{size: 1.0 mm2, from: c.2, to: battery-, length: 1 m}}
      W5: {{size: 1.0 mm2, from: F1, to: i.1}}
      W6: {{size: 1.0 mm2, from: i.2, to: battery-, length: 1 m}}
      W7: {{size: 1.0 mm2, from: F1, to: f.1, length: 1 m}}
      W8: {{size: 1.0 mm2, from: f.2, to: battery-, length: 1 m}}
{CHECK}"""


def test_of_each_load_of_this_car_what_is_missing_is_counted(tmp_path: Path) -> None:
    found = unsaid(tmp_path, CIRCUITS, "circuits")
    assert {(entry, line) for _, entry, _, line in found} == {
        (name, name) for name in ("dark", "still", "lock", "seat", "pump", "long")
    }

    def of(name: str) -> list[str]:
        return [what.partition(":")[0] for _, entry, what, _ in found if entry == name]

    assert of("dark") == ["feed", "return"]
    assert of("still") == ["current not recorded"]
    assert of("lock") == ["for a car whose gearbox is automatic; the option is not known", "feed", "return",
                          "current not recorded"]  # fmt: skip
    assert of("seat") == ["current not recorded"]
    assert of("pump") == ["fuel cut-off", "feed", "return"]
    assert of("long") == ["drop not computed"]
    (drop,) = [what for _, entry, what, _ in found if entry == "long"]
    assert "W5" in drop
    assert "W6" not in drop


def test_a_drop_is_told_once_where_none_is_computed(tmp_path: Path) -> None:
    text = CIRCUITS.replace("    supply: 12 V\n", "    supply: 12 V\n    ground side: positive # side\n")
    found = unsaid(tmp_path, text, "circuits")
    assert not [item for item in found if "drop not computed" in item[2]]
    whole = ("circuits", "ground side", "positive ground: no resistance, drop or rise is computed", "side")
    assert found.count(whole) == 1
    assert [item for item in unsaid(tmp_path / "usual", CIRCUITS, "circuits") if item[1] == "ground side"] == []


def test_of_wires_and_pieces_size_and_colour_are_counted_while_they_are_in_the_car(tmp_path: Path) -> None:
    text = f"""
    job: Wires
    usual: {{joint: "lap, soldered", overlap: 10 mm, slack: 50 mm}}
    wires:
      W1: {{from: a.1, to: b.1, length: 1 m}} # W1
      W2: {{from: a.2, to: b.2, length: 1 m, size: 1.0 mm2}} # W2
      W3: {{from: a.3, to: b.3, length: 1 m, colour: BU}} # W3
      W4: {{from: a.4, to: b.4, length: 1 m}} # W4
      W5: {{from: a.5, to: b.5, length: 1 m}} # W5
      W6: {{from: a.6, to: b.6, length: 1 m, size: 1.0 mm2, colour: BU}} # W6
      W7: {{from: a.7, to: b.7, length: 1 m, size: 1.0 mm2, colour: BU}} # W7
    changes:
      - {{id: C1, kind: remove, wire: W4, ends: {{a.4: gone, b.4: gone}}, {MADE}}}
      - {{id: C2, kind: remove, wire: W5, ends: {{a.5: gone, b.5: capped 30 mm}}, {MADE}}}
      - {{id: C3, kind: extend, wire: W6, end: b.6, pigtail: 200 mm, gap: unknown, piece: unknown, {MADE}}} # C3
      - {{id: C4, kind: extend, wire: W7, end: b.7, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2, {MADE}}} # C4
    """
    found = unsaid(tmp_path, text, "wires")
    assert [item[1:] for item in found if "cut length" not in item[2]] == [
        ("W1", "size not read", "W1"),
        ("W1", "colour not read", "W1"),
        ("W2", "colour not read", "W2"),
        ("W3", "size not read", "W3"),
        ("W5", "size not read", "W5"),
        ("W5", "colour not read", "W5"),
        ("C3-W6", "size of the piece not read", "C3"),
        ("C3-W6", "colour of the piece not read", "C3"),
    ]
    (length,) = [item for item in found if "cut length" in item[2]]
    assert (length[1], length[3]) == ("C3-W6", "C3")
    assert length[2].startswith("cut length not computed: ")


def test_of_points_fuses_legs_and_plugs_what_nobody_looked_at_is_counted(tmp_path: Path) -> None:
    text = f"""
    job: Points
    plugs:
      lamp: {{ways: 4, cavities not examined: [3, 4]}} # lamp
      horn: {{ways: 4}}
    modules:
      unit: {{cavities not examined: [7]}} # unit
    grounds:
      L1: {{back to: battery-, surface: bare metal}}
      L2: {{surface: bare metal}} # L2
      L3:
        back to: battery-
        surface: unknown # face of L3
      L4: {{back to: battery-}}
      L5: {{surface: unknown}}
    fuses:
      F1: {{rating: 10 A, in: box}}
      F2: {{in: box}} # F2
      F3: {{rating: unknown, in: box}} # F3
      F4: {{rating: 10 A}} # F4
      F5: {{rating: 10 A}} # F5
    landmarks: {{box: fuse box, nose: end, tail: end}}
    route:
      - {{from: box, to: nose, length: 1 m}}
      - {{from: box, to: tail, length: unknown}} # tail
    wires:
      W1: {{from: F1, to: L1, colour: BU, size: 1.0 mm2}}
      W2: {{from: F2, to: L2, colour: BU, size: 1.0 mm2}}
      W3: {{from: F3, to: L3, colour: BU, size: 1.0 mm2}}
      W4: {{from: F4, to: L4, colour: BU, size: 1.0 mm2}}
    changes:
      - {{id: C1, kind: protect, fuse: F5, use: spare, {MADE}}}
    """
    assert sorted(unsaid(tmp_path, text, "cavities", "grounds", "fuses")) == sorted([
        ("cavities", "lamp", "cavities 3, 4", "lamp"),
        ("cavities", "unit", "cavities 7", "unit"),
        ("grounds", "L1", "size of its cable not recorded", ""),
        ("grounds", "L3", "size of its cable not recorded", ""),
        ("grounds", "L4", "size of its cable not recorded", ""),
        ("grounds", "L2", "way back to the battery not recorded", "L2"),
        ("grounds", "L3", "face under its rings not known", "face of L3"),
        ("fuses", "F2", "rating not recorded", "F2"),
        ("fuses", "F3", "rating not recorded", "F3"),
        ("fuses", "F4", "place not recorded", "F4"),
    ])  # fmt: skip
    assert ("route", "box to tail", "length not measured", "tail") in unsaid(tmp_path / "r", text, "route")


@pytest.mark.parametrize(("size", "counted"), [("28 AWG", True), ("22 AWG", False), ("107 mm2", False)])
def test_a_fuse_on_a_wire_that_no_row_of_the_table_holds_is_counted(size: str, counted: bool, tmp_path: Path) -> None:
    text = f"""
    job: Table
    AWG means: ASTM B258
    fuses: {{F1: {{rating: 1 A, in: box}}, F2: {{rating: 1 A, in: box, use: spare}}}}
    wires: {{W1: {{from: F1, to: unit.1, size: {size}}}}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    told = f"not judged against W1 from F1 to unit.1 ({size}), which no row of the planning table holds"
    assert [what for _, _, what, _ in unsaid(tmp_path, text, "fuses")] == [told] * counted


def test_heat_and_places_in_words_are_counted_where_a_route_is_recorded(tmp_path: Path) -> None:
    text = f"""
    job: Heat
    landmarks: {{box: fuse box, nose: end}}
    route: [{{from: box, to: nose, length: 1 m, hottest: 90 C}}]
    fuses: {{F1: {{rating: 10 A, in: box}}}}
    plugs:
      lamp: {{at: nose}}
      horn: {{at: under the seat}} # horn
      fan: {{at: the heater}}
      seat: {{at: unknown}}
    loads: {{the heater: {{between: the-heater.1 the-heater.2}}}}
    wires:
      W1: {{from: F1, to: lamp.1, colour: BU, size: 1.0 mm2}}
      W2: {{from: F1, to: horn.1, colour: BU, size: 1.0 mm2}} # W2
      W3: {{from: q.1, to: FS1, colour: BU, size: 1.0 mm2}} # W3
      W4: {{from: q.2, to: FS1, colour: BU, size: 1.0 mm2}} # W4
    changes:
      - id: C1
        kind: join
        ends: [W3 at FS1, W4 at FS1]
        where: behind the glovebox # where
        {MADE}
    """
    heat = "heat on its way not examined: its way on the route is not recorded"
    assert unsaid(tmp_path, text, "route") == [
        *(("route", wire, heat, wire) for wire in ("W2", "W3", "W4")),
        ("route", "horn", "its place is in words only: under the seat", "horn"),
        ("route", "C1", "its place is in words only: behind the glovebox", "where"),
    ]
    cool = unsaid(tmp_path / "cool", text.replace(", hottest: 90 C", ""), "route")
    assert [item[1] for item in cool] == ["horn", "C1"]


def test_rows_that_are_not_decided_and_maps_that_may_be_turned_are_counted(tmp_path: Path) -> None:
    text = f"""
    job: Rows
    options: {{gearbox: unknown}}
    plugs: {{lamp: {{ways: 2}}, lamp-b: {{ways: 2}}, horn: {{ways: 2}}, horn-b: {{ways: 2}}}}
    wires: {{W1: {{from: F1, to: lamp.1}}, W2: {{from: F1, to: horn.1}}, W3: {{from: F1, to: fan.1}}}}
    changes:
      - id: C1
        kind: swap
        plug: lamp
        new plug: lamp-b
        cavities: {{1: 2}}
        seen from: unknown # seen from
        {MADE}
      - {{id: C2, kind: swap, plug: horn, new plug: horn-b, seen from: wire side, cavities: {{1: 2}}, {MADE}}}
      - {{id: C3, kind: remove, wire: W3, ends: {{F1: gone, fan.1: gone}}, only if: gearbox is automatic, {MADE}}} # C3
    """
    found = unsaid(tmp_path, text, "changes")
    assert [(entry, line) for _, entry, _, line in found] == [("C1", "seen from"), ("C3", "C3")]
    assert "gearbox" in found[1][2]
    assert found[0][2] == "side that its cavity map is read from not known: each pair may be swapped"


@pytest.mark.parametrize(("starter", "strap", "counted"), [
    ("class: starter", "unknown", True), ("class: starter", "body only", False), ("class: motor", "unknown", False),
    ("class: starter, verdict: deleted", "unknown", False),
])  # fmt: skip
def test_the_strap_of_an_engine_is_asked_for_where_a_starter_turns_it(
    starter: str, strap: str, counted: bool, tmp_path: Path
) -> None:
    text = f"""
    job: Strap
    engine strap: {strap} # strap
    systems: {{restraint: untouched, data bus: changed}} # systems
    loads: {{starter: {{between: s.1 s.2, {starter}}}}}
    wires: {{W1: {{from: s.2, to: L1}}}}
{CHECK}"""
    found = [item for item in unsaid(tmp_path, text, "grounds") if item[1] == "engine strap"]
    assert found == ([("grounds", "engine strap", "not recorded", "strap")] if counted else [])
    assert unsaid(tmp_path / "systems", text, "systems") == [
        ("systems", "high voltage", "what became of it not recorded", "systems"),
        ("systems", "declared by", "who declares the systems not recorded", "systems"),
        ("systems", "systems", "not declared: anti-lock, immobiliser", "systems"),
    ]


def test_of_what_the_shop_says_must_work_the_names_that_are_no_load_here_are_counted(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text("must work: [lamp, bell, horn]\n", encoding="utf-8")
    text = f"""
    job: Must work
    must work: [horn]
    loads: {{lamp: {{between: lamp.1 lamp.2, draws: 1 A}}}}
    wires: {{W1: {{from: F1, to: lamp.1}}}}
{CHECK}"""
    found = unsaid(tmp_path / "one", text, "circuits")
    words = "must work, says the shop; no load here has that name"
    assert [(entry, what) for _, entry, what, _ in found if "shop" in what] == [("bell", words)]


def test_a_new_wire_of_which_nothing_was_read_is_counted_at_the_head_of_the_job(tmp_path: Path) -> None:
    text = f"""
    job: New # head
    wires: {{W1: {{from: F1, to: lamp.1, size: 1.0 mm2, colour: BU}}}}
    changes:
      - {{id: C1, kind: add, wire: N1, from: a.1, to: b.1, piece: unknown, cut: 1 m, {MADE}}} # C1
    """
    found = [item for item in unsaid(tmp_path, text, "wires") if item[1].startswith(("N1", "W1"))]
    assert found == [("wires", "N1", "size not read", "head"), ("wires", "N1", "colour not read", "head")]
