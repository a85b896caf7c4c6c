"""Each ground point: what lands on it, whose current passes it, and how far its stud rises."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from aswired.electric.copper import cable_part
from aswired.electric.grid import BATTERY
from aswired.electric.transfer import SHORTED, Transfer, is_whole
from aswired.figure import Figure, Input
from aswired.figures.currents import at_once
from aswired.figures.electric import total_current
from aswired.harness import NodeKind, View
from aswired.model import Job
from aswired.trace import circle, leads_round
from aswired.worked import Circuit, GroundSummary


@dataclass(frozen=True)
class Meshed:
    """A ground point that currents can leave or pass by more than one way: what the network's solution gives it.

    `current_a` runs through its own cable, `rise_v` is its stud above battery negative; None where the solution rests
    on something that is not recorded, which `missing` names.
    """

    current_a: float | None
    rise_v: float | None
    missing: tuple[str, ...]


def ground_summaries(
    job: Job, view: View, circuits: Mapping[str, Circuit], transfer: Transfer
) -> tuple[GroundSummary, ...]:
    """Every ground point, declared or created by its first use, in the order of the job."""
    used = [name for name, node in view.nodes.items() if node.kind is NodeKind.GROUND]
    names = list(dict.fromkeys((*job.grounds, *used)))
    passing = {name: _passing(job, name, circuits) for name in names}
    on = transfer.together()
    meshed = {name: found for name in names if (found := _meshed(job, transfer, name, on))}
    points = tuple(_solved(_summary(job, view, name, passing, on, names), meshed.get(name)) for name in names)
    if not transfer.refused:
        return points
    return tuple(replace(point, rise=replace(point.rise, value=None, missing=transfer.refused)) for point in points)


def _meshed(job: Job, transfer: Transfer, name: str, on: Mapping[str, float | None]) -> Meshed | None:
    """A point where currents divide, or that is joined to a feed: there the loads behind it do not add up."""
    point = job.grounds.get(name)
    if point is None or not point.back_to:
        return None
    if transfer.shorted(name):
        return Meshed(None, None, (SHORTED,))
    cable = f"cable {name} to {point.back_to}"
    way = transfer.probe(name, BATTERY)
    if way is None or not transfer.takers.get(transfer.grid.run_of.get(cable, -1)):
        return None
    if all(is_whole(share) for share in way.values()):
        return None
    through = transfer.through(cable, on)
    rise = transfer.between(name, BATTERY, on)
    return Meshed(through.volts, rise.volts, tuple(dict.fromkeys((*through.missing, *rise.missing))))


def _solved(summary: GroundSummary, meshed: Meshed | None) -> GroundSummary:
    """A point in a mesh with the figures of the network's solution in place of the sums."""
    if meshed is None:
        return summary
    rule = "nodal solution of the resistive network"
    total = replace(
        summary.total, value=meshed.current_a, rule=rule, formula="share of the currents that takes this way",
        missing=meshed.missing or (() if meshed.current_a is not None else ("a way back to the battery",)),
    )  # fmt: skip
    rise = replace(
        summary.rise, value=meshed.rise_v, rule=rule, formula="U = sum of I x R along the way back", inputs=(),
        missing=meshed.missing or (() if meshed.rise_v is not None else ("a way back to the battery",)),
    )  # fmt: skip
    return replace(summary, total=total, rise=rise)


def _passing(job: Job, ground: str, circuits: Mapping[str, Circuit]) -> tuple[str, ...]:
    """Kept loads whose return passes the point, in the order of the job."""
    return tuple(
        name
        for name, circuit in circuits.items()
        if name in job.kept
        and circuit.back.state == "complete"
        and any(step.kind == "ground" and step.name == ground for step in circuit.back.steps)
    )


def ring_limit(job: Job) -> int:
    """Most rings on one stud: the job's own figure, else that of the source above."""
    return int(job.held_to["rings per stud"].value)


def _summary(
    job: Job,
    view: View,
    name: str,
    passing: Mapping[str, tuple[str, ...]],
    on: Mapping[str, float | None],
    names: list[str],
) -> GroundSummary:
    point = job.grounds.get(name)
    rings = tuple(ring for ring in view.rings if ring.ground == name)
    lands = tuple(dict.fromkeys(stretch.wire for stretch in view.at_node.get(name, ())))
    behind = tuple(other for other in names if other != name and name in _ways_back(job, other))
    state = (
        "gone" if point is not None and point.gone and not lands else "in use" if lands or passing[name] else "unused"
    )
    together = {point: at_once(on, loads) for point, loads in passing.items()}
    total = total_current(job, name, together[name])
    return GroundSummary(
        name=name,
        point=point,
        state=state,
        rings=rings,
        ring_limit=ring_limit(job),
        lands=lands,
        loads=passing[name],
        behind=behind,
        back_to=point.back_to if point is not None else "",
        total=total,
        rise=_rise(job, name, together),
    )


def _ways_back(job: Job, ground: str) -> tuple[str, ...]:
    """The points a ground's current goes on through, nearest first."""
    found: list[str] = []
    at = ground
    while at in job.grounds and job.grounds[at].back_to and job.grounds[at].back_to not in (*found, ground):
        at = job.grounds[at].back_to
        found.append(at)
    return tuple(found)


def _rise(job: Job, name: str, passing: Mapping[str, tuple[str, ...]]) -> Figure:
    """Volts of the stud above battery negative: each cable on the way back carries all that passes its point."""
    inputs: list[Input] = []
    missing: list[str] = []
    volts = 0.0
    way = (name, *_ways_back(job, name))
    for ground in way:
        if ground == "battery-":
            break
        stated = job.grounds.get(ground)
        if stated is None or not stated.back_to:
            missing.append(f"the way back from {ground}")
            break
        part = cable_part(ground, job)
        total = total_current(job, ground, passing.get(ground, ()))
        inputs.append(Input(part.name, part.mohm, "mohm", part.source))
        inputs.append(Input(f"current through {ground}", total.value, "A", f"{ground}.total"))
        if part.mohm is None:
            missing.append(f"{part.name}: {part.source}")
        missing += total.missing
        if part.mohm is not None and total.value is not None:
            volts += part.mohm / 1000 * total.value
    if points := circle(job, name):
        missing.insert(0, f"a way to battery negative: {leads_round(points)}")
    value = None if missing else volts
    return Figure(
        f"{name}.rise",
        f"rise of {name} above battery negative, all on that can be on together",
        value,
        "V",
        "cables in series, each with its sum",
        "U = sum of R x I",
        tuple(inputs),
        tuple(dict.fromkeys(missing)),
    )
