"""Faults in a small car, solved by a circuit simulator: fuses open one after another until those left hold.

The circuit is made from what the job's file says, wire by wire; views, traces and networks of the program are not
looked at. Loads are resistances that take their current at the job's supply. Many faults are solved in one run, each
in a copy of the circuit of its own.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from aswired.record import Job
from tests.electric import spice
from tests.electric.exporter import MOHM_PER_M

PER_M = {**{float(size.split()[0]): mohm for size, mohm in MOHM_PER_M.items() if "mm2" in size}, 0.35: 54.4}
FUSE_OHM, SWITCH_OHM, DEAD_OHM, LEAK_OHM = 1e-3, 1e-3, 1e-3, 1e10
NOUGHT_A = 1e-3  # a fault that carries less leads nowhere
HOLDS = 0.999  # of what opens the first fuse
AT_MOST = 1 + 1e-6  # numbers that a simulator gives are equal to within this


@dataclass(frozen=True)
class Part:
    """Something that current passes. kind: wire, cable, fuse, switch, load."""

    kind: str
    name: str
    a: str
    b: str
    ohm: float


@dataclass(frozen=True)
class Circuit:
    """A job's donor harness."""

    parts: tuple[Part, ...]
    ratings: Mapping[str, float]
    supply: float

    @cached_property
    def unfused(self) -> frozenset[str]:
        """What copper and switches alone join to battery+; a fuse with no wire before it is fed from there too."""
        seen = {"battery+"}
        grown = True
        while grown:
            grown = False
            for part in self.parts:
                if part.kind in ("wire", "switch") and (part.a in seen) != (part.b in seen):
                    seen |= {part.a, part.b}
                    grown = True
        return frozenset(seen)

    @property
    def nodes(self) -> list[str]:
        return list(dict.fromkeys(end for part in self.parts for end in (part.a, part.b)))


@dataclass(frozen=True)
class Fault:
    """A resistance between two points that should not be there. `load`: the load that it lies across; '' = a wire that
    touches battery negative. `alone`: no other load is on."""

    a: str
    b: str
    load: str = ""
    alone: bool = False


@dataclass
class Copy:
    """A circuit with one fault of so many ohm, and the fuses that have opened; none = the fault is not there."""

    circuit: Circuit
    fault: Fault
    ohm: float | None
    opened: tuple[str, ...] = ()
    amps: dict[tuple[str, str], float] = field(default_factory=dict)  # kind and name of a part -> what it carries [A]
    volts: float = 0.0  # across the fault

    @property
    def parts(self) -> Iterator[Part]:
        for part in self.circuit.parts:
            if part.kind == "fuse" and part.name in self.opened:
                continue
            if part.kind == "load" and self.fault.alone and part.name != self.fault.load:
                continue
            yield part

    @property
    def exceeds(self) -> str:
        """The fuse whose current exceeds its rating by the largest factor; '' where none does."""
        times = {name: abs(self.amps.get(("fuse", name), 0.0)) / most for name, most in self.circuit.ratings.items()}
        worst = max(times, key=lambda name: times[name])
        return worst if times[worst] > AT_MOST else ""


def circuit_of(job: Job) -> Circuit:
    """The circuit of a job whose facts are all written."""
    fed = {end for wire in job.wires.values() for end in (wire.from_, wire.to)}
    parts: list[Part] = []
    for name, wire in job.wires.items():
        parts.append(Part("wire", name, wire.from_, wire.to, _copper_ohm(wire.size.text, wire.length)))
    for name in job.fuses:
        feed = f"{name}.feed" if f"{name}.feed" in fed else "battery+"
        parts.append(Part("fuse", name, feed, name, FUSE_OHM))
    for name, point in job.grounds.items():
        assert point.cable is not None
        parts.append(Part("cable", name, name, point.back_to, _copper_ohm(point.cable.text, point.cable_length)))
    for name, switch in job.switches.items():
        assert switch.between is not None
        parts.append(Part("switch", name, *switch.between, SWITCH_OHM))
    supply = _value(job.supply)
    for name, load in job.loads.items():
        assert load.between is not None
        assert load.draws is not None
        assert load.draws.current_a is not None
        parts.append(Part("load", name, *load.between, supply / load.draws.current_a))
    ratings = {name: _value(fuse.rating) for name, fuse in job.fuses.items()}
    return Circuit(tuple(parts), ratings, supply)


def _value(stated: object) -> float:
    value = getattr(stated, "value", None)
    assert isinstance(value, float)
    return value


def _copper_ohm(size: str, length: object) -> float:
    mm = getattr(length, "mm", None)
    assert isinstance(mm, float)
    return PER_M[float(size.split()[0])] * mm / 1e6


def settled(circuit: Circuit, faults: Iterable[Fault], chance: random.Random, folder: Path) -> list[Copy]:
    """Each fault dead, so that the first fuse just holds, and of resistances by chance: fuses opened till none has to.

    The first of them is the car without its fault. Fuses that open there are open from the start. What just holds
    follows from two solved circuits, without the fault and with it dead, because all of it is linear.
    """
    without = [Copy(circuit, fault, None) for fault in faults]
    _till_they_rest(without, folder)
    dead = [Copy(circuit, free.fault, DEAD_OHM, free.opened) for free in without]
    _solve(dead, folder)
    softer: list[Copy] = []
    for free, short in zip(without, dead, strict=True):
        fault_a = short.volts / DEAD_OHM
        if abs(fault_a) < NOUGHT_A:
            continue
        ohms = [circuit.supply / chance.uniform(2, 60) for _ in range(2)]
        left = [name for name in circuit.ratings if name not in free.opened]
        holds = min((_till(circuit.ratings[name], free, short, name) for name in left), default=1.0) * HOLDS
        if holds < HOLDS:
            ohms.append(free.volts / (holds * fault_a) - (free.volts - short.volts) / fault_a)
        softer += [Copy(circuit, short.fault, ohm, free.opened) for ohm in ohms]
    _till_they_rest([*dead, *softer], folder)
    return [*without[:1], *dead, *softer]


def _till_they_rest(copies: list[Copy], folder: Path) -> None:
    """Opens of each the fuse that exceeds its rating most, and solves it again, until none exceeds it."""
    todo = copies
    while todo:
        _solve([copy for copy in todo if not copy.amps], folder)
        todo = [copy for copy in todo if copy.exceeds]
        for copy in todo:
            copy.opened, copy.amps = (*copy.opened, copy.exceeds), {}


def _till(rating: float, free: Copy, short: Copy, fuse: str) -> float:
    """The share of the dead fault's current at which a fuse comes to its rating."""
    before, after = free.amps["fuse", fuse], short.amps["fuse", fuse]
    found = [(end - before) / (after - before) for end in (rating, -rating) if after != before]
    return min((share for share in found if share > 0), default=1.0)


def _solve(copies: list[Copy], folder: Path) -> None:
    """Currents of every part of the copies, by one run of the simulator."""
    if not copies:
        return
    lines, names = [f"VS vs 0 {copies[0].circuit.supply!r}"], []
    for number, copy in enumerate(copies):
        node = {"battery+": "vs", "battery-": "0"}
        for end in copy.circuit.nodes:
            if node.setdefault(end, f"c{number}n{len(node)}") not in ("vs", "0"):
                lines.append(f"RL{number}x{len(node)} {node[end]} 0 {LEAK_OHM!r}")
        for place, part in enumerate(copy.parts):
            lines.append(f"R{number}x{place} {node[part.a]} {node[part.b]} {part.ohm!r}")
        if copy.ohm is not None:
            lines.append(f"RF{number} {node[copy.fault.a]} {node[copy.fault.b]} {copy.ohm!r}")
        names.append(node)
    volts = spice.all_volts(lines, folder)
    for copy, node in zip(copies, names, strict=True):
        at = {end: volts[name] for end, name in node.items()}
        copy.amps = {(part.kind, part.name): (at[part.a] - at[part.b]) / part.ohm for part in copy.parts}
        copy.volts = at[copy.fault.a] - at[copy.fault.b]
