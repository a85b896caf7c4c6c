"""All that a change must pass, in one command: lint, types, every test, the demo jobs checked and built strictly."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
STEPS = (
    ("lint", ("-m", "ruff", "check", ".")),
    ("format", ("-m", "ruff", "format", "--check", ".")),
    ("types", ("-m", "mypy")),
    ("tests", ("-m", "pytest", "-q", "-n", "2", "--dist", "loadscope")),
)
QUICK = ("-m", "pytest", "-q", "-n", "2", "-m", "not slow and not browser")


def main() -> int:
    """Run every step; `quick` runs the short tests only. The first failing step ends the run."""
    steps = (("quick tests", QUICK),) if sys.argv[1:] == ["quick"] else STEPS
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # compiling the tests anew takes a fifth of the quick loop
    for name, arguments in steps:
        print(f"== {name}", flush=True)
        done = subprocess.run([sys.executable, *arguments], cwd=ROOT, env=os.environ, check=False)
        if done.returncode:
            print(f"== {name} failed", flush=True)
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main())
