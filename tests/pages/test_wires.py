"""The sheet of wires, cell by cell, of a ledger made by hand: every field of it with a value of its own."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.ledger.record import Account, Amperes, FuseLine, Ledger, Line, MayGoIn, Reason, State, Weight, Why
from aswired.sheets import circuits, fuses, wires
from aswired.sheets.fuses import fuse_sheet
from aswired.sheets.wires import wire_sheet
from aswired.text.diagnostics import Location
from tests.crawl.tree import Element
from tests.findings.jobs import work
from tests.pages.test_agree import page

AT = Location("job.yml", 4)
JOB = """
job: Two lamps
units: mm
fuses: {F1: {rating: 7.5 A, fed: ignition}, F2: {rating: 15 A, fed: always}, F3: {rating: 20 A, fed: always}}
grounds: {L1: {cable: 10 mm2, back to: battery-}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: BN, size: 2.5 mm2, from: lamp.2, to: L1}
  W3: {colour: RD, size: 16 mm2, from: battery+, to: F2.feed}
  W4: {colour: VT, size: 0.75 mm2, from: F2, to: horn.1}
  W5: {colour: YE, size: 4 mm2, from: F2, to: seat.1}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
NOTHING = Amperes()


def line(
    wire: str, index: int | None, planned: float | None, *reasons: Reason, push: Amperes = NOTHING,
    home: Amperes = NOTHING, shorted: Amperes = NOTHING, mm: float | None = None, live: bool = False,
) -> Line:  # fmt: skip
    return Line(wire, f"{wire} whole", index, planned, None, push, shorted, home, mm, live, reasons)


def one(own: Line, ground: bool = False) -> Account:
    return Account(own.wire, (own,), ground)


OVER = Reason(Why.FEED, Weight.NEVER, "F2", AT, "rating", 15.0, 7.5, by=("F2",))
TAPE = Reason(Why.TAPED, Weight.BY_NAME, "C9-W4-horn", AT, let_stand_by="AK", let_stand_why="until spring")
SEAT = Reason(Why.NOTHING_BEHIND, Weight.MISSING, "seat", AT, "behind")
VOLTS = Reason(Why.VOLTS, Weight.MISSING, "supply", AT, "supply")
BARE = Reason(Why.BARE, Weight.NEVER, "C8-W2-lamp", AT)


def by_hand() -> Ledger:
    accounts = [
        one(line("W1", 0, 10.0, push=Amperes(7.5, 7.5, ("F1",)), live=True)),
        one(line("W2", 1, 20.0, home=Amperes(3.2, 3.2), shorted=Amperes(7.5, math.inf))),
        one(line("W3", 2, 85.0, push=Amperes(math.inf, math.inf), mm=290.0, live=True)),
        one(line("W4", 3, 7.5, OVER, TAPE, push=Amperes(15.0, 30.0, ("F2",)), live=True)),
        one(line("W5", 4, None, SEAT, push=Amperes(0.0, math.inf, ("F2",)), live=True)),
        one(line("L1", None, 60.0, home=Amperes(3.2, 4.1), shorted=Amperes(0.0, math.inf)), ground=True),
    ]
    fuses = [
        FuseLine("F1", MayGoIn.YES, ("W1",), ("W2", "L1"), ()),
        FuseLine("F2", MayGoIn.NO, ("W4", "W5"), (), ("W3",)),
        FuseLine("F3", MayGoIn.YES, (), (), ()),
    ]
    return Ledger({a.name: a for a in accounts}, {fuse.name: fuse for fuse in fuses}, (VOLTS,))


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("wires"), JOB)


@pytest.fixture(scope="module")
def shown(job: JobResult) -> Element:
    return page(wires, with_ledger(job, by_hand())).first("main")


def with_ledger(job: JobResult, ledger: Ledger, planned: Ledger | None = None) -> JobResult:
    made = replace(job, ledger=ledger, findings=())
    vars(made)["planned_ledger"] = planned if planned is not None else ledger
    return made


def told(element: Element) -> str:
    return " ".join(element.text.split())


def table(shown: Element, *heads: str) -> list[list[str]]:
    """The rows of the tables that have these heads."""
    found = []
    for one_table in shown.all("table"):
        if tuple(told(head) for head in one_table.first("thead").all("th")) == heads:
            for row in one_table.first("tbody").all("tr"):
                found.append([told(cell) for cell in row.inside if isinstance(cell, Element)])
    return found


def test_what_is_against_stands_with_its_words_its_mend_and_its_wires(shown: Element) -> None:
    assert table(shown, "Wires", "What is so", "Mend") == [
        [
            "W4",
            "F2 lets 15 A through, and the wire may carry 7.5 A",
            "Mend: Put no more than 7.5 A in F2, or lay thicker wire",
        ]
    ]


def test_what_is_let_stand_tells_by_whom_and_why(shown: Element) -> None:
    assert table(shown, "Wires", "What is so", "Let stand, why", "Mend") == [
        [
            "W4",
            "The cut end C9-W4-horn is live under tape alone",
            "AK: until spring",
            "Mend: Cap it, and write the cap and its seal",
        ]
    ]


def test_what_is_not_shown_stands_by_fact_with_what_to_do(shown: Element) -> None:
    heads = ("What to find out", "Where", "What to do", "Wires that wait for it", "May settle")
    assert table(shown, *heads) == [
        [
            "What is behind seat", "where: seat",
            "Look what it is plugged to; write the wire or load there, or behind: where nothing can feed from it",
            "waiting: W5",
            "may settle 1 wire",
        ],
        [
            "The volts that figures are for", "where: supply", "Measure the battery, and write supply:",
            "the car as a whole", "",
        ],
    ]  # fmt: skip


def test_every_line_stands_under_its_fuse_or_apart(shown: Element) -> None:
    heads = (
        "Length", "Size", "May carry", "Its fuses let through", "Loads send home", "If one fails shorted", "Fed",
        "State",
    )  # fmt: skip
    far = "no fuse before it, 290 mm from its source"
    let = "The cut end C9-W4-horn is live under tape alone: let stand by AK, until spring"
    assert table(shown, *heads) == [
        ["GN W1 whole", "1.0 mm²", "10 A", "7.5 A by F1", "none", "none", "live", "proved"],
        [
            f"VT W4 whole F2 lets 15 A through, and the wire may carry 7.5 A. {let}", "0.75 mm²", "7.5 A",
            "15 A to 30 A by F2", "none", "none", "live", "against",
        ],
        [
            "YE W5 whole What is behind seat is not written", "4 mm²", "not known", "not known", "none", "none",
            "live", "not shown",
        ],
        ["RD W3 whole", "16 mm²", "85 A", far, "none", "none", "live", "proved"],
        ["L1 whole", "10 mm²", "60 A", "none", "3.2 A to 4.1 A", "not known", "way home", "proved"],
        ["BN W2 whole", "2.5 mm²", "20 A", "none", "3.2 A", "at least 7.5 A", "way home", "proved"],
    ]  # fmt: skip


def test_a_fuse_has_one_row_that_opens_to_its_lines(shown: Element) -> None:
    rows = [
        [told(cell) for cell in part.first("summary").inside if isinstance(cell, Element)]
        for part in shown.all("details")
    ]
    assert rows == [
        ["F1", "7.5 A", "live: ignition", "1 wire", "thinnest 1.0 mm², may carry 10 A", "proved", "may go in"],
        [
            "F2", "15 A", "live: always", "2 wires", "thinnest 0.75 mm², may carry 7.5 A", "against 0 of 2 proved",
            "stays out",
        ],
        ["1 wire", "thinnest 2.5 mm², may carry 20 A", "proved"],
    ]  # fmt: skip


def test_a_fuse_that_waits_for_a_way_home_names_it(job: JobResult) -> None:
    ledger = by_hand()
    back = one(line("W2", 1, 20.0, BARE))
    fuse = FuseLine("F1", MayGoIn.NO, ("W1",), ("W2", "L1"), ("W3",))
    held = replace(ledger, accounts={**ledger.accounts, "W2": back}, fuses={"F1": fuse})
    (row,) = wire_sheet(with_ledger(job, held)).fuses
    assert (row.state, row.may, row.held_by) == (State.PROVED, "stays out", ("W2",))


def test_planned_rows_tell_what_they_alone_bring(job: JobResult) -> None:
    now = by_hand()
    plan = replace(now, accounts={**now.accounts, "W2": one(line("W2", 1, 20.0, BARE))})
    found = wire_sheet(with_ledger(job, now, plan)).planned
    assert [(row.so, row.wires) for row in found] == [("The cut end C8-W2-lamp is left bare, and is live", ("W2",))]
    assert wire_sheet(with_ledger(job, now)).planned == ()
    assert wire_sheet(with_ledger(job, plan, plan)).planned == ()
    shown = page(wires, with_ledger(job, now, plan)).first("main")
    assert table(shown, "Wires", "What is so", "Mend")[1][:2] == [
        "W2",
        "The cut end C8-W2-lamp is left bare, and is live",
    ]


def test_it_says_what_it_does_not_judge_and_never_that_power_may_go_on(shown: Element) -> None:
    text = told(shown)
    for thing in (
        "nobody wrote down",
        "terminals",
        "holders",
        "switches and contacts",
        "diodes",
        "lamp lights",
        "heat",
    ):
        assert thing in text
    assert "may be powered" not in text


def test_of_a_car_of_which_nothing_is_known_nothing_is_proved(job: JobResult) -> None:
    text = told(page(wires, with_ledger(job, Ledger())).first("main"))
    assert "Wires: 0 of 0 proved, 0 against, 0 let stand, 0 not shown" in text
    assert "No wire is on record, so nothing is shown. Leave the battery off." in text
    assert "No fuse with a wire on it is on record." in text


LAMP = """
job: Lamp
units: mm
system: 12 V
supply: 12 V
ground side: negative
plugs: {lamp: {ways: 2}, seat: {ways: 2}}
fuses: {F1: {rating: 15 A, fed: always}}
grounds: {L1: {cable: 10 mm2, back to: battery-}}
loads: {lamp: {between: lamp.1 lamp.2, draws: 5 A, class: lamp}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: BN, size: 2.5 mm2, from: lamp.2, to: L1}
  W3: {colour: VT, size: 2.5 mm2, from: F1, to: seat.1}
  W4: {colour: YE, size: 2.5 mm2, from: F1, to: seat.2}
changes:
  - {id: C1, kind: remove, wire: W4, ends: {F1: capped 30 mm, seat.2: gone}, made: 2031-05-03 AK, sealed: 2031-05-03 AK}
"""


def test_each_length_on_a_circuits_page_has_its_state(tmp_path: Path) -> None:
    """15 A on 1.0 mm2, which is planned for 10; the return of 2.5 mm2 is planned for 20."""
    worked = work(tmp_path, LAMP)
    shown = page(circuits, worked, "lamp.html").first("main")
    path = next(shown.all("ol", **{"class": "path two"}), None) or shown.first("ol", **{"class": "path"})
    bands = [told(item) for item in path.all("li") if "cut" in item.attributes["class"].split()]
    assert [band.split()[-1] for band in bands] == ["against", "proved", "proved"]


def test_the_page_of_fuses_tells_cut_ends_and_ends_of_which_something_is_not_written(tmp_path: Path) -> None:
    (row,) = fuse_sheet(work(tmp_path, LAMP)).rows
    assert row.ends == ("cut end C1-W4-F1, capped", "not written: what is behind seat")
    shown = page(fuses, work(tmp_path, LAMP)).first("main")
    assert "also on it: cut end C1-W4-F1, capped; not written: what is behind seat" in told(shown)


def test_cut_ends_stand_on_the_sheet_with_how_they_are_closed_and_whether_they_are_live(tmp_path: Path) -> None:
    shown = page(wires, work(tmp_path, LAMP)).first("main")
    heads = ("End", "Wire", "Hangs on", "Length", "How closed", "Live or dead")
    assert table(shown, *heads) == [["C1-W4-F1", "W4 YE yellow 2.5 mm²", "F1", "30 mm", "capped", "fed by F1 (always)"]]
