"""A new job's folder: there at one moment with all that is in it, and never over another."""

from __future__ import annotations

import errno
import os
import shutil
from pathlib import Path

from aswired.files.writing.together import alone, put


def begin_job(folder: Path, text: str) -> bool:
    """Make a job's folder with its job.yml and an empty photos/; False when something of that name is there already.

    Raises:
        NotWritten: another writer does not come to an end.
        OSError: the disk or a right is wanting; there is no such folder then.
    """
    folder.parent.mkdir(parents=True, exist_ok=True)
    with alone(folder.parent) as desk:
        for made in (desk / "begun", folder.parent / ".aswired-begun"):  # the latter where the jobs lie on another disk
            shutil.rmtree(made, ignore_errors=True)
            if os.path.lexists(folder):
                return False
            try:
                _fill(made, text)
                os.rename(made, folder)
                return True
            except OSError as error:
                if error.errno in (errno.ENOTEMPTY, errno.EEXIST, errno.ENOTDIR):
                    return False
                if error.errno != errno.EXDEV:
                    raise
            finally:
                shutil.rmtree(made, ignore_errors=True)
    raise OSError(errno.EXDEV, os.strerror(errno.EXDEV), str(folder))


def _fill(folder: Path, text: str) -> None:
    os.mkdir(folder)
    os.mkdir(folder / "photos")
    put(folder / "job.yml", text.encode("utf-8"), 0o666)
