"""Volts of the demo jobs and of random harnesses, against an independent circuit simulator.

The circuits of the demo jobs are drawn by hand from the jobs' text (`netlists/`), those of the random harnesses by a
second reading of the job (`exporter`). Agreement is within 0.1 %; nothing that is near nought is compared.
"""

from __future__ import annotations

from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.network.behaviour import Behaviour, SolvedState
from aswired.network.grid import Grid
from aswired.network.states import Needs, OperatingState, needs_of, state
from aswired.network.transfer import UnitSolutions
from tests.demos import demo
from tests.electric import spice
from tests.electric.chance import chance, state_of
from tests.electric.drawn import CABLES, CIRCUITS, LAMPS, SOURCES, SUPPLY_V, SWITCHES, TRIED, Drawn, Tried
from tests.electric.exporter import cable_mohm, exported
from tests.electric.harnesses import harness
from tests.findings.jobs import figures, work

WITHIN = 0.001
NOUGHT_V = 1e-4  # a tenth of a millivolt; below it nothing is compared
HARNESSES = 100
QUICK = 10  # of them in the quick loop
SEEDS = [pytest.param(seed, marks=pytest.mark.slow if seed >= QUICK else ()) for seed in range(HARNESSES)]
HAVE = {
    "loop": 50,
    "relay": 50,
    "shared ground": 50,
    "chained ground": 40,
}  # at least so many of them, not to prove little


@pytest.fixture(autouse=True)
def _simulator() -> None:
    spice.needed()


@cache
def drawn_car(job: str) -> JobResult:
    worked = demo(job)
    assert worked.job.supply is not None
    assert worked.job.supply.value == SUPPLY_V
    return worked


@pytest.mark.parametrize("circuit", CIRCUITS, ids=lambda circuit: circuit.name)
def test_stated_currents_in_a_circuit_drawn_by_hand(circuit: Drawn) -> None:
    volts = spice.volts(spice.NETLISTS / f"{circuit.name}.cir")
    value = figures(drawn_car(circuit.job))
    expected = {f"{point}.rise": volts[node] for point, node in circuit.points.items()}
    for load, (fed, back) in circuit.loads.items():
        expected[f"{load}.feed.together"] = SUPPLY_V - volts[fed]
        expected[f"{load}.return.together"] = volts[back]
    assert min(expected.values()) > 10 * NOUGHT_V
    for key, drop in expected.items():
        assert value[key] == pytest.approx(drop, rel=WITHIN), key


@cache
def behaviour(job: str) -> Behaviour:
    worked = drawn_car(job)
    return Behaviour(Grid(worked.job, worked.shown), worked.circuits)


def operated(
    job: str, live: frozenset[str], worked: frozenset[str], loose: frozenset[str] = frozenset()
) -> SolvedState:
    """A state from rest: contacts close by themselves where their coils are fed."""
    found = behaviour(job).operate(OperatingState(worked, live), loose)
    assert found.settles
    return found


@pytest.mark.parametrize("circuit", [one for one in CIRCUITS if one.live], ids=lambda circuit: circuit.name)
def test_loads_as_they_behave_in_a_circuit_drawn_by_hand(circuit: Drawn, tmp_path: Path) -> None:
    volts = spice.run(spice.changed(circuit.name, behaving=True), tmp_path)
    live = operated(circuit.job, circuit.live, circuit.worked)
    assert circuit.loads
    for load, (fed, back) in circuit.loads.items():
        assert live.load_volts[load] == pytest.approx(volts[fed] - volts[back], rel=WITHIN), load
        end = drawn_car(circuit.job).circuits[load].return_end
        assert end in live.volts
        assert live.volts[end] == pytest.approx(volts[back], rel=WITHIN), load
    for point, node in circuit.points.items():
        assert volts[node] > NOUGHT_V
        assert live.volts[point] == pytest.approx(volts[node], rel=WITHIN), point


def test_a_load_switched_on_by_what_it_needs_has_the_volts_of_its_drawn_circuit(tmp_path: Path) -> None:
    # the pump shares nothing with what else the key puts under power; its relay has to close by the engine unit's feed
    worked = drawn_car("trail-truck")
    operate = behaviour("trail-truck")
    needs = needs_of("fuel pump", operate.grid, worked.circuits)
    assert needs is not None
    live = operate.operate(state(needs, operate.grid))
    assert "K2 contact" in live.state.closed
    volts = spice.run(spice.changed("pump", behaving=True), tmp_path)
    for node, drawn in (("pump-plug.1", "p1"), ("pump-plug.2", "p2"), ("L5", "l5")):
        assert live.volts[node] == pytest.approx(volts[drawn], rel=WITHIN), node


def test_everything_on_is_what_was_drawn(tmp_path: Path) -> None:
    flatbed = CIRCUITS[-1]
    worked, operate = drawn_car("flatbed"), behaviour("flatbed")
    needs = Needs(key="ignition")
    for load in worked.job.kept_loads:
        needs = needs.and_(needs_of(load, operate.grid, worked.circuits) or Needs())
    live = operate.operate(state(needs, operate.grid))
    volts = spice.run(spice.changed("flatbed", behaving=True), tmp_path)
    assert len(flatbed.loads) >= 5
    for load, (fed, back) in flatbed.loads.items():
        assert live.load_volts[load] == pytest.approx(volts[fed] - volts[back], rel=WITHIN), load


@pytest.mark.parametrize("tried", TRIED, ids=lambda tried: tried.name)
def test_states_and_opened_grounds_of_the_lamps(tried: Tried, tmp_path: Path) -> None:
    dead = [element for node, element in SOURCES.items() if node not in tried.live]
    loose = [element for key, element in CABLES.items() if key in tried.loose]
    opened = [parameter for name, parameter in SWITCHES.items() if name not in tried.worked]
    volts = spice.run(spice.changed("lamps", behaving=True, dead=[*dead, *loose], opened=opened), tmp_path)
    live = operated("trail-truck", tried.live | {"F11.feed"}, tried.worked, tried.loose)  # F11 feeds the siren's coil
    compared = [end for end, node in LAMPS.items() if abs(volts[node]) > 10 * NOUGHT_V]
    assert len(compared) >= 25
    for end in compared:
        assert live.volts[end] == pytest.approx(volts[LAMPS[end]], rel=WITHIN), end


@pytest.mark.parametrize("seed", SEEDS)
def test_stated_currents_in_a_random_harness(seed: int, tmp_path: Path) -> None:
    worked = work(tmp_path / "job", harness(seed).all_on)
    job, grid = worked.job, Grid(worked.job, worked.shown)
    netlist = exported(job, "stated")
    nodes = sorted(grid.nodes & netlist.node.keys())
    found = spice.solved(list(netlist.lines), [netlist.node[node] for node in nodes], tmp_path)
    volts = {node: found[netlist.node[node]] for node in nodes}
    value = figures(worked)
    for load, declared in job.loads.items():
        assert declared.between is not None
        fed, back = declared.between
        for key, drop in ((f"{load}.feed", SUPPLY_V - volts[fed]), (f"{load}.return", volts[back])):
            assert drop > NOUGHT_V
            assert value[f"{key}.together"] == pytest.approx(drop, rel=WITHIN), key

    judged = 0
    transfer = UnitSolutions(grid, worked.circuits)  # a meter from any node to any other on its side of the loads
    for red, black in combinations(nodes, 2):
        across = abs(volts[red] - volts[black])
        if NOUGHT_V < across < SUPPLY_V / 2:
            shown = transfer.between(red, black, transfer.together()).volts
            assert shown == pytest.approx(across, rel=WITHIN), (red, black)
            judged += 1
    assert judged >= 20
    for point in worked.grounds:
        if point.loads:
            back = job.grounds[point.name].back_to
            through = (volts[point.name] - volts[back]) / (cable_mohm(job, point.name) / 1000)
            assert value[f"{point.name}.total"] == pytest.approx(through, rel=WITHIN), point.name


@pytest.mark.parametrize("seed", SEEDS)
def test_a_random_harness_as_it_behaves(seed: int, tmp_path: Path) -> None:
    worked = work(tmp_path / "job", harness(seed).text)
    job, grid = worked.job, Grid(worked.job, worked.shown)
    tried = chance(seed, job, grid)
    netlist = exported(job, "behaving", dead=tried.dead, opened=tried.opened, loose=tried.loose)
    ends = {name: load.between for name, load in job.loads.items() if load.between is not None}
    nodes = sorted({end for both in ends.values() for end in both})
    live = Behaviour(grid, worked.circuits).operate(*state_of(job, grid, tried))
    wanted = [netlist.node[end] for end in nodes]
    if not live.settles:
        with pytest.raises(spice.NoRest):
            spice.solved(list(netlist.lines), wanted, tmp_path)
        return
    volts = spice.solved(list(netlist.lines), wanted, tmp_path)
    for end in nodes:
        expected = volts[netlist.node[end]]
        if abs(expected) > 10 * NOUGHT_V:
            assert live.volts[end] == pytest.approx(expected, rel=WITHIN), end
        else:
            assert live.volts[end] == pytest.approx(0, abs=20 * NOUGHT_V), end
    for name, (a, b) in ends.items():
        over = volts[netlist.node[a]] - volts[netlist.node[b]]
        assert live.load_volts[name] == pytest.approx(over, rel=WITHIN, abs=NOUGHT_V), name


def test_the_random_harnesses_are_no_plain_ones() -> None:
    made = [harness(seed) for seed in range(HARNESSES)]
    counted = {what: sum(what in one.has for one in made) for what in HAVE}
    assert all(counted[what] >= least for what, least in HAVE.items()), counted
