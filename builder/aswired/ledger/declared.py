"""What is declared of restraint, high voltage and volts; what words ask about; what is open of the car as a whole."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.car.special import special_wires
from aswired.ledger.ends import NOT_SETTLED
from aswired.ledger.record import Reason, Weight, Why
from aswired.record import Change, Job
from aswired.text.one_line import Fate

HIGHEST_V = 60.0  # direct current; above it contact can kill: the limit of voltage class A in ISO 6469-3 (from memory)
MADE_FOR = (0.75, 1.3)  # of the supply: volts at which a load still works as it is made to; an estimate
_OF_SYSTEM = {"restraint": Why.RESTRAINT, "high voltage": Why.HIGH_VOLTAGE}
_WORDS = {
    "restraint": re.compile(r"\b(air ?bags?|squibs?|pretensioners?|tensioners?)\b", re.IGNORECASE),
    "high voltage": re.compile(r"\b(high[ -]voltage|traction batter(?:y|ies))\b", re.IGNORECASE),
    "fuel pump": re.compile(r"\bfuel pump\b", re.IGNORECASE),
}


@dataclass(frozen=True)
class OfSystem:
    """What belongs to one system that nobody works on: its wires, those taken out whole apart, and the parts that hold
    them."""

    kind: str
    wires: frozenset[str]
    parts: frozenset[str]


def of_wires(job: Job, views: Iterable[View], fuses: Mapping[str, frozenset[str]]) -> Iterator[tuple[str, Reason]]:
    """Wire -> what its declaration, or the rows that lay a hand on it, say against it, and what its words ask.

    `views` are those in which such wires may lie, the donor's first; `fuses` gives the wires behind each fuse.
    """
    views = tuple(views)
    for system in _systems(job, views):
        for row in job.changes:
            touched = _touched(job, system, row, fuses)
            if touched and job.change(row.id) is row:  # a row that bears the id of another is judged in nothing
                why = _OF_SYSTEM[system.kind]
                reason = Reason(why, Weight.NEVER, row.id, row.at, "special", by=tuple(sorted(touched)))
                told = {*touched, *row.wire_names, *filter(None, (row.onto,))}
                yield from ((wire, reason) for wire in sorted(told))
    yield from _called_so(job)


def _systems(job: Job, views: tuple[View, ...]) -> Iterator[OfSystem]:
    special = special_wires(job)
    out = {
        name for row in job.changes for name in row.wire_names if row.id in views[-1].counted and _out_whole(row, name)
    }
    for kind in _OF_SYSTEM:
        wires = frozenset(name for name, of in special.items() if of == kind and name not in out)
        lying = [stretch for view in views for name in wires for stretch in view.of_wire(name)]
        ends = [end for stretch in lying for end in (*stretch.ends, stretch.via) if end]
        ends += [end for name in wires if name in job.wires for end in (job.wires[name].from_, job.wires[name].to)]
        parts = {end.partition(".")[0] for end in ends}
        yield OfSystem(kind, wires, frozenset(part for part in parts if _holds(job, part)))


def _holds(job: Job, part: str) -> bool:
    """Whether a part is one that is that system's with the wire: a ground point, a fuse and a post serve others too."""
    shared = (*job.grounds, *job.fuses, "battery+", "battery-", "unknown", "loose")
    return part not in shared


def _touched(job: Job, system: OfSystem, row: Change, fuses: Mapping[str, frozenset[str]]) -> frozenset[str]:
    """The wires of a system that a row works on, or on whose parts it lays a hand; none where all go out whole."""
    if not system.wires:
        return frozenset()
    if not kind_of(row).alters_harness:  # a hand is laid on what is drawn to prove a row
        return frozenset(wire for fuse in row.dead_without for wire in fuses.get(fuse, ()) if wire in system.wires)
    named = {*row.wire_names, *filter(None, (row.onto,))}
    own = {wire for wire in named if wire in system.wires and not _out_whole(row, wire)}
    ends = [row.end, row.to, row.from_, row.into, row.plug, row.new_plug]
    ends += [end for wire in row.wire_names for end in row.fates_of(wire)]
    ends += [word for end in row.ends if not isinstance(row.ends, Mapping) for word in end.split(" at ")]
    ends += row.was.ends if row.was is not None else ()
    for name in named & job.wires.keys():  # what ends in such a part is worked on with it
        ends += [job.wires[name].from_, job.wires[name].to]
    whole = {wire for wire in named if wire in system.wires and _out_whole(row, wire)}
    touches = {end.partition(".")[0] for end in ends if end} & system.parts
    behind = {wire for fuse in (row.fuse, *row.spare) for wire in fuses.get(fuse, ()) if wire in system.wires}
    if touches and not (whole and named <= system.wires):
        at_part = {
            name
            for name in system.wires
            if name in job.wires
            and {end.partition(".")[0] for end in (job.wires[name].from_, job.wires[name].to)} & touches
        }
        return frozenset({*own, *(at_part or system.wires), *behind})
    return frozenset({*own, *behind})


def of_readings(job: Job, views: Iterable[View]) -> Iterator[tuple[str, Reason]]:
    """Reading -> what stands against it: a meter in a part of a restraint or high-voltage system."""
    for system in _systems(job, tuple(views)):
        for reading in job.readings:
            if system.wires and {lead.partition(".")[0] for lead in (reading.red, reading.black)} & system.parts:
                at = reading.at
                yield (
                    reading.id,
                    Reason(_OF_SYSTEM[system.kind], Weight.NEVER, reading.id, at, "special", by=(reading.id,)),
                )


def _out_whole(row: Change, wire: str) -> bool:
    """Whether a row takes a wire out from end to end, with nothing of it left in the car."""
    fates: Mapping[str, Fate] = row.fates_of(wire)
    return len(fates) == 2 and all(fate.word in ("gone", "pulled") for fate in fates.values())


def _called_so(job: Job) -> Iterator[tuple[str, Reason]]:
    """Words never accuse, they ask: what is called an airbag's and not declared so."""
    for name, wire in job.wires.items():
        words = " ".join((name, wire.circuit, wire.note, wire.from_, wire.to))
        for kind in ("restraint", "high voltage"):
            if wire.special == "" and _WORDS[kind].search(words.replace("-", " ").replace(".", " ")):
                yield name, Reason(Why.CALLED_SO, Weight.MISSING, name, wire.line_of("special"), "special", by=(kind,))


# ---- the car as a whole ---------------------------------------------------------------------------------------------
def of_car(job: Job, view: View) -> Iterator[Reason]:
    """What stands against the car as a whole, or is missing of it."""
    yield from _volts(job)
    yield from _pole(job)
    yield from _declared(job)
    yield from _loads(job)
    for result in view.rows:
        if result.status in NOT_SETTLED:
            yield Reason(Why.ROW, Weight.MISSING, result.id, job.line_of_row(result.id), "only if")


def _volts(job: Job) -> Iterator[Reason]:
    for key, volts in (("system", job.system), ("supply", job.supply)):
        if volts is None or volts.value is None:
            yield Reason(Why.VOLTS, Weight.MISSING, key, job.line_of(key), key)
        elif volts.value > HIGHEST_V:
            yield Reason(Why.SIXTY_VOLTS, Weight.NEVER, key, job.line_of(key), key, amps=None, by=(volts.text,))


def _pole(job: Job) -> Iterator[Reason]:
    if job.ground_side != "negative":
        yield Reason(Why.POLE, Weight.MISSING, "ground side", job.line_of("ground side"), "ground side")


def _declared(job: Job) -> Iterator[Reason]:
    systems = job.systems
    for key, status in (("restraint", systems.restraint), ("high voltage", systems.high_voltage)):
        at = systems.line_of(key)
        wrong = ("changed", "removed in part", *(("present", "untouched") if key == "high voltage" else ()))
        if status == "unknown":
            yield Reason(Why.DECLARED, Weight.MISSING, key, at, key)
        elif status in wrong:
            yield Reason(Why.SYSTEM, Weight.NEVER, key, at, key, by=(status,))


def _loads(job: Job) -> Iterator[Reason]:
    for name, load in job.loads.items():
        if name not in job.kept_loads:
            continue
        made_v = load.draws.at_v if load.draws is not None else None
        supply = job.supply.value if job.supply is not None else None
        if made_v is not None and supply and not MADE_FOR[0] <= made_v / supply <= MADE_FOR[1]:
            weight = Weight.BY_NAME if name in job.loads_for_certain else Weight.MISSING
            yield Reason(
                Why.OTHER_VOLTS,
                weight,
                name,
                load.line_of("draws"),
                "draws",
                by=(load.draws.text,) if load.draws else (),
            )
        called = _WORDS["fuel pump"].search(name.replace("-", " "))
        if called and load.class_ != "fuel pump":
            yield Reason(Why.CALLED_SO, Weight.MISSING, name, load.line_of("class"), "class", by=("fuel pump",))
