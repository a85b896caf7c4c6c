"""Steps of rows that work on several wires at once: what hangs on them, what is ticked, what proves them."""

from __future__ import annotations

from pathlib import Path

from aswired.sheets.steps import WorkStep, bench_of, step_of
from tests.findings.jobs import work

# C1 let a piece into W1: two joints in line. W1, W2 and W3 meet in FS1, of which all members are known; W2 ends in FS2
# too, of which they are not.
CAR = """
    job: Three wires
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 5 A, fed: always}}
    splices: {FS1: {all members known: yes}, FS2: {all members known: no}}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: FS1, length: 1200 mm}
      W2: {colour: VT, size: 1 mm2, from: FS1, to: FS2, length: 1200 mm}
      W3: {colour: BK, size: 1 mm2, from: FS1, to: lamp.1, length: 300 mm}
    changes:
      - {id: C1, kind: extend, wire: W1, end: F1, pigtail: 100 mm, gap: 100 mm, piece: GN 1 mm2, made: 2031-05-03 AK}
      - ROW
      - {id: C8, kind: verify, proves: [C1, C5], test: "lamp on", expect: "lit"}
      - {id: C9, kind: verify, proves: [C5], test: "pull on it", expect: "holds"}
"""


def step(folder: Path, row: str, id: str = "C5") -> WorkStep:
    worked = work(folder, CAR.replace("ROW", row))
    return step_of(worked.job.change(id), bench_of(worked))


def test_what_hangs_on_several_wires_is_told_splice_by_splice(tmp_path: Path) -> None:
    found = step(tmp_path, "{id: C5, kind: remove, wires: {W1: {F1: pulled, FS1: capped 30 mm}}}")
    # the joints in line of C1 hold nothing else and are all known: no word of them
    assert [(each.splice, each.wires, each.all_known) for each in found.hanging] == [("FS1", ("W2", "W3"), True)]
    two = "{id: C5, kind: remove, wires: {W2: {FS1: capped 30 mm, FS2: pulled}, W1: {F1: pulled, FS1: capped 30 mm}}}"
    found = step(tmp_path / "two", two)
    assert {(each.splice, each.wires, each.all_known) for each in found.hanging} == {
        ("FS1", ("W3",), True),
        ("FS2", (), False),
    }


def test_of_several_ends_one_that_is_left_hanging_is_to_be_sealed(tmp_path: Path) -> None:
    one = step(tmp_path, "{id: C5, kind: remove, wires: {W1: {F1: pulled, FS1: capped 30 mm}}}")
    assert one.ticks == ("taken out", "sealed")
    none = step(tmp_path / "none", "{id: C5, kind: remove, wires: {W3: {lamp.1: pulled, FS1: pulled}}}")
    assert none.ticks == ("taken out",)


def test_each_test_that_proves_a_row_stands_with_it(tmp_path: Path) -> None:
    row = "{id: C5, kind: remove, wires: {W1: {F1: pulled, FS1: capped 30 mm}}}"
    assert [(test.row, test.what, test.expect) for test in step(tmp_path, row).tests] == [
        ("C8", "lamp on", "lit"),
        ("C9", "pull on it", "holds"),
    ]
    assert [test.row for test in step(tmp_path / "own", row, "C9").tests] == ["C9"]


def test_of_several_stretches_of_a_wire_the_one_that_is_worked_on_is_told(tmp_path: Path) -> None:
    # W1 is three stretches since C1: F1 to its first joint, the piece, and on to FS1
    last = step(tmp_path, "{id: C5, kind: extend, wire: W1, end: FS1, pigtail: 90 mm, gap: 90 mm, piece: GN 1 mm2}")
    assert [{*wire.ends.split(" to ")} for wire in last.wires] == [{"C1-W1-FS1", "FS1"}]
    first = step(
        tmp_path / "first", "{id: C5, kind: extend, wire: W1, end: F1, pigtail: 90 mm, gap: 90 mm, piece: GN 1 mm2}"
    )
    assert [{*wire.ends.split(" to ")} for wire in first.wires] == [{"F1", "C1-W1-F1"}]
    # at a plug, of a wire that was let into before
    let_in = (
        "{id: C2, kind: extend, wire: W3, end: lamp.1, pigtail: 80 mm, gap: 90 mm, piece: BK 1 mm2, made: 2031-05-03}"
    )
    at_plug = step(
        tmp_path / "plug",
        f"{let_in}\n      - {{id: C5, kind: shorten, plug: lamp, wire: W3, pigtail: 40 mm, take out: 20 mm}}",
    )
    assert [{*wire.ends.split(" to ")} for wire in at_plug.wires] == [{"C2-W3-lamp.1", "lamp.1"}]
