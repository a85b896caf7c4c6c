"""The joint in its sleeve: the least it may measure comes from the least its wires may."""

from __future__ import annotations

import pytest

from aswired.physics.bundle import lump, outside


def test_the_thinnest_a_joint_may_be_is_told_by_the_thinnest_its_wires_may_be() -> None:
    wire = outside("AWG", 18, "cross-linked")
    assert wire is not None
    # the thin wall 1.99 less 0.15 apart (SAE J1128, computed from walls told from memory)
    assert wire.least_mm == pytest.approx(1.99 - 0.15)
    # twice the thickest wire (common practice, no source), and two side by side are no thicker: 2 x 1.84
    assert lump([wire, wire]).least_mm == pytest.approx(3.68, abs=0.01)
