"""Colours, sizes, special wires, lengths, offcuts: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case

RECORDED = "none: a recorded fact"
HOUSE_20 = "20 mm: house value"
EQUAL_OR_LARGER = "never smaller than the wire: repair manuals (read)"
RESERVED = "orange high voltage, yellow restraint (read)"

USUAL = """
    job: Pieces
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
"""
WIRE = """
    wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
"""


def extended(says: str, marked: str = "", wire: str = WIRE) -> str:
    """One wire extended; `says` are the keys that differ, a line each. Marked: the row, or a line of `says`."""
    lines = "\n".join(
        f"        {line}{' # <' if marked and line.startswith(marked) else ''}" for line in says.split(" | ")
    )
    return (
        USUAL
        + wire
        + f"""
    changes:
      - id: C1{"" if marked else " # <"}
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        made: 2031-05-03 AK
{lines}
    """
    )


PAIR = (
    USUAL
    + """
    wires:
      W1: {colour: GN, size: 0.5 mm2, from: u.1, to: lamp.1, length: 900 mm, special: twisted pair, pair: W2}
      W2: {colour: YE, size: 0.5 mm2, from: u.2, to: lamp.2, length: 900 mm, special: twisted pair, pair: W1}
    changes:
"""
)
PAIR_ROW = """      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, # <
         piece: GN 0.5 mm2, made: 2031-05-03 AK}
"""
KEPT = """
    donor colours: BK
    fuses: {F1: {rating: 10 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: BK, size: 1.0 mm2, from: lamp.2, to: battery-, length: 900 mm}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
"""
SPECIAL = """
    wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm, special: KIND}}
"""
BU = "piece: BU 1.0 mm2"
TWO_STEPS = "2 steps of size; a step is two gauges, 1.59 in area (ASTM B258, computed)"
HEAT = "PVC to 85 C, cross-linked to 125 C: repair manuals (read)"
STRANDED = "annealed stranded copper only (read)"


def wire_with(facts: str) -> str:
    """One donor wire from a fuse to a lamp with one more fact, on a line of its own that is marked."""
    return (
        USUAL
        + f"""
    wires:
      W1: {{colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm,
           {facts}}} # <
    changes: [{{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}}]
    """
    )


def terminated(fixed: str, plug: str, zone: str = "dry") -> str:
    """A wire put into a cavity of `lamp`, which stands at the end of a leg."""
    return (
        USUAL
        + f"""
    landmarks: {{bulkhead: sheet metal, nose: takeout}}
    route: [{{from: bulkhead, to: nose, length: 1000 mm, zone: {zone}}}]
    plugs: {{lamp: {{at: nose{plug}}}}}
    wires: {{W1: {{colour: GN, size: 1.0 mm2, from: F1, to: FS1, length: 900 mm}}}}
    changes:
      - id: C1
        kind: terminate
        wire: W1
        end: FS1
        into: lamp.1
        terminal: new pin
        terminal fixed: {fixed} # <
        made: 2031-05-03 AK
    """
    )


def pinned(piece: str, takes: str) -> str:
    """A piece that ends in a cavity of `lamp`; its line is marked."""
    return (
        USUAL
        + f"""
    plugs: {{lamp: {{takes: {takes}}}}}
    wires: {{W1: {{colour: GN, size: 1.0 mm2, from: F1, to: FS1, length: 900 mm}}}}
    changes:
      - id: C1
        kind: terminate
        wire: W1
        end: FS1
        into: lamp.1
        gap: 200 mm
        {piece} # <
        made: 2031-05-03 AK
    """
    )


def through(zone: str, says: str, wire: str = "", marked: str = "insulation", head: str = "") -> str:
    """A wire extended by a piece that reaches through one leg."""
    return f"""
    landmarks: {{bulkhead: sheet metal, nose: takeout}}
    route: [{{from: bulkhead, to: nose, length: 1000 mm, {zone}}}]
    plugs: {{lamp: {{at: nose}}}}
    fuses: {{F1: {{rating: 5 A, in: bulkhead}}}}
{head}""" + extended(
        f"piece: BU 1.0 mm2{says}",
        marked,
        f"""
    wires:
      W1: {{colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm{wire}}}
    """,
    )


CASES = (
    Case("COL01", "error", "C1-W1", "note: new", BU, RECORDED, extended("note: new")),
    Case(
        "COL02", "error", "C1-W1", "W2: {colour: BU", "W2: {colour: RD", RECORDED,
        USUAL + """
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: FS1, length: 900 mm}
      W2: {colour: BU, size: 1.0 mm2, from: F2, to: lamp.2}
    changes:
      - id: C1
        kind: terminate
        wire: W1
        end: FS1
        into: lamp.1
        gap: 200 mm
        piece: BU 1.0 mm2 # <
        made: 2031-05-03 AK
    """, "connector",
    ),
    Case(
        "COL02", "warning", "C1-W1", "W2: BU 1.0 mm2}", "W2: RD 1.0 mm2}", RECORDED,
        USUAL + """
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {colour: YE, size: 1.0 mm2, from: F2, to: lamp.2}
    changes:
      - id: C1
        kind: extend
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        wires: {W1: BU 1.0 mm2, W2: BU 1.0 mm2} # <
        made: 2031-05-03 AK
    """, "bundle",
    ),
    Case(
        "COL03", "error", "C1-W1", "piece: BK", "piece: BK/RD", RECORDED,
        extended("piece: BK 1.0 mm2", wire=KEPT), "ground colour on a feed",
    ),
    Case(
        "COL03", "error", "C1-W2", "piece: RD", "piece: BK", RECORDED,
        extended("piece: RD 1.0 mm2", wire=KEPT).replace("wire: W1\n", "wire: W2\n"), "red on a ground",
    ),
    Case(
        # brown means ground in the donor of the rear harness only
        "COL03", "error", "C1-W1", "loom: rear", "loom: nose", RECORDED,
        extended(
            "piece: BN 1.0 mm2",
            wire="    looms: {rear: {donor colours: BN}, nose: {donor: estate}}\n"
            + KEPT.replace("to: lamp.1, length: 900 mm}", "to: lamp.1, length: 900 mm, loom: rear}").lstrip("\n"),
        ), "ground colour of its own loom",
    ),
    Case(
        "COL04", "warning", "C1-W1", "piece: OG", "piece: BN", RESERVED,
        extended("piece: OG 1.0 mm2", "piece"), "piece",
    ),
    Case(
        "COL04", "warning", "C1", "orange adhesive", "black adhesive", RESERVED,
        extended(f"{BU} | cover: orange adhesive sleeve 40 mm", "cover"), "orange cover",
    ),
    Case(
        "COL04", "warning", "C1", "yellow adhesive", "black adhesive", RESERVED,
        extended(f"{BU} | cover: yellow adhesive sleeve 40 mm", "cover"), "yellow cover",
    ),
    Case(
        "SIZ01", "error", "C1-W1", "piece: BU 0.75 mm2", "piece: BU 1.0 mm2", EQUAL_OR_LARGER,
        extended("piece: BU 0.75 mm2", "piece"), "mm2",
    ),
    Case(
        # SAE J1128 least copper: 18 AWG 0.76 mm2, 16 AWG 1.12 mm2 (from memory)
        "SIZ01", "error", "C1-W1", "piece: BU 18 AWG", "piece: BU 16 AWG", EQUAL_OR_LARGER,
        extended("piece: BU 18 AWG", "piece"), "gauge against mm2",
    ),
    Case(
        "SPC01", "stop", "C1", "special: restraint", "special: none", "makers: never modify, splice, repair (read)",
        extended(BU, wire=SPECIAL.replace("KIND", "restraint")),
    ),
    Case(
        "SPC01", "stop", "C1", "F1: capped 30 mm", "F1: pulled", "makers: never modify, splice, repair (read)",
        USUAL + SPECIAL.replace("KIND", "restraint") + """
    changes:
      - id: C1 # <
        kind: remove
        wires: {W1: {F1: capped 30 mm, lamp.1: gone}}
        made: 2031-05-03 AK
    """, "cut on removal; whole it may go",
    ),
    Case(
        "SPC02", "stop", "C1", "special: high voltage", "special: none", "outside the trade's scope (read)",
        extended(BU, wire=SPECIAL.replace("KIND", "high voltage")),
    ),
    Case(
        "SPC03", "error", "C1", "pair: W2", "pair: W9", "equal lengths (read)", PAIR + PAIR_ROW, "one of two",
    ),
    Case(
        "SPC03", "error", "C1", "gap: 306 mm", "gap: 305 mm", "5 mm: common practice, no source",
        PAIR + PAIR_ROW.replace("400", "300") + """
      - {id: C2, kind: extend, wire: W2, plug: lamp, pigtail: 300 mm, gap: 306 mm,
         piece: YE 0.5 mm2, made: 2031-05-03 AK}
    """, "unequal pieces",
    ),
    Case(
        "SPC03", "error", "C1", "pigtail: 219 mm", "pigtail: 220 mm", "20 mm: under the 30 mm asked for (read)",
        PAIR + PAIR_ROW + """
      - {id: C2, kind: extend, wire: W2, plug: lamp, pigtail: 219 mm, gap: 400 mm,
         piece: YE 0.5 mm2, made: 2031-05-03 AK}
    """, "side by side",
    ),
    Case(
        "SPC04", "error", "C1", "special: resistance wire", "special: none", "its length is its value (read)",
        extended(BU, wire=SPECIAL.replace("KIND", "resistance wire")),
    ),
    Case(
        # piece: 400 + 50 + 10 + 10 = 470 mm
        "LEN01", "warning", "C1-W1", "cut: 491 mm", "cut: 490 mm", HOUSE_20,
        extended(f"{BU} | cut: 491 mm", "cut"), "cut",
    ),
    Case(
        # reach 1121 - tail 500 - pigtail 200 = 421 mm against a gap of 400 mm
        "LEN01", "warning", "C1-W1", "reach: 1121 mm", "reach: 1120 mm", HOUSE_20,
        extended(f"{BU} | tail: 500 mm | reach: 1121 mm")
        .replace("C1 # <", "C1").replace("gap: 400 mm", "gap: 400 mm # <"),
        "two statements",
    ),
    Case(
        # 900 - 600 - 50 - 10 = 240 mm
        "LEN01", "warning", "C1", "take out: 261 mm", "take out: 260 mm", HOUSE_20,
        USUAL + WIRE + """
    changes:
      - id: C1
        kind: shorten
        wire: W1
        plug: lamp
        pigtail: 100 mm
        new reach: 600 mm
        take out: 261 mm # <
        made: 2031-05-03 AK
    """, "take-out",
    ),
    Case(
        # 900 - 600 - 50 - 10 = 240 mm
        "LEN01", "warning", "C1", "take out: 219 mm", "take out: 220 mm", HOUSE_20,
        USUAL + WIRE + """
    changes:
      - id: C1
        kind: shorten
        wire: W1
        plug: lamp
        pigtail: 100 mm
        new reach: 600 mm
        take out: 219 mm # <
        made: 2031-05-03 AK
    """, "less taken out",
    ),
    Case("LEN02", "warning", "C1-W1", "slack: -5 mm", "slack: 0 mm", "0", extended(f"{BU} | slack: -5 mm", "slack")),
    Case(
        "LEN03", "warning", "C1", "O1: GN 950 mm", "O1: GN 900 mm", "conservation (F18): 900 mm came out",
        USUAL + WIRE + """
    changes:
      - id: C1
        kind: remove
        wires: {W1: {F1: pulled, lamp.1: gone}}
        reclaimed: {O1: GN 950 mm} # <
        made: 2031-05-03 AK
    """,
    ),
    Case(
        "LEN04", "warning", "C1", "ring strip: 6 mm}", "ring strip: 6 mm, stagger: 0 mm}", RECORDED,
        USUAL + """
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: VT, size: 1.0 mm2, from: F2, to: lamp.2, length: 900 mm}
    changes:
      - id: C1
        kind: extend
        plug: lamp
        pigtail: 200 mm # <
        gap: 400 mm
        wires: {W1: BU 1.0 mm2, W2: RD 1.0 mm2}
        made: 2031-05-03 AK
    """,
    ),
    Case(
        "OFF01", "error", "C1-W1", "1.0 mm2 469 mm", "1.0 mm2 470 mm", "the offcut's length; the piece takes 470 mm",
        extended("piece: BU 1.0 mm2 from O1", wire="    offcuts: {O1: BU 1.0 mm2 469 mm}" + WIRE),
    ),
    Case(
        "OFF02", "note", "C1-W1", "O2: BU", "O1: BU", RECORDED,
        extended("piece: BU 1.0 mm2 from O1", wire="    offcuts: {O2: BU 1.0 mm2 2 m}" + WIRE),
    ),
    Case(
        "COL05", "warning", "W1", "by diagram: GN/WH", "by diagram: GN", "a stripe is misread when dirty (read)",
        wire_with("by diagram: GN/WH"), "stripe missing",
    ),
    Case(
        "COL05", "warning", "W1", "by diagram: BU", "by diagram: unknown", RECORDED,
        wire_with("by diagram: BU"), "another base colour",
    ),
    Case(
        "COL05", "warning", "W1", "by diagram: GN/WH", "by diagram: GN/RD", RECORDED,
        wire_with("by diagram: GN/WH").replace("{colour: GN,", "{colour: GN/RD,"), "another stripe",
    ),
    Case(
        "TRM01", "warning", "C1", "fixed: both", "fixed: crimped", "the plug's maker: a recorded fact",
        terminated("both", ", solder: not allowed"), "the maker forbids it",
    ),
    Case(
        "TRM01", "warning", "C1", "zone: flex", "zone: dry", RECORDED, terminated("soldered", "", "flex"), "flexes",
    ),
    Case(
        # log(4.0/1.5) / log(1.59) = 2.11 steps; 2.5 mm2 is log(2.5/1.5) / log(1.59) = 1.10 steps above
        "SIZ02", "warning", "C1-W1", "piece: BU 4.0 mm2", "piece: BU 2.5 mm2", TWO_STEPS,
        pinned("piece: BU 4.0 mm2", "0.5-1.5 mm2"), "mm2",
    ),
    Case(
        # 16 to 10 AWG are three steps of two gauge numbers, 16 to 12 two
        "SIZ02", "warning", "C1-W1", "piece: BU 10 AWG", "piece: BU 12 AWG", TWO_STEPS,
        pinned("piece: BU 10 AWG", "20-16 AWG"), "gauges",
    ),
    Case(
        # 14 AWG has 1.85 mm2 of copper at least (SAE J1128, from memory): log(1.85/1.0) / log(1.59) = 1.33 steps;
        # 16 AWG 1.12 mm2: 0.24 steps
        "SIZ03", "warning", "W1", "other size: 14 AWG", "other size: 16 AWG", "one step of size",
        wire_with("other size: 14 AWG"), "both systems",
    ),
    Case(
        "SIZ03", "warning", "W1", "draws: 5.1 A", "draws: 5 A", "5 A: house value",
        """
    job: Pieces
    fuses: {F1: {rating: 10 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 5.1 A}}
    wires:
      W1: {colour: GN, size: unknown, from: F1, to: lamp.1} # <
      W2: {colour: BK, size: 1.5 mm2, from: lamp.2, to: battery-}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """, "not read",
    ),
    Case(
        "MAT01", "error", "W1", "conductor: aluminium", "conductor: unknown", STRANDED,
        wire_with("conductor: aluminium"), "wire",
    ),
    Case(
        "MAT01", "error", "C1", "conductor: solid copper", "conductor: stranded copper", STRANDED,
        extended(f"{BU} | conductor: solid copper", "conductor"), "piece",
    ),
    Case(
        "INS01", "error", "C1-W1", "hottest: 86 C", "hottest: 85 C", HEAT,
        through("hottest: 86 C", " | insulation: PVC"), "measured",
    ),
    Case(
        "INS01", "error", "C1-W1", "insulation: PVC", "insulation: cross-linked", f"105 C when hot: house; {HEAT}",
        through("zone: hot", " | insulation: PVC"), "marked hot",
    ),
    Case(
        "INS01", "error", "C1-W1", "2 m, PVC", "2 m, unknown", HEAT,
        through("zone: hot", " from O1", marked="piece", head='    offcuts: {O1: "BU 1.0 mm2 2 m, PVC"}\n'), "rack",
    ),
    Case(
        "INS01", "error", "W1", "insulation: PVC", "insulation: unknown", HEAT,
        through("zone: hot", "", ", insulation: PVC", "nothing").replace("insulation: PVC}", "insulation: PVC} # <"),
        "donor's own",
    ),
    Case(
        "OFF03", "error", "C1-W1", "2 m, browned", "2 m, good", "brown insulation was too hot: repair manuals (read)",
        extended("piece: BU 1.0 mm2 from O1", "piece", '    offcuts: {O1: "BU 1.0 mm2 2 m, browned"}' + WIRE), "rack",
    ),
    Case(
        "OFF03", "error", "C2-W2", "600 mm, oily", "600 mm, unknown", RECORDED,
        USUAL + """
    wires:
      W1: {colour: BU, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: GN, size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}
    changes:
      - {id: C1, kind: remove, wires: {W1: {F1: pulled, lamp.1: gone}}, made: 2031-05-03 AK,
         reclaimed: {O1: "BU 600 mm, oily"}}
      - id: C2
        kind: extend
        wire: W2
        plug: horn
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2 from O1 # <
        made: 2031-05-03 AK
    """, "reclaimed",
    ),
)  # fmt: skip
