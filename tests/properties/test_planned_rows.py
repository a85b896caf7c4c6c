"""What is planned changes nothing of what is told of the car as it stands.

Nothing is worked out by hand here. To a job whose rows are made a plan is added that takes every wire out: the figures
of the car and what is found about it stay as they were. A rule or a figure that takes the plan for the car then finds
no wire, no joint, no current.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from tests.findings.jobs import Case, figures, work
from tests.properties.copies import EACH_DEMO, Doc, document, dumped, of_each_code, parsed, sampled

# Bundles, joints and holes are those of the plan: what has to go through a hole is known before it is laid.
OF_THE_PLAN = {"centre", "conduit", "bore", "diameter", "bend", "splice", "hole", "tape", "bundled"}
# Findings about rows and joints are judged over the plan; the others are of the car.
JUDGED_OVER_THE_PLAN = {
    *("PHO03", "ROW01", "END08", "SPL01", "SPL07", "SPL09", "SPL11", "SPC01", "SPC02", "SPC03", "SPC05", "SPC07"),
    *("SPC09", "PRO04", "OPT02", "INS01", "BUN01", "BUN02", "PLC03", "REF08"),
}


def made_alone(doc: Doc) -> Doc:
    return {**doc, "changes": [row for row in doc.get("changes") or () if "made" in row]}


def then_all_out(doc: Doc, worked: JobResult) -> Doc:
    """The job with a planned removal of each wire that is in the car."""
    planned = [{"id": f"Z{number}", "kind": "remove", "wire": wire} for number, wire in enumerate(worked.now.wires)]
    return {**doc, "changes": [*doc["changes"], *planned]}


def of_the_car(worked: JobResult) -> dict[str, float | None]:
    return {key: value for key, value in figures(worked).items() if key.rpartition(".")[2] not in OF_THE_PLAN}


def found(worked: JobResult) -> Counter[tuple[str, str, str, str]]:
    told = (
        finding
        for finding in worked.findings
        if finding.code not in JUDGED_OVER_THE_PLAN and not finding.problem.startswith("once the planned rows are made")
    )
    return Counter((finding.code, finding.severity.word, finding.entry, finding.problem) for finding in told)


def has_made_rows(case: Case) -> bool:
    """Made on days that can be."""
    return bool(made_alone(parsed(case.text))["changes"]) and case.code not in ("ROW12", "ROW08")


@pytest.mark.parametrize("case", sampled(of_each_code(has_made_rows, 2)))
def test_a_plan_changes_nothing_of_the_car(case: Case, tmp_path: Path) -> None:
    doc = made_alone(parsed(case.text))
    car = work(tmp_path / "car", dumped(doc), case.today, case.photo_problems)
    planned = work(tmp_path / "planned", dumped(then_all_out(doc, car)), case.today, case.photo_problems)
    assert of_the_car(planned) == of_the_car(car)
    assert found(planned) == found(car)


@pytest.mark.parametrize("folder", EACH_DEMO)
def test_a_plan_changes_nothing_of_a_demo_car(folder: Path, tmp_path: Path) -> None:
    doc = made_alone(document(folder))
    car = work(tmp_path / "car", dumped(doc))
    planned = work(tmp_path / "planned", dumped(then_all_out(doc, car)))
    assert all(wire.removed_by for wire in planned.plan.wires.values())
    assert of_the_car(planned) == of_the_car(car)
    assert len(of_the_car(car)) > 60
