"""What the exact allotment costs, and what it saves against the rule of thumb: 60 pieces from 80 offcuts.

    python tests/bench/bench_allot.py [pieces] [offcuts] [problems]

Pieces come in rows of one to six that share a connector and a bundle, in gauges 18 to 12 and twelve colours; five legs
run through a third of the pieces each. Nothing is asserted on time. The ratio is new wire and colour marks of first-fit
decreasing over those of the allotment, and seconds of one over the other.
"""

from __future__ import annotations

import random
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "builder"))

from aswired.rack.allot import Demand, Fit, Problem, Stock, allot, first_fit_decreasing, score  # noqa: E402

COLOURS = ("BU", "RD", "GN", "GY/WH", "VT", "YE", "BK", "BN", "PK", "WH", "RD/GN", "BU/WH")
GAUGES = (18, 16, 14, 12)


def drawn(seed: int, pieces: int, offcuts: int) -> Problem:
    """A job's worth of pieces: 400 to 1300 mm each; offcuts of 300 to 2600 mm; 30 mm trim, 150 mm worth keeping."""
    chance = random.Random(seed)
    rows: list[list[int]] = []
    wanted: list[tuple[int, str, int]] = []
    while len(wanted) < pieces:
        length = 50 * round(chance.uniform(80, 260))
        rows.append([])
        for _ in range(min(chance.randint(1, 6), pieces - len(wanted))):
            rows[-1].append(len(wanted))
            wanted.append((length, chance.choice(COLOURS), chance.choice(GAUGES)))
    rack = [
        (10 * round(chance.uniform(300, 2600)), chance.choice(COLOURS), chance.choice(GAUGES)) for _ in range(offcuts)
    ]
    pairs = {}
    for i, (length, own, gauge) in enumerate(wanted):
        for j, (left, colour, thickness) in enumerate(rack):
            if gauge - 4 <= thickness <= gauge and left >= length + 300:
                beside = chance.random() < 0.15
                pairs[i, j] = Fit(int(own != colour) + beside, own[:2] != colour[:2], own == colour)
    connectors = tuple(tuple(row) for row in rows if len(row) > 1)
    legs = tuple(tuple(sorted(chance.sample(range(pieces), pieces // 3))) for _ in range(5))
    return Problem(
        tuple(Demand(f"D{i}", length) for i, (length, _, _) in enumerate(wanted)),
        tuple(Stock(f"O{j}", left, colour) for j, (left, colour, _) in enumerate(rack)),
        pairs, connectors, legs, frozenset({"BK", "BN"}), 300, 1500,
    )  # fmt: skip


def main(pieces: int, offcuts: int, problems: int) -> None:
    print(f"{problems} problems of {pieces} pieces and {offcuts} offcuts; new wire in mm, colour marks, unusable rests")
    exact_s = thumb_s = 0.0
    sums = {"exact": [0, 0, 0], "thumb": [0, 0, 0]}
    for seed in range(problems):
        problem = drawn(seed, pieces, offcuts)
        start = time.perf_counter()
        thumb = score(problem, first_fit_decreasing(problem))
        middle = time.perf_counter()
        found = allot(problem)
        end = time.perf_counter()
        thumb_s, exact_s = thumb_s + middle - start, exact_s + end - middle
        for name, points in (("exact", found.score), ("thumb", thumb)):
            for place, aim in enumerate((0, 1, 3)):
                sums[name][place] += points[aim]
        told = [f"{points[0] / 10:7.0f} mm {points[1]:4} marks {points[3]:3} rests" for points in (found.score, thumb)]
        print(f"  {len(problem.pairs):5} fits  exact {told[0]}  {end - middle:6.2f} s   thumb {told[1]}")
    for place, what in enumerate(("new wire", "colour marks", "unusable rests")):
        exact, thumb_sum = sums["exact"][place], sums["thumb"][place]
        print(f"{what}: thumb / exact = {f'{thumb_sum / exact:.2f}' if exact else f'{thumb_sum} / 0'}")
    print(
        f"seconds: exact {exact_s / problems:.2f} a problem, thumb {thumb_s / problems:.3f}; {exact_s / thumb_s:.0f} x"
    )


if __name__ == "__main__":
    main(*(int(text) for text in (sys.argv[1:] + ["60", "80", "5"][len(sys.argv) - 1 :])))
