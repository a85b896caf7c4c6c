"""Splices, their places and covers: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case, planned

MANUALS_40 = "40 mm: vehicle makers' repair manuals (read)"
MANUALS_50 = "50 mm: vehicle makers' repair manuals, 2 in (read)"
RECORDED = "none: a recorded fact"
HOUSE_20 = "20 mm: house value"
NASA_LAP = "3 to 6 conductor diameters: NASA-STD-8739.4 19.6.1 (read)"
NASA_BARREL = "the sum of the copper: NASA-STD-8739.4 19.11 (read)"
TWO_IN_A_WIRE = "2 splices in a wire: common practice, no source"
SOLDER_16 = "16 AWG and smaller, about 1.5 mm2: one vehicle maker (read)"

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


def live(text: str) -> str:
    """The same job with the first of its wires on a fuse."""
    head = "    fuses: {F1: {rating: 5 A, fed: always}}\n    wires:"
    return text.replace("    wires:", head).replace("from: a.1", "from: F1")


def made(joint: str, size: str = "1.0 mm2", overlap: str = "10 mm", marked: str = "joint") -> str:
    """One join of two wires of one size; the line of `joint:` or `overlap:` is marked, both are the row's own."""
    lines = {"joint": f'  joint: "{joint}"', "overlap": f"  overlap: {overlap}"}
    lines[marked] += " # <"
    return (
        USUAL
        + f"""
    wires:
      W1: {{colour: GN, size: {size}, from: a.1, to: FS1}}
      W2: {{colour: GN, size: {size}, from: b.1, to: FS1}}
    changes:
      - id: C1
        kind: join
        ends: [W1 at FS1, W2 at FS1]
      {lines["joint"]}
      {lines["overlap"]}
        made: 2031-05-03 AK
    """
    )


def three(joint: str, sizes: str) -> str:
    """Three wires joined; the line of `joint:` is marked."""
    one, two, other = sizes.split()
    return (
        USUAL
        + f"""
    wires:
      W1: {{colour: GN, size: {one} mm2, from: a.1, to: FS1}}
      W2: {{colour: GN, size: {two} mm2, from: b.1, to: FS1}}
      W3: {{colour: GN, size: {other} mm2, from: c.1, to: FS1}}
    changes:
      - id: C1
        kind: join
        ends: [W1 at FS1, W2 at FS1, W3 at FS1]
        joint: "{joint}" # <
        made: 2031-05-03 AK
    """
    )


def fanned_out(thin: str) -> str:
    """A wire from a fuse that feeds two wires of 1.5 mm2 behind one joint."""
    return (
        USUAL
        + f"""
    fuses: {{F1: {{rating: 5 A, fed: always}}}}
    loads:
      left: {{between: left.1 left.2, draws: 1 A}}
      right: {{between: right.1 right.2, draws: 1 A}}
    wires:
      W1: {{colour: GN, size: {thin}, from: F1, to: FS1}}
      W2: {{colour: GN, size: 1.5 mm2, from: left.1, to: FS1}}
      W3: {{colour: GN, size: 1.5 mm2, from: right.1, to: FS1}}
      W4: {{colour: BN, size: 1.5 mm2, from: left.2, to: battery-}}
      W5: {{colour: BN, size: 1.5 mm2, from: right.2, to: battery-}}
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1, W3 at FS1], made: 2031-05-03 AK}} # <
    """
    )


def many(via: str = "") -> str:
    """A wire with two splices of an extension and one of a shortening; with `via` a plug stands between them."""
    return (
        USUAL
        + f"""
    plugs: {{mid: {{in line: yes}}}}
    wires: {{W1: {{colour: GN, size: 1.0 mm2, from: unit.1, to: lamp.1, length: 3000 mm{via}}}}}
    changes:
      - {{id: C1, kind: extend, wire: W1, end: lamp.1, pigtail: 300 mm, gap: 400 mm, piece: GN 1.0 mm2,
         made: 2031-05-03 AK}}
      - {{id: C2, kind: shorten, wire: W1, end: unit.1, pigtail: 300 mm, take out: 200 mm, made: 2031-05-03 AK}} # <
    """
    )


def wrapped(where: str) -> str:
    """A join under a sleeve of 40 mm beside a conduit that begins at the nose."""
    return (
        placed(where).rstrip()
        + """
      - {id: C2, kind: cover, from: nose, to: bulkhead, cover: conduit 12 mm, over: [C1], made: 2031-05-04 AK}
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
        live(placed("300 mm from bulkhead towards nose", cover="none", marked="cover")), "made, and live",
    ),
    Case(
        "SPL04", "error", "C1", "cover: none", "cover: adhesive sleeve 40 mm", RECORDED,
        placed("300 mm from bulkhead towards nose", cover="none", marked="cover"), "nothing feeds it",
    ),
    Case(
        # the car as it stands has no such joint yet
        "SPL04", "error", "C1", "cover: none", "cover: adhesive sleeve 40 mm", RECORDED,
        planned(live(placed("300 mm from bulkhead towards nose", cover="none", marked="cover"))),
        "planned, and live then",
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
        # the sleeve of 40 mm reaches 20 mm to either side of the joint; the conduit begins 1000 mm from the bulkhead
        "SPL03", "error", "C1", "where: 980 mm", "where: 979 mm", "half the sleeve: a recorded fact",
        wrapped("980 mm from bulkhead towards nose"), "conduit end",
    ),
    Case(
        "SPL07", "note", "C1", "W1: {colour: GN, size: 2.5", "W1: {colour: GN, size: 1.5", SOLDER_16,
        made("lap, soldered", "2.5 mm2").replace("W2: {colour: GN, size: 2.5", "W2: {colour: GN, size: 1.5"),
    ),
    Case(
        # least copper of SAE J1128 (from memory): 14 AWG 1.85 mm2, 16 AWG 1.12 mm2
        "SPL07", "note", "", "W1: {colour: GN, size: 14 AWG", "W1: {colour: GN, size: 16 AWG", SOLDER_16,
        USUAL.replace("ring strip: 6 mm}", "ring strip: 6 mm} # <")
        + ENDS.replace("W1: {colour: GN, size: 1.0 mm2", "W1: {colour: GN, size: 14 AWG") + """
    changes:
      - {id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], made: 2031-05-03 AK}
    """, "of the house method",
    ),
    Case(
        "SPL08", "error", "C1", "tinned first", "barrel 0.5-1.5 mm2", "NASA-STD-8739.4 4.3 (read)",
        made("butt, crimped, tinned first"),
    ),
    Case(
        "SPL08", "error", "C1", "tinned first", "barrel 0.5-1.5 mm2", "NASA-STD-8739.4 4.3 (read)",
        made("butt, both, tinned first"), "crimped and soldered",
    ),
    Case(
        # 16 mm2 as a solid wire: d = sqrt(4 x 16 / pi) = 4.514 mm, three of them 13.54 mm
        "SPL09", "warning", "C1", "overlap: 13.4 mm", "overlap: 13.6 mm", NASA_LAP,
        made("lap, crimped", "16 mm2", "13.4 mm", "overlap"), "short",
    ),
    Case(
        # 1.5 mm2: d = sqrt(6 / pi) = 1.382 mm, six of them 8.29 mm
        "SPL09", "note", "C1", "overlap: 8.4 mm", "overlap: 8.2 mm", NASA_LAP,
        made("lap, soldered", "1.5 mm2", "8.4 mm", "overlap"), "long",
    ),
    Case(
        # 0.5 + 0.5 + 0.75 = 1.75 mm2
        "SPL10", "warning", "C1", "barrel 0.5-1.5 mm2", "barrel 0.5-2.0 mm2", NASA_BARREL,
        three("closed-end, crimped, barrel 0.5-1.5 mm2", "0.5 0.5 0.75"), "sum",
    ),
    Case(
        # the best sharing is 1.5 | 0.75 + 1.0 = 1.75 mm2; with 0.5 it is 1.5 | 0.75 + 0.5 = 1.25 mm2
        "SPL10", "warning", "C1", "W3: {colour: GN, size: 1.0", "W3: {colour: GN, size: 0.5", NASA_BARREL,
        three("butt, crimped, barrel 0.5-1.5 mm2", "1.5 0.75 1.0"), "two sides",
    ),
    Case(
        "SPL10", "warning", "C1", "W1: {colour: GN, size: 1.0 mm2", "W1: {colour: GN, size: 1.5 mm2", RECORDED,
        fanned_out("1.0 mm2"), "one small wire feeds two larger",
    ),
    Case(
        # two splices of the extension and one of the shortening; a plug between them makes that two and one
        "SPL11", "warning", "W1", "length: 3000 mm}", "length: 3000 mm, via: mid.4}", TWO_IN_A_WIRE, many(),
    ),
    Case("SPL12", "error", "C1", "twist, none", "twist, soldered", RECORDED, made("twist, none"), "twisted"),
    Case("SPL12", "error", "C1", "snap-on", "unknown", RECORDED, made("snap-on"), "snapped on"),
    Case(
        "SPL12", "error", "", 'joint: "twist, none"', 'joint: "lap, soldered"', RECORDED,
        """
    job: Splices
    usual:
      joint: "twist, none" # <
      overlap: 10 mm
""" + ENDS + """
    changes:
      - {id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], cover: cloth tape, made: 2031-05-03 AK}
      - {id: C2, kind: join, ends: [W3 at FS2, W4 at FS2], cover: cloth tape, made: 2031-05-03 AK}
    """, "as the house method, told once",
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
    Case(
        "PHO05", "note", "P1", "stage: sealed", "shows: [C1]", RECORDED,
        USUAL + ENDS + """
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    photos:
      - id: P1 # <
        file: photos/p1.jpg
        stage: sealed
    """,
    ),
    Case(
        "PHO06", "warning", "P1", "caption: at the bench", "hide: [[0.1, 0.1, 0.2, 0.2]]", RECORDED,
        USUAL + ENDS + """
    changes:
      - {id: C1, kind: verify, proves: [C1], photos: [P1], made: 2031-05-03 AK}
    photos:
      - id: P1
        file: photos/p1.jpg
        face or plate: yes # <
        caption: at the bench
    """,
    ),
)  # fmt: skip
