"""Sheet 3: the list of circuits, and one page a load with its path from feed to battery negative."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, circuit_uris, frame_of, job_uri, photos_shown
from aswired.record import Photo
from aswired.sheets.backfeed import grounds_of_load
from aswired.sheets.circuits import circuit_rows, circuit_sheet
from aswired.sheets.notes import notes_of
from aswired.sheets.recorded import found_dead, load_facts, switch_rows
from aswired.sheets.tests import circuit_tests
from aswired.sheets.variants import variant_sheets


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The list, then a page for each load."""
    frame = frame_of(worked, shop)
    rows = circuit_rows(worked)
    deleted = sum(row.deleted for row in rows)
    uris = circuit_uris(worked)  # a plug may bear the name of its load: the list leads to the load
    yield frame.page(
        "circuits.html",
        "circuits.html",
        rows=rows,
        uris=uris,
        kept=len(rows) - deleted,
        deleted=deleted,
        variants=variant_sheets(worked),
        switches=switch_rows(worked),
    )
    dead = found_dead(worked)
    photos = photos_shown(worked, shop)
    home = job_uri(worked.job.slug, "")
    for load, uri in uris.items():
        sheet, tests = circuit_sheet(load, worked), circuit_tests(load, worked)
        at = photos_at(photos, sheet.ids)
        shown = dict.fromkeys(id for ids in at.values() for id in ids)
        yield frame.page(
            "circuits.html",
            "circuit.html",
            title=load,
            at=uri.removeprefix(home),
            c=sheet,
            facts=load_facts(load, worked),
            dead_in=dead,
            t=tests,
            notes=notes_of((*sheet.figures, *(tests.figures if tests else ()))),
            opened=grounds_of_load(load, worked),
            photos_at=at,
            photos=tuple(photo for photo in photos if photo.id in shown),
        )


def photos_at(photos: Sequence[Photo], ids: Iterable[str]) -> Mapping[str, tuple[str, ...]]:
    """Id -> the photographs that show or mark it."""
    found: dict[str, list[str]] = {}
    wanted = set(ids)
    for photo in photos:
        for id in dict.fromkeys((*photo.shows, *(mark.of for mark in photo.marks))):
            if id in wanted:
                found.setdefault(id, []).append(photo.id)
    return {id: tuple(names) for id, names in found.items()}
