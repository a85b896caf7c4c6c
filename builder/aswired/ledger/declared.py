"""What is declared of restraint, high voltage and volts; what words ask about; what is open of the car as a whole."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.car.special import special_wires
from aswired.ledger.ends import NOT_SETTLED
from aswired.ledger.record import Reason, Weight, Why
from aswired.record import Change, Job, Wire
from aswired.text.diagnostics import Location
from aswired.text.one_line import Fate
from aswired.text.units import is_unknown, natural

SUPPLY_OF_SYSTEM = (0.85, 1.25)  # flat battery to highest charging voltage; an estimate of ours
HIGHEST_V = 60.0  # direct current; above it contact can kill: the limit of voltage class A in ISO 6469-3 (from memory)
MADE_FOR = (0.75, 1.3)  # of the supply: volts at which a load still works as it is made to; an estimate
_OF_SYSTEM = {"restraint": Why.RESTRAINT, "high voltage": Why.HIGH_VOLTAGE}
_WORDS = {
    "restraint": re.compile(r"\b(air ?bags?|squibs?|pretensioners?|tensioners?)\b", re.IGNORECASE),
    "high voltage": re.compile(
        r"\b(high[ -]voltage|traction batter(?:y|ies)|mains|(?:1[0-2][0-9]|2[0-4][0-9]|[3-9][0-9]{2}) ?v(?:olts?)?)\b",
        re.IGNORECASE,
    ),  # with volts of a mains supply, 100 to 129 and 200 to 249, or of a traction battery, 300 to 999
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
        name for row in job.changes for name in row.wire_names if row.id in views[-1].counted and out_whole(row, name)
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
        dead = {wire for fuse in row.dead_without for wire in fuses.get(fuse, ()) if wire in system.wires}
        return frozenset(dead | _measured(job, system, row) if row.proves else dead)
    named = {*row.wire_names, *filter(None, (row.onto,))}
    own = {wire for wire in named if wire in system.wires and not out_whole(row, wire)}
    ends = [row.end, row.to, row.from_, row.into, row.plug, row.new_plug]
    ends += [end for wire in row.wire_names for end in row.fates_of(wire)]
    ends += [word for end in row.ends if not isinstance(row.ends, Mapping) for word in end.split(" at ")]
    ends += row.was.ends if row.was is not None else ()
    for name in named & job.wires.keys():  # what ends in such a part is worked on with it
        ends += [job.wires[name].from_, job.wires[name].to]
    whole = {wire for wire in named if wire in system.wires and out_whole(row, wire)}
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


def _measured(job: Job, system: OfSystem, row: Change) -> set[str]:
    """The wires on which a test is made: those of a system, and those that end in a part of it."""
    ends = {name: {job.wires[name].from_, job.wires[name].to} for name in row.wire_names if name in job.wires}
    at_part = {name for name, two in ends.items() if {end.partition(".")[0] for end in two} & system.parts}
    at_end = {row.end} if row.end.partition(".")[0] in system.parts else set()
    return (set(row.wire_names) & system.wires) | at_part | (set(system.wires) if at_end else set())


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


def out_whole(row: Change, wire: str) -> bool:
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


_NOT_THERE = ("never fitted", "unknown", "")


def _parts_called_so(job: Job) -> Iterator[Reason]:
    """The same of everything that is no wire, in a car that is said to have no such system; it is answered by what is
    written of the wires that end there."""
    systems = job.systems
    for kind, status in (("restraint", systems.restraint), ("high voltage", systems.high_voltage)):
        if status not in _NOT_THERE:
            continue
        for name, words, ends, at in _told_of_parts(job):
            if not _WORDS[kind].search(" ".join((name, *words)).replace("-", " ").replace("_", " ")):
                continue
            wires = [wire for wire in job.wires.values() if _ends_in(wire, ends)]
            if not wires or any(wire.special == "" for wire in wires):
                yield Reason(Why.CALLED_SO, Weight.MISSING, name, at, kind, by=(kind,))


def _told_of_parts(job: Job) -> Iterator[tuple[str, tuple[str, ...], tuple[str, ...], Location]]:
    """Name, words, ends (or the part itself) and line of every load, plug, switch, module, fuse and source."""
    for name, load in job.loads.items():
        yield name, (load.unfused, *load.carries), load.between or (), load.at
    for name, plug in job.plugs.items():
        yield name, (plug.note, plug.behind), (name,), plug.at
    for name, switch in job.switches.items():
        yield name, (switch.what,), switch.between or (), switch.at
    for name, module in job.modules.items():
        yield name, (*module.out.values(), *module.carries), (name,), module.at
    for name, fuse in job.fuses.items():
        yield name, (fuse.feeds,), (name,), fuse.at
    for name, source in job.sources.items():
        yield name, (), (source.plus, source.minus), source.at


def _ends_in(wire: Wire, ends: tuple[str, ...]) -> bool:
    """Whether a wire ends in one of these ends, or in a cavity of one of these parts."""
    own = (wire.from_, wire.to)
    return any(end in ends or end.partition(".")[0] in ends for end in own)


# ---- the car as a whole ---------------------------------------------------------------------------------------------
def of_car(job: Job, view: View) -> Iterator[Reason]:
    """What stands against the car as a whole, or is missing of it."""
    yield from _volts(job)
    yield from _pole(job)
    yield from _declared(job)
    yield from _contradicted(job, view)
    yield from _loads(job)
    yield from _parts_called_so(job)
    yield from _sides(job, view)
    for result in view.rows:
        if result.status in NOT_SETTLED:
            yield Reason(Why.ROW, Weight.MISSING, result.id, job.line_of_row(result.id), "only if")


def _volts(job: Job) -> Iterator[Reason]:
    for key, volts in (("system", job.system), ("supply", job.supply)):
        if volts is None or volts.value is None:
            yield Reason(Why.VOLTS, Weight.MISSING, key, job.line_of(key), key)
        elif volts.value > HIGHEST_V:
            yield Reason(Why.SIXTY_VOLTS, Weight.NEVER, key, job.line_of(key), key, amps=None, by=(volts.text,))
    if not supply_fits(job) and job.supply is not None and job.system is not None:
        by = (job.supply.text, job.system.text)
        yield Reason(Why.VOLTS, Weight.MISSING, "supply", job.line_of("supply"), "supply", by=by)


def supply_fits(job: Job) -> bool:
    """Whether the volts that figures are for can be those of the system; true where one of the two is not written."""
    system, supply = (volts.value if volts is not None else None for volts in (job.system, job.supply))
    if system is None or supply is None:
        return True
    least, most = (part * system for part in SUPPLY_OF_SYSTEM)
    return least <= supply <= most


def _sides(job: Job, view: View) -> Iterator[Reason]:
    """A connector that took another's place by a map of which nobody knows from which side both were numbered."""
    for id in sorted(view.counted):
        row = job.change(id)
        if row is None or not row.seen_from:
            continue
        plugs = (job.plugs.get(name) for name in (row.plug, row.new_plug))
        written = {plug.seen_from for plug in plugs if plug is not None and plug.seen_from}
        sides = {row.seen_from, *(side for side in written if not is_unknown(side))}
        if is_unknown(row.seen_from) or len(sides) > 1:
            yield Reason(Why.ROW, Weight.MISSING, row.id, row.line_of("seen from"), "seen from")


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
    declared = any(status != "unknown" for status in (systems.restraint, systems.high_voltage))
    if declared and (not systems.declared_by or is_unknown(systems.declared_by)):
        at = systems.line_of("declared by")
        yield Reason(Why.DECLARED_BY, Weight.MISSING, "declared by", at, "declared by")


def _contradicted(job: Job, view: View) -> Iterator[Reason]:
    """A restraint or high-voltage system that is said to be gone, never fitted or untouched, and is not by the record.

    `by` are its wires that are still there, all its wires, or the rows that work on them.
    """
    special = special_wires(job)
    for key, status in (("restraint", job.systems.restraint), ("high voltage", job.systems.high_voltage)):
        own = [name for name, kind in special.items() if kind == key]
        by: list[str] = []
        if status == "removed complete":
            by = [name for name in own if view.of_wire(name)]
        elif status == "never fitted":
            by = own
        elif status == "untouched":
            rows = map(job.change, sorted(view.counted, key=natural))
            by = [row.id for row in rows if row is not None and _works_on(row, view, own)]
        if by:
            at = job.systems.line_of(key)
            yield Reason(Why.CONTRADICTED, Weight.BY_NAME, key, at, key, by=tuple(by))


def _works_on(row: Change, view: View, wires: Collection[str]) -> bool:
    result = view.row(row.id)
    touched = {*row.wire_names, *(result.touched_wires if result is not None else ()), row.onto}
    return kind_of(row).alters_harness and bool(touched.intersection(wires))


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
