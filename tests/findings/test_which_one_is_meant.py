"""Which of two things a finding means: the relay that buzzes, the way that is left, the value that this car has too."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_places import DEAD_END
from tests.findings.cases_splices import ROUTE, joined
from tests.findings.jobs import work
from tests.findings.said import entries, said
from tests.findings.test_findings_circuits import TWO_OPTIONS
from tests.findings.test_findings_relays import HOLDS, told
from tests.findings.test_findings_relays_and_readings import RETURN, readings

# A buzzer of its own on the fuse of the relay that holds itself.
BUZZES = """
      K2 contact: {between: K2.30 K2.87a, at rest: closed, worked by: K2 coil}
    loads:
      K2 coil: {between: K2.86 K2.85, draws: 150 mA, class: coil}
"""
ITS_WIRES = """
    wires:
      W11: {size: 1.0 mm2, from: F1, to: K2.30, length: 1 m}
      W12: {size: 1.0 mm2, from: K2.87a, to: K2.86, length: 1 m}
      W13: {size: 1.0 mm2, from: K2.85, to: battery-, length: 1 m}
"""


@pytest.mark.parametrize("button", ["K1.86", "K1.86b"])  # beside its contact, or not yet wired to the coil
@pytest.mark.parametrize("first", [True, False])
def test_a_relay_that_holds_itself_is_sound_beside_one_that_buzzes(first: bool, button: str, tmp_path: Path) -> None:
    text = HOLDS.replace("from: button.2, to: K1.86,", f"from: button.2, to: {button},")
    text = text.replace("\n    loads:\n", BUZZES).replace("\n    wires:\n", ITS_WIRES)
    if first:
        buzzer = BUZZES.splitlines()[1] + "\n"
        text = text.replace(buzzer, "").replace("    switches:\n", f"    switches:\n{buzzer}")
    assert told(tmp_path, text) == [("REL01", "K2 contact")]


def test_two_relays_that_buzz_apart_from_each_other_are_both_told(tmp_path: Path) -> None:
    text = HOLDS.replace("\n    loads:\n", BUZZES).replace("\n    wires:\n", ITS_WIRES)
    other = text.replace("\n    loads:\n", BUZZES.replace("K2", "K3")).replace(
        "\n    wires:\n", ITS_WIRES.replace("K2", "K3").replace("W1", "W2")
    )
    assert told(tmp_path, other) == [("REL01", "K2 contact"), ("REL01", "K3 contact")]


@pytest.mark.parametrize(("ends", "told_of"), [
    ("wire: W2, ends: {lamp.2: pulled, battery-: gone}", []),  # one lead lies where nothing is any more
    ("wire: W1, ends: {F1: pulled, lamp.1: pulled}", ["R1"]),  # what lies between the leads is as it was
])  # fmt: skip
def test_a_wire_that_went_after_a_reading_of_it_excuses_the_reading(
    ends: str, told_of: list[str], tmp_path: Path
) -> None:
    # 0.3 V where 0.02 V are expected, on 4 May; the wire went on 10 May
    changes = f"    changes:\n      - {{id: C1, kind: remove, {ends}, made: 2031-05-10 AK}}\n"
    assert entries(tmp_path, readings(f"on: 2031-05-04, {RETURN}, read: 0.3 V", changes=changes), "RDG02") == told_of


@pytest.mark.parametrize("colours", ["", "      colour: {is: red, could be: [blue]}\n"])
def test_a_value_that_this_car_has_too_is_named_where_the_fault_hangs_on_it(colours: str, tmp_path: Path) -> None:
    # C0 takes W1 out of every car steered on the right, so C1 leaves its end open in those steered on the left alone.
    # Of what colour they are does not matter: a new wire on F1 is the third row's work.
    text = (
        TWO_OPTIONS.replace("    fuses:", f"{colours}    fuses:")
        + """
      - {id: C0, kind: remove, wire: W1, ends: {F1: gone, heater.1: gone}, only if: steering is right}
      - {id: C1, kind: remove, wire: W1, ends: {F1: uncapped, heater.1: pulled}, only if: heater is electric}
"""
        + ("      - {id: C2, kind: add, wire: W9, from: F1, to: z.1, only if: colour is blue}\n" if colours else "")
    )
    problems = {entry: problem for _, entry, _, problem, _ in said(tmp_path, text, "OPT03")}
    assert problems["C1-W1-F1"].startswith(
        "on a car whose heater is electric and steering is left: the cut end on 'F1' is left open"
    )
    assert problems["C1"].startswith("on a car whose heater is electric and steering is right: wire 'W1' is not in")


@pytest.mark.parametrize(("limits", "apart", "code"), [
    ("joint clear: 40 mm, joint stagger: 20 mm", 30, "SPL01"),  # a shop that cares little for the stagger
    ("joint clear: 20 mm, joint stagger: 40 mm", 30, "SPL02"),
    ("joint clear: 20 mm, joint stagger: 20 mm", 30, ""),
    ("joint clear: 40 mm, joint stagger: 40 mm", 40, ""),
    ("joint clear: 40 mm, joint stagger: 50 mm", 39, "SPL01"),
    ("joint clear: 40 mm, joint stagger: 50 mm", 40, "SPL02"),
    ("joint clear: 40 mm, joint stagger: 50 mm", 50, ""),
])  # fmt: skip
def test_two_splices_are_held_to_both_distances_whichever_is_the_larger(
    limits: str, apart: int, code: str, tmp_path: Path
) -> None:
    places = f"300 mm from bulkhead towards nose | {300 + apart} mm from bulkhead towards nose"
    text = joined(places, ROUTE + f"    limits: {{{limits}}}\n")
    found = [*((c, *one[:2]) for c in ("SPL01", "SPL02") for one in said(tmp_path / c, text, c))]
    assert found == ([(code, "error" if code == "SPL01" else "warning", "C2")] if code else [])


def test_a_splice_that_a_plan_takes_out_is_a_name_as_long_as_it_is_in_the_car(tmp_path: Path) -> None:
    text = """
    job: Names
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}
    wires: {W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 100 mm, piece: BU 1.0 mm2,
         made: 2031-05-03 AK}
      - {id: C2, kind: remove, wire: W1, ends: {F1: pulled, lamp.1: pulled}}
    photos:
      - {id: P1, file: photos/p1.jpg, shows: [C1-W1-plug]}
      - {id: P2, file: photos/p2.jpg, shows: [C1-W1-plgu]}
    """
    assert entries(tmp_path, text, "REF02") == ["P2"]
    worked = work(tmp_path, text)
    assert "C1-W1-plug" in worked.shown.joints
    assert "C1-W1-plug" not in worked.plan.joints


@pytest.mark.parametrize(("place", "code"), [
    ("shelf", "PLC05"), ("300 mm", "PLC01"), ("300 mm past nose", "PLC06"), ("9 m from nose towards bulkhead", "PLC02"),
    ("under the left seat", ""), ("nose", ""), ("unknown", ""),
])  # fmt: skip
@pytest.mark.parametrize("of", ["part", "joint"])
def test_a_place_in_words_is_counted_and_one_that_is_told_is_not(
    of: str, place: str, code: str, tmp_path: Path
) -> None:
    here, there = (place, "100 mm from nose towards bulkhead") if of == "part" else ("nose", place)
    text = f"""
    job: Places
    usual: {{joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm}}
    {ROUTE.strip()}
    plugs: {{lamp: {{at: {here}}}}}
    wires: {{W1: {{size: 1.0 mm2, from: lamp.1, to: FS1}}, W2: {{size: 1.0 mm2, from: b.1, to: FS1}}}}
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], where: {there}, made: 2031-05-03 AK}}
    """
    worked = work(tmp_path, text)
    assert [f.code for f in worked.findings if f.code.startswith("PLC")] == ([code] if code else [])
    counted = [(one.entry, one.what) for one in worked.not_examined if "in words only" in one.what]
    entry = "lamp" if of == "part" else "C1"
    assert counted == ([(entry, f"its place is in words only: {place}")] if place.count(" ") == 3 and not code else [])


@pytest.mark.parametrize("side", ["negative", "positive"])
def test_what_is_not_recorded_of_each_circuit_is_counted_whatever_the_ones_before_it_lack(
    side: str, tmp_path: Path
) -> None:
    text = f"""
    job: Five loads
    ground side: {side}
    supply: 12 V
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    loads:
      gone: {{between: a.1 a.2, verdict: deleted}}
      whole: {{between: b.1 b.2, draws: 1 A}}
      still: {{between: c.1 c.2}}
      dark: {{between: d.1 d.2, draws: 1 A}}
      last: {{between: e.1 e.2}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: b.1, length: 1 m}}
      W2: {{size: 1.0 mm2, from: b.2, to: battery-, length: 1 m}}
      W3: {{size: 1.0 mm2, from: F1, to: c.1, length: 1 m}}
      W4: {{size: 1.0 mm2, from: c.2, to: battery-, length: 1 m}}
      W5: {{size: 1.0 mm2, from: unknown, to: d.1, length: 1 m}}
      W6: {{size: 1.0 mm2, from: d.2, to: battery-, length: 1 m}}
      W7: {{size: 1.0 mm2, from: F1, to: e.1, length: 1 m}}
      W8: {{size: 1.0 mm2, from: e.2, to: battery-, length: 1 m}}
    changes: [{{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}}]
    """
    counted = [(one.entry, one.what.partition(":")[0]) for one in work(tmp_path, text).not_examined]
    names = ("gone", "whole", "still", "dark", "last")
    assert [one for one in counted if one[0] in names] == [
        ("still", "current not recorded"), ("dark", "feed"), ("last", "current not recorded"),
    ]  # fmt: skip


@pytest.mark.parametrize(("says", "rank"), [("redoes", "note"), ("corrects", "error")])
def test_a_bad_reading_of_a_row_is_excused_by_work_done_again_and_not_by_a_line_written_again(
    says: str, rank: str, tmp_path: Path
) -> None:
    cap = "kind: cap, wire: W1, end: b.1, stub: 90 mm, far: gone, cover: adhesive sleeve 40 mm"
    text = f"""
    job: Done again
    wires: {{W1: {{size: 1.0 mm2, from: a.1, to: b.1, length: 900 mm}}}}
    changes:
      - {{id: C1, {cap}, made: 2031-05-03 AK}}
      - {{id: C2, {cap}, {says}: C1, made: 2031-05-04 AK}}
    readings: [{{id: R1, of: C1, on: 2031-05-03, limit: 0.2 V, read: 0.3 V}}]
    """
    assert [one[:2] for one in said(tmp_path, text, "RDG01")] == [(rank, "R1")]


@pytest.mark.parametrize(("splices", "told_of"), [
    ("splices: {FS4: {}}", ["FS4"]), ("splices: {FS4: {all members known: no}}", []), ("plugs: {lamp: {ways: 2}}", []),
])  # fmt: skip
def test_a_splice_is_a_dead_end_only_where_somebody_knows_all_that_is_in_it(
    splices: str, told_of: list[str], tmp_path: Path
) -> None:
    assert entries(tmp_path, DEAD_END.replace("splices: {FS4: {}}", splices), "END06") == told_of
