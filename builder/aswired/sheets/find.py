"""The search page. Its words and hits come from js/find.js and the index it loads; without script it says so."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.sheets.frame import PageOut, ShopFacts, shop_page


def pages(shop: ShopFacts) -> Iterable[PageOut]:
    """The search page: form #find-form, field #q, status line #find-said, list #hits."""
    yield shop_page("find.html", "find.html", shop, "Find")
