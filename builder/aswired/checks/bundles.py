"""Bundles: too thick for their hole or conduit, vinyl tape where it is hot, a bare hole in sheet metal."""

from __future__ import annotations

import re
from collections.abc import Iterator

from aswired.figures.bundles import HoleFit, Station
from aswired.figures.heat import heat_of
from aswired.figures.worked import JobResult
from aswired.record import Change, Job, Leg
from aswired.text.diagnostics import Finding, Rule, Severity

BUN01 = Rule("BUN01", Severity.WARNING)
BUN02 = Rule("BUN02", Severity.WARNING)
BUN03 = Rule("BUN03", Severity.ERROR)

_VINYL = re.compile(r"\b(vinyl|pvc)\b", re.IGNORECASE)


def judge(facts: JobResult) -> Iterator[Finding]:
    for fit in facts.bundles.holes:
        yield from _hole(fit)
        yield from _bare_edge(fit)
    stations = {station.key: station for station in facts.bundles.stations}
    for wrap in facts.bundles.wraps:
        row = facts.job.change(wrap.row)
        if row is not None and wrap.bore_mm is not None:
            yield from _conduit(facts.job, row, wrap.bore_mm, [stations[key] for key in wrap.stations])
    yield from _vinyl(facts)


def _hole(fit: HoleFit) -> Iterator[Finding]:
    bore = fit.hole.bore.mm if fit.hole.bore else None
    if bore is None:
        return
    thick = _thicker(fit.diameter.value, fit.band, fit.least_mm, bool(fit.perhaps), bore)
    if thick:
        yield BUN01(
            fit.hole.line_of("bore"),
            fit.landmark,
            f"the bundle of {len(fit.wires)} wires at {fit.landmark} is {thick}; its hole is clear for {bore:.1f} mm",
            "Measure the bundle; widen the hole, take a larger grommet, or lead a part of it elsewhere",
        )


def _conduit(job: Job, row: Change, bore: float, stations: list[Station]) -> Iterator[Finding]:
    """The thickest run in a conduit that is too narrow: one finding a row."""
    told = [
        (station, thick)
        for station in stations
        if (thick := _thicker(station.diameter.value, station.band, station.least_mm, bool(station.perhaps), bore))
    ]
    if not told:
        return
    station, thick = max(told, key=lambda pair: pair[0].diameter.value or pair[0].least_mm or 0.0)
    leg = job.route[station.leg]
    where = f"{leg.from_} to {leg.to}" + (f", from {station.start_mm:.0f} mm" if station.start_mm >= 1 else "")
    problem = f"the bundle {where} is {thick}; the conduit is written as {bore:.1f} mm"
    mend = "Measure the bundle there; take a wider conduit, or correct what is written"
    yield BUN01(row.line_of("cover"), row.id, problem, mend)


def _thicker(
    value: float | None, band: tuple[float, float] | None, least: float | None, more: bool, bore: float
) -> str:
    """How thick a bundle is, in words, when it is thicker than a bore; '' when it is not, or when that is not known."""
    if value is not None and value > bore:
        between = f" ({band[0]:.1f} to {band[1]:.1f})" if band and band[1] - band[0] > 0.05 else ""
        return f"{'at least ' if more else ''}about {value:.1f} mm{between} thick"
    if value is None and least is not None and least > bore:
        return f"at least {least:.1f} mm thick without the wires of unread size"
    return ""


def _bare_edge(fit: HoleFit) -> Iterator[Finding]:
    if fit.hole.through == "sheet metal" and fit.hole.grommet == "no":
        problem = f"the bundle passes a hole in sheet metal at {fit.landmark} without a grommet"
        mend = "Fit a grommet, with or without conduit, and write grommet: yes"
        yield BUN03(fit.hole.line_of("grommet"), fit.landmark, problem, mend)


def _vinyl(facts: JobResult) -> Iterator[Finding]:
    """Vinyl tape on a hot leg, wound over the bundle or over a splice: one finding a row."""
    job = facts.job
    legs: dict[str, dict[int, None]] = {}
    for wrap in facts.bundles.wraps:
        if "tape" in wrap.cover.casefold() and _VINYL.search(wrap.cover):
            legs.setdefault(wrap.row, {}).update(dict.fromkeys(run[0] for run in wrap.runs))
    for placed in facts.joints:
        cover = placed.joint.cover
        if cover is not None and cover.tape and _VINYL.search(cover.text) and placed.leg is not None:
            legs.setdefault(placed.joint.row, {})[placed.leg] = None
    for id, passed in legs.items():
        row = job.change(id)
        hot = [(job.route[index], how) for index in passed if (how := _heat(job, job.route[index]))]
        if row is not None and hot:
            where = ", ".join(f"{leg.from_} to {leg.to} ({how})" for leg, how in hot)
            yield BUN02(
                row.line_of("cover"),
                id,
                f"vinyl tape where it is hot: {where}; it is kept below {job.limits_in_force['vinyl tape'].value:g} °C",
                "Take cloth tape made for heat, or keep the bundle away from the hot part",
            )


def _heat(job: Job, leg: Leg) -> str:
    """How hot a leg is, in words, when that is above what vinyl tape bears; a measured figure goes before the zone."""
    heat = heat_of(job, leg)
    if heat is None or heat <= job.limits_in_force["vinyl tape"].value:
        return ""
    measured = leg.hottest is not None and leg.hottest.value is not None
    return f"{heat:g} °C measured" if measured else f"a hot zone, counted as {heat:g} °C"
