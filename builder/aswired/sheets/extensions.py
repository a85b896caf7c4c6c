"""Pieces of wire that were put in: what to cut, what each gained, what they add up to, what is left on the rack."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.harness import CutPiece, OffcutUse
from aswired.figures.worked import JobResult
from aswired.sheets.changes import wire_left
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.text import FigureText, amount, count, figure_text, first_upper, piece_length, size
from aswired.text.colours import UNKNOWN, Colour
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class PieceRow:
    """A piece. `cut` is the figure that opens; `recorded` what it was really cut to."""

    id: str
    row: str
    wire: str
    colour: Colour
    replaced: Colour | None  # colour of the wire it lengthens; None for a lead that is new as a whole
    size: str
    offcut: str
    length: str
    cut: FigureText
    recorded: str
    apart: str  # how the two differ, in words; "as computed", or "" when one of them is not recorded
    differs: bool  # whether `apart` tells of a difference
    gain: str
    state: str
    circuits: tuple[str, ...]


@dataclass(frozen=True)
class TotalRow:
    """A sum of pieces. `length` is of those with a length; `missing` says in words how many have none."""

    name: str
    colour: Colour
    pieces: int
    length: str
    no_offcut: str  # of the pieces for which no offcut is noted
    missing: str


@dataclass(frozen=True)
class OffcutRow:
    """An offcut's account."""

    name: str
    colour: Colour
    size: str
    length: str
    source: str
    cuts: tuple[tuple[str, str], ...]
    left: str


@dataclass(frozen=True)
class ExtensionSheet:
    """Everything the page of extensions says."""

    pieces: tuple[PieceRow, ...]
    told: str  # how many there are, put in and planned
    by_circuit: tuple[TotalRow, ...]
    by_colour: tuple[TotalRow, ...]
    offcuts: tuple[OffcutRow, ...]


def extension_sheet(worked: JobResult) -> ExtensionSheet:
    """The page of extensions, from the plan: what is cut already and what is still to cut."""
    circuits = _circuits_of_wires(worked)
    pieces = tuple(_piece(piece, circuits.get(piece.wire, ()), worked) for piece in worked.pieces)
    return ExtensionSheet(
        pieces,
        pieces_told(worked),
        tuple(_by_circuit(circuits, worked)),
        tuple(_by_colour(worked)),
        tuple(_offcut(offcut, worked) for offcut in worked.plan.offcuts.values()),
    )


def pieces_told(worked: JobResult) -> str:
    """`47 pieces: 45 put in, 2 of them taken out again; 2 planned`. A piece is put in once its row is made."""
    pieces = worked.pieces
    made = [piece for piece in pieces if (row := worked.job.change(piece.row)) is not None and row.made is not None]
    out = sum(piece.wire in worked.shown.wires and wire_left(piece.wire, worked.shown) for piece in made)
    told = f"{len(made)} put in" + (f", {out} of them taken out again" if out else "") if made else ""
    planned = f"{len(pieces) - len(made)} planned" if len(made) < len(pieces) else ""
    return ": ".join(filter(None, [count(len(pieces), "piece"), "; ".join(filter(None, [told, planned]))]))


def _piece(piece: CutPiece, circuits: tuple[str, ...], worked: JobResult) -> PieceRow:
    units = worked.job.units
    change = worked.job.change(piece.row)
    both = piece.recorded_mm is not None and piece.computed.value is not None
    apart_mm = (piece.recorded_mm or 0.0) - (piece.computed.value or 0.0) if both else None
    return PieceRow(
        id=piece.id,
        row=piece.row,
        wire=piece.wire,
        colour=piece.colour,
        replaced=piece.replaced if _lengthens(piece, worked) else None,
        size=size(piece.size),
        offcut=piece.offcut,
        length=piece_length(piece, units),
        cut=figure_text(piece.computed, units),
        recorded=amount(piece.recorded_mm, "mm", units),
        apart=_apart(apart_mm, units),
        differs=_differs(apart_mm),
        gain="a new wire" if worked.plan.is_lead(piece) else _gain(piece.gain_mm, units),
        state=worked.state_of(change) if change else "planned",
        circuits=circuits,
    )


def _lengthens(piece: CutPiece, worked: JobResult) -> bool:
    """Whether the piece went into a wire that was there before, of another colour than its own."""
    return not worked.plan.is_lead(piece) and piece.replaced.code != piece.colour.code


def _gain(gain_mm: float | None, units: str) -> str:
    if gain_mm is not None and gain_mm < 0:
        return f"{amount(-gain_mm, 'mm', units)} shorter"
    return amount(gain_mm, "mm", units)


def _apart(apart_mm: float | None, units: str) -> str:
    """How the cut differs from the computed length; '' when there is nothing to compare."""
    if apart_mm is None:
        return ""
    if not _differs(apart_mm):
        return "as computed"
    return f"{amount(abs(apart_mm), 'mm', units)} {'longer' if apart_mm > 0 else 'shorter'} than computed"


def _differs(apart_mm: float | None) -> bool:
    return apart_mm is not None and abs(apart_mm) >= 0.5  # a tape measure tells no less


def _circuits_of_wires(worked: JobResult) -> dict[str, tuple[str, ...]]:
    """Wire -> loads whose path runs over it."""
    found: dict[str, dict[str, None]] = {}
    for circuit in worked.circuits.values():
        for stretch in (*circuit.feed.stretches, *circuit.back.stretches):
            found.setdefault(stretch.wire, {})[circuit.load] = None
    return {wire: tuple(loads) for wire, loads in found.items()}


def _by_circuit(circuits: dict[str, tuple[str, ...]], worked: JobResult) -> Iterable[TotalRow]:
    """A piece in a wire that several loads share is counted with each of them."""
    for load in worked.circuits:
        pieces = [piece for piece in worked.pieces if load in circuits.get(piece.wire, ())]
        if pieces:
            yield _total(load, UNKNOWN, pieces, worked)
    loose = [piece for piece in worked.pieces if not circuits.get(piece.wire)]
    if loose:
        yield _total("in no traced circuit", UNKNOWN, loose, worked)


def _by_colour(worked: JobResult) -> Iterable[TotalRow]:
    kinds = dict.fromkeys((piece.colour.code, size(piece.size)) for piece in worked.pieces)
    for code, words in sorted(kinds):
        pieces = [piece for piece in worked.pieces if (piece.colour.code, size(piece.size)) == (code, words)]
        yield _total(words, pieces[0].colour, pieces, worked)


def _total(name: str, colour: Colour, pieces: list[CutPiece], worked: JobResult) -> TotalRow:
    units = worked.job.units
    known = [piece for piece in pieces if piece.length_mm is not None]
    fresh = [piece for piece in pieces if not piece.offcut]
    without = len(pieces) - len(known)
    return TotalRow(
        name=name,
        colour=colour,
        pieces=len(pieces),
        length=amount(_sum(known), "mm", units),
        no_offcut="none" if not fresh else amount(_sum([piece for piece in fresh if piece in known]), "mm", units),
        missing=f"and {count(without, 'piece')} of unrecorded length" if without and known else "",
    )


def _sum(pieces: list[CutPiece]) -> float | None:
    """Sum of the recorded lengths in mm; None when there is none, since nothing recorded is not zero."""
    return sum(piece.length_mm or 0.0 for piece in pieces) if pieces else None


def _offcut(offcut: OffcutUse, worked: JobResult) -> OffcutRow:
    units = worked.job.units
    left_mm = offcut.left_mm
    pieces = {piece.id: piece for piece in worked.pieces}
    left = amount(left_mm, "mm", units)
    if left_mm is not None and left_mm < 0:
        left = f"overdrawn by {amount(-left_mm, 'mm', units)}"
    return OffcutRow(
        name=offcut.name,
        colour=offcut.colour,
        size=size(offcut.size),
        length=amount(offcut.length_mm, "mm", units),
        source=offcut.source or "on the rack before",
        cuts=tuple((id, piece_length(pieces[id], units)) for id, _ in offcut.cuts),
        left=left if offcut.length_mm is not None else NOT_RECORDED,
    )


def pages(frame: Frame) -> Iterable[PageOut]:
    """The extensions."""
    sheet = extension_sheet(frame.worked)
    yield frame.page("extensions", "extensions.html", e=sheet, said=first_upper(sheet.told))
