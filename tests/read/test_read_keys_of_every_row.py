"""What may stand on a row of any kind: who did it and when, what came of it, and what it stands for."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.changes import KINDS
from aswired.files import read_job

ON_EVERY_ROW = {
    "photos": "[P1]", "why": "asked for", "note": "as found", "only if": "gearbox is manual", "corrects": "C2",
    "redoes": "C3", "made": "2031-05-03 AK", "sealed": "2031-05-03 AK", "tested": "2031-05-03 AK",
    "accepted": "[{finding: SPL07, by: AK, why: short}]", "minutes": "20", "shop note": "slow",
    "reclaimed": "{O1: BU 1.0 mm2 500 mm}", "scrap": "20 mm", "spare": "one", "batch": "B7",
    "takes over": "[alternator excite]", "warning": "hot", "loom": "front",
}  # fmt: skip


@pytest.mark.parametrize("kind", [kind.name for kind in KINDS])
def test_a_row_of_any_kind_takes_what_stands_on_every_row(kind: str, tmp_path: Path) -> None:
    lines = "".join(f"    {key}: {value}\n" for key, value in ON_EVERY_ROW.items())
    text = f"job: Van\nchanges:\n  - id: C1\n    kind: {kind}\n{lines}    no such key: x\n"
    (tmp_path / "job.yml").write_text(text, encoding="utf-8")
    wrong = {
        (fault.code, fault.at.line) for fault in read_job(tmp_path).faults if fault.code.startswith(("KND", "KEY"))
    }
    last = 5 + len(ON_EVERY_ROW)
    assert wrong == {("KEY01", last)}  # the key that nobody knows, which shows that keys are looked at
