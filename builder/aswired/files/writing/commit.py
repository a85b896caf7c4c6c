"""Edits of a job carried out: read back before a file is touched, and nothing at all if the job is another by now."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from aswired.files import SHOP, job_files, read_job
from aswired.files.writing.document import Document, NotWritten
from aswired.files.writing.edits import Edit, applied
from aswired.files.writing.together import Swap, alone, replace_together
from aswired.record import Job

_AGAIN = "Run it again."


def commit(
    job: Job, files: Sequence[Document], edits: Sequence[Edit], meant: Job, spoilt: Callable[[], str] = str
) -> tuple[Path, ...]:
    """Make edits in a job's files, in all of them or in none.

    Args:
        job: as read from its folder, with the texts that the edits were made for.
        edits: the files change in the order of their first edits. Put first what the others name: whoever reads the
            job while one file is new and the next is not then finds a name that nothing uses, and no fault.
        meant: the job that the new texts have to read back as.
        spoilt: asked when no other writer can come between: why it must not be written after all; '' if it may.

    Returns:
        The files that were changed.

    Raises:
        NotWritten: the new texts are not what was meant, or a file was changed since it was read. Nothing was changed.
        OSError: the disk or a right is wanting. Nothing was changed.
        Unfinished: so it is, and what was changed could not be taken back; the next writer does that.
    """
    folder = _as_it_was(job)
    changed = applied(files, edits)
    order = [name for name in dict.fromkeys(edit.file for edit in edits) if name in changed]
    _read_back(folder, job, changed, meant)
    if not changed:
        return ()
    home = folder.absolute().parent.resolve() / folder.absolute().name
    for name in order:
        _may_be_replaced(folder / name)
    with alone(folder.parent) as desk:
        _as_it_was(job)
        if why := spoilt():
            raise NotWritten(f"{why} {_AGAIN}")
        others = [file.name for file in files if file.name not in changed]
        swaps = [Swap(home / name, job.texts[name], changed.get(name, job.texts[name])) for name in (*order, *others)]
        if not replace_together(desk, swaps):
            raise NotWritten(f"A file was changed meanwhile. {_AGAIN}")
    return tuple(folder / file.name for file in files if file.name in changed)


def _read_back(folder: Path, job: Job, changed: Mapping[str, bytes], meant: Job) -> None:
    """Read the job as it would be, from texts in memory.

    Raises:
        NotWritten: it has a fault, or it is another job than meant.
    """
    got = read_job(folder, {**job.texts, **changed})
    if got.job is None:
        raise NotWritten(f"The new text would have a fault: {got.faults[0].problem} ({got.faults[0].at}).")
    if got.job != meant:
        raise NotWritten("The new text would not read back as what is meant, so it has to be written by hand.")


def _as_it_was(job: Job) -> Path:
    """The job's folder, once every file of it, and the shop's, was compared with what was read.

    Raises:
        NotWritten: one was changed, came or went.
    """
    if job.folder is None:
        raise NotWritten("The job was not read from a folder.")
    now = {path.name: path for path in (*job_files(job.folder), job.folder.parent / SHOP) if path.is_file()}
    for name in sorted(now.keys() | job.texts.keys()):
        if name not in now or name not in job.texts or now[name].read_bytes() != job.texts[name]:
            raise NotWritten(f"{name} was changed meanwhile. {_AGAIN}")
    return job.folder


def _may_be_replaced(path: Path) -> None:
    """Refuse a file that its owner protected, or that lies where nothing can be written: a rename would not ask."""
    whole = path.resolve()
    if not whole.stat().st_mode & 0o222 or not os.access(whole, os.W_OK):
        raise NotWritten(f"{path.name} is read-only.")
    if not os.access(whole.parent, os.W_OK):
        raise NotWritten(f"The folder {whole.parent} is read-only.")
