"""Options: interlocks that were bridged, what another kind of car left behind, recipes that fail on other cars."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_BRIDGE = (
    "changes:\n  - {{id: C1, kind: bridge, ends: [neutral.1, neutral.2], piece: BU 18 AWG, interlock: park or neutral"
    "{}, made: 2019-05-03 AK}}"
)
_LOCK = (
    "options: {{gearbox: {{is: {}, could be: [manual, automatic]}}}}\n"
    "fuses: {{F3: {{fed: ignition}}}}\n"
    "wires: {{W40: {{from: F3, to: shift-lock.1, for: gearbox is automatic}}}}"
)
_RECIPE = (
    "options: {{heater: {{is: diesel, could be: [diesel, electric]}}}}\n"
    "wires: {{W1: {{from: F1, to: heater.1}}}}\n"
    "changes:\n"
    "  - {{id: C1, kind: remove, wire: W1, ends: {{F1: pulled, heater.1: gone}}, only if: heater is electric}}\n"
    "  - {{id: C2, kind: terminate, wire: W1, end: heater.1, into: heater.3{}}}"
)
_FOR = "options: {{gearbox: manual}}\nwires: {{W40: {{from: F3, to: shift-lock.1, for: {} is manual}}}}"

CODES: tuple[Code, ...] = (
    Code(
        "OPT01",
        ("error",),
        "park or neutral is bridged, and nothing is named in its place",
        "A made bridge row that has neither 'instead:', such as a clutch switch, nor 'decided by:'.",
        "The engine can start in gear, and the car moves. Whether it may be done at all, local rules say first.",
        _BRIDGE.format(""),
        _BRIDGE.format(', decided by: owner, instead: "clutch switch, C2"'),
    ),
    Code(
        "OPT02",
        ("error",),
        "a wire or load of another kind of car is still there and fed",
        "Its 'for:' asks for a value that this car's option does not have, no row speaks of the wire, and a feed leads "
        "to it; a load counts while it is kept. One line for each condition.",
        "A feed that belongs to nobody: the range switch, say, that also fed reversing lamps and shift lock.",
        _LOCK.format("manual"),
        _LOCK.format("automatic"),
    ),
    Code(
        "OPT03",
        ("error", "warning", "note"),
        "for other values of the options the change list does not work out",
        "Every combination of the values that rows ask for with 'only if:' is built as planned, 64 at most (a note "
        "says when there are more). Rows that cannot be so, ends left open and loads without feed or return are told "
        "when this car does not have them: once a cause. A warning where a load's way is merely written by no row, "
        "or where the option of this car is unknown.",
        "A list that is used again for the next car has to be whole for that car, not only for this one.",
        _RECIPE.format(""),
        _RECIPE.format(", only if: heater is diesel"),
    ),
    Code(
        "OPT04",
        ("error",),
        "an option or a value, named under 'for:', that is not declared",
        "The option is not under 'options:', or the value is neither its own nor under 'could be:'.",
        "Nobody can tell whether the wire or load belongs to this car.",
        _FOR.format("gear box"),
        _FOR.format("gearbox"),
    ),
)
