"""Relays worked out in the state that works them: jobs with the fault, and the fact that mends it.

Every allowance is at nought, so that the hand arithmetic has lengths of wire and coils alone. A load takes the current
it is written with at the supply and less at fewer volts: it is a resistance.
"""

from __future__ import annotations

from tests.findings.jobs import Case, copper_alone, proved

RECORDED = "none: a recorded fact"
PULL_IN = "65 % of the system's 12 V pull a coil in (relay data sheets): 7.8 V"

BUZZER = """
    job: Relays
    system: 12 V
    supply: 13 V
    fuses: {F1: {rating: 10 A, fed: always}}
    switches:
      horn button: {between: button.1 button.2}
      K1 contact: {between: K1.30 K1.87a, at rest: closed, worked by: K1 coil} # <
    loads: {K1 coil: {between: K1.86 K1.85, draws: 150 mA, class: coil}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: button.1, length: 1 m}
      W2: {size: 1.0 mm2, from: button.2, to: K1.30, length: 1 m}
      W3: {size: 1.0 mm2, from: K1.87a, to: K1.86, length: 1 m}
      W4: {size: 1.0 mm2, from: K1.85, to: battery-, length: 1 m}
"""

# K1's coil hangs on K2's break contact, K2's coil on K1's make contact: K1 pulls in, K2 follows and drops K1, which
# drops K2, and so on for good. With K2's coil straight on its fuse it pulls in once, and K1 stays dropped.
CHASE = """
    job: Relays
    system: 12 V
    supply: 13 V
    fuses: {F1: {rating: 10 A, fed: ignition}, F2: {rating: 10 A, fed: ignition}}
    switches:
      K1 contact: {between: K1.30 K1.87, worked by: K1 coil} # <
      K2 contact: {between: K2.30 K2.87a, at rest: closed, worked by: K2 coil}
    loads:
      K1 coil: {between: K1.86 K1.85, draws: 150 mA, class: coil}
      K2 coil: {between: K2.86 K2.85, draws: 150 mA, class: coil}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: K2.30, length: 1 m}
      W2: {size: 1.0 mm2, from: K2.87a, to: K1.86, length: 1 m}
      W3: {size: 1.0 mm2, from: K1.85, to: battery-, length: 1 m}
      W4: {size: 1.0 mm2, from: F2, to: K1.30, length: 1 m}
      W5: {size: 1.0 mm2, from: K1.87, to: K2.86, length: 1 m}
      W6: {size: 1.0 mm2, from: K2.85, to: battery-, length: 1 m}
"""

# The fan lifts what it shares with the coil: 12 m at 37.1 mohm/m (0.5 mm2, ISO 6722-1) are 0.445 ohm, the fan is 12 V /
# 20 A = 0.6 ohm: the coil has 12 x 0.6 / (0.6 + 0.445) = 6.9 V. At 4.71 mohm/m (4 mm2) it has 12 x 0.6 / 0.657 = 11 V.
LIFTED = """
    job: Relays
    system: 12 V
    supply: 12 V
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 30 A, fed: always}}
    switches:
      K1 contact: {between: K1.30 K1.87, worked by: K1 coil} # <
    loads:
      K1 coil: {between: K1.86 K1.85, draws: 150 mA, class: coil}
      fan: {between: fan.1 fan.2, draws: 20 A, class: motor}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: K1.86, length: 1 m}
      W2: {size: 1.0 mm2, from: K1.85, to: FS1, length: 1 m}
      W3: {size: 4 mm2, from: F2, to: fan.1, length: 100 mm}
      W4: {size: 4 mm2, from: fan.2, to: FS1, length: 100 mm}
      W5: {size: 0.5 mm2, from: FS1, to: battery-, length: 12 m}
      W6: {size: 1.0 mm2, from: F1, to: K1.30, length: 1 m}
"""

CASES = (
    Case(
        "REL01", "error", "K1 contact", "from: K1.87a, to: K1.86", "from: button.2, to: K1.86", RECORDED,
        copper_alone(proved(BUZZER)), "a buzzer, and its coil fed before the contact",
    ),
    Case(
        "REL01", "error", "K1 contact", "from: K1.85, to: K1.30", "from: K1.85, to: battery-", RECORDED,
        copper_alone(proved(
            BUZZER.replace("from: button.2, to: K1.30", "from: button.2, to: K1.86")
            .replace("from: K1.87a, to: K1.86", "from: K1.87a, to: battery-")
            .replace("from: K1.85, to: battery-", "from: K1.85, to: K1.30")
        )), "its contact in the return of its own coil",
    ),
    Case(
        "REL01", "warning", "K1 contact", "from: K1.87a, to: K1.86", "from: button.2, to: K1.86", RECORDED,
        copper_alone(proved(BUZZER)).replace("K1.30, length: 1 m", "K1.30"), "a length of it is not recorded",
    ),
    Case(
        "REL01", "error", "K1 contact", "from: K1.87, to: K2.86", "from: F1, to: K2.86", RECORDED,
        copper_alone(proved(CHASE)), "two that chase each other",
    ),
    Case(
        "REL02", "warning", "K1 contact", "W5: {size: 0.5 mm2", "W5: {size: 4 mm2", PULL_IN,
        copper_alone(proved(LIFTED)), "a shared return that rises",
    ),
    Case(
        "REL02", "warning", "K1 contact", "fan.2, draws: 20 A", "fan.2, draws: unknown", PULL_IN,
        copper_alone(proved(LIFTED)), "a current that is not recorded leaves it not examined",
    ),
)  # fmt: skip
