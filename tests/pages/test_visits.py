"""Visits after the hand-over stand on the readings sheet, in the printed record, and can be found."""

from __future__ import annotations

from pathlib import Path

from aswired.sheets.search import entries_of
from aswired.sheets.service import visits
from tests.findings.jobs import work

JOB = """
    job: Visits
    changes:
      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}
    readings:
      - {id: R1, of: C1, read: 0.4 V}
    service:
      - {id: S2, on: yes, complaint: no day was noted}
      - id: S3
        on: 2031-05-20 JT
        complaint: stop lamps move the <gauge>
        measured: [step one, step two]
        rows: [C1]
        readings: [R1]
      - {id: S1, on: 2031-05-10 AK, complaint: siren dead, found: green copper}
"""


def test_visits_stand_in_the_order_of_their_days(tmp_path: Path) -> None:
    told = visits(work(tmp_path, JOB))
    assert [(visit.id, visit.day, visit.by) for visit in told] == [
        ("S1", "10 May 2031", "AK"),
        ("S3", "20 May 2031", "JT"),
        ("S2", "not recorded", ""),
    ]
    assert told[0].found == "green copper"
    assert told[1].found == "not recorded"
    assert told[1].measured == ("step one", "step two")


def test_a_visit_is_found_by_its_words_and_by_the_rows_it_led_to(tmp_path: Path) -> None:
    entries = {entry.id: entry for entry in entries_of(work(tmp_path, JOB))}
    assert "green copper" in entries["S1"].text
    assert "C1 R1" in entries["S3"].text
    assert entries["S3"].uri.endswith("readings.html")
