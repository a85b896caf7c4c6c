"""Sheet 5: the pieces of wire put in, what they add up to, and the offcuts."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.extensions import extension_sheet
from aswired.sheets.text import first_upper


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The extensions."""
    sheet = extension_sheet(worked)
    yield frame_of(worked, shop).page("extensions.html", "extensions.html", e=sheet, said=first_upper(sheet.told))
