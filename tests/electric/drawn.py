"""The circuits drawn by hand: which job each is of, and the nodes of each load in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

SUPPLY_V = 13.5  # of both jobs


@dataclass(frozen=True)
class Drawn:
    """A netlist. `loads`: load -> its two nodes, fed end first ('' where its feed is not drawn); `points`: ground point
    -> node."""

    name: str
    job: str
    loads: Mapping[str, tuple[str, str]]
    points: Mapping[str, str]


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
            "indicator rear right": ("", "tr5"),
        },
        {"L4": "l4"},
    ),
    Drawn(
        "pump",
        "trail-truck",
        {"fuel pump": ("p1", "p2"), "K2 coil": ("k86", "k85")},
        {"L5": "l5", "L2": "l2", "L3": "l3"},
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
    ),
)
