"""What helps most: steps on ledgers made by hand, what is asked next, and the demo jobs done step by step."""

from __future__ import annotations

import datetime
import random
import re
import shutil
from collections.abc import Iterable, Mapping
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.ledger.helps import EFFORT, Effort, steps
from aswired.ledger.record import Account, Amperes, Asked, Ledger, Line, Reason, State, Weight, Why
from aswired.ledger.words import step_words
from aswired.sheets.ledger_head import head
from aswired.text.diagnostics import Location
from aswired.work import work_out
from tests.findings.jobs import work
from tests.ledger.small import fuse, lead, ledger, load

AT = Location("job.yml", 4)
DEMO = Path(__file__).parents[2] / "jobs"
TODAY = datetime.date(2031, 6, 1)


def missing(why: Why, of: str, *by: str) -> Reason:
    return Reason(why, Weight.MISSING, of, AT, "key", by=by)


def account(name: str, *reasons: Reason, later: tuple[Reason, ...] = ()) -> Account:
    line = Line(name, f"{name} whole", 0, 15.0, 18.0, Amperes(), Amperes(), Amperes(), None, True, reasons, later)
    return Account(name, (line,))


def of(*accounts: Account) -> Ledger:
    return Ledger({a.name: a for a in accounts})


def told(found: Ledger, most: int = 9) -> list[tuple[set[tuple[Why, str]], tuple[str, ...]]]:
    return [({(asked.why, asked.of) for asked in step.asked}, step.wires) for step in steps(found, most)]


SIZES = [missing(Why.SIZE, f"W{number}") for number in range(10)]


# ---- which step comes first -----------------------------------------------------------------------------------------
def test_every_kind_that_can_be_missing_has_an_effort_and_words() -> None:
    never_missing = {reason for reason in Why if reason.name in (
        "FEED", "BEHIND", "SHORTED_LOAD", "SHORTED_BESIDE", "ASKED", "STARTER", "UNFUSED_LONG", "UNFUSED_LOAD",
        "UNFUSED_NOWHERE", "LINK_LONG", "BRIDGED", "SHORT", "TWO_KEYS", "DATA", "HEAT", "BARE", "TAPED", "BARE_JOINT",
        "PART_GONE", "DELETED_LOAD", "RESTRAINT", "HIGH_VOLTAGE", "SIXTY_VOLTS", "SYSTEM", "CONTRADICTED",
    )}  # fmt: skip
    assert set(EFFORT) == set(Why) - never_missing
    for why in EFFORT:
        assert "thing-1" in step_words([Asked(why, "thing-1", "key")])


def test_a_fact_that_several_wires_share_goes_with_what_each_of_them_needs_besides() -> None:
    """A splice to open, 3 looks, and a size each: one wire for 4 looks, two for 5, three for 6."""
    splice = missing(Why.MEMBERS, "FS1")
    found = of(*(account(f"W{number}", splice, SIZES[number]) for number in (1, 2, 3)))
    assert told(found) == [
        ({(Why.MEMBERS, "FS1"), (Why.SIZE, "W1"), (Why.SIZE, "W2"), (Why.SIZE, "W3")}, ("W1", "W2", "W3"))
    ]


def test_what_is_read_off_a_part_comes_before_what_has_to_be_traced() -> None:
    """Two wires for one trace of 6 looks, one wire for two readings: one for 3 looks, one for 2."""
    found = of(
        account("W1", missing(Why.NO_END, "W1")),
        account("W2", missing(Why.NO_END, "W1")),
        account("W3", SIZES[3], missing(Why.RATING, "F1")),
    )
    assert told(found) == [
        ({(Why.SIZE, "W3"), (Why.RATING, "F1")}, ("W3",)),
        ({(Why.NO_END, "W1")}, ("W1", "W2")),
    ]
    assert (Effort.READ, Effort.OPEN, Effort.TRACE) == (1, 3, 6)


def test_what_a_step_before_it_found_out_is_not_asked_again() -> None:
    rating = missing(Why.RATING, "F1")
    found = of(account("W1", rating), account("W2", rating, missing(Why.MEMBERS, "FS1")))
    assert told(found) == [({(Why.RATING, "F1")}, ("W1",)), ({(Why.MEMBERS, "FS1")}, ("W2",))]


def test_no_step_is_more_than_can_be_done_in_one_go_unless_one_wire_needs_it() -> None:
    """One rating and a size each: more wires for the work with every further one, and six things are enough. The five
    sizes that are left are one kind of work, and one step."""
    rating = missing(Why.RATING, "F1")
    first, second = steps(of(*(account(f"W{n}", rating, SIZES[n]) for n in range(10))), 2)
    assert len(first.asked) == 6
    assert first.wires == ("W0", "W1", "W2", "W3", "W4")
    assert [asked.of for asked in second.asked] == ["W5", "W6", "W7", "W8", "W9"]
    (only,) = steps(of(account("W1", *SIZES)), 2)
    assert len(only.asked) == 10


def test_like_things_are_looked_at_in_one_step() -> None:
    plugs = [account(f"W{n}", missing(Why.NOTHING_BEHIND, f"plug{n}")) for n in range(8)]
    first, second, third = steps(of(*plugs[:3], account("W9", SIZES[9]), *plugs[3:]), 3)
    assert [asked.of for asked in first.asked] == [f"plug{n}" for n in range(6)]
    assert first.wires == ("W0", "W1", "W2", "W3", "W4", "W5")
    assert (second.asked[0].why, second.wires) == (Why.SIZE, ("W9",))  # the first is full, and W9 stands before W6
    assert [asked.of for asked in third.asked] == ["plug6", "plug7"]


def test_what_will_be_asked_next_is_asked_at_once() -> None:
    back, cable = missing(Why.WAY_BACK, "L1"), missing(Why.CABLE, "L1")
    found = of(account("L1", back, later=(cable,)))
    assert told(found) == [({(Why.WAY_BACK, "L1"), (Why.CABLE, "L1")}, ("L1",))]
    assert found.facts[0].frees == ()  # the way back alone does not settle it


def test_who_follows_a_wire_whose_end_is_unknown_finds_what_feeds_the_load() -> None:
    end = missing(Why.NO_END, "W1")
    found = of(account("W1", end), account("W2", missing(Why.FEED_OF, "fan", "W1")))
    assert told(found) == [({(Why.NO_END, "W1")}, ("W1", "W2"))]
    alone = of(account("W2", missing(Why.FEED_OF, "fan", "W1")))  # W1 is not in this car
    assert told(alone) == [({(Why.FEED_OF, "fan")}, ("W2",))]


def test_what_no_fact_can_prove_is_in_no_step() -> None:
    against = Reason(Why.TAPED, Weight.BY_NAME, "e1", AT)
    let = Reason(Why.TAPED, Weight.BY_NAME, "e2", AT, let_stand_by="AK", let_stand_why="spring")
    assert steps(of(account("W1", against, SIZES[1]), account("W2", let, SIZES[2]), account("W3")), 3) == ()


# ---- what will be asked next ----------------------------------------------------------------------------------------
def needs(found: Ledger, name: str) -> set[tuple[Why, str]]:
    return {(asked.why, asked.of) for asked in found.needs[name]}


def test_of_a_ground_point_its_way_back_its_cable_and_the_fuses_of_its_loads_are_asked_together(tmp_path: Path) -> None:
    found = ledger(tmp_path, fuses={"F1": "{rating: unknown, fed: always}"}, grounds={"L1": "{what: stud}"})
    assert {(r.why, r.of) for r in found.accounts["L1"].reasons} == {(Why.WAY_BACK, "L1")}
    assert needs(found, "L1") == {(Why.WAY_BACK, "L1"), (Why.CABLE, "L1"), (Why.RATING, "F1")}


def test_of_a_return_whose_size_is_not_read_the_feed_of_its_load_is_asked_too(tmp_path: Path) -> None:
    """W1 leads from the lamp to nobody knows where: who follows it finds the fuse."""
    wires = {"W1": lead(1.0, "lamp.1", "unknown"), "W2": lead("unknown", "lamp.2", "L1")}
    found = ledger(tmp_path, wires=wires)
    assert {(r.why, r.of) for r in found.accounts["W2"].reasons} == {(Why.SIZE, "W2")}
    assert needs(found, "W2") == {(Why.SIZE, "W2"), (Why.NO_END, "W1")}


def test_of_two_fuses_that_meet_both_positions_are_asked_together(tmp_path: Path) -> None:
    """Once the one is written the other is asked for: a step that names one alone settles nothing."""
    two = {"F1": "{rating: 3 A}", "F2": "{rating: 3 A}"}
    found = ledger(tmp_path, fuses=two, wires={"W9": lead(1.0, "F2", "lamp.1")})
    ((asked, wires),) = told(found)
    assert asked == {(Why.POSITION, "F1"), (Why.POSITION, "F2")}
    assert {"W1", "W9"} <= set(wires)


def test_of_an_end_that_is_not_traced_the_size_is_asked_too(tmp_path: Path) -> None:
    found = ledger(tmp_path, wires={"W3": lead("unknown", "unknown", "unknown")})
    assert {(r.why, r.of) for r in found.accounts["W3"].reasons} == {(Why.NO_END, "W3")}
    assert needs(found, "W3") == {(Why.NO_END, "W3"), (Why.SIZE, "W3")}


HOT = {"landmarks": "{box: fuse box, nose: front}"}
HOT_LEG = {"": "{from: box, to: nose, length: 1 m, zone: hot, hottest: 90 C}"}


def test_in_a_hot_leg_size_and_insulation_are_asked_together(tmp_path: Path) -> None:
    found = ledger(
        tmp_path,
        head=HOT,
        route=HOT_LEG,
        plugs={"lamp": "{at: nose, ways: 2}"},
        fuses={"F1": fuse(10, "in: box")},
        wires={"W1": lead("unknown", "F1", "lamp.1")},
    )
    assert {(r.why, r.of) for r in found.accounts["W1"].reasons} == {(Why.SIZE, "W1")}
    assert needs(found, "W1") == {(Why.SIZE, "W1"), (Why.INSULATION, "W1")}


def test_an_end_under_tape_is_looked_at_again_where_a_feed_may_be_found(tmp_path: Path) -> None:
    """W3 was cut off a splice of which not all is known, and its end there is under tape: if W3 is found live, that
    does not do."""
    made = "made: 2031-05-03 AK, sealed: 2031-05-03 AK"
    cut = f"{{id: C1, kind: cap, wire: W3, end: lamp.3, stub: 40 mm, cover: tape, {made}}}"
    found = ledger(tmp_path, cut, wires={"W3": lead(1.0, "FS1", "lamp.3")}, splices={"FS1": "{all members known: no}"})
    assert (Why.MEMBERS, "FS1") in needs(found, "W3")
    assert any(why is Why.NO_FATE for why, _ in needs(found, "W3"))


def test_a_car_that_is_written_asks_nothing_next(tmp_path: Path) -> None:
    found = ledger(tmp_path, loads={"horn": load("horn", 3)}, wires={"W3": lead(1.0, "F1", "horn.1")})
    assert found.needs == {}
    assert all(line.later == () for account in found.accounts.values() for line in account.lines)


# ---- the demo jobs, done step by step -------------------------------------------------------------------------------
Edits = Mapping[str, str]  # a piece of the files as it stands -> what somebody writes who did the step


def proved_after(job: str, folder: Path, *done: Edits) -> JobResult:
    """A demo job worked out with these steps written into a copy of it."""
    shutil.copytree(DEMO / job, folder, ignore=shutil.ignore_patterns("photos"))
    for edits in done:
        for old, new in edits.items():
            (file,) = [path for path in folder.glob("*.yml") if old in path.read_text(encoding="utf-8")]
            text = file.read_text(encoding="utf-8")
            assert text.count(old) == 1, old
            file.write_text(text.replace(old, new), encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return work_out(read.job, TODAY)


# What the page asks for, and an answer that is sound. Step 2: two of the five wires that were seen in FS2 go to where
# nobody knows; that is what is found by opening it.
STEPS: Mapping[str, tuple[tuple[set[tuple[Why, str]], Edits], ...]] = {
    "taken-over": (
        (
            {(Why.SIZE, "W3"), (Why.RATING, "F4")},
            {
                "F4: {rating: unknown": "F4: {rating: 7.5 A",
                "W3: {colour: GN/WH, size: unknown": "W3: {colour: GN/WH, size: 1.0 mm2",
            },
        ),
        (
            {(Why.MEMBERS, "FS2"), (Why.SIZE, "W2"), (Why.SIZE, "W4"), (Why.SIZE, "W11")},
            {
                "FS2: {at: 20 cm from bulkhead towards nose, all members known: no": (
                    "FS2: {at: 20 cm from bulkhead towards nose, all members known: yes"
                ),
                "W2: {colour: BN, size: unknown": "W2: {colour: BN, size: 1.0 mm2",
                "W4: {colour: unknown, size: unknown": "W4: {colour: unknown, size: 1.0 mm2",
                "W11: {colour: BN, size: unknown": (
                    "W17: {colour: BN, size: 1.0 mm2, from: FS2, to: unknown}\n"
                    "  W18: {colour: BN, size: 0.75 mm2, from: FS2, to: unknown}\n"
                    "  W11: {colour: BN, size: 2.5 mm2"
                ),
            },
        ),
        (
            {(Why.WAY_BACK, "N1"), (Why.CABLE, "N1")},
            {"N1: {what: his new stud at the nose,": "N1: {what: his new stud, cable: 16 mm2, back to: battery-,"},
        ),
    ),
    "flatbed": (
        (
            {(Why.NOTHING_BEHIND, "trailer")},
            {"trailer: {ways: 7,": "trailer: {ways: 7, behind: lamps of the trailer,"},
        ),
        (
            {(Why.OUTPUT, "cab-unit.7"), (Why.OUTPUT, "cab-unit.8")},
            {"out: {7: left indicators, 8: right indicators},": (
                "out: {7: left indicators, 8: right indicators}, guarded: {7: 7.5 A, 8: 7.5 A},"
            )},
        ),
    ),
    "trail-truck": (
        (
            {(Why.OUTPUT, "engine-unit.32")},
            {"out: {32: feed to the pump relay coil}": "out: {32: feed to the pump relay coil}, guarded: {32: 1 A}"},
        ),
        (
            {(Why.OUTPUT, "cluster.12")},
            {"out: {12: fuel gauge sense}": "out: {12: fuel gauge sense}, guarded: {12: 0.1 A}"},
        ),
        (
            {(Why.NOTHING_BEHIND, "ignition")},
            {"ignition: {at: dash, note:": "ignition: {at: dash, behind: the lock's contact 50, note:"},
        ),
    ),
}  # fmt: skip


# the flatbed is small; the other two, with the job whose first page has to carry a reader on, come in the whole run
@pytest.mark.parametrize(
    "job", [pytest.param(job, marks=[] if job == "flatbed" else [pytest.mark.slow]) for job in STEPS]
)
def test_each_of_the_first_steps_that_a_page_names_raises_the_number_proved(job: str, tmp_path: Path) -> None:
    named = steps(proved_after(job, tmp_path / "now").ledger, 3)
    before = proved_after(job, tmp_path / "before").ledger.count(State.PROVED)
    for number, (asked, _) in enumerate(STEPS[job], 1):
        assert {(fact.why, fact.of) for fact in named[number - 1].asked} == asked
        edits = [edit for _, edit in STEPS[job][:number]]
        after = proved_after(job, tmp_path / str(number), *edits).ledger
        assert after.count(State.PROVED) > before, (number, before)
        states = {name: after.accounts[name].state for name in named[number - 1].wires}
        assert set(states.values()) == {State.PROVED}, states
        before = after.count(State.PROVED)


def test_the_first_page_of_the_car_that_was_taken_over_names_its_steps_in_words(tmp_path: Path) -> None:
    assert head(proved_after("taken-over", tmp_path / "now")).helps == (
        "Read the rating on F4 (rating:); read or measure the size of W3 (size:). May settle W3.",
        "Open FS2 and write each wire that meets in it, with its size and its other end (all members known:); read or "
        "measure the size of W2, W4 and W11 (size:). May settle W2, W4, W11.",
        "Follow the cable of N1 back to the battery (back to:); read or measure the size of the cable of N1 (cable:). "
        "May settle N1.",
    )


# ---- facts taken out of a car that is proved, and put back step by step ----------------------------------------------
SOUND = {edit: new for _, edits in STEPS["flatbed"] for edit, new in edits.items()}
WRITTEN = {  # what is taken out -> where it stands in the file
    Why.SIZE: re.compile(r"^  (W\d+): \{colour: [^,]+, size: ([^,]+),", re.MULTILINE),
    Why.RATING: re.compile(r"^  (F\d+): \{rating: ([^,]+),", re.MULTILINE),
    Why.CABLE: re.compile(r"^  (L\d+): \{.*? cable: ([^,]+),", re.MULTILINE),
    Why.WAY_BACK: re.compile(r"^  (L\d+): \{.* back to: ([^,}]+)", re.MULTILINE),
    Why.NOTHING_BEHIND: re.compile(r"^  (trailer): \{.*? behind: ([^,]+),", re.MULTILINE),
}


def without(text: str, gone: Iterable[tuple[Why, str]], folder: Path) -> Ledger:
    """The ledger of the flatbed with these facts written as unknown."""
    spans = [(w, m[1], m.span(2)) for w, where in WRITTEN.items() for m in where.finditer(text)]
    for _, _, (start, end) in sorted((s for s in spans if s[:2] in set(gone)), key=lambda s: -s[2][0]):
        text = f"{text[:start]}unknown{text[end:]}"
    return work(folder, text, TODAY).ledger


@pytest.mark.parametrize("seed", [*range(2), *(pytest.param(n, marks=pytest.mark.slow) for n in range(2, 16))])
def test_each_step_proves_more_when_the_facts_that_it_names_are_put_back(seed: int, tmp_path: Path) -> None:
    """The flatbed with its answers is proved as a whole. Facts of it are made unknown by chance; whoever then does the
    steps, and writes nothing but what they ask for, proves more wires with each."""
    text = (DEMO / "flatbed" / "job.yml").read_text(encoding="utf-8")
    for old, new in SOUND.items():
        text = text.replace(old, new)
    chance = random.Random(seed)
    share = chance.choice([0.1, 0.3, 0.6])
    facts = [(why, match[1]) for why, where in WRITTEN.items() for match in where.finditer(text)]
    gone = {fact for fact in facts if chance.random() < share}
    found = without(text, gone, tmp_path / "0")
    assert without(text, (), tmp_path / "sound").count(State.NOT_SHOWN) == 0
    for number, step in enumerate(steps(found, 3), 1):
        named = {(asked.why, asked.of) for asked in step.asked}
        assert named <= gone
        gone -= named
        after = without(text, gone, tmp_path / str(number))
        assert after.count(State.PROVED) >= found.count(State.PROVED) + len(step.wires)
        found = after
