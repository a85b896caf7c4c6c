"""Cut ends, loads, grounds, fuses, drops: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case

RECORDED = "none: a recorded fact"

LAMP = """
    job: Lamp
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {G1: {conducts: yes, back to: battery-}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 2 m}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: G1, length: 1 m}
"""
SPLICED = """
    job: Three on a splice
    fuses: {F1: {rating: 10 A, fed: always}}
    splices: {FS1: {}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: FS1}
      W2: {colour: GN, size: 1.0 mm2, from: FS1, to: lamp.1}
      W3: {colour: GN, size: 1.0 mm2, from: FS1, to: horn.1}
"""
PUMP = """
    job: Pump
    supply: 12 V
    fuses: {F1: {rating: 10 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1.5 mm2, from: F1, to: pump.1, length: 3 m}
      W2: {colour: BN, size: 1.5 mm2, from: pump.2, to: battery-, length: 3 m}
"""


WINCH = """
    job: Winch
    fuses: {F1: {rating: 40 A, fed: always}}
    splices: {FS1: {}}
    wires:
      W0: {size: 6 mm2, from: FEED, to: F1.feed}
      W1: {size: 6 mm2, from: battery+, to: FS1}
      W2: {size: 6 mm2, from: FS1, to: winch.1}
      W3: {size: 6 mm2, from: FS1, to: pump.1}
"""
GROUNDED = """
    job: Ground
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {G1: {SAYS, bolted to: wing, back to: battery-}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: G1}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A} # <
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
"""


def removed(wire: str, fates: str, mark: str = " # <") -> str:
    return f"""
    changes:
      - id: C1{mark}
        kind: remove
        wires: {{{wire}: {{{fates}}}}}
        made: 2031-05-03 AK
    """


CASES = (
    Case(
        "END01", "stop", "C1-W1-F1", "F1: uncapped", "F1: capped 30 mm", RECORDED,
        LAMP + removed("W1", "F1: uncapped, lamp.1: gone"),
    ),
    Case(
        "END01", "stop", "C1-W3-FS1", "from: F1, to: FS1", "from: unknown, to: FS1", RECORDED,
        SPLICED + removed("W3", "FS1: uncapped, horn.1: gone"), "through a splice",
    ),
    Case(
        "END02", "error", "C1-W1-lamp.1", "lamp.1: uncapped", "lamp.1: capped 30 mm", RECORDED,
        LAMP + removed("W1", "F1: pulled, lamp.1: uncapped"),
    ),
    Case(
        "END03", "error", "C1-W1-F1", "{lamp.1: gone}", "{F1: unknown, lamp.1: gone}", RECORDED,
        LAMP + removed("W1", "lamp.1: gone"),
    ),
    Case(
        "END01", "stop", "C1-W1-F1", "cover: none", "cover: adhesive sleeve 40 mm", RECORDED,
        LAMP + """
    changes:
      - {id: C1, kind: cap, wire: W1, end: F1, stub: 50 mm, far: gone, # <
         cover: none, made: 2031-05-03 AK}
    """, "a stub left bare",
    ),
    Case(
        "END04", "error", "C1-W3-FS1", "{horn.1: gone}", "{FS1: flush, horn.1: gone}", RECORDED,
        SPLICED + removed("W3", "horn.1: gone"),
    ),
    Case(
        "END05", "stop", "C1-W2-FS1", "from: battery+", "from: F1", RECORDED,
        WINCH.replace("FEED", "unknown") + removed("W2", "FS1: capped 30 mm, winch.1: gone"), "no fuse at all",
    ),
    Case(
        "END05", "stop", "C1-W2-FS1", "from: battery+, to: FS1", "from: F1, to: FS1", RECORDED,
        WINCH.replace("FEED", "battery+") + removed("W2", "FS1: capped 30 mm, winch.1: gone"), "round the fuse",
    ),
    Case(
        # the way through the fuse is the shorter of the two
        "END05", "stop", "C1-W2-FS1", "from: FS2, to: FS1", "from: FS2, to: horn.1", RECORDED,
        WINCH.replace("FEED", "battery+").replace("from: battery+, to: FS1", "from: F1, to: FS1")
        .replace("splices: {", "splices: {FS2: {}, FS3: {}, FS4: {}, ")
        .replace("      W3", """      W5: {size: 6 mm2, from: battery+, to: FS4}
      W6: {size: 6 mm2, from: FS4, to: FS3}
      W7: {size: 6 mm2, from: FS3, to: FS2}
      W8: {size: 6 mm2, from: FS2, to: FS1}
      W3""") + removed("W2", "FS1: capped 30 mm, winch.1: gone"), "past the fuse as well",
    ),
    Case(
        "LOD01", "stop", "lamp", "draws: 2 A", "draws: 2 A, verdict: deleted", RECORDED,
        LAMP + """
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A} # <
    """ + removed("W1", "F1: pulled, lamp.1: pulled", mark=""), "feed",
    ),
    Case(
        "LOD01", "stop", "lamp", "kind: remove", "only if: cab is closed\n    kind: remove", RECORDED,
        LAMP + """
    options: {cab: unknown}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A} # <
    """ + removed("W2", "G1: gone, lamp.2: pulled", mark=""), "return; the twin's row is undecided",
    ),
    Case(
        "LOD02", "warning", "lamp", "verdict: deleted", "verdict: kept", RECORDED,
        LAMP + """
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, verdict: deleted} # <
    """ + removed("W2", "G1: gone, lamp.2: pulled", mark=""),
    ),
    Case(
        "GND01", "stop", "lamp", "conducts: no", "conducts: unknown", RECORDED,
        GROUNDED.replace("SAYS", "conducts: no"), "does not conduct",
    ),
    Case(
        "GND01", "stop", "lamp", "gone: yes", "gone: no", RECORDED,
        GROUNDED.replace("SAYS", "gone: yes"), "gone",
    ),
    Case(
        "GND02", "error", "L1", "ring: new", "ring: with C4", "4 rings on a stud: AC 43.13-1B para 11-174b (read)",
        """
    job: Ring upon ring
    grounds: {L1: {stud: M6, back to: battery-}}
    wires:
      W1: {from: a.1, to: G1}
      W2: {from: b.1, to: G1}
      W3: {from: c.1, to: G1}
      W4: {from: d.1, to: G1}
      W5: {from: e.1, to: G1}
    changes:
      - {id: C1, kind: ground, wire: W1, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C2, kind: ground, wire: W2, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C3, kind: ground, wire: W3, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C4, kind: ground, wire: W4, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C5, kind: ground, wire: W5, end: G1, to: L1, ring: new, made: 2031-05-03 AK} # <
    """,
    ),
    Case(
        "GND02", "error", "L1", "rings per stud: 1", "rings per stud: 2", "the job's own limit",
        """
    job: A stud for one
    limits: {rings per stud: 1}
    grounds: {L1: {stud: M6, back to: battery-}}
    wires:
      W1: {from: a.1, to: G1}
      W2: {from: b.1, to: G1}
    changes:
      - {id: C1, kind: ground, wire: W1, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C2, kind: ground, wire: W2, end: G1, to: L1, made: 2031-05-03 AK} # <
    """, "the job's own limit",
    ),
    Case(
        "FUS01", "error", "F1", "rating: 15 A", "rating: 10 A",
        "1.0 mm2 is planned for 10 A (planning value, estimate)",
        """
    job: Fuse
    fuses:
      F1:
        fed: always
        rating: 15 A # <
    splices: {FS1: {}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: FS1}
      W2: {size: 1.0 mm2, from: FS1, to: lamp.1}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """,
    ),
    Case(
        # 2 x 3 m x 12.7 mohm/m x 7 A = 0.533 V; 3 % of 12 V is 0.36 V, 10 % is 1.2 V
        "DRP01", "warning", "pump", "class: pump", "class: motor", "3 % and 10 % of supply: ABYC E-11 (read)",
        PUMP + """
    loads:
      pump: {between: pump.1 pump.2, draws: 7 A, class: pump} # <
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """,
    ),
    Case(
        "HDR01", "error", "", "ground side: positive", "ground side: negative", RECORDED,
        """
    job: Positive ground
    ground side: positive # <
    wires: {W1: {from: a.1, to: b.1}}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """,
    ),
)  # fmt: skip
