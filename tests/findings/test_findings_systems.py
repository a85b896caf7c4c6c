"""Declared systems against what the rows do, whole sentences: which system, which wires, what is still to be shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.ledger.record import Why
from tests.findings.jobs import work
from tests.findings.said import Said, entries, said

MADE = "made: 2031-05-03 AK"
RESTRAINT = "Do not power the car; hand it to a workshop that is licensed for restraint systems"
VOLTAGE = "Stop work; hand the car to a workshop that is trained and licensed for high voltage"
LOOK = "Look at the car, and mend whichever is wrong"


KINDS = ("anti-lock", "none", "anti-lock", "immobiliser", "data pair", "fuel cut-off")


def systems(says: str, *rows: str) -> str:
    """W1, W2 ... of these kinds; what is declared is marked with its key, each row with its id."""
    lines = "".join(f"      {line} # {line.partition(':')[0]}\n" for line in says.split(", "))
    wires = "".join(
        f"      W{n}: {{size: 1.0 mm2, from: u.{n}, to: w.{n}, length: 900 mm, special: {kind}}}\n"
        for n, kind in enumerate(KINDS, 1)
    )
    told = "".join(f"      - {{id: C{n}, {row}}} # C{n}\n" for n, row in enumerate(rows, 1))
    told = told or f"      - {{id: C1, kind: verify, proves: [C1], {MADE}}}\n"
    return f"    job: Systems\n    systems:\n{lines}    wires:\n{wires}    changes:\n{told}"


def out(number: int, left: str = "gone") -> str:
    return f"kind: remove, wire: W{number}, ends: {{u.{number}: gone, w.{number}: {left}}}, {MADE}"


@pytest.mark.parametrize(("says", "problem", "mend"), [
    ("restraint: changed", "The restraint system is changed; a system that is neither whole nor gone may fire or fail",
     RESTRAINT),
    ("restraint: removed in part",
     "The restraint system is removed in part; a system that is neither whole nor gone may fire or fail", RESTRAINT),
    ("high voltage: present",
     "The high-voltage system is in the car; a car with one is outside what this record is for", VOLTAGE),
    ("high voltage: untouched",
     "The high-voltage system is untouched; a car with one is outside what this record is for", VOLTAGE),
    ("high voltage: removed in part",
     "The high-voltage system is removed in part; a car with one is outside what this record is for", VOLTAGE),
    ("restraint: untouched", "", ""),
    ("restraint: removed complete", "", ""),
    ("restraint: never fitted", "", ""),
    ("restraint: present", "", ""),
    ("high voltage: never fitted", "", ""),
    ("high voltage: removed complete", "", ""),
    ("anti-lock: changed", "", ""),
])  # fmt: skip
def test_a_system_that_no_record_can_make_safe_stops_the_car(
    says: str, problem: str, mend: str, tmp_path: Path
) -> None:
    key = says.partition(":")[0]
    assert said(tmp_path, systems(says), "SPC08") == ([("stop", key, key, problem, mend)] if problem else [])


@pytest.mark.parametrize(("says", "rows", "problem"), [
    ("anti-lock: removed complete", (), "anti-lock: declared removed complete, but W1, W3 are still in the car"),
    ("anti-lock: removed complete", (out(1),), "anti-lock: declared removed complete, but W3 is still in the car"),
    ("anti-lock: removed complete", (out(1, "capped 30 mm"), out(3)),
     "anti-lock: declared removed complete, but W1 is still in the car"),
    ("anti-lock: removed complete", (out(1), out(3).removesuffix(f", {MADE}")),  # the second is only planned
     "anti-lock: declared removed complete, but W3 is still in the car"),
    ("anti-lock: removed complete", (out(1), out(3)), ""),
    ("anti-lock: never fitted", (), "anti-lock: declared never fitted, but W1, W3 belong to it"),
    ("immobiliser: never fitted", (), "immobiliser: declared never fitted, but W4 belongs to it"),
    ("restraint: never fitted", (), ""),
    ("anti-lock: untouched", (out(1), out(2), out(3)), "anti-lock: declared untouched, but C1, C3 work on its wires"),
    ("anti-lock: untouched", (out(2), out(3)), "anti-lock: declared untouched, but C2 works on its wires"),
    ("anti-lock: untouched", (out(2), out(4)), ""),
    ("data bus: untouched", (out(2), out(5)), "data bus: declared untouched, but C2 works on its wires"),
    ("anti-lock: changed", (out(1),), ""),
    ("anti-lock: present", (out(1),), ""),
    ("anti-lock: unknown", (out(1),), ""),
])  # fmt: skip
def test_what_is_declared_is_held_against_the_wires_of_that_system(
    says: str, rows: tuple[str, ...], problem: str, tmp_path: Path
) -> None:
    key = says.partition(":")[0]
    expected: list[Said] = [("error", "", key, problem, LOOK)] if problem else []
    assert said(tmp_path, systems(says, *rows), "SPC10") == expected


@pytest.mark.parametrize(("says", "rows", "told"), [
    ("restraint: removed complete", (), "The restraint system is written as removed complete, but W1 and W3 are still "
     "in the car"),
    ("restraint: removed complete", (out(1),), "The restraint system is written as removed complete, but W3 is still "
     "in the car"),
    ("restraint: removed complete", (out(1), out(3)), ""),
    ("restraint: never fitted", (), "The restraint system is written as never fitted, but W1 and W3 belong to it"),
    ("restraint: untouched", (out(1), out(2)), "The restraint system is written as untouched, but C1 works on its "
     "wires"),
    ("restraint: untouched", (out(2),), ""),
    ("restraint: present", (out(1),), ""),
    ("restraint: unknown", (out(1),), ""),
])  # fmt: skip
def test_what_is_declared_of_restraint_is_held_against_its_wires_by_the_ledger(
    says: str, rows: tuple[str, ...], told: str, tmp_path: Path
) -> None:
    text = systems(says, *rows).replace("special: anti-lock", "special: restraint")
    mend = "Look at the car, and correct what is wrong, or let it stand by name, with the reason"
    assert said(tmp_path, text, "SPC10") == ([("error", "restraint", "restraint", told, mend)] if told else [])
    worked = work(tmp_path, text)
    assert any(reason.why is Why.CONTRADICTED for reason in worked.ledger.car) is bool(told)


WHEELS = "rove that the warning lamp goes out, every wheel gives its signal, the speed reads"
KEYS = "rove that the engine starts with each key and with no other"
PAIR = "rove that the resistance between the two wires, battery off, is the donor's"
PUMP = "rove that the pump stops when the cut-off opens"
SILENT = "restraint: never fitted"


def longer(number: int, more: str = "") -> str:
    return (
        f"kind: extend, wire: W{number}, end: w.{number}, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2{more}, {MADE}"
    )


@pytest.mark.parametrize(("says", "row", "works_on", "mend"), [
    ("anti-lock: changed", longer(1), "anti-lock wires: W1", f"P{WHEELS}"),
    (SILENT, longer(1), "anti-lock wires: W1",
     f"Write under systems: what became of the anti-lock; p{WHEELS}"),
    (SILENT, longer(1, ", tested: 2031-05-05 AK"), "anti-lock wires: W1",
     "Write under systems: what became of the anti-lock"),
    ("anti-lock: changed", longer(1, ", tested: 2031-05-05 AK"), "", ""),
    ("immobiliser: changed", longer(4), "immobiliser wires: W4", f"P{KEYS}"),
    ("data bus: changed", longer(5), "data bus wires: W5", f"P{PAIR}"),
    (SILENT, longer(6), "fuel cut-off wires: W6", f"P{PUMP}"),
    (SILENT, longer(6, ", tested: 2031-05-05 AK"), "", ""),
    (SILENT, longer(2), "", ""),
    ("anti-lock: changed", out(1), "", ""),  # nothing of it is left to try
    ("anti-lock: changed", out(1, "capped 30 mm"), "anti-lock wires: W1", f"P{WHEELS}"),
    (SILENT, out(1), "anti-lock wires: W1", "Write under systems: what became of the anti-lock"),
    ("anti-lock: changed, immobiliser: changed",
     "kind: extend, wires: {W1: BU 1.0 mm2, W2: BU 1.0 mm2, W3: BU 1.0 mm2, W4: BU 1.0 mm2, W6: BU 1.0 mm2}, plug: w, "
     f"stagger: 50 mm, pigtail: 200 mm, gap: 300 mm, {MADE}",
     "anti-lock wires: W1, W3; immobiliser wires: W4; fuel cut-off wires: W6", f"P{WHEELS}; p{KEYS}; p{PUMP}"),
])  # fmt: skip
def test_a_row_on_the_wires_of_a_system_tells_what_is_to_be_written_and_to_be_shown(
    says: str, row: str, works_on: str, mend: str, tmp_path: Path
) -> None:
    expected: list[Said] = [("warning", "C1", "C1", f"the row works on {works_on}", mend)] if works_on else []
    assert said(tmp_path, systems(says, row), "SPC09") == expected


def test_a_check_of_another_row_shows_nothing_of_this_one(tmp_path: Path) -> None:
    rows = (longer(1), longer(3), f"kind: verify, proves: [C2], {MADE}")
    assert entries(tmp_path, systems("anti-lock: changed", *rows), "SPC09") == ["C1"]
