"""The test sheet as rows: what is measured on a car, in the order in which it is put under power."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.electric import transfer_of
from aswired.figures.key_off import AT_A, FuseMillivolts
from aswired.figures.tests import JobSteps, steps_of_job
from aswired.views.circuit_tests import CircuitTests, rows_of, unknown_words
from aswired.views.places import Places, places_of_nodes
from aswired.views.safety import Caution, refusals
from aswired.views.text import NOT_RECORDED, amount, listing, number
from aswired.worked import Worked

# Workshop rules as repair manuals state them, in our own words; that a lamp or a 5 A breaker stands in for the fuse
# first is common practice, no source.
CAUTIONS = (
    "Battery negative off and insulated before any ohms are read.",
    "No test lamp and no ohmmeter into a module or a sensor: unplug it, then measure the wire.",
    "Meter on fuse legs, connector backs, studs and posts only. Never pierce insulation.",
    "Restraint and high-voltage wires are not measured by this sheet, not with an ohmmeter and not with a lamp.",
    "Local rules, the vehicle maker's procedure and licensed practice come first.",
)
FIRST_POWER = "A lamp or a 5 A breaker in place of the fuse first; the fuse when it stays dark or holds."


@dataclass(frozen=True)
class FuseRow:
    """First power: one fuse."""

    name: str
    rating: str
    where: str
    live: str  # when its feed is live
    loads: tuple[str, ...]


@dataclass(frozen=True)
class MillivoltRow:
    """What a millivolt across a fuse says. `at`: millivolts at each of the currents of the head."""

    name: str
    rating: str
    mohm: str
    mark: str
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
    cautions: tuple[str, ...]
    circuits: tuple[CircuitTests, ...]
    fuses: tuple[FuseRow, ...]
    off: KeyOffText | None
    millivolts: tuple[MillivoltRow, ...]
    at: tuple[str, ...]  # currents of the head of that table
    how: str


_LAST: list[tuple[Worked, JobSteps]] = []  # the circuit pages and the sheet ask for the same job one after the other


def _steps(worked: Worked) -> JobSteps:
    if not _LAST or _LAST[0][0] is not worked:
        _LAST[:] = [(worked, steps_of_job(transfer_of(worked.job, worked.shown, worked.circuits)))]
    return _LAST[0][1]


def circuit_tests(load: str, worked: Worked) -> CircuitTests | None:
    """The steps of one load; None for one that is not kept, and where a refusal stands over the whole car."""
    if load not in worked.job.kept or any(refusals(worked)):
        return None
    return rows_of(_steps(worked).circuits[load], worked, places_of_nodes(worked))


def sheet_of_tests(worked: Worked) -> SheetOfTests:
    """The whole of a job, in the order in which it is put under power."""
    refused = tuple(refusals(worked))
    if refused:
        return SheetOfTests(refused, (), (), (), None, (), (), "")
    steps, where = _steps(worked), places_of_nodes(worked)
    return SheetOfTests(
        refusals=(),
        cautions=CAUTIONS,
        circuits=tuple(rows_of(found, worked, where) for found in steps.circuits.values()),
        fuses=tuple(_fuse_rows(worked, where)),
        off=_key_off(steps),
        millivolts=tuple(_millivolt_row(row) for row in steps.millivolts),
        at=tuple(f"{number(amps * 1000, 'mA')} mA" for amps in AT_A),
        how=steps.how,
    )


# ---- the whole car --------------------------------------------------------------------------------------------------
def _fuse_rows(worked: Worked, where: Places) -> Iterable[FuseRow]:
    for fuse in worked.fuses:
        state = worked.shown.fuses.get(fuse.name)
        if fuse.spare or state is None:
            continue
        rating = state.facts.rating
        fed = {"always": "always", "ignition": "key on ignition", "accessory": "key on accessory"}
        behind = f"behind {listing(fuse.feeders)}" if fuse.feeders else ""
        yield FuseRow(
            name=fuse.name,
            rating=amount(rating.value, "A") if rating is not None and rating.value is not None else NOT_RECORDED,
            where=where(fuse.name) or NOT_RECORDED,
            live=fed.get(state.facts.fed) or behind or NOT_RECORDED,
            loads=fuse.loads,
        )


def _key_off(steps: JobSteps) -> KeyOffText | None:
    off = steps.off
    if off is None:
        return None
    on = tuple((given.name, amount(_float(given.value), "A")) for given in off.total.inputs)
    return KeyOffText(
        expected=amount(off.total.value, "A"),
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
        mark=row.mark,
        at=tuple(f"{volts:.2f}" for volts in row.at_mv) or tuple(NOT_RECORDED for _ in AT_A),
    )
