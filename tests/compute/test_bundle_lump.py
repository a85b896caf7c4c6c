"""The joint in its sleeve: the least it may measure comes from the least its wires may."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from aswired.compute.bundle import lump, outside


def test_the_thinnest_a_joint_may_be_is_told_by_the_thinnest_its_wires_may_be() -> None:
    wire = outside("AWG", 18, "cross-linked")
    assert wire is not None
    assert round(wire.least_mm, 2) == 1.84
    # twice the thickest wire (common practice, no source), and two side by side are no thicker: 2 x 1.84
    assert lump([wire, wire]).least_mm == pytest.approx(3.68, abs=0.01)
