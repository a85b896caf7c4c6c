"""Colours of pieces put in, and of donor wires against their diagram."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from aswired.car.harness import CutPiece, NodeKind, Stretch
from aswired.car.trace import Net
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding, Location, Rule, Severity

COL01 = Rule("COL01", Severity.ERROR)
COL02 = Rule("COL02", Severity.ERROR, Severity.WARNING)
COL03 = Rule("COL03", Severity.ERROR)
COL04 = Rule("COL04", Severity.WARNING)
COL05 = Rule("COL05", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    sides = _Sides(facts)
    for piece in facts.pieces:
        row = facts.job.change(piece.row)
        if row is None:
            continue
        at = row.line_of("wires" if row.wires else "piece")
        if row.piece_of(piece.wire) is None:
            problem = f"the colour of the piece in {piece.wire} is not written"
            mend = f"Write {f'{piece.wire}:' if row.wires else 'piece:'} and its colour and size, or unknown"
            yield COL01(row.at, piece.id, problem, mend)
        if piece.colour.base == "OG":
            yield COL04(
                at,
                piece.id,
                "an orange piece: orange is kept for high voltage",
                "Take another colour, or mark it along its length",
            )
        yield from _same_colour(facts, sides, piece, at)
    for row in facts.job.changes:
        words = row.cover.text.casefold() if row.cover else ""
        for a, colour, meaning in (("an", "orange", "high voltage"), ("a", "yellow", "restraint wiring")):
            if colour in words:
                yield COL04(
                    row.line_of("cover"),
                    row.id,
                    f"{a} {colour} cover: {colour} is kept for {meaning}",
                    "Take another colour",
                )
    yield from _conventions(facts, sides)
    yield from _against_diagram(facts)


def _in_one_bundle(facts: JobResult, one: CutPiece, two: CutPiece) -> bool:
    """Whether two pieces were put in by one row, or lengthen wires of one plug that moved."""
    rows = [facts.job.change(piece.row) for piece in (one, two)]
    plugs = {row.plug for row in rows if row is not None}
    return one.row == two.row or (len(plugs) == 1 and "" not in plugs)


class _Sides:
    """What wires of the plan are joined to, asked only of colours that mean something."""

    def __init__(self, facts: JobResult) -> None:
        self._facts = facts

    @cached_property
    def _net(self) -> Net:
        return Net(self._facts.job, self._facts.plan)

    def of(self, wire: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Sources and grounds that a wire of the plan is joined to. A source ends a walk, so each end is asked."""
        ends = dict.fromkeys(end for stretch in self._facts.plan.of_wire(wire) for end in stretch.ends)
        reached = [self._net.reach(end) for end in ends]
        sources = dict.fromkeys(name for reach in reached for name in reach.sources)
        return tuple(sources), tuple(dict.fromkeys(name for reach in reached for name in reach.grounds))

    def fed(self, wire: str) -> bool:
        return bool(self.of(wire)[0])


def _same_colour(facts: JobResult, sides: _Sides, piece: CutPiece, at: Location) -> Iterator[Finding]:
    """Another wire of the same colour in the same connector is an error, in the same bundle a warning.

    Grounds may be alike: that is two wires in a colour that means ground of which none is fed.
    """
    if not piece.colour.known:
        return
    means_ground = _means_ground(facts, piece.wire, piece.colour.base or "")

    def no_matter(other: str) -> bool:
        return means_ground and not sides.fed(piece.wire) and not sides.fed(other)

    own = [stretch for stretch in facts.plan.of_wire(piece.wire) if stretch.origin == piece.row]
    plugs = {
        end.partition(".")[0]
        for stretch in own
        for end in stretch.ends
        if facts.plan.nodes[end].kind is NodeKind.CAVITY
    }
    for plug in sorted(plugs):
        for other in _at_plug(facts, plug):
            told = f"{other.origin}-{other.wire}" < piece.id if other.origin else False  # from the other piece
            alike = other.wire != piece.wire and other.colour.code == piece.colour.code
            if alike and not told and not _one_switch(facts, plug) and not no_matter(other.wire):
                yield COL02(
                    at,
                    piece.id,
                    f"{piece.colour.code} sits in {plug} twice: this piece and {other.wire}",
                    "Take another colour, or flag both at the plug",
                    rank=Severity.ERROR,
                )
    twins = [
        other
        for other in facts.pieces
        if _in_one_bundle(facts, other, piece)
        and other.id > piece.id
        and other.colour.code == piece.colour.code
        and not no_matter(other.wire)
    ]
    for twin in twins:
        problem = f"{piece.id} and {twin.id} are both {piece.colour.code} in one bundle"
        mend = "Take another colour for one, or flag both along their length"
        yield COL02(at, piece.id, problem, mend, rank=Severity.WARNING)


def _one_switch(facts: JobResult, plug: str) -> bool:
    """Whether the part is a switch of two ends: wires on its two sides need no telling apart by colour."""
    between = [switch.between for switch in facts.job.switches.values() if switch.between]
    return any({end.partition(".")[0] for end in ends} == {plug} for ends in between)


def _at_plug(facts: JobResult, plug: str) -> Iterator[Stretch]:
    for name, stretches in facts.plan.at_node.items():
        if name.startswith(plug + "."):
            yield from stretches


def _means_ground(facts: JobResult, wire: str, base: str) -> bool:
    return any(colour.base == base and not colour.stripes for colour in facts.job.ground_colours_of(wire))


def _against_diagram(facts: JobResult) -> Iterator[Finding]:
    """A donor wire in the car whose colour was read otherwise than the diagram has it: faded stripes, other years."""
    for name, wire in facts.job.wires.items():
        read, drawn = wire.colour, wire.by_diagram
        in_car = any(not stretch.origin for stretch in facts.shown.of_wire(name))
        if drawn is None or not drawn.known or not read.known or not in_car:
            continue
        if (read.base, read.shade) != (drawn.base, drawn.shade):
            what = "another base colour"
        elif drawn.stripes and not read.stripes:
            what = "its stripe was not seen"
        elif drawn.stripes != read.stripes:
            what = "another stripe"
        else:
            continue
        problem = f"{name} is {read.words} here and {drawn.words} in the diagram: {what}"
        mend = "Wipe it and look again in daylight, then trace it with a meter; dirt and age hide a stripe"
        yield COL05(wire.line_of("by diagram"), name, problem, mend)


def _conventions(facts: JobResult, sides: _Sides) -> Iterator[Finding]:
    """A ground colour on a feed, or plain red on a ground; judged on pieces this job put in."""
    told: set[tuple[str, str]] = set()
    for stretch, side, of in _traced(facts, sides):
        known = facts.job.ground_colours_of(stretch.wire)
        row = facts.job.change(stretch.origin)
        if not known or row is None or stretch.colour.stripes or (stretch.origin, stretch.wire) in told:
            continue
        means_ground = _means_ground(facts, stretch.wire, stretch.colour.base or "")
        if means_ground if side == "feed" else stretch.colour.base == "RD":
            told.add((stretch.origin, stretch.wire))
            meant = "ground" if side == "feed" else "feed"
            problem = f"{stretch.colour.words} means {meant} here, but the piece is in the {side} of {of}"
            mend = "Take another colour, or flag it at both joints"
            yield COL03(row.at, f"{stretch.origin}-{stretch.wire}", problem, mend)


def _traced(facts: JobResult, sides: _Sides) -> Iterator[tuple[Stretch, str, str]]:
    """The stretches on a side of a circuit, with the load; then pieces whose wire is joined to a source or a ground."""
    for name, circuit in facts.circuits.items():
        for side, path in (("feed", circuit.feed), ("ground", circuit.back)):
            if path.state == "complete":
                yield from ((stretch, side, f"'{name}'") for stretch in path.stretches)
    for stretch in facts.plan.stretches:
        if stretch.origin and (
            stretch.colour.base == "RD" or _means_ground(facts, stretch.wire, stretch.colour.base or "")
        ):
            sources, grounds = sides.of(stretch.wire)
            if sources and not grounds:
                yield stretch, "feed", sources[0]
            elif grounds and not sources:
                yield stretch, "ground", grounds[0]
