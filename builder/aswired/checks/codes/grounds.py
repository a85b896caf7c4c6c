"""Ground points: rings, studs, ways back, and what shares them."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_RING = "changes:\n  - {{id: C1, kind: ground, wire: W1, end: G1, to: L1, ring: {}, made: 2019-05-03 AK}}"
_MOVED = "wires: {W1: {from: lamp.2, to: G1}}\n"
_FIVE = (
    "grounds: {L1: {stud: M6, back to: battery-}}\n"
    "wires: {W1: {from: a.1, to: G1}, W2: {from: b.1, to: G1}, W3: {from: c.1, to: G1}, W4: {from: d.1, to: G1},\n"
    "  W5: {from: e.1, to: G1}}\n"
    "changes:\n"
    "  - {id: C1, kind: ground, wire: W1, end: G1, to: L1}\n"
    "  - {id: C2, kind: ground, wire: W2, end: G1, to: L1}\n"
    "  - {id: C3, kind: ground, wire: W3, end: G1, to: L1}\n"
    "  - {id: C4, kind: ground, wire: W4, end: G1, to: L1}\n"
    "  - {id: C5, kind: ground, wire: W5, end: G1, to: L1"
)
_STACK = (
    "grounds: {{L1: {{back to: battery-, surface: bare metal}}}}\n"
    "loads: {{lamp: {{between: lamp.1 lamp.2, draws: 1 A}}, pump: {{between: pump.1 pump.2, draws: 7 A}}}}\n"
    "wires:\n"
    "  W1: GN 18 AWG, F1 to lamp.1\n"
    "  W2: BN 18 AWG, lamp.2 to G1\n"
    "  W3: RD 14 AWG, F2 to pump.1\n"
    "  W4: BN 14 AWG, pump.2 to G1\n"
    "changes:\n"
    '  - {{id: C1, kind: ground, wire: W2, end: G1, to: L1, ring: "new, {} from base", made: 2019-05-03 AK}}\n'
    '  - {{id: C2, kind: ground, wire: W4, end: G1, to: L1, ring: "new, {} from base", made: 2019-05-03 AK}}'
)
_PUMP = (
    "loads: {{pump: {{between: pump.1 pump.2, draws: {}}}}}\n"
    "wires: {{W1: {{from: F1, to: pump.1}}, W2: {{from: pump.2, to: L1}}}}\n"
    "grounds: {{L1: {{back to: battery-, cable: {}, cable length: {}}}}}"
)
_SENSOR = (
    "loads:\n"
    "  coolant: {{between: ntc.1 ntc.2, class: sensor}}\n"
    "  fan: {{between: fan.1 fan.2, class: motor}}\n"
    "wires:\n"
    "  W1: {{from: F1, to: ntc.1}}\n"
    "  W2: {{from: ntc.2, to: {}}}\n"
    "  W3: {{from: F2, to: fan.1}}\n"
    "  W4: {{from: fan.2, to: L1}}\n"
    "grounds: {{L1: {{back to: battery-}}, L2: {{back to: battery-}}}}"
)
_LAMPS = (
    "loads:\n"
    "  tail left: {{between: tl.1 tl.2, class: lamp, side: left}}\n"
    "  tail right: {{between: tr.1 tr.2, class: lamp, side: right}}\n"
    "  indicator: {{between: in.1 in.2, class: indicator}}\n"
    "wires:\n"
    "  W1: {{from: F1, to: tl.1}}\n"
    "  W2: {{from: tl.2, to: L1}}\n"
    "  W3: {{from: F1, to: tr.1}}\n"
    "  W4: {{from: tr.2, to: {}}}\n"
    "  W5: {{from: F2, to: in.1}}\n"
    "  W6: {{from: in.2, to: L1}}\n"
    "grounds: {{L1: {{back to: battery-}}, L2: {{back to: battery-}}}}"
)
_LAMP = "loads: {lamp: {between: lamp.1 lamp.2}}\nwires: {W1: {from: F1, to: lamp.1}, W2: {from: lamp.2, to: L1}}\n"

CODES = (
    Code(
        "GND01",
        ("stop",),
        "a kept load's ground does not conduct, or is gone",
        "The load returns to a point that is declared gone, or bolted to something that does not conduct.",
        "The load has no way back: it stays dead, or finds one through another lamp or a control cable.",
        _LAMP + "grounds: {L1: {bolted to: composite wing, conducts: no, back to: battery-}}",
        _LAMP + "grounds: {L1: {bolted to: chassis rail, conducts: yes, back to: battery-}}",
    ),
    Code(
        "GND02",
        ("error",),
        "more rings on a stud than the limit",
        "Each new ring counts; the donor's own wires on the stud count as one ring together.",
        "A tall stack works loose, and then all that lands on it fails at once.",
        _FIVE + "}",
        _FIVE + ", ring: with C4}",
        ("rings per stud",),
    ),
    Code(
        "GND03",
        ("warning",),
        "a ring whose hole is not the stud's thread",
        "The hole of the ring and the thread of the stud are both written, and they differ.",
        "A ring too small was drilled or bent to go on; one too large touches on part of its face and runs hot.",
        "grounds: {L1: {stud: M8, back to: battery-, surface: bare metal}}\n" + _MOVED + _RING.format('"new, M6"'),
        "grounds: {L1: {stud: M8, back to: battery-, surface: bare metal}}\n" + _MOVED + _RING.format('"new, M8"'),
    ),
    Code(
        "GND04",
        ("warning",),
        "a smaller current nearer the base of a stack than a larger one",
        "The places in the stack are written and the currents known. A ring whose current is only partly known is "
        "never "
        "taken for the smaller of two.",
        "Current should pass from ring face to base and not along the thread; the largest belongs next to the base.",
        _STACK.format("1st", "2nd"),
        _STACK.format("2nd", "1st"),
        ("stack apart",),
    ),
    Code(
        "GND05",
        ("error", "warning"),
        "a ground point that rises too far above battery negative",
        "Worked out from the cable back and all kept loads on the point on together. There are two limits.",
        "All that lands there rises with it: lamps glow when the brake is pressed, gauges move when the pump runs.",
        _PUMP.format("20 A", "2.5 mm2", "2 m"),
        _PUMP.format("20 A", "10 mm2", "1 m"),
        ("rise warning", "rise error"),
    ),
    Code(
        "GND06",
        ("error",),
        "more current returns by a point than its cable back is planned for",
        "The loads on the point, all on together, against the planning rating of the cable. A cable outside the "
        "rating's "
        "table is not judged.",
        "No fuse protects a return: a cable too thin is the part that burns.",
        _PUMP.format("28 A", "2.5 mm2", "0.2 m"),
        _PUMP.format("28 A", "4 mm2", "0.2 m"),
    ),
    Code(
        "GND07",
        ("error",),
        "a sensor that shares its return with motors, pumps, coils or lamps",
        "A kept load of class sensor, or a module's cavity under 'reference', lands on the same point as a starter, "
        "pump, motor, coil, ignition or lamp load, "
        "or "
        "returns through the same wire. A point further back that both pass is judged by its rise, GND05.",
        "Their current lifts the sensor's ground: a gauge moves with the fan, an engine misfires when the pump starts.",
        _SENSOR.format("L1"),
        _SENSOR.format("L2"),
    ),
    Code(
        "GND08",
        ("stop",),
        "an engine without a strap to the battery",
        "'engine strap' says none or body only, while a starter or ignition load is kept: that tells that there is an "
        "engine. A strap of which nothing is written is not judged.",
        "Starter current then returns by throttle cable, clutch cable or bearings, which melt.",
        "engine strap: none\nloads: {starter: {between: starter.1 starter.2, class: starter, feed: not examined, "
        "return: "
        "not examined}}",
        "engine strap: engine to battery\nloads: {starter: {between: starter.1 starter.2, class: starter, feed: not "
        "examined, return: not examined}}",
    ),
    Code(
        "GND09",
        ("note",),
        "left lamps, right lamps and indicators on one point",
        "Told from 'side' of loads of class lamp, and loads of class indicator, that land on one point.",
        "If that one ring fails, each lamp looks for its way back through another: all glow, none works.",
        _LAMPS.format("L1"),
        _LAMPS.format("L2"),
    ),
    Code(
        "GND10",
        ("error",),
        "a ground point close to tank, filler, fuel line or vapour canister",
        "'near' of a point in use names one of them.",
        "A ring that works loose sparks; body builders' guides forbid electrical fixings there.",
        _LAMP + "grounds: {L1: {back to: battery-, near: [tank]}}",
        _LAMP + "grounds: {L1: {back to: battery-, near: [none]}}",
    ),
    Code(
        "GND11",
        ("warning",),
        "a new point of which the surface is not written, or one that was painted after it was tested",
        "One line lists all points that this job made and that say nothing of the face under the rings. A painted "
        "point "
        "is told on its own when rows on it were proved before that day and not since.",
        "Paint under a ring is the usual cause of a ground that fails after a year.",
        "grounds: {L1: {back to: battery-}}\n" + _MOVED + _RING.format("new"),
        'grounds: {L1: {back to: battery-, surface: "bare metal, coated after tightening"}}\n'
        + _MOVED
        + _RING.format("new"),
    ),
    Code(
        "GND12",
        ("warning",),
        "the battery was moved, and a point returns through the body with no cable size and no reading",
        "Only where the header says that the battery moved and that the body carries returns. A reading between the "
        "point "
        "and battery negative is enough.",
        "A strap that was short in the donor is now the whole car long; the drop is found when the engine will not "
        "turn.",
        "battery moved: yes\nbody returns: yes\n" + _LAMP + "grounds: {L1: {back to: battery-}}",
        "battery moved: yes\nbody returns: yes\n" + _LAMP + "grounds: {L1: {back to: battery-, cable: 16 mm2}}",
    ),
    Code(
        "GND13",
        ("error",),
        "a ground point whose way back does not lead to battery negative",
        "The 'back to:' of ground points make a circle, or one names itself or something that is no ground point, such "
        "as battery+ or a splice. Told on each point of a circle, and on each that leads into it; a load that returns "
        "by them counts as not examined.",
        "By the record nothing that lands there has a way home, so no drop and no rise of it can be told.",
        _LAMP + "grounds: {L1: {back to: L2}, L2: {back to: L1}}",
        _LAMP + "grounds: {L1: {back to: L2}, L2: {back to: battery-}}",
    ),
)
