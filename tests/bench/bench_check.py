"""What working a job out costs over the least it could cost, for generated jobs of 30 rows and for the demo jobs.

The floor reads the job and folds its plan, with nothing traced, computed or judged. Both sides run in one process, a
job after the other, after one round that is not counted; CPU time of the process is counted. A job's figure is the
median of the rounds; of the generated jobs the median and the extremes are told. Nothing is asserted on time.

    python -m tests.bench.bench_check [generated jobs] [rounds]
"""

from __future__ import annotations

import datetime
import statistics
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "builder")]

from tests.bench.bench_build import ROWS, job_text  # noqa: E402

from aswired.car.asbuilt import fold  # noqa: E402  the path comes first
from aswired.files import find_jobs, read_job  # noqa: E402
from aswired.work import work_out  # noqa: E402

TODAY = datetime.date.today()


@dataclass(frozen=True)
class Cost:
    """CPU milliseconds of one job."""

    read: float
    fold: float
    work: float  # every view, circuit, figure and finding

    @property
    def ratio(self) -> float:
        return (self.read + self.work) / (self.read + self.fold)


def cost(folder: Path) -> Cost:
    """One job read, its plan folded, and the whole of it worked out."""
    start = time.process_time()
    job = read_job(folder).job
    read = time.process_time()
    if job is None:
        raise SystemExit(f"{folder.name} has faults")
    fold(job, "plan")
    folded = time.process_time()
    work_out(job, TODAY)
    worked = time.process_time()
    return Cost(1000 * (read - start), 1000 * (folded - read), 1000 * (worked - folded))


def costs(folders: tuple[Path, ...], rounds: int) -> list[Cost]:
    """The median of the rounds, job by job."""
    met = [[cost(folder) for folder in folders] for _ in range(rounds + 1)][1:]
    return [
        Cost(*(statistics.median(getattr(one, part) for one in of_job) for part in ("read", "fold", "work")))
        for of_job in zip(*met, strict=True)
    ]


def line(name: str, of: Cost, more: str = "") -> str:
    return f"  {name:24}{of.read:7.1f}{of.fold:7.1f}{of.work:9.1f}{of.ratio:8.2f}{more}"


def main(jobs: int, rounds: int) -> None:
    print(f"CPU ms a job, medians of {rounds} rounds; ratio = (read + work out) / (read + fold the plan)")
    print(f"  {'':24}{'read':>7}{'fold':>7}{'work out':>9}{'ratio':>8}")
    for folder in find_jobs(ROOT / "jobs"):
        print(line(folder.name, *costs((folder,), rounds)))
    with tempfile.TemporaryDirectory() as shop:
        for number in range(jobs):
            path = Path(shop) / f"truck-{number:04d}" / "job.yml"
            path.parent.mkdir(parents=True)
            path.write_text(job_text(number))
        found = costs(find_jobs(Path(shop)), rounds)
    middle = Cost(*(statistics.median(getattr(one, part) for one in found) for part in ("read", "fold", "work")))
    ratios = sorted(one.ratio for one in found)
    print(line(f"{jobs} generated of {ROWS} rows", middle, f"  ({ratios[0]:.2f} to {ratios[-1]:.2f})"))


if __name__ == "__main__":
    main(*(int(text) for text in (sys.argv[1:] + ["60", "5"][len(sys.argv) - 1 :])))
