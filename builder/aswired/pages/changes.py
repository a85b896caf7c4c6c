"""Sheet 2: one entry for each row of the change list."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of, photos_shown
from aswired.sheets.changes import IN_ORDER, change_rows, rows_told, states_told
from aswired.sheets.text import first_upper


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The change list."""
    yield frame_of(worked, shop).page(
        "changes.html",
        "changes.html",
        rows=change_rows(worked),
        said=first_upper(f"{rows_told(worked)}, {IN_ORDER}"),
        states=states_told(worked),
        photo_ids={photo.id: photo for photo in photos_shown(worked, shop)},
    )
