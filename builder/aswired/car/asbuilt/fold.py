"""The fold: rows in force over the donor's wires, each judged by itself, none leaving a trace when it is refused."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace
from itertools import takewhile

from aswired.car.asbuilt.beginnings import FoldCache, Outcome, Standing
from aswired.car.asbuilt.freeze import freeze
from aswired.car.asbuilt.lists import Rows, lists
from aswired.car.asbuilt.order import RowOrder, order
from aswired.car.asbuilt.refusals import Refusals, spoken_of
from aswired.car.changes import Kind, kind_of
from aswired.car.harness import ConductorAccount, CutPiece, NodeKind, OffcutUse, RowResult, View
from aswired.car.loom import Refused, SavePoint, WorkingHarness, was_of
from aswired.car.loom.state import ROW01
from aswired.car.route import Route
from aswired.physics.lengths import total
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Rule, Severity
from aswired.text.schema import keys_of

ROW04 = Rule("ROW04", Severity.NOTE)
ROW11 = Rule("ROW11", Severity.ERROR)


def fold(
    job: Job,
    view: str,
    day: datetime.date | None = None,
    route: Route | None = None,
    shared: FoldCache | None = None,
) -> View:
    """The harness of one view: 'donor', 'now', 'handed over' or 'plan'. `day` is the date of now and handed over.

    `shared` is given to the folds of one job, or of the same job with other options: what their lists begin with in
    common is folded once.

    A row that redoes another needs the list as it was up to that one. Of these lists, taken from the top of the file,
    each goes on from where it parts from the one before, so every row is folded once and what stands behind a row that
    was taken out is folded again. Where rows are done again soon, or in the order in which they were done, that is two
    folds a row at most on the whole; at worst, with early rows done again one by one between late ones, it is n rows
    for each of k redone rows. Where the redone rows tell of wires by `was:`, each list has a donor of its own and is
    folded from there.
    """
    route = route or Route(job)
    whole = order(job, view, day)
    walk = _Walk(job, route, shared)
    for redone, rows in lists(job, view, day, whole, walk.ahead):
        if redone:
            walk.up_to_redone(redone, rows)
        elif rows is not None:
            walk.to_the_end(rows)
    results, findings = dict(whole.results), list(whole.findings)
    for row, outcome in zip(whole.rows, walk.at.outcomes, strict=True):
        results[row.id] = _result(results[row.id], outcome)
        if outcome.finding is not None:
            findings.append(_explain_redo(outcome.finding, row, whole, walk.at.refused))
    return freeze(walk.at.loom, view, day, tuple(results[row.id] for row in _once(job)), tuple(findings))


class _Walk:
    """The way of the harness through the lists of a view, each on from where it parts from the one before."""

    def __init__(self, job: Job, route: Route, shared: FoldCache | None) -> None:
        self._kept = shared or FoldCache(job)
        self._keeps = shared is not None
        self._numbers: list[int] = []  # of the list numbered last: the donor's wires, then behind each place
        self._sure = 0  # so many of them are those of the places where the harness stands
        self._out: dict[str, tuple[int, tuple[CutPiece, ...]]] = {}  # redone row -> its list's number, its pieces
        self.at = self._kept.standing or Standing(WorkingHarness(job, route), Refusals(job))
        self._kept.standing = self.at
        self.at.loom.job, self.at.loom.route = job, route

    @property
    def ahead(self) -> Mapping[str, tuple[int, ...]]:
        return self._kept.ahead

    def up_to_redone(self, row: str, rows: Rows | None) -> None:
        """Find the pieces that a redone row had let in; where it did not count there are none."""
        if rows is None:
            self._out[row] = (0, ())
            return
        number = self._number(rows)
        pieces = self._kept.out(number)
        if pieces is None:
            self._go(rows)
            pieces = tuple(takewhile(lambda piece: piece.row == row, reversed(self.at.loom.s.pieces)))[::-1]
            self._kept.keep_out(number, pieces)
        self._out[row] = (number, pieces)

    def to_the_end(self, rows: Rows) -> None:
        self._number(rows)
        self._go(rows)

    def _number(self, rows: Rows) -> int:
        """Number what stands behind each place of a list."""
        donor = self._kept.donor(rows.upto)
        same = 1 + rows.same if self._numbers[:1] == [donor] else 0
        numbers = self._numbers[:same] or [donor]
        number = numbers[-1]
        for row in rows.rows[len(numbers) - 1 : rows.end]:
            if row is not None:
                undone = self._out[row.redoes][0] if row.redoes and row.redoes in rows.redone else 0
                number = self._kept.behind(number, row.id, undone, rows.upto)
            numbers.append(number)
        self._numbers, self._sure = numbers, min(self._sure, same)
        return numbers[rows.end]

    def _go(self, rows: Rows) -> None:
        """Bring the harness behind the rows of a list that is numbered."""
        at = self.at
        self._begin(rows)
        at.loom.upto = rows.upto
        for place in range(len(at.marks), rows.end + 1):
            row = rows.rows[place - 1]
            if row is not None:
                if row.redoes and row.redoes in rows.redone:
                    _scrap_of_redone(at.loom, row, self._out[row.redoes][1])
                at.outcomes.append(_one(at.loom, row, at.refused))
                if self._keeps and self._kept.keeps(len(at.outcomes)):
                    self._kept.keep(at.numbers[place], at.stage())
            at.mark()

    def _begin(self, rows: Rows) -> None:
        """Stand behind the most rows of a list behind which the harness stood before, here or in another fold."""
        at = self.at
        alike = min(self._sure, len(at.marks))
        while alike < min(len(at.marks), len(self._numbers)) and at.numbers[alike] == self._numbers[alike]:
            alike += 1  # an earlier list, or the fold before this one, led here too
        del at.marks[alike:]
        at.numbers, self._sure = self._numbers, len(self._numbers)
        here = len(at.marks) - 1 if at.marks and at.marks[-1] is not None else -1
        for place in range(rows.end, here, -1):
            stage = self._kept.stage(at.numbers[place])
            if stage is not None:
                at.begin_at(stage, place)
                return
        if at.go_back():
            return
        at.loom = WorkingHarness(at.loom.job, at.loom.route)
        _lay_donor(at.loom, rows.upto)
        at.outcomes, at.refused, at.marks = [], Refusals(at.loom.job), []
        at.mark()
        if self._keeps:
            self._kept.keep(at.numbers[0], at.stage())


def _result(result: RowResult, outcome: Outcome) -> RowResult:
    """What the view said of a row that it folds, with what came of it."""
    if outcome.status != "in force":
        return replace(result, status=outcome.status, why=outcome.why)
    return replace(result, touched_wires=outcome.touched_wires, moved_with=outcome.moved_with)


def _once(job: Job) -> list[Change]:
    """The rows in the order of the file, an id that is used twice only once."""
    return list({row.id: row for row in reversed(job.changes)}.values())[::-1]


def _lay_donor(loom: WorkingHarness, upto: int) -> None:
    """The donor's wires; of those that only a row tells of, the ones that the first `upto` rows of the file do."""
    job = loom.job
    for name, offcut in job.offcuts.items():
        loom.s.offcuts[name] = OffcutUse(name, offcut.colour, offcut.size, offcut.length.mm, "")
    for name, wire in job.wires.items():
        loom.lay(name, wire.colour, wire.size, (wire.from_, wire.to), wire.length, wire.via)
    for name, was in was_of(job.changes[:upto]).items():
        if name not in job.wires:
            loom.lay(name, was.colour, was.size, was.ends, was.length, "")


def _one(loom: WorkingHarness, row: Change, refused: Refusals) -> Outcome:
    """Fold one row, or put everything back and say why not (F15)."""
    untested = [old for old in (*row.proves, *row.over) if old in refused]
    if untested:
        return _not_judged(row, untested[0])
    before = loom.s.mark()
    loom.moved_with = ()
    kind = kind_of(row)
    names = list(dict.fromkeys(filter(None, kind.touches(row, loom))))
    start = {name: loom.total(name) for name in names}
    pieces = len(loom.s.pieces)
    try:
        _needs(row, kind)
        kind.apply(row, loom)
        _refuse_lengths_below_zero(loom, before)
        loom.reclaim(row)
        loom.spares(row)
        _account(loom, row, start, loom.s.pieces[pieces:])
    except Refused as no:
        loom.s.back_to(before)
        no.__traceback__ = None  # kept beyond this row, it would keep every frame of it
        refused.add(row.id, no)
        rests_on = refused.rested_on(row, no, loom)
        if rests_on:
            return _not_judged(row, rests_on)
        finding = no.rule(row.line_of(no.key), row.id, no.problem, no.mend)
        return Outcome("refused", no.problem, finding=finding)
    for wire in names:
        if wire in loom.s.wires:
            loom.touched(wire, row.id)
    return Outcome(touched_wires=tuple(names), moved_with=loom.moved_with)


def _not_judged(row: Change, old: str) -> Outcome:
    why = f"rests on {old}, which is refused"
    note = ROW04(row.at, row.id, f"not judged: it {why}", f"Mend {old} first")
    return Outcome("not judged", why, finding=note)


def _refuse_lengths_below_zero(loom: WorkingHarness, before: SavePoint) -> None:
    """Every stretch that the row made or changed has some length left (F15)."""
    for run in loom.s.runs_since(before):
        if run.reach_mm is None or run.reach_mm > 0:
            continue
        if NodeKind.STUB not in (loom.s.nodes[run.a].kind, loom.s.nodes[run.b].kind):
            raise Refused(
                f"of {run.wire} between {run.a} and {run.b} nothing would be left ({round(run.reach_mm)} mm)",
                "Measure the lengths of this row again",
                about=(run.wire, run.a, run.b),
            )


def _needs(row: Change, kind: Kind) -> None:
    for group in kind.needs:
        if not any(getattr(row, keys_of(Change)[key][0]) for key in group):
            wanted = " or ".join(f"'{key}:'" for key in group)
            raise Refused(f"a row of kind {kind.name} wants {wanted}", f"Write {group[0]}: on the row", "kind", ROW01)


def _account(loom: WorkingHarness, row: Change, before: dict[str, float | None], pieces: list[CutPiece]) -> None:
    """The row's conservation line for each wire (F18): before + piece = after + reclaimed + scrap."""
    for wire, was in before.items():
        put_in = total(*(piece.length_mm for piece in pieces if piece.wire == wire))
        after, reclaimed = loom.total(wire), _reclaimed(loom, row, wire)
        gone = (None if term is None else -term for term in (after, reclaimed))
        scrap = total(was, put_in, *gone)
        scrap = None if scrap is None else round(scrap, 6)
        loom.s.conductor_account.append(ConductorAccount(row.id, wire, was, put_in, after, reclaimed, scrap))


def _reclaimed(loom: WorkingHarness, row: Change, wire: str) -> float | None:
    """What of the row's reclaimed pieces came off one wire: in a grouped row told by the colour, else not recorded."""
    whole = 0.0
    for offcut in row.reclaimed.values():
        alike = [name for name in row.wire_names if loom.s.wires[name].colour.code == offcut.colour.code]
        of = row.wire_names if len(row.wire_names) == 1 else alike
        if len(of) != 1 or offcut.length.mm is None:
            return None
        whole += offcut.length.mm if of[0] == wire else 0.0
    return whole


def _scrap_of_redone(loom: WorkingHarness, row: Change, pieces: tuple[CutPiece, ...]) -> None:
    """What the redone row had used stays used: its pieces came out again as scrap (F14)."""
    for piece in pieces:
        if piece.offcut:
            loom.s.offcuts[piece.offcut] = loom.cut_from(piece, piece.id, piece.length_mm)
        loom.s.conductor_account.append(
            ConductorAccount(row.id, f"{piece.id}, taken out", None, piece.length_mm, None, 0.0, piece.length_mm)
        )


def _explain_redo(finding: Finding, row: Change, chosen: RowOrder, refused: Refusals) -> Finding:
    """A row that rests on what a redo took out is told so (F14)."""
    about = refused[row.id].about if row.id in refused else ()
    spoken = {old for name in about for old in spoken_of(name, chosen.redone)}
    if not spoken:
        return finding
    old = min(spoken, key=list(chosen.redone).index)
    new = chosen.redone[old]
    return replace(
        finding,
        problem=f"{finding.problem}; it rests on {old}, which {new} took out",
        mend=f"Put this row behind {new} and let it rest on {new}, or do it again too",
        code=ROW11.code,
    )
