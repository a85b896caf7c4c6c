"""Bundles as rows: how thick each run of the route is, what goes over it, which wires lie in it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.bundle_ways import InBundle
from aswired.figures.bundles import HoleFit, Station, Wrap
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure
from aswired.record import Job
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.stagger import StaggerRow, stagger_rows
from aswired.sheets.text import FigureText, Printed, amount, count, figure_text, length, listing, printed, size_named
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding
from aswired.text.units import MM_PER_INCH, show_both, show_length
from aswired.text.unsaid import NOT_JUDGED, NOT_RECORDED

WHOLE = "whole leg"
FEW = 3  # names that stand in a cell; more are counted
PX_PER_MM = 4.0  # bars of the diameters


@dataclass(frozen=True)
class RunRow:
    """A run with the same wires in it. `unread` and `more` are '' when everything in it is known; without a diameter
    what follows from it is ''. The bar is the diameter, and between what it lies, in pixels."""

    run: str
    wires: str  # how many
    diameter: str
    between: str
    bar_px: float
    band_px: tuple[float, float]
    unread: str  # whose diameter is not known, and what the others make
    more: str  # wires that may lie here too
    over_splice: str
    bore: str
    conduit: str
    bend: str
    joints: tuple[str, ...]


@dataclass(frozen=True)
class WireOnLeg:
    """A wire on a leg: its colours in the order in which they lie, and the part of the leg it takes."""

    wire: str
    colours: tuple[Colour, ...]
    sizes: str
    outside: str
    run: str


@dataclass(frozen=True)
class BundleLeg:
    """A leg and its bundle."""

    name: str
    start: str
    called: str
    length: str
    zone: str
    runs: tuple[RunRow, ...]
    wires: tuple[WireOnLeg, ...]


@dataclass(frozen=True)
class HoleRow:
    """A hole and the bundle through it."""

    landmark: str
    what: str
    through: str
    grommet: str
    bore: str
    wires: str
    diameter: str
    fits: str  # wide enough, too narrow, not judged
    narrow: bool
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class WrapRow:
    """A cover row along the route."""

    row: str
    state: str
    cover: str
    run: str
    length: str
    thickest: str
    tape: str
    missing: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class BundleSheet:
    """Everything the page of bundles says."""

    planned: bool  # some of it is not made yet
    conduits: bool  # the shop's conduits are recorded
    wider: str  # by how much a conduit is wider than its bundle
    said: str
    legs: tuple[BundleLeg, ...]
    bare: tuple[str, ...]  # legs on which no wire on record lies
    holes: tuple[HoleRow, ...]
    wraps: tuple[WrapRow, ...]
    staggers: tuple[StaggerRow, ...]
    off_route: tuple[str, ...]
    figures: tuple[FigureText, ...]


def bundle_sheet(worked: JobResult) -> BundleSheet:
    """The page of bundles: those of the plan, so that covers can be chosen for it."""
    job, found = worked.job, worked.bundles
    legs = {station.leg for station in found.stations}
    estimated = [wire for station in found.stations for wire in station.wires if wire.outside and not _read(wire)]
    return BundleSheet(
        conduits=any(bore.mm is not None for bore in job.shop.conduits),
        wider=f"{job.limits_in_force['conduit over bundle'].value:g} %",
        planned=any(_state(worked, row) == "planned" for row in worked.plan.counted),
        said="Outer diameters are estimates from size and insulation, unless they were measured."
        if estimated
        else "Every outer diameter was measured."
        if any(station.wires for station in found.stations)
        else "",
        legs=tuple(_leg(job, index, found.stations) for index in sorted(legs)),
        bare=tuple(_name(job, index) for index in range(len(job.route)) if index not in legs),
        holes=tuple(_hole(worked, fit) for fit in found.holes),
        wraps=tuple(_wrap(worked, wrap) for wrap in found.wraps),
        staggers=stagger_rows(worked),
        off_route=found.off_route,
        figures=tuple(_figure(figure, job.units) for figure in _shown(worked)),
    )


def _read(wire: InBundle) -> bool:
    return wire.outside is not None and wire.outside.mark == "recorded"


def _state(worked: JobResult, id: str) -> str:
    row = worked.job.change(id)
    return worked.state_of(row) if row else "planned"


def _name(job: Job, index: int) -> str:
    return f"{job.route[index].from_} to {job.route[index].to}"


def thick(mm: float | None, units: str) -> str:
    r"""A diameter: to a tenth of a millimetre, in a job in inches with the hundredths of an inch before it.

    >>> thick(11.757, "mm"), thick(11.757, "inch")
    ('11.8 mm', '0.46 in (11.8\xa0mm)')
    """
    if mm is None:
        return NOT_RECORDED
    fine = f"{mm:.1f}\u00a0mm"
    return f"{mm / MM_PER_INCH:.2f} in ({fine})" if units == "inch" else fine.replace("\u00a0", " ")


def _thick(figure: Figure, units: str) -> Printed:
    return Printed(thick(figure.value, units), figure.key)


def tape_text(mm: float | None) -> str:
    """Tape to have at hand, in metres rounded up to a tenth.

    >>> tape_text(5024.0), tape_text(3968.0)
    ('5.1 m', '4.0 m')
    """
    return NOT_RECORDED if mm is None else f"{math.ceil(mm / 100 - 1e-9) / 10:.1f} m"


def _at_least(of: Iterable[Station | HoleFit], units: str) -> str:
    """What the wires of known diameter make alone, where it is thickest."""
    known = [found for item in of if (found := item.diameter.value or item.least_mm) is not None]
    return f"at least {thick(max(known), units)}" if known else NOT_RECORDED


def _run(start: float, end: float | None, whole: float | None, units: str) -> str:
    """From where to where on a leg, in words."""
    if end is None or (start < 1 and whole is not None and end > whole - 1):
        return WHOLE
    first = "0" if start < 1 else show_length(start, units)
    return f"{first} to {show_both(end, units)}"


def _leg(job: Job, index: int, stations: tuple[Station, ...]) -> BundleLeg:
    leg, units = job.route[index], job.units
    whole = leg.length.mm if leg.length else None
    here = [station for station in stations if station.leg == index]
    return BundleLeg(
        name=_name(job, index),
        start=leg.from_,
        called=leg.name,
        length=length(leg.length, units) if whole is not None else f"length {NOT_RECORDED}",
        zone=listing(leg.zone, f"zone {NOT_RECORDED}"),
        runs=tuple(_run_row(station, whole, units) for station in here),
        wires=tuple(_wire_rows(here, whole, units)),
    )


def _run_row(station: Station, whole: float | None, units: str) -> RunRow:
    known = station.diameter.value
    band = station.band or (0.0, 0.0)
    return RunRow(
        run=_run(station.start_mm, station.end_mm, whole, units),
        wires=count(len(station.wires), "wire"),
        diameter=_thick(station.diameter, units),
        between=_between(station.band),
        bar_px=PX_PER_MM * (known or 0.0),
        band_px=(PX_PER_MM * band[0], PX_PER_MM * band[1]),
        unread=_unread(station.wires, station.least_mm, units),
        more=_more(station.perhaps),
        over_splice=_thick(station.at_joint, "mm") if station.at_joint and known is not None else "",
        bore="" if known is None else _thick(station.bore, "mm"),
        conduit="" if known is None else _conduit(station),
        bend="" if known is None else printed(station.bend),
        joints=station.joints,
    )


def _conduit(station: Station) -> str:
    if station.conduit.value is None and station.conduit.note:
        return "none wide enough"
    return _thick(station.conduit, "mm")


def _between(band: tuple[float, float] | None) -> str:
    return f"{band[0]:.1f} to {band[1]:.1f} mm" if band and band[1] - band[0] > 0.05 else ""


def _unread(wires: Iterable[InBundle], least: float | None, units: str) -> str:
    names = [wire.wire for wire in wires if wire.outside is None]
    if not names:
        return ""
    which = names[0] if len(names) == 1 else f"{len(names)} wires" if len(names) > FEW else ", ".join(names)
    return f"without {which} at least {thick(least, units)}" if least is not None else f"{which} not read"


def _more(perhaps: tuple[str, ...]) -> str:
    which = ", ".join(perhaps) if len(perhaps) <= FEW else f"{len(perhaps)} wires"
    return f"perhaps {which} too: way {NOT_RECORDED}" if perhaps else ""


def _wire_rows(stations: list[Station], whole: float | None, units: str) -> Iterable[WireOnLeg]:
    """Each wire of a leg once, with the part of the leg that it takes."""
    parts: dict[str, list[tuple[Station, InBundle]]] = {}
    for station in stations:
        for wire in station.wires:
            parts.setdefault(wire.wire, []).append((station, wire))
    for name, found in parts.items():
        stretches = dict.fromkeys(stretch for _, wire in found for stretch in wire.stretches)
        runs: list[tuple[float, float | None]] = []
        for station, _ in found:
            if runs and runs[-1][1] is not None and abs(runs[-1][1] - station.start_mm) < 1:
                runs[-1] = (runs[-1][0], station.end_mm)
            else:
                runs.append((station.start_mm, station.end_mm))
        outside = max((wire.outside for _, wire in found if wire.outside), key=lambda had: had.mm, default=None)
        unknown = outside is None or any(wire.outside is None for _, wire in found)
        had = " measured" if outside and outside.mark == "recorded" else ""
        yield WireOnLeg(
            wire=name,
            colours=tuple(dict.fromkeys(stretch.colour for stretch in stretches)),
            sizes=listing(dict.fromkeys(size_named(stretch.size) for stretch in stretches)),
            outside="outside not recorded" if unknown or outside is None else f"{outside.mm:.1f} mm{had}",
            run="; ".join(_run(start, end, whole, units) for start, end in runs),
        )


def _hole(worked: JobResult, fit: HoleFit) -> HoleRow:
    job, bore = worked.job, fit.hole.bore.mm if fit.hole.bore else None
    thickness = fit.diameter.value
    least = fit.least_mm if thickness is None else thickness
    narrow = bore is not None and least is not None and least > bore
    fits: str = "too narrow" if narrow else NOT_JUDGED
    if bore is not None and thickness is not None and not narrow:
        fits = "wide enough for these" if fit.perhaps else "wide enough"
    return HoleRow(
        landmark=fit.landmark,
        what=job.landmarks.get(fit.landmark, ""),
        through=_told(fit.hole.through),
        grommet=_told(fit.hole.grommet),
        bore=thick(bore, job.units),
        wires=count(len(fit.wires), "wire"),
        diameter=_thick(fit.diameter, job.units) if thickness is not None else _at_least((fit,), job.units),
        fits=fits,
        narrow=narrow,
        findings=_findings(worked, fit.landmark),
    )


def _told(word: str) -> str:
    return NOT_RECORDED if word == "unknown" else word


def _findings(worked: JobResult, entry: str) -> tuple[Finding, ...]:
    return tuple(found for found in worked.findings if found.entry == entry and found.code.startswith("BUN"))


def _wrap(worked: JobResult, wrap: Wrap) -> WrapRow:
    job, row = worked.job, worked.job.change(wrap.row)
    inside = [station for station in worked.bundles.stations if station.key in wrap.stations]
    known = [station.diameter for station in inside if station.diameter.known]
    widest = max(known, key=lambda diameter: diameter.value or 0.0) if len(known) == len(inside) and known else None
    lengths = [end - start for _, start, end in wrap.runs if end is not None]
    whole = sum(lengths) if wrap.runs and len(lengths) == len(wrap.runs) else None
    return WrapRow(
        row=wrap.row,
        state=_state(worked, wrap.row),
        cover=wrap.cover,
        run=f"{row.from_} to {row.to}" if row and row.from_ and row.to else NOT_RECORDED,
        length=amount(whole, "mm", job.units),
        thickest=_thick(widest, job.units) if widest is not None else _at_least(inside, job.units),
        tape=Printed(tape_text(wrap.tape.value), wrap.tape.key) if wrap.tape else "",
        missing=", ".join(wrap.tape.missing_words) if wrap.tape else "",
        findings=_findings(worked, wrap.row),
    )


def _shown(worked: JobResult) -> Iterable[Figure]:
    """The figures that need their inputs beside them: what is a plain multiple of them is told in words."""
    for station in worked.bundles.stations:
        yield station.diameter
        if station.at_joint is not None:
            yield station.at_joint
    for hole in worked.bundles.holes:
        yield hole.diameter
    for wrap in worked.bundles.wraps:
        if wrap.tape is not None:
            yield wrap.tape


def _figure(figure: Figure, units: str) -> FigureText:
    text = figure_text(figure, units)
    if figure.key.endswith(".tape"):
        return text
    return FigureText(**{**text.__dict__, "value": _thick(figure, units)})


def pages(frame: Frame) -> Iterable[PageOut]:
    """The bundles."""
    yield frame.page("bundles", "bundles.html", b=bundle_sheet(frame.worked))
