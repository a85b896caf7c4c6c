"""Sheet 7: the fuses."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.fuses import figures_of, fuse_sheet
from aswired.sheets.notes import notes_of
from aswired.sheets.recorded import found_dead
from aswired.sheets.text import count


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The fuses."""
    sheet = fuse_sheet(worked)
    spare = sum(row.spare for row in sheet.rows)
    said = f"{count(len(sheet.rows) - spare, 'fuse')} in use".capitalize() + (f", {spare} spare" if spare else "")
    if sheet.links:
        said += f", {count(len(sheet.links), 'fusible link')}"
    share = worked.job.held_to["fuse share"].value
    figures = tuple(figure for row in sheet.rows for figure in figures_of(row))
    yield frame_of(worked, shop).page(
        "fuses.html",
        "fuses.html",
        fuses=sheet,
        said=said,
        dead_in=found_dead(worked),
        share=f"{share:g} %",
        figures=figures,
        notes=notes_of(figures),
    )
