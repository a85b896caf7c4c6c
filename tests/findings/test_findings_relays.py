"""Relays that are as they should be, and what follows from one that is not."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from aswired.checks import relays
from aswired.files import read_job
from aswired.work import work_out
from tests.findings.cases_relays import BUZZER, LIFTED
from tests.findings.jobs import copper_alone, proved, work

# Pressed once, the relay holds itself: its coil hangs on its own make contact, beside the button.
HOLDS = """
    job: Relays
    system: 12 V
    supply: 13 V
    fuses: {F1: {rating: 10 A, fed: always}}
    switches:
      start button: {between: button.1 button.2}
      K1 contact: {between: K1.30 K1.87, worked by: K1 coil}
    loads:
      K1 coil: {between: K1.86 K1.85, draws: 150 mA, class: coil}
      pump: {between: pump.1 pump.2, draws: 5 A, class: pump}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: button.1, length: 1 m}
      W2: {size: 1.0 mm2, from: button.2, to: K1.86, length: 1 m}
      W3: {size: 1.0 mm2, from: F1, to: K1.30, length: 1 m}
      W4: {size: 1.0 mm2, from: K1.87, to: K1.86, length: 100 mm}
      W5: {size: 1.0 mm2, from: K1.87, to: pump.1, length: 1 m}
      W6: {size: 1.0 mm2, from: pump.2, to: battery-, length: 1 m}
      W7: {size: 1.0 mm2, from: K1.85, to: battery-, length: 1 m}
"""
# A second relay whose coil is fed by the contact of the first, which does not pull in.
BEHIND = LIFTED.replace(
    "    loads:\n", "      K2 contact: {between: K2.30 K2.87, worked by: K2 coil}\n    loads:\n"
    "      K2 coil: {between: K2.86 K2.85, draws: 150 mA, class: coil}\n",
).replace(
    "      W1: {", "      W7: {size: 1.0 mm2, from: K1.87, to: K2.86, length: 1 m}\n"
    "      W8: {size: 1.0 mm2, from: K2.85, to: battery-, length: 1 m}\n"
    "      W9: {size: 1.0 mm2, from: F2, to: K2.30, length: 1 m}\n      W1: {",
)  # fmt: skip


def told(folder: Path, text: str) -> list[tuple[str, str]]:
    found = work(folder, copper_alone(proved(text.replace(" # <", "")))).findings
    return [(finding.code, finding.entry) for finding in found if finding.code.startswith("REL")]


def test_a_relay_that_holds_itself_is_sound(tmp_path: Path) -> None:
    assert told(tmp_path, HOLDS) == []


def test_a_relay_behind_one_that_does_not_pull_in_is_not_told_again(tmp_path: Path) -> None:
    assert told(tmp_path, BEHIND) == [("REL02", "K1 contact")]


def test_the_limit_is_the_jobs_own(tmp_path: Path) -> None:
    # the coil has 6.9 V of 12 V, which are 57 %
    assert told(tmp_path / "60", LIFTED.replace("system:", "limits: {relay pulls in: 60 %}\n    system:")) != []
    assert told(tmp_path / "55", LIFTED.replace("system:", "limits: {relay pulls in: 55 %}\n    system:")) == []


@pytest.mark.parametrize(
    ("fact", "instead"),
    [
        ("supply: 13 V", "ground side: positive\n    supply: 13 V"),
        ("supply: 13 V", "supply: unknown"),
        ("draws: 150 mA", "draws: unknown"),
        ("from: F1, to: button.1", "from: unknown, to: button.1"),
        (", at rest: closed", ""),  # then the contact never closes, since its coil hangs on it
    ],
)
def test_what_is_not_recorded_or_not_computed_is_not_told(tmp_path: Path, fact: str, instead: str) -> None:
    assert BUZZER.count(fact) == 1
    assert told(tmp_path / "as it is", BUZZER) == [("REL01", "K1 contact")]
    assert told(tmp_path / "instead", BUZZER.replace(fact, instead)) == []


@pytest.mark.slow  # of cost alone; what is told of coils is held by the tests above
def test_nothing_is_solved_where_every_coil_surely_pulls_in(monkeypatch: pytest.MonkeyPatch) -> None:
    read = read_job(Path(__file__).parents[2] / "jobs" / "trail-truck")
    assert read.job is not None, read.faults
    assert any(switch.worked_by for switch in read.job.switches.values())

    def solved(*_: object) -> None:
        raise AssertionError("the network was solved")

    monkeypatch.setattr(relays, "Behaviour", solved)
    worked = work_out(read.job, datetime.date(2026, 1, 1))
    assert [finding.code for finding in worked.findings if finding.code.startswith("REL")] == []
