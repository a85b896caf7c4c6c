"""What is said about one code."""

from __future__ import annotations

from dataclasses import dataclass

FAULT = "fault"  # a file that cannot be understood; every other rank is one of a finding


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
