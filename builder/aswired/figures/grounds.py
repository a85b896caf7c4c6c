"""Each ground point: what lands on it, whose current passes it, and how far its stud rises with all of it on."""

from __future__ import annotations

from collections.abc import Mapping

from aswired.figure import Figure, Input
from aswired.figures.copper import cable_part
from aswired.figures.electric import total_current
from aswired.harness import NodeKind, View
from aswired.model import GroundPoint, Job
from aswired.worked import Circuit, GroundSummary

RINGS_PER_STUD = 4  # AC 43.13-1B CHG 1 para 11-174b (read): at most four terminals on one stud


def ground_summaries(job: Job, view: View, circuits: Mapping[str, Circuit]) -> tuple[GroundSummary, ...]:
    """Every ground point, declared or created by its first use, in the order of the job."""
    used = [name for name, node in view.nodes.items() if node.kind is NodeKind.GROUND]
    names = list(dict.fromkeys((*job.grounds, *used)))
    passing = {name: _passing(job, name, circuits) for name in names}
    return tuple(_summary(job, view, name, passing, names) for name in names)


def _passing(job: Job, ground: str, circuits: Mapping[str, Circuit]) -> tuple[str, ...]:
    """Kept loads whose return passes the point, in the order of the job."""
    return tuple(
        name
        for name, circuit in circuits.items()
        if job.loads[name].verdict == "kept"
        and circuit.back.state == "complete"
        and any(step.kind == "ground" and step.name == ground for step in circuit.back.steps)
    )


def ring_limit(job: Job) -> int:
    """Most rings on one stud: the job's own figure, else that of the source above."""
    stated = job.usual.rings_per_stud
    return int(stated) if stated and stated.isdigit() else RINGS_PER_STUD


def _summary(
    job: Job, view: View, name: str, passing: Mapping[str, tuple[str, ...]], names: list[str]
) -> GroundSummary:
    point = job.grounds.get(name)
    rings = tuple(ring for ring in view.rings if ring.ground == name)
    lands = tuple(dict.fromkeys(stretch.wire for stretch in view.at_node.get(name, ())))
    behind = tuple(other for other in names if other != name and name in _ways_back(job, other))
    state = (
        "gone" if point is not None and point.gone and not lands else "in use" if lands or passing[name] else "unused"
    )
    total = total_current(job, name, passing[name])
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
        rise=_rise(job, name, point, passing),
    )


def _ways_back(job: Job, ground: str) -> tuple[str, ...]:
    """The points a ground's current goes on through, nearest first."""
    found: list[str] = []
    at = ground
    while at in job.grounds and job.grounds[at].back_to and job.grounds[at].back_to not in (*found, ground):
        at = job.grounds[at].back_to
        found.append(at)
    return tuple(found)


def _rise(job: Job, name: str, point: GroundPoint | None, passing: Mapping[str, tuple[str, ...]]) -> Figure:
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
    value = None if missing else volts
    return Figure(
        f"{name}.rise",
        f"rise of {name} above battery negative, all on together",
        value,
        "V",
        "cables in series, each with its sum",
        "U = sum of R x I",
        tuple(inputs),
        tuple(dict.fromkeys(missing)),
    )
