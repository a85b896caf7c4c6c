"""What is told of a job stays told when things that nothing is wrong with stand before it in every table, or behind it.

A rule that ends at the first thing it may pass over, or that takes the first or the last of a table for the one that is
meant, tells less or otherwise then.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from aswired.figures.worked import JobResult
from tests.findings.jobs import Case, work
from tests.properties.copies import EACH_DEMO, Doc, document, dumped, of_each_code, parsed, sampled

# One thing of each table that is whole and has nothing to do with the others. No job here has a name with a Q.
TABLES: Doc = {
    "wires": {"WQ1": {"size": "1.0 mm2", "from": "Qa.1", "to": "Qb.1", "length": "900 mm"}},
    "loads": {"Qhorn": {"between": "Qa.3 Qb.3", "verdict": "deleted"}},
    "fuses": {"FQ1": {"rating": "5 A", "fed": "ignition", "in": "Qbox"}},
    "grounds": {"GQ1": {"back to": "battery-", "surface": "bare metal"}},
    "splices": {"SQ1": {}},
    "plugs": {"Qa": {}},
    "switches": {"Qswitch": {"between": "Qc.1 Qc.2"}},
    "offcuts": {"OQ1": "BU 1.0 mm2 1 m"},
}
LISTS: Doc = {
    "changes": [{"id": "CQ1", "kind": "terminate", "wire": "WQ1", "end": "Qb.1", "into": "Qb.2", "tail": "880 mm"}],
    "photos": [{"id": "PQ1", "file": "photos/q1.jpg", "shows": ["WQ1"]}],
    "readings": [{"id": "RQ1", "of": "WQ1", "read": "unknown"}],
}


def beside(doc: Doc, first: bool) -> Doc:
    def put(others: Any, own: Any) -> Any:
        one, two = (others, own) if first else (own, others)
        return {**one, **two} if isinstance(others, dict) else [*one, *two]

    tables = {key: put(others, doc.get(key) or {}) for key, others in TABLES.items()}
    return {**doc, **tables, **{key: put(others, doc.get(key) or []) for key, others in LISTS.items()}}


def found(worked: JobResult) -> Counter[tuple[str, ...]]:
    """What is told and what is not examined, without what names the innocent. Lines lie further down beside them, and a
    wire that nobody placed may lie in any bundle, so that each is at least as thick as it was."""
    told = [("finding", f.code, f.severity.word, f.entry, f.problem) for f in worked.findings]
    told += [("not examined", one.subject, one.entry, one.what) for one in worked.not_examined]
    plain = (tuple(re.sub(r"job.yml:\d+|at least (?=about)", "", words) for words in one) for one in told)
    return Counter(one for one in plain if not any("Q" in words for words in one))


@pytest.mark.parametrize("case", sampled(of_each_code(lambda case: True)))
def test_an_innocent_thing_in_every_table_changes_nothing(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    alone = found(work(tmp_path / "alone", dumped(doc), case.today, case.photo_problems))
    assert any(code == case.code for _, code, *_ in alone)
    for name, first in (("before", True), ("behind", False)):
        among = work(tmp_path / name, dumped(beside(doc, first)), case.today, case.photo_problems)
        assert found(among) == alone, name


@pytest.mark.parametrize("folder", EACH_DEMO)
def test_an_innocent_thing_in_every_table_changes_nothing_of_a_demo_car(folder: Path, tmp_path: Path) -> None:
    doc = document(folder)
    alone = found(work(tmp_path / "alone", dumped(doc)))
    assert len(alone) > 5
    assert found(work(tmp_path / "before", dumped(beside(doc, True)))) == alone
