"""Splices, their places and covers: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case

MANUALS_40 = "40 mm: vehicle makers' repair manuals (read)"
MANUALS_50 = "50 mm: vehicle makers' repair manuals, 2 in (read)"
RECORDED = "none: a recorded fact"
HOUSE_20 = "20 mm: house value"

USUAL = """
    job: Splices
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
"""
ROUTE = """
    landmarks: {bulkhead: sheet metal, nose: takeout}
    route:
      - {from: bulkhead, to: nose, length: 1000 mm, zone: dry}
"""
ENDS = """
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: a.1, to: FS1}
      W2: {colour: GN, size: 1.0 mm2, from: b.1, to: FS1}
      W3: {colour: RD, size: 1.0 mm2, from: c.1, to: FS2}
      W4: {colour: RD, size: 1.0 mm2, from: d.1, to: FS2}
"""


def extended(pigtail: str) -> str:
    return (
        USUAL
        + f"""
    wires: {{W1: {{colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, # <
         pigtail: {pigtail}, gap: 400 mm, piece: BU 1.0 mm2, made: 2031-05-03 AK}}
    """
    )


def joined(places: str, route: str = ROUTE) -> str:
    """Two joins; the second is marked."""
    first, second = places.split(" | ")
    return (
        USUAL
        + route
        + ENDS
        + f"""
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], where: {first}, made: 2031-05-03 AK}}
      - {{id: C2, kind: join, ends: [W3 at FS2, W4 at FS2], where: {second}, made: 2031-05-03 AK}} # <
    """
    )


def placed(where: str, route: str = ROUTE, cover: str = "adhesive sleeve 40 mm", marked: str = "where") -> str:
    """One join; the line of one of its keys is marked, or that of the row for ''."""
    lines = {"": "- id: C1", "where": f"  where: {where}", "cover": f"  cover: {cover}"}
    lines[marked] += " # <"
    return (
        USUAL
        + route
        + ENDS
        + f"""
    changes:
      {lines[""]}
        kind: join
        ends: [W1 at FS1, W2 at FS1]
      {lines["where"]}
      {lines["cover"]}
        made: 2031-05-03 AK
    """
    )


CASES = (
    # centre = pigtail - 10/2: 39 mm, 40 mm
    Case("SPL01", "error", "C1-W1-plug", "pigtail: 44 mm", "pigtail: 45 mm", MANUALS_40, extended("44 mm"), "plug"),
    Case(
        "SPL01", "error", "C1", "where: 35 mm", "where: 40 mm", MANUALS_40,
        placed("35 mm from nose towards bulkhead", ROUTE + """
      - {from: nose, to: left, length: 300 mm, zone: dry}
      - {from: nose, to: right, length: 300 mm, zone: dry}
    """, marked=""), "branch",
    ),
    Case(
        "SPL01", "error", "C2", "where: 339 mm", "where: 340 mm", MANUALS_40,
        joined("300 mm from bulkhead towards nose | 339 mm from bulkhead towards nose"), "neighbour",
    ),
    Case(
        "SPL02", "warning", "C2", "where: 345 mm", "where: 350 mm", MANUALS_50,
        joined("300 mm from bulkhead towards nose | 345 mm from bulkhead towards nose"),
    ),
    Case(
        "SPL03", "error", "C1", "zone: flex", "zone: dry", RECORDED,
        placed("300 mm from bulkhead towards nose", ROUTE.replace("dry", "flex"), marked=""), "flex",
    ),
    Case(
        "SPL03", "error", "C1", "rubber grommet", "sheet metal", RECORDED,
        placed("bulkhead", ROUTE.replace("sheet metal", "rubber grommet")), "grommet",
    ),
    Case(
        "SPL03", "error", "C1", "where: 0 mm", "where: 60 mm", RECORDED,
        placed("0 mm from bulkhead towards nose", ROUTE.replace("sheet metal", "door hinge")), "hinge",
    ),
    Case(
        "SPL04", "stop", "C1", "cover: none", "cover: adhesive sleeve 40 mm", RECORDED,
        placed("300 mm from bulkhead towards nose", cover="none", marked="cover"), "made",
    ),
    Case(
        "SPL04", "error", "C1", "cover: none", "cover: adhesive sleeve 40 mm", RECORDED,
        placed("300 mm from bulkhead towards nose", cover="none", marked="cover")
        .replace("        made: 2031-05-03 AK\n", ""),
        "planned",
    ),
    Case(
        "SPL05", "error", "C1", "cover: plain", "cover: adhesive", RECORDED,
        placed("300 mm from bulkhead towards nose", ROUTE.replace("dry", "wet"), "plain sleeve 40 mm", "cover"),
    ),
    Case(
        # 10 mm overlap and 25 mm make 35 mm
        "SPL06", "warning", "C1", "cover: adhesive sleeve 34 mm", "cover: adhesive sleeve 35 mm",
        "overlap + 25 mm, about 12 mm a side (read)",
        placed("300 mm from bulkhead towards nose", cover="adhesive sleeve 34 mm", marked="cover"),
    ),
    Case(
        "PLC01", "error", "C1", "where: 300 mm", "where: 300 mm from bulkhead towards nose", RECORDED, placed("300 mm"),
    ),
    Case(
        "PLC02", "error", "C1", "where: 1200 mm", "where: 900 mm", "length of the leg, 1000 mm",
        placed("1200 mm from bulkhead towards nose"), "beyond",
    ),
    Case(
        "PLC02", "error", "C1", "towards nosse", "towards nose", RECORDED,
        placed("300 mm from bulkhead towards nosse"), "no such landmark",
    ),
    Case(
        # tail 900 - 200 = 700 mm from the fuse box, which is at the bulkhead; centre 5 mm inside: 695 mm
        "PLC03", "warning", "C1-W1-loom", "where: 716 mm", "where: 715 mm", HOUSE_20,
        USUAL + ROUTE + """
    fuses: {F1: {rating: 10 A, in: bulkhead}}
    plugs: {lamp: {at: nose}}
    wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 100 mm
        piece: BU 1.0 mm2
        where: 716 mm from bulkhead towards nose # <
        made: 2031-05-03 AK
    """,
    ),
    Case(
        "PHO03", "warning", "C1", "shows: [C2]", "shows: [C1, C2]", RECORDED,
        joined("300 mm from bulkhead towards nose | 500 mm from bulkhead towards nose").replace(" # <", "")
        .replace("{id: C1,", "{id: C1, # <\n        ") + """
    photos: [{id: P1, file: photos/p1.jpg, shows: [C2], stage: bare joint}]
    """,
    ),
    Case(
        "PHO04", "error", "P1", "stage: sealed", "stage: sealed", "none: the picture's own file",
        USUAL + ROUTE + ENDS + """
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    photos:
      - id: P1
        file: photos/p1.jpg # <
        stage: sealed
    """, photo_problems={"P1": "it is cut short"}, twin_photo_problems={"P2": "it is cut short"},
    ),
)  # fmt: skip
