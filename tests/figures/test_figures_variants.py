"""Loads in the other cars of a recipe, by hand: every allowance at nought, a fan that moves to another stud there.

2 m of feed and 10 m of return at 7.6 mohm/m (2.5 mm2, ISO 6722-1) are 91.2 mohm, 1 m of cable at 1.82 mohm/m (10 mm2)
are 1.82 mohm.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, work

from aswired.figures.variants import Variant, variants
from aswired.figures.worked import JobResult
from aswired.sheets.variants import variant_sheets

TEXT = """
    job: Recipe
    supply: 12 V
    options: {steering: {is: left, could be: [left, right]}}
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 5 A, fed: always}}
    loads:
      fan: {between: fan.1 fan.2, draws: 6 A, class: motor}
      glow: {between: glow.1 glow.2, draws: 100 mA, class: lamp}
    grounds:
      L1: {cable: 10 mm2, cable length: 1 m, back to: battery-}
      L2: {cable: 10 mm2, cable length: 2 m, back to: battery-}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: fan.1, length: 2 m}
      W2: {size: 2.5 mm2, from: fan.2, to: L1, length: 10 m}
      W3: {size: 2.5 mm2, from: F2, to: glow.1, length: 1 m}
      W4: {size: 2.5 mm2, from: glow.2, to: L1, length: 1 m}
    changes:
      - {id: C1, kind: ground, wire: W2, end: L1, to: L2, ring: "new, M8", only if: steering is right}
"""


def made(folder: Path, text: str) -> JobResult:
    return work(folder, copper_alone(text).replace("usual: {", "usual: {ring strip: 0 mm, "))


def found(folder: Path, text: str = TEXT) -> tuple[Variant, ...]:
    worked = made(folder, text)
    return variants(worked.job, worked.plan)


def test_what_moves_with_an_option_is_told_with_what_it_leaves_behind(tmp_path: Path) -> None:
    (car,) = found(tmp_path)
    assert (car.option, car.value) == ("steering", "right")
    fan, glow = car.loads
    assert fan.here is not None
    assert fan.there is not None
    assert (fan.here.fuses, fan.here.ground, fan.there.fuses, fan.there.ground) == (("F1",), "L1", ("F1",), "L2")
    # 6 A over 91.2 mohm and 6.1 A over the 1.82 of L1; there 6 A over 91.2 and the 3.64 of L2
    assert fan.here.drop.value == pytest.approx(6 * 0.0912 + 6.1 * 0.00182)
    assert fan.there.drop.value == pytest.approx(6 * 0.0912 + 6 * 0.00364)
    # the lamp on L1 is rid of the fan's current: 0.1 A over 2 m of wire, and 6.1 or 0.1 A over the cable
    assert glow.here is not None
    assert glow.there is not None
    assert (glow.here.ground, glow.there.ground) == ("L1", "L1")
    assert glow.here.drop.value == pytest.approx(0.1 * 0.0152 + 6.1 * 0.00182)
    assert glow.there.drop.value == pytest.approx(0.1 * 0.0152 + 0.1 * 0.00182)


def test_what_no_print_shows_is_no_difference(tmp_path: Path) -> None:
    # 0.4 m of cable are 0.73 mohm: 6 A more or less make 4.4 mV
    (car,) = found(
        tmp_path, TEXT.replace("L1: {cable: 10 mm2, cable length: 1 m", "L1: {cable: 10 mm2, cable length: 40 cm")
    )
    assert [load.load for load in car.loads] == ["fan"]


def test_a_load_of_one_car_only(tmp_path: Path) -> None:
    (car,) = found(tmp_path, TEXT.replace("class: lamp}", "class: lamp, for: steering is left}"))
    _, glow = car.loads
    assert glow.here is not None
    assert glow.there is None


@pytest.mark.parametrize(
    ("fact", "instead"),
    [
        ("{is: left, could be: [left, right]}", "{is: unknown, could be: [left, right]}"),  # this car is not known
        ("{is: left, could be: [left, right]}", "left"),  # no other car is
        (", only if: steering is right", ""),  # every car is the same
    ],
)
def test_nothing_is_told_where_nothing_differs_or_is_known(tmp_path: Path, fact: str, instead: str) -> None:
    assert TEXT.count(fact) == 1
    assert found(tmp_path, TEXT.replace(fact, instead)) == ()


def test_the_rows_of_the_page(tmp_path: Path) -> None:
    text = TEXT.replace("class: lamp}", "class: lamp, for: steering is left}").replace(", length: 10 m}", "}")
    (sheet,) = variant_sheets(made(tmp_path, text))
    assert (sheet.option, sheet.value, sheet.here) == ("steering", "right", "left")
    fan, glow = sheet.rows
    assert (fan.only, fan.fuse.same, fan.fuse.here) == ("", True, "F1")
    assert (fan.ground.same, fan.ground.here, fan.ground.there) == (False, "L1", "L2")
    assert (fan.drop.here, fan.drop.there, fan.current.here) == ("not recorded", "not recorded", "6.0 A")
    assert (glow.only, glow.drop.same) == ("left", True)
