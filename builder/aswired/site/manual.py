"""The manual of the package as pages of a shop's site: Markdown, reduced to plain markup, in the site's own frame."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from markdown import Markdown
from markupsafe import Markup

import aswired
from aswired.checks.codes import code
from aswired.sheets.frame import PageOut, ShopFacts, link, shop_page
from aswired.sheets.registry import CODES, MANUAL
from aswired.sheets.search import Entry
from aswired.site.notes import clean

_FOLDER = Path(aswired.__file__).parent / "manual"
_HEADINGS = {name: {"id"} for name in ("h2", "h3")}
_LISTED = re.compile(r"^\| \[[^]]+\]\((\w+)\.md\)", re.MULTILINE)
_CODES = re.compile(r"<(a|code|pre)\b.*?</\1>|<[^>]*>|\b[A-Z]{3}\d\d\b", re.DOTALL)


@dataclass(frozen=True)
class ManualPage:
    """A page: its address from the site's root, its title, its text as safe HTML, and its headings in order, each with
    its anchor, its words and its rank (2 or 3)."""

    uri: str
    title: str
    html: Markup
    headings: tuple[tuple[str, str, int], ...]


@lru_cache(maxsize=1)  # the text is a part of the program: it does not change while that runs
def read() -> tuple[ManualPage, ...]:
    """All pages, the list of them first, then in its order."""
    names = _LISTED.findall((_FOLDER / "index.md").read_text(encoding="utf-8"))
    return tuple(_page(name) for name in ("index", *names))


def _page(name: str) -> ManualPage:
    title, _, text = (_FOLDER / f"{name}.md").read_text(encoding="utf-8").partition("\n")
    uri = f"manual/{name}.html"
    made = Markdown(extensions=["tables", "sane_lists", "fenced_code", "toc"], output_format="html")
    html = clean(made.convert(text), _HEADINGS)
    html = re.sub(r'(<a href="\w+)\.md\b', r"\1.html", html)
    html = _CODES.sub(lambda at: f'<a href="{link(uri, CODES.uri, at[0])}">{at[0]}</a>' if code(at[0]) else at[0], html)
    html = html.replace("<pre>", '<pre tabindex="0">')  # what scrolls is reached by the keyboard
    html = html.replace("<table>", '<div class="scroll" tabindex="0" role="group" aria-label="Table"><table>')
    html = html.replace("</table>", "</table></div>").replace("<th>", '<th scope="col">')
    headings = tuple(
        (token["id"], Markup(token["name"]).unescape(), token["level"])  # noqa: S704  its signs are told as typed
        for outer in made.toc_tokens  # type: ignore[attr-defined]  # the extension sets it
        for token in (outer, *outer["children"])
    )
    return ManualPage(uri, title.removeprefix("# "), Markup(html), headings)  # noqa: S704  cleaned above


def pages(shop: ShopFacts) -> Iterable[PageOut]:
    """Every page of the manual; the owner's edition has none."""
    if shop.private:
        for page in read():
            yield shop_page(page.uri, "manual.html", shop, page.title, page=page, all_pages=read(), start=MANUAL)


def entries() -> tuple[Entry, ...]:
    """The pages and their headings, to be found by their words."""
    return tuple(
        Entry("", words, page.uri, at, "") for page in read() for at, words, _ in (("", page.title, 1), *page.headings)
    )
