"""The thresholds of the checks, each held to what its source prints, and what a shop and a job set in their place."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import work

from aswired.files import read_job
from aswired.record.limits import TABLE, Limit, in_force, read_share, value_text

INCH = 25.4
BY_KEY = {line.key: line for line in TABLE}

# What each source prints; what was printed in inches comes in its own unit and is told in whole millimetres
READ = {
    "joint clear": (40, "mm", "vehicle makers' repair manuals"),  # 40 mm, 1.5 in in others
    "joint stagger": (50, "mm", "vehicle makers' repair manuals, several (2 in)"),
    "sleeve over overlap": (25, "mm", "vehicle makers' repair manuals, several (12 mm a side)"),
    "lap least": (3, "", "NASA-STD-8739.4"),
    "lap most": (6, "", "NASA-STD-8739.4"),
    "solder largest": (1.5, "mm2", "one vehicle maker: 16 AWG"),
    "untwisted": (50, "mm", "vehicle makers' repair manuals"),
    "rings per stud": (4, "", "AC 43.13-1B para 11-174"),
    "fuse share": (80, "%", "body-builder guides: load x 1.25"),
    "link longest": (230, "mm", "vehicle makers' repair manuals, several (9 in)"),
    "link steps": (4, "", "vehicle makers' repair manuals"),
    "heat of PVC": (85, "C", "vehicle makers' repair manuals, several (80 to 85 C)"),
    "heat of cross-linked": (125, "C", "vehicle makers' repair manuals"),
    "vinyl tape": (80, "C", "vehicle makers' repair manuals"),
    "lamp volts": (85, "%", "California 13 CCR 1249(c)"),
    "key-off draw": (0.05, "A", "teaching: parasitic draw, 25 to 50 mA"),
}
MEMORY = {
    "heat of silicone": (180, "C", "silicone cable, usual rating"),
    "heat of fluoropolymer": (150, "C", "ETFE, the lowest of them"),
    "relay pulls in": (65, "%", "relay data sheets"),
    "relay lets go": (10, "%", "relay data sheets"),
}
PRACTICE = {
    "joints in a wire": (2, ""),
    "pair pieces apart": (5, "mm"),
    "pair joints clear": (20, "mm"),
    "terminal steps": (2, ""),
    "rise warning": (0.10, "V"),
    "rise error": (0.20, "V"),
    "fuse from source": (300, "mm"),
    "conduit over bundle": (10, "%"),
    "fed backwards": (1.0, "V"),
    "trim": (30, "mm"),
}
HOUSE = {
    "place apart": (20, "mm"),
    "length apart": (20, "mm"),
    "size unread above": (5, "A"),
    "stack apart": (1, "A"),
    "hot zone": (105, "C"),
    "worse by": (0.1, "V"),
    "band of wire": (10, "%"),
    "band of allowances": (50, "%"),
    "band of draws": (15, "%"),
    "band least": (0.03, "V"),
    "keep offcut": (150, "mm"),
}


def test_every_threshold_is_what_its_source_prints_and_says_how_it_was_had() -> None:
    for table, mark in ((READ, "read"), (MEMORY, "from memory")):
        for key, (value, unit, source) in table.items():
            line = BY_KEY[key]
            assert (line.value, line.unit, line.mark) == (value, unit, mark), key
            assert line.source.startswith(source), key
    for own, mark in ((PRACTICE, "common practice, no source"), (HOUSE, "house value")):
        for key, what in own.items():
            line = BY_KEY[key]
            assert ((line.value, line.unit), line.mark) == (what, mark), key
    assert len(TABLE) == len(BY_KEY)
    assert set(BY_KEY) == {*READ, *MEMORY, *PRACTICE, *HOUSE}


def test_inches_and_gauges_of_the_sources_are_those_of_the_table() -> None:
    assert BY_KEY["joint stagger"].value == pytest.approx(2 * INCH, abs=1)  # 2 in are 50.8 mm
    assert BY_KEY["link longest"].value == pytest.approx(9 * INCH, abs=2)  # 9 in are 228.6 mm
    assert BY_KEY["sleeve over overlap"].value == pytest.approx(2 * 12, abs=1)  # 12 mm on either side
    assert BY_KEY["fuse share"].value == 100 / 1.25
    # the 85 C that a wire of PVC bears is above the 80 C that tape of PVC bears
    heats = [BY_KEY[f"heat of {kind}"].value for kind in ("PVC", "cross-linked", "fluoropolymer", "silicone")]
    assert heats == sorted(heats)
    assert BY_KEY["vinyl tape"].value < heats[0] < BY_KEY["hot zone"].value < heats[1]
    assert BY_KEY["lap least"].value < BY_KEY["lap most"].value
    assert BY_KEY["rise warning"].value < BY_KEY["rise error"].value
    assert BY_KEY["relay lets go"].value < BY_KEY["relay pulls in"].value


@pytest.mark.parametrize(("key", "text"), [("joint clear", "40 mm"), ("fuse share", "80 %"), ("link steps", "4")])
def test_a_threshold_is_told_as_people_write_it(key: str, text: str) -> None:
    assert value_text(BY_KEY[key]) == text


JOB = """
    job: Limits
    LIMITS
    fuses: {F1: {rating: 10 A}}
    wires: {W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


def of(folder: Path, limits: str, shop: str = "") -> dict[str, Limit]:
    folder.mkdir(parents=True, exist_ok=True)
    if shop:
        (folder.parent / "shop.yml").write_text(f"limits: {{{shop}}}\n", encoding="utf-8")
    return dict(work(folder, JOB.replace("LIMITS", f"limits: {{{limits}}}" if limits else "")).job.limits_in_force)


@pytest.mark.parametrize(
    ("written", "key", "value"),
    [
        ("joint clear: 2 in", "joint clear", 50.8),
        ("joint clear: 0 mm", "joint clear", 0),
        ("rise warning: 0.05 V", "rise warning", 0.05),
        ("key-off draw: 0.03 A", "key-off draw", 0.03),
        ("hot zone: 90 C", "hot zone", 90),
        ("hot zone: 0 C", "hot zone", 0),
        ("solder largest: 2.5 mm2", "solder largest", 2.5),
        ("fuse share: 75 %", "fuse share", 75),
        ("fuse share: 62.5", "fuse share", 62.5),
        ("link steps: 3", "link steps", 3),
    ],
)
def test_a_job_sets_one_line_in_the_unit_of_its_threshold(written: str, key: str, value: float, tmp_path: Path) -> None:
    found = of(tmp_path / "van", written)
    assert found[key].value == pytest.approx(value)
    assert (found[key].source, found[key].mark) == ("job.yml:2", "set for this job")
    assert {other: line for other, line in found.items() if other != key} == {
        other: line for other, line in BY_KEY.items() if other != key
    }


@pytest.mark.parametrize(
    ("written", "problem"),
    [
        ("joint clear: -1 mm", "'-1 mm' is below zero"),
        ("hot zone: -5 C", "'-5 C' is below zero"),
        ("joint clear: unknown", "'unknown' is no limit"),
        ("rise warning: unknown", "'unknown' is no limit"),
        ("key-off draw: unknown", "'unknown' is no limit"),
        ("solder largest: unknown", "'unknown' is no limit"),
        ("solder largest: 16 AWG", "'16 AWG' is no limit"),
        ("fuse share: most", "'most' is not a share"),
        ("fuse share: -80 %", "'-80 %' is not a share"),
    ],
)
def test_a_threshold_that_nothing_could_be_held_to_is_refused(written: str, problem: str, tmp_path: Path) -> None:
    (tmp_path / "job.yml").write_text(f"job: Limits\nlimits: {{{written}}}\n", encoding="utf-8")
    read = read_job(tmp_path)
    key = written.partition(":")[0]
    assert f"{key}: {problem}" in {fault.problem for fault in read.faults}


def test_of_shop_and_job_the_job_counts_and_each_says_where() -> None:
    assert in_force(None, None) == BY_KEY
    assert read_share(" 80 % ") == read_share("80") == 80
