"""What differs between any two views of a car, in words for a page and for the terminal."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from aswired.car.differences import Differences, FuseDifference, WireDifference, WirePart, WireRun, compare_all
from aswired.car.harness import FuseState, Joint, StudRing, View
from aswired.figures.worked import JobResult
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.text import count, date, size_named
from aswired.text.colours import Colour
from aswired.text.units import show_both
from aswired.text.unsaid import NOT_RECORDED

NOT_THERE = "not there"


@dataclass(frozen=True)
class PartText:
    """A stretch of a wire: colour, size, length, and the splice in which it ends; '' for the last one."""

    colour: Colour
    size: str
    length: str
    joint: str


@dataclass(frozen=True)
class RunText:
    """One unbroken way of a wire, from end to end. An end that sits in nothing says how it was left."""

    first: str
    parts: tuple[PartText, ...]
    last: str
    whole: str


@dataclass(frozen=True)
class ChangedWire:
    """A wire that differs; a side without runs has no such wire."""

    wire: str
    what: str
    before: tuple[RunText, ...]
    after: tuple[RunText, ...]


@dataclass(frozen=True)
class Row:
    """Anything else that differs, in words."""

    name: str
    before: str
    after: str


@dataclass(frozen=True)
class SubjectRows:
    """Rows of one subject."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class ViewPair:
    """All that differs between two views; `said` counts it: '3 wires, 2 splices'."""

    before: str
    after: str
    anchor: str
    said: str
    wires: tuple[ChangedWire, ...]
    parts: tuple[SubjectRows, ...]


@dataclass(frozen=True)
class Moment:
    """A view by its name, and the day it is true for."""

    name: str
    day: str


@dataclass(frozen=True)
class DifferenceSheet:
    """Which moments there are, which of them are alike, and every two that are not."""

    alike: tuple[tuple[Moment, ...], ...]
    pairs: tuple[ViewPair, ...]
    undated: tuple[str, ...]  # revisions whose day was not noted, so that nothing can be folded


def difference_sheet(worked: JobResult) -> DifferenceSheet:
    """Every two moments of a car against each other; those people ask for first, revisions behind them."""
    days = {view.name: view.day for view in worked.views}
    compared = compare_all(worked.views)
    revisions = {view.name for view in worked.revisions}
    called = {names[0]: _called(names, revisions) for names in compared.alike}
    told = [replace(found, before=called[found.before], after=called[found.after]) for found in compared.pairs]
    told.sort(key=lambda found: not revisions.isdisjoint((found.before, found.after)))
    return DifferenceSheet(
        tuple(
            tuple(Moment(name, date(day) if (day := days[name]) else "") for name in names) for names in compared.alike
        ),
        tuple(pair_of(found, worked.job.units) for found in told),
        tuple(f"revision {name}" for name, done in worked.job.revisions.items() if done.date is None),
    )


def _called(names: Sequence[str], revisions: Collection[str]) -> str:
    """The name of moments that are alike: `handed over` says more than `revision 3`."""
    return next((name for name in names if name not in revisions), names[0])


def view_called(worked: JobResult, name: str) -> View | None:
    """The view with this name, in whichever case; None when the job has none."""
    return next((view for view in worked.views if view.name.casefold() == name.strip().casefold()), None)


def pair_of(found: Differences, units: str) -> ViewPair:
    """The differences of two views in words; lengths in the job's units."""
    parts = (
        SubjectRows(
            "Splices", tuple(Row(joint.id, _joint(joint.before), _joint(joint.after)) for joint in found.joints)
        ),
        SubjectRows(
            "Ground points", tuple(Row(item.point, _rings(item.before), _rings(item.after)) for item in found.grounds)
        ),
        SubjectRows("Fuses", tuple(_fuse(item) for item in found.fuses)),
        SubjectRows(
            "Cavities", tuple(Row(item.cavity, _held(item.before), _held(item.after)) for item in found.cavities)
        ),
    )
    told = tuple(part for part in parts if part.rows)
    counts = [count(len(found.wires), "wire")] if found.wires else []
    counts += [_counted(part) for part in told]
    return ViewPair(
        found.before,
        found.after,
        f"{found.before} to {found.after}",
        ", ".join(counts) or "nothing",
        tuple(_wire(wire, units) for wire in found.wires),
        told,
    )


def _counted(part: SubjectRows) -> str:
    number, one = len(part.rows), {"Cavities": "cavity"}.get(part.title, part.title[:-1].casefold())
    return f"{number} {one if number == 1 else part.title.casefold()}"


def pair_text(pair: ViewPair) -> str:
    """The same for the terminal."""
    lines = [f"{pair.before} to {pair.after}: {pair.said}"]
    for wire in pair.wires:
        lines.append(f"{wire.wire}: {wire.what}")
        lines += [f"  {pair.before}: {_run_text(run)}" for run in wire.before]
        lines += [f"  {pair.after}: {_run_text(run)}" for run in wire.after]
    for part in pair.parts:
        lines.append(part.title)
        lines += [f"  {row.name}: {row.before} -> {row.after}" for row in part.rows]
    return "\n".join(lines)


def _run_text(run: RunText) -> str:
    words = [run.first]
    for part in run.parts:
        words.append(f"-- {part.colour.code} {part.size} {part.length} --")
        words += [part.joint] if part.joint else []
    return " ".join([*words, run.last, f"[{run.whole}]"])


def _wire(wire: WireDifference, units: str) -> ChangedWire:
    return ChangedWire(
        wire.wire,
        ", ".join(wire.what),
        tuple(_run(run, units) for run in wire.before),
        tuple(_run(run, units) for run in wire.after),
    )


def _run(run: WireRun, units: str) -> RunText:
    joints = (*run.joints, "")
    return RunText(
        _end(run.ends[0], run.left[0]),
        tuple(_part(part, joint, units) for part, joint in zip(run.parts, joints, strict=True)),
        _end(run.ends[1], run.left[1]),
        show_both(run.length_mm, units),
    )


def _part(part: WirePart, joint: str, units: str) -> PartText:
    return PartText(part.colour, size_named(part.size), show_both(part.length_mm, units), joint)


def _end(node: str, left: str) -> str:
    return f"{node} ({left})" if left else node


def _joint(joint: Joint | None) -> str:
    if joint is None:
        return NOT_THERE
    method = joint.method.text.strip() if joint.method else f"form {NOT_RECORDED}"
    cover = joint.cover.text.strip() if joint.cover else f"cover {NOT_RECORDED}"
    return "; ".join(filter(None, [", ".join(joint.wires), method, cover, joint.recorded_place]))


def _rings(rings: Iterable[StudRing]) -> str:
    told = []
    for ring in rings:
        where = f"position {ring.position}" if ring.position else ""
        told.append(" ".join(filter(None, ["+".join(ring.wires), ring.hole, where])))
    return "; ".join(told) or "no ring"


def _fuse(item: FuseDifference) -> Row:
    before = _fuse_side(item.before, item.wires_before, item.unfed_before)
    return Row(item.fuse, before, _fuse_side(item.after, item.wires_after, item.unfed_after))


def _fuse_side(fuse: FuseState | None, wires: tuple[str, ...], unfed: str) -> str:
    if fuse is None and not wires:
        return NOT_THERE
    facts = fuse.facts if fuse else None
    said = [
        facts.rating.text.strip() if facts and facts.rating else f"rating {NOT_RECORDED}",
        facts.in_ if facts else "",
        f"not fed, {unfed}" if unfed else f"fed {facts.fed}" if facts and facts.fed else "",
        facts.feeds if facts else "",
        facts.use if facts and facts.use != "in use" else "",
        f"in {fuse.in_wire}" if fuse and fuse.in_wire else "",
        f"wires {', '.join(wires)}" if wires else "no wire",
    ]
    return "; ".join(filter(None, said))


def _held(wires: tuple[str, ...]) -> str:
    return ", ".join(wires) or "empty"


def pages(frame: Frame) -> Iterable[PageOut]:
    """One section for each two moments that differ."""
    yield frame.page("differences", "differences.html", d=difference_sheet(frame.worked))
