"""A ground that opens: small cars whose currents are worked out by hand, and what is told of what is unknown."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, proved, work

from aswired.figures.backfeed import DEAD, FED, LESS, Opened, Over, PointOpened
from aswired.figures.ground_states import NOTHING_ON, TOGETHER, WORST, Carried, landing
from aswired.figures.worked import JobResult
from aswired.sheets.backfeed import OpenedStateRow, if_opened

# a and b share the return FS1, b and c the feed FS2. Every wire is 1 m of 1.0 mm2, 18.5 mohm (ISO 6722-1, from
# memory), every cable 1 m of 10 mm2, 1.82 mohm.
THREE = copper_alone(
    proved("""
    job: Three loads
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: always}}
    plugs: {s1: {ways: 2}, s2: {ways: 2}, a: {ways: 2}, b: {ways: 2}, c: {ways: 2}}
    switches:
      first: {between: s1.1 s1.2, what: on the dash}
      second: {between: s2.1 s2.2}
    loads:
      a: {between: a.1 a.2, draws: 2 A, class: heater}
      b: {between: b.1 b.2, draws: 1 A, class: heater}
      c: {between: c.1 c.2, draws: 1 A, class: heater}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    splices: {FS1: {}, FS2: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: s1.1, length: 1 m}
      W2: {size: 1.0 mm2, from: s1.2, to: a.1, length: 1 m}
      W3: {size: 1.0 mm2, from: a.2, to: FS1, length: 1 m}
      W4: {size: 1.0 mm2, from: b.2, to: FS1, length: 1 m}
      W5: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
      W6: {size: 1.0 mm2, from: b.1, to: FS2, length: 1 m}
      W7: {size: 1.0 mm2, from: FS2, to: c.1, length: 1 m}
      W8: {size: 1.0 mm2, from: c.2, to: L2, length: 1 m}
      W9: {size: 1.0 mm2, from: s2.2, to: FS2, length: 1 m}
      W10: {size: 1.0 mm2, from: F2, to: s2.1, length: 1 m}
""")
)
WIRE, CABLE = 0.0185, 0.00182  # ohm
ALL_IN_LINE = 7 * WIRE + CABLE  # W1 W2, a, W3 W4, b, W6 W7, c, W8 and the cable of L2


def car(folder: Path, *changed: tuple[str, str], text: str = THREE) -> JobResult:
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return work(folder / "job", text)


def point(worked: JobResult, name: str) -> PointOpened:
    return worked.ground_states.opened[name]


def state_of(worked: JobResult, name: str, switched: str) -> Opened:
    (found,) = [opened for opened in point(worked, name).opened if opened.switched.short == switched]
    return found


def over(worked: JobResult, name: str, switched: str) -> dict[str, Over]:
    return {each.load: each for each in state_of(worked, name, switched).over}


def row(worked: JobResult, name: str, switched: str) -> OpenedStateRow:
    (found,) = [each for each in if_opened(name, worked).rows if each.short == switched]
    return found


def test_plain_loads_in_a_row_share_the_supply_as_their_resistances_do(tmp_path: Path) -> None:
    # 12 V over 6, 12, 12 ohm and the wires: 12 / 30.13132 = 0.39826 A
    amps = 12 / (6 + 12 + 12 + ALL_IN_LINE)
    found = over(car(tmp_path), "L1", "first closed")
    assert {load: each.effect for load, each in found.items()} == {"a": LESS, "b": FED, "c": FED}
    assert found["a"].open_v == pytest.approx(6 * amps, abs=1e-6)
    assert found["b"].open_v == pytest.approx(-12 * amps, abs=1e-6)
    assert found["c"].open_v == pytest.approx(12 * amps, abs=1e-6)
    # sound: W5 and the cable of L1 beside the long way by b and c
    home, round_about = WIRE + CABLE, 24 + 4 * WIRE + CABLE
    beside = home * round_about / (home + round_about)
    assert found["a"].sound_v == pytest.approx(12 * 6 / (6 + 3 * WIRE + beside), abs=1e-6)
    assert found["b"].backwards
    assert not found["c"].backwards


def test_the_way_is_that_of_the_current(tmp_path: Path) -> None:
    first = state_of(car(tmp_path), "L1", "first closed")
    assert [name for name, _ in first.way] == ["a", "FS1", "b", "FS2", "c", "L2", "battery-"]


def test_filaments_in_a_row_share_it_by_their_law(tmp_path: Path) -> None:
    # one current I for all: U = 12 (I / Id)^(1 / 0.55) over each lamp; I by bisection
    lamps = {"a": 2.0, "b": 1.0, "c": 1.0}
    low, high = 0.0, 2.0
    for _ in range(100):
        amps = (low + high) / 2
        whole = sum(12 * (amps / design) ** (1 / 0.55) for design in lamps.values()) + amps * ALL_IN_LINE
        low, high = (low, amps) if whole > 12 else (amps, high)
    worked = car(tmp_path, text=THREE.replace("class: heater", "class: lamp"))
    found = over(worked, "L1", "first closed")
    for load, sign in {"a": 1, "b": -1, "c": 1}.items():
        volts = 12 * (amps / lamps[load]) ** (1 / 0.55)
        assert found[load].open_v == pytest.approx(sign * volts, rel=1e-4), load
        assert found[load].light == pytest.approx((volts / 12) ** 3.4, rel=1e-3), load


def test_a_motor_is_fed_backwards(tmp_path: Path) -> None:
    worked = car(
        tmp_path, ("b: {between: b.1 b.2, draws: 1 A, class: heater", "b: {between: b.1 b.2, draws: 1 A, class: motor")
    )
    first = row(worked, "L1", "first closed")  # with the second switch alone b has no way home, and feeds nothing
    assert [(group.loads, group.words) for group in first.fed] == [
        (("b",), "may turn backwards at 4.8 V, the wrong way round"),  # 12 ohm x 0.39826 A = 4.78 V
        (("c",), "is fed at 4.8 V"),
    ]


def test_the_ends_of_a_load_may_be_written_either_way_round(tmp_path: Path) -> None:
    found = over(car(tmp_path, ("between: b.1 b.2", "between: b.2 b.1")), "L1", "first closed")
    assert found["b"].open_v == pytest.approx(-12 * 12 / (30 + ALL_IN_LINE), abs=1e-6)


def test_less_than_the_limit_over_a_load_that_is_off_is_not_told(tmp_path: Path) -> None:
    # 4.78 V over b and c
    assert set(
        over(car(tmp_path, ("supply: 12 V", "supply: 12 V\n    limits: {fed backwards: 4.7 V}")), "L1", "first closed")
    ) == {"a", "b", "c"}
    other = car(tmp_path / "other", ("supply: 12 V", "supply: 12 V\n    limits: {fed backwards: 4.8 V}"))
    assert {load: each.effect for load, each in over(other, "L1", "first closed").items()} == {"a": DEAD}


def test_a_load_without_another_way_home_is_dead_and_feeds_nothing(tmp_path: Path) -> None:
    # with L2 open c hangs on FS2, b has L1: nothing else leads on from c
    found = over(car(tmp_path), "L2", "second closed")
    assert {load: each.effect for load, each in found.items()} == {"c": DEAD}
    assert found["c"].open_v == 0
    said = if_opened("L2", car(tmp_path / "again"))
    assert (said.lost, said.rows) == (("c",), ())


def test_a_point_with_a_second_way_home_loses_nothing(tmp_path: Path) -> None:
    worked = car(tmp_path, ("    changes:", "      W11: {size: 1.0 mm2, from: FS1, to: L2, length: 1 m}\n    changes:"))
    for name in ("L1", "L2"):  # c too: its wire lies on the stud of L2 with W11
        # key off, either switch, both
        assert [opened.over for opened in point(worked, name).opened] == [(), (), (), ()]
        assert if_opened(name, worked).note == "by another way home: a, b, c; nothing that is off is fed"


def test_a_return_that_divides_has_its_part_on_either_point(tmp_path: Path) -> None:
    worked = car(tmp_path, ("    changes:", "      W11: {size: 1.0 mm2, from: FS1, to: L2, length: 1 m}\n    changes:"))
    transfer = worked.ground_states.transfer
    # from FS1 by W5 and a cable or by W11 and a cable, the same: half of the 2 A of a and the 1 A of b each. What c
    # brings to L2 goes home by the cable there, or by W11, W5 and the cable of L1
    by_fs1 = CABLE / (2 * WIRE + 2 * CABLE)
    on = transfer.together()
    assert landing("L1", transfer, on) == pytest.approx({"a": 1.0, "b": 0.5, "c": by_fs1})
    assert landing("L2", transfer, on) == pytest.approx({"a": 1.0, "b": 0.5, "c": 1.0 - by_fs1})
    total = {ground.name: ground.total.value for ground in worked.grounds}
    assert total == pytest.approx({"L1": 1.5 + by_fs1, "L2": 2.5 - by_fs1})


def carried(worked: JobResult, name: str) -> dict[str, Carried]:
    return {each.words: each for each in worked.ground_states.carried[name]}


def test_current_and_rise_of_each_state(tmp_path: Path) -> None:
    found = carried(car(tmp_path), "L1")
    assert list(found) == [NOTHING_ON, "first closed (on the dash)", "second closed", TOGETHER, WORST]
    amps = {NOTHING_ON: 0.0, "first closed (on the dash)": 2.0, "second closed": 1.0, TOGETHER: 3.0, WORST: 3.0}
    for words, each in found.items():
        # the cable is 1.82 mohm; at its worst a tenth more, the `band of wire`
        assert each.amps.value == pytest.approx(amps[words]), words
        assert each.rise.value == pytest.approx(amps[words] * CABLE * (1.1 if words == WORST else 1)), words


def test_a_load_that_may_be_live_for_good_is_not_nought_with_the_key_off(tmp_path: Path) -> None:
    """Nobody said when F1 is live; `a` has no switch in this car, so that it may be on in every state."""
    unsaid = ("F1: {rating: 10 A, fed: always}", "F1: {rating: 10 A, fed: unknown}")
    unswitched = ("first: {between: s1.1 s1.2, what: on the dash}", "first: {between: s1.1 s1.2, at rest: closed}")
    switched = carried(car(tmp_path / "switched", unsaid), "L1")
    assert switched[NOTHING_ON].amps.value == 0
    found = carried(car(tmp_path / "unswitched", unsaid, unswitched), "L1")
    for state in (NOTHING_ON, "second closed"):
        assert (found[state].amps.value, found[state].rise.value) == (None, None)
        assert "when F1 is live" in found[state].amps.missing_words
    # once it is said to be live: 2 A of `a` by the cable
    assert found["F1 live"].amps.value == pytest.approx(2)
    # nor is it said there that nothing happens if the point opens
    told = dict(if_opened("L1", car(tmp_path / "again", unsaid, unswitched)).quiet)
    assert told[NOTHING_ON] == (
        "nothing behind L1 is on for certain, and nothing that is off is fed; when F1 is live is not recorded"
    )


def test_a_current_that_is_not_recorded_is_named_and_the_loads_are_still_told(tmp_path: Path) -> None:
    worked = car(tmp_path, ("b: {between: b.1 b.2, draws: 1 A", "b: {between: b.1 b.2, draws: unknown"))
    first = state_of(worked, "L1", "first closed")
    assert {each.load: (each.effect, each.open_v) for each in first.over} == {
        "a": (LESS, None), "b": (FED, None), "c": (FED, None),
    }  # fmt: skip
    assert tuple(map(str, first.wanting)) == ("current of b",)
    assert first.figure.value is None
    assert first.figure.missing_words == ("current of b",)
    told = row(worked, "L1", "first closed")
    assert told.unknown == "Volts not recorded: current of b."
    assert [(group.loads, group.words) for group in told.fed] == [(("b", "c"), "are fed, volts not recorded")]


def test_without_a_supply_connections_alone_are_told(tmp_path: Path) -> None:
    first = state_of(car(tmp_path, ("supply: 12 V", "supply: unknown")), "L1", "first closed")
    assert {each.load: (each.effect, each.open_v) for each in first.over} == {
        "a": (LESS, None), "b": (FED, None), "c": (FED, None),
    }  # fmt: skip
    assert tuple(map(str, first.wanting)) == ("the supply",)


BODY = (
    ("body returns: no", "body returns: yes"),
    ("L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}", "L1: {conducts: yes}"),
    ("L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}", "L2: {conducts: yes}"),
)


def test_a_point_on_the_body_opens_too(tmp_path: Path) -> None:
    worked = car(tmp_path, *BODY)
    first = state_of(worked, "L1", "first closed")
    assert first.figure.inputs[1].value == "body L1"
    assert {each.load: (each.effect, each.open_v) for each in first.over} == {
        "a": (LESS, None), "b": (FED, None), "c": (FED, None),
    }  # fmt: skip
    assert tuple(map(str, first.wanting)) == ("the way back from L2: not recorded",)
    # c has no other way, whatever the body's resistance
    assert if_opened("L2", worked).lost == ("c",)


def test_nothing_is_told_of_a_point_whose_way_back_is_not_recorded(tmp_path: Path) -> None:
    worked = car(tmp_path, ("L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}", "L1: {conducts: yes}"))
    assert worked.circuits["a"].back.state == "not examined"
    assert (point(worked, "L1").opened, worked.ground_states.carried["L1"]) == ((), ())


def test_a_positive_ground_is_not_computed(tmp_path: Path) -> None:
    found = point(car(tmp_path, ("system: 12 V", "system: 12 V\n    ground side: positive")), "L1")
    assert (found.opened, found.why) == ((), "positive ground: not computed")


def test_a_point_that_carries_nothing_has_nothing(tmp_path: Path) -> None:
    worked = car(
        tmp_path, ("    splices:", "      L3: {back to: battery-, cable: 10 mm2, cable length: 1 m}\n    splices:")
    )
    assert (point(worked, "L3").opened, worked.ground_states.carried["L3"]) == ((), ())


def test_what_switches_a_load_on_and_is_not_recorded_is_named(tmp_path: Path) -> None:
    worked = car(
        tmp_path,
        (
            "a: {between: a.1 a.2, draws: 2 A, class: heater",
            "a: {between: a.1 a.2, draws: 2 A, class: heater, feed: not examined",
        ),
    )
    found = point(worked, "L1")
    assert found.untold == (("a", "its feed was not examined"),)
    # key off, and the second switch: with a not looked at that is all that can be on
    assert [opened.switched.loads for opened in found.opened] == [(), ("b",)]


def test_a_light_that_is_no_filament_is_told_as_counted(tmp_path: Path) -> None:
    worked = car(
        tmp_path,
        (
            "c: {between: c.1 c.2, draws: 1 A, class: heater",
            "c: {between: c.1 c.2, draws: 1 A, class: lamp, light: LED",
        ),
    )
    first = row(worked, "L1", "first closed")  # with the second switch alone b has no way home, and feeds nothing
    assert [group.words for group in first.fed if group.loads == ("c",)] == [
        "is fed at 4.8 V (light: LED, counted as a resistance)"
    ]


# with L1 open the current of a divides at FS1 into two ways of two loads each, and x lies between their middles
BRIDGE = copper_alone(
    proved("""
    job: A bridge
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}}
    loads:
      a: {between: a.1 a.2, draws: 2 A, class: heater}
      b: {between: b.1 b.2, draws: 1 A, class: heater}
      c: {between: c.1 c.2, draws: 1 A, class: heater}
      d: {between: d.1 d.2, draws: 1 A, class: heater}
      e: {between: e.1 e.2, draws: 1 A, class: heater}
      x: {between: x.1 x.2, draws: 1 A, class: heater}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    splices: {FS1: {}, FS2: {}, FS3: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: a.1, length: 1 m}
      W2: {size: 1.0 mm2, from: a.2, to: FS1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
      W4: {size: 1.0 mm2, from: FS1, to: b.2, length: 1 m}
      W5: {size: 1.0 mm2, from: FS1, to: c.2, length: 1 m}
      W6: {size: 1.0 mm2, from: b.1, to: FS2, length: 1 m}
      W7: {size: 1.0 mm2, from: c.1, to: FS3, length: 1 m}
      W8: {size: 1.0 mm2, from: FS2, to: d.1, length: 1 m}
      W9: {size: 1.0 mm2, from: FS3, to: e.1, length: 1 m}
      W10: {size: 1.0 mm2, from: d.2, to: L2, length: 1 m}
      W11: {size: 1.0 mm2, from: e.2, to: L2, length: 1 m}
      W12: {size: 1.0 mm2, from: FS2, to: x.1, length: 1 m}
      W13: {size: 1.0 mm2, from: FS3, to: x.2, length: 1 m}
""")
)


def test_a_bridge_of_equal_loads_leaves_what_lies_across_it_dark(tmp_path: Path) -> None:
    found = over(car(tmp_path, text=BRIDGE), "L1", NOTHING_ON)
    assert set(found) == {"a", "b", "c", "d", "e"}
    # two of 12 ohm in a row, twice beside each other, are 12 ohm: 12 V x 6 / 18 over a, half of the rest over each,
    # less what 0.7 A loses in wires of 18.5 mohm, under 0.05 V
    assert found["a"].open_v == pytest.approx(4.0, abs=0.05)
    assert found["d"].open_v == pytest.approx(4.0, abs=0.05)


def test_what_lies_across_a_bridge_is_told_when_the_bridge_is_not_known_to_be_equal(tmp_path: Path) -> None:
    found = over(car(tmp_path, ("b.2, draws: 1 A", "b.2, draws: unknown"), text=BRIDGE), "L1", NOTHING_ON)
    assert (found["x"].effect, found["x"].open_v) == (FED, None)


# the coil of K hangs on L1, what its contact feeds on L2
RELAY = copper_alone(
    proved("""
    job: A relay
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: always}}
    plugs: {K: {ways: 4}, s1: {ways: 2}, fan: {ways: 2}}
    switches:
      button: {between: s1.1 s1.2}
      contact: {between: K.30 K.87, worked by: coil}
    loads:
      coil: {between: K.86 K.85, draws: 150 mA, class: coil}
      fan: {between: fan.1 fan.2, draws: 6 A, class: motor}
    grounds:
      L1: {back to: L2, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: s1.1, length: 1 m}
      W2: {size: 1.0 mm2, from: s1.2, to: K.86, length: 1 m}
      W3: {size: 1.0 mm2, from: K.85, to: L1, length: 1 m}
      W4: {size: 2.5 mm2, from: F2, to: K.30, length: 1 m}
      W5: {size: 2.5 mm2, from: K.87, to: fan.1, length: 1 m}
      W6: {size: 2.5 mm2, from: fan.2, to: L2, length: 1 m}
""")
)


def test_a_relay_without_its_ground_takes_its_load_along(tmp_path: Path) -> None:
    worked = car(tmp_path, text=RELAY)
    found = over(worked, "L1", "button closed")
    assert {load: (each.effect, each.open_v) for load, each in found.items()} == {"coil": (DEAD, 0), "fan": (DEAD, 0)}


AT_REST_CLOSED = ("worked by: coil}", "worked by: coil, at rest: closed}")


def test_a_contact_that_its_coil_held_open_lets_its_load_come_on(tmp_path: Path) -> None:
    found = over(car(tmp_path, AT_REST_CLOSED, text=RELAY), "L1", "button closed")
    assert {load: each.effect for load, each in found.items()} == {"coil": DEAD, "fan": FED}
    # 6 A at 12 V are 2 ohm; W4, W5, W6 are 1 m of 2.5 mm2, 7.6 mohm (ISO 6722-1, from memory)
    assert found["fan"].open_v == pytest.approx(12 * 2 / (2 + 3 * 0.0076 + CABLE), abs=1e-6)


@pytest.mark.parametrize(("changed", "fan"), [((), DEAD), ((AT_REST_CLOSED,), FED)])
def test_without_a_supply_contacts_follow_their_coils_by_connections(
    changed: tuple[tuple[str, str], ...], fan: str, tmp_path: Path
) -> None:
    worked = car(tmp_path, ("supply: 12 V", "supply: unknown"), *changed, text=RELAY)
    assert {load: each.effect for load, each in over(worked, "L1", "button closed").items()} == {
        "coil": DEAD,
        "fan": fan,
    }


def test_both_loads_of_a_relay_s_state_are_on_in_it(tmp_path: Path) -> None:
    found = carried(car(tmp_path, text=RELAY), "L2")
    # 6 A of the fan and 0.15 A of the coil that comes by L1
    assert found["button closed"].amps.value == pytest.approx(6.15)
    assert found["button closed"].on == ("coil", "fan")


def test_what_opens_a_point_behind_is_told_there(tmp_path: Path) -> None:
    text = RELAY.replace("from: fan.2, to: L2", "from: fan.2, to: L1")
    worked = car(tmp_path, text=text)
    assert point(worked, "L2").as_point == "L1"
    assert point(worked, "L1").as_point == ""
