"""Fusible links that a row makes longer, shorter or cuts. How long and how thick they may be the ledger judges."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.special import special_wires
from aswired.checks.special import rows_at_work
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.text.diagnostics import Finding, Rule, Severity

SPC05 = Rule("SPC05", Severity.ERROR)


def judge(facts: JobResult) -> Iterator[Finding]:
    links = [name for name, kind in special_wires(facts.job).items() if kind == "fusible link"]
    for row, wires in rows_at_work(facts):
        for link in links:
            if link in wires:
                yield from _altered(facts, row, link)


def _altered(facts: JobResult, row: Change, link: str) -> Iterator[Finding]:
    """A row that leaves the link shorter, longer or cut. Moving or re-routing it whole leaves it as it was; of one that
    is taken out the ledger tells what nothing stands before."""
    kind = kind_of(row)
    if kind.alters == "gone":
        return
    done = kind.does
    if kind.moves_to(row):
        pieces = any(piece.row == row.id and piece.wire == link for piece in facts.pieces)
        done = "made longer by ordinary wire" if pieces else "made shorter" if row.tail or row.pigtail else ""
    if done:
        problem = f"the fusible link {link} is {done}; its gauge and length are its rating"
        yield SPC05(row.at, row.id, problem, "Put in a link of the maker's gauge and length")
