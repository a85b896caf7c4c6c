"""One small circuit, written once as a job and once by hand as a netlist for an independent circuit simulator."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.electric import spice
from tests.findings.jobs import copper_alone, figures, work

JOB = """
    job: Two lamps and a pump
    supply: 12 V
    fuses: {F1: {rating: 15 A}, F2: {rating: 15 A}}
    splices: {FS1: {}, FS9: {}}
    grounds:
      L1: {back to: L2, cable: 4.0 mm2, cable length: 1.5 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 2 m}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: FS1, length: 2 m}
      W2: {size: 1.0 mm2, from: FS1, to: left.1, length: 1.2 m}
      W3: {size: 1.0 mm2, from: FS1, to: right.1, length: 2.6 m}
      W4: {size: 1.5 mm2, from: left.2, to: FS9, length: 0.8 m}
      W5: {size: 1.5 mm2, from: right.2, to: FS9, length: 2.2 m}
      W6: {size: 1.5 mm2, from: FS9, to: L1, length: 1 m}
      W7: {size: 2.0 mm2, from: FS9, to: L2, length: 2 m}
      W8: {size: 1.5 mm2, from: F2, to: pump.1, length: 4 m}
      W9: {size: 2.5 mm2, from: pump.2, to: L2, length: 0.5 m}
    loads:
      left: {between: left.1 left.2, draws: 4.3 A, class: lamp}
      right: {between: right.1 right.2, draws: 4.6 A, class: lamp}
      pump: {between: pump.1 pump.2, draws: 7 A, class: pump}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""

# Ohms by hand: ISO 6722-1 milliohms a metre (from memory) times metres. Node 0 is battery negative.
NETLIST = """* two lamps and a pump
VB bat 0 12
R1 bat fs1 0.0152
R2 fs1 left1 0.0222
R3 fs1 right1 0.0481
R4 left2 fs9 0.01016
R5 right2 fs9 0.02794
R6 fs9 l1 0.0127
R7 fs9 l2 0.01884
R8 bat pump1 0.0508
R9 pump2 l2 0.0038
RL1 l1 l2 0.007065
RL2 l2 0 0.00364
ILEFT left1 left2 4.3
IRIGHT right1 right2 4.6
IPUMP pump1 pump2 7
.op
.control
op
set numdgt=9
print v(left1) v(left2) v(right1) v(right2) v(pump1) v(pump2) v(l1) v(l2)
quit
.endc
.end
"""


def test_node_voltages_of_an_independent_simulator(tmp_path: Path) -> None:
    spice.needed()
    volts = spice.run(NETLIST, tmp_path)
    value = figures(work(tmp_path / "job", copper_alone(JOB)))
    expected = {
        "left.feed.together": 12 - volts["left1"],
        "left.return.together": volts["left2"],
        "right.feed.together": 12 - volts["right1"],
        "right.return.together": volts["right2"],
        "pump.feed.together": 12 - volts["pump1"],
        "pump.return.together": volts["pump2"],
    }
    assert min(expected.values()) > 0.05  # nothing is compared that is near nought
    # the lug's rise and what its own cable carries, though the lamps' current has a second way past it
    expected["L1.rise"] = volts["l1"]
    expected["L2.rise"] = volts["l2"]
    expected["L1.total"] = (volts["l1"] - volts["l2"]) / 0.007065
    expected["L2.total"] = volts["l2"] / 0.00364
    for key, drop in expected.items():
        assert value[key] == pytest.approx(drop, rel=0.001), key
