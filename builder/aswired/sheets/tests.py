"""The test sheet as rows: what is measured on a car, in the order in which it is put under power."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, replace

from aswired.car.harness import BATTERY_NEGATIVE
from aswired.figures.key_off import AT_A, FuseMillivolts
from aswired.figures.tests import CircuitSteps, JobSteps
from aswired.figures.worked import JobResult
from aswired.sheets.circuit_tests import FED, ON_WITH_IT, CircuitTests, Lead, StepRow, rows_of, unknown_words
from aswired.sheets.first_power import CAUTION, in_order, may_words, never_by
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.fuses import leads_to, live_when, rating
from aswired.sheets.ledger_head import head, stays_off
from aswired.sheets.places import Places, places_of_nodes
from aswired.sheets.safety import Caution, refusals
from aswired.sheets.text import amount, listing, number, printed, source_text
from aswired.text.units import natural
from aswired.text.unsaid import NOT_RECORDED

# Workshop rules as repair manuals state them, in our own words.
CAUTIONS = (
    "Battery negative off and insulated before any ohms are read.",
    "No test lamp and no ohmmeter into a module or a sensor: unplug it, then measure the wire.",
    "Meter on fuse legs, connector backs, studs and posts only. Never pierce insulation.",
    "Restraint and high-voltage wires are not measured by this sheet, not with an ohmmeter and not with a lamp.",
    "Local rules, the vehicle maker's procedure and licensed practice come first.",
)


@dataclass(frozen=True)
class BeforeRow:
    """A step before power, and the loads whose circuits it is a step of."""

    loads: tuple[str, ...]
    step: StepRow


@dataclass(frozen=True)
class CircuitOnSheet:
    """A circuit on the sheet: `tests` without what stands under an earlier load, which `under` names with how many.

    `start` is the point at which a dead circuit is begun.
    """

    tests: CircuitTests
    start: str
    under: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class FirstPowerFuse:
    """First power: one fuse. `never` names the system for which nobody puts a lamp or a breaker in its place."""

    name: str
    rating: str
    where: str
    live: str  # when its feed is live
    loads: tuple[str, ...]
    leads_to: str  # where its wire ends, of one with no load of the list behind it
    never: str = ""
    may: str = ""  # what the ledger says of putting it in


@dataclass(frozen=True)
class MillivoltRow:
    """What a millivolt across a fuse says. `at`: millivolts at each of the currents of the head."""

    name: str
    rating: str
    mohm: str
    source: str
    at: tuple[str, ...]


@dataclass(frozen=True)
class KeyOffText:
    """The car with the key out."""

    expected: str
    limit: str
    unknown: str
    on: tuple[tuple[str, str], ...]  # loads that are on for good by the record, with their current
    asleep: tuple[str, ...]


@dataclass(frozen=True)
class SheetOfTests:
    """Sheet 17. `refusals` stand in place of everything else."""

    refusals: tuple[Caution, ...]
    cautions: tuple[str, ...] = ()
    before: tuple[BeforeRow, ...] = ()
    no_way: tuple[str, ...] = ()  # loads without a way that is on record from end to end
    refused: tuple[tuple[str, str], ...] = ()  # loads without a single step, and why
    always: tuple[str, ...] = ()  # loads that are on whichever load is measured
    circuits: tuple[CircuitOnSheet, ...] = ()
    post: str = ""  # where the lead on battery- goes before power, '' for no such step
    points: tuple[tuple[str, tuple[str, ...]], ...] = ()  # what and where points of the leads are, and which they are
    fuses: tuple[FirstPowerFuse, ...] = ()
    off: KeyOffText | None = None
    millivolts: tuple[MillivoltRow, ...] = ()
    at: tuple[str, ...] = ()  # currents of the head of that table
    how: str = ""


def circuit_tests(load: str, worked: JobResult) -> CircuitTests | None:
    """The steps of one load; None for one that is not kept, and where a refusal stands over the whole car."""
    if load not in worked.job.kept_loads or any(refusals(worked)):
        return None
    return rows_of(worked.steps.circuits[load], worked, places_of_nodes(worked))


def sheet_of_tests(worked: JobResult) -> SheetOfTests:
    """The whole of a job, in the order in which it is put under power."""
    refused = tuple(refusals(worked))
    if refused:
        return SheetOfTests(refused)
    steps, where = worked.steps, places_of_nodes(worked)
    all_of = [(found, rows_of(found, worked, where)) for found in steps.circuits.values()]
    open_to_all = [tests for _, tests in all_of if not tests.refused]
    always = _always_on(steps)
    return SheetOfTests(
        refusals=(),
        cautions=CAUTIONS,
        before=tuple(_before(open_to_all)),
        no_way=tuple(tests.load for tests in open_to_all if not tests.before),
        refused=tuple((tests.load, tests.refused) for _, tests in all_of if tests.refused),
        always=always,
        circuits=tuple(_once(((found, tests) for found, tests in all_of if not tests.refused), always)),
        post=next(
            (lead.what for tests in open_to_all for lead in _leads(tests.before) if lead.id == BATTERY_NEGATIVE), ""
        ),
        points=tuple(_points(open_to_all)),
        fuses=tuple(_fuse_rows(worked, where)),
        off=_key_off(steps),
        millivolts=tuple(_millivolt_row(row) for row in steps.millivolts),
        at=tuple(f"{number(amps * 1000, 'mA')} mA" for amps in AT_A),
        how=steps.how,
    )


# ---- each step once -------------------------------------------------------------------------------------------------
def _before(circuits: Iterable[CircuitTests]) -> Iterable[BeforeRow]:
    found: dict[StepRow, list[str]] = {}
    for tests in circuits:
        for step in tests.before:
            found.setdefault(step, []).append(tests.load)
    return (BeforeRow(tuple(loads), step) for step, loads in found.items())


def _always_on(steps: JobSteps) -> tuple[str, ...]:
    """Loads that come on with every other one that is measured, in the order of the job."""
    powers = {name: found.powered for name, found in steps.circuits.items()}
    on = [{name, *power.with_it} for name, power in powers.items() if power is not None and power.volts]
    return tuple(name for name in powers if len(on) > 1 and all(name in names for names in on))


def _once(circuits: Iterable[tuple[CircuitSteps, CircuitTests]], always: tuple[str, ...]) -> Iterable[CircuitOnSheet]:
    """Steps with the leads on the same points in the same state of the car stand under the first load they are of.

    Whether the feed of a fuse is live is asked once, whatever hangs on it.
    """
    told: dict[Hashable, str] = {}
    for steps, tests in circuits:
        state, live, under = _state_of(steps), list[StepRow](), dict[str, int]()
        for step in tests.live:
            black = step.black.id if step.black is not None else ""
            leads = (step.what, step.red.id, black, step.expected, step.band, step.unknown, step.only, step.misleads)
            first = told.setdefault((leads, "" if step.what == FED else state), tests.load)
            if first == tests.load:
                live.append(step)
            else:
                under[first] = under.get(first, 0) + 1
        tests = replace(tests, live=tuple(live), state=tuple(_state_on_sheet(steps, tests, always)))
        yield CircuitOnSheet(tests, tests.start.partition(",")[0], tuple(under.items()))


def _state_on_sheet(steps: CircuitSteps, tests: CircuitTests, always: tuple[str, ...]) -> Iterable[tuple[str, str]]:
    """The state of a circuit without the loads that are on with every one."""
    for name, words in tests.state:
        if name != ON_WITH_IT or steps.powered is None or not always:
            yield name, words
        elif rest := [load for load in steps.powered.with_it if load not in always]:
            yield name, listing(rest)


def _points(circuits: Iterable[CircuitTests]) -> Iterable[tuple[str, tuple[str, ...]]]:
    """With power on; before power the lead on battery- goes elsewhere (`post`)."""
    leads: dict[str, Lead] = {}
    for tests in circuits:
        before = (lead for lead in _leads(tests.before) if lead.id != BATTERY_NEGATIVE)
        leads.update((lead.id, lead) for lead in (*before, *_leads((*tests.live, *tests.neighbours))))
    found: dict[str, list[str]] = {}
    for name, lead in sorted(leads.items(), key=lambda item: natural(item[0])):
        found.setdefault(", ".join(filter(None, (lead.what, lead.where))), []).append(name)
    return ((words, tuple(names)) for words, names in sorted(found.items()))


def _leads(steps: Iterable[StepRow]) -> Iterable[Lead]:
    return (lead for step in steps for lead in (step.red, step.black) if lead is not None)


def _state_of(steps: CircuitSteps) -> Hashable:
    """What is on while the load is measured; a state that is not recorded is like no other."""
    power = steps.powered
    if power is None or power.needs is None:
        return steps.load
    return power.needs, frozenset((steps.load, *power.with_it))


# ---- the whole car --------------------------------------------------------------------------------------------------
def _fuse_rows(worked: JobResult, where: Places) -> Iterable[FirstPowerFuse]:
    for fuse in in_order(worked):
        fed = {"always": "always", "ignition": "key on ignition", "accessory": "key on accessory"}
        never = never_by(fuse, worked)
        behind = f"behind {listing(fuse.feeders)}" if fuse.feeders else ""
        yield FirstPowerFuse(
            name=fuse.name,
            rating=rating(worked.shown.fuses[fuse.name].facts),
            where=where(fuse.name) or NOT_RECORDED,
            live=fed.get(said := live_when(fuse.name, worked)) or behind or said,
            loads=fuse.loads,
            leads_to=leads_to(fuse, worked),
            never=never,
            may="" if never else may_words(worked.ledger.fuses.get(fuse.name)),
        )


def _key_off(steps: JobSteps) -> KeyOffText | None:
    off = steps.off
    if off is None:
        return None
    on = tuple((given.name, amount(_float(given.value), "A")) for given in off.total.inputs)
    return KeyOffText(
        expected=printed(off.total),
        limit=amount(off.limit_a, "A"),
        unknown=unknown_words(off.total),
        on=on,
        asleep=off.asleep,
    )


def _float(value: float | str | None) -> float | None:
    return value if isinstance(value, float) else None


def _millivolt_row(row: FuseMillivolts) -> MillivoltRow:
    return MillivoltRow(
        name=row.name,
        rating=f"{row.rating_a:g} A" if row.rating_a is not None else NOT_RECORDED,
        mohm=f"{row.mohm:.2f} mΩ" if row.mohm is not None else NOT_RECORDED,
        source=source_text(row.source),
        at=tuple(f"{volts:.2f}" for volts in row.at_mv) or tuple(NOT_RECORDED for _ in AT_A),
    )


def pages(frame: Frame) -> Iterable[PageOut]:
    """The test sheet."""
    sheet, supply = sheet_of_tests(frame.worked), frame.worked.job.supply
    told = head(frame.worked)
    yield frame.page(
        "tests",
        "tests.html",
        s=sheet,
        first=CAUTION,
        stays_off=told.sentences[0].text if told.leave_off else stays_off(frame.worked.ledger),
        supply=f"{supply.text} at the battery" if supply and supply.value else f"a supply that is {NOT_RECORDED}",
        heads=[(f"mV at {amps}", "num") for amps in sheet.at],
    )
