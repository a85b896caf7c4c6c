"""Splices on several legs: what each keeps clear of, which of them moves, and the cuts that are told for it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import work

from aswired.car.route import Position, Route
from aswired.figures.heat import heat_of, hottest_of, legs_of, positions_of, unplaced
from aswired.figures.places import PlacedJoint, computed_position
from aswired.figures.stagger import Stagger, keeps_of, sleeve_of
from aswired.figures.worked import JobResult
from aswired.physics.stagger import Keep

# ---- what a leg keeps clear of --------------------------------------------------------------------------------------
# bulkhead --1000-- mid --600-- nose --700-- left
#                                  \--500-- bare --300-- door --200-- end
KEEPS = """
    job: What to keep clear of
    LIMITS
    landmarks: {bulkhead: Grommet of rubber, mid: second CLIP, nose: takeout, left: outer lamp, bare: tape, door: hinge,
      end: tape}
    holes: {bare: {bore: 20 mm}}
    route:
      - {from: bulkhead, to: mid, length: 1000 mm, zone: dry}
      - {from: mid, to: nose, length: 600 mm, zone: [wet, flex]}
      - {from: left, to: nose, length: 700 mm}
      - {from: nose, to: bare, length: 500 mm}
      - {from: bare, to: door, length: 300 mm}
      - {from: door, to: end, length: 200 mm}
    plugs: {lamp: {at: left}, horn: {at: 200 mm from nose towards bare}, spare: {at: words alone}}
    modules: {unit: {at: 100 mm from bare towards nose}}
    wires: {W1: {size: 1.0 mm2, from: lamp.1, to: horn.1}}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


def keeps(folder: Path, leg: int, limits: str = "vehicle: none") -> list[tuple[float, float, float, str]]:
    job = work(folder, KEEPS.replace("LIMITS", limits)).job
    length = job.route[leg].length
    assert length is not None
    assert length.mm is not None
    found = keeps_of(job, Route(job), leg, length.mm)
    return [(keep.start_mm, keep.end_mm, keep.clear_mm, keep.what) for keep in found]


@pytest.mark.parametrize(
    ("leg", "expected"),
    [
        (0, [(0, 0, 40, "bulkhead"), (1000, 1000, 40, "mid")]),  # both hold the bundle, whatever their letters
        (1, [(0, 600, 0, "flexes"), (0, 0, 40, "mid"), (600, 600, 40, "nose")]),  # three legs meet in the nose
        (2, [(0, 0, 40, "left"), (700, 700, 40, "nose")]),  # the lamp is at left
        (3, [(0, 0, 40, "nose"), (500, 500, 40, "bare"), (200, 200, 40, "horn"), (400, 400, 40, "unit")]),  # a hole
        (4, [(0, 0, 40, "bare"), (300, 300, 40, "door")]),
        (5, [(0, 0, 40, "door")]),  # nothing holds, branches or plugs in at the end
    ],
)
def test_a_splice_keeps_clear_of_branches_of_what_holds_the_bundle_and_of_connectors(
    leg: int, expected: list[tuple[float, float, float, str]], tmp_path: Path
) -> None:
    assert keeps(tmp_path, leg) == expected


@pytest.mark.parametrize("part", ["plugs: {", "modules: {"])
def test_a_connector_and_a_module_at_a_landmark_are_kept_clear_of(part: str, tmp_path: Path) -> None:
    # nothing else is at the end of the last leg
    here = KEEPS.replace(part, f"{part}one more: {{at: end}}, ")
    job = work(tmp_path, here.replace("LIMITS", "vehicle: none")).job
    assert [keep.what for keep in keeps_of(job, Route(job), 5, 200.0)] == ["door", "end"]


def test_how_far_it_keeps_clear_is_a_limit_of_the_job(tmp_path: Path) -> None:
    assert keeps(tmp_path, 3, "limits: {joint clear: 25 mm, joint stagger: 60 mm}") == [
        (0, 0, 25, "nose"),
        (500, 500, 25, "bare"),
        (200, 200, 25, "horn"),
        (400, 400, 25, "unit"),
    ]


def test_two_sleeves_keep_each_other_off_by_half_of_both() -> None:
    assert Keep(100, 100, 50, "", 60).off(80) == 70  # (60 + 80) / 2
    assert Keep(100, 100, 50, "", 60).off(20) == 50  # the halves make 40, the limit is more
    assert [Keep(100, 200, 40).bars(at, 0) for at in (60, 61, 239, 240)] == [False, True, True, False]


# ---- which splices move, and to where -------------------------------------------------------------------------------
# dash --600-- bulkhead --1000-- nose --700-- left
#                                   \--500-- right, written from right
LEGS = """
    job: Legs
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 0 mm, ring strip: 6 mm}
    landmarks: {dash: end of the tape, bulkhead: Grommet of rubber, nose: takeout, left: plug, right: plug, tail: plug}
    route:
      - {from: dash, to: bulkhead, length: 600 mm}
      - {from: bulkhead, to: nose, length: 1000 mm}
      - {from: nose, to: left, length: 700 mm}
      - {from: right, to: nose, length: 500 mm}
    fuses: {F1: {in: dash}}
    plugs: {lamp: {at: left}, horn: {at: right}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 2300 mm}
      W2: {colour: YE, size: 1.0 mm2, from: F1, to: horn.1, length: 2100 mm}
      W3: {colour: BN, size: 1.0 mm2, from: F1, to: lamp.2, length: 2300 mm}
    changes:
      - {id: C1, kind: shorten, wire: W1, plug: lamp, pigtail: 20 mm, take out: 50 mm}
      - {id: C2, kind: shorten, wire: W2, plug: horn, pigtail: 105 mm, take out: 50 mm}
      - {id: C3, kind: shorten, wire: W3, plug: lamp, pigtail: 105 mm, take out: 50 mm, made: 2031-05-03 AK}
"""
PIGTAIL = "plug: lamp, pigtail: 20 mm"


def staggers(folder: Path, text: str) -> dict[int, Stagger]:
    return {found.leg: found for found in work(folder, text).bundles.staggers}


def shifts(found: Stagger) -> list[tuple[str, float, float | None]]:
    return [(shift.joint, shift.at_mm, shift.to_mm) for shift in found.shifts]


def recuts(found: Stagger) -> list[tuple[str, float, float | None]]:
    return [(recut.row, recut.pigtail_mm, recut.stagger_mm) for recut in found.recuts]


def test_each_leg_has_its_own_splices_and_the_rows_that_cut_them(tmp_path: Path) -> None:
    """A centre lies half an overlap, 5 mm, inside its cut: 15 mm from left, and 100 mm from right."""
    found = staggers(tmp_path, LEGS)
    assert list(found) == [2, 3]
    # 40 mm from the lamp; C3 is made and right as it is, so that it is not moved
    assert (shifts(found[2]), recuts(found[2])) == ([("C1", 685, 660)], [("C1", 45, None)])
    assert (shifts(found[3]), recuts(found[3])) == ([("C2", 100, 100)], [])
    assert [(one.apart_mm, one.wants_mm, one.why) for one in found.values()] == [(50, None, "")] * 2


@pytest.mark.parametrize(
    ("pigtail", "at", "to", "cut"),
    [
        # C3 lies 100 mm from left, and 50 mm on either side of it are kept clear: the nearer side counts
        (85, 620, 650, 55),  # 80 mm from left: 20 mm before C3
        (125, 580, 550, 155),  # 120 mm: 20 mm behind it
        (55, 650, 650, None),  # exactly 50 mm before it
        (155, 550, 550, None),
        (45, 660, 660, None),  # exactly 40 mm from the lamp
    ],
)
def test_a_planned_splice_is_moved_to_the_nearer_side_of_a_made_one(
    pigtail: float, at: float, to: float, cut: float | None, tmp_path: Path
) -> None:
    found = staggers(tmp_path, LEGS.replace(PIGTAIL, f"plug: lamp, pigtail: {pigtail} mm"))[2]
    assert shifts(found) == [("C1", at, to)]
    assert recuts(found) == ([] if cut is None else [("C1", cut, None)])


def test_a_made_splice_moves_only_when_it_is_wrong_by_itself(tmp_path: Path) -> None:
    """C3 made 20 mm from the lamp is wrong; C1 planned 100 mm from it is right, and stays on its own."""
    text = LEGS.replace("pigtail: 105 mm, take out: 50 mm, made", "pigtail: 25 mm, take out: 50 mm, made")
    found = staggers(tmp_path, text.replace(PIGTAIL, "plug: lamp, pigtail: 155 mm"))[2]
    assert {joint: (at, to) for joint, at, to in shifts(found)} == {"C1": (550, 550), "C3": (680, 660)}
    assert [shift.state for shift in sorted(found.shifts, key=lambda shift: shift.joint)] == ["planned", "made"]
    assert recuts(found) == []  # what is made is not cut again
    # made alone and right, a leg asks for nothing
    made = LEGS.replace(PIGTAIL, "plug: lamp, pigtail: 205 mm").replace("50 mm}", "50 mm, made: 2031-05-03 AK}")
    assert staggers(tmp_path / "made", made) == {}


def test_where_the_wanted_distance_has_no_room_the_least_is_held(tmp_path: Path) -> None:
    """Two planned splices on a leg of 125 mm: 40 + 40 + 40 mm go in, 40 + 50 + 40 mm do not."""
    text = LEGS.replace("to: left, length: 700 mm", "to: left, length: 125 mm").replace(", made: 2031-05-03 AK", "")
    text = text.replace("W2", "W9").replace("wire: W9, plug: horn", "wire: W2, plug: horn").replace("W9:", "W2:")
    found = staggers(tmp_path, text.replace(PIGTAIL, "plug: lamp, pigtail: 45 mm"))[2]
    # 40 mm from left is 85 mm from the nose, where C1 lies; C3, 25 mm from the nose, moves to 40 mm
    assert shifts(found) == [("C3", 25, 40), ("C1", 85, 85)]
    assert (found.apart_mm, found.wants_mm) == (40, None)
    wide = staggers(tmp_path / "wide", text.replace("length: 125 mm", "length: 130 mm"))[2]
    assert wide.apart_mm == 50


def test_a_leg_that_was_not_measured_has_no_places(tmp_path: Path) -> None:
    assert list(staggers(tmp_path, LEGS.replace("to: left, length: 700 mm", "to: left, length: unknown"))) == [3]
    # nor for a splice whose place on it is written: how far it lies from the other end is not known
    unread = LEGS.replace("to: left, length: 700 mm", "to: left, length: unknown")
    written = unread.replace(PIGTAIL, f"{PIGTAIL}, where: 100 mm from nose towards left")
    assert joint(work(tmp_path / "at", written)).offset_mm == 100
    assert list(staggers(tmp_path / "written", written)) == [3]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (PIGTAIL, f"{PIGTAIL}, where: 20 mm from left towards nose"),  # its place is written
        ("length: 2300 mm}\n      W2", "length: unknown}\n      W2"),
        ("take out: 50 mm}", "take out: unknown}"),
    ],
)
def test_places_are_told_though_no_cut_is(old: str, new: str, tmp_path: Path) -> None:
    assert LEGS.count(old) >= 1
    found = staggers(tmp_path, LEGS.replace(old, new, 1))[2]
    assert [(joint, to) for joint, _, to in shifts(found)] == [("C1", 660)]


def test_no_cut_is_told_for_a_row_whose_splice_is_at_a_place_that_is_written(tmp_path: Path) -> None:
    written = LEGS.replace(PIGTAIL, f"{PIGTAIL}, where: 20 mm from left towards nose")
    assert recuts(staggers(tmp_path, written)[2]) == []


def test_the_stagger_of_the_shop_counts_where_the_row_says_none(tmp_path: Path) -> None:
    """Two wires 20 mm apart, as the shop usually does, want 50; C3 is out of the way on the other leg."""
    text = LEGS.replace("wire: W1, plug: lamp, pigtail: 20 mm", "wires: [W1, W3], plug: lamp, pigtail: 65 mmSTAGGER")
    text = text.replace("      - {id: C3, kind: shorten, wire: W3, plug: lamp, pigtail: 105 mm, take out: 50 mm, "
                        "made: 2031-05-03 AK}\n", "")  # fmt: skip
    usual = text.replace("slack: 0 mm", "slack: 0 mm, stagger: 20 mm")
    for name, job in (
        ("row", text.replace("STAGGER", ", stagger: 20 mm")),
        ("shop", usual.replace("STAGGER", "")),
        ("row before shop", usual.replace("stagger: 20 mm", "stagger: 90 mm").replace("STAGGER", ", stagger: 20 mm")),
    ):
        found = staggers(tmp_path / name, job)[2]
        assert {joint: at for joint, at, _ in shifts(found)} == {"C1-W1": 640, "C1-W3": 620}, name
        assert recuts(found) == [("C1", 65, 50)], name
    # where nobody says how far apart, where the second lies is not known, and no cut is told
    assert recuts(staggers(tmp_path / "silent", text.replace("STAGGER", ""))[2]) == []


def test_a_row_cut_from_both_ends_is_given_no_other_pigtail(tmp_path: Path) -> None:
    """W1 of 2240 mm with a gap of 60 mm: its splices lie 15 and 85 mm from the lamp, C3 at 100 mm.

    70 mm apart, both clear of C3 by 50 mm and of the lamp by 40 mm: at 150 and 220 mm, with a pigtail of 155 mm. With
    its tail written too, the one cut does not follow the other, and none is told.
    """
    text = (
        LEGS.replace("wire: W1, plug: lamp, pigtail: 20 mm, take out: 50 mm}", "wire: W1, plug: lamp, pigtail: 20 mm, "
                     "gap: 60 mm, piece: BU 1.0 mm2TAIL}")
        .replace("{id: C1, kind: shorten", "{id: C1, kind: extend")
        .replace("from: F1, to: lamp.1, length: 2300 mm", "from: F1, to: lamp.1, length: 2240 mm")
    )  # fmt: skip
    free = staggers(tmp_path / "free", text.replace("TAIL", ""))[2]
    assert {joint: at for joint, at, _ in shifts(free)} == {"C1-W1-plug": 685, "C1-W1-loom": 615}
    assert recuts(free) == [("C1", 155, None)]
    both = staggers(tmp_path / "both", text.replace("TAIL", ", tail: 2220 mm"))[2]
    assert {joint: at for joint, at, _ in shifts(both)} == {"C1-W1-plug": 685, "C1-W1-loom": 615}
    assert recuts(both) == []


def test_splices_of_a_row_on_two_legs_are_held_apart_on_each_by_themselves(tmp_path: Path) -> None:
    """W1 of 1310 mm with a gap of 990: its splices lie 15 mm from the lamp, at 685 of that leg, and 1015 mm from it,
    315 mm before the nose, at 685 of the leg there. Cut 45 mm from the lamp both lie at 660, each on its own leg."""
    text = (
        LEGS.replace("wire: W1, plug: lamp, pigtail: 20 mm, take out: 50 mm}", "wire: W1, plug: lamp, pigtail: 20 mm, "
                     "gap: 990 mm, piece: BU 1.0 mm2}")
        .replace("{id: C1, kind: shorten", "{id: C1, kind: extend")
        .replace("from: F1, to: lamp.1, length: 2300 mm", "from: F1, to: lamp.1, length: 1310 mm")
    )  # fmt: skip
    found = staggers(tmp_path, text)
    assert shifts(found[1]) == [("C1-W1-loom", 685, 685)]
    assert shifts(found[2]) == [("C1-W1-plug", 685, 660)]
    assert recuts(found[2]) == [("C1", 45, None)]


def test_a_splice_of_another_leg_is_in_nobodys_way(tmp_path: Path) -> None:
    """C2 lies 660 mm from the right end of its leg, the number at which C1 comes to lie on the leg to the left."""
    text = (
        LEGS.replace("from: right, to: nose, length: 500 mm", "from: right, to: nose, length: 900 mm")
        .replace("from: F1, to: horn.1, length: 2100 mm", "from: F1, to: horn.1, length: 2500 mm")
        .replace("plug: horn, pigtail: 105 mm", "plug: horn, pigtail: 665 mm")
    )
    found = staggers(tmp_path, text)
    assert shifts(found[3]) == [("C2", 660, 660)]
    assert (shifts(found[2]), recuts(found[2])) == ([("C1", 685, 660)], [("C1", 45, None)])


@pytest.mark.parametrize(("pigtail", "asked"), [("144.6", False), ("144.4", True)])
def test_made_splices_are_held_to_the_half_millimetre_of_a_tape(pigtail: str, asked: bool, tmp_path: Path) -> None:
    """C3 lies 100 mm from the lamp; C1, made 39.6 mm behind it, is as good as 40 mm, 39.4 mm is not."""
    made = LEGS.replace(PIGTAIL, f"plug: lamp, pigtail: {pigtail} mm").replace(
        "50 mm}", "50 mm, made: 2031-05-03 AK}", 1
    )
    assert (2 in staggers(tmp_path, made.replace("sleeve 40 mm", "sleeve 30 mm"))) is asked


def test_a_sleeve_is_as_long_as_its_cover_says_and_other_covers_are_none(tmp_path: Path) -> None:
    def sleeves(folder: Path, text: str) -> dict[str, float]:
        return {placed.joint.id: sleeve_of(placed) for placed in work(folder, text).joints}

    text = LEGS.replace("pigtail: 20 mm, take out: 50 mm}", "pigtail: 20 mm, take out: 50 mm, cover: COVER}")
    for cover, mm in (("Sleeve 60 mm", 60.0), ("vinyl tape 60 mm", 0.0), ("adhesive sleeve", 0.0)):
        found = sleeves(tmp_path / cover, text.replace("COVER", cover))
        assert found == {"C1": mm, "C2": 40, "C3": 40}, cover


# ---- places ---------------------------------------------------------------------------------------------------------
def joint(worked: JobResult, name: str = "C1") -> PlacedJoint:
    (found,) = [placed for placed in worked.joints if placed.joint.id == name]
    return found


@pytest.mark.parametrize(
    ("where", "leg", "offset", "place"),
    [
        ("left", 2, 700, "left"),  # the far end of the leg that ends there
        ("dash", 0, 0, "dash"),
        ("nose", 1, 1000, "nose"),  # the first leg of the file that begins or ends there
        ("right", 3, 0, "right"),
        ("200 mm from nose towards left", 2, 200, "200 mm from nose towards left"),
        ("behind the lamp", None, None, "behind the lamp"),
    ],
)
def test_a_written_place_is_told_as_written_and_found_on_its_leg(
    where: str, leg: int | None, offset: float | None, place: str, tmp_path: Path
) -> None:
    placed = joint(work(tmp_path, LEGS.replace(PIGTAIL, f"{PIGTAIL}, where: {where}")))
    assert (placed.leg, placed.offset_mm, placed.place) == (leg, offset, place)


def test_a_landmark_at_the_end_of_a_leg_that_was_not_measured_has_no_offset_there(tmp_path: Path) -> None:
    """The first leg that ends in the nose is unknown, so the next one that touches it says where."""
    text = LEGS.replace("to: nose, length: 1000 mm", "to: nose, length: unknown")
    placed = joint(work(tmp_path, text.replace(PIGTAIL, f"{PIGTAIL}, where: nose")))
    assert (placed.leg, placed.offset_mm) == (2, 0)


def test_a_place_is_worded_from_the_landmark_that_its_plug_is_at(tmp_path: Path) -> None:
    placed = work(tmp_path, LEGS).joints
    # the leg to left is written towards the lamp, that of right away from the horn
    assert {one.joint.id: one.place for one in placed} == {
        "C1": "15 mm from left towards nose",
        "C2": "100 mm from right towards nose",
        "C3": "100 mm from left towards nose",
    }
    inches = work(tmp_path / "in", LEGS.replace("job: Legs", "job: Legs\n    units: inch")).joints
    assert joint(work(tmp_path / "c", LEGS)).state == "planned"
    assert inches[1].place == "3.94 in (100\xa0mm) from right towards nose"  # 100 / 25.4 = 3.937


def test_a_plug_without_a_place_leaves_the_distance_along_the_bundle(tmp_path: Path) -> None:
    text = LEGS.replace("lamp: {at: left}", "lamp: {}").replace(
        "from: F1, to: lamp.1, length: 2300 mm", "from: u.1, to: lamp.1"
    )
    placed = joint(work(tmp_path, text))
    assert (placed.leg, placed.place) == (None, "15 mm from lamp.1 along the bundle")
    unread = joint(work(tmp_path / "b", text.replace(PIGTAIL, "plug: lamp")))
    assert (unread.leg, unread.place) == (None, "")


FORK = LEGS.replace(
    "      - {from: right, to: nose",
    "      - {from: bulkhead, to: side, length: 400 mm}\n"
    "      - {from: side, to: nose, length: 400 mm}\n      - {from: right, to: nose",
)


def test_on_a_fork_a_splice_lies_where_its_wire_was_laid(tmp_path: Path) -> None:
    """From the lamp 700 mm to the nose, then 100 mm on towards the side or towards the bulkhead."""
    text = FORK.replace(PIGTAIL, "plug: lamp, pigtail: 805 mm")
    assert joint(work(tmp_path, text)).leg is None
    laid = text + "      - {id: C9, kind: reroute, wires: [W1], by: [side], made: 2031-05-01 AK}\n"
    placed = joint(work(tmp_path / "laid", laid))
    assert (placed.leg, placed.offset_mm, placed.place) == (4, 300, "300 mm from side towards nose")


def test_of_two_wires_of_a_joint_the_first_says_by_which_way_it_lies(tmp_path: Path) -> None:
    worked = work(tmp_path, LEGS)
    route = Route(worked.job)
    for placed in worked.joints:
        assert computed_position(worked.plan, route, placed.joint) == Position("", placed.leg, placed.offset_mm)


# ---- heat -----------------------------------------------------------------------------------------------------------
HOT = LEGS.replace("to: left, length: 700 mm", "to: left, length: 700 mm, HEAT")


def heats(folder: Path, text: str) -> dict[str, float]:
    """The stretches of the car as planned, by name, with how hot they get."""
    worked = work(folder, text)
    found = hottest_of(worked.job, worked.plan, Route(worked.job), worked.joints)
    return {worked.plan.stretches[int(index)].name: hot.celsius for index, hot in found.items()}


@pytest.mark.parametrize(
    ("says", "celsius"),
    [
        ("hottest: 90 C", 90),
        ("zone: hot", 105),  # the shop's figure for a leg that is marked
        ("zone: [wet, hot]", 105),
        ("zone: hot, hottest: 70 C", 70),  # measured before marked
        ("zone: hot, hottest: unknown", 105),
        ("zone: wet", None),
        ("hottest: unknown", None),
    ],
)
def test_a_leg_gets_as_hot_as_measured_else_as_marked(says: str, celsius: float | None, tmp_path: Path) -> None:
    worked = work(tmp_path, HOT.replace("HEAT", says))
    assert [heat_of(worked.job, leg) for leg in worked.job.route] == [None, None, celsius, None]
    names = set(heats(tmp_path / "b", HOT.replace("HEAT", says)))
    assert names == (set() if celsius is None else {"W1 from C1 to lamp.1", "W1 from C1 to F1", "W3 from C3 to lamp.2",
                                                    "W3 from C3 to F1"})  # fmt: skip


def test_of_two_hot_legs_a_stretch_has_the_hotter(tmp_path: Path) -> None:
    two = HOT.replace("HEAT", "hottest: 70 C").replace(
        "to: nose, length: 1000 mm", "to: nose, length: 1000 mm, zone: hot"
    )
    found = heats(tmp_path, two)
    assert found["W1 from C1 to F1"] == 105
    assert found["W1 from C1 to lamp.1"] == 70
    assert found["W2 from C2 to F1"] == 105
    assert "W2 from C2 to horn.1" not in found  # it stays on the leg to the right


@pytest.mark.parametrize(
    ("where", "hot"),
    [
        ("where: nose", {"W1 from C1 to lamp.1"}),  # up to the nose it runs through no hot leg
        ("where: left", {"W1 from C1 to F1"}),  # and from left on through none
        ("where: 1 mm from nose towards left", {"W1 from C1 to F1", "W1 from C1 to lamp.1"}),
        ("where: 1 mm from nose towards bulkhead", {"W1 from C1 to lamp.1"}),
    ],
)
def test_a_splice_at_the_end_of_a_leg_lies_on_none(where: str, hot: set[str], tmp_path: Path) -> None:
    found = heats(tmp_path, HOT.replace("HEAT", "zone: hot").replace(PIGTAIL, f"{PIGTAIL}, {where}"))
    assert {name for name in found if name.startswith("W1")} == hot


def test_a_splice_at_the_beginning_of_a_hot_leg_lies_on_none(tmp_path: Path) -> None:
    """C2 is at the horn itself, where the leg from right begins: the stub to the horn passes no leg."""
    text = LEGS.replace("from: right, to: nose, length: 500 mm", "from: right, to: nose, length: 500 mm, zone: hot")
    for where, hot in (
        ("right", {"W2 from C2 to F1"}),
        ("1 mm from right towards nose", {"W2 from C2 to F1", "W2 from C2 to horn.1"}),
    ):
        at = text.replace("plug: horn, pigtail: 105 mm", f"plug: horn, pigtail: 105 mm, where: {where}")
        assert set(heats(tmp_path / where, at)) == hot, where


def test_a_wire_whose_way_is_not_recorded_runs_through_no_leg_and_is_told_in_a_car_with_heat(tmp_path: Path) -> None:
    text = HOT.replace("lamp: {at: left}", "lamp: {}")
    for says, names in (("zone: hot", {"W1", "W3"}), ("zone: wet", set())):
        worked = work(tmp_path / says, text.replace("HEAT", says))
        route = Route(worked.job)
        found = unplaced(worked.job, worked.donor, route, ())
        assert {worked.donor.stretches[index].wire for index in found} == names, says
        places = positions_of(worked.job, worked.joints)
        legs = {s.wire: legs_of(worked.donor, route, places, s) for s in worked.donor.stretches}
        assert legs == {"W1": [], "W2": [0, 1, 3], "W3": []}


def test_a_wire_that_stays_at_one_landmark_has_a_way_of_no_leg(tmp_path: Path) -> None:
    text = HOT.replace("HEAT", "zone: hot").replace("from: F1, to: lamp.2", "from: lamp.3, to: lamp.2")
    worked = work(tmp_path, text)
    assert unplaced(worked.job, worked.donor, Route(worked.job), ()) == frozenset()


# ---- the centre of a joint along its wire ---------------------------------------------------------------------------
# pigtail 200 mm, gap 150 mm: the wire of 2150 mm has a tail of 1950 mm
EXTENDED = (
    LEGS.replace("wire: W1, plug: lamp, pigtail: 20 mm, take out: 50 mm}", "wire: W1, plug: lamp, pigtail: 200 mm, "
                 "gap: 150 mm, piece: BU 1.0 mm2}")
    .replace("{id: C1, kind: shorten", "{id: C1, kind: extend")
    .replace("from: F1, to: lamp.1, length: 2300 mm", "from: F1, to: lamp.1, length: 2150 mm")
)  # fmt: skip


def test_a_centre_says_from_which_cut_it_was_had_and_with_what(tmp_path: Path) -> None:
    worked = work(tmp_path, EXTENDED)
    plug, loom = joint(worked, "C1-W1-plug").centre, joint(worked, "C1-W1-loom").centre
    assert (plug.key, plug.name) == ("C1-W1-plug.centre", "centre of joint C1-W1-plug from lamp.1")
    assert (plug.value, plug.formula, plug.missing_words) == (195, "centre = cut face - o/2", ())
    assert [(one.name, one.value, one.unit, one.source) for one in plug.inputs] == [
        ("cut face", 200, "mm", "from lamp.1, row C1"),
        ("o/2, half the take-up", 5, "mm", "row C1"),
    ]
    assert (loom.name, loom.value) == ("centre of joint C1-W1-loom from F1", 1945)
    assert [(one.value, one.source) for one in loom.inputs] == [(1950, "from F1, row C1"), (5, "row C1")]


def test_the_far_joint_of_a_wire_that_was_not_measured_is_had_from_the_plug(tmp_path: Path) -> None:
    text = EXTENDED.replace("length: 2150 mm", "length: unknown").replace("slack: 0 mm", "slack: 30 mm")
    far = joint(work(tmp_path, text), "C1-W1-loom").centre
    # pigtail 200 + gap 150 = 350 mm to the cut face; slack 30 and half an overlap of 10 beyond it
    assert (far.value, far.formula) == (385, "centre = cut face + slack + o/2")
    assert [(one.name, one.value, one.source) for one in far.inputs] == [
        ("cut face", 350, "from lamp.1, row C1"),
        ("slack + o/2", 35, "row C1"),
    ]


@pytest.mark.parametrize(
    ("old", "missing"),
    [
        (", overlap: 10 mm", "overlap: not recorded, write usual: {overlap: 10 mm}"),
        ('joint: "lap, soldered", ', 'form of the joint: not recorded, write usual: {joint: "lap, soldered"}'),
        ("pigtail: 200 mm, ", "distance of the cut from an end"),
    ],
)
def test_a_centre_that_is_not_known_says_what_would_make_it_known(old: str, missing: str, tmp_path: Path) -> None:
    assert EXTENDED.count(old) == 1
    text = EXTENDED.replace(old, "").replace("length: 2150 mm", "length: unknown")
    found = joint(work(tmp_path, text), "C1-W1-plug").centre
    assert (found.value, found.inputs, found.missing_words) == (None, (), (missing,))


# ---- a splice that moves beside one that stays, and on a leg nobody measured ---------------------------------------
SLEEVES = """
    job: Two sleeves
    usual: {joint: "lap, soldered", overlap: 10 mm}
    landmarks: {dash: fuse box, nose: takeout}
    route: [{from: dash, to: nose, length: LENGTH}]
    splices: {FS1: {}, FS2: {}}
    wires:
      W1: {size: 1.0 mm2, from: a.1, to: FS1}
      W2: {size: 1.0 mm2, from: b.1, to: FS1}
      W3: {size: 1.0 mm2, from: c.1, to: FS2}
      W4: {size: 1.0 mm2, from: d.1, to: FS2}
    plugs: {a: {at: dash}, b: {at: nose}, c: {at: dash}, d: {at: nose}}
    changes:
      - {id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], where: 300 mm from dash towards nose,
         cover: adhesive sleeve 80 mm, made: 2031-05-03 AK}
      - {id: C2, kind: join, ends: [W3 at FS2, W4 at FS2], where: 320 mm from dash towards nose,
         cover: adhesive sleeve 80 mm}
"""


def test_a_planned_splice_moves_out_of_the_sleeve_of_one_that_is_made(tmp_path: Path) -> None:
    # each sleeve reaches 40 mm either way: 300 + 40 + 40 is the nearest place on the side where it was planned
    (stagger,) = work(tmp_path, SLEEVES.replace("LENGTH", "900 mm")).bundles.staggers
    assert [(shift.joint, shift.to_mm) for shift in stagger.shifts] == [("C2", pytest.approx(380))]


def test_splices_of_a_leg_that_nobody_measured_lie_in_its_bundle(tmp_path: Path) -> None:
    # W5 goes the whole leg; how far the cut wires go on it nobody knows
    through = "    plugs:", "      W5: {size: 1.0 mm2, from: a.2, to: b.2}\n    plugs:"
    stations = work(tmp_path, SLEEVES.replace("LENGTH", "unknown").replace(*through)).bundles.stations
    assert [(one.end_mm, one.joints) for one in stations] == [(None, ("C1", "C2"))]
    assert stations[0].at_joint is not None
