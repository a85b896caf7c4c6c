"""Cases of what is written and cannot be: ends, cavities, places, leads of a meter, ways back in a circle."""

from __future__ import annotations

from tests.findings.jobs import Case

RECORDED = "none: a recorded fact"
ROW = "changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"

FUSE = f"""
job: Fuse
fuses: {{F7: {{rating: 10 A, fed: always}}}}
splices: {{FS4: {{all members known: no}}}}
grounds: {{L1: {{back to: battery-}}}}
wires:
  W1: {{colour: RD, from: FS4, to: END}}  # <
{ROW}"""
NEW_FUSE = """
job: New fuse
wires: {W1: {colour: RD, size: 1.5 mm2, from: battery+, to: lamp.1, length: 2 m}}
changes:
  - {id: C1, kind: protect, wire: W1, end: battery+, tail: 100 mm, fuse: F9, rating: 10 A, made: 2031-05-03 AK}
  - {id: C2, kind: add, wire: W2, from: lamp.2, to: F9.fed, piece: RD 1.5 mm2, cut: 1 m, made: 2031-05-03 AK}  # <
"""
WRAPPED = """
job: Wrapped
landmarks: {Lamp: lamp bracket}
plugs: {lamp: {ways: 2}}
fuses: {F7: {rating: 10 A}}
changes:
  - {id: C1, kind: cover, cover: cloth tape, made: 2031-05-03 AK, from: Lamp, to: F7.fed}  # <
"""
SUPPLY = f"""
job: Supply
fuses: {{F7: {{rating: 10 A}}}}
plugs: {{aux: {{ways: 2}}}}
sources:
  aux: {{plus: aux.1, minus: MINUS}}  # <
wires: {{W1: {{from: aux.1, to: F7.feed}}, W2: {{from: aux.2, to: battery-}}}}
{ROW}"""
HANGS = f"""
job: Hangs
fuses:
  F7: {{rating: 10 A}}
  F8: {{rating: 10 A, fed from: POINT}}  # <
wires: {{W1: {{from: battery+, to: F7.feed}}, W2: {{from: F8, to: lamp.1}}}}
{ROW}"""
RELAY = f"""
job: Relay
switches: {{K1 contact: {{between: K1.30 K1.87, worked by: K1 coil}}}}
loads: {{K1 coil: {{between: K1.86 K1.85, class: coil}}}}
wires:
  W1: {{colour: RD, from: F7, to: K1.CONTACT}}  # <
{ROW}"""
OWN_MARKS = f"""
job: Own marks
switches: {{K1 contact: {{between: K1.1 K1.2a, worked by: K1 coil}}}}
loads: {{K1 coil: {{between: K1.3 K1.4, class: coil}}}}
wires:
  W1: {{colour: RD, from: F7, to: K1.2A}}  # <
{ROW}"""
CAPITALS = f"""
job: Capitals
plugs: {{lamp: {{ways: 2}}}}
fuses: {{F7: {{rating: 10 A}}}}
wires:
  W1: {{colour: RD, to: lamp.1, from: FROM}}  # <
{ROW}"""
WAYS = f"""
job: Ways
plugs: {{lamp: {{ways: 4, in line: yes}}, K1: {{ways: 4}}}}
wires:
  W1: {{colour: GN, from: lamp.1, to: K1.30}}
  W2: {{colour: GN, from: horn.1, to: lamp.CAVITY}}  # <
{ROW}"""
UNLISTED = f"""
job: Unlisted
wires:
  W1: {{colour: GN, from: F7, to: lamp.0}}  # <
{ROW}"""
NOT_EXAMINED = f"""
job: Not examined
plugs:
  lamp: {{ways: 4, cavities not examined: [3, 5]}}  # <
{ROW}"""
SWAPPED = """
job: Swapped
plugs: {lamp: {ways: 2}, lamp-b: {ways: 2}}
wires: {W1: {colour: GN, size: 1.0 mm2, from: F7, to: lamp.1}}
changes:
  - {id: C1, kind: swap, plug: lamp, new plug: lamp-b, seen from: wire side, made: 2031-05-03 AK, cavities: {1: 3}}  # <
"""
LOOP = f"""
job: Loop
wires:
  W1: {{colour: GN, from: lamp.1, to: lamp.1}}  # <
{ROW}"""
WAS = """
job: Was
changes:
  - {id: C1, kind: cap, wire: W1, end: lamp.1, stub: 30 mm, made: yes, was: "GN 1.0 mm2, lamp.1 to lamp.1"}  # <
"""
ONE_END_LOAD = f"""
job: Load
loads:
  lamp: {{between: lamp.1 lamp.1}}  # <
wires: {{W1: {{colour: GN, from: F7, to: lamp.1}}}}
{ROW}"""
MOVED_HOME = """
job: Moved
grounds: {L1: {back to: battery-, surface: bare metal}, L2: {back to: battery-, surface: bare metal}}
wires: {W1: {colour: BN, size: 1.0 mm2, from: L1, to: G1, length: 1 m}}
changes:
  - {id: C1, kind: ground, wire: W1, end: G1, to: L1, ring: new, made: 2031-05-03 AK}  # <
"""
LEADS = f"""
job: Leads
plugs: {{lamp: {{ways: 2}}}}
grounds: {{L1: {{back to: battery-}}}}
loads: {{lamp: {{between: lamp.1 lamp.2}}}}
wires: {{W1: {{colour: GN, from: F7, to: lamp.1}}, W2: {{colour: BN, from: lamp.2, to: L1}}}}
readings:
  - {{id: R1, read: 0.1 V, on: 2031-05-04, LEADS}}  # <
{ROW}"""
BEFORE_THE_ROW = """
job: Before the row
wires: {W1: {colour: GN, size: 1.0 mm2, from: F7, to: FS4, length: 1 m}}
readings:
  - {id: R1, read: 0.1 V, red: horn.1, black: battery-, on: 2031-05-02}  # <
changes:
  - {id: C1, kind: add, wire: W2, from: FS4, to: horn.1, piece: GN 1.0 mm2, cut: 1 m, made: 2031-05-03 AK}
"""
CIRCLE = f"""
job: Circle
grounds:
  L1: {{back to: L1}}  # <
loads: {{lamp: {{between: lamp.1 lamp.2, draws: 2 A}}}}
wires: {{W1: {{colour: GN, from: F7, to: lamp.1}}, W2: {{colour: BN, from: lamp.2, to: L1}}}}
{ROW}"""
NO_GROUND = f"""
job: No ground
modules: {{unit: {{ground: [31]}}}}
grounds:
  L2: {{back to: battery-}}
  L1: {{back to: END}}  # <
fuses: {{F7: {{rating: 10 A, fed: always}}}}
loads: {{lamp: {{between: lamp.1 lamp.2, draws: 2 A}}}}
wires:
  W1: {{colour: GN, from: F7, to: lamp.1}}
  W2: {{colour: BN, from: lamp.2, to: L1}}
  W3: {{colour: BN, from: FS4, to: unit.31}}
{ROW}"""
ROUTE = """
landmarks: {bulkhead: grommet, nose: takeout, tail: rear corner}
route: [{from: bulkhead, to: nose, length: 2 m}, {from: bulkhead, to: tail, length: 3 m}]
"""
PART = f"""
job: Part{ROUTE}plugs:
  lamp: {{at: PLACE}}  # <
{ROW}"""
IN = f"""
job: In{ROUTE}fuses:
  F7: {{rating: 10 A, in: PLACE}}  # <
{ROW}"""
CAP = f"""
job: Cap{ROUTE}wires: {{W1: {{colour: GN, size: 1.0 mm2, from: F7, to: lamp.1}}}}
changes:
  - {{id: C1, kind: cap, wire: W1, end: F7, stub: 30 mm, made: 2031-05-03 AK, where: PLACE}}  # <
"""
JOINT = f"""
job: Joint{ROUTE}wires: {{W1: {{colour: GN, from: F7, to: FS4}}, W2: {{colour: GN, from: F8, to: FS4}}}}
changes:
  - {{id: C1, kind: join, ends: [W1 at FS4, W2 at FS4], made: 2031-05-03 AK, where: PLACE}}  # <
"""
WRAP = f"""
job: Wrap{ROUTE}changes:
  - {{id: C1, kind: cover, cover: cloth tape, made: 2031-05-03 AK, from: bulkhead, to: PLACE}}  # <
"""
LEG = f"""
job: Leg
landmarks: {{bulkhead: grommet, nose: takeout}}
route:
  - {{from: bulkhead, to: nose, length: 2 m}}
  - {{from: bulkhead, length: 3 m, to: sill}}  # <
{ROW}"""
HOLE = f"""
job: Hole{ROUTE}holes:
  firewall: {{through: sheet metal, grommet: yes}}  # <
{ROW}"""
LED_BY = f"""
job: By{ROUTE}wires:
  W1: {{colour: GN, from: F7, to: lamp.1, by: [sill]}}  # <
{ROW}"""
VIA = f"""
job: Via
plugs: {{link: {{ways: 4, in line: yes}}}}
wires:
  W1: {{colour: GN, from: F7, to: lamp.1, via: link}}  # <
{ROW}"""

PAST = "300 mm past nose"


def suffix(written: str, mended: str) -> Case:
    return Case(
        "REF06", "error", "W1", f"to: {written}", f"to: {mended}", RECORDED, FUSE.replace("END", written), written
    )


def hangs_on(code: str, point: str, mended: str) -> Case:
    job, rank = HANGS.replace("POINT", point), "warning" if code == "REF04" else "error"
    return Case(code, rank, "F8", f"fed from: {point}", f"fed from: {mended}", RECORDED, job, f"fuse on {point}")


def leads_to(end: str, mended: str) -> Case:
    job = NO_GROUND.replace("END", end)
    return Case("GND13", "error", "L1", f"back to: {end}", f"back to: {mended}", RECORDED, job, end)


def unplaced(code: str, rank: str, entry: str, job: str, what: str, place: str = PAST, mended: str = "nose") -> Case:
    return Case(code, rank, entry, place, mended, RECORDED, job.replace("PLACE", place), f"{what}: {place}")


CASES = (
    suffix("F7.fed", "F7.feed"),
    suffix("F7.lod", "F7"),
    suffix("F7.2", "F7"),
    suffix("L1.1", "L1"),
    suffix("L1.feed", "L1"),
    suffix("FS4.1", "lamp.1"),
    suffix("batery-", "battery-"),
    suffix("battery-neg", "battery-"),
    suffix("battery+.1", "battery-tray.1"),
    Case("REF06", "error", "C2", "F9.fed", "F9.feed", RECORDED, NEW_FUSE, "a fuse that a row lets in"),
    Case("REF06", "error", "C1", "F7.fed", "F7.feed", RECORDED, WRAPPED, "end of a wrap"),
    Case("REF06", "warning", "W1", "K1.78", "K1.87", "DIN 72552", RELAY.replace("CONTACT", "78"), "relay, turned"),
    Case("REF06", "warning", "W1", "K1.87A", "K1.87a", "DIN 72552", RELAY.replace("CONTACT", "87A"), "relay, capital"),
    Case("REF06", "warning", "W1", "K1.2A", "K1.2a", RECORDED, OWN_MARKS, "relay with marks of its own"),
    Case("REF06", "warning", "W1", "K1.2A", "K1.5", RECORDED, OWN_MARKS, "twin: another number there"),
    Case("REF01", "note", "W1", "f7", "F7", RECORDED, CAPITALS.replace("FROM", "f7"), "capital of a fuse"),
    Case("REF01", "note", "W1", "Lamp.1", "lamp.1", RECORDED, CAPITALS.replace("lamp.1", "Lamp.1"), "plug"),
    *(
        Case("REF07", "error", "lamp", f"lamp.{wrong}", f"lamp.{right}", RECORDED, WAYS.replace("CAVITY", wrong), what)
        for wrong, right, what in (
            ("9", "4", "above"), ("5", "stop", "a word"), ("0", "2", "nought"), ("-1", "2", "less"), ("30", "3", "30")
        )
    ),
    Case("REF07", "error", "lamp", "lamp.0", "lamp.1", RECORDED, UNLISTED, "unlisted"),
    Case("REF07", "error", "lamp", "[3, 5]", "[3, 4]", RECORDED, NOT_EXAMINED, "not examined"),
    Case("REF07", "error", "lamp-b", "{1: 3}", "{1: 2}", RECORDED, SWAPPED, "new plug"),
    Case("REF08", "error", "W1", "to: lamp.1}", "to: lamp.2}", RECORDED, LOOP, "cavity"),
    Case("REF08", "error", "C1", "to lamp.1", "to FS4", RECORDED, WAS, "was"),
    Case("REF08", "error", "lamp", "lamp.1 lamp.1", "lamp.1 lamp.2", RECORDED, ONE_END_LOAD, "load"),
    Case("REF08", "error", "C1", "to: L1", "to: L2", RECORDED, MOVED_HOME, "moved onto its other end"),
    Case("REF08", "error", "aux", "minus: aux.1", "minus: aux.2", RECORDED, SUPPLY.replace("MINUS", "aux.1"), "source"),
    Case("REF06", "error", "aux", "bat-minus", "battery-", RECORDED, SUPPLY.replace("MINUS", "bat-minus"), "source"),
    Case("REF07", "error", "aux", "aux.3", "aux.2", RECORDED, SUPPLY.replace("MINUS", "aux.3"), "source"),
    Case("REF04", "warning", "aux", "aux.02", "aux.2", RECORDED, SUPPLY.replace("MINUS", "aux.02"), "source"),
    hangs_on("REF08", "F8.feed", "F7.feed"),
    hangs_on("REF08", "F8", "battery+"),
    hangs_on("REF06", "F7.fed", "F7.feed"),
    hangs_on("REF06", "batery+", "battery+"),
    hangs_on("REF04", "bar.1", "lamp.1"),
    Case(
        "RDG03", "warning", "R1", "lamp.9", "lamp.2", RECORDED,
        LEADS.replace("LEADS", "red: lamp.9, black: L1"), "red",
    ),
    Case("RDG03", "warning", "R1", "L7", "L1", RECORDED, LEADS.replace("LEADS", "red: lamp.2, black: L7"), "black"),
    Case(
        "RDG03", "warning", "R1", "clamp", "black clamp", RECORDED,
        LEADS.replace("LEADS", "red: L1, black: clamp"), "words",
    ),
    Case(
        "RDG03", "warning", "R1", "F8.feed", "F7", RECORDED,
        LEADS.replace("LEADS", "red: F8.feed, black: L1"), "fuse",
    ),
    Case("RDG03", "warning", "R1", "2031-05-02", "2031-05-03", "the day of the row", BEFORE_THE_ROW, "before its row"),
    Case("GND13", "error", "L1", "back to: L1", "back to: battery-", RECORDED, CIRCLE),
    leads_to("battery+", "battery-"),
    leads_to("FS4", "L2"),
    leads_to("lamp.1", "unit.31"),
    leads_to("F7", "unknown"),
    unplaced("PLC06", "error", "lamp", PART, "at", PAST, "300 mm from nose towards bulkhead"),
    unplaced("PLC06", "error", "lamp", PART, "at", "300 mm from nose", "beside nose"),
    unplaced("PLC06", "error", "lamp", PART, "at", "about 3 ft 4 in behind nose", "behind nose"),
    unplaced("PLC06", "error", "F7", IN, "in", PAST, "300 mm from nose towards bulkhead"),
    unplaced("PLC06", "error", "C1", CAP, "where of a cap", PAST, "300 mm from nose towards bulkhead"),
    unplaced("PLC06", "error", "C1", JOINT, "where of a joint", PAST, "300 mm from nose towards bulkhead"),
    unplaced("PLC06", "error", "C1", WRAP, "end of a wrap"),
    unplaced("PLC01", "error", "lamp", PART, "at", "300 mm", "300 mm from nose towards bulkhead"),
    unplaced("PLC01", "error", "C1", CAP, "where of a cap", "300 mm past there", "past there"),
    unplaced("PLC02", "error", "lamp", PART, "at", "300 mm from the nose towards tail", "at the nose"),
    unplaced("PLC02", "error", "C1", WRAP, "end of a wrap", "9 m from nose towards tail"),
    unplaced("PLC05", "note", "lamp", PART, "at", "shelf", "on the shelf"),
    unplaced("PLC05", "note", "F7", IN, "in", "lid"),
    unplaced("PLC05", "note", "C1", JOINT, "where of a joint", "bulkhaed", "bulkhead"),
    unplaced("PLC05", "note", "C1", WRAP, "end of a wrap", "sill"),
    Case("PLC05", "warning", "sill", "to: sill", "to: nose", RECORDED, LEG, "leg"),
    Case(
        "PLC05", "warning", "sill", "landmarks: {bulkhead: grommet, nose: takeout}", "units: mm", RECORDED,
        LEG, "no list",
    ),
    Case("PLC05", "warning", "firewall", "firewall", "bulkhead", RECORDED, HOLE, "hole"),
    Case("PLC05", "warning", "W1", "[sill]", "[nose]", RECORDED, LED_BY, "by"),
    Case("REF04", "warning", "W1", "via: link", "via: link.1", RECORDED, VIA, "via without a cavity"),
)  # fmt: skip
