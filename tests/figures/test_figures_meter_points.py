"""Where a meter may come to, what it is called there, and what the car takes with the key out: one choice each."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.electric.on_one_lug import LAMP, RELAY, with_each
from tests.findings.jobs import copper_alone, proved, work

from aswired.car.special import special_wires
from aswired.figures.electric import transfer_of
from aswired.figures.key_off import AT_A, FuseMillivolts, KeyOff
from aswired.figures.probes import barred, kind_of_point, reachable
from aswired.figures.tests import JobSteps, steps_of_job
from aswired.network.grid import Grid
from aswired.network.transfer import UnitSolutions


def transfer(folder: Path, text: str) -> UnitSolutions:
    worked = work(folder / "job", text)
    return transfer_of(worked.job, worked.shown, worked.circuits)


def steps(folder: Path, text: str) -> JobSteps:
    return steps_of_job(transfer(folder, text))


def off(folder: Path, text: str) -> KeyOff:
    found = steps(folder, text).off
    assert found is not None
    return found


def grid(folder: Path, text: str) -> Grid:
    return transfer(folder, text).grid


# ---- where a tip may come to ----------------------------------------------------------------------------------------
POINTS = proved("""
    job: Every kind of point
    supply: 12 V
    plugs: {plain: {ways: 2}, hidden: {ways: 2, reachable: no}, old: {ways: 2, gone: yes}}
    modules: {unit: {out: {1: feed}}}
    fuses: {F1: {rating: 10 A, fed: always}}
    switches:
      stalk: {between: st.1 st.2}
      K contact: {between: K.30 K.87, worked by: coil}
    splices: {FS1: {}}
    grounds: {L1: {back to: battery-}, L2: {back to: battery-, reachable: no}, L3: {back to: battery-, gone: yes}}
    loads: {coil: {between: K.86 K.85, draws: 0.1 A, class: coil}}
    wires:
      W1: {size: 1.0 mm2, from: battery+, to: F1.feed, length: 1 m}
      W2: {size: 1.0 mm2, from: F1, to: st.1, length: 1 m}
      W3: {size: 1.0 mm2, from: st.2, to: FS1, length: 1 m}
      W4: {size: 1.0 mm2, from: FS1, to: plain.1, length: 1 m}
      W5: {size: 1.0 mm2, from: FS1, to: hidden.1, length: 1 m}
      W6: {size: 1.0 mm2, from: FS1, to: old.1, length: 1 m}
      W7: {size: 1.0 mm2, from: unit.1, to: K.30, length: 1 m}
      W8: {size: 1.0 mm2, from: K.87, to: L1, length: 1 m}
      W9: {size: 1.0 mm2, from: plain.2, to: L2, length: 1 m}
      W10: {size: 1.0 mm2, from: old.2, to: L3, length: 1 m}
      W11: {size: 1.0 mm2, from: FS1, to: unknown, length: 1 m}
      W12: {size: 1.0 mm2, from: plain.2, to: bag.1, length: 1 m, special: NONE}
""")


def test_a_tip_comes_to_what_is_declared_within_reach_and_in_the_car_and_never_inside_the_wrap(tmp_path: Path) -> None:
    points = reachable(grid(tmp_path, POINTS.replace("NONE", "none")))
    within = {"battery+", "battery-", "F1", "F1.feed", "st.1", "st.2", "plain.1", "plain.2", "unit.1", "bag.1", "L1"}
    assert points == within | {"K.30", "K.87"}  # no wire of the record ends at the coil
    # a connector with a restraint wire is left alone in all its cavities
    barred_points = reachable(grid(tmp_path / "bag", POINTS.replace("NONE", "restraint")))
    assert barred_points == points - {"plain.1", "plain.2", "bag.1"}


@pytest.mark.parametrize(
    ("point", "words"),
    [
        ("battery+", "battery post"),
        ("battery-", "battery post"),
        ("F1.feed", "feed leg of the fuse"),
        ("F1", "load leg of the fuse"),
        ("L1", "ground point"),
        ("L2", "ground point"),
        ("unit.1", "module, back of its connector"),
        ("st.1", "switch"),
        ("st.2", "switch"),
        ("K.30", "relay socket"),
        ("K.85", "relay socket"),  # the coil sits in the socket of its contact
        ("plain.1", "back of the connector"),
    ],
)
def test_a_point_is_told_by_what_it_is(point: str, words: str, tmp_path: Path) -> None:
    worked = work(tmp_path, POINTS.replace("NONE", "none"))
    assert kind_of_point(point, worked.job, worked.shown) == words


def test_a_ground_point_is_told_as_one_though_no_wire_of_the_car_ends_there_yet(tmp_path: Path) -> None:
    worked = work(tmp_path, POINTS.replace("NONE", "none").replace("L1: {", "L9: {back to: battery-}, L1: {"))
    assert "L9" not in worked.shown.nodes
    assert kind_of_point("L9", worked.job, worked.shown) == "ground point"


@pytest.mark.parametrize(("first", "second"), [("restraint", "high voltage"), ("high voltage", "restraint")])
def test_of_two_systems_on_one_load_that_of_its_feed_is_told(first: str, second: str, tmp_path: Path) -> None:
    text = with_each(LAMP, (("W2: {", f"W2: {{special: {first}, "), ("W3: {", f"W3: {{special: {second}, ")))
    found = steps(tmp_path, text).circuits
    assert (found["lamp"].barred, found["fan"].barred) == (first, "")
    assert (found["lamp"].figures, found["fan"].figures == ()) == ((), False)


def test_a_load_is_barred_by_a_wire_beside_it_in_its_connector(tmp_path: Path) -> None:
    side = "  W9: {size: 0.5 mm2, from: lamp.3, to: bag.1, special: restraint}\nchanges:"
    found = transfer(tmp_path, LAMP.replace("changes:", side))
    assert [barred(name, circuit, found.grid) for name, circuit in found.circuits.items()] == ["restraint", ""]
    # one that is shielded or twisted is measured like any other
    other = transfer(tmp_path / "b", LAMP.replace("changes:", side.replace("restraint", "shielded")))
    assert [barred(name, circuit, other.grid) for name, circuit in other.circuits.items()] == ["", ""]


def test_what_a_row_declares_of_a_wire_counts_and_a_row_that_says_nothing_leaves_the_donors_word(
    tmp_path: Path,
) -> None:
    text = """
    job: Special wires
    wires:
      W1: {size: 1.0 mm2, from: u.1, to: v.1, special: restraint}
      W2: {size: 1.0 mm2, from: u.2, to: v.2, special: none}
      W3: {size: 1.0 mm2, from: u.3, to: v.3}
    changes:
      - {id: C1, kind: add, wire: W4, from: u.4, to: v.4, piece: BU 1.0 mm2, cut: 1 m, special: high voltage}
      - {id: C2, kind: add, wire: W5, from: u.5, to: v.5, piece: BU 1.0 mm2, cut: 1 m, special: none}
      - {id: C3, kind: verify, proves: [C1], made: 2031-05-03 AK}
      - {id: C4, kind: remove, wire: W1, ends: {u.1: gone, v.1: gone}}
    """
    assert dict(special_wires(work(tmp_path, text).job)) == {"W1": "restraint", "W4": "high voltage"}


# ---- what goes dead with a fuse, what is passed over ----------------------------------------------------------------
def test_a_load_straight_on_the_battery_has_no_fuse_to_be_drawn(tmp_path: Path) -> None:
    found = steps(tmp_path, LAMP.replace("from: F1, to: mid.1", "from: battery+, to: mid.1")).circuits
    assert found["lamp"].out is None
    fan = found["fan"].out
    assert fan is not None
    assert (fan.fuses, fan.also_dead) == (("F2",), ())


def test_of_several_loads_behind_a_fuse_one_that_is_never_touched_keeps_it_in(tmp_path: Path) -> None:
    more = with_each(
        LAMP,
        (
            ("grounds:", "  bell: {between: bell.1 bell.2, draws: 1 A}\n"
             "  horn: {between: horn.1 horn.2, draws: 1 A}\ngrounds:"),
            ("changes:", "  W7: {size: 1.0 mm2, from: F1, to: bell.1, length: 1 m}\n"
             "  W8: {size: 1.0 mm2, from: bell.2, to: L1, length: 1 m}\n"
             "  W9: {size: 1.0 mm2, from: F1, to: horn.1, length: 1 m, special: NONE}\n"
             "  W10: {size: 1.0 mm2, from: horn.2, to: L1, length: 1 m}\nchanges:"),
        ),
    )  # fmt: skip
    out = steps(tmp_path, more.replace("NONE", "none")).circuits["lamp"].out
    assert out is not None
    assert (out.fuses, out.also_dead) == (("F1",), ("bell", "horn"))
    kept = steps(tmp_path / "kept", more.replace("NONE", "high voltage")).circuits
    assert (kept["lamp"].out, kept["bell"].out, kept["horn"].out) == (None, None, None)
    assert kept["fan"].out is not None


def test_every_connector_and_ground_point_out_of_reach_on_the_way_is_named_once_in_its_order(tmp_path: Path) -> None:
    text = with_each(
        LAMP,
        (
            ("mid: {ways: 2,", "mid: {ways: 2, reachable: no,"),
            ("  lamp: {ways: 2}", "  lamp: {ways: 2, reachable: no}"),
            ("L1: {cable", "L1: {reachable: no, cable"),
        ),
    )
    found = steps(tmp_path, text).circuits
    assert found["lamp"].skipped == ("mid", "lamp", "L1")
    assert found["fan"].skipped == ("L1",)


def test_a_point_that_halves_the_return_is_told_as_one_of_the_return(tmp_path: Path) -> None:
    """F1, W1, lamp.1 on the way there; lamp.2, W2, m.1 and on by W3, n.1, W4, its ring and the cable on the way home.

    Suspects: F1, W1, lamp.1 contact, lamp.2 contact, W2, m.1, W3, n.1, W4, ring, cable: the half of eleven, five and a
    half, lies at m.1, of which five are before.
    """
    text = proved("""
    job: A long way home
    supply: 12 V
    plugs: {m: {ways: 1, in line: yes}, n: {ways: 1, in line: yes}}
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: m.1, length: 1 m}
      W3: {size: 1.0 mm2, from: m.1, to: n.1, length: 1 m}
      W4: {size: 1.0 mm2, from: n.1, to: L1, length: 1 m}
    """)
    start = steps(tmp_path, text).circuits["lamp"].start
    assert start is not None
    assert (start.at, start.side) == ("m.1", "return")
    front = steps(tmp_path / "b", LAMP).circuits["lamp"].start
    assert front is not None
    assert (front.at, front.side) == ("lamp.1", "feed")


# ---- the key out ----------------------------------------------------------------------------------------------------
TWO_LIVE = copper_alone(
    proved("""
    job: Live for good
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 5 A, fed: WHEN}, F3: {rating: 15 A, fed: accessory}}
    loads:
      clock: {between: clock.1 clock.2, draws: 12 mA}
      alarm: {between: alarm.1 alarm.2, draws: 24 mA, class: other}
      radio: {between: radio.1 radio.2, draws: 2 A, class: electronics}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: clock.1, length: 1 m}
      W2: {size: 1.0 mm2, from: clock.2, to: battery-, length: 1 m}
      W3: {size: 1.0 mm2, from: F2, to: alarm.1, length: 1 m}
      W4: {size: 1.0 mm2, from: alarm.2, to: battery-, length: 1 m}
      W5: {size: 1.0 mm2, from: F3, to: radio.1, length: 1 m}
      W6: {size: 1.0 mm2, from: radio.2, to: battery-, length: 1 m}
""")
)


def test_what_is_live_for_good_is_added_up_and_what_the_key_switches_is_not(tmp_path: Path) -> None:
    found = off(tmp_path, TWO_LIVE.replace("WHEN", "always"))
    # 12 mA at 12 V are 1000 ohm, 24 mA 500 ohm: the 37 mohm of wire take less than a ten-thousandth
    assert found.total.value == pytest.approx(0.036, rel=1e-4)
    assert (found.live, found.asleep) == (("clock", "alarm"), ())
    assert [(given.name, given.unit) for given in found.total.inputs] == [("clock", "A"), ("alarm", "A")]
    assert [given.value for given in found.total.inputs] == pytest.approx([0.012, 0.024], rel=1e-4)
    assert (found.total.key, found.total.unit, found.total.missing_words) == ("key-off.current", "A", ())
    assert off(tmp_path / "b", TWO_LIVE.replace("WHEN", "ignition")).live == ("clock",)


@pytest.mark.parametrize(
    ("edits", "missing"),
    [
        ((("fed: WHEN", "fed: unknown"),), ("when F2 is live",)),
        ((("draws: 24 mA", "draws: unknown"), ("WHEN", "always")), ("current of alarm",)),
        ((("draws: 24 mA, class: other", "draws: 24 mA, feed: not examined"), ("WHEN", "always")), ("feed of alarm",)),
        ((("draws: 24 mA, class: other", "draws: 24 mA, class: sensor"), ("WHEN", "always")),
         ("current of alarm asleep",)),
        ((("draws: 24 mA, class: other", "draws: 24 mA, class: electronics"), ("WHEN", "always")),
         ("current of alarm asleep",)),
        # the clock's feed is joined to battery negative by a wire: what flows there is no load's current
        ((("    wires:", "    wires:\n      W7: {size: 1.0 mm2, from: F1, to: battery-, length: 1 m}"),
          ("WHEN", "always")),
         ("what flows where a feed is joined to ground with no load between",)),
        ((("supply: 12 V", "supply: 12 V\n    ground side: positive"), ("WHEN", "always")),
         ("positive ground: not computed",)),
    ],
)  # fmt: skip
def test_what_keeps_the_sum_from_being_known_is_named(
    edits: tuple[tuple[str, str], ...], missing: tuple[str, ...], tmp_path: Path
) -> None:
    found = off(tmp_path, with_each(TWO_LIVE, edits)).total
    assert (found.value, found.missing_words) == (None, missing)


def test_a_load_straight_on_the_battery_is_counted_though_it_has_no_fuse(tmp_path: Path) -> None:
    text = TWO_LIVE.replace("WHEN", "ignition").replace("from: F2, to: alarm.1", "from: battery+, to: alarm.1")
    found = off(tmp_path, text)
    assert found.live == ("clock", "alarm")
    assert found.total.value == pytest.approx(0.036, rel=1e-4)


def test_a_relay_that_buzzes_with_the_key_out_leaves_the_sum_open(tmp_path: Path) -> None:
    # the coil is fed for good, through its own break contact, by a button that is closed at rest
    text = with_each(
        RELAY,
        (
            ("worked by: K coil}", "worked by: K coil, at rest: closed}"),
            ("from: F1, to: b.1", "from: K.87, to: b.1"),
            ("button: {between: b.1 b.2}", "button: {between: b.1 b.2, at rest: closed}"),
            ("F2: {rating: 20 A, fed: ignition}", "F2: {rating: 20 A, fed: always}"),
        ),
    )
    found = off(tmp_path, text).total
    assert found.value is None
    assert "where the relays come to rest" in found.missing_words


def millivolts(folder: Path, text: str) -> list[FuseMillivolts]:
    return list(steps(folder, text).millivolts)


def test_millivolts_are_told_of_each_fuse_in_use_that_the_key_does_not_switch(tmp_path: Path) -> None:
    # usual: no resistance of a fuse is written here, so that a 10 A fuse has 7.7 mohm and a 5 A one 17.85 mohm, one
    # maker's data sheet (read and from memory)
    text = TWO_LIVE.replace("fuse resistance: 0 mohm, ", "")
    assert text != TWO_LIVE
    found = millivolts(tmp_path, text.replace("WHEN", "unknown"))
    assert [(one.name, one.rating_a, one.mohm, one.loads) for one in found] == [
        ("F1", 10, 7.7, ("clock",)),
        ("F2", 5, 17.85, ("alarm",)),  # nobody said when it is live: it may be
    ]
    assert AT_A == (0.010, 0.050, 0.100)
    assert found[1].at_mv == pytest.approx((0.1785, 0.8925, 1.785))  # 10, 50 and 100 mA
    for when in ("ignition", "accessory"):
        assert [one.name for one in millivolts(tmp_path / when, text.replace("WHEN", when))] == ["F1"]
    spare = text.replace("fed: WHEN", "fed: always").replace("rating: 5 A", "use: spare, rating: 5 A")
    spare = spare.replace("      W3: {size: 1.0 mm2, from: F2, to: alarm.1, length: 1 m}\n", "")
    assert [one.name for one in millivolts(tmp_path / "spare", spare)] == ["F1"]


def test_a_fuse_whose_feed_was_taken_out_has_no_millivolts(tmp_path: Path) -> None:
    text = TWO_LIVE.replace("fed: WHEN", "fed: always").replace("F1: {rating: 10 A, fed: always}", "F1: {rating: 10 A}")
    text = text.replace("    wires:", "    wires:\n      W9: {size: 2.5 mm2, from: battery+, to: F1.feed, length: 1 m}")
    assert [one.name for one in millivolts(tmp_path, text)] == ["F1", "F2"]
    gone = "changes: [{id: C2, kind: remove, wire: W9, ends: {battery+: gone, F1.feed: gone}, made: 2031-05-03 AK}, "
    assert [one.name for one in millivolts(tmp_path / "gone", text.replace("changes: [", gone))] == ["F2"]
