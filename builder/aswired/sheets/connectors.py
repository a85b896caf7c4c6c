"""Connectors cavity by cavity: what sits there now, what sat there in the donor, and what nobody looked at."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from aswired.car.harness import NodeKind, View
from aswired.car.trace import Net
from aswired.figures.worked import JobResult
from aswired.record import Change, Plug
from aswired.sheets.findings import standing_at
from aswired.sheets.frame import Frame, PageOut
from aswired.sheets.looms import loom_rows
from aswired.sheets.recorded import cavity_words, plug_words, wire_notes
from aswired.sheets.text import size
from aswired.text.colours import Colour
from aswired.text.units import MOST_COUNTED, natural, whole_number
from aswired.text.unsaid import NOT_RECORDED, Unsaid

MOST_WAYS = 200  # a larger number of ways is not listed one by one


@dataclass(frozen=True)
class Sitting:
    """A wire end in a cavity. `goes_to` is the other end of its stretch, `row` the row that put this stretch in.

    For a wire that passes an in-line plug uncut, `passes` is true and `goes_to` names both ends.
    """

    wire: str
    colour: Colour
    size: str
    goes_to: tuple[str, ...]
    row: str
    passes: bool = False


@dataclass(frozen=True)
class CavityRow:
    """One cavity. `changed` tells whether it differs from the donor; `why` which rows did it."""

    cavity: str
    node: str
    now: tuple[Sitting, ...]
    now_words: str  # what to say when nothing sits there
    donor: tuple[Sitting, ...]
    donor_words: str
    changed: bool
    same_wire: bool  # the same wire sits there; only its other end lies elsewhere now
    rows: tuple[str, ...]
    carries: str  # what it is for, in the record's own words
    was: str = ""  # cavity of the connector that this one replaced
    now_in: str = ""  # cavity of the connector that replaced this one


@dataclass(frozen=True)
class ConnectorView:
    """One connector with the cavities that were met."""

    name: str
    place: str
    ways: str
    seen_from: str  # wire side, mating side; '' when it is not recorded
    in_line: bool
    gone: bool
    note: str
    beside: str  # of its terminals, its back and what is behind it
    cavities: tuple[CavityRow, ...]
    not_examined: str  # cavity numbers, or 'others'; '' when none are named
    changed: bool  # some cavity differs from the donor
    silent: str  # cavities of which nothing at all is written: '6, 9 to 12'
    replaces: str = ""  # the connector whose place it took
    replaced_by: str = ""
    swapped_by: str = ""  # the row that put the one in the other's place


@dataclass(frozen=True)
class ModuleCavity:
    """A cavity of a module that the record relies on."""

    cavity: str
    says: str
    wires: tuple[Sitting, ...]


@dataclass(frozen=True)
class ModuleView:
    """A control module: only what is relied on; its inside is not recorded."""

    name: str
    place: str
    cavities: tuple[ModuleCavity, ...]
    not_examined: str
    carries: tuple[str, ...] = ()  # what others rely on it for
    gone: bool = False


def connector_views(worked: JobResult) -> tuple[ConnectorView, ...]:
    """Every connector of the job, in the order of the file, then those first used by a wire end."""
    used = dict.fromkeys(
        plug
        for view in (worked.donor, worked.shown)
        for node in view.nodes.values()
        if node.kind == NodeKind.CAVITY
        for plug in [node.name.rpartition(".")[0]]
    )
    names = [*worked.job.plugs, *(plug for plug in used if plug not in worked.job.plugs)]
    swaps = [change for change in worked.rows_of(worked.shown) if change.new_plug]
    net = worked.network.grid.net
    return tuple(_connector(name, swaps, net, worked) for name in names)


def module_views(worked: JobResult) -> tuple[ModuleView, ...]:
    """Every module of the job, in the order of the file."""
    found = []
    for name, module in worked.job.modules.items():
        rows = (
            ModuleCavity(cavity, says, _sitting(f"{name}.{cavity}", worked.shown))
            for cavity, says in cavity_words(module).items()
        )
        unseen = ", ".join(module.cavities_not_examined)
        found.append(ModuleView(name, module.place, tuple(rows), unseen, module.carries, module.gone))
    return tuple(found)


def ranges(numbers: Sequence[int]) -> str:
    """Whole numbers in rising order, runs of three and more drawn together.

    >>> ranges([1, 2, 5, 6, 7, 9])
    '1, 2, 5 to 7, 9'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts: list[str] = []
    for run in runs:
        parts += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
    return ", ".join(parts)


def _connector(name: str, swaps: Sequence[Change], net: Net, worked: JobResult) -> ConnectorView:
    plug = worked.job.plugs.get(name, Plug())
    into = next((row for row in swaps if row.new_plug == name), None)
    out = next((row for row in swaps if row.plug == name), None)
    last = out or into
    seen_from = plug.seen_from or (last.seen_from if last else "")
    cavities = _met(name, worked)
    unseen = plug.cavities_not_examined
    gone = plug.gone or out is not None or _all_gone(name, cavities, worked)
    rows = tuple(_cavity(name, cavity, gone, net, worked) for cavity in cavities)
    return ConnectorView(
        name=name,
        place=plug.place or _old_place(into, worked) or NOT_RECORDED,
        ways=plug.ways,
        seen_from="" if seen_from in ("", "unknown") else seen_from,
        in_line=plug.in_line,
        gone=gone,
        note=plug.note,
        beside=plug_words(plug),
        cavities=rows,
        changed=any(row.changed for row in rows),
        not_examined="all others" if "others" in unseen else ", ".join(unseen),
        silent="" if "others" in unseen else _silent(plug, {*cavities, *unseen}),
        replaces=into.plug if into else "",
        replaced_by=out.new_plug if out else "",
        swapped_by=last.id if last else "",
    )


def _old_place(swap: Change | None, worked: JobResult) -> str:
    """Where the connector was that a row replaced: the new one is there, unless its own place is written."""
    old = worked.job.plugs.get(swap.plug) if swap is not None else None
    return old.place if old is not None else ""


def _silent(plug: Plug, spoken_of: set[str]) -> str:
    """Cavities that nothing is written of, by number; how many, where the numbers on the plug are not 1 to its ways."""
    ways = whole_number(plug.ways)
    if ways is None or ways > MOST_WAYS:
        return ""
    if any((number := whole_number(cavity)) is None or not 1 <= number <= ways for cavity in spoken_of):
        left = ways - len(spoken_of)
        return f"{left} more" if left > 0 else ""
    return ranges([number for number in range(1, ways + 1) if str(number) not in spoken_of])


def _met(name: str, worked: JobResult) -> list[str]:
    """Cavities in which a wire end sits in the donor or now: numbers in order, then words as met."""
    views = (worked.donor, worked.shown)
    ending = (node.name for view in views for node in view.nodes.values() if node.kind == NodeKind.CAVITY)
    passed = (stretch.via for view in views for stretch in view.stretches if stretch.via)
    found = dict.fromkeys(node.rpartition(".")[2] for node in (*ending, *passed) if node.rpartition(".")[0] == name)
    return sorted(
        found,
        key=lambda cavity: (number if (number := whole_number(cavity)) is not None else MOST_COUNTED, natural(cavity)),
    )


def _all_gone(plug: str, cavities: Sequence[str], worked: JobResult) -> bool:
    """Whether the record left the ends in every cavity that was met 'gone': they left with the part they sat in."""
    left = {
        end: fate.word
        for change in worked.rows_of(worked.shown)
        for wire in change.wire_names
        for end, fate in worked.fates_of(change, wire).items()
    }
    nodes = [f"{plug}.{cavity}" for cavity in cavities]
    return bool(nodes) and all(left.get(node) == "gone" and not _sitting(node, worked.shown) for node in nodes)


def _cavity(plug: str, cavity: str, gone: bool, net: Net, worked: JobResult) -> CavityRow:
    node = f"{plug}.{cavity}"
    now, donor = _sitting(node, worked.shown), _sitting(node, worked.donor)
    changed = _looks(now) != _looks(donor)
    return CavityRow(
        cavity=cavity,
        node=node,
        now=now,
        now_words="" if now else "left the car" if gone else "empty",
        donor=donor,
        donor_words="" if donor else Unsaid("empty, or not recorded"),
        changed=changed,
        same_wire=bool(now) and {look[:3] for look in _looks(now)} == {look[:3] for look in _looks(donor)},
        rows=_rows(now, donor, worked) if changed else (),
        carries=_carries(node, (*now, *donor), net),
        was=next((old for old, new in worked.shown.replaced.items() if new == node), ""),
        now_in=worked.shown.replaced.get(node, ""),
    )


def _looks(sitting: Iterable[Sitting]) -> set[tuple[str, str, str, tuple[str, ...]]]:
    return {(item.wire, item.colour.code, item.size, item.goes_to) for item in sitting}


def _sitting(node: str, view: View) -> tuple[Sitting, ...]:
    ending = (
        Sitting(stretch.wire, stretch.colour, size(stretch.size), (stretch.other(node),), stretch.origin)
        for stretch in view.at_node.get(node, ())
    )
    passing = (
        Sitting(stretch.wire, stretch.colour, size(stretch.size), stretch.ends, stretch.origin, True)
        for stretch in view.stretches
        if stretch.via == node
    )
    return (*ending, *passing)


def _rows(now: Iterable[Sitting], donor: Iterable[Sitting], worked: JobResult) -> tuple[str, ...]:
    """Rows in force that worked on the wires that sit or sat there."""
    wires = {item.wire for item in (*now, *donor)}
    return tuple(row.id for row in worked.shown.rows if row.counts and wires.intersection(row.touched_wires))


def _carries(node: str, sitting: Iterable[Sitting], net: Net) -> str:
    """What the cavity is for: the wire's circuit as written, else the load that it is an end of."""
    for item in sitting:
        wire = net.job.wires.get(item.wire)
        if wire is not None and wire.circuit:
            return wire.circuit
    return ", ".join(net.load_at.get(node, ()))


def pages(frame: Frame) -> Iterable[PageOut]:
    """The connectors."""
    worked = frame.worked
    yield frame.page(
        "connectors",
        "connectors.html",
        connectors=connector_views(worked),
        modules=module_views(worked),
        looms=loom_rows(worked),
        findings=standing_at(worked.findings, (*worked.job.plugs, *worked.job.modules)),
        wires=wire_notes(worked),
        drawn={name: wire.by_diagram for name, wire in worked.job.wires.items() if wire.by_diagram},
        loom_of=worked.job.loom_of,
    )
