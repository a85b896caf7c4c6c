"""At the edge of what the formulas hold for: what is refused in words, and what exactly at a limit still counts."""

from __future__ import annotations

import math
import re
from itertools import permutations

import pytest

from aswired.physics.bundle import lump, measured, next_size, outside, tape_length, thickness
from aswired.physics.circles import circles
from aswired.physics.conductor import at_temperature, conductor, gauge_name, length_resistance
from aswired.physics.draw import LoadCurrent, light_part
from aswired.physics.drops import drop_limit
from aswired.physics.lengths import gap, round_up, staggered_pigtail, staggered_tail, take_up
from aswired.physics.network import Edge, solve
from aswired.physics.protection import judge_fuse, planning_rating
from aswired.physics.stagger import Keep, broken, spread
from aswired.physics.steps import AREA_OF_A_STEP, steps_thicker


# ---- conductors -----------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("system", "size", "words"),
    [
        ("ASTM B258", 37, "ASTM B258 has no size 37 AWG here: 4/0 AWG to 36 AWG"),
        ("ASTM B258", -4, "ASTM B258 has no size 5/0 AWG here"),
        ("ASTM B258", 18.5, "ASTM B258 has no size 18.5 AWG: gauges are whole numbers"),
        ("ASTM B258", math.inf, "gauges are whole numbers"),
        ("ASTM B258", math.nan, "gauges are whole numbers"),
        ("SAE J1128", 13, "SAE J1128 has no size 13 AWG; it has 24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2"),
        ("ISO 6722-1", 0.1, "ISO 6722-1 has no size 0.1 mm²: 0.13 mm² to 120 mm²"),
        ("ISO 6722-1", 121, "ISO 6722-1 has no size 121 mm²"),
        ("IEC 60228", 2.0, "IEC 60228 has no size 2 mm²; it has 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25"),
        ("DIN", 1.0, "DIN"),
    ],
)
def test_a_size_that_a_system_does_not_have_is_refused_by_name(system: str, size: float, words: str) -> None:
    with pytest.raises(ValueError, match=re.escape(words)):
        conductor(system, size)


def test_the_thickest_and_the_thinnest_gauge_are_had() -> None:
    # 4/0 is 0.46 in and 36 AWG is 0.005 in by definition (ASTM B258)
    assert conductor("ASTM B258", -3).diameter_mm == pytest.approx(0.46 * 25.4)
    assert conductor("ASTM B258", 36).diameter_mm == pytest.approx(0.005 * 25.4)
    assert [gauge_name(gauge) for gauge in (14, 1, 0, -1, -3)] == ["14 AWG", "1 AWG", "1/0 AWG", "2/0 AWG", "4/0 AWG"]
    assert conductor("ISO 6722-1", 0.13).resistance_mohm_per_m == 136
    assert conductor("ISO 6722-1", 120).resistance_mohm_per_m == 0.153


def test_each_conductor_says_what_it_rests_on() -> None:
    older = "older editions and DIN 72551-6: 52.0 mΩ/m"
    assert older in conductor("ISO 6722-1", 0.35).note
    assert older not in conductor("ISO 6722-1", 0.5).note
    assert conductor("ISO 6722-1", 0.5).note.startswith("permitted maximum; diameter is that of a solid wire")
    assert conductor("ISO 6722-1", 1.8).note.startswith("size between two rows of the table: 19.7 / area")
    marks = {(s, n): conductor(s, n).mark for s, n in (("ISO 6722-1", 0.5), ("ISO 6722-1", 1.8), ("IEC 60228", 1.5),
                                                         ("SAE J1128", 18), ("ASTM B258", 18))}  # fmt: skip
    assert list(marks.values()) == ["from memory", "computed", "read", "from memory", "computed"]
    assert conductor("ASTM B258", 18).note == "solid wire"
    assert conductor("SAE J1128", 18).note.startswith("least copper the standard allows; diameter is that of a solid")
    warm = conductor("ASTM B258", 18, temp_c=60)
    assert warm.note.startswith("solid wire; ")
    assert "60" in warm.note


def test_lengths_and_temperatures_out_of_bounds_are_refused() -> None:
    with pytest.raises(ValueError, match="length_mm must not be below zero, got -1"):
        length_resistance(10, -1)
    assert length_resistance(10, 0) == 0
    with pytest.raises(ValueError, match=r"temp_c must be above -234\.5, got -234\.5"):
        at_temperature(1, -234.5)
    assert at_temperature(1, 20) == 1


# ---- the network ----------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("mohm", [-1, math.inf, math.nan, -math.inf])
def test_a_resistance_that_is_none_is_refused(mohm: float) -> None:
    for edges in ([Edge("b", "x", mohm)], [Edge("b", "x", 1.0), Edge("x", "y", mohm)]):
        with pytest.raises(ValueError, match="resistance_mohm must be a number not below zero"):
            solve(edges, {}, "b")


@pytest.mark.parametrize("value", [math.inf, math.nan])
def test_a_current_or_a_voltage_that_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="currents_a must be numbers"):
        solve([Edge("b", "x", 1.0)], {"b": 1.0, "x": value}, "b")
    with pytest.raises(ValueError, match="held_v must be numbers"):
        solve([Edge("b", "x", 1.0)], {}, "b", {"x": value})


def test_what_the_battery_does_not_reach_has_neither_volts_nor_current() -> None:
    edges = [Edge("b", "x", 10.0), Edge("p", "q", 10.0), Edge("q", "r", 0.0)]
    found = solve(edges, {"x": 2.0}, "b")
    assert found.voltage_v == {"b": 0, "x": pytest.approx(-0.02), "p": None, "q": None, "r": None}
    assert found.current_a == (pytest.approx(2), None, None)


def test_beside_a_branch_without_resistance_another_carries_nothing() -> None:
    edges = [Edge("b", "x", 10.0), Edge("x", "y", 0.0), Edge("x", "y", 5.0)]
    for order in permutations(range(3)):
        found = solve([edges[index] for index in order], {"y": 3.0}, "b")
        current = dict(zip(order, found.current_a, strict=True))
        assert current == {0: pytest.approx(3), 1: pytest.approx(3), 2: pytest.approx(0)}
        assert found.voltage_v["y"] == pytest.approx(-0.03)


def test_circles_are_told_in_the_order_of_the_names() -> None:
    leads = {"d": ["a"], "a": ["b"], "b": ["c"], "c": ["d"], "x": ["x"], "y": ["a", "x"], "z": []}
    assert [list(group) for group in circles(leads)] == [["d", "a", "b", "c"], ["x"]]
    # two rings that touch at one name are one group; one that only leads into a ring is none
    assert [list(g) for g in circles({"p": ["q"], "q": ["p", "r"], "r": ["q"], "s": ["p"]})] == [["p", "q", "r"]]
    assert circles({"a": ["b", "c"], "b": ["c"], "c": []}) == []


# ---- lengths --------------------------------------------------------------------------------------------------------
def test_what_a_joint_swallows_by_its_method() -> None:
    swallowed = {"lap": 8, "butt": 0, "lineman": 8, "closed-end": 16, "clip": 8, "tap": 8}
    assert {method: take_up(method, 8) for method in swallowed} == swallowed
    assert {method: take_up(method, None) for method in swallowed} == {**dict.fromkeys(swallowed), "butt": 0}
    assert take_up("tap", 8, through_wire=True) == 0
    assert take_up("lap", 0) == 0
    with pytest.raises(ValueError, match="joint 'weld' is not known; known: lap, butt, lineman, closed-end, clip, tap"):
        take_up("weld", 8)
    with pytest.raises(ValueError, match="overlap_mm must not be below zero, got -1"):
        take_up("lap", -1)
    with pytest.raises(ValueError, match="a lap joint has no through wire"):
        take_up("lap", 8, through_wire=True)


def test_the_gap_is_what_was_measured_before_what_is_worked_out() -> None:
    found = gap(gap_mm=450, reach_mm=1200, route_mm=1190, tail_mm=600, pigtail_mm=160)
    assert found is not None
    # 1200 - 760 = 440 and 1190 - 760 = 430 beside the measured 450
    assert (found.gap_mm, found.given_as, found.apart_mm) == (450, "gap", 20)
    reach = gap(reach_mm=1200, route_mm=1190, tail_mm=600, pigtail_mm=160)
    assert reach is not None
    assert (reach.gap_mm, reach.given_as, reach.apart_mm) == (440, "reach", 10)
    route = gap(route_mm=1190, tail_mm=600, pigtail_mm=160)
    assert route is not None
    assert (route.gap_mm, route.given_as, route.apart_mm) == (430, "route", None)
    assert gap(reach_mm=1200, tail_mm=600) is None


def test_staggered_cuts_gain_on_one_side_what_they_lose_on_the_other() -> None:
    assert [staggered_pigtail(100, 50, index) for index in (0, 1, 3)] == [100, 150, 250]
    assert [staggered_tail(600, 50, index) for index in (0, 1, 3)] == [600, 550, 450]
    assert staggered_pigtail(100, None, 0) == 100
    assert staggered_pigtail(100, None, 1) is None
    assert staggered_tail(None, 50, 1) is None
    for staggered in (staggered_pigtail, staggered_tail):
        with pytest.raises(ValueError, match="index must not be below zero, got -1"):
            staggered(100, 50, -1)


def test_a_cut_goes_up_to_the_next_step_and_its_slack_with_it() -> None:
    assert [round_up(exact, 50, 5).cut_mm for exact in (530, 530.0000000001, 530.1, 534.9, 535)] == [
        530, 530, 535, 535, 535,
    ]  # fmt: skip
    assert round_up(527.2, 50, 5).slack_mm == pytest.approx(52.8)
    assert round_up(527.2, 50, None).cut_mm == 527.2
    with pytest.raises(ValueError, match="step_mm must be above zero, got 0"):
        round_up(527.2, 50, 0)


# ---- bundles --------------------------------------------------------------------------------------------------------
def test_outer_diameters_where_a_table_has_them() -> None:
    pvc, thin, unsaid = outside("AWG", 18, "PVC"), outside("AWG", 18, "cross-linked"), outside("AWG", 18, "")
    assert pvc is not None
    assert thin is not None
    assert unsaid is not None
    # GPT 2.34 within 0.15; GXL 2.34 between TXL 1.99 and SXL 2.70, each within 0.15 (SAE J1128, walls from memory)
    assert (pvc.mm, pvc.least_mm, pvc.most_mm) == pytest.approx((2.34, 2.19, 2.49))
    assert (thin.mm, thin.least_mm, thin.most_mm) == pytest.approx((2.34, 1.84, 2.85))
    assert thin.source == "SAE J1128 GXL, between TXL and SXL"
    assert unsaid.source == "SAE J1128 GXL, between TXL and SXL; insulation not recorded"
    area = outside("mm2", 1.5, "PVC")
    assert area is not None
    assert (area.mm, area.least_mm, area.most_mm) == pytest.approx((2.4, 2.1, 2.7))
    for none in (("AWG", 13, "PVC"), ("AWG", 2, "PVC"), ("mm2", 1.8, ""), ("mm2", None, ""), (None, 1.5, ""),
                 ("mm2", 1.5, "silicone")):  # fmt: skip
        assert outside(*none) is None, none
    # 1.0 is an area of the one table, and 2.0 and 10 are areas too: as gauges they are something else or nothing
    assert outside("AWG", 1, "") is None


def test_a_joint_in_its_sleeve_is_two_wires_and_a_quarter_thick_and_never_thinner_than_they_lie() -> None:
    found = lump([measured(2.0), measured(3.0)])
    # side by side 5.0 mm; 2.25 x 3 = 6.75, from 2 x 3 = 6 to 2.5 x 3 = 7.5
    assert (found.mm, found.least_mm, found.most_mm) == (6.75, 6.0, 7.5)
    four = lump([measured(3.0)] * 4)
    assert four.mm == pytest.approx(3 * (1 + math.sqrt(2)), abs=1e-3)  # four in a square: 7.24
    assert four.least_mm == pytest.approx(3 * (1 + math.sqrt(2)), abs=1e-3)


def test_two_wires_of_unlike_bands_lie_side_by_side() -> None:
    found = thickness([measured(2.0), measured(3.0)])
    assert (found.mm, found.least_mm, found.most_mm, found.rule) == (5, 5, 5, "two wires side by side")
    one = thickness([measured(2.0)])
    assert (one.mm, one.rule, one.formula) == (2, "one wire", "D = d")
    rules = {n: thickness([measured(2.0)] * n).rule for n in (3, 20, 21)}
    assert rules[3] == "smallest circle around 3 equal wires"
    assert rules[20] == "smallest circle around 20 equal wires"
    assert rules[21] == "bundle of more than 20 wires"
    assert thickness([measured(2.0), measured(2.0), measured(2.1)]).rule == "bundle of unequal wires, k 1.15 to 1.45"
    with pytest.raises(ValueError, match="a bundle needs a wire"):
        thickness([])


def test_wires_as_thick_as_each_other_whose_bands_differ_make_the_band_of_the_thinnest_and_the_thickest() -> None:
    """18 AWG is 2.34 mm with PVC, 2.19 at least, and 2.34 mm cross-linked, 1.84 at least and 2.85 at most.

    Three as thin as they may be, 2.19, 1.84 and 1.84 mm, touch each other in a circle by Descartes: bends of 0.913,
    1.087 and 1.087 per mm, 2 sqrt(3.167) - 3.087 = 0.472, a circle 2 / 0.472 = 4.24 mm wide: the band reaches it.
    """
    pvc, linked = outside("AWG", 18, "PVC"), outside("AWG", 18, "cross-linked")
    assert pvc is not None
    assert linked is not None
    for wires in permutations((pvc, linked, linked)):
        found = thickness(wires)
        assert found.mm == pytest.approx(2.34 * (1 + 2 / math.sqrt(3)), rel=1e-4)
        bends = [2 / wire.least_mm for wire in wires]
        touching = 2 * math.sqrt(sum(a * b for a, b in zip(bends, bends[1:] + bends[:1], strict=True))) - sum(bends)
        assert found.least_mm <= 2 / touching
        assert found.least_mm == pytest.approx(1.84 * (1 + 2 / math.sqrt(3)), rel=1e-4)
        assert found.most_mm == pytest.approx(1.45 * math.hypot(2.49, 2.85, 2.85))  # 6.87; 2.1547 x 2.85 is less


def test_bores_and_tape() -> None:
    assert next_size([16, 8, 12], 12) == 12  # just wide enough, in any order
    assert next_size([16, 8, 12], 12.1) == 16
    assert next_size([], 1) is None
    # pi x 12 x 1000 / 19 = 1984.2, twice that with half an overlap
    assert tape_length(12, 1000, 19, 0) == pytest.approx(1984.2, abs=0.05)
    assert tape_length(12, 1000, 19, 0.5) == pytest.approx(3968.4, abs=0.1)
    for overlap in (-0.1, 1, 1.5):
        with pytest.raises(ValueError, match="overlap must be a share from 0 to below 1"):
            tape_length(12, 1000, 19, overlap)
    with pytest.raises(ValueError, match="width_mm must be above zero, got 0"):
        tape_length(12, 1000, 0, 0.5)


# ---- loads, drops, fuses --------------------------------------------------------------------------------------------
def test_a_filament_follows_its_law_and_a_resistance_stays() -> None:
    lamp, heater = LoadCurrent(4.0, 12.0, True), LoadCurrent(4.0, 12.0, False)
    assert lamp.current_at(6) == pytest.approx(4 * 0.5**0.55)
    assert lamp.current_at(-6) == pytest.approx(-4 * 0.5**0.55)
    assert heater.current_at(6) == 2
    # cold it has a twelfth of its hot 3 ohm: 0.25 ohm, below 12^(-1 / 0.45) = 0.4 % of its volts
    assert lamp.siemens_at(0) == pytest.approx(4)
    assert lamp.siemens_at(0.01) == pytest.approx(4)
    # the tangent at 12 V: slope 0.55 / 3 ohm, meeting the law there; near nought and of a resistance the line through 0
    amps, slope = lamp.tangent_at(12)
    assert (slope, amps + slope * 12) == (pytest.approx(0.55 / 3), pytest.approx(4))
    assert lamp.tangent_at(0.3) == (0, pytest.approx(lamp.siemens_at(0.3)))
    assert heater.tangent_at(12) == (0, pytest.approx(1 / 3))
    assert light_part(6, 12) == pytest.approx(0.5**3.4)
    assert light_part(0, 12) == 0
    for volts, full in ((-1, 12), (6, 0), (6, -12)):
        with pytest.raises(ValueError, match="volts must not be below zero"):
            light_part(volts, full)


def test_which_row_of_allowed_drops_a_supply_finds() -> None:
    rows = {volts: drop_limit(volts, "intermittent") for volts in (9.99, 10, 16, 16.01, 19.99, 20, 32, 32.01, 115)}
    assert [None if row is None else row.limit_v for row in rows.values()] == [None, 1, 1, None, None, 2, 2, None, 8]
    ten = drop_limit(12, "non-critical")
    assert ten is not None
    assert (ten.limit_v, ten.note) == (pytest.approx(1.2), "10% of 12 V, out and back; as printed it is a share of the "
                                       "nominal volts")  # fmt: skip


def test_areas_that_are_none_are_refused() -> None:
    for area in (0, -1, math.nan):
        with pytest.raises(ValueError, match="area_mm2 must be above zero"):
            planning_rating(area)
    for pair in ((0, 1), (1, 0), (-1, 1)):
        with pytest.raises(ValueError, match="areas must be above zero"):
            steps_thicker(*pair)
    with pytest.raises(ValueError, match="fuse_a must be above zero"):
        judge_fuse(0, 1.0)
    # two gauge numbers of ASTM B258 are one step: 18 to 14 AWG are two
    thin, thick = (conductor("ASTM B258", gauge).area_mm2 for gauge in (18, 14))
    assert steps_thicker(thick, thin) == pytest.approx(2)
    assert steps_thicker(thin, thick) == pytest.approx(-2)
    assert pytest.approx(92 ** (4 / 39)) == AREA_OF_A_STEP


# ---- splices --------------------------------------------------------------------------------------------------------
def test_splices_exactly_at_a_limit_keep_it() -> None:
    ends = [Keep(0, 0, 40), Keep(300, 300, 40)]
    assert broken([40, 90, 260], ends, [0, 0, 0], 50) == set()
    assert broken([39, 90, 261], ends, [0, 0, 0], 50) == {0, 2}
    assert broken([100, 149], [], [0, 0], 50) == {0, 1}
    assert broken([100, 150], [], [0, 0], 50) == set()
    assert broken([100, 150], [], [60, 60], 50) == {0, 1}  # the sleeves overlap
    assert spread(80, [Keep(0, 0, 40), Keep(80, 80, 40)], [0], 50).places_mm == (40,)
    short = spread(79, [Keep(0, 0, 40), Keep(79, 79, 40)], [0], 50)
    assert (short.places_mm, short.wants_mm, short.apart_mm) == (None, 80, 50)
    assert spread(100, [Keep(0, 100, 0)], [20], 50).wants_mm is None
