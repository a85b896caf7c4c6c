"""Terminals: solder where it does not belong, and pieces too thick for what the plug takes."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.harness import CutPiece, NodeKind
from aswired.figures.worked import JobResult
from aswired.network.copper import steps_between
from aswired.record import Change
from aswired.text.diagnostics import Finding, Rule, Severity

SIZ02 = Rule("SIZ02", Severity.WARNING)
TRM01 = Rule("TRM01", Severity.WARNING)

HOLDS_A_TERMINAL = (
    NodeKind.CAVITY, NodeKind.MODULE, NodeKind.GROUND, NodeKind.FUSE, NodeKind.FUSE_FEED, NodeKind.BATTERY,
)  # fmt: skip
WITH_SOLDER = {"soldered": "soldered", "both": "crimped and soldered"}


def judge(facts: JobResult) -> Iterator[Finding]:
    for row in facts.rows_of(facts.plan):
        if row.terminal_fixed in WITH_SOLDER:
            yield from _soldered(facts, row)
    for piece in facts.pieces:
        yield from _too_thick(facts, piece)


def _soldered(facts: JobResult, row: Change) -> Iterator[Finding]:
    how = WITH_SOLDER[row.terminal_fixed]
    for end in _terminals(facts, row):
        plug = facts.job.plugs.get(end.partition(".")[0])
        if plug is not None and plug.solder == "not allowed":
            why, mend = "its maker does not allow solder", "Crimp a new terminal, and use no solder"
        elif _flexes(facts, end):
            why, mend = "it lies where the bundle flexes", "Crimp a new terminal: a wire breaks where the solder ends"
        else:
            continue
        yield TRM01(row.line_of("terminal fixed"), row.id, f"the terminal at {end} is {how}, and {why}", mend)


def _terminals(facts: JobResult, row: Change) -> list[str]:
    """The ends at which a row puts a terminal on."""
    result = facts.plan.row(row.id)
    touched = (stretch for wire in (result.touched_wires if result else ()) for stretch in facts.plan.of_wire(wire))
    ends = dict.fromkeys(end for stretch in touched for end in stretch.ends)
    return [end for end in kind_of(row).new_terminals(row, ends) if facts.plan.nodes[end].kind in HOLDS_A_TERMINAL]


def _flexes(facts: JobResult, end: str) -> bool:
    """Whether every leg by which a wire can come to the end flexes."""
    position = facts.route.of_end(end)
    if position is None:
        return False
    legs = [leg for leg in facts.job.route if position.landmark and position.landmark in (leg.from_, leg.to)]
    if position.leg is not None:
        legs = [facts.job.route[position.leg]]
    return bool(legs) and all("flex" in leg.zone for leg in legs)


def _too_thick(facts: JobResult, piece: CutPiece) -> Iterator[Finding]:
    most = facts.job.limits_in_force["terminal steps"].value
    row = facts.job.change(piece.row)
    own = [stretch for stretch in facts.plan.of_wire(piece.wire) if stretch.origin == piece.row]
    for end in dict.fromkeys(end for stretch in own for end in stretch.ends):
        plug = facts.job.plugs.get(end.partition(".")[0])
        if row is None or plug is None or plug.takes is None:
            continue
        steps = steps_between(piece.size, plug.takes.thickest, facts.job)
        if steps is not None and steps > most + 1e-9:
            problem = f"the piece is {piece.size.text}; {end} takes {plug.takes.text}, {steps:.1f} steps of size less"
            mend = "Take thinner wire for the last stretch where the fuse allows it, or a plug that takes this size"
            yield SIZ02(row.line_of("wires" if row.wires else "piece"), piece.id, problem, mend)
