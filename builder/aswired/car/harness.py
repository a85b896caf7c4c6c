"""The harness at one moment: what the wires, joints, rings and dead ends are after the rows in force were folded.

Plain frozen facts, made by `asbuilt`, read by `trace`, `figures`, `findings` and `views`. Node and stretch order never
depends on the order of `from` and `to` (F1).
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from aswired.physics.figure import Figure
from aswired.record import Fuse
from aswired.text.colours import Colour
from aswired.text.diagnostics import Finding, Location
from aswired.text.one_line import Cover, Fate, JointMethod
from aswired.text.units import Size, is_loose, is_unknown

BATTERY_POSITIVE, BATTERY_NEGATIVE = "battery+", "battery-"  # the posts, by their names in every job


class NodeKind(StrEnum):
    """What a wire end sits in."""

    CAVITY = "cavity"  # plug.cavity
    MODULE = "module cavity"
    FUSE = "fuse"  # load side of a fuse
    FUSE_FEED = "fuse, feed side"
    GROUND = "ground point"
    BATTERY = "battery post"
    SPLICE = "factory splice"
    JOINT = "splice"  # made by a row of this job
    STUB = "cut end"  # a dead end left by a row
    UNKNOWN = "unknown end"


@dataclass(frozen=True)
class Node:
    """A point where wire ends sit. `name` as people write it: siren-plug.1, FS4, F7, L1, C14-W31-loom, C30-W61-FS9."""

    name: str
    kind: NodeKind
    made_by: str = ""  # row that made it; '' = the donor's
    opened_by: tuple[str, ...] = ()  # rows that took a member out of it
    fate: Fate | None = None  # stubs only
    declared: bool = True  # False: created by its first use (F15)


@dataclass(frozen=True)
class Stretch:
    """One uninterrupted run of one conductor between two nodes.

    `length_mm` is the conductor from reference point or cut face to reference point or cut face (the overlap in a joint
    is in both stretches); None when not recorded. `effective_mm` counts each overlap once, half to either side.
    """

    wire: str
    ends: tuple[str, str]  # node names, in alphabetical order
    colour: Colour
    size: Size
    length_mm: float | None
    effective_mm: float | None
    origin: str = ""  # row that put it in; '' = the donor's own wire
    offcut: str = ""  # rack piece it was cut from
    via: str = ""  # cavity of an in-line plug that it passes
    slack_mm: float | None = 0.0  # extra length that lies in it (M11)

    def other(self, node: str) -> str:
        """The node at the other end."""
        return self.ends[1] if self.ends[0] == node else self.ends[0]

    @property
    def name(self) -> str:
        """How a stretch is shown: 'W31 from FS4 to C14-W31-loom' (never typed, never stored: F2)."""
        return f"{self.wire} from {self.ends[0]} to {self.ends[1]}"


@dataclass(frozen=True)
class Joint:
    """A splice made by a row of this job.

    `centre_mm` is the distance of its centre from `from_end` along the wire (L5), None when not recorded. `beside_mm`
    is the same by tape measure along the bundle: slack lies in the piece and moves no joint (M11). `other_end` and
    `other_mm` give it from the other side where that is known too. `recorded_place` is the row's `where:`.
    """

    id: str
    row: str
    wires: tuple[str, ...]
    method: JointMethod | None
    overlap_mm: float | None
    cover: Cover | None
    from_end: str = ""
    centre_mm: float | None = None
    cut_from: str = ""  # the end that the row measured its cut from
    cut_face_mm: float | None = None  # where the cut was, from that end
    beside_mm: float | None = None
    other_end: str = ""
    other_mm: float | None = None
    recorded_place: str = ""
    tap: bool = False
    through: str = ""  # of a tap: the wire that is not cut
    over: tuple[tuple[str, float | None], ...] = ()  # the stretches to `from_end`, where later rows changed them
    at: Location = field(default_factory=lambda: Location("job.yml"), compare=False)


@dataclass(frozen=True)
class StudRing:
    """One ring terminal on a stud and the wires in it. `row` is '' for the donor's own."""

    ground: str
    row: str
    wires: tuple[str, ...]
    hole: str = ""
    position: int | None = None


@dataclass(frozen=True)
class CutPiece:
    """A piece put in by a row: what to cut, from what, and the figure that gives its length."""

    id: str  # C14-W31, or C21 for a row with one wire
    row: str
    wire: str
    colour: Colour
    size: Size
    offcut: str
    computed: Figure  # cut length in mm, value None when not recorded
    recorded_mm: float | None  # `cut:` as written
    gain_mm: float | None  # effective gain (L7)
    replaced: Colour  # colour of the wire it lengthens or replaces
    length_mm: float | None  # as it lies in the car: as cut, where no cut is written as computed (M4)


@dataclass(frozen=True)
class RowResult:
    """What became of one row in this view.

    `status` is one of: in force, not yet, not for this car, undecided, corrected, redone, refused, not judged.
    """

    id: str
    status: str
    why: str = ""
    by: str = ""  # the row that corrects or redoes it
    touched_wires: tuple[str, ...] = ()
    moved_with: tuple[str, ...] = ()  # ground: every wire behind the moved end (F9)

    @property
    def counts(self) -> bool:
        return self.status == "in force"


@dataclass(frozen=True)
class ConductorAccount:
    """Conservation of one row on one wire (F18): what came in, what stayed in the car, what went out. Millimetres.

    in the car before + piece = in the car after + offcuts + scrap; None where a term is not recorded.
    """

    row: str
    wire: str
    before_mm: float | None
    piece_mm: float | None
    after_mm: float | None
    reclaimed_mm: float | None
    scrap_mm: float | None


@dataclass(frozen=True)
class OffcutUse:
    """An offcut's account: its length and the pieces cut from it. Millimetres, None = not recorded."""

    name: str
    colour: Colour
    size: Size
    length_mm: float | None
    source: str  # row that reclaimed it, or '' when it was on the rack
    cuts: tuple[tuple[str, float | None], ...] = ()  # (piece id, length)

    @property
    def left_mm(self) -> float | None:
        if self.length_mm is None or any(length is None for _, length in self.cuts):
            return None
        return self.length_mm - sum(length for _, length in self.cuts if length is not None)


@dataclass(frozen=True)
class WireState:
    """One wire in this view: whether it is still in the car, and which rows worked on it."""

    name: str
    colour: Colour
    size: Size
    donor_ends: tuple[str, str]  # alphabetical; ('', '') for a wire the job added
    rows: tuple[str, ...] = ()
    removed_by: str = ""
    added_by: str = ""
    by: tuple[str, ...] = ()  # landmarks it goes by where the route leaves a choice; of the last row that says so


@dataclass(frozen=True)
class FuseState:
    """One fuse in this view. `facts` are those of `fuses:` with what rows made of them."""

    name: str
    facts: Fuse
    declared: bool  # it stands under `fuses:`; else its first use on a row created it
    rows: tuple[str, ...] = ()  # rows that assigned it or left it spare, in order
    in_wire: str = ""  # the wire it was cut into

    @property
    def spare(self) -> bool:
        return self.facts.use == "spare"


@dataclass(frozen=True)
class RelayState:
    """A relay's contacts as rows assigned them in this view. Text is '' where no row says it."""

    name: str
    rows: tuple[str, ...]
    fed: str = ""
    feeds: str = ""
    use: str = "in use"


_UNTRACED = "unknown "


def untraced_end(wire: str) -> str:
    """The name of the node in which a wire ends that nobody followed so far."""
    return _UNTRACED + wire


def is_untraced(node: str) -> bool:
    """Whether a node is such an end."""
    return node.startswith(_UNTRACED)


@dataclass(frozen=True)
class View:
    """The harness in one view. `name` is donor, now, handed over or plan; `day` is the date it is true for."""

    name: str
    day: datetime.date | None
    nodes: Mapping[str, Node]
    stretches: tuple[Stretch, ...]
    joints: Mapping[str, Joint]
    rings: tuple[StudRing, ...]
    rows: tuple[RowResult, ...]
    pieces: tuple[CutPiece, ...]
    offcuts: Mapping[str, OffcutUse]
    wires: Mapping[str, WireState]
    conductor_account: tuple[ConductorAccount, ...]
    figures: tuple[Figure, ...]  # lengths and take-outs that the fold computed, cut lengths included
    findings: tuple[Finding, ...]  # about rows: refused, out of order, not for this car
    fuses: Mapping[str, FuseState] = field(default_factory=dict)  # those declared, and those that rows created
    relays: Mapping[str, RelayState] = field(default_factory=dict)  # those that rows assigned
    replaced: Mapping[str, str] = field(default_factory=dict)  # cavity of a plug that was replaced -> the new cavity
    laid: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # end -> wires that rows in force laid to it

    @cached_property
    def at_node(self) -> Mapping[str, tuple[Stretch, ...]]:
        """Node name -> the stretches that end in it, in the order of `stretches`."""
        found: dict[str, list[Stretch]] = {name: [] for name in self.nodes}
        for stretch in self.stretches:
            for end in dict.fromkeys(stretch.ends):
                found[end].append(stretch)
        return {name: tuple(stretches) for name, stretches in found.items()}

    def is_end(self, node: str, written: str) -> bool:
        """Whether a row's word for an end of its wire means this node of the wire."""
        kind, made_by = (self.nodes[node].kind, self.nodes[node].made_by) if node in self.nodes else (None, "")
        if is_unknown(written):
            return kind is NodeKind.UNKNOWN
        if is_loose(written):
            return kind is NodeKind.STUB and not made_by
        return node == written

    @cached_property
    def had(self) -> Mapping[str, tuple[str, ...]]:
        """End -> the wires that end, or once ended, in it: the donor's, and those that rows in force laid to it."""
        found: dict[str, dict[str, None]] = {}
        for state in self.wires.values():
            for end in filter(None, state.donor_ends):
                found.setdefault(end, {})[state.name] = None
        for end, wires in self.laid.items():
            found.setdefault(end, {}).update(dict.fromkeys(name for name in wires if name in self.wires))
        return {end: tuple(wires) for end, wires in found.items()}

    def taken_out_of(self, end: str) -> str:
        """The wire that a row took out of an end, in words; '' when none."""
        gone = ((wire, self.wires[wire].removed_by) for wire in self.had.get(end, ()))
        return next((f"{wire} was taken out by {by}" for wire, by in gone if by), "")

    def feed_gone(self, fuse: str) -> str:
        """What took the feed of a fuse away, in words, where no wire leads to its feed side any more; '' else."""
        feed = f"{fuse}.feed"
        return "" if self.at_node.get(feed) else self.taken_out_of(feed)

    def is_lead(self, piece: CutPiece) -> bool:
        """Whether a piece is a wire of its own, which its row laid as a whole."""
        state = self.wires.get(piece.wire)
        return state is not None and state.added_by == piece.row

    def row(self, id: str) -> RowResult | None:
        return self._rows.get(id)

    @cached_property
    def _rows(self) -> Mapping[str, RowResult]:
        return {row.id: row for row in self.rows}

    @cached_property
    def counted(self) -> frozenset[str]:
        """Ids of the rows that are in force: the view is what it is by them."""
        return frozenset(row.id for row in self.rows if row.counts)

    def of_wire(self, wire: str) -> tuple[Stretch, ...]:
        """The stretches of one wire that are in the car."""
        return self._of_wire.get(wire, ())

    @cached_property
    def _of_wire(self) -> Mapping[str, tuple[Stretch, ...]]:
        found: dict[str, list[Stretch]] = {}
        for stretch in self.stretches:
            found.setdefault(stretch.wire, []).append(stretch)
        return {wire: tuple(stretches) for wire, stretches in found.items()}
