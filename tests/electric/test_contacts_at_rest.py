"""A changeover relay: one load on the contact that rests closed, one on the contact that its coil closes."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.electric import transfer_of
from aswired.figures.tests import steps_of_job
from aswired.network.behaviour import Behaviour
from aswired.network.states import needs_of, state
from aswired.sheets.drops import drop_sheet
from tests.findings.jobs import copper_alone, figures, proved, work

CHANGEOVER = copper_alone(
    proved("""
    job: Changeover
    system: 12 V
    supply: 12 V
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 5 A, fed: always}}
    switches:
      button: {between: button.1 button.2}
      make: {between: K1.30 K1.87, worked by: coil}
      break: {between: K1.30 K1.87a, worked by: coil, at rest: closed}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: K1.30, length: 2 m}
      W2: {size: 2.5 mm2, from: K1.87, to: fan.1, length: 2 m}
      W3: {size: 2.5 mm2, from: K1.87a, to: heater.1, length: 2 m}
      W4: {size: 2.5 mm2, from: fan.2, to: battery-, length: 2 m}
      W5: {size: 2.5 mm2, from: heater.2, to: battery-, length: 2 m}
      W6: {size: 1.0 mm2, from: F2, to: button.1, length: 1 m}
      W7: {size: 1.0 mm2, from: button.2, to: K1.86, length: 1 m}
      W8: {size: 1.0 mm2, from: K1.85, to: battery-, length: 1 m}
    loads:
      fan: {between: fan.1 fan.2, draws: 10 A, class: motor}
      heater: {between: heater.1 heater.2, draws: 6 A, class: heater}
      coil: {between: K1.86 K1.85, draws: 150 mA, class: coil}
""")
)


def test_what_hangs_on_the_resting_contact_needs_no_coil_and_is_off_with_it(tmp_path: Path) -> None:
    worked = work(tmp_path, CHANGEOVER)
    transfer = transfer_of(worked.job, worked.shown, worked.circuits)
    grid, circuits = transfer.grid, transfer.circuits
    heater, fan = (needs_of(name, grid, circuits) for name in ("heater", "fan"))
    assert heater is not None
    assert fan is not None
    assert (heater.by_hand, heater.relays, heater.resting) == ((), (), ("break",))
    assert (fan.by_hand, fan.relays, fan.resting) == (("button",), ("make",), ())
    behaviour = Behaviour(grid, circuits)
    volts = {
        name: behaviour.operate(state(needs, grid)).load_volts for name, needs in (("heater", heater), ("fan", fan))
    }
    assert abs(volts["heater"]["heater"] or 0) > 11
    assert volts["heater"]["fan"] == pytest.approx(0, abs=1e-6)
    assert abs(volts["fan"]["fan"] or 0) > 11
    assert volts["fan"]["heater"] == pytest.approx(0, abs=1e-6)


def test_the_two_sides_of_a_changeover_are_never_on_together(tmp_path: Path) -> None:
    worked = work(tmp_path, CHANGEOVER)
    transfer = transfer_of(worked.job, worked.shown, worked.circuits)
    assert transfer.apart == {"fan": {"heater"}, "heater": {"fan", "coil"}, "coil": {"heater"}}
    # the fan takes more: 10 A alone through W1, 15.2 mohm, and W2, 15.2 mohm
    assert set(transfer.together()) == {"fan", "coil"}
    value = figures(worked)
    assert value["fan.feed.together"] == pytest.approx(10 * 0.0304)
    assert value["heater.feed.together"] == pytest.approx(6 * 0.0304)
    assert value["F1.total"] == pytest.approx(10)


def test_the_page_of_a_changeover_load_names_what_it_is_never_on_with(tmp_path: Path) -> None:
    worked = work(tmp_path, CHANGEOVER)
    assert drop_sheet(worked.circuit_figures["heater"], worked.job).on == "Never on with it: coil, fan."


def test_a_contact_whose_coil_is_not_recorded_is_said_to_be_taken_as_it_rests(tmp_path: Path) -> None:
    for text, said in ((CHANGEOVER, ""), (CHANGEOVER.replace("draws: 150 mA", "draws: unknown"), "make, break")):
        worked = work(tmp_path / (said or "known"), text)
        how = steps_of_job(transfer_of(worked.job, worked.shown, worked.circuits)).how
        assert ("their coil is not recorded: make, break." in how) is bool(said)
