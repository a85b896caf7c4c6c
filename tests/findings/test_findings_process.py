"""The order of the work and its proofs, whole sentences: which rows, on which day, and what is not asked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_splices import USUAL
from tests.findings.said import entries, said

TEST_FIRST = "Test before the wrap; if it was opened again, say so on a row that redoes it"
SEAL_FIRST = "Finish and seal them first, or write the day on which they were sealed"
LOOM = f"""{USUAL}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: a.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F1, to: b.1, length: 900 mm}}
      W3: {{size: 1.0 mm2, from: F1, to: c.1, length: 900 mm}}
      W4: {{size: 1.0 mm2, from: F1, to: d.1, length: 900 mm}}
      W5: {{size: 1.0 mm2, from: F1, to: e.1, length: 900 mm}}
    landmarks: {{bulkhead: grommet, nose: end}}
    route: [{{from: bulkhead, to: nose, length: 1 m}}]
    changes:
"""


def longer(number: int, says: str) -> str:
    """Row C1, C2 ... makes W1, W2 ... longer."""
    return (
        f"      - {{id: C{number}, kind: extend, wire: W{number}, plug: {'abcde'[number - 1]}, pigtail: 200 mm, "
        f"gap: 400 mm, piece: BU 1.0 mm2, {says}}}\n"
    )


def wrap(over: str, says: str = "made: 2031-05-10 AK") -> str:
    rows = ("- id: C9", "  kind: cover", "  cover: cloth tape", f"  over: [{over}] # over", f"  {says}")
    return "".join(f"      {row}\n" for row in rows)


def test_a_wrap_tells_of_each_joint_in_it_what_was_still_open(tmp_path: Path) -> None:
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK, sealed: 2031-05-03 AK")
        + longer(2, "why: next week")
        + longer(3, "made: 2031-05-11 AK, sealed: 2031-05-11 AK")
        + longer(4, "made: 2031-05-10 AK")
        + longer(5, "made: 2031-05-03 AK, tested: 2031-05-10 AK")  # what was tried was closed
        + "      - {id: C6, kind: remove, wire: W1, ends: {F1: gone, a.1: gone}, made: 2031-05-09 AK}\n"  # no joint
        + wrap("C1, C2, C3, C4, C5, C6, C77")
    )
    problem = "C9 wraps in what was still open: C2 (planned), C3 (made 2031-05-11), C4 (not sealed)"
    assert said(tmp_path, text, "PRO02") == [("warning", "C9", "over", problem, SEAL_FIRST)]


def test_a_wrap_tells_of_each_joint_in_it_that_was_tested_later(tmp_path: Path) -> None:
    sealed = "made: 2031-05-03 AK, sealed: 2031-05-03 AK"
    text = (
        LOOM
        + longer(1, f"{sealed}, tested: 2031-05-11 AK")
        + longer(2, f"{sealed}, tested: 2031-05-10 AK")
        + longer(3, sealed)
        + longer(4, sealed)
        + "      - {id: C5, kind: reroute, wire: W5, by: [nose], made: 2031-05-03 AK, tested: 2031-05-20 AK}\n"
        + "      - {id: C6, kind: verify, proves: [C4, C3], made: 2031-05-14 AK}\n"
        + "      - {id: C7, kind: verify, proves: [C3], made: 2031-05-12 AK}\n"
        + wrap("C1, C2, C3, C4, C5, C77")
    )
    problem = (
        "C9 was wrapped on 2031-05-10, before the joints in it were tested: C1 (tested 2031-05-11), "
        "C3 (tested 2031-05-12), C4 (tested 2031-05-14)"
    )
    assert said(tmp_path, text, "PRO01") == [("warning", "C9", "over", problem, TEST_FIRST)]


@pytest.mark.parametrize(("says", "open_"), [
    ("made: yes", ["C9"]),  # wrapped, nobody knows when: what is not sealed is told, what came first is not known
    ("why: next week", []),
])  # fmt: skip
def test_a_wrap_without_a_day_comes_before_nothing(says: str, open_: list[str], tmp_path: Path) -> None:
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK, sealed: 2031-05-03 AK, tested: 2031-05-11 AK")
        + longer(2, "made: yes")
        + longer(3, "made: 2031-05-11 AK, sealed: 2031-05-11 AK")
        + wrap("C1, C2, C3", says)
    )
    assert entries(tmp_path / "late", text, "PRO01") == []
    found = said(tmp_path / "open", text, "PRO02")
    assert [problem for _, _, _, problem, _ in found] == [
        "C9 wraps in what was still open: C2 (not sealed)" for _ in open_
    ]


# ---- what was tried -------------------------------------------------------------------------------------------------
TRY = "Try each, and write a verify row that proves it, a tested date, or a reading of it"
CIRCUITS = (
    USUAL
    + """
    handed over: 2031-05-30 # handed over
    fuses: {F1: {rating: 5 A, fed: always}}
    loads:
      a: {between: a.1 a.2, draws: 1 A}
      b: {between: b.1 b.2, draws: 1 A}
      c: {between: c.1 c.2, draws: 1 A, verdict: deleted}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: a.1, length: 900 mm}
      W2: {size: 1.0 mm2, from: F1, to: b.1, length: 900 mm}
      W3: {size: 1.0 mm2, from: F1, to: c.1, length: 900 mm}
      W4: {size: 1.0 mm2, from: q.1, to: d.1, length: 900 mm}
      W5: {size: 1.0 mm2, from: q.2, to: e.1, length: 900 mm}
      W6: {size: 1.0 mm2, from: a.2, to: battery-, length: 900 mm}
      W7: {size: 1.0 mm2, from: b.2, to: battery-, length: 900 mm}
      W8: {size: 1.0 mm2, from: c.2, to: battery-, length: 900 mm}
    landmarks: {bulkhead: grommet, nose: end}
    route: [{from: bulkhead, to: nose, length: 1 m}]
    changes:
"""
)
DONE = "made: 2031-05-03 AK"
RETURN = "      - {id: C7, kind: shorten, wire: W7, end: b.2, pigtail: 100 mm, take out: 50 mm, made: 2031-05-03 AK}\n"


@pytest.mark.parametrize(("rows", "after", "problem"), [
    (longer(1, DONE), "", "1 changed circuit (a)"),
    (longer(1, DONE) + longer(2, DONE), "", "2 changed circuits (a, b)"),
    (longer(2, DONE), "", "1 changed circuit (b)"),
    (RETURN, "", "1 changed circuit (b)"),  # by its return
    (longer(3, DONE), "", ""),  # a deleted load is on no list
    (longer(4, DONE), "", "1 row on no traced circuit (C4)"),
    (longer(4, DONE) + longer(5, DONE), "", "2 rows on no traced circuit (C4, C5)"),
    (longer(1, DONE) + longer(4, DONE), "", "1 changed circuit (a) and 1 row on no traced circuit (C4)"),
    (longer(1, f"{DONE}, tested: 2031-05-04 AK") + longer(2, DONE), "", "1 changed circuit (b)"),
    (longer(1, "why: next week") + longer(2, DONE), "", "1 changed circuit (b)"),
    (longer(1, DONE) + longer(2, DONE), "    readings: [{id: R1, of: b, read: 12.4 V}]\n", "1 changed circuit (a)"),
    (longer(1, DONE) + longer(2, DONE), "    readings: [{id: R1, of: W2, read: 12.4 V}]\n", "1 changed circuit (a)"),
    (longer(1, DONE) + longer(2, DONE), "    readings: [{id: R1, of: C2, read: 12.4 V}]\n", "1 changed circuit (a)"),
    (longer(1, DONE) + longer(2, DONE), "    readings: [{id: R1, of: b, read: not measured}]\n",
     "2 changed circuits (a, b)"),
    (longer(4, DONE) + longer(5, DONE), "    readings: [{id: R1, of: W4, read: 12.4 V}]\n",
     "1 row on no traced circuit (C5)"),
    (longer(1, DONE) + longer(2, DONE)
     + "      - {id: C8, kind: verify, wire: W1, proves: [C4], made: 2031-05-04 AK}\n", "", "1 changed circuit (b)"),
    ("      - {id: C1, kind: remove, wire: W4, ends: {q.1: gone, d.1: gone}, made: 2031-05-03 AK}\n"
     "      - {id: C2, kind: cap, wire: W5, end: q.2, stub: 30 mm, far: gone, cover: adhesive sleeve, "
     "made: 2031-05-03 AK}\n"
     "      - {id: C3, kind: reroute, wire: W1, by: [nose], made: 2031-05-03 AK}\n"
     "      - {id: C4, kind: cover, from: bulkhead, to: nose, cover: cloth tape, made: 2031-05-03 AK}\n", "", ""),
])  # fmt: skip
def test_what_was_changed_and_not_tried_is_told_once_for_the_job(
    rows: str, after: str, problem: str, tmp_path: Path
) -> None:
    found = said(tmp_path, CIRCUITS + rows + after, "PRO03")
    whole = f"neither test nor reading of {problem}"
    assert found == ([("warning", "", "handed over", whole, TRY)] if problem else [])


def test_nothing_is_asked_for_before_the_car_is_given_out_or_one_check_was_made(tmp_path: Path) -> None:
    text = CIRCUITS.replace("    handed over: 2031-05-30 # handed over\n", "") + longer(1, DONE) + longer(2, DONE)
    check = "      - {id: C8, kind: verify, proves: [C1], WHEN}\n"
    assert entries(tmp_path / "not yet", text, "PRO03") == []
    planned, made = check.replace("WHEN", "why: soon"), check.replace("WHEN", "made: 2031-05-04 AK")
    assert entries(tmp_path / "planned", text + planned, "PRO03") == []
    found = said(tmp_path / "one", text + made, "PRO03")
    assert [problem for *_, problem, _ in found] == ["neither test nor reading of 1 changed circuit (b)"]


# ---- the battery ----------------------------------------------------------------------------------------------------
DAYS = "Write those days under battery off:, or let it stand when the harness was on the bench"


def test_each_day_of_cutting_without_the_battery_off_is_told_in_order(tmp_path: Path) -> None:
    text = (
        CIRCUITS.replace("handed over: 2031-05-30 # handed over", "battery off: [2031-05-05 AK] # off")
        + longer(2, "made: 2031-05-09 AK")
        + longer(1, "made: 2031-05-04 AK")
        + longer(3, "made: 2031-05-05 AK")
        + longer(4, "why: soon")
        + "      - {id: C5, kind: remove, wire: W5, ends: {q.2: gone, e.1: gone}, made: 2031-05-06 AK}\n"
        + "      - {id: C6, kind: reroute, wire: W6, by: [nose], made: 2031-05-07 AK}\n"
        + "      - {id: C7, kind: cap, wire: W8, end: c.2, stub: 30 mm, far: gone, made: 2031-05-09 AK}\n"
        + "      - {id: C8, kind: shorten, wire: W7, plug: b, take out: 50 mm, terminal: pin, made: 2031-05-11 AK}\n"
    )
    problem = "wires were cut or spliced with no word of the battery on 2031-05-04, 2031-05-06, 2031-05-09, 2031-05-11"
    assert said(tmp_path, text, "PRO04") == [("note", "", "off", problem, DAYS)]
    assert entries(tmp_path / "no list", text.replace("battery off: [2031-05-05 AK] # off", ""), "PRO04") == []


# ---- readings -------------------------------------------------------------------------------------------------------
READ_MEND = "Find out why, mend it, and write the new reading of the same two points"
NOTED = "Nothing to do: it stays as what was found"


def readings(*lines: str) -> str:
    return (
        "    job: Readings\n    grounds: {L1: {back to: battery-}, L2: {back to: battery-}}\n"
        "    wires: {W1: {from: lamp.2, to: L1}, W2: {from: horn.2, to: L2}}\n"
        "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n    readings:\n"
        + "".join(f"      - {{id: R{n}, {line}}} # R{n}\n" for n, line in enumerate(lines, 1))
    )


@pytest.mark.parametrize(("first", "problem"), [
    ("red: L1, black: battery-, limit: 0.2 V, read: 0.21 V",
     "R1 read 0.21 V between L1 and battery-; it should stay below 0.2 V"),
    ("red: L1, black: battery-, at least: 12 V, read: 11.9 V",
     "R1 read 11.9 V between L1 and battery-; it should reach 12 V"),
    ("red: L1, black: battery-, at least: 0.1 V, limit: 0.2 V, read: 0.3 V",
     "R1 read 0.3 V between L1 and battery-; it should stay below 0.2 V"),
    ("red: L1, limit: 0.2 V, read: 0.21 V", "R1 read 0.21 V; it should stay below 0.2 V"),
    ("black: L1, limit: 0.2 V, read: 0.21 V", "R1 read 0.21 V; it should stay below 0.2 V"),
    ("of: L1, limit: 0.2 V, read: 0.21 V", "R1 read 0.21 V; it should stay below 0.2 V"),
    ("red: L1, black: battery-, limit: 0.2 V, read: 0.2 V", ""),
    ("red: L1, black: battery-, at least: 12 V, read: 12 V", ""),
    ("red: L1, black: battery-, limit: 0.2 V, read: unknown", ""),
    ("red: L1, black: battery-, at least: 12 V, read: not measured", ""),
])  # fmt: skip
def test_a_reading_outside_its_limit_says_where_and_which(first: str, problem: str, tmp_path: Path) -> None:
    found = said(tmp_path, readings(first), "RDG01")
    assert found == ([("error", "R1", "R1", problem, READ_MEND)] if problem else [])


BAD = "red: L1, black: battery-, limit: 0.2 V, read: 0.3 V"
GOOD = "red: L1, black: battery-, limit: 0.2 V, read: 0.1 V"


@pytest.mark.parametrize(("lines", "by"), [
    ((f"{BAD}, on: 2031-05-03", f"{GOOD}, on: 2031-05-04"), "R2"),
    ((f"{BAD}, on: 2031-05-03", f"{GOOD}, on: 2031-05-03"), "R2"),  # of one day the later in the file
    ((f"{GOOD}, on: 2031-05-03", f"{BAD}, on: 2031-05-03"), ""),
    ((f"{GOOD}, on: 2031-05-05", f"{BAD}, on: 2031-05-03"), "R1"),
    ((BAD, GOOD), "R2"),
    ((GOOD, BAD), ""),
    ((f"{BAD}, on: 2031-05-03", GOOD), "R2"),  # a day that is not known leaves the order of the file
    ((GOOD, f"{BAD}, on: 2031-05-03"), ""),
    ((BAD, f"{GOOD}, on: 2031-05-03"), "R2"),
    ((f"{GOOD}, on: 2031-05-05", BAD), ""),
    ((BAD, "red: L2, black: battery-, limit: 0.2 V, read: 0.1 V", GOOD), "R3"),  # elsewhere
    ((BAD, "red: L1, black: battery-, limit: 0.2 V, read: not measured", GOOD), "R3"),  # nothing read
    ((BAD, "red: L1, black: battery-, limit: 0.2 A, read: 0.1 A", GOOD), "R3"),  # another quantity
    ((BAD, "red: L1, black: battery-, limit: 0.3 V, read: 0.25 V", GOOD), "R3"),  # not within the limit of the first
    ((BAD, "red: L1, black: battery-, at least: 0.15 V, read: 0.1 V", GOOD), "R3"),  # outside its own
    ((BAD, GOOD, GOOD), "R2"),  # the first that is inside
    ((BAD.replace("black: battery-, ", ""), GOOD.replace("black: battery-, ", "")), ""),  # one lead is nowhere
    ((BAD.replace("battery-", "unknown"), GOOD.replace("battery-", "unknown")), ""),
    ((BAD.replace("battery-", "L1"), GOOD.replace("battery-", "L1")), ""),
])  # fmt: skip
def test_a_reading_outside_is_mended_by_a_later_one_of_the_same_points_that_is_inside(
    lines: tuple[str, ...], by: str, tmp_path: Path
) -> None:
    (bad,) = [f"R{n}" for n, line in enumerate(lines, 1) if "read: 0.3 V" in line]
    (found,) = [finding for finding in said(tmp_path, readings(*lines), "RDG01") if finding[1] == bad]
    rank, _, line, problem, mend = found
    assert (rank, line) == ("note" if by else "error", bad)
    assert problem.partition("0.2 V")[2] == (f"; {by} read there later is inside" if by else "")
    assert mend == (NOTED if by else READ_MEND)


def test_a_reading_of_a_row_that_was_done_again_is_a_note_to_measure_again(tmp_path: Path) -> None:
    text = f"""{USUAL}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: terminate, wire: W1, end: lamp.1, into: lamp.1, tail: 800 mm, terminal: pin, {DONE}}}
      - {{id: C2, kind: terminate, wire: W1, end: lamp.1, into: lamp.1, tail: 700 mm, terminal: pin, redoes: C1,
         made: 2031-05-05 AK}}
    readings:
      - {{id: R1, of: C1, red: F1, black: lamp.1, limit: 0.2 V, read: 0.3 V, on: 2031-05-04}} # R1
    """
    problem = "R1 read 0.3 V between F1 and lamp.1; it should stay below 0.2 V; C2 was done since in its place"
    mend = "Measure there again and write it down"
    assert said(tmp_path, text, "RDG01") == [("note", "R1", "R1", problem, mend)]


# ---- proofs and pictures --------------------------------------------------------------------------------------------
def test_a_check_tells_of_all_that_it_does_not_prove_in_one_sentence_a_reason(tmp_path: Path) -> None:
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK")
        + longer(2, "made: 2031-05-06 AK")
        + longer(3, "why: next week")
        + "      - id: C7\n        kind: verify\n        proves: [C1, C2, C3, C7] # proves\n"
        + "        made: 2031-05-05 AK # made\n"
    )
    assert said(tmp_path, text, "TST01", "TST03") == [
        ("warning", "C7", "proves", "C7 proves itself; a check says nothing about its own work",
         "Name the rows whose work was tried"),
        ("warning", "C7", "made",
         "C7 was made before the work it proves: C2 (made 2031-05-06), C3 (planned)",
         "Try it again and date the check by that day, or mend the dates"),
    ]  # fmt: skip


def test_checks_that_prove_each_other_are_told_on_each(tmp_path: Path) -> None:
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK")
        + "      - {id: C7, kind: verify, proves: [C1, C8], made: 2031-05-05 AK} # C7\n"
        + "      - {id: C8, kind: verify, proves: [C7], made: 2031-05-05 AK} # C8\n"
    )
    mend = "Name the rows whose work was tried, not the check of them"
    assert said(tmp_path, text, "TST01") == [
        ("warning", one, one, f"{one} and {two} prove each other, so neither proves anything of the other", mend)
        for one, two in (("C7", "C8"), ("C8", "C7"))
    ]


@pytest.mark.parametrize("key", ["test", "expect"])
def test_a_check_in_which_nothing_was_read_is_told_where_that_stands(key: str, tmp_path: Path) -> None:
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK")
        + longer(2, "made: 2031-05-03 AK")
        + "      - id: C7\n        kind: verify\n        proves: [C1, C2] # proves\n"
        + f"        {key}: not measured # {key}\n        made: 2031-05-05 AK\n"
    )
    problem = "C7 was made, but nothing was measured or read; it proves nothing of C1, C2"
    mend = "Measure, and write what was read; or take 'made:' out until it is done"
    assert said(tmp_path, text, "TST02") == [("warning", "C7", key, problem, mend)]


COVERED = "Cover it with hide: [[x, y, width, height]], or keep the picture back with publish: no"


def test_pictures_are_told_of_what_they_show_of_people_and_of_what_they_do_not_say(tmp_path: Path) -> None:
    hide = "hide: [[0.1, 0.1, 0.2, 0.2]]"
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK, photos: [P6]")
        + "    photos:\n"
        + "".join(f"      - {{id: P{n}, file: photos/p{n}.jpg, {says}}} # P{n}\n" for n, says in enumerate((
            f"face or plate: yes, shows: [C1], {hide}",
            "face or plate: yes, shows: [C1], publish: no",
            "face or plate: yes, shows: [C1]",
            "stage: sealed, marks: [{ring: [0.5, 0.5, 0.1], of: C1}]",
            "stage: sealed",
            "stage: sealed",
            "stage: sealed, marks: [{ring: [0.5, 0.5, 0.1], says: here}]",
        ), 1))
    )  # fmt: skip
    face = "a face or a plate can be told on P3, and nothing covers it in the owner's edition"
    assert said(tmp_path, text, "PHO06") == [("warning", "P3", "P3", face, COVERED)]
    assert said(tmp_path, text, "PHO05") == [
        ("note", "", "P5", "no row names P5, P7, and what is on the picture is not said",
         "Write shows: and the ids on it, or take the picture out")
    ]  # fmt: skip


ADD = "Add one that shows it with a rule; once it is wrapped, let it stand with the reason"


def test_a_row_whose_joints_have_no_picture_tells_how_many(tmp_path: Path) -> None:
    text = (
        LOOM
        + longer(1, "made: 2031-05-03 AK").rstrip() + " # C1\n"
        + longer(2, "made: 2031-05-03 AK, photos: [P1]")
        + longer(3, "made: 2031-05-03 AK")
        + longer(4, "why: next week")
        + "      - {id: C5, kind: tap, wire: N1, onto: W5, to: x.1, reach: 400 mm, piece: BU 1.0 mm2, "
        + "made: 2031-05-03 AK} # C5\n"
        + "      - {id: C6, kind: reroute, wire: W4, by: [nose], made: 2031-05-03 AK}\n"
        + "    photos: [{id: P1, file: photos/p1.jpg}, {id: P2, file: photos/p2.jpg, shows: [C3-W3-loom]}]\n"
    )  # fmt: skip
    assert said(tmp_path, text, "PHO03") == [
        ("warning", "C1", "C1", "the 2 joints of C1 have no photograph", ADD),
        ("warning", "C5", "C5", "joint C5 has no photograph", ADD),
    ]
