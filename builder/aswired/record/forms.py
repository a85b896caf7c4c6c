"""The one-line forms and closed lists that the records of the model are declared with."""

from __future__ import annotations

import re

from aswired.record.limits import read_share
from aswired.text.colours import read_colour
from aswired.text.one_line import (
    CONDUCTORS,
    INSULATIONS,
    read_condition,
    read_cover,
    read_done,
    read_end,
    read_fate,
    read_handed_over,
    read_joint,
    read_offcut,
    read_option,
    read_piece,
    read_range,
    read_ring,
    read_text,
    read_two_ends,
    read_was,
    read_way_back,
    read_yes_no,
)
from aswired.text.schema import Choice, Depends, Many, Named, Scalar
from aswired.text.units import (
    Length,
    QuantityError,
    not_below_zero,
    read_draw,
    read_length,
    read_quantity,
    read_reading,
    read_size,
)

WORDS = Scalar("words", "any words", read_text)
OPTION = Scalar("words", "any words", read_option)
BEHIND = Scalar("words", "any words, or: unknown", read_option)
NAME = Scalar("name", "a name without blanks, as written on the tape", read_text)
END = Scalar(
    "end", "what a wire end sits in: plug.cavity, FS4, F7, L1, C14-W31-loom, battery-, loose, unknown", read_end
)
PART_OR_END = Scalar(END.name, END.how, read_text)  # of a row: 'from' and 'to' of a cover row are places too
BACK_TO = Scalar(NAME.name, NAME.how, read_way_back)
PLACE = Scalar("place", "a landmark, or: 24 in from bulkhead towards nose-split", read_text)
LENGTH_HOW = '24 in, 24", 3 ft 4 in, 40 mm, 1.2 m, unknown'
LENGTH = Scalar("length", LENGTH_HOW, lambda text, _: not_below_zero(read_length(text)))
# the two halves of a gap may overlap (L1), and a wire may have been cut too short to have slack
EITHER_WAY = Scalar("length", LENGTH_HOW, lambda text, _: read_length(text))
STEP = Scalar("length", LENGTH_HOW, lambda text, _: _step(text))
SIZE = Scalar("size", "18 AWG, 1.5 mm2, unknown", lambda text, _: read_size(text))
COLOUR = Scalar(
    "colour", "base/stripe in letters or words: VT/WH, light GN, green/black, unknown", read_colour, by_loom=True
)
AMPS = Scalar("amperes", "15 A", lambda text, _: read_quantity(text, "A"))
VOLTS = Scalar("volts", "13.5 V", lambda text, _: read_quantity(text, "V"))
CELSIUS = Scalar("degrees", "20 C", lambda text, _: read_quantity(text, "C"))
MOHM = Scalar("milliohms", "1.5 mohm", lambda text, _: read_quantity(text, "mohm"))
SECONDS = Scalar("seconds", "60 s", lambda text, _: read_quantity(text, "s"))
MINUTES = Scalar("minutes", "12", lambda text, _: read_quantity(text, "min"))
DRAW = Scalar("draw", "8 A, 55 W at 12.8 V, unknown", lambda text, _: read_draw(text))
READING = Scalar("reading", "0.06 V, 14 mA, 0.2 ohm, not measured", lambda text, _: read_reading(text))
DONE = Scalar("done", "date and initials: 2024-05-03 AK; yes when the date was not noted", read_done)
HANDED_OVER = Scalar("hand-over", "a date, or: not yet", read_handed_over)
YES_NO = Scalar("yes or no", "yes, no", read_yes_no)
RANGE = Scalar("range of sizes", "0.5-1.5 mm2, 20-16 AWG", read_range)
PIECE = Scalar("piece", "BU 18 AWG, BU 18 AWG from O3, unknown", read_piece)
OFFCUT = Scalar("offcut", "RD 18 AWG 2.4 m; RD 18 AWG 2.4 m, cross-linked, browned", read_offcut)
WAS = Scalar("was", "GN/WH 18 AWG, FS4 to siren-plug.1, 4 ft", read_was, by_loom=True)
FATE = Scalar("fate", "gone, pulled, flush, capped 30 mm, taped, uncapped, unknown", read_fate)
JOINT = Scalar("joint", "lap, soldered; butt, crimped, barrel 0.5-1.5 mm2; lap, crimped, tinned first", read_joint)
COVER = Scalar("cover", "adhesive sleeve 40 mm; none for a bare joint", read_cover)
RING = Scalar("ring", "new, M6, 2nd from base; with C12 for two wires in one ring", read_ring)
CONDITION = Scalar("condition", "heater is diesel; gearbox is not manual", read_condition)
WIRES_FORM = Depends(
    "kind",
    {"remove": Named(Named(FATE, "end"), "wire"), **dict.fromkeys(("extend", "ground"), Named(PIECE, "wire"))},
    Many(NAME),
)
ENDS_FORM = Depends("kind", {"join": Many(WORDS), "bridge": Many(WORDS)}, Named(FATE, "end"))
TWO_ENDS = Scalar("two ends", "siren-plug.1 siren-plug.2", read_two_ends)
SHARE = Scalar("share", "50 %", lambda text, _: read_share(text))
FRACTION = Scalar("fraction", "0.42, of the picture as seen upright", lambda text, _: _fraction(text))


def _step(text: str) -> Length:
    length = read_length(text)
    if length.mm is not None and length.mm <= 0:
        raise QuantityError(f"'{text}' is no step to round up by", "Write it as in 5 mm, or take the line out")
    return length


def _fraction(text: str) -> float:
    written = re.fullmatch(r"\+?([0-9]{0,9}(?:\.[0-9]{0,9})?)", text.strip())
    value = float(written[1]) if written and re.search("[0-9]", written[1]) else -1.0
    if not 0 <= value <= 1:
        raise QuantityError(
            f"'{text}' is not a fraction of the picture", "Write a number between 0 and 1, such as 0.42"
        )
    return value


SIDE = Choice("side", ("wire side", "mating side", "unknown"))
INSULATION = Choice("insulation", INSULATIONS)
CONDUCTOR = Choice("conductor", CONDUCTORS)
CARRIES = Choice("role", ("alternator excite", "bus termination", "immobiliser", "gateway"))
STATUS = Choice(
    "status",
    ("never fitted", "untouched", "changed", "removed complete", "removed in part", "present", "unknown"),
)
