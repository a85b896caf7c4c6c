"""Options: bridged interlocks, what another kind of car left behind, the change list on other cars."""

from __future__ import annotations

from tests.findings.cases_circuits import RECORDED
from tests.findings.jobs import Case

BRIDGE = """
    job: Manual gearbox now
    wires:
      W1: {size: 1.0 mm2, from: FS1, to: neutral.1}
      W2: {size: 1.0 mm2, from: neutral.2, to: FS2}
    changes:
      - id: C1
        kind: bridge
        ends: [neutral.1, neutral.2]
        piece: BU 1.0 mm2
        interlock: park or neutral # <
        why: no range switch on this gearbox
        made: 2031-05-03 AK
"""
LOCK = """
    job: Shift lock
    options: {gearbox: {is: manual, could be: [automatic]}}
    fuses: {F3: {rating: 10 A, fed: ignition}}
    wires:
      W40:
        size: 1.0 mm2
        from: F3
        to: shift-lock.1
        for: gearbox is automatic # <
      W41: {size: 1.0 mm2, from: F3, to: horn.1}
    changes:
      - {id: C1, kind: reroute, wire: W41, by: [bulkhead], made: 2031-05-03 AK}
    landmarks: {bulkhead: grommet, nose: end}
    route: [{from: bulkhead, to: nose, length: 1 m}]
"""
SOLENOID = """
    job: Shift lock
    options: {gearbox: {is: manual, could be: [automatic]}}
    fuses: {F3: {rating: 10 A, fed: ignition}}
    wires:
      W40: {size: 1.0 mm2, from: F3, to: shift-lock.1}
    loads:
      shift lock:
        between: shift-lock.1 shift-lock.2
        verdict: kept
        for: gearbox is automatic # <
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
HEATER = """
    job: Heater
    options: {heater: {is: diesel, could be: [electric]}}
    fuses: {F1: {rating: 20 A, fed: always}}
    grounds: {G1: {back to: battery-, surface: bare metal}}
    wires:
      W1: {size: 1.5 mm2, from: F1, to: heater.1}
      W2: {size: 1.5 mm2, from: heater.2, to: G1}
    loads:
      heater: {between: heater.1 heater.2, verdict: VERDICT}
    changes:
"""
COLD = (
    HEATER.replace("VERDICT}", "kept} # <")
    + """
      - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, heater.1: pulled}, only if: heater is electric}
"""
)
NEW = """
    job: Heater
    options: {heater: {is: diesel, could be: [electric]}}
    fuses: {F1: {rating: 20 A, fed: always}}
    wires:
      W2: {size: 1.5 mm2, from: heater.2, to: battery-}
    loads:
      heater: {between: heater.1 heater.2} # <
    changes:
      - {id: C1, kind: add, wire: W1, from: F1, to: heater.1, piece: RD 1.5 mm2, reach: 1 m, only if: heater is diesel}
"""
MANY = """
    job: Many
    options: # <
      a: {is: one, could be: [two, three, four]}
      b: {is: one, could be: [two, three, four]}
      c: {is: one, could be: [two, three, four, five]}
    wires: {W1: {from: a.1, to: b.1}}
    landmarks: {bulkhead: grommet, nose: end}
    route: [{from: bulkhead, to: nose, length: 1 m}]
    changes:
      - {id: C1, kind: reroute, wire: W1, by: [nose], only if: a is two}
      - {id: C2, kind: reroute, wire: W1, by: [nose], only if: b is two}
      - {id: C3, kind: reroute, wire: W1, by: [nose], only if: c is two}
"""

CASES = (
    Case(
        "OPT01", "error", "C1", "why: no range switch on this gearbox", "instead: clutch switch", RECORDED, BRIDGE,
        "no switch in its place",
    ),
    Case(
        "OPT01", "error", "C1", "why: no range switch on this gearbox", "decided by: owner", RECORDED, BRIDGE,
        "nobody decided it",
    ),
    Case("OPT01", "error", "C1", "made: 2031-05-03 AK", "note: planned", RECORDED, BRIDGE, "not while it is planned"),
    Case("OPT02", "error", "W40", "is: manual", "is: unknown", RECORDED, LOCK, "a wire; option not known in the twin"),
    Case("OPT02", "error", "W40", "wire: W41", "wire: W40", RECORDED, LOCK, "a wire; a row speaks of it in the twin"),
    Case("OPT02", "error", "W40", "from: F3\n", "from: unknown\n", RECORDED, LOCK, "a wire; not fed by the record"),
    Case("OPT02", "error", "shift lock", "verdict: kept", "verdict: deleted", RECORDED, SOLENOID, "a load"),
    Case(
        "OPT03", "error", "C2", "to: L1, made", "to: L1, only if: heater is diesel, made", RECORDED,
        HEATER.replace("VERDICT", "deleted") + """
      - {id: C1, kind: remove, wire: W2, ends: {heater.2: gone, G1: gone}, only if: heater is electric}
      - {id: C2, kind: ground, wire: W2, end: G1, to: L1, made: 2031-05-03 AK} # <
    """, "a row that cannot be so",
    ),
    Case(
        "OPT03", "error", "C1-W1-F1", "F1: uncapped", "F1: capped 30 mm", RECORDED,
        HEATER.replace("VERDICT", "deleted") + """
      - {id: C1, kind: remove, wire: W1, ends: {F1: uncapped, heater.1: pulled}, only if: heater is electric} # <
    """, "an end left open",
    ),
    Case("OPT03", "error", "heater", "verdict: kept", "for: heater is diesel", RECORDED, COLD, "a load without feed"),
    Case(
        "OPT03", "warning", "heater", "could be: [electric]", "could be: [diesel]", RECORDED,
        COLD.replace("is: diesel", "is: unknown"), "the option of this car is not known",
    ),
    Case(
        "OPT03", "warning", "heater", ", only if: heater is diesel", "", RECORDED, NEW, "a way that no row lays there",
    ),
    Case(
        # 4 x 4 x 5 = 80 kinds of car; without one option 4 x 4 = 16
        "OPT03", "note", "", "only if: c is two", "note: always", "64 combinations (house value)", MANY, "more than 64",
    ),
    Case("OPT04", "error", "W40", "for: gear box is", "for: gearbox is", RECORDED,
         LOCK.replace("for: gearbox is", "for: gear box is"), "an option"),
    Case("OPT04", "error", "W40", "is automatic # <", "is manual # <", RECORDED,
         LOCK.replace(", could be: [automatic]", ""), "a value"),
)  # fmt: skip
