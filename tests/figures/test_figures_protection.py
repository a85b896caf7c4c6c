"""Beside the verdict on a fuse: second opinions, loads that stay on, wire before it, what mends it, fusible links."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.cases_special import LINK, NOTHING
from tests.findings.jobs import figure, proved, work

from aswired.checks.fuses import mend_words
from aswired.figures.fuses import FuseSummary
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure
from aswired.sheets import fuses as fuses_page
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.fuses import fuse_sheet
from aswired.sheets.templates import environment, render

THEME = Path(__file__).parents[2] / "site_theme"

# Four wires lie from the bulkhead to the nose and carry a load; W5 is a signal that feeds none.
NOSE = proved("""
    job: Nose
    landmarks: {bulkhead: sheet metal, nose: takeout}
    route: [{from: bulkhead, to: nose, length: 1000 mm, zone: wet}]
    plugs: {lamp: {at: nose}, horn: {at: nose}, sensor: {at: nose}, unit: {at: bulkhead}}
    fuses: {F1: {rating: 15 A, in: bulkhead, fed: always}, F2: {rating: 10 A, in: bulkhead, fed: always}}
    grounds: {L1: {at: bulkhead, back to: battery-}}
    wires:
      W1: {size: 14 AWG, insulation: PVC, from: F1, to: lamp.1, length: 1100 mm}
      W2: {size: 2.5 mm2, from: lamp.2, to: L1, length: 1100 mm}
      W3: {size: 1.5 mm2, insulation: cross-linked, from: F2, to: horn.1, length: 1100 mm}
      W4: {size: 1.5 mm2, from: horn.2, to: L1, length: 1100 mm}
      W5: {size: 0.5 mm2, from: unit.1, to: sensor.1, length: 1100 mm}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 6 A, duty: continuous}
      horn: {between: horn.1 horn.2, draws: 4 A, duty: intermittent}
""")


def fuse(worked: JobResult, name: str) -> FuseSummary:
    return next(fuse for fuse in worked.fuses if fuse.name == name)


def given(of: Figure) -> dict[str, float | str | None]:
    return {each.name: each.value for each in of.inputs}


# ---- 33 CFR 183.425 -------------------------------------------------------------------------------------------------
def test_the_boat_rule_by_hand(tmp_path: Path) -> None:
    worked = work(tmp_path, NOSE)
    # PVC is good to 85 C: column 80 °C; row 14 AWG of it 25 A (33 CFR 183.425 Table 5, read); no hot leg
    alone = figure(worked, "F1.cfr")
    assert alone.value == 25
    told = given(alone)
    assert (told["row"], told["insulation"], told["column"], told["engine space"]) == ("row 14 AWG", "PVC", 80, 1.0)
    # W1 to W4 carry current there, W5 is of no load: four conductors, 0.6 (note 2, read): 25 x 0.6 = 15 A
    bundled = figure(worked, "F1.cfr.bundled")
    assert bundled.value == pytest.approx(15)
    assert given(bundled)["wires that carry current"] == "4"
    assert "1 more lie there" in bundled.inputs[1].source
    assert "from 50 V only" in bundled.note
    # cross-linked is good to 125 C: column 125 °C; 1.5 mm² by its area is row 16 AWG, 30 A (read)
    assert figure(worked, "F2.cfr").value == 30
    assert given(figure(worked, "F2.cfr"))["row"] == "by area, row 16 AWG, 1.31 mm²"


@pytest.mark.parametrize(
    ("leg", "amps", "words"),
    [
        ("zone: hot", 19.5, "hot from bulkhead to nose"),  # note 1 (read): 25 x 0.78
        ("zone: [hot, flex]", 19.5, "hot from bulkhead to nose"),
        ("hottest: 50 C", 19.5, "hot from bulkhead to nose"),  # what the note counts an engine space with
        ("hottest: 70 C", 19.5, "it gets 70 C, the note counts with 50 C"),
        ("hottest: 49 C", 25, "no leg of its way is marked hot"),
    ],
)
def test_an_engine_space_is_a_leg_that_is_marked_or_measured_hot(
    leg: str, amps: float, words: str, tmp_path: Path
) -> None:
    found = figure(work(tmp_path, NOSE.replace("zone: wet", leg)), "F1.cfr")
    assert found.value == pytest.approx(amps)
    assert words in next(each.source for each in found.inputs if each.name == "engine space")


@pytest.mark.parametrize("hot", [0, 1, 2])
def test_one_hot_leg_of_several_makes_an_engine_space(hot: int, tmp_path: Path) -> None:
    zones = ["zone: hot" if index == hot else "zone: wet" for index in range(2)]
    legs = (
        f"{{from: bulkhead, to: mid, length: 400 mm, {zones[0]}}}, {{from: mid, to: nose, length: 600 mm, {zones[1]}}}"
    )
    text = NOSE.replace("{from: bulkhead, to: nose, length: 1000 mm, zone: wet}", legs)
    found = figure(work(tmp_path, text.replace("nose: takeout", "mid: tie, nose: takeout")), "F1.cfr")
    assert found.value == pytest.approx(25 if hot == 2 else 25 * 0.78)  # note 1 of the table (read)


@pytest.mark.parametrize(
    ("fact", "instead", "missing"),
    [
        ("14 AWG, insulation: PVC", "14 AWG", ("insulation of W1",)),
        ("14 AWG, insulation: PVC", "14 AWG, insulation: unknown", ("insulation of W1",)),
        ("lamp: {at: nose}", "lamp: {}", ("way of W1, so whether it runs through a hot leg",)),
        ("14 AWG, insulation", "unknown, insulation", ("size of a wire it protects",)),
    ],
)
def test_what_is_not_recorded_is_named_and_gives_no_number(
    fact: str, instead: str, missing: tuple[str, ...], tmp_path: Path
) -> None:
    assert NOSE.count(fact) == 1
    worked = work(tmp_path, NOSE.replace(fact, instead))
    for key in ("F1.cfr", "F1.cfr.bundled"):
        found = figure(worked, key)
        assert found.value is None
        assert found.missing_words[: len(missing)] == missing


def test_a_wire_below_the_table_is_not_judged_and_says_so(tmp_path: Path) -> None:
    worked = work(tmp_path, NOSE.replace("W1: {size: 14 AWG", "W1: {size: 0.75 mm2"))
    found = figure(worked, "F1.cfr")
    assert (found.value, found.missing_words) == (None, ())
    assert found.note.startswith("Not judged: 0.75 mm2 lies below the smallest row, 18 AWG.")
    # the aircraft table goes further down: 0.75 mm² by its area is row 20 AWG, 5 A (AC 43.13-1B Table 11-3, read)
    faa = figure(worked, "F1.faa")
    assert (faa.value, given(faa)["row"]) == (5, "by area, row 20 AWG, 0.52 mm²")


def test_a_cable_of_gauge_nought_has_its_row(tmp_path: Path) -> None:
    # 1/0 AWG, column 80 °C: 245 A (33 CFR 183.425 Table 5, read); 150 A (AC 43.13-1B Table 11-3, read)
    text = NOSE.replace("W1: {size: 14 AWG", "W1: {size: 1/0 AWG").replace("rating: 15 A", "rating: 150 A")
    worked = work(tmp_path, text.replace("job: Nose", "job: Nose\n    AWG means: ASTM B258"))
    for key, amps in (("F1.cfr", 245), ("F1.faa", 150)):
        found = figure(worked, key)
        assert (found.value, given(found)["row"]) == (amps, "row 1/0 AWG")
        assert "Not judged" not in found.note


def test_a_size_that_the_jobs_table_lacks_was_read_all_the_same(tmp_path: Path) -> None:
    rating = fuse(work(tmp_path, NOSE.replace("W1: {size: 14 AWG", "W1: {size: 1/0 AWG")), "F1").rating
    assert (rating.value, rating.note) == (None, "not judged: W1: 1/0 AWG is not in SAE J1128")
    assert [str(one) for one in rating.missing] == ["W1: 1/0 AWG is not in SAE J1128"]


def test_no_opinion_is_the_verdict(tmp_path: Path) -> None:
    # 30 A on 2.5 mm2: planned for 20 A. 33 CFR 183.425 lets 14 AWG of 125 °C carry 40 A, and is not asked
    text = NOSE.replace("W3: {size: 1.5", "W3: {size: 2.5").replace("F2: {rating: 10 A", "F2: {rating: 30 A")
    found = fuse(work(tmp_path, text), "F2")
    assert (found.ok, found.rating.value) == (False, 20)
    assert [opinion.value for opinion in found.opinions if opinion.key == "F2.cfr"] == [40]


# ---- what a fuse bears, and the wire before it ----------------------------------------------------------------------
def test_the_share_of_what_stays_on(tmp_path: Path) -> None:
    worked = work(tmp_path, NOSE)
    assert figure(worked, "F1.share").value == pytest.approx(40)  # 6 A of 15 A
    assert figure(worked, "F2.share").value == 0  # the horn is recorded not to stay on


@pytest.mark.parametrize(
    ("fact", "instead", "missing"),
    [
        (", duty: continuous", "", ("duty of lamp",)),
        ("draws: 6 A", "draws: unknown", ("current of lamp",)),
        ("F1: {rating: 15 A", "F1: {rating: unknown", ("rating of F1",)),
        ("lamp: {between: lamp.1 lamp.2", "lamp: {between: lamp.7 lamp.8", ("a load of this list on F1",)),
    ],
)
def test_a_share_that_cannot_be_told_is_not_a_number(
    fact: str, instead: str, missing: tuple[str, ...], tmp_path: Path
) -> None:
    assert NOSE.count(fact) == 1
    found = figure(work(tmp_path, NOSE.replace(fact, instead)), "F1.share")
    assert (found.value, found.missing_words) == (None, missing)


BARE = proved("""
    job: Bare
    fuses: {F3: {rating: 20 A}, F4: {rating: 10 A}, F5: {rating: 10 A, fed: always}}
    splices: {B1: {bus: yes}, FS1: {}}
    wires:
      W1: {size: 16 mm2, from: battery+, to: B1, length: 900 mm}
      W2: {size: 4 mm2, from: B1, to: F3.feed, length: 120 mm}
      W3: {size: 2.5 mm2, from: F3, to: FS1, length: 500 mm}
      W4: {size: 1.5 mm2, from: FS1, to: F4.feed, length: 80 mm}
      W5: {size: 1.0 mm2, from: F4, to: lamp.1, length: 80 mm}
      W6: {size: 1.0 mm2, from: F5, to: horn.1, length: 80 mm}
""")


def test_the_wire_before_a_fuse_is_measured_from_the_bus_bar(tmp_path: Path) -> None:
    worked = work(tmp_path, BARE)
    assert figure(worked, "F3.unprotected").value == 120
    assert (fuse(worked, "F4").unprotected, fuse(worked, "F4").feeders) == (None, ("F3",))
    assert (fuse(worked, "F5").unprotected, fuse(worked, "F5").feeders) == (None, ())
    straight = work(tmp_path / "straight", BARE.replace("{bus: yes}", "{}"))
    assert figure(straight, "F3.unprotected").value == 1020  # 900 + 120 mm


def test_a_length_that_is_not_written_leaves_the_wire_before_it_unknown(tmp_path: Path) -> None:
    text = BARE.replace("{bus: yes}", "{}").replace("length: 900 mm", "length: unknown")
    found = figure(work(tmp_path, text), "F3.unprotected")
    assert (found.value, found.missing_words) == (None, ("length of W1 from B1 to battery+",))
    assert found.note == "at least 120 mm"


def test_a_fuse_that_the_battery_reaches_on_its_own_is_behind_none(tmp_path: Path) -> None:
    text = BARE.replace("      W6:", "      W7: {size: 4 mm2, from: FS1, to: battery+, length: 1 m}\n      W6:")
    assert fuse(work(tmp_path, text), "F4").feeders == ()


# ---- what mends a fuse above its wire -------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("edits", "words"),
    [
        # 18 AWG of SAE copper is 0.76 mm²: planned for 7.5 A; 6 A for good want 6 / 0.8 = 7.5 A
        ((("14 AWG", "18 AWG"),), "Put in a 7.5 A fuse; the load of 6.0 A allows it"),
        # 6.1 A for good want 7.625 A, and no fuse is both: 15 A suits 1.5 mm², the next gauge of 1.5 mm² is 14 AWG
        (
            (("14 AWG", "18 AWG"), ("draws: 6 A", "draws: 6.1 A")),
            "Replace W1 from F1 to lamp.1 by at least 1.5 mm2 (14 AWG): no fuse that suits the wire bears the load, "
            "which wants 7.62 A",
        ),
        # for a while only, the same load wants no room
        (
            (("14 AWG", "18 AWG"), ("draws: 6 A, duty: continuous", "draws: 6.1 A, duty: intermittent")),
            "Put in a 7.5 A fuse; the load of 6.1 A allows it",
        ),
        # how long it is on nobody wrote: it is counted as on for good, so that no fuse is put in that blows
        (
            (("W1: {size: 14 AWG", "W1: {size: 0.75 mm2"), ("draws: 6 A, duty: continuous", "draws: 6.1 A")),
            "Replace W1 from F1 to lamp.1 by at least 1.5 mm2: no fuse that suits the wire bears the load, "
            "which wants 7.62 A",
        ),
        (
            (("14 AWG", "18 AWG"), ("draws: 6 A", "draws: unknown")),
            "Put in a 7.5 A fuse, if its load allows: current of lamp is not recorded",
        ),
        (
            (("14 AWG", "18 AWG"), ("between: lamp.1 lamp.2", "between: lamp.7 lamp.8")),
            "Put in a 7.5 A fuse; no load on it is traced, so try it under load",
        ),
        # 50 A suits 8 mm²; of SAE copper 8 AWG has 7.23, 6 AWG 12.1
        (
            (("F1: {rating: 15 A", "F1: {rating: 50 A"), ("draws: 6 A", "draws: 45 A")),
            "Replace W1 from F1 to lamp.1 by at least 8 mm2 (6 AWG): no fuse that suits the wire bears the load, "
            "which wants 56.2 A",
        ),
        # 120 mm², the thickest row, is planned for 300 A
        (
            (("F1: {rating: 15 A", "F1: {rating: 350 A"), ("draws: 6 A", "draws: 45 A")),
            "Share the loads among smaller fuses: no fuse that suits the wire bears the load, which wants 56.2 A, "
            "and no wire of the planning table suits F1",
        ),
    ],
)
def test_the_smallest_change_that_mends_a_fuse(edits: tuple[tuple[str, str], ...], words: str, tmp_path: Path) -> None:
    text = NOSE
    for fact, instead in edits:
        assert text.count(fact) == 1, fact
        text = text.replace(fact, instead)
    worked = work(tmp_path, text)
    found = fuse(worked, "F1")
    assert found.ok is False
    assert mend_words(found) == words
    assert [finding.mend for finding in worked.findings if finding.code == "FUS01"] == [words]


def test_the_fuse_that_is_put_in_suits_the_wire(tmp_path: Path) -> None:
    text = NOSE.replace("14 AWG", "18 AWG")
    mend = fuse(work(tmp_path, text), "F1").mend
    assert mend is not None
    after = fuse(work(tmp_path / "after", text.replace("rating: 15 A", f"rating: {mend.fuse_a:g} A")), "F1")
    assert (after.ok, after.mend, mend_words(after)) == (True, None, "")


# ---- fusible links --------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("link", "wire", "steps"), [("20 AWG", "16 AWG", 4), ("1.0 mm2", "2.5 mm2", 4), ("20 AWG", "unknown", None)]
)
def test_a_link_stands_with_what_it_protects(link: str, wire: str, steps: int | None, tmp_path: Path) -> None:
    text = LINK.replace("SIZE", link).replace("WIRE", wire).replace("LONG", "150 mm").replace("LIMITS", "")
    (found,) = work(tmp_path, text.replace("ROW", NOTHING)).links
    assert (found.name, found.stretch.wire, found.length_mm) == ("K1", "K1", 150)
    assert [(behind.wire, behind.steps) for behind in found.protects] == [("W5", steps)]


def test_a_link_that_was_taken_out_protects_nothing(tmp_path: Path) -> None:
    text = LINK.replace("SIZE", "20 AWG").replace("WIRE", "16 AWG").replace("LONG", "150 mm").replace("LIMITS", "")
    row = "{id: C1, kind: remove, wires: {K1: {B1: gone, FS1: gone}}, made: 2031-05-03 AK}"
    assert work(tmp_path, text.replace("ROW", row)).links == ()


def test_a_link_and_what_it_protects_are_those_of_the_car_as_it_is_while_rows_are_planned(tmp_path: Path) -> None:
    rows = (
        "{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}\n"
        "      - {id: C2, kind: shorten, wire: K1, end: B1, pigtail: 50 mm, take out: 30 mmDONE}\n"
        "      - {id: C3, kind: extend, wire: W5, end: box.1, pigtail: 100 mm, gap: 100 mm, piece: RD 18 AWGDONE}"
    )
    text = LINK.replace("SIZE", "20 AWG").replace("WIRE", "16 AWG").replace("LONG", "150 mm").replace("LIMITS", "")
    (planned,) = work(tmp_path / "planned", text.replace("ROW", rows).replace("DONE", "")).links
    (done,) = work(tmp_path / "done", text.replace("ROW", rows).replace("DONE", ", made: 2031-05-04 AK")).links
    # 16 AWG is four numbers thicker than the link of 20 AWG; the piece of 18 AWG in W5 is two
    assert (planned.length_mm, [(behind.wire, behind.steps) for behind in planned.protects]) == (150, [("W5", 4)])
    assert (done.length_mm, [(behind.wire, behind.steps) for behind in done.protects]) == (120, [("W5", 2)])


def test_a_link_with_a_stretch_that_was_not_measured_has_no_length(tmp_path: Path) -> None:
    row = "{id: C2, kind: extend, wire: K1, end: B1, pigtail: 50 mm, piece: RD 18 AWG, made: 2031-05-04 AK}"
    text = LINK.replace("SIZE", "20 AWG").replace("WIRE", "16 AWG").replace("LONG", "150 mm").replace("LIMITS", "")
    (found,) = work(tmp_path, text.replace("ROW", row)).links  # its piece has neither gap nor reach
    assert found.length_mm is None


def test_of_two_ways_to_a_fuse_the_one_that_was_not_measured_leaves_its_bare_wire_unknown(tmp_path: Path) -> None:
    text = """
    job: Two ways
    fuses: {F12: {rating: 10 A}}
    splices: {B1: {bus: yes}}
    wires:
      W1: {size: 2.5 mm2, from: battery+, to: F12.feed, length: 100 mm}
      W2: {size: 2.5 mm2, from: B1, to: F12.feed, length: LONG}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """
    measured = fuse(work(tmp_path / "measured", text.replace("LONG", "250 mm")), "F12").unprotected
    unread = fuse(work(tmp_path / "unread", text.replace("LONG", "unknown")), "F12").unprotected
    assert measured is not None
    assert unread is not None
    assert measured.value == 250  # the longer of the two
    assert unread.value is None
    assert len(unread.missing_words) == 1
    assert "W2" in unread.missing_words[0]


# ---- the page -------------------------------------------------------------------------------------------------------
def printed(of: JobResult) -> str:
    (page,) = fuses_page.pages(frame_of(of, ShopFacts("shop", {})))
    return " ".join(render(environment(THEME), page).partition("<main")[2].split())


def test_the_page_tells_second_opinions_apart_from_the_verdict(tmp_path: Path) -> None:
    worked = work(tmp_path, NOSE.replace("F1: {rating: 15 A", "F1: {rating: 30 A"))
    sheet = fuse_sheet(worked)
    beside = {row.name: row.beside for row in sheet.rows}
    first, second = beside["F1"], beside["F2"]
    assert first is not None
    assert second is not None
    # AC 43.13-1B Table 11-3 (read): 14 AWG 15 A; 1.5 mm² is row 16 AWG, 10 A
    assert (first.allowed, first.bundled, first.fits, first.share) == ("25.0 A", "15.0 A", "15.0 A", "20.0 %")
    assert (second.fits, second.bare, second.behind) == ("10.0 A", "not recorded", ())
    assert (sheet.smaller, sheet.above, sheet.carries) == (("F1",), ("F1",), True)
    page = printed(worked)
    assert page.index("Beside the verdict") > page.index("too big for the wire")
    assert "33 CFR 183.425 lets the wire carry less than the fuse of" in page
    assert "the rule makes that count from 50 V only" in page
    assert "Put in a 15 A fuse; the load of 6.0 A allows it" in page


def test_a_rule_that_nothing_is_known_for_is_said_once(tmp_path: Path) -> None:
    worked = work(tmp_path, NOSE.replace(", insulation: PVC", "").replace(", insulation: cross-linked", ""))
    assert not fuse_sheet(worked).carries
    page = printed(worked)
    assert page.count("33 CFR 183.425 gives nothing here") == 1
    assert "in its bundle" not in page


def test_fuses_behind_fuses_and_links_stand_on_the_page(tmp_path: Path) -> None:
    page = printed(work(tmp_path / "bare", BARE))
    assert "Fuses behind fuses" in page
    assert "none, behind" in page
    assert "Fusible links" not in page
    text = LINK.replace("SIZE", "20 AWG").replace("WIRE", "16 AWG").replace("LONG", "150 mm").replace("LIMITS", "")
    page = printed(work(tmp_path / "link", text.replace("ROW", NOTHING)))
    assert "1 fusible link" in page
    assert "the link is 4 gauge numbers thinner" in page
    assert "Fuses behind fuses" not in page


def test_a_fuse_that_a_person_let_stand_says_what_would_mend_it(tmp_path: Path) -> None:
    accepted = "    accepted: [{finding: FUS01, of: F1, by: AK, why: the maker ran it so}]\n"
    text = NOSE.replace("14 AWG", "18 AWG").rstrip("\n") + "\n" + accepted
    page = printed(work(tmp_path, text))
    assert "What would mend" in page
    assert "Put in a 7.5 A fuse; the load of 6.0 A allows it." in page
