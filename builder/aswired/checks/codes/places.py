"""Places by tape measure: what cannot be found again."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_ROUTE = (
    "landmarks: {bulkhead: sheet metal, nose: takeout}\n"
    "route: [{from: bulkhead, to: nose, length: 1000 mm}]\n"
    "wires:\n  W1: GN 1.0 mm2, a.1 to FS1\n  W2: GN 1.0 mm2, b.1 to FS1\n"
)
_MEASURED = """usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm}
landmarks: {bulkhead: sheet metal, nose: takeout}
route: [{from: bulkhead, to: nose, length: 1000 mm}]
fuses: {F1: {in: bulkhead}}
plugs: {lamp: {at: nose}}
wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
"""
_FORK = """landmarks: {box: fuse box, left: left rail, right: right rail, nose: takeout}
route:
  - {from: box, to: left, length: 1 m}
  - {from: box, to: right, length: 1 m}
  - {from: left, to: nose, length: 1 m}
  - {from: right, to: nose, length: 1 m}
fuses: {F1: {in: box}}
plugs: {lamp: {at: nose}}
"""


def _joined(where: str) -> str:
    return _ROUTE + f"changes: [{{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], where: {where}}}]"


def _extended(where: str) -> str:
    row = "id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 100 mm, piece: BU 1.0 mm2"
    return _MEASURED + f"changes: [{{{row}, where: {where} from bulkhead towards nose}}]"


CODES = (
    Code(
        "PLC01",
        ("error",),
        "a distance without a landmark",
        "The place begins with a length, but not with what it was measured from.",
        "Three years later nobody knows which end of the tape measure lay where.",
        _joined("300 mm"),
        _joined("300 mm from bulkhead towards nose"),
    ),
    Code(
        "PLC02",
        ("error",),
        "a place that cannot be found",
        "A landmark of it is not on the route, the route does not lead there, or the distance lies beyond the end.",
        "What cannot be walked to with a tape measure cannot be found under the wrap.",
        _joined("1200 mm from bulkhead towards nose"),
        _joined("900 mm from bulkhead towards nose"),
    ),
    Code(
        "PLC03",
        ("warning",),
        "a recorded place that does not agree with the lengths",
        "The tape measure says one place, the lengths of the wire another one.",
        "One of the two was measured wrong, and the next person cuts the wrap open in the wrong place.",
        _extended("500 mm"),
        _extended("695 mm"),
        ("place apart",),
    ),
    Code(
        "PLC04",
        ("warning",),
        "a wire that the route leads two ways",
        "Its ends are at two landmarks between which the route leaves a choice.",
        "Lengths and places along it cannot be worked out until the way is said.",
        _FORK + "wires: {W1: {colour: GN, from: F1, to: lamp.1}}",
        _FORK + "wires: {W1: {colour: GN, from: F1, to: lamp.1, by: left}}",
    ),
    Code(
        "PLC05",
        ("warning", "note"),
        "a landmark that is not declared",
        "A leg of the route, a hole or a wire's 'by:' names it, and 'landmarks:' does not; legs are held to that list "
        "only where it is written. As a place of a part or joint, a single word that is no landmark is a note: it is "
        "shown as it is written, and nothing is worked out with it.",
        "What is led by a name that is nowhere is led no way at all.",
        _FORK + "wires: {W1: {colour: GN, from: F1, to: lamp.1, by: lid}}",
        _FORK + "wires: {W1: {colour: GN, from: F1, to: lamp.1, by: left}}",
    ),
    Code(
        "PLC06",
        ("error",),
        "a place with a distance that does not say from which landmark towards which",
        "It names a landmark and a length, in words that cannot be walked: 'past', 'behind', 'left of'. The words are "
        "shown as they are written; no length, thickness or heat is worked out with them.",
        "Past the nose may be either side of it.",
        _joined("300 mm past nose"),
        _joined("300 mm from nose towards bulkhead"),
    ),
)
