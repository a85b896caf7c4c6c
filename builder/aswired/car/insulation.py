"""What is recorded of a wire's insulation, and how hot it may get."""

from __future__ import annotations

from aswired.car.harness import Stretch
from aswired.record import Job
from aswired.text.diagnostics import Location

BEARS = {  # insulation -> the limit that says how hot it may get
    "PVC": "heat of PVC",
    "cross-linked": "heat of cross-linked",
    "silicone": "heat of silicone",
    "fluoropolymer": "heat of fluoropolymer",
}


def insulation_of(job: Job, stretch: Stretch) -> tuple[str, Location]:
    """What is recorded of a stretch's insulation, and where; '' for nothing.

    A row says it of its piece, else the rack says it of an offcut; what the shop usually puts in is new wire.
    """
    row, wire = job.change(stretch.origin), job.wires.get(stretch.wire)
    if row is None:
        return (wire.insulation, wire.line_of("insulation")) if wire is not None else ("", job.at)
    if row.insulation:
        return row.insulation, row.line_of("insulation")
    at = row.line_of("wires" if row.wires else "piece")
    if stretch.offcut:
        offcut = job.offcuts.get(stretch.offcut)
        return (offcut.insulation if offcut is not None else ""), at
    return job.usual.insulation, at
