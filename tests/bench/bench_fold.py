"""What a fold costs as its rows become more: time of twice the rows over time of the rows, for every arrangement.

Rows that are done again in every order that a file may have, ordinary rows, rows that correct one another, and rows
that cannot be so; of each also the cost of a row over that of an ordinary one. In proportion is 2; the worst
arrangement comes to 4, since its lists and their number both double. All in one process, CPU time, the least of some
rounds. Nothing is asserted on time.

    python -m tests.bench.bench_fold [rows] [rounds]
"""

from __future__ import annotations

import gc
import sys
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "builder")]

from aswired.car.asbuilt import fold  # noqa: E402  the path comes first
from aswired.record import Job  # noqa: E402
from properties.arrangements import IN_PROPORTION, ROWS, early_rows_between_late_ones, job_of  # noqa: E402


def seconds(jobs: tuple[Job, ...], rounds: int) -> list[float]:
    """CPU seconds of the plan of each job, the least of the rounds, the jobs in turn."""
    met: list[list[float]] = [[] for _ in jobs]
    for _ in range(rounds + 1):
        for job, times in zip(jobs, met, strict=True):
            gc.collect()
            start = time.process_time()
            fold(job, "plan")
            times.append(time.process_time() - start)
    return [min(times[1:]) for times in met]


def main(rows: int, rounds: int) -> None:
    print(f"plan of {rows // 2}, {rows} and {2 * rows} rows; CPU ms, least of {rounds} rounds; ratio to the one before")
    ordinary = seconds((ROWS["ordinary"](rows),), rounds)[0]

    def tell(name: str, make: Callable[[int], Job], sizes: tuple[int, ...]) -> None:
        jobs = tuple(make(size) for size in sizes)
        found = seconds(jobs, rounds)
        ratios = "".join(f"{after / before:7.2f}" for before, after in pairwise(found))
        a_row = (found[-1] / len(jobs[-1].changes)) / (ordinary / rows)
        told = "".join(f"{1000 * one:10.1f}" for one in found)
        print(f"  {name:28}{told}{ratios}   a row: {a_row:5.2f} of an ordinary one")

    sizes = (rows // 2, rows, 2 * rows)
    for name, job in ROWS.items():
        tell(name, job, sizes)
    for name, arrangement in IN_PROPORTION.items():
        tell(f"again, {name}", lambda count, of=arrangement: job_of(of(count // 2)), sizes)  # type: ignore[misc]
    worst = tuple(size // 10 for size in sizes)
    tell(f"again, the worst (of {worst[-1]})", lambda count: job_of(early_rows_between_late_ones(count // 2)), worst)


if __name__ == "__main__":
    main(*(int(text) for text in (sys.argv[1:] + ["1500", "3"][len(sys.argv) - 1 :])))
