"""Sheet 17: what a meter shows on the car, in the order in which it is put under power."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.tests import FIRST_POWER, sheet_of_tests
from aswired.sheets.text import NOT_RECORDED


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The test sheet."""
    sheet, supply = sheet_of_tests(worked), worked.job.supply
    yield frame_of(worked, shop).page(
        "tests.html",
        "tests.html",
        s=sheet,
        first=FIRST_POWER,
        supply=f"{supply.text} at the battery" if supply and supply.value else f"a supply that is {NOT_RECORDED}",
        heads=[(f"mV at {amps}", "num") for amps in sheet.at],
    )
