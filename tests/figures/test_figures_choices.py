"""Small choices inside the figures that a reader relies on: one contact of a module, rings, points, and why not."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, proved, work

from aswired.car.differences import FuseDifference, differences
from aswired.figures.backfeed import Opened
from aswired.figures.grounds import GroundSummary
from aswired.figures.rings import RingCurrent, ring_currents
from aswired.figures.worked import JobResult
from aswired.sheets.differences import view_called


def point(worked: JobResult, name: str) -> GroundSummary:
    (found,) = [ground for ground in worked.grounds if ground.name == name]
    return found


def test_two_wires_in_one_output_of_a_module_share_its_contact(tmp_path: Path) -> None:
    text = copper_alone(
        proved("""
    job: Two loads on one output
    supply: 12 V
    modules: {unit: {out: {1: feed of the lamps}}}
    wires:
      W1: {size: 1.0 mm2, from: unit.1, to: left.1, length: 1 m}
      W2: {size: 1.0 mm2, from: unit.1, to: right.1, length: 1 m}
      W3: {size: 1.0 mm2, from: left.2, to: battery-, length: 1 m}
      W4: {size: 1.0 mm2, from: right.2, to: battery-, length: 1 m}
    loads:
      left: {between: left.1 left.2, draws: 3 A}
      right: {between: right.1 right.2, draws: 4 A}
    """)
    ).replace("cavity resistance: 0 mohm", "cavity resistance: 2 mohm")
    worked = work(tmp_path, text)
    # 1 m of 1.0 mm2 is 18.5 mohm (ISO 6722-1, from memory). The contact in unit.1 carries 3 + 4 A, the one at the load
    # the load's own current: 3 x 18.5 + 7 x 2 + 3 x 2 = 75.5 mV and 4 x 18.5 + 7 x 2 + 4 x 2 = 96 mV
    assert figure(worked, "left.feed.together").value == pytest.approx(0.0755)
    assert figure(worked, "right.feed.together").value == pytest.approx(0.096)
    # alone each has both contacts to itself: 3 x (18.5 + 2 + 2) = 67.5 mV
    assert figure(worked, "left.feed.alone").value == pytest.approx(0.0675)


BETWEEN_TWO_POINTS = copper_alone(
    proved("""
    job: Two points and a wire between them
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 30 A, fed: always}, F2: {rating: 5 A, fed: always}}
    grounds:
      G1: {back to: battery-, cable: 1.0 mm2, cable length: 1 m}
      G2: {back to: battery-, cable: 1.0 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: big.1, length: 1 m}
      W2: {size: 1.0 mm2, from: big.2, to: G1, length: 1 m}
      W3: {size: 1.0 mm2, from: F2, to: small.1, length: 1 m}
      W4: {size: 1.0 mm2, from: small.2, to: G2, length: 1 m}
      W5: {size: 1.0 mm2, from: G1, to: G2, length: 1 m}
    loads:
      big: {between: big.1 big.2, draws: 20 A, class: heater}
      small: {between: small.1 small.2, draws: 1 A, class: heater}
    """)
)


def test_a_wire_whose_current_turns_round_when_a_point_opens_is_told(tmp_path: Path) -> None:
    states = work(tmp_path, BETWEEN_TWO_POINTS).ground_states
    both: list[Opened] = [one for one in states.opened["G2"].opened if set(one.on) == {"big", "small"}]
    assert both
    # Sound: of three alike ways G1, G2, W5 a third of the difference passes W5, (20 - 1) / 3 = 6.3 A, from G1 to G2.
    # With G2 open the small load has W5 and G1 alone: from G2 to G1, a little less than its 1 A at 12 V
    for one in both:
        (way,) = [way for way in one.carrying if way.name == "W5"]
        assert (way.start, way.end) == ("G2", "G1")
        assert way.amps is not None
        assert 0.9 < way.amps < 1.0


RINGS = """
    job: Rings on one stud
    usual: {ring strip: 6 mm, slack: 0 mm}
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 20 A, fed: always}}
    grounds: {G1: {back to: battery-}, L1: {stud: M6, back to: battery-}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: left.1, length: 1 m}
      W2: {size: 1.0 mm2, from: F2, to: right.1, length: 1 m}
      W3: {size: 1.0 mm2, from: left.2, to: G1, length: 1 m}
      W4: {size: 1.0 mm2, from: right.2, to: G1, length: 1 m}
      W5: {size: 1.0 mm2, from: left.2, to: L1, length: 1 m}
    loads:
      left: {between: left.1 left.2, draws: 4 A}
      right: {between: right.1 right.2, draws: 6 A}
    changes:
      - {id: C2, kind: ground, wire: W3, end: G1, to: L1, ring: "new, M6", made: 2031-05-03 AK}
      - {id: C3, kind: ground, wire: W4, end: G1, to: L1, ring: with C2, made: 2031-05-03 AK}
"""


def rings(folder: Path, text: str) -> dict[tuple[str, ...], RingCurrent]:
    worked = work(folder, text)
    found = ring_currents(worked.job, worked.shown, worked.circuits, "L1", point(worked, "L1").rings)
    return {tuple(sorted(one.ring.wires)): one for one in found}


def test_a_ring_of_which_one_wire_comes_back_by_another_ring_has_no_current(tmp_path: Path) -> None:
    """The left load's 4 A divide between W3 and W5: what of them passes either ring is not said."""
    found = rings(tmp_path / "divided", RINGS)
    assert (found["W3", "W4"].least_a, found["W3", "W4"].whole) == (0, False)
    # without W5 the ring of W3 and W4 has 4 + 6 A, and nothing more can come to it
    lines = RINGS.splitlines(keepends=True)
    alone = rings(tmp_path / "alone", "".join(line for line in lines if "W5:" not in line))
    assert (alone["W3", "W4"].least_a, alone["W3", "W4"].whole) == (10, True)


def test_no_load_is_counted_on_points_whose_way_back_does_not_conduct(tmp_path: Path) -> None:
    text = proved("""
    job: A painted panel
    fuses: {F1: {rating: 10 A}}
    grounds:
      G1: {back to: G2, cable: 10 mm2, cable length: 1 m}
      G2: {back to: battery-, cable: 10 mm2, cable length: 1 m, conducts: yes}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: G1, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    """)
    assert {ground.name: ground.loads for ground in work(tmp_path / "sound", text).grounds} == {
        "G1": ("lamp",),
        "G2": ("lamp",),
    }
    open_ = work(tmp_path / "open", text.replace("conducts: yes", "conducts: no"))
    assert {ground.name: ground.loads for ground in open_.grounds} == {"G1": (), "G2": ()}


TAPPED = """
    job: A lead onto a wire that was not measured
    usual: {joint: "lap, soldered", slack: 0 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 10 A, fed: always}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}
      W3: {size: 1.0 mm2, from: bell.2, to: battery-, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      bell: {between: bell.1 bell.2, draws: 1 A}
    changes:
      - id: C1
        kind: tap
        wire: W9
        piece: BU 1.0 mm2
        onto: W1
        from: lamp.1
        tail: 200 mm
        to: bell.1
        cut: 300 mm
        made: 2031-05-03 AK
"""


def test_no_overlap_is_asked_for_where_the_uncut_wire_has_no_length(tmp_path: Path) -> None:
    """The wire that is tapped is not cut, so no overlap goes into it; one goes into the new lead."""
    waits = "write usual: {overlap: 10 mm}"
    worked = work(tmp_path / "without", TAPPED)
    feed = figure(worked, "lamp.feed.alone")
    assert (feed.value, feed.missing_words) == (None, ("W1 from C1 to F1: length not recorded",))
    lead = [said for said in figure(worked, "bell.feed.alone").missing_words if said.startswith("W9")]
    assert lead == [f"W9 from C1 to bell.1: length not recorded, {waits}"]
    # with the overlap written the lead is known, and W1 is what it was
    written = work(tmp_path / "with", TAPPED.replace("usual: {", "usual: {overlap: 10 mm, "))
    for load in ("lamp", "bell"):
        assert figure(written, f"{load}.feed.alone").missing_words == ("W1 from C1 to F1: length not recorded",)
    # a lead that was neither cut nor measured is not known by an overlap
    unread = work(tmp_path / "unread", TAPPED.replace("        cut: 300 mm\n", ""))
    assert "W9 from C1 to bell.1: length not recorded" in figure(unread, "bell.feed.alone").missing_words


FED_BY_A_WIRE = """
    job: The feed of a fuse
    fuses: {F1: {rating: 10 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 2.5 mm2, from: battery+, to: F1.feed, length: 1 m}
    changes:
      - {id: C1, kind: remove, wire: W2, ends: {battery+: gone, F1.feed: gone}, made: 2031-05-03 AK}
"""


def test_a_fuse_whose_feed_was_taken_out_differs_though_its_own_wires_stay(tmp_path: Path) -> None:
    worked = work(tmp_path, FED_BY_A_WIRE)
    donor, now = view_called(worked, "donor"), view_called(worked, "now")
    assert donor is not None
    assert now is not None
    found: tuple[FuseDifference, ...] = tuple(differences(donor, now).fuses)
    assert [(one.fuse, one.unfed_before, one.unfed_after) for one in found] == [("F1", "", "W2 was taken out by C1")]
    assert (found[0].wires_before, found[0].wires_after) == (("W1",), ("W1",))
    assert not differences(now, now)


def test_a_joint_with_a_cover_differs_from_the_same_one_without(tmp_path: Path) -> None:
    text = """
    job: One joint
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mmCOVER}
    wires: {W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
    changes:
      - {id: C1, kind: shorten, wire: W1, end: lamp.1, pigtail: 200 mm, take out: 50 mm, made: 2031-05-03 AK}
    """
    covers = {"bare": "", "sleeved": ", cover: adhesive sleeve 40 mm"}
    bare, sleeved = (
        view_called(work(tmp_path / name, text.replace("COVER", cover)), "now") for name, cover in covers.items()
    )
    assert bare is not None
    assert sleeved is not None
    found = differences(bare, sleeved)
    assert [one.id for one in found.joints] == list(bare.joints)
    assert len(found.joints) == 1
    assert found.wires == ()
    assert not differences(bare, bare)
