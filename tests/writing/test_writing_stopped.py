"""Stopped at any step, a job is the old one or the new one once a writer has come by; until then it means the old one.

Two files change: rows in changes.yml cut from an offcut that harness.yml lists.
"""

from __future__ import annotations

import contextlib
import dataclasses
import errno
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from aswired.files.writing import NewPiece, NotWritten, Unfinished, together, write_pieces
from aswired.files.writing.together import alone
from writing.stopping import Stopped, stopping_at
from writing.texts import OFFCUT, folder_of, read

FILES = {
    "job.yml": b"job: Van\nprivate: {customer: J. Doe}\n",
    "harness.yml": b"wires:\n  W1: GN 18 AWG, F1 to lamp.1, 2 m\noffcuts:\n  O3: BU 18 AWG 2 m\n",
    "changes.yml": b"changes:\n  - {id: C1, kind: extend, wire: W1, gap: 1 m}  # why\n",
}
NEW = {
    "job.yml": FILES["job.yml"],
    "harness.yml": FILES["harness.yml"] + f'  R1: "{OFFCUT}"\n'.encode(),
    "changes.yml": FILES["changes.yml"].replace(b"wire: W1,", b"wire: W1, piece: GN 18 AWG from R1,"),
}
HALF = {**FILES, "harness.yml": NEW["harness.yml"]}


def shop(tmp_path: Path, number: int = 0) -> Path:
    folder = folder_of(tmp_path / f"shop-{number}", FILES)
    for path in folder.iterdir():
        path.chmod(0o640)
    return folder


def change(folder: Path) -> None:
    write_pieces(read(folder), [NewPiece("C1", "W1", "GN 18 AWG from R1")], {"R1": OFFCUT})


def stand(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def desk_of(folder: Path) -> Path:
    return folder.parents[1] / ".cache" / "aswired" / "writing"


def next_writer(folder: Path) -> None:
    with alone(folder.parent):
        pass


def steps_of(tmp_path: Path) -> list[str]:
    folder = shop(tmp_path, 10_000)
    with stopping_at(10_000) as done:
        change(folder)
    shutil.rmtree(tmp_path / "shop-10000")
    assert len(done) >= 10
    return done


def test_without_a_stop_both_files_are_new_and_nothing_is_left(tmp_path):
    steps = steps_of(tmp_path)
    folder = shop(tmp_path)
    assert [steps.count(name) for name in ("write", "replace")] == [5, 3]  # two old, two new, the plan; plan and two in
    assert stand(folder) == FILES
    change(folder)
    assert stand(folder) == NEW
    assert [path.name for path in desk_of(folder).iterdir()] == []
    assert {path.stat().st_mode & 0o777 for path in folder.iterdir()} == {0o640}


def test_stopped_at_any_step_it_is_the_old_job_or_the_new_one_after_the_next_writer(tmp_path):
    seen = []
    for step in range(len(steps_of(tmp_path))):
        folder = shop(tmp_path, step)
        before = read(folder)
        with pytest.raises(Stopped), stopping_at(step):
            change(folder)
        now = stand(folder)
        assert now in (FILES, HALF, NEW)  # no other file lies there, none is half
        # whoever only reads meanwhile: the old job, perhaps with an offcut that nothing is cut from, or the new one
        assert read(folder).notes == before.notes
        if now == HALF:
            assert dataclasses.replace(read(folder), offcuts=before.offcuts) == before
        planned = (desk_of(folder) / "plan.json").exists()
        next_writer(folder)
        after = stand(folder)
        assert after == (NEW if planned or now == NEW else FILES)
        assert {path.stat().st_mode & 0o777 for path in folder.iterdir()} == {0o640}
        assert [path.name for path in desk_of(folder).iterdir()] == []  # no text of a job is left
        seen.append((now, after))
    assert (FILES, FILES) in seen
    assert (FILES, NEW) in seen
    assert (HALF, NEW) in seen
    assert (NEW, NEW) in seen


@pytest.mark.slow
def test_stopped_again_while_it_is_settled(tmp_path):
    number = 0
    for step in range(len(steps_of(tmp_path))):
        for again in range(40):
            number += 1
            folder = shop(tmp_path, number)
            with pytest.raises(Stopped), stopping_at(step):
                change(folder)
            try:
                with stopping_at(again):
                    next_writer(folder)
                break
            except Stopped:
                assert stand(folder) in (FILES, HALF, NEW)
            next_writer(folder)
            assert stand(folder) in (FILES, NEW)
            assert [path.name for path in desk_of(folder).iterdir()] == []
        else:
            pytest.fail("settling never came to its end")


@pytest.mark.parametrize("edited", ["job.yml", "harness.yml", "changes.yml"])
def test_what_somebody_wrote_behind_a_stop_stays_and_no_row_is_cut_from_nothing(tmp_path, edited):
    told = set()
    for step in range(len(steps_of(tmp_path))):
        folder = shop(tmp_path, step)
        with pytest.raises(Stopped), stopping_at(step):
            change(folder)
        path = folder / edited
        path.write_bytes(path.read_bytes() + b"# by hand\n")
        kept = path.read_bytes()
        for again in (3, None):  # the settling is stopped once too
            if again is None:
                next_writer(folder)
            else:
                with contextlib.suppress(Stopped), stopping_at(again):
                    next_writer(folder)
        now = stand(folder)
        assert now[edited] == kept
        new = {name for name in ("harness.yml", "changes.yml") if now[name].removesuffix(b"# by hand\n") == NEW[name]}
        assert new in ([set(), {"harness.yml", "changes.yml"}] + ([{"harness.yml"}] if edited != "job.yml" else []))
        read(folder)
        assert [path.name for path in desk_of(folder).iterdir()] == []
        told.add(frozenset(new))
    assert frozenset() in told
    assert frozenset({"harness.yml", "changes.yml"}) in told


def test_a_change_rests_on_the_other_files_of_the_job_until_it_is_made(tmp_path):
    steps = steps_of(tmp_path)
    replaced = [step for step, name in enumerate(steps) if name == "replace"]  # the plan, then file by file
    for step, then in ((replaced[0] + 1, FILES), (replaced[1] + 1, FILES), (replaced[2] + 1, NEW)):
        folder = shop(tmp_path, step)
        with pytest.raises(Stopped), stopping_at(step):
            change(folder)
        (folder / "job.yml").write_bytes(FILES["job.yml"] + b"# by hand\n")
        next_writer(folder)
        assert stand(folder) == {**then, "job.yml": FILES["job.yml"] + b"# by hand\n"}


def test_a_full_disk_or_a_right_that_is_wanting_changes_nothing(tmp_path):
    steps = steps_of(tmp_path)
    made = max(step for step, name in enumerate(steps) if name == "replace")  # the last file is in its place
    for step in range(len(steps)):
        wrong = (errno.ENOSPC, errno.EACCES, errno.EIO)[step % 3]
        folder = shop(tmp_path, step)
        with stopping_at(step, OSError(wrong, os.strerror(wrong)), lasting=False), contextlib.suppress(OSError):
            change(folder)
            assert step > made
        now = stand(folder)
        assert now == (NEW if now == NEW and step > made else FILES)
        next_writer(folder)
        assert stand(folder) == now
        assert [path.name for path in desk_of(folder).iterdir()] == []


def test_a_disk_that_fails_for_good_between_two_files_is_told_and_put_right_by_the_next_writer(tmp_path):
    unfinished = 0
    for step in range(len(steps_of(tmp_path))):
        folder = shop(tmp_path, step)
        try:
            with stopping_at(step, OSError(errno.EIO, "Input/output error")):
                change(folder)
        except Unfinished:
            unfinished += 1
        except OSError:
            assert stand(folder) == FILES
        next_writer(folder)
        assert stand(folder) in (FILES, NEW)
    assert unfinished > 2


def test_on_another_disk_it_is_the_same(tmp_path, monkeypatch):
    """Files that cannot be renamed from where the texts lie: a copy lies beside each for a moment."""
    real = os.replace

    def other_disk(source: Path, target: Path) -> None:
        if Path(source).parent != Path(target).parent:
            raise OSError(errno.EXDEV, "Invalid cross-device link")
        real(source, target)

    monkeypatch.setattr(os, "replace", other_disk)
    for step in range(len(steps_of(tmp_path))):
        folder = shop(tmp_path, step)
        with pytest.raises(Stopped), stopping_at(step):
            change(folder)
        left = {name: data for name, data in stand(folder).items() if not name.endswith(".aswired-writing")}
        assert left in (FILES, HALF, NEW)
        read(folder)  # what lies beside is no file of the job
        edited = step % 2 == 0
        if edited:
            (folder / "job.yml").write_bytes(FILES["job.yml"] + b"# by hand\n")
        next_writer(folder)
        now = stand(folder)
        assert now.pop("job.yml").endswith(b"# by hand\n") == edited
        assert now in [{name: data for name, data in job.items() if name != "job.yml"} for job in (FILES, NEW)]
        assert {path.stat().st_mode & 0o777 for path in folder.iterdir()} == {0o640}


def test_a_plan_that_names_a_file_elsewhere_is_not_carried_out(tmp_path):
    folder = shop(tmp_path)
    desk = desk_of(folder)
    desk.mkdir(parents=True)
    beside = [place / "outside.txt" for place in (tmp_path, tmp_path / "elsewhere", folder.parents[1])]
    (tmp_path / "elsewhere").mkdir()
    for path in (
        *("../outside.txt", "outside.txt", "/etc/outside.txt", "jobs/../outside.txt", "../elsewhere/outside.txt"),
        "jobs/van/../../outside.txt",
    ):
        for file in beside:
            file.write_text("old")
        (desk / "0.new").write_text("new")
        (desk / "plan.json").write_text(f'[["{path}", "{together._sum(b"old")}", "{together._sum(b"new")}"]]')
        next_writer(folder)
        assert [file.read_text() for file in beside] == ["old"] * 3
        assert [path.name for path in desk.iterdir()] == []
    (desk / "plan.json").write_text("half a pla")
    next_writer(folder)
    assert stand(folder) == FILES


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="there is no such signal")
def test_killed_by_the_system_at_random(tmp_path):
    """The real thing: a process is killed while it writes to and fro; what is found is one of the two jobs."""
    folder = shop(tmp_path)
    code = (
        "import sys; from pathlib import Path; from aswired.files import read_job\n"
        "from aswired.files.writing import NewPiece, write_pieces\n"
        "folder = Path(sys.argv[1]); print('go', flush=True)\n"
        "for n in range(10**6):\n"
        "    text = f'GN 18 AWG from R{n % 2}'\n"
        "    write_pieces(read_job(folder).job, [NewPiece('C1', 'W1', text)], {f'R{n % 2}': 'GN 18 AWG 900 mm'})\n"
    )
    for delay in range(40):
        running = subprocess.Popen([sys.executable, "-c", code, str(folder)], stdout=subprocess.PIPE)
        assert running.stdout is not None
        running.stdout.readline()
        time.sleep(0.002 + delay * 0.007)
        running.send_signal(signal.SIGKILL)
        running.wait()
        running.stdout.close()
        next_writer(folder)
        job = read(folder)
        piece = job.change("C1").piece
        assert piece is None or piece.offcut in job.offcuts
        assert set(stand(folder)) == set(FILES)
        assert [path.name for path in desk_of(folder).iterdir()] == []
    assert piece is not None


def test_what_was_changed_meanwhile_is_told_before_anything_is_planned(tmp_path):
    folder = shop(tmp_path)
    job = read(folder)
    (folder / "harness.yml").write_bytes(FILES["harness.yml"] + b"# by hand\n")
    with pytest.raises(NotWritten, match=r"harness\.yml was changed meanwhile"):
        write_pieces(job, [NewPiece("C1", "W1", "BU 18 AWG from O3")], {})
    assert not desk_of(folder).exists()
