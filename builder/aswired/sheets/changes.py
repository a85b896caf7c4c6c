"""The change list as rows to print: what each row did, to which wires, when, and what became of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.figures.worked import JobResult
from aswired.record import Accepted, Change, Job
from aswired.sheets.cut_ends import CutEnd, cut_ends
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.text import FigureText, count, done, figure_text, first_upper, length, size
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding
from aswired.text.one_line import Fate, Piece
from aswired.text.units import Length, Size
from aswired.text.unsaid import NOT_READ, NOT_RECORDED

IN_ORDER = "in the order of the change list"
STATES = ("planned", "made", "sealed", "tested")


@dataclass(frozen=True)
class WireLine:
    """One wire of a row: what it was, and the piece put in. `ends` are the donor's, '' where `left`
    names both; `left` is how its ends were left. Of a lead that the row itself put in (`new`), the ends are those
    it was laid between."""

    name: str
    was: Colour
    was_size: str
    ends: str
    length: str  # in the donor; '' when it is not recorded
    new: bool
    piece: Colour | None
    piece_size: str
    offcut: str
    left: str


@dataclass(frozen=True)
class Fact:
    """A named value. `usual`: it is not written on the row; it is how the job does it unless a row says otherwise.
    `in_step`: a step of the work sheet says it in these words too, and not with the cut, the joint or the test."""

    name: str
    value: str
    usual: bool = False
    in_step: bool = True


@dataclass(frozen=True)
class ChangeRow:
    """One row of the change list, ready to print."""

    id: str
    kind: str
    what: str  # in words: "Extension of W31, W32 at worklamp-left"
    state: str  # planned, made, sealed, tested
    status: str  # '' when in force, else one sentence that says what became of it
    points_to: str  # id of the row that stands for it or undid it
    struck: bool  # the record was wrong: struck through
    counts: bool  # the row is in force in some view
    wires: tuple[WireLine, ...]
    facts: tuple[Fact, ...]
    steps: tuple[Fact, ...]  # made, sealed, tested with date and initials; those written only
    why: str
    note: str
    only_if: str
    stands_for: str  # id this row corrects
    undoes: str  # id this row does again
    over: tuple[str, ...]
    proves: tuple[str, ...]
    moved_with: tuple[str, ...]
    cut_ends: tuple[CutEnd, ...]  # those it made that are still in the car
    photos: tuple[str, ...]
    figures: tuple[FigureText, ...]
    findings: tuple[Finding, ...]
    accepted: tuple[Accepted, ...]  # those whose finding is not among `findings` any more
    private: tuple[Fact, ...]


@dataclass(frozen=True)
class StateCount:
    """How many rows in force stand at a state."""

    state: str
    count: int


def change_rows(worked: JobResult) -> tuple[ChangeRow, ...]:
    """Every row of the job, in the order of the file."""
    ends = cut_ends(worked)
    return tuple(_row(change, ends, worked) for change in worked.job.changes)


def state_counts(worked: JobResult) -> tuple[StateCount, ...]:
    """Rows that count in the plan, by state, furthest first; states without a row are left out."""
    states = [worked.state_of(change) for change in worked.rows_of(worked.plan)]
    return tuple(StateCount(state, states.count(state)) for state in reversed(STATES) if state in states)


def states_told(worked: JobResult) -> str:
    """`12 tested, 3 made`, of the rows that count in the plan."""
    return ", ".join(f"{item.count} {item.state}" for item in state_counts(worked))


def rows_told(worked: JobResult) -> str:
    """`73 rows, 67 in force`: a row that was corrected or done again is listed, and so is one for another car."""
    rows, in_force = len(worked.job.changes), sum(item.count for item in state_counts(worked))
    return count(rows, "row") + (f", {in_force} in force" if rows != in_force else "")


def wire_left(name: str, view: View) -> bool:
    """Whether a row took a wire out of the car with nothing of it left there."""
    return bool(view.wires[name].removed_by) and not view.of_wire(name)


def belongs(id: str, row: str) -> bool:
    """Whether an id or a figure's key is of this row: C14, C14-W31-loom, C14-W31.cut; never C140."""
    after = id[len(row) : len(row) + 1]
    return id.startswith(row) and not (after.isascii() and after.isalnum())


def _row(change: Change, ends: tuple[CutEnd, ...], worked: JobResult) -> ChangeRow:
    first = change is worked.job.change(change.id)
    status, points_to = _status(change.id, worked) if first else ("Left out: a row above bears its id.", "")
    result = worked.shown.row(change.id)
    plan = worked.plan.row(change.id)
    units = worked.job.units
    findings = tuple(finding for finding in worked.findings if belongs(finding.entry, change.id))
    told = {(finding.code, finding.entry) for finding in findings if finding.accepted_by}
    return ChangeRow(
        id=change.id,
        kind=change.kind,
        what=what(change),
        state=worked.state_of(change),
        status=status,
        points_to=points_to,
        struck=first and bool(plan and plan.status == "corrected"),
        counts=first and bool((result and result.counts) or (plan and plan.counts)),
        wires=tuple(_wire(wire, change, worked) for wire in change.wire_names),
        facts=tuple(_facts(change, worked.job)),
        steps=tuple(_steps(change, worked)),
        why=change.why,
        note=change.note,
        only_if=change.only_if.text if change.only_if else "",
        stands_for=change.corrects,
        undoes=change.redoes,
        over=change.over,
        proves=change.proves,
        moved_with=plan.moved_with if plan else (),
        cut_ends=tuple(end for end in ends if end.row == change.id),
        photos=change.photos,
        figures=tuple(figure_text(figure, units) for figure in worked.plan.figures if belongs(figure.key, change.id))
        + tuple(figure_text(p.centre, units) for p in worked.joints if p.joint.row == change.id),
        findings=findings,
        accepted=tuple(item for item in change.accepted if (item.finding, change.id) not in told),
        private=tuple(_private(change)),
    )


def _steps(change: Change, worked: JobResult) -> Iterable[Fact]:
    """When and by whom it was made, sealed and tested, and which checks prove it."""
    for word, step in (("made", change.made), ("sealed", change.sealed), ("tested", change.tested)):
        if step is not None or word in change.set_aside:
            yield Fact(word, done(step or change.set_aside[word]))
    if change.tested is None and change is worked.job.change(change.id):
        for check in worked.proofs.get(change.id, ()):
            yield Fact("tested", done(check.made))
            yield Fact("by check", check.id)


def _status(row: str, worked: JobResult) -> tuple[str, str]:
    """What became of a row that is not simply in force, and the row that points to it."""
    result = worked.shown.row(row) or worked.plan.row(row)
    if result is not None and result.status == "not yet":  # a planned row may still be illegal in the plan
        result = worked.plan.row(row)
    if result is None or result.status in ("in force", "not yet"):
        return "", ""
    opening = {
        "not for this car": "Not for this car.",
        "undecided": "Not decided.",
        "corrected": "The record was wrong; the car never was like this. See",
        "redone": "It was so, then it was done again. See",
        "refused": "Left out of the car as shown.",
        "not judged": "Not judged, since it rests on a row that was left out.",
    }[result.status]
    if result.by:
        return opening, result.by
    why = first_upper(result.why)
    return f"{opening} {why}".strip() + ("." if why and not why.endswith(".") else ""), ""


# ---- words ----------------------------------------------------------------------------------------------------------
def what(change: Change) -> str:
    """What a row is, as a heading: the same words for a plan and for work that is done."""
    return kind_of(change).what(change)


def fates(left: Iterable[tuple[str, Fate]], units: str) -> str:
    """How ends were left: `siren-plug.1 gone, FS9 capped 30 mm`."""
    return ", ".join(f"{end} {fate.word}" + (f" {length(fate.stub, units)}" if fate.stub else "") for end, fate in left)


def _wire(wire: str, change: Change, worked: JobResult) -> WireLine:
    known = worked.plan.wires.get(wire) or worked.donor.wires.get(wire)
    piece: Piece | None = change.piece_of(wire)
    was_colour = known.colour if known else (change.was.colour if change.was else None)
    was_size: Size | None = known.size if known else (change.was.size if change.was else None)
    left = change.fates_of(wire)
    ends: tuple[str, ...] = known.donor_ends if known else (change.was.ends if change.was else ())
    offcut = piece.offcut if piece else ""
    lead = kind_of(change).lead(change)
    new = known.added_by == change.id if known else bool(lead) and change.was is None
    if new:
        was_colour, was_size = (piece.colour, piece.size) if piece else (None, None)
        piece, ends = None, lead
    return WireLine(
        name=wire,
        was=was_colour or Colour("", None),
        was_size=size(was_size) if was_size else NOT_READ,
        ends="" if set(ends) <= set(left) else " to ".join(filter(None, ends)),
        length="" if new else _donor_length(wire, change, worked.job),
        new=new,
        piece=piece.colour if piece else None,
        piece_size=size(piece.size) if piece else "",
        offcut=offcut,
        left=fates(left.items(), worked.job.units),
    )


def _donor_length(wire: str, change: Change, job: Job) -> str:
    declared = job.wires.get(wire)
    written = declared.length if declared else change.was.length if change.was else None
    return length(written, job.units) if written is not None and written.mm is not None else ""


_LENGTHS = (
    ("gap", "gap, cut face to cut face"),
    ("reach", "reach between the two ends"),
    ("new_reach", "new reach"),
    ("tail", "tail, other end to cut face"),
    ("pigtail", "pigtail, moved end to cut face"),
    ("stagger", "stagger"),
    ("slack", "slack, this row"),
    ("overlap", "overlap, this row"),
    ("cut", "cut to, as measured"),
    ("take_out", "taken out"),
    ("stub", "stub left"),
    ("scrap", "scrap"),
    ("untwisted", "longest untwisted run"),
)
_WITH_THE_CUT = ("tail", "pigtail", "stagger", "overlap", "cut", "take_out", "stub")  # a step says them there


def _facts(change: Change, job: Job) -> Iterable[Fact]:
    """Everything else that is written on the row, in words: what its kind has no words of its own for is called alike
    in all kinds."""
    kind = kind_of(change)
    own = tuple(kind.facts(change))
    told = {said.key for said in own}
    if change.where:
        yield Fact("where", change.where)
    yield from (fact for key, fact in _lengths(change, job.units) if key not in told)
    yield from (Fact(said.words, _value(said.value, job.units), in_step=said.in_step) for said in own)
    if change.warning and "warning" not in told:
        yield Fact("warning", change.warning)
    if method := change.joint or (job.usual.joint if kind.joints else None):
        yield Fact("joint", method.text, usual=change.joint is None, in_step=False)
    cover = change.cover or (job.usual.cover if kind.joints else None)
    if cover is not None and "cover" not in told:
        yield Fact("covered with", cover.text, usual=change.cover is None, in_step=False)
    if change.ring is not None:
        yield Fact("ring", change.ring.text)
    for name, text in (
        ("terminal", change.terminal),
        ("terminal fixed", change.terminal_fixed),
        ("insulation", change.insulation),
        ("conductor", change.conductor),
        ("shield", change.shield),
    ):
        if text:
            yield Fact(name, text)
    for name, offcut in change.reclaimed.items():
        parts = (offcut.colour.code, size(offcut.size) if offcut.size.known else "", length(offcut.length, job.units))
        yield Fact(f"kept as {name}", " ".join(filter(None, parts)))
    for name, names in (
        ("batch", change.batch),
        ("fuses left spare", change.spare),
        ("takes over, from now on", change.takes_over),
    ):
        if names:
            yield Fact(name, ", ".join(names))


def _lengths(change: Change, units: str) -> Iterable[tuple[str, Fact]]:
    """The lengths that are written on the row, each by its key, as its kind calls them."""
    kind = kind_of(change)
    for key, words in _LENGTHS:
        written = getattr(change, key)
        if written is not None:
            on_the_lead = key == "reach" and kind.lead_measured(change)
            name = "length of the lead, as measured" if on_the_lead else kind.lengths.get(key, words)
            yield key, Fact(name, length(written, units), in_step=key not in _WITH_THE_CUT)


def _value(value: str | Length | Fate | Piece, units: str) -> str:
    """What a kind says of a key, as a page writes it."""
    if isinstance(value, str):
        return value
    if isinstance(value, Fate):
        return fates([("", value)], units).strip()
    return length(value, units) if isinstance(value, Length) else f"{value.colour.code} {size(value.size)}"


def _private(change: Change) -> Iterable[Fact]:
    """The fields that only the shop sees."""
    if change.minutes is not None:
        minutes = change.minutes.value
        yield Fact("time", NOT_RECORDED if minutes is None else f"{minutes:g} min")
    if change.shop_note:
        yield Fact("shop note", change.shop_note)


def pages(frame: Frame) -> Iterable[PageOut]:
    """The change list."""
    yield frame.page(
        "changes",
        "changes.html",
        rows=change_rows(frame.worked),
        said=first_upper(f"{rows_told(frame.worked)}, {IN_ORDER}"),
        states=states_told(frame.worked),
        photo_ids={photo.id: photo for photo in frame.photos},
    )
