"""Fuses as rows: rating, place, what each feeds now, and whether it suits the thinnest wire behind it."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.colours import Colour
from aswired.diagnostics import Finding
from aswired.views.text import NOT_RECORDED, FigureText, amount, figure_text, size
from aswired.worked import FuseSummary, Worked

VERDICT = {
    True: "fuse suits the wire",
    False: "fuse too big for the wire",
    None: "not judged",
}


@dataclass(frozen=True)
class FuseRow:
    """A fuse, ready to print. `words` are what the fuse page says it feeds, `loads` what the trace found."""

    name: str
    rating: str
    where: str
    fed: str
    words: str
    loads: tuple[str, ...]
    spare: bool
    total: FigureText
    wire: str  # thinnest wire
    wire_colour: Colour | None
    wire_size: str
    planning: FigureText
    verdict: str
    bad: bool
    findings: tuple[Finding, ...]


def fuse_rows(worked: Worked) -> tuple[FuseRow, ...]:
    """Every fuse in the order of the file."""
    return tuple(_row(fuse, worked) for fuse in worked.fuses)


def _row(fuse: FuseSummary, worked: Worked) -> FuseRow:
    declared, wire, job = fuse.fuse, fuse.thinnest, worked.job
    place = declared.in_ if declared else ""
    words = job.landmarks.get(place, "")
    return FuseRow(
        name=fuse.name,
        rating=amount(declared.rating.value if declared and declared.rating else None, "A").replace(".0 A", " A"),
        where=(f"{place}, {words}" if words else place) or NOT_RECORDED,
        fed=(declared.fed if declared else "") or NOT_RECORDED,
        words=declared.feeds if declared else "",
        loads=fuse.loads,
        spare=fuse.spare,
        total=figure_text(fuse.total, job.units),
        wire=wire.wire if wire else "",
        wire_colour=wire.colour if wire else None,
        wire_size=size(wire.size) if wire else NOT_RECORDED,
        planning=figure_text(fuse.rating, job.units),
        verdict="spare" if fuse.spare else VERDICT[fuse.ok],
        bad=fuse.ok is False,
        findings=tuple(finding for finding in worked.findings if finding.entry == fuse.name),
    )
