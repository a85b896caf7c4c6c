"""What the ledger of copper tells, a job for each rank: protection, ways home, what copper joins, ends, other volts.

Where an expected rank lies between a planning rating and the highest public figure, the numbers stand in `threshold`.
"""

from __future__ import annotations

from tests.findings.cases_circuits import RECORDED
from tests.findings.jobs import Case, planned

PROVED = "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"
FAN = (
    """
    job: Fan
    fuses:
      F1: {rating: 15 A, fed: always}
    loads:
      fan: {between: fan.1 fan.2, draws: 5 A}
    wires:
      W1: {size: 4 mm2, from: F1, to: fan.1}
      W2: {size: 4 mm2, from: fan.2, to: battery-}
"""
    + PROVED
)
POINT = (
    """
    job: Fan on a stud
    body returns: yes
    fuses:
      F1: {rating: 20 A, fed: always}
    loads:
      fan: {between: fan.1 fan.2, draws: 5 A}
    grounds:
      L1: {back to: battery-, cable: 16 mm2, cable length: 400 mm}
    wires:
      W1: {size: 4 mm2, from: F1, to: fan.1}
      W2: {size: 4 mm2, from: fan.2, to: L1}
"""
    + PROVED
)
BODY = POINT.replace("L1: {back to: battery-, cable: 16 mm2, cable length: 400 mm}", "L1: {conducts: yes}").replace(
    "body returns: yes\n", "body returns: yes\n    body strap: {cable: 14 AWG, cable length: 400 mm}\n"
)
SHARED = (
    """
    job: Two loads on one return
    fuses:
      F1: {rating: 10 A, fed: always}
      F2: {rating: 10 A, fed: always}
    splices: {FS1: {all members known: yes}}
    loads:
      fan: {between: fan.1 fan.2, draws: 9 A}
      seat: {between: seat.1 seat.2, draws: 8 A}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: fan.1}
      W2: {size: 2.5 mm2, from: F2, to: seat.1}
      W3: {size: 2.5 mm2, from: fan.2, to: FS1}
      W4: {size: 2.5 mm2, from: seat.2, to: FS1}
      W5: {size: 2.5 mm2, from: FS1, to: battery-}
"""
    + PROVED
)
ON_A_STUD = SHARED.replace("to: battery-", "to: L1").replace(
    "    loads:\n", "    grounds:\n      L1: {back to: battery-, cable: 16 mm2, cable length: 400 mm}\n    loads:\n"
)
BAR = (
    """
    job: Bar before two fuses
    fuses: {F1: {rating: 20 A}, F2: {rating: 20 A}}
    splices: {B1: {all members known: yes}}
    loads:
      fan: {between: fan.1 fan.2, draws: 18 A}
      seat: {between: seat.1 seat.2, draws: 17 A}
    wires:
      W1: {size: 10 mm2, from: battery+, to: B1, length: 200 mm}
      W2: {size: 6 mm2, from: B1, to: F1.feed, length: 50 mm}
      W3: {size: 6 mm2, from: B1, to: F2.feed, length: 50 mm}
      W4: {size: 4 mm2, from: F1, to: fan.1}
      W5: {size: 4 mm2, from: F2, to: seat.1}
      W6: {size: 4 mm2, from: fan.2, to: battery-}
      W7: {size: 4 mm2, from: seat.2, to: battery-}
"""
    + PROVED
)
CRANKED = (
    """
    job: Starter
    loads:
      starter: {class: starter, between: starter.30 starter.31, draws: 150 A}
    wires:
      W1: {size: 16 mm2, from: battery+, to: starter.30, length: 1.8 m}
      W2: {size: 16 mm2, from: starter.31, to: battery-, length: 1.8 m}
"""
    + PROVED
)
WINCH = (
    """
    job: Winch
    fuses: {F1: {rating: unknown, fed: always}}
    loads:
      winch: {between: winch.1 winch.2, draws: 120 A, on at most: 60 s}
    wires:
      W1: {size: 16 mm2, from: F1, to: winch.1}
      W2: {size: 10 mm2, from: winch.2, to: battery-}
"""
    + PROVED
)
HORN = (
    """
    job: Horn
    fuses:
      F1: {rating: 10 A, fed: always}
    switches: {horn button: {between: button.1 button.2}}
    loads: {horn: {between: horn.1 horn.2, draws: 5 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: horn.1}
      W2: {size: 1.0 mm2, from: horn.2, to: battery-}
      W3: {size: 1.0 mm2, from: F1.feed, to: button.1}
      W4: {size: 1.0 mm2, from: button.2, to: rest.1}
"""
    + PROVED
)
JUMPER = """
    job: Horn
    fuses:
      F1: {rating: 10 A, fed: always}
    splices: {FS1: {all members known: yes}}
    loads: {horn: {between: horn.1 horn.2, draws: 5 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1}
      W2: {size: 1.0 mm2, from: horn.2, to: battery-}
      W3: {size: 1.0 mm2, from: FS1, to: horn.1}
    changes:
      - {id: C1, kind: add, wire: W9, from: F1.feed, to: FS1, piece: GN 1 mm2, cut: 300 mm, made: 2031-05-03 AK}
"""
TWO_KEYS = (
    """
    job: Two keys
    fuses:
      F1: {rating: 5 A, fed: always}
      F2: {rating: 5 A, fed: ignition}
    switches: {hazard: {between: hazard.1 hazard.2}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      clock: {between: clock.1 clock.2, draws: 1 A}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: lamp.1}
      W2: {size: 2.5 mm2, from: F2, to: clock.1}
      W3: {size: 2.5 mm2, from: lamp.2, to: battery-}
      W4: {size: 2.5 mm2, from: clock.2, to: battery-}
      W5: {size: 2.5 mm2, from: lamp.1, to: hazard.1}
"""
    + PROVED
)
DATA = (
    """
    job: Data
    fuses: {F1: {rating: 3 A, fed: always}}
    modules:
      unit:
        out: {7: data} # <
    switches: {wake: {between: wake.1 wake.2}}
    wires:
      W1: {size: 0.5 mm2, from: F1, to: wake.1}
      W2: {size: 0.5 mm2, from: unit.7, to: other-unit.3}
"""
    + PROVED
)
OUTPUT = (
    """
    job: Output
    modules:
      unit:
        out: {22: fan feed}
        guarded: {22: 15 A} # <
    splices: {FS1: {all members known: yes}}
    loads: {fan: {between: fan.1 fan.2, draws: 4 A}}
    wires:
      W1: {size: 2.5 mm2, from: unit.22, to: FS1}
      W2: {size: 2.5 mm2, from: FS1, to: fan.1}
      W3: {size: 2.5 mm2, from: fan.2, to: battery-}
"""
    + PROVED
)
LAMP = (
    """
    job: Lamp
    supply: 13.5 V
    fuses: {F1: {rating: 10 A, fed: always}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 21 W at 12.8 V}
    grounds: {L1: {cable: 16 mm2, cable length: 1 m, back to: battery-}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
"""
    + PROVED
)
ACCEPTED = (
    """
    job: Let stand
    accepted: [{finding: FUS01, of: F1, by: AK, why: as its maker fitted it}] # <
    fuses: {F1: {rating: 15 A, fed: always}}
    loads: {fan: {between: fan.1 fan.2, draws: 5 A}}
    wires:
      W1: {size: 1.0 mm2, insulation: PVC, from: F1, to: fan.1}
      W2: {size: 1.5 mm2, from: fan.2, to: battery-}
"""
    + PROVED
)
FEEDER = (
    """
    job: Feeder
    fuses:
      F12: {rating: 10 A} # <
    loads: {radio: {between: radio.1 radio.2, draws: 3 A}}
    wires:
      W1: {size: 6 mm2, from: battery+, to: F12.feed, length: 310 mm}
      W2: {size: 1.0 mm2, from: F12, to: radio.1}
      W3: {size: 1.0 mm2, from: radio.2, to: battery-}
"""
    + PROVED
)
CUT = """
    job: Cut
    fuses: {F1: {rating: 5 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A, verdict: deleted}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-}
    changes:
      - {id: C1, kind: remove, wire: W1, ends: {F1: capped 30 mm, lamp.1: pulled}, made: 2031-05-03 AK} # <
      - {id: C2, kind: remove, wire: W2, ends: {lamp.2: pulled, battery-: pulled}, made: 2031-05-03 AK}
"""
THROUGH_IT = """
    job: Cut behind a load
    fuses: {F1: {rating: 5 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A, verdict: deleted}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-}
    changes:
      - {id: C1, kind: remove, wire: W2, ends: {lamp.2: taped 30 mm, battery-: pulled}, made: 2031-05-03 AK} # <
"""
DELETED = (
    """
    job: Deleted
    fuses: {F1: {rating: 5 A, fed: always}}
    splices: {FS1: {all members known: yes}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, verdict: deleted} # <
      clock: {between: clock.1 clock.2, draws: 1 A}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1}
      W2: {size: 1.0 mm2, from: FS1, to: clock.1}
      W3: {size: 1.0 mm2, from: clock.2, to: battery-}
      W4: {size: 1.0 mm2, from: FS1, to: lamp.1}
"""
    + PROVED
)
GONE = (
    """
    job: Gone
    fuses: {F1: {rating: 5 A, fed: always}}
    plugs:
      lamp: {ways: 2, gone: yes} # <
    modules:
      unit: {out: {22: lamp feed}, guarded: {22: 5 A}}
    splices: {FS1: {all members known: yes}}
    loads: {clock: {between: clock.1 clock.2, draws: 1 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1}
      W2: {size: 1.0 mm2, from: FS1, to: clock.1}
      W3: {size: 1.0 mm2, from: clock.2, to: battery-}
      W4: {size: 1.0 mm2, from: FS1, to: lamp.1}
"""
    + PROVED
)
HOT = (
    """
    job: Hot
    landmarks: {dash: the dash, nose: takeout}
    route: [{from: dash, to: nose, length: 1000 mm, hottest: 181 C}]
    plugs: {lamp: {at: nose}}
    fuses: {F1: {rating: 5 A, fed: always, in: dash}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    grounds: {L1: {at: nose, cable: 16 mm2, cable length: 1 m, back to: battery-}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, insulation: silicone} # <
      W2: {size: 1.0 mm2, from: lamp.2, to: L1}
"""
    + PROVED
)


def marked(job: str, line: str) -> str:
    """The job with the mark on the line that begins so."""
    (found,) = [text for text in job.splitlines() if text.strip().startswith(line)]
    return job.replace(found, f"{found} # <")


FAN_AT_RETURN = marked(FAN, "W2:")
POINT_AT_CABLE = marked(POINT, "L1:")
SHARED_AT_RETURN = marked(SHARED, "W5:")
PVC = "1.0 mm2: planned 10 A; 33 CFR 183.425, 18 AWG, column 80 C: 15 A (read)"
UNWRITTEN = "1.0 mm2: planned 10 A; 33 CFR 183.425, 18 AWG at 60 C: 10 A (read)"
AWG_14 = "14 AWG: planned 15 A (row of 2 mm2); 33 CFR 183.425 at 60 C: 20 A (read)"
SHORT_TIME = "copper from 45 to 85 C, no heat given off: 30 s 15 A/mm2, 60 s 10.6 (computed)"
MADE_FOR = "0.75 to 1.3 times the supply (estimate)"
NEAR = "300 mm of unprotected wire (common practice, no source); from 6 mm2 on by name"

WAYS_HOME = (
    Case(
        "FUS11", "error", "W2", "1.0 mm2, insulation: PVC", "1.5 mm2, insulation: PVC", PVC,
        FAN_AT_RETURN.replace("W2: {size: 4 mm2", "W2: {size: 1.0 mm2, insulation: PVC"), "up to the public figure",
    ),
    Case(
        "FUS11", "stop", "W2", "rating: 15 A", "rating: 10 A", UNWRITTEN,
        FAN_AT_RETURN.replace("W2: {size: 4 mm2", "W2: {size: 1.0 mm2"), "insulation not written",
    ),
    Case(
        "FUS11", "stop", "W5", "F2: {rating: 30 A", "F2: {rating: 10 A", "2.5 mm2: planned 20 A; 14 AWG at 60 C: 20 A",
        SHARED_AT_RETURN.replace("F2: {rating: 10 A", "F2: {rating: 30 A")
        .replace("W2: {size: 2.5", "W2: {size: 4").replace("W4: {size: 2.5", "W4: {size: 4"),
        "one of two loads on a return",
    ),
    Case(
        "FUS11", "error", "W5", "draws: 9 A}", "draws: 9 A, not with: [seat]}",
        "20 A of the fuse and 9 A beside it; 33 CFR 183.425, 14 AWG, column 80 C: 25 A (read)",
        SHARED_AT_RETURN.replace("F2: {rating: 10", "F2: {rating: 20").replace("W5: {", "W5: {insulation: PVC, "),
        "another load on beside the shorted one",
    ),
    Case(
        "FUS11", "error", "L1", "cable: 14 AWG", "cable: 4 mm2", AWG_14,
        POINT_AT_CABLE.replace("cable: 16 mm2", "cable: 14 AWG"), "cable of a ground point",
    ),
    Case(
        "FUS11", "stop", "L1", "rating: 25 A", "rating: 15 A", AWG_14,
        POINT_AT_CABLE.replace("cable: 16 mm2", "cable: 14 AWG").replace("rating: 20 A", "rating: 25 A"),
        "cable of a ground point, above the public figure",
    ),
    Case(
        "FUS11", "error", "body strap", "cable: 14 AWG", "cable: 4 mm2", AWG_14, marked(BODY, "body strap:"),
        "body strap",
    ),
    Case(
        "FUS11", "stop", "W2", "from: battery+, to: fan.1", "from: F1, to: fan.1", "no limit: nothing stands there",
        FAN_AT_RETURN.replace("from: F1,", "from: battery+,"), "no fuse before the load",
    ),
    Case(
        "FUS12", "error", "W5", "1.5 mm2, insulation: cross-linked", "2.5 mm2, insulation: cross-linked",
        "1.5 mm2: planned 15 A; 33 CFR 183.425, 16 AWG, column 125 C: 30 A (read)",
        SHARED_AT_RETURN.replace("W5: {size: 2.5 mm2", "W5: {size: 1.5 mm2, insulation: cross-linked"),
        "two fuses on one return",
    ),
    Case(
        "FUS12", "stop", "W5", "draws: 8 A", "draws: 900 mA", UNWRITTEN,
        SHARED_AT_RETURN.replace("W5: {size: 2.5 mm2", "W5: {size: 1.0 mm2"), "a return above the public figure",
    ),
    Case(
        "FUS12", "stop", "W5", "draws: 8 A}", "draws: 8 A, not with: [fan]}", "never on together: 9 A of 10",
        SHARED_AT_RETURN.replace("W5: {size: 2.5 mm2", "W5: {size: 1.0 mm2"), "in the twin never on together",
    ),
    Case(
        "FUS12", "error", "W1", "10 AWG", "8 AWG", "10 AWG: planned 30 A (row of 4 mm2); 33 CFR 183.425 at 60 C: 40 A",
        marked(BAR, "W1:").replace("10 mm2", "10 AWG"), "nothing before it",
    ),
    Case(
        "FUS12", "stop", "W1", "size: 4 mm2", "size: 6 mm2", "4 mm2: planned 30 A, and no public figure is above it",
        marked(FAN, "W1:").replace("rating: 15 A", "rating: unknown").replace("draws: 5 A", "draws: 35 A")
        .replace("W2: {size: 4", "W2: {size: 10"), "rating not recorded",
    ),
    Case(
        "FUS12", "stop", "starter", "size: 6 mm2", "size: 10 mm2", SHORT_TIME,
        marked(CRANKED, "starter:").replace("W1: {size: 16", "W1: {size: 6"), "a starter's feed",
    ),
    Case(
        "FUS12", "stop", "W2", "size: 6 mm2", "size: 10 mm2", SHORT_TIME,
        marked(CRANKED, "W2:").replace("W2: {size: 16", "W2: {size: 6"), "a starter's return",
    ),
    Case(
        "FUS12", "stop", "W2", "draws: 120 A", "draws: 105 A", SHORT_TIME, marked(WINCH, "W2:"), "on for a minute",
    ),
    Case(
        "GND06", "error", "L1", "cable: 14 AWG", "cable: 4 mm2", AWG_14,
        marked(ON_A_STUD, "L1:").replace("cable: 16 mm2", "cable: 14 AWG"), "up to the public figure",
    ),
    Case(
        "GND06", "stop", "L1", "draws: 8 A", "draws: 900 mA", "1.0 mm2: planned 10 A, 18 AWG at 60 C 10 A (read)",
        marked(ON_A_STUD, "L1:").replace("cable: 16 mm2", "cable: 1.0 mm2"), "above the public figure",
    ),
)  # fmt: skip

PROTECTION = (
    Case(
        "FUS01", "error", "F1", "1.0 mm2, insulation: PVC", "1.5 mm2, insulation: PVC", PVC,
        marked(FAN, "F1:").replace("W1: {size: 4 mm2", "W1: {size: 1.0 mm2, insulation: PVC"),
        "up to the public figure",
    ),
    Case(
        "FUS01", "stop", "F1", "rating: 30 A", "rating: 20 A", "2.5 mm2: planned 20 A; 14 AWG at 60 C: 20 A (read)",
        marked(FAN, "F1:").replace("rating: 15 A", "rating: 30 A").replace("W1: {size: 4", "W1: {size: 2.5"),
        "above the public figure",
    ),
    Case(
        "FUS01", "stop", "F12", "size: 1.0 mm2, from: battery+", "size: 6 mm2, from: battery+",
        "1.0 mm2: planned 10 A, 18 AWG at 60 C 10 A (read)",
        FEEDER.replace("size: 6 mm2", "size: 1.0 mm2").replace("310 mm", "200 mm")
        .replace("rating: 10 A", "rating: 15 A").replace("1.0 mm2, from: F12", "1.5 mm2, from: F12"),
        "a fuse behind thin wire",
    ),
    Case("FUS05", "error", "F12", "length: 310 mm", "length: 300 mm", NEAR, FEEDER, "a main feed of 6 mm2"),
    Case(
        "FUS05", "stop", "F12", "length: 310 mm", "length: 300 mm", NEAR,
        FEEDER.replace("size: 6 mm2", "size: 4 mm2"), "thinner than 6 mm2",
    ),
    Case(
        "FUS13", "stop", "F1", "from: F1.feed, to: button.1", "from: rest.2, to: button.1", RECORDED,
        marked(HORN, "F1:").replace("to: rest.1", "to: horn.1"), "by a switch",
    ),
    Case(
        "FUS13", "stop", "F1", "from: F1.feed, to: FS1, piece", "from: rest.1, to: FS1, piece", RECORDED,
        marked(JUMPER, "F1:"), "by a wire that a row puts in",
    ),
    Case(
        "FUS13", "error", "F1", "from: F1.feed, to: FS1, piece", "from: rest.1, to: FS1, piece", RECORDED,
        planned(marked(JUMPER, "F1:")), "planned",
    ),
    Case(
        "FUS14", "error", "F1", "F2: {rating: 5 A, fed: ignition}", "F2: {rating: 5 A, fed: always}", RECORDED,
        marked(TWO_KEYS, "F1:").replace("to: hazard.1", "to: clock.1"), "in one cavity",
    ),
    Case(
        "FUS14", "error", "F1", "between: hazard.1 hazard.2", "between: hazard.3 hazard.2", RECORDED,
        marked(TWO_KEYS, "F1:").replace("    changes:", "      W6: {size: 2.5 mm2, from: hazard.2, to: clock.1}\n"
        "    changes:"), "by a switch that rests open",
    ),
    Case(
        "FUS14", "error", "F1", "F2: {rating: 5 A, fed: ignition}", "F2: {rating: 5 A, fed: unknown}", RECORDED,
        marked(TWO_KEYS, "F1:").replace("to: hazard.1", "to: clock.1"), "in the twin nobody wrote when it is live",
    ),
    Case(
        "FUS14", "error", "lamp", "lamp.2, to: clock.1", "lamp.2, to: battery-", RECORDED,
        marked(TWO_KEYS, "lamp:").replace("lamp.2, to: battery-", "lamp.2, to: clock.1")
        .replace("to: hazard.1", "to: lamp.3"), "through a load",
    ),
    Case(
        "FUS15", "error", "unit.7", "from: F1, to: unit.7", "from: F1, to: unit.8", RECORDED,
        DATA.replace("to: wake.1", "to: unit.7"), "by a wire",
    ),
    Case(
        "FUS15", "error", "unit.7", "out: {7: data}", "out: {7: lamp feed}", RECORDED,
        DATA.replace("    changes:", "      W3: {size: 0.5 mm2, from: wake.2, to: unit.7}\n    changes:"),
        "by a switch",
    ),
    Case(
        "FUS16", "error", "unit.22", "1.0 mm2, insulation: PVC", "1.5 mm2, insulation: PVC", PVC,
        OUTPUT.replace("W2: {size: 2.5 mm2", "W2: {size: 1.0 mm2, insulation: PVC"), "up to the public figure",
    ),
    Case(
        "FUS16", "stop", "unit.22", "22: 15 A", "22: 10 A", UNWRITTEN,
        OUTPUT.replace("W1: {size: 2.5 mm2", "W1: {size: 1.0 mm2"), "above the public figure",
    ),
    Case(
        "FUS16", "stop", "unit.22", "guarded: {22: 15 A}", "guarded: {22: unknown}", UNWRITTEN,
        OUTPUT.replace("W1: {size: 2.5 mm2", "W1: {size: 1.0 mm2"), "in the twin it is not known",
    ),
    Case(
        "LOD08", "error", "lamp", "21 W at 24 V", "21 W at 12.8 V", MADE_FOR,
        marked(LAMP, "lamp:").replace("12.8 V", "24 V"), "a lorry's lamp",
    ),
    Case("LOD08", "error", "lamp", "9 W at 6 V", "9 W at 10.2 V", MADE_FOR,
        marked(LAMP, "lamp:").replace("21 W at 12.8 V", "9 W at 6 V"), "half the volts",
    ),
    Case(
        "LOD08", "error", "lamp", "supply: 10 V", "supply: 10.5 V", MADE_FOR,
        marked(LAMP, "lamp:").replace("13.5 V", "10 V").replace("12.8 V", "13.5 V"), "just above",
    ),
)  # fmt: skip

ENDS = (
    Case(
        "END07", "error", "C1-W1-F1", "F1: taped 30 mm", "F1: capped 30 mm", RECORDED,
        CUT.replace("capped 30 mm", "taped 30 mm"), "live by a fuse",
    ),
    Case(
        "END07", "error", "C1-W2-lamp.2", "taped 30 mm", "capped 30 mm", RECORDED, THROUGH_IT, "live through a load",
    ),
    Case(
        "LOD02", "error", "lamp", "from: FS1, to: lamp.1", "from: FS2, to: lamp.1", RECORDED, DELETED, "off a splice",
    ),
    Case(
        "LOD02", "error", "lamp", "verdict: deleted", "verdict: kept", RECORDED,
        DELETED.replace("from: FS1, to: lamp.1", "from: clock.1, to: lamp.1"), "off the plug of another load",
    ),
    Case("END08", "stop", "lamp", "gone: yes", "gone: no", RECORDED, GONE, "live by a fuse"),
    Case(
        "END08", "stop", "lamp", "to: lamp.1", "to: clock.3", RECORDED,
        GONE.replace("from: FS1, to: lamp.1", "from: unit.22, to: lamp.1"), "live by an output",
    ),
    Case(
        "INS01", "stop", "W1", "hottest: 181 C", "hottest: 150 C", "silicone bears 180 C, nothing more",
        HOT, "hotter than every insulation",
    ),
    Case(
        "INS01", "stop", "W1", "hottest: 181 C", "hottest: 179 C", "nothing in the table bears more than 180 C",
        HOT.replace(", insulation: silicone", ""), "insulation not written",
    ),
    Case(
        "INS01", "error", "W1", "hottest: 86 C", "hottest: 70 C", "PVC bears 85 C", HOT.replace("181 C", "86 C")
        .replace("silicone", "PVC"), "within the table",
    ),
)  # fmt: skip

LET_STAND = (
    Case("ACC03", "warning", "", "by: AK", "of: F1, by: AK", PVC, ACCEPTED.replace(" of: F1,", ""), "no thing named"),
    Case(
        "ACC03", "warning", "F1", "1.0 mm2", "1.0 mm2, insulation: PVC", UNWRITTEN,
        ACCEPTED.replace(", insulation: PVC", ""), "above the public figure",
    ),
    Case(
        "ACC03", "warning", "F1", "rating: 20 A", "rating: 15 A", PVC,
        ACCEPTED.replace("15 A", "20 A").replace("1.5 mm2", "2.5 mm2"), "a fuse that is too large for anybody",
    ),
)  # fmt: skip

CASES = (*WAYS_HOME, *PROTECTION, *ENDS, *LET_STAND)
