"""The frame around every page: its address, the links between pages, and what all pages of one job share."""

from __future__ import annotations

import datetime
import posixpath
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any
from urllib.parse import quote

from aswired.figures.worked import JobResult
from aswired.files.disknames import file_stems
from aswired.record import Photo
from aswired.sheets.registry import SHEET
from aswired.sheets.text import Shown, shown_of


@dataclass(frozen=True)
class PhotoFiles:
    """The publishable files of one photograph. `files`: (width px, height px, address from the site's root), largest
    first. `overlay` is the drawing of the marks, each leading to `mark_anchor(photo id, number)` on the photos' sheet.
    `broken` says why there is no picture; '' when there is one."""

    width: int
    height: int
    files: tuple[tuple[int, int, str], ...]
    print_uri: str = ""
    overlay: str = ""
    broken: str = ""


@dataclass(frozen=True)
class ShopFacts:
    """What a page knows beside its job: which edition, the pictures made, and when the site was built."""

    edition: str  # 'shop' or 'owner'
    photos: Mapping[str, PhotoFiles] = field(default_factory=dict)
    revision: str = ""
    built_on: datetime.date | None = None
    name: str = "Jobs"  # the shop's own name for its site

    @property
    def private(self) -> bool:
        """Whether private fields may be shown."""
        return self.edition == "shop"


@dataclass(frozen=True)
class PageOut:
    """A page to be written: its address from the site's root, its template, and what the template is given."""

    uri: str
    template: str
    context: Mapping[str, Any]


Places = Mapping[str, tuple[str, str]]


# ---- addresses ------------------------------------------------------------------------------------------------------
def anchor(id: str) -> str:
    """An id as it stands in an address and in `id="..."`: unchanged when it is plain, else made so without clashes.

    >>> anchor("C14-W31-loom"), anchor("work lamp left"), anchor("siren?")
    ('C14-W31-loom', 'work-lamp-left', 'siren_3f_')
    """
    return re.sub(r"[^A-Za-z0-9.-]", lambda match: "-" if match[0] == " " else f"_{ord(match[0]):x}_", id)


def mark_anchor(photo: str, number: int) -> str:
    """Where the list entry of a photograph's mark stands on the photos' sheet.

    >>> mark_anchor("P2", 1)
    'P2-m1'
    """
    return f"{anchor(photo)}-m{number}"


@lru_cache(maxsize=4096)  # the same few sheets are linked from every page of a job
def link(from_uri: str, to_uri: str, anchor: str = "") -> str:
    """The relative address of one page seen from another; works from file://.

    >>> link("jobs/flatbed/circuits/siren.html", "jobs/flatbed/splices.html", "C14-W31-loom")
    '../splices.html#C14-W31-loom'
    >>> link("jobs/flatbed/splices.html", "jobs/flatbed/splices.html", "C14")
    '#C14'
    """
    tail = f"#{quote(anchor)}" if anchor else ""
    if from_uri == to_uri:
        return tail or quote(posixpath.basename(to_uri))
    here, there = from_uri.split("/")[:-1], to_uri.split("/")
    same = len(posixpath.commonprefix([here, there[:-1]]))
    return quote("/".join([".."] * (len(here) - same) + there[same:])) + tail


def job_uri(slug: str, file: str = "index.html") -> str:
    """Address of a page of one job."""
    return f"jobs/{slug}/{file}"


def sheet_uri(slug: str, sheet: str) -> str:
    """Address of a sheet of one job, by the sheet's name.

    >>> sheet_uri("flatbed", "not_examined")
    'jobs/flatbed/not-examined.html'
    """
    return job_uri(slug, SHEET[sheet].file)


def circuit_uris(worked: JobResult) -> Mapping[str, str]:
    """Load -> address of its page. Lower case, for file systems that do not tell case; a clash gets a number."""
    stems = file_stems((load, anchor(load).lower()) for load in worked.circuits)
    return {load: job_uri(worked.job.slug, f"circuits/{stem}.html") for load, stem in stems.items()}


def places_of(worked: JobResult) -> Places:
    """Id -> (page, anchor) where the thing is shown. The first that claims an id keeps it, most specific last."""
    job, found = worked.job, dict[str, tuple[str, str]]()

    def claim(ids: Iterator[str], sheet: str) -> None:
        for id in ids:
            found.setdefault(id, (sheet_uri(job.slug, sheet), anchor(id)))

    claim((change.id for change in job.changes), "changes")
    claim((placed.joint.id for placed in worked.joints), "splices")
    claim(iter(job.splices), "splices")
    claim((ground.name for ground in worked.grounds), "grounds")
    claim((fuse.name for fuse in worked.fuses), "fuses")
    claim(iter(worked.shown.relays), "fuses")
    claim(iter(job.sources), "fuses")
    claim(iter(job.plugs), "connectors")
    claim((new.partition(".")[0] for new in worked.shown.replaced.values()), "connectors")
    claim(iter(job.modules), "connectors")
    claim((photo.id for photo in job.photos), "photos")
    claim((reading.id for reading in job.readings), "readings")
    claim((visit.id for visit in job.service), "readings")
    claim((piece.id for piece in worked.pieces), "extensions")
    circuits = circuit_uris(worked)
    for load, uri in circuits.items():
        found.setdefault(load, (uri, ""))
    for load, circuit in worked.circuits.items():  # a wire is shown where it is a part of a path
        for stretch in (*circuit.feed.stretches, *circuit.back.stretches):
            found.setdefault(stretch.wire, (circuits[load], ""))
    for row in job.changes:  # else with the row that worked on it
        result = worked.plan.row(row.id)
        for wire in (*row.wire_names, *(result.touched_wires if result is not None else ())):
            found.setdefault(wire, (sheet_uri(job.slug, "changes"), anchor(row.id)))
    for node in worked.shown.nodes.values():
        plug, dot, _ = node.name.rpartition(".")
        if dot and plug in found:
            found.setdefault(node.name, found[plug])
        if node.made_by in found:
            found.setdefault(node.name, found[node.made_by])
    return found


# ---- pages of a job -------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Frame:
    """What every page of one job shares; made once by `frame_of`."""

    worked: JobResult
    shop: ShopFacts
    places: Places
    shown: Shown

    @property
    def photos(self) -> tuple[Photo, ...]:
        """The photographs of this edition, in the order of the file."""
        return tuple(photo for photo in self.worked.job.photos if photo.publish or self.shop.private)

    def page(self, sheet: str, template: str, *, title: str = "", at: str = "", **context: Any) -> PageOut:
        """A page of a sheet.

        Args:
            title: name of a page below the sheet ('siren' on the sheet Circuits); '' for the sheet itself.
            at: address within the job when it is not the sheet's own ('circuits/siren.html').
            context: what the template is given beside the frame.
        """
        job = self.worked.job
        shared: dict[str, Any] = {
            "job": job,
            "shop": self.shop,
            "places": self.places,
            "sheet": SHEET[sheet],
            "page_title": title,
            "shown": self.shown,
            "overview": sheet_uri(job.slug, "overview"),
        }
        return PageOut(job_uri(job.slug, at or SHEET[sheet].file), template, {**shared, **context})


def frame_of(worked: JobResult, shop: ShopFacts) -> Frame:
    """The frame of one job's pages."""
    return Frame(worked, shop, places_of(worked), shown_of(worked))


def shop_page(uri: str, template: str, shop: ShopFacts, title: str, **context: Any) -> PageOut:
    """A page that stands above the jobs: all jobs, by donor, search."""
    shared: dict[str, Any] = {
        "job": None,
        "shop": shop,
        "places": {},
        "sheet": None,
        "page_title": title,
        "shown": None,
    }
    return PageOut(uri, template, {**shared, **context})
