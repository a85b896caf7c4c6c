"""Seeded mistakes: small edits of a demo job, each with the findings it has to bring about."""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

JOBS = Path(__file__).resolve().parents[2] / "jobs"


@dataclass(frozen=True)
class Raises:
    """One finding that an edit brings about: its code, its rank and the entry under which it stands."""

    code: str
    rank: str  # stop, error, warning, note
    entry: str


@dataclass(frozen=True)
class Edit:
    """One mistake: `old`, which stands once in `file`, becomes `new`. `why` says it in a mechanic's words."""

    why: str
    file: str
    old: str
    new: str
    raises: tuple[Raises, ...]


def edit(why: str, file: str, old: str, new: str, *raises: str) -> Edit:
    """An edit whose findings are written like `FUS01 error F14`; the entry after the rank may be empty."""
    told = (words.split(" ", 2) for words in raises)
    return Edit(why, file, old, new, tuple(Raises(code, rank, entry) for code, rank, entry in told))


def before(why: str, file: str, anchor: str, added: str, *raises: str) -> Edit:
    """An edit that puts text in front of an anchor; several in front of one anchor keep their order."""
    return edit(why, file, anchor, added + anchor, *raises)


def mistaken(slug: str, edits: Iterable[Edit], folder: Path) -> Path:
    """A shop of one job in `folder`: the demo job with its mistakes. Returns the job's own folder."""
    job = folder / slug
    shutil.copytree(JOBS / slug, job)
    shutil.copy(JOBS / "shop.yml", folder / "shop.yml")
    for change in edits:
        path = job / change.file
        text = path.read_text(encoding="utf-8")
        count = text.count(change.old)
        assert count == 1, f"{slug}/{change.file}: '{change.old}' stands {count} times, not once ({change.why})"
        path.write_text(text.replace(change.old, change.new), encoding="utf-8")
    return job
