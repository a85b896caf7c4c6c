"""Look at a photograph file before anything is built: is it whole, how large upright, what is its hash."""

import hashlib
import re
import struct
import threading
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image

from aswired.text.ordinary import NotOrdinary, TooLarge, read_ordinary

# Pillow's own bomb limit refuses genuine 200 megapixel photographs and warns at 90; sizes are judged in `read_photo`.
Image.MAX_IMAGE_PIXELS = None

MAX_PIXELS = {"JPEG": 250_000_000, "PNG": 80_000_000, "WEBP": 80_000_000}  # a JPEG is decoded small, the rest in full
MAX_BYTES = 250_000_000
ORIENTATION = 0x0112  # Exif tag 274: 1 upright ... 8, CIPA DC-008
SIDEWAYS = frozenset({5, 6, 7, 8})  # values whose stored width is the upright height

# What Pillow raises on files that are damaged; OSError covers "truncated" and "cannot identify".
DAMAGE = (OSError, SyntaxError, ValueError, EOFError, IndexError, KeyError, TypeError, struct.error, zlib.error)

# Skips stuffed bytes, restarts and fill. No "+" behind the first byte: the search would be twenty times slower.
_JPEG_MARKER = re.compile(rb"\xff([^\x00\xd0-\xd7\xff])", re.DOTALL)
_EXPORT = "Export it as JPEG and name that file."
_AGAIN = "Copy it again from the camera or phone; if it is damaged there too, use another picture."
_FOREIGN = (
    (re.compile(rb"....ftyp(hei|hev|mif1|msf1)", re.DOTALL), "HEIC, the phone's own format"),
    (re.compile(rb"....ftypavi", re.DOTALL), "AVIF"),
    (re.compile(rb"....ftyp", re.DOTALL), "a film or another camera format"),
    (re.compile(rb"II\*\x00|MM\x00\*"), "TIFF or a raw camera format"),
    (re.compile(rb"GIF8"), "GIF"),
    (re.compile(rb"BM"), "BMP"),
    (re.compile(rb"%PDF"), "PDF"),
)


class PhotoError(Exception):
    """A photograph that cannot be used: `reason` follows the file's name, `mend` is a sentence."""

    def __init__(self, reason: str, mend: str) -> None:
        super().__init__(f"{reason}. {mend}")
        self.reason = reason
        self.mend = mend


@dataclass(frozen=True)
class PhotoInfo:
    """Facts of a whole, readable photograph. Width and height in pixels of the upright picture."""

    width: int
    height: int
    sha256: str
    format: str  # JPEG, PNG or WEBP, by content and not by name


def read_photo(path: Path) -> PhotoInfo:
    """Size, hash and format of a photograph.

    A JPEG is not decoded when its marker chain reaches the end mark; any other file is decoded once, so that one
    that is cut off is found here and not while the site is being made. Bytes that were overwritten inside a file
    of the right length are not found.

    Raises:
        PhotoError: missing, a folder, empty, no picture, a format not handled, cut off, too large.
    """
    data = read_bytes(path)
    with at_work():
        image = open_picture(data)
        if image.format != "JPEG" or not jpeg_is_whole(data):
            load(image, data)
        turn = orientation(image)
    width, height = image.size
    if turn in SIDEWAYS:
        width, height = height, width
    return PhotoInfo(width, height, hashlib.sha256(data).hexdigest(), str(image.format))


@contextmanager
def at_work() -> Iterator[None]:
    """Pillow at work on one picture: what it raises, of whatever type, is told of that picture and stops no other.

    What our own lines raise is a defect and goes on up.

    Raises:
        PhotoError: Pillow failed.
    """
    try:
        yield
    except PhotoError:
        raise
    except Exception as error:
        if not _by_pillow(error):
            raise
        reason = "cannot be made ready for the pages"
        if isinstance(error, MemoryError):
            raise PhotoError(f"{reason}: it needs more memory than there is", "Export it smaller, as JPEG.") from error
        raise PhotoError(f"{reason} ({type(error).__name__} in the picture library)", _EXPORT) from error


def _by_pillow(error: Exception) -> bool:
    """Whether the last line of ours or of Pillow's before the error is Pillow's."""
    at, last = error.__traceback__, ""
    while at is not None:
        room = str(at.tb_frame.f_globals.get("__name__", "")).partition(".")[0]
        if room in ("PIL", "aswired"):
            last = room
        at = at.tb_next
    return last == "PIL"


def read_bytes(path: Path) -> bytes:
    """Content of a photograph file.

    Raises:
        PhotoError: there is no such file, it is a folder, it is empty, it is too large, or it may not be read.
    """
    try:
        data = read_ordinary(path, MAX_BYTES)
    except TooLarge:
        raise PhotoError(f"is larger than {MAX_BYTES // 1_000_000} MB", "Export it smaller, as JPEG.") from None
    except NotOrdinary as thing:
        if thing.what == "a folder":
            raise PhotoError("is a folder, not a picture", "Name the picture file inside it.") from None
        raise PhotoError("is not an ordinary file", "Name a picture file.") from None
    except FileNotFoundError:
        raise PhotoError("is not there", "Put the picture in the job's folder, or mend the file name.") from None
    except (OSError, ValueError) as error:
        said = (error.strerror if isinstance(error, OSError) else None) or str(error)
        raise PhotoError(f"cannot be read ({said})", "Mend the file name, or the rights of the file.") from None
    if not data:
        raise PhotoError("is empty (0 bytes)", _AGAIN)
    return data


def open_picture(data: bytes) -> Image.Image:
    """The picture, header read and pixels not yet decoded; `format` is JPEG, PNG or WEBP.

    Raises:
        PhotoError: no picture, a format not handled, a damaged header, too many pixels.
    """
    for pattern, name in _FOREIGN:
        if pattern.match(data):
            raise PhotoError(f"is {name}; JPEG, PNG and WebP are handled", _EXPORT)
    try:
        with _quiet():
            image: Image.Image = Image.open(BytesIO(data), formats=("JPEG", "PNG", "WEBP"))
    except DAMAGE:
        if data.startswith((b"\xff\xd8\xff", b"\x89PNG", b"RIFF")):
            raise PhotoError("is damaged or cut off near its start", _AGAIN) from None
        raise PhotoError("is not a picture, whatever its name says", _EXPORT) from None
    if image.format == "MPO":  # a JPEG with a second view behind it
        image.format = "JPEG"
    pixels, limit = image.width * image.height, MAX_PIXELS[str(image.format)]
    if pixels > limit:
        raise PhotoError(
            f"has too many pixels ({image.width} x {image.height}; at most {limit // 1_000_000} megapixels "
            f"for {image.format})",
            "Export it smaller, as JPEG; 4000 pixels across show all there is to see.",
        )
    return image


def load(image: Image.Image, data: bytes) -> None:
    """Decode the pixels in place.

    Raises:
        PhotoError: cut off, or damaged so that decoding stops.
    """
    try:
        image.load()
    except DAMAGE as error:
        cut = "truncated" in str(error) or (image.format == "JPEG" and not jpeg_is_whole(data))
        reason = "is cut off: the end of the file is missing" if cut else "is damaged and cannot be decoded"
        raise PhotoError(reason, _AGAIN) from None


def orientation(image: Image.Image) -> int:
    """Exif orientation 1 to 8; 1, as stored, when the tag is absent, unreadable or out of range."""
    try:
        with _quiet():
            value = image.getexif().get(ORIENTATION, 1)
    except DAMAGE:
        return 1
    return value if isinstance(value, int) and 1 <= value <= 8 else 1


_WARNINGS = threading.Lock()


@contextmanager
def _quiet() -> Iterator[None]:
    """Damaged Exif makes Pillow warn without naming the file; the picture is none the worse for it.

    Warning filters belong to the whole process, so one thread at a time changes them.
    """
    with _WARNINGS, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield


def jpeg_is_whole(data: bytes) -> bool:
    """Whether the marker chain of a JPEG runs through to its end mark (EOI), ITU-T T.81 annex B.

    Embedded thumbnails have an end mark too, so segments are stepped over by their length.
    """
    at = 2  # behind SOI
    while found := _JPEG_MARKER.search(data, at):
        marker = found.group(1)[0]
        if marker == 0xD9:
            return True
        if len(data) < found.end() + 2:
            return False
        at = found.end() + int.from_bytes(data[found.end() : found.end() + 2], "big")
    return False
