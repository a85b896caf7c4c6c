"""Figures as short notes for paper: parts, sources and rules that several of them share are told once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from aswired.sheets.text import FigureText, InputText, Printed, unit_text

SHORT = 60  # letters; what is no longer than this is printed again rather than pointed at


@dataclass(frozen=True)
class PartRow:
    """A resistance that figures rest on. `mohm` as counted, `worst` hot and with poor contacts ('' = not told)."""

    number: int
    name: str
    mohm: str
    worst: str
    length: str
    source: str  # a letter of `Notes.sources`


@dataclass(frozen=True)
class Note:
    """One figure in a few lines. `inputs` point to parts and to other notes by their numbers."""

    number: int
    name: str
    value: Printed
    known: bool
    formula: str
    inputs: str
    missing: str
    rule: str  # a letter of `Notes.rules`


@dataclass(frozen=True)
class Notes:
    """All figures of a page: what they rest on in common, and a note each."""

    parts: tuple[PartRow, ...]
    sources: tuple[tuple[str, str], ...]
    notes: tuple[Note, ...]
    rules: tuple[tuple[str, str], ...]


def notes_of(figures: Sequence[FigureText]) -> Notes:
    """The figures in their order, each once."""
    figures = list({figure.key: figure for figure in figures}.values())
    parts, sources, rules = _Parts(), _Letters("a"), _Letters("A")
    for worst in (False, True):  # what is counted as usual comes first, so that the worst finds its part there
        for figure in figures:
            if _is_worst(figure) == worst:
                parts.read(figure)
    numbers = {figure.key: number for number, figure in enumerate(figures, start=1)}
    told: dict[str, int] = {}
    notes = []
    for figure in figures:
        number, inputs = numbers[figure.key], "; ".join(_inputs(figure, parts, numbers))
        first = told.setdefault(inputs, number) if len(inputs) > SHORT else number
        inputs = inputs if first == number else f"inputs as in {first}"
        first = told.setdefault(figure.missing, number) if len(figure.missing) > SHORT else number
        missing = figure.missing if first == number else f"Not computed, as {first}"
        rule = ". ".join(filter(None, (figure.rule, figure.note)))
        notes.append(
            Note(
                number,
                figure.name,
                figure.value,
                figure.known,
                figure.formula,
                inputs,
                missing,
                rules.letter(rule) if rule else "",
            )
        )
    rows = tuple(
        replace(row, mohm=_bare(row.mohm), worst=_bare(row.worst), source=sources.letter(row.source))
        for row in parts.rows
    )
    return Notes(rows, tuple(sources.all()), tuple(notes), tuple(rules.all()))


def _bare(text: str) -> str:
    return text.removesuffix(f" {unit_text('mohm')}")  # the unit stands in the head


def _is_worst(figure: FigureText) -> bool:
    return figure.key.endswith(".worst")


class _Letters:
    """Texts told once under a letter: a, b ... z, aa, bb ..."""

    def __init__(self, first: str) -> None:
        self._first, self._texts = first, list[str]()

    def letter(self, text: str) -> str:
        if text not in self._texts:
            self._texts.append(text)
        return self._name(self._texts.index(text))

    def all(self) -> Iterable[tuple[str, str]]:
        return ((self._name(index), text) for index, text in enumerate(self._texts))

    def _name(self, index: int) -> str:
        return chr(ord(self._first) + index % 26) * (1 + index // 26)


class _Parts:
    """The resistances of a page, numbered in the order in which figures name them.

    A name may stand twice in one figure (both halves of a splice): then it is two parts.
    """

    def __init__(self) -> None:
        self.rows: list[PartRow] = []
        self._of: dict[tuple[str, int], list[int]] = {}  # name and how often it stood before: indexes of `rows`

    def read(self, figure: FigureText) -> None:
        worst = _is_worst(figure)
        for key, given in _resistances(figure):
            if any(True for _ in self._found(key, given.value, worst)):
                continue
            usual = next((index for index in self._of.get(key, ()) if not self.rows[index].worst), None)
            if worst and usual is not None:
                self.rows[usual] = replace(self.rows[usual], worst=given.value)
                continue
            values = ("", given.value) if worst else (given.value, "")
            self.rows.append(PartRow(len(self.rows) + 1, given.name, *values, given.times, given.origin))
            self._of.setdefault(key, []).append(len(self.rows) - 1)

    def number(self, key: tuple[str, int], value: str, worst: bool) -> int:
        """The number of a part that was read."""
        return next(self.rows[index].number for index in self._found(key, value, worst))

    def _found(self, key: tuple[str, int], value: str, worst: bool) -> Iterable[int]:
        return (i for i in self._of.get(key, ()) if value == (self.rows[i].worst if worst else self.rows[i].mohm))


def _resistances(figure: FigureText) -> Iterable[tuple[tuple[str, int], InputText]]:
    seen: dict[str, int] = {}
    for given in figure.inputs:
        if given.unit == "mohm":
            seen[given.name] = seen.get(given.name, -1) + 1
            yield (given.name, seen[given.name]), given


def _inputs(figure: FigureText, parts: _Parts, numbers: dict[str, int]) -> Iterable[str]:
    """Parts by their numbers with the current through them, then the other inputs; of one source each source once."""
    worst = _is_worst(figure)
    carried = [(given.carries, parts.number(key, given.value, worst)) for key, given in _resistances(figure)]
    for amps, found in groupby(carried, key=lambda item: item[0]):
        yield f"{_counted([number for _, number in found])}{f' at {amps}' if amps else ''}{' (worst)' if worst else ''}"
    others = [given for given in figure.inputs if given.unit != "mohm"]
    for source, same in groupby(others, key=lambda given: given.source):
        values = ", ".join(f"{given.name} {given.value}" for given in same)
        where = f"note {numbers[source]}" if source in numbers else source
        yield f"{values} ({where})" if where else values


def _counted(numbers: Sequence[int]) -> str:
    """Numbers of parts, those that follow each other as a range.

    >>> _counted([1, 2, 3, 7, 9, 10])
    'parts 1 to 3, 7, 9, 10'
    >>> _counted([4])
    'part 4'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return f"part{'s' if len(numbers) > 1 else ''} {', '.join(told)}"
