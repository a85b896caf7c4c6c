"""Legs that a wire names, and legs of which nobody knows how hot they get: what speaks against the wire."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.ledger.record import Weight, Why
from tests.findings.jobs import work

CAR = """job: Heat
system: 12 V
supply: 13.5 V
ground side: negative
systems: {restraint: never fitted, high voltage: never fitted, declared by: EH}
plugs: {lamp: {ways: 2}}
fuses: {F1: {rating: 10 A, fed: always}}
loads: {lamp: {between: lamp.1 lamp.2, draws: 4 A, class: lamp}}
grounds: {L1: {bolted to: bar, conducts: yes, cable: 16 mm2, cable length: 700 mm, back to: battery-}}
landmarks: {box: b, nose: n, sill: s}
route: ROUTE
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 1200 mm, insulation: PVC, by: [box, nose]}
  W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: L1, length: 400 mm}
ROWS"""
HOT = "{from: box, to: nose, length: 1 m, hottest: 120 C}"
ROUND = f"[{HOT}, {{from: box, to: sill, length: 1 m}}, {{from: sill, to: nose, length: 1 m}}]"
NOTHING = """changes:
  - {id: C1, kind: label, wire: W1, where: by the lamp, reads: lamp, tag: printed sleeve, made: 2024-03-03 EH}
"""
PIECE = """changes:
  - {id: C1, kind: extend, wire: W1, plug: lamp, gap: 400 mm, pigtail: 180 mm, piece: GN 1.0 mm2, overlap: 12 mm,
     insulation: silicone, joint: "lap, soldered", cover: adhesive sleeve 50 mm, slack: 0 mm, sealed: 2024-03-03 EH,
     made: 2024-03-03 EH}
"""


@pytest.mark.parametrize(("route", "rows", "told"), [
    (f"[{HOT}]", NOTHING, {(Why.HEAT, Weight.BY_NAME)}),
    (ROUND, NOTHING, {(Why.LEG_HEAT, Weight.MISSING)}),  # there is a cool way round: it is asked, not held against it
    (f"[{HOT}]", PIECE, {(Why.LEG_HEAT, Weight.MISSING)}),  # nobody knows which of its pieces lies there
    (f"[{HOT.replace('120 C', 'unknown')}]", NOTHING, {(Why.LEG_HEAT, Weight.MISSING)}),
    (f"[{HOT.replace('hottest: 120 C', 'zone: dry')}]", NOTHING, set()),
], ids=["named", "a way round", "several pieces", "unknown", "cool"])  # fmt: skip
def test_a_leg_counts_for_a_wire_as_far_as_it_is_known_to_pass_it(
    route: str, rows: str, told: set[tuple[Why, Weight]], tmp_path: Path
) -> None:
    ledger = work(tmp_path, CAR.replace("ROUTE", route).replace("ROWS", rows)).ledger
    heat = {(reason.why, reason.weight) for reason in ledger.accounts["W1"].reasons}
    assert heat & {(Why.HEAT, Weight.BY_NAME), (Why.INSULATION, Weight.MISSING), (Why.LEG_HEAT, Weight.MISSING)} == told
