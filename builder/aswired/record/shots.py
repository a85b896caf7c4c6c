"""Bench photographs, meter readings, and visits after the hand-over."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from aswired.record.forms import AMPS, DONE, FRACTION, MINUTES, NAME, READING, VOLTS, WORDS, YES_NO
from aswired.text.one_line import Done
from aswired.text.schema import Choice, Located, Many, Record, keyed
from aswired.text.units import Quantity, Reading


@dataclass(frozen=True)
class Mark(Located):
    """A mark on a photograph, in fractions of the upright picture; x and radius of its width, y of its height (P6)."""

    ring: tuple[float, ...] = keyed(Many(FRACTION), "x, y, radius")
    arrow: tuple[float, ...] = keyed(Many(FRACTION), "x, y of the tail, x, y of the head")
    box: tuple[float, ...] = keyed(Many(FRACTION), "x, y, width, height")
    label: tuple[float, ...] = keyed(Many(FRACTION), "x, y")
    of: str = keyed(NAME, "id of what is marked", default="")
    says: str = keyed(WORDS, "words", default="")


@dataclass(frozen=True)
class Photo(Located):
    """A bench photograph. The original never reaches the site."""

    id: str = keyed(NAME, "id of the picture", required=True, default="")
    file: str = keyed(WORDS, "file inside the job folder", required=True, default="")
    shows: tuple[str, ...] = keyed(Many(NAME), "ids it shows")
    stage: str = keyed(
        Choice("stage", ("before", "bare joint", "sealed", "after wrap", "other")), "when it was taken", default="other"
    )
    caption: str = keyed(WORDS, "one sentence", default="")
    publish: bool = keyed(YES_NO, "no = shop edition only", default=True)
    face_or_plate: bool = keyed(YES_NO, "yes when a person or a plate can be told on it", default=False)
    hide: tuple[tuple[float, ...], ...] = keyed(Many(Many(FRACTION)), "solid boxes: [x, y, width, height]")
    marks: tuple[Mark, ...] = keyed(Many(Record(Mark)), "marks on it")


@dataclass(frozen=True)
class MeterReading(Located):
    """A reading taken on the car."""

    id: str = keyed(NAME, "id of the reading", required=True, default="")
    of: str = keyed(NAME, "row, circuit or point it belongs to", default="")
    red: str = keyed(NAME, "where the red lead was", default="")
    black: str = keyed(NAME, "where the black lead was", default="")
    with_: str = keyed(WORDS, "what was switched on", key="with", default="")
    loads_on: tuple[str, ...] = keyed(
        Many(NAME),
        "loads that were on; none = key out and everything off. What else comes on with them counts too",
        example="[stop left, stop right]",
    )
    read: Reading | None = keyed(READING, "what the meter showed", required=True)
    limit: Reading | None = keyed(READING, "what it should stay below")
    at_least: Reading | None = keyed(READING, "what it should reach")
    supply: Quantity | None = keyed(VOLTS, "battery volts at that moment")
    through: Quantity | None = keyed(AMPS, "of a drop: the current at that moment, by clamp", example="7 A")
    on: Done | None = keyed(DONE, "date")
    by: str = keyed(WORDS, "initials", default="")

    @property
    def day(self) -> datetime.date | None:
        return self.on.date if self.on is not None else None

    @property
    def most(self) -> Reading | None:
        """The limit that judges; None for one below zero, which no amount can keep."""
        return self.limit if _able(self.limit) else None

    @property
    def least(self) -> Reading | None:
        """What it has to reach; None for what is below zero, which any amount reaches."""
        return self.at_least if _able(self.at_least) else None

    @property
    def shows(self) -> bool:
        """Whether it shows anything: a value was read, on a day that can be."""
        return self.read is not None and self.read.value is not None and (self.on is None or self.on.doubt is None)


def _able(limit: Reading | None) -> bool:
    return limit is None or limit.value is None or limit.value >= 0


@dataclass(frozen=True)
class Service(Located):
    """A visit after the hand-over: what was complained of, what was measured, what it was, which rows mended it."""

    id: str = keyed(NAME, "id of the visit", example="S1", required=True, default="")
    on: Done | None = keyed(DONE, "date and initials", required=True)
    complaint: str = keyed(WORDS, "what was said to be wrong", required=True, default="")
    measured: tuple[str, ...] = keyed(Many(WORDS), "what was measured, step by step, and what it showed")
    found: str = keyed(WORDS, "what it was", default="")
    rows: tuple[str, ...] = keyed(Many(NAME), "rows of the change list that were made for it")
    readings: tuple[str, ...] = keyed(Many(NAME), "readings taken")
    note: str = keyed(WORDS, "anything worth knowing", default="")
    minutes: Quantity | None = keyed(MINUTES, "time it took", private=True)
