"""What a part is counted with: a word that says nothing leaves the table, and a day that cannot be measures nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.network.copper import wire_part
from aswired.network.grid import Grid
from aswired.text.units import read_size
from tests.electric.test_grid import LINE
from tests.findings.jobs import ALLOWED, proved, work

# By hand, from the table of allowances: a 10 A fuse 7.7, a switch 20 mohm, the cable of 1 m 1.82 and its ring 1.5
BY_TABLE = {"fuse F1": 7.7, "switch S": 20.0, "cable L1 to battery-": 3.32}


def mohm(folder: Path, text: str) -> dict[str, float | None]:
    worked = work(folder, text)
    return {key: branch.mohm for key, branch in Grid(worked.job, worked.shown).by_key.items()}


# A relay's contact beside the switch, so that every kind of part is there.
EVERY_PART = (
    LINE.replace("S: {between: s.1 s.2}", "S: {between: s.1 s.2}, K: {between: s.1 k.87, worked by: coil}")
    .replace("    loads:\n", "      W9: {size: 1.0 mm2, from: k.87, to: horn.1, length: 1 m}\n    loads:\n")
    .rstrip(" ")
    + "      coil: {between: k.86 k.85, draws: 0.1 A, class: coil}\n"
)


@pytest.mark.parametrize("part", ALLOWED)
def test_an_allowance_that_is_written_as_unknown_is_that_of_the_table_and_not_nought(part: str, tmp_path: Path) -> None:
    def usual(word: str) -> dict[str, float | None]:
        said = f"    usual: {{{part} resistance: {word}}}\n" if word else ""
        return mohm(tmp_path / (word or "silent"), proved(EVERY_PART.replace("    body", f"{said}    body")))

    silent = usual("")
    assert {key: silent[key] for key in BY_TABLE} == pytest.approx(BY_TABLE)
    assert usual("unknown") == silent
    # twin: one of nought is a word that counts
    assert usual("0 mohm") != silent


@pytest.mark.parametrize(
    ("leads", "key"),
    [
        ("red: F1.feed, black: F1", "fuse F1"),
        ("red: s.2, black: s.1", "switch S"),
        ("red: L1, black: battery-", "cable L1 to battery-"),
    ],
)
@pytest.mark.parametrize(
    ("on", "counts"),
    [("", True), (", on: 2031-06-01", True), (", on: 2031-05-20 AK", True), (", on: 2031-06-02", False)],
)
def test_a_reading_of_a_day_that_is_still_to_come_measures_no_part(
    leads: str, key: str, on: str, counts: bool, tmp_path: Path
) -> None:
    """Today is 2031-06-01."""
    found = mohm(tmp_path, proved(LINE) + f"    readings: [{{id: R1, {leads}, read: 9 mohm{on}}}]\n")
    assert {name: found[name] for name in BY_TABLE} == pytest.approx(BY_TABLE | ({key: 9.0} if counts else {}))


@pytest.mark.parametrize(
    "silent",
    [
        "red: L1, black: battery-, read: not measured",
        "red: L1, read: 5 mohm",
        "black: L1, read: 5 mohm",
        "red: L1, black: battery-, read: 0 mohm",
        "red: L1, black: battery-, read: 12 V",
        "red: L1, black: battery-, read: 12 V, through: unknown",
        "red: L1, black: battery-, read: 5 A",
        "red: L1, black: battery-, read: 5 mohm, on: 2031-06-02",
    ],
)
def test_a_reading_that_tells_no_resistance_hides_none_of_those_around_it(silent: str, tmp_path: Path) -> None:
    readings = (
        "{id: R1, red: F1.feed, black: F1, read: 8 mohm}",
        f"{{id: R2, {silent}}}",
        "{id: R3, red: L1, black: battery-, read: 9 mohm}",
    )
    for folder, rows in (("between", readings), ("before", (readings[1], readings[0], readings[2]))):
        found = mohm(tmp_path / folder, proved(LINE) + f"    readings: [{', '.join(rows)}]\n")
        assert (found["fuse F1"], found["cable L1 to battery-"]) == pytest.approx((8.0, 9.0)), folder


def test_a_cable_has_its_ring_on_a_point_that_a_row_made_and_none_on_one_that_nobody_made(tmp_path: Path) -> None:
    """1 m of 10 mm2 is 1.82 mohm, each ring 1.5 (allowance)."""
    text = LINE.replace("L1: {back to: battery-", "L1: {back to: L9")
    row = (
        "    changes: [{id: C1, kind: ground, wire: W6, end: L1, to: L9, ring: new M6, made: 2031-05-03 AK}, "
        "{id: C2, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"
    )
    assert mohm(tmp_path / "made", text.rstrip(" ") + row)["cable L1 to L9"] == pytest.approx(1.82 + 1.5 + 1.5)
    assert mohm(tmp_path / "named", proved(text))["cable L1 to L9"] == pytest.approx(1.82 + 1.5)


def test_a_battery_post_has_no_ring_for_a_cable_though_a_wire_ends_on_it_too(tmp_path: Path) -> None:
    text = LINE.replace("    loads:", "      W9: {size: 1.0 mm2, from: battery-, to: spare.1, length: 1 m}\n    loads:")
    found = mohm(tmp_path, proved(text))
    assert found["cable L1 to battery-"] == pytest.approx(1.82 + 1.5)
    assert 18.5 + 4 in [pytest.approx(value) for value in found.values()]  # W9: its copper and the cavity at spare.1


def test_the_worst_case_of_a_hot_leg_goes_on_from_the_temperature_of_the_job(tmp_path: Path) -> None:
    # copper R2 = R1 x (234.5 + T2) / (234.5 + T1), AC 43.13-1B para 11-66 (read): from 60 to 100 C 334.5 / 294.5
    job = work(tmp_path, "job: Warm\ntemperature: 60 C\nchanges: [{id: C1, kind: verify, proves: [C1]}]\n").job
    size = read_size("1.0 mm2")
    cool, hot = wire_part("wire", size, 1000.0, job), wire_part("wire", size, 1000.0, job, 100.0)
    assert cool.worst == pytest.approx(cool.high)
    assert (hot.mohm, hot.high) == (cool.mohm, cool.high)
    assert hot.worst == pytest.approx(cool.high * 334.5 / 294.5)
    assert wire_part("wire", size, 1000.0, job, 40.0).worst == cool.worst  # a cool leg makes no wire better
