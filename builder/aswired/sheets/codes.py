"""What each code means, on one page for the whole shop. The owner's edition tells no codes and has no such page."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.checks.codes import subjects, unjudged
from aswired.record.limits import TABLE, told
from aswired.sheets.frame import PageOut, ShopFacts, shop_page
from aswired.sheets.registry import CODES


def pages(shop: ShopFacts) -> Iterable[PageOut]:
    """One page; each code stands under its own anchor."""
    if shop.private:
        limits = {limit.key: limit for limit in TABLE}
        yield shop_page(
            CODES.uri,
            "codes.html",
            shop,
            CODES.title,
            subjects=subjects(),
            unjudged=unjudged(),
            limits=limits,
            told=told,
        )
