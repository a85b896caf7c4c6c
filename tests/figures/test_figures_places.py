"""Places by tape measure: walked, refused, worded twice, and where joints lie by them (P1 to P4, L5, M11)."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import figure, figures, work

from aswired.car.route import PlaceError, Position, Route
from aswired.figures.places import PlacedJoint
from aswired.figures.worked import JobResult

# bulkhead --1000-- nose --400-- left
#                        --600-- right --unknown-- tip --200-- end
ROUTE = """
    job: Places
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    landmarks: {bulkhead: grommet, nose: takeout, left: plug, right: plug, island: nothing leads here}
    route:
      - {from: bulkhead, to: nose, length: 1000 mm, zone: dry}
      - {from: left, to: nose, length: 400 mm, zone: wet}
      - {from: nose, to: right, length: 600 mm, zone: hot}
      - {from: right, to: tip, length: unknown}
      - {from: tip, to: end, length: 200 mm}
    fuses: {F1: {rating: 10 A, in: bulkhead}}
    plugs: {lamp: {at: left}, horn: {at: right}, fan: {at: end}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 1250 mm}
      W2: {colour: BU, size: 1.0 mm2, from: F1, to: horn.1}
    changes:
"""
VERIFY = "      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}\n"


def route(tmp_path: Path) -> Route:
    return Route(work(tmp_path, ROUTE + VERIFY).job)


def spot(position: Position | None) -> tuple[int | None, float | None] | str | None:
    """(leg, offset from its `from`), or the landmark it is at."""
    if position is None:
        return None
    return position.landmark or (position.leg, position.offset_mm)


@pytest.mark.parametrize(
    ("written", "found"),
    [
        ("bulkhead", "bulkhead"),
        ("0 mm from bulkhead towards nose", "bulkhead"),
        ("300 mm from bulkhead towards nose", (0, 300)),
        ("300 mm from bulkhead towards left", (0, 300)),  # any landmark beyond picks the same leg
        ("700 mm from nose towards bulkhead", (0, 300)),
        ("1000 mm from bulkhead towards nose", "nose"),
        ("1000 mm from bulkhead towards left", "nose"),
        # past the branch the landmark walked to picks the leg; the left leg is written from its far end
        ("1100 mm from bulkhead towards left", (1, 300)),
        ("100 mm from nose towards left", (1, 300)),
        ("300 mm from left towards nose", (1, 300)),
        ("300 mm from left towards right", (1, 300)),
        ("1100 mm from bulkhead towards right", (2, 100)),
        ("500 mm from left towards right", (2, 100)),
        ("12 in from bulkhead towards nose", (0, 304.8)),
        ("1400 mm from bulkhead towards left", "left"),
    ],
)
def test_a_place_is_walked_to_along_the_route(written: str, found: object, tmp_path: Path) -> None:
    assert spot(route(tmp_path).place(written)) == (pytest.approx(found) if isinstance(found, tuple) else found)


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("1001 mm from bulkhead towards nose", "1000 mm"),  # beyond: the error gives the length there is
        ("1401 mm from bulkhead towards left", "1400 mm"),
        ("-1 mm from bulkhead towards nose", "below zero"),
        ("100 mm from bulkhead towards nse", "'nse'"),
        ("100 mm from bulkhead towards island", "does not lead"),
    ],
)
def test_a_place_that_cannot_be_walked_to_is_refused(written: str, says: str, tmp_path: Path) -> None:
    with pytest.raises(PlaceError, match=says):
        route(tmp_path).place(written)


def test_words_that_are_no_place_are_left_alone(tmp_path: Path) -> None:
    assert route(tmp_path).place("behind the left lamp") is None
    assert route(tmp_path).place("unknown from bulkhead towards nose") is None


def test_a_leg_of_unknown_length_gives_no_sum_and_no_guess(tmp_path: Path) -> None:
    walked = route(tmp_path)
    # the last leg walked: it lies there or nowhere, so it is kept as written
    assert spot(walked.place("100 mm from right towards tip")) == (3, 100)
    # further legs follow: 100 mm from right may lie behind the tip already, so no leg is claimed
    assert spot(walked.place("100 mm from right towards end")) == (None, None)
    assert spot(walked.place("700 mm from bulkhead towards end")) == (0, 700)
    bulkhead, end, tip = walked.place("bulkhead"), walked.place("end"), walked.place("tip")
    right = walked.place("right")
    assert bulkhead is not None
    assert end is not None
    assert tip is not None
    assert right is not None
    assert walked.distance(bulkhead, end) is None
    assert walked.distance(bulkhead, right) == 1600
    assert walked.distance(tip, end) == 200
    assert walked.along(bulkhead, end, 1700) is None
    assert spot(walked.along(bulkhead, end, 1500)) == (2, 500)


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("300 mm from bulkhead towards nose", "700 mm from nose towards bulkhead", 0),
        ("300 mm from left towards nose", "1100 mm from bulkhead towards left", 0),
        ("300 mm from bulkhead towards nose", "300 mm from left towards nose", 700 + 100),
        ("100 mm from nose towards left", "100 mm from nose towards right", 200),
        ("300 mm from bulkhead towards nose", "350 mm from bulkhead towards nose", 50),
        ("300 mm from bulkhead towards nose", "nose", 700),
    ],
)
def test_distance_between_two_places_follows_the_route(one: str, other: str, apart: float, tmp_path: Path) -> None:
    walked = route(tmp_path)
    here, there = walked.place(one), walked.place(other)
    assert here is not None
    assert there is not None
    assert walked.distance(here, there) == pytest.approx(apart)
    assert walked.distance(there, here) == pytest.approx(apart)


def test_a_fork_wants_a_landmark(tmp_path: Path) -> None:
    ring = ROUTE.replace("    fuses:", "      - {from: bulkhead, to: right, length: 900 mm}\n    fuses:")
    walked = Route(work(tmp_path, ring + VERIFY).job)
    with pytest.raises(PlaceError, match="more than one way"):
        walked.place("100 mm from bulkhead towards right")
    bulkhead, right = walked.place("bulkhead"), walked.place("right")
    assert bulkhead is not None
    assert right is not None
    assert walked.distance(bulkhead, right) is None
    assert walked.distance(bulkhead, right, ("nose",)) == 1600


# ---- joints ---------------------------------------------------------------------------------------------------------
def extended(says: str, wire: str = "W1", plug: str = "lamp", head: str = ROUTE) -> str:
    return head + f"      - {{id: C1, kind: extend, wire: {wire}, plug: {plug}, piece: BU 1.0 mm2, {says}}}\n"


def joint(worked: JobResult, name: str) -> PlacedJoint:
    return next(placed for placed in worked.joints if placed.joint.id == name)


def lies(worked: JobResult, name: str) -> tuple[int | None, float | None]:
    placed = joint(worked, name)
    return placed.leg, placed.offset_mm


def test_both_joints_of_an_extension_lie_half_an_overlap_inside_their_cut_faces(tmp_path: Path) -> None:
    # 1250 mm long, reach 1400: pigtail 200, gap 150, tail 1050. From the plug at left: 200 - 5 = 195 mm towards the
    # nose. From the fuse at the bulkhead: 1050 - 5 = 1045 mm, 45 mm past the nose: 355 mm from left.
    worked = work(tmp_path, extended("pigtail: 200 mm, gap: 150 mm"))
    value = figures(worked)
    assert value["C1-W1-plug.centre"] == pytest.approx(195)
    assert value["C1-W1-loom.centre"] == pytest.approx(1045)
    assert lies(worked, "C1-W1-plug") == (1, pytest.approx(195))
    assert lies(worked, "C1-W1-loom") == (1, pytest.approx(355))
    assert joint(worked, "C1-W1-plug").zone == ("wet",)
    assert (joint(worked, "C1-W1-plug").joint.from_end, joint(worked, "C1-W1-loom").joint.from_end) == ("lamp.1", "F1")
    # the two measured across the piece: 355 - 195 is the gap and an overlap
    assert 355 - 195 == 150 + 10


def test_slack_lies_in_the_piece_and_moves_no_joint(tmp_path: Path) -> None:
    tight = work(tmp_path / "tight", extended("pigtail: 200 mm, gap: 150 mm, slack: 0 mm"))
    loose = work(tmp_path / "loose", extended("pigtail: 200 mm, gap: 150 mm, slack: 300 mm"))
    for name in ("C1-W1-plug", "C1-W1-loom"):
        assert lies(tight, name) == lies(loose, name)
    assert figures(loose)["C1-W1.cut"] == pytest.approx(figures(tight)["C1-W1.cut"] + 300)


def test_a_wire_of_unknown_length_has_its_far_joint_placed_from_the_plug(tmp_path: Path) -> None:
    # pigtail 200 + gap 250 + o/2: 455 mm from right along the bundle, 145 mm from the nose; slack moves nothing
    for slack in ("0 mm", "300 mm"):
        worked = work(tmp_path / slack[0], extended(f"pigtail: 200 mm, gap: 250 mm, slack: {slack}", "W2", "horn"))
        assert lies(worked, "C1-W2-plug") == (2, pytest.approx(600 - 195))
        assert lies(worked, "C1-W2-loom") == (2, pytest.approx(600 - 455))


def test_swapping_from_and_to_moves_no_joint(tmp_path: Path) -> None:
    says = "pigtail: 200 mm, gap: 150 mm"
    turned = ROUTE.replace("from: F1, to: lamp.1", "from: lamp.1, to: F1")
    one, other = work(tmp_path / "1", extended(says)), work(tmp_path / "2", extended(says, head=turned))
    assert [(p.joint.id, p.place, p.leg, p.offset_mm) for p in one.joints] == [
        (p.joint.id, p.place, p.leg, p.offset_mm) for p in other.joints
    ]


def test_the_place_is_worded_from_a_landmark(tmp_path: Path) -> None:
    worked = work(tmp_path, extended("pigtail: 200 mm, gap: 150 mm"))
    assert joint(worked, "C1-W1-plug").place == "195 mm from left towards nose"
    for placed in worked.joints:
        again = Route(worked.job).place(placed.place)
        assert again is not None
        # print rounds to whole millimetres
        assert (again.leg, again.offset_mm) == (placed.leg, pytest.approx(placed.offset_mm, abs=0.5))


def test_a_joint_whose_cut_was_not_measured_has_no_place(tmp_path: Path) -> None:
    worked = work(tmp_path, extended("gap: 250 mm", "W2", "horn"))
    for name in ("C1-W2-plug", "C1-W2-loom"):
        assert lies(worked, name) == (None, None)
        assert joint(worked, name).place == ""
        assert joint(worked, name).zone == ()
        centre = figure(worked, f"{name}.centre")
        assert centre.value is None
        assert centre.missing_words


def test_a_joint_beyond_an_unknown_leg_has_no_place_but_keeps_its_distance(tmp_path: Path) -> None:
    # the fan's plug is at the end, 200 mm of known leg and then one of unknown length
    head = ROUTE.replace("    changes:", "      W3: {colour: BU, size: 1.0 mm2, from: F1, to: fan.1}\n    changes:")
    worked = work(tmp_path, extended("pigtail: 150 mm, gap: 250 mm", "W3", "fan", head))
    assert lies(worked, "C1-W3-plug") == (4, pytest.approx(200 - 145))
    assert lies(worked, "C1-W3-loom") == (None, None)
    assert figures(worked)["C1-W3-plug.centre"] == pytest.approx(145)


def test_a_recorded_place_stands_as_written(tmp_path: Path) -> None:
    worked = work(tmp_path, extended("pigtail: 200 mm, gap: 150 mm, where: 50 mm from nose towards left"))
    assert joint(worked, "C1-W1-loom").place == "50 mm from nose towards left"
    assert lies(worked, "C1-W1-loom") == (1, pytest.approx(350))
    assert [finding.code for finding in worked.findings if finding.code == "PLC03"] == []  # 355 mm: within 20 mm


def test_a_ground_joint_is_placed_from_the_new_ring_where_its_other_end_has_no_place(tmp_path: Path) -> None:
    # gap 300 mm from barrel mouth to cut face, o/2 inside it: 305 mm from the lug at left, by tape measure
    head = ROUTE.replace("    plugs:", "    grounds: {L1: {at: left}}\n    plugs:").replace(
        "    changes:", "      W3: {colour: BN, size: 1.0 mm2, from: FS9, to: G2, length: 700 mm}\n    changes:"
    )
    row = "      - {id: C1, kind: ground, wire: W3, end: G2, to: L1, gap: 300 mm, tail: 500 mm, piece: BK 1.0 mm2}\n"
    worked = work(tmp_path, head + row)
    assert lies(worked, "C1") == (1, pytest.approx(305))
    assert figures(worked)["C1.centre"] == pytest.approx(495)  # along the wire, from the factory splice
