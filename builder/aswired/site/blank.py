"""Blank sheets for the bench: one for each kind of change, its fields as lines to write on, to be typed in later."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass

from aswired.car.changes import KINDS
from aswired.record import Change
from aswired.sheets.templates import environment
from aswired.site.theme import theme_dir
from aswired.text.schema import keys_of

AFTER = ("made", "sealed", "tested", "photos", "why", "note")


@dataclass(frozen=True)
class Field:
    """One line of a sheet."""

    key: str
    help: str


@dataclass(frozen=True)
class BlankSheet:
    """The sheet of one kind of change. `needs` says which lines must be filled in."""

    kind: str
    means: str
    needs: str
    fields: tuple[Field, ...]


def blank_sheets() -> tuple[BlankSheet, ...]:
    """A sheet for each kind, in the order of the kinds."""
    keys = {written: key for written, (_, key) in keys_of(Change).items()}
    sheets = []
    for kind in KINDS:
        fields = tuple(Field(name, keys[name].help) for name in ("id", *kind.keys, *AFTER))
        needs = ", ".join(["id", *(" or ".join(group) for group in kind.needs)])
        sheets.append(BlankSheet(kind.name, kind.means, needs, fields))
    return tuple(sheets)


def bench_sheets() -> str:
    """All sheets as one page that holds its own looks, with its seal."""
    page = environment(theme_dir()).get_template("bench_sheets.html").render(kinds=blank_sheets())
    return f"{page}\n<!-- sealed {_seal(page.encode())} -->\n"


def is_untouched(content: bytes) -> bool:
    """Whether a file is a page of sheets as it was written: nothing that somebody typed is in it.

    >>> is_untouched(b"C14 extend W50"), is_untouched(b"<p>mine</p>\\n<!-- sealed 0123456789abcdef -->\\n")
    (False, False)
    """
    found = re.fullmatch(rb"(.*)\n<!-- sealed ([0-9a-f]{64}) -->\n", content, re.DOTALL)
    return found is not None and _seal(found[1]) == found[2].decode()


def _seal(page: bytes) -> str:
    return hashlib.sha256(page).hexdigest()
