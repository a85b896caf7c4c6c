"""Every code that a run can tell, with one help text each: the command, the site and README say the same words.

One module a subject; a finding or a fault whose code is not here fails a test.
"""

from __future__ import annotations

from aswired.codes.code import FAULT, Code, Unjudged

__all__ = ["ALL", "FAULT", "UNJUDGED", "Code", "Unjudged", "code"]

SUBJECTS: tuple[tuple[str, tuple[Code, ...]], ...] = ()
UNJUDGED: tuple[Unjudged, ...] = ()
ALL: tuple[Code, ...] = tuple(code for _, codes in SUBJECTS for code in codes)

_BY_CODE = {found.code: found for found in ALL}


def code(name: str) -> Code | None:
    """The help of one code, in whichever case it is typed."""
    return _BY_CODE.get(name.upper())
