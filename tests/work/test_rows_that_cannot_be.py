"""What a row is refused for, word for word and at the line of its key; and the row one step away that is in force.

Each case stands behind a car of a few wires; rows above the last one are in force. Lengths by hand: slack 50, laps of
10, 6 mm into a barrel.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from aswired.car.asbuilt import fold
from aswired.car.harness import NodeKind, View
from aswired.files import read_job
from findings.jobs import work

HEAD = """job: Van
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cover: adhesive sleeve 40 mm}
landmarks: {dash: a, roof: b, sill: c, tail: d, shed: e, yard: f}
route:
  - {from: dash, to: roof, length: 500 mm}
  - {from: roof, to: tail, length: 500 mm}
  - {from: dash, to: sill, length: 700 mm}
  - {from: sill, to: tail, length: 700 mm}
  - {from: shed, to: yard, length: 700 mm}
plugs: {lamp: {at: tail}, horn: {}, box: {}}
modules: {unit: {out: {3: fan feed}, ground: [31]}}
fuses: {F1: {rating: 5 A, in: dash}, F2: {rating: 5 A}, F9: {rating: 5 A}}
grounds: {G1: {}, L1: {}}
splices: {FS1: {}, FS9: {}}
offcuts: {O1: RD 1.5 mm2 400 mm}
wires:
  W1: {colour: RD, size: 1.5 mm2, from: F1, to: lamp.1, length: 1000 mm, by: [roof]}
  W2: {colour: BK, size: 1.5 mm2, from: lamp.2, to: G1, length: 900 mm}
  W3: {colour: GN, size: 1 mm2, from: FS1, to: horn.1, length: 300 mm}
  W4: {colour: GN, size: 1 mm2, from: unknown, to: FS1, length: 600 mm}
  W5: {colour: YE, size: 1 mm2, from: lamp.3, to: lamp.4, length: 200 mm}
  W6: {colour: YE, size: 1 mm2, from: loose, to: horn.2, length: 500 mm}
  W7: {colour: VT, size: 1 mm2, from: horn.3, to: F2, length: 700 mm}
  W8: {colour: VT, size: 1 mm2, from: unknown, to: unknown, length: 700 mm}
changes:
"""
EXTEND = "id: C1; kind: extend; wire: W1; plug: lamp; pigtail: 300 mm; gap: 400 mm; piece: RD 1.5 mm2"
TAP = "id: C1; kind: tap; wire: W9; onto: W1; from: F1; tail: 200 mm; to: box.1; reach: 300 mm; piece: RD 1 mm2"
CAP = "id: C1; kind: cap; wire: W1; end: lamp.1; stub: 200 mm"

# rows (the last one is refused), problem, mend, key of the line that is shown, and what changes for it to be in force
CASES = [
    # ---- add
    (["id: C1; kind: add; wire: W1; from: box.1; to: box.2; reach: 100 mm"],
     "wire 'W1' is there already", "Give the new lead a name of its own", "wire", ("W1", "W9")),
    (["id: C1; kind: add; wire: W9; from: box.1; to: box.1; reach: 100 mm; terminal: double crimp"],
     "both ends of 'W9' are 'box.1'", "Name two ends", "to", ("to: box.1", "to: box.2")),
    (["id: C1; kind: add; wire: W9; from: lamp.1; to: box.1; reach: 100 mm"],
     "cavity 'lamp.1' already holds wire 'W1'", "Name another cavity, or write terminal: double crimp", "from",
     ("reach", "terminal: double crimp; reach")),
    (["id: C1; kind: add; wire: W9; from: box.1; to: lamp; reach: 100 mm"],
     "'lamp' is a connector, and no cavity of it is named", "Write the cavity too: lamp.1", "to",
     ("to: lamp", "to: lamp.9")),
    (["id: C1; kind: add; wire: W9; from: unit; to: box.1; reach: 100 mm"],
     "'unit' is a connector, and no cavity of it is named", "Write the cavity too: unit.1", "from",
     ("from: unit", "from: unit.3")),
    (["id: C1; kind: add; wire: W9; from: loose; to: box.1; reach: 100 mm"],
     "'loose' is an end that nothing holds; it does not say which",
     "Name the cut end, as in W50-loose; or cut the wire with a row of kind cap", "from",
     ("from: loose", "from: W6-loose")),
    (["id: C1; kind: add; wire: W9; from: box.1; to: box.2; reach: 400 mm; piece: RD 1.5 mm2 from O1"],
     "offcut O1 has 400 mm left; the piece needs 462 mm", "Choose another offcut, or new wire", "piece",
     ("400 mm", "338 mm")),  # 338 + 50 + 6 + 6 = 400: the whole of it
    # ---- bridge
    (["id: C1; kind: bridge; ends: [horn.1]"], "a bridge joins two ends",
     "Write both: ends: [neutral-switch.1, neutral-switch.2]", "ends", ("[horn.1]", "[horn.1, horn.3]")),
    (["id: C1; kind: bridge; ends: [horn.1, horn.1]; cut: 90 mm"], "a bridge joins two ends",
     "Write both: ends: [neutral-switch.1, neutral-switch.2]", "ends", ("horn.1, horn.1", "horn.1, horn.3")),
    (["id: C1; kind: bridge; ends: [horn.1, W1 at lamp.1]"],
     "a jumper reaches from a cavity, a splice or a cut end to another; a wire that is whole has none here",
     "Name the cavity, cut the wire with a row of kind cap first, or take piece:, cut:, reach: and wire: out", "ends",
     ("W1 at lamp.1", "lamp.1")),
    (["id: C1; kind: bridge; ends: [W3 at horn.1, W1 at lamp.1]; wire: W9"],
     "a jumper reaches from a cavity, a splice or a cut end to another; a wire that is whole has none here",
     "Name the cavity, cut the wire with a row of kind cap first, or take piece:, cut:, reach: and wire: out", "ends",
     ("; wire: W9", "")),
    (["id: C1; kind: bridge; ends: [W3 at horn.1, W1 at lamp.1]; cut: 90 mm"],
     "a jumper reaches from a cavity, a splice or a cut end to another; a wire that is whole has none here",
     "Name the cavity, cut the wire with a row of kind cap first, or take piece:, cut:, reach: and wire: out", "ends",
     ("; cut: 90 mm", "")),
    (["id: C1; kind: bridge; ends: [horn.1, lamp.1]; wire: W2; cut: 90 mm"],
     "wire 'W2' is there already", "Give the jumper a name of its own", "wire", ("W2", "W9")),
    # ---- cap
    (["id: C1; kind: cap; wire: W1; end: lamp.1; stub: 1000 mm"],
     "a stub of 1000 mm leaves nothing of the 1000 mm that hang at 'lamp.1'",
     "Measure the stub from the end to the cut", "stub", ("1000 mm", "999 mm")),
    # ---- extend
    (["id: C1; kind: extend; wire: W1; pigtail: 300 mm; gap: 400 mm; piece: RD 1.5 mm2"],
     "the row gives a pigtail or a tail but not of which end", "Write plug: or end:, the end that moved", "wire",
     ("; pigtail: 300 mm", "")),
    (["id: C1; kind: extend; wire: W1; tail: 300 mm; gap: 400 mm; piece: RD 1.5 mm2"],
     "the row gives a pigtail or a tail but not of which end", "Write plug: or end:, the end that moved", "wire",
     ("; tail", "; end: F1; tail")),
    ([EXTEND, "id: C2; kind: extend; wire: W1; gap: 200 mm; piece: RD 1.5 mm2"],
     "wire 'W1' has splices in it; the row does not say near which end it is cut", "Write plug: or end:", "wire",
     ("; gap", "; end: F1; gap")),
    ([EXTEND, "id: C2; kind: extend; wire: W1; plug: lamp; pigtail: 300 mm; gap: 90 mm; piece: RD 1.5 mm2"],
     # 300 mm are left on the plug; behind the splice the piece leads on
     "300 mm from 'lamp.1' lies beyond the 300 mm of this stretch; there lies W1 from C1-W1-plug to C1-W1-loom",
     "Measure from the other side, or write end: C1-W1-plug", "pigtail", ("300 mm", "299 mm")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; pigtail: 1001 mm; gap: 90 mm; piece: RD 1.5 mm2"],
     "1001 mm from 'lamp.1' lies beyond the 1000 mm of this stretch; the wire ends at F1",
     "Measure the pigtail again", "pigtail", ("1001", "900")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; pigtail: 300 mm; tail: 701 mm; gap: 90 mm; piece: RD 1.5 mm2"],
     "tail and pigtail of W1 are 1001 mm together, the stretch is 1000 mm long",
     "Measure tail, pigtail and length again",
     "pigtail", ("701", "700")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; tail: 1000 mm; gap: 90 mm; piece: RD 1.5 mm2"],
     "of W1 between lamp.1 and C1-W1-plug nothing would be left (0 mm)", "Measure the lengths of this row again", "",
     ("1000 mm", "999 mm")),
    (["id: C1; kind: extend; wire: W6; end: loose; gap: 90 mm; piece: RD 1.5 mm2"],
     "nothing holds the loose end of W6: with a piece let in it would still be loose",
     "Write the row that brings it to its place: kind ground, terminate or join", "end", ("end: loose", "end: horn.2")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; pigtail: 300 mm; reach: 930 mm; piece: RD 1.5 mm2"],
     # 930 - 1000 + 50 + 10 + 10 = 0
     "the piece for W1 would be 0 mm by the reach; no piece is needed",
     "Shorten the wire instead, or measure the reach again", "reach", ("930", "931")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; pigtail: 300 mm; gap: -80 mm; piece: RD 1.5 mm2"],
     "the piece for W1 would be -10 mm by the gap; no piece is needed",
     "Shorten the wire instead, or measure the gap again", "gap", ("-80", "-69")),
    (["id: C1; kind: extend; wire: W5; end: lamp.3; pigtail: 90 mm; piece: RD 1.5 mm2; slack: -80 mm; gap: 60 mm"],
     "the piece for W5 would be 0 mm by the gap; no piece is needed",
     "Shorten the wire instead, or measure the gap again", "gap", ("60 mm", "61 mm")),
    (["id: C1; kind: extend; wire: W5; plug: lamp; gap: 90 mm; piece: RD 1.5 mm2"],
     "wire 'W5' ends in plug 'lamp' twice", "Write end: and the cavity instead of plug:", "plug",
     ("plug: lamp", "end: lamp.4")),
    (["id: C1; kind: extend; wire: W1; plug: lamb; gap: 90 mm; piece: RD 1.5 mm2"],
     "wire 'W1' does not end in plug 'lamb'", "Did you mean lamp?", "plug", ("lamb", "lamp"), "ROW03"),
    (["id: C1; kind: extend; wire: W3; plug: box; gap: 90 mm; piece: RD 1.5 mm2"],
     "wire 'W3' does not end in plug 'box'", "The ends of W3 are FS1, horn.1", "plug", ("box", "horn"), "ROW03"),
    ([EXTEND, "id: C2; kind: extend; wire: W1; end: C1-W1-plug; gap: 90 mm; piece: RD 1.5 mm2"],
     "'C1-W1-plug' lies inside wire 'W1', not at its end", "The ends of W1 are F1, lamp.1", "end",
     ("C1-W1-plug", "F1")),
    # ---- ground, terminate
    (["id: C1; kind: ground; wire: W2; end: G1; to: G1"],
     "'G1' of wire 'W2' is there already", "Name the end that moves, or take the row out", "end",
     ("to: G1", "to: L1")),
    (["id: C1; kind: ground; wire: W2; end: G1; to: box.1"],
     "'box.1' is not a ground point", "Name a point of 'grounds:', or use kind terminate", "to", ("box.1", "battery-")),
    (["id: C1; kind: ground; wire: W2; end: G1; to: L1; tail: 901 mm; gap: 90 mm; piece: BK 1.5 mm2"],
     "901 mm cannot be kept of a stretch of 900 mm", "Measure the kept part again", "tail", ("901", "900")),
    (["id: C1; kind: ground; wire: W2; end: G1; to: L1; pigtail: 901 mm; gap: 90 mm; piece: BK 1.5 mm2"],
     "901 mm cannot be kept of a stretch of 900 mm", "Measure the kept part again", "pigtail", ("901", "900")),
    (["id: C1; kind: terminate; wire: W1; end: lamp.1; into: box.1; pigtail: 90 mm; gap: 90 mm; terminal: new"],
     "a pigtail is what stays on a plug; the end that stays, 'F1', is none", "Write tail: with what stays on F1",
     "pigtail", ("pigtail", "tail")),
    (["id: C1; kind: ground; wire: W2; end: G1; to: L1; pigtail: 300 mm; tail: 301 mm; gap: 90 mm"],
     "pigtail and tail both say here what stays on the end that does not move, and they differ", "Write one of them",
     "tail", ("301", "300")),
    (["id: C1; kind: terminate; wire: W7; into: box.1; terminal: new"],
     "the row does not say which end of wire 'W7' moves", "Write end: F2 or end: horn.3", "wire",
     ("into", "end: horn.3; into")),
    (["id: C1; kind: ground; wire: W2; end: G1; to: L1; ring: with C9"],
     "row 'C9' has no ring on 'L1'", "Name the row whose ring takes both wires", "ring", ("with C9", "new")),
    (["id: C1; kind: ground; wire: W2; end: G1; to: L1; ring: new",
      "id: C2; kind: add; wire: W9; from: box.1; to: G1; reach: 100 mm; ring: with C1"],
     "row 'C1' has no ring on 'G1'", "Name the row whose ring takes both wires", "ring", ("to: G1", "to: L1")),
    # ---- join
    (["id: C1; kind: join; ends: [W3 at horn.1]"], "a splice needs two ends at least",
     "Write ends: [W70 at FS5, C30-W61-FS9]", "ends", ("horn.1]", "horn.1, W1 at lamp.1]")),
    (["id: C1; kind: join; ends: [W3 at horn.1, W1 at lamp.1, W3 at horn.1]"], "the same end is named twice",
     "Name each end once", "ends", ("W3 at horn.1]", "W2 at G1]")),
    # ---- protect
    (["id: C1; kind: protect; fuse: F7; relay: K1"], "the row names a fuse and a relay", "Write a row for each",
     "relay", ("; relay: K1", "")),
    (["id: C1; kind: protect; fuse: lamp; rating: 5 A"], "'lamp' is a plug, not a fuse",
     "Write the fuse's own name: fuse: F16", "fuse", ("lamp", "F16")),
    (["id: C1; kind: protect; fuse: L1; rating: 5 A"], "'L1' is a ground point, not a fuse",
     "Write the fuse's own name: fuse: F16", "fuse", ("L1", "F16")),
    (["id: C1; kind: protect; fuse: FS1; rating: 5 A"], "'FS1' is a splice, not a fuse",
     "Write the fuse's own name: fuse: F16", "fuse", ("FS1", "F16")),
    (["id: C1; kind: protect; fuse: F2.feed; rating: 5 A"], "'F2.feed' is one side of a fuse, not a fuse",
     "Write the fuse's own name: fuse: F2", "fuse", (".feed", "")),
    (["id: C1; kind: protect; fuse: unknown; rating: 5 A"], "the row does not name its fuse",
     "Write the name on the fuse box or the tape: fuse: F16", "fuse", ("unknown", "F16")),
    (["id: C1; kind: protect; fuse: F7; wire: W1; end: F1; use: spare"],
     "'F7' cannot be spare with wire 'W1' on it", "Take use: or wire: out", "use", ("; use: spare", "")),
    (["id: C1; kind: protect; fuse: F7; wire: W1"],
     "the row does not say which end of wire 'W1' goes to 'F7'", "Write end: F1 or end: lamp.1", "wire",
     ("W1", "W1; end: F1")),
    (["id: C1; kind: protect; fuse: F7; end: F1"], "the row names an end but no wire", "Write wire: and its name",
     "end", ("end", "wire: W1; end")),
    (["id: C1; kind: protect; fuse: F7; tail: 90 mm"], "the row names an end but no wire", "Write wire: and its name",
     "tail", ("tail", "wire: W1; end: F1; tail")),
    *(
        ([f"id: C1; kind: protect; relay: K1; fed: always; {key}"],
         "a relay has several contacts and no rating; the row does not say which contact of 'K1' is meant",
         "Put the wire into its contact with a row of kind terminate, into: K1.87, and the rating on its fuse",
         "relay", (f"; {key}", ""))
        for key in ("wire: W1", "end: F1", "tail: 90 mm", "rating: 5 A")
    ),
    (["id: C1; kind: protect; fuse: F2; wire: W1; end: F1; tail: 90 mm"],
     "fuse 'F2' has wires on it already; an in-line fuse sits in one wire",
     "Give the new fuse a name of its own, or take tail: out to move the end to it", "fuse", ("F2", "F7")),
    (["id: C1; kind: add; wire: W9; from: box.1; to: F7.feed; reach: 90 mm",
      "id: C2; kind: protect; fuse: F7; wire: W1; end: F1; tail: 90 mm"],
     "fuse 'F7' has wires on it already; an in-line fuse sits in one wire",
     "Give the new fuse a name of its own, or take tail: out to move the end to it", "fuse", ("fuse: F7", "fuse: F8")),
    (["id: C1; kind: protect; fuse: F7; wire: W1; end: F1; tail: 1000 mm"],
     "1000 mm from 'F1' lies beyond the 1000 mm of this stretch", "Measure again", "tail", ("1000", "990")),
    (["id: C1; kind: add; wire: W9; from: F1; to: F2; reach: 100 mm",
      "id: C2; kind: protect; fuse: F2; wire: W9; end: F1"],
     "both ends of wire 'W9' would sit in 'F2'", "Name another fuse", "fuse", ("fuse: F2", "fuse: F8")),
    # ---- remove
    (["id: C1; kind: remove; wire: W1; ends: {F1: pulled, lamp.1: capped 1001 mm}"],
     "a stub of 1001 mm is longer than what hung at 'lamp.1', 1000 mm", "Measure the stub again", "ends",
     ("1001", "1000")),
    (["id: C1; kind: remove; wires: {W2: {G1: gone, lamp.2: capped 901 mm}}"],
     "a stub of 901 mm is longer than what hung at 'lamp.2', 900 mm", "Measure the stub again", "wires",
     ("901", "900")),
    (["id: C1; kind: remove; wire: W1; ends: {F1: pulled, lamp.1: pulled}",
      "id: C2; kind: remove; wire: W1; ends: {F1: pulled}"],
     "wire 'W1' is not in the car any more; C1 took it out", "Check the order of the rows", "wire",
     ("wire: W1; ends: {F1", "wire: W2; ends: {G1")),
    # ---- reroute
    (["id: C1; kind: reroute; wire: W1; by: [roof, sil]"], "'sil' is not on the route", "Did you mean sill?", "by",
     (", sil", "")),
    (["id: C1; kind: reroute; wire: W1; by: [sill, yard]"],
     "no way of the route from 'F1' to 'lamp.1' goes by sill and yard",
     "Name the landmarks that W1 passes, or add the missing leg to 'route:'", "by", (", yard", "")),
    # ---- shorten
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; new reach: 941 mm"],  # 1000 - 941 - 50 - 10 = -1
     "the wire is 1 mm too short for this; it cannot be lapped", "Fold it, put a terminal on, or extend it",
     "new reach", ("941", "940")),
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; gap: -59 mm"],  # 59 - 50 - 10 = -1
     "the wire is 1 mm too short for this; it cannot be lapped", "Fold it, put a terminal on, or extend it", "gap",
     ("-59", "-60")),
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; take out: 1000 mm"],
     "1000 mm cannot be taken out of a stretch of 1000 mm", "Measure again", "take out", ("1000", "980")),
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; pigtail: 0 mm; take out: unknown"],
     "nothing is left on one side of the cut", "Measure the cut again", "pigtail", ("0 mm", "200 mm")),
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; take out: 700 mm; pigtail: 300 mm"],
     "taking out 700 mm leaves nothing on one side of the cut", "Measure the cut again", "pigtail",
     ("300 mm", "280 mm")),
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; take out: 700 mm; tail: 300 mm"],
     "taking out 700 mm leaves nothing on one side of the cut", "Measure the cut again", "tail",
     ("300 mm", "280 mm")),
    # ---- swap
    (["id: C1; kind: swap; plug: horn; new plug: horn; cavities: {1: 1, 2: 2, 3: 3}; seen from: wire side"],
     "both connectors are 'horn'", "Give the new connector a name of its own: new plug:", "new plug",
     ("new plug: horn", "new plug: horn-b")),
    (["id: C1; kind: swap; plug: horn; new plug: box; cavities: {1: 7, 2: 5, 3: 5}; seen from: wire side"],
     "'2' and '3' both go to '5' of the new connector", "Give each its own cavity", "cavities", ("3: 5", "3: 7b")),
    (["id: C1; kind: swap; plug: horn; new plug: box; cavities: {1: 1}; seen from: wire side"],
     "the map does not say where W6 in 'horn.2' and W7 in 'horn.3' went",
     "Add each to cavities:, such as 2: 1, or 2: unknown; or take the wire out in a row above", "cavities",
     ("{1: 1}", "{1: 1, 2: 2, 3: unknown}")),
    # ---- tap
    (["id: C1; kind: tap; wire: W1; end: lamp.1; onto: W1; from: F1; tail: 90 mm"],
     "wire 'W1' cannot be tapped onto itself", "Name the wire that is not cut in onto:", "onto",
     ("onto: W1; from: F1", "onto: W2; from: G1")),
    (["id: C1; kind: tap; wire: W3; onto: W1; from: F1; tail: 90 mm"],
     "the row does not say which end of wire 'W3' is joined on", "Write end: FS1 or end: horn.1", "wire",
     ("onto", "end: horn.1; onto")),
    (["id: C1; kind: tap; wire: W9; onto: W1; from: F1; tail: 1000 mm; to: box.1; reach: 300 mm; piece: RD 1 mm2"],
     "1000 mm from 'F1' lies beyond the 1000 mm of this stretch", "Measure again", "tail", ("1000", "990")),
    (["id: C1; kind: tap; wire: W9; onto: W1; from: F1; tail: 90 mm; reach: 300 mm; piece: RD 1 mm2"],
     "the row does not say where the new lead 'W9' goes", "Write to: and the end", "wire", ("reach", "to: L1; reach")),
    ([TAP, "id: C2; kind: tap; wire: W30; onto: W1; to: box.2; reach: 90 mm; piece: RD 1 mm2"],
     "wire 'W1' has splices in it; the row does not say in which stretch the tap lies",
     "Write the end it was measured from, and how far: from: F1 or from: lamp.1, and tail: 200 mm", "onto",
     ("; to:", "; from: F1; tail: 90 mm; to:")),
    # ---- a ground point that is something else
    *(
        ([f"id: C1; kind: ground; wire: W2; end: G1; to: {what}"],
         f"'{what}' is not a ground point", "Name a point of 'grounds:', or use kind terminate", "to",
         (what, "new-stud"))
        for what in ("F9", "FS9", "F2.feed")
    ),
    (["id: C1; kind: ground; wire: W2; end: G1; to: lamp"],
     "'lamp' is a connector, and no cavity of it is named", "Write the cavity too: lamp.1", "to", ("lamp", "L1")),
    # ---- names
    (["id: C1; kind: cap; wire: X99; end: lamp.1"], "wire 'X99' is not in the wire list",
     "Add X99 to 'wires:', or say on the row what it was: was: GN 18 AWG, FS4 to plug.1", "wire", ("X99", "W1"),
     "ROW02"),
    (["id: C1; kind: shorten; wires: [Wire1]; plug: lamp; take out: 90 mm; pigtail: 90 mm"],
     "wire 'Wire1' is not in the wire list",
     "Add Wire1 to 'wires:', or say on the row what it was: was: GN 18 AWG, FS4 to plug.1", "wires", ("Wire1", "W1"),
     "ROW02"),
    (["id: C1; kind: tap; wire: W9; onto: X99; from: F1; tail: 90 mm; to: box.1; reach: 90 mm"],
     "wire 'X99' is not in the wire list",
     "Add X99 to 'wires:', or say on the row what it was: was: GN 18 AWG, FS4 to plug.1", "onto", ("X99", "W1"),
     "ROW02"),
    (["id: C1; kind: cap; wire: W1; end: lamp.3"], "wire 'W1' does not end in 'lamp.3'", "Did you mean lamp.1?", "end",
     ("lamp.3", "lamp.1"), "ROW03"),
    (["id: C1; kind: cap; wire: W2; end: horn.77"], "wire 'W2' does not end in 'horn.77'",
     "The ends of W2 are G1, lamp.2", "end", ("horn.77", "G1"), "ROW03"),
    (["id: C1; kind: cap; wire: W2; end: unknown"], "wire 'W2' does not end in 'unknown'",
     "The ends of W2 are G1, lamp.2", "end", ("W2", "W4"), "ROW03"),
    # of two ends that nobody followed the word means neither
    (["id: C1; kind: terminate; wire: W8; end: unknown; into: box.1"], "wire 'W8' does not end in 'unknown'",
     "Did you mean unknown W8 1 or unknown W8 2?", "end", ("W8", "W4"), "ROW03"),
    (["id: C1; kind: cap; wire: W2; end: loose"], "wire 'W2' does not end in 'loose'",
     "The ends of W2 are G1, lamp.2", "end", ("W2", "W6"), "ROW03"),
    (["id: C1; kind: remove; wires: {W2: {horn.77: gone}}"], "wire 'W2' does not end in 'horn.77'",
     "The ends of W2 are G1, lamp.2", "wires", ("horn.77", "G1"), "ROW03"),
    (["id: C1; kind: join; ends: [W1 at lamp.1, W2 at horn.77]"], "wire 'W2' does not end in 'horn.77'",
     "The ends of W2 are G1, lamp.2", "ends", ("horn.77", "G1"), "ROW03"),
    (["id: C1; kind: join; ends: [W1 at lamp.1, horn.1]"], "'horn.1' is not a cut end",
     "Write W70 at FS5, or the id of a cut end such as C30-W61-FS9", "ends", ("1, horn.1", "1, W6-loose"), "ROW03"),
    ([EXTEND, "id: C2; kind: add; wire: W9; from: C1-W1; to: box.1; reach: 90 mm"],
     "'C1-W1' may mean C1-W1-loom or C1-W1-plug", "Write the full id", "", ("C1-W1", "C1-W1-loom")),
    ([CAP, "id: C2; kind: add; wire: W9; from: C1-W1; to: box.1; reach: 90 mm"],
     "'C1-W1' may mean C1-W1-F1 or C1-W1-lamp.1", "Write the full id", "", ("C1-W1", "C1-W1-F1")),
    # with the rest gone only one of its cut ends is left, and a shorter name tells it
    ([CAP + "; far: gone", "id: C2; kind: add; wire: W9; from: C1-W2; to: box.1; reach: 90 mm"],
     "the splice 'C1-W2' is not there at this point", "Put this row behind the row that makes it", "from",
     ("C1-W2", "C1-W1")),
    (["id: C1; kind: add; wire: W9; from: C1-plug; to: box.1; reach: 90 mm"],
     "the splice 'C1-plug' is not there at this point", "Put this row behind the row that makes it", "from",
     ("C1-plug", "F2")),
    (["id: C1; kind: swap; plug: hron; new plug: box; cavities: {1: 1, 2: 2, 3: 3}; seen from: wire side"],
     "no wire of the record sits in 'hron'", "Did you mean horn?", "plug", ("hron", "horn"), "ROW03"),
    (["id: C1; kind: swap; plug: zzzzzz; new plug: box; cavities: {1: 1, 2: 2, 3: 3}; seen from: wire side"],
     "no wire of the record sits in 'zzzzzz'", "Name the connector that was replaced", "plug", ("zzzzzz", "horn"),
     "ROW03"),
    (["id: C1; kind: swap; plug: horn; new plug: lamp; cavities: {1: 9, 2: 1, 3: 8}; seen from: wire side"],
     "cavity 'lamp.1' already holds wire 'W1'", "Name another cavity of it", "cavities", ("2: 1", "2: 7")),
    (["id: C1; kind: swap; plug: horn; new plug: box; cavities: {1: 1, 2: 2, 3: 3}"],
     "the row does not say which side the cavity numbers are read from; "
     "a map read from the wrong side swaps every pair",
     "Write seen from: wire side, or seen from: mating side, for both connectors", "cavities",
     ("3: 3}", "3: 3}; seen from: mating side")),
    (["id: C1; kind: cap; wire: W1"], "a row of kind cap wants 'end:'", "Write end: on the row", "kind",
     ("W1", "W1; end: F1")),
    (["id: C1; kind: remove; ends: {F1: gone}"], "a row of kind remove wants 'wire:' or 'wires:'",
     "Write wire: on the row", "kind", ("ends", "wire: W1; ends")),
    (["id: C1; kind: shorten; wire: W1; end: lamp.1; take out: 100 mm; tail: 300 mm; pigtail: 400 mm"],
     "tail and pigtail of W1 are 700 mm together, and what is left of it once 100 mm are out is 900 mm",
     "Measure tail, pigtail and what comes out again; two of them are enough", "pigtail", ("300 mm", "500 mm")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; tail: 0 mm; pigtail: 300 mm; gap: 400 mm"],
     "nothing of the stretch is left on the side of 'F1'", "Measure the pigtail again", "pigtail",
     ("0 mm; pigtail", "1 mm; pigtail")),
    (["id: C1; kind: extend; wire: W1; plug: lamp; pigtail: 300 mm; slack: -80 mm; piece: RD 1.5 mm2"],
     # by the roof as long as the wire: 0 - 80 + 10 + 10
     "the piece for W1 would be -60 mm by the route, the row gives neither gap nor reach; no piece is needed",
     "Write gap: as measured; or look at the length of the wire, the route and the place of both ends", "id",
     ("-80", "-19")),
]  # fmt: skip


def block(row: str) -> str:
    first, *rest = row.split("; ")
    return f"  - {first}\n" + "".join(f"    {part}\n" for part in rest)


def view_of(folder: Path, rows: list[str]) -> View:
    folder.mkdir()
    (folder / "job.yml").write_text(HEAD + "".join(map(block, rows)), encoding="utf-8")
    job = read_job(folder).job
    assert job is not None
    return fold(job, "plan")


def told(view: View) -> tuple[str, ...]:
    """What became of the last row, and what is told of it: rank, entry, problem, mend, the line that is shown."""
    *before, last = view.rows
    assert [row.why for row in before if not row.counts] == []
    found = [
        (f.severity.word, f.code, f.entry, f.problem, f.mend, f.at.text.removeprefix("  - ").strip())
        for f in view.findings
        if f.entry == last.id
    ]
    return (last.status, *(found[0] if found else ()))


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0][-1][8:40]}: {case[1][:40]}")
def test_a_row_that_cannot_be_is_told_at_its_key_and_is_in_force_one_step_away(case, tmp_path: Path) -> None:
    rows, problem, mend, key, (fact, other), *code = case
    parts = [part for part in rows[-1].split("; ") if part.startswith(f"{key or 'id'}:")]
    id = rows[-1].split("; ")[0].removeprefix("id: ")
    assert told(view_of(tmp_path / "wrong", rows)) == (
        "refused",
        "error",
        *(code or ["ROW01"]),
        id,
        problem,
        mend,
        parts[0],
    )
    assert rows[-1].count(fact) >= 1
    right = rows[-1].replace(fact, other, 1)
    assert told(view_of(tmp_path / "right", [*rows[:-1], right]))[0] == "in force"


@pytest.mark.parametrize("first", [True, False], ids=["nothing was there", "a wire was there"])
def test_a_lead_brought_to_the_battery_itself_is_no_ground_point_of_its_own(first: bool, tmp_path: Path) -> None:
    head = HEAD if first else HEAD.replace("from: horn.3, to: F2", "from: horn.3, to: battery-")
    worked = work(tmp_path, head + block("id: C1; kind: ground; wire: W2; end: G1; to: battery-"))
    assert [row.status for row in worked.plan.rows] == ["in force"]
    assert worked.plan.nodes["battery-"].kind is NodeKind.BATTERY
    assert [ground.name for ground in worked.grounds] == ["G1", "L1"]


HALF_DONE = [
    "id: C9; kind: remove; wires: {W1: {F1: pulled, lamp.1: capped 30 mm}, W2: {G1: gone, lamp.2: capped 901 mm}}; "
    "reclaimed: {O9: RD 90 mm}; spare: [F1]",
    "id: C9; kind: extend; wires: {W1: RD 1.5 mm2 from O1, W7: VT 1 mm2}; plug: lamp; pigtail: 300 mm; gap: 90 mm",
    "id: C9; kind: ground; wires: {W2: BK 1.5 mm2, W7: VT 1 mm2}; end: G1; to: L1; gap: 90 mm; ring: new",
    "id: C9; kind: join; ends: [W3 at horn.1, W1 at lamp.1, W4 at horn.3]",
    "id: C9; kind: bridge; ends: [lamp.1, FS1]; wire: W9; reach: 400 mm; piece: RD 1.5 mm2 from O1",
    "id: C9; kind: tap; wire: W3; end: FS2; onto: W1; from: F1; tail: 90 mm",
    "id: C9; kind: protect; fuse: F7; rating: 9 A; wire: W1; end: F1; tail: 1000 mm",
    "id: C9; kind: swap; plug: lamp; new plug: horn; cavities: {1: 7, 2: 8, 3: 1, 4: 9}; seen from: wire side",
    "id: C9; kind: reroute; wires: [W1, W9]; by: [sill]",
    "id: C9; kind: shorten; wires: [W7, W5]; plug: horn; take out: 90 mm; pigtail: 90 mm",
]
DONE = [
    "id: C1; kind: extend; wire: W7; plug: horn; pigtail: 300 mm; gap: 90 mm; piece: VT 1 mm2",
    "id: C2; kind: add; wire: W20; from: box.5; to: L1; reach: 90 mm; ring: new; piece: RD 1.5 mm2 from O1",
]


REFUSED = [*HALF_DONE, *(case[0][-1] for case in CASES if len(case[0]) == 1)]


# what a kind writes before it refuses is taken back in one place for all kinds: every third row in the quick loop
@pytest.mark.parametrize(
    "row", [pytest.param(row, marks=[] if count % 3 == 0 else [pytest.mark.slow]) for count, row in enumerate(REFUSED)]
)
def test_a_refused_row_leaves_the_car_as_it_was(row: str, tmp_path: Path) -> None:
    last = "id: V1; kind: verify; proves: [V1]"
    with_it = view_of(tmp_path / "with", [*DONE, row.replace("id: C1;", "id: C9;"), last])
    without = view_of(tmp_path / "without", [*DONE, last])
    assert {found.id: found.status for found in with_it.rows} == {
        "C1": "in force", "C2": "in force", "C9": "refused", "V1": "in force",
    }  # fmt: skip
    assert replace(with_it, rows=without.rows, findings=without.findings) == without
    assert list(with_it.wires) == list(without.wires)
    assert list(with_it.nodes) == list(without.nodes)
    assert list(with_it.joints) == list(without.joints)
