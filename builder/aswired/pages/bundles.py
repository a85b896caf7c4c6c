"""The sheet of bundles: how thick they are along the route, and what goes over them."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.bundles import bundle_sheet


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The bundles."""
    yield frame_of(worked, shop).page("bundles.html", "bundles.html", b=bundle_sheet(worked))
