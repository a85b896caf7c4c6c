"""What a trace says where the record has doubts: an end nobody recorded, a ground that does not conduct."""

from __future__ import annotations

from pathlib import Path

from tests.findings.jobs import work

CAR = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 5 A, fed: always}}
    grounds:
      G1: {conducts: "SAID", back to: battery-}
      G2: {back to: battery-}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}
      W2: {colour: BN, size: 1 mm2, from: lamp.2, to: G1, length: 300 mm}
      W3: {colour: BN, size: 1 mm2, from: lamp.2, to: G2, length: 900 mm}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    changes:
"""
PROOF = "      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}\n"
CAPPED = """
      - {id: C1, kind: cap, wire: W1, end: F1, stub: 30 mm, far: HOW, cover: crimp cap, made: 2031-05-03 AK}
"""


def car(folder: Path, rows: str, conducts: str = "unknown") -> tuple[str, str, str, set[str]]:
    """Of the lamp: state of the feed, of the return, its ground; and the codes told of it."""
    worked = work(folder, CAR.replace('"SAID"', f'"{conducts}"') + rows)
    lamp = worked.circuits["lamp"]
    codes = {finding.code for finding in worked.findings if finding.entry == "lamp"}
    return lamp.feed.state, lamp.back.state, lamp.ground, codes


def test_a_lamp_whose_wire_s_other_half_nobody_recorded_is_not_called_open(tmp_path: Path) -> None:
    # the half at the lamp may have been joined to another feed: not known is not cut off
    feed, _, _, codes = car(tmp_path / "unknown", CAPPED.replace("HOW", "unknown"))
    assert feed == "not examined"
    assert "LOD01" not in codes
    # recorded as capped as well it is cut off, and told
    feed, _, _, codes = car(tmp_path / "capped", CAPPED.replace("HOW", "capped 30 mm"))
    assert feed == "open"
    assert "LOD01" in codes


def test_a_ground_that_conducts_is_taken_before_one_that_does_not(tmp_path: Path) -> None:
    assert car(tmp_path / "no", PROOF, "no")[1:3] == ("complete", "G2")
    assert car(tmp_path / "yes", PROOF, "yes")[1:3] == ("complete", "G1")  # of two that do, the one found first


def test_of_two_wires_laid_to_a_feed_the_first_is_told_as_taken_out_too(tmp_path: Path) -> None:
    text = """
    job: Two to one feed
    fuses: {F7: {rating: 10 A}}
    grounds: {G1: {back to: battery-}}
    loads: {horn: {between: horn.1 horn.2}}
    wires:
      W1: {size: 1.0 mm2, from: F7, to: horn.1}
      W2: {size: 1.0 mm2, from: horn.2, to: G1}
    changes:
      - {id: C1, kind: add, wire: W8, from: battery+, to: F7.feed, piece: RD 2.5 mm2, made: 2031-05-03 AK}
      - {id: C2, kind: add, wire: W9, from: a.1, to: F7.feed, piece: RD 2.5 mm2, made: 2031-05-04 AK}
      - {id: C3, kind: terminate, wire: W9, end: F7.feed, into: b.1, made: 2031-05-05 AK}
      - {id: C4, kind: remove, wire: W8, ends: {battery+: gone, F7.feed: gone}, made: 2031-05-06 AK}
    """
    worked = work(tmp_path, text)
    assert worked.shown.feed_gone("F7") == "W8 was taken out by C4"
    assert worked.circuits["horn"].feed.state == "open"
