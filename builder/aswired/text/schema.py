"""How a job file's fields are declared: one declaration gives reading, checking, the reference text and public/private.

A record is a frozen dataclass derived from `Located` whose attributes are made with `keyed(...)`. `text/bind.py` walks
a YAML node against it; `reference.py` prints it for people.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from aswired.text.diagnostics import Location

NOWHERE = Location("job.yml")


@dataclass(frozen=True, kw_only=True)
class Located:
    """Base of every record read from a job file: where it stands, and where each of its keys stands."""

    at: Location = dataclasses.field(default=NOWHERE, compare=False, repr=False)
    lines: Mapping[str, Location] = dataclasses.field(default_factory=dict, compare=False, repr=False)

    def line_of(self, key: str) -> Location:
        """The line of one key, or of the record when the key was not written."""
        return self.lines.get(key, self.at)


@dataclass(frozen=True)
class Scalar:
    """A single text value. `read(text, letters)` returns the stored value or raises `units.QuantityError`."""

    name: str  # what it is called in messages and in the reference
    how: str  # how it is written
    read: Callable[[str, Mapping[str, str]], Any]
    by_loom: bool = False  # colours are read by the letters of the record's own harness; a piece by the shop's


@dataclass(frozen=True)
class Choice:
    """One word of a closed list."""

    name: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Many:
    """A list; a single value counts as a list of one."""

    item: Value


@dataclass(frozen=True)
class Named:
    """Names, each with a value: `{F7: ..., F8: ...}`. `what` is what the name names."""

    item: Value
    what: str


@dataclass(frozen=True)
class Record:
    """Keys with values, as declared by the dataclass `of`; `short` also allows one line of text instead."""

    of: type[Located]
    short: Scalar | None = None
    expand: Callable[[Any], dict[str, Any]] | None = None  # value of the short form -> attributes of the record


@dataclass(frozen=True)
class Depends:
    """A value whose form depends on another key of the same record: `wires:` on the kind of change."""

    on: str
    cases: Mapping[str, Value]
    otherwise: Value


Value = Scalar | Choice | Many | Named | Record | Depends


@dataclass(frozen=True)
class Key:
    """The declaration of one key of a record."""

    key: str
    value: Value
    help: str
    example: str
    required: bool
    private: bool


_MARK = "aswired"


def keyed(
    value: Value,
    help: str,
    *,
    example: str = "",
    key: str = "",
    default: Any = None,
    required: bool = False,
    private: bool = False,
) -> Any:
    """A dataclass field that is a key of the job file. The key is the attribute's name with blanks unless given."""
    declared = Key(key, value, help, example, required, private)
    if isinstance(value, Named) and default is None:
        return dataclasses.field(default_factory=dict, metadata={_MARK: declared})
    if isinstance(value, Many) and default is None:
        default = ()
    return dataclasses.field(default=default, metadata={_MARK: declared})


def keys_of(record: type[Located]) -> dict[str, tuple[str, Key]]:
    """Key as written -> (attribute name, declaration), in the order of declaration."""
    if record not in _KEYS:
        _KEYS[record] = _collect(record)
    return _KEYS[record]


_KEYS: dict[type[Located], dict[str, tuple[str, Key]]] = {}


def _collect(record: type[Located]) -> dict[str, tuple[str, Key]]:
    found: dict[str, tuple[str, Key]] = {}
    for spec in dataclasses.fields(record):
        declared = spec.metadata.get(_MARK)
        if declared is not None:
            key = declared.key or spec.name.rstrip("_").replace("_", " ")
            found[key] = (spec.name, dataclasses.replace(declared, key=key))
    return found
