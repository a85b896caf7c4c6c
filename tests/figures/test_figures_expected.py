"""What is expected of a reading, by hand: one heater on its fuse and its stud, every allowance at nought.

12 V / 6 A = 2 ohm of heater; 2 m of feed at 7.6 mohm/m (2.5 mm2, ISO 6722-1) are 15.2 mohm, 10 m of return 76 mohm, 1 m
of cable at 1.82 mohm/m (10 mm2) 1.82 mohm: 2.09302 ohm in all, so 12 V drive 5.73334 A.
"""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone

from aswired.car.route import Route
from aswired.figures.days import CarsOfTheirDays
from aswired.figures.expected import ABOVE, BELOW, INSIDE, Expected, expected
from aswired.files import read_job
from aswired.text.units import half_a_digit

AMPS = 12 / 2.09302
CAR = """
    job: Heater
    supply: 12.0 V
    HEAD
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: ignition}}
    loads:
      heater: {between: heater.1 heater.2, draws: 6 A, class: heater}
      MORE
    grounds: {L1: {cable: 10 mm2, cable length: 1 m, back to: battery-}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: heater.1, length: 2 m}
      W2: {size: 2.5 mm2, from: heater.2, to: L1, length: 10 m}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-01 AK}
    readings:
"""
DAY = "on: 2031-05-04"
RETURN = f"red: heater.2, black: battery-, loads on: heater, {DAY}"


def judged(folder: Path, *readings: str, car: str = CAR, head: str = "", more: str = "") -> list[Expected]:
    """What is expected of each of these readings, in their order."""
    text = copper_alone(car.replace("HEAD", head).replace("MORE", more)).replace(
        "usual: {", "usual: {ring strip: 0 mm, "
    )
    folder.mkdir(exist_ok=True)
    lines = "".join(f"      - {{id: R{number}, {reading}}}\n" for number, reading in enumerate(readings, 1))
    (folder / "job.yml").write_text(textwrap.dedent(text + lines).lstrip("\n"), encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    cars = CarsOfTheirDays(read.job, Route(read.job))
    return [expected(reading, cars) for reading in read.job.readings]


def value(found: Expected) -> float | None:
    assert found.figure is not None, found.why
    return found.figure.value


# ---- volts ----------------------------------------------------------------------------------------------------------
def test_a_drop_and_its_band(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.45 V")
    drop = AMPS * 0.07782
    assert value(found) == pytest.approx(drop, rel=1e-6)
    # each wire 10 % down and up, the current 15 %
    assert found.low == pytest.approx(drop * 0.9 * 0.85, rel=1e-6)
    assert found.high == pytest.approx(drop * 1.1 * 1.15, rel=1e-6)
    assert found.verdict == INSIDE


def test_the_least_band_is_thirty_millivolts(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: L1, black: battery-, loads on: heater, {DAY}, read: 0.01 V")
    assert value(found) == pytest.approx(AMPS * 0.00182, rel=1e-6)
    assert (found.low, found.high) == (0.0, pytest.approx(AMPS * 0.00182 + 0.03, rel=1e-6))


@pytest.mark.parametrize(
    ("read", "verdict"),
    # the band is 0.3413 to 0.5644 V; what is written stands for half its last digit either way
    [("0.57 V", ABOVE), ("0.56 V", INSIDE), ("0.6 V", INSIDE), ("0.34 V", INSIDE), ("0.33 V", BELOW),
     ("-0.45 V", INSIDE), ("566 mV", ABOVE), ("565 mV", ABOVE), ("564 mV", INSIDE)],
)  # fmt: skip
def test_the_verdict(tmp_path: Path, read: str, verdict: str) -> None:
    (found,) = judged(tmp_path, f"{RETURN}, read: {read}")
    assert found.verdict == verdict


def test_across_the_load_at_the_volts_of_that_moment(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"of: heater, red: heater.1, black: heater.2, supply: 10.0 V, {DAY}, read: 9.6 V")
    volts, lost = 10 * 2 / 2.09302, 10 * 0.09302 / 2.09302
    assert value(found) == pytest.approx(volts, rel=1e-6)
    # what is lost more is there less; and 10.0 V may be 9.95 V
    assert found.low == pytest.approx(volts - lost * (1.1 * 1.15 - 1) - 0.05, rel=1e-6)
    assert found.high == pytest.approx(volts + lost * (1 - 0.9 * 0.85) + 0.05, rel=1e-6)


def test_at_a_current_by_clamp_nothing_has_to_be_known_of_the_loads(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: heater.2, black: L1, through: 3 A, {DAY}, read: 0.23 V")
    assert value(found) == pytest.approx(0.228)
    # 10 % of wire either way and the meter's last millivolt
    assert (found.low, found.high) == (pytest.approx(0.2052 - 0.001), pytest.approx(0.2508 + 0.001))


def test_nothing_is_lost_where_nothing_is_on(tmp_path: Path) -> None:
    car = CAR.replace("from: F1, to: heater.1", "from: F2, to: heater.1")  # dead with the key out
    (found,) = judged(tmp_path, f"red: heater.2, black: battery-, loads on: none, {DAY}, read: 0.01 V", car=car)
    assert (value(found), found.high, found.verdict) == (0.0, 0.03, INSIDE)


# ---- ohms and amperes -----------------------------------------------------------------------------------------------
def test_a_resistance(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: heater.2, black: L1, {DAY}, read: 76 mohm")
    assert value(found) == pytest.approx(0.076)
    assert (found.low, found.high) == (pytest.approx(0.0684), pytest.approx(0.0836))


def test_a_current(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: F1, black: heater.1, loads on: heater, {DAY}, read: 5.7 A")
    assert value(found) == pytest.approx(AMPS)
    assert (found.low, found.high) == (pytest.approx(AMPS * 0.85), pytest.approx(AMPS * 1.15))


@pytest.mark.parametrize(
    ("read", "counted", "verdict"),
    # a load that alone takes more than was read has a switch of its own; 50 mA of key-off draw come beside
    [("14 mA", 0.0, INSIDE), ("51 mA", 0.0, ABOVE), ("5.7 A", AMPS, INSIDE), ("6.7 A", AMPS, ABOVE)],
)
def test_with_the_key_out(tmp_path: Path, read: str, counted: float, verdict: str) -> None:
    (found,) = judged(tmp_path, f"red: battery-, black: clamp, loads on: none, {DAY}, read: {read}")
    assert value(found) == pytest.approx(counted)
    assert found.high == pytest.approx(counted * 1.15 + 0.05)
    assert found.verdict == verdict


def test_a_module_asleep_takes_what_nobody_wrote(tmp_path: Path) -> None:
    car = CAR.replace("    changes:", "      W3: {size: 1.0 mm2, from: F1, to: radio.1, length: 1 m}\n"
                      "      W4: {size: 1.0 mm2, from: radio.2, to: L1, length: 1 m}\n    changes:")  # fmt: skip
    radio = "radio: {between: radio.1 radio.2, draws: 6 A, class: electronics}"
    (found,) = judged(tmp_path, f"red: battery-, black: clamp, loads on: none, {DAY}, read: 60 mA", car=car, more=radio)
    assert found.figure is not None
    assert (value(found), found.figure.missing_words) == (None, ("current of radio asleep",))
    assert (found.high, found.verdict) == (0.05, ABOVE)


def test_a_cable_at_the_battery_carries_no_current_of_what_sits_on_the_post_itself(tmp_path: Path) -> None:
    # the winch hangs on the post, beside the cable to the fuse: 1 m of 1.82 mohm/m more for the heater
    cable = "    wires:\n      W0: {size: 10 mm2, from: battery+, to: F1.feed, length: 1 m}"
    back = "      W9: {size: 25 mm2, from: winch.2, to: battery-, length: 1 m}\n    changes:"
    car = (
        CAR.replace("fed: always}, F2", "fed: unknown}, F2").replace("    wires:", cable).replace("    changes:", back)
    )
    winch = "winch: {between: battery+ winch.2, draws: 60 A, class: motor}"
    clamp = f"red: battery+, black: F1.feed, loads on: [heater, winch], {DAY}, read: 5.7 A"
    (found,) = judged(tmp_path, clamp, car=car, more=winch)
    assert value(found) == pytest.approx(12 / 2.09484, rel=1e-6)
    (alone,) = judged(tmp_path, f"red: battery+, black: F1.feed, loads on: heater, {DAY}, read: 5.7 A", car=car)
    assert value(alone) == pytest.approx(12 / 2.09484, rel=1e-6)


# ---- the car of that day --------------------------------------------------------------------------------------------
def test_the_car_as_it_was_on_that_day(tmp_path: Path) -> None:
    car = CAR.replace("    readings:", "      - {id: C2, kind: remove, wire: W2, ends: {heater.2: pulled, L1: pulled}, "
                      "made: 2031-05-10 AK}\n      - {id: C3, kind: add, wire: W20, from: heater.2, to: L1, "
                      "piece: BN 2.5 mm2, reach: 5 m, slack: 0 mm, made: 2031-05-10 AK}\n    readings:")  # fmt: skip
    before, after = judged(
        tmp_path, f"{RETURN}, read: 0.45 V", f"{RETURN.replace('05-04', '05-10')}, read: 0.23 V", car=car
    )
    assert value(before) == pytest.approx(AMPS * 0.07782, rel=1e-6)
    # 5 m are 38 mohm: 2.05502 ohm in all
    assert value(after) == pytest.approx(12 / 2.05502 * 0.03982, rel=1e-6)


def test_a_reading_is_judged_by_what_was_known_before_it(tmp_path: Path) -> None:
    fuse = "red: F1.feed, black: F1, loads on: heater, read: 100 mohm"
    load = "red: heater.1, black: heater.2, of: heater, read: 11.4 V"
    found = judged(
        tmp_path, f"{load}, {DAY}", f"{fuse}, on: 2031-05-05", f"{load}, on: 2031-05-05", f"{load}, on: 2031-05-06"
    )
    assert value(found[1]) == 0.0  # the fuse by its allowance, which is nought here
    assert found[1].verdict == ABOVE
    without, with_it = 12 * 2 / 2.09302, 12 * 2 / 2.19302
    assert [value(each) for each in (found[0], found[2], found[3])] == pytest.approx([without, without, with_it])


# ---- what is not judged ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("reading", "why"),
    [
        (f"{RETURN}, read: not measured", "not measured"),
        (f"red: heater.2, loads on: heater, {DAY}, read: 0.4 V", "where the leads were is not recorded"),
        (f"red: heater.2, black: unknown, of: heater, {DAY}, read: 0.4 V", "where the leads were is not recorded"),
        ("red: heater.2, black: battery-, loads on: heater, read: 0.4 V", "its day is not recorded"),
        (f"red: heater.2, black: bench, of: heater, {DAY}, read: 0.4 V",
         "bench is no point of the network of that day"),
        (f"red: heater.2, black: L1, with: heater on, {DAY}, read: 0.4 V", "which loads were on is not recorded"),
        (f"red: heater.2, black: L1, of: L1, {DAY}, read: 0.4 V", "which loads were on is not recorded"),
        (f"red: heater.2, black: L1, loads on: [heater, fan], {DAY}, read: 0.4 V", "fan is no load of this car"),
        (f"red: F1.feed, black: battery-, loads on: heater, {DAY}, read: 1 ohm",
         "more than one way, or none, leads from lead to lead"),
        (f"red: F1.feed, black: battery-, loads on: heater, {DAY}, read: 1 A",
         "a current is read through one part; F1.feed and battery- are not its two ends"),
    ],
)  # fmt: skip
def test_why_nothing_is_expected(tmp_path: Path, reading: str, why: str) -> None:
    assert judged(tmp_path, reading) == [Expected(why=why)]


# heater.2 to FS1 by one wire, from there to FS2 by two side by side, on to the stud by one
BESIDE = CAR.replace(
    "W2: {size: 2.5 mm2, from: heater.2, to: L1, length: 10 m}",
    """W2: {size: 2.5 mm2, from: heater.2, to: FS1, length: 2 m}
      W3: {size: 2.5 mm2, from: FS1, to: FS2, length: 4 m}
      W4: {size: 2.5 mm2, from: FS1, to: FS2, length: 4 m}
      W5: {size: 2.5 mm2, from: FS2, to: L1, length: 1 m}""",
)


def test_where_the_current_divides_somewhere_on_the_way_the_wires_are_not_in_series(tmp_path: Path) -> None:
    # in series they would be 2 + 4 + 4 + 1 m, by the network 2 + 2 + 1 m of 7.6 mohm/m
    leads = f"red: heater.2, black: L1, of: heater, {DAY}"
    ohms, volts = judged(tmp_path, f"{leads}, read: 38 mohm", f"{leads}, read: 0.2 V, through: 3 A", car=BESIDE)
    assert ohms == Expected(why="more than one way, or none, leads from lead to lead")
    # so a clamp round one of them does not tell: with the heater on 2.0 + 0.0152 + 0.038 + 0.00182 ohm carry 12 V
    assert value(volts) == pytest.approx(12 / 2.05502 * 0.038, rel=1e-6)


def test_one_stretch_that_was_not_measured_leaves_the_whole_way_without_a_number(tmp_path: Path) -> None:
    # a lamp on the same stud: wire and cable are two runs, and only the wire has no length
    car = CAR.replace(", length: 10 m", "").replace(
        "    changes:",
        "      W3: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}\n"
        "      W4: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}\n    changes:",
    )
    lamp = "lamp: {between: lamp.1 lamp.2, draws: 1 A, class: lamp}"
    (found,) = judged(tmp_path, f"red: heater.2, black: battery-, {DAY}, read: 80 mohm", car=car, more=lamp)
    assert found.figure is not None
    assert (value(found), found.low, found.high, found.verdict) == (None, None, None, "")
    assert found.figure.missing_words == ("W2 from L1 to heater.2: length not recorded",)
    (cable,) = judged(tmp_path / "c", f"red: L1, black: battery-, {DAY}, read: 2 mohm", car=car, more=lamp)
    assert value(cable) == pytest.approx(0.00182)


def test_a_load_whose_way_is_not_traced(tmp_path: Path) -> None:
    (found,) = judged(
        tmp_path,
        f"red: heater.2, black: L1, loads on: [heater, fan], {DAY}, read: 0.4 V",
        more="fan: {between: fan.1 fan.2, draws: 3 A, feed: not examined}",
    )
    assert found == Expected(why="feed and return of fan are not both traced")


def test_a_car_on_positive_ground_and_one_of_unknown_supply(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.4 V", head="ground side: positive")
    assert found == Expected(why="positive ground: not computed")
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.4 V", car=CAR.replace("supply: 12.0 V", ""))
    assert found == Expected(why="the supply is not recorded")


def test_what_is_not_recorded_is_named_and_no_number_told(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.4 V", car=CAR.replace(", length: 10 m", ""))
    assert found.figure is not None
    assert (value(found), found.low, found.high, found.verdict) == (None, None, None, "")
    assert found.figure.missing_words == ("W2 from L1 to heater.2: length not recorded",)


@pytest.mark.parametrize(
    ("text", "half"),
    [("0.06 V", 0.005), ("14 mA", 0.0005), ("12 V", 0.5), ("-0.4 V", 0.05), ("0.2 ohm", 0.05), ("2.5 mohm", 0.00005)],
)
def test_half_a_digit(text: str, half: float) -> None:
    assert half_a_digit(text) == pytest.approx(half)


@pytest.mark.parametrize("lengths", [(1, 3), (3, 1)])
def test_of_two_ways_between_the_leads_nobody_knows_which_was_read(tmp_path: Path, lengths: tuple[int, int]) -> None:
    """1 m and 3 m of one size side by side carry three quarters and one quarter: the meter was in one of them."""
    car = CAR.replace(
        "    changes:",
        f"      W3: {{size: 1.0 mm2, from: F1, to: FS1, length: {lengths[0]} m}}\n"
        f"      W4: {{size: 1.0 mm2, from: F1, to: FS1, length: {lengths[1]} m}}\n"
        "      W5: {size: 1.0 mm2, from: FS1, to: fan.1, length: 1 m}\n"
        "      W6: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}\n"
        "    splices: {FS1: {}}\n    changes:",
    )
    fan = "fan: {between: fan.1 fan.2, draws: 8 A, class: motor}"
    (found,) = judged(tmp_path, f"red: F1, black: FS1, loads on: fan, {DAY}, read: 6 A", car=car, more=fan)
    assert found.figure is None
    assert found.why == "2 ways join F1 and FS1; which of them was read is not recorded"
