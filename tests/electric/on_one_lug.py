"""Two loads that share one ground lug, small enough for arithmetic by hand; the second by a switch or by a relay."""

from __future__ import annotations

# Wires 2.5 mm2, 7.60 mohm/m, cable 10 mm2, 1.82 mohm/m: ISO 6722-1 maximum resistance at 20 degrees (from memory).
LAMP = """\
job: Two on one lug
system: 12 V
supply: 12 V
temperature: 20 C
ground side: negative
body returns: no
usual: {joint resistance: 1 mohm, cavity resistance: 2 mohm, ring resistance: 1 mohm, fuse resistance: 5 mohm,
  switch resistance: 4 mohm, contact resistance: 3 mohm}
plugs:
  mid: {ways: 2, in line: yes}
  lamp: {ways: 2}
  fan: {ways: 2}
fuses:
  F1: {rating: 15 A, fed: always}
  F2: {rating: 20 A, fed: ignition}
switches:
  fan switch: {between: s.1 s.2}
loads:
  lamp: {between: lamp.1 lamp.2, draws: 6 A, class: lamp, light: LED}
  fan: {between: fan.1 fan.2, draws: 10 A, class: motor}
grounds:
  L1: {cable: 10 mm2, cable length: 5 m, conducts: yes, back to: battery-}
wires:
  W1: {size: 2.5 mm2, from: F1, to: mid.1, length: 1 m}
  W2: {size: 2.5 mm2, from: mid.1, to: lamp.1, length: 2 m}
  W3: {size: 2.5 mm2, from: lamp.2, to: L1, length: 1 m}
  W4: {size: 2.5 mm2, from: F2, to: s.1, length: 0.5 m}
  W5: {size: 2.5 mm2, from: s.2, to: fan.1, length: 0.5 m}
  W6: {size: 2.5 mm2, from: fan.2, to: L1, length: 0.5 m}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""

CONTACT = (
    ("  fan switch: {between: s.1 s.2}", "  K contact: {between: K.30 K.87, worked by: K coil}"),
    ("from: F2, to: s.1,", "from: F2, to: K.30,"),
    ("from: s.2, to: fan.1,", "from: K.87, to: fan.1,"),
    ("loads:", "  button: {between: b.1 b.2}\nloads:"),
    ("grounds:", "  K coil: {between: K.86 K.85, draws: 0.15 A, class: coil}\ngrounds:"),
    ("changes:", "  W7: {size: 0.75 mm2, from: F1, to: b.1, length: 1 m}\nchanges:"),
    ("changes:", "  W8: {size: 0.75 mm2, from: b.2, to: K.86, length: 1 m}\nchanges:"),
    ("changes:", "  W9: {size: 0.75 mm2, from: K.85, to: L1, length: 1 m}\nchanges:"),
)


def with_each(text: str, changes: tuple[tuple[str, str], ...]) -> str:
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


RELAY = with_each(LAMP, CONTACT)
