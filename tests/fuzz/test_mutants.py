"""No slip in a file ends in a traceback, in a wait without end or in a refusal that names no place."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from tests.fuzz.mutants import judged, main, mutant

pytestmark = pytest.mark.slow  # slips by chance

SEED = 20310601


def run(first: int, count: int, folder: Path) -> Counter[str]:
    ends: Counter[str] = Counter()
    wrong = []
    for number in range(first, first + count):
        made = mutant(number, SEED)
        outcome = judged(made, folder)
        ends[outcome.ended] += 1
        wrong += [f"mutant {number}, {made.name}, {made.told}: {trouble}" for trouble in outcome.wrong]
    assert wrong == []
    return ends


def test_some_mutants(tmp_path: Path) -> None:
    ends = run(0, 20, tmp_path)
    assert ends["refused"] >= 3
    assert ends["built"] >= 3


@pytest.mark.slow
@pytest.mark.parametrize("part", range(4))
def test_hundreds_of_mutants(part: int, tmp_path: Path) -> None:
    ends = run(20 + 100 * part, 100, tmp_path)
    assert ends["refused"] >= 20
    assert ends["built"] >= 20


def test_a_defect_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """The harness itself: a reader that fails, and one that never ends, are told with number and seed."""
    from tests.fuzz import mutants

    def fail(folder: Path) -> None:
        raise KeyError("slack")

    monkeypatch.setattr(mutants, "read_job", fail)
    assert main(2, 5) == 1
    told = capsys.readouterr().out
    assert "KeyError: 'slack'" in told
    assert "-- 1 of seed 5" in told
    monkeypatch.setattr(mutants, "LONGEST_S", 1)

    def wait(folder: Path) -> None:
        while True:
            pass

    monkeypatch.setattr(mutants, "read_job", wait)
    assert main(1, 5) == 1
    assert "TimeoutError: not done in 1 s" in capsys.readouterr().out
