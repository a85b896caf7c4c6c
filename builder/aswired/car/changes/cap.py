"""cap: a wire is cut near one end and the stub sealed; or a stub that hung open is sealed (M7)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes.kind import Kind, Said, at_end, named_wires, no_ends, no_name, wires_of
from aswired.car.harness import NodeKind
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change
from aswired.text.one_line import Cover, Fate
from aswired.text.units import Length

UNSAID = Fate("unknown", "unknown", None)  # M7: the far part's fate is said, or unknown


def apply(row: Change, loom: WorkingHarness) -> None:
    loom.wire(row.wire, row)
    number, node = loom.end_of(row.wire, row.end, "end")
    fate = _fate(loom.house.cover(row), row.stub)
    if loom.s.nodes[node].kind is NodeKind.STUB:
        loom.s.nodes[node] = replace(loom.s.nodes[node], fate=fate)
        if row.stub is not None:
            run = loom.s.runs[number]
            loom.s.runs[number] = run.part(run.other(node), node, row.stub.mm)
        return
    run = loom.s.runs.pop(number)
    stub_mm = row.stub.mm if row.stub else None
    if stub_mm is not None and run.reach_mm is not None and stub_mm >= run.reach_mm:
        raise Refused(
            f"a stub of {round(stub_mm)} mm leaves nothing of the {round(run.reach_mm)} mm that hang at '{node}'",
            "Measure the stub from the end to the cut",
            "stub",
            about=(node,),
        )
    far_node = run.other(node)
    rest_mm = None if stub_mm is None or run.reach_mm is None else run.reach_mm - stub_mm
    dead = loom.stub(loom.made_at(row, row.wire, node), row.id, fate)
    far_runs = loom.onward(row.wire, far_node)
    loom.add(replace(run.part(node, dead, stub_mm), via=""))
    if row.far is not None and row.far.word == "gone":
        for beyond, _ in far_runs:
            loom.drop(beyond, row.id)
        if far_node in loom.s.nodes:
            loom.detach(far_node, row.wire, row.id)
        return
    other = far_runs[-1][1] if far_runs else far_node
    cut_end = loom.stub(loom.made_at(row, row.wire, other), row.id, row.far or UNSAID)
    loom.add(run.part(far_node, cut_end, rest_mm))


def _fate(cover: Cover | None, stub: Length | None) -> Fate:
    if cover is None:
        return Fate("capped, cover not recorded", "capped", stub)
    word = "uncapped" if cover.bare else "taped" if cover.tape else "capped"
    return Fate(f"{word}: {cover.text}", word, stub, cover)


def _facts(row: Change) -> Iterator[Said]:
    if row.cover is not None:
        yield Said("cover", "covered with", row.cover.text, in_step=False)
    if row.far is not None:
        yield Said("far", "the rest of the wire", row.far)


KIND = Kind(
    name="cap",
    means="a stub sealed off; the far part's fate is said or unknown",
    written="cuts a wire near `end:` and seals the stub (`stub: 250 mm`); `far:` says how the rest was left",
    keys=("wire", "was", "end", "stub", "cover", "far", "where"),
    needs=(("wire",), ("end",)), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="dead", does="cut", cuts=True, joints=False, grounds=False,
    turn=2, visit="", concerns="ends",
    heading=lambda row: f"Stub of {wires_of(row)}{at_end(row)}",
    lengths={}, facts=_facts, ticks=lambda row, jointed: ("cut", "sealed"),
)  # fmt: skip
