"""What a row's lengths come to: the cut piece with its figure, and the places of its joints.

Rules L1 to L10; the arithmetic itself stands in `physics.lengths`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from aswired.car.harness import CutPiece
from aswired.car.loom import Refused, WorkingHarness, WorkingStretch
from aswired.physics import lengths
from aswired.physics.figure import Figure, Input, lacking
from aswired.record import Change
from aswired.text.colours import UNKNOWN
from aswired.text.one_line import UNREAD_SIZE, Piece
from aswired.text.units import Length

BY_ROUTE = "route, place of both ends"
OTHER_STATEMENT = "other statement of the gap differs by"  # the term of a length that a check looks for
UNSAID = Piece("not recorded", UNKNOWN, UNREAD_SIZE)


@dataclass(frozen=True)
class Halves:
    """What stays of a stretch on either side of its cut, and what falls out between (M2). [mm], None = not recorded

    `both_mm` is what stays in all. It may be known where neither side is: a stagger takes from the tail what it gives
    to the pigtail, and of a wire cut once nothing falls out.
    """

    tail_mm: float | None
    pigtail_mm: float | None
    both_mm: float | None
    middle_mm: float | None


@dataclass(frozen=True)
class Measured:
    """A piece as it lies in the car: its length, and the slack it has after rounding."""

    length_mm: float | None
    slack_mm: float | None
    piece: Piece


def gap_of(
    row: Change, loom: WorkingHarness, run: WorkingStretch, fixed: str, moved: str, kept: Halves
) -> tuple[float | None, list[Input]]:
    """The gap of a row with its inputs: as measured, from reach, or from the route (L1, L8). [mm]

    A gap that is written and not known stays so, and a reach that is not known is not taken from the route.
    """
    reach_mm = row.reach.mm if row.reach else None
    route_mm = None if row.reach and reach_mm is None else along_route(loom, fixed, moved, loom.s.wires[run.wire].by)
    found = None
    if row.gap is None or row.gap.mm is not None:
        found = lengths.gap(
            gap_mm=row.gap.mm if row.gap else None,
            reach_mm=reach_mm,
            route_mm=route_mm,
            tail_mm=kept.both_mm,
            pigtail_mm=0.0,
        )
    if found is None:
        missing = [Input("gap", None, "mm", "not recorded")]
        if row.gap is None and (row.reach or route_mm is not None):  # it would follow, but for these
            terms = {"reach": reach_mm if row.reach else route_mm, "tail": kept.tail_mm, "pigtail": kept.pigtail_mm}
            missing += [Input(name, None, "mm", "not recorded") for name, mm in terms.items() if mm is None]
        return None, missing
    if found.given_as == "gap":
        inputs = [loom.house.said("gap", row, "gap", found.gap_mm)]
    else:
        by_reach = loom.house.said("reach", row, "reach", reach_mm)
        inputs = [
            Input("gap", found.gap_mm, "mm", f"{found.given_as} - tail - pigtail"),
            by_reach if found.given_as == "reach" else Input(found.given_as, route_mm, "mm", BY_ROUTE),
        ]
        if kept.tail_mm is None or kept.pigtail_mm is None:
            inputs.append(Input("tail and pigtail together", kept.both_mm, "mm", "what stays of the wire"))
        else:
            inputs += [
                loom.house.said("tail", row, "tail", kept.tail_mm),
                loom.house.said("pigtail", row, "pigtail", kept.pigtail_mm),
            ]
    if found.apart_mm is not None and found.apart_mm > loom.job.limits_in_force["length apart"].value:
        said = [f"{row.gap.mm:.0f} mm as written"] if row.gap and row.gap.mm is not None else []
        if kept.both_mm is not None:
            said += [_gap_by("reach", reach_mm, kept.both_mm)] if reach_mm is not None else []
            said += [_gap_by(f"{route_mm:.0f} mm of route", route_mm, kept.both_mm)] if route_mm is not None else []
        inputs.append(Input(OTHER_STATEMENT, found.apart_mm, "mm", ", ".join(said)))
    return found.gap_mm, inputs


def _gap_by(what: str, whole_mm: float, halves_mm: float) -> str:
    """
    >>> _gap_by("reach", 1500.0, 1000.0), _gap_by("reach", 800.0, 1000.0)
    ('500 mm by its reach', 'none by its reach, which the wire exceeds by 200 mm')
    """
    gap_mm = whole_mm - halves_mm
    return (
        f"{gap_mm:.0f} mm by its {what}"
        if gap_mm > 0
        else f"none by its {what}, which the wire exceeds by {-gap_mm:.0f} mm"
    )


def cut_piece(
    row: Change,
    loom: WorkingHarness,
    wire: str,
    run: WorkingStretch | None,
    exact_mm: float | None,
    terms: list[Input],
    swallowed_mm: tuple[float | None, ...],
    rule: str,
    formula: str,
    middle_mm: float | None = 0.0,
) -> Measured:
    """The piece a row lets in: figure, rack account, cut list entry.

    `exact_mm` is its length before rounding; `terms` are the inputs in the order of the formula, slack among them;
    `swallowed_mm` what joints and barrels take (for the gain, L7); `middle_mm` wire taken out between two cuts (M2).
    """
    piece_id = row.id if wire == row.id else f"{row.id}-{wire}"  # a jumper may be named after its row
    slack_mm, _ = loom.house.slack(row)
    exact = None if exact_mm is None else round(exact_mm, 6)  # inches come to tenths of a micrometre
    if exact is not None and exact <= 0:
        raise _no_piece(row, wire, exact)
    step = loom.job.usual.cut_to_next.mm if loom.job.usual.cut_to_next else None
    inputs = list(terms)
    if step and exact is not None and slack_mm is not None:
        inputs.append(loom.house.said("rounded up to the next", row, "cut to next", step))
    value, slack_after, note = _cut(row, exact, slack_mm, step)
    recorded = row.cut.mm if row.cut else None
    what = f"cut length of the piece for {wire}"
    figure = Figure(f"{piece_id}.cut", what, value, "mm", rule, formula, tuple(inputs), lacking(terms), note)
    loom.s.figures.append(figure)
    length = row.cut.mm if row.cut else value  # a cut that nobody knows is not the computed one
    piece = row.piece_of(wire) or UNSAID
    loom.use_offcut(row, piece, piece_id, length)
    gain = (
        None
        if any(part is None for part in swallowed_mm)
        else lengths.gain(length, sum(part or 0 for part in swallowed_mm), 0.0, middle_mm)
    )
    replaced = run.colour if run is not None else UNKNOWN
    loom.s.pieces.append(
        CutPiece(
            piece_id, row.id, wire, piece.colour, piece.size, piece.offcut, figure, recorded, gain, replaced, length
        )
    )
    return Measured(length, slack_after, piece)


def _cut(
    row: Change, exact: float | None, slack_mm: float | None, step: float | None
) -> tuple[float | None, float | None, str]:
    """What to cut, the slack that the piece leaves, and how they came about, of a piece of that exact length. [mm]"""
    if exact is None or slack_mm is None:  # the slack is a term of the exact length
        return None, None if row.cut else slack_mm, ""
    to_cut = lengths.round_up(exact, slack_mm, step)
    if row.cut is None:
        return to_cut.cut_mm, to_cut.slack_mm, f"exact {exact:.1f} mm; slack after rounding {to_cut.slack_mm:.1f} mm"
    if row.cut.mm is None:
        return to_cut.cut_mm, None, f"exact {exact:.1f} mm; how long it was cut is not known"
    left_mm = lengths.recorded_cut(row.cut.mm, exact, slack_mm).slack_mm
    return (
        to_cut.cut_mm,
        left_mm,
        f"exact {exact:.1f} mm; recorded cut {row.cut.mm:.1f} mm leaves {left_mm:.1f} mm slack",
    )


def _no_piece(row: Change, wire: str, exact: float) -> Refused:
    """The wire reaches without a piece. [mm]"""
    measured = "gap" if row.gap else "reach" if row.reach else ""
    by = f"by the {measured}" if measured else "by the route, the row gives neither gap nor reach"
    mend = (
        f"Shorten the wire instead, or measure the {measured} again"
        if measured
        else "Write gap: as measured; or look at the length of the wire, the route and the place of both ends"
    )
    return Refused(f"the piece for {wire} would be {round(exact)} mm {by}; no piece is needed", mend, measured or "id")


def written_halves(row: Change, loom: WorkingHarness, index: int) -> tuple[Length | None, Length | None]:
    """Tail and pigtail that the row gives its wire number `index` (L10); None where the row does not write them.

    A half that follows from the other is not told here. One that is written and not known, or that needs a stagger
    nobody knows, is a length without millimetres.
    """
    stagger = row.stagger or loom.job.usual.stagger
    step_mm = stagger.mm if stagger else None
    tail, pigtail = row.tail, row.pigtail
    return (
        tail and replace(tail, mm=lengths.staggered_tail(tail.mm, step_mm, index)),
        pigtail and replace(pigtail, mm=lengths.staggered_pigtail(pigtail.mm, step_mm, index)),
    )


def kept_lengths(row: Change, loom: WorkingHarness, run: WorkingStretch, index: int) -> Halves:
    """Tail, pigtail and what falls out between them, of a stretch that a row cuts (M2).

    A half that the row does not write follows from the stretch's length: the wire was cut once and nothing fell out. A
    half that is written and not known stays so: the length less the other half would hide what fell out.
    """
    reach, (tail, pigtail) = run.reach_mm, written_halves(row, loom, index)
    if row.tail and row.pigtail and tail and pigtail:
        both_mm = lengths.total(row.tail.mm, row.pigtail.mm)  # whatever the stagger
        middle_mm = lengths.middle_out(reach, row.tail.mm, row.pigtail.mm)
        return Halves(tail.mm, pigtail.mm, both_mm, middle_mm)
    if tail is not None:
        return Halves(tail.mm, lengths.less(reach, tail.mm), reach, 0.0)
    if pigtail is not None:
        return Halves(lengths.less(reach, pigtail.mm), pigtail.mm, reach, 0.0)
    return Halves(None, None, reach, 0.0)


def along_route(loom: WorkingHarness, start: str, end: str, by: tuple[str, ...] = ()) -> float | None:
    """Length along the route between two ends. [mm]

    None also where both lie at one place: how far apart two parts at one landmark are is not recorded, and it is not 0.
    """
    here, there = loom.route.of_end(start), loom.route.of_end(end)
    return (loom.route.distance(here, there, by) or None) if here and there else None
