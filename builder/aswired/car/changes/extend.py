"""extend: one cut, one piece in, two joints (F8, L3)."""

from __future__ import annotations

from dataclasses import replace

from aswired.car.changes.kind import Kind, at_end, done_and_tested, named_wires, no_ends, no_facts, no_name, wires_of
from aswired.car.changes.measure import cut_piece, gap_of, kept_lengths, written_halves
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.physics import lengths
from aswired.record import Change
from aswired.text.units import Length


def apply(row: Change, loom: WorkingHarness) -> None:
    for index, wire in enumerate(row.wire_names):
        loom.wire(wire, row)
        _extend(row, loom, wire, index)


def the_end(row: Change, loom: WorkingHarness, wire: str) -> tuple[int, str]:
    """The stretch that is cut and the moved end it hangs on: by `plug:`, by `end:`, or the wire's only stretch."""
    if row.plug:
        return loom.end_at_plug(wire, row.plug)
    if row.end:
        return loom.end_of(wire, row.end, "end")
    runs = loom.runs_of(wire)
    if len(runs) > 1:
        raise Refused(
            f"wire '{wire}' has splices in it; the row does not say near which end it is cut",
            "Write plug: or end:",
            "wire",
            about=(wire,),
        )
    if row.pigtail is not None or row.tail is not None:
        raise Refused(
            "the row gives a pigtail or a tail but not of which end", "Write plug: or end:, the end that moved", "wire"
        )
    number, run = next(iter(runs.items()))
    return number, max(run.a, run.b)


def check_place(
    row: Change, loom: WorkingHarness, run: WorkingStretch, node: str, tail: Length | None, pigtail: Length | None
) -> None:
    """A cut beyond the stretch at the end is refused, naming what lies there (F8)."""
    reach = run.reach_mm
    tail_mm, pigtail_mm = tail.mm if tail else None, pigtail.mm if pigtail else None
    key = "pigtail" if row.pigtail else "tail"
    if reach is None:
        return
    if pigtail_mm is not None and pigtail_mm >= reach:
        beyond = run.other(node)
        further = [other for other in loom.members(beyond) if other is not run and other.wire == run.wire]
        lies = (
            f"there lies {run.wire} from {beyond} to {further[0].other(beyond)}"
            if further
            else f"the wire ends at {beyond}"
        )
        raise Refused(
            f"{round(pigtail_mm)} mm from '{node}' lies beyond the {round(reach)} mm of this stretch; {lies}",
            f"Measure from the other side, or write end: {beyond}" if further else "Measure the pigtail again",
            key,
            about=(node, run.wire, beyond, *(other.other(beyond) for other in further[:1])),
        )
    if pigtail_mm is not None and tail_mm is not None and pigtail_mm + tail_mm > reach + 0.5:
        raise Refused(
            f"tail and pigtail of {run.wire} are {round(pigtail_mm + tail_mm)} mm together, "
            f"the stretch is {round(reach)} mm long",
            "Measure tail, pigtail and length again",
            key,
        )


def _extend(row: Change, loom: WorkingHarness, wire: str, index: int) -> None:
    number, node = the_end(row, loom, wire)
    run = loom.s.runs[number]
    if loom.s.nodes[node].kind is NodeKind.STUB and not loom.s.nodes[node].made_by:
        raise Refused(
            f"nothing holds the loose end of {wire}: with a piece let in it would still be loose",
            "Write the row that brings it to its place: kind ground, terminate or join",
            "end" if row.end else "wire",
            about=(wire,),
        )
    fixed = run.other(node)
    check_place(row, loom, run, node, *written_halves(row, loom, index))
    halves = kept_lengths(row, loom, run, index)
    tail, pigtail = halves.tail_mm, halves.pigtail_mm
    if tail is not None and tail <= 0:
        raise Refused(
            f"nothing of the stretch is left on the side of '{fixed}'",
            "Measure the pigtail again",
            "pigtail",
            about=(fixed,),
        )
    take, _ = loom.house.take_up(row)
    gap, terms = gap_of(row, loom, run, fixed, node, halves)
    slack, slack_input = loom.house.slack(row)
    terms += [
        slack_input,
        loom.house.joint_takes("o1, take-up of the first joint", row),
        loom.house.joint_takes("o2, take-up of the second joint", row),
    ]
    exact = lengths.extension_piece(gap, slack, take, take)
    rule, formula = "extend, two joints (L3)", "e = gap + slack + o1 + o2"
    made = cut_piece(row, loom, wire, run, exact, terms, (take, take), rule, formula, halves.middle_mm)
    plug_id, loom_id = joint_names(row, loom, wire, node)
    loom.s.runs.pop(number)
    centres = lengths.joint_centres(tail, pigtail, made.length_mm, take, take)
    # the far joint: along the wire slack is included (L5), by tape measure it moves no joint (M11)
    along = lengths.total(centres.from_plug_mm, centres.apart_mm)
    beside = lengths.less(along, made.slack_mm)
    loom.joint(row, plug_id, (wire,), node, centres.from_plug_mm, pigtail)
    if centres.from_fixed_mm is not None:
        loom.joint(row, loom_id, (wire,), fixed, centres.from_fixed_mm, tail, where=row.where, other=(node, beside))
    else:
        face = lengths.total(pigtail, gap)
        loom.joint(row, loom_id, (wire,), node, along, face, where=row.where, slack_mm=made.slack_mm)
    via_stays = run.via and not (row.plug and run.via.startswith(row.plug + "."))
    rest, kept = run.part(fixed, loom_id, tail), run.part(node, plug_id, pigtail)
    loom.add(rest if via_stays else replace(rest, via=""))
    piece = WorkingStretch(
        wire, loom_id, plug_id, made.piece.colour, made.piece.size, made.length_mm, row.id, made.piece.offcut
    )
    loom.add(replace(piece, slack_mm=made.slack_mm))
    loom.add(replace(kept, via="") if via_stays else kept)
    loom.touched(wire, row.id)


def joint_names(row: Change, loom: WorkingHarness, wire: str, node: str) -> tuple[str, str]:
    """Ids of the joints on the moved and on the fixed side (F3)."""
    if row.plug:
        return f"{row.id}-{wire}-plug", f"{row.id}-{wire}-loom"
    other = loom.far_end(wire, node)
    return loom.made_at(row, wire, node), loom.made_at(row, wire, other)


KIND = Kind(
    name="extend",
    means="a wire made longer: cut once, a piece let in, two splices",
    written="one cut, one piece in, two splices",
    keys=("wire", "wires", "was", "plug", "end", "gap", "reach", "tail", "pigtail", "stagger", "slack", "overlap",
        "joint", "cover", "piece", "cut", "where", "insulation", "conductor", "shield", "untwisted"),
    needs=(("wire", "wires"),), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="wire", does="made longer by ordinary wire", cuts=False, joints=True, grounds=False,
    turn=6, visit="", concerns="wires",
    heading=lambda row: f"Extension of {wires_of(row)}{at_end(row)}",
    lengths={}, facts=no_facts, ticks=done_and_tested("cut"),
)  # fmt: skip
