"""Second opinions on the thinnest wire behind a fuse: what published tables let it carry. None is the verdict."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from aswired.car.circuits import Circuit
from aswired.car.harness import Stretch, View
from aswired.car.insulation import BEARS, insulation_of
from aswired.car.route import Route
from aswired.figures.bundles import Station
from aswired.figures.heat import legs_of, positions_of
from aswired.figures.places import PlacedJoint
from aswired.physics.ampacity import (
    CFR_183_425,
    CFR_183_425_A,
    CFR_BUNDLE_FROM_V,
    CFR_ENGINE_SPACE,
    FAA_11_3,
    FAA_11_3_A,
    GaugeRow,
    bundle_factor,
    cfr_allowed_a,
    cfr_column,
    derated_a,
    row_of_area,
    row_of_gauge,
)
from aswired.physics.conductor import gauge_name
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import Job, Leg
from aswired.text.units import Size

_ALUMINIUM = Missing("a table for a wire behind it that is not of copper")
ENGINE_SPACE_C = 50.0  # what note 1 of 33 CFR 183.425 Table 5 counts an engine space with (read)


@dataclass(frozen=True)
class Surroundings:
    """Where the wires of a view lie: on which legs, and with which others.

    `carrying` are the wires on a complete path of a kept load.
    """

    job: Job
    view: View
    route: Route
    joints: tuple[PlacedJoint, ...]
    stations: tuple[Station, ...]
    carrying: Collection[str]

    def legs(self, stretch: Stretch) -> list[int]:
        """The legs that a stretch runs through; none where its way is not recorded."""
        return legs_of(self.view, self.route, positions_of(self.job, self.joints), stretch)

    def neighbours(self, stretch: Stretch) -> tuple[int, int] | None:
        """Wires that carry current where most of them lie with a stretch, itself counted; and the others there.

        None where no run of bundle is known to hold it.
        """
        legs = self.legs(stretch)
        there = [
            {held.wire for held in station.wires}
            for station in self.stations
            if station.leg in legs and any(held.wire == stretch.wire for held in station.wires)
        ]
        counts = [(len(wires & set(self.carrying) | {stretch.wire}), len(wires)) for wires in there]
        if not counts:
            return None
        carrying, whole = max(counts)
        return carrying, whole - carrying


def surroundings(
    job: Job,
    view: View,
    route: Route,
    joints: tuple[PlacedJoint, ...],
    stations: tuple[Station, ...],
    circuits: Mapping[str, Circuit],
) -> Surroundings:
    """Where the wires of a view lie, from its traced circuits and the bundles of the plan."""
    carrying = {
        stretch.wire
        for load in job.kept_loads
        for path in (circuits[load].feed, circuits[load].back)
        if path.state == "complete"
        for stretch in path.stretches
    }
    return Surroundings(job, view, route, joints, stations, frozenset(carrying))


def opinions(fuse: str, wire: Stretch | None, not_copper: bool, around: Surroundings) -> tuple[Figure, Figure, Figure]:
    """33 CFR 183.425 for the wire by itself, the same in its bundle, and the fuse of AC 43.13-1B. [A]

    `wire` is the thinnest of copper behind the fuse; with another that is not of copper, which of them can carry least
    is not known, and no table is asked.
    """
    alone, bundled = _cfr(fuse, wire, around)
    found = (alone, bundled, _faa(fuse, wire))
    if not not_copper:
        return found
    one, two, three = (replace(figure, value=None, missing=(*figure.missing, _ALUMINIUM)) for figure in found)
    return one, two, three


# ---- 33 CFR 183.425 -------------------------------------------------------------------------------------------------
def _cfr(fuse: str, wire: Stretch | None, around: Surroundings) -> tuple[Figure, Figure]:
    name = wire.wire if wire else f"the thinnest wire behind {fuse}"
    what = f"33 CFR 183.425 lets {name} carry"
    inputs, missing, note, amps = _cfr_parts(wire, around)
    alone = Figure(
        f"{fuse}.cfr", f"{what}, by itself", amps, "A", CFR_183_425, "I = table x engine space", inputs, missing, note
    )
    beside = around.neighbours(wire) if wire is not None else None
    factor = bundle_factor(beside[0]) if beside is not None else None
    lost = wire is not None and beside is None and (amps is not None or missing)
    others = f", {beside[1]} more lie there with no traced current" if beside is not None and beside[1] else ""
    bundled = Figure(
        f"{fuse}.cfr.bundled",
        f"{what}, in its bundle",
        derated_a(amps, factor) if amps is not None and factor is not None else None,
        "A",
        CFR_183_425,
        "I = by itself x bundle",
        (
            Input("by itself", amps, "A", alone.key),
            Input("wires that carry current", str(beside[0]) if beside else None, "", f"by traced loads{others}"),
            Input("bundle", factor, "", "note 2 of the table"),
        ),
        (*missing, *([Missing(f"what lies with {name} in the bundle")] if lost else [])),
        f"The rule makes the bundle count from {CFR_BUNDLE_FROM_V:g} V only.",
    )
    return alone, bundled


def _cfr_parts(
    wire: Stretch | None, around: Surroundings
) -> tuple[tuple[Input, ...], tuple[Missing, ...], str, float | None]:
    """Inputs, what is missing, note and amperes of a wire by itself."""
    note = "Second opinion: written for boats, with 30 C around the wire, in engine spaces 50 C."
    if wire is None:
        return (), (Missing("size of a wire it protects"),), note, None
    row = _row(wire.size, CFR_183_425_A)
    insulation, _ = insulation_of(around.job, wire)
    key = BEARS.get(insulation)
    limit = around.job.limits_in_force[key] if key is not None else None
    column = cfr_column(limit.value) if limit is not None else None
    legs = around.legs(wire)
    hot = [around.job.route[index] for index in legs if _engine_space(around.job.route[index])]
    factor = (CFR_ENGINE_SPACE[column] if hot else 1.0) if legs and column is not None else None
    table_a = cfr_allowed_a(row.gauge, column) if row is not None and column is not None else None
    bears = f", good to {limit.value:g} C ({key})" if limit is not None else ""
    inputs = (
        Input("wire", wire.size.text, "", wire.name),
        Input("row", row.how if row else "none", "", "33 CFR 183.425 Table 5"),
        Input("insulation", insulation or None, "", f"recorded{bears}" if insulation else ""),
        Input("column", column, "C", "next lower of the table"),
        Input("table", table_a, "A", "read"),
        Input("engine space", factor, "", _way_words(legs, hot)),
    )
    missing: tuple[Missing, ...] = (
        *([] if key is not None else [Missing("insulation", wire.wire)]),
        *([] if legs else [Missing("way", f"{wire.wire}, so whether it runs through a hot leg")]),
    )
    if row is None or (limit is not None and column is None):  # whatever else were recorded
        missing = ()
    if row is None:
        note = f"Not judged: {wire.size.text} lies below the smallest row, {gauge_name(max(CFR_183_425_A))}. {note}"
    elif limit is not None and column is None:
        note = f"Not judged: the table has no column for insulation good to {limit.value:g} C. {note}"
    amps = derated_a(table_a, factor) if table_a is not None and factor is not None else None
    return inputs, missing, note, amps


def _engine_space(leg: Leg) -> bool:
    """Whether a leg is marked hot, or was measured as hot as the rule counts an engine space."""
    measured = leg.hottest.value if leg.hottest is not None else None
    return "hot" in leg.zone or (measured is not None and measured >= ENGINE_SPACE_C)


def _way_words(legs: list[int], hot: list[Leg]) -> str:
    if not legs:
        return "its way is not recorded"
    if not hot:
        return "no leg of its way is marked hot"
    words = "note 1 of the table: " + ", ".join(f"hot from {leg.from_} to {leg.to}" for leg in hot)
    hottest = max((leg.hottest.value for leg in hot if leg.hottest and leg.hottest.value is not None), default=0.0)
    return f"{words}; it gets {hottest:g} C, the note counts with 50 C" if hottest > ENGINE_SPACE_C else words


# ---- AC 43.13-1B ----------------------------------------------------------------------------------------------------
def _faa(fuse: str, wire: Stretch | None) -> Figure:
    note = "Second opinion: written for aircraft; what the chart rests on was not seen."
    row = _row(wire.size, FAA_11_3_A) if wire is not None else None
    if wire is not None and row is None:
        note = f"Not judged: {wire.size.text} lies below the smallest row, {gauge_name(max(FAA_11_3_A))}. {note}"
    name = wire.wire if wire else f"the thinnest wire behind {fuse}"
    inputs = (
        Input("wire", wire.size.text if wire else None, "", wire.name if wire else ""),
        Input("row", row.how if row else "none", "", FAA_11_3),
    )
    return Figure(
        f"{fuse}.faa",
        f"fuse that AC 43.13-1B sets for {name}",
        FAA_11_3_A[row.gauge][1] if row is not None else None,
        "A",
        FAA_11_3,
        "fuse of the row",
        inputs if wire is not None else (),
        (Missing("size of a wire it protects"),) if wire is None else (),
        note,
    )


def _row(size: Size, table: Collection[int]) -> GaugeRow | None:
    """The row of a size that was read: a gauge by its number, square millimetres by their area."""
    if size.number is None:
        return None
    return row_of_gauge(int(size.number), table) if size.system == "AWG" else row_of_area(size.number, table)
