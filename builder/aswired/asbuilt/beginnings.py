"""What folds of one job have in common: the harness as it stood behind the first rows of earlier folds.

The views of a job, and the cars with other options, begin with the same rows; those are folded once. What stands behind
some rows is found by a name of fixed length made from the name of the rows before and the last row, so that no list is
compared or kept for it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from hashlib import blake2b
from typing import TypeVar

from aswired.diagnostics import Finding
from aswired.harness import CutPiece
from aswired.loom import Refused, State, ends_named
from aswired.model import Job

EACH = 32  # stages kept of one fold; what lies between two of them is folded again
MOST = 160  # stages kept in all, those used last: a job of a thousand rows stays small in memory
MOST_OUT = 4096  # redone rows of which the pieces are kept, those used last

Kept = TypeVar("Kept")


@dataclass(frozen=True)
class Outcome:
    """What became of one row, whatever the view. `finding` is its refusal, told without regard to redone rows."""

    status: str = "in force"
    why: str = ""
    touched_wires: tuple[str, ...] = ()
    moved_with: tuple[str, ...] = ()
    finding: Finding | None = None


@dataclass(frozen=True)
class Stage:
    """The harness behind some rows and what became of each of them. Whoever goes on from it works on a copy."""

    state: State
    outcomes: tuple[Outcome, ...]
    refused: tuple[tuple[str, Refused], ...]


class Beginnings:
    """The kept stages of a job. They hold for the same job with other options, or with its last rows left out, too."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._apart = 1 + len(job.changes) // EACH
        self._stages: dict[bytes, Stage] = {}
        self._out: dict[bytes, tuple[CutPiece, ...]] = {}

    # ---- names ------------------------------------------------------------------------------------------------------
    def donor(self, upto: int) -> bytes:
        """The donor's wires, those among them that only the first `upto` rows of the file tell of."""
        return _named(b"", bisect_left(self._tell_of_wires, upto))

    def behind(self, before: bytes, row: str, undone: bytes, upto: int) -> bytes:
        """One row more, in a list that knows the first `upto` rows of the file.

        `undone` names the list up to the row that this one redoes. A row that speaks of a later one is another row
        where that is written already.
        """
        ahead = self.ahead.get(row, ())
        return _named(before, (row, undone, bisect_left(ahead, upto)) if ahead else (row, undone))

    @cached_property
    def ahead(self) -> Mapping[str, tuple[int, ...]]:
        """Row -> the rows further down that one of its ends speaks of, by their places in the file."""
        if not any(row.redoes for row in self._job.changes):
            return {}  # every list knows all rows
        found = {}
        for place, row in enumerate(self._job.changes):
            named = (self._job.place(end.partition("-")[0]) for end in ends_named(row))
            later = {there for there in named if there is not None and there > place}
            if later and self._job.place(row.id) == place:
                found[row.id] = tuple(sorted(later))
        return found

    @cached_property
    def _tell_of_wires(self) -> tuple[int, ...]:
        changes, wires = self._job.changes, self._job.wires
        return tuple(place for place, row in enumerate(changes) if row.was is not None and row.wire not in wires)

    # ---- what is kept -----------------------------------------------------------------------------------------------
    def stage(self, name: bytes) -> Stage | None:
        return _used(self._stages, name)

    def keeps(self, count: int) -> bool:
        """Whether a stage is kept behind the first `count` rows of a list, whether or not it ends there."""
        return count % self._apart == 0

    def keep(self, name: bytes, stage: Stage) -> None:
        _keep(self._stages, name, stage, MOST)

    def out(self, name: bytes) -> tuple[CutPiece, ...] | None:
        """The pieces that the last row of a list had let in, which came out when it was done again."""
        return _used(self._out, name)

    def keep_out(self, name: bytes, pieces: tuple[CutPiece, ...]) -> None:
        _keep(self._out, name, pieces, MOST_OUT)


def _named(before: bytes, more: object) -> bytes:
    """Sixteen bytes: two lists of a job share a name by chance in 10^-19 of all cases where a car has a million."""
    return blake2b(before + repr(more).encode(), digest_size=16).digest()


def _used(kept: dict[bytes, Kept], name: bytes) -> Kept | None:
    if name not in kept:
        return None
    kept[name] = kept.pop(name)  # now the one used last
    return kept[name]


def _keep(kept: dict[bytes, Kept], name: bytes, what: Kept, most: int) -> None:
    kept[name] = what
    if len(kept) > most:
        del kept[next(iter(kept))]
