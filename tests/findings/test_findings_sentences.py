"""What a finding says of its car, word for word: a sentence with the right names in the wrong places sends a person to
the wrong end of the wire. Every name and number stands in the case's own job; the sums are beside the case there.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.test_findings_each_code import CASES, outcome

SAYS = {
    # ---- stops -----------------------------------------------------------------------------------------------------
    "END01": "The cut end C1-W1-F1 is left bare, and is live, fed by F1",
    "END01 through a splice": "The cut end C1-W3-FS1 is left bare, and is live, fed by F1",
    "END05 round the fuse": (
        "C1-W2-FS1 is joined to battery+ with nothing before it, and leads to nothing on record"
    ),
    "LOD01 feed": "'lamp' is kept and has no feed: W1 was taken out by C1",
    "LOD01 return; the twin's row is undecided": "'lamp' is kept and has no return: W2 was taken out by C1",
    "LOD03 no feed; the twin's row is for other cars": (
        "'lamp' must work before the car leaves and has no feed: W1 was taken out by C1"
    ),
    "LOD03 its ground does not conduct": (
        "'lamp' must work before the car leaves and has no return: wing does not conduct"
    ),
    "LOD04 a second way past the switch": (
        "nothing on the way to 'pump' is declared to cut the fuel when the engine stops or at a crash"
    ),
    "GND01 does not conduct": "'lamp' is kept and has no return: wing does not conduct",
    "GND01 gone": "'lamp' is kept and has no return: ground point G1 is not on this car",
    "FUS03 joined to the battery": "No fuse stands between starter and battery+",
    "FUS05 no main feed": "F12 reaches at least 310 mm from battery+ with nothing before it, and 300 mm is allowed",
    "FUS10 by a wire": "Copper joins F1 to L1 with no load between, by W1 and W4",
    "FUS10 by a switch that is closed at rest": (
        "Copper joins battery+ to battery- with no load between, by W1 and W2"
    ),
    "FUS11 insulation not written": (
        "W2 from battery- to fan.2 (1.0 mm2): if fan fails shorted behind F1, 15 A comes home through W2, which may "
        "carry 10 A"
    ),
    "FUS12 a return above the public figure": (
        "W5 from FS1 to battery- (1.0 mm2): fan and seat together take 17 A through it, and it may carry 10 A"
    ),
    "FUS13 by a switch": "Copper joins both sides of F1, so it limits nothing",
    "FUS14 through a load": "lamp lies between feeds that are live in different positions of the key",
    "FUS16 above the public figure": (
        "W1 from FS1 to unit.22 (1.0 mm2): unit.22 lets 15 A through, and the wire may carry 10 A"
    ),
    "INS01 hotter than every insulation": (
        "W1 runs through the leg dash to nose, which gets 181 °C hot, and no insulation on record bears that"
    ),
    "GND06 a cable of a battery": (
        "L1 to battery- (2.5 mm2): pump takes 50 A through it, and it may carry 20 A (planning table, planning value, "
        "estimate set conservatively between published shop figures)"
    ),
    "SPL04 nothing feeds it": "The joint C1 has no cover, though nothing on record feeds it",
    "SPC01": "C1 works on a restraint system (W1), or puts a hand on a part of it",
    "SPC02": "C1 works on a high-voltage system (W1), or puts a hand on a part of it",
    "SPC08 removed in part": (
        "The restraint system is removed in part; a system that is neither whole nor gone may fire or fail"
    ),
    "GND08 body only": (
        "the engine has a strap to the body only: what starter takes looks for a way back by throttle or clutch cables"
    ),
    # ---- of two or more things, each in its own part ---------------------------------------------------------------
    "END03": "the row does not say how the end at 'F1' was left",
    "END06": "only W1 is left in 'FS4', which C1 opened: a dead end",
    "END08 a plug scrapped with one wire holds another": (
        "C1 says that 'lamp' was scrapped (lamp.1: gone), but W2 still ends in it"
    ),
    "END08 a plug that left the car": "W2 ends in lamp, which left the car",
    "END08 a module's feed was drawn out": (
        "C1 drew W1 out of 'unit.7' and no other wire sits there, but the module 'unit' (out) still lists it"
    ),
    "LOD02": "The plug of lamp, which was deleted, is live, fed by F1",
    "LOD05 a row takes it over in the twin": (
        "'charge lamp' carried the alternator excite and left the car, and nothing is recorded that does it now: the "
        "alternator may not charge"
    ),
    "FUS01": "W2 from FS1 to lamp.1 (1.0 mm2): F1 lets 15 A through, and the wire may carry 10 A",
    "FUS01 thin wire": "W1 from F1 to lamp.1 (22 AWG): F1 lets 30 A through, and the wire may carry 3 A",
    "FUS02 a capped end; in the twin nobody looked": "F4 feeds only the cut end C1-W1-F4, capped (see C1)",
    "FUS04": "fan, seat stay on and draw 8.1 A together; F6 is 10 A, of which 80 % is 8.0 A",
    "FUS05": "F12 reaches at least 310 mm from battery+ with nothing before it, and 300 mm is allowed",
    "FUS08 larger; in the twin nobody read it": (
        "F19 is 20 A and is fed through F3, which is 15 A: F3 blows first, and all that it feeds goes dark"
    ),
    "FUS08 as large": (
        "F19 is 15 A and is fed through F3, which is 15 A: F3 may blow first, and all that it feeds goes dark"
    ),
    "FUS09 one alone": "'fan' draws 10.1 A, and F6 is 10 A",
    "GND02": "'L1' carries 5 rings; the limit is 4 (AC 43.13-1B para 11-174)",
    "GND03 too small": "a ring for M6 does not go on a stud of M8 ('L1')",
    "GND04": "on 'L1' larger currents lie over smaller ones; from the base: C1 1 A, C2 7 A",
    "GND13": "L1 is said to lead back to itself; what lands on 'L1' never reaches battery-",
    "REL01 a buzzer, and its coil fed before the contact": (
        "'K1 contact' never comes to rest when 'K1 coil' is switched on: its coil 'K1 coil' hangs on the contact itself"
    ),
    # 65 % of 12 V are 7.8 V
    "REL02 a shared return that rises": (
        "'K1 coil' has 6.9 V when it is switched on; 7.8 V (65 % of 12 V) pull 'K1 contact' over"
    ),
    "OPT02 a wire; not fed by the record": (
        "W40 is for a car whose gearbox is automatic, and is still fed; this car's gearbox is manual"
    ),
    "OPT03 a load without feed": (
        "on a car whose heater is electric: 'heater' is kept and has no feed: W1 was taken out by C1"
    ),
    "SPL01 neighbour": "C1 and C2 lie 39 mm apart; 40 mm is wanted",
    "SPL01 plug": "C1-W1-plug lies 39 mm from lamp.1; 40 mm is wanted",
    "SPL10 one small wire feeds two larger": (
        "W1 (1.0 mm2) feeds the larger W2 (1.5 mm2) and W3 (1.5 mm2) behind C1, with no fuse between"
    ),
    "COL02 connector": "BU sits in lamp twice: this piece and W2",
    "COL03 ground colour on a feed": "black means ground here, but the piece is in the feed of 'lamp'",
    "COL03 red on a ground": "red means feed here, but the piece is in the ground of 'lamp'",
    "SIZ01 mm2": "the piece is 0.75 mm2, smaller than W1, 1.0 mm2",
    "SIZ03 not read": "the size of W1 was not read, and it carries lamp (5.1 A)",
    "LEN01 cut": "the piece was cut 491 mm, its lengths ask for 470 mm",
    "LEN01 take-out": "261 mm was taken out, the lengths ask for 240 mm",
    "SPC03 one of two": "W1 is twisted with W2, which is not changed with it",
    "SPC03 shortened unevenly": "the wires of the pair W1, W2 are 584 and 590 mm",
    "SPC05 the thinnest stretch of what it protects": (
        "W5 from C3-W5-FS1 to C3-W5-box.1 (16 AWG): K1 lets 15 A through, and the wire may carry 10 A"
    ),
    "PRO01 its own date": (
        "C2 was wrapped on 2031-05-10, before the joints in it were tested: C1 (tested 2031-05-11)"
    ),
    "PRO02 made later": "C2 wraps in what was still open: C1 (made 2031-05-11)",
    "TST03 the day before": "C2 was made before the work it proves: C1 (made 2031-05-03)",
    "RDG01 above": "R1 read 0.21 V between L1 and battery-; it should stay below 0.2 V",
    "RDG01 mended later": (
        "R1 read 0.42 V between L1 and battery-; it should stay below 0.3 V; R2 read there later is inside"
    ),
    "ROW04": "not judged: it rests on C1, which is refused",
    "ROW09 on one wire": "made 2031-05-02 on W1, but C1 above it was made 2031-05-03",
    "ROW11": "'C1-W1-F1' is not a cut end; it rests on C1, which C3 took out",
    "ROW13": "the row corrects C1, but has no 'made:'; C1 still counts",
}  # fmt: skip
BY_NAME = {case.name: case for case in CASES}


@pytest.mark.parametrize("name", SAYS)
def test_each_name_stands_in_its_own_part_of_the_sentence(name: str, tmp_path: Path) -> None:
    case = BY_NAME[name]
    told = [f.problem for f in outcome(case, tmp_path).worked.findings if (f.code, f.entry) == (case.code, case.entry)]
    assert told == [SAYS[name]]


def test_every_code_that_can_stop_a_car_has_its_sentence_here() -> None:
    stops = {case.code for case in CASES if case.severity == "stop"}
    assert len(stops) >= 12
    assert stops - {BY_NAME[name].code for name in SAYS} == set()
