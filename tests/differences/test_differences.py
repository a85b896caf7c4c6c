"""Two views of a hand-made car: what differs is worked out by hand beside each wire."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from aswired.car.differences import compare_all, differences, runs_of
from aswired.figures.worked import JobResult
from aswired.sheets import differences as page
from aswired.sheets.differences import difference_sheet, pair_of, pair_text, view_called
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.templates import environment, render
from aswired.site.theme import theme_dir
from aswired.text.colours import read_colour
from tests.crawl.tree import parse
from tests.findings.jobs import work

CAR = """
job: Two moments
usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
revisions: {1: 2016-01-01 AK, 2: 2020-01-01 AK, 3: yes}
handed over: 2019-01-01
fuses: {F1: {rating: 15 A, fed: always}, F2: {rating: 10 A, fed: always}}
grounds: {G1: {back to: battery-}, L1: {stud: M6, back to: battery-}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: lamp.1, to: F1, length: 900 mm}
  W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: G1, length: 500 mm}
  W3: {colour: YE, size: 1.0 mm2, from: F2, to: clock.1, length: 700 mm}
  W4: {colour: WH, size: 1.0 mm2, from: F2, to: bell.1, length: 700 mm}
changes:
  - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, made: 2015-05-03 AK}
  - {id: C2, kind: ground, wire: W2, end: G1, to: L1, ring: "new, M6", made: 2018-05-03 AK}
  - {id: C3, kind: remove, wire: W3, ends: {F2: pulled, clock.1: gone}, made: 2018-05-04 AK}
  - {id: C4, kind: cap, wire: W4, end: F2, stub: 40 mm, cover: adhesive sleeve, far: gone}
"""


@pytest.fixture(scope="module")
def car(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("car"), CAR)


def view(car: JobResult, name: str):
    found = view_called(car, name)
    assert found is not None
    return found


def test_the_moments_stand_in_their_order_and_a_day_not_noted_gives_none(car: JobResult) -> None:
    assert [view.name for view in car.views] == ["donor", "revision 1", "handed over", "revision 2", "now", "plan"]
    assert {row.id for row in view(car, "Revision 1").rows if row.counts} == {"C1"}
    assert view_called(car, "revision 3") is None
    assert difference_sheet(car).undated == ("revision 3",)


def test_a_lengthened_wire_tells_its_colours_and_lengths_along_the_way(car: JobResult) -> None:
    found = differences(view(car, "donor"), view(car, "revision 1"))
    (wire,) = found.wires
    assert (wire.wire, wire.what) == ("W1", ("colour", "length", "joints"))
    assert [(run.ends, run.joints) for run in wire.before] == [(("F1", "lamp.1"), ())]
    (run,) = wire.after
    assert run.ends == ("F1", "lamp.1")
    assert run.joints == ("C1-W1-loom", "C1-W1-plug")
    # cut 200 mm from the plug: 700 mm and 200 mm stay. Piece 400 + 50 + 10 + 10 = 470 mm. Each lap of 10 mm counts
    # once, half to either side: 700 - 5, 470 - 5 - 5, 200 - 5; in all 900 + 450
    assert [(part.colour.code, part.length_mm) for part in run.parts] == [("GN", 695), ("BU", 460), ("GN", 195)]
    assert run.length_mm == 1350
    assert [(joint.id, joint.before is None) for joint in found.joints] == [("C1-W1-loom", True), ("C1-W1-plug", True)]
    assert (found.grounds, found.fuses, found.cavities) == ((), (), ())


def test_grounds_fuses_and_cavities(car: JobResult) -> None:
    found = differences(view(car, "revision 1"), view(car, "now"))
    assert [(wire.wire, wire.what[0]) for wire in found.wires] == [("W2", "ends"), ("W3", "taken out")]
    assert found.wires[1].after == ()
    assert [(item.point, len(item.before), len(item.after)) for item in found.grounds] == [("G1", 1, 0), ("L1", 0, 1)]
    assert [(item.fuse, item.wires_before, item.wires_after) for item in found.fuses] == [("F2", ("W3", "W4"), ("W4",))]
    assert [(item.cavity, item.before, item.after) for item in found.cavities] == [("clock.1", ("W3",), ())]


def test_an_end_that_sits_in_nothing_says_how_it_was_left(car: JobResult) -> None:
    found = differences(view(car, "now"), view(car, "plan"))
    (wire,) = found.wires
    assert wire.wire == "W4"
    assert {"ends", "length", "how an end was left"} <= set(wire.what)
    told = pair_text(pair_of(found, "mm"))
    assert told.splitlines()[0] == "now to plan: 1 wire, 1 cavity"
    assert "  bell.1: W4 -> empty" in told
    assert "now: F2 -- WH 1.0 mm² 700 mm -- bell.1 [700 mm]" in told


def test_the_same_moment_told_twice_differs_in_nothing_and_is_put_together(car: JobResult) -> None:
    for one in car.views:
        assert not differences(one, one)
    compared = compare_all(car.views)
    assert compared.alike == (("donor",), ("revision 1",), ("handed over", "revision 2", "now"), ("plan",))
    names = [group[0] for group in compared.alike]
    assert [(pair.before, pair.after) for pair in compared.pairs] == list(itertools.combinations(names, 2))


def test_turned_round_it_is_the_same_with_the_sides_changed(car: JobResult) -> None:
    pairs = list(itertools.combinations(car.views, 2))
    assert sum(bool(differences(*pair).wires) for pair in pairs) >= 5
    for one, other in pairs:
        there, back = differences(one, other), differences(other, one)
        swapped = [(wire.wire, wire.before, wire.after) for wire in there.wires]
        assert swapped == [(wire.wire, wire.after, wire.before) for wire in back.wires]
        assert [(item.cavity, item.before, item.after) for item in there.cavities] == [
            (item.cavity, item.after, item.before) for item in back.cavities
        ]


def test_which_end_is_written_first_makes_no_difference(car: JobResult, tmp_path: Path) -> None:
    turned = work(tmp_path, CAR.replace("from: lamp.1, to: F1", "from: F1, to: lamp.1"))
    for name in ("donor", "now"):
        assert runs_of(view(turned, name), "W1") == runs_of(view(car, name), "W1")


def test_a_length_not_recorded_is_neither_a_number_nor_a_difference_by_itself(car: JobResult, tmp_path: Path) -> None:
    unknown = work(tmp_path / "unknown", CAR.replace("to: F1, length: 900 mm", "to: F1"))
    (run,) = runs_of(view(unknown, "donor"), "W1")
    assert run.length_mm is None
    told = pair_text(pair_of(differences(view(unknown, "donor"), view(unknown, "now")), "mm"))
    assert "not recorded" in told
    assert not differences(view(unknown, "handed over"), view(unknown, "now"))
    # recorded in one of the two views alone it differs, whichever of them that is
    for first, second in ((unknown, car), (car, unknown)):
        (told_of,) = [one for one in differences(view(first, "donor"), view(second, "donor")).wires if one.wire == "W1"]
        assert "length" in told_of.what


def test_like_colours_on_both_sides_of_a_joint_are_one_colour(tmp_path: Path) -> None:
    same = work(tmp_path, CAR.replace("piece: BU 1.0 mm2", "piece: GN 1.0 mm2"))
    (wire,) = differences(view(same, "donor"), view(same, "revision 1")).wires
    assert wire.what == ("length", "joints")
    assert {part.colour.code for part in wire.after[0].parts} == {read_colour("GN").code}


def test_a_fuse_let_into_a_wire_changes_neither_its_colour_nor_its_size(tmp_path: Path) -> None:
    """900 mm less the 6 mm that go into each of the two new terminals."""
    row = "  - {id: C5, kind: protect, fuse: F3, rating: 10 A, wire: W1, end: F1, tail: 100 mm, made: 2015-05-04 AK}\n"
    cut = work(tmp_path, CAR.partition("changes:\n")[0] + "changes:\n" + row)
    (wire,) = differences(view(cut, "donor"), view(cut, "now")).wires
    assert wire.what == ("ends", "length")
    assert sum(run.length_mm or 0 for run in wire.after) == pytest.approx(888)


def test_the_page_has_a_section_for_each_two_that_differ(car: JobResult) -> None:
    (out,) = page.pages(frame_of(car, ShopFacts("owner")))
    shown = parse(render(environment(theme_dir()), out))
    sections = [element.attributes["id"] for element in shown.all("details", class_="fold")]
    assert sections == [
        "donor-to-handed-over",
        "donor-to-plan",
        "handed-over-to-plan",
        "donor-to-revision-1",
        "revision-1-to-handed-over",
        "revision-1-to-plan",
    ]
    headings = ["".join(part for part in element.inside if isinstance(part, str)) for element in shown.all("h2")]
    assert "Donor to revision 1" in headings


def test_what_people_ask_for_stands_first_and_revisions_behind(tmp_path: Path) -> None:
    later = work(
        tmp_path,
        """
    job: Given out twice
    revisions: {1: 2031-05-04 AK, 2: 2031-05-10 AK}
    handed over: 2031-05-10
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {colour: RD, size: 1.0 mm2, from: F2, to: lamp.2}
      W3: {colour: BU, size: 1.0 mm2, from: F3, to: lamp.3}
    changes:
      - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, lamp.1: pulled}, made: 2031-05-03 AK}
      - {id: C2, kind: remove, wire: W2, ends: {F2: pulled, lamp.2: pulled}, made: 2031-05-09 AK}
      - {id: C3, kind: remove, wire: W3, ends: {F3: pulled, lamp.3: pulled}, made: 2031-05-20 AK}
    """,
    )
    sheet = difference_sheet(later)
    assert [tuple(moment.name for moment in group) for group in sheet.alike] == [
        ("donor",),
        ("revision 1",),
        ("revision 2", "handed over"),
        ("now", "plan"),
    ]
    assert [(pair.before, pair.after) for pair in sheet.pairs] == [
        ("donor", "handed over"),
        ("donor", "now"),
        ("handed over", "now"),
        ("donor", "revision 1"),
        ("revision 1", "handed over"),
        ("revision 1", "now"),
    ]


def test_a_length_that_is_known_at_one_moment_only_is_a_difference(tmp_path: Path) -> None:
    # how far the plug went was measured when the wire was lengthened, and not when that was done again
    again = (
        CAR.rstrip()
        + """
  - {id: C5, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, piece: BU 1.0 mm2, redoes: C1, made: 2020-06-03 AK}
"""
    )
    worked = work(tmp_path, again)
    (found,) = [
        wire for wire in differences(view(worked, "revision 2"), view(worked, "now")).wires if wire.wire == "W1"
    ]
    assert "length" in found.what
