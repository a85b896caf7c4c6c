"""What a line may carry: by the copper of its size, its metal, its insulation and the heat of its legs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from aswired.car.harness import Stretch
from aswired.car.insulation import BEARS, insulation_of
from aswired.ledger.record import HotLeg, Reason, UnreadHeat, Weight, Why
from aswired.network.copper import STEPS_APART, conductor_of, material_of, steps_between
from aswired.physics.carrying import PLANNED_A, SHARE_OF_COPPER, bound_a, heat_factor, planned_a
from aswired.record import Job
from aswired.record.limits import TABLE
from aswired.text.diagnostics import Location
from aswired.text.units import Size, is_unknown

_IN_TABLE = {limit.key: limit.value for limit in TABLE}
_POOREST = min(_IN_TABLE[key] for key in BEARS.values())
HOTTEST = max(_IN_TABLE[key] for key in BEARS.values())  # what any insulation of the table bears [C]


@dataclass(frozen=True)
class Carries:
    """What a line is planned to carry and may carry at the most [A], None where that is not known, with its copper
    [mm2]; `reasons` say what is missing for it, or speak against it. `bound_if_written` is the bound that it would have
    with the poorest insulation of the table, where nobody wrote which it has. `later` is what will be missing as soon
    as the size is read."""

    area: float | None
    planned: float | None
    bound: float | None
    reasons: tuple[Reason, ...] = ()
    bound_if_written: float | None = None
    later: tuple[Reason, ...] = ()


THICK = Carries(1e6, 1e9, 1e9)  # more than any wire: what is asked of it is asked of a wire of any size


def carries(job: Job, stretch: Stretch, hot: HotLeg | None) -> Carries:
    """What a stretch may carry; `hot` is the hottest leg it is recorded to run through.

    Where two sizes of it are written that cannot both be, the thicker counts, and the size is missing; likewise of a
    metal that is not known copper counts, which carries most.
    """
    open_ = [*_metal(job, stretch)]
    thicker = _contradicts(job, stretch)
    if thicker is not None:
        other = _also_written(job, stretch)
        open_.append(replace(_unread(job, stretch), by=(stretch.size.text, other.text if other is not None else "")))
    found = _carries(job, replace(stretch, size=thicker) if thicker is not None else stretch, hot)
    return replace(found, reasons=tuple(dict.fromkeys((*found.reasons, *_too_hot(job, stretch, hot), *open_))))


def _too_hot(job: Job, stretch: Stretch, hot: HotLeg | None) -> Iterator[Reason]:
    """Insulation that does not bear the heat of its way, be it live or dead; above what the table has, any."""
    bears, at = _bears(job, stretch)
    if hot is not None and _melts(bears, hot.celsius):
        yield _heat(_piece(stretch), hot, bears, at)


def _melts(bears: float | None, celsius: float) -> bool:
    """Whether insulation does not bear a heat; of insulation that is not written, whether none of the table does."""
    return celsius > min(HOTTEST, bears if bears is not None else HOTTEST)


def _heat(piece: str, hot: HotLeg, bears: float | None, at: Location) -> Reason:
    weight = Weight.NEVER if hot.celsius > HOTTEST else Weight.BY_NAME
    most = bears if bears is not None else HOTTEST
    return Reason(Why.HEAT, weight, piece, at, "insulation", celsius=hot.celsius, most_celsius=most, by=(hot.leg,))


def _bears(job: Job, stretch: Stretch) -> tuple[float | None, Location]:
    """What the insulation of a stretch bears [C], None where it is not written, and where it would be. A job may hold
    its insulation to less; what plastic bears is no choice of a shop."""
    insulation, at = insulation_of(job, stretch)
    kept = BEARS.get(insulation)
    return (min(job.limits_in_force[kept].value, _IN_TABLE[kept]) if kept is not None else None), at


def _carries(job: Job, stretch: Stretch, hot: HotLeg | None) -> Carries:
    found = conductor_of(stretch.size, job)
    material, written = material_of(stretch, job), insulation_of(job, stretch)
    kept = BEARS.get(written[0])
    if found is None:
        of_any_size = THICK if hot is None else _heated(THICK, _piece(stretch), hot.celsius, *_bears(job, stretch))
        later = tuple(reason for reason in of_any_size.reasons if reason.weight is Weight.MISSING)
        return Carries(None, None, None, (_unread(job, stretch),), later=later)
    planned = planned_a(found.area_mm2)
    bound = bound_a(found.area_mm2, _IN_TABLE[kept] if kept is not None else None, _gauge(stretch.size))
    share = SHARE_OF_COPPER.get(material, 1.0)
    if planned is None or bound is None:  # thinner than every row: above the thinnest one it is surely too much
        thinnest = min(row.amps for row in PLANNED_A.values()) * share
        return Carries(found.area_mm2, thinnest, thinnest, (_unread(job, stretch),))
    written_so = bound_a(found.area_mm2, _POOREST, _gauge(stretch.size)) if kept is None else None
    better = written_so.value * share if written_so is not None else None
    cool = Carries(found.area_mm2, planned.value * share, bound.value * share, (), better)
    return cool if hot is None else _heated(cool, _piece(stretch), hot.celsius, *_bears(job, stretch))


def of_cable(job: Job, ground: str, size: Size | None, hot: HotLeg | None) -> Carries:
    """The same for the cable of a ground point. Nothing can be written of its insulation, so that of the heat only what
    no insulation bears is held against it."""
    cable = of_size(job, size)
    if cable is None:
        at = job.grounds[ground].line_of("cable")
        return Carries(None, None, None, (Reason(Why.CABLE, Weight.MISSING, ground, at, "cable"),))
    if hot is None or not _melts(None, hot.celsius):
        return cable
    return replace(cable, reasons=(_heat(ground, hot, None, job.grounds[ground].line_of("back to")),))


def of_size(job: Job, size: Size | None) -> Carries | None:
    """What a cable of which only the size is written may carry; None where that is not known or in no table."""
    found = conductor_of(size, job) if size is not None else None
    planned = planned_a(found.area_mm2) if found is not None else None
    if size is None or found is None or planned is None:
        return None
    bound = bound_a(found.area_mm2, None, _gauge(size))
    return Carries(found.area_mm2, planned.value, bound.value if bound is not None else None)


def leg_heat(of: str, unread: UnreadHeat | None) -> Iterator[Reason]:
    """What is missing of the heat around a wire or a ground point's cable."""
    if unread is not None:
        key = "hottest" if unread.celsius is None else "where"
        yield Reason(Why.LEG_HEAT, Weight.MISSING, unread.leg, unread.at, key, celsius=unread.celsius, by=(of,))


def _gauge(size: Size) -> int | None:
    """The gauge of a wire that is sold by it."""
    return int(size.number) if size.system == "AWG" and size.number is not None else None


def _heated(cool: Carries, piece: str, celsius: float, bears: float | None, at: Location) -> Carries:
    """What is left of it in a hot leg; insulation that is not written leaves that open."""
    if _melts(bears, celsius):
        return cool  # the heat itself is against it, whatever it carries
    shares = heat_factor(bears, celsius)
    if shares is None:
        reason = Reason(Why.INSULATION, Weight.MISSING, piece, at, "insulation", celsius=celsius)
        return Carries(cool.area, cool.planned, cool.bound, (reason,))
    planned = (cool.planned or 0.0) * shares.planned
    return Carries(cool.area, planned, max(planned, (cool.bound or 0.0) * shares.bound))


def _metal(job: Job, stretch: Stretch) -> Iterator[Reason]:
    """A conductor that is written as unknown, or is resistance wire, of which no table says what it may carry."""
    row, wire = job.change(stretch.origin), job.wires.get(stretch.wire)
    special = row.special if row is not None else wire.special if wire is not None else ""
    key = "special" if special == "resistance wire" else "conductor"
    if key == "special" or is_unknown(material_of(stretch, job)):
        written = row or wire
        at = written.line_of(key) if written is not None else job.at
        yield Reason(Why.METAL, Weight.MISSING, _piece(stretch), at, key)


def _also_written(job: Job, stretch: Stretch) -> Size | None:
    """The second size that is written of a conductor: of a wire its print in the other system, of a piece the size of
    the offcut that it was cut from."""
    wire, offcut = job.wires.get(stretch.wire), job.offcuts.get(stretch.offcut)
    if not stretch.origin:
        return wire.other_size if wire is not None else None
    return offcut.size if offcut is not None else None


def _contradicts(job: Job, stretch: Stretch) -> Size | None:
    """The thicker of two sizes that are written of one conductor and cannot both be; None where they agree, or where
    one of them is not read."""
    other = _also_written(job, stretch)
    steps = steps_between(stretch.size, other, job) if other is not None else None
    if other is None or steps is None:
        return None
    apart = 0.0 if other.system == stretch.size.system else STEPS_APART
    if abs(steps) <= apart + 1e-9:
        return None
    return stretch.size if steps > 0 else other


def _unread(job: Job, stretch: Stretch) -> Reason:
    row, wire = job.change(stretch.origin), job.wires.get(stretch.wire)
    if row is not None:
        at = row.line_of("wires" if row.wires else "piece")
    else:
        at = wire.line_of("size") if wire is not None else job.at
    return Reason(Why.SIZE, Weight.MISSING, _piece(stretch), at, "piece" if row is not None else "size")


def _piece(stretch: Stretch) -> str:
    """The wire, or the piece that a row put into it."""
    return f"{stretch.origin}-{stretch.wire}" if stretch.origin else stretch.wire
