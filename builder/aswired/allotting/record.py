"""A proposal written into the job's files, so that from then on it is a recorded fact."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from aswired.allotting.facts import OnHand
from aswired.allotting.propose import Proposal
from aswired.writeback import NewPiece, colour_as_written, write_pieces


def record(proposal: Proposal) -> tuple[Path, ...]:
    """Write `BU 18 AWG from O3` on every row that is cut from an offcut; pieces of the rack go under `offcuts:`.

    Returns:
        The files that were changed.

    Raises:
        writeback.NotWritten: it would not read back as meant; nothing was changed.
    """
    job = proposal.worked.job
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
    return write_pieces(job, pieces, {name: _line(offcut, job.colour_letters) for name, offcut in used.items()})


def _line(offcut: OnHand, letters: Mapping[str, str]) -> str:
    """A piece of the rack as the job lists it: with what is left of it on this day."""
    head = f"{colour_as_written(offcut.colour, letters)} {offcut.size.text.strip()} {offcut.left_mm:g} mm"
    return ", ".join(filter(None, [head, offcut.insulation, offcut.condition]))
