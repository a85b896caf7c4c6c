"""The harnesses of a car that has several, and the colour letters of each donor: the legend beside the connectors."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from aswired.figures.worked import JobResult
from aswired.sheets.text import count
from aswired.text.colours import Colour, read_colour
from aswired.text.units import QuantityError
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class Letter:
    """One of a donor's own colour letters. `colour` is None for a letter that stands for no colour."""

    letter: str
    colour: Colour | None
    word: str


@dataclass(frozen=True)
class LoomRow:
    """A harness; name '' for the wires of which no loom is written."""

    name: str
    donor: str
    letters: tuple[Letter, ...]
    ground: tuple[Colour, ...]  # colours that mean ground in it
    wires: str


def loom_rows(worked: JobResult) -> tuple[LoomRow, ...]:
    """The job's own donor first, where it has a legend, then each loom; none for a job without looms and letters."""
    job = worked.job
    if not job.looms and not job.colour_letters:
        return ()
    names = [job.loom_of(wire) for wire in worked.donor.wires]
    rows = []
    if job.colour_letters or job.donor_colours or "" in names:
        wires = count(names.count(""), "wire")
        rows.append(LoomRow("", job.donor or NOT_RECORDED, _letters(job.colour_letters), job.donor_colours, wires))
    for name, loom in job.looms.items():
        letters = _letters(loom.colour_letters or job.colour_letters)
        ground = loom.donor_colours or job.donor_colours
        rows.append(LoomRow(name, loom.donor or NOT_RECORDED, letters, ground, count(names.count(name), "wire")))
    return tuple(rows)


def _letters(written: Mapping[str, str]) -> tuple[Letter, ...]:
    return tuple(_all_letters(written))


def _all_letters(written: Mapping[str, str]) -> Iterable[Letter]:
    for letter, word in written.items():
        try:
            yield Letter(letter, read_colour(word), word)
        except QuantityError:  # a legend may hold a word that no wire of the job uses
            yield Letter(letter, None, word)
