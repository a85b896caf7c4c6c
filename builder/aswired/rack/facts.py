"""What an allotment starts from: the pieces a job has still to cut, and the offcuts at hand, as recorded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from aswired.car.harness import CutPiece, NodeKind, Stretch
from aswired.figures.heat import heat_of, legs_of, positions_of
from aswired.figures.worked import JobResult
from aswired.network.copper import conductor_of
from aswired.rack.shelf import RackPiece, of_rack
from aswired.text.colours import Colour
from aswired.text.one_line import Offcut
from aswired.text.units import Size

SPOILT = ("browned", "oily", "nicked")
BY_MAKER = ("restraint", "high voltage", "resistance wire", "twisted pair", "shielded", "fusible link", "data pair")


@dataclass(frozen=True)
class Aside:
    """A piece or an offcut that is left out, and why."""

    name: str
    why: str


@dataclass(frozen=True)
class Wanted:
    """A piece of a planned row that has no offcut yet.

    own: colour of the wire it goes into (of a new lead the colour written); unknown where nothing is recorded.
    heat_c: hottest leg the wire runs through [°C], None where no heat is recorded. order: place of its row in the file.
    connectors: the plugs it leads to. side: 'feed', 'ground', or '' where that is not traced.
    """

    piece: CutPiece
    length_mm: float
    size: Size
    area_mm2: float
    own: Colour
    heat_c: float | None
    order: int
    connectors: tuple[str, ...]
    legs: frozenset[int]
    side: str
    most_mm2: float | None  # copper the terminal at its end takes; None where that is not recorded


@dataclass(frozen=True)
class OnHand:
    """An offcut with what is left of it. `order`: place of the row that yields it; -1 for one that lies there already.
    `rack`: the rack's own line for a piece that lies on the shop's rack, else None."""

    name: str
    colour: Colour
    size: Size
    area_mm2: float
    left_mm: float
    insulation: str
    condition: str
    order: int = -1
    rack: Offcut | None = None


def orders_of(worked: JobResult) -> dict[str, int]:
    """Row -> its place in the file."""
    return {row.id: number for number, row in reversed(list(enumerate(worked.job.changes)))}


class Layout:
    """Where the wires of the plan run: the legs of each stretch, as far as they are recorded."""

    def __init__(self, worked: JobResult) -> None:
        self._worked = worked
        self._route = worked.route
        self._places = positions_of(worked.job, worked.joints)

    def legs(self, stretch: Stretch) -> frozenset[int]:
        return frozenset(legs_of(self._worked.plan, self._route, self._places, stretch))

    def heat_c(self, wire: str) -> float | None:
        """The hottest leg that any part of a wire runs through; None where no heat is recorded there."""
        job = self._worked.job
        legs = {leg for stretch in self._worked.plan.of_wire(wire) for leg in self.legs(stretch)}
        heats = [heat for leg in legs if (heat := heat_of(job, job.route[leg])) is not None]
        return max(heats, default=None)


def wanted(worked: JobResult, layout: Layout, sides: dict[tuple[str, str], str]) -> tuple[list[Wanted], list[Aside]]:
    """The pieces to be cut, in the order of the plan; and those that cannot be allotted.

    `sides`: (wire, row that put the piece in) -> 'feed' or 'ground'.
    """
    found: list[Wanted] = []
    aside: list[Aside] = []
    orders = orders_of(worked)
    for piece in worked.plan.pieces:
        row = worked.job.change(piece.row)
        if row is None or row.made is not None or piece.offcut:
            continue
        size = _size_wanted(piece, worked)
        copper = conductor_of(size, worked.job)
        special = worked.job.wires[piece.wire].special if piece.wire in worked.job.wires else ""
        if special in BY_MAKER:
            aside.append(Aside(piece.id, f"{piece.wire} is declared '{special}': its maker says what goes in"))
        elif piece.length_mm is None:
            aside.append(Aside(piece.id, f"its length is not recorded: {', '.join(piece.computed.missing_words)}"))
        elif piece.length_mm <= 0:
            aside.append(Aside(piece.id, "its length comes to nothing"))
        elif copper is None:
            aside.append(
                Aside(piece.id, "its size is not recorded" if not size.known else f"{size.text} is in no table")
            )
        else:
            own = [stretch for stretch in worked.plan.of_wire(piece.wire) if stretch.origin == piece.row]
            found.append(
                Wanted(
                    piece, piece.length_mm, size, copper.area_mm2, _own_colour(piece, worked),
                    layout.heat_c(piece.wire), orders[piece.row], plugs_of(piece, worked),
                    frozenset(leg for stretch in own for leg in layout.legs(stretch)),
                    sides.get((piece.wire, piece.row), ""), _terminal_mm2(own, worked),
                )
            )  # fmt: skip
    return found, aside


def _size_wanted(piece: CutPiece, worked: JobResult) -> Size:
    """The size written on the row or that of the wire, whichever has more copper."""
    state = worked.plan.wires.get(piece.wire)
    sizes = [piece.size, *([state.size] if state is not None else [])]
    known = [(copper.area_mm2, size) for size in sizes if (copper := conductor_of(size, worked.job)) is not None]
    return max(known, key=lambda one: one[0])[1] if known else piece.size


def _own_colour(piece: CutPiece, worked: JobResult) -> Colour:
    return piece.colour if worked.plan.is_lead(piece) or not piece.replaced.known else piece.replaced


def plugs_of(piece: CutPiece, worked: JobResult) -> tuple[str, ...]:
    """The connectors a piece leads to: those it ends in, and the one whose pigtail it is let in behind."""
    row = worked.job.change(piece.row)
    ends = [end for stretch in worked.plan.of_wire(piece.wire) if stretch.origin == piece.row for end in stretch.ends]
    if row is not None:
        ends += [row.end, row.into] + ([f"{row.plug}."] if row.plug else [])
    kinds = (NodeKind.CAVITY, NodeKind.MODULE)
    named = [
        end for end in ends if "." in end and (end not in worked.plan.nodes or worked.plan.nodes[end].kind in kinds)
    ]
    return tuple(dict.fromkeys(end.partition(".")[0] for end in named))


def _terminal_mm2(own: Sequence[Stretch], worked: JobResult) -> float | None:
    """The thickest copper that the plugs take in whose cavities a piece ends itself."""
    plugs = {end.partition(".")[0] for stretch in own for end in stretch.ends if "." in end}
    takes = [
        plug.takes for name in plugs if (plug := worked.job.plugs.get(name)) is not None and plug.takes is not None
    ]
    areas = [copper.area_mm2 for size in takes if (copper := conductor_of(size.thickest, worked.job)) is not None]
    return min(areas, default=None)


def on_hand(worked: JobResult, rack: Sequence[RackPiece]) -> tuple[list[OnHand], list[Aside]]:
    """The job's own offcuts in the order of its files, then the rack's; and those that are not offered."""
    found: list[OnHand] = []
    aside: list[Aside] = []
    shelf = {piece.name: piece for piece in rack if of_rack(worked.job, piece.name, piece.offcut)}
    for name, colour, size, left_mm, insulation, condition, order in _own(worked):
        piece = shelf.pop(name, None)
        if piece is not None:  # other jobs may have cut from it since it was listed here
            left_mm = None if left_mm is None or piece.left_mm is None else min(left_mm, piece.left_mm)
            condition = condition or piece.offcut.condition
            insulation = insulation or piece.offcut.insulation
        _offer(found, aside, worked, OnHand(name, colour, size, 0.0, 0.0, insulation, condition, order), left_mm)
    own = {*worked.job.offcuts, *(name for row in worked.job.changes for name in row.reclaimed)}
    for piece in rack:
        if piece.name in shelf and piece.name not in own:
            line = piece.offcut
            offered = OnHand(
                piece.name, line.colour, line.size, 0.0, 0.0, line.insulation, line.condition, rack=piece.offcut
            )
            unread = f"{', '.join(piece.unread)} cuts from it and has file faults" if piece.unread else ""
            _offer(found, aside, worked, offered, piece.left_mm, unread)
    return found, aside


def _own(worked: JobResult) -> Iterator[tuple[str, Colour, Size, float | None, str, str, int]]:
    """The job's own offcuts with what its plan leaves of each."""
    job, orders = worked.job, orders_of(worked)
    for name, account in worked.plan.offcuts.items():
        row = job.change(account.source) if account.source else None
        line = job.offcuts.get(name) if row is None else row.reclaimed.get(name)
        insulation = line.insulation if line is not None else ""
        if row is not None and not insulation and len(row.wire_names) == 1 and row.wire_names[0] in job.wires:
            insulation = job.wires[row.wire_names[0]].insulation  # that of the wire it came off
        order = orders[row.id] if row is not None else -1
        condition = line.condition if line is not None else ""
        yield name, account.colour, account.size, account.left_mm, insulation, condition, order


def _offer(
    found: list[OnHand], aside: list[Aside], worked: JobResult, offcut: OnHand, left_mm: float | None, why: str = ""
) -> None:
    copper = conductor_of(offcut.size, worked.job)
    if not why:
        if left_mm is None:
            why = "what is left of it is not recorded"
        elif offcut.condition in SPOILT:
            why = f"it is {offcut.condition}"
        elif not offcut.colour.known:
            why = "its colour is not recorded"
        elif offcut.colour.base == "OG":
            why = "orange is kept for high voltage"
        elif copper is None:
            why = "its size is not recorded" if not offcut.size.known else f"{offcut.size.text} is in no table"
    if why or left_mm is None or copper is None:
        aside.append(Aside(offcut.name, why))
    elif left_mm > 0:
        found.append(
            OnHand(
                offcut.name, offcut.colour, offcut.size, copper.area_mm2, left_mm,
                offcut.insulation, offcut.condition, offcut.order, offcut.rack,
            )
        )  # fmt: skip
