"""The sheet of material: what is still to buy, what was used, and the batch numbers."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.materials import material_sheet


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The material: what to buy and which batch went where is the shop's matter."""
    if not shop.private:
        return
    yield frame_of(worked, shop).page("material.html", "materials.html", m=material_sheet(worked))
