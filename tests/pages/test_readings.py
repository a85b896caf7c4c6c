"""Readings beside what the network expects, and the same two points over the years."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.sheets import readings as readings_page
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.readings import ReadingRow, reading_rows
from aswired.sheets.templates import environment, render
from aswired.sheets.years import EDGE, HEIGHT, WIDTH, series
from tests.crawl.tree import parse
from tests.demos import demo
from tests.findings.jobs import copper_alone, work

CAR = """
    job: Heater
    supply: 12.0 V
    handed over: 2031-05-20
    fuses: {F1: {rating: 10 A, fed: always}}
    loads: {heater: {between: heater.1 heater.2, draws: 6 A, class: heater}}
    grounds: {L1: {cable: 10 mm2, cable length: 1 m, back to: battery-}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: heater.1, length: 2 m}
      W2: {size: 2.5 mm2, from: heater.2, to: L1, length: 10 m}
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-01 AK}
    readings:
"""
RETURN = "red: heater.2, black: battery-, loads on: heater"


def car(*readings: str) -> str:
    lines = "".join(f"      - {{id: R{number}, {reading}}}\n" for number, reading in enumerate(readings, 1))
    return copper_alone(CAR) + lines


def rows(folder: Path, *readings: str) -> list[ReadingRow]:
    return list(reading_rows(work(folder, car(*readings))))


def test_what_is_expected_stands_beside_what_was_read(tmp_path: Path) -> None:
    # 12 V over 2.09302 ohm drive 5.733 A; 77.82 mohm of return lose 0.446 V (tests of the figure have the sums)
    (row,) = rows(tmp_path, f"{RETURN}, read: 0.6 V, limit: 0.5 V, on: 2031-05-04")
    assert (row.expected, row.band) == ("0.45 V", "0.34 to 0.56 V")
    assert (row.verdict, row.bad) == ("over the limit", True)
    assert (row.against, row.against_bad, row.why) == ("as expected", False, "")
    assert row.figure is not None
    assert row.figure.formula


@pytest.mark.parametrize(
    ("reading", "expected", "band"),
    [
        (f"{RETURN}, read: 0.02 V, on: 2031-05-04".replace("heater.2", "L1"), "0.01 V", "up to 0.04 V"),
        ("red: heater.2, black: L1, read: 70 mohm, on: 2031-05-04", "0.08 Ω", "68.4 to 83.6 mΩ"),
        ("red: battery-, black: clamp, loads on: none, read: 14 mA, on: 2031-05-04", "0.0 A", "up to 50 mA"),
    ],
)
def test_a_band_has_one_unit_and_no_least_that_is_nought(
    tmp_path: Path, reading: str, expected: str, band: str
) -> None:
    (row,) = rows(tmp_path, reading)
    assert (row.expected, row.band) == (expected, band)


def test_a_reading_that_nothing_is_expected_of_says_why(tmp_path: Path) -> None:
    (row,) = rows(tmp_path, "red: heater.2, black: L1, with: heater on, read: 0.4 V, on: 2031-05-04")
    assert (row.expected, row.band, row.against, row.figure) == ("not recorded", "", "", None)
    assert row.why == "which loads were on is not recorded"


def test_a_reading_that_the_figures_count_says_of_which_part(tmp_path: Path) -> None:
    fuse, cable = rows(
        tmp_path,
        "red: F1.feed, black: F1, read: 12 mohm, on: 2031-05-04",
        "red: L1, black: battery-, read: 0.02 V, through: 8 A, on: 2031-05-04",
    )
    assert (fuse.used, cable.used) == ("fuse F1", "cable L1 to battery-")


# ---- over the years -------------------------------------------------------------------------------------------------
def test_the_same_two_points_are_held_to_the_hand_over(tmp_path: Path) -> None:
    worked = work(
        tmp_path,
        car(
            f"{RETURN}, read: 0.40 V, on: 2031-05-02",
            "red: F1, black: heater.1, loads on: heater, read: 0.1 V, on: 2031-05-02",  # read once
            f"{RETURN}, read: 500 mV, on: 2031-06-01",
            f"{RETURN}, read: 0.44 V, on: 2031-05-12",  # the last before the car was handed over
            "red: battery-, black: heater.2, loads on: heater, read: -0.44 V, on: 2031-05-27",  # leads turned
            f"{RETURN}, read: 0.9 V",  # no day
            f"{RETURN}, read: not measured, on: 2031-05-28",
            f"{RETURN}, read: 5.7 A, on: 2031-05-28",  # another quantity
            "red: heater.2, black: battery-, loads on: none, read: 0.0 V, on: 2031-05-28",  # another state
        ),
    )
    (found,) = series(worked)
    assert (found.red, found.black, found.since) == ("heater.2", "battery-", "since the hand-over, 12 May 2031")
    assert [(row.id, row.read, row.moved) for row in found.rows] == [
        ("R1", "0.40 V", "−0.04 V"),
        ("R4", "0.44 V", "hand-over"),
        ("R5", "-0.44 V", "the same"),
        ("R3", "500 mV", "+0.06 V"),
    ]
    # 30 days from the first to the last: 10, 25 and 30 of them; amounts of 0.5 V, from nought at the foot
    across, up = WIDTH - 2 * EDGE, HEIGHT - 2 * EDGE
    for row, (days, part) in zip(found.rows, ((0, 0.8), (10, 0.88), (25, 0.88), (30, 1.0)), strict=True):
        assert (row.x, row.y) == pytest.approx((EDGE + across * days / 30, HEIGHT - EDGE - up * part), abs=0.06)
    assert found.words.startswith("0.40 V on 2 May 2031, 0.44 V on 12 May 2031")


def test_words_alone_make_a_series_where_they_are_the_same(tmp_path: Path) -> None:
    said = "red: heater.2, black: battery-, with: {}, read: {} V, on: {}"
    worked = work(
        tmp_path,
        car(
            said.format("Heater  on", "0.4", "2031-05-22"),
            said.format("heater on", "0.5", "2031-05-23"),
            said.format("heater and fan on", "0.6", "2031-05-24"),
        ),
    )
    (found,) = series(worked)
    assert [(row.id, row.moved) for row in found.rows] == [("R1", "first reading"), ("R2", "+0.10 V")]
    assert found.since == "since the first reading, 22 May 2031"


def test_two_readings_of_nought_on_one_day_are_drawn(tmp_path: Path) -> None:
    (found,) = series(work(tmp_path, car(*[f"{RETURN}, read: 0 V, on: 2031-05-04"] * 2)))
    assert [(row.x, row.y) for row in found.rows] == [(EDGE, HEIGHT - EDGE), (WIDTH - EDGE, HEIGHT - EDGE)]


def test_the_page_of_the_trail_truck_tells_what_a_technician_looks_for() -> None:
    theme = Path(__file__).parents[2] / "site_theme"
    (page,) = readings_page.pages(frame_of(demo("trail-truck"), ShopFacts("owner")))
    main = parse(render(environment(theme), page)).first("main")
    text = " ".join(main.text.split())
    for words in (
        "above what is expected",
        "as expected",
        "Over the years",
        "Since the hand-over, 31 May 2015",
        "+280 mA",
    ):
        assert words in text
    # the reading of which only words say what was on is judged by its own limit alone
    assert "against the network not judged: which loads were on is not recorded" in text
    lines = [line for line in main.all("svg") if "years-line" in (line.attributes.get("class") or "")]
    assert lines[0].attributes["role"] == "img"
    assert lines[0].attributes["aria-label"] == "14 mA on 31 May 2015, 294 mA on 20 Nov 2024, 13 mA on 21 Nov 2024"
    # every reading with loads on record is judged; all that the shop took for sound lie inside
    rows = {row.id: row for row in reading_rows(demo("trail-truck"))}
    assert {row.id for row in rows.values() if row.against_bad} == {"R10", "R11", "R13", "R15"}
    assert {row.id for row in rows.values() if not row.against} == {"R2", "R9"}
