"""Recorded lengths against computed ones, slack, offcuts."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.changes.measure import OTHER_STATEMENT
from aswired.car.harness import CutPiece
from aswired.checks.lists import listed
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.text.diagnostics import Finding, Rule, Severity

LEN01 = Rule("LEN01", Severity.WARNING)
LEN02 = Rule("LEN02", Severity.WARNING)
LEN03 = Rule("LEN03", Severity.WARNING)
LEN04 = Rule("LEN04", Severity.WARNING)
OFF01 = Rule("OFF01", Severity.ERROR)
OFF02 = Rule("OFF02", Severity.NOTE)
OFF03 = Rule("OFF03", Severity.ERROR)

SPOILT = {
    "browned": "brown insulation was too hot once, and its copper with it",
    "oily": "oil softens insulation, and no tape or sleeve holds on it",
    "nicked": "it breaks at the nick, and lets water in",
}


def judge(facts: JobResult) -> Iterator[Finding]:
    apart_mm = facts.job.limits_in_force["length apart"].value
    yield from _pieces(facts, apart_mm)
    yield from _taken_out(facts, apart_mm)
    yield from _account(facts)
    yield from _no_stagger(facts)
    yield from _offcuts(facts)
    yield from _spoilt(facts)


def _pieces(facts: JobResult, apart_mm: float) -> Iterator[Finding]:
    """Pieces that were cut otherwise than their lengths ask for, are told in two ways, or leave no slack."""
    for piece in facts.pieces:
        row = facts.job.change(piece.row)
        if row is None:
            continue
        computed, recorded = piece.computed.value, piece.recorded_mm
        if recorded is not None and computed is not None and _apart(facts, piece, row, recorded, computed) > apart_mm:
            problem = f"the piece was cut {recorded:.0f} mm, its lengths ask for {computed:.0f} mm"
            mend = "Measure the piece and the gap again"
            yield LEN01(row.line_of("cut"), piece.id, problem, mend)
        for term in piece.computed.inputs:
            if term.name == OTHER_STATEMENT:
                yield LEN01(
                    row.line_of("gap"),
                    piece.id,
                    f"the gap of {piece.wire} is told in two ways: {term.source}; the first counts",
                    "Measure gap, wire and route again, or take the wrong one out",
                )
            if term.name == "slack" and isinstance(term.value, float) and term.value < 0:
                yield LEN02(
                    row.line_of("slack"),
                    piece.id,
                    f"the slack of {piece.wire} is below zero",
                    "The wire will be tight: leave slack, or cut longer",
                )


def _taken_out(facts: JobResult, apart_mm: float) -> Iterator[Finding]:
    """Rows that took out of a wire what its lengths do not ask for."""
    for figure in facts.plan.figures:
        row = facts.job.change(figure.key.partition("-")[0])
        if figure.key.endswith(".out") and row is not None and row.take_out is not None and figure.value is not None:
            recorded = row.take_out.mm
            if recorded is not None and abs(recorded - figure.value) > apart_mm:
                problem = f"{recorded:.0f} mm was taken out, the lengths ask for {figure.value:.0f} mm"
                mend = "Measure the wire again"
                yield LEN01(row.line_of("take out"), row.id, problem, mend)


def _account(facts: JobResult) -> Iterator[Finding]:
    """Rows that put more on the rack than came out of the car."""
    for line in facts.plan.conductor_account:
        row = facts.job.change(line.row)
        if row is not None and row.reclaimed and line.scrap_mm is not None and line.scrap_mm < -0.5:
            problem = f"{-line.scrap_mm:.0f} mm more was put on the rack than came out of the car"
            mend = "Measure the reclaimed piece again"
            yield LEN03(row.line_of("reclaimed"), row.id, problem, mend)


def _no_stagger(facts: JobResult) -> Iterator[Finding]:
    """Rows that cut several wires and do not say whether all alike: where the later ones are cut nobody can tell."""
    if facts.job.usual.stagger is not None:
        return
    for row in facts.rows_of(facts.plan):
        later, half = row.wire_names[1:], "pigtail" if row.pigtail else "tail"
        if not kind_of(row).staggers or not later or row.stagger or not (row.pigtail or row.tail):
            continue
        yield LEN04(
            row.line_of(half),
            row.id,
            f"{row.id} has no stagger: where {listed(later)} {'is' if len(later) == 1 else 'are'} cut is not said",
            "Write stagger: 0 mm where all are cut alike, stagger: 50 mm where each next cut lies 50 mm further from "
            "the plug, or stagger: unknown",
        )


def _apart(facts: JobResult, piece: CutPiece, row: Change, recorded_mm: float, computed_mm: float) -> float:
    """By how much a cut is not what its lengths ask for. [mm]

    A new lead of which only its cut is written is held to the route, and by that it is only ever too short: nobody said
    that it goes the straight way.
    """
    short_mm = computed_mm - recorded_mm
    return short_mm if facts.plan.is_lead(piece) and row.reach is None else abs(short_mm)


def _offcuts(facts: JobResult) -> Iterator[Finding]:
    for name, use in facts.plan.offcuts.items():
        if use.left_mm is not None and use.left_mm < -0.5:
            at = facts.job.line_of_row(use.cuts[-1][0].partition("-")[0])
            problem = f"offcut {name} is overdrawn by {-use.left_mm:.0f} mm"
            mend = "Check its length, or name another offcut"
            yield OFF01(at, use.cuts[-1][0], problem, mend)
        if use.length_mm is None and not use.source and name not in facts.job.offcuts and use.cuts:
            at = facts.job.line_of_row(use.cuts[0][0].partition("-")[0])
            yield OFF02(
                at,
                use.cuts[0][0],
                f"offcut {name} is not on the rack of this job",
                f"Declare it: offcuts: {{{name}: {use.colour.code} {use.size.text} and its length}}",
            )


def _spoilt(facts: JobResult) -> Iterator[Finding]:
    """Pieces from an offcut that was noted as spoilt, on the rack or on the row that put it there."""
    noted = {name: offcut.condition for name, offcut in facts.job.offcuts.items()}
    noted |= {name: offcut.condition for row in facts.job.changes for name, offcut in row.reclaimed.items()}
    for piece in facts.pieces:
        row, condition = facts.job.change(piece.row), noted.get(piece.offcut, "")
        if row is not None and condition in SPOILT:
            problem = f"the piece was cut from {piece.offcut}, which is noted {condition}: {SPOILT[condition]}"
            mend = "Take sound wire, and put that offcut in the bin"
            yield OFF03(row.line_of("wires" if row.wires else "piece"), piece.id, problem, mend)
