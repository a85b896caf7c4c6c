"""Sheet 4: the splices by tape measure, and the route they lie on as rulers."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of, photos_shown
from aswired.sheets.splices import splice_sheet
from aswired.sheets.text import count


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The splices."""
    sheet = splice_sheet(worked)
    yield frame_of(worked, shop).page(
        "splices.html",
        "splices.html",
        s=sheet,
        said=count(len(sheet.rows), "splice").capitalize(),
        centres=tuple(row.centre for row in sheet.rows),
        photo_ids=frozenset(photo.id for photo in photos_shown(worked, shop)),
    )
