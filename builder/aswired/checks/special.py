"""Rows on wires that a person declared special: pairs, resistance wires, shields, sensors.

Fusible links are judged in `links`, what the header declares of whole systems in `systems`; work on restraint and high
voltage by the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.car.special import special_wires
from aswired.checks.lists import listed
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.text.diagnostics import Finding, Rule, Severity

SPC03 = Rule("SPC03", Severity.ERROR)
SPC04 = Rule("SPC04", Severity.ERROR)
SPC06 = Rule("SPC06", Severity.ERROR, Severity.WARNING)
SPC07 = Rule("SPC07", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    special = special_wires(facts.job)
    for row, wires in rows_at_work(facts):
        of = {wire: special[wire] for wire in wires if wire in special}
        yield from _resistance(row, of)
        for wire, kind in of.items():
            if kind == "twisted pair" and kind_of(row).untwists:
                yield from _pair(facts, row, wire)
        yield from _untwisted(facts, row, of)
        yield from _shield(facts, row, [wire for wire, kind in of.items() if kind == "shielded"])
        yield from _oxygen(facts, row, [wire for wire, kind in of.items() if kind == "oxygen sensor"])
    yield from _shield_ends(facts)


def rows_at_work(facts: JobResult) -> Iterator[tuple[Change, tuple[str, ...]]]:
    """Rows in force in the plan that alter a conductor or its ends, with the wires they work on."""
    for row in facts.rows_of(facts.plan):
        result = facts.plan.row(row.id)
        if result is not None and kind_of(row).alters_harness:
            yield row, tuple(dict.fromkeys((*row.wire_names, *result.touched_wires, *filter(None, [row.onto]))))


def _resistance(row: Change, of: Mapping[str, str]) -> Iterator[Finding]:
    """A wire whose length is its value, each told on its own."""
    for wire, kind in of.items():
        if kind == "resistance wire" and kind_of(row).alters not in ("gone", "way"):
            yield SPC04(
                row.at,
                row.id,
                f"{wire} is a resistance wire; its length is its value",
                "Keep it whole between its own ends, or replace it by the maker's part",
            )


# ---- twisted pairs -------------------------------------------------------------------------------------------------
def _partner(facts: JobResult, wire: str) -> str:
    """The other wire of a pair, on whichever of the two it is written; '' when on neither."""
    named = facts.job.wires[wire].pair if wire in facts.job.wires else ""
    return named or next((name for name, other in facts.job.wires.items() if other.pair == wire), "")


def _pair(facts: JobResult, row: Change, wire: str) -> Iterator[Finding]:
    partner = _partner(facts, wire)
    # a new pin on an end that keeps its length changes nothing that the other wire must follow
    longer = not kind_of(row).moves_to(row) or row.tail or row.pigtail or row.gap or row.cut or row.piece
    if partner not in facts.plan.wires or not longer:
        return
    touching = [other for other, wires in rows_at_work(facts) if partner in wires and other.kind == row.kind]
    if not touching:
        yield _uneven(row, f"{wire} is twisted with {partner}, which is not changed with it", "Change both alike")
        return
    if wire > partner:
        return  # told once, on the first of the two
    yield from _lengths(facts, row, touching, wire, partner)
    yield from _side_by_side(facts, row, wire, partner)


def _uneven(row: Change, problem: str, mend: str) -> Finding:
    return SPC03(row.at, row.id, problem, mend)


def _lengths(facts: JobResult, row: Change, touching: list[Change], wire: str, partner: str) -> Iterator[Finding]:
    """The pieces of an extension; else the two wires as they are from end to end."""
    apart = facts.job.limits_in_force["pair pieces apart"].value
    rows = {row.id, *(other.id for other in touching)}
    pieces = {piece.wire: piece.length_mm for piece in facts.pieces if piece.row in rows}
    one, two, what = pieces.get(wire), pieces.get(partner), "pieces"
    if kind_of(row).takes_out or kind_of(row).moves_to(row):
        one, two, what = whole_mm(facts.plan, wire), whole_mm(facts.plan, partner), "wires"
    if one is not None and two is not None and abs(one - two) > apart:
        problem = f"the {what} of the pair {wire}, {partner} are {one:.0f} and {two:.0f} mm"
        yield _uneven(row, problem, f"Cut both alike; {apart:g} mm is allowed")


def whole_mm(view: View, wire: str) -> float | None:
    """Length of a wire from end to end in a view; None when a stretch of it is not recorded, or none is left."""
    lengths = [stretch.effective_mm for stretch in view.of_wire(wire)]
    known = [length for length in lengths if length is not None]
    return sum(known) if known and len(known) == len(lengths) else None


def _side_by_side(facts: JobResult, row: Change, wire: str, partner: str) -> Iterator[Finding]:
    clear = facts.job.limits_in_force["pair joints clear"].value
    joints = [placed.joint for placed in facts.joints if placed.joint.centre_mm is not None]
    for first in joints:
        for second in joints:
            from_one_part = first.from_end.partition(".")[0] == second.from_end.partition(".")[0]
            if not (from_one_part and first.wires == (wire,) and second.wires == (partner,)):
                continue
            if abs((first.centre_mm or 0.0) - (second.centre_mm or 0.0)) < clear:
                problem = f"{first.id} and {second.id} of the pair lie side by side"
                yield _uneven(row, problem, "Stagger them by about 30 mm")


def _untwisted(facts: JobResult, row: Change, of: Mapping[str, str]) -> Iterator[Finding]:
    limit = facts.job.limits_in_force["untwisted"].value
    run = row.untwisted.mm if row.untwisted is not None else None
    pairs = [wire for wire, kind in of.items() if kind == "twisted pair"]
    if run is not None and run > limit and pairs:
        problem = f"{listed(pairs)} run {run:.0f} mm untwisted; {limit:g} mm is allowed"
        mend = "Twist the pair again up to the joint and the plug, as the maker had it"
        yield SPC03(row.line_of("untwisted"), row.id, problem, mend)


# ---- shields, oxygen sensors ---------------------------------------------------------------------------------------
def _shield(facts: JobResult, row: Change, wires: list[str]) -> Iterator[Finding]:
    kind = kind_of(row)
    cut = kind.opens_shield and (not kind.moves_to(row) or any(piece.row == row.id for piece in facts.pieces))
    if not wires or not cut or row.shield in ("carried through", "unknown"):
        return
    if row.shield == "left open":
        problem = f"the shield of {listed(wires)} is left open at the joint"
        severity = Severity.ERROR
    else:
        are = "is" if len(wires) == 1 else "are"
        problem = f"{listed(wires)} {are} shielded; the row does not say what became of the shield"
        severity = Severity.WARNING
    mend = "Join the shield past the splice and cover it; then write shield: carried through"
    yield SPC06(row.line_of("shield"), row.id, problem, mend, rank=severity)


def _shield_ends(facts: JobResult) -> Iterator[Finding]:
    for name, wire in facts.job.wires.items():
        if len(set(wire.shield_at) - {"unknown"}) > 1 and facts.plan.of_wire(name):
            problem = f"the shield of {name} is connected at {' and '.join(wire.shield_at)}: current runs along it"
            mend = "Connect it at one end only, unless the donor's maker has it at both; then let it stand by name"
            yield SPC06(wire.line_of("shield at"), name, problem, mend, rank=Severity.ERROR)


def _oxygen(facts: JobResult, row: Change, wires: list[str]) -> Iterator[Finding]:
    if not wires:
        return
    soldered = row.terminal_fixed in ("soldered", "both") or any(
        joint.row == row.id
        and joint.method is not None
        and joint.method.fixing in ("soldered", "both")
        and set(joint.wires) & set(wires)
        for joint in facts.plan.joints.values()
    )
    if soldered:
        problem = f"the oxygen sensor's lead {listed(wires)} is soldered; sensor makers ask for a crimp"
        mend = "Crimp it, and keep grease and flux off the lead"
        yield SPC07(row.line_of("joint" if row.joint is not None else "id"), row.id, problem, mend)
