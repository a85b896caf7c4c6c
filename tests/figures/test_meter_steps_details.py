"""Steps of the test sheet where little can be reached, where a load sits in a module, and where nothing is computed."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.electric.test_relays_in_a_race import RACE
from tests.figures.test_before_power_details import BACK, BEHIND, CAR, HANGING, clear, lamp, ohms
from tests.figures.test_figures_expected import judged
from tests.findings.jobs import proved, work

from aswired.figures.electric import transfer_of
from aswired.figures.expected import Expected
from aswired.figures.tests import CircuitSteps, Start, steps_of_job


def steps(folder: Path, text: str, load: str) -> CircuitSteps:
    worked = work(folder, text)
    return steps_of_job(transfer_of(worked.job, worked.shown, worked.circuits)).circuits[load]


# ---- what is unplugged for the ohmmeter -----------------------------------------------------------------------------
@pytest.mark.parametrize("ends", ["unit.3 L1", "L1 unit.3"])
def test_a_load_with_one_end_in_a_modules_plug_comes_off_with_the_module_whichever_end_is_written_first(
    ends: str, tmp_path: Path
) -> None:
    """The clock in the module is grounded by the module's case: its one plug is the module's."""
    found = lamp(tmp_path, ("clock: {between: unit.3 unit.7", f"clock: {{between: {ends}"))
    # on the feed the module's name says it; on the ground it hangs by itself, and there the module has no cavity
    back = (*BACK[:5], ("clock",))
    assert ohms(found) == [("feed", "F1", "K.30", 55.5, ("s1",), ("unit", "radio")), BEHIND, back]
    assert clear(found)[0] == ("F1", ("s1",), HANGING)


def test_the_figures_of_a_load_stand_in_the_order_of_the_work_those_without_power_first(tmp_path: Path) -> None:
    keys = [figure.key.split(".")[1] for figure in steps(tmp_path, CAR, "horn").figures]
    # two sections are rung, before all that is read with power on
    assert keys[:2] == ["ohms", "ohms"]
    assert set(keys[2:]) == {"test"}


# ---- the point that halves what can be open -------------------------------------------------------------------------
# Suspects: F1, W1, the contacts lamp.1 and lamp.2, W2, its ring, the cable: seven. One lies before F1, three before
# lamp.1 and before lamp.2, six before L1; half of them is three and a half.
DEAD = proved("""
    job: A lamp that stays dark
    supply: 12 V
    plugs: {lamp: {ways: 2, reachable: PLUG}}
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m, reachable: POINT}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
""")


@pytest.mark.parametrize(
    ("plug", "point", "fuse", "start"),
    [
        ("yes", "yes", True, Start("lamp.1", "feed")),
        ("no", "yes", True, Start("F1", "feed")),  # as far from the half as L1, and nearer to the battery
        ("no", "no", True, Start("F1", "feed")),  # all that can be reached: the fuse alone lies before it
        ("no", "yes", False, Start("L1", "return")),
        ("no", "no", False, None),  # the two posts halve nothing
    ],
)
def test_a_search_starts_at_the_point_within_reach_that_best_halves_what_can_be_open(
    plug: str, point: str, fuse: bool, start: Start | None, tmp_path: Path
) -> None:
    text = DEAD.replace("PLUG", plug).replace("POINT", point)
    if not fuse:
        text = text.replace("from: F1,", "from: battery+,")
    assert steps(tmp_path, text, "lamp").start == start


# ---- nothing is computed --------------------------------------------------------------------------------------------
def test_of_a_positive_ground_that_is_told_and_not_what_its_relays_leave_open(tmp_path: Path) -> None:
    def missing(folder: str, text: str) -> set[tuple[str, ...]]:
        powered = steps(tmp_path / folder, text, "coil A").powered
        assert powered is not None
        assert powered.volts
        return {test.volts.missing_words for test in powered.volts if test.volts.value is None}

    assert missing("negative", RACE) == {("which of its relays is the quicker",)}
    positive = RACE.replace("supply: 12 V", "supply: 12 V\n    ground side: positive")
    assert missing("positive", positive) == {("positive ground: not computed",)}


# ---- readings -------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "leads",
    [
        "red: heater.2",
        "black: heater.2",
        "red: heater.2, black: unknown",
        "red: unknown, black: heater.2",
        "loads on: heater",
    ],
)
def test_of_a_reading_with_one_lead_nothing_is_expected_since_the_other_is_not_recorded(
    leads: str, tmp_path: Path
) -> None:
    (found,) = judged(tmp_path, f"{leads}, on: 2031-05-04, read: 0.4 V")
    assert found == Expected(why="where the leads were is not recorded")
