"""What the record does not say: counted by subject, never a finding."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from aswired.car.harness import NodeKind
from aswired.checks.ends import END03, END04
from aswired.checks.loads import fuel_cut_off
from aswired.checks.places import places_of_parts, words_only
from aswired.checks.systems import undeclared
from aswired.figures.heat import unplaced
from aswired.figures.worked import JobResult
from aswired.ledger.record import Reason, Weight, Why
from aswired.text.diagnostics import Location, NotExamined
from aswired.text.one_line import HELD_BY_NOTHING
from aswired.text.units import is_unknown

Waits = Collection[tuple[Why, str]]  # what the ledger waits for: why, and the thing it stands at

_SUBJECTS = (
    "splices", "cut ends", "circuits", "wires", "cavities", "grounds", "fuses", "route", "changes", "battery",
    "systems",
)  # fmt: skip

_SIZE_OF_PIECE = "size of the piece not read"
_SIDE_OF_MAP = "side that its cavity map is read from not known: each pair may be swapped"

# What a line of the ledger is not shown for: subject, and what is said of the thing it stands at.
_OF_LEDGER: Mapping[Why, tuple[str, str]] = {
    Why.SIZE: ("wires", "size not read"),
    Why.METAL: ("wires", "what its conductor is made of is not known, or stands in no table"),
    Why.INSULATION: ("wires", "insulation not recorded, in a hot leg"),
    Why.LENGTH: ("wires", "length not recorded, with nothing before it"),
    Why.LENGTH_OF_LINK: ("wires", "length of the fusible link not recorded"),
    Why.DIVIDES: ("wires", "length of the two ways home not recorded"),
    Why.NO_END: ("wires", "one end not traced"),
    Why.NO_TABLE: ("wires", "an end that stands in no table"),
    Why.CALLED_SO: ("wires", "called as if it belonged to a system it is not declared for"),
    Why.NO_FATE: ("cut ends", "how it was left is not known"),
    Why.NO_COVER: ("splices", "cover not recorded"),
    Why.MEMBERS: ("splices", "other members not traced"),
    Why.NOT_SEALED: ("changes", "whether its work was sealed not recorded"),
    Why.NOTHING_BEHIND: ("cavities", "what it is plugged to not recorded"),
    Why.NOT_LISTED: ("cavities", "what the module does with it not recorded"),
    Why.OUTPUT: ("cavities", "what its output is guarded to not recorded"),
    Why.RATING: ("fuses", "rating not recorded"),
    Why.POSITION: ("fuses", "when it is live not recorded"),
    Why.FEED_OF: ("circuits", "what feeds it not recorded"),
    Why.CURRENT: ("circuits", "current not recorded"),
    Why.OTHER_VOLTS: ("circuits", "made for other volts; whether this car has it not recorded"),
    Why.OPTION: ("circuits", "for a car with an option that is not known"),
    Why.LEG_HEAT: ("route", "heat on it not known, or which piece runs through it"),
    Why.WAY_BACK: ("grounds", "way back to the battery not recorded"),
    Why.CABLE: ("grounds", "size of its cable not recorded"),
    Why.BODY: ("grounds", "size of the body's cable to battery minus not recorded"),
    Why.VOLTS: ("battery", "volts not recorded, or not those of the system"),
    Why.POLE: ("battery", "which pole is on the body not recorded, or not judged"),
    Why.DECLARED: ("systems", "what became of it not recorded"),
    Why.DECLARED_BY: ("systems", "who declares the systems not recorded"),
    Why.ROW: ("changes", "whether it was done so is not settled"),
}


def count(facts: JobResult) -> tuple[NotExamined, ...]:
    """Everything that is not recorded, each thing once: what the ledger waits for, and what no wire waits for."""
    return tuple(sorted(_unsorted(facts), key=lambda unseen: _SUBJECTS.index(unseen.subject)))


def _unsorted(facts: JobResult) -> Iterator[NotExamined]:
    waits = {(reason.why, reason.of) for reason in facts.ledger.reasons if reason.weight is Weight.MISSING}
    yield from _of_ledger(facts)
    yield from _joints(facts, waits)
    yield from _circuits(facts, waits)
    yield from _must_work(facts)
    yield from _wires(facts, waits)
    yield from _cavities(facts)
    yield from _points(facts, waits)
    yield from _heat(facts)
    yield from _words(facts)
    yield from _rows(facts, waits)
    yield from _declared(facts, waits)


def _of_ledger(facts: JobResult) -> Iterator[NotExamined]:
    """What the ledger waits for; not an end of which a row should say how it was left, which is an error of the row."""
    in_error = {finding.entry for finding in facts.findings if finding.code in (END03.code, END04.code)}
    told: set[tuple[Why, str]] = set()
    for reason in facts.ledger.reasons:
        if reason.weight is not Weight.MISSING or (reason.why, reason.of) in told:
            continue
        if _is_told_otherwise(facts, reason) or (reason.why is Why.NO_FATE and reason.of in in_error):
            continue
        told.add((reason.why, reason.of))
        found = _as_ledger(reason.why, reason.of, reason.at)
        yield replace(found, what=exactly) if (exactly := _exactly(facts, reason)) else found


def _as_ledger(why: Why, of: str, at: Location) -> NotExamined:
    """The same words where the ledger waits for it and where no wire does."""
    subject, what = _OF_LEDGER[why]
    return NotExamined(subject, of, what, at)


def _is_told_otherwise(facts: JobResult, reason: Reason) -> bool:
    """Whether another line below says it with more of what the record shows."""
    if reason.why is Why.FEED_OF:
        return reason.of in facts.circuits and facts.circuits[reason.of].feed.state == "not examined"
    if reason.why is Why.POLE:
        return facts.job.ground_side == "positive"
    return reason.why is Why.OPTION


def _exactly(facts: JobResult, reason: Reason) -> str:
    """What the record shows beside it, where it shows something; else ''."""
    if reason.why is Why.SIZE and reason.key == "piece":
        return _SIZE_OF_PIECE
    if reason.why is Why.NO_FATE and facts.shown.nodes[reason.of].fate == HELD_BY_NOTHING:
        return "cut off before; whether it is covered is not recorded"
    if reason.why is Why.MEMBERS and len(facts.donor.at_node.get(reason.of, ())) == 1:
        return _lone_member(facts, reason.of)
    if reason.why is Why.ROW and reason.key == "seen from":
        row = facts.job.change(reason.of)
        if row is not None and is_unknown(row.seen_from):
            return _SIDE_OF_MAP
        return "side that its cavities were read from not known, or not the same, for both connectors"
    if reason.why is Why.ROW:
        result = facts.shown.row(reason.of)
        return result.why if result is not None else ""
    return ""


def _lone_member(facts: JobResult, splice: str) -> str:
    """A splice in which the donor has one wire on record; those that the work put in stand beside it."""
    wire = facts.donor.at_node[splice][0].wire
    now = dict.fromkeys(stretch.wire for stretch in facts.shown.at_node.get(splice, ()) if stretch.wire != wire)
    return f"of the donor's wires only {wire} is recorded in it" + (f"; now also {', '.join(now)}" if now else "")


def _joints(facts: JobResult, waits: Waits) -> Iterator[NotExamined]:
    for placed in facts.joints:
        joint = placed.joint
        if not placed.place:
            yield NotExamined("splices", joint.id, "place not recorded", joint.at)
        if joint.cover is None and (Why.NO_COVER, joint.id) not in waits:
            yield _as_ledger(Why.NO_COVER, joint.id, joint.at)
        if joint.method is None or joint.method.form == "unknown":
            yield NotExamined("splices", joint.id, "form of joint not recorded", joint.at)
        elif joint.method.form == "twist" and joint.method.fixing == "unknown":
            yield NotExamined("splices", joint.id, "twisted, and what holds it is not recorded", joint.at)
    for name, node in facts.donor.nodes.items():
        if (Why.MEMBERS, name) in waits or node.kind is not NodeKind.SPLICE or len(facts.donor.at_node[name]) != 1:
            continue
        wire = facts.donor.at_node[name][0].wire
        yield NotExamined("splices", name, _lone_member(facts, name), _declared_at(facts, name, wire))
    for name, splice in facts.job.splices.items():
        if not splice.all_members_known and (Why.MEMBERS, name) not in waits:
            yield _as_ledger(Why.MEMBERS, name, splice.at)


def _declared_at(facts: JobResult, splice: str, wire: str) -> Location:
    declared = facts.job.splices.get(splice) or facts.job.wires.get(wire)
    return declared.at if declared is not None else facts.job.at


def _circuits(facts: JobResult, waits: Waits) -> Iterator[NotExamined]:
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
            if (Why.CURRENT, name) not in waits:
                yield _as_ledger(Why.CURRENT, name, load.at)
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


def _wires(facts: JobResult, waits: Waits) -> Iterator[NotExamined]:
    for name, state in facts.shown.wires.items():
        if state.removed_by and not facts.shown.of_wire(name):
            continue
        wire = facts.job.wires.get(name)
        at = wire.at if wire is not None else facts.job.at
        if not state.size.known and (Why.SIZE, name) not in waits:
            yield _as_ledger(Why.SIZE, name, at)
        if not state.colour.known:
            yield NotExamined("wires", name, "colour not read", at)
    for piece in facts.pieces:
        if piece.length_mm is None and piece.computed.missing:
            what = f"cut length not computed: {'; '.join(piece.computed.missing_words)}"
            yield NotExamined("wires", piece.id, what, facts.job.line_of_row(piece.row))
        if not piece.size.known and (Why.SIZE, piece.id) not in waits:
            yield NotExamined("wires", piece.id, _SIZE_OF_PIECE, facts.job.line_of_row(piece.row))
        if not piece.colour.known:
            yield NotExamined("wires", piece.id, "colour of the piece not read", facts.job.line_of_row(piece.row))


def _cavities(facts: JobResult) -> Iterator[NotExamined]:
    for table in (facts.job.plugs, facts.job.modules):
        for name, part in table.items():
            if part.cavities_not_examined:
                yield NotExamined("cavities", name, "cavities " + ", ".join(part.cavities_not_examined), part.at)


def _points(facts: JobResult, waits: Waits) -> Iterator[NotExamined]:
    for ground in facts.grounds:
        if ground.state == "in use" and not ground.back_to and (Why.WAY_BACK, ground.name) not in waits:
            at = ground.point.at if ground.point is not None else facts.job.at
            yield _as_ledger(Why.WAY_BACK, ground.name, at)
        if ground.state == "in use" and ground.point is not None and ground.point.surface == "unknown":
            yield NotExamined("grounds", ground.name, "face under its rings not known", ground.point.line_of("surface"))
    for fuse in facts.fuses:
        if fuse.fuse is None or fuse.fuse.rating is None or fuse.fuse.rating.value is None:
            if (Why.RATING, fuse.name) not in waits:
                yield _as_ledger(Why.RATING, fuse.name, fuse.fuse.at if fuse.fuse else facts.job.at)
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


def _rows(facts: JobResult, waits: Waits) -> Iterator[NotExamined]:
    for result in facts.plan.rows:
        if result.status == "undecided" and (Why.ROW, result.id) not in waits:
            yield NotExamined("changes", result.id, result.why, facts.job.line_of_row(result.id))
    for row in facts.rows_of(facts.plan):
        if row.seen_from == "unknown" and (Why.ROW, row.id) not in waits:
            yield NotExamined("changes", row.id, _SIDE_OF_MAP, row.line_of("seen from"))


def _declared(facts: JobResult, waits: Waits) -> Iterator[NotExamined]:
    """The pole on the body, systems and the strap of the engine: what only a person can declare, in a line each."""
    job = facts.job
    if job.ground_side == "positive":
        what = "positive ground: no resistance, drop or rise is computed"
        yield NotExamined("circuits", "ground side", what, job.line_of("ground side"))
    if missing := [system for system in undeclared(facts) if (Why.DECLARED, system) not in waits]:
        yield NotExamined("systems", "systems", "not declared: " + ", ".join(missing), job.line_of("systems"))
    starts = any(job.loads[name].class_ == "starter" for name in job.kept_loads)
    if starts and job.engine_strap == "unknown":
        yield NotExamined("grounds", "engine strap", "not recorded", job.line_of("engine strap"))
