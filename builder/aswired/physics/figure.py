"""A computed figure that can be followed to its inputs and its formula."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Input:
    """One input of a figure: its name, its value (None = not recorded), unit, and where it was read.

    `write` is the line of the house method that would say it, where none does: `usual: {ring strip: 6 mm}`.
    """

    name: str
    value: float | str | None
    unit: str = ""
    source: str = ""
    write: str = ""


def lacking(inputs: Iterable[Input]) -> tuple[str, ...]:
    """The inputs that are not recorded, as a figure's `missing` names them, with the line to write where there is one.

    >>> lacking([Input("slack", None, write="usual: {slack: 50 mm}"), Input("gap", None), Input("o", 10.0)])
    ('slack: not recorded, write usual: {slack: 50 mm}', 'gap')
    """
    return tuple(
        f"{term.name}: not recorded, write {term.write}" if term.write else term.name
        for term in inputs
        if term.value is None
    )


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
    missing: tuple[str, ...] = ()
    note: str = ""

    @property
    def known(self) -> bool:
        return self.value is not None
