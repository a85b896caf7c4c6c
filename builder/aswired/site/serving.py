"""The shop's pages on this machine while somebody writes: made again whenever a file of the jobs changes."""

from __future__ import annotations

import dataclasses
import logging
import os
import stat
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from mkdocs.livereload import LiveReloadServer

from aswired.site.run import build, order_for
from aswired.site.stage import Staged
from aswired.site.theme import theme_dir

HOST = "127.0.0.1"
LOOK_EVERY_S = 0.5


class PortTaken(Exception):
    """Nothing can be served on this port; the words are the system's."""


def serve(jobs_dir: Path, port: int, tell: Callable[[Staged | Exception], None]) -> None:
    """Serve the shop's edition on this machine until interrupted, building again whenever a file changes.

    `tell` hears of each build, good or not; after one that is not, the pages stay as they were.

    Raises:
        PortTaken: something else answers on the port.
        OSError: there is no room for the pages.
    """
    logging.getLogger("mkdocs").setLevel(logging.CRITICAL)  # what it has to say is of no use at the bench
    with _folder_that_goes() as folder:
        order = dataclasses.replace(order_for(jobs_dir, folder / "site", "shop", ""), keep=folder / "kept.json")
        (folder / "site").mkdir()
        (folder / "bell").mkdir()

        def again() -> None:
            try:
                tell(build(order))
            except Exception as error:  # an editor may be halfway through saving; the next save is seen again
                tell(error)

        server = _Server(again, HOST, port, root=str(order.site_dir), polling_interval=LOOK_EVERY_S / 5)
        try:
            before = _seen((order.jobs_dir, theme_dir()))
            again()
            server.watch(str(folder / "bell"))
            with _ringing(folder / "bell" / "rung", (order.jobs_dir, theme_dir()), before):
                server.serve()  # type: ignore[no-untyped-call]
        except KeyboardInterrupt:
            server.shutdown()
        finally:
            server.server_close()


class _Server(LiveReloadServer):
    """Answers only to this machine's own names: a page of another site, to which a browser was led under that site's
    name, gets nothing. And only with what belongs to the pages."""

    def server_bind(self) -> None:
        try:
            super().server_bind()
        except OSError as error:
            raise PortTaken(error.strerror or str(error)) from error

    def serve_request(self, environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        own = {f"{name}:{self.server_port}" for name in (HOST, "localhost")}
        if self.server_port == 80:
            own |= {HOST, "localhost"}
        if environ.get("HTTP_HOST", "").casefold() not in own:
            return _no("403 Forbidden", start_response)
        if environ["REQUEST_METHOD"] not in ("GET", "HEAD"):
            return _no("405 Method Not Allowed", start_response)
        if _odd(environ["PATH_INFO"]):
            return _no("404 Not Found", start_response)
        found: Iterable[bytes] = super().serve_request(environ, start_response)
        return found


def _no(status: str, start_response: Callable[..., Any]) -> list[bytes]:
    start_response(status, [("Content-Type", "text/plain")])
    return [status.encode()]


def _odd(path: str) -> bool:
    """Whether a path can be of no page: it is no text, steers, leads upward, or asks for what a build keeps."""
    try:
        path = path.encode("latin-1").decode("utf-8")
    except UnicodeError:
        return True
    return not path.isprintable() or "\\" in path or any(part.startswith(".") for part in path.split("/"))


@contextmanager
def _folder_that_goes() -> Iterator[Path]:
    """A folder of our own that is removed at the end, also of a process that is killed: another one waits for that."""
    folder = tempfile.mkdtemp(prefix="aswired-")
    remove = "import shutil, sys; sys.stdin.read(); shutil.rmtree(sys.argv[1], ignore_errors=True)"
    command = [sys.executable, "-I", "-S", "-c", remove, folder]
    none = subprocess.DEVNULL
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=none, stderr=none, start_new_session=True):
        yield Path(folder)  # leaving closes its input and waits for it


@contextmanager
def _ringing(bell: Path, folders: tuple[Path, ...], before: frozenset[object]) -> Iterator[None]:
    """Write into the file `bell` whenever something below the folders changes.

    The server watches the bell: its own watch of a folder ends for good when that folder is moved away.
    """
    ended = threading.Event()

    def look() -> None:
        last = before
        while not ended.wait(LOOK_EVERY_S):
            seen = _seen(folders)
            if seen != last:
                last = seen
                bell.write_text(str(os.times().elapsed))

    looking = threading.Thread(target=look, daemon=True)
    looking.start()
    try:
        yield
    finally:
        ended.set()
        looking.join()


def _seen(folders: tuple[Path, ...]) -> frozenset[object]:
    """Every file below the folders with its time and size; hidden ones and what cannot be read are left out."""
    found: set[object] = set()
    entered: set[tuple[int, int]] = set()
    ahead = [str(folder) for folder in folders]
    while ahead:
        try:
            entries = list(os.scandir(ahead.pop()))
        except OSError:
            continue
        for entry in entries:
            try:
                status = entry.stat()
            except OSError:
                continue
            if entry.name.startswith("."):
                continue
            if not stat.S_ISDIR(status.st_mode):
                found.add((entry.path, status.st_mtime_ns, status.st_size))
            elif (status.st_dev, status.st_ino) not in entered:  # a link may lead back
                entered.add((status.st_dev, status.st_ino))
                ahead.append(entry.path)
    return frozenset(found)
