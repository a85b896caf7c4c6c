"""A fuse that is said to be fed from a point is fed, whether or not a wire of the record leads to that point."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.ledger.record import State
from tests.findings.jobs import work

JOB = """
job: Lamp
fuses: {F1: {rating: 15 A, fed: always, fed from: POINT}, F2: {rating: 5 A, fed: always}}
plugs: {lamp: {ways: 2}}
loads: {lamp: {between: lamp.1 lamp.2, draws: 5 A, class: lamp}}
grounds: {L1: {cable: 10 mm2, back to: battery-}}
wires:
  W1: {size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {size: 2.5 mm2, from: lamp.2, to: L1}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


@pytest.mark.parametrize("point", ["battery+", "box.bus"])
def test_its_wire_is_held_to_its_rating(point: str, tmp_path: Path) -> None:
    """15 A on 1.0 mm2, which is planned for 10."""
    account = work(tmp_path, JOB.replace("POINT", point)).ledger.accounts["W1"]
    assert (account.lines[0].push.least, account.lines[0].live, account.state) == (15.0, True, State.AGAINST)


def test_behind_another_fuse_the_smaller_counts(tmp_path: Path) -> None:
    account = work(tmp_path, JOB.replace("POINT", "F2")).ledger.accounts["W1"]
    assert (account.lines[0].push.least, account.state) == (5.0, State.PROVED)
