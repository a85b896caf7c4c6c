"""What folds of one job have in common: the harness as it stood behind the first rows of earlier folds.

The views of a job, and the cars with other options, begin with the same rows; those are folded once. What stands behind
some rows is found by a number, given to the number of the rows before and the last row together, so that no list is
compared or kept for it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple, TypeVar

from aswired.car.asbuilt.refusals import Refusals
from aswired.car.harness import CutPiece
from aswired.car.loom import HarnessState, Refused, SavePoint, WorkingHarness, ends_named
from aswired.record import Job
from aswired.text.diagnostics import Finding

EACH = 32  # stages kept of one fold at most; what lies between two of them is folded again
APART = 4  # rows between two stages at least: to fold a few rows costs no more than to copy the car for each of them
MOST = 160  # stages kept in all, those used last: a job of a thousand rows stays small in memory
MOST_OUT = 4096  # redone rows of which the pieces are kept, those used last
MOST_NUMBERS = 100_000  # beginnings that are known by number, 20 MB or so; then they are numbered anew

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

    state: HarnessState
    outcomes: tuple[Outcome, ...]
    refused: tuple[tuple[str, Refused], ...]


class StandingMark(NamedTuple):
    """A place to which a standing can go back."""

    state: SavePoint
    outcomes: int
    refused: int


@dataclass
class Standing:
    """The harness behind the first rows of a list, and where it can go back to. One fold at a time works on it."""

    loom: WorkingHarness
    refused: Refusals
    outcomes: list[Outcome] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)  # of the donor's wires, then behind each place of the list
    marks: list[StandingMark | None] = field(default_factory=list)  # as far as it stands; None: it began further on

    def mark(self) -> None:
        """Note this place as the next one."""
        self.marks.append(StandingMark(self.loom.s.mark(), len(self.outcomes), len(self.refused)))

    def go_back(self) -> bool:
        """Go back to the last place that is noted; False where there is none."""
        mark = self.marks[-1] if self.marks else None
        if mark is None:
            return False
        self.loom.s.back_to(mark.state)
        del self.outcomes[mark.outcomes :]
        self.refused.back_to(mark.refused)
        return True

    def stage(self) -> Stage:
        return Stage(self.loom.s.copy(), tuple(self.outcomes), self.refused.items())

    def begin_at(self, stage: Stage, place: int) -> None:
        self.loom.s, self.outcomes = stage.state.copy(), list(stage.outcomes)
        self.refused = Refusals(self.loom.job, stage.refused)
        self.marks = [None] * place
        self.mark()


class FoldCache:
    """The kept stages of a job and where its last fold stands.

    They hold for the same job with other options, or with its last rows left out, too.
    """

    def __init__(self, job: Job) -> None:
        self._job = job
        self._again = any(row.redoes for row in job.changes)  # else every list knows all rows of the file
        self._apart = max(APART, 1 + len(job.changes) // EACH)
        self.standing: Standing | None = None  # of the last fold; the next one goes on from it
        self._numbers: dict[Hashable, int] = {}
        self._last = 0
        self._stages: dict[int, Stage] = {}
        self._out: dict[int, tuple[CutPiece, ...]] = {}

    # ---- numbers -----------------------------------------------------------------------------------------------------
    def donor(self, upto: int) -> int:
        """The donor's wires, those among them that only the first `upto` rows of the file tell of."""
        return self._number((0, bisect_left(self._tell_of_wires, upto) if self._again else 0))

    def behind(self, before: int, row: str, undone: int, upto: int) -> int:
        """One row more, in a list that knows the first `upto` rows of the file.

        `undone` is the list up to the row that this one redoes, or 0. A row that speaks of a later one is another row
        where that is written already.
        """
        if row in self.ahead:
            return self._number((before, row, undone, bisect_left(self.ahead[row], upto)))
        return self._number((before, row, undone) if undone else (before, row))

    def _number(self, rows: Hashable) -> int:
        found = self._numbers.get(rows)
        if found is None:
            if len(self._numbers) >= MOST_NUMBERS:
                self._numbers.clear()  # what is kept under them is not found any more, and is folded again
            self._last += 1
            found = self._numbers[rows] = self._last
        return found

    @cached_property
    def ahead(self) -> Mapping[str, tuple[int, ...]]:
        """Row -> the rows further down that one of its ends speaks of, by their places in the file."""
        if not self._again:
            return {}
        found = {}
        for place, row in enumerate(self._job.changes):
            named = [self._job.place(end.partition("-")[0]) for end in ends_named(row)]
            later = {there for there in named if there is not None and there > place}
            if later and self._job.place(row.id) == place:
                found[row.id] = tuple(sorted(later))
        return found

    @cached_property
    def _tell_of_wires(self) -> tuple[int, ...]:
        changes, wires = self._job.changes, self._job.wires
        return tuple(place for place, row in enumerate(changes) if row.was is not None and row.wire not in wires)

    # ---- what is kept -----------------------------------------------------------------------------------------------
    def stage(self, number: int) -> Stage | None:
        return _used(self._stages, number)

    def keeps(self, count: int) -> bool:
        """Whether a stage is kept behind the first `count` rows of a list."""
        return count % self._apart == 0

    def keep(self, number: int, stage: Stage) -> None:
        _keep(self._stages, number, stage, MOST)

    def out(self, number: int) -> tuple[CutPiece, ...] | None:
        """The pieces that the last row of a list had let in, which came out when it was done again."""
        return _used(self._out, number)

    def keep_out(self, number: int, pieces: tuple[CutPiece, ...]) -> None:
        _keep(self._out, number, pieces, MOST_OUT)


def _used(kept: dict[int, Kept], number: int) -> Kept | None:
    if number not in kept:
        return None
    kept[number] = kept.pop(number)  # now the one used last
    return kept[number]


def _keep(kept: dict[int, Kept], number: int, what: Kept, most: int) -> None:
    kept[number] = what
    if len(kept) > most:
        del kept[next(iter(kept))]
