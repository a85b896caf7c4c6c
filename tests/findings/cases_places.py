"""Cases of places on the route and of splices that became dead ends."""

from __future__ import annotations

from tests.findings.jobs import Case

LOOP = """
job: Loop
route:
  - {from: bulkhead, to: tunnel, length: 1 m}
  - {from: tunnel, to: tail, length: 2 m}
  - {from: bulkhead, to: sill, length: 1 m}
  - {from: sill, to: tail, length: 3 m}
plugs: {lamp: {at: tail}}
fuses: {F1: {rating: 10 A, in: bulkhead}}
wires:
  W1: {from: F1, to: lamp.1, colour: GN, size: 1.0 mm2}  # <
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
DEAD_END = """
job: Dead end
splices: {FS4: {}}
fuses: {F1: {rating: 10 A}}
wires:
  W1: {from: F1, to: FS4, colour: GN, size: 1.0 mm2}
  W2: {from: FS4, to: lamp.1, colour: GN, size: 1.0 mm2}
changes:
  - {id: C1, kind: remove, wire: W2, ends: {lamp.1: gone, FS4: flush}, made: 2031-05-03 AK}  # <
"""
PART = """
job: Part
route: [{from: bulkhead, to: tail, length: 2 m}]
plugs:
  lamp: {at: 2100 mm from bulkhead towards tail}  # <
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""

CASES = (
    Case("PLC02", "error", "lamp", "2100 mm", "1900 mm", "length of the leg, 2000 mm", PART, "a part beyond the route"),
    Case("PLC04", "warning", "W1", "size: 1.0 mm2}", "size: 1.0 mm2, by: tunnel}", "P2: a loop wants by:", LOOP),
    Case("END06", "warning", "FS4", "FS4: {}", "FS4: {all members known: no}", "F7: one member left", DEAD_END),
)
