"""Sizes, terminals, conductors and insulation."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_WIRE = "wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: FS1, length: 900 mm}}\n"
_LEG = """landmarks: {bulkhead: sheet metal, nose: takeout}
route: [{from: bulkhead, to: nose, length: 1000 mm, zone: hot}]
fuses: {F1: {in: bulkhead}}
plugs: {lamp: {at: nose}}
"""


def _terminate(says: str) -> str:
    return _WIRE + f"changes: [{{id: C1, kind: terminate, wire: W1, end: FS1, into: lamp.1, {says}}}]"


def _fed(size: str) -> str:
    return f"""fuses: {{F1: {{rating: 15 A, fed: always}}}}
loads: {{fan: {{between: fan.1 fan.2, draws: 9 A}}}}
wires:
  W1: {{colour: GN, size: {size}, from: F1, to: fan.1}}
  W2: {{colour: BK, size: 2.5 mm2, from: fan.2, to: battery-}}"""


CODES = (
    Code(
        "SIZ01",
        ("error",),
        "a piece smaller than the wire it lengthens",
        "Both sizes are compared by their copper, each by its own table.",
        "The fuse was chosen for the wire that was there; the thinner piece burns first.",
        _terminate("gap: 200 mm, piece: BU 0.5 mm2"),
        _terminate("gap: 200 mm, piece: BU 1.0 mm2"),
    ),
    Code(
        "SIZ02",
        ("warning",),
        "a piece too thick for the terminal and seal of its plug",
        "The piece ends in a cavity, and is thicker than what the plug `takes` by more steps of size than the limit. "
        "A step is two gauge numbers, or 1.59 times the copper.",
        "Strands are cut off to make it fit, and the seal no longer closes around the wire.",
        "plugs: {lamp: {takes: 0.5-1.0 mm2}}\n" + _terminate("gap: 200 mm, piece: BU 4 mm2"),
        "plugs: {lamp: {takes: 0.5-1.0 mm2}}\n" + _terminate("gap: 200 mm, piece: BU 1.5 mm2"),
        ("terminal steps",),
    ),
    Code(
        "SIZ03",
        ("warning",),
        "a size printed in both systems that does not agree, or one not read on a wire that carries much",
        "Gauge and square millimetres lie more than one step of size apart; or a kept load above the limit is fed or "
        "returns by a wire whose size is unknown. Told once a wire.",
        "Neither fuse nor drop can be judged by a size that is not known.",
        _fed("unknown"),
        _fed("2.5 mm2"),
        ("size unread above",),
    ),
    Code(
        "TRM01",
        ("warning",),
        "a soldered terminal where its maker forbids solder, or where the bundle flexes",
        "`terminal fixed:` says soldered or both, and the plug says `solder: not allowed` or every leg to it is marked "
        "flex.",
        "Solder runs up the strands, and the wire breaks where it ends.",
        "plugs: {lamp: {solder: not allowed}}\n" + _terminate("terminal: new pin, terminal fixed: both"),
        "plugs: {lamp: {solder: not allowed}}\n" + _terminate("terminal: new pin, terminal fixed: crimped"),
    ),
    Code(
        "MAT01",
        ("error",),
        "a conductor of solid copper, aluminium or copper-clad aluminium",
        "`conductor:` of a wire that is in the car, or of a piece, says so.",
        "Solid wire breaks from shaking. Aluminium creeps out of crimps and corrodes against copper, and carries less.",
        _terminate("gap: 200 mm, piece: BU 1.5 mm2, conductor: copper-clad aluminium"),
        _terminate("gap: 200 mm, piece: BU 1.5 mm2, conductor: stranded copper"),
    ),
    Code(
        "INS01",
        ("error",),
        "insulation that does not bear the heat of a leg it runs through",
        "Judged only where the insulation is recorded: on the wire, the row, the offcut, or as what the shop usually "
        "puts in. The heat is `hottest:` of the leg, else the figure for a leg that is marked hot.",
        "Soft insulation flows away under a clip, and brittle insulation falls off in the first bend.",
        _LEG + "wires: {W1: {colour: GN, from: F1, to: lamp.1, insulation: PVC}}",
        _LEG + "wires: {W1: {colour: GN, from: F1, to: lamp.1, insulation: cross-linked}}",
        ("hot zone", "heat of PVC", "heat of cross-linked", "heat of silicone", "heat of fluoropolymer"),
    ),
)
