"""A job as a netlist, for a donor harness that no row has changed: its own reading of the job, shared with nobody.

Wires, fuses, switches, cables and loads are taken as the file says them and put down one by one; what the program
makes of them (views, runs, traces) is not looked at. Resistances of the sizes stand here once more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass

from aswired.record import Job
from aswired.text.units import Length, Quantity

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
    drawn: str,
    *,
    dead: Collection[str] = (),
    opened: Collection[str] = (),
    loose: Collection[str] = (),
) -> Netlist:
    """The circuit of a job's donor harness.

    Args:
        drawn: how loads are drawn. stated: as their currents, with every switch and contact closed. behaving: lamps as
            filaments, the rest as resistances, and each relay's contact closes from rest by the volts over its coil.
        dead: fuses whose feed is not live. A fuse to which no wire brings a feed is live else, like battery+.
        opened: switches that are open.
        loose: ground points whose cable has come off.
    """
    wires = list(job.wires.values())
    in_it = Counter(end for wire in wires for end in (wire.from_, wire.to))
    behind = {end for table in (job.loads, job.switches) for part in table.values() for end in part.between or ()}
    meet = [end for end, count in in_it.items() if count > 1 and end in behind]  # in one terminal, before its contact
    node: dict[str, str] = {"battery-": "0", "battery+": "vs"}
    for fuse in job.fuses:
        if f"{fuse}.feed" not in in_it and fuse not in dead:
            node[f"{fuse}.feed"] = "vs"

    def at(end: str) -> str:
        return node.setdefault(end, f"n{len(node)}")

    def lines() -> Iterator[str]:
        yield f"VS vs 0 {_value(job.supply)!r}"
        yield FILAMENT
        for number, wire in enumerate(wires):
            mohm = MOHM_PER_M[wire.size.text] * _mm(wire.length) / 1000
            mohm += sum(_at_end(end, in_it[end], job) for end in (wire.from_, wire.to) if end not in meet)
            mohm += _usual(job, "cavity") if wire.via else 0
            a, b = (f"terminal{meet.index(end)}" if end in meet else at(end) for end in (wire.from_, wire.to))
            yield f"RW{number} {a} {b} {mohm / 1000!r}"
        for number, end in enumerate(meet):
            yield f"RP{number} terminal{number} {at(end)} {_usual(job, 'cavity') / 1000!r}"
        for number, fuse in enumerate(job.fuses):
            yield f"RF{number} {at(f'{fuse}.feed')} {at(fuse)} {_usual(job, 'fuse') / 1000!r}"
        for number, (name, point) in enumerate(job.grounds.items()):
            if name not in loose:
                yield f"RG{number} {at(name)} {at(point.back_to)} {cable_mohm(job, name) / 1000!r}"
        for number, name in enumerate(job.switches):
            if name not in opened:
                yield from _switch(job, name, number, at, by_coil=drawn == "behaving")
        for number, name in enumerate(job.loads):
            yield _load(job, name, number, at, drawn)
        for number, name in enumerate(dict.fromkeys(node.values())):  # a part that hangs in the air is at 0 V
            if name not in ("0", "vs"):
                yield f"RA{number} {name} 0 1e10"

    return Netlist(tuple(lines()), node)


def cable_mohm(job: Job, point: str) -> float:
    """The cable of a ground point with its rings, on its own stud and on that of the point it leads to."""
    cable = job.grounds[point].cable
    assert cable is not None
    rings = sum(end in job.grounds for end in (point, job.grounds[point].back_to))
    return MOHM_PER_M[cable.text] * _mm(job.grounds[point].cable_length) / 1000 + rings * _usual(job, "ring")


def _value(stated: Quantity | None) -> float:
    assert stated is not None
    assert stated.value is not None
    return stated.value


def _mm(stated: Length | None) -> float:
    assert stated is not None
    assert stated.mm is not None
    return stated.mm


def _two(between: tuple[str, str] | None) -> tuple[str, str]:
    assert between is not None
    return between


def _usual(job: Job, key: str) -> float:
    return _value(getattr(job.usual, f"{key}_resistance"))


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


def _switch(job: Job, name: str, number: int, at: Callable[[str], str], by_coil: bool) -> Iterator[str]:
    switch = job.switches[name]
    a, b = map(at, _two(switch.between))
    ohm = _usual(job, "contact" if switch.worked_by else "switch") / 1000
    if not (by_coil and switch.worked_by):
        yield f"RS{number} {a} {b} {ohm!r}"
        return
    plus, minus = map(at, _two(job.loads[switch.worked_by].between))
    pulls_in, lets_go = PULLS_IN * _value(job.system), LETS_GO * _value(job.system)
    middle, half = (pulls_in + lets_go) / 2, (pulls_in - lets_go) / 2
    # a coil pulls whichever way its current runs; a contact that is closed at rest opens as the volts rise
    sign, rest = ("-", "ON") if switch.at_rest == "closed" else ("", "OFF")
    middle = -middle if sign else middle
    yield f"BS{number} coil{number} 0 V={sign}abs(V({plus},{minus}))"
    yield f"S{number} {a} {b} coil{number} 0 relay{number} {rest}"
    yield f".model relay{number} sw(vt={middle!r} vh={half!r} ron={ohm!r} roff=1e15)"


def _load(job: Job, name: str, number: int, at: Callable[[str], str], drawn: str) -> str:
    load = job.loads[name]
    assert load.draws is not None
    assert load.draws.current_a is not None
    a, b = map(at, _two(load.between))
    amps, volts = load.draws.current_a, load.draws.at_v or _value(job.supply)
    if drawn == "stated":
        return f"IL{number} {a} {b} {amps!r}"
    if load.class_ == "lamp":
        return f"BL{number} {a} {b} I=filament(V({a},{b}),{amps!r},{volts!r})"
    return f"RL{number} {a} {b} {volts / amps!r}"
