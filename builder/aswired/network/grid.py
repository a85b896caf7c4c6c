"""The resistive network of one view: what current can pass, gathered into runs between the points where it can divide.

Built from the as-built harness alone (a `View`) and what the job declares: fuses, switches and relay contacts, ground
cables, modules as feeds and grounds, loads between two ends. It knows no operating state: `transfer` and `behaviour`
solve it.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from aswired.car.harness import NodeKind, Stretch, View
from aswired.car.trace import Net
from aswired.network.copper import (
    Part,
    cable_parts,
    cavity_part,
    fuse_part,
    measured_part,
    stretch_parts,
    switch_part,
    total_mohm,
)
from aswired.network.pairs import shared_pairs
from aswired.physics.figure import Missing
from aswired.record import Job, MeterReading
from aswired.text.units import half_a_digit

BATTERY = "battery-"
INSIDE_THE_WRAP = (NodeKind.JOINT, NodeKind.SPLICE, NodeKind.STUB, NodeKind.UNKNOWN)
PLACEHOLDER_MOHM = 1.0  # stands in for a resistance that is not recorded; what depends on it is not told


@dataclass(frozen=True)
class Branch:
    """One thing that joins two nodes: its parts in series.

    `kind` is stretch, pair, fuse, switch, cable, body or module. A pair is the contact of a cavity in which wires
    meet, from the terminal inside (`Grid.inside`) to the cavity.
    """

    key: str  # 'fuse F7', 'switch K1 contact', 'cable L1 to L6', 'stretch 12'
    kind: str
    name: str
    a: str
    b: str
    parts: tuple[Part, ...]
    stretch: Stretch | None = None

    @property
    def mohm(self) -> float | None:
        return total_mohm(self.parts)

    @property
    def unknown(self) -> tuple[Missing, ...]:
        """What of it is not recorded."""
        return tuple(part.missing for part in self.parts if part.missing is not None)


@dataclass(frozen=True)
class Run:
    """Branches in series from node a to node b, where no current joins or leaves. Milliohms.

    `mohm` has a placeholder for what is not recorded, which `unknown` names; `switch` names the switch or relay
    contact that the run is, '' for a run that always conducts.
    """

    a: str
    b: str
    branches: tuple[Branch, ...]  # in order from a to b
    mohm: float
    low: float
    high: float
    worst: float
    unknown: tuple[Missing, ...]
    switch: str = ""


@dataclass(frozen=True)
class Terminals:
    """The two ends of a load in this view, as declared: which is fed is a result, not an input."""

    a: str
    b: str


class Grid:
    """The network of one view.

    `sources`: node -> when it is live: always, accessory, ignition, unknown, or 'module' for a module's output.
    `inside`: node of the terminal in which the wires of a cavity meet, before its contact -> the cavity.
    `contacts`: relay contact -> the load that is its coil. `measured`: reading -> the branch, by key, that has its
    resistance from it. `heat` gives the hottest place of a stretch [°C], by the index of the stretch in the view, and
    of a ground point's cable by the point's name. `unplaced` are the branches, by key, of wires in a car with a hot leg
    of which nobody knows whether they run through it.
    """

    def __init__(
        self,
        job: Job,
        view: View,
        heat: Mapping[int | str, float] | None = None,
        unplaced: Collection[int] = (),
    ) -> None:
        self.job = job
        self.unplaced = frozenset(f"stretch {index}" for index in unplaced)
        self.view = view
        self.net = net = Net(job, view)
        heat = heat or {}
        branches: list[Branch] = []
        pairs = shared_pairs(net)
        terminals = {name: f"{name}, wires" for name in pairs}
        self.inside = {terminal: name for name, terminal in terminals.items()}
        for index, stretch in enumerate(view.stretches):
            parts = stretch_parts(stretch, view, job, heat.get(index), pairs)
            a, b = (terminals[end] if stretch in pairs.get(end, ()) else end for end in stretch.ends)
            branches.append(Branch(f"stretch {index}", "stretch", stretch.name, a, b, parts, stretch))
        branches += (
            Branch(f"pair {name}", "pair", name, terminals[name], name, (cavity_part(name, job),)) for name in pairs
        )
        for name, switch in job.switches.items():
            ends = net.ends_now(switch.between)
            if ends is not None and all(end in net.links for end in ends):
                branches.append(Branch(f"switch {name}", "switch", name, *ends, (switch_part(name, job),)))
        self.sources: dict[str, str] = {}
        for name in dict.fromkeys((*view.nodes, *view.fuses)):
            if name in view.fuses:
                self._fuse(name, branches)
            elif net.is_source(name):
                self.sources[name] = "always" if name == "battery+" else "module"
        branches += self._ways_back(heat)
        measured = _measured(job.readings)
        counts = {branch.key: found for branch in branches if (found := _last(branch, measured, job, view))}
        self.branches = tuple(_as_measured(branch, counts.get(branch.key), job) for branch in branches)
        self.measured = {found.reading: key for key, found in counts.items()}
        self.by_key = {branch.key: branch for branch in self.branches}
        self.loads = {
            name: Terminals(*ends)
            for name, load in job.loads.items()
            if name in job.kept_loads and (ends := net.ends_now(load.between)) is not None
        }
        self.contacts = {
            name: switch.worked_by
            for name, switch in job.switches.items()
            if switch.worked_by and f"switch {name}" in self.by_key
        }
        self.runs = _runs(self.branches, self._kept_apart())
        self.run_of = {branch.key: index for index, run in enumerate(self.runs) for branch in run.branches}
        self.nodes = frozenset(end for run in self.runs for end in (run.a, run.b))

    def _fuse(self, name: str, branches: list[Branch]) -> None:
        feed = f"{name}.feed"
        facts = self.view.fuses[name].facts
        branches.append(Branch(f"fuse {name}", "fuse", name, feed, name, (fuse_part(name, facts.rating, self.job),)))
        if self.net.is_source(name):
            self.sources[feed] = facts.fed or "unknown"

    def _ways_back(self, heat: Mapping[int | str, float]) -> Iterable[Branch]:
        """From ground points towards battery negative, and module cavities that are ground inside the module."""
        job, view, net = self.job, self.view, self.net
        used = [name for name, node in view.nodes.items() if node.kind is NodeKind.GROUND]
        used += [point.back_to for point in job.grounds.values() if point.back_to not in ("", BATTERY)]
        for name in dict.fromkeys((*job.grounds, *used)):
            point = job.grounds.get(name)
            if point is not None and (point.gone or point.conducts == "no"):
                continue
            if point is not None and point.back_to:
                key = f"cable {name} to {point.back_to}"
                parts = cable_parts(name, job, view, heat.get(name))
                yield Branch(key, "cable", f"{name} to {point.back_to}", name, point.back_to, parts)
            elif name in used and job.body_returns != "no":
                part = Part.lacks(Missing("", part=f"the way back from {name}"))
                yield Branch(f"body {name}", "body", name, name, BATTERY, (part,))
        for name in view.nodes:
            plug, _, cavity = name.partition(".")
            if plug in job.modules and cavity in job.modules[plug].ground:
                inside = name not in net.load_at and len(net.links.get(name, ())) <= 1
                if inside or not net.links.get(name):
                    yield Branch(f"module {name}", "module", name, name, BATTERY, ())

    def _kept_apart(self) -> set[str]:
        """Nodes at which current joins or leaves, or to which a meter may come: no run passes one of them."""
        ends = {end for load in self.loads.values() for end in (load.a, load.b)}
        points = {name for name, node in self.view.nodes.items() if node.kind not in INSIDE_THE_WRAP}
        return {BATTERY, *self.sources, *ends, *points, *self.job.grounds}


@dataclass(frozen=True)
class _Measured:
    """What one reading right across a part makes of its resistance, and least and most by the last digit of what was
    read; `day` None = not recorded."""

    reading: str
    day: datetime.date | None
    mohm: float
    low: float
    high: float
    source: str


def _measured(readings: Iterable[MeterReading]) -> dict[frozenset[str], list[_Measured]]:
    """What was measured right across a part, by its two ends, in the order of the days.

    A reading of nought says only that there is less than the meter's last digit, and makes no part one without
    resistance.
    """
    found: dict[frozenset[str], list[_Measured]] = {}
    for reading in sorted(readings, key=lambda reading: reading.day or datetime.date.min):
        read, through = reading.read, reading.through
        if read is None or read.value is None or read.value <= 0 or not reading.red or not reading.black:
            continue
        if not reading.shows:
            continue
        if read.unit == "ohm":
            amps, half_a, source = 1.0, 0.0, f"measured: {read.text} ({reading.id})"
        elif read.unit == "V" and through is not None and through.value:
            amps, half_a = through.value, min(half_a_digit(through.text), through.value / 2)
            source = f"measured: {read.text} at {through.text} ({reading.id})"
        else:
            continue
        half = half_a_digit(read.text)
        own, low, high = read.value / amps, (read.value - half) / (amps + half_a), (read.value + half) / (amps - half_a)
        ends = frozenset((reading.red, reading.black))
        of_one = _Measured(reading.id, reading.day, own * 1000, low * 1000, high * 1000, source)
        found.setdefault(ends, []).append(of_one)
    return found


def _last(branch: Branch, measured: Mapping[frozenset[str], list[_Measured]], job: Job, view: View) -> _Measured | None:
    """The last reading across a fuse, a switch or a cable; a wire is what its length says.

    A reading of a fuse counts from the last row on that made the fuse what it is: before, it was of another.
    """
    found = measured.get(frozenset((branch.a, branch.b)))
    if found is None or branch.kind not in ("fuse", "switch", "cable"):
        return None
    state = view.fuses.get(branch.name) if branch.kind == "fuse" else None
    rows = (job.change(name) for name in (state.rows if state is not None else ()))
    made = (row.made.date for row in rows if row is not None and row.made is not None)
    since = max((day for day in made if day is not None), default=None)
    able = [one for one in found if since is None or (one.day is not None and one.day >= since)]
    return able[-1] if able else None


def _as_measured(branch: Branch, found: _Measured | None, job: Job) -> Branch:
    if found is None:
        return branch
    name = f"{branch.kind} {branch.name}"
    return replace(branch, parts=(measured_part(name, found.mohm, found.source, found.low, found.high),))


def _runs(branches: tuple[Branch, ...], apart: set[str]) -> tuple[Run, ...]:
    """Branches that carry one current, gathered. A switch is a run of its own, since it opens."""
    at: dict[str, list[Branch]] = {}
    for branch in branches:
        at.setdefault(branch.a, []).append(branch)
        at.setdefault(branch.b, []).append(branch)

    def passes(node: str) -> bool:
        return node not in apart and len(at[node]) == 2 and all(branch.kind != "switch" for branch in at[node])

    done: set[str] = set()
    found: list[Run] = []
    starts = [branch for branch in branches if not (passes(branch.a) and passes(branch.b))]
    for branch in (*starts, *branches):  # what is left over lies in a ring with no end
        if branch.key in done:
            continue
        start = branch.b if passes(branch.a) and not passes(branch.b) else branch.a
        chain, node = [branch], branch.b if start == branch.a else branch.a
        done.add(branch.key)
        while passes(node) and node != start:
            (onward,) = (other for other in at[node] if other.key != chain[-1].key)
            if onward.key in done:
                break
            chain.append(onward)
            done.add(onward.key)
            node = onward.b if onward.a == node else onward.a
        found.append(_run(start, node, tuple(chain)))
    return tuple(found)


def _run(a: str, b: str, branches: tuple[Branch, ...]) -> Run:
    parts = [part for branch in branches for part in branch.parts]
    unknown = tuple(missing for branch in branches for missing in branch.unknown)
    mohm = sum(part.mohm if part.mohm is not None else PLACEHOLDER_MOHM for part in parts)
    low, high, worst = (sum(getattr(part, band) for part in parts) for band in ("low", "high", "worst"))
    switch = branches[0].name if branches[0].kind == "switch" else ""
    return Run(a, b, branches, mohm, low, high, worst, unknown, switch)
