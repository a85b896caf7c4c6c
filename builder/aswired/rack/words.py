"""A proposal as the terminal shows it: the cut list by offcut, the rests, the colours that change, what is bought."""

from __future__ import annotations

from collections.abc import Sequence

from aswired.rack.allot import AIMS, TENTH_MM
from aswired.rack.propose import Buy, Proposal
from aswired.text.units import show_both


def proposal_text(proposal: Proposal) -> str:
    """The whole proposal, ready to print."""
    units = proposal.worked.job.units
    if not proposal.cuts and not proposal.buy and not proposal.pieces_aside:
        return "No planned piece waits for wire."
    parts = [
        _cut_list(proposal, units),
        _rests(proposal, units),
        _colours(proposal),
        _bought(proposal.buy, units),
        _listed("Not allotted", [(aside.name, aside.why) for aside in proposal.pieces_aside]),
        _listed("Offcuts not offered", [(aside.name, aside.why) for aside in proposal.offcuts_aside]),
        _listed("Look at before cutting", _to_look_at(proposal)),
        _proof(proposal),
    ]
    return "\n\n".join(filter(None, parts))


def _cut_list(proposal: Proposal, units: str) -> str:
    rows = [
        (
            cut.offcut.name,
            f"{cut.offcut.colour.code} {cut.offcut.size.text.strip()}",
            "rack" if cut.offcut.rack is not None else "this job",
            cut.wanted.piece.id,
            show_both(cut.wanted.length_mm, units),
            ""
            if cut.offcut.size.text.split() == cut.wanted.size.text.split()
            else f"for {cut.wanted.size.text.strip()}",
        )
        for cut in proposal.cuts
    ]
    if not rows:
        return "No piece is cut from an offcut."
    return "Cut list\n" + _columns([("offcut", "wire", "from", "piece", "cut", ""), *rows])


def _rests(proposal: Proposal, units: str) -> str:
    trim = proposal.worked.job.limits_in_force["trim"].value
    rows = [
        (
            rest.offcut.name,
            "nothing" if rest.rest_mm == 0 else show_both(rest.rest_mm, units),
            "" if rest.usable or rest.rest_mm == 0 else "too short to keep",
        )
        for rest in proposal.rests
    ]
    return f"Rests, {trim:g} mm trim a piece taken off\n{_columns(rows)}" if rows else ""


def _colours(proposal: Proposal) -> str:
    rows = [
        (cut.wanted.piece.id, f"{cut.wanted.own.code} goes on as {cut.offcut.colour.code}")
        for cut in proposal.cuts
        if cut.changes
    ]
    return _listed("Colours that change", rows) if rows or not proposal.cuts else "No colour changes."


def _bought(buy: Sequence[Buy], units: str) -> str:
    if not buy:
        return ""
    rows = []
    for one in buy:
        colour = one.wanted.own.code if one.wanted.own.known else "colour not recorded"
        length = show_both(one.wanted.length_mm, units)
        rows.append((one.wanted.piece.id, f"{colour} {one.wanted.size.text.strip()}", length, one.why))
    whole = show_both(sum(one.wanted.length_mm for one in buy), units)
    return f"New wire, {whole} together\n{_columns(rows)}"


def _to_look_at(proposal: Proposal) -> list[tuple[str, str]]:
    """What the record does not say of the offcuts that are used, and the legs whose heat nobody wrote down."""
    used = {cut.offcut.name: cut.offcut for cut in proposal.cuts}
    rows = [
        (name, "its condition is not recorded; brown, oily or nicked wire is not put in")
        for name, offcut in used.items()
        if offcut.condition in ("", "unknown")
    ]
    unknown = [cut.wanted.piece.id for cut in proposal.cuts if not cut.wanted.legs]
    if unknown:
        rows.append((", ".join(unknown), "way not recorded: heat and colours of the bundle were not compared"))
    return rows


def _listed(title: str, rows: Sequence[tuple[str, str]]) -> str:
    return f"{title}\n" + "\n".join(f"  {name}: {why}" for name, why in rows) if rows else ""


def _proof(proposal: Proposal) -> str:
    answer = proposal.answer
    if not proposal.cuts and not proposal.buy:
        return ""
    if not answer.open_aim:
        return (
            "Proved best: least new wire, then fewest colour changes and repeats, fewest unusable rests, least waste."
        )
    place = AIMS.index(answer.open_aim)
    in_mm = place in (0, 4)
    gain = f"{answer.gap / TENTH_MM:g} mm" if in_mm else str(answer.gap)
    value = f"{answer.score[place] / TENTH_MM:g} mm" if in_mm else str(answer.score[place])
    return (
        f"Not proved best: time ran out. {answer.open_aim.capitalize()}: {value}, at most {gain} better. "
        "Give it more with --seconds"
    )


def _columns(rows: Sequence[Sequence[str]]) -> str:
    wide = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return "\n".join(
        "  " + "  ".join(text.ljust(width) for text, width in zip(row, wide, strict=True)).rstrip() for row in rows
    )
