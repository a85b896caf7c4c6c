"""Restraint, high voltage, twisted pairs, resistance wires. Declared by a person, never inferred."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.diagnostics import Finding, Severity
from aswired.model import Change
from aswired.route import Route
from aswired.worked import Worked

PAIR_PIECES_APART_MM = 5.0  # pieces of a pair are cut alike (L10; common practice, no source)
PAIR_JOINTS_CLEAR_MM = 20.0  # joints of a pair nearer than this lie side by side; about 30 mm is asked for (read)


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    special = {name: wire.special for name, wire in facts.job.wires.items() if wire.special not in ("", "none")}
    for row in facts.job.changes:
        if not _counts(facts, row) or row.kind in ("verify", "cover"):
            continue
        for wire in (*row.wire_names, row.onto):
            kind = special.get(wire)
            if kind is not None:
                yield from _row(facts, row, wire, kind)


def _row(facts: Worked, row: Change, wire: str, kind: str) -> Iterator[Finding]:
    if kind == "restraint" and not _out_whole(row, wire):
        yield Finding(
            "SPC01",
            Severity.STOP,
            row.at,
            row.id,
            f"{wire} is restraint wiring; it is never cut, spliced or re-terminated",
            "Leave it whole, or have it taken out complete by a competent person",
        )
    if kind == "high voltage":
        yield Finding(
            "SPC02",
            Severity.STOP,
            row.at,
            row.id,
            f"{wire} is high voltage; no work on it belongs in this record",
            "Stop, and hand it to a trained person",
        )
    if kind == "resistance wire" and row.kind != "remove":
        yield Finding(
            "SPC04",
            Severity.ERROR,
            row.at,
            row.id,
            f"{wire} is a resistance wire; its length is its value",
            "Keep it whole between its own ends, or replace it by the maker's part",
        )
    if kind == "twisted pair" and row.kind in ("extend", "shorten"):
        yield from _pair(facts, row, wire)


def _out_whole(row: Change, wire: str) -> bool:
    fates = row.fates_of(wire)
    return row.kind == "remove" and len(fates) == 2 and all(fate.word in ("gone", "pulled") for fate in fates.values())


def _partner(facts: Worked, wire: str) -> str:
    """The other wire of a pair, on whichever of the two it is written; '' when on neither."""
    named = facts.job.wires[wire].pair
    return named or next((name for name, other in facts.job.wires.items() if other.pair == wire), "")


def _counts(facts: Worked, row: Change) -> bool:
    result = facts.plan.row(row.id)
    return result is not None and result.counts


def _pair(facts: Worked, row: Change, wire: str) -> Iterator[Finding]:
    partner = _partner(facts, wire)
    if partner not in facts.plan.wires:
        return
    touching = [
        other
        for other in facts.job.changes
        if partner in other.wire_names and other.kind == row.kind and _counts(facts, other)
    ]
    if not touching:
        yield Finding(
            "SPC03",
            Severity.ERROR,
            row.at,
            row.id,
            f"{wire} is twisted with {partner}, which is not changed with it",
            f"Change {partner} by the same length",
        )
        return
    if wire > partner:
        return  # told once, on the first of the two
    pieces = {
        piece.wire: piece.length_mm
        for piece in facts.pieces
        if piece.row in (row.id, *(other.id for other in touching))
    }
    one, two = pieces.get(wire), pieces.get(partner)
    if one is not None and two is not None and abs(one - two) > PAIR_PIECES_APART_MM:
        yield Finding(
            "SPC03",
            Severity.ERROR,
            row.at,
            row.id,
            f"the pieces of the pair {wire}, {partner} are {one:.0f} and {two:.0f} mm",
            "Cut both alike",
        )
    joints = [placed.joint for placed in facts.joints]
    for first in joints:
        for second in joints:
            side_by_side = (
                first.wires == (wire,)
                and second.wires == (partner,)
                and first.id.rpartition("-")[2] == second.id.rpartition("-")[2]
                and first.centre_mm is not None
                and second.centre_mm is not None
                and abs(first.centre_mm - second.centre_mm) < PAIR_JOINTS_CLEAR_MM
            )
            if side_by_side:
                yield Finding(
                    "SPC03",
                    Severity.ERROR,
                    row.at,
                    row.id,
                    f"{first.id} and {second.id} of the pair lie side by side",
                    "Stagger them by about 30 mm",
                )
