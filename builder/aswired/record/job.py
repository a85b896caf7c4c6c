"""A job folder as read, and what holds for the whole shop."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from aswired.record.car import (
    BodyStrap,
    FactorySplice,
    Fuse,
    GroundPoint,
    Hole,
    Leg,
    Load,
    Module,
    Plug,
    Source,
    Switch,
    Wire,
)
from aswired.record.forms import (  # fmt: skip
    CELSIUS,
    COLOUR,
    DONE,
    HANDED_OVER,
    LENGTH,
    OFFCUT,
    OPTION,
    VOLTS,
    WAS,
    WORDS,
)
from aswired.record.house import Loom, Option, Systems, Usual
from aswired.record.limits import Limit, Limits, in_force
from aswired.record.rows import Accepted, Change
from aswired.record.shots import MeterReading, Photo, Service
from aswired.text.colours import Colour
from aswired.text.diagnostics import Location
from aswired.text.one_line import Condition, Done, Offcut, Was
from aswired.text.schema import Choice, Located, Many, Named, Record, keyed
from aswired.text.units import Length, Quantity


def _wire_from_line(was: Was) -> dict[str, object]:
    return {"colour": was.colour, "size": was.size, "from_": was.ends[0], "to": was.ends[1], "length": was.length}


@dataclass(frozen=True)
class Shop(Located):
    """What holds for every job of a shop: shop.yml beside the job folders. All of it may be left out."""

    limits: Located | None = keyed(Record(Limits), "thresholds set in place of the table's")
    must_work: tuple[str, ...] = keyed(Many(WORDS), "loads that have to work before a car leaves; local rules first")
    conduits: tuple[Length, ...] = keyed(Many(LENGTH), "bores of conduit on hand", example="[8 mm, 12 mm]")
    sleeves: tuple[Length, ...] = keyed(Many(LENGTH), "bores of sleeve on hand, as supplied", example="[4 mm, 6 mm]")


@dataclass(frozen=True)
class Job(Located):
    """A job folder as read: header and sections, from job.yml or spread over the other files."""

    job: str = keyed(WORDS, "title", example="Trail truck", required=True, default="")
    vehicle: str = keyed(WORDS, "what car it is now, in words", default="")
    donor: str = keyed(WORDS, "what the harness came from", default="")
    donor_colours: tuple[Colour, ...] = keyed(Many(COLOUR), "colours that mean ground in this donor")
    looms: Mapping[str, Loom] = keyed(Named(Record(Loom), "loom"), "several harnesses in one car")
    colour_letters: Mapping[str, str] = keyed(
        Named(WORDS, "letter"), "the donor's own colour letters", example="{L: BU}"
    )
    options: Mapping[str, Option] = keyed(
        Named(Record(Option, OPTION, lambda text: {"is_": text}), "option"), "options of this car"
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
    drops_held_to: str = keyed(
        Choice("rule", ("3 % and 10 %", "AC 43.13-1B")),
        "which limit of drop judges: shares of the supply, or 0.5 V continuous and 1.0 V intermittent at 14 V",
        default="3 % and 10 %",
    )
    body_returns: str = keyed(
        Choice("body returns", ("yes", "no", "unknown")), "no for a body that carries no return", default="unknown"
    )
    body_strap: BodyStrap | None = keyed(Record(BodyStrap), "the cable from the body to battery-")
    left_and_right: str = keyed(WORDS, "how left and right are meant, said once", default="")
    units: str = keyed(Choice("units", ("mm", "cm", "m", "inch")), "shown first", default="mm")
    usual: Usual = keyed(Record(Usual), "house method", default=Usual())
    handed_over: datetime.date | None = keyed(HANDED_OVER, "date, or not yet")
    revisions: Mapping[str, Done] = keyed(
        Named(DONE, "revision"), "day on which each revision of the record was given out"
    )
    revision: str = keyed(WORDS, "printed on each page", default="")
    private: Mapping[str, str] = keyed(
        Named(WORDS, "label"), "never in the owner's edition; each value is a forbidden word there", private=True
    )
    accepted: tuple[Accepted, ...] = keyed(Many(Record(Accepted)), "findings let stand by a named person")
    cautions: tuple[str, ...] = keyed(Many(WORDS), "what anybody must know before touching the car")
    systems: Systems = keyed(
        Record(Systems), "what a person declares of restraint, high voltage, ...", default=Systems()
    )
    battery_off: tuple[Done, ...] = keyed(Many(DONE), "days on which the battery was taken off before the work")
    battery_moved: str = keyed(
        Choice("answer", ("yes", "no", "unknown")), "the battery left its place", default="unknown"
    )
    engine_strap: str = keyed(
        Choice("strap", ("engine to battery", "engine to chassis", "body only", "none", "unknown")),
        "how the engine block goes back to the battery",
        default="unknown",
    )
    must_work: tuple[str, ...] = keyed(Many(WORDS), "loads that have to work before the car leaves; local rules first")
    limits: Located | None = keyed(Record(Limits), "thresholds set in place of the table's")
    landmarks: Mapping[str, str] = keyed(Named(WORDS, "landmark"), "fixed features that places are measured from")
    holes: Mapping[str, Hole] = keyed(Named(Record(Hole), "hole"), "holes that the bundle passes, by their landmark")
    route: tuple[Leg, ...] = keyed(Many(Record(Leg)), "the finished car's legs")
    plugs: Mapping[str, Plug] = keyed(Named(Record(Plug), "plug"), "connectors")
    fuses: Mapping[str, Fuse] = keyed(Named(Record(Fuse), "fuse"), "fuses")
    sources: Mapping[str, Source] = keyed(
        Named(Record(Source), "source"), "sources of current beside the battery", example="{aux: {plus: aux.plus}}"
    )
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
    service: tuple[Service, ...] = keyed(Many(Record(Service)), "visits after the hand-over")

    set_aside: Mapping[str, Done] = field(default_factory=dict)  # 'handed over' as written where that cannot be so
    shop: Shop = Shop()  # from shop.yml beside the job folders
    slug: str = ""  # the job folder's name
    folder: Path | None = None
    notes: str = ""  # text of notes.md
    texts: Mapping[str, bytes] = field(default_factory=dict, compare=False, repr=False)  # name -> file as it was read

    def change(self, row: str) -> Change | None:
        """The row with this id."""
        return self._rows.get(row)

    def place(self, row: str) -> int | None:
        """Which row of the list has this id, from 0 (of several the first); None where none has."""
        return self._places.get(row)

    def loom_of(self, wire: str) -> str:
        """The harness that a wire belongs to; '' when the car has one, or when nobody said."""
        declared = self.wires.get(wire)
        if declared is not None:
            return declared.loom
        return next((row.loom for row in self.changes if row.was is not None and wire in row.wire_names), "")

    def ground_colours_of(self, wire: str) -> tuple[Colour, ...]:
        """Colours that mean ground in the donor of a wire's harness: the loom's own, else the job's."""
        loom = self.looms.get(self.loom_of(wire))
        return loom.donor_colours if loom is not None and loom.donor_colours else self.donor_colours

    def holds(self, condition: Condition | None) -> str:
        """Whether what stands under a condition is for this car: yes, no, undecided, unreadable."""
        if condition is None:
            return "yes"
        option = self.options.get(condition.option)
        if option is None:
            return "unreadable"
        if option.is_ == "unknown":
            return "undecided"
        if condition.value not in option.values:
            return "unreadable"
        return "yes" if (option.is_ == condition.value) != condition.negated else "no"

    @cached_property
    def kept_loads(self) -> tuple[str, ...]:
        """Loads that stay: not deleted, and not of another car only."""
        return tuple(
            name for name, load in self.loads.items() if load.verdict == "kept" and self.holds(load.for_) != "no"
        )

    @cached_property
    def loads_for_certain(self) -> tuple[str, ...]:
        """Loads that stay and are this car's for certain: a stop or an error may rest on them."""
        return tuple(name for name in self.kept_loads if self.holds(self.loads[name].for_) == "yes")

    @cached_property
    def limits_in_force(self) -> Mapping[str, Limit]:
        """Key -> the threshold that counts for this job: its own, else the shop's, else the table's."""
        return in_force(self.shop.limits, self.limits)

    @cached_property
    def _rows(self) -> Mapping[str, Change]:
        """Id -> row; of an id that is used twice the first."""
        return {change.id: change for change in reversed(self.changes)}

    @cached_property
    def _places(self) -> Mapping[str, int]:
        return {change.id: place for place, change in reversed(tuple(enumerate(self.changes)))}

    def line_of_row(self, row: str) -> Location:
        """Where a row stands; the job's own line for an id that is no row."""
        found = self._rows.get(row)
        return found.at if found is not None else self.at
