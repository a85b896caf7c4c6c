"""Rows that cannot be so, dates, options, names: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

import datetime

from tests.findings.jobs import Case

RECORDED = "none: a recorded fact"

HEAD = """
    job: Rows
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    options: {heater: {is: diesel, could be: [electric]}}
    splices: {FS40: {}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: FS40, length: 900 mm}
      W3: {colour: BN, size: 1.0 mm2, from: horn.2, to: FS40, length: 900 mm}
    changes:
"""
EXTENDED = (
    HEAD
    + """
      - id: C1
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
"""
)
CAPPED = (
    HEAD
    + """
      - id: C1
        kind: cap
        wire: W1
        end: F1
        stub: 40 mm
        far: gone
"""
)
TWO = (
    CAPPED
    + """
        made: 2031-05-03 AK
      - id: C2
        kind: cap
        wire: W2
        end: FS40
        stub: 40 mm
        far: gone
        made: 2031-05-04 AK
"""
)


def marked(text: str, line: str) -> str:
    assert text.count(line) == 1
    return text.replace(line, line + " # <")


CASES = (
    Case(
        "ROW01", "error", "C1", "pigtail: 900 mm", "pigtail: 899 mm", "the stretch is 900 mm long",
        marked(EXTENDED.replace("200 mm", "900 mm"), "pigtail: 900 mm"),
    ),
    Case(
        "ROW01", "error", "C1", "stub: 900 mm", "stub: 899 mm", "the stretch is 900 mm long",
        marked(CAPPED.replace("40 mm\n        far", "900 mm\n        far"), "stub: 900 mm"), "cap",
    ),
    Case("ROW02", "error", "C1", "wire: W9", "wire: W1", RECORDED,
         marked(CAPPED.replace("wire: W1", "wire: W9"), "wire: W9")),
    Case("ROW03", "error", "C1", "end: F2", "end: F1", RECORDED,
         marked(CAPPED.replace("end: F1", "end: F2"), "end: F2")),
    Case("ROW03", "error", "C1", "plug: horn", "plug: lamp", RECORDED,
         marked(EXTENDED.replace("plug: lamp", "plug: horn"), "plug: horn"), "plug"),
    Case(
        "ROW04", "note", "C3", "stub: 900 mm", "stub: 400 mm", RECORDED,
        HEAD + """
      - {id: C1, kind: cap, wire: W2, end: FS40, stub: 900 mm, far: gone}
      - {id: C3, kind: join, ends: [C1-W2-FS40, W1 at F1]} # <
    """,
    ),
    Case("ROW05", "error", "C1", "id: C1 # <", "id: C2", RECORDED, TWO.replace("id: C2", "id: C1 # <")),
    Case(
        "ROW06", "error", "C1", "is electric", "is not electric", RECORDED,
        CAPPED + """
        only if: heater is electric # <
        made: 2031-05-03 AK
    """,
    ),
    Case("ROW07", "error", "C1", "gearbox is", "heater is", RECORDED, CAPPED + """
        only if: gearbox is electric # <
    """, "option"),
    Case("ROW07", "error", "C1", "is petrol", "is electric", RECORDED, CAPPED + """
        only if: heater is petrol # <
    """, "value"),
    Case("ROW08", "error", "C1", "made: 2031-05-03", "made: 2031-05-02", RECORDED, CAPPED + """
        made: 2031-05-03 AK
        sealed: 2031-05-02 AK # <
    """, "sealed before made"),
    Case("ROW08", "error", "C1", "tested: 2031-05-02", "made: 2031-05-02", RECORDED, CAPPED + """
        tested: 2031-05-02 AK # <
    """, "tested, not made"),
    Case(
        "ROW09", "error", "C2", "made: 2031-05-02", "made: 2031-05-03", RECORDED,
        HEAD + """
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, made: 2031-05-03 AK}
      - id: C2
        kind: cap
        wire: W1
        end: F1
        stub: 40 mm
        made: 2031-05-02 AK # <
    """, "on one wire",
    ),
    Case(
        "ROW09", "error", "C2", "note: none", "corrects: C1", RECORDED,
        HEAD + """
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, made: 2031-05-03 AK}
      - id: C2
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 100 mm
        gap: 400 mm
        note: none
        made: 2031-05-02 AK # <
    """, "twin: a correction says when it really was",
    ),
    Case(
        "ROW09", "note", "C2", "made: 2031-05-02", "made: 2031-05-03", RECORDED,
        marked(TWO.replace("2031-05-04", "2031-05-02"), "made: 2031-05-02 AK"), "on two wires",
    ),
    Case("ROW10", "error", "C2", "corrects: C2", "corrects: C1", RECORDED, TWO + """
        corrects: C2 # <
    """, "itself"),
    Case("ROW10", "error", "C2", "corrects: C7", "corrects: C1", RECORDED, TWO + """
        corrects: C7 # <
    """, "no such row"),
    Case("ROW10", "error", "C3", "redoes: C1 # <", "redoes: C2", RECORDED, TWO + """
        redoes: C1
      - id: C3
        kind: cap
        wire: W3
        end: FS40
        stub: 40 mm
        far: gone
        redoes: C1 # <
        made: 2031-05-05 AK
    """, "redone twice"),
    Case("ROW10", "error", "C1", "redoes: C2", "note: as C2", RECORDED, HEAD + """
      - id: C1
        kind: cap
        wire: W1
        end: F1
        stub: 90 mm
        far: gone
        redoes: C2 # <
        made: 2031-05-03 AK
      - {id: C2, kind: cap, wire: W2, end: FS40, stub: 40 mm, far: gone, made: 2031-05-04 AK}
    """, "redone before it was done"),
    Case(
        "ROW11", "error", "C2", "redoes: C1", "note: C1", RECORDED,
        HEAD + """
      - {id: C1, kind: cap, wire: W1, end: F1, stub: 40 mm, far: gone, made: 2031-05-03 AK}
      - id: C2
        kind: join
        ends: [C1-W1-F1, W2 at lamp.2] # <
        made: 2031-05-04 AK
      - {id: C3, kind: cap, wire: W1, end: F1, stub: 90 mm, far: gone, redoes: C1, made: 2031-05-05 AK}
    """,
    ),
    Case(
        "ROW12", "warning", "C1", "made: 2031-05-04", "made: 2031-05-03", "the day of the build",
        CAPPED + """
        made: 2031-05-04 AK # <
    """, today=datetime.date(2031, 5, 3),
    ),
    Case(
        "REF01", "note", "FS41", "to: FS41", "to: FS40", "likeness of the two names", marked(
            CAPPED.replace("horn.2, to: FS40, length: 900 mm}", "horn.2, to: FS41, length: 900 mm}"),
            "horn.2, to: FS41, length: 900 mm}"),
    ),
    Case("REF02", "error", "C1", "photos: [P2]", "photos: [P1]", RECORDED, CAPPED + """
        photos: [P2] # <
    photos: [{id: P1, file: photos/a.jpg}]
    """, "photo of a row"),
    Case("REF02", "error", "P1", "shows: [C2]", "shows: [C1]", RECORDED, CAPPED + """
    photos:
      - id: P1
        file: photos/a.jpg
        shows: [C2] # <
    """, "shown by a photo"),
    Case("REF02", "error", "P1", "of: lampp", "of: lamp.1", RECORDED, EXTENDED + """
    photos:
      - id: P1
        file: photos/a.jpg
        marks:
          - label: [0.5, 0.5]
            of: lampp # <
    """, "mark"),
    Case("REF02", "error", "R1", "of: C2", "of: C1", RECORDED, CAPPED + """
    readings:
      - id: R1
        of: C2 # <
        read: 0.06 V
    """, "reading"),
    Case("REF02", "error", "R1", "loads on: lampp", "loads on: lamp", RECORDED, CAPPED + """
    loads: {lamp: {between: lamp.1 lamp.2, feed: not examined, return: not examined}}
    readings:
      - id: R1
        loads on: lampp # <
        read: 0.06 V
    """, "what a reading was taken with"),
    Case("REF02", "error", "C2", "proves: [C3]", "proves: [C1]", RECORDED, CAPPED + """
      - id: C2
        kind: verify
        proves: [C3] # <
    """, "proof"),
    Case("REF02", "error", "S1", "rows: [C2]", "rows: [C1]", RECORDED, CAPPED + """
    service:
      - id: S1
        on: 2031-05-20 AK
        complaint: siren dead
        rows: [C2] # <
    """, "visit"),
    Case("REF02", "error", "horn", "not with: [horm]", "not with: [bell]", RECORDED, CAPPED + """
    loads:
      bell: {between: bell.1 bell.2}
      horn:
        between: horn.1 horn.2
        not with: [horm] # <
    """, "load never on with another"),
    Case("REF02", "error", "K1", "worked by: K1 koil", "worked by: K1 coil", RECORDED, CAPPED + """
    loads: {K1 coil: {between: K1.86 K1.85}}
    switches:
      K1:
        between: K1.30 K1.87
        worked by: K1 koil # <
    """, "coil of a contact"),
    Case("REF02", "error", "L8", "back to: L99", "back to: unknown", RECORDED, CAPPED + """
    grounds:
      L8:
        cable: 10 mm2
        back to: L99 # <
    """, "way back of a ground point"),
    Case("REF03", "error", "P1", "id: P1 # <", "id: P2", RECORDED, CAPPED + """
    photos:
      - {id: P1, file: photos/a.jpg}
      - file: photos/b.jpg
        id: P1 # <
    """),
    Case("REF03", "error", "R1", "id: R1 # <", "id: R2", RECORDED, CAPPED + """
    readings:
      - {id: R1, of: C1, read: 0.1 V}
      - of: C1
        read: 0.2 V
        id: R1 # <
    """, "reading"),
    Case("REF03", "error", "S1", "id: S1 # <", "id: S2", RECORDED, CAPPED + """
    service:
      - {id: S1, on: 2031-05-20 AK, complaint: siren dead}
      - on: 2031-05-21 AK
        complaint: siren dead again
        id: S1 # <
    """, "visit"),
    Case("REF03", "error", "C1", "id: C1 # <", "id: R1", RECORDED, CAPPED + """
    readings:
      - of: lamp.1
        read: 0.2 V
        id: C1 # <
    """, "a reading with the id of a row"),
    Case("REF03", "error", "C2", "reclaimed: {O1: BN", "reclaimed: {O2: BN", RECORDED, HEAD + """
      - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, lamp.1: gone}, reclaimed: {O1: GN 600 mm}}
      - id: C2
        kind: remove
        wire: W3
        ends: {horn.2: gone, FS40: flush}
        reclaimed: {O1: BN 800 mm} # <
    """, "offcuts of two rows"),
    Case("REF02", "error", "L7", "of: L7", "of: C1-W1-F1", RECORDED, CAPPED.replace("far: gone", "far: uncapped") + """
    accepted:
      - finding: END04
        of: L7 # <
        by: AK
        why: seen
    """, "accepted at nothing"),
    # ---- rows that lead back to themselves ---------------------------------------------------------------------------
    Case("ROW10", "error", "C2", "redoes: C2 # <", "redoes: C1", RECORDED, TWO + """
        redoes: C2 # <
    """, "redoes itself"),
    # ---- days that cannot be -----------------------------------------------------------------------------------------
    Case(
        "ROW14", "warning", "C1", "tested: 2031-06-02", "tested: 2031-06-01", "the day of the build",
        CAPPED + """
        made: 2031-05-04 AK
        tested: 2031-06-02 AK # <
    """, "tested tomorrow",
    ),
    Case(
        "ROW14", "warning", "C1", "sealed: 2301-05-04", "sealed: 2031-05-04", "the day of the build",
        CAPPED + """
        made: 2031-05-04 AK
        sealed: 2301-05-04 AK # <
    """, "sealed in another century",
    ),
    Case(
        "ROW14", "warning", "C1", "made: 1899-12-31", "made: 1900-01-01", "1900",
        CAPPED + """
        made: 1899-12-31 AK # <
    """, "made before 1900",
    ),
    Case(
        "ROW14", "warning", "S1", "on: 2131-05-20", "on: 2031-05-20", "the day of the build",
        CAPPED + """
    service:
      - id: S1
        on: 2131-05-20 AK # <
        complaint: siren dead
    """, "a visit",
    ),
    Case(
        "ROW14", "warning", "", "handed over: 2131-05-20", "handed over: 2031-05-20", "the day of the build",
        CAPPED.replace("splices:", "handed over: 2131-05-20 # <\n    splices:"), "the hand-over",
    ),
    Case(
        "ROW14", "warning", "", "{A: 0203-05-20}", "{A: 2031-05-20}", "1900",
        CAPPED.replace("splices:", "revisions: {A: 0203-05-20} # <\n    splices:"), "a revision",
    ),
    Case(
        "ROW14", "warning", "", "[2131-05-20 AK]", "[2031-05-20 AK]", "the day of the build",
        CAPPED.replace("splices:", "battery off: [2131-05-20 AK] # <\n    splices:"), "the battery",
    ),
    Case(
        "ROW14", "warning", "L1", "painted: 2131-05-20", "painted: 2031-05-20", "the day of the build",
        CAPPED + """
    grounds:
      L1:
        back to: battery-
        painted: 2131-05-20 # <
    """, "a painted stud",
    ),
    # ---- described twice ---------------------------------------------------------------------------------------------
    Case("ROW15", "warning", "C1", "GN 1.5 mm2, F1", "GN 1.0 mm2, F1", RECORDED, CAPPED + """
        was: GN 1.5 mm2, F1 to lamp.1, 900 mm # <
    """, "another size under wires"),
    Case("ROW15", "warning", "C1", "lamp.1 to F2", "lamp.1 to F1", RECORDED, CAPPED + """
        was: GN 1.0 mm2, lamp.1 to F2, 900 mm # <
    """, "another end under wires"),
    Case("ROW15", "warning", "C1", "was: GN 1.0 mm2, F8", "was: BU 1.0 mm2, F8", RECORDED,
         CAPPED.replace("wire: W1", "wire: W8").replace("end: F1", "end: F8") + """
        was: GN 1.0 mm2, F8 to bell.1, 900 mm # <
      - {id: C2, kind: cap, wire: W8, was: "BU 1.0 mm2, F8 to bell.1, 900 mm", end: bell.1, stub: 40 mm, far: gone}
    """, "another colour on a later row"),
    Case("ROW15", "warning", "C1", "note: C1", "corrects: C1", RECORDED,
         CAPPED.replace("wire: W1", "wire: W8").replace("end: F1", "end: F8") + """
        was: GN 1.0 mm2, F8 to bell.1, 900 mm # <
      - {id: C2, kind: cap, wire: W8, was: "BU 1.0 mm2, F8 to bell.1, 900 mm", end: F8, stub: 40 mm, far: gone,
         note: C1}
    """, "twin: corrected"),
    # ---- findings let stand ------------------------------------------------------------------------------------------
    Case("ACC01", "warning", "", "finding: END00", "finding: END04", "the codes of the program", CAPPED + """
    accepted:
      - finding: END00 # <
        by: AK
        why: seen
    """, "no such code"),
    Case("ACC01", "warning", "C1", "finding: end04", "finding: END04", "the codes of the program", CAPPED + """
        accepted:
          - finding: end04 # <
            by: AK
            why: seen
    """, "small letters"),
    Case("ACC01", "warning", "", "finding: VAL04", "finding: END04", "the codes of the program", CAPPED + """
    accepted:
      - finding: VAL04 # <
        by: AK
        why: seen
    """, "a fault of the file"),
    Case("ACC02", "note", "C1", "note: found so", "corrects: C9", RECORDED, CAPPED + """
        note: found so
        accepted:
          - finding: ROW10 # <
            by: AK
            why: seen
    """, "on a row"),
    Case("ACC02", "note", "lamp.1", "of: lamp.1", "of: C1", RECORDED, CAPPED + """
        corrects: C9
    accepted:
      - finding: ROW10 # <
        of: lamp.1
        by: AK
        why: seen
    """, "at another id"),
)  # fmt: skip
