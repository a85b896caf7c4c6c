"""Where an ohmmeter is put before power: which sections, what is closed, what is unplugged, what it may show."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, proved, work

from aswired.figures.electric import transfer_of
from aswired.figures.tests import CircuitSteps, steps_of_job

# Copper alone, each wire 1 m of 1.0 mm2, 18.5 mohm, the cable 1 m of 10 mm2, 1.82 mohm (ISO 6722-1, from memory).
# The lamp hangs on F1 by a switch, FS1 and a relay's contact; on FS1 hang a horn, a radio, and a module with a clock,
# and behind a second fuse a fan.
CAR = copper_alone(
    proved("""
    job: Ohms
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 5 A}}
    splices: {FS1: {}}
    plugs: {s1: {ways: 2}, K: {ways: 4}, lamp: {ways: 2}}
    modules: {unit: {}}
    switches:
      s1: {between: s1.1 s1.2}
      contact: {between: K.30 K.87, worked by: coil}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: s1.1, length: 1 m}
      W2: {size: 1.0 mm2, from: s1.2, to: FS1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: K.30, length: 1 m}
      W4: {size: 1.0 mm2, from: K.87, to: lamp.1, length: 1 m}
      W5: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
      W6: {size: 1.0 mm2, from: FS1, to: horn.1, length: 1 m}
      W7: {size: 1.0 mm2, from: horn.2, to: L1, length: 1 m}
      W8: {size: 1.0 mm2, from: FS1, to: radio.1, length: 1 m}
      W9: {size: 1.0 mm2, from: radio.2, to: L1, length: 1 m}
      W10: {size: 1.0 mm2, from: FS1, to: unit.3, length: 1 m}
      W11: {size: 1.0 mm2, from: unit.7, to: L1, length: 1 m}
      W12: {size: 1.0 mm2, from: FS1, to: F2.feed, length: 1 m}
      W13: {size: 1.0 mm2, from: F2, to: fan.1, length: 1 m}
      W14: {size: 1.0 mm2, from: fan.2, to: L1, length: 1 m}
    loads:
      clock: {between: unit.3 unit.7, draws: 1 A, class: electronics}
      horn: {between: horn.1 horn.2, draws: 1 A, class: horn}
      lamp: {between: lamp.1 lamp.2, draws: 1 A, class: lamp}
      radio: {between: radio.1 radio.2, draws: 1 A, class: electronics}
      fan: {between: fan.1 fan.2, draws: 1 A, class: motor}
""")
)
Ohms = list[tuple[str, str, str, float | None, tuple[str, ...], tuple[str, ...]]]


def lamp(folder: Path, *changed: tuple[str, str], load: str = "lamp") -> CircuitSteps:
    text = CAR
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    worked = work(folder / "job", text)
    return steps_of_job(transfer_of(worked.job, worked.shown, worked.circuits)).circuits[load]


def ohms(steps: CircuitSteps) -> Ohms:
    """Side, red, black, own resistance [mohm], what is closed, what is unplugged."""
    found: Ohms = []
    for test in steps.ohms:
        own = None if test.own.value is None else round(test.own.value, 6)
        found.append((test.span.side, test.span.red, test.span.black, own, test.close, test.unplug))
    return found


def clear(steps: CircuitSteps) -> list[tuple[str, tuple[str, ...], tuple[str, ...]]]:
    return [(test.at, test.close, test.unplug) for test in steps.clear]


BEHIND = ("feed", "K.87", "lamp.1", 18.5, (), ())
BACK = ("return", "lamp.2", "battery-", 20.32, (), ())
HANGING = ("clock", "horn", "radio")


def test_a_way_is_rung_in_sections_with_its_switches_closed_and_what_is_delicate_unplugged(tmp_path: Path) -> None:
    steps = lamp(tmp_path)
    # the module is unplugged and with it its clock; the horn stands an ohmmeter; the fan is behind a fuse that is out
    assert ohms(steps) == [("feed", "F1", "K.30", 55.5, ("s1",), ("unit", "radio")), BEHIND, BACK]
    # against ground all has to come off, the horn too
    assert clear(steps) == [("F1", ("s1",), HANGING), ("K.87", (), ("lamp",))]
    # R + 0.2 ohm
    assert [test.most_ohm for test in steps.ohms] == pytest.approx([0.2555, 0.2185, 0.22032])


@pytest.mark.parametrize("load", ["radio", "lamp"])
def test_a_load_is_unplugged_whichever_of_its_ends_is_written_first(load: str, tmp_path: Path) -> None:
    turned = lamp(tmp_path, (f"between: {load}.1 {load}.2", f"between: {load}.2 {load}.1"))
    assert ohms(turned) == ohms(lamp(tmp_path / "as it was"))
    assert clear(turned) == clear(lamp(tmp_path / "as it was"))


def test_what_is_told_of_an_ohm_step(tmp_path: Path) -> None:
    own = lamp(tmp_path).ohms[0].own
    assert (own.key, own.name, own.unit, own.rule, own.formula, own.missing_words) == (
        "lamp.ohms.F1.K.30", "resistance from F1 to K.30, the meter's leads taken off", "mohm",
        "in series, along the traced way", "R = sum of R; the meter shows less than R + 0.2 ohm", (),
    )  # fmt: skip
    assert own.note == (
        "0.2 ohm: common practice, no source. A good reading here proves no joint: one strand that is left reads well."
    )
    assert {given.name: (given.value, given.unit) for given in own.inputs if given.value} == {
        "W1 from F1 to s1.1": (18.5, "mohm"),
        "W2 from FS1 to s1.2": (18.5, "mohm"),
        "W3 from FS1 to K.30": (18.5, "mohm"),
    }
    unread = lamp(tmp_path / "u", ("from: s1.2, to: FS1, length: 1 m", "from: s1.2, to: FS1")).ohms
    assert (unread[0].own.value, unread[0].own.missing_words, unread[0].most_ohm) == (
        None, ("W2 from FS1 to s1.2: length not recorded",), None,
    )  # fmt: skip
    assert unread[1].most_ohm == pytest.approx(0.2185)


def test_what_is_closed_at_rest_is_closed_by_no_hand(tmp_path: Path) -> None:
    resting = lamp(tmp_path, ("s1: {between: s1.1 s1.2}", "s1: {between: s1.1 s1.2, at rest: closed}"))
    assert ohms(resting)[0] == ("feed", "F1", "K.30", 55.5, (), ("unit", "radio"))
    assert clear(resting)[0] == ("F1", (), HANGING)
    # and a contact that is closed at rest parts no section
    contact = lamp(tmp_path / "k", ("worked by: coil}", "worked by: coil, at rest: closed}"))
    assert ohms(contact) == [("feed", "F1", "lamp.1", 74.0, ("s1",), ("unit", "radio")), BACK]
    assert clear(contact) == [("F1", ("s1",), ("clock", "horn", "lamp", "radio"))]
    # a contact of which nobody says what works it is a switch like another
    hand = lamp(tmp_path / "h", ("contact: {between: K.30 K.87, worked by: coil}", "contact: {between: K.30 K.87}"))
    assert ohms(hand) == [("feed", "F1", "lamp.1", 74.0, ("s1", "contact"), ("unit", "radio")), BACK]


def test_a_switch_that_is_on_no_way_of_the_load_stays_open(tmp_path: Path) -> None:
    # between FS1 and the horn stands a switch of its own
    steps = lamp(
        tmp_path,
        ("from: FS1, to: radio.1", "from: s2.2, to: radio.1"),
        ("W9:", "W15: {size: 1.0 mm2, from: FS1, to: s2.1, length: 1 m}\n      W9:"),
        ("      contact: {", "      s2: {between: s2.1 s2.2}\n      contact: {"),
    )
    assert ohms(steps)[0] == ("feed", "F1", "K.30", 55.5, ("s1",), ("unit",))
    assert clear(steps)[0] == ("F1", ("s1",), ("clock", "horn"))


@pytest.mark.parametrize(("kind", "delicate"), [("sensor", True), ("ignition", True), ("electronics", True),
                                                ("horn", False), ("lamp", False), ("motor", False)])  # fmt: skip
def test_what_no_ohmmeter_goes_into(kind: str, delicate: bool, tmp_path: Path) -> None:
    steps = lamp(tmp_path, ("radio.2, draws: 1 A, class: electronics", f"radio.2, draws: 1 A, class: {kind}"))
    assert ohms(steps)[0][5] == (("unit", "radio") if delicate else ("unit",))


def test_where_one_point_only_can_be_reached_there_is_nothing_to_ring(tmp_path: Path) -> None:
    hidden = (("s1: {ways: 2}", "s1: {ways: 2, reachable: no}"), ("K: {ways: 4}", "K: {ways: 4, reachable: no}"))
    steps = lamp(tmp_path, *hidden)
    assert ohms(steps) == [BACK]
    # one lead is enough against ground
    assert clear(steps) == [("F1", ("s1",), HANGING), ("lamp.1", (), ("lamp",))]
    # no point at all, and there is none
    none = lamp(tmp_path / "none", *hidden, ("lamp: {ways: 2}", "lamp: {ways: 2, reachable: no}"))
    assert ohms(none) == [("return", "L1", "battery-", 1.82, (), ())]
    assert [at for at, *_ in clear(none)] == ["F1"]


def test_a_load_that_sits_on_its_contact_has_no_wire_to_ring_behind_it(tmp_path: Path) -> None:
    steps = lamp(tmp_path, ("lamp: {between: lamp.1 lamp.2", "lamp: {between: K.87 lamp.2"))
    assert [(red, black) for _, red, black, *_ in ohms(steps)] == [("F1", "K.30"), ("lamp.2", "battery-")]
    assert [at for at, *_ in clear(steps)] == ["F1"]


def test_of_two_fuses_in_a_row_the_feed_is_rung_behind_the_last(tmp_path: Path) -> None:
    fan = lamp(tmp_path, load="fan")
    assert ohms(fan) == [
        ("feed", "F2", "fan.1", 18.5, (), ()),
        ("return", "fan.2", "battery-", 20.32, (), ()),
    ]
    assert clear(fan) == [("F2", (), ("fan",))]
    # without a fuse it is rung from its beginning
    bare = lamp(tmp_path / "bare", ("from: F1, to: s1.1", "from: battery+, to: s1.1"))
    assert ohms(bare)[0] == ("feed", "battery+", "K.30", 55.5, ("s1",), ("unit", "radio"))
    assert clear(bare)[0] == ("battery+", ("s1",), HANGING)


@pytest.mark.parametrize("kind", ["restraint", "high voltage"])
def test_no_meter_comes_to_a_conductor_that_a_dangerous_wire_hangs_on(kind: str, tmp_path: Path) -> None:
    danger = f"      W15: {{size: 1.0 mm2, from: END, to: bag.1, length: 1 m, special: {kind}}}\n"
    # joined to the first section of the feed: neither that section nor what it is cleared of
    first = lamp(tmp_path, ("    loads:\n", f"{danger.replace('END', 'FS1')}    loads:\n"))
    assert ohms(first) == [BEHIND, BACK]
    assert [at for at, *_ in clear(first)] == ["K.87"]
    # on the same ground point it is no part of the return
    ground = lamp(tmp_path / "g", ("    loads:\n", f"{danger.replace('END', 'L1')}    loads:\n"))
    assert [(red, black) for _, red, black, *_ in ohms(ground)] == [
        ("F1", "K.30"), ("K.87", "lamp.1"), ("lamp.2", "battery-"),
    ]  # fmt: skip
    assert [at for at, *_ in clear(ground)] == ["F1", "K.87"]
