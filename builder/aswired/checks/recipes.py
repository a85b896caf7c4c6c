"""The change list read as a recipe: does it also work out for the cars whose options have other values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, islice, product
from math import prod

from aswired.car.asbuilt import FoldCache, fold
from aswired.car.asbuilt.order import ROW05, ROW06, ROW07, ROW09, order
from aswired.car.changes import kind_of
from aswired.car.circuits import Circuit
from aswired.car.harness import View
from aswired.car.trace import circuits
from aswired.checks.dates import ROW08
from aswired.checks.ends import cut_ends, left_open
from aswired.checks.loads import orphaned
from aswired.checks.options_apart import parts_touched
from aswired.figures.variants import Car, built_as
from aswired.figures.worked import JobResult
from aswired.record import Job
from aswired.text.diagnostics import Finding, Rule, Severity

OPT03 = Rule("OPT03", Severity.ERROR, Severity.WARNING, Severity.NOTE)

MOST = 64  # combinations looked at: a recipe with more is split before anybody reads it (house value)
# ids, dates and values as written, not the recipe
OF_THE_LIST = {rule.code for rule in (ROW05, ROW06, ROW07, ROW08, ROW09)}


@dataclass(frozen=True)
class _Trouble:
    at: Finding  # as it would be told of such a car
    recorded: bool  # False: told from what no row says


def judge(facts: JobResult) -> Iterator[Finding]:
    job = facts.job
    touches = parts_touched(job)
    options = {name: job.options[name].values for name in job.options if name in touches}
    options = {name: values for name, values in options.items() if values}
    own: Car = tuple((name, job.options[name].is_) for name in options)
    others = list(islice(_other_cars(own, options, touches), MOST + 1))
    if not others:
        return
    traced = facts.circuits if facts.plan is facts.shown else circuits(job, facts.plan)
    here = {key for key, _ in _troubles(job, facts.plan, traced)}
    complete = _complete(job, traced)
    met: dict[tuple[str, str], _Trouble] = {}
    where: dict[tuple[str, str], list[Car]] = {}
    folded: dict[tuple[str, ...], tuple[View, dict[str, Circuit]]] = {}
    shared = FoldCache(job)
    for car in others[:MOST]:
        built = built_as(job, car)
        rows = tuple(row.id for row in order(built, "plan", None).rows if kind_of(row).alters_harness)
        if rows not in folded:
            view = fold(built, "plan", None, facts.route, shared)
            folded[rows] = (view, circuits(built, view))
        view, traced_there = folded[rows]
        found = dict(_troubles(built, view, traced_there))
        found.update({key: t for key, t in _unsaid(built, complete, traced_there) if key not in found})
        for key, trouble in found.items():
            if key not in here:
                met.setdefault(key, trouble)
                where.setdefault(key, []).append(car)
    seen = [own, *others[:MOST]]
    for key, trouble in met.items():
        yield _finding_of(job, trouble, where[key], seen)
    if len(others) > MOST:
        whole = prod(len(values) for values in options.values())
        problem = f"the options make {whole} kinds of car; {MOST} of them, those most like this car, were looked at"
        mend = "None needed; take values that no car of yours has out of 'could be:'"
        yield OPT03(job.line_of("options"), "", problem, mend, rank=Severity.NOTE)


def _other_cars(
    own: Car, options: Mapping[str, tuple[str, ...]], touches: Mapping[str, frozenset[str]]
) -> Iterator[Car]:
    """Every other combination of values, those first that differ from this car in the fewest options.

    A combination that falls into options with nothing in common is left out: each of them is looked at by itself.
    """
    names = list(options)
    mine = dict(own)
    elsewhere = {name: [value for value in values if value != mine[name]] for name, values in options.items()}
    # an option that is not known here takes a value in every combination
    unknown = [name for name in names if mine[name] == "unknown"]
    free = [name for name in names if name not in unknown]
    for count in range(len(free) + 1):
        for chosen in combinations(free, count):
            varied = [name for name in names if name in chosen or name in unknown]
            if len(chosen) > 1 and not _hang_together(chosen, touches):
                continue
            for values in product(*(elsewhere[name] for name in varied)):
                car = mine | dict(zip(varied, values, strict=True))
                if car != mine:
                    yield tuple((name, car[name]) for name in names)


def _hang_together(chosen: tuple[str, ...], touches: Mapping[str, frozenset[str]]) -> bool:
    """Whether options hang together, each with the next by a part of the harness that both touch."""
    reached, waiting = set(touches[chosen[0]]), list(chosen[1:])
    while near := [name for name in waiting if reached & touches[name]]:
        reached |= {part for name in near for part in touches[name]}
        waiting = [name for name in waiting if name not in near]
    return not waiting


def _troubles(job: Job, view: View, traced: Mapping[str, Circuit]) -> Iterator[tuple[tuple[str, str], _Trouble]]:
    """Rows that cannot be so, ends left open and loads without feed or return, by a key that tells causes apart."""
    for finding in view.findings:
        if finding.severity <= Severity.ERROR and finding.code not in OF_THE_LIST:
            yield ("row " + finding.code, finding.entry), _Trouble(finding, True)
    for finding in (*cut_ends(job, view), *left_open(job, view)):
        if finding.severity <= Severity.ERROR:
            yield ("end", finding.entry), _Trouble(finding, True)
    for name, circuit in traced.items():
        if job.loads[name].verdict == "kept":
            for side, finding in orphaned(job, circuit, False):
                yield (side, name), _Trouble(finding, True)


def _complete(job: Job, traced: Mapping[str, Circuit]) -> set[tuple[str, str]]:
    sides = {("feed", name): c.feed.state for name, c in traced.items()}
    sides |= {("return", name): c.back.state for name, c in traced.items()}
    return {key for key, state in sides.items() if state == "complete" and job.loads[key[1]].verdict == "kept"}


def _unsaid(
    job: Job, complete: set[tuple[str, str]], traced: Mapping[str, Circuit]
) -> Iterator[tuple[tuple[str, str], _Trouble]]:
    """Loads whose way is whole in this car and is not recorded in the other: a step may be missing there."""
    for side, name in sorted(complete):
        load = job.loads[name]
        path = traced[name].feed if side == "feed" else traced[name].back
        if path.state == "not examined" and job.holds(load.for_) == "yes":
            problem = f"no row gives '{name}' a {side}: {path.why}"
            yield (side, name), _Trouble(OPT03(load.at, name, problem, "", rank=Severity.WARNING), False)


def _finding_of(job: Job, trouble: _Trouble, cars: list[Car], seen: list[Car]) -> Finding:
    words, options = _in_words(cars, seen)
    known = all(job.options[name].is_ != "unknown" for name in options)
    return OPT03(
        trouble.at.at,
        trouble.at.entry,
        f"on a car whose {words}: {trouble.at.problem}",
        "Write the row that such a car needs with 'only if:', widen the one that it lacks, or take the value out of "
        "'could be:'",
        rank=Severity.ERROR if known and trouble.recorded else Severity.WARNING,
    )


def _in_words(cars: list[Car], seen: list[Car]) -> tuple[str, set[str]]:
    """The fewest options that tell the cars in trouble from all others that were looked at, and their names."""
    shared = dict(set(cars[0]).intersection(*(set(car) for car in cars[1:])))
    if _with(shared, seen) == len(cars):
        for name in list(shared):
            fewer = {other: value for other, value in shared.items() if other != name}
            if fewer and _with(fewer, seen) == len(cars):
                shared = fewer
        named = [(name, value) for name, value in cars[0] if name in shared]
        return _joined(tuple(named)), set(shared)
    own = dict(seen[0])
    apart = [tuple((name, value) for name, value in car if own[name] != value) for car in cars]
    fewest = [car for car in apart if not any(set(other) < set(car) for other in apart)]
    if sum(any(set(car) <= set(other) for car in fewest) for other in seen) == len(cars):
        apart = fewest
    more = f"; or {len(apart) - 3} more" if len(apart) > 3 else ""
    return "; or ".join(_joined(car) for car in apart[:3]) + more, {name for car in apart for name, _ in car}


def _with(values: Mapping[str, str], seen: list[Car]) -> int:
    return sum(set(values.items()) <= set(car) for car in seen)


def _joined(car: Car) -> str:
    return " and ".join(f"{name} is {value}" for name, value in car)
