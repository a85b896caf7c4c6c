"""Every code of a finding: a minimal job that raises it where it should, and a twin one fact away that does not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from aswired.checks.codes import FAULT, all_codes
from aswired.figures.worked import JobResult
from tests.findings import (
    cases_bundles,
    cases_circuits,
    cases_fuses,
    cases_grounds,
    cases_ledger,
    cases_options,
    cases_pieces,
    cases_places,
    cases_process,
    cases_relays,
    cases_rows,
    cases_special,
    cases_splices,
    cases_written,
)
from tests.findings.jobs import Case, work
from tests.findings.lines import told_elsewhere

CASES: tuple[Case, ...] = (
    *cases_bundles.CASES,
    *cases_circuits.CASES,
    *cases_options.CASES,
    *cases_fuses.CASES,
    *cases_ledger.CASES,
    *cases_relays.CASES,
    *cases_splices.CASES,
    *cases_places.CASES,
    *cases_process.CASES,
    *cases_pieces.CASES,
    *cases_rows.CASES,
    *cases_grounds.CASES,
    *cases_special.CASES,
    *cases_written.CASES,
)

# What each code is registered with: its ranks; file faults are held to their jobs in tests/bad_jobs and tests/read.
RANKS = {entry.code: set(entry.ranks) for entry in all_codes() if entry.ranks != (FAULT,)}


@dataclass(frozen=True)
class Outcome:
    """A case and its twin, worked out."""

    worked: JobResult
    raised: tuple[tuple[str, str, int], ...]  # rank, entry and line of each finding of the case's code
    twin: tuple[tuple[str, str, int], ...]


WORKED_OUT: dict[str, Outcome] = {}


def outcome(case: Case, folder: Path) -> Outcome:
    """Both jobs of a case, worked out once for all tests of this module."""
    if case.name not in WORKED_OUT:
        worked = work(folder / "job", case.text, case.today, case.photo_problems)
        problems = case.photo_problems if case.twin_photo_problems is None else case.twin_photo_problems
        twin = work(folder / "twin", case.twin_text, case.today, problems)
        WORKED_OUT[case.name] = Outcome(worked, raised(worked, case.code), raised(twin, case.code))
    return WORKED_OUT[case.name]


def raised(worked: JobResult, code: str) -> tuple[tuple[str, str, int], ...]:
    return tuple((f.severity.word, f.entry, f.at.line) for f in worked.findings if f.code == code)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_the_fault_is_found_where_it_stands(case: Case, tmp_path: Path) -> None:
    found = outcome(case, tmp_path)
    worked = found.worked
    assert set(found.raised) == {(case.severity, case.entry, case.line)}
    count, wrong = told_elsewhere({"job.yml": case.text.splitlines()}, worked)  # whatever else is found there
    assert wrong == []
    assert count >= (case.entry != "")
    finding = next(finding for finding in worked.findings if finding.code == case.code)
    assert finding.problem
    assert finding.mend
    # the battery stays off exactly while a stop stands that nobody let stand
    ranks = {finding.severity.word for finding in worked.findings if not finding.accepted_by}
    assert worked.may_power is ("stop" not in ranks)
    assert worked.may_hand_over is (not ranks & {"stop", "error"})


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_one_fact_less_and_nothing_is_found(case: Case, tmp_path: Path) -> None:
    assert outcome(case, tmp_path).twin == ()


def test_every_code_has_its_jobs_at_each_of_its_ranks(tmp_path: Path, tell: Callable[[str], None]) -> None:
    assert len(RANKS) > 50
    assert len({case.name for case in CASES}) == len(CASES)
    ranks: dict[str, set[str]] = {}
    tell(f"{'code':<7}{'raises':<36}{'twin':<8}threshold")
    for number, case in enumerate(CASES):
        found = outcome(case, tmp_path / f"{number}")
        ranks.setdefault(case.code, set()).update(word for word, _, _ in found.raised)
        words = ", ".join(f"{word} at line {line}" for word, _, line in found.raised) or "NOTHING"
        tell(
            f"{case.code:<7}{words:<36}{'RAISES' if found.twin else 'silent':<8}{case.threshold}  {case.what}".rstrip()
        )
    assert {name: words for name, words in ranks.items() if words != RANKS.get(name)} == {}
    assert RANKS.keys() - ranks.keys() == set()
