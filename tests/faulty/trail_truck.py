"""The trail truck by hands that do not ask: circuits, fuses, grounds, special wires, the change list."""

from __future__ import annotations

from tests.faulty.edits import Edit, before, edit

SLUG = "trail-truck"
JOB, HARNESS, ROUTE, CHANGES, READINGS = "job.yml", "harness.yml", "route.yml", "changes.yml", "readings.yml"
ROWS = "  # planned\n"  # new rows go in front of it
LOADS = "  sunroof: {between:"
WIRES = "  # starting\n"

EDITS: tuple[Edit, ...] = (
    # ---- cut ends ----------------------------------------------------------------------------------------------------
    before(
        "the compressor was taken out at the bus bar and its stub capped, with no fuse before it",
        CHANGES,
        ROWS,
        '  - {id: C80, kind: remove, wire: W150, was: "RD 6 mm2, B1 to compressor.1, 60 in", '
        "ends: {B1: capped 60 mm, compressor.1: gone}, made: 2024-11-21 JT}\n",
        "END05 stop C80-W150-B1",
    ),
    before(
        "the washer's wire was taken out of the splice",
        CHANGES,
        ROWS,
        "  - {id: C81, kind: remove, wire: W88, ends: {FS13: flush, washer-switch.1: pulled}, made: 2024-11-21 JT}\n",
        "END06 warning FS13",
        "LOD01 stop washer pump",
    ),
    before(
        "the alarm went out and its feed was wound with tape",
        CHANGES,
        ROWS,
        '  - {id: C104, kind: remove, wire: W163, was: "RD/BN 1.0 mm2, F11 to alarm.1, 40 in", '
        "ends: {F11: taped 60 mm, alarm.1: gone}, made: 2024-11-21 JT}\n",
        "END07 error C104-W163-F11",
    ),
    edit(
        "the cab lamp is said to be on the scrap heap",
        HARNESS,
        "cab-lamp: {ways: 2, at: dash,",
        "cab-lamp: {ways: 2, at: dash, gone: yes,",
        "END08 error cab-lamp",
    ),
    # ---- loads and fuses ---------------------------------------------------------------------------------------------
    edit(
        "the right stop lamp was struck off the list, with its wires on",
        HARNESS,
        "stop right: {between: tail-right.2 tail-right.5, draws: 1.7 A,",
        "stop right: {between: tail-right.2 tail-right.5, verdict: deleted, draws: 1.7 A,",
        "LOD02 error stop right",
        "LOD03 stop stop right",
    ),
    edit(
        "a lorry's bulb in the left dip",
        HARNESS,
        "dip left: {between: lamp-left.1 lamp-left.4, draws: 55 W at 12.8 V,",
        "dip left: {between: lamp-left.1 lamp-left.4, draws: 70 W at 24 V,",
        "DRP03 warning dip left",
        "LOD08 error dip left",
    ),
    edit(
        "the siren's feed was made again with the wire of a loudspeaker",
        CHANGES,
        "    wires: {W51: BU 1.5 mm2, W52: BK 16 AWG}\n    cut: 480 mm\n    cover: adhesive sleeve 60 mm\n",
        "    wires: {W51: BU 0.35 mm2, W52: BK 16 AWG}\n    cut: 480 mm\n    cover: adhesive sleeve 60 mm\n",
        "DRP02 warning siren",
    ),
    edit("the inertia switch was bridged inside", HARNESS, "cuts fuel: yes", "cuts fuel: no", "LOD04 stop fuel pump"),
    edit("nor does the pump relay cut the fuel", HARNESS, "worked by: K2 coil}", "worked by: K2 coil, cuts fuel: no}"),
    edit(
        "the part that excited the alternator went out with the rear wiper",
        HARNESS,
        "rear wiper: {between: rear-wiper.1 rear-wiper.2,",
        "rear wiper: {carries: [alternator excite], between: rear-wiper.1 rear-wiper.2,",
        "LOD05 error rear wiper",
    ),
    edit(
        "so did the unit that closed the bus",
        HARNESS,
        "modules:\n",
        "modules:\n  body-unit: {gone: yes, carries: bus termination}\n",
        "LOD06 error body-unit",
    ),
    edit(
        "a name that no load has", JOB, "must work: [stop left,", "must work: [hooter, stop left,", "LOD07 error hooter"
    ),
    edit(
        "a larger fan on the old fuse",
        HARNESS,
        "draws: 9 A, class: motor, duty: continuous}",
        "draws: 19 A, class: motor, duty: continuous}",
        "FUS04 warning F6",
        "FUS09 warning F6",
    ),
    edit(
        "the fuse kept blowing, so a larger one went in",
        HARNESS,
        "F14: {rating: 10 A,",
        "F14: {rating: 30 A,",
        "FUS01 stop F14",
    ),
    edit("the sunroof's fuse stayed in", CHANGES, "    spare: [F5]\n", "", "FUS02 warning F5"),
    before(
        "two great loads straight off the bus bar, one of them on purpose",
        CHANGES,
        ROWS,
        "  - {id: C82, kind: add, wire: W151, from: B1, to: air-pump.1, piece: RD/WH 16 mm2, cut: 900 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C83, kind: add, wire: W152, from: air-pump.2, to: L1, piece: BK 16 mm2, cut: 900 mm, "
        'ring: "new, M8, 5th from base", made: 2024-11-21 JT}\n'
        "  - {id: C84, kind: add, wire: W153, from: B1, to: starter.1, piece: RD 25 mm2, cut: 900 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C85, kind: add, wire: W154, from: starter.2, to: L1, piece: BK 6 mm2, cut: 900 mm, "
        'ring: "new, M8, 6th from base", made: 2024-11-21 JT}\n',
        "FUS03 stop air pump",
        "FUS03 note starter",
        "FUS12 stop W154",
        "DRP01 warning air pump",
        "GND02 error L1",
        "GND04 warning L1",
    ),
    before(
        "what hangs on them",
        HARNESS,
        LOADS,
        "  air pump: {between: air-pump.1 air-pump.2, draws: 60 A, class: pump}\n"
        "  starter: {between: starter.1 starter.2, draws: 150 A, class: starter, unfused: main feed of the starter}\n",
    ),
    edit(
        "the main fuse hangs half a metre down the cable",
        CHANGES,
        "    end: B1\n    tail: 40 mm\n",
        "    end: B1\n    tail: 500 mm\n",
        "FUS05 error F17",
    ),
    edit(
        "a compressor for the horns, with its fuse where the compressor sits",
        HARNESS,
        "  F16: {rating: 10 A,",
        "  F42: {rating: 15 A, in: dash, feeds: compressor}\n  F16: {rating: 10 A,",
        "FUS05 stop F42",
    ),
    before(
        "and the thin wire to it",
        CHANGES,
        ROWS,
        "  - {id: C105, kind: add, wire: W164, from: B1, to: F42.feed, piece: RD/BK 2.5 mm2, cut: 900 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C106, kind: add, wire: W165, from: F42, to: compressor-plug.1, piece: RD/BK 1.5 mm2, cut: 900 mm, "
        "made: 2024-11-21 JT}\n",
    ),
    before(
        "the radio's fuse holder was burnt, so a wire went round it; somebody says that he knows",
        CHANGES,
        ROWS,
        "  - {id: C107, kind: add, wire: W166, from: F16.feed, to: F16, piece: RD/YE 2.5 mm2, cut: 100 mm, "
        "made: 2024-11-21 JT}\n",
        "FUS13 stop F16",
        "ACC03 warning F16",
    ),
    edit(
        "a heater fan's ground two sizes thinner",
        HARNESS,
        "W17: {colour: BN, size: 2.5 mm2,",
        "W17: {colour: BN, size: 14 AWG, insulation: PVC,",
        "FUS11 error W17",
    ),
    edit(
        "the nose ground was drawn again, thinner",
        HARNESS,
        "W50: {colour: BN, size: 4 mm2,",
        "W50: {colour: BN, size: 12 AWG, insulation: cross-linked,",
        "FUS12 error W50",
    ),
    before(
        "a fuse that is on no list",
        CHANGES,
        ROWS,
        "  - {id: C86, kind: protect, fuse: F40, rating: 10 A, made: 2024-11-21 JT}\n",
        "FUS06 error C86",
    ),
    edit(
        "a fuse for the winch lamp, larger than the one it hangs on",
        HARNESS,
        "  F17: {rating: 80 A,",
        "  F41: {rating: 15 A, in: dash, feeds: winch lamp}\n  F17: {rating: 80 A,",
        "FUS08 warning F41",
    ),
    before(
        "how it was fed",
        CHANGES,
        ROWS,
        "  - {id: C102, kind: add, wire: W158, from: F1, to: F41.feed, piece: GN/YE 1.5 mm2, cut: 300 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C103, kind: add, wire: W159, from: F41, to: winch-lamp.1, piece: GN/YE 1.5 mm2, cut: 900 mm, "
        "made: 2024-11-21 JT}\n",
    ),
    edit(
        "a siren from a fire engine",
        HARNESS,
        "siren-plug.2, draws: 5.2 A",
        "siren-plug.2, draws: 15.5 A",
        "FUS09 error F10",
    ),
    edit("the radio's fuse was never drawn", CHANGES, ", dead without: [F16]", "", "FUS07 warning "),
    # ---- options -----------------------------------------------------------------------------------------------------
    edit(
        "the range switch is bridged and nothing stands in its place",
        CHANGES,
        "    decided by: AK, with the crew chief\n    instead: switch on the clutch pedal, "
        "in the start relay's ground\n",
        "",
        "OPT01 error C62",
    ),
    edit(
        "a wire of the electric heater's car is still fed",
        HARNESS,
        "W40: {colour: RD/GY,",
        "W40: {for: heater is electric, colour: RD/GY,",
        "OPT02 error W40",
    ),
    before(
        "a tap for every car, off a wire that the electric heater's car does not have",
        CHANGES,
        ROWS,
        "  - {id: C87, kind: tap, wire: W155, onto: W80, from: auxheater.1, tail: 12 in, to: clock.1, "
        "piece: RD/GN 18 AWG, reach: 8 in}\n",
        "OPT03 error C87",
    ),
    edit(
        "the feed of the electric heater was struck out",
        CHANGES,
        "  - {id: C48, kind: add, wire: W82, from: B1, to: auxheater.1, piece: RD 6 mm2, reach: 40 in, "
        "only if: heater is "
        "electric, why: the electric one takes 35 A and never runs through the fuse box}\n",
        "",
        "OPT03 warning auxiliary heater",
    ),
    edit(
        "an option that is not declared",
        HARNESS,
        "W45: {colour: GY/GN,",
        "W45: {for: gear box is manual, colour: GY/GN,",
        "OPT04 error W45",
    ),
    # ---- pieces and heat ---------------------------------------------------------------------------------------------
    edit(
        "black let into the pump's feed, and a thin one",
        CHANGES,
        "W56: RD 12 AWG}",
        "W56: BK 16 AWG}",
        "COL03 error C24-W56",
        "SIZ01 error C24-W56",
        "FUS01 error F9",
    ),
    edit(
        "the same red for two wires of the unit's branch",
        CHANGES,
        "W46: WH/GN 16 AWG, W48: RD/GY 16 AWG}",
        "W46: RD/GY 16 AWG, W48: RD/GY 16 AWG}",
        "COL02 warning C17-W46",
    ),
    edit(
        "a wire that melts, on the engine",
        HARNESS,
        "W130: {colour: BN,",
        "W130: {insulation: PVC, colour: BN,",
        "INS01 error W130",
    ),
    before(
        "a joint planned without a cover",
        CHANGES,
        ROWS,
        "  - {id: C88, kind: extend, wire: W143, end: ignition.50, pigtail: 8 in, gap: 4 in, "
        "piece: RD/BK 1.5 mm2, cover: none}\n",
        "SPL04 error C88-W143-ignition.50",
    ),
    edit("a day of cutting without the clamp off", JOB, "  - 2015-03-15\n", "", "PRO04 note "),
    # ---- the change list ---------------------------------------------------------------------------------------------
    before(
        "a stub longer than its wire, and the row that proves it",
        CHANGES,
        ROWS,
        "  - {id: C90, kind: cap, wire: W144, end: start-relay.86, stub: 5 m, far: gone, made: 2024-11-21 JT}\n"
        "  - {id: C91, kind: verify, proves: [C90], made: 2024-11-21 JT}\n",
        "ROW01 error C90",
        "ROW04 note C91",
    ),
    before(
        "a wire that is not listed, an end that the wire does not have, an id that is taken",
        CHANGES,
        ROWS,
        "  - {id: C92, kind: cap, wire: W999, end: F1, stub: 30 mm, far: gone, made: 2024-11-21 JT}\n"
        "  - {id: C93, kind: cap, wire: W24, end: F2, stub: 30 mm, far: gone, made: 2024-11-21 JT}\n"
        "  - {id: C73, kind: verify, proves: [C72], made: 2024-11-21 JT}\n",
        "ROW02 error C92",
        "ROW03 error C93",
        "ROW05 error C73",
    ),
    edit(
        "the electric heater's return was made on a car with the diesel one",
        CHANGES,
        "piece: BK 6 mm2, reach: 16 in, only if: heater is electric}",
        "piece: BK 6 mm2, reach: 16 in, only if: heater is electric, made: 2024-11-21 JT}",
        "ROW06 error C63",
    ),
    edit(
        "a condition nobody declared",
        CHANGES,
        "only if: steering is right,",
        "only if: steer is right,",
        "ROW07 error C49",
    ),
    edit(
        "tested a year before it was made",
        CHANGES,
        "made: 2024-11-21 JT, tested: 2024-11-21 JT, minutes: 15}",
        "made: 2024-11-21 JT, tested: 2023-11-21 JT, minutes: 15}",
        "ROW08 error C72",
    ),
    before(
        "a row on the same wire with an earlier day, and one on another wire",
        CHANGES,
        ROWS,
        "  - {id: C94, kind: extend, wire: W93, plug: radio, pigtail: 4 in, gap: 4 in, piece: PK/RD 12 AWG, "
        "made: 2024-11-01 JT}\n"
        "  - {id: C95, kind: verify, proves: [C36], made: 2024-10-01 JT}\n",
        "ROW09 error C94",
        "ROW09 note C95",
    ),
    before(
        "corrections: of a row that is not there, and one that is only planned",
        CHANGES,
        ROWS,
        "  - {id: C96, kind: verify, proves: [C36], corrects: C777, made: 2024-11-21 JT}\n"
        "  - {id: C97, kind: cap, wire: W131, end: engine-unit.18, stub: 60 mm, far: gone, "
        "cover: adhesive sleeve, corrects: C9}\n",
        "ROW10 error C96",
        "ROW13 warning C97",
    ),
    before(
        "the stub that the cab lamp hangs on was taken out again",
        CHANGES,
        ROWS,
        "  - {id: C98, kind: remove, wire: W75, ends: {F11: pulled, roof-console.1: gone}, redoes: C11, "
        "made: 2024-11-21 JT}\n",
        "ROW11 error C37",
    ),
    before(
        "a day that is still to come",
        CHANGES,
        ROWS,
        "  - {id: C99, kind: verify, proves: [C36], made: 2199-11-21 JT}\n",
        "ROW12 warning C99",
    ),
    edit(
        "a wire of the list described again, half as thick",
        CHANGES,
        "{id: C4, kind: remove, wire: W125, ends:",
        '{id: C4, kind: remove, wire: W125, was: "BU/RD 1.5 mm2, defrost.87 to rear-window.1", ends:',
        "ROW15 warning C4",
    ),
    edit(
        "tested in the wrong century",
        CHANGES,
        "    wires: {W36: RD 12 AWG, W37: VT/GN 18 AWG, W38: BU/GN 18 AWG, W39: BK 12 AWG from O2}\n"
        "    made: 2015-04-05 AK\n    sealed: 2015-04-06 AK\n    tested: 2015-05-24 JT\n",
        "    wires: {W36: RD 12 AWG, W37: VT/GN 18 AWG, W38: BU/GN 18 AWG, W39: BK 12 AWG from O2}\n"
        "    made: 2015-04-05 AK\n    sealed: 2015-04-06 AK\n    tested: 2105-05-24 JT\n",
        "ROW14 warning C15",
    ),
    before(
        "two rows that redo and correct each other",
        CHANGES,
        ROWS,
        "  - {id: C180, kind: verify, proves: [C36], corrects: C181, made: 2024-11-21 JT}\n"
        "  - {id: C181, kind: verify, proves: [C36], redoes: C180, made: 2024-11-21 JT}\n",
        "ROW10 error C180",
        "ROW10 error C181",
    ),
    before(
        "checks of nothing: of themselves, of each other, without a value, the day before",
        CHANGES,
        ROWS,
        "  - {id: C182, kind: verify, proves: [C182], test: looked at, made: 2024-11-21 JT}\n"
        "  - {id: C183, kind: verify, proves: [C184], made: 2024-11-21 JT}\n"
        "  - {id: C184, kind: verify, proves: [C183], made: 2024-11-21 JT}\n"
        "  - {id: C185, kind: verify, proves: [C36], test: not measured, made: 2024-11-21 JT}\n"
        "  - {id: C186, kind: verify, proves: [C71], test: key-off current, made: 2024-11-20 JT}\n",
        "TST01 warning C182",
        "TST01 warning C183",
        "TST01 warning C184",
        "TST02 warning C185",
        "TST03 warning C186",
    ),
    edit(
        "read in the year 1015, and held to a limit below nought",
        READINGS,
        "read: 12.0 V, supply: 12.5 V, on: 2015-05-24, by: JT}",
        "read: 12.0 V, at least: -11 V, supply: 12.5 V, on: 1015-05-24, by: JT}",
        "RDG10 warning R8",
        "RDG11 warning R8",
    ),
    before(
        "two visits with one number",
        READINGS,
        "  - id: S2\n",
        "  - {id: S1, on: 2022-03-14 JT, complaint: siren weak}\n",
        "REF03 error S1",
    ),
    edit(
        "let stand: a finding that was mended, one that does not exist",
        JOB,
        "accepted:\n",
        "accepted:\n  - {finding: END05, of: F10, by: AK, why: the stub is capped}\n"
        "  - {finding: END50, of: F10, by: AK, why: seen}\n"
        "  - {finding: FUS13, of: F16, by: AK, why: the radio is seldom on}\n",
        "ACC01 warning F10",
        "ACC02 note F10",
    ),
    # ---- grounds -----------------------------------------------------------------------------------------------------
    edit(
        "the sender's stud sits on a painted composite bracket",
        HARNESS,
        "bolted to: battery box bracket, conducts: yes,",
        "bolted to: battery box bracket, conducts: no,",
        "GND01 stop tank sender",
    ),
    edit(
        "a ring of the wrong hole",
        CHANGES,
        'ring: "new, M6, 2nd from base"',
        'ring: "new, M8, 2nd from base"',
        "GND03 warning C20",
    ),
    edit(
        "a thin cable back for the dash bar",
        HARNESS,
        "cable: 10 mm2, cable length: 2 ft 7 in, back to: L3",
        "cable: 12 AWG, cable length: 2 ft 7 in, back to: L3",
        "GND05 error L2",
        "GND06 error L2",
    ),
    edit(
        "a long way round for the tunnel bar",
        HARNESS,
        "cable: 16 mm2, cable length: 4 ft 8 in, back to: battery-",
        "cable: 16 mm2, cable length: 9 ft 8 in, back to: battery-",
        "GND05 warning L3",
    ),
    edit(
        "the cluster's reference shares the dash bar with the fan",
        HARNESS,
        "cluster: {out: {12: fuel gauge sense},",
        "cluster: {out: {12: fuel gauge sense}, reference: [1],",
        "GND07 error cluster",
    ),
    edit("no strap at the engine", JOB, "engine strap: engine to battery", "engine strap: none", "GND08 stop "),
    edit(
        "the bed's point is an inch from the filler",
        HARNESS,
        "bolted to: bed crossmember, conducts: yes,",
        "bolted to: bed crossmember, near: [filler], conducts: yes,",
        "GND10 error L5",
    ),
    edit(
        "nobody looked under the rings of the tunnel",
        HARNESS,
        'bolted to: brass bar on the tunnel, conducts: yes, surface: "brass, scoured",',
        "bolted to: brass bar on the tunnel, conducts: yes,",
        "GND11 warning ",
    ),
    edit(
        "the rear rail was painted over after the last test",
        HARNESS,
        "bolted to: rear crossmember, conducts: yes,",
        "bolted to: rear crossmember, painted: 2024-11-25 JT, conducts: yes,",
        "GND11 warning L4",
    ),
    # ---- special wires and systems -----------------------------------------------------------------------------------
    before(
        "a belt tensioner's wire and an orange cable were there after all, and were cut",
        HARNESS,
        WIRES,
        "  W160: {colour: YE, size: 0.5 mm2, from: tensioner-unit.1, to: tensioner.1, length: 40 in, "
        "special: restraint}\n"
        "  W161: {colour: OG, size: 4 mm2, from: inverter.1, to: heater-box.1, length: 40 in, special: high voltage}\n"
        "  W162: {colour: BK, size: 1.0 mm2, from: B1, to: FS20, length: 20 in, special: fusible link}\n",
        "SPC05 error W162",
        "SPC10 error ",
    ),
    before(
        "the rows that cut them",
        CHANGES,
        ROWS,
        "  - {id: C100, kind: extend, wire: W160, plug: tensioner, pigtail: 8 in, gap: 4 in, "
        "piece: YE 0.5 mm2, made: 2024-11-21 JT}\n"
        "  - {id: C101, kind: shorten, wire: W161, plug: heater-box, pigtail: 8 in, take out: 4 in, "
        "made: 2024-11-21 JT}\n",
        "SPC01 stop C100",
        "SPC02 stop C101",
    ),
    edit(
        "one of the wheel pair was cut shorter",
        CHANGES,
        "end: abs-unit.6, into: speed-unit.2, tail: 3510 mm,",
        "end: abs-unit.6, into: speed-unit.2, tail: 3480 mm,",
        "SPC03 error C33",
    ),
    edit(
        "a resistance wire was lengthened with copper",
        HARNESS,
        "W59: {colour: GN/BK,",
        "W59: {special: resistance wire, colour: GN/BK,",
        "SPC04 error C32",
    ),
    edit("a shielded lead under the seat", HARNESS, "W46: {colour: BU/BK,", "W46: {special: shielded, colour: BU/BK,"),
    edit(
        "and its shield was left hanging",
        CHANGES,
        "    gap: 20 in\n    pigtail: 5 in\n",
        "    gap: 20 in\n    pigtail: 5 in\n    shield: left open\n",
        "SPC06 error C17",
    ),
    edit(
        "another, of which nobody wrote a word",
        HARNESS,
        "W63: {colour: GY/WH,",
        "W63: {special: shielded, colour: GY/WH,",
        "SPC06 warning C22",
    ),
    edit(
        "an oxygen sensor's lead was soldered",
        HARNESS,
        "W25: {colour: WH/BK,",
        "W25: {special: oxygen sensor, colour: WH/BK,",
        "SPC07 warning C23",
    ),
    edit(
        "a wire of the immobiliser is to be lengthened, and nobody has a word to say of it",
        HARNESS,
        "W143: {colour: RD/BK,",
        "W143: {special: immobiliser, colour: RD/BK,",
        "SPC09 warning C88",
    ),
    # ---- relays and readings -----------------------------------------------------------------------------------------
    before(
        "a relay that was to cut its own coil off once it had pulled in",
        HARNESS,
        "\nmodules:\n",
        "\n  K3 contact: {between: K3.30 K3.87a, at rest: closed, worked by: K3 coil}"
        "\n  K4 contact: {between: K4.30 K4.87, worked by: K4 coil}"
        "\n  K5 contact: {between: K5.30 K5.87a, at rest: closed, worked by: K5 coil}\n",
        "REL01 error K3 contact",
        "REL01 warning K5 contact",
        "REL02 warning K4 contact",
    ),
    before(
        "its coil and that of another like it; and one that hangs on a bell wire with a refrigerator",
        HARNESS,
        LOADS,
        "  K3 coil: {between: K3.86 K3.85, draws: 150 mA, class: coil}\n"
        "  K4 coil: {between: K4.86 K4.85, draws: 150 mA, class: coil}\n"
        "  K5 coil: {between: K5.86 K5.85, draws: 150 mA, class: coil}\n"
        "  refrigerator: {between: refrigerator.1 refrigerator.2, draws: 15 A, class: other}\n",
        "DRP01 warning refrigerator",
        "DRP01 warning K4 coil",
    ),
    before(
        "the bell wire",
        HARNESS,
        "  L5: {what: bed,",
        "  L8: {what: bar in the bed, surface: scoured, cable: 0.35 mm2, cable length: 15 m, back to: L3}\n",
        "GND05 error L8",
        "GND06 stop L8",
        "FUS11 stop L8",
    ),
    before(
        "how they were wired",
        CHANGES,
        ROWS,
        "  - {id: C110, kind: add, wire: W170, from: stop-switch.2, to: K3.30, piece: GN 1.5 mm2, cut: 300 mm, "
        "terminal: double crimp, made: 2024-11-21 JT}\n"
        "  - {id: C111, kind: add, wire: W171, from: K3.87a, to: K3.86, piece: GN 1.0 mm2, cut: 100 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C112, kind: add, wire: W172, from: K3.85, to: L5, piece: BK 1.0 mm2, cut: 600 mm, "
        'ring: "new, M8", made: 2024-11-21 JT}\n'
        "  - {id: C113, kind: add, wire: W173, from: F1, to: K4.86, piece: GN 1.5 mm2, cut: 300 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C114, kind: add, wire: W174, from: K4.85, to: L8, piece: BK 1.0 mm2, cut: 300 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C115, kind: add, wire: W175, from: F6, to: refrigerator.1, piece: RD 4 mm2, cut: 900 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C117, kind: add, wire: W177, from: reverse-switch.2, to: K5.30, piece: GN 1.0 mm2, "
        "terminal: double crimp, made: 2024-11-21 JT}\n"
        "  - {id: C118, kind: add, wire: W178, from: K5.87a, to: K5.86, piece: GN 1.0 mm2, cut: 100 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C119, kind: add, wire: W179, from: K5.85, to: L5, piece: BK 1.0 mm2, cut: 600 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C120, kind: add, wire: W180, from: F1, to: K4.30, piece: GN 1.5 mm2, cut: 300 mm, "
        "made: 2024-11-21 JT}\n"
        "  - {id: C116, kind: add, wire: W176, from: refrigerator.2, to: L8, piece: BK 4 mm2, cut: 600 mm, "
        "made: 2024-11-21 JT}\n",
    ),
    edit(
        "a drop on the pump's feed twice what its copper takes, and nobody minded",
        READINGS,
        "read: 0.33 V,",
        "read: 0.83 V,",
        "RDG02 warning R6",
    ),
)
