"""What is told of an expected reading, word by word, and of several loads and ways the one that is meant."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.figures.test_figures_expected import AMPS, CAR, DAY, RETURN, judged, value
from tests.findings.jobs import copper_alone, work

from aswired.car.route import Route
from aswired.figures.days import CarsOfTheirDays
from aswired.figures.expected import ABOVE, BELOW, INSIDE, Expected, expected
from aswired.physics.figure import Figure

HOW = "nodal solution at the supply, filaments by their law, all other loads as resistances"
BAND = (
    "Band: each wire 10 % down and up, each allowance over its own band (a stated one 50 %), "
    "the currents 15 %, and at least 0.03 V either way."
)
UNKNOWN = "length not recorded"


def told(found: Expected) -> Figure:
    assert found.figure is not None, found.why
    return found.figure


def words(found: Expected) -> tuple[str, str, str, str, str, tuple[str, ...], str]:
    figure = told(found)
    return figure.key, figure.name, figure.unit, figure.rule, figure.formula, figure.missing_words, figure.note


def inputs(found: Expected) -> list[tuple[str, object, str, str]]:
    return [(given.name, given.value, given.unit, given.source) for given in told(found).inputs]


# ---- volts ----------------------------------------------------------------------------------------------------------
def test_what_is_told_of_a_drop(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.45 V")
    assert words(found) == (
        "R1.expected", "volts from heater.2 to battery- with heater on", "V", HOW,
        "U = sum of I x R between the points", (), BAND,
    )  # fmt: skip
    assert [(name, given, unit) for name, given, unit, _ in inputs(found)] == [
        ("supply", 12.0, "V"),
        ("W2 from L1 to heater.2", pytest.approx(76), "mohm"),
        ("cable L1 to battery-", pytest.approx(1.82), "mohm"),
    ]
    # 12 V over 2.09302 ohm are 5.73 A, in the wire and in the cable
    assert all(source.startswith("carries 5.73 A; ") for *_, source in inputs(found)[1:])


def test_what_is_told_across_a_load(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"of: heater, red: heater.1, black: heater.2, supply: 10.0 V, {DAY}, read: 9.6 V")
    assert words(found)[1:5] == (
        "volts from heater.1 to heater.2 with heater on", "V", HOW, "U = supply less what is lost before and behind",
    )  # fmt: skip
    assert inputs(found)[0] == ("supply", 10.0, "V", "10.0 V")
    # a supply that was not written down with the reading is that of the job
    (found,) = judged(tmp_path / "u", f"of: heater, red: heater.1, black: heater.2, supply: unknown, {DAY}, read: 9 V")
    assert value(found) == pytest.approx(AMPS * 2)
    assert inputs(found)[0] == ("supply", 12.0, "V", "12.0 V")


def test_on_the_way_to_a_load_too_a_drop_is_lost_between_the_points(tmp_path: Path) -> None:
    feed = f"of: heater, red: F1.feed, black: heater.1, {DAY}, read: 0.09 V"
    across = f"of: heater, red: heater.1, black: L1, {DAY}, read: 11.9 V"
    there, over = judged(tmp_path, feed, across)
    drop = AMPS * 0.0152
    assert (value(there), told(there).formula) == (pytest.approx(drop), "U = sum of I x R between the points")
    # 87 mV and at least 30 mV either way
    assert (there.low, there.high) == (pytest.approx(drop - 0.03), pytest.approx(drop + 0.03))
    assert (value(over), told(over).formula) == (
        pytest.approx(AMPS * 2.076), "U = supply less what is lost before and behind",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("on", "what"),
    [("loads on: heater", "heater on"), ("of: heater", "heater on"), ("of: heater, loads on: none", "everything off"),
     ("loads on: [heater, fan]", "heater, fan on"), ("of: fan, loads on: heater", "heater on")],
)  # fmt: skip
def test_what_is_on_is_what_the_reading_names_and_then_whose_it_is(on: str, what: str, tmp_path: Path) -> None:
    # both hang on F2, which is dead with the key out; the fan takes its current by a return of its own
    car = CAR.replace("from: F1, to: heater.1", "from: F2, to: heater.1").replace("    changes:", FAN_WIRES)
    (found,) = judged(tmp_path, f"red: heater.2, black: L1, {on}, {DAY}, read: 0.4 V", car=car, more=FAN)
    assert told(found).name == f"volts from heater.2 to L1 with {what}"
    on_at_all = what.startswith("heater")
    assert value(found) == pytest.approx(AMPS * 0.076 if on_at_all else 0)
    # what carries nothing is none of what the volts are made of
    assert [name for name, *_ in inputs(found)] == ["supply", *(["W2 from L1 to heater.2"] if on_at_all else [])]


FAN = "fan: {between: fan.1 fan.2, draws: 6 A, class: motor}"
FAN_WIRES = (
    "      W3: {size: 1.0 mm2, from: F2, to: fan.1, length: 1 m}\n"
    "      W4: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}\n"
    "    changes:"
)


def test_volts_of_which_a_length_is_missing_are_told_without_a_number(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.45 V", car=CAR.replace(", length: 10 m", ""))
    assert words(found)[5] == (f"W2 from L1 to heater.2: {UNKNOWN}",)
    assert [(name, given) for name, given, _, _ in inputs(found)] == [
        ("supply", 12.0),
        ("W2 from L1 to heater.2", None),
        ("cable L1 to battery-", pytest.approx(1.82)),
    ]
    assert inputs(found)[1][3].startswith("carries a current that is not recorded; ")


BUZZER = """
    switches: {K contact: {between: K.30 K.87, worked by: coil, at rest: closed}}
    loads:
      coil: {between: K.86 K.85, draws: 150 mA, class: coil}
"""


@pytest.mark.parametrize(
    "reading", ["red: K.85, black: battery-, read: 0 V", "red: F1, black: K.30, read: 0.1 A"], ids=["volts", "amperes"]
)
def test_of_a_relay_that_never_rests_nothing_is_expected(reading: str, tmp_path: Path) -> None:
    # the coil is fed through its own break contact
    head, tail = CAR.split("    loads:\n", 1)
    car = head + BUZZER.lstrip("\n") + tail.split("      MORE\n", 1)[1]
    car = car.replace("W1: {size: 2.5 mm2, from: F1, to: heater.1", "W1: {size: 2.5 mm2, from: F1, to: K.30").replace(
        "W2: {size: 2.5 mm2, from: heater.2,",
        "W3: {size: 2.5 mm2, from: K.87, to: K.86, length: 1 m}\n      W2: {size: 2.5 mm2, from: K.85,",
    )
    (found,) = judged(tmp_path, f"of: coil, {DAY}, {reading}", car=car)
    assert (value(found), told(found).missing_words) == (None, ("where its relay comes to rest",))
    assert (found.low, found.high, found.verdict) == (None, None, "")


# ---- at a current by clamp, and ohms --------------------------------------------------------------------------------
def test_what_is_told_of_a_drop_at_a_current_by_clamp(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: heater.2, black: battery-, through: 3.0 A, {DAY}, read: 0.23 V")
    assert value(found) == pytest.approx(3 * 0.07782)
    assert words(found) == (
        "R1.expected", "volts from heater.2 to battery- at 3.0 A", "V",
        "one way between the leads, at the current by clamp", "U = I x sum of R", (), "",
    )  # fmt: skip
    assert inputs(found)[0] == ("I", 3.0, "A", "3.0 A")
    assert {name: given for name, given, *_ in inputs(found)[1:] if given} == {
        "W2 from L1 to heater.2": pytest.approx(76),
        "cable L1 to battery-": pytest.approx(1.82),
    }
    (bare,) = judged(tmp_path / "bare", f"red: heater.2, black: battery-, through: 3.0 A, {DAY}, read: 0.23 V",
                     car=CAR.replace(", length: 10 m", ""))  # fmt: skip
    assert (value(bare), bare.low, bare.high) == (None, None, None)
    assert told(bare).missing_words == (f"W2 from L1 to heater.2: {UNKNOWN}",)
    # so small a drop may be nought
    (small,) = judged(tmp_path / "small", f"red: L1, black: battery-, through: 0.1 A, {DAY}, read: 0 V")
    assert (small.low, small.high) == (0.0, pytest.approx(0.1 * 0.00182 * 1.1 + 0.001))
    assert small.verdict == INSIDE


def test_where_another_current_joins_on_the_way_a_clamp_does_not_tell_the_drop(tmp_path: Path) -> None:
    # the lamp comes to the stud too: 3 A in the wire are not all that the cable carries
    car = CAR.replace(
        "    changes:",
        "      W3: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}\n"
        "      W4: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}\n    changes:",
    )
    lamp = "lamp: {between: lamp.1 lamp.2, draws: 1 A, class: heater}"
    # the lamp, 12 ohm, hangs on F1 for good; the stud is common to both: with a = 1 / (2 + 0.0152 + 0.076) and
    # b = 1 / (12 + 2 x 0.0185) siemens its 1.82 mohm bring it to U = 12 (a + b) r / (1 + (a + b) r)
    a, b, r = 1 / 2.0912, 1 / 12.037, 0.00182
    stud = 12 * (a + b) * r / (1 + (a + b) * r)
    over, wire = judged(
        tmp_path,
        f"red: heater.2, black: battery-, through: 3 A, of: heater, {DAY}, read: 0.45 V",
        f"red: heater.2, black: L1, through: 3 A, of: heater, {DAY}, read: 0.23 V",
        car=car,
        more=lamp,
    )
    assert value(over) == pytest.approx((12 - stud) * a * 0.076 + stud, rel=1e-6)
    assert told(over).rule == HOW
    assert value(wire) == pytest.approx(3 * 0.076)


def test_only_volts_are_told_by_a_clamp(tmp_path: Path) -> None:
    both = f"red: F1, black: heater.1, through: 3 A, loads on: heater, {DAY}"
    amps, ohms, unread = judged(
        tmp_path,
        f"{both}, read: 5.7 A",
        f"{both}, read: 15 mohm",
        f"{RETURN}, through: unknown, read: 0.45 V",
    )
    assert value(amps) == pytest.approx(AMPS)
    assert value(ohms) == pytest.approx(0.0152)
    assert value(unread) == pytest.approx(AMPS * 0.07782)  # no current was read


def test_what_is_told_of_a_resistance(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: battery-, black: heater.2, {DAY}, read: 76 mohm")
    assert value(found) == pytest.approx(0.07782)
    assert words(found) == (
        "R1.expected", "resistance from battery- to heater.2", "ohm", "one way between the leads, nothing switched on",
        "R = sum of R", (), "The meter's own leads are not counted.",
    )  # fmt: skip
    assert {name: (given, unit) for name, given, unit, _ in inputs(found) if given} == {
        "W2 from L1 to heater.2": (pytest.approx(76), "mohm"),
        "cable L1 to battery-": (pytest.approx(1.82), "mohm"),
    }


# ---- amperes --------------------------------------------------------------------------------------------------------
def test_what_is_told_of_a_current(tmp_path: Path) -> None:
    car = CAR.replace("    changes:", FAN_WIRES.replace("F2", "F1"))
    # of two loads that are on for good only the heater's current passes its own wire; 12 / 2.037 A of the fan do not
    (wire,) = judged(tmp_path, f"red: heater.2, black: L1, of: heater, {DAY}, read: 5.7 A", car=car, more=FAN)
    assert words(wire) == (
        "R1.expected", "current from heater.2 to L1 with heater on", "A", HOW, "I = sum of the loads behind it", (),
        "Band: currents 15 % down and up.",
    )  # fmt: skip
    assert inputs(wire) == [("heater", pytest.approx(AMPS), "A", "as it behaves in this state")]
    (fuse,) = judged(tmp_path / "f", f"red: F1, black: F1.feed, of: heater, {DAY}, read: 11.6 A", car=car, more=FAN)
    assert value(fuse) == pytest.approx(AMPS + 12 / 2.037)
    assert (fuse.low, fuse.high) == (
        pytest.approx((AMPS + 12 / 2.037) * 0.85), pytest.approx((AMPS + 12 / 2.037) * 1.15),
    )  # fmt: skip
    assert [name for name, *_ in inputs(fuse)] == ["heater", "fan"]


@pytest.mark.parametrize(
    ("leads", "names"),
    [("red: battery-, black: clamp", ["heater", "fan"]), ("red: clamp, black: battery-", ["heater", "fan"]),
     ("red: battery+, black: clamp", ["heater", "fan"]), ("red: clamp, black: battery+", ["heater", "fan"])],
)  # fmt: skip
def test_a_meter_in_series_at_a_battery_post_reads_everything(leads: str, names: list[str], tmp_path: Path) -> None:
    car = CAR.replace("    changes:", FAN_WIRES)
    (found,) = judged(tmp_path, f"{leads}, loads on: [heater, fan], {DAY}, read: 11.6 A", car=car, more=FAN)
    assert value(found) == pytest.approx(AMPS + 12 / 2.037)
    assert [name for name, *_ in inputs(found)] == names
    assert told(found).note == (
        "Band: currents 15 % down and up."
        " At the battery: every load counts, those too whose fuse is only said to be live."
    )
    assert (found.low, found.high) == (
        pytest.approx((AMPS + 12 / 2.037) * 0.85), pytest.approx((AMPS + 12 / 2.037) * 1.15),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("leads", "why"),
    [
        ("red: clamp, black: other, read: 1 A", "clamp is no point of the network of that day"),
        ("red: clamp, black: battery-, read: 1 V", "clamp is no point of the network of that day"),
        ("red: heater.2, black: clamp, read: 1 A", "clamp is no point of the network of that day"),
        ("red: heater.1, black: heater.2, read: 1 A",
         "a current is read through one part; heater.1 and heater.2 are not its two ends"),
    ],
)  # fmt: skip
def test_what_is_no_meter_in_series(leads: str, why: str, tmp_path: Path) -> None:
    assert judged(tmp_path, f"{leads}, of: heater, {DAY}") == [Expected(why=why)]


MAIN = (
    "W0: {size: 10 mm2, from: battery+, to: F0.feed, length: 1 m}\n"
    "      W9: {size: 10 mm2, from: F0, to: F1.feed, length: 1 m}\n"
)


def test_every_cable_up_to_the_first_fork_carries_all(tmp_path: Path) -> None:
    """The fan hangs on a fuse that is only said to be live: by a way that is not recorded it passes the cables too."""
    car = CAR.replace("    wires:\n", f"    wires:\n      {MAIN}").replace(
        "fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: ignition}",
        "fuses: {F0: {rating: 60 A}, F1: {rating: 10 A}, F2: {rating: 10 A, fed: always}",
    )
    car = car.replace("    changes:", FAN_WIRES)
    clamp = f"loads on: [heater, fan], {DAY}, read: 11.6 A"
    # the heater has 2 x 1.82 mohm of cable more before it
    heater = 12 / 2.09666
    leads = ("red: battery+, black: F0.feed", "red: F0, black: F0.feed", "red: F0, black: F1.feed")
    found = judged(tmp_path, *(f"{lead}, {clamp}" for lead in leads), car=car, more=FAN)
    assert [value(each) for each in found] == pytest.approx([heater + 12 / 2.037] * 3)
    # a fork behind the main fuse: what goes on behind it is only a part
    fork = car.replace("    changes:", "      W8: {size: 1.0 mm2, from: F0, to: F3.feed, length: 1 m}\n    changes:")
    fork = fork.replace("fuses: {", "fuses: {F3: {rating: 5 A}, ")
    found = judged(tmp_path / "fork", *(f"{lead}, {clamp}" for lead in leads), car=fork, more=FAN)
    assert [value(each) for each in found] == pytest.approx([*[heater + 12 / 2.037] * 2, heater])


# ---- with the key out -----------------------------------------------------------------------------------------------
KEY_OUT = f"red: battery-, black: clamp, loads on: none, {DAY}"
ALWAYS = CAR.replace("    changes:", FAN_WIRES.replace("F2", "F1"))
FAN_A = 12 / (2 + 0.037)


@pytest.mark.parametrize(
    ("read", "counted", "verdict"),
    # the heater takes 5.733 A and the fan 5.891: below 85 % of either neither is on, and in between only the heater
    [("4.8 A", 0.0, ABOVE), ("4.9 A", AMPS, INSIDE), ("5.1 A", AMPS + FAN_A, INSIDE), ("14 A", AMPS + FAN_A, ABOVE),
     ("-5.1 A", AMPS + FAN_A, INSIDE)],
)  # fmt: skip
def test_with_the_key_out_what_takes_more_than_was_read_is_not_on(
    read: str, counted: float, verdict: str, tmp_path: Path
) -> None:
    (found,) = judged(tmp_path, f"{KEY_OUT}, read: {read}", car=ALWAYS, more=FAN)
    assert value(found) == pytest.approx(counted)
    assert (found.low, found.high) == (None, pytest.approx(counted * 1.15 + 0.05))
    assert found.verdict == verdict


@pytest.mark.parametrize(("read", "verdict"), [("0.1 A", INSIDE), ("0.11 A", ABOVE), ("0.2 A", ABOVE)])
def test_a_reading_that_just_touches_the_band_is_inside(read: str, verdict: str, tmp_path: Path) -> None:
    # neither load is on; 0.1 A stand for 0.05 to 0.15 A, and 0.05 A are allowed
    (found,) = judged(tmp_path, f"{KEY_OUT}, read: {read}", car=ALWAYS, more=FAN)
    assert (found.high, found.verdict) == (0.05, verdict)


def test_what_is_told_with_the_key_out(tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"{KEY_OUT}, read: 5.1 A", car=ALWAYS, more=FAN)
    assert words(found) == (
        "R1.expected", "current from battery- to clamp with the key out and everything off", "A",
        "loads that are live for good, as they behave", "I = sum of I of those that may be on", (),
        "Held to a key-off draw of 0.05 A beside the loads that are live for good; one of them that takes more than was"
        " read is not on and has a switch of its own."
        " At the battery: every load counts, those too whose fuse is only said to be live.",
    )  # fmt: skip
    assert inputs(found) == [
        ("heater", pytest.approx(AMPS), "A", "live for good"),
        ("fan", pytest.approx(FAN_A), "A", "live for good"),
    ]
    wire = f"red: heater.2, black: L1, loads on: none, {DAY}"
    (part,) = judged(tmp_path / "part", f"{wire}, read: 5.1 A", car=ALWAYS, more=FAN)
    assert told(part).note.endswith("is not on and has a switch of its own.")
    assert [name for name, *_ in inputs(part)] == ["heater"]
    assert value(part) == pytest.approx(AMPS)


def test_with_the_key_out_a_current_that_is_not_recorded_leaves_no_limit(tmp_path: Path) -> None:
    unread = FAN.replace("draws: 6 A", "draws: unknown")
    (post,) = judged(tmp_path, f"{KEY_OUT}, read: 20 A", car=ALWAYS, more=unread)
    assert (value(post), told(post).missing_words) == (None, ("current of fan",))
    assert (post.low, post.high, post.verdict) == (None, None, "")
    # behind the heater's wire nothing is missing
    (wire,) = judged(tmp_path / "w", f"red: heater.2, black: L1, loads on: none, {DAY}, read: 5.7 A",
                     car=ALWAYS, more=unread)  # fmt: skip
    assert (value(wire), told(wire).missing_words, wire.verdict) == (pytest.approx(AMPS), (), INSIDE)
    # nor does a fuse of which nobody said when it is live keep the current of another wire from being known
    unsaid = ALWAYS.replace("F2: {rating: 10 A, fed: ignition}", "F2: {rating: 10 A, fed: unknown}").replace(
        "from: F1, to: fan.1", "from: F2, to: fan.1"
    )
    post, wire = judged(
        tmp_path / "unsaid",
        f"{KEY_OUT}, read: 5.1 A",
        f"red: heater.2, black: L1, loads on: none, {DAY}, read: 5.7 A",
        car=unsaid,
        more=FAN,
    )
    assert (value(post), told(post).missing_words) == (None, ("when F2 is live",))
    assert (value(wire), told(wire).missing_words) == (pytest.approx(AMPS), ())


# ---- why nothing is expected ----------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("reading", "why"),
    [
        ("black: heater.2, of: heater, read: 0.4 V", "where the leads were is not recorded"),
        ("red: unknown, black: heater.2, of: heater, read: 0.4 V", "where the leads were is not recorded"),
        ("red: bench, black: heater.2, of: heater, read: 0.4 V", "bench is no point of the network of that day"),
        ("red: battery+, black: battery-, loads on: none, read: 5 ohm",
         "more than one way, or none, leads from lead to lead"),
    ],
)  # fmt: skip
def test_why_there_is_nothing_to_hold_a_reading_to(reading: str, why: str, tmp_path: Path) -> None:
    car = CAR.replace(
        "    wires:\n", "    wires:\n      W0: {size: 10 mm2, from: battery+, to: F1.feed, length: 1 m}\n"
    )
    assert judged(tmp_path, f"{reading}, {DAY}", car=car) == [Expected(why=why)]


def test_of_a_day_that_cannot_be_that_is_said(tmp_path: Path) -> None:
    reading = "red: heater.2, black: L1, of: heater, read: 0.4 V"
    text = copper_alone(CAR.replace("HEAD", "").replace("MORE", ""))
    for on, why in (
        (", on: 2031-07-01", "its day cannot be"),
        ("", "its day is not recorded"),
        (", on: yes", "its day is not recorded"),
        (f", {DAY}", ""),
    ):
        worked = work(tmp_path / on[2:12], f"{text}      - {{id: R1, {reading}{on}}}\n")  # on the first of June
        cars = CarsOfTheirDays(worked.job, Route(worked.job))
        assert [expected(each, cars).why for each in worked.job.readings] == [why]


def test_a_reading_without_a_day_tells_no_other_reading_anything(tmp_path: Path) -> None:
    fuse = "red: F1.feed, black: F1, loads on: heater, read: 100 mohm"
    load = f"red: heater.1, black: heater.2, of: heater, read: 11.4 V, {DAY}"
    undated, dated = judged(tmp_path, fuse, load)[1], judged(tmp_path / "d", f"{fuse}, on: 2031-05-03", load)[1]
    assert (value(undated), value(dated)) == (pytest.approx(AMPS * 2), pytest.approx(12 * 2 / 2.19302))


def test_two_readings_of_a_day_are_each_held_to_the_supply_of_its_own_moment(tmp_path: Path) -> None:
    load = f"red: heater.1, black: heater.2, of: heater, {DAY}, read: 9.6 V"
    low, high, again, own = judged(
        tmp_path, f"{load}, supply: 10.0 V", f"{load}, supply: 14.0 V", f"{load}, supply: 10.0 V", load
    )
    assert [value(each) for each in (low, high, again, own)] == pytest.approx(
        [volts * 2 / 2.09302 for volts in (10, 14, 10, 12)]
    )
    assert [inputs(each)[0][1] for each in (low, high, again, own)] == [10.0, 14.0, 10.0, 12.0]


def test_a_supply_beside_the_reading_does_not_tell_at_what_volts_the_loads_take_what_they_draw(tmp_path: Path) -> None:
    for unsaid in (CAR.replace("supply: 12.0 V", ""), CAR.replace("supply: 12.0 V", "supply: unknown")):
        (found,) = judged(tmp_path, f"{RETURN}, supply: 12.0 V, read: 0.4 V", car=unsaid)
        assert found == Expected(why="the supply is not recorded")
    # of a drop at a current by clamp, and of a resistance, that is not asked
    drop, ohms = judged(
        tmp_path / "not",
        f"red: heater.2, black: L1, through: 3 A, {DAY}, read: 0.23 V",
        f"red: heater.2, black: L1, {DAY}, read: 76 mohm",
        car=unsaid,
    )
    assert (drop.verdict, ohms.verdict) == (INSIDE, INSIDE)


@pytest.mark.parametrize(("kind", "why"), [("sensor", "what unit.4 puts out is not recorded"), ("lamp", "")])
def test_what_a_module_puts_out_to_a_sensor_is_not_the_supply(kind: str, why: str, tmp_path: Path) -> None:
    car = CAR.replace("from: F1, to: heater.1", "from: unit.4, to: heater.1").replace("class: heater", f"class: {kind}")
    module = "    modules: {unit: {out: {4: level}}}\n    loads:"
    (found,) = judged(tmp_path, f"{RETURN}, read: 0.45 V", car=car.replace("    loads:", module))
    assert found.why == why
    # a sensor on a fuse has the supply
    (fused,) = judged(tmp_path / "f", f"{RETURN}, read: 0.45 V", car=CAR.replace("class: heater", f"class: {kind}"))
    assert fused.why == ""


def test_one_of_several_loads_that_is_none_of_this_car_is_named(tmp_path: Path) -> None:
    car = CAR.replace("    changes:", FAN_WIRES)
    for on in ("[horn, heater, fan]", "[heater, horn, fan]", "[heater, fan, horn]"):
        found = judged(
            tmp_path / on, f"red: heater.2, black: L1, loads on: {on}, {DAY}, read: 0.4 V", car=car, more=FAN
        )
        assert found == [Expected(why="horn is no load of this car")]
    # a load that is deleted is none either
    gone = FAN.replace("class: motor", "class: motor, verdict: deleted")
    found = judged(tmp_path / "gone", f"red: heater.2, black: L1, loads on: [fan, heater], {DAY}, read: 0.4 V",
                   car=car, more=gone)  # fmt: skip
    assert found == [Expected(why="fan is no load of this car")]


@pytest.mark.parametrize(
    ("read", "verdict"),
    # at 3 A the drop of 10 m lies between 0.2042 and 0.2518 V
    [("0.204 V", INSIDE), ("0.203 V", BELOW), ("0.252 V", INSIDE), ("0.253 V", ABOVE), ("-0.253 V", ABOVE)],
)
def test_the_verdict_on_a_drop_by_clamp(read: str, verdict: str, tmp_path: Path) -> None:
    (found,) = judged(tmp_path, f"red: heater.2, black: L1, through: 3 A, {DAY}, read: {read}")
    assert found.verdict == verdict
