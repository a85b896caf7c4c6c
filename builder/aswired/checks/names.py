"""Names that point to nothing, or to two things: ids on photographs, rows and readings; unreadable pictures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from aswired.car.asbuilt.freeze import REF01
from aswired.car.changes import kind_of
from aswired.car.harness import BATTERY_NEGATIVE
from aswired.car.loom import was_of
from aswired.checks.places import close_landmark, places_of_parts
from aswired.figures.expected import NOTHING_ON
from aswired.figures.probes import POSTS
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding, Location, Rule, Severity, did_you_mean, near
from aswired.text.units import Length, Size, is_named, is_unknown

PHO04 = Rule("PHO04", Severity.ERROR)
REF02 = Rule("REF02", Severity.ERROR)
REF03 = Rule("REF03", Severity.ERROR)
REF04 = Rule("REF04", Severity.WARNING)
REF05 = Rule("REF05", Severity.WARNING)
ROW15 = Rule("ROW15", Severity.WARNING)


def known_names(facts: JobResult) -> dict[str, None]:
    """Everything of a job that an id may point to."""
    job = facts.job
    names: dict[str, None] = {"car": None}  # `of: car` is the whole car
    for table in (
        job.landmarks,
        job.plugs,
        job.fuses,
        job.sources,
        job.switches,
        job.modules,
        job.loads,
        job.grounds,
        job.splices,
        job.wires,
        job.offcuts,
    ):
        names.update(dict.fromkeys(table))
    names.update(dict.fromkeys(row.id for row in job.changes))
    for view in (facts.donor, facts.plan, facts.shown):
        names.update(dict.fromkeys((*view.nodes, *view.joints, *view.wires, *view.offcuts)))
        names.update(dict.fromkeys((*view.fuses, *view.relays)))
        names.update(dict.fromkeys(new.partition(".")[0] for new in view.replaced.values()))
        names.update(dict.fromkeys(piece.id for piece in view.pieces))
    for photo in job.photos:
        names[photo.id] = None
    names.update(dict.fromkeys(reading.id for reading in job.readings))
    names.update(dict.fromkeys(visit.id for visit in job.service))
    return names


def judge(facts: JobResult, known: Mapping[str, None], photo_problems: Mapping[str, str]) -> Iterator[Finding]:
    """`known`: what `known_names` says of the job."""
    job = facts.job
    yield from _ends_of_parts(facts)
    yield from _where_feeds_begin(facts)
    yield from _loads_of_parts(job)
    yield from _named_by_parts(job, known)
    yield from _close_to_a_landmark(job)
    for row in job.changes:
        yield from _named_by_row(row, facts, known)
    yield from _used_twice(job)
    yield from _on_the_rack_twice(facts)
    yield from _described_twice(facts)
    yield from _named_by_photos(job, known, photo_problems)
    yield from _named_by_readings(job, known)
    yield from _named_by_visits(job, known)


def _nowhere(
    name: str,
    at: Location,
    entry: str,
    what: str,
    known: Mapping[str, None],
    like: Iterable[str] | None = None,
    mend: str = "Write the id as it stands on the tape",
) -> Iterator[Finding]:
    """A name that points to nothing of the job. `like`: what it may be a slip of, if not any name."""
    if name and name not in known:
        problem = f"{what} '{name}', which is nowhere in this job"
        hint = did_you_mean(name, known if like is None else like, mend)
        yield REF02(at, entry, problem, hint)


def _named_by_parts(job: Job, known: Mapping[str, None]) -> Iterator[Finding]:
    for name, point in job.grounds.items():
        mend = "Write battery-, or a ground point as it stands under 'grounds:'"
        back_to = "" if point.back_to == BATTERY_NEGATIVE else point.back_to
        what = f"'{name}' leads back to"
        yield from _nowhere(back_to, point.line_of("back to"), name, what, known, job.grounds, mend)
    for name, module in job.modules.items():
        for cavity in module.guarded:
            if cavity not in module.out:
                problem = f"'{name}' is guarded at cavity '{cavity}', which is none of its outputs"
                mend = did_you_mean(cavity, module.out, f"List it: out: {{{cavity}: what it feeds}}; or take it out")
                yield REF02(module.line_of("guarded"), name, problem, mend)
    for name, wire in job.wires.items():
        for other in wire.protects:
            yield from _nowhere(other, wire.line_of("protects"), name, "the link protects", known)


def _named_by_row(row: Change, facts: JobResult, known: Mapping[str, None]) -> Iterator[Finding]:
    job = facts.job
    for other in row.protects:
        yield from _nowhere(other, row.line_of("protects"), row.id, "the link protects", known)
    result = facts.plan.row(row.id)
    grounded = kind_of(row).grounds and result is not None and result.counts
    if grounded and row.to not in job.grounds and row.to != BATTERY_NEGATIVE:
        mend = did_you_mean(row.to, job.grounds, f"Declare it: grounds: {{{row.to}: {{stud: M6, back to: battery-}}}}")
        problem = f"ground point '{row.to}' is not declared; its way back to the battery is not known"
        yield REF05(row.line_of("to"), row.id, problem, mend)
    photos = [photo.id for photo in job.photos]
    for name in row.photos:
        if name not in photos:
            problem = f"the row names photo '{name}', which is not in the list"
            mend = did_you_mean(name, photos, f"Add photo {name} to 'photos:'")
            yield REF02(row.line_of("photos"), row.id, problem, mend)
    rows = {other.id for other in job.changes}
    for key in ("proves", "over"):
        for name in getattr(row, key):
            if name not in rows and name not in known:
                problem = f"the row {key} '{name}', which is not a row"
                mend = did_you_mean(name, rows, "Write the id of a row")
                yield REF02(row.line_of(key), row.id, problem, mend)


def _named_by_photos(job: Job, known: Mapping[str, None], problems: Mapping[str, str]) -> Iterator[Finding]:
    for photo in job.photos:
        for name in photo.shows:
            yield from _nowhere(name, photo.line_of("shows"), photo.id, "the photo shows", known)
        for mark in photo.marks:
            yield from _nowhere(mark.of, mark.line_of("of"), photo.id, "a mark points to", known)
        if photo.id in problems:
            problem = f"the picture '{photo.file}' cannot be shown: {problems[photo.id]}"
            mend = "Copy the picture into photos/ again, as JPEG"
            yield PHO04(photo.line_of("file"), photo.id, problem, mend)


def _named_by_readings(job: Job, known: Mapping[str, None]) -> Iterator[Finding]:
    for reading in job.readings:
        yield from _nowhere(reading.of, reading.line_of("of"), reading.id, "the reading belongs to", known)
        for name in reading.loads_on:
            if name != NOTHING_ON and name not in job.loads:
                problem = f"the reading was taken with '{name}' on, which is no load of this job"
                mend = did_you_mean(name, job.loads, "Write the name as it stands under 'loads:'")
                yield REF02(reading.line_of("loads on"), reading.id, problem, mend)


def _named_by_visits(job: Job, known: Mapping[str, None]) -> Iterator[Finding]:
    """Most often what a visit names is still to be written: a neighbour's id would be a wrong guess."""
    for visit in job.service:
        for name in visit.rows:
            mend = f"Write the row {name} under 'changes:', or name the row that was made"
            yield from _nowhere(name, visit.line_of("rows"), visit.id, "the visit's rows name", known, (), mend)
        for name in visit.readings:
            mend = f"Write the reading {name} under 'readings:', or name the one that was taken"
            yield from _nowhere(name, visit.line_of("readings"), visit.id, "the visit's readings name", known, (), mend)


def _used_twice(job: Job) -> Iterator[Finding]:
    """Ids of pictures, readings and visits that stand for another of them, or for a row; rows among themselves are
    told where they are folded."""
    seen = {row.id: ("row", row.at) for row in reversed(job.changes)}
    for what, thing, records in (
        ("photo", "picture", job.photos),
        ("reading", "reading", job.readings),
        ("visit", "visit", job.service),
    ):
        for record in records:
            if record.id in seen:
                other, at = seen[record.id]
                twice = "used twice; the first is" if other == what else f"the id of a {other} too, which is"
                problem = f"the {what} id '{record.id}' is {twice} in {at}"
                mend = f"Give this {thing} the next free id"
                yield REF03(record.line_of("id"), record.id, problem, mend)
            seen.setdefault(record.id, (what, record.at))


def _on_the_rack_twice(facts: JobResult) -> Iterator[Finding]:
    """Offcuts that a row puts on the rack under the name of another: the account of the first would be lost."""
    seen = dict.fromkeys(facts.job.offcuts, "it stands under 'offcuts:'")
    for row in facts.rows_of(facts.plan):
        for name in row.reclaimed:
            if name in seen:
                problem = f"the offcut '{name}' is put on the rack twice; {seen[name]}"
                mend = "Give this piece the next free id, and write it on the piece"
                yield REF03(row.line_of("reclaimed"), row.id, problem, mend)
            seen.setdefault(name, f"{row.id} put it there first")


def _described_twice(facts: JobResult) -> Iterator[Finding]:
    """Wires of which a row's `was:` says something else than `wires:`, or than the last row that describes them."""
    job, counts = facts.job, was_of(facts.job.changes)
    last = {row.wire: row.id for row in job.changes if row.was is not None}
    for row in facts.rows_of(facts.plan):
        wire = job.wires.get(row.wire)
        if row.was is None:
            continue
        if wire is not None:
            own, where = (wire.colour, wire.size, (wire.from_, wire.to), wire.length), "under 'wires:'"
        else:
            was = counts.get(row.wire, row.was)
            own, where = (was.colour, was.size, was.ends, was.length), f"on {last.get(row.wire, row.id)}"
        if _as_told(*own) != _as_told(row.was.colour, row.was.size, row.was.ends, row.was.length):
            problem = f"{row.wire} is described here and, differently, {where}; what stands there counts"
            mend = "Look at the wire, and describe it once"
            yield ROW15(row.line_of("was"), row.id, problem, mend)


def _as_told(colour: Colour, size: Size, ends: tuple[str, str], length: Length | None) -> tuple[object, ...]:
    """What is said of a wire of the donor, however it is written."""
    return colour.code, size.system, size.number, frozenset(ends), length.mm if length is not None else None


def _loads_of_parts(job: Job) -> Iterator[Finding]:
    """Names that stand for a load and are none: a relay would never pull, two loads would count as on together."""
    named = [
        (name, switch.line_of("worked by"), f"'{name}' is worked by", switch.worked_by)
        for name, switch in job.switches.items()
        if switch.worked_by
    ]
    named += [
        (name, load.line_of("not with"), f"'{name}' is never on with", other)
        for name, load in job.loads.items()
        for other in load.not_with
    ]
    for name, at, told, other in named:
        if other not in job.loads and not is_unknown(other):
            mend = did_you_mean(other, job.loads, "Write the name of a load as it stands under 'loads:'")
            yield REF02(at, name, f"{told} '{other}', which is no load of this job", mend)


def _close_to_a_landmark(job: Job) -> Iterator[Finding]:
    """Single words that stand for a place, are no landmark and differ from one by a letter. Other words are free."""
    places = [(place, at, name) for name, place, at in places_of_parts(job)]
    places += [
        (mark, leg.line_of(key), mark) for leg in job.route for key, mark in (("from", leg.from_), ("to", leg.to))
    ]
    for place, at, entry in places:
        if like := close_landmark(job, place):
            problem = f"'{place}' is no landmark and was taken as a name of its own; '{like}' is declared"
            yield REF01(at, entry, problem, f"None needed, or write {like}")


def _ends_of_parts(facts: JobResult) -> Iterator[Finding]:
    """Ends of wires that name a connector and no cavity; ends of loads and switches that no wire reaches, in a plug
    that is not declared but close to one that is.
    """
    job = facts.job
    for name, wire in job.wires.items():
        for key, end in (("from", wire.from_), ("to", wire.to)):
            if (end in job.plugs or end in job.modules) and end not in (*job.splices, *job.grounds, *job.fuses):
                problem = f"{name} ends in '{end}', which is a connector, and no cavity of it is named"
                mend = f"Write the cavity too: {end}.1, or unknown for the end"
                yield REF04(wire.line_of(key), name, problem, mend)
        if wire.via and "." not in wire.via and not is_unknown(wire.via):
            problem = f"{name} passes '{wire.via}', which is no cavity of an in-line plug"
            mend = f"Write the cavity too: {wire.via}.1"
            if wire.via not in job.plugs:
                mend = f"Write plug and cavity, or by: [{wire.via}] where it is a landmark"
            yield REF04(wire.line_of("via"), name, problem, mend)
    met = {*facts.donor.nodes, *facts.plan.nodes}
    for table in (job.loads, job.switches):
        for name, part in table.items():
            for end in part.between or ():
                plug = end.partition(".")[0]
                if end in met or plug in job.plugs or plug in job.modules:
                    continue
                if like := near(plug, job.plugs):
                    problem = f"no wire of the record ends in '{end}' of '{name}'"
                    mend = f"Did you mean {like[0]}{end[len(plug) :]}?"
                    yield REF04(part.line_of("between"), name, problem, mend)


def _where_feeds_begin(facts: JobResult) -> Iterator[Finding]:
    """What a fuse is said to hang on, and the ends of a further source, where nothing of the record is: such a feed
    leads nowhere, as if nobody had written it."""
    job = facts.job
    met = dict.fromkeys((*facts.donor.nodes, *facts.plan.nodes, *POSTS))
    between = [part.between or () for table in (job.loads, job.switches) for part in table.values()]
    met.update(dict.fromkeys(end for ends in between for end in ends))
    for name, source in job.sources.items():
        for key, end in (("plus", source.plus), ("minus", source.minus)):
            yield from _no_wire_there(end, f"the {key} of '{name}'", source.line_of(key), name, met, job)
    met.update(dict.fromkeys(source.plus for source in job.sources.values()))
    for name, fuse in job.fuses.items():
        what = f"on which the feed side of '{name}' hangs"
        yield from _no_wire_there(fuse.fed_from, what, fuse.line_of("fed from"), name, met, job)


def _no_wire_there(
    end: str, what: str, at: Location, entry: str, met: Mapping[str, None], job: Job
) -> Iterator[Finding]:
    """A listed fuse, splice, ground point or module stands there by itself, a cavity only by its wire."""
    part = end.partition(".")[0]
    listed = part in job.modules or any(part in table for table in (job.fuses, job.splices, job.grounds))
    if end and is_named(end) and end not in met and not listed:
        mend = did_you_mean(end, met, "Write the end of a wire that is listed; or list the wire that ends there")
        yield REF04(at, entry, f"no wire of the record ends in '{end}', {what}", mend)
