"""The cache of pictures: whole or made again, whoever damages it, and however many builds use it at once."""

import hashlib
import json
import multiprocessing
import os
import re
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from aswired.photos import files
from aswired.photos.derive import Derived, derive
from aswired.photos.files import CachedFile, publish, sweep, write_whole
from aswired.photos.index import read_photo
from aswired.photos.marks import DrawnMark
from aswired.photos.printed import print_copy
from aswired.site import run

from .pictures import gradient, jpeg
from .test_odd_pictures import made, write_job

pytestmark = pytest.mark.slow  # pictures on disk

MARKS = [DrawnMark(1, "ring", (0.4, 0.4, 0.1))]


def fill(folder: Path) -> tuple[Derived, CachedFile]:
    """The files and the print copy of one photograph, in `folder`/cache."""
    source = folder / "source.jpg"
    if not source.exists():
        source.write_bytes(jpeg(gradient(900, 600)))
    derived = derive(source, read_photo(source), folder / "cache", hide=[], name="P1")
    return derived, print_copy(derived.kept[0].path, MARKS, folder / "cache")


def bytes_of(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_each_file_is_told_with_its_size_and_hash(tmp_path: Path) -> None:
    for _ in range(2):  # made, and found
        derived, printed = fill(tmp_path)
        assert [file.name for file in derived.kept] == [name for _, _, name in derived.files]
        for file in (*derived.kept, printed):
            content = file.path.read_bytes()
            assert (file.size, file.sha256) == (len(content), hashlib.sha256(content).hexdigest())
            with Image.open(file.path) as opened:
                opened.load()


def in_place(path: Path, content: bytes) -> None:
    """As an editor saves that keeps the file: every link to it changes too."""
    with path.open("r+b") as stream:
        stream.write(content)
        stream.truncate(len(content))


def one_bit(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[len(data) // 2] ^= 1
    in_place(path, bytes(data))


DAMAGE: dict[str, Callable[[Path], object]] = {
    "missing": lambda path: path.unlink(),
    "empty": lambda path: in_place(path, b""),
    "cut off": lambda path: in_place(path, path.read_bytes()[:-40]),
    "longer": lambda path: in_place(path, path.read_bytes() + b"\0"),
    "one bit": one_bit,
    "another of the same size": lambda path: in_place(path, bytes(path.stat().st_size)),
    "a link to nothing": lambda path: (path.unlink(), path.symlink_to("not-there")),
}
RECORDS: dict[str, Callable[[Path], object]] = {
    "of another form": lambda path: in_place(path, path.read_bytes().replace(b'"form": 1', b'"form": 0')),
    "of a list": lambda path: in_place(path, b"[]"),
    "of names elsewhere": lambda path: in_place(path, path.read_bytes().replace(b'"P1-', b'"../P1-')),
    "of words": lambda path: in_place(path, b"words"),
    "with too little": lambda path: in_place(path, b'{"form": 1, "files": [["P1"]]}'),
    "of no files": lambda path: in_place(path, b'{"form": 1, "files": []}'),
}


@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE)
def test_any_damaged_file_is_made_again_and_nothing_is_said(
    damage: Callable[[Path], object], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = fill(tmp_path)
    whole = bytes_of(tmp_path / "cache")
    assert len(whole) == 3 + 1 + 2  # 900, 450 and 225 px, the print copy, and a record of each
    for name in whole:
        damage(tmp_path / "cache" / name)
        assert fill(tmp_path) == before
        assert bytes_of(tmp_path / "cache") == whole, name
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize("damage", RECORDS.values(), ids=RECORDS)
def test_a_record_that_is_none_is_written_again(damage: Callable[[Path], object], tmp_path: Path) -> None:
    before = fill(tmp_path)
    whole = bytes_of(tmp_path / "cache")
    for name in whole:
        if name.endswith(".json"):
            damage(tmp_path / "cache" / name)
            assert (tmp_path / "cache" / name).read_bytes() != whole[name]
    assert fill(tmp_path) == before
    assert bytes_of(tmp_path / "cache") == whole


def test_only_the_damaged_file_is_written_again(tmp_path: Path) -> None:
    derived, _ = fill(tmp_path)
    first, *rest = (file.path for file in derived.kept)
    before = [path.stat().st_ino for path in rest]
    first.unlink()
    fill(tmp_path)
    assert [path.stat().st_ino for path in rest] == before


def test_a_process_that_dies_before_the_record_leaves_nothing_that_is_trusted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After any number of files a build that ends there costs time only."""
    for number in range(5):
        folder = tmp_path / str(number)
        folder.mkdir()
        left = [number]

        def dying(path: Path, content: bytes, *, on_disk: bool = True, left: list[int] = left) -> None:
            if not left[0]:
                raise KeyboardInterrupt
            left[0] -= 1
            write_whole(path, content, on_disk=on_disk)

        with monkeypatch.context() as patched:
            patched.setattr(files, "write_whole", dying)
            with pytest.raises(KeyboardInterrupt):
                fill(folder)
        derived, printed = fill(folder)
        for file in (*derived.kept, printed):
            assert files.holds(file.path, file)


def test_a_file_is_on_the_disk_before_it_has_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    done: list[str] = []
    real_sync, real_replace = os.fsync, Path.replace
    monkeypatch.setattr(os, "fsync", lambda descriptor: (done.append("sync"), real_sync(descriptor))[1])
    monkeypatch.setattr(
        Path, "replace", lambda self, target: (done.append(Path(target).suffix), real_replace(self, target))[1]
    )
    fill(tmp_path)
    assert done == [*["sync", ".jpg"] * 3, ".json", "sync", ".jpg", ".json"]


def test_temporary_files_of_dead_processes_are_swept_and_those_of_live_ones_stay(tmp_path: Path) -> None:
    (tmp_path / ".old.tmp").write_bytes(b"half")
    then = time.time() - 2 * 3600
    os.utime(tmp_path / ".old.tmp", (then, then))
    for name in (".new.tmp", "P1-1.jpg", "old.tmp"):
        (tmp_path / name).write_bytes(b"whole")
    os.utime(tmp_path / "P1-1.jpg", (then, then))
    os.utime(tmp_path / "old.tmp", (then, then))
    sweep(tmp_path)
    sweep(tmp_path / "not-there")
    assert sorted(bytes_of(tmp_path)) == [".new.tmp", "P1-1.jpg", "old.tmp"]


def test_publishing_puts_right_what_is_there_and_leaves_what_is_right(tmp_path: Path) -> None:
    file = fill(tmp_path)[0].kept[0]
    target = tmp_path / "site" / file.name
    publish(file, target)
    assert os.path.samefile(target, file.path)
    for content in (b"", b"other", bytes(file.size)):
        target.unlink()
        target.write_bytes(content)
        publish(file, target)
        assert target.read_bytes() == file.path.read_bytes()
    target.unlink()
    target.write_bytes(file.path.read_bytes())
    before = target.stat().st_ino
    publish(file, target)
    assert target.stat().st_ino == before
    assert [path.name for path in target.parent.iterdir()] == [file.name]


def write_many(folder: str, number: int, problems: "multiprocessing.Queue[str]") -> None:
    """A build of its own: the same photographs again and again, each file looked at as it is got."""
    cache, sources = Path(folder) / "cache", sorted(Path(folder).glob("*.jpg"))
    try:
        for round_ in range(6):
            for source in sources:
                derived = derive(source, read_photo(source), cache, hide=[], name=source.stem)
                printed = print_copy(derived.kept[0].path, MARKS, cache)
                for file in (*derived.kept, printed):
                    publish(file, Path(folder) / f"site-{number}-{round_}" / file.name)
                if number == 0:  # so that the others make all again
                    for record in cache.glob("*.json"):
                        record.unlink(missing_ok=True)
                sweep(cache)
    except Exception as error:
        problems.put(f"{number}: {error!r}")


@pytest.mark.slow
def test_several_builds_at_once_never_meet_half_a_file(tmp_path: Path) -> None:
    for number in range(3):
        (tmp_path / f"P{number}.jpg").write_bytes(jpeg(gradient(400 + number, 300)))
    context = multiprocessing.get_context("spawn")
    problems: multiprocessing.Queue[str] = context.Queue()
    builds = [context.Process(target=write_many, args=(str(tmp_path), number, problems)) for number in range(4)]
    for build in builds:
        build.start()
    for build in builds:
        build.join(60)
    assert [build.exitcode for build in builds] == [0] * 4
    assert problems.empty(), problems.get()
    seen: dict[str, set[str]] = {}
    for path in tmp_path.glob("site-*/*"):
        seen.setdefault(path.name, set()).add(hashlib.sha256(path.read_bytes()).hexdigest())
    assert len(seen) == 3 * (2 + 1)  # 400 and 200 px and the print copy
    assert {name: len(hashes) for name, hashes in seen.items()} == dict.fromkeys(seen, 1)
    assert not list(tmp_path.rglob(".*.tmp"))


# ---- the whole way --------------------------------------------------------------------------------------------------
def build(shop: Path) -> dict[str, bytes]:
    """The pictures of the site of the job in `shop`, made or made again."""
    staged = run.build(run.order_for(shop / "jobs", shop / "site", "shop", ""), lambda done, total, name: None)
    assert staged.good
    assert staged.notices == ()
    return bytes_of(shop / "site/jobs/van/photos")


def one_job(shop: Path) -> Path:
    folder = write_job(shop / "jobs" / "van", "{id: P1, file: photos/p.jpg, shows: C1, marks: [{label: [0.5, 0.5]}]}")
    (folder / "photos" / "p.jpg").write_bytes(jpeg(gradient(700, 500)))
    return folder


def test_an_editor_that_saves_in_place_into_the_site_damages_nothing_for_long(tmp_path: Path) -> None:
    one_job(tmp_path)
    whole = build(tmp_path)
    for name in whole:
        path = tmp_path / "site/jobs/van/photos" / name
        assert os.path.samefile(path, tmp_path / ".cache/aswired/photos" / name)
        one_bit(path)
        before = path.read_bytes()
        refused = run.build(run.order_for(tmp_path / "jobs", tmp_path / "site", "shop", "", shown="site"))
        assert [(fault.code, fault.at.file) for fault in refused.faults] == [("OUT02", f"site/jobs/van/photos/{name}")]
        assert path.read_bytes() == before  # what somebody did to it is theirs to take away
        path.unlink()
        assert build(tmp_path) == whole
        for record in (tmp_path / ".cache/aswired/photos").glob("*.json"):
            for file, size, sha256 in json.loads(record.read_bytes())["files"]:
                content = (tmp_path / ".cache/aswired/photos" / file).read_bytes()
                assert (size, sha256) == (len(content), hashlib.sha256(content).hexdigest())


def test_a_damaged_cache_never_reaches_the_site_of_a_changed_job(tmp_path: Path) -> None:
    folder = one_job(tmp_path)
    whole = build(tmp_path)
    for path in (tmp_path / ".cache/aswired/photos").glob("*.jpg"):
        path.unlink()
        path.write_bytes(b"\xff\xd8\xff not what it was")
    with (folder / "job.yml").open("a") as stream:
        stream.write("vehicle: high roof\n")
    for path in (tmp_path / "site/jobs/van/photos").iterdir():
        path.unlink()
    assert build(tmp_path) == whole


# ---- names ----------------------------------------------------------------------------------------------------------
LONG = ["ж" * 60, "配" * 60, "🔧" * 60, "a" * 60, "ä" * 59 + "b", "a\u0308" * 30]
KEPT_BY_WINDOWS = ["nul", "COM1", "con.x", "lpt9.jpg", "AUX", "aux"]
AT_THE_EDGE = [".x", "-x", "x.", "..", "-"]
ALIKE = ["Van", "VAN", "van", "vAN", "left lamp", "Left lamp", "left-lamp"]


@pytest.mark.parametrize("ids", [LONG, KEPT_BY_WINDOWS, AT_THE_EDGE, ALIKE, [*ALIKE, "van-2", "Van-2"]])
def test_names_of_any_letters_give_files_that_every_disk_holds(ids: list[str], tmp_path: Path) -> None:
    folder = write_job(tmp_path / "van")
    for number in range(len(ids)):
        Image.new("RGB", (40, 30), (90, 90, 90)).save(folder / "photos" / f"{number}.png")  # alike but for the id
    photos = [f'{{id: "{id}", file: photos/{number}.png, marks: [{{label: [0, 0]}}]}}' for number, id in enumerate(ids)]
    names = [file.name for file in made(folder, *photos).made]
    assert len(names) == 2 * len(ids)  # the picture and its print copy
    assert len({name.casefold() for name in names}) == len(names)
    for name in names:
        assert re.fullmatch(r"[A-Za-z0-9_][A-Za-z0-9._-]{1,160}\.jpg", name)
        assert name.partition(".")[0].casefold() not in {"con", "nul", "com1", "lpt9", "aux"}
    assert [file.name for file in made(folder, *photos).made] == names


def test_a_plain_name_stands_in_the_name_of_its_files(tmp_path: Path) -> None:
    one_job(tmp_path)
    assert all(name.startswith("P1-") for name in build(tmp_path))
