"""A folded stub at either end, a ring behind a plug, a splice told from its far end, a check that is only planned."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from tests.figures.test_figures_bundles import FOUR, PLANNED, station
from tests.figures.test_figures_choices import RINGS, rings
from tests.figures.test_figures_drops_along import WAY
from tests.figures.test_figures_places import ROUTE, joint, lies
from tests.figures.test_figures_protection import NOSE
from tests.findings.jobs import copper_alone, figure, proved, work

from aswired.figures.proofs import proofs_of
from aswired.figures.stagger import Recut


# ---- bundles --------------------------------------------------------------------------------------------------------
# a stub is named by its row: C1 stands before the names of the ends, z1 behind them
@pytest.mark.parametrize(("ends", "row"), [("from: F1, to: lamp-left.1", "C1"), ("from: lamp-left.1, to: F1", "z1")])
@pytest.mark.parametrize(
    ("kept", "gone", "leg"), [("F1", "lamp-left.1", "dash.bulkhead.0"), ("lamp-left.1", "F1", "nose.left.0")]
)
@pytest.mark.parametrize(("stub", "folded"), [("100 mm", True), ("101 mm", False), ("unknown", False)])
def test_a_stub_of_a_hand_is_folded_back_at_either_end_of_a_wire_however_it_is_written(
    ends: str, row: str, kept: str, gone: str, leg: str, stub: str, folded: bool, tmp_path: Path
) -> None:
    """100 mm and less are laid beside their end; of more, or of an unknown length, some may lie in the bundle."""
    assert FOUR.count("from: F1, to: lamp-left.1") == 1
    fate = "capped" if stub == "unknown" else f"capped {stub}"
    ends_left = f"wires: {{W1: {{{kept}: {fate}, {gone}: gone}}}}"
    rows = f"    changes: [{{id: {row}, kind: remove, {ends_left}, made: 2031-05-03}}]\n"
    found = station(work(tmp_path, FOUR.replace("from: F1, to: lamp-left.1", ends) + rows), leg)
    assert [wire.wire for wire in found.wires] == ["W2", "W3", "W4"]
    assert found.perhaps == (() if folded else ("W1",))


# ---- rings ----------------------------------------------------------------------------------------------------------
def test_a_ring_whose_wire_goes_on_behind_a_plug_has_the_current_of_what_is_there(tmp_path: Path) -> None:
    """Left 4 A and right 6 A come by one ring; the wire of the right load passes an in-line plug on its way."""
    whole = "".join(line for line in RINGS.splitlines(keepends=True) if "W5:" not in line)
    plugged = whole.replace("from: right.2, to: G1", "from: mid.1, to: G1").replace(
        "    loads:\n", "      W6: {size: 1.0 mm2, from: right.2, to: mid.1, length: 1 m}\n    loads:\n"
    )
    plugged = plugged.replace("    wires:\n", "    plugs: {mid: {in line: yes}}\n    wires:\n")
    found = rings(tmp_path / "plugged", plugged)
    assert (found["W3", "W4"].least_a, found["W3", "W4"].whole) == (10, True)
    # where nobody wrote what a wire serves, what comes by it is not known: 4 A are the least
    bare = rings(tmp_path / "bare", whole.replace("from: right.2, to: G1", "from: bare.1, to: G1"))
    assert (bare["W3", "W4"].least_a, bare["W3", "W4"].whole) == (4, False)


# ---- ground points --------------------------------------------------------------------------------------------------
POINTS = copper_alone(
    proved("""
    job: Two points
    supply: 12 V
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}}
    switches: {SWITCH: {between: s.1 s.2}}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: s.1, length: 1 m}
      W3: {size: 1.0 mm2, from: s.2, to: L2, length: 1 m}
      W4: {size: 10 mm2, from: L2, to: END, length: 0 mm}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
""")
)


@pytest.mark.parametrize("switch", ["lamp switch", "L1", "F1"])
def test_a_switch_that_has_the_name_of_a_point_brings_no_load_to_it(switch: str, tmp_path: Path) -> None:
    worked = work(tmp_path, POINTS.replace("SWITCH", switch).replace("END", "spare.1"))
    assert {point.name: (point.state, point.loads) for point in worked.grounds} == {
        "L1": ("unused", ()), "L2": ("in use", ("lamp",)),
    }  # fmt: skip


def test_a_cable_beside_a_joint_without_resistance_carries_nothing_and_is_not_given_the_sum_of_its_loads(
    tmp_path: Path,
) -> None:
    """The return is traced through L2 and its cable of 1.82 mohm; W4 of no length lies beside it."""
    text = POINTS.replace("SWITCH", "lamp switch")
    beside = work(tmp_path / "beside", text.replace("END", "battery-"))
    assert [figure(beside, key).value for key in ("L2.total", "L2.rise")] == [0, 0]
    # twin: without it the cable has the lamp's 2 A, 2 A x 1.82 mohm
    alone = work(tmp_path / "alone", text.replace("END", "spare.1"))
    assert [figure(alone, key).value for key in ("L2.total", "L2.rise")] == [2, pytest.approx(0.00364)]


CABLED = "{L1: {back to: battery-, cable: 10 mm2, cable length: 2 m}}"


@pytest.mark.parametrize(
    ("grounds", "missing"),
    [
        ("{L1: {what: body}}", "the way back from L1"),
        ("{L1: {back to: L6, cable: 10 mm2, cable length: 2 m}, L6: {what: body}}", "the way back from L6"),
        ("{L1: {back to: L6, cable: 10 mm2, cable length: 2 m}}", "the way back from L6"),  # not declared
    ],
)
def test_what_passes_a_point_is_its_loads_though_nobody_wrote_how_the_body_leads_on(
    grounds: str, missing: str, tmp_path: Path
) -> None:
    """The lamp's 2 A and the horn's 5 A; how far the stud rises hangs on the body, which nobody measured."""
    assert WAY.count(CABLED) == 1
    worked = work(tmp_path, WAY.replace(CABLED, grounds).replace("F1: {rating", "F1: {fed: always, rating"))
    for point in worked.grounds:
        assert (point.total.value, point.total.missing) == (7, ()), point.name
        assert (point.rise.value, point.rise.missing_words) == (None, (missing,)), point.name
    back = figure(worked, "lamp.return.alone")
    assert (back.value, back.missing_words) == (None, (f"{missing}: not recorded",))
    (closed,) = [one for one in worked.ground_states.opened["L1"].opened if one.switched.short == "lever closed"]
    assert {over.load: over.no_way for over in closed.over} == {"lamp": True, "horn": True}


# ---- places of splices ----------------------------------------------------------------------------------------------
@pytest.mark.parametrize("ends", ["from: G2, to: FS9", "from: FS9, to: G2"])
def test_a_splice_lies_on_the_way_that_the_wire_takes_now_and_not_on_that_of_the_donor(
    ends: str, tmp_path: Path
) -> None:
    """Its ring was at right and is at left: 1200 - 5 mm from the bulkhead are 195 mm past the nose, towards left."""
    head = (
        ROUTE.replace("    plugs:", "    grounds: {G2: {at: right}, L1: {at: left}}\n    plugs:")
        .replace("    wires:", "    splices: {FS9: {at: bulkhead}}\n    wires:")
        .replace("    changes:", f"      W3: {{colour: BN, size: 1.0 mm2, {ends}, length: 1500 mm}}\n    changes:")
    )
    row = "      - {id: C1, kind: ground, wire: W3, end: G2, to: L1, gap: 100 mm, tail: 1200 mm, piece: BK 1.0 mm2}\n"
    worked = work(tmp_path, head + row)
    assert joint(worked, "C1").joint.from_end == "FS9"
    assert lies(worked, "C1") == (1, pytest.approx(400 - 195))  # the leg is written from left
    assert joint(worked, "C1").zone == ("wet",)


def test_the_middle_of_a_joint_that_takes_nothing_up_lies_at_its_cut_face(tmp_path: Path) -> None:
    """Butted ends do not overlap: half the take-up is nought, which is no slack."""
    row = "kind: extend, wire: W1, plug: lamp, piece: BU 1.0 mm2, pigtail: 200 mm, gap: 150 mm"
    worked = work(tmp_path, ROUTE + f'      - {{id: C1, {row}, joint: "butt, crimped"}}\n')
    centre = joint(worked, "C1-W1-plug").centre
    assert (centre.value, centre.formula) == (200, "centre = cut face - o/2")
    assert [(one.name, one.value) for one in centre.inputs] == [("cut face", 200), ("o/2, half the take-up", 0)]


@pytest.mark.parametrize("place", ["in: dash", "fed: always"])
def test_where_a_fuse_lies_need_not_be_known_to_tell_the_cuts_from_the_plug(place: str, tmp_path: Path) -> None:
    """The far splice of a pigtail of 360 mm and a gap of 300 lies 665 mm from the plug: 35 mm from the branch.

    It has to be 40: with 5 mm less of pigtail both splices lie 5 mm nearer to the plug.
    """
    text = PLANNED.replace("wires: {W1: GN 18 AWG, W2: YE 18 AWG, W3: BN 18 AWG}", "wire: W1\n        piece: GN 18 AWG")
    text = text.replace("F1: {in: dash}", f"F1: {{{place}}}").replace("pigtail: 60 mm", "pigtail: 360 mm")
    (found,) = work(tmp_path, text).bundles.staggers
    assert {s.joint: (s.at_mm, s.to_mm) for s in found.shifts} == {"C1-W1-plug": (345, 345), "C1-W1-loom": (35, 40)}
    assert found.recuts == (Recut("C1", 355, None),)


def test_the_pigtail_is_moved_before_the_stagger_where_that_is_the_smaller_change(tmp_path: Path) -> None:
    """W3 has its splice 155 mm from the plug, and the two planned ones would lie at 55 and 115: 50 mm clear is 105.

    With 10 mm less of pigtail they lie at 45 and 105, 40 mm clear of the plug; a stagger of 50 is 10 mm for two each.
    """
    made = "kind: shorten, wire: W3, plug: lamp-left, pigtail: 160 mm, take out: 50 mm, made: 2031-05-03 AK"
    two = PLANNED.replace(", W3: BN 18 AWG}", "}").replace("stagger: 20 mm", "stagger: 60 mm")
    text = two.replace("      - id: C1", f"      - {{id: C9, {made}}}\n      - id: C1")
    (found,) = work(tmp_path, text).bundles.staggers
    assert found.recuts == (Recut("C1", 50, 60),)


# ---- fuses ----------------------------------------------------------------------------------------------------------
def test_a_wire_below_both_tables_is_said_to_be_not_judged_by_either(tmp_path: Path) -> None:
    """0.22 mm2 is less copper than 22 AWG, the last row of AC 43.13-1B Table 11-3 (read)."""
    worked = work(tmp_path, NOSE.replace("W1: {size: 14 AWG", "W1: {size: 0.22 mm2"))
    for key, least in (("F1.cfr", "18 AWG"), ("F1.faa", "22 AWG")):
        found = figure(worked, key)
        assert (found.value, found.missing_words) == (None, ())
        assert found.note.startswith(f"Not judged: 0.22 mm2 lies below the smallest row, {least}.")
    # 22 AWG itself has its row: a fuse of 5 A
    last = figure(work(tmp_path / "last", NOSE.replace("W1: {size: 14 AWG", "W1: {size: 22 AWG")), "F1.faa")
    assert (last.value, last.note) == (5, "Second opinion: written for aircraft; what the chart rests on was not seen.")


def test_a_wire_that_is_planned_to_go_lies_with_no_others_in_the_bundle_of_the_plan(tmp_path: Path) -> None:
    """By itself W1 may carry 25 A (33 CFR 183.425 Table 5, read: 14 AWG at 80 C); what it lies with is not told."""
    planned = "changes: [{id: C2, kind: remove, wire: W1, ends: {F1: gone, lamp.1: gone}}, "
    worked = work(tmp_path, NOSE.replace("changes: [", planned))
    assert figure(worked, "F1.cfr").value == 25
    bundled = figure(worked, "F1.cfr.bundled")
    assert (bundled.value, bundled.missing_words) == (None, ("what lies with W1 in the bundle",))


# ---- proofs ---------------------------------------------------------------------------------------------------------
def test_a_check_proves_a_row_in_the_views_behind_it_and_a_planned_one_in_none(tmp_path: Path) -> None:
    worked = work(tmp_path, """
    job: Two checks
    handed over: 2031-05-05
    wires: {W1: {size: 1.0 mm2, from: a.1, to: b.1}}
    changes:
      - {id: C1, kind: remove, wire: W1, ends: {a.1: gone, b.1: gone}, made: 2031-05-03}
      - {id: V1, kind: verify, proves: [C1], test: continuity, made: 2031-05-10}
      - {id: V2, kind: verify, proves: [C1], test: volts}
    """)  # fmt: skip
    by_view = {
        view.name: {row: [check.id for check in checks] for row, checks in proofs_of(worked.job, view, {}).items()}
        for view in worked.views
    }
    assert by_view == {"donor": {}, "handed over": {}, "now": {"C1": ["V1"]}, "plan": {"C1": ["V1"]}}
    (handed_over,) = [view for view in worked.views if view.name == "handed over"]
    assert handed_over.day == datetime.date(2031, 5, 5)
