"""Which rows count in which view and why, in what order they are done, and what is told of dates and of pointers."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from aswired.car.asbuilt import fold
from aswired.car.harness import View
from aswired.files import read_job
from aswired.record import Job

HEAD = """job: Van
options: {heater: {is: diesel, could be: [petrol]}, gearbox: {is: unknown, could be: [manual, automatic]}}
fuses: {F1: {rating: 5 A}}
wires:
"""
WIRES = "".join(
    f"  W{number}: {{colour: RD, size: 1 mm2, from: F1, to: a.{number}, length: 1000 mm}}\n" for number in range(1, 13)
)


def job_of(folder: Path, *rows: str) -> Job:
    text = HEAD + WIRES + "changes:\n" + "".join(f"  - {{{row}}}\n" for row in rows)
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return read.job


def cap(id: str, wire: int, stub: int, more: str) -> str:
    return f"id: {id}, kind: cap, wire: W{wire}, end: a.{wire}, stub: {stub} mm, {more}"


def on(day: int) -> datetime.date:
    return datetime.date(2031, 5, day)


ROWS = (
    cap("C0", 12, 90, "made: yes"),  # before the first day: nobody knows when
    cap("C1", 1, 90, "made: 2031-05-03 AK"),
    cap("C2", 2, 90, "made: yes"),  # at the earliest with C1
    cap("C3", 3, 90, "made: 2031-05-05 AK"),
    cap("C4", 4, 90, "why: planned"),
    cap("C5", 5, 90, "only if: heater is diesel, made: 2031-05-06"),
    cap("C6", 6, 90, "only if: heater is petrol"),
    cap("C7", 7, 90, "only if: gearbox is manual, made: 2031-05-06"),
    cap("C8", 8, 90, "only if: radio is new"),
    cap("C9", 3, 70, "corrects: C3, made: 2031-05-05"),
    cap("C10", 1, 60, "redoes: C1, made: 2031-05-10"),
    cap("C11", 11, 90, "made: yes"),
    cap("C12", 10, 90, "only if: heater is diesal"),
    cap("C13", 9, 90, "only if: heater is not diesel"),
)
ALWAYS = {
    "C6": ("not for this car", "only if heater is petrol"),
    "C7": ("undecided", "only if gearbox is manual, and the option is not known"),
    "C8": ("refused", "its condition names an option or value that is not declared"),
    "C12": ("refused", "its condition names an option or value that is not declared"),
    "C13": ("not for this car", "only if heater is not diesel"),
}
NOT_NOTED = ("in force", "date not noted")
IN = ("in force", "")
PLANNED = ("not yet", "planned")


@pytest.mark.parametrize(
    ("view", "day", "became"),
    [
        ("donor", None, dict.fromkeys(("C0", "C1", "C2", "C3", "C4", "C5", "C9", "C10", "C11"), ("not yet", "donor"))),
        ("plan", None, {
            "C0": IN, "C1": ("redone", "done again as C10"), "C2": IN,
            "C3": ("corrected", "the record was wrong; C9 stands for it"), "C4": IN, "C5": IN, "C9": IN, "C10": IN,
            "C11": IN,
        }),
        ("now", on(2), {
            "C0": NOT_NOTED, "C1": ("not yet", "made 2031-05-03"), "C2": ("not yet", "made 2031-05-03"),
            "C3": ("not yet", "made 2031-05-05"), "C4": PLANNED, "C5": ("not yet", "made 2031-05-06"),
            "C9": ("not yet", "made 2031-05-05"), "C10": ("not yet", "made 2031-05-10"),
            "C11": ("not yet", "made 2031-05-10"),
        }),
        ("now", on(3), {
            "C0": NOT_NOTED, "C1": IN, "C2": NOT_NOTED, "C3": ("not yet", "made 2031-05-05"), "C4": PLANNED,
            "C5": ("not yet", "made 2031-05-06"), "C9": ("not yet", "made 2031-05-05"),
            "C10": ("not yet", "made 2031-05-10"), "C11": ("not yet", "made 2031-05-10"),
        }),
        ("handed over", on(9), {
            "C0": NOT_NOTED, "C1": IN, "C2": NOT_NOTED, "C3": ("corrected", "the record was wrong; C9 stands for it"),
            "C4": PLANNED, "C5": IN, "C9": IN, "C10": ("not yet", "made 2031-05-10"),
            "C11": ("not yet", "made 2031-05-10"),
        }),
        ("now", on(10), {
            "C0": NOT_NOTED, "C1": ("redone", "done again as C10"), "C2": NOT_NOTED,
            "C3": ("corrected", "the record was wrong; C9 stands for it"), "C4": PLANNED, "C5": IN, "C9": IN,
            "C10": IN, "C11": NOT_NOTED,
        }),
    ],
)  # fmt: skip
def test_a_row_counts_from_its_day_on_for_its_car(
    view: str, day: datetime.date | None, became: dict[str, tuple[str, str]], tmp_path: Path
) -> None:
    folded = fold(job_of(tmp_path, *ROWS), view, day)
    assert {row.id: (row.status, row.why) for row in folded.rows} == became | ALWAYS
    assert (folded.name, folded.day) == (view, day)
    by = {row.id: row.by for row in folded.rows if row.by}
    assert by == {
        id: {"C1": "C10", "C3": "C9"}[id] for id, (status, _) in became.items() if status in ("redone", "corrected")
    }
    # what is done is done in the order of the file, a correction in the place of what it corrects
    done = [id for id, (status, _) in became.items() if status == "in force"]
    if "C9" in done:
        done.remove("C9")
        done.insert(done.index("C2") + 1, "C9")
    assert [line.row for line in folded.conductor_account if line.row in became] == done
    assert folded.counted == set(done)


def test_the_stub_is_that_of_the_row_that_counts(tmp_path: Path) -> None:
    job = job_of(tmp_path, *ROWS)

    def stub(view: View, wire: int) -> float | None:
        return next(s.length_mm for s in view.of_wire(f"W{wire}") if f"a.{wire}" in s.ends)

    assert [stub(fold(job, "now", on(day)), 1) for day in (2, 3, 9, 10)] == [1000, 90, 90, 60]
    assert [stub(fold(job, "now", on(day)), 3) for day in (4, 5)] == [1000, 70]


# ---- what is told ---------------------------------------------------------------------------------------------------
def told(view: View) -> list[tuple[str, str, str, str, str]]:
    return [(f.severity.word, f.code, f.entry, f.problem, f.mend) for f in view.findings]


ORDER = "Put the rows in the order of the work, or check the date"
RIGHT = "None needed if the order is right"


@pytest.mark.parametrize(
    ("rows", "findings"),
    [
        # the same wire: an error, once; another wire: a note; the row above counts, be it of another wire
        ((cap("C1", 1, 90, "made: 2031-05-05"), cap("C2", 2, 90, "made: 2031-05-07"),
          "id: C3, kind: reroute, wire: W1, by: [x], only if: heater is petrol, made: 2031-05-04",
          cap("C4", 3, 90, "made: 2031-05-04")),
         [("error", "ROW06", "C3", "the row is made, but not for this car (heater is petrol)",
           "Check the option, or take 'made:' out"),
          ("error", "ROW09", "C3", "made 2031-05-04 on W1, but C1 above it was made 2031-05-05", ORDER)]),
        ((cap("C1", 1, 90, "made: 2031-05-05"), cap("C2", 2, 90, "made: 2031-05-04"),
          cap("C3", 3, 90, "made: 2031-05-04"), cap("C4", 4, 90, "made: yes"), cap("C5", 5, 90, "made: 2031-05-03")),
         [("note", "ROW09", "C2", "made 2031-05-04, but C1 above it was made 2031-05-05", RIGHT),
          ("note", "ROW09", "C5", "made 2031-05-03, but C3 above it was made 2031-05-04", RIGHT)]),
        # several wires: each is held to the last row of its own
        ((cap("C1", 1, 90, "made: 2031-05-05"), cap("C2", 2, 90, "made: 2031-05-06"),
          "id: C3, kind: remove, wires: {W2: {F1: pulled}, W1: {F1: pulled}}, made: 2031-05-05"),
         [("error", "ROW09", "C3", "made 2031-05-05 on W2, but C2 above it was made 2031-05-06", ORDER)]),
        # a correction stands where the corrected row stood
        ((cap("C1", 1, 90, "made: 2031-05-03"), cap("C2", 2, 90, "made: 2031-05-05"),
          cap("C3", 1, 80, "corrects: C1, made: 2031-05-03")), []),
        ((cap("C1", 1, 90, "made: 2031-05-03"), cap("C1", 2, 90, "made: 2031-05-05")),
         [("error", "ROW05", "C1", "the id 'C1' is used twice; the first is in job.yml:18",
           "Give this row the next free id; it is left out until then")]),
        ((cap("C8", 8, 90, "only if: heatr is diesel"), cap("C9", 9, 90, "only if: heater is petral"),
          cap("C10", 10, 90, "only if: radio is new"), cap("C11", 11, 90, "only if: heater is electric")),
         [("error", "ROW07", "C8", "the option 'heatr' is not declared", "Did you mean heater?"),
          ("error", "ROW07", "C9", "the option 'heater' knows no value 'petral'", "Did you mean petrol?"),
          ("error", "ROW07", "C10", "the option 'radio' is not declared", "Declare it: options: {radio: new}"),
          ("error", "ROW07", "C11", "the option 'heater' knows no value 'electric'", "Add it: could be: [electric]")]),
    ],
)  # fmt: skip
def test_what_is_told_of_days_conditions_and_ids(
    rows: tuple[str, ...], findings: list[tuple[str, str, str, str, str]], tmp_path: Path
) -> None:
    assert told(fold(job_of(tmp_path, *rows), "plan")) == findings


@pytest.mark.parametrize(("has", "counted"), [("yes", {"C1"}), ("no", {"C2"})])
def test_what_a_car_has_or_has_not_takes_both_words_whichever_is_written(
    has: str, counted: set[str], tmp_path: Path
) -> None:
    (tmp_path / "job.yml").write_text(
        f"job: Hitch\noptions: {{tow bar: {has}}}\nfuses: {{F1: {{fed: always}}}}\n"
        "wires: {W1: {from: F1, to: socket.1}, W2: {from: F1, to: lamp.1}}\nchanges:\n"
        "  - {id: C1, kind: remove, wire: W1, only if: tow bar is yes}\n"
        "  - {id: C2, kind: remove, wire: W2, only if: tow bar is no}\n",
        encoding="utf-8",
    )
    job = read_job(tmp_path).job
    assert job is not None
    plan = fold(job, "plan")
    assert {row.id for row in plan.rows if row.counts} == counted
    assert told(plan) == []  # neither row names a value that is not known


POINT = "Name the row it stands for"
LATER = "Let the later row point to the earlier one only"


@pytest.mark.parametrize(
    ("pointers", "findings"),
    [
        # three and more that lead round: each is told with the others
        ({"C1": "corrects: C2", "C2": "corrects: C1"},
         {"C1": ("'C1' and 'C2' point to each other", LATER), "C2": ("'C2' and 'C1' point to each other", LATER)}),
        ({"C1": "corrects: C3", "C2": "corrects: C1", "C3": "redoes: C2"},
         {"C1": ("'C1' leads back to itself by way of 'C2', 'C3'", LATER),
          "C2": ("'C2' leads back to itself by way of 'C1', 'C3'", LATER),
          "C3": ("'C3' leads back to itself by way of 'C1', 'C2'", LATER)}),
        ({"C1": "note: n", "C2": "redoes: C2"}, {"C2": ("the row redoes itself", POINT)}),
        ({"C1": "note: n", "C2": "corrects: C2"}, {"C2": ("the row corrects itself", POINT)}),
        ({"C1": "note: n", "C2": "corrects: C1", "C3": "corrects: C1"},
         {"C3": ("'C1' is corrected by C2 already", "Let this row point to C2")}),
        ({"C1": "note: n", "C2": "redoes: C1", "C3": "redoes: C1"},
         {"C3": ("'C1' is redone by C2 already", "Let this row point to C2")}),
        ({"C1": "redoes: C2", "C2": "note: n"},
         {"C1": ("'C2' stands below this row, so it was not there to be done again", "Put this row behind C2")}),
        ({"C1": "corrects: C2", "C2": "note: n"}, {}),
        ({"C1": "note: n", "C2": "corrects: X7"}, {"C2": ("'X7' is not a row of this job", POINT)}),
        ({"C14": "note: n", "C2": "redoes: C41"},
         {"C2": ("'C41' is not a row of this job", "Did you mean C14?")}),
    ],
)  # fmt: skip
def test_what_is_told_of_rows_that_point_to_others(
    pointers: dict[str, str], findings: dict[str, tuple[str, str]], tmp_path: Path
) -> None:
    rows = [f"id: {id}, kind: verify, proves: [C1], {more}, made: 2031-05-03" for id, more in pointers.items()]
    view = fold(job_of(tmp_path, *rows), "plan")
    assert {f.entry: (f.problem, f.mend) for f in view.findings} == findings
    assert {f.severity.word for f in view.findings} <= {"error"}
    assert {f.code for f in view.findings} <= {"ROW10"}
    for f in view.findings:
        key = pointers[f.entry].partition(":")[0]
        assert f"{key}: " in f.at.text
        assert f.at.text.strip().startswith(f"- {{id: {f.entry},")
    assert {row.id for row in view.rows if row.status == "refused"} == set(findings)


def test_a_correction_that_is_only_planned_corrects_nothing_yet(tmp_path: Path) -> None:
    rows = (
        cap("C1", 1, 90, "made: 2031-05-03"),
        cap("C2", 2, 90, "note: planned"),
        cap("C3", 1, 80, "corrects: C1"),
        cap("C4", 2, 80, "corrects: C2"),
    )
    job = job_of(tmp_path, *rows)
    assert told(fold(job, "now", on(9))) == [
        ("warning", "ROW13", "C3", "the row corrects C1, but has no 'made:'; C1 still counts", "Write made: as on C1")
    ]
    assert told(fold(job, "plan")) == []


def test_what_rests_on_a_refused_row_is_not_judged_and_names_the_first_of_several(tmp_path: Path) -> None:
    rows = (
        cap("C1", 1, 2000, "note: too long"),
        "id: C2, kind: add, wire: W20, from: F1, to: F1, reach: 90 mm",
        cap("C3", 2, 90, "note: fine"),
        "id: C4, kind: join, ends: [C1-W1-F1, W3 at a.3]",
        "id: C5, kind: cap, wire: W20, end: a.20",
        "id: C6, kind: join, ends: [C4, W5 at a.5]",
        "id: C7, kind: verify, proves: [C3, C2, C1]",
        "id: C8, kind: add, wire: W20, from: b.1, to: b.2, reach: 90 mm",
        "id: C9, kind: extend, wire: W20, end: b.2, gap: 90 mm, piece: RD 1 mm2",
        "id: C10, kind: join, ends: [C2-W20-b, C1-W1-F1]",  # of two the one that was refused first
    )
    view = fold(job_of(tmp_path, *rows), "plan")
    assert {row.id: (row.status, row.why if row.status == "not judged" else "") for row in view.rows} == {
        "C1": ("refused", ""),
        "C2": ("refused", ""),
        "C3": ("in force", ""),
        "C4": ("not judged", "rests on C1, which is refused"),
        "C5": ("not judged", "rests on C2, which is refused"),
        "C6": ("not judged", "rests on C4, which is refused"),
        "C7": ("not judged", "rests on C2, which is refused"),
        "C8": ("in force", ""),
        "C9": ("in force", ""),
        "C10": ("not judged", "rests on C1, which is refused"),
    }


@pytest.mark.parametrize(
    "brings",
    [
        "kind: add, wire: W20, from: F1, to: F1, reach: 90 mm",
        "kind: tap, wire: W20, onto: W1, from: F1, tail: 9000 mm, to: b.2, reach: 90 mm",
        "kind: bridge, wire: W20, ends: [W1 at a.1, W3 at a.3]",
    ],
)
def test_what_works_on_a_lead_that_a_refused_row_would_have_brought_rests_on_it(brings: str, tmp_path: Path) -> None:
    rows = (f"id: C1, {brings}", "id: C2, kind: cap, wire: W20, end: b.2, stub: 30 mm")
    view = fold(job_of(tmp_path, *rows), "plan")
    assert [(row.id, row.status) for row in view.rows] == [("C1", "refused"), ("C2", "not judged")]
    assert view.row("C2").why == "rests on C1, which is refused"


def extend(id: str, wire: int, more: str) -> str:
    return (
        f"id: {id}, kind: extend, wire: W{wire}, end: a.{wire}, pigtail: 300 mm, gap: 90 mm, piece: RD 1 mm2 from O1, "
        f"cut: 100 mm, {more}"
    )


def test_what_rests_on_a_row_that_was_done_again_is_told_so(tmp_path: Path) -> None:
    rows = (
        extend("C1", 1, "made: 2031-05-03"),
        extend("C2", 2, "made: 2031-05-03"),
        "id: C3, kind: add, wire: W30, from: C1-W1-a.1, to: C2-W2-a.2, reach: 90 mm, made: 2031-05-04",
        "id: C4, kind: add, wire: W31, from: C2-W2-a.2, to: b.9, reach: 90 mm, made: 2031-05-04",
        extend("C5", 2, "redoes: C2, made: 2031-05-05"),
        extend("C6", 1, "redoes: C1, made: 2031-05-05"),
        "id: C7, kind: add, wire: W32, from: C5-W2-a.2, to: b.8, reach: 90 mm, made: 2031-05-06",
    )
    view = fold(job_of(tmp_path, *rows), "now", on(9))
    assert {row.id: (row.status, row.by) for row in view.rows} == {
        "C1": ("redone", "C6"),
        "C2": ("redone", "C5"),
        "C3": ("refused", ""),
        "C4": ("refused", ""),
        "C5": ("in force", ""),
        "C6": ("in force", ""),
        "C7": ("in force", ""),
    }
    found = {f.entry: (f.severity.word, f.code, f.problem, f.mend, f.at.text.strip()[:9]) for f in view.findings}
    there = "is not there at this point"
    assert found == {
        "C3": ("error", "ROW11", f"the splice 'C1-W1-a.1' {there}; it rests on C1, which C6 took out",
               "Put this row behind C6 and let it rest on C6, or do it again too", "- {id: C3"),
        "C4": ("error", "ROW11", f"the splice 'C2-W2-a.2' {there}; it rests on C2, which C5 took out",
               "Put this row behind C5 and let it rest on C5, or do it again too", "- {id: C4"),
    }  # fmt: skip
    # four pieces of 100 were cut, two of them lie in the car; the others came out as scrap with the row that did it
    assert view.offcuts["O1"].cuts == (("C2-W2", 100), ("C5-W2", 100), ("C1-W1", 100), ("C6-W1", 100))
    assert [piece.id for piece in view.pieces] == ["C5-W2", "C6-W1", "C7-W32"]
    scrap = [(line.row, line.wire, line.piece_mm, line.scrap_mm) for line in view.conductor_account if line.scrap_mm]
    assert scrap == [("C5", "C2-W2, taken out", 100, 100), ("C6", "C1-W1, taken out", 100, 100)]
    # before they were done again they stood, with what rests on them
    before = fold(job_of(tmp_path, *rows), "now", on(4))
    assert {row.id for row in before.rows if row.counts} == {"C1", "C2", "C3", "C4"}
    assert {s.wire for s in before.at_node["C2-W2-a.2"]} == {"W2", "W30", "W31"}


def test_a_row_done_again_twice_is_done_as_the_last_says(tmp_path: Path) -> None:
    rows = (
        extend("C1", 1, "made: 2031-05-03"),
        extend("C2", 1, "redoes: C1, made: 2031-05-04").replace("cut: 100", "cut: 120"),
        extend("C3", 1, "redoes: C2, made: 2031-05-05").replace("cut: 100", "cut: 140"),
    )
    job = job_of(tmp_path, *rows)

    def pieces(view: View) -> list[tuple[str, float | None]]:
        return [(piece.id, piece.length_mm) for piece in view.pieces]

    assert pieces(fold(job, "now", on(3))) == [("C1-W1", 100)]
    assert pieces(fold(job, "now", on(4))) == [("C2-W1", 120)]
    last = fold(job, "now", on(5))
    assert pieces(last) == [("C3-W1", 140)]
    assert {row.id: (row.status, row.by, row.why) for row in last.rows} == {
        "C1": ("redone", "C2", "done again as C2"),
        "C2": ("redone", "C3", "done again as C3"),
        "C3": ("in force", "", ""),
    }


def test_a_correction_of_a_row_that_did_another_again_stands_for_both(tmp_path: Path) -> None:
    rows = (
        extend("C1", 1, "made: 2031-05-03"),
        cap("C2", 2, 90, "made: 2031-05-04"),
        extend("C3", 1, "redoes: C1, made: 2031-05-05"),
        extend("C4", 1, "corrects: C3, redoes: C1, made: 2031-05-05").replace("cut: 100", "cut: 150"),
    )
    view = fold(job_of(tmp_path, *rows), "plan")
    assert {row.id: (row.status, row.by) for row in view.rows} == {
        "C1": ("redone", "C4"),
        "C2": ("in force", ""),
        "C3": ("corrected", "C4"),
        "C4": ("in force", ""),
    }
    assert [(piece.id, piece.length_mm) for piece in view.pieces] == [("C4-W1", 150)]


def test_a_row_on_the_jumper_of_a_refused_bridge_rests_on_the_bridge(tmp_path: Path) -> None:
    rows = (
        "id: C1, kind: bridge, ends: [q.1], wire: W20, piece: RD 1 mm2, reach: 90 mm",  # a bridge joins two ends
        "id: C2, kind: cap, wire: W20, end: q.1, stub: 20 mm",
    )
    found = {row.id: (row.status, row.why) for row in fold(job_of(tmp_path, *rows), "plan").rows}
    assert found == {
        "C1": ("refused", "a bridge joins two ends"),
        "C2": ("not judged", "rests on C1, which is refused"),
    }
