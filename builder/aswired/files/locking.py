"""A lock by a file, which a process that has ended, however it ended, no longer holds."""

from __future__ import annotations

import math
import os
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

TRY_AGAIN_S = 0.05
# not through a link: the file would be made, or one locked, wherever it leads
_FLAGS = os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_NOFOLLOW", 0)


class Held(Exception):
    """Another process holds the lock, and this one does not wait any longer."""


@contextmanager
def held(path: Path, waiting: Callable[[], None] = lambda: None, longest_s: float = math.inf) -> Iterator[None]:
    """Hold the lock for as long as the block runs; one process at a time does.

    `waiting` is called once when another process holds it and this one waits. The file is there while somebody holds
    the lock or waits for it; what is in it does not count.

    Raises:
        Held: another process held it for `longest_s` seconds.
        OSError: the file cannot be made, is a link, or the disk knows no locks.
    """
    told = False
    until = time.monotonic() + longest_s
    while True:
        handle = os.open(path, _FLAGS, 0o600)
        try:
            if not _taken(handle):
                if not told:
                    told = True
                    waiting()
                if time.monotonic() > until:
                    raise Held
                time.sleep(TRY_AGAIN_S)
            elif _is_at(handle, path):  # else its last holder took it away, and the next one makes another
                break
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)
    try:
        yield
    finally:
        try:
            path.unlink(missing_ok=True)
        except OSError:
            pass  # Windows keeps a file that is open; an empty file more or less harms nobody
        finally:
            os.close(handle)


def _is_at(handle: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(handle), path.lstat())
    except FileNotFoundError:
        return False


if sys.platform == "win32":
    import msvcrt

    def _taken(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except PermissionError:
            return False
        return True

else:
    import fcntl

    def _taken(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
