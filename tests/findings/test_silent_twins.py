"""Findings and their silent twins: what is told of a car, and of the car that differs in one fact; worked by hand.

The house: slack 50, laps of 10, 6 mm into a barrel. (Geometry of the joint, no outside source.)
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.diagnostics import Finding
from tests.findings.jobs import work

HEAD = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
"""
CAR = (
    HEAD
    + """
    fuses: {F1: {rating: 5 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: lamp.1, length: 1200 mm}
      W2: {colour: VT, size: 1 mm2, from: F1, to: lamp.2, length: 1200 mm}
"""
)
MADE = "made: 2031-05-03 AK"


def told(folder: Path, text: str, *codes: str) -> list[Finding]:
    """The findings of these codes."""
    return [finding for finding in work(folder, text).findings if finding.code in codes]


def line_with(finding: Finding) -> str:
    """The text of the line that a finding points at."""
    return finding.at.text.strip()


# ---- splices --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("part", ["plugs: {ecu: {}}", "modules: {ecu: {}}"])
def test_a_splice_too_near_is_told_at_a_module_as_at_a_plug(tmp_path: Path, part: str) -> None:
    row = f"""
    {part}
    changes:
      - {{id: C1, kind: extend, plug: ecu, wire: W1, pigtail: 20 mm, gap: 400 mm, piece: BU 1 mm2, {MADE}}}
    """
    found = told(tmp_path, CAR.replace("lamp.1", "ecu.7") + row, "SPL01")
    # the lap of 10 counts half to either side of the cut: 20 - 10 / 2 = 15
    assert [(f.entry, f.problem.partition(";")[0]) for f in found] == [
        ("C1-W1-plug", "C1-W1-plug lies 15 mm from ecu.7")
    ]


def test_a_lap_too_short_for_several_wires_is_asked_for_by_the_thickest(tmp_path: Path) -> None:
    text = CAR.replace("overlap: 10 mm", "overlap: 4 mm").replace("GN, size: 1 mm2", "GN, size: 2.5 mm2")
    rows = f"""
    changes:
      - {{id: C1, kind: extend, plug: lamp, wire: W1, pigtail: 200 mm, gap: 400 mm, piece: BU 2.5 mm2, {MADE}}}
      - {{id: C2, kind: extend, plug: lamp, wire: W2, pigtail: 300 mm, gap: 400 mm, piece: RD 6 mm2, {MADE}}}
    """
    (found,) = told(tmp_path, text.replace("VT, size: 1 mm2", "VT, size: 6 mm2") + rows, "SPL09")
    # three diameters of solid round copper: 3 x sqrt(4 x 6 / pi) = 3 x 2.764 = 8.3; of 2.5 mm2 3 x 1.784 = 5.4
    assert found.problem.startswith("a lap of 4 mm is under 3 conductor diameters (8.3 mm): C1-W1-")
