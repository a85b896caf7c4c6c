"""Put a finished file in its place in one step, so that nobody ever sees half of it."""

import os
import shutil
import threading
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO


def write_whole(path: Path, write: Callable[[BinaryIO], None]) -> None:
    """Let `write` fill a temporary file beside `path`, then move it there; nothing is left behind on failure."""
    temp = path.with_name(f".{path.name}.{os.getpid()}.{threading.get_ident()}.tmp")
    try:
        with temp.open("wb") as stream:
            write(stream)
        temp.replace(path)
    finally:
        temp.unlink(missing_ok=True)


def publish(source: Path, target: Path) -> None:
    """Hard link `source` to `target`, or copy where links do not reach; a target that is there is left alone.

    Safe only for names that hold a hash of what made the content.
    """
    if target.exists():
        return
    try:
        target.hardlink_to(source)
    except FileExistsError:
        return
    except OSError:  # another disk, or a file system without links

        def copy(stream: BinaryIO) -> None:
            with source.open("rb") as original:
                shutil.copyfileobj(original, stream)

        write_whole(target, copy)
