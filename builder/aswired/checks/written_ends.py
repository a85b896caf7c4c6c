"""Ends that cannot be as they are written: a side that a fuse has not, a cavity beyond the connector, one end twice."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from aswired.car.asbuilt.freeze import REF01
from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.figures.probes import POSTS
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Location, Rule, Severity, did_you_mean, near
from aswired.text.units import LOOSE, is_named, whole_number

REF06 = Rule("REF06", Severity.ERROR, Severity.WARNING)
REF07 = Rule("REF07", Severity.ERROR)
REF08 = Rule("REF08", Severity.ERROR)

# Contacts of a relay as they are marked on its socket (DIN 72552, from memory).
RELAY_MARKS = frozenset(
    (
        *("15", "30", "30a", "31", "50", "51", "85", "85a", "86", "86a", "86b"),
        *("87", "87a", "87b", "87c", "87y", "87z", "88", "88a", "88b", "88c", "88y", "88z"),
    )
)
# Terminals of switches, relays and lamps that stand on their sockets in place of a number (DIN 72552, from memory).
TERMINAL_MARKS = frozenset(
    (15, 17, 19, 30, 31, 32, 33, 44, 45, *range(48, 62), 63, 64, 71, 72, 75, 76, 77, *range(81, 89))
)


@dataclass(frozen=True)
class WrittenEnd:
    """An end as it stands in a file. `entry` is what it belongs to: a wire, a row, a load, a fuse ..."""

    end: str
    entry: str
    at: Location


def judge(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    fuses = {*job.fuses, *facts.plan.fuses}
    cavities = _of_relays(job)
    declared = {*fuses, *job.plugs, *job.modules}
    in_capitals = {name.casefold(): name for name in sorted(declared)}
    ends = tuple(dict.fromkeys(_written(job)))
    for written in ends:
        part, dot, suffix = written.end.partition(".")
        if not is_named(written.end) or any(
            written.end in table for table in (job.grounds, job.splices, job.landmarks)
        ):
            continue
        if problem := _of_another_wire(job, written):
            mend = "Write loose for an end that was cut off before; two ends are brought together by a row of kind join"
            yield REF06(written.at, written.entry, problem, mend, rank=Severity.ERROR)
        elif not dot and near(written.end, [LOOSE]):
            problem = f"{written.entry} ends in '{written.end}', which was taken as the name of a splice"
            yield REF01(written.at, written.entry, problem, f"None needed, or write {LOOSE}")
        elif mend := _another_battery(written.end):
            problem = f"{written.entry} ends in '{written.end}', which is not one of the two battery posts"
            yield REF06(written.at, written.entry, problem, mend, rank=Severity.ERROR)
        elif dot and part in fuses:
            yield from _side_of_fuse(written, part, suffix)
        elif dot and (part in job.grounds or part in job.splices) and part not in job.plugs and part not in job.modules:
            what = "ground point" if part in job.grounds else "splice"
            problem = f"{written.entry} ends in '{written.end}'; '{part}' is a {what} and has no cavities"
            yield REF06(written.at, written.entry, problem, f"Write {part}", rank=Severity.ERROR)
        elif part in cavities:
            yield from _contact(written, part, suffix, cavities[part])
        elif part not in declared and (like := in_capitals.get(part.casefold())):
            problem = f"{written.entry} ends in '{written.end}'; '{like}' is declared, and '{part}' is another name"
            mend = f"None needed, or write {like}{dot}{suffix}"
            yield REF01(written.at, written.entry, problem, mend)
    yield from _cavities(job, ends)
    yield from _one_end_twice(facts)


def _written(job: Job) -> Iterator[WrittenEnd]:
    """Every end that makes a point of the harness by being written, or names one."""
    for name, wire in job.wires.items():
        ends = [("from", wire.from_), ("to", wire.to), ("via", wire.via)]
        ends += [("shield at", end) for end in wire.shield_at]
        yield from (WrittenEnd(end, name, wire.line_of(key)) for key, end in ends if end)
    for row in job.changes:
        yield from (WrittenEnd(end, row.id, row.line_of(key)) for key, end in _ends_of_row(row) if end)
    for table in (job.loads, job.switches):
        for name, part in table.items():
            yield from (WrittenEnd(end, name, part.line_of("between")) for end in part.between or ())
    for name, fuse in job.fuses.items():
        if fuse.fed_from:
            yield WrittenEnd(fuse.fed_from, name, fuse.line_of("fed from"))
    for name, source in job.sources.items():
        both = (("plus", source.plus), ("minus", source.minus))
        yield from (WrittenEnd(end, name, source.line_of(key)) for key, end in both if end)


def _ends_of_row(row: Change) -> Iterator[tuple[str, str]]:
    if row.was is not None:
        yield from (("was", end) for end in row.was.ends)
    yield "into", row.into
    yield "to", row.to  # of a wrap either may be a place
    yield "from", row.from_
    if kind_of(row).bridges:
        yield from (("ends", end.rpartition(" at ")[2]) for end in row.ends)


# ---- suffixes -------------------------------------------------------------------------------------------------------
def _another_battery(end: str) -> str:
    """How to mend an end that can only stand for a battery post and is none; '' for every other end.

    >>> _another_battery("batery-"), _another_battery("battery-.1"), _another_battery("battery neg")
    ('Write battery-', 'Write battery-', 'Write battery-')
    >>> _another_battery("battery-"), _another_battery("battery-tray"), _another_battery("battery2+")
    ('', '', '')
    """
    if end in POSTS:
        return ""
    word = end.casefold()
    for post in POSTS:
        if word.startswith(post + "."):
            return f"Write {post}"
    match = re.fullmatch(r"(?:bat|batt|battery)[-_. ]*(plus|pos|positive|minus|neg|negative)", word)
    if match:
        return f"Write battery{'+' if match[1][0] == 'p' else '-'}"
    stem = word[:-1]  # of another battery, 'battery2+' or 'aux-battery+', the post is a point of its own
    if word[-1:] in ("+", "-") and stem.isalpha() and abs(len(stem) - len("battery")) <= 1 and near(stem, ["battery"]):
        return f"Write battery{word[-1]}"
    return ""


def _of_another_wire(job: Job, written: WrittenEnd) -> str:
    """What is wrong with an end of a wire of the donor that names the loose end of another; '' for every other."""
    wire = written.end.removesuffix(f"-{LOOSE}")
    if wire == written.end or written.entry not in job.wires or wire == written.entry:
        return ""
    return f"{written.entry} ends in '{written.end}', the loose end of another wire, which nothing holds"


def _side_of_fuse(written: WrittenEnd, fuse: str, suffix: str) -> Iterator[Finding]:
    if suffix == "feed":
        return
    mend = f"Write {fuse} for its load side, or {fuse}.feed for its side towards the battery"
    if near(suffix, ["feed"]):
        mend = f"Did you mean {fuse}.feed?"
    elif near(suffix, ["load"]):
        mend = f"Write {fuse} for its load side"
    problem = f"{written.entry} ends in '{written.end}'; a fuse has two sides, {fuse} and {fuse}.feed"
    yield REF06(written.at, written.entry, problem, mend, rank=Severity.ERROR)


def _of_relays(job: Job) -> Mapping[str, frozenset[str]]:
    """Socket of a relay -> its contacts that switches and loads name."""
    named: dict[str, set[str]] = {}
    sockets: set[str] = set()
    for table in (job.switches, job.loads):
        for part in table.values():
            for end in part.between or ():
                socket, _, contact = end.partition(".")
                named.setdefault(socket, set()).add(contact)
    for switch in job.switches.values():
        if switch.worked_by:
            sockets |= {end.partition(".")[0] for end in switch.between or ()}
    return {socket: frozenset(named[socket]) for socket in sockets}


def _contact(written: WrittenEnd, socket: str, contact: str, named: frozenset[str]) -> Iterator[Finding]:
    """A contact that no relay has, on a socket whose other contacts are marked as relays are; or one in capitals."""
    marks = {other for other in named - {contact} if other in RELAY_MARKS}
    alike = sorted(mark for mark in RELAY_MARKS | named if mark.casefold() == contact.casefold() and mark != contact)
    if contact in RELAY_MARKS or not any(sign.isdigit() for sign in contact):
        return
    if len(marks) < 2 and (contact in named or not alike):
        return
    problem = f"{written.entry} ends in '{written.end}'; the contacts of a relay are marked 30, 85, 86, 87 and 87a"
    turned = sorted(mark for mark in marks if sorted(mark) == sorted(contact))
    like = alike[:1] or turned[:1]
    mend = f"Did you mean {socket}.{like[0]}?" if like else ""
    mend = mend or did_you_mean(
        written.end, (f"{socket}.{mark}" for mark in (*marks, "87a")), "Read the mark on the socket again"
    )
    yield REF06(written.at, written.entry, problem, mend, rank=Severity.WARNING)


# ---- cavities -------------------------------------------------------------------------------------------------------
def _cavities(job: Job, ends: tuple[WrittenEnd, ...]) -> Iterator[Finding]:
    """Numbers that the connector cannot have. A letter or a word is as good a cavity as a number, and so is a mark such
    as 30 or 87 on a socket that is not numbered from 1."""
    told: set[tuple[str, str]] = set()
    named = [(written.end.partition("."), written.entry, written.at) for written in ends]
    for row in job.changes:
        for old, new in row.cavities.items():
            at = row.line_of("cavities")
            named += [((row.plug, ".", old), row.id, at), ((row.new_plug, ".", new), row.id, at)]
    for name, plug in job.plugs.items():
        for cavity in plug.cavities_not_examined:
            named.append(((name, ".", cavity), name, plug.line_of("cavities not examined")))
    numbered = {part for (part, _, cavity), _, _ in named if part in job.plugs and _is_of(cavity, job.plugs[part].ways)}
    for (part, dot, cavity), entry, at in named:
        number = whole_number(cavity.removeprefix("-"))
        if not dot or number is None or part in job.modules or part in job.fuses:
            continue
        number = -number if cavity.startswith("-") else number
        ways = job.plugs[part].ways if part in job.plugs else ""
        most = whole_number(ways)
        if number in TERMINAL_MARKS and part not in numbered:
            continue
        if number < 1:
            problem = f"{entry} names cavity {cavity} of '{part}'; cavities are counted from 1"
        elif most is not None and number > most:
            problem = f"{entry} names cavity {cavity} of '{part}', which has {ways} ways"
        else:
            continue
        if (part, cavity) not in told:
            told.add((part, cavity))
            mend = "Read the number on the housing again" + (f", or mend ways: of {part}" if number > 0 else "")
            yield REF07(at, part, problem, mend)


def _is_of(cavity: str, ways: str) -> bool:
    """Whether a cavity is a number from 1 to the ways of its connector, so that this one is numbered by position."""
    number, most = whole_number(cavity), whole_number(ways)
    return number is not None and most is not None and 1 <= number <= most


# ---- one end twice --------------------------------------------------------------------------------------------------
def _one_end_twice(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    for name, wire in job.wires.items():
        if wire.from_ == wire.to and is_named(wire.to):
            yield _twice(name, wire.to, wire.line_of("to"))
    for row in job.changes:
        if row.was is not None and row.was.ends[0] == row.was.ends[1] and is_named(row.was.ends[0]):
            yield _twice(row.id, row.was.ends[0], row.line_of("was"), row.wire)
    for table in (job.loads, job.switches):
        for name, part in table.items():
            if part.between is not None and part.between[0] == part.between[1] and is_named(part.between[0]):
                yield _twice(name, part.between[0], part.line_of("between"))
    for name, source in job.sources.items():
        if source.plus == source.minus and is_named(source.plus):
            yield _twice(name, source.plus, source.line_of("minus"))
    for name, fuse in job.fuses.items():
        if fuse.fed_from in (name, f"{name}.feed"):
            problem = f"the feed side of {name} is said to hang on '{fuse.fed_from}', a side of its own"
            yield REF08(fuse.line_of("fed from"), name, problem, "Name the point that brings the feed, or unknown")
    donor = _loops(facts.donor)
    for wire_name, node in _loops(facts.plan).items():
        last = _last_row(facts, wire_name)
        if wire_name not in donor and last is not None:
            yield _twice(last.id, node, last.at, wire_name)


def _twice(entry: str, end: str, at: Location, what: str = "") -> Finding:
    problem = f"both ends of {what or entry} are '{end}'"
    return REF08(at, entry, problem, "Name two ends; unknown for one that was not traced")


def _loops(view: View) -> Mapping[str, str]:
    """Wires that come out in the point that they go in at -> the point."""
    return {stretch.wire: stretch.ends[0] for stretch in view.stretches if stretch.ends[0] == stretch.ends[1]}


def _last_row(facts: JobResult, wire: str) -> Change | None:
    rows = facts.plan.wires[wire].rows
    return facts.job.change(rows[-1]) if rows else None
