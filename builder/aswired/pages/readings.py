"""Sheet 10: meter readings and the checks that ask for them."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.views.readings import check_rows, reading_rows
from aswired.views.service import visits
from aswired.worked import Worked


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The readings."""
    yield frame_of(worked, shop).page(
        "readings.html",
        "readings.html",
        readings=reading_rows(worked),
        checks=check_rows(worked),
        visits=visits(worked),
    )
