"""Fuses as rows: rating, place, what each feeds now, and whether it suits the thinnest wire behind it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from aswired.colours import Colour
from aswired.diagnostics import Finding
from aswired.harness import RelayState
from aswired.model import Fuse
from aswired.views.places import landmark_words, told
from aswired.views.text import NOT_RECORDED, FigureText, figure_text, size
from aswired.worked import FuseSummary, Worked

VERDICT = {
    True: "suits the wire",
    False: "too big for the wire",
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
    amps: str  # its total in words; nothing is not zero
    wire: str  # thinnest wire
    wire_colour: Colour | None
    wire_size: str
    planning: FigureText
    verdict: str
    bad: bool
    rows: tuple[str, ...]  # rows that assigned it or left it spare
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class RelayRow:
    """A relay whose contacts rows assigned, ready to print."""

    name: str
    where: str
    worked_by: str
    fed: str
    words: str
    spare: bool
    rows: tuple[str, ...]


@dataclass(frozen=True)
class FuseSheet:
    """Every fuse in the order of the file. `usual_where` is where most of them are; those rows leave `where` empty."""

    usual_where: str
    rows: tuple[FuseRow, ...]
    relays: tuple[RelayRow, ...] = ()


def fuse_sheet(worked: Worked) -> FuseSheet:
    """The page of fuses."""
    rows = tuple(_row(fuse, worked) for fuse in worked.fuses)
    relays = tuple(_relay(state, worked) for state in worked.shown.relays.values())
    places = Counter(row.where for row in rows)
    usual, many = places.most_common(1)[0] if places else ("", 0)
    if many < 2 or usual == NOT_RECORDED:
        return FuseSheet("", rows, relays)
    return FuseSheet(usual, tuple(replace(row, where="") if row.where == usual else row for row in rows), relays)


def rating(fuse: Fuse | None) -> str:
    """A fuse's rating as moulded on it."""
    return fuse.rating.text if fuse and fuse.rating and fuse.rating.value is not None else NOT_RECORDED


def _row(fuse: FuseSummary, worked: Worked) -> FuseRow:
    declared, wire, job = fuse.fuse, fuse.thinnest, worked.job
    return FuseRow(
        name=fuse.name,
        rating=rating(declared),
        where=landmark_words(_place(fuse), job.landmarks),
        fed=(declared.fed if declared else "") or NOT_RECORDED,
        words=declared.feeds if declared and declared.feeds not in fuse.loads else "",
        loads=fuse.loads,
        spare=fuse.spare,
        total=figure_text(fuse.total, job.units),
        amps=figure_text(fuse.total, job.units).value if fuse.loads else ("" if fuse.spare else NOT_RECORDED),
        wire=wire.wire if wire else "",
        wire_colour=wire.colour if wire else None,
        wire_size=size(wire.size) if wire else NOT_RECORDED,
        planning=figure_text(fuse.rating, job.units),
        verdict="spare" if fuse.spare else VERDICT[fuse.ok],
        bad=fuse.ok is False,
        rows=fuse.rows,
        findings=tuple(finding for finding in worked.findings if finding.entry == fuse.name),
    )


def _place(fuse: FuseSummary) -> str:
    """Where a fuse is: as written, else the wire that it was let into."""
    written = told(fuse.fuse.in_ if fuse.fuse else "")
    return f"in line in {fuse.in_wire}" if written == NOT_RECORDED and fuse.in_wire else written


def _relay(state: RelayState, worked: Worked) -> RelayRow:
    switch = worked.job.switches.get(state.name)
    return RelayRow(
        state.name,
        landmark_words(told(switch.place if switch else ""), worked.job.landmarks),
        (switch.worked_by if switch else "") or NOT_RECORDED,
        state.fed or NOT_RECORDED,
        state.feeds or (switch.what if switch else "") or NOT_RECORDED,
        state.use == "spare",
        state.rows,
    )
