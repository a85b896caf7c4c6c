"""Where joints lie once later rows have changed the wire between them and the end they were measured from.

A row gives its joint a distance from an end. A later row that lets a piece in between, takes some out, or moves that
end makes the distance another: it is worked out anew along the wire as it is in the end (sum of what lies between, L5),
or is not recorded. What a row says of its own cut (`cut_face_mm` from `cut_from`) stays as it was made.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from aswired.car.harness import Joint, Stretch
from aswired.physics.lengths import less, total

_SAME_MM = 0.5  # what rounding to whole millimetres on the way may make


@dataclass(frozen=True)
class _Way:
    """The wire from a joint to an end or to a joint before it: the stretches, and the nodes that each leads to."""

    stretches: tuple[Stretch, ...]
    nodes: tuple[str, ...]

    def up_to(self, node: str) -> _Way:
        count = self.nodes.index(node) + 1
        return _Way(self.stretches[:count], self.nodes[:count])

    @property
    def along_mm(self) -> float | None:
        return total(*(stretch.effective_mm for stretch in self.stretches))

    @property
    def beside_mm(self) -> float | None:
        """By tape measure: slack moves no joint (M11)."""
        return less(self.along_mm, total(*(stretch.slack_mm for stretch in self.stretches)))


def remeasured(
    joints: Mapping[str, Joint], stretches: Iterable[Stretch], donor_ends: Mapping[str, tuple[str, str]]
) -> dict[str, Joint]:
    """The joints with their distances as they are in the end. `donor_ends`: wire -> its two ends in the donor."""
    measured = {joint.wires[0] for joint in joints.values() if joint.from_end}
    of_wire: dict[str, dict[str, list[Stretch]]] = {}
    for stretch in stretches:
        if stretch.wire in measured:
            at = of_wire.setdefault(stretch.wire, {})
            for end in dict.fromkeys(stretch.ends):
                at.setdefault(end, []).append(stretch)
    return {
        name: _as_it_lies(joint, joints, of_wire.get(joint.wires[0], {}), donor_ends.get(joint.wires[0], ("", "")))
        if joint.from_end
        else joint
        for name, joint in joints.items()
    }


def _as_it_lies(
    joint: Joint, joints: Mapping[str, Joint], at: Mapping[str, list[Stretch]], donor_ends: tuple[str, str]
) -> Joint:
    ways = [_follow(joint.id, stretch, at) for stretch in at.get(joint.id, ())]
    own = next((way for way in ways if joint.from_end in way.nodes), None)
    if own is not None:
        found = _from_its_end(joint, own.up_to(joint.from_end), joints)
    else:
        beyond = {joint.other_end, *donor_ends} - {"", joint.from_end}
        left = [way for way in ways if not beyond.intersection(way.nodes)]
        own = left[0] if len(left) == 1 else None
        found = replace(joint, from_end="", centre_mm=None, beside_mm=None)
        if own is not None:
            found = _over(replace(joint, from_end=own.nodes[-1]), own)
    return _from_the_other(found, [way for way in ways if way is not own], joints)


def _from_its_end(joint: Joint, way: _Way, joints: Mapping[str, Joint]) -> Joint:
    along = way.along_mm
    if joint.centre_mm is None or (along is not None and abs(along - joint.centre_mm) <= _SAME_MM):
        return joint
    if along is None:
        return replace(joint, centre_mm=None, beside_mm=None) if _changed(joint, way, joints) else joint
    return _over(joint, way)


def _over(joint: Joint, way: _Way) -> Joint:
    over = tuple((stretch.name, stretch.effective_mm) for stretch in way.stretches)
    return replace(joint, centre_mm=way.along_mm, beside_mm=way.beside_mm, over=over)


def _from_the_other(joint: Joint, ways: list[_Way], joints: Mapping[str, Joint]) -> Joint:
    if joint.other_mm is None:
        return joint
    way = next((way.up_to(joint.other_end) for way in ways if joint.other_end in way.nodes), None)
    if way is None:
        return replace(joint, other_end="", other_mm=None)
    beside = way.beside_mm
    if beside is None:
        return replace(joint, other_mm=None) if _changed(joint, way, joints) else joint
    return joint if abs(beside - joint.other_mm) <= _SAME_MM else replace(joint, other_mm=beside)


def _changed(joint: Joint, way: _Way, joints: Mapping[str, Joint]) -> bool:
    """Whether a node between is of another row's making; a tap on the wire leaves it as long as it was."""
    between = way.nodes[:-1]
    return any(
        name not in joints or (joints[name].row != joint.row and joints[name].through != joint.wires[0])
        for name in between
    )


def _follow(start: str, first: Stretch, at: Mapping[str, list[Stretch]]) -> _Way:
    """The wire from a node along one of its stretches to its end."""
    stretches, nodes = [first], [first.other(start)]
    while True:
        ahead = [stretch for stretch in at[nodes[-1]] if stretch is not stretches[-1]]
        if len(ahead) != 1 or ahead[0] in stretches:
            return _Way(tuple(stretches), tuple(nodes))
        stretches.append(ahead[0])
        nodes.append(ahead[0].other(nodes[-1]))
