"""What is said before anybody touches a car, by what a person declared of it: on the overview and in the record."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.sheets.cautions import Caution, cautions, standing
from aswired.sheets.changes import change_rows
from aswired.sheets.grounds import ground_sheet
from aswired.sheets.record import record
from aswired.sheets.templates import environment
from aswired.site.theme import theme_dir
from aswired.work import work_out

TODAY = datetime.date(2031, 6, 12)
REFUSALS = [
    ("high voltage: present", "trained and licensed for high voltage"),
    ("high voltage: untouched", "trained and licensed for high voltage"),
    ("high voltage: changed", "trained and licensed for high voltage"),
    ("high voltage: removed in part", "trained and licensed for high voltage"),
    ("restraint: changed", "licensed for restraint systems"),
    ("restraint: removed in part", "licensed for restraint systems"),
]


def work(folder: Path, systems: str = "{}", special: str = "none", rows: str = "", more: str = "") -> JobResult:
    changes = rows or "{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}"
    text = f"""\
job: Declared
cautions: [Isolator behind the cab]
systems: {systems}
wires: {{W1: {{from: u.1, to: lamp.1, special: {special}}}}}
changes: [{changes}]
{more}
"""
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return work_out(read.job, TODAY)


def titles(worked: JobResult) -> list[str]:
    return [caution.title for caution in cautions(worked)]


def the_one(worked: JobResult, begins: str) -> Caution:
    (found,) = [caution for caution in cautions(worked) if caution.title.startswith(begins)]
    return found


def test_a_car_of_which_nothing_is_declared_says_so_and_carries_every_rule(tmp_path: Path) -> None:
    worked = work(tmp_path)
    told = the_one(worked, "Not declared")
    assert told.title == "Not declared: restraint, high voltage, anti-lock, immobiliser, data bus"
    assert "live until somebody has looked" in told.text
    assert {rule.title for rule in standing(worked)} >= {
        "Restraint circuits",
        "Orange cables",
        "Anti-lock brakes",
        "Fuel",
    }
    assert standing(worked)[0].text.startswith("The vehicle maker's procedure, local rules")


def test_a_system_never_fitted_is_spoken_of_nowhere(tmp_path: Path) -> None:
    every = "restraint: S, high voltage: S, anti-lock: S, immobiliser: S, data bus: S".replace("S", "never fitted")
    worked = work(tmp_path, f"{{{every}}}")
    told = [title for title in titles(worked) if not title.startswith("Not examined")]
    assert told == ["Before any work: battery off", "This car"]
    rules = " ".join(f"{rule.title} {rule.text}" for rule in standing(worked))
    assert not [word for word in ("Airbag", "Orange", "Wheel-speed") if word in rules]
    assert "tank, filler, fuel line or vapour canister" in rules
    assert "never ordinary wire" in rules
    assert "not to the battery post" in rules
    assert "Never pierce insulation" in rules


@pytest.mark.parametrize(("declared", "to_whom"), REFUSALS)
def test_a_car_out_of_scope_begins_with_a_refusal(declared: str, to_whom: str, tmp_path: Path) -> None:
    worked = work(tmp_path, f"{{{declared}}}")
    first, second, *_ = cautions(worked)
    assert first.rank == "stop"
    assert first.title.endswith("this record stops here")
    assert to_whom in first.text
    assert second.title == "Before any work: battery off"
    assert not worked.may_power
    assert record(worked).cautions[0] == first


@pytest.mark.parametrize("status", ["present", "untouched"])
def test_restraint_in_the_car_is_a_stop_with_the_makers_time(status: str, tmp_path: Path) -> None:
    worked = work(tmp_path, f"{{restraint: {status}, declared by: AK}}", "restraint")
    told = the_one(worked, "Restraint system")
    assert (told.rank, told.title, told.ids) == ("stop", f"Restraint system: {status}", ("W1",))
    assert "the vehicle maker's manual gives the time" in told.text
    assert told.text.endswith("Declared by AK.")
    assert "Restraint (airbag) wires, declared" not in titles(worked)  # told once
    assert "Restraint circuits" not in [rule.title for rule in standing(worked)]


def test_a_system_that_left_the_car_names_the_row_that_took_it_out(tmp_path: Path) -> None:
    out = "{id: C1, kind: remove, wire: W1, ends: {u.1: gone, lamp.1: gone}, made: 2031-05-03 AK}"
    told = the_one(work(tmp_path, "{anti-lock: removed complete}", "anti-lock", out), "Anti-lock")
    assert (told.rank, told.title, told.ids) == ("warning", "Anti-lock brakes: removed complete", ("C1",))
    assert "The wheels can lock" in told.text


PLANNED_OUT = (
    "{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}, "
    "{id: C2, kind: remove, wire: W1, ends: {u.1: gone, lamp.1: gone}DONE}"
)


@pytest.mark.parametrize(
    ("systems", "special", "in_the_car", "taken_out"),
    [
        # title while the wire is still to be taken out, and when it is out
        ("{restraint: removed complete}", "restraint", "Restraint system: declared removed complete, but wires of it "
         "are in the car", "Restraint system: removed complete"),
        ("{anti-lock: removed complete}", "anti-lock", "Anti-lock brakes: declared removed complete, but wires of it "
         "are in the car", "Anti-lock brakes: removed complete"),
        ("{}", "high voltage", "High-voltage wires, declared", "High-voltage wires: removed"),
        ("{}", "fusible link", "Fusible links, declared", "Fusible links: removed"),
    ],
)  # fmt: skip
def test_a_special_wire_is_in_the_car_until_its_removal_is_made_and_not_when_it_is_planned(
    systems: str, special: str, in_the_car: str, taken_out: str, tmp_path: Path
) -> None:
    planned = work(tmp_path, systems, special, PLANNED_OUT.replace("DONE", ""))
    assert planned.plan.of_wire("W1") == ()
    told = the_one(planned, in_the_car)
    assert (told.title, told.ids) == (in_the_car, ("W1",))
    assert taken_out not in titles(planned)
    done = work(tmp_path, systems, special, PLANNED_OUT.replace("DONE", ", made: 2031-05-04 AK"))
    told = the_one(done, taken_out)
    assert (told.title, told.ids) == (taken_out, ("C2",))
    assert in_the_car not in titles(done)


@pytest.mark.parametrize(
    ("key", "title"), [("anti-lock", "Anti-lock brakes"), ("immobiliser", "Immobiliser"), ("data bus", "Data pairs")]
)
def test_a_changed_system_says_what_has_to_hold(key: str, title: str, tmp_path: Path) -> None:
    told = the_one(work(tmp_path, f"{{{key}: changed}}"), title)
    assert (told.rank, told.title) == ("warning", f"{title}: changed")


def test_a_special_wire_is_told_where_its_system_is_not_declared(tmp_path: Path) -> None:
    assert the_one(work(tmp_path, special="restraint"), "Restraint").rank == "stop"
    link = work(tmp_path, special="fusible link")
    assert the_one(link, "Fusible links, declared").ids == ("W1",)
    assert "Fusible links" not in [rule.title for rule in standing(link)]  # told above


def test_what_was_not_looked_at_is_counted_among_the_cautions(tmp_path: Path) -> None:
    worked = work(tmp_path)
    assert worked.not_examined
    assert the_one(worked, "Not examined").title == f"Not examined: {len(worked.not_examined)}"


def test_the_owners_words_and_the_declarers_name_are_escaped_in_the_record(tmp_path: Path) -> None:
    worked = work(tmp_path, '{restraint: untouched, declared by: "<b>AK</b>"}')
    source = "{% for c in r.cautions %}<p>{{ c.title }} {{ c.text }}</p>{% endfor %}"
    page = environment(theme_dir()).from_string(source).render(r=record(worked))
    assert "&lt;b&gt;AK" in page
    assert "<b>AK" not in page


def test_the_face_of_a_ground_point_is_told_where_it_is_written(tmp_path: Path) -> None:
    points = """grounds:
  L1: {back to: battery-, surface: bare metal, painted: 2031-05-06 AK, near: [exhaust]}
  L2: {back to: battery-, surface: unknown, near: [none]}
  L3: {back to: battery-}"""
    row = "{id: C1, kind: add, wire: K1, from: L1, to: a.1, piece: BK 10 AWG, reach: 100 mm}"
    on = ", ".join([row, row.replace("1", "2", 1).replace("K1", "K2").replace("L1", "L2").replace("a.1", "a.2")])
    on += ", " + row.replace("C1", "C3").replace("K1", "K3").replace("L1", "L3").replace("a.1", "a.3")
    faces = {point.name: point.face for point in ground_sheet(work(tmp_path, rows=on, more=points)).rows}
    assert faces == {
        "L1": "face bare metal; painted 6 May 2031; close to exhaust",
        "L2": "face not known; nothing close to it",
        "L3": "",
    }


def test_what_a_row_says_of_shield_twist_and_link_is_on_its_page(tmp_path: Path) -> None:
    rows = (
        "{id: C1, kind: extend, wire: W1, plug: lamp, piece: BU 18 AWG, shield: left open, untwisted: 40 mm}, "
        "{id: C2, kind: add, wire: K1, from: B1, to: B2, piece: BK 18 AWG, cut: 150 mm, special: fusible link}"
    )
    told = {row.id: {fact.name: fact.value for fact in row.facts} for row in change_rows(work(tmp_path, rows=rows))}
    assert told["C1"]["shield"] == "left open"
    assert told["C1"]["longest untwisted run"] == "40 mm"
    assert told["C2"]["declared"] == "fusible link"
