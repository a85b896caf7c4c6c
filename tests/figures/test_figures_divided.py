"""Fuses and ground points whose current is no sum of the loads behind them: two fuses on one net, a second way home."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, figures, proved, work

TWO_FUSES = copper_alone(
    proved("""
    job: Two fuses on one net
    supply: 12 V
    fuses: {F1: {rating: 15 A, fed: always}, F2: {rating: 15 A, fed: always}}
    splices: {FS1: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1, length: 1 m}
      W2: {size: 1.0 mm2, from: F2, to: FS1, length: 3 m}
      W3: {size: 1.0 mm2, from: FS1, to: fan.1, length: 1 m}
      W4: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}
    loads: {fan: {between: fan.1 fan.2, draws: 8 A}}
""")
)


def test_two_fuses_on_one_net_share_its_current(tmp_path: Path) -> None:
    # 18.5 and 55.5 mohm side by side: 8 A divide 3 : 1, 6 A and 2 A
    worked = work(tmp_path, TWO_FUSES)
    assert figures(worked)["F1.total"] == pytest.approx(6)
    assert figures(worked)["F2.total"] == pytest.approx(2)
    assert figure(worked, "F1.total").formula == "share of the currents that takes this way"


def test_what_divides_on_something_unmeasured_is_not_told(tmp_path: Path) -> None:
    worked = work(tmp_path, TWO_FUSES.replace("to: FS1, length: 3 m", "to: FS1, length: unknown"))
    total = figure(worked, "F1.total")
    assert total.value is None
    assert any("W2" in words for words in total.missing_words)


SECOND_WAY = copper_alone(
    proved("""
    job: A point that nobody's traced way passes
    supply: 12 V
    fuses: {F1: {rating: 15 A, fed: always}}
    splices: {FS9: {}}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 1.0 mm2, from: fan.2, to: FS9, length: 1 m}
      W3: {size: 10 mm2, from: FS9, to: L1, length: 1 m}
      W4: {size: 10 mm2, from: FS9, to: L2, length: 1 m}
    loads: {fan: {between: fan.1 fan.2, draws: 8 A}}
""")
)


def test_both_ways_home_carry_their_share_whichever_the_trace_took(tmp_path: Path) -> None:
    # the two ways are alike: 4 A each, 1.82 mohm x 4 A = 7.28 mV of rise
    value = figures(work(tmp_path, SECOND_WAY))
    for point in ("L1", "L2"):
        assert value[f"{point}.total"] == pytest.approx(4), point
        assert value[f"{point}.rise"] == pytest.approx(0.00728), point
