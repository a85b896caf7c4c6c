"""Blank sheets for the bench: one for each kind of change, its fields as lines to write on, to be typed in later."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.changes import KINDS
from aswired.model import Change
from aswired.pages.frame import environment
from aswired.schema import keys_of
from aswired.site.theme import theme_dir

AFTER = ("made", "sealed", "tested", "photos", "why", "note")


@dataclass(frozen=True)
class Field:
    """One line of a sheet."""

    key: str
    help: str


@dataclass(frozen=True)
class Sheet:
    """The sheet of one kind of change. `needs` says which lines must be filled in."""

    kind: str
    means: str
    needs: str
    fields: tuple[Field, ...]


def blank_sheets() -> tuple[Sheet, ...]:
    """A sheet for each kind, in the order of the kinds."""
    keys = {written: key for written, (_, key) in keys_of(Change).items()}
    sheets = []
    for kind in KINDS:
        fields = tuple(Field(name, keys[name].help) for name in ("id", *kind.KEYS, *AFTER))
        needs = ", ".join(["id", *(" or ".join(group) for group in kind.NEEDS)])
        sheets.append(Sheet(kind.NAME, kind.MEANS, needs, fields))
    return tuple(sheets)


def bench_sheets() -> str:
    """All sheets as one page that holds its own looks."""
    return environment(theme_dir()).get_template("bench_sheets.html").render(kinds=blank_sheets())
