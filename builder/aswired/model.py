"""The facts of a job as its files say them: frozen records, each key declared once with its form and its help.

Nothing is worked out here. What the car became is in `asbuilt`, what follows from it in `figures` and `findings`.
Ends are text (`siren-plug.1`, `FS4`, `F7`, `L1`, `battery-`); which thing an end sits in is told by `harness`.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from aswired.colours import UNKNOWN, Colour, read_colour
from aswired.diagnostics import Location
from aswired.schema import Choice, Depends, Located, Many, Named, Record, Scalar, keyed
from aswired.units import (
    Draw,
    Length,
    Quantity,
    QuantityError,
    Reading,
    Size,
    read_draw,
    read_length,
    read_quantity,
    read_reading,
    read_size,
)
from aswired.written import (
    UNREAD_SIZE,
    Condition,
    Cover,
    Done,
    Fate,
    JointMethod,
    Offcut,
    Piece,
    Ring,
    Was,
    read_condition,
    read_count,
    read_cover,
    read_done,
    read_fate,
    read_handed_over,
    read_joint,
    read_offcut,
    read_piece,
    read_ring,
    read_text,
    read_two_ends,
    read_was,
    read_yes_no,
)

# ---- one-line forms -------------------------------------------------------------------------------------------------
WORDS = Scalar("words", "any words", read_text)
NAME = Scalar("name", "a name without blanks, as written on the tape", read_text)
END = Scalar("end", "what a wire end sits in: plug.cavity, FS4, F7, L1, C14-W31-loom, battery-, unknown", read_text)
PLACE = Scalar("place", "a landmark, or: 24 in from bulkhead towards nose-split", read_text)
LENGTH = Scalar("length", '24 in, 24", 3 ft 4 in, 40 mm, 1.2 m, unknown', lambda text, _: read_length(text))
SIZE = Scalar("size", "18 AWG, 1.5 mm2, unknown", lambda text, _: read_size(text))
COLOUR = Scalar("colour", "base/stripe in letters or words: VT/WH, light GN, green/black, unknown", read_colour)
AMPS = Scalar("amperes", "15 A", lambda text, _: read_quantity(text, "A"))
VOLTS = Scalar("volts", "13.5 V", lambda text, _: read_quantity(text, "V"))
CELSIUS = Scalar("degrees", "20 C", lambda text, _: read_quantity(text, "C"))
MOHM = Scalar("milliohms", "1.5 mohm", lambda text, _: read_quantity(text, "mohm"))
MINUTES = Scalar("minutes", "12", lambda text, _: read_quantity(text, "min"))
DRAW = Scalar("draw", "8 A, 55 W at 12.8 V, unknown", lambda text, _: read_draw(text))
READING = Scalar("reading", "0.06 V, 14 mA, 0.2 ohm, not measured", lambda text, _: read_reading(text))
DONE = Scalar("done", "date and initials: 2024-05-03 AK; yes when the date was not noted", read_done)
HANDED_OVER = Scalar("hand-over", "a date, or: not yet", read_handed_over)
COUNT = Scalar("whole number", "4", read_count)
YES_NO = Scalar("yes or no", "yes, no", read_yes_no)
PIECE = Scalar("piece", "BU 18 AWG, BU 18 AWG from O3, unknown", read_piece)
OFFCUT = Scalar("offcut", "RD 18 AWG 2.4 m", read_offcut)
WAS = Scalar("was", "GN/WH 18 AWG, FS4 to siren-plug.1, 4 ft", read_was)
FATE = Scalar("fate", "gone, pulled, flush, capped 30 mm, taped, uncapped, unknown", read_fate)
JOINT = Scalar("joint", "lap, soldered", read_joint)
COVER = Scalar("cover", "adhesive sleeve 40 mm; none for a bare joint", read_cover)
RING = Scalar("ring", "new, M6, 2nd from base; with C12 for two wires in one ring", read_ring)
CONDITION = Scalar("condition", "heater is diesel; gearbox is not manual", read_condition)
WIRES_FORM = Depends("kind", {"remove": Named(Named(FATE, "end"), "wire"), "shorten": Many(NAME)}, Named(PIECE, "wire"))
ENDS_FORM = Depends("kind", {"join": Many(WORDS)}, Named(FATE, "end"))
TWO_ENDS = Scalar("two ends", "siren-plug.1 siren-plug.2", read_two_ends)
FRACTION = Scalar("fraction", "0.42, of the picture as seen upright", lambda text, _: _fraction(text))


def _fraction(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 <= value <= 1:
        raise QuantityError(
            f"'{text}' is not a fraction of the picture", "Write a number between 0 and 1, such as 0.42"
        )
    return value


# ---- header ---------------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Option(Located):
    """An option of this car. Written `gearbox: manual` or with `could be:` when the donor list knows other values."""

    is_: str = keyed(WORDS, "the value of this car, or unknown", key="is", required=True, default="")
    could_be: tuple[str, ...] = keyed(Many(WORDS), "other values that steps may ask for")


@dataclass(frozen=True)
class Usual(Located):
    """The house method: what holds for every row that does not say otherwise. Nothing here is assumed when absent."""

    joint: JointMethod | None = keyed(JOINT, "form and fixing of a joint", example="lap, soldered")
    overlap: Length | None = keyed(LENGTH, "take-up of one joint (L2)", example="10 mm")
    cover: Cover | None = keyed(COVER, "what covers a joint", example="adhesive sleeve 40 mm")
    slack: Length | None = keyed(LENGTH, "extra length left in an extension (L3)", example="50 mm")
    stagger: Length | None = keyed(LENGTH, "from one wire's cut to the next in a grouped row (L10)", example="2 in")
    ring_strip: Length | None = keyed(LENGTH, "conductor that goes into a barrel (L4)", example="6 mm")
    cut_to_next: Length | None = keyed(LENGTH, "cut lengths are rounded up to this step (L9)", example="5 mm")
    joint_resistance: Quantity | None = keyed(MOHM, "allowance for one joint", example="1 mohm")
    cavity_resistance: Quantity | None = keyed(MOHM, "allowance for one mated cavity", example="4 mohm")
    ring_resistance: Quantity | None = keyed(MOHM, "allowance for one ring on its stud", example="1.5 mohm")
    fuse_resistance: Quantity | None = keyed(MOHM, "allowance for one fuse in its holder", example="6 mohm")
    rings_per_stud: int | None = keyed(COUNT, "most rings on one stud (AC 43.13-1B para 11-174: 4)", example="4")


@dataclass(frozen=True)
class Accepted(Located):
    """A finding that a named person lets stand, with the reason."""

    finding: str = keyed(NAME, "code of the finding", example="GND02", required=True, default="")
    of: str = keyed(NAME, "id it stands at; not needed on a row", default="")
    by: str = keyed(WORDS, "who accepts it", required=True, default="")
    why: str = keyed(WORDS, "the reason", required=True, default="")


# ---- the car --------------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Leg(Located):
    """A leg of the finished car's route: the stretch of tape measure between two landmarks."""

    from_: str = keyed(NAME, "landmark", key="from", required=True, default="")
    to: str = keyed(NAME, "landmark", required=True, default="")
    length: Length | None = keyed(LENGTH, "by tape measure along the bundle", required=True)
    zone: tuple[str, ...] = keyed(Many(Choice("zone", ("dry", "wet", "hot", "flex"))), "what the leg runs through")
    name: str = keyed(WORDS, "what the shop calls it", default="")


@dataclass(frozen=True)
class Plug(Located):
    """A connector. List only the cavities you met."""

    ways: str = keyed(WORDS, "number of cavities", example="5", default="")
    seen_from: str = keyed(
        Choice("side", ("wire side", "mating side", "unknown")), "side the cavity numbers are read from", default=""
    )
    place: str = keyed(PLACE, "where it is", key="at", default="")
    in_line: bool = keyed(YES_NO, "the same cavity number on both halves is joined through (F11)", default=False)
    cavities_not_examined: tuple[str, ...] = keyed(Many(WORDS), "cavity numbers, or: others")
    gone: bool = keyed(YES_NO, "the part left the car", default=False)
    note: str = keyed(WORDS, "anything worth knowing", default="")


@dataclass(frozen=True)
class Fuse(Located):
    """A fuse. Wires that end in `F7` sit on the load side, wires that end in `F7.feed` on the side of the battery."""

    rating: Quantity | None = keyed(AMPS, "as moulded on it", example="15 A")
    in_: str = keyed(PLACE, "where it is: a landmark, a place, or words", key="in", default="")
    fed: str = keyed(
        Choice("feed", ("always", "ignition", "accessory", "unknown")), "when its feed side is live", default=""
    )
    feeds: str = keyed(WORDS, "what it feeds, in the words of the fuse page", default="")
    use: str = keyed(Choice("use", ("in use", "spare")), "spare when it feeds nothing on purpose", default="in use")


@dataclass(frozen=True)
class Switch(Located):
    """A switch, a relay's contacts, an isolator: joins two ends when closed."""

    between: tuple[str, str] | None = keyed(TWO_ENDS, "the two ends it joins", required=True)
    place: str = keyed(PLACE, "where it is", key="at", default="")
    what: str = keyed(WORDS, "in words", default="")
    worked_by: str = keyed(NAME, "for a relay's contacts: the load that is its coil", default="")


@dataclass(frozen=True)
class Module(Located):
    """A control module: only what is relied on. Its inside is not traced (F12)."""

    out: Mapping[str, str] = keyed(Named(WORDS, "cavity"), "cavities that give a feed or data, with words")
    ground: tuple[str, ...] = keyed(Many(NAME), "cavities that are its ground")
    place: str = keyed(PLACE, "where it is", key="at", default="")
    cavities_not_examined: tuple[str, ...] = keyed(Many(WORDS), "cavity numbers, or: others")


LOAD_CLASSES = ("lamp", "pump", "electronics", "ignition", "motor", "heater", "horn", "coil", "other")


@dataclass(frozen=True)
class Load(Located):
    """A consumer between two ends. Which end is fed and which is ground comes from the trace (F1)."""

    between: tuple[str, str] | None = keyed(TWO_ENDS, "its two ends", required=True)
    draws: Draw | None = keyed(DRAW, "as printed on it or measured")
    class_: str = keyed(
        Choice("class", LOAD_CLASSES),
        "kind of load; lamp, pump, electronics, ignition ask for 3 %",
        key="class",
        default="other",
    )
    duty: str = keyed(Choice("duty", ("continuous", "intermittent", "unknown")), "how long it is on", default="unknown")
    verdict: str = keyed(Choice("verdict", ("kept", "deleted")), "what the job decided", default="kept")
    feed: str = keyed(
        Choice("feed", ("traced", "not examined")), "not examined when its feed was not looked at", default="traced"
    )
    return_: str = keyed(
        Choice("return", ("traced", "not examined")),
        "not examined when its return was not looked at",
        key="return",
        default="traced",
    )


@dataclass(frozen=True)
class GroundPoint(Located):
    """A ground point, the donor's or a new one, and its way back to the battery."""

    what: str = keyed(WORDS, "in words", default="")
    place: str = keyed(PLACE, "where it is", key="at", default="")
    stud: str = keyed(WORDS, "thread", example="M6", default="")
    bolted_to: str = keyed(WORDS, "what it is bolted to", default="")
    conducts: str = keyed(
        Choice("conducts", ("yes", "no", "unknown")),
        "no for plastic, glass-fibre, paint under the ring",
        default="unknown",
    )
    cable: Size | None = keyed(SIZE, "size of the cable back", example="10 mm2")
    cable_length: Length | None = keyed(LENGTH, "its length", example="7 ft")
    back_to: str = keyed(NAME, "battery- or another ground point", default="")
    gone: bool = keyed(YES_NO, "not on this car any more", default=False)


@dataclass(frozen=True)
class FactorySplice(Located):
    """A joint the maker made inside the wrap. Who ends there follows from the wires."""

    place: str = keyed(PLACE, "where it is", key="at", default="")
    all_members_known: bool = keyed(YES_NO, "no when wires in it were not traced", default=True)
    note: str = keyed(WORDS, "anything worth knowing", default="")


SPECIAL = (
    "restraint",
    "high voltage",
    "resistance wire",
    "twisted pair",
    "shielded",
    "fusible link",
    "anti-lock",
    "fuel cut-off",
    "none",
)


@dataclass(frozen=True)
class Wire(Located):
    """A wire of the donor that was touched or is relied on. From and to carry no order (F1)."""

    colour: Colour = keyed(COLOUR, "as read", default=UNKNOWN)
    size: Size = keyed(SIZE, "as printed", default=UNREAD_SIZE)
    from_: str = keyed(END, "one end", key="from", required=True, default="unknown")
    to: str = keyed(END, "the other end", required=True, default="unknown")
    via: str = keyed(END, "cavity of an in-line plug it passes (F11)", default="")
    length: Length | None = keyed(LENGTH, "between its two reference points")
    by: tuple[str, ...] = keyed(Many(NAME), "landmarks it goes by where the route leaves a choice (P2)")
    special: str = keyed(Choice("special", SPECIAL), "declared by a person, never inferred", default="")
    pair: str = keyed(NAME, "the other wire of a twisted pair", default="")
    circuit: str = keyed(WORDS, "what it is for, in words", default="")
    note: str = keyed(WORDS, "anything worth knowing", default="")
    inline: bool = False  # defined by `was:` on a change row


@dataclass(frozen=True)
class Change(Located):
    """One row of the change list. Which keys a row may have depends on its kind; see the kinds."""

    id: str = keyed(NAME, "permanent; the same id goes on the tape", example="C14", default="")
    kind: str = keyed(NAME, "what was done", example="extend", required=True, default="")
    wire: str = keyed(NAME, "the wire", example="W50", default="")
    wires: Any = keyed(WIRES_FORM, "several wires in one row; the form depends on the kind", default=())
    was: Was | None = keyed(WAS, "what an unlisted wire was in the donor")
    end: str = keyed(END, "the end that is cut, moved or capped", default="")
    ends: Any = keyed(ENDS_FORM, "remove: how each end was left; join: the ends that meet", default=())
    plug: str = keyed(NAME, "the plug that moved; the pigtail stays on it", default="")
    to: str = keyed(END, "where the end goes, or the end of a new lead", default="")
    into: str = keyed(END, "terminate: the cavity it goes into", default="")
    from_: str = keyed(END, "add: the other end; tap: measured from; cover: begins", key="from", default="")
    onto: str = keyed(NAME, "tap: the wire that is not cut", default="")
    where: str = keyed(PLACE, "recorded place of the joint, tap or cap", default="")
    gap: Length | None = keyed(LENGTH, "cut face to cut face, both halves in place (L1)")
    reach: Length | None = keyed(LENGTH, "length the wire must have between its two ends (L8)")
    new_reach: Length | None = keyed(LENGTH, "shorten: length it must have after (L6)")
    tail: Length | None = keyed(LENGTH, "from the fixed end to the cut face")
    pigtail: Length | None = keyed(LENGTH, "from the plug or moved end to the cut face")
    stagger: Length | None = keyed(LENGTH, "each next wire's pigtail is longer by this (L10)")
    slack: Length | None = keyed(LENGTH, "instead of the usual slack")
    overlap: Length | None = keyed(LENGTH, "instead of the usual overlap")
    joint: JointMethod | None = keyed(JOINT, "instead of the usual joint")
    cover: Cover | None = keyed(COVER, "instead of the usual cover; of a cover row, the material")
    piece: Piece | None = keyed(PIECE, "the wire put in")
    cut: Length | None = keyed(LENGTH, "length the piece was really cut to (M4)")
    take_out: Length | None = keyed(LENGTH, "shorten: conductor really taken out (L6)")
    ring: Ring | None = keyed(RING, "the ring terminal")
    terminal: str = keyed(WORDS, "the new terminal in words; on shorten, a terminal instead of a joint", default="")
    stub: Length | None = keyed(LENGTH, "cap: conductor left at the end")
    far: Fate | None = keyed(FATE, "cap: how the rest of the wire was left")
    reclaimed: Mapping[str, Offcut] = keyed(Named(OFFCUT, "offcut"), "pieces kept for later use")
    scrap: Length | None = keyed(LENGTH, "conductor thrown away")
    spare: tuple[str, ...] = keyed(Many(NAME), "fuses that feed nothing from now on")
    over: tuple[str, ...] = keyed(Many(NAME), "cover: the rows wrapped in")
    proves: tuple[str, ...] = keyed(Many(NAME), "verify: the rows it proves")
    test: str = keyed(WORDS, "verify: what is measured, where, with what on", default="")
    expect: str = keyed(WORDS, "verify: what should be read", default="")
    photos: tuple[str, ...] = keyed(Many(NAME), "ids of photographs")
    why: str = keyed(WORDS, "the reason", default="")
    note: str = keyed(WORDS, "anything worth knowing", default="")
    only_if: Condition | None = keyed(CONDITION, "the row is for some cars only; absent = always")
    corrects: str = keyed(NAME, "the record was wrong: the row this one stands for (F13)", default="")
    redoes: str = keyed(NAME, "it was so, then done again: the row this one undoes (F14)", default="")
    made: Done | None = keyed(DONE, "when and by whom; absent = planned")
    sealed: Done | None = keyed(DONE, "when the joint was covered")
    tested: Done | None = keyed(DONE, "when it was proved")
    accepted: tuple[Accepted, ...] = keyed(Many(Record(Accepted)), "findings let stand by a named person")
    minutes: Quantity | None = keyed(MINUTES, "time it took", private=True)
    shop_note: str = keyed(WORDS, "for the shop only", default="", private=True)

    @property
    def wire_names(self) -> tuple[str, ...]:
        """Every wire the row works on, in the order written."""
        return tuple(self.wires) if self.wires else ((self.wire,) if self.wire else ())

    def piece_of(self, wire: str) -> Piece | None:
        """The piece put into one wire of the row, if one is written."""
        found = self.wires.get(wire) if isinstance(self.wires, Mapping) else None
        return found if isinstance(found, Piece) else self.piece

    def fates_of(self, wire: str) -> Mapping[str, Fate]:
        """remove: end -> how it was left, for one wire of the row."""
        found = self.wires.get(wire) if isinstance(self.wires, Mapping) else None
        if isinstance(found, Mapping):
            return found
        return self.ends if isinstance(self.ends, Mapping) else {}

    @property
    def state(self) -> str:
        """planned, made, sealed or tested: the furthest step that has a date."""
        for word, done in (("tested", self.tested), ("sealed", self.sealed), ("made", self.made)):
            if done is not None:
                return word
        return "planned"


# ---- photographs and readings ---------------------------------------------------------------------------------------
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
    read: Reading | None = keyed(READING, "what the meter showed", required=True)
    limit: Reading | None = keyed(READING, "what it should stay below")
    supply: Quantity | None = keyed(VOLTS, "battery volts at that moment")
    on: Done | None = keyed(DONE, "date")
    by: str = keyed(WORDS, "initials", default="")


# ---- the job --------------------------------------------------------------------------------------------------------
def _wire_from_line(was: Was) -> dict[str, object]:
    return {"colour": was.colour, "size": was.size, "from_": was.ends[0], "to": was.ends[1], "length": was.length}


@dataclass(frozen=True)
class Job(Located):
    """A job folder as read: header and sections, from job.yml or spread over the other files."""

    job: str = keyed(WORDS, "title", example="Trail truck", required=True, default="")
    vehicle: str = keyed(WORDS, "what car it is now, in words", default="")
    donor: str = keyed(WORDS, "what the harness came from", default="")
    donor_colours: tuple[Colour, ...] = keyed(Many(COLOUR), "colours that mean ground in this donor")
    colour_letters: Mapping[str, str] = keyed(
        Named(WORDS, "letter"), "the donor's own colour letters", example="{L: BU}"
    )
    options: Mapping[str, Option] = keyed(
        Named(Record(Option, WORDS, lambda text: {"is_": text}), "option"), "options of this car"
    )
    system: Quantity | None = keyed(VOLTS, "nominal voltage", example="12 V")
    supply: Quantity | None = keyed(VOLTS, "volts the figures are for", example="13.5 V")
    temperature: Quantity | None = keyed(CELSIUS, "conductor temperature the figures are for", example="20 C")
    awg_means: str = keyed(
        Choice("AWG means", ("SAE J1128", "ASTM B258")),
        "which table an AWG size is read by",
        key="AWG means",
        default="SAE J1128",
    )
    ground_side: str = keyed(
        Choice("ground side", ("negative", "positive", "unknown")), "battery pole on the body", default="unknown"
    )
    body_returns: str = keyed(
        Choice("body returns", ("yes", "no", "unknown")), "no for a body that carries no return", default="unknown"
    )
    left_and_right: str = keyed(WORDS, "how left and right are meant, said once", default="")
    units: str = keyed(Choice("units", ("mm", "cm", "m", "inch")), "shown first", default="mm")
    usual: Usual = keyed(Record(Usual), "house method", default=Usual())
    handed_over: datetime.date | None = keyed(HANDED_OVER, "date, or not yet")
    revision: str = keyed(WORDS, "printed on each page", default="")
    private: Mapping[str, str] = keyed(
        Named(WORDS, "label"), "never in the owner's edition; each value is a forbidden word there", private=True
    )
    accepted: tuple[Accepted, ...] = keyed(Many(Record(Accepted)), "findings let stand by a named person")
    cautions: tuple[str, ...] = keyed(Many(WORDS), "what anybody must know before touching the car")
    landmarks: Mapping[str, str] = keyed(Named(WORDS, "landmark"), "fixed features that places are measured from")
    route: tuple[Leg, ...] = keyed(Many(Record(Leg)), "the finished car's legs")
    plugs: Mapping[str, Plug] = keyed(Named(Record(Plug), "plug"), "connectors")
    fuses: Mapping[str, Fuse] = keyed(Named(Record(Fuse), "fuse"), "fuses")
    switches: Mapping[str, Switch] = keyed(Named(Record(Switch), "switch"), "switches, relay contacts, isolators")
    modules: Mapping[str, Module] = keyed(Named(Record(Module), "module"), "control modules")
    loads: Mapping[str, Load] = keyed(Named(Record(Load), "load"), "consumers")
    grounds: Mapping[str, GroundPoint] = keyed(Named(Record(GroundPoint), "ground point"), "ground points")
    splices: Mapping[str, FactorySplice] = keyed(Named(Record(FactorySplice), "splice"), "factory splices")
    wires: Mapping[str, Wire] = keyed(Named(Record(Wire, WAS, _wire_from_line), "wire"), "wires touched or relied on")
    offcuts: Mapping[str, Offcut] = keyed(Named(OFFCUT, "offcut"), "pieces on hand")
    changes: tuple[Change, ...] = keyed(
        Many(Record(Change)), "the change list", required=True, example="[{id: C1, kind: remove, wire: W1}]"
    )
    photos: tuple[Photo, ...] = keyed(Many(Record(Photo)), "bench photographs")
    readings: tuple[MeterReading, ...] = keyed(Many(Record(MeterReading)), "meter readings")

    slug: str = ""  # the job folder's name
    folder: Path | None = None
    notes: str = ""  # text of notes.md

    def change(self, row: str) -> Change | None:
        """The row with this id."""
        return self._rows.get(row)

    @cached_property
    def _rows(self) -> Mapping[str, Change]:
        """Id -> row; of an id that is used twice the first."""
        return {change.id: change for change in reversed(self.changes)}

    def line_of_row(self, row: str) -> Location:
        """Where a row stands; the job's own line for an id that is no row."""
        found = self._rows.get(row)
        return found.at if found is not None else self.at
