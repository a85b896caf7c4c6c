"""What the ledger says: of each line of conductor, each wire, each fuse and the car as a whole. Plain frozen facts.

A line is one stretch of the as-built harness, or the cable of one ground point. It is proved only when every question
about it is answered by what is written; a reason stands for each question that is not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import IntEnum, StrEnum
from functools import cached_property
from typing import NamedTuple

from aswired.text.diagnostics import Location


class State(StrEnum):
    """What the record shows of a line, heaviest last in `HEAVIEST`."""

    PROVED = "proved"
    LET_STAND = "let stand"
    NOT_SHOWN = "not shown"
    AGAINST = "against"


BODY = "body strap"  # what reasons of the body's own way home stand at
HEAVIEST = (State.PROVED, State.LET_STAND, State.NOT_SHOWN, State.AGAINST)


class Weight(IntEnum):
    """What a reason does: a smaller number is heavier."""

    NEVER = 0  # recorded facts speak against the line, and nobody may let it stand
    BY_NAME = 1  # recorded facts speak against it; a named person may let it stand
    MISSING = 2  # a fact is missing


class Why(StrEnum):
    """What a reason is about. The words for it are made where it is printed."""

    # what may flow
    FEED = "more can come through its fuses than it may carry"
    BEHIND = "a fuse behind it lets through more than it may carry"
    SHORTED_LOAD = "a load that fails shorted sends home more than it may carry"
    SHORTED_BESIDE = "a load that fails shorted beside others that are on makes it carry more than it may at the most"
    ASKED = "its loads take more through it than it may carry"
    STARTER = "a starter takes more through it than a starter's cable may carry"
    UNFUSED_LONG = "too long with nothing before it"
    UNFUSED_LOAD = "a load hangs on it with nothing before it"
    UNFUSED_NOWHERE = "nothing before it, and it leads to nothing"
    LINK_LONG = "a fusible link that is too long"
    BRIDGED = "joins both sides of a fuse"
    SHORT = "joins a feed to ground"
    TWO_KEYS = "joins feeds of two positions of the key"
    DATA = "a feed reaches a cavity that carries data"
    HEAT = "insulation below the heat of its way"
    # how it ends
    BARE = "an end is left open"
    TAPED = "a live end is under tape only"
    BARE_JOINT = "a joint is bare"
    PART_GONE = "ends in a part that left the car"
    DELETED_LOAD = "live in the plug of a deleted load"
    # what is declared
    RESTRAINT = "work on a restraint system"
    HIGH_VOLTAGE = "work on high voltage"
    SIXTY_VOLTS = "more than 60 V"
    SYSTEM = "a system that is declared changed, or high voltage in the car"
    CONTRADICTED = "what is declared of a system and what the record shows of it differ"
    OTHER_VOLTS = "a load made for other volts"
    # what is missing
    SIZE = "size"
    RATING = "rating of a fuse"
    OUTPUT = "what an output is guarded to"
    LENGTH = "length with nothing before it"
    LENGTH_OF_LINK = "length of a fusible link"
    CURRENT = "current of a load"
    DIVIDES = "how current divides between two ways home"
    FEED_OF = "what feeds a load"
    POSITION = "when a feed is live"
    INSULATION = "insulation in a hot leg"
    METAL = "what a conductor is made of"
    LEG_HEAT = "how hot a leg gets"
    NO_END = "where it ends"
    NO_FATE = "how an end was left"
    MEMBERS = "other members of a splice"
    NOTHING_BEHIND = "what is behind a cavity"
    NOT_LISTED = "what a module does with a cavity"
    NO_COVER = "cover of a joint"
    NOT_SEALED = "whether a row was sealed"
    NO_TABLE = "a name that stands in no table"
    WAY_BACK = "way back of a ground point"
    CABLE = "size of a ground point's cable"
    CALLED_SO = "whether it belongs to a system that its words name"
    # of the car alone
    VOLTS = "volts of the car"
    POLE = "pole on the body"
    DECLARED = "what became of a system"
    DECLARED_BY = "who declares the systems"
    BODY = "the body's way to the battery"
    ROW = "a row that is refused or undecided"
    OPTION = "an option of this car"


@dataclass(frozen=True)
class Reason:
    """Why a line is not proved.

    `of` is the thing that the reason stands at (a fuse, an end, a load, a module's cavity, a row, a wire) and `key` the
    key of the format that would answer it. `amps` is what may come and `carries` what the line may carry [A]; of a
    length `mm` and `most_mm` [mm]; of heat `celsius` and `most_celsius` [C]. `by` names what brings it.
    """

    why: Why
    weight: Weight
    of: str
    at: Location
    key: str = ""
    amps: float | None = None
    carries: float | None = None
    mm: float | None = None
    most_mm: float | None = None
    celsius: float | None = None
    most_celsius: float | None = None
    by: tuple[str, ...] = ()
    let_stand_by: str = ""
    let_stand_why: str = ""

    @property
    def state(self) -> State:
        """What it makes of a line."""
        if self.weight is Weight.MISSING:
            return State.NOT_SHOWN
        return State.LET_STAND if self.let_stand_by else State.AGAINST


@dataclass(frozen=True)
class HotLeg:
    """The hottest leg that a stretch or a cable is recorded to run through, how hot it gets [°C] and its name, `box to
    nose`."""

    celsius: float
    leg: str


@dataclass(frozen=True)
class UnreadHeat:
    """Why it is not known how hot a stretch or a cable gets: `leg` is 'box to nose'. `celsius` is None where the heat
    of that leg is written as unknown; else another piece of the same wire may run through it instead [°C]."""

    leg: str
    at: Location
    celsius: float | None = None


@dataclass(frozen=True)
class Amperes:
    """Amperes that a line may have to carry. `least` counts what is recorded alone; `most` takes what is not recorded
    as without limit. `by` are the fuses, outputs or loads that limit or bring it."""

    least: float = 0.0
    most: float = 0.0
    by: tuple[str, ...] = ()


@dataclass(frozen=True)
class Line:
    """One length of conductor.

    `index` is its place in the view's stretches; None for a ground point's cable. `planned` and `bound` are what it may
    carry by the planning table and at the most [A], None where that is not known. `push` is what its fuses let through
    for good; without limit where nothing stands before it, and `unfused_mm` is then how far its far end lies from the
    source. `shorted` is what comes home if one load behind it fails shorted; `asked` what its loads take through it.
    `later` are facts that will be missing as soon as those of `reasons` are written, as far as that can be told.
    """

    wire: str  # or the ground point
    name: str  # 'W31 from FS4 to C14-W31-loom', 'L1 to battery-'
    index: int | None
    planned: float | None
    bound: float | None
    push: Amperes
    shorted: Amperes
    asked: Amperes
    unfused_mm: float | None
    live: bool
    reasons: tuple[Reason, ...] = ()
    later: tuple[Reason, ...] = ()

    @property
    def state(self) -> State:
        """The heaviest state that a reason makes of it."""
        return worst(reason.state for reason in self.reasons)


@dataclass(frozen=True)
class Account:
    """A wire, or a ground point, with all its lines; the worst of them counts."""

    name: str
    lines: tuple[Line, ...]
    ground: bool = False

    @property
    def state(self) -> State:
        return worst(line.state for line in self.lines)

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Each reason once, in the order of its lines."""
        return tuple(dict.fromkeys(reason for line in self.lines for reason in line.reasons))

    @property
    def later(self) -> tuple[Reason, ...]:
        """What will be missing as soon as its reasons are answered, each once."""
        return tuple(dict.fromkeys(reason for line in self.lines for reason in line.later))


class MayGoIn(StrEnum):
    """Whether a fuse may go in."""

    YES = "may go in"
    BY_NAME = "on a person's word"
    OPEN = "not yet"
    NO = "stays out"


_MAY = {
    State.PROVED: MayGoIn.YES,
    State.LET_STAND: MayGoIn.BY_NAME,
    State.NOT_SHOWN: MayGoIn.OPEN,
    State.AGAINST: MayGoIn.NO,
}


@dataclass(frozen=True)
class FuseLine:
    """A fuse: what it feeds, and whether it may go in.

    `feeds` are the wires on its load side up to the next fuse, `returns` those by which its loads go home, `before`
    those between it and the battery; `by` who let something of them stand.
    """

    name: str
    may: MayGoIn
    feeds: tuple[str, ...]
    returns: tuple[str, ...]
    before: tuple[str, ...]
    by: tuple[str, ...] = ()
    rated: bool = True  # its own rating is recorded
    by_body: bool = False  # loads of it come home through the body

    def judged(self, accounts: Mapping[str, Account], car: Iterable[Reason]) -> FuseLine:
        """The same fuse by the state of its wires and of the car as a whole."""
        own = [accounts[name] for name in (*self.feeds, *self.returns, *self.before) if name in accounts]
        of_car = [reason for reason in car if self.answers_to(reason)]
        state = worst([*(reason.state for reason in of_car), *(account.state for account in own)])
        reasons = [*of_car, *(reason for account in own for reason in account.reasons)]
        by = {reason.let_stand_by for reason in reasons if reason.let_stand_by}
        may = _MAY[state] if self.rated or state is not State.PROVED else MayGoIn.OPEN
        return replace(self, may=may, by=tuple(sorted(by)))

    def answers_to(self, reason: Reason) -> bool:
        """Whether a reason of the car counts for this fuse: what stands against the whole car for every one, the body's
        way home for those whose loads come home by it. What is not written of the car is asked of the car alone."""
        return self.by_body if reason.of == BODY else reason.weight is not Weight.MISSING


class Asked(NamedTuple):
    """A fact that is not written: what kind it is of, the thing it is of, the key that would answer it."""

    why: Why
    of: str
    key: str


@dataclass(frozen=True)
class Fact:
    """Something that is not written, with the wires that wait for it; `frees` are those that wait for nothing else, nor
    will as soon as it is written."""

    why: Why
    of: str
    key: str
    at: Location
    wires: tuple[str, ...]
    frees: tuple[str, ...]


@dataclass(frozen=True)
class Ledger:
    """What is shown of the copper of one view. `car` are reasons of the car as a whole; `planned` are rows of it that
    nobody made so far: then it is not the car that stands there."""

    accounts: Mapping[str, Account] = field(default_factory=dict)
    fuses: Mapping[str, FuseLine] = field(default_factory=dict)
    car: tuple[Reason, ...] = ()
    planned: tuple[str, ...] = ()

    def count(self, state: State) -> int:
        """How many wires and ground points have a state."""
        return sum(account.state is state for account in self.accounts.values())

    def having(self, state: State) -> tuple[Account, ...]:
        """Those that have it, in the order of the record."""
        return tuple(account for account in self.accounts.values() if account.state is state)

    @cached_property
    def reasons(self) -> tuple[Reason, ...]:
        """Every reason once: the car's, then those of the lines."""
        own = (reason for account in self.accounts.values() for reason in account.reasons)
        return tuple(dict.fromkeys((*self.car, *own)))

    @property
    def never(self) -> tuple[Reason, ...]:
        """What stands against the car and may not be let stand."""
        return tuple(reason for reason in self.reasons if reason.weight is Weight.NEVER)

    @property
    def by_name(self) -> tuple[Reason, ...]:
        """What stands against it until a named person lets it stand."""
        return tuple(r for r in self.reasons if r.weight is Weight.BY_NAME and not r.let_stand_by)

    @cached_property
    def needs(self) -> Mapping[str, tuple[Asked, ...]]:
        """Wire or ground point that facts alone may prove -> all that has to be written for it, what will be asked next
        too."""
        return {
            account.name: tuple(dict.fromkeys(asked for reason in _missing(account) for asked in self._answers(reason)))
            for account in self.having(State.NOT_SHOWN)
            if all(reason.weight is Weight.MISSING for reason in account.reasons)
        }

    def _answers(self, reason: Reason) -> tuple[Asked, ...]:
        """What answers a reason: of a load whose feed is not on record the ends at which the record of it stops, since
        who follows those wires finds the feed."""
        if reason.why is Why.FEED_OF:
            wires = [self.accounts[name] for name in reason.by if name in self.accounts]
            ends = [_asked(r) for wire in wires for r in wire.reasons if r.why in (Why.NO_END, Why.MEMBERS)]
            return tuple(ends) or (_asked(reason),)
        return (_asked(reason),)

    @cached_property
    def facts(self) -> tuple[Fact, ...]:
        """What is not written, that which frees most wires first."""
        waits: dict[Asked, list[str]] = {}
        at: dict[Asked, Location] = {}
        for account in self.accounts.values():
            asks = {_asked(r): r for r in account.reasons if r.weight is Weight.MISSING}
            for asked, reason in asks.items():
                waits.setdefault(asked, []).append(account.name)
                at.setdefault(asked, reason.at)
        for reason in self.car:
            if reason.weight is Weight.MISSING:
                waits.setdefault(_asked(reason), [])
                at.setdefault(_asked(reason), reason.at)
        alone: dict[Asked, list[str]] = {}
        for name, needs in self.needs.items():
            if len(needs) == 1:
                alone.setdefault(needs[0], []).append(name)
        found = [Fact(*asked, at[asked], tuple(wires), tuple(alone.get(asked, ()))) for asked, wires in waits.items()]
        return tuple(sorted(found, key=lambda fact: (-len(fact.frees), -len(fact.wires))))

    def let_stand(self, who: Callable[[Reason], tuple[str, str] | None]) -> Ledger:
        """The same ledger with what people let stand. `who` tells of a reason by whom, and why; None where nobody does.
        What nobody may let stand is not asked of."""

        def settled(reason: Reason) -> Reason:
            found = who(reason) if reason.weight is Weight.BY_NAME else None
            return replace(reason, let_stand_by=found[0], let_stand_why=found[1]) if found is not None else reason

        def account(old: Account) -> Account:
            lines = (replace(line, reasons=tuple(map(settled, line.reasons))) for line in old.lines)
            return replace(old, lines=tuple(lines))

        accounts = {name: account(old) for name, old in self.accounts.items()}
        car = tuple(map(settled, self.car))
        return replace(
            self, accounts=accounts, car=car, fuses={n: f.judged(accounts, car) for n, f in self.fuses.items()}
        )

    def let_stand_as(self, other: Ledger) -> Ledger:
        """The same ledger with what a person lets stand in another ledger of the job."""
        by = {_asked(r): (r.let_stand_by, r.let_stand_why) for r in other.reasons if r.let_stand_by}
        return self.let_stand(lambda reason: by.get(_asked(reason)))

    @property
    def clean(self) -> bool:
        """Whether every line of the car as it stands is proved or let stand, and nothing is open of it as a whole."""
        settled = all(account.state in (State.PROVED, State.LET_STAND) for account in self.accounts.values())
        return (
            bool(self.accounts)
            and not self.planned
            and settled
            and all(reason.state is State.LET_STAND for reason in self.car)
        )


def _asked(reason: Reason) -> Asked:
    return Asked(reason.why, reason.of, reason.key)


def _missing(account: Account) -> tuple[Reason, ...]:
    """What is not written of an account, and what will be asked next."""
    return tuple(reason for reason in (*account.reasons, *account.later) if reason.weight is Weight.MISSING)


def worst(states: Iterable[State]) -> State:
    """The heaviest of states; proved where there is none."""
    return max(states, key=HEAVIEST.index, default=State.PROVED)
