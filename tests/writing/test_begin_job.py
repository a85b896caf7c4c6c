"""`aswired new` makes a folder that is whole, or none, and never over anything."""

from __future__ import annotations

import contextlib
import errno
import os
import threading
from pathlib import Path

import pytest

from aswired.cli import run as cli
from aswired.files import find_jobs, read_job
from aswired.files.skeleton import job_yml
from aswired.files.writing import begin_job
from writing.stopping import Stopped, stopping_at

TEXT = job_yml("van")


def whole(folder: Path) -> bool:
    assert (folder / "job.yml").read_text(encoding="utf-8") == TEXT
    assert sorted(path.name for path in folder.iterdir()) == ["job.yml", "photos"]
    return read_job(folder).job is not None


def steps_of(shop: Path) -> int:
    with stopping_at(10_000) as done:
        assert begin_job(shop / "jobs" / "van", TEXT)
    assert len(done) >= 5
    return len(done)


def test_a_folder_is_whole(tmp_path):
    assert begin_job(tmp_path / "jobs" / "van", TEXT)
    assert whole(tmp_path / "jobs" / "van")
    assert [path.name for path in (tmp_path / ".cache" / "aswired" / "writing").iterdir()] == []


def test_stopped_at_any_step_there_is_no_folder_and_the_next_one_is_made(tmp_path):
    steps = steps_of(tmp_path / "counted")
    for step in range(steps):
        folder = tmp_path / f"shop-{step}" / "jobs" / "van"
        with pytest.raises(Stopped), stopping_at(step):
            begin_job(folder, TEXT)
        if step == steps - 1:  # the lock is taken away; the folder has had its name with the thing done before that
            assert whole(folder)
            continue
        assert not folder.exists()
        assert begin_job(folder, TEXT)
        assert whole(folder)
        assert find_jobs(folder.parent) == (folder,)
        assert [path.name for path in folder.parent.iterdir()] == ["van"]


def test_a_disk_that_is_full_leaves_nothing(tmp_path):
    for step in range(steps_of(tmp_path / "counted")):
        folder = tmp_path / f"shop-{step}" / "jobs" / "van"
        full = OSError(errno.ENOSPC, "No space left on device")
        with contextlib.suppress(OSError), stopping_at(step, full, lasting=False):
            assert begin_job(folder, TEXT)
            assert whole(folder)
            continue
        assert not folder.exists()
        assert not folder.parent.exists() or list(folder.parent.iterdir()) == []
        assert begin_job(folder, TEXT)


@pytest.mark.parametrize("there", ["file", "folder", "empty folder", "link to nowhere"])
def test_what_is_there_stays(tmp_path, there):
    folder = tmp_path / "jobs" / "van"
    folder.parent.mkdir()
    if there == "file":
        folder.write_text("mine")
    elif there == "link to nowhere":
        folder.symlink_to(tmp_path / "nowhere")
    else:
        folder.mkdir()
    if there == "folder":
        (folder / "job.yml").write_text("job: mine\n")
    before = [(path, path.is_file() and path.read_text()) for path in sorted(tmp_path.rglob("*"))]
    assert not begin_job(folder, TEXT)
    after = [(path, path.is_file() and path.read_text()) for path in sorted(tmp_path.rglob("*"))]
    assert [one for one in after if ".cache" not in str(one[0])] == before


def test_what_comes_at_the_last_moment_stays(tmp_path, monkeypatch):
    folder = tmp_path / "jobs" / "van"
    real = os.rename

    def rename(source: Path, target: Path) -> None:
        folder.mkdir()
        (folder / "job.yml").write_text("job: mine\n")
        real(source, target)

    monkeypatch.setattr(os, "rename", rename)
    assert not begin_job(folder, TEXT)
    assert (folder / "job.yml").read_text() == "job: mine\n"
    assert [path.name for path in folder.iterdir()] == ["job.yml"]


def test_of_two_at_once_one_makes_it(tmp_path):
    for number in range(10):
        folder = tmp_path / "jobs" / f"van-{number}"
        told: list[bool] = []
        both = [threading.Thread(target=lambda: told.append(begin_job(folder, TEXT))) for _ in range(2)]  # noqa: B023
        for thread in both:
            thread.start()
        for thread in both:
            thread.join()
        assert sorted(told) == [False, True]
        assert whole(folder)


def test_where_the_jobs_lie_on_another_disk(tmp_path, monkeypatch):
    real = os.rename

    def other_disk(source: Path, target: Path) -> None:
        if Path(source).parent != Path(target).parent:
            raise OSError(errno.EXDEV, "Invalid cross-device link")
        real(source, target)

    monkeypatch.setattr(os, "rename", other_disk)
    assert begin_job(tmp_path / "jobs" / "van", TEXT)
    assert whole(tmp_path / "jobs" / "van")
    assert [path.name for path in (tmp_path / "jobs").iterdir()] == ["van"]


def test_new_says_in_plain_words_what_the_disk_refuses(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    with stopping_at(3, OSError(errno.ENOSPC, "No space left on device")):
        code = cli.main(["new", "van"])
    told = capsys.readouterr().err
    assert code == cli.BROKEN
    assert told.startswith("Not written: No space left on device")
    assert "Nothing was changed" in told
    assert not (tmp_path / "jobs" / "van").exists()


def test_new_in_a_read_only_folder(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)

    def refuse(path, *given):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr(os, "mkdir", refuse)  # in the system's place, since for its administrator nothing is read-only
    assert cli.main(["new", "van"]) == cli.BROKEN
    assert list(tmp_path.iterdir()) == []
    assert "Permission denied" in capsys.readouterr().err


def test_new_says_of_a_job_that_is_there_that_it_is_there(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["new", "van"]) == 0
    (tmp_path / "jobs" / "van" / "job.yml").write_text("job: mine\n")
    capsys.readouterr()
    assert cli.main(["new", "van"]) == cli.FAULTY
    told = capsys.readouterr().err
    assert "is there already" in told
    assert "disk" not in told
    assert (tmp_path / "jobs" / "van" / "job.yml").read_text() == "job: mine\n"
    assert cli.main(["new", "Van"]) == cli.FAULTY  # another folder here, the same one on a stick
    assert "disk" in capsys.readouterr().err
