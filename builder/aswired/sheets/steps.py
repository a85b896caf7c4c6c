"""One planned row as a step to work from: where to cut, which piece, what hangs on it, how it is proved.

Lengths are those that the fold computed; nothing is computed here but the circuits of the plan, where the pages show
another moment.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.circuits import Circuit, CircuitFigures
from aswired.car.harness import CutPiece, NodeKind, Stretch, is_untraced
from aswired.car.trace import circuits
from aswired.figures.electric import circuit_figures, transfer_of
from aswired.figures.places import PlacedJoint
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.sheets.changes import ChangeRow, Fact, change_rows, fates, what
from aswired.sheets.text import Printed, amount, length, listing, piece_length, printed, size
from aswired.text.colours import UNKNOWN, Colour
from aswired.text.diagnostics import Finding, Severity
from aswired.text.units import end_words
from aswired.text.unsaid import NOT_COMPUTED, NOT_READ, NOT_RECORDED

NOT_BY_SHEET = ("restraint", "high voltage")  # no working instructions are printed for these


@dataclass(frozen=True)
class CutLine:
    """Where a wire is cut or joined: `152 mm` `stays on siren-plug.1`."""

    length: str
    words: str


@dataclass(frozen=True)
class PieceLine:
    """The piece to cut: its length as the figures give it, and what that length still waits for."""

    id: str
    colour: Colour
    size: str
    length: str
    waits_for: str
    offcut: str
    new: bool  # a lead that is new as a whole


@dataclass(frozen=True)
class JointLine:
    """A joint to make and where its centre lies on the finished car."""

    id: str
    place: str
    along: str


@dataclass(frozen=True)
class StepWire:
    """One wire of a step, as it is before the work. `left`: how its ends are to be left."""

    name: str
    colour: Colour
    size: str
    ends: str
    cuts: tuple[CutLine, ...]
    piece: PieceLine | None
    joints: tuple[JointLine, ...]
    left: str


@dataclass(frozen=True)
class TestLine:
    """A test that proves the step: the row that describes it, what is measured, what should be read."""

    row: str
    what: str
    expect: str


@dataclass(frozen=True)
class DropLine:
    """Volts that a load of the step will lose in feed and return, itself alone on, as computed for the plan."""

    load: str
    volts: str
    limit: str
    above: bool


@dataclass(frozen=True)
class Hanging:
    """What else sits in a splice that a wire of the step ends in."""

    splice: str
    wires: tuple[str, ...]
    all_known: bool


@dataclass(frozen=True)
class WorkStep:
    """One planned row, ready to be worked from."""

    id: str
    kind: str
    what: str
    barred: str  # why no instructions are given; '' for ordinary work
    wires: tuple[StepWire, ...]
    facts: tuple[Fact, ...]
    hanging: tuple[Hanging, ...]
    dead: tuple[str, ...]  # loads fed or returned over its wires before the work
    fuses: tuple[str, ...]
    moves_with: tuple[str, ...]
    over: tuple[str, ...]
    proves: tuple[str, ...]
    undoes: str
    tests: tuple[TestLine, ...]
    drops: tuple[DropLine, ...]
    ticks: tuple[str, ...]
    findings: tuple[Finding, ...]
    why: str
    note: str


@dataclass(frozen=True)
class Bench:
    """What every step of a job is looked up in: its change list, its circuits before the work and after it."""

    worked: JobResult
    rows: Mapping[str, ChangeRow]
    before: Mapping[str, Circuit]
    after: Mapping[str, Circuit]
    figures: Mapping[str, CircuitFigures]


def bench_of(worked: JobResult) -> Bench:
    """Worked out once, since tracing the plan is the dear part."""
    job, plan = worked.job, worked.plan
    rows = {row.id: row for row in change_rows(worked)}
    if worked.shown.name == "plan":
        return Bench(worked, rows, worked.donor_circuits, worked.circuits, worked.circuit_figures)
    after = circuits(job, plan)
    old = worked.donor_network
    return Bench(worked, rows, worked.circuits, after, circuit_figures(job, transfer_of(job, plan, after), old))


def step_of(row: Change, facts: Bench) -> WorkStep:
    """The step of one planned row that counts in the plan."""
    worked, told = facts.worked, facts.rows[row.id]
    barred = barred_by(row, worked)
    names = tuple(dict.fromkeys((*row.wire_names, *_joined(row, worked))))
    placed = tuple(placed for placed in worked.joints if placed.joint.row == row.id)
    cut = tuple(dict.fromkeys(filter(None, (*names, row.onto)))) if kind_of(row).alters_harness else ()
    dead = tuple(load for load, circuit in facts.before.items() if _wires_of(circuit) & set(cut))
    return WorkStep(
        id=row.id,
        kind=row.kind,
        what=what(row),
        barred=barred,
        wires=() if barred else tuple(_wire(wire, row, placed, worked) for wire in names),
        facts=() if barred else tuple(_how(row, told, placed, worked)),
        hanging=tuple(_hanging(cut, worked)),
        dead=dead,
        fuses=tuple(dict.fromkeys(fuse for load in dead for fuse in facts.before[load].fuses)),
        moves_with=told.moved_with,
        over=row.over,
        proves=row.proves,
        undoes=row.redoes,
        tests=() if barred else tuple(_tests(row, worked)),
        drops=() if barred else tuple(_drops(row, cut, facts)),
        ticks=() if barred else kind_of(row).ticks(row, bool(placed)),
        findings=tuple(f for f in told.findings if f.severity <= Severity.WARNING),
        why=row.why,
        note=row.note,
    )


def barred_by(row: Change, worked: JobResult) -> str:
    """Why a row is no work for this sheet: it cuts into wires declared restraint or high voltage."""
    wires = worked.job.wires
    for name in (*row.wire_names, row.onto):
        if name in wires and wires[name].special in NOT_BY_SHEET:
            return f"{name} is declared {wires[name].special}"
    return ""


def _joined(row: Change, worked: JobResult) -> tuple[str, ...]:
    """Wires of a row that joins them and names their ends instead."""
    result = worked.plan.row(row.id)
    by_ends = kind_of(row).joints and not row.wire_names
    return result.touched_wires if by_ends and result is not None else ()


def _wire(wire: str, row: Change, placed: tuple[PlacedJoint, ...], worked: JobResult) -> StepWire:
    own = tuple(item for item in placed if wire in item.joint.wires)
    stretch = _as_it_is(wire, row, worked)
    new = stretch is None
    state = worked.plan.wires.get(wire)
    pieces = [piece for piece in worked.pieces if piece.row == row.id and piece.wire == wire]
    ends = _ends(row, stretch)
    return StepWire(
        name=wire,
        colour=stretch.colour if stretch else (state.colour if state else UNKNOWN),
        size=size(stretch.size) if stretch else (size(state.size) if state else NOT_READ),
        ends=ends,
        cuts=tuple(_cuts(wire, row, stretch, own, worked)),
        piece=_piece(pieces[0], new, worked.job) if pieces else None,
        joints=tuple(_joint(item, worked.job.units) for item in own),
        left=fates(row.fates_of(wire).items(), worked.job.units),
    )


def _as_it_is(wire: str, row: Change, worked: JobResult) -> Stretch | None:
    """The stretch of a wire that the row works on, before the work; None for a lead that is not there yet."""
    stretches = worked.now.of_wire(wire)
    named = (row.end, *(e.rpartition(" at ")[2] for e in _ends_written(row)))
    for stretch in stretches:
        if any(worked.now.is_end(end, name) for end in stretch.ends for name in named):
            return stretch
        if row.plug and any(end.startswith(f"{row.plug}.") for end in stretch.ends):
            return stretch
    return stretches[0] if stretches else None


def _ends_written(row: Change) -> tuple[str, ...]:
    return () if isinstance(row.ends, Mapping) else tuple(row.ends)


def _ends(row: Change, stretch: Stretch | None) -> str:
    if stretch is not None:
        return " to ".join("an end not traced" if is_untraced(end) else end for end in stretch.ends)
    return " to ".join(filter(None, kind_of(row).lead(row)))


def _cuts(
    wire: str, row: Change, stretch: Stretch | None, placed: tuple[PlacedJoint, ...], worked: JobResult
) -> Iterable[CutLine]:
    """Where the wire is cut, told by what stays; of a tap, where the wire that is not cut is bared."""
    units, kind = worked.job.units, kind_of(row)
    if kind.takes_out:
        computed = next((f for f in worked.plan.figures if f.key == f"{row.id}-{wire}.out"), None)
        if row.take_out is None and computed is not None:
            yield CutLine(printed(computed, units), "comes out")
        else:
            yield CutLine(amount(row.take_out.mm if row.take_out else None, "mm", units), "comes out")
    if kind.alters == "dead":
        yield CutLine(length(row.stub, units), f"stays on {end_words(row.end)}")
        return
    seen: set[str] = set()
    for item in placed:
        joint = item.joint
        if joint.tap:
            at = f"from {joint.cut_from} on {row.onto}, which is not cut" if joint.cut_from else f"on {row.onto}"
            yield CutLine(amount(joint.cut_face_mm, "mm", units), at)
        elif joint.cut_from and joint.cut_from not in seen:
            seen.add(joint.cut_from)
            yield CutLine(amount(joint.cut_face_mm, "mm", units), f"stays on {end_words(joint.cut_from)}")
    if kind.moves_to(row) and not placed:
        kept = row.pigtail or row.tail
        if kept is not None and stretch is not None:
            fixed = next((end for end in stretch.ends if not worked.now.is_end(end, row.end)), "its fixed end")
            yield CutLine(length(kept, units), f"stays on {fixed}")
        else:
            yield CutLine("No joint", "the wire reaches as it is")


def _piece(piece: CutPiece, new: bool, job: Job) -> PieceLine:
    return PieceLine(
        id=piece.id,
        colour=piece.colour,
        size=size(piece.size),
        length=piece_length(piece, job.units),
        waits_for=listing(piece.computed.missing_words, "") if piece.length_mm is None else "",
        offcut=piece.offcut,
        new=new,
    )


def _joint(placed: PlacedJoint, units: str) -> JointLine:
    joint = placed.joint
    told = joint.centre_mm is not None and joint.from_end
    along = Printed(f"{printed(placed.centre, units)} from {joint.from_end}", placed.centre.key) if told else ""
    return JointLine(joint.id, placed.place or NOT_RECORDED, along)


def usual_joint(job: Job) -> Iterable[tuple[str, str]]:
    """How this job makes a joint unless a row says otherwise: joint, overlap and sleeve, as far as the job says."""
    if job.usual.joint is not None:
        yield "joint", job.usual.joint.text
    if job.usual.overlap is not None:
        yield "overlap", length(job.usual.overlap, job.units)
    if job.usual.cover is not None:
        yield "sleeve", job.usual.cover.text


def _how(row: Change, told: ChangeRow, placed: tuple[PlacedJoint, ...], worked: JobResult) -> Iterable[Fact]:
    joints, usual = [item.joint for item in placed], dict(usual_joint(worked.job))
    if joints:
        for name, each in (
            ("joint", (joint.method.text if joint.method else NOT_RECORDED for joint in joints)),
            ("overlap", (amount(joint.overlap_mm, "mm", worked.job.units) for joint in joints)),
            ("sleeve", (joint.cover.text if joint.cover else NOT_RECORDED for joint in joints)),
        ):
            words = listing(dict.fromkeys(each))
            yield Fact(name, words, usual=words == usual.get(name))
    elif row.cover is not None:
        yield Fact("cover", row.cover.text)
    if moved_to := kind_of(row).moves_to(row):
        yield Fact("goes to" if kind_of(row).grounds else "goes into", moved_to)
    yield from (fact for fact in told.facts if fact.in_step)


# ---- what hangs on it, and how it is proved -------------------------------------------------------------------------
def _hanging(wires: tuple[str, ...], worked: JobResult) -> Iterable[Hanging]:
    view = worked.now
    splices = dict.fromkeys(
        end
        for wire in wires
        for stretch in view.of_wire(wire)
        for end in stretch.ends
        if view.nodes[end].kind in (NodeKind.SPLICE, NodeKind.JOINT)
    )
    for name in splices:
        others = dict.fromkeys(s.wire for s in view.at_node.get(name, ()) if s.wire not in wires)
        declared = worked.job.splices.get(name)
        known = view.nodes[name].kind is NodeKind.JOINT or (declared is not None and declared.all_members_known)
        if others or not known:
            yield Hanging(name, tuple(others), known)


def _wires_of(circuit: Circuit) -> set[str]:
    return {stretch.wire for stretch in (*circuit.feed.stretches, *circuit.back.stretches)}


def _tests(row: Change, worked: JobResult) -> Iterable[TestLine]:
    """The tests that the job writes for the row; of a test row, itself."""
    if kind_of(row).proves:
        yield TestLine(row.id, row.test or NOT_RECORDED, row.expect or NOT_RECORDED)
        return
    for other in worked.rows_of(worked.plan):
        if row.id in other.proves and (other.id, row.id) not in worked.void_proofs:
            yield TestLine(other.id, other.test or NOT_RECORDED, other.expect or NOT_RECORDED)


def _drops(row: Change, wires: tuple[str, ...], facts: Bench) -> Iterable[DropLine]:
    """The drop to expect of each kept load that the row serves."""
    if not kind_of(row).to_test:
        return
    for load, figures in facts.figures.items():
        if not _wires_of(facts.after[load]) & set(wires):
            continue
        drop, limit = figures.alone.whole, figures.limit
        volts = amount(drop.value, "V") if drop.known else NOT_COMPUTED
        above = drop.value is not None and limit.value is not None and drop.value > limit.value
        yield DropLine(load, volts, amount(limit.value, "V"), above)
