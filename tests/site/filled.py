"""A job with something written in every text field, and all that goes out of it, without pictures."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from aswired.files import read_job
from aswired.private import editions
from aswired.record import Job
from aswired.sheets import search
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.pages import pages_of
from aswired.sheets.templates import environment, render
from aswired.site.notes import notes_html, with_notes
from aswired.site.theme import theme_dir
from aswired.text.schema import Located, Many, Named, Record, Scalar, Value, keys_of
from aswired.work import work_out

JOBS = Path(__file__).parents[2] / "jobs"
TODAY = datetime.date(2031, 6, 12)
INDEX = "assets/js/find-index.js"
Write = Callable[[str], str]

# Words of these keys are read as something: a count, a list of cavities, a file, a name or a value of something else.
READ = {
    "ways", "cavities not examined", "cavities", "batch", "file", "ends", "must work", "is", "could be",
    "colour letters", "instead", "decided by",
}  # fmt: skip


def demo(name: str) -> Job:
    got = read_job(JOBS / name)
    assert got.job is not None, got.faults
    return got.job


def filled(record: Any, write: Write, path: str = "") -> Any:
    """The record with `write(path)` behind what each free text says; where nothing is said, alone."""
    given: dict[str, Any] = {}
    for key, (name, declared) in keys_of(type(record)).items():
        if not declared.private and key not in READ:
            given[name] = _filled(declared.value, getattr(record, name), write, f"{path}.{key}".strip("."))
    return dataclasses.replace(record, **given)


def _filled(kind: Value, value: Any, write: Write, path: str) -> Any:
    if isinstance(kind, Scalar) and kind.name == "words":
        return f"{value} {write(path)}".strip()
    if isinstance(kind, Many):
        if isinstance(kind.item, Scalar) and kind.item.name == "words":
            value = value or ("",)
        return tuple(_filled(kind.item, item, write, f"{path}[]") for item in value)
    if isinstance(kind, Named) and isinstance(value, Mapping):
        return {name: _filled(kind.item, item, write, f"{path}.{name}") for name, item in value.items()}
    if isinstance(kind, Record) and isinstance(value, Located):
        return filled(value, write, path)
    return value


def outputs(job: Job, edition: str) -> dict[str, bytes]:
    """Address -> content: the job's pages and the search index, made as a build makes them."""
    job = editions.for_edition(job, edition)
    worked = work_out(job, TODAY)
    shop = ShopFacts(edition, {}, job.revision, TODAY, "Shop")
    env = environment(theme_dir())
    found: dict[str, bytes] = {}
    notes = notes_html(job.notes)
    for page in with_notes(pages_of(frame_of(worked, shop)), job):
        found[page.uri] = render(env, page).encode()
    entries = search.entries_of(worked, search.page_text(notes))
    return {**found, INDEX: search.script([search.fragment(job.job, entries, found)]).encode()}
