"""What the job's header says of the whole car."""

from __future__ import annotations

from aswired.codes.code import Code

CODES = (
    Code(
        "HDR01",
        ("error",),
        "positive ground: no electrical figure holds",
        "The header says that the positive pole is on the body. Feeds and returns are told for a car with negative "
        "ground.",
        "A technician who trusts a figure told the wrong way round measures the wrong wire.",
        "ground side: positive",
        "ground side: negative",
    ),
)
