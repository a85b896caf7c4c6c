"""Bundles, holes, tape: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case

# four wires of 3 mm: smallest circle 1 + sqrt(2) = 2.4142 diameters, 7.24 mm; six: 3 diameters, 9.0 mm
MEASURED = "none: recorded bore; four wires of 3 mm make 7.24 mm (geometry)"

NOSE = """
    job: Nose
    landmarks: {dash: fuse box, bulkhead: front wall, nose: lamps}
    route:
      - {from: dash, to: bulkhead, length: 500 mm, zone: dry}
      - {from: bulkhead, to: nose, length: 900 mm, zone: wet}
    fuses: {F1: {in: dash}, F2: {in: dash}, F3: {in: dash}, F4: {in: dash}}
    plugs: {lamp: {at: nose}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: lamp.1, outside: 3 mm}
      W2: {size: 2.5 mm2, from: F2, to: lamp.2, outside: 3 mm}
      W3: {size: 2.5 mm2, from: F3, to: lamp.3, outside: 3 mm}
      W4: {size: 2.5 mm2, from: F4, to: lamp.4, outside: 3 mm}
"""
MADE = """
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
"""
HOT = """
    job: Engine bay
    landmarks: {dash: fuse box, engine: block}
    route: [{from: dash, to: engine, length: 500 mm, ZONE}]
"""


def wound(cover: str, zone: str) -> str:
    """A cover row over a leg whose heat is said by `zone`; without one, by what the row says besides."""
    return (
        HOT.replace("ZONE", zone)
        + f"""
    changes:
      - {{id: C1, kind: cover, from: dash, to: engine, cover: {cover}, made: 2031-05-03 AK}} # <
    """
    )


CASES = (
    Case(
        "BUN01", "warning", "bulkhead", "bore: 7.2 mm", "bore: 7.3 mm", MEASURED,
        NOSE + """
    holes:
      bulkhead:
        grommet: yes
        bore: 7.2 mm # <
    """ + MADE, "hole",
    ),
    Case(
        "BUN01", "warning", "C2", "conduit 7 mm", "conduit 8 mm", MEASURED,
        NOSE + """
    changes:
      - {id: C2, kind: cover, from: bulkhead, to: nose, cover: conduit 7 mm, made: 2031-05-03 AK} # <
    """, "conduit",
    ),
    Case(
        # W5's size was not read: what the four others make is more than the conduit already
        "BUN01", "warning", "C2", "conduit 7 mm", "conduit 8 mm", MEASURED,
        NOSE + """      W5: {from: F4, to: lamp.5}
    changes:
      - {id: C2, kind: cover, from: bulkhead, to: nose, cover: conduit 7 mm, made: 2031-05-03 AK} # <
    """, "conduit, one wire of unread size",
    ),
    Case(
        "BUN02", "warning", "C1", "cover: vinyl tape", "cover: cloth tape", "80 C: repair manuals (read)",
        wound("vinyl tape", "zone: hot"), "hot zone",
    ),
    Case(
        "BUN02", "warning", "C1", "hottest: 85 C", "hottest: 80 C", "80 C: repair manuals (read)",
        wound("PVC tape half lapped", "hottest: 85 C"), "measured",
    ),
    Case(
        "BUN02", "warning", "C1", "zone: hot", "zone: hot, hottest: 70 C", "80 C: repair manuals (read)",
        wound("vinyl tape", "zone: hot"), "a measured figure goes before the zone",
    ),
    Case(
        "BUN02", "warning", "C1", "limits: {vinyl tape: 100 C}", "limits: {vinyl tape: 105 C}", "the job's own limit",
        wound("vinyl tape", "zone: hot").replace("job: Engine bay", "job: Engine bay\n    limits: {vinyl tape: 100 C}"),
        "the job's own limit",
    ),
    Case(
        "BUN02", "warning", "C1", "cover: vinyl tape", "cover: adhesive sleeve 40 mm", "80 C: repair manuals (read)",
        HOT.replace("ZONE", "zone: hot") + """
    usual: {overlap: 10 mm}
    wires: {W1: {colour: GN, size: 1.0 mm2, from: a.1, to: b.1}}
    changes:
      - id: C1
        kind: shorten
        wire: W1
        end: b.1
        pigtail: 100 mm
        take out: 50 mm
        where: 200 mm from dash towards engine
        cover: vinyl tape # <
        made: 2031-05-03 AK
    """, "over a splice",
    ),
    Case(
        "BUN03", "error", "bulkhead", "grommet: no", "grommet: unknown", "none: a recorded fact",
        """
    job: Bare edge
    landmarks: {bulkhead: front wall}
    holes:
      bulkhead:
        through: sheet metal
        grommet: no # <
    """ + MADE, "edge",
    ),
    Case(
        "BUN03", "error", "bulkhead", "through: sheet metal", "through: unknown", "none: a recorded fact",
        """
    job: Bare edge
    landmarks: {bulkhead: front wall}
    holes:
      bulkhead:
        through: sheet metal
        grommet: no # <
    """ + MADE, "what it is in",
    ),
)  # fmt: skip
