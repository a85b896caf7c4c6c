"""Ends, cavities, contacts and names as they are written: whole sentences, at the line of what is meant."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.jobs import work
from tests.findings.said import entries, said

MADE = "made: 2031-05-03 AK"
CHECK = "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"
HARNESS = f"""
    job: Ends
    fuses: {{F7: {{rating: 10 A}}}}
    splices: {{FS4: {{}}, unit: {{}}}}
    grounds: {{L1: {{back to: battery-}}, body: {{back to: battery-}}}}
    plugs: {{lamp: {{ways: 4}}, body: {{ways: 4}}}}
    modules: {{unit: {{}}}}
    switches:
      K1 contact: {{between: K1.30 K1.87, worked by: K1 coil}}
      K2 contact: {{between: K2.30 K2.2a, worked by: K2 coil}}
      K3 contact: {{between: K3.30 K3.87, worked by: K3 coil}}
      K4 contact: {{between: K4.2a K4.2A, worked by: K4 coil}}
    loads:
      K1 coil: {{between: K1.86 K1.85}}
      K2 coil: {{between: K2.3 K2.4}}
      K3 coil: {{between: K3.a K3.b}}
      K4 coil: {{between: K4.3 K4.4}}
    wires:
      W1: {{from: F7, to: lamp.1}}
      W2: {{from: horn.1, to: END}} # W2
      W3: {{from: horn.2, to: lamp.3}}
{CHECK}"""
BRING = "Write loose for an end that was cut off before; two ends are brought together by a row of kind join"
RELAY = "; the contacts of a relay are marked 30, 85, 86, 87 and 87a"
SIDES = "; a fuse has two sides, F7 and F7.feed"


@pytest.mark.parametrize(("end", "rank", "problem", "mend"), [
    ("lose", "note", ", which was taken as the name of a splice", "None needed, or write loose"),
    ("lose.1", "", "", ""),
    ("W1-loose", "error", ", the loose end of another wire, which nothing holds", BRING),
    ("W2-loose", "note", ", which was taken as the name of a splice", "None needed, or write loose"),  # its own
    ("batery-", "error", ", which is not one of the two battery posts", "Write battery-"),
    ("battery+.1", "error", ", which is not one of the two battery posts", "Write battery+"),
    ("Battery-neg", "error", ", which is not one of the two battery posts", "Write battery-"),
    ("battery plus", "error", ", which is not one of the two battery posts", "Write battery+"),
    ("battery2+", "", "", ""),
    ("aux-battery+", "", "", ""),
    ("batteries+", "", "", ""),
    ("bateryx", "", "", ""),
    ("lantern-", "", "", ""),
    ("F7.fed", "error", SIDES, "Did you mean F7.feed?"),
    ("F7.lode", "error", SIDES, "Write F7 for its load side"),
    ("F7.9", "error", SIDES, "Write F7 for its load side, or F7.feed for its side towards the battery"),
    ("F7.0", "error", SIDES, "Write F7 for its load side, or F7.feed for its side towards the battery"),
    ("F7.feed", "", "", ""),
    ("L1.2", "error", "; 'L1' is a ground point and has no cavities", "Write L1"),
    ("FS4.2", "error", "; 'FS4' is a splice and has no cavities", "Write FS4"),
    ("body.2", "", "", ""),  # a plug is called so too
    ("unit.2", "", "", ""),  # a module is called so too
    ("unit.0", "", "", ""),  # how a module counts its pins is its own
    ("L1", "", "", ""),
    ("Lamp.2", "note", "; 'lamp' is declared, and 'Lamp' is another name", "None needed, or write lamp.2"),
    ("f7", "note", "; 'F7' is declared, and 'f7' is another name", "None needed, or write F7"),
    ("f7.feed", "note", "; 'F7' is declared, and 'f7' is another name", "None needed, or write F7.feed"),
    ("K1.78", "warning", RELAY, "Did you mean K1.87?"),
    ("K1.87A", "warning", RELAY, "Did you mean K1.87a?"),
    ("K1.5", "warning", RELAY, "Did you mean K1.85?"),
    ("K1.1234567890", "warning", RELAY, "Read the mark on the socket again"),
    ("K1.88", "", "", ""),
    ("K1.coil", "", "", ""),
    ("K2.5", "", "", ""),  # one mark of a relay beside numbers of its own
    ("K2.2A", "warning", RELAY, "Did you mean K2.2a?"),
    # two marks are enough; 30 and 87 are as near, 2 x 3 / 9 of their signs, and 87a, 2 x 3 / 10, is not much further
    ("K3.5", "warning", RELAY, "Did you mean K3.30 or K3.87 or K3.87a?"),
    ("K4.2A", "", "", ""),  # a switch names it so
])  # fmt: skip
def test_an_end_is_told_by_what_it_is_taken_for(end: str, rank: str, problem: str, mend: str, tmp_path: Path) -> None:
    found = said(tmp_path, HARNESS.replace("END", end), "REF01", "REF06", "REF07")
    assert found == ([(rank, "W2", "W2", f"W2 ends in '{end}'{problem}", mend)] if rank else [])


@pytest.mark.parametrize("row", [
    "kind: terminate, wire: W1, end: lamp.1, into: L1.9, tail: 300 mm",
    "kind: ground, wire: W1, end: lamp.1, to: L1.9",
    "kind: add, wire: N1, from: L1.9, to: horn.1, piece: BU 1.0 mm2, cut: 1 m",
    "kind: add, wire: N1, from: horn.1, to: L1.9, piece: BU 1.0 mm2, cut: 1 m",
    "kind: bridge, ends: [W1 at lamp.1, L1.9], piece: BU 1.0 mm2",
    "kind: cap, wire: W5, end: lamp.2, stub: 30 mm, was: 'GN 1.0 mm2, L1.9 to lamp.2'",
    "kind: cap, wire: W5, end: lamp.2, stub: 30 mm, was: 'GN 1.0 mm2, lamp.2 to L1.9'",
])  # fmt: skip
def test_an_end_that_a_row_names_is_told_at_the_row(row: str, tmp_path: Path) -> None:
    text = f"""
    job: Rows
    grounds: {{L1: {{back to: battery-}}}}
    wires: {{W1: {{from: F7, to: lamp.1, size: 1.0 mm2, length: 1 m}}}}
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
      - {{id: C2, {row}, {MADE}}} # C2
    """
    problem = "C2 ends in 'L1.9'; 'L1' is a ground point and has no cavities"
    assert said(tmp_path, text, "REF06") == [("error", "C2", "C2", problem, "Write L1")]


@pytest.mark.parametrize(("key", "value"), [
    ("via", "L1.9"), ("shield at", "[unit.8, L1.9]"), ("from", "L1.9"), ("to", "L1.9"),
])  # fmt: skip
def test_an_end_of_a_wire_is_told_at_its_own_key(key: str, value: str, tmp_path: Path) -> None:
    keys = {"from": "F7", "to": "horn.1", "special": "shielded"} | {key: value}
    lines = "".join(f"        {name}: {end} # {name}\n" for name, end in keys.items())
    text = f"\n    job: Keys\n    grounds: {{L1: {{back to: battery-}}}}\n    wires:\n      W1:\n{lines}{CHECK}"
    problem = "W1 ends in 'L1.9'; 'L1' is a ground point and has no cavities"
    assert said(tmp_path, text, "REF06") == [("error", "W1", key, problem, "Write L1")]


def test_the_loose_end_of_a_wire_may_be_named_by_what_is_no_wire(tmp_path: Path) -> None:
    text = f"""
    job: Loose
    loads: {{lamp: {{between: W1-loose lamp.2}}}}
    wires: {{W1: {{from: F7, to: loose}}}}
{CHECK}"""
    assert entries(tmp_path, text, "REF06") == []


# ---- cavities -------------------------------------------------------------------------------------------------------
AGAIN = "Read the number on the housing again"


def test_each_cavity_that_cannot_be_is_told_once_of_its_own_connector(tmp_path: Path) -> None:
    text = f"""
    job: Cavities
    plugs:
      lamp: {{ways: 4}}
      horn: {{ways: 2, cavities not examined: [2, 3]}} # horn
      relay: {{ways: 5}}
      socket: {{ways: 5}}
      free: {{}}
    wires:
      W1: {{from: lamp.1, to: lamp.9}} # W1
      W2: {{from: lamp.9, to: horn.4}} # W2
      W3: {{from: lamp.-2, to: free.99}} # W3
      W4: {{from: free.0, to: relay.87}} # W4
      W5: {{from: socket.1, to: socket.87}} # W5
      W6: {{from: lamp.4, to: lamp.stop}}
{CHECK}"""
    assert sorted(said(tmp_path, text, "REF07")) == sorted([
        ("error", "lamp", "W1", "W1 names cavity 9 of 'lamp', which has 4 ways", f"{AGAIN}, or mend ways: of lamp"),
        ("error", "horn", "W2", "W2 names cavity 4 of 'horn', which has 2 ways", f"{AGAIN}, or mend ways: of horn"),
        ("error", "lamp", "W3", "W3 names cavity -2 of 'lamp'; cavities are counted from 1", AGAIN),
        ("error", "free", "W4", "W4 names cavity 0 of 'free'; cavities are counted from 1", AGAIN),
        ("error", "socket", "W5", "W5 names cavity 87 of 'socket', which has 5 ways",
         f"{AGAIN}, or mend ways: of socket"),
        ("error", "horn", "horn", "horn names cavity 3 of 'horn', which has 2 ways", f"{AGAIN}, or mend ways: of horn"),
    ])  # fmt: skip


@pytest.mark.parametrize(("cavities", "part", "problem"), [
    ("{1: 3}", "lamp-b", "C1 names cavity 3 of 'lamp-b', which has 2 ways"),
    ("{3: 1}", "lamp", "C1 names cavity 3 of 'lamp', which has 2 ways"),
    ("{1: 2, 2: 1}", "", ""),
])  # fmt: skip
def test_the_map_of_a_swap_is_held_to_the_old_plug_and_to_the_new_one(
    cavities: str, part: str, problem: str, tmp_path: Path
) -> None:
    text = f"""
    job: Swapped
    plugs: {{lamp: {{ways: 2}}, lamp-b: {{ways: 2}}}}
    wires: {{W1: {{from: F7, to: lamp.1}}, W2: {{from: F7, to: lamp.2}}}}
    changes:
      - id: C1
        kind: swap
        plug: lamp
        new plug: lamp-b
        seen from: wire side
        cavities: {cavities} # cavities
        {MADE}
    """
    found = said(tmp_path, text, "REF07")
    assert found == ([("error", part, "cavities", problem, f"{AGAIN}, or mend ways: of {part}")] if part else [])


# ---- one end twice --------------------------------------------------------------------------------------------------
TWO = "Name two ends; unknown for one that was not traced"


def test_everything_that_ends_twice_in_one_point_is_told_of_its_own_name(tmp_path: Path) -> None:
    text = f"""
    job: Twice
    grounds: {{L1: {{back to: battery-}}, L2: {{back to: battery-}}}}
    switches:
      S1: {{between: s.1 s.2}}
      S2: {{between: s.3 s.3}} # S2
      S3: {{between: unknown unknown}}
    loads:
      lamp: {{between: lamp.1 lamp.2}}
      horn: {{between: horn.1 horn.1}} # horn
      fan: {{between: unknown unknown}}
    wires:
      W1: {{from: F7, to: lamp.1}}
      W2: {{from: horn.1, to: horn.1}} # W2
      W3: {{from: unknown, to: unknown}}
      W4: {{from: L1, to: G1, size: 1.0 mm2, length: 1 m}}
      W7: {{from: L2, to: G1, size: 1.0 mm2, length: 1 m}}
    changes:
      - {{id: C1, kind: cap, wire: W5, end: q.1, stub: 30 mm, was: "GN 1.0 mm2, q.1 to q.1", {MADE}}} # C1
      - {{id: C2, kind: cap, wire: W6, end: q.2, stub: 30 mm, was: "GN 1.0 mm2, q.2 to unknown", {MADE}}}
      - {{id: C3, kind: ground, wire: W4, end: G1, to: L2, ring: new, {MADE}}}
      - {{id: C4, kind: ground, wire: W4, end: L2, to: L1, ring: new, made: 2031-05-04 AK}} # C4
      - {{id: C5, kind: reroute, wire: W7, by: [nose], {MADE}}}
    landmarks: {{nose: end, tail: end}}
    route: [{{from: nose, to: tail, length: 1 m}}]
    """
    assert sorted(said(tmp_path, text, "REF08")) == sorted([
        ("error", "W2", "W2", "both ends of W2 are 'horn.1'", TWO),
        ("error", "C1", "C1", "both ends of W5 are 'q.1'", TWO),
        ("error", "horn", "horn", "both ends of horn are 'horn.1'", TWO),
        ("error", "S2", "S2", "both ends of S2 are 's.3'", TWO),
        ("error", "C4", "C4", "both ends of W4 are 'L1'", TWO),
    ])  # fmt: skip


# ---- names ----------------------------------------------------------------------------------------------------------
def test_a_ring_on_a_point_that_nobody_declared_is_told_with_the_nearest_that_is(tmp_path: Path) -> None:
    text = f"""
    job: Points
    grounds: {{engine: {{back to: battery-}}, frame: {{back to: battery-}}}}
    wires:
      W1: {{from: a.1, to: G1}}
      W2: {{from: a.2, to: G1}}
      W3: {{from: a.3, to: G1}}
      W4: {{from: a.4, to: G1}}
    changes:
      - {{id: C1, kind: ground, wire: W1, end: G1, to: engine, ring: new, {MADE}}}
      - {{id: C2, kind: ground, wire: W2, end: G1, to: battery-, ring: new, {MADE}}}
      - {{id: C3, kind: ground, wire: W3, end: G1, to: fraem, ring: new, {MADE}}} # C3
      - {{id: C4, kind: ground, wire: W4, end: G1, to: X9, ring: new, {MADE}}} # C4
      - {{id: C5, kind: ground, wire: W9, end: G1, to: X8, ring: new, {MADE}}}
    """

    def point(row: str, name: str, mend: str) -> tuple[str, str, str, str, str]:
        problem = f"ground point '{name}' is not declared; its way back to the battery is not known"
        return ("warning", row, row, problem, mend)

    assert said(tmp_path, text, "REF05") == [
        point("C3", "fraem", "Did you mean frame?"),
        point("C4", "X9", "Declare it: grounds: {X9: {stud: M6, back to: battery-}}"),
    ]


NOWHERE = ", which is nowhere in this job"
TAPE = "Write the id as it stands on the tape"


def test_every_name_that_points_to_nothing_is_told_where_it_is_written(tmp_path: Path) -> None:
    text = f"""
    job: Names
    grounds:
      L1: {{back to: battery-}}
      L2: {{back to: L1}}
      L3: {{back to: zzzzzz}} # L3
    modules:
      unit: {{out: {{22: fan feed, glow: glow feed}}, guarded: {{22: 10 A, glwo: 5 A}}}} # unit
      bare: {{guarded: {{4: unknown}}}} # bare
    switches:
      relay: {{between: s.1 s.2, worked by: relay coil}}
      other: {{between: s.3 s.4, worked by: qqqqqq}} # other
      third: {{between: s.5 s.6, worked by: unknown}}
    loads:
      relay coil: {{between: c.1 c.2}}
      lamp: {{between: lamp.1 lamp.2, not with: [relay coil, horm]}} # lamp
      horn: {{between: horn.1 horn.2, not with: [unknown]}}
    wires:
      W1: {{from: F7, to: lamp.1, special: fusible link, protects: [W2, xxxxxx]}} # W1
      W2: {{from: lamp.2, to: L1, size: 1.0 mm2}}
    changes:
      - {{id: C1, kind: reroute, wire: W2, by: [nose], photos: [P1, qqqqq], {MADE}}} # C1
      - {{id: C2, kind: verify, proves: [C1, W1, zzzzz], {MADE}}} # C2
      - {{id: C3, kind: cover, cover: cloth tape, over: [C1, W1, yyyyyy], {MADE}}} # C3
      - {{id: C4, kind: add, wire: K9, from: q.1, to: q.2, piece: BK 18 AWG, cut: 200 mm, special: fusible link,
         protects: [W2, vvvvvv], {MADE}}} # C4
    landmarks: {{nose: end, tail: end}}
    route: [{{from: nose, to: tail, length: 1 m}}]
    photos:
      - {{id: P1, file: photos/p1.jpg, shows: [C1, wwwwww]}} # P1
      - {{id: P2, file: photos/p2.jpg, shows: [C1], marks: [{{ring: [0.5, 0.5, 0.1], of: uuuuuu}}]}} # P2
    readings:
      - {{id: R1, of: lamp, loads on: [lamp, horm], read: 12.4 V}} # R1
      - {{id: R2, of: tttttt, loads on: none, read: 12.4 V}} # R2
    service:
      - {{id: S1, on: 2031-05-20, complaint: no horn, rows: [C1, C9], readings: [R1, R9]}} # S1
    """
    no_load = "Write the name of a load as it stands under 'loads:'"
    expected = [
        ("other", "other", "'other' is worked by 'qqqqqq', which is no load of this job", no_load),
        ("lamp", "lamp", "'lamp' is never on with 'horm', which is no load of this job", "Did you mean horn?"),
        ("L3", "L3", f"'L3' leads back to 'zzzzzz'{NOWHERE}",
         "Write battery-, or a ground point as it stands under 'grounds:'"),
        ("unit", "unit", "'unit' is guarded at cavity 'glwo', which is none of its outputs", "Did you mean glow?"),
        ("bare", "bare", "'bare' is guarded at cavity '4', which is none of its outputs",
         "List it: out: {4: what it feeds}; or take it out"),
        ("W1", "W1", f"the link protects 'xxxxxx'{NOWHERE}", TAPE),
        ("C1", "C1", "the row names photo 'qqqqq', which is not in the list", "Add photo qqqqq to 'photos:'"),
        ("C2", "C2", "the row proves 'zzzzz', which is not a row", "Write the id of a row"),
        ("C3", "C3", "the row over 'yyyyyy', which is not a row", "Write the id of a row"),
        ("C4", "C4", f"the link protects 'vvvvvv'{NOWHERE}", TAPE),
        ("P1", "P1", f"the photo shows 'wwwwww'{NOWHERE}", TAPE),
        ("P2", "P2", f"a mark points to 'uuuuuu'{NOWHERE}", TAPE),
        ("R1", "R1", "the reading was taken with 'horm' on, which is no load of this job", "Did you mean horn?"),
        ("R2", "R2", f"the reading belongs to 'tttttt'{NOWHERE}", TAPE),
        ("S1", "S1", f"the visit's rows name 'C9'{NOWHERE}",
         "Write the row C9 under 'changes:', or name the row that was made"),
        ("S1", "S1", f"the visit's readings name 'R9'{NOWHERE}",
         "Write the reading R9 under 'readings:', or name the one that was taken"),
    ]  # fmt: skip
    found = said(tmp_path, text, "REF02")
    assert sorted(finding[1:] for finding in found) == sorted(expected)
    assert {rank for rank, *_ in found} == {"error"}


def test_an_id_that_is_used_twice_is_told_where_it_stands_first(tmp_path: Path) -> None:
    text = f"""
    job: Ids
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
      - {{id: C2, kind: verify, proves: [C1], {MADE}}}
    photos:
      - {{id: P1, file: photos/p1.jpg, shows: [C1]}}
      - {{id: P1, file: photos/p2.jpg, shows: [C1]}} # second
      - {{id: P1, file: photos/p3.jpg, shows: [C1]}} # third
    readings:
      - {{id: C2, of: car, read: 12.4 V}} # reading
      - {{id: R1, of: car, read: 12.4 V}}
    service:
      - {{id: P1, on: 2031-05-20, complaint: no horn}} # visit
      - {{id: S1, on: 2031-05-21, complaint: no horn}}
    """
    work(tmp_path, text)
    lines = (tmp_path / "job.yml").read_text(encoding="utf-8").splitlines()

    def first(words: str) -> int:
        return next(number for number, line in enumerate(lines, 1) if words in line)

    photo, row = f"job.yml:{first('id: P1')}", f"job.yml:{first('id: C2')}"
    found = said(tmp_path, text, "REF03")
    assert sorted(found) == sorted([
        ("error", "P1", "second", f"the photo id 'P1' is used twice; the first is in {photo}",
         "Give this picture the next free id"),
        ("error", "P1", "third", f"the photo id 'P1' is used twice; the first is in {photo}",
         "Give this picture the next free id"),
        ("error", "C2", "reading", f"the reading id 'C2' is the id of a row too, which is in {row}",
         "Give this reading the next free id"),
        ("error", "P1", "visit", f"the visit id 'P1' is the id of a photo too, which is in {photo}",
         "Give this visit the next free id"),
    ])  # fmt: skip


def test_ends_without_a_cavity_and_near_names_of_plugs_are_told_at_their_keys(tmp_path: Path) -> None:
    text = f"""
    job: Cavities
    plugs: {{tail-right: {{ways: 6}}, link: {{ways: 4}}, both: {{ways: 2}}, fused: {{ways: 2}}}}
    modules: {{unit: {{}}, earth: {{}}}}
    splices: {{both: {{}}}}
    grounds: {{earth: {{back to: battery-}}}}
    fuses: {{fused: {{rating: 10 A}}}}
    switches:
      brake: {{between: tail-rigth.4 brake.1}} # brake
    loads:
      lamp: {{between: tail-right.1 tail-rigth.2}} # lamp
      horn: {{between: horn.1 horn.2}}
      fan: {{between: tail-rigth.5 unit.9}} # fan
      met: {{between: tail-rihgt.1 unit.8}}
    wires:
      W1: {{from: F1, to: link}} # W1
      W2: {{from: unit, to: tail-right.1}} # W2
      W3: {{from: both, to: earth}}
      W4: {{from: fused, to: x.1, via: link}} # W4
      W5: {{from: F2, to: x.2, via: nose}} # W5
      W6: {{from: F3, to: x.3, via: unknown}}
      W7: {{from: F4, to: tail-rihgt.1, via: link.2}}
{CHECK}"""
    connector = "', which is a connector, and no cavity of it is named"
    found = said(tmp_path, text, "REF04")
    assert sorted(found) == sorted([
        ("warning", "W1", "W1", f"W1 ends in 'link{connector}", "Write the cavity too: link.1, or unknown for the end"),
        ("warning", "W2", "W2", f"W2 ends in 'unit{connector}", "Write the cavity too: unit.1, or unknown for the end"),
        ("warning", "W4", "W4", "W4 passes 'link', which is no cavity of an in-line plug",
         "Write the cavity too: link.1"),
        ("warning", "W5", "W5", "W5 passes 'nose', which is no cavity of an in-line plug",
         "Write plug and cavity, or by: [nose] where it is a landmark"),
        ("warning", "lamp", "lamp", "no wire of the record ends in 'tail-rigth.2' of 'lamp'",
         "Did you mean tail-right.2?"),
        ("warning", "fan", "fan", "no wire of the record ends in 'tail-rigth.5' of 'fan'",
         "Did you mean tail-right.5?"),
        ("warning", "brake", "brake", "no wire of the record ends in 'tail-rigth.4' of 'brake'",
         "Did you mean tail-right.4?"),
    ])  # fmt: skip


def test_a_feed_that_is_said_to_begin_where_nothing_is_on_record_is_told(tmp_path: Path) -> None:
    text = f"""
    job: Feeds
    fuses:
      F1: {{rating: 10 A, fed from: fuse-box.bus}}
      F2: {{rating: 10 A, fed from: fuse-box.buss}} # F2
      F3: {{rating: 10 A, fed from: tray.7}} # F3
      F4: {{rating: 10 A, fed from: F1}}
      F5: {{rating: 10 A, fed from: battery+}}
      F6: {{rating: 10 A, fed from: unknown}}
      F7: {{rating: 10 A, fed from: aux.plus}}
      F8: {{rating: 10 A, fed from: stud}}
      F9: {{rating: 10 A, fed from: isolator.2}}
    splices: {{stud: {{bus: yes}}}}
    plugs: {{tray: {{ways: 8}}}}
    switches: {{isolator: {{between: isolator.1 isolator.2}}}}
    sources:
      aux: {{plus: aux.plus, minus: aux.mnius}} # aux
      alternator: {{plus: unknown}}
      converter: {{plus: con.out, minus: battery-}} # converter
    wires:
      W1: {{from: battery+, to: fuse-box.bus}}
      W2: {{from: aux.plus, to: isolator.1}}
      W3: {{from: aux.minus, to: battery-}}
{CHECK}"""
    other = "Write the end of a wire that is listed; or list the wire that ends there"
    found = said(tmp_path, text, "REF04")
    assert sorted(found) == sorted([
        ("warning", "F2", "F2", "no wire of the record ends in 'fuse-box.buss', on which the feed side of 'F2' hangs",
         "Did you mean fuse-box.bus?"),
        ("warning", "F3", "F3", "no wire of the record ends in 'tray.7', on which the feed side of 'F3' hangs", other),
        ("warning", "aux", "aux", "no wire of the record ends in 'aux.mnius', the minus of 'aux'",
         "Did you mean aux.minus?"),
        ("warning", "converter", "converter",
         "no wire of the record ends in 'con.out', the plus of 'converter'", other),
    ])  # fmt: skip


def test_offcuts_and_wires_that_are_written_twice_are_told_at_the_second(tmp_path: Path) -> None:
    text = f"""
    job: Twice
    offcuts: {{O1: BU 1.0 mm2 900 mm}}
    wires:
      W1: {{colour: GN, size: 1.0 mm2, from: a.1, to: b.1, length: 900 mm}}
      W2: {{colour: GN, size: 1.0 mm2, from: a.2, to: b.2, length: 900 mm}}
    changes:
      - id: C1
        kind: remove
        wire: W1
        was: "GN 1.0 mm2, b.1 to a.1, 900 mm"
        ends: {{a.1: gone, b.1: gone}}
        reclaimed: {{O1: GN 1.0 mm2 800 mm, O2: GN 1.0 mm2 90 mm}} # C1
        {MADE}
      - id: C2
        kind: remove
        wire: W2
        was: "YE 1.0 mm2, a.2 to b.2, 900 mm" # was of C2
        ends: {{a.2: gone, b.2: gone}}
        reclaimed: {{O2: GN 1.0 mm2 800 mm, O3: GN 1.0 mm2 90 mm}} # C2
        {MADE}
      - id: C3
        kind: cap
        wire: W9
        was: "GN 1.0 mm2, a.9 to b.9, 900 mm" # was of C3
        end: a.9
        stub: 30 mm
        {MADE}
      - id: C4
        kind: cap
        wire: W9
        was: "GN 1.5 mm2, a.9 to b.9, 900 mm"
        end: b.9
        stub: 30 mm
        {MADE}
    """
    free = "Give this piece the next free id, and write it on the piece"
    racks = said(tmp_path, text, "REF03")
    assert racks == [
        ("error", "C1", "C1", "the offcut 'O1' is put on the rack twice; it stands under 'offcuts:'", free),
        ("error", "C2", "C2", "the offcut 'O2' is put on the rack twice; C1 put it there first", free),
    ]
    # what is still to be done counts too: its id is on the tape before the row is made
    made = f"O3: GN 1.0 mm2 90 mm}} # C2\n        {MADE}"
    assert text.count(made) == 1
    planned = text.replace(made, "O3: GN 1.0 mm2 90 mm} # C2\n        why: next week")
    assert said(tmp_path / "planned", planned, "REF03") == racks
    once = "Look at the wire, and describe it once"
    assert said(tmp_path, text, "ROW15") == [
        ("warning", "C2", "was of C2",
         "W2 is described here and, differently, under 'wires:'; what stands there counts", once),
        ("warning", "C3", "was of C3", "W9 is described here and, differently, on C4; what stands there counts", once),
    ]  # fmt: skip


@pytest.mark.parametrize(("to", "refused"), [
    ("battery-", ""), ("L9", ""), ("F9", "'F9' is not a ground point"), ("FS9", "'FS9' is not a ground point"),
])  # fmt: skip
def test_a_ring_goes_on_a_post_that_nothing_ended_on_and_on_no_fuse_or_splice(
    to: str, refused: str, tmp_path: Path
) -> None:
    # the way back is 1 m of 18.5 mohm/m (1.0 mm2, ISO 6722-1), whether the post was named before or not
    text = f"""
    job: Post
    supply: 12 V
    fuses: {{F1: {{rating: 10 A, fed: always}}, F9: {{}}}}
    splices: {{FS9: {{}}}}
    loads: {{lamp: {{between: a.2 a.1, draws: 1 A}}}}
    wires:
      W1: {{from: a.1, to: G1, size: 1.0 mm2, length: 1 m}}
      W2: {{from: F1, to: a.2, size: 1.0 mm2, length: 1 m}}
    changes:
      - {{id: C1, kind: ground, wire: W1, end: G1, to: {to}, ring: new, {MADE}}}
    """
    worked = work(tmp_path, text)
    assert [finding.problem for finding in worked.findings if finding.code == "ROW01"] == [refused] * bool(refused)
    assert worked.circuits["lamp"].back.state == ("not examined" if refused else "complete")
    assert [point.name for point in worked.grounds] == (["L9"] if to == "L9" else [])


@pytest.mark.parametrize("name", [
    "car", "nose", "lamp", "F7", "relay contact", "unit", "relay coil", "L1", "FS4", "W1", "O1", "C1", "P1", "R1", "S1",
    "lamp.1",  # a cavity
    "C2-W1-plug", "C2-W1",  # a joint and a piece of a row
    "C3-W2-horn.1",  # an end that a row left
    "N1", "F9", "lamp-b", "O2",  # what a row brought: a wire, a fuse, a connector, an offcut
])  # fmt: skip
def test_a_picture_may_show_everything_that_has_a_name(name: str, tmp_path: Path) -> None:
    text = f"""
    job: Names
    landmarks: {{nose: end, tail: end}}
    plugs: {{lamp: {{ways: 2}}}}
    fuses: {{F7: {{rating: 10 A}}}}
    switches: {{relay contact: {{between: r.30 r.87, worked by: relay coil}}}}
    modules: {{unit: {{}}}}
    loads: {{relay coil: {{between: r.86 r.85}}}}
    grounds: {{L1: {{back to: battery-}}}}
    splices: {{FS4: {{}}}}
    offcuts: {{O1: BU 1.0 mm2 900 mm}}
    wires:
      W1: {{size: 1.0 mm2, from: F7, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F7, to: horn.1, length: 900 mm}}
      W3: {{size: 1.0 mm2, from: battery+, to: q.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
      - {{id: C2, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C3, kind: remove, wire: W2, ends: {{F7: pulled, horn.1: capped 30 mm}},
         reclaimed: {{O2: BU 1.0 mm2 400 mm}}, {MADE}}}
      - {{id: C4, kind: add, wire: N1, from: x.1, to: y.1, piece: BU 1.0 mm2, cut: 1 m, {MADE}}}
      - {{id: C5, kind: protect, wire: W3, end: battery+, tail: 100 mm, fuse: F9, rating: 10 A, {MADE}}}
      - {{id: C6, kind: swap, plug: lamp, new plug: lamp-b, seen from: wire side, cavities: {{1: 2}}, {MADE}}}
    photos: [{{id: P1, file: photos/p1.jpg, shows: [C1, {name}]}}]
    readings: [{{id: R1, of: {name}, read: 12.4 V}}]
    service: [{{id: S1, on: 2031-05-20, complaint: no horn}}]
    """
    assert entries(tmp_path / "one", text, "REF02") == []
    assert entries(tmp_path / "no", text.replace("shows: [C1, ", "shows: [C1, q"), "REF02") == ["P1"]


# Terminals by DIN 72552, from memory: ignition and glow plugs 15 to 19, battery and motors 30 to 33, generator 44 45,
# starter, indicators, wipers and lamps 48 to 61, regulator and horn 63 to 72, radio and the like 75 to 77, switches and
# relays 81 to 88.
TERMINALS = (
    "15 17 19 30 31 32 33 44 45 48 49 50 51 52 53 54 55 56 57 58 59 60 61 63 64 71 72 75 76 77 81 82 83 84 85 86 87 88"
)
CONTACTS = "15 30 30a 31 50 51 85 85a 86 86a 86b 87 87a 87b 87c 87y 87z 88 88a 88b 88c 88y 88z"


def test_the_terminals_of_the_standard_are_marks_and_every_other_number_is_a_place_on_the_plug(tmp_path: Path) -> None:
    wires = "".join(f"      W{n}: {{from: q.{n}, to: socket.{n}}}\n" for n in range(10, 100))
    text = f"    job: Marks\n    plugs: {{socket: {{ways: 9}}}}\n    wires:\n{wires}{CHECK}"
    told = {problem.split()[3] for _, _, _, problem, _ in said(tmp_path, text, "REF07")}
    assert told == {f"{n}" for n in range(10, 100)} - {*TERMINALS.split()}


def test_the_contacts_of_a_relay_by_the_standard_are_no_slips_and_their_neighbours_are(tmp_path: Path) -> None:
    wrong = "29 32 52 84 84a 85b 85c 86c 87d 87x 88d 88x 89"
    wires = "".join(
        f"      W{n}: {{from: q.{n}, to: K1.{contact}}}\n" for n, contact in enumerate(f"{CONTACTS} {wrong}".split())
    )
    text = f"""
    job: Marks
    switches: {{K1 contact: {{between: K1.30 K1.87, worked by: K1 coil}}}}
    loads: {{K1 coil: {{between: K1.86 K1.85}}}}
    wires:
{wires}{CHECK}"""
    told = {problem.split("'")[1] for _, _, _, problem, _ in said(tmp_path, text, "REF06")}
    assert told == {f"K1.{contact}" for contact in wrong.split()}
