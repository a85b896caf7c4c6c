"""Single rules of the ledger on small jobs: settings, distances, starters, returns, heat, links, ends, the car."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from aswired.ledger.record import MayGoIn, State, Weight, Why
from tests.ledger.small import Table, amps, fuse, lead, ledger, load, not_proved, told, worked
from tests.ledger.test_examples import behind_link, heaters, hot, main_feed, output, rated, starter

BY_NAME, MISSING, NEVER = Weight.BY_NAME, Weight.MISSING, Weight.NEVER
KNOWN = "{all members known: yes}"


# ---- settings of changeovers ----------------------------------------------------------------------------------------
def changeover(n: int, one: float, two: float) -> Mapping[str, Table]:
    """Relay n, which leads its own fuse of `one` A or, at rest, that of `two` A to the splice FS1 by 4 mm2."""
    coil = f"k{n} coil"
    return {
        "fuses": {f"F{n}1": fuse(one), f"F{n}2": fuse(two), f"F{n}3": fuse(5)},
        "switches": {
            f"k{n} contact": f"{{between: k{n}.30 k{n}.87, worked by: {coil}}}",
            f"k{n} rest contact": f"{{between: k{n}.30 k{n}.87a, worked by: {coil}, at rest: closed}}",
        },
        "loads": {coil: f"{{between: k{n}.86 k{n}.85, draws: 150 mA, class: coil}}"},
        "wires": {
            f"W{n}1": lead(4.0, f"F{n}1", f"k{n}.87"),
            f"W{n}2": lead(4.0, f"F{n}2", f"k{n}.87a"),
            f"W{n}3": lead(4.0, f"k{n}.30", "FS1"),
            f"W{n}4": lead(0.5, f"F{n}3", f"k{n}.86"),
            f"W{n}5": lead(0.5, f"k{n}.85", "L1"),
        },
    }


def beside(*jobs: Mapping[str, Table]) -> Mapping[str, Table]:
    """Several sets of tables as one."""
    found: dict[str, dict[str, str | None]] = {}
    for tables in jobs:
        for key, table in tables.items():
            found.setdefault(key, {}).update(table)
    return found


def from_splice(mm2: float) -> Mapping[str, Table]:
    """The lamp on FS1 by this size, home by 10 mm2."""
    return {
        "fuses": {"F1": None},
        "splices": {"FS1": KNOWN},
        "wires": {"W1": lead(mm2, "FS1", "lamp.1"), "W2": lead(10.0, "lamp.2", "L1")},
    }


def test_of_a_changeover_the_worse_throw_counts(tmp_path: Path) -> None:
    both = changeover(1, 5, 20), changeover(1, 20, 5)
    for place, throws in enumerate(both):
        found = ledger(tmp_path / str(place), **beside(from_splice(1.5), throws))
        assert told(found, "W1") == {(Why.FEED, NEVER)}
        assert amps(found, "W1", Why.FEED) == (20, 15)  # never 25


def test_every_setting_of_two_changeovers_is_looked_at(tmp_path: Path) -> None:
    # 20 or 5 A by one, 7.5 or 15 A by the other: 35 A at the most, never 47.5
    tables = changeover(1, 20, 5), changeover(2, 7.5, 15)
    assert not_proved(ledger(tmp_path / "thick", **beside(from_splice(6.0), *tables))) == {}
    found = ledger(tmp_path / "thin", **beside(from_splice(4.0), *tables))
    assert amps(found, "W1", Why.FEED) == (35, 30)
    # each relay's own lead has what comes by the other, or what comes by itself: 20 A
    assert not_proved(found) == {"W1": State.AGAINST}


@pytest.mark.parametrize(("rests", "comes"), [("at rest: closed", 20), ("at rest: open", 40)])
def test_two_switches_on_one_pole_are_a_changeover_when_one_rests_closed(
    rests: str, comes: float, tmp_path: Path
) -> None:
    found = ledger(
        tmp_path,
        fuses={"F1": fuse(20), "F2": fuse(20)},
        switches={"up": f"{{between: s.1 s.2, {rests}}}", "down": "{between: s.1 s.3}"},
        wires={
            "W1": lead(4.0, "F1", "s.2"),
            "W2": lead(10.0, "lamp.2", "L1"),
            "W3": lead(4.0, "F2", "s.3"),
            "W4": lead(2.5, "s.1", "lamp.1"),
        },
    )
    assert not_proved(found) == ({} if comes <= 20 else {"W4": State.AGAINST})
    if comes > 20:
        assert amps(found, "W4", Why.FEED) == (comes, 20)


def reversing(rest: str) -> Mapping[str, Table]:
    """A motor between two relays, each of which leads its end to F1 or to L1."""
    coils = {f"k{n} coil": f"{{between: k{n}.86 k{n}.85, draws: 150 mA, class: coil}}" for n in (1, 2)}
    switches = {
        f"k{n} {name}": f"{{between: k{n}.30 k{n}.{to}, worked by: k{n} coil{keys}}}"
        for n in (1, 2)
        for name, to, keys in (("contact", "87", ""), ("rest contact", "87a", rest))
    }
    wires = {
        f"W{n}{place}": lead(mm2, one, two)
        for n in (1, 2)
        for place, (mm2, one, two) in enumerate(
            (
                (1.0, "F1", f"k{n}.87"),
                (1.0, f"k{n}.87a", "L1"),
                (1.0, f"k{n}.30", f"motor.{n}"),
                (0.5, "F2", f"k{n}.86"),
                (0.5, f"k{n}.85", "L1"),
            )
        )
    }
    return {
        "fuses": {"F2": fuse(5)},
        "switches": switches,
        "loads": {"lamp": None, "motor": load("motor", 5, "class: motor"), **coils},
        "wires": {"W1": None, "W2": None, **wires},
    }


def test_a_reversing_motor_is_no_short(tmp_path: Path) -> None:
    assert not_proved(ledger(tmp_path, **reversing(", at rest: closed"))) == {}


def test_two_contacts_that_close_together_from_a_feed_to_ground_are_one(tmp_path: Path) -> None:
    found = ledger(tmp_path, **reversing(""))
    assert {why for wire in ("W10", "W11", "W20", "W21") for why, _ in told(found, wire)} >= {Why.SHORT}
    assert found.fuses["F1"].may is MayGoIn.NO


# ---- outputs --------------------------------------------------------------------------------------------------------
def supplied(*ratings: str) -> Mapping[str, Table]:
    """A module behind fuses of these ratings, one cavity each."""
    numbers = range(1, len(ratings) + 1)
    return {
        "fuses": {f"F{n}": f"{{rating: {rating}, fed: always}}" for n, rating in zip(numbers, ratings, strict=True)},
        "loads": {"unit itself": "{between: unit.31 unit.41, draws: 100 mA, class: electronics}"},
        "wires": {
            **{f"W3{n}": lead(2.5, f"F{n}", f"unit.3{n}") for n in numbers},
            "W4": lead(2.5, "unit.41", "L1"),
        },
    }


def test_what_a_module_is_fed_is_no_more_than_may_come_out_and_never_a_fault(tmp_path: Path) -> None:
    # 10 A in front of it do not say that 10 A come out: 0.75 mm2 is not shown to be safe, and nothing speaks against it
    found = ledger(tmp_path, **output(supply=supplied("10 A")))
    assert told(found, "W1") == {(Why.OUTPUT, MISSING)}
    assert not_proved(found) == {"W1": State.NOT_SHOWN}


def test_two_supplies_of_a_module_add_up(tmp_path: Path) -> None:
    # 5 + 2 = 7 A of 7.5; 5 + 3 = 8
    found = ledger(tmp_path / "one", **output(supply=supplied("5 A", "2 A")))
    assert told(found, "W1") == set()
    found = ledger(tmp_path / "two", **output(supply=supplied("5 A", "3 A")))
    assert told(found, "W1") == {(Why.OUTPUT, MISSING)}


def test_a_supply_of_unknown_rating_lets_anything_out(tmp_path: Path) -> None:
    found = ledger(tmp_path, **output(supply=supplied("unknown")))
    assert (Why.OUTPUT, MISSING) in told(found, "W1")
    assert found.count(State.AGAINST) == 0


# ---- nothing before it ----------------------------------------------------------------------------------------------
def by_stud(bus: str, mm: int) -> Mapping[str, Table]:
    """The battery by 200 mm of 10 mm2 to a stud, and so far on to F1."""
    return {
        "splices": {"stud": f"{{all members known: yes, bus: {bus}}}"},
        "wires": {
            "W3": lead(10.0, "battery+", "stud", "length: 200 mm"),
            "W4": lead(10.0, "stud", "F1.feed", f"length: {mm} mm"),
        },
    }


@pytest.mark.parametrize(
    ("bus", "mm", "state"),
    [
        ("yes", 300, State.PROVED),
        ("yes", 301, State.AGAINST),
        ("no", 100, State.PROVED),  # 200 + 100
        ("no", 101, State.AGAINST),
    ],
)
def test_distance_counts_from_the_first_bus_bar(bus: str, mm: int, state: State, tmp_path: Path) -> None:
    found = ledger(tmp_path, **by_stud(bus, mm))
    assert found.accounts["W4"].state is state
    assert found.accounts["W3"].state is State.PROVED


def test_a_job_may_allow_more_but_no_more_than_a_metre(tmp_path: Path) -> None:
    for mm, state in ((450, State.PROVED), (501, State.AGAINST)):
        tables = main_feed(10.0, f"length: {mm} mm")
        found = ledger(tmp_path / str(mm), head={"limits": "{fuse from source: 500 mm}"}, **tables)
        assert found.accounts["W0"].state is state


def test_no_job_allows_more_than_a_metre(tmp_path: Path) -> None:
    found = ledger(tmp_path, head={"limits": "{fuse from source: 2 m}"}, **main_feed(10.0, "length: 1001 mm"))
    assert found.accounts["W0"].state is State.AGAINST


@pytest.mark.parametrize(("mm2", "weight"), [(6.0, BY_NAME), (4.0, NEVER)])
def test_from_6_mm2_on_a_person_may_let_a_long_main_feed_stand(mm2: float, weight: Weight, tmp_path: Path) -> None:
    found = ledger(tmp_path, **main_feed(mm2, "length: 600 mm"))
    assert told(found, "W0") == {(Why.UNFUSED_LONG, weight)}


def test_a_starter_of_unknown_current_is_not_shown(tmp_path: Path) -> None:
    tables = beside(starter(16.0), {"loads": {"starter": "{between: starter.1 starter.2, class: starter}"}})
    found = ledger(tmp_path, **tables)
    assert told(found, "W3") == {(Why.CURRENT, MISSING)}
    assert found.count(State.AGAINST) == 0


def test_a_lead_that_leaves_the_post_of_a_starter_counts_by_itself_from_there(tmp_path: Path) -> None:
    for mm, reasons in ((300, set()), (301, {(Why.UNFUSED_LONG, NEVER)})):
        tables = beside(starter(16.0), {"wires": {"W5": lead(4.0, "starter.1", "F1.feed", f"length: {mm} mm")}})
        found = ledger(tmp_path / str(mm), **tables)
        assert told(found, "W5") == reasons
        assert told(found, "W3") == set()


def test_words_for_no_fuse_on_purpose_change_nothing_for_another_load(tmp_path: Path) -> None:
    found = ledger(
        tmp_path,
        fuses={"F1": None},
        loads={"lamp": load("lamp", 2, "unfused: it was always so")},
        wires={"W1": lead(1.0, "battery+", "lamp.1", "length: 200 mm")},
    )
    assert (Why.UNFUSED_LOAD, NEVER) in told(found, "W1")


# ---- homeward -------------------------------------------------------------------------------------------------------
def test_of_loads_on_one_return_one_fails_at_a_time(tmp_path: Path) -> None:
    # two of 10 A on 1.0 mm2: 10 A come home if one fails shorted, 12 A with the other on, 4 A by what both take; PVC in
    # the column of 80 C lets 15 A pass (33 CFR 183.425, read)
    second = {
        "fuses": {"F2": fuse(10)},
        "splices": {"FS1": KNOWN},
        "loads": {"second": load("second", 2)},
        "wires": {
            "W2": lead(1.0, "lamp.2", "FS1"),
            "W3": lead(1.0, "F2", "second.1"),
            "W4": lead(1.0, "second.2", "FS1"),
            "W5": lead(1.0, "FS1", "L1", "insulation: PVC"),
        },
    }
    assert not_proved(ledger(tmp_path / "written", **second)) == {}
    second["wires"]["W5"] = lead(1.0, "FS1", "L1")  # the column of 60 C: 10 A
    assert not_proved(ledger(tmp_path / "not written", **second)) == {"W5": State.NOT_SHOWN}


def test_loads_take_no_more_through_a_return_than_their_fuse_lets_through(tmp_path: Path) -> None:
    # 9 A behind 2 A: the fuse opens, and 0.35 mm2 never has more than 2 A of 3
    found = ledger(tmp_path, **rated(2.0, 0.35, 9, back=0.35))
    assert not_proved(found) == {}


def two_ways_home(*lengths: str) -> Mapping[str, Table]:
    """Four heaters of 12 A that come home by two wires of 4 mm2 of these lengths; all other lengths are written."""
    one = heaters({})
    written = {name: (words or "").replace("}", ", length: 500 mm}") for name, words in one["wires"].items()}
    twice = {f"W2{place}": lead(4.0, "FS1", "L1", *keys) for place, keys in enumerate((length,) for length in lengths)}
    cable = {"L1": "{cable: 16 mm2, cable length: 1 m, back to: battery-}"}
    bare = {"ring resistance": "0 mohm", "joint resistance": "0 mohm"}
    return beside(one, {"wires": {**written, **twice}, "grounds": cable, "usual": bare})


def test_what_loads_take_divides_between_two_ways_home(tmp_path: Path) -> None:
    # 48 A by two of 4 mm2 alike: 24 A of 30 in each
    assert not_proved(ledger(tmp_path / "alike", **two_ways_home("length: 1 m", "length: 1 m"))) == {}
    # 1 m beside 3 m: three quarters, 36 A, in the short one
    found = ledger(tmp_path / "other", **two_ways_home("length: 1 m", "length: 3 m"))
    assert not_proved(found) == {"W20": State.AGAINST}
    assert amps(found, "W20", Why.ASKED) == pytest.approx((36, 30))


def test_a_share_that_is_not_known_speaks_against_nothing(tmp_path: Path) -> None:
    # alike they would have 24 A of 30 each; that their lengths are not written is no ground for a stop
    found = ledger(tmp_path, **two_ways_home("length: unknown", "length: unknown"))
    assert found.count(State.AGAINST) == 0
    assert not_proved(found) == {"W20": State.NOT_SHOWN, "W21": State.NOT_SHOWN}


def test_lamps_in_series_are_no_fault(tmp_path: Path) -> None:
    found = ledger(
        tmp_path,
        loads={"second": load("second", 2)},
        wires={"W2": lead(1.0, "lamp.2", "second.1"), "W3": lead(1.0, "second.2", "L1")},
    )
    assert not_proved(found) == {}
    assert found.clean


@pytest.mark.parametrize(
    ("cable", "reasons"),
    [
        ("cable: 1 mm2, ", set()),  # 10 A of 10
        ("cable: 0.75 mm2, ", {(Why.SHORTED_LOAD, NEVER)}),  # 10 A of 7.5, and no public figure above it
        ("", {(Why.CABLE, MISSING)}),
    ],
)
def test_the_cable_of_a_ground_point_is_a_return(cable: str, reasons: set[tuple[Why, Weight]], tmp_path: Path) -> None:
    found = ledger(tmp_path, grounds={"L1": f"{{{cable}back to: battery-}}"})
    assert told(found, "L1") == reasons
    assert set(not_proved(found)) == ({"L1"} if reasons else set())


def test_a_ground_point_that_is_a_stud_on_the_way_is_a_return_too(tmp_path: Path) -> None:
    grounds = {"L1": "{cable: 16 mm2, back to: L2}", "L2": "{cable: 0.75 mm2, back to: battery-}"}
    found = ledger(tmp_path, grounds=grounds)
    assert told(found, "L1") == set()
    assert amps(found, "L2", Why.SHORTED_LOAD) == (10, 7.5)


# ---- heat, metal, links ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("insulation", "celsius", "rating", "reasons"),
    [
        ("PVC", 85, 1, {(Why.FEED, NEVER)}),  # nothing is left of what it carries
        ("PVC", 86, 1, {(Why.HEAT, BY_NAME)}),  # 85 C
        ("PVC", 181, 1, {(Why.HEAT, NEVER)}),  # hotter than silicone bears, the highest of the table: 180 C
        ("cross-linked", 105, 10, set()),  # 125 C: 20 x sqrt(20 / 75) = 10.3
        ("cross-linked", 107, 10, {(Why.FEED, BY_NAME)}),  # 9.8; bound 40 A x sqrt(18 / 95) = 17.4
        ("", 50, 20, set()),
    ],
)
def test_heat_of_a_leg(
    insulation: str, celsius: float, rating: float, reasons: set[tuple[Why, Weight]], tmp_path: Path
) -> None:
    keys = (f"insulation: {insulation}",) if insulation else ()
    assert told(ledger(tmp_path, **hot(rating, celsius, *keys)), "W1") == reasons


def test_copper_clad_aluminium_has_four_fifths(tmp_path: Path) -> None:
    keys = "conductor: copper-clad aluminium"
    assert told(ledger(tmp_path / "20", **rated(20.0, 4.0, 2, keys)), "W1") == set()
    found = ledger(tmp_path / "25", **rated(25.0, 4.0, 2, keys, back=4.0))
    assert amps(found, "W1", Why.FEED) == pytest.approx((25, 24))


@pytest.mark.parametrize(
    ("length", "reasons"),
    [
        ("230 mm", set()),
        ("231 mm", {(Why.LINK_LONG, BY_NAME)}),
        ("unknown", {(Why.LENGTH_OF_LINK, MISSING)}),
    ],
)
def test_a_link_is_short(length: str, reasons: set[tuple[Why, Weight]], tmp_path: Path) -> None:
    found = ledger(tmp_path, **behind_link(2.5, length))
    assert told(found, "W0") == reasons
    assert set(not_proved(found)) == ({"W0"} if reasons else set())


# ---- joined ---------------------------------------------------------------------------------------------------------
def test_a_fuse_whose_two_sides_copper_joins_counts_for_nothing(tmp_path: Path) -> None:
    tables = beside(main_feed(4.0, "length: 250 mm"), {"wires": {"W3": lead(1.0, "F1.feed", "F1", "length: 50 mm")}})
    found = ledger(tmp_path, **tables)
    assert (Why.BRIDGED, NEVER) in told(found, "W3")
    assert (Why.UNFUSED_LOAD, NEVER) in told(found, "W1")  # the lamp has nothing before it now


@pytest.mark.parametrize(
    ("fed", "reasons"),
    [
        ("fed: always", set()),
        ("fed: ignition", {(Why.TWO_KEYS, BY_NAME)}),
        ("fed: unknown", {(Why.POSITION, MISSING)}),
    ],
)
def test_feeds_of_two_positions_of_the_key(fed: str, reasons: set[tuple[Why, Weight]], tmp_path: Path) -> None:
    found = ledger(
        tmp_path,
        fuses={"F2": f"{{rating: 10 A, {fed}}}"},
        splices={"FS1": KNOWN},
        wires={
            "W1": lead(1.0, "F1", "FS1"),
            "W2": lead(2.5, "lamp.2", "L1"),
            "W3": lead(1.0, "F2", "FS1"),
            "W4": lead(2.5, "FS1", "lamp.1"),
        },
    )
    assert told(found, "W1") | told(found, "W3") == reasons
    assert told(found, "W4") == set()


# ---- ends -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("end", ["F9", "F9.feed"])
def test_an_end_that_is_spelled_like_a_fuse_and_stands_in_no_table_is_not_shown(end: str, tmp_path: Path) -> None:
    found = ledger(tmp_path, wires={"W3": lead(1.0, end, "lamp.1")})
    assert told(found, "W3") == {(Why.NO_TABLE, MISSING)}
    assert found.count(State.AGAINST) == 0
    assert found.fuses["F1"].may is MayGoIn.OPEN


def test_a_dead_wire_with_closed_ends_is_proved(tmp_path: Path) -> None:
    plugs = {"wheel": "{behind: speed sensor}", "hub": "{behind: its other half}"}
    found = ledger(tmp_path, plugs=plugs, wires={"W3": lead(0.35, "wheel.1", "hub.1")})
    assert not_proved(found) == {}
    found = ledger(tmp_path / "open", plugs={"wheel": plugs["wheel"]}, wires={"W3": lead(0.35, "wheel.1", "hub.1")})
    assert told(found, "W3") == {(Why.NOTHING_BEHIND, MISSING)}


# ---- the car as a whole ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("draws", "stands"),
    [
        ("10 W at 24 V", True),  # 1.78 of 13.5 V
        ("21 W at 12.8 V", False),
        ("5 W at 10 V", True),  # 0.74
        ("5 W at 10.2 V", False),  # 0.756
        ("2 A", False),  # no volts are written
    ],
)
def test_a_load_that_is_made_for_other_volts(draws: str, stands: bool, tmp_path: Path) -> None:
    of = f"{{between: lamp.1 lamp.2, draws: {draws}, class: lamp, light: LED}}"
    found = ledger(tmp_path, loads={"lamp": of})
    assert [(reason.why, reason.weight) for reason in found.car] == [(Why.OTHER_VOLTS, BY_NAME)] * stands
    assert not_proved(found) == {}
    assert found.clean is not stands
    assert found.fuses["F1"].may is (MayGoIn.NO if stands else MayGoIn.YES)


def test_what_is_let_stand_of_the_whole_car_puts_every_fuse_on_a_persons_word(tmp_path: Path) -> None:
    of = "{between: lamp.1 lamp.2, draws: 5 W at 24 V, class: lamp, light: LED}"
    accepted = "[{finding: LOD08, of: lamp, by: AK, why: a resistor is in the lamp}]"
    found = ledger(tmp_path, head={"accepted": accepted}, loads={"lamp": of})
    assert [reason.let_stand_by for reason in found.car] == ["AK"]
    assert (found.fuses["F1"].may, found.fuses["F1"].by) == (MayGoIn.BY_NAME, ("AK",))


BY_BODY: Mapping[str, Table] = {"grounds": {"L1": "{conducts: yes}"}}


def through_body(strap: str | None) -> Table:
    return {"body returns": "yes", "body strap": strap}


def test_returns_through_the_body_want_its_own_cable(tmp_path: Path) -> None:
    found = ledger(tmp_path / "without", head=through_body(None), **BY_BODY)
    assert [(reason.why, reason.weight) for reason in found.car] == [(Why.BODY, MISSING)]
    assert not found.clean
    found = ledger(tmp_path / "with", head=through_body("{cable: 16 mm2}"), **BY_BODY)
    assert found.car == ()
    assert found.clean


def test_a_strap_is_a_return_too(tmp_path: Path) -> None:
    # 10 A of 5 in 0.5 mm2 if the lamp fails shorted
    found = ledger(tmp_path, head=through_body("{cable: 0.5 mm2}"), **BY_BODY)
    assert any(reason.why is Why.SHORTED_LOAD and reason.weight is NEVER for reason in found.car)
    assert found.fuses["F1"].may is MayGoIn.NO


def test_a_fuse_whose_loads_come_home_by_a_strap_that_is_not_written_is_open(tmp_path: Path) -> None:
    found = ledger(tmp_path, head=through_body(None), **BY_BODY)
    assert found.fuses["F1"].may is MayGoIn.OPEN


# ---- the plan -------------------------------------------------------------------------------------------------------
def test_what_a_planned_row_would_leave_stands_in_the_ledger_of_the_plan_alone(tmp_path: Path) -> None:
    row = "{id: C1, kind: remove, wires: {W1: {F1: uncapped, lamp.1: pulled}}}"
    both = worked(tmp_path, row)
    assert not_proved(both.ledger) == {}
    assert (Why.BARE, NEVER) in told(both.planned_ledger, "W1")


def test_a_ground_point_with_the_name_of_a_wire_is_counted_beside_it(tmp_path: Path) -> None:
    found = ledger(
        tmp_path,
        grounds={"W9": "{cable: 16 mm2, back to: battery-}", "L1": None},
        wires={"W2": lead(1.0, "lamp.2", "W9"), "W9": lead(1.0, "F1", "lamp.1"), "W1": None},
    )
    assert sorted(account.ground for account in found.accounts.values()) == [False, False, True]
