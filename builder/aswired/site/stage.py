"""Make what changed, aside: every job read and checked, every page rendered, before anything of the site is touched.

A file fault anywhere, a private value in the owner's edition or a failure while rendering leaves the last good site as
it was. What is made is put in its place by `publish`.
"""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from aswired.files import SHOP, check_job_names, find_jobs, read_job
from aswired.photos.files import CachedFile, publish, sweep
from aswired.photos.index import PhotoError
from aswired.photos.of_job import reasons
from aswired.private import Leak, forbidden_words, leaks, not_sought, written_at
from aswired.private.editions import for_edition
from aswired.record import Job, Photo
from aswired.sheets import codes, find, jobs, search
from aswired.sheets.frame import ShopFacts, frame_of, job_uri
from aswired.sheets.pages import pages_of
from aswired.sheets.registry import CODES, MANUAL
from aswired.sheets.templates import environment, render
from aswired.site import manifest, manual, pictures
from aswired.site.manifest import JobEntry, Manifest, ManualEntry
from aswired.site.notes import notes_html, with_notes
from aswired.site.publish import CutShort, SiteFolder
from aswired.site.telling import within
from aswired.site.theme import assets, makers_mark, theme_dir
from aswired.text.diagnostics import Fault
from aswired.work import work_out

FIND_DATA = "assets/js/find-index.js"
Tell = Callable[[int, int, str], None]  # jobs done, jobs in all, the one at hand


def untold(done: int, total: int, name: str) -> None:
    """For whoever does not ask how far a build is."""


@dataclass(frozen=True)
class BuildOrder:
    """What is to be built. `job` is the name of one job folder, or '' for all; `keep` is where the manifest goes;
    `shown` is the site's folder as a person calls it."""

    jobs_dir: Path
    site_dir: Path
    shown: str
    cache_dir: Path
    keep: Path
    edition: str = "shop"
    job: str = ""
    shop_name: str = "Jobs"


@dataclass(frozen=True)
class Staged:
    """What came of it. With faults or leaks nothing else counts, and nothing of the site was touched."""

    faults: tuple[Fault, ...] = ()
    leaks: tuple[Leak, ...] = ()
    written: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # of each leak's label: which lines say it
    notices: tuple[str, ...] = ()
    manifest: Manifest = field(default_factory=Manifest)
    before: Manifest = field(default_factory=Manifest)  # of the build before this one
    made: tuple[str, ...] = ()  # jobs that were made again
    gone: str = ""  # the site's folder, when what stood there was taken away since it holds a private value
    left: tuple[str, ...] = ()  # files of earlier builds that stay, since somebody changed them

    @property
    def good(self) -> bool:
        return not self.faults and not self.leaks


def stage(order: BuildOrder, site: SiteFolder, today: datetime.date, tell: Tell = untold) -> Staged:
    """Read and check every job; render what is not as it was, staged in the site's folder; see `Staged`."""
    theme = theme_dir()
    mark = f"{makers_mark(theme)}|{order.edition}|{order.shop_name}|{order.site_dir}"
    old = manifest.load(order.keep, mark)
    if order.edition != "shop":
        old = Manifest(mark)  # everything that goes out is looked through each time
    bench = _Bench(order, site, today, theme)
    folders = [path for path in find_jobs(order.jobs_dir) if order.job in ("", path.name)]
    faults: list[Fault] = [*check_job_names(folders)]
    entries: dict[str, JobEntry] = {}
    made: list[str] = []
    for number, folder in enumerate(folders):
        tell(number, len(folders), folder.name)
        before = old.jobs.get(folder.name)
        inputs = manifest.look(folder, before.inputs if before else {}, (order.jobs_dir / SHOP,))
        if before and before.holds_for(inputs, today) and site.is_as_left(before.outputs):
            entries[folder.name] = dataclasses.replace(before, inputs=inputs)
            site.keep(before.outputs)
            continue
        got = read_job(folder)
        faults += got.faults if order.job else [within(folder.name, fault) for fault in got.faults]
        if got.job is not None and not faults:
            made.append(folder.name)
            entries[folder.name] = bench.make_job(got.job, inputs)
    help = ManualEntry()
    if not faults:
        help = bench.make_manual(old.manual)
        bench.make_shared(entries, help)
    tell(len(folders), len(folders), "")
    faults = list(dict.fromkeys(faults))  # one in shop.yml is met by every job
    if not faults and not bench.leaks:
        faults = list(site.obstacles())
    if faults or bench.leaks:
        gone, left = bench.take_back() if bench.leaks else ("", ())
        return Staged(tuple(faults), tuple(bench.leaks), bench.where_written(), gone=gone, left=left)
    notices = tuple(notice for entry in entries.values() for notice in entry.notices)
    return Staged((), (), {}, notices, Manifest(mark, entries, help), old, tuple(made))


def finish(order: BuildOrder, site: SiteFolder, staged: Staged) -> Staged:
    """Put what was staged in its place, and write down what it was made from.

    Raises:
        OSError: the disk failed before anything of the site was changed.
        publish.CutShort: it failed later.
    """
    left = site.change_over(order.edition, order.job, (theme_dir() / "unfinished.html").read_bytes())
    if staged.manifest != staged.before:
        try:
            manifest.save(order.keep, staged.manifest)
        except OSError as error:
            if site.changed == 0:
                raise
            raise CutShort(error, site.changed, site.changed) from error
    return dataclasses.replace(staged, left=left)


class _Bench:
    """The staging folder of one run, and the account of what lies in it."""

    def __init__(self, order: BuildOrder, site: SiteFolder, today: datetime.date, theme: Path) -> None:
        self.order, self.site, self.today, self.theme = order, site, today, theme
        self.words: dict[str, str] = {}
        self.leaks: list[Leak] = []
        self.jobs: list[Job] = []  # those whose private values are looked for
        for store in (order.cache_dir, order.cache_dir / "photos"):
            sweep(store)
        compiled = order.cache_dir / "templates"
        compiled.mkdir(parents=True, exist_ok=True)
        self.env = environment(theme, compiled)

    def put(self, uri: str, content: bytes) -> None:
        """One finished output."""
        self.leaks += leaks(self.words, uri, content) if self.words else ()
        self.site.put(uri, content)

    def take_back(self) -> tuple[str, tuple[str, ...]]:
        """Remove what went out before if it holds a private value: one that became private only now.

        Returns:
            The folder it was taken from, '' when nothing was; and files that stay, since somebody changed them or
            they cannot be removed.

        Raises:
            OSError: it could not be looked through; a person has to know.
        """
        told = any(leaks(self.words, uri, content) for uri, content in self.site.own())
        if not told and not self.site.half_taken_away:
            return "", ()
        return self.site.shown, self.site.take_away()

    def where_written(self) -> dict[str, tuple[str, ...]]:
        """Label of a private value that would have gone out -> the places of its job that say it."""
        found = {leak.label: leak.word for leak in self.leaks}
        return {label: places for job in self.jobs for label, places in written_at(found, job).items()}

    def make_job(self, job: Job, inputs: Mapping[str, manifest.Seen]) -> JobEntry:
        """All outputs of one job."""
        order = self.order
        unsought = not_sought(job) if order.edition != "shop" else ()
        if order.edition != "shop":
            self.words.update(forbidden_words(job))
            self.jobs.append(job)
        job = for_edition(job, order.edition)
        photos_uri = job_uri(job.slug, "photos")
        made = pictures.make(job, order.cache_dir / "photos")
        worked = work_out(job, self.today, reasons(made.problems))
        uris = []
        for file in made.made:
            uris.append(f"{photos_uri}/{file.name}")
            self._put_picture(uris[-1], file)
        shop = ShopFacts(order.edition, made.files, job.revision, self.today, order.shop_name)
        pages: dict[str, bytes] = {}
        for page in with_notes(pages_of(frame_of(worked, shop)), job):
            pages[page.uri] = render(self.env, page).encode()
            self.put(page.uri, pages[page.uri])
            uris.append(page.uri)
        notes = search.page_text(notes_html(job.notes)) if job.notes else ""
        until = min((day for day in _dates(job) if day > self.today), default=None)
        return JobEntry(
            inputs,
            {uri: self.site.stamps[uri] for uri in uris},
            jobs.to_json(jobs.summarise(worked)),
            search.fragment(job.job, search.entries_of(worked, notes), pages),
            self.today.isoformat(),
            until.isoformat() if until else "",
            (
                *unsought,
                *(_notice(job, photo, made.problems[photo.id]) for photo in job.photos if photo.id in made.problems),
            ),
        )

    def _put_picture(self, uri: str, file: CachedFile) -> None:
        self.leaks += leaks(self.words, uri, b"") if self.words else ()
        if not self.site.holds(uri, file.size, file.sha256):
            publish(file, Path(self.site.stage(uri)))
            self.site.staged(uri, file.sha256)

    def make_manual(self, before: ManualEntry) -> ManualEntry:
        """The manual, made again when the program changed or its pages do not lie there as they were left."""
        if before.outputs and self.site.is_as_left(before.outputs):
            self.site.keep(before.outputs)
            return before
        outputs = {
            page.uri: render(self.env, page).encode()
            for page in manual.pages(ShopFacts(self.order.edition, name=self.order.shop_name))
        }
        if not outputs:
            return ManualEntry()
        for uri, content in outputs.items():
            self.put(uri, content)
        names = {page.uri: page.title for page in manual.read()}
        find = search.fragment(MANUAL.title, manual.entries(), outputs, names)
        return ManualEntry({uri: self.site.stamps[uri] for uri in outputs}, find)

    def make_shared(self, entries: Mapping[str, JobEntry], help: ManualEntry) -> None:
        """The pages above the jobs, the search index, the theme's files."""
        shop = ShopFacts(self.order.edition, {}, "", self.today, self.order.shop_name)
        summaries = [jobs.from_json(entry.summary) for entry in entries.values()]
        pages = (*jobs.pages(summaries, shop), *find.pages(shop), *codes.pages(shop))
        outputs = {page.uri: render(self.env, page).encode() for page in pages}
        found = [entry.find for entry in entries.values()]
        if shop.private:
            found += [help.find, search.fragment(CODES.title, search.code_entries(), outputs, {CODES.uri: "Help"})]
        outputs[FIND_DATA] = search.script(found).encode()
        outputs.update({uri: path.read_bytes() for uri, path in assets(self.theme)})
        for uri, content in outputs.items():
            self.put(uri, content)


def _notice(job: Job, photo: Photo, error: PhotoError) -> str:
    at = f"{job.slug}/{photo.line_of('file')}"
    return f"warning {at} ({photo.id})\n  the picture '{photo.file}' {error.reason}\n  mend: {error.mend}"


def _dates(value: Any) -> Iterator[datetime.date]:
    """Every date inside a record: on each of them what is shown may change."""
    if isinstance(value, str | float | int | None):
        return
    if isinstance(value, datetime.date):
        yield value
    elif isinstance(value, tuple | Mapping):
        for item in value.values() if isinstance(value, Mapping) else value:
            yield from _dates(item)
    elif dataclasses.is_dataclass(value):
        record: Any = type(value)
        for name in _fields(record):
            yield from _dates(getattr(value, name))


@lru_cache
def _fields(record: type[Any]) -> tuple[str, ...]:
    return tuple(spec.name for spec in dataclasses.fields(record) if spec.name not in ("at", "lines"))
