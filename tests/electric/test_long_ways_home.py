"""A ground point that opens where the ways home are of unequal length, or where its own cable was not recorded."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.figures.test_figures_backfeed import ALL_IN_LINE, car, state_of
from tests.figures.test_figures_ways_home import AMPS, STAR, carried, opened


@pytest.mark.parametrize("first", ["short", "long"])
def test_a_long_way_home_is_told_to_its_end_beside_a_short_one(first: str, tmp_path: Path) -> None:
    """W6 of 2 m in three parts, joined in two plugs: the current is that of the wire in one part."""
    lines = STAR.splitlines(keepends=True)
    (w5,) = [line for line in lines if "W5:" in line]
    (w6,) = [line for line in lines if "W6:" in line]
    parts = [
        w6.replace("to: G1, length: 2 m", "to: far.1, length: 700 mm"),
        w6.replace("W6:", "W10:").replace("from: G3, to: G1, length: 2 m", "from: near.1, to: far.1, length: 700 mm"),
        w6.replace("W6:", "W11:").replace("from: G3, to: G1, length: 2 m", "from: near.1, to: G1, length: 600 mm"),
    ]
    wires = "".join([w5, *parts] if first == "short" else [*parts, w5])
    rest = "".join(line for line in lines if line not in (w5, w6))
    plugs = "    plugs: {near: {in line: yes}, far: {in line: yes}}\n    wires:\n"
    told = carried(opened(tmp_path, rest.replace("    wires:\n", plugs + wires)))
    by_g2, by_g3 = pytest.approx(0.6 * AMPS), pytest.approx(0.4 * AMPS)
    assert {name: one.amps for name, one in told.items()} == {
        "W5": by_g2, "G2 to battery-": by_g2, "W11": by_g3, "W10": by_g3, "W6": by_g3, "G3 to battery-": by_g3,
    }  # fmt: skip


def test_ways_through_loads_are_told_only_where_it_is_known_what_they_carried_before(tmp_path: Path) -> None:
    """With L1 open the current of a goes home through b and c, against the direction of b."""
    way = {"W4", "W6", "W7", "W8", "L2 to battery-"}
    known = state_of(car(tmp_path), "L1", "first closed").carrying
    assert {one.name: one.by_copper for one in known} == dict.fromkeys(way, False)
    assert [one.amps for one in known] == [pytest.approx(12 / (30 + ALL_IN_LINE))] * 5
    # what the cable of L1 took before it opened hangs on its size: whether they carry more now is not told
    text = ("L1: {back to: battery-, cable: 10 mm2,", "L1: {back to: battery-, cable: unknown,")
    assert state_of(car(tmp_path / "unread", text), "L1", "first closed").carrying == ()


def test_of_a_positive_ground_no_point_has_a_state(tmp_path: Path) -> None:
    sound = car(tmp_path).ground_states.carried
    assert all(sound[point] for point in ("L1", "L2"))
    positive = car(tmp_path / "positive", ("system: 12 V", "system: 12 V\n    ground side: positive"))
    assert dict(positive.ground_states.carried) == {"L1": (), "L2": ()}


def test_a_point_without_a_way_back_has_no_state_and_nothing_opens_there(tmp_path: Path) -> None:
    text = ("grounds:\n      L1:", "grounds:\n      L9: {what: bracket}\n      L1:")
    found = car(tmp_path, text).ground_states
    assert (found.carried["L9"], found.opened["L9"].opened) == ((), ())
    assert found.carried["L1"]
    assert found.opened["L1"].opened
