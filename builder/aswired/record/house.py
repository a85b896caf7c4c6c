"""What the job's header says of the shop's method, the options, the looms, and the systems a person declares."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from aswired.record.forms import (  # fmt: skip
    COLOUR,
    COVER,
    EITHER_WAY,
    INSULATION,
    JOINT,
    LENGTH,
    MOHM,
    OPTION,
    SHARE,
    STATUS,
    STEP,
    WORDS,
)
from aswired.text.colours import Colour
from aswired.text.one_line import Cover, JointMethod
from aswired.text.schema import Located, Many, Named, keyed, keys_of
from aswired.text.units import Length, Quantity


@dataclass(frozen=True)
class Option(Located):
    """An option of this car. Written `gearbox: manual` or with `could be:` when the donor list knows other values."""

    is_: str = keyed(OPTION, "the value of this car, or unknown", key="is", required=True, default="")
    could_be: tuple[str, ...] = keyed(Many(WORDS), "other values that steps may ask for")

    @property
    def values(self) -> tuple[str, ...]:
        """The values it is known to take, this car's own first; without `unknown`."""
        own = () if self.is_ == "unknown" else (self.is_,)
        both = ("yes", "no") if self.is_ in ("yes", "no") else ()  # an option the car has or has not
        return tuple(dict.fromkeys((*own, *self.could_be, *both)))


@dataclass(frozen=True)
class Usual(Located):
    """The house method: what holds for every row that does not say otherwise. Nothing here is assumed when absent, but
    for resistances: there the table of allowances counts."""

    joint: JointMethod | None = keyed(JOINT, "form and fixing of a joint", example="lap, soldered")
    overlap: Length | None = keyed(LENGTH, "take-up of one joint (L2)", example="10 mm")
    cover: Cover | None = keyed(COVER, "what covers a joint", example="adhesive sleeve 40 mm")
    slack: Length | None = keyed(EITHER_WAY, "extra length left in an extension (L3)", example="50 mm")
    stagger: Length | None = keyed(LENGTH, "from one wire's cut to the next in a grouped row (L10)", example="2 in")
    ring_strip: Length | None = keyed(LENGTH, "conductor that goes into a barrel (L4)", example="6 mm")
    cut_to_next: Length | None = keyed(STEP, "cut lengths are rounded up to this step (L9)", example="5 mm")
    joint_resistance: Quantity | None = keyed(MOHM, "allowance for one joint", example="1 mohm")
    cavity_resistance: Quantity | None = keyed(MOHM, "allowance for one mated cavity", example="4 mohm")
    ring_resistance: Quantity | None = keyed(MOHM, "allowance for one ring on its stud", example="1.5 mohm")
    fuse_resistance: Quantity | None = keyed(MOHM, "allowance for one fuse in its holder", example="6 mohm")
    switch_resistance: Quantity | None = keyed(MOHM, "allowance for one switch", example="20 mohm")
    contact_resistance: Quantity | None = keyed(MOHM, "allowance for one relay contact", example="7.5 mohm")
    insulation: str = keyed(INSULATION, "of the wire the shop puts in", default="")
    tape_width: Length | None = keyed(LENGTH, "width of the tape that is wound", example="19 mm")
    tape_overlap: float | None = keyed(SHARE, "share of its width that each turn covers", example="50 %")


def usual_line(*keys: str) -> str:
    """The line of a job that says these things of its house method, with the values of the reference.

    >>> usual_line("ring strip", "joint")
    'usual: {ring strip: 6 mm, joint: "lap, soldered"}'
    """
    examples = ((key, keys_of(Usual)[key][1].example) for key in keys)
    said = (f'{key}: "{text}"' if "," in text else f"{key}: {text}" for key, text in examples)
    return f"usual: {{{', '.join(said)}}}"


@dataclass(frozen=True)
class Systems(Located):
    """What a person declares of the systems that are never altered without the maker's procedure. Never inferred."""

    restraint: str = keyed(STATUS, "airbags, tensioners", default="unknown")
    anti_lock: str = keyed(STATUS, "anti-lock brakes, stability", key="anti-lock", default="unknown")
    immobiliser: str = keyed(STATUS, "immobiliser", default="unknown")
    data_bus: str = keyed(STATUS, "data pairs", default="unknown")
    high_voltage: str = keyed(STATUS, "hybrid or electric drive, orange cables", default="unknown")
    declared_by: str = keyed(WORDS, "who declares it", default="")


@dataclass(frozen=True)
class Loom(Located):
    """One of several harnesses in the car: what it came from and how its colours are lettered."""

    donor: str = keyed(WORDS, "what it came from, in words", default="")
    colour_letters: Mapping[str, str] = keyed(Named(WORDS, "letter"), "this donor's own colour letters")
    donor_colours: tuple[Colour, ...] = keyed(Many(COLOUR), "colours that mean ground in this donor")
