"""The demo shop built once for all the tests of a run, and the programs that look at it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import NoReturn

import pytest
from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).parents[2]
PAPERS = ("a4", "letter")
LONGEST_S = 180


def need(*programs: str) -> None:
    """Skip where one of the programs is not installed; on the build machine that is a failure."""
    missing = [program for program in programs if shutil.which(program) is None]
    if missing:
        without(f"not installed: {', '.join(missing)}")


def without(reason: str) -> NoReturn:
    if os.environ.get("CI"):
        pytest.fail(reason)
    pytest.skip(reason)


@contextmanager
def chromium() -> Iterator[Browser]:
    need("chromium")
    flags = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=flags)
        yield browser
        browser.close()


def build(shop: Path, *options: str) -> Path:
    """Build the jobs in `shop`/jobs as a user does; the site's folder."""
    order = [sys.executable, "-m", "aswired", "build", "--out", str(shop / "site"), *options]
    env = os.environ | {"PYTHONPATH": str(ROOT / "builder"), "COLUMNS": "200"}
    done = subprocess.run(order, cwd=shop, env=env, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return shop / "site"


def copy_of_the_shop(folder: Path) -> Path:
    folder.mkdir(parents=True)
    shutil.copy(ROOT / "mkdocs.yml", folder)
    shutil.copytree(ROOT / "jobs", folder / "jobs")
    return folder


@cache
def demo_site(base: Path) -> Path:
    """The built demo shop. `base` is the run's temporary folder; the workers of one run share the site."""
    return once(base, "demo", lambda folder: build(copy_of_the_shop(folder))) / "site"


@cache
def records(base: Path, job: str = "trail-truck") -> Path:
    """A folder with the job's service record as `a4.pdf` and `letter.pdf`.

    Printed with "background graphics" off, as a browser prints unless told otherwise.
    """

    def print_both(folder: Path) -> None:
        folder.mkdir()
        with chromium() as browser:
            page = browser.new_page()
            for paper in PAPERS:
                page.goto((demo_site(base) / "jobs" / job / "record.html").as_uri() + f"?paper-{paper}")
                page.pdf(path=folder / f"{paper}.pdf", prefer_css_page_size=True, print_background=False)

    need("chromium")
    return once(base, f"records-{job}", print_both)


def once(base: Path, name: str, make: Callable[[Path], object]) -> Path:
    """Have the folder `name` made by the first that asks; who asks later waits for it, in other processes too."""
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder, claim, outcome = shared / name, shared / f"{name}.claim", shared / f"{name}.outcome"
    try:
        claim.mkdir()
    except FileExistsError:
        until = time.monotonic() + LONGEST_S
        while not outcome.exists() and time.monotonic() < until:
            time.sleep(0.2)
        assert outcome.exists(), f"{name} was not made in {LONGEST_S} s"
        assert not outcome.read_text(), outcome.read_text()
        return folder
    said = "another test failed to make it"
    try:
        make(folder)
        said = ""
    finally:
        part = outcome.with_suffix(".part")
        part.write_text(said)
        part.replace(outcome)
    return folder
