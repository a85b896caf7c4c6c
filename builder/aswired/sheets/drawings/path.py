"""A circuit as one column from its feed down to battery negative: points on the line, stretches of wire between them.

The donor's path stands beside today's with its points level with the same points of today, so that what was there and
what is there can be read across. Order only; looks are in the templates.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from aswired.car.circuits import Circuit, Path, PathStep
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE, Node, NodeKind, View
from aswired.ledger.record import State
from aswired.record import Job
from aswired.sheets.text import amount, size
from aswired.text.colours import UNKNOWN, Colour
from aswired.text.units import show_both
from aswired.text.unsaid import NOT_RECORDED

THICK_MM2 = 10.0  # from here a band is drawn wide
THICK_AWG = 7.0  # 7 AWG is 10.5 mm² (ASTM B258)
NO_STATES: Mapping[str, State] = {}
FUSE_ENDS = (NodeKind.FUSE, NodeKind.FUSE_FEED)
LOAD_SYMBOLS = {
    "lamp": "lamp",
    "pump": "motor",
    "motor": "motor",
    "horn": "horn",
    "heater": "heater",
    "coil": "coil",
}


@dataclass(frozen=True)
class Line:
    """What is drawn through a place of the column. `colour` is None inside a part, where no wire is recorded."""

    colour: Colour | None
    thick: bool = False


@dataclass(frozen=True)
class Band:
    """A stretch of wire: `length` is from centre to centre of what it ends in."""

    wire: str
    line: Line
    size: str
    length: str
    origin: str  # row that put it in; '' = the donor's
    offcut: str
    note: str = ""
    shown_as: State | None = None  # what the ledger says of it; None where that is not asked
    kind: str = "band"


@dataclass(frozen=True)
class Point:
    """Something on the line: `what` it is, `where` it is, and the wires above and below it.

    `name` is what the trace calls it; `tag` is the id that is shown, '' for what has none.
    """

    name: str
    tag: str
    symbol: str
    what: str
    where: str
    row: str  # row that made it; '' = the donor's
    above: Line | None = None
    below: Line | None = None
    current: str = ""  # loads only
    kind: str = "point"


Item = Band | Point


@dataclass(frozen=True)
class PathRow:
    """One row of the column. `side` is Feed, Load or Return on the row that begins it, with `state` in words.

    Where only one of today and the donor has something, the other's wire runs on: `now_line`, `was_line`.
    """

    side: str = ""
    state: str = ""
    now: Item | None = None
    was: Item | None = None
    now_line: Line | None = None
    was_line: Line | None = None


def draw_path(
    circuit: Circuit,
    view: View,
    donor: Circuit | None,
    donor_view: View,
    job: Job,
    where: Callable[[str], str],
    states: Mapping[str, State] = NO_STATES,
) -> tuple[PathRow, ...]:
    """The column of a circuit, feed first. `where` gives the place of a node in words, '' when none is recorded;
    `states` the state of each length of today's wire by its name, as the ledger has it."""
    rows: list[PathRow] = []
    for side, path, before in (
        ("Feed", circuit.feed, donor.feed if donor else None),
        ("Load", None, None),
        ("Return", circuit.back, donor.back if donor else None),
    ):
        rows.append(PathRow(side, _state(path) if path else ""))
        if path is None:
            load = _load(circuit.load, job)
            rows.append(PathRow(now=load, was=replace(load, where="") if donor else None))
        else:
            now = _items(path, view, job, where, side, states)
            was = _items(before, donor_view, job, where, side, NO_STATES) if before else []
            rows += _beside(now, was)
    return tuple(_run_on(_said_once(rows), bool(donor)))


def _state(path: Path) -> str:
    """What the record says of a side: nothing of a complete one but what the trace remarked."""
    return ": ".join(filter(None, ["" if path.state == "complete" else path.state, path.why]))


def _items(
    path: Path, view: View, job: Job, where: Callable[[str], str], side: str, states: Mapping[str, State]
) -> list[Item]:
    found: list[Item] = []
    steps = [step for step in path.steps if step.kind != "load"]
    for index, step in enumerate(steps):
        if step.kind in ("stretch", "cable"):
            band = _band(step, job)
            name = step.stretch.name if step.stretch is not None else step.name
            found.append(replace(band, shown_as=states.get(name)))
        elif not _told_by_its_fuse(steps, index):
            found.append(_point(step, view, job, where))
    inner = Line(None)
    lined: list[Item] = []
    for index, item in enumerate(found):
        if isinstance(item, Point):
            above = _line(found[index - 1]) if index else (inner if side == "Return" else None)
            last = index == len(found) - 1
            below = _line(found[index + 1]) if not last else (inner if side == "Feed" else None)
            item = replace(item, above=above, below=below)
        lined.append(item)
    return lined


def _told_by_its_fuse(steps: Sequence[PathStep], index: int) -> bool:
    """Whether this is a leg of the fuse that stands beside it in the path."""
    node = steps[index].node
    if steps[index].kind == "fuse" or node is None or node.kind not in FUSE_ENDS:
        return False
    beside = steps[max(0, index - 1) : index + 2]
    return any(step.kind == "fuse" for step in beside)


def _line(item: Item) -> Line:
    return item.line if isinstance(item, Band) else Line(None)


def _band(step: PathStep, job: Job) -> Band:
    stretch = step.stretch
    if stretch is None:  # a ground point's way back: its size and length are declared, its colour is not
        ground, _, target = step.name.partition(" to ")
        point = job.grounds.get(ground)
        cable = point.cable if point else None
        thick = cable is not None and _is_thick(cable.system, cable.number)
        length = show_both(point.cable_length.mm if point and point.cable_length else None, job.units)
        words = size(cable) if cable else NOT_RECORDED
        return Band("", Line(UNKNOWN, thick), words, length, "", "", f"cable from {ground} back to {target}")
    mm = stretch.effective_mm if stretch.effective_mm is not None else stretch.length_mm
    thick = _is_thick(stretch.size.system, stretch.size.number)
    line = Line(stretch.colour, thick)
    return Band(stretch.wire, line, size(stretch.size), show_both(mm, job.units), stretch.origin, stretch.offcut)


def _is_thick(system: str | None, number: float | None) -> bool:
    if number is None:
        return False
    return number <= THICK_AWG if system == "AWG" else number >= THICK_MM2


def _point(step: PathStep, view: View, job: Job, where: Callable[[str], str]) -> Point:
    name = step.node.name if step.node is not None and step.kind not in ("fuse", "switch") else step.name
    symbol, what = _looks(step, name, view, job)
    nameless = step.kind == "source" and step.node is None
    return Point(name, "" if nameless else name, symbol, what, where(name), step.node.made_by if step.node else "")


def _looks(step: PathStep, name: str, view: View, job: Job) -> tuple[str, str]:
    """Symbol and words of a point."""
    if step.kind == "fuse":
        fuse = view.fuses[name].facts if name in view.fuses else None
        rating = fuse.rating.text if fuse and fuse.rating and fuse.rating.value is not None else "rating not recorded"
        return "fuse", f"Fuse, {rating}"
    if step.kind == "switch":
        switch = job.switches.get(name)
        words = (switch.what if switch else "") or "Switch"
        return "contact", words + (f", worked by {switch.worked_by}" if switch and switch.worked_by else "")
    if step.kind == "ground":
        return _ground(name, job)
    if step.node is not None:
        return _node(step.node, view, job)
    return "end", _source(step, view)


def _source(step: PathStep, view: View) -> str:
    """Words of a feed that begins at a fuse whose own feed is not recorded, or inside a module."""
    fuse = view.fuses.get(step.fuse)
    if fuse is None:
        return step.name[:1].upper() + step.name[1:]
    live = {"always": "Live always", "ignition": "Live with ignition", "accessory": "Live with accessory"}
    said = live.get(fuse.facts.fed, "When it is live is not recorded")
    return f"{said}; the wire from the battery to this fuse is not recorded"


def _node(node: Node, view: View, job: Job) -> tuple[str, str]:
    plug, _, cavity = node.name.rpartition(".")
    if node.name == BATTERY_NEGATIVE:
        return "battery-minus", "Battery, negative post"
    if node.name == BATTERY_POSITIVE:
        return "battery-plus", "Battery, positive post"
    match node.kind:
        case NodeKind.JOINT:
            return "bead", splice_words(node.name, view)
        case NodeKind.SPLICE:
            splice = job.splices.get(node.name)
            rest = "" if splice is None or splice.all_members_known else "; other members not traced"
            return "factory", f"Factory splice{rest}"
        case NodeKind.CAVITY:
            connector = job.plugs.get(plug)
            what = "In-line connector" if connector and connector.in_line else "Connector"
            return "plug", f"{what} {plug}, cavity {cavity}" if plug else "Connector, cavity not recorded"
        case NodeKind.MODULE:
            module = job.modules.get(plug)
            said = module.out.get(cavity, "") if module else ""
            return "module", f"Module {plug}, cavity {cavity}" + (f": {said}" if said else "; inside not recorded")
        case NodeKind.GROUND:
            return _ground(node.name, job)
        case NodeKind.FUSE | NodeKind.FUSE_FEED:
            return "fuse", f"Fuse, {'feed side' if node.kind == NodeKind.FUSE_FEED else 'load side'}"
        case NodeKind.STUB:
            fate = node.fate.text if node.fate else "how it was left is not recorded"
            return "end", f"Cut end, {fate}"
        case _:
            return "end", "End not known"


def _ground(name: str, job: Job) -> tuple[str, str]:
    point = job.grounds.get(name)
    words = ", ".join(filter(None, [point.what, point.stud])) if point else ""
    return "ground", f"Ground point, {words}" if words else "Ground point"


def splice_words(name: str, view: View) -> str:
    """How a splice was made, in words."""
    joint = view.joints.get(name)
    if joint is None:
        return "Splice"
    how = joint.method.text if joint.method else f"method {NOT_RECORDED}"
    cover = joint.cover.text if joint.cover else f"cover {NOT_RECORDED}"
    return f"{'Tap' if joint.tap else 'Splice'}: {how}; {cover}"


def _load(name: str, job: Job) -> Point:
    load = job.loads.get(name)
    current = load.draws.current_a if load and load.draws else None
    symbol = LOAD_SYMBOLS.get(load.class_ if load else "", "load")
    return Point(name, name, symbol, "", "", "", Line(None), Line(None), amount(current, "A"))


def _beside(now: Sequence[Item], was: Sequence[Item]) -> list[PathRow]:
    """Today and the donor in rows; a point that both have stands in one row."""
    rows: list[PathRow] = []
    left = right = 0
    for one, other in [*_common(now, was), (len(now), len(was))]:
        rows += [PathRow(now=a, was=b) for a, b in zip_longest(now[left:one], was[right:other])]
        if one < len(now) and other < len(was):
            rows.append(PathRow(now=now[one], was=was[other]))
        left, right = one + 1, other + 1
    return rows


def _common(now: Sequence[Item], was: Sequence[Item]) -> list[tuple[int, int]]:
    """Indices of the points that both paths pass in the same order: the longest such row of them."""
    best = [[0] * (len(was) + 1) for _ in range(len(now) + 1)]
    for i in range(len(now) - 1, -1, -1):
        for j in range(len(was) - 1, -1, -1):
            best[i][j] = best[i + 1][j + 1] + 1 if _same(now[i], was[j]) else max(best[i + 1][j], best[i][j + 1])
    pairs = []
    i = j = 0
    while i < len(now) and j < len(was):
        if _same(now[i], was[j]):
            pairs.append((i, j))
            i, j = i + 1, j + 1
        elif best[i + 1][j] >= best[i][j + 1]:
            i += 1
        else:
            j += 1
    return pairs


def _same(one: Item, other: Item) -> bool:
    return isinstance(one, Point) and isinstance(other, Point) and one.name == other.name


def _said_once(rows: Sequence[PathRow]) -> list[PathRow]:
    """Places that come several times in a row are said in full once, then by the landmark's name."""
    before = ""
    found = []
    for row in rows:
        item = row.now
        if isinstance(item, Point) and item.where:
            if item.where == before:
                row = replace(row, now=replace(item, where=item.where.partition(",")[0]))
            before = item.where
        found.append(row)
    return found


def _run_on(rows: Sequence[PathRow], with_donor: bool) -> list[PathRow]:
    """Let the wire of the column that has nothing in a row run on through it."""
    now: Line | None = None
    was: Line | None = None
    found = []
    for row in rows:
        if row.side == "Feed":
            now = was = None
        found.append(
            replace(
                row,
                now_line=now if row.now is None else None,
                was_line=was if row.was is None and with_donor else None,
            )
        )
        now = _below(row.now, now)
        was = _below(row.was, was)
    return found


def _below(item: Item | None, before: Line | None) -> Line | None:
    if item is None:
        return before
    return item.line if isinstance(item, Band) else item.below
