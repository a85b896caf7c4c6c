"""Places that cannot be walked to, landmarks that are not there, and wires that the route leaves a choice (P1, P2).

A place is a landmark, a distance from one towards another, the name of a part that has a place, or words. Words are
shown as they are written and nothing is computed with them; what was meant to be walked and cannot be is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.route import PlaceError, Route
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Location, Rule, Severity, did_you_mean, near
from aswired.text.units import QuantityError, is_unknown, length_in, read_length

PLC01 = Rule("PLC01", Severity.ERROR)
PLC02 = Rule("PLC02", Severity.ERROR)
PLC04 = Rule("PLC04", Severity.WARNING)
PLC05 = Rule("PLC05", Severity.WARNING, Severity.NOTE)
PLC06 = Rule("PLC06", Severity.ERROR)

_LONGEST = 4  # words of a length: 3 ft 4 in
# What goes on behind a length in inches; else 'slot 7 in fuse-box' would be seven inches.
_GOES_ON = (
    *("from", "to", "towards", "past", "behind", "before", "after", "beyond", "above", "below", "under", "over"),
    *("along", "beside", "off", "of", "ahead", "forward", "left of", "right of", "in front", "outside", "inside"),
)


@dataclass(frozen=True)
class Misread:
    """What is wrong with words that stand for a place: `why` goes on behind them."""

    rule: Rule
    rank: Severity
    why: str
    mend: str

    def of(self, name: str, words: str, at: Location, entry: str) -> Finding:
        """The finding; `name` is the part whose place it is, '' for a joint or a row."""
        whose = f"the place '{words}' of {name}" if name else f"'{words}'"
        if not name and self.rule is PLC02:
            whose = f"the place '{words}'"
        return self.rule(at, entry, f"{whose} {self.why}", self.mend, rank=self.rank)


def judge(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    for name, place, at in places_of_parts(job):
        wrong = misread(job, facts.route, place)
        if wrong is not None and (wrong.rule is not PLC05 or not close_landmark(job, place)):
            yield wrong.of(name, place, at, name)
    yield from _of_rows(facts)
    yield from _landmarks(job, facts.route)
    for name, wire in job.wires.items():
        here, there = facts.route.of_end(wire.from_), facts.route.of_end(wire.to)
        if here is None or there is None or not here.landmark or not there.landmark:
            continue
        ways = facts.route.paths(here.landmark, there.landmark)
        if len(ways) > 1 and facts.route.path(here.landmark, there.landmark, facts.plan.wires[name].by) is None:
            forks = sorted({hop.end for way in ways for hop in way} - {here.landmark, there.landmark})
            yield PLC04(
                wire.line_of("by"),
                name,
                f"the route leads {name} from {here.landmark} to {there.landmark} in more than one way",
                f"Write by: and a landmark it passes, such as {forks[0]}" if forks else "Take one of the two legs out",
            )


def places_of_parts(job: Job) -> Iterator[tuple[str, str, Location]]:
    """Every part with a written place: its name, the place, and where it stands."""
    for table in (job.plugs, job.grounds, job.splices, job.modules, job.switches):
        for name, part in table.items():
            if part.place:
                yield name, part.place, part.line_of("at")
    for name, fuse in job.fuses.items():
        if fuse.in_:
            yield name, fuse.in_, fuse.line_of("in")


def close_landmark(job: Job, word: str) -> str:
    """The landmark that a single word differs from by a letter; '' for a landmark, and for every other word."""
    like = near(word, job.landmarks, 1) if word and " " not in word and word not in job.landmarks else ()
    return like[0] if like and abs(len(like[0]) - len(word)) <= 1 and like[0][0] == word[0] else ""


def misread(job: Job, route: Route, words: str) -> Misread | None:
    """What is wrong with a written place; None for one that can be walked to, and for words that are only shown."""
    try:
        if is_unknown(words) or route.place(words) is not None:
            return None
    except PlaceError as error:
        return Misread(PLC02, Severity.ERROR, f"cannot be found: {error.problem}", error.mend)
    named = [mark for mark in route.landmarks if re.search(rf"(?<![\w-]){re.escape(mark)}(?![\w-])", words)]
    length = _length_text(words)
    if named and length:
        return Misread(
            PLC06,
            Severity.ERROR,
            "does not say from which landmark towards which",
            _how_to_write(route, length, named),
        )
    if length and words.startswith(length):
        mend = "Write it like: 24 in from bulkhead towards nose-split"
        return Misread(PLC01, Severity.ERROR, "is a distance without a landmark", mend)
    if " " not in words and route.landmarks and not _is_part(job, words):
        mend = did_you_mean(
            words, route.landmarks, f"None needed for words; else declare it: landmarks: {{{words}: ...}}"
        )
        return Misread(PLC05, Severity.NOTE, "is no landmark; it is shown as it is written", mend)
    return None


def words_only(job: Job, route: Route, words: str) -> bool:
    """Whether a place is words that nothing can be computed with, and nothing is told of them."""
    if not words or is_unknown(words) or not job.route or misread(job, route, words) is not None:
        return False
    return route.place(words) is None and not _is_part(job, words)


def _length_text(words: str) -> str:
    """The first length among the words, as it is written; '' for none.

    >>> _length_text("about 3 ft 4 in past nose"), _length_text("at the 12 V battery"), _length_text("slot 7 in box")
    ('3 ft 4 in', '', '')
    """
    if length_in(words) is None:
        return ""
    parts = words.split()
    for start in range(len(parts)):
        for end in range(min(len(parts), start + _LONGEST), start, -1):
            text = " ".join(parts[start:end])
            try:
                found = read_length(text) if text[0].isdigit() else None
            except QuantityError:
                continue
            behind = " ".join(parts[end:])
            if text.endswith(" in") and behind and not any(f"{behind} ".startswith(f"{word} ") for word in _GOES_ON):
                continue
            if found is not None and found.mm is not None:
                return text
    return ""


def _how_to_write(route: Route, length: str, named: list[str]) -> str:
    if len(named) > 1:
        return f"Write {length} from {named[0]} towards {named[1]}, or the other way round"
    beside = route.beside(named[0])
    if not beside:
        return f"Write {length} from {named[0]} towards another landmark, and the leg between them under 'route:'"
    return f"Write {length} from {named[0]} towards {' or '.join(beside[:3])}"


def _is_part(job: Job, word: str) -> bool:
    tables = (job.plugs, job.grounds, job.splices, job.modules, job.switches, job.fuses, job.loads)
    return any(word in table for table in tables)


def _of_rows(facts: JobResult) -> Iterator[Finding]:
    """Places of rows in the plan: of those that make a joint the joint is judged, with what its lengths say."""
    joined = {placed.joint.row for placed in facts.joints}
    for row in facts.rows_of(facts.plan):
        if row.where and row.id not in joined and (wrong := misread(facts.job, facts.route, row.where)):
            yield wrong.of("", row.where, row.line_of("where"), row.id)
        if kind_of(row).wraps:
            yield from _of_cover(facts, row)


def _of_cover(facts: JobResult, row: Change) -> Iterator[Finding]:
    """From where to where a wrap runs: places, or ends of wires, which have theirs from their part."""
    for key, words in (("from", row.from_), ("to", row.to)):
        part = words.partition(".")[0]
        if not words or words in facts.plan.nodes or _is_part(facts.job, part) or facts.route.of_end(words) is not None:
            continue
        if wrong := misread(facts.job, facts.route, words):
            yield wrong.of("", words, row.line_of(key), row.id)


def _landmarks(job: Job, route: Route) -> Iterator[Finding]:
    """Landmarks that a leg, a hole or a wire's way names, and that are declared nowhere."""
    for leg in job.route if job.landmarks else ():
        for key, mark in (("from", leg.from_), ("to", leg.to)):
            if mark not in job.landmarks and not close_landmark(job, mark):
                problem = f"the leg from {leg.from_} to {leg.to} ends in '{mark}', which is not declared as a landmark"
                yield _undeclared(route, mark, leg.line_of(key), mark, problem, "")
    for mark, hole in job.holes.items():
        if mark not in route.landmarks:
            yield _undeclared(
                route, mark, hole.at, mark, f"the hole '{mark}' is at no landmark, so nothing is led through it"
            )
    for name, wire in job.wires.items():
        for mark in wire.by:
            if mark not in route.on_legs and not is_unknown(mark):
                known = "no leg of the route ends in it" if mark in job.landmarks else "it is no landmark"
                yield _undeclared(route, mark, wire.line_of("by"), name, f"{name} is led by '{mark}', but {known}")


def _undeclared(
    route: Route, mark: str, at: Location, entry: str, problem: str, and_more: str = ", and its leg under 'route:'"
) -> Finding:
    others = [other for other in route.landmarks if other != mark]
    mend = did_you_mean(mark, others, f"Declare it: landmarks: {{{mark}: what it is}}{and_more}")
    return PLC05(at, entry, problem, mend, rank=Severity.WARNING)
