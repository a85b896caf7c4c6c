"""The job of every key, built twice from one file, and the text that stands on its pages, whole or below an id.

In `job.yml` and `shop.yml` a text `«a|b»` is a in the one build and b in the other, and a line that then says nothing
is left out. Behind `#:` stands what a reader has to see for the key of that line, `page#anchor = words` or the words
alone: then the place is that of the last line `#@ page#anchor`.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

from aswired.files import read_job
from aswired.private import editions
from aswired.record import Job
from aswired.record.limits import TABLE
from aswired.sheets.frame import ShopFacts, frame_of, job_uri
from aswired.sheets.pages import pages_of
from aswired.sheets.templates import environment, render
from aswired.site.notes import with_notes
from aswired.site.theme import theme_dir
from aswired.work import work_out

HERE = Path(__file__).parent
TODAY = datetime.date(2031, 6, 12)
SHOPS_OWN = "trim"  # the limit that shop.yml sets and the job leaves to it
_EITHER = re.compile(r"«([^«»|]*)\|([^«»|]*)»")


@dataclass(frozen=True)
class Wanted:
    """What has to be seen: on which page, below which id ('' for anywhere on it), and the words of both builds."""

    page: str
    anchor: str
    words: tuple[str, str]


def text_of(file: str) -> str:
    """A file as it is kept, with the lines of its limits: each a whole unit above the table's, and two above it."""
    lines = (HERE / file).read_text(encoding="utf-8").splitlines()
    at = lines.index("limits: # set by the test")
    own = [line for line in TABLE if (line.key == SHOPS_OWN) == (file == "shop.yml")]
    for line in reversed(own):
        both = "«{}|{}»".format(*(f"{line.value + more:g} {line.unit}".strip() for more in (1, 2)))
        what = line.what[:1].upper() + line.what[1:]
        lines.insert(at + 1, f"  {line.key}: {both}  #: index = {what} {both}, set for this")
    return "\n".join(lines) + "\n"


def either(text: str, which: int) -> str:
    """The text of one of the builds."""
    return _EITHER.sub(lambda match: match[1 + which], text)


def variant(text: str, which: int) -> str:
    """The file of one build; what is left out keeps its line, so that the lines of both are numbered alike."""
    kept = []
    for line in text.splitlines():
        bare = line.split("  #:")[0]
        said = either(bare, which)
        kept.append("" if said != bare and re.fullmatch(r"\s*[\w -]+:\s*", said) else said)
    return "\n".join(kept) + "\n"


def wanted(text: str) -> dict[int, list[Wanted]]:
    """Line, from 1 -> what has to be seen for the key that stands there."""
    found: dict[int, list[Wanted]] = {}
    place = ""
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip().startswith("#@"):
            place = line.partition("#@")[2].strip()
        for item in line.split("#:")[1:]:
            own = re.fullmatch(r"\s*([\w./#-]+) = (.*)", item.strip())
            page, _, anchor = (own[1] if own else place).partition("#")
            words = (own[2] if own else item).strip()
            found.setdefault(number, []).append(Wanted(page, anchor, (either(words, 0), either(words, 1))))
    return found


def written(folder: Path, which: int) -> Path:
    """The job's folder of one build, shop.yml beside it."""
    job = folder / f"build-{which}" / "many"
    job.mkdir(parents=True, exist_ok=True)
    (job / "job.yml").write_text(variant(text_of("job.yml"), which), encoding="utf-8")
    (job.parent / "shop.yml").write_text(variant(text_of("shop.yml"), which), encoding="utf-8")
    (job / "notes.md").write_text(f"Look under {('its', 'her')[which]} seat.\n", encoding="utf-8")
    return job


def read(folder: Path, which: int) -> Job:
    got = read_job(written(folder, which))
    assert got.job is not None, got.faults
    return got.job


def pages(job: Job, edition: str = "shop") -> dict[str, str]:
    """Page ('circuits/horn') -> its HTML."""
    job = editions.for_edition(job, edition)
    worked, env = work_out(job, TODAY), environment(theme_dir())
    shop = ShopFacts(edition, {}, job.revision, TODAY, "Shop")
    home = job_uri(job.slug, "")
    made = with_notes(pages_of(frame_of(worked, shop)), job)
    return {page.uri.removeprefix(home).removesuffix(".html"): render(env, page) for page in made}


_VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr", "use", "path", "rect"}
_UNSEEN = {"script", "style", "title", "desc"}


@dataclass
class Text(HTMLParser):
    """The text of a page that stands between tags, and which of it stands below each id."""

    pieces: list[str] = field(default_factory=list)
    below: dict[str, tuple[int, int]] = field(default_factory=dict)
    _open: list[tuple[str, str, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in _VOID:
            self._open.append((tag, dict(attrs).get("id") or "", len(self.pieces)))

    def handle_endtag(self, tag: str) -> None:
        while self._open:
            name, id, start = self._open.pop()
            if id:
                self.below[id] = (start, len(self.pieces))
            if name == tag:
                return

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """`<use href="#y"/>` holds nothing."""

    def handle_data(self, data: str) -> None:
        if data.strip() and not any(name in _UNSEEN for name, _, _ in self._open):
            self.pieces.append(data)

    def told(self, anchor: str) -> str | None:
        """The text below an id, of the whole page for ''; None when nothing bears that id."""
        start, end = self.below.get(anchor, (0, -1)) if anchor else (0, len(self.pieces))
        return plain(" ".join(self.pieces[start:end])) if end >= 0 else None


def text_on(html: str) -> Text:
    found = Text()
    found.feed(html)
    return found


def plain(text: str) -> str:
    """Blanks of every kind alike, none before a sign that closes."""
    return re.sub(r" (?=[.,;:)])", "", " ".join(text.split())).replace("( ", "(")


def stands_in(words: str, text: str | None) -> bool:
    """Whether the words stand in a text by themselves: '15 A' does not stand in '115 A'."""
    sides = (r"(?<!\w)" if words[:1].isalnum() else "", r"(?!\w)" if words[-1:].isalnum() else "")
    return text is not None and re.search(sides[0] + re.escape(plain(words)) + sides[1], text) is not None


def each(found: dict[int, list[Wanted]]) -> Iterator[tuple[int, Wanted]]:
    return ((number, item) for number, items in found.items() for item in items)
