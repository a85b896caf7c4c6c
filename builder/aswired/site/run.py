"""Build a site as it was ordered."""

from __future__ import annotations

import datetime
import hashlib
import os
from collections.abc import Callable
from pathlib import Path

import yaml

from aswired.site.publish import HOME, WrittenFiles, at_work, is_free
from aswired.site.stage import BuildOrder, Staged, Tell, finish, stage, untold
from aswired.text.diagnostics import Fault, Location
from aswired.text.ordinary import NotOrdinary, TooLarge, read_ordinary

LARGEST_BYTES = 1_000_000


def order_for(jobs_dir: Path, site_dir: Path, edition: str, job: str, *, shown: str = "") -> BuildOrder:
    """An order for a site; the shop's name is `site_name` of an mkdocs.yml beside the jobs, if there is one."""
    jobs_dir, whole = (Path(os.path.realpath(folder)) for folder in (jobs_dir, site_dir))  # a ring of links is no error
    cache = jobs_dir.parent / ".cache" / "aswired"
    keep = cache / f"site-{hashlib.sha256(str(whole).encode()).hexdigest()[:12]}.json"
    return BuildOrder(jobs_dir, whole, shown or str(site_dir), cache, keep, edition, job, shop_name(jobs_dir.parent))


def shop_name(folder: Path) -> str:
    """The name over all pages."""
    try:
        text = read_ordinary(folder / "mkdocs.yml", LARGEST_BYTES).decode("utf-8")
        node = yaml.compose(text, yaml.SafeLoader)
    except (OSError, NotOrdinary, TooLarge, UnicodeDecodeError, yaml.YAMLError):
        return "Jobs"
    pairs = node.value if isinstance(node, yaml.MappingNode) else []
    return next((str(value.value) for key, value in pairs if key.value == "site_name"), "Jobs")


def build(order: BuildOrder, tell: Tell = untold, waiting: Callable[[], None] = lambda: None) -> Staged:
    """Build the site, or give back why not; the site is touched only when there is no fault and no leak.

    `waiting` is called when another build of the same folder is at work; then this one comes after it.

    Raises:
        OSError: the disk failed; the site is as it was.
        publish.CutShort: it failed while files were put in their places.
    """
    if fault := _not_for_a_site(order):
        return Staged((fault,))
    with at_work(order.site_dir, order.shown, waiting) as site:
        if fault := _another_site(order, site.written):
            return Staged((fault,))
        staged = stage(order, site, datetime.date.today(), tell)
        return finish(order, site, staged) if staged.good else staged


def _not_for_a_site(order: BuildOrder) -> Fault | None:
    """What speaks against the folder before anything is made in it."""
    site, jobs, at = order.site_dir, order.jobs_dir, Location(order.shown)
    elsewhere = "Name a folder that is new or empty: aswired build --out FOLDER"
    if site.is_relative_to(jobs) or jobs.is_relative_to(site):
        return Fault("OUT01", at, "the folder holds the jobs, or lies among them", elsewhere)
    if site.is_relative_to(order.cache_dir) or HOME in site.parts:
        return Fault(
            "OUT01", at, "the folder lies where builds keep what they need, and clear away what they do not", elsewhere
        )
    if site.exists() and not site.is_dir():
        return Fault("OUT01", at, "there is a file of this name, not a folder", elsewhere)
    if not is_free(site):
        return Fault("OUT01", at, "the folder holds files, and no site that was built here", elsewhere)
    return None


def _another_site(order: BuildOrder, written: WrittenFiles) -> Fault | None:
    """A site of another edition, or of another job alone, is not written over: it may be in a customer's hands."""
    if not written.files or (written.edition, written.job) == (order.edition, order.job):
        return None
    of = f"the {written.edition}'s edition of " + (f"'{written.job}'" if written.job else "all jobs")
    return Fault(
        "OUT03", Location(order.shown), f"the folder holds {of}", "Name another folder: aswired build --out FOLDER"
    )
