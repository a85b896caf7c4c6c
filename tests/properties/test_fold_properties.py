"""Properties of the fold over random harnesses and change lists, and its agreement with the naive fold.

The naive fold (naive.py) is a second reading of the same rules by another hand; where the two part, one is wrong.
Set HYPOTHESIS_PROFILE=long, or run the tests marked slow, for many more jobs.
"""

from __future__ import annotations

import dataclasses
import datetime
import os
import random
from collections.abc import Callable
from functools import lru_cache

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from aswired.car.asbuilt import FoldCache, beginnings, fold
from aswired.car.harness import NodeKind, Stretch, View
from aswired.record import Change, Job, Usual, Wire
from aswired.text.one_line import JointMethod, Piece
from aswired.text.units import Length
from properties import generate, naive
from properties.chance import COLOURS, FIRST_DAY, KINDS, SIZES, length
from properties.compare import LOOSE, differences, parts, rounded, stretches_of, touches

SAMPLE = 120 if os.environ.get("HYPOTHESIS_PROFILE") == "brief" else 200  # fewer in the quick loop
LEAST_PERCENT = 5
KEEPS_EVERYTHING = (
    "extend", "shorten", "tap", "terminate", "cover", "verify", "reroute", "protect", "swap",
)  # fmt: skip


@lru_cache(maxsize=1)
def sample() -> tuple[Job, ...]:
    return tuple(generate.sample(SAMPLE))


@lru_cache(maxsize=1)
def naive_plans() -> tuple[tuple[naive.Car, dict[str, str]], ...]:
    """Of each job of the sample the naive plan, and what became of its rows."""
    return tuple(map(naive.fold, sample()))


@lru_cache(maxsize=1)
def sample_plans() -> tuple[tuple[Job, View, naive.Car], ...]:
    """The sample, each job with its plan and the naive plan."""
    return tuple((job, plan(job), car) for job, (car, _) in zip(sample(), naive_plans(), strict=True))


def views(job: Job) -> list[tuple[str, datetime.date | None]]:
    days = [FIRST_DAY + datetime.timedelta(days=n) for n in (2, 40)]
    asked: list[tuple[str, datetime.date | None]] = [("donor", None), ("plan", None), *(("now", day) for day in days)]
    return asked + ([("handed over", job.handed_over)] if job.handed_over else [])


def disagreements(job: Job) -> list[str]:
    return [
        f"{name} {day or ''}: {line}"
        for name, day in views(job)
        for line in differences(job, fold(job, name, day), name, day)
    ]


def plan(job: Job) -> View:
    return fold(job, "plan")


def counting(job: Job) -> list[Change]:
    """Rows that the view lets stand, in the order of the file."""
    view = plan(job)
    return [row for row in job.changes if (result := view.row(row.id)) is not None and result.counts]


# ---- the sample -----------------------------------------------------------------------------------------------------
@pytest.mark.slow
def test_the_generator_covers_every_rule(tell: Callable[[str], None]) -> None:
    count: dict[str, int] = {}
    for job in sample():
        for feature in generate.features(job):
            count[feature] = count.get(feature, 0) + 1
    wanted = {*KINDS, "redo", "correction", "splice of four and more", "plug in line", "unknown length"}
    wanted |= {"only if", "grouped row", "illegal row", "offcut used", "was", "shared ring"}
    wanted |= {"take-out recorded beside a computed one", "middle taken out", "lead without its piece"}
    wanted |= {"cut end in a splice", "tap at a distance", "tap of a new lead", "grouped row with stagger"}
    wanted |= {"ground from a cut end"}
    percent = {feature: 100 * count.get(feature, 0) / SAMPLE for feature in sorted(wanted)}
    tell(f"{SAMPLE} jobs, {sum(len(job.changes) for job in sample())} rows; share of the jobs that hold:")
    for feature, share in percent.items():
        tell(f"  {feature:40}{share:5.1f} %")
    assert {feature: share for feature, share in percent.items() if share < LEAST_PERCENT} == {}


def test_rows_are_mostly_legal() -> None:
    refused = sum(list(status.values()).count("refused") for _, status in naive_plans())
    assert 0.02 < refused / sum(len(job.changes) for job in sample()) < 0.15


@pytest.mark.parametrize("half", [0, pytest.param(1, marks=pytest.mark.slow)])
def test_the_fold_agrees_with_the_naive_fold(half: int) -> None:
    wrong = {seed: lines for seed, job in enumerate(sample()) if seed % 2 == half and (lines := disagreements(job))}
    assert wrong == {}


@pytest.mark.slow
@given(generate.jobs())
def test_the_fold_agrees_with_the_naive_fold_on_any_job(job: Job) -> None:
    assert disagreements(job) == []


@pytest.mark.slow
def test_the_fold_agrees_with_the_naive_fold_at_length() -> None:
    wrong = {}
    for seed in range(1000, 4000):
        lines = disagreements(generate.build(random.Random(seed)))
        if lines:
            wrong[seed] = lines
    assert wrong == {}


def cars(job: Job) -> list[Job]:
    """The job as it is for every value of its options."""
    return [
        dataclasses.replace(job, options={**job.options, name: dataclasses.replace(option, is_=value)})
        for name, option in job.options.items()
        for value in option.values
    ]


@pytest.mark.slow
@pytest.mark.parametrize("most", [beginnings.MOST, 3])
def test_folds_that_share_their_beginning_are_those_folded_alone(most: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beginnings, "MOST", most)
    for job in sample():
        shared = FoldCache(job)
        for car in (job, *cars(job), job):
            for name, day in views(car):
                assert fold(car, name, day, shared=shared) == fold(car, name, day)


# ---- F1, F2, F3 -----------------------------------------------------------------------------------------------------
def turned(job: Job) -> Job:
    wires = {name: dataclasses.replace(wire, from_=wire.to, to=wire.from_) for name, wire in job.wires.items()}
    rows = tuple(
        dataclasses.replace(row, was=dataclasses.replace(row.was, ends=row.was.ends[::-1])) if row.was else row
        for row in job.changes
    )
    return dataclasses.replace(job, wires=wires, changes=rows)


@given(generate.jobs())
def test_f1_the_order_of_from_and_to_changes_nothing(job: Job) -> None:
    for name, day in views(job):
        straight, swapped = fold(job, name, day), fold(turned(job), name, day)
        assert dataclasses.replace(straight, stretches=()) == dataclasses.replace(swapped, stretches=())
        assert sorted(straight.stretches, key=repr) == sorted(swapped.stretches, key=repr)


def ids(view: View) -> set[str]:
    return set(view.joints) | {name for name, node in view.nodes.items() if node.kind is NodeKind.STUB}


def test_f2_a_later_row_changes_no_id_that_exists() -> None:
    checked = 0
    for job in sample()[:60]:
        for place, row in enumerate(job.changes):
            before = plan(dataclasses.replace(job, changes=job.changes[:place]))
            after = plan(dataclasses.replace(job, changes=job.changes[: place + 1]))
            if row.corrects or row.redoes:
                continue
            lost = ids(before) - ids(after)
            if row.kind in KEEPS_EVERYTHING:
                assert lost == set(), (row.kind, row.id)
                checked += bool(ids(before))
            elif row.kind in ("join", "add", "bridge", "ground"):  # a cut end that is led on is no cut end any more
                car, _ = naive.fold(dataclasses.replace(job, changes=job.changes[:place]))
                assert lost <= {naive.resolved(car, name) for name in (*row.ends, row.from_, row.end)}
                checked += bool(ids(before))
            elif lost:
                on_wires = {end for wire in row.wire_names for stretch in before.of_wire(wire) for end in stretch.ends}
                assert lost <= on_wires
            assert all(before.joints[name].row == after.joints[name].row for name in ids(before) & set(after.joints))
    assert checked > 100


@given(generate.jobs())
def test_f2_a_row_leaves_the_wires_it_does_not_touch(job: Job) -> None:
    assume(job.changes)
    row = job.changes[-1]
    assume(not row.corrects and not row.redoes)
    before, after = plan(dataclasses.replace(job, changes=job.changes[:-1])), plan(job)
    car, _ = naive.fold(dataclasses.replace(job, changes=job.changes[:-1]))
    touched = touches(car, row)
    for wire in {stretch.wire for stretch in before.stretches} - touched:
        assert bare(before.of_wire(wire)) == bare(after.of_wire(wire))


def bare(stretches: tuple[Stretch, ...]) -> list[tuple[object, ...]]:
    return sorted((s.ends, s.length_mm, s.origin, s.offcut, s.via) for s in stretches)


@given(generate.jobs(), st.randoms(use_true_random=False))
def test_f3_a_wire_added_to_a_grouped_row_renames_nothing(job: Job, rnd: random.Random) -> None:
    grouped = [
        row
        for row in counting(job)
        if row.kind in ("extend", "ground") and row.wires and not row.redoes and not row.end.startswith("C")
    ]  # a cut end belongs to one wire: no other can be beside it
    assume(grouped)
    row = rnd.choice(grouped)
    end = f"{row.plug}.901" if row.plug else row.end or "unknown"
    wires = {**job.wires, "W901": Wire(from_=end, to="relay.901", length=length(2500))}
    more = (
        {**row.wires, "W901": next(iter(row.wires.values()))} if isinstance(row.wires, dict) else (*row.wires, "W901")
    )
    longer = dataclasses.replace(row, wires=more)
    rows = tuple(longer if other is row else other for other in job.changes)
    before = plan(dataclasses.replace(job, wires=wires))
    after = plan(dataclasses.replace(job, wires=wires, changes=rows))
    result = after.row(row.id)
    assume(result is not None and result.counts)  # a piece from an offcut may be too long for two
    assert ids(before) <= ids(after)
    assert all("W901" in name for name in ids(after) - ids(before))
    assert ids(after) - ids(before)


def test_f3_the_ids_are_as_specified() -> None:
    wires = {
        "W1": Wire(from_="lamp.1", to="F1", length=length(1000)),
        "W2": Wire(from_="FS1", to="lamp.2", length=length(1000)),
        "W3": Wire(from_="FS1", to="pump.1", length=length(1000)),
    }
    piece = Piece("", COLOURS[0], SIZES[0])
    rows = (
        Change(id="C14", kind="extend", plug="lamp", wires={"W1": piece, "W2": piece}, pigtail=length(100)),
        Change(id="C7", kind="extend", wire="W3", end="pump.1", piece=piece, pigtail=length(100)),
        Change(id="C21", kind="ground", wire="W3", end="FS1", to="L1", piece=piece, cut=length(300)),
        Change(id="C30", kind="cap", wire="W1", end="F1", stub=length(50)),
        Change(id="C9", kind="shorten", wires=("W2",), end="FS1", take_out=length(50)),
    )
    view = plan(Job(job="ids", wires=wires, changes=rows))
    assert set(view.joints) == {
        *("C14-W1-loom", "C14-W1-plug", "C14-W2-loom", "C14-W2-plug"),
        *("C7-W3-pump.1", "C7-W3-FS1", "C21", "C9-W2"),
    }
    assert ids(view) - set(view.joints) == {"C30-W1-F1", "C30-W1-lamp.1"}


# ---- F15, F19 -------------------------------------------------------------------------------------------------------
@given(generate.jobs())
def test_f15_a_refused_row_leaves_the_harness_as_it_was(job: Job) -> None:
    view = plan(job)
    refused = {row.id for row in view.rows if row.status in ("refused", "not judged")}
    assume(refused)
    # without a redo that is refused the row it redoes would count again: that is another job
    assume(not any(row.redoes for row in job.changes if row.id in refused))
    rows = tuple(row for row in job.changes if row.id not in refused)
    without = dataclasses.replace(view, rows=(), findings=(), figures=())
    assert parts(without) == parts(plan(dataclasses.replace(job, changes=rows)))
    assert all(row.why for row in view.rows if row.id in refused)


@given(generate.jobs())
def test_f15_rows_that_rest_on_a_refused_row_do_not_count(job: Job) -> None:
    piece = Piece("", COLOURS[0], SIZES[0])
    good = Change(id="C89", kind="add", wire="W89", piece=piece, from_="relay.1", to="relay.2", cut=length(500))
    bad = Change(id="C90", kind="add", wire="W90", piece=piece, from_="relay.1", to="relay.3", cut=length(500))
    resting = (
        Change(id="C91", kind="ground", wire="W90", end="relay.3", to="G1"),
        Change(id="C92", kind="terminate", wire="W90", end="relay.1", into="relay.4", terminal="new"),
    )
    job = dataclasses.replace(job, changes=(*job.changes, good))
    view = plan(dataclasses.replace(job, changes=(*job.changes, bad, *resting)))
    status = {row.id: row.status for row in view.rows}
    assert status["C90"] == "refused"
    assert {status[row.id] for row in resting} <= {"refused", "not judged"}
    assert stretches_of(view) == stretches_of(plan(job))


@given(generate.jobs())
def test_f19_rows_that_touch_nothing_in_common_may_be_swapped(job: Job) -> None:
    before = plan(job)
    stand = {row.id for row in counting(job)}
    again = {row.corrects or row.redoes for row in job.changes}
    swapped = 0
    for place in range(len(job.changes) - 1):
        one, two = job.changes[place : place + 2]
        apart = not {one.id, two.id} - stand and not (one.corrects or one.redoes or two.corrects or two.redoes)
        if not apart or {one.id, two.id} & again:
            continue
        car, _ = naive.fold(dataclasses.replace(job, changes=job.changes[:place]))
        if touches(car, one) & touches(car, two):
            continue
        rows = (*job.changes[:place], two, one, *job.changes[place + 2 :])
        assert parts(plan(dataclasses.replace(job, changes=rows))) == parts(before)
        swapped += 1
    assume(swapped)


# ---- F18 ------------------------------------------------------------------------------------------------------------
def test_f18_every_line_balances_and_so_does_the_wire() -> None:
    lines = wires = 0
    for job, view, _ in sample_plans():
        for line in view.conductor_account:
            terms = (line.before_mm, line.piece_mm, line.after_mm, line.reclaimed_mm, line.scrap_mm)
            if None not in terms:
                before, piece, after, reclaimed, scrap = (term for term in terms if term is not None)
                assert before + piece == pytest.approx(after + reclaimed + scrap, abs=LOOSE)
                assert scrap > -LOOSE
                lines += 1
        for wire, facts in job.wires.items():
            own = [line for line in view.conductor_account if line.wire == wire]
            gone = [term for line in own for term in (line.reclaimed_mm, line.scrap_mm)]
            came = naive.total([naive.mm(facts.length), *(line.piece_mm for line in own)])
            went = naive.total([*(stretch.length_mm for stretch in view.of_wire(wire)), *gone])
            if own and came is not None and went is not None:
                assert came == pytest.approx(went, abs=LOOSE), (wire, own)
                wires += 1
    assert lines > 300
    assert wires > 150


@pytest.mark.parametrize("kind", ["reroute", "protect", "bridge", "swap"])
def test_f18_what_cuts_nothing_away_leaves_no_scrap(kind: str) -> None:
    """A way, a fuse, a bridge, a connector: with old terminals and none cut off, every millimetre stays in the car."""
    checked = 0
    for job, view, _ in sample_plans():
        for line in view.conductor_account:
            row = job.change(line.row)
            if row is None or row.kind != kind or row.terminal or row.redoes or None in (line.before_mm, line.after_mm):
                continue
            if kind == "bridge" and line.piece_mm == 0:  # two free ends in a splice: an old terminal may be cut off
                continue
            assert line.piece_mm is not None
            assert line.before_mm + line.piece_mm == pytest.approx(line.after_mm, abs=LOOSE)
            assert (line.piece_mm > 0) == (kind == "bridge")
            checked += 1
    assert checked > SAMPLE // 20


def test_f18_the_ledger_says_what_the_naive_fold_finds() -> None:
    compared = 0
    for seed, (job, view, car) in enumerate(sample_plans()):
        again = {row.id for row in job.changes if row.redoes}
        meant = {(line.row, line.wire): line for line in car.conductor_account}
        booked = {(line.row, line.wire) for line in view.conductor_account}
        joins = {row.id for row in job.changes if row.kind == "join"}  # each end is booked, though no copper changes
        changed = {key for key, mine in meant.items() if key[0] in joins or mine.piece or mine.before != mine.after}
        assert {key for key in changed if key[0] not in again} <= booked, seed
        for line in view.conductor_account:
            mine = meant.get((line.row, line.wire))
            if line.row in again or mine is None:
                continue
            if mine.before is not None:
                assert line.before_mm == pytest.approx(mine.before, abs=LOOSE), (seed, line)
            if mine.after is not None:
                assert line.after_mm == pytest.approx(mine.after, abs=LOOSE), (seed, line)
            if mine.piece is not None:
                assert line.piece_mm == pytest.approx(mine.piece, abs=LOOSE), (seed, line)
            compared += mine.before is not None and mine.after is not None
    assert compared > 200


def test_f18_what_is_not_known_stays_not_known() -> None:
    unknown = 0
    for seed, (job, view, _) in enumerate(sample_plans()):
        seen: set[str] = set()
        for line in view.conductor_account:
            wire = job.wires.get(line.wire)
            if wire is None or (wire.length is not None and wire.length.mm is not None) or line.wire in seen:
                continue
            seen.add(line.wire)
            row = job.change(line.row)
            assert line.before_mm is None, (seed, line)
            assert line.scrap_mm is None or line.scrap_mm > 0 or (row is not None and row.kind != "remove"), (
                seed,
                line,
            )
            unknown += 1
        for stretch in view.stretches:
            assert stretch.length_mm is None or stretch.length_mm > 0, (seed, stretch)
    assert unknown > 50


# ---- L11 ------------------------------------------------------------------------------------------------------------
LAP, BUTT = JointMethod("lap", "lap", "soldered"), JointMethod("butt", "butt", "crimped")
PIECE = Piece("", COLOURS[0], SIZES[0])
span = st.integers(60, 900)


def one_wire(usual: Usual, *rows: Change, whole: float = 2000) -> View:
    wires = {"W1": Wire(from_="lamp.1", to="pump.1", length=length(whole))}
    return plan(Job(job="lengths", usual=usual, wires=wires, changes=rows))


def piece_of(view: View, row: str) -> float:
    (found,) = (stretch.length_mm for stretch in view.stretches if stretch.origin == row)
    assert found is not None
    return found


def usual(overlap: float, slack: float, strip: float = 6, method: JointMethod = LAP) -> Usual:
    return Usual(joint=method, overlap=length(overlap), slack=length(slack), ring_strip=length(strip))


@given(span, span, span, st.integers(0, 20), st.integers(0, 80))
def test_l11_tail_and_pigtail_may_change_places(tail: int, pigtail: int, gap: int, overlap: int, slack: int) -> None:
    house, reach = usual(overlap, slack), length(tail + pigtail + gap)
    row = Change(id="C1", kind="extend", wire="W1", plug="lamp", reach=reach, piece=PIECE)
    one = one_wire(house, dataclasses.replace(row, tail=length(tail), pigtail=length(pigtail)))
    other = one_wire(house, dataclasses.replace(row, tail=length(pigtail), pigtail=length(tail)))
    assert piece_of(one, "C1") == pytest.approx(piece_of(other, "C1"))
    assert piece_of(one, "C1") == pytest.approx(gap + slack + 2 * overlap)


@given(span, span, span)
def test_l11_without_overlap_and_slack_the_parts_make_the_reach(tail: int, pigtail: int, gap: int) -> None:
    reach = tail + pigtail + gap
    row = Change(id="C1", kind="extend", wire="W1", plug="lamp", reach=length(reach), piece=PIECE)
    row = dataclasses.replace(row, tail=length(tail), pigtail=length(pigtail))
    view = one_wire(usual(0, 0, method=BUTT), row)
    assert len(view.stretches) == 3
    assert sum(stretch.length_mm or 0.0 for stretch in view.stretches) == pytest.approx(reach)


@given(span, span, st.integers(1, 20), st.integers(0, 80))
def test_l11_shortened_by_its_gain_a_wire_is_as_long_as_it_was(
    pigtail: int, gap: int, overlap: int, slack: int
) -> None:
    house = usual(overlap, slack)
    row = Change(id="C1", kind="extend", wire="W1", plug="lamp", gap=length(gap), pigtail=length(pigtail), piece=PIECE)
    gain = one_wire(house, row).pieces[0].gain_mm
    assert gain is not None
    assert gain == pytest.approx(gap + slack)
    take_out = Length("", gain - overlap)
    assume(take_out.mm is not None and take_out.mm > 0)
    back = Change(id="C2", kind="shorten", wire="W1", end="pump.1", take_out=take_out, pigtail=length(10))
    assume(2000 - pigtail - 10 > gain)
    view = one_wire(house, row, back)
    assert [result.status for result in view.rows] == ["in force", "in force"]
    assert sum(stretch.effective_mm or 0.0 for stretch in view.stretches) == pytest.approx(2000)


@given(span, st.integers(0, 20), st.integers(0, 12), st.integers(0, 80))
def test_l11_a_barrel_takes_the_place_of_the_second_joint(gap: int, overlap: int, strip: int, slack: int) -> None:
    house = usual(overlap, slack, strip)
    cut = Change(id="C1", kind="extend", wire="W1", plug="lamp", gap=length(gap), pigtail=length(100), piece=PIECE)
    ring = Change(id="C1", kind="ground", wire="W1", end="lamp.1", to="L1", gap=length(gap), piece=PIECE)
    two_joints, one_joint = one_wire(house, cut), one_wire(house, ring)
    assert piece_of(one_joint, "C1") - piece_of(two_joints, "C1") == pytest.approx(strip - overlap)


@given(st.lists(span, min_size=1, max_size=3), st.integers(1, 15), st.integers(0, 60))
def test_l7_l9_the_piece_is_cut_up_to_the_step_and_the_rest_is_slack(gaps: list[int], overlap: int, slack: int) -> None:
    house = dataclasses.replace(usual(overlap, slack), cut_to_next=length(5))
    for gap in gaps:
        row = Change(id="C1", kind="extend", wire="W1", plug="lamp", gap=length(gap), pigtail=length(99), piece=PIECE)
        e = piece_of(one_wire(house, row), "C1")
        assert rounded(e % 5) in (0, 5)
        assert 0 <= e - (gap + slack + 2 * overlap) < 5
