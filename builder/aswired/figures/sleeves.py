"""How wide a sleeve has to be as supplied, so that it goes over what it is pushed across."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from aswired.car.harness import Stretch
from aswired.figures.bundle_ways import outside_of
from aswired.record import Job
from aswired.text.units import Length

WIDER = 1.2  # bore as supplied over the largest diameter it passes: 1.1 to 1.2, common practice, no source
IN_LINE = 2  # wires that end in a joint with one on either side


def least_bore_mm(job: Job, ends: Sequence[Stretch]) -> float | None:
    """The least bore, as supplied, of a sleeve over a joint or a cut end. [mm] None where a diameter is not known.

    Args:
        ends: every stretch that ends there. With three or more, two lie side by side on one side of the joint.
    """
    found = [outside_of(job, stretch) for stretch in ends]
    thickest = sorted((outside.most_mm for outside in found if outside is not None), reverse=True)
    if not found or len(thickest) < len(found):
        return None
    return WIDER * sum(thickest[: 1 if len(thickest) <= IN_LINE else 2])


def bore_on_hand(bores: Iterable[Length], least_mm: float) -> float | None:
    """The narrowest sleeve on hand that is wide enough. [mm] None when there is none, or none is listed."""
    wide = [bore.mm for bore in bores if bore.mm is not None and bore.mm >= least_mm - 1e-9]
    return min(wide, default=None)
