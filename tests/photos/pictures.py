"""Pictures for the tests: every value is chosen here, none comes from the code under test."""

from io import BytesIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms, ImageDraw, TiffImagePlugin

Pixels = NDArray[np.uint8]


def gradient(width: int, height: int) -> Image.Image:
    """Red grows to the right, green downwards, blue with the product; no two parts alike, so any turn shows."""
    x, y = np.meshgrid(np.linspace(0, 1, width), np.linspace(0, 1, height))
    return Image.fromarray((np.dstack([x, y, x * y]) * 255).astype(np.uint8))


def noisy(width: int, height: int) -> Image.Image:
    """A picture whose every byte matters: noise does not compress to nothing, so a cut really removes pixels."""
    return Image.fromarray(np.random.default_rng(5).integers(0, 256, (height, width, 3), dtype=np.uint8))


def spotted(width: int, height: int, x: float, y: float, radius: float) -> Image.Image:
    """Grey with one red spot; x and radius in fractions of the width, y of the height."""
    image = Image.new("RGB", (width, height), (128, 128, 128))
    centre_x, centre_y, r = x * width, y * height, radius * width
    ImageDraw.Draw(image).ellipse((centre_x - r, centre_y - r, centre_x + r, centre_y + r), fill=(230, 20, 20))
    return image


def stored_as(upright: Image.Image, orientation: int) -> Image.Image:
    """Pixels as a camera stores them under an Exif orientation.

    Exif 2.32 (CIPA DC-008), tag 274, says on which visual side the 0th row and the 0th column lie:
    1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom.
    """
    row_side = {1: "top", 2: "top", 3: "bottom", 4: "bottom", 5: "left", 6: "right", 7: "right", 8: "left"}[orientation]
    column_side = {
        1: "left", 2: "right", 3: "right", 4: "left", 5: "top", 6: "top", 7: "bottom", 8: "bottom",
    }[orientation]  # fmt: skip
    pixels: Pixels = np.asarray(upright)
    if row_side in ("left", "right"):
        pixels = pixels.swapaxes(0, 1)  # rows now run over what is seen as x, columns over y
    if row_side in ("bottom", "right"):
        pixels = pixels[::-1]
    if column_side in ("bottom", "right"):
        pixels = pixels[:, ::-1]
    return Image.fromarray(np.ascontiguousarray(pixels))


def jpeg(image: Image.Image, orientation: int | None = None, quality: int = 95) -> bytes:
    exif = Image.Exif()
    if orientation is not None:
        exif[0x0112] = orientation
    stream = BytesIO()
    image.save(stream, "JPEG", quality=quality, subsampling=0, exif=exif)
    return stream.getvalue()


def private_jpeg() -> bytes:
    """A photograph that tells on its owner in each way a JPEG can; each secret holds the word `tellt`."""
    exif = Image.Exif()
    exif[0x010F], exif[0x013B] = "tellt-maker", "tellt-owner"
    exif.get_ifd(0x8769)[0xA431] = "tellt-serial"
    gps = exif.get_ifd(0x8825)
    gps[1], gps[3] = "N", "E"
    gps[2] = gps[4] = tuple(TiffImagePlugin.IFDRational(n) for n in (12, 34, 56))
    stream = BytesIO()
    gradient(640, 480).save(
        stream,
        "JPEG",
        exif=exif,
        comment=b"tellt-comment",
        xmp=b"<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'>"
        b"<rdf:Description xmlns:photoshop='http://ns.adobe.com/photoshop/1.0/' photoshop:City='tellt-town'/>"
        b"</rdf:RDF></x:xmpmeta>",
        icc_profile=ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(),
    )
    plain = stream.getvalue()
    iptc = b"Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x10\x1c\x02\x50\x00\x0btellt-byline"[:48]
    return plain[:2] + b"\xff\xed" + (len(iptc) + 2).to_bytes(2, "big") + iptc + plain[2:]


def mean_difference(one: Image.Image, other: Image.Image) -> float:
    """Mean absolute difference of two pictures of one size, of 255."""
    assert one.size == other.size
    a, b = (np.asarray(image.convert("RGB"), dtype=np.float64) for image in (one, other))
    return float(np.abs(a - b).mean())
