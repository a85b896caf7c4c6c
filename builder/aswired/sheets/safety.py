"""The safety texts: what is said of a system by what a person declared of it, of special wires, and of every car.

Workshop rules as repair manuals, body builders' guides and the makers of such systems state them, in our own words
(read, unless marked). None replaces the vehicle maker's procedure, local rules or licensed practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from aswired.car.special import special_wires
from aswired.checks.systems import SYSTEMS, System, undeclared
from aswired.figures.worked import JobResult


@dataclass(frozen=True)
class Caution:
    """One caution. `rank` is stop, warning or note; `ids` lead to the rows and wires that it speaks of."""

    rank: str
    title: str
    text: str
    ids: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()  # sentences that stand each on its own line


FIRST = Caution(
    "stop",
    "Before any work: battery off",
    "Battery negative off first and insulated; back on last. No cutting or soldering with the battery on. "
    "Power up again through a low fuse or a lamp, one circuit at a time.",
)
RESTRAINT = (
    "Airbags and belt tensioners: yellow sheaths and plugs. They stay armed after the battery is off, ten seconds on "
    "some "
    "cars and ten minutes on others; the vehicle maker's manual gives the time. No test lamp, no ohmmeter, no cut, no "
    "splice, no extension, no part from another car. Leave the work to people licensed for it."
)
ORANGE = (
    "Orange cables are high voltage. Do not cut, unplug or work beside them. They hold charge for five minutes and "
    "more "
    "after the service disconnect, and only a measured proof by a trained person shows that they are dead."
)
IN_THE_CAR = ("present", "untouched", "changed", "removed in part")


@dataclass(frozen=True)
class Told:
    """What is said of one system: its name in words, the text while it is in the car, the text when it has left it."""

    name: str
    here: str
    gone: str


SYSTEM_TEXTS = {
    "restraint": Told(
        "Restraint system",
        RESTRAINT,
        "There is no airbag and no belt tensioner in this car; whoever drives it has to know. Local rules may ask "
        "for them.",
    ),
    "high voltage": Told(
        "High voltage",
        ORANGE,
        "Whoever still finds an orange cable leaves it alone and treats it as live.",
    ),
    "anti-lock": Told(
        "Anti-lock brakes",
        "Wheel-speed pairs stay twisted and shielded up to the plug. The warning lamp has to light and to go out.",
        "The wheels can lock, no warning lamp tells, and the speed signal comes from elsewhere. Local rules may ask "
        "for it.",
    ),
    "immobiliser": Told(
        "Immobiliser",
        "The engine starts with its own keys only. Its wires are not bridged; without them the car stands.",
        "Any key that turns starts the engine.",
    ),
    "data bus": Told(
        "Data pairs",
        "They stay twisted, and alike in length. Measure between the two wires with the battery off; never with a "
        "lamp.",
        "What spoke over it no longer does.",
    ),
}
REFUSED = {
    "restraint": "A system that is neither whole nor gone may fire or fail. These pages hold no procedure for it: do "
    "not "
    "power or drive the car, and hand it to a workshop that is licensed for restraint systems. ",
    "high voltage": "A car with high voltage is outside what these pages are for: stop work, and hand it to a "
    "workshop that "
    "is trained and licensed for high voltage. ",
}

_WIRES = {
    "restraint": ("stop", "Restraint (airbag) wires", RESTRAINT),
    "high voltage": ("stop", "High-voltage wires", ORANGE),
    "anti-lock": ("warning", "Anti-lock brake wires", SYSTEM_TEXTS["anti-lock"].here),
    "immobiliser": ("warning", "Immobiliser wires", SYSTEM_TEXTS["immobiliser"].here),
    "data pair": ("warning", "Data pairs", SYSTEM_TEXTS["data bus"].here),
    "fuel cut-off": (
        "warning",
        "Fuel cut-off wires",
        "The pump has to stop when the cut-off opens: try it after any work here.",
    ),
    "fusible link": (
        "warning",
        "Fusible links",
        "Same gauge and same length again, never ordinary wire.",
    ),
    "resistance wire": (
        "warning",
        "Resistance wires",
        "Their length is their value: never cut, lengthened, soldered or replaced by plain wire.",
    ),
    "twisted pair": ("warning", "Twisted pairs", "Keep the twist up to the plug; both wires the same length."),
    "shielded": (
        "warning",
        "Shielded wires",
        "The shield goes through every joint and is connected where the maker had it.",
    ),
    "oxygen sensor": ("warning", "Oxygen sensor leads", "Crimp, do not solder, and keep grease off the lead."),
}


def refusals(worked: JobResult) -> Iterator[Caution]:
    """A car that these pages are not for: what it is, and who it goes to. No form and no procedure."""
    for system in SYSTEMS:
        status = system.status(worked.job.systems)
        if _out_of_scope(system, status):
            told = SYSTEM_TEXTS[system.key]
            title = f"{told.name}, {status}: this record stops here"
            yield Caution("stop", title, REFUSED[system.key] + told.here, _left(worked, system))


def _out_of_scope(system: System, status: str) -> bool:
    if system.key == "restraint":
        return status in ("changed", "removed in part")
    return system.key == "high voltage" and status in IN_THE_CAR


def systems(worked: JobResult) -> Iterator[Caution]:
    """Each declared system that these pages may speak of, then those of which nothing was declared, on one line."""
    by = f" Declared by {worked.job.systems.declared_by}." if worked.job.systems.declared_by else ""
    for system in SYSTEMS:
        status, told = system.status(worked.job.systems), SYSTEM_TEXTS[system.key]
        left = _left(worked, system)
        if status in ("removed complete", "never fitted") and left:
            # what was declared is not said again as if it held: somebody may trust it with his hands
            rank = "stop" if system.key in REFUSED else "warning"
            title = f"{told.name}: declared {status}, but wires of it are in the car"
            yield Caution(rank, title, f"Treat it as in the car and live until somebody has looked. {told.here}", left)
        elif status == "removed complete":
            yield Caution("warning", f"{told.name}: removed complete", told.gone + by, _taken_out(worked, system))
        elif status in IN_THE_CAR and not _out_of_scope(system, status):
            rank = "stop" if system.key == "restraint" else "warning"
            yield Caution(rank, f"{told.name}: {status}", told.here + by, left)
    if missing := undeclared(worked):
        yield Caution(
            "warning",
            f"Not declared: {', '.join(missing)}",
            "What became of them is not written. Treat each as in the car and live until somebody has looked.",
        )


def _own(worked: JobResult, system: System) -> list[str]:
    return [name for name, kind in special_wires(worked.job).items() if kind in system.wires]


def _left(worked: JobResult, system: System) -> tuple[str, ...]:
    return tuple(name for name in _own(worked, system) if worked.shown.of_wire(name))


def _taken_out(worked: JobResult, system: System) -> tuple[str, ...]:
    states = [worked.shown.wires[name] for name in _own(worked, system) if name in worked.shown.wires]
    return tuple(dict.fromkeys(state.removed_by for state in states if state.removed_by))


def declared_wires(worked: JobResult) -> Iterable[Caution]:
    """Wires declared special, unless their system is declared and told already."""
    declared_systems = {
        wire for system in SYSTEMS if system.status(worked.job.systems) != "unknown" for wire in system.wires
    }
    for word, (rank, title, text) in _WIRES.items():
        if word in declared_systems:
            continue
        declared = [name for name, kind in special_wires(worked.job).items() if kind == word]
        states = {name: worked.shown.wires[name] for name in declared if name in worked.shown.wires}
        left = tuple(name for name in declared if name not in states or not states[name].removed_by)
        if left:
            yield Caution(rank, f"{title}, declared", text, left)
        elif declared:
            rows = tuple(dict.fromkeys(states[name].removed_by for name in declared))
            yield Caution("warning", f"{title}: removed", "None is left of those that are recorded.", rows)


def standing(worked: JobResult) -> tuple[Caution, ...]:
    """Rules for every car; those of a system only while nobody declared that it is told above, or not in the car."""
    silent = undeclared(worked)
    rules = [
        Caution("note", "First", "The vehicle maker's procedure, local rules and licensed practice come before this.")
    ]
    if "restraint" in silent:
        rules.append(Caution("note", "Restraint circuits", RESTRAINT))
    if "high voltage" in silent:
        rules.append(Caution("note", "Orange cables", ORANGE))
    if "anti-lock" in silent:
        rules.append(Caution("note", "Anti-lock brakes", SYSTEM_TEXTS["anti-lock"].here))
    # 2 in where both are clamped, 6 in otherwise: AC 43.13-1B para 11-96, an aviation figure (read)
    rules.append(
        Caution(
            "note",
            "Fuel",
            "A cut-off must exist and be tried. No ground point and no fixing of wires at tank, filler, fuel line or "
            "vapour canister; wires keep 150 mm from fuel lines, 50 mm where both are clamped.",
        )
    )
    rules.append(
        Caution(
            "note",
            "Insulation",
            "Measure at plugs, lugs, fuses and relays. Never pierce insulation; seal it if someone did.",
        )
    )
    if "fusible link" not in special_wires(worked.job).values():
        rules.append(Caution("note", *_WIRES["fusible link"][1:]))
    rules.append(
        Caution(
            "note",
            "Returns",
            "Returns of added loads go to chassis or engine beside the battery strap, not to the battery post.",
        )
    )
    return tuple(rules)


def not_examined(worked: JobResult) -> Iterator[Caution]:
    """That silence is no clearance, with how much of it there is."""
    if number := len(worked.not_examined):
        text = "Not looked at or not written down; see the list. Nothing is known of them, good or bad."
        yield Caution("note", f"Not examined: {number}", text)
