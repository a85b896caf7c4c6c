"""shorten: conductor taken out; a lap closes the cut, or a new terminal is put on (L6)."""

from __future__ import annotations

from dataclasses import replace

from aswired.car.changes.extend import check_place, the_end
from aswired.car.changes.kind import Kind, at_end, done_and_tested, named_wires, no_ends, no_facts, no_name, wires_of
from aswired.car.changes.measure import written_halves
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.physics import lengths
from aswired.physics.figure import Figure, Input, lacking
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    for index, wire in enumerate(row.wire_names):
        loom.wire(wire, row)
        _shorten(row, loom, wire, index)


def _shorten(row: Change, loom: WorkingHarness, wire: str, index: int) -> None:
    number, node = the_end(row, loom, wire)
    run = loom.s.runs[number]
    fixed = run.other(node)
    out = _take_out(row, loom, wire, run)
    loom.touched(wire, row.id)
    if row.terminal:
        length = lengths.less(run.length_mm, out)
        loom.s.runs[number] = replace(run, length_mm=length).with_barrel(node, loom.house.strip_mm)
        return
    written = written_halves(row, loom, index)
    check_place(row, loom, run, node, *written)
    tail, pigtail = (half.mm if half else None for half in written)
    left = lengths.less(run.reach_mm, out)
    if written[0] is None:  # a half that is not written follows from the other; one that is not known does not
        tail = lengths.less(left, pigtail)
    elif written[1] is None:
        pigtail = lengths.less(left, tail)
    apart = lengths.less(left, lengths.total(tail, pigtail))
    if apart is not None and abs(apart) > loom.job.limits_in_force["length apart"].value:
        raise Refused(
            f"tail and pigtail of {run.wire} are {round((left or 0) - apart)} mm together, and what is left of it once "
            f"{round(out or 0)} mm are out is {round(left or 0)} mm",
            "Measure tail, pigtail and what comes out again; two of them are enough",
            "pigtail",
        )
    if (tail is not None and tail <= 0) or (pigtail is not None and pigtail <= 0):
        raise Refused(
            "nothing is left on one side of the cut"
            if out is None
            else f"taking out {round(out)} mm leaves nothing on one side of the cut",
            "Measure the cut again",
            "pigtail" if row.pigtail else "tail",
        )
    take, _ = loom.house.take_up(row)
    joint_id = f"{row.id}-{wire}" if row.wires else row.id
    # the side that was measured: on the other one the slack would shift the joint (M11)
    from_end, face = (node, pigtail) if written[1] is not None else (fixed, tail)
    loom.s.runs.pop(number)
    centre = lengths.joint_centres(None, face, None, None, take).from_plug_mm
    loom.joint(row, joint_id, (wire,), from_end, centre, face, where=row.where)
    for end, kept in ((fixed, tail), (node, pigtail)):
        part = run.part(end, joint_id, kept)
        if end != from_end:
            part = replace(part, slack_mm=_slack_left(row, loom))
        loom.add(part if end == fixed else replace(part, via=""))


def _slack_left(row: Change, loom: WorkingHarness) -> float | None:
    """Slack in the part that was not measured. [mm] A row that only says what came out leaves none on purpose."""
    if row.new_reach is None and row.gap is None:
        return 0.0
    return None if row.take_out else loom.house.slack(row)[0]


def _take_out(row: Change, loom: WorkingHarness, wire: str, run: WorkingStretch) -> float | None:
    """Conductor taken out of the stretch, as recorded or computed, with its figure. [mm]"""
    slack, slack_input = loom.house.slack(row)
    if row.terminal:
        swallowed, last = loom.house.strip_mm, loom.house.strip("k, strip into the barrel", row)
    else:
        swallowed, last = loom.house.take_up(row)[0], loom.house.joint_takes("o, take-up of the joint", row)
    letter = last.name[0]
    if row.gap is not None and row.new_reach is None:
        value = lengths.shorten_take_out_of_overlap(row.gap.mm, slack, swallowed)
        inputs = [loom.house.said("gap", row, "gap", row.gap.mm), slack_input, last]
        formula = f"x = -gap - slack - {letter}"
    else:
        reach = row.new_reach.mm if row.new_reach else None
        value = lengths.shorten_take_out(run.reach_mm, reach, slack, swallowed)
        inputs = [
            Input("L, length now", run.reach_mm, "mm", f"stretch of {wire}"),
            loom.house.said("new reach", row, "new reach", reach),
            slack_input,
            last,
        ]  # fmt: skip
        formula = f"x = L - reach - slack - {letter}"
    missing = lacking(inputs)
    recorded = row.take_out.mm if row.take_out else None
    note = "" if recorded is None else f"recorded take-out {recorded:.1f} mm counts"
    rule = "shorten, new terminal (L6)" if row.terminal else "shorten, one lap (L6)"
    loom.s.figures.append(
        Figure(
            f"{row.id}-{wire}.out",
            f"conductor to take out of {wire}",
            value,
            "mm",
            rule,
            formula,
            tuple(inputs),
            missing,
            note,
        )
    )
    out = row.take_out.mm if row.take_out else value  # a take-out that nobody knows is not the computed one
    if out is not None and out < 0:
        raise Refused(
            f"the wire is {round(-out)} mm too short for this; it cannot be lapped",
            "Fold it, put a terminal on, or extend it",
            "new reach" if row.new_reach else "gap",
        )
    if out is not None and run.reach_mm is not None and out >= run.reach_mm:
        raise Refused(
            f"{round(out)} mm cannot be taken out of a stretch of {round(run.reach_mm)} mm", "Measure again", "take out"
        )
    return out


KIND = Kind(
    name="shorten",
    means="a wire made shorter: conductor taken out, one splice or a new terminal",
    written="conductor out (`new reach:` or `take out:`), one splice, or a `terminal:`",
    keys=("wire", "wires", "was", "plug", "end", "new reach", "gap", "take out", "tail", "pigtail", "stagger",
        "slack", "overlap", "joint", "cover", "terminal", "where", "terminal fixed", "shield", "untwisted"),
    needs=(("wire", "wires"),), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=no_name,
    terminals=lambda row: (row.end, f"{row.plug}.") if row.terminal else (),
    alters="wire", does="made shorter", cuts=True, joints=True, grounds=False,
    turn=5, visit="", concerns="wires",
    heading=lambda row: f"Shortening of {wires_of(row)}{at_end(row)}",
    lengths={}, facts=no_facts, ticks=done_and_tested("cut"),
)  # fmt: skip
