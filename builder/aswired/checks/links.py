"""Fusible links that a row makes longer, shorter or cuts. What they protect and how long they are judges the ledger."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.special import special_wires
from aswired.checks.special import rows_at_work
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.text.diagnostics import Finding, Location, Rule, Severity

SPC05 = Rule("SPC05", Severity.ERROR)

AS_IT_WAS = "Put in a link of the maker's gauge and length"


def judge(facts: JobResult) -> Iterator[Finding]:
    links = [name for name, kind in special_wires(facts.job).items() if kind == "fusible link"]
    for row, wires in rows_at_work(facts):
        for link in links:
            if link in wires:
                yield from _altered(facts, row, link)


def _error(at: Location, entry: str, problem: str, mend: str = AS_IT_WAS) -> Finding:
    return SPC05(at, entry, problem, mend)


def _altered(facts: JobResult, row: Change, link: str) -> Iterator[Finding]:
    """A row that leaves the link shorter, longer, cut or gone. Moving or re-routing it whole leaves it as it was."""
    kind = kind_of(row)
    if kind.alters == "gone":
        return
    done = kind.does
    if kind.moves_to(row):
        pieces = any(piece.row == row.id and piece.wire == link for piece in facts.pieces)
        done = "made longer by ordinary wire" if pieces else "made shorter" if row.tail or row.pigtail else ""
    if done:
        yield _error(row.at, row.id, f"the fusible link {link} is {done}; its gauge and length are its rating")
