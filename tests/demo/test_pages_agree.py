"""The built pages of the trail truck, held against one another: what two of them tell of one fact is the same."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.crawl.tree import Element, read

pytestmark = pytest.mark.slow


def page(site: Path, name: str) -> Element:
    return read(site / "jobs" / "trail-truck" / f"{name}.html").first("main")


def rows(element: Element, first: str) -> list[str]:
    """Rows of tables that begin with a word."""
    return [row.text for row in element.all("tr") if row.text.split()[:1] == [first]]


def test_the_record_tells_the_warnings_of_the_overview(site: Path) -> None:
    first, record = page(site, "index").text, page(site, "record").text
    said = re.search(r"No stop and no error is open; \d+ warnings and \d+ notes", first)
    assert said is not None
    assert said[0] in record
    against = record[record.index("13 What stands against") :]
    for load in ("indicator front right", "fuel pump"):
        assert load in against
    assert "Nothing recorded." not in against


def test_rows_and_their_states_are_counted_alike(site: Path) -> None:
    listed = page(site, "changes").text
    (states,) = re.findall(r"Of those in force: ([^.]+)\.", listed)
    assert states in page(site, "index").text
    assert states in read(site / "index.html").text
    (in_force,) = re.findall(r"\d+ rows, (\d+) in force, in the order", listed)
    assert sum(int(count) for count in re.findall(r"\d+", states)) == int(in_force)
    assert f"{in_force} in force" in page(site, "index").text
    assert len(list(page(site, "changes").all("article", class_="change"))) == int(
        re.findall(r"(\d+) rows, \d+ in force", page(site, "index").text)[0]
    )


def test_what_is_let_stand_is_counted_by_rows_and_findings(site: Path) -> None:
    """FUS01, FUS11 and SPL11 once each, PHO03 at 16 rows: 19 findings in 4 rows."""
    assert "19 findings in 4 rows let stand by AK and JT" in page(site, "index").text


def test_ground_points_on_the_first_page_are_those_of_the_sheet(site: Path) -> None:
    points = [point for n in range(1, 8) for point in rows(page(site, "grounds"), f"L{n}") if "rings" in point]
    assert len(points) == 7
    assert re.search(r"and what fails together ?7 points", page(site, "index").text)


def test_one_limit_with_the_key_off(site: Path) -> None:
    """20 mA, as the job hands a car over: on the readings, in what is expected, on the test sheet, in the record."""
    for name in ("readings", "record"):
        for reading in ("R7", "R15", "R16"):
            told = [row for row in rows(page(site, name), reading) if "isolator.1" in row]
            assert told
            assert all("20 mA" in row and "50 mA" not in row for row in told)
    assert re.search(r"At most ?20 mA", page(site, "tests").text)


def test_one_resistance_of_a_fuse(site: Path) -> None:
    """`fuse resistance: 5 mohm` is what the truck's drops count; the key-off table divides by the same."""
    for fuse in ("F2", "F3", "F11"):
        (row,) = [row for row in rows(page(site, "tests"), fuse) if "usual: fuse resistance" in row]
        assert "5.00 mΩ" in row
    assert "fuse F7 5.0 mΩ" in page(site, "readings").text


def test_a_check_shows_its_own_reading(site: Path) -> None:
    """By day and points: R3, R4, R5, R12, R14 and R16 are what C52 and the others asked for."""
    shown = {"C52": "R3", "C53": "R4", "C54": "R5", "C55": "R7", "C68": "R12", "C70": "R14", "C73": "R16"}
    for name in ("readings", "record"):
        for check, reading in shown.items():
            row = rows(page(site, name), check)[-1]
            own = row.partition("also read that day")[0]
            assert re.findall(r"\bR\d+\b", own) == [reading], (name, row)
        for check in ("C65", "C66"):
            assert "no figure recorded" in rows(page(site, name), check)[-1]


def test_f12_is_live_on_no_page_since_its_feed_was_taken_out(site: Path) -> None:
    for name in ("fuses", "record"):
        (row,) = [row for row in rows(page(site, name), "F12") if "battery" in row]
        assert "no, W90 was taken out by C71" in row
        assert "always" not in row


def test_the_main_fuse_tells_where_its_wire_leads(site: Path) -> None:
    """Seven fuses of the job's list are written as `fed from: fuse-box.bus`. On the test sheet it begins a sentence."""
    said = "ts wire leads to fuse-box.bus, written as the feed of F2, F3, F5, F10, F11, F13, F15"
    for name in ("fuses", "record", "tests"):
        assert any(said in row for row in rows(page(site, name), "F17")), name


def test_c27_is_told_as_done_again_wherever_it_is_listed(site: Path) -> None:
    for name in ("changes", "record"):
        assert "It was so, then it was done again. See C69" in page(site, name).text
    assert "C27" not in page(site, "worksheet").text


def test_the_start_relay_s_wire_is_told_on_its_page_and_in_the_record(site: Path) -> None:
    said = "start-relay.86: W144 to selector.6, C62 to selector.5, W143 to ignition.50"
    for name in ("circuits/start-relay-coil", "record"):
        assert said in page(site, name).text
    assert "W144 to selector.6" in page(site, "connectors").text


def test_b1_has_the_wires_that_the_splices_list(site: Path) -> None:
    assert "of the donor's wires only W11 is recorded in it; now also W12" in page(site, "not-examined").text
    assert any("W11" in row and "W12" in row for row in rows(page(site, "splices"), "B1"))


def test_the_reason_let_stand_on_w45_is_where_the_wire_lies(site: Path) -> None:
    """C35 lies 172 in from FS4, the next joint 181.8 in: 9.8 in apart, in the wet."""
    places = {
        row.split()[0]: row
        for row in (*rows(page(site, "splices"), "C35"), *rows(page(site, "splices"), "C23-W45-loom"))
    }
    assert "172 in" in places["C35"]
    assert "181.8 in" in places["C23-W45-loom"]
    assert all(" wet " in row for row in places.values())
    assert "ten inches from the next, in the wet like them" in page(site, "index").text


def test_no_page_of_the_truck_names_a_line_of_a_file(site: Path) -> None:
    for path in (site / "jobs" / "trail-truck").rglob("*.html"):
        assert not re.findall(r"\w+\.yml:\d+", read(path).first("main").text), path.name
