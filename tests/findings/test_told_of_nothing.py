"""What is passed over in silence, beside a thing of its kind that is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.jobs import work
from tests.findings.whole import MADE, PROVED, assert_told


def entries(folder: Path, text: str, code: str) -> list[str]:
    return [finding.entry for finding in work(folder, text).findings if finding.code == code]


@pytest.mark.parametrize(("lamp", "horn", "told"), [("deleted", "kept", []), ("kept", "deleted", ["C1"])])
def test_an_emptied_output_is_let_go_with_its_own_loads_whatever_becomes_of_others(
    lamp: str, horn: str, told: list[str], tmp_path: Path
) -> None:
    # unit.7 fed the lamp alone, unit.8 feeds the horn
    text = f"""
    job: Unit
    modules: {{unit: {{out: {{7: lamp, 8: horn}}}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2, verdict: {lamp}}}
      horn: {{between: horn.1 horn.2, verdict: {horn}}}
    wires:
      W1: {{size: 1.0 mm2, from: unit.7, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: unit.8, to: horn.1}}
      W3: {{size: 1.0 mm2, from: lamp.2, to: battery-}}
      W4: {{size: 1.0 mm2, from: horn.2, to: battery-}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{unit.7: pulled, lamp.1: pulled}}, {MADE}}}
    """
    assert entries(tmp_path, text, "END08") == told


@pytest.mark.parametrize(("cuts", "told"), [("no", ["pump"]), ("unknown", []), ("yes", [])])
def test_a_switch_in_the_return_of_a_fuel_pump_is_asked_as_one_in_its_feed(
    cuts: str, told: list[str], tmp_path: Path
) -> None:
    text = f"""
    job: Fuel
    fuses: {{F1: {{rating: 15 A, fed: always}}}}
    switches: {{oil switch: {{between: oil.1 oil.2, cuts fuel: {cuts}}}}}
    loads: {{pump: {{between: pump.1 pump.2, class: fuel pump}}}}
    wires:
      W1: {{size: 1.5 mm2, from: F1, to: pump.1}}
      W2: {{size: 1.5 mm2, from: pump.2, to: oil.1}}
      W3: {{size: 1.5 mm2, from: oil.2, to: battery-}}
    changes: [{PROVED}]
    """
    assert entries(tmp_path, text, "LOD04") == told


def test_what_returns_inside_one_module_and_another_shares_no_point(tmp_path: Path) -> None:
    text = f"""
    job: Modules
    fuses: {{F1: {{rating: 15 A, fed: always}}}}
    modules: {{unit: {{ground: [31]}}, box: {{ground: [31]}}}}
    loads:
      sensor: {{between: s.1 s.2, class: sensor}}
      pump: {{between: p.1 p.2, class: pump}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: s.1}}
      W2: {{size: 1.0 mm2, from: s.2, to: unit.31}}
      W3: {{size: 1.0 mm2, from: F1, to: p.1}}
      W4: {{size: 1.0 mm2, from: p.2, to: box.31}}
    changes: [{PROVED}]
    """
    worked = work(tmp_path, text)
    assert {circuit.back.state for circuit in worked.circuits.values()} == {"complete"}
    assert [finding for finding in worked.findings if finding.code == "GND07"] == []


@pytest.mark.parametrize(("barrel", "told"), [("0.5-1.5", True), ("0.5-2.0", False)])
def test_a_tapped_wire_lies_in_a_butt_beside_the_lead_that_taps_it(barrel: str, told: bool, tmp_path: Path) -> None:
    # 1.0 mm2 that is not cut and 1.0 mm2 beside it: 2.0 mm2 together, and no side of its own for either
    text = f"""
    job: Tap
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: FS1, to: horn.1, length: 900 mm}}
    splices: {{FS1: {{}}}}
    changes:
      - id: C1
        kind: tap
        wire: W2
        end: FS1
        onto: W1
        joint: "butt, crimped, barrel {barrel} mm2" # here
        {MADE}
    """
    assert_told(tmp_path, text, "SPL10", [
        ("SPL10", "warning", "C1", "# here", "1.00 + 1.00 mm2 of copper meet in C1, together; its barrel takes "
         f"{barrel} "
         "mm2", "Take the barrel for the sum of the copper, or make two joints"),
    ] if told else [])  # fmt: skip


def test_an_offcut_of_unknown_length_is_on_the_rack_all_the_same(tmp_path: Path) -> None:
    # O1 was declared, O2 put down by a row, both without a length; O3 is nowhere
    text = f"""
    job: Rack
    usual: {{joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}}
    offcuts: {{O1: BU 1.0 mm2 unknown}}
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: b.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: a.2, to: c.1, length: 900 mm}}
      W3: {{size: 1.0 mm2, from: a.3, to: d.1, length: 900 mm}}
      W4: {{size: 1.0 mm2, from: a.4, to: e.1}}
    changes:
      - {{id: C4, kind: remove, wire: W4, ends: {{a.4: gone, e.1: gone}}, {MADE},
         reclaimed: {{O2: RD 1.0 mm2 unknown}}}}
      - {{id: C1, kind: extend, wire: W1, plug: b, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2 from O1, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, plug: c, pigtail: 200 mm, gap: 400 mm, piece: RD 1.0 mm2 from O2, {MADE}}}
      - {{id: C3, kind: extend, wire: W3, plug: d, pigtail: 200 mm, gap: 400 mm, piece: YE 1.0 mm2 from O3, {MADE}}}
    """
    assert entries(tmp_path, text, "OFF02") == ["C3-W3"]
