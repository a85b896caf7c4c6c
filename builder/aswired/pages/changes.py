"""Sheet 2: one entry for each row of the change list."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.pages.frame import PageOut, ShopFacts, frame_of, photos_shown
from aswired.views.changes import change_rows, state_counts
from aswired.worked import Worked


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The change list."""
    yield frame_of(worked, shop).page(
        "changes.html",
        "changes.html",
        rows=change_rows(worked),
        states=state_counts(worked),
        photo_ids={photo.id: photo for photo in photos_shown(worked, shop)},
    )
