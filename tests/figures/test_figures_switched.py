"""The drop of a load as it is switched on: what hangs on its switch comes on with it, what is always live is on."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, figures, proved, work

BRAKE = copper_alone(
    proved("""
    job: Two stop lamps on one switch
    supply: 12 V
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: always}}
    switches: {brake: {between: brake.1 brake.2}, light: {between: light.1 light.2}}
    splices: {FS1: {}, FS9: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: brake.1, length: 1 m}
      W2: {size: 1.0 mm2, from: brake.2, to: FS1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: left.1, length: 2 m}
      W4: {size: 1.0 mm2, from: FS1, to: right.1, length: 3 m}
      W5: {size: 1.0 mm2, from: left.2, to: FS9, length: 1 m}
      W6: {size: 1.0 mm2, from: right.2, to: FS9, length: 1 m}
      W7: {size: 1.0 mm2, from: FS9, to: battery-, length: 2 m}
      W8: {size: 1.0 mm2, from: F2, to: clock.1, length: 1 m}
      W9: {size: 1.0 mm2, from: clock.2, to: FS9, length: 1 m}
      W10: {size: 1.0 mm2, from: F2, to: light.1, length: 1 m}
      W11: {size: 1.0 mm2, from: light.2, to: tail.1, length: 1 m}
      W12: {size: 1.0 mm2, from: tail.2, to: FS9, length: 1 m}
    loads:
      left: {between: left.1 left.2, draws: 2 A, class: lamp}
      right: {between: right.1 right.2, draws: 3 A, class: lamp}
      clock: {between: clock.1 clock.2, draws: 1 A}
      tail: {between: tail.1 tail.2, draws: 4 A, class: lamp}
""")
)


def test_both_lamps_of_a_switch_and_what_is_always_live_count(tmp_path: Path) -> None:
    # 18.5 mohm/m. Feed: 2 m x (2 + 3) A, then 2 m x 2 A. Return: 1 m x 2 A, then 2 m x (2 + 3 + 1) A; the tail is off.
    worked = work(tmp_path, BRAKE)
    value = figures(worked)
    assert value["left.feed.switched"] == pytest.approx(0.0185 * (2 * 5 + 2 * 2))
    assert value["left.return.switched"] == pytest.approx(0.0185 * (1 * 2 + 2 * 6))
    assert value["left.drop.switched"] == pytest.approx(0.0185 * (14 + 14))
    assert value["left.drop.alone"] == pytest.approx(0.0185 * 2 * 7)
    assert value["left.return.together"] == pytest.approx(0.0185 * (2 + 2 * 10))
    assert figure(worked, "left.feed.switched").note == "on: left, right, clock"


def test_a_load_that_comes_on_by_itself_has_no_such_drop(tmp_path: Path) -> None:
    assert "clock.drop.switched" not in figures(work(tmp_path, BRAKE))
