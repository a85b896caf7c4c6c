"""A restraint wire that passes an in-line connector: no meter comes to any cavity of it, whoever else sits there."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import work

from aswired.figures.probes import barred, reachable

JOB = """
    job: Past the dash plug
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {G1: {back to: battery-}}
    plugs: {dash: {in line: yes}, lamp: {}}
    loads: {lamp: {between: LOAD, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: dash.1, length: 1 m}
      W2: {size: 1.0 mm2, from: dash.1, to: lamp.1, length: 1 m}
      W3: {size: 1.0 mm2, from: lamp.2, to: G1, length: 1 m}
      W4: {size: 1.0 mm2, from: dash.2, to: G1, length: 1 m}
      W9: {size: 0.5 mm2, from: box.1, to: bag.1, via: dash.7, special: SPECIAL}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
"""


@pytest.mark.parametrize(
    ("special", "open_to_a_tip"), [("restraint", False), ("high voltage", False), ("shielded", True)]
)
def test_no_tip_comes_to_a_plug_that_such_a_wire_passes(special: str, open_to_a_tip: bool, tmp_path: Path) -> None:
    worked = work(tmp_path, JOB.replace("SPECIAL", special).replace("LOAD", "lamp.1 lamp.2"))
    points = reachable(worked.network.grid)
    assert ("dash.1" in points) is open_to_a_tip
    assert "lamp.1" in points


@pytest.mark.parametrize(("special", "told"), [("restraint", "restraint"), ("shielded", "")])
def test_a_load_in_a_plug_that_such_a_wire_passes_is_not_measured(special: str, told: str, tmp_path: Path) -> None:
    worked = work(tmp_path, JOB.replace("SPECIAL", special).replace("LOAD", "dash.1 dash.2"))
    assert barred("lamp", worked.circuits["lamp"], worked.network.grid) == told
