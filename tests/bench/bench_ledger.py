"""The share of the ledger in working a job out: the demo jobs, and how it grows with generated cars of many circuits.

The ledger is timed inside `work_out`, where it takes over what was traced and solved before it; what it is the first to
ask of the network counts as its own. CPU time of the process, after one round that is not counted; medians. The share
is one of the same run. Growth beside it: time of the ledger over that of the smallest generated car, and the same for
working out, so that 3 times the circuits at 3 times the cost reads 3.0. Nothing is asserted on time.

    python -m tests.bench.bench_ledger [rounds] [circuits ...]
"""

from __future__ import annotations

import datetime
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "builder")]

from tests.bench.bench_build import job_text  # noqa: E402  the path comes first

from aswired import work  # noqa: E402
from aswired.files import find_jobs, read_job  # noqa: E402
from aswired.ledger.record import Ledger  # noqa: E402

TODAY = datetime.date(2031, 6, 1)
LOADS_TO_ROWS = 3  # every third row of a generated car has a load


@dataclass(frozen=True)
class Cost:
    """CPU milliseconds of one job; `stretches` and `circuits` are those of the shown view."""

    ledger: float
    work: float
    stretches: int
    circuits: int


def cost(folder: Path) -> Cost:
    """One job worked out, its ledger and that of its plan timed inside."""
    job = read_job(folder).job
    if job is None:
        raise SystemExit(f"{folder.name} has faults")
    taken: list[float] = []
    own = work.ledger_of, work.ledger_in

    def timed(ledger: Callable[..., Ledger]) -> Callable[..., Ledger]:
        def of(*args: Any) -> Ledger:
            start = time.process_time()
            found = ledger(*args)
            taken.append(time.process_time() - start)
            return found

        return of

    work.ledger_of, work.ledger_in = map(timed, own)
    try:
        start = time.process_time()
        worked = work.work_out(job, TODAY)
        whole = time.process_time() - start
    finally:
        work.ledger_of, work.ledger_in = own
    return Cost(1000 * sum(taken), 1000 * whole, len(worked.shown.stretches), len(worked.circuits))


def median_cost(folder: Path, rounds: int) -> Cost:
    met = [cost(folder) for _ in range(rounds + 1)][1:]
    middle = (statistics.median(getattr(one, part) for one in met) for part in ("ledger", "work"))
    return Cost(*middle, met[0].stretches, met[0].circuits)


def line(name: str, of: Cost, least: Cost | None = None) -> str:
    grown = f"{of.ledger / least.ledger:10.1f}{of.work / least.work:10.1f}" if least is not None else ""
    counts = f"  {name:24}{of.circuits:9}{of.stretches:10}"
    return f"{counts}{of.ledger:9.1f}{of.work:10.1f}{of.ledger / of.work:8.0%}{grown}"


def main(rounds: int, circuits: list[int]) -> None:
    print(f"CPU ms a job, medians of {rounds} rounds; share = ledger / work out")
    heads = f"  {'':24}{'circuits':>9}{'stretches':>10}{'ledger':>9}{'work out':>10}{'share':>8}"
    print(heads + f"{'ledger x':>10}{'work x':>10}")
    for folder in find_jobs(ROOT / "jobs"):
        print(line(folder.name, median_cost(folder, rounds)))
    least: Cost | None = None
    with tempfile.TemporaryDirectory() as shop:
        for count in circuits:
            folder = Path(shop) / f"truck-{count:04d}"
            folder.mkdir()
            (folder / "job.yml").write_text(job_text(0, LOADS_TO_ROWS * count), encoding="utf-8")
            found = median_cost(folder, rounds)
            least = least or found
            print(line("generated", found, least))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3, [int(text) for text in sys.argv[2:]] or [30, 100, 300])
