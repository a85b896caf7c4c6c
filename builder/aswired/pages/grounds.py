"""Sheet 6: the ground points and the return tree."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of, photos_shown
from aswired.sheets.grounds import ground_sheet


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The grounds."""
    sheet = ground_sheet(worked)
    yield frame_of(worked, shop).page(
        "grounds.html",
        "grounds.html",
        g=sheet,
        findings=tuple(finding for row in (*sheet.rows, *sheet.unused) for finding in row.findings),
        photo_ids=frozenset(photo.id for photo in photos_shown(worked, shop)),
    )
