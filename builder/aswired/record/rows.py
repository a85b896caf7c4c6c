"""A row of the change list, and a finding that a named person lets stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from aswired.record.car import SPECIAL
from aswired.record.forms import (  # fmt: skip
    AMPS,
    CARRIES,
    CONDITION,
    CONDUCTOR,
    COVER,
    DONE,
    EITHER_WAY,
    END,
    ENDS_FORM,
    FATE,
    INSULATION,
    JOINT,
    LENGTH,
    MINUTES,
    NAME,
    OFFCUT,
    PART_OR_END,
    PIECE,
    PLACE,
    RING,
    SIDE,
    WAS,
    WIRES_FORM,
    WORDS,
)
from aswired.text.one_line import Condition, Cover, Done, Fate, JointMethod, Offcut, Piece, Ring, Was
from aswired.text.schema import Choice, Located, Many, Named, Record, keyed
from aswired.text.units import Length, Quantity


@dataclass(frozen=True)
class Accepted(Located):
    """A finding that a named person lets stand, with the reason."""

    finding: str = keyed(NAME, "code of the finding", example="GND02", required=True, default="")
    of: str = keyed(NAME, "id it stands at; not needed on a row", default="")
    by: str = keyed(WORDS, "who accepts it", required=True, default="")
    why: str = keyed(WORDS, "the reason", required=True, default="")


@dataclass(frozen=True)
class Change(Located):
    """One row of the change list. Which keys a row may have depends on its kind; see the kinds."""

    id: str = keyed(NAME, "permanent; the same id goes on the tape", example="C14", default="")
    kind: str = keyed(NAME, "what was done", example="extend", required=True, default="")
    wire: str = keyed(NAME, "the wire", example="W50", default="")
    wires: Any = keyed(WIRES_FORM, "several wires in one row; the form depends on the kind", default=())
    was: Was | None = keyed(WAS, "what an unlisted wire was in the donor")
    loom: str = keyed(NAME, "the harness that the wire in `was:` belongs to, of several", default="")
    end: str = keyed(END, "the end that is cut, moved or capped", default="")
    ends: Any = keyed(ENDS_FORM, "remove: how each end was left; join: the ends that meet", default=())
    plug: str = keyed(NAME, "the plug that moved; the pigtail stays on it", default="")
    to: str = keyed(PART_OR_END, "where the end goes, or the end of a new lead", default="")
    into: str = keyed(END, "terminate: the cavity it goes into", default="")
    from_: str = keyed(PART_OR_END, "add: the other end; tap: measured from; cover: begins", key="from", default="")
    onto: str = keyed(NAME, "tap: the wire that is not cut", default="")
    where: str = keyed(PLACE, "recorded place of the joint, tap or cap", default="")
    gap: Length | None = keyed(EITHER_WAY, "cut face to cut face, both halves in place (L1)")
    reach: Length | None = keyed(LENGTH, "length the wire must have between its two ends (L8)")
    new_reach: Length | None = keyed(LENGTH, "shorten: length it must have after (L6)")
    tail: Length | None = keyed(LENGTH, "from the other end, the one that stays, to its cut face")
    pigtail: Length | None = keyed(
        LENGTH, "from the plug to its cut face; ground, terminate: what stays on the plug that keeps the wire"
    )
    stagger: Length | None = keyed(LENGTH, "each next wire's pigtail is longer by this (L10)")
    slack: Length | None = keyed(EITHER_WAY, "instead of the usual slack")
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
    by: tuple[str, ...] = keyed(Many(NAME), "reroute: landmarks it now goes by")
    fuse: str = keyed(NAME, "protect: the fuse", default="")
    relay: str = keyed(NAME, "protect: the relay, by the name of its contacts", default="")
    rating: Quantity | None = keyed(AMPS, "protect: the fuse's rating from now on")
    fed: str = keyed(
        Choice("feed", ("always", "ignition", "accessory", "unknown")),
        "protect: when its feed side is live",
        default="",
    )
    feeds: str = keyed(WORDS, "protect: what it feeds, in the words of the fuse page", default="")
    use: str = keyed(Choice("use", ("in use", "spare")), "protect: spare when it feeds nothing on purpose", default="")
    interlock: str = keyed(
        Choice("interlock", ("park or neutral", "clutch", "immobiliser", "seat", "other")),
        "bridge: the condition that no longer has to be true",
        default="",
    )
    decided_by: str = keyed(WORDS, "bridge: who decided it", default="")
    instead: str = keyed(WORDS, "bridge: what keeps people safe in its place", default="")
    warning: str = keyed(WORDS, "what whoever drives or works on the car must know of it", default="")
    new_plug: str = keyed(NAME, "swap: the connector that takes the place of plug:", default="")
    cavities: Mapping[str, str] = keyed(Named(WORDS, "cavity"), "swap: old cavity -> new cavity")
    seen_from: str = keyed(SIDE, "swap: side that both numberings are read from", default="")
    takes_over: tuple[str, ...] = keyed(Many(CARRIES), "what others rely on, done by this row from now on")
    insulation: str = keyed(INSULATION, "of the piece put in", default="")
    conductor: str = keyed(CONDUCTOR, "of the piece put in", default="")
    terminal_fixed: str = keyed(
        Choice("fixing", ("crimped", "soldered", "both", "unknown")), "how the new terminal is fixed", default=""
    )
    shield: str = keyed(
        Choice("shield", ("carried through", "left open", "unknown")),
        "what became of the shield at the joint",
        default="",
    )
    untwisted: Length | None = keyed(LENGTH, "longest untwisted run of the pair")
    special: str = keyed(Choice("special", SPECIAL), "add: declared by a person, as for a new fusible link", default="")
    protects: tuple[str, ...] = keyed(Many(NAME), "add: of a new fusible link, the wires behind it")
    batch: tuple[str, ...] = keyed(Many(WORDS), "batch numbers of sleeves, rings, wire used")
    over: tuple[str, ...] = keyed(Many(NAME), "cover: the rows wrapped in")
    reads: str = keyed(WORDS, "label: what stands on the tag", default="")
    tag: str = keyed(WORDS, "label: what the tag is, such as printed sleeve or wrap-around flag", default="")
    proves: tuple[str, ...] = keyed(Many(NAME), "verify: the rows it proves")
    test: str = keyed(WORDS, "verify: what is measured, where, with what on", default="")
    expect: str = keyed(WORDS, "verify: what should be read", default="")
    dead_without: tuple[str, ...] = keyed(Many(NAME), "verify: fuses that were drawn, and their circuits were dead")
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

    set_aside: Mapping[str, Done] = field(default_factory=dict)  # made, sealed, tested as written that cannot be so

    @property
    def wire_names(self) -> tuple[str, ...]:
        """Every wire the row works on, in the order written."""
        return tuple(self.wires) if self.wires else ((self.wire,) if self.wire else ())

    def piece_of(self, wire: str) -> Piece | None:
        """The piece put into one wire of the row, if one is written."""
        found = self.wires.get(wire) if isinstance(self.wires, Mapping) else None
        return found if isinstance(found, Piece) else self.piece

    @property
    def reach_is_cut(self) -> bool:
        """Whether `reach:` is the same as `cut:`: then a new lead itself was measured, not the way it has to go."""
        cut_mm, reach_mm = self.cut and self.cut.mm, self.reach and self.reach.mm
        return cut_mm is not None and cut_mm == reach_mm

    def fates_of(self, wire: str) -> Mapping[str, Fate]:
        """remove: end -> how it was left, for one wire of the row."""
        found = self.wires.get(wire) if isinstance(self.wires, Mapping) else None
        if isinstance(found, Mapping):
            return found
        return self.ends if isinstance(self.ends, Mapping) else {}

    @property
    def double_crimp(self) -> bool:
        """Whether the new terminal is said to hold two wires."""
        return "double crimp" in self.terminal

    @property
    def state(self) -> str:
        """planned, made, sealed or tested: the furthest step that is written and not set aside."""
        for word, done in (("tested", self.tested), ("sealed", self.sealed), ("made", self.made)):
            if done is not None:
                return word
        return "planned"
