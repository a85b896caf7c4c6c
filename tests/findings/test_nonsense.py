"""What cannot be so counts on no page: days to come, checks of nothing, readings of no day, rings, ids twice."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets.changes import change_rows, state_counts
from aswired.sheets.jobs import summarise
from aswired.sheets.open_work import open_work
from aswired.sheets.overview import latest
from aswired.sheets.readings import check_rows, reading_rows
from aswired.sheets.record import record
from aswired.sheets.service import visits
from aswired.sheets.work_order import planned_rows
from tests.findings.jobs import work

JOB = """
    job: Nonsense
    supply: 12 V
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm}
    HEAD
    switches: {S1: {between: S1.1 S1.2}}
    fuses: {F1: {rating: 5 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 1 A}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm, special: fuel cut-off}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: S1.1, length: 900 mm}
      W3: {colour: BN, size: 1.0 mm2, from: S1.2, to: battery-, length: 900 mm}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2STEPS}
      MORE
"""
MADE = ", made: 2031-05-03 AK, sealed: 2031-05-03 AK"


def job(folder: Path, steps: str = MADE, *more: str, head: str = "", today: str = "2031-06-01") -> JobResult:
    text = JOB.replace("STEPS", steps).replace("HEAD", head).replace("MORE", "\n      ".join(more))
    return work(folder, text, datetime.date.fromisoformat(today))


def told(worked: JobResult, *codes: str) -> list[tuple[str, str]]:
    return [(found.code, found.entry) for found in worked.findings if found.code in codes]


def standing(worked: JobResult) -> dict[str, object]:
    """How far C1 got, as each page that tells it says it."""
    (row,) = (row for row in change_rows(worked) if row.id == "C1")
    return {
        "change list": row.state,
        "splices": {placed.state for placed in worked.joints},
        "counts": {count.state: count.count for count in state_counts(worked)},
        "jobs": (summarise(worked).states, summarise(worked).stands_at),
        "open": [item.id for item in open_work(worked).untested],
        "unsealed": [item.id for item in open_work(worked).unsealed],
        "planned": [change.id for change in planned_rows(worked)],
        "last days": [line.step for day in latest(worked) for line in day.done],
        "not proved": [entry for _, entry in told(worked, "SPC09")],
    }


SEALED = {
    "change list": "sealed",
    "splices": {"sealed"},
    "counts": {"sealed": 1},
    "jobs": ("1 sealed", "sealed"),
    "open": ["C1"],
    "unsealed": [],
    "planned": [],
    "last days": ["made, sealed"],
    "not proved": ["C1"],
}
TESTED = SEALED | {
    "change list": "tested",
    "splices": {"tested"},
    "counts": {"tested": 1},
    "jobs": ("1 tested", "tested"),
    "open": [],
    "last days": ["made, sealed, tested"],
    "not proved": [],
}


# ---- days that cannot be --------------------------------------------------------------------------------------------
def test_a_test_of_a_day_that_can_be_counts_on_every_page(tmp_path: Path) -> None:
    assert standing(job(tmp_path, MADE + ", tested: 2031-05-03 AK")) == TESTED


@pytest.mark.parametrize(
    ("tested", "code"),
    [("2031-06-02 AK", "ROW14"), ("9999-12-31", "ROW14"), ("1899-12-31 AK", "ROW14"), ("2031-05-02 AK", "ROW08")],
)
def test_a_test_of_a_day_that_cannot_be_counts_on_no_page(tested: str, code: str, tmp_path: Path) -> None:
    worked = job(tmp_path, f"{MADE}, tested: {tested}")
    assert standing(worked) == SEALED
    assert told(worked, "ROW08", "ROW12", "ROW14") == [(code, "C1")]
    # what was written is not lost
    (row,) = change_rows(worked)
    (step,) = (step for step in row.steps if step.name == "tested")
    assert step.value == f"{tested}, not counted"


def test_a_test_of_tomorrow_counts_from_tomorrow_on(tmp_path: Path) -> None:
    steps = MADE + ", tested: 2031-05-20 AK"
    assert standing(job(tmp_path / "before", steps, today="2031-05-19")) == SEALED
    day = standing(job(tmp_path / "after", steps, today="2031-05-20"))
    assert (day["change list"], day["open"], day["not proved"]) == ("tested", [], [])


def test_a_seal_of_a_day_to_come_is_still_open(tmp_path: Path) -> None:
    worked = job(tmp_path, ", made: 2031-05-03 AK, sealed: 2131-05-03 AK")
    assert (standing(worked)["change list"], standing(worked)["unsealed"]) == ("made", ["C1"])


def test_work_of_a_day_to_come_is_planned_with_all_that_rests_on_it(tmp_path: Path) -> None:
    worked = job(tmp_path, ", made: 2131-05-03 AK, sealed: 2131-05-03 AK, tested: 2031-05-04 AK")
    assert standing(worked)["change list"] == "planned"
    assert standing(worked)["planned"] == ["C1"]
    assert told(worked, "ROW08", "ROW12") == [("ROW12", "C1")]
    assert worked.shown.name == "plan"


def test_work_of_before_1900_is_done_on_a_day_that_is_not_known(tmp_path: Path) -> None:
    worked = job(tmp_path, ", made: 0203-05-03 AK, sealed: 2031-05-03 AK, tested: 2031-05-04 AK")
    assert standing(worked)["change list"] == "tested"
    assert "C1" in worked.now.counted
    assert told(worked, "ROW08", "ROW09", "ROW12", "ROW14") == [("ROW14", "C1")]


def test_a_slip_in_one_year_takes_no_other_row_out(tmp_path: Path) -> None:
    more = "- {id: C2, kind: cap, wire: W3, end: S1.2, stub: 40 mm, far: gone, made: yes}"
    worked = job(tmp_path, ", made: 2131-05-03 AK", more)
    assert worked.now.counted == {"C2"}


@pytest.mark.parametrize("day", ["2131-05-03", "0031-05-03"])
def test_a_hand_over_on_a_day_that_cannot_be_is_none(day: str, tmp_path: Path) -> None:
    worked = job(tmp_path, head=f"handed over: {day}")
    assert worked.handed_over is None
    assert told(worked, "PRO03") == []  # nothing is asked for that only a car that left has to have
    plate = {fact.name: fact.value for fact in record(worked).plate}
    assert plate["Handed over"] == f"not yet ({day}, not counted)"
    assert summarise(worked).handed_over == plate["Handed over"]


def test_a_visit_keeps_the_day_that_is_written(tmp_path: Path) -> None:
    head = "service: [{id: S1, on: 2131-05-03 AK, complaint: lamp dead}]"
    (visit,) = visits(job(tmp_path, head=head))
    assert (visit.day, visit.by) == ("2131-05-03, not counted", "AK")


# ---- readings -------------------------------------------------------------------------------------------------------
def read(day: str, says: str, more: str = "") -> str:
    return f"readings: [{{id: R1, red: S1.1, black: S1.2, on: {day}, {says}}}{more}]"


@pytest.mark.parametrize(("day", "counts"), [("2031-05-04", True), ("2031-06-02", False), ("1031-05-04", False)])
def test_a_reading_of_a_day_that_cannot_be_counts_in_no_figure_and_proves_nothing(
    day: str, counts: bool, tmp_path: Path
) -> None:
    worked = job(tmp_path, head="handed over: 2031-05-30\n    " + read(day, "of: C1, read: 0.4 ohm, limit: 1 ohm"))
    (row,) = reading_rows(worked)
    assert (row.verdict, bool(row.used)) == ("within" if counts else "not judged", counts)
    assert told(worked, "PRO03", "RDG10") == ([] if counts else [("PRO03", ""), ("RDG10", "R1")])
    assert row.day == ("4 May 2031" if counts else f"{day}, not counted")


@pytest.mark.parametrize(("day", "rank"), [("2031-05-10", "note"), ("2131-05-10", "error")])
def test_a_reading_of_a_day_to_come_mends_none(day: str, rank: str, tmp_path: Path) -> None:
    again = f", {{id: R2, red: S1.1, black: S1.2, on: {day}, read: 0.1 V}}"
    worked = job(tmp_path, head=read("2031-05-04", "read: 0.4 V, limit: 0.3 V", again))
    assert [found.severity.word for found in worked.findings if found.code == "RDG01"] == [rank]


@pytest.mark.parametrize("limit", ["limit: -0.2 V", "at least: -0.2 V"])
def test_a_limit_below_zero_judges_nothing(limit: str, tmp_path: Path) -> None:
    worked = job(tmp_path, head=read("2031-05-04", f"read: -0.4 V, {limit}"))
    (row,) = reading_rows(worked)
    assert row.verdict == "not judged"
    assert told(worked, "RDG01", "RDG11") == [("RDG11", "R1")]
    (found,) = (found for found in worked.findings if found.code == "RDG11")
    assert found.mend == f"Write {limit.replace('-', '')}, or take the line out"


# ---- checks ---------------------------------------------------------------------------------------------------------
PROVED = SEALED | {"open": [], "not proved": []}


@pytest.mark.parametrize(
    ("check", "code"),
    [
        ("{proves: [C1]", ""),
        ("{proves: [C1], test: tug, expect: unknown", ""),
        ("{proves: [C1, C2]", "TST01"),  # what else it names counts
        ("{proves: [C1], expect: not measured, dead without: [F1]", ""),
        ("{proves: [C2]", "TST01"),
        ("{proves: [C1], test: not measured", "TST02"),
        ("{proves: [C1], expect: '?'", "TST02"),
        ("{proves: [C1], test: unknown, expect: not known", "TST02"),
    ],
)
def test_a_check_counts_only_where_it_shows_something(check: str, code: str, tmp_path: Path) -> None:
    worked = job(tmp_path, MADE, f"- {check}, id: C2, kind: verify, made: 2031-05-10 AK}}")
    counts = "C1" in check and code in ("", "TST01")
    wanted = PROVED if counts else SEALED
    found = standing(worked)
    assert (found["open"], found["not proved"]) == (wanted["open"], wanted["not proved"])
    assert told(worked, "TST01", "TST02", "TST03") == ([(code, "C2")] if code else [])
    assert bool(check_rows(worked)[0].void) is bool(code)


@pytest.mark.parametrize(
    ("reads", "code"),
    [
        (("read: 0.1 V",), ""),
        (("read: not measured",), "TST02"),
        (("read: not measured", "read: 0.1 V"), ""),
        (("read: 0.1 V, black: lmap.1",), "TST02"),
        (("read: 0.1 V, black: lmap.1", "read: 0.1 V, black: battery-"), ""),
        (("read: 0.1 V, on: 2131-05-10",), "TST02"),
    ],
)
def test_the_readings_of_a_check_are_what_it_shows(reads: tuple[str, ...], code: str, tmp_path: Path) -> None:
    each = (f"{{id: R{number}, of: C2, {says}}}" for number, says in enumerate(reads, 1))
    check = "- {id: C2, kind: verify, proves: [C1], test: volts over the lamp, made: 2031-05-10 AK}"
    worked = job(tmp_path, MADE, check, head=f"readings: [{', '.join(each)}]")
    assert standing(worked)["open"] == (["C1"] if code else [])
    assert told(worked, "TST02") == ([(code, "C2")] if code else [])


@pytest.mark.parametrize(
    ("check", "code", "counts"),
    [("2031-05-03", "", True), ("2031-05-02", "TST03", False), ("2131-05-03", "ROW12", False), ("yes", "", True)],
)
def test_a_check_of_before_the_work_or_of_a_day_to_come_proves_nothing(
    check: str, code: str, counts: bool, tmp_path: Path
) -> None:
    worked = job(tmp_path, MADE, f"- {{id: C2, kind: verify, proves: [C1], made: {check}}}")
    assert standing(worked)["open"] == ([] if counts else ["C1"])
    assert standing(worked)["not proved"] == ([] if counts else ["C1"])
    assert told(worked, "TST03", "ROW12") == ([(code, "C2")] if code else [])


@pytest.mark.parametrize(("test", "proved"), [("tug", True), ("not measured", False)])
def test_the_wire_of_a_check_that_shows_nothing_is_not_proved_either(test: str, proved: bool, tmp_path: Path) -> None:
    check = f"- {{id: C2, kind: verify, proves: [C3], wire: W1, test: {test}, made: 2031-05-10 AK}}"
    wrap = "- {id: C3, kind: cover, cover: cloth tape, made: 2031-05-09 AK}"
    assert told(job(tmp_path, MADE, check, wrap), "PRO03") == ([] if proved else [("PRO03", "")])


def test_what_a_planned_check_will_show_is_not_asked(tmp_path: Path) -> None:
    worked = job(tmp_path, MADE, "- {id: C2, kind: verify, proves: [C1], test: unknown}")
    assert told(worked, "TST01", "TST02", "TST03") == []
    assert standing(worked)["open"] == ["C1"]


def test_a_check_that_was_written_down_wrong_is_told_of_no_more(tmp_path: Path) -> None:
    rows = [f"- {{id: C{n}, kind: verify, proves: [C{of}], made: 2031-05-10 AK{more}}}" for n, of, more in
            ((2, 2, ""), (3, 1, ", corrects: C2"))]  # fmt: skip
    worked = job(tmp_path, MADE, *rows)
    assert told(worked, "TST01") == []
    assert standing(worked)["open"] == []


def test_checks_that_prove_each_other_are_told_on_each_of_them(tmp_path: Path) -> None:
    names = {"C2": "[C3]", "C3": "[C4, C1]", "C4": "[C2]", "C5": "[C4]"}
    rows = [f"- {{id: {id}, kind: verify, proves: {of}, made: 2031-05-10 AK}}" for id, of in names.items()]
    worked = job(tmp_path, MADE, *rows)
    assert told(worked, "TST01") == [("TST01", "C2"), ("TST01", "C3"), ("TST01", "C4")]
    assert standing(worked)["open"] == []  # C3 proves C1 by itself


# ---- rows that lead back to themselves ------------------------------------------------------------------------------
@pytest.mark.parametrize("keys", [("corrects", "corrects"), ("corrects", "redoes"), ("redoes", "corrects")])
def test_two_rows_that_point_to_each_other_are_both_told(keys: tuple[str, str], tmp_path: Path) -> None:
    cap = "kind: cap, wire: W3, end: S1.2, stub: 40 mm, far: gone"
    rows = [f"- {{id: C2, {cap}, {keys[0]}: C3{MADE}}}", f"- {{id: C3, {cap}, {keys[1]}: C2{MADE}}}"]
    worked = job(tmp_path, MADE, *rows)
    found = {found.entry: found.problem for found in worked.findings if found.code == "ROW10"}
    assert found == {"C2": "'C2' and 'C3' point to each other", "C3": "'C3' and 'C2' point to each other"}
    assert {row.id: row.status for row in worked.now.rows} == {"C1": "in force", "C2": "refused", "C3": "refused"}


def test_a_longer_ring_is_told_on_every_row_of_it_and_on_no_other(tmp_path: Path) -> None:
    cap = "kind: cap, wire: W3, end: S1.2, stub: 40 mm, far: gone"
    rows = [
        f"- {{id: C2, {cap}, corrects: C4{MADE}}}",
        f"- {{id: C3, {cap}, redoes: C2{MADE}}}",
        f"- {{id: C4, {cap}, corrects: C3}}",  # planned: the ring is one all the same
        f"- {{id: C5, {cap}, corrects: C1{MADE}}}",
    ]
    worked = job(tmp_path, MADE, *rows)
    assert {found.entry: found.problem for found in worked.findings if found.code == "ROW10"} == {
        "C2": "'C2' leads back to itself by way of 'C3', 'C4'",
        "C3": "'C3' leads back to itself by way of 'C2', 'C4'",
        "C4": "'C4' leads back to itself by way of 'C2', 'C3'",
    }
    assert told(worked, "ROW13") == []  # that the correction is only planned follows from the ring


# ---- ids that stand for two things ----------------------------------------------------------------------------------
def test_a_row_with_the_id_of_another_is_counted_nowhere(tmp_path: Path) -> None:
    twice = "- {id: C1, kind: cap, wire: W3, end: S1.2, stub: 40 mm, far: gone, made: 2031-05-03 AK}"
    worked = job(tmp_path, MADE + ", tested: 2031-05-03 AK", twice)
    assert told(worked, "ROW05") == [("ROW05", "C1")]
    found = standing_of_counts(worked)
    assert found == ({"tested": 1}, [], [], ["made, sealed, tested"])
    assert [(row.counts, row.status) for row in change_rows(worked)] == [
        (True, ""),
        (False, "Left out: a row above bears its id."),
    ]


WRAP = """
    job: Twice
    route: [{from: nose, to: tail, length: 2 m}]
    landmarks: {nose: front, tail: rear}
    plugs: {lamp: {ways: 4, solder: not allowed}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: bag.1, length: 1 m, special: restraint}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
    changes:
      - {id: C1, kind: extend, wire: W2, plug: lamp, gap: 400 mm, piece: BN 1.0 mm2, made: 2031-05-03 AK}
      - {id: ID, REST}
"""


@pytest.mark.parametrize(
    ("code", "rest"),
    [
        ("MAT01", "kind: add, wire: W9, from: F3, to: lamp.3, piece: RD 1.0 mm2, conductor: aluminium"),
        ("TRM01", "kind: add, wire: W9, from: F3, to: lamp.3, piece: RD 1.0 mm2, terminal fixed: soldered"),
        ("OPT01", "kind: bridge, wire: W9, ends: [F4, F5], interlock: park or neutral, made: 2031-05-03 AK"),
        ("PLC06", "kind: cover, cover: cloth tape, from: 300 mm past nose, to: tail"),
        ("SPC01", "kind: cap, wire: W1, end: bag.1, stub: 40 mm, far: gone"),
    ],
)
def test_a_row_with_the_id_of_another_is_judged_in_nothing(code: str, rest: str, tmp_path: Path) -> None:
    text = WRAP.replace("REST", rest)
    assert told(work(tmp_path, text.replace("ID", "C2")), code) == [(code, "C2")]
    assert told(work(tmp_path, text.replace("ID", "C1")), code) == []


def test_a_wrap_and_a_swap_with_the_id_of_another_row_are_in_no_list(tmp_path: Path) -> None:
    for number, (id, there) in enumerate((("C2", 1), ("C1", 0))):
        wrap = work(tmp_path / f"wrap {number}", WRAP.replace("ID", id).replace("REST", "kind: cover, cover: conduit"))
        assert len(wrap.bundles.wraps) == there
        swapped = "kind: swap, plug: lamp, new plug: lamp-b, cavities: {1: 1, 2: 2}, seen from: unknown"
        swap = work(tmp_path / f"swap {number}", WRAP.replace("ID", id).replace("REST", swapped))
        assert [what.entry for what in swap.not_examined if what.subject == "changes"] == ["C2"] * there


def standing_of_counts(worked: JobResult) -> tuple[dict[str, int], list[str], list[str], list[str]]:
    open_ = open_work(worked)
    return (
        {count.state: count.count for count in state_counts(worked)},
        [row.id for row in open_.unsealed],
        [row.id for row in open_.untested],
        [line.step for day in latest(worked) for line in day.done],
    )


# ---- findings let stand ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("accepted", "wanted", "mend"),
    [
        ("{finding: PHO03, of: C1, by: AK, why: seen}", [], ""),
        ("{finding: PHO93, of: C1, by: AK, why: seen}", [("ACC01", "C1")], "Did you mean PHO03?"),
        ("{finding: pho03, by: AK, why: seen}", [("ACC01", "")], "Write PHO03"),
        ("{finding: YML01, by: AK, why: seen}", [("ACC01", "")], "Take the line out"),
        ("{finding: PHO03, of: lampp, by: AK, why: seen}", [("REF02", "lampp")], "Did you mean lamp?"),
        (
            "{finding: PHO03, of: W3, by: AK, why: seen}",
            [("ACC02", "W3")],
            "Take the line out, or write the id at which the finding stands",
        ),
    ],
)
def test_what_is_let_stand_is_a_finding_that_occurs_there(
    accepted: str, wanted: list[tuple[str, str]], mend: str, tmp_path: Path
) -> None:
    worked = job(tmp_path, MADE, head=f"accepted: [{accepted}]")
    assert told(worked, "ACC01", "ACC02", "REF02") == wanted
    assert [found.mend for found in worked.findings if (found.code, found.entry) in wanted] == [mend] * len(wanted)
    (picture,) = (found for found in worked.findings if found.code == "PHO03")
    assert picture.accepted_by == ("" if wanted else "AK")
