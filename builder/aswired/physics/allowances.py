"""What a joint, a cavity, a ring, a fuse, a switch and a relay's contact are counted with while nobody measured them.

One table, in milliohms, each line with a band and with where it comes from. `usual:` of a job sets single lines in its
place; a reading over the part itself replaces both (`network.copper`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

ESTIMATE = "estimate, no source"
READ, MEMORY, MEMORY_LOW = "read", "from memory", "from memory, not sure"
DATA_SHEET = "one maker's data sheet of a blade fuse, cold"


@dataclass(frozen=True)
class Allowance:
    """A resistance that is counted until it is measured: typical value and band [mohm], source and mark."""

    key: str
    mohm: float
    low_mohm: float
    high_mohm: float
    what: str
    source: str
    mark: str


TABLE: tuple[Allowance, ...] = (
    Allowance("joint", 1.0, 0.2, 2.0, "one splice that is sound, the maker's own among them", "", ESTIMATE),
    Allowance("cavity", 4.0, 3.0, 5.0, "one mated pair of terminals", "", ESTIMATE),
    Allowance("ring", 1.5, 1.0, 2.0, "one ring on its stud", "", ESTIMATE),
    Allowance("switch", 20.0, 10.0, 30.0, "one closed switch", "", ESTIMATE),
    Allowance("contact", 7.5, 5.0, 10.0, "one closed relay contact", "", ESTIMATE),
)
BY_KEY: Mapping[str, Allowance] = {line.key: line for line in TABLE}

# Blade fuse of one maker's standard series: rating [A] -> cold resistance [mohm], mark. Other makers and sizes differ
# by 10 to 20 %; warm at its rating a fuse has about 1.43 times as much (computed: drop at rating / (rating x cold)).
BLADE_FUSE_MOHM: Mapping[float, tuple[float, str]] = {
    1: (123.0, READ), 2: (53.5, READ), 3: (31.1, MEMORY), 4: (22.8, READ), 5: (17.85, MEMORY), 7.5: (10.91, MEMORY),
    10: (7.7, READ), 15: (4.8, MEMORY), 20: (3.38, MEMORY), 25: (2.52, MEMORY), 30: (1.97, MEMORY),
    35: (1.61, MEMORY_LOW), 40: (1.44, MEMORY_LOW),
}  # fmt: skip
BLADE_FUSE_SPREAD = 0.20
BLADE_FUSE_WARM = 1.43  # at its rating against cold; median of the table's rows, computed


def fuse_allowance(rating_a: float | None) -> Allowance | None:
    """The cold resistance of a blade fuse of one rating; above 40 A the share that keeps the last row's drop.

    None where the rating is not recorded.

    >>> fuse_allowance(10).mohm
    7.7
    """
    if rating_a is None:
        return None
    if rating_a in BLADE_FUSE_MOHM:
        mohm, mark = BLADE_FUSE_MOHM[rating_a]
        source = DATA_SHEET
    else:
        below = max((row for row in BLADE_FUSE_MOHM if row < rating_a), default=min(BLADE_FUSE_MOHM))
        mohm, mark = BLADE_FUSE_MOHM[below][0] * below / rating_a, f"computed, its row {BLADE_FUSE_MOHM[below][1]}"
        source = f"{DATA_SHEET}, {below:g} A, as much drop at its rating"
    low, high = mohm * (1 - BLADE_FUSE_SPREAD), mohm * BLADE_FUSE_WARM * (1 + BLADE_FUSE_SPREAD)
    return Allowance(f"fuse {rating_a:g} A", mohm, low, high, f"a {rating_a:g} A fuse", source, mark)
