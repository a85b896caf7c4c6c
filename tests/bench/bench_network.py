"""What the network costs: one large solve, the operating states of a whole car, and what a run imports for it.

    python -m tests.bench.bench_network [nodes] [rounds]

Large solve: a random harness-like network (a tree with one wire in ten more, some nodes held at the battery's volts)
solved by star-mesh elimination and, in the same run, by scipy's sparse LU on the same nodal equations, making up the
matrix included; medians of CPU time after one round that is not counted, and the largest difference in volts. States:
the trail truck with each load switched on in turn, its grounds whole and each opened. Imports: modules that a check and
a build with nothing to do load, and what importing the solver would add to them. Nothing is asserted.
"""

from __future__ import annotations

import datetime
import itertools
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "builder")]

import numpy as np  # noqa: E402  the path comes first
from scipy.sparse import coo_matrix, csc_matrix  # noqa: E402
from scipy.sparse.linalg import splu  # noqa: E402

from aswired.files import read_job  # noqa: E402
from aswired.network.behaviour import Behaviour  # noqa: E402
from aswired.network.grid import Grid  # noqa: E402
from aswired.network.states import needs_of, state  # noqa: E402
from aswired.physics.network import Edge, solve  # noqa: E402
from aswired.work import work_out  # noqa: E402

STATES = 200
Network = tuple[list[Edge[int]], dict[int, float], dict[int, float]]


def network(nodes: int) -> Network:
    """Edges, currents drawn and volts held of a network whose wires mostly go to nodes met lately; node 0 is at 0 V."""
    chance = random.Random(2031)
    edges = [Edge(chance.randrange(max(0, node - 30), node), node, chance.uniform(1, 200)) for node in range(1, nodes)]
    for _ in range(nodes // 10):
        a = chance.randrange(nodes)
        b = min(nodes - 1, a + chance.randrange(1, 40))
        if a != b:
            edges.append(Edge(a, b, chance.uniform(1, 200)))
    drawn = {node: chance.uniform(0.1, 2) for node in chance.sample(range(1, nodes), nodes // 8)}
    held = dict.fromkeys(chance.sample(range(1, nodes), max(1, nodes // 200)), 13.5)
    return edges, drawn, held


def by_star_mesh(of: Network) -> np.ndarray:
    edges, drawn, held = of
    volts = solve(edges, drawn, 0, held).voltage_v
    return np.array([volts[node] for node in range(len(volts))], dtype=float)


def by_sparse_lu(of: Network) -> np.ndarray:
    """The same by nodal analysis: conductance matrix of the free nodes, LU with scipy's own ordering."""
    edges, drawn, held = of
    size = 1 + max(max(edge.a, edge.b) for edge in edges)
    a = np.array([edge.a for edge in edges])
    b = np.array([edge.b for edge in edges])
    siemens = np.array([1000 / edge.resistance_mohm for edge in edges])
    rows, columns = np.concatenate((a, b, a, b)), np.concatenate((a, b, b, a))
    whole = csc_matrix(coo_matrix((np.concatenate((siemens, siemens, -siemens, -siemens)), (rows, columns))))
    known = {0: 0.0, **held}
    fixed = np.array(sorted(known))
    free = np.setdiff1d(np.arange(size), fixed)
    volts = np.zeros(size)
    volts[fixed] = [known[node] for node in fixed]
    amps = np.zeros(size)
    for node, current in drawn.items():
        amps[node] -= current
    volts[free] = splu(whole[free][:, free]).solve(amps[free] - whole[free][:, fixed] @ volts[fixed])
    return volts


def cpu_ms(done: Callable[[], object], rounds: int) -> float:
    times = []
    for _ in range(rounds + 1):
        start = time.process_time()
        done()
        times.append(1000 * (time.process_time() - start))
    return statistics.median(times[1:])


def states() -> tuple[int, float, float]:
    """How many states of the trail truck were solved, the CPU seconds they took, and those of making the network."""
    job = read_job(ROOT / "jobs" / "trail-truck").job
    if job is None:
        raise SystemExit("the trail truck has faults")
    worked = work_out(job, datetime.date.today())
    start = time.process_time()
    grid = Grid(job, worked.shown)
    behaviour = Behaviour(grid, worked.circuits)
    made = time.process_time() - start
    cables = [key for key in grid.by_key if key.startswith("cable ")]
    opened = [frozenset[str](), *(frozenset({cable}) for cable in cables)]
    able = [needs for name in grid.loads if (needs := needs_of(name, grid, worked.circuits)) is not None]
    tried = list(itertools.islice(itertools.product(able, opened), STATES))
    start = time.process_time()
    for needs, without in tried:
        behaviour.operate(state(needs, grid), without)
    return len(tried), time.process_time() - start, made


def loaded(done: str, folder: Path) -> Mapping[str, int]:
    """Modules that a command of the program loads, by the package they belong to."""
    code = f"from aswired.cli.run import main; main({done}); import sys; print('LOADED', *sorted(sys.modules))"
    told = subprocess.run([sys.executable, "-c", code], cwd=folder, capture_output=True, text=True, check=True)
    names = told.stdout.partition("LOADED ")[2].split()
    return {part: sum(name.split(".")[0] == part for name in names) for part in ("aswired", "numpy", "scipy")} | {
        "all": len(names)
    }


def imports() -> None:
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        job = folder / "jobs" / "flatbed"
        job.mkdir(parents=True)
        (job / "job.yml").write_bytes((ROOT / "jobs" / "flatbed" / "job.yml").read_bytes())
        loaded("['build', '--job', 'flatbed']", folder)
        for name, command in (
            ("build, nothing changed", "['build', '--job', 'flatbed']"),
            ("check", "['check', 'flatbed']"),
        ):
            told = ", ".join(f"{part} {count}" for part, count in loaded(command, folder).items())
            print(f"  modules, {name}: {told}")
    bare, solver = (
        statistics.median(_started(code) for _ in range(5)) for code in ("pass", "import scipy.sparse.linalg")
    )
    print(f"  importing scipy's sparse solver: {1000 * (solver - bare):.0f} ms")


def _started(code: str) -> float:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return time.perf_counter() - start


def main(nodes: int, rounds: int) -> None:
    of = network(nodes)
    edges, drawn, held = of
    apart = np.abs(by_star_mesh(of) - by_sparse_lu(of)).max()
    ours, theirs = cpu_ms(lambda: by_star_mesh(of), rounds), cpu_ms(lambda: by_sparse_lu(of), rounds)
    print(f"{nodes} nodes, {len(edges)} wires, {len(drawn)} loads, {len(held)} nodes held; medians of {rounds} rounds")
    print(f"  star-mesh elimination {ours:.1f} ms, scipy sparse LU {theirs:.1f} ms, ratio {ours / theirs:.2f}")
    print(f"  largest difference {apart:.2e} V")
    count, seconds, made = states()
    print(f"  trail truck: {count} operating states {seconds:.2f} s CPU, the network itself {1000 * made:.0f} ms")
    imports()


if __name__ == "__main__":
    main(*(int(text) for text in (sys.argv[1:] + ["2000", "11"][len(sys.argv) - 1 :])))
