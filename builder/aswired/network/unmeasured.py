"""Why the length of a stretch is not recorded: which lines of the house method it waits for."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.harness import Joint, NodeKind, Stretch, View
from aswired.record import Job, usual_line

_HOLDS_A_TERMINAL = (NodeKind.CAVITY, NodeKind.MODULE, NodeKind.GROUND, NodeKind.FUSE, NodeKind.FUSE_FEED)


def lines_to_write(stretch: Stretch, view: View, job: Job) -> str:
    """What would make the length of a stretch known: `usual: {ring strip: 6 mm}`; '' where no such line would."""
    waits = tuple(dict.fromkeys(key for key in _waits_for(stretch, view, job) if key not in job.usual.lines))
    return usual_line(*waits) if waits else ""


def _waits_for(stretch: Stretch, view: View, job: Job) -> Iterator[str]:
    """Keys of `usual:` that its rows leave to it, whether or not it says them."""
    if _row_is_silent(stretch, view):
        return  # no line of the house method would make it known
    piece = job.change(stretch.origin)
    if piece is not None and piece.cut is None and piece.slack is None:
        yield "slack"
    rows = [row for name in view.wires[stretch.wire].rows if name in view.counted and (row := job.change(name))]
    for end in stretch.ends:
        joint = view.joints.get(end)
        if joint is not None:
            yield from _joint_waits_for(joint, stretch)
        elif view.nodes[end].kind in _HOLDS_A_TERMINAL and any(kind_of(row).new_terminals(row, (end,)) for row in rows):
            yield "ring strip"


def _row_is_silent(stretch: Stretch, view: View) -> bool:
    """Whether the length of a piece lacks something that only its own row could say, such as a gap or a reach."""
    pieces = (piece for piece in view.pieces if (piece.row, piece.wire) == (stretch.origin, stretch.wire))
    unknown = (piece for piece in pieces if piece.length_mm is None)
    return any(given.value is None and not given.write for piece in unknown for given in piece.computed.inputs)


def _joint_waits_for(joint: Joint, stretch: Stretch) -> Iterator[str]:
    if joint.method is None and not joint.tap:
        yield "joint"
    elif joint.overlap_mm is None and joint.through != stretch.wire:
        form = "tap" if joint.tap else joint.method.form if joint.method is not None else ""
        yield from () if form in ("butt", "unknown") else ("overlap",)
