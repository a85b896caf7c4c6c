"""The words of the ledger: what a reason says of a line and what to write or do about it, and what is not written.

They are made here alone, from typed values; nothing reads them. Amperes, mm and degrees stand with their units.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from aswired.ledger.record import Asked, Fact, Reason, Weight, Why
from aswired.record import Job
from aswired.text.units import natural, show_both

MOST_NAMED = 4  # things of one kind that are named; of more of them the number is told
Told = tuple[str, str]  # what is so, what to write or do; no full stop


def reason_words(reason: Reason, job: Job) -> tuple[str, str]:
    """What is so, and what to write or do, each a sentence without its full stop.

    Of what somebody lets stand the second part still says what would mend it.
    """
    so, do = _WORDS[reason.why](reason, job)
    if reason.weight is Weight.BY_NAME and not reason.let_stand_by:
        do += ", or let it stand by name, with the reason"
    return _large(so, (reason.of, *reason.by)), _large(do, ())


def reason_clause(reason: Reason, job: Job) -> str:
    """What is so, to stand behind a colon or in a list: its first letter is small, unless a name begins with a large
    one."""
    return _WORDS[reason.why](reason, job)[0]


def fact_words(facts: Sequence[Fact]) -> str:
    """Facts of one kind as a thing to find out: `rating of F4`, `what is behind fuse-box, seat`, `size of 14 wires`.

    Raises:
        ValueError: there is no fact, or they are of several kinds.
    """
    kinds = {fact.why for fact in facts}
    if len(kinds) != 1:
        raise ValueError("facts of one kind are wanted")
    why = kinds.pop()
    of, one = _FACTS[why]
    called, between = (_A_SYSTEM, " or ") if why is Why.DECLARED else (_CALLED, ", ")
    names = sorted({called.get(fact.of, fact.of) for fact in facts}, key=natural)
    return of.format(between.join(names) if len(names) <= MOST_NAMED else f"{len(names)} {one}")


def step_words(asked: Sequence[Asked]) -> str:
    """Facts of a step as work to do, with the keys to write: `Read the rating on F4 (rating:); read or measure the size
    of W2 and W11 (size:)`. No full stop."""
    kinds: dict[str, list[str]] = {}
    for fact in sorted(asked, key=lambda fact: list(_TO_DO).index(fact.why)):
        do = _RETURN_OF_A_LOAD if fact.why is Why.WAY_BACK and fact.key == "return" else _TO_DO[fact.why]
        kinds.setdefault(do, []).append(_A_SYSTEM.get(fact.of) or _CALLED.get(fact.of, fact.of))
    told = "; ".join(do.format(_names(sorted(names, key=natural))) for do, names in kinds.items())
    return told[:1].upper() + told[1:]


def amperes(value: float | None) -> str:
    """`7.5 A`, `13.1 A`, `15 A`; what nothing limits is said so."""
    if value is None or math.isinf(value):
        return "more than any fuse"
    return f"{round(value, 1):g} A"


# ---- what may flow --------------------------------------------------------------------------------------------------
def _names(names: Sequence[str]) -> str:
    """`F1`, `F1 and F2`, `F1, F2 and F3`."""
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))


def _lets(names: Sequence[str]) -> str:
    return f"{_names(names)} {'lets' if len(names) == 1 else 'together let'}"


def _is_output(name: str, job: Job) -> bool:
    return name.partition(".")[0] in job.modules


def _smaller(names: Sequence[str], carries: float | None, job: Job) -> str:
    """What makes that no more comes through these fuses, links and outputs."""
    if len(names) != 1:
        return "Put in smaller fuses"
    if _is_output(names[0], job):
        return f"Guard {names[0]} to {amperes(carries)}"
    if names[0] in job.wires:
        return f"Put in a thinner link than {names[0]}"
    return f"Put no more than {amperes(carries)} in {names[0]}"


def _feed(r: Reason, job: Job) -> Told:
    by = r.by or (r.of,)
    so = f"{_lets(by)} {amperes(r.amps)} through, and the wire may carry {amperes(r.carries)}"
    return so, f"{_smaller(by, r.carries, job)}, or lay thicker wire"


def _behind(r: Reason, job: Job) -> Told:
    may = f"nothing stands before the wire, which may carry {amperes(r.carries)}"
    so = f"{r.of} behind it lets {amperes(r.amps)} through; {may}"
    return so, f"{_smaller((r.of,), r.carries, job)}, or lay thicker wire up to it"


def _shorted(r: Reason, job: Job) -> Told:
    load, fuses = r.by[0] if r.by else "a load", r.by[1:]
    behind = f" behind {_names(fuses)}" if fuses else ""
    home = f"{amperes(r.amps)} comes home through {r.of}"
    so = f"if {load} fails shorted{behind}, {home}, which may carry {amperes(r.carries)}"
    less = f"Let less through {_names(fuses)}" if fuses else f"Put a fuse before {load}"
    return so, f"{less}, or lay a thicker way back"


def _beside(r: Reason, job: Job) -> Told:
    load = r.by[0] if r.by else "a load"
    so = (
        f"if {load} fails shorted while the others are on, {amperes(r.amps)} come through {r.of}, "
        f"and no table allows it more than {amperes(r.carries)}"
    )
    return so, "Lay thicker wire, or put in smaller fuses"


def _asked(r: Reason, job: Job) -> Told:
    by = r.by or (r.of,)
    who = f"{_names(by)} {'takes' if len(by) == 1 else 'together take'}"
    so = f"{who} {amperes(r.amps)} through it, and it may carry {amperes(r.carries)}"
    if r.of in job.grounds:
        return so, "Fit a thicker cable back, or move a load to another point"
    return so, "Lay thicker wire, or share it out"


def _starter(r: Reason, job: Job) -> Told:
    so = f"{r.of} takes {amperes(r.amps)}, and a cable so thin may carry {amperes(r.carries)} for 30 s"
    return so, "Lay a thicker cable to it"


def _source(r: Reason) -> str:
    return _names(r.by) or "its source"


def _unfused_load(r: Reason, job: Job) -> Told:
    return f"no fuse stands between {r.of} and {_source(r)}", f"Put a fuse before {r.of}, close to the source"


def _unfused_nowhere(r: Reason, job: Job) -> Told:
    so = f"{r.of} is joined to {_source(r)} with nothing before it, and leads to nothing on record"
    return so, f"Take {r.of} off its source, or write what it leads to"


def _unfused_long(r: Reason, job: Job) -> Told:
    far, most = show_both(r.mm, job.units), show_both(r.most_mm, job.units)
    so = f"{r.of} reaches at least {far} from {_source(r)} with nothing before it, and {most} is allowed"
    return so, "Put a fuse close to the source, or make the wire shorter"


def _link_long(r: Reason, job: Job) -> Told:
    so = f"{r.of} is a fusible link of {show_both(r.mm, job.units)}, and {show_both(r.most_mm, job.units)} is allowed"
    return so, "Put in a shorter link"


def _short(r: Reason, job: Job) -> Told:
    ground, wires = r.by[0] if r.by else "a ground point", r.by[1:]
    so = f"copper joins {r.of} to {ground} with no load between" + (f", by {_names(wires)}" if wires else "")
    return so, "Find where they are joined, and part them"


def _two_keys(r: Reason, job: Job) -> Told:
    if r.of in job.loads:
        so = f"{r.of} lies between feeds that are live in different positions of the key"
        return so, f"Look whether {r.of} belongs there: with one feed off, the other feeds backwards through it"
    so = f"copper joins {_names(r.by or (r.of,))}, which are live in different positions of the key"
    return so, "Part them: with the key off one feeds what hangs on the other"


def _heat(r: Reason, job: Job) -> Told:
    bears = f"{r.most_celsius:g} °C" if r.most_celsius is not None else "less"
    what = "and no insulation on record bears that" if r.weight is Weight.NEVER else f"and its insulation bears {bears}"
    hot = f"{r.celsius:g} °C" if r.celsius is not None else "heat"
    leg = f"through the leg {r.by[0]}, which gets {hot} hot" if r.by else f"through a leg of {hot}"
    return f"{r.of} runs {leg}, {what}", "Lead it another way, or lay wire that bears the heat"


# ---- how it ends ----------------------------------------------------------------------------------------------------
def _fed_by(r: Reason) -> str:
    return f", fed by {_names(r.by)}" if r.by else ""


def _taped(r: Reason, job: Job) -> Told:
    if r.key == "cover":
        return (
            f"the joint {r.of} is live under tape alone{_fed_by(r)}",
            "Cover it with a sleeve that seals, and write it",
        )
    return f"the cut end {r.of} is live under tape alone{_fed_by(r)}", "Cap it, and write the cap and its seal"


def _deleted(r: Reason, job: Job) -> Told:
    so = f"the plug of {r.of}, which was deleted, is live{_fed_by(r)}"
    return so, "Take its feed away, or cap the wire"


def _bare(r: Reason, job: Job) -> Told:
    how = f"and is live{_fed_by(r)}" if r.weight is Weight.NEVER else "though nothing on record feeds it"
    return f"the cut end {r.of} is left bare, {how}", "Cap it, and write the cap and its seal"


def _bare_joint(r: Reason, job: Job) -> Told:
    how = "and is live" if r.weight is Weight.NEVER else "though nothing on record feeds it"
    if r.mm is None:
        return f"the joint {r.of} has no cover, {how}", "Cover and seal it, and write the cover"
    lap = f" over a lap of {show_both(r.most_mm, job.units)}" if r.most_mm is not None else ""
    so = f"the joint {r.of} has a cover of {show_both(r.mm, job.units)}{lap}, {how}"
    return so, "Cover all of it, and write the cover and its length"


def _gone(r: Reason, job: Job) -> Told:
    how = ", and is live" if r.weight is Weight.NEVER else ""
    so = f"{_names(r.by) or 'a wire'} {'ends' if len(r.by) < 2 else 'end'} in {r.of}, which left the car{how}"
    return so, "Look for its end; write the row that takes the wire out or moves it, or take 'gone: yes' out"


# ---- what is declared -----------------------------------------------------------------------------------------------
def _special(what: str, do: str) -> Callable[[Reason, Job], Told]:
    def told(r: Reason, job: Job) -> Told:
        wires = f" ({_names(r.by)})" if r.by else ""
        return f"{r.of} works on {what}{wires}, or puts a hand on a part of it", do

    return told


def _sixty(r: Reason, job: Job) -> Told:
    volts = _names(r.by) or "more than 60 V"
    so = f"the {r.of} is written as {volts}; above 60 V a touch can kill"
    return so, "Nobody works on it by this record; it wants a person trained for it"


def _system(r: Reason, job: Job) -> Told:
    status = _names(r.by) or "changed"
    if r.of == "restraint":
        so = f"the restraint system is {status}; a system that is neither whole nor gone may fire or fail"
        return so, "Do not power the car; hand it to a workshop that is licensed for restraint systems"
    status = "in the car" if status == "present" else status
    so = f"the high-voltage system is {status}; a car with one is outside what this record is for"
    return so, "Stop work; hand the car to a workshop that is trained and licensed for high voltage"


def _contradicted(r: Reason, job: Job) -> Told:
    status = job.systems.restraint if r.of == "restraint" else job.systems.high_voltage
    one, names = len(r.by) == 1, _names(r.by) or "something of it"
    how = {
        "removed complete": f"{names} {'is' if one else 'are'} still in the car",
        "never fitted": f"{names} belong{'s' if one else ''} to it",
        "untouched": f"{names} work{'s' if one else ''} on its wires",
    }.get(status, f"{names} shows otherwise")
    return f"{_CALLED.get(r.of, r.of)} is written as {status}, but {how}", "Look at the car, and correct what is wrong"


def _declared(r: Reason, job: Job) -> Told:
    so = f"whether there is {_A_SYSTEM.get(r.of, r.of)}, and what became of it, is not written"
    return so, f"Look whether the car has one, and write {r.key}:"


def _other_volts(r: Reason, job: Job) -> Told:
    so = f"{r.of} is made for other volts than the car has ({_names(r.by) or 'as its draw is written'})"
    if r.weight is Weight.MISSING:
        return f"{so}, and whether this car has it is not written", f"Write whether this car has {r.of}"
    return so, "Put in one that is made for this car, or correct its draw"


# ---- what is missing ------------------------------------------------------------------------------------------------
def _asks(so: str, do: str) -> Callable[[Reason, Job], Told]:
    """Words that name nothing but the thing and the key to write."""

    def told(r: Reason, job: Job) -> Told:
        words = {"of": _CALLED.get(r.of, r.of), "key": r.key, "by": _CALLED.get(_names(r.by), _names(r.by))}
        return so.format(**words), do.format(**words)

    return told


def _output(r: Reason, job: Job) -> Told:
    module, _, cavity = r.of.partition(".")
    so = f"what {r.of} lets out at the most is not written"
    return so, f"Look up what guards it inside {module}, and write it under guarded: with the cavity {cavity}"


def _nothing_behind(r: Reason, job: Job) -> Told:
    if not r.by:
        return (
            f"what is behind {r.of} is not written",
            f"Look what it is plugged to; write the wire or load there, or {r.key}: where nothing can feed from it",
        )
    so = f"by its words what {r.of} is plugged to may feed it ({_names(r.by)}), and what feeds is no part of {r.key}:"
    return so, f"Write what feeds under sources: with its wires, or look again and write {r.key}: in other words"


def _insulation(r: Reason, job: Job) -> Told:
    hot = f"a leg of {r.celsius:g} °C" if r.celsius is not None else "a hot leg"
    return f"{r.of} runs through {hot}, and its insulation is not written", f"Read it off the wire, and write {r.key}:"


def _size(r: Reason, job: Job) -> Told:
    if not r.by:
        return f"the size of {r.of} is not read", f"Read or measure it, and write {r.key}:"
    return f"{r.of} is written as {_names(r.by)}, which cannot both be", f"Measure its copper, and write {r.key}: so"


def _leg_heat(r: Reason, job: Job) -> Told:
    if r.celsius is None:
        return f"how hot the leg {r.of} gets is not known", f"Measure it while the engine is hot, and write {r.key}:"
    so = f"a piece of {_names(r.by)} runs through the leg {r.of} of {r.celsius:g} °C; which one is not on record"
    return so, f"Write {r.key}: its joints lie"


def _pole(r: Reason, job: Job) -> Told:
    if job.ground_side == "positive":
        return (
            "battery plus is on the body, which is not judged here",
            "Have a person judge the car who knows such cars",
        )
    return "which pole of the battery is on the body is not written", "Look, and write ground side:"


def _volts(r: Reason, job: Job) -> Told:
    of = _CALLED.get(r.of, r.of)
    if r.by:
        return (
            f"{of} are written as {_names(r.by)}, which do not belong together",
            f"Measure, and correct {r.key}: or system:",
        )
    return f"{of} are not written", f"Measure the battery, and write {r.key}:"


def _row(r: Reason, job: Job) -> Told:
    if r.key == "seen from":
        so = f"from which side the cavities of {r.of} were read is not known, or not the same for both connectors"
        return so, "Read both from one side, and write that side in the row and with each connector"
    return f"whether {r.of} was done so is not settled", "Decide it, or write the row so that it can be followed"


def _called_so(r: Reason, job: Job) -> Told:
    so = f"{r.of} is called as if it belonged to: {_names(r.by)}; it is not declared so"
    if r.key in _WARNED:
        return so, f"Look whether it does; write {r.key}: as it is, or special: with each wire that ends in {r.of}"
    return so, f"Look whether it does, and write {r.key}: either way"


_WARNED = ("restraint", "high voltage")  # systems that are declared of the whole car
_CALLED = {  # keys of the head of a job, as what they stand for
    "supply": "the volts that figures are for",
    "system": "the volts of the system",
    "restraint": "the restraint system",
    "high voltage": "the high-voltage system",
    "body strap": "the body's cable to battery minus",
    "ground side": "the pole on the body",
}

_A_SYSTEM = {"restraint": "a restraint system", "high voltage": "a high-voltage system"}

_WORDS: Mapping[Why, Callable[[Reason, Job], Told]] = {
    Why.FEED: _feed,
    Why.BEHIND: _behind,
    Why.SHORTED_LOAD: _shorted,
    Why.SHORTED_BESIDE: _beside,
    Why.ASKED: _asked,
    Why.STARTER: _starter,
    Why.UNFUSED_LONG: _unfused_long,
    Why.UNFUSED_LOAD: _unfused_load,
    Why.UNFUSED_NOWHERE: _unfused_nowhere,
    Why.LINK_LONG: _link_long,
    Why.BRIDGED: _asks(
        "copper joins both sides of {of}, so it limits nothing", "Find what goes round {of}, and part it"
    ),
    Why.SHORT: _short,
    Why.TWO_KEYS: _two_keys,
    Why.DATA: _asks("a feed reaches {of}, which carries data", "Look where the feed comes in, and part it from {of}"),
    Why.HEAT: _heat,
    Why.BARE: _bare,
    Why.TAPED: _taped,
    Why.BARE_JOINT: _bare_joint,
    Why.PART_GONE: _gone,
    Why.DELETED_LOAD: _deleted,
    Why.RESTRAINT: _special(
        "a restraint system", "Leave it whole, or have it taken out complete by a person who is trained for it"
    ),
    Why.HIGH_VOLTAGE: _special("a high-voltage system", "Stop, and hand it to a person who is trained for it"),
    Why.SIXTY_VOLTS: _sixty,
    Why.SYSTEM: _system,
    Why.CONTRADICTED: _contradicted,
    Why.OTHER_VOLTS: _other_volts,
    Why.SIZE: _size,
    Why.RATING: _asks("the rating of {of} is not read", "Read what is moulded on it, and write {key}:"),
    Why.OUTPUT: _output,
    Why.LENGTH: _asks("nothing stands before {of}, and its length is not written", "Measure it, and write {key}:"),
    Why.DIVIDES: _asks(
        "more than it may carry comes home by {of} and another way; their lengths do not tell how much by each",
        "Measure both, and write {key}:",
    ),
    Why.LENGTH_OF_LINK: _asks("the length of the fusible link {of} is not written", "Measure it, and write {key}:"),
    Why.CURRENT: _asks("what {of} draws is not written", "Measure it or read its plate, and write {key}:"),
    Why.FEED_OF: _asks("what feeds {of} is not on record", "Follow its feed, and write the wire, or {key}:"),
    Why.POSITION: _asks("when {of} is live is not written", "Try it with a lamp in each position, and write {key}:"),
    Why.INSULATION: _insulation,
    Why.METAL: _asks(
        "what the conductor of {of} is made of is not known, or stands in no table of what it may carry",
        "Look at the strands, and write {key}:; wire that stands in no table wants a person who knows it",
    ),
    Why.LEG_HEAT: _leg_heat,
    Why.NO_END: _asks("where {of} ends is not known", "Follow it to its end, and write {key}:"),
    Why.NO_FATE: _asks("how {of} was left is not written", "Look at it, and write under {key}: capped, taped or bare"),
    Why.MEMBERS: _asks("which further wires meet in {of} is not known", "Open it, write each wire, and {key}:"),
    Why.NOTHING_BEHIND: _nothing_behind,
    Why.NOT_LISTED: _asks("what the module does with {of} is not written", "Look it up, and write it under {key}:"),
    Why.NO_COVER: _asks("the cover of {of} is not written", "Look at the joint, and write {key}:"),
    Why.NOT_SEALED: _asks("whether the work of {of} was sealed is not written", "Look, seal it, and write {key}:"),
    Why.NO_TABLE: _asks("{of} stands in no table", "Write it under {key}:"),
    Why.WAY_BACK: _asks("how {of} leads back to the battery is not written", "Follow its cable, and write {key}:"),
    Why.CABLE: _asks("the size of the cable of {of} is not read", "Read or measure it, and write {key}:"),
    Why.CALLED_SO: _called_so,
    Why.VOLTS: _volts,
    Why.POLE: _pole,
    Why.DECLARED: _declared,
    Why.DECLARED_BY: _asks(
        "what became of restraint and high voltage is written, and nobody's name is under it ({of})",
        "Let the person who looked put a name to it, and write {key}:",
    ),
    Why.BODY: _asks(
        "{by} return through the body, and the size of its cable to battery minus is not written",
        "Measure that cable, and write {key}:",
    ),
    Why.ROW: _row,
    Why.OPTION: _asks("whether {of} is in this car hangs on an open option", "Write which options this car has"),
}

_FACTS: Mapping[Why, tuple[str, str]] = {  # as a thing to find out, and what is counted where there are many
    Why.OTHER_VOLTS: ("whether this car has {}, made for other volts", "loads"),
    Why.SIZE: ("size of {}", "wires"),
    Why.RATING: ("rating of {}", "fuses"),
    Why.OUTPUT: ("what guards {}", "outputs of modules"),
    Why.LENGTH: ("length of {}", "wires with nothing before them"),
    Why.DIVIDES: ("length of {}, and of the other way home beside it", "ways home"),
    Why.LENGTH_OF_LINK: ("length of {}", "fusible links"),
    Why.CURRENT: ("what {} draws", "loads"),
    Why.FEED_OF: ("what feeds {}", "loads"),
    Why.POSITION: ("when {} is live", "fuses"),
    Why.INSULATION: ("insulation of {}, in a hot leg", "wires"),
    Why.METAL: ("metal of {}", "wires"),
    Why.LEG_HEAT: ("heat of the leg {}", "legs"),
    Why.NO_END: ("other end of {}", "wires"),
    Why.NO_FATE: ("how {} was left", "cut ends"),
    Why.MEMBERS: ("what else meets in {}", "splices"),
    Why.NOTHING_BEHIND: ("what is behind {}", "plugs"),
    Why.NOT_LISTED: ("what the module does with {}", "cavities"),
    Why.NO_COVER: ("cover of {}", "joints"),
    Why.NOT_SEALED: ("whether {} was sealed", "rows"),
    Why.NO_TABLE: ("what {} is", "names"),
    Why.WAY_BACK: ("way back of {}", "ground points"),
    Why.CABLE: ("size of the cable of {}", "ground points"),
    Why.CALLED_SO: ("whether {} belongs to the system that its words name", "things"),
    Why.VOLTS: ("{}", "voltages"),
    Why.DECLARED: ("whether there is {}, and what became of it", "systems"),
    Why.DECLARED_BY: ("who declares the systems ({})", "names"),
    Why.POLE: ("{}", "poles"),
    Why.BODY: ("size of {}", "cables"),
    Why.ROW: ("whether {} was done", "rows"),
    Why.OPTION: ("whether {} is in this car", "things"),
}

_RETURN_OF_A_LOAD = "follow how the current of {} gets home, and write the wires"
_TO_DO: Mapping[Why, str] = {  # the same as work at the car, in the order in which it is done there
    Why.MEMBERS: "open {} and write each wire that meets in it, with its size and its other end (all members known:)",
    Why.NO_END: "follow {} to the other end (to:; at a fuse its rating too)",
    Why.FEED_OF: "follow the feed of {}, and write the wires with their sizes and their fuse",
    Why.WAY_BACK: "follow the cable of {} back to the battery (back to:)",
    Why.BODY: "read or measure the size of {} (cable:)",
    Why.CABLE: "read or measure the size of the cable of {} (cable:)",
    Why.RATING: "read the rating on {} (rating:)",
    Why.SIZE: "read or measure the size of {} (size:)",
    Why.METAL: "look what the strands of {} are made of (conductor:)",
    Why.INSULATION: "read the insulation of {} off the wire (insulation:)",
    Why.LENGTH: "measure the length of {} (length:)",
    Why.LENGTH_OF_LINK: "measure the length of the fusible link {} (length:)",
    Why.DIVIDES: "measure the length of {}, and of the other way home beside it (length:)",
    Why.LEG_HEAT: "measure how hot it gets in {} (hottest:), or write where the joints there lie (where:)",
    Why.NO_FATE: "look at {}, cap what is not closed, and write it (ends:, cover:, sealed:)",
    Why.NO_COVER: "look for the cover of {}, and write it (cover:)",
    Why.NOT_SEALED: "look whether the work of {} was sealed, and write the day (sealed:)",
    Why.NOTHING_BEHIND: "look what sits behind {}, and write its load or its wires (or behind:)",
    Why.NOT_LISTED: "look up what the module does with {} (out:, ground: or reference:), and what guards an output",
    Why.NO_TABLE: "write down {}: a fuse with its rating, or a splice",
    Why.OUTPUT: "look up what guards {} inside the module, and write the amperes (guarded:)",
    Why.CURRENT: "measure the current of {}, or read it on the plate (draws:)",
    Why.POSITION: "try {} with a lamp in each position of the key (fed:)",
    Why.OPTION: "write which options this car has, for {} (options:)",
    Why.ROW: "find out what was done of {}, and write it",
    Why.CALLED_SO: "look for the system that the words of {} name, and write either way whether it is there",
    Why.VOLTS: "measure or look up {}, and write them",
    Why.POLE: "look which is {}, and write it",
    Why.DECLARED: "look whether there is {}, and what became of it",
    Why.DECLARED_BY: "let the person who looked put a name under the systems ({})",
    Why.OTHER_VOLTS: "write whether this car has {}, made for other volts",
}


def _large(text: str, names: Sequence[str]) -> str:
    """The first letter large, unless the text begins with a name, whose letters stay as they are."""
    return text if any(name and text.startswith(name) for name in names) else text[:1].upper() + text[1:]
