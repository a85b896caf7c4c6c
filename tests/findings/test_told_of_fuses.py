"""What is told of fuses, word for word, where several of them, or of what hangs on one, are beside each other."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.ledger.record import State
from tests.findings.jobs import work
from tests.findings.whole import MADE, PROVED, assert_told

OF_ITS_OWN = "Give one of them a fuse of its own, or fit a larger fuse if the thinnest wire behind it allows"
AND_A_WIRE = "Give one of them a fuse and a wire of its own, or fit a larger fuse if the thinnest wire behind it allows"
BY_NAME = ", or let it stand by name, with the reason"


# ---- what hangs on a fuse -------------------------------------------------------------------------------------------
def test_what_stays_on_and_what_is_above_the_fuse_are_told_with_the_loads_and_sums_that_are_meant(
    tmp_path: Path,
) -> None:
    # F1: 3 A + 5.5 A stay on, 8.5 A of 10 A (80 %: 8.0 A); 1 A now and then makes 9.5 A, not above the fuse
    # F2: 17 A alone stays on, of 20 A (80 %: 16.0 A)
    # F3: 6 A + 5 A and a load of which nothing was read: 11 A of 10 A
    # F4: 11 A and 12 A, each alone above 10 A
    # F5: 8 A of 10 A stay on, just what is allowed, and 2 A more make just the rating
    text = """
    job: Five fuses
    supply: 13 V
    fuses:
      F1: {rating: 10 A, fed: always}
      F2: {rating: 20 A, fed: always}
      F3: {rating: 10 A, fed: always}
      F4: {rating: 10 A, fed: always}
      F5: {rating: 10 A, fed: always}
    loads:
      a: {between: a.1 a.2, draws: 3 A, duty: continuous}
      b: {between: b.1 b.2, draws: 5.5 A, duty: continuous}
      c: {between: c.1 c.2, draws: 1 A, duty: intermittent}
      d: {between: d.1 d.2, draws: 17 A, duty: continuous}
      e: {between: e.1 e.2, draws: 6 A, duty: intermittent}
      f: {between: f.1 f.2, draws: unknown, duty: intermittent}
      g: {between: g.1 g.2, draws: 5 A, duty: intermittent}
      h: {between: h.1 h.2, draws: 11 A, duty: intermittent}
      i: {between: i.1 i.2, draws: 12 A, duty: intermittent}
      j: {between: j.1 j.2, draws: 8 A, duty: continuous}
      k: {between: k.1 k.2, draws: 2 A, duty: intermittent}
    wires:
""" + "".join(
        f"      W{part}: {{size: 4 mm2, from: {fuse}, to: {part}.1, length: 1 m}}\n"
        f"      V{part}: {{size: 4 mm2, from: {part}.2, to: battery-, length: 1 m}}\n"
        for fuse, parts in (("F1", "abc"), ("F2", "d"), ("F3", "efg"), ("F4", "hi"), ("F5", "jk"))
        for part in parts
    ) + f"    changes: [{PROVED}]\n"  # fmt: skip
    assert_told(tmp_path, text, "FUS04 FUS09", [
        ("FUS04", "warning", "F1", "F1: {", "a, b stay on and draw 8.5 A together; F1 is 10 A, of which 80 % is 8.0 A",
         OF_ITS_OWN),
        ("FUS04", "warning", "F2", "F2: {", "'d' stays on and draws 17.0 A; F2 is 20 A, of which 80 % is 16.0 A",
         OF_ITS_OWN),
        ("FUS09", "warning", "F3", "F3: {", "'e', 'g' together draw 11.0 A, and F3 is 10 A", AND_A_WIRE),
        ("FUS09", "error", "F4", "F4: {", "'h' draws 11.0 A, 'i' draws 12.0 A, and F4 is 10 A", AND_A_WIRE),
    ])  # fmt: skip


@pytest.mark.parametrize(("own", "first", "mend"), [
    ("20 A", "blows first", "Fit less than 15 A in F19, or a larger F3 where its wire allows"),
    ("15 A", "may blow first", "Fit less than 15 A in F19, or a larger F3 where its wire allows"),
    ("10 A", "", ""),
])  # fmt: skip
def test_a_fuse_is_held_to_each_fuse_before_it_that_is_in_use(own: str, first: str, mend: str, tmp_path: Path) -> None:
    text = f"""
    job: Trailer
    splices: {{FS1: {{}}}}
    fuses:
      F1: {{rating: 5 A, fed: always}}
      F19: {{rating: {own}}}
      F3: {{rating: 15 A, fed: always}}
      F4: {{rating: 30 A, fed: always}}
      F5: {{rating: unknown, fed: always}}
      F6: {{rating: 5 A, fed: always, use: spare}}
      F20: {{rating: unknown}}
      F21: {{}}
    wires:
      W0: {{size: 6 mm2, from: F1, to: horn.1}}
      W1: {{size: 6 mm2, from: F4, to: FS1}}
      W2: {{size: 6 mm2, from: F3, to: FS1}}
      W3: {{size: 6 mm2, from: F5, to: FS1}}
      W4: {{size: 6 mm2, from: F6, to: FS1}}
      W5: {{size: 6 mm2, from: FS1, to: F19.feed}}
      W6: {{size: 6 mm2, from: F19, to: trailer.1}}
      W7: {{size: 6 mm2, from: FS1, to: F20.feed}}
      W8: {{size: 6 mm2, from: FS1, to: F21.feed}}
    changes: [{PROVED}]
    """
    problem = f"F19 is {own} and is fed through F3, which is 15 A: F3 {first}, and all that it feeds goes dark"
    assert_told(tmp_path, text, "FUS08", [("FUS08", "warning", "F19", "F19: {", problem, mend)] if first else [])


# ---- the way from the battery ---------------------------------------------------------------------------------------
def test_bare_wire_before_a_fuse_is_added_up_from_each_source_as_far_as_it_was_measured(tmp_path: Path) -> None:
    # F1: 250 + 60 = 310 mm of the three stretches; F2: 301 mm from the bus bar; F3: just 300 mm; F4 is spare, and its
    # feed is live all the same; F5 is in no table: what stands for it is the first row that names it, and its feed is
    # thinner than the 6 mm2 from which a named person may let it stand
    text = f"""
    job: Feeds
    splices: {{B1: {{}}, B2: {{}}, BUS: {{bus: yes}}}}
    fuses:
      F1: {{rating: 10 A}}
      F2: {{rating: 10 A}}
      F3: {{rating: 10 A}}
      F4: {{rating: 10 A, use: spare}}
    wires:
      W1: {{size: 16 mm2, from: battery+, to: B1, length: 250 mm}}
      W2: {{size: 16 mm2, from: B1, to: B2}}
      W3: {{size: 16 mm2, from: B2, to: F1.feed, length: 60 mm}}
      W4: {{size: 16 mm2, from: battery+, to: BUS, length: 100 mm}}
      W5: {{size: 16 mm2, from: BUS, to: F2.feed, length: 301 mm}}
      W6: {{size: 16 mm2, from: BUS, to: F3.feed, length: 300 mm}}
      W7: {{size: 16 mm2, from: battery+, to: F4.feed, length: 900 mm}}
    changes:
      - {{id: C1, kind: protect, fuse: F5, rating: 10 A, {MADE}}}
      - {{id: C2, kind: add, wire: W8, from: battery+, to: F5.feed, piece: BU 4 mm2, cut: 400 mm, {MADE}}}
      - {{id: C3, kind: protect, fuse: F5, rating: 10 A, {MADE}}}
    """
    allowed = "with nothing before it, and 300 mm is allowed"
    mend = "Put a fuse close to the source, or make the wire shorter"
    assert_told(tmp_path, text, "FUS05", [
        ("FUS05", "error", "F1", "F1: {", f"F1 reaches at least 310 mm from battery+ {allowed}", mend + BY_NAME),
        ("FUS05", "error", "F2", "F2: {", f"F2 reaches at least 301 mm from BUS {allowed}", mend + BY_NAME),
        ("FUS05", "error", "F4", "F4: {", f"F4 reaches at least 900 mm from battery+ {allowed}", mend + BY_NAME),
        ("FUS05", "stop", "F5", "id: C1,", f"F5 reaches at least 400 mm from battery+ {allowed}", mend),
    ])  # fmt: skip


def test_of_several_loads_those_past_every_fuse_are_told_and_one_on_purpose_is_no_stop(tmp_path: Path) -> None:
    text = f"""
    job: Starter
    options: {{winch: unknown}}
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    splices: {{B1: {{}}}}
    wires:
      W1: {{size: 25 mm2, from: battery+, to: B1}}
      W2: {{size: 25 mm2, from: B1, to: starter.1}}
      W3: {{size: 25 mm2, from: B1, to: glow.1}}
      W4: {{size: 25 mm2, from: F1, to: lamp.1}}
      W5: {{size: 25 mm2, from: B1, to: winch.1}}
      W6: {{size: 25 mm2, from: starter.2, to: battery-}}
      W7: {{size: 25 mm2, from: glow.2, to: battery-}}
      W8: {{size: 25 mm2, from: lamp.2, to: battery-}}
      W9: {{size: 25 mm2, from: winch.2, to: battery-}}
    loads:
      lamp: {{between: lamp.1 lamp.2}}
      glow: {{between: glow.1 glow.2}}
      winch: {{between: winch.1 winch.2, for: winch is fitted}}
      starter:
        class: starter
        between: starter.1 starter.2
        unfused: main feed as the maker ran it
    changes: [{PROVED}]
    """
    assert_told(tmp_path, text, "FUS03", [
        ("FUS03", "stop", "glow", "glow: {", "No fuse stands between glow and battery+",
         "Put a fuse before glow, close to the source"),
        ("FUS03", "note", "starter", "unfused:", "'starter' has no fuse between it and the battery, on purpose: main "
         "feed as the maker ran it", "None needed"),
    ])  # fmt: skip


# ---- dead shorts ----------------------------------------------------------------------------------------------------
def test_a_way_from_a_feed_to_ground_is_told_at_the_last_wire_of_it_or_at_the_row_that_laid_it(tmp_path: Path) -> None:
    # F1 by a donor's wire over a splice and a switch that rests closed; F2 by a new wire that C3 worked on last; F3
    # once its button is pressed; F4 stops at a fuse, F5 at a load
    text = f"""
    job: Feeds on the frame
    grounds: {{L1: {{back to: battery-}}, L2: {{back to: battery-}}}}
    splices: {{FS1: {{}}}}
    switches:
      knife: {{between: knife.1 knife.2, at rest: closed}}
      button: {{between: button.1 button.2, at rest: open}}
    fuses:
      F1: {{rating: 10 A}}
      F2: {{rating: 10 A}}
      F3: {{rating: 10 A}}
      F4: {{rating: 10 A}}
      F5: {{rating: 10 A}}
    loads: {{lamp: {{between: lamp.1 lamp.2}}}}
    wires:
      W1: {{size: 1 mm2, from: F1, to: FS1}}
      W2: {{size: 1 mm2, from: FS1, to: knife.1}}
      W3: {{size: 1 mm2, from: knife.2, to: L1}}
      W4: {{size: 1 mm2, from: FS1, to: horn.1}}
      W5: {{size: 1 mm2, from: F3, to: button.1}}
      W6: {{size: 1 mm2, from: button.2, to: L1}}
      W7: {{size: 1 mm2, from: F4, to: F3.feed}}
      W8: {{size: 1 mm2, from: F5, to: lamp.1}}
      W9: {{size: 1 mm2, from: lamp.2, to: L1}}
    changes:
      - {{id: C1, kind: add, wire: W20, from: F2, to: L2, piece: BU 1 mm2, cut: 900 mm, {MADE}}}
      - {{id: C2, kind: verify, proves: [C1], {MADE}}}
      - {{id: C3, kind: shorten, wire: W20, end: F2, pigtail: 100 mm, take out: 50 mm, overlap: 10 mm, {MADE}}}
      - {{id: C4, kind: verify, proves: [C1], {MADE}}}
    """
    part = "Find where they are joined, and part them"
    assert_told(tmp_path, text, "FUS10", [
        ("FUS10", "stop", "F1", "W3: {", "Copper joins F1 to L1 with no load between, by W1, W2 and W3", part),
        ("FUS10", "stop", "F3", "W6: {", "Copper joins F3 to L1 with no load between, by W5 and W6", part),
        ("FUS10", "stop", "F2", "id: C3,", "Copper joins F2 to L2 with no load between, by W20", part),
    ])  # fmt: skip


# ---- cut ends alone -------------------------------------------------------------------------------------------------
def test_a_fuse_that_feeds_cut_ends_alone_is_told_with_each_of_them_and_the_rows_that_left_them(tmp_path: Path) -> None:
    # F1: two ends, each with its cover; F2: nothing at all, since the wire was pulled; F3: one of its ends was left
    # open, and that is told of the end; F4: a lamp hangs on it too; F5 never had a wire; F6 is spare by C5; F7's end
    # was loose before anybody came
    text = f"""
    job: Taken out
    fuses:
      F1: {{rating: 10 A, fed: always}}
      F2: {{rating: 10 A, fed: always}}
      F3: {{rating: 10 A, fed: always}}
      F4: {{rating: 10 A, fed: always}}
      F5: {{rating: 10 A, fed: always}}
      F6: {{rating: 10 A, fed: always}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: a.1}}
      W2: {{size: 1.0 mm2, from: F1, to: b.1}}
      W3: {{size: 1.0 mm2, from: F2, to: c.1}}
      W4: {{size: 1.0 mm2, from: F3, to: d.1}}
      W5: {{size: 1.0 mm2, from: F3, to: e.1}}
      W6: {{size: 1.0 mm2, from: F4, to: f.1}}
      W7: {{size: 1.0 mm2, from: F4, to: g.1}}
      W8: {{size: 1.0 mm2, from: F6, to: h.1}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{F1: capped 30 mm, a.1: gone}}, {MADE}}}
      - {{id: C2, kind: remove, wire: W2, ends: {{F1: taped, b.1: gone}}, {MADE}}}
      - {{id: C3, kind: remove, wire: W3, ends: {{F2: pulled, c.1: gone}}, {MADE}}}
      - id: C4
        kind: remove
        wires:
          W4: {{F3: capped 30 mm, d.1: gone}}
          W5: {{F3: uncapped, e.1: gone}}
          W6: {{F4: capped 30 mm, f.1: gone}}
        {MADE}
      - {{id: C5, kind: remove, wire: W8, ends: {{F6: pulled, h.1: gone}}, spare: [F6], {MADE}}}
    """
    assert_told(tmp_path, text, "FUS02", [
        ("FUS02", "warning", "F1", "F1: {rating", "F1 feeds only the cut end C1-W1-F1, capped; the cut end C2-W2-F1, "
         "under tape (see C1, C2)",
         "Draw the fuse and write spare: [F1] on C2, or list the wires that still hang on it"),
        ("FUS02", "warning", "F2", "F2: {rating", "F2 feeds nothing any more (see C3)",
         "Draw the fuse and write spare: [F2] on C3, or list the wires that still hang on it"),
    ])  # fmt: skip


# ---- tables and tests -----------------------------------------------------------------------------------------------
def test_each_fuse_and_relay_that_no_table_lists_is_told_once_where_it_is_named_first(tmp_path: Path) -> None:
    text = f"""
    job: Not in the table
    fuses: {{F1: {{rating: 10 A}}}}
    switches: {{K1: {{between: K1.30 K1.87}}}}
    plugs: {{P1: {{ways: 2}}}}
    modules: {{unit: {{}}}}
    grounds: {{G1: {{}}}}
    splices: {{FS1: {{}}}}
    wires:
      W1:
        size: 1.0 mm2
        from: battery+
        to: F11.feed
      W2:
        size: 1.0 mm2
        from: F20.feed
        to: battery+
      W3: {{size: 1.0 mm2, from: F11.feed, to: battery+}}
      W4: {{size: 1.0 mm2, from: P1.feed, to: unit.feed}}
      W5: {{size: 1.0 mm2, from: F1.feed, to: lamp.load}}
      W6: {{size: 1.0 mm2, from: a.1, to: b.1}}
      W7: {{size: 1.0 mm2, from: c.1, to: d.1}}
    changes:
      - id: C1
        kind: protect
        fuse: F30
        {MADE}
      - id: C2
        kind: protect
        relay: K10
        {MADE}
      - id: C3
        kind: remove
        wire: W7
        ends: {{c.1: gone, d.1: gone}}
        spare: [F1, F40]
        {MADE}
      - id: C4
        kind: verify
        proves: [C1]
        dead without: [F1, F50]
        {MADE}
      - id: C5
        kind: add
        wire: W90
        from: F60.feed
        to: F62.feed
        {MADE}
      - id: C6
        kind: terminate
        wire: W6
        end: b.1
        into: F70.feed
        {MADE}
    """

    def fuse(name: str) -> str:
        return f"the fuse '{name}' stands in no table, so it is missing on the fuse page"

    def listed(name: str) -> str:
        return f"List it: fuses: {{{name}: {{rating: 10 A}}}}"

    meant = "; or write F1 if that was meant"
    assert_told(tmp_path, text, "FUS06", [
        ("FUS06", "error", "W1", "to: F11.feed", fuse("F11"), listed("F11") + meant),
        ("FUS06", "error", "W2", "from: F20.feed", fuse("F20"), listed("F20")),
        ("FUS06", "error", "C1", "fuse: F30", fuse("F30"), listed("F30")),
        ("FUS06", "error", "C2", "relay: K10", "the relay 'K10' stands in no table, so it is missing on the fuse page",
         "List it: switches: {K10: {between: K10.30 K10.87}}; or write K1 if that was meant"),
        ("FUS06", "error", "C3", "spare: [F1, F40]", fuse("F40"), listed("F40")),
        ("FUS06", "error", "C4", "dead without: [F1, F50]", fuse("F50"), listed("F50")),
        ("FUS06", "error", "C5", "from: F60.feed", fuse("F60"), listed("F60")),
        ("FUS06", "error", "C5", "to: F62.feed", fuse("F62"), listed("F62")),
        ("FUS06", "error", "C6", "into: F70.feed", fuse("F70"), listed("F70")),
    ])  # fmt: skip


@pytest.mark.parametrize(("head", "verify", "told"), [
    ("handed over: not yet", f"kind: verify, proves: [C1], dead without: [F1], {MADE}", "F2, F5"),
    ("handed over: not yet", f"kind: verify, proves: [C1], {MADE}", "F1, F2, F5"),
    ("handed over: not yet", "kind: verify, proves: [C1], dead without: [F1]", ""),  # nothing is proved yet
    ("handed over: 2031-05-20", "kind: verify, proves: [C1], dead without: [F1]", "F1, F2, F5"),
    ("handed over: not yet", f"kind: verify, proves: [C1], dead without: [F2, F5, F1], {MADE}", ""),
])  # fmt: skip
def test_the_fuses_that_were_never_drawn_are_those_in_use_behind_which_something_was_changed(
    head: str, verify: str, told: str, tmp_path: Path
) -> None:
    # F1 and F2 feed a wire that was shortened, F3 one that was not; F4 is spare; of F5's load the return was moved; the
    # row on F6's wire is only planned
    text = f"""
    job: Drawn
    {head}
    usual: {{joint: "lap, soldered", overlap: 10 mm}}
    fuses: # here
      F1: {{rating: 10 A, fed: always}}
      F2: {{rating: 10 A, fed: always}}
      F3: {{rating: 10 A, fed: always}}
      F4: {{rating: 10 A, fed: always, use: spare}}
      F5: {{rating: 10 A, fed: always}}
      F6: {{rating: 10 A, fed: always}}
    grounds: {{G1: {{back to: battery-}}, L1: {{back to: battery-, surface: bare metal}}}}
    loads: {{lamp: {{between: lamp.1 lamp.2}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: a.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: a.2, length: 900 mm}}
      W3: {{size: 1.0 mm2, from: F3, to: a.3, length: 900 mm}}
      W4: {{size: 1.0 mm2, from: F4, to: a.4, length: 900 mm}}
      W5: {{size: 1.0 mm2, from: F5, to: lamp.1, length: 900 mm}}
      W6: {{size: 1.0 mm2, from: F6, to: a.6, length: 900 mm}}
      W7: {{size: 1.0 mm2, from: lamp.2, to: G1, length: 900 mm}}
    changes:
      - {{id: C1, kind: shorten, wire: W1, end: a.1, pigtail: 100 mm, take out: 50 mm, {MADE}}}
      - {{id: C2, kind: shorten, wire: W2, end: a.2, pigtail: 100 mm, take out: 50 mm, {MADE}}}
      - {{id: C4, kind: shorten, wire: W4, end: a.4, pigtail: 100 mm, take out: 50 mm, {MADE}}}
      - {{id: C5, kind: ground, wire: W7, end: G1, to: L1, {MADE}}}
      - {{id: C6, kind: shorten, wire: W6, end: a.6, pigtail: 100 mm, take out: 50 mm}}
      - {{id: C7, {verify}}}
    """
    assert_told(tmp_path, text, "FUS07", [
        ("FUS07", "warning", "", "# here", f"no verify row says that the changed circuits behind {told} were dead with "
         "the fuse drawn",
         f"Draw each fuse, try its circuits, and write dead without: [{told}] on a row of kind verify"),
    ] if told else [])  # fmt: skip


def test_of_several_fuses_those_above_the_thinnest_of_their_wires_are_told_at_their_rating(tmp_path: Path) -> None:
    # 1.0 mm2 is planned for 10 A, 1.5 mm2 for 15 A, 2.5 mm2 for 20 A (planning value, estimate). F1 suits; F2 feeds 2.5
    # and 1.0 mm2; F3 feeds 1.5 mm2 and a load of 5 A now and then; F4 1.0 mm2 and a load of which nothing was read.
    # 33 CFR 183.425 lets 1.0 mm2 carry 10 A where its insulation is not written, and 1.5 mm2 in PVC 20 A (read)
    text = f"""
    job: Fuses
    splices: {{FS1: {{}}}}
    fuses:
      F1:
        rating: 20 A
      F2:
        fed: always
        rating: 20 A # two
      F3:
        fed: always
        rating: 20 A # three
      F4:
        fed: always
        rating: 15 A # four
    loads:
      c: {{between: c.1 c.2, draws: 5 A, duty: intermittent}}
      d: {{between: d.1 d.2, draws: unknown, duty: intermittent}}
    wires:
      W1: {{size: 2.5 mm2, from: F1, to: a.1}}
      W2: {{size: 2.5 mm2, from: F2, to: FS1}}
      W3: {{size: 1.0 mm2, from: FS1, to: b.1}}
      W4: {{size: 1.5 mm2, from: F3, to: c.1, length: 1 m, insulation: PVC}}
      W5: {{size: 1.5 mm2, from: c.2, to: battery-, length: 1 m}}
      W6: {{size: 1.0 mm2, from: F4, to: d.1, length: 1 m}}
      W7: {{size: 1.0 mm2, from: d.2, to: battery-, length: 1 m}}
    changes: [{PROVED}]
    """
    assert_told(tmp_path, text, "FUS01", [
        ("FUS01", "stop", "F2", "# two",
         "W3 from FS1 to b.1 (1.0 mm2): F2 lets 20 A through, and the wire may carry 10 A",
         "Put in a 10 A fuse; no load on it is traced, so try it under load"),
        ("FUS01", "error", "F3", "# three",
         "W4 from F3 to c.1 (1.5 mm2): F3 lets 20 A through, and the wire may carry 15 A",
         "Put in a 15 A fuse; the load of 5.0 A allows it"),
        ("FUS01", "stop", "F4", "# four",
         "W6 from F4 to d.1 (1.0 mm2): F4 lets 15 A through, and the wire may carry 10 A",
         "Put in a 10 A fuse, if its load allows: current of d is not recorded"),
    ])  # fmt: skip


@pytest.mark.parametrize("tables", ["", "fuses: {F1: {rating: 10 A}}"])
def test_an_end_that_is_called_like_a_fuse_is_one_that_nobody_listed(tables: str, tmp_path: Path) -> None:
    text = f"""
    job: Nobody listed it
    {tables}
    splices: {{F8: {{}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F9, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: F8, to: lamp.2}}
    changes: [{PROVED}]
    """
    worked = work(tmp_path, text)
    assert [(f.code, f.entry) for f in worked.findings if f.code == "FUS06"] == [("FUS06", "W1")]
    assert worked.ledger.accounts["W1"].state is State.NOT_SHOWN
