"""Volts of the demo jobs and of random harnesses, against an independent circuit simulator.

The circuits of the demo jobs are drawn by hand from the jobs' text (`netlists/`), those of the random harnesses by a
second reading of the job (`exporter`). Agreement is within 0.1 %; nothing that is near nought is compared.
"""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

import pytest
from tests.electric import spice
from tests.electric.drawn import CIRCUITS, SUPPLY_V, Drawn
from tests.electric.exporter import exported
from tests.electric.harnesses import harness
from tests.findings.jobs import figures, work

from aswired.read import read_job
from aswired.work import work_out
from aswired.worked import Worked

JOBS = Path(__file__).parents[2] / "jobs"
WITHIN = 0.001
NOUGHT_V = 1e-4  # a tenth of a millivolt; below it nothing is compared
HARNESSES = 100


@pytest.fixture(autouse=True)
def _simulator() -> None:
    spice.needed()


@cache
def demo(job: str) -> Worked:
    read = read_job(JOBS / job)
    assert read.job is not None, read.faults
    assert read.job.supply is not None
    assert read.job.supply.value == SUPPLY_V
    return work_out(read.job, datetime.date(2026, 1, 1))


@pytest.mark.parametrize("circuit", CIRCUITS, ids=lambda circuit: circuit.name)
def test_stated_currents_in_a_circuit_drawn_by_hand(circuit: Drawn) -> None:
    volts = spice.volts(spice.NETLISTS / f"{circuit.name}.cir")
    value = figures(demo(circuit.job))
    expected = {f"{point}.rise": volts[node] for point, node in circuit.points.items()}
    for load, (fed, back) in circuit.loads.items():
        if fed:
            expected[f"{load}.feed.together"] = SUPPLY_V - volts[fed]
        expected[f"{load}.return.together"] = volts[back]
    assert min(expected.values()) > 10 * NOUGHT_V
    for key, drop in expected.items():
        assert value[key] == pytest.approx(drop, rel=WITHIN), key


@pytest.mark.parametrize("seed", range(HARNESSES))
def test_stated_currents_in_a_random_harness(seed: int, tmp_path: Path) -> None:
    worked = work(tmp_path / "job", harness(seed).text)
    job = worked.job
    netlist = exported(job, dict.fromkeys(job.loads, "current"))
    ends = {name: [netlist.node[end] for end in load.between or ()] for name, load in job.loads.items()}
    volts = spice.solved(list(netlist.lines), [node for both in ends.values() for node in both], tmp_path)
    value = figures(worked)
    for load, (fed, back) in ends.items():
        for key, drop in ((f"{load}.feed", SUPPLY_V - volts[fed]), (f"{load}.return", volts[back])):
            assert drop > NOUGHT_V
            assert value[f"{key}.together"] == pytest.approx(drop, rel=WITHIN), key
