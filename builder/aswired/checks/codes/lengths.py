"""Lengths and offcuts: what does not add up, and pieces from a spoilt wire."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_USUAL = 'usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm}\n'
_WIRE = "wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}\n"
_TWO = _WIRE.replace("}}", "}, W2: {colour: VT, size: 1.0 mm2, from: F2, to: lamp.2, length: 900 mm}}")


def _extend(says: str, rack: str = "") -> str:
    row = f"id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, {says}"
    return _USUAL + rack + _WIRE + f"changes: [{{{row}}}]"


def _remove(offcut: str) -> str:
    row = f"id: C1, kind: remove, wire: W1, ends: {{F1: pulled, lamp.1: gone}}, reclaimed: {{{offcut}}}"
    return _WIRE + f"changes: [{{{row}}}]"


CODES = (
    Code(
        "LEN01",
        ("warning",),
        "a recorded length that does not agree with the computed one",
        "Of a piece that was cut, of conductor taken out, or of two statements on one row.",
        "One of the measurements is wrong, and places of joints are worked out from it.",
        _extend("piece: BU 1.0 mm2, cut: 600 mm"),
        _extend("piece: BU 1.0 mm2, cut: 475 mm"),
        ("length apart",),
    ),
    Code(
        "LEN02",
        ("warning",),
        "slack below zero",
        "The wire is shorter than the way it has to go.",
        "It pulls at its terminals, and leaves nothing for a new one.",
        _extend("piece: BU 1.0 mm2, slack: -20 mm"),
        _extend("piece: BU 1.0 mm2, slack: 20 mm"),
    ),
    Code(
        "LEN03",
        ("warning",),
        "more put on the rack than came out of the car",
        "What was reclaimed is longer than what the row took out.",
        "The next piece cut from it will be too short.",
        _remove("O1: GN 1200 mm"),
        _remove("O1: GN 850 mm"),
    ),
    Code(
        "LEN04",
        ("warning",),
        "a row that cuts several wires and has no stagger",
        "It gives a pigtail or a tail, and neither it nor `usual:` says whether all wires are cut alike.",
        "Where the later splices lie cannot be told, and in the car they are looked for in the wrong place.",
        _USUAL + _TWO + "changes: [{id: C1, kind: extend, plug: lamp, pigtail: 200 mm, gap: 400 mm, "
        "wires: {W1: BU 1.0 mm2, W2: RD 1.0 mm2}}]",
        _USUAL + _TWO + "changes: [{id: C1, kind: extend, plug: lamp, pigtail: 200 mm, stagger: 60 mm, gap: 400 mm, "
        "wires: {W1: BU 1.0 mm2, W2: RD 1.0 mm2}}]",
    ),
    Code(
        "OFF01",
        ("error",),
        "an offcut from which more was cut than it had",
        "The pieces taken from it are longer together than it is.",
        "One of the pieces in the car is another wire than the record says.",
        _extend("piece: BU 1.0 mm2 from O1, made: 2019-05-03 AK", "offcuts: {O1: BU 1.0 mm2 300 mm}\n"),
        _extend("piece: BU 1.0 mm2 from O1, made: 2019-05-03 AK", "offcuts: {O1: BU 1.0 mm2 800 mm}\n"),
    ),
    Code(
        "OFF02",
        ("note",),
        "an offcut that is not on the rack",
        "A piece names an offcut that no row reclaimed and that `offcuts:` does not list.",
        "Where the wire came from, and whether it was sound, cannot be told later.",
        _extend("piece: BU 1.0 mm2 from O9", "offcuts: {O1: BU 1.0 mm2 800 mm}\n"),
        _extend("piece: BU 1.0 mm2 from O1", "offcuts: {O1: BU 1.0 mm2 800 mm}\n"),
    ),
    Code(
        "OFF03",
        ("error",),
        "a piece cut from a browned, oily or nicked offcut",
        "The rack, or the row that reclaimed it, notes that condition.",
        "Brown insulation was too hot once; oil softens it; a nick breaks and lets water in.",
        _extend("piece: BU 1.0 mm2 from O1", 'offcuts: {O1: "BU 1.0 mm2 800 mm, browned"}\n'),
        _extend("piece: BU 1.0 mm2 from O1", 'offcuts: {O1: "BU 1.0 mm2 800 mm, good"}\n'),
    ),
)
