"""A fuse's reading is of the fuse that sat there on that day: what a later row made of it was not measured."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.network.copper import switch_part
from aswired.network.grid import Grid
from tests.findings.jobs import proved, work

TEXT = """
    job: Fuse
    usual: {cavity resistance: 0 mohm, ring resistance: 0 mohm}
    fuses: {F1: {rating: 10 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 1 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}
    changes:
      - {id: C1, kind: protect, fuse: F1, rating: 5 A, made: 2031-05-03 AK}
    readings:
"""
OLD, NEW = 12.0, 17.85  # mohm: as measured; a 5 A blade fuse, cold, by its maker's data sheet (allowances.py)


def grid(folder: Path, *readings: str) -> Grid:
    lines = "".join(f"      - {{id: R{number}, {line}}}\n" for number, line in enumerate(readings, 1))
    worked = work(folder, TEXT + lines)
    return Grid(worked.job, worked.shown)


@pytest.mark.parametrize(
    ("on", "mohm", "counts"),
    [
        (", on: 2031-05-02", NEW, {}),
        (", on: 2031-05-03", OLD, {"R1": "fuse F1"}),
        (", on: 2031-05-20", OLD, {"R1": "fuse F1"}),
        ("", NEW, {}),  # nobody wrote of which of the two it was
    ],
)
def test_a_reading_of_another_fuse_does_not_count(tmp_path: Path, on: str, mohm: float, counts: dict[str, str]) -> None:
    found = grid(tmp_path, f"red: F1.feed, black: F1, read: 12 mohm{on}")
    (fuse,) = found.by_key["fuse F1"].parts
    assert fuse.mohm == pytest.approx(mohm)
    assert found.measured == counts


def test_the_last_reading_since_counts(tmp_path: Path) -> None:
    across = "red: F1.feed, black: F1"
    found = grid(
        tmp_path,
        f"{across}, read: 14 mohm, on: 2031-05-10",
        f"{across}, read: 20 mohm, on: 2031-05-01",
        f"{across}, read: 13 mohm, on: 2031-05-04",
    )
    assert found.by_key["fuse F1"].mohm == pytest.approx(14)
    assert found.measured == {"R1": "fuse F1"}


def test_a_reading_that_tells_no_part_is_used_nowhere(tmp_path: Path) -> None:
    assert grid(tmp_path, "red: lamp.2, black: battery-, read: 20 mohm, on: 2031-05-10").measured == {}


@pytest.mark.parametrize(("written", "low", "high"), [("3 mohm", 2.5, 3.5), ("3.10 mohm", 3.10 * 0.95, 3.10 * 1.05)])
def test_a_measured_switch_lies_half_its_last_digit_or_a_twentieth_either_way(
    written: str, low: float, high: float, tmp_path: Path
) -> None:
    job = work(tmp_path, proved(f"""
    job: A switch
    switches: {{button: {{between: a.1 a.2, resistance: {written}}}}}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: a.1}}}}
    """)).job  # fmt: skip
    part = switch_part("button", job)
    assert (part.low, part.high) == (pytest.approx(low), pytest.approx(high))
