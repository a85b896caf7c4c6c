"""The drop of a circuit as rows: its states, what it is held to, light that is lost, and where the volts go."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from aswired.car.circuits import CircuitFigures, Drops, Element
from aswired.figures.drops_allowed import share_of
from aswired.physics.figure import Figure
from aswired.record import Job
from aswired.sheets.not_computed import wanting
from aswired.sheets.text import Printed, amount, count, number, printed, size
from aswired.text.unsaid import NOT_JUDGED

JUDGED: dict[bool | None, str] = {True: "within", False: "over", None: NOT_JUDGED}
TOLD_FROM = 0.02  # of the whole drop: smaller splices, cavities and rings stand in one line
LEAST_MV = 0.05  # less would be printed as 0.0
JOINS = {  # as a figure names it: here
    "joint": "splice",
    "half the joint": "half of the splice",
    "ring on": "ring",
    "cable ring on": "ring of a cable",
}


@dataclass(frozen=True)
class DropRow:
    """Expected drops in one state; `light` is what they cost a filament lamp, '' where that is not told."""

    state: str
    feed: Printed
    back: Printed
    whole: Printed
    light: Printed


@dataclass(frozen=True)
class LimitRow:
    """One rule: what it allows, what is there, and whether it `judges` this job or stands beside for comparison."""

    rule: str
    allows: Printed  # the volts, or why there are none
    known: bool
    there: Printed
    verdict: str
    bad: bool
    judges: bool


@dataclass(frozen=True)
class ElementRow:
    """A thing on the way. The parts are of the widest bar of the circuit, in percent: alone, and with all loads on."""

    id: str  # the wire, splice, fuse ... that it leads to; '' for the line of small things
    what: str
    mohm: str
    amps: str
    alone: str
    together: str
    alone_part: float
    together_part: float


@dataclass(frozen=True)
class DropSheet:
    """All that is told of the drop of one load. `on` says what `all loads on` means here, where that is not plain."""

    rows: tuple[DropRow, ...]
    limits: tuple[LimitRow, ...]
    on: str
    no_light: str  # why the light is not told of; '' when it is, or when it is no lamp
    donor: Printed
    worse: bool
    wanting: str
    feed: tuple[ElementRow, ...]
    back: tuple[ElementRow, ...]


def drop_sheet(figures: CircuitFigures, job: Job) -> DropSheet:
    """The drop of one kept load."""
    lamp, both = figures.lamp, (*figures.feed_elements, *figures.return_elements)
    widest = max(
        (abs(volts) for element in both for volts in (element.alone_v, element.together_v) if volts), default=0
    )
    small = TOLD_FROM * (figures.together.whole.value or 0.0)
    donor, worse = _donor(figures, job)
    return DropSheet(
        rows=tuple(_rows(figures)),
        limits=tuple(_limits(figures, job)),
        on=f"Never on with it: {', '.join(sorted(figures.never_with))}." if figures.never_with else "",
        no_light=f"Light lost: not computed, {lamp.dark}." if lamp is not None and lamp.dark else "",
        donor=donor,
        worse=worse,
        wanting=wanting(figures),
        feed=tuple(_elements(figures.feed_elements, widest, small, job)),
        back=tuple(_elements(figures.return_elements, widest, small, job)),
    )


def rule_of(load: str, job: Job) -> str:
    """The rule that a load is held to, in few words: `3 %`, `AC 43.13-1B, continuous`."""
    declared = job.loads[load]
    if job.drops_held_to == "AC 43.13-1B":
        return f"AC 43.13-1B, {'duty not recorded' if declared.duty == 'unknown' else declared.duty}"
    return share_of(job.loads[load])


def in_short(figures: CircuitFigures, job: Job) -> Printed:
    """One line for the record, in front of the verdict: `drop 0.39 V of 0.40 V allowed (3 %)`; '' while not known."""
    drop, limit = figures.together.whole, figures.limit
    if drop.value is None:
        return Printed("")
    if limit.value is None:
        return Printed(f"drop {printed(drop)}, no limit", drop.key)
    allowed = f"{printed(limit)} allowed ({rule_of(figures.load, job)})"
    return Printed(f"drop {printed(drop)} of {allowed}", drop.key, limit.key)


def resistances(figures: CircuitFigures) -> Printed:
    """`35.3 mΩ feed, 21.7 mΩ return`."""
    feed, back = figures.feed_resistance, figures.return_resistance
    if not (feed.known and back.known):
        return Printed("")
    return Printed(f"{printed(feed)} feed, {printed(back)} return", feed.key, back.key)


def beside(figures: CircuitFigures, job: Job) -> tuple[Printed, ...]:
    """What is wrong beside the drop with all loads on, for a list: `0.12 V worse than in the donor`."""
    found = []
    if figures.worse is not None and _is_worse(figures, job):
        side = f"{figures.worse_of} " if figures.worse_of else ""
        found.append(Printed(f"{side}{printed(figures.worse)} worse than in the donor", figures.worse.key))
    lamp = figures.lamp
    if lamp is not None and lamp.ok is False:
        told = f"{printed(lamp.socket)} at the lamp, {printed(lamp.least)} is the least"
        found.append(Printed(told, lamp.socket.key, lamp.least.key))
    return tuple(found)


# ---- states ---------------------------------------------------------------------------------------------------------
def _rows(figures: CircuitFigures) -> Iterable[DropRow]:
    lamp = figures.lamp
    yield _row("alone", figures.alone, lamp.lost_alone if lamp else None)
    if figures.switched is not None:
        yield _row("as it is switched on", figures.switched)
    yield _row("all loads on", figures.together, lamp.lost_together if lamp else None)
    yield _row("at worst", figures.worst)
    if figures.donor is not None:
        yield _row("in the donor, alone", figures.donor)


def _row(state: str, drops: Drops, light: Figure | None = None) -> DropRow:
    feed, back, whole = (printed(figure) for figure in (drops.feed, drops.back, drops.whole))
    return DropRow(state, feed, back, whole, printed(light) if light is not None else Printed(""))


def _is_worse(figures: CircuitFigures, job: Job) -> bool:
    value = figures.worse.value if figures.worse is not None else None
    return value is not None and value > job.limits_in_force["worse by"].value


def _donor(figures: CircuitFigures, job: Job) -> tuple[Printed, bool]:
    """How the drop alone stands to that in the donor, and whether more is lost than is let pass."""
    found = figures.worse
    if found is None or found.value is None:
        return Printed(""), False
    limit, worse = amount(job.limits_in_force["worse by"].value, "V"), _is_worse(figures, job)
    what = f"its {figures.worse_of}" if figures.worse_of else "it"
    if found.value <= 0:
        return Printed(f"Alone {what} loses no more than in the donor."), False
    told = f"Alone {what} loses {printed(found)} more than in the donor; {limit} more is let pass."
    return Printed(told, found.key), worse


# ---- limits ---------------------------------------------------------------------------------------------------------
def _limits(figures: CircuitFigures, job: Job) -> Iterable[LimitRow]:
    drop, load = figures.together.whole, figures.load
    duty = job.loads[load].duty
    names = (f"{share_of(job.loads[load])} of the supply", f"AC 43.13-1B, {'duty' if duty == 'unknown' else duty}")
    for name, rule in zip(names, figures.rules, strict=False):
        judges = rule.rule == figures.limit.rule
        ok = None if drop.value is None or rule.value is None else drop.value <= rule.value
        allows = printed(rule) if rule.known else Printed(_why(rule), rule.key)
        yield LimitRow(name, allows, rule.known, printed(drop), JUDGED[ok], judges and ok is False, judges)
    lamp = figures.lamp
    if lamp is not None and not lamp.dark:
        least = Printed(f"least {printed(lamp.least)}" if lamp.least.known else _why(lamp.least), lamp.least.key)
        verdict = {True: "within", False: "low", None: NOT_JUDGED}[lamp.ok]
        share = f"lamp socket, {job.limits_in_force['lamp volts'].value:g} % of its design voltage"
        yield LimitRow(share, least, lamp.least.known, printed(lamp.socket), verdict, lamp.ok is False, True)


def _why(rule: Figure) -> str:
    """Why a rule allows nothing here: `duty not recorded`, `no row for 6 V`."""
    return "; ".join(missing.reason for missing in rule.missing)


# ---- elements -------------------------------------------------------------------------------------------------------
def _elements(found: Sequence[Element], widest: float, small_v: float, job: Job) -> Iterable[ElementRow]:
    """The things of one side in the order of the current; what joins them and costs next to nothing last, in a line."""
    few = [element for element in found if _is_small(element, small_v)]
    gathered = few if len(few) > 1 else []
    for element in found:
        if element not in gathered:
            yield _element(_id(element), _what(element, job), [element], element.amps, widest)
    if gathered:
        yield _element("", count(len(gathered), "small place", "small places") + " on the way", gathered, None, widest)


def _is_small(element: Element, small_v: float) -> bool:
    volts = element.together_v
    return element.kind == "join" and volts is not None and abs(volts) < small_v


def _element(id: str, what: str, all_of: Sequence[Element], amps: float | None, widest: float) -> ElementRow:
    mohm, alone, together = (
        None if None in values else sum(value for value in values if value is not None)
        for values in (
            [element.mohm for element in all_of],
            [element.alone_v for element in all_of],
            [element.together_v for element in all_of],
        )
    )
    one = len(all_of) == 1
    return ElementRow(
        id,
        what,
        number(mohm, "mohm"),
        number(amps, "A") if one else "",
        _millivolts(alone),
        _millivolts(together),
        _part(alone, widest),
        _part(together, widest),
    )


def _part(volts: float | None, widest: float) -> float:
    return round(100 * abs(volts) / widest, 1) if volts is not None and widest else 0.0


def _millivolts(volts: float | None) -> str:
    if volts is not None and 0 < abs(volts) * 1000 < LEAST_MV:
        return "under 0.1"
    return number(None if volts is None else volts * 1000, "mV")


def _id(element: Element) -> str:
    if element.stretch is not None:
        return element.stretch.wire
    if element.kind == "join":
        return element.at
    return element.name.partition(" ")[2] if element.kind in ("fuse", "switch") else ""


def _what(element: Element, job: Job) -> str:
    if element.stretch is not None:
        return f"{size(element.stretch.size)}, {amount(element.stretch.effective_mm, 'mm', job.units)}"
    if element.kind == "join":
        words = element.name.removesuffix(element.at).strip()
        return JOINS.get(words, words)
    return element.kind if _id(element) else element.name
