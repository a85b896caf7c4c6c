"""What may leave the shop: upright, sRGB, nothing private, never larger, never rewritten without need."""

import itertools
import json
import os
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms
from PIL.ImageFile import ImageFile

from aswired.photos.derive import Box, Derived, Task, derive, derive_all, plan
from aswired.photos.files import publish
from aswired.photos.index import PhotoError, PhotoInfo, read_photo

from .pictures import gradient, jpeg, mean_difference, noisy, private_jpeg, stored_as


def make(tmp_path: Path, data: bytes, hide: Sequence[Box] = ()) -> list[ImageFile]:
    """Derive from these bytes; the pictures written, largest first."""
    source = tmp_path / "source.jpg"
    source.write_bytes(data)
    derived = derive(source, read_photo(source), tmp_path / "out", hide=hide, name="P1")
    pictures = []
    for _, _, filename in derived.files:
        with Image.open(tmp_path / "out" / filename) as picture:
            picture.load()
            pictures.append(picture)
    assert pictures
    assert [picture.size for picture in pictures] == [(width, height) for width, height, _ in derived.files]
    return pictures


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize(
    "size",
    [
        (700, 1000),
        pytest.param((1200, 800), marks=pytest.mark.slow),
        pytest.param((4400, 3000), marks=pytest.mark.slow),
    ],
)
def test_every_orientation_gives_the_same_upright_picture(
    orientation: int, size: tuple[int, int], tmp_path: Path
) -> None:
    upright = gradient(*size)
    for picture in make(tmp_path, jpeg(stored_as(upright, orientation), orientation)):
        wanted = upright.resize(picture.size, Image.Resampling.BOX)
        assert mean_difference(picture, wanted) < 2  # a turn or mirror of this picture differs by 55 or more


def test_turned_pictures_differ_by_more_than_the_tolerance() -> None:
    upright = gradient(100, 100)
    for orientation in range(2, 9):
        assert mean_difference(upright, stored_as(upright, orientation)) > 20


def test_no_private_word_or_segment_survives(tmp_path: Path) -> None:
    data = private_jpeg()
    assert data.count(b"tellt") >= 6
    for picture in make(tmp_path, data):
        written = Path(str(picture.filename)).read_bytes()
        assert b"tellt" not in written
        at, segments = 2, []
        while written[at + 1] != 0xDA:  # up to the start of scan
            segments.append(written[at + 1])
            at += 2 + int.from_bytes(written[at + 2 : at + 4], "big")
        # JFIF header, tables, frame; no other application segment, no comment (ITU-T T.81 table B.1)
        assert set(segments) <= {0xE0, 0xDB, 0xC0, 0xC4, 0xDD}


def test_exiftool_finds_no_metadata(tmp_path: Path) -> None:
    tool = shutil.which("exiftool")
    if tool is None:
        if os.environ.get("CI"):
            pytest.fail("exiftool is not installed, and CI must look for metadata")
        pytest.skip("exiftool is not installed")

    def groups(path: Path) -> set[str]:
        told = subprocess.run([tool, "-j", "-G", path], capture_output=True, check=True, text=True).stdout
        return {key.split(":")[0] for key in json.loads(told)[0]} - {"SourceFile"}

    pictures = make(tmp_path, private_jpeg())
    assert {"EXIF", "XMP", "ICC_Profile"} <= groups(tmp_path / "source.jpg")
    for picture in pictures:
        assert groups(Path(str(picture.filename))) <= {"ExifTool", "File", "JFIF", "Composite"}


@pytest.mark.parametrize("orientation", [1, 6])
@pytest.mark.parametrize("size", [(1000, 750), pytest.param((4032, 3024), marks=pytest.mark.slow), (3000, 2000)])
def test_hidden_box_is_solid_in_every_size(orientation: int, size: tuple[int, int], tmp_path: Path) -> None:
    white = Image.new("RGB", size, (255, 255, 255))
    box = (0.333, 0.257, 0.21, 0.118)
    for picture in make(tmp_path, jpeg(stored_as(white, orientation), orientation), hide=[box]):
        pixels = np.asarray(picture.convert("L"), dtype=np.int16)
        left, top = box[0] * picture.width, box[1] * picture.height
        right, bottom = left + box[2] * picture.width, top + box[3] * picture.height
        # every pixel that the box touches, however little
        inside = pixels[int(top) : -int(-bottom // 1), int(left) : -int(-right // 1)]
        assert inside.max() < 30  # 0 but for JPEG ringing
        outside = pixels.copy()
        margin = 12
        outside[int(top) - margin : int(bottom) + margin, int(left) - margin : int(right) + margin] = 255
        assert outside.min() > 240


def test_nothing_of_a_hidden_part_reaches_any_size(tmp_path: Path) -> None:
    """Two photographs that differ only under the box come out alike, pixel by pixel.

    The box lies on the JPEG's own blocks; what differs never enters a block outside it.
    """
    results = []
    for shade in (0, 255):
        image = gradient(2400, 1600)
        image.paste((shade, shade, shade), (800, 400, 1600, 800))
        folder = tmp_path / str(shade)
        folder.mkdir()
        results.append(make(folder, jpeg(image), hide=[(800 / 2400, 400 / 1600, 800 / 2400, 400 / 1600)]))
    for one, other in zip(*results, strict=True):
        assert np.array_equal(np.asarray(one), np.asarray(other))


@pytest.mark.parametrize("box", [(0.1, 0.1, 0.0, 0.2), (0.1, 0.1, 0.2, -0.1), (float("nan"), 0.1, 0.2, 0.2)])
def test_a_box_that_covers_nothing_is_refused(box: Box, tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="not a box"):
        make(tmp_path, jpeg(gradient(64, 48)), hide=[box])


@given(st.integers(1, 20_000), st.integers(1, 20_000), st.sampled_from(["JPEG", "PNG", "WEBP"]))
def test_planned_sizes_fall_and_never_exceed_the_source(width: int, height: int, format_name: str) -> None:
    sizes = plan(PhotoInfo(width, height, "", format_name))
    assert 1 <= len(sizes) <= 4
    assert sizes[0][0] <= width
    assert sizes[0][1] <= height
    assert max(sizes[0]) <= 2016 * 1.1
    assert max(sizes[0]) == max(width, height) or max(sizes[0]) >= 2016 * 0.9 - 1
    for (wide, high), (half_wide, half_high) in itertools.pairwise(sizes):
        assert (half_wide, half_high) == (-(-wide // 2), -(-high // 2))


@pytest.mark.parametrize(
    ("width", "height", "largest"),
    [(4032, 3024, 2016), (3024, 4032, 1512), (8064, 6048, 2016), (1600, 1200, 1600), (100, 60, 100)],
)
def test_planned_sizes_of_usual_photographs(width: int, height: int, largest: int) -> None:
    assert plan(PhotoInfo(width, height, "", "JPEG"))[0][0] == largest


def test_small_picture_is_not_enlarged(tmp_path: Path) -> None:
    assert [picture.size for picture in make(tmp_path, jpeg(gradient(120, 90)))] == [(120, 90)]


def test_unchanged_photograph_rewrites_nothing(tmp_path: Path) -> None:
    def state() -> dict[str, tuple[int, int]]:
        return {str(file): (file.stat().st_mtime_ns, file.stat().st_ino) for file in tmp_path.rglob("*.j*")}

    source = tmp_path / "source.jpg"
    source.write_bytes(jpeg(gradient(640, 480)))
    info = read_photo(source)
    first = derive(source, info, tmp_path / "cache", hide=[], name="P1")
    for file in first.kept:
        publish(file, tmp_path / "out" / file.name)
    before = state()
    assert derive(source, info, tmp_path / "cache", hide=[], name="P1") == first
    for file in first.kept:
        publish(file, tmp_path / "out" / file.name)
    assert state() == before
    assert len(before) == 1 + 2 * len(first.files) + 1  # the source, each file in both places, the record
    assert not list(tmp_path.rglob(".*"))


def test_whole_files_in_the_cache_are_used_as_they_are(tmp_path: Path) -> None:
    source = tmp_path / "source.jpg"
    source.write_bytes(jpeg(gradient(640, 480)))
    info = read_photo(source)
    first = derive(source, info, tmp_path / "cache", hide=[], name="P1")
    source.unlink()  # so that decoding it again would fail
    assert derive(source, info, tmp_path / "cache", hide=[], name="P1") == first


def test_cache_on_a_disk_without_links_is_copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(self: Path, target: Path) -> None:
        raise OSError(18, "Invalid cross-device link")

    monkeypatch.setattr(Path, "hardlink_to", refuse)
    source = tmp_path / "source.jpg"
    source.write_bytes(jpeg(gradient(320, 240)))
    derived = derive(source, read_photo(source), tmp_path / "cache", hide=[], name="P1")
    for file in derived.kept:
        publish(file, tmp_path / "out" / file.name)
    for _, _, name in derived.files:
        assert (tmp_path / "out" / name).read_bytes() == (tmp_path / "cache" / name).read_bytes()
        assert (tmp_path / "out" / name).stat().st_ino != (tmp_path / "cache" / name).stat().st_ino
    assert not list(tmp_path.rglob("*.tmp"))


def test_another_cover_or_photograph_gets_other_names(tmp_path: Path) -> None:
    def names(data: bytes, hide: Sequence[Box]) -> set[str]:
        source = tmp_path / "source.jpg"
        source.write_bytes(data)
        derived = derive(source, read_photo(source), tmp_path / "out", hide=hide, name="P1")
        return {name for _, _, name in derived.files}

    one, other = jpeg(gradient(320, 240)), jpeg(gradient(320, 240), quality=90)
    sets = [names(one, []), names(other, []), names(one, [(0.1, 0.1, 0.2, 0.2)]), names(one, [(0.1, 0.1, 0.2, 0.3)])]
    assert len(set.union(*sets)) == sum(map(len, sets))


def test_photograph_changed_since_it_was_checked_is_refused(tmp_path: Path) -> None:
    source = tmp_path / "source.jpg"
    source.write_bytes(jpeg(gradient(320, 240)))
    info = read_photo(source)
    source.write_bytes(jpeg(gradient(240, 320)))
    with pytest.raises(PhotoError, match="was changed"):
        derive(source, info, tmp_path / "out", hide=[], name="P1")


@pytest.mark.parametrize("name", ["../P1", "a/b", "", ".hidden", "a b"])
def test_name_that_could_leave_the_folder_is_refused(name: str, tmp_path: Path) -> None:
    source = tmp_path / "source.jpg"
    source.write_bytes(jpeg(gradient(32, 24)))
    with pytest.raises(ValueError, match="not fit for a file name"):
        derive(source, read_photo(source), tmp_path / "out", hide=[], name=name)


def wide_profile() -> bytes:
    """A profile with red and green exchanged: any picture that went through it shows plainly that it did.

    Built from lcms' own sRGB profile by exchanging the places of its two colorant tags (ICC.1 7.3.1: signature,
    offset, size; twelve bytes an entry).
    """
    data = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    entries = {bytes(data[at : at + 4]): at for at in range(132, 132 + 12 * int.from_bytes(data[128:132], "big"), 12)}
    red, green = entries[b"rXYZ"], entries[b"gXYZ"]
    data[red : red + 4], data[green : green + 4] = b"gXYZ", b"rXYZ"
    return bytes(data).replace("sRGB".encode("utf-16-be"), "swap".encode("utf-16-be")).replace(b"sRGB", b"swap")


def test_colour_profile_is_applied_and_then_left_out(tmp_path: Path) -> None:
    path = tmp_path / "p.jpg"
    Image.new("RGB", (320, 240), (200, 40, 40)).save(path, quality=95, icc_profile=wide_profile())
    for picture in make(tmp_path, path.read_bytes()):
        red, green, blue = picture.getpixel((100, 60))  # type: ignore[misc]
        assert abs(red - 40) < 8
        assert abs(green - 200) < 8
        assert abs(blue - 40) < 8
        assert "icc_profile" not in picture.info


def test_damaged_colour_profile_is_no_fault(tmp_path: Path) -> None:
    path = tmp_path / "p.jpg"
    Image.new("RGB", (320, 240), (200, 40, 40)).save(path, quality=95, icc_profile=b"no profile at all" * 20)
    assert abs(make(tmp_path, path.read_bytes())[0].getpixel((100, 60))[0] - 200) < 5  # type: ignore[index]


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "LA", "1", "I;16"])
def test_other_kinds_of_png_keep_their_shade(mode: str, tmp_path: Path) -> None:
    if mode == "I;16":
        image = Image.fromarray(np.full((240, 320), 112 * 257, dtype=np.uint16))
    elif mode == "1":
        image = Image.new("1", (320, 240), 1)
    else:
        image = Image.new("RGB", (320, 240), (112, 112, 112)).convert(mode, palette=Image.Palette.ADAPTIVE)
    image.save(tmp_path / "p.png")
    wanted = 255 if mode == "1" else 112
    for picture in make(tmp_path, (tmp_path / "p.png").read_bytes()):
        assert all(abs(value - wanted) <= 2 for value in picture.getpixel((100, 60)))  # type: ignore[union-attr]


def test_transparent_parts_come_out_white(tmp_path: Path) -> None:
    Image.new("RGBA", (320, 240), (0, 0, 0, 0)).save(tmp_path / "p.png")
    assert make(tmp_path, (tmp_path / "p.png").read_bytes())[0].getpixel((9, 9)) == (255, 255, 255)


def test_one_bad_photograph_stops_no_other(tmp_path: Path) -> None:
    tasks = []
    for number in range(5):
        source = tmp_path / f"{number}.jpg"
        source.write_bytes(jpeg(noisy(200 + number, 150)))
        tasks.append(Task(source, read_photo(source), f"P{number}"))
    (tmp_path / "2.jpg").unlink()
    results = derive_all(tasks, tmp_path / "out")
    assert [type(result) for result in results] == [Derived, Derived, PhotoError, Derived, Derived]
    assert [result.files[0][0] for result in results if isinstance(result, Derived)] == [200, 201, 203, 204]
