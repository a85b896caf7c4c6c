"""Quantities as written at the bench: every legal form of one length is one length, and what is not legal says why."""

import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from aswired.text import one_line, units
from aswired.text.units import QuantityError, read_draw, read_length, read_quantity, read_reading, read_size

INCH = Fraction("25.4")  # [mm], exact by definition (international yard and pound agreement, 1959)


def decimal(value: Fraction) -> str:
    """A fraction with a finite decimal form, written out in full."""
    scaled = value * 10**9
    assert scaled.denominator == 1
    whole, rest = divmod(abs(scaled.numerator), 10**9)
    digits = f"{whole}.{rest:09d}".rstrip("0").rstrip(".")
    return f"-{digits}" if value < 0 else digits


def forms(eighths: int) -> list[str]:
    """Every way to write a length of so many eighths of an inch."""
    inches = Fraction(eighths, 8)
    mm = inches * INCH
    feet, rest = divmod(inches, 12)
    whole, part = divmod(rest, 1)
    fraction = f"{part.numerator}/{part.denominator}"
    mixed = f"{whole} {fraction}" if whole and part else fraction if part else str(whole)
    found = [f"{decimal(inches)}{blank}{unit}" for blank in ("", " ") for unit in ("in", "inch", "inches", '"', "″")]
    found += [f"{decimal(mm)} mm", f"{decimal(mm / 10)} cm", f"{decimal(mm / 1000)} m", f"{decimal(mm)}mm"]
    found += [f"{feet} ft {decimal(rest)} in", f"{feet}' {decimal(rest)}\"", f"{feet}ft {decimal(rest)}in"]
    found += [f"{feet} feet {mixed} inches", f"{feet}′{mixed}″", f"  {feet} foot  {mixed} inch "]
    return found


@given(st.integers(1, 8 * 1200))
def test_every_form_of_a_length_reads_to_the_same_millimetres(eighths: int) -> None:
    wanted = float(Fraction(eighths, 8) * INCH)
    for text in forms(eighths):
        read = read_length(text)
        assert read.text == text
        assert read.mm == pytest.approx(wanted, abs=1e-6), text


@given(st.integers(-10_000, 10_000))
def test_a_gap_below_zero_keeps_its_sign(mm: int) -> None:
    assert read_length(f"{mm} mm").mm == mm


@pytest.mark.parametrize("text", ["unknown", "Unknown", "not measured", "?", " not known "])
def test_a_length_that_is_said_to_be_unknown_is_none_and_never_zero(text: str) -> None:
    assert read_length(text).mm is None
    assert read_length("0").mm == 0


@pytest.mark.parametrize(
    ("text", "problem", "mend"),
    [
        ("18", "the length '18' has no unit", "Write the unit: 18 mm, 18 in or 18 m"),
        ("1,5 mm", "'1,5 mm' has a comma in its number", "Write 1.5 mm"),
        ("1,200 mm", "'1,200 mm' has a comma in its number", "Write 1200 mm or 1.200 mm, whichever is meant"),
        ("1/0 in", "'1/0' divides by zero", "Write a fraction such as 1/2"),
        ("2000 m", "the length '2000 m' is more than a kilometre", "Check the number and its unit"),
    ],
)
def test_a_length_that_cannot_be_read_says_what_to_write(text: str, problem: str, mend: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_length(text)
    assert (caught.value.problem, caught.value.mend) == (problem, mend)


@pytest.mark.parametrize("text", ["", "mm", "3 ft 4", "24 inn", "24 yd", "5 in 3", "half a foot", "1..2 m", "9" * 30])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_length(text)


@pytest.mark.parametrize(
    ("text", "system", "number"),
    [
        ("18 AWG", "AWG", 18),
        ("18awg", "AWG", 18),
        ("1/0 AWG", "AWG", 0),
        ("4/0 AWG", "AWG", -3),
        ("1.5 mm2", "mm2", 1.5),
        ("0.75mm²", "mm2", 0.75),
        ("10 sq mm", "mm2", 10),
        ("unknown", None, None),
    ],
)
def test_sizes(text: str, system: str | None, number: float | None) -> None:
    size = read_size(text)
    assert (size.system, size.number, size.known) == (system, number, number is not None)


@pytest.mark.parametrize("text", ["18", "AWG 18", "41 AWG", "0 mm2", "1,5 mm2", "5/0 AWG", "-1 mm2", "900 mm2"])
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_size(text)


@pytest.mark.parametrize(
    ("text", "amperes"),
    [("8 A", 8), ("350 mA", 0.35), ("55 W at 12.8 V", 55 / 12.8), ("21W at 13.5V", 21 / 13.5), ("unknown", None)],
)
def test_a_load_in_amperes_or_in_watts_at_its_volts(text: str, amperes: float | None) -> None:
    assert read_draw(text).current_a == (None if amperes is None else pytest.approx(amperes))


@pytest.mark.parametrize("text", ["55 W", "55 W at 0 V", "-3 A", "lots", "8", "5,5 A"])
def test_a_load_without_its_volts_or_unit_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_draw(text)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("0.06 V", 0.06, "V"),
        ("60 mV", 0.06, "V"),
        ("14 mA", 0.014, "A"),
        ("0.2 ohm", 0.2, "ohm"),
        ("200 mΩ", 0.2, "ohm"),
        ("10 kohm", 10_000, "ohm"),
        ("-0.3 V", -0.3, "V"),
    ],
)
def test_readings_are_kept_in_the_base_unit(text: str, value: float, unit: str) -> None:
    reading = read_reading(text)
    assert reading.unit == unit
    assert reading.value == pytest.approx(value)


def test_a_reading_that_was_not_taken_is_none() -> None:
    assert read_reading("not measured").value is None


@pytest.mark.parametrize(("text", "unit", "value"), [("15 A", "A", 15), ("13.5 volts", "V", 13.5), ("12", "min", 12)])
def test_numbers_in_one_unit(text: str, unit: str, value: float) -> None:
    assert read_quantity(text, unit).value == value


READERS: dict[str, Callable[[str], object]] = {
    "length": read_length,
    "size": read_size,
    "amperes": lambda text: read_quantity(text, "A"),
    "draw": read_draw,
    "reading": read_reading,
    **{
        name: lambda text, name=name: getattr(one_line, f"read_{name}")(text, {"L": "BU"})
        for name in (
            "done", "handed_over", "piece", "offcut", "was", "fate", "joint", "cover", "ring", "condition",
            "two_ends", "yes_no", "text",
        )
    },
}  # fmt: skip
WORDS = st.sampled_from(
    ["1", "18", "9" * 400, "0", "1/2", "1/0", "-3", "1.5", "1,5", "٣", "²", "mm", "mm2", "in", "AWG", "W at", "V", "A",
     '"', "BU", "L/WH", "GN/WH/RD/BK", "light", "unknown", "from", "O3", "capped", "gone", "lap", "new", "M6", "with",
     "is", "not", "2024-02-30", "2024-05-03", "AK", "yes", "th from base", "2nd from base", ",", "/", " ", "\u00a0",
     "\n"]
)  # fmt: skip


def refusal(reader: Callable[[str], object], text: str) -> QuantityError | None:
    """Why a text is refused, or None when it is read. Any other error goes through."""
    try:
        reader(text)
    except QuantityError as no:
        return no
    return None


@pytest.mark.parametrize("reader", READERS)
@given(text=st.lists(WORDS, max_size=8).map(" ".join) | st.lists(WORDS, max_size=8).map("".join) | st.text(max_size=20))
def test_any_text_is_read_or_refused_with_a_reason_and_a_mend(reader: str, text: str) -> None:
    no = refusal(READERS[reader], text)
    assert no is None or (no.problem.strip() and len(no.mend) > 5)


# numbers that a float may not hold, in front of the units of a length
HUGE = st.sampled_from(
    ["1", "0", "1/2", "-3", "1.5", "9" * 400, "1" + "0" * 310, "0." + "0" * 400 + "1", "1/" + "9" * 400]
)


@given(st.lists(st.tuples(HUGE, st.sampled_from(["mm", "cm", "m", "in", "ft"])), min_size=1, max_size=3))
def test_a_length_that_is_read_is_a_finite_number(parts: list[tuple[str, str]]) -> None:
    text = " ".join(f"{number} {unit}" for number, unit in parts)
    no = refusal(READERS["length"], text)
    assume(no is None)
    mm = read_length(text).mm
    assert mm is not None
    assert math.isfinite(mm)


def test_a_length_that_no_number_holds_is_refused() -> None:
    for number in ("9" * 400, "1" + "0" * 310):
        no = refusal(READERS["length"], f"{number} mm")
        assert no is not None, number
        assert no.mend


@pytest.mark.parametrize(
    ("reader", "text"),
    [
        ("amperes", "0 A"),
        ("amperes", "-5 A"),
        ("draw", "-8 A"),
        ("draw", "-55 W at 12.8 V"),
        ("fate", "capped -3 mm"),
        ("offcut", "RD 18 AWG -2 m"),
        ("was", "GN 18 AWG, F7 to lamp.1, -2 m"),
    ],
)
def test_what_cannot_be_below_zero_is_refused(reader: str, text: str) -> None:
    assert refusal(READERS[reader], text) is not None
    assert refusal(READERS[reader], text.replace("-", "").replace("0 A", "10 A")) is None


def test_a_supply_of_nothing_and_a_wire_colder_than_copper_can_be_are_refused() -> None:
    assert refusal(lambda text: read_quantity(text, "V"), "0 V") is not None
    assert refusal(lambda text: read_quantity(text, "C"), "-300 C") is not None
    assert read_quantity("-40 C", "C").value == -40


def test_lengths_are_shown_with_the_digits_of_their_unit() -> None:
    assert units.show_length(1140, "mm") == "1\u202f140 mm"
    assert units.show_length(469.9, "inch") == "18.5 in"
    assert units.show_both(457.2, "inch") == "18 in (457\u00a0mm)"
    assert units.show_length(None, "mm") == "not recorded"
