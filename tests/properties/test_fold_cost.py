"""What a fold costs, counted without a clock: rows applied and calls made, for every arrangement of rows done again.

That what is shared changes nothing, and that the lists and refusals are those of their plain definitions, stands here
too: whoever makes the fold cheaper must keep it exact.
"""

from __future__ import annotations

import dataclasses
import datetime
import random
import sys
from collections.abc import Iterator
from itertools import pairwise

import pytest

from aswired.car.asbuilt import FoldCache, beginnings, fold
from aswired.car.asbuilt.lists import lists
from aswired.car.asbuilt.order import order
from aswired.car.asbuilt.refusals import Refusals, spoken_of
from aswired.car.changes import BY_NAME
from aswired.car.harness import Joint, Node, NodeKind
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.car.loom.state import HarnessState
from aswired.car.route import Route
from aswired.record import Change, Job, Wire
from aswired.text.one_line import Done, Was
from properties import generate
from properties.arrangements import IN_PROPORTION, PIECE, ROWS, adjacent, chain, early_rows_between_late_ones, job_of
from properties.chance import COLOURS, FIRST_DAY, SIZES, length

DAYS = [FIRST_DAY + datetime.timedelta(days=n) for n in (3, 9, 400)]
ALL = {**IN_PROPORTION, "worst": early_rows_between_late_ones}


@pytest.fixture
def applied(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The ids of the rows that were folded, in order, as often as they were."""
    met: list[str] = []
    extend = BY_NAME["extend"]

    def counted(row: Change, loom: WorkingHarness) -> None:
        met.append(row.id)
        extend.apply(row, loom)

    monkeypatch.setitem(BY_NAME, "extend", dataclasses.replace(extend, apply=counted))
    return met


def calls_of(job: Job) -> int:
    """Calls made while a plan is folded, of Python and of built-in functions."""
    count = 0

    def note(*_: object) -> None:
        nonlocal count
        count += 1

    fold(job, "plan")
    fresh = dataclasses.replace(job)  # nothing is remembered
    sys.setprofile(note)
    try:
        fold(fresh, "plan")
    finally:
        sys.setprofile(None)
    return count


# ---- rows done again ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("arrangement", IN_PROPORTION)
def test_rows_done_again_are_folded_twice_at_most_on_the_whole(arrangement: str, applied: list[str]) -> None:
    for count in (26, 60):
        job = job_of(IN_PROPORTION[arrangement](count))
        applied.clear()
        view = fold(job, "plan")
        assert len(job.changes) - count <= len(applied) <= 2 * len(job.changes)
        assert {row.status for row in view.rows} <= {"in force", "redone", "corrected"}


@pytest.mark.slow
@pytest.mark.parametrize("arrangement", IN_PROPORTION)
def test_the_calls_of_a_fold_double_with_its_rows(arrangement: str) -> None:
    few, many = (calls_of(job_of(IN_PROPORTION[arrangement](count))) for count in (40, 80))
    assert many < 2.2 * few


def test_the_worst_arrangement_costs_no_more_than_all_rows_for_each_that_is_done_again(applied: list[str]) -> None:
    for count in (20, 40):
        job = job_of(early_rows_between_late_ones(count))
        applied.clear()
        fold(job, "plan")
        assert len(applied) <= (count + 1) * len(job.changes) / 2


@pytest.mark.slow
@pytest.mark.parametrize("arrangement", ALL)
def test_a_second_view_folds_only_what_differs(arrangement: str, applied: list[str]) -> None:
    job = job_of(ALL[arrangement](30))
    shared = FoldCache(job)
    fold(job, "plan", shared=shared)
    applied.clear()
    fold(job, "now", datetime.date(2100, 1, 1), shared=shared)
    fold(job, "plan", shared=shared)
    assert len(applied) == 0


def test_views_cost_no_more_than_the_first_of_them_each(applied: list[str]) -> None:
    job = job_of(adjacent(60))
    shared = FoldCache(job)
    fold(job, "plan", shared=shared)
    one = len(applied)
    for day in DAYS:
        applied.clear()
        fold(job, "now", day, shared=shared)
        assert len(applied) <= one


@pytest.mark.slow
def test_a_thousand_rows_on_one_wire_are_each_done_again() -> None:
    job = job_of(chain(500))
    view = fold(job, "plan")
    assert [row.status for row in view.rows] == ["redone"] * 999 + ["in force"]
    assert [row.by for row in view.rows[:-1]] == [row.id for row in job.changes[1:]]
    out = [line for line in view.conductor_account if line.wire.endswith("taken out")]
    assert [(line.row, line.wire) for line in out] == [("D999", "D998-W0, taken out")]


# ---- rows that cannot be so, ordinary rows, rows that correct one another --------------------------------------------
@pytest.mark.parametrize("kind", ROWS)
def test_rows_cost_in_proportion_to_their_number(kind: str) -> None:
    few, many = (calls_of(ROWS[kind](count)) for count in (80, 160))
    assert many < 2.2 * few


def test_a_refused_row_costs_no_more_than_one_that_stands() -> None:
    stands = calls_of(ROWS["ordinary"](160))
    assert calls_of(ROWS["resting on one another"](160)) < stands
    assert calls_of(ROWS["resting on leads"](160)) < stands


@pytest.mark.slow
# ---- exactness ------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("arrangement", ALL)
@pytest.mark.parametrize("most", [None, 1, 5])
def test_what_is_shared_and_forgotten_changes_no_view(
    arrangement: str, most: int | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    if most is not None:
        for limit in ("MOST", "MOST_OUT", "MOST_NUMBERS"):
            monkeypatch.setattr(beginnings, limit, most)
    job = job_of(ALL[arrangement](9))
    shared = FoldCache(job)
    for name, day in (("plan", None), *(("now", day) for day in DAYS), ("donor", None), ("plan", None)):
        assert repr(fold(job, name, day, shared=shared)) == repr(fold(job, name, day))


def pointed(rnd: random.Random) -> Job:
    """Rows that point up and down the file, at themselves, at nothing, and two at one."""
    ids = [f"C{n}" for n in range(rnd.randint(2, 9))]
    rows = []
    for place, name in enumerate(ids):
        near = ids[:place] if rnd.random() < 0.9 else [*ids, "none"]
        pick = {key: rnd.choice(near) if near and rnd.random() < 0.35 else "" for key in ("corrects", "redoes")}
        made = Done("", FIRST_DAY, "AK") if rnd.random() < 0.8 else None
        twice = rnd.choice(ids) if rnd.random() < 0.05 else name
        rows.append(Change(id=twice, kind="cover", made=made, **pick))
    return Job(job="x", changes=tuple(rows))


@pytest.mark.slow
def test_each_list_is_that_of_the_file_up_to_the_row_done_again() -> None:
    told = 0
    for seed in range(1500):
        job = pointed(random.Random(seed))
        for view in ("plan", "now"):
            whole = order(job, view, FIRST_DAY)
            for row, rows in lists(job, view, FIRST_DAY, whole, {}):
                if not row:
                    assert rows is not None
                    assert [one for one in rows.rows[: rows.end] if one is not None] == list(whole.rows)
                    continue
                place = job.place(row)
                assert place is not None
                upto = order(dataclasses.replace(job, changes=job.changes[: place + 1]), view, FIRST_DAY).rows
                ids = [one.id for one in upto]
                if row not in ids:
                    assert rows is None
                    continue
                assert rows is not None
                assert [one for one in rows.rows[: rows.end] if one is not None] == list(upto[: ids.index(row) + 1])
                told += 1
    assert told > 1000


def test_a_list_says_how_much_of_it_is_the_list_before() -> None:
    checked = 0
    for seed in range(600):
        job = pointed(random.Random(seed))
        met = [
            (list(rows.rows[: rows.end]), rows.same)
            for _, rows in lists(job, "plan", None, order(job, "plan", None), {})
            if rows is not None
        ]
        for (before, _), (after, same) in pairwise(met):
            shared = min(same, len(before), len(after))
            assert before[:shared] == after[:shared]
            checked += shared > 0
    assert checked > 100


def done_again(job: Job, rnd: random.Random) -> Job:
    """The job with some of its rows written again further down; some speak of a row below them."""
    rows = list(job.changes)
    for number in range(rnd.randint(1, 5)):
        place = rnd.randrange(len(rows))
        old = rows[place]
        keys = {"redoes": old.id} if rnd.random() < 0.8 else {"corrects": old.id}
        if rnd.random() < 0.1:
            keys["corrects"] = rnd.choice(rows[: place + 1]).id
        new = dataclasses.replace(old, id=f"X{number}", made=old.made if rnd.random() < 0.7 else None, **keys)
        rows.insert(rnd.randint(place + 1, len(rows)), new)
    for place, row in enumerate(rows):
        if row.to and rnd.random() < 0.1:
            rows[place] = dataclasses.replace(row, to=f"{rnd.choice(rows).id}-W1")
    return dataclasses.replace(job, changes=tuple(rows))


def taken_out(job: Job, view: str, day: datetime.date | None) -> list[tuple[str, str]]:
    """By the plain rule: what a redone row had let in is told by the view of the file up to that row."""
    found = []
    for row in order(job, view, day).rows:
        place = job.place(row.redoes)
        if place is not None:
            then = fold(dataclasses.replace(job, changes=job.changes[: place + 1]), view, day)
            found += [(row.id, f"{piece.id}, taken out") for piece in then.pieces if piece.row == row.redoes]
    return found


def scrapped(job: Job, view: str, day: datetime.date | None, shared: FoldCache) -> list[tuple[str, str]]:
    conductor_account = fold(job, view, day, shared=shared).conductor_account
    return [(line.row, line.wire) for line in conductor_account if line.wire.endswith(", taken out")]


@pytest.mark.slow
def test_what_a_redone_row_had_let_in_is_told_by_the_file_up_to_it() -> None:
    told = 0
    for seed in range(60):
        rnd = random.Random(seed)
        job = generate.build(rnd)
        if not job.changes:
            continue
        job = done_again(job, rnd)
        shared = FoldCache(job)
        for view, day in (("plan", None), ("now", DAYS[0]), ("now", DAYS[2])):
            assert scrapped(job, view, day, shared) == taken_out(job, view, day), seed
            told += len(taken_out(job, view, day))
    assert told > 30


def into(name: str, wire: str, cavity: str, redoes: str = "") -> Change:
    """A row that lets a piece in between a wire's end and another cavity."""
    end = f"{wire}.1"
    keys = {"piece": PIECE, "cut": length(300), "terminal": "new", "redoes": redoes}
    return Change(id=name, kind="terminate", wire=wire, end=end, into=cavity, **keys)


def with_wires(*rows: Change) -> Job:
    wires = {name: Wire(from_=f"{name}.1", to=f"{name}.2", length=length(2000)) for name in ("W1", "W2", "W3")}
    return Job(job="x", wires=wires, changes=rows)


def test_a_row_that_was_redone_did_not_know_the_rows_below_it() -> None:
    """Cavities named as if row C5 made them: above C5 they are cavities, behind it splices that are not there."""
    job = with_wires(
        into("C0", "W3", "C5-x.1"),
        into("C1", "W1", "C5-x.2"),
        Change(id="C5", kind="cover"),
        into("C6", "W2", "far.1"),
        into("C7", "W1", "near.1", redoes="C1"),
        into("C8", "W2", "far.2", redoes="C6"),
    )
    shared = FoldCache(job)
    for _ in range(2):
        out = [("C7", "C1-W1, taken out"), ("C8", "C6-W2, taken out")]
        assert scrapped(job, "plan", None, shared) == taken_out(job, "plan", None) == out
    view = fold(job, "plan", shared=shared)
    status = {row.id: row.status for row in view.rows}
    assert status["C0"] == "refused"  # in the whole file C5 is a row
    assert [stretch.ends for stretch in view.of_wire("W3")] == [("W3.1", "W3.2")]


def test_a_row_that_was_redone_did_not_know_the_wires_that_later_rows_tell_of() -> None:
    tells = Change(id="C3", kind="extend", wire="U1", end="full.1", pigtail=length(100), gap=length(50), piece=PIECE)
    tells = dataclasses.replace(tells, was=Was("", COLOURS[0], SIZES[0], ("full.1", "relay.9"), None))
    job = with_wires(
        into("C1", "W1", "full.1"),
        into("C5", "W1", "near.1", redoes="C1"),
        tells,
        into("C4", "W2", "full.1"),
        into("C6", "W2", "near.2", redoes="C4"),
    )
    shared = FoldCache(job)
    for _ in range(2):  # C4 found its cavity taken, so it let nothing in
        assert scrapped(job, "plan", None, shared) == [("C5", "C1-W1, taken out")]


def test_a_row_that_was_refused_beside_a_redone_one_counts_once_that_is_out() -> None:
    job = with_wires(
        into("C1", "W1", "full.1"),
        into("C2", "W2", "full.1"),
        into("C3", "W3", "far.1"),
        into("C4", "W1", "near.1", redoes="C1"),
        into("C5", "W3", "far.2", redoes="C3"),
        Change(id="C6", kind="verify", proves=("C2",)),
    )
    upto_c3 = fold(dataclasses.replace(job, changes=job.changes[:3]), "plan")
    assert [row.status for row in upto_c3.rows] == ["in force", "refused", "in force"]
    for shared in (None, FoldCache(job)):
        rows = fold(job, "plan", shared=shared).rows
        assert [row.status for row in rows] == ["redone", "in force", "redone", *["in force"] * 3]


def words(rnd: random.Random) -> Iterator[str]:
    for _ in range(rnd.randint(0, 4)):
        name = "-".join(rnd.choice(("C1", "C2", "C12", "C1-W1", "x", "")) for _ in range(rnd.randint(1, 3)))
        yield f"'{name}'" if rnd.random() < 0.3 else name


def test_a_row_is_spoken_of_by_its_name_and_by_what_it_made() -> None:
    rows = dict.fromkeys(("C12", "C1", "C2", "C1-W1"))
    found = 0
    for seed in range(2000):
        text = " and ".join(words(random.Random(seed)))
        plain = {
            row for row in rows for word in text.replace("'", " ").split() if word == row or word.startswith(row + "-")
        }
        assert set(spoken_of(text, rows)) == plain, text
        found += bool(plain)
    assert found > 500


def test_refusals_go_back_to_what_they_were() -> None:
    rows = [Change(id=f"A{n}", kind="add", wire=f"N{n % 3}") for n in range(6)]
    job = Job(job="x", changes=tuple(rows))
    ground = Change(id="B", kind="ground", wire="N1")
    loom, no = WorkingHarness(job, Route(job)), Refused("no", "mend")
    refusals = Refusals(job)
    rested = [refusals.rested_on(ground, no, loom)]
    for name in ("A4", "A1", "A0"):
        refusals.add(name, no)
        rested.append(refusals.rested_on(ground, no, loom))
    assert rested == ["", "A4", "A4", "A4"]  # of several the last in the file
    refusals.back_to(0)
    refusals.add("A1", no)
    assert refusals.rested_on(ground, no, loom) == "A1"
    refusals.add("A4", no)
    assert refusals.rested_on(ground, no, loom) == "A4"
    refusals.back_to(1)
    assert refusals.rested_on(ground, no, loom) == "A1"
    loom.lay("N1", COLOURS[0], SIZES[0], ("a.1", "b.1"), None, "")
    assert refusals.rested_on(ground, no, loom) == ""  # the lead is in the car


# ---- what is written can be taken back -------------------------------------------------------------------------------
def shown(state: HarnessState) -> object:
    nodes = sorted(state.nodes.items())
    at = {name: state.runs.at(name) for name in ("a", "b", "c", "c-1", "c-2")}
    of_wire = {wire: list(state.runs.of_wire(wire).items()) for wire in ("W1", "W2")}
    longer = {name: sorted(state.nodes.longer(name)) for name in ("c", "c-1")}
    order_counts = [list(table.items()) for table in (state.runs, state.joints, state.wires)]
    lists_ = (state.pieces[:], state.conductor_account[:], state.rings, dict(state.replaced), state.next_run)
    return nodes, {name: list(runs.items()) for name, runs in at.items()}, of_wire, longer, order_counts, lists_


def write(state: HarnessState, rnd: random.Random) -> None:
    """One write, of any sort that a kind of change makes."""
    node = rnd.choice(("a", "b", "c", "c-1", "c-2"))
    what = rnd.randrange(7)
    if what == 0:
        state.nodes[node] = Node(node, NodeKind.SPLICE, made_by=str(rnd.random()))
    elif what == 1:
        state.nodes.pop(node, None)
    elif what == 2:
        state.runs[state.next_run] = WorkingStretch(
            rnd.choice(("W1", "W2")), node, rnd.choice("abc"), COLOURS[0], SIZES[0], 1.0
        )
        state.next_run += 1
    elif what == 3 and state.runs:
        number = rnd.choice(list(state.runs))
        state.runs[number] = dataclasses.replace(state.runs[number], a=node, length_mm=rnd.random())
    elif what == 4 and state.runs:
        state.runs.pop(rnd.choice(list(state.runs)))
    elif what == 5:
        state.joints[node] = Joint(node, str(rnd.random()), (), None, None, None, "", None, None)
    else:
        state.joints.pop(node, None)
        state.rings += (node,)  # type: ignore[assignment]
        state.pieces.append(node)  # type: ignore[arg-type]


def test_what_was_written_is_taken_back_whole_and_in_order() -> None:
    for seed in range(300):
        rnd = random.Random(seed)
        state, marks = HarnessState.empty(), []
        for _ in range(40):
            if marks and rnd.random() < 0.15:
                number = rnd.randrange(len(marks))
                mark, before = marks[number]
                del marks[number:]
                state.back_to(mark)
                assert shown(state) == before
            elif rnd.random() < 0.3:
                marks.append((state.mark(), shown(state)))
            else:
                write(state, rnd)
        copied, before = state.copy(), shown(state)
        assert shown(copied) == before
        for _ in range(6):
            write(copied, rnd)
        assert shown(state) == before
