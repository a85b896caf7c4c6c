"""All that a change must pass, in one command: lint, types, every test, the demo jobs checked and built strictly."""

from __future__ import annotations

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
STEPS = (
    ("lint", ("-m", "ruff", "check", ".")),
    ("format", ("-m", "ruff", "format", "--check", ".")),
    ("types", ("-m", "mypy")),
    ("tests", ("-m", "pytest", "-q", "-n", "2", "--dist", "loadscope")),
)
# Two runs at once cannot share what pytest keeps of the last one, and no test reads a log.
QUICK = (
    *("-m", "pytest", "-q", "-m", "not slow and not browser", "-p", "no:cacheprovider", "-p", "no:logging"),
    *("-o", "tmp_path_retention_policy=failed"),  # what passed leaves nothing behind
)
MEMORY = Path("/dev/shm")  # noqa: S108  files of tests that lie in memory cost the system half


def main() -> int:
    """Run every step; `quick` runs the short tests only. The first failing step ends the run."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # compiling the tests anew takes a fifth of the quick loop
    return quick() if sys.argv[1:] == ["quick"] else everything()


def quick() -> int:
    """The short tests in two processes, each with half of the files: workers that send each result take longer."""
    os.environ.setdefault("HYPOTHESIS_PROFILE", "brief")
    if os.access(MEMORY, os.W_OK | os.X_OK):
        os.environ.setdefault("TMPDIR", str(MEMORY))
    # dealt out by name, so that each run gets half of every folder: what lies together takes about as long
    files = sorted(path for path in (ROOT / "tests").rglob("test_*.py") if "browser" not in path.parts)
    halves = ([*files[::4], *files[3::4], ROOT / "builder"], [*files[1::4], *files[2::4]])
    runs = [
        subprocess.Popen(
            [sys.executable, *QUICK, *map(str, half)], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
        )
        for half in halves
    ]
    with ThreadPoolExecutor() as readers:  # both pipes are read, so that neither run waits for the other
        for told in readers.map(lambda run: run.communicate()[0], runs):
            sys.stdout.buffer.write(told)
            sys.stdout.flush()
    return max(run.returncode for run in runs)


def everything() -> int:
    for name, arguments in STEPS:
        print(f"== {name}", flush=True)
        done = subprocess.run([sys.executable, *arguments], cwd=ROOT, env=os.environ, check=False)
        if done.returncode:
            print(f"== {name} failed", flush=True)
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main())
