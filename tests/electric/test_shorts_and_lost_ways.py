"""Feeds that are joined to ground, ways back that lead to nothing, many loads that are never on together."""

from __future__ import annotations

import itertools
from pathlib import Path
from random import Random

import pytest

from aswired.network.grid import Grid
from aswired.network.transfer import FEED, RETURN, SHORTED, UnitSolutions, most_together
from tests.findings.jobs import copper_alone, figures, proved, work

# ISO 6722-1 (from memory): 1.0 mm2 18.5, 16 mm2 1.16 mohm/m. By hand: W1 37, W2 18.5, cable 1.16 mohm.
LAMP = copper_alone("""
    job: Lamp
    supply: 12 V
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {L1: {back to: battery-, cable: 16 mm2, cable length: 1 m}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 2 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: heater}
""")
ON = {"lamp": 2.0}


def transfer(folder: Path, text: str) -> UnitSolutions:
    worked = work(folder, proved(text))
    return UnitSolutions(
        Grid(worked.job, worked.shown), {name: worked.circuits[name] for name in worked.job.kept_loads}
    )


@pytest.mark.parametrize("back_to", ["L77", "unknown"])
def test_a_way_back_that_leads_to_nothing_on_record_is_not_nought(back_to: str, tmp_path: Path) -> None:
    text = LAMP.replace("back to: battery-", f"back to: {back_to}")
    found = transfer(tmp_path / "job", text)
    assert found.lost("lamp", FEED, ON).volts == pytest.approx(2 * 0.037)
    back = found.lost("lamp", RETURN, ON)
    assert back.volts is None
    assert any("the way back from" in words for words in back.missing_words)
    values = figures(work(tmp_path / "figures", proved(text)))
    assert values["lamp.return.alone"] is None
    assert values["lamp.drop.alone"] is None
    assert values["L1.rise"] is None


def test_two_points_whose_way_back_is_unknown_do_not_meet_there(tmp_path: Path) -> None:
    text = LAMP.replace("grounds: {L1: {back to: battery-", "grounds: {L2: {back to: unknown}, L1: {back to: unknown")
    grid = transfer(tmp_path, text).grid
    assert "unknown" not in grid.nodes


@pytest.mark.parametrize("length", ["0 mm", "3 m"])
def test_nothing_is_told_of_a_feed_that_a_wire_joins_to_ground(length: str, tmp_path: Path) -> None:
    text = LAMP.replace("    loads:", f"      W9: {{size: 1.0 mm2, from: F1, to: L1, length: {length}}}\n    loads:")
    found = transfer(tmp_path / "job", text)
    for side in (FEED, RETURN):
        lost = found.lost("lamp", side, ON)
        assert (lost.volts, lost.missing) == (None, (SHORTED,))
    assert found.through("fuse F1", ON).volts is None
    assert found.through("cable L1 to battery-", ON).volts is None
    assert found.between("L1", "battery-", ON).volts is None
    values = figures(work(tmp_path / "figures", proved(text)))
    assert (values["lamp.drop.alone"], values["L1.total"], values["L1.rise"]) == (None, None, None)


def test_a_contact_that_grounds_a_motor_at_rest_takes_none_of_its_current(tmp_path: Path) -> None:
    """As of windows and wipers: the motor's feed end lies on ground by the resting contact, until the relay pulls."""
    text = copper_alone("""
    job: Window
    supply: 12 V
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 5 A, fed: always}}
    switches:
      up: {between: K.87 K.30, worked by: coil}
      brake: {between: K.30 K.87a, worked by: coil, at rest: closed}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: K.87, length: 2 m}
      W2: {size: 1.0 mm2, from: K.30, to: motor.1, length: 1 m}
      W3: {size: 1.0 mm2, from: K.87a, to: battery-, length: 1 m}
      W4: {size: 1.0 mm2, from: motor.2, to: battery-, length: 1 m}
      W5: {size: 1.0 mm2, from: F2, to: K.86, length: 1 m}
      W6: {size: 1.0 mm2, from: K.85, to: battery-, length: 1 m}
    loads:
      motor: {between: motor.1 motor.2, draws: 6 A, class: motor}
      coil: {between: K.86 K.85, draws: 150 mA, class: coil}
    """)
    values = figures(work(tmp_path, proved(text)))
    assert values["motor.feed.alone"] == pytest.approx(6 * (0.037 + 0.0185))
    assert values["motor.return.alone"] == pytest.approx(6 * 0.0185)


# ---- which are on together ------------------------------------------------------------------------------------------
def barred(names: list[str], pairs: list[tuple[str, str]]) -> dict[str, frozenset[str]]:
    return {
        name: frozenset(other for pair in pairs if name in pair for other in pair if other != name) for name in names
    }


@pytest.mark.parametrize("seed", range(60))
def test_the_set_that_takes_most_is_that_of_trying_every_set(seed: int) -> None:
    random = Random(seed)
    names = [f"load {number}" for number in range(random.randint(1, 9))]
    pairs = [pair for pair in itertools.combinations(names, 2) if random.random() < 0.3]
    weight = {name: float(random.randint(0, 3)) for name in names}
    every = (chosen for size in range(len(names) + 1) for chosen in itertools.combinations(names, size))
    able = [chosen for chosen in every if not any(set(pair) <= set(chosen) for pair in pairs)]
    best = max(able, key=lambda chosen: (sum(weight[n] for n in chosen), [name in chosen for name in names]))
    assert most_together(names, weight, barred(names, pairs)) == list(best)


def test_many_pairs_that_are_never_on_together_are_looked_at_pair_by_pair() -> None:
    """Sixty pairs have 2^60 sets; the larger of each pair by hand."""
    names = [f"load {number}" for number in range(120)]
    pairs = [(names[number], names[number + 1]) for number in range(0, 120, 2)]
    weight = {name: float(number) for number, name in enumerate(names)}
    assert most_together(names, weight, barred(names, pairs)) == names[1::2]
