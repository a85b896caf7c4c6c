"""What is told of days that cannot be and of what was let stand, word for word, where several stand together."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_grounds import CASES as STUDS
from tests.findings.jobs import work
from tests.findings.whole import MADE, assert_told

CLOCK = "Check the date, or the clock of this machine"
TO_COME = "a day that is still to come"
EARLY = "a day before 1900"


def test_each_step_of_a_row_is_told_by_what_is_wrong_with_its_own_day(tmp_path: Path) -> None:
    # today is 2031-06-01. C1 is sealed and made in the future, which is told of its made alone; C2 was made in 1031; C3
    # sealed and tested before it was made; C4 is sealed and not made; C5 sealed in the future; C6 tested in 1031; C7
    # and C8 are sound, C8 on the day itself
    text = """
    job: Days
    wires:
      W1: {size: 1.0 mm2, from: a.1, to: FS1}
    changes:
      - id: C1
        kind: verify
        proves: [C7]
        made: 2131-05-03 AK # made 1
        sealed: 2031-05-04 AK
      - id: C2
        kind: verify
        proves: [C7]
        made: 1031-05-03 AK # made 2
      - id: C3
        kind: verify
        proves: [C7]
        made: 2031-05-03 AK
        sealed: 2031-05-02 AK # sealed 3
        tested: 2031-05-01 AK # tested 3
      - id: C4
        kind: verify
        proves: [C7]
        sealed: 2031-05-02 AK # sealed 4
      - id: C5
        kind: verify
        proves: [C7]
        made: 2031-05-03 AK
        sealed: 2131-05-04 AK # sealed 5
      - id: C6
        kind: verify
        proves: [C7]
        made: 2031-05-03 AK
        tested: 1031-05-04 AK # tested 6
      - {id: C7, kind: verify, proves: [C7], made: 2031-05-03 AK, sealed: 2031-05-03 AK, tested: 2031-05-04 AK}
      - {id: C8, kind: verify, proves: [C7], made: 2031-06-01 AK}
    """
    two = "Check the two dates"
    assert_told(tmp_path, text, "ROW08 ROW12 ROW14 RDG10", [
        ("ROW12", "warning", "C1", "# made 1", f"made 2131-05-03, {TO_COME}; the row does not count yet", CLOCK),
        ("ROW14", "warning", "C2", "# made 2", f"made 1031-05-03, {EARLY}; the row counts, its day is not known",
         "Check the year; if the day is not known, write yes"),
        ("ROW08", "error", "C3", "# sealed 3", "sealed 2031-05-02 lies before made 2031-05-03", two),
        ("ROW08", "error", "C3", "# tested 3", "tested 2031-05-01 lies before made 2031-05-03", two),
        ("ROW08", "error", "C4", "# sealed 4", "the row is sealed but not made",
         "Write made: and the date, or take 'sealed:' out"),
        ("ROW14", "warning", "C5", "# sealed 5", f"sealed 2131-05-04, {TO_COME}; the row does not count as "
         "sealed", CLOCK),
        ("ROW14", "warning", "C6", "# tested 6", f"tested 1031-05-04, {EARLY}; the row does not count as tested",
         "Check the year"),
    ])  # fmt: skip


def test_every_other_day_of_a_job_is_told_with_what_no_longer_counts(tmp_path: Path) -> None:
    text = f"""
    job: Days
    handed over: 2131-05-20
    battery off: [2031-05-01 AK, 1031-05-02 AK]
    revisions: {{A: 2031-05-10, B: 2131-05-11}}
    grounds:
      L1: {{painted: 2031-05-06 AK}}
      L2:
        back to: battery-
        painted: 2131-05-06 AK # two
    wires: {{W1: {{size: 1.0 mm2, from: a.1, to: L1}}}}
    service:
      - {{id: V1, on: 2031-05-21, complaint: horn}}
      - id: V2
        on: 1031-05-22
        complaint: lamp
    readings:
      - {{id: R1, on: 2031-05-04, red: L1, black: battery-, read: 0.02 V}}
      - id: R2
        on: 2131-05-05
        red: L1
        black: battery-
        read: 0.02 V
      - id: R3
        on: 1031-05-06
        red: L1
        black: battery-
        read: 0.02 V
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
    """
    year = "Check the year"
    assert_told(tmp_path, text, "ROW14 RDG10", [
        ("ROW14", "warning", "", "handed over:", f"handed over 2131-05-20, {TO_COME}; the car counts as not handed "
         "over",
         CLOCK),
        ("ROW14", "warning", "", "battery off:",
         f"battery taken off 1031-05-02, {EARLY}; the day does not count", year),
        ("ROW14", "warning", "", "revisions:", f"revision B was given out 2131-05-11, {TO_COME}; the car of that "
         "day is "
         "not shown", CLOCK),
        ("ROW14", "warning", "L2", "# two", f"'L2' was painted 2131-05-06, {TO_COME}; the day does not count", CLOCK),
        ("ROW14", "warning", "V2", "on: 1031-05-22", f"visit V2 was 1031-05-22, {EARLY}; its day is not known", year),
        ("RDG10", "warning", "R2", "on: 2131-05-05", f"R2 was read 2131-05-05, {TO_COME}; it proves nothing and counts "
         "in no figure", CLOCK),
        ("RDG10", "warning", "R3", "on: 1031-05-06", f"R3 was read 1031-05-06, {EARLY}; it proves nothing and "
         "counts in "
         "no figure", year),
    ])  # fmt: skip


# Two fuses above their wires (1.0 mm2 is planned for 10 A; in PVC 33 CFR 183.425 lets it carry 15 A, so a named person
# may let it stand) and a piece thinner than its wire
ACCEPTED = f"""
    job: Let stand
    fuses:
      F1: {{rating: 15 A, fed: always}}
      F2: {{rating: 15 A, fed: always}}
    wires:
      W1: {{size: 1.5 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm, insulation: PVC}}
    accepted:
LIST    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 400 mm
        piece: BU 1.0 mm2
        insulation: PVC
        cover: cloth tape
        {MADE}
ROW      - {{id: C2, kind: verify, proves: [C1], {MADE}}}
"""


def stand(folder: Path, *, job: tuple[str, ...] = (), row: tuple[str, ...] = ()) -> list[tuple[str, str, str, str]]:
    """Code, entry, who let it stand and why, of every finding that somebody let stand."""
    lines = "".join(f"      - {{{line}}}\n" for line in job) or "      []\n"
    own = "".join(f"          - {{{line}}}\n" for line in row)
    text = ACCEPTED.replace("LIST", lines).replace("ROW", f"        accepted:\n{own}" if own else "")
    found = work(folder, text).findings
    return [(f.code, f.entry, f.accepted_by, f.accepted_why) for f in found if f.accepted_by]


def test_what_is_let_stand_is_what_its_line_names_and_the_first_line_that_does_counts(tmp_path: Path) -> None:
    assert stand(tmp_path / "none") == []
    assert stand(tmp_path / "one", job=("finding: FUS01, of: F2, by: AK, why: as the maker ran it",)) == [
        ("FUS01", "F2", "AK", "as the maker ran it"),
    ]
    both = ("finding: FUS01, of: F2, by: AK, why: first", "finding: FUS01, of: F2, by: BL, why: second")
    assert stand(tmp_path / "both", job=both) == [("FUS01", "F2", "AK", "first")]
    assert stand(tmp_path / "turned", job=tuple(reversed(both))) == [("FUS01", "F2", "BL", "second")]
    # of a fuse above its wire a line has to name the fuse, of a thin piece it need not
    every = ("finding: FUS01, by: AK, why: first", "finding: FUS01, of: F2, by: BL, why: second")
    assert stand(tmp_path / "every", job=every) == [("FUS01", "F2", "BL", "second")]
    thin = ("finding: SIZ01, by: AK, why: first", "finding: SIZ01, of: C1-W1, by: BL, why: second")
    assert stand(tmp_path / "thin", job=thin) == [("SIZ01", "C1-W1", "AK", "first")]
    assert stand(tmp_path / "own", job=tuple(reversed(thin))) == [("SIZ01", "C1-W1", "BL", "second")]


def test_what_is_let_stand_on_a_row_is_of_that_row_and_of_what_it_made(tmp_path: Path) -> None:
    size = "finding: SIZ01, by: AK, why: short and cool"
    assert stand(tmp_path / "piece", row=(size,)) == [("SIZ01", "C1-W1", "AK", "short and cool")]
    # a fuse is no part of the row, and what stands there is told on its own line
    assert stand(tmp_path / "fuse", row=("finding: FUS01, by: AK, why: no",)) == []
    # the job's own line goes before that of the row
    assert stand(tmp_path / "two", job=("finding: SIZ01, by: BL, why: job",), row=(size,)) == [
        ("SIZ01", "C1-W1", "BL", "job"),
    ]


def test_lines_that_let_nothing_stand_are_told_by_what_is_wrong_with_them(tmp_path: Path) -> None:
    by = "by: AK, why: so"
    text = f"""
    job: Let stand
    fuses: {{F1: {{rating: 15 A, fed: always}}}}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, insulation: PVC}}}}
    accepted:
      - {{finding: FUS01, of: F1, {by}}}
      - {{finding: FUS99, {by}}}
      - {{finding: fus01, {by}}}
      - {{finding: qqqqqq, {by}}}
      - {{finding: KEY01, {by}}}
      - {{finding: FUS01, of: F11, {by}}}
      - {{finding: FUS05, of: F1, {by}}}
      - {{finding: FUS04, {by}}}
      - {{finding: ACC02, {by}}}
    changes:
      - id: C1
        kind: verify
        proves: [C1]
        {MADE}
        accepted:
          - {{finding: TST03, {by}}}
          - {{finding: zzzzzz, {by}}}
    """
    out = "Take the line out, or write the id at which the finding stands"
    stands = "Write the code as it stands at the finding"
    assert_told(tmp_path, text, "ACC REF02", [
        ("ACC01", "warning", "", "FUS99", "'FUS99' is no code of a finding", "Did you mean FUS09?"),
        ("ACC01", "warning", "", "fus01", "'fus01' is no code of a finding", "Write FUS01"),
        ("ACC01", "warning", "", "qqqqqq", "'qqqqqq' is no code of a finding", stands),
        ("ACC01", "warning", "", "KEY01", "KEY01 is a fault of the file, which nobody can let stand", "Take the "
         "line out"),
        ("REF02", "error", "F11", "of: F11", "FUS01 is accepted at 'F11', which is nowhere in this job",
         "Did you mean F1?"),
        ("ACC02", "note", "F1", "FUS05", "FUS05 is accepted by AK, but does not occur at 'F1'", out),
        ("ACC02", "note", "", "FUS04", "FUS04 is accepted by AK, but does not occur in this job", out),
        ("ACC02", "note", "C1", "TST03", "TST03 is accepted by AK, but does not occur at C1", out),
        ("ACC01", "warning", "C1", "zzzzzz", "'zzzzzz' is no code of a finding", stands),
    ])  # fmt: skip


@pytest.mark.parametrize(("row", "by"), [("C2", "AK"), ("C1", "")])
def test_what_a_row_brought_about_is_let_stand_on_its_own_row_under_whatever_name_it_is_told(
    row: str, by: str, tmp_path: Path
) -> None:
    # the ring too many is told of the stud L1, on the line of the row that put it there, C2
    line = "accepted: [{finding: GND02, by: AK, why: a long stud}], "
    text = f"""
    job: A stud for one
    limits: {{rings per stud: 1}}
    grounds: {{L1: {{stud: M6, back to: battery-}}, G1: {{}}}}
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: G1}}
      W2: {{size: 1.0 mm2, from: b.1, to: G1}}
    changes:
      - {{id: C1, kind: ground, wire: W1, end: G1, to: L1, {line if row == "C1" else ""}{MADE}}}
      - {{id: C2, kind: ground, wire: W2, end: G1, to: L1, {line if row == "C2" else ""}{MADE}}}
    """
    found = work(tmp_path, text).findings
    assert [(f.entry, f.accepted_by) for f in found if f.code == "GND02"] == [("L1", by)]


def test_what_is_told_of_a_stud_on_the_line_of_the_ring_is_let_stand_on_the_row_of_that_ring(tmp_path: Path) -> None:
    case = next(case for case in STUDS if case.code == "GND04" and case.what == "")
    rows = [line for line in case.text.splitlines() if "id: C1" in line]
    assert len(rows) == 1
    plain = work(tmp_path / "plain", case.text)
    (found,) = [f for f in plain.findings if f.code == "GND04"]
    row = plain.job.change("C1")
    assert row is not None
    assert found.at == row.lines["ring"] != row.at
    let = rows[0].replace("id: C1", "id: C1\n    accepted: [{finding: GND04, by: AK, why: as the maker did}]")
    lines = let.splitlines()
    lines[1] = " " * (len(lines[0]) - len(lines[0].lstrip()) + 2) + lines[1].strip()
    worked = work(tmp_path / "let", case.text.replace(rows[0], "\n".join(lines)))
    assert [(f.entry, f.accepted_by) for f in worked.findings if f.code == "GND04"] == [("L1", "AK")]
    assert [f.entry for f in worked.findings if f.code == "ACC02"] == []
