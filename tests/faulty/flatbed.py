"""The flatbed as careless hands would have left it: joints, pieces, places, photographs and the order of the work."""

from __future__ import annotations

from tests.faulty.edits import Edit, before, edit

SLUG = "flatbed"
JOB = "job.yml"
ROWS = "\nphotos:\n  - id: P1\n"  # new rows go in front of it
WIRES = "offcuts:\n"
READINGS = "  - {id: R2, red: battery-"

EDITS: tuple[Edit, ...] = (
    before(
        "a feed of the trailer socket, put on the ground lug",
        JOB,
        "photos:\n  - id: P1",
        '  - {id: C70, kind: add, wire: W70, from: F3, to: L1, piece: RD 1.5 mm2, cut: 900 mm, ring: "new, M8", '
        "made: 2021-08-12 RB}\n\n",
        "FUS10 stop F3",
    ),
    before(
        "the reversing lamp was to light with the key off, so its fuse was joined to that of the stop lamps",
        JOB,
        ROWS,
        "  - {id: C71, kind: add, wire: W71, from: F1, to: F3, piece: RD/WH 2.5 mm2, cut: 100 mm, "
        "made: 2021-08-12 RB}\n"
        "  - {id: C72, kind: add, wire: W72, from: F1, to: bus-unit.3, piece: RD/WH 2.5 mm2, cut: 400 mm, "
        "made: 2021-08-12 RB}\n",
        "FUS14 error F1",
        "FUS15 error bus-unit.3",
    ),
    before(
        "what is planned next: a jumper round a fuse to a splice that is put on the lug, a lead past the fuse of stop "
        "lamps, a wire pulled off its fuse and left bare, another cut off at the battery",
        JOB,
        ROWS,
        "  - {id: C90, kind: add, wire: W90, from: F2.feed, to: FS1, piece: GY 0.5 mm2, cut: 200 mm}\n"
        '  - {id: C91, kind: add, wire: W91, from: FS1, to: L1, piece: GY 0.5 mm2, cut: 900 mm, ring: "new, M8"}\n'
        "  - {id: C92, kind: add, wire: W92, from: battery+, to: FS2, piece: RD 2.5 mm2, cut: 3 m}\n"
        "  - {id: C93, kind: remove, wire: W17, ends: {F3: uncapped, reverse-switch.1: gone}}\n"
        '  - {id: C94, kind: remove, wire: W94, was: "RD 6 mm2, battery+ to lift.1, 6 m", '
        "ends: {battery+: capped 60 mm, lift.1: gone}}\n",
        "FUS13 error F2",
        "FUS10 error F2",
        "FUS03 error stop left",
        "END01 error C93-W17-F3",
        "END05 error C94-W94-battery+",
    ),
    edit(
        "a unit that a feed was led to by its data pin, and outputs that let out more than their wires bear",
        JOB,
        "  cab-unit: {out: {7: left indicators, 8: right indicators},",
        "  bus-unit: {out: {3: data}, at: dash}\n"
        "  cab-unit: {out: {7: left indicators, 8: right indicators}, guarded: {7: 15 A, 8: 12 A},",
        "FUS16 stop cab-unit.7",
    ),
    edit(
        "of one of them the insulation is known",
        JOB,
        "W20: {colour: BU/GN, size: 1.0 mm2,",
        "W20: {colour: BU/GN, size: 1.0 mm2, insulation: PVC,",
        "FUS16 error cab-unit.8",
    ),
    edit(
        "the left branch hangs in front of the exhaust's end",
        JOB,
        "{from: rear-split, to: tail-left, length: 650 mm, zone: wet}",
        "{from: rear-split, to: tail-left, length: 650 mm, zone: wet, hottest: 190 C}",
        "INS01 stop W12",
    ),
    edit("a battery that is all but flat", JOB, "supply: 13.5 V", "supply: 10 V", "HDR02 warning "),
    # ---- cut ends ----------------------------------------------------------------------------------------------------
    edit(
        "the live end at the fuse was cut and left hanging",
        JOB,
        "{F4: pulled, door-lock.1: gone}",
        "{F4: uncapped, door-lock.1: gone}",
        "END01 stop C1-W24-F4",
    ),
    edit(
        "the lamp's ground end was left bare, and its plug is said to be gone",
        JOB,
        "W27: {door-lamp.2: gone, FS3: flush}",
        "W27: {door-lamp.2: uncapped, FS3: flush}",
        "END02 error C2-W27-door-lamp.2",
        "END08 error door-lamp",
    ),
    edit(
        "the switch on the gearbox is said to be gone, with its feed on",
        JOB,
        "reverse-switch: {ways: 2,",
        "reverse-switch: {ways: 2, gone: yes,",
        "END08 stop reverse-switch",
    ),
    edit(
        "nobody wrote how the splice was left",
        JOB,
        "W26: {FS1: flush, door-lamp.1: gone}",
        "W26: {door-lamp.1: gone}",
        "END04 error C2-W26-FS1",
    ),
    before(
        "nobody wrote what became of the far end",
        JOB,
        ROWS,
        '  - {id: C20, kind: remove, wire: W50, was: "GN 0.5 mm2, step-lamp.1 to step-lamp.2", '
        "ends: {step-lamp.1: gone}, made: 2021-08-12 RB}\n",
        "END03 error C20-W50-step-lamp.2",
    ),
    # ---- splices -----------------------------------------------------------------------------------------------------
    edit(
        "the tap sits against the plug",
        JOB,
        "from: tail-left.3, tail: 380 mm",
        "from: tail-left.3, tail: 20 mm",
        "SPL01 error C9",
    ),
    edit(
        "two taps side by side make a lump",
        JOB,
        "from: tail-right.3, tail: 620 mm",
        "from: tail-right.3, tail: 605 mm",
        "SPL02 warning C11",
    ),
    edit(
        "joints where the bed hinges",
        JOB,
        "{from: rear-split, to: tail-right, length: 800 mm, zone: wet}",
        "{from: rear-split, to: tail-right, length: 800 mm, zone: [wet, flex]}",
        "SPL03 error C7",
    ),
    edit(
        "a tap that nobody covered",
        JOB,
        "piece: BK 1.0 mm2, reach: 700 mm,",
        "piece: BK 1.0 mm2, reach: 700 mm, cover: none,",
        "SPL04 stop C13",
    ),
    edit(
        "plain sleeve under the bed, where it is wet",
        JOB,
        "piece: RD 1.0 mm2, reach: 760 mm,",
        "piece: RD 1.0 mm2, reach: 760 mm, cover: plain sleeve 40 mm,",
        "SPL05 error C12",
    ),
    edit(
        "the sleeve hardly reaches over the joint",
        JOB,
        "piece: BN 1.0 mm2, reach: 790 mm,",
        "piece: BN 1.0 mm2, reach: 790 mm, cover: adhesive sleeve 20 mm,",
        "SPL06 warning C11",
    ),
    edit(
        "strands tinned and then crimped",
        JOB,
        "    plug: tail-right\n    pigtail: 2680 mm\n",
        '    plug: tail-right\n    pigtail: 2680 mm\n    joint: "butt, crimped, tinned first"\n',
        "SPL08 error C4",
    ),
    edit(
        "a barrel too small for two wires",
        JOB,
        "pigtail: 2860 mm, new reach: 4900 mm,",
        'pigtail: 2860 mm, new reach: 4900 mm, joint: "closed-end, crimped, barrel 0.5-1.5 mm2", '
        "where: 200 mm from cab-wall towards rear-split,",
        "SPL10 warning C5",
        "PLC03 warning C5",
    ),
    edit(
        "a thick wire lapped over three millimetres; the piece was cut too long and nobody said from where",
        JOB,
        "tail: 120 mm, gap: 430 mm,",
        "tail: 120 mm, gap: 430 mm, overlap: 3 mm, cut: 900 mm, where: 430 mm,",
        "SPL09 warning C6",
        "LEN01 warning C6-W23",
        "PLC01 error C6",
    ),
    edit(
        "a wire nut on a number lamp, the pin soldered though its maker forbids it, from an offcut that is not there",
        JOB,
        "piece: GY/RD 0.5 mm2 from O5, reach: 60 mm,",
        'piece: GY/RD 0.5 mm2 from O55, reach: 60 mm, joint: "twist, none", terminal fixed: soldered,',
        "SPL12 error C7",
        "TRM01 warning C7",
        "OFF02 note C7-W30",
    ),
    edit(
        "the maker forbids solder there, and the leg is not that long",
        JOB,
        "number-lamp: {ways: 2, at: rear-split,",
        "number-lamp: {ways: 2, at: 900 mm from rear-split towards rear-lug, solder: not allowed,",
        "PLC02 error number-lamp",
    ),
    before(
        "a marker lamp let in a week after the car left: a third joint, no picture, no test, one ring on a bare post",
        JOB,
        ROWS,
        "  - {id: C21, kind: tap, wire: W47, onto: W15, from: tail-left.1, tail: 300 mm, to: marker.1, "
        "piece: GY 1.0 mm2, reach: 400 mm, made: 2021-08-29 RB}\n"
        '  - {id: C22, kind: ground, wire: W48, was: "BN 1.0 mm2, marker.2 to FS3, 300 mm", end: FS3, to: L2, '
        'ring: "new, M6", made: 2021-08-29 RB}\n',
        "SPL11 warning W15",
        "PHO03 warning C21",
        "PRO03 warning ",
    ),
    edit(
        "the wrap took in a joint that was not yet made, and was wound before the test",
        JOB,
        "C10, C11, C12, C13], made: 2021-08-19 RB, minutes: 50}",
        "C10, C11, C12, C13, C21], made: 2021-08-15 RB, minutes: 50}",
        "PRO01 warning C17",
        "PRO02 warning C17",
    ),
    # ---- pieces ------------------------------------------------------------------------------------------------------
    edit(
        "a lead cut short",
        JOB,
        "piece: BK 1.0 mm2, reach: 300 mm,",
        "piece: BK 1.0 mm2, reach: 300 mm, slack: -20 mm,",
        "LEN02 warning C8-W31",
    ),
    edit(
        "two greens in one socket",
        JOB,
        "piece: YE 1.0 mm2, reach: 820 mm",
        "piece: GN 1.0 mm2, reach: 820 mm",
        "COL02 error C10-W42",
    ),
    edit(
        "orange house wire, solid and far too thick for the socket",
        JOB,
        "piece: WH 2.5 mm2, reach: 850 mm,",
        "piece: OG 6 mm2, reach: 850 mm, conductor: solid copper,",
        "COL04 warning C14-W46",
        "MAT01 error C14",
        "SIZ02 warning C14-W46",
    ),
    edit("what the socket takes", JOB, "trailer: {ways: 7,", "trailer: {ways: 7, takes: 0.5-1.5 mm2,"),
    edit(
        "the wire is not the one of the diagram",
        JOB,
        "W11: {colour: GN/RD,",
        "W11: {colour: GN/RD, by diagram: GN/WH,",
        "COL05 warning W11",
    ),
    edit(
        "two sizes are printed and do not agree",
        JOB,
        "W18: {colour: WH/BK, size: 1.5 mm2,",
        "W18: {colour: WH/BK, size: 1.5 mm2, other size: 20 AWG,",
        "SIZ03 warning W18",
    ),
    edit(
        "more on the rack than was cut out",
        JOB,
        "O8: WH/BK 1.5 mm2 900 mm",
        "O8: WH/BK 1.5 mm2 1200 mm",
        "LEN03 warning C5",
    ),
    edit(
        "a browned end, and less of it than was cut",
        JOB,
        "O9: BK 2.5 mm2 2 m",
        'O9: "BK 2.5 mm2 200 mm, browned"',
        "OFF01 error C6-W23",
        "OFF03 error C6-W23",
    ),
    # ---- readings, photographs, names --------------------------------------------------------------------------------
    edit(
        "the rear ground read half a volt and nobody minded",
        JOB,
        "read: 0.05 V, limit: 0.1 V",
        "read: 0.5 V, limit: 0.1 V",
        "RDG01 error R1",
    ),
    edit(
        "a key-off current too high, found right the next day",
        JOB,
        "read: 22 mA, limit: 50 mA",
        "read: 220 mA, limit: 50 mA",
        "RDG01 note R2",
    ),
    before(
        "the reading of the next day, and one of a row that is not there under an id used twice",
        JOB,
        READINGS,
        "  - {id: R3, red: battery-, black: negative clamp, read: 22 mA, limit: 50 mA, on: 2021-08-19, by: RB}\n"
        "  - {id: R1, of: C99, read: 0.2 V, on: 2021-08-19, by: RB}\n",
        "REF02 error R1",
        "REF03 error R1",
    ),
    edit(
        "the picture is not in the folder",
        JOB,
        "file: photos/f01-shorten.jpg",
        "file: photos/f01-lost.jpg",
        "PHO04 error P1",
    ),
    edit(
        "a neighbour's plate in the picture",
        JOB,
        "    stage: sealed\n    caption: trailer socket",
        "    stage: sealed\n    face or plate: yes\n    caption: trailer socket",
        "PHO06 warning P2",
    ),
    before(
        "a picture of nothing in particular",
        JOB,
        "readings:\n",
        "  - {id: P3, file: photos/f02-trailer-plug.jpg}\n",
        "PHO05 note P3",
    ),
    before(
        "a splice named in passing, one letter off",
        JOB,
        WIRES,
        "  W28: {colour: BN, size: 1.0 mm2, from: marker.2, to: FS31, length: 300 mm}\n",
        "REF01 note FS31",
    ),
    edit(
        "the plug's name is misspelt at its load",
        JOB,
        "reversing lamp: {between: tail-right.4 tail-right.5,",
        "reversing lamp: {between: tail-rigth.4 tail-right.5,",
        "REF04 warning reversing lamp",
    ),
    before(
        "ends on a point that nobody declared",
        JOB,
        ROWS,
        '  - {id: C23, kind: ground, wire: W49, was: "BN 1.0 mm2, horn.2 to FS3, 300 mm", end: FS3, to: L9, '
        'ring: "new, M8", made: 2021-08-12 RB}\n',
        "REF05 warning C23",
    ),
    # ---- bundles and grounds -----------------------------------------------------------------------------------------
    edit(
        "a bare hole in the cab wall, and too narrow",
        JOB,
        "route:\n",
        "holes: {cab-wall: {through: sheet metal, grommet: no, bore: 5 mm}}\nroute:\n",
        "BUN01 warning cab-wall",
        "BUN03 error cab-wall",
    ),
    edit(
        "the frame rail passes the exhaust",
        JOB,
        "length: 2600 mm, zone: wet, name: left frame rail}",
        "length: 2600 mm, zone: wet, hottest: 95 C, name: left frame rail}",
    ),
    edit(
        "and there it is wound with vinyl tape",
        JOB,
        "cover: conduit 20 mm, over:",
        "cover: vinyl tape, over:",
        "BUN02 warning C17",
    ),
    edit(
        "left lamp on the shared stud",
        JOB,
        "stop left: {between: tail-left.2 tail-left.5, draws: 21 W at 12.8 V, class: lamp}",
        "stop left: {between: tail-left.2 tail-left.5, draws: 21 W at 12.8 V, class: lamp, side: left}",
    ),
    edit(
        "the indicator too",
        JOB,
        "indicator left: {between: tail-left.3 tail-left.5, draws: 21 W at 12.8 V, class: lamp}",
        "indicator left: {between: tail-left.3 tail-left.5, draws: 21 W at 12.8 V, class: indicator}",
    ),
    edit(
        "and the right one with it",
        JOB,
        "stop right: {between: tail-right.2 tail-right.5, draws: 21 W at 12.8 V, class: lamp}",
        "stop right: {between: tail-right.2 tail-right.5, draws: 21 W at 12.8 V, class: lamp, side: right}",
        "GND09 note L1",
    ),
    edit(
        "the battery went under the bed and nobody looked at the body's cable",
        JOB,
        "body returns: yes ",
        "battery moved: yes\nbody returns: yes ",
        "GND12 warning ",
    ),
    before(
        "the bare post of the marker lamp",
        JOB,
        "splices:\n",
        "  L2: {what: bed post, at: 300 mm from rear-split towards tail-left, stud: M6, back to: battery-}\n",
    ),
    before(
        "a marker lamp",
        JOB,
        "grounds:\n",
        "  marker: {between: marker.1 marker.2, draws: 5 W at 12.8 V, class: lamp}\n",
    ),
    # ---- what cannot be as it is written ---------------------------------------------------------------------------
    before(
        "two bed studs that are said to lead back to each other, and a third to them",
        JOB,
        "splices:\n",
        "  L3: {what: bed stud, back to: L4}\n  L4: {what: second bed stud, back to: L3}\n  L5: {back to: L4}\n",
        "GND13 error L3",
        "GND13 error L4",
        "GND13 error L5",
    ),
    before(
        "a buzzer on a shelf that is no landmark, and a work lamp somewhere past the takeout",
        JOB,
        "fuses:\n",
        "  buzzer: {ways: 2, at: shelf}\n  work-lamp: {ways: 2, at: 300 mm past rear-split}\n",
        "PLC05 note buzzer",
        "PLC06 error work-lamp",
    ),
    before("its relay", JOB, "modules:\n", "  K9 contact: {between: K9.30 K9.87, at: dash, worked by: K9 coil}\n"),
    before("and the coil of that", JOB, "grounds:\n", "  K9 coil: {between: K9.86 K9.85, class: coil}\n"),
    before(
        "a feed, a contact and a cavity misspelt, a wire led by a sill that is nowhere, one from a cavity to itself",
        JOB,
        WIRES,
        "  W80: {colour: RD, size: 1.5 mm2, from: F2.fed, to: K9.78}\n"
        "  W81: {colour: RD, size: 1.5 mm2, from: K9.87, to: work-lamp.9, by: sill}\n"
        "  W82: {colour: BN, size: 1.0 mm2, from: buzzer.2, to: buzzer.2}\n",
        "REF06 error W80",
        "REF06 warning W80",
        "REF07 error work-lamp",
        "PLC05 warning W81",
        "REF08 error W82",
    ),
    before(
        "a reading at a cavity that no wire ends in",
        JOB,
        READINGS,
        "  - {id: R4, red: tail-left.9, black: L1, read: 12.1 V, on: 2021-08-19, by: RB}\n",
        "RDG03 warning R4",
    ),
)
