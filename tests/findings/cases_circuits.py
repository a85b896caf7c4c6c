"""Cut ends, loads, grounds, fuses, drops: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case, planned

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
LENGTHENED = """
    job: Horn
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}
    fuses: {F1: {rating: 15 A, fed: always}}
    wires:
      W1: {colour: RD, size: 2.5 mm2, from: F1, to: horn.1, length: 1 m}
      W2: {colour: BN, size: 2.5 mm2, from: horn.2, to: battery-, length: 1 m}
    loads:
      horn: {between: horn.1 horn.2, draws: 8 A, class: horn} # <
    changes:
"""
DIM = """
    job: Work lamp
    supply: 13.5 V
    fuses: {F1: {rating: 20 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 9.0 m}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: battery-, length: 9 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 100 W at 12.8 V, class: lamp, light: filament} # <
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
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
FUEL = """
    job: Fuel
    fuses: {F1: {rating: 15 A, fed: always}}
    splices: {FS1: {}}
    switches: {inertia switch: {between: inertia.1 inertia.2, cuts fuel: CUTS}}
    wires:
      W1: {size: 1.5 mm2, from: F1, to: inertia.1}
      W2: {size: 1.5 mm2, from: inertia.2, to: pump.1}
      W3: {size: 1.5 mm2, from: pump.2, to: battery-}
    loads:
      pump: {between: pump.1 pump.2, class: fuel pump} # <
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
CARRIED = """
    job: No cluster
    modules: {unit: {}}
    loads:
      charge lamp:
        between: cluster.3 cluster.4
        carries: ROLE
        verdict: deleted # <
    changes:
      - {id: C1, kind: add, wire: W90, from: F3, to: alternator.D, piece: BU 1.0 mm2, cut: 300 mm}
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
        "END01", "error", "C1-W1-F1", "F1: uncapped", "F1: capped 30 mm", RECORDED,
        planned(LAMP + removed("W1", "F1: uncapped, lamp.1: gone")), "planned",
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
        "END05", "error", "C1-W2-FS1", "from: battery+", "from: F1", RECORDED,
        planned(WINCH.replace("FEED", "unknown") + removed("W2", "FS1: capped 30 mm, winch.1: gone")), "planned",
    ),
    Case(
        "END05", "stop", "C1-W2-FS1", "from: battery+", "from: F1", RECORDED,
        WINCH.replace("FEED", "unknown") + removed("W2", "FS1: taped, winch.1: gone"), "under tape",
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
        "END07", "error", "C1-W1-F1", "F1: taped", "F1: capped 30 mm", RECORDED,
        LAMP + removed("W1", "F1: taped, lamp.1: pulled"), "said of the end",
    ),
    Case(
        "END07", "error", "C1-W1-F1", "cloth tape", "adhesive sleeve 40 mm", RECORDED,
        LAMP + """
    changes:
      - {id: C1, kind: cap, wire: W1, end: F1, stub: 50 mm, far: gone, # <
         cover: cloth tape, made: 2031-05-03 AK}
    """, "a cap row",
    ),
    Case(
        "END08", "error", "C1", "lamp.1: gone", "lamp.1: pulled", RECORDED,
        LAMP + removed("W1", "F1: pulled, lamp.1: gone"), "a plug scrapped with one wire holds another",
    ),
    Case(
        "END08", "error", "C1", "handed over: 2031-05-20", "handed over: not yet", RECORDED,
        LAMP.replace("job: Lamp", "job: Lamp\n    handed over: 2031-05-20") + removed("W1", "F1: pulled, lamp.1: gone")
        + """
      - {id: C2, kind: remove, wire: W2, ends: {lamp.2: gone, G1: gone}}
    """, "a planned row mends it until the car is handed over",
    ),
    Case(
        "END08", "error", "lamp", "gone: yes", "gone: no", RECORDED,
        LAMP + """
    plugs:
      lamp:
        ways: 2
        gone: yes # <
    """ + removed("W1", "F1: pulled, lamp.1: pulled", mark=""), "a plug that left the car",
    ),
    Case(
        "END08", "error", "unit", "gone: yes", "gone: no", RECORDED,
        """
    job: Unit
    modules:
      unit:
        gone: yes # <
    wires: {W1: {size: 1.0 mm2, from: F1, to: unit.7}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """, "a module that left the car",
    ),
    Case(
        "END08", "error", "C1", "out: {7: lamp}", "out: {8: lamp}", RECORDED,
        """
    job: Unit
    modules: {unit: {out: {7: lamp}}}
    wires: {W1: {size: 1.0 mm2, from: unit.7, to: lamp.1}}
    """ + removed("W1", "unit.7: pulled, lamp.1: gone"), "a module's feed was drawn out",
    ),
    Case(
        "END08", "error", "C1", "ground: [31]", "ground: [30]", RECORDED,
        """
    job: Unit
    modules: {unit: {ground: [31]}}
    wires: {W1: {size: 1.0 mm2, from: unit.31, to: G1}}
    grounds: {G1: {}}
    """ + removed("W1", "unit.31: pulled, G1: gone"), "a module's ground was drawn out",
    ),
    Case(
        "END08", "error", "C1", "button.1 button.2", "button.3 button.2", RECORDED,
        """
    job: Button
    switches: {button: {between: button.1 button.2}}
    fuses: {F1: {rating: 10 A, fed: always}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: button.1}
      W2: {size: 1.0 mm2, from: button.2, to: horn.1}
    """ + removed("W1", "F1: pulled, button.1: pulled"), "a switch that is wired on its other side",
    ),
    Case(
        "END08", "error", "C1", "kind: remove", "only if: cab is closed\n    kind: remove", RECORDED,
        """
    job: Lamp
    options: {cab: unknown}
    loads: {lamp: {between: lamp.1 lamp.2}}
    wires:
      W1: {size: 1.0 mm2, from: FS1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: unknown}
    """ + removed("W1", "FS1: flush, lamp.1: pulled"), "a kept load; the twin's row is undecided",
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
        "LOD02", "error", "lamp", "verdict: deleted", "verdict: kept", RECORDED,
        LAMP + """
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, verdict: deleted} # <
    """ + removed("W2", "G1: gone, lamp.2: pulled", mark=""),
    ),
    Case(
        "LOD03", "stop", "lamp", "kind: remove", "only if: cab is closed\n    kind: remove", RECORDED,
        LAMP + """
    options: {cab: {is: open, could be: [closed]}}
    must work: [lamp]
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A} # <
    """ + removed("W1", "F1: pulled, lamp.1: pulled", mark=""), "no feed; the twin's row is for other cars",
    ),
    Case(
        "LOD03", "stop", "lamp", "must work: [lamp]", "must work: []", RECORDED,
        GROUNDED.replace("SAYS", "conducts: no").replace("job: Ground", "job: Ground\n    must work: [lamp]"),
        "its ground does not conduct",
    ),
    Case(
        "LOD03", "stop", "lamp", "verdict: deleted", "verdict: kept", RECORDED,
        LAMP + """
    must work: [lamp]
    loads:
      lamp:
        between: lamp.1 lamp.2
        verdict: deleted # <
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """, "deleted",
    ),
    Case(
        "LOD04", "stop", "pump", "fed: always", "fed: unknown", RECORDED,
        FUEL.replace("CUTS", "no"), "a switch that does not cut the fuel; in the twin the record stops at the fuse",
    ),
    Case(
        "LOD04", "stop", "pump", "from: FS1, to: pump.1", "from: FS1, to: horn.1", RECORDED,
        FUEL.replace("CUTS", "yes").replace("from: F1, to: inertia.1}", """from: F1, to: FS1}
      W4: {size: 1.5 mm2, from: FS1, to: inertia.1}
      W5: {size: 1.5 mm2, from: FS1, to: pump.1}"""), "a second way past the switch",
    ),
    Case(
        "LOD05", "error", "charge lamp", "cut: 300 mm", "takes over: [alternator excite]", RECORDED,
        CARRIED.replace("ROLE", "alternator excite"), "a row takes it over in the twin",
    ),
    Case(
        "LOD06", "error", "charge lamp", "unit: {}", "unit: {carries: immobiliser}", RECORDED,
        CARRIED.replace("ROLE", "immobiliser"), "another part carries it in the twin",
    ),
    Case(
        "LOD06", "error", "unit", "gone: yes", "gone: no", RECORDED,
        """
    job: Unit
    modules:
      unit:
        carries: bus termination
        gone: yes # <
    wires: {W1: {from: a.1, to: b.1}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """, "a module that left the car",
    ),
    Case(
        "LOD07", "error", "stop lamp", "must work: [stop lamp]", "must work: [lamp]", RECORDED,
        LAMP + """
    must work: [stop lamp] # <
    loads: {lamp: {between: lamp.1 lamp.2}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """,
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
      - {id: C2, kind: ground, wire: W2, end: G1, to: L1} # <
    """, "a ring that is only planned",
    ),
    Case(
        # above 5 A, the breaker of AC 43.13-1B for 22 AWG (read), nobody may let it stand
        "FUS01", "stop", "F1", "rating: 30 A", "rating: 3 A",
        "22 AWG, 0.32 mm2, counts as 0.35 mm2, 3 A (computed)",
        """
    job: Thin wire
    fuses:
      F1:
        fed: always
        rating: 30 A # <
    wires:
      W1: {size: 22 AWG, from: F1, to: lamp.1}
      W2: {size: 2.5 mm2, from: lamp.2, to: battery-}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 1 A}}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """, "thin wire",
    ),
    Case(
        "FUS01", "stop", "F1", "rating: 2 A", "rating: 1 A",
        "28 AWG, 0.08 mm2, is thinner than the smallest row, 0.13 mm2 for 1 A (computed)",
        """
    job: Thinner wire
    AWG means: ASTM B258
    fuses:
      F1:
        fed: always
        rating: 2 A # <
    wires:
      W1: {size: 28 AWG, from: F1, to: lamp.1}
      W2: {size: 2.5 mm2, from: lamp.2, to: battery-}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 0.1 A}}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """, "thinner than the table",
    ),
    Case(
        # PVC: 33 CFR 183.425 lets it carry 15 A (read), so a named person may let it stand
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
      W2: {size: 1.0 mm2, from: FS1, to: lamp.1, insulation: PVC}
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
        # the same pump stays on: 0.5 V at 14 V (12 V lies in that row); one that does not may lose 1.0 V
        "DRP01", "warning", "pump", "duty: continuous", "duty: intermittent",
        "AC 43.13-1B Table 11-6 (from memory, cross-checked)",
        PUMP + """
    drops held to: AC 43.13-1B
    loads:
      pump: {between: pump.1 pump.2, draws: 7 A, class: pump, duty: continuous} # <
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """,
        "by the other rule",
    ),
    Case(
        # 610 mm of 18.5 mohm/m come in, 10 mm of 7.6 go under the laps, two joints of 1 mohm: 13.209 mohm x 8 A is
        # 0.1057 V more than in the donor; with a gap of 540 mm 12.099 mohm and 0.0968 V
        "DRP02", "warning", "horn", "gap: 600 mm", "gap: 540 mm", "the table's own 0.1 V",
        LENGTHENED + """
      - {id: C1, kind: extend, wire: W1, plug: horn, pigtail: 100 mm, gap: 600 mm, piece: RD 1.0 mm2,
         made: 2031-05-03 AK}
    """,
    ),
    Case(
        "DRP02", "warning", "horn", "worse by: 0.1 V", "worse by: 0.11 V", "the job's own limit",
        LENGTHENED + """
      - {id: C1, kind: extend, wire: W1, plug: horn, pigtail: 100 mm, gap: 600 mm, piece: RD 1.0 mm2,
         made: 2031-05-03 AK}
    limits: {worse by: 0.1 V}
    """,
        "own limit",
    ),
    Case(
        # the donor's return is not recorded: its feed alone is compared, against the same wire
        "DRP02", "warning", "horn", "gap: 600 mm", "gap: 540 mm", "the table's own 0.1 V",
        LENGTHENED.replace("to: battery-", "to: G1")
        + """
      - {id: C1, kind: extend, wire: W1, plug: horn, pigtail: 100 mm, gap: 600 mm, piece: RD 1.0 mm2,
         made: 2031-05-03 AK}
    """,
        "feed alone",
    ),
    Case(
        # 85 % of 12.8 V is 10.88 V, so 2.62 V may be lost of 13.5 V. 18 m of 18.5 mohm/m, two cavities of 4 mohm and a
        # fuse of 3.38 mohm are 344.38 mohm: x 7.8125 A = 2.690 V; with 17.2 m 329.58 mohm and 2.575 V
        "DRP03", "warning", "lamp", "length: 9.0 m", "length: 8.2 m", "85 %: California 13 CCR 1249(c) (read)",
        DIM,
    ),
    Case(
        "DRP03", "warning", "lamp", "light: filament", "light: LED", "a rule of bulbs", DIM, "no filament",
    ),
    Case(
        "DRP03", "warning", "lamp", "draws: 100 W at 12.8 V", "draws: 7.8125 A", RECORDED, DIM,
        "design voltage not recorded",
    ),
    Case(
        "DRP03", "warning", "lamp", "lamp volts: 85 %", "lamp volts: 84 %", "the job's own limit",
        DIM + "    limits: {lamp volts: 85 %}\n", "own limit",  # 84 % of 12.8 V is 10.752 V; 10.81 V are there
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
    Case(
        # 125 % of 12 V is 15 V
        "HDR02", "warning", "", "supply: 15.1 V", "supply: 15 V", "flat battery to highest charging voltage, estimate",
        """
    job: Supply of another car
    system: 12 V
    supply: 15.1 V # <
    wires: {W1: {from: a.1, to: b.1}}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """,
    ),
)  # fmt: skip
