"""Ground points: what must be told of studs, stacks, ways back and what shares them, each with a silent twin."""

from __future__ import annotations

from tests.findings.jobs import Case

RECORDED = "none: a recorded fact"
OWN_LIMIT = "the job's own limit"
STACK_1A = "1 A apart: house value"
PLANNING = "planning rating of the cable (planning value, estimate)"

# ISO 6722-1: 2.5 mm2 is 7.6 mohm/m, 4 mm2 4.71 mohm/m (from memory)
RISE = """
    job: Rise
    limits: {fuse share: 80 %}
    grounds:
      L1:
        back to: battery-
        cable length: 2 m
        cable: 2.5 mm2 # <
    loads: {pump: {between: pump.1 pump.2, draws: AMPS, class: other}}
    wires: {W1: {from: F1, to: pump.1}, W2: {from: pump.2, to: L1}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
RING = """
    job: Ring and stud
    grounds: {L1: {stud: STUD, back to: battery-, surface: bare metal}}
    wires: {W1: {from: lamp.2, to: G1}}
    changes:
      - id: C1
        kind: ground
        wire: W1
        end: G1
        to: L1
        ring: new, HOLE # <
        made: 2031-05-03 AK
"""
STACK = """
    job: Stack
    LIMITS
    grounds: {L1: {back to: battery-, surface: bare metal}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: SMALL}
      pump: {between: pump.1 pump.2, draws: LARGE}
    wires:
      W1: {from: F1, to: lamp.1}
      W2: {from: lamp.2, to: G1}
      W3: {from: F2, to: pump.1}
      W4: {from: pump.2, to: G1}
    changes:
      - id: C1
        kind: ground
        wire: W2
        end: G1
        to: L1
        ring: new, 1st from base # <
        made: 2031-05-03 AK
      - id: C2
        kind: ground
        wire: W4
        end: G1
        to: L1
        ring: new, 2nd from base
        made: 2031-05-03 AK
"""
# W2 of the lamp meets the horn's W5 in a splice: what the ring of C1 carries is known only when both are
SPLICED = (
    STACK.replace("    loads:", "    splices: {FS1: {}}\n    loads:\n      horn: {between: horn.1 horn.2, draws: HORN}")
    .replace("W2: {from: lamp.2, to: G1}", "W2: {from: FS1, to: G1}\n      W5: {from: horn.2, to: FS1}")
    .replace("    wires:\n", "    wires:\n      W6: {from: lamp.2, to: FS1}\n      W7: {from: F3, to: horn.1}\n")
    .replace("    LIMITS\n", "")
    .replace("SMALL", "1 A")
    .replace("LARGE", "7 A")
)
SENSOR = """
    job: Sensor
    grounds: {L1: {back to: battery-}, L2: {back to: battery-}}
    splices: {FS1: {}, FS2: {}}
    loads:
      coolant: {between: ntc.1 ntc.2, class: sensor, draws: 5 mA} # <
      other part: {between: fan.1 fan.2, class: CLASS}
    wires:
      W1: {from: F1, to: ntc.1}
      W2: {from: ntc.2, to: SENSES}
      W3: {from: F2, to: fan.1}
      W4: {from: fan.2, to: FS1}
      W5: {from: FS1, to: L1}
      W6: {from: FS2, to: L2}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
REFERENCE = """
    job: Reference
    grounds: {L1: {back to: battery-}, L2: {back to: battery-}}
    modules:
      unit:
        reference: [4] # <
    loads: {fan: {between: fan.1 fan.2, class: motor}}
    wires:
      W1: {from: unit.4, to: L1}
      W2: {from: F2, to: fan.1}
      W3: {from: fan.2, to: L1}
      W4: {from: horn.2, to: L2}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
STRAP = """
    job: Strap
    engine strap: SAYS # <
    loads: {starter: {between: starter.1 starter.2, class: CLASS, feed: not examined, return: not examined}}
    wires: {W1: {from: a.1, to: b.1}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
LAMPS = """
    job: Lamps
    grounds:
      L1: {back to: battery-} # <
    loads:
      tail left: {between: tl.1 tl.2, class: lamp, side: left}
      tail right: {between: tr.1 tr.2, class: lamp, side: right}
      indicator: {between: in.1 in.2, class: indicator}
    wires:
      W1: {from: F1, to: tl.1}
      W2: {from: tl.2, to: L1}
      W3: {from: F1, to: tr.1}
      W4: {from: tr.2, to: L1}
      W5: {from: F2, to: in.1}
      W6: {from: in.2, to: L1}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
NEAR = """
    job: Near
    grounds:
      L1:
        back to: battery-
        near: [WORD] # <
    wires: {W1: {from: lamp.2, to: L1}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
NEW_POINT = """
    job: Surface
    grounds:
      L1: {back to: battery-, what: rail} # <
      L2: {back to: battery-, what: bed}
    wires: {W1: {from: lamp.2, to: G1}, W2: {from: horn.2, to: G1}}
    changes:
      - {id: C1, kind: ground, wire: W1, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C2, kind: ground, wire: W2, end: G1, to: ON, made: 2031-05-03 AK}
"""
PAINTED = """
    job: Painted
    grounds:
      L1:
        back to: battery-
        surface: bare metal
        painted: 2031-05-06 AK # <
    wires: {W1: {from: lamp.2, to: G1}}
    changes:
      - {id: C1, kind: ground, wire: W1, end: G1, to: L1, made: 2031-05-03 AK, tested: 2031-05-05 AK}
      - {id: C2, kind: verify, proves: [C1], made: 2031-05-04 AK}
"""
MOVED = """
    job: Battery moved
    body returns: yes
    battery moved: yes # <
    grounds: {L1: {back to: battery-}}
    loads: {lamp: {between: lamp.1 lamp.2}}
    wires: {W1: {from: F1, to: lamp.1}, W2: {from: lamp.2, to: L1}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


def sensor(shares: str = "L1", class_: str = "motor") -> str:
    return SENSOR.replace("SENSES", shares).replace("CLASS", class_)


CASES = (
    Case(
        "GND03", "warning", "C1", "new, M6", "new, M8", RECORDED,
        RING.replace("STUD", "M8").replace("HOLE", "M6"), "too small",
    ),
    Case(
        "GND03", "warning", "C1", "stud: M6", "stud: unknown", RECORDED,
        RING.replace("STUD", "M6").replace("HOLE", "M8"), "too large; a stud not measured is not judged",
    ),
    Case(
        # 1/4 in is 6.35 mm: 0.35 mm of play on M6; 5/16 in is 7.94 mm
        "GND03", "warning", "C1", "new, 5/16 in", "new, 1/4 in", "0.75 mm: common practice, no source",
        RING.replace("STUD", "M6").replace("HOLE", "5/16 in"), "inches on a metric stud",
    ),
    Case(
        "GND04", "warning", "L1", "draws: 1 A", "draws: 6 A", STACK_1A,
        STACK.replace("    LIMITS\n", "").replace("SMALL", "1 A").replace("LARGE", "7 A"),
    ),
    Case(
        "GND04", "warning", "L1", "draws: 1 A", "draws: unknown", STACK_1A,
        STACK.replace("    LIMITS\n", "").replace("SMALL", "1 A").replace("LARGE", "7 A"), "twin: current not known",
    ),
    Case(
        "GND04", "warning", "L1", "stack apart: 2 A", "stack apart: 6 A", OWN_LIMIT,
        STACK.replace("LIMITS", "limits: {stack apart: 2 A}").replace("SMALL", "1 A").replace("LARGE", "7 A"),
        "own limit",
    ),
    Case(
        # 1 A + 2 A under 7 A; of a horn that may take anything nothing is told
        "GND04", "warning", "L1", "draws: 2 A", "draws: unknown", STACK_1A, SPLICED.replace("HORN", "2 A"),
        "through a splice",
    ),
    Case(
        # where the splice has a second way to a ground, nobody knows what its ring on L1 carries
        "GND04", "warning", "L1", "W9: {from: a.1, to: b.1}", "W9: {from: FS1, to: L2}", STACK_1A,
        SPLICED.replace("HORN", "2 A").replace("grounds: {", "grounds: {L2: {back to: battery-}, ")
        .replace("      W7:", "      W9: {from: a.1, to: b.1}\n      W7:"),
        "twin: a second way to ground",
    ),
    Case(
        # 2 m x 7.6 mohm/m = 15.2 mohm and its ring 1.5; x 7 A = 0.117 V, x 5.9 A = 0.099 V
        "GND05", "warning", "L1", "draws: 7 A", "draws: 5.9 A", "0.10 V: common practice, no source",
        RISE.replace("AMPS", "7 A"), "told",
    ),
    Case(
        # 16.7 mohm x 14 A = 0.234 V
        "GND05", "error", "L1", "draws: 14 A", "draws: unknown", "0.20 V: common practice, no source",
        RISE.replace("AMPS", "14 A"), "an error",
    ),
    Case(
        # 0.117 V against 0.12 V
        "GND05", "warning", "L1", "fuse share: 80 %", "rise warning: 0.12 V", OWN_LIMIT, RISE.replace("AMPS", "7 A"),
        "own limit",
    ),
    Case(
        # 12 AWG, 3.3 mm2, counts as 2.5 mm2, planned for 20 A; 33 CFR 183.425 lets it carry 25 A (read), so a named
        # person may let it stand
        "GND06", "error", "L1", "draws: 20.5 A", "draws: 20 A", PLANNING,
        RISE.replace("AMPS", "20.5 A").replace("2.5 mm2", "12 AWG").replace(
            "job: Rise", "job: Rise\n    AWG means: ASTM B258"
        ), "above it",
    ),
    Case(
        "GND06", "stop", "L1", "cable: 2.5 mm2", "cable: 10 mm2", "10 mm2 is planned for 60 A (computed)",
        RISE.replace("AMPS", "50 A"), "a cable of a battery",
    ),
    Case("GND07", "error", "coolant", "ntc.2, to: L1", "ntc.2, to: L2", RECORDED, sensor(), "on one point"),
    Case(
        "GND07", "error", "coolant", "ntc.2, to: FS1", "ntc.2, to: FS2", RECORDED, sensor("FS1"), "one trunk",
    ),
    *(
        Case(
            "GND07", "error", "coolant", f"class: {word}}}", "class: electronics}", RECORDED, sensor(class_=word), word,
        )
        for word in ("starter", "pump", "fuel pump", "coil", "ignition", "lamp", "indicator")
    ),
    Case("GND07", "error", "unit", "from: unit.4, to: L1", "from: unit.4, to: L2", RECORDED, REFERENCE, "a reference"),
    Case("GND07", "error", "unit", "reference: [4]", "ground: [4]", RECORDED, REFERENCE, "a power ground is none"),
    Case(
        "GND08", "stop", "", "engine strap: none", "engine strap: unknown", RECORDED,
        STRAP.replace("SAYS", "none").replace("CLASS", "starter"), "none",
    ),
    Case(
        "GND08", "stop", "", "engine strap: body only", "engine strap: engine to chassis", RECORDED,
        STRAP.replace("SAYS", "body only").replace("CLASS", "starter"), "body only",
    ),
    Case(
        "GND08", "stop", "", "class: ignition", "class: motor", RECORDED,
        STRAP.replace("SAYS", "none").replace("CLASS", "ignition"), "no engine, no strap",
    ),
    Case("GND09", "note", "L1", "side: right", "side: left", RECORDED, LAMPS, "both sides"),
    Case("GND09", "note", "L1", "class: indicator", "class: other", RECORDED, LAMPS, "with indicators"),
    *(
        Case("GND10", "error", "L1", f"[{word}]", "[exhaust]", RECORDED, NEAR.replace("WORD", word), word)
        for word in ("tank", "filler", "fuel line", "vapour canister")
    ),
    Case(
        "GND10", "error", "L1", "to: L1}", "to: L9}", RECORDED, NEAR.replace("WORD", "tank"),
        "twin: nothing lands on it",
    ),
    Case("GND11", "warning", "", "what: rail", "surface: unknown", RECORDED, NEW_POINT.replace("ON", "L1"), "not said"),
    Case(
        "GND11", "warning", "", "from: lamp.2, to: G1", "from: lamp.2, to: G1}, W3: {from: a.1, to: L1", RECORDED,
        NEW_POINT.replace("ON", "L1"), "twin: the donor's own point",
    ),
    Case("GND11", "warning", "L1", "painted: 2031-05-06", "painted: 2031-05-05", RECORDED, PAINTED, "painted"),
    Case(
        "GND11", "warning", "L1", "proves: [C1], made: 2031-05-04", "proves: [C1], made: 2031-05-07", RECORDED, PAINTED,
        "twin: proved again",
    ),
    Case("GND12", "warning", "", "back to: battery-}", "back to: battery-, cable: 16 mm2}", RECORDED, MOVED, "size"),
    Case("GND12", "warning", "", "body returns: yes", "body returns: unknown", RECORDED, MOVED, "no way by the body"),
    Case(
        "GND12", "warning", "", "loads: {",
        "readings: [{id: R1, red: L1, black: battery-, read: 0.04 V}]\nloads: {", RECORDED, MOVED, "a reading",
    ),
    Case(
        "GND12", "warning", "", "on: 2131-05-04", "on: 2031-05-04", "the day of the build",
        MOVED.replace("loads: {", "readings: [{id: R1, red: L1, black: battery-, read: 0.04 V, on: 2131-05-04}]\n"
        "    loads: {"), "a reading of a day to come",
    ),
)  # fmt: skip
