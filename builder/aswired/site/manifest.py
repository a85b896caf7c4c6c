"""What the last build left: which inputs each job had, which files it gave, and what the pages above the jobs need.

Kept outside the site, written last and in one step. A crash leaves the old one, and the job is made again.
"""

from __future__ import annotations

import dataclasses
import datetime
import hashlib
import json
import os
import stat
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from aswired.photos.files import write_whole
from aswired.text.ordinary import NotOrdinary, open_ordinary, stays_in

FORM = 3  # raise it when the shape of the manifest changes
FRESH_NS = 2_000_000_000  # a file younger than this may change again within one tick of the disk's clock

Stamp = tuple[int, int]  # mtime in ns, size in bytes


@dataclass(frozen=True)
class Seen:
    """An input file: its stamp (None while too fresh to be trusted) and its content's hash."""

    stamp: Stamp | None
    sha256: str


_NO_FILE = Seen(None, "no file")


@dataclass(frozen=True)
class JobEntry:
    """One job as last made. `made_on` and `until`: the days between which the pages are the same."""

    inputs: Mapping[str, Seen]
    outputs: Mapping[str, Stamp]
    summary: Mapping[str, Any]
    find: str  # its part of the search index, ready to be written
    made_on: str
    until: str = ""
    notices: tuple[str, ...] = ()  # told again although nothing is made again

    def holds_for(self, inputs: Mapping[str, Seen], day: datetime.date) -> bool:
        """Whether the same files with the same content, on this day, would give the same pages."""
        same_day = self.made_on <= day.isoformat() and (not self.until or day.isoformat() < self.until)
        return same_day and _contents(inputs) == _contents(self.inputs)


@dataclass(frozen=True)
class ManualEntry:
    """The manual's pages as last made, and their part of the search index. They change with the program alone."""

    outputs: Mapping[str, Stamp] = field(default_factory=dict)
    find: str = ""


@dataclass(frozen=True)
class Manifest:
    """The last build of one site. `mark` names program, theme, edition and shop: another mark, and nothing holds."""

    mark: str = ""
    jobs: Mapping[str, JobEntry] = field(default_factory=dict)
    manual: ManualEntry = field(default_factory=ManualEntry)


def load(path: Path, mark: str) -> Manifest:
    """The manifest, or an empty one when there is none, it is damaged, or it was made by something else."""
    try:
        raw = json.loads(path.read_bytes())
        if raw["form"] != FORM or raw["mark"] != mark:
            return Manifest(mark)
        manual = ManualEntry(_stamps(raw["manual"]["outputs"]), raw["manual"]["find"])
        return Manifest(mark, {slug: _entry(entry) for slug, entry in raw["jobs"].items()}, manual)
    except (OSError, ValueError, KeyError, TypeError, IndexError):
        return Manifest(mark)


def _entry(raw: Mapping[str, Any]) -> JobEntry:
    return JobEntry(
        {name: Seen((seen[0][0], seen[0][1]) if seen[0] else None, seen[1]) for name, seen in raw["inputs"].items()},
        _stamps(raw["outputs"]),
        raw["summary"],
        raw["find"],
        raw["made_on"],
        raw["until"],
        tuple(raw["notices"]),
    )


def _stamps(raw: Mapping[str, Any]) -> dict[str, Stamp]:
    return {uri: (stamp[0], stamp[1]) for uri, stamp in raw.items()}


def save(path: Path, manifest: Manifest) -> None:
    """Write the manifest in one step."""
    jobs = {
        slug: {
            **{spec.name: getattr(entry, spec.name) for spec in dataclasses.fields(entry)},
            "inputs": {name: [seen.stamp, seen.sha256] for name, seen in entry.inputs.items()},
        }
        for slug, entry in manifest.jobs.items()
    }
    manual = dataclasses.asdict(manifest.manual)
    text = json.dumps({"form": FORM, "mark": manifest.mark, "jobs": jobs, "manual": manual})
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, text.encode(), on_disk=False)  # one that is cut off is none, and costs time only


def look(folder: Path, before: Mapping[str, Seen], beside: tuple[Path, ...] = ()) -> dict[str, Seen]:
    """Every file of a job folder, and those `beside` it that exist, with its hash.

    A file whose stamp is as before is not read again. Of what is no ordinary file, and of a link that leads out of the
    folder, only the name counts: where it stands for a part of the job, reading the job tells it.
    """
    found: dict[str, Seen] = {}
    for path in beside:
        _add(found, f"../{path.name}", path, path.parent, before)
    for at, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in folders:
            if name.endswith((".yml", ".md")):
                found[Path(at, name).relative_to(folder).as_posix()] = _NO_FILE
        for name in sorted(names):
            if not name.startswith("."):
                path = Path(at, name)
                _add(found, path.relative_to(folder).as_posix(), path, folder, before)
    return found


def _add(found: dict[str, Seen], key: str, path: Path, home: Path, before: Mapping[str, Seen]) -> None:
    try:
        status = path.lstat()
        if stat.S_ISLNK(status.st_mode) and os.path.exists(path) and stays_in(path, home):
            status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            found[key] = _NO_FILE
            return
        stamp = status.st_mtime_ns, status.st_size
        known = before.get(key)
        found[key] = known if known is not None and known.stamp == stamp else _seen(path, stamp)
    except (FileNotFoundError, NotOrdinary):  # it went while we looked
        return
    except OSError:  # it may not be read; when it may, its hash tells that it changed
        found[key] = Seen(None, "")


def _seen(path: Path, stamp: Stamp) -> Seen:
    with open_ordinary(path) as stream:
        sha256 = hashlib.file_digest(stream, "sha256").hexdigest()
    return Seen(stamp if time.time_ns() - stamp[0] > FRESH_NS else None, sha256)


def _contents(inputs: Mapping[str, Seen]) -> dict[str, str]:
    return {name: seen.sha256 for name, seen in inputs.items()}
