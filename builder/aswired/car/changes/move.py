"""ground and terminate: one end of a wire moves to a ground point or a cavity, with a piece or without (F9, L4)."""

from __future__ import annotations

from dataclasses import replace

from aswired.car.changes.measure import Halves, cut_piece, gap_of
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.physics import lengths
from aswired.record import Change
from aswired.text.units import Length


def move_end(row: Change, loom: WorkingHarness, wire: str, to: str, strip_name: str) -> None:
    """Move the row's end of one wire to node `to`."""
    number, node = _moved_end(row, loom, wire)
    if node == to:
        raise Refused(
            f"'{node}' of wire '{wire}' is there already",
            "Name the end that moves, or take the row out",
            "end",
            about=(node, wire),
        )
    run = loom.s.runs[number]
    fixed = run.other(node)
    strip = loom.house.strip_mm
    written = _kept(row, loom, fixed)
    kept = written.mm if written else None
    key = "pigtail" if row.pigtail else "tail"
    if kept is not None and run.reach_mm is not None and kept > run.reach_mm + 0.5:
        raise Refused(
            f"{round(kept)} mm cannot be kept of a stretch of {round(run.reach_mm)} mm",
            "Measure the kept part again",
            key,
        )
    loom.s.runs.pop(number)
    loom.member(to, wire)
    loom.touched(wire, row.id)
    with_piece = row.piece_of(wire) is not None or row.gap is not None or row.cut is not None
    if not with_piece:
        loom.add(_as_it_is(row, run, node, to, written, strip))
        loom.detach(node, wire, row.id)
        return
    if written is None:  # all of it stays: only its terminal was cut off
        kept = run.reach_mm
    take, _ = loom.house.take_up(row)
    middle = lengths.middle_out(run.reach_mm, kept, 0.0) if written else 0.0
    gap, terms = gap_of(row, loom, run, fixed, to, Halves(kept, 0.0, kept, middle))
    slack, slack_input = loom.house.slack(row)
    terms += [
        slack_input,
        loom.house.joint_takes("o, take-up of the joint", row),
        loom.house.strip(f"k, strip into the {strip_name}", row),
    ]
    exact = lengths.terminated_piece(gap, slack, take, strip)
    rule, formula = "one joint and a new terminal (L4)", "e = gap + slack + o + k"
    made = cut_piece(row, loom, wire, run, exact, terms, (take, strip), rule, formula, middle)
    joint_id = f"{row.id}-{wire}" if row.wires else row.id
    centre = lengths.joint_centres(kept, None, None, take, None).from_fixed_mm
    beside = lengths.total(gap, lengths.half(take))  # from the new terminal; slack moves no joint
    loom.joint(row, joint_id, (wire,), fixed, centre, kept, where=row.where, other=(to, beside))
    loom.add(run.part(fixed, joint_id, kept))
    piece = WorkingStretch(
        wire, joint_id, to, made.piece.colour, made.piece.size, made.length_mm, row.id, made.piece.offcut
    )
    loom.add(replace(piece.with_barrel(to, strip), slack_mm=made.slack_mm))
    loom.detach(node, wire, row.id)


def _kept(row: Change, loom: WorkingHarness, fixed: str) -> Length | None:
    """What stays on the end that does not move, as the row writes it; None where it does not: then all of it stays."""
    if row.pigtail and loom.s.nodes[fixed].kind not in (NodeKind.CAVITY, NodeKind.MODULE):
        raise Refused(
            f"a pigtail is what stays on a plug; the end that stays, '{fixed}', is none",
            f"Write tail: with what stays on {fixed}",
            "pigtail",
            about=(fixed,),
        )
    if row.pigtail and row.tail and row.pigtail.mm != row.tail.mm:
        raise Refused(
            "pigtail and tail both say here what stays on the end that does not move, and they differ",
            "Write one of them",
            "tail",
        )
    return row.pigtail or row.tail


def _as_it_is(
    row: Change, run: WorkingStretch, node: str, to: str, kept: Length | None, strip_mm: float | None
) -> WorkingStretch:
    """The run brought to its new end without a piece: with a new terminal the old one is cut off, barrel and all."""
    ring = row.ring
    new_terminal = row.terminal or (ring is not None and (ring.text.startswith("new") or ring.shared_with))
    barrel = strip_mm if new_terminal else run.barrel_at(node)
    moved = run.part(run.other(node), to, kept.mm) if kept is not None else run.moved(node, to)
    length = moved.length_mm
    if not new_terminal and length is not None:
        length = None if barrel is None else length + barrel
    return replace(moved, length_mm=length).with_barrel(to, barrel)


def _moved_end(row: Change, loom: WorkingHarness, wire: str) -> tuple[int, str]:
    if row.end:
        return loom.end_of(wire, row.end, "end")
    known = [end for end in loom.loose_ends(wire) if loom.s.nodes[end].kind is not NodeKind.UNKNOWN]
    ends = loom.loose_ends(wire)
    if len(known) == 1 and len(ends) == 2:
        # M1: the one end that is known moves; but a lead stays on its plug or module, and nobody has said otherwise
        on_plug = loom.s.nodes[known[0]].kind in (NodeKind.CAVITY, NodeKind.MODULE)
        moves = next(end for end in ends if end != known[0]) if on_plug else known[0]
        return loom.end_of(wire, moves, "end")
    raise Refused(
        f"the row does not say which end of wire '{wire}' moves",
        f"Write end: {' or end: '.join(ends)}",
        "wire",
        about=(wire,),
    )


def behind(loom: WorkingHarness, wire: str, node: str) -> tuple[str, ...]:
    """Every other wire that is joined to this one through splices, away from `node`: what moves with the end (F9)."""
    passes = (NodeKind.SPLICE, NodeKind.JOINT)
    seen, todo, found = (
        {node},
        [loom.s.runs[n].other(node) for n in loom.runs_of(wire) if node in (loom.s.runs[n].a, loom.s.runs[n].b)],
        {wire: None},
    )
    while todo:
        at = todo.pop()
        if at in seen or loom.s.nodes[at].kind not in passes:
            continue
        seen.add(at)
        for run in loom.members(at):
            found.setdefault(run.wire)
            todo.append(run.other(at))
    return tuple(name for name in found if name != wire)
