"""swap: a connector takes the place of another; its wires move by the cavity map (F23)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes.kind import Kind, Said, done_and_tested, no_ends, no_name
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.car.loom.working import ROW03
from aswired.record import Change
from aswired.text.diagnostics import did_you_mean
from aswired.text.units import is_unknown
from aswired.text.unsaid import NOT_RECORDED


def apply(row: Change, loom: WorkingHarness) -> None:
    if not row.seen_from:
        raise Refused(
            "the row does not say which side the cavity numbers are read from; a map read from the wrong side swaps "
            "every pair",
            "Write seen from: wire side, or seen from: mating side, for both connectors",
            "cavities",
        )
    moves = _moves(row, loom)
    for number, run in sorted(loom.s.runs.items(), key=lambda item: sorted((item[1].a, item[1].b))):
        for old, new in moves.items():
            if old in (run.a, run.b):
                node = loom.untraced(run.wire) if is_unknown(new) else loom.target(new, "cavities", run.wire)
                run = _reseated(row, loom, run, old, node)
        if run.via in moves:
            run = replace(run, via="" if is_unknown(moves[run.via]) else moves[run.via])
        if run is not loom.s.runs[number]:
            loom.s.runs[number] = run
            loom.touched(run.wire, row.id)
    known = {old: new for old, new in moves.items() if not is_unknown(new)}
    for name, joint in loom.s.joints.items():
        from_end, other = known.get(joint.from_end, joint.from_end), known.get(joint.other_end, joint.other_end)
        loom.s.joints[name] = replace(joint, from_end=from_end, other_end=other)
    loom.s.replaced = {first: known.get(last, last) for first, last in loom.s.replaced.items()} | known


def _moves(row: Change, loom: WorkingHarness) -> dict[str, str]:
    """Old cavity -> new cavity, by full name, of every cavity in which a wire sits; refused where the map is not whole.

    A cavity that goes to `unknown` stays `unknown`.
    """
    if row.plug == row.new_plug:
        raise Refused(
            f"both connectors are '{row.plug}'",
            "Give the new connector a name of its own: new plug:",
            "new plug",
            about=(row.plug,),
        )
    held = cavities_in_use(loom, row.plug)
    if not held:
        used = {name.partition(".")[0] for name, node in loom.s.nodes.items() if node.kind is NodeKind.CAVITY}
        raise Refused(
            f"no wire of the record sits in '{row.plug}'",
            did_you_mean(row.plug, used, "Name the connector that was replaced"),
            "plug",
            ROW03,
            (row.plug,),
        )
    lost = {cavity: wires for cavity, wires in held.items() if cavity.partition(".")[2] not in row.cavities}
    if lost:
        told = " and ".join(f"{' and '.join(wires)} in '{cavity}'" for cavity, wires in lost.items())
        first = next(iter(lost)).partition(".")[2]
        raise Refused(
            f"the map does not say where {told} went",
            f"Add each to cavities:, such as {first}: 1, or {first}: unknown; or take the wire out in a row above",
            "cavities",
            about=tuple(wire for wires in lost.values() for wire in wires),
        )
    written = [new for new in row.cavities.values() if not is_unknown(new)]
    twice = next((new for new in written if written.count(new) > 1), "")
    if twice:
        olds = " and ".join(f"'{old}'" for old, new in row.cavities.items() if new == twice)
        raise Refused(f"{olds} both go to '{twice}' of the new connector", "Give each its own cavity", "cavities")
    moves = {}
    for old in held:
        new = row.cavities[old.partition(".")[2]]
        moves[old] = "unknown" if is_unknown(new) else f"{row.new_plug}.{new}"
        there = cavities_in_use(loom, row.new_plug).get(moves[old])
        if there:
            raise Refused(
                f"cavity '{moves[old]}' already holds wire '{there[0]}'",
                "Name another cavity of it",
                "cavities",
                about=(moves[old], there[0]),
            )
    return moves


def cavities_in_use(loom: WorkingHarness, plug: str) -> dict[str, tuple[str, ...]]:
    """Cavities of a plug in which a wire ends or passes -> its wires, sorted."""
    found: dict[str, set[str]] = {}
    for run in loom.s.runs.values():
        for node in filter(None, (run.a, run.b, run.via)):
            if node.startswith(plug + ".") and (node == run.via or loom.s.nodes[node].kind is NodeKind.CAVITY):
                found.setdefault(node, set()).add(run.wire)
    return {node: tuple(sorted(found[node])) for node in sorted(found)}


def _reseated(row: Change, loom: WorkingHarness, run: WorkingStretch, old: str, new: str) -> WorkingStretch:
    """The run with its end moved; its terminal goes with it, unless the row puts a new one on."""
    if row.terminal:
        return run.moved(old, new).with_barrel(new, loom.house.strip_mm)
    return replace(run, a=new if run.a == old else run.a, b=new if run.b == old else run.b)


def _touches(row: Change, loom: WorkingHarness) -> Iterator[str]:
    return (name for names in cavities_in_use(loom, row.plug).values() for name in names)


def _facts(row: Change) -> Iterator[Said]:
    if row.cavities:
        moves = ", ".join(f"{old} to {new}" for old, new in row.cavities.items())
        yield Said("cavities", f"cavities of {row.plug} to {row.new_plug}", moves)
        yield Said("seen from", "numbers seen from", row.seen_from or NOT_RECORDED)


KIND = Kind(
    name="swap",
    means="a connector replaced: the cavity each wire moves to, and the side both numberings are seen from",
    written=(
        "a connector replaced: `plug:` by `new plug:`, `cavities: {1: 3, 2: 4}`, and the side both "
        "numberings are `seen from:`"
    ),
    keys=("plug", "new plug", "cavities", "seen from", "terminal", "terminal fixed", "where"),
    needs=(("plug",), ("new plug",), ("cavities",)), apply=apply, touches=_touches,
    brings=lambda row: row.new_plug, lead=no_ends, moves_to=no_name,
    terminals=lambda row: tuple(f"{row.new_plug}.{new}" for new in row.cavities.values()) if row.terminal else (),
    alters="wire", does="", cuts=False, joints=False, grounds=False,
    turn=3, visit="", concerns="parts",
    heading=lambda row: f"Connector {row.plug} replaced by {row.new_plug}",
    lengths={}, facts=_facts, ticks=done_and_tested("swapped"),
)  # fmt: skip
