"""bridge: an interlock's two wires are joined, so that its condition no longer has to be true (F22)."""

from __future__ import annotations

from dataclasses import replace

from aswired.car.changes import join
from aswired.car.changes.add import join_on, lay_lead
from aswired.car.harness import NodeKind
from aswired.car.loom import Loom, Refused
from aswired.record import Change

NAME = "bridge"
MEANS = "an interlock bridged by a jumper or one splice: who decided it, what keeps people safe instead"
KEYS = (
    "ends", "interlock", "decided by", "instead", "wire", "piece", "reach", "cut", "slack", "joint", "overlap",
    "cover", "terminal", "where", "insulation", "conductor", "terminal fixed",
)  # fmt: skip
NEEDS = (("ends",),)


def apply(row: Change, loom: Loom) -> None:
    if len(row.ends) != 2 or row.ends[0] == row.ends[1]:
        raise Refused("a bridge joins two ends", "Write both: ends: [neutral-switch.1, neutral-switch.2]", "ends")
    if in_one_splice(row, loom):
        join.apply(row, loom)
        return
    if any(" at " in end for end in row.ends):
        raise Refused(
            "a jumper reaches from a cavity, a splice or a cut end to another; a wire that is whole has none here",
            "Name the cavity, cut the wire with a row of kind cap first, or take piece:, cut:, reach: and wire: out",
            "ends",
        )
    lead = replace(row, wire=row.wire or row.id)
    if lead.wire in loom.s.wires:
        raise Refused(
            f"wire '{lead.wire}' is there already", "Give the jumper a name of its own", "wire", about=(lead.wire,)
        )
    # a jumper plugs into the other half: the cavities keep the wires they hold
    start = join_on(lead, loom, row.ends[0], "ends", shared=True)
    lay_lead(lead, loom, start, row.ends[1], "ends", shared=True)


def in_one_splice(row: Change, loom: Loom) -> bool:
    """Whether the two ends meet in a splice of the row, without a jumper: both are free and no piece is spoken of."""
    jumper = row.piece or row.cut or row.reach or row.wire
    return not jumper and all(" at " in end or _is_cut(loom, end) for end in row.ends)


def _is_cut(loom: Loom, written: str) -> bool:
    found = loom.find(written)
    return found is not None and loom.s.nodes[found].kind is NodeKind.STUB
