"""The car: route, connectors, fuses, further sources, switches, modules, loads, ground points, splices, wires."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from aswired.record.forms import (  # fmt: skip
    AMPS,
    BACK_TO,
    BEHIND,
    CARRIES,
    CELSIUS,
    COLOUR,
    CONDITION,
    CONDUCTOR,
    DONE,
    DRAW,
    END,
    INSULATION,
    LENGTH,
    MOHM,
    NAME,
    PLACE,
    RANGE,
    SECONDS,
    SIDE,
    SIZE,
    TWO_ENDS,
    WORDS,
    YES_NO,
)
from aswired.text.colours import UNKNOWN, Colour
from aswired.text.one_line import UNREAD_SIZE, Condition, Done, SizeRange
from aswired.text.schema import Choice, Located, Many, Named, keyed
from aswired.text.units import Draw, Length, Quantity, Size


@dataclass(frozen=True)
class Leg(Located):
    """A leg of the finished car's route: the stretch of tape measure between two landmarks."""

    from_: str = keyed(NAME, "landmark", key="from", required=True, default="")
    to: str = keyed(NAME, "landmark", required=True, default="")
    length: Length | None = keyed(LENGTH, "by tape measure along the bundle", required=True)
    zone: tuple[str, ...] = keyed(Many(Choice("zone", ("dry", "wet", "hot", "flex"))), "what the leg runs through")
    hottest: Quantity | None = keyed(CELSIUS, "how hot it gets there, measured")
    name: str = keyed(WORDS, "what the shop calls it", default="")


@dataclass(frozen=True)
class Hole(Located):
    """A hole that the bundle passes, at the landmark it is named after."""

    through: str = keyed(
        Choice("what the hole is in", ("sheet metal", "composite", "other", "unknown")),
        "what it is in",
        default="unknown",
    )
    grommet: str = keyed(Choice("grommet", ("yes", "no", "unknown")), "whether the edge is covered", default="unknown")
    bore: Length | None = keyed(LENGTH, "clear width inside the grommet")


@dataclass(frozen=True)
class Plug(Located):
    """A connector. List only the cavities you met."""

    ways: str = keyed(WORDS, "number of cavities", example="5", default="")
    seen_from: str = keyed(SIDE, "side the cavity numbers are read from", default="")
    place: str = keyed(PLACE, "where it is", key="at", default="")
    in_line: bool = keyed(YES_NO, "the same cavity number on both halves is joined through (F11)", default=False)
    cavities_not_examined: tuple[str, ...] = keyed(Many(WORDS), "cavity numbers, or: others")
    gone: bool = keyed(YES_NO, "the part left the car", default=False)
    takes: SizeRange | None = keyed(RANGE, "sizes that its terminals and seals take")
    solder: str = keyed(
        Choice("solder", ("allowed", "not allowed", "unknown")),
        "what its maker says of soldered terminals",
        default="unknown",
    )
    reachable: bool = keyed(YES_NO, "no where a meter's tip cannot come to its back without piercing", default=True)
    behind: str = keyed(
        BEHIND,
        "what its other half is plugged to, where no wire of that is listed; nothing feeds from there",
        example="speed sensor",
        default="",
    )
    note: str = keyed(WORDS, "anything worth knowing", default="")


@dataclass(frozen=True)
class Fuse(Located):
    """A fuse. Wires that end in `F7` sit on the load side, wires that end in `F7.feed` on the side of the battery."""

    rating: Quantity | None = keyed(AMPS, "as moulded on it", example="15 A")
    in_: str = keyed(PLACE, "where it is: a landmark, a place, or words", key="in", default="")
    fed: str = keyed(
        Choice("feed", ("always", "ignition", "accessory", "unknown")), "when its feed side is live", default=""
    )
    fed_from: str = keyed(
        END,
        "the point its feed side hangs on, where no wire on record leads to that side",
        example="fuse-box.bus",
        default="",
    )
    feeds: str = keyed(WORDS, "what it feeds, in the words of the fuse page", default="")
    use: str = keyed(Choice("use", ("in use", "spare")), "spare when it feeds nothing on purpose", default="in use")


@dataclass(frozen=True)
class Source(Located):
    """A further source of current beside the battery: a second battery, an alternator, a converter."""

    plus: str = keyed(END, "where its current comes out", example="aux.plus", required=True, default="")
    minus: str = keyed(END, "where it comes back", example="aux.minus", default="")


@dataclass(frozen=True)
class Switch(Located):
    """A switch, a relay's contacts, an isolator: joins two ends when closed."""

    between: tuple[str, str] | None = keyed(TWO_ENDS, "the two ends it joins", required=True)
    place: str = keyed(PLACE, "where it is", key="at", default="")
    what: str = keyed(WORDS, "in words", default="")
    worked_by: str = keyed(NAME, "for a relay's contacts: the load that is its coil", default="")
    at_rest: str = keyed(
        Choice("rest", ("open", "closed")), "what it is while nobody and no coil works it", default="open"
    )
    resistance: Quantity | None = keyed(MOHM, "measured over it, closed", example="3 mohm")
    cuts_fuel: str = keyed(
        Choice("fuel cut-off", ("yes", "no", "unknown")),
        "opens by itself when the engine stops or at a crash: inertia, oil pressure, engine unit",
        default="unknown",
    )


@dataclass(frozen=True)
class Module(Located):
    """A control module: only what is relied on. Its inside is not traced (F12)."""

    out: Mapping[str, str] = keyed(Named(WORDS, "cavity"), "cavities that give a feed or data, with words")
    guarded: Mapping[str, Quantity] = keyed(
        Named(AMPS, "cavity"), "what the module lets out of a cavity at most", example="{22: 10 A}"
    )
    ground: tuple[str, ...] = keyed(Many(NAME), "cavities that are its ground")
    reference: tuple[str, ...] = keyed(Many(NAME), "cavities that its sensors return to, kept apart from power grounds")
    place: str = keyed(PLACE, "where it is", key="at", default="")
    cavities_not_examined: tuple[str, ...] = keyed(Many(WORDS), "cavity numbers, or: others")
    carries: tuple[str, ...] = keyed(Many(CARRIES), "what others rely on it for")
    gone: bool = keyed(YES_NO, "the part left the car", default=False)


LOAD_CLASSES = (
    "lamp", "indicator", "pump", "fuel pump", "electronics", "sensor", "ignition", "motor", "starter", "heater",
    "horn", "coil", "other",
)  # fmt: skip


@dataclass(frozen=True)
class Load(Located):
    """A consumer between two ends. Which end is fed and which is ground comes from the trace (F1)."""

    between: tuple[str, str] | None = keyed(TWO_ENDS, "its two ends", required=True)
    draws: Draw | None = keyed(DRAW, "as printed on it or measured")
    class_: str = keyed(
        Choice("class", LOAD_CLASSES),
        "kind of load; lamps, pumps, electronics, sensors, ignition ask for 3 %",
        key="class",
        default="other",
    )
    duty: str = keyed(Choice("duty", ("continuous", "intermittent", "unknown")), "how long it is on", default="unknown")
    on_at_most: Quantity | None = keyed(SECONDS, "how long it is on at a time, at most", example="60 s")
    not_with: tuple[str, ...] = keyed(Many(NAME), "loads that are never on at the same time as this one")
    light: str = keyed(
        Choice("light", ("filament", "LED", "gas discharge", "unknown")),
        "of a lamp: what gives the light",
        default="filament",
    )
    verdict: str = keyed(Choice("verdict", ("kept", "deleted")), "what the job decided", default="kept")
    feed: str = keyed(
        Choice("feed", ("traced", "not examined")), "not examined when its feed was not looked at", default="traced"
    )
    return_: str = keyed(
        Choice("return", ("traced", "not examined")),
        "not examined when its return was not looked at",
        key="return",
        default="traced",
    )
    side: str = keyed(Choice("side of the car", ("left", "right")), "of a lamp", default="")
    carries: tuple[str, ...] = keyed(Many(CARRIES), "what others rely on it for")
    unfused: str = keyed(WORDS, "why it has no fuse on purpose, as for a starter's main feed", default="")
    for_: Condition | None = keyed(CONDITION, "it belongs to some cars only", key="for")


@dataclass(frozen=True)
class GroundPoint(Located):
    """A ground point, the donor's or a new one, and its way back to the battery."""

    what: str = keyed(WORDS, "in words", default="")
    place: str = keyed(PLACE, "where it is", key="at", default="")
    stud: str = keyed(WORDS, "thread", example="M6", default="")
    bolted_to: str = keyed(WORDS, "what it is bolted to", default="")
    conducts: str = keyed(
        Choice("conducts", ("yes", "no", "unknown")),
        "no for plastic, glass-fibre, paint under the ring",
        default="unknown",
    )
    cable: Size | None = keyed(SIZE, "size of the cable back", example="10 mm2")
    cable_length: Length | None = keyed(LENGTH, "its length", example="7 ft")
    back_to: str = keyed(BACK_TO, "battery- or another ground point", default="")
    gone: bool = keyed(YES_NO, "not on this car any more", default=False)
    surface: str = keyed(
        WORDS, "how the face was made ready", example="bare metal, greased after tightening", default=""
    )
    painted: Done | None = keyed(DONE, "when it was painted over")
    reachable: bool = keyed(YES_NO, "no where a meter's tip cannot come to it", default=True)
    near: tuple[str, ...] = keyed(
        Many(Choice("neighbour", ("tank", "filler", "fuel line", "vapour canister", "exhaust", "none"))),
        "what is closer to it than a hand's breadth",
    )


@dataclass(frozen=True)
class BodyStrap(Located):
    """The cable from the body to battery negative, by which returns through the body come home."""

    cable: Size | None = keyed(SIZE, "its size", example="16 mm2")
    cable_length: Length | None = keyed(LENGTH, "its length", example="400 mm")


@dataclass(frozen=True)
class FactorySplice(Located):
    """A joint the maker made inside the wrap. Who ends there follows from the wires."""

    place: str = keyed(PLACE, "where it is", key="at", default="")
    all_members_known: bool = keyed(YES_NO, "no when wires in it were not traced", default=True)
    bus: bool = keyed(YES_NO, "a bus bar or stud of the feed: wire to a fuse is measured from it", default=False)
    note: str = keyed(WORDS, "anything worth knowing", default="")


SPECIAL = (
    "restraint",
    "high voltage",
    "resistance wire",
    "twisted pair",
    "shielded",
    "fusible link",
    "anti-lock",
    "fuel cut-off",
    "oxygen sensor",
    "data pair",
    "immobiliser",
    "none",
)


@dataclass(frozen=True)
class Wire(Located):
    """A wire of the donor that was touched or is relied on. From and to carry no order (F1)."""

    colour: Colour = keyed(COLOUR, "as read", default=UNKNOWN)
    size: Size = keyed(SIZE, "as printed", default=UNREAD_SIZE)
    from_: str = keyed(END, "one end", key="from", required=True, default="unknown")
    to: str = keyed(END, "the other end", required=True, default="unknown")
    via: str = keyed(END, "cavity of an in-line plug it passes (F11)", default="")
    length: Length | None = keyed(LENGTH, "between its two reference points")
    by: tuple[str, ...] = keyed(Many(NAME), "landmarks it goes by where the route leaves a choice (P2)")
    special: str = keyed(Choice("special", SPECIAL), "declared by a person, never inferred", default="")
    pair: str = keyed(NAME, "the other wire of a twisted pair", default="")
    circuit: str = keyed(WORDS, "what it is for, in words", default="")
    note: str = keyed(WORDS, "anything worth knowing", default="")
    loom: str = keyed(NAME, "which of several harnesses it belongs to", default="")
    by_diagram: Colour | None = keyed(COLOUR, "its colour in the donor's diagram, where that differs")
    other_size: Size | None = keyed(SIZE, "the size in the other system, when both are printed")
    insulation: str = keyed(INSULATION, "of its insulation", default="")
    conductor: str = keyed(CONDUCTOR, "of its conductor", default="")
    outside: Length | None = keyed(LENGTH, "measured outer diameter")
    protects: tuple[str, ...] = keyed(Many(NAME), "of a fusible link: the wires behind it")
    shield_at: tuple[str, ...] = keyed(Many(END), "where its shield is connected")
    for_: Condition | None = keyed(CONDITION, "it belongs to some cars only", key="for")
