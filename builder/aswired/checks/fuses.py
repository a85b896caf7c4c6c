"""Fuses: does each feed something, is anything without one, is it near its source and above its load, was it drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from aswired.car.changes import kind_of
from aswired.car.harness import Node, Stretch, View
from aswired.car.trace import Net
from aswired.checks.lists import listed
from aswired.figures.feeds import protected, unfused
from aswired.figures.fuses import FuseSummary, staying_on
from aswired.figures.worked import JobResult
from aswired.ledger.ends import LIKE_A_FUSE
from aswired.network.transfer import POSITIVE_GROUND
from aswired.physics.conductor import gauge_name
from aswired.text.diagnostics import Finding, Location, Rule, Severity, near
from aswired.text.one_line import how_closed

FUS01 = Rule("FUS01", Severity.STOP, Severity.ERROR)
FUS02 = Rule("FUS02", Severity.WARNING)
FUS03 = Rule("FUS03", Severity.STOP, Severity.ERROR, Severity.NOTE)
FUS04 = Rule("FUS04", Severity.WARNING)
FUS05 = Rule("FUS05", Severity.STOP, Severity.ERROR)
FUS06 = Rule("FUS06", Severity.ERROR)
FUS07 = Rule("FUS07", Severity.WARNING)
FUS08 = Rule("FUS08", Severity.WARNING)
FUS09 = Rule("FUS09", Severity.ERROR, Severity.WARNING)
FUS10 = Rule("FUS10", Severity.STOP, Severity.ERROR)

_HAIR = 1e-9  # sums of amperes and millimetres that are equal but for rounding


def judge(facts: JobResult) -> Iterator[Finding]:
    net = facts.network.grid.net
    for fuse in facts.fuses:
        yield from _share(facts, fuse)
        yield from _more_than_rated(facts, fuse)
        if not fuse.spare:
            yield from _feeds_nothing(facts, net, fuse)
            yield from _above_its_feeder(facts, fuse)
    yield from _unfused_on_purpose(facts, net)
    yield from _in_no_table(facts)
    yield from _never_drawn(facts, net)


def _at(facts: JobResult, fuse: FuseSummary) -> Location:
    declared = facts.job.fuses.get(fuse.name)
    return declared.at if declared is not None else facts.job.line_of_row(fuse.rows[0] if fuse.rows else "")


# ---- the way from the battery ---------------------------------------------------------------------------------------
def _unfused_on_purpose(facts: JobResult, net: Net) -> Iterator[Finding]:
    """A starter's main feed, with the reason that somebody wrote."""
    for name, load in facts.loads.items():
        fed = name in facts.job.loads_for_certain and facts.circuits[name].feed.state == "complete"
        if fed and load.unfused and load.class_ == "starter" and unfused(net, facts.circuits[name].feed_end):
            problem = f"'{name}' has no fuse between it and the battery, on purpose: {load.unfused}"
            yield FUS03(load.line_of("unfused"), name, problem, "None needed", rank=Severity.NOTE)


# ---- what hangs on a fuse -------------------------------------------------------------------------------------------
def mend_words(fuse: FuseSummary) -> str:
    """The smallest change that mends a fuse above its wire, in words; '' for one that is not."""
    mend = fuse.mend
    if mend is None:
        return ""
    if mend.fuse_a is not None:
        put_in = f"Put in a {mend.fuse_a:g} A fuse"
        if not fuse.loads:
            return f"{put_in}; no load on it is traced, so try it under load"
        if mend.load_a is None:
            unread = [str(item) for item in fuse.total.missing if item != POSITIVE_GROUND]
            return f"{put_in}, if its load allows" + (f": {listed(unread)} is not recorded" if unread else "")
        return f"{put_in}; the load of {mend.load_a:.1f} A allows it"
    bears = f"no fuse that suits the wire bears the load, which wants {mend.needed_a:.3g} A"
    if mend.area_mm2 is None:
        return f"Share the loads among smaller fuses: {bears}, and no wire of the planning table suits {fuse.name}"
    size = f"{mend.area_mm2:g} mm2"
    if mend.gauge is not None and any(stretch.size.system == "AWG" for stretch in mend.wires):
        size += f" ({gauge_name(mend.gauge)})"
    return f"Replace {listed([stretch.name for stretch in mend.wires])} by at least {size}: {bears}"


def _above_its_feeder(facts: JobResult, fuse: FuseSummary) -> Iterator[Finding]:
    """A fuse that is not below one through which it is fed: the feeder blows first, and all behind it goes dark."""
    own = fuse.fuse.rating if fuse.fuse is not None else None
    if own is None or own.value is None:
        return
    for feeder in (other for other in facts.fuses if other.name in fuse.feeders and not other.spare):
        rating = feeder.fuse.rating if feeder.fuse is not None else None
        if rating is not None and rating.value is not None and rating.value <= own.value:
            first = "blows first" if rating.value < own.value else "may blow first"
            yield FUS08(
                _at(facts, fuse),
                fuse.name,
                f"{fuse.name} is {own.text} and is fed through {feeder.name}, which is {rating.text}: "
                f"{feeder.name} {first}, and all that it feeds goes dark",
                f"Fit less than {rating.value:g} A in {fuse.name}, or a larger {feeder.name} where its wire allows",
            )


def _share(facts: JobResult, fuse: FuseSummary) -> Iterator[Finding]:
    """Loads that stay on, together, against the share of the fuse that they may take."""
    limit = facts.job.limits_in_force["fuse share"]
    rating = fuse.fuse.rating if fuse.fuse is not None else None
    drawn = staying_on(facts.job, fuse.loads)
    total = sum(drawn.values())
    if fuse.fuse is None or rating is None or rating.value is None:
        return
    share = rating.value * limit.value / 100
    if total <= share + _HAIR:
        return
    yield FUS04(
        _at(facts, fuse),
        fuse.name,
        f"{_on_and_drawing(list(drawn), total)}; {fuse.name} is {rating.text}, "
        f"of which {limit.value:g} % is {share:.1f} A",
        "Give one of them a fuse of its own, or fit a larger fuse if the thinnest wire behind it allows",
    )


def _more_than_rated(facts: JobResult, fuse: FuseSummary) -> Iterator[Finding]:
    """One load alone above the rating, or those that can be on together, as far as their currents are recorded."""
    rating = fuse.fuse.rating if fuse.fuse is not None else None
    if rating is None or rating.value is None:
        return
    certain = {name for name in fuse.loads if name in facts.job.loads_for_certain}
    drawn = {
        term.name: float(term.value)
        for term in fuse.total.inputs
        if term.name in certain and isinstance(term.value, int | float)
    }
    alone = {name: amps for name, amps in drawn.items() if amps > rating.value + _HAIR}
    known = fuse.total.value is not None  # then every load is in the sum, those of an option not known too
    total = sum(drawn.values()) if fuse.total.value is None else fuse.total.value
    summed = [term.name for term in fuse.total.inputs if term.name in (fuse.loads if known else drawn)]
    if alone:
        told = ", ".join(f"'{name}' draws {amps:.1f} A" for name, amps in alone.items())
        rank = Severity.ERROR
    elif total > rating.value + _HAIR:
        told = f"{', '.join(repr(name) for name in summed)} together draw {total:.1f} A"
        rank = Severity.WARNING
    else:
        return
    problem = f"{told}, and {fuse.name} is {rating.text}"
    mend = "Give one of them a fuse and a wire of its own, or fit a larger fuse if the thinnest wire behind it allows"
    yield FUS09(_at(facts, fuse), fuse.name, problem, mend, rank=rank)


def _on_and_drawing(loads: list[str], amps: float) -> str:
    if len(loads) == 1:
        return f"'{loads[0]}' stays on and draws {amps:.1f} A"
    return f"{', '.join(loads)} stay on and draw {amps:.1f} A together"


def _feeds_nothing(facts: JobResult, net: Net, fuse: FuseSummary) -> Iterator[Finding]:
    rows = _rows_at(facts, net, fuse.name)
    if fuse.dead_ends is None or not (rows or fuse.dead_ends):
        return
    if any(_left_open(net.node(end)) for end in fuse.dead_ends):
        return  # that is told of the end, and is the worse of the two
    what = only_cut_ends(fuse, net.view) or "nothing any more"
    yield FUS02(
        _at(facts, fuse),
        fuse.name,
        f"{fuse.name} feeds {what}" + (f" (see {listed(rows)})" if rows else ""),
        f"Draw the fuse and write {f'spare: [{fuse.name}] on {rows[-1]}' if rows else 'use: spare on it'}, or list the "
        "wires that still hang on it",
    )


def only_cut_ends(fuse: FuseSummary, view: View) -> str:
    """What a fuse feeds where that is cut ends alone, in words: `only the cut end C3-W60-F8, under tape`; else ''."""
    ends = [f"the cut end {end}, {how_closed(view.nodes[end].fate)}" for end in fuse.dead_ends or ()]
    return f"only {'; '.join(ends)}" if ends else ""


def _left_open(node: Node) -> bool:
    return node.fate is not None and node.fate.word == "uncapped"


def _rows_at(facts: JobResult, net: Net, fuse: str) -> list[str]:
    """Rows in force that worked on a wire of the fuse's load side, the donor's wires there included."""
    view = facts.shown
    wires = {name for name, state in facts.donor.wires.items() if fuse in state.donor_ends}
    wires |= {stretch.wire for stretch in protected(net, fuse)}
    rows = {row for wire in wires if wire in view.wires for row in view.wires[wire].rows}
    return [result.id for result in view.rows if result.id in rows and result.counts]


# ---- tables and tests -----------------------------------------------------------------------------------------------
def _in_no_table(facts: JobResult) -> Iterator[Finding]:
    """Fuses and relays that a row or a wire names and that no table lists: nobody would find them."""
    job = facts.job
    told: set[str] = set()
    for name, at, entry, what in _named(facts):
        table: Mapping[str, object] = job.switches if what == "relay" else job.fuses
        if name in table or name in told:
            continue
        told.add(name)
        where = "switches" if what == "relay" else "fuses"
        like = near(name, table, 1)
        example = f"{name}: {{between: {name}.30 {name}.87}}" if what == "relay" else f"{name}: {{rating: 10 A}}"
        problem = f"the {what} '{name}' stands in no table, so it is missing on the fuse page"
        mend = f"List it: {where}: {{{example}}}" + (f"; or write {like[0]} if that was meant" if like else "")
        yield FUS06(at, entry, problem, mend)


def _named(facts: JobResult) -> Iterator[tuple[str, Location, str, str]]:
    """Each fuse or relay that is named somewhere: name, where, entry, fuse or relay."""
    job = facts.job

    def of_end(end: str) -> str:
        part, _, side = end.partition(".")
        others = (job.plugs, job.modules, job.grounds, job.splices)
        like_a_fuse = side == "feed" or (not side and LIKE_A_FUSE.fullmatch(part) is not None)
        return part if like_a_fuse and not any(part in table for table in others) else ""

    for name, wire in job.wires.items():
        for key, end in (("from", wire.from_), ("to", wire.to)):
            if of_end(end):
                yield of_end(end), wire.line_of(key), name, "fuse"
    for row in facts.rows_of(facts.plan):
        named = [(row.fuse, "fuse", "fuse"), (row.relay, "relay", "relay")]
        named += [(name, key, "fuse") for key in ("spare", "dead without") for name in _names(row, key)]
        ends = [("end", row.end), ("to", row.to), ("from", row.from_), ("into", row.into)]
        ends += [("was", end) for end in (row.was.ends if row.was is not None else ())]
        named += [(of_end(end), key, "fuse") for key, end in ends]
        for name, key, what in named:
            if name:
                yield name, row.line_of(key), row.id, what


def _names(row: object, key: str) -> tuple[str, ...]:
    return tuple(getattr(row, key.replace(" ", "_")))


def _never_drawn(facts: JobResult, net: Net) -> Iterator[Finding]:
    """Told once the car is proved or handed over: before that every fuse is still to be drawn."""
    job, view = facts.job, facts.shown
    made = [row for row in facts.rows_of(view) if row.made is not None]
    if not made or not (job.handed_over is not None or any(kind_of(row).proves for row in made)):
        return
    drawn = {name for row in made for name in row.dead_without}
    waiting = [f.name for f in facts.fuses if not f.spare and f.name not in drawn and _changed(facts, net, f)]
    if waiting:
        yield FUS07(
            job.line_of("fuses"),
            "",
            f"no verify row says that the changed circuits behind {', '.join(waiting)} were dead with the fuse drawn",
            f"Draw each fuse, try its circuits, and write dead without: [{', '.join(waiting)}] on a row of kind verify",
        )


def _changed(facts: JobResult, net: Net, fuse: FuseSummary) -> bool:
    """Whether a row worked on a wire that a fuse feeds, or on the return of a load that it feeds."""
    stretches: list[Stretch] = list(protected(net, fuse.name))
    for load in fuse.loads:
        stretches += facts.circuits[load].back.stretches
    return any(facts.shown.wires[stretch.wire].rows for stretch in stretches)
