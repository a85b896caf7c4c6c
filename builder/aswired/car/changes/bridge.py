"""bridge: an interlock's two wires are joined, so that its condition no longer has to be true (F22)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from aswired.car.changes import join
from aswired.car.changes.add import join_on, lay_lead
from aswired.car.changes.kind import Kind, Said, done_and_tested, its_wire, no_name
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change
from aswired.text.unsaid import NOT_RECORDED


def apply(row: Change, loom: WorkingHarness) -> None:
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


def in_one_splice(row: Change, loom: WorkingHarness) -> bool:
    """Whether the two ends meet in a splice of the row, without a jumper: both are free and no piece is spoken of."""
    jumper = row.piece or row.cut or row.reach or row.wire
    return not jumper and all(" at " in end or _is_cut(loom, end) for end in row.ends)


def _is_cut(loom: WorkingHarness, written: str) -> bool:
    found = loom.find(written)
    return found is not None and loom.s.nodes[found].kind is NodeKind.STUB


def _touches(row: Change, loom: WorkingHarness) -> Iterable[str]:
    return join.touches(row, loom) if in_one_splice(row, loom) else (row.wire or row.id,)


def _facts(row: Change) -> Iterator[Said]:
    if row.interlock:
        yield Said("interlock", "interlock", row.interlock)
    yield Said("decided by", "decided by", row.decided_by or NOT_RECORDED)
    yield Said("instead", "in its place", row.instead or NOT_RECORDED)
    if row.warning:
        yield Said("warning", "warning", row.warning)
    if row.piece is not None and not row.wire:
        yield Said("piece", "jumper", row.piece)


def _heading(row: Change) -> str:
    interlock = row.interlock if row.interlock not in ("", "other") else "an interlock"
    return f"Bridge of {interlock}: {' with '.join(row.ends) or row.wire}"


KIND = Kind(
    name="bridge",
    means="an interlock bridged by a jumper or one splice: who decided it, what keeps people safe instead",
    written=(
        "an interlock bridged between two `ends:`; `interlock:`, `decided by:`, what stands there "
        "`instead:`, `warning:`"
    ),
    keys=("ends", "interlock", "decided by", "instead", "wire", "piece", "reach", "cut", "slack", "joint",
        "overlap", "cover", "terminal", "where", "insulation", "conductor", "terminal fixed"),
    needs=(("ends",),), apply=apply, touches=_touches,
    brings=its_wire, lead=lambda row: tuple(row.ends), moves_to=no_name, terminals=lambda row: tuple(row.ends),
    alters="wire", does="", cuts=False, joints=False, grounds=False,
    turn=10, visit="", concerns="parts",
    heading=_heading,
    lengths={"reach": "reach of the jumper"}, facts=_facts, ticks=done_and_tested("fitted"),
)  # fmt: skip
