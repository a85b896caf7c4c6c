"""Two relays that lock each other out: which of them pulls depends on which is the quicker, and nobody recorded it."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.electric import transfer_of
from aswired.network.behaviour import Behaviour
from aswired.network.states import needs_of, state
from tests.findings.jobs import copper_alone, proved, work

# Each coil is fed by the other relay's resting contact; F2 feeds a lamp of its own.
RACE = copper_alone(
    proved("""
    job: Race
    system: 12 V
    supply: 12 V
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 5 A, fed: always}}
    switches:
      KA: {between: KA.30 KA.87a, worked by: coil A, at rest: closed}
      KB: {between: KB.30 KB.87a, worked by: coil B, at rest: closed}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1, length: 1 m}
      W2: {size: 1.0 mm2, from: FS1, to: KA.30, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: KB.30, length: 1 m}
      W4: {size: 1.0 mm2, from: KB.87a, to: KA.86, length: 1 m}
      W5: {size: 1.0 mm2, from: KA.87a, to: KB.86, length: 1 m}
      W6: {size: 1.0 mm2, from: KA.85, to: battery-, length: 1 m}
      W7: {size: 1.0 mm2, from: KB.85, to: battery-, length: 1 m}
      W8: {size: 1.0 mm2, from: F2, to: lamp.1, length: 1 m}
      W9: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}
    loads:
      coil A: {between: KA.86 KA.85, draws: 150 mA, class: coil}
      coil B: {between: KB.86 KB.85, draws: 150 mA, class: coil}
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: heater}
""")
)


def test_neither_coil_is_told_and_what_hangs_on_neither_is(tmp_path: Path) -> None:
    worked = work(tmp_path, RACE)
    transfer = transfer_of(worked.job, worked.shown, worked.circuits)
    needs = needs_of("lamp", transfer.grid, transfer.circuits)
    assert needs is not None
    live = Behaviour(transfer.grid, transfer.circuits).operate(state(needs, transfer.grid))
    assert live.settles
    assert live.raced
    assert (live.load_volts["coil A"], live.load_volts["coil B"]) == (None, None)
    # by hand: 6 ohm behind 2 m of 1.0 mm2, 18.5 mohm a metre
    assert live.load_volts["lamp"] == pytest.approx(12 * 6 / 6.037)
