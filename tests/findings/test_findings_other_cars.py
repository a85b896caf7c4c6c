"""Options and cars of other kinds, whole sentences: which condition, which parts, which cars, and from which record."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.said import entries, said

MADE = "made: 2031-05-03 AK"
CHECK = "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"


# ---- interlocks -----------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("says", "told"), [
    ("interlock: park or neutral, made: 2031-05-03 AK", True),
    ("interlock: park or neutral", False),  # planned
    ("interlock: clutch, made: 2031-05-03 AK", False),
    ("interlock: park or neutral, decided by: owner, made: 2031-05-03 AK", False),
    ("interlock: park or neutral, instead: clutch switch, made: 2031-05-03 AK", False),
])  # fmt: skip
def test_a_bridge_over_park_or_neutral_names_what_keeps_people_safe(says: str, told: bool, tmp_path: Path) -> None:
    text = f"""
    job: Bridge
    wires: {{W1: {{size: 1.0 mm2, from: FS1, to: n.1}}, W2: {{size: 1.0 mm2, from: n.2, to: FS2}}}}
    changes:
      - {{id: C1, kind: verify, proves: [C1], {MADE}}}
      - {{id: C2, kind: bridge, ends: [n.1, n.2], piece: BU 1.0 mm2, {says}}} # C2
    """
    problem = "park or neutral is bridged, so the engine can start in gear, and the row names nothing in its place"
    mend = "Write instead: and what keeps people safe, such as a clutch switch; or decided by: and a name"
    assert said(tmp_path, text, "OPT01") == ([("error", "C2", "C2", problem, mend)] if told else [])


# ---- conditions -----------------------------------------------------------------------------------------------------
def test_a_condition_that_cannot_be_read_is_told_with_what_was_meant(tmp_path: Path) -> None:
    text = f"""
    job: Conditions
    options: {{gearbox: {{is: manual, could be: [automatic]}}, roof: unknown}}
    loads:
      lamp: {{between: lamp.1 lamp.2, for: gearbox is automatik}} # lamp
      horn: {{between: horn.1 horn.2}}
    wires:
      W1: {{from: a.1, to: b.1, for: gearbocks is manual}} # W1
      W2: {{from: a.2, to: b.2, for: gearbox is manual}}
      W3: {{from: a.3, to: b.3, for: zzzz is q}} # W3
      W4: {{from: a.4, to: b.4, for: gearbox is zzzz}} # W4
{CHECK}"""
    assert sorted(said(tmp_path, text, "OPT04")) == sorted([
        ("error", "W1", "W1", "the option 'gearbocks' is not declared", "Did you mean gearbox?"),
        ("error", "W3", "W3", "the option 'zzzz' is not declared", "Declare it: options: {zzzz: q}"),
        ("error", "W4", "W4", "the option 'gearbox' knows no value 'zzzz'", "Add it: could be: [zzzz]"),
        ("error", "lamp", "lamp", "the option 'gearbox' knows no value 'automatik'", "Did you mean automatic?"),
    ])  # fmt: skip


LEFT_MEND = "Take it out or cap it and write the row, or take 'for:' out where this car uses it"


def test_what_another_car_left_behind_is_told_once_a_condition(tmp_path: Path) -> None:
    text = f"""
    job: Left behind
    options: {{gearbox: {{is: manual, could be: [automatic]}}, roof: {{is: none, could be: [slide]}}}}
    fuses: {{F1: {{rating: 10 A, fed: ignition}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2, for: gearbox is automatic}}
      kept: {{between: x.1 x.2, for: gearbox is manual}}
      off: {{between: lamp.1 lamp.3, verdict: deleted, for: roof is slide}}
    wires:
      W1: {{size: 1.0 mm2, from: x.1, to: x.2}}
      W2: {{size: 1.0 mm2, from: q.1, to: lock.1, for: gearbox is automatic}}
      W3: {{size: 1.0 mm2, from: lock.2, to: F1, for: gearbox is automatic}} # W3
      W4: {{size: 1.0 mm2, from: F1, to: lamp.1}}
      W5: {{size: 1.0 mm2, from: F1, to: roof.1, for: roof is slide}} # W5
      W6: {{size: 1.0 mm2, from: F1, to: x.9, for: gearbox is manual}}
{CHECK}"""

    def left(entry: str, parts: str, car: str, own: str) -> tuple[str, str, str, str, str]:
        problem = f"{parts} for a car whose {car}, and {parts.split()[-1]} still fed; this car's {own}"
        return ("error", entry, entry, problem, LEFT_MEND)

    assert sorted(said(tmp_path, text, "OPT02")) == sorted(
        [
            left("W3", "W3, lamp are", "gearbox is automatic", "gearbox is manual"),
            left("W5", "W5 is", "roof is slide", "roof is none"),
        ]
    )


# ---- other cars -----------------------------------------------------------------------------------------------------
WRITE = "Write the row that such a car needs with 'only if:', widen the one that it lacks, or take the value out of "
WRITE += "'could be:'"
CARS = """
    job: Cars
    options:
      a: {is: one, could be: A}
      b: {is: one, could be: B}
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 20 A, fed: always}}
    splices: {FS1: {}}
    loads:
      heater: {between: heater.1 heater.2} # heater
      lamp: {between: lamp.1 lamp.2}
    wires:
      W1: {size: 1.5 mm2, from: F1, to: FS1}
      W2: {size: 1.5 mm2, from: F2, to: FS1}
      W3: {size: 1.5 mm2, from: FS1, to: heater.1}
      W4: {size: 1.5 mm2, from: heater.2, to: battery-}
      W5: {size: 1.5 mm2, from: F1, to: lamp.1}
      W6: {size: 1.5 mm2, from: lamp.2, to: battery-}
    changes:
"""


def cars(a: str, b: str, *rows: str) -> str:
    text = CARS.replace("could be: A", f"could be: [{a}]").replace("could be: B", f"could be: [{b}]")
    return text + "".join(f"      - {{id: C{n}, {row}}} # C{n}\n" for n, row in enumerate(rows, 1))


def out(wire: str, end: str, only_if: str, left: str = "pulled") -> str:
    return f"kind: remove, wire: {wire}, ends: {{{end}: {left}, FS1: flush}}, only if: {only_if}"


@pytest.mark.parametrize(("rows", "words"), [
    ((out("W3", "heater.1", "a is two"),), "a is two"),
    ((out("W1", "F1", "a is two"), out("W2", "F2", "b is two")), "a is two and b is two"),
    ((out("W1", "F1", "a is two"), out("W2", "F2", "a is two")), "a is two"),
    ((out("W3", "heater.1", "a is two"), out("W3", "heater.1", "b is two")), "a is two; or b is two"),
])  # fmt: skip
def test_the_cars_in_trouble_are_told_in_the_fewest_options(rows: tuple[str, ...], words: str, tmp_path: Path) -> None:
    found = said(tmp_path, cars("two", "two", *rows), "OPT03")
    told = [finding for finding in found if finding[1] == "heater"]
    (rank, entry, line, problem, mend) = told[0]
    assert (rank, entry, line, mend) == ("error", "heater", "heater", WRITE)
    assert problem.startswith(f"on a car whose {words}: 'heater' is kept and has no feed: ")
    assert len(told) == 1


@pytest.mark.parametrize(("values", "words"), [
    ("two, three", "a is two; or a is three"),
    ("two, three, four", "a is two; or a is three; or a is four"),
    ("two, three, four, five", "a is two; or a is three; or a is four; or 1 more"),
    ("two, three, four, five, six", "a is two; or a is three; or a is four; or 2 more"),
])  # fmt: skip
def test_of_many_cars_three_are_named(values: str, words: str, tmp_path: Path) -> None:
    rows = [out("W3", "heater.1", f"a is {value}") for value in values.split(", ")]
    (finding,) = said(tmp_path, cars(values, "two", *rows), "OPT03")
    assert finding[1] == "heater"
    assert finding[3].startswith(f"on a car whose {words}: ")


def test_what_is_wrong_in_this_car_too_is_not_told_of_the_others(tmp_path: Path) -> None:
    both = ("kind: remove, wire: W3, ends: {heater.1: pulled, FS1: flush}, made: 2031-05-03 AK",
            out("W1", "F1", "a is two"))  # fmt: skip
    text = cars("two", "two", *both)
    assert entries(tmp_path, text, "LOD01") == ["heater"]
    assert entries(tmp_path / "others", text, "OPT03") == []


def test_a_way_that_no_row_lays_in_another_car_is_a_doubt_and_one_that_is_taken_a_fault(tmp_path: Path) -> None:
    laid = CARS.replace("      W3: {size: 1.5 mm2, from: FS1, to: heater.1}\n", "").replace(
        "could be: A", "could be: [two]").replace("could be: B", "could be: [two]")  # fmt: skip
    row = (
        "      - {id: C1, kind: add, wire: N1, from: FS1, to: heater.1, piece: RD 1.5 mm2, cut: 1 m, "
        "only if: a is one}\n"
    )
    (finding,) = said(tmp_path / "laid", laid + row, "OPT03")
    rank, entry, line, problem, mend = finding
    assert (rank, entry, line, mend) == ("warning", "heater", "heater", WRITE)
    assert problem.startswith("on a car whose a is two: no row gives 'heater' a feed: ")
    returned = CARS.replace("      W4: {size: 1.5 mm2, from: heater.2, to: battery-}\n", "").replace(
        "could be: A", "could be: [two]").replace("could be: B", "could be: [two]")  # fmt: skip
    row = row.replace("from: FS1, to: heater.1", "from: heater.2, to: battery-")
    (finding,) = said(tmp_path / "return", returned + row, "OPT03")
    assert finding[3].startswith("on a car whose a is two: no row gives 'heater' a return: ")
    gone = laid.replace("heater.2} # heater", "heater.2, verdict: deleted} # heater")
    back = row.replace("from: heater.2, to: battery-", "from: FS1, to: heater.1")
    assert entries(tmp_path / "deleted", gone + back, "OPT03") == []
    own = laid.replace("heater.2} # heater", "heater.2, for: a is one} # heater")
    assert entries(tmp_path / "own", own + back, "OPT03") == []


@pytest.mark.parametrize(("one", "two", "told"), [
    # with the values of this car 13 x 5 = 65 kinds, of which 64 are other cars; 22 x 3 = 66 kinds, 65 other cars
    (12, 4, False), (21, 2, True),
])  # fmt: skip
def test_more_than_64_other_cars_are_not_all_looked_at(one: int, two: int, told: bool, tmp_path: Path) -> None:
    text = cars(
        ", ".join(f"v{n}" for n in range(one)), ", ".join(f"v{n}" for n in range(two)),
        out("W1", "F1", "a is v0"), out("W1", "F1", "b is v0"),
    )  # fmt: skip
    found = said(tmp_path, text.replace("    options:", "    options: # options"), "OPT03")
    problem = "the options make 66 kinds of car; 64 of them, those most like this car, were looked at"
    mend = "None needed; take values that no car of yours has out of 'could be:'"
    notes = [finding for finding in found if finding[0] == "note"]
    assert notes == ([("note", "", "options", problem, mend)] if told else [])


@pytest.mark.parametrize(("unknown", "rank"), [("", "error"), ("a", "warning"), ("b", "error")])
def test_an_end_left_open_in_another_car_is_told_at_its_row_and_doubted_by_its_own_option(
    unknown: str, rank: str, tmp_path: Path
) -> None:
    text = cars("two", "two", out("W1", "F1", "a is two", "uncapped"), f"kind: verify, proves: [C1], {MADE}")
    text = text.replace(f"{unknown}: {{is: one,", f"{unknown}: {{is: unknown,") if unknown else text
    (finding,) = [f for f in said(tmp_path, text, "OPT03") if f[1].startswith("C1-")]
    problem = "on a car whose a is two: the cut end on 'F1' is left open"
    assert finding == (rank, "C1-W1-F1", "C1", problem, WRITE)


def test_a_row_that_cannot_be_so_in_another_car_is_told_there(tmp_path: Path) -> None:
    rows = (
        out("W5", "lamp.1", "b is two").replace("FS1: flush", "F1: pulled"),
        f"kind: extend, wire: W5, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: RD 1.5 mm2, {MADE}",
    )
    found = [f for f in said(tmp_path, cars("two", "two", *rows), "OPT03") if f[1] == "C2"]
    assert [(rank, line, mend) for rank, _, line, _, mend in found] == [("error", "C2", WRITE)]
    assert found[0][3].startswith("on a car whose b is two: ")
    assert "W5" in found[0][3]


def test_a_car_of_an_option_that_is_not_known_here_is_looked_at_once(tmp_path: Path) -> None:
    # 40 values of the one that a row asks for, not 64: none is left out
    text = cars(", ".join(f"v{n}" for n in range(40)), "two", out("W3", "heater.1", "a is v0"))
    (finding,) = said(tmp_path, text.replace("a: {is: one,", "a: {is: unknown,"), "OPT03")
    assert finding[:3] == ("warning", "heater", "heater")
    assert finding[3].startswith("on a car whose a is v0: 'heater' is kept and has no feed: ")
