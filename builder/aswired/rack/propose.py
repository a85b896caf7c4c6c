"""From a job's recorded facts to an allotment problem, and from its answer to a proposal."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from aswired.car.harness import NodeKind
from aswired.car.insulation import BEARS
from aswired.car.trace import circuits
from aswired.figures.worked import JobResult
from aswired.physics.steps import steps_thicker
from aswired.rack.allot import TENTH_MM, Allotted, Demand, Fit, Problem, Stock, allot
from aswired.rack.facts import Aside, Layout, OnHand, Wanted, on_hand, plugs_of, wanted
from aswired.rack.shelf import RackPiece

# The substitution list of a published wiring guide goes two gauge steps up (12 for 16 AWG, 14 for 18, 16 for 20; read).
# A step is 1.59 times the copper; steps are rounded, since the tables of the systems do not meet.
MOST_STEPS = 2


@dataclass(frozen=True)
class AllottedCut:
    """A piece and the offcut it is cut from. `changes`: its colour is another than that of the wire."""

    wanted: Wanted
    offcut: OnHand
    changes: bool


@dataclass(frozen=True)
class Rest:
    """What stays of an offcut when its pieces are cut, trim taken off. [mm] `usable`: worth keeping."""

    offcut: OnHand
    rest_mm: float
    usable: bool


@dataclass(frozen=True)
class Buy:
    """A piece for which new wire is needed, and why no offcut serves."""

    wanted: Wanted
    why: str


@dataclass(frozen=True)
class Proposal:
    """What to cut from what. `answer` says whether it is proved best; lengths in it are tenths of a millimetre."""

    worked: JobResult
    cuts: tuple[AllottedCut, ...]
    rests: tuple[Rest, ...]
    buy: tuple[Buy, ...]
    pieces_aside: tuple[Aside, ...]
    offcuts_aside: tuple[Aside, ...]
    answer: Allotted


def propose(worked: JobResult, rack: Sequence[RackPiece], seconds: float = math.inf) -> Proposal:
    """The best allotment of the planned pieces of a job to its own offcuts and the rack's.

    `seconds`: when to stop looking for a better one; the answer then says what could still be gained.
    """
    layout = Layout(worked)
    pieces, pieces_aside = wanted(worked, layout, _sides(worked))
    offcuts, offcuts_aside = on_hand(worked, rack)
    problem = problem_of(worked, layout, pieces, offcuts)
    answer = allot(problem, seconds)
    cuts, buy = [], []
    for number, (piece, j) in enumerate(zip(pieces, answer.choice, strict=True)):
        if j is None:
            buy.append(Buy(piece, _why_new(worked, piece, offcuts, any(at == number for at, _ in problem.pairs))))
        else:
            changes = piece.own.known and offcuts[j].colour.code != piece.own.code
            cuts.append(AllottedCut(piece, offcuts[j], changes))
    rests = [
        Rest(offcuts[j], rest / TENTH_MM, rest >= problem.keep)
        for j in sorted({j for j in answer.choice if j is not None})
        for rest in [problem.stock[j].left - sum(problem.takes(i) for i, at in enumerate(answer.choice) if at == j)]
    ]
    cuts.sort(key=lambda cut: offcuts.index(cut.offcut))
    return Proposal(worked, tuple(cuts), tuple(rests), tuple(buy), tuple(pieces_aside), tuple(offcuts_aside), answer)


def _sides(worked: JobResult) -> dict[tuple[str, str], str]:
    """(wire, row that put the piece in) -> on which side of its load a piece lies, where that is recorded."""
    found: dict[tuple[str, str], str] = {}
    for circuit in circuits(worked.job, worked.plan).values():
        for side, path in (("feed", circuit.feed), ("ground", circuit.back)):
            if path.state == "complete":
                for stretch in path.stretches:
                    if stretch.origin:
                        found.setdefault((stretch.wire, stretch.origin), side)
    for stretch in worked.plan.stretches:
        if stretch.origin and any(worked.plan.nodes[end].kind is NodeKind.GROUND for end in stretch.ends):
            found.setdefault((stretch.wire, stretch.origin), "ground")
    return found


def problem_of(worked: JobResult, layout: Layout, pieces: Sequence[Wanted], offcuts: Sequence[OnHand]) -> Problem:
    """The numbers of the problem: tenths of a millimetre, indices of pieces and offcuts in the order given."""
    limits = worked.job.limits_in_force
    used = _Colours(worked, layout, pieces)
    pairs: dict[tuple[int, int], Fit] = {}
    for i, piece in enumerate(pieces):
        for j, offcut in enumerate(offcuts):
            if not unfit(worked, piece, offcut) and not used.in_connector(i, offcut):
                keeps = _keeps(piece, offcut)
                other_base = piece.own.known and piece.own.base != offcut.colour.base
                marks = int(piece.own.known and not keeps) + int(used.in_bundle(i, offcut))
                pairs[i, j] = Fit(marks, other_base, keeps)
    return Problem(
        tuple(Demand(piece.piece.id, math.ceil(piece.length_mm * TENTH_MM - 1e-6)) for piece in pieces),
        tuple(Stock(cut.name, math.floor(cut.left_mm * TENTH_MM + 1e-6), cut.colour.code) for cut in offcuts),
        pairs,
        _groups([set(piece.connectors) for piece in pieces]),
        _groups([{piece.piece.row, *map(str, piece.legs)} for piece in pieces]),
        _ground_colours(worked),
        round(limits["trim"].value * TENTH_MM),
        round(limits["keep offcut"].value * TENTH_MM),
    )


def _keeps(piece: Wanted, offcut: OnHand) -> bool:
    return piece.own.known and offcut.colour.code == piece.own.code


def _ground_colours(worked: JobResult) -> frozenset[str]:
    """Colours that mean ground in any harness of the car: a piece goes into one, but is seen beside the others."""
    job = worked.job
    colours = (*job.donor_colours, *(colour for loom in job.looms.values() for colour in loom.donor_colours))
    return frozenset(colour.code for colour in colours if colour.known and not colour.stripes)


def unfit(worked: JobResult, piece: Wanted, offcut: OnHand) -> str:
    """Why a piece cannot be cut from an offcut, whatever else is cut; '' when it can."""
    limits = worked.job.limits_in_force
    if offcut.area_mm2 < piece.area_mm2 - 1e-9:
        return "too thin"
    if round(steps_thicker(offcut.area_mm2, piece.area_mm2)) > MOST_STEPS:
        return f"more than {MOST_STEPS} steps thicker"
    if piece.most_mm2 is not None and offcut.area_mm2 > piece.most_mm2 + 1e-9:
        return "too thick for the terminal"
    if offcut.left_mm < piece.length_mm + limits["trim"].value - 1e-6:
        return "too short"
    if offcut.order >= piece.order:
        return "it comes off later"
    if piece.heat_c is not None and piece.heat_c > limits[BEARS["PVC"]].value:
        bears = BEARS.get(offcut.insulation)
        if bears is None:
            return "the leg is hot and its insulation is not recorded"
        if limits[bears].value < piece.heat_c:
            return f"{offcut.insulation} does not bear the heat"
    if not _keeps(piece, offcut) and not offcut.colour.stripes:
        ground = _ground_colours(worked)
        returns = piece.side == "ground" or (not piece.side and piece.own.code in ground)
        if offcut.colour.code in ground and not returns and (piece.side or piece.own.known):
            return "its colour means ground here"
        if offcut.colour.base == "RD" and ground and returns:
            return "red is kept for feeds"
    return ""


def _why_new(worked: JobResult, piece: Wanted, offcuts: Sequence[OnHand], had_a_choice: bool) -> str:
    """Why new wire: what kept the most offcuts of its size from serving."""
    if not offcuts:
        return "no offcut at hand"
    if had_a_choice:
        return "what fits it serves other pieces better"
    reasons = [unfit(worked, piece, offcut) or "colour is in its connector already" for offcut in offcuts]
    sized = [why for why in reasons if why != "too thin" and "steps" not in why]
    counted = sized or reasons
    return f"no offcut serves: {', '.join(f'{counted.count(why)} {why}' for why in dict.fromkeys(counted))}"


class _Colours:
    """Which colours other wires have already in the connectors and bundles of each piece."""

    def __init__(self, worked: JobResult, layout: Layout, pieces: Sequence[Wanted]) -> None:
        self._pieces = pieces
        self._ground = _ground_colours(worked)
        open_ones = {(piece.piece.wire, piece.piece.row) for piece in pieces}
        fixed = [stretch for stretch in worked.plan.stretches if (stretch.wire, stretch.origin) not in open_ones]
        settled = [piece for piece in worked.plan.pieces if (piece.wire, piece.row) not in open_ones]
        self._plug: dict[str, set[tuple[str, str]]] = {}  # plug -> (wire, colour)
        self._leg: dict[str, set[tuple[str, str]]] = {}
        for stretch in fixed:
            said = (stretch.wire, stretch.colour.code)
            for end in stretch.ends:
                plug, dot, _ = end.rpartition(".")
                if dot:
                    self._plug.setdefault(plug, set()).add(said)
            for leg in layout.legs(stretch):
                self._leg.setdefault(str(leg), set()).add(said)
        for piece in settled:
            said = (piece.wire, piece.colour.code)
            self._leg.setdefault(piece.row, set()).add(said)
            for plug in plugs_of(piece, worked):
                self._plug.setdefault(plug, set()).add(said)

    def in_connector(self, i: int, offcut: OnHand) -> bool:
        """Whether another wire brings the colour into a connector of the piece, which does not keep its own."""
        return self._clashes(i, offcut, self._plug, self._pieces[i].connectors)

    def in_bundle(self, i: int, offcut: OnHand) -> bool:
        piece = self._pieces[i]
        return self._clashes(i, offcut, self._leg, (piece.piece.row, *map(str, piece.legs)))

    def _clashes(self, i: int, offcut: OnHand, table: Mapping[str, set[tuple[str, str]]], keys: Sequence[str]) -> bool:
        piece, code = self._pieces[i], offcut.colour.code
        if code in self._ground or _keeps(piece, offcut):
            return False
        return any(colour == code and wire != piece.piece.wire for key in keys for wire, colour in table.get(key, ()))


def _groups(keys: Sequence[set[str]]) -> tuple[tuple[int, ...], ...]:
    """The pieces that share a key, for each key; a group within another is left out, so that no repeat counts twice."""
    members = {key: frozenset(i for i, own in enumerate(keys) if key in own) for own in keys for key in own}
    groups = {group for group in members.values() if len(group) > 1}
    largest = [group for group in groups if not any(group < other for other in groups)]
    return tuple(sorted(tuple(sorted(group)) for group in largest))
