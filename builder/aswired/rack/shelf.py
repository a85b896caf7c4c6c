"""The shop's rack of offcuts, `rack.yml` beside the job folders, and what the jobs have left of each piece.

No page of a job depends on it: a job that uses a piece of the rack lists that piece under its own `offcuts:`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from aswired.car.asbuilt import fold
from aswired.files import find_jobs, job_files, read_beside, read_job
from aswired.record import Job
from aswired.record.forms import OFFCUT
from aswired.text.diagnostics import Fault, FaultList
from aswired.text.one_line import Offcut, Piece
from aswired.text.schema import Located, Named, keyed

RACK = "rack.yml"


@dataclass(frozen=True)
class Rack(Located):
    """The shop's offcuts: rack.yml beside the job folders. What jobs cut `from` a piece is taken off its length."""

    rack: Mapping[str, Offcut] = keyed(
        Named(OFFCUT, "piece"), "pieces on the rack, each with the name on its tag", example="{R3: RD 18 AWG 2.4 m}"
    )


@dataclass(frozen=True)
class RackPiece:
    """A piece of the rack and what is cut from it. Millimetres.

    cuts: (job folder, piece, length; None = not recorded). unread: jobs that name it and cannot be read.
    """

    name: str
    offcut: Offcut
    cuts: tuple[tuple[str, str, float | None], ...] = ()
    unread: tuple[str, ...] = ()

    @property
    def left_mm(self) -> float | None:
        """What is left; None where the length, a cut, or a job that cut from it is not known."""
        whole, cuts = self.offcut.length.mm, [length for _, _, length in self.cuts]
        known = [length for length in cuts if length is not None]
        if whole is None or self.unread or len(known) < len(cuts):
            return None
        return whole - sum(known)


def read_rack(jobs_dir: Path) -> tuple[Rack, tuple[Fault, ...]]:
    """The rack of a shop, empty where there is no file; and every fault of the file."""
    faults = FaultList()
    rack = read_beside(jobs_dir, RACK, Rack, "the rack", faults)
    return rack, faults.sorted()


def pieces_left(jobs_dir: Path, rack: Rack) -> tuple[RackPiece, ...]:
    """Every piece of the rack with what the plans of all jobs cut from it; a planned cut is taken off too."""
    cuts: dict[str, list[tuple[str, str, float | None]]] = {name: [] for name in rack.rack}
    unread: dict[str, list[str]] = {name: [] for name in rack.rack}
    for folder in find_jobs(jobs_dir) if rack.rack else ():
        job = read_job(folder).job
        if job is None:
            for name in _named_in(folder, rack):
                unread[name].append(folder.name)
            continue
        used = [name for name in rack.rack if name in _drawn_on(job) and of_rack(job, name, rack.rack[name])]
        accounts = fold(job, "plan").offcuts if used else {}
        for name in used:
            if name in accounts:
                cuts[name] += [(folder.name, piece, length) for piece, length in accounts[name].cuts]
    return tuple(RackPiece(name, offcut, tuple(cuts[name]), tuple(unread[name])) for name, offcut in rack.rack.items())


def of_rack(job: Job, name: str, offcut: Offcut) -> bool:
    """Whether a job means the rack's piece by a name: it reclaimed none of that name, and lists no other under it."""
    if any(name in row.reclaimed for row in job.changes):
        return False
    own = job.offcuts.get(name)
    return own is None or (own.colour.code, _size(own)) == (offcut.colour.code, _size(offcut))


def _size(offcut: Offcut) -> tuple[str | None, float | None]:
    return offcut.size.system, offcut.size.number


def _drawn_on(job: Job) -> set[str]:
    """Every name that a row of the job cuts from."""
    pieces: Iterator[Piece | None] = (row.piece_of(wire) for row in job.changes for wire in (*row.wire_names, ""))
    return {piece.offcut for piece in pieces if piece is not None and piece.offcut}


def _named_in(folder: Path, rack: Rack) -> list[str]:
    """Pieces that the text of a job cuts from, as far as that can be told of files that cannot be read."""
    text = "\n".join(path.read_bytes().decode("utf-8", "replace") for path in job_files(folder))
    return [name for name in rack.rack if re.search(rf"\bfrom\s+{re.escape(name)}(?![\w.-])", text)]
