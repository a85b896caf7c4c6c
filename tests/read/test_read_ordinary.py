"""What lies in a job folder and is no ordinary file of it: told with its place, never followed, never waited for.

Each case is a job and its mended twin, as in tests/bad_jobs; pipes and links are made here, for no archive keeps them.
"""

import os
import socket
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from aswired.cli import run as cli
from aswired.files import find_jobs, read_job
from aswired.rack.shelf import read_rack
from aswired.site import manifest, run
from aswired.site.telling import trouble_text
from aswired.text.ordinary import NotOrdinary, TooLarge, link_trouble, open_ordinary, read_ordinary

pytestmark = [
    pytest.mark.usefixtures("no_waiting"),
    pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes in folders"),
]

JOB = "job: Yard van\nchanges: [{id: C1, kind: cover, cover: tape}]\n"
FILES = {
    "job.yml": JOB, "route.yml": "landmarks: {nose: the lamp}\n", "notes.md": "# Radio\n",
    "readings.yml": "service: []\n", "../shop.yml": "must work: [horn]\n",
}  # fmt: skip


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop of one good job, jobs/van, in the folder that commands run in; outside.yml lies beside jobs/."""
    (tmp_path / "jobs" / "van" / "photos").mkdir(parents=True)
    (tmp_path / "jobs" / "van" / "job.yml").write_text(JOB)
    (tmp_path / "outside.yml").write_text(JOB)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def pipe(path: Path) -> None:
    os.mkfifo(path)


def a_socket(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as one:
        one.bind(os.path.relpath(path))  # the path of a socket may be 107 bytes long


def link(to: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(to)


OUT = "the file is a link that leads outside its folder\n  mend: Put the file itself in the link's place"
NOWHERE = "the file is a link that leads to nothing\n  mend: Put the file itself in the link's place"
ROUND = (
    "the file is a link that leads back to itself, or where nothing may be read\n"
    "  mend: Put the file itself in the link's place"
)
NO_FILE = "it cannot be read: it is THING, not a file\n  mend: Take it out, and write NAME as a file of text"
CASES: dict[str, tuple[Callable[[Path], None], str]] = {
    "a pipe": (
        pipe,
        "it cannot be read: it is a pipe, not a file\n  mend: Take it out, and write NAME as a file of text",
    ),
    "a socket": (
        a_socket,
        "it cannot be read: it is a socket, not a file\n  mend: Take it out, and write NAME as a file of text",
    ),
    "a folder": (
        Path.mkdir,
        "it cannot be read: it is a folder, not a file\n  mend: Take it out, and write NAME as a file of text",
    ),
    "a link out": (link("/etc/hostname"), OUT),
    "a link up and out": (Path.touch, OUT),
    "a link to a device": (link("/dev/zero"), OUT),
    "a link to nothing": (link("not-there.yml"), NOWHERE),
    "a link to itself": (Path.touch, ROUND),
}
SLOW = sorted(CASES.keys() - {"a pipe"})  # where a whole site is built for each


def put(kind: str, path: Path) -> None:
    path.unlink(missing_ok=True)
    if kind == "a link to itself":
        path.symlink_to(path.name)
    elif kind == "a link up and out":
        path.symlink_to(os.path.relpath("outside.yml", path.parent))
    else:
        CASES[kind][0](path)


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("kind", CASES)
def test_it_is_told_with_its_place_and_mended_by_a_file(kind: str, name: str, shop: Path) -> None:
    folder = shop / "jobs" / "van"
    path = folder / name
    put(kind, path)
    plain = Path(name).name
    expected = f"fault FIL01 {plain}\n  {CASES[kind][1].replace('NAME', plain)}\n1 file fault; nothing was written."
    assert trouble_text(read_job(folder).faults, (), {}) == expected
    path.rmdir() if kind == "a folder" else path.unlink()
    path.write_text(FILES[name])
    assert read_job(folder).faults == ()


@pytest.mark.parametrize("kind", CASES)
def test_the_rack_is_held_to_the_same(kind: str, shop: Path) -> None:
    path = shop / "jobs" / "rack.yml"
    put(kind, path)
    assert [(fault.code, str(fault.at)) for fault in read_rack(shop / "jobs")[1]] == [("FIL01", "rack.yml")]
    path.rmdir() if kind == "a folder" else path.unlink()
    assert read_rack(shop / "jobs")[1] == ()


@pytest.mark.parametrize("kind", ["a pipe", *(pytest.param(kind, marks=pytest.mark.slow) for kind in SLOW)])
def test_check_and_build_tell_it_and_leave_the_last_site(
    kind: str, shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == cli.FINE
    before = (shop / "site/jobs/van/index.html").read_bytes()
    put(kind, shop / "jobs/van/job.yml")
    capsys.readouterr()
    for command in (["check"], ["build"]):
        assert cli.main(command) == cli.FAULTY
        said = capsys.readouterr().out
        assert said.startswith("fault FIL01 van/job.yml\n")
        assert said.endswith("1 file fault; nothing was written.\n")
    assert (shop / "site/jobs/van/index.html").read_bytes() == before


def test_a_link_that_stays_in_its_folder_is_read(shop: Path) -> None:
    folder = shop / "jobs" / "van"
    (folder / "old").mkdir()
    (folder / "job.yml").rename(folder / "old" / "second.txt")
    (folder / "first.txt").symlink_to("old/second.txt")
    (folder / "job.yml").symlink_to("first.txt")
    got = read_job(folder)
    assert got.faults == ()
    assert got.job is not None
    assert got.job.job == "Yard van"


def test_a_link_that_leaves_the_folder_and_comes_back_is_read(shop: Path) -> None:
    folder = shop / "jobs" / "van"
    (folder / "job.yml").rename(folder / "own.txt")
    (folder / "job.yml").symlink_to("../van/own.txt")
    assert read_job(folder).faults == ()


def test_a_neighbour_whose_name_begins_alike_is_outside(shop: Path) -> None:
    (shop / "jobs" / "van-2").mkdir()
    (shop / "jobs" / "van-2" / "job.yml").write_text(JOB)
    (shop / "jobs" / "van" / "job.yml").unlink()
    (shop / "jobs" / "van" / "job.yml").symlink_to("../van-2/job.yml")
    assert [str(fault.at) for fault in read_job(shop / "jobs" / "van").faults] == ["job.yml"]


# ---- a job folder that is a link ------------------------------------------------------------------------------------
@pytest.mark.slow
def test_a_folder_linked_in_from_another_disk_is_a_job_under_the_links_name(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "jobs" / "van").rename(shop / "elsewhere")
    (shop / "jobs" / "truck").symlink_to("../elsewhere")
    (shop / "jobs" / "shop.yml").write_text("suply: 13.5 V\n")  # read beside the link, not beside what it leads to
    assert [path.name for path in find_jobs(shop / "jobs")] == ["truck"]
    assert cli.main(["check", "truck"]) == cli.FAULTY
    assert capsys.readouterr().out.startswith("fault KEY01 shop.yml:1\n")
    (shop / "jobs" / "shop.yml").unlink()
    assert cli.main(["check"]) != cli.FAULTY
    assert "Yard van (truck)" in capsys.readouterr().out
    assert cli.main(["build"]) == cli.FINE
    assert (shop / "site/jobs/truck/index.html").exists()


def test_a_folder_whose_disk_is_not_there_is_told_and_not_left_out(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "jobs" / "truck").symlink_to("/media/not-there/truck")
    (shop / "jobs" / ".#editor").symlink_to("somebody@somewhere.123")  # a lock of an editor is no job
    expected = (
        "fault FIL01 truck/job.yml\n  the job's folder is a link that leads to nothing\n"
        "  mend: Bring back the disk or folder it leads to, or take the link out\n1 file fault; nothing was written.\n"
    )
    for command in (["check"], ["build"]):
        assert cli.main(command) == cli.FAULTY
        assert capsys.readouterr().out == expected
    (shop / "jobs" / "truck").unlink()
    assert cli.main(["check"]) != cli.FAULTY


@pytest.mark.slow
def test_links_that_lead_round_do_not_hold_up_a_build(shop: Path) -> None:
    folder = shop / "jobs" / "van"
    for name, to in (("here", "."), ("up", ".."), ("top", "../.."), ("photos/up", ".."), ("itself", "itself")):
        (folder / name).symlink_to(to)
    (shop / "jobs" / "round").symlink_to(".")
    started = time.perf_counter()
    assert cli.main(["build"]) == cli.FINE
    assert time.perf_counter() - started < 20
    assert [path.name for path in (shop / "site" / "jobs").iterdir()] == ["van"]


# ---- which files make a job what it is ------------------------------------------------------------------------------
def test_only_ordinary_files_of_the_folder_are_looked_at(shop: Path) -> None:
    folder = shop / "jobs" / "van"
    (folder / "photos" / "p.jpg").write_bytes(b"picture")
    (folder / "inside.jpg").symlink_to("photos/p.jpg")
    (folder / "outside.jpg").symlink_to("../../outside.yml")
    (folder / "device.jpg").symlink_to("/dev/zero")
    (folder / "nothing.jpg").symlink_to("not-there")
    (folder / "round.jpg").symlink_to("round.jpg")
    pipe(folder / "pipe.jpg")
    a_socket(folder / "photos" / "socket.jpg")
    (folder / "up").symlink_to("..")
    pipe(shop / "jobs" / "shop.yml")
    seen = manifest.look(folder, {}, (shop / "jobs" / "shop.yml",))
    looked_at = {name for name, file in seen.items() if file.sha256 != "no file"}
    assert looked_at == {"job.yml", "photos/p.jpg", "inside.jpg"}
    by_name = {"outside.jpg", "device.jpg", "nothing.jpg", "round.jpg", "pipe.jpg", "photos/socket.jpg", "../shop.yml"}
    assert set(seen) - looked_at == by_name  # one that comes or goes makes the job be read again
    assert seen["inside.jpg"].sha256 == seen["photos/p.jpg"].sha256


def test_a_file_that_goes_while_it_is_looked_at_is_not_there(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    gone = shop / "jobs" / "van" / "gone.txt"
    gone.write_text("x")
    real = open_ordinary
    monkeypatch.setattr(manifest, "open_ordinary", lambda path: (gone.unlink(missing_ok=True), real(path))[1])
    (shop / "jobs" / "van" / "a.txt").write_text("x")  # looked at first
    assert set(manifest.look(shop / "jobs" / "van", {})) == {"a.txt", "job.yml"}


def test_a_file_that_may_not_be_read_is_looked_at_again_each_time(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: Path) -> None:
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as patched:
        patched.setattr(manifest, "open_ordinary", refuse)
        refused = manifest.look(shop / "jobs" / "van", {})
    assert set(refused) == {"job.yml"}
    assert manifest.look(shop / "jobs" / "van", refused) != refused


def test_a_part_that_becomes_a_pipe_makes_the_job_be_read_again(shop: Path) -> None:
    order = run.order_for(shop / "jobs", shop / "site", "shop", "")
    (shop / "jobs/van/notes.md").write_text("# Radio\n")
    assert run.build(order, lambda done, total, name: None).good
    (shop / "jobs/van/notes.md").unlink()
    pipe(shop / "jobs/van/notes.md")
    staged = run.build(order, lambda done, total, name: None)
    assert [(fault.code, str(fault.at)) for fault in staged.faults] == [("FIL01", "van/notes.md")]


# ---- the opener itself ----------------------------------------------------------------------------------------------
def test_what_becomes_a_pipe_between_the_look_and_the_opening_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.yml"
    path.write_text("x")
    real = os.open

    def exchanged(name: str, flags: int) -> int:
        path.unlink()
        pipe(path)
        return real(name, flags)

    monkeypatch.setattr(os, "open", exchanged)
    with pytest.raises(NotOrdinary, match="a pipe"):
        open_ordinary(path)


def test_no_more_is_read_than_can_be_used(tmp_path: Path) -> None:
    path = tmp_path / "x"
    with path.open("wb") as stream:
        stream.truncate(50_000_000_000)  # takes no room on the disk
    with pytest.raises(TooLarge):
        read_ordinary(path, 4_000_000)
    path.write_bytes(b"12345")
    assert read_ordinary(path, 5) == b"12345"
    with pytest.raises(TooLarge):
        read_ordinary(path, 4)
    assert link_trouble(path) == ""
