"""A proposal written into the job's files, so that from then on it is a recorded fact."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from aswired.files.writing import NewPiece, colour_as_written, write_pieces
from aswired.rack.facts import OnHand
from aswired.rack.propose import Proposal
from aswired.rack.shelf import pieces_left, read_rack
from aswired.record import Job


def record(proposal: Proposal, job: Job) -> tuple[Path, ...]:
    """Write `BU 18 AWG from O3` on every row that is cut from an offcut; pieces of the rack go under `offcuts:`.

    Args:
        job: as read from its folder. The proposal's own lacks the dates that cannot be, and does not read back.

    Returns:
        The files that were changed.

    Raises:
        writing.NotWritten: it would not read back as meant, or what it rests on was changed; nothing was changed.
        OSError, writing.Unfinished: as `write_pieces` tells.
    """
    pieces = [
        NewPiece(
            cut.wanted.piece.row,
            cut.wanted.piece.wire,
            f"{colour_as_written(cut.offcut.colour, job.colour_letters)} {cut.offcut.size.text.strip()} "
            f"from {cut.offcut.name}",
        )
        for cut in proposal.cuts
    ]
    used = {cut.offcut.name: cut.offcut for cut in proposal.cuts if cut.offcut.rack is not None}
    listed = {name: _line(offcut, job.colour_letters) for name, offcut in used.items()}
    return write_pieces(job, pieces, listed, lambda: _rack_has_changed(job, used))


def _rack_has_changed(job: Job, used: Mapping[str, OnHand]) -> str:
    """Which piece is no longer on the rack as the proposal found it: another job may have cut from it since."""
    if not used or job.folder is None:
        return ""
    rack, faults = read_rack(job.folder.parent)
    now = {piece.name: (piece.offcut, piece.left_mm) for piece in pieces_left(job.folder.parent, rack)}
    gone = [name for name, offcut in used.items() if now.get(name) != (offcut.rack, offcut.left_mm)]
    if faults or gone:
        return f"{gone[0] if gone else 'rack.yml'} of the rack was changed or cut from meanwhile."
    return ""


def _line(offcut: OnHand, letters: Mapping[str, str]) -> str:
    """A piece of the rack as the job lists it: with what is left of it on this day."""
    head = f"{colour_as_written(offcut.colour, letters)} {offcut.size.text.strip()} {offcut.left_mm:g} mm"
    return ", ".join(filter(None, [head, offcut.insulation, offcut.condition]))
