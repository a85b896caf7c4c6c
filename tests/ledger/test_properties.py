"""What holds of the ledger of any car: less current, more copper and less knowledge each move it one way only."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.ledger.record import HEAVIEST, Account, Ledger, State, Weight, Why
from aswired.record import Job
from aswired.text.units import Size
from aswired.work import work_out
from properties.generate import jobs
from tests.findings.jobs import DAY
from tests.ledger.chance import circuits
from tests.ledger.small import SOUND, Table, lead, ledger
from tests.ledger.test_examples import CARRIES, FED, HOMEWARD, SIDE_BY_SIDE, UNFUSED

MM2 = (0.13, 0.22, 0.35, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0)
Tables = dict[str, dict[str, str | None]]


@dataclass(frozen=True)
class Car:
    """A small job that is changed in one place after the other."""

    tables: Tables
    rows: tuple[str, ...] = ()

    def ledger(self, folder: Path) -> Ledger:
        return ledger(folder, *self.rows, **self.tables)

    def with_(self, table: str, name: str, words: str) -> Car:
        """The same with another line at a name."""
        return Car({**self.tables, table: {**self.tables[table], name: words}}, self.rows)


def whole(tables: Mapping[str, Table]) -> Tables:
    """Tables with what they do not exchange of the sound job."""
    return {key: {**SOUND.get(key, {}), **tables.get(key, {})} for key in dict.fromkeys((*SOUND, *tables))}


def cars() -> Iterator[object]:
    """Each example and circuits by chance; every fourth for the quick loop, the others are marked slow."""
    examples = (*SIDE_BY_SIDE, *UNFUSED, *HOMEWARD, *CARRIES, *FED)
    named = [(example.what, Car(whole(example.tables), example.rows)) for example in examples]
    named += [(f"by chance {seed}", Car(whole(circuits(seed)))) for seed in range(30)]
    for count, (name, car) in enumerate(named):
        yield pytest.param(car, id=name, marks=[] if count % 12 == 0 else [pytest.mark.slow])


CARS = list(cars())


def changed(car: Car, table: str, pattern: str, words: str) -> Iterator[tuple[str, Car]]:
    """The car with the words that fit a pattern exchanged in one line of a table, for each line; with its name."""
    for name, line in car.tables.get(table, {}).items():
        new, count = re.subn(pattern, words, line or "")
        if count and new != line:
            yield name, car.with_(table, name, new)


def against(found: Ledger) -> set[str]:
    return {account.name for account in found.having(State.AGAINST)}


def never(found: Ledger) -> set[str]:
    """What has a reason that nobody may let stand."""
    return {name for name, one in found.accounts.items() if any(r.weight is Weight.NEVER for r in one.reasons)}


# ---- less current ---------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("car", CARS)
def test_a_smaller_fuse_turns_nothing_proved_into_against(car: Car, tmp_path: Path) -> None:
    before = car.ledger(tmp_path)
    for name, smaller in changed(car, "fuses", r"rating: [\d.]+ A", "rating: 1 A"):
        assert against(smaller.ledger(tmp_path)) <= against(before), name


# ---- more copper ----------------------------------------------------------------------------------------------------
def thicker(car: Car) -> Iterator[tuple[str, Car]]:
    """Each wire by one size and by the thickest."""
    for mm2 in MM2[:-1]:
        for more in (MM2[MM2.index(mm2) + 1], MM2[-1]):
            yield from changed(car, "wires", rf"size: {mm2} mm2", f"size: {more} mm2")


@pytest.mark.parametrize("car", CARS)
def test_a_thicker_wire_never_worsens_its_own_line(car: Car, tmp_path: Path) -> None:
    before = car.ledger(tmp_path)
    for name, other in thicker(car):
        states = [HEAVIEST.index(found.accounts[name].state) for found in (before, other.ledger(tmp_path))]
        assert states[1] <= states[0], (name, other.tables["wires"][name])


# ---- less knowledge -------------------------------------------------------------------------------------------------
UNKNOWN = [
    ("wires", r"size: [\d.]+ mm2", "size: unknown"),
    ("wires", r"length: [\d.]+ mm", "length: unknown"),
    ("loads", r"draws: [\d.]+ m?A", "draws: unknown"),
    ("splices", r"all members known: yes", "all members known: no"),
    ("grounds", r"cable: \d+ mm2", "cable: unknown"),
    ("modules", r", guarded: {1: [\d.]+ A}", ""),
]


@pytest.mark.parametrize("car", CARS)
def test_an_unknown_speaks_against_nothing(car: Car, tmp_path: Path) -> None:
    before = car.ledger(tmp_path)
    for table, pattern, words in UNKNOWN:
        for name, other in changed(car, table, pattern, words):
            found = other.ledger(tmp_path)
            assert against(found) <= against(before), (name, words)
            assert never(found) <= never(before), (name, words)
            assert not found.clean or before.clean, (name, words)


@pytest.mark.parametrize("car", CARS)
def test_insulation_that_is_not_written_speaks_against_nothing(car: Car, tmp_path: Path) -> None:
    """It may weigh more: until it is written a wire is held to the lowest insulation, and nobody lets more stand."""
    before = car.ledger(tmp_path)
    for name, other in changed(car, "wires", "insulation: PVC", "insulation: unknown"):
        found = other.ledger(tmp_path)
        assert against(found) <= against(before), name
        assert not found.clean or before.clean, name


@pytest.mark.parametrize("car", CARS)
def test_without_a_rating_loads_that_take_too_much_are_all_that_speaks_against_a_wire(car: Car, tmp_path: Path) -> None:
    """A fuse that was read opens before its wire suffers, whatever its loads take; one that was not read may not."""
    before = car.ledger(tmp_path)
    for name, other in changed(car, "fuses", r"rating: [\d.]+ A", "rating: unknown"):
        found = other.ledger(tmp_path)
        for wire in against(found) - against(before):
            whys = {reason.why for reason in found.accounts[wire].reasons if reason.weight is not Weight.MISSING}
            assert whys == {Why.ASKED}, (name, wire)
        assert not found.clean or before.clean, name


@given(jobs(), st.randoms(use_true_random=False))
def test_a_size_taken_away_speaks_against_nothing_in_a_car_by_chance(job: Job, rnd: Random) -> None:
    sized = [name for name, wire in job.wires.items() if wire.size is not None and wire.size.number is not None]
    if not sized:
        return
    name = rnd.choice(sized)
    unread = replace(job, wires={**job.wires, name: replace(job.wires[name], size=Size("unknown", None, None))})
    before, found = (work_out(one, DAY).ledger for one in (job, unread))
    assert against(found) <= against(before)
    assert never(found) <= never(before)
    assert found.count(State.PROVED) <= before.count(State.PROVED)


# ---- what is not touched --------------------------------------------------------------------------------------------
BESIDE = {"WQ1": lead(1.0, "Qa.1", "Qb.1", "length: 900 mm"), "WQ2": lead("unknown", "FQ1", "Qb.2")}
ON_IT = (
    "{id: CQ1, kind: terminate, wire: WQ1, end: Qb.1, into: Qb.9, tail: 880 mm, made: 2031-05-04 AK}",
    "{id: CQ2, kind: cap, wire: WQ2, end: Qb.2, stub: 100 mm, cover: none, far: uncapped, made: 2031-05-04 AK}",
    "{id: CQ3, kind: extend, wire: WQ1, plug: Qa, gap: 300 mm, pigtail: 100 mm, piece: BK 0.5 mm2, cover: none}",
)


def told(of: Account) -> object:
    """All that is told of a wire; its lines count without their place in the list, which others have moved."""
    return of.name, tuple(replace(line, index=None) for line in of.lines)


@pytest.mark.parametrize("car", CARS)
def test_rows_leave_the_ledger_of_wires_that_they_do_not_touch(car: Car, tmp_path: Path) -> None:
    both = {**car.tables, "wires": {**car.tables["wires"], **BESIDE}}
    before = Car(both, car.rows).ledger(tmp_path)
    after = Car(both, (*car.rows, *ON_IT)).ledger(tmp_path)
    assert [told(before.accounts["WQ1"]), told(before.accounts["WQ2"])] != [
        told(after.accounts["WQ1"]),
        told(after.accounts["WQ2"]),
    ]
    for name in before.accounts.keys() - BESIDE.keys():
        assert told(after.accounts[name]) == told(before.accounts[name])
    assert after.car == before.car


@pytest.mark.parametrize("car", CARS)
def test_a_tag_changes_nothing(car: Car, tmp_path: Path) -> None:
    wire = next(name for name, line in car.tables["wires"].items() if line)
    tag = f"{{id: CQ1, kind: label, wire: {wire}, where: at its plug, reads: lamp, made: 2031-05-04 AK}}"
    before, after = car.ledger(tmp_path), Car(car.tables, (*car.rows, tag)).ledger(tmp_path)
    assert (after.accounts, after.fuses, after.car) == (before.accounts, before.fuses, before.car)
