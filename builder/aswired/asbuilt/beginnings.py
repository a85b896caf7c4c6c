"""What folds of one job have in common: the harness as it stood behind the first rows of earlier folds.

The views of a job, and the cars with other options, begin with the same rows; those are folded once.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass

from aswired.diagnostics import Finding
from aswired.loom import Refused, State
from aswired.model import Job

EACH = 32  # stages kept of one fold; what lies between two of them is folded again
MOST = 160  # stages kept in all, those used last: a job of a thousand rows stays small in memory

Rows = tuple[Hashable, ...]  # the donor's wires and the rows over them, by what tells them from others of the same job


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
        self._apart = 1 + len(job.changes) // EACH
        self._stages: dict[Rows, Stage] = {}

    def longest(self, rows: Rows) -> Stage | None:
        """The kept stage behind the most of these rows."""
        for count in range(len(rows), 0, -1):
            if self.keeps(rows, count) and rows[:count] in self._stages:
                stage = self._stages.pop(rows[:count])
                self._stages[rows[:count]] = stage  # now the one used last
                return stage
        return None

    def keeps(self, rows: Rows, count: int) -> bool:
        """Whether a stage is kept behind the first `count` of the rows; always so behind the last."""
        return count == len(rows) or count % self._apart == 0

    def keep(self, rows: Rows, count: int, stage: Stage) -> None:
        self._stages[rows[:count]] = stage
        if len(self._stages) > MOST:
            del self._stages[next(iter(self._stages))]
