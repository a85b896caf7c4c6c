"""What the job's header says of the whole car."""

from __future__ import annotations

from aswired.checks.codes.code import Code

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
    Code(
        "HDR02",
        ("warning",),
        "a supply that does not belong to the system",
        "'supply:' lies below 85 % or above 125 % of 'system:'. A 12 V car stands between 10.2 and 15 V, a 24 V one "
        "between 20.4 and 30 V; the bounds are an estimate of ours.",
        "Every expected volt is counted from the supply.",
        "system: 24 V\nsupply: 13.5 V",
        "system: 24 V\nsupply: 27 V",
    ),
)
