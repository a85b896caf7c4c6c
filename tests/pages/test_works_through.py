"""A load behind a relay names the coil, its fuse and its ground; a coil names what its contacts switch."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.sheets.circuits import Coil, circuit_sheet
from tests.electric.test_contacts_at_rest import CHANGEOVER
from tests.findings.jobs import work


@pytest.mark.parametrize(
    ("load", "through", "works"),
    [
        ("fan", (Coil("coil", False, ("F2",), ""),), ()),
        ("heater", (Coil("coil", True, ("F2",), ""),), ()),
        ("coil", (), ("fan", "heater")),
    ],
)
def test_what_a_relay_ties_together_is_told_on_both_pages(
    load: str, through: tuple[Coil, ...], works: tuple[str, ...], tmp_path: Path
) -> None:
    sheet = circuit_sheet(load, work(tmp_path, CHANGEOVER))
    assert (sheet.works_through, sheet.works) == (through, works)
