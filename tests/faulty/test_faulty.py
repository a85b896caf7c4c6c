"""The demo jobs with mistakes in them: every finding of the registry is raised where it should be, and told where it is
looked for; a job of which nothing is known raises no stop and no error."""

from __future__ import annotations

import datetime
import os
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import ModuleType

import pytest

from aswired.car.changes import KINDS
from aswired.checks.codes import FAULT, all_codes
from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.sheets.frame import anchor
from aswired.text.diagnostics import Finding
from aswired.work import work_out
from tests.crawl.tree import read as page_of
from tests.faulty import flatbed, taken_over, trail_truck
from tests.faulty.edits import JOBS, Edit, Raises, mistaken

ROOT = Path(__file__).resolve().parents[2]
SILENT = Path(__file__).parent / "silent"
TODAY = datetime.date(2031, 6, 1)  # after the last row of the demo jobs
TWINS: tuple[ModuleType, ...] = (trail_truck, flatbed, taken_over)
EACH_TWIN = pytest.mark.parametrize("twin", TWINS, ids=lambda twin: twin.SLUG)


@dataclass(frozen=True)
class Shop:
    """A shop of the twins, built by the command as a user builds it."""

    site: Path
    worked: dict[str, JobResult]


def work(job: Path) -> JobResult:
    read = read_job(job)
    assert read.job is not None, read.faults
    missing = {photo.id: "it is not there" for photo in read.job.photos if not (job / photo.file).exists()}
    return work_out(read.job, TODAY, missing)


@cache
def demo(slug: str) -> JobResult:
    return work(JOBS / slug)


def run(folder: Path, *order: str) -> subprocess.CompletedProcess[str]:
    env = os.environ | {"PYTHONPATH": str(ROOT / "builder"), "COLUMNS": "200"}
    line = [sys.executable, "-m", "aswired", *order]
    return subprocess.run(line, cwd=folder, env=env, capture_output=True, text=True, check=False)


pytestmark = pytest.mark.slow  # three sites are built


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    folder = tmp_path_factory.mktemp("shop")
    worked = {twin.SLUG: work(mistaken(twin.SLUG, twin.EDITS, folder / "jobs")) for twin in TWINS}
    built = run(folder, "build", "--out", "site")
    assert built.returncode == 0, built.stdout + built.stderr
    return Shop(folder / "site", worked)


def standing(worked: JobResult) -> set[Raises]:
    return {Raises(found.code, found.severity.word, found.entry) for found in worked.findings}


# ---- what is raised -------------------------------------------------------------------------------------------------
@EACH_TWIN
def test_the_demo_raises_none_of_it(twin: ModuleType) -> None:
    edits: tuple[Edit, ...] = twin.EDITS
    wanted = {raised for change in edits for raised in change.raises}
    assert standing(demo(twin.SLUG)) & wanted == set()


@EACH_TWIN
def test_each_mistake_is_found_where_it_was_made(twin: ModuleType, shop: Shop) -> None:
    edits: tuple[Edit, ...] = twin.EDITS
    there = standing(shop.worked[twin.SLUG])
    missed = [(change.why, raised) for change in edits for raised in change.raises if raised not in there]
    assert missed == []


def test_together_they_raise_every_code_at_each_of_its_ranks(tell: Callable[[str], None]) -> None:
    registry = {(entry.code, rank) for entry in all_codes() if entry.ranks != (FAULT,) for rank in entry.ranks}
    raised = [(found, twin.SLUG, change) for twin in TWINS for change in twin.EDITS for found in change.raises]
    assert {(found.code, found.rank) for found, _, _ in raised} == registry
    tell(f"{'code':<7}{'rank':<9}{'twin':<13}{'entry':<24}mistake")
    for found, slug, change in sorted(raised, key=lambda item: (item[0].code, item[0].rank)):
        tell(f"{found.code:<7}{found.rank:<9}{slug:<13}{found.entry or '(the job)':<24}{change.why}")


def test_what_follows_from_one_mistake_is_not_told_again(shop: Shop) -> None:
    def codes_at(slug: str, entry: str) -> set[str]:
        return {found.code for found in shop.worked[slug].findings if found.entry == entry}

    # the far end of W50 is told as unsaid (END03); that its plug is scrapped with W50 in it is the same gap
    assert "END08" not in codes_at(flatbed.SLUG, "C20")
    # C37, which takes W76 off this plug, is left out (ROW11): where W76 ends is then not known
    assert codes_at(trail_truck.SLUG, "C37") >= {"ROW11"}
    assert codes_at(trail_truck.SLUG, "roof-6") == set()


def test_one_thing_is_told_in_the_singular(shop: Shop) -> None:
    told = {(found.code, found.entry): found.problem for found in shop.worked[trail_truck.SLUG].findings}
    assert told["FUS04", "F6"].startswith("'heater fan' stays on and draws 19.0 A; F6 is 20 A, of which 80 % is 16.0 A")
    assert told["OPT02", "W40"] == (
        "W40 is for a car whose heater is electric, and is still fed; this car's heater is diesel"
    )
    told = {(found.code, found.entry): found.problem for found in shop.worked[flatbed.SLUG].findings}
    assert told["GND12", ""].startswith("the battery was moved, and L2 returns through the body")


# ---- what stands against power --------------------------------------------------------------------------------------
@EACH_TWIN
def test_a_stop_keeps_the_battery_off(twin: ModuleType, shop: Shop, tmp_path: Path) -> None:
    worked = shop.worked[twin.SLUG]
    assert (worked.may_power, worked.may_hand_over) == (False, False)
    # the taken-over car came with its lighter on too large a fuse
    stops = {(found.code, found.entry) for found in demo(twin.SLUG).findings if found.severity.word == "stop"}
    assert stops == ({("FUS01", "F6")} if twin is taken_over else set())
    job = mistaken(twin.SLUG, twin.EDITS, tmp_path / "jobs")
    told = run(tmp_path, "check", job.name)
    assert told.returncode == 3, told.stdout + told.stderr
    assert re.search(r"^Leave the power off\. ", told.stdout, re.MULTILINE)
    assert "Traceback" not in told.stdout + told.stderr


# ---- where it is told -----------------------------------------------------------------------------------------------
def sheets(worked: JobResult) -> dict[str, str]:
    """Entry -> the sheet on which findings of that entry are told, beside the overview; a row's comes last."""
    job = worked.job
    found = {
        **dict.fromkeys(worked.circuits, "circuits/"),
        **dict.fromkeys((ground.name for ground in worked.grounds), "grounds.html"),
        **dict.fromkeys((fuse.name for fuse in worked.fuses), "fuses.html"),
        **dict.fromkeys((*job.plugs, *job.modules), "connectors.html"),
        **dict.fromkeys((photo.id for photo in job.photos), "photos.html"),
        **dict.fromkeys((reading.id for reading in job.readings), "readings.html"),
        **dict.fromkeys(job.holes, "bundles.html"),
    }
    return found | dict.fromkeys((row.id for row in job.changes), "changes.html")


def sheet_of(worked: JobResult, finding: Finding) -> str:
    """The sheet a technician turns to for a finding; '' where the overview alone tells it."""
    known = sheets(worked)
    if finding.entry in known:
        file = known[finding.entry]
        return f"circuits/{anchor(finding.entry).lower()}.html" if file == "circuits/" else file
    row = finding.entry.split("-")[0]
    return known[row] if known.get(row) == "changes.html" else ""


def words(site: Path, slug: str, file: str) -> str:
    return page_of(site / "jobs" / slug / file).first("main").text


def printed(problem: str) -> str:
    """A sentence as `words` reads it off a page: every blank is alike there."""
    return " ".join(problem.split())


@EACH_TWIN
def test_every_finding_stands_on_the_overview_and_on_its_own_sheet(twin: ModuleType, shop: Shop) -> None:
    worked = shop.worked[twin.SLUG]
    overview = words(shop.site, twin.SLUG, "index.html")
    assert {found.code for found in worked.findings if found.code not in overview} == set()
    sheet = {found: sheet_of(worked, found) for found in worked.findings}
    assert sum(map(bool, sheet.values())) >= len(sheet) / 2
    # the row of a reading says by its verdict what the finding says
    untold = [
        (found.code, found.entry, file)
        for found, file in sheet.items()
        if file and found.code != "RDG01" and printed(found.problem) not in words(shop.site, twin.SLUG, file)
    ]
    assert untold == []


@EACH_TWIN
def test_what_stands_against_the_car_is_in_the_service_record(twin: ModuleType, shop: Shop) -> None:
    record = words(shop.site, twin.SLUG, "record.html")
    heavy = [f for f in shop.worked[twin.SLUG].findings if f.severity.word in ("stop", "error") and not f.accepted_by]
    assert heavy
    # the record names a thing without the quotes that stand around it elsewhere
    assert [f.problem for f in heavy if printed(f.problem).replace("'", "") not in record.replace("'", "")] == []


def test_no_page_says_that_a_system_is_gone_whose_wires_are_still_there(shop: Shop) -> None:
    # the twin's header declares the airbags removed and high voltage never fitted; W160 and W161 are in its wire list
    for file in ("index.html", "record.html"):
        told = words(shop.site, trail_truck.SLUG, file)
        assert "no airbag and no belt tensioner in this car" not in told
        assert "Restraint system: declared removed complete, but wires of it are in the car" in told
        assert "High voltage: declared never fitted, but wires of it are in the car" in told
        assert "Orange cables are high voltage." in told


# ---- silence --------------------------------------------------------------------------------------------------------
def test_a_job_of_which_nothing_is_known_raises_no_stop_and_no_error(tmp_path: Path) -> None:
    worked = work(SILENT)
    assert [(f.code, f.entry) for f in worked.findings if f.severity.word in ("stop", "error")] == []
    assert worked.may_power
    assert {row.id: row.status for row in worked.plan.rows if row.status != "in force"} == {"C13": "undecided"}
    # its every part is counted as not examined, so that silence never passes for a clean bill
    subjects = {unseen.subject for unseen in worked.not_examined}
    assert subjects >= {"circuits", "wires", "cavities", "grounds", "fuses", "splices", "cut ends", "route", "changes"}
    told = run(tmp_path, "check", str(SILENT))
    assert told.returncode == 0, told.stdout + told.stderr


def test_every_section_of_the_format_stands_in_it() -> None:
    read = read_job(SILENT)
    assert read.job is not None
    sections = ("landmarks", "holes", "route", "plugs", "fuses", "switches", "modules", "loads", "grounds", "splices",
                "wires", "offcuts", "changes", "readings", "service", "looms", "options")  # fmt: skip
    assert [name for name in sections if not getattr(read.job, name)] == []
    assert {kind.name for kind in KINDS} - {row.kind for row in read.job.changes} == set()
