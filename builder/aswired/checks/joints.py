"""How joints are made: form, solder, crimp, lap, what goes into a barrel, how many in one wire."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from aswired.car.circuits import PathStep
from aswired.car.harness import NodeKind, Stretch
from aswired.checks.lists import listed
from aswired.figures.places import PlacedJoint
from aswired.figures.worked import JobResult
from aswired.network.copper import conductor_of
from aswired.record import Change
from aswired.text.diagnostics import Finding, Location, Rule, Severity

SPL07 = Rule("SPL07", Severity.NOTE)
SPL08 = Rule("SPL08", Severity.ERROR)
SPL09 = Rule("SPL09", Severity.WARNING, Severity.NOTE)
SPL10 = Rule("SPL10", Severity.WARNING)
SPL11 = Rule("SPL11", Severity.WARNING)
SPL12 = Rule("SPL12", Severity.ERROR)

BY_HAND = ("soldered", "both")  # fixings in which solder runs into the strands


def judge(facts: JobResult) -> Iterator[Finding]:
    yield from _forms(facts)
    yield from _tinned(facts)
    yield from _soldered_thick(facts)
    yield from _laps(facts)
    for placed in facts.joints:
        row = facts.job.change(placed.joint.row)
        if row is not None:
            yield from _barrel(facts, placed, row)
            yield from _thin_feed(facts, placed, row)
    yield from _many_in_a_wire(facts)


@dataclass(frozen=True)
class _Told:
    """Joints that share one written line: that of a row, or that of the house method."""

    entry: str  # the row, or '' for the house method
    at: Location
    joints: tuple[PlacedJoint, ...]

    @property
    def ids(self) -> list[str]:
        return [placed.joint.id for placed in self.joints]


def _by_line(facts: JobResult, key: str, which: Callable[[PlacedJoint], bool]) -> list[_Told]:
    """The joints that `which` picks, together where one line says it of all of them."""
    found: dict[str, list[PlacedJoint]] = {}
    for placed in facts.joints:
        row = facts.job.change(placed.joint.row)
        if row is not None and which(placed):
            found.setdefault(row.id if key in row.lines else "", []).append(placed)
    told: list[_Told] = []
    for id, joints in found.items():
        row = facts.job.change(id)
        at = row.line_of(key) if row is not None else facts.job.usual.line_of(key)
        told.append(_Told(id, at, tuple(joints)))
    return told


def _forms(facts: JobResult) -> Iterator[Finding]:
    for told in _by_line(facts, "joint", _temporary):
        method = told.joints[0].joint.method
        words = method.text if method is not None else ""
        problem = f"'{words}' is no joint that lasts: {listed(told.ids)}"
        mend = "Make a lap and solder it, or crimp a sealed joint; then write that"
        yield SPL12(told.at, told.entry, problem, mend)


def _temporary(placed: PlacedJoint) -> bool:
    method = placed.joint.method
    return method is not None and (method.form == "snap-on" or (method.form, method.fixing) == ("twist", "none"))


def _tinned(facts: JobResult) -> Iterator[Finding]:
    def tinned(placed: PlacedJoint) -> bool:
        method = placed.joint.method
        return method is not None and method.tinned_first and method.fixing in ("crimped", "both")

    for told in _by_line(facts, "joint", tinned):
        problem = f"crimped over strands that were tinned first: {listed(told.ids)}"
        mend = "Cut back to bare strands and crimp again: solder creeps under a crimp, and the crimp goes loose"
        yield SPL08(told.at, told.entry, problem, mend)


def _soldered_thick(facts: JobResult) -> Iterator[Finding]:
    limit = facts.job.limits_in_force["solder largest"]

    def thick(placed: PlacedJoint) -> bool:
        method = placed.joint.method
        areas = _areas(facts, placed.arrives)
        return method is not None and method.fixing in BY_HAND and max(areas, default=0.0) > limit.value + 1e-9

    yield from _one_note(
        SPL07,
        _by_line(facts, "joint", thick),
        f"soldered on wire above {limit.value:g} mm2",
        "One vehicle maker solders up to 16 AWG and crimps above it; look that each is wetted through",
    )


def _laps(facts: JobResult) -> Iterator[Finding]:
    least, most = facts.job.limits_in_force["lap least"].value, facts.job.limits_in_force["lap most"].value

    def short(placed: PlacedJoint) -> bool:
        diameters = _diameters(facts, placed)
        lap = placed.joint.overlap_mm
        return lap is not None and bool(diameters) and lap < least * max(diameters) - 0.05

    def long(placed: PlacedJoint) -> bool:
        diameters = _diameters(facts, placed)
        lap = placed.joint.overlap_mm
        whole = len(diameters) == len(placed.arrives) > 0
        row = facts.job.change(placed.joint.row)
        own = row is not None and row.overlap is not None  # the house lap is a habit, stated once: nothing slipped
        return lap is not None and own and whole and lap > most * max(diameters) + 0.05

    for told in _by_line(facts, "overlap", short):
        lap = told.joints[0].joint.overlap_mm or 0.0
        wanted = least * max(max(_diameters(facts, placed)) for placed in told.joints)
        problem = f"a lap of {lap:.0f} mm is under {least:g} conductor diameters ({wanted:.1f} mm): {listed(told.ids)}"
        mend = "Take a longer lap on thick wire"
        yield SPL09(told.at, told.entry, problem, mend, rank=Severity.WARNING)
    yield from _one_note(
        SPL09,
        _by_line(facts, "overlap", long),
        f"lapped over more than {most:g} conductor diameters",
        f"None needed where the house laps 10 to 13 mm as car makers do; space work laps {least:g} to {most:g} of them",
    )


def _one_note(rule: Rule, groups: list[_Told], what: str, mend: str) -> Iterator[Finding]:
    """One note for the whole job: it tells a habit of the shop, not a slip of a row."""
    if not groups:
        return
    ids = [id for told in groups for id in told.ids]
    first = min(groups, key=lambda told: told.entry != "")  # the house method, where it is one of them
    entry = first.entry if len(groups) == 1 else ""
    many = f"{len(ids)} joints are" if len(ids) > 1 else "one joint is"
    yield rule(first.at, entry, f"{many} {what}: {listed(ids)}", mend, rank=Severity.NOTE)


def _diameters(facts: JobResult, placed: PlacedJoint) -> list[float]:
    """Diameters of the conductors that are lapped and whose size was read; of any other form of joint none. [mm]"""
    method = placed.joint.method
    if method is None or method.form != "lap":
        return []
    found = (conductor_of(stretch.size, facts.job) for stretch in placed.arrives)
    return [conductor.diameter_mm for conductor in found if conductor is not None]


def _areas(facts: JobResult, stretches: Sequence[Stretch]) -> list[float]:
    """Copper of the stretches whose size was read. [mm²]"""
    found = (conductor_of(stretch.size, facts.job) for stretch in stretches)
    return [conductor.area_mm2 for conductor in found if conductor is not None]


def _barrel(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    method = placed.joint.method
    if method is None or method.barrel is None:
        return
    inside, both_sides = _in_barrel(placed), method.form == "butt" and not placed.joint.tap
    areas = _areas(facts, inside)
    thinnest = conductor_of(method.barrel.thinnest, facts.job)
    thickest = conductor_of(method.barrel.thickest, facts.job)
    if len(areas) < max(2, len(inside)) or thinnest is None or thickest is None:
        return
    fillings = _fillings(areas, both_sides=both_sides)
    fits = any(
        all(thinnest.area_mm2 - 1e-9 <= side <= thickest.area_mm2 + 1e-9 for side in filling) for filling in fillings
    )
    if fits:
        return
    each = " + ".join(f"{area:.2f}" for area in areas)
    sides = "however they are shared between its two sides" if len(areas) > 2 else "one on each side"
    where = sides if both_sides else "together"
    problem = f"{each} mm2 of copper meet in {placed.joint.id}, {where}; its barrel takes {method.barrel.text}"
    mend = "Take the barrel for the sum of the copper, or make two joints"
    yield SPL10(row.line_of("joint"), placed.joint.id, problem, mend)


def _in_barrel(placed: PlacedJoint) -> list[Stretch]:
    """What lies in the barrel; a wire that is tapped and not cut lies in it once."""
    through = [stretch for stretch in placed.arrives if stretch.wire == placed.joint.through]
    return [stretch for stretch in placed.arrives if stretch not in through[1:]]


def _fillings(areas: list[float], both_sides: bool) -> list[tuple[float, ...]]:
    """Copper in the barrel: all of it, or for a butt every way of sharing the wires between its two sides. [mm²]"""
    whole = sum(areas)
    if not both_sides:
        return [(whole,)]
    others = areas[1:]  # the first wire lies on the first side: each sharing once
    beside = [sum(chosen) for count in range(len(others)) for chosen in combinations(others, count)]
    return [(areas[0] + side, whole - areas[0] - side) for side in beside]


def _thin_feed(facts: JobResult, placed: PlacedJoint, row: Change) -> Iterator[Finding]:
    """One wire that feeds two larger ones behind a joint: the fuse that protects it lets the larger ones draw more."""
    into: dict[str, Stretch] = {}
    out: dict[str, Stretch] = {}
    for name, circuit in facts.circuits.items():
        if name not in facts.job.kept_loads or circuit.feed.state != "complete":
            continue
        before, behind = _around(circuit.feed.steps, placed.joint.id)
        if before is not None and behind is not None:
            into[before.name] = before
            if not _fused(facts, behind):
                out[behind.name] = behind
    if len(into) != 1:
        return
    (feed,) = into.values()
    own = _areas(facts, [feed])
    larger = [stretch for stretch in out.values() if own and max(_areas(facts, [stretch]), default=0.0) > own[0] + 1e-9]
    if len(larger) > 1:
        words = " and ".join(f"{stretch.wire} ({stretch.size.text})" for stretch in larger)
        yield SPL10(
            row.at,
            placed.joint.id,
            f"{feed.wire} ({feed.size.text}) feeds the larger {words} behind {placed.joint.id}, with no fuse between",
            "Feed them by a wire for the sum of their loads, or see that the fuse before it is for the thin one",
        )


def _around(steps: Sequence[PathStep], joint: str) -> tuple[Stretch | None, Stretch | None]:
    """The stretches before and behind a joint in the direction the current runs; None where it is not passed."""
    for index, step in enumerate(steps):
        if step.kind == "node" and step.name == joint and 0 < index < len(steps) - 1:
            return steps[index - 1].stretch, steps[index + 1].stretch
    return None, None


def _fused(facts: JobResult, stretch: Stretch) -> bool:
    kinds = (NodeKind.FUSE, NodeKind.FUSE_FEED)
    return any(facts.shown.nodes[end].kind in kinds for end in stretch.ends)


def _many_in_a_wire(facts: JobResult) -> Iterator[Finding]:
    most = int(facts.job.limits_in_force["joints in a wire"].value)
    order = [placed.joint.id for placed in facts.joints]
    for wire in facts.plan.wires:
        for joints in _runs(facts, wire):
            if len(joints) <= most:
                continue
            told = sorted(joints, key=order.index)
            problem = f"{wire} has {len(told)} splices between two connectors: {listed(told)}"
            mend = "Lay one whole wire there; each splice is a place where it can fail"
            yield SPL11(facts.job.line_of_row(facts.plan.joints[told[-1]].row), wire, problem, mend)


def _runs(facts: JobResult, wire: str) -> list[set[str]]:
    """The joints of a wire between one connector and the next; a plug that the wire passes (F11) parts them."""
    runs: list[set[str]] = []
    for stretch in facts.plan.of_wire(wire):
        ends = [{end} for end in stretch.ends if facts.plan.nodes[end].kind is NodeKind.JOINT]
        for joined in ends if stretch.via else [set().union(*ends)]:
            touching = [run for run in runs if run & joined]
            runs = [run for run in runs if not run & joined] + [joined.union(*touching)]
    return [run for run in runs if run]
