"""Sheet 9: the photographs with their marks; list and marks lead to each other."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of, mark_anchor, photos_shown
from aswired.sheets.findings import standing_at
from aswired.sheets.photos import photo_rows


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The photographs."""
    photos = photos_shown(worked, shop)
    yield frame_of(worked, shop).page(
        "photos.html",
        "photos.html",
        photos=photo_rows(photos, worked.job.changes),
        findings=standing_at(worked.findings, (photo.id for photo in photos)),
        mark_anchor=mark_anchor,
    )
