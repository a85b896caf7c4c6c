"""The change list as rows to print: what each row did, to which wires, when, and what became of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.harness import View
from aswired.figures.worked import Worked
from aswired.record import Accepted, Change, Job
from aswired.sheets.cut_ends import CutEnd, cut_ends
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.text import FigureText, count, done, end_words, figure_text, first_upper, length, listing, size
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding
from aswired.text.units import Size, is_loose, is_unknown
from aswired.text.written import Fate, Piece

IN_ORDER = "in the order of the change list"
MOST_NAMED = 3  # wires named in a heading; more are counted, and named below it
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
    """A named value. `usual`: it is not written on the row; it is how the job does it unless a row says otherwise."""

    name: str
    value: str
    usual: bool = False


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


def change_rows(worked: Worked) -> tuple[ChangeRow, ...]:
    """Every row of the job, in the order of the file."""
    ends = cut_ends(worked)
    return tuple(_row(change, ends, worked) for change in worked.job.changes)


def state_counts(worked: Worked) -> tuple[StateCount, ...]:
    """Rows that count in the plan, by state, furthest first; states without a row are left out."""
    states = [worked.state_of(change) for change in worked.rows_of(worked.plan)]
    return tuple(StateCount(state, states.count(state)) for state in reversed(STATES) if state in states)


def states_told(worked: Worked) -> str:
    """`12 tested, 3 made`, of the rows that count in the plan."""
    return ", ".join(f"{item.count} {item.state}" for item in state_counts(worked))


def rows_told(worked: Worked) -> str:
    """`73 rows, 67 in force`: a row that was corrected or done again is listed, and so is one for another car."""
    rows, in_force = len(worked.job.changes), sum(item.count for item in state_counts(worked))
    return count(rows, "row") + (f", {in_force} in force" if rows != in_force else "")


def wire_left(name: str, view: View) -> bool:
    """Whether a row took a wire out of the car with nothing of it left there."""
    return bool(view.wires[name].removed_by) and not view.of_wire(name)


def _interlock(change: Change) -> str:
    return change.interlock if change.interlock not in ("", "other") else "an interlock"


def belongs(id: str, row: str) -> bool:
    """Whether an id or a figure's key is of this row: C14, C14-W31-loom, C14-W31.cut; never C140."""
    after = id[len(row) : len(row) + 1]
    return id.startswith(row) and not (after.isascii() and after.isalnum())


def _row(change: Change, ends: tuple[CutEnd, ...], worked: Worked) -> ChangeRow:
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


def _steps(change: Change, worked: Worked) -> Iterable[Fact]:
    """When and by whom it was made, sealed and tested, and which checks prove it."""
    for word, step in (("made", change.made), ("sealed", change.sealed), ("tested", change.tested)):
        if step is not None or word in change.set_aside:
            yield Fact(word, done(step or change.set_aside[word]))
    if change.tested is None and change is worked.job.change(change.id):
        for check in worked.proofs.get(change.id, ()):
            yield Fact("tested", done(check.made))
            yield Fact("by check", check.id)


def _status(row: str, worked: Worked) -> tuple[str, str]:
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
    names = change.wire_names
    wires = listing(names, "") if len(names) <= MOST_NAMED else f"{len(names)} wires"
    place = f" at {change.plug or end_words(change.end)}" if change.plug or change.end else ""
    to = f" to {change.to}" if change.to else ""
    text = {
        "remove": f"Removal of {wires}",
        "cap": f"Stub of {wires}{place}",
        "extend": f"Extension of {wires}{place}",
        "shorten": f"Shortening of {wires}{place}",
        "join": f"Splice of {' with '.join(change.ends) or wires}",
        "tap": f"Tap of {wires}{place} onto {change.onto}" if change.onto else f"Tap of {wires}{place}",
        "ground": f"Ground of {wires}{_from(change.end)}{to}",
        "terminate": f"New terminal on {wires}{place}{f', now in {change.into}' if change.into else ''}",
        "cover": f"Cover over {listing(change.over, wires)}",
        "add": f"New wire {wires}{f' from {change.from_}' if change.from_ else ''}{to}",
        "reroute": f"Rerouting of {wires} by {listing(change.by, '')}",
        "protect": _protects(change, wires),
        "bridge": f"Bridge of {_interlock(change)}: {' with '.join(change.ends) or wires}",
        "swap": f"Connector {change.plug} replaced by {change.new_plug}",
        "verify": f"Check: {change.test}" if change.test else f"Check of {listing(change.proves, wires)}",
    }.get(change.kind, f"{change.kind} {wires}")
    return " ".join(text.split())


def _from(end: str) -> str:
    """How the end of a wire left where it was, which the row may not know."""
    if is_loose(end):
        return ", cut off before, brought"
    if is_unknown(end):
        return " moved from where it was, which was not traced,"
    return f" moved from {end}" if end else " moved"


def _protects(change: Change, wires: str) -> str:
    """What a row of kind protect is, as a heading."""
    if change.relay:
        return f"Relay {change.relay} assigned"
    if not change.wire:
        return f"Fuse {change.fuse} {'left spare' if change.use == 'spare' else 'assigned'}"
    if change.tail is None:
        return f"{wires}{f' at {end_words(change.end)}' if change.end else ''} moved to fuse {change.fuse}"
    return f"Fuse {change.fuse} let into {wires}"


def fates(left: Iterable[tuple[str, Fate]], units: str) -> str:
    """How ends were left: `siren-plug.1 gone, FS9 capped 30 mm`."""
    return ", ".join(f"{end} {fate.word}" + (f" {length(fate.stub, units)}" if fate.stub else "") for end, fate in left)


def _wire(wire: str, change: Change, worked: Worked) -> WireLine:
    known = worked.plan.wires.get(wire) or worked.donor.wires.get(wire)
    piece: Piece | None = change.piece_of(wire)
    was_colour = known.colour if known else (change.was.colour if change.was else None)
    was_size: Size | None = known.size if known else (change.was.size if change.was else None)
    left = change.fates_of(wire)
    ends = known.donor_ends if known else (change.was.ends if change.was else ("", ""))
    offcut = piece.offcut if piece else ""
    new = known.added_by == change.id if known else change.kind in ("add", "tap") and change.was is None
    if new:
        was_colour, was_size = (piece.colour, piece.size) if piece else (None, None)
        piece, ends = None, _laid_between(change)
    return WireLine(
        name=wire,
        was=was_colour or Colour("", None),
        was_size=size(was_size) if was_size else "not read",
        ends="" if set(ends) <= set(left) else " to ".join(filter(None, ends)),
        length="" if new else _donor_length(wire, change, worked.job),
        new=new,
        piece=piece.colour if piece else None,
        piece_size=size(piece.size) if piece else "",
        offcut=offcut,
        left=fates(left.items(), worked.job.units),
    )


def _laid_between(change: Change) -> tuple[str, str]:
    """The two ends of a lead that a row put in."""
    if change.kind == "bridge":
        first, second = change.ends
        return first, second
    return f"tap {change.id}" if change.kind == "tap" else change.from_, change.to


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
_TO_TERMINAL = "gap, cut face to barrel mouth of the new terminal"  # L4
_OTHERWISE = {
    ("ground", "pigtail"): "pigtail, what stays on its plug",
    ("terminate", "pigtail"): "pigtail, what stays on its plug",
    ("ground", "tail"): "tail, what stays on the end that did not move",
    ("terminate", "tail"): "tail, what stays on the end that did not move",
    ("ground", "gap"): _TO_TERMINAL,
    ("terminate", "gap"): _TO_TERMINAL,
    ("tap", "tail"): "along the wire to the tap",
    ("protect", "tail"): "along the wire to the fuse",
    ("bridge", "reach"): "reach of the jumper",
}


def _facts(change: Change, job: Job) -> Iterable[Fact]:
    """Everything else that is written on the row, in words."""
    if change.where:
        yield Fact("where", change.where)
    for attribute, name in _LENGTHS:
        written = getattr(change, attribute)
        if written is not None:
            on_the_lead = attribute == "reach" and change.lead_measured
            words = "length of the lead, as measured" if on_the_lead else _OTHERWISE.get((change.kind, attribute), name)
            yield Fact(words, length(written, job.units))
    if change.kind == "tap" and change.from_:
        yield Fact("measured from", change.from_)
    if change.kind == "protect" and change.tail is not None:
        yield Fact("measured from", end_words(change.end))
    yield from _assigned(change)
    jointed = change.kind in ("extend", "shorten", "join", "tap")
    if method := change.joint or (job.usual.joint if jointed else None):
        yield Fact("joint", method.text, usual=change.joint is None)
    if cover := change.cover or (job.usual.cover if jointed else None):
        yield Fact("covered with", cover.text, usual=change.cover is None)
    if change.ring is not None:
        yield Fact("ring", change.ring.text)
    if change.terminal:
        yield Fact("terminal", change.terminal)
    for name, words in (
        ("terminal fixed", change.terminal_fixed),
        ("insulation", change.insulation),
        ("conductor", change.conductor),
        ("shield", change.shield),
        ("declared", change.special),
    ):
        if words:
            yield Fact(name, words)
    if change.protects:
        yield Fact("protects", ", ".join(change.protects))
    if change.kind == "cap" and change.far is not None:
        yield Fact("the rest of the wire", fates([("", change.far)], job.units).strip())
    for name, offcut in change.reclaimed.items():
        parts = (offcut.colour.code, size(offcut.size) if offcut.size.known else "", length(offcut.length, job.units))
        yield Fact(f"kept as {name}", " ".join(filter(None, parts)))
    if change.batch:
        yield Fact("batch", ", ".join(change.batch))
    if change.kind == "cover" and change.from_:
        yield Fact("wrap", f"from {change.from_}" + (f" to {change.to}" if change.to else ""))
    if change.spare:
        yield Fact("fuses left spare", ", ".join(change.spare))
    if change.expect:
        yield Fact("should read", change.expect)
    if change.dead_without:
        yield Fact("circuits dead with the fuse out", ", ".join(change.dead_without))
    if change.takes_over:
        yield Fact("takes over, from now on", ", ".join(change.takes_over))


def _assigned(change: Change) -> Iterable[Fact]:
    """What a row says of a fuse or relay, of an interlock, of a connector or of a wire's way."""
    if change.kind == "reroute" and (change.from_ or change.to):
        ends = (f"from {change.from_}" if change.from_ else "", f"to {change.to}" if change.to else "")
        yield Fact("rerouted", " ".join(filter(None, ends)))
    if change.rating is not None:
        yield Fact("rating", change.rating.text)
    for name, words in (
        ("live", change.fed),
        ("feeds", change.feeds),
        ("use", change.use),
        ("interlock", change.interlock),
        ("decided by", change.decided_by or ("not recorded" if change.kind == "bridge" else "")),
        ("in its place", change.instead or ("not recorded" if change.kind == "bridge" else "")),
        ("warning", change.warning),
    ):
        if words:
            yield Fact(name, words)
    if change.kind == "bridge" and not change.wire and (piece := change.piece) is not None:
        yield Fact("jumper", f"{piece.colour.code} {size(piece.size)}")
    if change.cavities:
        moves = (f"{old} to {new}" for old, new in change.cavities.items())
        yield Fact(f"cavities of {change.plug} to {change.new_plug}", ", ".join(moves))
        yield Fact("numbers seen from", change.seen_from or "not recorded")


def _private(change: Change) -> Iterable[Fact]:
    """The fields that only the shop sees."""
    if change.minutes is not None:
        minutes = change.minutes.value
        yield Fact("time", "not recorded" if minutes is None else f"{minutes:g} min")
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
