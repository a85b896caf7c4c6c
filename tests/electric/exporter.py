"""A job as a netlist, for a donor harness that no row has changed: its own reading of the job, shared with nobody.

Wires, fuses, switches, cables and loads are taken as the file says them and put down one by one; what the program
makes of them (views, runs, traces) is not looked at. Resistances of the sizes stand here once more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from aswired.model import Job

# Milliohms a metre at 20 C. mm2: ISO 6722-1 maximum (from memory). AWG: 1000/58 over SAE J1128 minimum area in mm2
# (from memory), copper of IEC 60028 (read).
MOHM_PER_M = {
    "0.5 mm2": 37.1, "0.75 mm2": 24.7, "1.0 mm2": 18.5, "1.5 mm2": 12.7, "2.5 mm2": 7.6, "4 mm2": 4.71, "6 mm2": 3.14,
    "10 mm2": 1.82, "16 mm2": 1.16, "25 mm2": 0.743,
    "18 AWG": 1000 / 58 / 0.76, "16 AWG": 1000 / 58 / 1.12, "14 AWG": 1000 / 58 / 1.85, "12 AWG": 1000 / 58 / 2.91,
}  # fmt: skip
PULLS_IN, LETS_GO = 0.65, 0.10  # of `system:`, volts over a coil: the thresholds of the relay switch below
# A filament: I = Id (V / Vd)^0.55 (Standard Handbook for Electrical Engineers; read); below the voltage at which that
# has come down to a twelfth of the hot resistance (from memory) it is that resistance.
POWER, COLD = 0.55, 12
FILAMENT = (
    f".func filament(v,i,u) {{abs(v) < u*{(1 / COLD) ** (1 / (1 - POWER))!r} ? {COLD}*i/u*v"
    f" : sgn(v)*i*pow(abs(v)/u,{POWER})}}"
)


@dataclass(frozen=True)
class Netlist:
    """Lines of a circuit; `node` gives the circuit's name for an end of the job."""

    lines: tuple[str, ...]
    node: Mapping[str, str]


def exported(
    job: Job,
    loads: Mapping[str, str],
    *,
    opened: Collection[str] = (),
    left_out: Collection[str] = (),
    relays_work: bool = False,
) -> Netlist:
    """The circuit of a job's donor harness.

    Args:
        loads: load -> how it is drawn: current, resistance or filament; loads left out are off.
        opened: switches and relay contacts that are open; every other one is closed.
        left_out: what has come loose: names of wires and of ground points' cables.
        relays_work: whether each relay's contact closes by the volts over its coil, from rest, in place of being given.
    """
    wires = [wire for name, wire in job.wires.items() if name not in left_out]
    ends = [end for wire in wires for end in (wire.from_, wire.to)]
    in_it = Counter(ends)
    node: dict[str, str] = {"battery-": "0", "battery+": "vs"}
    for fuse in job.fuses:
        if f"{fuse}.feed" not in in_it:
            node[f"{fuse}.feed"] = "vs"
    assert job.supply is not None

    def at(end: str) -> str:
        return node.setdefault(end, f"n{len(node)}")

    def lines() -> Iterator[str]:
        yield f"VS vs 0 {job.supply.value if job.supply else 0!r}"
        yield FILAMENT
        for number, wire in enumerate(wires):
            assert wire.length is not None and wire.length.mm is not None
            mohm = MOHM_PER_M[wire.size.text] * wire.length.mm / 1000
            mohm += sum(_at_end(end, in_it[end], job) for end in (wire.from_, wire.to))
            mohm += _usual(job, "cavity") if wire.via else 0
            yield f"RW{number} {at(wire.from_)} {at(wire.to)} {mohm / 1000!r}"
        for number, fuse in enumerate(job.fuses):
            yield f"RF{number} {at(f'{fuse}.feed')} {at(fuse)} {_usual(job, 'fuse') / 1000!r}"
        for number, (name, point) in enumerate(job.grounds.items()):
            if name in left_out:
                continue
            assert point.cable is not None and point.cable_length is not None and point.cable_length.mm is not None
            mohm = MOHM_PER_M[point.cable.text] * point.cable_length.mm / 1000
            yield f"RG{number} {at(name)} {at(point.back_to)} {mohm / 1000!r}"
        yield from _switches(job, at_of=at, opened=opened, relays_work=relays_work)
        for number, (name, drawn) in enumerate(loads.items()):
            yield _load(job, name, drawn, number, at)

    return Netlist(tuple(lines()), node)


def _usual(job: Job, key: str) -> float:
    stated = getattr(job.usual, f"{key}_resistance")
    assert stated is not None
    return float(stated.value)


def _at_end(end: str, wires_in_it: int, job: Job) -> float:
    """What the end of a wire adds: half a splice, a cavity (half when two wires meet in it), a ring."""
    if end in job.splices:
        return _usual(job, "joint") / 2
    if end in job.grounds:
        return _usual(job, "ring")
    plug, _, cavity = end.partition(".")
    if plug in job.fuses or plug in ("battery+", "battery-"):
        return 0.0
    assert cavity, end
    return _usual(job, "cavity") / (2 if wires_in_it > 1 else 1)


def _switches(job: Job, at_of, opened: Collection[str], relays_work: bool) -> Iterator[str]:
    assert job.system is not None and job.system.value is not None
    pulls_in, lets_go = PULLS_IN * job.system.value, LETS_GO * job.system.value
    for number, (name, switch) in enumerate(job.switches.items()):
        assert switch.between is not None
        a, b = map(at_of, switch.between)
        ohm = _usual(job, "contact" if switch.worked_by else "switch") / 1000
        if relays_work and switch.worked_by:
            coil = job.loads[switch.worked_by].between
            assert coil is not None
            plus, minus = map(at_of, coil)
            yield f"S{number} {a} {b} {plus} {minus} relay{number} OFF"
            middle, half = (pulls_in + lets_go) / 2, (pulls_in - lets_go) / 2
            yield f".model relay{number} sw(vt={middle!r} vh={half!r} ron={ohm!r} roff=1e9)"
        elif name not in opened:
            yield f"RS{number} {a} {b} {ohm!r}"


def _load(job: Job, name: str, drawn: str, number: int, at) -> str:
    load = job.loads[name]
    assert load.between is not None and load.draws is not None and job.supply is not None
    a, b = map(at, load.between)
    stated = load.draws
    assert stated.current_a is not None
    rated_v = stated.at_v if stated.at_v is not None else job.supply.value
    if drawn == "current":
        return f"IL{number} {a} {b} {stated.current_a!r}"
    if drawn == "resistance":
        return f"RL{number} {a} {b} {rated_v / stated.current_a!r}"
    return f"BL{number} {a} {b} I=filament(V({a},{b}),{stated.current_a!r},{rated_v!r})"
