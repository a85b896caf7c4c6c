"""Wires and systems that a person declares: restraint, high voltage, pairs, links, shields, sensors."""

from __future__ import annotations

from aswired.checks.codes.code import Code


def _wire(special: str, more: str = "") -> str:
    facts = f"colour: GN, size: 1.0 mm2, from: u.1, to: lamp.1, length: 900 mm, special: {special}{more}"
    return f"wires:\n  W1: {{{facts}}}\n"


def _extended(more: str = "") -> str:
    row = "id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2"
    return f"changes:\n  - {{{row}{more}}}"


_PLAIN = _wire("none")
_PAIR = (
    "wires:\n"
    "  W1: {colour: GN, size: 0.5 mm2, from: u.1, to: lamp.1, length: 900 mm, special: twisted pair, pair: W2}\n"
    "  W2: {colour: YE, size: 0.5 mm2, from: u.2, to: lamp.2, length: 900 mm, special: twisted pair}\n"
    "changes:\n"
    "  - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: GN 0.5 mm2}"
)
_ALSO = "\n  - {id: C2, kind: extend, wire: W2, plug: lamp, pigtail: 240 mm, gap: 300 mm, piece: YE 0.5 mm2}"

CODES = (
    Code(
        "SPC01",
        ("stop",),
        "work on restraint wiring",
        "A row cuts, splices or re-terminates a wire declared restraint. Taking it out whole, both ends gone or "
        "pulled, is "
        "the one row that may stand.",
        "Airbags and tensioners fire, or fail, on a joint; makers forbid any repair of their wires but their own.",
        _wire("restraint") + _extended(),
        _wire("restraint") + "changes:\n  - {id: C1, kind: remove, wire: W1, ends: {u.1: gone, lamp.1: gone}}",
    ),
    Code(
        "SPC02",
        ("stop",),
        "work on high voltage",
        "A row works on a wire declared high voltage.",
        "It kills. It belongs to people who are trained and licensed for it, and in no change list of this kind.",
        _wire("high voltage") + _extended(),
        _PLAIN + _extended(),
    ),
    Code(
        "SPC03",
        ("error",),
        "a twisted pair changed unevenly",
        "Only one of the pair was changed, the two are not alike in length, their joints lie side by side, or too "
        "long a "
        "run is untwisted.",
        "The twist and the like length keep disturbance out; a signal or a bus then fails now and again, and nobody "
        "sees why.",
        _PAIR,
        _PAIR + _ALSO,
        ("pair pieces apart", "pair joints clear", "untwisted"),
    ),
    Code(
        "SPC04",
        ("error",),
        "a resistance wire changed",
        "A row on a wire declared resistance wire, other than taking it out or leading it another way.",
        "Its resistance is the part: shorter or longer, the coil behind it burns or starves, and solder does not "
        "take on it.",
        _wire("resistance wire") + _extended(),
        _PLAIN + _extended(),
    ),
    Code(
        "SPC05",
        ("error",),
        "a fusible link gone, altered, too long, too thick, or made of ordinary wire",
        "Gone: a wire it protects is still in the car with neither fuse nor link at an end. Too thick: not the asked "
        "number "
        "of gauge numbers thinner than the thinnest stretch it protects; where one size is in mm2 the copper areas are "
        "compared, a gauge number being a factor of 1.26.",
        "The link is the fuse of the main feed: ordinary wire in its place, or more of it, lets the harness burn "
        "instead.",
        _wire("fusible link") + _extended(),
        _PLAIN + _extended(),
        ("link longest", "link steps"),
    ),
    Code(
        "SPC06",
        ("error", "warning"),
        "a shield left open, connected at both ends, or not spoken of",
        "Error when the row says that it was left open, or 'shield at' names two ends; warning when a row that cuts a "
        "shielded wire says nothing of it.",
        "An open shield keeps nothing out; one connected at both ends carries current of its own.",
        _wire("shielded") + _extended(", shield: left open"),
        _wire("shielded") + _extended(", shield: carried through"),
    ),
    Code(
        "SPC07",
        ("warning",),
        "an oxygen sensor's lead soldered",
        "A joint or terminal on a wire declared oxygen sensor is soldered.",
        "Sensor makers ask for a crimp: the sensor breathes along its lead, and heat at the joint is high.",
        _wire("oxygen sensor") + _extended(', joint: "lap, soldered"'),
        _wire("oxygen sensor") + _extended(', joint: "butt, crimped"'),
    ),
    Code(
        "SPC08",
        ("stop",),
        "a car that is outside what this record is for",
        "The header declares a restraint system changed or removed in part, or a high-voltage system that is still "
        "in the "
        "car.",
        "Half a restraint system may fire or fail, and high voltage kills; both go to a licensed workshop, and no "
        "row here "
        "makes them safe.",
        "systems: {restraint: removed in part}",
        "systems: {restraint: untouched}",
    ),
    Code(
        "SPC09",
        ("warning",),
        "work on anti-lock, immobiliser, data or fuel cut-off wires that is not declared or not proved",
        "One line a row: the system is not declared under 'systems:', or nothing shows that it works. A wire taken out "
        "whole needs no proof.",
        "These are the systems that a later driver trusts without trying them.",
        _wire("anti-lock") + _extended(),
        "systems: {anti-lock: changed}\n"
        + _wire("anti-lock")
        + _extended(", made: 2019-05-03 AK, tested: 2019-05-04 AK"),
    ),
    Code(
        "SPC10",
        ("error",),
        "what is declared of a system is not what the rows do",
        "Declared removed complete while a wire of it is still in the car; never fitted while a wire is declared its "
        "own; "
        "untouched while a row works on its wires.",
        "The declaration is what a stranger trusts before he touches the car.",
        "systems: {anti-lock: removed complete}\n" + _wire("anti-lock"),
        "systems: {anti-lock: untouched}\n" + _wire("anti-lock"),
    ),
)
