"""Each ground point: what lands on it, whose current passes it, and how far its stud rises."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.harness import NodeKind, StudRing, View
from aswired.car.trace import circle, leads_round
from aswired.figures.currents import current_through, passing
from aswired.figures.ground_states import way_home
from aswired.network.grid import BATTERY
from aswired.network.transfer import SHORTED, SOLVED, UnitSolutions
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import GroundPoint, Job


@dataclass(frozen=True)
class GroundSummary:
    """One ground point in the shown view."""

    name: str
    point: GroundPoint | None  # as declared, None when created by its first use
    state: str  # in use, unused, gone
    rings: tuple[StudRing, ...]
    ring_limit: int
    lands: tuple[str, ...]  # wires that end on it
    loads: tuple[str, ...]  # kept loads whose return passes it
    behind: tuple[str, ...]  # other ground points whose current passes it
    back_to: str
    total: Figure  # A, of the kept loads that return through it those that can be on together
    rise: Figure  # V of the stud above battery negative, all on that can be on together


def ground_summaries(
    job: Job, view: View, circuits: Mapping[str, Circuit], transfer: UnitSolutions
) -> tuple[GroundSummary, ...]:
    """Every ground point, declared or created by its first use, in the order of the job."""
    used = [name for name, node in view.nodes.items() if node.kind is NodeKind.GROUND]
    names = list(dict.fromkeys((*job.grounds, *used)))
    loads = {name: _passing(job, name, circuits) for name in names}
    return tuple(_summary(job, view, name, loads, transfer, names) for name in names)


def _passing(job: Job, ground: str, circuits: Mapping[str, Circuit]) -> tuple[str, ...]:
    """Kept loads whose return passes the point, in the order of the job."""
    return tuple(
        name
        for name, circuit in circuits.items()
        if name in job.kept_loads
        and circuit.back.state == "complete"
        and any(step.kind == "ground" and step.name == ground for step in circuit.back.steps)
    )


def ring_limit(job: Job) -> int:
    """Most rings on one stud: the job's own figure, else that of the source above."""
    return int(job.limits_in_force["rings per stud"].value)


def _summary(
    job: Job, view: View, name: str, loads: Mapping[str, tuple[str, ...]], transfer: UnitSolutions, names: list[str]
) -> GroundSummary:
    point = job.grounds.get(name)
    rings = tuple(ring for ring in view.rings if ring.ground == name)
    lands = tuple(dict.fromkeys(stretch.wire for stretch in view.at_node.get(name, ())))
    behind = tuple(other for other in names if other != name and name in _ways_back(job, other))
    state = "gone" if point is not None and point.gone and not lands else "in use" if lands or loads[name] else "unused"
    return GroundSummary(
        name=name,
        point=point,
        state=state,
        rings=rings,
        ring_limit=ring_limit(job),
        lands=lands,
        loads=loads[name],
        behind=behind,
        back_to=point.back_to if point is not None else "",
        total=current_through(transfer, _way_back(transfer, name), name, loads[name]),
        rise=_rise(transfer, name, loads),
    )


def _cable(job: Job, ground: str) -> str:
    """The key of a point's cable in the network; '' for a point that has none."""
    point = job.grounds.get(ground)
    return f"cable {ground} to {point.back_to}" if point is not None and point.back_to else ""


def _way_back(transfer: UnitSolutions, ground: str) -> str:
    """The key of a point's way back in the network, its cable or the body; '' for a point that has none."""
    way = way_home(ground, transfer.grid)
    return way.key if way is not None else ""


def _ways_back(job: Job, ground: str) -> tuple[str, ...]:
    """The points a ground's current goes on through, nearest first."""
    found: list[str] = []
    at = ground
    while at in job.grounds and job.grounds[at].back_to and job.grounds[at].back_to not in (*found, ground):
        at = job.grounds[at].back_to
        found.append(at)
    return tuple(found)


def _rise(transfer: UnitSolutions, name: str, loads: Mapping[str, tuple[str, ...]]) -> Figure:
    """Volts of the stud above battery negative, all on that can be on together.

    The network gives it. Where all that passes each cable of the way home are the loads behind it, it is told as what
    it then is: each cable with its sum.
    """
    job = transfer.grid.job
    way = [ground for ground in (name, *_ways_back(job, name)) if ground != BATTERY]
    passed = [passing(transfer, _cable(job, ground), loads.get(ground, ())) for ground in way]
    drawing = passed[0].drawing
    missing: list[Missing] = []
    if points := circle(job, name):
        missing.append(Missing("a way to battery negative", why=leads_round(points)))
    missing += [Missing(f"the way back from {ground}") for ground in way if not _cable(job, ground)]
    shares = transfer.probe(name, BATTERY) or {}
    if not missing:
        flows = any(load in drawing for index in shares for load, _ in transfer.takers.get(index, ()))
        rise = transfer.between(name, BATTERY, drawing)
        shorted = (SHORTED,) if transfer.shorted(name) else ()
        missing += transfer.refused or shorted or rise.missing
        if not (flows or missing):  # nothing traced is not nothing flowing
            missing.append(Missing(f"a load of this list on {name}"))
    if all(one.adds_up for one in passed):
        rule, formula = "cables in series, each with its sum", "U = sum of R x I"
        keys = [_cable(job, ground) for ground in way]
    else:
        rule, formula = SOLVED, "U = sum of I x R along the way back"
        keys = [branch.key for index in shares for branch in transfer.grid.runs[index].branches]
    return Figure(
        f"{name}.rise",
        f"rise of {name} above battery negative, all on that can be on together",
        None if missing else rise.volts,
        "V",
        rule,
        formula,
        tuple(_resistances(transfer, keys, drawing)),
        tuple(dict.fromkeys(missing)),
    )


def _resistances(transfer: UnitSolutions, keys: Iterable[str], drawing: Mapping[str, float | None]) -> Iterator[Input]:
    """The parts of these branches, with the current through them."""
    for key in keys:
        branch = transfer.grid.by_key.get(key)
        if branch is None:
            continue
        amps = transfer.through(branch, drawing).volts
        carried = "current not determined" if amps is None else f"{amps:.2f} A"
        for part in branch.parts:
            yield part.as_input(carried)
