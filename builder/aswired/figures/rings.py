"""The current through each ring on a stud, with every load behind it on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.harness import NodeKind, Stretch, StudRing, View
from aswired.car.trace import Net, Reach
from aswired.record import Job


@dataclass(frozen=True)
class RingCurrent:
    """What passes one ring, all on together. `least_a` is what is recorded; `whole`: nothing more can come to it."""

    ring: StudRing
    least_a: float
    whole: bool


def ring_currents(
    job: Job, view: View, circuits: Mapping[str, Circuit], ground: str, rings: tuple[StudRing, ...]
) -> tuple[RingCurrent, ...]:
    """Each ring of one stud with its current. [A]

    A ring is whole only when every way behind its wires is recorded, ends in kept loads of known current that return
    here, and does not come back to the stud by another ring: there the current would divide.
    """
    net = Net(job, view)
    behind = [
        (number, stretch, net.reach(stretch.other(ground)))
        for number, ring in enumerate(rings)
        for stretch in view.at_node.get(ground, ())
        if stretch.wire in ring.wires
    ]
    found = []
    for number, ring in enumerate(rings):
        ways = [(stretch, reach) for of, stretch, reach in behind if of == number]
        elsewhere = {stretch.other(ground) for of, stretch, _ in behind if of != number}
        if any(elsewhere.intersection(reach.nodes) for _, reach in ways):
            found.append(RingCurrent(ring, 0.0, False))
            continue
        ends = dict.fromkeys(end for _, reach in ways for end in reach.nodes)
        amps = {
            load: _returned_a(job, circuits[load], end, ground)
            for end in ends
            for load in net.load_at.get(end, ())
            if load in job.kept_loads
        }
        known = [value for value in amps.values() if value is not None]
        whole = bool(ways) and all(_recorded(net, reach, stretch, ground) for stretch, reach in ways)
        found.append(RingCurrent(ring, sum(known), whole and len(known) == len(amps)))
    return tuple(found)


def _returned_a(job: Job, circuit: Circuit, end: str, ground: str) -> float | None:
    """What a load sends from its `end` to the stud; None when that is not recorded. [A]"""
    draws = job.loads[circuit.load].draws
    here = circuit.return_end == end and circuit.ground == ground and circuit.back.state == "complete"
    return draws.current_a if here and draws is not None else None


def _recorded(net: Net, reach: Reach, stretch: Stretch, ground: str) -> bool:
    """Whether all that can send current through a ring's wire is on record."""
    start = stretch.other(ground)
    if net.node(start).kind is NodeKind.CAVITY and len(net.links[start]) == 1:
        return start in net.load_at  # the wire ends here: what it carries is what the load draws
    return not reach.unexamined and not reach.sources and set(reach.grounds) <= {ground}
