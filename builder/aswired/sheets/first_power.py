"""First power, fuse by fuse: the order that every sheet keeps to, which go in, and the reading that must come.

Whether a fuse may go in is the ledger's word; what a meter shows is that of the test sheet.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from aswired.car.harness import BATTERY_NEGATIVE
from aswired.car.special import special_wires
from aswired.figures.fuses import FuseSummary
from aswired.figures.probes import NEVER
from aswired.figures.under_power import Powered
from aswired.figures.worked import JobResult
from aswired.ledger.record import FuseLine, MayGoIn, Reason, State
from aswired.ledger.words import reason_words
from aswired.network.states import Needs
from aswired.sheets.circuit_tests import FED_BAND, ON_WITH_IT, StepRow, lead, misled_words, rows_of
from aswired.sheets.fuses import leads_to, rating
from aswired.sheets.ledger_head import Says, head, stays_off
from aswired.sheets.places import Places, places_of_nodes
from aswired.sheets.safety import refusals
from aswired.sheets.text import amount, listing
from aswired.text.unsaid import NOT_RECORDED

# That a lamp or a 5 A breaker stands in for the fuse first is common practice, no source.
CAUTION = (
    "A lamp or a 5 A breaker in place of the fuse first; the fuse when it stays dark or holds. A fuse that feeds "
    "others, as a main fuse does, comes before them: until it is in, a lamp behind it stays dark whatever is wrong."
)
SAFEST = (MayGoIn.YES, MayGoIn.BY_NAME, MayGoIn.OPEN, MayGoIn.NO)
GOES_IN = (MayGoIn.YES, MayGoIn.BY_NAME)
MAY = {
    MayGoIn.YES: "May go in",
    MayGoIn.BY_NAME: "Only on the word of",
    MayGoIn.OPEN: "Leave it out: not all of its wires are proved",
    MayGoIn.NO: "Leave it out: something stands against its wires",
}
STAYS_OUT, NOT_SHOWN, NOTHING_ON_IT = "Stays out", "Not shown", "Feeds nothing on record"
MOST_WHY = 2  # reasons that are told of a fuse; the sheet of wires has them all
KEY_OF = {"always": "any position", "ignition": "ignition", "accessory": "accessory"}


@dataclass(frozen=True)
class FuseIn:
    """A fuse that goes in. `stands` is what a person lets stand of it; `reading` the one that must come before the next
    fuse, `of` the load it is read at ('' = the fuse itself), `waits` what a reading at its load waits for."""

    name: str
    rating: str
    where: str
    may: str
    stands: tuple[str, ...]
    loads: tuple[str, ...]
    leads_to: str
    state: tuple[tuple[str, str], ...]
    of: str
    reading: StepRow
    waits: str = ""


@dataclass(frozen=True)
class FusesOutside:
    """Fuses that do not go in, and why; those of which the same is told under one another."""

    names: tuple[str, ...]
    may: str
    why: tuple[str, ...]


@dataclass(frozen=True)
class BeforeTheFirst:
    """The car with the battery on and every fuse out: what it takes, and what of that is not recorded. `dark`: nothing
    on record takes a current, so that a lamp in its lead stays dark."""

    expected: str
    unknown: str
    dark: bool = False


@dataclass(frozen=True)
class FirstPower:
    """First power of a car. `off` says why the power stays off, in place of all else."""

    off: str
    moment: str = ""  # of which car it is told, where that is not simply the one that stands there
    before: BeforeTheFirst | None = None
    fuses: tuple[FuseIn, ...] = ()
    outside: tuple[FusesOutside, ...] = ()
    none: str = ""  # said where no fuse may go in
    stays_off: str = ""  # why the battery stays off for now, though fuses may go in
    helps: tuple[str, ...] = ()  # what to find out first, where none may


def may_words(line: FuseLine | None) -> str:
    """What the ledger says of putting a fuse in; '' of one that feeds nothing on record."""
    if line is None or not line.feeds:
        return ""
    if line.may is MayGoIn.BY_NAME:
        return f"{MAY[line.may]} {' and '.join(line.by)}"
    return MAY[line.may]


def in_order(worked: JobResult) -> tuple[FuseSummary, ...]:
    """The fuses in use, in the order of first power: those that may go in, those on a person's word, the others; among
    alike a fuse that feeds others before them. None comes before all of those that it is fed through."""
    used = {fuse.name: fuse for fuse in worked.fuses if not fuse.spare and fuse.name in worked.shown.fuses}
    through = {name for fuse in used.values() for name in fuse.feeders}

    def rank(name: str, above: tuple[str, ...] = ()) -> int:
        line = worked.ledger.fuses.get(name)
        own = SAFEST.index(line.may) if line is not None and line.feeds else len(SAFEST)
        feeders = [other for other in used[name].feeders if other in used and other not in (name, *above)]
        return max(own, min((rank(other, (*above, name)) for other in feeders), default=0))

    def late(fuse: FuseSummary) -> tuple[bool, int]:
        """Behind a fuse that others are fed through, or behind which no load is on record, as a main fuse."""
        return bool(fuse.loads) and fuse.name not in through, len(_before(fuse.name, used))

    return tuple(sorted(used.values(), key=lambda fuse: (rank(fuse.name), *late(fuse))))


def _before(name: str, used: Mapping[str, FuseSummary]) -> set[str]:
    """Every fuse on the ways to one."""
    found: set[str] = set()
    todo = [name]
    while todo:
        further = {other for other in used[todo.pop()].feeders if other in used} - found
        found |= further
        todo += further
    return found


def first_power(worked: JobResult, planned: bool = False) -> FirstPower:
    """First power of the car that is shown. `planned`: rows are planned that will change it."""
    if refused := next(iter(refusals(worked)), None):
        return FirstPower(f"{refused.title}. {refused.text}")
    told = head(worked)
    if told.leave_off:
        return FirstPower(told.sentences[0].text)
    found = _Sorted(worked)
    none = ""
    if not any(worked.ledger.fuses[fuse.name].may is MayGoIn.YES for fuse in found.inside):
        none = "No fuse may go in without a person's word." if found.inside else "No fuse may go in yet."
    of_plan = next((s.text for s in told.sentences if s.says is Says.PLANNED), "")
    as_now = "For the car as it is now. What is planned changes it: look again when that is made." if planned else ""
    return FirstPower(
        off="",
        moment=of_plan or as_now,
        before=_before_the_first(worked) if found.inside else None,
        fuses=tuple(found.inside),
        outside=tuple(found.outside),
        none=none,
        stays_off=stays_off(worked.ledger) if found.inside else "",
        helps=told.helps if none else (),
    )


def _before_the_first(worked: JobResult) -> BeforeTheFirst:
    """What the car takes with the battery on, the key off and every fuse out: loads with no fuse before them."""
    off = worked.steps.off
    if off is None:
        return BeforeTheFirst(NOT_RECORDED, "the supply is not recorded")
    traced = [name for name in (*off.live, *off.asleep) if worked.circuits[name].feed.state == "complete"]
    bare = [name for name in traced if not worked.circuits[name].fuses]
    amps = {given.name: given.value for given in off.total.inputs}
    known = [value for name in bare if isinstance(value := amps.get(name), float)]
    takes = [name for name in bare if not isinstance(amps.get(name), float)]
    feeds = [name for name in worked.steps.circuits if worked.circuits[name].feed.state == "not examined"]
    told = (("what feeds", feeds), ("what is taken by", takes))
    unknown = [f"{what} {listing(names)} is not recorded" for what, names in told if names]
    if unknown:
        return BeforeTheFirst(NOT_RECORDED, "; ".join(unknown))
    return BeforeTheFirst(amount(sum(known), "A") if known else "0 A", "", dark=not known)


# ---- which go in ----------------------------------------------------------------------------------------------------
class _Sorted:
    """The fuses that go in, one after the other, and those that do not."""

    def __init__(self, worked: JobResult) -> None:
        self.worked, self.where = worked, places_of_nodes(worked)
        self.inside: list[FuseIn] = []
        outside: dict[tuple[str, tuple[str, ...]], list[str]] = {}
        fuses = in_order(worked)
        self.going = {fuse.name for fuse in fuses if self._goes_in(fuse)}
        done: list[str] = []
        for fuse in fuses:
            if fuse.name not in self.going:
                outside.setdefault(self._outside(fuse), []).append(fuse.name)
                continue
            done.append(fuse.name)
            self.inside.append(self._inside(fuse, done))
        self.outside = [FusesOutside(tuple(names), *told) for told, names in outside.items()]

    def _line(self, fuse: FuseSummary) -> FuseLine | None:
        return self.worked.ledger.fuses.get(fuse.name)

    def _goes_in(self, fuse: FuseSummary) -> bool:
        line = self._line(fuse)
        return line is not None and bool(line.feeds) and line.may in GOES_IN and not never_by(fuse, self.worked)

    def _inside(self, fuse: FuseSummary, done: Collection[str]) -> FuseIn:
        line = self._line(fuse)
        let_stand = _words(line, State.LET_STAND, self.worked) if line is not None else ()
        reading = Reading(fuse, done, self.going, self.worked, self.where)
        return FuseIn(
            name=fuse.name,
            rating=rating(fuse.fuse),
            where=self.where(fuse.name) or NOT_RECORDED,
            may=may_words(line),
            stands=let_stand,
            loads=fuse.loads,
            leads_to=leads_to(fuse, self.worked),
            state=tuple((name, words) for name, words in reading.state if name != ON_WITH_IT),
            of=reading.of,
            reading=reading.row,
            waits=reading.waits,
        )

    def _outside(self, fuse: FuseSummary) -> tuple[str, tuple[str, ...]]:
        line, never = self._line(fuse), never_by(fuse, self.worked)
        if never:
            return STAYS_OUT, (f"It feeds {never}: not by this sheet, no lamp and no breaker",)
        if line is None or not line.feeds:
            return NOTHING_ON_IT, ("No wire that it feeds is on record",)
        if line.may is MayGoIn.NO:
            return STAYS_OUT, _words(line, State.AGAINST, self.worked)
        return NOT_SHOWN, _words(line, State.NOT_SHOWN, self.worked) or ("Its own rating is not recorded",)


def never_by(fuse: FuseSummary, worked: JobResult) -> str:
    """The system for which nobody puts a lamp or a breaker in place of a fuse, told by its loads and by the wires that
    it feeds; '' for none."""
    steps, line, special = worked.steps.circuits, worked.ledger.fuses.get(fuse.name), special_wires(worked.job)
    of_loads = [steps[load].barred for load in fuse.loads if load in steps]
    of_wires = [special.get(wire, "") for wire in (line.feeds if line is not None else ())]
    return next((system for system in (*of_loads, *of_wires) if system in NEVER), "")


def _words(line: FuseLine, state: State, worked: JobResult) -> tuple[str, ...]:
    """What makes a fuse so, the first few; then how many more."""
    told: dict[str, str] = {}
    for at, reason in _reasons(line, state, worked):
        told.setdefault(so := reason_words(reason, worked.job)[0], f"{so} ({at})" if at else so)
    more = len(told) - MOST_WHY
    return (*list(told.values())[:MOST_WHY], *([f"And {more} more"] if more > 0 else ()))


def _reasons(line: FuseLine, state: State, worked: JobResult) -> Iterator[tuple[str, Reason]]:
    """The reasons of one state, each with where it lies beside the fuse's own wires: of the car where that keeps every
    fuse out, then of the wires that a fuse answers for."""
    yield from (("", reason) for reason in worked.ledger.car if reason.state is state and line.answers_to(reason))
    for at, names in (("", line.feeds), ("its way home ", line.returns), ("before it, ", line.before)):
        for name in names:
            account = worked.ledger.accounts.get(name)
            own = [reason for reason in (account.reasons if account is not None else ()) if reason.state is state]
            yield from ((f"{at}{name}" if at else "", reason) for reason in own)


# ---- the reading that must come -------------------------------------------------------------------------------------
@dataclass(frozen=True)
class _AtLoad:
    """A reading at one load of a fuse; `lacks` are the fuses that it waits for, `untold` modules whose feed is not
    recorded."""

    load: str
    row: StepRow
    power: Powered
    state: tuple[tuple[str, str], ...]
    lacks: tuple[str, ...]
    untold: tuple[str, ...]

    @property
    def ready(self) -> bool:
        return not (self.lacks or self.untold)

    @property
    def doubts(self) -> tuple[bool, ...]:
        """The less of them, the better it shows that the fuse feeds what it should."""
        return (not self.ready, bool(self.row.unknown), self.power.comes_on is not True, bool(self.row.misleads))


class Reading:
    """The reading that shows one fuse, with those that are in before it: at a load that needs no other fuse, else at
    the load leg of the fuse itself."""

    def __init__(
        self, fuse: FuseSummary, done: Collection[str], going: Collection[str], worked: JobResult, where: Places
    ) -> None:
        self.fuse, self.done, self.going, self.worked, self.where = fuse, done, going, worked, where
        best = min(self._at_loads(), key=lambda one: one.doubts, default=None)
        if best is not None and best.ready and not best.row.unknown:
            self.of, self.row, self.state, self.waits = best.load, best.row, best.state, ""
            return
        before = fuse.feeders if not any(other in done for other in fuse.feeders) else ()
        self.of, key = "", self._live(fuse.name)
        self.row = self._at_itself(bool(key), bool(before))
        self.state = (("Key", key),) if key else ()
        dark = f"Dark: {listing(before)} before it {'is' if len(before) == 1 else 'are'} out." if before else ""
        self.waits = " ".join(filter(None, (dark, self._waits(best) if best is not None else "")))

    def _at_loads(self) -> Iterator[_AtLoad]:
        for load in self.fuse.loads:
            found = self.worked.steps.circuits.get(load)
            power = found.powered if found is not None else None
            if found is None or power is None or power.needs is None or found.barred:
                continue
            at = next((index for index, test in enumerate(power.volts) if test.kind == "load"), None)
            if at is not None:
                tests = rows_of(found, self.worked, self.where)
                yield _AtLoad(load, tests.live[at], power, tests.state, *self._wanting(load, power.needs))

    def _wanting(self, load: str, needs: Needs) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """The fuses that a load, the coils of its relays and the modules that feed it need and that are not in, and the
        modules of which it is not recorded what feeds them."""
        circuits, grid = self.worked.circuits, self.worked.network.grid
        on = [load, *(grid.contacts[contact] for contact in needs.relays)]
        modules = [node.partition(".")[0] for node in needs.sources if grid.sources[node] == "module"]
        untold = []
        for module in modules:
            own = [name for name in grid.loads if circuits[name].feed_end.partition(".")[0] == module]
            fed = [name for name in own if circuits[name].feed.state == "complete"]
            on += fed
            untold += [module] if not fed else []
        fuses = dict.fromkeys(fuse for name in on for fuse in circuits[name].fuses if fuse not in self.done)
        return tuple(fuses), tuple(dict.fromkeys(untold))

    def _waits(self, best: _AtLoad) -> str:
        if best.ready:
            return f"What {best.load} should read is not known: {best.row.unknown}."
        told = [f"what feeds {module} is not recorded" for module in best.untold]
        told += [f"{name} {'is not in yet' if name in self.going else 'does not go in'}" for name in best.lacks]
        return f"Not yet at {best.load}: {'; '.join(told)}."

    def _at_itself(self, told: bool, dark: bool) -> StepRow:
        """Battery volts at the load leg; nothing is expected of a fuse that none before it feeds yet. `told`: when it
        is live is recorded."""
        name = self.fuse.name
        comes = told and not dark
        return StepRow(
            what="",
            red=replace(lead(name, self.worked, self.where), where=""),  # the place of the fuse stands beside it
            black=lead(BATTERY_NEGATIVE, self.worked, self.where),
            how="",
            expected="battery volts" if comes else "",
            band=FED_BAND if comes else "",
            unknown="" if told or dark else f"when the feed of {name} is live is not recorded",
            misleads=misled_words(self.worked.misleading.isolated),
        )

    def _live(self, name: str, above: tuple[str, ...] = ()) -> str:
        """The position of the key that makes a fuse live; '' where that is not recorded."""
        if key := KEY_OF.get(self.worked.misleading.position(name), ""):
            return key
        fuses = {fuse.name: fuse for fuse in self.worked.fuses}
        feeders = [other for other in fuses[name].feeders if other in self.done and other not in above]
        return self._live(feeders[0], (*above, name)) if feeders else ""
