"""What a run loads: a check starts without the page makers, and neither it nor a build pays for the solver."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

FLATBED = Path(__file__).resolve().parents[2] / "jobs" / "flatbed"
SOLVER = {"numpy", "scipy"}
PAGE_MAKERS = {"jinja2", "mkdocs", "aswired.sheets.templates"}


STOPPED = """
import sys
class Stop:
    def find_spec(self, name, path=None, target=None):
        if name == "aswired.cli.run":
            raise KeyboardInterrupt
sys.meta_path.insert(0, Stop())
from aswired.__main__ import entry
entry()
"""


def test_a_run_that_is_stopped_while_it_starts_says_so() -> None:
    """Loading takes half a second, in which a person who mistyped stops it."""
    told = subprocess.run([sys.executable, "-c", STOPPED], capture_output=True, text=True, check=False)
    assert (told.returncode, told.stdout, told.stderr) == (2, "", "Stopped before it was done.\n")
    project = tomllib.loads((FLATBED.parents[1] / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["scripts"] == {"aswired": "aswired.__main__:entry"}


@pytest.mark.parametrize(
    ("done", "unwanted"),
    [
        ("from aswired.cli.run import main; main(['check', 'flatbed'])", SOLVER | PAGE_MAKERS),
        pytest.param(
            "from aswired.cli.run import main; main(['build', '--job', 'flatbed'])", SOLVER, marks=pytest.mark.slow
        ),
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


READ = """
import sys
read = []
sys.addaudithook(lambda event, about: read.append(str(about[0])) if event == "open" else None)
from aswired.cli.run import main
main(sys.argv[1:])
print("READ", *read, sep="\\n")
"""


def run_and_read(*asked: str) -> tuple[str, set[Path]]:
    """What a command said, and the files that it read."""
    command = [sys.executable, "-c", READ, *asked]
    told = subprocess.run(command, cwd=FLATBED.parents[1], capture_output=True, text=True, check=True)
    said, _, read = told.stdout.partition("READ\n")
    return said, {Path(line) for line in read.splitlines()}


def test_a_check_reads_no_help_of_findings_that_it_tells_one_by_one() -> None:
    said, read = run_and_read("check", "flatbed")
    assert "accepted by" in said  # a code that stands in the job is known without its help
    assert FLATBED / "job.yml" in read
    assert [path for path in read if path.parent.name == "codes" and path.suffix == ".yml"] == []


def test_help_is_read_when_it_is_asked_for() -> None:
    said, read = run_and_read("explain", "FUS01")
    assert said.startswith("FUS01  stop, error\n")
    assert "fuses.yml" in {path.name for path in read if path.parent.name == "codes"}
