"""`unknown` is one answer, however it is spelled."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.text.units import UNKNOWN_WORDS
from findings.jobs import work

CAR = """
    job: Van
    options: {{heater: {word}}}
    wires:
      W1: {{colour: GN, from: F1, to: {word}}}
      W2: {{colour: VT, from: F2, to: {word}}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{F1: pulled}}, only if: heater is diesel, made: 2031-05-03 AK}}
"""


@pytest.mark.parametrize("word", sorted(UNKNOWN_WORDS))
def test_every_spelling_of_unknown_leaves_a_row_undecided_and_joins_no_wires(tmp_path: Path, word: str) -> None:
    worked = work(tmp_path, CAR.format(word=f'"{word}"'))
    (row,) = worked.plan.rows
    assert row.status == "undecided"
    assert [stretch.ends for stretch in worked.plan.stretches] == [("F1", "unknown W1"), ("F2", "unknown W2")]
