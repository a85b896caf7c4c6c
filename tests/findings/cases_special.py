"""Special wires and declared systems: what must be told, each with a twin one fact away that is silent."""

from __future__ import annotations

from tests.findings.jobs import Case

RECORDED = "none: a recorded fact"
OWN_LIMIT = "the job's own limit"
LINK_STEPS = "4 gauge numbers: repair manuals (read)"
HEAD = """
    job: Special
    HEADER
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
"""
ONE = (
    HEAD
    + """
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: u.1, to: lamp.1, length: 900 mm, special: KIND}
    changes:
      - id: C1 # <
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
        SAYS
        made: 2031-05-03 AK
      - {id: C2, kind: verify, proves: [C2], made: 2031-05-04 AK}
"""
)


def one(kind: str, says: str = "note: none", header: str = "vehicle: none", marked: str = "") -> str:
    """One wire of a kind, extended; the mark stands at the row, or at what the row or the header says."""
    text = ONE.replace("KIND", kind).replace("SAYS", says).replace("HEADER", header)
    if marked:
        text = text.replace("C1 # <", "C1").replace(marked, f"{marked} # <")
    return text


def system(
    says: str, wire: str = "none", rows: str = "{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}"
) -> str:
    return f"""
    job: Systems
    systems:
      {says} # <
    wires:
      W1: {{colour: GN, size: 1.0 mm2, from: u.1, to: lamp.1, length: 900 mm, special: {wire}}}
    changes:
      - {rows}
    """


PAIR = (
    HEAD.replace("    HEADER\n", "")
    + """
    wires:
      W1: {colour: GN, size: 0.5 mm2, from: u.1, to: lamp.1, length: 900 mm, special: twisted pair, pair: W2}
      W2: {colour: YE, size: 0.5 mm2, from: u.2, to: lamp.2, length: 900 mm, special: twisted pair}
    changes:
"""
)
SHORTENED = (
    PAIR
    + """
      - {id: C1, kind: shorten, wire: W1, plug: lamp, pigtail: 200 mm, take out: 306 mm, made: 2031-05-03 AK} # <
      - {id: C2, kind: shorten, wire: W2, plug: lamp, pigtail: 250 mm, take out: 300 mm, made: 2031-05-03 AK}
"""
)
NEW_PINS = (
    PAIR
    + """
      - {id: C1, kind: terminate, wire: W1, end: lamp.1, into: new.1, tail: 700 mm, made: 2031-05-03 AK} # <
      - {id: C2, kind: terminate, wire: W2, end: lamp.2, into: new.2, tail: 706 mm, made: 2031-05-03 AK}
"""
)
UNTWISTED = (
    PAIR
    + """
      - id: C1
        kind: extend
        plug: lamp
        stagger: 30 mm
        pigtail: 200 mm
        gap: 300 mm
        wires: {W1: GN 0.5 mm2, W2: YE 0.5 mm2}
        untwisted: 51 mm # <
        made: 2031-05-03 AK
"""
)
LINK = """
    job: Link
    LIMITS
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    splices: {B1: {}, FS1: {}}
    fuses: {F1: {}}
    wires:
      K1:
        from: B1
        to: FS1
        special: fusible link
        colour: BK
        size: SIZE
        length: LONG
        protects: [W5]
      W5: {colour: RD, size: WIRE, from: FS1, to: box.1, length: 900 mm}
      W6: {colour: RD, size: 16 mm2, from: battery+, to: B1, length: 300 mm}
    changes:
      - ROW
"""
NOTHING = "{id: C9, kind: verify, proves: [C9], made: 2031-05-03 AK}"


def link(
    rows: str = NOTHING, size: str = "18 AWG", wire: str = "14 AWG", long: str = "200 mm", marked: str = "",
    limits: str = "vehicle: none",
) -> str:  # fmt: skip
    """A fusible link from a bus to a splice, with the wire it protects. The last row is marked when nothing else is."""
    text = LINK.replace("LIMITS", limits).replace("SIZE", size).replace("WIRE", wire).replace("LONG", long)
    text = text.replace("ROW", rows if marked else f"{rows} # <")
    return text.replace(marked, f"{marked} # <") if marked else text


def altered(kind: str, says: str) -> str:
    return f"{{id: C1, kind: {kind}, wire: K1, {says}, made: 2031-05-03 AK}}"


GONE = altered("remove", "ends: {B1: flush, FS1: flush}")
NEW_LEAD = (
    "{id: C2, kind: add, wire: K2, from: B1, to: FS1, piece: BK 18 AWG, cut: 150 mm, special: none, made: 2031-05-03 "
    "AK}"
)
TOO_THICK = (
    "{id: C2, kind: add, wire: K2, from: B1, to: FS1, piece: BK 16 AWG, cut: 200 mm, special: fusible link, "
    "protects: [W5], note: none, made: 2031-05-03 AK}"
)
AGAIN = (
    "{id: C2, kind: add, wire: K2, from: B1, to: FS1, piece: BK 18 AWG, cut: 231 mm, special: fusible link, "
    "made: 2031-05-03 AK}"
)
DONE = "      - {id: C9, kind: verify, proves: [C9], made: 2031-05-04 AK}\n"
IN_LINE = "{id: C3, kind: protect, fuse: F3, wire: K1, end: B1, tail: 30 mm, made: 2031-05-03 AK}"
LET_IN = (
    "{id: C3, kind: extend, wire: W5, end: box.1, pigtail: 300 mm, gap: 100 mm, piece: RD 16 AWG, made: 2031-05-03 AK}"
)
SHIELD_ENDS = """
    job: Shield
    wires:
      W1:
        from: u.1
        to: sensor.1
        special: shielded
        shield at: [u.3, body] # <
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
OUT = "{id: C1, kind: remove, wire: W1, ends: {u.1: gone, lamp.1: LEFT}, made: 2031-05-03 AK}"
JOINED = """
    job: Joined
    wires:
      W1: {from: u.1, to: bag.1, special: restraint}
      W2: {from: v.1, to: w.1}
    changes:
      - {id: C1, kind: join, ends: [W1 at bag.1, W2 at w.1], made: 2031-05-03 AK} # <
"""

CASES = (
    Case("SPC01", "stop", "C1", "special: restraint", "special: none", "makers: never modify (read)", JOINED, "joined"),
    Case(
        # 900 - 306 and 900 - 300 mm of conductor: 6 mm apart
        "SPC03", "error", "C1", "take out: 306 mm", "take out: 305 mm", "5 mm: common practice, no source", SHORTENED,
        "shortened unevenly",
    ),
    Case(
        # 700 + 6 mm against 706 + 6 mm into new terminals
        "SPC03", "error", "C1", "tail: 706 mm", "tail: 705 mm", "5 mm: common practice, no source", NEW_PINS,
        "new pins at unlike lengths",
    ),
    Case(
        "SPC03", "error", "C1", "untwisted: 51 mm", "untwisted: 50 mm", "50 mm: repair manuals (read)", UNTWISTED,
        "untwisted",
    ),
    Case(
        # what is only planned is told before it is cut, though the car as it is still has its wires whole
        "SPC01", "stop", "C1", "special: restraint", "special: none", "makers: never modify (read)",
        one("restraint").replace("        made: 2031-05-03 AK\n", ""), "planned",
    ),
    Case(
        "SPC03", "error", "C1", "take out: 306 mm", "take out: 305 mm", "5 mm: common practice, no source",
        SHORTENED.replace(", made: 2031-05-03 AK", "") + DONE, "planned to be shortened unevenly",
    ),
    Case(
        "SPC06", "error", "W1", "u.1: capped 30 mm", "u.1: gone", "one end only: common practice, no source",
        SHIELD_ENDS.replace("    changes: [", "    changes: [{id: C2, kind: remove, wire: W1, ends: "
                            "{u.1: capped 30 mm, sensor.1: gone}}, "), "both ends; in the twin planned to go",
    ),
    *(
        Case(
            "SPC05", "error", "C1", "special: fusible link", "special: none", "same gauge, same length (read)",
            link(altered(kind, says)), what,
        )
        for kind, says, what in (
            ("extend", "end: B1, pigtail: 50 mm, gap: 60 mm, piece: RD 14 AWG", "extended"),
            ("shorten", "end: B1, pigtail: 50 mm, take out: 20 mm", "shortened"),
            ("cap", "end: B1, stub: 30 mm, far: gone, cover: adhesive sleeve", "capped"),
            ("terminate", "end: B1, into: new.1, gap: 60 mm, tail: 100 mm, piece: RD 14 AWG", "new end with a piece"),
            ("terminate", "end: B1, into: new.1, tail: 100 mm, terminal: ring", "cut back"),
        )
    ),
    Case(
        "SPC05", "error", "K1", "length: 231 mm", "length: 230 mm", "230 mm: repair manuals, 9 in (read)",
        link(long="231 mm", marked="length: 231 mm"), "too long",
    ),
    Case(
        "SPC05", "error", "C2", "cut: 231 mm", "cut: 230 mm", "230 mm: repair manuals, 9 in (read)",
        link(f"{GONE}\n      - {AGAIN}").replace("protects: [W5]", "note: none"), "a new one too long",
    ),
    Case(
        # the longest stretch counts: 250 mm are left on FS1, 30 mm on B1; 259 - 30 = 229 mm
        "SPC05", "error", "K1", "length: 280 mm", "length: 259 mm", "230 mm: repair manuals, 9 in (read)",
        link(IN_LINE, long="280 mm", marked="length: 280 mm"), "too long on one side of a fuse in it",
    ),
    Case(
        # the link is 18 AWG: the wire of 10 AWG is eight numbers thicker, the 16 AWG let into it two, 14 AWG four
        "SPC05", "error", "K1", "piece: RD 16 AWG", "piece: RD 14 AWG", LINK_STEPS,
        link(LET_IN, wire="10 AWG", marked="size: 18 AWG"), "the thinnest stretch of what it protects",
    ),
    Case(
        # the twin's own copper is 18 AWG: the wire behind it is found whether or not a row names it
        "SPC05", "error", "C2", "piece: BK 16 AWG", "piece: BK 18 AWG", LINK_STEPS,
        link(f"{GONE}\n      - {TOO_THICK}").replace("        protects: [W5]", "        note: none"),
        "a new one two numbers thinner only",
    ),
    Case(
        "SPC05", "error", "K1", "size: 16 AWG", "size: 18 AWG", LINK_STEPS,
        link(size="16 AWG", marked="size: 16 AWG"), "two numbers thinner only",
    ),
    Case(
        # areas 2.5 / 1.0: ln 2.5 / ln 1.261 = 3.95, four; 2.5 / 1.5: 2.2, two
        "SPC05", "error", "K1", "size: 1.5 mm2", "size: 1.0 mm2", LINK_STEPS,
        link(size="1.5 mm2", wire="2.5 mm2", marked="size: 1.5 mm2"), "square millimetres",
    ),
    Case(
        "SPC05", "error", "K1", "size: 1.5 mm2", "size: unknown", LINK_STEPS,
        link(size="1.5 mm2", wire="2.5 mm2", marked="size: 1.5 mm2"), "twin: size not read",
    ),
    Case(
        # 18 AWG before 14 AWG: four numbers
        "SPC05", "error", "K1", "link steps: 5", "link steps: 4", OWN_LIMIT,
        link(marked="size: 18 AWG", limits="limits: {link steps: 5}"), "own limit",
    ),
    Case(
        "SPC06", "error", "C1", "shield: left open", "shield: carried through", "shield carried past a joint (read)",
        one("shielded", "shield: left open", marked="shield: left open"), "left open",
    ),
    Case(
        "SPC06", "warning", "C1", "note: none", "shield: unknown", RECORDED, one("shielded"), "not spoken of",
    ),
    Case(
        "SPC06", "error", "W1", "[u.3, body]", "[u.3, unknown]", "one end only: common practice, no source",
        SHIELD_ENDS, "both ends",
    ),
    Case(
        "SPC07", "warning", "C1", '"butt, soldered"', '"butt, crimped"', "sensor leaflets: crimp (read)",
        one("oxygen sensor", 'joint: "butt, soldered"', marked='joint: "butt, soldered"'), "the row's joint",
    ),
    Case(
        "SPC07", "warning", "C1", '"lap, soldered"', '"lap, unknown"', "sensor leaflets: crimp (read)",
        one("oxygen sensor"), "the house joint",
    ),
    *(
        Case(
            "SPC08", "stop", "restraint", f"int: {word}", "int: untouched", RECORDED, system(f"restraint: {word}"),
            word,
        )
        for word in ("changed", "removed in part")
    ),
    *(
        Case(
            "SPC08", "stop", "high voltage", f"voltage: {word}", "voltage: unknown", RECORDED,
            system(f"high voltage: {word}"), f"high voltage {word}",
        )
        for word in ("present", "changed", "untouched", "removed in part")
    ),
    *(
        Case(
            "SPC09", "warning", "C1", "C2, kind: verify, proves: [C2]", "C2, kind: verify, proves: [C1]", RECORDED,
            one(kind, header=f"systems: {{{key}: changed}}"), f"{kind}: not proved",
        )
        for kind, key in (
            ("anti-lock", "anti-lock"), ("immobiliser", "immobiliser"), ("data pair", "data bus"),
            ("fuel cut-off", "restraint: never fitted, anti-lock"),
        )
    ),
    Case(
        "SPC09", "warning", "C1", "vehicle: none", "systems: {anti-lock: changed}", RECORDED,
        one("anti-lock", "tested: 2031-05-05 AK"), "not declared",
    ),
    Case(
        "SPC10", "error", "", "lamp.1: capped 30 mm", "lamp.1: gone", RECORDED,
        system("anti-lock: removed complete", "anti-lock", OUT.replace("LEFT", "capped 30 mm")), "not complete",
    ),
    Case(
        "SPC10", "error", "", "never fitted", "present", RECORDED, system("immobiliser: never fitted", "immobiliser"),
        "never fitted",
    ),
    Case(
        "SPC10", "error", "", "untouched", "removed complete", RECORDED,
        system("anti-lock: untouched", "anti-lock", OUT.replace("LEFT", "gone")), "untouched",
    ),
)  # fmt: skip
