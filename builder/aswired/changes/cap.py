"""cap: a wire is cut near one end and the stub sealed; or a stub that hung open is sealed (M7)."""

from __future__ import annotations

from dataclasses import replace

from aswired.harness import NodeKind
from aswired.loom import Loom, Refused
from aswired.model import Change
from aswired.units import Length
from aswired.written import Cover, Fate

NAME = "cap"
MEANS = "a stub sealed off; the far part's fate is said or unknown"
KEYS = ("wire", "was", "end", "stub", "cover", "far", "where")
NEEDS = (("wire",), ("end",))


def apply(row: Change, loom: Loom) -> None:
    loom.wire(row.wire, row)
    number, node = loom.end_of(row.wire, row.end, "end")
    fate = _fate(loom.cover(row), row.stub)
    if loom.s.nodes[node].kind is NodeKind.STUB:
        loom.s.nodes[node] = replace(loom.s.nodes[node], fate=fate)
        if row.stub is not None:
            loom.s.runs[number] = replace(loom.s.runs[number], length_mm=row.stub.mm)
        return
    run = loom.s.runs.pop(number)
    stub_mm = row.stub.mm if row.stub else None
    if stub_mm is not None and run.reach_mm is not None and stub_mm >= run.reach_mm:
        raise Refused(
            f"a stub of {round(stub_mm)} mm leaves nothing of the {round(run.reach_mm)} mm that hang at '{node}'",
            "Measure the stub from the end to the cut",
            "stub",
        )
    far_node = run.other(node)
    rest_mm = None if stub_mm is None or run.length_mm is None else run.length_mm - run.barrel_at(node) - stub_mm
    near_mm = None if stub_mm is None else stub_mm + run.barrel_at(node)
    dead = loom.stub(f"{row.id}-{row.wire}-{node}", row.id, fate)
    far_runs = loom.onward(row.wire, far_node)
    loom.add(replace(run, a=node, b=dead, length_mm=near_mm, via="", barrel_mm=(run.barrel_at(node), 0.0)))
    if row.far is not None and row.far.word == "gone":
        for beyond, _ in far_runs:
            loom.drop(beyond, row.id)
        if far_node in loom.s.nodes:
            loom.detach(far_node, row.wire, row.id)
        return
    other = far_runs[-1][1] if far_runs else far_node
    cut_end = loom.stub(f"{row.id}-{row.wire}-{other}", row.id, row.far)
    loom.add(replace(run, a=far_node, b=cut_end, length_mm=rest_mm, barrel_mm=(run.barrel_at(far_node), 0.0)))


def _fate(cover: Cover | None, stub: Length | None) -> Fate:
    if cover is None:
        return Fate("capped, cover not recorded", "capped", stub)
    word = "uncapped" if cover.bare else "taped" if cover.tape else "capped"
    return Fate(f"{word}: {cover.text}", word, stub)
