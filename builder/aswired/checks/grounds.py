"""Ground points: rings and their order on a stud, what the stud rises by, what shares it, and how it was made ready."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE
from aswired.car.trace import circle, leads_round, leads_to_no_ground
from aswired.checks.lists import listed
from aswired.figures.grounds import GroundSummary
from aswired.figures.rings import RingCurrent, ring_currents
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding, Location, Rule, Severity
from aswired.text.units import MM_PER_INCH

GND02 = Rule("GND02", Severity.ERROR)
GND03 = Rule("GND03", Severity.WARNING)
GND04 = Rule("GND04", Severity.WARNING)
GND05 = Rule("GND05", Severity.ERROR, Severity.WARNING)
GND06 = Rule("GND06", Severity.STOP, Severity.ERROR)
GND07 = Rule("GND07", Severity.ERROR)
GND08 = Rule("GND08", Severity.STOP)
GND09 = Rule("GND09", Severity.NOTE)
GND10 = Rule("GND10", Severity.ERROR)
GND11 = Rule("GND11", Severity.WARNING)
GND12 = Rule("GND12", Severity.WARNING)
GND13 = Rule("GND13", Severity.ERROR)
HDR01 = Rule("HDR01", Severity.ERROR)

# A 1/4 in ring is sold for M6, a 1/2 in ring for M12: 0.7 mm of play (common practice, no source). M5 to M6 is 1 mm.
SAME_THREAD_MM = 0.75
FUEL = ("tank", "filler", "fuel line", "vapour canister")
# whose current is large or breaks off sharply; ring terminals of sensors are kept off their studs (read)
DISTURBS = ("starter", "pump", "fuel pump", "motor", "coil", "ignition", "lamp", "indicator")


def judge(facts: JobResult) -> Iterator[Finding]:
    yield from _rings(facts)
    yield from _threads(facts)
    yield from _round_and_round(facts)
    yield from _near_fuel(facts)
    yield from _surface(facts)
    yield from _painted(facts)
    yield from _strap(facts)
    if facts.job.ground_side == "positive":
        problem = "positive ground: feeds and returns are told the other way round here"
        mend = "No resistance, drop or rise is computed; only the wires, splices and lengths hold"
        yield HDR01(facts.job.line_of("ground side"), "", problem, mend)
        return
    for ground in facts.grounds:
        yield from _stack(facts, ground)
        yield from _rise(facts, ground)
        yield from _lamps(facts, ground)
    yield from _sensors(facts)
    yield from _battery_moved(facts)


def _rings(facts: JobResult) -> Iterator[Finding]:
    """Judged over the plan: a ring too many is an error before it is put on."""
    on_stud: dict[str, list[str]] = {}
    for ring in facts.plan.rings:
        on_stud.setdefault(ring.ground, []).append(ring.row)
    for ground in facts.grounds:
        rows = [row for row in on_stud.get(ground.name, ()) if row]
        # the donor's wires may sit two in a ring, so all of them count as one ring
        rings = len(rows) + ("" in on_stud.get(ground.name, ()))
        if rings > ground.ring_limit:
            last = rows[-1]
            yield GND02(
                facts.job.line_of_row(last),
                ground.name,
                f"'{ground.name}' carries {rings} rings; the limit is {ground.ring_limit} (AC 43.13-1B para 11-174)",
                "Put a second stud or a bus beside it, or two wires into one ring",
            )


def thread_mm(words: str) -> float | None:
    """The thread that stands among words, `M6` or `1/4 in`, in millimetres; None when none does.

    >>> thread_mm("M8 stud"), thread_mm("5/16 in"), thread_mm("self-tapping")
    (8.0, 7.9375, None)
    """
    if metric := re.search(r"\bM(\d{1,2})\b", words):
        return float(metric[1])
    if inches := re.search(r"\b(\d{1,3})/([1-9]\d{0,2}) in\b", words):
        return int(inches[1]) / int(inches[2]) * MM_PER_INCH
    return None


def _threads(facts: JobResult) -> Iterator[Finding]:
    for ring in facts.plan.rings:
        point, row = facts.job.grounds.get(ring.ground), facts.job.change(ring.row)
        hole, stud = thread_mm(ring.hole), thread_mm(point.stud) if point is not None else None
        if row is None or point is None or hole is None or stud is None or abs(hole - stud) < SAME_THREAD_MM:
            continue
        how = "does not go on" if hole < stud else "sits loose, on part of its face, on"
        problem = f"a ring for {ring.hole} {how} a stud of {point.stud} ('{ring.ground}')"
        yield GND03(row.line_of("ring"), row.id, problem, f"Fit a ring for {point.stud}")


def _round_and_round(facts: JobResult) -> Iterator[Finding]:
    """Told on each point whose current never reaches battery negative, of the circle itself or behind it."""
    for name, point in facts.job.grounds.items():
        if leads_to_no_ground(facts.job, facts.shown, point.back_to):
            problem = f"'{name}' leads back to '{point.back_to}', which is no ground point"
            mend = "Write battery-, or a ground point as it stands under 'grounds:'"
            yield GND13(point.line_of("back to"), name, problem, mend)
        points = circle(facts.job, name)
        if not points:
            continue
        behind = "" if name in points else f"'{name}' leads back to {points[0]}; "
        problem = f"{behind}{leads_round(points)}; what lands on '{name}' never reaches battery-"
        mend = "Follow the cable of each, and write back to: battery- on the one that goes to the battery"
        yield GND13(point.line_of("back to"), name, problem, mend)


def _stack(facts: JobResult, ground: GroundSummary) -> Iterator[Finding]:
    """One finding a stud. A ring whose current is not all recorded is never the smaller of two."""
    apart = facts.job.limits_in_force["stack apart"].value
    rings = ring_currents(facts.job, facts.shown, facts.circuits, ground.name, ground.rings)
    placed = sorted((ring for ring in rings if ring.ring.position is not None), key=_position)
    for inner in placed:
        above = [ring.least_a for ring in placed if _position(ring) > _position(inner)]
        row = facts.job.change(inner.ring.row)
        order = listed([_ring_words(ring) for ring in placed])
        if row is not None and inner.whole and above and max(above) - inner.least_a > apart:
            problem = f"on '{ground.name}' larger currents lie over smaller ones; from the base: {order}"
            mend = "Turn the stack over: the largest current next to the base, so that it passes the fewest rings"
            yield GND04(row.line_of("ring"), ground.name, problem, mend)
            return


def _position(ring: RingCurrent) -> int:
    return ring.ring.position or 0


def _ring_words(ring: RingCurrent) -> str:
    return f"{ring.ring.row} {ring.least_a:.3g} A{'' if ring.whole else ' or more'}"


def _at(facts: JobResult, ground: GroundSummary, key: str = "") -> Location:
    if ground.point is None:
        return facts.job.at
    return ground.point.line_of(key) if key else ground.point.at


def _rise(facts: JobResult, ground: GroundSummary) -> Iterator[Finding]:
    volts = ground.rise.value
    if volts is None:
        return
    for key, severity in (("rise error", Severity.ERROR), ("rise warning", Severity.WARNING)):
        limit = facts.job.limits_in_force[key].value
        if volts > limit:
            yield GND05(
                _at(facts, ground, "cable"),
                ground.name,
                f"'{ground.name}' rises {volts:.2f} V over battery negative, all loads on; {limit:.2f} V is allowed",
                "Fit a larger or shorter cable back, or give the heaviest load a return of its own",
                rank=severity,
            )
            return


def _sensors(facts: JobResult) -> Iterator[Finding]:
    """A kept sensor, or a module's reference, that shares a stud or a wire of its return with a disturbing load."""
    kept = {
        name: circuit
        for name, circuit in facts.circuits.items()
        if name in facts.job.kept_loads and circuit.back.state == "complete"
    }
    loud = {name: circuit for name, circuit in kept.items() if facts.job.loads[name].class_ in DISTURBS}
    for name, circuit in kept.items():
        load = facts.job.loads[name]
        if load.class_ == "sensor":
            way = {stretch.name for stretch in circuit.back.stretches}
            yield from _disturbed(load.at, name, f"the sensor '{name}'", circuit.ground, way, loud)
    net = facts.network.grid.net
    for name, module in facts.job.modules.items():
        for cavity in module.reference:
            end = f"{name}.{cavity}"
            reach = net.reach(end) if facts.shown.at_node.get(end) else None
            if reach is not None and reach.grounds:
                ground = reach.grounds[0]
                way = {link.name for _, link in net.way(reach, ground) if link is not None and link.stretch is not None}
                what = f"the sensors' reference {end}"
                yield from _disturbed(module.line_of("reference"), name, what, ground, way, loud)


def _disturbed(
    at: Location, entry: str, what: str, ground: str, way: set[str], loud: Mapping[str, Circuit]
) -> Iterator[Finding]:
    """What lands on `ground` by the stretches `way`, against the returns of the loads that disturb."""
    on_stud = [other for other, circuit in loud.items() if ground and circuit.ground == ground]
    in_wire = [
        other
        for other, circuit in loud.items()
        if other not in on_stud and way.intersection(stretch.name for stretch in circuit.back.stretches)
    ]
    shared = (f"on '{ground}' with {listed(on_stud)}", f"through a wire shared with {listed(in_wire)}")
    where = " and ".join(words for words, others in zip(shared, (on_stud, in_wire), strict=True) if others)
    if where:
        problem = f"{what} returns {where}: readings move with their current"
        mend = "Return it by a wire of its own to the module it reports to, or to a point without such loads"
        yield GND07(at, entry, problem, mend)


def _lamps(facts: JobResult, ground: GroundSummary) -> Iterator[Finding]:
    here = [facts.job.loads[name] for name in ground.loads if facts.circuits[name].ground == ground.name]
    sides = {load.side for load in here if load.class_ == "lamp"} - {""}
    if sides == {"left", "right"} and any(load.class_ == "indicator" for load in here):
        problem = f"left and right lamps and indicators all return on '{ground.name}': if it fails, one lights another"
        mend = "Think of a point for each side"
        yield GND09(_at(facts, ground), ground.name, problem, mend)


def _strap(facts: JobResult) -> Iterator[Finding]:
    """An engine is told by a kept starter or ignition load: both return through its block."""
    job = facts.job
    engine = [name for name in job.kept_loads if job.loads[name].class_ in ("starter", "ignition")]
    if engine and job.engine_strap in ("none", "body only"):
        missing = "no strap" if job.engine_strap == "none" else "a strap to the body only"
        yield GND08(
            job.line_of("engine strap"),
            "",
            f"the engine has {missing}: what {listed(engine)} takes looks for a way back by throttle or clutch cables",
            "Fit a strap from the engine block to battery negative or to the chassis beside it",
        )


def _near_fuel(facts: JobResult) -> Iterator[Finding]:
    for name, point in facts.job.grounds.items():
        close = [word for word in point.near if word in FUEL]
        if close and (facts.plan.at_node.get(name) or facts.shown.at_node.get(name)):
            problem = f"the ground point '{name}' is close to the {' and the '.join(close)}: a loose ring sparks"
            mend = "Move it; nothing electrical is fixed to tank, filler, fuel line or vapour canister"
            yield GND10(point.line_of("near"), name, problem, mend)


def _surface(facts: JobResult) -> Iterator[Finding]:
    """New points only, and only once something was made: the donor's own were bare when it left the works."""
    if facts.shown is not facts.now:
        return
    bare = [
        (ground.name, ground.point)
        for ground in facts.grounds
        if ground.point is not None
        and not ground.point.surface
        and facts.shown.at_node.get(ground.name)
        and not facts.donor.at_node.get(ground.name)
    ]
    if bare:
        names = listed([name for name, _ in bare])
        one = len(bare) == 1
        problem = f"how the face under the rings was made ready is not written for {names}"
        mend = f"Look at {'it' if one else 'each'} and write surface: bare metal, coated after tightening; or unknown"
        yield GND11(bare[0][1].at, "", problem, mend)


def _painted(facts: JobResult) -> Iterator[Finding]:
    for name, point in facts.job.grounds.items():
        day = point.painted.date if point.painted is not None else None
        if day is None:
            continue
        rows = dict.fromkeys(ring.row for ring in facts.shown.rings if ring.ground == name and ring.row)
        before = [row for row in rows if (proof := _last_proof(facts, row)) is not None and proof < day]
        if before:
            problem = f"'{name}' was painted on {day.isoformat()}, after {listed(before)} had been tested on it"
            mend = "Measure its drop to battery negative again, and write a verify row"
            yield GND11(point.line_of("painted"), name, problem, mend)


def _last_proof(facts: JobResult, row: str) -> datetime.date | None:
    """The last day on which a row was tested, or proved by a verify row in force."""
    days = [check.made.date for check in facts.proofs.get(row, ()) if check.made is not None]
    own = facts.job.change(row)
    days.append(own.tested.date if own is not None and own.tested is not None else None)
    return max((day for day in days if day is not None), default=None)


def _battery_moved(facts: JobResult) -> Iterator[Finding]:
    """Points whose way back is the body, with neither a cable size nor a reading to battery negative."""
    job = facts.job
    if job.battery_moved != "yes" or job.body_returns != "yes":
        return
    read = {frozenset((reading.red, reading.black)) for reading in job.readings if reading.shows}
    loose = [
        ground.name
        for ground in facts.grounds
        if ground.loads
        and (ground.point is None or ground.point.cable is None or not ground.point.cable.known)
        and frozenset((ground.name, BATTERY_NEGATIVE)) not in read
    ]
    if loose:
        yield GND12(
            job.line_of("battery moved"),
            "",
            f"the battery was moved, and {listed(loose)} {'returns' if len(loose) == 1 else 'return'} through the body "
            "with no cable size and no reading",
            "Write cable: and cable length: of the way back, or read the drop to battery- with the loads on",
        )
