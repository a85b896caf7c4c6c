"""A new lead that is joined onto a cut end: its take-up there is that of the joint that is made, by its form."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.jobs import figures, work
from tests.findings.whole import MADE


@pytest.mark.parametrize(
    ("joint", "cut_mm"),
    [
        # reach 500 mm and 6 mm into the terminal; a butt joint takes up nothing, a lap its 10 mm
        ('"butt, crimped"', 506.0),
        ('"lap, soldered"', 516.0),
    ],
)
def test_a_lead_onto_a_cut_end_takes_up_what_its_joint_takes(joint: str, cut_mm: float, tmp_path: Path) -> None:
    text = f"""
    job: Onto a cut end
    usual: {{joint: {joint}, overlap: 10 mm, slack: 0 mm, ring strip: 6 mm}}
    fuses: {{F1: {{rating: 10 A}}}}
    wires: {{W1: {{colour: RD, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: cap, wire: W1, end: F1, stub: 300 mm, far: gone, {MADE}}}
      - {{id: C2, kind: add, wire: W90, from: C1-W1-F1, to: horn.1, piece: BU 1.0 mm2, reach: 500 mm, {MADE}}}
    """
    assert figures(work(tmp_path, text))["C2-W90.cut"] == pytest.approx(cut_mm)
