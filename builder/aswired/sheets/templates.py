"""The template engine: what the templates may ask beside their page, and a page as HTML."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterable
from pathlib import Path

import jinja2
from markupsafe import Markup

from aswired.checks.codes import code
from aswired.sheets.findings import around
from aswired.sheets.frame import PageOut, Places, anchor, job_uri, link, sheet_uri
from aswired.sheets.registry import HELP, SHEETS
from aswired.sheets.text import Printed, colour_classes, date, first_upper, is_unsaid
from aswired.text.unsaid import NOT_RECORDED


@functools.cache
def environment(theme_dir: Path, compiled: Path | None = None) -> jinja2.Environment:
    """The template engine: text is escaped, a missing name is an error, no blank lines from block tags.

    It is made once for a theme, because compiling a template takes longer than filling it in; a template that changed
    on the disk is compiled again. `compiled` is the folder that keeps what was compiled for the next run."""
    env = jinja2.Environment(
        loader=jinja2.FileSystemLoader(theme_dir),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        optimized=False,  # the templates hold no sums to do beforehand; looking for them takes a tenth of compiling
        bytecode_cache=jinja2.FileSystemBytecodeCache(str(compiled)) if compiled else None,
    )
    env.filters.update(anchor=anchor, css_string=css_string, data_figure=data_figure, day=date, first_upper=first_upper)
    env.globals.update(
        sheets=SHEETS, colour_classes=colour_classes, job_uri=job_uri, sheet_uri=sheet_uri, code_says=code_says
    )
    env.globals.update(around=around, help_pages=HELP, not_recorded=NOT_RECORDED)
    env.tests.update(unsaid=is_unsaid)
    return env


def code_says(name: str) -> str:
    """The line of a code, '' for a word that is none."""
    help = code(name)
    return help.says if help else ""


def render(env: jinja2.Environment, page: PageOut) -> str:
    """The page as HTML."""
    places: Places = page.context["places"]

    def url(to: str, anchor: str = "") -> str:
        return link(page.uri, to, anchor)

    def href(id: str) -> str:
        """Where an id leads from this page; '' when it is shown nowhere."""
        return url(*places[id]) if id in places else ""

    helpers: dict[str, str | Callable[..., str]] = {"here": page.uri, "url": url, "href": href}
    return env.get_template(page.template).render({**page.context, **helpers})


def data_figure(shown: str | Iterable[str]) -> Markup:
    """The attribute that names the figures which a text or several show (`sheets.text.Printed`), '' where none."""
    texts = [shown] if isinstance(shown, str) else shown
    keys = [key for text in texts if isinstance(text, Printed) for key in text.figures]
    return Markup(' data-figure="') + "|".join(dict.fromkeys(keys)) + Markup('"') if keys else Markup()


def css_string(text: str) -> Markup:
    """A text as a CSS string that can stand in <style>: everything but letters, digits and blanks is written as its
    number, so that no job's title can end the string or the element."""
    safe = re.sub(r"[^A-Za-z0-9 ]", lambda match: f"\\{ord(match[0]):x} ", text)
    return Markup(f'"{safe}"')  # noqa: S704  nothing that HTML or CSS reads as its own is left in `safe`
