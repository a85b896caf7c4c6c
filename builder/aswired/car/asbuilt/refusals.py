"""The rows of a fold that were refused, and which of them another row rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from aswired.car.changes import kind_of
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change, Job


class Refusals:
    """Refused rows in the order in which they were refused, and what each would have brought into the car.

    A question costs as much as the words that it asks about, however many rows are refused.
    """

    def __init__(self, job: Job, rows: Iterable[tuple[str, Refused]] = ()) -> None:
        self._job = job
        self._rows: dict[str, Refused] = {}
        self._numbers: dict[str, int] = {}
        self._leads: dict[str, tuple[int, str]] = {}  # name -> place in the file, row: of several the last in the file
        self._leads_before: list[list[tuple[str, tuple[int, str] | None]]] = []  # of each refused row, to go back
        for row, no in rows:
            self.add(row, no)

    def __contains__(self, row: object) -> bool:
        return row in self._rows

    def __getitem__(self, row: str) -> Refused:
        return self._rows[row]

    def __len__(self) -> int:
        return len(self._rows)

    def items(self) -> tuple[tuple[str, Refused], ...]:
        return tuple(self._rows.items())

    def add(self, row: str, no: Refused) -> None:
        self._numbers[row] = len(self._rows)
        self._rows[row] = no
        before = []
        for place, name in self._brought.get(row, ()):
            known = self._leads.get(name)
            if known is None or known[0] < place:
                before.append((name, known))
                self._leads[name] = (place, row)
        self._leads_before.append(before)

    def back_to(self, count: int) -> None:
        """Only the first `count` rows are refused."""
        while len(self._rows) > count:
            row, _ = self._rows.popitem()
            del self._numbers[row]
            for name, known in reversed(self._leads_before.pop()):
                if known is None:
                    del self._leads[name]
                else:
                    self._leads[name] = known

    def rested_on(self, row: Change, no: Refused, loom: WorkingHarness) -> str:
        """The refused row that this row's names point to: a splice, a stub, a ring, an offcut or a new lead of it."""
        parts = (end.partition(".")[0] for end in (row.plug, row.end, row.to, row.from_, row.into))
        for name in (*row.wire_names, row.onto, *parts):
            lead = self._lead(name, loom)
            if lead not in ("", row.id):
                return lead
        texts = [*no.about, row.end, row.to, row.from_, row.into, row.onto, row.wire, *row.wire_names]
        texts += map(str, row.ends)
        if row.ring is not None:
            texts.append(row.ring.shared_with)
        others = (name for text in texts for name in spoken_of(text, self._rows) if name != row.id)
        return min(others, key=self._numbers.__getitem__, default="")

    def _lead(self, name: str, loom: WorkingHarness) -> str:
        """The refused row that would have brought this lead, connector or fuse, which is not in the car."""
        if name not in self._leads or name in loom.s.wires or name in loom.s.fuses:
            return ""
        return self._leads[name][1]

    @cached_property
    def _brought(self) -> Mapping[str, list[tuple[int, str]]]:
        """Row -> what it brings into the car, each with the row's place in the file."""
        found: dict[str, list[tuple[int, str]]] = {}
        for place, row in enumerate(self._job.changes):
            if name := kind_of(row).brings(row):
                found.setdefault(row.id, []).append((place, name))
        return found


def spoken_of(text: str, rows: Mapping[str, object]) -> Iterator[str]:
    """Those of the rows that a written end names, or of which it names a splice or a cut end."""
    for word in text.replace("'", " ").split():
        if word in rows:
            yield word
        at = word.find("-")
        while at >= 0:
            if word[:at] in rows:
                yield word[:at]
            at = word.find("-", at + 1)
