"""The circuits drawn by hand: which job each is of, and the nodes of each load in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

SUPPLY_V = 13.5  # of both jobs


@dataclass(frozen=True)
class Drawn:
    """A netlist in which every load draws. `loads`: load -> its two nodes, fed end first; `points`: ground point ->
    node. `live` and `worked`: what is fed and closed by hand for these loads alone; relays follow."""

    name: str
    job: str
    loads: Mapping[str, tuple[str, str]]
    points: Mapping[str, str]
    live: frozenset[str] = frozenset()
    worked: frozenset[str] = frozenset()


CIRCUITS = (
    Drawn(
        "nose",
        "trail-truck",
        {
            "dip left": ("ll1", "ll4"),
            "dip right": ("lr1", "lr4"),
            "position left": ("ll2", "ll4"),
            "position right": ("lr2", "lr4"),
            "indicator front left": ("ll3", "ll4"),
            "indicator front right": ("lr3", "lr4"),
            "siren": ("sp1", "sp2"),
        },
        {"L1": "l1", "L6": "l6"},
    ),
    Drawn(
        "rear",
        "trail-truck",
        {
            "tail left": ("tl1", "tl5"),
            "tail right": ("tr1", "tr5"),
            "number lamp": ("n1", "n2"),
            "stop left": ("tl2", "tl5"),
            "stop right": ("tr2", "tr5"),
            "indicator rear left": ("tl3", "tl5"),
            "reversing lamp": ("tr4", "tr5"),
            "indicator rear right": ("tr3", "tr5"),
        },
        {"L4": "l4"},
    ),
    Drawn(
        "pump",
        "trail-truck",
        {"fuel pump": ("p1", "p2"), "K2 coil": ("k86", "k85")},
        {"L5": "l5", "L2": "l2", "L3": "l3"},
        frozenset({"F9.feed", "engine-unit.32"}),
        frozenset({"inertia switch"}),
    ),
    Drawn(
        "dash",
        "trail-truck",
        {
            "cluster supply": ("c2", "c1"),
            "cab unit": ("u30", "u31"),
            "speed unit": ("v4", "v5"),
            "K1 coil": ("k86", "k85"),
            "cab lamp": ("cl1", "cl2"),
            "heater fan": ("hp1", "hp2"),
            "radio set": ("r1", "r2"),
            "auxiliary heater": ("x1", "x2"),
        },
        {"L2": "l2", "L3": "l3"},
        frozenset({"F11.feed", "F6.feed", "F16.feed", "F13.feed"}),
        frozenset({"siren button", "heater fan switch"}),
    ),
    Drawn(
        "flatbed",
        "flatbed",
        {
            "tail left": ("tl1", "tl5"),
            "tail right": ("tr1", "tr5"),
            "number lamp": ("n1", "n2"),
            "stop left": ("tl2", "tl5"),
            "stop right": ("tr2", "tr5"),
            "indicator left": ("tl3", "tl5"),
            "indicator right": ("tr3", "tr5"),
            "reversing lamp": ("tr4", "tr5"),
        },
        {"L1": "l1"},
        frozenset({"F1.feed", "F2.feed", "F3.feed", "cab-unit.7", "cab-unit.8"}),
        frozenset({"stop switch", "reverse switch"}),
    ),
)

# lamps.cir: nodes of the job and where they are in it; what is left out or opened there for what stands otherwise.
LAMPS = {
    "lamp-left.1": "ll1", "lamp-left.2": "ll2", "lamp-left.3": "ll3", "lamp-left.4": "ll4",
    "lamp-right.1": "lr1", "lamp-right.2": "lr2", "lamp-right.3": "lr3", "lamp-right.4": "lr4",
    "siren-plug.1": "sp1", "siren-plug.2": "sp2", "FS9": "fs9", "L1": "l1", "L6": "l6",
    "tail-left.1": "tl1", "tail-left.2": "tl2", "tail-left.3": "tl3", "tail-left.5": "tl5",
    "tail-right.1": "tr1", "tail-right.2": "tr2", "tail-right.3": "tr3", "tail-right.4": "tr4", "tail-right.5": "tr5",
    "bed-lamp.2": "n1", "bed-lamp.1": "n2", "FS10": "fs10", "L4": "l4", "FS4": "fs4", "FS6": "fs6", "FS7": "fs7",
    "FS8": "fs8",
}  # fmt: skip
SOURCES = {
    "F1.feed": "VF1", "F2.feed": "VF2", "F3.feed": "VF3", "F7.feed": "VF7", "F8.feed": "VF8", "F10.feed": "VF10",
    "cab-unit.22": "VU22", "cab-unit.23": "VU23",
}  # fmt: skip
SWITCHES = {"light switch": "light", "stop switch": "stop", "reverse switch": "reverse", "siren button": "contact"}
CABLES = {"cable L1 to L6": "RL1", "cable L4 to battery-": "RL4"}


@dataclass(frozen=True)
class Tried:
    """A state of lamps.cir, named by what it shows."""

    name: str
    live: frozenset[str]
    worked: frozenset[str]
    loose: frozenset[str] = frozenset()


TRIED = (
    Tried("everything on", frozenset(SOURCES), frozenset(SWITCHES)),
    Tried("braking", frozenset({"F2.feed"}), frozenset({"stop switch"})),
    Tried(
        "braking, rear rail loose",
        frozenset({"F2.feed"}),
        frozenset({"stop switch"}),
        frozenset({"cable L4 to battery-"}),
    ),
    Tried(
        "dipped, front rail loose",
        frozenset({"F7.feed", "F8.feed"}),
        frozenset({"light switch"}),
        frozenset({"cable L1 to L6"}),
    ),
    Tried("turning, rear rail loose", frozenset({"cab-unit.22"}), frozenset(), frozenset({"cable L4 to battery-"})),
    Tried(
        "siren, front rail loose", frozenset({"F10.feed"}), frozenset({"siren button"}), frozenset({"cable L1 to L6"})
    ),
    Tried(
        "both rails loose",
        frozenset({"F2.feed", "F3.feed"}),
        frozenset({"light switch", "stop switch"}),
        frozenset(CABLES),
    ),
)
