"""The rows that the pages print: changes, connectors, readings, overview."""

from __future__ import annotations

from dataclasses import replace

import pytest

from aswired.car.harness import RowResult
from aswired.figures.worked import JobResult
from aswired.sheets.cautions import cautions
from aswired.sheets.changes import belongs, change_rows, state_counts
from aswired.sheets.connectors import connector_views, module_views, ranges
from aswired.sheets.not_examined import subjects
from aswired.sheets.overview import hand_over, latest, numbers
from aswired.sheets.readings import check_rows, judge, reading_rows
from aswired.text.diagnostics import Severity
from aswired.text.units import read_reading
from pages.handmade import worked


@pytest.fixture(scope="module")
def made() -> JobResult:
    return worked()


# ---- changes --------------------------------------------------------------------------------------------------------
def test_rows_stand_in_the_order_of_the_file(made: JobResult) -> None:
    assert [row.id for row in change_rows(made)] == ["C30", "C14", "C21", "C22", "C23", "C24", "C33", "C35"]


def test_a_corrected_row_is_struck_and_points_to_the_row_that_stands_for_it(made: JobResult) -> None:
    rows = {row.id: row for row in change_rows(made)}
    assert (rows["C22"].struck, rows["C22"].points_to) == (True, "C23")
    assert rows["C22"].status.startswith("The record was wrong")
    assert (rows["C23"].struck, rows["C23"].status, rows["C23"].stands_for) == (False, "", "C22")


def test_a_redone_row_points_on_but_is_not_struck_since_it_was_so(made: JobResult) -> None:
    shown = replace(made.now, rows=(RowResult("C22", "redone", by="C23"),))
    plan = replace(made.plan, rows=(RowResult("C22", "redone", by="C23"),))
    row = next(row for row in change_rows(replace(made, shown=shown, plan=plan)) if row.id == "C22")
    assert (row.struck, row.points_to, row.status) == (False, "C23", "It was so, then it was done again. See")


def test_a_planned_row_that_the_plan_refuses_says_why(made: JobResult) -> None:
    rows = {row.id: row for row in change_rows(made)}
    assert rows["C24"].status == "Left out of the car as shown. W50 has no end G2 any more."
    assert rows["C35"].status == ""


@pytest.mark.parametrize(
    ("status", "opening"),
    [("not for this car", "Not for this car."), ("undecided", "Not decided"), ("not judged", "Not judged")],
)
def test_each_other_fate_of_a_row_is_said(made: JobResult, status: str, opening: str) -> None:
    shown = replace(made.now, rows=(RowResult("C14", status, why="heater is not diesel"),))
    row = next(row for row in change_rows(replace(made, shown=shown)) if row.id == "C14")
    assert row.status.startswith(opening)
    assert row.status.endswith("Heater is not diesel.")


def test_figures_and_findings_go_to_their_own_row_only(made: JobResult) -> None:
    rows = {row.id: row for row in change_rows(made)}
    assert [figure.key for figure in rows["C14"].figures] == ["C14-W31.cut", "C14-W34.cut", "C14-W31-loom.centre"]
    assert [figure.value for figure in rows["C14"].figures][:2] == ["20.76 in (527\u00a0mm)", "not recorded"]
    assert rows["C14"].figures[1].missing == "Not computed: slack not recorded"
    assert [finding.code for finding in rows["C14"].findings] == ["PLC02", "SPL03"]
    assert not rows["C30"].figures


@pytest.mark.parametrize(
    ("id", "row", "is_its"),
    [
        ("C14", "C14", True),
        ("C14-W31-loom", "C14", True),
        ("C14-W31.cut", "C14", True),
        ("C140", "C14", False),
        ("C1", "C14", False),
    ],
)
def test_an_id_belongs_to_a_row(id: str, row: str, is_its: bool) -> None:
    assert belongs(id, row) is is_its


def test_a_wire_shows_what_it_was_what_was_put_in_and_how_its_ends_were_left(made: JobResult) -> None:
    rows = {row.id: row for row in change_rows(made)}
    w31, w34 = rows["C14"].wires
    assert (w31.was.code, w31.was_size) == ("VT/WH", "18 AWG")
    assert w31.piece is not None
    assert w31.piece.code == "BU"
    assert w34.offcut == "O3"
    assert rows["C30"].wires[0].left == "roof-wiper.1 gone, FS4 capped 1.18 in (30\u00a0mm)"
    assert rows["C30"].wires[0].was_size == "not read"


def test_a_step_without_a_date_says_so(made: JobResult) -> None:
    rows = {row.id: row for row in change_rows(made)}
    assert [(step.name, step.value) for step in rows["C23"].steps] == [("made", "date not noted")]
    assert [step.name for step in rows["C21"].steps] == ["made", "tested"]


def test_an_acceptance_is_told_once(made: JobResult) -> None:
    rows = {row.id: row for row in change_rows(made)}
    assert not rows["C21"].accepted  # told with its finding
    lone = replace(made, findings=tuple(f for f in made.findings if f.code != "GND02"))
    row = next(row for row in change_rows(lone) if row.id == "C21")
    assert [item.finding for item in row.accepted] == ["GND02"]


def test_states_count_rows_in_force_only(made: JobResult) -> None:
    assert [(item.state, item.count) for item in state_counts(made)] == [
        ("tested", 2),
        ("sealed", 1),
        ("made", 2),
        ("planned", 1),
    ]


# ---- connectors -----------------------------------------------------------------------------------------------------
def test_a_cavity_shows_now_beside_the_donor(made: JobResult) -> None:
    lamp, siren, wiper = connector_views(made)
    three, five = lamp.cavities
    assert (three.cavity, three.changed, three.rows, three.carries) == ("3", True, ("C14",), "work lamp feed")
    assert [(item.wire, item.goes_to) for item in three.now] == [("W31", ("C14-W31-plug",))]
    assert [(item.wire, item.goes_to) for item in three.donor] == [("W31", ("FS4",))]
    assert three.same_wire
    assert not five.changed
    assert five.carries == "work lamp left"
    assert (wiper.cavities[0].now, wiper.cavities[0].now_words, wiper.gone) == ((), "left the car", True)
    assert siren.cavities == ()


def test_a_wire_that_passes_an_in_line_plug_uncut_is_met_in_its_cavity(made: JobResult) -> None:
    through = replace(made.donor.stretches[0], via="siren-plug.2")
    donor, shown = (replace(view, stretches=(through, *view.stretches[1:])) for view in (made.donor, made.shown))
    siren = next(v for v in connector_views(replace(made, donor=donor, shown=shown)) if v.name == "siren-plug")
    assert [(item.wire, item.goes_to, item.passes) for item in siren.cavities[0].now] == [("W30", ("F7", "FS4"), True)]
    assert (siren.changed, siren.silent) == (False, "1")


def test_a_connector_says_its_side_and_what_nobody_looked_at(made: JobResult) -> None:
    lamp, siren, wiper = connector_views(made)
    assert lamp.seen_from == "wire side"
    assert wiper.seen_from == ""
    assert (lamp.not_examined, lamp.silent) == ("1, 2", "4, 6 to 9")
    assert (siren.not_examined, siren.silent) == ("", "1, 2")


def test_a_connector_whose_number_of_ways_is_absurd_is_not_listed_cavity_by_cavity(made: JobResult) -> None:
    plugs = {**made.job.plugs, "siren-plug": replace(made.job.plugs["siren-plug"], ways="999999999")}
    views = connector_views(replace(made, job=replace(made.job, plugs=plugs)))
    assert next(view for view in views if view.name == "siren-plug").silent == ""


def test_cavities_with_numbers_of_their_own_are_counted_and_not_guessed(made: JobResult) -> None:
    """A relay socket has four ways called 30, 85, 86, 87: cavities 1 to 4 do not exist."""
    plug = replace(made.job.plugs["siren-plug"], ways="4", cavities_not_examined=("85", "86", "87"))
    views = connector_views(replace(made, job=replace(made.job, plugs={"siren-plug": plug})))
    assert next(view for view in views if view.name == "siren-plug").silent == "1 more"
    plug = replace(plug, cavities_not_examined=("30", "85", "86", "87"))
    views = connector_views(replace(made, job=replace(made.job, plugs={"siren-plug": plug})))
    assert next(view for view in views if view.name == "siren-plug").silent == ""


def test_runs_of_cavities_are_drawn_together() -> None:
    assert ranges([]) == ""
    assert ranges([3]) == "3"
    assert ranges([1, 2, 3, 5, 6]) == "1 to 3, 5, 6"


def test_a_module_shows_only_what_is_relied_on(made: JobResult) -> None:
    (unit,) = module_views(made)
    assert [(cavity.cavity, cavity.says) for cavity in unit.cavities] == [
        ("14", "switched feed from F9"),
        ("31", "ground of the module"),
    ]
    assert [item.wire for item in unit.cavities[0].wires] == ["W80"]


# ---- readings -------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("read", "limit", "verdict"),
    [
        ("0.06 V", "0.1 V", "within"),
        ("0.1 V", "0.1 V", "within"),
        ("0.11 V", "0.1 V", "over the limit"),
        ("-0.2 V", "0.1 V", "over the limit"),  # leads the other way round
        ("60 mV", "0.1 V", "within"),
        ("700 mV", "0.7 V", "within"),  # 700 x 0.001 is a little more than 0.7
        ("0.06 V", None, "not judged"),
        ("0.06 V", "0.1 A", "not judged"),
        ("not measured", "0.1 V", "not measured"),
        (None, "0.1 V", "not measured"),
    ],
)
def test_a_reading_is_judged_against_its_limit(read: str | None, limit: str | None, verdict: str) -> None:
    got = judge(read_reading(read) if read else None, read_reading(limit) if limit else None)
    assert got == verdict


@pytest.mark.parametrize(
    ("read", "limit", "at_least", "verdict"),
    [
        ("0.4 V", None, "11.5 V", "too low"),
        ("11.5 V", None, "11.5 V", "within"),
        ("4.1 mV", None, "0.0041 V", "within"),  # and 4.1 x 0.001 a little less than 0.0041
        ("14.9 V", "14.5 V", "13.8 V", "over the limit"),
        ("13.5 V", "14.5 V", "13.8 V", "too low"),
        ("14.2 V", "14.5 V", "13.8 V", "within"),
        ("0.4 A", None, "11.5 V", "not judged"),
        ("not measured", None, "11.5 V", "not measured"),
    ],
)
def test_a_reading_is_judged_against_what_it_should_reach(
    read: str, limit: str | None, at_least: str, verdict: str
) -> None:
    assert judge(read_reading(read), read_reading(limit) if limit else None, read_reading(at_least)) == verdict


def test_what_a_reading_should_reach_stands_where_its_limit_stands(made: JobResult) -> None:
    reading = replace(made.job.readings[0], read=read_reading("0.4 V"), limit=None, at_least=read_reading("11.5 V"))
    both = replace(reading, limit=read_reading("14.5 V"))
    rows = reading_rows(replace(made, job=replace(made.job, readings=(reading, both))))
    assert [(row.limit, row.verdict, row.bad) for row in rows] == [
        ("at least 11.5 V", "too low", True),
        ("14.5 V; at least 11.5 V", "too low", True),
    ]


def test_a_missing_reading_is_words_and_never_a_zero(made: JobResult) -> None:
    rows = {row.id: row for row in reading_rows(made)}
    assert (rows["R5"].read, rows["R5"].verdict, rows["R5"].supply) == ("not measured", "not measured", "not recorded")
    assert (rows["R4"].verdict, rows["R4"].bad) == ("over the limit", True)


def test_a_planned_check_has_no_readings_of_rows_that_it_will_prove(made: JobResult) -> None:
    (check,) = check_rows(made)  # R3 and R4 are of its rows
    assert (check.proves, check.state, check.readings) == (("C14", "C21"), "planned", ())
    assert (check.nothing, check.beside) == ("not measured", ())


# ---- overview -------------------------------------------------------------------------------------------------------
def test_the_verdict_counts_what_nobody_accepted(made: JobResult) -> None:
    told = hand_over(made)
    beside = "1 stop and 1 error open; 1 error let stand by AK; 3 things not examined"
    assert (told.yes, told.answer, told.beside) == (False, "No", beside)
    accepted = replace(
        made, findings=tuple(replace(f, accepted_by="AK") for f in made.findings if f.severity <= Severity.ERROR)
    )
    told = hand_over(accepted)
    assert (told.yes, told.answer) == (True, "No stop and no error is open")
    assert told.beside == "1 stop and 2 errors let stand by AK; 3 things not examined"


def test_the_errors_that_are_open_stand_beside_the_answer(made: JobResult) -> None:
    errors = replace(made, findings=tuple(f for f in made.findings if f.severity == Severity.ERROR), not_examined=())
    told = hand_over(errors)
    assert (told.answer, told.beside) == ("No", "1 error open; 1 error let stand by AK")
    assert hand_over(replace(errors, findings=())).beside == ""


def test_cautions_begin_with_the_battery_and_name_the_declared_wires(made: JobResult) -> None:
    first, *rest = cautions(made)
    assert first.title == "Before any work: battery off"
    anti_lock = next(caution for caution in rest if caution.title.startswith("Anti-lock"))
    assert anti_lock.ids == ("W71",)
    bridge = next(caution for caution in rest if "bridged" in caution.title)
    assert bridge.ids == ("C33",)
    assert bridge.text == (
        "Who decided it is not recorded. What stands in its place is not recorded. Why: gearbox is manual now."
    )
    assert rest[0].lines == made.job.cautions


def test_declared_wires_that_were_taken_out_are_told_as_removed_by_their_row(made: JobResult) -> None:
    gone = {**made.shown.wires, "W71": replace(made.shown.wires["W71"], removed_by="C30")}
    told = [
        c for c in cautions(replace(made, shown=replace(made.shown, wires=gone))) if c.title.startswith("Anti-lock")
    ]
    assert [(c.title, c.ids) for c in told] == [("Anti-lock brake wires: removed", ("C30",))]


def test_a_sum_with_an_unknown_piece_says_so(made: JobResult) -> None:
    found = {item.name: item for item in numbers(made)}
    assert found["Pieces of wire"].value == "1.7 ft"  # 530 mm recorded; the other piece is not
    assert found["Pieces of wire"].more == "2 pieces: 2 put in; length of 1 not recorded"
    nothing = replace(made, pieces=made.pieces[1:])
    assert {item.name: item.value for item in numbers(nothing)}["Pieces of wire"] == "not recorded"


def test_latest_work_is_newest_first_and_leaves_out_rows_that_do_not_count(made: JobResult) -> None:
    days = latest(made)
    assert [day.day for day in days] == ["9 May 2031", "6 May 2031", "4 May 2031", "3 May 2031"]
    assert [(line.row, line.step) for line in days[-1].done] == [("C30", "made, sealed")]
    assert "C22" not in {line.row for day in days for line in day.done}


def test_what_was_not_examined_is_gathered_by_subject(made: JobResult) -> None:
    assert [(subject.name, subject.count) for subject in subjects(made)] == [("cavities", 2), ("wires", 1)]


def test_what_is_not_known_of_one_thing_stands_on_one_line(made: JobResult) -> None:
    wire = made.not_examined[1]
    more = (replace(wire, what="one end not traced"), replace(wire, what="one end not traced"))
    (_, wires) = subjects(replace(made, not_examined=(*made.not_examined, *more)))
    assert wires.count == 3
    assert [(line.entry, line.what) for line in wires.items] == [
        ("W80", "its colour and size were not read, one end not traced (twice)")
    ]
