"""Fuses against the thinnest wire they protect; ground points with what passes them and how far they rise."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import figures, proved, work

from aswired.car.route import Route
from aswired.figures.fuses import FuseSummary
from aswired.figures.grounds import GroundSummary
from aswired.figures.heat import hottest_of
from aswired.figures.worked import JobResult

# Planning ratings of this project (an estimate set between published shop figures): 1.0 mm2 10 A, 1.5 15 A, 2.5 20 A
FUSED = proved("""
    job: One fuse, three sizes
    fuses: {F1: {rating: 15 A, fed: always}}
    splices: {FS1: {}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: FS1}
      W2: {size: 1.5 mm2, from: FS1, to: pump.1}
      W3: {size: 1.0 mm2, from: FS1, to: lamp.1}
      W4: {size: 0.5 mm2, from: lamp.2, to: battery-}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
""")


def fuse(worked: JobResult, name: str) -> FuseSummary:
    return next(fuse for fuse in worked.fuses if fuse.name == name)


def ground(worked: JobResult, name: str) -> GroundSummary:
    return next(point for point in worked.grounds if point.name == name)


def test_a_point_that_a_row_made_stands_below_those_that_the_job_lists(tmp_path: Path) -> None:
    text = FUSED.replace("    wires:\n", "    grounds: {G1: {back to: battery-}}\n    wires:\n")
    text = text.replace(
        "[{id: C1,", "[{id: C8, kind: ground, wire: W4, end: battery-, to: L1, made: 2031-05-03 AK}, {id: C1,"
    )
    worked = work(tmp_path, text)
    assert [point.name for point in worked.grounds] == ["G1", "L1"]
    assert (ground(worked, "L1").point, ground(worked, "L1").lands) == (None, ("W4",))


def test_a_fuse_is_held_to_the_thinnest_wire_behind_it_not_to_what_lies_behind_the_load(tmp_path: Path) -> None:
    found = fuse(work(tmp_path, FUSED), "F1")
    assert found.thinnest is not None
    assert (found.thinnest.wire, found.rating.value, found.ok) == ("W3", 10, False)


@pytest.mark.parametrize(
    ("fact", "instead", "thinnest", "rating", "ok"),
    [
        ("rating: 15 A", "rating: 10 A", "W3", 10, True),
        ("W3: {size: 1.0", "W3: {size: 1.5", "W2", 15, True),
        ("W3: {size: 1.0 mm2", "W3: {size: 18 AWG", "W3", 7.5, False),  # SAE least copper 0.76 mm2: the row of 0.75
        ("rating: 15 A", "rating: unknown", "W3", 10, None),
        ("W2: {size: 1.5 mm2", "W2: {size: unknown", "W3", 10, False),  # wrong already, whatever W2 is
    ],
)
def test_one_fact_changed_at_a_fuse(
    fact: str, instead: str, thinnest: str, rating: float, ok: bool | None, tmp_path: Path
) -> None:
    assert FUSED.count(fact) == 1
    found = fuse(work(tmp_path, FUSED.replace(fact, instead)), "F1")
    assert found.thinnest is not None
    assert (found.thinnest.wire, found.rating.value, found.ok) == (thinnest, rating, ok)


def test_a_fuse_that_suits_the_wires_that_are_read_is_not_said_to_suit_the_one_that_is_not(tmp_path: Path) -> None:
    text = FUSED.replace("rating: 15 A", "rating: 10 A").replace("W2: {size: 1.5 mm2", "W2: {size: unknown")
    found = fuse(work(tmp_path, text), "F1")
    assert found.ok is None
    assert "W2" in found.rating.note


def test_a_second_fuse_takes_over_what_lies_behind_it(tmp_path: Path) -> None:
    text = (
        FUSED.replace("fuses: {", "fuses: {F2: {rating: 10 A}, ")
        .replace("to: lamp.1", "to: F2.feed")
        .replace("W4: {", "W5: {size: 0.5 mm2, from: F2, to: lamp.1}\n      W4: {")
    )
    worked = work(tmp_path, text)
    behind = fuse(worked, "F2").thinnest
    assert behind is not None
    assert (behind.wire, fuse(worked, "F2").rating.value) == ("W5", 5)
    before = fuse(worked, "F1").thinnest
    assert before is not None
    assert before.wire == "W3"  # not the 0.5 mm2 behind the second fuse
    assert worked.circuits["lamp"].fuses == ("F1", "F2")


def test_a_fuse_that_feeds_nothing_from_a_row_on_is_spare(tmp_path: Path) -> None:
    text = """
    job: Spare
    fuses: {F1: {rating: 10 A}, F2: {rating: 10 A}}
    wires: {W1: {size: 1.0 mm2, from: F1, to: lamp.1}}
    changes:
      - {id: C1, kind: remove, wires: {W1: {F1: pulled, lamp.1: gone}}, spare: [F1], MADE: 2031-05-03 AK}
      - {id: C2, kind: verify, proves: [C1], made: 2031-05-03 AK}
    """
    made = work(tmp_path / "made", text.replace("MADE", "made"))
    planned = work(tmp_path / "planned", text.replace("MADE: 2031-05-03 AK", "note: planned"))
    assert [(f.name, f.spare) for f in made.fuses] == [("F1", True), ("F2", False)]
    assert [(f.name, f.spare) for f in planned.fuses] == [("F1", False), ("F2", False)]
    assert fuse(made, "F1").thinnest is None
    assert fuse(made, "F1").rating.value is None


CHAIN = proved("""
    job: Ground behind ground
    fuses: {F1: {rating: 10 A}, F2: {rating: 10 A}, F3: {rating: 10 A}}
    grounds:
      L1: {back to: L2, cable: 4.0 mm2, cable length: 2 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 3 m}
      L3: {back to: battery-}
      L4: {}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1}
      W3: {size: 1.0 mm2, from: F2, to: horn.1}
      W4: {size: 1.0 mm2, from: horn.2, to: L2}
      W5: {size: 1.0 mm2, from: F3, to: fan.1}
      W6: {size: 1.0 mm2, from: fan.2, to: L3}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 4 A}
      horn: {between: horn.1 horn.2, draws: 6 A}
      fan: {between: fan.1 fan.2, draws: 10 A}
""")


def test_totals_and_rises_of_a_chain_of_ground_points(tmp_path: Path) -> None:
    worked = work(tmp_path, CHAIN)
    value = figures(worked)
    assert (value["L1.total"], value["L2.total"], value["L3.total"]) == (4, 10, 10)
    # L1 to L2: 2 m of 4.0 mm2 at 4.71 mohm/m and a ring of 1.5 on each stud; L2 to battery negative: 3 m of 10 mm2 at
    # 1.82 mohm/m and its ring on L2
    assert value["L2.rise"] == pytest.approx(10 * (5.46 + 1.5) / 1000)
    assert value["L1.rise"] == pytest.approx((4 * (9.42 + 3) + 10 * (5.46 + 1.5)) / 1000)
    assert value["L3.rise"] is None  # its cable is not written
    assert {g.name: g.loads for g in worked.grounds} == {
        "L1": ("lamp",), "L2": ("lamp", "horn"), "L3": ("fan",), "L4": (),
    }  # fmt: skip
    assert {g.name: g.state for g in worked.grounds} == {"L1": "in use", "L2": "in use", "L3": "in use", "L4": "unused"}
    assert (ground(worked, "L2").behind, ground(worked, "L2").lands) == (("L1",), ("W4",))


def test_a_rise_without_a_way_back_names_what_is_missing(tmp_path: Path) -> None:
    worked = work(tmp_path, CHAIN.replace("back to: battery-, cable: 10 mm2, cable length: 3 m", "what: stud"))
    rise = ground(worked, "L1").rise
    assert rise.value is None
    assert "the way back from L2" in rise.missing_words
    assert ground(worked, "L1").total.value == 4
    assert ground(worked, "L4").rise.value is None


def test_a_deleted_load_adds_nothing_to_a_ground(tmp_path: Path) -> None:
    worked = work(tmp_path, CHAIN.replace("draws: 6 A", "draws: 6 A, verdict: deleted"))
    assert figures(worked)["L2.total"] == 4


def test_ground_points_in_a_ring_are_told_and_do_not_hang(tmp_path: Path) -> None:
    worked = work(tmp_path, CHAIN.replace("back to: battery-, cable: 10 mm2", "back to: L1, cable: 10 mm2"))
    assert ground(worked, "L1").rise.value is None
    assert worked.circuits["lamp"].back.state == "not examined"
    assert figures(worked)["lamp.drop.alone"] is None


def test_a_ground_point_that_is_said_to_be_gone_is_in_use_while_a_wire_lands_on_it(tmp_path: Path) -> None:
    text = """
    job: Gone
    grounds: {G1: {gone: yes}, G2: {gone: yes}, G3: {}}
    wires: {W1: {size: 1.0 mm2, from: lamp.2, to: G1}}
    """
    states = {ground.name: ground.state for ground in work(tmp_path, proved(text)).grounds}
    assert states == {"G1": "in use", "G2": "gone", "G3": "unused"}


@pytest.mark.parametrize(("first", "second"), [("85 C", "40 C"), ("40 C", "85 C")])
def test_a_wire_is_as_hot_as_the_hottest_leg_it_runs_through(first: str, second: str, tmp_path: Path) -> None:
    text = f"""
    job: Hot
    landmarks: {{a: fuse box, b: front wall, c: nose}}
    route: [{{from: a, to: b, length: 1 m, hottest: {first}}}, {{from: b, to: c, length: 1 m, hottest: {second}}}]
    plugs: {{lamp: {{at: c}}}}
    fuses: {{F1: {{rating: 10 A, in: a, fed: always}}}}
    loads: {{lamp: {{between: lamp.1 lamp.2, draws: 2 A}}}}
    wires:
      W1: {{size: 2.5 mm2, from: F1, to: lamp.1, length: 2 m}}
    """
    worked = work(tmp_path, proved(text))
    hottest = hottest_of(worked.job, worked.shown, Route(worked.job), worked.joints)
    hot = {worked.shown.stretches[int(index)].wire: (leg.celsius, leg.leg) for index, leg in hottest.items()}
    assert hot == {"W1": (85, "a to b" if first == "85 C" else "b to c")}
