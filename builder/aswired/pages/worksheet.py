"""Sheet 13: the work sheet, and below it the wire flags to print, where there are any.

Both are the shop's own: an owner is given none.
"""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.flags import wire_flags
from aswired.sheets.text import count
from aswired.sheets.worksheet import work_sheet


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The work sheet and its wire flags."""
    if not shop.private:
        return
    sheet, flags, frame = work_sheet(worked), wire_flags(worked), frame_of(worked, shop)
    yield frame.page(
        "worksheet.html",
        "worksheet.html",
        w=sheet,
        steps=count(len(sheet.steps), "step"),
        places=count(len(sheet.groups), "place"),
        flags=count(len(flags), "flag") if flags else "",
    )
    if flags:
        yield frame.page("worksheet.html", "flags.html", title="Wire flags", at="flags.html", flags=flags)
