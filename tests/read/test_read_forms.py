"""Colours and the one-line forms: a piece, a fate, a date with initials, a ring and their like."""

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.text.colours import WORDS, read_colour
from aswired.text.one_line import (
    read_condition,
    read_cover,
    read_done,
    read_fate,
    read_handed_over,
    read_joint,
    read_offcut,
    read_piece,
    read_ring,
    read_two_ends,
    read_was,
    read_yes_no,
)
from aswired.text.units import QuantityError

CODES = st.sampled_from(sorted(WORDS))


@given(CODES, st.lists(CODES, max_size=2), st.sampled_from(["", "light ", "dark "]))
def test_codes_and_words_of_one_colour_read_alike(base: str, stripes: list[str], shade: str) -> None:
    codes = [base, *stripes]
    by_code = read_colour(shade + "/".join(codes))
    by_word = read_colour(shade + "/".join(WORDS[code] for code in codes))
    small = read_colour(shade + " / ".join(codes).lower())
    for colour in (by_code, by_word, small):
        assert (colour.base, colour.stripes, colour.shade) == (base, tuple(stripes), shade.strip())
    again = read_colour(by_code.code)
    assert (again.base, again.stripes, again.shade) == (by_code.base, by_code.stripes, by_code.shade)


def test_the_donors_own_letters_come_before_the_codes() -> None:
    colour = read_colour("L/W", {"L": "BU", "W": "white"})
    assert (colour.base, colour.stripes, colour.text) == ("BU", ("WH",), "L/W")
    assert read_colour("BU", {"BU": "BN"}).base == "BN"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("GN/WH", "green, white stripe"),
        ("light GN", "light green"),
        ("BN/WH/RD", "brown, white and red stripes"),
        ("GNYE", "green, yellow stripe"),
        ("gray", "grey"),
        ("purple/tan", "violet, tan stripe"),
        ("unknown", "colour not read"),
        ("not read", "colour not read"),
    ],
)
def test_colours_are_shown_in_words(text: str, words: str) -> None:
    assert read_colour(text).words == words


@pytest.mark.parametrize(
    ("text", "problem", "mend"),
    [
        ("GRN", "'GRN' is not a colour", "Did you mean GN or green?"),
        ("gren/WH", "'gren' is not a colour", "Did you mean green?"),
        (
            "BU/WH/RD/BK",
            "the colour 'BU/WH/RD/BK' has more than two stripes",
            "Write base/stripe or base/stripe/second stripe",
        ),
    ],
)  # fmt: skip
def test_a_colour_that_cannot_be_read_says_what_to_write(text: str, problem: str, mend: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_colour(text)
    assert (caught.value.problem, caught.value.mend) == (problem, mend)


def test_dates_with_initials() -> None:
    assert read_done("2031-05-03 AK", {}).date == datetime.date(2031, 5, 3)
    assert read_done("2031-05-03 AK", {}).by == "AK"
    assert read_done("2031-05-03", {}).by == ""
    assert read_done("yes", {}).date is None
    assert read_handed_over("not yet", {}) is None
    for text in ("no", "2031-2-3", "3.5.2031", "2031-02-29", "May 2031"):
        with pytest.raises(QuantityError):
            read_done(text, {})
    with pytest.raises(QuantityError, match="does not say when"):
        read_handed_over("yes", {})


def test_a_piece_its_offcut_and_what_a_wire_was() -> None:
    piece = read_piece("BU/WH 18 AWG from O3", {})
    assert (piece.colour.code, piece.size.number, piece.offcut) == ("BU/WH", 18, "O3")
    assert read_piece("light GN 1.5 mm2", {}).colour.shade == "light"
    assert not read_piece("unknown", {}).colour.known
    offcut = read_offcut("BU/WH 6 ft 2 in", {})
    assert (offcut.colour.code, offcut.size.known, offcut.length.mm) == ("BU/WH", False, pytest.approx(74 * 25.4))
    assert read_offcut("RD 18 AWG 2.4 m", {}).size.number == 18
    assert read_offcut("RD 18 AWG unknown", {}).length.mm is None
    was = read_was("GN/WH 18 AWG, FS4 to siren-plug.1, 4 ft", {})
    assert (was.ends, was.length and was.length.mm) == (("FS4", "siren-plug.1"), pytest.approx(48 * 25.4))
    assert read_was("GN 18 AWG, FS4 to lamp.1", {}).length is None
    for text in ("GN 18 AWG", "GN 18 AWG FS4 to lamp.1", "18 AWG, FS4 to lamp.1", "GN 18 AWG, FS4"):
        with pytest.raises(QuantityError):
            read_was(text, {})


def test_fates_of_an_end() -> None:
    assert read_fate("capped 30 mm", {}).stub.mm == 30  # type: ignore[union-attr]
    assert read_fate("capped", {}).stub is None
    assert read_fate("taped 1 in", {}).word == "taped"
    with pytest.raises(QuantityError, match="gives a length to an end that has none"):
        read_fate("gone 30 mm", {})


def test_joints_covers_and_rings() -> None:
    assert (read_joint("lap, soldered", {}).form, read_joint("butt", {}).fixing) == ("lap", "unknown")
    sleeve, tape = read_cover("adhesive sleeve 40 mm", {}), read_cover("cloth tape", {})
    assert (sleeve.adhesive, sleeve.length_mm, sleeve.tape, sleeve.bare) == (True, 40, False, False)
    assert (tape.tape, tape.length_mm, read_cover("none", {}).bare) == (True, None, True)
    ring = read_ring("new, M6, 2nd from base", {})
    assert (ring.hole, ring.position, ring.shared_with) == ("M6", 2, "")
    assert read_ring("with C12", {}).shared_with == "C12"
    with pytest.raises(QuantityError):
        read_ring("shiny", {})


def test_conditions_two_ends_yes_and_no() -> None:
    asked = read_condition("gearbox is not manual", {})
    assert (asked.option, asked.value, asked.negated) == ("gearbox", "manual", True)
    assert read_two_ends("lamp.1   lamp.2", {}) == ("lamp.1", "lamp.2")
    assert (read_yes_no("Yes", {}), read_yes_no("no", {})) == (True, False)
    for text in ("lamp.1", "a b c"):
        with pytest.raises(QuantityError):
            read_two_ends(text, {})
    with pytest.raises(QuantityError):
        read_yes_no("true", {})
