"""A load with many neighbours under power: which of them are switched on beside it, in what order, and what is told.

Every load is a plain resistance, 12 V over its current, and every wire 1 m of 1.0 mm2, 18.5 mohm (ISO 6722-1, from
memory), every allowance nought. Each has one wire there and one back to the stud L1, which has one home.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.electric.on_one_lug import LAMP, RELAY, with_each
from tests.electric.test_relays_in_a_race import RACE
from tests.findings.jobs import copper_alone, proved, work

from aswired.figures.electric import transfer_of
from aswired.figures.tests import JobSteps, steps_of_job
from aswired.figures.under_power import LEAST_STEP_V, MOST_NEIGHBOURS, Powered

OHM = 0.0185
NAMES = ("lamp", "a", "b", "c", "d", "e")
AMPS = {"lamp": 6.0, "a": 1.0, "b": 5.0, "c": 3.0, "d": 2.0, "e": 4.0}
# a by its switch at any time; b and e whenever the key is on ignition; c by a module's output; d by ignition and switch
FED = {"lamp": "F1", "a": "sa.2", "b": "F2", "c": "unit.1", "d": "sd.2", "e": "F2"}
MANY = copper_alone(
    proved(
        """
    job: Many neighbours
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 30 A, fed: always}, F2: {rating: 30 A, fed: ignition}}
    modules: {unit: {out: {1: feed}}}
    switches: {sa: {between: sa.1 sa.2}, sd: {between: sd.1 sd.2}}
    grounds: {L1: {back to: battery-, cable: 1.0 mm2, cable length: 1 m}}
    loads:
"""
        + "".join(f"      {n}: {{between: {n}.1 {n}.2, draws: {AMPS[n]:g} A, class: heater}}\n" for n in NAMES)
        + "    wires:\n"
        + "".join(
            f"      W{i}: {{size: 1.0 mm2, from: {FED[n]}, to: {n}.1, length: 1 m}}\n"
            f"      W{i}b: {{size: 1.0 mm2, from: {n}.2, to: L1, length: 1 m}}\n"
            for i, n in enumerate(NAMES)
        )
        + "      W10: {size: 1.0 mm2, from: F1, to: sa.1, length: 0 mm}\n"
        "      W11: {size: 1.0 mm2, from: F2, to: sd.1, length: 0 mm}\n"
    )
)


def volts_of_stud(*on: str) -> float:
    """By its one node: 12 V drive through each branch, the stud's wire takes all of it home."""
    into = sum(1 / (12 / AMPS[name] + 2 * OHM) for name in on)
    return 12 * into / (into + 1 / OHM)


def amps_of(name: str, *on: str) -> float:
    return (12 - volts_of_stud(*on)) / (12 / AMPS[name] + 2 * OHM)


def volts_at(name: str, *on: str) -> float:
    """The return end of a load that is on, against battery negative."""
    return volts_of_stud(*on) + amps_of(name, *on) * OHM


def steps(folder: Path, text: str) -> JobSteps:
    worked = work(folder / "job", text)
    return steps_of_job(transfer_of(worked.job, worked.shown, worked.circuits))


def powered(folder: Path, text: str = MANY, load: str = "lamp") -> Powered:
    found = steps(folder, text).circuits[load].powered
    assert found is not None
    return found


def test_of_many_neighbours_the_three_that_move_most_are_told_largest_first(tmp_path: Path) -> None:
    found = powered(tmp_path)
    assert MOST_NEIGHBOURS == 3
    told = [(step.on, step.by_hand, step.key, step.sources) for step in found.steps]
    assert told == [
        (("b", "d", "e"), ("sd",), "ignition", ()),  # the key brings b and e with it
        (("b", "e"), (), "ignition", ()),
        (("c",), (), "", ("unit.1",)),
    ]
    before = volts_at("lamp", "lamp")
    by_hand = [volts_at("lamp", "lamp", *on) - before for on in (("b", "d", "e"), ("b", "e"), ("c",))]
    assert [step.moved.value for step in found.steps] == pytest.approx(by_hand)
    assert {step.red for step in found.steps} == {"lamp.2"}
    first = found.steps[0].moved
    assert first.key == "lamp.test.step.b.d.e"
    assert first.name == "how far lamp.2 to battery- moves when b, d, e comes on beside lamp"
    assert [(one.name, one.value, one.unit, one.source) for one in first.inputs] == [
        ("without", pytest.approx(before), "V", "lamp on"),
        ("with", pytest.approx(before + by_hand[0]), "V", "b, d, e on too"),
    ]


def test_the_most_a_step_may_be_counts_the_currents_that_came_on_and_no_other(tmp_path: Path) -> None:
    """c's own part of the step is its current over the 18.5 mohm of the stud's wire; 10 % more wire, 15 % more current.

    2.9 A x 18.5 mohm x 0.265 is 14 mV, less than the least band of 30 mV; b, d and e together bring 10.6 A: 52 mV.
    """
    found = powered(tmp_path)
    on = ("lamp", "b", "d", "e")
    more = sum(amps_of(name, *on) for name in on[1:]) * OHM * (1.1 * 1.15 - 1)
    assert more > 0.030
    first, _, last = found.steps
    assert first.moved.value is not None
    assert last.moved.value is not None
    assert first.most_v == pytest.approx(first.moved.value + more)
    assert last.most_v == pytest.approx(last.moved.value + 0.030)


def test_beside_a_load_that_has_the_key_on_what_the_key_brings_is_no_neighbour(tmp_path: Path) -> None:
    found = powered(tmp_path, load="d")
    assert found.needs is not None
    assert (found.needs.by_hand, found.needs.key) == (("sd",), "ignition")
    assert found.with_it == ("lamp", "b", "e")
    assert found.comes_on is True
    # of what is left c moves most and a after it, and neither asks for a key that is on already
    assert [(step.on, step.by_hand, step.key, step.sources) for step in found.steps] == [
        (("c",), (), "", ("unit.1",)),
        (("a",), ("sa",), "", ()),
    ]
    before = volts_at("d", "lamp", "b", "d", "e")
    assert found.steps[1].moved.value == pytest.approx(volts_at("d", "lamp", "b", "d", "e", "a") - before)
    # beside c its own module is live already
    beside_c = powered(tmp_path / "c", load="c")
    assert beside_c.needs is not None
    assert beside_c.needs.sources == ("unit.1",)
    assert all(step.sources == () for step in beside_c.steps)


def test_a_module_that_is_live_already_is_not_asked_for_again(tmp_path: Path) -> None:
    """a hangs on the unit's output too, behind its switch: beside c the output is live, beside the lamp not."""
    text = with_each(MANY, (("from: F1, to: sa.1", "from: unit.1, to: sa.1"),))
    beside_c = {step.on: (step.by_hand, step.sources) for step in powered(tmp_path / "c", text, "c").steps}
    assert beside_c["a",] == (("sa",), ())
    beside_lamp = {step.on: (step.by_hand, step.sources) for step in powered(tmp_path / "lamp", text).steps}
    assert beside_lamp["c",] == ((), ("unit.1",))
    assert ("a",) not in beside_lamp  # with a its output brings c


def test_a_step_that_no_meter_shows_is_not_told(tmp_path: Path) -> None:
    """The stud's wire of 0.1 mm, 1.85 microohm: 11 A more move it by 20 microvolts."""
    text = MANY.replace("cable: 1.0 mm2, cable length: 1 m", "cable: 1.0 mm2, cable length: 0.1 mm")
    assert LEAST_STEP_V == 0.001
    assert powered(tmp_path, text).steps == ()


def test_with_one_step_unknown_they_stand_by_what_each_neighbour_takes(tmp_path: Path) -> None:
    """Of c no current is recorded: what it moves is not known, and no order by what they move is either."""
    found = powered(tmp_path, MANY.replace("draws: 4 A", "draws: unknown"))
    assert [step.moved.value is None for step in found.steps].count(True) >= 1
    unknown = [step for step in found.steps if step.moved.value is None]
    assert all(step.most_v is None and step.moved.missing_words == ("current of e",) for step in unknown)
    by_size = [name for name in ("b", "c", "d", "a") if any(name in step.on for step in found.steps)]
    assert found.steps[0].on[0] == by_size[0]


# ---- a load at rest on both sides of its ends -----------------------------------------------------------------------
def values(found: JobSteps) -> dict[str, float | None]:
    """Every figure of the steps, with the bands beside them."""
    every: dict[str, float | None] = {}
    for circuit in found.circuits.values():
        every |= {figure.key: figure.value for figure in circuit.figures}
        if circuit.powered is None:
            continue
        for test in circuit.powered.volts:
            every |= {f"{test.volts.key} low": test.low_v, f"{test.volts.key} high": test.high_v}
        for step in circuit.powered.steps:
            every[f"{step.moved.key} most"] = step.most_v
        if circuit.powered.current is not None:
            every[f"{circuit.powered.current.amps.key} high"] = circuit.powered.current.high_a
    off = found.off
    assert off is not None
    return {**every, off.total.key: off.total.value}


@pytest.mark.parametrize("names", [("lamp", "a", "b", "c", "d", "e", "fan"), ("b", "d", "fan")], ids=["all", "some"])
@pytest.mark.parametrize("text", [MANY, LAMP, RELAY], ids=["many", "lamp", "relay"])
def test_which_end_of_a_load_is_written_first_changes_nothing(
    text: str, names: tuple[str, ...], tmp_path: Path
) -> None:
    turned = text
    for name in names:
        turned = turned.replace(f"between: {name}.1 {name}.2", f"between: {name}.2 {name}.1")
    turned = turned.replace("between: K.86 K.85", "between: K.85 K.86")
    assert turned != text
    as_written, other = values(steps(tmp_path / "1", text)), values(steps(tmp_path / "2", turned))
    assert other == {key: value if value is None else pytest.approx(value) for key, value in as_written.items()}
    assert len(as_written) > 10


# ---- what the meter is put to ---------------------------------------------------------------------------------------
def test_a_feed_and_its_load_of_which_no_point_is_within_reach_have_no_reading_there(tmp_path: Path) -> None:
    """The unit and the lamp's connector are out of reach: what is left is the way home from the stud."""
    text = with_each(
        MANY,
        (
            ("    modules: {", "    plugs: {unit: {reachable: no}, c: {reachable: no}}\n    modules: {"),
        ),
    )  # fmt: skip
    found = powered(tmp_path, text, "c")
    assert [(test.kind, test.span.red, test.span.black) for test in found.volts] == [("drop", "L1", "battery-")]
    assert found.current is None
    assert found.volts[0].volts.value == pytest.approx(volts_of_stud("lamp", "c"))
    assert {step.red for step in found.steps} == {"L1"}


def test_the_current_of_a_fuse_is_told_with_the_loads_that_share_it(tmp_path: Path) -> None:
    found = powered(tmp_path, load="d").current
    assert found is not None
    on = ("lamp", "b", "d", "e")
    assert (found.at, found.others) == ("F2", ("b", "e"))  # the lamp is on, by another fuse
    total = sum(amps_of(name, *on) for name in ("b", "d", "e"))
    assert found.amps.value == pytest.approx(total)
    assert (found.low_a, found.high_a) == (pytest.approx(total * 0.85), pytest.approx(total * 1.15))
    assert [(one.name, one.unit) for one in found.amps.inputs] == [("d", "A"), ("b", "A"), ("e", "A")]
    assert [one.value for one in found.amps.inputs] == pytest.approx([amps_of(name, *on) for name in ("d", "b", "e")])


def test_a_load_of_the_same_fuse_that_is_off_has_no_part_in_its_current(tmp_path: Path) -> None:
    """Of a, on F1 behind its open switch, the solution leaves a rounding error, which is no current."""
    found = powered(tmp_path)
    assert found.current is not None
    assert (found.current.at, found.current.others) == ("F1", ())
    assert [one.name for one in found.current.amps.inputs] == ["lamp"]
    for test in found.volts:
        if test.kind != "drop":
            assert [(one.name, one.value) for one in test.volts.inputs] == [
                ("lamp", pytest.approx(amps_of("lamp", "lamp")))
            ]


def test_a_positive_ground_leaves_the_current_untold(tmp_path: Path) -> None:
    found = powered(tmp_path, MANY.replace("system: 12 V", "system: 12 V\n    ground side: positive"))
    assert found.current is not None
    assert (found.current.amps.value, found.current.amps.missing_words) == (None, ("positive ground: not computed",))
    assert (found.current.low_a, found.current.high_a) == (None, None)


def test_what_hangs_on_which_relay_is_the_quicker_says_so(tmp_path: Path) -> None:
    found = steps(tmp_path, RACE).circuits
    coil, lamp = found["coil A"].powered, found["lamp"].powered
    assert coil is not None
    assert lamp is not None
    unknown = {test.volts.missing_words for test in coil.volts if test.volts.value is None}
    assert unknown == {("which of its relays is the quicker",)}
    assert coil.current is not None
    assert coil.current.amps.missing_words == ("which of its relays is the quicker",)
    assert all(test.volts.known for test in lamp.volts)


def test_a_drop_names_each_part_with_what_it_carries(tmp_path: Path) -> None:
    found = powered(tmp_path)
    (back,) = [test for test in found.volts if (test.span.red, test.span.black) == ("L1", "battery-")]
    # cable and ring; the allowance of a ring is nought here
    carries = f"carries {amps_of('lamp', 'lamp'):.2f} A"
    assert [(one.name, one.unit, one.source.endswith(carries)) for one in back.volts.inputs] == [
        ("cable L1 to battery-", "mohm", True),
        ("cable ring on L1", "mohm", True),
    ]
    assert [one.value for one in back.volts.inputs] == pytest.approx([18.5, 0])
    assert back.volts.key == "lamp.test.L1.battery-"
    assert back.volts.name == "drop from L1 to battery-, lamp on"
    kinds = {test.kind: test.volts.name for test in found.volts}
    assert kinds["load"] == "volts at the load from lamp.1 to lamp.2, lamp on"
    assert kinds["fed"] == "volts of the feed from F1.feed to battery-, lamp on"
    (load,) = [test for test in found.volts if test.kind == "load"]
    assert [(one.name, one.unit) for one in load.volts.inputs] == [("lamp", "A")]


def test_more_lost_is_more_of_a_drop_and_less_at_the_load(tmp_path: Path) -> None:
    # a contact may be far worse than it is counted, and never better than nothing: the band of a drop is wide upwards,
    # that of what is left behind it is wide downwards
    text = MANY.replace("switch resistance: 0 mohm", "switch resistance: 20 mohm")
    assert text != MANY
    sides: dict[str, set[bool]] = {}
    for test in powered(tmp_path, text, "a").volts:
        volts = test.volts.value
        if volts and test.low_v is not None and test.high_v is not None:
            below, above = volts - test.low_v, test.high_v - volts
            if abs(below - above) > 1e-6:
                sides.setdefault(test.kind, set()).add(above > below)
    assert sides == {"drop": {True}, "load": {False}}


# ---- in words -------------------------------------------------------------------------------------------------------
def test_how_the_bands_are_made_is_said_once_with_the_limits_of_the_job(tmp_path: Path) -> None:
    limits = "limits: {band of wire: 7 %, band of allowances: 40 %, band of draws: 12 %, band least: 0.05 V}"
    found = steps(tmp_path, MANY.replace("    modules:", f"    {limits}\n    modules:"))
    assert found.how == (
        "Band: each wire 7 % down and up, each allowance over its own band (a stated one 40 %), the currents 12 %, "
        "and at least 0.05 V either way."
    )
    lamp = found.circuits["lamp"].powered
    assert lamp is not None
    assert lamp.current is not None
    assert lamp.current.amps.note == "Band: currents 12 % down and up."
    own = amps_of("lamp", "lamp")
    assert (lamp.current.low_a, lamp.current.high_a) == (pytest.approx(own * 0.88), pytest.approx(own * 1.12))
    (back,) = [test for test in lamp.volts if test.span.red == "L1"]
    # 18.5 mohm x 5.84 A is 0.108 V; 7 % and 12 % more are 21 mV, less than the least band of 50 mV
    assert (back.low_v, back.high_v) == (pytest.approx(own * OHM - 0.05), pytest.approx(own * OHM + 0.05))


def test_contacts_whose_coil_is_not_recorded_are_named_as_resting(tmp_path: Path) -> None:
    found = steps(tmp_path, RELAY.replace("draws: 0.15 A, class: coil", "draws: unknown, class: coil"))
    assert found.how.endswith(" As they rest, since their coil is not recorded: K contact.")
    assert "As they rest" not in steps(tmp_path / "b", RELAY).how


@pytest.mark.parametrize(
    ("says", "why"),
    [
        ("feed: not examined", "feed not examined: said to be not examined"),
        ("return: not examined", "return not examined: said to be not examined"),
        (
            "feed: not examined, return: not examined",
            "feed not examined: said to be not examined; return not examined: said to be not examined",
        ),
    ],
)
def test_a_load_that_is_not_traced_from_end_to_end_says_on_which_side(says: str, why: str, tmp_path: Path) -> None:
    found = powered(tmp_path, MANY.replace("draws: 1 A, class: heater", f"draws: 1 A, class: heater, {says}"), "a")
    assert (found.needs, found.volts, found.current, found.steps, found.why) == (None, (), None, (), why)
    # nobody is asked to switch it on beside another
    beside = powered(
        tmp_path / "b", MANY.replace("draws: 1 A, class: heater", f"draws: 1 A, class: heater, {says}"), "d"
    )
    assert [step.on for step in beside.steps] == [("c",)]


def test_an_unknown_wire_elsewhere_leaves_a_drop_at_the_stated_currents(tmp_path: Path) -> None:
    """Of b's feed no length is recorded: d, which has b on beside it, is told by its stated 2 A and 6, 5, 4 A."""
    found = powered(tmp_path, MANY.replace("to: b.1, length: 1 m", "to: b.1"), "d")
    by_points = {(test.span.red, test.span.black): test for test in found.volts}
    back = by_points["d.2", "L1"].volts
    assert back.value == pytest.approx(2 * OHM)
    assert back.rule == "nodal solution, each load at its stated current, since something elsewhere is not recorded"
    assert back.missing_words == ()
    assert "carries 2.00 A" in back.inputs[0].source
    stud = by_points["L1", "battery-"].volts
    assert stud.value == pytest.approx((6 + 5 + 2 + 4) * OHM)
    load = by_points["d.1", "d.2"].volts
    assert (load.value, load.missing_words) == (None, ("W2 from F2 to b.1: length not recorded",))
