"""Bundles: their thickness, what is wound over them, the holes they pass."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_ROUTE = "route: [{from: dash, to: nose, length: 800 mm, zone: hot}]\n"
_HOLE = "route: [{from: dash, to: nose, length: 800 mm}, {from: nose, to: lamp, length: 400 mm}]\n"
_WIRES = (
    "fuses: {F1: {in: dash}}\n"
    "wires:\n"
    "  W1: {size: 2.5 mm2, from: F1, to: lamp.1, outside: 3 mm}\n"
    "  W2: {size: 2.5 mm2, from: F1, to: lamp.2, outside: 3 mm}\n"
)

CODES = (
    Code(
        "BUN01",
        ("warning",),
        "a bundle thicker than the hole it passes, or than the conduit over it",
        "The wires on record make a thicker bundle than the bore written for the hole or on the cover row. Diameters "
        "that nobody measured are estimates from size and insulation; wires that nobody listed are not counted.",
        "A bundle forced through a hole or into a conduit is skinned by it, and cannot give off its heat. The page of "
        "bundles asks for a conduit somewhat wider than the bundle.",
        _HOLE + _WIRES + "holes: {nose: {through: sheet metal, grommet: yes, bore: 5 mm}}",
        _HOLE + _WIRES + "holes: {nose: {through: sheet metal, grommet: yes, bore: 8 mm}}",
    ),
    Code(
        "BUN02",
        ("warning",),
        "vinyl tape where it is hot",
        "Vinyl (PVC) tape is wound over the bundle or over a splice on a leg that is hotter than it bears. Where the "
        "leg's temperature was not measured, a zone marked hot counts with the temperature of the table.",
        "Its glue runs and the turns creep apart; what lay under it lies bare.",
        _ROUTE + "changes: [{id: C1, kind: cover, from: dash, to: nose, cover: vinyl tape, made: 2019-05-03 AK}]",
        _ROUTE + "changes: [{id: C1, kind: cover, from: dash, to: nose, cover: cloth tape, made: 2019-05-03 AK}]",
        ("vinyl tape", "hot zone"),
    ),
    Code(
        "BUN03",
        ("error",),
        "a hole in sheet metal without a grommet",
        "The hole is recorded as one in sheet metal, and its edge as not covered.",
        "The edge works through tape, conduit and insulation in time: a short "
        "to the body that comes and goes with the road.",
        "holes: {bulkhead: {through: sheet metal, grommet: no}}",
        "holes: {bulkhead: {through: sheet metal, grommet: yes}}",
    ),
)
