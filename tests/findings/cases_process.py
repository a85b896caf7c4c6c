"""The order of the work: wraps, tests, the battery, readings: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case, copper_alone

RECORDED = "none: a recorded fact"
DATES = "the recorded dates"

WIRES = """
    job: Process
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: a.1, to: FS1}
      W2: {colour: GN, size: 1.0 mm2, from: b.1, to: FS1}
"""
LAMP = """
    job: Process
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm}
    HEAD
    fuses: {F1: {rating: 5 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 1 A}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: battery-, length: 900 mm}
      W3: {colour: RD, size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}
    changes:
"""
LONGER = "kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, made: 2031-05-03 AK"


def wrapped(joined: str, after: str = "") -> str:
    """A joint and the wrap over it; the line that says what it is over is marked."""
    return (
        WIRES
        + f"""
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1]{joined}}}
      - id: C2
        kind: cover
        cover: cloth tape
        over: [C1] # <
        made: 2031-05-10 AK
{after}
    """
    )


def lamp(rows: str, head: str, after: str = "") -> str:
    return LAMP.replace("HEAD", head) + "".join(f"      - {{{row}}}\n" for row in rows.split(" | ")) + after


def readings(first: str, second: str = "") -> str:
    """One or two readings; the line of what the first one read is marked."""
    return (
        WIRES
        + f"""
    grounds: {{L1: {{back to: battery-}}}}
    changes: [{{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}}]
    readings:
      - id: R1
        red: L1
        black: battery-
        on: 2031-05-03
        {first} # <
{second}
    """
    )


def again(says: str, day: str = "2031-05-10") -> str:
    return f"      - {{id: R2, red: battery-, black: L1, on: {day}, {says}}}"


# Every allowance at nought: W2 is 0.9 m of 18.5 mohm/m (ISO 6722-1), the lamp takes 0.99 A: 0.016 V. The band is 0.03 V
# either way at least, so 0.046 V is the most; 0.06 V stands for 0.055 V and up, 0.05 V for 0.045 V and up.
EXPECTED = """
    job: Process
    supply: 12 V
    fuses: {F1: {rating: 5 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 1 A}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: battery-, length: 900 mm}
"""


def against(reading: str, rows: str = "{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}") -> str:
    """A lamp and one reading of it, taken on 4 May; its line is marked."""
    return (
        copper_alone(EXPECTED)
        + f"    changes:\n      - {rows}\n    readings:\n      - {{id: R1, on: 2031-05-04, {reading}}} # <\n"
    )


BAND = "band least, 0.03 V (house value)"
RETURN = "red: lamp.2, black: battery-, loads on: lamp"

CASES = (
    Case(
        "PRO01", "warning", "C2", "tested: 2031-05-11", "tested: 2031-05-10", DATES,
        wrapped(", made: 2031-05-03 AK, sealed: 2031-05-03 AK, tested: 2031-05-11 AK"), "its own date",
    ),
    Case(
        "PRO01", "warning", "C2", "made: 2031-05-12", "made: 2031-05-09", DATES,
        wrapped(
            ", made: 2031-05-03 AK, sealed: 2031-05-03 AK",
            "      - {id: C3, kind: verify, proves: [C1], made: 2031-05-12 AK}",
        ), "a verify row",
    ),
    Case(
        "PRO02", "warning", "C2", "made: 2031-05-03 AK", "made: 2031-05-03 AK, sealed: 2031-05-03 AK", RECORDED,
        wrapped(", made: 2031-05-03 AK"), "not sealed",
    ),
    Case(
        "PRO02", "warning", "C2", "why: next week", "made: 2031-05-03 AK, sealed: 2031-05-03 AK", RECORDED,
        wrapped(", why: next week"), "planned",
    ),
    Case(
        "PRO02", "warning", "C2", "2031-05-11", "2031-05-10", DATES,
        wrapped(", made: 2031-05-11 AK, sealed: 2031-05-12 AK"), "made later",
    ),
    Case(
        "PRO03", "warning", "", "note: untried", "tested: 2031-05-20 AK", RECORDED,
        lamp(f"id: C1, {LONGER}, note: untried", "handed over: 2031-05-30 # <"), "handed over",
    ),
    Case(
        "PRO03", "warning", "", "proves: [C2]", "proves: [C1]", RECORDED,
        lamp(
            f"id: C1, {LONGER} | id: C2, kind: verify, proves: [C2], made: 2031-05-04 AK", "handed over: not yet # <"
        ), "others are proved",
    ),
    Case(
        "PRO03", "warning", "", "of: F1", "of: lamp", RECORDED,
        lamp(f"id: C1, {LONGER}", "handed over: 2031-05-30 # <", "    readings: [{id: R1, of: F1, read: 12.4 V}]\n"),
        "a reading proves it",
    ),
    Case(
        "PRO03", "warning", "", "why: moved", "tested: 2031-05-20 AK", RECORDED,
        lamp(
            f"id: C1, {LONGER}, why: moved".replace("W1, plug: lamp", "W3, plug: horn"), "handed over: 2031-05-30 # <"
        ), "on no traced circuit",
    ),
    Case(
        "PRO04", "note", "", "[2031-05-01 AK]", "[2031-05-01 AK, 2031-05-03 AK]", DATES,
        lamp(f"id: C1, {LONGER}", "battery off: [2031-05-01 AK] # <"), "a day is missing",
    ),
    Case(
        "PRO04", "note", "", "handed over: 2031-05-30", "handed over: not yet", DATES,
        lamp(f"id: C1, {LONGER}", "handed over: 2031-05-30 # <"), "handed over",
    ),
    Case(
        "RDG01", "error", "R1", "read: 0.21 V", "read: 0.2 V", "its own limit",
        readings("read: 0.21 V").replace("on: 2031-05-03", "limit: 0.2 V"), "above",
    ),
    Case(
        "RDG01", "error", "R1", "read: -0.21 V", "read: -0.2 V", "its own limit",
        readings("read: -0.21 V").replace("on: 2031-05-03", "limit: 0.2 V"), "leads the wrong way round",
    ),
    Case(
        "RDG01", "error", "R1", "read: 11.9 V", "read: not measured", "its own limit",
        readings("read: 11.9 V").replace("on: 2031-05-03", "at least: 12 V"), "below",
    ),
    Case(
        "RDG01", "error", "R1", "read: 210 mV", "read: 210 mA", "its own limit, in another unit it is none",
        readings("read: 210 mV").replace("on: 2031-05-03", "limit: 0.2 V"), "another unit",
    ),
    Case(
        "RDG01", "note", "R1", "limit: 0.3 V", "limit: 0.5 V", "its own limit",
        readings("read: 0.42 V", again("read: 0.1 V"))
        .replace("on: 2031-05-03", "on: 2031-05-03\n        limit: 0.3 V"), "mended later",
    ),
    Case(
        "RDG01", "error", "R1", "limit: 0.3 V", "limit: 0.5 V", "its own limit",
        readings("read: 0.42 V", again("read: 0.1 V", "2031-05-01"))
        .replace("on: 2031-05-03", "on: 2031-05-03\n        limit: 0.3 V"), "good before, not after",
    ),
    Case(
        "RDG02", "warning", "R1", "read: 0.06 V", "read: 0.05 V", BAND,
        against(f"{RETURN}, read: 0.06 V"), "above",
    ),
    Case(
        "RDG02", "warning", "R1", "read: 60 mV", "limit: 60 mV, read: 60 mV", BAND,
        against(f"{RETURN}, read: 60 mV"), "its own limit comes first",
    ),
    Case(
        "RDG02", "warning", "R1", "loads on: lamp", "with: the lamp", BAND,
        against(f"{RETURN}, read: 0.3 V"), "words are not matched",
    ),
    Case(
        "RDG02", "warning", "R1", "of: lamp", "of: C1", BAND,
        against("red: lamp.1, black: lamp.2, of: lamp, supply: 12.0 V, read: 11.5 V"), "below, across its own load",
    ),
    Case(
        "RDG02", "warning", "R1", "read: 0.2 A", "read: 1.0 A", "band of draws, 15 % (house value)",
        against("red: F1, black: lamp.1, loads on: lamp, read: 0.2 A"), "a current",
    ),
    Case(
        "RDG02", "warning", "R1", "read: 0.3 ohm", "read: 0.02 ohm", "band of wire, 10 % (house value)",
        against("red: lamp.2, black: battery-, read: 0.3 ohm"), "a resistance",
    ),
    Case(
        "RDG02", "warning", "R1", "through: 1 A", "through: 16 A", "band of wire, 10 % (house value)",
        against("red: lamp.2, black: battery-, through: 1 A, read: 0.26 V"), "at a current by clamp",
    ),
    Case(
        "RDG02", "warning", "R1", "made: 2031-05-03", "made: 2031-05-10", DATES,
        against(f"{RETURN}, read: 0.3 V", "{id: C1, kind: extend, wire: W2, plug: lamp, pigtail: 200 mm, gap: 100 mm, "
        'slack: 0 mm, joint: "lap, soldered", overlap: 10 mm, piece: BN 1.0 mm2, made: 2031-05-03 AK}'),
        "its wire was changed since",
    ),
    # ---- readings that show nothing ----------------------------------------------------------------------------------
    Case(
        "RDG10", "warning", "R1", "on: 2031-06-02", "on: 2031-06-01", "the day of the build",
        readings("on: 2031-06-02").replace("on: 2031-05-03", "read: 0.1 V"), "of tomorrow",
    ),
    Case(
        "RDG10", "warning", "R1", "on: 1031-05-03", "on: 2031-05-03", "1900",
        readings("on: 1031-05-03").replace("on: 2031-05-03", "read: 0.1 V"), "before 1900",
    ),
    Case(
        "RDG11", "warning", "R1", "limit: -0.2 V", "limit: 0 V", "none: an amount is not below zero",
        readings("limit: -0.2 V").replace("on: 2031-05-03", "read: -0.1 V"), "limit",
    ),
    Case(
        "RDG11", "warning", "R1", "at least: -1 ohm", "at least: 1 ohm", "none: an amount is not below zero",
        readings("at least: -1 ohm").replace("on: 2031-05-03", "read: 0.1 ohm"), "at least",
    ),
    # ---- checks that prove nothing -----------------------------------------------------------------------------------
    Case(
        "PRO03", "warning", "", "2131-05-20", "2031-05-20", "the day of the build",
        lamp(f"id: C1, {LONGER}, tested: 2131-05-20 AK", "handed over: 2031-05-30 # <"), "tested on a day to come",
    ),
    Case(
        "PRO03", "warning", "", "read: 12.4 V, on: 1831-05-20", "read: 12.4 V, on: 2031-05-20", "1900",
        lamp(
            f"id: C1, {LONGER}", "handed over: 2031-05-30 # <",
            "    readings: [{id: R1, of: lamp, read: 12.4 V, on: 1831-05-20}]\n",
        ), "a reading of another century",
    ),
    Case(
        "TST01", "warning", "C2", "[C2] # <", "[C1]", RECORDED,
        LAMP.replace("HEAD", "") + f"      - {{id: C1, {LONGER}}}" + """
      - id: C2
        kind: verify
        made: 2031-05-04 AK
        proves: [C2] # <
    """, "itself",
    ),
    Case(
        "TST02", "warning", "C2", "test: not measured", "test: tug", RECORDED,
        LAMP.replace("HEAD", "") + f"      - {{id: C1, {LONGER}}}" + """
      - id: C2
        kind: verify
        proves: [C1]
        made: 2031-05-04 AK
        expect: unknown
        test: not measured # <
    """, "its words",
    ),
    Case(
        "TST02", "warning", "C2", "read: not measured", "read: 12.1 V", RECORDED,
        LAMP.replace("HEAD", "") + f"      - {{id: C1, {LONGER}}}" + """
      - id: C2
        kind: verify
        proves: [C1] # <
        made: 2031-05-04 AK
    readings: [{id: R1, of: C2, red: lamp.1, black: battery-, read: not measured}]
    """, "its reading",
    ),
    Case(
        "TST03", "warning", "C2", "made: 2031-05-02", "made: 2031-05-03", DATES,
        LAMP.replace("HEAD", "") + f"      - {{id: C1, {LONGER}}}" + """
      - id: C2
        kind: verify
        proves: [C1]
        made: 2031-05-02 AK # <
    """, "the day before",
    ),
    Case(
        "TST03", "warning", "C2", "why: planned", "made: 2031-05-03 AK", DATES,
        LAMP.replace("HEAD", "") + f"      - {{id: C1, {LONGER}}}".replace("made: 2031-05-03 AK", "why: planned") + """
      - id: C2
        kind: verify
        proves: [C1]
        made: 2031-05-04 AK # <
    """, "of a planned row",
    ),
)  # fmt: skip
