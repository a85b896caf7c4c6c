"""A ground point that opens: which wires take its current home, in their order, by arithmetic on parallel ways."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, proved, work

from aswired.figures.backfeed import Opened
from aswired.figures.ways_home import Carrying, direct_ways
from aswired.network.grid import Grid

# 1.0 mm2 is 18.5 mohm/m (ISO 6722-1, from memory), every allowance nought. The heater is 12 V / 20 A = 0.6 ohm, with
# 1 m there and 1 m to G1. With G1's cable open: W5 and the cable of G2, 18.5 + 18.5 mohm, or W6 and the cable of G3,
# 37 + 18.5 mohm. Side by side 37 x 55.5 / 92.5 = 22.2 mohm; six tenths go by G2.
STAR = copper_alone(
    proved("""
    job: Three points
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 30 A, fed: always}, F2: {rating: 5 A, fed: ignition}}
    grounds:
      G1: {back to: battery-, cable: 1.0 mm2, cable length: 1 m}
      G2: {back to: battery-, cable: 1.0 mm2, cable length: 1 m}
      G3: {back to: battery-, cable: 1.0 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: big.1, length: 1 m}
      W2: {size: 1.0 mm2, from: big.2, to: G1, length: 1 m}
      W6: {size: 1.0 mm2, from: G3, to: G1, length: 2 m}
      W5: {size: 1.0 mm2, from: G1, to: G2, length: 1 m}
      W7: {size: 1.0 mm2, from: F2, to: off.1, length: 1 m}
      W8: {size: 1.0 mm2, from: off.2, to: G3, length: 1 m}
    loads:
      big: {between: big.1 big.2, draws: 20 A, class: heater}
      off: {between: off.1 off.2, draws: 1 A, class: heater}
""")
)
AMPS = 12 / (0.6 + 0.037 + 0.0222)


def opened(folder: Path, text: str = STAR, point: str = "G1") -> Opened:
    """The state with the key out, in which only the heater is on."""
    states = [one for one in work(folder / "job", text).ground_states.opened[point].opened if tuple(one.on) == ("big",)]
    assert states
    return states[0]


def carried(found: Opened) -> dict[str, Carrying]:
    return {one.name: one for one in found.carrying}


def test_the_wires_that_take_the_current_of_an_opened_point_are_told_from_the_highest_down(tmp_path: Path) -> None:
    found = opened(tmp_path)
    told = carried(found)
    assert {name: (one.start, one.end) for name, one in told.items()} == {
        "W5": ("G1", "G2"),
        "W6": ("G1", "G3"),  # written the other way round
        "G2 to battery-": ("G2", "battery-"),
        "G3 to battery-": ("G3", "battery-"),
    }
    assert [one.name for one in found.carrying][2:] == ["G2 to battery-", "G3 to battery-"]
    amps = {"W5": 0.6 * AMPS, "W6": 0.4 * AMPS, "G2 to battery-": 0.6 * AMPS, "G3 to battery-": 0.4 * AMPS}
    assert {name: one.amps for name, one in told.items()} == {n: pytest.approx(a) for n, a in amps.items()}
    rise = {"W5": 0.0222, "W6": 0.0222, "G2 to battery-": 0.6 * 0.0185, "G3 to battery-": 0.4 * 0.0185}
    assert {name: one.rise_v for name, one in told.items()} == {n: pytest.approx(r * AMPS) for n, r in rise.items()}
    # 1.0 mm2 is planned for 10 A: 10.9 A by G2, 7.3 A by G3
    assert {name: one.overloaded for name, one in told.items()} == {
        "W5": True, "W6": False, "G2 to battery-": True, "G3 to battery-": False,
    }  # fmt: skip
    assert {name: (one.length_mm, one.planned_a) for name, one in told.items()} == {
        "W5": (1000, 10), "W6": (2000, 10), "G2 to battery-": (1000, 10), "G3 to battery-": (1000, 10),
    }  # fmt: skip
    assert all(one.by_copper for one in told.values())


def test_along_a_way_home_each_wire_begins_lower_than_the_one_before(tmp_path: Path) -> None:
    # the metre from G1 to G2 in two halves: 0.6 of the current over 0.037 ohm, then over 0.02775 ohm
    whole = "W5: {size: 1.0 mm2, from: G1, to: G2, length: 1 m}"
    first = "W5: {size: 1.0 mm2, from: G1, to: S9, length: 500 mm}"
    second = "W9: {size: 1.0 mm2, from: S9, to: G2, length: 500 mm}"
    text = STAR.replace(whole, f"{first}\n      {second}")
    told = carried(opened(tmp_path, text.replace("    wires:\n", "    splices: {S9: {}}\n    wires:\n")))
    rise = [told[name].rise_v for name in ("W5", "W9", "G2 to battery-")]
    assert rise == [pytest.approx(0.6 * AMPS * ohm) for ohm in (0.037, 0.02775, 0.0185)]


def test_the_wires_of_a_point_that_opens_beside_carry_what_went_by_it(tmp_path: Path) -> None:
    """With G3 open nothing comes by W6 any more; what went there goes by G1 and G2, which W2 does not notice."""
    told = carried(opened(tmp_path, point="G3"))
    # sound W5 has 1 / 37 of 1 / 18.5 + 1 / 37 + 1 / 55.5; with G3 open 1 / 37 of 1 / 18.5 + 1 / 37
    assert set(told) == {"W5", "G1 to battery-", "G2 to battery-"}
    amps = 12 / (0.6 + 0.037 + 18.5 * 37 / 55.5 / 1000)
    assert told["W5"].amps == pytest.approx(amps / 3)
    assert "W6" not in told


@pytest.mark.parametrize(
    ("old", "new"),
    [("to: G1, length: 2 m", "to: G1"), ("W6: {size: 1.0 mm2", "W6: {size: unknown")],
)
def test_a_way_that_was_not_measured_leaves_its_currents_open_and_is_named(old: str, new: str, tmp_path: Path) -> None:
    assert STAR.count(old) == 1
    told = carried(opened(tmp_path, STAR.replace(old, new)))
    assert {"W5", "W6"} <= set(told)
    assert (told["W5"].amps, told["W6"].amps, told["W6"].rise_v) == (None, None, None)
    assert not any(one.overloaded for one in told.values())
    assert told["W5"].planned_a == 10


def test_copper_alone_joins_a_point_to_the_battery_without_its_own_way(tmp_path: Path) -> None:
    worked = work(tmp_path, STAR)
    grid = Grid(worked.job, worked.shown)

    def names(point: str, key: str) -> set[str]:
        found = direct_ways(point, key, grid)
        return {branch.name.split()[0] for index in found for branch in grid.runs[index].branches}

    assert names("G1", "cable G1 to battery-") == {"W5", "W6", "G2", "G3"}
    # from G2 by W5 to G1 and on, by W6 too; never by a load, and not by a switch
    assert names("G2", "cable G2 to battery-") == {"W5", "W6", "G1", "G3"}
    alone = "".join(line for line in STAR.splitlines(keepends=True) if "W5:" not in line and "W6:" not in line)
    apart = work(tmp_path / "apart", alone)
    assert direct_ways("G1", "cable G1 to battery-", Grid(apart.job, apart.shown)) == frozenset()
