"""Every code that a run can tell, with one help text each: the command, the site and the manual say the same.

One module a subject; a finding or a fault whose code is not here fails a test.
"""

from __future__ import annotations

from aswired.checks.codes import (
    bundles,
    colours,
    ends,
    files,
    fuses,
    grounds,
    header,
    lengths,
    loads,
    names,
    options,
    photos,
    places,
    process,
    relays,
    rows,
    sizes,
    special,
    splices,
)
from aswired.checks.codes.code import FAULT, Code, Unjudged
from aswired.checks.codes.unjudged import UNJUDGED
from aswired.text.diagnostics import near

__all__ = ["ALL", "FAULT", "SUBJECTS", "UNJUDGED", "Code", "Unjudged", "code", "near_codes"]

SUBJECTS: tuple[tuple[str, tuple[Code, ...]], ...] = (
    ("Cut ends", ends.CODES),
    ("Loads", loads.CODES),
    ("Fuses and relays", (*fuses.CODES, *relays.CODES)),
    ("Options", options.CODES),
    ("Splices", splices.CODES),
    ("Places", places.CODES),
    ("Colours", colours.CODES),
    ("Sizes, terminals and insulation", sizes.CODES),
    ("Lengths and offcuts", lengths.CODES),
    ("The order of the work", process.CODES),
    ("Photographs", photos.CODES),
    ("The change list", rows.CODES),
    ("Names", names.CODES),
    ("Bundles", bundles.CODES),
    ("Grounds", grounds.CODES),
    ("Special wires and systems", special.CODES),
    ("The header", header.CODES),
    ("The files", files.CODES),
)
ALL: tuple[Code, ...] = tuple(code for _, codes in SUBJECTS for code in codes)

_BY_CODE = {found.code: found for found in ALL}


def code(name: str) -> Code | None:
    """The help of one code, in whichever case it is typed."""
    return _BY_CODE.get(name.upper())


def near_codes(name: str) -> tuple[str, ...]:
    """Codes that `name` may be a slip for: those spelt alike, else all that begin with its letters.

    >>> near_codes("ROW99"), near_codes("KEY1"), near_codes("fil")
    (('ROW09',), ('KEY01',), ('FIL01', 'FIL02', 'FIL03', 'FIL04'))
    """
    letters = name[:3].upper()
    return near(name, _BY_CODE, len(_BY_CODE)) or tuple(known for known in _BY_CODE if known.startswith(letters))
