"""Nothing is written into a job that somebody else changed since it was read, and two of our own come one by one."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from aswired.files.writing import NewPiece, NotWritten, commit, together, write_pieces
from aswired.files.writing.together import alone
from writing.test_writing_stopped import FILES, change, desk_of, shop, stand
from writing.texts import OFFCUT, folder_of, read

BOTH = [NewPiece("C1", "W1", "GN 18 AWG from R1")], {"R1": OFFCUT}


@pytest.mark.parametrize(
    ("how", "name"),
    [
        (how, name)
        for how in ("changed", "come", "gone")
        for name in ("job.yml", "harness.yml", "changes.yml", "notes.md", "../shop.yml")
        if (how, name) != ("gone", "job.yml")  # then there is no job to speak of
    ],
)
def test_any_file_that_is_not_as_it_was_read_is_told_and_nothing_is_written(tmp_path, name, how):
    folder = shop(tmp_path)
    path = folder / name
    if how != "come" and not path.exists():
        path.write_text("# nothing yet\nmust work: [lamp]\n")
    if how == "come" and path.exists():
        path = folder / "photos.yml"
    job = read(folder)
    if how == "gone":
        path.unlink()
    else:
        path.write_bytes((path.read_bytes() if path.exists() else b"photos: []\n") + b"# by hand\n")
    before = stand(folder)
    with pytest.raises(NotWritten, match=f"^{path.name} was changed meanwhile. Run it again.$"):
        write_pieces(job, *BOTH)
    assert stand(folder) == before


@pytest.mark.parametrize("replaced", [0, 1])
@pytest.mark.parametrize("edited", ["harness.yml", "changes.yml"])
def test_an_editor_that_saves_between_two_replacements_wins(tmp_path, monkeypatch, replaced, edited):
    """The last moments: both files were compared, one may be replaced already; then an editor saves one of them."""
    folder = shop(tmp_path)
    real, targets = os.replace, []

    def replace(source: Path, target: Path) -> None:
        real(source, target)
        targets.append(Path(target).name)
        if len(targets) == 1 + replaced:  # the first is the plan
            text = (folder / edited).read_bytes() + b"# by hand\n"
            (folder / edited).write_bytes(text)
            kept.append(text)

    kept: list[bytes] = []
    monkeypatch.setattr(os, "replace", replace)
    # a file that was replaced already and then saved by an editor holds both: nothing speaks against going on
    if (replaced, edited) == (1, "harness.yml"):
        change(folder)
        assert b"R1" in (folder / "harness.yml").read_bytes()
        assert b"from R1" in (folder / "changes.yml").read_bytes()
    else:
        with pytest.raises(NotWritten, match="changed meanwhile"):
            change(folder)
        assert stand(folder) == {**FILES, edited: FILES[edited] + b"# by hand\n"}
    assert (folder / edited).read_bytes() == kept[0]
    assert [path.name for path in desk_of(folder).iterdir()] == []


HOLDING = (
    "import sys, time; from pathlib import Path; from aswired.files.writing.together import alone\n"
    "with alone(Path(sys.argv[1])):\n    print('held', flush=True); time.sleep(60)\n"
)


def test_a_second_writer_waits_and_then_says_so_and_a_dead_one_keeps_nobody_out(tmp_path, monkeypatch):
    folder = shop(tmp_path)
    other = subprocess.Popen([sys.executable, "-c", HOLDING, str(folder.parent)], stdout=subprocess.PIPE)
    assert other.stdout is not None
    assert other.stdout.readline() == b"held\n"
    monkeypatch.setattr(together, "_WAIT_S", 0.1)
    with pytest.raises(NotWritten, match="Another aswired is writing"):
        change(folder)
    assert stand(folder) == FILES
    other.kill()
    other.wait()
    other.stdout.close()
    change(folder)
    assert stand(folder) != FILES


def test_the_lock_lies_neither_in_a_job_nor_among_the_jobs(tmp_path):
    folder = shop(tmp_path)
    with alone(folder.parent) as desk:
        assert (desk / "lock").is_file()
        assert not desk.is_relative_to(folder.parent)
        assert sorted(path.name for path in folder.parent.iterdir()) == ["van"]
        assert stand(folder) == FILES


def test_of_two_writers_at_once_none_loses_a_row(tmp_path):
    rows = "".join(f"  - {{id: C{n}, kind: extend, wire: W{n}, gap: 1 m}}\n" for n in range(1, 13))
    wires = "".join(f"  W{n}: GN 18 AWG, F{n} to lamp.{n}, 2 m\n" for n in range(1, 13))
    folder = folder_of(tmp_path, {"job.yml": f"job: Van\nwires:\n{wires}changes:\n{rows}".encode()})
    refused = []

    def writer(numbers: list[int]) -> None:
        for number in numbers:
            for _ in range(100):
                try:
                    write_pieces(
                        read(folder),
                        [NewPiece(f"C{number}", f"W{number}", f"GN 18 AWG from R{number}")],
                        {f"R{number}": OFFCUT},
                    )
                    break
                except NotWritten as error:
                    refused.append(str(error))

    both = [threading.Thread(target=writer, args=(list(range(first, 13, 2)),)) for first in (1, 2)]
    for thread in both:
        thread.start()
    for thread in both:
        thread.join()
    job = read(folder)
    assert {row.id: row.piece.offcut for row in job.changes} == {f"C{n}": f"R{n}" for n in range(1, 13)}
    assert set(job.offcuts) == {f"R{n}" for n in range(1, 13)}
    assert set(refused) <= {"job.yml was changed meanwhile. Run it again."}


def test_what_an_editor_saves_while_a_writer_waits_for_its_turn_is_seen(tmp_path, monkeypatch):
    folder = shop(tmp_path)
    real = commit.alone

    def later(jobs_dir: Path) -> contextlib.AbstractContextManager[Path]:
        (folder / "job.yml").write_bytes(FILES["job.yml"] + b"# by hand\n")
        return real(jobs_dir)

    monkeypatch.setattr(commit, "alone", later)
    with pytest.raises(NotWritten, match=r"job\.yml was changed meanwhile"):
        change(folder)
    assert stand(folder) == {**FILES, "job.yml": FILES["job.yml"] + b"# by hand\n"}


@pytest.mark.skipif(os.name == "nt", reason="rights are others there")
def test_no_text_of_a_job_can_ever_be_read_by_others_than_its_file(tmp_path, monkeypatch):
    folder = shop(tmp_path)
    for path in folder.iterdir():
        path.chmod(0o600)
    real, seen = os.write, set()

    def write(handle: int, data: bytes) -> int:
        done = real(handle, data)
        for path in desk_of(folder).iterdir():
            if path.stem.isdigit():
                seen.add((path.name, path.stat().st_mode & 0o777))
        return done

    monkeypatch.setattr(os, "write", write)
    change(folder)
    assert seen == {(name, 0o600) for name in ("0.old", "0.new", "1.old", "1.new")}
