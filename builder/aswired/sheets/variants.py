"""Loads that are not the same in the other cars of a recipe, as rows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.figures.variants import Differing, InCar, Variant, variants
from aswired.figures.worked import JobResult
from aswired.sheets.text import amount, listing
from aswired.text.unsaid import NOT_RECORDED

NONE = "none"


@dataclass(frozen=True)
class Both:
    """One fact in this car and in the other; `here` alone is shown where they are the same."""

    here: str
    there: str

    @property
    def same(self) -> bool:
        return self.here == self.there


@dataclass(frozen=True)
class VariantRow:
    """One load. `only` says in which of the cars it is, '' for both; then the facts are those of the one."""

    load: str
    only: str
    fuse: Both
    ground: Both
    current: Both
    drop: Both


@dataclass(frozen=True)
class VariantSheet:
    """The car with another value of one option."""

    option: str
    value: str
    here: str  # this car's own value
    rows: tuple[VariantRow, ...]


def variant_sheets(worked: JobResult) -> tuple[VariantSheet, ...]:
    """Every car that differs from this one in one option and in some load."""
    return tuple(_sheet(found, worked) for found in variants(worked.job, worked.plan))


def _sheet(found: Variant, worked: JobResult) -> VariantSheet:
    here = worked.job.options[found.option].is_
    return VariantSheet(found.option, found.value, here, tuple(_rows(found.loads, here, found.value)))


def _rows(loads: Iterable[Differing], here: str, there: str) -> Iterable[VariantRow]:
    for load in loads:
        one, two = load.here or load.there, load.there or load.here
        if one is None or two is None:
            continue
        only = here if load.there is None else there if load.here is None else ""
        yield VariantRow(load.load, only, *(Both(a, b) for a, b in zip(_facts(one), _facts(two), strict=True)))


def _facts(car: InCar) -> tuple[str, str, str, str]:
    return (
        listing(car.fuses, NONE),
        car.ground or NONE,
        amount(car.current, "A"),
        amount(car.drop.value, "V") if car.drop.known else NOT_RECORDED,
    )
