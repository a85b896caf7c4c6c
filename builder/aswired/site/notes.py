"""notes.md of a job as HTML that can stand on a page: rendered by Markdown, then reduced to plain markup."""

from __future__ import annotations

import re
from functools import lru_cache

import markdown
import nh3
from markupsafe import Markup

_TAGS = {
    "p", "br", "hr", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "dl", "dt", "dd", "blockquote", "pre",
    "code", "em", "strong", "del", "a", "table", "thead", "tbody", "tr", "th", "td",
}  # fmt: skip
_ELSEWHERE = re.compile(r"^[\s\x00-\x1f]*(?:[a-zA-Z][a-zA-Z0-9+.-]*:|[/\\])")


@lru_cache(maxsize=2)  # the page shows them, and the search index asks what it shows
def notes_html(text: str) -> Markup:
    """The notes as safe HTML. Headings fall two ranks, below the page's own; links lead inside the site or nowhere."""
    raw = markdown.markdown(text, extensions=["tables", "sane_lists"], output_format="html")
    raw = re.sub(r"(</?h)([1-6])\b", lambda match: f"{match[1]}{min(6, int(match[2]) + 2)}", raw)
    clean = nh3.clean(raw, tags=_TAGS, attributes={"a": {"href"}}, attribute_filter=_inside, link_rel=None)
    return Markup(clean)  # noqa: S704  cleaned in the line above


def _inside(tag: str, attribute: str, value: str) -> str | None:
    return None if _ELSEWHERE.match(value) else value
