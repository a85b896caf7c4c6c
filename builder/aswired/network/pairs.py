"""Cavities in which several wires meet in one terminal: one contact carries what they bring together.

Two wires in a cavity with nothing behind it lie on its two halves, and share the contact between them in series (F11).
"""

from __future__ import annotations

from collections.abc import Mapping

from aswired.car.harness import NodeKind, Stretch
from aswired.car.trace import Net


def shared_pairs(net: Net) -> Mapping[str, tuple[Stretch, ...]]:
    """Cavity -> the wires that sit in one terminal of it, on one side of the contact.

    On its other side is the load, the switch or the inside of the module. Where nothing is declared there and more than
    two wires meet, it is the one wire that leads on to a feed or a ground: so that the contact carries what all the
    others take together. Which wires lie on which half is not recorded; where that wire cannot be told, none is named.
    """
    found: dict[str, tuple[Stretch, ...]] = {}
    for name, wires in net.view.at_node.items():
        if len(wires) < 2 or net.node(name).kind not in (NodeKind.CAVITY, NodeKind.MODULE):
            continue
        plug = net.job.plugs.get(name.partition(".")[0])
        if _something_behind(net, name) and not (plug is not None and plug.in_line):
            found[name] = wires
        elif len(wires) > 2:
            onward = [wire for wire in wires if _leads_on(net, name, wire)]
            if len(onward) == 1:
                found[name] = tuple(wire for wire in wires if wire not in onward)
    return found


def _something_behind(net: Net, name: str) -> bool:
    return name in net.load_at or net.is_source(name) or any(link.kind == "switch" for link in net.links[name])


def _leads_on(net: Net, name: str, wire: Stretch) -> bool:
    """Whether a feed or a ground is reached by one of the wires that meet in a cavity."""
    todo = [wire.other(name)]
    seen = {name, *todo}
    for at in todo:
        if net.is_source(at) or net.is_ground(at):
            return True
        for link in net.links.get(at, ()):
            other = link.other(at)
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return False
