"""The fold: rows in force over the donor's wires, each judged by itself, none leaving a trace when it is refused."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, replace

from aswired.asbuilt.beginnings import Beginnings, Outcome, Rows, Stage
from aswired.asbuilt.freeze import freeze
from aswired.asbuilt.order import Order, order
from aswired.changes import KINDS
from aswired.changes.bridge import in_one_splice
from aswired.changes.swap import cavities_in_use
from aswired.compute.lengths import total
from aswired.diagnostics import Finding, Severity
from aswired.harness import CutPiece, LedgerLine, NodeKind, OffcutUse, RowResult, View
from aswired.loom import Loom, Mark, Refused, was_of
from aswired.model import Change, Job
from aswired.route import Route
from aswired.schema import keys_of

_BY_NAME = {kind.NAME: kind for kind in KINDS}


def fold(
    job: Job,
    view: str,
    day: datetime.date | None = None,
    route: Route | None = None,
    shared: Beginnings | None = None,
) -> View:
    """The harness of one view: 'donor', 'now', 'handed over' or 'plan'. `day` is the date of now and handed over.

    `shared` is given to the folds of one job, or of the same job with other options: what their lists begin with in
    common is folded once.
    """
    route = route or Route(job)
    rows = _listed(job, view, day, {})
    done = _behind(rows, route, shared or Beginnings(job))
    results, findings = dict(rows.chosen.results), list(rows.chosen.findings)
    refused = dict(done.refused)
    for row, outcome in zip(rows.chosen.rows, done.outcomes, strict=True):
        results[row.id] = _result(results[row.id], outcome)
        if outcome.finding is not None:
            findings.append(_explain_redo(outcome.finding, row, rows.chosen, refused))
    loom = Loom(job, route)
    loom.s = done.state
    return freeze(loom, view, day, tuple(results[row.id] for row in _once(job)), tuple(findings))


@dataclass(frozen=True)
class _List:
    """The rows that a view folds."""

    job: Job
    chosen: Order
    undone: Mapping[str, _List]  # a row that redoes -> the list as it was up to the redone row
    keys: Rows


def _listed(job: Job, view: str, day: datetime.date | None, known: dict[int, _List]) -> _List:
    """The list of a view; `known` holds those that end sooner, by the number of rows of their job."""
    if len(job.changes) in known:
        return known[len(job.changes)]
    chosen = order(job, view, day)
    undone: dict[str, _List] = {}
    for row in chosen.rows:
        if row.redoes in chosen.redone:
            upto = next(index for index, change in enumerate(job.changes) if change.id == row.redoes)
            undone[row.id] = _listed(replace(job, changes=job.changes[: upto + 1]), view, day, known)
    keys = ((row.id, undone[row.id].keys) if row.id in undone else row.id for row in chosen.rows)
    # a wire that only a row tells of is laid with the donor's, so the rows of the job count too
    known[len(job.changes)] = found = _List(job, chosen, undone, (len(job.changes), *keys))
    return found


def _behind(rows: _List, route: Route, shared: Beginnings) -> Stage:
    """The harness behind all rows of a list."""
    loom = Loom(rows.job, route)
    stage = shared.longest(rows.keys)
    if stage is None:
        _lay_donor(loom)
        stage = Stage(loom.s, (), ())
        shared.keep(rows.keys, 1, stage)
    loom.s, outcomes, refused = stage.state.copy(), list(stage.outcomes), dict(stage.refused)
    for row in rows.chosen.rows[len(outcomes) :]:
        if row.id in rows.undone:
            _scrap_of_redone(loom, row, _behind(rows.undone[row.id], route, shared).state.pieces)
        outcomes.append(_one(loom, row, refused))
        if shared.keeps(rows.keys, 1 + len(outcomes)):
            stage = Stage(loom.s.copy(), tuple(outcomes), tuple(refused.items()))
            shared.keep(rows.keys, 1 + len(outcomes), stage)
    return stage


def _result(result: RowResult, outcome: Outcome) -> RowResult:
    """What the view said of a row that it folds, with what came of it."""
    if outcome.status != "in force":
        return replace(result, status=outcome.status, why=outcome.why)
    return replace(result, touched_wires=outcome.touched_wires, moved_with=outcome.moved_with)


def _once(job: Job) -> list[Change]:
    """The rows in the order of the file, an id that is used twice only once."""
    return list({row.id: row for row in reversed(job.changes)}.values())[::-1]


def _lay_donor(loom: Loom) -> None:
    job = loom.job
    for name, offcut in job.offcuts.items():
        loom.s.offcuts[name] = OffcutUse(name, offcut.colour, offcut.size, offcut.length.mm, "")
    for name, wire in job.wires.items():
        loom.lay(name, wire.colour, wire.size, (wire.from_, wire.to), wire.length, wire.via)
    for name, was in was_of(job.changes).items():
        if name not in job.wires:
            loom.lay(name, was.colour, was.size, was.ends, was.length, "")


def _one(loom: Loom, row: Change, refused: dict[str, Refused]) -> Outcome:
    """Fold one row, or put everything back and say why not (F15)."""
    untested = [old for old in (*row.proves, *row.over) if old in refused]
    if untested:
        return _not_judged(row, untested[0])
    before = loom.s.mark()
    loom.moved_with = ()
    names = _wires_touched(row, loom)
    start = {name: loom.total(name) for name in names}
    pieces = len(loom.s.pieces)
    try:
        _needs(row)
        _BY_NAME[row.kind].apply(row, loom)
        _nothing_below_nothing(loom, before)
        loom.reclaim(row)
        loom.spares(row)
        _account(loom, row, start, loom.s.pieces[pieces:])
    except Refused as no:
        loom.s.back_to(before)
        refused[row.id] = no
        rests_on = _rests_on(row, no, refused, _leads(loom, refused))
        if rests_on:
            return _not_judged(row, rests_on)
        finding = Finding(no.code, Severity.ERROR, row.line_of(no.key), row.id, no.problem, no.mend)
        return Outcome("refused", no.problem, finding=finding)
    for wire in names:
        if wire in loom.s.wires:
            loom.touched(wire, row.id)
    return Outcome(touched_wires=tuple(names), moved_with=loom.moved_with)


def _not_judged(row: Change, old: str) -> Outcome:
    why = f"rests on {old}, which is refused"
    note = Finding("ROW04", Severity.NOTE, row.at, row.id, f"not judged: it {why}", f"Mend {old} first")
    return Outcome("not judged", why, finding=note)


def _nothing_below_nothing(loom: Loom, before: Mark) -> None:
    """Every stretch that the row made or changed has some length left (F15)."""
    for run in loom.s.runs_since(before):
        if run.reach_mm is None or run.reach_mm > 0:
            continue
        if NodeKind.STUB not in (loom.s.nodes[run.a].kind, loom.s.nodes[run.b].kind):
            raise Refused(
                f"of {run.wire} between {run.a} and {run.b} nothing would be left ({round(run.reach_mm)} mm)",
                "Measure the lengths of this row again",
            )


def _needs(row: Change) -> None:
    for group in _BY_NAME[row.kind].NEEDS:
        if not any(getattr(row, keys_of(Change)[key][0]) for key in group):
            wanted = " or ".join(f"'{key}:'" for key in group)
            raise Refused(f"a row of kind {row.kind} wants {wanted}", f"Write {group[0]}: on the row", "kind", "ROW01")


def _wires_touched(row: Change, loom: Loom) -> list[str]:
    """Wires whose conductor the row may change, in the order written. verify and cover change none."""
    if row.kind in ("verify", "cover"):
        return []
    found = dict.fromkeys(row.wire_names)
    if row.kind == "swap":
        found |= dict.fromkeys(name for names in cavities_in_use(loom, row.plug).values() for name in names)
    if row.kind == "bridge" and not in_one_splice(row, loom):
        return [row.wire or row.id]
    if row.kind in ("join", "bridge"):
        for written in row.ends:
            wire, at, _ = written.partition(" at ")
            stub = loom.s.nodes.get(written)
            members = loom.members(written) if stub is not None else []
            found.setdefault(wire if at else members[0].wire if members else "")
    if row.onto:
        found.setdefault(row.onto)
    found.pop("", None)
    return list(found)


def _account(loom: Loom, row: Change, before: dict[str, float | None], pieces: list[CutPiece]) -> None:
    """The row's conservation line for each wire (F18): before + piece = after + reclaimed + scrap."""
    for wire, was in before.items():
        put_in = total(*(piece.length_mm for piece in pieces if piece.wire == wire))
        after, reclaimed = loom.total(wire), _reclaimed(loom, row, wire)
        gone = (None if term is None else -term for term in (after, reclaimed))
        scrap = total(was, put_in, *gone)
        scrap = None if scrap is None else round(scrap, 6)
        loom.s.ledger.append(LedgerLine(row.id, wire, was, put_in, after, reclaimed, scrap))


def _reclaimed(loom: Loom, row: Change, wire: str) -> float | None:
    """What of the row's reclaimed pieces came off one wire: in a grouped row told by the colour, else not recorded."""
    whole = 0.0
    for offcut in row.reclaimed.values():
        alike = [name for name in row.wire_names if loom.s.wires[name].colour.code == offcut.colour.code]
        of = row.wire_names if len(row.wire_names) == 1 else alike
        if len(of) != 1 or offcut.length.mm is None:
            return None
        whole += offcut.length.mm if of[0] == wire else 0.0
    return whole


def _rests_on(row: Change, no: Refused, refused: dict[str, Refused], leads: dict[str, str]) -> str:
    """The refused row that this row's names point to: a splice, a stub, a ring, an offcut or a new lead of it."""
    texts = [no.problem, row.end, row.to, row.from_, row.into, row.onto, row.wire, *row.wire_names, *map(str, row.ends)]
    if row.ring is not None:
        texts.append(row.ring.shared_with)
    parts = (end.partition(".")[0] for end in (row.plug, row.end, row.to, row.from_, row.into))
    for name in (*row.wire_names, row.onto, *parts):
        if leads.get(name, row.id) != row.id:
            return leads[name]
    for old in refused:
        if old == row.id:
            continue
        if any(_speaks_of(old, text) for text in texts):
            return old
    return ""


def _speaks_of(row: str, text: str) -> bool:
    """Whether a text names a row or one of its splices and cut ends."""
    return any(word == row or word.startswith(row + "-") for word in text.replace("'", " ").split())


def _leads(loom: Loom, refused: dict[str, Refused]) -> dict[str, str]:
    """What a refused row would have brought into the car, a lead, a connector, a fuse: its name -> that row."""
    found: dict[str, str] = {}
    for row in loom.job.changes:
        if row.id not in refused:
            continue
        new = {"add": row.wire, "tap": row.wire, "bridge": row.wire, "swap": row.new_plug, "protect": row.fuse}
        name = new.get(row.kind, "")
        if name and name not in loom.s.wires and name not in loom.s.fuses:
            found[name] = row.id
    return found


def _scrap_of_redone(loom: Loom, row: Change, before: list[CutPiece]) -> None:
    """What the redone row had used stays used: its pieces, of those `before`, came out again as scrap (F14)."""
    for piece in before:
        if piece.row != row.redoes:
            continue
        if piece.offcut in loom.s.offcuts:
            account = loom.s.offcuts[piece.offcut]
            loom.s.offcuts[piece.offcut] = replace(account, cuts=(*account.cuts, (piece.id, piece.length_mm)))
        loom.s.ledger.append(
            LedgerLine(row.id, f"{piece.id}, taken out", None, piece.length_mm, None, 0.0, piece.length_mm)
        )


def _explain_redo(finding: Finding, row: Change, chosen: Order, refused: dict[str, Refused]) -> Finding:
    """A row that rests on what a redo took out is told so (F14)."""
    if row.id not in refused:
        return finding
    for old, new in chosen.redone.items():
        if _speaks_of(old, refused[row.id].problem):
            problem = f"{finding.problem}; it rests on {old}, which {new} took out"
            return replace(
                finding,
                problem=problem,
                mend=f"Put this row behind {new} and let it rest on {new}, or do it again too",
                code="ROW11",
            )
    return finding
