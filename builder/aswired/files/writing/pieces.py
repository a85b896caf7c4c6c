"""What an allotment writes: pieces on rows of the change list, and the offcuts that they are cut from."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import yaml

from aswired.files.writing.commit import commit
from aswired.files.writing.document import Document, NotWritten, documents, row_node, value_of
from aswired.files.writing.edits import Edit, beside, in_braces, in_place, name_as_key, plain_or_quoted
from aswired.record import Job
from aswired.text.colours import WORDS, Colour, read_colour
from aswired.text.one_line import read_offcut, read_piece
from aswired.text.units import QuantityError


@dataclass(frozen=True)
class NewPiece:
    """The piece of one wire of a row, as it shall stand in the file: `BU 18 AWG from R3`."""

    row: str
    wire: str
    text: str


def colour_as_written(colour: Colour, letters: Mapping[str, str]) -> str:
    """A colour so that a job with these letters of its own reads it back the same: in codes, else in words.

    Raises:
        NotWritten: neither reads back.

    >>> colour_as_written(Colour("", "BU", ("WH",)), {}), colour_as_written(Colour("", "BU", ("WH",)), {"BU": "BK"})
    ('BU/WH', 'blue/white')
    """
    parts = [colour.base or "", *colour.stripes]
    for spelled in ("/".join(parts), "/".join(WORDS.get(part, part) for part in parts)):
        text = f"{colour.shade} {spelled}".strip()
        try:
            read = read_colour(text, letters)
        except QuantityError:
            continue
        if (read.base, read.stripes, read.shade) == (colour.base, colour.stripes, colour.shade):
            return text
    raise NotWritten(f"'{colour.code}' cannot be written with the letters this job declares under 'colour letters:'.")


def write_pieces(
    job: Job, pieces: Sequence[NewPiece], offcuts: Mapping[str, str], spoilt: Callable[[], str] = str
) -> tuple[Path, ...]:
    """Set pieces on rows, and list offcuts that the job does not list yet.

    Args:
        job: as read from its folder; what stands there now must still be what was read then.
        offcuts: name -> `RD 18 AWG 1900 mm, cross-linked`, for those that are not under `offcuts:`.
        spoilt: asked when no other writer can come between: why all of this rests on what no longer holds; '' if not.

    Returns:
        The files that were changed; none when all of it stood there already.

    Raises:
        NotWritten: the folder has no place for it, it would not read back, or it was changed meanwhile. Nothing was
            changed.
        OSError, Unfinished: as `commit` tells.
    """
    missing = {name: text for name, text in offcuts.items() if name not in job.offcuts}
    files = documents(job)
    # what rows cut from is written first: cut off between two files, the job has an offcut too many and no fault
    edits = _offcut_edits(files, missing) if missing else []
    edits += [_piece_edit(files, job, piece) for piece in pieces]
    try:
        meant = _meant(job, pieces, missing)
    except QuantityError as error:
        raise NotWritten(f"The new text would have a fault: {error.problem}.") from None
    return commit(job, files, edits, meant, spoilt)


def _piece_edit(files: Sequence[Document], job: Job, piece: NewPiece) -> Edit:
    row = job.change(piece.row)
    if row is None:
        raise NotWritten(f"There is no row {piece.row}.")
    found = row_node(files, row.at.file, row.at.line, row.id)
    if found is None:
        raise NotWritten(f"Row {row.id} was not found at {row.at}.")
    file, node = found
    wires = value_of(node, "wires")
    if isinstance(wires, yaml.MappingNode):
        for name, value in wires.value:
            if " ".join(name.value.split()) == piece.wire and isinstance(value, yaml.ScalarNode):
                return in_place(file, value, piece.text)
        raise NotWritten(f"Row {row.id} has no line for {piece.wire} under 'wires:'.")
    there = value_of(node, "piece")
    if isinstance(there, yaml.ScalarNode):
        return in_place(file, there, piece.text)
    pair = next((pair for pair in node.value if pair[0].value == "wire"), node.value[-1])
    return beside(file, node, pair, {"piece": piece.text})


def _offcut_edits(files: Sequence[Document], offcuts: Mapping[str, str]) -> list[Edit]:
    for file in files:
        there = value_of(file.root, "offcuts")
        if isinstance(there, yaml.MappingNode) and there.value:
            return [beside(file, there, there.value[-1], offcuts)]
        if there is not None:  # `offcuts:` with nothing behind it, or { }
            start, end = there.start_mark.index, there.end_mark.index
            blank = " " if start == end and file.text[start - 1 : start] == ":" else ""
            return [Edit(file.name, start, end, blank + in_braces(offcuts))]
    header = files[0]
    if header.root.flow_style:
        at = header.root.value[-1][1].end_mark.index
        return [Edit(header.name, at, at, f", offcuts: {in_braces(offcuts)}")]
    at = header.end()
    line = header.line_end(at) + " " * header.root.start_mark.column
    lines = ["offcuts:", *(f"  {name_as_key(name)}: {plain_or_quoted(text)}" for name, text in offcuts.items())]
    return [Edit(header.name, at, at, "".join(line + one for one in lines))]


def _meant(job: Job, pieces: Sequence[NewPiece], offcuts: Mapping[str, str]) -> Job:
    """The job as it has to read back."""
    rows = {row.id: row for row in reversed(job.changes)}
    for piece in pieces:
        row, there = rows[piece.row], rows[piece.row].piece_of(piece.wire)
        if there is not None and " ".join(there.text.split()) == piece.text:
            continue  # left as typed
        read = read_piece(piece.text, job.colour_letters)
        if isinstance(row.wires, Mapping) and row.wires:
            rows[row.id] = dataclasses.replace(row, wires={**row.wires, piece.wire: read})
        else:
            rows[row.id] = dataclasses.replace(row, piece=read)
    changes = tuple(rows.get(row.id, row) if row is job.change(row.id) else row for row in job.changes)
    listed = {name: read_offcut(text, job.colour_letters) for name, text in offcuts.items()}
    return dataclasses.replace(job, changes=changes, offcuts={**job.offcuts, **listed})
