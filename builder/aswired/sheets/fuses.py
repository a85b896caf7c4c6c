"""Fuses as rows: rating, place, what each feeds now, whether it suits the thinnest wire behind it, and second opinions.

Fusible links, the fuses behind fuses and the further sources of current stand with them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from aswired.car.harness import NodeKind, RelayState
from aswired.checks.fuses import mend_words, only_cut_ends
from aswired.figures.feeds import protected
from aswired.figures.fuses import FuseSummary
from aswired.figures.links import Behind, LinkSummary
from aswired.figures.worked import JobResult
from aswired.ledger.record import Weight, Why
from aswired.ledger.words import fact_words, reason_clause
from aswired.physics.figure import Figure
from aswired.record import Fuse
from aswired.sheets.cut_ends import CutEnd, cut_ends
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.notes import notes_of
from aswired.sheets.places import landmark_words, place_text
from aswired.sheets.recorded import found_dead
from aswired.sheets.text import FigureText, Printed, amount, count, figure_text, is_unsaid, listing, printed, size
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding
from aswired.text.units import is_unknown
from aswired.text.unsaid import NOT_JUDGED, NOT_KNOWN, NOT_RECORDED

VERDICT: dict[bool | None, str] = {
    True: "suits the wire",
    False: "too big for the wire",
    None: NOT_JUDGED,
}


PLUGGED = (NodeKind.CAVITY, NodeKind.MODULE)  # where a wire ends in a part of the car
AT_AN_END = (Why.NO_END, Why.NO_FATE, Why.MEMBERS, Why.NOTHING_BEHIND, Why.NOT_LISTED, Why.PART_GONE, Why.DELETED_LOAD)
NOT_IN_TABLE = "not in the table"
NOTHING = "nothing"  # no wire of it leads to anything that could take a current


@dataclass(frozen=True)
class Beside:
    """What stands beside the verdict on a fuse in use, ready to print. `over` when its share is above what is allowed.

    `allowed`, `bundled` are what 33 CFR 183.425 lets the thinnest wire carry, `fits` the fuse that AC 43.13-1B sets.
    """

    allowed: Printed
    bundled: Printed
    fits: Printed
    share: Printed
    over: bool
    bare: Printed  # wire with no fuse before it
    behind: tuple[str, ...]  # the fuses that it is fed through
    figures: tuple[FigureText, ...]


@dataclass(frozen=True)
class FuseRow:
    """A fuse, ready to print. `words` are what the fuse page says it feeds, `loads` what the trace found."""

    name: str
    rating: str
    where: str
    fed: str
    fed_from: str  # the point that its feed side is said to hang on, '' where none is written
    words: str
    loads: tuple[str, ...]
    leads_to: str  # where its wire ends, of one with no load of the list behind it
    spare: bool
    total: FigureText
    amps: Printed  # its total in words; nothing is not zero
    wire: str  # thinnest wire
    wire_colour: Colour | None
    wire_size: str
    planning: FigureText
    verdict: str
    bad: bool
    let_by: str  # who lets stand that it is too big, '' for nobody
    rows: tuple[str, ...]  # rows that assigned it or left it spare
    findings: tuple[Finding, ...]
    ends: tuple[str, ...] = ()  # cut ends that hang on it, and ends of its wires of which something is not written
    mend: str = ""  # the smallest change that makes it suit its wire, where a person let it stand
    beside: Beside | None = None  # None for a spare


@dataclass(frozen=True)
class LinkRow:
    """A fusible link, ready to print, with each wire that it protects: name, size, by how much the link is thinner."""

    name: str
    colour: Colour
    size: str
    length: str
    protects: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True)
class FuseTree:
    """A fuse with those that are fed through it, ready to print: names and ratings."""

    feeder: str
    rating: str
    fuses: tuple[tuple[str, str], ...]


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
class SourceRow:
    """A source of current beside the battery, ready to print."""

    name: str
    plus: str
    minus: str


@dataclass(frozen=True)
class FuseSheet:
    """Every fuse in the order of the file. `usual_where` is where most of them are; those rows leave `where` empty.

    `smaller` are fuses above what AC 43.13-1B sets for their wire, `above` those above what 33 CFR 183.425 lets it
    carry by itself; `carries` whether that is known of any: its figures are left out where it is not.
    """

    usual_where: str
    rows: tuple[FuseRow, ...]
    relays: tuple[RelayRow, ...] = ()
    sources: tuple[SourceRow, ...] = ()
    links: tuple[LinkRow, ...] = ()
    branches: tuple[FuseTree, ...] = ()
    smaller: tuple[str, ...] = ()
    above: tuple[str, ...] = ()
    carries: bool = False


def fuse_sheet(worked: JobResult) -> FuseSheet:
    """The page of fuses."""
    carries = any(opinion.known for fuse in worked.fuses if (opinion := _opinion(fuse, "cfr")) is not None)
    ends = cut_ends(worked)
    rows = tuple(replace(_row(fuse, worked, carries), ends=_ends(fuse, ends, worked)) for fuse in worked.fuses)
    relays = tuple(_relay(state, worked) for state in worked.shown.relays.values())
    links = tuple(_link(link, worked) for link in worked.links)
    places = Counter(row.where for row in rows)
    usual, many = places.most_common(1)[0] if places else ("", 0)
    if many < 2 or is_unsaid(usual):
        usual = ""
    return FuseSheet(
        usual_where=usual,
        rows=tuple(replace(row, where="") if usual and row.where == usual else row for row in rows),
        relays=relays,
        sources=tuple(SourceRow(name, _end(s.plus), _end(s.minus)) for name, s in worked.job.sources.items()),
        links=links,
        branches=tuple(_branches(worked)),
        smaller=_larger_than(worked, "faa"),
        above=_larger_than(worked, "cfr"),
        carries=carries,
    )


def rating(fuse: Fuse | None) -> str:
    """A fuse's rating as moulded on it."""
    return fuse.rating.text if fuse and fuse.rating and fuse.rating.value is not None else NOT_RECORDED


def _all_on(fuse: FuseSummary) -> Printed:
    """What passes a fuse with all its loads on: without a traced load not known, but a cut end takes nothing."""
    if fuse.loads:
        return printed(fuse.total)
    return Printed("" if fuse.spare else NOTHING if fuse.dead_ends else NOT_RECORDED)


def live_when(name: str, worked: JobResult) -> str:
    """When the feed side of a fuse is live, as it is written; of one whose feed was taken out, that it is not."""
    gone, state = worked.shown.feed_gone(name), worked.shown.fuses.get(name)
    return f"no, {gone}" if gone else (state.facts.fed if state is not None else "") or NOT_RECORDED


def leads_to(fuse: FuseSummary, worked: JobResult) -> str:
    """Of a fuse in use with no load of the list behind it: the cut ends that are all it feeds, or where the wire on its
    load side ends, and which fuses are written as fed from there. '' where none is on record, and where a load is."""
    if fuse.loads or fuse.spare:
        return ""
    if fuse.dead_ends:
        return only_cut_ends(fuse, worked.shown)
    ends = dict.fromkeys(
        end
        for stretch in protected(worked.network.grid.net, fuse.name)
        for end in stretch.ends
        if end != fuse.name and worked.shown.nodes[end].kind in PLUGGED and len(worked.shown.at_node[end]) == 1
    )
    if not ends:
        return ""
    fed = {name: state.facts.fed_from for name, state in worked.shown.fuses.items() if state.facts.fed_from in ends}
    if set(fed.values()) == set(ends):
        return f"its wire leads to {listing(ends)}, written as the feed of {listing(fed)}"
    return f"its wire leads to {listing(ends)}; what that feeds is not recorded"


def _ends(fuse: FuseSummary, ends: Iterable[CutEnd], worked: JobResult) -> tuple[str, ...]:
    """What hangs on a fuse beside its loads: cut ends, then ends of its wires against which something stands, or of
    which the ledger asks something. Nothing of a fuse without loads, whose ends are told in their place."""
    line = worked.ledger.fuses.get(fuse.name)
    if leads_to(fuse, worked):
        return ()
    lines = [
        part for wire in (line.feeds if line else ()) if wire in worked.ledger.accounts
        for part in worked.ledger.accounts[wire].lines if fuse.name in part.push.by
    ]  # fmt: skip
    reasons = [reason for part in lines for reason in part.reasons if reason.why in AT_AN_END]
    asked = {(r.why, r.of, r.key) for r in reasons if r.weight is Weight.MISSING}
    facts = [fact_words([fact]) for fact in worked.ledger.facts if (fact.why, fact.of, fact.key) in asked]
    against = [reason_clause(reason, worked.job) for reason in reasons if reason.weight is not Weight.MISSING]
    return (
        *(f"cut end {end.id}, {end.cover}" for end in ends if fuse.name in end.fuses),
        *dict.fromkeys(against),
        *([f"not written: {', '.join(facts)}"] if facts else []),
    )


def _end(written: str) -> str:
    """An end as it is written, or that it is not known, or that nobody wrote it."""
    return NOT_KNOWN if is_unknown(written) else written or NOT_RECORDED


def _row(fuse: FuseSummary, worked: JobResult, carries: bool) -> FuseRow:
    declared, wire, job = fuse.fuse, fuse.thinnest, worked.job
    findings = tuple(finding for finding in worked.findings if finding.entry == fuse.name)
    let_by = next((found.accepted_by for found in findings if found.code == "FUS01" and found.accepted_by), "")
    return FuseRow(
        name=fuse.name,
        rating=rating(declared),
        where=landmark_words(_place(fuse), job.landmarks),
        fed=live_when(fuse.name, worked),
        fed_from=_end(declared.fed_from) if declared and declared.fed_from else "",
        words=declared.feeds if declared and declared.feeds not in fuse.loads else "",
        loads=fuse.loads,
        leads_to=leads_to(fuse, worked),
        spare=fuse.spare,
        total=figure_text(fuse.total, job.units),
        amps=_all_on(fuse),
        wire=wire.wire if wire else "",
        wire_colour=wire.colour if wire else None,
        wire_size=size(wire.size) if wire else NOT_RECORDED,
        planning=figure_text(fuse.rating, job.units),
        verdict="spare" if fuse.spare else VERDICT[fuse.ok],
        bad=fuse.ok is False,
        let_by=let_by,
        rows=fuse.rows,
        findings=findings,
        mend=mend_words(fuse) if let_by else "",
        beside=None if fuse.spare else _beside(fuse, worked, carries),
    )


# ---- beside the verdict ---------------------------------------------------------------------------------------------
def _opinion(fuse: FuseSummary, kind: str) -> Figure | None:
    """One of a fuse's second opinions by the end of its key: cfr, cfr.bundled, faa."""
    return next((figure for figure in fuse.opinions if figure.key == f"{fuse.name}.{kind}"), None)


def _larger_than(worked: JobResult, kind: str) -> tuple[str, ...]:
    """Fuses in use whose rating is above a second opinion."""
    found = []
    for fuse in worked.fuses:
        opinion, own = _opinion(fuse, kind), fuse.fuse.rating if fuse.fuse else None
        if fuse.spare or own is None or own.value is None or opinion is None or opinion.value is None:
            continue
        if own.value > opinion.value:
            found.append(fuse.name)
    return tuple(found)


def figures_of(row: FuseRow) -> Iterable[FigureText]:
    """What stands of a fuse in use under how each figure was computed."""
    if row.spare:
        return
    if row.loads:
        yield row.total
    yield row.planning
    yield from row.beside.figures if row.beside is not None else ()


def _beside(fuse: FuseSummary, worked: JobResult, carries: bool) -> Beside:
    limit, bare, units = worked.job.limits_in_force["fuse share"].value, fuse.unprotected, worked.job.units
    share = None if fuse.dead_ends else fuse.share
    worth = [figure for figure in fuse.opinions if figure.known or (figure.missing and "bundled" not in figure.key)]
    shown = (*filter(None, (share, bare)), *(figure for figure in worth if carries or ".cfr" not in figure.key))
    return Beside(
        allowed=_opinion_printed(_opinion(fuse, "cfr"), units),
        bundled=_opinion_printed(_opinion(fuse, "cfr.bundled"), units),
        fits=_opinion_printed(_opinion(fuse, "faa"), units),
        share=Printed(NOTHING) if fuse.dead_ends else _opinion_printed(share, units),
        over=share is not None and share.value is not None and share.value > limit,
        bare=_opinion_printed(bare, units),
        behind=fuse.feeders,
        figures=tuple(figure_text(figure, units) for figure in shown),
    )


def _opinion_printed(figure: Figure | None, units: str) -> Printed:
    if figure is not None and figure.value is None and not figure.missing:
        return Printed(NOT_IN_TABLE, figure.key)
    return printed(figure, units) if figure is not None else Printed(NOT_RECORDED)


# ---- links, fuses behind fuses --------------------------------------------------------------------------------------
def _link(link: LinkSummary, worked: JobResult) -> LinkRow:
    return LinkRow(
        link.name,
        link.stretch.colour,
        size(link.stretch.size),
        amount(link.length_mm, "mm", worked.job.units),
        tuple(_behind(wire) for wire in link.protects),
    )


def _behind(wire: Behind) -> tuple[str, str, str]:
    if wire.thinnest is None or wire.steps is None:
        return wire.wire, NOT_RECORDED, ""
    if wire.steps <= 0:
        return wire.wire, size(wire.thinnest.size), "the link is not thinner"
    return wire.wire, size(wire.thinnest.size), f"the link is {count(wire.steps, 'gauge number')} thinner"


def _branches(worked: JobResult) -> Iterator[FuseTree]:
    """Each fuse through which others are fed, in the order of the file."""
    for feeder in worked.fuses:
        fed = tuple((fuse.name, rating(fuse.fuse)) for fuse in worked.fuses if feeder.name in fuse.feeders)
        if fed:
            yield FuseTree(feeder.name, rating(feeder.fuse), fed)


def _place(fuse: FuseSummary) -> str:
    """Where a fuse is: as written, else the wire that it was let into."""
    written = place_text(fuse.fuse.in_ if fuse.fuse else "")
    return f"in line in {fuse.in_wire}" if fuse.in_wire and is_unsaid(written) else written


def _relay(state: RelayState, worked: JobResult) -> RelayRow:
    switch = worked.job.switches.get(state.name)
    return RelayRow(
        state.name,
        landmark_words(place_text(switch.place if switch else ""), worked.job.landmarks),
        (switch.worked_by if switch else "") or NOT_RECORDED,
        state.fed or NOT_RECORDED,
        state.feeds or (switch.what if switch else "") or NOT_RECORDED,
        state.use == "spare",
        state.rows,
    )


def pages(frame: Frame) -> Iterable[PageOut]:
    """The fuses."""
    sheet = fuse_sheet(frame.worked)
    spare = sum(row.spare for row in sheet.rows)
    said = f"{count(len(sheet.rows) - spare, 'fuse')} in use".capitalize() + (f", {spare} spare" if spare else "")
    if sheet.links:
        said += f", {count(len(sheet.links), 'fusible link')}"
    share = frame.worked.job.limits_in_force["fuse share"].value
    figures = tuple(figure for row in sheet.rows for figure in figures_of(row))
    yield frame.page(
        "fuses",
        "fuses.html",
        fuses=sheet,
        said=said,
        dead_in=found_dead(frame.worked),
        share=f"{share:g} %",
        figures=figures,
        notes=notes_of(figures),
    )
