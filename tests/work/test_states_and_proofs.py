"""What days prove: which step of a row counts, which check proves which row, and in what order the views stand."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.car.asbuilt import believed
from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.record import Job
from aswired.text.diagnostics import Finding, Location, Severity
from aswired.work import work_out

TODAY = datetime.date(2031, 6, 1)
HEAD = """job: Van
{more}
fuses: {{F1: {{rating: 5 A}}}}
grounds: {{G1: {{painted: {painted}}}}}
wires:
  W1: {{colour: RD, size: 1 mm2, from: F1, to: a.1, length: 1000 mm}}
  W2: {{colour: RD, size: 1 mm2, from: loose, to: a.2, length: 1000 mm}}
  W3: {{colour: RD, size: 1 mm2, from: unknown, to: a.3, length: 1000 mm}}
changes:
"""


def job_of(folder: Path, rows: str, more: str = "", painted: str = "2031-05-01 AK") -> Job:
    folder.mkdir(parents=True, exist_ok=True)
    text = HEAD.format(more=more, painted=painted).replace("\n\n", "\n") + rows
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return read.job


def worked_of(folder: Path, rows: str, more: str = "") -> JobResult:
    return work_out(job_of(folder, rows, more), TODAY)


ROW = "  - {{id: C1, kind: cap, wire: W1, end: a.1, {}}}\n"
COME, OLD = "a day that is still to come", "a day before 1900"
NOT_MADE, BEFORE = "the row is not made", "a day before the row was made"


@pytest.mark.parametrize(
    ("steps", "state", "stays", "aside"),
    [
        ("note: n", "planned", (None, None, None), {}),
        ("made: 2031-06-01", "made", ("2031-06-01", None, None), {}),  # today
        ("made: 2031-06-02", "planned", (None, None, None), {"made": (COME, "2031-06-02")}),
        ("made: 2031-06-02, sealed: 2031-06-02", "planned", (None, None, None),
         {"made": (COME, "2031-06-02"), "sealed": (COME, "2031-06-02")}),
        ("made: 2031-06-02, tested: 2031-05-02", "planned", (None, None, None),
         {"made": (COME, "2031-06-02"), "tested": (NOT_MADE, "2031-05-02")}),
        ("made: 1899-12-31, sealed: 2031-05-01", "sealed", ("yes", "2031-05-01", None), {}),
        ("made: 1900-01-01", "made", ("1900-01-01", None, None), {}),
        ("made: 2031-05-03, sealed: 2031-05-03, tested: 2031-05-03", "tested", ("2031-05-03",) * 3, {}),
        ("made: 2031-05-03, sealed: 2031-05-02, tested: 2031-05-04", "tested", ("2031-05-03", None, "2031-05-04"),
         {"sealed": (BEFORE, "2031-05-02")}),
        ("made: 2031-05-03, sealed: 2031-05-04, tested: 2031-05-02", "sealed", ("2031-05-03", "2031-05-04", None),
         {"tested": (BEFORE, "2031-05-02")}),
        ("made: yes, sealed: 2031-05-02, tested: yes", "tested", ("yes", "2031-05-02", "yes"), {}),
        ("made: 2031-05-03, sealed: yes", "sealed", ("2031-05-03", "yes", None), {}),
        ("sealed: yes, tested: 2031-05-02", "planned", (None, None, None),
         {"sealed": (NOT_MADE, "yes"), "tested": (NOT_MADE, "2031-05-02")}),
        ("made: 2031-05-03, tested: 2031-06-02", "made", ("2031-05-03", None, None),
         {"tested": (COME, "2031-06-02")}),
        ("made: 2031-05-03, sealed: 1850-06-02", "made", ("2031-05-03", None, None), {"sealed": (OLD, "1850-06-02")}),
    ],
)  # fmt: skip
def test_a_step_that_cannot_be_on_its_day_is_set_aside_and_told(
    steps: str, state: str, stays: tuple[str | None, ...], aside: dict[str, tuple[str, str]], tmp_path: Path
) -> None:
    (row,) = believed(job_of(tmp_path, ROW.format(steps)), TODAY).changes
    dates = [step and ("yes" if step.date is None else step.date.isoformat()) for step in (row.made, row.sealed,
                                                                                           row.tested)]  # fmt: skip
    assert tuple(dates) == stays
    assert {key: (str(step.doubt), step.day_as_written) for key, step in row.set_aside.items()} == aside
    assert row.state == state


def test_other_days_that_cannot_be_are_not_counted_either(tmp_path: Path) -> None:
    rows = ROW.format("made: 2031-05-03") + (
        "readings:\n"
        "  - {id: M1, of: C1, red: a.1, black: G1, read: 1 V, on: 2031-06-01}\n"
        "  - {id: M2, of: C1, red: a.1, black: G1, read: 1 V, on: 2031-06-02}\n"
        "  - {id: M3, of: C1, red: a.1, black: G1, read: 1 V}\n"
        "service:\n"
        "  - {id: S1, on: 1899-05-01, complaint: dark}\n"
        "  - {id: S2, on: 2031-05-01, complaint: dark}\n"
    )
    more = "handed over: 2031-06-02\nrevisions: {A: 2031-05-05, B: 2031-06-05}\nbattery off: [2031-05-05, 2031-06-05]"
    job = believed(job_of(tmp_path / "1", rows, more, "2031-06-02 AK"), TODAY)

    def days(steps: object) -> list[datetime.date | None]:
        return [step.date for step in steps]  # type: ignore[attr-defined]

    fifth = datetime.date(2031, 5, 5)
    assert days(reading.on for reading in job.readings if reading.on) == [TODAY, None]
    assert [reading.shows for reading in job.readings] == [True, False, True]
    assert days(visit.on for visit in job.service) == [None, datetime.date(2031, 5, 1)]
    assert days(job.revisions.values()) == [fifth, None]
    assert days(job.battery_off) == [fifth, None]
    assert job.handed_over is None
    assert job.set_aside["handed over"].day_as_written == "2031-06-02"
    painted = job.grounds["G1"].painted
    assert painted is not None
    assert (painted.date, painted.day_as_written) == (None, "2031-06-02")
    sound = job_of(tmp_path / "2", ROW.format("made: 2031-05-03"), "handed over: 2031-06-01")
    assert believed(sound, TODAY) is sound


# ---- proofs ---------------------------------------------------------------------------------------------------------
CHECKS = """  - {id: C1, kind: cap, wire: W1, end: a.1, made: 2031-05-03}
  - {id: C2, kind: cap, wire: W2, end: a.2}
  - {id: C3, kind: cap, wire: W3, end: a.3, made: yes}
  - {id: V1, kind: verify, proves: [C1, C3], made: 2031-05-03}
  - {id: V2, kind: verify, proves: [C1, C2, C3, C9], made: 2031-05-02}
  - {id: V3, kind: verify, proves: [V3, C1], made: 2031-05-04}
  - {id: V4, kind: verify, proves: [V5, C1], made: 2031-05-04}
  - {id: V5, kind: verify, proves: [V4, V1], made: 2031-05-04}
  - {id: V6, kind: verify, proves: [C1], test: unknown, expect: not known, made: 2031-05-04}
  - {id: V7, kind: verify, proves: [C1], test: unknown, expect: 12 V, made: 2031-05-04}
  - {id: V8, kind: verify, proves: [C1], test: unknown, dead without: [F1], made: 2031-05-04}
  - {id: V9, kind: verify, proves: [C1], test: volts, made: 2031-05-04}
  - {id: V10, kind: verify, proves: [C1], test: unknown, made: yes}
  - {id: V11, kind: verify, proves: [C1]}
  - {id: V12, kind: verify, proves: [C1], expect: unknown}
  - {id: V1, kind: verify, proves: [C2], made: 2031-05-06}
readings:
  - {id: M1, of: V9, red: a.1, black: G1, read: not measured, on: 2031-05-04}
  - {id: M2, of: V10, red: F1, black: battery-, read: 12 V, on: 2031-05-04}
"""


def test_what_a_check_proves_and_why_another_does_not(tmp_path: Path) -> None:
    worked = worked_of(tmp_path, CHECKS)
    assert {pair: str(why) for pair, why in worked.void_proofs.items()} == {
        ("V2", "C1"): "checked before it was made",
        ("V2", "C2"): "checked before it was made",  # planned still
        ("V3", "V3"): "a check that proves itself",
        ("V4", "V5"): "checks that prove each other",
        ("V5", "V4"): "checks that prove each other",
        ("V6", "C1"): "nothing was measured or read",
        ("V9", "C1"): "nothing was measured or read",
    }
    proved = {row: tuple(check.id for check in checks) for row, checks in worked.proofs.items()}
    assert proved == {
        "C1": ("V1", "V3", "V4", "V7", "V8", "V10"),
        "C3": ("V1", "V2"),
        "C9": ("V2",),
        "V1": ("V5",),
    }
    rows = {row.id: row for row in reversed(worked.job.changes)}
    assert {id: worked.state_of(row) for id, row in rows.items() if id in ("C1", "C2", "C3", "V1", "V2", "V11")} == {
        "C1": "tested", "C2": "planned", "C3": "tested", "V1": "tested", "V2": "made", "V11": "planned",
    }  # fmt: skip
    assert [row.id for row in worked.rows_of(worked.plan)].count("V1") == 1
    assert worked.state_of(worked.job.changes[-1]) == "made"  # the second V1 is not the row that is proved
    assert {id for id, row in rows.items() if worked.tested(row)} == {"C1", "C3", "V1"}


def test_the_views_stand_in_the_order_of_their_days(tmp_path: Path) -> None:
    rows = ROW.format("made: 2031-05-03")
    more = "handed over: 2031-05-05\nrevisions: {B: 2031-05-09, A: 2031-05-02, C: 2031-05-05}"
    worked = worked_of(tmp_path / "1", rows, more)
    named = [view.name for view in worked.views]
    assert named[0] == "donor"
    assert named[-2:] == ["now", "plan"]
    assert [(view.name, view.day and view.day.day) for view in worked.views[1:-2]] == [
        ("revision A", 2),
        ("revision C", 5),
        ("handed over", 5),
        ("revision B", 9),
    ]
    assert worked.shown is worked.now
    assert [row.id for row in worked.rows_of(worked.views[1])] == []
    assert [row.id for row in worked.rows_of(worked.views[2])] == ["C1"]
    planned = worked_of(tmp_path / "2", ROW.format("note: n"))
    assert [view.name for view in planned.views] == ["donor", "now", "plan"]
    assert planned.shown is planned.plan


def test_a_cap_says_of_the_other_end_how_it_was_left(tmp_path: Path) -> None:
    rows = (
        "  - {id: C1, kind: cap, wire: W1, end: a.1, far: pulled}\n"
        "  - {id: C2, kind: cap, wire: W2, end: loose, far: gone}\n"
        "  - {id: C3, kind: cap, wire: W3, end: unknown, far: flush}\n"
        "  - {id: C4, kind: cap, wire: W1, end: F1}\n"
        "  - {id: C5, kind: remove, wire: W1, ends: {F1: gone}}\n"
    )
    worked = worked_of(tmp_path, rows)
    left = {
        row.id: {end: fate.word for end, fate in worked.fates_of(row, row.wire).items()} for row in worked.job.changes
    }
    assert left == {
        "C1": {"F1": "pulled"},
        "C2": {"a.2": "gone"},
        "C3": {"a.3": "flush"},
        "C4": {},
        "C5": {"F1": "gone"},
    }


@pytest.mark.parametrize(
    ("ranks", "accepted", "power", "hand_over", "standing"),
    [
        ((), (), True, True, 0),
        ((Severity.NOTE, Severity.WARNING), (), True, True, 0),
        ((Severity.WARNING, Severity.ERROR), (), True, False, 1),
        ((Severity.STOP, Severity.ERROR), (), False, False, 2),
        ((Severity.STOP, Severity.ERROR), (Severity.STOP,), True, False, 1),
        ((Severity.STOP, Severity.ERROR), (Severity.ERROR,), False, False, 1),
        ((Severity.STOP, Severity.ERROR), (Severity.STOP, Severity.ERROR), True, True, 0),
    ],
)
def test_what_stands_against_power_and_hand_over(
    ranks: tuple[Severity, ...],
    accepted: tuple[Severity, ...],
    power: bool,
    hand_over: bool,
    standing: int,
    tmp_path: Path,
) -> None:
    at = Location("job.yml")
    found = tuple(Finding("X01", rank, at, "C1", "p", "m", accepted_by="AK" if rank in accepted else "")
                  for rank in ranks)  # fmt: skip
    worked = replace(worked_of(tmp_path, ROW.format("made: 2031-05-03")), findings=found)
    assert (worked.may_power, worked.may_hand_over, len(worked.standing)) == (power, hand_over, standing)


def test_pieces_and_joints_are_those_of_the_plan_and_circuits_those_of_the_car_as_it_is(tmp_path: Path) -> None:
    piece = "plug: a, pigtail: 300 mm, gap: 90 mm, piece: RD 1 mm2"
    rows = (
        f"  - {{id: C1, kind: extend, wire: W1, {piece}, made: 2031-05-03, sealed: 2031-05-04}}\n"
        f"  - {{id: C2, kind: extend, wire: W2, {piece}}}\n"
        "  - {id: C3, kind: remove, wire: W1, ends: {F1: pulled, a.1: pulled}}\n"
        "  - {id: C4, kind: extend, wire: W3, end: a.3, pigtail: 300 mm, gap: 90 mm, made: 2031-05-05}\n"
    )
    lamp = "loads: {lamp: {between: a.1 a.9, draws: 1 A}}\nusual: {joint: lap, overlap: 10 mm, slack: 50 mm}"
    worked = worked_of(tmp_path, rows, lamp + "\nhanded over: 2031-05-04")
    assert [piece.id for piece in worked.pieces] == ["C1-W1", "C2-W2", "C4-W3"]
    states = {placed.joint.id: worked.state_at(placed) for placed in worked.joints}
    # W1 is planned to go, and its splices with it
    assert states == {
        "C2-W2-plug": "planned",
        "C2-W2-loom": "planned",
        "C4-W3-a.3": "made",
        "C4-W3-unknown-W3": "made",
    }
    assert (worked.circuits["lamp"].feed.state, worked.donor_circuits["lamp"].feed.state) == ("complete", "complete")
    assert {s.origin for s in worked.circuits["lamp"].feed.stretches} == {"", "C1"}
    assert {s.origin for s in worked.donor_circuits["lamp"].feed.stretches} == {""}
    counted = {view.name: set(view.counted) for view in worked.views}
    assert counted == {
        "donor": set(),
        "handed over": {"C1"},
        "now": {"C1", "C4"},
        "plan": {"C1", "C2", "C3", "C4"},
    }
    assert {view.name: len(view.of_wire("W1")) for view in worked.views} == {
        "donor": 1, "handed over": 3, "now": 3, "plan": 0,
    }  # fmt: skip
