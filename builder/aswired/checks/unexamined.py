"""What the record does not say: counted by subject, never a finding."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.harness import NodeKind
from aswired.checks.loads import fuel_cut_off
from aswired.checks.places import places_of_parts, words_only
from aswired.checks.systems import undeclared
from aswired.figures.heat import unplaced
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Location, NotExamined
from aswired.text.one_line import HELD_BY_NOTHING


def count(facts: JobResult) -> Iterator[NotExamined]:
    """Everything that is not recorded, in the order of the subjects below."""
    yield from _joints(facts)
    yield from _ends(facts)
    yield from _circuits(facts)
    yield from _must_work(facts)
    yield from _wires(facts)
    yield from _cavities(facts)
    yield from _points(facts)
    yield from _heat(facts)
    yield from _words(facts)
    yield from _rows(facts)
    yield from _declared(facts)


def _joints(facts: JobResult) -> Iterator[NotExamined]:
    for placed in facts.joints:
        joint = placed.joint
        if not placed.place:
            yield NotExamined("splices", joint.id, "place not recorded", joint.at)
        if joint.cover is None:
            yield NotExamined("splices", joint.id, "cover not recorded", joint.at)
        if joint.method is None or joint.method.form == "unknown":
            yield NotExamined("splices", joint.id, "form of joint not recorded", joint.at)
        elif joint.method.form == "twist" and joint.method.fixing == "unknown":
            yield NotExamined("splices", joint.id, "twisted, and what holds it is not recorded", joint.at)
    for name, node in facts.donor.nodes.items():
        if node.kind is NodeKind.SPLICE and len(facts.donor.at_node[name]) == 1:
            wire = facts.donor.at_node[name][0].wire
            now = dict.fromkeys(stretch.wire for stretch in facts.shown.at_node.get(name, ()) if stretch.wire != wire)
            what = f"of the donor's wires only {wire} is recorded in it" + (
                f"; now also {', '.join(now)}" if now else ""
            )
            yield NotExamined("splices", name, what, _declared_at(facts, name, wire))
    for name, splice in facts.job.splices.items():
        if not splice.all_members_known:
            yield NotExamined("splices", name, "other members not traced", splice.at)


def _declared_at(facts: JobResult, splice: str, wire: str) -> Location:
    declared = facts.job.splices.get(splice) or facts.job.wires.get(wire)
    return declared.at if declared is not None else facts.job.at


def _ends(facts: JobResult) -> Iterator[NotExamined]:
    for node in facts.shown.nodes.values():
        if node.kind is NodeKind.STUB and node.fate is not None and node.fate.word == "unknown":
            yield NotExamined(
                "cut ends", node.name, "how it was left is not known", facts.job.line_of_row(node.made_by)
            )
        if node.fate == HELD_BY_NOTHING:
            wire = facts.shown.at_node[node.name][0].wire
            what = "cut off before; whether it is covered is not recorded"
            yield NotExamined("cut ends", node.name, what, _declared_at(facts, "", wire))
        if node.kind is NodeKind.UNKNOWN:
            wire = facts.shown.at_node[node.name][0].wire
            known = facts.job.wires.get(wire)
            yield NotExamined("wires", wire, "one end not traced", known.at if known else facts.job.at)


def _circuits(facts: JobResult) -> Iterator[NotExamined]:
    net = facts.network.grid.net
    for name, load in facts.loads.items():
        here = facts.job.holds(load.for_)
        if load.verdict != "kept" or here == "no":
            continue
        if load.for_ is not None and here == "undecided":
            yield NotExamined("circuits", name, f"for a car whose {load.for_.text}; the option is not known", load.at)
        circuit = facts.circuits[name]
        if fuel_cut_off(facts, net, name) == "not examined":
            yield NotExamined("circuits", name, "fuel cut-off: what opens its way is not recorded", load.at)
        if circuit.feed.state == "not examined":
            yield NotExamined("circuits", name, f"feed: {circuit.feed.why}", load.at)
        if circuit.back.state == "not examined":
            yield NotExamined("circuits", name, f"return: {circuit.back.why}", load.at)
        if load.draws is None or load.draws.current_a is None:
            yield NotExamined("circuits", name, "current not recorded", load.at)
            continue
        whole = facts.circuit_figures[name].alone.whole
        if facts.job.ground_side == "positive":
            continue  # told once
        if whole.value is None and circuit.feed.state == circuit.back.state == "complete":
            yield NotExamined("circuits", name, f"drop not computed: {'; '.join(whole.missing_words[:2])}", load.at)


def _must_work(facts: JobResult) -> Iterator[NotExamined]:
    """A shop's list holds for cars of every kind: a name that is no load here may stand for one that was not listed."""
    for name in facts.job.shop.must_work:
        if name not in facts.loads and name not in facts.job.must_work:
            yield NotExamined("circuits", name, "must work, says the shop; no load here has that name", facts.job.at)


def _wires(facts: JobResult) -> Iterator[NotExamined]:
    for name, state in facts.shown.wires.items():
        if state.removed_by and not facts.shown.of_wire(name):
            continue
        wire = facts.job.wires.get(name)
        at = wire.at if wire is not None else facts.job.at
        if not state.size.known:
            yield NotExamined("wires", name, "size not read", at)
        if not state.colour.known:
            yield NotExamined("wires", name, "colour not read", at)
    for piece in facts.pieces:
        if piece.length_mm is None and piece.computed.missing:
            what = f"cut length not computed: {'; '.join(piece.computed.missing_words)}"
            yield NotExamined("wires", piece.id, what, facts.job.line_of_row(piece.row))
        if not piece.size.known:
            yield NotExamined("wires", piece.id, "size of the piece not read", facts.job.line_of_row(piece.row))
        if not piece.colour.known:
            yield NotExamined("wires", piece.id, "colour of the piece not read", facts.job.line_of_row(piece.row))


def _cavities(facts: JobResult) -> Iterator[NotExamined]:
    for table in (facts.job.plugs, facts.job.modules):
        for name, part in table.items():
            if part.cavities_not_examined:
                yield NotExamined("cavities", name, "cavities " + ", ".join(part.cavities_not_examined), part.at)


def _points(facts: JobResult) -> Iterator[NotExamined]:
    for ground in facts.grounds:
        if ground.state == "in use" and not ground.back_to:
            at = ground.point.at if ground.point is not None else facts.job.at
            yield NotExamined("grounds", ground.name, "way back to the battery not recorded", at)
        if ground.state == "in use" and ground.point is not None and ground.point.surface == "unknown":
            yield NotExamined("grounds", ground.name, "face under its rings not known", ground.point.line_of("surface"))
    for fuse in facts.fuses:
        if fuse.fuse is None or fuse.fuse.rating is None or fuse.fuse.rating.value is None:
            yield NotExamined("fuses", fuse.name, "rating not recorded", fuse.fuse.at if fuse.fuse else facts.job.at)
        elif fuse.ok is None and fuse.thinnest is not None and fuse.rating.value is None and not fuse.spare:
            what = f"not judged against {fuse.thinnest.name} ({fuse.thinnest.size.text}), which no row of the planning "
            yield NotExamined("fuses", fuse.name, what + "table holds", fuse.fuse.at)
        if fuse.fuse is not None and not fuse.fuse.in_ and not fuse.spare:
            yield NotExamined("fuses", fuse.name, "place not recorded", fuse.fuse.at)
    for leg in facts.job.route:
        if leg.length is None or leg.length.mm is None:
            yield NotExamined("route", f"{leg.from_} to {leg.to}", "length not measured", leg.at)


def _heat(facts: JobResult) -> Iterator[NotExamined]:
    """Wires of which it is not recorded whether they run through a hot leg: no heat is held against them."""
    indices = sorted(unplaced(facts.job, facts.plan, facts.route, facts.joints))
    for name in dict.fromkeys(facts.plan.stretches[index].wire for index in indices):
        wire = facts.job.wires.get(name)
        what = "heat on its way not examined: its way on the route is not recorded"
        yield NotExamined("route", name, what, wire.at if wire is not None else facts.job.at)


def _words(facts: JobResult) -> Iterator[NotExamined]:
    """Places that are shown as they are written, and that no length, thickness or heat is worked out with."""
    for name, place, at in places_of_parts(facts.job):
        if words_only(facts.job, facts.route, place):
            yield NotExamined("route", name, f"its place is in words only: {place}", at)
    for placed in facts.joints:
        row = facts.job.change(placed.joint.row)
        if row is not None and words_only(facts.job, facts.route, placed.joint.recorded_place):
            what = f"its place is in words only: {placed.joint.recorded_place}"
            yield NotExamined("route", placed.joint.id, what, row.line_of("where"))


def _rows(facts: JobResult) -> Iterator[NotExamined]:
    for result in facts.plan.rows:
        if result.status == "undecided":
            yield NotExamined("changes", result.id, result.why, facts.job.line_of_row(result.id))
    for row in facts.rows_of(facts.plan):
        if row.seen_from == "unknown":
            what = "side that its cavity map is read from not known: each pair may be swapped"
            yield NotExamined("changes", row.id, what, row.line_of("seen from"))


def _declared(facts: JobResult) -> Iterator[NotExamined]:
    """The pole on the body, systems and the strap of the engine: what only a person can declare, in a line each."""
    job = facts.job
    if job.ground_side == "positive":
        what = "positive ground: no resistance, drop or rise is computed"
        yield NotExamined("circuits", "ground side", what, job.line_of("ground side"))
    if missing := undeclared(facts):
        yield NotExamined("systems", "systems", "not declared: " + ", ".join(missing), job.line_of("systems"))
    starts = any(job.loads[name].class_ == "starter" for name in job.kept_loads)
    if starts and job.engine_strap == "unknown":
        yield NotExamined("grounds", "engine strap", "not recorded", job.line_of("engine strap"))
