"""How facts are written on a page: numbers with their fixed digits, dates, sizes, colours, figures that open."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.harness import CutPiece
from aswired.figures.worked import JobResult
from aswired.network.transfer import POSITIVE_GROUND
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import Job
from aswired.text.colours import Colour
from aswired.text.one_line import Done
from aswired.text.units import Length, Reading, Size, show_both, thousands
from aswired.text.unsaid import DATE_NOT_NOTED, NOT_KNOWN, NOT_READ, NOT_RECORDED, SIZE_NOT_READ, Unsaid

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_DIGITS = {"V": 2, "A": 1, "mohm": 1, "ohm": 2, "W": 0, "C": 0, "mm": 0, "mm2": 2, "%": 1, "mA": 0, "mV": 1, "min": 0}
LEAST_IN_VOLTS = 0.01  # less would be printed as 0.00 V, which reads as nothing lost
_UNITS = {"mohm": "mΩ", "ohm": "Ω", "mm2": "mm²", "C": "°C"}


@dataclass(frozen=True)
class Shown:
    """Which moment the pages show: `text` for the title block, `is_plan` while nothing is made."""

    text: str
    is_plan: bool


def shown_of(worked: JobResult) -> Shown:
    """The moment shown, in words."""
    view = worked.shown
    if view.name == "plan":
        return Shown("plan: nothing is made yet", True)
    if view.name == "handed over":
        return Shown(f"as handed over, {date(view.day)}", False)
    return Shown(f"as of {date(view.day)}" if view.day else "as it is now", False)


def date(day: datetime.date | None) -> str:
    """`12 Jun 2026`, or 'not recorded'."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}" if day else NOT_RECORDED


def done(step: Done | None) -> str:
    """When and by whom: `12 Jun 2026, MB`; 'date not noted' for a step that was done on an unwritten day;
    `2199-05-03 MB, not counted` for one that cannot be so."""
    if step is None:
        return NOT_RECORDED
    if step.doubt is not None:
        return " ".join(filter(None, [step.day_as_written, step.by])) + ", not counted"
    when = date(step.date) if step.date else DATE_NOT_NOTED
    return f"{when}, {step.by}" if step.by else when


def day(step: Done | None) -> str:
    """The day of a step alone: `12 Jun 2026`, 'not recorded', or what is written where that cannot be."""
    if step is not None and step.doubt is not None:
        return written_day(step)
    return date(step.date if step is not None else None)


def written_day(step: Done) -> str:
    """A day that cannot be, as it was written: `2199-05-03, not counted`; a finding says why."""
    return f"{step.day_as_written}, not counted"


def handed_over(job: Job) -> str:
    """When the car was handed over, or 'not yet'."""
    if job.handed_over is None and "handed over" in job.set_aside:
        return f"not yet ({written_day(job.set_aside['handed over'])})"
    return date(job.handed_over) if job.handed_over else "not yet"


def number(value: float | None, unit: str) -> str:
    """A number with the digits fixed for its unit, narrow space in thousands, without the unit."""
    if value is None:
        return NOT_RECORDED
    digits = _DIGITS.get(unit, 2)
    text = f"{abs(value):.{digits}f}"
    whole, dot, fraction = text.partition(".")
    sign = "−" if value < 0 and float(text) else ""
    return sign + thousands(int(whole)) + dot + fraction


def unit_text(unit: str) -> str:
    """A stored unit as it is printed: mΩ, mm²."""
    return _UNITS.get(unit, unit)


def amount(value: float | None, unit: str, units: str = "mm") -> str:
    """A number with its unit; lengths in the job's own units with millimetres behind them."""
    if value is None:
        return NOT_RECORDED
    if unit == "mm":
        return show_both(value, units)
    if unit == "A" and 0 < abs(value) < 1:
        return f"{number(value * 1000, 'mA')} mA"
    if unit == "V" and 0 < abs(value) < LEAST_IN_VOLTS:
        return f"{number(value * 1000, 'mV')} mV"
    return f"{number(value, unit)} {unit_text(unit)}".strip()


def length(written: Length | None, units: str) -> str:
    """A written length in the job's units; one that is said to be unknown is not one that nobody wrote."""
    if written is not None and written.mm is None:
        return NOT_KNOWN
    return show_both(written.mm if written else None, units)


def size(of: Size) -> str:
    """`18 AWG`, `1.5 mm²`, or 'not read'."""
    return of.text.strip().replace("mm2", "mm²") if of.known else NOT_READ


def size_named(of: Size | None) -> str:
    """The same where nothing beside it says that it is a size: `18 AWG`, or 'size not read'."""
    return size(of) if of is not None and of.known else SIZE_NOT_READ


def shown_reading(reading: Reading | None, nothing: str) -> str:
    """A reading as it was written, with the signs of its units; `nothing` for one that was not taken."""
    if reading is None or reading.value is None:
        return nothing
    return reading.text.strip().replace("mohm", "mΩ").replace("ohm", "Ω")


def colour_classes(colour: Colour) -> str:
    """Style classes of a swatch: base, stripes, shade; 'q' when the colour was not read."""
    if colour.base is None:
        return "q"
    names = [f"b-{colour.base.lower()}"]
    if colour.stripes:
        names += ["st" if len(colour.stripes) == 1 else "st2", f"s-{colour.stripes[0].lower()}"]
        names += [f"t-{stripe.lower()}" for stripe in colour.stripes[1:]]
    if colour.shade:
        names.append(colour.shade)
    return " ".join(names)


def first_upper(text: str) -> str:
    """The text with its first letter large; the rest as it is, since ids stand in it."""
    return text[:1].upper() + text[1:]


def listing(words: Iterable[str], nothing: str = NOT_RECORDED, between: str = ", ") -> str:
    """Words with commas between, or what to say when there are none. One alone stays as it is, be it `Unsaid`."""
    told = tuple(words)
    return (told[0] if len(told) == 1 else between.join(told)) or nothing


def count(number: int, one: str, many: str = "") -> str:
    """`1 splice`, `3 splices`, `no splices`."""
    return f"{number or 'no'} {one if number == 1 else many or one + 's'}"


class Printed(str):
    """A text that shows computed figures, with the keys of these: a page names them on the element that shows it."""

    figures: tuple[str, ...]
    unsaid: bool  # whether it is words for what nobody told

    def __new__(cls, text: str, *figures: str) -> Printed:
        printed = super().__new__(cls, text)
        printed.figures = figures
        printed.unsaid = is_unsaid(text)
        return printed


def is_unsaid(text: object) -> bool:
    """Whether a text only says that nobody told the fact."""
    return isinstance(text, Unsaid) or (isinstance(text, Printed) and text.unsaid)


def printed(figure: Figure, units: str = "mm") -> Printed:
    """The value of a figure with its unit."""
    return Printed(amount(figure.value, figure.unit, units), figure.key)


def piece_length(piece: CutPiece, units: str) -> Printed:
    """The length of a piece: as it was cut, which is a fact of the record, else as computed."""
    text = amount(piece.length_mm, "mm", units)
    return Printed(text) if piece.recorded_mm is not None else Printed(text, piece.computed.key)


@dataclass(frozen=True)
class InputText:
    """One input of a figure, as printed."""

    name: str
    value: str
    source: str  # whole: with the length and the current behind it
    unit: str = ""  # as stored
    origin: str = ""  # without these
    times: str = ""
    carries: str = ""


@dataclass(frozen=True)
class FigureText:
    """A computed figure, as printed: the value, what it is, and what it was computed from."""

    key: str
    name: str
    value: Printed
    known: bool
    rule: str
    formula: str
    inputs: tuple[InputText, ...]
    missing: str  # why it is not computed, as a sentence without its full stop; '' when the value is known
    note: str


def figure_text(figure: Figure, units: str) -> FigureText:
    """A figure ready to print. `units` is the job's own unit of length."""
    return FigureText(
        key=figure.key,
        name=figure.name,
        value=printed(figure, units),
        known=figure.known,
        rule=figure.rule,
        formula=figure.formula,
        inputs=tuple(_input(given, units) for given in figure.inputs),
        missing=_not_computed(figure.missing),
        note=figure.note,
    )


def _not_computed(missing: tuple[Missing, ...]) -> str:
    """`Not computed: slack, current of horn not recorded`. What says itself what is wrong with it stands as it is."""
    if POSITIVE_GROUND in missing:
        return first_upper(str(POSITIVE_GROUND))
    bare = [str(item) for item in missing if item.is_bare]
    told = [f"{', '.join(bare)} {NOT_RECORDED}"] if bare else []
    told += [str(item) for item in missing if not item.is_bare]
    return f"Not computed: {'; '.join(told)}" if told else ""


def _input(given: Input, units: str) -> InputText:
    """An input as printed; the terminal tells its file and line."""
    return InputText(
        given.name,
        _input_value(given.value, given.unit, units),
        source_text(given.source_on_page),
        given.unit,
        source_text(given.origin),
        given.times,
        given.carries,
    )


def source_text(text: str) -> str:
    """A source with units and the sign of a product as they are printed."""
    return text.replace(" mohm", " mΩ").replace(" mm2 ", " mm² ").replace(" x ", " × ")


def _input_value(value: float | str | None, unit: str, units: str) -> str:
    if isinstance(value, str):
        return f"{value} {unit_text(unit)}".strip()
    return amount(value, unit, units)
