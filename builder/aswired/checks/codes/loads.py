"""Loads: feed and return, what must work, the fuel cut-off, what a deleted part carried, volts lost on the way."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_LAMP = (
    "fuses: {{F1: {{rating: 10 A, fed: always}}}}\nloads: {{lamp: {{between: lamp.1 lamp.2{}}}}}\n"
    "wires: {{W1: {{from: F1, to: lamp.1}}, W2: {{from: lamp.2, to: battery-}}}}\n"
)
_OUT = "changes:\n  - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, lamp.1: pulled}, made: 2019-05-03 AK}"
_PUMP = (
    "fuses: {{F1: {{rating: 15 A, fed: ignition}}}}\n"
    "switches: {{inertia switch: {{between: inertia.1 inertia.2, cuts fuel: {}}}}}\n"
    "loads: {{pump: {{between: pump.1 pump.2, class: fuel pump}}}}\n"
    "wires: {{W1: {{from: F1, to: inertia.1}}, W2: {{from: inertia.2, to: pump.1}},\n"
    "  W3: {{from: pump.2, to: battery-}}}}"
)
_CHARGE = (
    "loads: {charge lamp: {between: cluster.3 cluster.4, verdict: deleted, carries: alternator excite}}\nchanges:\n"
)
_RESISTOR = "  - {{id: C7, kind: add, wire: W90, from: F3, to: alternator.D, piece: BU 18 AWG{}, made: 2019-05-03 AK}}"
_UNIT = "modules: {{body-unit: {{gone: yes, carries: bus termination}}{}}}"
_DROP = (
    "supply: 12 V\nfuses: {{F1: {{rating: 10 A, fed: always}}}}\n"
    "loads: {{pump: {{between: pump.1 pump.2, draws: 7 A, class: pump}}}}\n"
    "wires: {{W1: {{size: {0}, from: F1, to: pump.1, length: 3 m}}, "
    "W2: {{size: {0}, from: pump.2, to: battery-, length: 3 m}}}}"
)
_LONGER = (
    "fuses: {{F1: {{rating: 15 A, fed: always}}}}\n"
    "loads: {{horn: {{between: horn.1 horn.2, draws: 8 A, class: horn}}}}\n"
    "wires: {{W1: {{size: 14 AWG, from: F1, to: horn.1, length: 1 m}}, "
    "W2: {{size: 14 AWG, from: horn.2, to: battery-, length: 1 m}}}}\n"
    'usual: {{joint: "lap, crimped", overlap: 10 mm, slack: 0 mm}}\nchanges:\n'
    "  - {{id: C1, kind: extend, wire: W1, plug: horn, pigtail: 100 mm, gap: 2 m, piece: RD {}, made: 2019-05-03 AK}}"
)
_DIM = (
    "supply: 13.5 V\nfuses: {{F1: {{rating: 20 A, fed: always}}}}\n"
    "loads: {{lamp: {{between: lamp.1 lamp.2, draws: 100 W at 12.8 V, class: lamp}}}}\n"
    "wires: {{W1: {{size: {0}, from: F1, to: lamp.1, length: 10 m}}, "
    "W2: {{size: {0}, from: lamp.2, to: battery-, length: 10 m}}}}"
)

CODES: tuple[Code, ...] = (
    Code(
        "LOD01",
        ("stop",),
        "a kept load has no feed or no return",
        "Everything that led to its source, or back to the battery, is recorded as cut, pulled or gone. Where the "
        "record merely stops, the way is counted as not examined.",
        "The load does not work, and its owner finds out on the road.",
        _LAMP.format("") + _OUT,
        _LAMP.format(", verdict: deleted") + _OUT,
    ),
    Code(
        "LOD02",
        ("warning",),
        "a deleted load is still fed",
        "Its verdict is 'deleted', and a way from a source still leads to it.",
        "A feed with nothing on it is a live end waiting for metal.",
        _LAMP.format(", verdict: deleted"),
        _LAMP.format(", verdict: deleted") + _OUT,
    ),
    Code(
        "LOD03",
        ("stop",),
        "a load that must work is deleted, or has no feed or no return",
        "It stands under 'must work:' of the job or of shop.yml; the list is the shop's own and empty by default. A "
        "way that is not recorded is counted as not examined.",
        "Without it the car must not leave. Local rules say what belongs on the list.",
        "must work: [lamp]\n" + _LAMP.format("") + _OUT,
        "must work: [lamp]\n" + _LAMP.format(""),
    ),
    Code(
        "LOD04",
        ("stop",),
        "nothing is declared to cut a fuel pump off",
        "A load of class 'fuel pump' is reached from a live feed past no switch, or only past switches that say "
        "'cuts fuel: no'. A switch of which it is unknown, a feed from a module, and a return that is not recorded "
        "leave it not examined. A relay that an engine unit works is a switch too: whoever knows that the unit drops "
        "it when the engine stops writes 'cuts fuel: yes' on its contacts.",
        "After a crash the pump goes on pumping.",
        _PUMP.format("no"),
        _PUMP.format("yes"),
    ),
    Code(
        "LOD05",
        ("error",),
        "what excited the alternator left the car",
        "A deleted load or a module that is gone carried 'alternator excite', and no part in the car and no row is "
        "said to do it now.",
        "With the charge lamp gone many alternators do not charge until they are revved, or never.",
        _CHARGE + _RESISTOR.format(""),
        _CHARGE + _RESISTOR.format(", takes over: [alternator excite]"),
    ),
    Code(
        "LOD06",
        ("error",),
        "bus termination, immobiliser or gateway left the car",
        "A deleted load or a module that is gone carried one of them, and no part in the car and no row is said to do "
        "it now. How it is done is the vehicle maker's procedure.",
        "A data pair needs its termination; without immobiliser or gateway the engine may not start.",
        _UNIT.format(""),
        _UNIT.format(", engine-unit: {carries: bus termination}"),
    ),
    Code(
        "LOD07",
        ("error",),
        "a name under 'must work' that is no load",
        "The job's own list names something that is not under 'loads:'. A name of the shop's list is only counted as "
        "not examined, for that list holds for cars of every kind.",
        "What is not listed as a load is not traced, so nobody sees whether it works.",
        "must work: [stop lamp]\nloads: {lamp: {between: lamp.1 lamp.2}}",
        "must work: [lamp]\nloads: {lamp: {between: lamp.1 lamp.2}}",
    ),
    Code(
        "DRP01",
        ("warning",),
        "a load loses more volts than allowed, with every load on",
        "Feed and return together, held to 3 % of 'supply:' for lamps, pumps, electronics, sensors and ignition and to "
        "10 % for others; with 'drops held to: AC 43.13-1B' to 0.5 V for a load that stays on and 1.0 V for one that "
        "does not, at 14 V, twice that at 28 V. Loads that are never on with it are left out.",
        "A lamp at 90 % of its volts gives two thirds of its light; a pump delivers less and runs hot.",
        _DROP.format("1.5 mm2"),
        _DROP.format("4 mm2"),
    ),
    Code(
        "DRP02",
        ("warning",),
        "a load loses more volts by itself than it did in the donor",
        "Its drop alone, feed and return, against that of the donor's own wiring with the same current. Where one side "
        "of the donor is not recorded, as when it returned through the donor's body, the other side is compared. How "
        "much more is let pass stands under 'limits: worse by'.",
        "The work made the circuit worse; what was bright or strong in the donor no longer is.",
        _LONGER.format("18 AWG"),
        _LONGER.format("10 AWG"),
        limits=("worse by",),
    ),
    Code(
        "DRP03",
        ("warning",),
        "a filament lamp has too few volts at its socket, with every load on",
        "'supply:' less what feed and return lose, against a share of the volts that stand behind 'at' in its "
        "'draws:'. A lamp whose draw is written in amperes, or whose light is no filament's, is not judged.",
        "Below 85 % of its volts a lamp gives little more than half of its light: it is not seen.",
        _DIM.format("1.0 mm2"),
        _DIM.format("4 mm2"),
        limits=("lamp volts",),
    ),
)
