"""Several fuses in a row, several hot legs, several loads behind a meter: which of them a figure takes."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.figures.test_figures_bundles import PLANNED
from tests.figures.test_figures_expected import AMPS, CAR, DAY, judged, value
from tests.figures.test_figures_protection import NOSE
from tests.findings.cases_special import LET_IN, LINK, NOTHING
from tests.findings.jobs import copper_alone, figure, proved, work

from aswired.figures.electric import transfer_of
from aswired.figures.probes import kind_of_point
from aswired.figures.tests import JobSteps, steps_of_job

# Copper alone, 1.0 mm2: 18.5 mohm a metre. The lamp takes 6 A at 12 V, 2 ohm, the fan 10 A, 1.2 ohm. The lamp's way is
# W1, W2 and W3, 1 + 2 + 1 m, 74 mohm; the fan's is W4 and W5, 2 m, 37 mohm. Nothing but the battery is common to both.
IN_A_ROW = copper_alone(
    proved("""
    job: One fuse behind another
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 30 A, fed: always}, F2: {rating: 10 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: F2.feed, length: 1 m}
      W2: {size: 1.0 mm2, from: F2, to: lamp.1, length: 2 m}
      W3: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}
      W4: {size: 1.0 mm2, from: F1, to: fan.1, length: 1 m}
      W5: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 6 A}, fan: {between: fan.1 fan.2, draws: 10 A}}
""")
)


def steps(folder: Path, text: str) -> JobSteps:
    worked = work(folder / "job", text)
    return steps_of_job(transfer_of(worked.job, worked.shown, worked.circuits))


# ---- one fuse behind another ----------------------------------------------------------------------------------------
def test_of_two_fuses_in_a_row_the_meter_is_put_at_the_one_next_to_the_load(tmp_path: Path) -> None:
    told = steps(tmp_path, IN_A_ROW).circuits
    # with the last fuse out the feed begins behind it; W1 hangs on F1 still
    assert [(test.span.red, test.span.black) for test in told["lamp"].ohms] == [
        ("F2", "lamp.1"),
        ("lamp.2", "battery-"),
    ]
    assert [test.own.value for test in told["lamp"].ohms] == pytest.approx([37, 18.5])
    assert [(test.at, test.unplug) for test in told["lamp"].clear] == [("F2", ("lamp",))]
    assert told["lamp"].powered is not None
    current = told["lamp"].powered.current
    assert current is not None
    # F1 carries the fan's 12 / 1.237 = 9.70 A too
    assert (current.at, current.others) == ("F2", ())
    assert current.amps.value == pytest.approx(12 / 2.074)


def test_of_two_fuses_in_a_row_the_last_is_drawn_for_a_load(tmp_path: Path) -> None:
    told = steps(tmp_path, IN_A_ROW).circuits
    lamp, fan = told["lamp"].out, told["fan"].out
    assert lamp is not None
    assert fan is not None
    assert (lamp.fuses, lamp.also_dead) == (("F2",), ())  # F1 out would take the fan with it
    assert (fan.fuses, fan.also_dead) == (("F1",), ("lamp",))


def test_of_two_fuses_in_a_row_the_first_says_when_both_are_live(tmp_path: Path) -> None:
    apart = IN_A_ROW.replace("F2: {rating: 10 A}", "F2: {rating: 10 A}, F3: {fed: always}").replace(
        "from: F1, to: fan.1", "from: F3, to: fan.1"
    )
    off = steps(tmp_path, apart).off
    assert off is not None
    assert off.total.value == pytest.approx(12 / 2.074 + 12 / 1.237)
    # F1 feeds F2 and nothing else: that nobody said when it is live is as unknown for what hangs on F2
    off = steps(tmp_path / "twin", apart.replace("rating: 30 A, fed: always", "rating: 30 A, fed: unknown")).off
    assert off is not None
    assert (off.total.value, off.total.missing_words) == (None, ("when F1 is live",))


# ---- two hot legs ---------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("first", "second"), [(80, 60), (60, 80)])
def test_of_two_hot_legs_the_hotter_is_told(first: int, second: int, tmp_path: Path) -> None:
    two = (
        f"route: [{{from: bulkhead, to: mid, length: 400 mm, hottest: {first} C}}, "
        f"{{from: mid, to: nose, length: 600 mm, hottest: {second} C}}]"
    )
    one = "route: [{from: bulkhead, to: nose, length: 1000 mm, zone: wet}]"
    assert NOSE.count(one) == 1
    text = NOSE.replace(one, two).replace("nose: takeout", "nose: takeout, mid: clip")
    found = figure(work(tmp_path, text), "F1.cfr")
    assert found.value == pytest.approx(19.5)  # 25 A x 0.78 (33 CFR 183.425, note 1, read), once and not for each leg
    (told,) = [each.source for each in found.inputs if each.name == "engine space"]
    assert "hot from bulkhead to mid, hot from mid to nose" in told
    assert "it gets 80 C" in told


# ---- a meter with the key out, behind one fuse of several -----------------------------------------------------------
# The fan hangs on F3 alone: 9 A at 12 V, 4/3 ohm, and 2 m of 1.0 mm2, 37 mohm. The heater and the radio hang on F1.
BESIDE = CAR.replace("F1: {rating: 10 A, fed: always}", "F1: {rating: 10 A, fed: always}, F3: {fed: always}").replace(
    "    changes:",
    "      W3: {size: 1.0 mm2, from: F3, to: fan.1, length: 1 m}\n"
    "      W4: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}\n"
    "      W5: {size: 1.0 mm2, from: F1, to: radio.1, length: 1 m}\n"
    "      W6: {size: 1.0 mm2, from: radio.2, to: battery-, length: 1 m}\n"
    "    changes:",
)
FAN = "fan: {between: fan.1 fan.2, draws: 9 A, class: motor}"
RADIO = "radio: {between: radio.1 radio.2, draws: 1 A, class: electronics}"


def test_with_the_key_out_a_meter_behind_one_fuse_reads_what_hangs_there_alone(tmp_path: Path) -> None:
    meter = f"red: F3, black: fan.1, loads on: none, {DAY}, read: 8.76 A"
    (found,) = judged(tmp_path, meter, car=BESIDE, more=f"{FAN}\n      {RADIO}")
    # neither the heater's 5.7 A nor what the radio takes asleep passes F3
    assert value(found) == pytest.approx(12 / (4 / 3 + 0.037))
    assert found.figure is not None
    assert found.figure.missing_words == ()
    # with the heater on too, what it takes is still not told as a part of this current
    (found,) = judged(
        tmp_path / "both", meter.replace("on: none", "on: [heater, fan]"), car=BESIDE, more=f"{FAN}\n      {RADIO}"
    )
    assert value(found) == pytest.approx(12 / (4 / 3 + 0.037))
    assert found.figure is not None
    assert [each.name for each in found.figure.inputs] == ["fan"]
    (found,) = judged(
        tmp_path / "twin",
        meter.replace("F3, black: fan.1", "F1, black: radio.1"),
        car=BESIDE,
        more=f"{FAN}\n      {RADIO}",
    )
    assert found.figure is not None
    assert (value(found), found.figure.missing_words) == (None, ("current of radio asleep",))


def test_a_clamp_at_the_battery_tells_no_sum_of_which_one_current_is_not_recorded(tmp_path: Path) -> None:
    # two loads on: the heater's 12 / 2.09302 A, and 2 A at 12 V, 6 ohm, through 2 m of 1.0 mm2
    car = BESIDE.replace("fan", "horn")
    clamp = f"red: battery-, black: clamp, loads on: [heater, horn], {DAY}, read: 7.7 A"
    horn = "horn: {between: horn.1 horn.2, draws: 2 A, class: horn}"
    (found,) = judged(tmp_path, clamp, car=car, more=horn)
    assert value(found) == pytest.approx(AMPS + 12 / 6.037)
    (found,) = judged(tmp_path / "twin", clamp, car=car, more=horn.replace("2 A", "unknown"))
    assert found.figure is not None
    assert (value(found), found.figure.missing_words, found.high) == (None, ("current of horn",), None)


# ---- a fusible link and several stretches behind it -----------------------------------------------------------------
def behind_the_link(folder: Path, row: str, conductor: str = "") -> list[tuple[str, int | None]]:
    text = LINK.replace("SIZE", "20 AWG").replace("WIRE", f"16 AWG{conductor}").replace("LONG", "150 mm")
    (found,) = work(folder, text.replace("LIMITS", "").replace("ROW", row)).links
    return [(behind.wire, behind.steps) for behind in found.protects]


def test_a_link_of_copper_is_not_compared_with_a_wire_of_aluminium(tmp_path: Path) -> None:
    assert behind_the_link(tmp_path, NOTHING) == [("W5", 4)]  # 20 - 16
    assert behind_the_link(tmp_path / "other", NOTHING, ", conductor: aluminium") == [("W5", None)]


def test_of_several_stretches_behind_a_link_one_that_was_not_read_keeps_the_answer_open(tmp_path: Path) -> None:
    assert behind_the_link(tmp_path, LET_IN.replace("RD 16 AWG", "RD 18 AWG")) == [("W5", 2)]  # 20 - 18, the thinnest
    assert behind_the_link(tmp_path / "other", LET_IN.replace("RD 16 AWG", "RD unknown")) == [("W5", None)]
    text = LINK.replace("SIZE", "20 AWG").replace("WIRE", "16 AWG").replace("LONG", "150 mm").replace("LIMITS", "")
    (found,) = work(tmp_path / "named", text.replace("ROW", LET_IN.replace("RD 16 AWG", "RD unknown"))).links
    assert [behind.thinnest for behind in found.protects] == [None]  # the thinnest may be the one that was not read


# ---- several ground points, none of them any good -------------------------------------------------------------------
TWO_POINTS = copper_alone(
    proved("""
    job: Two points
    supply: 12 V
    fuses: {F1: {rating: 15 A, fed: always}}
    splices: {FS1: {}, FS2: {}}
    grounds:
      L1: {gone: yes, back to: battery-}
      L2: {GONE, back to: battery-, cable: 10 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 1.0 mm2, from: fan.2, to: FS1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
      W4: {size: 1.0 mm2, from: FS1, to: FS2, length: 1 m}
      W5: {size: 1.0 mm2, from: FS2, to: L2, length: 1 m}
    loads: {fan: {between: fan.1 fan.2, draws: 8 A}}
""")
)


def test_of_several_ground_points_that_are_gone_the_nearest_is_named(tmp_path: Path) -> None:
    back = work(tmp_path, TWO_POINTS.replace("GONE", "gone: yes")).circuits["fan"].back
    assert (back.state, back.why) == ("open", "ground point L1 is not on this car")
    # twin: of two of which one is there, that one is the way home, though it lies farther
    assert work(tmp_path / "twin", TWO_POINTS.replace("GONE", "gone: no")).circuits["fan"].ground == "L2"


# ---- several cut ends, several points, several plugs ----------------------------------------------------------------
def test_of_several_cut_ends_the_one_nearest_to_the_load_is_named(tmp_path: Path) -> None:
    removed = (
        "{id: C2, kind: remove, wire: W5, ends: {FS2: capped 30 mm, L2: pulled}, made: 2031-05-03 AK}, "
        "{id: C3, kind: remove, wire: W3, ends: {FS1: capped 30 mm, L1: pulled}, made: 2031-05-03 AK}, "
    )
    text = TWO_POINTS.replace("changes: [", f"changes: [{removed}")
    back = work(tmp_path, text.replace("GONE", "gone: no")).circuits["fan"].back
    assert back.state == "open"
    # one splice away; the cut end that C2 left lies two away
    assert back.why == "it ends at the cut end C3-W3-FS1"


def test_without_a_fuse_a_current_is_read_at_the_first_point_of_the_feed(tmp_path: Path) -> None:
    text = IN_A_ROW.replace("from: F1, to: F2.feed", "from: battery+, to: mid.1").replace(
        "from: F2, to: lamp.1", "from: mid.1, to: lamp.1"
    )
    powered = steps(tmp_path, text).circuits["lamp"].powered
    assert powered is not None
    assert powered.current is not None
    assert powered.current.at == "battery+"
    assert powered.current.amps.value == pytest.approx(12 / 2.074)


@pytest.mark.parametrize("between", ["s1.1 s1.2", "s1.1 s2.1", "s2.1 s1.1"])
def test_a_switch_between_two_plugs_is_a_switch_at_each(between: str, tmp_path: Path) -> None:
    first, second = between.split()
    text = IN_A_ROW.replace("F2, to: lamp.1", f"F2, to: {first}").replace(
        "    loads:",
        f"      W6: {{size: 1.0 mm2, from: {second}, to: lamp.1, length: 1 m}}\n"
        f"    switches: {{stalk: {{between: {between}}}}}\n    loads:",
    )
    worked = work(tmp_path, text)
    assert [kind_of_point(end, worked.job, worked.shown) for end in (first, second)] == ["switch", "switch"]
    assert kind_of_point("lamp.1", worked.job, worked.shown) == "back of the connector"


# ---- several joints of one row, some of them at a place that is written ---------------------------------------------
def test_a_row_of_which_some_joints_have_a_written_place_is_given_no_other_pigtail(tmp_path: Path) -> None:
    assert [recut.row for found in work(tmp_path, PLANNED).bundles.staggers for recut in found.recuts] == ["C1"]
    # the joints on the side of the loom are where `where` says, those on the side of the plug follow the pigtail
    text = PLANNED.replace("pigtail: 60 mm", "pigtail: 60 mm\n        where: 335 mm from nose towards left")
    worked = work(tmp_path / "written", text)
    assert {placed.joint.id for placed in worked.joints if placed.joint.recorded_place} == {
        f"C1-W{n}-loom" for n in (1, 2, 3)
    }
    assert worked.bundles.staggers
    assert [recut.row for found in worked.bundles.staggers for recut in found.recuts] == []


def test_a_load_that_two_fuses_feed_is_dead_with_both_out(tmp_path: Path) -> None:
    # F3 is joined to the lamp's own feed: with F2 out alone the lamp burns on through F3
    joined = IN_A_ROW.replace("F2: {rating: 10 A}", "F2: {rating: 10 A}, F3: {rating: 10 A, fed: always}").replace(
        "      W1:", "      W9: {size: 1.0 mm2, from: F3, to: lamp.1, length: 1 m}\n      W1:", 1
    )
    out = steps(tmp_path, joined).circuits["lamp"].out
    assert out is not None
    assert (out.fuses, out.also_dead, out.also_fed) == (("F2", "F3"), (), ())
    # a lead from the battery past both: no fuse makes it dead
    past = joined.replace("from: F3, to: lamp.1", "from: battery+, to: lamp.1")
    out = steps(tmp_path / "past", past).circuits["lamp"].out
    assert out is None or out.also_fed == ("battery+",)
