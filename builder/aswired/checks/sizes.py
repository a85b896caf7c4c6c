"""Sizes of wires and pieces, and what their conductors are made of."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.harness import CutPiece, Stretch
from aswired.checks.lists import listed
from aswired.figures.worked import JobResult
from aswired.network.copper import STEPS_APART, conductor_of, is_copper, steps_between
from aswired.physics.conductor import Conductor
from aswired.text.diagnostics import Finding, Location, Rule, Severity
from aswired.text.units import Size

MAT01 = Rule("MAT01", Severity.ERROR)
SIZ01 = Rule("SIZ01", Severity.ERROR)
SIZ03 = Rule("SIZ03", Severity.WARNING)

NOT_FOR_A_CAR = ("solid copper", "aluminium", "copper-clad aluminium")


def judge(facts: JobResult) -> Iterator[Finding]:
    for piece in facts.pieces:
        row = facts.job.change(piece.row)
        if row is not None:
            yield from _smaller(facts, piece, row.line_of("wires" if row.wires else "piece"))
    yield from _both_systems(facts)
    yield from _not_read(facts)
    yield from _conductors(facts)


def _smaller(facts: JobResult, piece: CutPiece, at: Location) -> Iterator[Finding]:
    wire = facts.plan.wires[piece.wire]
    old, new = conductor_of(wire.size, facts.job), conductor_of(piece.size, facts.job)
    if wire.added_by or old is None or new is None or new.area_mm2 >= old.area_mm2 - 1e-9:
        return
    if any(not is_copper(stretch, facts.job) for stretch in facts.plan.of_wire(piece.wire)):
        return  # areas of two metals are not one measure
    yield SIZ01(
        at,
        piece.id,
        f"the piece is {_in_mm2(piece.size, new)}, smaller than {piece.wire}, {_in_mm2(wire.size, old)}",
        "Take wire of the same size or larger",
    )


def _in_mm2(size: Size, conductor: Conductor) -> str:
    """A size as it is written; of a gauge number also its square millimetres."""
    return size.text if size.system == "mm2" else f"{size.text} ({conductor.area_mm2:.2f} mm2)"


def _both_systems(facts: JobResult) -> Iterator[Finding]:
    for name, wire in facts.job.wires.items():
        steps = steps_between(wire.size, wire.other_size, facts.job) if wire.other_size is not None else None
        if wire.other_size is not None and steps is not None and abs(steps) > STEPS_APART + 1e-9:
            yield SIZ03(
                wire.line_of("other size"),
                name,
                f"{name} is {wire.size.text} and {wire.other_size.text}: they are {abs(steps):.1f} steps of size apart",
                "Read the print again, or measure the conductor",
            )


def _not_read(facts: JobResult) -> Iterator[Finding]:
    """Wires of unread size that carry much, one finding a wire."""
    limit = facts.job.limits_in_force["size unread above"].value
    carries: dict[tuple[str, str], list[str]] = {}
    for name, circuit in facts.circuits.items():
        load = facts.loads[name]
        current = load.draws.current_a if load.draws is not None else None
        if name not in facts.job.kept_loads or current is None or current <= limit:
            continue
        for stretch in (*circuit.feed.stretches, *circuit.back.stretches):
            if not stretch.size.known:
                carries.setdefault((stretch.wire, stretch.origin), []).append(f"{name} ({current:.1f} A)")
    for (wire, origin), loads in carries.items():
        yield SIZ03(
            _written_at(facts, wire, origin),
            f"{origin}-{wire}" if origin else wire,
            f"the size of {f'the piece in {wire}' if origin else wire} was not read, and it carries "
            f"{listed(list(dict.fromkeys(loads)))}",
            "Read or measure it: fuse and drop are not judged without it",
        )


def _written_at(facts: JobResult, wire: str, origin: str) -> Location:
    row, declared = facts.job.change(origin), facts.job.wires.get(wire)
    if row is not None:
        return row.line_of("wires" if row.wires else "piece")
    return declared.line_of("size") if declared is not None else facts.job.at


def _conductors(facts: JobResult) -> Iterator[Finding]:
    mend = "Take stranded annealed copper: anything else breaks or creeps loose where a car shakes it"
    for name, wire in facts.job.wires.items():
        if wire.conductor in NOT_FOR_A_CAR and _donors(facts, name):
            at = wire.line_of("conductor")
            yield MAT01(at, name, f"{name} has a conductor of {wire.conductor}", mend)
    for row in facts.rows_of(facts.plan):
        if row.conductor in NOT_FOR_A_CAR:
            what = f"the piece put in by {row.id} has a conductor of {row.conductor}"
            yield MAT01(row.line_of("conductor"), row.id, what, mend)


def _donors(facts: JobResult, wire: str) -> list[Stretch]:
    """What is left in the car of the donor's own wire."""
    return [stretch for stretch in facts.plan.of_wire(wire) if not stretch.origin]
