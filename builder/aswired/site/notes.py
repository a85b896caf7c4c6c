"""notes.md of a job as HTML that can stand on a page: rendered by Markdown, then reduced to plain markup.

The manual's pages are reduced in the same way.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

import markdown
import nh3
from markupsafe import Markup

from aswired.record import Job
from aswired.sheets.frame import PageOut, sheet_uri

_TAGS = {
    "p", "br", "hr", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "dl", "dt", "dd", "blockquote", "pre",
    "code", "em", "strong", "del", "a", "table", "thead", "tbody", "tr", "th", "td",
}  # fmt: skip
NOTED = ("overview", "worksheet")  # the sheets that show the notes: read on the first, at hand on the last
_ELSEWHERE = re.compile(r"^[\s\x00-\x1f]*(?:[a-zA-Z][a-zA-Z0-9+.-]*:|[/\\])")


@lru_cache(maxsize=2)  # the page shows them, and the search index asks what it shows
def notes_html(text: str) -> Markup:
    """The notes as safe HTML. Headings fall two ranks, below the page's own; links lead inside the site or nowhere."""
    raw = markdown.markdown(text, extensions=["tables", "sane_lists"], output_format="html")
    raw = re.sub(r"(</?h)([1-6])\b", lambda match: f"{match[1]}{min(6, int(match[2]) + 2)}", raw)
    return Markup(clean(raw, {}))  # noqa: S704  cleaned in this line


def clean(html: str, attributes: Mapping[str, set[str]]) -> str:
    """Plain markup alone, its links leading inside the site or nowhere. `attributes`: tag -> what it keeps besides."""
    kept = {"a": {"href"}, **attributes}
    return nh3.clean(html, tags=_TAGS, attributes=kept, attribute_filter=_inside, link_rel=None)


def with_notes(pages: Iterable[PageOut], job: Job) -> Iterator[PageOut]:
    """The pages of a job, those of `NOTED` given its notes: the only text of a job that passes through Markdown."""
    shown = {sheet_uri(job.slug, sheet) for sheet in NOTED}
    notes = notes_html(job.notes) if job.notes else Markup()
    for page in pages:
        if page.uri in shown:
            page = dataclasses.replace(page, context={**page.context, "notes_html": notes})
        yield page


def _inside(tag: str, attribute: str, value: str) -> str | None:
    return None if _ELSEWHERE.match(value) else value
