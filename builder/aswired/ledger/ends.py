"""How each end of a line is closed; what speaks against it, or is missing, where it is not shown that it is."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property

from aswired.car.harness import Joint, Node, NodeKind, Stretch
from aswired.car.special import special_wires
from aswired.ledger.copper import Copper
from aswired.ledger.record import Reason, Weight, Why
from aswired.record import Change, Module, Plug
from aswired.text.diagnostics import Location
from aswired.text.one_line import Cover
from aswired.text.units import is_unknown

LIKE_A_FUSE = re.compile(r"F[0-9]+")  # an end so called is a fuse that nobody listed, not a splice
NOT_SETTLED = ("undecided", "refused", "not judged")  # rows of which nobody can tell what they do to the car
NOBODY_LOOKS_INSIDE = ("restraint", "high voltage")
_NOTHING = re.compile(r"-*|none|nothing|open|empty|free|not connected|unplugged", re.IGNORECASE)
_FEEDS = re.compile(
    r"\b(chargers?|batter(?:y|ies)|generators?|alternators?|inverters?|converters?|solar|sources?|suppl(?:y|ies)"
    r"|(?<!instrument )(?<!switch )(?<!door )panels?)\b",
    re.IGNORECASE,
)  # words of what gives current; they only ask


class Ends:
    """The ends of one view's lines."""

    def __init__(self, copper: Copper) -> None:
        self.copper, self.job, self.view = copper, copper.job, copper.view
        self.special = special_wires(copper.job)
        self._by_kind: Mapping[NodeKind, Callable[[Stretch, Node], Iterator[Reason]]] = {
            NodeKind.CAVITY: self._cavity,
            NodeKind.MODULE: self._module,
            NodeKind.FUSE: self._fuse,
            NodeKind.FUSE_FEED: self._fuse,
            NodeKind.GROUND: self._ground,
            NodeKind.SPLICE: self._splice,
            NodeKind.JOINT: self._joint,
            NodeKind.STUB: self._stub,
            NodeKind.UNKNOWN: self._untraced,
        }

    def reasons(self, stretch: Stretch) -> Iterator[Reason]:
        """Why a stretch is not shown to be closed at both its ends."""
        for end in stretch.ends:
            node = self.view.nodes[end]
            judge = self._by_kind.get(node.kind)
            if judge is not None:
                yield from judge(stretch, node)
        yield from self._not_settled(stretch)
        part = self.job.plugs.get(stretch.via.partition(".")[0]) if stretch.via else None
        if part is not None and part.gone:
            live = any(end in self.copper.live for end in stretch.ends)  # no end lies there that could be looked up
            yield from self._gone(stretch, stretch.via, part, live)

    def _not_settled(self, stretch: Stretch) -> Iterator[Reason]:
        """Rows on the wire, or at one of its ends, of which nobody can tell what they did: what they would join to it
        may be there."""
        ends = (end for end in stretch.ends if end not in self.copper.home and end not in self.copper.hot)
        for row in dict.fromkeys(self._open_rows[key] for key in (stretch.wire, *ends) if key in self._open_rows):
            yield Reason(Why.ROW, Weight.MISSING, row, self.job.line_of_row(row), "only if")

    def if_fed(self, stretch: Stretch) -> Iterator[Reason]:
        """What has to be looked at again at both its ends once a feed is found: tape alone closes no live end."""
        for end in stretch.ends:
            node, joint = self.view.nodes[end], self.view.joints.get(end)
            if node.kind is NodeKind.STUB and node.fate is not None and node.fate.word in ("taped", "uncapped"):
                yield Reason(Why.NO_FATE, Weight.MISSING, end, self.told_at(end), "ends")
            elif joint is not None and joint.cover is not None and joint.cover.tape:
                yield Reason(Why.NO_COVER, Weight.MISSING, end, joint.at, "cover")

    def is_open(self, node: str) -> bool:
        """Whether the record stops at a node: more may hang on it than is written."""
        found = self.view.nodes.get(node)
        if found is None:
            return False
        if found.kind is NodeKind.UNKNOWN:
            return True
        declared = self.job.splices.get(node)
        if found.kind is NodeKind.SPLICE:
            return declared is None or not declared.all_members_known
        if found.kind is NodeKind.CAVITY:
            return not self._is_closed(node)
        return found.kind is NodeKind.MODULE and not self._is_listed(node)

    # ---- plugs and modules ------------------------------------------------------------------------------------------
    def _cavity(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        name = node.name.partition(".")[0]
        if LIKE_A_FUSE.fullmatch(name) and name not in self.job.plugs:
            yield Reason(Why.NO_TABLE, Weight.MISSING, name, self._at(stretch), "fuses")
            return
        plug = self.job.plugs.get(name)
        if plug is not None and plug.gone:
            yield from self._gone(stretch, node.name, plug, node.name in self.copper.live)
            return
        if plug is not None and _FEEDS.search(plug.behind):
            at = plug.line_of("behind")
            yield Reason(Why.NOTHING_BEHIND, Weight.MISSING, name, at, "behind", by=(plug.behind,))
            return
        loads = [self.job.loads[load] for load in self.copper.net.load_at.get(node.name, ())]
        if loads and all(load.verdict == "deleted" for load in loads) and not self._has_more(node.name):
            if node.name in self.copper.live:
                load = self.copper.net.load_at[node.name][0]
                at, by = self.job.loads[load].at, self.copper.feeders(node.name)
                yield Reason(Why.DELETED_LOAD, Weight.BY_NAME, load, at, "verdict", by=by)
            return
        if self._is_closed(node.name) or self._in_a_system(stretch):
            return
        undecided = [load for load in loads if load.verdict == "kept" and self.job.holds(load.for_) != "no"]
        if undecided:
            yield Reason(Why.OPTION, Weight.MISSING, node.name, undecided[0].line_of("for"), "options")
            return
        at = plug.line_of("behind") if plug is not None else self._at(stretch)
        yield Reason(Why.NOTHING_BEHIND, Weight.MISSING, name, at, "behind")

    def _is_closed(self, cavity: str) -> bool:
        """Whether something of this car sits behind a cavity: a kept load, a switch, another wire, what is declared."""
        plug = self.job.plugs.get(cavity.partition(".")[0])
        if plug is not None and _is_told(plug.behind):
            return True
        loads = self.copper.net.load_at.get(cavity, ())
        kept = any(load in self.job.loads_for_certain for load in loads)
        return kept or any(self.job.loads[load].verdict == "deleted" for load in loads) or self._has_more(cavity)

    def _has_more(self, node: str) -> bool:
        """Whether a switch, a further wire or a source of current sits at a node."""
        pieces = [piece for piece in self.copper.at.get(node, ()) if piece.kind != "output"]
        further = any(node in (source.plus, source.minus) for source in self.job.sources.values())
        return further or len(pieces) > 1 or any(piece.kind == "switch" for piece in pieces)

    def _module(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        name = node.name.partition(".")[0]
        module = self.job.modules[name]
        if module.gone:
            yield from self._gone(stretch, node.name, module, node.name in self.copper.live)
        elif not self._is_listed(node.name) and not self._in_a_system(stretch):
            yield Reason(Why.NOT_LISTED, Weight.MISSING, node.name, module.at, "out")

    def _is_listed(self, node: str) -> bool:
        part, _, cavity = node.partition(".")
        module = self.job.modules[part]
        listed = (*module.out, *module.ground, *module.reference, *module.guarded)
        return cavity in listed or node in self.copper.net.load_at or self._has_more(node)

    def _gone(self, stretch: Stretch, node: str, part: Plug | Module, live: bool) -> Iterator[Reason]:
        """A part that left the car; while a row of the wire is not settled nobody can tell whether it ends there."""
        if stretch.wire in self._open_rows:  # told of the wire itself
            return
        weight = Weight.NEVER if live else Weight.BY_NAME
        name, at = node.partition(".")[0], part.line_of("gone")
        yield Reason(Why.PART_GONE, weight, name, at, "gone", by=(stretch.wire,))

    @cached_property
    def _open_rows(self) -> Mapping[str, str]:
        """Wire, or end that it would join -> a row of it that is undecided, refused or left out."""
        found: dict[str, str] = {}
        for result in self.view.rows:
            row = self.job.change(result.id) if result.status in NOT_SETTLED else None
            if row is not None:  # joins and bridges name wires with the end: "W70 at FS5"
                named = (*row.wire_names, *(end.split(" at ")[0] for end in row.ends if " at " in end))
                ends = (row.from_, row.to, row.into, row.end, row.onto)
                found.update(dict.fromkeys((*named, *filter(None, ends)), row.id))
        return found

    def _in_a_system(self, stretch: Stretch) -> bool:
        return self.special.get(stretch.wire) in NOBODY_LOOKS_INSIDE

    # ---- fuses, ground points, splices ------------------------------------------------------------------------------
    def _fuse(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        name = node.name.removesuffix(".feed")
        state = self.view.fuses.get(name)
        if state is None or not state.declared:
            yield Reason(Why.NO_TABLE, Weight.MISSING, name, self._at(stretch), "fuses")

    def _ground(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        point = self.job.grounds.get(node.name)
        if point is not None and point.gone:
            yield Reason(Why.PART_GONE, Weight.BY_NAME, node.name, point.line_of("gone"), "gone", by=(stretch.wire,))

    def _splice(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        declared = self.job.splices.get(node.name)
        if declared is None and LIKE_A_FUSE.fullmatch(node.name):
            yield Reason(Why.NO_TABLE, Weight.MISSING, node.name, self._at(stretch), "fuses")
        elif declared is None:
            yield Reason(Why.MEMBERS, Weight.MISSING, node.name, self._at(stretch), "splices")
        elif not declared.all_members_known:
            at = declared.line_of("all members known")
            yield Reason(Why.MEMBERS, Weight.MISSING, node.name, at, "all members known")
        yield from self._opened(node)

    def _joint(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        joint = self.view.joints.get(node.name)
        row = self.job.change(joint.row) if joint is not None else None
        at = row.line_of("cover") if row is not None else joint.at if joint is not None else self._at(stretch)
        if joint is None or joint.cover is None or not joint.cover.named:
            yield Reason(Why.NO_COVER, Weight.MISSING, node.name, at, "cover")
        elif row is not None:
            yield from self._covered(joint, joint.cover, at)
            yield from self._unsealed(row)
        else:
            yield from self._covered(joint, joint.cover, at)
        yield from self._opened(node)

    def _covered(self, joint: Joint, cover: Cover, at: Location) -> Iterator[Reason]:
        """What speaks against a cover: none, one that is shorter than what it lies over, or tape on live copper."""
        live = joint.id in self.copper.live
        weight = Weight.NEVER if live else Weight.BY_NAME
        # a figure beside other words than sleeve may be a width or a bore, unless it is nought
        short = cover.length_mm is not None and cover.sleeve and cover.length_mm < (joint.overlap_mm or 0.0)
        if cover.bare:
            yield Reason(Why.BARE_JOINT, weight, joint.id, at, "cover")
        elif short or cover.length_mm == 0.0:
            mm, lap = cover.length_mm, joint.overlap_mm
            yield Reason(Why.BARE_JOINT, weight, joint.id, at, "cover", mm=mm, most_mm=lap)
        elif cover.tape and live:
            by = self.copper.feeders(joint.id)
            yield Reason(Why.TAPED, Weight.BY_NAME, joint.id, at, "cover", by=by)

    def _opened(self, node: Node) -> Iterator[Reason]:
        """A splice that a row opened, and nobody says that it was closed; a terminal drawn off a bus bar opens none."""
        declared = self.job.splices.get(node.name)
        bar = declared is not None and declared.bus
        for id in node.opened_by:
            row = self.job.change(id)
            fates = [row.fates_of(wire).get(node.name) for wire in row.wire_names] if row is not None else []
            drawn = any(fate is not None and fate.word in ("gone", "pulled") for fate in fates)
            if row is not None and not (bar and drawn):
                yield from self._unsealed(row)

    def _unsealed(self, row: Change) -> Iterator[Reason]:
        """A row that is made and of which nobody says that it was covered, or only on a later day than the view is
        of; what is planned is still to be done."""
        day, sealed = self.view.day, row.sealed
        later = day is not None and sealed is not None and sealed.date is not None and sealed.date > day
        if row.made is not None and (sealed is None or later):
            yield Reason(Why.NOT_SEALED, Weight.MISSING, row.id, row.at, "sealed")

    # ---- dead ends --------------------------------------------------------------------------------------------------
    def _stub(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        row = self.job.change(node.made_by)
        word = node.fate.word if node.fate is not None else ""
        at = self.told_at(node.name)
        live = node.name in self.copper.live
        if word == "uncapped":
            weight = Weight.NEVER if live else Weight.BY_NAME
            yield Reason(Why.BARE, weight, node.name, at, "ends", by=self.copper.feeders(node.name))
        elif word == "taped":
            if live:
                yield Reason(Why.TAPED, Weight.BY_NAME, node.name, at, "ends", by=self.copper.feeders(node.name))
        elif word == "capped":
            cover = node.fate.cover if node.fate is not None else None
            if cover is not None and not cover.named:
                yield Reason(Why.NO_COVER, Weight.MISSING, node.name, at, "cover")
            if row is not None:
                yield from self._unsealed(row)
        else:
            yield Reason(Why.NO_FATE, Weight.MISSING, node.name, at, "ends")

    def told_at(self, stub: str) -> Location:
        """The row that left a dead end; of one that was loose before the last row on its wire, else the wire itself."""
        node = self.view.nodes[stub]
        wire = self.view.at_node[stub][0].wire
        rows = [node.made_by] if node.made_by else self.view.wires[wire].rows[-1:]
        return self.job.line_of_row(rows[0]) if rows else self._at(self.view.at_node[stub][0])

    def _untraced(self, stretch: Stretch, node: Node) -> Iterator[Reason]:
        yield Reason(Why.NO_END, Weight.MISSING, stretch.wire, self._at(stretch), "to")

    def _at(self, stretch: Stretch) -> Location:
        wire = self.job.wires.get(stretch.wire)
        if wire is not None:
            return wire.at
        return self.job.line_of_row(self.view.wires[stretch.wire].added_by or stretch.origin)


def _is_told(behind: str) -> bool:
    """Whether something that takes current is written behind a plug: not unknown, not nothing, nothing that feeds."""
    return not (is_unknown(behind) or _NOTHING.fullmatch(behind.strip()) or _FEEDS.search(behind))
