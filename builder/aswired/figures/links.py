"""Fusible links: what each protects, and by how many gauge numbers it is the thinner."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.car.harness import Stretch, View
from aswired.car.special import special_wires
from aswired.network.copper import conductor_of, is_copper
from aswired.physics.steps import steps_thicker
from aswired.record import Job
from aswired.text.units import Size


@dataclass(frozen=True)
class Behind:
    """A wire that a fusible link protects: its thinnest stretch in the car, and by how many gauge numbers the link is
    the thinner; None where a size was not read."""

    wire: str
    thinnest: Stretch | None
    steps: int | None


@dataclass(frozen=True)
class LinkSummary:
    """A fusible link in the shown view, with the wires that it is declared to protect."""

    name: str
    stretch: Stretch
    length_mm: float | None
    protects: tuple[Behind, ...]


def link_summaries(job: Job, view: View) -> tuple[LinkSummary, ...]:
    """Every fusible link that is in the car in a view."""
    links = [name for name, kind in special_wires(job).items() if kind == "fusible link"]
    return tuple(_summary(job, view, name) for name in links if view.of_wire(name))


def protects(job: Job, link: str) -> tuple[str, ...]:
    """The wires that a link is declared to protect, by the wire list and by the row that put it in."""
    wire = job.wires.get(link)
    row = next((row for row in job.changes if row.wire == link and row.protects), None)
    return (*(wire.protects if wire is not None else ()), *(row.protects if row is not None else ()))


def _summary(job: Job, view: View, name: str) -> LinkSummary:
    own = view.of_wire(name)
    lengths = [stretch.length_mm for stretch in own]
    known = [length for length in lengths if length is not None]
    return LinkSummary(
        name,
        own[0],
        sum(known) if len(known) == len(lengths) else None,
        tuple(_behind(job, view, own[0], wire) for wire in protects(job, name)),
    )


def _behind(job: Job, view: View, link: Stretch, wire: str) -> Behind:
    """A protected wire by its thinnest stretch; nothing is told of one with a stretch whose size was not read, or that
    is not of copper."""
    stretches = view.of_wire(wire)
    if any(not is_copper(stretch, job) for stretch in (link, *stretches)):
        return Behind(wire, None, None)
    told = [(gauge_numbers(link.size, stretch.size, job), stretch) for stretch in stretches]
    if not told or any(numbers is None for numbers, _ in told):
        return Behind(wire, None, None)
    numbers, thinnest = min(told, key=lambda pair: pair[0] or 0)
    return Behind(wire, thinnest, numbers)


def gauge_numbers(link: Size, wire: Size, job: Job) -> int | None:
    """By how many gauge numbers a link is thinner than a wire; None where a size was not read or is in no table.

    Two gauges differ by their numbers. Where one is written in mm2, the copper areas tell: a gauge number is a factor
    of 92^(2/39) = 1.261 in area (ASTM B258), rounded to whole numbers because sizes in mm2 lie between the gauges.

    >>> job = Job(job="Link")
    >>> gauge_numbers(Size("", "AWG", 20.0), Size("", "AWG", 16.0), job)
    4
    >>> gauge_numbers(Size("", "mm2", 1.0), Size("", "mm2", 2.5), job)  # ln 2.5 / ln 1.261 = 3.95
    4
    """
    if link.number is None or wire.number is None:
        return None
    if link.system == wire.system == "AWG":
        return round(link.number - wire.number)
    thin, thick = conductor_of(link, job), conductor_of(wire, job)
    if thin is None or thick is None:
        return None
    return round(2 * steps_thicker(thick.area_mm2, thin.area_mm2))
