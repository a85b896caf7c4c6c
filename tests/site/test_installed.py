"""The wheel in an environment of its own, and the site generator's own command over the same jobs."""

import os
import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

from aswired.site.publish import HOME

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.slow


def run(*command: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    env = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    return subprocess.run(command, cwd=cwd, env=env, capture_output=True, text=True, timeout=300)


@pytest.fixture(scope="session")
def bin_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Commands of an environment that holds the wheel, and borrows what it depends on from this one."""
    base = tmp_path_factory.mktemp("wheel")
    source = base / "source"
    for name in ("builder", "site_theme"):
        skip = shutil.ignore_patterns("__pycache__", "*.egg-info", ".mypy_cache")
        shutil.copytree(ROOT / name, source / name, ignore=skip)
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source / name)
    made = run(sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", base, ".", cwd=source)
    if made.returncode and "No matching distribution" in made.stderr:
        pytest.skip("the build's own tools cannot be fetched: no package registry is reached from here")
    assert made.returncode == 0, made.stderr
    wheel = next(base.glob("aswired-*.whl"))
    assert run(sys.executable, "-m", "venv", "--without-pip", base / "env", cwd=base).returncode == 0
    python = base / "env" / "bin" / "python"
    borrowed = run(python, "-c", "import sysconfig; print(sysconfig.get_paths()['purelib'])", cwd=base).stdout.strip()
    Path(borrowed, "borrowed.pth").write_text(sysconfig.get_paths()["purelib"])
    put = run(sys.executable, "-m", "pip", "--python", python, "install", "-q", "--no-deps", wheel, cwd=base)
    assert put.returncode == 0, put.stderr
    return python.parent


def files(site: Path) -> dict[str, bytes]:
    """The files of a site, without what the build keeps for itself."""
    found = {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}
    return {uri: content for uri, content in found.items() if not uri.startswith(f"{HOME}/")}


def test_an_empty_folder_gives_a_themed_site(bin_dir: Path, tmp_path: Path) -> None:
    where = run(bin_dir / "python", "-c", "import aswired; print(aswired.__file__)", cwd=tmp_path)
    assert str(bin_dir.parent) in where.stdout  # not the source tree
    for command in (["new", "green-van"], ["check"], ["build"], ["sheets"]):
        done = run(bin_dir / "aswired", *command, cwd=tmp_path)
        assert done.returncode == 0, done.stdout + done.stderr
    site = files(tmp_path / "site")
    assert b"Green van" in site["index.html"]
    assert site["assets/css/base.css"] == (ROOT / "site_theme" / "css" / "base.css").read_bytes()
    assert {Path(uri).suffix for uri in site} == {".html", ".css", ".js"}
    written = {f"manual/{path.stem}.html" for path in (ROOT / "builder" / "aswired" / "manual").glob("*.md")}
    assert len(written) > 10
    assert {uri for uri in site if uri.startswith("manual/")} == written
    assert b"stagger: 50 mm" in site["manual/weekly.html"]


def test_mkdocs_itself_gives_the_same_site_and_the_same_refusal(bin_dir: Path, tmp_path: Path) -> None:
    assert run(bin_dir / "aswired", "new", "green-van", cwd=tmp_path).returncode == 0
    (tmp_path / "jobs" / "green-van" / "todo.txt").write_text("x")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    shutil.copytree(ROOT / "site_theme", tmp_path / "site_theme")
    done = run(bin_dir / "python", "-m", "mkdocs", "build", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert run(bin_dir / "aswired", "build", "--out", "other", cwd=tmp_path).returncode == 0
    good = files(tmp_path / "site")
    assert good == files(tmp_path / "other")
    source = tmp_path / "jobs" / "green-van" / "job.yml"
    source.write_text(source.read_text().replace("gap: 18 in", "gap: 18"))
    done = run(bin_dir / "python", "-m", "mkdocs", "build", cwd=tmp_path)
    assert done.returncode == 1
    assert "green-van/job.yml" in done.stderr
    assert "Traceback" not in done.stderr
    assert files(tmp_path / "site") == good
