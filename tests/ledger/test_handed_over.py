"""The ledger of the car as it was handed over, beside the one of the car as it stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures import worked as of_worked
from aswired.figures.worked import JobResult
from aswired.ledger.record import Ledger, State, Weight, Why
from aswired.sheets import overview, record, wires
from aswired.sheets.ledger_then import as_handed_over
from tests.ledger.small import lead, not_proved, told, worked
from tests.pages.test_agree import page

HEAD = {"handed over": "2031-05-10"}
BEFORE, AFTER = "made: 2031-05-03 AK, sealed: 2031-05-03 AK", "made: 2031-05-20 AK, sealed: 2031-05-20 AK"
# W3 hangs on F1 as W1 does, and its lamp is taken out: one end is drawn out of the plug, the other one is left
LEFT = "{{id: C1, kind: remove, wire: W3, ends: {{F1: {how}, lamp.3: pulled}}, {made}}}"
WIRES = {"W3": lead(1.0, "F1", "lamp.3")}
LOADS = {"spot": "{between: lamp.3 lamp.2, draws: 2 A, class: lamp}"}


def car(folder: Path, *rows: str, **more: str) -> JobResult:
    return worked(folder, *rows, head={**HEAD, **more}, wires=WIRES, loads=LOADS)


def line(worked: JobResult) -> str:
    found = as_handed_over(worked)
    assert found is not None
    return found.line


def rows(worked: JobResult) -> list[tuple[tuple[str, ...], str, str, str]]:
    found = as_handed_over(worked)
    assert found is not None
    return [(row.wires, row.then, row.now, row.why) for row in found.rows]


def test_a_visit_that_left_an_end_bare_makes_it_worse(tmp_path: Path) -> None:
    """W1, W2, W3 and L1 were proved; since the visit W3 hangs live and bare on F1."""
    visit = "[{id: S1, on: 2031-05-20 AK, complaint: lamp dark, rows: [C1]}]"
    found = car(tmp_path, LEFT.format(how="uncapped", made=AFTER), service=visit)
    assert found.handed_over_ledger is not None
    assert not_proved(found.handed_over_ledger) == {}
    assert not_proved(found.ledger) == {"W3": "against"}
    assert line(found) == (
        "As handed over on 10 May 2031: 4 of 4 proved, 0 against, 0 let stand, 0 not shown; W3 changed since."
    )
    assert rows(found) == [
        (("W3",), "proved", "against", "The cut end C1-W3-F1 is left bare, and is live, fed by F1"),
    ]


def test_a_visit_that_capped_a_bare_end_mends_it(tmp_path: Path) -> None:
    """W3 was handed over with a bare end; the visit capped it."""
    cap = f"{{id: C2, kind: cap, wire: W3, end: C1-W3-F1, stub: 30 mm, cover: crimp cap, {AFTER}}}"
    visit = "[{id: S1, on: 2031-05-20 AK, complaint: horn dead, rows: [C2]}]"
    found = car(tmp_path, LEFT.format(how="uncapped", made=BEFORE), cap, service=visit)
    assert found.handed_over_ledger is not None
    assert told(found.handed_over_ledger, "W3") == {(Why.BARE, Weight.NEVER)}
    assert not_proved(found.ledger) == {}
    assert line(found).startswith("As handed over on 10 May 2031: 3 of 4 proved, 1 against, 0 let stand, 0 not shown;")
    assert rows(found) == [
        (("W3",), "against", "proved", "No longer so: the cut end C1-W3-F1 is left bare, and is live, fed by F1"),
    ]


def test_a_wire_that_was_put_in_and_one_that_was_taken_out_are_told(tmp_path: Path) -> None:
    out = f"{{id: C1, kind: remove, wire: W3, ends: {{F1: pulled, lamp.3: pulled}}, {AFTER}}}"
    new = f"{{id: C2, kind: add, wire: W4, from: F1, to: lamp.3, piece: GN 1.0 mm2, {AFTER}}}"
    assert rows(car(tmp_path, out, new)) == [
        (("W4",), "not in the car", "proved", "Put in since"),
        (("W3",), "proved", "not in the car", "Taken out since"),
    ]


def test_a_ground_point_that_something_comes_home_by_since_was_not_in_use(tmp_path: Path) -> None:
    """The stud L2 was there, and nothing hung on it until the visit laid W4 to it."""
    new = f"{{id: C2, kind: add, wire: W4, from: lamp.2, to: L2, piece: BN 1.0 mm2, terminal: double crimp, {AFTER}}}"
    studs = {"L2": "{cable: 16 mm2, back to: battery-}"}
    found = worked(tmp_path, new, head=HEAD, wires=WIRES, loads=LOADS, grounds=studs)
    assert rows(found) == [
        (("W4",), "not in the car", "proved", "Put in since"),
        (("L2",), "not in use", "proved", "In use since"),
    ]


def test_where_nothing_was_done_since_it_is_as_today(tmp_path: Path) -> None:
    found = car(tmp_path)
    assert line(found) == "As handed over on 10 May 2031: 4 of 4 proved, 0 against, 0 let stand, 0 not shown; as today."
    assert rows(found) == []


def test_what_is_let_stand_now_counts_as_let_stand_then(tmp_path: Path) -> None:
    """Taped and live: a person may let it stand, and does, with a line that is written today."""
    spare = f"{{id: C2, kind: verify, proves: [C1], {AFTER}}}".replace(", sealed: 2031-05-20 AK", "")
    rows_ = (LEFT.format(how="taped", made=BEFORE), spare)
    accepted = {"": "{finding: END07, of: C1-W3-F1, by: AK, why: until spring}"}
    found = worked(tmp_path, *rows_, head=HEAD, wires=WIRES, loads=LOADS, accepted=accepted)
    assert found.handed_over_ledger is not None
    assert not_proved(found.handed_over_ledger) == not_proved(found.ledger) == {"W3": State.LET_STAND}
    assert line(found).endswith(
        "3 of 4 proved, 0 against, 1 let stand, 0 not shown; as today. What is let stand counts by what is written now."
    )


def test_pages_of_a_car_that_was_handed_over_say_it_and_of_others_not(tmp_path: Path) -> None:
    found = car(tmp_path / "over", LEFT.format(how="uncapped", made=AFTER))
    for sheet in (overview, record, wires):
        assert line(found) in " ".join(page(sheet, found).first("main").text.split())
    assert "The cut end C1-W3-F1 is left bare" in " ".join(
        next(t for t in page(wires, found).first("main").all("table") if "As handed over" in t.text).text.split()
    )
    alone = worked(tmp_path / "alone", LEFT.format(how="uncapped", made=AFTER), wires=WIRES, loads=LOADS)
    assert (alone.handed_over_ledger, as_handed_over(alone)) == (None, None)
    for sheet in (overview, record, wires):
        assert "As handed over" not in page(sheet, alone).first("main").text


def test_it_is_worked_out_for_pages_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[str] = []
    own = of_worked.ledger_in

    def counting(facts: JobResult, view: of_worked.View) -> Ledger:
        made.append(view.name)
        return own(facts, view)

    monkeypatch.setattr(of_worked, "ledger_in", counting)
    found = car(tmp_path, LEFT.format(how="uncapped", made=AFTER))
    assert made == []
    as_handed_over(found)
    as_handed_over(found)
    assert made == ["handed over"]


@pytest.mark.parametrize(("sealed", "then"), [("2031-05-20", {"W1": "not shown"}), ("2031-05-09", {})])
def test_what_was_sealed_after_that_day_was_not_shown_to_be_on_it(
    sealed: str, then: dict[str, str], tmp_path: Path
) -> None:
    """W1 was made longer before the car left; its joints were covered in May, before or after the hand-over."""
    row = (
        "{id: C1, kind: extend, wire: W1, plug: lamp, gap: 300 mm, pigtail: 150 mm, piece: GN 1.0 mm2, overlap: 12 mm, "
    )
    row += f"cover: adhesive sleeve 50 mm, made: 2031-05-03 AK, sealed: {sealed} AK}}"
    found = car(tmp_path, row)
    assert found.handed_over_ledger is not None
    assert not_proved(found.handed_over_ledger) == then
    assert not_proved(found.ledger) == {}
