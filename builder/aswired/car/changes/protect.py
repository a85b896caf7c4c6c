"""protect: a fuse or a relay is assigned; a wire end moves to a fuse, or a fuse is let into a wire (F21)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes.kind import Kind, Said, at_end, done_and_tested, named_wires, no_ends, no_name
from aswired.car.changes.move import move_end
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE, NodeKind, RelayState
from aswired.car.loom import Refused, WorkingHarness
from aswired.record import Change
from aswired.text.units import end_words, is_named


def apply(row: Change, loom: WorkingHarness) -> None:
    _whole(row, loom)
    if row.relay:
        known = loom.s.relays.get(row.relay, RelayState(row.relay, ()))
        loom.s.relays[row.relay] = replace(
            known,
            rows=(*known.rows, row.id),
            fed=row.fed or known.fed,
            feeds=row.feeds or known.feeds,
            use=row.use or "in use",
        )
        return
    said = {"rating": row.rating, "fed": row.fed, "feeds": row.feeds, "in_": row.where}
    loom.assign_fuse(row, row.fuse, {"use": row.use or "in use"} | {key: value for key, value in said.items() if value})
    if row.wire:
        loom.wire(row.wire, row)
        if row.tail is None:
            _moved(row, loom)
        else:
            _let_in(row, loom)


def _whole(row: Change, loom: WorkingHarness) -> None:
    """Refuse a row whose keys do not belong together."""
    if row.fuse and row.relay:
        raise Refused("the row names a fuse and a relay", "Write a row for each", "relay")
    if row.relay and (row.wire or row.end or row.tail or row.rating):
        raise Refused(
            f"a relay has several contacts and no rating; the row does not say which contact of '{row.relay}' is meant",
            f"Put the wire into its contact with a row of kind terminate, into: {row.relay}.87, and the rating "
            "on its fuse",
            "relay",
        )
    if row.relay:
        return
    name = row.fuse
    if not is_named(name):
        raise Refused("the row does not name its fuse", "Write the name on the fuse box or the tape: fuse: F16", "fuse")
    tables = {"plug": loom.job.plugs, "ground point": loom.job.grounds, "splice": loom.job.splices}
    what = next((word for word, table in tables.items() if name in table), "")
    if "." in name or what:
        raise Refused(
            f"'{name}' is {f'a {what}' if what else 'one side of a fuse'}, not a fuse",
            f"Write the fuse's own name: fuse: {name.partition('.')[0] if not what else 'F16'}",
            "fuse",
        )
    if row.wire and row.use == "spare":
        raise Refused(
            f"'{name}' cannot be spare with wire '{row.wire}' on it", "Take use: or wire: out", "use", about=(row.wire,)
        )
    if row.wire and not row.end:
        loom.wire(row.wire, row)
        ends = loom.loose_ends(row.wire)
        raise Refused(
            f"the row does not say which end of wire '{row.wire}' goes to '{name}'",
            f"Write end: {' or end: '.join(ends)}",
            "wire",
            about=(row.wire,),
        )
    if (row.end or row.tail) and not row.wire:
        raise Refused("the row names an end but no wire", "Write wire: and its name", "end" if row.end else "tail")


def _moved(row: Change, loom: WorkingHarness) -> None:
    """The row's wire end leaves where it was and sits in the fuse."""
    _, node = loom.end_of(row.wire, row.end, "end")
    kind = loom.s.nodes[node].kind
    brings_feed = kind is NodeKind.FUSE_FEED or _fed_end(loom, row.wire, node) not in ("", node)
    to = loom.target(f"{row.fuse}.feed" if brings_feed else row.fuse, "fuse", row.wire)
    if to != node and to in loom.loose_ends(row.wire):
        raise Refused(
            f"both ends of wire '{row.wire}' would sit in '{to}'", "Name another fuse", "fuse", about=(row.wire, to)
        )
    move_end(row, loom, row.wire, to, "terminal")


def _let_in(row: Change, loom: WorkingHarness) -> None:
    """The wire is cut `tail:` from the row's end and both cut ends sit in the holder of an in-line fuse."""
    number, node = loom.end_of(row.wire, row.end, "end")
    run = loom.s.runs[number]
    tail = row.tail.mm if row.tail else None
    feed = f"{row.fuse}.feed"
    if loom.members(row.fuse) or loom.members(feed):
        raise Refused(
            f"fuse '{row.fuse}' has wires on it already; an in-line fuse sits in one wire",
            "Give the new fuse a name of its own, or take tail: out to move the end to it",
            "fuse",
        )
    if tail is not None and run.reach_mm is not None and tail >= run.reach_mm:
        raise Refused(
            f"{round(tail)} mm from '{node}' lies beyond the {round(run.reach_mm)} mm of this stretch",
            "Measure again",
            "tail",
            about=(node,),
        )
    from_load_side = _fed_end(loom, row.wire, node) not in ("", node)
    near, far = (row.fuse, feed) if from_load_side else (feed, row.fuse)
    near, far = loom.target(near, "fuse", row.wire), loom.target(far, "fuse", row.wire)
    other = run.other(node)
    rest = None if tail is None or run.reach_mm is None else run.reach_mm - tail
    loom.s.runs.pop(number)
    loom.add(replace(run.part(node, near, tail).with_barrel(near, loom.house.strip_mm), via=""))
    loom.add(run.part(other, far, rest).with_barrel(far, loom.house.strip_mm))
    loom.s.fuses[row.fuse] = replace(loom.s.fuses[row.fuse], in_wire=row.wire)
    loom.touched(row.wire, row.id)


def _fed_end(loom: WorkingHarness, wire: str, end: str) -> str:
    """The end by which the wire is fed, told by what its own two ends sit in; '' where that does not tell."""
    ends = (end, loom.far_end(wire, end))
    fed = [name for name in ends if _gives(loom, name)]
    takes = [name for name in ends if _takes(loom, name)]
    if len(fed) == 1:
        return fed[0]
    if not fed and len(takes) == 1:
        return ends[1] if takes[0] == end else end
    return ""


def _gives(loom: WorkingHarness, name: str) -> bool:
    part, _, cavity = name.partition(".")
    module = loom.job.modules.get(part)
    words = module.out.get(cavity, "").casefold().split() if module is not None else []
    feeds = bool(words) and words[0] != "data"
    return name == BATTERY_POSITIVE or loom.s.nodes[name].kind is NodeKind.FUSE or feeds


def _takes(loom: WorkingHarness, name: str) -> bool:
    part, _, cavity = name.partition(".")
    module = loom.job.modules.get(part)
    return (
        name == BATTERY_NEGATIVE
        or loom.s.nodes[name].kind in (NodeKind.FUSE_FEED, NodeKind.GROUND)
        or (module is not None and cavity in module.ground)
    )


def _facts(row: Change) -> Iterator[Said]:
    if row.tail is not None:
        yield Said("tail", "along the wire to the fuse", row.tail)
        yield Said("end", "measured from", end_words(row.end))
    rating = row.rating.text if row.rating is not None else ""
    said = (
        ("rating", "rating", rating),
        ("fed", "live", row.fed),
        ("feeds", "feeds", row.feeds),
        ("use", "use", row.use),
    )
    yield from (Said(key, words, value) for key, words, value in said if value)


def _heading(row: Change) -> str:
    if row.relay:
        return f"Relay {row.relay} assigned"
    if not row.wire:
        return f"Fuse {row.fuse} {'left spare' if row.use == 'spare' else 'assigned'}"
    return f"Fuse {row.fuse} let into {row.wire}" if row.tail else f"{row.wire}{at_end(row)} moved to fuse {row.fuse}"


KIND = Kind(
    name="protect",
    means="a fuse or relay assigned: rating, what feeds it, spare; a wire moved to it, or a fuse let into a wire",
    written=(
        "a `fuse:` or `relay:` assigned: `rating:`, `fed:`, `feeds:`, `use: spare`; with `wire:` and "
        "`end:` that end moves to it; with `tail:` too the fuse is let into the wire"
    ),
    keys=("fuse", "relay", "rating", "fed", "feeds", "use", "wire", "was", "end", "tail", "where", "terminal",
        "terminal fixed"),
    needs=(("fuse", "relay"),), apply=apply, touches=named_wires,
    brings=lambda row: row.fuse, lead=no_ends, moves_to=no_name,
    terminals=lambda row: (row.fuse, f"{row.fuse}.feed") if row.wire else (),
    alters="wire", does="", cuts=False, joints=False, grounds=False,
    turn=9, visit="", concerns="parts",
    heading=_heading,
    lengths={}, facts=_facts, ticks=done_and_tested("fitted"),
)  # fmt: skip
