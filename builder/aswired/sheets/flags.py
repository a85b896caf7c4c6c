"""Wire flags: the labels that are tied to both sides of each planned cut, and to both ends of each planned lead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import Node, NodeKind, Stretch
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.sheets.steps import barred_by
from aswired.sheets.text import size
from aswired.sheets.work_order import visits
from aswired.text.colours import Colour


@dataclass(frozen=True)
class Flag:
    """One label. `end` is what this end of the wire is joined to or sits in, `leads_to` where its other end is."""

    row: str
    wire: str
    colour: Colour
    size: str
    end: str
    end_is: str  # joint, terminal, tap, cut end
    leads_to: str


def wire_flags(worked: JobResult) -> tuple[Flag, ...]:
    """A flag for every wire end that planned rows make, in working order."""
    rows = [row for visit in visits(worked) for row in visit.rows if not barred_by(row, worked)]
    return tuple(flag for row in rows for flag in _flags(row, worked))


def _flags(row: Change, worked: JobResult) -> Iterable[Flag]:
    view = worked.plan
    result = view.row(row.id)
    wires = set(row.wire_names) | set(result.touched_wires if result else ())
    for stretch in view.stretches:
        joined = any(end in view.joints and view.joints[end].row == row.id for end in stretch.ends)
        if stretch.wire not in wires and stretch.origin != row.id and not joined:
            continue
        for end in stretch.ends:
            if is_ := _made(row, stretch, view.nodes[end], worked):
                yield _flag(row, stretch, end, is_, worked)


def _made(row: Change, stretch: Stretch, node: Node, worked: JobResult) -> str:
    """What the row made of this end of a stretch; '' when the end is none of its making."""
    joint = worked.plan.joints.get(node.name)
    lead = _is_lead(row, stretch, worked)
    if joint is not None and joint.row == row.id:
        if joint.through == stretch.wire:  # it runs through, uncut
            return ""
        own_piece = stretch.origin == row.id and not lead
        return "" if own_piece else "tap" if joint.tap else "joint"
    if node.kind is NodeKind.STUB:
        return "cut end" if node.made_by == row.id else ""
    if lead or (stretch.origin == row.id and node.kind is not NodeKind.JOINT):
        return "terminal"
    moved_to = kind_of(row).moves_to(row)
    return "terminal" if moved_to and node.name == moved_to and stretch.wire in row.wire_names else ""


def _is_lead(row: Change, stretch: Stretch, worked: JobResult) -> bool:
    """Whether the stretch belongs to a lead that the row lays as a whole."""
    state = worked.plan.wires.get(stretch.wire)
    return state is not None and state.added_by == row.id


def _flag(row: Change, stretch: Stretch, end: str, end_is: str, worked: JobResult) -> Flag:
    other = worked.plan.nodes[stretch.other(end)]
    return Flag(
        row=row.id,
        wire=stretch.wire,
        colour=stretch.colour,
        size=size(stretch.size),
        end=end,
        end_is=end_is,
        leads_to="end not traced" if other.kind is NodeKind.UNKNOWN else other.name,
    )
