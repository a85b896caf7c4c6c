"""Colours: pieces that are taken for another wire, and wires that are not as the diagram has them."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_WIRE = """wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: YE, size: 1.0 mm2, from: F2, to: lamp.2}
"""
_CIRCUIT = """donor colours: BK
fuses: {F1: {rating: 10 A, fed: always}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: BK, size: 1.0 mm2, from: lamp.2, to: battery-}
loads: {lamp: {between: lamp.1 lamp.2}}
"""


def _extend(pieces: str) -> str:
    return f"changes: [{{id: C1, kind: extend, plug: lamp, gap: 400 mm, pigtail: 150 mm, wires: {{{pieces}}}}}]"


def _extend_one(says: str) -> str:
    return f"changes: [{{id: C1, kind: extend, wire: W1, plug: lamp, gap: 400 mm, pigtail: 150 mm, {says}}}]"


CODES = (
    Code(
        "COL01",
        ("error",),
        "a piece whose colour is not written",
        "A piece was put in, and its row says neither its colour nor that it is unknown.",
        "From the next joint on the wire has a colour that nobody will find in any diagram.",
        _WIRE + _extend_one("why: lamp sits further out"),
        _WIRE + _extend_one("piece: BU 1.0 mm2"),
    ),
    Code(
        "COL02",
        ("error", "warning"),
        "a piece with the colour of another wire in its connector, or in its bundle",
        "In one connector it is an error; two pieces of one row with one colour are a warning.",
        "Two wires that look alike are changed over the first time the plug is apart.",
        _WIRE + _extend("W1: BU 1.0 mm2, W2: BU 1.0 mm2"),
        _WIRE + _extend("W1: BU 1.0 mm2, W2: RD 1.0 mm2"),
    ),
    Code(
        "COL03",
        ("error",),
        "a ground colour on a feed, or plain red on a ground",
        "The donor's ground colours are those under `donor colours:`. Only pieces that this job put in are judged, and "
        "only where the circuit was traced.",
        "People clip a lead to a wire of the ground colour without a thought.",
        _CIRCUIT + _extend_one("piece: BK 1.0 mm2"),
        _CIRCUIT + _extend_one("piece: BU 1.0 mm2"),
    ),
    Code(
        "COL04",
        ("warning",),
        "an orange piece, an orange or yellow cover",
        "Orange is kept for high voltage and yellow for restraint wiring.",
        "Whoever opens the car later either keeps away from a lamp wire or no longer from the real ones.",
        _WIRE + _extend_one("piece: OG 1.0 mm2"),
        _WIRE + _extend_one("piece: BU 1.0 mm2"),
    ),
    Code(
        "COL05",
        ("warning",),
        "a donor wire that is not as the diagram has it",
        "`by diagram:` gives another base colour, a stripe not seen, or another stripe; the message says which.",
        "Stripes fade and hide under dirt, and donors of other years had other colours: it may be another wire.",
        "wires: {W1: {colour: GN, from: F1, to: lamp.1, by diagram: GN/WH}}",
        "wires: {W1: {colour: GN/WH, from: F1, to: lamp.1, by diagram: GN/WH}}",
    ),
)
