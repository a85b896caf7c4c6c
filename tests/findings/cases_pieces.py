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
        "OFF01", "error", "C1-W1", "1.0 mm2 469 mm", "1.0 mm2 470 mm", "the offcut's length; the piece takes 470 mm",
        extended("piece: BU 1.0 mm2 from O1", wire="    offcuts: {O1: BU 1.0 mm2 469 mm}" + WIRE),
    ),
    Case(
        "OFF02", "note", "C1-W1", "O2: BU", "O1: BU", RECORDED,
        extended("piece: BU 1.0 mm2 from O1", wire="    offcuts: {O2: BU 1.0 mm2 2 m}" + WIRE),
    ),
)  # fmt: skip
