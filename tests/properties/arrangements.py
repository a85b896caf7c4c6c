"""Change lists in which rows are done again, in every arrangement that a file may have, and rows that cannot be so."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import replace

from aswired.record import Change, Job, Wire
from aswired.text.one_line import Done, Piece
from properties.chance import COLOURS, FIRST_DAY, SIZES, length

PIECE = Piece("", COLOURS[0], SIZES[0])


def first(number: int) -> Change:
    """A row that extends a wire of its own."""
    made = Done("", FIRST_DAY + datetime.timedelta(days=number % 300), "AK")
    return Change(
        id=f"R{number}",
        kind="extend",
        wire=f"W{number}",
        end=f"plug{number}.1",
        piece=PIECE,
        pigtail=length(100),
        gap=length(300),
        made=made,
    )


def again(number: int) -> Change:
    """The row that does it again."""
    return replace(first(number), id=f"D{number}", gap=length(200), redoes=f"R{number}")


def adjacent(count: int) -> list[Change]:
    return [row for n in range(count) for row in (first(n), again(n))]


def all_then_all(count: int) -> list[Change]:
    return [*map(first, range(count)), *map(again, range(count))]


def nested(count: int) -> list[Change]:
    return [*map(first, range(count)), *map(again, reversed(range(count)))]


def interleaved(count: int) -> list[Change]:
    pairs = [row for n in range(1, count) for row in (first(n), again(n - 1))]
    return [first(0), *pairs, again(count - 1)]


def chain(count: int) -> list[Change]:
    """One wire that is done again and again."""
    rows = [first(0)]
    for n in range(1, 2 * count):
        rows.append(replace(first(0), id=f"D{n}", redoes=rows[-1].id))
    return rows


def corrected_again(count: int) -> list[Change]:
    """Pairs of which the second row is corrected once they are all written."""
    fixes = [replace(again(n), id=f"F{n}", corrects=f"D{n}", gap=length(250)) for n in range(count)]
    return [*adjacent(count), *fixes]


def early_rows_between_late_ones(count: int) -> list[Change]:
    """The worst: each late row that is done again stands behind one more early row that was taken out."""
    half = count // 2
    between = [row for n in range(half) for row in (first(half + n), again(n))]
    return [*map(first, range(half)), *between, *(again(half + n) for n in range(half))]


IN_PROPORTION: dict[str, Callable[[int], list[Change]]] = {
    "adjacent": adjacent,
    "all then all": all_then_all,
    "nested": nested,
    "interleaved": interleaved,
    "chain": chain,
    "corrected": corrected_again,
}


def job_of(rows: list[Change]) -> Job:
    names = sorted({(row.wire, row.end) for row in rows if row.wire.startswith("W")})
    wires = {wire: Wire(from_=end, to=f"relay{wire}.1", length=length(2000)) for wire, end in names}
    return Job(job="x", wires=wires, changes=tuple(rows))


# ---- rows that cannot be so ------------------------------------------------------------------------------------------
def _with_wires(rows: list[Change]) -> Job:
    wires = {f"W{n}": Wire(from_=f"plug{n}.1", to=f"relay{n}.1", length=length(2000)) for n in range(20)}
    return Job(job="x", wires=wires, changes=tuple(rows))


def ordinary(count: int) -> Job:
    return job_of([first(n) for n in range(count)])


def corrected_in_a_chain(count: int) -> Job:
    rows = [first(0)]
    for n in range(1, count):
        rows.append(replace(first(0), id=f"F{n}", corrects=rows[-1].id))
    return job_of(rows)


def missing_wires(count: int) -> Job:
    return _with_wires([replace(first(n), wire=f"lost{n}") for n in range(count)])


def resting_on_one_another(count: int) -> Job:
    """Each row joins a lead on to the one before, of which the first cannot be so."""
    bad = Change(id="A0", kind="add", wire="N0", piece=PIECE, from_="a.1", to="a.1", cut=length(500))
    rest = [
        Change(id=f"A{n}", kind="add", wire=f"N{n}", piece=PIECE, from_=f"A{n - 1}-x", to=f"b{n}.1", cut=length(500))
        for n in range(1, count)
    ]
    return _with_wires([bad, *rest])


def resting_on_leads(count: int) -> Job:
    """Leads that cannot be so, and as many rows that work on one of them each."""
    half = count // 2
    leads = [Change(id=f"A{n}", kind="add", wire=f"N{n}", piece=PIECE, from_="a.1", to="a.1") for n in range(half)]
    rest = [Change(id=f"B{n}", kind="ground", wire=f"N{n}", end="a.1", to="G1") for n in range(half)]
    return _with_wires([*leads, *rest])


ROWS: dict[str, Callable[[int], Job]] = {
    "ordinary": ordinary,
    "corrects in a chain": corrected_in_a_chain,
    "wires that are missing": missing_wires,
    "resting on one another": resting_on_one_another,
    "resting on leads": resting_on_leads,
}
