"""What is said of each reason, of each weight that it can have; and what is asked for."""

from __future__ import annotations

import math
import re

import pytest

from aswired.ledger.record import Fact, Reason, Weight, Why
from aswired.ledger.words import amperes, fact_words, reason_words
from aswired.record import Job
from aswired.text.diagnostics import Location
from tests.findings.jobs import work

AT = Location("secret-file.yml", 3)
BOTH = (Weight.NEVER, Weight.BY_NAME)
# what each reason may weigh, by the design of the ledger; a reason that is not here is only ever missing
WEIGHTS = {
    **dict.fromkeys(
        (Why.FEED, Why.BEHIND, Why.SHORTED_LOAD, Why.ASKED, Why.UNFUSED_LONG, Why.HEAT, Why.BARE, Why.BARE_JOINT), BOTH
    ),
    Why.PART_GONE: BOTH,
    Why.SHORTED_BESIDE: (Weight.BY_NAME,),
    **dict.fromkeys((Why.STARTER, Why.UNFUSED_LOAD, Why.UNFUSED_NOWHERE, Why.BRIDGED, Why.SHORT), (Weight.NEVER,)),
    **dict.fromkeys((Why.RESTRAINT, Why.HIGH_VOLTAGE, Why.SIXTY_VOLTS, Why.SYSTEM), (Weight.NEVER,)),
    **dict.fromkeys(
        (Why.LINK_LONG, Why.TWO_KEYS, Why.DATA, Why.TAPED, Why.DELETED_LOAD, Why.CONTRADICTED), (Weight.BY_NAME,)
    ),
    Why.OTHER_VOLTS: (Weight.BY_NAME, Weight.MISSING),
}
EACH = [(why, weight) for why in Why for weight in WEIGHTS.get(why, (Weight.MISSING,))]


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return work(
        tmp_path_factory.mktemp("job"),
        "job: Words\nmodules: {cab: {out: {7: always}}}\nchanges: [{id: C1, kind: verify, proves: [C1]}]\n",
    ).job


def reason(why: Why, weight: Weight, **more: object) -> Reason:
    facts = {
        "of": "thing-1.7", "key": "written here", "amps": 17.0, "carries": 11.5, "mm": 640.0, "most_mm": 310.0,
        "celsius": 85.0, "most_celsius": 75.0, "by": ("one-2", "two-3"),
    }  # fmt: skip
    return Reason(why, weight, at=AT, **{**facts, **more})  # type: ignore[arg-type]


@pytest.mark.parametrize(("why", "weight"), EACH, ids=[f"{why.name}-{weight.name}" for why, weight in EACH])
def test_every_reason_says_what_is_so_and_what_to_do(why: Why, weight: Weight, job: Job) -> None:
    so, do = reason_words(reason(why, weight), job)
    for said in (so, do):
        assert said.strip() == said
        assert len(said.split()) >= 3, said
        assert not re.search(r"[{}]|None|\.$|secret-file|nan|\binf\b", said), said
    if why is not Why.POLE:
        assert "thing-1" in so or "one-2" in so, so  # it names something of the car
    assert ("let it stand by name" in do) == (weight is Weight.BY_NAME)
    let = reason_words(reason(why, weight, let_stand_by="AK", let_stand_why="spring"), job)
    assert "let it stand" not in let[1]


@pytest.mark.parametrize("why", list(Why), ids=lambda why: why.name)
def test_words_stand_where_no_figure_is_told(why: Why, job: Job) -> None:
    bare = {"amps": None, "carries": None, "mm": None, "most_mm": None, "celsius": None, "most_celsius": None, "by": ()}
    for weight in WEIGHTS.get(why, (Weight.MISSING,)):
        so, do = reason_words(reason(why, weight, **bare), job)
        assert "None" not in so + do
        assert "()" not in so + do


def test_the_weight_of_an_end_is_told(job: Job) -> None:
    for why in (Why.BARE, Why.BARE_JOINT, Why.PART_GONE):
        assert "is live" in reason_words(reason(why, Weight.NEVER), job)[0]
        assert "is live" not in reason_words(reason(why, Weight.BY_NAME), job)[0]


def test_numbers_stand_with_their_units(job: Job) -> None:
    so, do = reason_words(reason(Why.FEED, Weight.NEVER, of="F10", by=("F10",), amps=15.0, carries=10.0), job)
    assert (so, do) == (
        "F10 lets 15 A through, and the wire may carry 10 A",
        "Put no more than 10 A in F10, or lay thicker wire",
    )
    so, do = reason_words(reason(Why.FEED, Weight.NEVER, by=("F1", "F2")), job)
    assert so == "F1 and F2 together let 17 A through, and the wire may carry 11.5 A"
    assert do == "Put in smaller fuses, or lay thicker wire"
    so, do = reason_words(reason(Why.FEED, Weight.NEVER, of="cab.7", by=("cab.7",)), job)
    assert do == "Guard cab.7 to 11.5 A, or lay thicker wire"
    so, _ = reason_words(reason(Why.SHORTED_LOAD, Weight.NEVER, of="W52", by=("siren", "F10"), amps=15.0), job)
    assert so == "If siren fails shorted behind F10, 15 A comes home through W52, which may carry 11.5 A"
    so, _ = reason_words(reason(Why.SHORTED_LOAD, Weight.NEVER, of="W52", by=("siren",), amps=math.inf), job)
    assert so == "If siren fails shorted, more than any fuse comes home through W52, which may carry 11.5 A"
    far = reason(Why.UNFUSED_LONG, Weight.BY_NAME, of="W10", mm=2400.0, most_mm=300.0, by=("bus",))
    so, _ = reason_words(far, job)
    assert so == "W10 reaches at least 2\u202f400 mm from bus with nothing before it, and 300 mm is allowed"
    so, _ = reason_words(reason(Why.HEAT, Weight.BY_NAME, of="W7", by=("wall to engine",)), job)
    assert so == "W7 runs through the leg wall to engine, which gets 85 °C hot, and its insulation bears 75 °C"


def test_amperes_are_told_to_a_tenth() -> None:
    assert [amperes(value) for value in (7.5, 10.0, 13.09, 0.1, math.inf)] == [
        "7.5 A", "10 A", "13.1 A", "0.1 A", "more than any fuse",
    ]  # fmt: skip


def fact(why: Why, of: str) -> Fact:
    return Fact(why, of, "size", AT, ("W1",), ())


@pytest.mark.parametrize(
    "why", [why for why in Why if Weight.MISSING in WEIGHTS.get(why, (Weight.MISSING,))], ids=lambda why: why.name
)
def test_every_missing_fact_is_told_as_a_thing_to_find_out(why: Why) -> None:
    assert "W9" in fact_words([fact(why, "W9")])
    many = fact_words([fact(why, f"W{number}") for number in range(14)])
    assert re.search(r"\b14 [a-z]+", many), many


def test_a_few_facts_of_a_kind_are_named_and_many_are_counted() -> None:
    assert fact_words([fact(Why.RATING, "F4")]) == "rating of F4"
    assert fact_words([fact(Why.NOTHING_BEHIND, name) for name in ("wheel-rl", "fuse-box")]) == (
        "what is behind fuse-box, wheel-rl"
    )
    assert fact_words([fact(Why.SIZE, f"W{number}") for number in (10, 2)]) == "size of W2, W10"
    assert fact_words([fact(Why.SIZE, f"W{number}") for number in range(14)]) == "size of 14 wires"
    assert (
        fact_words([fact(Why.DECLARED, "high voltage")])
        == "whether there is a high-voltage system, and what became of it"
    )
    with pytest.raises(ValueError, match="one kind"):
        fact_words([])
    with pytest.raises(ValueError, match="one kind"):
        fact_words([fact(Why.SIZE, "W1"), fact(Why.RATING, "F1")])
