"""All pages of a job, in the order of its sheets. A sheet without its module, or without `pages`, fails here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from importlib import import_module

from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.registry import SHEETS

PAGES: dict[str, Callable[[Frame], Iterable[PageOut]]] = {
    sheet.name: import_module(f"aswired.sheets.{sheet.name}").pages for sheet in SHEETS
}


def pages_of(frame: Frame) -> Iterator[PageOut]:
    """Every page of one job in this edition."""
    for sheet in SHEETS:
        if frame.shop.private or not sheet.shop_only:
            yield from PAGES[sheet.name](frame)
