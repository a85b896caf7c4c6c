"""Every code of the README: a minimal job that raises it where it should, and a twin one fact away that does not."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from aswired.worked import Worked
from tests.findings import (
    cases_bundles,
    cases_circuits,
    cases_grounds,
    cases_pieces,
    cases_places,
    cases_rows,
    cases_special,
    cases_splices,
)
from tests.findings.jobs import Case, work

README = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
CASES: tuple[Case, ...] = (
    *cases_bundles.CASES,
    *cases_circuits.CASES,
    *cases_splices.CASES,
    *cases_places.CASES,
    *cases_pieces.CASES,
    *cases_rows.CASES,
    *cases_grounds.CASES,
    *cases_special.CASES,
)

# Ranks below the one in the table: a bare splice that is only planned, dates that run backwards on two wires (F4).
LIGHTER = {("SPL04", "error"), ("ROW09", "note")}


def codes_of_the_readme() -> dict[str, set[str]]:
    """Code -> the ranks the README's table gives it, with ranges such as 'ROW01 to ROW03' spelled out."""
    found: dict[str, set[str]] = {}
    for cell, ranks in re.findall(r"^\| ([A-Z]{3}\d\d[^|]*) \| ([a-z, ]+) \|", README, re.MULTILINE):
        first, _, last = cell.partition(" to ")
        codes = [c.strip() for c in cell.split(",")]
        if last:
            codes = [f"{first[:3]}{number:02}" for number in range(int(first[3:]), int(last[3:]) + 1)]
        words = [word.strip() for word in ranks.split(",")]
        each = len(words) == len(codes)  # 'SPL01, SPL02 | error, warning': a rank a code
        for code, word in zip(codes, words if each else [""] * len(codes), strict=True):
            found[code] = {word} if each else set(words)
    return found


@dataclass(frozen=True)
class Outcome:
    """A case and its twin, worked out."""

    worked: Worked
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


def raised(worked: Worked, code: str) -> tuple[tuple[str, str, int], ...]:
    return tuple((f.severity.word, f.entry, f.at.line) for f in worked.findings if f.code == code)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_the_fault_is_found_where_it_stands(case: Case, tmp_path: Path) -> None:
    found = outcome(case, tmp_path)
    worked = found.worked
    assert set(found.raised) == {(case.severity, case.entry, case.line)}
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


def test_every_code_of_the_readme_has_its_jobs(tmp_path: Path, tell: Callable[[str], None]) -> None:
    documented = codes_of_the_readme()
    assert len(documented) > 50
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
    assert set(ranks) == set(documented)
    beyond = {(code, word) for code, words in ranks.items() for word in words - documented[code]}
    assert beyond == LIGHTER
    assert {code: words - ranks[code] for code, words in documented.items() if words - ranks[code]} == {}
