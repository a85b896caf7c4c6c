"""What lies on either side of a fuse: the wire that it alone protects, and what leads to it past no fuse."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from aswired.car.harness import BATTERY_POSITIVE, Stretch
from aswired.car.special import special_wires
from aswired.car.trace import Link, Net
from aswired.physics.figure import Figure, Input, Missing


@dataclass(frozen=True)
class LoadSide:
    """What is reached from the load side of a fuse, up to loads, grounds and the next fuse."""

    nodes: frozenset[str]
    stretches: tuple[Stretch, ...]


def load_side(net: Net, fuse: str) -> LoadSide:
    """The load side of one fuse."""
    found: list[Stretch] = []
    seen, todo = {fuse}, [fuse]
    for at in todo:
        if at != fuse and (net.is_ground(at) or net.is_source(at)):
            continue
        for link in net.links.get(at, ()):
            other = link.other(at)
            if link.kind == "fuse":
                continue
            if link.stretch is not None and link.stretch not in found:
                found.append(link.stretch)
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return LoadSide(frozenset(seen), tuple(found))


def protected(net: Net, fuse: str) -> tuple[Stretch, ...]:
    """Every stretch on the load side of a fuse."""
    return load_side(net, fuse).stretches


def feeders(net: Net, fuse: str, sides: Mapping[str, LoadSide]) -> tuple[str, ...]:
    """The fuses that another is fed through; none where battery+ reaches it past them all.

    `sides` are the load sides of every fuse.
    """
    feed = f"{fuse}.feed"
    found = tuple(name for name, side in sides.items() if name != fuse and feed in side.nodes)
    return () if found and unfused(net, feed) else found


# ---- wire that no fuse protects -------------------------------------------------------------------------------------
def unfused(net: Net, start: str) -> bool:
    """Whether battery+ is reached on any way that passes no fuse, be there a shorter one through a fuse or not."""
    return bool(ways_past_no_fuse(net, start, frozenset({BATTERY_POSITIVE})))


def ways_past_no_fuse(net: Net, start: str, goals: Collection[str]) -> dict[str, tuple[Link, ...]]:
    """Goal -> the links from it back to `start`, for each goal that is reached past no fuse and no fusible link.

    Nearest goals come first; no way leads on through a goal, a source or a ground.
    """
    fusible = {wire for wire, kind in special_wires(net.job).items() if kind == "fusible link"}
    before: dict[str, tuple[Link, ...]] = {start: ()}
    todo, found = [start], {}
    for at in todo:
        if at in goals:
            found[at] = before[at]
            continue
        if net.is_source(at) or net.is_ground(at):
            continue
        for link in net.links.get(at, ()):
            other = link.other(at)
            if other not in before and link.kind != "fuse" and not _is_link(net, link.stretch, fusible):
                before[other] = (*before[at], link)
                todo.append(other)
    return found


def _is_link(net: Net, stretch: Stretch | None, fusible: set[str]) -> bool:
    """Whether a stretch is fusible link as it was put in; a piece let into one is ordinary wire."""
    if stretch is None or stretch.wire not in fusible:
        return False
    return stretch.origin in ("", net.view.wires[stretch.wire].added_by)


@dataclass(frozen=True)
class BareWay:
    """Wire with no fuse between a source and a fuse's feed side."""

    source: str
    stretches: tuple[Stretch, ...]


def bare_ways(net: Net, fuse: str) -> list[BareWay]:
    """The ways to a fuse from battery+, or from the first bus bar behind it; no later bar counts for one."""
    feed = f"{fuse}.feed"
    bars = {name for name, splice in net.job.splices.items() if splice.bus} - {feed}
    found = []
    for source, links in ways_past_no_fuse(net, feed, {BATTERY_POSITIVE, *bars}).items():
        first, before = _to_first_bar(net, source, bars)
        way = (*links, *before)
        found.append(BareWay(first, tuple(link.stretch for link in way if link.stretch is not None)))
    return found


def _to_first_bar(net: Net, source: str, bars: Collection[str]) -> tuple[str, tuple[Link, ...]]:
    """The first bus bar behind battery+ by which another bar is reached, with the links between; else that bar."""
    if source == BATTERY_POSITIVE:
        return source, ()
    first, kept, at = source, 0, source
    links = ways_past_no_fuse(net, source, {BATTERY_POSITIVE}).get(BATTERY_POSITIVE, ())
    for number, link in enumerate(links, 1):
        at = link.other(at)
        if at in bars:
            first, kept = at, number
    return first, links[:kept]


def unprotected_length(net: Net, fuse: str) -> Figure | None:
    """Conductor between a fuse and its source, the longest way where there are several. [mm]

    None for a fuse to which no wire of the record leads from a source: there is nothing to measure.
    """
    ways = bare_ways(net, fuse)
    if not ways:
        return None
    way = max(ways, key=lambda way: (None in _lengths(way), sum(mm or 0.0 for mm in _lengths(way))))
    inputs = tuple(
        Input(stretch.name, stretch.length_mm, "mm", "whole length, with what sits in terminals")
        for stretch in way.stretches
    )
    missing = tuple(Missing("length", given.name) for given in inputs if given.value is None)
    known = [mm for mm in _lengths(way) if mm is not None]
    return Figure(
        f"{fuse}.unprotected",
        f"wire with no fuse between {way.source} and {fuse}",
        None if missing else sum(known),
        "mm",
        "sum of the whole lengths",
        "L = sum of L",
        inputs,
        missing,
        f"at least {sum(known):.0f} mm" if missing and known else "",
    )


def _lengths(way: BareWay) -> list[float | None]:
    return [stretch.length_mm for stretch in way.stretches]
