"""Each finding about a row is told at one moment: as soon as the row is planned, or once it is made.

What is judged over the plan is told before the tool is in the hand. What stands against the copper of the car is told
of a plan as well, as an error: the car is not so yet. What is judged of deeds and days waits for the work: of a row
that is only planned nothing of it is told.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from tests.findings.jobs import Case, work
from tests.findings.test_findings_each_code import CASES
from tests.properties.copies import Doc, dumped, parsed, sampled

# What a row is going to do: its joints, pieces, colours, places, names, and what it may not be done to at all.
AS_PLANNED = {
    *("SPL01", "SPL02", "SPL03", "SPL04", "SPL05", "SPL06", "SPL07", "SPL08", "SPL09", "SPL10", "SPL11", "SPL12"),
    *("COL01", "COL02", "COL03", "COL04", "SIZ01", "SIZ02", "LEN01", "LEN02", "LEN03", "LEN04", "OFF02", "OFF03"),
    *("MAT01", "INS01", "TRM01", "BUN01", "BUN02", "PLC01", "PLC02", "PLC03", "PLC05", "PLC06", "END08", "FUS06"),
    *("SPC01", "SPC02", "SPC03", "SPC04", "SPC05", "SPC06", "SPC07", "SPC09", "SPC10", "GND02", "GND03", "OPT03"),
    *("REF05", "REF06", "REF07", "REF08", "ROW05", "ROW10", "ROW11", "TST01"),
}
# What is in the car now: what is fed, what is open, what was proved, photographed, dated. A planned row that would
# overdraw an offcut is refused (M3), a made one is told (OFF01).
ONCE_MADE = {
    *("END03", "END04", "END06", "LOD01", "LOD03", "DRP02", "FUS02"),
    *("FUS07", "GND04", "GND11", "OPT01", "PHO03", "PRO01", "PRO02", "PRO03", "PRO04", "TST02", "TST03", "OFF01"),
    *("ROW06", "ROW08", "ROW09", "ROW12", "ROW13", "ROW14"),
}
# What the ledger says against copper: of a plan it is an error, whatever it is of a car.
OF_COPPER = {"END01", "END02", "END05", "END07", "FUS03", "FUS13"}
# Of these nothing is told while nothing at all is made, and a job that is all plan is shown as it is planned.
OF_DEEDS = {
    *("FUS07", "GND11", "OPT01", "PHO03", "PRO01", "PRO02", "PRO03", "PRO04", "TST02", "TST03", "OFF01", "ROW06"),
    *("ROW08", "ROW09", "ROW12", "ROW13", "ROW14"),
}
# Three that go against their code: a thin feed is found by the currents of the car; the twin that mends the second is a
# plan, and it counts until the car is handed over; until W1 is drawn out of the third's plug it is live there, a stop.
OF_THE_CAR = {
    "SPL10 one small wire feeds two larger",
    "END08 a planned row mends it until the car is handed over",
    "END08 a plug that left the car",
}
# A check of nothing: with it something is made, so that the car and the plan are two.
SOMETHING_MADE = {"id": "Q1", "kind": "verify", "proves": ["Q1"], "made": "2031-05-02 AK"}
BY_WORK = ("made", "tested", "sealed")


def with_rows(doc: Doc, rows: list[Doc]) -> Doc:
    return {**doc, "changes": [*rows, SOMETHING_MADE]}


def only_planned(doc: Doc) -> list[Doc]:
    return [{key: value for key, value in row.items() if key not in BY_WORK} for row in doc["changes"]]


def told(worked: JobResult, code: str) -> Counter[tuple[str, str]]:
    """Rank and entry of each finding of a code. A bare joint is an error while it is planned and a stop when made."""
    return Counter(
        ("" if code == "SPL04" else finding.severity.word, finding.entry)
        for finding in worked.findings
        if finding.code == code and finding.entry != "Q1"
    )


def jobs_of(codes: set[str], most: int) -> list[Case]:
    """The first jobs of each code in which a row is made."""
    taken: Counter[str] = Counter()
    chosen = []
    for case in CASES:
        if "made: " in case.text and case.code in codes and case.name not in OF_THE_CAR and taken[case.code] < most:
            taken[case.code] += 1
            chosen.append(case)
    return chosen


@pytest.mark.parametrize("case", sampled(jobs_of(AS_PLANNED, 2)))
def test_what_a_row_is_going_to_do_is_told_before_it_is_made(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    made = work(tmp_path / "made", dumped(doc), case.today, case.photo_problems)
    planned = work(tmp_path / "planned", dumped(with_rows(doc, only_planned(doc))), case.today, case.photo_problems)
    assert planned.now is not planned.plan
    assert told(planned, case.code) == told(made, case.code)
    assert told(made, case.code)


@pytest.mark.parametrize("case", sampled([case for case in jobs_of(OF_COPPER, 9) if case.severity != "note"]))
def test_what_a_plan_would_do_to_copper_is_an_error_of_the_plan(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    made = work(tmp_path / "made", dumped(with_rows(doc, doc["changes"])), case.today, case.photo_problems)
    planned = work(tmp_path / "planned", dumped(with_rows(doc, only_planned(doc))), case.today, case.photo_problems)
    without = work(tmp_path / "without", dumped(with_rows(doc, [])), case.today, case.photo_problems)
    fresh = told(planned, case.code) - told(without, case.code)
    brought = told(made, case.code) - told(without, case.code)
    assert set(fresh) == {("error", entry) for _, entry in brought}
    own = [f for f in planned.findings if f.code == case.code and ("error", f.entry) in fresh]
    assert all("planned" in finding.problem for finding in own)


@pytest.mark.parametrize("case", sampled(jobs_of(ONCE_MADE, 9)))
def test_what_is_told_of_work_that_is_done_waits_until_it_is(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    planned = work(tmp_path / "planned", dumped(with_rows(doc, only_planned(doc))), case.today, case.photo_problems)
    without = work(tmp_path / "without", dumped(with_rows(doc, [])), case.today, case.photo_problems)
    assert told(planned, case.code) == told(without, case.code)


@pytest.mark.parametrize("case", sampled(jobs_of(OF_DEEDS, 9)))
def test_a_job_that_is_all_plan_is_told_nothing_of_deeds(case: Case, tmp_path: Path) -> None:
    doc = {**parsed(case.text), "handed over": "2031-05-30"}
    planned = work(tmp_path, dumped({**doc, "changes": only_planned(doc)}), case.today, case.photo_problems)
    assert planned.shown is planned.plan
    assert told(planned, case.code) == Counter()


def test_every_finding_about_a_row_is_of_one_of_the_two_moments() -> None:
    sets = (AS_PLANNED, ONCE_MADE, OF_COPPER)
    assert sum(map(len, sets)) == len(set.union(*sets))
    assert {case.code for codes in sets for case in jobs_of(codes, 1)} == set.union(*sets)
