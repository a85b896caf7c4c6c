"""Where the looks lie, and a mark of everything that decides what a page looks like."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import aswired

_PACKAGE = Path(aswired.__file__).parent
ASSETS = ("css", "js", "fonts", "img")


def theme_dir() -> Path:
    """The templates, style sheets and scripts: beside `builder/` in a source tree, inside the package when installed.

    Raises:
        FileNotFoundError: neither is there; the installation is not whole.
    """
    for folder in (_PACKAGE.parent.parent / "site_theme", _PACKAGE / "theme"):
        if (folder / "base.html").is_file():
            return folder
    raise FileNotFoundError(f"the site's templates are missing beside {_PACKAGE}; install aswired again")


def assets(folder: Path) -> Iterator[tuple[str, Path]]:
    """Address from the site's root and file, of everything in the theme that goes out as it is."""
    for kind in ASSETS:
        for path in sorted((folder / kind).rglob("*")):
            if path.is_file() and not path.name.startswith("."):
                yield "assets/" + path.relative_to(folder).as_posix(), path


def makers_mark(folder: Path) -> str:
    """A hash of the theme and of the program: when it changes, every page is made again."""
    return _mark_of(_stamps(folder) + _stamps(_PACKAGE))


@lru_cache(maxsize=4)
def _mark_of(stamps: tuple[tuple[str, int, int], ...]) -> str:
    digest = hashlib.sha256(aswired.__version__.encode())
    for path, _, _ in stamps:
        digest.update(path.encode() + b"\0" + Path(path).read_bytes() + b"\0")
    return digest.hexdigest()


def _stamps(folder: Path) -> tuple[tuple[str, int, int], ...]:
    """Every file that counts, with time and size: what is asked again while serving, without reading all of it."""
    found = []
    for path in sorted(folder.rglob("*")):
        if path.is_file() and path.suffix in (".py", ".yml", ".md", ".html", ".css", ".js", ".svg", ".woff2"):
            stat = path.stat()
            found.append((str(path), stat.st_mtime_ns, stat.st_size))
    return tuple(found)
