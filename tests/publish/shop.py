"""A small shop for tests of what a build does to the folder that its site lies in."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

from aswired.files.skeleton import job_yml
from aswired.site import run
from aswired.site.publish import HOME
from aswired.site.stage import BuildOrder, Staged
from tests.crawl.tree import parse

REFERS = ("href", "src", "action")


def add_job(shop: Path, name: str, extra: str = "") -> Path:
    """A job like the one `aswired new` writes, its files old enough to be trusted by their time."""
    folder = shop / "jobs" / name
    folder.mkdir(parents=True)
    (folder / "job.yml").write_text(job_yml(name) + extra)
    then = (folder / "job.yml").stat().st_mtime - 60
    os.utime(folder / "job.yml", (then, then))
    return folder


def edit(shop: Path, name: str, before: str, after: str) -> None:
    source = shop / "jobs" / name / "job.yml"
    text = source.read_text()
    assert before in text
    source.write_text(text.replace(before, after))


def order(shop: Path, out: str = "site", edition: str = "shop", job: str = "") -> BuildOrder:
    return run.order_for(shop / "jobs", shop / out, edition, job, shown=out)


def build(shop: Path, out: str = "site", edition: str = "shop", job: str = "") -> Staged:
    return run.build(order(shop, out, edition, job))


def at_change(moment: int, shop: Path, call: Callable[[], None], *, lasting: bool = False) -> None:
    """From now on call `call` before the `moment`-th change of the disk below the shop (from 1); lasting: and before
    all behind it.

    For a process of its own: what the interpreter is asked to tell of cannot be taken back.
    """
    seen = 0

    def hook(event: str, args: tuple[object, ...]) -> None:
        nonlocal seen
        if event == "open":
            counts = isinstance(args[2], int) and bool(args[2] & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
        else:
            counts = event in ("os.rename", "os.remove", "os.rmdir", "os.mkdir", "os.link", "os.truncate")
        if counts and isinstance(args[0], str | os.PathLike) and str(shop) in os.path.abspath(args[0]):
            seen += 1
            if seen == moment or (lasting and seen > moment):
                call()

    sys.addaudithook(hook)


def in_a_process(work: Callable[[], int]) -> int:
    """The exit code of a process that does `work` and ends with what it gives; 99 for an exception."""
    return at_once(work)[0]


def at_once(*works: Callable[[], int]) -> list[int]:
    """As `in_a_process`, of several processes that are begun together."""
    children = []
    for work in works:
        child = os.fork()
        if child == 0:
            code = 99
            try:
                code = work()
            finally:
                os._exit(code)
        children.append(child)
    return [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]


def site_files(site: Path) -> dict[str, bytes]:
    """The files of a site, without what the build keeps for itself."""
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in site.rglob("*")
        if path.is_file() and HOME not in path.relative_to(site).parts
    }


def everything(folder: Path) -> dict[str, tuple[int, int, bytes]]:
    """All that lies in a folder, with time and number of each, so that nothing can be exchanged unseen.

    The folder that a build keeps for itself has a new time whenever its lock was held.
    """
    return {
        path.relative_to(folder).as_posix(): (
            path.lstat().st_mtime_ns,
            path.lstat().st_ino,
            path.read_bytes() if path.is_file() else b"",
        )
        for path in folder.rglob("*")
        if path.name != HOME
    }


def broken_links(site: Path) -> list[str]:
    """What is wrong for a reader who begins at the start page and follows every link that leads to a file."""
    if not (site / "index.html").is_file():
        return ["there is no start page"]
    found, reached, ahead = [], set[str](), ["index.html"]
    while ahead:
        uri = ahead.pop()
        if uri in reached:
            continue
        reached.add(uri)
        for reference in _references((site / uri).read_bytes()):
            path = urlsplit(reference).path
            if not path:
                continue
            target = os.path.normpath(os.path.join(os.path.dirname(uri), unquote(path)))
            if not (site / target).is_file():
                found.append(f"{uri} leads to {target}")
            elif target.endswith(".html"):
                ahead.append(target)
    return found


@cache  # most pages are the same from one moment to the next
def _references(content: bytes) -> tuple[str, ...]:
    page = parse(content.decode())
    return tuple(element.attributes[name] for element in page.all() for name in REFERS if name in element.attributes)
