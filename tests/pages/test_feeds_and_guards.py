"""What is written of feeds, guards, plugs and times on: unknown, not written and written, each told as itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets.connectors import connector_views, module_views
from aswired.sheets.fuses import fuse_sheet
from aswired.sheets.recorded import header_facts, load_facts
from aswired.sheets.search import entries_of
from aswired.sheets.text import is_unsaid
from aswired.text.units import Quantity
from tests.findings.jobs import work

CAR = """
job: Feeds
body strap: {cable: 16 mm2, cable length: 400 mm}
plugs:
  wheel-rl: {behind: speed sensor}
  wheel-rr: {behind: "?"}
  wheel-fl: {}
fuses:
  F1: {rating: 10 A, fed from: fuse-box.bus}
  F2: {rating: 10 A, fed from: Unknown}
  F3: {rating: 10 A}
sources:
  aux: {plus: aux.plus, minus: aux.minus}
  alternator: {plus: unknown}
modules:
  unit: {out: {22: glow feed, 23: fan feed, 24: spare feed}, guarded: {22: 7.5 A, 23: unknown}}
loads:
  winch: {between: winch.1 winch.2, on at most: 60 s}
  lift: {between: lift.1 lift.2, on at most: unknown}
  lamp: {between: lamp.1 lamp.2}
wires:
  W1: {from: battery+, to: fuse-box.bus}
  W2: {from: aux.plus, to: aux-fuse.1}
  W3: {from: aux.minus, to: battery-}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


@pytest.fixture
def car(tmp_path: Path) -> JobResult:
    return work(tmp_path, CAR)


def test_what_is_read_is_kept_apart_from_what_is_unknown_and_what_nobody_wrote(car: JobResult) -> None:
    job = car.job
    assert [plug.behind for plug in job.plugs.values()] == ["speed sensor", "unknown", ""]
    assert [fuse.fed_from for fuse in job.fuses.values()] == ["fuse-box.bus", "unknown", ""]
    assert [(source.plus, source.minus) for source in job.sources.values()] == [
        ("aux.plus", "aux.minus"),
        ("unknown", ""),
    ]
    assert job.modules["unit"].guarded == {"22": Quantity("7.5 A", 7.5, "A"), "23": Quantity("unknown", None, "A")}
    assert [load.on_at_most for load in job.loads.values()] == [
        Quantity("60 s", 60, "s"),
        Quantity("unknown", None, "s"),
        None,
    ]
    strap = job.body_strap
    assert strap is not None
    assert strap.cable is not None
    assert strap.cable_length is not None
    assert (strap.cable.number, strap.cable_length.mm) == (16, 400)


def test_fuses_and_sources_say_where_they_hang(car: JobResult) -> None:
    sheet = fuse_sheet(car)
    assert [row.fed_from for row in sheet.rows] == ["fuse-box.bus", "not known", ""]
    assert is_unsaid(sheet.rows[1].fed_from)
    assert [(row.name, row.plus, row.minus) for row in sheet.sources] == [
        ("aux", "aux.plus", "aux.minus"),
        ("alternator", "not known", "not recorded"),
    ]


def test_an_output_says_what_it_is_guarded_to(car: JobResult) -> None:
    (unit,) = module_views(car)
    assert [(row.cavity, row.says) for row in unit.cavities] == [
        ("22", "glow feed, guarded to 7.5 A"),
        ("23", "fan feed, what it is guarded to is not known"),
        ("24", "spare feed"),
    ]


def test_a_plug_says_what_is_behind_it(car: JobResult) -> None:
    said = {view.name: view.beside for view in connector_views(car)}
    assert said["wheel-rl"] == "Behind it: speed sensor."
    assert said["wheel-rr"] == "What is behind it is not known."
    assert said["wheel-fl"] == ""


def test_a_load_says_how_long_it_is_on(car: JobResult) -> None:
    told = {name: [(fact.name, fact.value) for fact in load_facts(name, car)] for name in car.job.loads}
    assert told == {"winch": [("on at a time", "at most 60 s")], "lift": [("on at a time", "not known")], "lamp": []}


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("{cable: 16 mm2, cable length: 400 mm}", "16 mm², length 400 mm"),
        ("{cable: 6 AWG}", "6 AWG"),
        ("{cable: unknown, cable length: unknown}", "size not read, length not known"),
        ("{}", None),
    ],
)
def test_the_strap_of_the_body_is_told_as_far_as_it_is_written(written: str, told: str | None, tmp_path: Path) -> None:
    job = work(tmp_path, CAR.replace("{cable: 16 mm2, cable length: 400 mm}", written)).job
    facts = {fact.name: fact.value for fact in header_facts(job)}
    assert facts.get("Body to battery negative by") == told


def test_they_are_found_where_they_are_shown(car: JobResult) -> None:
    found = {entry.id: entry for entry in entries_of(car)}
    assert (found["aux"].uri.rpartition("/")[2], found["aux"].anchor) == ("fuses.html", "aux")
    assert found["aux"].title == "source of current"
    assert "fuse-box.bus" in found["F1"].text
    assert "speed sensor" in found["wheel-rl"].text
