"""Recorded lengths against computed ones, slack, offcuts."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.compute.lengths import APART_MM
from aswired.diagnostics import Finding, Severity
from aswired.route import Route
from aswired.worked import Worked


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    for piece in facts.pieces:
        row = facts.job.change(piece.row)
        if row is None:
            continue
        computed = piece.computed.value
        if piece.recorded_mm is not None and computed is not None and abs(piece.recorded_mm - computed) > APART_MM:
            yield Finding(
                "LEN01",
                Severity.WARNING,
                row.line_of("cut"),
                piece.id,
                f"the piece was cut {piece.recorded_mm:.0f} mm, its lengths ask for {computed:.0f} mm",
                "Measure the piece and the gap again",
            )
        for term in piece.computed.inputs:
            if term.name.startswith("other statement"):
                yield Finding(
                    "LEN01",
                    Severity.WARNING,
                    row.line_of("gap"),
                    piece.id,
                    f"gap, reach and route of {piece.wire} differ by {float(term.value or 0):.0f} mm; the gap counts",
                    "Measure again, or take one statement out",
                )
            if term.name == "slack" and isinstance(term.value, float) and term.value < 0:
                yield Finding(
                    "LEN02",
                    Severity.WARNING,
                    row.line_of("slack"),
                    piece.id,
                    f"the slack of {piece.wire} is below zero",
                    "The wire will be tight: leave slack, or cut longer",
                )
    for figure in facts.plan.figures:
        row = facts.job.change(figure.key.partition("-")[0])
        if figure.key.endswith(".out") and row is not None and row.take_out is not None and figure.value is not None:
            recorded = row.take_out.mm
            if recorded is not None and abs(recorded - figure.value) > APART_MM:
                yield Finding(
                    "LEN01",
                    Severity.WARNING,
                    row.line_of("take out"),
                    row.id,
                    f"{recorded:.0f} mm was taken out, the lengths ask for {figure.value:.0f} mm",
                    "Measure the wire again",
                )
    for line in facts.plan.ledger:
        row = facts.job.change(line.row)
        if row is not None and row.reclaimed and line.scrap_mm is not None and line.scrap_mm < -0.5:
            yield Finding(
                "LEN03",
                Severity.WARNING,
                row.line_of("reclaimed"),
                row.id,
                f"{-line.scrap_mm:.0f} mm more was put on the rack than came out of the car",
                "Measure the reclaimed piece again",
            )
    yield from _offcuts(facts)


def _offcuts(facts: Worked) -> Iterator[Finding]:
    for name, use in facts.plan.offcuts.items():
        if use.left_mm is not None and use.left_mm < -0.5:
            at = facts.job.line_of_row(use.cuts[-1][0].partition("-")[0])
            yield Finding(
                "OFF01",
                Severity.ERROR,
                at,
                use.cuts[-1][0],
                f"offcut {name} is overdrawn by {-use.left_mm:.0f} mm",
                "Check its length, or name another offcut",
            )
        if use.length_mm is None and not use.source and name not in facts.job.offcuts and use.cuts:
            at = facts.job.line_of_row(use.cuts[0][0].partition("-")[0])
            yield Finding(
                "OFF02",
                Severity.NOTE,
                at,
                use.cuts[0][0],
                f"offcut {name} is not on the rack of this job",
                f"Declare it: offcuts: {{{name}: {use.colour.code} {use.size.text} and its length}}",
            )
