"""Make the files that may leave the shop: upright, sRGB, no metadata, private parts covered, in falling sizes."""

import hashlib
import io
import math
import re
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from PIL import Image, ImageCms, ImageDraw

from aswired.photos.files import CachedFile, keep, kept
from aswired.photos.index import PhotoError, PhotoInfo, at_work, load, open_picture, orientation, read_bytes

Box = tuple[float, float, float, float]  # x, y, width, height; fractions of the upright picture
Size = tuple[int, int]

RECIPE = "1"  # part of every file's name: raise it when the same photograph would come out differently
LONG_EDGE = 2016  # px of the largest file: half of the 4032 px that most phones give, so the decoder halves for free
NEAR = 0.10  # a decoder step this close to LONG_EDGE is kept; one more resampling would cost more than the decoding
SIZES = 4
LEAST_WIDTH = 160  # px; no smaller file is worth offering
QUALITY = 82
COVER = (0, 0, 0)
STRIP = 256  # rows

_TURN = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


@dataclass(frozen=True)
class Derived:
    """What was made from one photograph. `files`, largest first: (width, height, file name), pixels; `kept` are the
    same in the cache."""

    info: PhotoInfo
    files: tuple[tuple[int, int, str], ...]
    kept: tuple[CachedFile, ...]


@dataclass(frozen=True)
class Task:
    """One photograph for `derive_all`; fields as the arguments of `derive`."""

    source: Path
    info: PhotoInfo
    name: str
    hide: tuple[Box, ...] = ()


def derive(source: Path, info: PhotoInfo, store: Path, *, hide: Sequence[Box], name: str) -> Derived:
    """The publishable files of one photograph in the cache `store`; those that are whole there are left alone.

    Args:
        source: the original; only read.
        info: what `read_photo` said of it.
        hide: parts to cover with solid black in every size, edges rounded outward.
        name: start of the file names; letters, digits, dot, dash and underline only.

    Raises:
        PhotoError: the file cannot be read or decoded, or is not the one that was checked.
        ValueError: a name or a box that a reader should have refused.
        OSError: the cache cannot be written.
    """
    if not re.fullmatch(r"[A-Za-z0-9_][A-Za-z0-9._-]*", name):
        raise ValueError(f"not fit for a file name: {name!r}")
    for box in hide:
        if not all(map(math.isfinite, box)) or box[2] <= 0 or box[3] <= 0:
            raise ValueError(f"not a box: {box!r}")
    sizes = plan(info)
    key = hashlib.sha256(repr((RECIPE, info.sha256, [tuple(map(float, box)) for box in hide])).encode()).hexdigest()
    stem = f"{name}-{key[:16]}"
    names = tuple(f"{stem}-{width}.jpg" for width, _ in sizes)
    files = kept(store, f"{stem}.json", names)
    if files is None:
        with at_work():
            contents = _encoded(_upright(source, info), sizes, hide)
        files = keep(store, f"{stem}.json", dict(zip(names, contents, strict=True)))
    sized = tuple((width, height, name) for (width, height), name in zip(sizes, names, strict=True))
    return Derived(info, sized, files)


def _encoded(picture: Image.Image, sizes: Sequence[Size], hide: Sequence[Box]) -> list[bytes]:
    """The picture as JPEG in each size, the hidden parts covered."""
    _cover(picture, hide)  # before any shrinking mixes what is hidden with its surroundings
    contents = []
    for size in sizes:
        if picture.size != size:
            picture = _smaller(picture, size)
        _cover(picture, hide)
        stream = io.BytesIO()
        picture.save(stream, "JPEG", quality=QUALITY)
        contents.append(stream.getvalue())
    return contents


def derive_all(tasks: Sequence[Task], store: Path) -> tuple[Derived | PhotoError, ...]:
    """`derive` for many photographs, two at a time, results in the order of `tasks`.

    Decoding runs outside the interpreter lock; a third would cost 50 MiB more and most build machines have two cores.
    A bad photograph gives its PhotoError in its place and stops nothing.
    """

    def one(task: Task) -> Derived | PhotoError:
        try:
            return derive(task.source, task.info, store, hide=task.hide, name=task.name)
        except PhotoError as error:
            return error

    with ThreadPoolExecutor(max_workers=2) as pool:
        return tuple(pool.map(one, tasks))


def plan(info: PhotoInfo) -> tuple[Size, ...]:
    """Sizes to make, largest first, known without decoding: long edge about 2016, then halves. Never above the source.

    >>> plan(PhotoInfo(4032, 3024, "", "JPEG"))
    ((2016, 1512), (1008, 756), (504, 378), (252, 189))
    """
    step = _decoder_step(info)
    width, height = -(-info.width // step), -(-info.height // step)
    if max(width, height) > LONG_EDGE * (1 + NEAR):
        scale = LONG_EDGE / max(width, height)
        width, height = max(1, round(width * scale)), max(1, round(height * scale))
    sizes = [(width, height)]
    while len(sizes) < SIZES and (half := -(-sizes[-1][0] // 2)) >= LEAST_WIDTH:
        sizes.append((half, -(-sizes[-1][1] // 2)))
    return tuple(sizes)


def _decoder_step(info: PhotoInfo) -> int:
    """How far the JPEG decoder shrinks for free: the largest of 8, 4, 2, 1 that does not fall far below LONG_EDGE."""
    if info.format != "JPEG":
        return 1
    long_edge = max(info.width, info.height)
    return next((step for step in (8, 4, 2) if long_edge / step >= LONG_EDGE * (1 - NEAR)), 1)


def _upright(source: Path, info: PhotoInfo) -> Image.Image:
    """The photograph decoded to the first size of `plan` or above it, upright, RGB in sRGB, without metadata."""
    data = read_bytes(source)
    if hashlib.sha256(data).hexdigest() != info.sha256:
        raise PhotoError("was changed while the build ran", "Run the build again.")
    image = open_picture(data)
    step = _decoder_step(info)
    if step > 1:
        image.draft("RGB", (max(1, image.width // step), max(1, image.height // step)))
    load(image, data)
    turn = orientation(image)
    image = _to_srgb(image)
    if turn in _TURN:
        image = image.transpose(_TURN[turn])
    image.info.clear()  # what is left here (comment, Exif, profile) would be written into the new file
    return image


def _smaller(picture: Image.Image, size: Size) -> Image.Image:
    """Half by plain averaging, anything else by Lanczos."""
    half = (-(-picture.width // 2), -(-picture.height // 2))
    if size == half:
        return picture.reduce(2)
    return picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=2.0)


def _cover(picture: Image.Image, hide: Sequence[Box]) -> None:
    """Paint the boxes, one pixel wider on each side: colour is stored at half the resolution and bleeds over edges."""
    draw = ImageDraw.Draw(picture)
    for x, y, width, height in hide:
        left, top = math.floor(x * picture.width) - 1, math.floor(y * picture.height) - 1
        right, bottom = math.ceil((x + width) * picture.width), math.ceil((y + height) * picture.height)
        draw.rectangle((left, top, right, bottom), fill=COVER)  # right and bottom are inclusive: one pixel beyond


def _to_srgb(image: Image.Image) -> Image.Image:
    """The picture as RGB in sRGB; through its colour profile when it has a usable one, transparency on white."""
    profile = image.info.get("icc_profile")
    if image.mode.startswith("I"):  # 16 bit grey: a plain conversion would clip it to white
        image = image.convert("I").point(lambda value: value * (1 / 257)).convert("L")
    elif image.mode in ("RGBA", "LA", "PA") or (image.mode in ("1", "L", "P", "RGB") and "transparency" in image.info):
        image = _on_white(image)
    elif image.mode == "P":
        image = image.convert("RGB")
    if profile and image.mode in ("RGB", "L", "CMYK"):
        transform = _transform(profile, image.mode)
        if transform is not None:
            try:
                turned = ImageCms.applyTransform(image, transform)
            except ImageCms.PyCMSError:  # a profile that only shows its damage in use
                turned = None
            if turned is not None:
                return turned
    return image if image.mode == "RGB" else image.convert("RGB")


def _on_white(image: Image.Image) -> Image.Image:
    """A picture that can be seen through, on white. A strip at a time: whole, the largest take a gigabyte."""
    whole = Image.new("RGB", image.size)
    for top in range(0, image.height, STRIP):
        strip = image.crop((0, top, image.width, min(top + STRIP, image.height))).convert("RGBA")
        ground = Image.new("RGBA", strip.size, (255, 255, 255, 255))
        whole.paste(Image.alpha_composite(ground, strip).convert("RGB"), (0, top))
    return whole


@lru_cache(maxsize=16)
def _transform(profile: bytes, mode: str) -> ImageCms.ImageCmsTransform | None:
    """From `profile` to sRGB; None when it is sRGB already, is damaged, or is not for this kind of picture."""
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        if "sRGB" in ImageCms.getProfileDescription(source):
            return None
        return ImageCms.buildTransform(source, ImageCms.createProfile("sRGB"), mode, "RGB")
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return None
