"""remove: a wire goes out; the row says how each end was left (F6, F7)."""

from __future__ import annotations

from dataclasses import replace

from aswired.car.changes.kind import Kind, named_wires, no_ends, no_facts, no_name, wires_of
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.record import Change
from aswired.text.one_line import Fate

STAYS = ("capped", "taped", "uncapped", "unknown")  # fates that leave a stub hanging


def apply(row: Change, loom: WorkingHarness) -> None:
    for wire in row.wire_names:
        loom.wire(wire, row)
        key = "wires" if row.wires else "ends"
        take_out(
            row, loom, wire, {loom.end_of(wire, written, key)[1]: fate for written, fate in row.fates_of(wire).items()}
        )


def take_out(row: Change, loom: WorkingHarness, wire: str, fates: dict[str, Fate]) -> None:
    """Every stretch of the wire leaves the car but the stubs that its fates leave at its ends."""
    ends = loom.loose_ends(wire)
    stubs: list[tuple[WorkingStretch, str, Fate | None]] = []
    for number, run in loom.runs_of(wire).items():
        here = [
            (run, node, fates.get(node))
            for node in dict.fromkeys((run.a, run.b))
            if node in ends and _hangs(loom, node, fates.get(node))
        ]
        loom.drop(number, row.id, [node for _, node, _ in here])
        stubs += here
    for run, node, fate in stubs:
        length = fate.stub.mm if fate is not None and fate.stub else None
        if length is not None and run.reach_mm is not None and length > run.reach_mm:
            raise Refused(
                f"a stub of {round(length)} mm is longer than what hung at '{node}', {round(run.reach_mm)} mm",
                "Measure the stub again",
                "wires" if row.wires else "ends",
                about=(node,),
            )
        dead = loom.stub(loom.made_at(row, wire, node), row.id, fate)
        loom.add(replace(run.part(node, dead, length), via=""))
    loom.s.wires[wire] = replace(loom.s.wires[wire], removed_by=row.id)


def _hangs(loom: WorkingHarness, node: str, fate: Fate | None) -> bool:
    """Whether a stub stays at an end: where a fate says so, and where the row says nothing of an end that is there."""
    if loom.s.nodes[node].kind is NodeKind.STUB:
        return False
    if fate is not None:
        return fate.word in STAYS
    part = node.partition(".")[0]
    gone = (part in loom.job.plugs and loom.job.plugs[part].gone) or (
        node in loom.job.grounds and loom.job.grounds[node].gone
    )
    return not gone and loom.s.nodes[node].kind is not NodeKind.UNKNOWN


def _ticks(row: Change, jointed: bool) -> tuple[str, ...]:
    fates = (fate for wire in row.wire_names for fate in row.fates_of(wire).values())
    return ("taken out", "sealed") if any(fate.word not in ("gone", "pulled") for fate in fates) else ("taken out",)


KIND = Kind(
    name="remove",
    means="a wire taken out; how each end was left",
    written="takes wires out; each end's fate is said",
    keys=("wire", "wires", "was", "ends"),
    needs=(("wire", "wires"),), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="gone", does="", cuts=True, joints=False, grounds=False,
    turn=1, visit="", concerns="ends",
    heading=lambda row: f"Removal of {wires_of(row)}",
    lengths={}, facts=no_facts, ticks=_ticks,
)  # fmt: skip
