"""Cut ends that are still in the car: where each hangs, how it is covered, and whether anything feeds it."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from aswired.car.harness import Node, NodeKind, View
from aswired.car.trace import Net, Reach
from aswired.figures.worked import JobResult
from aswired.sheets.text import amount, size
from aswired.text.colours import Colour
from aswired.text.one_line import Fate
from aswired.text.unsaid import NOT_RECORDED


@dataclass(frozen=True)
class CutEnd:
    """A dead end of a wire, left by a row. `length` is what hangs there, from `hangs_on` to the cut."""

    id: str
    row: str
    wire: str
    colour: Colour
    size: str
    hangs_on: str
    length: str
    cover: str
    live: str  # 'fed by F11 (ignition)', 'live through a load', 'no feed reaches it', or what is not known
    fed: bool
    fuses: tuple[str, ...]  # through which it is fed


def cut_ends(worked: JobResult) -> tuple[CutEnd, ...]:
    """The cut ends of the shown view, by row in the order of the file."""
    view, net = worked.shown, worked.network.grid.net
    live = {line.name for account in worked.ledger.accounts.values() for line in account.lines if line.live}
    order = {change.id: number for number, change in enumerate(worked.job.changes)}
    found = [_cut_end(node, net, live, worked) for node in view.nodes.values() if node.kind is NodeKind.STUB]
    return tuple(sorted(found, key=lambda end: order.get(end.row, len(order))))


def _cut_end(node: Node, net: Net, live: Collection[str], worked: JobResult) -> CutEnd:
    stretch, reach = worked.shown.at_node[node.name][0], net.reach(node.name)
    return CutEnd(
        id=node.name,
        row=node.made_by,
        wire=stretch.wire,
        colour=stretch.colour,
        size=size(stretch.size),
        hangs_on=_node_name(worked.shown.nodes[stretch.other(node.name)]),
        length=amount(stretch.length_mm, "mm", worked.job.units),
        cover=_cover(node.fate),
        live=_live(reach, worked.shown, stretch.name in live),
        fed=bool(reach.sources) or stretch.name in live,
        fuses=tuple(name for name in reach.sources if name in worked.shown.fuses),
    )


def _node_name(node: Node) -> str:
    return "an end that was not traced" if node.kind is NodeKind.UNKNOWN else node.name


def _cover(fate: Fate | None) -> str:
    """The word of the fate, with the cover where a row of kind cap names it."""
    if fate is None or fate.word == "unknown":
        return NOT_RECORDED
    _, named, cover = fate.text.partition(": ")
    return f"{fate.word}, {cover}" if named else fate.word


def _live(reach: Reach, view: View, through_load: bool) -> str:
    """Every switch counts as closed. A way through a load is no feed, but what hangs there is live."""
    if reach.sources:
        return "fed by " + ", ".join(_sources(reach.sources, view))
    if through_load:
        return "live through a load"
    return "not known if live" if reach.unexamined else "no feed reaches it"


def _sources(names: Iterable[str], view: View) -> Iterable[str]:
    for name in names:
        fuse = view.fuses.get(name)
        fed = fuse.facts.fed if fuse is not None else ""
        if fuse is not None and fuse.spare:
            yield f"{name} (left spare: only with a fuse in it)"
        else:
            yield f"{name} ({fed})" if fed not in ("", "unknown") else name
