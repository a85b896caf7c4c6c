"""The small one-line forms of a job file (a piece, a fate, a date with initials, a ring) and their readers.

Each reader takes the text of one YAML value and the donor's colour letters, and raises `QuantityError` with the two
sentences of a fault: what is wrong, and what to write.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from aswired.text.colours import UNKNOWN, Colour, read_colour
from aswired.text.diagnostics import did_you_mean
from aswired.text.units import (
    LOOSE,
    Length,
    QuantityError,
    Size,
    is_loose,
    is_named,
    is_unknown,
    length_in,
    not_below_zero,
    read_length,
    read_size,
)

Letters = Mapping[str, str]
UNREAD_SIZE = Size("unknown", None, None)
_SIZE = r"(?:(?:[0-9]{1,2}|[1-4]/0)\s*AWG|[0-9]+(?:[.,][0-9]+)?\s*(?:mm2|mm²|sq ?mm)|unknown)"


class Doubt(StrEnum):
    """Why what is written of a step cannot be so, in words for people."""

    TO_COME = "a day that is still to come"
    BEFORE_1900 = "a day before 1900"
    NOT_MADE = "the row is not made"
    BEFORE_MADE = "a day before the row was made"


@dataclass(frozen=True)
class Done:
    """A date and initials. `date` is None for 'yes' (done, date not noted).

    `doubt` is set once the step was held to the calendar, and is None where it can be so; `said` is then the day that
    is written, and `date` is None.
    """

    text: str
    date: datetime.date | None
    by: str
    doubt: Doubt | None = None
    said: datetime.date | None = None

    def doubted(self, doubt: Doubt) -> Done:
        """The same step, its day no longer counted."""
        return replace(self, date=None, doubt=doubt, said=self.date)

    @property
    def day_as_written(self) -> str:
        """`2199-05-03`; 'yes' where no day is written."""
        day = self.date or self.said
        return day.isoformat() if day is not None else "yes"


@dataclass(frozen=True)
class Piece:
    """A piece of wire put in: colour, size, and the offcut it was taken from ('' = new wire or not said)."""

    text: str
    colour: Colour
    size: Size
    offcut: str = ""


@dataclass(frozen=True)
class Offcut:
    """A piece on the rack: colour, size (may be unread), length; insulation and condition where they are noted."""

    text: str
    colour: Colour
    size: Size
    length: Length
    insulation: str = ""
    condition: str = ""


@dataclass(frozen=True)
class Was:
    """What a wire was in the donor, on one line: colour, size, its two ends, its length when known."""

    text: str
    colour: Colour
    size: Size
    ends: tuple[str, str]
    length: Length | None


@dataclass(frozen=True)
class Cover:
    """What covers a joint or a run: the words, what they mean, and the sleeve's length when it is written."""

    text: str
    bare: bool
    adhesive: bool
    tape: bool
    length_mm: float | None
    sleeve: bool = False
    conduit: bool = False
    half_lapped: bool = False
    named: bool = True  # its words name something that covers, or say that nothing does


@dataclass(frozen=True)
class Fate:
    """How one end of a cut or removed wire was left. `stub` is the conductor left there, as it was written; how much
    hangs in the car is the length of its stretch. `cover` is what a row capped it with, where one says it."""

    text: str
    word: str
    stub: Length | None
    cover: Cover | None = None


def how_closed(fate: Fate | None) -> str:
    """How a cut end that hangs in the car is closed, in words; tape is no cap.

    >>> how_closed(Fate("taped 30 mm", "taped", None)), how_closed(None)
    ('under tape', 'not said how it was left')
    """
    words = {"capped": "capped", "taped": "under tape", "uncapped": "left open", "loose": "cut off before"}
    return words.get(fate.word if fate is not None else "", "not said how it was left")


HELD_BY_NOTHING = Fate("cut off before, held by nothing", "loose", None)  # of an end that was so in the donor


@dataclass(frozen=True)
class JointMethod:
    """Form and fixing of a joint, as in 'lap, soldered'."""

    text: str
    form: str
    fixing: str
    tinned_first: bool = False  # strands were tinned before they went into the joint
    barrel: SizeRange | None = None


@dataclass(frozen=True)
class SizeRange:
    """The sizes a barrel, terminal or seal takes, thinnest and thickest, both of one system."""

    text: str
    thinnest: Size
    thickest: Size


@dataclass(frozen=True)
class Ring:
    """The ring terminal of a ground row. `shared_with` names the row whose ring takes a second wire."""

    text: str
    shared_with: str
    hole: str
    position: int | None


@dataclass(frozen=True)
class Condition:
    """`heater is diesel`, `gearbox is not manual`."""

    text: str
    option: str
    value: str
    negated: bool


FATES = ("gone", "pulled", "flush", "capped", "taped", "uncapped", "unknown")
JOINT_FORMS = ("lap", "butt", "lineman", "closed-end", "clip", "twist", "snap-on", "unknown")
JOINT_FIXINGS = ("soldered", "crimped", "both", "none", "unknown")
INSULATIONS = ("PVC", "cross-linked", "silicone", "fluoropolymer", "unknown")
CONDUCTORS = ("stranded copper", "solid copper", "aluminium", "copper-clad aluminium", "unknown")
OFFCUT_CONDITIONS = ("good", "browned", "oily", "nicked", "unknown")


def read_text(text: str, letters: Letters) -> str:
    """Any words, blanks folded."""
    return " ".join(text.split())


def which_post(end: str) -> str:
    """How to mend an end that says 'the battery' and not which post of it; '' for every other end.

    Such a word would pass for a factory splice, and all that hangs on the post would be traced to nowhere.

    >>> which_post("batt+"), which_post("Battery"), which_post("battery+"), which_post("battery-tray")
    ('Write battery+', 'Write battery+ or battery-', '', '')
    """
    match = re.fullmatch(r"(?:bat|batt|battery)[. ]?([+-]?)", end.casefold())
    if not match or end in ("battery+", "battery-"):
        return ""
    return f"Write battery{match[1]}" if match[1] else "Write battery+ or battery-"


def read_end(text: str, letters: Letters) -> str:
    """What a wire end sits in, as written; `unknown` and `loose` in these spellings, however they are written."""
    end = read_text(text, letters)
    if not is_named(end):
        return LOOSE if is_loose(end) else "unknown"
    mend = which_post(end)
    if mend:
        raise QuantityError(f"'{end}' is not one of the two battery posts", mend)
    return end


def read_option(text: str, letters: Letters) -> str:
    """Any words, as the value of an option in this car; `unknown` in this spelling, however it is written."""
    return "unknown" if is_unknown(text) else read_text(text, letters)


def read_way_back(text: str, letters: Letters) -> str:
    """Where a ground point's cable leads; '' for one that is not known, so that two such points do not meet there."""
    return "" if is_unknown(text) else read_end(text, letters)


def read_done(text: str, letters: Letters) -> Done:
    """`2024-05-03 AK`, `2024-05-03`, or `yes` when the date was not noted."""
    stripped = text.strip()
    if stripped.casefold() == "yes":
        return Done(text, None, "")
    match = re.fullmatch(r"([0-9]{4})-([0-9]{2})-([0-9]{2})(?:\s+(\S.{0,30}))?", stripped)
    if not match:
        raise QuantityError(f"'{text}' is not a date", "Write year-month-day and initials: 2024-05-03 AK, or yes")
    try:
        date = datetime.date(int(match[1]), int(match[2]), int(match[3]))
    except ValueError:
        raise QuantityError(
            f"'{text}' is not a day of the calendar", "Check the month and the day; they are written year-month-day"
        ) from None
    return Done(text, date, match[4] or "")


def read_handed_over(text: str, letters: Letters) -> datetime.date | None:
    """The hand-over date, or `not yet` (None)."""
    if text.strip().casefold() == "not yet":
        return None
    done = read_done(text, letters)
    if done.date is None:
        raise QuantityError(f"'{text}' does not say when", "Write the date of hand-over, or: not yet")
    return done.date


def read_piece(text: str, letters: Letters) -> Piece:
    """`BU 18 AWG`, `BU 18 AWG from O3`, `unknown`."""
    stripped = " ".join(text.split())
    if is_unknown(stripped):
        return Piece(text, UNKNOWN, UNREAD_SIZE)
    match = re.fullmatch(rf"(.+?)\s+({_SIZE})(?:\s+from\s+(\S+))?", stripped)
    if not match:
        raise QuantityError(
            f"'{text}' is not a piece of wire", "Write colour, size and where it came from: BU 18 AWG from O3"
        )
    return Piece(text, read_colour(match[1], letters), read_size(match[2]), match[3] or "")


def read_offcut(text: str, letters: Letters) -> Offcut:
    """`RD 18 AWG 2.4 m`, `BU/WH 6 ft 2 in` (size as the wire it came off), `BU/WH unknown`.

    Behind commas: its insulation and its condition, `RD 18 AWG 2.4 m, cross-linked, browned`.
    """
    stripped, *words = (part.strip() for part in " ".join(text.split()).split(","))
    insulation = condition = ""
    for word in words:
        if word in OFFCUT_CONDITIONS:
            condition = word
        elif word in INSULATIONS:
            insulation = word
        else:
            both = (*INSULATIONS, *OFFCUT_CONDITIONS)
            raise QuantityError(
                f"'{word}' is neither an insulation nor a condition of an offcut",
                did_you_mean(word, both, "Write one of: " + ", ".join(dict.fromkeys(both))),
            )
    match = re.fullmatch(rf"(.+?)(?:\s+({_SIZE}))?\s+(\d.*|unknown)", stripped)
    if not match:
        raise QuantityError(f"'{text}' is not an offcut", "Write colour, size and length: RD 18 AWG 2.4 m")
    size = read_size(match[2]) if match[2] else UNREAD_SIZE
    length = not_below_zero(read_length(match[3]))
    return Offcut(text, read_colour(match[1], letters), size, length, insulation, condition)


def read_range(text: str, letters: Letters) -> SizeRange:
    """`0.5-1.5 mm2`, `20-16 AWG`, or one size alone."""
    match = re.fullmatch(r"(\w\S*?)(?:\s*-\s*(\w\S*?))?\s*(AWG|mm2|mm²)", " ".join(text.split()))
    if not match:
        raise QuantityError(f"'{text}' is not a range of sizes", "Write it like 0.5-1.5 mm2 or 20-16 AWG")
    first = read_size(f"{match[1]} {match[3]}")
    second = read_size(f"{match[2] or match[1]} {match[3]}")
    thinner_first = (first.number or 0) <= (second.number or 0)
    if first.system == "AWG":  # a larger number is a thinner wire
        thinner_first = not thinner_first or first.number == second.number
    return SizeRange(text, *((first, second) if thinner_first else (second, first)))


def read_was(text: str, letters: Letters) -> Was:
    """`GN/WH 18 AWG, FS4 to siren-plug.1`, with a length behind a second comma when it was measured.

    A colour alone stands for a wire whose size was not read.
    """
    comma = re.search(r"(?<![\w.])(\d+),(\d+\s*[a-z'\"]+)\s*$", text)
    if comma and text.count(",") > 2:
        raise QuantityError(f"the length '{comma[0].strip()}' has a comma", f"Write it {comma[1]}.{comma[2]}")
    parts = [part.strip() for part in text.split(",")]
    ends = re.fullmatch(r"(\S+) to (\S+)", parts[1]) if 2 <= len(parts) <= 3 else None
    if not ends:
        raise QuantityError(
            f"'{text}' does not say what the wire was",
            "Write colour and size, a comma, then its two ends: GN/WH 18 AWG, FS4 to siren-plug.1",
        )
    colour, size = _colour_and_size(parts[0], letters)
    length = not_below_zero(read_length(parts[2])) if len(parts) == 3 else None
    return Was(text, colour, size, (read_end(ends[1], letters), read_end(ends[2], letters)), length)


def _colour_and_size(text: str, letters: Letters) -> tuple[Colour, Size]:
    match = re.fullmatch(rf"(.+?)\s+({_SIZE})", " ".join(text.split()))
    if match:
        return read_colour(match[1], letters), read_size(match[2])
    colour, _, size = text.partition(" ")
    if re.match(r"\d", size):  # a size was meant: let its own reader say what is wrong with it
        return read_colour(colour, letters), read_size(size)
    return read_colour(text, letters), UNREAD_SIZE


def read_fate(text: str, letters: Letters) -> Fate:
    """`gone`, `pulled`, `flush`, `capped 30 mm`, `taped`, `uncapped`, `unknown`."""
    word, _, rest = " ".join(text.split()).partition(" ")
    if word not in FATES:
        raise QuantityError(
            f"'{text}' does not say how the end was left",
            did_you_mean(
                word,
                [fate for fate in FATES if fate[0] == word[:1]],  # 'scrapped' is no slip for 'capped'
                "Write gone (scrapped with its part), pulled, flush, capped 30 mm, taped, uncapped or unknown",
            ),
        )
    if rest and word not in ("capped", "taped", "uncapped"):
        raise QuantityError(f"'{text}' gives a length to an end that has none", f"Write {word} alone, or capped {rest}")
    return Fate(text, word, not_below_zero(read_length(rest)) if rest else None)


def read_joint(text: str, letters: Letters) -> JointMethod:
    """`lap, soldered`; the form alone is enough. Further words: `tinned first`, `barrel 0.5-1.5 mm2`."""
    form, *words = (part.strip() for part in text.split(","))
    if form not in JOINT_FORMS:
        raise QuantityError(
            f"'{form}' is not a form of joint",
            "Write lap, butt, lineman, closed-end, clip, twist, snap-on or unknown",
        )
    fixing, tinned_first, barrel = "unknown", False, None
    for number, word in enumerate(words):
        if word == "tinned first":
            tinned_first = True
        elif word.startswith("barrel "):
            barrel = read_range(word.removeprefix("barrel "), letters)
        elif word in JOINT_FIXINGS and number == 0:
            fixing = word
        else:
            raise QuantityError(
                f"'{word}' is not how a joint is fixed", "Write soldered, crimped, both, none or unknown"
            )
    return JointMethod(text, form, fixing, tinned_first, barrel)


def read_cover(text: str, letters: Letters) -> Cover:
    """What covers the joint: `adhesive sleeve 40 mm`, `plain sleeve`, `cloth tape`, `none`."""
    words = " ".join(text.split())
    length = length_in(words)
    lower = words.casefold()
    return Cover(
        words,
        bare=lower in ("none", "bare"),
        adhesive="adhesive" in lower,
        tape=_is_tape(lower),
        length_mm=length,
        sleeve="sleeve" in lower,
        conduit="conduit" in lower,
        half_lapped=re.search(r"\bhalf[ -]?lap", lower) is not None,
        named=_names_a_cover(lower),
    )


def _names_a_cover(words: str) -> bool:
    """Whether words name a cover that is there, or say that the thing is bare.

    >>> _names_a_cover("heat shrink"), _names_a_cover("crimp cap"), _names_a_cover("bare")
    (True, True, True)
    >>> _names_a_cover("unknown"), _names_a_cover("nothing"), _names_a_cover("no sleeve"), _names_a_cover("?")
    (False, False, False, False)
    """
    if words in ("none", "bare"):
        return True
    if re.search(r"\b(no|not|without|missing|unknown|nothing)\b", words):
        return False
    return bool(_COVERS.search(words)) or _is_tape(words)


_COVERS = re.compile(r"adhesive|sleev|shrink|tape|conduit|cap\b|spiral|tub(?:e|ing)\b|boot\b|moulded|housing")


def _is_tape(words: str) -> bool:
    """Whether a cover is only wound on: that insulates for a while and seals nothing.

    >>> _is_tape("cloth wrap"), _is_tape("friction band"), _is_tape("cloth tape half lapped")
    (True, True, True)
    >>> _is_tape("adhesive sleeve 40 mm"), _is_tape("crimp cap"), _is_tape("shrink wrap")
    (False, False, False)
    >>> _is_tape("crimp cap under cloth tape")
    False
    """
    return bool(re.search(r"tape|\bwrap|\bband\b|\bcloth\b", words)) and not re.search("sleeve|shrink|cap", words)


def read_ring(text: str, letters: Letters) -> Ring:
    """`new, M6, 2nd from base`, `old, M8`, `with C12` (two wires in the ring of row C12)."""
    words = " ".join(text.split())
    match = re.fullmatch(r"with (\S+)", words)
    if match:
        return Ring(words, match[1], "", None)
    hole = re.search(r"\bM\d{1,2}\b|\b\d+/\d+ in\b", words)
    place = re.search(r"\b(\d{1,2})(?:st|nd|rd|th) from base\b", words)
    if not hole and not place and not re.fullmatch(r"(new|old|unknown)", words):
        raise QuantityError(f"'{text}' is not a ring terminal", "Write it like: new, M6, 2nd from base; or: with C12")
    return Ring(words, "", hole[0] if hole else "", int(place[1]) if place else None)


def read_condition(text: str, letters: Letters) -> Condition:
    """`heater is diesel`, `gearbox is not manual`."""
    match = re.fullmatch(r"(.+?) is (not )?(.+)", " ".join(text.split()))
    if not match:
        raise QuantityError(f"'{text}' is not a condition", "Write the option and its value: gearbox is manual")
    return Condition(text, match[1], match[3], bool(match[2]))


def read_two_ends(text: str, letters: Letters) -> tuple[str, str]:
    """Two ends with a blank between: `siren-plug.1 siren-plug.2`."""
    ends = text.split()
    if len(ends) != 2:
        raise QuantityError(
            f"'{text}' does not name two ends", "Write both ends with a blank between: siren-plug.1 siren-plug.2"
        )
    return read_end(ends[0], letters), read_end(ends[1], letters)


def read_count(text: str, letters: Letters) -> int:
    """A whole number from 1 to 999."""
    stripped = text.strip()
    if not re.fullmatch(r"[0-9]{1,3}", stripped) or int(stripped) == 0:
        raise QuantityError(f"'{text}' is not a whole number above zero", "Write it in digits, such as 4")
    return int(stripped)


def read_yes_no(text: str, letters: Letters) -> bool:
    """`yes` or `no`."""
    word = text.strip().casefold()
    if word not in ("yes", "no"):
        raise QuantityError(f"'{text}' is neither yes nor no", "Write yes or no")
    return word == "yes"
