"""Builds that meet, and disks that fail."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
import tempfile
import time
from errno import ENOSPC, EROFS
from pathlib import Path

import pytest

import aswired
from aswired.cli import run as cli
from aswired.files.locking import held
from aswired.site.publish import HOME
from tests.publish.shop import add_job, at_change, at_once, broken_links, build, edit, in_a_process, site_files

pytestmark = pytest.mark.slow  # whole builds at once

SOURCE = str(Path(aswired.__file__).parents[1])


# ---- builds that meet -----------------------------------------------------------------------------------------------
def three_at_once(shop: Path) -> None:
    assert at_once(*[lambda: 0 if build(shop).good else 1] * 3) == [0, 0, 0]
    assert broken_links(shop / "site") == []
    assert [path.name for path in (shop / "site" / HOME).iterdir()] == ["written.txt"]


def rounds(shop: Path, number: int) -> None:
    edit(shop, "red-van", "the lamp sits", "turn 0, the lamp sits")
    for turn in range(number):
        edit(shop, "red-van", f"turn {turn}", f"turn {turn + 1}")
        three_at_once(shop)
    assert f"turn {number}" in (shop / "site" / "jobs" / "red-van" / "changes.html").read_text()
    assert build(shop, "other").good
    assert site_files(shop / "site") == site_files(shop / "other")


def test_three_builds_at_once_into_a_folder_that_is_not_there_yet(shop: Path) -> None:
    rounds(shop, 1)


@pytest.mark.slow
def test_three_builds_at_once_twenty_times(shop: Path) -> None:
    rounds(shop, 20)


def test_the_second_says_that_it_waits_and_then_builds(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (shop / "site" / HOME).mkdir(parents=True)
    hold = (
        "import sys, time; from pathlib import Path; from aswired.files.locking import held\n"
        "with held(Path('site/.aswired/lock')): print('held', flush=True); sys.stdin.read()"
    )
    env = os.environ | {"PYTHONPATH": SOURCE}
    with subprocess.Popen(
        [sys.executable, "-c", hold], cwd=shop, env=env, stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == b"held\n"
        log = shop / "log"
        with log.open("w") as stream:
            second = subprocess.Popen([sys.executable, "-m", "aswired", "build"], cwd=shop, env=env, stdout=stream)
        until = time.monotonic() + 60
        while "Another build is at work in site" not in log.read_text():
            assert time.monotonic() < until
            assert second.poll() is None
            time.sleep(0.05)
        assert not (shop / "site" / "index.html").exists()
        first.kill()  # a dead process keeps no lock
    assert second.wait(60) == 0
    assert (shop / "site" / "index.html").exists()


def test_a_lock_is_held_by_one_at_a_time(tmp_path: Path) -> None:
    """The file is taken away by each holder while others wait for it."""

    def work() -> int:
        for _ in range(30):
            with held(tmp_path / "lock"):
                inside = tmp_path / "inside"
                os.close(os.open(inside, os.O_CREAT | os.O_EXCL))
                inside.unlink()
        return 0

    assert at_once(work, work, work) == [0, 0, 0]
    assert os.listdir(tmp_path) == []


# ---- disks that fail ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("trouble", [ENOSPC, pytest.param(EROFS, marks=pytest.mark.slow)])
@pytest.mark.parametrize("moment", [2, 36, *(pytest.param(at, marks=pytest.mark.slow) for at in range(1, 60, 4))])
def test_a_disk_that_fails_ends_with_2_and_what_is_said_of_the_old_site_is_true(
    shop: Path, trouble: int, moment: int
) -> None:
    assert build(shop).good
    before = site_files(shop / "site")
    edit(shop, "green-van", "18 in", "30 in")
    add_job(shop, "blue-van")

    def fail() -> None:
        raise OSError(trouble, os.strerror(trouble), "site")

    def work() -> int:
        told = os.open(shop / "told", os.O_WRONLY | os.O_CREAT)
        os.dup2(told, 1)
        os.dup2(told, 2)
        sys.stdout, sys.stderr = os.fdopen(1, "w"), os.fdopen(2, "w")
        at_change(moment, shop / "site", fail, lasting=True)
        code = cli.main(["build"])
        sys.stdout.flush()
        sys.stderr.flush()
        return code

    code = in_a_process(work)
    told = (shop / "told").read_text()
    assert "Traceback" not in told
    assert broken_links(shop / "site") == []
    assert code == 2, told
    assert os.strerror(trouble) in told
    as_before = site_files(shop / "site") == before
    assert ("The site in site is as it was." in told) == as_before, told
    assert ("files are in their new state, the others as they were" in told) == (not as_before)
    assert build(shop).good
    assert build(shop, "other").good
    assert site_files(shop / "site") == site_files(shop / "other")


def test_a_first_build_that_fails_says_nothing_of_an_old_site(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (shop / "no").write_text("a file")
    assert cli.main(["build", "--out", "no/site"]) == 2
    told = "".join(capsys.readouterr())
    assert told.startswith("The site could not be made: Not a directory")
    assert "as it was" not in told


@pytest.mark.slow
def test_a_target_on_another_disk_is_staged_there(shop: Path) -> None:
    elsewhere = Path("/dev/shm")  # noqa: S108  only to have another disk
    if not elsewhere.is_dir() or elsewhere.stat().st_dev == shop.stat().st_dev:
        pytest.skip("there is no second disk here to build onto")
    with tempfile.TemporaryDirectory(dir=elsewhere) as folder:
        assert cli.main(["build", "--out", f"{folder}/site"]) == 0
        assert cli.main(["build"]) == 0
        assert site_files(Path(folder) / "site") == site_files(shop / "site")
        edit(shop, "green-van", "18 in", "30 in")
        assert cli.main(["build", "--out", f"{folder}/site"]) == 0
        assert broken_links(Path(folder) / "site") == []


def test_a_build_that_is_interrupted_leaves_the_old_site(shop: Path) -> None:
    assert build(shop).good
    before = site_files(shop / "site")
    for name in ("green-van", "red-van"):
        edit(shop, name, "18 in", "30 in")

    def work() -> int:
        os.chdir(shop)
        sys.stdout = sys.stderr = io.StringIO()
        at_change(10, shop / "site", lambda: os.kill(os.getpid(), signal.SIGINT))
        return cli.main(["build"])

    assert in_a_process(work) == 2
    assert site_files(shop / "site") == before
    assert [path.name for path in (shop / "site" / HOME).iterdir()] == ["written.txt"]
