"""Every code that a run can tell, with one help text each: the command, the site and the manual say the same.

The texts lie beside this module, a file a subject, and are read when they are first asked for. The ranks of a code are
those of its rule; a code without one is told of a file. A rule without help, and help without a rule, fail a test.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from aswired.text.diagnostics import RULES, near

FAULT = "fault"  # a file that cannot be understood; every other rank is one of a finding
# In the order in which they are listed.
FILES = (
    *("ends", "loads", "fuses", "options", "splices", "places", "colours", "sizes", "lengths", "process", "photos"),
    *("rows", "names", "bundles", "grounds", "special", "header", "files"),
)
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the C parser is faster where it is built in


@dataclass(frozen=True)
class Code:
    """One code and its help.

    `ranks` are its severities, heaviest first, or `FAULT`. `says` is one line. `example` are the lines of a job file
    that raise it, `instead` the lines that do not. `limits` names the thresholds it is held to.
    """

    code: str
    ranks: tuple[str, ...]
    says: str
    means: str
    why: str
    example: str
    instead: str
    limits: tuple[str, ...] = ()


@dataclass(frozen=True)
class Unjudged:
    """Something a person should look at that no record can carry, and why the program does not judge it."""

    what: str
    why: str


def subjects() -> tuple[tuple[str, tuple[Code, ...]], ...]:
    """Every subject with its codes."""
    return tuple(_subject(name) for name in FILES)


@cache
def unjudged() -> tuple[Unjudged, ...]:
    """What a person should look at that the program does not judge."""
    return tuple(Unjudged(**item) for item in yaml.load(_text("unjudged"), _LOADER))  # noqa: S506 (safe)


def all_codes() -> tuple[Code, ...]:
    """Every code, in the order of the subjects."""
    return tuple(_by_code().values())


@cache
def code(name: str) -> Code | None:
    """The help of one code, in whichever case it is typed. Only files that speak of it are taken apart."""
    wanted = name.upper()
    read = (_subject(file)[1] for file in FILES if wanted in _text(file))
    return next((help for codes in read for help in codes if help.code == wanted), None)


def near_codes(name: str) -> tuple[str, ...]:
    """Codes that `name` may be a slip for: those spelt alike, else all that begin with its letters.

    >>> near_codes("ROW99"), near_codes("KEY1"), near_codes("fil")
    (('ROW09',), ('KEY01',), ('FIL01', 'FIL02', 'FIL03', 'FIL04'))
    """
    letters, known = name[:3].upper(), _by_code()
    return near(name, known, len(known)) or tuple(one for one in known if one.startswith(letters))


@cache
def _by_code() -> dict[str, Code]:
    return {help.code: help for _, codes in subjects() for help in codes}


@cache
def _subject(name: str) -> tuple[str, tuple[Code, ...]]:
    read = yaml.load(_text(name), _LOADER)  # noqa: S506 (either of the two is the safe one)
    return read["subject"], tuple(_code(**help) for help in read["codes"])


@cache
def _text(name: str) -> str:
    return (Path(__file__).parent / f"{name}.yml").read_text(encoding="utf-8")


def _code(code: str, limits: list[str] | tuple[str, ...] = (), **texts: str) -> Code:
    ranks = tuple(rank.word for rank in RULES[code].ranks) if code in RULES else (FAULT,)
    return Code(code, ranks, limits=tuple(limits), **texts)
