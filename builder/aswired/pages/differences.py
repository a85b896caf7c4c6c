"""What differs between the donor, the car as handed over, each revision, now and the plan."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.differences import difference_sheet


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """One section for each two moments that differ."""
    yield frame_of(worked, shop).page("differences.html", "differences.html", d=difference_sheet(worked))
