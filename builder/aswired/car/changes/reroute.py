"""reroute: wires lie another way through the car; their conductor is not changed (F20)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes.kind import Kind, Said, done_and_tested, named_wires, no_ends, no_name, wires_of
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change
from aswired.text.diagnostics import did_you_mean


def apply(row: Change, loom: WorkingHarness) -> None:
    for landmark in row.by:
        if landmark not in loom.route.on_legs:
            raise Refused(
                f"'{landmark}' is not on the route",
                did_you_mean(landmark, loom.route.on_legs, "Add the leg to 'route:', or name landmarks that it has"),
                "by",
            )
    for wire in row.wire_names:
        loom.wire(wire, row)
        _leads_there(row, loom, wire)
        loom.s.wires[wire] = replace(loom.s.wires[wire], by=row.by)
        loom.touched(wire, row.id)


def _leads_there(row: Change, loom: WorkingHarness, wire: str) -> None:
    """Refuse landmarks that lie on no way between two ends of the wire whose places are recorded."""
    ends = [end for end in loom.loose_ends(wire) if loom.route.of_end(end) is not None]
    if len(ends) != 2:
        return
    here, there = (loom.route.of_end(end) for end in ends)
    if here is not None and there is not None and not loom.route.leads(here, there, row.by):
        raise Refused(
            f"no way of the route from '{ends[0]}' to '{ends[1]}' goes by {' and '.join(row.by)}",
            f"Name the landmarks that {wire} passes, or add the missing leg to 'route:'",
            "by",
            about=(*ends, wire),
        )


def _facts(row: Change) -> Iterator[Said]:
    ends = (f"from {row.from_}" if row.from_ else "", f"to {row.to}" if row.to else "")
    if any(ends):
        yield Said("from", "rerouted", " ".join(filter(None, ends)))


KIND = Kind(
    name="reroute",
    means="wires led another way through the car; the conductor is not changed",
    written="wires led another way: `by:` the landmarks they pass now; the conductor is not changed",
    keys=("wire", "wires", "was", "by", "from", "to"),
    needs=(("wire", "wires"), ("by",)), apply=apply, touches=named_wires,
    brings=no_name, lead=no_ends, moves_to=no_name, terminals=no_ends,
    alters="way", does="", cuts=False, joints=False, grounds=False,
    turn=4, visit="", concerns="wires",
    heading=lambda row: f"Rerouting of {wires_of(row)} by {', '.join(row.by)}",
    lengths={}, facts=_facts, ticks=done_and_tested("laid"),
)  # fmt: skip
