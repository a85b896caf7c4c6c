"""Quantities, colours and one-line forms at their edges: the last number that is read, the first that is refused."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping

import pytest

from aswired.record import forms
from aswired.text import colours, one_line, units
from aswired.text.units import QuantityError, read_draw, read_length, read_quantity, read_reading, read_size

LETTERS: Mapping[str, str] = {"L": "BU", "gruen": "green"}


def told(reader: Callable[[str], object], text: str) -> tuple[str, str]:
    with pytest.raises(QuantityError) as caught:
        reader(text)
    return caught.value.problem, caught.value.mend


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("0", 0),
        ("none", 0),
        ("1 1/2 in", 38.1),  # 1.5 x 25.4
        ("3/4 in", 19.05),
        ("2 ft 1 1/2 in", 647.7),  # 25.5 x 25.4
        ("1.5 cm", 15),
        ("2 m 5 cm 3 mm", 2053),
        ("-3 ft 4 in", -1016),  # the sign stands before the whole length: 40 x 25.4
        ("+2 in", 50.8),
        ("1000 m", 1_000_000),  # a kilometre, and no more
        ("-1000 m", -1_000_000),
    ],
)
def test_lengths_in_millimetres(text: str, mm: float) -> None:
    assert read_length(text).mm == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize("text", ["1000.001 m", "-1000.001 m"])
def test_what_is_more_than_a_kilometre_is_a_slip_on_either_side_of_nought(text: str) -> None:
    assert told(read_length, text) == (
        f"the length '{text}' is more than a kilometre",
        "Check the number and its unit",
    )


@pytest.mark.parametrize("text", ["5 mm and more", "more 5 mm", "5 mmm", "1/2/3 in"])
def test_words_beside_a_length_are_not_lost(text: str) -> None:
    assert told(read_length, text) == (
        f"'{text}' is not a length",
        "Write a number with its unit: 24 in, 3 ft 4 in, 40 mm, 1.2 m",
    )


@pytest.mark.parametrize(
    ("words", "mm"),
    [
        ("adhesive sleeve 1 1/2 in", 38.1),
        ("sleeve 40 mm over tape 60 mm", 40),  # the first of several
        ("size 6 sleeve 40 mm", 40),  # a number without a unit is no length
        ("plain sleeve", None),
        ("sleeve no. 1.5 mm", 1.5),
        ("sleeve +40 mm", 40),
    ],
)
def test_the_first_length_among_words(words: str, mm: float | None) -> None:
    assert units.length_in(words) == (None if mm is None else pytest.approx(mm))


def test_a_length_among_words_with_a_sign_or_a_comma_is_told() -> None:
    assert told(units.length_in, "sleeve -40 mm") == ("the length in 'sleeve -40 mm' has a sign in front",
                                                      "Write sleeve 40 mm")  # fmt: skip
    assert told(units.length_in, "sleeve 1,5 in") == ("'sleeve 1,5 in' has a comma in its number",
                                                      "Write sleeve 1.5 in")  # fmt: skip
    # a comma between words, and a sign with no length behind it, are neither
    assert units.length_in("sleeve, 40 mm") == 40
    assert units.length_in("sleeve -2, 40 mm") == 40


def test_a_length_below_zero_is_told_and_nought_is_not() -> None:
    assert units.not_below_zero(read_length("0 mm")).mm == 0
    assert units.not_below_zero(read_length("unknown")).mm is None
    assert told(lambda text: units.not_below_zero(read_length(text)), "-1 mm") == (
        "the length '-1 mm' is below zero",
        "Write it without the minus, or unknown",
    )


@pytest.mark.parametrize("text", ["0 mm", "-5 mm"])
def test_a_step_to_round_up_by_is_above_nought(text: str) -> None:
    assert told(lambda given: forms.STEP.read(given, {}), text) == (
        f"'{text}' is no step to round up by",
        "Write it as in 5 mm, or take the line out",
    )
    assert forms.STEP.read("1 mm", {}).mm == 1
    assert forms.STEP.read("unknown", {}).mm is None


@pytest.mark.parametrize(("text", "value"), [("0", 0), ("1", 1), ("+0.5", 0.5), (".5", 0.5), ("1.", 1), ("1.000", 1)])
def test_a_fraction_of_a_picture_lies_between_its_edges(text: str, value: float) -> None:
    assert forms.FRACTION.read(text, {}) == value


@pytest.mark.parametrize("text", ["1.001", "-0.1", ".", "+", "", "half"])
def test_what_is_no_fraction_of_a_picture_is_told(text: str) -> None:
    assert told(lambda given: forms.FRACTION.read(given, {}), text) == (
        f"'{text}' is not a fraction of the picture",
        "Write a number between 0 and 1, such as 0.42",
    )


@pytest.mark.parametrize(
    ("text", "system", "number"),
    [("40 AWG", "AWG", 40), ("0 AWG", "AWG", 0), ("2/0 AWG", "AWG", -1), ("4/0 AWG", "AWG", -3),
     ("500 mm2", "mm2", 500), ("0.05 mm2", "mm2", 0.05)],
)  # fmt: skip
def test_the_thinnest_and_the_thickest_conductor_that_is_read(text: str, system: str, number: float) -> None:
    size = read_size(text)
    assert (size.system, size.number) == (system, number)


@pytest.mark.parametrize(
    ("text", "problem", "mend"),
    [
        ("41 AWG", "'41 AWG' is not a wire gauge", "Write a gauge between 4/0 AWG and 40 AWG"),
        ("0 mm2", "'0 mm2' is not a conductor size", "Write the area printed on the wire, such as 1.5 mm2"),
        ("500.1 mm2", "'500.1 mm2' is not a conductor size", "Write the area printed on the wire, such as 1.5 mm2"),
        ("18", "the size '18' has no unit", "Write 18 AWG or 18 mm2"),
        ("thin", "'thin' is not a wire size", "Write a size as printed on the wire: 18 AWG, 1.5 mm2, or unknown"),
        ("09 AWG", "'09 AWG' begins with a nought that a gauge does not have", "Write 9 AWG"),
        ("00 AWG", "'00 AWG' begins with a nought that a gauge does not have", "Write 2/0 AWG"),
    ],
)
def test_what_is_no_size_says_why(text: str, problem: str, mend: str) -> None:
    assert told(read_size, text) == (problem, mend)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [("0.5 A", "A", 0.5), ("15 amps", "A", 15), ("-199 C", "C", -199), ("999 deg C", "C", 999), ("0 C", "C", 0),
     ("0 mohm", "mohm", 0), ("1.5 milliohm", "mohm", 1.5), ("0", "min", 0), ("12 minutes", "min", 12),
     ("55 watts", "W", 55), ("0 W", "W", 0),
     ("60 s", "s", 60), ("0.5 sec", "s", 0.5), ("90 seconds", "s", 90)],
)  # fmt: skip
def test_numbers_with_their_unit(text: str, unit: str, value: float) -> None:
    quantity = read_quantity(text, unit)
    assert (quantity.value, quantity.unit) == (value, unit)


@pytest.mark.parametrize(
    ("text", "unit", "problem", "mend"),
    [
        ("0 A", "A", "'0 A' is not above zero", "Write the number as moulded or measured, or unknown"),
        ("0 V", "V", "'0 V' is not above zero", "Write the number as moulded or measured, or unknown"),
        ("0 s", "s", "'0 s' is not above zero", "Write the number as moulded or measured, or unknown"),
        ("60", "s", "'60' has no unit", "Write 60 s"),
        ("2 min", "s", "'2 min' is not a number in s", "Write it like 60 s, or unknown"),
        ("-200 C", "C", "'-200 C' is no temperature of a wire", "Write the degrees Celsius, as in 20 C"),
        ("1000 C", "C", "'1000 C' is no temperature of a wire", "Write the degrees Celsius, as in 20 C"),
        ("-1 mohm", "mohm", "'-1 mohm' is below zero", "Write it without the minus, or unknown"),
        ("-1", "min", "'-1' is below zero", "Write it without the minus, or unknown"),
        ("15", "A", "'15' has no unit", "Write 15 A"),
        ("15 V", "A", "'15 V' is not a number in A", "Write it like 15 A, or unknown"),
        ("few", "V", "'few' is not a number in V", "Write it like 13.5 V, or unknown"),
        ("few", "W", "'few' is not a number in W", "Write it like 55 W, or unknown"),
        ("few", "C", "'few' is not a number in C", "Write it like 20 C, or unknown"),
        ("few", "mohm", "'few' is not a number in mohm", "Write it like 4.8 mohm, or unknown"),
        ("few", "min", "'few' is not a number in min", "Write it like 12, or unknown"),
    ],
)
def test_a_number_that_its_unit_does_not_have_is_told(text: str, unit: str, problem: str, mend: str) -> None:
    assert told(lambda given: read_quantity(given, unit), text) == (problem, mend)


def test_a_load_keeps_its_watts_and_its_volts() -> None:
    draw = read_draw("60 W at 12 V")
    assert (draw.current_a, draw.power_w, draw.at_v) == (5, 60, 12)
    assert read_draw("0 W at 12 V").current_a == 0
    draw = read_draw("250mA")
    assert (draw.current_a, draw.power_w, draw.at_v) == (0.25, None, None)
    assert read_draw("0 A").current_a == 0


@pytest.mark.parametrize(
    ("text", "problem", "mend"),
    [
        ("-1 A", "'-1 A' is below zero", "Write the amperes as a positive number"),
        ("-1 W at 12 V", "'-1 W at 12 V' is below zero", "Write the watts as a positive number"),
        ("-1 W", "'-1 W' is below zero", "Write the watts as a positive number"),
        ("5 W", "'5 W' does not say at what voltage",
         "Write the volts printed beside it, as in 5 W at 12.8 V; or write amperes"),
        ("5 W at 0 V", "'5 W at 0 V' does not say at what voltage",
         "Write the volts printed beside it, as in 5 W at 12.8 V; or write amperes"),
        ("5 W at -2 V", "'5 W at -2 V' does not say at what voltage",
         "Write the volts printed beside it, as in 5 W at 12.8 V; or write amperes"),
        ("5 V", "'5 V' is not a load", "Write it like 8 A, 55 W at 12.8 V, or unknown"),
    ],
)  # fmt: skip
def test_a_load_that_cannot_be_read_says_why(text: str, problem: str, mend: str) -> None:
    assert told(read_draw, text) == (problem, mend)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [("5 V", 5, "V"), ("5 mV", 0.005, "V"), ("5 A", 5, "A"), ("5 mA", 0.005, "A"), ("5 ohm", 5, "ohm"),
     ("5 Ω", 5, "ohm"), ("5 mohm", 0.005, "ohm"), ("5 mΩ", 0.005, "ohm"), ("5 kohm", 5000, "ohm")],
)  # fmt: skip
def test_every_unit_of_a_meter(text: str, value: float, unit: str) -> None:
    reading = read_reading(text)
    assert (reading.value, reading.unit) == (pytest.approx(value), unit)


@pytest.mark.parametrize("text", ["5", "5 W", "V", "5 V or so"])
def test_what_is_no_reading_is_told(text: str) -> None:
    assert told(read_reading, text) == (
        f"'{text}' is not a reading",
        "Write the number and V, mV, A, mA, ohm or mohm: 0.06 V",
    )


@pytest.mark.parametrize(
    ("text", "limit", "keeps", "reaches"),
    [
        ("0.1 V", "100 mV", True, True),  # the limit itself is kept, and reached
        ("0.09 V", "0.1 V", True, False),
        ("0.11 V", "0.1 V", False, True),
        ("-0.11 V", "0.1 V", False, False),  # the leads were the other way round: the amount counts for the first
        ("-0.09 V", "0.1 V", True, False),
        ("0.1 A", "0.1 V", None, None),
        ("not measured", "0.1 V", None, None),
        ("0.1 V", "unknown", None, None),
        ("0.1 V", None, None, None),
    ],
)
def test_a_reading_is_held_to_a_limit_of_its_own_unit(
    text: str, limit: str | None, keeps: bool | None, reaches: bool | None
) -> None:
    held_to = None if limit is None else read_reading(limit)
    assert (read_reading(text).keeps(held_to), read_reading(text).reaches(held_to)) == (keeps, reaches)


@pytest.mark.parametrize(
    ("mm", "unit", "shown", "both"),
    [
        (1234.4, "mm", "1\u202f234 mm", "1\u202f234 mm"),
        (1234.4, "cm", "123.4 cm", "123.4 cm (1\u202f234\u00a0mm)"),
        (1230, "cm", "123 cm", "123 cm (1\u202f230\u00a0mm)"),
        (1234.4, "m", "1.234 m", "1.234 m (1\u202f234\u00a0mm)"),
        (2000, "m", "2 m", "2 m (2\u202f000\u00a0mm)"),
        (101.6, "inch", "4 in", "4 in (102\u00a0mm)"),
        (100, "inch", "3.94 in", "3.94 in (100\u00a0mm)"),  # 100 / 25.4 = 3.937
        (254, "inch", "10 in", "10 in (254\u00a0mm)"),
        (0, "m", "0 m", "0 m (0\u00a0mm)"),
        (None, "m", "not recorded", "not recorded"),
        (None, "mm", "not recorded", "not recorded"),
    ],
)
def test_a_length_in_the_unit_of_the_job(mm: float | None, unit: str, shown: str, both: str) -> None:
    assert (units.show_length(mm, unit), units.show_both(mm, unit)) == (shown, both)


def test_names_stand_in_the_order_of_their_numbers() -> None:
    names = ["W10", "W2", "W2b", "A1", "W02", "W100", "W2a", "B"]
    assert sorted(names, key=units.natural) == ["A1", "B", "W02", "W2", "W2a", "W2b", "W10", "W100"]


# ---- colours --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("text", "code", "words"),
    [
        ("GN", "GN", "green"),
        ("gn/wh", "GN/WH", "green, white stripe"),
        ("green/white/red", "GN/WH/RD", "green, white and red stripes"),
        ("light GN", "light GN", "light green"),
        ("Dark green/L", "dark GN/BU", "dark green, blue stripe"),
        ("gruen", "GN", "green"),
        ("GNYE", "GN/YE", "green, yellow stripe"),
        ("light gnye", "light GN/YE", "light green, yellow stripe"),
        ("unknown", "unknown", "colour not read"),
    ],
)
def test_a_colour_as_a_code_and_in_words(text: str, code: str, words: str) -> None:
    colour = colours.read_colour(text, LETTERS)
    assert (colour.code, colour.words) == (code, words)


def test_what_is_no_colour_is_told() -> None:
    assert told(colours.read_colour, "GN/WH/RD/BK") == (
        "the colour 'GN/WH/RD/BK' has more than two stripes",
        "Write base/stripe or base/stripe/second stripe",
    )
    assert told(colours.read_colour, "L/WH")[0] == "'L' is not a colour"  # without the donor's letters
    assert told(colours.read_colour, "GN/")[0] == "'GN/' is not a colour"
    assert told(colours.read_colour, "grene") == ("'grene' is not a colour", "Did you mean green?")


# ---- forms ----------------------------------------------------------------------------------------------------------
def test_a_step_of_work_has_a_day_and_who_did_it() -> None:
    done = one_line.read_done("2031-05-03  AK and JB", {})
    assert (done.date, done.by, done.day_as_written) == (datetime.date(2031, 5, 3), "AK and JB", "2031-05-03")
    alone = one_line.read_done("2031-05-03", {})
    assert (alone.date, alone.by) == (datetime.date(2031, 5, 3), "")
    yes = one_line.read_done("Yes", {})
    assert (yes.date, yes.by, yes.day_as_written) == (None, "", "yes")
    doubted = done.doubted(one_line.Doubt.TO_COME)
    assert (doubted.date, doubted.said, doubted.day_as_written) == (None, datetime.date(2031, 5, 3), "2031-05-03")
    assert one_line.read_handed_over("2031-05-03", {}) == datetime.date(2031, 5, 3)
    assert one_line.read_handed_over("not yet", {}) is None
    assert told(lambda text: one_line.read_handed_over(text, {}), "yes") == (
        "'yes' does not say when",
        "Write the date of hand-over, or: not yet",
    )


def test_a_piece_has_the_offcut_it_came_from() -> None:
    piece = one_line.read_piece("L/WH 1.5 mm2 from O3", LETTERS)
    assert (piece.colour.code, piece.size.number, piece.size.system, piece.offcut) == ("BU/WH", 1.5, "mm2", "O3")
    new = one_line.read_piece("BU 18 AWG", {})
    assert (new.colour.code, new.size.number, new.size.system, new.offcut) == ("BU", 18, "AWG", "")


def test_an_offcut_has_its_length_insulation_and_condition() -> None:
    offcut = one_line.read_offcut("RD 18 AWG 2.4 m, cross-linked, browned", {})
    assert (offcut.colour.code, offcut.size.number, offcut.length.mm) == ("RD", 18, 2400)
    assert (offcut.insulation, offcut.condition) == ("cross-linked", "browned")
    other = one_line.read_offcut("BU/WH 6 ft 2 in, oily, PVC", {})
    assert (other.colour.code, other.size.number, other.length.mm) == ("BU/WH", None, pytest.approx(74 * 25.4))
    assert (other.insulation, other.condition) == ("PVC", "oily")
    assert one_line.read_offcut("BU unknown", {}).length.mm is None


@pytest.mark.parametrize(
    ("text", "thinnest", "thickest"),
    [("0.5-1.5 mm2", 0.5, 1.5), ("1.5-0.5 mm2", 0.5, 1.5), ("20-16 AWG", 20, 16), ("16 - 20 AWG", 20, 16),
     ("18 AWG", 18, 18), ("2.5 mm2", 2.5, 2.5), ("1/0-2/0 AWG", 0, -1), ("1-1/0 AWG", 1, 0),
     ("1/0-1 AWG", 1, 0)],
)  # fmt: skip
def test_a_range_of_sizes_runs_from_thin_to_thick(text: str, thinnest: float, thickest: float) -> None:
    found = one_line.read_range(text, {})
    assert (found.thinnest.number, found.thickest.number) == (thinnest, thickest)


def test_what_a_wire_was_has_two_ends_and_its_length_where_it_was_measured() -> None:
    was = one_line.read_was("GN/WH 18 AWG, FS4 to siren-plug.1, 4 ft", {})
    assert (was.colour.code, was.size.number, was.ends) == ("GN/WH", 18, ("FS4", "siren-plug.1"))
    assert was.length is not None
    assert was.length.mm == pytest.approx(48 * 25.4)
    short = one_line.read_was("GN, Loose to ?", {})
    assert (short.size.number, short.ends, short.length) == (None, ("loose", "unknown"), None)
    assert told(lambda text: one_line.read_was(text, {}), "GN 18 AWG, F1 to a.1, 1,5 m") == (
        "the length '1,5 m' has a comma",
        "Write it 1.5 m",
    )
    for text in ("GN 18 AWG", "GN 18 AWG, F1", "GN 18 AWG, F1 to a.1, 1 m, 2 m"):
        assert told(lambda text: one_line.read_was(text, {}), text)[0] == f"'{text}' does not say what the wire was"


def test_how_an_end_was_left() -> None:
    fate = one_line.read_fate("capped 30 mm", {})
    assert (fate.word, fate.stub.mm if fate.stub else None) == ("capped", 30)
    assert one_line.read_fate("pulled", {}).stub is None
    for word in ("gone", "pulled", "flush", "unknown"):
        assert told(lambda text: one_line.read_fate(text, {}), f"{word} 30 mm") == (
            f"'{word} 30 mm' gives a length to an end that has none",
            f"Write {word} alone, or capped 30 mm",
        )
    assert told(lambda text: one_line.read_fate(text, {}), "caped")[1] == "Did you mean capped?"
    assert told(lambda text: one_line.read_fate(text, {}), "scrapped")[1].startswith("Write gone (scrapped with")
    words = {fate.word: one_line.how_closed(fate) for fate in (one_line.read_fate(t, {}) for t in one_line.FATES)}
    said = "not said how it was left"
    assert words == {"capped": "capped", "taped": "under tape", "uncapped": "left open", "gone": said, "pulled": said,
                     "flush": said, "unknown": said}  # fmt: skip
    assert one_line.how_closed(one_line.HELD_BY_NOTHING) == "cut off before"
    assert one_line.how_closed(None) == said


def test_a_joint_has_a_form_a_fixing_and_what_is_said_behind_it() -> None:
    joint = one_line.read_joint("butt, crimped, barrel 1.5-0.5 mm2, tinned first", {})
    assert (joint.form, joint.fixing, joint.tinned_first) == ("butt", "crimped", True)
    assert joint.barrel is not None
    assert (joint.barrel.thinnest.number, joint.barrel.thickest.number) == (0.5, 1.5)
    alone = one_line.read_joint("lap", {})
    assert (alone.form, alone.fixing, alone.tinned_first, alone.barrel) == ("lap", "unknown", False, None)
    # the fixing stands right behind the form, once
    for text, word in (("lap, soldered, crimped", "crimped"), ("lap, tinned first, soldered", "soldered")):
        assert told(lambda text: one_line.read_joint(text, {}), text) == (
            f"'{word}' is not how a joint is fixed",
            "Write soldered, crimped, both, none or unknown",
        )


@pytest.mark.parametrize(
    ("text", "bare", "adhesive", "tape", "mm"),
    [
        ("none", True, False, False, None),
        ("Bare", True, False, False, None),
        ("adhesive sleeve 40 mm", False, True, False, 40),
        ("plain sleeve", False, False, False, None),
        ("cloth tape", False, False, True, None),
        ("self-fusing band", False, False, True, None),
        ("shrink wrap", False, False, False, None),
        ("sleeve over cloth", False, False, False, None),
        ("crimp cap", False, False, False, None),
        ("husband's own", False, False, False, None),
    ],
)
def test_what_covers_a_joint(text: str, bare: bool, adhesive: bool, tape: bool, mm: float | None) -> None:
    cover = one_line.read_cover(text, {})
    assert (cover.bare, cover.adhesive, cover.tape, cover.length_mm) == (bare, adhesive, tape, mm)


@pytest.mark.parametrize(
    ("text", "shared", "hole", "position"),
    [
        ("new, M6, 2nd from base", "", "M6", 2),
        ("old, 5/16 in", "", "5/16 in", None),
        ("new, 1st from base", "", "", 1),
        ("new", "", "", None),
        ("with C12", "C12", "", None),
    ],
)
def test_a_ring_on_its_stud(text: str, shared: str, hole: str, position: int | None) -> None:
    ring = one_line.read_ring(text, {})
    assert (ring.shared_with, ring.hole, ring.position) == (shared, hole, position)


def test_conditions_counts_and_pairs_of_ends() -> None:
    condition = one_line.read_condition("heater is diesel", {})
    assert (condition.option, condition.value, condition.negated) == ("heater", "diesel", False)
    condition = one_line.read_condition("gear box is not manual", {})
    assert (condition.option, condition.value, condition.negated) == ("gear box", "manual", True)
    assert one_line.read_two_ends("a.1  Loose", {}) == ("a.1", "loose")
    for text in ("a.1", "a.1 a.2 a.3", ""):
        assert told(lambda text: one_line.read_two_ends(text, {}), text)[0] == f"'{text}' does not name two ends"
    assert [one_line.read_count(text, {}) for text in ("1", "999", " 4 ")] == [1, 999, 4]
    for text in ("0", "000", "1000", "-1", "4.0", "many"):
        assert told(lambda text: one_line.read_count(text, {}), text)[0] == f"'{text}' is not a whole number above zero"
    assert (one_line.read_yes_no("Yes", {}), one_line.read_yes_no("no", {})) == (True, False)
    assert told(lambda text: one_line.read_yes_no(text, {}), "maybe") == (
        "'maybe' is neither yes nor no",
        "Write yes or no",
    )


@pytest.mark.parametrize(
    ("text", "mend"),
    [("batt+", "Write battery+"), ("Bat -", "Write battery-"), ("BATTERY", "Write battery+ or battery-"),
     ("Battery+", "Write battery+")],
)  # fmt: skip
def test_an_end_says_which_post_of_the_battery(text: str, mend: str) -> None:
    assert told(lambda text: one_line.read_end(text, {}), text) == (
        f"'{text}' is not one of the two battery posts",
        mend,
    )
    assert [one_line.read_end(end, {}) for end in ("battery+", "battery-", "battery-tray")] == [
        "battery+",
        "battery-",
        "battery-tray",
    ]
    assert (one_line.read_way_back("?", {}), one_line.read_way_back("battery-", {})) == ("", "battery-")
    assert (one_line.read_option("?", {}), one_line.read_option("diesel", {})) == ("unknown", "diesel")
