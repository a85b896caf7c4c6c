"""A length that is not known names the lines of the house method that would make it known, and no other."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.findings.jobs import figure, work
from tests.findings.whole import MADE

TEXT = """
    job: A piece let in
    usual: {joint: "lap, soldered"}
    fuses: {F1: {rating: 10 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 900 mm}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2, ROW}
"""


@pytest.mark.parametrize(
    ("row", "keys"),
    [
        ("", {"slack", "overlap"}),
        ("slack: 20 mm, ", {"overlap"}),
        ("overlap: 10 mm, ", {"slack"}),
        ("overlap: 10 mm, cut: 340 mm, ", set()),
        ("cut: 340 mm, ", {"overlap"}),
    ],
)
def test_only_what_the_row_leaves_to_the_house_method_is_asked_for(row: str, keys: set[str], tmp_path: Path) -> None:
    worked = work(tmp_path, TEXT.replace("ROW", f"{row}{MADE}"))
    asked = " ".join(part.partition("write usual:")[2] for part in figure(worked, "lamp.drop.alone").missing_words)
    assert {key.strip() for key in re.findall(r"([a-z ]+):", asked)} == keys
