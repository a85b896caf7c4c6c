"""A computed figure that can be followed to its inputs and its formula."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Input:
    """One input of a figure: its name, its value (None = not recorded), unit, and where it was read."""

    name: str
    value: float | str | None
    unit: str = ""
    source: str = ""


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
