"""What a job takes: wire, sleeves, rings, terminals, wraps, still to buy and used already; and its batch numbers.

All of it is read off the plan: rows that are made beside rows that are not. Nothing is added for waste.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import CutPiece, Stretch
from aswired.figures.bundles import Wrap
from aswired.figures.sleeves import bore_on_hand, least_bore_mm
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.text import Printed, amount, count, listing, piece_length, printed, size
from aswired.text.colours import Colour
from aswired.text.one_line import Cover
from aswired.text.units import show_length
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class WireNeed:
    """New wire of one colour and size. `missing` counts pieces without a length in words; '' when there are none."""

    colour: Colour
    size: str
    pieces: tuple[str, ...]
    length: str
    missing: str


@dataclass(frozen=True)
class OffcutNeed:
    """What is cut from one offcut: pieces still to cut, and pieces cut already, with their lengths."""

    name: str
    colour: Colour
    size: str
    planned: tuple[tuple[str, str], ...]
    made: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class SleeveNeed:
    """Sleeves of one kind. `bore` is the least as supplied; `on_hand` the shop's own that is wide enough, or ''."""

    cover: str
    bore: str
    on_hand: str
    each: str
    number: int
    together: str
    over: tuple[str, ...]


@dataclass(frozen=True)
class RingNeed:
    """Ring terminals of one hole for one size of wire, and the rows they belong to."""

    hole: str
    wire: str
    number: int
    rows: tuple[str, ...]


@dataclass(frozen=True)
class WordsNeed:
    """Something written in words, how often, and the rows."""

    words: str
    number: int
    rows: tuple[str, ...]


@dataclass(frozen=True)
class WrapNeed:
    """A cover row: how long the run is, and the tape it takes ('' for a cover that is not wound)."""

    row: str
    cover: str
    length: str
    tape: str


@dataclass(frozen=True)
class MaterialNeeds:
    """Everything of one state: to buy for planned rows, or used in made ones."""

    title: str
    wire: tuple[WireNeed, ...]
    sleeves: tuple[SleeveNeed, ...]
    unsaid: str  # joints whose cover is not written, in words
    rings: tuple[RingNeed, ...]
    terminals: tuple[WordsNeed, ...]
    wraps: tuple[WrapNeed, ...]

    @property
    def empty(self) -> bool:
        return not (self.wire or self.sleeves or self.unsaid or self.rings or self.terminals or self.wraps)


@dataclass(frozen=True)
class Batch:
    """A batch number and the rows it went into."""

    number: str
    rows: tuple[tuple[str, str], ...]  # row, what it is


@dataclass(frozen=True)
class MaterialSheet:
    """The sheet of material."""

    planned: MaterialNeeds
    made: MaterialNeeds
    offcuts: tuple[OffcutNeed, ...]
    batches: tuple[Batch, ...]
    sleeves_listed: bool


def material_sheet(worked: JobResult) -> MaterialSheet:
    """What the plan takes, by what is made and what is not."""
    return MaterialSheet(
        _needs("Still to buy", worked, made=False),
        _needs("Used already", worked, made=True),
        tuple(_offcuts(worked)),
        batches(worked),
        bool(worked.job.shop.sleeves),
    )


def batches(worked: JobResult) -> tuple[Batch, ...]:
    """Every batch number of the job in the order met, with the rows it went into."""
    found: dict[str, list[tuple[str, str]]] = {}
    for row in worked.job.changes:
        for number in row.batch:
            found.setdefault(number, []).append((row.id, what_row(row)))
    return tuple(Batch(number, tuple(rows)) for number, rows in found.items())


def what_row(row: Change) -> str:
    """A row in a few words: its kind, its wires, where it is."""
    return " ".join(filter(None, [row.kind, ", ".join(row.wire_names), row.plug or row.to]))


def _needs(title: str, worked: JobResult, made: bool) -> MaterialNeeds:
    rows = [row for row in worked.rows_of(worked.plan) if (row.made is not None) is made]
    ids = {row.id for row in rows}
    sleeves, unsaid = _sleeves(worked, rows)
    return MaterialNeeds(
        title,
        tuple(_wire([piece for piece in worked.pieces if piece.row in ids and not piece.offcut], worked)),
        tuple(sleeves),
        f"The cover of {count(len(unsaid), 'joint')} is not recorded: {', '.join(unsaid)}." if unsaid else "",
        tuple(_rings(worked, ids)),
        tuple(_terminals(rows)),
        tuple(_wrap(wrap, worked) for wrap in worked.bundles.wraps if wrap.row in ids),
    )


def _wire(pieces: Sequence[CutPiece], worked: JobResult) -> Iterator[WireNeed]:
    kinds: dict[tuple[str, str], list[CutPiece]] = {}
    for piece in pieces:
        kinds.setdefault((piece.colour.code, size(piece.size)), []).append(piece)
    for (_, of_size), alike in sorted(kinds.items()):
        known = [piece.length_mm for piece in alike if piece.length_mm is not None]
        without = len(alike) - len(known)
        yield WireNeed(
            alike[0].colour,
            of_size,
            tuple(piece.id for piece in alike),
            amount(sum(known), "mm", worked.job.units) if known else NOT_RECORDED,
            f"and {count(without, 'piece')} of unrecorded length" if without and known else "",
        )


def _offcuts(worked: JobResult) -> Iterator[OffcutNeed]:
    states = {row.id: row.made is not None for row in worked.rows_of(worked.plan)}
    for name, account in worked.plan.offcuts.items():
        cut = [piece for piece in worked.pieces if piece.offcut == name]
        told = [(states.get(p.row, False), (p.id, piece_length(p, worked.job.units))) for p in cut]
        if told:
            yield OffcutNeed(
                name,
                account.colour,
                size(account.size),
                tuple(line for made, line in told if not made),
                tuple(line for made, line in told if made),
            )


@dataclass(frozen=True)
class _Covered:
    """A joint or a cut end with what covers it."""

    name: str
    cover: Cover
    ends: tuple[Stretch, ...]


def _sleeves(worked: JobResult, rows: Sequence[Change]) -> tuple[Iterable[SleeveNeed], list[str]]:
    """Covers of joints and of capped ends by words, bore and length; and the joints for which none is written."""
    ids = {row.id for row in rows}
    unsaid: list[str] = []
    kinds: dict[tuple[str, str, str], list[_Covered]] = {}
    for name, cover, ends in _joints_and_ends(worked, ids):
        if cover is None:
            unsaid.append(name)
        elif not cover.bare:
            kinds.setdefault((cover.text, *_bore(cover, ends, worked)), []).append(_Covered(name, cover, ends))
    return [_sleeve(*key, alike, worked) for key, alike in kinds.items()], unsaid


def _joints_and_ends(worked: JobResult, ids: set[str]) -> Iterator[tuple[str, Cover | None, tuple[Stretch, ...]]]:
    for placed in worked.joints:
        if placed.joint.row in ids:
            yield placed.joint.id, placed.joint.cover, placed.arrives
    for node in worked.plan.nodes.values():
        row = worked.job.change(node.made_by)
        if row is not None and row.id in ids and kind_of(row).alters == "dead" and node.fate is not None:
            yield node.name, row.cover or worked.job.usual.cover, worked.plan.at_node[node.name]


def _bore(cover: Cover, ends: tuple[Stretch, ...], worked: JobResult) -> tuple[str, str]:
    """Least bore as supplied, to the next half millimetre, and the shop's own; both '' for what is no sleeve."""
    if not cover.sleeve:
        return "", ""
    least = least_bore_mm(worked.job, ends)
    if least is None:
        return NOT_RECORDED, ""
    own = bore_on_hand(worked.job.shop.sleeves, least)
    return f"{math.ceil(least * 2 - 1e-9) / 2:g} mm", show_length(own, "mm") if own is not None else ""


def _sleeve(cover: str, bore: str, on_hand: str, alike: list[_Covered], worked: JobResult) -> SleeveNeed:
    each, is_sleeve = alike[0].cover.length_mm, alike[0].cover.sleeve
    units = worked.job.units
    return SleeveNeed(
        cover,
        bore,
        on_hand,
        amount(each, "mm", units) if is_sleeve else "",
        len(alike),
        (amount(each * len(alike), "mm", units) if each is not None else NOT_RECORDED) if is_sleeve else "",
        tuple(one.name for one in alike),
    )


def _rings(worked: JobResult, ids: set[str]) -> Iterator[RingNeed]:
    """New rings; one that takes two wires names both sizes. The old ring of a wire is no material."""
    kinds: dict[tuple[str, str], list[str]] = {}
    for ring in worked.plan.rings:
        row = worked.job.change(ring.row)
        if row is None or ring.row not in ids or (row.ring is not None and row.ring.text.startswith("old")):
            continue
        point = worked.job.grounds.get(ring.ground)
        hole = ring.hole or (point.stud if point is not None else "") or NOT_RECORDED
        ends = [stretch for stretch in worked.plan.at_node[ring.ground] if stretch.wire in ring.wires]
        kinds.setdefault((hole, listing((size(stretch.size) for stretch in ends), between=" with ")), []).append(
            ring.row
        )
    for (hole, wire), rows in sorted(kinds.items()):
        yield RingNeed(hole, wire, len(rows), tuple(rows))


def _terminals(rows: Sequence[Change]) -> Iterator[WordsNeed]:
    kinds: dict[str, list[Change]] = {}
    for row in rows:
        if row.terminal:
            kinds.setdefault(row.terminal, []).append(row)
    for words, alike in sorted(kinds.items()):
        yield WordsNeed(words, sum(max(1, len(row.wire_names)) for row in alike), tuple(row.id for row in alike))


def _wrap(wrap: Wrap, worked: JobResult) -> WrapNeed:
    units = worked.job.units
    ends = [None if end is None else end - start for _, start, end in wrap.runs]
    known = [length for length in ends if length is not None]
    whole = sum(known) if known and len(known) == len(ends) else None
    tape = Printed("") if wrap.tape is None else printed(wrap.tape, units)
    return WrapNeed(wrap.row, wrap.cover, amount(whole, "mm", units), tape)


def pages(frame: Frame) -> Iterable[PageOut]:
    """The material: what to buy and which batch went where is the shop's matter."""
    yield frame.page("materials", "materials.html", m=material_sheet(frame.worked))
