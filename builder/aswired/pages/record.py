"""Sheet 12: the printable service record."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of, photos_shown
from aswired.sheets.photos import photo_rows
from aswired.sheets.record import record

BLANK_LINES = 10  # for later work
BLANK_YEARS = 3  # columns beside each reading


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The service record."""
    yield frame_of(worked, shop).page(
        "record.html",
        "record.html",
        r=record(worked),
        photos=photo_rows(photos_shown(worked, shop), worked.job.changes),
        blank_lines=BLANK_LINES,
        blank_years=BLANK_YEARS,
    )
