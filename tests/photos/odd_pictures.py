"""Odd pictures, made here bit by bit: what cameras, phones, mail programs and failing cards leave in a folder.

For each it is said what a person must get: the picture as it is seen, or to be told. Nothing here comes from the code
under test; PNG files that Pillow would not write are put together by the PNG specification (W3C, third edition).
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

import numpy as np
from PIL import Image, ImageCms

from .pictures import gradient, jpeg, noisy, stored_as

RED, BLUE, WHITE = (140, 100, 100), (60, 60, 90), (255, 255, 255)  # dull, since JPEG halves colour
RED_16, BLUE_16 = b"\x8c\0\x64\0\x64\0", b"\x3c\0\x3c\0\x5a\0"
EITHER = Image.new("RGB", (1, 1))  # shown or told, as long as nothing else suffers
TOLD = None


@dataclass(frozen=True)
class Odd:
    """A picture file. `seen`: upright as a person must see it, `TOLD` or `EITHER`; `file` its name in photos/."""

    name: str
    data: bytes
    seen: Image.Image | None
    file: str = ""


def saved(image: Image.Image, kind: str, **how: object) -> bytes:
    stream = BytesIO()
    image.save(stream, kind, **how)
    return stream.getvalue()


def chunk(kind: bytes, data: bytes, crc: int | None = None) -> bytes:
    crc = zlib.crc32(kind + data) if crc is None else crc
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", crc)


def png(
    width: int, height: int, depth: int, colour: int, rows: bytes, *extra: bytes, end: bool = True, laced: int = 0
) -> bytes:
    """A PNG of rows as they are stored, the filter byte of each in front."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, laced))
    body = chunk(b"IDAT", zlib.compress(rows)) + (chunk(b"IEND", b"") if end else b"")
    return b"\x89PNG\r\n\x1a\n" + head + b"".join(extra) + body


def plain(width: int, height: int, colour: tuple[int, int, int]) -> Image.Image:
    return Image.new("RGB", (width, height), colour)


def shade(width: int, height: int) -> Image.Image:
    """`gradient` without colour, which JPEG keeps at half the size: nothing of it would be left in a strip."""
    return gradient(width, height).convert("L").convert("RGB")


def exif(orientation: bytes) -> bytes:
    """Exif of one tag, 0x0112, its type, count and value given raw."""
    return b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12" + orientation + b"\0\0\0\0"


def with_segment(data: bytes, marker: int, payload: bytes) -> bytes:
    """A JPEG with a segment behind its start."""
    return data[:2] + bytes([0xFF, marker]) + struct.pack(">H", len(payload) + 2) + payload + data[2:]


def segment_at(data: bytes, *markers: int) -> int:
    """Where the first segment of one of these kinds begins."""
    at = 2
    while data[at + 1] not in markers:
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return at


def without_segment(data: bytes, marker: int) -> bytes:
    at = segment_at(data, marker)
    return data[:at] + data[at + 2 + int.from_bytes(data[at + 2 : at + 4], "big") :]


def sized(data: bytes, width: int, height: int) -> bytes:
    """A JPEG whose frame header says another size than its pixels have."""
    at = segment_at(data, 0xC0, 0xC2)
    return data[: at + 5] + struct.pack(">HH", height, width) + data[at + 9 :]


def odd_pictures() -> Iterator[Odd]:
    yield from _sizes()
    yield from _jpeg_kinds()
    yield from _jpeg_damage()
    yield from _png_kinds()
    yield from _png_damage()
    yield from _webp()
    yield from _no_pictures()


SIZES = [
    (1, 1), (1, 2), (2, 1), (3, 3), (3700, 1), (1, 3700), (3701, 2), (4033, 1), (5, 4100), (16201, 7), (7, 16201),
    (65500, 1), (1, 65500), (161, 160), (320, 1), (2218, 3), (4032, 9),
]  # fmt: skip


def _sizes() -> Iterator[Odd]:
    for width, height in SIZES:
        image = shade(width, height)
        yield Odd(f"jpeg {width} x {height}", jpeg(image), image)
        yield Odd(f"png {width} x {height}", saved(image, "PNG"), image)
    for turn in (3, 6, 8):
        strip = shade(3700, 1)
        yield Odd(f"strip turned {turn}", jpeg(stored_as(strip, turn), turn), strip)


def _jpeg_kinds() -> Iterator[Odd]:
    image = gradient(400, 300)
    yield Odd("grey jpeg", jpeg(image.convert("L")), image.convert("L").convert("RGB"))
    cmyk = image.convert("CMYK")
    yield Odd("cmyk jpeg", saved(cmyk, "JPEG", quality=95), image)
    yield Odd(
        "cmyk jpeg of one pixel", saved(plain(1, 1, (250, 0, 0)).convert("CMYK"), "JPEG"), plain(1, 1, (250, 0, 0))
    )
    good = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    for name, profile in {
        "words": b"no profile at all" * 20,
        "cut off": good[: len(good) // 2],
        "of 4 bytes": good[:4],
        "with a tag table of nonsense": good[:128] + b"\xff" * 200,
        "of nought bytes": bytes(300),
    }.items():
        yield Odd(f"jpeg, profile {name}", saved(image, "JPEG", quality=95, icc_profile=profile), image)
        yield Odd(f"cmyk jpeg, profile {name}", saved(cmyk, "JPEG", quality=95, icc_profile=profile), image)
    yield Odd("cmyk jpeg with a profile of RGB", saved(cmyk, "JPEG", quality=95, icc_profile=good), image)
    yield Odd("grey jpeg with a profile of RGB", saved(image.convert("L"), "JPEG", quality=95, icc_profile=good),
              image.convert("L").convert("RGB"))  # fmt: skip
    yield Odd("progressive jpeg", saved(image, "JPEG", quality=95, progressive=True), image)
    yield Odd("jpeg with restarts", saved(image, "JPEG", quality=95, restart_marker_blocks=3), image)
    yield Odd("jpeg of two views", saved(image, "MPO", save_all=True, append_images=[plain(400, 300, (9, 9, 9))],
                                         quality=95), image)  # fmt: skip
    data = jpeg(image)
    for name, tag in {
        "0": b"\0\x03\0\0\0\x01\0\0\0\0",
        "9": b"\0\x03\0\0\0\x01\0\x09\0\0",
        "65535": b"\0\x03\0\0\0\x01\xff\xff\0\0",
        "in words": b"\0\x02\0\0\0\x04top\0",
        "a fraction by nought": b"\0\x05\0\0\0\x01\0\0\0\x1a",
        "far outside": b"\0\x03\0\0\xff\xff\x7f\xff\xff\xff",
        "of an unknown type": b"\0\x63\0\0\0\x01\0\x06\0\0",
    }.items():
        yield Odd(f"exif orientation {name}", with_segment(data, 0xE1, exif(tag)), image)
    yield Odd("exif cut off", with_segment(data, 0xE1, b"Exif\0\0MM\0*\0\0\0\x08\0\x05\x01"), image)
    yield Odd("exif of words", with_segment(data, 0xE1, b"Exif\0\0no such thing"), image)
    yield Odd("exif that leads to itself", with_segment(
        data, 0xE1, b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x87\x69\0\x04\0\0\0\x01\0\0\0\x08\0\0\0\x08"), image)  # fmt: skip
    yield Odd("jpeg with much behind its end", data + b"\0" * 5000 + b"more", image)
    yield Odd("jpeg with an empty comment", with_segment(data, 0xFE, b""), image)
    yield Odd("jpeg that says CMYK by Adobe, but is not", with_segment(data, 0xEE, b"Adobe\0\x64\0\0\0\0\2"), EITHER)
    yield Odd("jpeg called png", data, image, "called.png")
    yield Odd("jpeg called a text", data, image, "picture.txt")
    yield Odd("jpeg in capitals and with signs", data, image, "IMG #1 100% ä (2).JPEG")
    yield Odd("jpeg with a name of 60 letters", data, image, "ж" * 60 + ".jpg")


def _jpeg_damage() -> Iterator[Odd]:
    image = noisy(500, 400)
    data = jpeg(image)
    scan = segment_at(data, 0xDA)
    for name, cut in {"in its start": 3, "in a table": 100, "before its scan": scan, "in its scan": len(data) // 2,
                      "before its end": len(data) - 2}.items():  # fmt: skip
        yield Odd(f"jpeg cut off {name}", data[:cut], TOLD)
    thumb = with_segment(data, 0xE1, b"Exif\0\0" + jpeg(gradient(160, 120)))
    yield Odd("jpeg cut off behind its small copy", thumb[: len(thumb) // 2], TOLD)
    yield Odd("jpeg without quantisation", without_segment(data, 0xDB), EITHER)
    yield Odd("jpeg without its codes", without_segment(data, 0xC4), EITHER)
    yield Odd("jpeg without a frame", without_segment(data, 0xC0), TOLD)
    yield Odd("jpeg with noughts inside", data[: scan + 900] + bytes(2000) + data[scan + 2900 :], EITHER)
    yield Odd("jpeg with its scan exchanged", data[: scan + 20] + data[scan + 20 : -2][::-1] + data[-2:], EITHER)
    yield Odd("jpeg that says 65535 x 65535", sized(data, 65535, 65535), TOLD)
    yield Odd("jpeg that says it is as wide as can be", sized(data, 65535, 400), EITHER)
    yield Odd("jpeg without width", sized(data, 0, 400), TOLD)
    yield Odd("jpeg without height", sized(data, 500, 0), TOLD)
    at = segment_at(data, 0xC0)
    yield Odd("jpeg of nine colours", data[: at + 9] + b"\x09" + data[at + 10 :], TOLD)
    yield Odd("jpeg of nought colours", data[: at + 9] + b"\0" + data[at + 10 :], TOLD)
    yield Odd("jpeg of 12 bit", data[: at + 4] + b"\x0c" + data[at + 5 :], TOLD)
    yield Odd("jpeg behind a line of text", b"Here it is:\n" + data, TOLD)
    yield Odd("jpeg with a segment longer than itself", data[:2] + b"\xff\xe1\xff\xff" + data[2:900], TOLD)
    yield Odd("jpeg start alone", b"\xff\xd8\xff", TOLD)
    yield Odd("jpeg start and end", b"\xff\xd8\xff\xd9", TOLD)
    yield Odd("jpeg through a mail program", data.replace(b"\n", b"\r\n"), EITHER)


def _png_kinds() -> Iterator[Odd]:
    image = gradient(300, 200)
    see_through = image.convert("RGBA")
    see_through.putalpha(Image.new("L", (300, 200), 0))
    half = image.copy().convert("RGBA")
    half.putalpha(Image.fromarray(np.tile(np.linspace(0, 255, 300).astype(np.uint8), (200, 1))))
    white = plain(300, 200, WHITE)
    on_white = Image.composite(image, white, half.getchannel("A"))
    grey = image.convert("L")
    yield Odd("grey png", saved(grey, "PNG"), grey.convert("RGB"))
    yield Odd("png with nothing to see", saved(see_through, "PNG"), white)
    yield Odd("png seen through by halves", saved(half, "PNG"), on_white)
    tall = gradient(40, 700).convert("RGBA")
    tall.putalpha(Image.fromarray(np.tile(np.linspace(0, 255, 700).astype(np.uint8), (40, 1)).T))
    tall_white = Image.composite(tall.convert("RGB"), plain(40, 700, WHITE), tall.getchannel("A"))
    yield Odd("tall png seen through by halves", saved(tall, "PNG"), tall_white)
    grey_half = grey.convert("LA")
    grey_half.putalpha(half.getchannel("A"))
    yield Odd("grey png seen through by halves", saved(grey_half, "PNG"),
              Image.composite(grey.convert("RGB"), white, half.getchannel("A")))  # fmt: skip
    palette = image.quantize(64)
    yield Odd("palette png", saved(palette, "PNG"), palette.convert("RGB"))
    clear = Image.new("P", (32, 20), 1)
    clear.putpalette([200, 0, 0, 0, 0, 200])
    clear.paste(0, (16, 0, 32, 20))
    half_red = plain(32, 20, WHITE)
    half_red.paste((200, 0, 0), (16, 0, 32, 20))
    yield Odd("palette png with one clear colour", saved(clear, "PNG", transparency=1), half_red)
    yield Odd("palette png with clear colours in bytes", saved(clear, "PNG", transparency=b"\xff\0"), half_red)
    yield Odd("palette png of 1 bit", saved(clear, "PNG", bits=1), _exchanged(half_red))
    black_white = Image.new("1", (33, 9), 1)
    black_white.paste(0, (16, 0, 33, 9))
    yield Odd("png of 1 bit", saved(black_white, "PNG"), black_white.convert("RGB"))
    rows = b"\0\x40\x00\xff\xff" * 2
    ramp = Image.fromarray(np.array([[64, 255]] * 2, dtype=np.uint8)).convert("RGB")
    yield Odd("grey png of 16 bit", png(2, 2, 16, 0, rows), ramp)
    yield Odd("grey png of 16 bit, white is clear", png(2, 2, 16, 0, rows, chunk(b"tRNS", b"\xff\xff")), ramp)
    yield Odd("grey png of 16 bit that is seen through",
              png(2, 1, 16, 4, b"\0" + b"\x40\0\xff\xff" + b"\0\0\0\0"), _row((64, 64, 64), WHITE))  # fmt: skip
    yield Odd("png of 16 bit", png(2, 1, 16, 2, b"\0" + RED_16 + BLUE_16), _row(RED, BLUE))
    yield Odd("png of 16 bit that is seen through",
              png(2, 1, 16, 6, b"\0" + RED_16 + b"\xff\xff" + BLUE_16 + b"\0\0"), _row(RED, WHITE))  # fmt: skip
    red_blue = b"\0" + bytes(RED + BLUE)
    yield Odd("png whose blue is clear", png(2, 1, 8, 2, red_blue, chunk(b"tRNS", b"\0\x3c\0\x3c\0\x5a")),
              _row(RED, WHITE))  # fmt: skip
    yield Odd(
        "png of 16 bit whose blue is clear",
        png(2, 1, 16, 2, b"\0" + RED_16 + BLUE_16, chunk(b"tRNS", BLUE_16)),
        EITHER,
    )
    yield Odd("grey png whose black is clear", png(2, 1, 8, 0, b"\0\0\x90", chunk(b"tRNS", b"\0\0")),
              _row(WHITE, (144, 144, 144)))  # fmt: skip
    yield Odd("png of 1 bit whose black is clear", png(2, 1, 1, 0, b"\0\x40", chunk(b"tRNS", b"\0\0")),
              plain(2, 1, WHITE))  # fmt: skip
    yield Odd("grey png of 2 bit", png(4, 1, 2, 0, b"\0\x1b"), _row(*((n, n, n) for n in (0, 85, 170, 255))))
    yield Odd("grey png of 4 bit", png(2, 1, 4, 0, b"\0\x0f"), _row((0, 0, 0), WHITE))
    yield Odd("interlaced png", png(1, 1, 8, 2, b"\0" + bytes(RED), laced=1), plain(1, 1, RED))
    yield Odd("png that moves", saved(image, "PNG", save_all=True, append_images=[white, white], duration=50), image)
    turned = Image.Exif()
    turned[0x0112] = 6
    yield Odd("png with an orientation", saved(stored_as(image, 6), "PNG", exif=turned), image)
    yield Odd("png with a damaged profile", saved(image, "PNG", icc_profile=b"no profile" * 40), image)
    yield Odd(
        "palette png with a damaged profile", saved(palette, "PNG", icc_profile=b"no" * 99), palette.convert("RGB")
    )
    yield Odd("png with damaged exif", saved(image, "PNG", exif=b"Exif\0\0MM\0*\0\0\0\x08\0\x09"), image)
    yield Odd("png called jpg", saved(image, "PNG"), image, "called.jpg")


def _png_damage() -> Iterator[Odd]:
    data = saved(noisy(120, 90), "PNG")
    red = b"\0" + bytes([200, 0, 0])
    yield Odd("png cut off in its start", data[:20], TOLD)
    yield Odd("png cut off in the middle", data[: len(data) // 2], TOLD)
    yield Odd("png without its end", png(1, 1, 8, 2, red, end=False), EITHER)
    yield Odd("png signature alone", data[:8], TOLD)
    yield Odd("png of another sum", data[:60] + b"\x55" + data[61:], EITHER)
    yield Odd("png with too few rows", png(9, 9, 8, 2, red), EITHER)
    yield Odd("png with rows of nonsense", png(3, 1, 8, 2, b"\x77" + bytes(9)), EITHER)
    yield Odd("png whose pixels are not packed", data[:33] + chunk(b"IDAT", b"not packed") + chunk(b"IEND", b""), TOLD)
    yield Odd("png without pixels", data[:33] + chunk(b"IEND", b""), TOLD)
    yield Odd("png without width", png(0, 5, 8, 2, red), TOLD)
    yield Odd("png without height", png(5, 0, 8, 2, red), TOLD)
    yield Odd("png of 60000 x 60000", png(60000, 60000, 8, 2, red), TOLD)
    yield Odd("png wider than a number", png(0x7FFFFFFF, 0x7FFFFFFF, 8, 2, red), TOLD)
    yield Odd("palette png without its palette", png(1, 1, 8, 3, b"\0\0"), EITHER)
    yield Odd("palette png beyond its palette", png(1, 1, 8, 3, b"\0\x09", chunk(b"PLTE", b"\xc8\0\0")), EITHER)
    yield Odd("palette png with an empty palette", png(1, 1, 8, 3, b"\0\0", chunk(b"PLTE", b"")), EITHER)
    yield Odd("png of a colour type there is not", png(1, 1, 8, 5, red), TOLD)
    yield Odd("png of 7 bit", png(1, 1, 7, 2, red), TOLD)
    yield Odd("png with a clear colour cut off", png(1, 1, 8, 2, red, chunk(b"tRNS", b"\0")), EITHER)
    bomb = chunk(b"zTXt", b"Comment\0\0" + zlib.compress(bytes(40_000_000)))
    yield Odd("png with words without end", png(1, 1, 8, 2, red, bomb), EITHER)
    profile = chunk(b"iCCP", b"x\0\0" + zlib.compress(bytes(40_000_000)))
    yield Odd("png with a profile without end", png(1, 1, 8, 2, red, profile), EITHER)
    yield Odd("png whose pixels unpack without end", png(1, 1, 8, 2, red + bytes(40_000_000)), plain(1, 1, (200, 0, 0)))


def _webp() -> Iterator[Odd]:
    image = gradient(300, 200)
    yield Odd("webp", saved(image, "WEBP", quality=95), image)
    clear = image.convert("RGBA")
    clear.putalpha(0)
    yield Odd("webp with nothing to see", saved(clear, "WEBP", lossless=True), plain(300, 200, (255, 255, 255)))
    white = plain(300, 200, (255, 255, 255))
    moving = saved(image, "WEBP", save_all=True, append_images=[white], duration=50, lossless=True)
    yield Odd("webp that moves", moving, image)
    yield Odd("webp of one pixel", saved(plain(1, 1, (200, 0, 0)), "WEBP", lossless=True), plain(1, 1, (200, 0, 0)))
    turned = Image.Exif()
    turned[0x0112] = 8
    yield Odd("webp with an orientation", saved(stored_as(image, 8), "WEBP", lossless=True, exif=turned), image)
    yield Odd("webp cut off", saved(noisy(200, 200), "WEBP", lossless=True)[:5000], TOLD)
    yield Odd("webp that moves, cut off", moving[: len(moving) // 2], TOLD)


def _no_pictures() -> Iterator[Odd]:
    image = gradient(40, 30)
    for kind in ("GIF", "BMP", "TIFF", "PPM", "ICO", "TGA", "PDF", "JPEG2000"):
        yield Odd(kind, saved(image, kind), TOLD)
    for name, data in {
        "nothing": b"",
        "one byte": b"\xff",
        "noughts": bytes(4096),
        "words": b"These are the wires of the left lamp.\n" * 20,
        "a page": b"<!DOCTYPE html><title>Not found</title>",
        "a drawing": b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>',
        "sound": b"RIFF\x24\0\0\0WAVEfmt " + bytes(40),
        "a packed folder": b"PK\x03\x04" + bytes(60),
        "a film": b"\0\0\0\x18ftypmp42" + bytes(60),
        "heic": b"\0\0\0\x18ftypheic" + bytes(60),
        "avif": b"\0\0\0\x1cftypavif" + bytes(60),
        "a raw camera file": b"II*\0\x08\0\0\0" + bytes(60),
        "a lost download": b"version https: not here\n",
    }.items():
        yield Odd(name, data, TOLD)


def _row(*colours: tuple[int, int, int]) -> Image.Image:
    return Image.fromarray(np.array([colours], dtype=np.uint8))


def _exchanged(half_red: Image.Image) -> Image.Image:
    """The two colours of the palette before one of them was clear."""
    full = half_red.copy()
    full.paste((0, 0, 200), (0, 0, 16, 20))
    return full
