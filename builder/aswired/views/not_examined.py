"""What the record does not say, by subject."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.diagnostics import NotExamined
from aswired.worked import Worked


@dataclass(frozen=True)
class Subject:
    """Everything of one subject that nobody wrote down."""

    name: str
    count: int
    items: tuple[NotExamined, ...]


def subjects(worked: Worked) -> tuple[Subject, ...]:
    """Subjects in the order they are first met, each with its items in file order."""
    found: dict[str, list[NotExamined]] = {}
    for item in worked.not_examined:
        found.setdefault(item.subject, []).append(item)
    return tuple(Subject(name, len(items), tuple(items)) for name, items in found.items())
