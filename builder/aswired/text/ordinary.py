"""Open ordinary files and nothing else: no pipe is waited for, no device is read, no link is followed out of a folder.

A job folder comes from anywhere: a stick, an archive, a share. What lies in it may call itself job.yml and be a pipe.
"""

from __future__ import annotations

import os
import stat
from io import FileIO
from pathlib import Path

_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
    (stat.S_ISCHR, "a device"),
    (stat.S_ISBLK, "a device"),
)


class NotOrdinary(Exception):
    """What stands under a name is no file that can be read from beginning to end: `what` says what it is."""

    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


class TooLarge(Exception):
    """A file has more bytes than whoever reads it can use."""


def read_ordinary(path: Path, most: int) -> bytes:
    """The content of an ordinary file of at most `most` bytes.

    Raises:
        TooLarge, and what `open_ordinary` raises.
    """
    with open_ordinary(path) as stream:
        if os.fstat(stream.fileno()).st_size > most:
            raise TooLarge
        return stream.read()


def open_ordinary(path: Path) -> FileIO:
    """An ordinary file, open for reading; never waits.

    Raises:
        NotOrdinary: a folder, a pipe, a socket or a device.
        OSError: it is not there or may not be read.
    """
    _refuse(os.stat(path).st_mode)  # before it is opened: opening is enough to set some devices going
    stream = FileIO(path, opener=_at_once)
    try:
        _refuse(os.fstat(stream.fileno()).st_mode)  # what was there a moment ago may be something else by now
    except BaseException:
        stream.close()
        raise
    return stream


def _at_once(path: str, flags: int) -> int:
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))  # a pipe without a writer opens at once


def _refuse(mode: int) -> None:
    if not stat.S_ISREG(mode):
        raise NotOrdinary(next((words for is_one, words in _KINDS if is_one(mode)), "not an ordinary file"))


def link_trouble(path: Path) -> str:
    """What is wrong with a file that is a link, '' when it is none or stays in its folder. The folder itself may be a
    link: a shop may keep a job on another disk.

    Returns:
        Words that follow the file's name, such as 'is a link that leads outside its folder'.
    """
    if not os.path.islink(path):
        return ""
    try:
        os.stat(path)
    except FileNotFoundError:
        return "is a link that leads to nothing"
    except OSError:
        return "is a link that leads back to itself, or where nothing may be read"
    if stays_in(path, path.parent):
        return ""
    return "is a link that leads outside its folder"


def stays_in(path: Path, folder: Path) -> bool:
    """Whether a path, with every link on its way followed, lies in a folder."""
    return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))
