"""What is told of pieces, offcuts, colours, insulation and bundles, word for word, where several stand together."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.jobs import work
from tests.findings.whole import MADE, PROVED, assert_told

USUAL = (
    '    job: Pieces\n    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm}\n'
)


# ---- colours --------------------------------------------------------------------------------------------------------
def test_pieces_of_one_colour_are_told_in_pairs_where_one_bundle_holds_them(tmp_path: Path) -> None:
    # in one bundle lie the pieces of one row, and those of rows that move one plug: C1 and C3, whose are BU. C2's BU
    # goes to another plug; C4 names no plug. Two BK of C1 are grounds, and none of them is fed.
    text = (
        USUAL
        + f"""
    donor colours: BK
    grounds: {{G1: {{back to: battery-}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: F2, to: lamp.2}}
      W3: {{size: 1.0 mm2, from: F3, to: lamp.3}}
      W4: {{size: 1.0 mm2, from: G1, to: lamp.4}}
      W5: {{size: 1.0 mm2, from: G1, to: lamp.5}}
      W6: {{size: 1.0 mm2, from: F6, to: horn.1}}
      W7: {{size: 1.0 mm2, from: F7, to: lamp.7}}
      W8: {{size: 1.0 mm2, from: F8, to: seat.8}}
    changes:
      - id: C1
        kind: extend
        plug: lamp
        wires: # one
          W1: BU 1.0 mm2
          W2: RD 1.0 mm2
          W3: BU 1.0 mm2
          W4: BK 1.0 mm2
          W5: BK 1.0 mm2
        pigtail: 200 mm
        gap: 400 mm
        {MADE}
      - {{id: C2, kind: extend, wire: W6, plug: horn, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - id: C3
        kind: extend
        wire: W7
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2 # three
        {MADE}
      - {{id: C4, kind: extend, wire: W8, end: seat.8, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
    """
    )
    flag = "Take another colour for one, or flag both along their length"
    assert_told(tmp_path, text, "COL02", [
        ("COL02", "warning", "C1-W1", "# one", "C1-W1 and C1-W3 are both BU in one bundle", flag),
        ("COL02", "warning", "C1-W1", "# one", "C1-W1 and C3-W7 are both BU in one bundle", flag),
        ("COL02", "warning", "C1-W3", "# one", "C1-W3 and C3-W7 are both BU in one bundle", flag),
    ])  # fmt: skip


def test_wires_of_one_colour_in_a_plug_are_told_once_each_pair(tmp_path: Path) -> None:
    # lamp: W90 is BU like the donor's W1, W91 is like none, W92 and W93 are GY; button is a switch and no matter; two
    # grounds are no matter either, but a ground that is fed as well is
    text = f"""
    job: One plug
    donor colours: BK
    fuses: {{F1: {{rating: 10 A}}}}
    grounds: {{G1: {{back to: battery-}}}}
    switches: {{button: {{between: button.1 button.2}}}}
    plugs: {{fan: {{ways: 4}}}}
    wires:
      W1: {{colour: BU, size: 1.0 mm2, from: a.1, to: lamp.1}}
      W2: {{colour: RD, size: 1.0 mm2, from: a.2, to: lamp.2}}
      W3: {{colour: BU, size: 1.0 mm2, from: a.3, to: button.1}}
      W4: {{colour: BK, size: 1.0 mm2, from: G1, to: lamp.4}}
      W5: {{colour: BK, size: 1.0 mm2, from: F1, to: fan.1}}
    changes:
      - id: C1
        kind: add
        wire: W90
        from: b0.1
        to: lamp.10
        piece: BU 1.0 mm2 # one
        {MADE}
      - {{id: C2, kind: add, wire: W91, from: b1.1, to: lamp.11, piece: YE 1.0 mm2, {MADE}}}
      - id: C3
        kind: add
        wire: W92
        from: b2.1
        to: lamp.12
        piece: GY 1.0 mm2 # three
        {MADE}
      - {{id: C4, kind: add, wire: W93, from: b3.1, to: lamp.13, piece: GY 1.0 mm2, {MADE}}}
      - {{id: C5, kind: add, wire: W94, from: b4.1, to: button.2, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C6, kind: add, wire: W95, from: G1, to: lamp.15, piece: BK 1.0 mm2, {MADE}}}
      - id: C7
        kind: add
        wire: W96
        from: G1
        to: fan.2
        piece: BK 1.0 mm2 # seven
        {MADE}
    """
    flag = "Take another colour, or flag both at the plug"
    assert_told(tmp_path, text, "COL02", [
        ("COL02", "error", "C1-W90", "# one", "BU sits in lamp twice: this piece and W1", flag),
        ("COL02", "error", "C3-W92", "# three", "GY sits in lamp twice: this piece and W93", flag),
        ("COL02", "error", "C7-W96", "# seven", "BK sits in fan twice: this piece and W5", flag),
    ])  # fmt: skip


def test_what_a_colour_means_is_held_against_the_side_that_its_piece_is_in(tmp_path: Path) -> None:
    # lamp: a black piece in its feed (C1), red in its return (C2). Without a load: black on F2 (C3), red on G2 (C4).
    # Striped ones mean nothing (C5, C6); black on a ground (C7) and red on a feed (C8) are right; C9 joins feed and
    # ground, and means neither.
    text = f"""
    job: Sides
    usual: {{joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}}
    donor colours: BK
    fuses: {{F1: {{rating: 10 A}}, F2: {{rating: 10 A}}}}
    grounds: {{G1: {{back to: battery-}}, G2: {{back to: battery-}}}}
    loads: {{lamp: {{between: lamp.1 lamp.2}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: lamp.2, to: G1}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BK 1.0 mm2, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, end: lamp.2, pigtail: 200 mm, gap: 400 mm, piece: RD 1.0 mm2, {MADE}}}
      - {{id: C3, kind: add, wire: W93, from: F2, to: x.3, piece: BK 1.0 mm2, {MADE}}}
      - {{id: C4, kind: add, wire: W94, from: x.4, to: G2, piece: RD 1.0 mm2, {MADE}}}
      - {{id: C5, kind: add, wire: W95, from: F2, to: x.5, piece: BK/RD 1.0 mm2, {MADE}}}
      - {{id: C6, kind: add, wire: W96, from: x.6, to: G2, piece: RD/BK 1.0 mm2, {MADE}}}
      - {{id: C7, kind: add, wire: W97, from: x.7, to: G2, piece: BK 1.0 mm2, {MADE}}}
      - {{id: C8, kind: add, wire: W98, from: F2, to: x.8, piece: RD 1.0 mm2, {MADE}}}
      - {{id: C9, kind: add, wire: W99, from: F2, to: G2, piece: BK 1.0 mm2, {MADE}}}
    """
    flag = "Take another colour, or flag it at both joints"
    assert_told(tmp_path, text, "COL03", [
        ("COL03", "error", "C1-W1", "id: C1,", "black means ground here, but the piece is in the feed of 'lamp'", flag),
        ("COL03", "error", "C2-W2", "id: C2,", "red means feed here, but the piece is in the ground of 'lamp'", flag),
        ("COL03", "error", "C3-W93", "id: C3,", "black means ground here, but the piece is in the feed of F2", flag),
        ("COL03", "error", "C4-W94", "id: C4,", "red means feed here, but the piece is in the ground of G2", flag),
    ])  # fmt: skip


def test_pieces_without_a_colour_and_reserved_colours_are_told_where_they_are_or_would_be_written(
    tmp_path: Path,
) -> None:
    text = (
        USUAL
        + f"""
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: a.2, to: horn.2}}
      W3: {{size: 1.0 mm2, from: a.3, to: horn.3}}
      W4: {{size: 1.0 mm2, from: a.4, to: seat.4}}
      W5: {{size: 1.0 mm2, from: a.5, to: seat.5}}
    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        cover: yellow adhesive sleeve 40 mm # yellow
        {MADE}
      - id: C2
        kind: extend
        plug: horn
        wire: W2
        pigtail: 200 mm
        gap: 400 mm
        cover: Orange adhesive sleeve 40 mm # orange
        {MADE}
      - id: C3
        kind: extend
        plug: seat
        wires: # three
          W4: BU 1.0 mm2
          W5: OG 1.0 mm2
        pigtail: 200 mm
        gap: 400 mm
        {MADE}
    """
    )
    other = "Take another colour"
    assert_told(tmp_path, text, "COL01 COL04", [
        ("COL01", "error", "C1-W1", "- id: C1", "the colour of the piece in W1 is not written",
         "Write piece: and its colour and size, or unknown"),
        ("COL04", "warning", "C1", "# yellow", "a yellow cover: yellow is kept for restraint wiring", other),
        ("COL01", "error", "C2-W2", "- id: C2", "the colour of the piece in W2 is not written",
         "Write piece: and its colour and size, or unknown"),
        ("COL04", "warning", "C3-W5", "# three", "an orange piece: orange is kept for high voltage",
         "Take another colour, or mark it along its length"),
        ("COL04", "warning", "C2", "# orange", "an orange cover: orange is kept for high voltage", other),
    ])  # fmt: skip


def test_wires_read_otherwise_than_the_diagram_has_them_are_told_by_what_differs(tmp_path: Path) -> None:
    # W5 and W6 agree or were not read, W7 is not drawn, W8 was taken out whole, of W9 there is still the cut-off half
    text = f"""
    job: Diagram
    wires:
      W1: {{colour: GN, size: 1.0 mm2, from: a.1, to: b.1, by diagram: BU}}
      W2: {{colour: GN, size: 1.0 mm2, from: a.2, to: b.2, by diagram: GN/WH}}
      W3: {{colour: GN/RD, size: 1.0 mm2, from: a.3, to: b.3, by diagram: GN/WH}}
      W4: {{colour: GN/RD, size: 1.0 mm2, from: a.4, to: b.4, by diagram: GN}}
      W5: {{colour: GN/RD, size: 1.0 mm2, from: a.5, to: b.5, by diagram: GN/RD}}
      W6: {{colour: unknown, size: 1.0 mm2, from: a.6, to: b.6, by diagram: GN}}
      W7: {{colour: GN, size: 1.0 mm2, from: a.7, to: b.7, by diagram: unknown}}
      W8: {{colour: GN, size: 1.0 mm2, from: a.8, to: b.8, by diagram: BU}}
      W9: {{colour: GN, size: 1.0 mm2, from: a.9, to: b.9, by diagram: BU}}
      W10: {{colour: light GN, size: 1.0 mm2, from: a.10, to: b.10, by diagram: GN}}
    changes:
      - {{id: C1, kind: remove, wire: W8, ends: {{a.8: gone, b.8: gone}}, {MADE}}}
      - {{id: C2, kind: cap, wire: W9, end: a.9, stub: 50 mm, far: gone, cover: adhesive sleeve 40 mm, {MADE}}}
    """
    wipe = "Wipe it and look again in daylight, then trace it with a meter; dirt and age hide a stripe"
    assert_told(tmp_path, text, "COL05", [
        ("COL05", "warning", "W1", "W1: {", "W1 is green here and blue in the diagram: another base colour", wipe),
        ("COL05", "warning", "W2", "W2: {", "W2 is green here and green, white stripe in the diagram: its stripe was "
         "not seen", wipe),
        ("COL05", "warning", "W3", "W3: {", "W3 is green, red stripe here and green, white stripe in the diagram: "
         "another stripe", wipe),
        ("COL05", "warning", "W4", "W4: {", "W4 is green, red stripe here and green in the diagram: another stripe",
         wipe),
        ("COL05", "warning", "W9", "W9: {", "W9 is green here and blue in the diagram: another base colour", wipe),
        ("COL05", "warning", "W10", "W10: {", "W10 is light green here and green in the diagram: another base colour",
         wipe),
    ])  # fmt: skip


# ---- lengths --------------------------------------------------------------------------------------------------------
def test_each_piece_is_held_to_its_own_lengths(tmp_path: Path) -> None:
    # a piece takes gap 400 + slack 50 + a lap of 10 at each end = 470 mm. C1 was cut 491, C2 449, C3 490 (20 apart, as
    # allowed); C4's slack is below nought; C5 took out 100 and wrote 121, C6 wrote 120.
    # An extension has gap + slack taken in; a shortening takes out what its lengths leave over.
    text = (
        USUAL
        + "    wires:\n"
        + "".join(f"      W{n}: {{size: 1.0 mm2, from: a{n}.1, to: b{n}.1, length: 900 mm}}\n" for n in range(1, 5))
        + f"""
    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: b1
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
        cut: 491 mm # one
        {MADE}
      - id: C2
        kind: extend
        wire: W2
        plug: b2
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
        cut: 449 mm # two
        {MADE}
      - id: C3
        kind: extend
        wire: W3
        plug: b3
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
        cut: 490 mm
        {MADE}
      - id: C4
        kind: extend
        wire: W4
        plug: b4
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
        slack: -5 mm # four
        {MADE}
    """
    )
    again = "Measure the piece and the gap again"
    assert_told(tmp_path, text, "LEN", [
        ("LEN01", "warning", "C1-W1", "# one", "the piece was cut 491 mm, its lengths ask for 470 mm", again),
        ("LEN01", "warning", "C2-W2", "# two", "the piece was cut 449 mm, its lengths ask for 470 mm", again),
        ("LEN02", "warning", "C4-W4", "# four", "the slack of W4 is below zero",
         "The wire will be tight: leave slack, or cut longer"),
    ])  # fmt: skip


def test_rows_of_several_wires_that_do_not_say_how_far_apart_they_are_cut_are_told_at_their_half(
    tmp_path: Path,
) -> None:
    # C3 says it, C4 has one wire only, C5 cuts nothing
    text = (
        USUAL
        + "    wires:\n"
        + "".join(
            f"      W{n}: {{size: 1.0 mm2, from: a{n}.1, to: p{n // 4}.{n}, length: 900 mm}}\n" for n in range(18)
        )
        + f"""
    changes:
      - id: C1
        kind: extend
        plug: p0
        wires: {{W0: BU 1.0 mm2, W1: RD 1.0 mm2, W2: GN 1.0 mm2}}
        pigtail: 200 mm # one
        gap: 400 mm
        {MADE}
      - id: C2
        kind: shorten
        plug: p1
        wires: [W4, W5]
        tail: 300 mm # two
        take out: 100 mm
        {MADE}
      - id: C3
        kind: extend
        plug: p2
        wires: {{W8: BU 1.0 mm2, W9: RD 1.0 mm2}}
        pigtail: 200 mm
        gap: 400 mm
        stagger: 0 mm
        {MADE}
      - {{id: C4, kind: extend, wire: W12, plug: p3, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C5, kind: remove, {MADE},
         wires: {{W16: {{a16.1: gone, p4.16: gone}}, W17: {{a17.1: gone, p4.17: gone}}}}}}
    """
    )
    mend = (
        "Write stagger: 0 mm where all are cut alike, stagger: 50 mm where each next cut lies 50 mm further from the "
        "plug, or stagger: unknown"
    )
    assert_told(tmp_path, text, "LEN04", [
        ("LEN04", "warning", "C1", "# one", "C1 has no stagger: where W1, W2 are cut is not said", mend),
        ("LEN04", "warning", "C2", "# two", "C2 has no stagger: where W5 is cut is not said", mend),
    ])  # fmt: skip


# ---- offcuts --------------------------------------------------------------------------------------------------------
def test_offcuts_overdrawn_unknown_or_spoilt_are_told_at_the_cut_that_is_meant(tmp_path: Path) -> None:
    # a piece takes 470 mm: O1 of 900 mm is overdrawn by 40 mm with its second piece (C2). O2 of 940 mm bears its two.
    # O3 is on no rack, and the first piece from it is that of C5. O4 is oily. C8 put O5, nicked, on the rack.
    text = (
        USUAL
        + '    offcuts: {O1: BU 1.0 mm2 900 mm, O2: RD 1.0 mm2 940 mm, O4: "GN 1.0 mm2 2 m, oily"}\n    wires:\n'
        + "".join(f"      W{n}: {{size: 1.0 mm2, from: a{n}.1, to: b{n}.1, length: 900 mm}}\n" for n in range(1, 10))
        + "    changes:\n"
        + f"""
      - id: C8
        kind: remove
        wire: W8
        ends: {{a8.1: gone, b8.1: gone}}
        reclaimed: {{O5: "YE 1.0 mm2 800 mm, nicked"}}
        {MADE}
"""
        + "".join(
            f"      - id: C{n}\n        kind: extend\n        wire: W{n}\n        plug: b{n}\n        pigtail: 200 mm\n"
            f"        gap: 400 mm\n        piece: {piece} # piece {n}\n        {MADE}\n"
            for n, piece in enumerate(
                ("BU 1.0 mm2 from O1", "BU 1.0 mm2 from O1", "RD 1.0 mm2 from O2", "RD 1.0 mm2 from O2",
                 "PK 1.5 mm2 from O3", "PK 1.5 mm2 from O3", "GN 1.0 mm2 from O4"), 1
            )
        )
        + f"""
      - id: C9
        kind: extend
        plug: b9
        wires: # piece 9
          W9: YE 1.0 mm2 from O5
        pigtail: 200 mm
        gap: 400 mm
        {MADE}
"""
    )  # fmt: skip
    bin_ = "Take sound wire, and put that offcut in the bin"
    assert_told(tmp_path, text, "OFF", [
        ("OFF01", "error", "C2-W2", "- id: C2", "offcut O1 is overdrawn by 40 mm", "Check its length, or name another "
         "offcut"),
        ("OFF02", "note", "C5-W5", "- id: C5", "offcut O3 is not on the rack of this job",
         "Declare it: offcuts: {O3: PK 1.5 mm2 and its length}"),
        ("OFF03", "error", "C7-W7", "# piece 7", "the piece was cut from O4, which is noted oily: oil softens "
         "insulation, and no tape or sleeve holds on it", bin_),
        ("OFF03", "error", "C9-W9", "# piece 9", "the piece was cut from O5, which is noted nicked: it breaks at the "
         "nick, and lets water in", bin_),
    ])  # fmt: skip


def test_more_on_the_rack_than_came_out_is_told_at_the_row_that_put_it_there(tmp_path: Path) -> None:
    # C1 took out 900 mm and put 500 + 460 mm on the rack, 60 mm more; C2 put down just what it took out
    text = f"""
    job: Rack
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: b.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: a.2, to: b.2, length: 900 mm}}
    changes:
      - id: C1
        kind: remove
        wire: W1
        ends: {{a.1: gone, b.1: gone}}
        reclaimed: {{O1: GN 1.0 mm2 500 mm, O2: GN 1.0 mm2 460 mm}} # one
        {MADE}
      - {{id: C2, kind: remove, wire: W2, ends: {{a.2: gone, b.2: gone}}, reclaimed: {{O3: GN 1.0 mm2 900 mm}}, {MADE}}}
    """
    assert_told(tmp_path, text, "LEN03", [
        ("LEN03", "warning", "C1", "# one", "60 mm more was put on the rack than came out of the car",
         "Measure the reclaimed piece again"),
    ])  # fmt: skip


# ---- heat -----------------------------------------------------------------------------------------------------------
def test_insulation_is_held_to_the_hottest_leg_that_its_wire_runs_through(tmp_path: Path) -> None:
    # W1, PVC to 85 C, runs through 90 and 110 C; W2, PVC, through 80 C only; W3, cross-linked to 125 C, through both;
    # W4's was not read; the new W90 of the usual PVC runs through 110 C, W91 of silicone as well
    text = f"""
    job: Heat
    usual: {{insulation: PVC}}
    landmarks: {{dash: fuse box, wall: front wall, engine: block, nose: lamps}}
    route:
      - {{from: dash, to: wall, length: 500 mm, hottest: 80 C}}
      - {{from: wall, to: engine, length: 500 mm, hottest: 110 C}}
      - {{from: engine, to: nose, length: 500 mm, hottest: 90 C}}
    plugs: {{d: {{at: dash}}, w: {{at: wall}}, e: {{at: engine}}, n: {{at: nose}}}}
    wires:
      W1:
        size: 1.0 mm2
        from: w.1
        to: n.1
        insulation: PVC # one
      W2: {{size: 1.0 mm2, from: d.2, to: w.2, insulation: PVC}}
      W3: {{size: 1.0 mm2, from: d.3, to: n.3, insulation: cross-linked}}
      W4: {{size: 1.0 mm2, from: d.4, to: n.4, insulation: unknown}}
    changes:
      - id: C1
        kind: add
        wire: W90
        from: w.5
        to: e.5
        piece: BU 1.0 mm2 # new
        {MADE}
      - {{id: C2, kind: add, wire: W91, from: w.6, to: e.6, piece: BU 1.0 mm2, insulation: silicone, {MADE}}}
    """
    lead = "Lead it another way, or lay wire that bears the heat, or let it stand by name, with the reason"
    so = "runs through the leg wall to engine, which gets 110 °C hot, and its insulation bears 85 °C"
    assert_told(tmp_path, text, "INS01", [
        ("INS01", "error", "W1", "# one", f"W1 {so}", lead),
        ("INS01", "error", "C1-W90", "# new", f"C1-W90 {so}", lead),
    ])  # fmt: skip


# ---- bundles --------------------------------------------------------------------------------------------------------
BOX = """
    job: Bundles
    landmarks: {dash: fuse box, wall: front wall, floor: floor pan, nose: lamps}
    route:
      - {from: dash, to: wall, length: 500 mm, zone: hot}
      - {from: wall, to: nose, length: 900 mm, hottest: 81 C}
      - {from: wall, to: floor, length: 700 mm, hottest: 80 C}
    plugs: {d: {at: dash}, n: {at: nose}, f: {at: floor}}
"""


def test_vinyl_tape_is_told_by_row_with_every_leg_on_which_it_is_too_hot_for_it(tmp_path: Path) -> None:
    # a hot zone counts as 105 C (the house's), the leg to the nose was measured, that to the floor is just not too hot
    text = (
        BOX
        + f"""
    wires: {{W1: {{size: 1.0 mm2, from: d.1, to: n.1}}}}
    changes:
      - {{id: C1, kind: cover, from: wall, to: floor, cover: vinyl tape, {MADE}}}
      - id: C2
        kind: cover
        from: dash
        to: nose
        cover: PVC tape half lapped # two
        {MADE}
      - {{id: C3, kind: cover, from: dash, to: wall, cover: cloth tape, {MADE}}}
      - id: C4
        kind: cover
        from: nose
        to: wall
        cover: Vinyl tape # four
        {MADE}
      - {{id: C5, kind: cover, from: dash, to: wall, cover: vinyl conduit 20 mm, {MADE}}}
    """
    )
    cloth = "Take cloth tape made for heat, or keep the bundle away from the hot part"
    assert_told(tmp_path, text, "BUN02", [
        ("BUN02", "warning", "C2", "# two", "vinyl tape where it is hot: dash to wall (a hot zone, counted as 105 °C), "
         "wall to nose (81 °C measured); it is kept below 80 °C", cloth),
        ("BUN02", "warning", "C4", "# four", "vinyl tape where it is hot: wall to nose (81 °C measured); it is kept "
         "below 80 °C", cloth),
    ])  # fmt: skip


@pytest.mark.parametrize(("bore", "thick"), [("5.9 mm", "about 6.0 mm thick"), ("6.0 mm", ""), ("6.1 mm", "")])
def test_holes_are_held_to_what_passes_them_and_to_their_edge(bore: str, thick: str, tmp_path: Path) -> None:
    # two wires of 3 mm lie side by side: 6.0 mm (geometry). The hole in the floor has one wire of 3 mm for 10 mm.
    text = (
        BOX
        + f"""
    holes:
      wall:
        through: sheet metal
        grommet: yes
        bore: {bore} # wall
      floor:
        through: sheet metal
        grommet: no # floor
        bore: 10 mm
      nose: {{through: composite, grommet: no}}
    wires:
      W1: {{size: 1.0 mm2, from: d.1, to: n.1, outside: 3 mm}}
      W2: {{size: 1.0 mm2, from: d.2, to: f.1, outside: 3 mm}}
    changes: [{PROVED}]
    """
    )
    edge = ("BUN03", "error", "floor", "# floor", "the bundle passes a hole in sheet metal at floor without a grommet",
            "Fit a grommet, with or without conduit, and write grommet: yes")  # fmt: skip
    told = ("BUN01", "warning", "wall", "# wall", f"the bundle of 2 wires at wall is {thick}; its hole is clear for "
            f"{bore}", "Measure the bundle; widen the hole, take a larger grommet, or lead a part of it elsewhere"
            )  # fmt: skip
    assert_told(tmp_path, text, "BUN", [told, edge] if thick else [edge])


def test_a_narrow_conduit_is_told_with_where_on_its_leg_the_bundle_is_too_thick(tmp_path: Path) -> None:
    # up to the splice at 300 mm one wire of 3 mm runs, behind it two side by side: 6.0 mm in a conduit of 5 mm
    text = f"""
    job: Conduit
    usual: {{joint: "lap, soldered", overlap: 10 mm}}
    landmarks: {{dash: fuse box, nose: lamps}}
    route: [{{from: dash, to: nose, length: 900 mm}}]
    plugs: {{d: {{at: dash}}, n: {{at: nose}}}}
    splices: {{FS1: {{}}}}
    wires:
      W1: {{size: 1.0 mm2, from: d.1, to: FS1, outside: 3 mm}}
      W2: {{size: 1.0 mm2, from: FS1, to: n.1, outside: 3 mm}}
      W3: {{size: 1.0 mm2, from: FS1, to: n.2, outside: 3 mm}}
    changes:
      - id: C1
        kind: join
        ends: [W1 at FS1, W2 at FS1, W3 at FS1]
        where: 300 mm from dash towards nose
        {MADE}
      - id: C2
        kind: cover
        from: dash
        to: nose
        cover: conduit 5 mm # two
        {MADE}
    """
    assert_told(tmp_path, text, "BUN01", [
        ("BUN01", "warning", "C2", "# two", "the bundle dash to nose, from 300 mm is about 6.0 mm thick; the "
         "conduit is "
         "written as 5.0 mm", "Measure the bundle there; take a wider conduit, or correct what is written"),
    ])  # fmt: skip


def test_a_hole_that_is_too_narrow_is_told_with_the_band_of_what_was_not_measured(tmp_path: Path) -> None:
    # the insulation of W1 and W2 was not measured; W3's size was not read, so that three wires are thicker still
    text = f"""
    job: Hole
    landmarks: {{dash: fuse box, wall: front wall, nose: lamps}}
    route: [{{from: dash, to: wall, length: 500 mm}}, {{from: wall, to: nose, length: 900 mm}}]
    plugs: {{d: {{at: dash}}, n: {{at: nose}}}}
    holes: {{wall: {{grommet: yes, bore: 2 mm}}}}
    wires:
      W1: {{size: 2.5 mm2, from: d.1, to: n.1}}
      W2: {{size: 2.5 mm2, from: d.2, to: n.2}}
THIRD    changes: [{PROVED}]
    """
    two = work(tmp_path / "two", text.replace("THIRD", ""))
    (hole,) = two.bundles.holes
    assert hole.diameter.value is not None
    assert hole.band is not None
    low, high = hole.band
    assert low < hole.diameter.value < high
    (finding,) = [finding for finding in two.findings if finding.code == "BUN01"]
    assert finding.problem == (
        f"the bundle of 2 wires at wall is about {hole.diameter.value:.1f} mm ({low:.1f} to {high:.1f}) thick; its "
        "hole is clear for 2.0 mm"
    )
    three = work(tmp_path / "three", text.replace("THIRD", "      W3: {size: unknown, from: d.3, to: n.3}\n"))
    (finding,) = [finding for finding in three.findings if finding.code == "BUN01"]
    assert finding.problem == (
        f"the bundle of 3 wires at wall is at least {low:.1f} mm thick without the wires of unread size; "
        "its hole is clear for 2.0 mm"
    )
