"""Each fuse: what it feeds now, the thinnest wire it protects, the verdict of the planning table, and what mends it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from aswired.car.circuits import Circuit
from aswired.car.harness import NodeKind, Stretch, View
from aswired.car.trace import Net
from aswired.figures.currents import current_through
from aswired.figures.feeds import LoadSide, feeders, load_side, unprotected_length
from aswired.figures.opinions import Surroundings, opinions
from aswired.network.copper import conductor_of, copper_of, is_copper, unread
from aswired.network.transfer import UnitSolutions
from aswired.physics.figure import Figure, Input, Missing, current_of
from aswired.physics.protection import FuseVerdict, judge_fuse, least_area_mm2, mending_fuse_a
from aswired.record import Fuse, Job
from aswired.text.units import Size


@dataclass(frozen=True)
class Mend:
    """The smallest change that makes a fuse suit its wire: another blade fuse, else larger wires.

    `fuse_a` is None where no blade fuse suits the wire and bears the load; then `wires` are to be replaced by at least
    `area_mm2`, which is None where no row of the planning table suits the fuse. `load_a` are the loads behind it that
    can be on together, None where a current is not recorded; `needed_a` is the least rating that bears what is
    recorded.
    """

    fuse_a: float | None
    needed_a: float
    load_a: float | None
    area_mm2: float | None
    gauge: int | None  # the thinnest gauge that has that area
    wires: tuple[Stretch, ...]


@dataclass(frozen=True)
class FuseSummary:
    """One fuse in the shown view, judged by the planning table."""

    name: str
    fuse: Fuse | None
    loads: tuple[str, ...]  # kept loads fed through it
    total: Figure  # A, of its kept loads those that can be on together
    thinnest: Stretch | None  # thinnest wire that it alone protects
    rating: Figure  # A, planning rating of that wire
    ok: bool | None  # fuse <= rating; None = not judged
    spare: bool
    rows: tuple[str, ...] = ()  # rows that assigned it or left it spare
    in_wire: str = ""  # the wire it was let into
    share: Figure | None = None  # %, of its rating that the loads which stay on take together
    unprotected: Figure | None = None  # mm to its source; None where no wire of the record leads to one
    opinions: tuple[Figure, ...] = ()  # A, of published tables for the thinnest wire; none is the verdict
    feeders: tuple[str, ...] = ()  # fuses that it is fed through
    mend: Mend | None = None  # when it is above its wire
    dead_ends: tuple[str, ...] | None = None  # cut ends, where nothing else is behind it

    @property
    def figures(self) -> tuple[Figure, ...]:
        return (self.total, self.rating, *filter(None, (self.share, self.unprotected)), *self.opinions)


_HAIR = 1e-9  # a load that is exactly its share, but for rounding


def fuse_summaries(
    job: Job, view: View, circuits: Mapping[str, Circuit], transfer: UnitSolutions, around: Surroundings
) -> tuple[FuseSummary, ...]:
    """Every fuse of a view, those that rows created behind those that the job declares."""
    net = transfer.grid.net
    met = [name for name, node in view.nodes.items() if node.kind is NodeKind.FUSE]
    sides = {name: load_side(net, name) for name in dict.fromkeys((*view.fuses, *met))}
    return tuple(_summary(net, name, sides, circuits, transfer, around) for name in sides)


def dead_ends(net: Net, fuse: str) -> tuple[str, ...] | None:
    """The cut ends that are all there is behind a fuse, by name; None when something hangs on it, or may."""
    seen, todo, ends = {fuse}, [fuse], []
    for at in todo:
        node = net.node(at)
        if node.kind is NodeKind.STUB:
            if node.fate is None or node.fate.word in ("", "unknown"):
                return None
            ends.append(at)
        elif node.kind is NodeKind.SPLICE:
            declared = net.job.splices.get(at)
            if declared is None or not declared.all_members_known:
                return None
        elif at != fuse and node.kind is not NodeKind.JOINT:
            return None
        for link in net.links.get(at, ()):
            other = link.other(at)
            if other not in seen and not (at == fuse and link.kind == "fuse"):
                seen.add(other)
                todo.append(other)
    return tuple(sorted(ends))


def staying_on(job: Job, loads: Iterable[str]) -> dict[str, float]:
    """Load -> its current [A], of those that are recorded to stay on and are this car's for certain."""
    return {
        name: load.draws.current_a
        for name in loads
        if (load := job.loads[name]).duty == "continuous"
        and load.draws is not None
        and load.draws.current_a is not None
        and name in job.loads_for_certain
    }


def _summary(
    net: Net,
    name: str,
    sides: Mapping[str, LoadSide],
    circuits: Mapping[str, Circuit],
    transfer: UnitSolutions,
    around: Surroundings,
) -> FuseSummary:
    job, view = net.job, net.view
    state = view.fuses.get(name)
    fuse = state.facts if state is not None else None
    loads = tuple(load for load, circuit in circuits.items() if name in circuit.fuses and load in job.kept_loads)
    wires = sides[name].stretches
    fuse_a = fuse.rating.value if fuse is not None and fuse.rating is not None else None
    known = [(found.area_mm2, stretch) for stretch in wires if (found := copper_of(stretch, job)) is not None]
    unread = [stretch for stretch in wires if copper_of(stretch, job) is None]
    area, thinnest = min(known, key=lambda pair: pair[0]) if known else (None, None)
    verdict = judge_fuse(fuse_a, area)
    rating = _rating(name, verdict, area, thinnest, unread, job)
    ok = verdict.ok if verdict.ok is False or not unread else None
    total = current_through(transfer, f"fuse {name}", name, loads)
    failing = ok is False and fuse_a is not None and verdict.rating_a is not None
    return FuseSummary(
        name=name,
        fuse=fuse,
        loads=loads,
        total=total,
        thinnest=thinnest,
        rating=rating,
        ok=ok,
        spare=state is not None and state.spare,
        rows=state.rows if state is not None else (),
        in_wire=state.in_wire if state is not None else "",
        share=_share(job, name, fuse_a, loads),
        unprotected=unprotected_length(net, name),
        opinions=opinions(name, thinnest, any(not is_copper(stretch, job) for stretch in unread), around),
        feeders=feeders(net, name, sides),
        dead_ends=dead_ends(net, name),
        mend=_mend(job, fuse_a or 0.0, verdict.rating_a or 0.0, loads, total, known) if failing else None,
    )


def _rating(
    name: str, verdict: FuseVerdict, area: float | None, thinnest: Stretch | None, unread: list[Stretch], job: Job
) -> Figure:
    """The planning rating of the thinnest wire behind a fuse. [A]

    Args:
        area: of its copper [mm²].
        unread: the wires behind the fuse whose copper is not known.
    """
    inputs = (
        Input("thinnest wire", thinnest.name if thinnest else None, "", "recorded sizes of what it feeds"),
        Input(
            "its copper",
            None if area is None else round(area, 3),
            "mm2",
            thinnest.size.text if thinnest else "not recorded",
        ),
        Input("row of the planning table", verdict.row_mm2, "mm2", "planning table"),
    )
    unsized = [stretch for stretch in unread if is_copper(stretch, job) and not stretch.size.known]
    other = [stretch for stretch in unread if stretch not in unsized]
    missing = () if area is not None else tuple(_unjudged(other, job)) or (Missing("size of a wire it protects"),)
    notes = [verdict.note] if area is not None or unsized or not other else []
    if unsized:
        notes.append(f"size not read: {', '.join(dict.fromkeys(stretch.wire for stretch in unsized))}")
    if other:
        notes.append(f"not judged: {', '.join(map(str, _unjudged(other, job)))}")
    what = f"planning rating of the thinnest wire behind {name}"
    formula = "rating of the next smaller row"
    return Figure(
        f"{name}.rating", what, verdict.rating_a, "A", "planning table", formula, inputs, missing, "; ".join(notes)
    )


def _unjudged(wires: Iterable[Stretch], job: Job) -> Iterable[Missing]:
    """Wires that no table of copper tells of, each once, with why."""
    return dict.fromkeys(unread(stretch, stretch.wire, job) for stretch in wires)


def _share(job: Job, name: str, fuse_a: float | None, loads: tuple[str, ...]) -> Figure:
    """The loads that stay on, together, as a share of the fuse's rating. [%]"""
    inputs: list[Input] = [Input("rating of the fuse", fuse_a, "A", "as moulded on it" if fuse_a else "not recorded")]
    missing = [] if fuse_a else [Missing("rating", name)]
    if not loads:
        missing.append(Missing(f"a load of this list on {name}"))
    for load in loads:
        facts = job.loads[load]
        amps = facts.draws.current_a if facts.draws is not None else None
        if facts.duty == "continuous":
            inputs.append(Input(load, amps, "A", "duty: continuous"))
            missing += [] if amps is not None else [current_of(load)]
        elif facts.duty == "unknown":
            inputs.append(Input(load, amps, "A", "how long it is on is not recorded"))
            missing.append(Missing("duty", load))
    amps_on = sum(staying_on(job, loads).values())
    limit = job.limits_in_force["fuse share"]
    note = f"{limit.value:g} % is allowed."
    if missing and amps_on and fuse_a:
        note += f" Recorded to stay on: {amps_on:.1f} A, {100 * amps_on / fuse_a:.0f} %."
    return Figure(
        f"{name}.share",
        f"share of {name} that loads take which stay on",
        None if missing or not fuse_a else 100 * amps_on / fuse_a,
        "%",
        "continuous loads against the rating",
        "share = sum of I / rating",
        tuple(inputs),
        tuple(missing),
        note,
    )


# ---- what mends a fuse above its wire -------------------------------------------------------------------------------
def _mend(
    job: Job,
    fuse_a: float,
    rating_a: float,
    loads: tuple[str, ...],
    total: Figure,
    known: list[tuple[float, Stretch]],
) -> Mend:
    needed = _needed_a(job, loads)
    smaller = mending_fuse_a(rating_a, needed - _HAIR)
    if smaller is not None:
        return Mend(smaller, needed, total.value, None, None, ())
    area = least_area_mm2(fuse_a)
    thin = tuple(stretch for wire_mm2, stretch in known if judge_fuse(fuse_a, wire_mm2).ok is False)
    return Mend(None, needed, total.value, area, _gauge_of(job, area) if area is not None else None, thin)


def _needed_a(job: Job, loads: tuple[str, ...]) -> float:
    """Least fuse that bears what is recorded of its loads [A]: all of them on, and room for those that stay on.

    A load of which nobody wrote how long it is on counts as one that stays on: no fuse is put in that blows.
    """
    share = job.limits_in_force["fuse share"].value / 100
    drawn = [
        (facts.duty, facts.draws.current_a)
        for load in loads
        if (facts := job.loads[load]).draws is not None and facts.draws.current_a is not None
    ]
    together = sum(amps for _, amps in drawn)
    return max(together, sum(amps for duty, amps in drawn if duty != "intermittent") / share)


def _gauge_of(job: Job, area_mm2: float) -> int | None:
    """The thinnest even gauge with at least an area, as the job reads gauges."""
    for gauge in range(24, -4, -2):
        found = conductor_of(Size(f"{gauge} AWG", "AWG", float(gauge)), job)
        if found is not None and found.area_mm2 >= area_mm2:
            return gauge
    return None
