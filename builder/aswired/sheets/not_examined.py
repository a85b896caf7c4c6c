"""What the record does not say, by subject."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.text import count
from aswired.text.diagnostics import NotExamined


@dataclass(frozen=True)
class Unseen:
    """Everything that is not known of one thing, on one line."""

    entry: str
    what: str


@dataclass(frozen=True)
class Subject:
    """Everything of one subject that nobody wrote down. `count` counts each thing not known, not the lines."""

    name: str
    count: int
    items: tuple[Unseen, ...]

    @property
    def said(self) -> str:
        """`7 on 4 lines`, where a line has several of them; else `4`."""
        return str(self.count) if self.count == len(self.items) else f"{self.count} on {count(len(self.items), 'line')}"


def subjects(worked: JobResult) -> tuple[Subject, ...]:
    """Subjects in the order they are first met; in each, one line an entry, in the order they are first met."""
    found: dict[str, list[NotExamined]] = {}
    for item in worked.not_examined:
        found.setdefault(item.subject, []).append(item)
    return tuple(Subject(name, len(items), _lines(items)) for name, items in found.items())


def _lines(items: list[NotExamined]) -> tuple[Unseen, ...]:
    by_entry: dict[str, list[NotExamined]] = {}
    for number, item in enumerate(items):
        by_entry.setdefault(item.entry or f" {number}", []).append(item)
    return tuple(Unseen(group[0].entry, _cavities(_joined(item.what for item in group))) for group in by_entry.values())


def _joined(whats: Iterable[str]) -> str:
    """`one end not traced (twice), size not read`."""
    told = Counter(whats)
    often = {1: "", 2: " (twice)"}
    return ", ".join(what + often.get(times, f" ({times} times)") for what, times in told.items())


def _cavities(what: str) -> str:
    """`cavity 4`, `cavities 1, 3`, `all other cavities`: as it is said at the bench."""
    head, _, numbers = what.partition("cavities ")
    if head or not numbers:
        return what
    if numbers == "others":
        return "all other cavities"
    return what if "," in numbers else f"cavity {numbers}"


def pages(frame: Frame) -> Iterable[PageOut]:
    """What was not examined."""
    yield frame.page("not_examined", "not_examined.html", subjects=subjects(frame.worked))
