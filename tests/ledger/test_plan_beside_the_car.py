"""What rows that are not made yet would bring, where the same thing stands at the same place now."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.ledger.record import State
from aswired.text.diagnostics import Finding
from tests.findings.jobs import work

HEAD = """
    job: Amplifier and lamp
    system: 12 V
    supply: 13.5 V
    ground side: negative
    systems: {restraint: never fitted, high voltage: never fitted, declared by: EH}
"""
LINK = (
    HEAD
    + """
    plugs: {glow: {ways: 2}}
    loads:
      grid heater: {between: glow.1 glow.2, draws: 12 A, class: heater}
    grounds:
      L1: {bolted to: bar, conducts: yes, cable: 16 mm2, cable length: 700 mm, back to: battery-}
    splices: {stud: {all members known: yes}}
    wires:
      W5: {size: 2.5 mm2, from: stud, to: glow.1, length: 1400 mm}
      W70: {size: 2.5 mm2, length: 400 mm, from: battery+, to: stud, special: fusible link, protects: W5}
    changes:
      - {id: C1, kind: add, wire: W6, piece: BN 6 mm2, from: glow.2, to: L1, cut: 300 mm, made: 2031-01-02 EH}
    accepted:
      - {finding: SPC05, of: W70, by: EH, why: as long as the maker's}
"""
)
LEAD = (
    HEAD
    + """
    plugs: {amp: {ways: 2}}
    fuses: {FA: {rating: 30 A, fed: always}}
    loads:
      amp: {between: amp.1 amp.2, draws: 20 A, class: electronics}
    grounds:
      L1: {bolted to: bar, conducts: yes, cable: 16 mm2, cable length: 700 mm, back to: battery-}
    wires:
      W3: {size: 6 mm2, from: battery+, to: FA.feed, length: 500 mm}
      W4: {size: 6 mm2, from: FA, to: amp.1, length: 500 mm}
    changes:
      - {id: C0, kind: add, wire: W2, piece: BN 6 mm2, from: amp.2, to: L1, cut: 300 mm, made: 2031-01-02 EH}
      - {id: C1, kind: remove, wire: W3, ends: {battery+: gone, FA.feed: gone}}
      - {id: C2, kind: add, wire: W8, piece: RD 6 mm2, from: battery+, to: FA.feed, cut: 2900 mm}
    accepted:
      - {finding: FUS05, of: FA, by: EH, why: the kit came so}
"""
)
PART = (
    HEAD
    + """
    plugs: {lamp: {ways: 2}, radio: {ways: 2, gone: yes}}
    fuses:
      F1: {rating: 7.5 A, fed: ignition}
      F2: {rating: 7.5 A, fed: always}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp}
    grounds:
      L1: {bolted to: bar, conducts: yes, cable: 16 mm2, cable length: 700 mm, back to: battery-}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W3: {size: 1.0 mm2, from: radio.2, to: L1, length: 1 m}
    changes:
      - {id: C0, kind: add, wire: W2, piece: BN 4 mm2, from: lamp.2, to: L1, cut: 300 mm, made: 2031-01-02 EH}
      - {id: C1, kind: add, wire: W9, piece: BU 1.0 mm2, from: F2, to: radio.1, cut: 900 mm}
    accepted:
      - {finding: END08, of: radio, by: EH, why: the dead wire stays}
"""
)


def told(worked: JobResult, code: str) -> list[Finding]:
    return [finding for finding in worked.findings if finding.code == code]


@pytest.mark.parametrize(("text", "code", "planned"), [(LEAD, "FUS05", "2\u202f900 mm"), (PART, "END08", "W9 ends in")])
def test_what_is_let_stand_at_a_thing_hides_nothing_that_the_plan_brings_there(
    text: str, code: str, planned: str, tmp_path: Path
) -> None:
    now, then = told(work(tmp_path, text), code)
    assert now.accepted_by == "EH"
    assert planned not in now.problem
    assert planned in then.problem


def test_nobody_lets_stand_what_the_plan_makes_live_by_letting_a_dead_wire_stand_there(tmp_path: Path) -> None:
    worked = work(tmp_path, PART)
    now, then = told(worked, "END08")
    assert (now.never, now.accepted_by) == (False, "EH")
    assert (then.never, then.accepted_by) == (True, "")
    assert worked.ledger.accounts["W3"].state is State.LET_STAND  # of the car as it is nothing else is said
    assert worked.planned_ledger.accounts["W9"].state is State.AGAINST


def test_what_the_plan_leaves_as_it_is_is_told_once(tmp_path: Path) -> None:
    row = "      - {id: C1, kind: add, wire: W9, piece: BU 1.0 mm2, from: F2, to: radio.1, cut: 900 mm}\n"
    assert row in PART
    other = "      - {id: C1, kind: add, wire: W9, piece: BN 1.0 mm2, from: lamp.3, to: L1, cut: 900 mm}\n"
    worked = work(tmp_path, PART.replace(row, other).replace("lamp: {ways: 2}", "lamp: {ways: 3}"))
    assert worked.planned_ledger is not worked.ledger
    (now,) = told(worked, "END08")
    assert now.accepted_by == "EH"


def test_letting_stand_how_long_a_link_is_lets_nobody_have_it_too_thick(tmp_path: Path) -> None:
    # a link of 2.5 mm2 lets through what 2.5 mm2 four numbers thicker may carry, and the wire behind it is 2.5 mm2
    found = {finding.never: finding.accepted_by for finding in told(work(tmp_path, LINK), "SPC05")}
    assert found == {False: "EH", True: ""}
    assert not work(tmp_path, LINK).may_hand_over
