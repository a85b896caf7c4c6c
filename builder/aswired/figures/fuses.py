"""Each fuse: what it feeds now, the thinnest wire it protects, and the verdict of the planning table."""

from __future__ import annotations

from collections.abc import Mapping

from aswired.compute.protection import judge_fuse
from aswired.electric.copper import conductor_of
from aswired.figure import Figure, Input
from aswired.figures.electric import total_current
from aswired.harness import NodeKind, Stretch, View
from aswired.model import Job
from aswired.trace import Net
from aswired.worked import Circuit, FuseSummary


def fuse_summaries(job: Job, view: View, circuits: Mapping[str, Circuit]) -> tuple[FuseSummary, ...]:
    """Every fuse of a view, those that rows created behind those that the job declares."""
    net = Net(job, view)
    met = [name for name, node in view.nodes.items() if node.kind is NodeKind.FUSE]
    return tuple(_summary(job, view, net, name, circuits) for name in dict.fromkeys((*view.fuses, *met)))


def protected(net: Net, fuse: str) -> tuple[Stretch, ...]:
    """Every stretch on the load side of a fuse, up to loads, grounds and the next fuse."""
    found: list[Stretch] = []
    seen, todo = {fuse}, [fuse]
    for at in todo:
        if at != fuse and (net.is_ground(at) or net.is_source(at)):
            continue
        for link in net.links.get(at, ()):
            other = link.other(at)
            if link.kind == "fuse":
                continue
            if link.stretch is not None and link.stretch not in found:
                found.append(link.stretch)
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return tuple(found)


def _summary(job: Job, view: View, net: Net, name: str, circuits: Mapping[str, Circuit]) -> FuseSummary:
    state = view.fuses.get(name)
    fuse = state.facts if state is not None else None
    loads = tuple(load for load, circuit in circuits.items() if name in circuit.fuses and load in job.kept)
    wires = protected(net, name)
    known = [(found.area_mm2, stretch) for stretch in wires if (found := conductor_of(stretch.size, job)) is not None]
    unread = [stretch for stretch in wires if conductor_of(stretch.size, job) is None]
    area, thinnest = min(known, key=lambda pair: pair[0]) if known else (None, None)
    fuse_a = fuse.rating.value if fuse is not None and fuse.rating is not None else None
    verdict = judge_fuse(fuse_a, area)
    inputs = (
        Input("thinnest wire", thinnest.name if thinnest else None, "", "recorded sizes of what it feeds"),
        Input(
            "its copper",
            None if area is None else round(area, 3),
            "mm2",
            thinnest.size.text if thinnest else "not recorded",
        ),
        Input("row of the planning table", verdict.row_mm2, "mm2", "planning table"),
    )
    missing = ("size of a wire it protects",) if area is None else ()
    note = verdict.note
    if unread:
        note += f"; size not read: {', '.join(dict.fromkeys(stretch.wire for stretch in unread))}"
    rating = Figure(
        f"{name}.rating",
        f"planning rating of the thinnest wire behind {name}",
        verdict.rating_a,
        "A",
        "planning table",
        "rating of the next smaller row",
        inputs,
        missing,
        note,
    )
    ok = verdict.ok if verdict.ok is False or not unread else None
    return FuseSummary(
        name,
        fuse,
        loads,
        total_current(job, name, loads),
        thinnest,
        rating,
        ok,
        state is not None and state.spare,
        state.rows if state is not None else (),
        state.in_wire if state is not None else "",
    )
