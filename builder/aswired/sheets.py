"""Blank sheets for the bench: one for each kind of change, its fields as lines to write on, to be typed in later."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.changes import KINDS
from aswired.model import Change
from aswired.pages.frame import environment
from aswired.reference import how
from aswired.schema import Key, keys_of
from aswired.site.theme import theme_dir

EVERY_ROW = ("id", "made", "sealed", "tested", "photos", "why", "note")


@dataclass(frozen=True)
class Field:
    """One line of a sheet."""

    key: str
    help: str
    how: str
    needed: bool


@dataclass(frozen=True)
class Sheet:
    """The sheet of one kind of change."""

    kind: str
    means: str
    fields: tuple[Field, ...]
    common: tuple[Field, ...]


def blank_sheets() -> tuple[Sheet, ...]:
    """A sheet for each kind, in the order of the kinds."""
    keys = {written: key for written, (_, key) in keys_of(Change).items()}
    common = tuple(_field(keys[name], name == "id") for name in EVERY_ROW)
    sheets = []
    for kind in KINDS:
        needed = {name for group in kind.NEEDS for name in group}
        fields = tuple(_field(keys[name], name in needed) for name in kind.KEYS)
        sheets.append(Sheet(kind.NAME, kind.MEANS, fields, common))
    return tuple(sheets)


def bench_sheets() -> str:
    """All sheets as one page that holds its own looks."""
    return environment(theme_dir()).get_template("bench_sheets.html").render(kinds=blank_sheets())


def _field(key: Key, needed: bool) -> Field:
    return Field(key.key, key.help, how(key.value), needed)
