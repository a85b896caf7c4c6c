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
LOST_PLUG = """
job: Lost plug
plugs: {tail-right: {ways: 6}}
wires: {W1: {from: FS1, to: tail-right.1, colour: GN, size: 1.0 mm2}}
loads:
  tail lamp: {between: tail-rigth.1 tail-right.2}  # <
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
NO_CAVITY = """
job: No cavity
plugs: {lamp: {ways: 2}}
wires:
  W1: {from: FS1, colour: GN, size: 1.0 mm2, to: lamp}  # <
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
LIKE_A_LANDMARK = """
job: Like a landmark
landmarks: {bulkhead: engine face, nose: left lamp}
plugs:
  horn: {at: beside nose}
  lamp: {at: noze}  # <
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
LIKE_IN_A_LEG = """
job: Like a landmark
landmarks: {bulkhead: engine face, nose: left lamp}
route:
  - {from: bulkhead, length: 2 m, to: noze}  # <
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
NEW_POINT = """
job: New point
grounds: {L3: {back to: battery-}}
wires: {W1: {from: lamp.1, to: FS1, colour: BN, size: 1.0 mm2, length: 1 m}}
changes:
  - id: C1
    kind: ground
    wire: W1
    end: FS1
    to: L4 # <
    made: 2031-05-03 AK
"""
PLANNED_CORRECTION = """
job: Correction
wires: {W1: {from: lamp.1, to: FS1, colour: BN, size: 1.0 mm2, length: 1 m}}
changes:
  - {id: C1, kind: cap, wire: W1, end: FS1, stub: 30 mm, cover: adhesive sleeve, made: 2031-05-03 AK}
  - id: C2
    kind: cap
    corrects: C1 # <
    wire: W1
    end: FS1
    stub: 40 mm
    cover: adhesive sleeve
    note: measured again
"""

CASES = (
    Case("PLC02", "error", "lamp", "2100 mm", "1900 mm", "length of the leg, 2000 mm", PART, "a part beyond the route"),
    Case("PLC04", "warning", "W1", "size: 1.0 mm2}", "size: 1.0 mm2, by: tunnel}", "P2: a loop wants by:", LOOP),
    Case("END06", "warning", "FS4", "FS4: {}", "FS4: {all members known: no}", "F7: one member left", DEAD_END),
    Case("REF04", "warning", "tail lamp", "tail-rigth.1", "tail-right.1", "none: a recorded fact", LOST_PLUG),
    Case("REF04", "warning", "W1", "to: lamp}", "to: lamp.1}", "none: a recorded fact", NO_CAVITY, "no cavity"),
    Case("REF01", "note", "lamp", "at: noze", "at: nose", "likeness of the two names", LIKE_A_LANDMARK, "landmark"),
    Case("REF01", "note", "noze", "to: noze", "to: nose", "likeness of the two names", LIKE_IN_A_LEG, "leg"),
    Case("REF05", "warning", "C1", "to: L4", "to: L3", "none: a recorded fact", NEW_POINT),
    Case(
        "ROW13",
        "warning",
        "C2",
        "note: measured again",
        "made: 2031-05-04 AK",
        "F13: a row counts from its made:",
        PLANNED_CORRECTION,
    ),
)
