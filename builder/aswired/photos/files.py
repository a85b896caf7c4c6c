"""The cache of finished files: written whole, and trusted for what they hold, never for their name.

Files that were made together stand in one record, which is written last. A file that is missing, cut off or altered (an
editor that saves in place through a hard link of the site, a disk that lost power) makes the record worth nothing, and
all of it is made again. Several builds may share a cache: nothing is ever changed in place, and the last writer wins.
"""

from __future__ import annotations

import hashlib
import json
import os
import time
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from aswired.text.ordinary import NotOrdinary, open_ordinary

FORM = 1  # raise it when the shape of a record changes
ABANDONED = 3600  # seconds; a file takes seconds to write, so an older temporary file has lost its process


@dataclass(frozen=True)
class CachedFile:
    """A finished file in the cache, whole when it was last looked at. Size in bytes."""

    path: Path
    size: int
    sha256: str

    @property
    def name(self) -> str:
        return self.path.name


def kept(store: Path, record: str, names: Sequence[str]) -> tuple[CachedFile, ...] | None:
    """The files of a record in the order of `names`, each read and found as it was written; else None."""
    try:
        raw = json.loads((store / record).read_bytes())
        files = tuple(CachedFile(store / name, size, sha256) for name, size, sha256 in raw["files"])
        if raw["form"] != FORM:
            return None
    except (OSError, ValueError, KeyError, TypeError):
        return None
    whole = [file.name for file in files] == list(names) and all(holds(file.path, file) for file in files)
    return files if whole else None


def keep(store: Path, record: str, contents: Mapping[str, bytes]) -> tuple[CachedFile, ...]:
    """Write files and then their record; those that hold just that already are left alone.

    Raises:
        OSError: the disk is full, or the cache may not be written.
    """
    store.mkdir(parents=True, exist_ok=True)
    files = tuple(
        CachedFile(store / name, len(content), hashlib.sha256(content).hexdigest())
        for name, content in contents.items()
    )
    for file, content in zip(files, contents.values(), strict=True):
        if not holds(file.path, file):
            write_whole(file.path, content)
    told = {"form": FORM, "files": [(file.name, file.size, file.sha256) for file in files]}
    write_whole(store / record, json.dumps(told).encode(), on_disk=False)  # half a record is none, and costs time only
    return files


def holds(path: Path, file: CachedFile) -> bool:
    """Whether there is an ordinary file with the content of `file` at `path`."""
    try:
        with open_ordinary(path) as stream:
            if os.fstat(stream.fileno()).st_size != file.size:
                return False
            return hashlib.file_digest(stream, "sha256").hexdigest() == file.sha256
    except (OSError, NotOrdinary):
        return False


def published(target: Path, file: CachedFile) -> bool:
    """Whether `target` is a link to the file in the cache, which was looked at just now, or holds the same."""
    try:
        return os.path.samefile(target, file.path) or holds(target, file)
    except OSError:
        return False


def write_whole(path: Path, content: bytes, *, on_disk: bool = True) -> None:
    """Fill a temporary file beside `path`, see it on the disk, and move it there; nothing is left behind on failure."""
    temp = _temporary(path)
    try:
        with temp.open("xb") as stream:
            stream.write(content)
            if on_disk:
                stream.flush()
                os.fsync(stream.fileno())
        temp.replace(path)
    finally:
        temp.unlink(missing_ok=True)


def publish(file: CachedFile, target: Path) -> None:
    """Put a file of the cache at `target` in one step: as a hard link, or a copy where links do not reach."""
    if published(target, file):
        return
    target.parent.mkdir(parents=True, exist_ok=True)
    temp = _temporary(target)
    try:
        temp.hardlink_to(file.path)
        temp.replace(target)
    except OSError:  # another disk, or a file system without links
        write_whole(target, file.path.read_bytes())
    finally:
        temp.unlink(missing_ok=True)


def sweep(store: Path) -> None:
    """Remove the temporary files of processes that died while they wrote."""
    for left in store.glob(".*.tmp"):
        try:
            if time.time() - left.stat().st_mtime > ABANDONED:
                left.unlink()
        except OSError:  # another build sweeps too
            continue


def _temporary(path: Path) -> Path:
    return path.with_name(f".{uuid.uuid4().hex}.tmp")
