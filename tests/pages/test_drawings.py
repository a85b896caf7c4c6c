"""Places stand at their measured distance, currents have their width, and no label covers another."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.car.harness import Joint
from aswired.figures.places import PlacedJoint
from aswired.physics.figure import Figure
from aswired.record import Leg
from aswired.sheets.drawings.ruler import LABEL_APART_PX, Ruler, draw_route
from aswired.sheets.drawings.spread import spread
from aswired.sheets.drawings.tree import Tree, TreeLoad, TreePoint, draw_tree
from aswired.text.diagnostics import Location
from aswired.text.units import Length


def leg(start: str, end: str, length_mm: float | None) -> Leg:
    text = "unknown" if length_mm is None else f"{length_mm:g} mm"
    return Leg(from_=start, to=end, length=Length(text, length_mm))


def splice(name: str, on_leg: int | None, offset_mm: float | None) -> PlacedJoint:
    joint = Joint(name, name, ("W1",), None, None, None, at=Location("job.yml"))
    centre = Figure(f"{name}.centre", "centre", None, "mm", "", "")
    return PlacedJoint(joint, "made", "", on_leg, offset_mm, (), centre, ())


def place_of(ruler: Ruler, name: str) -> float:
    return next(mark.y_px for mark in ruler.marks if mark.id == name)


FORKED = [
    leg("bulkhead", "split", 860.0),
    leg("split", "lamp", 1040.0),
    leg("split", "lug", 790.0),
    leg("split", "siren", None),
    leg("rear", "tail", 500.0),
]


@given(st.floats(0, 860), st.floats(0, 860))
def test_two_splices_stand_apart_by_a_third_of_a_pixel_a_millimetre(first_mm: float, second_mm: float) -> None:
    # the scale of the ruler is 0.34 px a mm, the same in every job
    ruler = draw_route(FORKED, [splice("C1", 0, first_mm), splice("C2", 0, second_mm)], "mm").drawn[0]
    assert place_of(ruler, "C2") - place_of(ruler, "C1") == pytest.approx(0.34 * (second_mm - first_mm))
    assert place_of(ruler, "C1") - place_of(ruler, "bulkhead") == pytest.approx(0.34 * first_mm)
    assert place_of(ruler, "split") - place_of(ruler, "C2") == pytest.approx(0.34 * (860 - second_mm))


def test_a_place_on_the_second_leg_counts_from_that_legs_landmark() -> None:
    ruler = draw_route(FORKED, [splice("C1", 1, 200.0)], "mm").drawn[0]
    assert place_of(ruler, "C1") - place_of(ruler, "bulkhead") == pytest.approx(0.34 * (860 + 200))
    assert next(mark.note for mark in ruler.marks if mark.id == "C1") == "200 mm"


def test_a_leg_written_the_other_way_round_puts_the_splice_at_the_same_place() -> None:
    turned = [leg("bulkhead", "split", 860.0), leg("lamp", "split", 1040.0)]
    ruler = draw_route(turned, [splice("C1", 1, 840.0)], "mm").drawn[0]  # 840 from the lamp = 200 from the split
    assert place_of(ruler, "C1") - place_of(ruler, "split") == pytest.approx(0.34 * 200)
    assert next(mark.note for mark in ruler.marks if mark.id == "C1") == "200 mm"


def test_every_measured_leg_is_drawn_once_and_no_other() -> None:
    rulers = draw_route(FORKED, [splice("C9", 3, None)], "mm")
    assert [ruler.name for ruler in rulers.drawn] == ["bulkhead to lamp", "split to lug", "rear to tail"]
    assert [len(ruler.spans) for ruler in rulers.drawn] == [2, 1, 1]
    assert [(leg.name, leg.splices) for leg in rulers.not_drawn] == [("split to siren", ("C9",))]
    at_split = [mark.id for mark in rulers.drawn[0].marks if mark.y_px == place_of(rulers.drawn[0], "split")]
    assert at_split == ["split", "to lug"]


def test_a_leg_that_closes_a_loop_is_a_ruler_of_its_own() -> None:
    ring = [leg("a", "b", 100.0), leg("b", "c", 100.0), leg("c", "a", 100.0)]
    assert [ruler.name for ruler in draw_route(ring, [], "mm").drawn] == ["a to c", "c to a"]


def test_a_splice_without_a_place_is_named_and_not_drawn() -> None:
    rulers = draw_route(FORKED, [splice("C7", None, None)], "mm")
    assert rulers.unplaced == ("C7",)
    assert all(mark.id != "C7" for ruler in rulers.drawn for mark in ruler.marks)


@given(st.lists(st.floats(0, 1040), max_size=20))
def test_labels_never_touch_and_keep_the_order_of_their_places(offsets_mm: list[float]) -> None:
    joints = [splice(f"C{number}", 1, offset) for number, offset in enumerate(offsets_mm)]
    marks = draw_route(FORKED, joints, "mm").drawn[0].marks
    for upper, lower in pairwise(marks):
        assert lower.label_y_px - upper.label_y_px >= LABEL_APART_PX - 1e-6
        assert lower.y_px >= upper.y_px
    assert marks[0].label_y_px >= 20  # nothing is cut off at the top


def test_numbers_on_the_scale_stand_at_their_distance_in_both_systems() -> None:
    by_mm = draw_route(FORKED, [], "mm").drawn[0]
    top = by_mm.ticks[0].y_px
    assert {tick.label: round(tick.y_px - top, 6) for tick in by_mm.ticks if tick.label in ("200", "800")} == {
        "200": 68.0,
        "800": 272.0,
    }
    by_inch = draw_route(FORKED, [], "inch").drawn[0]
    twelve = next(tick.y_px for tick in by_inch.ticks if tick.label == "12")
    assert twelve - top == pytest.approx(0.34 * 304.8)


@given(st.lists(st.floats(-1e4, 1e4), max_size=30), st.floats(0, 100), st.floats(-1e3, 1e3))
def test_spread_keeps_order_distance_and_the_top(wanted: list[float], apart: float, top: float) -> None:
    places = spread(sorted(wanted), apart, top)
    assert len(places) == len(wanted)
    assert all(place >= top - 1e-6 for place in places)
    assert all(lower - upper >= apart - 1e-6 for upper, lower in pairwise(places))


def test_spread_leaves_labels_that_have_room_where_they_are() -> None:
    assert spread([10, 40, 70], 24) == (10, 40, 70)


# ---- the return tree ------------------------------------------------------------------------------------------------
def carrying(tree: Tree, name: str) -> tuple[float, ...]:
    """Widths of the falling parts of one line."""
    return tuple(bar.width_px for bar in tree.wires if bar.of == name and bar.height_px > bar.width_px)


def test_the_width_of_a_line_is_its_current() -> None:
    loads = (TreeLoad("tail", 1.2), TreeLoad("stop", 3.4), TreeLoad("pump", 7.0))
    tree = draw_tree([TreePoint("G5", "battery-", loads, 11.6)])
    assert tree.px_per_a == 1.15
    for name, current_a in [("tail", 1.2), ("stop", 3.4), ("pump", 7.0), ("G5", 11.6)]:
        assert carrying(tree, name) == pytest.approx((1.15 * current_a,))


def test_a_car_with_big_loads_is_drawn_to_one_smaller_scale() -> None:
    points = [
        TreePoint("G1", "battery-", (TreeLoad("winch", 200.0),), 200.0),
        TreePoint("G2", "battery-", (TreeLoad("lamp", 5.0),), 5.0),
    ]
    tree = draw_tree(points)
    assert tree.px_per_a < 1.15
    assert carrying(tree, "winch")[0] / carrying(tree, "lamp")[0] == pytest.approx(40.0)
    assert tree.text_px < 220  # names keep room on a phone


def test_a_current_that_is_not_recorded_is_dashed_and_spoils_no_sum() -> None:
    points = [TreePoint("G3", "battery-", (TreeLoad("starter", None), TreeLoad("lamp", 5.0)), None)]
    tree = draw_tree(points)
    assert {bar.of for bar in tree.wires if bar.dashed} == {"starter", "G3"}
    assert tree.battery.right == "not recorded"


def test_a_point_that_goes_back_to_another_lands_on_its_stud() -> None:
    points = [
        TreePoint("L1", "battery-", (TreeLoad("lamp", 5.0),), 12.0),
        TreePoint("L2", "L1", (TreeLoad("pump", 7.0),), 7.0),
    ]
    tree = draw_tree(points)
    studs = {stud.name: stud for stud in tree.studs}
    assert studs["L2"].y_px < studs["L1"].y_px < tree.battery.y_px
    cable = next(bar for bar in tree.wires if bar.of == "L2" and bar.height_px > bar.width_px)
    assert cable.y_px + cable.height_px == pytest.approx(studs["L1"].y_px)
    assert tree.battery.right == "12.0 A"


@pytest.mark.parametrize("back_to", ["", "L9"])
def test_a_point_with_no_way_back_does_not_reach_the_battery(back_to: str) -> None:
    points = [TreePoint("L1", back_to, (TreeLoad("lamp", 5.0),), 5.0)]
    tree = draw_tree(points)
    cable = next(bar for bar in tree.wires if bar.of == "L1" and bar.height_px > bar.width_px)
    assert cable.y_px + cable.height_px < tree.battery.y_px
    assert tree.battery.right == "not recorded"


def test_points_that_go_back_to_each_other_are_both_left_open() -> None:
    points = [TreePoint("A", "B", (), 1.0), TreePoint("B", "A", (), 1.0), TreePoint("C", "A", (), 1.0)]
    tree = draw_tree(points)
    assert len(tree.studs) == 3
    assert all(bar.y_px + bar.height_px < tree.battery.y_px for bar in tree.wires)


def test_cables_stand_apart_and_never_touch() -> None:
    points = [TreePoint(f"G{n}", "battery-", (TreeLoad(f"load {n}", 4.0 + n),), 4.0 + n) for n in range(5)]
    tree = draw_tree(points)
    names = {point.name for point in points}
    falls = sorted((bar.x_px, bar.width_px) for bar in tree.wires if bar.of in names and bar.height_px > bar.width_px)
    assert len(falls) == 5
    assert all(right[0] - (left[0] + left[1]) >= 2.0 - 1e-9 for left, right in pairwise(falls))
