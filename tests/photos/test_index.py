"""A photograph is judged when the job is checked: whole ones give their facts, bad ones one fault in plain words."""

import hashlib
import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from aswired.photos.index import PhotoError, jpeg_is_whole, read_photo

from .pictures import gradient, jpeg, noisy


def saved(image: Image.Image, format_name: str) -> bytes:
    stream = BytesIO()
    image.save(stream, format_name)
    return stream.getvalue()


def huge_png(width: int, height: int) -> bytes:
    """A PNG whose header promises a huge picture."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0")) + chunk(b"IEND", b"")


def lying_jpeg(width: int, height: int) -> bytes:
    """A small JPEG whose frame header (SOF0) promises another size."""
    data = bytearray(jpeg(gradient(32, 32)))
    at = data.index(b"\xff\xc0")
    data[at + 5 : at + 9] = struct.pack(">HH", height, width)
    return bytes(data)


def with_thumbnail(data: bytes) -> bytes:
    """The JPEG with another whole JPEG, end mark included, inside an application segment."""
    small = jpeg(gradient(40, 30))
    return data[:2] + b"\xff\xe5" + (len(small) + 2).to_bytes(2, "big") + small + data[2:]


CUT = jpeg(noisy(300, 200))
BAD: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "is empty (0 bytes)"),
    "text": (b"left rear lamp, see drawing\n" * 40, "is not a picture"),
    "page": (b"<!doctype html><html><body>404</body></html>", "is not a picture"),
    "zeros": (bytes(5000), "is not a picture"),
    "header cut": (CUT[:300], "damaged or cut off near its start"),
    "jpeg cut at 60 %": (CUT[: len(CUT) * 6 // 10], "is cut off"),
    "jpeg cut, thumbnail whole": (with_thumbnail(CUT)[: len(CUT) * 6 // 10], "is cut off"),
    "jpeg cut near its end": (CUT[:-600], "is cut off"),
    "png cut": (saved(noisy(300, 200), "PNG")[:90_000], "is cut off"),
    "webp cut": (saved(noisy(300, 200), "WEBP")[:9_000], ""),
    "png too large": (huge_png(40_000, 40_000), "too many pixels (40000 x 40000"),
    "jpeg too large": (lying_jpeg(60_000, 60_000), "too many pixels (60000 x 60000"),
    "heic": (b"\0\0\0\x24ftypheic" + bytes(400), "is HEIC"),
    "heic of another sort": (b"\0\0\0\x24ftypmif1" + bytes(400), "is HEIC"),
    "avif": (b"\0\0\0\x24ftypavif" + bytes(400), "is AVIF"),
    "tiff": (saved(gradient(40, 30), "TIFF"), "is TIFF"),
    "gif": (saved(gradient(40, 30), "GIF"), "is GIF"),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_file_gives_one_fault_that_says_what_and_how_to_mend(name: str, tmp_path: Path) -> None:
    data, wording = BAD[name]
    path = tmp_path / "0143.jpg"
    path.write_bytes(data)
    with pytest.raises(PhotoError) as caught:
        read_photo(path)
    assert wording in caught.value.reason
    assert caught.value.mend.endswith(".")
    for jargon in ("Error", "PIL", "identify", "decoder", "stream"):
        assert jargon not in caught.value.reason + caught.value.mend


def test_heic_fault_tells_to_export_as_jpeg(tmp_path: Path) -> None:
    path = tmp_path / "IMG.HEIC"
    path.write_bytes(BAD["heic"][0])
    with pytest.raises(PhotoError) as caught:
        read_photo(path)
    assert "JPEG" in caught.value.mend


def test_missing_file_and_folder_are_told_apart(tmp_path: Path) -> None:
    with pytest.raises(PhotoError, match="is not there"):
        read_photo(tmp_path / "none.jpg")
    with pytest.raises(PhotoError, match="is a folder"):
        read_photo(tmp_path)
    with pytest.raises(PhotoError, match="cannot be read"):
        read_photo(tmp_path / ("n" * 300 + ".jpg"))
    with pytest.raises(PhotoError, match=r"cannot be read|is not there"):
        read_photo(tmp_path / "nul\0.jpg")


@pytest.mark.parametrize("format_name", ["JPEG", "PNG", "WEBP"])
def test_whole_file_gives_size_hash_and_format_by_content(format_name: str, tmp_path: Path) -> None:
    path = tmp_path / "named-wrongly.txt"
    path.write_bytes(saved(gradient(90, 60), format_name))
    info = read_photo(path)
    assert (info.width, info.height, info.format) == (90, 60, format_name)
    assert info.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()


@pytest.mark.parametrize("orientation", range(1, 9))
def test_size_is_that_of_the_upright_picture(orientation: int, tmp_path: Path) -> None:
    path = tmp_path / "p.jpg"
    path.write_bytes(jpeg(gradient(90, 60), orientation))
    info = read_photo(path)
    assert (info.width, info.height) == ((90, 60) if orientation <= 4 else (60, 90))


@pytest.mark.parametrize("orientation", [0, 9, 77])
def test_senseless_orientation_counts_as_stored(orientation: int, tmp_path: Path) -> None:
    path = tmp_path / "p.jpg"
    path.write_bytes(jpeg(gradient(90, 60), orientation))
    assert read_photo(path).width == 90


def test_broken_exif_is_no_fault(tmp_path: Path) -> None:
    plain = jpeg(gradient(90, 60))
    exif = b"Exif\0\0II*\0\xff\xff\xff\x7f garbage"
    path = tmp_path / "p.jpg"
    path.write_bytes(plain[:2] + b"\xff\xe1" + (len(exif) + 2).to_bytes(2, "big") + exif + plain[2:])
    assert read_photo(path).width == 90


def progressive(image: Image.Image) -> bytes:
    stream = BytesIO()
    image.save(stream, "JPEG", progressive=True)
    return stream.getvalue()


@pytest.mark.parametrize("make", [jpeg, progressive, lambda image: with_thumbnail(jpeg(image))])
def test_marker_chain_of_whole_jpeg_reaches_its_end(make: Callable[[Image.Image], bytes]) -> None:
    data = make(noisy(64, 48))
    assert jpeg_is_whole(data)
    assert jpeg_is_whole(data + b"camera's own trailer")
    assert not jpeg_is_whole(data[:-2])


@given(st.integers(min_value=0, max_value=len(CUT) - 3))
@settings(max_examples=200)
def test_no_cut_jpeg_counts_as_whole(length: int) -> None:
    assert not jpeg_is_whole(with_thumbnail(CUT)[:length])


def test_genuinely_large_photograph_is_read_without_a_warning(tmp_path: Path) -> None:
    # 100 megapixels: above the size at which Pillow warns of a bomb (89.5)
    path = tmp_path / "large.jpg"
    Image.new("L", (10_000, 10_000)).save(path)
    assert read_photo(path).width == 10_000
