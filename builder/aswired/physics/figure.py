"""A computed figure that can be followed to its inputs and its formula."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

_NOT_RECORDED = "not recorded"


@dataclass(frozen=True)
class Input:
    """One input of a figure: its name, its value (None = not recorded), unit, and where it was read.

    `origin` is the row, the table or the other figure that it comes from, `line` its file and line, `times` the length
    that a resistance is of, `carries` the current through it. `write` is the line of the house method that would say
    it, where none does: `usual: {ring strip: 6 mm}`.
    """

    name: str
    value: float | str | None
    unit: str = ""
    origin: str = ""
    write: str = ""
    line: str = ""
    times: str = ""
    carries: str = ""

    @property
    def source(self) -> str:
        """All of it in words, as the terminal tells it.

        >>> Input("gap", 457.2, "mm", "C14", line="changes.yml:104").source
        'C14, changes.yml:104'
        >>> Input("W1", 3.2, "mohm", "20.90 mohm/m", times="152 mm", carries="4.00 A").source
        '20.90 mohm/m x 152 mm; carries 4.00 A'
        """
        return self._joined(f", {self.line}" if self.line else "")

    @property
    def source_on_page(self) -> str:
        """The same without file and line, which stand on no page."""
        return self._joined("")

    def _joined(self, line: str) -> str:
        return (
            self.origin
            + line
            + (f" x {self.times}" if self.times else "")
            + (f"; carries {self.carries}" if self.carries else "")
        )


@dataclass(frozen=True)
class Missing:
    """One thing that keeps a value from being known. Its words are made of it where they are printed, never read.

    `what` it is and `of` which load or wire, `part` where it is one part of a way that lacks it. `state` is what is
    wrong with it, '' for what nobody recorded; `why` says more; `write` is the line of the house method for it.

    >>> str(Missing("current", "horn")), str(Missing("slack", write="usual: {slack: 50 mm}"))
    ('current of horn', 'slack: not recorded, write usual: {slack: 50 mm}')
    >>> str(Missing("length", "W1", "W1 from F2 to horn.1")), str(Missing("feed", state="open", why="W1 is cut"))
    ('W1 from F2 to horn.1: length not recorded', 'feed open: W1 is cut')
    """

    what: str
    of: str = ""
    part: str = ""
    state: str = ""
    why: str = ""
    write: str = ""

    @property
    def is_bare(self) -> bool:
        """Whether nothing is said of it but what it is: then it is not recorded."""
        return not (self.part or self.state or self.why or self.write)

    @property
    def said(self) -> str:
        """What is wrong with a part, without its name."""
        return f"{self.what} {self.state or _NOT_RECORDED}".strip() + self._asks

    def __str__(self) -> str:
        name = f"{self.what} of {self.of}" if self.of else self.what
        if self.part:
            return f"{self.part}: {self.said}"
        if self.write:
            return f"{name}: {_NOT_RECORDED}{self._asks}"
        return f"{name} {self.state}".strip() + (f": {self.why}" if self.why else "")

    @property
    def told(self) -> str:
        """The same as a phrase that stands for itself: `current of horn not recorded`."""
        return f"{self} {_NOT_RECORDED}" if self.is_bare else str(self)

    @property
    def reason(self) -> str:
        """What is wrong, in as few words as say it: `no row for 6 V`, `duty not recorded`."""
        return self.why or (self.said if self.part else self.told)

    @property
    def _asks(self) -> str:
        return f", write {self.write}" if self.write else ""


def current_of(load: str) -> Missing:
    """The current of a load, which is not recorded."""
    return Missing("current", load)


def lacking(inputs: Iterable[Input]) -> tuple[Missing, ...]:
    """The inputs that are not recorded, with the line to write where there is one."""
    return tuple(Missing(term.name, write=term.write) for term in inputs if term.value is None)


@dataclass(frozen=True)
class Figure:
    """A computed value. `value` is None when an input is not recorded; `missing` then says which."""

    key: str  # stable, documented: "C14-W31.cut"
    name: str  # what it is, in words
    value: float | None
    unit: str
    rule: str  # name of the formula: "extend, two joints (L3)"
    formula: str  # the formula as written on the bench: "e = gap + slack + o1 + o2"
    inputs: tuple[Input, ...] = ()
    missing: tuple[Missing, ...] = ()
    note: str = ""

    @property
    def known(self) -> bool:
        return self.value is not None

    @property
    def missing_words(self) -> tuple[str, ...]:
        """What is missing, each thing in words."""
        return tuple(map(str, self.missing))
