"""No picture stops a build: each is shown as it is seen, or told by name while the rest is made."""

import os
import random
import socket
import types
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageDraw

from aswired.files import read_job
from aswired.photos import derive, index
from aswired.photos.derive import Box
from aswired.photos.index import PhotoError
from aswired.record import Job
from aswired.site import pictures, run

from .odd_pictures import EITHER, SIZES, TOLD, Odd, odd_pictures, saved, shade
from .pictures import gradient, jpeg, mean_difference

ODD = list(odd_pictures())
MARKS = (  # on the very edges and over everything
    "[{ring: [0, 0, 0.1]}, {arrow: [0, 1, 1, 0]}, {box: [0, 0, 1, 1]}, {label: [1, 1]}, {ring: [0.5, 0.5, 1]},"
    " {arrow: [0.3, 0.3, 0.3, 0.3]}, {box: [0.5, 0.5, 0.0001, 0.0001]}, {ring: [1, 0, 0]}, {box: [1, 1, 0, 0]}]"
)


# every odd picture is decoded; the short loop has those of test_derive
pytestmark = [pytest.mark.usefixtures("no_waiting"), pytest.mark.slow]


def write_job(folder: Path, *photos: str) -> Path:
    """A job in `folder` with these photographs, each written as the line of its keys."""
    (folder / "photos").mkdir(parents=True, exist_ok=True)
    lines = ["job: Yard van", "changes: [{id: C1, kind: cover, cover: tape}]", "photos:", *(f"  - {p}" for p in photos)]
    (folder / "job.yml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder


def job_of(folder: Path) -> Job:
    got = read_job(folder)
    assert got.faults == ()
    assert got.job is not None
    return got.job


def made(folder: Path, *photos: str) -> pictures.Pictures:
    return pictures.make(job_of(write_job(folder, *photos)), folder.parent / "cache")


def seen_right(path: Path, seen: Image.Image) -> bool:
    """Whether a file shows a picture; brightness alone of tiny ones: JPEG keeps colour at half their size."""
    with Image.open(path) as opened:
        opened.load()
        wanted = seen.resize(opened.size, Image.Resampling.BOX)
        if min(seen.size) >= 16:
            return mean_difference(opened, wanted) < 3
        rounding = 6 if opened.size == seen.size else 12  # of seven rows half a row shows
        return mean_difference(opened.convert("L"), wanted.convert("L")) < rounding


def test_there_are_many_and_each_has_its_own_name() -> None:
    assert len({odd.name for odd in ODD}) == len(ODD) >= 80
    assert len([odd for odd in ODD if odd.seen is EITHER]) < 0.15 * len(ODD)


@pytest.mark.parametrize("odd", ODD, ids=lambda odd: odd.name)
@pytest.mark.filterwarnings("error")  # Pillow's warnings name no file, and nobody could do anything about them
def test_it_is_shown_as_it_is_seen_or_told(odd: Odd, tmp_path: Path) -> None:
    file = odd.file or "p.jpg"
    folder = write_job(tmp_path / "van")
    (folder / "photos" / file).write_bytes(odd.data)
    got = made(folder, f'{{id: P1, file: "photos/{file}", marks: {MARKS}}}')
    shown = got.files["P1"]
    if "P1" in got.problems:
        assert odd.seen in (TOLD, EITHER)
        problem = got.problems["P1"]
        assert shown.broken == f"photos/{file} {problem.reason}"
        assert problem.mend.endswith(".")
        assert (shown.files, shown.print_uri, got.made) == ((), "", ())
        return
    assert odd.seen is not TOLD
    assert shown.broken == ""
    assert shown.overlay.count("<a ") == 9
    assert min(map(float, shown.overlay.split('"')[1].split()[2:])) > 0  # a drawing that has an area is drawn
    assert {uri for _, _, uri in shown.files} | {shown.print_uri} == {f"jobs/van/photos/{k.name}" for k in got.made}
    for width, height, uri in shown.files:
        with Image.open(tmp_path / "cache" / Path(uri).name) as opened:
            opened.load()
            assert (opened.format, opened.mode, opened.size) == ("JPEG", "RGB", (width, height))
    if odd.seen is not EITHER:
        assert (shown.width, shown.height) == odd.seen.size
        assert seen_right(tmp_path / "cache" / Path(shown.files[0][2]).name, odd.seen)


def test_a_name_longer_than_a_disk_can_hold_is_told(tmp_path: Path) -> None:
    got = made(write_job(tmp_path / "van"), f"{{id: P1, file: photos/{'x' * 300}.jpg}}", "{id: P2, file: photos}")
    assert [got.problems[id].reason for id in ("P1", "P2")] == [
        "cannot be read (File name too long)", "is a folder, not a picture",
    ]  # fmt: skip


def test_an_id_used_twice_gives_the_files_of_one_picture(tmp_path: Path) -> None:
    folder = write_job(tmp_path / "van")
    for name in ("a", "b"):
        (folder / "photos" / f"{name}.jpg").write_bytes(jpeg(gradient(300, ord(name))))
    got = made(folder, "{id: P1, file: photos/a.jpg, marks: [{label: [0, 0]}]}", "{id: P1, file: photos/b.jpg}")
    assert (got.files["P1"].width, got.files["P1"].height) == (300, ord("b"))
    assert [file.name for file in got.made] == sorted({Path(uri).name for _, _, uri in got.files["P1"].files})


def test_a_picture_shown_wrongly_would_be_noticed(tmp_path: Path) -> None:
    """The comparison above tells apart what it has to: turned, mirrored, seen through on black, colours exchanged."""
    image = gradient(400, 300)
    red, green, blue = image.split()
    wrong = {
        "turned": image.transpose(Image.Transpose.ROTATE_180),
        "mirrored": image.transpose(Image.Transpose.FLIP_LEFT_RIGHT),
        "exchanged": Image.merge("RGB", (blue, green, red)),
        "darker": image.point(lambda value: value * 0.9),
        "inverted": image.point(lambda value: 255 - value),
    }
    for name, other in wrong.items():
        (tmp_path / name).write_bytes(jpeg(other))
        assert not seen_right(tmp_path / name, image), name
    strip = shade(3700, 1)
    (tmp_path / "strip").write_bytes(jpeg(strip.transpose(Image.Transpose.ROTATE_180)))
    assert not seen_right(tmp_path / "strip", strip)


# ---- hidden parts ---------------------------------------------------------------------------------------------------
BOXES = {
    "everything": (0.0, 0.0, 1.0, 1.0),
    "a hair across": (0.0, 0.5, 1.0, 0.000001),
    "a hair down": (0.37, 0.0, 0.000001, 1.0),
    "a grain": (0.61, 0.43, 0.0000001, 0.0000001),
    "the last corner": (1.0, 1.0, 1.0, 1.0),
    "over the edge": (0.9, 0.9, 1.0, 1.0),
    "the first corner": (0.0, 0.0, 0.001, 0.001),
}


@pytest.mark.parametrize("box", BOXES.values(), ids=BOXES)
def test_every_pixel_that_a_box_touches_is_black_in_every_file(box: Box, tmp_path: Path) -> None:
    white = {size: Image.new("RGB", size, (255, 255, 255)) for size in [*SIZES, (1300, 900)]}
    folder = write_job(tmp_path / "van")
    for number, image in enumerate(white.values()):
        (folder / "photos" / f"{number}.png").write_bytes(saved(image, "PNG"))
    hide = "[" + ", ".join(f"{value:.7f}" for value in box) + "]"
    got = made(folder, *(f"{{id: P{n}, file: photos/{n}.png, hide: [{hide}]}}" for n in range(len(white))))
    assert got.problems == {}
    for number, size in enumerate(white):
        for width, height, uri in got.files[f"P{number}"].files:
            with Image.open(tmp_path / "cache" / Path(uri).name) as opened:
                pixels = np.asarray(opened.convert("L"))
            left, top = int(box[0] * width), int(box[1] * height)
            right, bottom = -int(-(box[0] + box[2]) * width // 1), -int(-(box[1] + box[3]) * height // 1)
            inside = pixels[top:bottom, left:right]
            assert inside.size == 0 or inside.max() < 60, (size, width)  # 0 but for the ringing of JPEG in thin lines
            if size == (1300, 900) and box != BOXES["everything"]:
                assert (pixels > 240).mean() > 0.8


# ---- all of them in one job -----------------------------------------------------------------------------------------
@pytest.mark.slow
def test_a_job_of_all_of_them_is_built_and_each_that_is_not_shown_is_told(tmp_path: Path) -> None:
    folder = write_job(tmp_path / "jobs" / "van")
    lines = []
    for number, odd in enumerate(ODD):
        (folder / "photos" / f"{number}.jpg").write_bytes(odd.data)
        lines.append(f'{{id: P{number}, file: photos/{number}.jpg, shows: C1, caption: "{number}", marks: {MARKS}}}')
    write_job(folder, *lines)
    staged = run.build(run.order_for(tmp_path / "jobs", tmp_path / "site", "shop", ""), lambda done, total, name: None)
    assert staged.good
    page = (tmp_path / "site/jobs/van/photos.html").read_text(encoding="utf-8")
    notices = "\n".join(staged.notices)
    overview = (tmp_path / "site/jobs/van/index.html").read_text(encoding="utf-8")
    assert "PHO04" in overview
    files = list((tmp_path / "site/jobs/van/photos").iterdir())
    for number, odd in enumerate(ODD):
        told = f"'photos/{number}.jpg'" in notices
        shown = any(file.name.startswith(f"P{number}-") for file in files)
        assert told != shown, odd.name
        assert odd.seen is EITHER or told == (odd.seen is TOLD), odd.name
        assert told == (f"photos/{number}.jpg " in page), odd.name


# ---- what is no file, and what goes away ----------------------------------------------------------------------------
def place(kind: str, path: Path) -> None:
    if kind == "a pipe":
        os.mkfifo(path)
    elif kind == "a socket":
        with socket.socket(socket.AF_UNIX) as one:
            one.bind(os.path.relpath(path))  # the path of a socket may be 107 bytes long
    elif kind == "a folder":
        path.mkdir()
    elif kind == "a link to nothing":
        path.symlink_to("not-there.jpg")
    elif kind == "a link to a pipe":
        os.mkfifo(path.with_name("pipe"))
        path.symlink_to("pipe")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes in folders")
@pytest.mark.parametrize(
    "kind",
    ["a link to a pipe", *(pytest.param(kind, marks=pytest.mark.slow) for kind in ("a pipe", "a socket", "a folder")),
     *(pytest.param(kind, marks=pytest.mark.slow) for kind in ("a link to nothing", "nothing"))],
)  # fmt: skip
def test_what_is_no_file_is_told_and_the_rest_is_built(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    folder = write_job(tmp_path / "jobs" / "van")
    (folder / "photos" / "good.jpg").write_bytes(jpeg(gradient(300, 200)))
    place(kind, folder / "photos" / "odd.jpg")
    write_job(folder, "{id: P1, file: photos/odd.jpg, shows: C1}", "{id: P2, file: photos/good.jpg, shows: C1}")
    staged = run.build(run.order_for(tmp_path / "jobs", tmp_path / "site", "shop", ""), lambda done, total, name: None)
    assert staged.good
    assert [notice.splitlines()[0] for notice in staged.notices] == ["warning van/job.yml:4 (P1)"]
    shown = [path.name for path in (tmp_path / "site/jobs/van/photos").iterdir()]
    assert shown
    assert all(name.startswith("P2-") for name in shown)


class Change:
    """Something done to the picture between the look at it and the making."""

    def __init__(self, path: Path, what: str) -> None:
        self.path, self.what = path, what

    def __call__(self, tasks: Sequence[derive.Task], store: Path) -> tuple[derive.Derived | PhotoError, ...]:
        if self.what == "goes":
            self.path.unlink()
        elif self.what == "changes":
            self.path.write_bytes(jpeg(gradient(90, 60)))
        elif self.what == "is cut off":
            os.truncate(self.path, 100)
        else:
            self.path.unlink()
            os.mkfifo(self.path)
        return derive.derive_all(tasks, store)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes in folders")
@pytest.mark.parametrize("what", ["goes", "changes", "is cut off", "becomes a pipe"])
def test_a_picture_that_goes_or_changes_meanwhile_is_told(
    what: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_job(tmp_path / "van")
    for name in ("odd", "good"):
        (folder / "photos" / f"{name}.jpg").write_bytes(jpeg(gradient(300, 200)))
    monkeypatch.setattr(pictures, "derive_all", Change(folder / "photos" / "odd.jpg", what))
    got = made(folder, "{id: P1, file: photos/odd.jpg}", "{id: P2, file: photos/good.jpg}")
    assert set(got.problems) == {"P1"}
    assert got.files["P1"].broken
    assert got.files["P2"].files


def test_a_picture_that_may_not_be_read_is_told_and_the_job_is_built(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The rights of a file do not hold for everyone who may run the tests, so the refusal is made here."""
    folder = write_job(tmp_path / "jobs" / "van", "{id: P1, file: photos/odd.jpg, shows: C1}")
    (folder / "photos" / "odd.jpg").write_bytes(jpeg(gradient(300, 200)))
    opened = os.open

    def refuse(path: str, flags: int, mode: int = 0o777, **more: int) -> int:
        if str(path).endswith("odd.jpg"):
            raise PermissionError(13, "Permission denied")
        return opened(path, flags, mode, **more)

    monkeypatch.setattr(os, "open", refuse)
    order = run.order_for(tmp_path / "jobs", tmp_path / "site", "shop", "")
    staged = run.build(order, lambda done, total, name: None)
    assert staged.good
    assert "the picture 'photos/odd.jpg' cannot be read (Permission denied)" in staged.notices[0]
    monkeypatch.undo()
    assert run.build(order, lambda done, total, name: None).notices == ()


# ---- Pillow fails in a way that nobody foresaw ----------------------------------------------------------------------
def of_pillow(error: str) -> types.FunctionType:
    """A function that raises, as a line of Pillow's would."""
    module: dict[str, object] = {"__name__": "PIL.unforeseen"}
    exec(f"def fail(*given, **named):\n    raise {error}", module)  # noqa: S102  our own words
    fail = module["fail"]
    assert isinstance(fail, types.FunctionType)
    return fail


PLACES = [
    (Image, "open"),
    (Image.Image, "transpose"),
    (Image.Image, "resize"),
    (Image.Image, "save"),
    (ImageDraw, "Draw"),
]
ERRORS = ["RuntimeError('x')", "ZeroDivisionError('x')", "AssertionError('x')", "AttributeError('x')", "MemoryError()"]


@pytest.mark.parametrize("error", ERRORS)
@pytest.mark.parametrize(("owner", "name"), PLACES, ids=[name for _, name in PLACES])
def test_whatever_pillow_raises_is_told_of_that_picture(
    owner: object, name: str, error: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_job(tmp_path / "van")
    (folder / "photos" / "p.png").write_bytes(saved(gradient(3000, 200), "PNG", exif=turned()))
    monkeypatch.setattr(owner, name, of_pillow(error))
    got = made(folder, f"{{id: P1, file: photos/p.png, marks: {MARKS}}}", "{id: P2, file: photos/not-there.png}")
    assert set(got.problems) == {"P1", "P2"}
    said = "more memory" if "Memory" in error else error.partition("(")[0]
    assert said in got.problems["P1"].reason
    assert got.problems["P2"].reason == "is not there"


def turned() -> Image.Exif:
    exif = Image.Exif()
    exif[0x0112] = 6
    return exif


def test_a_mark_that_cannot_be_drawn_is_told_of_its_picture(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = write_job(tmp_path / "van")
    for name in ("a", "b"):
        (folder / "photos" / f"{name}.jpg").write_bytes(jpeg(gradient(300, 200)))
    monkeypatch.setattr(Image.Image, "paste", of_pillow("OSError('invalid pixel size')"))
    got = made(folder, "{id: P1, file: photos/a.jpg, marks: [{label: [0, 0]}]}", "{id: P2, file: photos/b.jpg}")
    assert set(got.problems) == {"P1"}


@pytest.mark.parametrize("owner", [index, derive])
def test_a_defect_of_our_own_is_not_taken_for_a_bad_picture(
    owner: types.ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def defect(image: Image.Image) -> int:
        raise ZeroDivisionError("ours")

    folder = write_job(tmp_path / "van")
    (folder / "photos" / "p.jpg").write_bytes(jpeg(gradient(300, 200)))
    monkeypatch.setattr(owner, "orientation", defect)
    with pytest.raises(ZeroDivisionError, match="ours"):
        made(folder, "{id: P1, file: photos/p.jpg}")


def test_a_full_disk_is_no_fault_of_a_picture(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    folder = write_job(tmp_path / "van")
    (folder / "photos" / "p.jpg").write_bytes(jpeg(gradient(300, 200)))
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        made(folder, "{id: P1, file: photos/p.jpg}")
    assert list((tmp_path / "cache").iterdir()) == []


# ---- bytes altered by chance ----------------------------------------------------------------------------------------
def altered(data: bytes, chance: random.Random) -> bytes:
    kind = chance.randrange(5)
    at = chance.randrange(len(data))
    if kind == 0:
        return data[:at]
    if kind == 1:
        return data[:at] + chance.randbytes(chance.randint(1, 40)) + data[at:]
    if kind == 2:
        return data[:at] + data[at + chance.randint(1, 200) :]
    head = min(len(data), 700) if kind == 3 else len(data)  # where the sizes and tables stand, or anywhere
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(head)
        data = data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]
    return data


@pytest.mark.parametrize("copies", [25, pytest.param(600, marks=pytest.mark.slow)])
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "progressive", "palette", "exif"])
def test_whatever_becomes_of_its_bytes_a_picture_is_shown_or_told(kind: str, copies: int, tmp_path: Path) -> None:
    image = gradient(90, 70)
    data = {
        "JPEG": lambda: jpeg(image),
        "PNG": lambda: saved(image, "PNG"),
        "WEBP": lambda: saved(image, "WEBP", exif=turned()),
        "progressive": lambda: saved(image.convert("CMYK"), "JPEG", progressive=True),
        "palette": lambda: saved(image.quantize(8), "PNG", transparency=b"\0\x80\xff"),
        "exif": lambda: jpeg(image, 6),
    }[kind]()
    chance = random.Random(f"{kind} {copies}")
    folder = write_job(tmp_path / "van")
    for number in range(copies):
        (folder / "photos" / f"{number}.jpg").write_bytes(altered(data, chance))
    got = made(folder, *(f"{{id: P{n}, file: photos/{n}.jpg, marks: [{{label: [1, 1]}}]}}" for n in range(copies)))
    for shown in got.files.values():
        assert bool(shown.broken) != bool(shown.files)
    assert 0 < len(got.problems) < copies
