"""What a cold build costs over the least it could cost: 200 jobs of 30 rows, no photographs.

The floor parses the same files (yaml.compose, CBaseLoader) and renders the same templates with the same contexts into
files, without MkDocs, without reading, folding, computing or searching. Each side is a process of its own; user and
system time of the process are counted, the median of the rounds is told. Aim: a ratio of 2.0 or less.

    python tests/bench/bench_build.py [jobs] [rounds]
"""

from __future__ import annotations

import datetime
import pickle
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "builder"))
COLOURS = ("GN", "VT/WH", "BK/RD", "BU", "YE/GN", "light GN", "GY/WH", "OG")
ROWS = 30


def job_text(number: int, rows: int = ROWS) -> str:
    """A job of so many rows: extensions in plugs of four wires, removals, caps, ground moves; loads on what is kept."""
    lines = [
        f"job: Truck {number}", "donor colours: BN", "system: 12 V", "supply: 13.5 V", "temperature: 20 C",
        "usual: {joint: 'lap, soldered', overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm,"
        " ring strip: 6 mm, cut to next: 5 mm}",
        "landmarks: {bulkhead: grommet, nose: takeout, front-lug: stud}",
        "route:", "  - {from: bulkhead, to: nose, length: 34 in, zone: dry}",
        "  - {from: nose, to: front-lug, length: 2 ft 7 in, zone: wet}",
        "grounds:", "  L1: {at: front-lug, stud: M6, bolted to: rail, cable: 10 mm2, cable length: 7 ft,"
        " back to: battery-}",
        "fuses:",
    ]  # fmt: skip
    for row in range(rows):
        lines.append(f"  F{row}: {{rating: 10 A, in: box, fed: ignition}}")
    lines.append("plugs:")
    lines += [f"  plug{row}: {{ways: 2, seen from: wire side, at: nose}}" for row in range(rows)]
    lines.append("loads:")
    lines += [
        f"  lamp {row}: {{between: plug{row}.1 plug{row}.2, draws: {5 + row % 40} W at 12.8 V, class: lamp}}"
        for row in range(0, rows, 3)
    ]
    lines.append("wires:")
    for row in range(rows):
        colour = COLOURS[(row + number) % len(COLOURS)]
        lines.append(f"  W{row}: {{colour: {colour}, size: 18 AWG, from: F{row}, to: plug{row}.1, length: 3 m}}")
        lines.append(f"  B{row}: {{colour: BN, size: 16 AWG, from: plug{row}.2, to: L1, length: 1.5 m}}")
    lines.append("changes:")
    for row in range(rows):
        if row % 3:
            what = f"kind: remove, wire: W{row}, ends: {{F{row}: pulled, plug{row}.1: gone}}"
        else:
            what = f"kind: extend, wire: W{row}, plug: plug{row}, gap: {10 + row} in, pigtail: 6 in, piece: BU 18 AWG"
        lines.append(f"  - {{id: C{row}, {what}, why: body {number} is longer, made: 2024-05-{1 + row % 28:02d} AK}}")
    return "\n".join(lines) + "\n"


def cpu_s() -> float:
    used = resource.getrusage(resource.RUSAGE_SELF)
    return used.ru_utime + used.ru_stime


def full(shop: Path) -> None:
    from aswired.site import run

    order = run.order_for(shop / "jobs", shop / "site", "shop", "")
    staged = run.build(order, lambda done, total, name: None)
    if not staged.good:
        raise SystemExit("the generated jobs have faults")


def keep_contexts(shop: Path) -> None:
    """Work every job out once and keep what its templates are given, one file a job."""
    from aswired.files import find_jobs, read_job
    from aswired.sheets import codes, find, jobs
    from aswired.sheets.frame import ShopFacts, frame_of
    from aswired.sheets.pages import pages_of
    from aswired.work import work_out

    (shop / "contexts").mkdir()
    summaries = []
    today = datetime.date.today()
    for folder in find_jobs(shop / "jobs"):
        job = read_job(folder).job
        assert job is not None
        worked = work_out(job, today)
        facts = ShopFacts("shop", {}, job.revision, today)
        pages = list(pages_of(frame_of(worked, facts)))
        pages = [_with_notes(page) for page in pages]
        summaries.append(jobs.summarise(worked))
        _dump(shop / "contexts" / f"{folder.name}.pickle", pages)
    facts = ShopFacts("shop", {}, "", today)
    _dump(shop / "contexts" / "shop.pickle", [*jobs.pages(summaries, facts), *find.pages(facts), *codes.pages(facts)])


def _with_notes(page: object) -> object:
    import dataclasses

    from markupsafe import Markup

    return dataclasses.replace(page, context={**page.context, "notes_html": Markup()})  # type: ignore[type-var, attr-defined]


def _dump(path: Path, pages: object) -> None:
    import types

    class Plain(pickle.Pickler):
        """Functions and modules in a context go by name; read-only mappings become plain ones."""

        def reducer_override(self, thing: object) -> object:
            if isinstance(thing, types.MappingProxyType):
                return dict, (dict(thing),)
            if isinstance(thing, types.ModuleType):
                import importlib

                return importlib.import_module, (thing.__name__,)
            return NotImplemented

    with path.open("wb") as stream:
        Plain(stream).dump(pages)


def floor(shop: Path) -> tuple[float, int]:
    """CPU seconds of the least work, the loading of the kept contexts taken off; and the number of pages."""
    import yaml

    from aswired.sheets.templates import environment, render
    from aswired.site.theme import theme_dir

    env, loading, count = environment(theme_dir()), 0.0, 0
    for path in sorted((shop / "jobs").glob("*/job.yml")):
        yaml.compose(path.read_text(encoding="utf-8"), yaml.CBaseLoader)
    for path in sorted((shop / "contexts").glob("*.pickle")):
        before = cpu_s()
        pages = pickle.loads(path.read_bytes())  # noqa: S301  written by `keep_contexts` of this run
        loading += cpu_s() - before
        for page in pages:
            target = shop / "floor" / page.uri
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(render(env, page).encode())
            count += 1
    return loading, count


def side(name: str, shop: Path) -> None:
    """One measured process: prints CPU seconds, peak MiB, pages."""
    loading, count = 0.0, 0
    if name == "full":
        full(shop)
    elif name == "floor":
        loading, count = floor(shop)
    else:
        keep_contexts(shop)
    print(cpu_s() - loading, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, count)


def measure(name: str, shop: Path) -> tuple[float, float, int, float]:
    start = time.perf_counter()
    told = subprocess.run(
        [sys.executable, __file__, "--side", name, str(shop)], check=True, capture_output=True, text=True
    ).stdout.split()
    return float(told[0]), float(told[1]), int(told[2]), time.perf_counter() - start


def main(jobs: int, rounds: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        shop = Path(folder)
        for number in range(jobs):
            path = shop / "jobs" / f"truck-{number:04d}" / "job.yml"
            path.parent.mkdir(parents=True)
            path.write_text(job_text(number))
        measure("contexts", shop)
        ratios, fulls, floors = [], [], []
        for _ in range(rounds):
            for made in ("site", ".cache", "floor"):
                subprocess.run(["rm", "-rf", shop / made], check=True)
            fulls.append(measure("full", shop))
            floors.append(measure("floor", shop))
            ratios.append(fulls[-1][0] / floors[-1][0])
        again = measure("full", shop)
        pages = floors[0][2]
        print(f"{jobs} jobs of {ROWS} rows, {pages} pages, {rounds} rounds, medians; CPU seconds of the whole process")
        for name, found in (("aswired build, cold", fulls), ("floor", floors)):
            cpu = statistics.median(one[0] for one in found)
            peak = max(one[1] for one in found)
            wall = statistics.median(one[3] for one in found)
            print(f"  {name:24} {cpu:7.2f} s CPU  {1000 * cpu / pages:6.2f} ms a page  {wall:7.2f} s  {peak:5.0f} MiB")
        print(f"  {'nothing changed':24} {again[0]:7.2f} s CPU  {again[3]:26.2f} s  {again[1]:5.0f} MiB")
        print(f"ratio cold / floor: {statistics.median(ratios):.2f} ({min(ratios):.2f} to {max(ratios):.2f}); aim 2.0")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--side"]:
        side(sys.argv[2], Path(sys.argv[3]))
    else:
        main(*(int(text) for text in (sys.argv[1:] + ["200", "3"][len(sys.argv) - 1 :])))
