"""What is told of a ground point in each state, and with its way back open: which states, loads and ways."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.figures.test_figures_backfeed import (
    ALL_IN_LINE,
    AT_REST_CLOSED,
    CABLE,
    RELAY,
    THREE,
    WIRE,
    car,
    carried,
    over,
    point,
    state_of,
)
from tests.findings.jobs import copper_alone, proved, work

from aswired.figures.backfeed import DEAD, FED, LESS
from aswired.figures.ground_states import NOTHING_ON, TOGETHER, WORST, Carried, landing, states_of, switched_states
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure

SOLVED = "nodal solution of the resistive network"


def inputs(found: Figure) -> dict[str, tuple[object, str, str]]:
    return {given.name: (given.value, given.unit, given.source) for given in found.inputs}


def words(found: Figure) -> tuple[str, str, str, str, str, tuple[str, ...]]:
    return found.key, found.name, found.unit, found.rule, found.formula, found.missing_words


@pytest.mark.parametrize(("metres", "less"), [(50, False), (150, True)])
def test_what_is_left_is_held_to_a_loads_own_volts_where_those_of_the_sound_car_are_not_recorded(
    metres: int, less: bool, tmp_path: Path
) -> None:
    # The cable of L1 is not recorded. With L1 open a, of 6 ohm (24 W at 12 V), comes home over the long wire to L2, and
    # beside it over b and c: over 50 m it keeps 11.92 V, more than nine tenths of its own 12 V though less than nine
    # tenths of the supply; over 150 m it keeps 9.65 V
    worked = car(
        tmp_path,
        ("supply: 12 V", "supply: 13.8 V"),
        ("a: {between: a.1 a.2, draws: 2 A", "a: {between: a.1 a.2, draws: 24 W at 12 V"),
        ("L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}", "L1: {back to: battery-}"),
        ("    wires:\n", f"    wires:\n      W11: {{size: 1.0 mm2, from: FS1, to: L2, length: {metres} m}}\n"),
    )
    found = [one for one in state_of(worked, "L1", "first closed").over if one.load == "a"]
    assert [(one.effect, one.sound_v) for one in found] == ([(LESS, None)] if less else [])
    long, beside = metres * WIRE, 2 * 13.8 + 4 * WIRE  # b and c take 1 A each at 13.8 V
    left_v = 13.8 * 6 / (6 + 3 * WIRE + long * beside / (long + beside) + CABLE)
    assert all(one.open_v == pytest.approx(left_v, rel=1e-4) for one in found)


# ---- the states of a point ------------------------------------------------------------------------------------------
# All come home to L1: its cable is 1 m of 10 mm2, 1.82 mohm (ISO 6722-1, from memory).
MANY = copper_alone(
    proved("""
    job: Many states
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: ignition}, F3: {rating: 10 A, fed: unknown},
      F4: {rating: 10 A, fed: accessory}}
    modules: {unit: {out: {4: feed of the fan}}}
    switches:
      s1: {between: s1.1 s1.2, what: on the dash}
      s2: {between: s2.1 s2.2}
      contact: {between: K.30 K.87, worked by: coil}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    splices: {FS1: {}}
    wires:
      W1: {size: 1.0 mm2, from: F2, to: s1.1, length: 1 m}
      W2: {size: 1.0 mm2, from: s1.2, to: FS1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: lamp.1, length: 1 m}
      W4: {size: 1.0 mm2, from: FS1, to: horn.1, length: 1 m}
      W5: {size: 1.0 mm2, from: F1, to: radio.1, length: 1 m}
      W6: {size: 1.0 mm2, from: unit.4, to: fan.1, length: 1 m}
      W7: {size: 1.0 mm2, from: F3, to: s2.1, length: 1 m}
      W8: {size: 1.0 mm2, from: s2.2, to: pump.1, length: 1 m}
      W9: {size: 1.0 mm2, from: F4, to: K.30, length: 1 m}
      W10: {size: 1.0 mm2, from: K.87, to: heater.1, length: 1 m}
      W11: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
      W12: {size: 1.0 mm2, from: horn.2, to: L1, length: 1 m}
      W13: {size: 1.0 mm2, from: radio.2, to: L1, length: 1 m}
      W14: {size: 1.0 mm2, from: fan.2, to: L1, length: 1 m}
      W15: {size: 1.0 mm2, from: pump.2, to: L1, length: 1 m}
      W16: {size: 1.0 mm2, from: heater.2, to: L1, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: heater}
      radio: {between: radio.1 radio.2, draws: 1 A, class: electronics}
      horn: {between: horn.1 horn.2, draws: 3 A, class: horn}
      fan: {between: fan.1 fan.2, draws: 4 A, class: motor}
      pump: {between: pump.1 pump.2, draws: 5 A, class: pump}
      heater: {between: heater.1 heater.2, draws: 6 A, class: heater}
      coil: {between: K.85 K.86, draws: 150 mA, class: coil}
""")
)
DASH = "key on ignition, s1 closed (on the dash)"
FAN = "unit.4 live (feed of the fan)"
PUMP = "s2 closed, F3 live"
HEATER = "key on accessory, contact taken as closed"
STATES = [NOTHING_ON, DASH, FAN, PUMP, HEATER, TOGETHER]


def many(folder: Path, *changed: tuple[str, str]) -> JobResult:
    text = MANY
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return work(folder / "job", text)


def test_each_way_to_switch_something_on_is_a_state_with_all_that_comes_on_in_it(tmp_path: Path) -> None:
    found = carried(many(tmp_path), "L1")
    assert list(found) == [*STATES, WORST]
    # the radio is on in every state, and asleep with the key off: what it takes then nobody wrote
    on: dict[str, tuple[tuple[str, ...], float | None]] = {
        NOTHING_ON: (("radio",), None),
        DASH: (("lamp", "radio", "horn"), 2 + 1 + 3),
        FAN: (("radio", "fan"), 1 + 4),
        PUMP: (("radio", "pump"), 1 + 5),
        HEATER: (("radio", "heater"), 1 + 6),
        TOGETHER: (("lamp", "radio", "horn", "fan", "pump", "heater"), 2 + 1 + 3 + 4 + 5 + 6),
        WORST: (("lamp", "radio", "horn", "fan", "pump", "heater"), 2 + 1 + 3 + 4 + 5 + 6),
    }
    for state, (loads, amps) in on.items():
        assert set(found[state].on) == set(loads), state
        assert found[state].amps.value == (None if amps is None else pytest.approx(amps)), state
    assert (found[NOTHING_ON].amps.missing_words, found[NOTHING_ON].rise.missing_words) == (("current of radio",),) * 2
    # a load that is no module takes with the key off what it always takes
    awake = carried(many(tmp_path / "awake", ("class: electronics", "class: heater")), "L1")
    assert awake[NOTHING_ON].amps.value == pytest.approx(1)


def test_the_states_in_short_leave_out_the_remarks_and_name_the_loads_they_are_for(tmp_path: Path) -> None:
    worked = many(tmp_path)
    transfer = worked.ground_states.transfer
    (ground,) = worked.grounds
    states = switched_states(ground.loads, transfer.grid, transfer.circuits)
    assert [(one.words, one.short, one.loads) for one in states] == [
        (DASH, "key on ignition, s1 closed", ("lamp", "horn")),
        (NOTHING_ON, NOTHING_ON, ("radio",)),
        (FAN, "unit.4 live", ("fan",)),
        (PUMP, PUMP, ("pump",)),
        (HEATER, HEATER, ("heater",)),
    ]
    opened = point(worked, "L1").opened
    assert [(one.switched.words, one.switched.loads) for one in opened] == [
        (NOTHING_ON, ("radio",)),
        (DASH, ("lamp", "horn")),
        (FAN, ("fan",)),
        (PUMP, ("pump",)),
        (HEATER, ("heater",)),
        (TOGETHER, ()),
    ]
    assert [one.on for one in opened if one.switched.words == TOGETHER] == [
        ("lamp", "radio", "horn", "fan", "pump", "heater")
    ]


def test_a_state_that_is_all_on_that_can_be_on_says_so_and_is_not_told_twice(tmp_path: Path) -> None:
    worked = car(tmp_path, text=RELAY)
    assert [(one.switched.words, one.switched.short) for one in point(worked, "L2").opened] == [
        (NOTHING_ON, NOTHING_ON),
        (f"button closed, which is {TOGETHER}", "button closed"),
    ]
    found = worked.ground_states
    needs = {"coil": found.opened["L1"].opened[1].switched.needs}
    assert [one.loads for one in states_of(("coil",), found.transfer, needs)][:2] == [(), ("coil",)]


def test_what_is_told_of_a_point_in_one_state(tmp_path: Path) -> None:
    found = carried(many(tmp_path), "L1")[DASH]
    assert words(found.amps) == (
        "L1.key on ignition, s1 closed.current", f"current of L1 to battery-, {DASH}", "A",
        "sum of the shares that take this way", "I = sum of share x I", (),
    )  # fmt: skip
    whole = {"lamp": (2.0, "A", "its whole current"), "horn": (3.0, "A", "its whole current"),
             "radio": (1.0, "A", "its whole current")}  # fmt: skip
    assert inputs(found.amps) == whole
    assert found.rise.value == pytest.approx(6 * CABLE)
    assert words(found.rise) == (
        "L1.key on ignition, s1 closed.rise", f"rise of L1 above battery negative, {DASH}", "V", SOLVED,
        "U = sum of I x R along the way back", (),
    )  # fmt: skip
    told = inputs(found.rise)
    assert {name: told[name] for name in whole} == whole
    assert told["L1 to battery-"] == (pytest.approx(6), "A", "sum of the shares above")
    assert told["cable L1 to battery-"][:2] == (pytest.approx(1.82), "mohm")
    together, worst = carried(many(tmp_path / "again"), "L1")[TOGETHER], carried(many(tmp_path / "w"), "L1")[WORST]
    assert (together.amps.key, together.rise.key, worst.amps.key, worst.rise.key) == (
        "L1.together.current", "L1.together.rise", "L1.worst.current", "L1.worst.rise",
    )  # fmt: skip
    # at its worst a tenth more, the `band of wire`
    assert inputs(together.rise)["cable L1 to battery-"][0] == pytest.approx(1.82)
    assert inputs(worst.rise)["cable L1 to battery-"][0] == pytest.approx(2.002)
    assert (together.rise.value, worst.rise.value) == (pytest.approx(21 * CABLE), pytest.approx(21 * CABLE * 1.1))


SECOND_WAY = ("    changes:", "      W11: {size: 1.0 mm2, from: FS1, to: L2, length: 1 m}\n    changes:")


def test_of_a_current_that_divides_the_part_that_comes_by_a_point_is_told(tmp_path: Path) -> None:
    found: Carried = carried(car(tmp_path, SECOND_WAY), "L1")["first closed (on the dash)"]
    # from FS1 by W5 or by W11, the same: half of the 2 A of a
    assert found.amps.value == pytest.approx(1)
    assert inputs(found.amps) == {"a": (2.0, "A", "50% of it")}
    assert found.rise.value == pytest.approx(CABLE)


def test_a_fuse_that_may_be_live_is_named_only_where_nothing_has_to_be_worked_for_it(tmp_path: Path) -> None:
    # the pump on F3 waits for its switch; a clock beside it does not
    clock = (
        ("    loads:\n", "      W17: {size: 1.0 mm2, from: F3, to: clock.1, length: 1 m}\n"
         "      W18: {size: 1.0 mm2, from: clock.2, to: L1, length: 1 m}\n    loads:\n"
         "      clock: {between: clock.1 clock.2, draws: 2 A, class: heater}\n"),
        ("F1: {rating: 10 A, fed: always}", "F1: {rating: 10 A, fed: always}, F5: {rating: 5 A, fed: unknown}"),
    )  # fmt: skip
    found = carried(many(tmp_path, *clock), "L1")
    for state in (DASH, FAN, HEATER):
        assert (found[state].amps.value, found[state].rise.value) == (None, None), state
        assert (found[state].amps.missing_words, found[state].rise.missing_words) == (("when F3 is live",),) * 2, state
    # where F3 is taken as live nothing is left to say: 1 + 5 + 2 A
    assert (found[PUMP].amps.value, found[PUMP].amps.missing_words) == (pytest.approx(8), ())
    assert found["F3 live"].amps.value == pytest.approx(3)
    opened = {one.switched.short: one.perhaps for one in point(many(tmp_path / "o", *clock), "L1").opened}
    assert opened["unit.4 live"] == ("when F3 is live",)
    assert opened[PUMP] == opened["F3 live"] == ()


# ---- what lands on a point ------------------------------------------------------------------------------------------
def test_what_lands_on_a_point_is_what_its_wires_bring_and_not_its_cables(tmp_path: Path) -> None:
    transfer = car(tmp_path, text=RELAY).ground_states.transfer
    # the coil comes by a wire to L1 and from there by a cable to L2, where only the fan has a wire
    assert landing("L1", transfer, {"coil": 0.15, "fan": 6.0}) == pytest.approx({"coil": 0.15})
    assert landing("L2", transfer, {"coil": 0.15, "fan": 6.0}) == pytest.approx({"fan": 6.0})
    assert landing("L2", transfer, {"coil": 0.15}) == {}
    assert landing("L2", transfer, {"fan": None}) == {"fan": None}
    # of a return that divides a part of which the lengths are not recorded is not known, one that is whole is
    divided = car(tmp_path / "d", (SECOND_WAY[0], SECOND_WAY[1].replace(", length: 1 m", ""))).ground_states.transfer
    assert landing("L1", divided, {"a": 2.0, "b": None}) == {"a": None, "b": None}
    whole = car(tmp_path / "w", ("from: FS1, to: L1, length: 1 m", "from: FS1, to: L1")).ground_states.transfer
    assert landing("L1", whole, {"a": 2.0, "b": None}) == {"a": pytest.approx(2.0), "b": None}


# ---- a point opened -------------------------------------------------------------------------------------------------
FIRST = "first closed"


def test_what_is_told_of_a_point_that_opens(tmp_path: Path) -> None:
    found = state_of(car(tmp_path), "L1", FIRST)
    amps = 12 / (30 + ALL_IN_LINE)  # 6, 12 and 12 ohm in a row
    figure = found.figure
    assert figure.value == pytest.approx(12 * amps)
    assert words(figure) == (
        "L1.opened.first closed",
        "most volts over a load that is off, L1 open, first closed (on the dash)", "V",
        "nodal solution with the way back opened, filaments by their law, all other loads as resistances",
        "sum of the currents at every point = 0; filament I = Id (U / Ud)^0.55, light (U / Ud)^3.4", (),
    )  # fmt: skip
    assert figure.note == (
        "Fed: more than the limit over a load that is off; a filament glows dimly below 30% of its volts; less: below "
        "90% of the volts with the ground sound; dead: no more than the limit (common practice, no source)."
    )
    # sound, b and c have what W5 and the cable of L1 lose of 2 A, 0.04 V, in two halves
    assert inputs(figure) == {
        "limit": (1, "V", "fed backwards: common practice, no source"),
        "opened": ("cable L1 to battery-", "", "taken out of the network"),
        "a": (pytest.approx(6 * amps), "V", "draws: 2 A; 11.85 V with the ground sound"),
        "b": (pytest.approx(-12 * amps), "V", "draws: 1 A; -0.02 V with the ground sound; the wrong way round"),
        "c": (pytest.approx(12 * amps), "V", "draws: 1 A; 0.02 V with the ground sound"),
    }
    assert (found.on, found.here) == (("a",), ("a",))
    assert [each.part for each in found.over] == pytest.approx([amps / 2, amps, amps])
    # no current is left in W5, so that the stud has what FS1 has: 12 V less W1, W2, a and W3
    assert found.rise_v == pytest.approx(12 - amps * (6 + 3 * WIRE))
    assert found.way == (
        ("a", "load"), ("FS1", "splice"), ("b", "load"), ("FS2", "splice"), ("c", "load"), ("L2", "ground"),
        ("battery-", "ground"),
    )  # fmt: skip
    assert [(way.name, way.start, way.end, way.amps) for way in found.carrying] == [
        (name, start, end, pytest.approx(amps, abs=1e-6))
        for name, start, end in (
            ("W4", "FS1", "b.2"), ("W6", "b.1", "FS2"), ("W7", "FS2", "c.1"), ("W8", "c.2", "L2"),
            ("L2 to battery-", "L2", "battery-"),
        )
    ]  # fmt: skip


def test_the_most_over_a_load_that_is_off_is_told_and_not_what_is_left_of_one_that_is_on(tmp_path: Path) -> None:
    # b draws 4 A at 12 V, 3 ohm: it has the least of the three, and c the most
    found = state_of(
        car(tmp_path, ("b: {between: b.1 b.2, draws: 1 A", "b: {between: b.1 b.2, draws: 4 A")), "L1", FIRST
    )
    amps = 12 / (6 + 3 + 12 + ALL_IN_LINE)
    assert {each.load: each.open_v for each in found.over} == pytest.approx(
        {"a": 6 * amps, "b": -3 * amps, "c": 12 * amps}
    )
    assert found.figure.value == pytest.approx(12 * amps)
    # with a of 1 A at 12 V it has as much as c, and is on
    off = state_of(car(tmp_path / "o", ("a: {between: a.1 a.2, draws: 2 A", "a: {between: a.1 a.2, draws: 0.5 A")),
                   "L1", FIRST)  # fmt: skip
    assert off.figure.value == pytest.approx(12 * 12 / (24 + 24 + ALL_IN_LINE))


@pytest.mark.parametrize(("metres", "less"), [(30, False), (45, True)])
def test_a_load_gets_less_below_nine_tenths_of_what_it_had(metres: int, less: bool, tmp_path: Path) -> None:
    # With L1 open a goes home by W11 of 18.5 mohm a metre. It had 11.85 V, nine tenths of it are 10.67 V:
    # 12 x 6 / (6 + 3 x 0.0185 + 0.555 + 0.00182) = 10.89 V, with 0.8325 ohm in place of 0.555 10.45 V
    second = (SECOND_WAY[0], SECOND_WAY[1].replace("length: 1 m", f"length: {metres} m"))
    found = over(car(tmp_path, second), "L1", FIRST)
    assert [each.effect for load, each in found.items() if load == "a"] == ([LESS] if less else [])
    if less:
        # b and c, 24 ohm, lie beside W11
        beside = 1 / (1 / (0.0185 * metres) + 1 / (24 + 4 * WIRE))
        assert found["a"].open_v == pytest.approx(12 * 6 / (6 + 3 * WIRE + beside + CABLE), rel=1e-6)
        assert found["a"].sound_v == pytest.approx(11.85, abs=0.01)


def test_the_way_is_that_of_the_load_that_takes_most(tmp_path: Path) -> None:
    # with both switches closed, L1 open and a resistor to L2 beside: a of 2 A and b of 1 A come to FS1
    second = (SECOND_WAY[0], SECOND_WAY[1].replace("length: 1 m", "length: 10 m"))
    found = state_of(car(tmp_path, second), "L1", TOGETHER)
    assert found.way == (("a", "load"), ("FS1", "splice"), ("L2", "ground"), ("battery-", "ground"))
    other = state_of(
        car(
            tmp_path / "o",
            second,
            ("a: {between: a.1 a.2, draws: 2 A", "a: {between: a.1 a.2, draws: 0.5 A"),
            ("b: {between: b.1 b.2, draws: 1 A", "b: {between: b.1 b.2, draws: 1.5 A"),
        ),
        "L1",
        TOGETHER,
    )
    assert other.way[0] == ("b", "load")
    # of those that the state is for, not of all that are on: b of 3 A is on for good here
    always = (
        ("second: {between: s2.1 s2.2}", "second: {between: s2.1 s2.2, at rest: closed}"),
        ("b: {between: b.1 b.2, draws: 1 A", "b: {between: b.1 b.2, draws: 3 A"),
    )
    opened = car(tmp_path / "f", second, *always)
    assert state_of(opened, "L1", NOTHING_ON).way[0] == ("b", "load")
    assert point(opened, "L1").opened[1].switched.loads == ("a",)
    assert point(opened, "L1").opened[1].way[0] == ("a", "load")


def test_why_a_load_behind_a_point_is_in_none_of_its_states(tmp_path: Path) -> None:
    cut = (
        "changes: [",
        "changes: [{id: C2, kind: remove, wire: W2, ends: {s1.2: capped 30 mm, a.1: gone}, made: 2031-05-03 AK}, ",
    )
    assert point(car(tmp_path, cut), "L1").untold == (("a", "its feed is open"),)
    assert point(car(tmp_path / "sound"), "L1").untold == ()


def chain(folder: Path, more: str = "") -> JobResult:
    """One load on L1, which goes on to L2, and that to L3."""
    return work(
        folder / "job",
        copper_alone(
            proved(f"""
    job: A chain
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    grounds:
      L1: {{back to: L2, cable: 10 mm2, cable length: 1 m}}
      L2: {{back to: L3, cable: 10 mm2, cable length: 1 m}}
      L3: {{back to: battery-, cable: 10 mm2, cable length: 1 m}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: a.1, length: 1 m}}
      W2: {{size: 1.0 mm2, from: a.2, to: L1, length: 1 m}}
{more}    loads:
      a: {{between: a.1 a.2, draws: 2 A, class: heater}}
    """)
        ),
    )


def test_of_several_points_behind_one_the_first_that_does_the_same_is_named(tmp_path: Path) -> None:
    worked = chain(tmp_path)
    assert {name: point(worked, name).as_point for name in ("L1", "L2", "L3")} == {"L1": "", "L2": "L1", "L3": "L1"}
    # a second way home from L1 alone: that point loses nothing, the two behind which it stands lose nothing either
    beside = chain(tmp_path / "beside", "      W3: {size: 1.0 mm2, from: a.2, to: L3, length: 1 m}\n")
    assert {name: point(beside, name).as_point for name in ("L1", "L2", "L3")} == {"L1": "", "L2": "L1", "L3": ""}


def test_a_point_that_carries_nothing_does_not_stand_for_another(tmp_path: Path) -> None:
    idle = ("    splices:", "      L3: {back to: L1, cable: 10 mm2, cable length: 1 m}\n    splices:")
    worked = car(tmp_path, SECOND_WAY, idle)
    assert [opened.over for opened in point(worked, "L1").opened] == [(), (), (), ()]
    assert (point(worked, "L3").opened, point(worked, "L1").as_point) == ((), "")


def test_a_load_that_the_opening_leaves_without_any_way_is_dead_without_volts(tmp_path: Path) -> None:
    found = over(chain(tmp_path), "L2", NOTHING_ON)
    assert {load: (each.effect, each.open_v, each.part, each.no_way) for load, each in found.items()} == {
        "a": (DEAD, 0.0, 0.0, True)
    }
    three = over(car(tmp_path / "three"), "L1", FIRST)
    assert {load: (each.effect, each.no_way) for load, each in three.items()} == {
        "a": (LESS, False), "b": (FED, False), "c": (FED, False),
    }  # fmt: skip


def test_without_a_supply_only_what_is_joined_anew_is_told_as_fed(tmp_path: Path) -> None:
    # with either switch closed c is on already in the second state, and no opening feeds what has another feed
    worked = car(tmp_path, ("supply: 12 V", "supply: unknown"))
    assert {load: each.effect for load, each in over(worked, "L1", "second closed").items()} == {"b": DEAD}
    assert over(worked, "L1", NOTHING_ON) == {}
    opened = state_of(worked, "L1", FIRST)
    assert (opened.figure.value, opened.figure.missing_words, opened.way, opened.rise_v) == (
        None,
        ("the supply",),
        (),
        None,
    )
    assert inputs(opened.figure)["b"] == (None, "V", "draws: 1 A")
    # nothing that is off is fed here, so that nothing is missing
    known = state_of(worked, "L1", "second closed")
    assert (known.figure.value, known.figure.missing_words, known.wanting) == (0.0, (), ())
    assert tuple(map(str, opened.wanting)) == ("the supply",)
    unread = car(tmp_path / "u", ("b: {between: b.1 b.2, draws: 1 A", "b: {between: b.1 b.2"))
    assert inputs(state_of(unread, "L1", FIRST).figure)["b"] == (None, "V", "its current is not recorded")


def test_a_filament_that_is_fed_has_its_part_of_its_own_volts_and_of_its_light(tmp_path: Path) -> None:
    # the lamp c is one of 24 V and 0.5 A: its own volts are not those of the car
    text = THREE.replace("c: {between: c.1 c.2, draws: 1 A, class: heater", "c: {between: c.1 c.2, draws: 12 W at 24 V, class: lamp")  # noqa: E501  # fmt: skip
    worked = car(tmp_path, text=text)
    found = over(worked, "L1", FIRST)["c"]
    assert found.open_v is not None
    assert found.part == pytest.approx(found.open_v / 24)
    assert found.light == pytest.approx((found.open_v / 24) ** 3.4)
    # and the figure says it
    assert inputs(state_of(worked, "L1", FIRST).figure)["c"][2].endswith(f"; {found.light:.1%} of its light")
    assert over(car(tmp_path / "h"), "L1", FIRST)["c"].light is None


@pytest.mark.parametrize("supply", ["12 V", "unknown"])
def test_a_contact_that_is_taken_as_closed_stays_so_while_its_coil_is_on(supply: str, tmp_path: Path) -> None:
    # the coil is on for good, and what it takes nobody wrote: its contact is taken as the fan needs it
    worked = car(
        tmp_path,
        ("supply: 12 V", f"supply: {supply}"),
        ("button: {between: s1.1 s1.2}", "button: {between: s1.1 s1.2, at rest: closed}"),
        ("draws: 150 mA", "draws: unknown"),
        text=RELAY,
    )
    found = over(worked, "L2", "contact taken as closed")
    assert {load: (each.effect, each.no_way) for load, each in found.items()} == {
        "coil": (DEAD, True), "fan": (DEAD, True),
    }  # fmt: skip
    # with L1 open the coil is lost, and the fan keeps its own ground
    lost = over(worked, "L1", NOTHING_ON)
    assert {load: (each.effect, each.no_way) for load, each in lost.items()} == {"coil": (DEAD, True)}


def test_of_a_relay_that_never_rests_no_volts_are_told_with_a_point_open(tmp_path: Path) -> None:
    # the coil is fed through its own break contact; a lamp has a second way home beside L1
    lamp = (
        "      W7: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}\n"
        "      W8: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}\n"
        "      W9: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}\n    changes:"
    )
    worked = car(
        tmp_path,
        AT_REST_CLOSED,
        ("W2: {size: 1.0 mm2, from: s1.2, to: K.86", "W2: {size: 1.0 mm2, from: K.87, to: K.86"),
        ("    changes:", lamp),
        ("    loads:", "    loads:\n      lamp: {between: lamp.1 lamp.2, draws: 1 A, class: heater}"),
        text=RELAY,
    )
    found = state_of(worked, "L1", NOTHING_ON)
    assert {each.load: (each.effect, each.open_v) for each in found.over if each.load == "lamp"} == {
        "lamp": (LESS, None)
    }
    assert (tuple(map(str, found.wanting)), found.way, found.rise_v) == (("where a relay comes to rest",), (), None)
