"""What is told of joints, cut ends and fusible links, word for word, where several of them stand together."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.whole import MADE, assert_told

# The diameter of a conductor is that of a solid wire of its copper, d = sqrt(4 A / pi): 1.0 mm2 1.128 mm, 1.5 mm2
# 1.382 mm, 2.5 mm2 1.784 mm, 4 mm2 2.257 mm, 6 mm2 2.764 mm, 16 mm2 4.514 mm
LASTS = "Make a lap and solder it, or crimp a sealed joint; then write that"
BARE_STRANDS = "Cut back to bare strands and crimp again: solder creeps under a crimp, and the crimp goes loose"
WETTED = "One vehicle maker solders up to 16 AWG and crimps above it; look that each is wetted through"
LONG = "None needed where the house laps 10 to 13 mm as car makers do; space work laps 3 to 6 of them"
BARREL = "Take the barrel for the sum of the copper, or make two joints"


def joins(usual: str, *rows: str) -> str:
    """Rows that each join two wires of a size: `size | more keys, a line each, of the row`."""
    head = f"    job: Joints\n    usual: {{{usual}}} # house\n    wires:\n"
    wires, changes = "", "    changes:\n"
    for n, row in enumerate(rows, 1):
        size, _, keys = row.partition(" | ")
        for wire in (2 * n - 1, 2 * n):
            wires += f"      W{wire}: {{size: {size} mm2, from: p{wire}.1, to: FS{n}}}\n"
        changes += f"      - id: C{n}\n        kind: join\n        ends: [W{2 * n - 1} at FS{n}, W{2 * n} at FS{n}]\n"
        changes += "".join(f"        {key}\n" for key in keys.split("; ") if key) + f"        {MADE}\n"
    return head + wires + changes


def test_joints_that_do_not_last_are_told_by_row_and_those_of_the_house_together(tmp_path: Path) -> None:
    text = joins(
        'joint: "twist, none", overlap: 5 mm',
        "1.0 | ",
        "1.0 | joint: snap-on # two",
        '1.0 | joint: "lap, soldered"',
        '1.0 | joint: "twist, soldered"',
        "1.0 | ",
        '1.0 | joint: "twist, none" # six',
        '1.0 | joint: "butt, crimped, tinned first" # seven',
        '1.0 | joint: "lap, soldered, tinned first"',
    )
    assert_told(tmp_path, text, "SPL12 SPL08", [
        ("SPL12", "error", "", "# house", "'twist, none' is no joint that lasts: C1, C5", LASTS),
        ("SPL12", "error", "C2", "# two", "'snap-on' is no joint that lasts: C2", LASTS),
        ("SPL12", "error", "C6", "# six", "'twist, none' is no joint that lasts: C6", LASTS),
        ("SPL08", "error", "C7", "# seven", "crimped over strands that were tinned first: C7", BARE_STRANDS),
    ])  # fmt: skip


def test_strands_tinned_before_the_crimp_are_told_of_the_house_method_with_every_joint_of_it(tmp_path: Path) -> None:
    text = joins('joint: "butt, crimped, tinned first"', "1.0 | ", '1.0 | joint: "butt, crimped"', "1.0 | ")
    assert_told(tmp_path, text, "SPL08", [
        ("SPL08", "error", "", "# house", "crimped over strands that were tinned first: C1, C3", BARE_STRANDS),
    ])  # fmt: skip


def test_solder_on_thick_wire_is_one_note_at_the_house_method_where_that_is_one_of_them(tmp_path: Path) -> None:
    # above 1.5 mm2: C2 and C4 by the house, C3 by itself; C5 is crimped, C6 soldered over a crimp
    text = joins(
        'joint: "lap, soldered", overlap: 6 mm',
        "1.5 | ",
        "2.5 | ",
        '4 | joint: "lap, soldered" # three',
        "6 | ",
        '6 | joint: "butt, crimped"',
        '2.5 | joint: "lap, both" # six',
    )
    assert_told(tmp_path / "all", text, "SPL07", [
        ("SPL07", "note", "", "# house", "4 joints are soldered on wire above 1.5 mm2: C2, C4, C3, C6", WETTED),
    ])  # fmt: skip
    alone = joins('joint: "lap, soldered", overlap: 5 mm', "1.5 | ", '4 | joint: "lap, soldered" # two')
    assert_told(tmp_path / "one", alone, "SPL07", [
        ("SPL07", "note", "C2", "# two", "one joint is soldered on wire above 1.5 mm2: C2", WETTED),
    ])  # fmt: skip


def test_each_lap_is_held_to_the_thickest_of_its_own_conductors(tmp_path: Path) -> None:
    # three diameters: 16 mm2 13.5 mm, 6 mm2 8.3 mm, 4 mm2 6.8 mm; six: 1.0 mm2 6.8 mm, 6 mm2 16.6 mm.
    # The house laps 8 mm: too short for C1 and C2, of which the thicker wants 13.5 mm, and too long for C3, which is a
    # habit of the house and no slip. C4 says its own 6 mm, C5 its own 12 mm of at most 6.8 mm, C6 of at most 16.6 mm.
    # C7 is no lap.
    text = joins(
        'joint: "lap, crimped", overlap: 8 mm',
        "6 | ",
        "16 | ",
        "1.0 | ",
        "4 | overlap: 6 mm # four",
        "1.0 | overlap: 12 mm # five",
        "6 | overlap: 12 mm",
        '16 | joint: "butt, crimped"; overlap: 6 mm',
    )
    longer = "Take a longer lap on thick wire"
    assert_told(tmp_path, text, "SPL09", [
        ("SPL09", "warning", "", "# house", "a lap of 8 mm is under 3 conductor diameters (13.5 mm): C1, C2", longer),
        ("SPL09", "warning", "C4", "# four", "a lap of 6 mm is under 3 conductor diameters (6.8 mm): C4", longer),
        ("SPL09", "note", "C5", "# five", "one joint is lapped over more than 6 conductor diameters: C5", LONG),
    ])  # fmt: skip


def test_two_laps_that_are_too_long_are_one_note_at_the_first_of_their_rows(tmp_path: Path) -> None:
    text = joins('joint: "lap, soldered"', "1.0 | overlap: 6 mm", "1.0 | overlap: 9 mm # two", "1.0 | overlap: 12 mm")
    assert_told(tmp_path, text, "SPL09", [
        ("SPL09", "note", "", "# two", "2 joints are lapped over more than 6 conductor diameters: C2, C3", LONG),
    ])  # fmt: skip


@pytest.mark.parametrize(("sizes", "joint", "problem"), [
    ("1.0 1.5", "closed-end, crimped, barrel 1.0-2.0 mm2",
     "1.00 + 1.50 mm2 of copper meet in C1, together; its barrel takes barrel 1.0-2.0 mm2"),
    ("1.0 1.5", "closed-end, crimped, barrel 1.0-2.5 mm2", ""),
    ("0.5 0.5", "closed-end, crimped, barrel 1.5-2.5 mm2",
     "0.50 + 0.50 mm2 of copper meet in C1, together; its barrel takes barrel 1.5-2.5 mm2"),
    ("1.0 2.5", "butt, crimped, barrel 1.0-2.0 mm2",
     "1.00 + 2.50 mm2 of copper meet in C1, one on each side; its barrel takes barrel 1.0-2.0 mm2"),
    ("0.5 1.0", "butt, crimped, barrel 1.0-2.0 mm2",
     "0.50 + 1.00 mm2 of copper meet in C1, one on each side; its barrel takes barrel 1.0-2.0 mm2"),
    ("1.0 2.0", "butt, crimped, barrel 1.0-2.0 mm2", ""),
    ("0.5 2.5 0.5", "butt, crimped, barrel 1.0-2.0 mm2", "0.50 + 2.50 + 0.50 mm2 of copper meet in C1, however they "
     "are shared between its two sides; its barrel takes barrel 1.0-2.0 mm2"),
    ("0.5 1.5 0.5", "butt, crimped, barrel 1.0-2.0 mm2", ""),  # 0.5 + 0.5 | 1.5
])  # fmt: skip
def test_the_copper_in_a_barrel_is_added_up_as_the_barrel_takes_it(
    sizes: str, joint: str, problem: str, tmp_path: Path
) -> None:
    wires = sizes.split()
    text = (
        "    job: Barrel\n    wires:\n"
        + "".join(f"      W{n}: {{size: {size} mm2, from: p{n}.1, to: FS1}}\n" for n, size in enumerate(wires, 1))
        + "    changes:\n      - id: C1\n        kind: join\n        ends: ["
        + ", ".join(f"W{n} at FS1" for n in range(1, len(wires) + 1))
        + f']\n        joint: "{joint}" # here\n        {MADE}\n'
    )
    told = [("SPL10", "warning", "C1", "# here", problem.replace("takes barrel ", "takes "), BARREL)]
    assert_told(tmp_path, text, "SPL10", told if problem else [])


@pytest.mark.parametrize(("thin", "fat", "third", "told"), [
    ("1.0", "1.5", "2.5", "W1 (1.0 mm2) feeds the larger W2 (1.5 mm2) and W3 (2.5 mm2)"),
    ("1.5", "1.5", "2.5", ""),  # one of the two is larger, and one alone is let pass
    ("2.5", "1.5", "2.5", ""),
])  # fmt: skip
def test_a_thin_feed_behind_which_two_wires_are_larger_is_told_with_both(
    thin: str, fat: str, third: str, told: str, tmp_path: Path
) -> None:
    # W6, larger too, leads to a fuse behind the joint and stays out; W7 is larger and feeds a load that is to go
    text = f"""
    job: Fan
    fuses: {{F1: {{rating: 5 A, fed: always}}, F2: {{rating: 3 A}}}}
    loads:
      a: {{between: a.1 a.2, draws: 1 A}}
      b: {{between: b.1 b.2, draws: 1 A}}
      c: {{between: c.1 c.2, draws: 1 A}}
      d: {{between: d.1 d.2, draws: 1 A, verdict: deleted}}
    wires:
      W1: {{size: {thin} mm2, from: F1, to: FS1}}
      W2: {{size: {fat} mm2, from: FS1, to: a.1}}
      W3: {{size: {third} mm2, from: FS1, to: b.1}}
      W6: {{size: 6 mm2, from: FS1, to: F2.feed}}
      W7: {{size: 6 mm2, from: FS1, to: d.1}}
      W8: {{size: 6 mm2, from: F2, to: c.1}}
      V1: {{size: 2.5 mm2, from: a.2, to: battery-}}
      V2: {{size: 2.5 mm2, from: b.2, to: battery-}}
      V3: {{size: 2.5 mm2, from: c.2, to: battery-}}
      V4: {{size: 2.5 mm2, from: d.2, to: battery-}}
    changes:
      - {{id: C0, kind: verify, proves: [C0], {MADE}}}
      - id: C1 # here
        kind: join
        ends: [W1 at FS1, W2 at FS1, W3 at FS1, W6 at FS1, W7 at FS1]
        joint: lap, soldered
        {MADE}
    """
    assert_told(tmp_path, text, "SPL10", [
        ("SPL10", "warning", "C1", "# here", f"{told} behind C1, with no fuse between",
         "Feed them by a wire for the sum of their loads, or see that the fuse before it is for the thin one"),
    ] if told else [])  # fmt: skip


def test_of_several_wires_the_one_with_too_many_splices_between_two_plugs_is_told_at_its_last(tmp_path: Path) -> None:
    # W1 has two by C1 and one by C4, W2 has two; W3 has two before the plug it passes and one behind it
    text = f"""
    job: Many
    usual: {{joint: "lap, soldered", overlap: 6 mm}}
    plugs: {{mid: {{in line: yes}}}}
    wires:
      W2: {{size: 1.0 mm2, from: u.2, to: horn.1, length: 3000 mm}}
      W1: {{size: 1.0 mm2, from: u.1, to: lamp.1, length: 3000 mm}}
      W3: {{size: 1.0 mm2, from: u.3, to: seat.1, length: 3000 mm, via: mid.4}}
    changes:
      - {{id: C1, kind: extend, wire: W1, end: lamp.1, pigtail: 300 mm, gap: 400 mm, piece: GN 1.0 mm2, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, end: horn.1, pigtail: 300 mm, gap: 400 mm, piece: GN 1.0 mm2, {MADE}}}
      - {{id: C3, kind: extend, wire: W3, end: seat.1, pigtail: 300 mm, gap: 400 mm, piece: GN 1.0 mm2, {MADE}}}
      - {{id: C4, kind: shorten, wire: W1, end: u.1, pigtail: 300 mm, take out: 200 mm, {MADE}}}
      - {{id: C5, kind: shorten, wire: W3, end: u.3, pigtail: 300 mm, take out: 200 mm, {MADE}}}
    """
    assert_told(tmp_path, text, "SPL11", [
        ("SPL11", "warning", "W1", "id: C4,", "W1 has 3 splices between two connectors: C1-W1-lamp.1, C1-W1-u.1, C4",
         "Lay one whole wire there; each splice is a place where it can fail"),
    ])  # fmt: skip


# ---- cut ends -------------------------------------------------------------------------------------------------------
def test_each_cut_end_is_told_by_what_it_hangs_on_what_feeds_it_and_what_is_to_be_written(tmp_path: Path) -> None:
    # FS1 is fed by F1, FS2 by nothing, FS3 by battery+ past no fuse
    text = f"""
    job: Ends
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    splices: {{FS1: {{}}, FS2: {{}}, FS3: {{}}}}
    wires:
      A1: {{size: 1.0 mm2, from: F1, to: FS1}}
      A2: {{size: 1.0 mm2, from: FS1, to: a.2}}
      A3: {{size: 1.0 mm2, from: FS1, to: a.3}}
      A4: {{size: 1.0 mm2, from: FS1, to: a.4}}
      A5: {{size: 1.0 mm2, from: FS1, to: a.5}}
      A6: {{size: 1.0 mm2, from: FS1, to: a.6}}
      A7: {{size: 1.0 mm2, from: FS1, to: a.7}}
      B1: {{size: 1.0 mm2, from: FS2, to: b.1}}
      B2: {{size: 1.0 mm2, from: FS2, to: b.2}}
      B3: {{size: 1.0 mm2, from: FS2, to: b.3}}
      D1: {{size: 1.0 mm2, from: battery+, to: FS3}}
      D2: {{size: 1.0 mm2, from: FS3, to: d.2}}
      D3: {{size: 1.0 mm2, from: FS3, to: d.3}}
      D4: {{size: 1.0 mm2, from: FS3, to: d.4}}
    changes:
      - {{id: C2, kind: remove, wire: A2, ends: {{FS1: uncapped, a.2: gone}}, {MADE}}}
      - {{id: C3, kind: cap, wire: A3, end: FS1, stub: 50 mm, far: gone, cover: none, {MADE}}}
      - {{id: C4, kind: remove, wire: A4, ends: {{FS1: taped, a.4: gone}}, {MADE}}}
      - {{id: C5, kind: cap, wire: A5, end: FS1, stub: 50 mm, far: gone, cover: cloth tape, {MADE}}}
      - {{id: C6, kind: remove, wire: A6, ends: {{a.6: gone}}, {MADE}}}
      - {{id: C7, kind: remove, wire: A7, ends: {{FS1: gone}}, {MADE}}}
      - {{id: C8, kind: remove, wire: B1, ends: {{FS2: uncapped, b.1: gone}}, {MADE}}}
      - {{id: C9, kind: cap, wire: B2, end: FS2, stub: 50 mm, far: gone, cover: none, {MADE}}}
      - {{id: C10, kind: remove, wire: D2, ends: {{FS3: capped 30 mm, d.2: gone}}, {MADE}}}
      - {{id: C11, kind: remove, wire: D3, ends: {{FS3: taped, d.3: gone}}, {MADE}}}
    """
    cap, by_name = "Cap it, and write the cap and its seal", ", or let it stand by name, with the reason"
    bare = "is left bare, though nothing on record feeds it"
    nowhere = "is joined to battery+ with nothing before it, and leads to nothing on record"
    assert_told(tmp_path, text, "END01 END02 END03 END04 END05 END07", [
        ("END01", "stop", "C2-A2-FS1", "id: C2,", "The cut end C2-A2-FS1 is left bare, and is live, fed by F1", cap),
        ("END01", "stop", "C3-A3-FS1", "id: C3,", "The cut end C3-A3-FS1 is left bare, and is live, fed by F1", cap),
        ("END07", "error", "C4-A4-FS1", "id: C4,", "The cut end C4-A4-FS1 is live under tape alone, fed by F1",
         cap + by_name),
        ("END07", "error", "C5-A5-FS1", "id: C5,", "The cut end C5-A5-FS1 is live under tape alone, fed by F1",
         cap + by_name),
        ("END04", "error", "C6-A6-FS1", "id: C6,", "the row does not say how the splice 'FS1' was left",
         "Write FS1: flush, capped 30 mm, gone, pulled or unknown"),
        ("END03", "error", "C7-A7-a.7", "id: C7,", "the row does not say how the end at 'a.7' was left",
         "Write a.7: flush, capped 30 mm, gone, pulled or unknown"),
        ("END02", "error", "C8-B1-FS2", "id: C8,", f"The cut end C8-B1-FS2 {bare}",
         cap + by_name),
        ("END02", "error", "C9-B2-FS2", "id: C9,", f"The cut end C9-B2-FS2 {bare}",
         cap + by_name),
        ("END05", "stop", "C10-D2-FS3", "id: C10,", f"C10-D2-FS3 {nowhere}",
         "Take C10-D2-FS3 off its source, or write what it leads to"),
        ("END05", "stop", "C11-D3-FS3", "id: C11,", f"C11-D3-FS3 {nowhere}",
         "Take C11-D3-FS3 off its source, or write what it leads to"),
        ("END07", "error", "C11-D3-FS3", "id: C11,", "The cut end C11-D3-FS3 is live under tape alone, fed by battery+",
         cap + by_name),
    ])  # fmt: skip


def test_an_end_that_was_loose_before_is_told_at_the_last_row_on_its_wire(tmp_path: Path) -> None:
    text = f"""
    job: Loose
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: loose}}
      W2: {{size: 1.0 mm2, from: F1, to: loose, length: 900 mm}}
    changes:
      - {{id: C1, kind: shorten, wire: W2, end: F1, pigtail: 100 mm, take out: 50 mm, {MADE}}}
      - {{id: C2, kind: cap, wire: W2, end: loose, cover: none, {MADE}}}
    """
    assert_told(tmp_path, text, "END01 END02 END03", [
        ("END01", "stop", "W2-loose", "id: C2,", "The cut end W2-loose is left bare, and is live, fed by F1",
         "Cap it, and write the cap and its seal"),
    ])  # fmt: skip


def test_a_splice_with_one_wire_left_is_told_at_the_row_that_opened_it_last(tmp_path: Path) -> None:
    # FS1 keeps W1 and all its wires are known; of FS2 nobody knows them all; FS3 keeps two; FS4's last wire is cut off
    text = f"""
    job: Lone
    splices:
      FS1: {{all members known: yes}}
      FS2: {{all members known: no}}
      FS3: {{all members known: yes}}
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: FS1}}
      W2: {{size: 1.0 mm2, from: FS1, to: b.1}}
      W3: {{size: 1.0 mm2, from: FS1, to: c.1}}
      W4: {{size: 1.0 mm2, from: FS2, to: d.1}}
      W5: {{size: 1.0 mm2, from: FS2, to: e.1}}
      W6: {{size: 1.0 mm2, from: FS3, to: f.1}}
      W7: {{size: 1.0 mm2, from: FS3, to: g.1}}
      W8: {{size: 1.0 mm2, from: FS3, to: h.1}}
    changes:
      - {{id: C1, kind: remove, wire: W2, ends: {{FS1: flush, b.1: gone}}, {MADE}}}
      - {{id: C2, kind: remove, wire: W3, ends: {{FS1: flush, c.1: gone}}, {MADE}}}
      - {{id: C3, kind: remove, wire: W5, ends: {{FS2: flush, e.1: gone}}, {MADE}}}
      - {{id: C4, kind: remove, wire: W8, ends: {{FS3: flush, h.1: gone}}, {MADE}}}
    """
    assert_told(tmp_path, text, "END06", [
        ("END06", "warning", "FS1", "id: C2,", "only W1 is left in 'FS1', which C2 opened: a dead end",
         "Take W1 out too, or cap it and write a row of kind cap"),
    ])  # fmt: skip


# ---- the record against itself --------------------------------------------------------------------------------------
LOOK_FOR_IT = (
    "Look for its end; write the row that takes the wire out or moves it, or take 'gone: yes' out, or let it stand by "
    "name, with the reason"
)


def test_of_parts_said_to_be_gone_those_are_told_in_which_a_wire_still_ends(tmp_path: Path) -> None:
    # lamp holds two, horn one that passes it, unit one; seat's wire is to go, and until then it ends there; the
    # undecided C3 may clear `fan`; the end of W8 in `mirror` is told of as unsaid
    text = f"""
    job: Gone
    options: {{cab: unknown}}
    plugs:
      lamp:
        gone: yes # lamp
      horn:
        in line: yes
        gone: yes # horn
      seat: {{gone: yes}} # seat
      fan: {{gone: yes}}
      door: {{gone: no}}
      mirror: {{gone: yes}}
    modules:
      unit:
        gone: yes # unit
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: a.2, to: lamp.2}}
      W3: {{size: 1.0 mm2, from: a.3, to: b.3, via: horn.7}}
      W4: {{size: 1.0 mm2, from: a.4, to: seat.1}}
      W5: {{size: 1.0 mm2, from: a.5, to: fan.1}}
      W6: {{size: 1.0 mm2, from: a.6, to: door.1}}
      W7: {{size: 1.0 mm2, from: a.7, to: unit.1}}
      W8: {{size: 1.0 mm2, from: a.8, to: mirror.1}}
    changes:
      - {{id: C1, kind: remove, wire: W4, ends: {{a.4: pulled, seat.1: gone}}}}
      - {{id: C2, kind: verify, proves: [C2], {MADE}}}
      - {{id: C3, kind: remove, wire: W5, ends: {{a.5: pulled, fan.1: gone}}, only if: cab is open, {MADE}}}
      - {{id: C4, kind: remove, wire: W8, ends: {{a.8: pulled}}, {MADE}}}
    """
    assert_told(tmp_path, text, "END08", [
        ("END08", "error", "lamp", "# lamp", "W1 and W2 end in lamp, which left the car", LOOK_FOR_IT),
        ("END08", "error", "horn", "# horn", "W3 ends in horn, which left the car", LOOK_FOR_IT),
        ("END08", "error", "unit", "# unit", "W7 ends in unit, which left the car", LOOK_FOR_IT),
        ("END08", "error", "seat", "# seat", "W4 ends in seat, which left the car", LOOK_FOR_IT),
    ])  # fmt: skip


def test_a_part_scrapped_with_one_wire_is_told_once_with_every_wire_that_still_ends_in_it(tmp_path: Path) -> None:
    # lamp: by C1 and C2, W3 and W4 are left. fan is said to be gone, which is told there. mid is one half of a pair.
    # F1 and FS1 are no plugs. C6 drew its wire out of `seat`, which stayed.
    text = f"""
    job: Scrapped
    plugs:
      mid: {{in line: yes}}
      fan:
        gone: yes # fan
    fuses: {{F1: {{rating: 10 A}}}}
    splices: {{FS1: {{}}}}
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: a.2, to: lamp.2}}
      W3: {{size: 1.0 mm2, from: a.3, to: lamp.3}}
      W4: {{size: 1.0 mm2, from: a.4, to: lamp.4}}
      W5: {{size: 1.0 mm2, from: F1.feed, to: fan.1}}
      W6: {{size: 1.0 mm2, from: a.6, to: fan.2}}
      W7: {{size: 1.0 mm2, from: FS1, to: mid.1}}
      W8: {{size: 1.0 mm2, from: mid.1, to: b.8}}
      W9: {{size: 1.0 mm2, from: c.9, to: seat.1}}
      W10: {{size: 1.0 mm2, from: F1, to: seat.2}}
      W11: {{size: 1.0 mm2, from: FS1, to: d.11}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{a.1: pulled, lamp.1: gone}}, {MADE}}}
      - {{id: C2, kind: remove, wire: W2, ends: {{a.2: pulled, lamp.2: gone}}, {MADE}}}
      - {{id: C3, kind: remove, wire: W5, ends: {{F1.feed: gone, fan.1: gone}}, {MADE}}}
      - {{id: C4, kind: remove, wire: W7, ends: {{FS1: gone, mid.1: gone}}, {MADE}}}
      - {{id: C5, kind: remove, wire: W9, ends: {{c.9: gone, seat.1: pulled}}, {MADE}}}
    """
    assert_told(tmp_path, text, "END08", [
        ("END08", "error", "C1", "id: C1,", "C1 says that 'lamp' was scrapped (lamp.1: gone), but W3, W4 still end in "
         "it", "Write lamp.1: pulled if the part stayed, or write how the other wires were left"),
        ("END08", "error", "fan", "# fan", "W6 ends in fan, which left the car", LOOK_FOR_IT),
    ])  # fmt: skip


def test_an_emptied_cavity_is_told_of_each_thing_that_still_lists_it(tmp_path: Path) -> None:
    # C1 emptied unit.7 (out) and unit.31 (ground); button.1 faces button.2, which is wired. door's other side is empty
    # too. In seat.1 another wire sits now; dash is gone.
    text = f"""
    job: Emptied
    modules:
      unit: {{out: {{7: lamp, 8: horn}}, ground: [31, 32]}}
      dash: {{out: {{7: lamp}}, gone: yes}}
    switches:
      button: {{between: button.2 button.1}}
      door: {{between: door.1 door.2}}
      seat: {{between: seat.1 seat.2}}
    wires:
      W1: {{size: 1.0 mm2, from: unit.7, to: a.1}}
      W2: {{size: 1.0 mm2, from: unit.31, to: a.2}}
      W3: {{size: 1.0 mm2, from: button.1, to: a.3}}
      W4: {{size: 1.0 mm2, from: button.2, to: a.4}}
      W5: {{size: 1.0 mm2, from: door.1, to: a.5}}
      W6: {{size: 1.0 mm2, from: seat.1, to: a.6}}
      W7: {{size: 1.0 mm2, from: seat.2, to: a.7}}
      W8: {{size: 1.0 mm2, from: b.8, to: a.8}}
      W9: {{size: 1.0 mm2, from: dash.7, to: a.9}}
    changes:
      - id: C1
        kind: remove
        wires:
          W1: {{unit.7: pulled, a.1: pulled}}
          W2: {{unit.31: pulled, a.2: pulled}}
          W3: {{button.1: pulled, a.3: pulled}}
          W5: {{door.1: pulled, a.5: pulled}}
          W6: {{seat.1: pulled, a.6: pulled}}
          W9: {{dash.7: pulled, a.9: pulled}}
        {MADE}
      - {{id: C2, kind: terminate, wire: W8, end: b.8, into: seat.1, {MADE}}}
    """

    def drew(wire: str, end: str, user: str) -> str:
        return f"C1 drew {wire} out of '{end}' and no other wire sits there, but {user} still lists it"

    now = "Write the row of the wire that sits there now, or mend "
    assert_told(tmp_path, text, "END08", [
        ("END08", "error", "C1", "- id: C1", drew("W1", "unit.7", "the module 'unit' (out)"), now + "'out:' of unit"),
        ("END08", "error", "C1", "- id: C1", drew("W2", "unit.31", "the module 'unit' (ground)"),
         now + "'ground:' of unit"),
        ("END08", "error", "C1", "- id: C1", drew("W3", "button.1", "the switch 'button', whose other side is wired,"),
         now + "'between:' of button"),
    ])  # fmt: skip
