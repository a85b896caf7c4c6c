"""Sheet 11: what nobody looked at or wrote down."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.not_examined import subjects


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """What was not examined."""
    yield frame_of(worked, shop).page("not-examined.html", "not_examined.html", subjects=subjects(worked))
