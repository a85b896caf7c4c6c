"""What was done to the car, told in full: on the changes' sheet, on connectors and splices, and on paper."""

from __future__ import annotations

import html
import re
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import changes as changes_page
from aswired.sheets import circuits as circuits_page
from aswired.sheets import record as record_page
from aswired.sheets.changes import ChangeRow, change_rows
from aswired.sheets.circuits import circuit_rows
from aswired.sheets.connectors import ConnectorView, connector_views
from aswired.sheets.cut_ends import CutEnd, cut_ends
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.photos import photo_rows
from aswired.sheets.splices import splice_sheet
from aswired.sheets.templates import environment, render
from pages.small import work

THEME = Path(__file__).parents[2] / "site_theme"
JOB = """\
job: Account
supply: 13.5 V
temperature: 20 C
options: {heater: {is: diesel, could be: [electric]}}
usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm,
  joint resistance: 0.2 mohm, cavity resistance: 2 mohm, ring resistance: 1 mohm, fuse resistance: 5 mohm}
plugs:
  radio: {ways: 2}
  clock: {ways: 2, gone: yes}
  bell: {ways: 2}
  lamp: {ways: 4}
  unit: {ways: 4}
fuses:
  F1: {rating: 10 A, fed: ignition}
  F2: {rating: 5 A, fed: always}
loads:
  lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp}
  bell: {between: bell.1 bell.2, verdict: deleted}
grounds:
  L1: {stud: M6, conducts: yes, cable: 10 mm2, cable length: 1 m, back to: battery-}
splices: {FS1: {}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: FS1, length: 800 mm}
  W2: {colour: GN/WH, size: 1.0 mm2, from: FS1, to: lamp.1}
  W3: {colour: GN/RD, size: 1.0 mm2, from: FS1, to: bell.1, length: 1200 mm}
  W4: {colour: BN, size: 1.0 mm2, from: bell.2, to: L1, length: 900 mm}
  W5: {colour: BN, size: 1.0 mm2, from: lamp.2, to: G9, length: 700 mm}
  W6: {colour: VT, size: 0.5 mm2, from: F2, to: radio.1, length: 1500 mm}
  W7: {colour: BU, size: 0.5 mm2, from: unit.1, to: radio.2, length: 600 mm}
  W8: {colour: GY, size: 0.5 mm2, from: unknown, to: clock.1}
changes:
  - {id: C1, kind: remove, wire: W3, ends: {FS1: flush, bell.1: gone}, reclaimed: {O1: GN/RD 1.0 mm2 1100 mm},
     why: no bell, made: 2031-05-01 AK}
  - {id: C2, kind: remove, wire: W4, ends: {bell.2: gone, L1: pulled}, made: 2031-05-01 AK}
  - {id: C3, kind: remove, wire: W6, ends: {F2: capped 30 mm, radio.1: gone}, made: 2031-05-02 AK,
     sealed: 2031-05-03 JT, tested: 2031-05-04 MB}
  - {id: C4, kind: terminate, wire: W7, end: radio.2, into: unit.3, gap: 120 mm, tail: 400 mm, piece: BU 0.5 mm2,
     made: 2031-05-02 AK}
  - {id: C5, kind: ground, wire: W5, end: G9, to: L1, gap: 80 mm, tail: 600 mm, piece: BK 1.0 mm2,
     ring: "new, M6, 2nd from base", made: 2031-05-02 AK}
  - {id: C6, kind: tap, wire: W9, onto: W2, from: lamp.1, tail: 90 mm, to: unit.4, piece: RD 1.0 mm2 from O1,
     reach: 300 mm, made: 2031-05-02 AK, photos: [P1]}
  - {id: C7, kind: add, wire: W10, from: F2, to: unit.2, piece: PK 1.0 mm2, reach: 500 mm, made: 2031-05-02 AK}
  - {id: C8, kind: cap, wire: W8, end: unknown, stub: 40 mm, cover: crimp cap, far: gone, only if: heater is diesel,
     made: 2031-05-02 AK}
  - {id: C9, kind: add, wire: W11, from: F2, to: unit.2, piece: OG 1.0 mm2, only if: heater is electric}
photos:
  - {id: P1, file: photos/1.jpg}
  - {id: P2, file: photos/2.jpg, shows: [lamp]}
  - {id: P3, file: photos/3.jpg}
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    worked = work(tmp_path_factory.mktemp("jobs") / "account", JOB)
    refused = {row.id: row.why for row in worked.plan.rows if row.status in ("refused", "not judged")}
    assert not refused  # else the job would not say what it is meant to say
    return worked


@pytest.fixture(scope="module")
def rows(made: JobResult) -> dict[str, ChangeRow]:
    return {row.id: row for row in change_rows(made)}


@pytest.fixture(scope="module")
def ends(made: JobResult) -> dict[str, CutEnd]:
    return {end.row: end for end in cut_ends(made)}


# ---- the changes' sheet ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize("row", ["C4", "C5"])
def test_the_gap_before_a_new_terminal_ends_at_its_barrel(rows: dict[str, ChangeRow], row: str) -> None:
    (gap,) = [fact.name for fact in rows[row].facts if fact.name.startswith("gap")]
    assert gap == "gap, cut face to barrel mouth of the new terminal"


def test_a_new_terminal_says_the_cavity_it_went_into(rows: dict[str, ChangeRow]) -> None:
    assert rows["C4"].what == "New terminal on W7 at radio.2, now in unit.3"


def test_a_tap_says_from_which_end_it_is_measured_and_where_its_lead_goes(rows: dict[str, ChangeRow]) -> None:
    facts = {fact.name: fact.value for fact in rows["C6"].facts}
    assert (facts["along the wire to the tap"], facts["measured from"]) == ("90 mm", "lamp.1")
    (lead,) = rows["C6"].wires
    assert (lead.new, lead.ends, lead.was.code, lead.offcut) == (True, "tap C6 to unit.4", "RD", "O1")


def test_a_new_lead_says_both_its_ends_also_while_it_is_for_another_car(rows: dict[str, ChangeRow]) -> None:
    for row, colour in (("C7", "PK"), ("C9", "OG")):
        (lead,) = rows[row].wires
        assert (lead.new, lead.ends, lead.was.code, lead.was_size) == (True, "F2 to unit.2", colour, "1.0 mm²")


def test_a_donor_wire_says_its_length(rows: dict[str, ChangeRow]) -> None:
    assert [rows[row].wires[0].length for row in ("C1", "C4", "C7", "C8")] == ["1\u202f200 mm", "600 mm", "", ""]
    assert (rows["C1"].wires[0].left, rows["C1"].wires[0].new) == ("FS1 flush, bell.1 gone", False)


def test_what_is_done_as_usual_is_told_apart_from_what_the_row_writes(rows: dict[str, ChangeRow]) -> None:
    tap = {fact.name: fact.usual for fact in rows["C6"].facts if fact.name in ("joint", "covered with")}
    assert tap == {"joint": True, "covered with": True}
    assert [fact.usual for fact in rows["C8"].facts if fact.name == "covered with"] == [False]


# ---- cut ends, splices, connectors, circuits ------------------------------------------------------------------------
def test_a_cut_end_says_where_it_hangs_how_long_it_is_and_what_feeds_it(ends: dict[str, CutEnd]) -> None:
    assert set(ends) == {"C3", "C8"}
    stub = ends["C3"]
    assert (stub.id, stub.wire, stub.hangs_on, stub.length) == ("C3-W6-F2", "W6", "F2", "30 mm")
    assert (stub.cover, stub.live, stub.fed) == ("capped", "fed by F2 (always)", True)


def test_nothing_is_called_dead_where_the_record_stops(made: JobResult, ends: dict[str, CutEnd]) -> None:
    stub = ends["C8"]
    assert (stub.cover, stub.hangs_on, stub.length) == ("capped, crimp cap", "an end that was not traced", "40 mm")
    assert (stub.live, stub.fed) == ("not known if live", False)
    assert cut_ends(replace(made, shown=made.donor)) == ()


def test_a_cut_end_behind_a_load_alone_is_live(tmp_path: Path) -> None:
    """The lamp is deleted and its return cut: no feed reaches the stub, but through the lamp it is live."""
    text = """
        job: Through
        plugs: {lamp: {ways: 2}}
        fuses: {F1: {rating: 5 A, fed: always}}
        loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A, verdict: deleted}}
        grounds: {L1: {cable: 10 mm2, back to: battery-}}
        wires:
          W1: {size: 1.0 mm2, from: F1, to: lamp.1}
          W2: {size: 1.0 mm2, from: lamp.2, to: L1}
        changes:
          - {id: C1, kind: remove, wire: W2, ends: {lamp.2: capped 30 mm, L1: gone}, made: 2031-05-03 AK}
    """
    (end,) = cut_ends(work(tmp_path, text))
    assert (end.live, end.fed, end.fuses) == ("live through a load", True, ())


def test_a_row_has_its_own_cut_ends_only(rows: dict[str, ChangeRow], ends: dict[str, CutEnd]) -> None:
    assert {row.id: row.cut_ends for row in rows.values() if row.cut_ends} == {id: (end,) for id, end in ends.items()}


def test_an_opened_splice_says_how_the_wire_was_left(made: JobResult) -> None:
    (splice,) = [row for row in splice_sheet(made).factory if row.id == "FS1"]
    assert [(opening.row, opening.how) for opening in splice.opened_by] == [("C1", "W3 flush")]


def connector(made: JobResult, name: str) -> ConnectorView:
    return next(view for view in connector_views(made) if view.name == name)


def test_a_plug_whose_ends_all_went_has_left_the_car(made: JobResult) -> None:
    bell = connector(made, "bell")
    assert bell.gone
    assert [row.now_words for row in bell.cavities] == ["left the car"] * 2


def test_a_plug_of_which_one_end_was_moved_is_empty(made: JobResult) -> None:
    radio = connector(made, "radio")  # radio.1 gone, radio.2 moved away
    assert not radio.gone
    assert [row.now_words for row in radio.cavities] == ["empty"] * 2


def test_a_plug_of_which_one_wire_was_pulled_is_still_there(tmp_path: Path) -> None:
    pulled = work(tmp_path / "pulled", JOB.replace("{bell.2: gone, L1", "{bell.2: pulled, L1"))
    assert not connector(pulled, "bell").gone


def wanting(folder: Path, *swaps: tuple[str, str]) -> tuple[str, str]:
    text = JOB
    for before, after in swaps:
        assert before in text
        text = text.replace(before, after)
    lamp = next(row for row in circuit_rows(work(folder, text)) if row.load == "lamp")
    return lamp.verdict, lamp.wanting


def test_the_list_says_what_keeps_a_drop_from_being_computed(made: JobResult, tmp_path: Path) -> None:
    measured = ("to: lamp.1}", "to: lamp.1, length: 500 mm}")
    assert wanting(tmp_path / "a") == ("not judged", "not computed: length of W2 not recorded")
    assert wanting(tmp_path / "b", measured) == ("within", "")
    assert wanting(tmp_path / "c", measured, ("supply: 13.5 V\n", "")) == (
        "not judged", "no limit: supply not recorded",
    )  # fmt: skip
    assert wanting(tmp_path / "d", ("draws: 2 A", "draws: unknown"), ("GN, size: 1.0 mm2", "GN, size: unknown")) == (
        "not judged", "not computed: its current not recorded, size of W1 not recorded, and 1 more",
    )  # fmt: skip
    assert next(row.wanting for row in circuit_rows(made) if row.load == "bell") == ""  # deleted: nobody asks


def test_every_circuit_is_reached_from_the_list_deleted_ones_too(made: JobResult) -> None:
    first, *sheets = circuits_page.pages(frame_of(made, ShopFacts("shop", {})))
    links = set(re.findall(r'href="(circuits/[^"]+)"', render(environment(THEME), first)))
    assert links == {page.uri.removeprefix("jobs/account/") for page in sheets}
    assert "circuits/bell.html" in links


def test_a_photograph_belongs_to_what_it_shows_and_to_the_rows_that_name_it(made: JobResult) -> None:
    found = {row.id: row.belongs_to for row in photo_rows(made.job.photos, made.job.changes)}
    assert found == {"P1": ("C6",), "P2": ("lamp",), "P3": ()}


# ---- on paper -------------------------------------------------------------------------------------------------------
def words(page: str) -> str:
    text = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split())
    return re.sub(r" ([,;:.])", r"\1", text)


@pytest.fixture(scope="module")
def paper(made: JobResult) -> str:
    (page,) = record_page.pages(frame_of(made, ShopFacts("shop", {})))
    return render(environment(THEME), page)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("C1", ("FS1 flush, bell.1 gone", "1 200 mm", "Kept as O1 GN/RD 1.0 mm² 1 100 mm", "Why: no bell")),
        ("C3", ("F2 capped 30 mm, radio.1 gone", "Cut end C3-W6-F2 still hangs on F2")),
        ("C3", ("made 2 May 2031, AK", "sealed 3 May 2031, JT", "tested 4 May 2031, MB")),
        ("C4", ("now in unit.3", "barrel mouth of the new terminal 120 mm", "piece BU 0.5 mm²")),
        ("C5", ("moved from G9 to L1", "piece BK 1.0 mm²", "ring new, M6, 2nd from base")),
        ("C6", ("tap C6 to unit.4", "from offcut O1", "measured from lamp.1")),
        ("C8", ("Only if heater is diesel", "the rest of the wire gone", "crimp cap")),
        ("C9", ("Not for this car", "F2 to unit.2")),
    ],
)
def test_the_record_says_of_each_row_all_that_was_done(paper: str, row: str, says: tuple[str, ...]) -> None:
    table = paper[paper.index('class="stack account"') :]
    said = words(next(text for text in table.split("<tr")[2:] if f'<span class="tag">{row}</span>' in text))
    for part in says:
        assert part in said, said


def test_the_record_lists_cut_ends_and_offcuts(paper: str) -> None:
    text = words(paper)
    cut = text[text.index("Cut ends still in the car") : text.index("5 Splices")]
    assert "C3-W6-F2 W6 VT 0.5 mm² F2 30 mm capped fed by F2 (always)" in cut
    offcuts = text[text.index(" Offcuts ") : text.index("8 Grounds")]
    assert re.search(r"O1 GN/RD .*1 100 mm C1 C6", offcuts), offcuts


def test_the_record_gives_no_clearance(paper: str) -> None:
    text = words(paper)
    assert re.search(r"\d+ things not examined\. This record clears nothing: it only tells what was written\.", text)


def test_the_changes_sheet_says_the_cut_end_with_its_cover(made: JobResult) -> None:
    (page,) = changes_page.pages(frame_of(made, ShopFacts("shop", {})))
    text = words(render(environment(THEME), page))
    assert "Cut end C3-W6-F2 VT still hangs on F2: length 30 mm, cover capped, fed by F2 (always)." in text


def test_a_photograph_in_the_record_says_what_it_is_of(paper: str) -> None:
    captions = [words(text) for text in re.findall(r"<figcaption>.*?</figcaption>", paper, re.DOTALL)]
    assert captions == ["P1 Shows C6", "P2 Shows lamp", "P3 not recorded"]
