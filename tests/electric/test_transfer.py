"""What each load's current costs itself and the others, on networks small enough to be worked out by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.network.copper import Part
from aswired.network.grid import Grid
from aswired.network.transfer import FEED, RETURN, SIDES, UnitSolutions
from aswired.physics.figure import Missing
from tests.findings.jobs import copper_alone, figures, proved, work


def test_a_part_that_is_not_recorded_is_not_recorded_at_its_worst_either() -> None:
    unread = Part.lacks(Missing("size", "W1", "W1 from F1 to lamp.1"))
    assert [unread.as_input(worst=worst).value for worst in (False, True)] == [None, None]
    known = Part("W1", 10.0, "measured", worst=12.0)
    assert [known.as_input(worst=worst).value for worst in (False, True)] == [10.0, 12.0]


def transfer(folder: Path, text: str) -> UnitSolutions:
    worked = work(folder, proved(text))
    return UnitSolutions(
        Grid(worked.job, worked.shown), {name: worked.circuits[name] for name in worked.job.kept_loads}
    )


# ISO 6722-1 (from memory): 1.0 mm2 18.5, 1.5 mm2 12.7, 2.5 mm2 7.6, 10 mm2 1.82 mohm/m.
# By hand: W1 37, W2 37, W3 37, W4 25.4, W5 18.5, cable 1.82 mohm.
SHARED = """
    job: Shared return
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}, F2: {rating: 10 A, fed: always}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    splices: {FS9: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 2 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: FS9, length: 2 m}
      W3: {size: 1.0 mm2, from: FS9, to: L1, length: 2 m}
      W4: {size: 1.5 mm2, from: F2, to: horn.1, length: 2 m}
      W5: {size: 1.0 mm2, from: horn.2, to: FS9, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp}
      horn: {between: horn.1 horn.2, draws: 4 A, class: horn}
"""
COPPER = copper_alone(SHARED)
LAMP, HORN, BOTH = {"lamp": 2.0}, {"horn": 4.0}, {"lamp": 2.0, "horn": 4.0}


def test_a_load_loses_what_the_currents_on_its_way_cost(tmp_path: Path) -> None:
    found = transfer(tmp_path, COPPER)
    assert found.stated == BOTH
    assert found.lost("lamp", FEED, BOTH).volts == pytest.approx(2 * 0.037)
    assert found.lost("lamp", RETURN, LAMP).volts == pytest.approx(2 * (0.037 + 0.037 + 0.00182))
    assert found.lost("lamp", RETURN, BOTH).volts == pytest.approx(2 * 0.037 + 6 * 0.03882)
    assert found.lost("horn", RETURN, BOTH).volts == pytest.approx(4 * 0.0185 + 6 * 0.03882)
    # a load that is off is lifted by what the other sends through the shared part
    assert found.lost("lamp", RETURN, HORN).volts == pytest.approx(4 * 0.03882)
    assert found.lost("lamp", FEED, HORN).volts == 0
    assert found.lost("lamp", RETURN, {}).volts == 0


def test_what_carries_a_load_and_what_moves_it(tmp_path: Path) -> None:
    found = transfer(tmp_path, COPPER)
    runs = (found.grid.runs[index] for index in found.units["lamp", RETURN].shares)
    assert {frozenset((run.a, run.b)) for run in runs} == {
        frozenset(("lamp.2", "FS9")), frozenset(("FS9", "L1")), frozenset(("L1", "battery-")),
    }  # fmt: skip
    assert [name for name, _ in found.takers[found.grid.run_of["cable L1 to battery-"]]] == ["lamp", "horn"]
    assert found.through("cable L1 to battery-", BOTH).volts == pytest.approx(6)
    assert found.through("fuse F1", BOTH).volts == pytest.approx(2)
    assert found.through("fuse F9", BOTH).missing_words == ("fuse F9 is not in the network",)


# ---- the meter from node to node ------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("red", "black", "on", "mv"),
    [
        ("lamp.2", "horn.2", BOTH, 0.0),  # 2 x 37 on one side, 4 x 18.5 on the other: nothing between them
        ("lamp.2", "horn.2", LAMP, 74.0),
        ("horn.2", "lamp.2", HORN, 74.0),
        ("lamp.2", "FS9", BOTH, 74.0),
        ("FS9", "battery-", BOTH, 232.92),  # 6 x (37 + 1.82)
        ("battery-", "FS9", BOTH, 232.92),  # the meter's leads changed over
        ("lamp.2", "battery-", HORN, 155.28),  # a lamp that is off stands as high as the splice: 4 x 38.82
        ("L1", "battery-", BOTH, 10.92),
        ("F1", "lamp.1", BOTH, 74.0),
        ("lamp.1", "horn.1", BOTH, 27.6),  # 2 x 37 below one source, 4 x 25.4 below the other
        ("FS9", "FS9", BOTH, 0.0),
    ],
)
def test_volts_from_one_node_to_another(
    red: str, black: str, on: dict[str, float | None], mv: float, tmp_path: Path
) -> None:
    assert transfer(tmp_path, COPPER).between(red, black, on).volts == pytest.approx(mv / 1000, abs=1e-12)


def test_a_node_that_nothing_leads_to_has_no_volts(tmp_path: Path) -> None:
    found = transfer(tmp_path, COPPER).between("lamp.2", "elsewhere.1", BOTH)
    assert (found.volts, found.missing_words) == (None, ("a way from lamp.2 to elsewhere.1",))


@pytest.mark.parametrize(
    ("fact", "instead", "named", "known"),
    [
        ("to: L1, length: 2 m", "to: L1", "W3", ("lamp.2", "horn.2")),
        ("to: L1, length: 2 m", "to: L1", "W3", ("lamp.2", "FS9")),
        ("to: L1, length: 2 m", "to: L1", "W3", ("L1", "battery-")),
        ("cable: 10 mm2, ", "", "cable L1 to battery-", ("FS9", "L1")),
        ("draws: 4 A", "draws: unknown", "current of horn", ("lamp.2", "FS9")),
    ],
)
def test_what_is_not_recorded_spoils_only_the_volts_it_lies_between(
    fact: str, instead: str, named: str, known: tuple[str, str], tmp_path: Path
) -> None:
    assert COPPER.count(fact) == 1
    found = transfer(tmp_path / "without", COPPER.replace(fact, instead))
    on = found.stated
    unknown = found.between("lamp.2", "battery-", on)
    assert unknown.volts is None
    assert any(named in words for words in unknown.missing_words)
    whole = transfer(tmp_path / "whole", COPPER).between(*known, BOTH).volts
    assert whole is not None
    assert found.between(*known, on).volts == pytest.approx(whole, abs=1e-12)


# ---- current that divides -------------------------------------------------------------------------------------------
# FS9 to L1 by W3, 37 mohm, and by W6, 3 m of 2.5 mm2, 22.8 mohm: 22.8 / 59.8 of a current takes W3
TWO_WAYS = COPPER.replace("    loads:", "      W6: {size: 2.5 mm2, from: FS9, to: L1, length: 3 m}\n    loads:")


def test_current_divides_by_conductance(tmp_path: Path) -> None:
    found = transfer(tmp_path, TWO_WAYS)
    (w3,) = [branch for branch in found.grid.branches if branch.name.startswith("W3")]
    assert found.through(w3, BOTH).volts == pytest.approx(6 * 22.8 / 59.8)
    both_ways = 37 * 22.8 / 59.8
    assert found.lost("lamp", RETURN, BOTH).volts == pytest.approx((2 * 37 + 6 * (both_ways + 1.82)) / 1000)
    assert found.between("FS9", "L1", BOTH).volts == pytest.approx(6 * both_ways / 1000)


def test_a_share_that_hangs_on_something_not_recorded_is_not_told(tmp_path: Path) -> None:
    found = transfer(tmp_path, TWO_WAYS.replace("to: L1, length: 3 m", "to: L1"))
    (w3,) = [branch for branch in found.grid.branches if branch.name.startswith("W3")]
    share = found.through(w3, BOTH)
    assert share.volts is None
    assert any("W6" in words for words in share.missing_words)
    assert found.through("cable L1 to battery-", BOTH).volts == pytest.approx(6)  # all of it, whichever way it came
    assert found.lost("lamp", RETURN, BOTH).volts is None
    assert found.between("lamp.2", "FS9", BOTH).volts == pytest.approx(0.074)


# ---- bands ----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("band", "own", "shared"),
    [
        # lamp's cavity, W2, half of FS9; the other half, W3, ring, cable and its ring. Estimates: cavity 3 to 5, joint
        # 0.2 to 2, ring 1 to 2 mohm; copper within a tenth
        ("mohm", 4 + 37 + 0.5, 0.5 + 37 + 1.5 + 1.82 + 1.5),
        ("low", 3 + 33.3 + 0.1, 0.1 + 33.3 + 1 + 1.638 + 1),
        ("high", 5 + 40.7 + 1, 1 + 40.7 + 2 + 2.002 + 2),
        ("worst", 5 + 40.7 + 1, 1 + 40.7 + 2 + 2.002 + 2),  # nothing lies in a hot leg
    ],
)
def test_a_drop_has_a_band(band: str, own: float, shared: float, tmp_path: Path) -> None:
    found = transfer(tmp_path, SHARED)
    assert found.banded("lamp", RETURN, LAMP, band) == pytest.approx(2 * (own + shared) / 1000)
    assert found.banded("lamp", RETURN, BOTH, band) == pytest.approx((2 * own + 6 * shared) / 1000)
    over = found.probe("lamp.2", "battery-")
    assert over is not None
    assert abs(found.banded_over(over, BOTH, band)) == pytest.approx((2 * own + 6 * shared) / 1000)


def test_every_band_is_above_nought_and_in_its_order(tmp_path: Path) -> None:
    found = transfer(tmp_path, SHARED)
    assert set(found.circuits) == {"lamp", "horn"}
    for name in found.circuits:
        for side in SIDES:
            low, middle, high, worst = (found.banded(name, side, BOTH, b) for b in ("low", "mohm", "high", "worst"))
            assert 0 < low < middle < high <= worst
            assert middle == found.lost(name, side, BOTH).volts


# ---- which are on together ------------------------------------------------------------------------------------------
# Each load by its own fuse and 1 m of 1.0 mm2 (18.5 mohm) to a ground; L1 has 1.82 mohm, L2 18.2 mohm of cable.
MANY = copper_alone("""
    job: Never on together
    body returns: no
    fuses: {F1: {rating: 10 A}, F2: {rating: 20 A}, F3: {rating: 20 A}, F4: {rating: 30 A}}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 10 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
      W3: {size: 1.0 mm2, from: F2, to: fan.1, length: 1 m}
      W4: {size: 1.0 mm2, from: fan.2, to: FAN, length: 1 m}
      W5: {size: 1.0 mm2, from: F3, to: heater.1, length: 1 m}
      W6: {size: 1.0 mm2, from: heater.2, to: L1, length: 1 m}
      W7: {size: 1.0 mm2, from: F4, to: starter.1, length: 1 m}
      W8: {size: 1.0 mm2, from: starter.2, to: L1, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp}
      fan: {between: fan.1 fan.2, draws: 10 A, class: motor, not with: heater}
      heater: {between: heater.1 heater.2, draws: 8 A, class: heater}
      starter: {between: starter.1 starter.2, draws: 100 A, class: starter}
""")
ON_ONE, ON_TWO = (MANY.replace("to: FAN", f"to: {ground}") for ground in ("L1", "L2"))


def test_together_leaves_out_starters_and_what_takes_less_of_two_that_are_never_on_together(tmp_path: Path) -> None:
    assert transfer(tmp_path / "fan", ON_ONE).together() == {"lamp": 2, "fan": 10}
    more = ON_ONE.replace("draws: 8 A", "draws: 11 A")
    assert transfer(tmp_path / "heater", more).together() == {"lamp": 2, "heater": 11}
    # it is enough that one of the two says so
    other = ON_ONE.replace(", not with: heater", "").replace("class: heater}", "class: heater, not with: [fan]}")
    assert transfer(tmp_path / "said by the other", other).together() == {"lamp": 2, "fan": 10}
    assert transfer(tmp_path / "free", ON_ONE.replace(", not with: heater", "")).together() == {
        "lamp": 2, "fan": 10, "heater": 8,
    }  # fmt: skip


@pytest.mark.parametrize(("fan", "on"), [("9 A", {"lamp", "heater"}), ("11 A", {"fan"})])
def test_two_small_loads_may_take_more_than_the_one_that_bars_both(fan: str, on: set[str], tmp_path: Path) -> None:
    text = ON_ONE.replace("draws: 10 A", f"draws: {fan}").replace("not with: heater", "not with: [heater, lamp]")
    assert set(transfer(tmp_path, text).together()) == on  # lamp and heater take 10 A


def test_at_worst_those_are_on_that_cost_a_load_most_not_those_that_take_most(tmp_path: Path) -> None:
    near, far = transfer(tmp_path / "near", ON_ONE), transfer(tmp_path / "far", ON_TWO)
    assert near.worst("lamp") == {"lamp": 2, "fan": 10}
    # on a ground of its own the fan costs the lamp nothing: the heater's 8 A do
    assert far.worst("lamp") == {"lamp": 2, "heater": 8}
    assert far.together() == {"lamp": 2, "fan": 10}
    assert near.worst("heater") == {"lamp": 2, "heater": 8}
    assert near.worst("fan") == {"lamp": 2, "fan": 10}
    assert near.worst("starter") == {"lamp": 2, "fan": 10, "starter": 100}


def test_the_figures_are_of_those_loads(tmp_path: Path) -> None:
    value = figures(work(tmp_path, proved(ON_TWO)))
    assert value["lamp.return.together"] == pytest.approx(2 * (18.5 + 1.82) / 1000)  # the fan is on, on L2
    assert value["lamp.return.worst"] == pytest.approx((2 * 18.5 + 10 * 1.82) * 1.1 / 1000)
    assert value["lamp.drop.worst"] == pytest.approx((2 * 18.5 + 2 * 18.5 + 10 * 1.82) * 1.1 / 1000)
    # the heater is never on with all the others: it is told with those it can be on with
    assert value["heater.return.together"] == pytest.approx((8 * 18.5 + 10 * 1.82) / 1000)
    assert value["fan.return.worst"] == pytest.approx(10 * (18.5 + 18.2) * 1.1 / 1000)
    assert value["starter.return.alone"] == pytest.approx(100 * (18.5 + 1.82) / 1000)
    # lamp and heater share the starter's ground; the fan does not, and would bar the heater
    assert value["starter.return.worst"] == pytest.approx((100 * 18.5 + 110 * 1.82) * 1.1 / 1000)


def test_a_current_that_is_not_recorded_is_named_though_the_load_is_only_on_with_this_one(tmp_path: Path) -> None:
    found = transfer(tmp_path, ON_ONE.replace("draws: 2 A", "draws: unknown"))
    assert found.together() == {"lamp": None, "fan": 10}
    assert found.lost("fan", RETURN, found.together()).missing_words == ("current of lamp",)
    assert found.lost("fan", FEED, found.together()).volts == pytest.approx(10 * 0.0185)
    assert found.lost("lamp", FEED, found.together()).missing_words == ("current of lamp",)


# ---- ways back ------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("body", ["unknown", "yes"])
def test_a_way_back_through_the_body_is_named_and_not_taken_for_nought(body: str, tmp_path: Path) -> None:
    text = COPPER.replace("body returns: no", f"body returns: {body}").replace(
        "{back to: battery-, cable: 10 mm2, cable length: 1 m}", "{stud: M6}"
    )
    found = transfer(tmp_path, text)
    back = found.lost("lamp", RETURN, BOTH)
    assert (back.volts, back.missing_words) == (None, ("the way back from L1: not recorded",))
    assert found.between("L1", "battery-", BOTH).missing_words == ("the way back from L1: not recorded",)
    assert found.between("lamp.2", "L1", BOTH).volts == pytest.approx(2 * 0.037 + 6 * 0.037)
    assert found.lost("lamp", FEED, BOTH).volts == pytest.approx(0.074)


def test_a_load_returns_through_a_module_that_is_ground_inside(tmp_path: Path) -> None:
    text = """
    job: Control unit
    fuses: {F9: {rating: 10 A, fed: always}}
    modules: {unit: {out: {14: switched feed}, ground: [31]}}
    wires:
      W1: {size: 1.0 mm2, from: unit.14, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: unit.31, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    """
    found = transfer(tmp_path, text)
    for side in SIDES:  # a cavity at either end of a metre of 1.0 mm2, and nothing inside the module
        assert found.lost("lamp", side, LAMP).volts == pytest.approx(2 * (4 + 18.5 + 4) / 1000)
    assert found.through("module unit.31", LAMP).volts == pytest.approx(2)


def test_a_side_that_leads_nowhere_draws_nothing_and_says_why(tmp_path: Path) -> None:
    text = COPPER.replace("      W5: {size: 1.0 mm2, from: horn.2, to: FS9, length: 1 m}\n", "")
    found = transfer(tmp_path, text)
    lost = found.lost("horn", RETURN, BOTH)
    assert lost.volts is None
    assert lost.missing_words[0].startswith("return not examined: ")
    assert found.lost("lamp", RETURN, BOTH).volts == pytest.approx(2 * (37 + 37 + 1.82) / 1000)
    assert found.lost("horn", FEED, BOTH).volts == pytest.approx(4 * 0.0254)


# ---- measured -------------------------------------------------------------------------------------------------------
def test_what_was_measured_moves_every_load_behind_it(tmp_path: Path) -> None:
    readings = """
    readings:
      - {id: R1, red: L1, black: battery-, read: 0.03 V, through: 6 A, on: 2031-05-09}
      - {id: R2, red: F1.feed, black: F1, read: 0.011 ohm, on: 2031-05-08}
      - {id: R3, red: L1, black: battery-, read: 0.009 ohm, on: 2031-05-01}
    """
    found = transfer(tmp_path, COPPER.rstrip(" ") + readings.lstrip("\n"))
    # the cable 30 mV / 6 A = 5 mohm on the last day, in place of 1.82; the fuse 11 mohm in place of nought
    assert found.lost("lamp", RETURN, BOTH).volts == pytest.approx((2 * 37 + 6 * (37 + 5)) / 1000)
    assert found.lost("horn", RETURN, BOTH).volts == pytest.approx((4 * 18.5 + 6 * (37 + 5)) / 1000)
    assert found.lost("lamp", FEED, BOTH).volts == pytest.approx(2 * (11 + 37) / 1000)
    assert found.lost("horn", FEED, BOTH).volts == pytest.approx(4 * 25.4 / 1000)
