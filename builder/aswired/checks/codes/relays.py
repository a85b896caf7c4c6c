"""Relays: contacts that follow their coils, worked out in the state that works them."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_BUZZER = (
    "supply: 12 V\nfuses: {{F1: {{rating: 10 A, fed: always}}}}\n"
    "switches:\n"
    "  horn button: {{between: button.1 button.2}}\n"
    "  K1 contact: {{between: K1.30 K1.87a, at rest: closed, worked by: K1 coil}}\n"
    "loads: {{K1 coil: {{between: K1.86 K1.85, draws: 150 mA, class: coil}}}}\n"
    "wires:\n"
    "  W1: {{size: 1.0 mm2, from: F1, to: button.1, length: 1 m}}\n"
    "  W2: {{size: 1.0 mm2, from: button.2, to: K1.30, length: 1 m}}\n"
    "  W3: {{size: 1.0 mm2, from: {}, to: K1.86, length: 1 m}}\n"
    "  W4: {{size: 1.0 mm2, from: K1.85, to: battery-, length: 1 m}}"
)
_LIFTED = (
    "supply: 12 V\n"
    "fuses: {{F1: {{rating: 10 A, fed: always}}, F2: {{rating: 30 A, fed: always}}}}\n"
    "switches: {{K1 contact: {{between: K1.30 K1.87, worked by: K1 coil}}}}\n"
    "loads:\n"
    "  K1 coil: {{between: K1.86 K1.85, draws: 150 mA, class: coil}}\n"
    "  fan: {{between: fan.1 fan.2, draws: 20 A, class: motor}}\n"
    "wires:\n"
    "  W1: {{size: 1.0 mm2, from: F1, to: K1.86, length: 1 m}}\n"
    "  W2: {{size: 1.0 mm2, from: K1.85, to: FS1, length: 1 m}}\n"
    "  W3: {{size: 4 mm2, from: F2, to: fan.1, length: 1 m}}\n"
    "  W4: {{size: 4 mm2, from: fan.2, to: FS1, length: 1 m}}\n"
    "  W5: {{size: {}, from: FS1, to: battery-, length: 12 m}}\n"
    "  W6: {{size: 1.0 mm2, from: F1, to: K1.30, length: 1 m}}"
)

CODES: tuple[Code, ...] = (
    Code(
        "REL01",
        ("error", "warning"),
        "a relay that never comes to rest",
        "Switched on, its contact opens the way of its own coil, falls back, and closes it again. Told of contacts "
        "whose coil hangs on them, straight or by other relays, when the network is solved in that state; a warning "
        "where a length, a size or a current on the way is not recorded.",
        "It buzzes until its contacts burn or weld; what it feeds gets chopped volts.",
        _BUZZER.format("K1.87a"),
        _BUZZER.format("button.2"),
    ),
    Code(
        "REL02",
        ("warning",),
        "a coil with too few volts to pull its contact over",
        "With all that the coil needs switched on, and what comes on with it, against a share of 'system:', or of "
        "'supply:' where that is not written. A coil behind another that does not pull in is not told again.",
        "The relay chatters or stays as it is: the load works on the bench and not in the car.",
        _LIFTED.format("0.5 mm2"),
        _LIFTED.format("4 mm2"),
        limits=("relay pulls in",),
    ),
)
