"""The order of the work: wraps, tests, the battery, readings: jobs with the fault, and the fact that mends it."""

from __future__ import annotations

from tests.findings.jobs import Case

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
)  # fmt: skip
