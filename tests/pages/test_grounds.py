"""The page of grounds: states, stacks of rings, sensors apart, the tree's widths, and the notes of the record."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import grounds as grounds_page
from aswired.sheets.backfeed import ground_of_load, if_opened
from aswired.sheets.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.grounds import GroundRow, GroundSheet, ground_sheet
from aswired.sheets.templates import environment, render
from tests.crawl.tree import parse
from tests.findings.jobs import copper_alone, proved, work

THEME = Path(__file__).parents[2] / "site_theme"

# 1 m of 1.0 mm2 is 18.5 mohm, of 10 mm2 1.82 mohm (ISO 6722-1, from memory)
CAR = copper_alone(
    proved("""
    job: Two studs
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 10 A, fed: ignition}, F3: {rating: 100 A, fed: always},
      F4: {rating: 5 A, fed: ignition}}
    plugs: {s1: {ways: 2}, s2: {ways: 2}, lamp: {ways: 2}, fan: {ways: 2}, sender: {ways: 2}, starter: {ways: 2}}
    switches: {light switch: {between: s1.1 s1.2}, start switch: {between: s2.1 s2.2}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 4 A, class: lamp}
      fan: {between: fan.1 fan.2, draws: 6 A, class: motor}
      sender: {between: sender.1 sender.2, draws: 60 mA, class: sensor}
      starter: {between: starter.1 starter.2, draws: 90 A, class: starter}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    splices: {FS1: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: s1.1, length: 1 m}
      W2: {size: 1.0 mm2, from: s1.2, to: lamp.1, length: 1 m}
      W3: {size: 1.0 mm2, from: lamp.2, to: FS1, length: 1 m}
      W4: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
      W5: {size: 1.0 mm2, from: F2, to: fan.1, length: 1 m}
      W6: {size: 1.0 mm2, from: fan.2, to: L1, length: 1 m}
      W7: {size: 1.0 mm2, from: F4, to: sender.1, length: 1 m}
      W8: {size: 1.0 mm2, from: sender.2, to: L2, length: 1 m}
      W9: {size: 10 mm2, from: F3, to: s2.1, length: 1 m}
      W10: {size: 10 mm2, from: s2.2, to: starter.1, length: 1 m}
      W11: {size: 10 mm2, from: starter.2, to: L1, length: 1 m}
""")
)
SECOND_WIRE = ("    changes:", "      W12: {size: 1.0 mm2, from: FS1, to: L2, length: 1 m}\n    changes:")


def car(folder: Path, *changed: tuple[str, str]) -> JobResult:
    text = CAR
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return work(folder / "job", text)


def row(sheet: GroundSheet, name: str) -> GroundRow:
    (found,) = [row for row in sheet.rows if row.name == name]
    return found


def said(worked: JobResult) -> str:
    (page,) = grounds_page.pages(frame_of(worked, ShopFacts("owner")))
    return text_of(page)


def text_of(page: PageOut) -> str:
    return " ".join(parse(render(environment(THEME), page)).first("main").text.split())


def test_each_state_of_a_point_has_its_current_and_rise(tmp_path: Path) -> None:
    states = row(ground_sheet(car(tmp_path)), "L1").states
    # 1.82 mohm x 4, 6, 90 and 10 A; the starter is on with nothing else
    assert [(state.state, state.on, state.amps, state.rise, state.bad) for state in states[:5]] == [
        ("key off, nothing switched on", (), "0.0 A", "0.00 V", False),
        ("light switch closed", ("lamp",), "4.0 A", "7.3 mV", False),
        ("key on ignition", ("fan",), "6.0 A", "0.01 V", False),
        ("start switch closed", ("starter",), "90.0 A", "0.16 V", True),  # a rise is told above 0.10 V
        ("all on that can be on together", ("lamp", "fan"), "10.0 A", "0.02 V", False),
    ]
    assert states[5].as_above


def test_the_figure_of_a_state_opens_to_currents_and_cable(tmp_path: Path) -> None:
    (state,) = [state for state in row(ground_sheet(car(tmp_path)), "L1").states if state.state == "key on ignition"]
    assert [(given.name, given.value) for given in state.figure.inputs][:2] == [
        ("fan", "6.0 A"),
        ("L1 to battery-", "6.0 A"),
    ]
    assert state.figure.inputs[2].value == "1.8 mΩ"


def test_a_load_that_is_never_on_with_the_rest_stands_beside_the_tree(tmp_path: Path) -> None:
    sheet = ground_sheet(car(tmp_path))
    assert sheet.off == ("starter",)
    assert sheet.tree is not None
    assert {bar.of for bar in sheet.tree.wires} == {"lamp", "fan", "sender", "L1", "L2"}
    assert "Not in the tree, since they are never on with the rest: starter." in said(car(tmp_path / "page"))


def test_a_load_straight_on_the_post_stands_in_the_tree_of_a_car_that_is_not_computed(tmp_path: Path) -> None:
    straight = ("from: fan.2, to: L1", "from: fan.2, to: battery-")
    positive = ("    body returns: no\n", "    body returns: no\n    ground side: positive\n")
    for changed in ((straight,), (straight, positive)):
        worked = car(tmp_path / str(len(changed)), *changed)
        tree = ground_sheet(worked).tree
        assert bool(worked.network.refused) is (positive in changed)
        assert tree is not None
        assert {bar.of for bar in tree.wires} == {"lamp", "fan", "sender", "L1", "L2"}


def test_where_a_return_divides_each_width_is_the_current_that_runs_there(tmp_path: Path) -> None:
    tree = ground_sheet(car(tmp_path, SECOND_WIRE)).tree
    assert tree is not None
    # lamp: two equal ways of a wire and a cable, 2 A each. fan: by the cable of L1, or by W4, W12 and the cable of L2,
    # 1.82 of 40.64 mohm; sender likewise by L2
    part = 1.82 / (2 * 18.5 + 2 * 1.82)
    on_l1, on_l2 = 2 + 6 * (1 - part) + 0.06 * part, 2 + 6 * part + 0.06 * (1 - part)
    falling = [(bar.of, bar.width_px / tree.px_per_a) for bar in tree.wires if bar.height_px > bar.width_px]
    assert [amps for of, amps in falling if of == "L1"] == pytest.approx([on_l1])
    assert [amps for of, amps in falling if of == "L2"] == pytest.approx([on_l2])
    assert [amps for of, amps in falling if of == "lamp"] == pytest.approx([2, 2])


def test_a_part_that_hangs_on_an_unread_size_is_dashed(tmp_path: Path) -> None:
    tree = ground_sheet(car(tmp_path, (SECOND_WIRE[0], SECOND_WIRE[1].replace("1.0 mm2", "unknown")))).tree
    assert tree is not None
    assert {bar.of for bar in tree.wires if bar.dashed} >= {"lamp", "L1", "L2"}


def test_sensor_returns_are_told_apart(tmp_path: Path) -> None:
    (apart,) = ground_sheet(car(tmp_path)).sensors
    assert (apart.point, apart.sensors, apart.others) == ("L2", ("sender",), ())
    assert (apart.verdict, apart.bad) == ("apart", False)
    (shared,) = ground_sheet(car(tmp_path / "shared", ("from: sender.2, to: L2", "from: sender.2, to: L1"))).sensors
    assert (shared.point, shared.verdict, shared.bad) == ("L1", "disturbed", True)
    assert shared.others == ("lamp", "fan", "starter")


def test_a_car_without_sensors_has_no_table_of_them(tmp_path: Path) -> None:
    assert ground_sheet(car(tmp_path, ("class: sensor", "class: heater"))).sensors == ()
    assert "Sensor returns" not in said(car(tmp_path / "page", ("class: sensor", "class: heater")))


def test_what_is_lost_is_told_once_and_not_in_every_state(tmp_path: Path) -> None:
    worked = car(tmp_path)
    opened = if_opened("L1", worked)
    assert (opened.lost, opened.rows) == (("lamp", "fan", "starter"), ())
    assert opened.note == "dead: lamp, fan, starter; nothing that is off is fed"
    page = said(worked)
    assert "If L1 opens Dead, with no other way home: lamp, fan, starter." in page
    assert "Light switch closed: lamp dead, and nothing that is off is fed." in page
    assert "Key off, nothing switched on: nothing behind L1 is on, and nothing that is off is fed." in page


def test_a_load_says_what_its_ground_does_to_it(tmp_path: Path) -> None:
    found = ground_of_load("lamp", car(tmp_path))
    assert found is not None
    assert (found.ground, found.words) == ("L1", "it is dead")
    divided = ground_of_load("lamp", car(tmp_path / "divided", SECOND_WIRE))
    assert divided is not None
    assert divided.words == "it still has its volts by another way"


def test_a_ring_has_its_current_and_the_stack_its_verdict(tmp_path: Path) -> None:
    rows = """    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
      - {id: C2, kind: ground, wire: W6, end: L1, to: L2, ring: "new, M8, 1st from base", made: 2031-05-03 AK}
      - {id: C3, kind: ground, wire: W4, end: L1, to: L2, ring: "new, M8, 2nd from base", made: 2031-05-03 AK}
"""
    text = CAR[: CAR.index("    changes:")].replace("from: sender.2, to: L2", "from: sender.2, to: battery-")
    found = row(ground_sheet(work(tmp_path / "a", text + rows)), "L2")
    rings = [(ring.row, ring.position, ring.amps) for ring in found.rings]
    assert rings == [("C2", "1", "6.0 A"), ("C3", "2", "4.0 A")]
    assert (found.order, found.upside_down) == ("the larger currents lie nearer the base, within 1 A", False)
    over = rows.replace("1st", "3rd").replace("2nd", "1st")
    found = row(ground_sheet(work(tmp_path / "b", text + over)), "L2")
    assert (found.order, found.upside_down) == ("a larger current lies over a smaller one", True)
    assert [ring.row for ring in found.rings] == ["C3", "C2"]  # from the base, not in the order of the file
