"""Fuses: feeding nothing, missing, too near the load's current, far from the source, in no table, never drawn."""

from __future__ import annotations

from tests.findings.cases_circuits import RECORDED
from tests.findings.jobs import Case, planned

LOCK = """
    job: Door lock
    fuses:
      F4: {rating: 15 A, fed: always} # <
    splices: {FS1: {all members known: yes}}
    wires:
      W1: {size: 1.0 mm2, from: F4, to: door-lock.1}
    changes:
      - {id: C1, kind: remove, wire: W1, ends: {F4: LEFT, door-lock.1: gone}, made: 2031-05-03 AK}
"""
STARTER = """
    job: Starter
    splices: {B1: {}}
    wires:
      W1: {size: 25 mm2, from: battery+, to: B1}
      W2: {size: 25 mm2, from: B1, to: starter.30}
      W3: {size: 25 mm2, from: starter.31, to: battery-}
    loads:
      starter:
        class: starter
        between: starter.30 starter.31
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
HEAVY = STARTER.replace("class: starter", "class: motor").replace("starter:\n", "starter: # <\n")
FANS = """
    job: Two fans
    fuses:
      F6: {rating: 10 A, fed: ignition} # <
    splices: {FS1: {}}
    wires:
      W1: {size: 1.5 mm2, from: F6, to: FS1}
      W2: {size: 1.5 mm2, from: FS1, to: fan.1}
      W3: {size: 1.5 mm2, from: FS1, to: seat.1}
      W4: {size: 1.5 mm2, from: fan.2, to: battery-}
      W5: {size: 1.5 mm2, from: seat.2, to: battery-}
    loads:
      fan: {between: fan.1 fan.2, draws: 5 A, duty: continuous}
      seat: {between: seat.1 seat.2, draws: 3.1 A, duty: continuous}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
RADIO = """
    job: Radio
    fuses:
      F12: {rating: 10 A} # <
    splices: {B1: {}}
    wires:
      W1: {size: 16 mm2, from: battery+, to: B1, length: 250 mm}
      W2: {size: 6 mm2, from: B1, to: F12.feed, length: 60 mm}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
HORN = """
    job: Horn
    fuses: # <
      F1: {rating: 10 A, fed: always}
    grounds: {G1: {back to: battery-}, L1: {back to: battery-, surface: bare metal}}
    loads: {horn: {between: horn.1 horn.2}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: horn.1}
      W2: {size: 1.0 mm2, from: horn.2, to: G1}
    changes:
      - {id: C1, kind: ground, wire: W2, end: G1, to: L1, made: 2031-05-03 AK}
      - {id: C2, kind: verify, proves: [C1], made: 2031-05-04 AK}
"""

TRAILER = """
    job: Trailer
    fuses:
      F3: {rating: 15 A, fed: always}
      F19: {rating: 15 A} # <
    splices: {FS1: {}}
    wires:
      W1: {size: 2.5 mm2, from: F3, to: FS1}
      W2: {size: 1.5 mm2, from: FS1, to: tail.1}
      W3: {size: 1.5 mm2, from: FS1, to: F19.feed}
      W4: {size: 1.5 mm2, from: F19, to: trailer.1}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
KNIFE = """
    job: A switch across the battery
    switches: {knife: {between: knife.1 knife.2, at rest: REST}}
    wires:
      W1: {size: 1.5 mm2, from: battery+, to: knife.1}
      W2: {size: 1.5 mm2, from: knife.2, to: battery-} # <
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
RATED = "what is moulded on the fuse"
SELECTIVE = "a feeder is above its branches (common practice, no source)"

SHARE = "80 % of the fuse: body-builder guides, load x 1.25 (read)"
NEAR = "300 mm of unprotected wire (common practice, no source)"

CASES = (
    Case(
        "FUS02", "warning", "F4", "made: 2031-05-03 AK}", "spare: [F4], made: 2031-05-03 AK}", RECORDED,
        LOCK.replace("LEFT", "pulled"), "nothing hangs on it",
    ),
    Case(
        "FUS02", "warning", "F4", "F4: capped 30 mm", "F4: unknown", RECORDED,
        LOCK.replace("LEFT", "capped 30 mm"), "a capped end; in the twin nobody looked",
    ),
    Case(
        "FUS02", "warning", "F4", "all members known: yes", "all members known: no", RECORDED,
        LOCK.replace("LEFT", "pulled").replace("      W1:", "      W2: {size: 1.0 mm2, from: F4, to: FS1}\n      W1:"),
        "a factory splice with nothing else in it",
    ),
    Case(
        "FUS03", "stop", "starter", "from: battery+", "from: F1.feed", RECORDED,
        HEAVY, "joined to the battery",
    ),
    Case(
        "FUS03", "stop", "starter", "size: 25 mm2, from: B1", "special: fusible link, from: B1", RECORDED,
        HEAVY, "the twin has a fusible link",
    ),
    Case(
        "FUS03", "stop", "starter", "special: none", "special: fusible link", RECORDED,
        HEAVY.replace(
            "    changes: [", "    changes:\n      - {id: C2, kind: add, wire: K1, from: battery+, to: B1, "
            "piece: BK 16 mm2, cut: 300 mm, special: none, made: 2031-05-03 AK}\n      - ").replace("AK}]", "AK}")
        .replace("      W1: {size: 25 mm2, from: battery+, to: B1}\n", ""),
        "the twin has a fusible link put in by a row",
    ),
    Case(
        "FUS03", "error", "starter", "special: none", "special: fusible link", RECORDED,
        planned(
            HEAVY.replace(
                "    changes: [", "    changes:\n      - {id: C2, kind: add, wire: K1, from: battery+, to: B1, "
                "piece: BK 16 mm2, cut: 300 mm, special: none, made: 2031-05-03 AK}\n      - ").replace("AK}]", "AK}")
            .replace("      W1: {size: 25 mm2, from: battery+, to: B1}\n", "")
        ), "planned",
    ),
    Case(
        # the way through the fuse is the shorter one
        "FUS03", "stop", "starter", "from: FS1, to: B1", "from: FS1, to: horn.1", RECORDED,
        HEAVY.replace("from: battery+, to: B1", "from: F1, to: B1")
        .replace("splices: {B1: {}}", "fuses: {F1: {fed: always}}")
        .replace("      W3:", """      W4: {size: 25 mm2, from: battery+, to: FS2}
      W5: {size: 25 mm2, from: FS2, to: FS1}
      W6: {size: 25 mm2, from: FS1, to: B1}
      W3:"""), "past the fuse as well",
    ),
    Case(
        "FUS03", "note", "starter", "from: battery+", "from: F1.feed", RECORDED,
        STARTER.replace("between: starter.30 starter.31", "between: starter.30 starter.31\n        "
                        "unfused: main feed as the maker ran it # <"), "said to be on purpose",
    ),
    Case(
        # 5 A + 3.1 A = 8.1 A of 10 A; with 3 A it is 8.0 A, which is allowed
        "FUS04", "warning", "F6", "draws: 3.1 A", "draws: 3 A", SHARE, FANS,
    ),
    Case("FUS04", "warning", "F6", "draws: 3.1 A, duty: continuous", "draws: 3.1 A", SHARE, FANS, "duty not recorded"),
    Case(
        # 250 mm + 60 mm = 310 mm; with 50 mm it is 300 mm, which is allowed
        "FUS05", "error", "F12", "length: 60 mm", "length: 50 mm", NEAR, RADIO,
    ),
    Case(
        # of a main feed, from 6 mm2 on, a named person may let more stand; of thinner wire nobody may
        "FUS05", "stop", "F12", "length: 60 mm", "length: 50 mm", NEAR,
        RADIO.replace("6 mm2, from: B1", "4 mm2, from: B1"), "no main feed",
    ),
    Case("FUS05", "error", "F12", "B1: {}", "B1: {bus: yes}", NEAR, RADIO, "measured from the bus bar in the twin"),
    Case("FUS05", "error", "F12", "length: 250 mm", "length: unknown", NEAR, RADIO, "a length that is not recorded"),
    Case(
        "FUS05", "error", "F12", "size: 16 mm2", "special: fusible link, size: 16 mm2", NEAR, RADIO,
        "a fusible link",
    ),
    Case(
        "FUS06", "error", "C1", "fuses: {}", "fuses: {F16: {}}", RECORDED,
        """
    job: New fuse
    fuses: {}
    changes:
      - id: C1
        kind: protect
        fuse: F16 # <
        rating: 10 A
        made: 2031-05-03 AK
    """, "a fuse of a row",
    ),
    Case(
        "FUS06", "error", "C1", "switches: {}", "switches: {K3: {between: K3.30 K3.87}}", RECORDED,
        """
    job: New relay
    switches: {}
    changes:
      - id: C1
        kind: protect
        relay: K3 # <
        made: 2031-05-03 AK
    """, "a relay of a row",
    ),
    Case(
        "FUS06", "error", "W1", "fuses: {}", "fuses: {F16: {}}", RECORDED,
        """
    job: A feed
    fuses: {}
    wires:
      W1: {size: 1.0 mm2, from: battery+, to: F16.feed} # <
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """, "the end of a wire",
    ),
    Case("FUS07", "warning", "", "proves: [C1],", "proves: [C1], dead without: [F1],", RECORDED, HORN),
    Case(
        "FUS07", "warning", "", "made: 2031-05-04 AK", "note: still to do", RECORDED, HORN,
        "not before the car is proved",
    ),
    Case(
        "FUS07", "warning", "", "handed over: 2031-05-20", "handed over: not yet", RECORDED,
        HORN.replace("job: Horn", "job: Horn\n    handed over: 2031-05-20").replace(", made: 2031-05-04 AK", ""),
        "handed over",
    ),
    Case(
        "FUS07", "warning", "", "end: G1, to: L1,", "only if: cab is open, end: G1, to: L1,", RECORDED,
        HORN.replace("job: Horn", "job: Horn\n    options: {cab: unknown}"), "nothing changed in the twin",
    ),
    Case("FUS08", "warning", "F19", "F19: {rating: 15 A}", "F19: {rating: 10 A}", SELECTIVE, TRAILER, "as large"),
    Case(
        "FUS08", "warning", "F19", "F19: {rating: 20 A}", "F19: {rating: unknown}", SELECTIVE,
        TRAILER.replace("F19: {rating: 15 A}", "F19: {rating: 20 A}"), "larger; in the twin nobody read it",
    ),
    Case(
        "FUS08", "warning", "F19", "from: FS1, to: F19.feed", "from: battery+, to: F19.feed", SELECTIVE, TRAILER,
        "fed straight from the battery in the twin",
    ),
    Case(
        "FUS08", "warning", "F19", "W2: {size: 1.5 mm2, from: FS1, to: tail.1}",
        "W2: {size: 1.5 mm2, from: FS1, to: battery+}", SELECTIVE, TRAILER, "reached past the feeder too",
    ),
    Case(
        "FUS09", "error", "F6", "draws: 10.1 A", "draws: 10 A", RATED,
        FANS.replace("5 A, duty: continuous", "10.1 A").replace(", draws: 3.1 A, duty: continuous", ""), "one alone",
    ),
    Case(
        "FUS09", "warning", "F6", "draws: 6 A", "draws: 4 A", RATED,
        FANS.replace("5 A, duty: continuous", "6 A").replace("3.1 A, duty: continuous", "5 A"), "two together",
    ),
    Case(
        "FUS09", "warning", "F6", "draws: 5 A}", "draws: 5 A, not with: fan}", RATED,
        FANS.replace("5 A, duty: continuous", "6 A").replace("3.1 A, duty: continuous", "5 A"),
        "never on together in the twin",
    ),
    Case(
        "FUS10", "stop", "F1", "from: FS1, to: L1}", "from: FS1, to: unknown}", RECORDED,
        """
    job: A feed on the frame
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {L1: {stud: M6}}
    splices: {FS1: {}}
    wires:
      W1: {size: 1.5 mm2, from: F1, to: FS1}
      W2: {size: 1.5 mm2, from: FS1, to: lamp.1}
      W3: {size: 1.5 mm2, from: lamp.2, to: L1}
      W4: {size: 1.5 mm2, from: FS1, to: L1} # <
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """, "by a wire",
    ),
    Case(
        "FUS10", "error", "F1", "from: FS1, to: L1,", "from: FS1, to: unknown,", RECORDED,
        planned("""
    job: A feed on the frame
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {L1: {stud: M6}}
    splices: {FS1: {}}
    wires:
      W1: {size: 1.5 mm2, from: F1, to: FS1}
    changes:
      - {id: C1, kind: add, wire: W4, from: FS1, to: L1, piece: BU 1.5 mm2, cut: 300 mm, made: 2031-05-03 AK} # <
    """), "planned",
    ),
    Case(
        "FUS10", "stop", "battery+", "to: battery-}", "to: unknown}", RECORDED, KNIFE.replace("REST", "closed"),
        "by a switch that is closed at rest",
    ),
    Case(
        # it is there to be closed
        "FUS10", "stop", "battery+", "to: battery-}", "to: unknown}", RECORDED, KNIFE.replace("REST", "open"),
        "by a switch that is open at rest",
    ),
)  # fmt: skip
