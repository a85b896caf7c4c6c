"""Cut ends: is every one covered, and is one of them live (F7)."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.diagnostics import Finding, Severity
from aswired.harness import Node, NodeKind
from aswired.route import Route
from aswired.trace import Net
from aswired.worked import Worked


def judge(facts: Worked, route: Route) -> Iterator[Finding]:
    net = Net(facts.job, facts.shown)
    for node in facts.shown.nodes.values():
        if node.kind is NodeKind.STUB:
            yield from _stub(facts, net, node)
        elif node.opened_by and node.kind in (NodeKind.SPLICE, NodeKind.JOINT):
            yield from _lone_member(facts, node)


def _lone_member(facts: Worked, node: Node) -> Iterator[Finding]:
    """A splice of which one wire is left is a dead end that nobody may know of (F7)."""
    left = facts.shown.at_node[node.name]
    declared = facts.job.splices.get(node.name)
    known = node.kind is NodeKind.JOINT or (declared is not None and declared.all_members_known)
    if len(left) != 1 or not known or facts.shown.nodes[left[0].other(node.name)].kind is NodeKind.STUB:
        return
    yield Finding(
        "END06",
        Severity.WARNING,
        facts.job.line_of_row(node.opened_by[-1]),
        node.name,
        f"only {left[0].wire} is left in '{node.name}', which {node.opened_by[-1]} opened: a dead end",
        f"Take {left[0].wire} out too, or cap it and write a row of kind cap",
    )


def _stub(facts: Worked, net: Net, node: Node) -> Iterator[Finding]:
    reach = net.reach(node.name)
    hangs_on = facts.shown.at_node[node.name][0].other(node.name)
    at = facts.job.line_of_row(node.made_by)
    word = node.fate.word if node.fate is not None else ""
    if word == "uncapped" and reach.sources:
        yield Finding(
            "END01", Severity.STOP, at, node.name,
            f"the cut end on '{hangs_on}' is left open and is fed by {reach.sources[0]}",
            "Cap it before the battery goes on, then write capped and the stub's length",
        )  # fmt: skip
    elif word == "uncapped":
        yield Finding(
            "END02",
            Severity.ERROR,
            at,
            node.name,
            f"the cut end on '{hangs_on}' is left open",
            "Cap it, then write capped and the stub's length",
        )
    elif not word:
        opened = facts.shown.nodes[hangs_on]
        others = len(facts.shown.at_node[hangs_on]) > 1
        code = "END04" if opened.kind is NodeKind.SPLICE and others else "END03"
        what = f"how the splice '{hangs_on}' was left" if code == "END04" else f"how the end at '{hangs_on}' was left"
        yield Finding(
            code,
            Severity.ERROR,
            at,
            node.name,
            f"the row does not say {what}",
            f"Write {hangs_on}: flush, capped 30 mm, gone, pulled or unknown",
        )
    if word in ("capped", "taped") and _live_unfused(net, node.name):
        yield Finding(
            "END05", Severity.STOP, at, node.name,
            f"the capped end on '{hangs_on}' is joined to battery+ with no fuse between",
            "Cut it back to the source, or put a fuse at the source",
        )  # fmt: skip


def _live_unfused(net: Net, start: str) -> bool:
    """Whether battery+ is reached on any way that passes no fuse, be there a shorter one through a fuse or not."""
    seen, todo = {start}, [start]
    for at in todo:
        if at == "battery+":
            return True
        if net.is_source(at) or net.is_ground(at):
            continue
        beyond = {link.other(at) for link in net.links.get(at, ()) if link.kind != "fuse"} - seen
        seen |= beyond
        todo += sorted(beyond)
    return False
