"""add: a whole new lead between two ends (M1, L4)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes.kind import Kind, Said, done_and_tested, its_wire, named_wires, no_name, wires_of
from aswired.car.changes.measure import BY_ROUTE, UNSAID, along_route, cut_piece
from aswired.car.harness import NodeKind, WireState
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.physics import lengths
from aswired.physics.figure import Input
from aswired.record import Change


def apply(row: Change, loom: WorkingHarness) -> None:
    if row.wire in loom.s.wires:
        raise Refused(
            f"wire '{row.wire}' is there already", "Give the new lead a name of its own", "wire", about=(row.wire,)
        )
    start = join_on(row, loom, row.from_, "from")
    lay_lead(row, loom, start, row.to)


def lay_lead(
    row: Change, loom: WorkingHarness, start: str, written: str, key: str = "to", shared: bool = False
) -> None:
    """A new wire from node `start` to the end written in `key`; `shared`: into a cavity that may hold a wire."""
    if not written:
        raise Refused(
            f"the row does not say where the new lead '{row.wire}' goes",
            "Write to: and the end",
            "wire",
            about=(row.wire,),
        )
    to = join_on(row, loom, written, key, shared)
    if to == start:
        raise Refused(f"both ends of '{row.wire}' are '{to}'", "Name two ends", key, about=(row.wire, to))
    strip = loom.house.strip_mm
    terms: list[Input] = []
    swallowed: list[float | None] = []
    barrels: list[float | None] = []
    for index, node in enumerate((start, to), 1):
        if loom.s.nodes[node].kind in (NodeKind.SPLICE, NodeKind.JOINT):
            tap = node == row.id and loom.s.joints[node].tap
            terms.append(loom.house.joint_takes(f"o{index}, take-up of the joint at {node}", row, tap))
            take = loom.house.take_up(row, tap)[0]
            swallowed.append(take)
            # in a splice of the maker's own half of it lies beyond the middle; the row's own splices count theirs (M5)
            barrels.append(lengths.half(take) if loom.s.nodes[node].kind is NodeKind.SPLICE else 0.0)
        else:
            terms.append(loom.house.strip(f"k{index}, strip into the terminal at {node}", row))
            swallowed.append(strip)
            barrels.append(strip)
    reach_mm, reach = _reach(row, loom, start, to)
    slack, slack_input = loom.house.slack(row)
    terms = [reach, slack_input, *terms]
    loom.s.wires[row.wire] = WireState(
        row.wire, (row.piece or UNSAID).colour, (row.piece or UNSAID).size, ("", ""), (row.id,), added_by=row.id
    )
    made = cut_piece(
        row,
        loom,
        row.wire,
        None,
        lengths.new_wire(reach_mm, slack, swallowed[0], swallowed[1]),
        terms,
        tuple(swallowed),
        "new lead (L4)",
        "e = reach + slack + what each end takes",
    )
    run = WorkingStretch(
        row.wire, start, to, made.piece.colour, made.piece.size, made.length_mm, row.id, made.piece.offcut
    )
    loom.add(replace(run, barrel_mm=(barrels[0], barrels[1]), slack_mm=made.slack_mm))
    for node in (start, to):
        loom.member(node, row.wire)
        if loom.s.nodes[node].kind is NodeKind.GROUND:
            loom.put_ring(row, node, row.wire)


def _reach(row: Change, loom: WorkingHarness, start: str, to: str) -> tuple[float | None, Input]:
    """What the lead must have between its ends: as measured in the car, else by the route. [mm]"""
    if row.reach_is_cut:
        name = "reach in the car (the row's reach is its cut: the lead itself was measured)"
        return None, loom.house.said(name, row, "reach", None)
    if row.reach:
        return row.reach.mm, loom.house.said("reach", row, "reach", row.reach.mm)
    route_mm = along_route(loom, start, to)
    source = "not recorded" if route_mm is None else BY_ROUTE
    return route_mm, Input("reach", route_mm, "mm", source)


def join_on(row: Change, loom: WorkingHarness, written: str, key: str, shared: bool = False) -> str:
    """The node an end of the new lead sits in; a cut end becomes a splice of this row."""
    node = loom.target(written, key, row.wire)
    if not shared:
        loom.free_cavity(node, written, row, key)
    if loom.s.nodes[node].kind is not NodeKind.STUB:
        return node
    name = row.id if row.id not in loom.s.nodes else f"{row.id}-{written}"
    number, stub = next(iter(loom.s.runs.at(node).items()))
    a, b = (name if end == node else end for end in (stub.a, stub.b))
    loom.s.runs[number] = replace(stub, a=a, b=b)
    del loom.s.nodes[node]
    loom.joint(row, name, (stub.wire, row.wire), where=row.where)
    return name


def _facts(row: Change) -> Iterator[Said]:
    if row.special:
        yield Said("special", "declared", row.special)
    if row.protects:
        yield Said("protects", "protects", ", ".join(row.protects))


def _heading(row: Change) -> str:
    ends = (f" from {row.from_}" if row.from_ else "", f" to {row.to}" if row.to else "")
    return f"New wire {wires_of(row)}{''.join(ends)}"


KIND = Kind(
    name="add",
    means="a new lead between two ends",
    written=(
        "a new lead: `wire:`, `piece:`, `from:`, `to:`, `cut:`; `reach:` is what was measured in the car, "
        "not on the lead"
    ),
    keys=("wire", "piece", "from", "to", "reach", "cut", "slack", "overlap", "joint", "cover", "ring", "terminal",
        "where", "insulation", "conductor", "terminal fixed", "special", "protects"),
    needs=(("wire",), ("from",), ("to",)), apply=apply, touches=named_wires,
    brings=its_wire, lead=lambda row: (row.from_, row.to), moves_to=no_name, terminals=lambda row: (row.from_, row.to),
    alters="wire", does="", cuts=False, joints=False, grounds=False,
    turn=12, visit="", concerns="ends",
    heading=_heading,
    lengths={}, facts=_facts, ticks=done_and_tested("laid"),
)  # fmt: skip
