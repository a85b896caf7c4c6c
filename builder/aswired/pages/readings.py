"""Sheet 10: meter readings and the checks that ask for them."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.findings import standing_at
from aswired.sheets.readings import check_rows, reading_rows
from aswired.sheets.service import visits
from aswired.sheets.years import HEIGHT, WIDTH, series


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The readings. What a reading showed stands as its verdict, so only what is wrong with its entry is told above."""
    entries = (*(reading.id for reading in worked.job.readings), *(visit.id for visit in worked.job.service))
    findings = tuple(found for found in standing_at(worked.findings, entries) if found.code != "RDG01")
    yield frame_of(worked, shop).page(
        "readings.html",
        "readings.html",
        readings=reading_rows(worked),
        checks=check_rows(worked),
        series=series(worked),
        line=(WIDTH, HEIGHT),
        visits=visits(worked),
        findings=findings,
    )
