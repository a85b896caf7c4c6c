"""What anybody must know before touching the car: own cautions, wires declared special, and standing rules."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.views.text import first_upper
from aswired.worked import Worked


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

# Workshop safety rules held as common practice by vehicle repair manuals; restraint, orange cable and piercing rules
# are stated alike by the makers of such systems. None replaces the donor's own manual, which each text says.
STANDING = (
    Caution(
        "note",
        "Restraint circuits",
        "Look for yellow sheathing and plugs. They stay armed after the battery is off, for as long as the donor's "
        "manual says. No test lamp, no ohmmeter, no cut, no splice, no extension.",
    ),
    Caution(
        "note",
        "Orange cables",
        "High voltage. Do not cut, unplug or work beside them without the maker's procedure and a measured proof that "
        "they are dead.",
    ),
    Caution(
        "note",
        "Fuel and brakes",
        "A fuel cut-off must exist and be tested. No ground lug at tank, filler or fuel lines. Wheel-speed pairs stay "
        "twisted and shielded.",
    ),
    Caution(
        "note",
        "Insulation",
        "Measure at plugs, lugs, fuses and relays. Never pierce insulation; seal it if someone did.",
    ),
    Caution("note", "Fusible links", "Same gauge and same length again, never ordinary wire."),
)

_SPECIAL = {
    "restraint": (
        "stop",
        "Restraint (airbag) wires",
        "Never altered without the maker's procedure. Check that the system is dead first.",
    ),
    "high voltage": (
        "stop",
        "High-voltage wires",
        "Not to be touched without the maker's procedure and a measured proof that they are dead.",
    ),
    "anti-lock": ("warning", "Anti-lock brake wires", "Wheel-speed wires stay as they are, twisted and shielded."),
    "fuel cut-off": ("warning", "Fuel cut-off wires", "The cut-off must work: test it after any work here."),
    "fusible link": ("warning", "Fusible links", "Same gauge and same length again, never ordinary wire."),
    "resistance wire": (
        "warning",
        "Resistance wires",
        "Their length is their function: never cut, lengthened or replaced by plain wire.",
    ),
    "twisted pair": ("warning", "Twisted pairs", "Keep the twist up to the plug; both wires the same length."),
    "shielded": ("warning", "Shielded wires", "The shield is grounded at one end as the maker had it."),
}


def cautions(worked: Worked) -> tuple[Caution, ...]:
    """Battery first, then the job's own words, then what was declared of this car, heaviest first."""
    declared = sorted((*_special(worked), *_bridged(worked)), key=lambda caution: caution.rank != "stop")
    own = (Caution("warning", "This car", "", (), worked.job.cautions),) if worked.job.cautions else ()
    return (FIRST, *own, *declared)


def _special(worked: Worked) -> Iterable[Caution]:
    for word, (rank, title, text) in _SPECIAL.items():
        declared = [name for name, wire in worked.job.wires.items() if wire.special == word]
        states = {name: worked.shown.wires[name] for name in declared if name in worked.shown.wires}
        left = tuple(name for name in declared if name not in states or not states[name].removed_by)
        if left:
            yield Caution(rank, f"{title}, declared", text, left)
        elif declared:
            rows = tuple(dict.fromkeys(states[name].removed_by for name in declared))
            yield Caution("warning", f"{title}: removed", "None is left of those that are recorded.", rows)


def _bridged(worked: Worked) -> Iterable[Caution]:
    """Interlocks that were bridged: the warning as written, who decided it, what keeps people safe in its place."""
    counted = {row.id for row in worked.shown.rows if row.counts}
    for change in worked.job.changes:
        if change.kind == "bridge" and change.id in counted:
            said = (
                change.warning,
                f"Decided by {change.decided_by}" if change.decided_by else "Who decided it is not recorded",
                f"In its place: {change.instead}" if change.instead else "What stands in its place is not recorded",
                f"Why: {change.why}" if change.why else "",
                change.note,
            )
            text = " ".join(_sentence(words) for words in said if words)
            what = change.interlock if change.interlock not in ("", "other") else " with ".join(change.ends)
            yield Caution("warning", f"Interlock bridged: {what}", text, (change.id,))


def _sentence(words: str) -> str:
    return first_upper(words.rstrip(".")) + "."
