"""The list of rows that a view folds, and the lists as they were up to each row that was done again (F13, F14)."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from aswired.car.asbuilt.order import RowOrder, order
from aswired.record import Change, Job


@dataclass(frozen=True)
class Rows:
    """Rows to fold, in order; None where a row stood that does not count any more. To be read before the next one."""

    rows: Sequence[Change | None]
    end: int  # so many of them are folded
    same: int  # so many are those of the list before, each knowing the same rows of the file
    redone: Mapping[str, str]
    upto: int  # so many rows of the file are known


def lists(
    job: Job, view: str, day: datetime.date | None, whole: RowOrder, ahead: Mapping[str, tuple[int, ...]]
) -> Iterator[tuple[str, Rows | None]]:
    """Each row that was done again, from the top of the file, with the list up to it; at last '' with all rows.

    None: such a row did not count when it was written. `ahead`: row -> places of later rows that it speaks of. What two
    lists one behind the other differ in is told in time that goes with the rows that are not the same. Rows whose
    pointers cannot be followed from the top of the file to its end cost a reading of all rows for each list.
    """
    again = sorted(_redone_places(job, whole))
    if not again:
        yield "", Rows(whole.rows, len(whole.rows), 0, whole.redone, len(job.changes))
        return
    reader = _Reader(job, view, day, whole, ahead)
    for place in again:
        yield job.changes[place].id, reader.upto(place)
    yield "", reader.all()


def _redone_places(job: Job, whole: RowOrder) -> set[int]:
    found = set()
    for row in whole.counting:
        if not row.redoes:
            continue
        place, own = job.place(row.redoes), job.place(row.id)
        if place is not None and own is not None and place < own:
            found.add(place)
    return found


class _Reader:
    """Reads the file from the top and holds the list as it is at each row, by the places of the file."""

    def __init__(
        self,
        job: Job,
        view: str,
        day: datetime.date | None,
        whole: RowOrder,
        ahead: Mapping[str, tuple[int, ...]],
    ) -> None:
        self._job, self._view, self._day, self._whole = job, view, day, whole
        self._counting = {row.id for row in whole.counting}
        self._speak_of: dict[int, list[str]] = {}
        for row, places in ahead.items():
            for place in places:
                self._speak_of.setdefault(place, []).append(row)
        self._rows: list[Change | None] = []
        self._stands: dict[int, Change] = {}  # place -> the row that stands there, done again or not
        self._place_of: dict[str, int] = {}
        self._corrected: set[str] = set()
        self._redone: dict[str, str] = {}
        self._changed = 0  # rows before this place are those of the list given last
        self._plain = True  # every pointer so far leads up the file, to a row that nothing else points to
        self._read = 0

    def upto(self, place: int) -> Rows | None:
        """The list up to a row of the file, as it was when that was the last row; None where the row did not count."""
        self._read_on(place + 1)
        if not self._plain:
            self._by_order(order(replace(self._job, changes=self._job.changes[: place + 1]), self._view, self._day))
        row = self._job.changes[place]
        at = next((at for at in self._where(row) if self._rows[at] is row), None)
        return None if at is None else self._given(at + 1)

    def all(self) -> Rows:
        self._read_on(len(self._job.changes))
        if not self._plain:
            self._by_order(self._whole)
        return self._given(len(self._rows))

    def _where(self, row: Change) -> Sequence[int]:
        if not self._plain:
            return range(len(self._rows))
        return [self._place_of[row.id]] if row.id in self._place_of else []

    def _given(self, end: int) -> Rows:
        rows = Rows(self._rows, end, self._changed, self._redone, self._read)
        self._changed = len(self._rows)
        return rows

    def _by_order(self, chosen: RowOrder) -> None:
        """Take the list as it is worked out from all rows that are read."""
        both = zip(self._rows, chosen.rows, strict=False)
        alike = next((at for at, (old, new) in enumerate(both) if old is not new), len(self._rows))
        self._changed = min(self._changed, alike, len(chosen.rows))
        self._rows, self._redone = list(chosen.rows), dict(chosen.redone)

    def _read_on(self, count: int) -> None:
        for place in range(self._read, count):
            for row in self._speak_of.get(place, ()):
                self._changed = min(self._changed, self._place_of.get(row, place) if self._plain else 0)
            if self._plain:
                self._rows.append(None)
                self._plain = self._take(self._job.changes[place], place)
        self._read = count

    def _take(self, row: Change, place: int) -> bool:
        """Put a row of the file into the list; False where its pointers do not tell how."""
        if self._job.place(row.id) != place:
            return True  # an id that is used twice
        counts = row.id in self._counting
        if counts and not row.corrects and not row.redoes:
            self._place_of[row.id] = place
            self._stands[place] = self._rows[place] = row
            self._changed = min(self._changed, place)
            return True
        leads_to = [self._job.place(old) for old in (row.corrects, row.redoes) if old]
        if any(there is not None and there > place for there in leads_to):
            return False
        if not counts:
            return True
        if any(there in (None, place) for there in leads_to):
            return len(leads_to) == 1  # it points to no other row, so it never counts
        if row.corrects in self._corrected:
            return False
        at = place
        if row.corrects:
            self._undo_redo_of(row.corrects)
            self._corrected.add(row.corrects)
            at = self._place_of.get(row.corrects, leads_to[0] or 0)
        if row.redoes in self._redone:
            return False
        self._place_of[row.id] = at
        self._stands[at] = row
        if row.redoes:
            self._redone[row.redoes] = row.id
            self._show(self._place_of.get(row.redoes))
        self._show(at)
        return True

    def _undo_redo_of(self, row: str) -> None:
        """A row that is corrected redoes nothing: what it redid counts again."""
        written = self._job.change(row)
        if written is not None and self._redone.get(written.redoes) == row:
            del self._redone[written.redoes]
            self._show(self._place_of.get(written.redoes))

    def _show(self, place: int | None) -> None:
        """Bring one place of the list to what counts there."""
        if place is None or place not in self._stands:
            return
        row = self._stands[place]
        shown = None if row.id in self._redone else row
        if self._rows[place] is not shown:
            self._rows[place] = shown
            self._changed = min(self._changed, place)
