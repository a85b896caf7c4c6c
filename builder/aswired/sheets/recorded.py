"""What is written of a part and has no column of its own: wires, loads, switches, connectors, and how the job works.

Only what is written is told: a key that nobody wrote makes no line here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.record import BodyStrap, Job, Module, Plug
from aswired.record.limits import TABLE, value_text
from aswired.sheets.bundles import thick
from aswired.sheets.changes import Fact
from aswired.sheets.places import landmark_words
from aswired.sheets.text import done, length, listing, size, size_named
from aswired.text.colours import Colour
from aswired.text.units import is_unknown
from aswired.text.unsaid import NOT_KNOWN, NOT_RECORDED


@dataclass(frozen=True)
class WireNotes:
    """A wire of the donor of which more is written than its cavities show."""

    name: str
    colour: Colour
    size: str
    ends: str
    length: str  # '' when it is not recorded
    drawn: Colour | None  # its colour in the donor's diagram, where that differs
    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class SwitchRow:
    """A switch, a relay's contacts, an isolator."""

    name: str
    what: str
    where: str
    between: tuple[str, str]
    rest: str  # what it is while nobody and no coil works it
    worked_by: str
    resistance: str  # as measured; '' when it was not
    fuel: str  # '' where nothing is written of the fuel


def wire_notes(worked: JobResult) -> tuple[WireNotes, ...]:
    """Wires of which something is written beside colour, size, ends and length, in the order of the file."""
    job = worked.job
    parts = {*job.plugs, *job.modules}
    found = []
    for name, wire in job.wires.items():
        facts = tuple(_of_wire(name, parts, job))
        drawn = wire.by_diagram if wire.by_diagram is not None and wire.by_diagram.known else None
        if facts or drawn:
            of_length = length(wire.length, job.units) if wire.length and wire.length.mm is not None else ""
            ends = f"{wire.from_} to {wire.to}"
            found.append(WireNotes(name, wire.colour, size(wire.size), ends, of_length, drawn, facts))
    return tuple(found)


def _of_wire(name: str, parts: set[str], job: Job) -> Iterator[Fact]:
    wire = job.wires[name]
    if wire.circuit and not any(end.partition(".")[0] in parts for end in (wire.from_, wire.to, wire.via)):
        yield Fact("for", wire.circuit)  # else it stands with its cavity
    if wire.other_size is not None and wire.other_size.known:
        yield Fact("other size printed on it", size(wire.other_size))
    for key, words in (
        ("insulation", wire.insulation),
        ("conductor", wire.conductor),
        ("declared", "nothing special" if wire.special == "none" else wire.special),
        ("twisted with", wire.pair),
        ("protects", ", ".join(wire.protects)),
        ("shield connected at", ", ".join(wire.shield_at)),
        ("goes by", ", ".join(wire.by)),
    ):
        if words:
            yield Fact(key, _plain(words))
    if wire.outside is not None:
        yield Fact("outside, measured", thick(wire.outside.mm, job.units))
    if wire.for_ is not None:
        yield Fact("only if", wire.for_.text)
    if wire.note:
        yield Fact("note", wire.note)


def load_facts(name: str, worked: JobResult) -> tuple[Fact, ...]:
    """What is written of a load beside its class, duty and current, and the tags on the wires of its circuit."""
    return (*_of_load(name, worked), *_tags(name, worked))


def _tags(name: str, worked: JobResult) -> Iterator[Fact]:
    circuit = worked.circuits[name]
    wires = {stretch.wire for stretch in (*circuit.feed.stretches, *circuit.back.stretches)}
    for row in worked.rows_of(worked.shown):
        tagged = [wire for wire in row.wire_names if row.reads and wire in wires]
        if tagged:
            told = ", ".join(_plain(words) for words in (row.reads, row.tag, row.where) if words)
            yield Fact(f"tag on {', '.join(tagged)}", f"{told} ({row.id})")


def _of_load(name: str, worked: JobResult) -> Iterator[Fact]:
    job = worked.job
    load = job.loads.get(name)
    if load is None:
        return
    if load.draws is not None and load.draws.power_w is not None:  # amperes stand as the current
        yield Fact("draws, as written", _plain(load.draws.text))
    if "light" in load.lines:
        yield Fact("light", _plain(load.light))
    if load.side:
        yield Fact("side of the car", load.side)
    if load.on_at_most is not None:
        most = load.on_at_most
        yield Fact("on at a time", _plain(most.text) if most.value is None else f"at most {most.value:g} s")
    if load.not_with:
        yield Fact("never on together with", ", ".join(load.not_with))
    if load.unfused:
        yield Fact("no fuse on purpose", load.unfused)
    for role in load.carries:
        takers = [row.id for row in worked.rows_of(worked.shown) if role in row.takes_over]
        yield Fact("others rely on it for", role + (f"; taken over by {', '.join(takers)}" if takers else ""))
    if load.for_ is not None:
        yield Fact("only if", load.for_.text)
    if name in must_work(job):
        yield Fact("has to work", "before the car leaves")


def must_work(job: Job) -> tuple[str, ...]:
    """Loads that have to work before the car leaves: the job's own, then the shop's."""
    return tuple(dict.fromkeys((*job.must_work, *job.shop.must_work)))


def found_dead(worked: JobResult) -> dict[str, tuple[str, ...]]:
    """Fuse -> the checks in force, made, in which it was drawn and its circuits were dead."""
    found: dict[str, list[str]] = {}
    for row in worked.rows_of(worked.shown):
        if row.made is not None:
            for fuse in row.dead_without:
                found.setdefault(fuse, []).append(row.id)
    return {fuse: tuple(dict.fromkeys(rows)) for fuse, rows in found.items()}


_FUEL = {
    "yes": "cuts the fuel by itself",
    "no": "does not cut the fuel",
    "unknown": "not known whether it cuts the fuel",
}


def switch_rows(worked: JobResult) -> tuple[SwitchRow, ...]:
    """Every switch of the job, in the order of the file."""
    job = worked.job
    return tuple(
        SwitchRow(
            name,
            switch.what,
            landmark_words(_plain(switch.place), job.landmarks) or NOT_RECORDED,
            switch.between or ("", ""),
            switch.at_rest,
            switch.worked_by,
            switch.resistance.text.replace("mohm", "mΩ") if switch.resistance is not None else "",
            _FUEL[switch.cuts_fuel] if "cuts fuel" in switch.lines else "",
        )
        for name, switch in job.switches.items()
    )


def plug_words(plug: Plug) -> str:
    """What is written of a connector's terminals, of its back and of what is behind it; '' for nothing."""
    said = []
    if plug.behind:
        said.append("What is behind it is not known." if is_unknown(plug.behind) else f"Behind it: {plug.behind}.")
    if plug.takes is not None:
        said.append(f"Its terminals take {plug.takes.text.replace('mm2', 'mm²')}.")
    if "solder" in plug.lines:
        told_by = {"allowed": "allows", "not allowed": "does not allow"}.get(plug.solder)
        said.append(
            f"Its maker {told_by} soldered terminals." if told_by else "Whether its maker allows solder is not known."
        )
    if not plug.reachable:
        said.append("A meter's tip does not come to its back without piercing.")
    return " ".join(said)


def cavity_words(module: Module) -> dict[str, str]:
    """Cavity of a module -> what is relied on there, and what its output is guarded to; '' for neither."""
    returns = dict.fromkeys(module.reference, "return of its sensors, kept apart from power grounds")
    says = {**module.out, **dict.fromkeys(module.ground, "ground of the module"), **returns}
    for cavity, most in module.guarded.items():
        told = "what it is guarded to is not known" if most.value is None else f"guarded to {most.value:g} A"
        says[cavity] = ", ".join(filter(None, (says.get(cavity, ""), told)))
    return says


# ---- the job itself -------------------------------------------------------------------------------------------------
_USUAL = (
    ("insulation", "insulation of the wire put in"),
    ("slack", "slack left in an extension"),
    ("stagger", "from one wire's cut to the next"),
    ("overlap", "overlap of a joint"),
    ("ring_strip", "conductor that goes into a barrel"),
    ("cut_to_next", "cut lengths are rounded up to"),
    ("tape_width", "width of tape"),
    ("tape_overlap", "overlap of tape"),
    ("joint_resistance", "allowed for a joint"),
    ("cavity_resistance", "allowed for a mated cavity"),
    ("ring_resistance", "allowed for a ring on its stud"),
    ("fuse_resistance", "allowed for a fuse in its holder"),
    ("switch_resistance", "allowed for a switch"),
    ("contact_resistance", "allowed for a relay contact"),
)


def usual_facts(job: Job) -> tuple[Fact, ...]:
    """How the job does it unless a row says otherwise, as far as that is written."""
    return tuple(_usual(job))


def _usual(job: Job) -> Iterator[Fact]:
    if job.usual.joint is not None:
        yield Fact("joint", job.usual.joint.text)
    if job.usual.cover is not None:
        yield Fact("cover of a joint", job.usual.cover.text)
    for attribute, name in _USUAL:
        value = getattr(job.usual, attribute)
        if value is None or value == "":
            continue
        if isinstance(value, str):
            yield Fact(name, _plain(value))
        elif isinstance(value, float):
            yield Fact(name, f"{value:g} %")
        elif attribute.endswith("resistance"):
            yield Fact(name, value.text.replace("mohm", "mΩ"))
        else:
            yield Fact(name, length(value, job.units))


def own_limits(job: Job) -> tuple[Fact, ...]:
    """Limits of checks that the shop or the job set in place of the table's."""
    return tuple(
        Fact(limit.what, f"{value_text(limit)}, {limit.mark}; usually {value_text(line)}")
        for line in TABLE
        if (limit := job.limits_in_force[line.key]) != line
    )


def header_facts(job: Job) -> Iterable[Fact]:
    """What the header says of the battery, the engine, the donor's colours, and what has to work; written keys only."""
    if job.donor_colours:
        yield Fact("Colours of ground in the donor", ", ".join(colour.code for colour in job.donor_colours))
    if job.battery_off:
        yield Fact("Battery taken off", battery_off(job))
    for key, name, word in (
        ("battery moved", "Battery moved from its place", job.battery_moved),
        ("engine strap", "Engine block goes back by", job.engine_strap),
    ):
        if key in job.lines:
            yield Fact(name, _plain(word))
    if job.body_strap is not None and (said := tuple(_strap(job.body_strap, job.units))):
        yield Fact("Body to battery negative by", ", ".join(said))
    if loads := must_work(job):
        yield Fact("Has to work before it leaves", ", ".join(loads))


def _strap(strap: BodyStrap, units: str) -> Iterator[str]:
    """Size and length of the body's cable, as far as either is written."""
    if strap.cable is not None:
        yield size_named(strap.cable)
    if strap.cable_length is not None:
        yield f"length {length(strap.cable_length, units)}"


def battery_off(job: Job) -> str:
    """The days on which the battery was taken off before the work, as written, with initials where they are."""
    return listing((done(step) for step in job.battery_off), "", "; ")


def option_words(name: str, job: Job) -> str:
    """`manual (could be automatic)`: the value of this car, then the others that are known."""
    option = job.options[name]
    others = [value for value in option.could_be if value != option.is_]
    return option.is_ + (f" (could be {', '.join(others)})" if others else "")


def _plain(words: str) -> str:
    return NOT_KNOWN if is_unknown(words) else words
