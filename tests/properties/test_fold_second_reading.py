"""Cases where the fold and the naive fold once read the rules differently: one small case each."""

from __future__ import annotations

import dataclasses

import pytest

from aswired.car.asbuilt import fold
from aswired.car.harness import NodeKind, View
from aswired.record import Change, FactorySplice, GroundPoint, Job, Usual, Wire
from aswired.text.one_line import Cover, Fate, JointMethod, Piece, Ring
from properties.chance import COLOURS, SIZES, length

PIECE = Piece("", COLOURS[0], SIZES[0])
LAP = JointMethod("lap", "lap", "soldered")
HOUSE = Usual(joint=LAP, overlap=length(10), slack=length(50), ring_strip=length(6))
GONE, CAPPED = Fate("gone", "gone", None), Fate("capped 30 mm", "capped", length(30))
NEW_RING = Ring("new, M6", "", "M6", None)
WIRES = {
    "W1": Wire(from_="lamp.1", to="FS1", length=length(2000)),
    "W2": Wire(from_="horn.1", to="unknown", length=length(1000)),
    "W3": Wire(from_="pump.1", to="G1", length=length(1500)),
    "W4": Wire(from_="pump.2", to="FS1", length=length(800)),
    "W5": Wire(from_="pump.3", to="FS1", length=length(800)),
}


def plan(*rows: Change, house: Usual = HOUSE) -> View:
    grounds = {"G1": GroundPoint(), "L1": GroundPoint()}
    splices = {"FS1": FactorySplice()}
    return fold(Job(job="x", usual=house, wires=WIRES, grounds=grounds, splices=splices, changes=rows), "plan")


def only(view: View, wire: str) -> tuple[float | None, float | None]:
    (stretch,) = view.of_wire(wire)
    return stretch.length_mm, stretch.effective_mm


def test_f9_a_capped_stub_keeps_its_ring_on_the_stud() -> None:
    view = plan(Change(id="C1", kind="remove", wire="W3", ends={"pump.1": GONE, "G1": CAPPED}))
    assert [stretch.ends for stretch in view.of_wire("W3")] == [("C1-W3-G1", "G1")]
    assert [(ring.ground, ring.wires) for ring in view.rings] == [("G1", ("W3",))]


def test_f7_a_capped_stub_leaves_the_splice_closed() -> None:
    view = plan(Change(id="C1", kind="remove", wire="W1", ends={"lamp.1": GONE, "FS1": CAPPED}))
    assert "W1" in {stretch.wire for stretch in view.at_node["FS1"]}
    assert view.nodes["FS1"].opened_by == ()


def test_f7_a_lead_added_to_a_splice_is_a_member_of_it() -> None:
    short = Change(id="C1", kind="shorten", wire="W1", end="lamp.1", take_out=length(100), pigtail=length(200))
    lead = Change(id="C2", kind="add", wire="W9", piece=PIECE, from_="C1", to="L1", cut=length(400), ring=NEW_RING)
    assert set(plan(short, lead).joints["C1"].wires) == {"W1", "W9"}


def test_m14_a_strip_that_is_not_recorded_is_not_nothing() -> None:
    moved = Change(id="C1", kind="ground", wire="W3", end="pump.1", to="L1", ring=NEW_RING)
    assert only(plan(moved), "W3") == (1500, 1494)
    assert only(plan(moved, house=dataclasses.replace(HOUSE, ring_strip=None)), "W3") == (1500, None)


def test_a_stub_is_as_long_after_remove_as_after_cap() -> None:
    moved = Change(id="C1", kind="ground", wire="W3", end="G1", to="L1", ring=NEW_RING)
    cap = Change(id="C2", kind="cap", wire="W3", end="L1", stub=length(30), far=GONE)
    remove = Change(id="C2", kind="remove", wire="W3", ends={"pump.1": GONE, "L1": CAPPED})
    assert only(plan(moved, remove), "W3") == only(plan(moved, cap), "W3")


def test_l4_a_shared_ring_takes_the_same_strip_as_a_new_one() -> None:
    first = Change(id="C1", kind="ground", wire="W1", end="lamp.1", to="L1", ring=NEW_RING)
    alone = Change(id="C2", kind="ground", wire="W3", end="G1", to="L1", ring=NEW_RING)
    shared = dataclasses.replace(alone, ring=Ring("with C1", "C1", "", None))
    assert only(plan(first, shared), "W3") == only(plan(first, alone), "W3")


def test_l2_a_tap_takes_the_overlap() -> None:
    tap = Change(id="C1", kind="tap", wire="W3", end="G1", onto="W1")
    assert only(plan(tap), "W3") == (1500, 1490)
    assert only(plan(tap, house=dataclasses.replace(HOUSE, joint=None)), "W3") == (1500, 1490)


@pytest.mark.parametrize(
    "row",
    [
        Change(id="C2", kind="join", ends=("W3 at L1", "W1 at FS1")),
        Change(id="C2", kind="tap", wire="W3", end="L1", onto="W1"),
    ],
    ids=["join", "tap"],
)
def test_l4_a_new_terminal_is_cut_off_as_a_ground_row_does(row: Change) -> None:
    moved = Change(id="C1", kind="ground", wire="W3", end="G1", to="L1", ring=NEW_RING)
    ground = Change(id="C2", kind="ground", wire="W3", end="L1", to="G1", gap=length(300), piece=PIECE, ring=NEW_RING)

    def kept(view: View) -> list[float | None]:
        return [stretch.length_mm for stretch in view.of_wire("W3") if stretch.origin == ""]

    assert kept(plan(moved, ground)) == [1494]
    assert kept(plan(moved, row)) == [1494]


def test_f15_a_test_of_a_refused_row_is_not_judged() -> None:
    bad = Change(id="C1", kind="cap", wire="W99", end="lamp.1", stub=length(30))
    verify = Change(id="C2", kind="verify", proves=("C1",), test="drop")
    assert [result.status for result in plan(bad, verify).rows] == ["refused", "not judged"]


def test_f18_a_grouped_row_has_a_line_for_each_wire() -> None:
    fates = {"W4": {"pump.2": GONE, "FS1": GONE}, "W5": {"pump.3": GONE, "FS1": Fate("capped", "capped", None)}}
    view = plan(Change(id="C1", kind="remove", wires=fates))
    assert {line.wire: line.after_mm for line in view.conductor_account} == {"W4": 0, "W5": None}


def test_m7_the_far_part_that_nothing_is_said_of_has_an_unknown_fate() -> None:
    view = plan(Change(id="C1", kind="cap", wire="W1", end="FS1", stub=length(30)))
    fates = {name: node.fate.word for name, node in view.nodes.items() if node.kind is NodeKind.STUB and node.fate}
    assert fates == {"C1-W1-FS1": "capped", "C1-W1-lamp.1": "unknown"}


def test_f7_a_removed_wire_is_no_member_of_a_tap() -> None:
    tap = Change(id="C1", kind="tap", wire="W3", end="G1", onto="W1")
    gone = Change(id="C2", kind="remove", wire="W1", ends={"lamp.1": GONE, "FS1": GONE})
    view = plan(tap, gone)
    assert {stretch.wire for stretch in view.at_node["C1"]} == {"W3"}
    assert view.joints["C1"].wires == ("W3",)


def test_f15_a_cover_over_a_refused_row_is_not_judged() -> None:
    bad = Change(id="C1", kind="cap", wire="W99", end="lamp.1", stub=length(30))
    cover = Change(id="C2", kind="cover", over=("C1",), cover=Cover("cloth tape", False, False, True, None))
    assert [result.status for result in plan(bad, cover).rows] == ["refused", "not judged"]


def test_f15_a_terminal_cut_off_a_short_pigtail_leaves_no_length_below_nothing() -> None:
    extend = Change(id="C1", kind="extend", wire="W1", plug="lamp", pigtail=length(43), gap=length(300), piece=PIECE)
    shorten = Change(id="C2", kind="shorten", wire="W1", plug="lamp", take_out=length(39), terminal="new")
    ground = Change(
        id="C3", kind="ground", wire="W1", end="lamp.1", to="L1", cut=length(500), piece=PIECE, ring=NEW_RING
    )
    view = plan(extend, shorten, ground)
    assert "refused" in {result.status for result in view.rows}
    assert all(stretch.length_mm is None or stretch.length_mm > 0 for stretch in view.stretches)
