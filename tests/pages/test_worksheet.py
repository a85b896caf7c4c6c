"""The work sheet and the wire flags: every length worked out by hand from the rows, every row where it belongs."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import worksheet as pages_of
from aswired.sheets.flags import wire_flags
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.pages import pages_of as every_page
from aswired.sheets.registry import SHEETS
from aswired.sheets.templates import environment, render
from aswired.sheets.work_order import visits
from aswired.sheets.worksheet import work_sheet
from pages.handmade import NASTY
from pages.small import TEXT, small, work
from tests.crawl.tree import parse
from tests.electric.on_one_lug import LAMP, with_each

THEME = Path(__file__).parents[2] / "site_theme"
UNMADE = re.sub(r",\s+made: \S+ AK", "", TEXT.replace("FROM_TO_31", "from: F7, to: siren-plug.1"))
MORE = """\
  - {id: C50, kind: cover, from: split, to: siren-plug, cover: cloth tape, over: [C14]}
  - {id: C52, kind: verify, proves: [C14], test: "drop over the siren's feed, siren on", expect: under 0.2 V}
  - {id: C60, kind: remove, wire: W70, ends: {old-plug.2: pulled, FS9: capped 30 mm}}
  - {id: C61, kind: add, wire: W71, from: F9, to: old-plug.2, piece: GN 18 AWG, reach: 300 mm, terminal: pin}
  - {id: C62, kind: extend, wire: W99, plug: nowhere, gap: 10 mm, piece: GN 18 AWG}
  - {id: C63, kind: add, wire: W72, from: F9, to: L1, piece: GN 18 AWG, reach: 300 mm, only if: heater is diesel}
  - {id: C64, kind: add, wire: W73, from: F9, to: L1, piece: GN 18 AWG, reach: 300 mm, only if: roof is open}
"""
WIRES = """\
  W70: {colour: GY, size: 1.5 mm2, from: old-plug.2, to: FS9, length: 800 mm}
  W71x: {colour: RD, size: 1.5 mm2, from: FS9, to: F8.feed}
changes:
"""
OPTIONS = "options: {heater: {is: petrol, could be: [diesel]}, roof: {is: unknown, could be: [open, closed]}}\n"


@pytest.fixture
def planned(tmp_path: Path) -> JobResult:
    """Nothing is made; seven rows more than the small job has."""
    return work(tmp_path / "planned", OPTIONS + UNMADE.replace("changes:\n", WIRES) + MORE)


def step(of: JobResult, id: str):  # type: ignore[no-untyped-def]
    return next(step for step in work_sheet(of).steps if step.id == id)


def test_an_extension_says_where_to_cut_and_which_piece(planned: JobResult) -> None:
    (wire,) = step(planned, "C14").wires
    assert (wire.name, wire.colour.code, wire.size, wire.ends) == ("W31", "VT/WH", "1.5 mm²", "F7 to siren-plug.1")
    # 2 000 mm in all, 150 of them stay on the plug
    told = {(cut.words, cut.length) for cut in wire.cuts}
    assert told == {("stays on siren-plug.1", "150 mm"), ("stays on F7", "1\u202f850 mm")}
    assert wire.piece is not None
    assert (wire.piece.colour.code, wire.piece.length) == ("BU", "470 mm")  # gap 400, slack 50, two laps of 10
    # the centre of a lap of 10 lies 5 inside the cut face: 145 mm in front of the plug
    assert {joint.id: joint.place for joint in wire.joints}["C14-W31-plug"] == "145 mm from siren-plug towards split"


def test_a_moved_ground_says_what_stays_and_where_it_goes(planned: JobResult) -> None:
    moved = step(planned, "C21")
    (wire,) = moved.wires
    assert [(cut.length, cut.words) for cut in wire.cuts] == [("1\u202f100 mm", "stays on siren-plug.2")]
    assert wire.piece is not None
    assert wire.piece.length == "370 mm"  # 300 + 50 + 10 + 6 = 366, cut to the next 5
    facts = {fact.name: fact.value for fact in moved.facts}
    assert facts["joint"] == "lap, soldered"
    assert facts["overlap"] == "10 mm"
    assert facts["sleeve"] == "adhesive sleeve 40 mm"
    assert facts["goes to"] == "L1"
    assert facts["ring"] == "new, M6"


def test_the_usual_joint_is_said_once_and_another_one_with_its_step(planned: JobResult) -> None:
    """The job's usual joint is a soldered lap of 10 mm under a 40 mm sleeve."""
    assert work_sheet(planned).usual == (
        ("joint", "lap, soldered"),
        ("overlap", "10 mm"),
        ("sleeve", "adhesive sleeve 40 mm"),
    )
    usual = {fact.name: fact.usual for fact in step(planned, "C21").facts}
    assert (usual["joint"], usual["overlap"], usual["sleeve"], usual["ring"]) == (True, True, True, False)
    page = html(planned)
    assert page.count("lap, soldered") == 1
    other = replace(planned, job=replace(planned.job, usual=replace(planned.job.usual, joint=None)))
    assert [name for name, _ in work_sheet(other).usual] == ["overlap", "sleeve"]
    assert {fact.name: fact.usual for fact in step(other, "C21").facts}["joint"] is False


def test_a_length_that_cannot_be_told_says_what_it_waits_for(planned: JobResult) -> None:
    (wire,) = step(planned, "C30").wires
    assert wire.piece is not None
    assert wire.piece.length == "not recorded"
    assert "gap" in wire.piece.waits_for


def test_a_step_says_what_hangs_on_its_wires(planned: JobResult) -> None:
    assert step(planned, "C14").dead == ("siren",)
    assert step(planned, "C14").fuses == ("F7",)
    (hanging,) = step(planned, "C60").hanging
    assert (hanging.splice, hanging.wires, hanging.all_known) == ("FS9", ("W71x",), False)  # FS9 is not declared


def test_a_step_says_how_it_is_proved(planned: JobResult) -> None:
    proved = step(planned, "C14")
    assert [(test.row, test.expect) for test in proved.tests] == [("C52", "under 0.2 V")]
    (drop,) = proved.drops
    figures = planned.circuit_figures["siren"]
    assert drop.load == "siren"
    assert figures.alone.whole.value is not None
    assert drop.volts == f"{figures.alone.whole.value:.2f} V"
    assert drop.above == (figures.alone.whole.value > 1.35)  # a horn may lose 10 % of 13.5 V


def test_what_goes_out_makes_room_and_tests_come_before_wraps(planned: JobResult) -> None:
    order = [row.id for visit in visits(planned) for row in visit.rows]
    assert order.index("C60") < order.index("C61")  # C61 goes into the cavity that C60 frees
    assert order[-2:] == ["C52", "C50"]
    assert [visit.place for visit in visits(planned)][-2:] == ["Tests", "Wraps and conduit"]


def test_rows_that_are_not_for_now_stand_apart_with_the_reason(planned: JobResult) -> None:
    sheet = work_sheet(planned)
    assert {step.id for step in sheet.steps} == {"C14", "C21", "C30", "C50", "C52", "C60", "C61"}
    assert [(row.id, row.why) for row in sheet.skipped] == [("C63", "only if heater is diesel")]
    (question,) = sheet.questions
    assert (question.option, question.could_be) == ("roof", "open, closed")
    assert question.rows == (("C64", "roof is open"),)
    (left_out,) = sheet.left_out
    assert left_out.id == "C62"
    assert "W99" in left_out.why


def test_no_lengths_are_given_for_restraint_wiring(planned: JobResult) -> None:
    wires = {**planned.job.wires, "W31": replace(planned.job.wires["W31"], special="restraint")}
    barred = replace(planned, job=replace(planned.job, wires=wires))
    kept = step(barred, "C14")
    assert "restraint" in kept.barred
    assert (kept.wires, kept.ticks, kept.facts, kept.drops) == ((), (), (), ())
    assert "C14" not in {flag.row for flag in wire_flags(barred)}
    assert "470 mm" not in html(barred)


def test_the_next_free_ids_follow_the_highest(planned: JobResult) -> None:
    sheet = work_sheet(planned)
    assert (sheet.next_row, sheet.next_photo, sheet.next_reading) == ("C65", "P1", "R1")


def test_what_is_begun_and_not_finished_is_open(tmp_path: Path) -> None:
    of = small(tmp_path / "begun")
    open_ = work_sheet(of).open
    assert [row.id for row in open_.unsealed] == ["C14", "C21"]
    assert open_.unsealed[0].since == "made 4 May 2031, AK"
    assert open_.untested == ()
    assert open_.planned == ("C30",)
    rows = {"C14": {"sealed": of.job.changes[0].made}, "C21": {"tested": of.job.changes[1].made}}
    changes = tuple(replace(row, **rows.get(row.id, {})) for row in of.job.changes)
    later = work_sheet(replace(of, job=replace(of.job, changes=changes))).open
    assert later.unsealed == ()
    assert [row.id for row in later.untested] == ["C14"]


def test_a_made_test_row_counts_as_the_test_of_the_rows_it_proves(tmp_path: Path) -> None:
    sealed = TEXT.replace("FROM_TO_31", "from: F7, to: siren-plug.1").replace(
        "made: 2031-05-04 AK", "made: 2031-05-04 AK, sealed: 2031-05-04 AK"
    )
    proof = "  - {id: C52, kind: verify, proves: [C14], test: drop, made: 2031-05-06 AK}\n"
    assert [row.id for row in work_sheet(work(tmp_path / "a", sealed)).open.untested] == ["C14"]
    assert work_sheet(work(tmp_path / "b", sealed + proof)).open.untested == ()


def test_both_sides_of_a_cut_and_both_ends_of_a_lead_get_a_flag(planned: JobResult) -> None:
    told = [(flag.row, flag.wire, flag.colour.code, flag.end, flag.leads_to) for flag in wire_flags(planned)]
    assert sorted(told) == [
        ("C14", "W31", "VT/WH", "C14-W31-loom", "F7"),
        ("C14", "W31", "VT/WH", "C14-W31-plug", "siren-plug.1"),
        ("C21", "W52", "BK", "L1", "C21"),  # the piece, with the new ring
        ("C21", "W52", "BN", "C21", "siren-plug.2"),
        ("C30", "W60", "GY", "C30-W60-loom", "F8"),
        ("C30", "W60", "GY", "C30-W60-plug", "old-plug.1"),
        ("C60", "W70", "GY", "C60-W70-FS9", "FS9"),
        ("C61", "W71", "GN", "F9", "old-plug.2"),
        ("C61", "W71", "GN", "old-plug.2", "F9"),
    ]


def html(of: JobResult, edition: str = "shop") -> str:
    made = pages_of.pages(frame_of(of, ShopFacts(edition)))
    return unescape("".join(render(environment(THEME), page) for page in made))


def test_the_page_prints_what_the_sheet_says(planned: JobResult) -> None:
    page = html(planned)
    for words in ("Answer first", "Before the first cut", ">470 mm</b>", "violet, white stripe", "9 flags"):
        assert words in page.replace("9 Flags", "9 flags"), words
    assert page.count('type="checkbox"') >= 7 + 2 * 5


def test_what_the_page_names_leads_to_where_it_is_shown(planned: JobResult) -> None:
    page = html(planned)
    assert "7 steps at 6 places, for the options of this car." in page  # siren plug, lug, old plug, fuse box, two last
    for id, to in (("C14", "changes.html#C14"), ("F7", "fuses.html#F7")):
        assert f'href="{to}">{id}</a>' in page


def test_nothing_planned_is_said_and_the_open_items_stand(planned: JobResult, tmp_path: Path) -> None:
    text = TEXT.replace("FROM_TO_31", "from: F7, to: siren-plug.1")
    done = work(tmp_path / "done", text[: text.index("  - {id: C30")])
    page = html(done)
    assert "Nothing is planned for this car." in page
    assert "Before the first cut" not in page
    assert "Cut, not sealed" in page
    assert "Wire flags" not in page


def test_words_of_the_job_are_escaped(planned: JobResult) -> None:
    rows = tuple(replace(row, why=NASTY, note=NASTY) for row in planned.job.changes)
    nasty = replace(planned, job=replace(planned.job, changes=rows, cautions=(NASTY,)))
    made = "".join(render(environment(THEME), page) for page in pages_of.pages(frame_of(nasty, ShopFacts("shop"))))
    assert "<script>alert" not in made
    assert "&lt;script&gt;alert" in made


def test_the_owner_is_given_no_work_sheet_and_no_way_to_one(planned: JobResult) -> None:
    owners = {page.template for page in every_page(frame_of(planned, ShopFacts("owner")))}
    assert "overview.html" in owners
    assert owners & {"worksheet.html", "flags.html"} == set()
    assert "worksheet.html" in {sheet.file for sheet in SHEETS if sheet.shop_only}
    (shown, _) = pages_of.pages(frame_of(planned, ShopFacts("shop")))
    other = replace(shown, context={**shown.context, "shop": ShopFacts("owner")})
    assert "Work sheet</a>" in render(environment(THEME), shown)
    assert "Work sheet</a>" not in render(environment(THEME), other)


BRIDGE = "{id: C3, kind: bridge, ends: [F1.feed, F1], piece: RD 2.5 mm2, cut: 100 mm, interlock: other, decided by: AK}"
BARE = "{id: C4, kind: remove, wires: {W2: {mid.1: uncapped, lamp.1: pulled}}}"


def test_what_the_plan_would_bring_against_the_car_stands_before_the_first_cut(tmp_path: Path) -> None:
    """A bridge past F1 stands at no wire, so no step would tell it: the fuse limits nothing any more."""
    made = "{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}"
    wrong = work(tmp_path / "wrong", with_each(LAMP, ((made, f"{made}, {BRIDGE}, {BARE}"),)))
    page = html(wrong)
    bare = "The cut end C4-W2-mid.1 is left bare, and is live, fed by F1"
    assert [(row.wires, row.so) for row in work_sheet(wrong).against] == [
        (("W2",), bare),
        (("C3",), "Copper joins both sides of F1, so it limits nothing"),
    ]
    (box,) = [box.text for box in parse(page).all("div", class_="stop") if "Made as planned" in box.text]
    for words in (
        bare,
        "C3 Copper joins both sides of F1, so it limits nothing. Find what goes round F1, and part it.",
    ):
        assert words in box
    assert page.index("Made as planned, this would stand") < page.index("Before the first cut")
    assert f"once the planned rows are made: t{bare[1:]}" in page
    sound = work(tmp_path / "sound", with_each(LAMP, ((made, f"{made}, {BARE.replace('uncapped', 'capped 30 mm')}"),)))
    assert work_sheet(sound).against == ()
    assert "Made as planned" not in html(sound)
