"""What a step of the work sheet is called and what is ticked off at it, of a row of each kind; and what it leaves to
the cut, the joint and the test beside it. The same row says all of it on the change list."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.changes import KINDS
from aswired.figures.worked import JobResult
from aswired.sheets.changes import change_rows
from aswired.sheets.worksheet import work_sheet
from findings.jobs import work

CAR = """job: Van
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cover: adhesive sleeve 40 mm}
landmarks: {dash: d, tail: t}
route: [{from: dash, to: tail, length: 900 mm}]
fuses: {F1: {rating: 5 A, in: dash}, F2: {rating: 5 A}}
wires:
  W1: {colour: RD, size: 1 mm2, from: F1, to: lamp.1, length: 1000 mm}
  W2: {colour: BK, size: 1 mm2, from: lamp.2, to: G1, length: 900 mm}
  W3: {colour: GN, size: 1 mm2, from: F2, to: horn.1, length: 900 mm}
  W4: {colour: YE, size: 1 mm2, from: box.1, to: pump.1, length: 600 mm}
  W5: {colour: VT, size: 1 mm2, from: box.2, to: pump.2, length: 600 mm}
changes:
"""
WIRES = "wires: {W4: {box.1: FATE, pump.1: FATE}}"

# kind, the rest of the row, heading, ticks
ROWS = [
    ("add", "wire: W9, piece: BU 1 mm2, from: box.7, to: pump.7, reach: 100 mm", "New wire W9 from box.7 to pump.7",
     "laid, tested"),
    ("add", "wire: W9, piece: BU 1 mm2, from: W6-loose, to: pump.7, reach: 100 mm",
     "New wire W9 from W6-loose to pump.7", "laid, sealed, tested"),
    ("bridge", "ends: [box.1, box.2], piece: BU 1 mm2, cut: 80 mm, interlock: clutch",
     "Bridge of clutch: box.1 with box.2", "fitted, tested"),
    ("bridge", "ends: [W4 at box.1, W5 at box.2], interlock: other",
     "Bridge of an interlock: W4 at box.1 with W5 at box.2",
     "fitted, sealed, tested"),
    ("cap", "wire: W1, end: lamp.1, stub: 100 mm, far: capped 30 mm", "Stub of W1 at lamp.1", "cut, sealed"),
    ("cover", "from: dash, to: tail, cover: cloth tape, over: [C0]", "Cover over C0", "wrapped"),
    ("cover", "from: dash, to: tail, cover: cloth tape", "Cover from dash to tail", "wrapped"),
    ("cover", "cover: cloth tape", "Cover", "wrapped"),
    ("extend", "wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: BU 1 mm2", "Extension of W1 at lamp",
     "cut, sealed, tested"),
    ("ground", "wire: W2, end: G1, to: G9, gap: 300 mm, tail: 800 mm, piece: BK 1 mm2, ring: new",
     "Ground of W2 moved from G1 to G9",
     "cut, sealed, tested"),
    ("ground", "wire: W2, end: G1, to: G9, ring: new", "Ground of W2 moved from G1 to G9", "moved, tested"),
    ("join", "ends: [W4 at box.1, W5 at box.2]", "Splice of W4 at box.1 with W5 at box.2", "joined, sealed, tested"),
    ("label", "wire: W1, where: tail, reads: rear lamp", "Tag on W1", "tagged"),
    ("protect", "fuse: F7, rating: 5 A, wire: W1, end: F1", "W1 at F1 moved to fuse F7", "fitted, tested"),
    ("protect", "fuse: F7, rating: 5 A, wire: W1, end: F1, tail: 100 mm", "Fuse F7 let into W1", "fitted, tested"),
    ("remove", WIRES.replace("FATE", "pulled"), "Removal of W4", "taken out"),
    ("remove", WIRES.replace("FATE", "gone", 1).replace("FATE", "capped 30 mm"), "Removal of W4", "taken out, sealed"),
    ("reroute", "wires: [W1, W2], by: [tail]", "Rerouting of W1, W2 by tail", "laid, tested"),
    ("shorten", "wire: W1, end: lamp.1, pigtail: 200 mm, take out: 90 mm", "Shortening of W1 at lamp.1",
     "cut, sealed, tested"),
    ("swap", "plug: lamp, new plug: rear, cavities: {1: 2, 2: 1}, seen from: wire side",
     "Connector lamp replaced by rear", "swapped, tested"),
    ("tap", "wire: W9, piece: BU 1 mm2, onto: W1, from: F1, tail: 300 mm, to: box.9, reach: 100 mm",
     "Tap of W9 onto W1", "joined, sealed, tested"),
    ("terminate", "wire: W1, end: lamp.1, into: horn.9, gap: 300 mm, tail: 800 mm, piece: RD 1 mm2",
     "New terminal on W1 at lamp.1, now in horn.9",
     "cut, sealed, tested"),
    ("terminate", "wire: W1, end: lamp.1, into: horn.9, terminal: new crimp",
     "New terminal on W1 at lamp.1, now in horn.9", "moved, tested"),
    ("verify", "proves: [C0], test: lamp on", "Check: lamp on", "tested"),
    ("verify", "proves: [C0]", "Check of C0", "tested"),
]  # fmt: skip


def planned(folder: Path, kind: str, row: str) -> JobResult:
    head = CAR.replace("changes:", "  W6: {colour: YE, size: 1 mm2, from: loose, to: horn.2}\nchanges:")
    before = "  - {id: C0, kind: verify, proves: [C0]}\n"
    worked = work(folder, f"{head}{before}  - {{id: C1, kind: {kind}, {row}}}\n")
    assert [told.why for told in worked.plan.rows if not told.counts] == []
    return worked


@pytest.mark.parametrize(("kind", "row", "heading", "ticks"), ROWS)
def test_a_step_is_headed_and_ticked_off_as_its_work_goes(
    kind: str, row: str, heading: str, ticks: str, tmp_path: Path
) -> None:
    worked = planned(tmp_path, kind, row)
    (step,) = [step for step in work_sheet(worked).steps if step.id == "C1"]
    assert ", ".join(step.ticks) == ticks  # a joint is sealed, work on live wire is tested
    (listed,) = [told for told in change_rows(worked) if told.id == "C1"]
    assert (step.what, listed.what) == (heading, heading)


def test_there_is_a_row_of_each_kind() -> None:
    assert {kind for kind, *_ in ROWS} == {kind.name for kind in KINDS}


@pytest.mark.parametrize(
    ("kind", "row", "name", "value"),
    [
        ("cap", "wire: W1, end: lamp.1, cover: crimp cap", "covered with", "crimp cap"),
        ("cover", "from: dash, to: tail, cover: cloth tape", "covered with", "cloth tape"),
        ("verify", "proves: [C0], test: lamp on, expect: bright", "should read", "bright"),
    ],
)  # fmt: skip
def test_what_a_step_tells_with_its_cut_or_its_test_it_does_not_tell_twice(
    kind: str, row: str, name: str, value: str, tmp_path: Path
) -> None:
    worked = planned(tmp_path, kind, row)
    (step,) = [step for step in work_sheet(worked).steps if step.id == "C1"]
    (listed,) = [told for told in change_rows(worked) if told.id == "C1"]
    assert (name, value) in [(fact.name, fact.value) for fact in listed.facts]
    assert name not in [fact.name for fact in step.facts]
