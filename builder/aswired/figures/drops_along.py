"""Where the volts go: what each thing on a load's way costs, alone and with every load on that can be on together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from aswired.car.circuits import Element, Path, PathStep
from aswired.network.copper import Part
from aswired.network.grid import Branch, Grid
from aswired.network.transfer import FEED, UnitSolutions
from aswired.physics.drops import drop_v

SAME_AMPS = 1e-6  # rounding of the solution


def branches_of(path: Path, grid: Grid) -> tuple[Branch, ...]:
    """The branches of the network that a path runs through, in its order."""
    return tuple(branch for _, _, branch in _passed(path, grid))


def elements(
    transfer: UnitSolutions,
    name: str,
    side: str,
    alone: Mapping[str, float | None],
    together: Mapping[str, float | None],
) -> tuple[Element, ...]:
    """Everything on one side of a load in the direction of its current; () where the way is not complete.

    `alone` and `together` are the loads that draw, with their currents. [A]

    The volts of an element are its resistance times the current through it, so that those of a way on which no current
    divides add up to the drop of that side.
    """
    circuit = transfer.circuits[name]
    path = circuit.feed if side == FEED else circuit.back
    if path.state != "complete" or transfer.refused:
        return ()
    own = transfer.units[name, side].shares
    found: list[Element] = []
    for entered, step, branch in _passed(path, transfer.grid):
        way = -1.0 if own.get(transfer.grid.run_of[branch.key], 1.0) < 0 else 1.0
        amps_alone, amps_together = (_amps(transfer, branch, amps, way) for amps in (alone, together))
        for part in _in_order(branch.parts, entered):
            found.append(_element(branch, part, step, amps_alone, amps_together))
    if path.steps[-1].kind == "ground":
        found.append(Element(f"way back from {path.steps[-1].name}", "body", "", None, None, None, None, None))
    return tuple(_halves_joined(found))


def _passed(path: Path, grid: Grid) -> Iterable[tuple[str, PathStep, Branch]]:
    """Every step of a path that is a branch, behind the name of what stands before it.

    Of a cavity in which wires meet the contact is passed where the path goes on behind it, by a load, a switch or a
    module, and not where it goes on by another wire of the same terminal.
    """
    by_name = {branch.name: branch for branch in grid.branches if branch.kind == "stretch"}
    found = [_branch_of(step, grid.by_key, by_name) for step in path.steps]
    before = ""
    for index, (step, branch) in enumerate(zip(path.steps, found, strict=True)):
        if branch is not None:
            yield before, step, branch
        elif step.node is not None and (pair := grid.by_key.get(f"pair {step.node.name}")) is not None:
            beside = [other for other in (*found[max(0, index - 1) : index], *found[index + 1 : index + 2]) if other]
            if sum(pair.a in (other.a, other.b) for other in beside) == 1:
                yield before, step, pair
        before = step.node.name if step.node is not None else step.name


def _branch_of(step: PathStep, by_key: Mapping[str, Branch], by_name: Mapping[str, Branch]) -> Branch | None:
    if step.stretch is not None:
        return by_name.get(step.stretch.name)
    if step.kind in ("fuse", "switch", "cable"):
        return by_key.get(f"{step.kind} {step.name}")
    return None


def _amps(transfer: UnitSolutions, branch: Branch, amps: Mapping[str, float | None], way: float) -> float | None:
    if transfer.through(branch, amps).volts is None:
        return None
    index = transfer.grid.run_of[branch.key]
    return way * transfer.currents((index,), amps)[index]


def _in_order(parts: tuple[Part, ...], entered: str) -> tuple[Part, ...]:
    """The parts of a branch as the current meets them: what stands at its first end comes before the wire."""
    first = tuple(part for part in parts if part.at and part.at == entered)
    return (*first, *(part for part in parts if part not in first))


def _element(branch: Branch, part: Part, step: PathStep, alone: float | None, together: float | None) -> Element:
    volts = [None if amps is None or part.mohm is None else drop_v(part.mohm, amps) for amps in (alone, together)]
    kind = "join" if part.at else "wire" if branch.kind == "stretch" else branch.kind
    stretch = step.stretch if kind == "wire" else None
    return Element(part.name, kind, part.at, stretch, part.mohm, together, volts[0], volts[1])


def _halves_joined(found: Iterable[Element]) -> Iterable[Element]:
    """The two halves of a splice or a mated pair as one, unless a current joins or leaves between them."""
    last: Element | None = None
    for element in found:
        if last is not None and _one_with(last, element):
            last = replace(
                last,
                name=last.name.removeprefix("half the "),
                mohm=_sum(last.mohm, element.mohm),
                alone_v=_sum(last.alone_v, element.alone_v),
                together_v=_sum(last.together_v, element.together_v),
            )
            continue
        if last is not None:
            yield last
        last = element
    if last is not None:
        yield last


def _one_with(one: Element, two: Element) -> bool:
    if not one.at or one.at != two.at or one.name != two.name:
        return False
    if one.amps is None or two.amps is None:
        return one.amps is two.amps
    return abs(one.amps - two.amps) < SAME_AMPS


def _sum(one: float | None, two: float | None) -> float | None:
    return None if one is None or two is None else one + two
