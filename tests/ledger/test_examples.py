"""The table of examples of the ledger: small jobs, and what is shown of each of their wires.

Each job is the sound one of `small` with some of its parts exchanged. What is wanted was worked by hand from the rules
and from what copper is planned for [A]: 0.5 mm2 5, 0.75 7.5, 1.0 10, 1.5 15, 2.5 20, 4 30, 10 60, 16 85, 25 115.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf
from pathlib import Path

import pytest

from aswired.ledger.record import MayGoIn, State, Weight, Why
from tests.ledger.small import Table, amps, fuse, lead, ledger, load, not_proved, told

BY_NAME, MISSING, NEVER = Weight.BY_NAME, Weight.MISSING, Weight.NEVER
Reasons = Mapping[str, set[tuple[Why, Weight]]]
Amps = Mapping[tuple[str, Why], tuple[float, float]]


@dataclass(frozen=True)
class Example:
    """A job and all that is told of it: what no reason is named for is proved."""

    what: str
    tables: Mapping[str, Table]
    reasons: Reasons = field(default_factory=dict)
    amps: Amps = field(default_factory=dict)
    rows: tuple[str, ...] = ()
    fuses: Mapping[str, MayGoIn] = field(default_factory=dict)


def against(why: Why, weight: Weight, *wires: str) -> Reasons:
    return {wire: {(why, weight)} for wire in wires}


def not_shown(why: Why, *wires: str) -> Reasons:
    return against(why, MISSING, *wires)


# ---- fuses side by side, rings, changeovers -------------------------------------------------------------------------
def two_fuses(mm2: float) -> Mapping[str, Table]:
    """10 A and 10 A, each by a lead of 2.5 mm2 to one splice, and from there on to the lamp."""
    return {
        "fuses": {"F1": fuse(10), "F2": fuse(10)},
        "splices": {"FS1": "{all members known: yes}"},
        "wires": {
            "W1": lead(2.5, "F1", "FS1"),
            "W2": lead(2.5, "lamp.2", "L1"),
            "W3": lead(2.5, "F2", "FS1"),
            "W4": lead(mm2, "FS1", "lamp.1"),
        },
    }


SWITCHED = {
    "W1": lead(2.5, "F1", "k1.87"),
    "W2": lead(2.5, "lamp.2", "L1"),
    "W3": lead(2.5, "F2", "k1.87a"),
    "W4": lead(2.5, "k1.30", "lamp.1"),
}
CHANGEOVER = {
    "fuses": {"F1": fuse(20), "F2": fuse(20), "F3": fuse(5)},
    "switches": {
        "k1 contact": "{between: k1.30 k1.87, worked by: k1 coil}",
        "k1 rest contact": "{between: k1.30 k1.87a, worked by: k1 coil, at rest: closed}",
    },
    "loads": {"k1 coil": "{between: k1.86 k1.85, draws: 150 mA, class: coil}"},
    "wires": {**SWITCHED, "W5": lead(0.5, "F3", "k1.86"), "W6": lead(0.5, "k1.85", "L1")},
}
PLAIN_SWITCHES = {
    "fuses": {"F1": fuse(20), "F2": fuse(20)},
    "switches": {"one": "{between: k1.30 k1.87}", "two": "{between: k1.30 k1.87a}"},
    "wires": SWITCHED,
}
RING = {
    "fuses": {"F1": fuse(15)},
    "wires": {
        "W1": lead(1.5, "F1", "lamp.1"),
        "W2": lead(1.5, "lamp.2", "L1"),
        "W3": lead(1.5, "F1", "lamp.1"),
    },
}
SIDE_BY_SIDE = [
    Example("10 A, 1.0 mm2 to a lamp and back", {}, fuses={"F1": MayGoIn.YES}),
    Example("two 10 A then 2.5 mm2", two_fuses(2.5)),
    # 10 + 10 = 20 A of 15; the lead of one fuse has 10 A from its own and 10 A from the other, never both through it;
    # 1.5 mm2 whose insulation is not written is bound to 15 A. If the lamp fails shorted 20 A go home, 2.5 mm2 has 20.
    Example(
        "two 10 A then 1.5 mm2",
        two_fuses(1.5),
        against(Why.FEED, NEVER, "W4"),
        {("W4", Why.FEED): (20, 15)},
        fuses={"F1": MayGoIn.NO, "F2": MayGoIn.NO},
    ),
    Example("two 20 A by a changeover relay", CHANGEOVER),
    # both closed: 40 A in what both feed, and home if the lamp fails shorted; each lead has one fuse on either side
    Example(
        "two 20 A by two plain switches",
        PLAIN_SWITCHES,
        {**against(Why.FEED, NEVER, "W4"), **against(Why.SHORTED_LOAD, NEVER, "W2")},
        {("W4", Why.FEED): (40, 20), ("W2", Why.SHORTED_LOAD): (40, 20)},
    ),
    Example("15 A, two 1.5 mm2 in a ring", RING),
]


# ---- nothing before it ----------------------------------------------------------------------------------------------
def main_feed(mm2: float, *keys: str, rating: float = 10.0, back: float = 1.0) -> Mapping[str, Table]:
    """A wire from the battery to F1, and 1.0 mm2 or more behind it."""
    return {
        "fuses": {"F1": fuse(rating)},
        "wires": {
            "W0": lead(mm2, "battery+", "F1.feed", *keys),
            "W1": lead(back, "F1", "lamp.1"),
            "W2": lead(back, "lamp.2", "L1"),
        },
    }


BARS = {
    "splices": {f"B{bar}": "{all members known: yes, bus: yes}" for bar in (1, 2, 3)},
    "wires": {
        "W3": lead(10.0, "battery+", "B1", "length: 250 mm"),
        "W4": lead(10.0, "B1", "B2", "length: 250 mm"),
        "W5": lead(10.0, "B2", "B3", "length: 250 mm"),
        "W6": lead(10.0, "B3", "F1.feed", "length: 50 mm"),
    },
}


def starter(mm2: float) -> Mapping[str, Table]:
    """A starter of 150 A on the battery, its way home 16 mm2."""
    return {
        "loads": {"starter": load("starter", 150, "class: starter")},
        "wires": {
            "W3": lead(mm2, "battery+", "starter.1", "length: 1.8 m"),
            "W4": lead(16.0, "starter.2", "battery-"),
        },
    }


UNFUSED = [
    Example("battery 4 mm2 250 mm to F1", main_feed(4.0, "length: 250 mm")),
    Example("its length not written", main_feed(4.0), not_shown(Why.LENGTH, "W0"), fuses={"F1": MayGoIn.OPEN}),
    Example("25 mm2 2.4 m to F1", main_feed(25.0, "length: 2.4 m"), against(Why.UNFUSED_LONG, BY_NAME, "W0")),
    Example("2.5 mm2 2.4 m to F1", main_feed(2.5, "length: 2.4 m"), against(Why.UNFUSED_LONG, NEVER, "W0")),
    # 30 A behind 0.5 mm2, which has 5 A and no public figure above it; the lamp's own 2 A it bears
    Example(
        "0.5 mm2 250 mm to F1 30 A",
        main_feed(0.5, "length: 250 mm", rating=30, back=4.0),
        against(Why.BEHIND, NEVER, "W0"),
        {("W0", Why.BEHIND): (30, 5)},
    ),
    # counted from the first bar: 250, 500 and 550 mm of 300; the wire to the first bar has its 250 from the battery
    Example("three bus bars", BARS, against(Why.UNFUSED_LONG, BY_NAME, "W5", "W6")),
    # 15 A/mm2 for 30 s: sqrt(40 / (0.0059 x 30)) = 15.03, so 240.5 A on 16 mm2 and 90.2 A on 6
    Example("starter 150 A on 16 mm2", starter(16.0)),
    Example("starter 150 A on 6 mm2", starter(6.0), against(Why.STARTER, NEVER, "W3")),
]


# ---- homeward -------------------------------------------------------------------------------------------------------
def heaters(not_with: Mapping[int, str]) -> Mapping[str, Table]:
    """Four heaters of 12 A, each behind 15 A and 1.5 mm2 there and back, home by one wire of 4 mm2."""
    each = (1, 2, 3, 4)
    return {
        "fuses": {f"F{n}": fuse(15) for n in each},
        "splices": {"FS1": "{all members known: yes}"},
        "loads": {
            "lamp": None,
            **{f"heater {n}": load(f"heater{n}", 12, *([not_with[n]] if n in not_with else [])) for n in each},
        },
        "wires": {
            **{f"W{n}": lead(1.5, f"F{n}", f"heater{n}.1") for n in each},
            **{f"W1{n}": lead(1.5, f"heater{n}.2", "FS1") for n in each},
            "W20": lead(4.0, "FS1", "L1"),
        },
    }


APART = {1: "not with: [heater 3, heater 4]", 2: "not with: [heater 3, heater 4]"}
THIN_RETURN = {
    "fuses": {"F1": fuse(30)},
    "loads": {"lamp": load("lamp", 5)},
    "wires": {"W1": lead(4.0, "F1", "lamp.1"), "W2": lead(1.5, "lamp.2", "L1")},
}
HOMEWARD = [
    # 4 x 12 = 48 A of 30, and 4 mm2 whose insulation is not written is bound to 30
    Example(
        "four heaters on one return",
        heaters({}),
        against(Why.ASKED, NEVER, "W20"),
        {("W20", Why.ASKED): (48, 30)},
    ),
    Example("two of them at a time", heaters(APART)),  # 24 A of 30
    Example(
        "return thinner than the fuse wants",
        THIN_RETURN,
        against(Why.SHORTED_LOAD, NEVER, "W2"),
        {("W2", Why.SHORTED_LOAD): (30, 15)},
    ),
]


# ---- heat, metal, links ---------------------------------------------------------------------------------------------
def hot(rating: float, celsius: float, *keys: str) -> Mapping[str, Table]:
    """2.5 mm2 from the fuse box through one leg of this heat to the lamp; its way home is recorded nowhere."""
    return {
        "landmarks": {"dash": "fuse box", "nose": "back of the plug"},
        "plugs": {"lamp": "{ways: 2, at: nose}"},
        "fuses": {"F1": fuse(rating, "in: dash")},
        "wires": {"W1": lead(2.5, "F1", "lamp.1", *keys), "W2": lead(2.5, "lamp.2", "L1")},
        "route": {"leg": f"{{from: dash, to: nose, length: 900 mm, hottest: {celsius:g} C}}"},
    }


def aluminium(rating: float) -> Mapping[str, Table]:
    """A feed of 4 mm2 aluminium, the return 4 mm2 copper."""
    feed = lead(4.0, "F1", "lamp.1", "conductor: aluminium")
    return {"fuses": {"F1": fuse(rating)}, "wires": {"W1": feed, "W2": lead(4.0, "lamp.2", "L1")}}


def behind_link(mm2: float, length: str = "200 mm") -> Mapping[str, Table]:
    """A fusible link of 1.0 mm2 from the battery to a stud, from there to the lamp and home by 2.5 mm2."""
    return {
        "fuses": {"F1": None},
        "splices": {"stud": "{all members known: yes}"},
        "wires": {
            "W0": lead(1.0, "battery+", "stud", f"length: {length}", "special: fusible link", "protects: [W1]"),
            "W1": lead(mm2, "stud", "lamp.1"),
            "W2": lead(2.5, "lamp.2", "L1"),
        },
    }


CARRIES = [
    # PVC bears 85 C: 20 x sqrt((85 - 70) / (85 - 50)) = 13.09
    Example("2.5 mm2 PVC at 70 C behind 10 A", hot(10, 70, "insulation: PVC")),
    # bound by the column of 85 C 25 A x sqrt((85 - 70) / (85 - 30)) = 13.06, below 13.09: not even by name
    Example(
        "2.5 mm2 PVC at 70 C behind 15 A",
        hot(15, 70, "insulation: PVC"),
        against(Why.FEED, NEVER, "W1"),
        {("W1", Why.FEED): (15, 13.0931)},
    ),
    Example("insulation not written at 70 C", hot(10, 70), not_shown(Why.INSULATION, "W1")),
    Example("insulation not written at 45 C", hot(10, 45)),
    # 30 x 0.78 = 23.4; whose insulation is not written it is bound to the same
    Example("aluminium 4 mm2 behind 20 A", aluminium(20)),
    Example(
        "aluminium 4 mm2 behind 25 A",
        aluminium(25),
        against(Why.FEED, NEVER, "W1"),
        {("W1", Why.FEED): (25, 23.4)},
    ),
    # 1.0 x 2.53 = 2.53 mm2: 20 A
    Example("link of 1.0 mm2 before 2.5", behind_link(2.5)),
    Example(
        "link of 1.0 mm2 before 1.5",
        behind_link(1.5),
        against(Why.FEED, NEVER, "W1"),
        {("W1", Why.FEED): (20, 15)},
    ),
]


# ---- outputs, sources, switches -------------------------------------------------------------------------------------
def output(*keys: str, supply: Mapping[str, Table] | None = None) -> Mapping[str, Table]:
    """A lamp on an output of a module by 0.75 mm2, home by 2.5 mm2."""
    extra = supply or {}
    return {
        "fuses": {"F1": None, **extra.get("fuses", {})},
        "modules": {"unit": "{" + ", ".join(("out: {1: lamp feed}", *keys)) + "}"},
        "loads": {**extra.get("loads", {})},
        "wires": {
            "W1": lead(0.75, "unit.1", "lamp.1"),
            "W2": lead(2.5, "lamp.2", "L1"),
            **extra.get("wires", {}),
        },
    }


OWN_SUPPLY: Mapping[str, Table] = {
    "fuses": {"F1": fuse(7.5)},
    "loads": {"unit itself": "{between: unit.30 unit.31, draws: 100 mA, class: electronics}"},
    "wires": {"W3": lead(0.75, "F1", "unit.30"), "W4": lead(0.75, "unit.31", "L1")},
}
AUX = {
    "fuses": {"F1": None},
    "wires": {"W1": lead(1.0, "aux.plus", "lamp.1"), "W3": lead(1.0, "aux.minus", "battery-")},
}
DECLARED = {**AUX, "sources": {"aux": "{plus: aux.plus, minus: aux.minus}"}}
HORN_BUTTON = {
    "switches": {"button": "{between: button.1 button.2}"},
    "wires": {"W2": lead(1.0, "lamp.2", "button.1"), "W3": lead(1.0, "button.2", "L1")},
}
ACROSS = {
    "splices": {"FS1": "{all members known: yes}"},
    "switches": {"button": "{between: button.1 button.2}"},
    "wires": {
        "W1": lead(1.0, "F1", "FS1"),
        "W3": lead(1.0, "FS1", "lamp.1"),
        "W4": lead(1.0, "FS1", "button.1"),
        "W5": lead(1.0, "button.2", "L1"),
    },
}
SENSE = {
    "modules": {"unit": "{out: {1: sense}, guarded: {1: 0.1 A}}"},
    "switches": {"button": "{between: button.1 button.2}"},
    "wires": {"W3": lead(0.75, "unit.1", "button.1"), "W4": lead(0.75, "button.2", "L1")},
}


def rated(rating: float | str, mm2: float, draws: float, *keys: str, back: float = 2.5) -> Mapping[str, Table]:
    """One fuse, one feed, a load, home by 2.5 mm2."""
    of = fuse(rating) if isinstance(rating, float) else "{rating: unknown, fed: always}"
    wires = {"W1": lead(mm2, "F1", "lamp.1", *keys), "W2": lead(back, "lamp.2", "L1")}
    return {"fuses": {"F1": of}, "loads": {"lamp": load("lamp", draws)}, "wires": wires}


FED = [
    Example("output 0.75 mm2 of a module behind 7.5 A", output(supply=OWN_SUPPLY)),
    # if the lamp fails shorted, what is not limited on record comes home too, by the wire and by the cable of L1
    Example("output of which nothing is written", output(), not_shown(Why.OUTPUT, "W1", "W2", "L1")),
    Example("output guarded to 5 A", output("guarded: {1: 5 A}")),
    # 25 A of 7.5 in the feed, of 20 in the return; 0.75 mm2 is bound to 7.5, 2.5 mm2 of unwritten insulation to 20
    Example(
        "output guarded to 25 A",
        output("guarded: {1: 25 A}"),
        {**against(Why.FEED, NEVER, "W1"), **against(Why.SHORTED_LOAD, NEVER, "W2")},
        {("W1", Why.FEED): (25, 7.5), ("W2", Why.SHORTED_LOAD): (25, 20)},
    ),
    Example(
        "further battery that nobody declared",
        AUX,
        {**not_shown(Why.NOTHING_BEHIND, "W1", "W3"), **not_shown(Why.FEED_OF, "W2", "L1")},
    ),
    # a load with nothing before it; what comes home if it fails shorted has no limit either
    Example(
        "further battery that is declared",
        DECLARED,
        {
            "W1": {(Why.UNFUSED_LOAD, NEVER), (Why.LENGTH, MISSING)},
            **against(Why.SHORTED_LOAD, NEVER, "W2", "L1"),
        },
        {("W2", Why.SHORTED_LOAD): (inf, 10), ("L1", Why.SHORTED_LOAD): (inf, 85)},
    ),
    Example("horn switched in its ground", HORN_BUTTON),
    # the lamp's own feed F1 to FS1 is on the way too, and is let be
    Example("switch across a feed", ACROSS, against(Why.SHORT, NEVER, "W4", "W5")),
    Example("sense line guarded to 0.1 A", SENSE),
    Example(
        "15 A on 1.0 mm2 PVC",
        rated(15.0, 1.0, 2, "insulation: PVC"),
        against(Why.FEED, BY_NAME, "W1"),
        {("W1", Why.FEED): (15, 10)},
    ),
    Example(
        "20 A on 1.0 mm2 PVC",
        rated(20.0, 1.0, 2, "insulation: PVC"),
        against(Why.FEED, NEVER, "W1"),
        {("W1", Why.FEED): (20, 10)},
    ),
    Example(
        "rating not read, 2 A on 0.75 mm2",
        rated("unknown", 0.75, 2),
        not_shown(Why.RATING, "W1", "W2", "L1"),
        fuses={"F1": MayGoIn.OPEN},
    ),
    Example(
        "rating not read, 20 A on 0.75 mm2",
        rated("unknown", 0.75, 20),
        {"W1": {(Why.ASKED, NEVER), (Why.RATING, MISSING)}, **not_shown(Why.RATING, "W2", "L1")},
        {("W1", Why.ASKED): (20, 7.5)},
        fuses={"F1": MayGoIn.NO},
    ),
    Example(
        "return of a deleted horn cut bare",
        {
            "fuses": {"F2": fuse(10)},
            "loads": {"horn": load("horn", 4, "verdict: deleted")},
            "wires": {"W3": lead(1.0, "F2", "horn.1"), "W4": lead(1.0, "horn.2", "L1")},
        },
        {
            "W3": {(Why.DELETED_LOAD, BY_NAME)},
            "W4": {(Why.BARE, NEVER), (Why.DELETED_LOAD, BY_NAME)},
        },
        rows=(
            "{id: C1, kind: remove, wires: {W4: {horn.2: uncapped, L1: pulled}}, made: 2031-05-03 AK,"
            " sealed: 2031-05-03 AK}",
        ),
        fuses={"F1": MayGoIn.YES, "F2": MayGoIn.NO},
    ),
]


@pytest.mark.parametrize(
    "example", [*SIDE_BY_SIDE, *UNFUSED, *HOMEWARD, *CARRIES, *FED], ids=lambda example: example.what
)
def test_each_wire_of_an_example(example: Example, tmp_path: Path) -> None:
    found = ledger(tmp_path, *example.rows, **example.tables)
    assert {wire: told(found, wire) for wire in found.accounts if told(found, wire)} == example.reasons
    for (wire, why), (comes, carries) in example.amps.items():
        assert amps(found, wire, why) == pytest.approx((comes, carries), abs=1e-3)
    assert found.car == ()
    assert found.clean is not bool(example.reasons)
    assert {name: found.fuses[name].may for name in example.fuses} == example.fuses


def test_of_a_job_of_which_nothing_is_known_nothing_is_proved_and_nothing_against(tmp_path: Path) -> None:
    found = ledger(
        tmp_path,
        head=dict.fromkeys(("system", "supply", "ground side", "systems")),
        fuses={"F1": "{rating: unknown}"},
        loads={"lamp": "{between: lamp.1 lamp.2, draws: unknown}"},
        grounds={"L1": "{}"},
        wires={
            "W1": lead("unknown", "F1", "lamp.1"),
            "W2": lead("unknown", "lamp.2", "L1"),
            "W3": lead("unknown", "F1", "FS1"),
            "W4": lead("unknown", "FS1", "unknown"),
        },
    )
    counts = {state: found.count(state) for state in State}
    assert counts == {State.PROVED: 0, State.LET_STAND: 0, State.NOT_SHOWN: 5, State.AGAINST: 0}
    assert found.never == found.by_name == ()
    assert {reason.of for reason in found.car} == {"system", "supply", "ground side", "restraint", "high voltage"}
    assert found.fuses["F1"].may is MayGoIn.OPEN


# ---- let stand by name ----------------------------------------------------------------------------------------------
LONG, LONG_AND_THIN = main_feed(25.0, "length: 2.4 m"), main_feed(2.5, "length: 2.4 m")
FIFTEEN, TWENTY = rated(15.0, 1.0, 2, "insulation: PVC"), rated(20.0, 1.0, 2, "insulation: PVC")


def accepted(code: str, of: str = "of: F1, ") -> Table:
    return {"one": f"{{finding: {code}, {of}by: AK, why: it is short of time}}"}


@pytest.mark.parametrize(
    ("tables", "code", "wire"),
    [pytest.param(LONG, "FUS05", "W0", id="25 mm2 2.4 m"), pytest.param(FIFTEEN, "FUS01", "W1", id="15 A on 1.0 mm2")],
)
def test_what_a_named_person_lets_stand_is_neither_proved_nor_against(
    tables: Mapping[str, Table], code: str, wire: str, tmp_path: Path
) -> None:
    found = ledger(tmp_path, accepted=accepted(code), **tables)
    assert not_proved(found) == {wire: State.LET_STAND}
    assert {reason.let_stand_by for reason in found.accounts[wire].reasons} == {"AK"}
    assert found.clean
    assert found.count(State.PROVED) == len(found.accounts) - 1
    assert (found.fuses["F1"].may, found.fuses["F1"].by) == (MayGoIn.BY_NAME, ("AK",))


@pytest.mark.parametrize(
    ("tables", "code", "of", "wire"),
    [
        pytest.param(LONG_AND_THIN, "FUS05", "of: F1, ", "W0", id="2.5 mm2 2.4 m, named"),
        pytest.param(TWENTY, "FUS01", "of: F1, ", "W1", id="20 A on 1.0 mm2, named"),
        pytest.param(LONG, "FUS05", "", "W0", id="25 mm2 2.4 m, not named"),
        pytest.param(FIFTEEN, "FUS01", "", "W1", id="15 A on 1.0 mm2, not named"),
    ],
)
def test_nobody_lets_stand_what_may_never_be_or_is_not_named(
    tables: Mapping[str, Table], code: str, of: str, wire: str, tmp_path: Path
) -> None:
    found = ledger(tmp_path, accepted=accepted(code, of), **tables)
    assert not_proved(found) == {wire: State.AGAINST}
    assert not found.clean
    assert found.fuses["F1"].may is MayGoIn.NO
