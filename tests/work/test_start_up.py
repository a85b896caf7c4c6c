"""What a run loads: a check starts without the page makers, and neither it nor a build pays for the solver."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

FLATBED = Path(__file__).resolve().parents[2] / "jobs" / "flatbed"
SOLVER = {"numpy", "scipy"}
PAGE_MAKERS = {"jinja2", "mkdocs", "aswired.pages"}


@pytest.mark.parametrize(
    ("done", "unwanted"),
    [
        ("from aswired.cli import main; main(['check', 'flatbed'])", SOLVER | PAGE_MAKERS),
        ("from aswired.cli import main; main(['build', '--job', 'flatbed'])", SOLVER),
    ],
    ids=["check", "build"],
)
def test_a_run_loads_only_what_it_needs(done: str, unwanted: set[str], tmp_path: Path) -> None:
    job = tmp_path / "jobs" / "flatbed"
    job.mkdir(parents=True)
    (job / "job.yml").write_bytes((FLATBED / "job.yml").read_bytes())
    code = f"{done}; import sys; print('LOADED', *sorted(sys.modules))"
    told = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=True)
    loaded = set(told.stdout.partition("LOADED ")[2].split())
    assert {"aswired.work", "yaml"} <= loaded
    assert loaded & unwanted == set()
