"""Quantities as they are written at the bench, read once at the edge of the file into numbers with a fixed unit.

Every reader takes the text of one YAML value and returns a frozen record that keeps the text as written. What cannot
be read raises `QuantityError`, whose two sentences say what is wrong and how to mend it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from aswired.text.unsaid import NOT_RECORDED

MM_PER_INCH = 25.4
MM_PER = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "″": MM_PER_INCH,
    "ft": 304.8,
    "foot": 304.8,
    "feet": 304.8,
    "'": 304.8,
    "′": 304.8,
}
_ROUNDING = 1e-9  # 700 mV are 0.7 V, though 700 x 0.001 is a little more
MOST_COUNTED = 10**6  # no number of a cavity and no count of them is as large
_DIGITS = len(str(MOST_COUNTED))  # Python refuses to read numbers of thousands of digits
LOOSE = "loose"
UNKNOWN_WORDS = frozenset({"unknown", "not known", "not read", "not measured", "?"})

_NUMBER = r"[-+]?[0-9]{1,9}(?:\.[0-9]{1,9})?"
_FRACTION = r"[0-9]{1,4}/[0-9]{1,4}"
_UNSIGNED = _NUMBER.removeprefix("[-+]?")
_LENGTH_PART = re.compile(
    rf"\s*({_UNSIGNED}|{_FRACTION}|[0-9]{{1,4}} {_FRACTION})\s*(mm|cm|inches|inch|in|feet|foot|ft|m|\"|″|'|′)(?![a-z])"
)
DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d)")
_MAY_PART_THOUSANDS = re.compile(r"\d,\d{3}(?!\d)")
_LONGEST_MM = 1_000_000.0  # no wire of a car is a kilometre long: a slip, such as a missing blank or point


class QuantityError(ValueError):
    """A quantity that cannot be read: `problem` says what is wrong, `mend` what to write instead."""

    def __init__(self, problem: str, mend: str) -> None:
        super().__init__(problem)
        self.problem = problem
        self.mend = mend


@dataclass(frozen=True)
class Length:
    """A length as written; `mm` is None for one that is said to be unknown."""

    text: str
    mm: float | None


@dataclass(frozen=True)
class Size:
    """A conductor size as written. `system` is 'AWG' or 'mm2'; `number` is the AWG number (1/0 = 0, 2/0 = -1) or mm2.

    Both are None for a size that is said to be unknown.
    """

    text: str
    system: str | None
    number: float | None

    @property
    def known(self) -> bool:
        return self.number is not None


@dataclass(frozen=True)
class Quantity:
    """A number with one fixed unit (A, V, W, C, mohm, min, s); `value` is None for one said to be unknown."""

    text: str
    value: float | None
    unit: str


@dataclass(frozen=True)
class Draw:
    """What a load takes: amperes, or watts at a stated voltage. `current_a` is None when unknown."""

    text: str
    current_a: float | None
    power_w: float | None = None
    at_v: float | None = None


@dataclass(frozen=True)
class Reading:
    """A meter reading: a number with V, mV, A, mA, ohm or mohm, stored in the base unit V, A or ohm."""

    text: str
    value: float | None
    unit: str

    def keeps(self, most: Reading | None) -> bool | None:
        """Whether it is not more than a limit; None where that cannot be told: no number, or another unit.

        Its sign only tells which lead was where, so its amount counts.

        >>> read_reading("-0.2 V").keeps(read_reading("0.1 V")), read_reading("700 mV").keeps(read_reading("0.7 V"))
        (False, True)
        """
        if most is None or self.value is None or most.value is None or self.unit != most.unit:
            return None
        return abs(self.value) <= most.value + _ROUNDING

    def reaches(self, least: Reading | None) -> bool | None:
        """Whether it is not less than what it should reach, its sign counted; None where that cannot be told."""
        if least is None or self.value is None or least.value is None or self.unit != least.unit:
            return None
        return self.value >= least.value - _ROUNDING


def half_a_digit(text: str) -> float:
    """Half of the last digit of a written reading, in V, A or ohm.

    >>> half_a_digit("0.06 V"), half_a_digit("14 mA"), half_a_digit("12.0 V")
    (0.005, 0.0005, 0.05)
    """
    found = re.match(r"\s*[-+−]?\d+(?:\.(\d+))?\s*(m?)", text)
    if found is None:
        return 0.0
    return round(0.5 * 10.0 ** -len(found[1] or "") * (0.001 if found[2] else 1.0), 12)


def is_named(end: str) -> bool:
    """Whether a written end names what it sits in: two that are unknown or loose are not one point.

    >>> is_named("FS4"), is_named("unknown"), is_named("loose")
    (True, False, False)
    """
    return not is_unknown(end) and not is_loose(end)


def is_loose(text: str) -> bool:
    """Whether an end is said to be held by nothing: it was cut off before the job began."""
    return text.strip().casefold() == LOOSE


def is_unknown(text: str) -> bool:
    """Whether the text says that the thing is not known."""
    return text.strip().casefold() in UNKNOWN_WORDS


def end_words(end: str) -> str:
    """An end of a wire as a row writes it, in words where it has no name."""
    if is_loose(end):
        return "its loose end"
    return "the end that was not traced" if is_unknown(end) else end


_SIGNS = "-+−–±"  # the two longer dashes are what a word processor makes of a minus
_SIGNS_IN_FRONT = re.compile(rf"[{_SIGNS}](?:\s*[{_SIGNS}])*\s*")


def whole_number(text: str) -> int | None:
    """The number that a text of digits alone is, `MOST_COUNTED` for one of more digits than any count has; else None.

    >>> whole_number("12"), whole_number("9" * 5000) == MOST_COUNTED, whole_number("12a"), whole_number("-1")
    (12, True, None, None)
    """
    if not text.isdecimal():
        return None
    return int(text) if len(text) < _DIGITS else MOST_COUNTED


def natural(name: str) -> tuple[tuple[tuple[int, str], ...], str]:
    """A key that puts a2 before a10, and a07 apart from a7.

    >>> sorted(["W10", "W2"], key=natural)
    ['W2', 'W10']
    """
    parts = ((whole_number(part), part) for part in re.split(r"(\d+)", name))
    key = ((0, part) if number is None else (number, part if number == MOST_COUNTED else "") for number, part in parts)
    return tuple(key), name


def _refuse_slips(text: str) -> None:
    """What a number may not have about it, whatever its unit: a comma, digits of another script, signs that do not
    say whether it is below zero.

    Raises:
        QuantityError: it has one of them.
    """
    if not text.isascii():
        plain = "".join(str(int(char)) if char.isdecimal() else char for char in text)
        if plain != text:
            raise QuantityError(f"'{text}' has other digits than 0 to 9", f"Write {plain}")
    in_front = _SIGNS_IN_FRONT.match(text) if text[:1] in _SIGNS else None
    if in_front and in_front[0] not in ("-", "+"):
        signs, rest = "".join(in_front[0].split()), text[in_front.end() :]
        if len(signs) > 1:
            raise QuantityError(f"'{text}' has more than one sign in front of its number", f"Write one at most: {rest}")
        if signs in ("-", "+"):
            raise QuantityError(f"'{text}' has a blank behind its sign", f"Write {signs}{rest}, or {rest}")
        raise QuantityError(f"'{text}' begins with a sign that is no minus", f"Write -{rest}, or {rest}")
    if DECIMAL_COMMA.search(text):
        raise QuantityError(f"'{text}' has a comma in its number", f"Write {with_point(text)}")


def with_point(text: str) -> str:
    """How to write a number that was typed with a comma; both readings where it may part thousands.

    >>> with_point("1,5 mm2"), with_point("1,200 mm")
    ('1.5 mm2', '1200 mm or 1.200 mm, whichever is meant')
    """
    pointed = DECIMAL_COMMA.sub(".", text)
    if _MAY_PART_THOUSANDS.search(text):
        return f"{DECIMAL_COMMA.sub('', text)} or {pointed}, whichever is meant"
    return pointed


def _number(text: str) -> float:
    if " " in text.strip():
        whole, fraction = text.split()
        return float(whole) + _number(fraction)
    if "/" in text:
        over, under = text.split("/")
        if int(under) == 0:
            raise QuantityError(f"'{text}' divides by zero", "Write a fraction such as 1/2")
        return int(over) / int(under)
    return float(text)


def read_length(text: str) -> Length:
    """A length: `24 in`, `24"`, `9'`, `3 ft 4 in`, `1.2 m`, `40 mm`, `0`, `unknown`. Millimetres inside.

    >>> read_length("3 ft 4 in").mm
    1016.0
    """
    stripped = text.strip()
    if is_unknown(stripped):
        return Length(text, None)
    _refuse_slips(stripped)
    if stripped in ("0", "none"):
        return Length(text, 0.0)
    sign = -1.0 if stripped.startswith("-") else 1.0  # before the whole length: -3 ft 4 in is 40 inches too many
    total, rest, parts = 0.0, stripped[stripped[:1] in ("+", "-") :], 0
    while rest:
        match = _LENGTH_PART.match(rest)
        if not match:
            break
        total += _number(match[1]) * MM_PER[match[2]]
        rest, parts = rest[match.end() :].strip(), parts + 1
    if rest or not parts:
        if re.fullmatch(_NUMBER, stripped):
            raise QuantityError(
                f"the length '{text}' has no unit", f"Write the unit: {stripped} mm, {stripped} in or {stripped} m"
            )
        raise QuantityError(f"'{text}' is not a length", "Write a number with its unit: 24 in, 3 ft 4 in, 40 mm, 1.2 m")
    total = sign * total + 0.0  # no minus on a nought
    if abs(total) > _LONGEST_MM:
        raise QuantityError(f"the length '{text}' is more than a kilometre", "Check the number and its unit")
    return Length(text, round(total, 6))


def length_in(words: str) -> float | None:
    """The first length that stands among other words, as in `adhesive sleeve 1 1/2 in`. [mm]

    Raises:
        QuantityError: it has a sign in front of it, or a comma in it.
    """
    for start in re.finditer("[0-9]", words):
        before = words[max(0, start.start() - 8) : start.start()]
        if re.search(r"[0-9/._]$|[0-9]e$", before, re.IGNORECASE):
            continue  # inside a number, as in 1.5 or 5e3
        match = _LENGTH_PART.match(words, start.start())
        if match and re.search("[0-9],$", before):
            raise QuantityError(f"'{words}' has a comma in its number", f"Write {with_point(words)}")
        sign = re.search(rf"(?:^|\s)([{_SIGNS}]+)$", before)
        if match and sign and sign[1] != "+":
            plain = words[: start.start() - len(sign[1])] + words[start.start() :]
            raise QuantityError(f"the length in '{words}' has a sign in front", f"Write {plain}")
        if match:
            return read_length(match[0]).mm
    return None


def not_below_zero(length: Length) -> Length:
    """The same length.

    Raises:
        QuantityError: it is below zero.
    """
    if length.mm is not None and length.mm < 0:
        raise QuantityError(f"the length '{length.text}' is below zero", "Write it without the minus, or unknown")
    return length


def read_size(text: str) -> Size:
    """A conductor size: `18 AWG`, `2/0 AWG`, `1.5 mm2`, `1.5 mm²`, `unknown`."""
    stripped = text.strip()
    if is_unknown(stripped):
        return Size(text, None, None)
    _refuse_slips(stripped)
    match = re.fullmatch(r"([0-9]{1,2}|[1-4]/0)\s*AWG", stripped, re.IGNORECASE)
    if match and re.fullmatch("0[0-9]", match[1]):
        right = "2/0" if match[1] == "00" else match[1][1]
        raise QuantityError(f"'{text}' begins with a nought that a gauge does not have", f"Write {right} AWG")
    if match:
        number = 1 - int(match[1][0]) if "/" in match[1] else int(match[1])
        if number > 40:
            raise QuantityError(f"'{text}' is not a wire gauge", "Write a gauge between 4/0 AWG and 40 AWG")
        return Size(text, "AWG", float(number))
    match = re.fullmatch(r"([0-9]+(?:\.[0-9]+)?)\s*(?:mm2|mm²|sq ?mm)", stripped, re.IGNORECASE)
    if match:
        area = float(match[1])
        if area <= 0 or area > 500:
            raise QuantityError(
                f"'{text}' is not a conductor size", "Write the area printed on the wire, such as 1.5 mm2"
            )
        return Size(text, "mm2", area)
    if re.fullmatch(_NUMBER, stripped):
        raise QuantityError(f"the size '{text}' has no unit", f"Write {stripped} AWG or {stripped} mm2")
    raise QuantityError(
        f"'{text}' is not a wire size", "Write a size as printed on the wire: 18 AWG, 1.5 mm2, or unknown"
    )


_UNIT_WORDS = {
    "A": ("A", "amp", "amps"),
    "V": ("V", "volt", "volts"),
    "W": ("W", "watt", "watts"),
    "C": ("C", "°C", "deg C"),
    "mohm": ("mohm", "mΩ", "milliohm"),
    "min": ("", "min", "minutes"),
    "s": ("s", "sec", "seconds"),
}


def read_quantity(text: str, unit: str) -> Quantity:
    """A number in one unit (`15 A`, `13.5 V`, `20 C`, `4.8 mohm`, `60 s`) or `unknown`."""
    stripped = text.strip()
    if is_unknown(stripped):
        return Quantity(text, None, unit)
    _refuse_slips(stripped)
    words = "|".join(re.escape(word) for word in sorted(_UNIT_WORDS[unit], key=len, reverse=True))
    match = re.fullmatch(rf"({_NUMBER})\s*({words})", stripped)
    if not match:
        bare = re.fullmatch(_NUMBER, stripped)
        if bare:
            raise QuantityError(f"'{text}' has no unit", f"Write {stripped} {unit}")
        examples = {"A": "15 A", "V": "13.5 V", "W": "55 W", "C": "20 C", "mohm": "4.8 mohm", "min": "12", "s": "60 s"}
        example = examples[unit]
        raise QuantityError(f"'{text}' is not a number in {unit}", f"Write it like {example}, or unknown")
    value = float(match[1])
    if unit in ("A", "V", "s") and value <= 0:  # ratings, supplies, times on: nothing can be divided by them
        raise QuantityError(f"'{text}' is not above zero", "Write the number as moulded or measured, or unknown")
    if unit == "C" and not -200 < value < 1000:
        raise QuantityError(f"'{text}' is no temperature of a wire", "Write the degrees Celsius, as in 20 C")
    if unit != "C" and value < 0:
        raise QuantityError(f"'{text}' is below zero", "Write it without the minus, or unknown")
    return Quantity(text, value + 0.0, unit)


def read_draw(text: str) -> Draw:
    """What a load takes: `8 A`, `350 mA`, `55 W at 12.8 V`, `unknown`. Watts alone are refused: at what voltage?"""
    stripped = text.strip()
    if is_unknown(stripped):
        return Draw(text, None)
    _refuse_slips(stripped)
    match = re.fullmatch(rf"({_NUMBER})\s*(m?)A", stripped)
    if match:
        current = float(match[1]) * (0.001 if match[2] else 1.0)
        if current < 0:
            raise QuantityError(f"'{text}' is below zero", "Write the amperes as a positive number")
        return Draw(text, current + 0.0)
    match = re.fullmatch(rf"({_NUMBER})\s*W(?:\s+at\s+({_NUMBER})\s*V)?", stripped)
    if match and float(match[1]) < 0:
        raise QuantityError(f"'{text}' is below zero", "Write the watts as a positive number")
    if match and match[2] and float(match[2]) > 0:
        power, volts = float(match[1]), float(match[2])
        return Draw(text, power / volts + 0.0, power + 0.0, volts)
    if match:
        raise QuantityError(
            f"'{text}' does not say at what voltage",
            f"Write the volts printed beside it, as in {match[1]} W at 12.8 V; or write amperes",
        )
    raise QuantityError(f"'{text}' is not a load", "Write it like 8 A, 55 W at 12.8 V, or unknown")


_READING = {
    "V": ("V", 1.0),
    "mV": ("V", 0.001),
    "A": ("A", 1.0),
    "mA": ("A", 0.001),
    "ohm": ("ohm", 1.0),
    "Ω": ("ohm", 1.0),
    "mohm": ("ohm", 0.001),
    "mΩ": ("ohm", 0.001),
    "kohm": ("ohm", 1000.0),
}


def read_reading(text: str) -> Reading:
    """A meter reading: `0.06 V`, `14 mA`, `0.2 ohm`, or `not measured`."""
    stripped = text.strip()
    if is_unknown(stripped):
        return Reading(text, None, "")
    _refuse_slips(stripped)
    match = re.fullmatch(rf"({_NUMBER})\s*(\S+)", stripped)
    if not match or match[2] not in _READING:
        raise QuantityError(f"'{text}' is not a reading", "Write the number and V, mV, A, mA, ohm or mohm: 0.06 V")
    unit, factor = _READING[match[2]]
    return Reading(text, float(match[1]) * factor + 0.0, unit)


def show_length(mm: float | None, units: str) -> str:
    """A length for print in the job's own unit (`mm`, `cm`, `m` or `inch`): '1 140 mm', '18.5 in'."""
    if mm is None:
        return NOT_RECORDED
    if units == "inch":
        return f"{_trim(mm / MM_PER_INCH, 2)} in"
    if units == "cm":
        return f"{_trim(mm / 10, 1)} cm"
    if units == "m":
        return f"{_trim(mm / 1000, 3)} m"
    return f"{thousands(round(mm))} mm"


def show_both(mm: float | None, units: str) -> str:
    """A length in the job's unit, with millimetres behind it that stay on one line: '18 in (457 mm)'."""
    first = show_length(mm, units)
    return first if mm is None or units == "mm" else f"{first} ({thousands(round(mm))}\u00a0mm)"


def _trim(value: float, digits: int) -> str:
    return f"{value:.{digits}f}".rstrip("0").rstrip(".") or "0"


def thousands(number: int) -> str:
    """A whole number with a narrow space between thousands at which no line breaks, as the pages print it."""
    return f"{number:,}".replace(",", "\u202f")
