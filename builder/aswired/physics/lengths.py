"""Cut lengths, joint places and what a joint takes up: the length rules L1 to L11. All in mm.

Words. Reference point of an end: barrel mouth of its terminal, cable side. Reach: length of a wire
between its two reference points. Tail: conductor from the fixed end to the cut face; pigtail: from the
plug that moved to the cut face; both before stripping. Piece: cut length of the wire let in, face to
face. Take-up 1 is that of the joint on the tail, take-up 2 that of the joint on the pigtail. Strip:
conductor that goes into a terminal's barrel.

A length that is not recorded is None, and so is every figure that needs it. Nothing is rounded
except by `round_up`. Source of every formula: geometry of the joint, stated at the function.
"""

import math
from dataclasses import dataclass

JOINT_METHODS = ("lap", "butt", "lineman", "closed-end", "clip", "tap")
ROUNDING_GUARD = 1e-9  # parts of a step: 530.0000000001 mm is 530 mm, not 535 mm


@dataclass(frozen=True)
class Gap:
    """Cut face to cut face, both halves in place (L1, L8).

    gap_mm: the gap that counts [mm]; below zero: the halves overlap.
    given_as: "gap", "reach" or "route": what it was taken from, in this order.
    apart_mm: largest difference between the statements given [mm]; None when there is only one.
    """

    gap_mm: float
    given_as: str
    apart_mm: float | None


@dataclass(frozen=True)
class CutLength:
    """A length to cut (L9, M4).

    cut_mm: as cut [mm]. slack_mm: slack the wire has after it [mm].
    """

    cut_mm: float
    slack_mm: float


@dataclass(frozen=True)
class JointCentres:
    """Where the centres of the joints of an extension lie (L5, M11). [mm], None = not recorded

    from_plug_mm: plug-side joint, from the plug's reference point.
    from_fixed_mm: fixed-side joint, from the fixed end's reference point.
    apart_mm: centre to centre along the piece.
    """

    from_plug_mm: float | None
    from_fixed_mm: float | None
    apart_mm: float | None


def take_up(
    method: str,
    overlap_mm: float | None,
    *,
    through_wire: bool = False,
) -> float | None:
    """L2: conductor that one joint swallows: lengths going in less length after joining. [mm]

    Args:
        method: one of JOINT_METHODS. lap: the overlap of the bare conductors. butt (barrel with
            stop): 0, the strip is inside the cut length. lineman, clip: the overlap. closed-end
            (both from one side): twice the overlap. tap: the overlap for the wire tapped on, 0 for
            the through wire.
        overlap_mm: overlap of the bare conductors, >= 0; None = not recorded.
        through_wire: True for the uncut wire of a tap.

    Raises:
        ValueError: the method is not known, the overlap is below zero, or through_wire is given for
            a joint that is no tap.

    >>> take_up("closed-end", 8)
    16
    """
    if method not in JOINT_METHODS:
        raise ValueError(f"joint '{method}' is not known; known: {', '.join(JOINT_METHODS)}")
    if overlap_mm is not None and overlap_mm < 0:
        raise ValueError(f"overlap_mm must not be below zero, got {overlap_mm:g}")
    if through_wire and method != "tap":
        raise ValueError(f"a {method} joint has no through wire")
    if method == "butt" or through_wire:
        return 0.0
    if method == "closed-end" and overlap_mm is not None:
        return 2 * overlap_mm
    return overlap_mm


def gap(
    *,
    gap_mm: float | None = None,
    reach_mm: float | None = None,
    route_mm: float | None = None,
    tail_mm: float | None = None,
    pigtail_mm: float | None = None,
) -> Gap | None:
    """L1 and L8: the gap as stated, or reach - tail - pigtail, or the same with the route's length.

    Args:
        gap_mm: measured cut face to cut face; wins over the others.
        reach_mm: measured length between the reference points.
        route_mm: length between the ends along the measured route.
        tail_mm, pigtail_mm: what stays on either end; 0 for an end that gets a new terminal.

    Returns:
        None when no statement is complete: the piece is not computed.

    >>> gap(reach_mm=1200, tail_mm=600, pigtail_mm=150).gap_mm
    450
    """
    stated = {
        "gap": gap_mm,
        "reach": total(reach_mm, _minus(tail_mm), _minus(pigtail_mm)),
        "route": total(route_mm, _minus(tail_mm), _minus(pigtail_mm)),
    }
    known = {given_as: value for given_as, value in stated.items() if value is not None}
    if not known:
        return None
    given_as, counts = next(iter(known.items()))
    if len(known) == 1:
        return Gap(counts, given_as, None)
    apart = max(known.values()) - min(known.values())
    return Gap(counts, given_as, apart)


def extension_piece(
    gap_mm: float | None, slack_mm: float | None, take_up_1_mm: float | None, take_up_2_mm: float | None
) -> float | None:
    """L3, a piece between two joints: e = gap + slack + o1 + o2. [mm]

    From tail + e + pigtail - o1 - o2 = reach + slack. The result may be below zero when the halves
    overlap: no piece is needed.

    >>> extension_piece(457.2, 50, 10, 10)   # 18 in
    527.2
    """
    return total(gap_mm, slack_mm, take_up_1_mm, take_up_2_mm)


def terminated_piece(
    gap_mm: float | None, slack_mm: float | None, take_up_mm: float | None, strip_mm: float | None
) -> float | None:
    """L4, a piece with one joint and a new terminal: e = gap + slack + o + k. [mm]

    gap_mm runs from the cut face to the barrel mouth of the new terminal.

    >>> round(terminated_piece(584.2, 50, 10, 6), 6)   # 23 in
    650.2
    """
    return total(gap_mm, slack_mm, take_up_mm, strip_mm)


def new_wire(
    reach_mm: float | None, slack_mm: float | None, strip_1_mm: float | None, strip_2_mm: float | None
) -> float | None:
    """L4, a whole new wire with two terminals: e = reach + slack + k1 + k2. [mm]"""
    return total(reach_mm, slack_mm, strip_1_mm, strip_2_mm)


def shorten_take_out(
    length_mm: float | None, reach_mm: float | None, slack_mm: float | None, swallowed_mm: float | None
) -> float | None:
    """L6, length to take out of a wire that is too long: x = L - reach - slack - swallowed. [mm]

    Args:
        length_mm: L, length of the wire between its reference points now.
        reach_mm: length it needs.
        slack_mm: slack to leave.
        swallowed_mm: take-up of the joint that closes the cut, or the strip of a new terminal.

    Returns:
        Below zero: the wire is too short for this by so much (cannot be lapped: fold it or
        put a terminal on).

    >>> shorten_take_out(1000, 800, 50, 10)
    140
    """
    return total(length_mm, _minus(reach_mm), _minus(slack_mm), _minus(swallowed_mm))


def shorten_take_out_of_overlap(
    gap_mm: float | None, slack_mm: float | None, swallowed_mm: float | None
) -> float | None:
    """L6 with L unknown and the halves measured to overlap: x = -gap - slack - swallowed. [mm]

    gap_mm is below zero; the result below zero means the same as in `shorten_take_out`.
    """
    return total(_minus(gap_mm), _minus(slack_mm), _minus(swallowed_mm))


def gain(
    piece_mm: float | None, take_up_1_mm: float | None, take_up_2_mm: float | None, middle_out_mm: float | None = 0.0
) -> float | None:
    """L7 and M2, what an extension really adds: e - o1 - o2 - middle taken out. [mm]

    >>> gain(530, 10, 10)
    510.0
    """
    return total(piece_mm, _minus(take_up_1_mm), _minus(take_up_2_mm), _minus(middle_out_mm))


def middle_out(length_mm: float | None, tail_mm: float | None, pigtail_mm: float | None) -> float | None:
    """M2, wire left over between two cuts: L - tail - pigtail. [mm]

    0 with one cut; below zero: tail and pigtail together are longer than the wire was, one of the
    three is measured wrongly.
    """
    return total(length_mm, _minus(tail_mm), _minus(pigtail_mm))


def joint_centres(
    tail_mm: float | None,
    pigtail_mm: float | None,
    piece_mm: float | None,
    take_up_1_mm: float | None,
    take_up_2_mm: float | None,
) -> JointCentres:
    """L5 and M11, centres of the two joints of an extension.

    A centre lies half a take-up inside the cut face: pigtail - o2/2 from the plug, tail - o1/2 from
    the fixed end; they are e - (o1 + o2)/2 apart. Slack lies in the piece and moves neither. For a
    row with one joint give pigtail and take-up 2 as None: only from_fixed_mm is told.

    >>> joint_centres(600, 152.4, 530, 10, 10)
    JointCentres(from_plug_mm=147.4, from_fixed_mm=595.0, apart_mm=520.0)
    """
    return JointCentres(
        from_plug_mm=total(pigtail_mm, _minus(half(take_up_2_mm))),
        from_fixed_mm=total(tail_mm, _minus(half(take_up_1_mm))),
        apart_mm=total(piece_mm, _minus(half(take_up_1_mm)), _minus(half(take_up_2_mm))),
    )


def staggered_pigtail(pigtail_mm: float | None, stagger_mm: float | None, index: int) -> float | None:
    """L10, pigtail of the wire number index (first = 0) of one plug: pigtail + index x stagger. [mm]

    The gap is the same for all of them, so the piece is too.

    Raises:
        ValueError: index is below zero.
    """
    if index < 0:
        raise ValueError(f"index must not be below zero, got {index}")
    if index == 0:
        return pigtail_mm
    return total(pigtail_mm, None if stagger_mm is None else index * stagger_mm)


def staggered_tail(tail_mm: float | None, stagger_mm: float | None, index: int) -> float | None:
    """L10 from the other side: what the pigtail gains the tail loses, so that the gap stays the same. [mm]

    Raises:
        ValueError: index is below zero.

    >>> staggered_tail(600, 50, 2)
    500
    """
    return staggered_pigtail(tail_mm, _minus(stagger_mm), index)


def round_up(exact_mm: float, slack_mm: float, step_mm: float | None) -> CutLength:
    """L9, cut to the next whole step; what is added goes into slack.

    Args:
        exact_mm: computed length.
        slack_mm: slack it was computed with.
        step_mm: > 0; None = cut as computed.

    Raises:
        ValueError: the step is not above zero.

    >>> round_up(527.2, 50, 5).cut_mm
    530
    """
    if step_mm is None:
        return CutLength(exact_mm, slack_mm)
    if not step_mm > 0:
        raise ValueError(f"step_mm must be above zero, got {step_mm:g}")
    cut_mm = step_mm * math.ceil(exact_mm / step_mm - ROUNDING_GUARD)
    return CutLength(cut_mm, slack_mm + cut_mm - exact_mm)


def recorded_cut(cut_mm: float, exact_mm: float, slack_mm: float) -> CutLength:
    """M4, a length as it was cut beside the computed one: slack is what is left over.

    A slack below zero means the piece is too short by so much.

    >>> round(recorded_cut(500, 527.2, 50).slack_mm, 6)
    22.8
    """
    return CutLength(cut_mm, slack_mm + cut_mm - exact_mm)


def total(*terms_mm: float | None) -> float | None:
    """Sum of the terms; None as soon as one is not recorded, never 0 in its place. [mm]"""
    known = [term for term in terms_mm if term is not None]
    return sum(known) if len(known) == len(terms_mm) else None


def less(whole_mm: float | None, part_mm: float | None) -> float | None:
    """The whole without the part; None as soon as one is not recorded. [mm]"""
    return total(whole_mm, _minus(part_mm))


def _minus(value_mm: float | None) -> float | None:
    return None if value_mm is None else -value_mm


def half(value_mm: float | None) -> float | None:
    """Half of it; None when it is not recorded. [mm]"""
    return None if value_mm is None else value_mm / 2
