"""Make what changed, aside: every job read and checked, every page rendered, before anything of the site is touched.

A file fault anywhere, a private value in the owner's edition or a failure while rendering leaves the last good site as
it was. What is made is moved into the site by `plugin`, which is quick and cannot fail for a reason inside a job.
"""

from __future__ import annotations

import dataclasses
import datetime
import os
import shutil
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from jinja2 import FileSystemBytecodeCache
from markupsafe import Markup

from aswired import search
from aswired.diagnostics import Fault
from aswired.editions import Leak, for_edition, forbidden_words, leaks, not_sought
from aswired.model import Job, Photo
from aswired.pages import PAGES, codes, find, jobs
from aswired.pages.frame import PageOut, ShopFacts, environment, job_uri, render
from aswired.photos.index import PhotoError
from aswired.photos.of_job import reasons
from aswired.read import SHOP, find_jobs, read_job
from aswired.site import manifest, pictures
from aswired.site.manifest import JobEntry, Manifest, Stamp
from aswired.site.notes import notes_html
from aswired.site.theme import assets, makers_mark, theme_dir
from aswired.telling import within
from aswired.work import work_out

FIND_DATA = "assets/js/find-index.js"
KEPT = ".kept"  # where the old site waits while MkDocs empties the folder but for names that begin with a point
Tell = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Order:
    """What is to be built. `job` is the name of one job folder, or '' for all; `keep` is where the manifest goes."""

    jobs_dir: Path
    site_dir: Path
    cache_dir: Path
    keep: Path
    edition: str = "shop"
    job: str = ""
    shop_name: str = "Jobs"


@dataclass(frozen=True)
class Staged:
    """What came of it. With faults or leaks nothing else counts.

    `moves`: address in the site -> the finished file; `kept`: addresses whose files are already right.
    """

    faults: tuple[Fault, ...] = ()
    leaks: tuple[Leak, ...] = ()
    notices: tuple[str, ...] = ()
    moves: Mapping[str, Path] = field(default_factory=dict)
    kept: frozenset[str] = frozenset()
    manifest: Manifest = field(default_factory=Manifest)
    made: tuple[str, ...] = ()  # jobs that were made again
    folder: Path | None = None  # the staging folder, to be removed when all is moved
    gone: str = ""  # the site's folder, when what stood there was taken away since it may hold a private value

    @property
    def good(self) -> bool:
        return not self.faults and not self.leaks


def stage(order: Order, today: datetime.date, tell: Tell = lambda done, total, name: None) -> Staged:
    """Read and check every job; render what is not as it was; see `Staged`."""
    put_back(order.site_dir)
    theme = theme_dir()
    mark = f"{makers_mark(theme)}|{order.edition}|{order.shop_name}|{order.site_dir}"
    old = manifest.load(order.keep, mark)
    if order.edition != "shop":
        old = Manifest(mark)  # everything that goes out is looked through each time
    bench = _Bench(order, today, theme, scan(order.site_dir))
    folders = [path for path in find_jobs(order.jobs_dir) if order.job in ("", path.name)]
    faults: list[Fault] = []
    entries: dict[str, JobEntry] = {}
    made: list[str] = []
    try:
        for number, folder in enumerate(folders):
            tell(number, len(folders), folder.name)
            before = old.jobs.get(folder.name)
            inputs = manifest.look(folder, before.inputs if before else {}, (order.jobs_dir / SHOP,))
            if before and before.holds_for(inputs, today) and bench.intact(before.outputs):
                entries[folder.name] = dataclasses.replace(before, inputs=inputs)
                bench.keep(before.outputs)
                continue
            got = read_job(folder)
            faults += got.faults if order.job else [within(folder.name, fault) for fault in got.faults]
            if got.job is not None and not faults:
                made.append(folder.name)
                entries[folder.name] = bench.make_job(got.job, inputs)
        if not faults:
            bench.make_shared(entries)
        tell(len(folders), len(folders), "")
    except BaseException:
        shutil.rmtree(bench.folder, ignore_errors=True)
        raise
    faults = list(dict.fromkeys(faults))  # one in shop.yml is met by every job
    if faults or bench.leaks:
        shutil.rmtree(bench.folder, ignore_errors=True)
        return Staged(tuple(faults), tuple(bench.leaks), gone=_take_away(order.site_dir) if bench.leaks else "")
    return Staged(
        (), (), tuple(notice for entry in entries.values() for notice in entry.notices),
        bench.moves, frozenset(bench.kept), Manifest(mark, entries, dict.fromkeys(bench.shared, (0, 0))),
        tuple(made), bench.folder,
    )  # fmt: skip


def _take_away(site: Path) -> str:
    """Remove what went out before: it holds the private value as well, if that became private only now.

    Returns:
        The folder, '' when there was nothing.

    Raises:
        OSError: it could not be removed; a person has to know.
    """
    if not site.exists():
        return ""
    shutil.rmtree(site)
    return str(site)


def keep_last(order: Order) -> Staged:
    """Everything as it stands: for a server whose jobs have a fault just now."""
    return Staged(kept=frozenset(scan(order.site_dir)))


def finish(order: Order, staged: Staged) -> None:
    """After the move: sweep out what is not part of the site, and write down what is there."""
    wanted = {*staged.moves, *staged.kept}
    present = scan(order.site_dir)
    for uri in present.keys() - wanted:
        (order.site_dir / uri).unlink()
    _sweep_empty(order.site_dir)
    jobs = {
        slug: dataclasses.replace(entry, outputs={uri: present[uri] for uri in entry.outputs})
        for slug, entry in staged.manifest.jobs.items()
    }
    shared = {uri: present[uri] for uri in staged.manifest.shared}
    manifest.save(order.keep, dataclasses.replace(staged.manifest, jobs=jobs, shared=shared))


def scan(folder: Path) -> dict[str, Stamp]:
    """Every file below a folder: address -> stamp."""
    found: dict[str, Stamp] = {}
    for at, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(at, name)
            stat = os.stat(path, follow_symlinks=False)
            found[os.path.relpath(path, folder).replace(os.sep, "/")] = (stat.st_mtime_ns, stat.st_size)
    return found


def put_back(site: Path) -> None:
    """Bring the old site back from where the plugin put it; also after a build that was cut off."""
    kept = site / KEPT
    if not kept.is_dir():
        return
    for path in sorted(kept.iterdir()):
        if not (site / path.name).exists():
            path.rename(site / path.name)
    shutil.rmtree(kept, ignore_errors=True)


def _sweep_empty(folder: Path) -> None:
    for at, _, _ in os.walk(folder, topdown=False):
        if Path(at) != folder and not os.listdir(at):
            os.rmdir(at)


class _Bench:
    """The staging folder of one run, and the account of what lies in it."""

    def __init__(self, order: Order, today: datetime.date, theme: Path, present: Mapping[str, Stamp]) -> None:
        self.order, self.today, self.theme, self.present = order, today, theme, present
        self.env = environment(theme)
        self.moves: dict[str, Path] = {}
        self.kept: set[str] = set()
        self.shared: set[str] = set()
        self.words: dict[str, str] = {}
        self.leaks: list[Leak] = []
        order.cache_dir.mkdir(parents=True, exist_ok=True)
        for left in order.cache_dir.glob("staging-*"):
            if time.time() - left.stat().st_mtime > 3600:  # of a run that was cut off
                shutil.rmtree(left, ignore_errors=True)
        compiled = order.cache_dir / "templates"
        compiled.mkdir(exist_ok=True)
        self.env.bytecode_cache = FileSystemBytecodeCache(str(compiled))
        self.folder = Path(tempfile.mkdtemp(prefix="staging-", dir=order.cache_dir))

    def intact(self, outputs: Mapping[str, Stamp]) -> bool:
        return all(self.present.get(uri) == stamp for uri, stamp in outputs.items())

    def keep(self, outputs: Mapping[str, Stamp]) -> None:
        self.kept.update(outputs)

    def put(self, uri: str, content: bytes) -> None:
        """One finished output; a file in the site that already holds the same bytes stays."""
        self.leaks += leaks(self.words, uri, content) if self.words else ()
        there = self.present.get(uri)
        if there and there[1] == len(content) and (self.order.site_dir / uri).read_bytes() == content:
            self.kept.add(uri)
            return
        path = self.folder / uri
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        self.moves[uri] = path

    def make_job(self, job: Job, inputs: Mapping[str, manifest.Seen]) -> JobEntry:
        """All outputs of one job."""
        order = self.order
        unsought = not_sought(job) if order.edition != "shop" else ()
        if order.edition != "shop":
            self.words.update(forbidden_words(job))
        job = for_edition(job, order.edition)
        photos_uri = job_uri(job.slug, "photos")
        made = pictures.make(job, self.folder / photos_uri, order.cache_dir / "photos")
        worked = work_out(job, self.today, reasons(made.problems))
        uris = []
        for path in sorted((self.folder / photos_uri).glob("*")):
            uris.append(f"{photos_uri}/{path.name}")
            self._put_picture(uris[-1], path)
        shop = ShopFacts(order.edition, made.files, job.revision, self.today, order.shop_name)
        pages: dict[str, bytes] = {}
        for page in _with_notes((page for module in PAGES for page in module.pages(worked, shop)), job):
            pages[page.uri] = render(self.env, page).encode()
            self.put(page.uri, pages[page.uri])
            uris.append(page.uri)
        notes = search.page_text(notes_html(job.notes)) if job.notes else ""
        until = min((day for day in _dates(job) if day > self.today), default=None)
        return JobEntry(
            inputs,
            dict.fromkeys(uris, (0, 0)),
            jobs.to_json(jobs.summarise(worked)),
            search.fragment(job.job, search.entries_of(worked, notes), pages),
            self.today.isoformat(),
            until.isoformat() if until else "",
            (
                *unsought,
                *(_notice(job, photo, made.problems[photo.id]) for photo in job.photos if photo.id in made.problems),
            ),
        )

    def _put_picture(self, uri: str, path: Path) -> None:
        """Names hold a hash of what made them: the same name is the same picture."""
        self.leaks += leaks(self.words, uri, b"") if self.words else ()
        if uri in self.present:
            self.kept.add(uri)
        else:
            self.moves[uri] = path

    def make_shared(self, entries: Mapping[str, JobEntry]) -> None:
        """The pages above the jobs, the search index, the theme's files."""
        shop = ShopFacts(self.order.edition, {}, "", self.today, self.order.shop_name)
        summaries = [jobs.from_json(entry.summary) for entry in entries.values()]
        pages = (*jobs.pages(summaries, shop), *find.pages(shop), *codes.pages(shop))
        outputs = {page.uri: render(self.env, page).encode() for page in pages}
        help = [search.fragment(codes.TITLE, search.code_entries(), outputs)] if shop.private else []
        outputs[FIND_DATA] = search.script([*(entry.find for entry in entries.values()), *help]).encode()
        outputs.update({uri: path.read_bytes() for uri, path in assets(self.theme)})
        for uri, content in outputs.items():
            self.put(uri, content)
            self.shared.add(uri)


def _with_notes(pages: Iterator[PageOut], job: Job) -> Iterator[PageOut]:
    """The overview is given the notes; they are the only text of a job that passes through Markdown."""
    for page in pages:
        if page.uri == job_uri(job.slug):
            notes = notes_html(job.notes) if job.notes else Markup()
            page = dataclasses.replace(page, context={**page.context, "notes_html": notes})
        yield page


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
