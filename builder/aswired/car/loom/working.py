"""The harness while rows are folded over it: what a kind of change may do to it, in a few verbs.

A `WorkingHarness` belongs to one fold. Kinds of change call its verbs and raise `Refused` when the row cannot be so
(F15); the fold then puts it back as it was before the row.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from aswired.car.harness import CutPiece, FuseState, Joint, Node, NodeKind, OffcutUse, StudRing, WireState, untraced_end
from aswired.car.loom.method import HouseMethod
from aswired.car.loom.state import HarnessState, Refused, WorkingStretch
from aswired.car.route import Route
from aswired.physics.lengths import less, total
from aswired.record import Change, Fuse, Job
from aswired.text.colours import Colour
from aswired.text.diagnostics import Rule, Severity, did_you_mean
from aswired.text.one_line import HELD_BY_NOTHING, Fate, Piece, which_post
from aswired.text.schema import keys_of
from aswired.text.units import LOOSE, Length, Size, is_loose, is_unknown

ROW02 = Rule("ROW02", Severity.ERROR)
ROW03 = Rule("ROW03", Severity.ERROR)


class WorkingHarness:
    """The working harness of one fold."""

    def __init__(self, job: Job, route: Route) -> None:
        self.job = job
        self.route = route
        self.house = HouseMethod(job.usual)
        self.moved_with: tuple[str, ...] = ()  # set by a ground row, read by the fold
        self.upto = len(job.changes)  # rows of the file that the list knows; those below are not written yet
        self.s = HarnessState.empty()
        for name, fuse in job.fuses.items():
            self.s.fuses[name] = FuseState(name, fuse, True)

    # ---- names ------------------------------------------------------------------------------------------------------
    def kind_of(self, name: str) -> NodeKind:
        """What a written end is, by what the job declares; an undeclared word without a point is a factory splice."""
        part, dot, _ = name.partition(".")
        if name in ("battery+", "battery-"):
            return NodeKind.BATTERY
        if name in self.s.fuses:
            return NodeKind.FUSE
        if part in self.s.fuses and dot:
            return NodeKind.FUSE_FEED
        if name in self.job.grounds:
            return NodeKind.GROUND
        if name in self.job.splices:
            return NodeKind.SPLICE
        if part in self.job.modules and dot:
            return NodeKind.MODULE
        return NodeKind.CAVITY if dot else NodeKind.SPLICE

    def declared(self, name: str, kind: NodeKind) -> bool:
        part = name.partition(".")[0]
        tables: Iterable[str] = {
            NodeKind.SPLICE: self.job.splices,
            NodeKind.GROUND: self.job.grounds,
            NodeKind.CAVITY: self.job.plugs,
        }.get(kind, (part, name))
        return part in tables or name in tables

    def find(self, written: str) -> str | None:
        """The node a written end means: its full name, or a shorter form while only one begins with it (F3)."""
        if written in self.s.nodes:
            return written
        longer = self.s.nodes.longer(written)
        if len(longer) > 1:
            raise Refused(
                f"'{written}' may mean {' or '.join(sorted(longer))}", "Write the full id", about=tuple(longer)
            )
        return longer[0] if longer else None

    def target(self, written: str, key: str, wire: str, ground: bool = False) -> str:
        """The node an end is moved to; created by its first use (F15). Where nobody knows it, one of the wire's own."""
        if is_unknown(written):
            return self.untraced(wire)
        if is_loose(written):
            raise Refused(
                "'loose' is an end that nothing holds; it does not say which",
                "Name the cut end, as in W50-loose; or cut the wire with a row of kind cap",
                key,
            )
        found = self.find(written)
        if found is not None:
            return found
        kind = self.kind_of(written)
        if ground and kind is NodeKind.SPLICE and written not in self.job.splices:
            kind = NodeKind.GROUND  # a post, a fuse or a splice stays what it is, though nothing ended in it so far
        if not self.declared(written, kind) and self._row_known(written.partition("-")[0]):
            raise Refused(
                f"the splice '{written}' is not there at this point",
                "Put this row behind the row that makes it",
                key,
                about=(written,),
            )
        if kind in (NodeKind.SPLICE, NodeKind.GROUND) and which_post(written):
            raise Refused(f"'{written}' is not one of the two battery posts", which_post(written), key)
        if kind in (NodeKind.SPLICE, NodeKind.GROUND) and (written in self.job.plugs or written in self.job.modules):
            raise Refused(
                f"'{written}' is a connector, and no cavity of it is named", f"Write the cavity too: {written}.1", key
            )
        self.s.nodes[written] = Node(written, kind, declared=self.declared(written, kind))
        return written

    def _row_known(self, name: str) -> bool:
        place = self.job.place(name)
        return place is not None and place < self.upto

    def free_cavity(self, node: str, written: str, row: Change, key: str) -> None:
        """Refuse a cavity that holds a wire already, unless the row says that two share the terminal (F15)."""
        if self.s.nodes[node].kind is not NodeKind.CAVITY or row.double_crimp:
            return
        there = self.members(node)
        if there:
            raise Refused(
                f"cavity '{written}' already holds wire '{there[0].wire}'",
                "Name another cavity, or write terminal: double crimp",
                key,
                about=(written, there[0].wire),
            )

    def plant(self, written: str, wire: str, twice: bool) -> str:
        """The node of a donor wire's end. Unknown and loose ends are a node each, named by the wire."""
        if is_unknown(written):
            return self.untraced(wire, 1 if twice else 0)
        _, dot, cavity = written.partition(".")
        if dot and is_unknown(cavity) and self._cavity_shared(written, wire):
            name = f"{written} {wire}"  # two cavities that nobody noted are not one
            self.s.nodes[name] = Node(name, NodeKind.CAVITY, declared=self.declared(written, NodeKind.CAVITY))
            return name
        owner = written.removesuffix(f"-{LOOSE}")
        if is_loose(written) or (owner != written and (owner == wire or owner in self.job.wires)):
            name = f"{wire}-{LOOSE}"
            if name in self.s.nodes:
                name += "-2"
            self.s.nodes[name] = Node(name, NodeKind.STUB, fate=HELD_BY_NOTHING)
            return name
        if written not in self.s.nodes:
            kind = self.kind_of(written)
            self.s.nodes[written] = Node(written, kind, declared=self.declared(written, kind))
        return written

    def untraced(self, wire: str, number: int = 0) -> str:
        """A node for an end of the wire that nobody followed; `number` tells the two of one wire apart."""
        name = untraced_end(f"{wire} {number}" if number else wire)
        while name in self.s.nodes:
            number = max(number, 1) + 1
            name = untraced_end(f"{wire} {number}")
        self.s.nodes[name] = Node(name, NodeKind.UNKNOWN)
        return name

    # ---- wires ------------------------------------------------------------------------------------------------------
    def lay(
        self, wire: str, colour: Colour, size: Size, ends: tuple[str, str], length: Length | None, via: str
    ) -> None:
        """Put a donor wire into the harness."""
        first, second = sorted(ends)  # the order of from and to never counts (F1)
        both = is_unknown(first) and is_unknown(second)
        a, b = self.plant(first, wire, both), self.plant(second, wire, both)
        mm = length.mm if length else None
        by = self.job.wires[wire].by if wire in self.job.wires else ()
        self.s.wires[wire] = WireState(wire, colour, size, (a, b), by=by)
        if via and self._cavity_shared(via, wire):
            self.plant(via, wire, False)
            self.add(WorkingStretch(wire, a, via, colour, size, None))
            self.add(WorkingStretch(wire, via, b, colour, size, None))
        else:
            self.add(WorkingStretch(wire, a, b, colour, size, mm, via=via))
        for node in (a, b):
            if self.s.nodes[node].kind is NodeKind.GROUND:
                self.s.rings += (StudRing(node, "", (wire,)),)

    def _cavity_shared(self, cavity: str, wire: str) -> bool:
        return any(name != wire and cavity in (w.from_, w.to, w.via) for name, w in self.job.wires.items())

    def add(self, run: WorkingStretch) -> int:
        self.s.runs[self.s.next_run] = run
        self.s.next_run += 1
        return self.s.next_run - 1

    def runs_of(self, wire: str) -> dict[int, WorkingStretch]:
        return self.s.runs.of_wire(wire)

    def wire(self, name: str, row: Change, key: str = "") -> WireState:
        """The wire a row works on, named in `key`; refused when it is not in the list or not in the car any more."""
        state = self.s.wires.get(name)
        key = key or ("wires" if row.wires else "wire")
        if state is None:
            meant = did_you_mean(name, self.s.wires, "")
            raise Refused(
                f"wire '{name}' is not in the wire list",
                f"{meant} Else add {name} to 'wires:', or write was: on the row"
                if meant
                else f"Add {name} to 'wires:', or say on the row what it was: was: GN 18 AWG, FS4 to plug.1",
                key,
                ROW02,
                (name,),
            )
        if not self.runs_of(name):
            raise Refused(
                f"wire '{name}' is not in the car any more; {state.removed_by} took it out",
                "Check the order of the rows",
                key,
                about=(name, state.removed_by),
            )
        return state

    def end_of(self, wire: str, written: str, key: str) -> tuple[int, str]:
        """The run of a wire that sits in the written end, and the node's name.

        `unknown` is its one untraced end, `loose` the one that was cut off before.
        """
        node = self._by_word(wire, written) or self.find(written)
        touching = {number: run for number, run in self.runs_of(wire).items() if node in (run.a, run.b)}
        if node is None or not touching:
            ends = self.loose_ends(wire)
            mend = did_you_mean(written, ends, f"The ends of {wire} are {', '.join(ends)}")
            raise Refused(f"wire '{wire}' does not end in '{written}'", mend, key, ROW03, (wire, written))
        if len(touching) > 1:
            raise Refused(
                f"'{written}' lies inside wire '{wire}', not at its end",
                f"The ends of {wire} are {', '.join(self.loose_ends(wire))}",
                key,
                about=(written, wire),
            )
        return next(iter(touching)), node

    def _by_word(self, wire: str, written: str) -> str:
        """The end of a wire that is told by what holds it, not by a name; '' where the word is another, or two fit."""
        nodes = [self.s.nodes[end] for end in self.loose_ends(wire)]
        if is_unknown(written):
            fit = [node.name for node in nodes if node.kind is NodeKind.UNKNOWN]
        elif is_loose(written):
            fit = [node.name for node in nodes if node.kind is NodeKind.STUB and not node.made_by]
        else:
            return ""
        return fit[0] if len(fit) == 1 else ""

    def end_at_plug(self, wire: str, plug: str) -> tuple[int, str]:
        """The run and the cavity by which a wire sits in a plug."""
        found = [
            (number, node)
            for number, run in self.runs_of(wire).items()
            for node in dict.fromkeys((run.a, run.b))
            if node.startswith(plug + ".")
        ]
        if not found:
            ends = self.loose_ends(wire)
            plugs = [end.partition(".")[0] for end in ends if "." in end]
            raise Refused(
                f"wire '{wire}' does not end in plug '{plug}'",
                did_you_mean(plug, plugs, f"The ends of {wire} are {', '.join(ends)}"),
                "plug",
                ROW03,
                (wire, plug),
            )
        if len(found) > 1:
            raise Refused(
                f"wire '{wire}' ends in plug '{plug}' twice",
                "Write end: and the cavity instead of plug:",
                "plug",
                about=(wire, plug),
            )
        return found[0]

    def loose_ends(self, wire: str) -> list[str]:
        """The ends of a wire: nodes that only one of its runs touches."""
        count: dict[str, int] = {}
        for run in self.runs_of(wire).values():
            for node in (run.a, run.b):
                count[node] = count.get(node, 0) + 1
        return sorted(node for node, times in count.items() if times == 1)

    def onward(self, wire: str, start: str) -> list[tuple[int, str]]:
        """Following the wire from a node: the runs met, in order, each with the node it leads to."""
        left, at = self.runs_of(wire), start
        met: list[tuple[int, str]] = []
        while True:
            number = next((n for n, run in left.items() if at in (run.a, run.b)), None)
            if number is None:
                return met
            at = left.pop(number).other(at)
            met.append((number, at))

    def far_end(self, wire: str, start: str) -> str:
        """Following the wire from one of its ends: the end it comes out at."""
        met = self.onward(wire, start)
        return met[-1][1] if met else start

    def members(self, node: str) -> list[WorkingStretch]:
        return list(self.s.runs.at(node).values())

    def total(self, wire: str) -> float | None:
        """Conductor of one wire in the car. [mm] None when a part is not recorded."""
        return total(*(run.length_mm for run in self.runs_of(wire).values()))

    # ---- verbs ------------------------------------------------------------------------------------------------------
    def detach(self, node: str, wire: str, row: str) -> None:
        """Note that a wire end left a node: a splice was opened, a ring came off, a stub or joint may be gone."""
        known = self.s.nodes[node]
        if known.kind in (NodeKind.SPLICE, NodeKind.JOINT) and self.members(node):
            if row not in known.opened_by:
                self.s.nodes[node] = replace(known, opened_by=(*known.opened_by, row))
            joint = self.s.joints.get(node)
            if joint is not None:  # its members are the wires that still end in it (F7)
                here = {run.wire for run in self.members(node)}
                self.s.joints[node] = replace(joint, wires=tuple(name for name in joint.wires if name in here))
        elif known.kind in (NodeKind.JOINT, NodeKind.STUB, NodeKind.UNKNOWN) and not self.members(node):
            del self.s.nodes[node]
            self.s.joints.pop(node, None)
        if known.kind is NodeKind.GROUND:
            self._take_ring(node, wire)

    def _take_ring(self, ground: str, wire: str) -> None:
        kept: list[StudRing] = []
        for ring in self.s.rings:
            if ring.ground == ground and wire in ring.wires:
                rest = tuple(name for name in ring.wires if name != wire)
                if rest:
                    kept.append(replace(ring, wires=rest))
            else:
                kept.append(ring)
        self.s.rings = tuple(kept)

    def drop(self, number: int, row: str, stays_at: Iterable[str] = ()) -> None:
        """Take a run out of the car; at the nodes of `stays_at` a stub of it stays, so they are not opened."""
        run = self.s.runs.pop(number)
        for node in dict.fromkeys((run.a, run.b)):
            if node not in stays_at and node in self.s.nodes:
                self.detach(node, run.wire, row)

    def made_at(self, row: Change, wire: str, node: str) -> str:
        """Id of what a row makes near an end of a wire (F3); ids have no blanks, names of untraced ends do."""
        return f"{row.id}-{wire}-{node}".replace(" ", "-")

    def stub(self, name: str, row: str, fate: Fate | None) -> str:
        """A dead end made by a row."""
        self.s.nodes[name] = Node(name, NodeKind.STUB, made_by=row, fate=fate)
        return name

    def joint(
        self,
        row: Change,
        name: str,
        wires: tuple[str, ...],
        from_end: str = "",
        centre_mm: float | None = None,
        face_mm: float | None = None,
        tap: bool = False,
        where: str = "",
        slack_mm: float | None = 0.0,
        other: tuple[str, float | None] = ("", None),
    ) -> str:
        """A splice made by a row, with its centre and cut face measured from `from_end` along the wire.

        `slack_mm` lies between `from_end` and the splice: by tape measure it is that much nearer (M11).
        """
        self.s.nodes[name] = Node(name, NodeKind.JOINT, made_by=row.id)
        self.s.joints[name] = Joint(
            id=name,
            row=row.id,
            wires=wires,
            method=self.house.joint(row),
            overlap_mm=self.house.overlap_mm(row),
            cover=self.house.cover(row),
            from_end=from_end,
            cut_from=from_end,
            centre_mm=centre_mm,
            cut_face_mm=face_mm,
            beside_mm=less(centre_mm, slack_mm),
            other_end=other[0],
            other_mm=other[1],
            recorded_place=where,
            tap=tap,
            through=wires[0] if tap else "",
            at=row.at,
        )
        return name

    def member(self, node: str, wire: str) -> None:
        """Note that a wire ends in a joint that was there before."""
        joint = self.s.joints.get(node)
        if joint is not None and wire not in joint.wires:
            self.s.joints[node] = replace(joint, wires=(*joint.wires, wire))

    def put_ring(self, row: Change, ground: str, wire: str) -> None:
        """Put a wire's ring on a stud, or the wire into the ring of another row (F9)."""
        ring = row.ring
        if ring is not None and ring.shared_with:
            for index, other in enumerate(self.s.rings):
                if other.ground == ground and other.row == ring.shared_with:
                    with_it = replace(other, wires=(*other.wires, wire))
                    self.s.rings = (*self.s.rings[:index], with_it, *self.s.rings[index + 1 :])
                    return
            raise Refused(
                f"row '{ring.shared_with}' has no ring on '{ground}'",
                "Name the row whose ring takes both wires",
                "ring",
                about=(ring.shared_with, ground),
            )
        hole, position = (ring.hole, ring.position) if ring else ("", None)
        self.s.rings += (StudRing(ground, row.id, (wire,), hole, position),)

    def touched(self, wire: str, row: str) -> None:
        state = self.s.wires[wire]
        if row not in state.rows:
            self.s.wires[wire] = replace(state, rows=(*state.rows, row))

    def assign_fuse(self, row: Change, name: str, facts: Mapping[str, Any]) -> None:
        """Say of a fuse what a row says of it; one that is not declared is created by its first use (F15, F21)."""
        known = self.s.fuses.get(name)
        if known is None:
            known = FuseState(name, Fuse(at=row.at), False)
            for end, kind in ((name, NodeKind.FUSE), (f"{name}.feed", NodeKind.FUSE_FEED)):
                if end in self.s.nodes:  # a wire sat there before anything said that it is a fuse
                    self.s.nodes[end] = replace(self.s.nodes[end], kind=kind)
        lines = {**known.facts.lines, **{key: at for key, at in row.lines.items() if key in keys_of(Fuse)}}
        after = replace(known.facts, **facts, lines=lines)  # a rating is told where it was written last
        self.s.fuses[name] = replace(known, facts=after, rows=(*known.rows, row.id))

    def spares(self, row: Change) -> None:
        """The fuses that a row leaves with nothing to feed (M8)."""
        for name in row.spare:
            if name in self.s.fuses:
                self.assign_fuse(row, name, {"use": "spare"})

    # ---- the rack ----------------------------------------------------------------------------------------------------
    def cut_from(self, piece: Piece | CutPiece, piece_id: str, length_mm: float | None) -> OffcutUse:
        """The account of a piece's offcut with one more cut; of the shop's rack where this job does not list it."""
        account = self.s.offcuts.get(piece.offcut)
        if account is None:
            account = OffcutUse(piece.offcut, piece.colour, piece.size, None, "")
        return replace(account, cuts=(*account.cuts, (piece_id, length_mm)))

    def use_offcut(self, row: Change, piece: Piece, piece_id: str, length_mm: float | None) -> None:
        """Cut a piece from the rack (F15, M3): an overdrawn offcut refuses a planned row, a made one is a finding."""
        if not piece.offcut:
            return
        after = self.cut_from(piece, piece_id, length_mm)
        if row.made is None and after.left_mm is not None and after.left_mm < -0.5:
            left = self.s.offcuts[piece.offcut].left_mm or 0
            raise Refused(
                f"offcut {piece.offcut} has {round(left)} mm left; the piece needs {round(length_mm or 0)} mm",
                "Choose another offcut, or new wire",
                "wires" if row.wires else "piece",
            )
        self.s.offcuts[piece.offcut] = after

    def reclaim(self, row: Change) -> None:
        """Put the row's reclaimed pieces on the rack."""
        wires = row.wire_names
        for name, offcut in row.reclaimed.items():
            size = offcut.size
            if not size.known and len(wires) == 1 and wires[0] in self.s.wires:
                size = self.s.wires[wires[0]].size  # written without a size: that of the wire it came off
            self.s.offcuts[name] = OffcutUse(name, offcut.colour, size, offcut.length.mm, row.id)
