"""The folder that a site lies in: what of it a build wrote, and how new files come in with no broken moment between.

New files are staged inside the folder, so on its own disk, and each is put in its place by one rename: first those
whose address is new, to which no page leads yet; then pages that are there already, start pages last; then what is no
longer part of the site is removed. So whoever opens the folder in between, or after a build that was cut off, finds a
start page and no link that leads to no file. (A place *within* a page can be missing for that moment: pages that name
rows of one another cannot all change at once.)

A file is this program's own if it lies there with the SHA-256 that a build wrote down for it (`written.txt`, in the
form that `sha256sum -c` reads). Nothing else is ever overwritten or removed.
"""

from __future__ import annotations

import errno
import hashlib
import os
import re
import shutil
import stat
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, field, replace
from itertools import takewhile
from pathlib import Path

from aswired.files.locking import held
from aswired.site.manifest import Stamp
from aswired.text.diagnostics import Fault, Location
from aswired.text.ordinary import NotOrdinary, open_ordinary

HOME = ".aswired"  # what a build keeps for itself in the site's folder
START = "index.html"
_WRITTEN, _NEW, _LOCK, _STAGING = "written.txt", "written.txt.new", "lock", "staging"
_FOLDERS = (HOME, f"{HOME}/{_STAGING}")
_FILES = (f"{HOME}/{_WRITTEN}", f"{HOME}/{_NEW}", f"{HOME}/{_LOCK}")
# What can be the address of a file of a site: within its folder on every system, and nothing that a build keeps.
_ADDRESS = re.compile(rf"(?!(?i:{re.escape(HOME)})(?:/|\Z))(?:[^/\\:\0]*[^/\\:\0. ](?:/(?!\Z)|\Z))+")
_EDITION, _JOB, _MADE = "# edition: ", "# job: ", "# folder made by the build"


class CutShort(Exception):
    """The disk failed while files were put in their places: `done` of `all` steps were taken, the rest was not."""

    def __init__(self, error: OSError, done: int, all: int) -> None:
        self.reason, self.done, self.all = str(error.strerror or error), done, all
        super().__init__(self.reason)


@dataclass(frozen=True)
class WrittenFiles:
    """What builds wrote into a folder: address -> SHA-256; of a build that was cut off the old and the new one.

    `edition` and `job` are those of the site; `made`: the folder itself was made by a build.
    """

    edition: str = ""
    job: str = ""
    made: bool = False
    files: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@contextmanager
def at_work(folder: Path, shown: str, waiting: Callable[[], None] = lambda: None) -> Iterator[SiteFolder]:
    """The folder for one build, alone: another build of the same folder waits, after `waiting` was called.

    `shown` is the folder as a person calls it. What was staged and not put in its place goes at the end, and so does a
    folder that was made for nothing.

    Raises:
        OSError: the folder cannot be made or written.
    """
    above = _missing(folder)
    made = bool(above)
    home = folder / HOME
    _refuse_odd(folder, shown)
    try:
        with ExitStack() as stack:
            _lock(home, waiting, stack)
            shutil.rmtree(home / _STAGING, ignore_errors=True)  # of a build that was cut off
            site = SiteFolder(folder, shown, made)
            try:
                yield site
            finally:
                shutil.rmtree(home / _STAGING, ignore_errors=True)
                made = site.written.made
    finally:
        if not (home / _WRITTEN).exists():
            for left in (home, *(above or (folder,))) if made else (home,):
                with suppress(OSError):  # somebody else's file, or somebody who waits for the lock
                    left.rmdir()


def _missing(folder: Path) -> tuple[Path, ...]:
    """A folder and those above it, as far as they are not there: the innermost first."""
    return tuple(takewhile(lambda path: not os.path.lexists(path), (folder, *folder.parents)))


def _refuse_odd(folder: Path, shown: str) -> None:
    """What a build keeps for itself is files and folders: a link would lead it to write and remove elsewhere.

    Raises:
        OSError: something else has such a name.
    """
    for place in (*_FOLDERS, *_FILES):
        try:
            mode = os.lstat(folder / place).st_mode
        except FileNotFoundError:
            continue
        if not (stat.S_ISDIR if place in _FOLDERS else stat.S_ISREG)(mode):
            what = "a link" if stat.S_ISLNK(mode) else f"no plain {'folder' if place in _FOLDERS else 'file'}"
            raise OSError(f"{shown}/{place} is {what}; take it away")


def _lock(home: Path, waiting: Callable[[], None], stack: ExitStack) -> None:
    while True:
        home.mkdir(parents=True, exist_ok=True)
        try:
            stack.enter_context(held(home / _LOCK, waiting))
        except FileNotFoundError:  # whoever held it made nothing, and took its folder away
            continue
        return


class SiteFolder:
    """The folder of a site while one build works in it. Addresses are relative to it, with '/'."""

    def __init__(self, folder: Path, shown: str, made: bool) -> None:
        self.folder, self.shown = folder, shown
        self.written = _read(folder / HOME / _WRITTEN) or WrittenFiles(made=made)
        self.stamps: dict[str, Stamp] = {}  # of every file that will be part of the site
        self._root = str(folder)
        self._sums: dict[str, str] = {}  # of those that were looked at or staged in this build
        self._staged: dict[str, str] = {}
        self._made: set[str] = set()  # folders of the staging place
        self._passed: set[str] = set()  # folders of the site that were asked for obstacles
        self.changed = 0  # files that were put in their places or removed in this build

    # ---- what will be part of the site ------------------------------------------------------------------------------
    def is_as_left(self, outputs: Mapping[str, Stamp]) -> bool:
        """Whether all these files lie there untouched since they were put there, and are known as ours."""
        ours = self.written.files
        return all(uri in ours and self.stamp(uri) == stamp for uri, stamp in outputs.items())

    def keep(self, outputs: Mapping[str, Stamp]) -> None:
        """These files stay as they are."""
        self.stamps.update(outputs)
        for uri in outputs:
            if len(self.written.files[uri]) != 1:  # a build was cut off: which of the two it is, is settled here
                self._sums[uri] = self._sum(uri)

    def put(self, uri: str, content: bytes) -> None:
        """A file of the site; one that holds the same bytes already stays."""
        there = self.stamp(uri)
        if there and there[1] == len(content) and Path(self._at(uri)).read_bytes() == content:
            self.stamps[uri] = there
            if len(self.written.files.get(uri, ())) != 1:
                self._sums[uri] = hashlib.sha256(content).hexdigest()
            return
        path = self.stage(uri)
        with open(path, "wb") as stream:
            stream.write(content)
        self.staged(uri, hashlib.sha256(content).hexdigest())

    def stage(self, uri: str) -> str:
        """Where to write the new file for an address; tell `staged` when it is whole."""
        path = os.path.join(self._root, HOME, _STAGING, uri)
        parent = os.path.dirname(path)
        if parent not in self._made:
            os.makedirs(parent, exist_ok=True)
            self._made.add(parent)
        return path

    def staged(self, uri: str, sha256: str) -> None:
        """The new file lies where `stage` said."""
        path = os.path.join(self._root, HOME, _STAGING, uri)
        status = os.stat(path)
        self.stamps[uri] = (status.st_mtime_ns, status.st_size)
        self._staged[uri] = path
        self._sums[uri] = sha256

    def holds(self, uri: str, size: int, sha256: str) -> bool:
        """Whether a file of this size and content lies there; then it will be part of the site as it is."""
        there = self.stamp(uri)
        if there is None or there[1] != size or self._sum(uri) != sha256:
            return False
        self.stamps[uri] = there
        self._sums[uri] = sha256
        return True

    def stamp(self, uri: str) -> Stamp | None:
        """Time and size of a file that is there; None for everything that is no plain file."""
        try:
            status = os.lstat(self._at(uri))
        except (FileNotFoundError, NotADirectoryError):
            return None
        except OSError as error:
            if error.errno == errno.ENAMETOOLONG:
                return None
            raise
        return (status.st_mtime_ns, status.st_size) if stat.S_ISREG(status.st_mode) else None

    def own(self) -> Iterator[tuple[str, bytes]]:
        """Address and content of every file that builds wrote here and nobody changed."""
        for uri in self.written.files:
            if self._is_ours(uri):
                yield uri, Path(self._at(uri)).read_bytes()

    # ---- what stands in the way -------------------------------------------------------------------------------------
    def obstacles(self) -> tuple[Fault, ...]:
        """What somebody else put where a file of the site has to go, or changed since it was built."""
        found: dict[str, Fault] = {}
        for uri in self._staged:
            for place, is_file in self._way(uri):
                if place not in found and (trouble := self._trouble(place, is_file)):
                    at = Location(f"{self.shown}/{place}")
                    found[place] = Fault("OUT02", at, trouble, "Move it out of the site's folder, or delete it")
        return tuple(found[place] for place in sorted(found))

    def _way(self, uri: str) -> Iterator[tuple[str, bool]]:
        """The folders above an address, each once in a build, and the address itself."""
        parts = uri.split("/")
        for count in range(1, len(parts)):
            above = "/".join(parts[:count])
            if above not in self._passed:
                self._passed.add(above)
                yield above, False
        yield uri, True

    def _trouble(self, place: str, is_file: bool) -> str:
        try:
            mode = os.lstat(self._at(place)).st_mode
        except (FileNotFoundError, NotADirectoryError):
            return ""
        if not is_file:
            return "" if stat.S_ISDIR(mode) else "a folder of the site has to go here, and something else has this name"
        if not stat.S_ISREG(mode):
            return "a page of the site has to go here, and what has this name is no plain file"
        if self._is_ours(place):
            return ""
        if place in self.written.files:
            return "the file was changed after it was built; building would write over the change"
        return "a file of the site has to go here, and this one was not built"

    def _is_ours(self, uri: str) -> bool:
        """Whether what lies there is what a build wrote; of an empty file nothing can be lost."""
        sums = self.written.files.get(uri, ())
        there = self.stamp(uri)
        if not sums or there is None or self._behind_a_link(uri):
            return False
        return there[1] == 0 or self._sum(uri) in sums

    def _behind_a_link(self, uri: str) -> bool:
        parts = uri.split("/")
        return any(os.path.islink(self._at("/".join(parts[:count]))) for count in range(1, len(parts)))

    # ---- changing over ----------------------------------------------------------------------------------------------
    def change_over(self, edition: str, job: str, unfinished: bytes) -> tuple[str, ...]:
        """Put every staged file in its place and remove what is no longer part of the site.

        A folder without a start page gets the page `unfinished` first, for a reader who comes too early. Ask for
        `obstacles` before; there must be none.

        Returns:
            Files that a build wrote, that are no longer part of the site and that stay: they were changed since.

        Raises:
            OSError: the disk failed before anything was changed.
            CutShort: it failed later.
        """
        old = self.written
        sums = {uri: (self._sums[uri],) if uri in self._sums else old.files[uri] for uri in self.stamps}
        now = WrittenFiles(edition, job, old.made, sums)
        gone = [uri for uri in old.files if uri not in sums]
        if not self._staged and now == old:
            return ()
        known = {
            uri: tuple(dict.fromkeys((*old.files.get(uri, ()), *sums.get(uri, ())))) for uri in {**old.files, **sums}
        }
        early = START in self._staged and self.stamp(START) is None
        if early:
            known[START] = (hashlib.sha256(unfinished).hexdigest(), *known[START])
        self._note(WrittenFiles(edition, job, old.made, known))
        if early:
            path = self.stage("unfinished.html")
            Path(path).write_bytes(unfinished)
            os.replace(path, self._at(START))
        new, there = _parted(self._staged, lambda uri: self.stamp(uri) is None)
        steps = [*sorted(new, key=_is_page), *sorted(there, key=_turn)]
        all = len(steps) + len(gone)
        left = []
        try:
            for uri in steps:
                self._place(uri)
                self.changed += 1
            for uri in gone:
                if not self._remove(uri):
                    left.append(uri)
                self.changed += 1
            self._note(now)
        except OSError as error:
            if self.changed == 0:
                raise
            raise CutShort(error, self.changed, all) from error
        return tuple(left)

    def take_away(self) -> tuple[str, ...]:
        """Remove every file that builds wrote here. Where others stay, so does the account: the folder is a site's.

        Returns:
            Those that stay, since somebody changed them or they cannot be removed; the latter stay known as ours.
        """
        left = []
        for uri in sorted(self.written.files, key=_turn, reverse=True):
            try:
                gone = self._remove(uri)
            except OSError:
                gone = False
            if not gone:
                left.append(uri)
        with suppress(
            OSError
        ):  # an account that names files which are gone does no harm; what was found has to be told
            if set(os.listdir(self.folder)) == {HOME}:
                (self.folder / HOME / _WRITTEN).unlink(missing_ok=True)
            else:
                files = {uri: self.written.files[uri] for uri in left}
                self._note(replace(self.written, files=files) if files else WrittenFiles(made=self.written.made))
        return tuple(left)

    @property
    def half_taken_away(self) -> bool:
        """Whether `take_away`, which removes the start page first, was broken off here."""
        return START in self.written.files and not os.path.lexists(self._at(START))

    def _place(self, uri: str) -> None:
        target = self._at(uri)
        try:
            os.replace(self._staged[uri], target)
        except FileNotFoundError:
            os.makedirs(os.path.dirname(target), exist_ok=True)
            os.replace(self._staged[uri], target)

    def _remove(self, uri: str) -> bool:
        """Remove a file of ours, and folders that it leaves empty, or left when a build was cut off. False: it is there
        and not ours."""
        if self._is_ours(uri):
            os.unlink(self._at(uri))
        elif os.path.lexists(self._at(uri)) or self._behind_a_link(uri):
            return not os.path.lexists(self._at(uri))
        parent = os.path.dirname(uri)
        while parent:
            try:
                os.rmdir(self._at(parent))
            except FileNotFoundError:  # a build that was cut off came so far
                pass
            except OSError:  # not empty
                break
            parent = os.path.dirname(parent)
        return True

    def _note(self, written: WrittenFiles) -> None:
        lines = [f"{_EDITION}{written.edition}", f"{_JOB}{written.job}", *([_MADE] if written.made else [])]
        lines += [f"{sum}  {uri}" for uri in sorted(written.files) for sum in written.files[uri]]
        path, new = (os.path.join(self._root, HOME, name) for name in (_WRITTEN, _NEW))
        with open(new, "wb") as stream:
            stream.write(("\n".join(lines) + "\n").encode())
            stream.flush()
            os.fsync(stream.fileno())
        os.replace(new, path)

    def _at(self, uri: str) -> str:
        return os.path.join(self._root, uri)

    def _sum(self, uri: str) -> str:
        with open(self._at(uri), "rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()


def whose(folder: Path) -> WrittenFiles | None:
    """What builds wrote into a folder; None where there is no such account."""
    return _read(folder / HOME / _WRITTEN)


def is_free(folder: Path) -> bool:
    """Whether a site may be built into a folder: it is not there, holds a site of ours, or only hidden things."""
    try:
        visible = any(not name.startswith(".") for name in os.listdir(folder))
    except FileNotFoundError:
        return True
    return not visible or whose(folder) is not None  # in this order: a first build writes its account before any page


def _read(path: Path) -> WrittenFiles | None:
    """The account of a folder. Anybody may have edited it: a line that names no file of a site says nothing.

    Raises:
        OSError: it may not be read, or is no file.
    """
    try:
        with open_ordinary(path) as stream:
            text = stream.read().decode("utf-8", "replace").replace("\r\n", "\n")
    except FileNotFoundError:
        return None
    except NotOrdinary as odd:
        raise OSError(f"{path} is {odd.what}; take it away") from odd
    edition = job = ""
    made = False
    files: dict[str, tuple[str, ...]] = {}
    for line in text.split("\n"):
        if line[64:66] == "  " and _ADDRESS.fullmatch(uri := line[66:]):
            files[uri] = (*files[uri], line[:64]) if uri in files else (line[:64],)
        elif line.startswith(_EDITION):
            edition = line.removeprefix(_EDITION)
        elif line.startswith(_JOB):
            job = line.removeprefix(_JOB)
        made = made or line == _MADE
    return WrittenFiles(edition, job, made, files)


def _parted(uris: Iterable[str], first: Callable[[str], bool]) -> tuple[list[str], list[str]]:
    taken: list[str] = []
    others: list[str] = []
    for uri in uris:
        (taken if first(uri) else others).append(uri)
    return taken, others


def _is_page(uri: str) -> bool:
    return uri.endswith(".html")


def _turn(uri: str) -> tuple[int, str]:
    """When a file that is there already is exchanged: looks, then pages of jobs, their first pages, the index, the
    pages above the jobs, and the start page last of all."""
    if uri == START:
        return 5, uri
    if uri.startswith("jobs/"):
        return (2 if uri.count("/") == 2 and uri.endswith("/" + START) else 1), uri
    if _is_page(uri):
        return 4, uri
    return (3 if "find-index" in uri else 0), uri
