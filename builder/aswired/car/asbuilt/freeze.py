"""From the working harness to the frozen view: lengths that count electrically, nodes in use, a stable order."""

from __future__ import annotations

import datetime

from aswired.car.asbuilt.remeasured import remeasured
from aswired.car.changes import kind_of
from aswired.car.harness import Joint, Node, RowResult, Stretch, View
from aswired.car.loom import WorkingHarness, WorkingStretch, close_names
from aswired.physics.lengths import take_up
from aswired.text.diagnostics import Finding, Location, Rule, Severity

REF01 = Rule("REF01", Severity.NOTE)


def freeze(
    loom: WorkingHarness,
    view: str,
    day: datetime.date | None,
    rows: tuple[RowResult, ...],
    findings: tuple[Finding, ...],
) -> View:
    """The view as plain frozen facts."""
    state, joints = loom.s, dict(loom.s.joints.items())
    stretches = tuple(
        Stretch(
            run.wire,
            (min(run.a, run.b), max(run.a, run.b)),
            run.colour,
            run.size,
            run.length_mm,
            _effective_mm(run, joints),
            run.origin,
            run.offcut,
            run.via,
            run.slack_mm,
        )
        for run in state.runs.values()
    )
    used = {end for stretch in stretches for end in stretch.ends}
    nodes: dict[str, Node] = {
        name: node for name, node in sorted(state.nodes.items()) if name in used or node.opened_by
    }
    close = tuple(
        REF01(
            _first_use(loom, name),
            name,
            f"'{name}' is not declared and was made by its first use; '{like}' is declared",
            f"None needed, or write {like}",
        )
        for name, like in sorted(close_names(loom))
    )
    return View(
        name=view,
        day=day,
        nodes=nodes,
        stretches=stretches,
        joints=remeasured(joints, stretches, {name: wire.donor_ends for name, wire in state.wires.items()}),
        rings=tuple(state.rings),
        rows=rows,
        pieces=tuple(state.pieces),
        offcuts=dict(state.offcuts.items()),
        wires=dict(state.wires.items()),
        conductor_account=tuple(state.conductor_account),
        figures=tuple(state.figures),
        findings=findings + close,
        fuses=dict(state.fuses.items()),
        relays=dict(state.relays.items()),
        replaced=dict(state.replaced),
        laid=_laid(loom, rows),
    )


def _laid(loom: WorkingHarness, rows: tuple[RowResult, ...]) -> dict[str, tuple[str, ...]]:
    """End -> the wires that rows in force put into it: what is empty now may have held one of them."""
    counted = {row.id for row in rows if row.counts}
    found: dict[str, tuple[str, ...]] = {}
    for row in loom.job.changes:
        if row.id in counted and row is loom.job.change(row.id):
            for end in filter(None, kind_of(row).terminals(row)):
                found[end] = (*found.get(end, ()), *row.wire_names)
    return found


def _effective_mm(run: WorkingStretch, joints: dict[str, Joint]) -> float | None:
    """Length that carries current from middle of joint to middle of joint: overlaps counted once, barrels not (M5)."""
    reach = run.reach_mm
    for node in (run.a, run.b):
        joint = joints.get(node)
        if joint is None or reach is None:
            continue
        share = _share_mm(joint, run)
        reach = None if share is None else reach - share
    return reach


def _share_mm(joint: Joint, run: WorkingStretch) -> float | None:
    """The part of one joint's take-up that falls to one of its members (L2)."""
    if joint.tap:
        return take_up("tap", joint.overlap_mm, through_wire=run.wire == joint.through)
    if joint.method is None or joint.method.form == "unknown":
        return None
    whole = take_up("lap" if joint.method.form == "twist" else joint.method.form, joint.overlap_mm)
    return None if whole is None else whole / 2


def _first_use(loom: WorkingHarness, name: str) -> Location:
    for wire in loom.job.wires.values():
        if name in (wire.from_, wire.to):
            return wire.at
    for row in loom.job.changes:
        if name in (row.to, row.from_, row.into):
            return row.at
    return Location("job.yml")
