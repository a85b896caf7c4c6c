"""What two pages say of one fact is the same: findings, counts, states of rows, days, in the same words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from aswired.car.differences import differences
from aswired.figures.worked import JobResult
from aswired.ledger.record import State
from aswired.network.grid import Grid
from aswired.sheets import (
    changes,
    circuits,
    connectors,
    extensions,
    fuses,
    jobs,
    not_examined,
    overview,
    readings,
    record,
    splices,
    tests,
)
from aswired.sheets.changes import change_rows, state_counts
from aswired.sheets.differences import pair_of
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.open_work import open_work
from aswired.sheets.overview import latest
from aswired.sheets.readings import check_rows, reading_rows
from aswired.sheets.templates import environment, render
from aswired.site.theme import theme_dir
from tests.crawl.tree import Element, parse
from tests.demos import demo
from tests.findings.jobs import work

# One lamp: lengthened (C1), proved by a check (C2), a spare wire taken out but for its stub (C3), another put in and
# taken out again (C4, C5), a row that was a slip of the record (C6, C7), one planned (C8), one for another car (C9).
JOB = """
job: Lamp
supply: 12 V
body returns: no
handed over: 2031-05-20
options: {heater: {is: diesel, could be: [electric]}}
usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
battery off: [2031-05-02, 2031-05-03, 2031-05-04, 2031-05-05]
plugs: {lamp: {ways: 2}, horn: {ways: 2}, old: {ways: 4, gone: yes}}
fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 5 A, fed: ignition}}
loads: {lamp: {between: lamp.1 lamp.2, draws: 6 A, class: lamp}}
grounds:
  L1: {stud: M6, bolted to: rail, conducts: yes, surface: bare, cable: 10 mm2, cable length: 1 m, back to: battery-}
  G9: {gone: yes}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 8 m}
  W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
  W3: {colour: VT, size: 1.0 mm2, from: F2, to: old.1, length: 1 m}
  W4: {colour: GY, size: 1.0 mm2, from: old.2, to: old.3, length: 1 m}
changes:
  - {id: C1, kind: extend, wire: W1, plug: lamp, gap: 400 mm, pigtail: 100 mm, piece: GN 1.0 mm2,
     made: 2031-05-02 AK, sealed: 2031-05-02 AK}
  - {id: C2, kind: verify, proves: [C1], test: lamp on, expect: bright, made: 2031-05-06 JT}
  - {id: C3, kind: remove, wire: W3, ends: {F2: capped 30 mm, old.1: gone}, made: 2031-05-03 AK, sealed: 2031-05-03 AK}
  - {id: C4, kind: add, wire: W5, from: F2, to: horn.1, piece: RD 1.0 mm2, cut: 300 mm, made: 2031-05-03 AK}
  - {id: C5, kind: remove, wire: W5, ends: {F2: pulled, horn.1: pulled}, made: 2031-05-04 AK}
  - {id: C6, kind: remove, wire: W4, ends: {old.2: gone, old.3: pulled}, made: 2031-05-09 AK}
  - {id: C7, kind: remove, wire: W4, ends: {old.2: gone, old.3: gone}, corrects: C6, made: 2031-05-05 AK}
  - {id: C8, kind: add, wire: W6, from: F2, to: horn.1, piece: RD 1.0 mm2, cut: 500 mm}
  - {id: C9, kind: add, wire: W7, from: F2, to: horn.2, piece: RD 1.0 mm2, only if: heater is electric}
"""


@pytest.fixture(scope="module")
def lamp(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("lamp"), JOB)


def page(module: object, worked: JobResult, uri: str = "") -> Element:
    outs = module.pages(frame_of(worked, ShopFacts("shop")))  # type: ignore[attr-defined]
    (out,) = [out for out in outs if not uri or out.uri.endswith(uri)]
    return parse(render(environment(theme_dir()), out))


def told(element: Element) -> str:
    return element.first("main").text


def section(text: str, title: str, until: str) -> str:
    return text[text.index(title) : text.index(until)]


# ---- what stands against a car --------------------------------------------------------------------------------------
def test_the_record_tells_every_warning_that_the_overview_tells(lamp: JobResult) -> None:
    """12 V over 6 A and 8.4 m of 1.0 mm2: more than 3 %. No stop and no error."""
    warnings = [found for found in lamp.findings if found.severity.word == "warning"]
    assert any(found.code == "DRP01" for found in warnings)
    assert not lamp.standing
    first, paper = told(page(overview, lamp)), told(page(record, lamp))
    against = section(paper, "13 What stands against this car", "14 Later work")
    said = re.search(r"No stop and no error is open; \d+ warnings?[^.]*", first)
    assert said is not None
    assert said[0] in against
    assert said[0] in section(paper, "1 Before you touch it", "2 Deleted on purpose")
    assert "Nothing recorded" not in against
    for found in warnings:
        assert found.problem in against, found


def test_a_car_with_nothing_against_it_says_so_on_both(tmp_path: Path) -> None:
    clean = work(
        tmp_path, "job: Nothing\nchanges: [{id: C1, kind: cover, from: a, to: b, cover: tape, made: 2031-05-03 AK}]\n"
    )
    assert not clean.findings
    against = section(told(page(record, clean)), "13 What stands against this car", "14 Later work")
    assert against.strip() == "13 What stands against this car Nothing recorded."
    assert "What stands against it?Nothing recorded." in told(page(overview, clean))


# ---- counts ---------------------------------------------------------------------------------------------------------
def test_rows_are_counted_alike_on_overview_change_list_and_jobs_page(lamp: JobResult) -> None:
    """Nine rows; C6 was corrected and C9 is for another car: seven in force."""
    assert "9 rows, 7 in force" in told(page(overview, lamp))
    shown = page(changes, lamp)
    assert "Changes 9 rows, 7 in force, in the order of the change list." in told(shown)
    assert len(list(shown.all("article", class_="change"))) == 9
    assert jobs.summarise(lamp).changes == 7 == sum(item.count for item in state_counts(lamp))


def test_the_order_that_the_overview_promises_is_the_order_of_the_list(lamp: JobResult) -> None:
    promise = "in the order of the change list"
    first, shown = told(page(overview, lamp)), page(changes, lamp)
    assert f"every row, {promise}" in first
    assert promise in told(shown)
    assert [row.attributes["id"] for row in shown.all("article", class_="change")] == [
        row.id for row in lamp.job.changes
    ]


def test_ground_points_are_counted_as_the_sheet_lists_them(lamp: JobResult) -> None:
    assert "and what fails together1 point" in told(page(overview, lamp))  # G9 left the car


def test_pieces_are_put_in_once_they_are_made(lamp: JobResult) -> None:
    """C1 and C4 were put in, C4's wire came out again with C5; C8 is planned."""
    said = "3 pieces: 2 put in, 1 of them taken out again; 1 planned"
    assert said in told(page(overview, lamp))
    assert said in told(page(extensions, lamp))
    assert said in told(page(record, lamp))


def test_a_wire_whose_stub_is_in_the_car_was_not_taken_out(lamp: JobResult) -> None:
    """W5 and W4 are gone; of W3 a stub hangs on F2."""
    deleted = section(told(page(record, lamp)), "2 Deleted on purpose", "3 Fuses")
    assert "wire W5" in deleted
    assert "wire W4" in deleted
    assert "W3" not in deleted
    assert "Wires taken out 2" in told(page(overview, lamp))


def test_findings_let_stand_are_counted_with_the_rows_that_show_them(tmp_path: Path) -> None:
    accepted = "accepted: [{finding: PHO03, by: JT, why: no camera}]\n"
    many = JOB.replace(
        "wires:\n", "wires:\n  W8: {colour: GN, size: 1.0 mm2, from: F1, to: horn.2, length: 2 m}\n"
    ).replace(
        "  - {id: C2,",
        "  - {id: C10, kind: extend, wire: W8, plug: horn, gap: 400 mm, pigtail: 100 mm, piece: GN 1.0 mm2,\n"
        "     made: 2031-05-02 AK, sealed: 2031-05-02 AK}\n  - {id: C2,",
    )
    worked = work(tmp_path, many + accepted)
    assert sum(found.code == "PHO03" and bool(found.accepted_by) for found in worked.findings) == 2
    shown = page(overview, worked)
    assert "2 findings in 1 row let stand by JT" in told(shown)


def test_what_was_not_examined_is_counted_with_the_lines_that_list_it(tmp_path: Path) -> None:
    """Feed and return of the coil, and nothing else: two things on one line."""
    worked = work(tmp_path, RELAY)
    assert [thing.entry for thing in worked.not_examined if thing.subject == "circuits"] == ["coil", "coil"]
    assert "Circuits 2 on 1 line" in told(page(not_examined, worked))
    assert "circuits (2 on 1 line): coil:" in told(page(record, worked))


def test_connectors_and_modules_are_counted_as_the_sheet_lists_them(tmp_path: Path) -> None:
    worked = work(tmp_path, JOB.replace("fuses:", "modules: {unit: {out: {1: lamp}}}\nfuses:"))
    entries = [heading.text for heading in page(connectors, worked).all("h2")]
    assert [entry.split()[0] for entry in entries] == ["lamp", "horn", "old", "unit"]
    assert "3 connectors, 1 module" in told(page(overview, worked))


def test_wires_and_fuses_of_the_differences_stand_by_their_numbers(tmp_path: Path) -> None:
    """W2 before W10, F2 before F10."""
    more = JOB.replace("W4: {colour: GY", "W10: {colour: GY").replace("wire: W4", "wire: W10")
    more = more.replace("fuses: {F1:", "fuses: {F10: {rating: 10 A}, F1:")
    more += "  - {id: C10, kind: protect, fuse: F10, rating: 5 A, made: 2031-05-05 AK}\n"
    worked = work(tmp_path, more)
    pair = pair_of(differences(worked.donor, worked.plan), "mm")
    assert [row.wire for row in pair.wires] == ["W1", "W3", "W6", "W10"]
    assert [row.name for part in pair.parts if part.title == "Fuses" for row in part.rows] == ["F2", "F10"]


# ---- states and days ------------------------------------------------------------------------------------------------
def test_a_row_that_a_check_proves_is_tested_everywhere(lamp: JobResult) -> None:
    rows = {row.id: row for row in change_rows(lamp)}
    assert rows["C1"].state == "tested"
    assert [(step.name, step.value) for step in rows["C1"].steps][2:] == [
        ("tested", "6 May 2031, JT"),
        ("by check", "C2"),
    ]
    assert {item.state: item.count for item in state_counts(lamp)} == {
        "tested": 1,
        "sealed": 1,
        "made": 4,
        "planned": 1,
    }
    for module in (splices, extensions):
        row = next(row for row in page(module, lamp).all("tr") if "C1" in row.text.split()[0])
        assert "tested" in row.text
        assert "sealed" not in row.text
    assert "C1" not in [row.id for row in open_work(lamp).untested]


def test_the_last_day_of_work_is_one_on_the_job_and_in_the_shop(lamp: JobResult) -> None:
    """C6 was a slip of the record: nothing was done on the 9th. The check of the 6th is the last."""
    assert latest(lamp)[0].day == jobs.summarise(lamp).last_day == "6 May 2031"
    assert jobs.summarise(lamp).last_day_iso == "2031-05-06"


# ---- fuses ----------------------------------------------------------------------------------------------------------
# A radio by a fuse in line at the battery, both leads new (C1, C2); C3 takes the lead to the fuse away. F2 is let into
# the donor's main feed (C4), of which C5 takes out what led to it.
FUSED = """
job: Fused
supply: 12 V
body returns: no
plugs: {radio: {ways: 2}}
fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 80 A, fed: always}}
loads: {radio: {between: radio.1 radio.2, draws: 6 A, class: electronics}}
grounds: {L1: {stud: M6, conducts: yes, cable: 10 mm2, cable length: 1 m, back to: battery-}}
splices: {B1: {}}
wires:
  W0: {colour: RD, size: 16 mm2, from: battery+, to: B1, length: 200 mm}
  W2: {colour: BN, size: 2.5 mm2, from: radio.2, to: L1, length: 1 m}
  W3: {colour: RD, size: 16 mm2, from: B1, to: box.bus, length: 2 m}
changes:
  - {id: C1, kind: add, wire: W90, from: B1, to: F1.feed, piece: RD 2.5 mm2, cut: 200 mm, made: 2031-05-02 AK}
  - {id: C2, kind: add, wire: W91, from: F1, to: radio.1, piece: PK 2.5 mm2, cut: 900 mm, made: 2031-05-02 AK}
  - {id: C4, kind: protect, fuse: F2, rating: 80 A, wire: W3, end: B1, tail: 40 mm, made: 2031-05-03 AK}
"""
PULLED = FUSED + "  - {id: C3, kind: remove, wire: W90, ends: {B1: pulled, F1.feed: pulled}, made: 2031-05-04 AK}\n"
GONE = f"""{FUSED}
  - {{id: C5, kind: remove, wire: W3, ends: {{B1: pulled, F2.feed: pulled, F2: pulled, box.bus: pulled}},
     made: 2031-05-04 AK}}
"""


def fuse_row(worked: JobResult, module: object, name: str = "F1") -> str:
    return next(row.text for row in page(module, worked).all("tr") if row.text.split()[:1] == [name])


def test_a_fuse_whose_feed_was_taken_out_is_live_on_no_page_and_feeds_nothing(tmp_path: Path) -> None:
    before, after = work(tmp_path / "before", FUSED), work(tmp_path / "after", PULLED)
    assert before.circuits["radio"].feed.state == "complete"
    feed = after.circuits["radio"].feed
    assert (feed.state, feed.why) == ("open", "W90 was taken out by C3")
    assert [found.entry for found in after.findings if found.code == "LOD01"] == ["radio"]
    for module in (fuses, record):
        assert "always" in fuse_row(before, module)
        assert "no, W90 was taken out by C3" in fuse_row(after, module)
        assert "always" not in fuse_row(after, module)
    parts = pair_of(differences(after.donor, after.plan), "mm").parts
    (told_of,) = [row for part in parts if part.title == "Fuses" for row in part.rows if row.name == "F1"]
    assert "not fed, W90 was taken out by C3" in told_of.after


def test_a_fuse_let_into_a_wire_that_is_gone_is_not_live(tmp_path: Path) -> None:
    gone = work(tmp_path, GONE)
    assert "F2.feed" not in Grid(gone.job, gone.shown).sources
    assert "no, W3 was taken out by C5" in fuse_row(gone, fuses, "F2")


def test_a_main_fuse_tells_where_its_wire_leads_wherever_it_stands(tmp_path: Path) -> None:
    """No load is recorded behind box.bus, but the wire to it is; F3 is written as fed from there, or nothing is."""
    worked = work(tmp_path / "not written", FUSED)
    written = work(tmp_path / "written", FUSED.replace("fuses: {", "fuses: {F3: {rating: 5 A, fed from: box.bus}, "))
    for module in (fuses, record, tests):
        told = fuse_row(worked, module, "F2").lower()  # on the sheet of tests it begins a sentence
        assert "its wire leads to box.bus; what that feeds is not recorded" in told
        assert "its wire leads to box.bus, written as the feed of f3" in fuse_row(written, module, "F2").lower()


# ---- checks and readings --------------------------------------------------------------------------------------------
# C2 proves C1. R1 names the check. R2 is of the row it proves, on its day, at other points; R3 of the row, later.
READ = """
readings:
  - {id: R1, of: C2, red: lamp.1, black: lamp.2, with: on, loads on: lamp, read: 10.9 V, on: 2031-05-06}
  - {id: R2, of: C1, red: F1, black: lamp.1, with: on, read: 1.1 V, on: 2031-05-06}
  - {id: R3, of: C1, red: lamp.1, black: lamp.2, with: on, read: 3 V, on: 2031-05-30}
  - {id: R4, of: car, red: battery-, black: clamp, loads on: none, read: 12 mA, on: 2031-05-06}
"""


def check_row(shown: Element) -> str:
    """The row of C2 in the table of checks, the last that begins with it."""
    return [row.text for row in shown.all("tr") if row.text.startswith("C2") and "bright" in row.text][-1]


def test_a_check_shows_the_readings_that_name_it_and_those_of_its_day_apart(tmp_path: Path) -> None:
    worked = work(tmp_path, JOB + READ)
    (check,) = check_rows(worked)
    assert (check.readings, check.beside) == (("R1",), ("R2",))
    for module in (readings, record):
        row = check_row(page(module, worked))
        assert re.search(r"R1 ?also read that day: R2", row)
        assert "R3" not in row


def test_a_check_that_was_made_without_a_figure_says_so(lamp: JobResult) -> None:
    for module in (readings, record):
        row = check_row(page(module, lamp))
        assert "no figure recorded" in row
        assert "not measured" not in row


def test_a_reading_on_a_circuit_s_page_has_its_day_in_the_table_and_beside_the_path(tmp_path: Path) -> None:
    """Two readings of one point that contradict each other are told apart by their days."""
    twice = (
        READ
        + """\
  - {id: R5, of: lamp, red: L1, black: battery-, with: on, read: 0.4 V, on: 2031-05-06}
  - {id: R6, of: lamp, red: L1, black: battery-, with: on, read: 0.02 V, on: 2031-05-30}
"""
    )
    shown = page(circuits, work(tmp_path, JOB + twice), "lamp.html")
    for id, day in (("R5", "6 May 2031"), ("R6", "30 May 2031")):
        (row,) = [row.text for row in shown.first("section", id="read").all("tr") if row.text.startswith(id)]
        assert day in row
        assert any(f"{id}, {day}" in volt.text for volt in shown.all("div", class_="volt"))


def test_volts_over_a_load_are_not_called_a_drop(tmp_path: Path) -> None:
    lead = told(page(readings, work(tmp_path, JOB + READ)))
    assert "over a load what it gets" in lead
    assert "Volts are drops" not in lead


def test_the_limit_with_everything_off_is_one_on_readings_and_tests(tmp_path: Path) -> None:
    """20 mA set for the job: beside the reading, in what is expected, on the test sheet; the table's 50 mA nowhere."""
    worked = work(tmp_path, JOB + READ + "limits: {key-off draw: 0.02 A}\n")
    (row,) = [row for row in reading_rows(worked) if row.id == "R4"]
    assert row.limit == "20 mA beside what is live for good"
    assert row.figure is not None
    assert "0.02 A" in row.figure.note
    sheet = told(page(tests, worked))
    assert re.search(r"At most ?20 mA", sheet)
    assert "50 mA once" not in sheet


# ---- what is recorded of a thing ------------------------------------------------------------------------------------
# K3's coil: which end is fed cannot be told, but a wire leads on from one of them. B1 had one wire in the donor.
RELAY = """
job: Relay
supply: 12 V
plugs: {K3: {ways: 4}, lock: {}}
loads: {coil: {between: K3.86 K3.85, draws: 200 mA, class: coil, feed: not examined, return: not examined}}
splices: {B1: {}}
wires:
  W1: {colour: VT, size: 1.5 mm2, from: K3.86, to: lock.50, length: 900 mm}
  W2: {colour: RD, size: 16 mm2, from: B1, to: box.bus, length: 900 mm}
changes:
  - {id: C1, kind: add, wire: W3, from: battery+, to: B1, piece: RD 16 mm2, cut: 200 mm, made: 2031-05-02 AK}
"""


def test_a_wire_at_a_load_that_cannot_be_traced_is_told_on_its_page_and_in_the_record(tmp_path: Path) -> None:
    worked = work(tmp_path, RELAY)
    assert worked.circuits["coil"].feed.state == "not examined"
    said = "K3.86: W1 to lock.50"
    for shown in (page(circuits, worked, "coil.html"), page(record, worked)):
        assert f"On record at its ends: K3.85: no wire on record; {said}." in told(shown) or (
            f"On record at its ends: {said}; K3.85: no wire on record." in told(shown)
        )


def test_of_a_way_that_was_not_examined_no_page_says_that_nothing_shares_it(tmp_path: Path, lamp: JobResult) -> None:
    shown = told(page(circuits, work(tmp_path, RELAY), "coil.html"))
    assert "is shared with a recorded load" not in shown
    assert section(shown, "What else fails with it", "Path Read").count("not examined") == 2
    whole = told(page(circuits, lamp, "lamp.html"))
    assert whole.count("is shared with a recorded load") == 2  # both ways are on record, and it is alone on them


def test_a_splice_with_one_wire_of_the_donor_tells_what_came_to_it(tmp_path: Path) -> None:
    worked = work(tmp_path, RELAY)
    (thing,) = [thing for thing in worked.not_examined if thing.entry == "B1"]
    assert thing.what == "of the donor's wires only W2 is recorded in it; now also W3"
    assert {stretch.wire for stretch in worked.shown.at_node["B1"]} == {"W2", "W3"}


@pytest.mark.parametrize(
    "module", [overview, changes, extensions, fuses, readings, record, splices, not_examined, circuits], ids=str
)
def test_no_page_names_a_file_and_a_line(module: object, tmp_path: Path) -> None:
    worked = work(tmp_path, JOB + READ)
    assert worked.not_examined
    outs = list(module.pages(frame_of(worked, ShopFacts("shop"))))  # type: ignore[attr-defined]
    assert outs
    for out in outs:
        assert not re.findall(r"\w+\.yml:\d+", told(parse(render(environment(theme_dir()), out)))), out.uri


def test_a_fuse_that_a_person_lets_stand_says_so_beside_its_verdict() -> None:
    """The head counts W51 as let stand: F10, 15 A on a wire for 10 A, may not stand there as if nobody had."""
    worked = demo("trail-truck")
    for module in (fuses, record):
        shown = page(module, worked)
        (verdict,) = [cell.text for cell in shown.all("td") if "too big for the wire" in cell.text]
        assert verdict == "too big for the wire let stand by AK"
    assert worked.ledger.accounts["W51"].state is State.LET_STAND
